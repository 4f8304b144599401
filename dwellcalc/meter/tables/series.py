"""What rows give before times are settled: for each series, stamps as written, values in their unit, flags, revisions."""

from __future__ import annotations

from array import array
from dataclasses import dataclass, field

from dwellcalc.meter.tables.dialect import POINT
from dwellcalc.meter.tables.stamps import Clocks, Days
from dwellcalc.meter.tables.table_lines import Told, line_place, short
from dwellcalc.meter.tables.values import Flags, Numbers, Unit
from dwellcalc.problems import fail, message

TABLE_STAMP = message(
    "meter_table_stamp",
    '"{text}" is no date and time of day',
    "one form of date and time through the whole file; what is no reading begins otherwise",
)
TABLE_NUMBER = message(
    "meter_table_number", '"{text}" under "{heading}" is no number', "a missing value is empty, `-`, `N/A`, `null` or `*`"
)
TABLE_SERIES = message("meter_table_series", "more than {limit} meters and registers in one file")

MOST_SERIES = 200
MOST_DOUBTFUL = 50


@dataclass(frozen=True)
class SeriesKey:
    """What tells series of a file apart."""

    meter: str
    register: str
    direction: str
    unit: Unit | None


@dataclass(slots=True)
class Series:
    """The readings of one series as they are written.

    Attributes:
        labels: the stamp [s since 1970-01-01, local, or UTC where stamps bear an offset]; the start where a row has both.
        ends: the end of each interval, where rows tell it.
        values: in the unit of the series.
        quality: places in ``QUALITIES``, or ``BLANK_FLAG``.
        tags: which hour of a repeated one, or that it counts hours through the day; empty while no reading has one.
        revisions: when or which, later ones greater; empty where rows have none.
        decimals: the most decimals in a value.
    """

    key: SeriesKey
    labels: array[int] = field(default_factory=lambda: array("q"))
    ends: array[int] = field(default_factory=lambda: array("q"))
    values: array[float] = field(default_factory=lambda: array("d"))
    quality: bytearray = field(default_factory=bytearray)
    tags: bytearray = field(default_factory=bytearray)
    revisions: array[int] = field(default_factory=lambda: array("q"))
    decimals: int = 0

    def tag(self, tag: int) -> None:
        """Mark the reading that comes next."""
        if tag or self.tags:
            self.tags.extend(bytes(len(self.labels) - len(self.tags)))
            self.tags.append(tag)


@dataclass
class Raw:
    """All that the rows of a file give.

    Attributes:
        length: the length of an interval, where the form of the table tells it [s].
        left_out: rows that hold no reading, by why: how many, and the line of the first.
        doubtful: rows whose stamp could not be read, until it is known whether a reading follows.
        elsewhere: whether rows of another table are being passed over.
        dated_revisions: whether revisions are dates, and not numbers.
    """

    told: Told
    days: Days = field(default_factory=Days)
    clocks: Clocks = field(default_factory=Clocks)
    hours: Clocks = field(default_factory=lambda: Clocks(bare_hours=True))
    flags: Flags = field(default_factory=Flags)
    numbers: Numbers = field(default_factory=lambda: Numbers(POINT))
    series: dict[SeriesKey, Series] = field(default_factory=dict)
    length: int = 0
    left_out: dict[str, tuple[int, int]] = field(default_factory=dict)
    doubtful: list[tuple[int, str, str]] = field(default_factory=list)
    doubtful_count: int = 0
    dated_revisions: bool = False
    elsewhere: bool = False

    def of(self, key: SeriesKey) -> Series:
        """The series with a key.

        Raises:
            InputError: there are too many.
        """
        found = self.series.get(key)
        if found is None:
            if len(self.series) >= MOST_SERIES:
                fail(TABLE_SERIES, limit=MOST_SERIES)
            found = self.series[key] = Series(key)
        return found

    def leave_out(self, why: str, number: int, count: int = 1) -> None:
        """Count rows that hold no reading."""
        before, first = self.left_out.get(why, (0, number))
        self.left_out[why] = (before + count, first)

    def doubt(self, number: int, text: str, line: str) -> None:
        """Note a row whose stamp is none; it is wrong if a reading follows, and the end of the file otherwise."""
        self.doubtful_count += 1
        if len(self.doubtful) < MOST_DOUBTFUL:
            self.doubtful.append((number, text, line))

    def reading_follows(self) -> None:
        """What was doubtful stands between readings, and so is wrong.

        Raises:
            InputError: there are many problems.
        """
        for number, text, line in self.doubtful:
            place = line_place(self.told.name, number, line, text)
            self.told.problems.add(TABLE_STAMP, place, text=short(text))
            self.told.stop_if_many()
        self.doubtful.clear()
        self.doubtful_count = 0

    def bad_number(self, text: str, heading: str, number: int, line: str) -> None:
        """Note a value that is no number.

        Raises:
            InputError: there are many problems.
        """
        place = line_place(self.told.name, number, line, text)
        self.told.problems.add(TABLE_NUMBER, place, text=short(text), heading=short(heading))
        self.told.stop_if_many()
