"""The calculation sheet as blocks: the answer first, then line by line, then what was not verified, then the cautions.

Nothing is computed here: every number comes from the document.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from dwellcalc.decide.document import Assessment, BeforeResult, SupplyResult, sheets_beside
from dwellcalc.evaluate.sheet import MethodSheet, Outcome, SheetLine
from dwellcalc.placed import spaced
from dwellcalc.report.amendment_pages import amendment_remarks, amendment_rows
from dwellcalc.report.answer import USE_WORDS, answer, by_another, not_verified_text, overview
from dwellcalc.report.circuits import circuit_blocks
from dwellcalc.report.decision_pages import decision_blocks, decision_table
from dwellcalc.report.lines import Numbering, line_blocks, schedules, tells
from dwellcalc.report.record_pages import record_blocks
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table

OUTCOME_WORDS = {"yes": "met", "no": "not met", "on condition": "not known"}
WITHOUT = "w"  # stands before the numbers of lines without what is planned
RUN = "h"  # and of those of a calculation of a part of the home, such as its house loads
BLANK = "________________________"


def sheet_pages(found: Assessment, *, full: bool) -> list[Block]:
    """The sheet of an assessment.

    Args:
        found: the assessment.
        full: whether working lines and lines that were not needed are printed too.
    """
    blocks: list[Block] = [Heading(1, str(found.home["title"]))]
    several = len(found.supplies) > 1
    if several:
        blocks += [overview(found), *decision_table(found), *decision_blocks(found), *_head(found)]
    for supply, numbering in zip(found.supplies, numberings(found, full=full), strict=True):
        blocks += answer(found, supply)
        blocks += [] if several else _head(found)
        blocks += _supply(found, supply, numbering, full=full)
    return blocks + _code_values(found) + _closing(found)


def _supply(found: Assessment, supply: SupplyResult, numbering: Numbering, *, full: bool) -> list[Block]:
    blocks = (
        (record_blocks(supply.record) if supply.record is not None else []) + _loads(supply) + circuit_blocks(supply.circuits)
    )
    for each in printed_sheets(supply, full=full):
        blocks += _sheet(each, numbering, full=full)
        for run in each.runs:
            blocks += _apart(run, run.title, numbering.runs[run.id], full=full)
    if full and supply.before is not None:
        blocks += _before(supply.before)
    blocks += _interpretations(supply)
    title = "Facts of the house not verified"
    blocks.append(Heading(2, title if len(found.supplies) == 1 else f"{title}, {supply.title}"))
    return [*blocks, Listing([not_verified_text(each, supply) for each in supply.facts_not_verified] or ["none"])]


def _before(before: BeforeResult) -> list[Block]:
    """The sheets of the methods without what is planned; their lines have numbers of their own."""
    runs = {run.id: run for sheet in before.methods for run in sheet.runs}
    sheets = [*before.methods, *runs.values()]
    numbers = _numbered(sheets, WITHOUT, full=True)
    for sheet in before.methods:
        numbers[sheet.id].read_through({run.id: numbers[run.id] for run in sheet.runs})
    titled = [(sheet, f"Without what is planned: {sheet.title}") for sheet in sheets]
    return [block for sheet, title in titled for block in _apart(sheet, title, numbers[sheet.id], full=True)]


def _apart(sheet: MethodSheet, title: str, numbering: Numbering, *, full: bool) -> list[Block]:
    """A sheet whose lines have numbers of their own, under its title."""
    found = _sheet(PrintedSheet(sheet, sheet.lines, [], is_method=bool(sheet.conditions)), numbering, full=full)
    return [Heading(2, f"{title} ({sheet.cite})"), *found[1:]]


def printed_methods(supply: SupplyResult, *, full: bool) -> list[MethodSheet]:
    """The sheets of methods that are printed: all in the full sheet; else that of the basis; without one, all that may be used."""
    if full:
        return supply.methods
    if supply.basis is None:
        return [sheet for sheet in supply.methods if sheet.may_be_used != "no"] or supply.methods
    return [sheet for sheet in supply.methods if sheet.id == supply.basis.method]


@dataclass
class PrintedSheet:
    """A sheet with the lines and runs that it prints, and the lines that an earlier sheet tells already, with that line."""

    sheet: MethodSheet
    lines: list[SheetLine]
    told: list[tuple[SheetLine, SheetLine]]
    runs: list[MethodSheet] = field(default_factory=list)
    is_method: bool = False


def printed_sheets(supply: SupplyResult, *, full: bool) -> list[PrintedSheet]:
    """The sheets of a supply in order: the methods with all their lines, the others with what is not told before."""
    found = [PrintedSheet(sheet, sheet.lines, [], is_method=True) for sheet in printed_methods(supply, full=full)]
    for sheet in sheets_beside(supply):
        before = [line for each in found for line in each.lines]
        told = [(line, next((each for each in before if tells(each, line)), None)) for line in sheet.lines]
        lines = [line for line, by in told if by is None]
        found.append(PrintedSheet(sheet, lines, [(line, by) for line, by in told if by is not None]))
    seen: set[str] = set()
    for printed in found:
        printed.runs = [run for run in printed.sheet.runs if run.id not in seen]
        seen.update(run.id for run in printed.runs)
    return found


def numberings(found: Assessment, *, full: bool) -> list[Numbering]:
    """The numbers of the printed lines of each supply, through all sheets of all supplies; those of runs by themselves."""
    made: list[Numbering] = []
    numbered = 0
    for supply in found.supplies:
        sheets = printed_sheets(supply, full=full)
        lines = [line for each in sheets for line in each.lines]
        told = [pair for each in sheets for pair in each.told]
        runs = _numbered([run for each in sheets for run in each.runs], RUN, full=full, after=numbered)
        numbered += sum(len(each.lines) for each in runs.values())
        after = sum(len(each.lines) for each in made)
        made.append(Numbering(lines, told, full=full, after=after).read_through(runs))
    return made


def _numbered(sheets: list[MethodSheet], mark: str, *, full: bool, after: int = 0) -> dict[str, Numbering]:
    """The numbers of the lines of sheets whose lines have numbers of their own, by the id of the sheet."""
    made: dict[str, Numbering] = {}
    for sheet in sheets:
        made[sheet.id] = Numbering(sheet.lines, [], full=full, after=after, mark=mark)
        after += len(made[sheet.id].lines)
    return made


def _head(found: Assessment) -> list[Block]:
    rules = found.rule_set
    rows = [
        ["Edition", f"{rules['title']} ({rules['id']})"],
        *amendment_rows(rules["amendments"]),
        ["Edition and amendments confirmed by", str(found.home["confirmed_by"] or "nobody yet")],
        ["Date of the calculation", found.date],
    ]
    rows += [[name.capitalize(), str(value)] for name, value in found.home.items() if name in ("work", "occupied")]
    if found.absent:
        rows.append(["Stated to be absent", ", ".join(found.absent)])
    blocks: list[Block] = [Heading(2, "The home and the rules"), Table("", ["", ""], rows, ["left", "left"])]
    return blocks + amendment_remarks(rules["amendments"])


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


def _sheet(printed: PrintedSheet, numbering: Numbering, *, full: bool) -> list[Block]:
    sheet = printed.sheet
    blocks: list[Block] = [Heading(2, f"{sheet.title} ({sheet.cite})"), *(_use(sheet) if printed.is_method else [])]
    blocks += schedules(printed.lines, numbering, full=full)
    blocks += line_blocks("Calculation", printed.lines, numbering, full=full)
    blocks += _notes(printed.lines)
    if sheet.left_out:
        rows = [[", ".join(entry.items), entry.because, entry.cite] for entry in sheet.left_out]
        blocks.append(Table("Left out, and why", ["What", "Why", "Section"], rows, ["left", "left", "left"]))
    return blocks


def _use(sheet: MethodSheet) -> list[Block]:
    """Whether a method may be used, and its conditions."""
    rows = []
    for each in sheet.conditions:
        needed = f"; needed: {', '.join(each.missing)}" if each.missing else ""
        rows.append([each.asks, each.cite, f"{OUTCOME_WORDS[each.outcome]}{needed}"])
    conditions = [Table("Conditions of use", ["Condition", "Section", ""], rows, ["left", "left", "left"])] if rows else []
    return [Paragraph(f"This method {USE_WORDS[sheet.may_be_used]}."), *conditions]


def _notes(lines: list[SheetLine]) -> list[Block]:
    notes = [f"{line.title}: {line.note}" for line in lines if line.note and _used(line) and not line.holds]
    return [Listing(notes)] if notes else []


def _used(line: SheetLine) -> bool:
    outcomes: list[Outcome] = [line.outcome] if line.outcome is not None else line.items
    return any(outcome.state == "known" for outcome in outcomes)


def _interpretations(supply: SupplyResult) -> list[Block]:
    rows = []
    same = []
    usual = supply.basis.title if supply.basis is not None else ""
    for each in supply.interpretations:
        if len({(option.amperes, option.verdict) for option in each.options}) == 1:
            same.append(each.question)
            continue
        for option in each.options:
            amperes = "-" if option.amperes is None else f"{option.amperes:,.2f} A"
            mark = f" (taken, {each.chosen_by})" if option.taken else ""
            name = f"{spaced(option.option)}{mark}"
            question = f"{each.question} ({each.cite})" if option is each.options[0] else ""
            rows.append([question, name, amperes, f"{option.verdict}{by_another(option.by, usual)}", option.says])
    if not rows and not same:
        return []
    blocks: list[Block] = [Heading(2, "Interpretations")]
    if rows:
        head = ["Question", "Reading", "Load", "Verdict", "What is said"]
        blocks.append(Table("Those that change the load or the verdict", head, rows, ["left", "left", "right", "left", "left"]))
    if same:
        blocks += [Paragraph("Those that make no difference in this home:"), Listing(same)]
    return blocks


SECTION = "section"
TOGETHER = {"value": "Values and tables", SECTION: "Section numbers"}


def _with_cite(what: str, cite: str) -> str:
    return what if what.endswith(cite) else f"{what} ({cite})"


def _code_values(found: Assessment) -> list[Block]:
    """The list; where an edition takes much over at one grade, all of that grade together, values and section numbers apart."""
    carried = found.rule_set["carried_over"]
    assert isinstance(carried, dict)
    together: dict[tuple[str, str], list[str]] = {}
    shown = []
    for each in found.code_values_not_verified:
        grade = each["confidence"]
        if grade in carried.values() and each["of"] in TOGETHER:
            said = each["cite"] if each["of"] == SECTION else _with_cite(each["what"], each["cite"])
            together.setdefault((each["of"], grade), []).append(said)
        else:
            shown.append(f"{_with_cite(each['what'], each['cite'])}: {grade}")
    shown += [f"{TOGETHER[of]}, {grade}: {'; '.join(dict.fromkeys(said))}" for (of, grade), said in together.items()]
    before = [
        Paragraph(f"What {title} takes over from the edition before it is graded {grade} here, unless a text on it was seen.")
        for title, grade in carried.items()
    ]
    return [Heading(2, "Code values not verified"), *before, Listing(shown or ["none that this result rests on"])]


def _closing(found: Assessment) -> list[Block]:
    blocks: list[Block] = []
    if found.field_page:
        blocks += [Heading(2, "To be found in the field by inspector and installer"), Listing(found.field_page)]
    if found.checklist:
        blocks += [
            Heading(2, "What a replacement of the service would also bring (from memory, by edition)"),
            Listing(found.checklist),
        ]
    blocks += [Heading(2, "Cautions"), Listing([*found.cautions, found.basis_note])]
    wanted = ("Utility's available fault current", "Utility's letter", "Revision, and what it supersedes", "Signature, date")
    blocks.append(Table("To be filled in", ["", ""], [[name, BLANK] for name in wanted], ["left", "left"]))
    digests = f"Rules {found.rule_set['digest'][:16]}, facts {found.facts_digest[:16]}, dwellcalc {found.engine_version}."
    return [*blocks, Paragraph(digests)]
