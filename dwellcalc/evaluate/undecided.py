"""Boxes of inputs that are known between bounds, and what is not the same in all of one."""

from __future__ import annotations

from dataclasses import dataclass

from dwellcalc.evaluate.gathering import Read

Box = tuple[tuple[float, float], ...]  # for each input, its bounds, both in


@dataclass(frozen=True)
class Undecided:
    """A comparison, or a row of a table, that is not the same in all of a box; ``read`` finds it again in another.

    ``edges`` are those of the rows between the bounds ``key``; they are edges of an input where that has the same bounds.
    """

    read: Read
    item: int
    of: frozenset[int]
    edges: tuple[float, ...] = ()
    key: tuple[float, float] | None = None


def narrowed(box: Box, at: int, low: float, high: float) -> Box:
    """A box with other bounds of one input."""
    return (*box[:at], (low, high), *box[at + 1 :])
