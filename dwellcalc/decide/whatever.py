"""The verdicts of a home under changes, for all that its unknown inputs may be; the sheet is that of the largest load alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import ExitStack
from dataclasses import dataclass

from dwellcalc.decide.changed import Changes, changed, without_areas
from dwellcalc.decide.decision import Decision, SettingsResult, SupplyAt
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN, SupplyResult
from dwellcalc.decide.order import without
from dwellcalc.decide.ranged import FITTING, RangedSupply
from dwellcalc.decide.settings import changes_of
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.trials import all_together, together
from dwellcalc.decide.up_to import verdict_of
from dwellcalc.evaluate.bounds import inputs_of
from dwellcalc.home import Home


@dataclass
class Verdict:
    """A verdict of a supply, by its id."""

    supply: str
    verdict: str


@dataclass(frozen=True)
class Whatever:
    """Tells the verdicts of a home's supplies under changes, whatever its inputs between bounds and its suspected conductors are.

    ``assessors`` are those of its supplies at the largest load, the settings counted in their facts.
    """

    home: Home
    assessors: Sequence[SupplyAssessor]

    @property
    def between(self) -> bool:
        """Whether an input of a supply is known only between bounds."""
        return any(inputs_of(supply.facts) for supply in self.home.supplies)

    def together(self, changes: Changes, *, areas: bool = True) -> str:
        """The verdict of all supplies together; without ``areas`` the planned ones are left out."""
        return all_together(self.verdicts(changes, areas=areas))

    def verdicts(self, changes: Changes, *, areas: bool = True) -> list[Verdict]:
        """The verdict of each supply."""
        return list(self._verdicts(changes, areas))

    def _verdicts(self, changes: Changes, areas: bool) -> Iterator[Verdict]:
        for supply, assessor in zip(self.home.supplies, self.assessors, strict=True):
            between = inputs_of(supply.facts)
            facts = supply.facts if between else assessor.facts
            with ExitStack() as kept:
                kept.enter_context(changed(facts, changes))
                if not areas:
                    kept.enter_context(without_areas(facts))
                if between:
                    found = verdict_of(RangedSupply(assessor, facts, assessor.choices).pieces().decided(FITTING))
                else:
                    found = assessor.answered(assessor.choices)[1].verdict
            several = assessor.supply.suspected[1:]  # with conductors other than the least of them more may fit
            yield Verdict(supply.id, OPEN if several and found == DOES_NOT_FIT else found)


def tell_whatever(whatever: Whatever, decision: Decision, supplies: Iterable[SupplyResult], smallest: Changes) -> None:
    """Give settings, steps, readings and what is there already the verdict for all that may be, where that at the largest load is none.

    Args:
        whatever: tells the verdicts.
        decision: its settings and its order of installation.
        supplies: the results of the supplies, of which each has one without what is planned.
        smallest: the smallest settings, where the order is told with these.
    """
    if not whatever.between:
        return
    for load in decision.settings:
        _tell_settings(whatever, load)
    chosen: list[str] = []
    for step in decision.order.steps if decision.order is not None else ():
        chosen += step.loads
        if step.verdict != FITS:
            found = whatever.verdicts({**without(whatever.home, chosen), **smallest})
            step.verdict = together(found)
            _retell(step.supplies, found)
    for supply in supplies:
        _tell_readings(supply)
    befores = {each.id: each.before for each in supplies if each.before is not None}
    for one in whatever.verdicts(without(whatever.home, ()), areas=False) if befores else ():
        if (before := befores.get(one.supply)) is not None:
            before.verdict = one.verdict


def _tell_settings(whatever: Whatever, load: SettingsResult) -> None:
    """Give each setting that does not fit at the largest load its verdict."""
    for row in load.settings:
        if row.verdict == DOES_NOT_FIT:
            found = whatever.verdicts(changes_of({load.load: row.setting}))
            _retell(row.supplies, found)
            row.verdict = together(row.supplies)


def _retell(supplies: Iterable[SupplyAt], found: Iterable[Verdict]) -> None:
    verdicts = {each.supply: each.verdict for each in found}
    for each in supplies:
        each.verdict = verdicts[each.supply]


def _tell_readings(supply: SupplyResult) -> None:
    """Give the options of a reading that nothing of the open inputs rests on the verdict of the supply."""
    for each in supply.interpretations if supply.between is not None else ():
        taken = next(option.verdict for option in each.options if option.taken)
        for option in each.options:
            if option.verdict == taken:
                option.verdict = supply.verdict
