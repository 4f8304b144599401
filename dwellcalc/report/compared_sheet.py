"""The least of the other methods by which the verdict is another, line by line, as far as its lines are not those of the basis."""

from __future__ import annotations

from dataclasses import replace

from dwellcalc.decide.document import DOES_NOT_FIT, FITS, SupplyResult
from dwellcalc.evaluate.sheet import MethodSheet
from dwellcalc.evaluate.work import YES
from dwellcalc.report.lines import Numbering, tells
from dwellcalc.report.sheet_parts import apart_blocks
from dwellcalc.report.tables import Block

MARK = "m"  # before the numbers of its lines


def compared(supply: SupplyResult) -> list[MethodSheet]:
    """The sheet of the least of the other methods that may be used by which the verdict is another than by the basis, of a yes or no."""
    another = {FITS: DOES_NOT_FIT, DOES_NOT_FIT: FITS}.get(supply.verdict)
    others = [each for each in supply.results if each.may_be_used == YES and each.verdict == another]
    held = sorted((each.amperes, each.id) for each in others if each.amperes is not None)
    return [sheet for sheet in supply.methods if held and sheet.id == held[0][1]]


def compared_workings(supply: SupplyResult, numbering: Numbering) -> list[list[Block]]:
    """Its lines for a page, which read those of the sheets before by their numbers; nothing where there is no such method."""
    before = [
        line for sheet in supply.methods if supply.basis is not None and sheet.id == supply.basis.method for line in sheet.lines
    ]
    found = []
    for sheet in compared(supply):
        told = {line.id: next((each for each in before if tells(each, line)), None) for line in sheet.lines}
        lines = [line for line in sheet.lines if told[line.id] is None]
        same = {name: numbering.by_id[each.id] for name, each in told.items() if each is not None and each.id in numbering.by_id}
        numbers = Numbering(lines, [], full=False, mark=MARK, sources=numbering.sources)
        numbers.by_id = {**numbering.by_id, **same, **numbers.by_id}
        made = replace(sheet, lines=lines, conditions=[], runs=[])
        found.append(apart_blocks(made, sheet.title, numbers, full=False, paged=True))
    return found
