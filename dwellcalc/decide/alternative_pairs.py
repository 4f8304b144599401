"""Two changes together where no single one suffices: pairs of those that are tried by themselves, least change first, a bounded number.

Every pair is computed. Of a pair that suffices the first change is then taken back as far as it can be, and after it the second.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations
from typing import TYPE_CHECKING, Any

from dwellcalc.decide.alternative_plans import AlternativePlan
from dwellcalc.decide.basis import Carried
from dwellcalc.decide.conductors import Conductors, supplied
from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.installed_as_one import listed_names, unit_with, without_units
from dwellcalc.decide.order import planned_loads, without
from dwellcalc.decide.trials import Trials, together

if TYPE_CHECKING:
    from dwellcalc.decide.alternatives import Finder

OF_LOADS = ("lower", "set", "state", "remove")  # the ways that change a load


@dataclass
class Single:
    """A change of one load by itself: where it can be more or less of it, each value in words with its changes of facts, least first.

    Attributes:
        plan: its alternative.
        load: the load.
        values: what is done, with the changes of facts.
        removed: all that is left out with the load, where it is.
    """

    plan: AlternativePlan
    load: str
    values: list[tuple[str, dict[Any, Any]]] = field(default_factory=list)
    removed: list[str] = field(default_factory=list)


@dataclass
class Larger:
    """Larger conductors of a supply, as a change by itself."""

    plan: AlternativePlan
    at: int
    size: Conductors


class Pairs:
    """Looks for pairs of changes that suffice.

    Args:
        finder: the search for single changes on the same home.
        plans: the alternatives of the assessment file.
    """

    def __init__(self, finder: Finder, plans: Sequence[AlternativePlan]) -> None:
        self.finder = finder
        self.home = finder.home
        self.plans = list(plans)
        every = [single for plan in plans if plan.way in OF_LOADS for single in self._singles(plan)]
        self.singles = [
            each for each in every if not self._suffice(finder.trials, [(each, len(each.values) - 1)])
        ]  # it needs no second

    def found(self, tried: float, told: float) -> list[AlternativeResult]:
        """The pairs that suffice, one for each two loads: so many at the most, of so many that are tried."""
        results: list[AlternativeResult] = []
        seen: set[frozenset[str]] = set()
        for number, (first, second) in enumerate(self._in_order(), start=1):
            if number > tried or len(results) >= told:
                break
            alike = frozenset(each.load if isinstance(each, Single) else each.size.shown for each in (first, second))
            result = None if alike in seen else self._together(first, second)
            if result is not None:
                seen.add(alike)
                results.append(result)
        return results

    def _in_order(self) -> list[tuple[Single | Larger, Single]]:
        """All pairs of changes of two loads, and of a load with larger conductors, those that stand first in the file first."""
        of_loads = [each for each in combinations(self.singles, 2) if _apart(*each) and not _tried(*each)]
        with_larger = [(larger, single) for larger in self._larger() for single in self.singles]
        every: list[tuple[Single | Larger, Single]] = [*of_loads, *with_larger]
        return sorted(every, key=lambda pair: sum(self.plans.index(each.plan) for each in pair))

    def _singles(self, plan: AlternativePlan) -> Iterator[Single]:
        finder, planned = self.finder, planned_loads(self.home)
        for position in finder.members(plan):
            name = finder.names[position]
            if plan.way == "remove":
                unit = unit_with(name, finder.units)
                if name in planned and name == unit[0] and finder.apart not in unit:
                    yield Single(plan, name, [(plan.what.format(load=listed_names(unit), value=""), {})], unit)
                continue
            if plan.way == "state":
                changes = {(name, of): said for of, said in plan.set_to.items()}
                yield Single(plan, name, [(plan.what.format(load=name, value=""), changes)])
                continue
            lowered = finder.lowered(plan, position)
            values = finder.values(plan, position, lowered) if lowered else []
            if values:
                places = {position: lowered}
                yield Single(
                    plan,
                    name,
                    [
                        (finder.in_words(plan, places, {position: value}), dict(finder.changes(plan, places, {position: value})))
                        for value in values
                    ],
                )

    def _larger(self) -> Iterator[Larger]:
        for plan in self.plans:
            if plan.way == "conductors":
                yield from (Larger(plan, at, size) for at, size in self.finder.larger_conductors(plan))

    def _together(self, first: Single | Larger, second: Single) -> AlternativeResult | None:
        finder = self.finder
        if isinstance(first, Single):
            return self._of_loads(first, second, finder.trials)
        with supplied(finder.trials.assessors[first.at].facts, first.size.changes):
            trials = Trials(finder.trials.assessors, finder.trials.base)
            level = self._least_of(lambda value: self._suffice(trials, [(second, value)]), second)
            if level is None:
                return None
            carried = trials.carried(self._changes([(second, level)]))
        title = finder.trials.assessors[first.at].supply.title
        what = first.plan.what.format(load=title, value=first.size.shown)
        return replace(self._result((first.plan, what), (second.plan, second.values[level][0]), carried), left_out=second.removed)

    def _of_loads(self, first: Single, second: Single, trials: Trials) -> AlternativeResult | None:
        most = len(second.values) - 1
        level = self._least_of(lambda value: self._suffice(trials, [(first, value), (second, most)]), first)
        if level is None:
            return None
        other = self._least_of(lambda value: self._suffice(trials, [(first, level), (second, value)]), second)
        assert other is not None
        carried = trials.carried(self._changes([(first, level), (second, other)]))
        made = self._result((first.plan, first.values[level][0]), (second.plan, second.values[other][0]), carried)
        return replace(made, left_out=[*first.removed, *second.removed])

    def _least_of(self, suffices: Any, single: Single) -> int | None:
        """The least of a change with which all suffices, by its place among the values; nothing where the most of it does not."""
        last = len(single.values) - 1
        if not suffices(last):
            return None
        return next((value for value in range(last) if suffices(value)), last)

    def _changes(self, taken: Sequence[tuple[Single, int]]) -> dict[Any, Any]:
        """The changes of facts of several changes, of each the value at a place."""
        removed = [load for single, _ in taken for load in single.removed]
        changes: dict[Any, Any] = without(self.home, without_units(self.finder.units, removed)) if removed else {}
        for single, value in taken:
            changes |= single.values[value][1]
        return changes

    def _suffice(self, trials: Trials, taken: Sequence[tuple[Single, int]]) -> bool:
        return self.finder.carried_suffice(trials.carried(self._changes(taken)))

    def _result(
        self, first: tuple[AlternativePlan, str], second: tuple[AlternativePlan, str], carried: Sequence[Carried]
    ) -> AlternativeResult:
        plans = [first[0], second[0]]
        title = plans[0].title if plans[0] is plans[1] else f"{plans[0].title}, and {_lowered(plans[1].title)}"
        cites = ", ".join(dict.fromkeys(plan.cite for plan in plans if plan.cite))
        needs = "; ".join(dict.fromkeys(plan.needs for plan in plans))
        at = self.finder.at
        made = self.finder.made(plans[0], f"{first[1]} and {second[1]}", together(carried), carried[at])
        made.title, made.needs, made.cite = f"Two together: {_lowered(title)}", needs, cites
        return made


def _apart(first: Single, second: Single) -> bool:
    """Whether two changes are of two loads, neither of which is left out with the other."""
    return first.load != second.load and first.load not in second.removed and second.load not in first.removed


def _tried(first: Single, second: Single) -> bool:
    """Whether two loads were tried together by the alternative itself."""
    return first.plan is second.plan and first.plan.way == "set"


def _lowered(title: str) -> str:
    return f"{title[:1].lower()}{title[1:]}"
