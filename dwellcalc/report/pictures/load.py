"""The load of a supply by its parts, against what the supply may carry."""

from __future__ import annotations

import re

from dwellcalc.decide.document import FITS, NOTHING, OPEN, SupplyResult
from dwellcalc.decide.parts import PartOfLoad
from dwellcalc.report.pictures.bars import Bar, Limit, Row, bars
from dwellcalc.report.pictures.connected import largest_group
from dwellcalc.report.pictures.picture import Picture
from dwellcalc.report.pictures.printed import amperes, capacity_limit
from dwellcalc.report.tables import Table
from dwellcalc.report.wording import lowered

NONE = float(0)
SAID = {FITS: "it fits", OPEN: "it is open whether it fits", NOTHING: "there is no rating to compare with"}


def load_picture(supply: SupplyResult) -> Picture | None:
    """The load of the method that is taken, part by part, up to what the supply must carry; nothing where there is no load."""
    sizing = supply.sizing
    if sizing is None or sizing.amperes is None or supply.basis is None:
        return None
    limits = _limits(supply)
    rows = [*_steps(supply), _whole(supply, sizing.amperes), *_margin(supply, sizing.amperes)]
    title = f"{supply.title}: the load by its parts"
    return Picture(
        title, _says(supply, sizing.amperes), bars(rows, limits, reach=largest_group(supply)).finished(), _numbers(supply, title)
    )


def _limits(supply: SupplyResult) -> list[Limit]:
    found, rating = capacity_limit(supply), supply.rating
    limits = [found] if found is not None else []
    if rating is not None and (found is None or found.at != rating):
        limits.append(Limit(rating, f"Rating of the main overcurrent device {amperes(rating)}", "rating"))
    return limits


def _steps(supply: SupplyResult) -> list[Row]:
    """A row for each part, each beginning where the one before it ends; none where there is one part alone."""
    if len(supply.parts) < 2:
        return []
    rows, at = [], NONE
    for part in supply.parts:
        notes = [each for each in (_tier(part), "added in sizing" if part.added else "") if each]
        rows.append(Row(part.title, amperes(part.amperes), notes, Bar(at, at + part.amperes)))
        at += part.amperes
    return rows


def _whole(supply: SupplyResult, carried: float) -> Row:
    low = _low(supply)
    notes = [] if low is None else [f"at the least {amperes(low)}"]
    return Row("What the supply must carry", amperes(carried), notes, Bar(NONE, carried, "whole", low))


def _low(supply: SupplyResult) -> float | None:
    """The least that it may be, where inputs are known only between bounds."""
    found = None if supply.between is None else supply.between.amperes
    return None if found is None or found.low == found.high else found.low


def _margin(supply: SupplyResult, carried: float) -> list[Row]:
    sizing = supply.sizing
    if sizing is None or sizing.capacity is None or sizing.margin is None:
        return []
    dropped = supply.verdict == FITS and sizing.margin < 0
    notes = ["it fits: a fraction is dropped before it is compared"] if dropped else []
    return [Row("Margin", amperes(sizing.margin), notes, measured=(carried, sizing.capacity))]


def _says(supply: SupplyResult, carried: float) -> str:
    sizing, low = supply.sizing, _low(supply)
    assert sizing is not None
    assert supply.basis is not None
    most = max(supply.parts, key=lambda part: part.amperes, default=None)
    load = amperes(carried) if low is None else f"{amperes(low)} to {amperes(carried)}"
    against = "" if sizing.capacity is None else f" against a capacity of {amperes(sizing.capacity)}"
    margin = "" if sizing.margin is None else f", margin {amperes(sizing.margin)}"
    verdict = SAID.get(supply.verdict, "it does not fit")
    text = f"{supply.title}: it must carry {load}{against}{margin}; {verdict}, by the {lowered(supply.basis.title)}."
    if most is None or len(supply.parts) < 2:
        return text
    return f"{text} The largest of {len(supply.parts)} parts is {lowered(_named(most))}, {amperes(most.amperes)}."


def _tier(part: PartOfLoad) -> str:
    """The tier of a part, its amounts with commas as all others on the sheet."""
    return re.sub(r"\d{4,}", lambda match: f"{int(match[0]):,}", part.tier)


def _named(part: PartOfLoad) -> str:
    return f"{part.title}, {_tier(part)}" if part.tier else part.title


def _numbers(supply: SupplyResult, title: str) -> Table:
    sizing, low, rating = supply.sizing, _low(supply), supply.rating
    assert sizing is not None
    rows = [
        [_named(part), part.cite, "" if part.va is None else f"{part.va:,.0f} VA", amperes(part.amperes)] for part in supply.parts
    ]
    load = "" if supply.total is None else f"{supply.total:,.0f} VA"
    rows.append(["What the supply must carry", "", load, amperes(sizing.amperes)])
    if low is not None:
        rows.append(["At the least, with inputs between bounds", "", "", amperes(low)])
    if sizing.capacity is not None:
        rows.append([f"Capacity, by the {lowered(sizing.weakest)}", "", "", amperes(sizing.capacity)])
    if rating is not None and rating != sizing.capacity:
        rows.append(["Rating of the main overcurrent device", "", "", amperes(rating)])
    if sizing.margin is not None:
        rows.append(["Margin", "", "", amperes(sizing.margin)])
    return Table(title, ["Part", "Section", "Load", "Amperes"], rows, ["left", "left", "right", "right"])
