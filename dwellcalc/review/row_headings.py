"""Headings among the rows of a table, such as EXISTING and NEW: what the rows below one are, where they do not say it themselves."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.placed import text_at
from dwellcalc.review.labels import words_of
from dwellcalc.review.row_status import EXISTING, PLANNED, REMOVED
from dwellcalc.review.rows import Row

NO = ("no", "false")


def under_headings(rows: Iterable[Row], plan: ReviewPlan, *, is_new: bool) -> list[Row]:
    """The rows without the headings among them, each with the status that the heading above it gives.

    Args:
        rows: those of a submittal, in the order of the page.
        plan: the words of headings.
        is_new: whether the dwelling is new, in which nothing is planned beside what is there.
    """
    found, status = [], ""
    for row in rows:
        given = heading(row, plan)
        if given is None:
            found.append(row if not status or row.status is not None else replace(row, status=text_at(status, row.label)))
        elif given:
            status = "" if is_new and given != REMOVED else given
    return found


def heading(row: Row, plan: ReviewPlan) -> str | None:
    """The status that a heading gives the rows below it, empty where it is of something else; nothing where a row is none."""
    has_figure = any(each is not None for each in (row.nameplate, row.claimed, row.quantity, row.match))
    told = row.heading is not None and row.heading.casefold() not in NO
    if has_figure and not told:
        return None
    words = tuple(each for each in words_of(row.label) if each not in plan.heading)
    said = {PLANNED: plan.planned, EXISTING: plan.there, REMOVED: plan.removed}
    status = next((name for name, phrases in said.items() if words in {words_of(each) for each in phrases if words_of(each)}), "")
    return status if status or told else None
