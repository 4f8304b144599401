"""The parts of an assessment's page in their order, from the same blocks as the text.

Nothing is computed here: every number comes from the document.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from dwellcalc.decide.document import Assessment, SupplyResult
from dwellcalc.report.answer import (
    answer_title,
    methods_blocks,
    no_answer,
    not_used,
    overview,
    verdict_blocks,
)
from dwellcalc.report.asked import FIELD, asked_blocks
from dwellcalc.report.candidates import TITLE as RATINGS
from dwellcalc.report.candidates import decided_blocks, to_choose_blocks
from dwellcalc.report.carried_on import carried_sentence, carrying, feeder_blocks, own_sheets, told_once
from dwellcalc.report.circuits import circuit_blocks, devices_and_conductors
from dwellcalc.report.compared_sheet import compared_workings
from dwellcalc.report.decision_pages import decision_blocks, decision_table
from dwellcalc.report.figures import figures
from dwellcalc.report.later_pages import later_blocks
from dwellcalc.report.later_sheets import later_workings
from dwellcalc.report.line_numbers import numberings
from dwellcalc.report.lines import Numbering
from dwellcalc.report.outcome import outcome_blocks
from dwellcalc.report.page.elements import Beside, Fold, PageBlock
from dwellcalc.report.page.preliminary import answer_opens, readings_open
from dwellcalc.report.page.record_part import record_part
from dwellcalc.report.panel_schedules import TITLE as PANELS
from dwellcalc.report.panel_schedules import panel_blocks
from dwellcalc.report.pictures.connected import connected_picture
from dwellcalc.report.pictures.load import load_picture
from dwellcalc.report.pictures.methods import editions_picture, methods_picture
from dwellcalc.report.pictures.picture import Picture
from dwellcalc.report.pictures.settings import settings_picture
from dwellcalc.report.pictures.single_line import single_line_picture
from dwellcalc.report.printed_sheets import PrintedSheet, on_screen, printed_sheets
from dwellcalc.report.sheet_parts import (
    TOLD_TITLE,
    apart_blocks,
    cautions,
    code_values_blocks,
    field_warning,
    head_blocks,
    interpretations_blocks,
    loads_blocks,
    not_verified_blocks,
    remarks_blocks,
    sheet_blocks,
    sizing_remark,
    told_blocks,
)
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table
from dwellcalc.report.turning import edition_blocks, edition_table, turning_blocks
from dwellcalc.report.unknowns import conductor_blocks, of_other_methods, unknown_blocks
from dwellcalc.report.wording import lowered

APPENDIX = "Appendix: what else was calculated, line by line"
IN_APPENDIX = (
    "Rating, conductors, neutral and grounding are calculated line by line in the appendix; branch circuits on the screen."
)
ON_THE_SCREEN = "Calculated line by line on the screen, and left out on paper: {titles}."
EDITIONS_ASIDE = "What each edition gives is left out on paper, for it was confirmed which one is adopted."
NEW_SHEET = "new-sheet"  # begins on a new sheet of paper
ADDED = "added"  # many lists, closely printed
FOUND = "found"  # with room to write beside each row
RUN_IN = "run-in"  # its lists in two columns
TOGETHER = "together"  # on one sheet of paper
FEW_ROWS = 40  # that stand on one sheet of paper with what is said before them
WITH_BEFORE = "with-before"  # not alone on a sheet of paper
EDITIONS_TOLD = (
    "What the supply must carry under every edition that is offered, each by its own method or, where it may be used there, by that "
    "which was asked for, with the same settings, with the readings that the home chose where an edition offers them, and without "
    "local amendments. The adopted edition governs; the others show how much hangs on it."
)


@dataclass
class Section:
    """A part of a page: its title and blocks; ``paper`` says how it is laid on paper, ``opens`` what of the answer it leaves open; ``checks`` what the code book tells."""

    title: str
    blocks: list[PageBlock] = field(default_factory=list)
    paper: str = ""
    opens: str = ""
    checks: str = ""


def sheet_sections(found: Assessment) -> list[Section]:
    """The parts of the page of an assessment, those without anything left out."""
    whole, found = found, told_once(found)
    several = len(found.supplies) > 1
    sections = (
        [Section("All supplies", [*outcome_blocks(found), *asked_blocks(found), overview(found), *decision_table(found)])]
        if several
        else []
    )
    for supply, numbering in zip(found.supplies, numberings(whole, full=False), strict=False):
        sections += _of_supply(found, supply, numbering, whole)
    sections[0].blocks += carried_sentence(whole)
    _with_remarks(found, sections[0])
    if several:
        sections.append(Section("Single-line diagram", list(_diagram(found))))
        sections.append(Section("Planned loads and settings", _settings(found, found.supplies)))
    sections.append(Section(PANELS, list(panel_blocks(found)[1:]), TOGETHER if _few_circuits(found) else ""))
    return [each for each in [*sections, *_closing(found)] if each.blocks]


def _with_remarks(found: Assessment, first: Section) -> None:
    """Put the remarks of who made the sheet before the tables of the first part, so that they stand on the first sheet of paper."""
    at = next((at for at, block in enumerate(first.blocks) if isinstance(block, Table)), len(first.blocks))
    told = remarks_blocks(found)
    first.blocks[at:at] = [_third(told[0]), *told[1:]] if told else []


def appendix(found: Assessment) -> Section:
    """The sheets of sizing, of what is calculated beside the load, and of a record, each folded on the screen."""
    several = len(found.supplies) > 1
    made, feeder = Section(APPENDIX, paper=ADDED), carrying(found)
    left_out: list[str] = []
    for supply, numbering in zip(found.supplies, numberings(found, full=False), strict=True):
        of = f", {lowered(supply.title)}" if several else ""
        for each in own_sheets(found) if supply is feeder else _sheets(supply)[1]:
            title, *lines = _one_sheet(each, numbering)
            if lines:
                assert isinstance(title, Heading)
                aside = any(each.sheet is one for one in on_screen(supply))
                made.blocks.append(Fold(f"{title.text}{of}", [*sizing_remark(supply, each), *lines], on_screen=aside))
                left_out += [f"{title.text}{of}"] if aside else []
        ratings = decided_blocks(supply)
        made.blocks += [Fold(f"{RATINGS}{of}", ratings)] if ratings else []
        for head, *rest in [] if supply is feeder else compared_workings(supply, numbering):
            assert isinstance(head, Heading)
            made.blocks.append(Fold(f"{head.text}{of}", rest, on_screen=True))
            left_out.append(f"{head.text}{of}")
        for head, *rest in later_workings(supply, numbering, paged=True):  # nothing of it is in this permit
            assert isinstance(head, Heading)
            made.blocks.append(Fold(f"{head.text}{of}", rest, on_screen=True))
            left_out.append(f"{head.text}{of}")
    if left_out:
        made.blocks.append(Paragraph(ON_THE_SCREEN.format(titles="; ".join(left_out))))
    return made


def _of_supply(found: Assessment, supply: SupplyResult, numbering: Numbering, whole: Assessment) -> list[Section]:
    several = len(found.supplies) > 1
    of = f", {lowered(supply.title)}" if several else ""
    governing, _ = _sheets(supply)
    diagram = [] if several else _diagram(whole)
    unknown: list[PageBlock] = [each for each in unknown_blocks(supply) if each not in conductor_blocks(supply)]
    unseen = f"facts of the house not verified{of}" if supply.facts_not_verified else ""
    return [
        Section(answer_title(found, supply), _answer(found, supply), opens=answer_opens(supply, of)),
        Section(f"The load against the supply{of}", _drawn(load_picture(supply), connected_picture(supply))),
        Section(f"The calculation, line by line{of}", _governing(found, supply, governing, numbering)),
        Section(f"The other methods, and why not{of}", [*_methods(supply), *_editions(found, supply)]),
        Section(f"Sizes{of}", [*_sizes(supply, diagram, feeder_blocks(whole)), *later_blocks(supply)]),
        Section(f"Planned loads and settings{of}", [] if several else _settings(found, found.supplies)),
        Section(f"Readings of the code{of}", list(interpretations_blocks(supply)[1:]), RUN_IN, readings_open(supply, of)),
        Section(f"What is not known{of}", unknown, opens=f"what is not known{of}" if unknown else ""),
        Section(f"The record of the metered demand{of}", record_part(supply), RUN_IN),
        Section(f"Facts of the house not verified{of}", _facts_open(found, supply), RUN_IN, unseen),
    ]


def _few_circuits(found: Assessment) -> bool:
    return sum(len(panel.circuits) + 1 for panel in found.panels) <= FEW_ROWS


def _facts_open(found: Assessment, supply: SupplyResult) -> list[PageBlock]:
    """What nobody has verified, and which keys of the home file settle what is open."""
    blocks: list[PageBlock] = list(not_verified_blocks(supply))
    open_ones = [
        *([] if found.home["confirmed_by"] else ["the edition by `confirmed by`"]),
        *(["a reading of the code by `interpretations`"] if readings_open(supply, "") else []),
        *(["a fact by its own key, or by `evidence` beside it"] if supply.facts_not_verified else []),
    ]
    return (
        [
            Paragraph(
                f"The maker of this sheet settles it in the file of the home, which the sheet is made of: {'; '.join(open_ones)}."
            ),
            *blocks,
        ]
        if open_ones
        else blocks
    )


def _sheets(supply: SupplyResult) -> tuple[list[PrintedSheet], list[PrintedSheet]]:
    """The sheets of the governing method, or of all that may be used where none governs, and those beside."""
    every = printed_sheets(supply, full=False)
    return [each for each in every if each.is_method], [each for each in every if not each.is_method]


def _answer(found: Assessment, supply: SupplyResult) -> list[PageBlock]:
    """The answer with all that it hangs on, without remarks that an answer before it has; tables of what is not known stand apart."""
    before = found.supplies[: found.supplies.index(supply)]
    new = [each for each in supply.remarks if not any(each in other.remarks for other in before)]
    remarks: list[Block] = [Listing(new)] if new else []
    hangs_on = [block for block in unknown_blocks(supply) if not isinstance(block, Table)] + edition_blocks(found, supply)
    if supply.basis is None or supply.sizing is None:
        return [*no_answer(found, supply), *not_used(supply), *hangs_on, *remarks]
    told = [*verdict_blocks(found, supply), *conductor_blocks(supply), *hangs_on, *turning_blocks(supply)]
    return [*told, *to_choose_blocks(supply), figures(found, supply, supply.sizing), *remarks]


def _drawn(*pictures: Picture | None) -> list[PageBlock]:
    """The pictures that there are."""
    return [each for each in pictures if each is not None]


def _diagram(found: Assessment) -> list[Picture]:
    """The single-line diagram; what it names stands in the table of circuits and among the figures of the answer."""
    drawn = single_line_picture(found)
    return [] if drawn is None else [replace(drawn, numbers=None)]


def _capacity(supply: SupplyResult) -> float | None:
    return None if supply.sizing is None else supply.sizing.capacity


def _settings(found: Assessment, supplies: Sequence[SupplyResult]) -> list[PageBlock]:
    """The pictures of what can be set, then its tables."""
    drawn = [settings_picture(load, each.id, _capacity(each)) for load in found.decision.settings for each in supplies]
    without = [replace(each, numbers=None) for each in drawn if each is not None]  # the tables hold them
    blocks = decision_blocks(found)
    first = next((at for at, block in enumerate(blocks) if at and isinstance(block, Table)), len(blocks))
    if len(without) != 1:
        return [*([Beside(without)] if without else []), *blocks]
    return [Beside(without, blocks[:first]), *blocks[first:]]


def _methods(supply: SupplyResult) -> list[PageBlock]:
    """The methods as a picture with its numbers, or as a table where there is no picture."""
    drawn = methods_picture(supply) if len(supply.results) > 1 else None
    return [drawn, *of_other_methods(supply)] if drawn is not None else list(methods_blocks(supply))


def _governing(found: Assessment, supply: SupplyResult, sheets: Sequence[PrintedSheet], numbering: Numbering) -> list[PageBlock]:
    blocks: list[PageBlock] = [*head_blocks(found)[1:]] if supply is found.supplies[0] else []
    loads = loads_blocks(found, supply)
    blocks += [Heading(3, "Loads"), *loads[1:]] if loads else []
    for each in sheets:
        blocks += _one_sheet(each, numbering)
    return blocks


def _one_sheet(printed: PrintedSheet, numbering: Numbering) -> list[PageBlock]:
    """A sheet under a heading of the third level, with the calculations of a part of the home that it reads."""
    title, *rest = sheet_blocks(printed, numbering, full=False, paged=True)
    blocks: list[PageBlock] = [_third(title), *rest]
    for run in printed.runs:
        head, *lines = apart_blocks(run, run.title, numbering.runs[run.id], full=False, paged=True)
        blocks += [_third(head), *lines]
    return blocks


def _third(heading: Block) -> Heading:
    assert isinstance(heading, Heading)
    return Heading(3, heading.text)


def _editions(found: Assessment, supply: SupplyResult) -> list[PageBlock]:
    """What every edition gives; where somebody has confirmed which one is adopted, on the screen alone."""
    rows = [(each.edition, each.method, each.amperes, each.verdict, each.own) for each in supply.editions]
    drawn = editions_picture(supply.title, rows, _capacity(supply)) if rows else None
    told: list[Block] = [Paragraph(EDITIONS_TOLD), *edition_table(supply, wide=True)] if rows else []
    confirmed = bool(found.home["confirmed_by"])
    if drawn is None:
        return [*told]
    aside: list[PageBlock] = [Paragraph(EDITIONS_ASIDE)] if confirmed else []
    return [Beside([replace(drawn, numbers=None)], told, on_screen=confirmed), *aside]  # the table has its numbers


def _sizes(supply: SupplyResult, diagram: Sequence[Picture], feeder: Sequence[Block]) -> list[PageBlock]:
    """The diagram beside the branch circuits; where a feeder carries all, beside what is told of it, and they stand before it."""
    circuits = circuit_blocks(supply.circuits)
    told: list[PageBlock] = [Paragraph(IN_APPENDIX)] if supply.sizing is not None else []
    if not circuits:
        return [Beside(diagram, [*told, *feeder])] if diagram else [*told, *feeder]
    table = circuits[2]
    assert isinstance(table, Table)
    told += [Heading(3, "Branch circuits"), circuits[1]]
    if not diagram or feeder:
        return [*told, *circuits[2:], *([Beside(diagram, feeder)] if diagram else feeder)]
    return [Beside(diagram, [*told, *devices_and_conductors(supply.circuits, table)]), *circuits[3:]]


def _closing(found: Assessment) -> list[Section]:
    checklist = "What a new or replaced service also brings (from memory, by edition)"
    values = "code values not verified" if found.code_values_not_verified else ""
    return [
        Section(TOLD_TITLE, list(told_blocks(found)[1:]), RUN_IN),
        Section("Code values not verified", list(code_values_blocks(found)[1:]), RUN_IN, checks=values),
        Section("Cautions", [Listing(cautions(found))], f"{RUN_IN} {WITH_BEFORE}"),
        Section(FIELD, [*field_warning(found), _field_table(found)] if found.field_page else [], f"{NEW_SHEET} {FOUND}"),
        Section(checklist, [Listing(found.checklist)] if found.checklist else [], RUN_IN),
    ]


def _field_table(found: Assessment) -> Table:
    """What is to be found, with a box for each."""
    return Table("", ["What is to be found", "Found, by whom"], [[each, ""] for each in found.field_page], ["left", "left"])
