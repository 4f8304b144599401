"""Words of titles within a sentence."""

from __future__ import annotations


def lowered(title: str) -> str:
    """A title within a sentence."""
    return f"{title[:1].lower()}{title[1:]}"
