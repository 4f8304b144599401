"""Tables of interval data: comma-separated values and the like, of whatever layout.

The head of a file is looked at to recognise how it is written; then its rows stream into columns. What the file itself does not tell
with certainty is asked for by name, all at once, and never guessed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from zoneinfo import ZoneInfo

from dwellcalc.meter.record import STANDARD, Readings, Said
from dwellcalc.meter.tables.columns import Roles, headings_of, is_value
from dwellcalc.meter.tables.dialect import decimal_of, separator_of
from dwellcalc.meter.tables.layout import START, layout_of
from dwellcalc.meter.tables.matrix import Matrix, matrix_of, read_matrix
from dwellcalc.meter.tables.needs import FLAGS, INTERVAL, ask
from dwellcalc.meter.tables.records import has_records, read_records
from dwellcalc.meter.tables.rows import read_rows
from dwellcalc.meter.tables.series import Raw
from dwellcalc.meter.tables.settle import YES, Settling
from dwellcalc.meter.tables.stamps import DAY, MINUTE, Numbered, kind_of
from dwellcalc.meter.tables.table_lines import Lines, Rows, Told, cell, clean, limited_fields, narrow, rows_of_head
from dwellcalc.meter.tables.values import AnyNumbers, Flags, Numbers
from dwellcalc.meter.tables.zones import UNIVERSAL, Offsets, zone_named
from dwellcalc.problems import fail, message

TABLE_EMPTY = message("meter_table_empty", "{name} has no readings")

SHOWN = 8  # flags that a message names
_NAMED = {"\t": "tab", ";": "semicolon", "|": "bar", ",": "comma"}


def read_table(lines: Iterable[str], name: str, said: Said, headings: Mapping[str, Sequence[str]]) -> Readings:
    """The readings in a table.

    Args:
        lines: the lines of the file, decoded; they are read once, in order.
        name: what the user calls the file.
        said: what the user says of it.
        headings: what people write above a column, by what it holds (``interval_columns`` of the glossary).

    Raises:
        InputError: the file cannot be read with certainty, or holds what is neither reading nor note.
    """
    told = Told(name)
    numbered: list[Rows] = []
    with limited_fields(name, numbered):
        text = Lines(lines, name)
        if not any(line.strip() for line in text.head):
            fail(TABLE_EMPTY, name=name)
        return _Reading(text, said, told, Roles(headings), numbered).readings()


class _Reading:
    """One file being read."""

    def __init__(self, lines: Lines, said: Said, told: Told, roles: Roles, numbered: list[Rows]) -> None:
        self.lines, self.said, self.told, self.roles, self.numbered = lines, said, told, roles, numbered
        self.separator = separator_of(lines.head)
        self.head = rows_of_head(lines.head, self.separator)
        for number, row in enumerate(self.head):
            narrow(row, number + 1, told.name)
        self.raw = Raw(told)
        self.raw.flags = Flags(said.flags)
        self.recorded = False  # a file of records tells the quality of each day
        self.words = [f"cells divided by {_NAMED[self.separator]}"]

    def readings(self) -> Readings:
        """What the file holds."""
        zone = (
            zone_named(self.said.time_zone, self.told.problems, self.said.places.get("time_zone"))
            if self.said.time_zone
            else None
        )
        stamps, fixed, universal = self._read()
        self._end_of_file()
        offsets = Offsets(zone, standard=self.said.standard_time == YES) if zone is not None else None
        settling = Settling(self.raw, self.said, self.told, stamps, fixed, offsets, universal)
        channels = settling.channels()
        self.told.problems.raise_if_any()
        self._remark_changes(settling)
        words = [*self.words, *dict.fromkeys(settling.words)]
        remarks = settling.remarks + self._left_out()
        zone, clock = zone or ZoneInfo(UNIVERSAL), self._clock(settling)
        tells_quality = self.recorded or bool(self.raw.flags)
        return Readings(self.told.name, words, zone, channels, remarks, settling.summed, clock, tells_quality)

    def _clock(self, settling: Settling) -> str:
        """By which clock the stamps are."""
        if settling.universal:
            return UNIVERSAL
        return STANDARD if self.said.standard_time == YES else ""

    def _read(self) -> tuple[str, bool, bool]:
        """Read all rows; what a stamp tells, whether that is certain, and whether stamps are in UTC."""
        if has_records(self.head):
            self.words.append("numbered records")
            self.recorded = True
            read_records(self.raw, self._rows(-1))
            return START, True, False
        matrix = matrix_of(self.head, self.roles)
        if matrix is not None:
            self._read_matrix(matrix)
            return START, True, False
        found = headings_of(self.head, self.roles, self.said, self.told)
        data = self.head[found.row + 1 :]
        layout = layout_of(found, data, self.told)
        if layout.numbers is not None:
            self._number(*layout.numbers)
        if not layout.complete:
            if not any(kind_of(clean(text)) for row in data for text in row):
                fail(TABLE_EMPTY, name=self.told.name)
            self.told.problems.raise_if_any()
        self._decimal(data, [each.column for each in layout.values])
        self.words += layout.words
        begins = partial(self._begins, [clean(text) for text in found.cells])
        width = len(found.cells) or max(map(len, data[:1]), default=0)
        read_rows(layout, self.raw, self._rows(found.row), begins, width)
        return layout.stamps, False, layout.universal

    def _number(self, first: int, count: int) -> None:
        """Intervals are told by their number in the day."""
        length = DAY // count if count else self.said.interval
        if not length:
            ask(self.told, INTERVAL)
        self.raw.length = length
        self.raw.hours = Numbered(length or MINUTE, first)

    def _begins(self, headings: list[str], row: list[str]) -> bool | None:
        """Whether a row is the headings of another table than the one that is read; nothing where it is no headings."""
        if [clean(text) for text in row] == headings:
            return False
        return True if self.roles.of(row, 0).known else None

    def _read_matrix(self, matrix: Matrix) -> None:
        self._decimal(self.head[matrix.headings.row + 1 :], matrix.columns)
        self.words += matrix.words
        read_matrix(matrix, self.raw, self._rows(matrix.headings.row))

    def _decimal(self, rows: list[list[str]], columns: list[int]) -> None:
        texts = (cell(row, column) for row in rows for column in columns)
        decimal = decimal_of((text for text in texts if is_value(text)), self.said.decimal, self.separator, self.told)
        self.words.append(f"decimal {decimal}")
        self.raw.numbers = Numbers(decimal) if decimal else AnyNumbers("")

    def _rows(self, headings: int) -> Rows:
        """The rows after those of the head that end with the headings."""
        rows = self.lines.rows(self.separator)
        self.numbered.append(rows)
        rows.group(headings + 1)
        return rows

    def _end_of_file(self) -> None:
        raw = self.raw
        if raw.doubtful_count:
            raw.leave_out("after the last reading, with no date and time of day", raw.doubtful[0][0], raw.doubtful_count)
        if not any(series.labels for series in raw.series.values()):
            self.told.problems.raise_if_any()
            fail(TABLE_EMPTY, name=self.told.name)
        unknown = sorted(self.raw.flags.unknown_words)
        if unknown:
            shown = ", ".join(f'"{word}"' for word in unknown[:SHOWN])
            ask(self.told, FLAGS, shown, f"{{{unknown[0]}: measured}}")

    def _left_out(self) -> list[str]:
        counted = sorted(self.raw.left_out.items(), key=lambda each: each[1][1])
        return [f"{count} rows {why} were left out, the first in line {first}" for why, (count, first) in counted]

    def _remark_changes(self, settling: Settling) -> None:
        offsets = settling.offsets
        if offsets is None:
            settling.remarks.append("no time zone is said; days and months are counted in UTC")
        if offsets is None or settling.universal or self.said.standard_time or offsets.changes or not offsets.ever_changes:
            return
        settling.remarks.append("no day on which clocks change is in the file; its stamps were taken to follow daylight saving")
