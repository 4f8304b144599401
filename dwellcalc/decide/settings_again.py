"""The settings that fit under other readings of the code, other rule sets or other facts, beside those that are counted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import prod

from dwellcalc.decide.document import SupplyResult
from dwellcalc.decide.settings import Chosen, Settable, choose
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.trials import Trials

Found = dict[str, float] | None


def fitting_settings(loads: Sequence[Settable], assessors: Iterable[SupplyAssessor]) -> dict[str, float] | None:
    """The largest settings that fit under the facts and readings as they are; none where no setting fits.

    Nothing is said where there are no loads to be set or too many combinations to try again.
    """
    assessors = list(assessors)
    most = assessors[0].instructions.combinations_tried_again
    if not loads or prod(len(each.settings) for each in loads) > most:
        return None
    chosen = choose(loads, Trials(assessors), most)
    return chosen.counted if chosen.fitting else {}


def tell_settings(
    assessors: Sequence[SupplyAssessor], supplies: Sequence[SupplyResult], loads: Sequence[Settable], now: Chosen
) -> None:
    """Add to each option of a reading that makes a difference the largest settings that fit under it.

    Args:
        assessors: those of the supplies, with the readings that are taken.
        supplies: their results.
        loads: the loads that can be set.
        now: the settings that are counted.
    """
    kept: dict[tuple[str, str], Found] = {}
    for reading in (each for supply in supplies for each in supply.interpretations):
        if len({(option.amperes, option.verdict) for option in reading.options}) == 1:
            continue
        for option in reading.options:
            key = reading.address, option.option
            if key not in kept:
                usual = now.counted if now.fitting else {}
                kept[key] = usual if option.taken else _under(assessors, loads, *key)
            option.settings = kept[key] if loads else None


def _under(assessors: Sequence[SupplyAssessor], loads: Sequence[Settable], address: str, option: str) -> Found:
    usual = [each.choices for each in assessors]
    for each in assessors:
        each.choices = {**each.choices, address: option}
    try:
        return fitting_settings(loads, assessors)
    finally:
        for each, choices in zip(assessors, usual, strict=True):
            each.choices = choices
