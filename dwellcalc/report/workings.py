"""What a page folds away under each line of a governing sheet: formula with numbers, tiers, cases, rows, evidence."""

from __future__ import annotations

from dwellcalc.evaluate.printed import number
from dwellcalc.evaluate.sheet import KNOWN, Condition, Outcome, RowUsed, SheetLine


def workings(line: SheetLine) -> list[str]:
    """The working of a line with one value, an entry for each step; nothing where it was not needed."""
    outcome = line.outcome
    if outcome is None or outcome.state != KNOWN:
        return []
    told = [*_cases(outcome), *_formula(outcome), *_tiers(outcome), *_parts(outcome), *_rows(outcome)]
    if line.source:
        told.append(f"Evidence of its numbers: {line.source} ({line.confidence})")
    if line.interpretation:
        told.append(f"Depends on the reading of: {', '.join(line.interpretation)}")
    told += [f"Changed by: {each}" for each in line.origin]
    return [*told, f"Named in the rules: {line.id}"]


def _cases(outcome: Outcome) -> list[str]:
    asked = [] if outcome.applies is None else [f"Applies where {outcome.applies.when}: {_yes(outcome.applies)}"]
    return asked + [f"Case: {'otherwise' if each.when is None else each.when}: {_yes(each)}" for each in outcome.conditions]


def _yes(condition: Condition) -> str:
    return "not known" if condition.outcome is None else "yes" if condition.outcome else "no"


def _formula(outcome: Outcome) -> list[str]:
    steps = list(dict.fromkeys((outcome.formula, outcome.with_numbers, outcome.printed)))
    return [" = ".join(steps)] if outcome.formula else []


def _tiers(outcome: Outcome) -> list[str]:
    if not outcome.phrases or outcome.quantity is None:
        return []
    of = f"Of {outcome.of}, {number(outcome.quantity)} {outcome.quantity_unit}"
    return [
        f"{of}: {each.phrase}, {number(each.taken)} of it, gives {number(each.value)} {outcome.unit}" for each in outcome.phrases
    ]


def _parts(outcome: Outcome) -> list[str]:
    return [f"{part.title}: {part.printed}, {part.why}" for part in outcome.parts if part.state == KNOWN and part.value]


def _rows(outcome: Outcome) -> list[str]:
    return [_row(each) for each in outcome.rows_used]


def _row(used: RowUsed) -> str:
    cell = f", {used.cell}" if used.cell else ""
    return f"{used.section}, {used.table}: for {used.keys_printed}, row {used.row}{cell}"
