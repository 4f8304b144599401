"""What a long calculation may tell of itself on the way: a text for each stage, to whoever asked for it."""

from __future__ import annotations

from collections.abc import Callable

Progress = Callable[[str], None]


def silent(_: str) -> None:
    """Tell nothing."""
