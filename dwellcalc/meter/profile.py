"""The last year of a channel in order of time, or all of it where it is shorter: what figures are taken from."""

from __future__ import annotations

from array import array
from bisect import bisect_left
from collections import Counter
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import compress
from math import isnan, nan
from zoneinfo import ZoneInfo

from dwellcalc.meter.record import EDITED, SUSPECT, Channel

SECONDS_OF_DAY = 86_400
FEBRUARY, LEAP_DAY = 2, 29
UNIVERSAL = "UTC"


@dataclass(slots=True)
class Profile:
    """Intervals in order of time, none of which overlap.

    Attributes:
        zone: the time zone of days and months.
        begin, end: what the profile is of [s since 1970-01-01 UTC].
        year: how long a year that ends there is [s].
        interval: the commonest length of an interval [s].
        starts, lengths: of each interval [s].
        energy: of each interval [Wh]; not a number where it is missing.
        quality: of each interval, its place in ``QUALITIES``.
        step: the smallest step in which values are written [Wh].
    """

    zone: ZoneInfo
    begin: int
    end: int
    year: int
    interval: int
    starts: array[int]
    lengths: array[int]
    energy: array[float]
    quality: bytearray
    step: float

    def __len__(self) -> int:
        return len(self.starts)

    @property
    def is_local(self) -> bool:
        """Whether its time zone is that of a place."""
        return self.zone.key != UNIVERSAL

    def power(self, position: int) -> float:
        """The average power of an interval [W]."""
        return self.energy[position] * 3600 / self.lengths[position]

    def is_covered(self, position: int) -> bool:
        """Whether an interval holds a value that was not made from others."""
        return self.quality[position] <= EDITED and not isnan(self.energy[position])

    def covered(self) -> list[bool]:
        """Of each interval whether it holds a value that was not made from others."""
        return [quality <= EDITED and not isnan(energy) for quality, energy in zip(self.quality, self.energy, strict=True)]

    def local(self, moment: int) -> datetime:
        """A moment as the clock on the wall shows it."""
        return datetime.fromtimestamp(moment, self.zone)


def profile_of(channel: Channel, zone: ZoneInfo) -> Profile:
    """The last year of a channel that was cleaned, and has a reading.

    Args:
        channel: its readings in order of time, none twice.
        zone: the time zone of days and months.
    """
    end = max(start + length for start, length in zip(channel.starts[-2:], channel.lengths[-2:], strict=True))
    year_before = year_earlier(end, zone)
    begin = max(channel.starts[0], year_before)
    return _part(channel, zone, (begin, end), end - year_before, slice(bisect_left(channel.starts, begin), None))


def before(channel: Channel, profile: Profile) -> Profile | None:
    """What a channel holds before its last year; nothing where there is nothing."""
    last = bisect_left(channel.starts, profile.begin)
    if not last:
        return None
    return _part(channel, profile.zone, (channel.starts[0], profile.begin), profile.year, slice(0, last))


def _part(channel: Channel, zone: ZoneInfo, span: tuple[int, int], year: int, kept: slice) -> Profile:
    lengths = channel.lengths[kept]
    interval = Counter(lengths).most_common(1)[0][0] if len(lengths) else channel.declared_length
    made = Profile(
        zone,
        *span,
        year,
        interval,
        channel.starts[kept],
        lengths,
        channel.energy[kept],
        channel.quality[kept],
        channel.step,
    )
    _drop_overlaps(made)
    return made


def _drop_overlaps(profile: Profile) -> None:
    """Take no value of an interval that begins before an earlier one has ended."""
    until = profile.begin
    for at, (start, length) in enumerate(zip(profile.starts, profile.lengths, strict=True)):
        if start < until:
            profile.energy[at], profile.quality[at] = nan, SUSPECT
        until = max(until, start + length)


def year_earlier(moment: int, zone: ZoneInfo) -> int:
    """The moment a year before, by the clock on the wall [s]; of a leap day, the day before it."""
    local = datetime.fromtimestamp(moment, zone)
    if (local.month, local.day) == (FEBRUARY, LEAP_DAY):
        local -= timedelta(days=1)
    return int(local.replace(year=local.year - 1).timestamp())


def day_starts(profile: Profile) -> list[int]:
    """When each day of the profile begins by the clock on the wall [s], the last day's end included."""
    day = profile.local(profile.begin).date()
    found = []
    while True:
        moment = int(datetime(day.year, day.month, day.day, tzinfo=profile.zone).timestamp())
        found.append(moment)
        if moment >= profile.end:
            return found
        day += timedelta(days=1)


def covered_spans(profile: Profile) -> list[tuple[int, int]]:
    """The spans of time without a gap that covered intervals fill [s, s]."""
    found: list[tuple[int, int]] = []
    covered = profile.covered()
    begin = end = profile.begin
    for start, length in zip(compress(profile.starts, covered), compress(profile.lengths, covered), strict=True):
        if start > end:
            if end > begin:
                found.append((begin, end))
            begin = start
        end = max(end, start + length)
    return [*found, (begin, end)] if end > begin else found


def gaps(profile: Profile) -> list[tuple[int, int]]:
    """The spans of time that no covered interval fills [s, s]."""
    found = []
    before = profile.begin
    for begin, end in covered_spans(profile):
        if begin > before:
            found.append((before, begin))
        before = end
    return [*found, (before, profile.end)] if profile.end > before else found


def utc(moment: int) -> datetime:
    """A moment in UTC."""
    return datetime.fromtimestamp(moment, UTC)
