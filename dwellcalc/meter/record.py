"""What is read of a file of interval data, before anything is measured in it.

The readings of a channel stand in plain columns in the order of the file, so that a year of 1-minute data takes little memory.
"""

from __future__ import annotations

from array import array
from collections.abc import Mapping
from dataclasses import dataclass, field
from zoneinfo import ZoneInfo

from dwellcalc.problems import Place

# How a file vouches for a reading, best first. A channel keeps them by their place in this list.
QUALITIES = (
    "measured",  # read, and checked or said to be actual
    "not_validated",  # read, not checked yet
    "possibly_estimated",  # checked, and perhaps edited or estimated on the way
    "edited",  # replaced or approved by hand
    "estimated",  # made from other readings
    "suspect",  # failed a check, or of an unclear kind
)
MEASURED, NOT_VALIDATED, POSSIBLY_ESTIMATED, EDITED, ESTIMATED, SUSPECT = range(len(QUALITIES))

# By which clock a file stamps its readings; empty where by the clock on the wall.
STANDARD, UNIVERSAL = "standard time", "UTC"

# What flows, as a file says it.
DELIVERED, RECEIVED, NET, TOTAL, NOT_SAID = "delivered", "received", "net", "total", "not said"


@dataclass(slots=True)
class Channel:
    """One series of readings: of one meter or usage point, one direction of flow, one register.

    Attributes:
        meter: the meter, usage point or register, as the file names it; empty where it names none.
        direction: ``delivered`` to the dwelling, ``received`` from it, ``net``, ``total`` of both, or ``not said``.
        one_line: whether the file says that it is of one line conductor only.
        generation: whether the file says that there is generation behind the meter.
        one_load: whether the file says that it is of a vehicle charger alone.
        starts: when each interval begins [s since 1970-01-01 UTC].
        lengths: how long each interval is [s].
        energy: what flowed in each interval [Wh]; not a number where the file has a row and no value.
        quality: of each reading, its place in ``QUALITIES``.
        declared_length: the interval length that the file declares [s]; 0 where it declares none.
        step: the smallest step in which its values are written [Wh].
    """

    meter: str = ""
    direction: str = NOT_SAID
    one_line: bool = False
    generation: bool = False
    one_load: bool = False
    starts: array[int] = field(default_factory=lambda: array("q"))
    lengths: array[int] = field(default_factory=lambda: array("l"))
    energy: array[float] = field(default_factory=lambda: array("d"))
    quality: bytearray = field(default_factory=bytearray)
    declared_length: int = 0
    step: float = 0.0

    def __len__(self) -> int:
        return len(self.starts)

    def add(self, start: int, length: int, energy: float, quality: int = MEASURED) -> None:
        """Add a reading; the fast readers extend the columns themselves."""
        self.starts.append(start)
        self.lengths.append(length)
        self.energy.append(energy)
        self.quality.append(quality)


@dataclass(slots=True)
class Readings:
    """What a file holds.

    Attributes:
        name: what the user calls the file.
        layout: what was found of its form, in words: the columns taken, units, stamps.
        zone: the time zone in which days and months are counted; UTC where nothing says another.
        channels: every series that holds readings of electricity.
        remarks: what a reader of the result must know of how it was read, in words.
        summed: energy that the file itself states for spans of time [s, s, Wh]: begin, end, energy.
        stamps: by which clock it stamps: ``STANDARD`` all year, ``UNIVERSAL`` or with an offset from that, or empty.
        tells_quality: whether it says anywhere which readings were made from others, or were not checked.
    """

    name: str
    layout: list[str]
    zone: ZoneInfo
    channels: list[Channel]
    remarks: list[str] = field(default_factory=list)
    summed: list[tuple[int, int, float]] = field(default_factory=list)
    stamps: str = ""
    tells_quality: bool = True


def seconds_of(minutes: float) -> int:
    """Minutes in whole seconds."""
    return round(minutes * 60)


@dataclass(frozen=True, slots=True)
class Said:
    """What the user says of a file, under ``meter:`` in a home file; empty where nothing is said. A file is never guessed at.

    Attributes:
        time_zone: the zone of stamps that bear none, by its name in the time-zone database (``America/Denver``).
        standard_time: ``yes`` where the stamps keep standard time all year; ``no`` where they follow daylight saving.
        stamps: ``start`` or ``end``, what of an interval its stamp tells.
        interval: how long an interval is [s]; 0 where the file tells it.
        unit: of the values: ``Wh``, ``kWh`` (energy in each interval), ``W`` or ``kW`` (average power in it).
        date_order: ``day first`` or ``month first``, of dates in which both could be.
        decimal: ``point`` or ``comma``.
        meter: which of several meters or registers is meant, as the file names it.
        flags: what a flag of quality means, one of ``QUALITIES``, by the word in the file.
        columns: the heading of a column by what it holds (a key of ``interval_columns`` in the glossary).
        places: where each of these stands in the home file.
    """

    time_zone: str = ""
    standard_time: str = ""
    stamps: str = ""
    interval: int = 0
    unit: str = ""
    date_order: str = ""
    decimal: str = ""
    meter: str = ""
    flags: Mapping[str, str] = field(default_factory=dict)
    columns: Mapping[str, str] = field(default_factory=dict)
    places: Mapping[str, Place] = field(default_factory=dict)
