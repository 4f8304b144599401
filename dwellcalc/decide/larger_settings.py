"""What would let a load be set to more than fits: the alternatives, computed with that setting."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack

from dwellcalc.decide.alternatives import alternatives
from dwellcalc.decide.changed import changed
from dwellcalc.decide.decision import AlternativeResult, LargerSetting, SettingsResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.decide.settings import changes_of
from dwellcalc.decide.trials import Trials
from dwellcalc.home import Home


def larger_settings(home: Home, found: SettingsResult, trials: Trials) -> list[LargerSetting]:
    """The next setting and the largest one, with what would let each fit; the smallest where none fits; nothing where all do.

    Args:
        home: the home.
        found: the settings of a load.
        trials: trials on its supplies, with the settings that are counted, or the smallest where no combination of them fits.
    """
    return [LargerSetting(each, _that_fit(home, found.load, each, trials)) for each in _wanted(found)]


def _wanted(found: SettingsResult) -> Iterator[float]:
    """The settings of interest: of a range that has every whole ampere the largest alone."""
    above = [each.setting for each in found.settings if each.setting > (found.largest_that_fits or found.counted)]
    if found.largest_that_fits is None:
        yield from (each.setting for each in found.settings[:1] if each.setting < found.counted and each.verdict == DOES_NOT_FIT)
        return
    if not above:
        return
    if above[0] != above[-1] and not found.free:
        yield above[0]
    yield above[-1]


def _that_fit(home: Home, load: str, setting: float, trials: Trials) -> list[AlternativeResult]:
    with ExitStack() as stack:
        for assessor in trials.assessors:
            stack.enter_context(changed(assessor.facts, {**trials.base, **changes_of({load: setting})}))
        return [each for each in alternatives(home, Trials(trials.assessors), load) if each.verdict == FITS]
