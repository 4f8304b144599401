"""The numbers of all lines of an assessment: of each supply, in the order of print, and of what is printed alone."""

from __future__ import annotations

from dwellcalc.decide.document import Assessment, SupplyResult
from dwellcalc.report.carried_on import carrying, own_sheets
from dwellcalc.report.lines import Numbering
from dwellcalc.report.printed_sheets import PrintedSheet, numbered, printed_sheets

RUN = "h"  # stands before the numbers of lines of a calculation of a part of the home, such as its house loads


def numberings(found: Assessment, *, full: bool) -> list[Numbering]:
    """The numbers of the printed lines of each supply, through all sheets of all supplies; those of runs by themselves."""
    made: list[Numbering] = []
    titles = found.rule_set["sources"]
    assert isinstance(titles, dict)
    before = 0
    for supply in found.supplies:
        sheets = _printed(found, supply, full=full)
        lines = [line for each in sheets for line in each.lines]
        told = [pair for each in sheets for pair in each.told]
        runs = numbered([run for each in sheets for run in each.runs], RUN, full=full, after=before, sources=titles)
        before += sum(len(each.lines) for each in runs.values())
        after = sum(len(each.lines) for each in made)
        chosen = supply.to_be_installed
        made.append(Numbering(lines, told, full=full, after=after, sources=titles, to_choose=chosen).read_through(runs))
    return made


def _printed(found: Assessment, supply: SupplyResult, *, full: bool) -> list[PrintedSheet]:
    """The sheets of a supply that are printed; of a feeder that is told beside its service those of its own."""
    return own_sheets(found) if supply is carrying(found) else printed_sheets(supply, full=full)
