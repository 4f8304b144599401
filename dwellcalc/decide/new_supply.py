"""A new supply for the load: sized by a method that may size one, whatever is there now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from dwellcalc.decide.basis import Tried, basis_of
from dwellcalc.decide.document import FITS, NewSupplyResult, SupplyResult
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate.trace import ON_CONDITION
from dwellcalc.facts import Facts, Unknown
from dwellcalc.home.glossary_names import STATE, SUPPLY, TO_BE_INSTALLED
from dwellcalc.home.meters import has_record
from dwellcalc.placed import spaced

RATING = "rating"


def as_new(assessor: SupplyAssessor, methods: Iterable[str]) -> NewSupplyResult | None:
    """A new supply for the load that the assessor's facts make; nothing where no method gives one.

    It is not smaller than the load that a usable record makes: what was measured does not shrink with the supply.

    Args:
        assessor: the supply's assessor.
        methods: the methods that may size a new supply, of which the least result is taken.
    """
    measured = _by_record(assessor)
    with nothing_there(assessor.facts):
        tried = _least(assessor, methods)
        carried = assessor.carried(tried, assessor.choices) if tried is not None else None
        if tried is None or carried is None or carried.amperes is None:
            return measured
        if measured is not None and (measured.minimum_rating or 0) > (carried.minimum_rating or 0):
            return measured
        conductors = assessor.sizing(tried, assessor.choices).conductors
        if carried.minimum_rating is not None:
            assessor.facts.objects[SUPPLY][RATING] = carried.minimum_rating
        verdict = assessor.carried(tried, assessor.choices).verdict
        return NewSupplyResult(carried.amperes, carried.by, verdict, carried.minimum_rating, carried.offered_rating, conductors)


def conditions_left(assessor: SupplyAssessor, found: SupplyResult) -> list[str]:
    """The conditions of the basis that are open; of a new supply without a rating those that the least that serves does not settle."""
    said = assessor.facts.objects[SUPPLY]
    least = found.sizing.minimum_rating if found.sizing is not None else None
    if not found.conditions or found.basis is None or least is None or assessor.is_there or not isinstance(said[RATING], Unknown):
        return found.conditions
    kept, said[RATING] = said[RATING], least
    try:
        then = assessor.sheet(assessor.tried(found.basis.method, assessor.choices))
    finally:
        said[RATING] = kept
    return [each.asks for each in then.conditions if each.outcome == ON_CONDITION and each.asks in found.conditions]


def _by_record(assessor: SupplyAssessor) -> NewSupplyResult | None:
    """A supply for the load that a usable record makes; nothing where there is none."""
    record = assessor.instructions.record
    tried, carried = assessor.answered(assessor.choices) if has_record(assessor.facts) else (None, None)
    if record is None or tried is None or carried is None or tried.name != record.serves or carried.amperes is None:
        return None
    conductors = assessor.sizing(tried, assessor.choices).conductors
    return NewSupplyResult(carried.amperes, carried.by, FITS, carried.minimum_rating, carried.offered_rating, conductors)


def unserving(assessor: SupplyAssessor, methods: Iterable[str], results: Iterable[str]) -> set[str]:
    """Of results of sizing that say whether what is there serves the rating of a new supply, those that are no."""
    with nothing_there(assessor.facts):
        tried = _least(assessor, methods)
        if tried is None:
            return set()
        assessor.carried(tried, assessor.choices)  # so that what sizing is given is that of the new supply
    sized, lines = assessor.sized(tried, assessor.choices), assessor.rules.methods[assessor.instructions.sizing.method].results
    return {name for name in results if sized.line(lines[name]) is False}


def _least(assessor: SupplyAssessor, methods: Iterable[str]) -> Tried | None:
    """The method of the least result among some, under the facts as they are."""
    tried = [assessor.tried(name, assessor.choices) for name in assessor.methods() if name in methods]
    basis = basis_of(tried, "", assessor.rules)
    return None if basis is None else basis[0]


@contextmanager
def nothing_there(facts: Facts) -> Iterator[None]:
    """The supply as one to be installed, of which nothing is chosen yet but what it is to feed; put back after."""
    supply = facts.objects[SUPPLY]
    kept = dict(supply)
    for name, declared in facts.glossary.objects[SUPPLY].items():
        if declared.optional:
            supply[name] = Unknown([f"{SUPPLY}: {spaced(name)}"])
        elif declared.unless_said and declared.find:
            supply[name] = facts.glossary.value(declared.kind, declared.unless_said)
        elif name == STATE:
            supply[name] = facts.glossary.value(declared.kind, TO_BE_INSTALLED)
    try:
        yield
    finally:
        supply.update(kept)
