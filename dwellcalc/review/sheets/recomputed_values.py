"""A value that a line prints, with its state, and the arithmetic of such values.

*Not applicable* goes before *unknown*, as in arithmetic on facts; a known "no" settles an ``and``, a known "yes" an
``or``, whatever the other parts are. An operand that is needed and not printed comes last, and keeps the whole from
being known as they do.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from dwellcalc.review.sheets.recomputed_numbers import is_number
from dwellcalc.units import share

Record = Mapping[str, Any]
"""A part of the document, as JSON: a line, an item of a column, a condition, an operand, a row."""

KNOWN, UNKNOWN = "known", "unknown"
NOT_APPLICABLE, NOT_NEEDED, NOT_PRINTED = "not applicable", "not needed", "not printed"
PERCENT_SIGN = "%"

_GAPS = (NOT_APPLICABLE, UNKNOWN, NOT_PRINTED)
_SIGNS: dict[str, Callable[[float, float], float]] = {
    "+": operator.add,
    "-": operator.sub,
    "/": operator.truediv,
}
_COMPARED: dict[str, Callable[[float, float], bool]] = {
    ">=": operator.ge,
    ">": operator.gt,
    "<=": operator.le,
    "<": operator.lt,
}


class Refused(Exception):
    """What a line prints cannot be worked out; the text says why."""


@dataclass(frozen=True)
class Value:
    """A value with its state.

    Attributes:
        state: known, or what it is instead.
        value: a number in the unit that is printed with it, yes or no, or a word; for what is not printed its name.
        percent: whether that unit is a percent.
        position: the place of a word on its scale, where it has one.
    """

    state: str
    value: Any = None
    percent: bool = False
    position: int | None = None

    def number(self) -> float:
        """The number, in the unit that is printed with it.

        Raises:
            Refused: it is none.
        """
        if not is_number(self.value):
            raise Refused(f'"{self.value}" is not a number')
        return float(self.value)

    def truth(self) -> bool:
        """Yes or no.

        Raises:
            Refused: it is neither.
        """
        if not isinstance(self.value, bool):
            raise Refused(f'"{self.value}" is neither yes nor no')
        return self.value

    def word(self) -> str:
        """The word; yes and no are words, too.

        Raises:
            Refused: it is none.
        """
        if isinstance(self.value, bool):
            return "yes" if self.value else "no"
        if not isinstance(self.value, str):
            raise Refused(f'"{self.value}" is not a word')
        return self.value

    def rank(self) -> float:
        """What a comparison goes by: the number, or the place on its scale.

        Raises:
            Refused: it has neither.
        """
        if not isinstance(self.value, str):
            return self.number()
        if self.position is None:
            raise Refused(f'the place of "{self.value}" on its scale is not printed')
        return self.position


def known(value: Any, percent: bool = False) -> Value:
    """A known value: a number of percent where ``percent`` is true, else in another unit, yes or no, or a word."""
    return Value(KNOWN, value, percent)


def operand(entry: Record) -> Value:
    """The value of an operand, a part or a member as printed; known where no state is printed."""
    percent = entry.get("unit") == PERCENT_SIGN
    return Value(entry.get("state", KNOWN), entry.get("value"), percent, entry.get("position"))


def gap_in(values: Iterable[Value]) -> Value | None:
    """The value that keeps the whole from being known, or nothing.

    Raises:
        ValueError: a value is in no state that an operand can be in.
    """
    gaps = [value for value in values if value.state != KNOWN]
    return min(gaps, key=lambda value: _GAPS.index(value.state), default=None)


def arithmetic(sign: str, left: Value, right: Value) -> Value:
    """Two numbers with + - * or /, in their units; a percent times an amount is a share of it, in its unit.

    Raises:
        Refused: one is not a number.
        ArithmeticError: the right one is 0 and divides.
    """
    gap = gap_in((left, right))
    if gap:
        return gap
    one, other = left.number(), right.number()
    if sign != "*":
        return known(_SIGNS[sign](one, other), left.percent or right.percent)
    if right.percent:
        return known(share(one, other), left.percent)
    return known(share(other, one) if left.percent else one * other)


def compared(sign: str, left: Value, right: Value) -> Value:
    """Whether a comparison of two numbers, or of two places on one scale, holds.

    Raises:
        Refused: they cannot be compared.
    """
    gap = gap_in((left, right))
    if gap:
        return gap
    if isinstance(left.value, str) != isinstance(right.value, str):
        raise Refused(f'"{left.value}" and "{right.value}" cannot be compared')
    if sign not in _COMPARED:
        return known(left.value == right.value)
    return known(_COMPARED[sign](left.rank(), right.rank()))


def among(value: Value, words: Sequence[str], negated: bool) -> Value:
    """Whether a word is one of some, or with ``negated`` none of them.

    Raises:
        Refused: it is not a word.
    """
    return value if value.state != KNOWN else known((value.word() in words) != negated)


def inverse(value: Value) -> Value:
    """A condition turned round.

    Raises:
        Refused: it is neither yes nor no.
    """
    return value if value.state != KNOWN else known(not value.truth())


def chained(parts: Sequence[Value], settling: bool) -> Value:
    """Conditions joined by `and`, which one no settles, or by `or`, which one yes settles.

    Raises:
        Refused: a known one is neither yes nor no.
    """
    if any(part.truth() == settling for part in parts if part.state == KNOWN):
        return known(settling)
    return gap_in(parts) or known(not settling)
