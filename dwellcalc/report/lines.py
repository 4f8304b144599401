"""The lines of a sheet as tables: schedules of columns, and the numbered calculation."""

from __future__ import annotations

from dwellcalc.evaluate.sheet import Gathered, Outcome, SheetLine
from dwellcalc.report.tables import Block, Table

NOT_NEEDED, NOT_APPLICABLE, UNKNOWN = "not needed", "not applicable", "unknown"


def schedules(lines: list[SheetLine], *, full: bool) -> list[Block]:
    """The column lines as schedules: one table for each group, with a row for each item."""
    by_group: dict[str, list[SheetLine]] = {}
    for line in lines:
        if line.each is not None and line.items and (full or not line.working):
            by_group.setdefault(line.each, []).append(line)
    return [_schedule(group, columns) for group, columns in by_group.items()]


def _schedule(group: str, columns: list[SheetLine]) -> Block:
    items = [_named(outcome) for outcome in columns[0].items]
    head = ["Item"]
    for line in columns:
        head += [f"{line.title} ({line.cite})", "Worked"]
    rows = []
    for at, item in enumerate(items):
        row = [item]
        for line in columns:
            outcome = line.items[at]
            row += [_value(outcome), _how(outcome, {})]
        rows.append(row)
    aligned = ["left", *(["right", "left"] * len(columns))]
    return Table(f"{columns[0].collection.replace('_', ' ').capitalize()}: {group.replace('_', ' ')}", head, rows, aligned)


def _named(outcome: Outcome) -> str:
    return f"{outcome.number:g} x {outcome.item}, each" if outcome.number != 1 else str(outcome.item)


def line_table(title: str, lines: list[SheetLine], *, full: bool) -> Table:
    """The numbered lines: number, title, section, how, value."""
    shown = [line for line in lines if line.outcome is not None and (full or _plain(line))]
    numbers = {line.id: f"{at}" for at, line in enumerate(shown, start=1)}
    rows = []
    for line in shown:
        outcome = line.outcome
        assert outcome is not None
        cite = outcome.cite or line.cite
        mark = "working" if line.working else ""
        name = f"{line.title} ({mark})" if mark else line.title
        rows.append([numbers[line.id], name, cite, _how(outcome, numbers), _value(outcome)])
    return Table(title, ["", "Line", "Section", "How", "Result"], rows, ["right", "left", "left", "left", "right"])


def _plain(line: SheetLine) -> bool:
    outcome = line.outcome
    return outcome is not None and not line.working and outcome.state not in (NOT_NEEDED, NOT_APPLICABLE)


def _value(outcome: Outcome) -> str:
    if outcome.state in (NOT_NEEDED, NOT_APPLICABLE):
        return "-"
    return "cannot be calculated" if outcome.state == UNKNOWN else outcome.printed


def _how(outcome: Outcome, numbers: dict[str, str]) -> str:
    if outcome.state == NOT_NEEDED:
        return "not needed for the result"
    if outcome.state == NOT_APPLICABLE:
        return "does not apply"
    if outcome.state == UNKNOWN and (outcome.missing or outcome.refusals):
        needs = [f"needs {', '.join(outcome.missing)}"] if outcome.missing else []
        return "; ".join([*needs, *outcome.refusals])
    if outcome.parts:
        return _parts(outcome, numbers)
    looked_up = next((each for each in outcome.rows_used if each.call == outcome.formula), None)
    if looked_up is not None:
        at_least = "at least " if looked_up.needed is not None else ""
        return f"{looked_up.section}, row {looked_up.row}, for {at_least}{looked_up.keys_printed}"
    gathered = next((each for each in outcome.members if each.call == outcome.formula), None)
    return _members(gathered) if gathered is not None else outcome.with_numbers


def _parts(outcome: Outcome, numbers: dict[str, str]) -> str:
    added = [part for part in outcome.parts if part.why == "added"]
    if added:
        shown = [numbers.get(part.id, part.title) for part in added if part.value]
        return f"line {' + '.join(shown)}" if shown else "none"
    compared = []
    for part in outcome.parts:
        if part.state == "known":
            name = f"line {numbers[part.id]}" if part.id in numbers else part.title
            compared.append(f"{name} {part.value:,.0f} {part.unit}{', taken' if part.taken else ''}")
    return "; ".join(compared)


def _members(found: Gathered) -> str:
    if not found.items:
        return "none"
    shown = []
    for member in found.items:
        times = "" if member.weight == 1 else f"{member.weight:g} x "
        value = "" if member.value is None else f" {times}{member.value:,.0f}"
        shown.append(f"{member.item}{value}")
    return " + ".join(shown)
