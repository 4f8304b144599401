"""Tables with a row for each day and a column for each interval of it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from dwellcalc.meter.record import NOT_SAID
from dwellcalc.meter.tables.columns import KEYS, Headings, Roles, candidates
from dwellcalc.meter.tables.layout import COUNTS, HOURS_OF_DAY, Layout
from dwellcalc.meter.tables.rows import NO_READING, OTHER_UNIT, RowReader
from dwellcalc.meter.tables.series import Raw, Series
from dwellcalc.meter.tables.stamps import DAY, ELAPSED, LATE, Clocks, divided, two_ends
from dwellcalc.meter.tables.table_lines import Rows, cell, clean, narrow, short
from dwellcalc.meter.tables.values import LONGEST_HEADING, MISSING, Unit

FEWEST = 23
_UNIT = re.compile(r"[(\[].*?[)\]]|\b[km]?wh?\b", re.IGNORECASE)
_COUNT = re.compile(r"[a-z_ .#-]*(\d{1,4})\Z")


@dataclass
class Matrix:
    """Where a row of a day keeps what.

    Attributes:
        date: the column of the date.
        columns: those of the intervals, in the order of the day.
        starts: when each begins [s after midnight].
        beyond: places among these that only a day of 25 hours fills.
        count: intervals of a day of 24 hours.
        counted: whether headings count the intervals, and do not name times of day.
    """

    headings: Headings
    date: int
    columns: list[int] = field(default_factory=list)
    starts: list[int] = field(default_factory=list)
    beyond: set[int] = field(default_factory=set)
    count: int = 0
    counted: bool = False
    unit: Unit | None = None

    @property
    def length(self) -> int:
        """How long an interval is [s]."""
        return DAY // self.count

    @property
    def words(self) -> list[str]:
        """What was found, in words."""
        first, last = self.headings.heading(self.columns[0]), self.headings.heading(self.columns[-1])
        date = short(self.headings.heading(self.date))
        return [f'a row for each day of "{date}", its intervals from "{short(first)}" to "{short(last)}"']


def matrix_of(rows: list[list[str]], roles: Roles) -> Matrix | None:
    """The layout of a table of days, if this is one."""
    for number, row in candidates(rows):
        if len(row) < FEWEST:
            continue
        found = roles.of(row, number)
        date = found.first("date", "stamp", "start")
        if date is None and _is_date(rows, number, 0):
            date = 0
        if date is None:
            continue
        made = _with_intervals(Matrix(found, date))
        if made is not None:
            return made
    return None


def _is_date(rows: list[list[str]], number: int, column: int) -> bool:
    try:
        return len(rows) > number + 1 and divided(cell(rows[number + 1], column)) is not None
    except ValueError:
        return False


def _with_intervals(made: Matrix) -> Matrix | None:
    marks = [(at, mark) for at, text in enumerate(made.headings.cells) if at != made.date and (mark := _mark(text)) is not None]
    taken = {at for role in KEYS for at in made.headings.roles.get(role, ())}
    marks = [(at, mark) for at, mark in marks if at not in taken]
    count = next((each for each in COUNTS if abs(len(marks) - each) in (0, each // HOURS_OF_DAY)), 0)
    if not count:
        return None
    made.count, made.columns = count, [at for at, _ in marks]
    clocks = [mark for _, mark in marks if isinstance(mark, tuple)]
    counts = [mark for _, mark in marks if isinstance(mark, int)]
    if len(counts) == len(marks) and counts == list(range(counts[0], counts[0] + len(counts))) and counts[0] in (0, 1):
        made.counted = True
        made.starts = [place * made.length for place in range(len(counts))]
        made.beyond = set(range(count, len(counts)))
    elif not _with_clocks(made, clocks or [(_compact(each), None) for each in counts], len(marks)):
        return None
    units = {unit for at, unit in made.headings.units.items() if at in made.columns}
    made.unit = units.pop() if len(units) == 1 else None
    return made


def _with_clocks(made: Matrix, clocks: list[tuple[int, int | None]], expected: int) -> bool:
    """Times of day as starts; those that begin one interval past midnight are ends."""
    if len(clocks) != expected:
        return False
    ends = clocks[0][1] is None and clocks[0][0] == made.length
    seen: set[int] = set()
    for place, (start, _) in enumerate(clocks):
        made.starts.append((start - made.length) % DAY if ends else start)
        if made.starts[-1] in seen or start > DAY:
            made.beyond.add(place)
        seen.add(made.starts[-1])
    return made.starts[0] == 0


def _compact(number: int) -> int:
    try:
        return Clocks()[str(number)]
    except ValueError:
        return -1


def _mark(heading: str) -> int | tuple[int, int | None] | None:
    """What a heading says of an interval: its number, or when it is [s after midnight]."""
    text = _UNIT.sub(" ", clean(heading[:LONGEST_HEADING])).strip().lower()
    if ":" in text or text.endswith("m"):
        text = text.lstrip("abcdefghijklmnopqrstuvwxyz_ ")
        try:
            start, end = two_ends(text)
            return Clocks()[start], Clocks()[end]
        except ValueError:
            pass
        try:
            return Clocks()[text], None
        except ValueError:
            return None
    match = _COUNT.match(text)
    return int(match[1]) if match else None


class MatrixReader:
    """Reads the rows of a table of days."""

    def __init__(self, matrix: Matrix, raw: Raw) -> None:
        keys = {role: matrix.headings.roles[role][0] for role in KEYS if role in matrix.headings.roles}
        self.matrix, self.raw = matrix, raw
        self.reader = RowReader(Layout(keys=keys), raw)
        raw.length = matrix.length

    def add(self, row: list[str], number: int, line: str) -> None:
        """Take the readings of a day.

        Raises:
            InputError: the row is too wide, or there are many problems.
        """
        narrow(row, number, self.raw.told.name)
        text = cell(row, self.matrix.date)
        try:
            midnight = self.raw.days[divided(text)[0]]
        except ValueError:
            if text[:1].isdigit():
                self.raw.doubt(number, text, line)
            elif any(map(clean, row)):
                self.raw.leave_out(NO_READING, number)
            return
        if self.raw.doubtful_count:
            self.raw.reading_follows()
        series = self.reader.series_of(row, NOT_SAID, self.matrix.unit)
        if series is None:
            self.raw.leave_out(OTHER_UNIT, number)
            return
        self._day(series, row, midnight, number, line)

    def _day(self, series: Series, row: list[str], midnight: int, number: int, line: str) -> None:
        matrix = self.matrix
        texts = [cell(row, column) for column in matrix.columns]
        quality = self.reader.quality_of(row)
        elapsed = self._counts_on(texts)
        for place, text in enumerate(texts):
            if place in matrix.beyond and text.casefold() in MISSING:
                continue
            try:
                value = self.raw.numbers.value(text)
            except ValueError:
                self.raw.bad_number(text, matrix.headings.heading(matrix.columns[place]), number, line)
                continue
            start = place * matrix.length if elapsed else matrix.starts[place]
            self.reader.revise(series, row, number, line)
            series.decimals = max(series.decimals, self.raw.numbers.decimals(text))
            series.tag((LATE if start >= DAY else ELAPSED) if elapsed else 0)
            series.labels.append(midnight + start)
            series.values.append(value)
            series.quality.append(quality)

    def _counts_on(self, texts: list[str]) -> bool:
        """Whether a day's values follow one another through its hours, whatever the clock does."""
        filled = max((place + 1 for place, text in enumerate(texts) if text), default=0)
        matrix = self.matrix
        repeats = not matrix.counted and len(set(matrix.starts)) < len(matrix.starts)
        return not repeats and (
            filled > matrix.count or (matrix.counted and filled == matrix.count - matrix.count // HOURS_OF_DAY)
        )


def read_matrix(matrix: Matrix, raw: Raw, rows: Rows) -> None:
    """Read all rows of a table of days.

    Raises:
        InputError: there are many problems.
    """
    reader = MatrixReader(matrix, raw)
    for row in rows:
        reader.add(row, rows.number, rows.shown(row))
