"""Where a row of a table keeps its times and values: the layout, from headings and the first rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from dwellcalc.meter.tables.columns import KEYS, ROWS_LOOKED_AT, Headings, ValueColumn, kinds_of, value_columns
from dwellcalc.meter.tables.needs import COLUMNS, ask
from dwellcalc.meter.tables.table_lines import Told, cell, short
from dwellcalc.meter.tables.values import words_of

START, END = "start", "end"
UTC_WORDS = frozenset({"utc", "gmt"})
MOST_HOURS = 25
HOURS_OF_DAY = 24
COUNTS = (24, 48, 96, 144, 288, 1_440)  # intervals of a day of 24 hours


@dataclass(frozen=True)
class Clocked:
    """Where a time stands: in one column with its date, or in a column beside that of the date."""

    column: int
    date: int | None = None
    bare_hours: bool = False


@dataclass
class Layout:
    """Where a row keeps what.

    Attributes:
        start, end, lone: where the times stand; ``lone`` is one of which the heading does not tell what of the interval it is.
        period: the column of two times in one cell.
        date: the column of the date, where it stands alone.
        values: the columns of values.
        keys: the columns of what tells series and readings apart, by role.
        words: what was found, in words.
        numbers: where intervals are told by their number in the day, the first number and how many a day has; 0 where that is not seen.
        universal: whether a heading says that times are in UTC, or a column tells their offset.
    """

    start: Clocked | None = None
    end: Clocked | None = None
    lone: Clocked | None = None
    period: int | None = None
    date: int | None = None
    values: Sequence[ValueColumn] = ()
    keys: dict[str, int] = field(default_factory=dict)
    words: list[str] = field(default_factory=list)
    universal: bool = False
    numbers: tuple[int, int] | None = None

    @property
    def complete(self) -> bool:
        """Whether it has times and values."""
        return bool(self.values) and (self.period is not None or any((self.start, self.end, self.lone)))

    @property
    def stamps(self) -> str:
        """What of an interval its stamp tells, by the headings; empty where they do not tell it."""
        if self.start or self.period is not None:
            return START
        return END if self.end else ""

    @property
    def single(self) -> Clocked | None:
        """The only time of a row, if it has one in one column, with its date."""
        times = [each for each in (self.start, self.end, self.lone) if each is not None]
        return times[0] if len(times) == 1 and self.period is None and times[0].date is None else None


def layout_of(found: Headings, rows: list[list[str]], told: Told) -> Layout:
    """The layout of a table with a row for each reading."""
    layout = Layout(values=value_columns(found, told))
    layout.keys = {role: found.roles[role][0] for role in KEYS if role in found.roles}
    layout.date = found.first("date")
    dated = kinds_of(rows, layout.date) if layout.date is not None else ""
    times = {
        role: at for role in ("start", "end", "hour_ending", "stamp", "time", "hour") if (at := found.first(role)) is not None
    }
    kinds = {role: kinds_of(rows, at) for role, at in times.items()}
    layout.period = found.first("period")
    if layout.period is not None and kinds_of(rows, layout.period) != "period":
        times, kinds = {**times, "stamp": layout.period}, {**kinds, "stamp": kinds_of(rows, layout.period)}
        layout.period = None
    if dated in ("stamp", "period") and not times:
        times, kinds, layout.date = {"stamp": layout.date or 0}, {"stamp": dated}, None
    if layout.date is None:
        _take_date(layout, times, kinds)
    numbered = found.first("interval_number")
    if numbered is not None and not times:
        layout.numbers = numbers_of(rows, numbered) if layout.date is not None else None
        times, kinds = {"time": numbered}, {"time": kinds_of(rows, numbered)}
    _take_times(layout, times, kinds, found.first("end_date"), rows)
    if layout.numbers is not None and numbered is not None:
        layout.start, layout.lone = Clocked(numbered, layout.date, bare_hours=True), None
    told_times = [found.heading(at) for at in (*times.values(), layout.date, layout.period) if at is not None]
    in_heading = any(UTC_WORDS & set(words_of(text).split()) for text in told_times)
    layout.universal = in_heading or "utc_offset" in layout.keys
    if not (layout.stamps or layout.lone):
        if layout.date is None:
            ask(told, COLUMNS, "no column holds a date with a time of day", "{stamp: HEADING}")
        else:
            layout.lone = Clocked(layout.date)
    _describe(layout, found)
    return layout


def _take_date(layout: Layout, times: dict[str, int], kinds: dict[str, str]) -> None:
    """A date under the heading of a start or a stamp, beside a time of day."""
    for role in ("start", "stamp"):
        if kinds.get(role) == "date" and "clock" in kinds.values():
            layout.date = times.pop(role)
            del kinds[role]
            return


def counts_hours(rows: list[list[str]], column: int) -> bool:
    """Whether a column of bare numbers counts hours: none is larger than a day has, and none has hours and minutes."""
    texts = {text for row in rows[:ROWS_LOOKED_AT] if (text := cell(row, column))}
    numbers = {int(text) for text in texts if text.isdecimal() and len(text) <= len("00")}
    return len(numbers) > 1 and len(numbers) == len(texts) and max(numbers) <= MOST_HOURS


def numbers_of(rows: list[list[str]], column: int) -> tuple[int, int] | None:
    """The first number of a column of bare numbers, and how many intervals a day has if the largest tells it; nothing of other texts."""
    texts = {text for row in rows if (text := cell(row, column))}
    numbers = {int(text) for text in texts if text.isdecimal() and len(text) <= len(str(max(COUNTS)))}
    if len(numbers) < len(texts) or not numbers:
        return None
    first = min(1, *numbers)
    most = max(numbers) - first + 1
    return first, next((count for count in COUNTS if abs(most - count) in (0, count // HOURS_OF_DAY)), 0)


def _take_times(
    layout: Layout, times: dict[str, int], kinds: dict[str, str], end_date: int | None, rows: list[list[str]]
) -> None:
    for role, column in times.items():
        if kinds[role] == "period":
            layout.period = column
            return
    for role, column in times.items():
        whole = kinds[role] == "stamp" or (kinds[role] == "date" and layout.date is None)
        date = None if whole else layout.date
        if not whole and date is None:
            continue
        at = Clocked(column, date, role in ("hour", "hour_ending") or (not whole and counts_hours(rows, column)))
        if role == "start":
            layout.start = at
        elif role == "end":
            layout.end = at if date is None or end_date is None else Clocked(column, end_date)
        elif role == "hour_ending" and layout.end is None:
            layout.end = at
        elif role != "hour_ending" and layout.lone is None:
            layout.lone = at
    if layout.start or layout.end:
        layout.lone = None


def _describe(layout: Layout, found: Headings) -> None:
    def named(column: int) -> str:
        return f'"{short(found.heading(column))}"'

    for what, clocked in (("starts", layout.start), ("ends", layout.end), ("stamps", layout.lone)):
        if clocked is not None:
            beside = "" if clocked.date is None else f"{named(clocked.date)} and "
            layout.words.append(f"{what} from {beside}{named(clocked.column)}")
    if layout.period is not None:
        layout.words.append(f"starts and ends from {named(layout.period)}")
    layout.words += [f"values from {named(each.column)}" for each in layout.values]
    layout.words += [f"{role.replace('_', ' ')} from {named(column)}" for role, column in layout.keys.items()]
