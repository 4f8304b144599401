"""One order of day and month for a whole file."""

from __future__ import annotations

from array import array
from collections.abc import Iterable

from dwellcalc.meter.record import Said
from dwellcalc.meter.tables.needs import DATE_ORDER, ask
from dwellcalc.meter.tables.series import Raw, Series
from dwellcalc.meter.tables.stamps import DAY, DAY_FIRST, LATE, MONTH_FIRST, NEXT, swapped
from dwellcalc.meter.tables.steps import even_order
from dwellcalc.meter.tables.table_lines import Told
from dwellcalc.problems import message

TABLE_ORDER = message(
    "meter_table_order",
    'the dates "{one}" and "{two}" do not have day and month in one order',
    "one form of dates through the whole file",
)
TABLE_ORDER_SAID = message("meter_table_order_said", 'the date "{text}" cannot be {order}')
TABLE_YEARS = message(
    "meter_table_years",
    "the dates of {name} have a year of two digits in front",
    "write the year in four digits, as in 2025-01-31",
)


def one_order(raw: Raw, series: list[Series], said: Said, told: Told) -> list[str]:
    """Put the stamps of series right if the day stands first in their dates, and tell what a reader must know of it."""
    days, order = raw.days, said.date_order
    against = {DAY_FIRST: days.month_first, MONTH_FIRST: days.day_first}.get(order, "")
    if days.year_first:
        told.problems.add(TABLE_YEARS, name=told.name)
    elif against:
        told.problems.add(TABLE_ORDER_SAID, said.places.get("date_order"), text=against, order=order)
    elif days.day_first and days.month_first:
        told.problems.add(TABLE_ORDER, one=days.day_first, two=days.month_first)
    elif order == DAY_FIRST or (days.day_first and not order):
        _swap(series, dated_revisions=raw.dated_revisions)
    elif not order and not days.month_first and days.either:
        return _even(raw, series, told)
    return []


def _even(raw: Raw, series: list[Series], told: Told) -> list[str]:
    longest = max(series, key=lambda each: len(each.labels), default=None)
    day_first = even_order(longest.labels) if longest is not None else None
    if day_first is None:
        ask(told, DATE_ORDER)
        return []
    if day_first:
        _swap(series, dated_revisions=raw.dated_revisions)
    order = DAY_FIRST if day_first else MONTH_FIRST
    return [f"dates were taken {order}: only so do the days follow one another"]


def _swap(series: Iterable[Series], *, dated_revisions: bool) -> None:
    known: dict[int, int] = {}
    for each in series:
        before = each.labels
        back = [DAY if tag in (LATE, NEXT) else 0 for tag in each.tags] if each.tags else [0] * len(before)
        each.labels = array("q", [swapped(label - by, known) + by for label, by in zip(before, back)])
        for place, (old, end) in enumerate(zip(before, each.ends)):
            same = 0 <= end - old <= DAY
            each.ends[place] = each.labels[place] + end - old if same else swapped(end, known)
        if dated_revisions:
            each.revisions = array("q", [swapped(one, known) for one in each.revisions])
