"""Tiers: how much of a quantity falls in each portion, and what each portion gives."""

from __future__ import annotations

import math
from typing import NamedTuple

from dwellcalc.language.phrases import FIRST, FURTHER, NEXT, PART, Phrase
from dwellcalc.units import share


class Portion(NamedTuple):
    """A tier's part of the quantity, and its value."""

    taken: float
    value: float


def portions(quantity: float, phrases: tuple[Phrase, ...]) -> list[Portion]:
    """Each tier's part of a quantity and its value, in order.

    A share (`of`) is that percent of the part. An amount (`for`) is given whole where any of the portion is used; for
    `each further` once per step, a last part counting as a whole one (`or part`) or from half a step on (`or major
    fraction`).
    """
    found = []
    rest = quantity
    for phrase in phrases:
        taken = rest if phrase.portion not in (FIRST, NEXT) else min(rest, phrase.step)
        if phrase.shares:
            value = share(taken, phrase.amount)
        elif phrase.portion == FURTHER:
            value = _steps(rest, phrase) * phrase.amount
        else:
            value = phrase.amount if taken > 0 else 0.0
        found.append(Portion(taken, value))
        rest = rest - taken
    return found


def _steps(rest: float, phrase: Phrase) -> int:
    if phrase.rounds == PART:
        return math.ceil(rest / phrase.step)
    whole = math.floor(rest / phrase.step)
    return whole + (2 * (rest - whole * phrase.step) >= phrase.step)


def total(quantity: float, phrases: tuple[Phrase, ...]) -> float:
    """The sum of what the tiers give, added in order from 0.0."""
    whole = 0.0
    for portion in portions(quantity, phrases):
        whole += portion.value
    return whole
