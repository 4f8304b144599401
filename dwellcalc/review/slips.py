"""Sums that the rows above them do not come to: the slip of addition, and the mistake of which what they come to would be the result."""

from __future__ import annotations

from collections.abc import Callable
from math import isclose

from dwellcalc.evaluate.gathering import Value
from dwellcalc.review.claims import Claim
from dwellcalc.review.search import Search
from dwellcalc.review.suspects import Suspect
from dwellcalc.review.tie_out import Printer


def slip_told(claim: Claim, value: Value, search: Search, printer: Printer, cited: Callable[[Suspect], str]) -> str:
    """What the rows above a sum come to, in sentences; empty where that is its figure, or what follows by the rules.

    Args:
        claim: the sum.
        value: what follows for it by the rules from the other figures.
        search: the search, with the mistakes that were tried.
        printer: prints values as the submittal does.
        cited: the sections of a mistake that are of the method.
    """
    rows = claim.rows_come_to
    if rows is None or claim.met_by(rows) or (isinstance(value, float) and isclose(rows, value, abs_tol=1)):
        return ""
    come_to = printer.value(claim, rows)
    told = f"The rows above add up to {come_to}, not to {printer.submitted(claim)}."
    found = [each for each in search.singles() if _gives(each, claim, rows, search)]
    if len({each.done for each in found}) != 1:
        return told
    return f"{told} That they come to {come_to} results where {found[0].done}. By {cited(found[0])}, {found[0].right}."


def _gives(suspect: Suspect, claim: Claim, rows: float, search: Search) -> bool:
    """Whether a sum would be what the rows come to, were a mistake made."""
    view = search.viewed((suspect,))
    value = None if view is None else view.values.get(claim.at)
    return isinstance(value, float) and isclose(value, rows, abs_tol=1)
