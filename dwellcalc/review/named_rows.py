"""Rows whose labels name other rows by their letters or numbers: a sum of these, such as A+B+C, or a step such as Line 3 x 0.40."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable
from dataclasses import replace

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.placed import text_at
from dwellcalc.review.percents import SHARE
from dwellcalc.review.rows import Row
from dwellcalc.review.steps import OF_ROW

NAME = re.compile(r"\w+")
PIECES = re.compile(r"\d[\d,.]*|[A-Za-z]+|[^\w\s]")
SUM, STEP, DIVIDED = "sum", "step", "divided"
VOLTS = {"v", "volt", "volts"}
DIVIDE = {"/", "\N{DIVISION SIGN}"}
ADDED, ALONE = {"+", "&", ",", "(", ")", "=", ":"}, re.compile(r"[A-Z]{1,2}|\d{1,2}")
OTHER_SIGNS = {"-", "\N{EN DASH}", "\N{MINUS SIGN}", "x", "X", "*", "\N{MULTIPLICATION SIGN}", "@"}


def with_named_rows(rows: Iterable[Row], plan: ReviewPlan) -> list[Row]:
    """The rows, those that add up rows which they name at the line for sums, and those that take a part of one as steps.

    Args:
        rows: those of the submittal, in the order of the page.
        plan: how submittals are reviewed: the words beside the names of rows, and the name of a sum.
    """
    found: list[Row] = []
    named: set[str] = set()
    for row in rows:
        how = _names(row, named, plan) if row.match is None and row.nameplate is None and row.claimed is not None else ""
        if how == SUM and plan.sum_of_rows:
            row = replace(row, match=text_at(plan.sum_of_rows[0], row.label))
        elif how == DIVIDED and plan.of_amperes:
            row = replace(row, match=text_at(plan.of_amperes[0], row.label))
        elif how == STEP:
            row = replace(row, repeats=True)
        found.append(row)
        number = OF_ROW.match(row.label)
        name = NAME.findall(number[0])[-1:] if number is not None else []
        named.update(name)
    return found


def _names(row: Row, named: Container[str], plan: ReviewPlan) -> str:
    """Whether a label is a sum of rows that it names, a step from one, or neither."""
    label = OF_ROW.sub("", row.label)
    shares = SHARE.findall(label)
    pieces = PIECES.findall(SHARE.sub(" ", label))
    words = {each.casefold() for each in plan.of_rows}
    rest = [each for each in pieces if each.casefold() not in words and each not in ADDED]
    is_divided = any(each in DIVIDE for each in rest)
    rest = [each for each in rest if each not in DIVIDE and not (is_divided and each.casefold() in VOLTS)]
    names = [each for each in rest if ALONE.fullmatch(each) and each in named]
    others = [each for each in rest if each not in names and each not in OTHER_SIGNS and not each[:1].isdigit()]
    if not names or others:
        return ""
    is_range = "-" in rest or "\N{EN DASH}" in rest
    amounts = [each for each in rest if each[:1].isdigit() and each not in names]
    if is_divided:
        return DIVIDED if len(names) == 1 and len(amounts) == 1 and not shares else ""
    if not shares and not any(each in OTHER_SIGNS for each in rest) and not amounts:
        return SUM if len(names) > 1 else ""
    if is_range and not shares and not amounts and len(names) > 1:
        return SUM  # lines 1 - 7
    return STEP if shares or amounts else ""
