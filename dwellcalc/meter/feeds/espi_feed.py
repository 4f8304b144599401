"""An ESPI feed as it stands: its resources with their links, and its readings in raw columns, not interpreted yet.

Elements are known by their expanded names alone. Of a resource only the fields named in ``WANTED`` are kept; whatever
stands in other namespaces, such as who the customer is, is passed over unread.
"""

from __future__ import annotations

import re
from array import array
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import BinaryIO, NoReturn

from dwellcalc.meter.feeds.espi_codes import ATOM, ESPI, READING_QUALITIES
from dwellcalc.meter.feeds.safe_xml import BEYOND_BOUNDS, walk
from dwellcalc.meter.record import SUSPECT
from dwellcalc.problems import fail, message

USAGE_POINT, METER_READING, READING_TYPE = "UsagePoint", "MeterReading", "ReadingType"
SUMMARY, LOCAL_TIME, BLOCK = "UsageSummary", "LocalTimeParameters", "IntervalBlock"
OLD_NAMES = {"ElectricPowerUsageSummary": SUMMARY, "TimeConfiguration": LOCAL_TIME}
LAST_PERIOD, CURRENT_PERIOD = "overallConsumptionLastPeriod", "currentBillingPeriodOverAllConsumption"
WANTED: dict[str, frozenset[str]] = {
    USAGE_POINT: frozenset(
        ("ServiceCategory/kind", "roleFlags", "status", "connectionState", "checkBilling", "amiBillingReady"),
    ),
    METER_READING: frozenset(),
    READING_TYPE: frozenset(
        (
            *("uom", "powerOfTenMultiplier", "flowDirection", "kind", "accumulationBehaviour", "dataQualifier"),
            *("intervalLength", "measuringPeriod", "commodity", "phase", "defaultQuality"),
        )
    ),
    SUMMARY: frozenset(
        (
            *("billingPeriod/start", "billingPeriod/duration", "statusTimeStamp"),
            *(f"{LAST_PERIOD}/{each}" for each in ("powerOfTenMultiplier", "uom", "value")),
            *(f"{CURRENT_PERIOD}/{each}" for each in ("powerOfTenMultiplier", "uom", "value", "timeStamp")),
        )
    ),
    LOCAL_TIME: frozenset(("tzOffset", "dstOffset", "dstStartRule", "dstEndRule")),
    BLOCK: frozenset(),
}

NO_VALUE = -4_611_686_018_427_387_904  # in ``values``, where a reading has none
NO_LENGTH = -1  # in ``lengths``, where a reading says when it begins and not how long it is; less: see ``untimed``
NO_QUALITY = 255
LARGEST = 281_474_976_710_656  # of a value, in size; the standard's whole numbers have 48 bits
LONGEST_LENGTH = 2_147_483_647  # [s]
WHOLE_NUMBER = re.compile(r"-?[0-9]{1,15}")
LONGEST_TITLE, LONGEST_SHOWN = 120, 40  # [characters]
MOST_BLOCKS, MOST_RESOURCES = 200_000, 2_000  # a feed of one home has about fifty resources beside its blocks
MOST_READINGS = 4_000_000  # three channels of two years of 1-minute readings have about three million
MOST_LINKED = 32_000_000  # [characters] of all links

NOT_A_FEED = message(
    "espi_not_a_feed",
    'the file "{name}" is XML and not an ESPI feed: its outermost element is "{root}"',
    "download interval data as an ESPI (Atom) feed or as CSV",
)
NOT_A_NUMBER = message(
    "espi_not_a_number",
    'the file "{name}", reading {number}: the {what} "{found}" is not a whole number that the standard allows',
)
UNTIMED = message(
    "espi_untimed",
    'the file "{name}", reading {number}: neither it nor its block says when it begins',
    "a file without the times of its readings cannot be used",
)


@dataclass(slots=True)
class Resource:
    """A resource of the feed: its links, as opaque texts, its title, and its wanted fields by their paths.

    Of an interval block, ``first`` and ``end`` are its rows in the columns.
    """

    kind: str
    own: str = ""
    ups: tuple[str, ...] = ()
    related: tuple[str, ...] = ()
    title: str = ""
    fields: dict[str, str] = field(default_factory=dict)
    first: int = 0
    end: int = 0


@dataclass(slots=True)
class Feed:
    """What a feed holds, in its order.

    Attributes:
        resources: by their kinds.
        starts: of each reading [s since 1970-01-01 UTC]; of one without a time, when its block begins.
        lengths: [s], ``NO_LENGTH``, or what ``untimed`` makes of a place in the block.
        values: as written, or ``NO_VALUE``.
        quality: the worst that is said, a place in ``QUALITIES``, or ``NO_QUALITY``.
        strange_qualities: codes that the standard does not have.
    """

    resources: dict[str, list[Resource]] = field(default_factory=lambda: {kind: [] for kind in WANTED})
    starts: array[int] = field(default_factory=lambda: array("q"))
    lengths: array[int] = field(default_factory=lambda: array("q"))
    values: array[int] = field(default_factory=lambda: array("q"))
    quality: bytearray = field(default_factory=bytearray)
    strange_qualities: set[str] = field(default_factory=set)


def untimed(place: int) -> int:
    """The mark of a reading without a time that stands at this place of its block; its own inverse."""
    return -2 - place


def read_feed(stream: BinaryIO, name: str) -> Feed:
    """Read a feed.

    Args:
        stream: its bytes.
        name: what the user calls the file.

    Raises:
        InputError: it is no such feed, is beyond the bounds, or a number in it is none.
    """
    reader = _FeedReader(name)
    walk(stream, name, reader.start, reader.end)
    return reader.feed


class _FeedReader:
    """Follows the elements. What is open: an entry, in it a resource, in that a path or a reading."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.feed = Feed()
        self.begun = False
        self.entry: Resource | None = None  # bears the links and the title until the entry ends
        self.waiting: list[Resource] = []  # the resources of the entry
        self.resource: Resource | None = None
        self.path: list[str] = []
        self.linked = 0
        self.counts = {True: 0, False: 0}  # of blocks, and of other resources
        self.new_reading()
        self.block_start = NO_VALUE
        self.in_block: dict[str, Callable[[str], None]] = {
            f"{ESPI} start": self.take_start,
            f"{ESPI} duration": self.take_duration,
            f"{ESPI} value": self.take_value,
            f"{ESPI} quality": self.take_quality,
            f"{ESPI} interval": self.end_interval,
            f"{ESPI} IntervalReading": self.end_reading,
        }

    def start(self, element: str, attributes: Mapping[str, str]) -> None:
        if self.resource is not None:
            if self.resource.kind != BLOCK:
                self.path.append(element)
        elif element == f"{ATOM} entry":
            self.entry = Resource("")
        elif self.entry is not None and element == f"{ATOM} link":
            self.link(self.entry, attributes)
        elif self.entry is not None and element.startswith(f"{ESPI} "):
            local = element.rpartition(" ")[2]
            kind = OLD_NAMES.get(local, local)
            if kind in WANTED:
                self.begin_resource(kind, element)
        if not self.begun:
            self.begun = True
            if element not in (f"{ATOM} feed", f"{ATOM} entry"):
                fail(NOT_A_FEED, name=self.name, root=element.rpartition(" ")[2][:LONGEST_SHOWN])

    def end(self, element: str, text: str) -> None:
        resource = self.resource
        if resource is None:
            if element == f"{ATOM} title" and self.entry is not None:
                self.entry.title = " ".join(text.split())[:LONGEST_TITLE]
            elif element == f"{ATOM} entry":
                self.end_entry()
        elif element == self.outermost:
            self.end_resource(resource)
        elif resource.kind == BLOCK:
            act = self.in_block.get(element)
            if act is not None:
                act(text)
        else:
            self.take_field(resource, text)

    def link(self, entry: Resource, attributes: Mapping[str, str]) -> None:
        href = attributes.get("href", "").strip()
        self.linked += len(href)
        if self.linked > MOST_LINKED:
            fail(BEYOND_BOUNDS, name=self.name, what=f"links of more than {MOST_LINKED:,} characters")
        relation = attributes.get("rel", "")
        if not href:
            return
        if relation == "self":
            entry.own = href
        elif relation == "up":
            entry.ups += (href,)
        elif relation == "related":
            entry.related += (href,)

    def begin_resource(self, kind: str, element: str) -> None:
        self.counts[kind == BLOCK] += 1
        if self.counts[kind == BLOCK] > (MOST_BLOCKS if kind == BLOCK else MOST_RESOURCES):
            fail(BEYOND_BOUNDS, name=self.name, what="far too many resources")
        rows = len(self.feed.starts)
        self.resource = Resource(kind, first=rows, end=rows)
        self.outermost = element
        self.block_start = NO_VALUE
        self.new_reading()

    def end_resource(self, resource: Resource) -> None:
        resource.end = len(self.feed.starts)
        if resource.kind == BLOCK:
            self.place_untimed(resource)
        self.waiting.append(resource)
        self.resource = None
        self.path.clear()

    def end_entry(self) -> None:
        entry = self.entry or Resource("")
        for resource in self.waiting:
            resource.own, resource.ups, resource.related = entry.own, entry.ups, entry.related
            resource.title = entry.title
            self.feed.resources[resource.kind].append(resource)
        self.waiting = []
        self.entry = None

    def take_field(self, resource: Resource, text: str) -> None:
        path = "/".join(each.removeprefix(f"{ESPI} ") for each in self.path)
        self.path.pop()
        if path in WANTED[resource.kind]:
            resource.fields.setdefault(path, text.strip()[:LONGEST_TITLE])

    # A block of readings

    def new_reading(self) -> None:
        self.reading_start = self.reading_value = NO_VALUE
        self.reading_length = NO_LENGTH
        self.reading_quality = NO_QUALITY

    def take_start(self, text: str) -> None:
        self.reading_start = self.whole(text, "start")

    def take_duration(self, text: str) -> None:
        self.reading_length = self.whole(text, "duration")
        if not 0 <= self.reading_length <= LONGEST_LENGTH:
            self.not_a_number(text, "duration")

    def take_value(self, text: str) -> None:
        self.reading_value = self.whole(text, "value")
        if abs(self.reading_value) > LARGEST:
            self.not_a_number(text, "value")

    def take_quality(self, text: str) -> None:
        code = text.strip()
        quality = READING_QUALITIES.get(int(code), NO_QUALITY) if WHOLE_NUMBER.fullmatch(code) else NO_QUALITY
        if quality == NO_QUALITY:
            quality = SUSPECT
            if len(self.feed.strange_qualities) <= SUSPECT:  # a few are enough to tell
                self.feed.strange_qualities.add(code[:LONGEST_SHOWN])
        self.reading_quality = quality if self.reading_quality == NO_QUALITY else max(self.reading_quality, quality)

    def end_interval(self, text: str) -> None:
        self.block_start = self.reading_start
        self.new_reading()

    def end_reading(self, text: str) -> None:
        feed = self.feed
        rows = len(feed.starts)
        if rows >= MOST_READINGS:
            fail(BEYOND_BOUNDS, name=self.name, what=f"more than {MOST_READINGS:,} readings")
        if self.reading_start == NO_VALUE:
            self.reading_length = untimed(rows - (self.resource.first if self.resource else rows))
        feed.starts.append(self.reading_start)
        feed.lengths.append(self.reading_length)
        feed.values.append(self.reading_value)
        feed.quality.append(self.reading_quality)
        self.new_reading()

    def place_untimed(self, block: Resource) -> None:
        """Readings without a time begin, for now, with their block, whose interval may stand after them."""
        starts = self.feed.starts
        for row in range(block.first, block.end):
            if starts[row] == NO_VALUE:
                if self.block_start == NO_VALUE:
                    fail(UNTIMED, name=self.name, number=row + 1)
                starts[row] = self.block_start

    def whole(self, text: str, what: str) -> int:
        stripped = text.strip()
        if not WHOLE_NUMBER.fullmatch(stripped):
            self.not_a_number(stripped, what)
        return int(stripped)

    def not_a_number(self, found: str, what: str) -> NoReturn:
        fail(
            NOT_A_NUMBER,
            name=self.name,
            number=len(self.feed.starts) + 1,
            what=what,
            found=" ".join(found.split())[:LONGEST_SHOWN],
        )
