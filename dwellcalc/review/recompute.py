"""A second evaluation of a written document: every line again, from nothing but what the line itself prints.

A line prints its formula, its unrounded operands by name, the members that it gathered, the table rows that
it used, and the outcomes of its conditions. Here the formula is parsed again and worked out on those operands
by code that shares nothing with the evaluator but the parser and the percent rule. A reader does the same
with pencil and paper.

How the contract is read:

- *Not applicable* goes before *unknown*, as in arithmetic on facts; a known "no" settles an ``and``, a known
  "yes" an ``or``, whatever the other parts are. ``known(x)`` is yes for what is known, no for
  what is unknown or not applicable.
- An operand that the formula needs and the line does not print is a disagreement. A name among the keys of a
  table that is no printed operand is a word. A lookup that prints no row found none, and its value is
  unknown.
- The ``keys`` of a row are the values of the arguments after the table; for ``first_row_at_least`` with or
  without the amount, which ``needed`` prints. In a cell, ``key_name`` stands for the first key. ``factor``
  takes a number of the table to the unit of ``value``; where it is not printed it is 1.
- Cases: all conditions are evaluated; exactly one holds, or none does and ``otherwise`` is taken; a condition
  that is unknown makes the line unknown.
- Tiers: a portion takes what it can of the quantity that the portions before it left; ``each further`` and
  ``the rest`` take all of it. ``of`` gives a share of what is taken. ``for`` gives nothing where nothing is
  taken, else: ``the first`` and ``the rest`` give the whole amount; ``the next`` and ``each further`` give
  the amount once for each step taken, a part of a step counting as one with ``or part``, half a step or more
  counting as one with ``or major fraction``, and a part not counting where nothing is said.
- Combining: a ``sum_of`` takes every applicable part; ``largest_of`` and ``least_of`` take parts of that
  value only.
"""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from typing import Any, TypeGuard

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
from dwellcalc.language.phrases import FIRST, FURTHER, MAJOR, PART, REST
from dwellcalc.language.words import ASKING, GATHERING, LOOKUP, ROUNDING
from dwellcalc.problems import InputError, Source
from dwellcalc.reading import Text
from dwellcalc.units import number, share

Record = Mapping[str, Any]

KNOWN, UNKNOWN = "known", "unknown"
NOT_APPLICABLE, NOT_NEEDED, NOT_PRINTED = "not applicable", "not needed", "not printed"
GAPS = (NOT_APPLICABLE, UNKNOWN, NOT_PRINTED)
YES, NO = "yes", "no"
PERCENT_SIGN = "%"

_BROKEN = (ArithmeticError, AttributeError, LookupError, RecursionError, TypeError, ValueError)
_SIGNS: dict[str, Callable[[float, float], float]] = {
    "+": operator.add,
    "-": operator.sub,
    "/": operator.truediv,
}
_COMPARED: dict[str, Callable[[float, float], bool]] = {
    ">=": operator.ge,
    ">": operator.gt,
    "<=": operator.le,
    "<": operator.lt,
}


@dataclass(frozen=True)
class Disagreement:
    """Something that a line prints, and what it should be by everything else that the line prints.

    Attributes:
        line: the id of the line.
        item: the item of a column, or empty.
        what: what disagrees, in plain words.
        printed, recomputed: the two sides.
    """

    line: str
    item: str
    what: str
    printed: object
    recomputed: object


def recompute_document(document: Record, *, tolerance: float) -> list[Disagreement]:
    """What disagrees in a document: in each line itself, and between a line and the lines that it reads.

    Args:
        document: the JSON of an assessment.
        tolerance: the largest difference that counts as none, relative or absolute.

    Raises:
        KeyError: it is no document with supplies and their methods.
    """
    found: list[Disagreement] = []
    for supply in document["supplies"]:
        sizing = supply.get("sizing")
        for method in [*supply["methods"], *([sizing["sheet"]] if sizing else [])]:
            lines = method.get("lines", ())
            sheet = _Sheet({str(line.get("id", "")): line for line in lines})
            for line in lines:
                found += recompute_line(line, tolerance=tolerance)
                found += sheet.disagreements(line, tolerance)
    return found


def recompute_line(line: Record, *, tolerance: float) -> list[Disagreement]:
    """What disagrees within one line; nothing where all that it prints fits together.

    Args:
        line: a line of a sheet, as JSON.
        tolerance: the largest difference that counts as none, relative or absolute.
    """
    findings = _Findings(str(line.get("id", "")), tolerance)
    with findings.guarded():
        for item, evaluation in _evaluations(line):
            findings.item = item
            with findings.guarded():
                _check_evaluation(line["way"], evaluation, findings)
    return findings.found


def _evaluations(line: Record) -> list[tuple[str, Record]]:
    if line.get("each") is None:
        return [("", line)]
    return [(str(entry["item"]), entry) for entry in line["items"]]


# Values, and the list of what disagrees


class _RefusedError(Exception):
    """What a line prints cannot be worked out; the text says why."""


@dataclass(frozen=True)
class _Value:
    """A value with its state; for an operand that is not printed, ``value`` is its name."""

    state: str
    value: Any = None
    percent: bool = False
    position: int | None = None

    def number(self) -> float:
        if not _is_number(self.value):
            raise _RefusedError(f'"{self.value}" is not a number')
        return float(self.value)

    def truth(self) -> bool:
        if not isinstance(self.value, bool):
            raise _RefusedError(f'"{self.value}" is neither yes nor no')
        return self.value

    def word(self) -> str:
        if isinstance(self.value, bool):
            return YES if self.value else NO
        if not isinstance(self.value, str):
            raise _RefusedError(f'"{self.value}" is not a word')
        return self.value

    def rank(self) -> float:
        """What a comparison goes by: the number, or the place on its scale."""
        if not isinstance(self.value, str):
            return self.number()
        if self.position is None:
            raise _RefusedError(f'the place of "{self.value}" on its scale is not printed')
        return self.position


def _is_number(value: object) -> TypeGuard[float]:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _known(value: Any, percent: bool = False) -> _Value:
    return _Value(KNOWN, value, percent)


def _operand(entry: Record) -> _Value:
    percent = entry.get("unit") == PERCENT_SIGN
    return _Value(entry.get("state", KNOWN), entry.get("value"), percent, entry.get("position"))


def _gap(values: Iterable[_Value]) -> _Value | None:
    """The value that keeps the whole from being known, or nothing."""
    gaps = [value for value in values if value.state != KNOWN]
    return min(gaps, key=lambda value: GAPS.index(value.state), default=None)


@dataclass
class _Findings:
    """Collects what disagrees in one line."""

    line: str
    tolerance: float
    item: str = ""
    found: list[Disagreement] = field(default_factory=list)

    def note(self, what: str, printed: object, recomputed: object) -> None:
        self.found.append(Disagreement(self.line, self.item, what, printed, recomputed))

    def check(self, what: str, printed: object, recomputed: object) -> None:
        if not self.agree(printed, recomputed):
            self.note(what, printed, recomputed)

    def agree(self, one: object, other: object) -> bool:
        if _is_number(one) and _is_number(other):
            return math.isclose(one, other, rel_tol=self.tolerance, abs_tol=self.tolerance)
        return type(one) is type(other) and one == other

    @contextmanager
    def guarded(self) -> Iterator[None]:
        """Turn what cannot be worked out into a disagreement."""
        try:
            yield
        except _RefusedError as refused:
            self.note(str(refused), None, None)
        except _BROKEN as error:
            self.note(f"what is printed cannot be worked out ({type(error).__name__}: {error})", None, None)


# A line by its way


def _check_evaluation(way: str, evaluation: Record, findings: _Findings) -> None:
    state, value = evaluation["state"], evaluation["value"]
    if state != KNOWN:
        findings.check(f"value of a line that is {state}", value, None)
    if state == NOT_NEEDED:
        return
    result = _applied(evaluation, findings) or _WAYS[way](evaluation, findings)
    if result.state == NOT_PRINTED:
        findings.note(f'operand "{result.value}"', None, NOT_PRINTED)
    elif result.state != state:
        findings.note("state", state, result.state)
    elif state == KNOWN:
        findings.check("value", value, result.value)
        findings.check("unit is a percent", evaluation["unit"] == PERCENT_SIGN, result.percent)


def _applied(evaluation: Record, findings: _Findings) -> _Value | None:
    """The value of a line whose `applies` is not met, or nothing where it is met or absent."""
    condition = evaluation.get("applies")
    if condition is None:
        return None
    outcome = _outcome(condition, findings)
    if outcome.state != KNOWN:
        return outcome
    return None if outcome.truth() else _Value(NOT_APPLICABLE)


def _outcome(condition: Record, findings: _Findings) -> _Value:
    outcome = _Formula(condition, condition["when"], findings).result()
    if outcome.state != NOT_PRINTED:
        recomputed = outcome.truth() if outcome.state == KNOWN else None
        findings.check(f'outcome of "{condition["when"]}"', condition["outcome"], recomputed)
    return outcome


def _by_value(evaluation: Record, findings: _Findings) -> _Value:
    return _Formula(evaluation, evaluation["formula"], findings).result()


def _by_cases(evaluation: Record, findings: _Findings) -> _Value:
    conditions = evaluation["conditions"]
    asked = {i: _outcome(one, findings) for i, one in enumerate(conditions) if one["when"] is not None}
    holding = [i for i, outcome in asked.items() if outcome.state == KNOWN and outcome.truth()]
    gap = _gap(asked.values())
    if gap and (not holding or gap.state == NOT_PRINTED):  # cases exclude each other, so one that holds settles the rest
        return gap
    otherwise = [i for i in range(len(conditions)) if i not in asked]
    for i in otherwise:
        findings.check("outcome of otherwise", conditions[i]["outcome"], not holding)
    taken = holding or otherwise
    if len(taken) != 1:
        raise _RefusedError(f"{len(taken)} cases hold, not one")
    findings.check("case", evaluation["case"], taken[0])
    return _by_value(evaluation, findings)


def _by_parts(evaluation: Record, findings: _Findings) -> tuple[list[_Value], _Value | None]:
    """The values of the applicable parts, and the result where these do not give it."""
    values = [_operand(part) for part in evaluation["parts"]]
    for part, value in zip(evaluation["parts"], values, strict=True):
        if value.state == NOT_APPLICABLE:
            findings.check(f"taken, {part['id']}", part["taken"], False)
    applicable = [value for value in values if value.state != NOT_APPLICABLE]
    return applicable, _gap(applicable) if applicable else _Value(NOT_APPLICABLE)


def _by_sum(evaluation: Record, findings: _Findings) -> _Value:
    values, gap = _by_parts(evaluation, findings)
    if gap:
        return gap
    for part in evaluation["parts"]:
        if _operand(part).state == KNOWN:
            findings.check(f"taken, {part['id']}", part["taken"], True)
    return _known(_total(value.number() for value in values), any(value.percent for value in values))


def _by_extreme(choose: Callable[..., _Value]) -> Callable[[Record, _Findings], _Value]:
    def by_extreme(evaluation: Record, findings: _Findings) -> _Value:
        values, gap = _by_parts(evaluation, findings)
        if gap:
            return gap
        best = choose(values, key=_Value.rank)
        taken = [part for part in evaluation["parts"] if part["taken"]]
        if not taken:
            findings.note("part taken", None, best.value)
        for part in taken:
            findings.check(f"taken, {part['id']}", part["value"], best.value)
        return best

    return by_extreme


def _by_tiers(evaluation: Record, findings: _Findings) -> _Value:
    remaining, unit = evaluation["quantity"], evaluation["quantity_unit"]
    if remaining is None:
        return _Value(UNKNOWN if evaluation["state"] == KNOWN else evaluation["state"])
    values: list[float] = []
    for phrase in evaluation["phrases"]:
        _check_words(phrase, unit, findings)
        open_ended = phrase["portion"] in (FURTHER, REST)
        taken = remaining if open_ended else min(remaining, phrase["step"])
        values.append(_tier_value(phrase, taken))
        findings.check(f'part of the quantity in "{phrase["phrase"]}"', phrase["taken"], taken)
        findings.check(f'value of "{phrase["phrase"]}"', phrase["value"], values[-1])
        remaining -= taken
    units = [unit if phrase["shares"] else phrase["unit"] for phrase in evaluation["phrases"]]
    return _known(_total(values), PERCENT_SIGN in units)


def _tier_value(phrase: Record, taken: float) -> float:
    amount, step = phrase["amount"], phrase["step"]
    if phrase["shares"]:
        return share(taken, amount)
    if taken <= 0:
        return 0.0
    if phrase["portion"] in (FIRST, REST):
        return float(amount)
    return float(amount * _STEPS[phrase["rounds"]](taken, step))


def _check_words(phrase: Record, unit: str, findings: _Findings) -> None:
    """Check that the numbers of a tier are those of its words, where both are in the same unit."""
    text, words = phrase["phrase"], ("of" if phrase["shares"] else "for") + " " + phrase["portion"]
    amount, between, size = text.partition(f" {words}")
    if not between or not size.endswith(phrase["rounds"]):
        findings.note(f'words of "{text}"', text, f"{words} {phrase['rounds']}".strip())
    _check_quantity(amount, phrase["unit"], phrase["amount"], findings)
    _check_quantity(size.removesuffix(phrase["rounds"]), unit, phrase["step"], findings)


def _check_quantity(text: str, unit: str, amount: float, findings: _Findings) -> None:
    written = _read_number(text.strip().removesuffix(unit))
    if written is not None:
        findings.check(f'number in "{text.strip()}"', amount, written)


_WAYS: dict[str, Callable[[Record, _Findings], _Value]] = {
    "value": _by_value,
    "cases": _by_cases,
    "tiers": _by_tiers,
    "sum_of": _by_sum,
    "largest_of": _by_extreme(max),
    "least_of": _by_extreme(min),
}


# A formula on the operands that a record prints


@dataclass(frozen=True)
class _Formula:
    """A formula with the record that prints its inputs, members and rows."""

    record: Record
    text: str
    findings: _Findings
    in_cell: bool = False

    def result(self) -> _Value:
        text = Text(self.text)
        text.source, text.line, text.column = Source("", self.text), 1, 1
        try:
            return self.value(parse(text, numbers=self.in_cell))
        except InputError as error:
            why = error.problems[0].text
            raise _RefusedError(f'the formula "{self.text}" cannot be read: {why}') from None

    def value(self, tree: Tree) -> _Value:
        match tree:
            case Literal():
                return _known(float(tree.value))
            case Name():
                return self.named(tree.text) or _Value(NOT_PRINTED, tree.text)
            case Arithmetic():
                return _arithmetic(tree.sign, self.value(tree.left), self.value(tree.right))
            case Compare():
                return _compared(tree.sign, self.value(tree.left), self.value(tree.right))
            case Among():
                return _among(self.value(tree.name), [word.text for word in tree.words], tree.negated)
            case Not():
                inner = self.value(tree.inner)
                return inner if inner.state != KNOWN else _known(not inner.truth())
            case Chain():
                return _chained([self.value(part) for part in tree.parts], tree.word == "or")
            case Call():
                return self.called(tree)

    def named(self, name: str) -> _Value | None:
        entries = [entry for entry in self.record.get("inputs", ()) if entry["name"] == name]
        return _operand(entries[0]) if entries else None

    def called(self, call: Call) -> _Value:
        if call.function in GATHERING:
            return self.gathered(call)
        if call.function in LOOKUP:
            return self.looked_up(call)
        values = [self.value(argument) for argument in call.arguments]
        if call.function in ASKING:
            asked = values[0]
            return asked if asked.state == NOT_PRINTED else _known(asked.state == KNOWN)
        gap = _gap(values)
        if gap:
            return gap
        percent = any(value.percent for value in values)
        if call.function in ROUNDING:
            amount, step = values[0].number(), values[1].number()
            return _known(_STEPS[call.function](amount, step) * step, percent)
        chosen = (max if call.function == "larger" else min)(values, key=_Value.rank)
        return replace(chosen, percent=percent)

    def printed(self, key: str, call: Call) -> Record | None:
        """What the record prints for a call, under this key."""
        wanted = _without_spaces(self.text[call.start : call.end])
        entries = [entry for entry in self.record.get(key, ()) if _without_spaces(entry["call"]) == wanted]
        return entries[0] if entries else None

    def gathered(self, call: Call) -> _Value:
        entry = self.printed("members", call)
        if entry is None:
            return _Value(NOT_PRINTED, self.text[call.start : call.end])
        return _gathered(call.function, entry["items"], entry.get("unit") == PERCENT_SIGN)

    def looked_up(self, call: Call) -> _Value:
        arguments = [self.key(argument) for argument in call.arguments[1:]]
        gap = _gap(arguments)
        if gap:
            return gap
        row = self.printed("rows_used", call)
        if row is None:
            return _Value(UNKNOWN)
        self.findings.check(f"function of {row['call']}", row["function"], call.function)
        back = call.function != LOOKUP[0]
        find = self.found_back if back else self.found_forward
        return _Value(KNOWN, find(row, arguments), row["unit"] == PERCENT_SIGN, row.get("position"))

    def key(self, argument: Tree) -> _Value:
        """An argument of a lookup; a name that is no operand is a word."""
        if isinstance(argument, Name):
            return self.named(argument.text) or _known(argument.text)
        return self.value(argument)

    def found_forward(self, row: Record, arguments: Sequence[_Value]) -> Any:
        self.check_keys(row, arguments)
        cell = row["cell"]
        if not isinstance(row["value"], str):
            cell = self.cell_amount(row) * row.get("factor", 1)
        self.findings.check(f"row {row['row']} of {row['call']}", row["value"], cell)
        return cell

    def cell_amount(self, row: Record) -> float:
        """The number in a cell, or its formula of the row's key."""
        written = _read_number(row["cell"])
        if written is not None:
            return written
        bound = {"inputs": [{"name": row["key_name"], "value": row["keys"][0]}]}
        amount = _Formula(bound, row["cell"], self.findings, in_cell=True).result()
        if amount.state != KNOWN:
            raise _RefusedError(f'"{amount.value}" has no meaning in a cell')
        return amount.number()

    def found_back(self, row: Record, arguments: Sequence[_Value]) -> Any:
        call, needed, amount = row["call"], row["needed"], row["cell_amount"]
        with_amount = len(row["keys"]) == len(arguments)
        self.check_keys(row, arguments if with_amount else arguments[1:])
        self.findings.check(f"amount needed in {call}", needed, arguments[0].value)
        if not amount >= needed:
            self.findings.note(f"row {row['row']} of {call} has less than is needed", amount, needed)
        if row["before"] is not None and not row["before"] < needed:
            self.findings.note(f"the row before {row['row']} of {call} suffices", row["before"], needed)
        self.check_number(f"amount in row {row['row']} of {call}", amount, row["cell"], row)
        if isinstance(row["value"], str):
            self.findings.check(f"row of {call}", row["value"], row["row"])
        else:
            self.check_number(f"row of {call}", row["value"], row["row"], row)
        return row["value"]

    def check_keys(self, row: Record, arguments: Sequence[_Value]) -> None:
        keys = row["keys"]
        if len(keys) != len(arguments):
            self.findings.note(f"keys of {row['call']}", keys, [argument.value for argument in arguments])
        for key, argument in zip(keys, arguments, strict=False):
            self.findings.check(f"key of {row['call']}", key, argument.value)

    def check_number(self, what: str, printed: float, text: str, row: Record) -> None:
        """Check an amount against the number in a head or cell, in its own unit or by the row's factor."""
        written = _read_number(text)
        if written is not None and not self.findings.agree(printed, written):
            self.findings.check(what, printed, written * row.get("factor", 1))


def _arithmetic(sign: str, left: _Value, right: _Value) -> _Value:
    gap = _gap((left, right))
    if gap:
        return gap
    one, other = left.number(), right.number()
    if sign != "*":
        return _known(_SIGNS[sign](one, other), left.percent or right.percent)
    if right.percent:
        return _known(share(one, other), left.percent)
    return _known(share(other, one) if left.percent else one * other)


def _compared(sign: str, left: _Value, right: _Value) -> _Value:
    gap = _gap((left, right))
    if gap:
        return gap
    if isinstance(left.value, str) != isinstance(right.value, str):
        raise _RefusedError(f'"{left.value}" and "{right.value}" cannot be compared')
    if sign not in _COMPARED:
        return _known(left.value == right.value)
    return _known(_COMPARED[sign](left.rank(), right.rank()))


def _among(value: _Value, words: Sequence[str], negated: bool) -> _Value:
    return value if value.state != KNOWN else _known((value.word() in words) != negated)


def _chained(parts: Sequence[_Value], settling: bool) -> _Value:
    """Conditions joined by `and`, which one no settles, or by `or`, which one yes settles."""
    if any(part.truth() == settling for part in parts if part.state == KNOWN):
        return _known(settling)
    return _gap(parts) or _known(not settling)


def _gathered(function: str, items: Sequence[Record], percent: bool) -> _Value:
    if function == "count":
        return _gap(map(_operand, items)) or _known(_total(item["weight"] for item in items))
    pairs = [(_operand(item), item["weight"]) for item in items]
    pairs = [(value, weight) for value, weight in pairs if value.state != NOT_APPLICABLE]
    values = [value for value, _ in pairs]
    if not pairs and (items or function in ("mean", "largest")):
        return _Value(NOT_APPLICABLE)
    if function == "every":
        return _chained(values, settling=False)
    gap = _gap(values)
    if gap:
        return gap
    if function == "largest":
        return _largest(values, percent)
    total = _total(weight * value.number() for value, weight in pairs)
    if function == "sum":
        return _known(total, percent)
    weights = _total(weight for _, weight in pairs)
    return _known(total / weights, percent) if weights else _Value(NOT_APPLICABLE)


def _largest(values: Sequence[_Value], percent: bool) -> _Value:
    largest = max(values, key=_Value.rank)
    return replace(largest, percent=percent or largest.percent)


def _total(numbers: Iterable[float]) -> float:
    """The sum from 0.0 in order, as the evaluation adds."""
    total = 0.0
    for one in numbers:
        total += one
    return total


# Steps, numbers and cells


def _steps_up(amount: float, step: float) -> int:
    return math.ceil(amount / step)


def _steps_half_up(amount: float, step: float) -> int:
    whole = math.floor(amount / step)
    return whole + (2 * (amount - whole * step) >= step)


def _whole_steps(amount: float, step: float) -> int:
    return math.floor(amount / step)


_STEPS: dict[str, Callable[[float, float], int]] = {
    "": _whole_steps,
    PART: _steps_up,
    MAJOR: _steps_half_up,
    "round_up": _steps_up,
    "round_half_up": _steps_half_up,
}


def _without_spaces(text: str) -> str:
    return "".join(text.split())


def _read_number(text: str) -> float | None:
    try:
        return float(number(text.strip()))
    except ValueError:
        return None


# Operands against the lines that they name


@dataclass(frozen=True)
class _Sheet:
    """The lines of a sheet by id, to see that what a line reads is what the other line prints."""

    lines: Mapping[str, Record]

    def disagreements(self, line: Record, tolerance: float) -> list[Disagreement]:
        findings = _Findings(str(line.get("id", "")), tolerance)
        with findings.guarded():
            for item, evaluation in _evaluations(line):
                findings.item = item
                if evaluation["state"] != NOT_NEEDED:
                    self.check(evaluation, findings)
        return findings.found

    def check(self, evaluation: Record, findings: _Findings) -> None:
        for name, operand in _operands(evaluation):
            entries = self.named(name, findings)
            own = [entry for item, entry in entries if item == findings.item]
            self.compare(name, operand, own or [entry for _, entry in entries], findings)
        for call, member in _members(evaluation):
            column = call.partition("(")[2].rstrip(") ").partition(".")[2]
            entries = self.named(column, findings)
            if entries and entries[0][0]:
                name = f"{call}, {member['item']}"
                own = [entry for item, entry in entries if item == member["item"]]
                self.compare(name, member, own or [{"state": NOT_PRINTED}], findings)

    def named(self, name: str, findings: _Findings) -> list[tuple[str, Record]]:
        """The evaluations of the line that a name stands for in this line; none where it is no line."""
        owner = findings.line.rpartition(".")[0]
        line = self.lines.get(f"{owner}.{name}") or self.lines.get(name)
        return _evaluations(line) if line else []

    def compare(self, name: str, operand: Record, entries: Sequence[Record], findings: _Findings) -> None:
        if entries and not any(_carries(operand, entry, findings) for entry in entries):
            shown = [_shown(entry) for entry in entries]
            findings.note(f'operand "{name}"', _shown(operand), shown[0] if len(shown) == 1 else shown)


def _carries(operand: Record, entry: Record, findings: _Findings) -> bool:
    if operand.get("state", KNOWN) != entry["state"]:
        return False
    if entry["state"] != KNOWN:
        return True
    return findings.agree(operand["value"], entry["value"]) and operand.get("unit", entry["unit"]) == entry["unit"]


def _shown(entry: Record) -> object:
    state = entry.get("state", KNOWN)
    return f"{entry['value']} {entry.get('unit', '')}".strip() if state == KNOWN else state


def _records(evaluation: Record) -> list[Record]:
    """The evaluation and its conditions: all that print inputs and members."""
    applies = evaluation.get("applies")
    return [evaluation, *([applies] if applies else []), *evaluation.get("conditions", ())]


def _operands(evaluation: Record) -> Iterator[tuple[str, Record]]:
    for record in _records(evaluation):
        for entry in record.get("inputs", ()):
            yield entry["name"], entry
    for part in evaluation.get("parts", ()):
        yield part["id"], part
    if evaluation.get("quantity") is not None:
        yield evaluation["of"], {"value": evaluation["quantity"], "unit": evaluation["quantity_unit"]}


def _members(evaluation: Record) -> Iterator[tuple[str, Record]]:
    for record in _records(evaluation):
        for entry in record.get("members", ()):
            for item in entry["items"]:
                yield entry["call"], item
