"""How a table is written: what divides its cells, and what stands before decimals."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable

from dwellcalc.meter.tables.needs import DECIMAL, ask
from dwellcalc.meter.tables.table_lines import Told, clean, rows_of_head

SEPARATORS = ("\t", ";", "|", ",")
NEARLY_AS_GOOD = 0.6
POINT, COMMA = "point", "comma"

_COMMA = re.compile(r"[-+]?(?:\d+,(?:\d{1,2}|\d{4,})|0*,\d+|0+,\d+|\d{1,3}(?:[. ]\d{3})+,\d+)\Z")
_POINT = re.compile(r"[-+]?(?:\d+\.(?:\d{1,2}|\d{4,})|0*\.\d+|0+\.\d+|\d{1,3}(?:[, ]\d{3})+\.\d+)(?:[eE][-+]?\d+)?\Z")
_EITHER = re.compile(r"[-+]?[1-9]\d{0,2}(?P<mark>[.,])\d{3}\Z")


def separator_of(head: list[str]) -> str:
    """What divides the cells of a file, by how many rows of its head have the same number of cells."""
    scores: dict[str, int] = {}
    for separator in SEPARATORS:
        widths = Counter(len(row) for row in rows_of_head(head, separator) if len(row) > 1)
        scores[separator] = max(widths.values(), default=0)
    best = max(scores.values())
    # A decimal comma divides every row too; hence the order of the separators.
    return next(each for each in SEPARATORS if scores[each] >= best * NEARLY_AS_GOOD) if best else SEPARATORS[-1]


def decimal_of(texts: Iterable[str], said: str, separator: str, told: Told) -> str:
    """What stands before decimals: as said, else as the values of the head show it; asked for where they show both or neither, and then empty."""
    if said:
        return said
    comma = point = either_comma = either_point = False
    for text in map(clean, texts):
        comma = comma or bool(_COMMA.match(text))
        point = point or bool(_POINT.match(text))
        mark = _EITHER.match(text)
        either_comma = either_comma or (mark is not None and mark["mark"] == ",")
        either_point = either_point or (mark is not None and mark["mark"] == ".")
    if comma != point:
        return COMMA if comma else POINT
    # Nobody writes a point between thousands where a comma divides the cells.
    if comma or either_comma or (either_point and separator != ","):
        ask(told, DECIMAL)
        return ""
    return POINT
