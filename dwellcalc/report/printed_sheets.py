"""The sheets of a supply as they are printed: which methods, which lines, under which numbers."""

from __future__ import annotations

from dataclasses import dataclass, field

from dwellcalc.decide.document import FITS, SupplyResult, sheets_beside
from dwellcalc.evaluate.sheet import LeftOutEntry, MethodSheet, SheetLine
from dwellcalc.report.lines import Numbering, tells
from dwellcalc.report.pictures.supply_words import is_there

HELD_AGAINST = (
    "This is the calculation that the record of the metered demand was held against. It does not make the verdict, and may be used "
    "in its place where the record is not accepted."
)


def printed_methods(supply: SupplyResult, *, full: bool) -> list[MethodSheet]:
    """The sheets of methods that are printed.

    All in the full sheet; else that of the basis, and where that is a record, the calculation that it was held against; without a basis,
    all that may be used.
    """
    if full:
        return supply.methods
    if supply.basis is None:
        return [sheet for sheet in supply.methods if sheet.may_be_used != "no"] or supply.methods
    return [sheet for sheet in supply.methods if sheet.id == supply.basis.method] + _held_against(supply)


def _held_against(supply: SupplyResult) -> list[MethodSheet]:
    """The calculation that a record which is the basis was held against."""
    record = supply.record
    if record is None or record.cross_check is None or supply.basis is None or supply.basis.method != record.serves:
        return []
    return [sheet for sheet in supply.methods if sheet.title == record.cross_check.by]


@dataclass
class PrintedSheet:
    """A sheet with the lines and runs that it prints, and the lines that an earlier sheet tells already, with that line.

    ``left_out`` is what it leaves out and no earlier sheet tells, ``note`` what is said of it ahead of its lines.
    """

    sheet: MethodSheet
    lines: list[SheetLine]
    told: list[tuple[SheetLine, SheetLine]]
    runs: list[MethodSheet] = field(default_factory=list)
    is_method: bool = False
    left_out: list[LeftOutEntry] = field(default_factory=list)
    note: str = ""


def printed_sheets(supply: SupplyResult, *, full: bool) -> list[PrintedSheet]:
    """The sheets of a supply in order: the methods with all their lines, the others with what is not told before, last what paper leaves out."""
    methods = printed_methods(supply, full=full)
    beside = [] if full else _held_against(supply)
    found = [
        PrintedSheet(
            sheet, sheet.lines, [], is_method=True, left_out=sheet.left_out, note=HELD_AGAINST if sheet in beside else ""
        )
        for sheet in methods
    ]
    aside = on_screen(supply)
    for sheet in sorted(sheets_beside(supply), key=lambda each: any(each is one for one in aside)):
        before = [line for each in found for line in each.lines]
        told = [(line, next((each for each in before if tells(each, line)), None)) for line in sheet.lines]
        lines = [line for line, by in told if by is None]
        left_out = [one for one in sheet.left_out if not any(one in each.left_out for each in found)]
        found.append(PrintedSheet(sheet, lines, [(line, by) for line, by in told if by is not None], left_out=left_out))
    seen: set[str] = set()
    for printed in found:
        printed.runs = [run for run in printed.sheet.runs if run.id not in seen]
        seen.update(run.id for run in printed.runs)
    return found


def on_screen(supply: SupplyResult) -> list[MethodSheet]:
    """The sheets that paper leaves out.

    Those that judge a record and those of branch circuits, of which it has what they tell, and of a supply that is there what new conductors would be.
    """
    record, circuits = supply.record, supply.circuits
    found = [] if record is None else [record.sheet, *([] if record.cross_check is None else [record.cross_check.sheet])]
    found += [] if circuits is None else circuits.sheets
    return [*found, *(each.sheet for each in supply.beside if each.of_new and is_there(supply) and supply.verdict == FITS)]


def numbered(
    sheets: list[MethodSheet], mark: str, *, full: bool, after: int = 0, sources: dict[str, str] | None = None
) -> dict[str, Numbering]:
    """The numbers of the lines of sheets whose lines have numbers of their own, by the id of the sheet."""
    made: dict[str, Numbering] = {}
    for sheet in sheets:
        made[sheet.id] = Numbering(sheet.lines, [], full=full, after=after, mark=mark, sources=sources)
        after += len(made[sheet.id].lines)
    return made
