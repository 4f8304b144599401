"""The lines that a line rests on, from it down to what the home file says, each with its value and how it was reached."""

from __future__ import annotations

import re
from collections.abc import Iterator

from dwellcalc.decide.document import Assessment, sheets_beside
from dwellcalc.evaluate.sheet import KNOWN, MethodSheet, Outcome, SheetLine
from dwellcalc.report.tables import Block, Table

MOST = 16  # lines; those nearest first
COLUMN = re.compile(r"\.(\w+)")  # of items, in the call that gathers it


def rests_on(found: Assessment, line: SheetLine) -> list[Block]:
    """The lines under a line, the nearest first; nothing where it rests on none."""
    sheet = next((each for each in _sheets(found) if any(one is line for one in each.lines)), None)
    if sheet is None:
        return []
    lines = {each.id: each for each in sheet.lines}
    reached, at_hand = [line.id], [line]
    for each in at_hand:
        for below in _below(each, lines):
            if below.id not in reached and len(reached) <= MOST:
                reached.append(below.id)
                at_hand.append(below)
    rows = [[each.id, each.title, _values(each), _how(each)] for each in at_hand[1:]]
    return (
        [Table("What it rests on, the nearest first", ["Line", "Title", "Value", "How"], rows, ["left"] * len(rows[0]))]
        if rows
        else []
    )


def _sheets(found: Assessment) -> Iterator[MethodSheet]:
    for supply in found.supplies:
        before = supply.before.methods if supply.before is not None else []
        for sheet in (*supply.methods, *sheets_beside(supply), *before):
            yield from (sheet, *sheet.runs)


def _below(line: SheetLine, lines: dict[str, SheetLine]) -> Iterator[SheetLine]:
    """The lines that a line reads, as far as they have a value."""
    names = dict.fromkeys(name for outcome in _outcomes(line) for name in _read(outcome, line.id))
    for name in names:
        below = lines.get(name)
        if below is not None and any(outcome.state == KNOWN for outcome in _outcomes(below)):
            yield below


def _read(outcome: Outcome, of: str) -> Iterator[str]:
    yield from (part.id for part in outcome.parts if part.state == KNOWN)
    yield from (given.line for given in outcome.inputs if given.line)
    method = of.rpartition(".")[0]
    for gathered in outcome.members:
        yield from (f"{method}.{name}" for name in COLUMN.findall(gathered.call))


def _outcomes(line: SheetLine) -> list[Outcome]:
    return [line.outcome] if line.outcome is not None else line.items


def _values(line: SheetLine) -> str:
    known = [each for each in _outcomes(line) if each.state == KNOWN]
    return "; ".join(f"{each.item}: {each.printed}" if each.item is not None else each.printed for each in known)


def _how(line: SheetLine) -> str:
    outcome = line.outcome
    if outcome is None:
        return ""
    if outcome.parts:
        return " + ".join(part.title for part in outcome.parts if part.taken)
    return outcome.with_numbers if outcome.with_numbers != outcome.printed else ""
