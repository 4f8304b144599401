"""What else could be done where a home does not fit: every alternative computed, none guessed.

Values are tried one by one from above, so that nothing rests on a load that falls with a rating.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations
from math import ceil
from typing import Any

from dwellcalc.decide.alternative_pairs import Pairs
from dwellcalc.decide.alternative_plans import AlternativePlan
from dwellcalc.decide.alternatives_by_method import ByMethod
from dwellcalc.decide.basis import Carried
from dwellcalc.decide.changed import LOADS, Changes, changed
from dwellcalc.decide.conductors import Conductors, for_the_rating, supplied
from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.decide.installed_as_one import listed_names, planned_units, unit_with, without_units
from dwellcalc.decide.new_supply import as_new, unserving
from dwellcalc.decide.order import REPLACED, planned_loads, without
from dwellcalc.decide.settings import SETTING, choose, settable
from dwellcalc.decide.trials import Trials, together
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.printed import number
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.facts import Unknown
from dwellcalc.home import Home
from dwellcalc.home.glossary_names import MATERIAL, SIZE, SUPPLY
from dwellcalc.units import share

BEYOND = ("given", "larger")  # a record that is not there, and another supply: no changes of what is planned or there


def alternatives(home: Home, trials: Trials, apart: str = "", *, planned_alone: bool = False) -> list[AlternativeResult]:
    """The alternatives where a supply does not fit: those that suffice first, what is planned left out last, in the order of the assessment file.

    Args:
        home: the home.
        trials: trials on its supplies, with the settings that are counted.
        apart: a load that is to stay as it is.
        planned_alone: whether of the loads only planned ones may be left out.
    """
    usual = trials.carried({})
    if together(usual) != DOES_NOT_FIT:
        return []
    finder, instructions = Finder(home, trials, usual, apart, planned_alone), trials.assessors[0].instructions
    by_plan = [(plan, finder.tried(plan)) for plan in instructions.alternatives]
    found = [result for _, results in by_plan for result in results]
    of_all = [each for plan, results in by_plan if plan.way not in BEYOND for each in results if not each.left_out]
    if not any(each.verdict == FITS for each in of_all):
        pairs = Pairs(finder, instructions.alternatives)
        found = [*pairs.found(instructions.pairs_tried, instructions.pairs_told), *found]
    return sorted(found, key=lambda each: (each.verdict != FITS, bool(each.left_out)))


class Finder:
    """Tries alternatives on a home of which a supply does not fit; figures are those of the first such supply."""

    def __init__(self, home: Home, trials: Trials, usual: Sequence[Carried], apart: str, planned_alone: bool) -> None:
        self.home, self.trials, self.usual = home, trials, usual
        self.apart, self.planned_alone = apart, planned_alone
        self.at = next(at for at, each in enumerate(usual) if each.verdict == DOES_NOT_FIT)
        self.assessor = trials.assessors[self.at]
        whole = trials.assessors[0]
        self.units = planned_units(home, trials)
        self.names = whole.facts.collections[LOADS].names
        self.evaluation = Evaluation(whole.plan, whole.facts, whole.choices)

    def tried(self, plan: AlternativePlan) -> list[AlternativeResult]:
        """What an alternative gives, by its way."""
        ways = {
            "lower": self.lower,
            "set": self.lower,
            "state": self.state,
            "remove": self.remove,
            "methods": ByMethod(self).methods,
            "given": ByMethod(self).given,
            "conductors": self.conductors,
            "larger": self.larger,
        }
        return ways[plan.way](plan)

    def members(self, plan: AlternativePlan) -> list[int]:
        """The loads that are tried, by position among all of the home."""
        if plan.loads is None:
            return []
        items = self.evaluation.decided(self.evaluation.plan.place(plan.loads)).items
        return [each for each in items if self.names[each] != self.apart or (plan.way == "lower" and SETTING not in plan.steps)]

    # a field of a load lowered

    def lower(self, plan: AlternativePlan) -> list[AlternativeResult]:
        """Each load lowered by itself until all fits; where none does that, several together; else what they bring at most."""
        places = {position: name for position in self.members(plan) if (name := self.lowered(plan, position))}
        values = {position: each for position, name in places.items() if (each := self.values(plan, position, name))}
        for count in range(1, len(values) + 1):
            sets = combinations(values, count) if count == 1 or plan.way == "set" else [tuple(values)]
            found = [levels for chosen in sets if (levels := self.highest(plan, places, {at: values[at] for at in chosen}))]
            if found:
                return [self.lowered_result(plan, places, levels) for levels in found]
        least = {position: min(each) for position, each in values.items()}
        enough = bool(least) and self.brings(self.changes(plan, places, least)) > 0
        return [self.lowered_result(plan, places, least)] if enough else []

    def lowered(self, plan: AlternativePlan, position: int) -> str:
        """The field of a load that is lowered, or an empty string where it has none."""
        columns = self.evaluation.facts.collections[LOADS].fields
        if plan.way == "set":
            return next(iter(plan.steps))
        if plan.start is not None:
            return next(iter(plan.steps)) if isinstance(self.evaluation.line(plan.start, position), float) else ""
        return next((name for name in plan.steps if isinstance(columns[name][position], float)), "")

    def values(self, plan: AlternativePlan, position: int, name: str) -> list[float]:
        """The values below the present one, step by step downwards; of a load that lists its settings, those."""
        step = plan.steps[name]
        if plan.way == "set":
            return [step]
        columns = self.evaluation.facts.collections[LOADS].fields
        now: Any = columns[name][position] if plan.start is None else self.evaluation.line(plan.start, position)
        if name == SETTING and position in self.home.settings:
            return sorted((each for each in self.home.settings[position] if each < now), reverse=True)
        lowest = max(step, share(now, plan.at_least)) if plan.down_to is None else plan.down_to
        count, least = ceil(now / step) - 1, ceil(lowest / step)
        return [each * step for each in range(count, least - 1, -1)]

    def changes(self, plan: AlternativePlan, places: dict[int, str], levels: dict[int, float]) -> Changes:
        """The changes of facts with which loads are at levels."""
        changes: dict[tuple[str, str], Any] = {}
        for position, value in levels.items():
            changes[self.names[position], places[position]] = value
            changes |= {(self.names[position], other): said for other, said in plan.set_to.items()}
        return changes

    def highest(self, plan: AlternativePlan, places: dict[int, str], values: dict[int, list[float]]) -> dict[int, float]:
        """The highest level with which everything fits: each load at the largest of its values that is not over it."""
        for level in sorted({value for each in values.values() for value in each}, reverse=True):
            levels = {at: max((value for value in each if value <= level), default=min(each)) for at, each in values.items()}
            if self.suffice(self.changes(plan, places, levels)):
                return levels
        return {}

    def lowered_result(self, plan: AlternativePlan, places: dict[int, str], levels: dict[int, float]) -> AlternativeResult:
        """The result with loads at levels."""
        found = self.result(plan, self.in_words(plan, places, levels), self.changes(plan, places, levels))
        return replace(found, of_rating=[] if plan.set_to else [self.names[each] for each in levels])

    def in_words(self, plan: AlternativePlan, places: dict[int, str], levels: dict[int, float]) -> str:
        """What is done with loads that are lowered to levels."""
        glossary = self.home.facts.glossary
        fields = glossary.collections[LOADS].fields
        by_value: dict[str, list[str]] = {}
        for position, value in levels.items():
            by_value.setdefault(printed.value(value, fields[places[position]].kind, glossary), []).append(self.names[position])
        return " and ".join(plan.what.format(load=" and ".join(loads), value=shown) for shown, loads in by_value.items())

    # a load that is stated otherwise

    def state(self, plan: AlternativePlan) -> list[AlternativeResult]:
        """Each load by itself as it is stated, where that brings something."""
        names = [self.names[each] for each in self.members(plan)]
        stated = {name: {(name, of): said for of, said in plan.set_to.items()} for name in names}
        enough = {name: changes for name, changes in stated.items() if self.brings(changes) > 0}
        return [self.result(plan, plan.what.format(load=name, value=""), changes) for name, changes in enough.items()]

    # a load left out

    def remove(self, plan: AlternativePlan) -> list[AlternativeResult]:
        """Each load left out by itself, where that suffices: the planned ones first, then what brings least."""
        planned = planned_loads(self.home)
        found: list[tuple[bool, AlternativeResult]] = []
        for position in self.members(plan):
            name = self.names[position]
            unit = unit_with(name, self.units)
            if (self.planned_alone and name not in planned) or name != unit[0] or self.apart in unit:
                continue  # what comes as one is left out once, and nothing of what is to stay
            changes = without(self.home, without_units(self.units, unit)) if name in planned else {(name, REPLACED): True}
            if self.suffice(changes):
                result = self.result(plan, plan.what.format(load=listed_names(unit), value=""), changes)
                found.append((name not in planned, replace(result, left_out=unit if name in planned else [])))
        return [result for _, result in sorted(found, key=lambda each: (each[0], each[1].brings or 0))]

    # larger conductors, with the rating that is there

    def conductors(self, plan: AlternativePlan) -> list[AlternativeResult]:
        """For each supply that does not fit and that its conductors limit, the conductors that its rating needs.

        Where these do not suffice by themselves, the settings with which they do are told.
        """
        sizes = self.larger_conductors(plan)
        return [each for at, size in sizes if (each := self.with_conductors(plan, at, size)) is not None]

    def larger_conductors(self, plan: AlternativePlan) -> list[tuple[int, Conductors]]:
        """For each supply that does not fit, by its place, the conductors that its rating needs."""
        found = []
        for at, (assessor, usual) in enumerate(zip(self.trials.assessors, self.usual, strict=True)):
            if usual.verdict == DOES_NOT_FIT and not self.not_seen(at):
                with changed(assessor.facts, self.trials.base):
                    tried = assessor.answered(assessor.choices)[0]
                    sizes = [] if tried is None else for_the_rating(assessor, tried, plan.materials)
                found += [(at, size) for size in sizes]
        return found

    def not_seen(self, at: int) -> bool:
        """Whether the conductors of a supply were not seen."""
        supply = self.trials.assessors[at].facts.objects[SUPPLY]
        return any(isinstance(supply[name], Unknown) for name in (SIZE, MATERIAL))

    def with_conductors(self, plan: AlternativePlan, at: int, size: Conductors) -> AlternativeResult | None:
        """A supply with other conductors, where its capacity is more then."""
        assessor, usual = self.trials.assessors[at], self.usual[at]
        with supplied(assessor.facts, size.changes):
            trials = Trials(self.trials.assessors, self.trials.base)
            carried, settings = trials.carried({}), ""
            if carried[at].verdict == DOES_NOT_FIT and not self.apart:
                loads = settable(self.home)
                chosen = choose(loads, trials, assessor.instructions.combinations_at_most) if loads else None
                if chosen is not None and chosen.fitting:
                    carried = trials.carried(chosen.changes)
                    settings = " and ".join(f"{load} set to {value:g} A" for load, value in chosen.counted.items())
        now = carried[at]
        if now.capacity is None or usual.capacity is None or now.capacity <= usual.capacity:
            return None
        what = plan.what.format(load=assessor.supply.title, value=size.shown) + f", a capacity of {number(now.capacity)} A"
        what += f", with {settings}" if settings else ""
        brings = usual.amperes - now.amperes if settings and usual.amperes is not None and now.amperes is not None else None
        title = assessor.supply.title
        found = AlternativeResult(plan.title, what, together(carried), title, now.amperes, brings, now.by, plan.needs, plan.cite)
        return replace(found, capacity=now.capacity)

    # a larger supply

    def larger(self, plan: AlternativePlan) -> list[AlternativeResult]:
        """For each supply that does not fit, the rating of a new one, and what else must be larger.

        The verdict is that of all supplies together where each of them is replaced.
        """
        made = [
            (assessor, as_new(assessor, plan.methods) if usual.verdict == DOES_NOT_FIT else None)
            for assessor, usual in zip(self.trials.assessors, self.usual, strict=True)
        ]
        verdict = together(usual if new is None else new for usual, (_, new) in zip(self.usual, made, strict=True))
        found = []
        for assessor, new in made:
            there = assessor.supply.facts.objects["supply"]["rating"]
            if new is None or new.minimum_rating is None or (isinstance(there, float) and new.minimum_rating <= there):
                continue  # by another method it is no larger than the one that is there
            what = plan.what.format(load=assessor.supply.title, value=f"{new.minimum_rating:,.0f} A")
            larger = [text for name, text in plan.also.items() if name in unserving(assessor, plan.methods, plan.also)]
            found.append(
                AlternativeResult(
                    plan.title,
                    what,
                    verdict,
                    assessor.supply.title,
                    new.amperes,
                    None,
                    new.by,
                    plan.needs,
                    plan.cite,
                    larger,
                    capacity=new.minimum_rating,
                )
            )
        return found

    # results

    def suffice(self, changes: Changes) -> bool:
        """Whether under changes every supply fits that does not fit now, and none that may fit now does not fit."""
        return self.carried_suffice(self.trials.carried(changes))

    def carried_suffice(self, carried: Sequence[Carried]) -> bool:
        """The same of what every supply must carry then."""
        pairs = zip(self.usual, carried, strict=True)
        return all(then.verdict == FITS or (then.verdict != DOES_NOT_FIT and now.verdict != DOES_NOT_FIT) for now, then in pairs)

    def brings(self, changes: Changes) -> float:
        """How much less the supply must carry under changes [A]."""
        now, then = self.usual[self.at].amperes, self.trials.carried(changes)[self.at].amperes
        return now - then if now is not None and then is not None else float(0)

    def result(self, plan: AlternativePlan, what: str, changes: Changes) -> AlternativeResult:
        """The result under changes of facts."""
        carried = self.trials.carried(changes)
        return self.made(plan, what, together(carried), carried[self.at])

    def made(self, plan: AlternativePlan, what: str, verdict: str, carried: Carried) -> AlternativeResult:
        """A result of the first supply that does not fit."""
        now = self.usual[self.at].amperes
        brings = None if now is None or carried.amperes is None else now - carried.amperes
        title = self.assessor.supply.title
        return AlternativeResult(plan.title, what, verdict, title, carried.amperes, brings, carried.by, plan.needs, plan.cite)
