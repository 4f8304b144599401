"""What every supply would have to carry with the loads that come later, which are not counted."""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.decide.changed import Change
from dwellcalc.decide.decision import LaterResult
from dwellcalc.decide.order import REPLACED
from dwellcalc.decide.trials import Trials
from dwellcalc.home import Home
from dwellcalc.home.glossary_names import LATER


def with_what_is_later(home: Home, trials: Trials) -> list[LaterResult]:
    """Each load that comes later by itself, with all else as it is counted, then all of them together."""
    names = list(home.later)
    sets = [[name] for name in names] + ([names] if len(names) > 1 else [])
    return [_with(chosen, home, trials) for chosen in sets]


def _with(chosen: Sequence[str], home: Home, trials: Trials) -> LaterResult:
    changes: dict[Change, bool] = {(name, LATER): False for name in chosen}
    changes |= {(old, REPLACED): True for name in chosen for old in home.later[name]}
    return LaterResult(list(chosen), trials.verdict(changes), trials.supplies(changes))
