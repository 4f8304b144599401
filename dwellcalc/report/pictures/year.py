"""The metered year: the highest window of each day, or of each month where the days are not there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from dwellcalc.decide.record_document import PeakResult, RecordResult
from dwellcalc.report.pictures.drawing import SIZE, SMALL, WIDTH, Drawing
from dwellcalc.report.pictures.picture import Picture
from dwellcalc.report.pictures.scale import Scale, scale_to
from dwellcalc.report.pictures.widths import fitted, width_of
from dwellcalc.report.record_pages import kilowatts
from dwellcalc.report.tables import Table
from dwellcalc.report.wording import counted

LEFT, RIGHT = 36.0, 392.0  # between them the year
HIGH = 130.0  # of the plot
LINE, SMALL_LINE = 18.0, 16.0
OVER, MARK = 3.0, 4.0
THIN = 0.2  # what is left free between bars, as a share of their width
KILO = 1000
NO_VALUES = "no values"


@dataclass
class _Bar:
    """The highest window in a span of time: the month and year that it lies in, its date, its average [W], nothing in a gap."""

    month: str
    name: str
    power: float | None


def year_picture(record: RecordResult) -> Picture | None:
    """The year of a record; nothing where no window is filled."""
    bars = [_Bar(day[: day.rindex("-")], day, power) for day, power in record.days.items()]
    bars = bars or [_Bar(month.name, month.name, month.maximum) for month in record.months]
    if all(each.power is None for each in bars) or not record.highest:
        return None
    each = "day" if record.days else "month"
    title = f"The metered year: the highest {record.window:g} min of each {each}"
    drawing = _drawn(bars, record.highest[0], record.window)
    return Picture(title, _says(record, bars, each), drawing.finished(), _numbers(record, bars, title))


def _drawn(bars: Sequence[_Bar], highest: PeakResult, window: float) -> Drawing:
    drawing = Drawing()
    y = float(0)
    gaps = any(each.power is None for each in bars)
    for text in fitted(f"Highest {window:g} min: {kilowatts(highest.power)}, {highest.at} (marked)", SIZE, WIDTH - 2 * OVER):
        y += LINE
        drawing.text((OVER, y - OVER), text)
    if gaps:
        drawing.box((OVER, y + OVER), SMALL, SMALL, "gap")
        drawing.hatch((OVER, y + OVER), SMALL, SMALL)
        y += LINE
        drawing.text((OVER + LINE, y - OVER), f"Hatched: {NO_VALUES}")
    y += SMALL_LINE
    drawing.text((OVER, y - OVER), "kW", "tick", SMALL)
    top = y + MARK * 2
    scale = scale_to(max(each.power or float(0) for each in bars) / KILO, top + HIGH, top)
    _grid(drawing, scale)
    _year(drawing, bars, highest, scale)
    _months(drawing, bars, top + HIGH)
    return drawing


def _grid(drawing: Drawing, scale: Scale) -> None:
    for y, text in scale.ticks():
        drawing.line([(LEFT, y), (RIGHT, y)], "grid")
        drawing.text((LEFT - MARK, y + MARK), text, "tick", SMALL, "end")


def _across(bars: Sequence[_Bar]) -> float:
    return (RIGHT - LEFT) / len(bars)


def _year(drawing: Drawing, bars: Sequence[_Bar], highest: PeakResult, scale: Scale) -> None:
    wide = _across(bars)
    for gap, run in groupby(enumerate(bars), key=lambda pair: pair[1].power is None):
        places = list(run)
        x = LEFT + wide * places[0][0]
        if gap:
            drawing.box((x, scale.end), wide * len(places), scale.begin - scale.end, "gap")
            drawing.hatch((x, scale.end), wide * len(places), scale.begin - scale.end)
            continue
        for place, each in places:
            y = scale.at((each.power or float(0)) / KILO)
            drawing.box((LEFT + wide * (place + THIN / 2), y), wide * (1 - THIN), scale.begin - y, "day")
            if any(highest.at.startswith(name) for name in each.name.split(", ")):
                _mark(drawing, LEFT + wide * (place + THIN * 2), scale.at(highest.power / KILO))
    drawing.line([(LEFT, scale.begin), (RIGHT, scale.begin)], "rule")


def _mark(drawing: Drawing, x: float, y: float) -> None:
    """A triangle that points down at a place."""
    drawing.line([(x - MARK, y - MARK * 2), (x + MARK, y - MARK * 2), (x, y - 1), (x - MARK, y - MARK * 2)], "highest")


def _months(drawing: Drawing, bars: Sequence[_Bar], y: float) -> None:
    """The months below the year, each where it begins; one that has no room for its name is left without."""
    wide, free = _across(bars), LEFT - MARK
    for month, run in groupby(enumerate(bars), key=lambda pair: pair[1].month):
        places = [place for place, _ in run]
        begin, end = LEFT + wide * places[0], LEFT + wide * (places[-1] + 1)
        drawing.line([(begin, y), (begin, y + MARK)], "rule")
        name = _month(month)
        half, middle = width_of(name, SMALL) / 2, (begin + end) / 2
        if middle - half >= free and middle + half <= WIDTH - 1:
            drawing.text((middle, y + LINE), name, "tick", SMALL, "middle")
            free = middle + half + 1
    drawing.line([(RIGHT, y), (RIGHT, y + MARK)], "rule")
    drawing.reach(y + LINE + MARK)


def _month(name: str) -> str:
    """A month of a year, such as 2026-01, by its short name."""
    year, _, number = name.partition(",")[0].partition("-")
    return f"{date(int(year), int(number), 1):%b}"


def _gaps(bars: Sequence[_Bar]) -> list[tuple[str, str]]:
    """The first and the last of each run without a value."""
    runs = [[each.name for each in run] for gap, run in groupby(bars, key=lambda each: each.power is None) if gap]
    return [(run[0], run[-1]) for run in runs]


def _says(record: RecordResult, bars: Sequence[_Bar], each: str) -> str:
    highest = record.highest[0]
    text = (
        f"{record.file}, {record.begins} to {record.ends}: the highest {record.window:g} min of each {each}. "
        f"The highest of all is {kilowatts(highest.power)}, {highest.at}."
    )
    gaps = _gaps(bars)
    return f"{text} {counted(len(gaps), 'gap')} without values." if gaps else text


def _numbers(record: RecordResult, bars: Sequence[_Bar], title: str) -> Table:
    """The months with their highest window, which are the figures that the days rest on, and the gaps."""
    rows = [[each.name, "-" if each.maximum is None else kilowatts(each.maximum), each.at] for each in record.months]
    highest = record.highest[0]
    rows.append([f"Highest {record.window:g} min", kilowatts(highest.power), highest.at])
    rows += [[f"{first} to {last}" if first != last else first, NO_VALUES, ""] for first, last in _gaps(bars)]
    return Table(title, ["Month", "Highest", "Begins"], rows, ["left", "right", "left"])
