"""Loads without a figure of their own that a figure for several of them carries, such as one for all appliances fastened in place."""

from __future__ import annotations

from collections.abc import Iterable

from dwellcalc.evaluate.coverage import loads_in
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language.tree import HOME
from dwellcalc.review.claims import Claim
from dwellcalc.review.looked import Looked, line_of


def carried(claims: Iterable[Claim], blank: set[str], looked: Looked) -> set[str]:
    """The names of the loads that figures carry, of which every load has no figure of its own.

    Args:
        claims: the figures; those of loads carry no others.
        blank: the loads without a figure.
        looked: the calculation of the submittal.
    """
    evaluation, method = looked.evaluation(), looked.rules.methods[looked.asked.method]
    evaluation.line(next(iter(method.results.values())))
    names = looked.asked.facts.collections[LOADS].names
    found: set[str] = set()
    for claim in claims:
        for place, _ in () if claim.row else claim.places:
            line = line_of(looked.rules, place)
            if line is None or line.method != looked.asked.method or line.level not in (HOME, method.level):
                continue
            held = {names[each] for each in loads_in(evaluation, looked.asked.method, line)}
            if held and held <= blank:
                found |= held
    return found
