"""What every supply of a home must carry when facts of its loads are changed: nothing of a change stays."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from typing import Any, Protocol

from dwellcalc.decide.basis import Carried, Tried
from dwellcalc.decide.changed import LOADS, Change, Changes, changed
from dwellcalc.decide.decision import SupplyAt
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, OPEN
from dwellcalc.decide.supply import SupplyAssessor


class Trials:
    """Tries changes on all supplies of a home.

    Args:
        assessors: those of its supplies; their facts must not change between trials.
        base: what is changed in every trial, unless the trial changes it otherwise.

    Attributes:
        base: the same.
    """

    def __init__(self, assessors: Sequence[SupplyAssessor], base: Changes | None = None) -> None:
        self.assessors = assessors
        self.base = dict(base or {})
        self.kept: list[dict[frozenset[tuple[Change, Any]], Carried]] = [{} for _ in assessors]

    def carried(self, changes: Changes) -> list[Carried]:
        """What each supply must carry under changes."""
        return [self._of(at, assessor, {**self.base, **changes}) for at, assessor in enumerate(self.assessors)]

    def _of(self, at: int, assessor: SupplyAssessor, changes: Changes) -> Carried:
        names = set(assessor.facts.collections[LOADS].names)
        concerned = {change: value for change, value in changes.items() if change[0] in names}
        key = frozenset(concerned.items())
        if key not in self.kept[at]:
            with changed(assessor.facts, concerned):
                self.kept[at][key] = assessor.answered(assessor.choices)[1]
        return self.kept[at][key]

    def by_methods(self, assessor: SupplyAssessor, changes: Changes) -> list[tuple[Tried, Carried]]:
        """What a supply must carry under changes by each method that is tried for it."""
        with changed(assessor.facts, {**self.base, **changes}):
            tried = [assessor.tried(name, assessor.choices) for name in assessor.methods()]
            return [(one, assessor.carried(one, assessor.choices)) for one in tried]

    def of(self, changes: Changes, loads: Collection[str]) -> list[tuple[SupplyAssessor, Carried]]:
        """Each supply that carries one of some loads, with what it must carry under changes."""
        found = zip(self.assessors, self.carried(changes), strict=True)
        return [each for each in found if not set(loads).isdisjoint(each[0].facts.collections[LOADS].names)]

    def verdict(self, changes: Changes, loads: Collection[str] = ()) -> str:
        """The verdict under changes of all supplies together, or of those that carry one of some loads."""
        return together(each for _, each in self.of(changes, loads)) if loads else together(self.carried(changes))

    def supplies(self, changes: Changes, loads: Collection[str] = ()) -> list[SupplyAt]:
        """What each supply must carry under changes, or each that carries one of some loads."""
        found = self.of(changes, loads) if loads else zip(self.assessors, self.carried(changes), strict=True)
        return [supply_at(*each) for each in found]


class HasVerdict(Protocol):
    """What has a verdict."""

    verdict: str


def together(carried: Iterable[HasVerdict]) -> str:
    """The verdict of several supplies: it fits only where each of them that can be compared fits."""
    verdicts = {each.verdict for each in carried}
    return next((each for each in (DOES_NOT_FIT, OPEN, FITS) if each in verdicts), NOTHING)


def all_together(carried: Iterable[HasVerdict]) -> str:
    """The verdict of a home: the same, and nothing to compare where a supply has no rating, though what can be compared fits."""
    found = list(carried)
    verdict = together(found)
    return NOTHING if verdict == FITS and any(each.verdict == NOTHING for each in found) else verdict


def supply_at(assessor: SupplyAssessor, carried: Carried) -> SupplyAt:
    """What a supply must carry, as the document has it; the rating of a new one only by a method that may size one."""
    supply = assessor.supply
    sizes = carried.by in assessor.titles_that_size_new
    return SupplyAt(
        supply.id,
        supply.title,
        carried.amperes,
        carried.margin,
        carried.verdict,
        carried.by,
        carried.minimum_rating if sizes else None,
        carried.offered_rating if sizes else None,
    )
