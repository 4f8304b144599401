"""The alternatives by another method, or by a figure that a method may be given, where a home does not fit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import ceil, floor
from typing import TYPE_CHECKING

from dwellcalc.decide.alternative_plans import AlternativePlan
from dwellcalc.decide.basis import Carried, Tried
from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.decide.trials import together
from dwellcalc.evaluate.work import NO
from dwellcalc.home.meters import has_record
from dwellcalc.units import share

if TYPE_CHECKING:
    from dwellcalc.decide.alternatives import Finder


class ByMethod:
    """Tries methods on the first supply that does not fit, and on those that carry the same load.

    Args:
        finder: the finder of alternatives of its home.
    """

    def __init__(self, finder: Finder) -> None:
        self.finder = finder

    def methods(self, plan: AlternativePlan) -> list[AlternativeResult]:
        """Each other method that may be used and by which the supply fits."""
        by_place = {
            at: {tried.name: carried for tried, carried in self.finder.trials.by_methods(self.finder.trials.assessors[at], {})}
            for at in self.of_one_load()
        }
        found = []
        for name, of_this in by_place[self.finder.at].items():
            if name in plan.methods and of_this.verdict == FITS:
                carried = {at: of[name] for at, of in by_place.items() if name in of}
                found.append(self.carried_result(plan, plan.what.format(load="", value=of_this.by), carried))
        return found

    def given(self, plan: AlternativePlan) -> list[AlternativeResult]:
        """The largest whole value that a method may be given for the supply to fit."""
        usual, places = self.finder.usual[self.finder.at], self.of_one_load()
        others = [each for at, each in enumerate(self.finder.usual) if each.verdict == DOES_NOT_FIT and at not in places]
        if usual.amperes is None or usual.margin is None or others or has_record(self.finder.assessor.facts):
            return []  # a record of one supply says nothing of another that does not fit either; one that is there, nothing new
        capacity = usual.amperes + usual.margin
        for value in range(floor(capacity) + 1, ceil(share(capacity, plan.at_least)) - 1, -1):
            tried = {at: self.with_given(plan, at, float(value)) for at in places}
            if any(each.may == NO for each, _ in tried.values()):
                return []
            if all(carried.verdict == FITS for _, carried in tried.values()):
                unit = self.finder.assessor.rules.methods[plan.methods[0]].source.given[plan.given].unit
                what = plan.what.format(load="", value=f"{value} {unit}")
                found = self.carried_result(plan, what, {at: carried for at, (_, carried) in tried.items()})
                return [replace(found, brings=None)]  # a record says nothing of the calculated load
        return []

    def with_given(self, plan: AlternativePlan, at: int, value: float) -> tuple[Tried, Carried]:
        """What a supply must carry by a method that is given a value."""
        assessor = self.finder.trials.assessors[at]
        tried = assessor.tried(plan.methods[0], assessor.choices, {plan.given: value})
        return tried, assessor.carried(tried, assessor.choices)

    def of_one_load(self) -> list[int]:
        """The places of the supplies with the load of the first that does not fit: a feeder that carries all, and its service."""
        supplies = [each.supply for each in self.finder.trials.assessors]
        alike = [0, *(at for at, each in enumerate(supplies) if each.carries_all)]
        return alike if self.finder.at in alike else [self.finder.at]

    def carried_result(self, plan: AlternativePlan, what: str, carried: Mapping[int, Carried]) -> AlternativeResult:
        """The result where supplies, by their places and the first that does not fit among them, carry something else."""
        every = [carried.get(at, usual) for at, usual in enumerate(self.finder.usual)]
        return self.finder.made(plan, what, together(every), carried[self.finder.at])
