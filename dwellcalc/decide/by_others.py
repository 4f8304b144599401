"""Where a record is the basis: by which other methods that may be used the home fits as well, where by the record it does not, or with less."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import islice
from math import prod

from dwellcalc.decide.alone import rests_on
from dwellcalc.decide.changed import Changes
from dwellcalc.decide.decision import ByOtherMethod, LaterResult
from dwellcalc.decide.document import FITS, SupplyResult
from dwellcalc.decide.method_names import name_to_ask
from dwellcalc.decide.settings import Chosen, Settable, choose
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.trials import Trials, supply_at, together
from dwellcalc.decide.unknowns import at_largest
from dwellcalc.evaluate.work import YES
from dwellcalc.home import Home


def by_other_methods(
    home: Home, loads: Sequence[Settable], counted: Chosen, assessors: Sequence[SupplyAssessor], supplies: Sequence[SupplyResult]
) -> list[ByOtherMethod]:
    """The other methods that may be used and by which it fits, with the largest settings that fit then, the largest first.

    Nothing where no record is the basis, or where by the record it fits with no less. Where another method was asked for by name
    though a record is usable, what that gives.

    Args:
        home: the home, with what is known only between bounds.
        loads: the loads that can be set.
        counted: the settings that are counted by the record.
        assessors: those of the home's supplies.
        supplies: their results, in the same order.
    """
    plan, most = assessors[0].instructions.record, assessors[0].instructions.combinations_tried_again
    if plan is not None and assessors[0].wanted not in ("", plan.serves):
        of_record = (each for assessor in assessors if (each := _of_record(assessor, plan.serves, counted)) is not None)
        return list(islice(of_record, 1))  # a feeder that carries all has the record of its service
    by_record = _with_record(assessors, supplies)
    if not by_record or assessors[by_record[0]].wanted or prod(len(each.settings) for each in loads) > most:
        return []
    fits = together(supplies) == FITS
    return _fitting(home, loads, {}, assessors, supplies, {} if not fits else counted.counted, fits=fits)


def later_by_others(
    home: Home,
    later: LaterResult,
    loads: Sequence[Settable],
    changes: Changes,
    assessors: Sequence[SupplyAssessor],
    supplies: Sequence[SupplyResult],
) -> list[ByOtherMethod]:
    """The other methods that may be used and by which it fits with what comes later, where by a record it does not, or with less.

    Args:
        home: the home, with what is known only between bounds.
        later: what the record gives with loads that come later.
        loads: those of them that can be set.
        changes: the facts with which they are counted.
        assessors, supplies: those of the home's supplies, and their results.
    """
    most = assessors[0].instructions.combinations_tried_again
    if prod(len(each.settings) for each in loads) > most or any(each.wanted for each in assessors):
        return []
    return _fitting(home, loads, changes, assessors, supplies, later.set_to, fits=later.verdict == FITS)


def _fitting(
    home: Home,
    loads: Sequence[Settable],
    changes: Changes,
    assessors: Sequence[SupplyAssessor],
    supplies: Sequence[SupplyResult],
    counted: Mapping[str, float],
    *,
    fits: bool,
) -> list[ByOtherMethod]:
    """The other methods than that of the record by which it fits under changes, with larger settings where it ``fits`` by the record."""
    by_record = _with_record(assessors, supplies)
    if not by_record or (fits and not loads):
        return []
    found, at, plan = [], by_record[0], assessors[0].instructions.record
    for method in assessors[at].methods():
        tried = [_by(home, each, place, method) if place in by_record else each for place, each in enumerate(assessors)]
        assessor = tried[at]
        if plan is None or method == plan.serves or assessor.tried(method, assessor.choices).may != YES:
            continue
        trials = Trials(tried, changes)
        chosen = choose(loads, trials, assessors[0].instructions.combinations_tried_again)
        if chosen.fitting and (not fits or _more(chosen.counted, counted)):
            carried = trials.supplies(chosen.changes)[at]
            section, name = name_to_ask(method, assessor.rules, assessor.instructions)
            on = rests_on(trials.assessors, {**changes, **chosen.changes})
            found.append(ByOtherMethod(method, carried.by, section, name, chosen.counted, carried, rests_on=on))
    return sorted(found, key=lambda each: (tuple(-value for value in each.settings.values()), each.supply.amperes or 0))


def _with_record(assessors: Sequence[SupplyAssessor], supplies: Sequence[SupplyResult]) -> list[int]:
    """The places of the supplies of which a record is the basis: of one, and of a feeder that carries all of it."""
    plan = assessors[0].instructions.record
    return [at for at, each in enumerate(supplies) if plan and each.basis and each.basis.method == plan.serves]


def _of_record(assessor: SupplyAssessor, method: str, counted: Chosen) -> ByOtherMethod | None:
    """What the record gives with the settings that are counted, where another method was asked for and the record is usable."""
    if method not in assessor.methods():
        return None
    tried = assessor.tried(method, assessor.choices)
    carried = assessor.carried(tried, assessor.choices)
    if tried.may != YES or carried.amperes is None:
        return None
    section, name = name_to_ask(method, assessor.rules, assessor.instructions)
    at = supply_at(assessor, carried)
    return ByOtherMethod(method, carried.by, section, name, dict(counted.counted), at, comes_first=True)


def _by(home: Home, assessor: SupplyAssessor, at: int, method: str) -> SupplyAssessor:
    """The assessor by a method, with what is known only between bounds where the load is largest by it."""
    rules, instructions, choices = assessor.rules, assessor.instructions, assessor.choices
    largest = at_largest(SupplyAssessor(rules, instructions, home.supplies[at], choices, method))
    return SupplyAssessor(rules, instructions, largest, choices, method)


def _more(other: Mapping[str, float], counted: Mapping[str, float]) -> bool:
    return all(other[load] >= value for load, value in counted.items()) and other != counted
