"""The calculation sheet as blocks: the answer first, then line by line, then what was not verified, then the cautions.

Nothing is computed here: every number comes from the document.
"""

from __future__ import annotations

from dwellcalc.decide.document import Assessment, BeforeResult, SupplyResult
from dwellcalc.report.answer import answer, overview
from dwellcalc.report.asked import FIELD, asked_blocks
from dwellcalc.report.carried_on import feeder_blocks, own_sheets, told_once
from dwellcalc.report.circuits import circuit_blocks
from dwellcalc.report.decision_pages import decision_blocks, decision_table
from dwellcalc.report.later_pages import later_blocks
from dwellcalc.report.later_sheets import later_workings
from dwellcalc.report.line_numbers import numberings
from dwellcalc.report.lines import Numbering
from dwellcalc.report.outcome import outcome_blocks
from dwellcalc.report.panel_schedules import panel_blocks
from dwellcalc.report.printed_sheets import numbered, printed_sheets
from dwellcalc.report.record_pages import record_blocks
from dwellcalc.report.sheet_parts import (
    apart_blocks,
    cautions,
    code_values_blocks,
    field_warning,
    fill_in_table,
    head_blocks,
    interpretations_blocks,
    loads_blocks,
    not_verified_blocks,
    remarks_blocks,
    sheet_blocks,
    sizing_remark,
    told_blocks,
)
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph
from dwellcalc.report.wording import lowered

WITHOUT = "w"  # stands before the numbers of lines without what is planned


def sheet_pages(found: Assessment, *, full: bool) -> list[Block]:
    """The sheet of an assessment.

    Args:
        found: the assessment.
        full: whether working lines and lines that were not needed are printed too.
    """
    blocks: list[Block] = [Heading(1, str(found.home["title"]))]
    whole, found = found, told_once(found)
    numbers = numberings(whole, full=full)
    several = len(found.supplies) > 1
    if several:
        blocks += [
            *outcome_blocks(found),
            *asked_blocks(found),
            overview(found),
            *decision_table(found),
            *decision_blocks(found),
            *remarks_blocks(found),
            *head_blocks(found),
        ]
    for supply, numbering in zip(found.supplies, numbers, strict=False):
        blocks += answer(found, supply)
        blocks += _at_second_level(feeder_blocks(whole))
        blocks += [] if several else [*remarks_blocks(found), *head_blocks(found)]
        blocks += _supply(found, supply, numbering, full=full)
    blocks += _feeder(whole, numbers[-1], full=full)
    return blocks + panel_blocks(found) + code_values_blocks(found) + _closing(found)


def _at_second_level(blocks: list[Block]) -> list[Block]:
    """Blocks with their first heading at the second level."""
    return [Heading(2, blocks[0].text), *blocks[1:]] if blocks and isinstance(blocks[0], Heading) else blocks


def _feeder(whole: Assessment, numbering: Numbering, *, full: bool) -> list[Block]:
    """The sheets of a feeder that carries the whole load of the service."""
    blocks: list[Block] = []
    for each in own_sheets(whole):
        head, *rest = sheet_blocks(each, numbering, full=full)
        assert isinstance(head, Heading)
        blocks += [Heading(2, f"{head.text}, {lowered(whole.supplies[-1].title)}"), *rest]
    return blocks


def _supply(found: Assessment, supply: SupplyResult, numbering: Numbering, *, full: bool) -> list[Block]:
    blocks = (
        (record_blocks(supply.record) if supply.record is not None else [])
        + loads_blocks(found, supply)
        + circuit_blocks(supply.circuits)
        + later_blocks(supply)
    )
    for each in printed_sheets(supply, full=full):
        head, *rest = sheet_blocks(each, numbering, full=full)
        blocks += [head, *sizing_remark(supply, each), *rest]
        for run in each.runs:
            blocks += apart_blocks(run, run.title, numbering.runs[run.id], full=full)
    blocks += [block for each in later_workings(supply, numbering) for block in each]
    if full and supply.before is not None:
        blocks += _before(supply.before)
    blocks += interpretations_blocks(supply)
    title = "Facts of the house not verified"
    blocks.append(Heading(2, title if len(found.supplies) == 1 else f"{title}, {supply.title}"))
    return [*blocks, *not_verified_blocks(supply)]


def _before(before: BeforeResult) -> list[Block]:
    """The sheets of the methods without what is planned; their lines have numbers of their own."""
    runs = {run.id: run for sheet in before.methods for run in sheet.runs}
    sheets = [*before.methods, *runs.values()]
    numbers = numbered(sheets, WITHOUT, full=True)
    for sheet in before.methods:
        numbers[sheet.id].read_through({run.id: numbers[run.id] for run in sheet.runs})
    titled = [(sheet, f"Without what is planned: {sheet.title}") for sheet in sheets]
    return [block for sheet, title in titled for block in apart_blocks(sheet, title, numbers[sheet.id], full=True)]


def _closing(found: Assessment) -> list[Block]:
    blocks = told_blocks(found)
    if found.field_page:
        blocks += [
            Heading(2, FIELD),
            *field_warning(found),
            Listing(found.field_page),
        ]
    if found.checklist:
        blocks += [
            Heading(2, "What a new or replaced service also brings (from memory, by edition)"),
            Listing(found.checklist),
        ]
    blocks += [Heading(2, "Cautions"), Listing(cautions(found))]
    blocks.append(fill_in_table(found))
    rules, facts, file = str(found.rule_set["digest"]), found.facts_digest, found.home_digest
    digests = f"Rules {rules[:16]}, facts that are calculated with {facts[:16]}, home file as it is written {file[:16]}, dwellcalc {found.engine_version}."
    return [*blocks, Paragraph(digests)]
