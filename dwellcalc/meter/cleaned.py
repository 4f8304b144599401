"""The readings of a channel in order of time, each interval once."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import islice
from operator import add, le

from dwellcalc.meter.record import SUSPECT, Channel


@dataclass(slots=True)
class Cleaned:
    """What was found on the way: how often, and the first moment of each [s since 1970-01-01 UTC].

    Attributes:
        repeats: readings that say again what another one says, and are dropped.
        conflicts: intervals with readings that contradict each other, of which none is taken.
        overlaps: intervals that begin before an earlier one has ended; they stay.
        disordered: whether the file has its readings in another order than that of time.
    """

    repeats: int = 0
    first_repeat: int | None = None
    conflicts: int = 0
    first_conflict: int | None = None
    overlaps: int = 0
    first_overlap: int | None = None
    disordered: bool = False


def cleaned(channel: Channel) -> tuple[Channel, Cleaned]:
    """The readings in order of time, each interval once.

    Of readings with the same start, length and energy one stays, with the worse quality; one without a value gives way to
    one with a value. Those of one start that differ become one reading without a value, suspect, as long as the shortest of
    them. The channel itself is returned where nothing is to be done; it is never changed.
    """
    if _is_clean(channel):
        return channel, Cleaned()
    found = Cleaned()
    starts = channel.starts
    order: Iterable[int] = range(len(starts))
    if not all(map(le, starts, islice(starts, 1, None))):
        found.disordered = True
        order = sorted(order, key=starts.__getitem__)
    result = Channel(
        channel.meter,
        channel.direction,
        channel.one_line,
        channel.generation,
        channel.one_load,
        declared_length=channel.declared_length,
        step=channel.step,
    )
    together: list[int] = []
    for row in order:
        if together and starts[row] != starts[together[0]]:
            _take(channel, together, result, found)
            together.clear()
        together.append(row)
    if together:
        _take(channel, together, result, found)
    _note_overlaps(result, found)
    return result, found


def _is_clean(channel: Channel) -> bool:
    """Whether each interval begins where the one before it ends, or later; looped by the interpreter itself, for speed."""
    ends = map(add, channel.starts, channel.lengths)
    return all(map(le, ends, islice(channel.starts, 1, None))) and 0 not in channel.lengths


def _take(channel: Channel, rows: list[int], result: Channel, found: Cleaned) -> None:
    """Take one reading of those that begin together."""
    if len(rows) == 1:
        row = rows[0]
        result.add(channel.starts[row], channel.lengths[row], channel.energy[row], channel.quality[row])
        return
    start = channel.starts[rows[0]]
    valued = [row for row in rows if not math.isnan(channel.energy[row])] or rows
    different = {(channel.lengths[row], repr(channel.energy[row])) for row in valued}
    if len(different) > 1:
        found.conflicts += 1
        found.first_conflict = start if found.first_conflict is None else found.first_conflict
        result.add(start, min(channel.lengths[row] for row in rows), math.nan, SUSPECT)
        return
    found.repeats += len(rows) - 1
    found.first_repeat = start if found.first_repeat is None else found.first_repeat
    row = valued[0]
    result.add(start, channel.lengths[row], channel.energy[row], max(channel.quality[row] for row in valued))


def _note_overlaps(channel: Channel, found: Cleaned) -> None:
    until = channel.starts[0] if len(channel) else 0
    for start, length in zip(channel.starts, channel.lengths, strict=True):
        if start < until:
            found.overlaps += 1
            found.first_overlap = start if found.first_overlap is None else found.first_overlap
        until = max(until, start + length)
