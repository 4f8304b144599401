"""Gathering words and small arithmetic, over values that may be unknown or not applicable.

Items are added in file order from 0.0 by an ordinary loop, each weight times value: other walks must agree bit for bit.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from dwellcalc.facts import NOT_APPLICABLE, NotApplicable, Unknown

if TYPE_CHECKING:
    from dwellcalc.evaluate.traced import Evaluation

Value = Any
Read = Callable[["Evaluation", int], Value]
UNSET = object()


def special(values: list[Value]) -> Value:
    """Not applicable where any value is; else all that is unknown; else nothing."""
    missing: Unknown | None = None
    for value in values:
        if value.__class__ is NotApplicable:
            return value
        if value.__class__ is Unknown:
            missing = value if missing is None else missing.joined(value)
    return missing


def divided(left: Value, right: Value) -> Value:
    """A quotient; division of an amount by zero is unknown, with that as the reason."""
    if right.__class__ is float and right == 0:
        return left if left.__class__ is not float else Unknown(refusals=["a division by zero"])
    return left / right


def rounded(value: float, step: float, up: bool) -> float:
    """An amount rounded to a step: up, or to the nearest with a half going up."""
    if up:
        return math.ceil(value / step) * step
    return math.floor((2 * value / step + 1) / 2) * step


def count(evaluation: Evaluation, place: int, level: str, item: int) -> Value:
    """The number of members, each as often as its quantity."""
    found, missing = evaluation.gathered(place, level, item)
    if missing is not None:
        return missing
    whole = 0.0
    for _, weight in found:
        whole += weight
    return whole


def sum_column(evaluation: Evaluation, place: int, level: str, item: int, column: Read) -> Value:
    """The sum of a column over the members, each as often as its quantity."""
    found, missing = evaluation.gathered(place, level, item)
    whole = 0.0
    applicable = not found
    for member, weight in found:
        value = column(evaluation, member)
        if value.__class__ is float:
            whole += weight * value
            applicable = True
        elif value.__class__ is Unknown:
            missing = value if missing is None else missing.joined(value)
    if missing is not None:
        return missing
    return whole if applicable else NOT_APPLICABLE


def _values(
    evaluation: Evaluation, place: int, level: str, item: int, column: Read
) -> tuple[list[tuple[float, Value]], Unknown | None]:
    found, missing = evaluation.gathered(place, level, item)
    values = []
    for member, weight in found:
        value = column(evaluation, member)
        if value.__class__ is Unknown:
            missing = value if missing is None else missing.joined(value)
        elif value is not NOT_APPLICABLE:
            values.append((weight, value))
    return values, missing


def mean(evaluation: Evaluation, place: int, level: str, item: int, column: Read) -> Value:
    """The mean of a column over the members, each as often as its quantity."""
    values, missing = _values(evaluation, place, level, item, column)
    if missing is not None:
        return missing
    whole = count = 0.0
    for weight, value in values:
        whole += weight * value
        count += weight
    return whole / count if count else NOT_APPLICABLE


def largest(evaluation: Evaluation, place: int, level: str, item: int, column: Read) -> Value:
    """The largest value of a column; not applicable over nothing."""
    values, missing = _values(evaluation, place, level, item, column)
    if missing is not None:
        return missing
    return max((value for _, value in values), default=NOT_APPLICABLE)


def every(evaluation: Evaluation, place: int, level: str, item: int, column: Read) -> Value:
    """Whether a condition holds for every member."""
    values, missing = _values(evaluation, place, level, item, column)
    if any(value is False for _, value in values):
        return False
    return True if missing is None else missing


def sum_of(values: list[float]) -> float:
    """The sum of parts, added in order."""
    whole = 0.0
    for value in values:
        whole += value
    return whole


def largest_of(values: list[float]) -> float:
    """The largest of parts."""
    return max(values)


def least_of(values: list[float]) -> float:
    """The least of parts."""
    return min(values)
