"""What a rule set makes of the lines that a submittal claims: by itself, and with all other claims taken as they are."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from math import isclose

from dwellcalc.decide.changed import changed
from dwellcalc.decide.instructions import Sizing
from dwellcalc.evaluate.gathering import UNSET, Value
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.facts import Facts, Unknown
from dwellcalc.glossary import ValueKind
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import HOME, CheckedLine
from dwellcalc.review.claims import AMPERE, Claim

At = tuple[str, str]


@dataclass(frozen=True)
class Asked:
    """What is calculated for a submittal.

    Attributes:
        facts: those of the supply.
        method: the method whose load sizing is given.
        sizing: what sizing is given, and by which results.
        choices: the interpretations chosen, by address.
        given: what sizing is given instead, by name, where the submittal gives it; what it leaves out is nothing then.
        stated: what the method is given, by name, such as a maximum demand.
    """

    facts: Facts
    method: str
    sizing: Sizing
    choices: Mapping[str, str]
    given: Mapping[str, float]
    stated: Mapping[str, float] = field(default_factory=dict)


class Looked:
    """One calculation of a submittal under a rule set.

    Args:
        rules: the rule set, or a part of it that holds the methods asked for.
        asked: what is calculated.
        choices: other interpretations than those of the submittal, by address.
    """

    def __init__(self, rules: RuleSet, asked: Asked, choices: Mapping[str, str] | None = None) -> None:
        self.rules = rules
        self.asked = asked
        self.choices = {**asked.choices, **(choices or {})}
        self.plan = plan_of(rules)

    def values(self, claims: Iterable[Claim]) -> dict[At, Value]:
        """The value of each line that claims are for, or may stand for."""
        return self._looked(claims)[0]

    def choices_read(self, claims: Iterable[Claim]) -> set[str]:
        """The addresses of the interpretations that the values of some claims rest on."""
        return self._looked(claims)[1]

    def _looked(self, claims: Iterable[Claim]) -> tuple[dict[At, Value], set[str]]:
        evaluation = self.evaluation()
        sizing: Evaluation | None = None
        found: dict[At, Value] = {}
        for name, item in dict.fromkeys(place for claim in claims for place in claim.places):
            line = line_of(self.rules, name)
            if line is None:
                found[name, item] = Unknown(refusals=[f"there is no line {name}"])
            elif line.method != self.asked.sizing.method:
                found[name, item] = self.value(evaluation, line, item)
            else:
                sizing = sizing or self.sized(evaluation)
                found[name, item] = self.value(sizing, line, item)
        return found, evaluation.read_choices | (sizing.read_choices if sizing else set())

    def values_by_the_others(self, claims: Iterable[Claim], values: Mapping[At, Value]) -> dict[At, Value]:
        """The value of each claimed line that follows where every other claim is taken as it stands.

        Args:
            claims: the claims.
            values: what `values` gives of them, by which a row is taken for one of the lines that it may stand for.
        """
        evaluation, claims = self.evaluation(), list(claims)
        of_load = [claim for claim in claims if claim.method != self.asked.sizing.method]
        found = self._follows(evaluation, of_load, values)
        of_sizing = [claim for claim in claims if claim.method == self.asked.sizing.method]
        return found | (self._follows(self.sized(evaluation), of_sizing, values) if of_sizing else {})

    def _follows(self, evaluation: Evaluation, claims: list[Claim], values: Mapping[At, Value]) -> dict[At, Value]:
        """The value of each claimed line as it follows from the claims for others, which are left in the evaluation."""
        found: dict[At, Value] = {}
        taken = self.take(evaluation, claims, values)
        currents = [each for each in taken if self.is_current(each[1])]
        for claim, line, item in taken:
            apart = [] if self.is_current(line) else currents  # a load is no current, as it is rounded, times the voltage
            for _, current, of in apart:
                evaluation.cells[current.position][of] = UNSET
            found[claim.at] = self.plan.runners[line.position](evaluation, item)
            evaluation.cells[line.position][item] = claim.value
            for other, current, of in apart:
                evaluation.cells[current.position][of] = other.value
        return found

    def is_current(self, line: CheckedLine) -> bool:
        """Whether a line is in amperes."""
        return line.kind is not None and line.kind.unit == self.rules.glossary.units.unit(AMPERE).kind

    def take(
        self, evaluation: Evaluation, claims: Iterable[Claim], values: Mapping[At, Value] | None = None
    ) -> list[tuple[Claim, CheckedLine, int]]:
        """Put claims into an evaluation as the values of their lines, and of those that hold the same; those that have a place."""
        placed, alike = [], []
        for claim in claims:
            name, of = claim.at if values is None else claim.place_in(values)
            line = line_of(self.rules, name)
            item = None if line is None else self.item(line, of)
            if line is not None and item is not None and self.holds(evaluation, line, item):
                placed.append((claim, line, item))
                if (name, of) in (claim.at, *claim.alike):
                    alike += [(claim, at) for at in (claim.at, *claim.alike)]
        for claim, at in alike:
            same = line_of(self.rules, at[0])
            item = None if same is None else self.item(same, at[1])
            if same is not None and item is not None and self.holds(evaluation, same, item):
                evaluation.cells[same.position][item] = claim.value
        for claim, line, item in placed:
            evaluation.cells[line.position][item] = claim.value
        return placed

    def same_without(self, load: str) -> bool:
        """Whether the load of the method is the same without one of its loads, such as the smaller of two."""
        result = next(iter(self.rules.methods[self.asked.method].results.values()))
        with_it = self.evaluation().line(result)
        with changed(self.asked.facts, {(load, "replaced"): True}):
            without = self.evaluation().line(result)
        return isinstance(with_it, float) and with_it == without

    def decides(self, at: At) -> bool:
        """Whether the load of the method is another where a line is nothing."""
        usual, without = self._load_with(at, lambda _: 0.0)
        return usual is not None and without is not None and usual != without

    def is_passed_on(self, at: At) -> bool:
        """Whether the load of the method is more by as much as a line is: no share is taken of it."""
        usual, more = self._load_with(at, lambda value: value + 1)
        return usual is not None and more is not None and isclose(more, usual + 1)

    def _load_with(self, at: At, change: Callable[[float], float]) -> tuple[float | None, float | None]:
        """The load of the method, and the same with the value of a line changed; nothing where it is not known."""
        line, result = line_of(self.rules, at[0]), next(iter(self.rules.methods[self.asked.method].results.values()))
        item = None if line is None else self.item(line, at[1])
        evaluation, other = self.evaluation(), self.evaluation()
        value = None if line is None or item is None else evaluation.value(line.position, item)
        if line is None or item is None or not isinstance(value, float):
            return None, None
        other.cells[line.position][item] = change(value)
        usual, changed_to = evaluation.line(result), other.line(result)
        return tuple(each if isinstance(each, float) else None for each in (usual, changed_to))  # type: ignore[return-value]

    # evaluations

    def evaluation(self) -> Evaluation:
        """An evaluation of the methods, to which nothing was handed over."""
        return Evaluation(self.plan, self.asked.facts, self.choices, dict(self.asked.stated))

    def sized(self, evaluation: Evaluation) -> Evaluation:
        """An evaluation of sizing for the load of the method, or for what the submittal gives."""
        if self.asked.given:
            given: dict[str, Value] = dict.fromkeys(self.asked.sizing.given, 0.0) | dict(self.asked.given)
        else:
            results = self.rules.methods[self.asked.method].results
            given = {name: evaluation.line(results[each]) for name, each in self.asked.sizing.given.items() if each in results}
        return Evaluation(self.plan, self.asked.facts, self.choices, given)

    def item(self, line: CheckedLine, name: str) -> int | None:
        """The place of an item in a line's collection; of a line that has one value it is the first."""
        if line.level == HOME:
            return 0
        names = self.asked.facts.collections[line.level].names
        if not name:
            return 0 if names else None
        return names.index(name) if name in names else None

    def value(self, evaluation: Evaluation, line: CheckedLine, item: str) -> Value:
        """The value of a line for an item; of an item that its group does not hold it is unknown."""
        place = self.item(line, item)
        if place is None or not self.holds(evaluation, line, place):
            return Unknown(refusals=[f"{item} is none of these loads"])
        return evaluation.value(line.position, place)

    def holds(self, evaluation: Evaluation, line: CheckedLine, place: int) -> bool:
        """Whether the group of a column holds an item."""
        return line.each is None or place in evaluation.decided(self.plan.place(line.each)).items


def line_of(rules: RuleSet, name: str) -> CheckedLine | None:
    """The line of a name such as ``method.line``, or nothing."""
    method, _, line = name.partition(".")
    found = rules.methods.get(method)
    return None if found is None else found.lines.get(line)


def kind_of(rules: RuleSet, claim: Claim) -> ValueKind | None:
    """The kind of value of the line that a claim is for."""
    line = line_of(rules, claim.line)
    return None if line is None else line.kind
