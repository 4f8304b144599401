"""The second walk of the checked trees, on bounds: the functions of a plan whose values may be ``Possible``.

Reading, gathering and the order of all steps are those of ``tree_plan`` and ``line_plan``; here stands only what differs
where a value is not settled: conditions that are undecided join their branches and are noted, so that the inputs can be
split there.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from dwellcalc.evaluate import bounds_gathering as gathering
from dwellcalc.evaluate import tiers
from dwellcalc.evaluate.bounds_tables import first_rows, looked_up
from dwellcalc.evaluate.gathering import Read, Value, rounded
from dwellcalc.evaluate.line_plan import LinePlan
from dwellcalc.evaluate.plan import Plan
from dwellcalc.evaluate.possible import (
    NOTHING,
    TRUTHS,
    Possible,
    any_of,
    arithmetic,
    both_missing,
    compared,
    formula,
    hull,
    possible,
    settled,
    turned,
)
from dwellcalc.evaluate.tree_plan import TreePlan
from dwellcalc.evaluate.undecided import Undecided
from dwellcalc.facts import NOT_APPLICABLE, Unknown
from dwellcalc.language import tree
from dwellcalc.units import WHOLE

if TYPE_CHECKING:
    from dwellcalc.evaluate.bounds import BoundsEvaluation

GATHERED = {
    "sum": gathering.sum_column,
    "mean": gathering.mean,
    "largest": gathering.largest,
    "every": gathering.every,
}
COMBINED: dict[str, Callable[[list[Possible]], Value]] = {
    "sum_of": gathering.sum_of,
    "largest_of": gathering.largest_of,
    "least_of": gathering.least_of,
}


class BoundsTreePlan(TreePlan):
    """Turns trees into functions on bounds, for one level and line."""

    def gather(self, node: tree.Gather) -> Any:
        """A gathering word over a group."""
        place, level = self.plan.place(node.group), self.level
        if node.column is None:
            return lambda evaluation, item: gathering.count(evaluation, place, level, item)
        column = BoundsTreePlan(self.plan, node.group.collection, self.per, self.position).read(node.column)
        gathered = GATHERED[node.function]
        return lambda evaluation, item: gathered(evaluation, place, level, item, column)

    def arithmetic(self, node: tree.Arithmetic) -> Read:
        """Two amounts with + - * or /; a percent is applied to the other side."""
        exact, left, right, sign = super().arithmetic(node), self.read(node.left), self.read(node.right), node.sign

        def read(evaluation: Any, item: int) -> Value:
            values = left(evaluation, item), right(evaluation, item)
            if not any(value.__class__ is Possible for value in values):
                return exact(evaluation, item)
            if node.percent:
                return arithmetic("/", arithmetic("*", *values), float(WHOLE))
            return arithmetic(sign, *values)

        return read

    def comparison(self, node: tree.Comparison) -> Read:
        """Two values compared; where that is undecided it is noted."""
        left, right, sign = self.read(node.left), self.read(node.right), node.sign

        def read(evaluation: Any, item: int) -> Value:
            found = compared(sign, left(evaluation, item), right(evaluation, item))
            if found.__class__ is Possible and found.words == TRUTHS:
                evaluation.note(Undecided(read, item, found.of))
            return found

        return read

    def one_of(self, node: tree.OneOf) -> Read:
        """Whether a choice is one of some words, or none of them."""
        exact, inner = super().one_of(node), self.read(node.read)

        def read(evaluation: Any, item: int) -> Value:
            value = inner(evaluation, item)
            if value.__class__ is not Possible:
                return exact(evaluation, item)
            held = {word in node.values for word in value.words}
            if value.low is not None:
                held |= TRUTHS
            words = frozenset(each is not node.negated for each in held)
            return settled(Possible(None, None, words, False, value.missing, value.of))

        return read

    def negation(self, node: tree.Negation) -> Read:
        """A condition turned round."""
        inner = self.read(node.inner)
        return lambda evaluation, item: turned(inner(evaluation, item))

    def joined(self, node: tree.Joined) -> Read:
        """Conditions with `and` or `or`; one that settles the whole does so whatever is unknown."""
        parts, settles = tuple(self.read(part) for part in node.parts), node.word == "or"
        return lambda evaluation, item: any_of((part(evaluation, item) for part in parts), settles)

    def asked(self, node: tree.Asked) -> Read:
        """Whether a value is known."""
        inner = self.read(node.read)

        def read(evaluation: Any, item: int) -> Value:
            value = inner(evaluation, item)
            if value.__class__ is not Possible or value.missing is None:
                return value.__class__ is not Unknown
            return Possible(None, None, TRUTHS, of=value.of)

        return read

    def picked(self, node: tree.Picked) -> Read:
        """The larger or smaller of amounts."""
        exact, arguments = super().picked(node), tuple(self.read(argument) for argument in node.arguments)
        pick: Callable[[list[Any]], Any] = max if node.function == "larger" else min

        def read(evaluation: Any, item: int) -> Value:
            values = [argument(evaluation, item) for argument in arguments]
            if not any(value.__class__ is Possible for value in values):
                return exact(evaluation, item)
            parts = [possible(value) for value in values]
            made = formula(parts)
            if made.words:
                made.words, made.low, made.high = NOTHING, pick([each.low for each in parts]), pick([each.high for each in parts])
            return settled(made)

        return read

    def rounded(self, node: tree.Rounded) -> Read:
        """An amount rounded to a step; steps that are not settled move it by no more than the largest."""
        exact, amount, step = super().rounded(node), self.read(node.amount), self.read(node.step)
        up = node.function == "round_up"

        def read(evaluation: Any, item: int) -> Value:
            values = [amount(evaluation, item), step(evaluation, item)]
            if not any(value.__class__ is Possible for value in values):
                return exact(evaluation, item)
            parts = [possible(value) for value in values]
            made = formula(parts)
            if made.words:
                made.words, (of, by) = NOTHING, parts
                if by.low == by.high != 0:
                    made.low, made.high = sorted((rounded(of.low, by.low, up), rounded(of.high, by.low, up)))
                else:
                    most = 2 * max(abs(by.low), abs(by.high))
                    made.low, made.high = of.low - most, of.high + most
                    made.missing = both_missing(made.missing, Unknown(refusals=["a rounding to steps of nothing"]))
            return settled(made)

        return read

    def lookup(self, node: tree.Lookup) -> Read:
        """The cell of a table for its keys; where several rows may hold the key, that is noted."""
        exact, keys = super().lookup(node), tuple(self.read(each) for each in node.keys)

        def read(evaluation: Any, item: int) -> Value:
            values = [each(evaluation, item) for each in keys]
            if not any(value.__class__ is Possible for value in values):
                return exact(evaluation, item)
            return looked_up(evaluation, node, values, lambda *found: evaluation.note(Undecided(read, item, *found)))

        return read

    def first_row(self, node: tree.FirstRow) -> Read:
        """The first row of a table that is at least an amount."""
        exact, keys = super().first_row(node), tuple(self.read(each) for each in (node.amount, *node.keys))

        def read(evaluation: Any, item: int) -> Value:
            values = [each(evaluation, item) for each in keys]
            if not any(value.__class__ is Possible for value in values):
                return exact(evaluation, item)
            return first_rows(evaluation, node, values)

        return read


class BoundsLinePlan(LinePlan):
    """Turns a line into a function that computes what its value may be, and keeps it."""

    def runner(self) -> Read:
        """The line's function."""
        way, position = self.way(), self.line.position
        applies = self.trees.read(self.line.applies) if self.line.applies is not None else None

        def run(evaluation: BoundsEvaluation, item: int) -> Value:
            asked = True if applies is None else applies(evaluation, item)
            if asked.__class__ is Possible:
                parts = [way(evaluation, item)] if True in asked.words else []
                parts += [NOT_APPLICABLE] if False in asked.words else []
                value = hull([*parts, Possible(None, None, NOTHING, asked.absent, asked.missing, asked.of)])
            else:
                value = way(evaluation, item) if asked is True else NOT_APPLICABLE if asked is False else asked
            evaluation.cells[position][item] = value
            return value

        return run  # type: ignore[return-value]

    def cases(self) -> Read:
        """The case that holds, or all those that may hold; that they exclude each other is proved when rules are checked."""
        exact = super().cases()
        cases = [
            (None if case.when is None else self.trees.read(case.when), self.trees.read(case.then)) for case in self.line.cases
        ]

        def run(evaluation: BoundsEvaluation, item: int) -> Value:
            outcomes = [True if when is None else when(evaluation, item) for when, _ in cases]
            if not any(outcome.__class__ is Possible for outcome in outcomes):
                return exact(evaluation, item)
            held = [outcome is True and when is not None for outcome, (when, _) in zip(outcomes, cases, strict=True)]
            made = Possible()
            if not any(held):
                for outcome in outcomes:
                    found = possible(outcome)
                    made.missing, made.of = both_missing(made.missing, found.missing), made.of | found.of
                held = [True in possible(outcome).words for outcome in outcomes]
            else:
                made.of = frozenset(each for outcome in outcomes for each in possible(outcome).of)
            return hull([made, *(then(evaluation, item) for (_, then), one in zip(cases, held, strict=True) if one)])

        return run  # type: ignore[return-value]

    def tiers(self, of: tree.Tree) -> Read:
        """The portions of a quantity, each at its share: each goes one way with the quantity, so its ends are its bounds."""
        quantity, phrases = self.trees.read(of), self.line.phrases

        def run(evaluation: BoundsEvaluation, item: int) -> Value:
            value = quantity(evaluation, item)
            if value.__class__ is not Possible:
                return tiers.total(value, phrases) if value.__class__ is float else value
            made = Possible(None, None, NOTHING, value.absent, value.missing, value.of)
            if value.low is not None:
                made.low = made.high = 0.0
                for low, high in zip(tiers.portions(value.low, phrases), tiers.portions(value.high, phrases), strict=True):
                    made.low += min(low.value, high.value)
                    made.high += max(low.value, high.value)
            return settled(made)

        return run  # type: ignore[return-value]

    def parts(self) -> Read:
        """Parts added, or the largest or least of them."""
        parts, combine = tuple(self.trees.read(part) for part in self.line.parts), COMBINED[self.line.source.way]
        return lambda evaluation, item: combine([possible(part(evaluation, item)) for part in parts])


class BoundsPlan(Plan):
    """The plan of a rule set for the walk on bounds."""

    trees = BoundsTreePlan
    line_plan = BoundsLinePlan
