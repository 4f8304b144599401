"""Which line of the calculation a figure of the first page is, by the title that it has there."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.decide.document import Assessment, SupplyResult, sheets_beside
from dwellcalc.decide.instructions import Instructions
from dwellcalc.evaluate.sheet import NOT_NEEDED, SheetLine
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.report.figures import minimum_title

LOADS_CALLED = ("Calculated load", "Existing and added load")
IN_AMPERES = "In amperes"
BEFORE = "Without what is planned"
OF_SIZING = {
    "With what is added to it": "amperes_required",
    "Capacity of the supply": "capacity",
    "Why that capacity": "capacity",
    "Margin": "margin",
}
CONDUCTORS = "Smallest conductors for"
SETTINGS = ("Setting of ", "One setting more")


def line_of_first_page(found: Assessment, title: str, rules: RuleSet, instructions: Instructions) -> SheetLine | None:
    """The line behind a figure of the first page; of several supplies that of the first; nothing where no figure is called so."""
    wanted = title.casefold()
    for supply in found.supplies:
        every = [line for sheet in (*supply.methods, *sheets_beside(supply)) for line in sheet.lines]
        lines = {line.id: line for line in sorted(every, key=_needed)}  # of a line on several sheets one that has a value
        if wanted == BEFORE.casefold() and supply.before is not None:
            lines |= {line.id: line for sheet in supply.before.methods for line in sheet.lines}
        for called, line in _figures(supply, rules, instructions):
            if wanted.startswith(called.casefold()) and line in lines:
                return lines[line]
    return None


def _needed(line: SheetLine) -> bool:
    return line.outcome is not None and line.outcome.state != NOT_NEEDED


def _figures(supply: SupplyResult, rules: RuleSet, instructions: Instructions) -> Iterator[tuple[str, str]]:
    """The figures by their titles, or by how these begin, each with the id of its line."""
    if supply.basis is None:
        return
    by_title = {str(rules.methods[name].source.title): name for name in instructions.methods}
    usual = rules.methods[supply.basis.method].results[instructions.total].id
    for called in LOADS_CALLED:
        yield called, usual
    yield IN_AMPERES, rules.methods[supply.basis.method].results[instructions.amperes].id
    if supply.before is not None:
        yield BEFORE, rules.methods[by_title[supply.before.by]].results[instructions.total].id
    plan = instructions.sizing
    sizing = rules.methods[plan.method].results
    for called, role in OF_SIZING.items():
        yield called, sizing[plan.results[role]].id
    if supply.new_supply is not None and supply.new_supply.by in by_title:
        by = by_title[supply.new_supply.by]
        own = by == supply.basis.method
        yield (
            minimum_title(supply),
            sizing[plan.results["minimum_rating"]].id if own else rules.methods[by].results[instructions.total].id,
        )
    yield CONDUCTORS, sizing[plan.lists["conductors"][0]].id
    for beside in supply.beside:
        for answer in beside.answers:
            yield answer.title, rules.methods[beside.method].results[answer.result].id
    if instructions.branch_circuits is not None:
        circuits = instructions.branch_circuits
        for called in SETTINGS:
            yield called, rules.methods[circuits.method].columns[circuits.roles["breaker"]].id
