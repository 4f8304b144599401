"""Tables of interval data with known truth, in every layout that the reader knows; all values are invented."""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from dwellcalc.meter.record import DELIVERED, ESTIMATED, MEASURED, NET, NOT_SAID, RECEIVED

DENVER, PHOENIX = ZoneInfo("America/Denver"), ZoneInfo("America/Phoenix")
SPRING, AUTUMN = datetime(2025, 3, 7), datetime(2025, 10, 31)
DAYS = 5


@dataclass(frozen=True)
class Truth:
    """One reading: its start [s UTC], length [s], energy [kWh] or nothing, and whether it was estimated."""

    start: int
    length: int
    energy: float | None
    estimated: bool = False

    def local(self, zone: ZoneInfo, after: int = 0) -> datetime:
        return datetime.fromtimestamp(self.start + after, UTC).astimezone(zone).replace(tzinfo=None)

    def stamp(self, zone: ZoneInfo, form: str = "%Y-%m-%d %H:%M", after: int = 0) -> str:
        """The start on the clock of the zone; the clock's hand is then moved on, whatever clocks do in between."""
        return (self.local(zone) + timedelta(seconds=after)).strftime(form)

    @property
    def quality(self) -> int:
        return ESTIMATED if self.estimated else MEASURED


def truth(
    zone: ZoneInfo, first: datetime, days: int = DAYS, length: int = 900, decimals: int = 3, gaps: bool = False
) -> list[Truth]:
    """All intervals of some local days."""
    chance = random.Random(f"{zone} {first} {days} {length}")
    begin = int(first.replace(tzinfo=zone).timestamp())
    end = int((first + timedelta(days=days)).replace(tzinfo=zone).timestamp())
    found = []
    for start in range(begin, end, length):
        energy = round(chance.uniform(0.01, 2.5), decimals)
        missing = gaps and chance.random() < 0.02
        found.append(Truth(start, length, None if missing else energy, gaps and not missing and chance.random() < 0.03))
    return found


def by_days(found: list[Truth], zone: ZoneInfo) -> dict[date, list[Truth]]:
    days: dict[date, list[Truth]] = {}
    for each in found:
        days.setdefault(each.local(zone).date(), []).append(each)
    return days


def standard(each: Truth, zone: ZoneInfo, after: int = 0) -> datetime:
    """The start on a clock that keeps standard time all year."""
    moment = datetime.fromtimestamp(each.start + after, UTC)
    offset = min(filter(None, (moment.replace(month=month, day=1).astimezone(zone).utcoffset() for month in (1, 7))))
    return (moment + offset).replace(tzinfo=None)


def number(energy: float | None, missing: str = "", decimals: int = 3) -> str:
    return missing if energy is None else f"{energy:.{decimals}f}"


def text_of(rows: Iterable[Sequence[str]], separator: str = ",") -> str:
    return "".join(f"{separator.join(row)}\n" for row in rows)


Expected = dict[str, list[Truth]]
Table = tuple[str, dict[str, Any], Expected]


def layout_a(zone: ZoneInfo, first: datetime) -> Table:
    """A preamble, dates and times apart, ends within their interval, ragged notes."""
    found = truth(zone, first)
    rows = [["Name", "A Person"], ["Address", '"1 Some Street, Town"'], ["Account Number", "0001"], ["Service", "Service 1"], []]
    rows.append(["TYPE", "DATE", "START TIME", "END TIME", "USAGE (kWh)", "COST", "NOTES"])
    for each in found:
        end = each.stamp(zone, "%H:%M", each.length - 60)
        rows.append(
            ["Electric usage", each.stamp(zone, "%Y-%m-%d"), each.stamp(zone, "%H:%M"), end, number(each.energy), "$0.10"]
        )
    return text_of(rows), {}, {NOT_SAID: found}


def layout_b(zone: ZoneInfo, first: datetime) -> Table:
    """Import and export as columns, missing ones marked so."""
    taken, given = truth(zone, first, gaps=True), truth(zone, first - timedelta(days=DAYS), days=3 * DAYS)
    given = [other for other in given if taken[0].start <= other.start <= taken[-1].start]
    taken = [Truth(each.start, each.length, each.energy) for each in taken]
    rows = [["TYPE", "DATE", "START TIME", "END TIME", "IMPORT (kWh)", "EXPORT (kWh)", "DEMAND (kW)", "NOTES"]]
    for one, other in zip(taken, given, strict=True):
        times = [one.stamp(zone, "%Y-%m-%d"), one.stamp(zone, "%H:%M"), one.stamp(zone, "%H:%M", one.length - 60)]
        rows.append(["Electric usage", *times, number(one.energy, "null"), number(other.energy), "1.0"])
    return text_of(rows), {}, {DELIVERED: taken, RECEIVED: given}


def layout_c(zone: ZoneInfo, first: datetime) -> Table:
    """Prose, a heading for each day, start and end in one quoted cell with a blank that does not break."""
    found = truth(zone, first, decimals=2)
    lines = ["Energy report\n", "\n", "For location: 1 Some Street\n", "Values are invented, of no meter\n", "\n"]
    lines.append("Energy consumption time period,Usage(Real energy in kilowatt-hours),Reading quality\n")
    day = None
    for each in found:
        if each.local(zone).date() != day:
            day = each.local(zone).date()
            lines += ["\n", f'"Data for period starting: {day} 00:00:00 for 24 hours"\n', "\n"]
        end = each.local(zone, each.length).strftime("%Y-%m-%d %H:%M:%S")
        lines.append(f'"{each.stamp(zone, "%Y-%m-%d %H:%M:%S")}\u00a0to {end}","{number(each.energy, decimals=2)}",""\n')
    return "".join(lines), {}, {NOT_SAID: found}


def layout_d(zone: ZoneInfo, first: datetime) -> Table:
    """Long form with a meter, surplus as rows of their own, flags, and a day that was revised."""
    taken = [each for each in truth(zone, first, gaps=True) if each.energy is not None]
    given = [Truth(each.start, each.length, round((each.energy or 0) / 2, 3)) for each in taken]
    head = ["ESIID", "USAGE_DATE", "REVISION_DATE", "USAGE_START_TIME", "USAGE_END_TIME", "USAGE_KWH", "ESTIMATED_ACTUAL"]
    rows = [[*head, "CONSUMPTION_SURPLUSGENERATION"]]
    revised = taken[0].local(zone).date()
    for flow, series in (("Consumption", taken), ("Surplus Generation", given)):
        for again in (False, True):
            for each in series:
                if again and each.local(zone).date() != revised:
                    continue
                wrong = not again and each.local(zone).date() == revised
                value = 9.999 if wrong else each.energy
                times = [each.stamp(zone, "%m/%d/%Y"), "04/20/2025" if again else "04/10/2025"]
                times += [each.stamp(zone, "%H:%M"), each.stamp(zone, "%H:%M", each.length)]
                rows.append(["'100000000000001", *times, number(value), "E" if each.estimated else "A", flow])
    return text_of(rows), {}, {DELIVERED: taken, RECEIVED: given}


def layout_e(zone: ZoneInfo, first: datetime) -> Table:
    """Net values with negative ones, a star for estimates."""
    found = [
        Truth(each.start, each.length, None if each.energy is None else round(each.energy - 1, 3), each.estimated)
        for each in truth(zone, first, length=3600, gaps=True)
    ]
    head = [
        "Account Holder",
        "Account Number",
        "Interval Start Date/Time",
        "Net Consumption (kWh)",
        "Demand (kW)",
        "Power Factor (%)",
    ]
    rows = [[*head, "Estimated Usage"]]
    for each in found:
        rows.append(["A Person", "1", each.stamp(zone), number(each.energy, "N/A"), "N/A", "N/A", "*" if each.estimated else ""])
    return text_of(rows), {}, {NET: found}


def layout_f(zone: ZoneInfo, first: datetime) -> Table:
    """Date and hour 0 to 23, dates as a spreadsheet writes them."""
    found = truth(zone, first, length=3600)
    rows = [["date", "hour", "energy_kWh"]]
    for each in found:
        when = each.local(zone)
        rows.append([f"{when.month}/{when.day}/{when.year}", str(when.hour), number(each.energy)])
    return text_of(rows), {}, {NOT_SAID: found}


def layout_g(zone: ZoneInfo, first: datetime, flows: bool = True) -> Table:
    """A row for each day and flow, with as many values as the day has quarters of an hour, and a flag for the day."""
    taken, given = truth(zone, first), truth(zone, first, decimals=2)
    rows = [["METER", "DATE", "CON/GEN", *(str(number) for number in range(1, 101)), "ESTIMATED?"]]
    expected: Expected = {DELIVERED: [], RECEIVED: []}
    for flow, series in (("CON", taken), ("GEN", given)):
        direction = DELIVERED if flow == "CON" else RECEIVED
        for day, inside in by_days(series, zone).items():
            estimated = day == first.date()
            values = [number(each.energy) for each in inside]
            rows.append(["M1", f"{day:%m/%d/%Y}", flow, *values, *[""] * (100 - len(values)), "Y" if estimated else "N"])
            expected[direction] += [Truth(each.start, each.length, each.energy, estimated) for each in inside]
    return text_of(rows), {"unit": "kWh"}, expected


def layout_g_clocks(zone: ZoneInfo, first: datetime) -> Table:
    """A row for each day, headed by times of day; a skipped hour is blank, a repeated one has columns of its own at the end."""
    found = truth(zone, first, length=3600)
    heads = [f"{hour}:00" for hour in range(24)]
    rows = [["Date", *(f"{head} (kWh)" for head in heads), "1:00 (kWh)"]]
    for day, inside in by_days(found, zone).items():
        cells = [""] * 25
        for each in inside:
            hour = each.local(zone).hour
            cells[24 if cells[hour] else hour] = number(each.energy)
        rows.append([f"{day:%Y-%m-%d}", *cells])
    return text_of(rows), {}, {NOT_SAID: found}


def layout_g_records(zone: ZoneInfo, first: datetime) -> Table:
    """Numbered records, standard time all year, flags for parts of a day."""
    found = truth(zone, first + timedelta(hours=0), length=1800)
    by_day: dict[str, list[Truth]] = {}
    for each in found:
        by_day.setdefault(f"{standard(each, zone):%Y%m%d}", []).append(each)
    rows = [["100", "NEM12", "202501010000", "X", "Y"], ["200", "0000000001", "E1B1", "1", "E1", "N1", "S1", "kWh", "30", ""]]
    kept: list[Truth] = []
    for day, inside in by_day.items():
        if len(inside) < 48:
            continue
        rows.append(["300", day, *(number(each.energy) for each in inside), "V", "", "", "", ""])
        rows += [["400", "1", "10", "A", "", ""], ["400", "11", "48", "E52", "", ""]]
        kept += [Truth(each.start, each.length, each.energy, place >= 10) for place, each in enumerate(inside)]
    rows += [
        ["200", "0000000001", "E1B1", "1", "Q1", "N1", "S1", "kVArh", "30", ""],
        ["300", "20250101", *["1"] * 48, "A"],
        ["900"],
    ]
    return text_of(rows), {"standard_time": "yes"}, {DELIVERED: kept}


def layout_h(zone: ZoneInfo, first: datetime) -> Table:
    """Hours that end, in standard time all year, values of average power."""
    found = truth(zone, first, length=3600)
    rows = [["Date", "Hour Ending", "Demand (kW)"]]
    for each in found:
        when = standard(each, zone)
        rows.append([f"{when:%Y-%m-%d}", str(when.hour + 1), number(each.energy)])
    return text_of(rows), {"standard_time": "yes"}, {NOT_SAID: found}


def layout_h_clocks(zone: ZoneInfo, first: datetime) -> Table:
    """The same with AM and PM; 12:00 AM ends the day before."""
    found = truth(zone, first, length=3600)
    rows = [["Interval Ending", "kW"]]
    for each in found:
        when = standard(each, zone, 3600)
        rows.append(
            [
                f"{when.month}/{when.day}/{when.year} {when.hour % 12 or 12}:00 {'AM' if when.hour < 12 else 'PM'}",
                number(each.energy),
            ]
        )
    return text_of(rows), {"standard_time": "yes", "date_order": "month first"}, {NOT_SAID: found}


def layout_i(zone: ZoneInfo, first: datetime) -> Table:
    """Ends in local time: in spring 02:00 is followed by 03:15, in autumn 01:15 to 02:00 stand twice; blanks are missing."""
    found = [Truth(each.start, each.length, each.energy) for each in truth(zone, first, gaps=True)]
    rows = [["Date/Time", "kWh"]]
    rows += [[each.stamp(zone, after=each.length), number(each.energy)] for each in found]
    return text_of(rows), {}, {NOT_SAID: found}


def layout_j(zone: ZoneInfo, first: datetime) -> Table:
    """Ends with an offset from UTC in a column, hours and minutes without a colon, a flag for estimates."""
    found = truth(zone, first, length=1800, gaps=True)
    rows = [["meter_id", "read_date", "end time", "utc offset", "usage", "uom", "is_estimate"]]
    for each in found:
        end = each.local(zone, each.length)
        offset = datetime.fromtimestamp(each.start + each.length, UTC).astimezone(zone).strftime("%z")
        flag = "" if each.energy is None else ("E" if each.estimated else "A")
        rows.append(["7", f"{end:%Y-%m-%d}", f"{end:%H%M}", offset, number(each.energy), "KWH", flag or "A"])
    return text_of(rows), {}, {NOT_SAID: found}


def layout_k(zone: ZoneInfo, first: datetime) -> Table:
    """Letters tell the first from the second of a repeated hour, whatever the order of rows."""
    found = truth(zone, first, length=3600)
    rows = []
    for each in found:
        moment = datetime.fromtimestamp(each.start, UTC).astimezone(zone)
        twice = moment.replace(fold=0).utcoffset() != moment.replace(fold=1).utcoffset()
        letter = "AB"[moment.fold] if twice else ""
        rows.append([f"{moment:%Y-%m-%d}", f"{moment.hour}{letter}:00", number(each.energy)])
    random.Random(1).shuffle(rows)
    return text_of([["Date", "Start time", "Usage (kWh)"], *rows]), {}, {NOT_SAID: found}


def layout_m(zone: ZoneInfo, first: datetime) -> Table:
    """Semicolons, a comma before decimals, the day first."""
    found = truth(zone, first)
    rows = [["Start", "Verbrauch [kWh]"]]
    rows += [[each.stamp(zone, "%d.%m.%Y %H:%M"), number(each.energy).replace(".", ",")] for each in found]
    return text_of(rows, ";"), {"date_order": "day first", "columns": {"energy": "Verbrauch [kWh]"}}, {NOT_SAID: found}


def offsets_in_stamps(zone: ZoneInfo, first: datetime) -> Table:
    """Stamps that bear an offset each."""
    found = truth(zone, first)
    rows = [["start", "value (Wh)"]]
    for each in found:
        moment = datetime.fromtimestamp(each.start, UTC).astimezone(zone)
        rows.append([moment.isoformat(), str(round((each.energy or 0) * 1000))])
    return text_of(rows), {}, {NOT_SAID: found}


def plain_starts(zone: ZoneInfo, first: datetime) -> Table:
    """Starts and values, no more."""
    found = truth(zone, first)
    return text_of([["start", "kWh"], *([each.stamp(zone), number(each.energy)] for each in found)]), {}, {NOT_SAID: found}


LAYOUTS = {
    "a": layout_a,
    "b": layout_b,
    "c": layout_c,
    "d": layout_d,
    "e": layout_e,
    "f": layout_f,
    "g": layout_g,
    "g_clocks": layout_g_clocks,
    "g_records": layout_g_records,
    "h": layout_h,
    "h_clocks": layout_h_clocks,
    "i": layout_i,
    "j": layout_j,
    "k": layout_k,
    "m": layout_m,
    "offsets": offsets_in_stamps,
    "plain": plain_starts,
}
