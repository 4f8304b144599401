"""The methods of a supply beside each other, and editions beside each other, in amperes against the capacity."""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.decide.document import MethodResult, SupplyResult
from dwellcalc.report.pictures.bars import Bar, Limit, Row, bars
from dwellcalc.report.pictures.picture import Picture
from dwellcalc.report.pictures.printed import amperes, capacity_limit
from dwellcalc.report.tables import Table
from dwellcalc.report.wording import lowered

NONE = float(0)
NOT_USED, TAKEN, OPEN_USE = "no", "taken", "on condition"
WITHOUT, WITH_ADDED = "Without what is planned", "With what sizing adds"
EditionRow = tuple[str, str, "float | None", str, bool]
OWN = "that of this sheet"


def methods_picture(supply: SupplyResult) -> Picture | None:
    """What each method gives; nothing where none gives a figure."""
    figures = [each for each in supply.results if each.may_be_used != NOT_USED and each.amperes is not None]
    if not figures:
        return None
    before = {each.id: each.amperes for each in supply.before.results} if supply.before is not None else {}
    limit = capacity_limit(supply)
    ordered = [*figures, *(each for each in supply.results if each not in figures)]
    carried = _with_added(supply)
    rows = [_method(each, before.get(each.id), carried) for each in ordered if each.may_be_used != NOT_USED]
    barred = [Row(f"\u2013 {each.title}") for each in ordered if each.may_be_used == NOT_USED]
    rows += [Row("May not be used:"), *barred] if barred else []
    title = f"{supply.title}: the methods"
    drawing = bars(rows, [limit] if limit is not None else [])
    return Picture(title, _says(supply, figures), drawing.finished(), _numbers(supply, ordered, before, title))


def _with_added(supply: SupplyResult) -> float | None:
    """What the supply must carry by the method that is taken [A], where sizing adds something to its load."""
    sizing = supply.sizing
    return sizing.amperes if sizing is not None and sizing.additions else None


def _method(found: MethodResult, before: float | None, carried: float | None) -> Row:
    if found.amperes is None:
        return Row(f"\u2013 {found.title}", notes=["cannot be calculated"])
    words = [TAKEN] if found.basis else []
    words += ["may be used on condition"] if found.may_be_used == OPEN_USE else []
    words += [f"{lowered(WITH_ADDED)} {amperes(carried)}"] if found.basis and carried is not None else []
    words += [f"{lowered(WITHOUT)} (thin bar) {amperes(before)}"] if before is not None else []
    beside = Bar(NONE, before, "thin") if before is not None else None
    return Row(
        found.title,
        amperes(found.amperes),
        ["; ".join(words)] if words else [],
        Bar(NONE, found.amperes, TAKEN if found.basis else "part"),
        beside,
    )


def _says(supply: SupplyResult, figures: Sequence[MethodResult]) -> str:
    listed = "; ".join(f"{lowered(each.title)} {amperes(each.amperes)}{', taken' if each.basis else ''}" for each in figures)
    sizing = supply.sizing
    against = "" if sizing is None or sizing.capacity is None else f" Capacity {amperes(sizing.capacity)}."
    barred = [lowered(each.title) for each in supply.results if each.may_be_used == NOT_USED]
    return f"{supply.title}: {listed}.{against}" + (f" May not be used: {'; '.join(barred)}." if barred else "")


def _numbers(supply: SupplyResult, ordered: Sequence[MethodResult], before: dict[str, float | None], title: str) -> Table:
    planned = [WITHOUT] if before else []
    rows = []
    for each in ordered:
        used = each.may_be_used != NOT_USED
        told = [
            "" if each.total is None or not used else f"{each.total:,.0f} VA",
            amperes(each.amperes if used else None),
            *([amperes(before.get(each.id) if used else None)] if before else []),
        ]
        rows.append([each.title, *told, _use(supply, each)])
    if (carried := _with_added(supply)) is not None:
        rows.append([WITH_ADDED, "", amperes(carried), *("" for _ in planned), ""])
    if supply.sizing is not None and supply.sizing.capacity is not None:
        rows.append(["Capacity", "", amperes(supply.sizing.capacity), *("" for _ in planned), ""])
    aligned = ["left", "right", "right", *("right" for _ in planned), "left"]
    return Table(title, ["Method", "Load", "Amperes", *planned, "Use"], rows, aligned)


def _use(supply: SupplyResult, found: MethodResult) -> str:
    if found.may_be_used == NOT_USED:
        sheet = next((each for each in supply.methods if each.id == found.id), None)
        why = [each.if_not for each in sheet.conditions if each.outcome == NOT_USED] if sheet is not None else []
        return f"may not be used: {'; '.join(why)}" if why else "may not be used"
    words = "may be used on condition" if found.may_be_used == OPEN_USE else "may be used"
    words = "cannot be calculated" if found.amperes is None else words
    return f"{words}, {TAKEN}" if found.basis else words


def editions_picture(supply_title: str, rows: Sequence[EditionRow], capacity: float | None) -> Picture | None:
    """What a supply must carry under several editions; nothing where none gives a figure.

    Args:
        supply_title: what the supply is called.
        rows: for each edition its title, the title of the method, amperes or nothing, the verdict, and whether it is that of the sheet.
        capacity: of the supply [A], or nothing.
    """
    if all(each[2] is None for each in rows):
        return None
    limits = [] if capacity is None else [Limit(capacity, f"Capacity {amperes(capacity)}")]
    title = f"{supply_title}: the editions"
    listed = "; ".join(f"{name} {amperes(value)}, {verdict}" for name, _, value, verdict, _ in rows)
    against = "" if capacity is None else f" Capacity {amperes(capacity)}."
    mine = [name for name, _, _, _, own in rows if own]
    by = f" That of this sheet is {mine[0]}." if mine else ""
    told = [[f"{name} ({OWN})" if own else name, method, amperes(value), verdict] for name, method, value, verdict, own in rows]
    if capacity is not None:
        told.append(["Capacity", "", amperes(capacity), ""])
    numbers = Table(title, ["Edition", "Method", "Amperes", "Verdict"], told, ["left", "left", "right", "left"])
    drawing = bars([_edition(each) for each in rows], limits)
    return Picture(title, f"{supply_title}: {listed}.{against}{by}", drawing.finished(), numbers)


def _of_this_sheet(own: bool) -> str:
    return OWN if own else ""


def _edition(row: EditionRow) -> Row:
    name, method, value, verdict, own = row
    words = ", ".join(each for each in (_of_this_sheet(own), verdict) if each)
    notes = ["; ".join(each for each in (words, lowered(method)) if each)]
    if value is None:
        return Row(f"\u2013 {name}", notes=notes)
    return Row(name, amperes(value), notes, Bar(NONE, value, TAKEN if own else "part"))
