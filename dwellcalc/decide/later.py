"""What every supply would have to carry with the loads that come later, which are not counted, and what they would ask for."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import ExitStack
from dataclasses import replace
from math import prod
from typing import Any

from dwellcalc.decide.alternatives import alternatives
from dwellcalc.decide.by_others import later_by_others
from dwellcalc.decide.changed import LOADS, Change, Changes, changed
from dwellcalc.decide.circuits import circuit_results
from dwellcalc.decide.decision import AlternativeResult, Combination, LaterResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, BesideResult, InterpretationResult, SupplyResult
from dwellcalc.decide.installed_as_one import units_of
from dwellcalc.decide.larger_settings import larger_settings
from dwellcalc.decide.later_results import LaterAnswer, LaterReading, LaterSizes
from dwellcalc.decide.new_supply import as_new
from dwellcalc.decide.order import REPLACED
from dwellcalc.decide.panel_schedule import poles_of
from dwellcalc.decide.readings import interpretations_of
from dwellcalc.decide.settings import Chosen, Settable, choose, combinations, settable, settings_results
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.trials import Trials, all_together
from dwellcalc.decide.turning_points import turning_later
from dwellcalc.decide.verification import not_verified_of
from dwellcalc.decide.whatever import Whatever
from dwellcalc.evaluate.bounds import inputs_of
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.home import Home
from dwellcalc.home.glossary_names import LATER


def with_what_is_later(
    home: Home, trials: Trials, weakest: Mapping[str, str], results: Sequence[SupplyResult]
) -> list[LaterResult]:
    """Each load that comes later by itself, with what comes as one with it and all else as it is counted, then all of them together.

    Args:
        home: the home.
        trials: trials on its supplies, with the settings that are counted.
        weakest: the element that decides the capacity of each supply, by its id.
        results: those of the supplies without what comes later.
    """
    names = list(home.later)
    with changed(trials.assessors[0].facts, counted_later(names, home)):
        units = units_of(names, home, trials)
    sets = [*units, *([names] if units[1:] else [])]
    return [_with(chosen, home, trials, weakest, results) for chosen in sets]


def _with(
    chosen: Sequence[str], home: Home, trials: Trials, weakest: Mapping[str, str], results: Sequence[SupplyResult]
) -> LaterResult:
    changes = counted_later(chosen, home)
    then = _then(chosen, home)
    loads = [each for each in settable(then) if each.load in chosen]
    counted = Trials(trials.assessors, {**trials.base, **changes})
    settings = _settings(loads, counted)
    changes |= settings.changes
    at_them = Trials(trials.assessors, {**trials.base, **changes})
    verdict = all_together(at_them.carried({}))
    enough = _that_fit(chosen, then, at_them) if verdict == DOES_NOT_FIT else []
    between = {home.facts.collections[collection].names[position] for collection, position, _ in inputs_of(home.facts)}
    of_settings = settings_results(then, loads, settings, at_them, weakest) if loads else []
    for each in of_settings if verdict == FITS else ():
        each.larger = larger_settings(then, each, at_them)
    supplies = at_them.supplies({})
    open_here = verdict == DOES_NOT_FIT and bool(between)
    at = {each.load: each.counted for each in of_settings}
    found = turning_later(Whatever(home, trials.assessors), chosen, at, changes) if open_here else (verdict, [])
    gone = {name: list(home.later[name]) for name in chosen if home.later[name]}
    told = LaterResult(list(chosen), verdict, supplies, enough, not between.isdisjoint(chosen), of_settings, gone, *found)
    of_later = counted_later(chosen, home)
    told.other_methods = later_by_others(then, told, loads, of_later, trials.assessors, results)
    told.combinations = _with_less(then, loads, counted) if verdict == DOES_NOT_FIT else []
    return told


def _with_less(home: Home, loads: Sequence[Settable], counted: Trials) -> list[Combination]:
    """The settings of what is planned and of loads that come later with which all of it fits; nothing of too many to try."""
    most = counted.assessors[0].instructions.combinations_tried_again
    gone = {load for load, name in counted.base if name == REPLACED}
    every = [each for each in settable(home) if each.load not in gone]
    if not loads or not every[len(loads) :] or prod(len(each.settings) for each in every) > most:
        return []
    return combinations(every, choose(every, counted, most), counted)


def _settings(loads: Sequence[Settable], trials: Trials) -> Chosen:
    """The settings that are counted; the largest where there are too many combinations to try."""
    most = trials.assessors[0].instructions.combinations_at_most
    if prod(len(each.settings) for each in loads) > most:
        return Chosen({each.load: each.settings[-1] for each in loads}, [])
    return choose(loads, trials, most) if loads else Chosen({}, [])


def _then(chosen: Collection[str], home: Home) -> Home:
    """A home with the settings of loads that come later as those of what is planned."""
    names = home.facts.collections[LOADS].names
    mine = {position: each for position, each in home.later_settings.items() if names[position] in chosen}
    return replace(home, settings={**home.settings, **mine})


def _that_fit(chosen: Sequence[str], home: Home, trials: Trials) -> list[AlternativeResult]:
    """What would let loads that come later fit, all else as it is counted."""
    with ExitStack() as stack:
        for assessor in trials.assessors:
            stack.enter_context(changed(assessor.facts, trials.base))
        found = alternatives(home, Trials(trials.assessors), "" if chosen[1:] else chosen[0])
    return [each for each in found if each.verdict == FITS]


def counted_later(chosen: Sequence[str], home: Home) -> dict[Change, Any]:
    """The changes of facts with which loads that come later are counted, and what they take the place of is not."""
    changes: dict[Change, Any] = {(name, LATER): False for name in chosen}
    return changes | {(old, REPLACED): True for name in chosen for old in home.later[name]}


def sizes_with_later(
    assessor: SupplyAssessor, home: Home, found: SupplyResult, elsewhere: Collection[str], settings: Changes
) -> LaterSizes | None:
    """The circuits of the loads of a supply that come later, and what is another with all of them counted.

    Args:
        assessor: that of the supply, whose facts have the settings that are counted.
        home: the home.
        found: the result of the supply without them.
        elsewhere: the loads whose circuits are another supply's.
        settings: those of the loads that come later, as changes of facts.
    """
    names = assessor.facts.collections[LOADS].names
    mine = [name for name in home.later if name in names and name not in elsewhere]
    if not mine:
        return None
    every = {**counted_later(list(home.later), home), **settings}
    counted = {change: value for change, value in every.items() if change[0] in names}
    with changed(assessor.facts, counted):
        evaluation = Evaluation(assessor.plan, assessor.facts, assessor.choices)
        circuits = circuit_results(evaluation, assessor.instructions, [name for name in names if name not in mine])
        poles = {name: poles_of(evaluation, assessor.instructions, names.index(name)) for name in mine}
        weak = [f"{', '.join(each.items)}: {each.text}" for each in not_verified_of(assessor, mine)]
        sized = ([] if circuits is None else circuits.circuits, poles, weak)
        tried = assessor.answered(assessor.choices)[0]
        if tried is None:
            return LaterSizes(mine, *sized)
        sizing = assessor.sizing(tried, assessor.choices)
        beside = assessor.beside(assessor.sized(tried, assessor.choices))
        panels = assessor.instructions.panel_schedule  # of panels that are there their schedules tell what is left
        beside = [each for each in beside if not (assessor.is_there and panels is not None and each.method == panels.method)]
        readings = interpretations_of(assessor, tried, sizing)
        new = as_new(assessor, assessor.instructions.sizes_new)
        load = Tracer(Evaluation(assessor.plan, assessor.facts, assessor.choices)).method(tried.name)
    return LaterSizes(
        mine,
        *sized,
        list(_others(found.beside, beside, there=assessor.is_there)),
        None if new is None else new.minimum_rating,
        {} if new is None else new.conductors,
        list(_against(readings)),
        [load, *([] if circuits is None else circuits.sheets)],
        "" if new is None else new.by,
    )


def _others(now: Sequence[BesideResult], then: Sequence[BesideResult], *, there: bool) -> Iterator[LaterAnswer]:
    """The results that are another with the loads counted; those that are a yes or no the sheet of that home tells.

    Of a supply that is ``there`` nothing is told of what is for new conductors.
    """
    before = {(each.method, answer.result): answer.printed for each in now for answer in each.answers}
    for each in then:
        for answer in () if there and each.of_new else each.answers:
            at_present = before.get((each.method, answer.result), "")
            if answer.printed != at_present and not isinstance(answer.value, bool):
                yield LaterAnswer(answer.title, at_present, answer.printed)


def _against(readings: Sequence[InterpretationResult]) -> Iterator[LaterReading]:
    """The readings of the code that give another verdict than those taken."""
    for each in readings:
        taken = next((option.verdict for option in each.options if option.taken), "")
        for option in each.options:
            if option.verdict != taken:
                yield LaterReading(each.address, option.option, option.amperes, option.verdict)
