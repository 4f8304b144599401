"""The readings of a series of a feed -> a channel: energy in Wh, with the moments and lengths as the readings say them."""

from __future__ import annotations

import math
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime

from dwellcalc.meter.feeds.espi_codes import WATTS
from dwellcalc.meter.feeds.espi_feed import NO_LENGTH, NO_QUALITY, NO_VALUE, Feed, untimed
from dwellcalc.meter.feeds.espi_links import Series
from dwellcalc.meter.feeds.espi_types import Meaning
from dwellcalc.meter.record import Channel
from dwellcalc.problems import fail, message

HOUR, DAY = 3600, 86400  # [s]
EARLIEST = 946684800  # the year 2000 begins [s since 1970-01-01 UTC]
MILLISECONDS = 100_000_000_000  # beyond it a moment in seconds would lie after the year 5000
TOGETHER = 4096  # values of which the common step is found at once

NO_LENGTH_SAID = message(
    "espi_no_length",
    'the file "{name}", reading {number}: nothing says how long its interval is',
    "a file without the lengths of its intervals cannot be used",
)
OUT_OF_TIME = message(
    "espi_out_of_time",
    'the file "{name}": a reading begins {found} seconds after 1970 began, which is {why}',
    "the standard wants seconds since 1970-01-01 in UTC",
)


@dataclass(slots=True)
class _Noted:
    """What is said of readings in a remark: how many, and when the first begins [s]."""

    counts: Counter[str] = field(default_factory=Counter)
    first: dict[str, int] = field(default_factory=dict)

    def add(self, what: str, start: int) -> None:
        self.counts[what] += 1
        self.first.setdefault(what, start)

    def remarks(self) -> Iterator[str]:
        for what, count in self.counts.items():
            yield f"{count:,} {'reading' if count == 1 else 'readings'} {what}, the first at {shown_moment(self.first[what])}"


def shown_moment(moment: int) -> str:
    """A moment [s since 1970-01-01 UTC], in words."""
    return datetime.fromtimestamp(moment, UTC).strftime("%Y-%m-%d %H:%M:%S UTC")


def channel_of(feed: Feed, series: Series, meaning: Meaning, meter: str, name: str) -> tuple[Channel, list[str]]:
    """The channel of a series, and remarks.

    Args:
        feed: what was read.
        series: what belongs together.
        meaning: of its values.
        meter: what the channel is called.
        name: what the user calls the file.

    Raises:
        InputError: a reading has no length, or begins where none can.
    """
    channel = Channel(meter, meaning.direction, meaning.one_line, declared_length=meaning.length)
    noted = _Noted()
    scale, divisor = 10 ** max(meaning.power, 0), 10 ** max(-meaning.power, 0)
    step = 0
    for block in series.blocks:
        _check_moments(feed, block.first, block.end, name)
        step = common_step(feed, block.first, block.end, step)
        for row in range(block.first, block.end):
            start, length = _when(feed, row, meaning.length, name)
            if length == 0:
                noted.add("without duration left out", start)
                continue
            if length != meaning.length and meaning.length:
                noted.add("of another length than the file declares, which their own goes before", start)
            if length > DAY:
                noted.add("longer than a day", start)
            value = feed.values[row]
            energy = math.nan if value == NO_VALUE else value * scale / divisor
            if meaning.unit == WATTS:
                energy = energy * length / HOUR
            quality = feed.quality[row]
            channel.add(start, length, energy, meaning.quality if quality == NO_QUALITY else quality)
    channel.step = (step or 1) * scale / divisor
    if meaning.unit == WATTS:
        channel.step *= (meaning.length or (channel.lengths[0] if channel.lengths else HOUR)) / HOUR
    return channel, list(noted.remarks())


def _when(feed: Feed, row: int, declared: int, name: str) -> tuple[int, int]:
    """When a reading begins and how long it is [s, s]."""
    start, length = feed.starts[row], feed.lengths[row]
    if length >= 0:
        return start, length
    if declared == 0:
        fail(NO_LENGTH_SAID, name=name, number=row + 1)
    return (start, declared) if length == NO_LENGTH else (start + untimed(length) * declared, declared)


def _check_moments(feed: Feed, first: int, end: int, name: str) -> None:
    starts = feed.starts[first:end]
    for moment in (min(starts), max(starts)):
        if moment > MILLISECONDS:
            why = "far in the future: they seem to be milliseconds"
        elif moment > time.time() + DAY:
            why = "in the future"
        elif moment < EARLIEST:
            why = "before the year 2000"
        else:
            continue
        fail(OUT_OF_TIME, name=name, found=f"{moment:,}", why=why)


def common_step(feed: Feed, first: int, end: int, step: int) -> int:
    """The largest whole number that divides these values and ``step``; one is the end of the search."""
    while step != 1 and first < end:
        until = min(end, first + TOGETHER)
        step = math.gcd(step, *(value for value in feed.values[first:until] if value != NO_VALUE))
        first = until
    return step
