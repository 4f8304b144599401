"""Turns a checked line into a function that computes its value and keeps it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dwellcalc.evaluate import tiers
from dwellcalc.evaluate.gathering import Read, Value, largest_of, least_of, sum_of
from dwellcalc.facts import NOT_APPLICABLE, Unknown
from dwellcalc.language import tree
from dwellcalc.language.tree import CheckedLine

if TYPE_CHECKING:
    from dwellcalc.evaluate.plan import Plan
    from dwellcalc.evaluate.traced import Evaluation


class LinePlan:
    """Turns a line into a function that computes its value and keeps it."""

    def __init__(self, plan: Plan, line: CheckedLine) -> None:
        self.plan = plan
        self.line = line
        self.trees = plan.trees(plan, line.level, plan.per[line.method], line.position)
        if line.each is not None:
            plan.place(line.each)

    def runner(self) -> Read:
        """The line's function."""
        way = self.way()
        position = self.line.position
        applies = self.trees.read(self.line.applies) if self.line.applies is not None else None
        if applies is None:

            def run(evaluation: Evaluation, item: int) -> Value:
                value = evaluation.cells[position][item] = way(evaluation, item)
                return value

            return run

        def run_where_it_applies(evaluation: Evaluation, item: int) -> Value:
            asked = applies(evaluation, item)
            value = way(evaluation, item) if asked is True else NOT_APPLICABLE if asked is False else asked
            evaluation.cells[position][item] = value
            return value

        return run_where_it_applies

    def way(self) -> Read:
        """The line's way to its value."""
        line = self.line
        if line.value is not None:
            return self.trees.read(line.value)
        if line.cases:
            return self.cases()
        if line.of is not None:
            return self.tiers(line.of)
        return self.parts()

    def cases(self) -> Read:
        """The case that holds; where two hold at once, or none, the value is unknown with that as the reason."""
        cases = [
            (None if case.when is None else self.trees.read(case.when), self.trees.read(case.then)) for case in self.line.cases
        ]
        position, name = self.line.position, self.line.id

        def run(evaluation: Evaluation, item: int) -> Value:
            taken = -1
            missing: Unknown | None = None
            for at, (when, _) in enumerate(cases):
                if when is None:
                    if taken < 0 and missing is None:
                        taken = at
                    continue
                outcome = when(evaluation, item)
                if outcome is True:
                    if taken >= 0:
                        return Unknown(refusals=[f"two cases of {name} hold at once"])
                    taken = at
                elif outcome is not False:
                    missing = outcome if missing is None else missing.joined(outcome)
            if taken >= 0:
                evaluation.cases[position, item] = taken
                return cases[taken][1](evaluation, item)
            return missing if missing is not None else Unknown(refusals=[f"no case of {name} holds"])

        return run

    def tiers(self, of: tree.Tree) -> Read:
        """The portions of a quantity, each at its share."""
        quantity, phrases = self.trees.read(of), self.line.phrases

        def run(evaluation: Evaluation, item: int) -> Value:
            value = quantity(evaluation, item)
            return tiers.total(value, phrases) if value.__class__ is float else value

        return run

    def parts(self) -> Read:
        """Parts added, or the largest or least of them."""
        parts = tuple(self.trees.read(part) for part in self.line.parts)
        combine = {"sum_of": sum_of, "largest_of": largest_of, "least_of": least_of}[self.line.source.way]

        def run(evaluation: Evaluation, item: int) -> Value:
            values = []
            missing: Unknown | None = None
            for part in parts:
                value = part(evaluation, item)
                if value.__class__ is Unknown:
                    missing = value if missing is None else missing.joined(value)
                elif value is not NOT_APPLICABLE:
                    values.append(value)
            if missing is not None:
                return missing
            return combine(values) if values else NOT_APPLICABLE

        return run
