"""How a value of a column is worked out for one item, in one line: with what it rests on in place of the figures between."""

from __future__ import annotations

import re
from collections.abc import Mapping

from dwellcalc.evaluate.sheet import SheetLine

OPERATION = re.compile(r"\S [*/] \S")
SHARE_FIRST = re.compile(r"(?P<share>[\d.]+ %) \* (?P<rest>[^+-]+)")
FACTOR = re.compile(r"\d \w+/\w")  # of units alone, such as that of watts to volt-amperes
TIMES, DIVIDED = " \N{MULTIPLICATION SIGN} ", " \N{DIVISION SIGN} "
OF_MORE = ("(", " + ", " - ")  # of a formula that is told in no single line


def working(lines: Mapping[str, SheetLine], name: str, item: str) -> str:
    """The working of a value, such as its power divided by the voltage, times a share; empty of one without such.

    Args:
        lines: the lines of a method as they are traced, by name.
        name: of them the column.
        item: the item.
    """
    return _formula(lines, name, item).replace(" * ", TIMES).replace(" / ", DIVIDED)


def _formula(lines: Mapping[str, SheetLine], name: str, item: str) -> str:
    line = lines.get(name)
    outcome = None if line is None else next((each for each in line.items if each.item == item), None)
    if outcome is None:
        return ""
    read = {each.name: each for each in outcome.inputs if each.line}
    if outcome.formula in read:
        return _formula(lines, read[outcome.formula].line, item)
    told = outcome.with_numbers
    if not OPERATION.search(told) or any(each in told for each in OF_MORE):
        return ""
    for each in read.values():
        further = _formula(lines, each.line, item)
        if further and not FACTOR.search(further) and told.count(each.printed) == 1:
            told = told.replace(each.printed, further)
    match = SHARE_FIRST.fullmatch(told)
    return told if match is None else f"{match['rest']} * {match['share']}"
