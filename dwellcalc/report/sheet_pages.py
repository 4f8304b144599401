"""The calculation sheet as blocks: the answer first, then line by line, then what was not verified, then the cautions.

Nothing is computed here: every number comes from the document.
"""

from __future__ import annotations

from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, Assessment, InterpretationResult, NotVerified, SizingResult, SupplyResult
from dwellcalc.evaluate.sheet import MethodSheet, Outcome, SheetLine
from dwellcalc.report.lines import line_table, schedules
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table

USE_WORDS = {"yes": "may be used", "no": "may not be used", "on condition": "may be used on condition"}
VERDICT_WORDS = {FITS: "Fits", DOES_NOT_FIT: "Does not fit", NOTHING: "Nothing to compare with"}


def sheet_pages(found: Assessment, *, full: bool) -> list[Block]:
    """The sheet of an assessment.

    Args:
        found: the assessment.
        full: whether working lines and lines that were not needed are printed too.
    """
    blocks: list[Block] = [Heading(1, str(found.home["title"])), *_head(found)]
    for supply in found.supplies:
        blocks += _answer(found, supply)
        blocks += _loads(found)
        for method in supply.methods:
            blocks += _method(method, full=full)
        if supply.sizing is not None:
            blocks += _sizing_sheet(supply.sizing, full=full)
        blocks += _interpretations(supply)
    return blocks + _not_verified(found) + _closing(found)


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


# the answer


def _answer(found: Assessment, supply: SupplyResult) -> list[Block]:
    blocks: list[Block] = [Heading(2, "The answer")]
    if supply.basis is None or supply.sizing is None:
        return blocks + _no_answer(supply)
    blocks.append(Paragraph(verdict_sentence(found, supply)))
    blocks += [Paragraph(f"Condition: {text}") for text in _conditions(supply)]
    if supply.sizing.missing:
        blocks += [Paragraph("It cannot be said whether it fits until these are known:"), Listing(supply.sizing.missing)]
    blocks.append(_answer_table(supply, supply.sizing))
    blocks += [Paragraph(_flip_sentence(each)) for each in supply.interpretations if each.flips]
    return [*blocks, Listing(found.remarks)]


def verdict_sentence(found: Assessment, supply: SupplyResult) -> str:
    """The verdict with its method and edition."""
    assert supply.basis is not None
    words = VERDICT_WORDS.get(supply.verdict, "Open")
    by = f"by the method “{supply.basis.title}”, {found.rule_set['title']}"
    if supply.verdict == NOTHING:
        return f"{words}: no supply to compare with. Calculated {by} ({supply.basis.because})."
    condition = ", on condition" if supply.conditions else ""
    return f"{words}{condition}, {by} ({supply.basis.because})."


def _conditions(supply: SupplyResult) -> list[str]:
    return [f"not shown yet - it may not be used where {text}" for text in supply.conditions]


def _answer_table(supply: SupplyResult, sizing: SizingResult) -> Table:
    rows = [["Supply", f"{supply.title}, {supply.system}"]]
    rows.append(["Calculated load", f"{supply.total:,.0f} VA"])
    rows.append(["In amperes", f"{sizing.amperes_nearest:,.0f} A ({sizing.amperes:,.2f} A unrounded)"])
    if sizing.capacity is not None:
        rows.append(["Capacity of the supply", f"{sizing.capacity:,.0f} A - {sizing.weakest}"])
    if sizing.margin is not None:
        rows.append(["Margin", f"{sizing.margin:,.1f} A"])
    if sizing.minimum_rating is not None:
        rows.append(["Minimum rating of a new service", f"{sizing.minimum_rating:,.0f} A"])
    if sizing.conductors:
        shown = " or ".join(f"{size} {name}" for name, size in sizing.conductors.items())
        rows.append(["Smallest conductors for that rating", shown])
    return Table("", ["", ""], rows, ["left", "left"])


def _no_answer(supply: SupplyResult) -> list[Block]:
    blocks: list[Block] = [Paragraph("Open: no method gives a result.")]
    for method in supply.methods:
        if method.may_be_used == "no":
            reasons = "; ".join(each.text for each in method.conditions if each.outcome == "no")
            blocks.append(Paragraph(f"{method.title}: may not be used, because {reasons}."))
    if supply.unknowns:
        blocks += [Paragraph("Cannot be calculated until these are known:"), Listing(supply.unknowns)]
    if supply.refusals:
        blocks += [Paragraph("Cannot be calculated by the tables of the code:"), Listing(supply.refusals)]
    return blocks


def _flip_sentence(found: InterpretationResult) -> str:
    taken = next(option for option in found.options if option.taken)
    others = [option for option in found.options if option.verdict != taken.verdict]
    shown = "; ".join(_option(option.option, option.amperes, option.verdict) for option in others)
    mine = _option(taken.option, taken.amperes, taken.verdict)
    return f"The verdict turns on an interpretation ({found.cite}). {found.question} Taken: {mine}. Otherwise: {shown}."


def _option(name: str, amperes: float | None, verdict: str) -> str:
    shown = "may not be used or cannot be calculated" if amperes is None else f"{amperes:,.1f} A, {verdict}"
    return f"{name.replace('_', ' ')} ({shown})"


def _loads(found: Assessment) -> list[Block]:
    rows = []
    for load in found.loads:
        name = load.name if load.quantity == 1 else f"{load.quantity:g} x {load.name}"
        status = f"{load.status}, replaces {', '.join(load.replaces)}" if load.replaces else load.status
        rows.append([name, load.kind, status, load.rating or "not stated", load.evidence or "not stated"])
    head = ["Load", "Kind", "Status", "Rating as written", "Evidence"]
    return [Heading(2, "Loads"), Table("", head, rows, ["left"] * len(head))]


# methods


def _method(method: MethodSheet, *, full: bool) -> list[Block]:
    blocks: list[Block] = [Heading(2, f"{method.title} ({method.cite})")]
    blocks.append(Paragraph(f"This method {USE_WORDS[method.may_be_used]}."))
    failed = [f"{each.cite}: {each.text}" for each in method.conditions if each.outcome == "no"]
    if failed:
        blocks.append(Listing(failed))
    for each in method.conditions:
        if each.missing:
            blocks.append(Paragraph(f"{each.cite}: not known whether {each.text}. Needed: {', '.join(each.missing)}."))
    blocks += schedules(method.lines, full=full)
    blocks.append(line_table("Calculation", method.lines, full=full))
    blocks += _notes(method.lines)
    if method.left_out:
        rows = [[", ".join(each.items), each.because, each.cite] for each in method.left_out]
        blocks.append(Table("Left out, and why", ["What", "Why", "Section"], rows, ["left", "left", "left"]))
    return blocks


def _notes(lines: list[SheetLine]) -> list[Block]:
    notes = [f"{line.title}: {line.note}" for line in lines if line.note and _used(line)]
    return [Listing(notes)] if notes else []


def _used(line: SheetLine) -> bool:
    outcomes: list[Outcome] = [line.outcome] if line.outcome is not None else line.items
    return any(outcome.state == "known" for outcome in outcomes)


def _sizing_sheet(sizing: SizingResult, *, full: bool) -> list[Block]:
    return [Heading(2, f"{sizing.sheet.title} ({sizing.sheet.cite})"), line_table("Sizing", sizing.sheet.lines, full=full)]


# what else must stand on a sheet


def _interpretations(supply: SupplyResult) -> list[Block]:
    rows = []
    for each in supply.interpretations:
        differ = len({(option.amperes, option.verdict) for option in each.options}) > 1
        if not differ:
            continue
        for option in each.options:
            amperes = "-" if option.amperes is None else f"{option.amperes:,.1f} A"
            mark = f"taken, {each.chosen_by}" if option.taken else ""
            name = option.option.replace("_", " ")
            rows.append([each.question if option is each.options[0] else "", name, amperes, option.verdict, mark, option.says])
    if not rows:
        return []
    head = ["Question", "Reading", "Load", "Verdict", "", "What is said"]
    title = "Interpretations that change the load"
    return [Heading(2, "Interpretations"), Table(title, head, rows, ["left", "left", "right", "left", "left", "left"])]


def _not_verified(found: Assessment) -> list[Block]:
    blocks: list[Block] = [Heading(2, "Facts of the house not verified")]
    blocks.append(Listing([_not_verified_text(each) for each in found.facts_not_verified] or ["none"]))
    blocks.append(Heading(2, "Code values not verified"))
    shown = [f"{each['what']} ({each['cite']}): {each['confidence']}" for each in found.code_values_not_verified]
    return [*blocks, Listing(shown or ["none that this result rests on"])]


def _not_verified_text(found: NotVerified) -> str:
    text = f"{', '.join(found.items)}: {found.text}" if found.items else found.text
    shown = [f"{word}: {'cannot be calculated' if value is None else f'{value:,.1f} A'}" for word, value in found.otherwise.items()]
    return f"{text}; the load if otherwise - {', '.join(shown)}" if shown else text


def _closing(found: Assessment) -> list[Block]:
    blocks: list[Block] = []
    if found.field_page:
        blocks += [Heading(2, "To be found in the field by inspector and installer"), Listing(found.field_page)]
    blocks += [Heading(2, "A service replacement also brings (from memory, by edition)"), Listing(found.checklist)]
    blocks += [Heading(2, "Cautions"), Listing([*found.cautions, found.basis_note])]
    blank = [["Utility's available fault current", ""], ["Utility's letter", ""], ["Revision, and what it supersedes", ""]]
    blocks.append(Table("To be filled in", ["", ""], blank, ["left", "left"]))
    digests = f"Rules {found.rule_set['digest'][:16]}, facts {found.facts_digest[:16]}, dwellcalc {found.engine_version}."
    return [*blocks, Paragraph(digests)]
