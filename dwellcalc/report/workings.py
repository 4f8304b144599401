"""What a page folds away under each line of a governing sheet: formula with numbers, tiers, rows, evidence.

What is of use only to whoever looks into the rules, such as the conditions of cases and names in them, is for the screen alone.
"""

from __future__ import annotations

import re

from dwellcalc.evaluate.printed import number
from dwellcalc.evaluate.sheet import KNOWN, Condition, Outcome, RowUsed, SheetLine
from dwellcalc.report.formula_words import formula_in_words, numbers_in_words
from dwellcalc.report.tables import Detail

NOT_FOR_PAPER = re.compile(r"\w\(| and | or |\bnot\b")  # calls and conditions, which the numbers beside the line tell better
ADDED = "added"


def workings(line: SheetLine, sources: dict[str, str]) -> list[Detail]:
    """The working of a line with one value, an entry for each step; nothing where it was not needed.

    Args:
        line: the line.
        sources: the titles of sources by the names that a line has for them.
    """
    outcome = line.outcome
    if outcome is None or outcome.state != KNOWN:
        return []
    told = [*_cases(outcome), *_formula(outcome), *_tiers(outcome), *_parts(outcome), *map(_row, outcome.rows_used)]
    if line.source:
        told.append(
            Detail(
                f"Evidence of its numbers: {'; '.join(sources.get(each, each) for each in line.source.split())} ({line.confidence})"
            )
        )
    if line.interpretation:
        told.append(Detail(f"Depends on the reading of: {', '.join(map(formula_in_words, line.interpretation))}"))
    told += [Detail(f"Changed by: {each}") for each in line.origin]
    return [*told, Detail(f"Named in the rules: {line.id}", inner=True)]


def _cases(outcome: Outcome) -> list[Detail]:
    asked = (
        []
        if outcome.applies is None
        else [Detail(f"Applies where {_when(outcome.applies)}: {_yes(outcome.applies)}", inner=True)]
    )
    cases = [f"Case: {_when(each)}: {_yes(each)}" for each in outcome.conditions]
    return asked + [Detail(each, inner=True) for each in cases]


def _when(condition: Condition) -> str:
    return "otherwise" if condition.when is None else formula_in_words(condition.when)


def _yes(condition: Condition) -> str:
    return "not known" if condition.outcome is None else "yes" if condition.outcome else "no"


def _formula(outcome: Outcome) -> list[Detail]:
    if not outcome.formula:
        return []
    steps = dict.fromkeys(
        (formula_in_words(outcome.formula), numbers_in_words(outcome.with_numbers, outcome.formula), outcome.printed)
    )
    return [Detail(" = ".join(steps), inner=NOT_FOR_PAPER.search(outcome.formula) is not None)]


def _tiers(outcome: Outcome) -> list[Detail]:
    if not outcome.phrases or outcome.quantity is None:
        return []
    of = f"Of {formula_in_words(outcome.of)}, {number(outcome.quantity)} {outcome.quantity_unit}"
    gives = [f"{each.phrase}, {number(each.taken)} of it, gives {number(each.value)} {outcome.unit}" for each in outcome.phrases]
    return [Detail(f"{of}: {each}") for each in gives]


def _parts(outcome: Outcome) -> list[Detail]:
    """The parts of a sum, which the line tells by number; of a choice also why each was taken or not."""
    shown = [part for part in outcome.parts if part.state == KNOWN and part.value]
    return [Detail(f"{part.title}: {part.printed}, {part.why}", inner=part.why == ADDED) for part in shown]


def _row(used: RowUsed) -> Detail:
    cell = f", {used.cell}" if used.cell else ""
    return Detail(f"{used.section}, {used.table}: for {used.keys_printed}, row {used.row}{cell}")
