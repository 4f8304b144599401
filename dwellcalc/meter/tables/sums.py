"""Readings that are none of an interval: sums that a file states beside its intervals, and registers that only rise."""

from __future__ import annotations

from array import array
from bisect import bisect_left
from itertools import islice, pairwise

from dwellcalc.meter.tables.table_lines import Told
from dwellcalc.problems import message

TABLE_RISING = message(
    "meter_table_rising",
    "the values of {name} never fall: they are what a register shows, not the energy of each interval",
    "export energy or average power of each interval",
)

HOUR = 3_600
ENOUGH = 48  # so many values of a dwelling that never fall are no energy


def refuse_rising(values: array[float], told: Told) -> None:
    """Note that values are those of a register, which only rises."""
    if len(values) >= ENOUGH and all(one <= other for one, other in zip(values, islice(values, 1, None))):
        rises = sum(1 for one, other in pairwise(values) if one < other)
        if rises >= ENOUGH // 2:
            told.problems.add(TABLE_RISING, name=told.name)


def sums_among(starts: array[int], lengths: array[int], usual: int) -> set[int]:
    """The readings of longer spans of whole hours in which other readings begin: sums, which must not count as intervals too.

    Spans of other lengths come of clocks that change, and of a time zone that is not that of the file.
    """
    longer = [place for place, length in enumerate(lengths) if length >= usual + usual and not length % HOUR]
    if not longer:
        return set()
    ordered = sorted(start for start, length in zip(starts, lengths) if length <= usual)
    return {place for place in longer if _holds(ordered, starts[place], starts[place] + lengths[place])}


def _holds(ordered: list[int], begin: int, end: int) -> bool:
    at = bisect_left(ordered, begin)
    return at < len(ordered) and ordered[at] < end
