"""The lines of a table: their limits, their division into cells, and where a problem in one of them stands."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from itertools import chain, islice

from dwellcalc.problems import Place, Problems, Source, fail, message

TABLE_LINE = message(
    "meter_table_line",
    "a line has more than {limit} characters",
    "a table of interval data has a line for each interval or each day",
)
TABLE_WIDTH = message("meter_table_width", "a line has more than {limit} cells", "a row holds at most the intervals of one day")
TABLE_QUOTES = message(
    "meter_table_quotes", "the cells cannot be told apart: {why}", 'a cell in quotes ends with a quote; one within is written ""'
)
TABLE_MANY = message("meter_table_many", "more than {limit} problems; the rest of the file was not read")

LONGEST_LINE = 100_000
MOST_CELLS = 3_000
HEAD_LINES, HEAD_CHARACTERS = 400, 2_000_000
MOST_TOLD = 10
LONGEST_SHOWN = 400
LONGEST_WORD = 60
AT_ONCE = 1_024
QUOTE = '"'
BLANKS = str.maketrans({"\u00a0": " ", "\u202f": " ", "\ufeff": None})


@dataclass(frozen=True)
class LineOf(Source):
    """One line of a file that is not kept, with its number."""

    number: int = 1

    def line(self, number: int) -> str:
        """The line, if this is its number."""
        return self.text if number == self.number else ""


def line_place(name: str, number: int, text: str, part: str = "") -> Place:
    """Where a line stands, with the part of it that is marked."""
    shown = text.rstrip("\r\n").partition("\n")[0].translate(BLANKS)[:LONGEST_SHOWN]
    column = shown.find(part) + 1 if part else 1
    return Place(LineOf(name, shown, number), number, max(1, column), max(1, len(part)) if column else 1)


def clean(text: str) -> str:
    """A cell without the blanks around it, and with plain blanks in it."""
    return text.translate(BLANKS).strip()


def short(text: str) -> str:
    """A word of the file as a message shows it."""
    text = " ".join(clean(text).split())
    return text if len(text) <= LONGEST_WORD else f"{text[:LONGEST_WORD]}..."


@dataclass
class Told:
    """Collects the problems of one file; stops the reading when there are many."""

    name: str
    problems: Problems = field(default_factory=Problems)

    def stop_if_many(self) -> None:
        """Raise what was found if it is more than a reader wants to see.

        Raises:
            InputError: more than ``MOST_TOLD`` problems.
        """
        if len(self.problems.found) >= MOST_TOLD:
            self.problems.add(TABLE_MANY, limit=MOST_TOLD)
            self.problems.raise_if_any()


class Lines:
    """The lines of a file: the head is kept, the rest streams.

    Raises:
        InputError: a line is too long.
    """

    def __init__(self, lines: Iterable[str], name: str) -> None:
        self.name = name
        self._rest = chain.from_iterable(self._checked(iter(lines)))
        self.head: list[str] = []
        size = 0
        while len(self.head) < HEAD_LINES and size < HEAD_CHARACTERS and (line := next(self._rest, None)) is not None:
            self.head.append(line.translate(BLANKS))
            size += len(line)

    def _checked(self, lines: Iterator[str]) -> Iterator[list[str]]:
        number = 0
        while group := list(islice(lines, AT_ONCE)):
            if max(map(len, group)) > LONGEST_LINE:
                at = next(place for place, line in enumerate(group) if len(line) > LONGEST_LINE)
                fail(TABLE_LINE, line_place(self.name, number + at + 1, group[at]), limit=f"{LONGEST_LINE:,}")
            yield group
            number += len(group)

    def rows(self, separator: str) -> Rows:
        """All rows, once."""
        return Rows(chain(self.head, self._rest), separator)


class Rows:
    """Rows of cells with the number of the line that each ends in.

    Attributes:
        whole: the number of the line in which the last row ended that could be told apart.
    """

    def __init__(self, lines: Iterable[str], separator: str) -> None:
        self.separator = separator
        self._lines = iter(lines)
        self._before = self.whole = 0
        self._reader = self._of(self._lines)

    def _of(self, lines: Iterable[str]) -> Iterator[list[str]]:
        self._numbered = csv.reader(lines, delimiter=self.separator, skipinitialspace=True, strict=True)
        return self._numbered

    @property
    def number(self) -> int:
        """The number of the line that was read last."""
        return self._numbered.line_num + self._before

    def __iter__(self) -> Iterator[list[str]]:
        for row in self._reader:
            self.whole = self.number
            yield row

    def group(self, size: int) -> list[list[str]]:
        """The next rows; fewer at the end."""
        return list(islice(self, size))

    def plain_lines(self, size: int) -> list[str] | None:
        """The next lines as they are, each a row for itself; nothing where some have quotes, so that a row may be several lines."""
        lines = list(islice(self._lines, size))
        if QUOTE in "".join(lines):
            self._before += self._numbered.line_num
            self._lines = chain(lines, self._lines)
            self._reader = self._of(self._lines)
            return None
        self._before += len(lines)
        self.whole = self.number
        return lines

    def of_plain(self, lines: list[str]) -> list[list[str]]:
        """Lines without quotes as rows."""
        return list(csv.reader(lines, delimiter=self.separator, skipinitialspace=True))

    def shown(self, row: list[str]) -> str:
        """A row as a line."""
        return self.separator.join(row)


def narrow(row: list[str], number: int, name: str) -> None:
    """Refuse a row with more cells than a day has intervals.

    Raises:
        InputError: it has more.
    """
    if len(row) > MOST_CELLS:
        fail(TABLE_WIDTH, line_place(name, number, ",".join(row[:MOST_CELLS])), limit=f"{MOST_CELLS:,}")


def rows_of_head(lines: list[str], separator: str) -> list[list[str]]:
    """The rows of the head under a separator; fewer where its cells cannot be told apart."""
    found: list[list[str]] = []
    with suppress(csv.Error):
        found.extend(csv.reader(lines, delimiter=separator, skipinitialspace=True))
    return found


def cell(row: list[str], column: int | None) -> str:
    """A cell of a row without blanks around it; empty where the row ends before it, or where there is no such column."""
    return clean(row[column]) if column is not None and column < len(row) else ""


@contextmanager
def limited_fields(name: str, numbered: list[Rows]) -> Iterator[None]:
    """Hold cells to the longest line, and tell what cannot be divided into cells.

    Raises:
        InputError: cells cannot be told apart.
    """
    before = csv.field_size_limit(LONGEST_LINE)
    try:
        yield
    except csv.Error as error:
        number = numbered[-1].whole + 1 if numbered else 1
        fail(TABLE_QUOTES, line_place(name, number, ""), why=str(error))
    finally:
        csv.field_size_limit(before)
