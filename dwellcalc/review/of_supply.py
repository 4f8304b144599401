"""What of the supply is to be put right whatever the load is, and the conductors that the letter asks for in place of too small ones."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from dwellcalc.decide.because import reasons
from dwellcalc.decide.conductors import conductors_that_suffice, for_the_rating, new_conductors, supplied
from dwellcalc.decide.document import SupplyResult
from dwellcalc.decide.shortcomings import short_beside, shortcomings
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.facts import Facts
from dwellcalc.review.document import ConductorsAsked
from dwellcalc.review.finding import CODE, ERROR, Finding
from dwellcalc.review.looked import Looked
from dwellcalc.review.of_spaces import spaces_counted
from dwellcalc.review.submittal import Submittal

CONDUCTORS = "The supply conductors do not suffice for the main"
RATING = "rating"
ID_OF_CONDUCTORS = "supply: conductors"  # of the finding that asks for larger ones


@dataclass(frozen=True)
class OfSupply:
    """The supply of a submittal as it was assessed.

    Attributes:
        findings: what is to be put right of it.
        changes: the facts of the supply that are others with the conductors that are asked for, by field; empty where none are.
        checked: what was looked at and suffices, each in a sentence without its stop.
        asked: these conductors with what the supply may carry then and the verdict, or nothing where none are asked for.
    """

    findings: tuple[Finding, ...] = ()
    changes: Mapping[str, Any] | None = None
    asked: ConductorsAsked | None = None
    checked: tuple[str, ...] = ()

    @contextmanager
    def put_right(self, facts: Facts) -> Iterator[None]:
        """The facts of the supply with the conductors that are asked for, and put back after."""
        with supplied(facts, self.changes or {}):
            yield


def of_supply(submittal: Submittal) -> OfSupply:
    """What is to be put right of the supply; nothing where figures begin at sizing.

    Args:
        submittal: as it was read.
    """
    if submittal.given:
        return OfSupply()
    of = (submittal.rules, submittal.instructions, submittal.supply, submittal.choices, submittal.method)
    assessor = SupplyAssessor(*of)
    found = assessor.assess()
    findings = tuple(_findings(submittal, assessor, found))
    sheet = None if found.sizing is None else found.sizing.sheet
    checked = () if sheet is None else tuple(reasons(submittal.instructions.sizing.checked, sheet))
    plan = next((each for each in submittal.instructions.alternatives if each.materials), None)
    tried = assessor.answered(assessor.choices)[0]
    if not any(each.id == ID_OF_CONDUCTORS for each in findings) or plan is None or tried is None:
        return OfSupply(findings, checked=checked)
    sizes = for_the_rating(assessor, tried, plan.materials)
    if not sizes:
        return OfSupply(findings)
    with supplied(assessor.facts, sizes[0].changes):
        then = assessor.answered(assessor.choices)[1]
    asked = ConductorsAsked([each.shown for each in sizes], then.capacity, then.verdict)
    return OfSupply(findings, sizes[0].changes, asked)


def conductors_for(submittal: Submittal, rating: float | None) -> str:
    """The smallest conductors of a supply of another rating, in print; empty where they are not known.

    Args:
        submittal: as it was read.
        rating: of the supply [A].
    """
    plan = next((each for each in submittal.instructions.alternatives if each.materials), None)
    if plan is None or rating is None:
        return ""
    assessor = SupplyAssessor(submittal.rules, submittal.instructions, submittal.supply, submittal.choices, submittal.method)
    looked = Looked(submittal.rules, submittal.asked)  # with what the submittal states, such as a metered maximum
    with supplied(assessor.facts, {RATING: rating}):
        sizes = new_conductors(assessor, lambda: looked.sized(looked.evaluation()), plan.materials)
    return " or ".join(each.shown for each in sizes)


def _findings(submittal: Submittal, assessor: SupplyAssessor, found: SupplyResult) -> Iterator[Finding]:
    counted = set() if spaces_counted(submittal) is None else _of_spaces(submittal, found)  # a comment of its own tells these
    short = found.sizing is not None and found.sizing.conductors_suffice is False
    for at, text in enumerate(shortcomings(submittal.instructions, found, conductors_that_suffice(assessor, found))):
        if short and not at and found.sizing is not None:
            told = " ".join([*(f"{each.rstrip('.')}." for each in found.sizing.because), text])
            yield Finding(ID_OF_CONDUCTORS, ERROR, CODE, "supply", CONDUCTORS, told, send="the corrected conductors")
        elif text not in counted:
            yield Finding(f"supply: {text}", ERROR, CODE, "supply", "The supply itself", text, send="the corrected supply")


def _of_spaces(submittal: Submittal, found: SupplyResult) -> set[str]:
    """What is said where the breaker spaces do not suffice by the loads alone."""
    plan = submittal.instructions.review
    panels = "" if plan is None else plan.panels
    return {text for (method, _), text in short_beside(submittal.instructions, found).items() if method == panels}
