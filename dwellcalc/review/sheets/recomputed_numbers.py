"""Plain numbers as a reader works with them: as printed, added in order, and counted in steps."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import TypeGuard

from dwellcalc.language.phrases import MAJOR, PART
from dwellcalc.units import number


def is_number(value: object) -> TypeGuard[float]:
    """Whether a value of the JSON is a number; yes and no are none."""
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def read_number(text: str) -> float | None:
    """The number that a text prints, without a unit, such as ``1 1/2``; nothing where it is no number.

    Raises:
        OverflowError: it is more than a float can hold.
    """
    try:
        return float(number(text.strip()))
    except ValueError:
        return None


def total(numbers: Iterable[float]) -> float:
    """The sum from 0.0 in order, as the evaluation adds."""
    added = 0.0
    for one in numbers:
        added += one
    return added


def steps(rounding: str, amount: float, step: float) -> int:
    """How many steps an amount makes.

    Args:
        rounding: the word of a formula or a phrase that says how a part of a step counts; where it is empty, a
            part does not count.
        amount, step: both in the same unit.

    Raises:
        KeyError: it is no word of rounding.
        ArithmeticError: the step is 0, or they are too many.
        ValueError: the amount is no number.
    """
    return _STEPS[rounding](amount, step)


def _whole(amount: float, step: float) -> int:
    return math.floor(amount / step)


def _up(amount: float, step: float) -> int:
    return math.ceil(amount / step)


def _half_up(amount: float, step: float) -> int:
    whole = _whole(amount, step)
    return whole + (2 * (amount - whole * step) >= step)


_STEPS: dict[str, Callable[[float, float], int]] = {
    "": _whole,
    PART: _up,
    MAJOR: _half_up,
    "round_up": _up,
    "round_half_up": _half_up,
}
