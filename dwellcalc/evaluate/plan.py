"""The plan of a rule set: every checked tree as a small function, prepared once, and the places of all values.

A function takes the evaluation and the position of the item that it is asked for, and returns a float, a bool, a word,
the place of a value on its scale, ``NOT_APPLICABLE`` or an ``Unknown``. Items are added in file order from 0.0 by an
ordinary loop, each weight times value; nothing is rearranged: other walks of the same trees must agree bit for bit.
"""

from __future__ import annotations

import math
import operator
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from dwellcalc.evaluate import printed, tiers
from dwellcalc.facts import NOT_APPLICABLE, NotApplicable, Unknown
from dwellcalc.language import tree
from dwellcalc.language.documents import QUOTED, Document
from dwellcalc.language.kinds import owners_of
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import HOME, CheckedGroup, CheckedLine, CheckedMethod, ReadLine, trees_of, walk
from dwellcalc.reading import Text
from dwellcalc.units import share

if TYPE_CHECKING:
    from dwellcalc.evaluate.traced import Evaluation

Value = Any
Read = Callable[["Evaluation", int], Value]

_COMPARE: dict[str, Callable[[Any, Any], Any]] = {
    ">=": operator.ge,
    "<=": operator.le,
    ">": operator.gt,
    "<": operator.lt,
    "=": operator.eq,
}
UNSET = object()


class Plan:
    """Prepared functions for every line, group and condition of use of a rule set.

    Attributes:
        levels: the level of each line, by position.
        runners: each line's function, by position.
        columns: the (collection, field) pairs that are read, by place.
        groups: every group, by place; ``deciders`` decide their members.
    """

    def __init__(self, rules: RuleSet) -> None:
        self.rules = rules
        self.glossary = rules.glossary
        self.lines: list[CheckedLine] = sorted(
            (line for method in rules.methods.values() for line in method.lines.values()), key=lambda line: line.position
        )
        self.levels = [line.level for line in self.lines]
        self.columns: dict[tuple[str, str], int] = {}
        self.places: dict[int, int] = {}
        self.groups: list[CheckedGroup] = []
        self.conditions: list[Read | None] = []
        self.sheets: dict[str, list[CheckedLine]] = {}
        self.texts: dict[int, str] = {}
        self.formula_parts: dict[int, Any] = {}
        self.readers: dict[tuple[int, str], Read] = {}
        self.per = {name: method.level for name, method in rules.methods.items()}
        self.runners = [_LinePlan(self, line).runner() for line in self.lines]
        self.permitted = {
            name: [_TreePlan(self, method.level, method.level, -1).read(condition.require) for condition in method.permitted]
            for name, method in rules.methods.items()
        }
        for method in rules.methods.values():
            for _, group in method.left_out:
                self.place(group)
            if method.counts is not None:
                self.place(method.counts)

    def reader(self, node: tree.Tree, level: str, per: str) -> Read:
        """The function of a tree as it stands at a level, for reading what is kept; made once."""
        key = (id(node), level)
        found = self.readers.get(key)
        if found is None:
            found = self.readers[key] = _TreePlan(self, level, per, -1).read(node)
        return found

    def peek(self, node: tree.Tree, line: CheckedLine, evaluation: Evaluation, item: int, level: str = "") -> Value:
        """A value that a formula read, or ``UNSET`` where it was never asked for."""
        here, per = level or line.level, self.per[line.method]
        if isinstance(node, tree.ReadLine) and not node.run:
            at = item
            if node.line.level != here:
                at = 0 if node.line.level == HOME else evaluation.owner(here, node.line.level, item)
            return evaluation.cells[node.line.position][at]
        return self.reader(node, here, per)(evaluation, item)

    def printed_lines(self, method: CheckedMethod) -> list[CheckedLine]:
        """The lines on a method's sheet: its own in order, then those of other methods that they read."""
        found = self.sheets.get(method.name)
        if found is None:
            own = list(method.lines.values())
            read = _read_by(own)
            found = self.sheets[method.name] = own + [line for line in self.lines if line.method != method.name and line in read]
        return found

    def filled(self, text: Text, document: Document) -> str:
        """A text of a document with the parameters that it quotes."""
        found = self.texts.get(id(text))
        if found is None:
            shown = {}
            for match in QUOTED.finditer(text):
                value, kind = self.glossary.units.quantity(self.parameter(match[1], document))
                shown[match[1]] = printed.quantity(value, kind, self.glossary)
            found = self.texts[id(text)] = printed.filled(str(text), shown)
        return found

    def parameter(self, name: str, document: Document) -> str:
        """The value of a parameter, as written, by the name that a document gives it."""
        if "." in name:
            other, _, name = name.partition(".")
            return str(self.rules.documents[other].parameters[name].value)
        seen = (document, *(self.rules.documents[used] for used in document.uses))
        return next(str(each.parameters[name].value) for each in seen if name in each.parameters)

    def column(self, collection: str, field: str) -> int:
        """The place of a column that is read."""
        return self.columns.setdefault((collection, field), len(self.columns))

    def place(self, group: CheckedGroup) -> int:
        """The place of a group; its condition is prepared when it is first met."""
        found = self.places.get(id(group))
        if found is None:
            for other in (*group.bases, *group.excepted):
                self.place(other)
            found = self.places[id(group)] = len(self.groups)
            self.groups.append(group)
            self.conditions.append(None)
            if group.condition is not None:
                planner = _TreePlan(self, group.collection, self.per[group.method], -1)
                self.conditions[found] = planner.read(group.condition)
        return found


class _TreePlan:
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
        value = node.value
        return lambda evaluation, item: value

    def choice(self, node: tree.ReadChoice) -> Read:
        address = node.address

        def read(evaluation: Evaluation, item: int) -> Value:
            evaluation.read_choices.add(address)
            return evaluation.choices[address]

        return read

    def given(self, node: tree.ReadGiven) -> Read:
        name = node.name
        return lambda evaluation, item: evaluation.given_value(name)

    def object(self, node: tree.ReadObject) -> Read:
        owner, field = node.owner, node.field
        return lambda evaluation, item: evaluation.objects[owner][field]

    def field(self, node: tree.ReadField) -> Read:
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
        if node.run:
            return self.run_line(node)
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

    def run_line(self, node: tree.ReadLine) -> Read:
        method, run, position = self.plan.lines[self.position].method, node.run, node.line.position
        return lambda evaluation, item: evaluation.run(method, run).value(position, 0)

    def gather(self, node: tree.Gather) -> Read:
        place = self.plan.place(node.group)
        level = self.level
        if node.column is None:
            return lambda evaluation, item: _count(evaluation, place, level, item)
        column = _TreePlan(self.plan, node.group.collection, self.per, self.position).read(node.column)
        gathered = {"sum": _sum, "mean": _mean, "largest": _largest, "every": _every}[node.function]
        return lambda evaluation, item: gathered(evaluation, place, level, item, column)

    def arithmetic(self, node: tree.Arithmetic) -> Read:
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
        return lambda evaluation, item: _divided(left(evaluation, item), right(evaluation, item))

    def comparison(self, node: tree.Comparison) -> Read:
        left, right, compare = self.read(node.left), self.read(node.right), _COMPARE[node.sign]
        return lambda evaluation, item: compare(left(evaluation, item), right(evaluation, item))

    def one_of(self, node: tree.OneOf) -> Read:
        inner, values, negated = self.read(node.read), node.values, node.negated

        def read(evaluation: Evaluation, item: int) -> Value:
            value = inner(evaluation, item)
            if value.__class__ is Unknown:
                return value
            return (value in values) is not negated

        return read

    def negation(self, node: tree.Negation) -> Read:
        inner = self.read(node.inner)

        def read(evaluation: Evaluation, item: int) -> Value:
            value = inner(evaluation, item)
            return value if value.__class__ is Unknown else not value

        return read

    def joined(self, node: tree.Joined) -> Read:
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
        inner = self.read(node.read)
        return lambda evaluation, item: inner(evaluation, item).__class__ is not Unknown

    def picked(self, node: tree.Picked) -> Read:
        arguments = tuple(self.read(argument) for argument in node.arguments)
        larger = node.function == "larger"

        def read(evaluation: Evaluation, item: int) -> Value:
            values = [argument(evaluation, item) for argument in arguments]
            special = _special(values)
            if special is not None:
                return special
            return max(values) if larger else min(values)

        return read

    def rounded(self, node: tree.Rounded) -> Read:
        amount, step = self.read(node.amount), self.read(node.step)
        up = node.function == "round_up"

        def read(evaluation: Evaluation, item: int) -> Value:
            values = [amount(evaluation, item), step(evaluation, item)]
            special = _special(values)
            if special is not None:
                return special
            return rounded(values[0], values[1], up)

        return read

    def lookup(self, node: tree.Lookup) -> Read:
        keys = tuple(self.read(each) for each in node.keys)
        table, position = node.table, self.position
        fixed = list(table.columns).index(node.column) if node.column else -1
        choice = self.plan.glossary.words(table.row_kind) if table.row_kind.form == "choice" else ()

        def read(evaluation: Evaluation, item: int) -> Value:
            values = [each(evaluation, item) for each in keys]
            special = _special(values)
            if special is not None:
                return special
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
        amount, keys = self.read(node.amount), tuple(self.read(each) for each in node.keys)
        table, position = node.table, self.position
        fixed = list(table.columns).index(node.column) if node.column else -1

        def read(evaluation: Evaluation, item: int) -> Value:
            values = [amount(evaluation, item), *(each(evaluation, item) for each in keys)]
            special = _special(values)
            if special is not None:
                return special
            column = fixed if not keys else table.column_places.get(tuple(values[1:]), -1)
            for row in table.rows:
                found = row.low if column < 0 else row.cells[column].value
                if found is not None and found >= values[0]:
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


class _LinePlan:
    """Turns a line into a function that computes its value and keeps it."""

    def __init__(self, plan: Plan, line: CheckedLine) -> None:
        self.plan = plan
        self.line = line
        self.trees = _TreePlan(plan, line.level, plan.per[line.method], line.position)
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
        line = self.line
        if line.value is not None:
            return self.trees.read(line.value)
        if line.cases:
            return self.cases()
        if line.of is not None:
            return self.tiers(line.of)
        return self.parts()

    def cases(self) -> Read:
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
        quantity, phrases = self.trees.read(of), self.line.phrases

        def run(evaluation: Evaluation, item: int) -> Value:
            value = quantity(evaluation, item)
            return tiers.total(value, phrases) if value.__class__ is float else value

        return run

    def parts(self) -> Read:
        parts = tuple(self.trees.read(part) for part in self.line.parts)
        combine = {"sum_of": _sum_of, "largest_of": _largest_of, "least_of": _least_of}[self.line.source.way]

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


def _sum_of(values: list[float]) -> float:
    whole = 0.0
    for value in values:
        whole += value
    return whole


def _largest_of(values: list[float]) -> float:
    return max(values)


def _least_of(values: list[float]) -> float:
    return min(values)


def _special(values: list[Value]) -> Value:
    """Not applicable where any value is; else all that is unknown; else nothing."""
    missing: Unknown | None = None
    for value in values:
        if value.__class__ is NotApplicable:
            return value
        if value.__class__ is Unknown:
            missing = value if missing is None else missing.joined(value)
    return missing


def _divided(left: Value, right: Value) -> Value:
    if right.__class__ is float and right == 0:
        return left if left.__class__ is not float else Unknown(refusals=["a division by zero"])
    return left / right


def rounded(value: float, step: float, up: bool) -> float:
    """An amount rounded to a step: up, or to the nearest with a half going up."""
    if up:
        return math.ceil(value / step) * step
    return math.floor((2 * value / step + 1) / 2) * step


def _count(evaluation: Evaluation, place: int, level: str, item: int) -> Value:
    found, missing = evaluation.gathered(place, level, item)
    if missing is not None:
        return missing
    whole = 0.0
    for _, weight in found:
        whole += weight
    return whole


def _sum(evaluation: Evaluation, place: int, level: str, item: int, column: Read) -> Value:
    found, missing = evaluation.gathered(place, level, item)
    whole = 0.0
    applicable = not found
    for member, weight in found:
        value = column(evaluation, member)
        if value.__class__ is float:
            whole += weight * value
            applicable = True
        elif value.__class__ is Unknown:
            missing = value if missing is None else missing.joined(value)
    if missing is not None:
        return missing
    return whole if applicable else NOT_APPLICABLE


def _values(
    evaluation: Evaluation, place: int, level: str, item: int, column: Read
) -> tuple[list[tuple[float, Value]], Unknown | None]:
    found, missing = evaluation.gathered(place, level, item)
    values = []
    for member, weight in found:
        value = column(evaluation, member)
        if value.__class__ is Unknown:
            missing = value if missing is None else missing.joined(value)
        elif value is not NOT_APPLICABLE:
            values.append((weight, value))
    return values, missing


def _mean(evaluation: Evaluation, place: int, level: str, item: int, column: Read) -> Value:
    values, missing = _values(evaluation, place, level, item, column)
    if missing is not None:
        return missing
    whole = count = 0.0
    for weight, value in values:
        whole += weight * value
        count += weight
    return whole / count if count else NOT_APPLICABLE


def _largest(evaluation: Evaluation, place: int, level: str, item: int, column: Read) -> Value:
    values, missing = _values(evaluation, place, level, item, column)
    if missing is not None:
        return missing
    return max((value for _, value in values), default=NOT_APPLICABLE)


def _every(evaluation: Evaluation, place: int, level: str, item: int, column: Read) -> Value:
    values, missing = _values(evaluation, place, level, item, column)
    if any(value is False for _, value in values):
        return False
    return True if missing is None else missing


def _read_by(lines: list[CheckedLine]) -> set[CheckedLine]:
    """Every line that these lines read, directly or through others, runs aside."""
    seen: set[CheckedLine] = set()
    waiting = list(lines)
    while waiting:
        for whole in trees_of(waiting.pop()):
            for node in walk(whole):
                if isinstance(node, ReadLine) and not node.run and node.line not in seen:
                    seen.add(node.line)
                    waiting.append(node.line)
    return seen
