"""The first lines of a sheet: the verdict with method and edition, what it hangs on, and the figures."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.decide.document import (
    DOES_NOT_FIT,
    FITS,
    NOTHING,
    Assessment,
    SupplyResult,
)
from dwellcalc.decide.marked_results import OtherwiseMarked
from dwellcalc.evaluate.printed import number
from dwellcalc.report.asked import asked_blocks
from dwellcalc.report.candidates import decided_blocks, to_choose_blocks
from dwellcalc.report.carried_on import told_once
from dwellcalc.report.decision_pages import decision_blocks
from dwellcalc.report.figures import SERVICE, figures
from dwellcalc.report.lines import of_supply_alone
from dwellcalc.report.outcome import but_not_all, outcome_blocks
from dwellcalc.report.tables import VERDICT, Block, Heading, Listing, Paragraph, Table
from dwellcalc.report.turning import edition_blocks, edition_table, turning_blocks
from dwellcalc.report.unknowns import of_other_methods, of_suspected, unknown_blocks
from dwellcalc.report.wording import lowered

USE_WORDS = {"yes": "may be used", "no": "may not be used", "on condition": "may be used on condition"}
RATING_NOT_READ = (
    "A rating that could not be read may be written between bounds, such as `... kW to ... kW`, or as `typical` where the rules "
    "know a typical one; the answer then says what it is worth."
)
NOT_PROVED, TO_CHOOSE = "Condition, not proved yet", "Condition for what is to be chosen"
TOO_SMALL = "The supply conductors are too small for the main then; that is to be put right whatever the load is."
FITS_BUT = "The load fits{only_if}{but}"
VERDICT_WORDS = {FITS: "Fits", DOES_NOT_FIT: "Does not fit", NOTHING: "Nothing to compare with"}


def overview(found: Assessment) -> Table:
    """The supplies of a home with their verdicts, before their answers."""
    rows = []
    for supply in found.supplies:
        sizing, basis = supply.sizing, supply.basis
        carried = "" if sizing is None or sizing.amperes is None else f"{sizing.amperes:,.2f} A"
        capacity = "" if sizing is None or sizing.capacity is None else f"{number(sizing.capacity)} A"
        verdict = VERDICT_WORDS.get(supply.verdict, "Open") + (", on condition" if supply.conditions else "")
        verdict += "; not all is as it must be" if supply.shortcomings else ""
        rows.append([supply.title, verdict, carried, capacity, basis.title if basis else ""])
    head = ["Supply", "Verdict", "Load", "Capacity", "Method"]
    return Table(f"All supplies, by {found.rule_set['title']}", head, rows, ["left", "left", "right", "right", "left"])


def in_short(found: Assessment) -> list[Block]:
    """The verdict alone: of the one supply with its method and all that is to be put right, of several as a table."""
    found = told_once(found)
    if len(found.supplies) > 1:
        return [*outcome_blocks(found), *asked_blocks(found), overview(found)]
    supply = found.supplies[0]
    return verdict_blocks(found, supply) if supply.basis is not None and supply.sizing is not None else no_answer(found, supply)


def answer(found: Assessment, supply: SupplyResult) -> list[Block]:
    """The answer for one supply."""
    blocks: list[Block] = [Heading(2, answer_title(found, supply))]
    if supply.basis is None or supply.sizing is None:
        return [*blocks, *no_answer(found, supply), *not_used(supply), *unknown_blocks(supply)]
    blocks += verdict_blocks(found, supply)
    blocks += unknown_blocks(supply)
    blocks.append(figures(found, supply, supply.sizing))
    blocks += to_choose_blocks(supply)
    blocks += turning_blocks(supply) + edition_blocks(found, supply) + edition_table(supply)
    if len(found.supplies) == 1:
        blocks += decision_blocks(found)
    blocks += methods_blocks(supply) + decided_blocks(supply)
    if supply.verdict != DOES_NOT_FIT:
        blocks += not_calculated(found)
    return [*blocks, *([Listing(supply.remarks)] if supply.remarks else [])]


def answer_title(found: Assessment, supply: SupplyResult) -> str:
    """What stands over the answer for a supply."""
    return "The answer" if len(found.supplies) == 1 else f"The answer for {_called(supply)}"


def verdict_blocks(found: Assessment, supply: SupplyResult) -> list[Block]:
    """The outcome, the verdict, what else is to be put right, what it hangs on, what is to be asked; for a supply with an answer."""
    assert supply.sizing is not None
    alone = len(found.supplies) == 1
    blocks: list[Block] = outcome_blocks(found) if alone else []
    blocks.append(Paragraph(verdict_sentence(found, supply), VERDICT))
    blocks += [Paragraph(f"But: {text}") for text in supply.shortcomings]
    blocks += [Paragraph(text) for text in _settings_that_suit(found, supply)]
    circuits = supply.circuits.circuits if supply.circuits is not None else []
    open_ones = [each.load for each in circuits if each.missing]
    blocks += [Paragraph(f"Circuits that cannot be sized yet: {', '.join(open_ones)}.")] if open_ones else []
    if supply.verdict == DOES_NOT_FIT:
        blocks += not_calculated(found)
    chosen = _to_be_chosen(supply)
    blocks += [Paragraph(f"{TO_CHOOSE if text in chosen else NOT_PROVED}: {text}.") for text in supply.conditions]
    blocks += asked_blocks(found) if alone else []
    blocks += [Paragraph(_otherwise(each)) for each in supply.otherwise]
    if supply.sizing.missing:
        blocks += [Paragraph("It cannot be said whether it fits until these are known:"), Listing(supply.sizing.missing)]
    return blocks


def _otherwise(found: OtherwiseMarked) -> str:
    """What the supply may carry where what is assumed of it is otherwise, and whether it suffices."""
    today = "" if found.today is None else f"as it is without what is planned, {found.today:,.2f} A, {found.verdict_today}; "
    told = f"{today}{'with it, ' if today else ''}{found.amperes:,.2f} A, {found.verdict}"
    taken = f"The {found.meaning} is taken as {found.taken}, for nobody has read it. If it is {found.word}"
    short = f" {TOO_SMALL}" if found.conductors_suffice is False else ""
    return f"{taken}, the capacity is {number(found.capacity)} A: {told}.{short} {found.remark}".strip()


def _to_be_chosen(supply: SupplyResult) -> set[str]:
    """The conditions of a supply to be installed that wait only for what of it is to be chosen, such as its conductors."""
    sheets = [each for each in supply.methods if supply.basis is not None and each.id == supply.basis.method]
    every = [each for sheet in sheets for each in sheet.conditions if each.missing and supply.to_be_installed]
    return {each.asks for each in every if of_supply_alone(each.missing)}


def _settings_that_suit(found: Assessment, supply: SupplyResult) -> Iterator[str]:
    """The largest setting with which a listed breaker suits a load that is to be put right."""
    wrong = {each.load for each in supply.circuits.circuits if each.put_right} if supply.circuits is not None else set()
    for load in found.decision.settings:
        suit = [row.setting for row in load.settings if row.listed_suits]
        below = [each for each in suit if each < load.counted]
        if load.load in wrong and below:
            yield f"The breaker that is listed suits {load.load} where it is set to {max(below):g} A."


def not_calculated(found: Assessment) -> list[Block]:
    """What an assessment leaves out."""
    return [Paragraph(f"Not calculated here: {'; '.join(found.not_calculated)}.")] if found.not_calculated else []


def methods_blocks(supply: SupplyResult) -> list[Block]:
    """The methods side by side, where there is more than one."""
    return [_methods(supply), *of_other_methods(supply), *not_used(supply)] if len(supply.results) > 1 else []


def _called(supply: SupplyResult) -> str:
    name = lowered(supply.title)
    return f"the {name}" if supply.kind == SERVICE else name


def verdict_sentence(found: Assessment, supply: SupplyResult) -> str:
    """The verdict with its method and edition."""
    assert supply.basis is not None
    unseen = supply.verdict == FITS and supply.sizing is not None and supply.sizing.to_verify
    only_if = (
        f" if the supply conductors, not seen, are {supply.sizing.seen_to_suffice()} or larger"
        if unseen and supply.sizing
        else ""
    )
    words = f"{VERDICT_WORDS.get(supply.verdict, 'Open')}{only_if}{of_suspected(supply)}"
    if supply.shortcomings and supply.verdict == FITS:
        words = FITS_BUT.format(only_if=only_if, but=but_not_all([supply]))
    by = f'by the method "{supply.basis.title}", {found.rule_set["title"]}'
    if supply.verdict == NOTHING:
        return f"{words}: no rating of a supply is given. Calculated {by} ({supply.basis.because})."
    condition = ", on condition" if supply.conditions else ""
    tried = "".join(f" Tried before it: {lowered(each['title'])}; {each['because']}." for each in supply.basis.fell_back_from)
    return f"{words}{condition}{_settings_counted(found, supply)}, {by} ({supply.basis.because}).{tried}{_other_editions(found, supply)}"


def _other_editions(found: Assessment, supply: SupplyResult) -> str:
    """The editions by which the verdict is another, where every one was calculated and nobody has confirmed which is adopted."""
    others = [each for each in supply.editions if each.verdict != supply.verdict and not found.home["confirmed_by"]]
    by_verdict = {each.verdict: [one.edition for one in others if one.verdict == each.verdict] for each in others}
    return "".join(f" By {', '.join(editions)}: {verdict}." for verdict, editions in by_verdict.items())


def _settings_counted(found: Assessment, supply: SupplyResult) -> str:
    """The settings with which a supply fits, of each load that can be set."""
    if supply.verdict != FITS:
        return ""
    quantity = {load.name: load.quantity for load in supply.loads}
    fixed = [each for each in found.decision.settings if each.load in quantity]
    told = [f"{each.load} set to {each.counted:g} A{each.against_wanted()}{_times(quantity[each.load])}" for each in fixed]
    return f", with {' and '.join(told)}" if told else ""


def _times(quantity: float) -> str:
    return "" if quantity == 1 else f" (each of {quantity:g})"


def _methods(supply: SupplyResult) -> Table:
    rows = []
    before = supply.before.results if supply.before is not None else []
    without = {each.id: f"{each.amperes:,.2f} A" for each in before}
    for each in supply.results:
        if each.may_be_used == "no":
            continue
        total = "cannot be calculated" if each.total is None else f"{each.total:,.0f} VA"
        amperes = "" if each.amperes is None else f"{each.amperes:,.2f} A"
        use = [USE_WORDS[each.may_be_used], "taken" if each.basis else ""]
        rows.append([each.title, total, amperes, *([without.get(each.id, "")] if without else []), *use])
    planned = ["Without what is planned"] if without else []
    head = ["Method", "Load", "Amperes", *planned, "Whether it may be used", "Which is taken"]
    return Table("Methods", head, rows, ["left", "right", "right", *("right" for _ in planned)])


def not_used(supply: SupplyResult) -> list[Block]:
    """The methods that may not be used, each with what keeps it from being used."""
    told = []
    for method in supply.methods:
        if method.may_be_used == "no":
            told.append(f"{method.title} - {'; '.join(each.if_not for each in method.conditions if each.outcome == 'no')}")
    return [Paragraph("May not be used for this supply:"), Listing(told)] if told else []


def no_answer(found: Assessment, supply: SupplyResult) -> list[Block]:
    """What is said of a supply without a result."""
    others = [each.title for each in supply.results if each.may_be_used != "no" and each.total is not None]
    what = "none of the methods calculated here gives a result"
    lacking = [each.title for each in supply.results if each.may_be_used != "no" and each.total is None]
    if others and lacking and supply.unknowns:
        what = (
            f"it does not fit by the {lowered(others[0])}, but it may by another method that lacks an input: {', '.join(lacking)}"
        )
    elif others:
        these = "these do" if others[1:] else "this one does"
        what = f"the method that was asked for gives no result here; {these}: {', '.join(others)}"
    short = [] if found.supplies[1:] else outcome_blocks(found)
    blocks: list[Block] = [*short, Paragraph(f"Open: {what}.", VERDICT), *not_calculated(found)]
    if supply.unknowns:
        blocks += [Paragraph("Cannot be calculated until these are known:"), Listing(supply.unknowns)]
        if any(each.endswith(": rating") for each in supply.unknowns):
            blocks.append(Paragraph(RATING_NOT_READ))
    if supply.refusals:
        blocks += [Paragraph("Cannot be calculated by the tables of the code:"), Listing(supply.refusals)]
    return blocks
