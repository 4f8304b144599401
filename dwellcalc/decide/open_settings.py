"""Settings where none fits for all that unknown inputs may be: the smallest, if only with those something may fit."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import ExitStack

from dwellcalc.decide.changed import changed
from dwellcalc.decide.document import DOES_NOT_FIT
from dwellcalc.decide.ranged import FITTING, RangedSupply
from dwellcalc.decide.settings import Chosen, Settable, smallest_of
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.up_to import verdict_of
from dwellcalc.evaluate.bounds import inputs_of
from dwellcalc.home import Home

Assessors = Callable[[], list[SupplyAssessor]]


def where_open(home: Home, loads: Sequence[Settable], chosen: Chosen, assessors: Assessors) -> Chosen:
    """The settings that are counted, the smallest where the verdict is open with those and else a refusal.

    Where no setting fits with every input between bounds at its worst, each load counts at its largest setting. With that
    nothing may fit whatever the inputs are, although it may with a smaller one; a refusal would then be false.

    Args:
        home: the home, with what is known only between bounds.
        loads: the loads that can be set.
        chosen: what was chosen for the worst of the inputs.
        assessors: makes the assessors of its supplies, for their facts as they then are.
    """
    if chosen.fitting or not loads or not any(inputs_of(supply.facts) for supply in home.supplies):
        return chosen
    smallest = smallest_of(loads)
    refused = _refused(home, chosen, assessors) and not _refused(home, smallest, assessors)
    return smallest if refused else chosen


def _refused(home: Home, chosen: Chosen, assessors: Assessors) -> bool:
    """Whether a supply does not suffice whatever its unknown inputs are."""
    with ExitStack() as counted:
        for supply in home.supplies:
            counted.enter_context(changed(supply.facts, chosen.changes))
        return any(
            verdict_of(RangedSupply(each, supply.facts, each.choices).pieces().decided(FITTING)) == DOES_NOT_FIT
            for each, supply in zip(assessors(), home.supplies, strict=True)
        )
