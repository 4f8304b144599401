"""Supply conductors that nobody has seen: the least of those suspected is calculated with, and each is told with its outcome."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import inf

from dwellcalc.decide.conductors import Conductors, conductors_of, supplied
from dwellcalc.decide.document import FITS, OPEN, NotVerified, SupplyResult
from dwellcalc.decide.openness import ConductorsAt, in_words
from dwellcalc.decide.settings import Settable
from dwellcalc.decide.settings_again import fitting_settings
from dwellcalc.decide.shortcomings import CONDUCTORS_SHORT
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.trials import Trials
from dwellcalc.decide.verification import CONDUCTORS
from dwellcalc.facts import Unknown
from dwellcalc.home import Supply
from dwellcalc.home.glossary_names import MATERIAL, SIZE, SUPPLY


def least_suspected(assessor: SupplyAssessor) -> Conductors | None:
    """Of the conductors that are suspected those with which the capacity is least; nothing where none are suspected."""
    suspected = [conductors_of(assessor, *each) for each in assessor.supply.suspected]
    if not suspected:
        return None
    return min(suspected, key=lambda each: _capacity(assessor, each))


def _capacity(assessor: SupplyAssessor, conductors: Conductors) -> float:
    with supplied(assessor.facts, conductors.said):
        capacity = assessor.answered(assessor.choices)[1].capacity
    return inf if capacity is None else capacity


def with_least_suspected(assessor: SupplyAssessor) -> Supply:
    """The supply of an assessor with the least of the conductors that are suspected; itself where none are."""
    supply, least = assessor.supply, least_suspected(assessor)
    if least is None:
        return supply
    objects = {**supply.facts.objects, SUPPLY: {**supply.facts.objects[SUPPLY], **least.said}}
    return replace(supply, facts=replace(supply.facts, objects=objects))


def verdict_of_suspected(assessor: SupplyAssessor, verdict: str) -> str:
    """The verdict for all conductors that are suspected: open where they give several; the one given where none are suspected."""
    found = set()
    for each in assessor.supply.suspected:
        with supplied(assessor.facts, conductors_of(assessor, *each).said):
            found.add(assessor.answered(assessor.choices)[1].verdict)
    return verdict if not found else OPEN if len(found) > 1 else found.pop()


def tell_conductors(trials: Trials, at: int, found: SupplyResult, loads: Sequence[Settable]) -> None:
    """Add to a supply's result what it would be with each of the conductors that may be there; several verdicts make it open.

    Args:
        trials: trials on the home's supplies, with the settings that are counted.
        at: which of the supplies it is.
        found: its result.
        loads: the loads that can be set.
    """
    assessor = trials.assessors[at]
    if found.basis is None or found.sizing is None:
        return
    found.suspected = bool(assessor.supply.suspected)
    if found.suspected:
        maybe = [conductors_of(assessor, *each) for each in assessor.supply.suspected]
    elif found.sizing.to_verify and found.verdict == FITS:
        maybe = list(_at_the_edge(assessor, found.sizing.capacity))
    else:
        return
    for conductors in sorted(maybe, key=lambda each: (str(each.material), each.size)):
        found.conductors.append(_with(trials, at, conductors, loads))
    if found.suspected:
        least = min(found.conductors, key=lambda each: inf if each.capacity is None else each.capacity)
        shown = in_words([each.conductors for each in found.conductors])
        short = assessor.instructions.remarks.get(CONDUCTORS_SHORT, "-")
        found.shortcomings = [
            f"Where the supply conductors are {least.conductors}: {each[:1].lower()}{each[1:]}"
            if each.startswith(short)
            else each
            for each in found.shortcomings
        ]
        text = f"supply conductors not seen: suspected to be {shown}; calculated with {least.conductors}, the least of them"
        found.facts_not_verified.append(NotVerified([], text, not_compared=True, short=CONDUCTORS))
    if found.suspected and {each.verdict for each in found.conductors} != {found.verdict}:
        found.verdict = OPEN


def _at_the_edge(assessor: SupplyAssessor, capacity: float | None) -> Iterator[Conductors]:
    """Of each material that may be there the smallest size with which the capacity is not less, and the one below it."""
    facts = assessor.facts
    fields = facts.glossary.objects[SUPPLY]
    known = facts.objects[SUPPLY][MATERIAL]
    words = facts.glossary.words(fields[MATERIAL].kind)
    materials = [facts.glossary.value(fields[MATERIAL].kind, word) for word in words] if isinstance(known, Unknown) else [known]
    sizes = [facts.glossary.value(fields[SIZE].kind, word) for word in facts.glossary.words(fields[SIZE].kind)]
    for material in materials:
        below = None
        for size in sizes:
            conductors = conductors_of(assessor, size, material)
            if _capacity(assessor, conductors) == capacity:
                yield from (each for each in (below, conductors) if each is not None)
                break
            below = conductors


def _with(trials: Trials, at: int, conductors: Conductors, loads: Sequence[Settable]) -> ConductorsAt:
    """What a supply would be with some conductors, and the settings that fit then where those that are counted do not."""
    assessor = trials.assessors[at]
    with supplied(assessor.facts, conductors.said):
        carried = Trials(trials.assessors, trials.base).carried({})[at]
        settings = fitting_settings(loads, assessor)
        tried = assessor.answered(assessor.choices)[0]
        suffice = None if tried is None else assessor.sizing(tried, assessor.choices).conductors_suffice
    return ConductorsAt(conductors.shown, carried.capacity, carried.margin, carried.verdict, settings, suffice)
