"""The settings that fit where only some of what is planned is installed."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import product
from math import prod

from dwellcalc.decide.document import FITS
from dwellcalc.decide.order import without
from dwellcalc.decide.settings import Settable, changes_of
from dwellcalc.decide.trials import Trials
from dwellcalc.home import Home


def largest_settings(
    home: Home, chosen: Collection[str], loads: Sequence[Settable], trials: Trials, limit: float
) -> dict[str, float]:
    """The largest settings [A], by load, that fit with only some of what is planned, the first load's first.

    Nothing where none of these loads can be set, or there are too many combinations to try.

    Args:
        home: the home.
        chosen: the planned loads that are installed.
        loads: the loads that can be set.
        trials: trials on its supplies.
        limit: how many combinations are tried at most.
    """
    there = [each for each in loads if each.load in chosen]
    if prod(len(each.settings) for each in there) > limit:
        return {}
    only, names = without(home, chosen), [each.load for each in there]
    for settings in sorted(product(*(each.settings for each in there)), reverse=True):
        made = dict(zip(names, settings, strict=True))
        if trials.verdict({**only, **changes_of(made)}) == FITS:
            return made
    return {}
