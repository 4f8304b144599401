"""The parts that what a supply must carry is made of: lines of the basis, in amperes of the supply, and what sizing adds.

From the total downwards every sum is followed, a choice where what it takes is itself a sum, and a quantity by tiers.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import isclose

from dwellcalc.evaluate.sheet import KNOWN, MethodSheet, Outcome, SheetLine

SUM, TIERS = "sum_of", "tiers"


@dataclass(slots=True)
class PartOfLoad:
    """A part of what a supply must carry.

    Attributes:
        id, title, cite: of the line.
        tier: which tier of it, in print; empty where it is the whole line.
        va: the part [VA]; nothing for what sizing adds.
        amperes: its share of the load [A].
        added: whether it is added to the load of the method in sizing.
    """

    id: str
    title: str
    cite: str
    tier: str
    va: float | None
    amperes: float
    added: bool = False


def parts_of(sheet: MethodSheet, total: tuple[str, float], amperes: tuple[str, float], required: Outcome) -> list[PartOfLoad]:
    """The parts of a load, and what sizing adds to it; in amperes they add up to what the supply must carry.

    Args:
        sheet: of the method of the basis.
        total: the id of its line of the load, and the load [VA].
        amperes: the same [A].
        required: what the supply must carry, a sum with the load first.
    """
    lines = {line.id: line for each in (sheet, *sheet.runs) for line in each.lines}
    of_amperes = lines.get(amperes[0])
    root = amperes if of_amperes is not None and of_amperes.way == SUM else total
    found = [part for part in _Apart(lines).parts(root[0]) if part.va]
    for part, share in zip(found, _shares([part.va or float(0) for part in found], amperes[1]), strict=True):
        part.amperes = share
        part.va = part.va if root is total else share * total[1] / amperes[1]
    added = [part for part in required.parts[1:] if part.taken and part.value]
    return found + [PartOfLoad(part.id, part.title, required.cite, "", None, part.value, added=True) for part in added]


def _shares(values: list[float], amperes: float) -> list[float]:
    """Each value's share of the amperes: all of them are lines of one sum, so one factor serves them."""
    exact = [Fraction(value) for value in values]
    whole = sum(exact)
    return [float(value * Fraction(amperes) / whole) for value in exact] if whole else values


@dataclass
class _Apart:
    """The lines of a sheet, taken apart."""

    lines: dict[str, SheetLine]

    def parts(self, name: str) -> list[PartOfLoad]:
        """The parts of a line, each with its value where volt-amperes stand; the line itself where it has no more than one."""
        found = list(self._below(name))
        return found if len(found) > 1 else self._itself(name)

    def _itself(self, name: str) -> list[PartOfLoad]:
        line, outcome = self._line(name)
        if line is None or outcome is None:
            return []
        return [PartOfLoad(name, line.title, outcome.cite or line.cite, "", outcome.value, float(0))]

    def _below(self, name: str) -> Iterator[PartOfLoad]:
        """What stands under a line, as far as it adds up to it."""
        line, outcome = self._line(name)
        if line is None or outcome is None:
            return
        if line.way == TIERS:
            cite = outcome.cite or line.cite
            tiers = [each for each in outcome.phrases if each.value]
            yield from (PartOfLoad(name, line.title, cite, each.phrase, each.value, float(0)) for each in tiers)
            return
        taken = [part for part in outcome.parts if part.taken and part.value and part.state == KNOWN]
        if isclose(sum(part.value for part in taken), outcome.value):
            for part in taken:
                below = list(self._below(part.id))
                one = [PartOfLoad(part.id, part.title, self._cite(part.id), "", part.value, float(0))]
                yield from below if len(below) > 1 else one

    def _cite(self, name: str) -> str:
        line, outcome = self._line(name)
        return "" if line is None or outcome is None else outcome.cite or line.cite

    def _line(self, name: str) -> tuple[SheetLine | None, Outcome | None]:
        line = self.lines.get(name)
        known = line is not None and line.outcome is not None and line.outcome.state == KNOWN
        return (line, line.outcome) if line is not None and known else (None, None)
