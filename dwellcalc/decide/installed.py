"""What the verdict is with nothing, with each and with some of what is planned, for all that unknown inputs may be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dwellcalc.decide.alone import rests_on
from dwellcalc.decide.changed import planned_areas
from dwellcalc.decide.decision import Decision, InstalledResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN, SupplyResult
from dwellcalc.decide.order import planned_loads, without
from dwellcalc.decide.settings import Settable, changes_of
from dwellcalc.decide.settings_together import largest_settings
from dwellcalc.decide.trials import Trials, together
from dwellcalc.decide.whatever import Whatever


def installed(
    whatever: Whatever,
    units: Sequence[list[str]],
    loads: Sequence[Settable],
    trials: Trials,
    decision: Decision,
    supplies: Sequence[SupplyResult],
) -> list[InstalledResult]:
    """What the verdict is without what is planned; where not all of it fits, with each load by itself and with more that fit together.

    Nothing where nothing is planned.

    Args:
        whatever: tells the verdicts of the home, whatever its unknown inputs are.
        units: the planned loads, those that come as one together.
        loads: the loads that can be set.
        trials: trials on its supplies, with the settings that are counted.
        decision: the order of installation, which names what fits together.
        supplies: the results of its supplies.
    """
    home = whatever.home
    planned, areas = planned_loads(home), any(planned_areas(supply.facts) for supply in home.supplies)
    if all(each.before is None for each in supplies) and not _of_planned_alone(supplies, planned):
        return []
    found = [InstalledResult([], whatever.together(without(home, ()), areas=False), {})]
    if together(supplies) not in (DOES_NOT_FIT, OPEN) or len(units) < 2 or areas:
        return found
    more = [] if decision.order is None else [each for each in decision.order.together if each not in units]
    alone = [_alone(whatever, loads, trials, unit) for unit in units]
    return [*found, *alone, *(_with(whatever, loads, trials, chosen) for chosen in more)]


def _of_planned_alone(supplies: Sequence[SupplyResult], planned: Sequence[str]) -> bool:
    """Whether all that keeps the supplies from a result is of planned loads, so that there is one without these."""
    unknown = [each for supply in supplies if supply.basis is None for each in supply.unknowns]
    return bool(unknown) and all(any(each.startswith(f"{name}: ") for name in planned) for each in unknown)


def _with(whatever: Whatever, loads: Sequence[Settable], trials: Trials, chosen: list[str]) -> InstalledResult:
    """The verdict with some loads, at the largest settings that fit then, or the smallest where none do."""
    limit = trials.assessors[0].instructions.combinations_at_most
    there = [each for each in loads if each.load in chosen]
    fitting = largest_settings(whatever.home, chosen, there, trials, limit)
    settings = fitting or {each.load: each.settings[0] for each in there}
    changes = {**without(whatever.home, chosen), **changes_of(settings)}
    carried = trials.carried(changes)
    return InstalledResult(chosen, whatever.together(changes), settings, amperes=carried[0].amperes if carried else None)


def _alone(whatever: Whatever, loads: Sequence[Settable], trials: Trials, unit: list[str]) -> InstalledResult:
    """The verdict with one load, or several that come as one, and on what it rests where that fits."""
    found = replace(_with(whatever, loads, trials, unit), by_itself=True)
    if found.verdict == FITS:
        changes = {**without(whatever.home, unit), **changes_of(found.settings)}
        found.rests_on = rests_on(trials.assessors, changes)
    return found


def to_be_looked_at(supplies: Sequence[SupplyResult]) -> list[str]:
    """What is missing, and the facts of loads that nobody has seen and on which the verdict turns, for inspector and installer."""
    found = [f"{each}: not known, to be read" for supply in supplies for each in _missing(supply)]
    for supply in supplies:
        for each in supply.facts_not_verified:
            if each.flips and each.items:
                found.append(f"{', '.join(each.items)} - {each.text}; to be looked at, for the verdict turns on it")
    return list(dict.fromkeys(found))


def _missing(supply: SupplyResult) -> list[str]:
    """The inputs without which a supply has no load, or no verdict."""
    return supply.unknowns if supply.sizing is None else supply.sizing.missing
