"""Files of numbered records: 100 begins the file, 200 names a series, 300 is a day of it, 400 the quality of a part of the day.

Their clocks keep standard time, so a day always has the same number of intervals.
"""

from __future__ import annotations

import re

from dwellcalc.meter.record import DELIVERED, EDITED, ESTIMATED, MEASURED, NOT_SAID, RECEIVED, SUSPECT
from dwellcalc.meter.tables.columns import TABLE_HEADINGS
from dwellcalc.meter.tables.series import Raw, Series, SeriesKey
from dwellcalc.meter.tables.stamps import DAY, MINUTE
from dwellcalc.meter.tables.table_lines import Rows, cell
from dwellcalc.meter.tables.values import Unit, unit_of
from dwellcalc.problems import fail

BEGIN, NAMES, DAYS, PARTS = "100", "200", "300", "400"
METER, SUFFIX, UNIT, LENGTH = 1, 4, 7, 8
LENGTHS = (1, 5, 15, 30, 60)
OTHER_SERIES = "of a series that is none of electrical energy"
_FLOWS = {"E": DELIVERED, "B": RECEIVED}
_QUALITIES = {"A": MEASURED, "E": ESTIMATED, "F": EDITED, "S": ESTIMATED, "N": SUSPECT, "V": MEASURED}
_NAMED = re.compile(r"[A-Z]\w\Z")


def has_records(rows: list[list[str]]) -> bool:
    """Whether the first rows are records with numbers."""
    first = next((row for row in rows if row), [])
    later = [cell(row, 0) for row in rows if row]
    return cell(first, 0) == BEGIN and NAMES in later and DAYS in later


class Records:
    """Reads the records one by one."""

    def __init__(self, raw: Raw) -> None:
        self.raw = raw
        self.series: Series | None = None
        self.length = 0
        self.day_of_series = 0

    def add(self, row: list[str], number: int, line: str) -> None:
        """Take one record.

        Raises:
            InputError: there are many problems.
        """
        record = cell(row, 0)
        if record == NAMES:
            self._named(row)
        elif record == DAYS and self.series is None:
            self.raw.leave_out(OTHER_SERIES, number)
        elif record == DAYS:
            self._day(row, number, line)
        elif record == PARTS and self.series is not None:
            self._part(row, number, line)

    def _named(self, row: list[str]) -> None:
        unit: Unit | None = unit_of(cell(row, UNIT))
        minutes = cell(row, LENGTH)
        suffix = cell(row, SUFFIX)
        self.length = int(minutes) * MINUTE if minutes.isdigit() and int(minutes) in LENGTHS else 0
        self.series = None
        if unit is not None and self.length:
            direction = _FLOWS.get(suffix[:1], NOT_SAID) if _NAMED.match(suffix) else NOT_SAID
            register = suffix if suffix[1:] not in ("", "1") else ""
            self.series = self.raw.of(SeriesKey(cell(row, METER), register, direction, unit))

    def _day(self, row: list[str], number: int, line: str) -> None:
        series, count = self.series, DAY // self.length
        try:
            midnight = self.raw.days[cell(row, 1)]
        except ValueError:
            self.raw.doubt(number, cell(row, 1), line)
            return
        if self.raw.doubtful_count:
            self.raw.reading_follows()
        assert series is not None
        self.day_of_series = len(series.labels)
        said = cell(row, count + 2)
        quality = _QUALITIES.get(said[:1], MEASURED if said[:1] == "" else SUSPECT)
        for place in range(count):
            text = cell(row, place + 2)
            try:
                value = self.raw.numbers.value(text)
            except ValueError:
                self.raw.bad_number(text, f"interval {place + 1}", number, line)
                continue
            series.labels.append(midnight + place * self.length)
            series.ends.append(midnight + (place + 1) * self.length)
            series.values.append(value)
            series.quality.append(quality)
            series.decimals = max(series.decimals, self.raw.numbers.decimals(text))

    def _part(self, row: list[str], number: int, line: str) -> None:
        """The quality of some intervals of the day before."""
        first, last = cell(row, 1), cell(row, 2)
        if not (first.isdigit() and last.isdigit()):
            self.raw.bad_number(first, "start interval", number, line)
            return
        assert self.series is not None
        quality = _QUALITIES.get(cell(row, METER + 2)[:1], SUSPECT)
        count = len(self.series.quality) - self.day_of_series
        for place in range(max(1, int(first)), min(int(last), count) + 1):
            self.series.quality[self.day_of_series + place - 1] = quality


def read_records(raw: Raw, rows: Rows) -> None:
    """Read a file of numbered records.

    Raises:
        InputError: there are many problems, or no series of electrical energy.
    """
    reader = Records(raw)
    for row in rows:
        reader.add(row, rows.number, rows.shown(row))
    if not raw.series and not raw.told.problems.found:
        fail(TABLE_HEADINGS, found="its records name no unit of energy", roles="unit")
