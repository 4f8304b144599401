"""A new supply for the load: sized by a method that may size one, whatever is there now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from dwellcalc.decide.basis import basis_of
from dwellcalc.decide.document import NewSupplyResult
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.facts import Facts, Unknown, spaced

SUPPLY, STATE, NEW = "supply", "state", "to_be_installed"


def as_new(assessor: SupplyAssessor, methods: Iterable[str]) -> NewSupplyResult | None:
    """A new supply for the load that the assessor's facts make; nothing where no method gives one.

    Args:
        assessor: the supply's assessor.
        methods: the methods that may size a new supply, of which the least result is taken.
    """
    with _nothing_there(assessor.facts):
        tried = [assessor.tried(name, assessor.choices) for name in assessor.methods() if name in methods]
        basis = basis_of(tried, "", assessor.rules)
        if basis is None:
            return None
        carried = assessor.carried(basis[0], assessor.choices)
        if carried.amperes is None:
            return None
        conductors = assessor.sizing(basis[0], assessor.choices).conductors
        return NewSupplyResult(carried.amperes, carried.by, carried.minimum_rating, carried.offered_rating, conductors)


@contextmanager
def _nothing_there(facts: Facts) -> Iterator[None]:
    """The supply as one to be installed, of which nothing is chosen yet but what it is to feed; put back after."""
    supply = facts.objects[SUPPLY]
    kept = dict(supply)
    for name, declared in facts.glossary.objects[SUPPLY].items():
        if declared.optional:
            supply[name] = Unknown([f"{SUPPLY}: {spaced(name)}"])
        elif declared.unless_said and declared.find:
            supply[name] = facts.glossary.value(declared.kind, declared.unless_said)
        elif name == STATE:
            supply[name] = facts.glossary.value(declared.kind, NEW)
    try:
        yield
    finally:
        supply.update(kept)
