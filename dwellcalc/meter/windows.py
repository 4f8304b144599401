"""Average power over windows of time: fixed ones, as a demand meter has them, and any that long."""

from __future__ import annotations

from array import array
from collections.abc import Iterator
from dataclasses import dataclass
from heapq import nlargest
from math import isnan, nan

from dwellcalc.meter.profile import Profile


@dataclass(slots=True)
class Windows:
    """Windows in order of time, each wholly filled with values.

    Attributes:
        length: of each window [s]; of data in longer intervals, the length of those.
        starts: when each begins [s since 1970-01-01 UTC].
        power: the average power of each [W].
    """

    length: int
    starts: array[int]
    power: array[float]

    def highest(self, number: int) -> list[int]:
        """The positions of the highest windows, the highest first, of equal ones the earlier."""
        return nlargest(number, range(len(self.starts)), key=lambda place: (self.power[place], -self.starts[place]))


def fixed_windows(profile: Profile, length: int, *, also_estimated: bool = False) -> Windows:
    """The windows that begin at whole multiples of their length, as far as values fill them.

    Args:
        profile: the intervals.
        length: of a window [s]; intervals that are longer are windows of their own.
        also_estimated: whether values that were made from others count as values.
    """
    found = Windows(max(length, profile.interval), array("q"), array("d"))
    counted = [not isnan(energy) for energy in profile.energy] if also_estimated else profile.covered()
    window, filled, energy = None, 0, 0.0
    for start, interval, amount, counts in zip(profile.starts, profile.lengths, profile.energy, counted, strict=True):
        if interval >= length:
            if counts:
                found.starts.append(start)
                found.power.append(amount * 3600 / interval)
            continue
        begins = start - start % length
        if begins != window:
            window, filled, energy = begins, 0, 0.0
        if counts and start + interval <= begins + length:
            filled += interval
            energy += amount
            if filled == length:
                found.starts.append(begins)
                found.power.append(energy * 3600 / length)
    return found


def sliding_maximum(profile: Profile, length: int) -> float:
    """The highest average power over intervals next to one another that fill a window exactly [W].

    A lower bound of the highest window of any beginning; not a number where the intervals are longer than a window.
    """
    if profile.interval > length:
        return nan
    count = length // profile.interval
    return max((energy * 3600 / length for energy in _sums(profile, count)), default=nan)


def sliding_bound(profile: Profile, length: int) -> float:
    """The average power [W] that no window of that length can exceed, whenever it begins.

    A window touches at most so many intervals as fit in it, and one more; all that flowed in these may have flowed in it.
    """
    count = -(-length // profile.interval) + 1
    return max((energy * 3600 / length for energy in _sums(profile, count, at_edges=True)), default=nan)


def _sums(profile: Profile, count: int, *, at_edges: bool = False) -> Iterator[float]:
    """The energy [Wh] of every ``count`` covered intervals next to one another; at the edges of gaps also of fewer, if asked."""
    recent: list[float] = []
    next_start = None
    covered = profile.covered()
    for start, length, energy, counts in zip(profile.starts, profile.lengths, profile.energy, covered, strict=True):
        if start != next_start or not counts:
            recent = []
        next_start = start + length
        if counts:
            recent.append(energy)
            del recent[:-count]
            if at_edges or len(recent) == count:
                yield sum(recent)
