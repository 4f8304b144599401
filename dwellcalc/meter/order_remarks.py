"""What is told of readings that stood twice, contradicted each other or overlapped."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

from dwellcalc.meter.cleaned import Cleaned


def order_remarks(found: Cleaned, zone: ZoneInfo) -> list[str]:
    """What was found when the readings were put in order of time, in words, with the first moment of each."""
    told = []
    if found.disordered:
        told.append("the readings stood in another order than that of time")
    for number, moment, what in (
        (found.repeats, found.first_repeat, "that say again what another one says are dropped"),
        (found.conflicts, found.first_conflict, "of one time contradict each other, and none of them is taken"),
        (found.overlaps, found.first_overlap, "begin before an earlier one has ended, and are not taken"),
    ):
        if number and moment is not None:
            first = datetime.fromtimestamp(moment, zone).strftime("%Y-%m-%d %H:%M")
            told.append(f"{number:,} readings {what}, the first at {first}")
    return told
