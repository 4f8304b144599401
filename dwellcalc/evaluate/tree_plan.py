"""Turns checked trees into functions, for one level and line.

A function takes the evaluation and the position of the item that it is asked for, and returns a float, a bool, a word,
the place of a value on its scale, ``NOT_APPLICABLE`` or an ``Unknown``. Nothing is rearranged.
"""

from __future__ import annotations

import operator
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from dwellcalc.evaluate.gathering import UNSET, Read, Value, count, divided, every, largest, mean, rounded, special, sum_column
from dwellcalc.facts import Unknown
from dwellcalc.language import tree
from dwellcalc.language.levels import owners_of
from dwellcalc.language.tree import HOME
from dwellcalc.units import share

if TYPE_CHECKING:
    from dwellcalc.evaluate.plan import Plan
    from dwellcalc.evaluate.traced import Evaluation

GATHERED = {"sum": sum_column, "mean": mean, "largest": largest, "every": every}
_COMPARE: dict[str, Callable[[Any, Any], Any]] = {
    ">=": operator.ge,
    "<=": operator.le,
    ">": operator.gt,
    "<": operator.lt,
    "=": operator.eq,
}


class TreePlan:
    """Turns trees into functions for one level and line."""

    def __init__(self, plan: Plan, level: str, per: str, position: int) -> None:
        self.plan = plan
        self.level = level
        self.per = per
        self.position = position

    def read(self, node: tree.Tree) -> Read:
        """The function of a tree."""
        makers: dict[type, Callable[[Any], Read]] = {
            tree.Constant: self.constant,
            tree.ReadChoice: self.choice,
            tree.ReadGiven: self.given,
            tree.ReadObject: self.object,
            tree.ReadField: self.field,
            tree.ReadLine: self.line,
            tree.Gather: self.gather,
            tree.Arithmetic: self.arithmetic,
            tree.Comparison: self.comparison,
            tree.OneOf: self.one_of,
            tree.Negation: self.negation,
            tree.Joined: self.joined,
            tree.Asked: self.asked,
            tree.Picked: self.picked,
            tree.Rounded: self.rounded,
            tree.Lookup: self.lookup,
            tree.FirstRow: self.first_row,
        }
        return makers[type(node)](node)

    def constant(self, node: tree.Constant) -> Read:
        """A constant."""
        value = node.value
        return lambda evaluation, item: value

    def choice(self, node: tree.ReadChoice) -> Read:
        """The option taken of an interpretation."""
        address = node.address

        def read(evaluation: Evaluation, item: int) -> Value:
            evaluation.read_choices.add(address)
            return evaluation.choices[address]

        return read

    def given(self, node: tree.ReadGiven) -> Read:
        """A value that the assessment hands over."""
        name = node.name
        return lambda evaluation, item: evaluation.given_value(name)

    def object(self, node: tree.ReadObject) -> Read:
        """A field of an object."""
        owner, field = node.owner, node.field
        return lambda evaluation, item: evaluation.objects[owner][field]

    def field(self, node: tree.ReadField) -> Read:
        """A field of the item, or of what it belongs to."""
        place = self.plan.column(node.level, node.field)
        if node.level == self.level:
            return lambda evaluation, item: evaluation.columns[place][item]
        hop = self.hop(node.level)
        return lambda evaluation, item: evaluation.columns[place][hop(evaluation, item)]

    def hop(self, level: str) -> Callable[[Evaluation, int], int]:
        """From an item here to what it belongs to at another level."""
        if level == HOME:
            return lambda evaluation, item: 0
        path = owners_of(self.plan.glossary, self.per, self.level)
        if level not in path:
            raise LookupError(f"{level} from {self.level}")
        here = self.level
        return lambda evaluation, item: evaluation.owner(here, level, item)

    def line(self, node: tree.ReadLine) -> Read:
        """Another line's value, evaluated when first asked for."""
        if node.run is not None:
            return self.run_line(node.run, node.line.position)
        position, runners = node.line.position, self.plan_runners()
        if node.line.level == self.level:

            def read(evaluation: Evaluation, item: int) -> Value:
                value = evaluation.cells[position][item]
                return runners[position](evaluation, item) if value is UNSET else value

            return read
        hop = self.hop(node.line.level)

        def read_owner(evaluation: Evaluation, item: int) -> Value:
            at = hop(evaluation, item)
            value = evaluation.cells[position][at]
            return runners[position](evaluation, at) if value is UNSET else value

        return read_owner

    def plan_runners(self) -> Any:
        """The list of runners; it is filled after this function is made, so it is looked up late."""
        return _Late(self.plan)

    def run_line(self, run: tree.CheckedRun, position: int) -> Read:
        """A line of the method that a run evaluates."""
        return lambda evaluation, item: evaluation.run(run).value(position, 0)

    def gather(self, node: tree.Gather) -> Read:
        """A gathering word over a group."""
        place = self.plan.place(node.group)
        level = self.level
        if node.column is None:
            return lambda evaluation, item: count(evaluation, place, level, item)
        column = TreePlan(self.plan, node.group.collection, self.per, self.position).read(node.column)
        gathered = GATHERED[node.function]
        return lambda evaluation, item: gathered(evaluation, place, level, item, column)

    def arithmetic(self, node: tree.Arithmetic) -> Read:
        """Two amounts with + - * or /; a percent is applied to the other side."""
        left, right = self.read(node.left), self.read(node.right)
        if node.percent == "left":
            return lambda evaluation, item: share(right(evaluation, item), left(evaluation, item))
        if node.percent == "right":
            return lambda evaluation, item: share(left(evaluation, item), right(evaluation, item))
        if node.sign == "+":
            return lambda evaluation, item: left(evaluation, item) + right(evaluation, item)
        if node.sign == "-":
            return lambda evaluation, item: left(evaluation, item) - right(evaluation, item)
        if node.sign == "*":
            return lambda evaluation, item: left(evaluation, item) * right(evaluation, item)
        return lambda evaluation, item: divided(left(evaluation, item), right(evaluation, item))

    def comparison(self, node: tree.Comparison) -> Read:
        """Two values compared."""
        left, right, compare = self.read(node.left), self.read(node.right), _COMPARE[node.sign]
        return lambda evaluation, item: compare(left(evaluation, item), right(evaluation, item))

    def one_of(self, node: tree.OneOf) -> Read:
        """Whether a choice is one of some words, or none of them."""
        inner, values, negated = self.read(node.read), node.values, node.negated

        def read(evaluation: Evaluation, item: int) -> Value:
            value = inner(evaluation, item)
            if value.__class__ is Unknown:
                return value
            return (value in values) is not negated

        return read

    def negation(self, node: tree.Negation) -> Read:
        """A condition turned round."""
        inner = self.read(node.inner)

        def read(evaluation: Evaluation, item: int) -> Value:
            value = inner(evaluation, item)
            return value if value.__class__ is Unknown else not value

        return read

    def joined(self, node: tree.Joined) -> Read:
        """Conditions with `and` or `or`; one that settles the whole does so whatever is unknown."""
        parts = tuple(self.read(part) for part in node.parts)
        settles = node.word == "or"

        def read(evaluation: Evaluation, item: int) -> Value:
            missing: Unknown | None = None
            for part in parts:
                value = part(evaluation, item)
                if value is settles:
                    return settles
                if value.__class__ is Unknown:
                    missing = value if missing is None else missing.joined(value)
            return not settles if missing is None else missing

        return read

    def asked(self, node: tree.Asked) -> Read:
        """Whether a value is known."""
        inner = self.read(node.read)
        return lambda evaluation, item: inner(evaluation, item).__class__ is not Unknown

    def picked(self, node: tree.Picked) -> Read:
        """The larger or smaller of amounts."""
        arguments = tuple(self.read(argument) for argument in node.arguments)
        larger = node.function == "larger"

        def read(evaluation: Evaluation, item: int) -> Value:
            values = [argument(evaluation, item) for argument in arguments]
            gap = special(values)
            if gap is not None:
                return gap
            return max(values) if larger else min(values)

        return read

    def rounded(self, node: tree.Rounded) -> Read:
        """An amount rounded to a step."""
        amount, step = self.read(node.amount), self.read(node.step)
        up = node.function == "round_up"

        def read(evaluation: Evaluation, item: int) -> Value:
            values = [amount(evaluation, item), step(evaluation, item)]
            gap = special(values)
            if gap is not None:
                return gap
            if values[1] == 0:
                return Unknown(refusals=["a rounding to steps of nothing"])
            return rounded(values[0], values[1], up)

        return read

    def lookup(self, node: tree.Lookup) -> Read:
        """The cell of a table for its keys."""
        keys = tuple(self.read(each) for each in node.keys)
        table, position = node.table, self.position
        fixed = list(table.columns).index(node.column) if node.column else -1
        choice = self.plan.glossary.words(table.row_kind) if table.row_kind.form == "choice" else ()

        def read(evaluation: Evaluation, item: int) -> Value:
            values = [each(evaluation, item) for each in keys]
            gap = special(values)
            if gap is not None:
                return gap
            key = choice.index(values[0]) if choice else values[0]
            row = table.row_for(key)
            column = fixed if fixed >= 0 else table.column_places.get(tuple(values[1:]), -1)
            if row is None or column < 0:
                return evaluation.refused(node, values)
            cell = row.cells[column]
            if cell.value is None and cell.formula is None:
                return evaluation.refused(node, values)
            value = table.cell_value(cell, key, column)
            evaluation.used_row(position, item, node, row, column, values)
            return value

        return read

    def first_row(self, node: tree.FirstRow) -> Read:
        """The first row of a table that is at least an amount, or the last that is at most that."""
        amount, keys = self.read(node.amount), tuple(self.read(each) for each in node.keys)
        table, position = node.table, self.position
        fixed = list(table.columns).index(node.column) if node.column else -1
        upward = node.function == "first_row_at_least"
        rows = table.rows if upward else table.rows[::-1]

        def read(evaluation: Evaluation, item: int) -> Value:
            values = [amount(evaluation, item), *(each(evaluation, item) for each in keys)]
            gap = special(values)
            if gap is not None:
                return gap
            column = fixed if not keys else table.column_places.get(tuple(values[1:]), -1)
            for row in rows:
                found = row.low if column < 0 else row.cells[column].value
                if found is not None and (found >= values[0] if upward else found <= values[0]):
                    evaluation.used_row(position, item, node, row, column, values)
                    return int(row.low) if table.row_kind.form == "scale" else row.low
            return evaluation.refused(node, values)

        return read


class _Late:
    """The runners of a plan, looked up when they are called."""

    __slots__ = ("plan",)

    def __init__(self, plan: Plan) -> None:
        self.plan = plan

    def __getitem__(self, position: int) -> Read:
        return self.plan.runners[position]
