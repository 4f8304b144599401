"""Words of titles and numbers within a sentence."""

from __future__ import annotations

from collections.abc import Sequence


def lowered(title: str) -> str:
    """A title within a sentence."""
    return title if title[1:2].isupper() else f"{title[:1].lower()}{title[1:]}"


def counted(number: int, name: str) -> str:
    """A number of things, such as ``2 figures``."""
    return f"{number:,} {name}" if number == 1 else f"{number:,} {name}s"


def numbered(name: str, numbers: Sequence[str]) -> str:
    """Things by their numbers, such as ``comment 3`` or ``comments 1 and 2``; empty without any."""
    if len(numbers) < 2:
        return f"{name} {numbers[0]}" if numbers else ""
    return f"{name}s {', '.join(numbers[:-1])} and {numbers[-1]}"
