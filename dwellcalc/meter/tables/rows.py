"""Rows that hold a reading each: one by one, or many at once where a row has one stamp and its values."""

from __future__ import annotations

import math
import re
from array import array
from collections.abc import Callable, Iterable
from itertools import repeat
from operator import add, itemgetter

from dwellcalc.meter.record import MEASURED
from dwellcalc.meter.tables.layout import Clocked, Layout
from dwellcalc.meter.tables.series import Raw, Series, SeriesKey
from dwellcalc.meter.tables.stamps import DAY, begins_like_date, divided, kind_of, offset_of, two_ends
from dwellcalc.meter.tables.table_lines import MOST_CELLS, Rows, cell, clean, line_place, narrow
from dwellcalc.meter.tables.values import Unit, direction_of, unit_of
from dwellcalc.problems import message

TABLE_CELLS = message(
    "meter_table_cells",
    "the row has {cells} cells, and there are {headings} headings",
    "a number with a comma in it stands in quotes where commas divide the cells",
)

NO_READING = "with no date and time of day"
OTHER_TABLE = "of another table"
OTHER_UNIT = "in a unit that is none of electrical energy or power"
AT_ONCE = 2_048
CELL_END = ","
FIXED = 10  # characters of a date such as 2025-01-31

_DATE, _CLOCK = itemgetter(slice(FIXED)), itemgetter(slice(FIXED, None))


class RowReader:
    """Reads rows one by one."""

    def __init__(
        self, layout: Layout, raw: Raw, begins: Callable[[list[str]], bool | None] | None = None, width: int = 0
    ) -> None:
        self.layout, self.raw, self.begins = layout, raw, begins
        self.width = width or MOST_CELLS
        self.keyed = bool(layout.keys.keys() & {"meter", "register", "direction", "unit"})
        self.fixed = [raw.of(self._key(value.direction, value.unit)) for value in layout.values] if not self.keyed else []

    def _wider(self, row: list[str], number: int, line: str) -> None:
        """More numbers than headings: a mark within a number divided it, and its parts must not be taken for numbers."""
        extra = [clean(text) for text in row[self.width :]]
        if any(text and text[0].isdigit() for text in extra) and any(begins_like_date(clean(text)) for text in row[:2]):
            place = line_place(self.raw.told.name, number, line)
            self.raw.told.problems.add(TABLE_CELLS, place, cells=len(row), headings=self.width)
            self.raw.told.stop_if_many()

    def _key(self, direction: str, unit: Unit | None, meter: str = "", register: str = "") -> SeriesKey:
        return SeriesKey(meter, register, direction, unit)

    def add(self, row: list[str], number: int, line: str) -> None:
        """Take the readings of a row, or note why there are none.

        Raises:
            InputError: the row is too wide, or there are many problems.
        """
        narrow(row, number, self.raw.told.name)
        if len(row) > self.width:
            self._wider(row, number, line)
        try:
            label, end, tag = self._times(row)
        except ValueError:
            self._without_time(row, number, line)
            return
        if self.raw.elsewhere:
            self.raw.leave_out(OTHER_TABLE, number)
            return
        if self.raw.doubtful_count:
            self.raw.reading_follows()
        quality = self.quality_of(row)
        for place, column in enumerate(self.layout.values):
            series = self.fixed[place] if not self.keyed else self.series_of(row, column.direction, column.unit)
            if series is None:
                self.raw.leave_out(OTHER_UNIT, number)
                continue
            text = cell(row, column.column)
            try:
                value = self.raw.numbers.value(text)
            except ValueError:
                self.raw.bad_number(text, column.heading, number, line)
                continue
            self.revise(series, row, number, line)
            series.decimals = max(series.decimals, self.raw.numbers.decimals(text))
            series.tag(tag)
            series.labels.append(label)
            if end is not None:
                series.ends.append(end)
            series.values.append(value)
            series.quality.append(quality)

    def quality_of(self, row: list[str]) -> int:
        """What the flag of a row says."""
        column = self.layout.keys.get("quality")
        return MEASURED if column is None else self.raw.flags[cell(row, column)]

    def series_of(self, row: list[str], direction: str, unit: Unit | None) -> Series | None:
        """The series that a row belongs to; nothing where its unit is none of electricity."""
        keys = self.layout.keys
        if unit is None and "unit" in keys:
            unit = unit_of(cell(row, keys["unit"]))
            if unit is None:
                return None
        said = cell(row, keys.get("direction"))
        register = cell(row, keys.get("register"))
        named = direction_of(said) or direction_of(register)
        if said and not direction_of(said):
            register = f"{register} {said}".strip()
        elif register and direction_of(register):
            register = ""
        return self.raw.of(self._key(named or direction, unit, cell(row, keys.get("meter")), register))

    def revise(self, series: Series, row: list[str], number: int, line: str) -> None:
        """Note which revision a reading is of."""
        column = self.layout.keys.get("revision")
        if column is None:
            return
        text = cell(row, column)
        try:
            series.revisions.append(self._revised(text))
        except ValueError:
            self.raw.bad_number(text, "revision", number, line)
            series.revisions.append(0)

    def _revised(self, text: str) -> int:
        if not text or (text.isdigit() and len(text) < FIXED // 2):
            return int(text or 0)
        day, clock = divided(text)
        self.raw.dated_revisions = True
        return self.raw.days[day] + self.raw.clocks[clock]

    def _times(self, row: list[str]) -> tuple[int, int | None, int]:
        """The stamp of a row, or its start; its end, where it tells both; its tag."""
        layout = self.layout
        if layout.period is not None:
            return self._period(row, layout.period)
        if layout.start is not None:
            label, tag = self._label(row, layout.start)
            if layout.end is None:
                return self._shifted(row, label), None, tag
            end, _ = self._label(row, layout.end)
            if end < label and layout.end.date == layout.start.date and layout.end.date is not None:
                end += DAY  # a time of day that is past midnight
            return self._shifted(row, label), self._shifted(row, end), tag
        only = layout.end or layout.lone
        if only is None:
            raise ValueError
        label, tag = self._label(row, only)
        return self._shifted(row, label), None, tag

    def _shifted(self, row: list[str], label: int) -> int:
        column = self.layout.keys.get("utc_offset")
        return label if column is None else label - offset_of(cell(row, column))

    def _label(self, row: list[str], at: Clocked) -> tuple[int, int]:
        if at.date is None:
            day, clock = divided(cell(row, at.column))
        else:
            day, clock = divided(cell(row, at.date))[0], cell(row, at.column)
            if not clock:
                raise ValueError
        clocks = self.raw.hours if at.bare_hours else self.raw.clocks
        return self.raw.days[day] + clocks[clock], clocks.tags.get(clock, 0)

    def _period(self, row: list[str], column: int) -> tuple[int, int | None, int]:
        first, second = two_ends(cell(row, column))
        day = divided(cell(row, self.layout.date))[0] if self.layout.date is not None else ""
        if not day:
            day, first = divided(first)
        clocks = self.raw.clocks
        label = self.raw.days[day] + clocks[first]
        try:
            day, second = divided(second)
        except ValueError:
            end = self.raw.days[day] + clocks[second]
            return label, end + DAY if end < label else end, clocks.tags.get(first, 0)
        return label, self.raw.days[day] + clocks[second], clocks.tags.get(first, 0)

    def _without_time(self, row: list[str], number: int, line: str) -> None:
        layout = self.layout
        only = layout.start or layout.end or layout.lone
        column = layout.period if only is None else (only.column if only.date is None else only.date)
        text = cell(row, column)
        if not any(map(clean, row)):
            return
        another = self.begins(row) if self.begins is not None else None
        if another is not None:
            self.raw.elsewhere = another
        beside = cell(row, only.column) if only is not None else text
        if (begins_like_date(text) or (not text and kind_of(beside) == "clock")) and any(
            cell(row, each.column) for each in layout.values
        ):
            self.raw.doubt(number, beside if beside and (not text or kind_of(text) == "date") else text, line)
        else:
            self.raw.leave_out(NO_READING, number)


class ManyRows:
    """Reads lines many at once where each has one stamp in one cell, a value or several, and perhaps a flag.

    Whatever is unusual in a group of lines has them all read one by one.
    """

    def __init__(self, reader: RowReader, stamp: Clocked) -> None:
        self.reader, self.raw, self.column = reader, reader.raw, stamp.column
        self.quality = reader.layout.keys.get("quality")
        self.columns = [value.column for value in reader.layout.values]
        self.clocks = self.raw.hours if stamp.bare_hours else self.raw.clocks
        self.stamps: Callable[[list[str]], Iterable[int]] = self._cut

    def take(self, lines: list[str], rows: Rows) -> bool:
        """Take the readings of lines, if nothing is unusual in any of them."""
        if self.raw.elsewhere or self.raw.doubtful_count or self.raw.numbers.comma or self.clocks.tags:
            return False
        cells = self._cells(lines, rows.separator)
        if cells is None:
            return False
        texts = [cells(column) for column in self.columns]
        try:
            values = [array("d", map(float, each)) for each in texts]
            flags = self.raw.flags
            quality = bytes(len(lines)) if self.quality is None else bytes(map(flags.__getitem__, cells(self.quality)))
            labels = self._labels(cells(self.column))
        except ValueError:
            return False
        joined = [CELL_END.join(each) for each in texts]
        if self.clocks.tags or not all(math.isfinite(sum(each)) for each in values) or any("_" in each for each in joined):
            return False
        for series, value, text in zip(self.reader.fixed, values, joined):
            series.labels.extend(labels)
            series.values.extend(value)
            series.quality.extend(quality)
            if re.search(rf"\.\d{{{series.decimals + 1}}}", text):
                series.decimals = max(map(self.raw.numbers.decimals, text.split(CELL_END)))
        return True

    def _cells(self, lines: list[str], separator: str) -> Callable[[int], list[str]] | None:
        """The cells of a column, where all lines have the same number of them."""
        width = lines[0].count(separator) + 1
        if max(self.column, *self.columns, self.quality or 0) >= width or width > self.reader.width:
            return None
        if set(map(str.count, lines, repeat(separator))) != {width - 1}:
            return None
        text = "".join(lines)
        if "\r" in text:
            text = text.replace("\r\n", "\n")
        flat = text.removesuffix("\n").replace("\n", separator).split(separator)
        return (lambda column: flat[column::width]) if len(flat) == len(lines) * width else None

    def _labels(self, texts: list[str]) -> array[int]:
        try:
            return array("q", self.stamps(texts))
        except ValueError:
            self.stamps = self._parted if self.stamps == self._cut else self._cut
            return array("q", self.stamps(texts))

    def _cut(self, texts: list[str]) -> Iterable[int]:
        days, clocks = self.raw.days.__getitem__, self.clocks.__getitem__
        return map(add, map(days, map(_DATE, texts)), map(clocks, map(_CLOCK, texts)))

    def _parted(self, texts: list[str]) -> Iterable[int]:
        days, clocks = self.raw.days, self.clocks
        return [days[day] + clocks[clock] for day, _, clock in (text.partition(" ") for text in texts)]


def read_rows(layout: Layout, raw: Raw, rows: Rows, begins: Callable[[list[str]], bool | None], width: int) -> None:
    """Read all rows of a table with a row for each reading.

    Args:
        layout: where a row keeps what.
        raw: what takes the readings.
        rows: the rows that follow the headings.
        width: how many headings there are; 0 where it is not known.
        begins: whether a row is the headings of another table (true), those of this one (false), or none.

    Raises:
        InputError: there are many problems.
    """
    reader = RowReader(layout, raw, begins, width)
    stamp = layout.single
    if stamp is not None and not reader.keyed and not layout.keys.keys() & {"revision", "utc_offset"}:
        many = ManyRows(reader, stamp)
        before = rows.number
        while lines := rows.plain_lines(AT_ONCE):
            if not many.take(lines, rows):
                for place, row in enumerate(rows.of_plain(lines)):
                    reader.add(row, before + place + 1, lines[place])
            before = rows.number
    for row in rows:
        reader.add(row, rows.number, rows.shown(row))
