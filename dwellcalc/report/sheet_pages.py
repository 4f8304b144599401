"""The calculation sheet as blocks: the answer first, then line by line, then what was not verified, then the cautions.

Nothing is computed here: every number comes from the document.
"""

from __future__ import annotations

from dwellcalc.decide.document import Assessment, BesideResult, SupplyResult
from dwellcalc.evaluate.sheet import MethodSheet, Outcome, SheetLine
from dwellcalc.report.answer import USE_WORDS, answer, not_verified_text
from dwellcalc.report.lines import Numbering, line_blocks, schedules
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table

OUTCOME_WORDS = {"yes": "met", "no": "not met", "on condition": "not known"}
BLANK = "_" * 24


def sheet_pages(found: Assessment, *, full: bool) -> list[Block]:
    """The sheet of an assessment.

    Args:
        found: the assessment.
        full: whether working lines and lines that were not needed are printed too.
    """
    blocks: list[Block] = [Heading(1, str(found.home["title"])), *_head(found)]
    for supply in found.supplies:
        blocks += _supply(found, supply, full=full)
    return blocks + _code_values(found) + _closing(found)


def _supply(found: Assessment, supply: SupplyResult, *, full: bool) -> list[Block]:
    numbering = numbering_of(supply, full=full)
    blocks = answer(found, supply) + _loads(supply)
    for method in printed_methods(supply, full=full):
        blocks += _method(method, numbering, full=full)
    if supply.sizing is not None:
        sheet = supply.sizing.sheet
        blocks += [Heading(2, f"{sheet.title} ({sheet.cite})"), *line_blocks("Sizing", sheet.lines, numbering, full=full)]
    for beside in (supply.neutral, supply.panels):
        if beside is not None:
            lines = lines_beside(supply, beside, full=full)
            blocks += [Heading(2, f"{beside.sheet.title} ({beside.sheet.cite})"), *schedules(lines, full=full)]
            blocks += line_blocks("", lines, numbering, full=full)
    blocks += _interpretations(supply)
    title = "Facts of the house not verified"
    blocks.append(Heading(2, title if len(found.supplies) == 1 else f"{title}, {supply.title}"))
    return [*blocks, Listing([not_verified_text(each) for each in supply.facts_not_verified] or ["none"])]


def printed_methods(supply: SupplyResult, *, full: bool) -> list[MethodSheet]:
    """The sheets of methods that are printed: that of the basis, all in the full sheet or where there is no basis."""
    if full or supply.basis is None:
        return supply.methods
    return [sheet for sheet in supply.methods if sheet.id == supply.basis.method]


def numbering_of(supply: SupplyResult, *, full: bool) -> Numbering:
    """The numbers of the printed lines, through all methods and sizing of a supply."""
    sheets = [*printed_methods(supply, full=full), *([supply.sizing.sheet] if supply.sizing is not None else [])]
    lines = [line for sheet in sheets for line in sheet.lines]
    for beside in (supply.neutral, supply.panels):
        lines += lines_beside(supply, beside, full=full) if beside is not None else []
    return Numbering(lines, full=full)


def lines_beside(supply: SupplyResult, beside: BesideResult, *, full: bool) -> list[SheetLine]:
    """The lines of a sheet beside the basis that are not printed with the methods already."""
    printed = {line.id for sheet in printed_methods(supply, full=full) for line in sheet.lines}
    return [line for line in beside.sheet.lines if line.id not in printed]


def _head(found: Assessment) -> list[Block]:
    rules = found.rule_set
    rows = [
        ["Edition", f"{rules['title']} ({rules['id']})"],
        ["Local amendments", ", ".join(rules["amendments"]) or "none taken into account"],
        ["Edition and amendments confirmed by", str(found.home["confirmed_by"] or "nobody yet")],
        ["Date of the calculation", found.date],
    ]
    rows += [[name.capitalize(), str(value)] for name, value in found.home.items() if name in ("work", "occupied")]
    if found.absent:
        rows.append(["Stated to be absent", ", ".join(found.absent)])
    return [Table("", ["", ""], rows, ["left", "left"])]


def _loads(supply: SupplyResult) -> list[Block]:
    rows = []
    several = len({load.unit for load in supply.loads}) > 1
    for load in supply.loads:
        name = load.name if load.quantity == 1 else f"{load.quantity:g} x {load.name}"
        status = f"{load.status}, replaces {', '.join(load.replaces)}" if load.replaces else load.status
        row = [name, load.kind, status, load.rating or "not stated", load.evidence or "not stated"]
        rows.append([*row, load.unit] if several else row)
    head = ["Load", "Kind", "Status", "Rating as written", "Evidence", *(["In"] if several else [])]
    return [Heading(2, "Loads"), Table("", head, rows, ["left"] * len(head))] if rows else []


def _method(method: MethodSheet, numbering: Numbering, *, full: bool) -> list[Block]:
    blocks: list[Block] = [Heading(2, f"{method.title} ({method.cite})")]
    blocks.append(Paragraph(f"This method {USE_WORDS[method.may_be_used]}."))
    rows = []
    for each in method.conditions:
        needed = f"; needed: {', '.join(each.missing)}" if each.missing else ""
        rows.append([each.asks, each.cite, f"{OUTCOME_WORDS[each.outcome]}{needed}"])
    if rows:
        blocks.append(Table("Conditions of use", ["Condition", "Section", ""], rows, ["left", "left", "left"]))
    blocks += schedules(method.lines, full=full)
    blocks += line_blocks("Calculation", method.lines, numbering, full=full)
    blocks += _notes(method.lines)
    if method.left_out:
        rows = [[", ".join(entry.items), entry.because, entry.cite] for entry in method.left_out]
        blocks.append(Table("Left out, and why", ["What", "Why", "Section"], rows, ["left", "left", "left"]))
    return blocks


def _notes(lines: list[SheetLine]) -> list[Block]:
    notes = [f"{line.title}: {line.note}" for line in lines if line.note and _used(line)]
    return [Listing(notes)] if notes else []


def _used(line: SheetLine) -> bool:
    outcomes: list[Outcome] = [line.outcome] if line.outcome is not None else line.items
    return any(outcome.state == "known" for outcome in outcomes)


def _interpretations(supply: SupplyResult) -> list[Block]:
    rows = []
    same = []
    for each in supply.interpretations:
        if len({(option.amperes, option.verdict) for option in each.options}) == 1:
            same.append(each.question)
            continue
        for option in each.options:
            amperes = "-" if option.amperes is None else f"{option.amperes:,.2f} A"
            mark = f" (taken, {each.chosen_by})" if option.taken else ""
            name = f"{option.option.replace('_', ' ')}{mark}"
            question = f"{each.question} ({each.cite})" if option is each.options[0] else ""
            rows.append([question, name, amperes, option.verdict, option.says])
    if not rows and not same:
        return []
    blocks: list[Block] = [Heading(2, "Interpretations")]
    if rows:
        head = ["Question", "Reading", "Load", "Verdict", "What is said"]
        blocks.append(Table("Those that change the load or the verdict", head, rows, ["left", "left", "right", "left", "left"]))
    if same:
        blocks += [Paragraph("Those that make no difference in this home:"), Listing(same)]
    return blocks


def _code_values(found: Assessment) -> list[Block]:
    shown = [f"{each['what']} ({each['cite']}): {each['confidence']}" for each in found.code_values_not_verified]
    return [Heading(2, "Code values not verified"), Listing(shown or ["none that this result rests on"])]


def _closing(found: Assessment) -> list[Block]:
    blocks: list[Block] = []
    if found.field_page:
        blocks += [Heading(2, "To be found in the field by inspector and installer"), Listing(found.field_page)]
    if found.checklist:
        blocks += [Heading(2, "A service replacement also brings (from memory, by edition)"), Listing(found.checklist)]
    blocks += [Heading(2, "Cautions"), Listing([*found.cautions, found.basis_note])]
    wanted = ("Utility's available fault current", "Utility's letter", "Revision, and what it supersedes", "Signature, date")
    blocks.append(Table("To be filled in", ["", ""], [[name, BLANK] for name in wanted], ["left", "left"]))
    digests = f"Rules {found.rule_set['digest'][:16]}, facts {found.facts_digest[:16]}, dwellcalc {found.engine_version}."
    return [*blocks, Paragraph(digests)]
