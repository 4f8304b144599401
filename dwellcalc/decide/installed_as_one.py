"""Which planned loads come and are left out as one: parts of one unit, and what is on one circuit."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from dwellcalc.decide.changed import LOADS
from dwellcalc.decide.order import planned_loads
from dwellcalc.decide.trials import Trials
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.home import Home
from dwellcalc.home.glossary_names import FROM_KIND

Units = list[list[str]]


def planned_units(home: Home, trials: Trials) -> Units:
    """The planned loads by name, those that come as one together, by the priorities of the first of each."""
    return units_of(planned_loads(home), home, trials)


def units_of(names: list[str], home: Home, trials: Trials) -> Units:
    """Loads by name, those that come as one together, in the order of the first of each."""
    unit_of = {name: {name} for name in names}
    for alike in _as_one(home, trials):
        together = set().union(*(unit_of[name] for name in alike if name in unit_of))
        unit_of |= dict.fromkeys(together, together)
    units = {frozenset(unit_of[name]): [each for each in names if each in unit_of[name]] for name in names}
    return list(units.values())


def unit_with(load: str, units: Units) -> list[str]:
    """All that comes as one with a planned load."""
    return next((unit for unit in units if load in unit), [load])


def without_units(units: Units, left_out: Collection[str]) -> list[str]:
    """What of the planned loads is there where some are left out, each with all that comes as one with it."""
    return [load for unit in units if not set(unit) & set(left_out) for load in unit]


def _as_one(home: Home, trials: Trials) -> Iterator[list[str]]:
    """Sets of loads that come as one."""
    loads, whole = home.facts.collections[LOADS], trials.assessors[0]
    for carrier, on_it in enumerate(home.facts.connected[LOADS]):
        yield [loads.names[each] for each in (carrier, *(position for position, _ in on_it))]
    evaluation = Evaluation(whole.plan, whole.facts, whole.choices)
    for group in whole.instructions.installed_as_one:
        items = evaluation.decided(evaluation.plan.place(group)).items
        for owner in {loads.owner[each] for each in items}:
            parts = [each for each in items if loads.owner[each] == owner]
            if len({loads.fields[FROM_KIND][each] for each in parts}) == len(parts):
                yield [loads.names[each] for each in parts]


def listed_names(names: list[str]) -> str:
    """Names in a sentence."""
    return " and ".join([*([", ".join(names[:-1])] if names[:-1] else []), *names[-1:]])
