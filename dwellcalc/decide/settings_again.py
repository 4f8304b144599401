"""The settings that fit under other readings of the code, other rule sets or other facts, beside those that are counted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import prod

from dwellcalc.decide.changed import LOADS
from dwellcalc.decide.document import SupplyResult
from dwellcalc.decide.settings import Settable, choose
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.trials import Trials

Found = dict[str, float] | None


def fitting_settings(loads: Sequence[Settable], assessor: SupplyAssessor) -> Found:
    """The largest settings that fit one supply under its facts and readings as they are; empty where no setting fits.

    Nothing is said where it feeds no loads that can be set, or there are too many combinations to try again.
    """
    most = assessor.instructions.combinations_tried_again
    fed = [replace(each, wanted=None) for each in loads if each.load in assessor.facts.collections[LOADS].names]
    if not fed or prod(len(each.settings) for each in fed) > most:
        return None
    chosen = choose(fed, Trials([assessor]), most)
    return chosen.counted if chosen.fitting else {}


def tell_settings(assessors: Sequence[SupplyAssessor], supplies: Sequence[SupplyResult], loads: Sequence[Settable]) -> None:
    """Add to each option of a reading that makes a difference the largest settings with which the supply fits under it.

    Args:
        assessors: those of the supplies, with the readings that are taken.
        supplies: their results, in the same order.
        loads: the loads that can be set.
    """
    for assessor, supply in zip(assessors, supplies, strict=True):
        for reading in supply.interpretations:
            if len({(option.amperes, option.verdict) for option in reading.options}) > 1:
                for option in reading.options:
                    option.settings = _under(assessor, loads, reading.address, option.option)


def _under(assessor: SupplyAssessor, loads: Sequence[Settable], address: str, option: str) -> Found:
    usual = assessor.choices
    assessor.choices = {**usual, address: option}
    try:
        return fitting_settings(loads, assessor)
    finally:
        assessor.choices = usual
