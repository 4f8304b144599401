"""A formula, parsed again and worked out on the operands and members that a record prints.

An operand that the formula needs and the record does not print is a disagreement. A name among the keys of a table
that is no printed operand is a word. A lookup that prints no row found none, and its value is unknown. ``known(x)`` is
yes for what is known, no for what is unknown or not applicable.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from dwellcalc.language.formulas import (
    Among,
    Arithmetic,
    Call,
    Chain,
    Compare,
    Literal,
    Name,
    Not,
    Tree,
    parse,
)
from dwellcalc.language.words import ASKING, GATHERING, LOOKUP, ROUNDING
from dwellcalc.placed import Text
from dwellcalc.problems import InputError, Source
from dwellcalc.review.sheets.recomputed_numbers import steps, total
from dwellcalc.review.sheets.recomputed_values import (
    KNOWN,
    NOT_APPLICABLE,
    NOT_PRINTED,
    PERCENT_SIGN,
    UNKNOWN,
    Record,
    Refused,
    Value,
    among,
    arithmetic,
    chained,
    compared,
    gap_in,
    inverse,
    known,
    operand,
)

LookUp = Callable[[str, Record, Sequence[Value]], Value]
"""The value of a lookup, from its function, the row printed for it and its known arguments after the table."""


def formula_value(text: str, record: Record, look_up: LookUp, *, in_cell: bool = False) -> Value:
    """The value of a formula on what a record prints, in the units that it prints.

    Args:
        text: the formula.
        record: what prints its inputs, members and rows: an evaluation, a condition, or the key of a row.
        look_up: gives the value of a lookup for which the record prints a row.
        in_cell: whether it stands in a table's cell, where any number may stand.

    Raises:
        Refused: it cannot be read or worked out; other errors, such as a division by 0, come as they are.
    """
    placed = Text(text)
    placed.source, placed.line, placed.column = Source("", text), 1, 1
    try:
        return _Formula(text, record, look_up).value(parse(placed, numbers=in_cell))
    except InputError as error:
        raise Refused(f'the formula "{text}" cannot be read: {error.problems[0].text}') from None


@dataclass(frozen=True)
class _Formula:
    text: str
    record: Record
    look_up: LookUp

    def value(self, tree: Tree) -> Value:
        match tree:
            case Literal():
                return known(float(tree.value))
            case Name():
                return self.named(tree.text) or Value(NOT_PRINTED, tree.text)
            case Arithmetic():
                return arithmetic(tree.sign, self.value(tree.left), self.value(tree.right))
            case Compare():
                return compared(tree.sign, self.value(tree.left), self.value(tree.right))
            case Among():
                return among(self.value(tree.name), [word.text for word in tree.words], tree.negated)
            case Not():
                return inverse(self.value(tree.inner))
            case Chain():
                return chained([self.value(part) for part in tree.parts], tree.word == "or")
            case Call():
                return self.called(tree)

    def first(self, key: str, fits: Callable[[Record], bool]) -> Record | None:
        """The first entry that the record prints under this key and that fits; every entry is read."""
        entries = [entry for entry in self.record.get(key, ()) if fits(entry)]
        return entries[0] if entries else None

    def named(self, name: str) -> Value | None:
        entry = self.first("inputs", lambda entry: bool(entry["name"] == name))
        return None if entry is None else operand(entry)

    def printed(self, key: str, call: Call) -> Record | None:
        """What the record prints for a call, under this key."""
        wanted = _without_spaces(self.text[call.start : call.end])
        return self.first(key, lambda entry: _without_spaces(entry["call"]) == wanted)

    def called(self, call: Call) -> Value:
        if call.function in GATHERING:
            return self.gathered(call)
        if call.function in LOOKUP:
            return self.looked_up(call)
        values = [self.value(argument) for argument in call.arguments]
        if call.function in ASKING:
            asked = values[0]
            return asked if asked.state == NOT_PRINTED else known(asked.state == KNOWN)
        gap = gap_in(values)
        if gap:
            return gap
        percent = any(value.percent for value in values)
        if call.function in ROUNDING:
            amount, step = values[0].number(), values[1].number()
            return known(steps(call.function, amount, step) * step, percent)
        chosen = (max if call.function == "larger" else min)(values, key=Value.rank)
        return replace(chosen, percent=percent)

    def gathered(self, call: Call) -> Value:
        entry = self.printed("members", call)
        if entry is None:
            return Value(NOT_PRINTED, self.text[call.start : call.end])
        if not entry.get("undecided"):
            return _gathered(call.function, entry["items"], entry.get("unit") == PERCENT_SIGN)
        refuted = call.function == "every" and any(item.get("value") is False for item in entry["items"])
        return known(False) if refuted else Value(UNKNOWN)

    def looked_up(self, call: Call) -> Value:
        arguments = [self.key(argument) for argument in call.arguments[1:]]
        gap = gap_in(arguments)
        if gap:
            return gap
        row = self.printed("rows_used", call)
        return Value(UNKNOWN) if row is None else self.look_up(call.function, row, arguments)

    def key(self, argument: Tree) -> Value:
        """An argument of a lookup; a name that is no operand is a word."""
        if isinstance(argument, Name):
            return self.named(argument.text) or known(argument.text)
        return self.value(argument)


def _without_spaces(text: str) -> str:
    return "".join(text.split())


def _gathered(function: str, items: Sequence[Record], percent: bool) -> Value:
    if function == "count":
        return gap_in(map(operand, items)) or known(total(item["weight"] for item in items))
    pairs = [(operand(item), item["weight"]) for item in items]
    pairs = [(value, weight) for value, weight in pairs if value.state != NOT_APPLICABLE]
    values = [value for value, _ in pairs]
    if not pairs and (items or function in ("mean", "largest")):
        return Value(NOT_APPLICABLE)
    if function == "every":
        return chained(values, settling=False)
    gap = gap_in(values)
    if gap:
        return gap
    if function == "largest":
        largest = max(values, key=Value.rank)
        return replace(largest, percent=percent or largest.percent)
    added = total(weight * value.number() for value, weight in pairs)
    if function == "sum":
        return known(added, percent)
    weights = total(weight for _, weight in pairs)
    return known(added / weights, percent) if weights else Value(NOT_APPLICABLE)
