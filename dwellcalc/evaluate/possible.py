"""What a value may be where inputs are known only between bounds: the second value domain of the rules.

A value that is the same for every input of a piece stays what it is in ``traced``: a float, a bool, a word, a place on a
scale, ``NOT_APPLICABLE`` or an ``Unknown``. Every other is a ``Possible``. Why the bounds hold to the last bit: an operation
is made with the same floating-point steps, in the same order, as the evaluation of one home. Each such step is monotone in
each operand (rounding to the nearest float keeps order), so the results at the ends enclose the result at every value
between, rounded as it is; nothing needs to be widened but a mean over members that are not certain.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterable
from typing import Any

from dwellcalc.facts import NOT_APPLICABLE, NotApplicable, Unknown

Value = Any
NOTHING: frozenset[Any] = frozenset()
TRUTHS = frozenset((True, False))
_COMPARE: dict[str, Callable[[float, float], bool]] = {
    ">=": operator.ge,
    "<=": operator.le,
    ">": operator.gt,
    "<": operator.lt,
    "=": operator.eq,
}


class Possible:
    """All that a value may be.

    Attributes:
        low, high: the bounds of the numbers that it may be; nothing where it is no number.
        words: the words or truths that it may be.
        absent: whether it may be not applicable.
        missing: what is lacking where it may be unknown.
        of: the inputs that it rests on, by their place in the box.
    """

    __slots__ = ("absent", "high", "low", "missing", "of", "words")

    def __init__(
        self,
        low: Any = None,
        high: Any = None,
        words: frozenset[Any] = NOTHING,
        absent: bool = False,
        missing: Unknown | None = None,
        of: frozenset[int] = NOTHING,
    ) -> None:
        self.low, self.high, self.words, self.absent, self.missing, self.of = low, high, words, absent, missing, of

    def __repr__(self) -> str:
        return f"Possible({self.low}, {self.high}, {set(self.words)}, {self.absent}, {self.missing}, {set(self.of)})"

    def certain(self) -> bool:
        """Whether it is a number or a word for every input."""
        return not self.absent and self.missing is None


def possible(value: Value) -> Possible:
    """Any value as what it may be."""
    kind = value.__class__
    if kind is Possible:
        return value  # type: ignore[no-any-return]
    if kind is float or kind is int:
        return Possible(value, value)
    if kind is NotApplicable:
        return Possible(absent=True)
    if kind is Unknown:
        return Possible(missing=value)
    return Possible(words=frozenset((value,)))


def settled(found: Possible) -> Value:
    """The value itself where there is only one that it may be; else what it may be."""
    numbers = found.low is not None
    if numbers + len(found.words) + found.absent + (found.missing is not None) != 1:
        return found
    if numbers:
        return found.low if found.low == found.high else found
    if found.words:
        return next(iter(found.words))
    return NOT_APPLICABLE if found.absent else found.missing


def hull(values: Iterable[Value]) -> Value:
    """One of several values, not known which."""
    made = Possible()
    for value in values:
        one = possible(value)
        if one.low is not None:
            made.low = one.low if made.low is None else min(made.low, one.low)
            made.high = one.high if made.high is None else max(made.high, one.high)
        made.words |= one.words
        made.absent = made.absent or one.absent
        made.missing = both_missing(made.missing, one.missing)
        made.of |= one.of
    return settled(made)


def both_missing(left: Unknown | None, right: Unknown | None) -> Unknown | None:
    """What is lacking in either."""
    if left is None or right is None:
        return left if right is None else right
    return left.joined(right)


def formula(parts: list[Possible]) -> Possible:
    """What a formula of some parts may be beside a number: not applicable where one part may be, unknown where one may be.

    One part that is not applicable makes the whole so, whatever is unknown; ``words`` is not empty where it may be a number.
    """
    made = Possible()
    numbers = True
    for part in parts:
        made.absent = made.absent or part.absent
        made.missing = both_missing(made.missing, part.missing)
        made.of |= part.of
        numbers = numbers and part.low is not None
    if any(part.absent and part.low is None and part.missing is None for part in parts):
        made.missing = None
    made.words = TRUTHS if numbers else NOTHING
    return made


def arithmetic(sign: str, left: Value, right: Value) -> Value:
    """Two amounts with + - * or /; division by what may be zero may be unknown."""
    a, b = possible(left), possible(right)
    made = formula([a, b])
    numbers, made.words = bool(made.words), NOTHING
    if not numbers:
        return settled(made)
    if sign == "+":
        made.low, made.high = a.low + b.low, a.high + b.high
    elif sign == "-":
        made.low, made.high = a.low - b.high, a.high - b.low
    elif sign == "*":
        _corners(made, [a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high])
    elif b.low <= 0 <= b.high:
        why = Unknown(refusals=["a division by zero"])
        made.missing = both_missing(made.missing, why)
        if b.low != b.high:
            made.low, made.high = -float("inf"), float("inf")
    else:
        _corners(made, [a.low / b.low, a.low / b.high, a.high / b.low, a.high / b.high])
    return settled(made)


def _corners(made: Possible, values: list[float]) -> None:
    made.low, made.high = min(values), max(values)


def compared(sign: str, left: Value, right: Value) -> Value:
    """Two amounts compared: both truths where they overlap."""
    if left.__class__ is float and right.__class__ is float:
        return _COMPARE[sign](left, right)
    a, b = possible(left), possible(right)
    made = formula([a, b])
    if not made.words:
        return settled(made)
    if sign == "=":
        if a.low == a.high == b.low == b.high:
            made.words = frozenset((True,))
        elif a.high < b.low or b.high < a.low:
            made.words = frozenset((False,))
        return settled(made)
    if sign in (">", ">="):
        a, b = b, a
    below = a.high < b.low or (sign in ("<=", ">=") and a.high == b.low)
    never = a.low > b.high or (sign in ("<", ">") and a.low == b.high)
    if below or never:
        made.words = frozenset((below,))
    return settled(made)


def turned(value: Value) -> Value:
    """A condition turned round."""
    if value.__class__ is not Possible:
        return value if value.__class__ in (Unknown, NotApplicable) else not value
    return Possible(None, None, frozenset(not word for word in value.words), value.absent, value.missing, value.of)


def any_of(values: Iterable[Value], settles: bool = True) -> Value:
    """Conditions joined by `or`; with ``settles`` false, by `and`. One that settles the whole does so whatever is unknown."""
    made = Possible()
    other = True  # whether none of them may settle it
    for value in values:
        if value is settles:
            return settles
        if value is True or value is False:
            continue
        one = possible(value)
        made.of |= one.of
        made.missing = both_missing(made.missing, one.missing)
        if settles in one.words:
            made.words |= frozenset((settles,))
        other = other and bool(one.words - {settles} or one.absent)
    if other:
        made.words |= frozenset((not settles,))
    return settled(made)
