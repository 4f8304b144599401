"""Loads that can be set: which settings fit, together and one by one, and which are counted.

Every combination is tried, so that nothing rests on a total that rises with a setting.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

from dwellcalc.decide.changed import Changes, changed
from dwellcalc.decide.circuit_results import CircuitResult
from dwellcalc.decide.circuits import circuit_of
from dwellcalc.decide.decision import Combination, MethodAt, SettingResult, SettingsResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.decide.order import by_priority, planned_loads, without
from dwellcalc.decide.trials import Trials
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.facts import Unknown
from dwellcalc.home import Home
from dwellcalc.home.glossary_names import BREAKER_LISTED
from dwellcalc.problems import fail, message

TOO_MANY = message(
    "settings_too_many",
    "the settings of {loads} make {count} combinations; at most {limit} are tried",
    "list fewer settings for some of them",
)
SETTING = "setting"
NOT_LISTED = Unknown([])


@dataclass(frozen=True)
class Settable:
    """A load that can be set: its name, its settings [A] in rising order, whether they are a free range, the one that is wanted."""

    load: str
    settings: tuple[float, ...]
    free: bool
    wanted: float | None = None

    def suits(self, setting: float) -> tuple[bool, bool, float]:
        """How well a setting suits: the wanted one best, then the largest below it; where none is wanted the largest."""
        return setting == self.wanted, self.wanted is None or setting <= self.wanted, setting


def settable(home: Home) -> list[Settable]:
    """The loads of a home that can be set, by their priorities."""
    names = home.facts.collections["loads"].names
    return [
        Settable(names[position], tuple(sorted(set(home.settings[position]))), position in home.free, home.wanted.get(position))
        for position in by_priority(home, home.settings)
    ]


@dataclass
class Chosen:
    """The settings that are counted, by load, and the combinations that fit every supply that carries one of the loads."""

    counted: dict[str, float]
    fitting: list[tuple[float, ...]]

    @property
    def changes(self) -> Changes:
        """The same as changes of facts."""
        return changes_of(self.counted)


def changes_of(settings: Mapping[str, float]) -> Changes:
    """Settings as changes of facts."""
    return {(load, SETTING): setting for load, setting in settings.items()}


def choose(loads: Sequence[Settable], trials: Trials, limit: float) -> Chosen:
    """Choose the settings that are counted.

    The first load gets its largest setting with which some combination fits, or the wanted one if it fits, then the second, and so
    on; where none fits, or there is nothing to compare, each counts at the wanted one, else at its largest.

    Raises:
        InputError: there are more combinations than ``limit``.
    """
    count = prod(len(each.settings) for each in loads)
    if count > limit:
        fail(TOO_MANY, loads=", ".join(each.load for each in loads), count=f"{count:,}", limit=f"{limit:,.0f}")
    names = [each.load for each in loads]
    fitting = [
        combination
        for combination in product(*(each.settings for each in loads))
        if trials.verdict(changes_of(dict(zip(names, combination, strict=True))), names) == FITS
    ]
    usual = tuple(each.wanted or each.settings[-1] for each in loads)
    counted = max(fitting, key=lambda one: [each.suits(at) for each, at in zip(loads, one, strict=True)], default=usual)
    return Chosen(dict(zip(names, counted, strict=True)), fitting)


def smallest_of(loads: Sequence[Settable]) -> Chosen:
    """Each load at its smallest setting, of which is not said that it fits."""
    return Chosen({each.load: each.settings[0] for each in loads}, [])


def combinations(loads: Sequence[Settable], chosen: Chosen, trials: Trials) -> list[Combination]:
    """The combinations of several loads that fit and that no other one exceeds in all, the first load's largest first."""
    if len(loads) < 2:
        return []
    names = [each.load for each in loads]
    made = [dict(zip(names, combination, strict=True)) for combination in _unexceeded(chosen.fitting)]
    return [Combination(each, each == chosen.counted, trials.supplies(changes_of(each), names)) for each in made]


def _unexceeded(fitting: Iterable[tuple[float, ...]]) -> list[tuple[float, ...]]:
    """Those that no other one is at least equal to in all and larger in one, the largest first."""
    kept: list[tuple[float, ...]] = []
    for one in sorted(fitting, reverse=True):  # whatever exceeds one in all stands before it
        if not any(all(mine <= other for mine, other in zip(one, each, strict=True)) for each in kept):
            kept.append(one)
    return kept


def settings_results(
    home: Home, loads: Sequence[Settable], chosen: Chosen, trials: Trials, weakest: Mapping[str, str]
) -> list[SettingsResult]:
    """For each load that can be set, every setting with all else as it is counted.

    Args:
        home: the home.
        loads: the loads.
        chosen: the settings that are counted.
        trials: trials whose base are those settings.
        weakest: the element that decides the capacity of each supply, by its id.
    """
    found = []
    for load in loads:
        rows = [_row(load, setting, chosen, trials, weakest) for setting in load.settings]
        fitting = [row.setting for row in rows if row.verdict == FITS]
        alone = None if fitting else _largest_alone(home, load, trials)
        counted = chosen.counted[load.load]
        found.append(SettingsResult(load.load, counted, max(fitting, default=None), alone, load.free, rows, wanted=load.wanted))
    return found


def _largest_alone(home: Home, load: Settable, trials: Trials) -> float | None:
    """The largest setting that fits without what else is planned, if there is more, and one fits then."""
    if not set(planned_loads(home)) - {load.load}:
        return None
    others = without(home, [load.load])
    fitting = (each for each in load.settings if trials.verdict({**others, **changes_of({load.load: each})}, [load.load]) == FITS)
    return max(fitting, default=None)


def _row(load: Settable, setting: float, chosen: Chosen, trials: Trials, weakest: Mapping[str, str]) -> SettingResult:
    changes = changes_of({load.load: setting})
    supplies = trials.supplies(changes, [load.load])
    return SettingResult(
        setting,
        trials.verdict(changes, [load.load]),
        {each.title: weakest.get(each.supply, "") for each in supplies if each.verdict == DOES_NOT_FIT},
        setting == chosen.counted[load.load],
        supplies,
        _by_methods(trials, changes, load.load),
        _circuit(trials, changes, load.load, {(load.load, BREAKER_LISTED): NOT_LISTED}),
        _suits(trials, changes, load.load),
    )


def _suits(trials: Trials, changes: Changes, load: str) -> bool:
    """Whether the breaker that a panel lists for a load suits it under changes; yes where none is listed."""
    circuit = _circuit(trials, changes, load)
    return circuit is None or not circuit.put_right


def _circuit(trials: Trials, changes: Changes, load: str, more: Changes | None = None) -> CircuitResult | None:
    """The branch circuit of a load under changes, and more that changes no load, of the supply that feeds it last."""
    assessor, _ = trials.of(changes, [load])[-1]
    with changed(assessor.facts, {**trials.base, **changes, **(more or {})}):
        evaluation = Evaluation(assessor.plan, assessor.facts, assessor.choices)
        position = assessor.facts.collections["loads"].names.index(load)
        return circuit_of(evaluation, assessor.instructions, position)


def _by_methods(trials: Trials, changes: Changes, load: str) -> list[MethodAt]:
    """What each supply must carry by each method that may be used."""
    found = []
    for assessor in trials.assessors:
        if load not in assessor.facts.collections["loads"].names:
            continue
        for tried, carried in trials.by_methods(assessor, changes):
            if carried.amperes is not None:  # nothing where a method may not be used
                found.append(MethodAt(assessor.supply.id, tried.name, carried.by, carried.amperes, carried.verdict))
    return found
