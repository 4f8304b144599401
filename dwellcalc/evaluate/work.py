"""A formula with the numbers that went in: operands by name, members of what it gathers, table rows it rests on."""

from __future__ import annotations

from typing import Any

from dwellcalc.evaluate import printed
from dwellcalc.evaluate.formula_parts import FormulaParts, parts_of
from dwellcalc.evaluate.gathering import UNSET
from dwellcalc.evaluate.sheet import KNOWN, NOT_APPLICABLE, NOT_NEEDED, UNKNOWN, Gathered, Input, Member, RowUsed, Worked
from dwellcalc.evaluate.traced import Evaluation, UsedRow
from dwellcalc.facts import NotApplicable, Unknown
from dwellcalc.glossary import ValueKind
from dwellcalc.language import tree
from dwellcalc.language.formulas import Tree
from dwellcalc.language.tables import Table
from dwellcalc.language.tree import CheckedLine
from dwellcalc.language.words import GATHERING, LOOKUP
from dwellcalc.placed import Text, spaced

YES, NO = "yes", "no"
UNREAD = "(not needed)"  # stands for what a formula names and did not need


def state_of(value: Any) -> str:
    """The state of a value: known, not applicable, unknown, or not needed."""
    if value is UNSET:
        return NOT_NEEDED
    if isinstance(value, Unknown):
        return UNKNOWN
    return NOT_APPLICABLE if isinstance(value, NotApplicable) else KNOWN


class Worker:
    """Shows formulas of one evaluation with their numbers.

    Attributes:
        parameters: the addresses of the parameters that the shown formulas read.
        tables: the tables whose rows they rest on.
    """

    def __init__(self, evaluation: Evaluation) -> None:
        self.evaluation = evaluation
        self.rules = evaluation.plan.rules
        self.glossary = self.rules.glossary
        self.facts = evaluation.facts
        self.parameters: dict[str, None] = {}
        self.tables: dict[int, Table] = {}

    def plain(self, value: Any, kind: ValueKind) -> Any:
        """A value as plain data: a number, yes or no, or a word."""
        return printed.word(value, kind, self.glossary) if kind.form in ("choice", "scale") else value

    def unit(self, kind: ValueKind) -> str:
        """The unit of a kind, or what it is instead."""
        return self.glossary.units.printed(kind.unit) if kind.form == "quantity" else self.glossary.printed_kind(kind)

    def work(self, text: Text, syntax: Tree, checked: tree.Tree, line: CheckedLine, item: int) -> Worked:
        """A formula with the numbers that went in."""
        parts = self.parts(text, syntax, checked)
        inputs: dict[str, Input] = {}
        for read in parts.reads:
            value = self.evaluation.plan.peek(read, line, self.evaluation, item)
            if value is UNSET:
                continue
            if isinstance(read, tree.Constant) and read.address:
                self.parameters[read.address] = None
            inputs.setdefault(read.name, self.input(read, value))
        members = {node.call: self.gathered(node, line, item) for node in parts.gathers if self.was_gathered(node, line, item)}
        rows = {}
        for used in self.evaluation.rows.get((line.position, item), ()):
            if used.node.call in parts.lookups:
                rows[used.node.call] = self.row(used)
        return Worked(
            str(text),
            self.with_numbers(text, parts, inputs, members, rows),
            list(inputs.values()),
            list(members.values()),
            list(rows.values()),
        )

    def input(self, read: Any, value: Any) -> Input:
        """A value that a formula reads, as the sheet has it."""
        if isinstance(read, tree.ReadChoice):
            return Input(read.name, KNOWN, value, "choice", spaced(value))
        state = state_of(value)
        position = value if read.kind.form == "scale" and state == KNOWN else None
        shown = self.plain(value, read.kind) if state == KNOWN else None
        text = printed.value(value, read.kind, self.glossary)
        return Input(read.name, state, shown, self.unit(read.kind), text, self.line_of(read), position)

    def line_of(self, read: Any) -> str:
        """The printed line that a formula reads, by its id on the sheets; an empty string where it reads none."""
        if not isinstance(read, tree.ReadLine):
            return ""
        owner = self.evaluation if read.run is None else self.evaluation.runs[read.run]
        return owner.printed_id(read.line)

    def was_gathered(self, node: tree.Gather, line: CheckedLine, item: int) -> bool:
        """Whether a gathering was evaluated for an item."""
        place = self.evaluation.plan.places[id(node.group)]
        return (place, line.level, item) in self.evaluation.gatherings

    def gathered(self, node: tree.Gather, line: CheckedLine, item: int) -> Gathered:
        """The members of a gathering with their values."""
        place = self.evaluation.plan.places[id(node.group)]
        found, _ = self.evaluation.gathered(place, line.level, item)
        names = self.facts.collections[node.group.collection].names
        undecided = self.evaluation.undecided(place, line.level, item)
        made = Gathered(node.call, undecided=[names[each] for each in undecided])
        for each, weight in found:
            name = names[each]
            if node.column is None:
                made.items.append(Member(name, KNOWN, weight))
                continue
            value = self.evaluation.plan.peek(node.column, line, self.evaluation, each, node.group.collection)
            shown = self.plain(value, node.column.kind) if state_of(value) == KNOWN else None
            made.items.append(Member(name, state_of(value), weight, shown, self.unit(node.column.kind)))
        return made

    def row(self, used: UsedRow) -> RowUsed:
        """A row of a table that was used, with its keys."""
        node, table = used.node, used.node.table
        self.tables[id(table)] = table
        kinds = [node.amount.kind if isinstance(node, tree.FirstRow) else table.row_kind, *table.column_keys.values()]
        keys = [self.plain(key, kind) for key, kind in zip(used.keys, kinds, strict=True)]
        cell = used.row.cells[used.column] if used.column >= 0 else None
        value: Any = used.row.low
        made = RowUsed(
            node.call,
            node.function if isinstance(node, tree.FirstRow) else "table",
            str(table.title),
            self.rules.section(str(table.cite)),
            keys,
            str(used.row.label),
            str(cell.text) if cell is not None else str(used.row.label),
            table.row_key,
            None,
            self.unit(node.kind),
        )
        shown = (printed.value(key, kind, self.glossary) for key, kind in zip(used.keys, kinds, strict=True))
        made.keys_printed = ", ".join(shown)
        if isinstance(node, tree.FirstRow):
            at = table.rows.index(used.row)
            nearer = table.rows[:at] if node.function == "first_row_at_least" else table.rows[:at:-1]
            passed = [row.cells[used.column].value if used.column >= 0 else row.low for row in nearer]
            made.needed = used.keys[0]
            made.cell_amount = cell.value if cell is not None else used.row.low
            made.before = passed[-1] if passed else None
            made.value = self.plain(int(value), table.row_kind) if table.row_kind.form == "scale" else value
        else:
            assert cell is not None
            key = used.keys[0]
            if table.row_kind.form == "choice":
                key = self.glossary.words(table.row_kind).index(key)
            made.value = self.plain(table.cell_value(cell, key, used.column), node.kind)
            made.factor = table.factors[used.column]
        return made

    def parts(self, text: Text, syntax: Tree, checked: tree.Tree) -> FormulaParts:
        """The parts of a formula, found once for a plan."""
        found = self.evaluation.plan.formula_parts.get(id(checked))
        if found is None:
            found = self.evaluation.plan.formula_parts[id(checked)] = parts_of(text, syntax, checked)
        return found

    def with_numbers(
        self,
        text: Text,
        parts: FormulaParts,
        inputs: dict[str, Input],
        members: dict[str, Gathered],
        rows: dict[str, RowUsed],
    ) -> str:
        """The formula with every name, gathering and table replaced by what it stood for; what was not looked up keeps its table."""
        spans: list[tuple[int, int, str]] = []
        tables: set[int] = set()
        for start, end, function, call in parts.calls:
            if any(first <= start < last for first, last, _ in spans):
                continue
            if call in members:
                spans.append((start, end, self.members_shown(function, members[call])))
            elif call in rows:
                used = rows[call]
                value = printed.number(used.value) if isinstance(used.value, float) else str(used.value)
                spans.append((start, end, f"{value} {self.unit_shown(used.unit)}".strip()))
            elif function in GATHERING:
                spans.append((start, end, UNREAD))
            elif function in LOOKUP:
                tables.add(start + len(f"{function}("))
        for name in parts.names:
            inside = any(start <= name.start < end for start, end, _ in spans)
            if not inside:
                read = inputs[name.text].printed if name.text in inputs else UNREAD
                spans.append((name.start, name.end, spaced(name.text) if name.start in tables else read))
        for among in parts.words:
            read = inputs[among.name.text].printed if among.name.text in inputs else UNREAD
            spans.append((among.start, among.end, f"{read}{spaced(str(text[among.name.end : among.end]))}"))
        made, at = "", 0
        for start, end, shown in sorted(spans):
            made += str(text[at:start]) + shown
            at = end
        return made + str(text[at:])

    def unit_shown(self, unit: str) -> str:
        """The unit to print; words and conditions have none."""
        return "" if unit.startswith(("choice", "scale", "yes or no")) else unit

    def members_shown(self, function: str, found: Gathered) -> str:
        """The members' values in place of the gathering."""
        if function == "count":
            return printed.number(sum((member.weight for member in found.items), 0.0))
        if not found.items:
            return "0"
        shown = []
        for member in found.items:
            value = printed.number(member.value) if isinstance(member.value, float) else "-"
            shown.append(value if member.weight == 1 or function == "largest" else f"{printed.number(member.weight)} x {value}")
        if function == "sum":
            return f"({' + '.join(shown)})" if len(shown) > 1 else shown[0]
        return f"{function}({', '.join(shown)})"
