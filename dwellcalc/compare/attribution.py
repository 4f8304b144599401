"""A difference between two sheets of a method, split among the deepest lines that still add up.

From the total downwards every `sum_of` is followed. What stands under another way stays on its line: tiers, a factor,
the largest of several.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import isclose

from dwellcalc.compare.document import LineShare
from dwellcalc.compare.looks import MethodLook
from dwellcalc.compare.reasons import ABSENT, Reasons
from dwellcalc.evaluate.sheet import KNOWN, Outcome

SUM = "sum_of"
Amounts = dict[str, Fraction]


def difference(first: MethodLook, second: MethodLook) -> Fraction | None:
    """How much more the second side gives [A], none where a side cannot be calculated."""
    if first.amperes is None or second.amperes is None:
        return None
    return Fraction(second.amperes) - Fraction(first.amperes)


def shares(first: MethodLook, second: MethodLook, passed: str = "") -> list[LineShare]:
    """The difference of two sheets [A] by line, largest first; it adds up exactly.

    Nothing where a side cannot be calculated; ``passed`` is a collection of which nothing is told under an item.
    """
    whole = difference(first, second)
    if not whole:
        return []
    sides = Sides(first, second)
    found = {line: share for line, share in sides.differing().items() if not negligible(share, first, second)}
    found = completed(found, whole, second.total_line, first, second)
    told = [_share(line, share, sides, passed) for line, share in found.items()]
    return sorted(told, key=lambda each: -abs(each.amperes))


def completed(found: Amounts, whole: Fraction, root: str, first: MethodLook, second: MethodLook) -> Amounts:
    """Shares that add up to the whole: what rounding of the floats leaves over goes to the largest, else to the total."""
    rest = whole - sum(found.values())
    if not rest:
        return found
    largest = max(found, key=lambda line: abs(found[line]), default=root)
    line = largest if negligible(rest, first, second) else root
    made = {**found, line: found.get(line, Fraction(0)) + rest}
    return {name: share for name, share in made.items() if share}


def negligible(share: Fraction, first: MethodLook, second: MethodLook) -> bool:
    """Whether a share is no more than what floats lose on the way."""
    size = max(abs(first.amperes or 0.0), abs(second.amperes or 0.0))
    return isclose(size, size + float(share))


def scaled(look: MethodLook) -> Fraction:
    """How many amperes of the supply one unit of the total is."""
    if not look.total or look.amperes is None:
        return Fraction(0)
    return Fraction(look.amperes) / Fraction(look.total)


@dataclass
class Sides:
    """The two sheets, and how they are taken apart."""

    first: MethodLook
    second: MethodLook

    def differing(self) -> Amounts:
        """The difference of every line that is not taken apart [A]."""
        mine, other = self.amounts(self.first), self.amounts(self.second)
        one, two = self.scales()
        lines = dict.fromkeys([*other, *mine])
        return {line: other.get(line, Fraction(0)) * two - mine.get(line, Fraction(0)) * one for line in lines}

    def scales(self) -> tuple[Fraction, Fraction]:
        """Amperes for one unit of each side's root; the same for both where they differ by rounding alone."""
        if self.in_amperes:
            return Fraction(1), Fraction(1)
        one, two = scaled(self.first), scaled(self.second)
        if not one or not two:
            return one or two, two or one
        return (one, two) if not isclose(one, two) else (two, two)

    @property
    def in_amperes(self) -> bool:
        """Whether the line of the amperes is itself a sum."""
        return self.takes_apart(self.first.amperes_line) and self.takes_apart(self.second.amperes_line)

    def amounts(self, look: MethodLook) -> Amounts:
        """The values of one side's lines that are not taken apart."""
        found: Amounts = {}
        root = look.amperes_line if self.in_amperes else look.total_line
        outcome = look.outcome(root)
        if outcome is not None and outcome.state == KNOWN:
            self._add(found, look, root, outcome.value)
        return found

    def _add(self, found: Amounts, look: MethodLook, line: str, value: float) -> None:
        outcome = look.outcome(line)
        if outcome is None or not self.takes_apart(line) or outcome.value != value:
            found[line] = found.get(line, Fraction(0)) + Fraction(value)
            return
        for part in outcome.parts:
            if part.state == KNOWN:
                self._add(found, look, part.id, part.value)

    def takes_apart(self, line: str) -> bool:
        """Whether a line is a sum of lines on every side that has it."""
        there = [look for look in (self.first, self.second) if line in look.lines]
        return bool(there) and all(_is_sum(look, line) for look in there)


def _is_sum(look: MethodLook, line: str) -> bool:
    return look.lines[line].way == SUM and look.lines[line].outcome is not None


def _share(line: str, amperes: Fraction, sides: Sides, passed: str) -> LineShare:
    first, second = sides.first.outcome(line), sides.second.outcome(line)
    look = sides.second if line in sides.second.lines else sides.first
    found = look.lines.get(line)
    title, cite = (
        (_run_title(line, look), "") if found is None else (found.title, (second or first or Outcome("")).cite or found.cite)
    )
    because = Reasons(sides.first, sides.second, passed).told(line)
    return LineShare(line, title, cite, amperes, _printed(first), _printed(second), because)


def _run_title(line: str, look: MethodLook) -> str:
    """The title of a line of another method that a sum names."""
    parts = (part for each in look.lines.values() if each.outcome is not None for part in each.outcome.parts)
    return next((part.title for part in parts if part.id == line), "")


def _printed(outcome: Outcome | None) -> str:
    return ABSENT if outcome is None or outcome.state != KNOWN else outcome.printed
