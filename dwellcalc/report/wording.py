"""Words of titles and numbers within a sentence."""

from __future__ import annotations


def lowered(title: str) -> str:
    """A title within a sentence."""
    return f"{title[:1].lower()}{title[1:]}"


def counted(number: int, name: str) -> str:
    """A number of things, such as ``2 figures``."""
    return f"{number:,} {name}" if number == 1 else f"{number:,} {name}s"
