"""Years of a dwelling's load as a meter records them, generated: each interval's energy is known, and so is the highest.

The load is invented: what stays on, a refrigerator, cooking, evenings, laundry, heating by the season. It is a model of a
record, for tests and the demonstration, and no measurement.
"""

from __future__ import annotations

import gzip
import math
import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

QUARTER = 900


@dataclass
class Year:
    """A record: when each interval begins [s since 1970-01-01 UTC], what flowed in it [kWh], and its zone."""

    zone: ZoneInfo
    starts: list[int] = field(default_factory=list)
    energy: list[float] = field(default_factory=list)
    length: int = QUARTER

    @property
    def highest(self) -> float:
        """The highest average power of an interval [kW]."""
        return max(self.energy) * 3600 / self.length

    def local(self, position: int) -> datetime:
        """When an interval begins, by the clock on the wall."""
        return datetime.fromtimestamp(self.starts[position], self.zone)


def year(
    first: str = "2025-10-01", last: str = "2026-10-01", *, zone: str = "America/Denver", length: int = QUARTER, seed: int = 7
) -> Year:
    """A year in intervals of a length [s], from midnight to midnight by the clock on the wall."""
    found = Year(ZoneInfo(zone), length=length)
    begin, end = (int(datetime.fromisoformat(day).replace(tzinfo=found.zone).timestamp()) for day in (first, last))
    chance = random.Random(seed)
    for start in range(begin, end, length):
        found.starts.append(start)
        found.energy.append(round(_power(datetime.fromtimestamp(start, found.zone), chance) * length / 3600, 3))
    return found


def _power(clock: datetime, chance: random.Random) -> float:
    """The average power of an interval [kW]."""
    hour = clock.hour + clock.minute / 60
    cold = 0.5 + 0.5 * math.cos(2 * math.pi * (clock.timetuple().tm_yday - 15) / 365)
    power = 0.18 + 0.05 * chance.random() + (0.12 if chance.random() < 0.4 else 0)
    power += 0.35 * math.exp(-(((hour - 7.5) / 1.2) ** 2)) + 0.8 * math.exp(-(((hour - 19.5) / 2) ** 2))
    power += 1.4 * cold * (0.7 if 9 < hour < 16 else 1) * chance.random()
    if 17.5 < hour < 20 and chance.random() < 0.3:
        power += 1.5 + 1.6 * chance.random()
    if clock.weekday() in (2, 5) and 9 < hour < 12 and chance.random() < 0.5:
        power += 2.2 + 0.8 * chance.random()
    return power


def table(record: Year) -> Iterator[str]:
    """The lines of a table of a record, its stamps by the clock on the wall with their offset."""
    yield "Interval start,Interval end,Energy delivered (kWh)"
    for at, energy in enumerate(record.energy):
        end = datetime.fromtimestamp(record.starts[at] + record.length, record.zone)
        yield f"{record.local(at).isoformat(timespec='minutes')},{end.isoformat(timespec='minutes')},{energy:.3f}"


def download(record: Year) -> Iterator[str]:
    """The lines of a record as a customer may download it: a preamble, dates and clock times apart, no offset."""
    yield from ("Interval data of an electricity meter", "Meter,M-118", "Units,kWh in each interval", "")
    yield "Date,Start time,End time,Delivered (kWh),Quality"
    for at, energy in enumerate(record.energy):
        begin, end = record.local(at), datetime.fromtimestamp(record.starts[at] + record.length, record.zone)
        yield f"{begin:%Y-%m-%d},{begin:%H:%M},{end:%H:%M},{energy:.3f},actual"


def write_demonstration(path: Path) -> None:
    """Write the record of the demonstration home."""
    text = "".join(f"{line}\n" for line in download(year()))
    path.write_bytes(gzip.compress(text.encode(), mtime=0))
