"""A picture of a document: a drawing, what it shows in words, and its numbers as a table."""

from __future__ import annotations

from dataclasses import dataclass
from xml.etree.ElementTree import Element

from dwellcalc.report.tables import Table


@dataclass
class Picture:
    """A picture.

    Attributes:
        title: what it is of, printed above it.
        says: what a reader who cannot see it must know, in a sentence or two, with its main figures.
        drawing: an ``svg`` element without ``title``, identifiers or scripts, coloured by the classes of the page alone.
        numbers: every figure that the drawing rests on; nothing where a table beside it holds them.
    """

    title: str
    says: str
    drawing: Element
    numbers: Table | None
