"""Interval data in an ESPI feed (NAESB REQ.21 in Atom) -> channels of readings.

``safe_xml`` gives elements, ``espi_feed`` what stands, ``espi_links`` what belongs together, ``espi_types`` what values
mean; here it becomes channels, each of one meter reading. None are added up: the user chooses where there are several.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import BinaryIO

from dwellcalc.meter.feeds import espi_codes as codes
from dwellcalc.meter.feeds.espi_channel import channel_of
from dwellcalc.meter.feeds.espi_feed import NO_QUALITY, Feed, Resource, read_feed
from dwellcalc.meter.feeds.espi_links import Links, Series
from dwellcalc.meter.feeds.espi_names import named, point_names
from dwellcalc.meter.feeds.espi_sums import sums_of
from dwellcalc.meter.feeds.espi_types import NO_LOAD, Meaning, NotALoad, direction_of, meaning_of, number
from dwellcalc.meter.feeds.espi_zone import zone_of
from dwellcalc.meter.record import RECEIVED, UNIVERSAL, Channel, Readings, Said
from dwellcalc.problems import Problems

FLAGS = (
    (codes.GENERATION_ROLE, "a distributed energy resource stands there: generation on site"),
    (codes.VEHICLE_ROLE, "it is the point of a vehicle charger, not of the service"),
    (codes.AGGREGATION_ROLE, "it sums up several meters"),
)
STATES = (
    ("status", ("0",), "it is off"),
    ("connectionState", ("logicallyDisconnected", "physicallyDisconnected"), "it is disconnected"),
    ("checkBilling", ("true", "1"), "its data are suspected to be wrong"),
    ("amiBillingReady", ("nonAmi",), "its meter is not read by intervals"),
)
TOLD_BY_THE_FILE = (
    *(("unit", "`unit`"), ("interval", "`interval`"), ("stamps", "`stamps`"), ("standard_time", "`standard time`")),
    *(("date_order", "`date order`"), ("decimal", "`decimal`"), ("columns", "`columns`")),
)


def read_espi(stream: BinaryIO, name: str, said: Said) -> Readings:
    """Read an ESPI feed.

    Args:
        stream: its bytes, not packed.
        name: what the user calls the file.
        said: what the user says of it; of that only the time zone and the meter are needed here.

    Raises:
        InputError: it is no such feed, is damaged or beyond the bounds, does not tell what belongs together, or holds
            nothing from which a load can be told.
    """
    feed = read_feed(stream, name)
    zone, zone_remark = zone_of(feed, said)
    reading = _Reading(feed, name)
    channels = reading.channels()
    summed, sum_remarks = sums_of(reading.links, reading.electrical_points(), said)
    remarks = [zone_remark, *reading.remarks, *_of_qualities(feed), *sum_remarks, *_not_needed(said)]
    told = [each for each in dict.fromkeys(remarks) if each]
    return Readings(name, reading.layout, zone, channels, told, summed, UNIVERSAL, reading.tells_quality)


class _Reading:
    """The series of a feed and what becomes of each."""

    def __init__(self, feed: Feed, name: str) -> None:
        self.feed, self.name = feed, name
        self.links = Links(feed, name)
        self.layout: list[str] = ["ESPI feed (XML)", "each reading with its start, in UTC"]
        self.remarks: list[str] = []
        self.refused: list[tuple[str, NotALoad]] = []
        self.points = point_names(feed)
        self.kept: list[tuple[Series, Meaning]] = []

    @property
    def tells_quality(self) -> bool:
        """Whether any reading bears a quality, or what they are of names that of all."""
        types = (series.reading_type for series, _ in self.kept)
        default = any(number(each, "defaultQuality", "default quality", self.name) for each in types)
        return default or self.feed.quality.count(NO_QUALITY) < len(self.feed.quality)

    def channels(self) -> list[Channel]:
        """A channel for each series of electrical energy or power.

        Raises:
            InputError: there is none, or what returns to the grid cannot be told.
        """
        for series in self.links.series():
            try:
                self.electrical(series)
                self.kept.append((series, meaning_of(series.reading_type, self.name)))
            except NotALoad as reason:
                self.leave_out(series, reason)
        if not self.kept:
            self.refuse()
        names = named([(series, meaning.direction) for series, meaning in self.kept], self.points)
        return [self.channel(series, meaning, each) for (series, meaning), each in zip(self.kept, names, strict=True)]

    def electrical(self, series: Series) -> None:
        point = series.usage_point
        kind = number(point, "ServiceCategory/kind", "service kind of a usage point", self.name) if point else None
        if kind not in (None, codes.ELECTRICITY):
            raise NotALoad(f"they are of {codes.SERVICES.get(kind or 0, f'a service with the code {kind}')}")

    def leave_out(self, series: Series, reason: NotALoad) -> None:
        """Note it; but what returns to the grid may not be passed over, since the load could not be told then.

        Raises:
            InputError: it is energy received from the dwelling that cannot be told.
        """
        which = self.which(series)
        self.refused.append((which, reason))
        if reason.message is not NO_LOAD and direction_of(series.reading_type, self.name) == RECEIVED:
            self.refuse()
        self.remarks.append(f"{which} are left out: {reason.why}")

    def refuse(self) -> None:
        """Say why nothing can be used.

        Raises:
            InputError: always.
        """
        problems = Problems()
        particular = [(which, reason) for which, reason in self.refused if reason.message is not NO_LOAD]
        for which, reason in particular:
            problems.add(reason.message, name=self.name, why=f"{which}: {reason.why}")
        if not particular:
            why = dict.fromkeys(f"{which}: {reason.why}" for which, reason in self.refused)
            problems.add(NO_LOAD, name=self.name, why="; ".join(why))
        problems.raise_if_any()

    def which(self, series: Series) -> str:
        point = self.points.get(id(series.usage_point), "") if series.usage_point else ""
        title = series.meter_reading.title if series.meter_reading else ""
        shown = ", ".join(each for each in dict.fromkeys((point, title)) if each)
        return f'the readings "{shown}"' if shown else "the readings"

    def channel(self, series: Series, meaning: Meaning, meter: str) -> Channel:
        channel, remarks = channel_of(self.feed, series, meaning, meter, self.name)
        self.layout.append(f"values in {codes.UNITS[meaning.unit]} times ten to the power {meaning.power}")
        self.layout = list(dict.fromkeys(self.layout))
        roles = (_roles(series.usage_point) if series.usage_point else 0) or 0
        channel.generation = bool(roles & codes.GENERATION_ROLE)
        channel.one_load = bool(roles & codes.VEHICLE_ROLE)
        point = _of_point(series.usage_point, self.name) if series.usage_point else ()
        of_meter = f'meter "{meter}": ' if len(self.kept) > 1 else ""
        self.remarks += [f"{of_meter}{each}" for each in (*meaning.remarks, *remarks, *point)]
        return channel

    def electrical_points(self) -> dict[int, str]:
        """The names of the usage points of what is kept."""
        used = (series.usage_point for series, _ in self.kept)
        return {id(point): self.points.get(id(point), "") for point in used if point is not None}


def _roles(point: Resource) -> int | None:
    """The role flags of a usage point, 0 where it has none; nothing where they are no number."""
    flags = point.fields.get("roleFlags", "")
    try:
        return int(flags, 16) if flags else 0
    except ValueError:
        return None


def _of_point(point: Resource, name: str) -> Iterator[str]:
    roles = _roles(point)
    if roles is None:
        yield "the role flags of the usage point are not hexadecimal and are passed over"
    for flag, told in FLAGS:
        if roles and roles & flag:
            yield f"of the usage point the file says: {told}"
    for path, values, told in STATES:
        if point.fields.get(path, "") in values:
            yield f"of the usage point the file says: {told}"


def _of_qualities(feed: Feed) -> Iterator[str]:
    if feed.strange_qualities:
        shown = ", ".join(f'"{each}"' for each in sorted(feed.strange_qualities))
        yield f"qualities of readings that the standard does not have, taken as suspect: {shown}"


def _not_needed(said: Said) -> Iterator[str]:
    for attribute, shown in TOLD_BY_THE_FILE:
        if getattr(said, attribute):
            yield f"{shown} under `meter` is not used: the feed tells it"
