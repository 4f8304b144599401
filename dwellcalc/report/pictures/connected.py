"""What the load of a supply is made of: its connected load by groups, before demand factors, on the scale of the load itself."""

from __future__ import annotations

from dwellcalc.decide.connected import ConnectedGroup, ConnectedLoad
from dwellcalc.decide.document import SupplyResult
from dwellcalc.decide.sizing_result import SizingResult
from dwellcalc.report.pictures.bars import Bar, Row, bars
from dwellcalc.report.pictures.picture import Picture
from dwellcalc.report.pictures.printed import amperes, capacity_limit
from dwellcalc.report.tables import Table
from dwellcalc.report.wording import lowered

NONE = float(0)
NAMED = 4  # loads of a group that the drawing names; the table names all
IN_ALL = "Connected in all"
CARRIED = "What the supply must carry"
BROUGHT_TO = "By the method that is taken, with its demand factors:"
MEASURED = "What the supply must carry rests on the record of the metered demand:"


def connected_picture(supply: SupplyResult) -> Picture | None:
    """The groups of the connected load, the loads of each named; nothing where it is not known."""
    found, sizing = supply.connected, supply.sizing
    if found is None or sizing is None or sizing.amperes is None:
        return None
    title = f"{supply.title}: what the load is made of, before demand factors"
    limit = capacity_limit(supply)
    why = BROUGHT_TO if supply.record is None or not _metered(supply) else MEASURED
    rows = [_row(each) for each in found.groups]
    rows += [Row(IN_ALL, notes=[f"{_va(found.va)}, {amperes(found.amperes)}"]), Row(why)]
    rows.append(Row(CARRIED, amperes(sizing.amperes), bar=Bar(NONE, sizing.amperes, "whole")))
    drawing = bars(rows, [limit] if limit is not None else [], reach=largest_group(supply))
    return Picture(title, _says(supply, found), drawing.finished(), _numbers(found, sizing, title))


def largest_group(supply: SupplyResult) -> float:
    """The largest group of the connected load [A], which the scale of the load must reach; nothing where there is none."""
    groups = [] if supply.connected is None else supply.connected.groups
    return max((each.amperes for each in groups), default=NONE)


def _metered(supply: SupplyResult) -> bool:
    """Whether what the supply must carry rests on its record."""
    return supply.basis is not None and supply.record is not None and supply.basis.method == supply.record.serves


def _row(group: ConnectedGroup) -> Row:
    named = f"{_va(group.va)}: {_loads(group, NAMED)}" if group.loads else _va(group.va)
    named = f"{named} and others" if len(group.loads) > NAMED else named
    return Row(group.title, amperes(group.amperes), [named], Bar(NONE, group.amperes, compared=False))


def _loads(group: ConnectedGroup, most: int | None = None) -> str:
    """The loads of a group, the first of them; where there are several, each with its part."""
    several = len(group.loads) > 1
    return ", ".join(f"{name} {value:,.0f}" if several else name for name, value in list(group.loads.items())[:most])


def _va(value: float) -> str:
    return f"{value:,.0f} VA"


def _says(supply: SupplyResult, found: ConnectedLoad) -> str:
    listed = "; ".join(f"{each.title} {_va(each.va)}" for each in found.groups)
    return f"{supply.title}: connected are {_va(found.va)}, before demand factors: {listed}."


def _numbers(found: ConnectedLoad, sizing: SizingResult, title: str) -> Table:
    rows = [
        ["\n".join([each.title, *([_loads(each)] if each.loads else [])]), each.cite, _va(each.va), amperes(each.amperes)]
        for each in found.groups
    ]
    rows.append([IN_ALL, "", _va(found.va), amperes(found.amperes)])
    rows.append([CARRIED, "", "", amperes(sizing.amperes)])
    if sizing.capacity is not None:
        rows.append([f"Capacity, by the {lowered(sizing.weakest)}", "", "", amperes(sizing.capacity)])
    head = ["Connected load", "Section", "Load", "Amperes"]
    return Table(title, head, rows, ["left", "left", "right", "right"], close=True)
