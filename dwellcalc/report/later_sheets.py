"""How what comes later is calculated, line by line, as far as that is another than without it."""

from __future__ import annotations

from dataclasses import replace

from dwellcalc.decide.document import SupplyResult
from dwellcalc.report.lines import Numbering, tells
from dwellcalc.report.sheet_parts import apart_blocks
from dwellcalc.report.tables import Block, Table
from dwellcalc.report.wording import lowered

COUNTED, MARK = "With what comes later counted", "t"  # before the numbers of its lines


def later_workings(supply: SupplyResult, numbering: Numbering, *, paged: bool = False) -> list[list[Block]]:
    """How what comes later is calculated, a sheet in each list: the lines that are another with it counted, which read those of the sheets before.

    Args:
        supply: the supply.
        numbering: the numbers of the lines of its other sheets.
        paged: whether it is for a page.
    """
    found: list[list[Block]] = []
    after = 0
    before = [*supply.methods, *(supply.circuits.sheets if supply.circuits is not None else [])]
    for sheet in supply.later.sheets if supply.later is not None else ():
        same = [line for each in before if each.id == sheet.id for line in each.lines]
        lines = [line for line in sheet.lines if not any(tells(each, line) for each in same)]
        numbers = Numbering(lines, [], full=False, after=after, mark=MARK, sources=numbering.sources)
        numbers.by_id = {**numbering.by_id, **numbers.by_id}
        after += len(numbers.lines)
        made = replace(sheet, lines=lines, conditions=[], left_out=[], runs=[])
        blocks = apart_blocks(made, f"{COUNTED}: {lowered(sheet.title)}", numbers, full=False, paged=paged)
        found += [blocks] if any(isinstance(each, Table) for each in blocks) else []
    return found
