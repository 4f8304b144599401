"""Figures that are printed as the share of another, such as "7,680 x 40 % = 3,072": the one counts, the other is the load's."""

from __future__ import annotations

import re
from math import isclose

from dwellcalc.placed import Text, text_at
from dwellcalc.review.percents import PART, PERCENT, part_of_one

FIGURE = r"\d[\d,]*(?:\.\d+)?\s*(?:[A-Za-z]+)?"
SHARE = rf"(?P<share>{PERCENT}|{PART})"
PRODUCT = re.compile(rf"(?P<before>{FIGURE})\s*(?:[x\u00d7*@]|at\b)\s*{SHARE}(?:\s*=\s*(?P<after>{FIGURE}))?", re.IGNORECASE)
ALONE = re.compile(rf"\s*(?P<share>{PERCENT})\s*", re.IGNORECASE)
NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?")


def taken_apart(claimed: Text | None, said: Text | None, *beside: Text | None) -> tuple[Text | None, Text | None]:
    """The figure of a row, and what it is a share of; nothing of the latter where it is of nothing.

    Args:
        claimed: the cell of the figure, which may hold the whole product.
        said: the cell of the share; the figure is what the share is taken of then.
        beside: the label and the note, which may hold a product of which the figure is the result, or the start.
    """
    if claimed is None:
        return claimed, None
    found = PRODUCT.fullmatch(claimed.strip())
    if found is not None:
        after = found["after"] or _product(found["before"], found["share"])
        return text_at(after.strip(), claimed), text_at(found["before"].strip(), claimed)
    alone = ALONE.fullmatch(said) if said is not None else None
    if alone is not None and NUMBER.search(claimed):
        return text_at(_product(claimed, alone["share"]), claimed), claimed
    number = NUMBER.search(claimed)
    for match in (match for each in beside if each is not None for match in PRODUCT.finditer(each)):
        result = _number(match["before"]) * part_of_one(match["share"])
        if number is not None and isclose(result, _number(claimed), abs_tol=1):
            return claimed, text_at(match["before"].strip(), claimed)
        if number is not None and match["after"] and isclose(_number(match["before"]), _number(claimed)):
            return text_at(match["after"].strip(), claimed), claimed
    return claimed, None


def _number(text: str) -> float:
    match = NUMBER.search(text)
    return float(match[0].replace(",", "")) if match is not None else 0.0


def _product(before: str, said: str) -> str:
    """The share of a figure, in its unit."""
    return NUMBER.sub(f"{_number(before) * part_of_one(said):.10g}", before, count=1)
