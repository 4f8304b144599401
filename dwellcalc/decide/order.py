"""The order in which planned loads are installed, where the verdict depends on what is there already."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import combinations
from math import inf

from dwellcalc.decide.changed import LOADS, Change
from dwellcalc.decide.decision import OrderResult, Step
from dwellcalc.decide.document import FITS
from dwellcalc.decide.trials import Trials
from dwellcalc.home import Home

REPLACED = "replaced"
SEVERAL = ", "  # between the names of loads that come as one


def by_priority(home: Home, positions: Iterable[int]) -> list[int]:
    """Loads by their priorities, those without one last, then in the order of the file."""
    return sorted(positions, key=lambda at: (home.priorities.get(at, inf), at))


def planned_loads(home: Home) -> list[str]:
    """The planned loads by name, by their priorities."""
    names = home.facts.collections[LOADS].names
    return [names[at] for at in by_priority(home, home.planned)]


def without(home: Home, installed: Collection[str]) -> dict[Change, bool]:
    """The changes of facts with which, of what is planned, only some is there, and only what that replaces is gone."""
    planned = planned_loads(home)
    gone = {old for new, old in home.replaced if new in installed}
    changes = {(name, REPLACED): name not in installed for name in planned}
    return changes | {(old, REPLACED): old in gone for _, old in home.replaced if old not in planned}


def order_of_installation(
    home: Home, units: Sequence[Sequence[str]], trials: Trials, limit: float, at_smallest: bool
) -> OrderResult | None:
    """What fits in which order; nothing where the verdict is the same whatever is installed, or too much is planned.

    Args:
        home: the home.
        units: the planned loads by their priorities, those that come as one together.
        trials: trials on its supplies, with the settings that are counted.
        limit: how many sets of loads are tried at most.
        at_smallest: whether those are the smallest settings, since no larger ones fit together.
    """
    names = [SEVERAL.join(unit) for unit in units]
    loads = {name: list(unit) for name, unit in zip(names, units, strict=True)}
    if len(units) < 2 or 2 ** len(units) > limit:
        return None
    fits = {chosen: trials.verdict(without(home, _of(chosen, loads))) == FITS for chosen in _sets(names)}
    if len(set(fits.values())) < 2:
        return None
    steps = []
    for count in range(1, len(names) + 1):
        changes = without(home, _of(names[:count], loads))
        steps.append(Step(names[count - 1], trials.verdict(changes), trials.supplies(changes), loads[names[count - 1]]))
    works = _order(names, frozenset(), fits)
    together = [] if fits[frozenset(names)] else _largest(names, fits)
    return OrderResult(steps, works if works != names else [], [_of(each, loads) for each in together], at_smallest)


def _of(names: Iterable[str], loads: Mapping[str, Sequence[str]]) -> list[str]:
    """The loads of units by name."""
    return [load for name in names for load in loads[name]]


def _sets(planned: Sequence[str]) -> Iterator[frozenset[str]]:
    for count in range(1, len(planned) + 1):
        yield from (frozenset(chosen) for chosen in combinations(planned, count))


def _order(planned: Sequence[str], there: frozenset[str], fits: dict[frozenset[str], bool]) -> list[str]:
    """An order in which each step fits, the first by priority; empty where there is none."""
    for load in planned:
        now = there | {load}
        if load in there or not fits[now]:
            continue
        if len(now) == len(planned):
            return [load]
        rest = _order(planned, now, fits)
        if rest:
            return [load, *rest]
    return []


def _largest(planned: Sequence[str], fits: dict[frozenset[str], bool]) -> list[list[str]]:
    """The sets that fit and that are in no other one that fits, each in order."""
    fitting = [chosen for chosen, fit in fits.items() if fit]
    kept = [chosen for chosen in fitting if not any(chosen < other for other in fitting)]
    return [[load for load in planned if load in chosen] for chosen in kept]
