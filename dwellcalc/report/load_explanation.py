"""A load of the home in depth: what the home file says of it, and each line that it enters, with its value there."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.decide.document import Assessment, LoadEntry, SupplyResult, sheets_beside
from dwellcalc.evaluate.sheet import KNOWN, MethodSheet, Outcome, SheetLine
from dwellcalc.evaluate.work import NO
from dwellcalc.report.tables import Block, Heading, Paragraph, Table

HEAD = ["Line", "Title", "Its value there", "Section"]
COUNTED = "counted"


def load_named(found: Assessment, name: str) -> LoadEntry | None:
    """The load of a name, however it is capitalized."""
    loads = (load for supply in found.supplies for load in supply.loads)
    return next((load for load in loads if load.name.casefold() == name.strip().casefold()), None)


def load_explanation(found: Assessment, load: LoadEntry) -> list[Block]:
    """What a load is, and for each supply that carries it every line that it enters, those of the method of the answer first."""
    blocks: list[Block] = [Heading(1, load.name), Paragraph(f"{load.kind}, {load.status}"), _stated(load)]
    facts = [fact for fact in found.facts if fact.item == load.name]
    if facts:
        rows = [[fact.name, fact.value, fact.written, fact.place, "assumed" if fact.assumed else fact.evidence] for fact in facts]
        blocks.append(
            Table("In the home file", ["Fact", "Value", "As written", "Where", "Evidence"], rows, ["left"] * len(rows[0]))
        )
    for supply in found.supplies:
        if load.name in {each.name for each in supply.loads}:
            of = f", {supply.title}" if found.supplies[1:] else ""
            blocks += _entered(supply, load.name, of)
    return blocks


def _stated(load: LoadEntry) -> Table:
    rows = [["Rating as written", load.rating or "not stated"], *(["Also stated", each] for each in load.marked)]
    rows += [["Takes the place of", ", ".join(load.replaces)]] if load.replaces else []
    return Table("", ["", ""], [*rows, ["Evidence", load.evidence or "not stated"]], ["left", "left"])


def _entered(supply: SupplyResult, name: str, of: str) -> list[Block]:
    """The lines that a load enters, of each sheet a table; a line that several sheets show stands once."""
    basis = supply.basis.method if supply.basis is not None else ""
    sheets = [*sorted(supply.methods, key=lambda sheet: sheet.id != basis), *sheets_beside(supply)]
    shown: set[tuple[str, ...]] = set()
    blocks: list[Block] = []
    for sheet in (each for one in sheets if one.may_be_used != NO for each in (one, *one.runs)):
        rows = [row for row in _rows(sheet, name) if tuple(row) not in shown]
        shown |= {tuple(row) for row in rows}
        if rows:
            blocks.append(Table(f"{sheet.title} ({sheet.cite}){of}", HEAD, rows, ["left", "left", "right", "left"]))
    return blocks or [Paragraph(f"It enters no line of a sheet that was needed{of}.")]


def _rows(sheet: MethodSheet, name: str) -> Iterator[list[str]]:
    for line in sheet.lines:
        value = "" if line.working else _in(line, name)
        if value:
            yield [line.id, line.title, value, line.cite]


def _in(line: SheetLine, name: str) -> str:
    """The value of a load on a line; an empty string where it does not enter it."""
    own = next((each for each in line.items if _is(each.item, name)), None)
    if own is not None:
        return own.printed if own.state == KNOWN else ""
    for outcome in [line.outcome] if line.outcome is not None else line.items:
        value = _gathered(outcome, name)
        if value:
            return value
    return ""


def _gathered(outcome: Outcome, name: str) -> str:
    for each in (member for gathered in outcome.members for member in gathered.items):
        if _is(each.item, name) and each.state == KNOWN:
            if not isinstance(each.value, (int, float)):
                return COUNTED
            times = "" if each.weight == 1 else f", {each.weight:g} times"
            return f"{each.value:,.2f} {each.unit}{times}".strip()
    return ""


def _is(item: str | None, name: str) -> bool:
    """Whether an item of a sheet is a load; of several equal ones their number stands behind the name."""
    return item is not None and (item == name or item.startswith(f"{name} ("))
