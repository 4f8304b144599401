"""The ratings that a new service may be given, each held to the load of the permit, to what comes later, and to other readings of the code."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, nullcontext
from math import prod

from dwellcalc.decide.basis import Carried
from dwellcalc.decide.candidate_results import CandidateLoad, CandidateRating, CandidateRatings
from dwellcalc.decide.changed import LOADS, Changes, changed
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN, InterpretationResult, SupplyResult
from dwellcalc.decide.later import counted_later
from dwellcalc.decide.new_supply import RATING, nothing_there
from dwellcalc.decide.settings import SETTING, Settable, changes_of, choose
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.trials import Trials
from dwellcalc.home import Home
from dwellcalc.home.glossary_names import SUPPLY
from dwellcalc.language.nodes import FirstRow
from dwellcalc.language.reach import named_by

OFFERED = "offered_rating"  # the result of sizing that is the usual rating
BESIDE = 2  # as many usual ratings below and above the least that is asked for are looked at


def candidate_ratings(
    assessor: SupplyAssessor, home: Home, found: SupplyResult, loads: Sequence[Settable]
) -> CandidateRatings | None:
    """The usual ratings about those that the loads of a new service ask for, and that of the home file; nothing for what is there already.

    Args:
        assessor: that of the service, whose facts have the settings that are counted.
        home: the home.
        found: the result of the service.
        loads: the loads that can be set.
    """
    if assessor.is_there or found.basis is None:
        return None
    names = assessor.facts.collections[LOADS].names
    later: Changes = {change: value for change, value in counted_later(list(home.later), home).items() if change[0] in names}
    with nothing_there(assessor.facts):
        held = [*_loads(assessor, found, {}), *(_loads(assessor, found, later) if later else [])]
        for load in held:
            load.minimum_rating = _carried(assessor, load, later).minimum_rating
        offered = {each for load in held if (each := _carried(assessor, load, later).offered_rating) is not None}
        least = held[0].minimum_rating if held and found.between is None else None
    usual = {*_usual(assessor, offered), *home.considered, *([found.rating] if found.rating else [])}
    rated = sorted({*usual, *([least] if least else [])})
    low = found.between.amperes.low if found.between is not None else None
    of_sizing = f"{assessor.instructions.sizing.method}."
    readings = [each for each in found.interpretations if each.address.startswith(of_sizing)]
    made = [_held(assessor, rating, (held, later), loads, readings, chosen=rating == found.rating) for rating in rated]
    for one in made:
        one.usual = one.rating in usual
    for one in made:  # of this permit alone the bounds are known
        if low is not None and one.verdicts[0] == DOES_NOT_FIT and low <= one.rating:
            one.verdicts[0] = OPEN
    columns = assessor.facts.collections[LOADS]
    counted = {each.load: columns.fields[SETTING][columns.names.index(each.load)] for each in loads if each.load in names}
    return CandidateRatings(held, made, counted) if made else None


def _usual(assessor: SupplyAssessor, offered: set[float]) -> list[float]:
    """The usual ratings [A] from some below the least that loads ask for to some above it, and at least to the largest."""
    plan = assessor.instructions.sizing
    line = assessor.rules.methods[plan.method].results.get(plan.results.get(OFFERED, ""))
    tables = [each.table for each in named_by(line) if isinstance(each, FirstRow)] if line is not None else []
    rows = sorted({row.low for table in tables for row in table.rows} | offered)
    if not offered:
        return []
    least, most = rows.index(min(offered)), rows.index(max(offered))
    return rows[max(0, least - BESIDE) : max(least + BESIDE, most) + 1]


def _loads(assessor: SupplyAssessor, found: SupplyResult, later: Changes) -> Iterator[CandidateLoad]:
    """The load by the readings that are taken, then by that which gives the most, if it is more."""
    with changed(assessor.facts, later):
        taken = assessor.answered(assessor.choices)[1].amperes
        if taken is None:
            return
        yield CandidateLoad(bool(later), taken)
        most = CandidateLoad(bool(later), taken)
        for each in found.interpretations:
            for option in each.options:
                amperes = assessor.answered({**assessor.choices, each.address: option.option})[1].amperes
                if amperes is not None and amperes > most.amperes:
                    most = CandidateLoad(bool(later), amperes, option.option, each.address)
    if most.reading:
        yield most


def _carried(assessor: SupplyAssessor, load: CandidateLoad, later: Changes) -> Carried:
    """What must be carried of a load under the facts as they are."""
    choices = {**assessor.choices, load.address: load.reading} if load.address else assessor.choices
    with changed(assessor.facts, later if load.later else {}):
        return assessor.answered(choices)[1]


def _held(
    assessor: SupplyAssessor,
    rating: float,
    loads: tuple[Sequence[CandidateLoad], Changes],
    settable: Sequence[Settable],
    readings: Sequence[InterpretationResult],
    *,
    chosen: bool,
) -> CandidateRating:
    """A rating with the verdict of each load at its largest, and the conductors by each of some readings of the code."""
    held, later = loads
    with nullcontext() if chosen else _rated(assessor, rating):
        verdicts = [_carried(assessor, load, later).verdict for load in held]
        limit = assessor.instructions.combinations_tried_again
        several = settable and prod(len(each.settings) for each in settable) <= limit
        fitting = choose(settable, Trials([assessor]), limit) if several else None
        suits = None if fitting is None else fitting.counted if fitting.fitting else {}
        settings = changes_of(suits or {})
        conductors = _conductors(assessor, settings, assessor.choices)
    by_readings = _by_readings(assessor, rating, settings, readings) if conductors else {}
    return CandidateRating(rating, verdicts, suits, chosen, conductors=conductors, by_readings=by_readings)


def _by_readings(
    assessor: SupplyAssessor, rating: float, settings: Changes, readings: Sequence[InterpretationResult]
) -> dict[str, dict[str, str]]:
    """The smallest conductors for a rating by each interpretation whose other reading asks for others than those that are taken."""
    with _rated(assessor, rating):
        usual = _conductors(assessor, settings, assessor.choices)
        others = {(each.address, one.option): one.taken for each in readings for one in each.options}
        found = {
            address: _conductors(assessor, settings, {**assessor.choices, address: option})
            for (address, option), is_taken in others.items()
            if not is_taken
        }
    return {address: sizes for address, sizes in found.items() if sizes not in ({}, usual)}


def _conductors(assessor: SupplyAssessor, settings: Changes, choices: Mapping[str, str]) -> dict[str, str]:
    """The smallest conductors of the supply as it is rated with some settings, by material; none where it does not fit."""
    with changed(assessor.facts, settings):
        tried, carried = assessor.answered(choices)
        return assessor.sizing(tried, choices).conductors if tried is not None and carried.verdict == FITS else {}


@contextmanager
def _rated(assessor: SupplyAssessor, rating: float) -> Iterator[None]:
    """The supply with a rating, of which nothing else is chosen yet."""
    with nothing_there(assessor.facts):
        assessor.facts.objects[SUPPLY][RATING] = rating
        yield
