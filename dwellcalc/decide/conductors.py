"""Supply conductors that are not those that are there: the sizes that the rating needs, and a supply that has them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from dwellcalc.decide.basis import Tried
from dwellcalc.decide.document import SupplyResult
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.facts import Facts, Unknown
from dwellcalc.home.glossary_names import INSULATION, MATERIAL, SETS, SIZE, STATE, SUPPLY, TO_BE_INSTALLED
from dwellcalc.placed import spaced

RATING = "rating"
SEVERAL = "{number:g} sets of {size}"


@dataclass(frozen=True)
class Conductors:
    """Conductors of a supply: their size on its scale, material and parallel sets, as values of facts, and in print."""

    size: Any
    material: Any
    sets: float | None
    shown: str

    @property
    def said(self) -> dict[str, Any]:
        """Their size and material as changes of the supply's facts, by field; all else of them stays as it is."""
        return {SIZE: self.size, MATERIAL: self.material}

    @property
    def changes(self) -> dict[str, Any]:
        """The same as changes of the supply's facts, by field; of their insulation nothing is said."""
        sets = Unknown([]) if self.sets is None else self.sets
        return {SIZE: self.size, MATERIAL: self.material, SETS: sets, INSULATION: Unknown([])}


@contextmanager
def supplied(facts: Facts, changes: Mapping[str, Any]) -> Iterator[None]:
    """The facts with some of the supply's fields changed, and put back after."""
    supply = facts.objects[SUPPLY]
    kept = {name: supply[name] for name in changes if name in supply}
    supply.update({name: value for name, value in changes.items() if name in kept})
    try:
        yield
    finally:
        supply.update(kept)


def for_the_rating(assessor: SupplyAssessor, tried: Tried, materials: Mapping[str, Any]) -> list[Conductors]:
    """The smallest conductors to be installed for the rating that the supply has, whatever its load is.

    Args:
        assessor: the assessor of the supply.
        tried: the method whose load it carries.
        materials: results of sizing that are sizes of new conductors -> of which material, as a value of facts.
    """
    return new_conductors(assessor, lambda: _sized_for_the_rating(assessor, tried), materials)


def new_conductors(assessor: SupplyAssessor, size_it: Callable[[], Evaluation], materials: Mapping[str, Any]) -> list[Conductors]:
    """The smallest conductors of a supply that is to be installed with the rating that it has.

    Args:
        assessor: the assessor of the supply.
        size_it: sizes the supply by the facts of the assessor.
        materials: as of `for_the_rating`.
    """
    facts, glossary = assessor.facts, assessor.facts.glossary
    fields = glossary.objects[SUPPLY]
    results = assessor.rules.methods[assessor.instructions.sizing.method].results
    lists = assessor.instructions.sizing.lists
    sets_of = dict(zip(lists["conductors"], lists.get("sets", ()), strict=False))
    nothing = {name: Unknown([f"{SUPPLY}: {spaced(name)}"]) for name in (SIZE, MATERIAL, SETS, INSULATION)}
    found = []
    with supplied(facts, {**nothing, STATE: glossary.value(fields[STATE].kind, TO_BE_INSTALLED)}):
        sized = size_it()
        for name, material in materials.items():
            size, sets = sized.line(results[name]), None
            if name in sets_of:
                number = sized.line(results[sets_of[name]])
                sets = number if isinstance(number, float) and number > 1 else None
            if not isinstance(size, Unknown):
                found.append(conductors_of(assessor, size, material, sets))
    return found


def _sized_for_the_rating(assessor: SupplyAssessor, tried: Tried) -> Evaluation:
    """The supply sized for no more than its rating, so that a load that passes it asks for no larger one."""
    rating = assessor.facts.objects[SUPPLY][RATING]
    evaluation = assessor.sized(tried, assessor.choices)
    if not isinstance(rating, float):
        return evaluation
    held = {
        name: min(value, rating) if isinstance(value, float) else value for name, value in assessor.given_to_sizing(tried).items()
    }
    return Evaluation(assessor.plan, assessor.facts, assessor.choices, held)


def conductors_of(assessor: SupplyAssessor, size: Any, material: Any, sets: float | None = None) -> Conductors:
    """Conductors with their size and material in print."""
    glossary = assessor.facts.glossary
    fields = glossary.objects[SUPPLY]
    shown = f"{printed.value(size, fields[SIZE].kind, glossary)} {printed.value(material, fields[MATERIAL].kind, glossary)}"
    return Conductors(size, material, sets, shown if sets is None else SEVERAL.format(number=sets, size=shown))


def conductors_that_suffice(assessor: SupplyAssessor, found: SupplyResult) -> list[str]:
    """Where those that are there do not suffice for the main: the smallest that do, in print."""
    sizing = found.sizing
    plan = next((each for each in assessor.instructions.alternatives if each.materials), None)
    tried = assessor.answered(assessor.choices)[0]
    if sizing is None or sizing.conductors_suffice is not False or plan is None or tried is None:
        return []
    return [each.shown for each in for_the_rating(assessor, tried, plan.materials)]
