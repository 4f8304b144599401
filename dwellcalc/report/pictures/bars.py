"""Bars in amperes against what a supply may carry: a row for each, its words above it, its figure at its end of the line.

A bar beyond the capacity is crossed with lines from there on; what may or may not be drawn has slanting lines.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dwellcalc.report.pictures.drawing import SIZE, SMALL, WIDTH, Drawing
from dwellcalc.report.pictures.scale import Scale, scale_to
from dwellcalc.report.pictures.widths import fitted, width_of

LEFT, RIGHT = 8.0, 392.0
LINE, SMALL_LINE = 18.0, 16.0  # of text, each below the one before
BAR, THIN = 14.0, 8.0  # how high bars are
OVER = 3.0  # how far a limit stands out under a bar; over it stands what the bar is
CLEAR = 7.0  # between a figure and a limit that stands out below it
GAP = 12.0  # below a row
APART = 10.0  # between the words of a row and its figure
SAMPLE = 14.0  # of a line whose meaning is told


@dataclass
class Bar:
    """A bar: where it begins and ends [A], and how it is drawn.

    ``open_from`` [A] is where it may end as well: from there on it has slanting lines. One that is not ``compared`` is never beyond a limit.
    """

    start: float
    end: float
    kind: str = "part"
    open_from: float | None = None
    compared: bool = True


@dataclass
class Row:
    """A row: its words, its figure in print, smaller words below them, and its bar, if it has one; ``beside`` is a thin second one.

    ``measured`` [A] is a length between two places, drawn in place of a bar.
    """

    label: str
    figure: str = ""
    notes: Sequence[str] = ()
    bar: Bar | None = None
    beside: Bar | None = None
    measured: tuple[float, float] | None = None


@dataclass
class Limit:
    """What bars are held against [A], and what it is called, with smaller words below; ``kind`` is limit or rating."""

    at: float
    title: str
    kind: str = "limit"
    note: str = ""


def bars(rows: Sequence[Row], limits: Sequence[Limit], reach: float = 0) -> Drawing:
    """The drawing of the rows, in their order, above a scale in amperes, which reaches at least so far [A]."""
    made = _Bars(rows, limits, float(reach))
    return made.drawn()


class _Bars:
    def __init__(self, rows: Sequence[Row], limits: Sequence[Limit], reach: float) -> None:
        self.rows, self.limits = rows, limits
        ends = [bar.end for row in rows for bar in (row.bar, row.beside) if bar is not None]
        ends += [*(each.at for each in limits), *(max(row.measured) for row in rows if row.measured)]
        self.scale: Scale = scale_to(max([reach, *ends]), LEFT, RIGHT - SAMPLE)
        self.drawing = Drawing()
        self.y = float(0)

    def drawn(self) -> Drawing:
        for limit in self.limits:
            self._told(limit)
        if any(bar is not None and self._beyond(bar) < bar.end for row in self.rows for bar in (row.bar, row.beside)):
            self._sample("Crossed lines: beyond the capacity", crossed=True)
        if any(bar is not None and bar.open_from is not None for row in self.rows for bar in (row.bar, row.beside)):
            self._sample("Slanting lines: what is not known")
        self.y += GAP / 2 if self.limits else float(0)
        for row in self.rows:
            if row.bar is None and row.measured is None:
                self._words(row)
            else:
                self._row(row)
        self.y += OVER
        self._axis()
        return self.drawing

    def _told(self, limit: Limit) -> None:
        """The meaning of a line, beside a sample of it."""
        for number, text in enumerate(fitted(limit.title, SIZE, RIGHT - LEFT - SAMPLE)):
            if number == 0:
                self.drawing.line([(LEFT + 2, self.y + 2), (LEFT + 2, self.y + LINE)], limit.kind)
            self._text(text, LEFT + SAMPLE)
        for text in fitted(limit.note, SMALL, RIGHT - LEFT - SAMPLE):
            self._text(text, LEFT + SAMPLE, "note", SMALL)

    def _sample(self, text: str, *, crossed: bool = False) -> None:
        """The meaning of lines within a bar, beside a sample of them."""
        self.drawing.box((LEFT, self.y + OVER), SAMPLE / 2 + OVER, SAMPLE - OVER, "beyond")
        self.drawing.hatch((LEFT, self.y + OVER), SAMPLE / 2 + OVER, SAMPLE - OVER, crossed=crossed)
        self._text(text, LEFT + SAMPLE)

    def _words(self, row: Row) -> None:
        """A row that has no bar, in small words."""
        for text in fitted(": ".join([row.label, *row.notes]), SMALL, RIGHT - LEFT):
            self._text(text, kind="note", size=SMALL)
        self.y += OVER

    def _text(self, text: str, x: float = LEFT, kind: str = "label", size: float = SIZE) -> None:
        self.y += LINE if size == SIZE else SMALL_LINE
        self.drawing.text((x, self.y - OVER), text, kind, size)

    def _row(self, row: Row) -> None:
        room = RIGHT - LEFT - (width_of(row.figure, SIZE) + APART if row.figure else float(0))
        for number, text in enumerate(fitted(row.label, SIZE, room)):
            self._text(text)
            if number == 0 and row.figure:
                self.drawing.text((RIGHT, self.y - OVER), row.figure, "figure", SIZE, "end")
        for note in row.notes:
            for text in fitted(note, SMALL, RIGHT - LEFT):
                self._text(text, kind="note", size=SMALL)
        self.y += OVER if row.notes else CLEAR
        if row.bar is not None:
            self._bar(row.bar, BAR if row.bar.compared else THIN)
        if row.beside is not None:
            self.y += OVER
            self._bar(row.beside, THIN)
        if row.measured is not None:
            self._measured(*row.measured)
        self.y += GAP if row.bar is None or row.bar.compared else CLEAR

    def _bar(self, bar: Bar, high: float) -> None:
        scale, drawing, top = self.scale, self.drawing, self.y
        begin, end = scale.at(bar.start), scale.at(bar.end)
        drawing.box((begin, top), end - begin, high, bar.kind)
        if bar.open_from is not None:
            low = scale.at(bar.open_from)
            drawing.box((low, top), end - low, high, "beyond")
            drawing.hatch((low, top), end - low, high)
        beyond = self._beyond(bar)
        if beyond < bar.end:
            at = scale.at(beyond)
            drawing.box((at, top), end - at, high, "beyond")
            drawing.hatch((at, top), end - at, high, crossed=True)
        if bar.compared:
            self._limits(top, high)
        self.y += high

    def _beyond(self, bar: Bar) -> float:
        """From where on a bar is beyond the capacity [A]; its end where it is not."""
        capacity = next((each.at for each in self.limits if each.kind == "limit"), bar.end)
        return max(bar.start, capacity) if bar.compared else bar.end

    def _limits(self, top: float, high: float) -> None:
        for limit in self.limits:
            x = self.scale.at(limit.at)
            self.drawing.line([(x, top), (x, top + high + OVER)], limit.kind)

    def _measured(self, one: float, other: float) -> None:
        """A length with its ends, as lengths are told in drawings."""
        middle = self.y + BAR / 2
        ends = [self.scale.at(min(one, other)), self.scale.at(max(one, other))]
        self.drawing.line([(ends[0], middle), (ends[1], middle)], "measure")
        for x in ends:
            self.drawing.line([(x, self.y + OVER), (x, self.y + BAR - OVER)], "measure")
        self._limits(self.y, BAR)
        self.y += BAR

    def _axis(self) -> None:
        self.drawing.line([(self.scale.begin, self.y), (self.scale.end, self.y)], "rule")
        ticks = self.scale.ticks()
        for number, (x, text) in enumerate(ticks):
            last = number == len(ticks) - 1
            self.drawing.line([(x, self.y), (x, self.y + OVER)], "rule")
            shown = f"{text} A" if last else text
            half = width_of(shown, SMALL) / 2
            self.drawing.text((min(max(x, half), WIDTH - half), self.y + LINE), shown, "tick", SMALL, "middle")
        self.y += LINE
        self.drawing.reach(self.y + OVER)
