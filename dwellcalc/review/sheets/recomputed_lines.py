"""An evaluation of a line, worked out again by the way that the line names.

- Cases: all conditions are evaluated; exactly one holds, or none does and ``otherwise`` is taken. They exclude each
  other: where one holds, a condition that is not known does not matter; where none holds, it gives the line its state.
- Combining: a ``sum_of`` takes every applicable part; ``largest_of`` and ``least_of`` take parts of that value only.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from dwellcalc.review.sheets.disagreements import Findings
from dwellcalc.review.sheets.recomputed_formulas import formula_value
from dwellcalc.review.sheets.recomputed_numbers import total
from dwellcalc.review.sheets.recomputed_rows import Rows
from dwellcalc.review.sheets.recomputed_tiers import by_tiers
from dwellcalc.review.sheets.recomputed_values import (
    KNOWN,
    NOT_APPLICABLE,
    NOT_NEEDED,
    NOT_PRINTED,
    PERCENT_SIGN,
    Record,
    Refused,
    Value,
    gap_in,
    known,
    operand,
)

_Combine = Callable[[Sequence[Record], Sequence[Value], Findings], Value]


def check_evaluation(way: str, evaluation: Record, findings: Findings) -> None:
    """Note what disagrees between the result that an evaluation prints and all else that it prints.

    Args:
        way: how the line comes to its value.
        evaluation: the line, or one item of a column.
        findings: where it is noted.

    Raises:
        Refused: what is printed cannot be worked out; other errors, such as a missing key, come as they are.
    """
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


def _applied(evaluation: Record, findings: Findings) -> Value | None:
    """The value of a line whose `applies` is not met, or nothing where it is met or absent."""
    condition = evaluation.get("applies")
    if condition is None:
        return None
    outcome = _outcome(condition, findings)
    if outcome.state != KNOWN:
        return outcome
    return None if outcome.truth() else Value(NOT_APPLICABLE)


def _outcome(condition: Record, findings: Findings) -> Value:
    outcome = _formula_value(condition["when"], condition, findings)
    if outcome.state != NOT_PRINTED:
        recomputed = outcome.truth() if outcome.state == KNOWN else None
        findings.check(f'outcome of "{condition["when"]}"', condition["outcome"], recomputed)
    return outcome


def _formula_value(text: str, record: Record, findings: Findings) -> Value:
    return formula_value(text, record, Rows(findings).value)


def _by_value(evaluation: Record, findings: Findings) -> Value:
    return _formula_value(evaluation["formula"], evaluation, findings)


def _by_cases(evaluation: Record, findings: Findings) -> Value:
    conditions = evaluation["conditions"]
    asked = {i: _outcome(one, findings) for i, one in enumerate(conditions) if one["when"] is not None}
    holding = [i for i, outcome in asked.items() if outcome.state == KNOWN and outcome.truth()]
    gap = gap_in(asked.values())
    if gap and (not holding or gap.state == NOT_PRINTED):
        return gap
    otherwise = [i for i in range(len(conditions)) if i not in asked]
    for i in otherwise:
        findings.check("outcome of otherwise", conditions[i]["outcome"], not holding)
    taken = holding or otherwise
    if len(taken) != 1:
        raise Refused(f"{len(taken)} cases hold, not one")
    findings.check("case", evaluation["case"], taken[0])
    return _by_value(evaluation, findings)


def _by_parts(evaluation: Record, findings: Findings, *, combine: _Combine) -> Value:
    """The parts that apply, combined by a function of all parts and of the values that apply, which are known."""
    parts = evaluation["parts"]
    values = [operand(part) for part in parts]
    for part, value in zip(parts, values, strict=True):
        if value.state == NOT_APPLICABLE:
            findings.check(f"taken, {part['id']}", part["taken"], False)
    applicable = [value for value in values if value.state != NOT_APPLICABLE]
    if not applicable:
        return Value(NOT_APPLICABLE)
    return gap_in(applicable) or combine(parts, applicable, findings)


def _summed(parts: Sequence[Record], values: Sequence[Value], findings: Findings) -> Value:
    for part in parts:
        if operand(part).state == KNOWN:
            findings.check(f"taken, {part['id']}", part["taken"], True)
    return known(total(value.number() for value in values), any(value.percent for value in values))


def _chosen(parts: Sequence[Record], values: Sequence[Value], findings: Findings, *, choose: Callable[..., Value]) -> Value:
    best = choose(values, key=Value.rank)
    taken = [part for part in parts if part["taken"]]
    if not taken:
        findings.note("part taken", None, best.value)
    for part in taken:
        findings.check(f"taken, {part['id']}", part["value"], best.value)
    return best


_WAYS: dict[str, Callable[[Record, Findings], Value]] = {
    "value": _by_value,
    "cases": _by_cases,
    "tiers": by_tiers,
    "sum_of": partial(_by_parts, combine=_summed),
    "largest_of": partial(_by_parts, combine=partial(_chosen, choose=max)),
    "least_of": partial(_by_parts, combine=partial(_chosen, choose=min)),
}
