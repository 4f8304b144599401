"""The parts of a calculation sheet as blocks, for every form in which it is printed.

Nothing is computed here: every number comes from the document.
"""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.decide.choices import BY_HOME
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, OPEN, Assessment, OptionResult, SupplyResult
from dwellcalc.evaluate.sheet import MethodSheet, Outcome, SheetLine
from dwellcalc.home.glossary_names import ATTACHMENT
from dwellcalc.home.starting.remarks import TODAY
from dwellcalc.placed import spaced
from dwellcalc.report.amendment_pages import amendment_remarks, amendment_rows
from dwellcalc.report.answer import USE_WORDS
from dwellcalc.report.lines import Numbering, line_blocks, schedules
from dwellcalc.report.printed_sheets import PrintedSheet
from dwellcalc.report.tables import ON_SCREEN, Block, Heading, Listing, Paragraph, Table
from dwellcalc.report.turning import by_another, not_verified_text
from dwellcalc.report.unknowns import at_largest, settings_in_words
from dwellcalc.report.wording import AS_HOME_SAYS, lowered

REMARKS_TITLE = "Remarks of who made this sheet"
TOLD_TITLE = "What was told beside the answers"
OF_TODAY = TODAY.format(told="")
REMARKS_TOLD = "In the words of who made this sheet; no figure in them was checked."
OUTCOME_WORDS = {"yes": "met", "no": "not met", "on condition": "not known"}
CHOSEN = (
    "A home file takes another reading under `interpretations:`, by the name that stands before the question: `NAME: READING`."
)
NOT_ELECTRIC = "Not electric, and counted in nothing"
NOTHING_LISTED = "No load is listed for: {what}. Nothing is counted there; where one of these is electric, the load is larger."
BLANK = "________________________"
JOB_SITE = "Job site"
OF_THE_JOB = ("Owner", JOB_SITE, "Designer or contractor", "License number", "Permit number")
OF_A_LOAD = "make, model"
NOT_SAID = ", and whether it is hardwired"
OF_THE_UTILITY = ("Utility's available fault current", "Utility's letter")
OF_THE_SHEET = ("Revision, and what it supersedes", "Signature of designer or contractor, date")
PLANNED = "planned"  # how the status of such a load begins, in print
SECTION = "section"
SUITS = 4  # the column of the settings that fit under a reading
OWN_CHOICE = "Amounts that the project chose where the text is silent, which are no values of the code and are not listed"
TOGETHER = {"value": "Values and tables", SECTION: "Section numbers"}


def confirmed_title(found: Assessment) -> str:
    """What somebody confirmed: the edition, and the amendments where some are taken into account."""
    return "Edition and amendments confirmed by" if found.rule_set["amendments"] else "Edition confirmed by"


def head_blocks(found: Assessment) -> list[Block]:
    """The edition, the amendments, who confirmed them, the date, and what the home says of itself."""
    rules = found.rule_set
    rows = [
        ["Edition", f"{rules['title']} ({rules['id']})"],
        *amendment_rows(rules["amendments"]),
        [confirmed_title(found), str(found.home["confirmed_by"] or "nobody yet")],
        ["Date of the calculation", found.date],
    ]
    rows += [[name.capitalize(), str(value)] for name, value in found.home.items() if name in ("work", "occupied")]
    if found.absent:
        rows.append(["Stated to be absent", ", ".join(found.absent)])
    blocks: list[Block] = [Heading(2, "The home and the rules"), Table("", ["", ""], rows, ["left", "left"])]
    return blocks + amendment_remarks(rules["amendments"])


def remarks_blocks(found: Assessment) -> list[Block]:
    """What who made the sheet remarks, as the home file has it; nothing where it has none."""
    said = [each for each in found.remarks if not each.startswith(OF_TODAY)]
    return [Heading(2, REMARKS_TITLE), Paragraph(REMARKS_TOLD), Listing(said)] if said else []


def told_blocks(found: Assessment) -> list[Block]:
    """What was told beside the answers of an interview on what is there, which changes no figure; nothing where nothing was."""
    told = [part for each in found.remarks if each.startswith(OF_TODAY) for part in each.removeprefix(OF_TODAY).split("; ")]
    return [Heading(2, TOLD_TITLE), Paragraph(REMARKS_TOLD), Listing(told)] if told else []


def _not_electric(found: Assessment) -> list[Block]:
    """What of the home burns gas or the like, and of what of the usual nothing is said."""
    told = [f"{NOT_ELECTRIC}: {', '.join(found.not_electric)}."] if found.not_electric else []
    told += [NOTHING_LISTED.format(what=", ".join(found.nothing_listed))] if found.nothing_listed else []
    return [Paragraph(each) for each in told]


def loads_blocks(found: Assessment, supply: SupplyResult) -> list[Block]:
    """The loads of a supply as the home file has them; below those of the first what is not electric."""
    rows = []
    several = len({load.unit for load in supply.loads}) > 1
    for load in supply.loads:
        name = load.name if load.quantity == 1 else f"{load.quantity:g} x {load.name}"
        status = f"{load.status}, replaces {', '.join(load.replaces)}" if load.replaces else load.status
        rating = "; ".join([load.rating or "not stated", *load.marked])
        row = [name, load.kind, status, rating, load.evidence or "not stated"]
        rows.append([*row, load.unit] if several else row)
    head = ["Load", "Kind", "Status", "Rating as written, and what else is stated", "Evidence", *(["In"] if several else [])]
    below = _not_electric(found) if supply.id == found.supplies[0].id else []
    return [Heading(2, "Loads"), Table("", head, rows, ["left"] * len(head)), *below] if rows else []


def sizing_remark(supply: SupplyResult, printed: PrintedSheet) -> list[Block]:
    """That the sheet of sizing does not tell what a new supply would need, where another method does."""
    new, sizing = supply.new_supply, supply.sizing
    if new is None or sizing is None or printed.sheet is not sizing.sheet or supply.basis is None or new.by == supply.basis.title:
        return []
    told = f"This load is by a method that sizes no new supply. What a new one would need is calculated by the {lowered(new.by)}"
    return [Paragraph(f"{told} and stands in the answer; a rating or conductors for this load are not that.")]


def sheet_blocks(printed: PrintedSheet, numbering: Numbering, *, full: bool, paged: bool = False) -> list[Block]:
    """A sheet: whether the method may be used, its schedules (``paged``: closer together), its numbered lines, what it leaves out."""
    sheet = printed.sheet
    blocks: list[Block] = [Heading(2, f"{sheet.title} ({sheet.cite})"), *(_use(sheet) if printed.is_method else [])]
    blocks[1:1] = [Paragraph(printed.note)] if printed.note else []
    blocks += schedules(printed.lines, numbering, full=full, paged=paged)
    blocks += line_blocks("Calculation", printed.lines, numbering, full=full, worked=printed.is_method, paged=paged)
    blocks += _notes(printed.lines)
    if printed.left_out:
        rows = [[", ".join(entry.items), entry.because, entry.cite] for entry in printed.left_out]
        blocks.append(Table("Left out, and why", ["What", "Why", "Section"], rows, ["left", "left", "left"]))
    return blocks


def apart_blocks(sheet: MethodSheet, title: str, numbering: Numbering, *, full: bool, paged: bool = False) -> list[Block]:
    """A sheet whose lines have numbers of their own, under its title."""
    printed = PrintedSheet(sheet, sheet.lines, [], is_method=bool(sheet.conditions), left_out=sheet.left_out)
    found = sheet_blocks(printed, numbering, full=full, paged=paged)
    return [Heading(2, f"{title} ({sheet.cite})"), *found[1:]]


def _use(sheet: MethodSheet) -> list[Block]:
    """Whether a method may be used, and its conditions."""
    rows = []
    for each in sheet.conditions:
        needed = f"; needed: {', '.join(each.missing)}" if each.missing else ""
        rows.append([each.asks, each.cite, f"{OUTCOME_WORDS[each.outcome]}{needed}"])
    conditions = [Table("Conditions of use", ["Condition", "Section", "Outcome"], rows, ["left", "left", "left"])] if rows else []
    return [Paragraph(f"This method {USE_WORDS[sheet.may_be_used]}."), *conditions]


def _notes(lines: list[SheetLine]) -> list[Block]:
    notes = [f"{line.title}: {line.note}" for line in lines if line.note and _used(line) and not line.holds]
    return [Listing(notes)] if notes else []


def _used(line: SheetLine) -> bool:
    """Whether a line has a value that is more than zero of nothing."""
    outcomes: list[Outcome] = [line.outcome] if line.outcome is not None else line.items
    return any(outcome.state == "known" and (outcome.value != 0 or outcome.value is False) for outcome in outcomes)


def interpretations_blocks(supply: SupplyResult) -> list[Block]:
    """The open questions of the code, with the load under each reading."""
    rows = []
    same = []
    usual = supply.basis.title if supply.basis is not None else ""
    for each in supply.interpretations:
        if len({(option.amperes, option.verdict, option.conductors) for option in each.options}) == 1:
            same.append(each.question)
            continue
        for option in each.options:
            amperes = "-" if option.amperes is None else f"{option.amperes:,.2f} A"
            by = AS_HOME_SAYS if each.chosen_by == BY_HOME else each.chosen_by
            mark = f" (taken, {by})" if option.taken else ""
            name = f"{spaced(option.option)}{mark}"
            asked = f"{spaced(each.address.rpartition('.')[2])}: {each.question} ({each.cite})"
            question = asked if option is each.options[0] else ""
            told = (
                f"a rating of {option.minimum_rating:,.0f} A"
                if option.verdict == NOTHING and option.minimum_rating
                else option.verdict
            )
            verdict = f"{told}{by_another(option.by, usual)}{_if_conductors(each.options, option)}"
            suits = settings_in_words(option.settings) if option.settings is not None and option.verdict != NOTHING else "-"
            rows.append([question, name, amperes, verdict, suits, option.says])
    if not rows and not same:
        return []
    blocks: list[Block] = [Heading(2, "Interpretations")]
    if rows:
        blocks.append(Paragraph(CHOSEN, ON_SCREEN))
        head = ["Question", "Reading", "Load", "Verdict", "Largest settings that fit", "What is said"]
        aligned = ["left", "left", "right", "left", "left", "left"]
        settings = any(row[SUITS] != "-" for row in rows)
        kept = [at for at in range(len(head)) if settings or at != SUITS]
        head, aligned, rows = [head[at] for at in kept], [aligned[at] for at in kept], [[row[at] for at in kept] for row in rows]
        blocks.append(Table(f"Those that change the load or the verdict{at_largest(supply)}", head, rows, aligned))
    if same:
        blocks += [Paragraph("Those that change neither the load of this permit nor its verdict:"), Listing(same)]
    return blocks


def _if_conductors(options: Sequence[OptionResult], option: OptionResult) -> str:
    """The conductors that the supply must have under an option, where those that are there were not seen and options differ."""
    differ = len({each.conductors for each in options}) > 1
    return f" if the supply conductors are {option.conductors} or larger" if differ and option.verdict == FITS else ""


def not_verified_blocks(supply: SupplyResult) -> list[Block]:
    """The facts of the house that nobody stated or saw."""
    later = supply.later.not_verified if supply.later is not None else []
    told = [not_verified_text(each, supply) for each in supply.facts_not_verified]
    return [Listing([*told, *(f"for later, not counted - {each}" for each in later)] or ["none"])]


def _with_cite(what: str, cite: str) -> str:
    return what if what.endswith(cite) else f"{what} ({cite})"


def code_values_blocks(found: Assessment) -> list[Block]:
    """The code values not verified; where an edition takes much over at one grade, all of that grade together, values and section numbers apart.

    A number stands by the line that it is of; what is the project's choice where the text is silent is no value of the code.
    """
    carried = found.rule_set["carried_over"]
    assert isinstance(carried, dict)
    together: dict[tuple[str, str], list[str]] = {}
    shown = []
    own = sum("status" in each for each in found.code_values_not_verified)
    for each in found.code_values_not_verified:
        if "status" in each:
            continue
        grade = each["confidence"]
        if each["of"] == SECTION or (grade in carried.values() and each["of"] in TOGETHER):
            said = each["cite"] if each["of"] == SECTION else _with_cite(_value_of(each), each["cite"])
            together.setdefault((each["of"], grade), []).append(said)
        else:
            shown.append(f"{_with_cite(_value_of(each), each['cite'])}: {grade}")
    shown += [f"{TOGETHER[of]}, {grade}: {'; '.join(dict.fromkeys(said))}" for (of, grade), said in together.items()]
    before = [
        Paragraph(f"What {title} takes over from the edition before it is graded {grade} here, unless a text on it was seen.")
        for title, grade in carried.items()
    ]
    after = [Paragraph(f"{OWN_CHOICE}: {own}.")] if own else []
    return [Heading(2, "Code values not verified"), *before, Listing(shown or ["none that this result rests on"]), *after]


def _value_of(found: dict[str, str]) -> str:
    """What a code value is: of a number, the line that reads it and what it is called there."""
    if "line" not in found:
        return found["what"]
    name, _, value = found["what"].partition(": ")
    return f"{found['line']}: {name} {value}"


def cautions(found: Assessment) -> list[str]:
    """What stands on every sheet."""
    return [*found.cautions, found.basis_note]


def field_warning(found: Assessment) -> list[Paragraph]:
    """What must stand over what inspector and installer read, where something does not fit or is not decided."""
    verdicts = {supply.verdict for supply in found.supplies}
    if DOES_NOT_FIT in verdicts:
        said = "This calculation does not fit. Nothing is to be installed by it; settings and sizes below are those that it was made with."
    elif OPEN in verdicts:
        said = (
            "Whether this fits is open. Nothing is to be installed before that is settled; settings and sizes below may change."
        )
    else:
        return []
    return [Paragraph(said)]


def fill_in_table(found: Assessment) -> Table:
    """What is left blank for others: of the job, of each load that is planned, of the utility, of who made the sheet."""
    planned = {load.name: load for supply in found.supplies for load in supply.loads if load.status.startswith(PLANNED)}
    said = {name: any(each.startswith(ATTACHMENT) for each in load.marked) for name, load in planned.items()}
    loads = [f"{name}: {OF_A_LOAD}{'' if is_said else NOT_SAID}" for name, is_said in said.items()]
    wanted = [*OF_THE_JOB, *loads, *OF_THE_UTILITY, *OF_THE_SHEET]
    return Table(
        "To be filled in",
        ["", ""],
        [[name, found.home["title"] if name == JOB_SITE else BLANK] for name in wanted],
        ["left", "left"],
    )
