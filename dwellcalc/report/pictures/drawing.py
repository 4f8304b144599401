"""The marks that pictures are made of, in units of about a pixel on a phone; each has a class, which the page gives its looks."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree.ElementTree import Element, SubElement

WIDTH = 400.0
SIZE, SMALL = 15.0, 13.0  # of fonts
SPACE = "http://www.w3.org/2000/svg"
STEP = 5.0  # between the lines of a hatching

Point = tuple[float, float]


class Drawing:
    """A drawing that grows downwards."""

    def __init__(self) -> None:
        self.root = Element("svg", {"xmlns": SPACE, "class": "picture"})
        self.height = float(0)

    def finished(self) -> Element:
        """The drawing, as high as what is in it."""
        self.root.set("viewBox", f"0 0 {_shown(WIDTH)} {_shown(self.height)}")
        return self.root

    def reach(self, below: float) -> None:
        """Be at least so high."""
        self.height = max(self.height, below)

    def text(self, at: Point, text: str, kind: str = "label", size: float = SIZE, anchor: str = "start") -> None:
        """A line of text on a baseline; ``anchor`` is start, middle or end."""
        given = {"x": _shown(at[0]), "y": _shown(at[1]), "class": kind, "font-size": _shown(size), "text-anchor": anchor}
        SubElement(self.root, "text", given).text = text
        self.reach(at[1] + size / 2)

    def box(self, at: Point, width: float, height: float, kind: str) -> None:
        """A rectangle by its upper left corner."""
        size = {"width": _shown(max(width, float(0))), "height": _shown(height)}
        SubElement(self.root, "rect", {"x": _shown(at[0]), "y": _shown(at[1]), **size, "class": kind})
        self.reach(at[1] + height)

    def line(self, points: Sequence[Point], kind: str) -> None:
        """A line through points."""
        shown = " ".join(f"{_shown(x)},{_shown(y)}" for x, y in points)
        SubElement(self.root, "polyline", {"points": shown, "class": kind})
        self.reach(max(y for _, y in points))

    def circle(self, at: Point, radius: float, kind: str) -> None:
        """A circle about a point."""
        SubElement(self.root, "circle", {"cx": _shown(at[0]), "cy": _shown(at[1]), "r": _shown(radius), "class": kind})
        self.reach(at[1] + radius)

    def arc(self, begin: Point, end: Point, radius: float, kind: str) -> None:
        """A part of a circle from one point to another, turning clockwise."""
        path = (
            f"M {_shown(begin[0])} {_shown(begin[1])} A {_shown(radius)} {_shown(radius)} 0 0 1 {_shown(end[0])} {_shown(end[1])}"
        )
        SubElement(self.root, "path", {"d": path, "class": kind})
        self.reach(max(begin[1], end[1]))

    def hatch(self, at: Point, width: float, height: float, *, crossed: bool = False) -> None:
        """Slanting lines within a rectangle; ``crossed`` in both directions."""
        left, top = at
        along = STEP - height
        while along < width:
            x = (max(along, float(0)), min(along + height, width))
            y = (x[0] - along, x[1] - along)
            if x[0] < x[1]:
                self.line([(left + x[0], top + height - y[0]), (left + x[1], top + height - y[1])], "hatch")
                if crossed:
                    self.line([(left + x[0], top + y[0]), (left + x[1], top + y[1])], "hatch")
            along += STEP


def _shown(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
