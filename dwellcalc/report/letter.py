"""The letter of comments to who submitted a calculation, in plain and courteous words."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf, nextafter

from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.report.letter_ends import of_conductors, readings_told, what_would_change
from dwellcalc.report.letter_outcome import beside, corrected, several
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table
from dwellcalc.report.wording import counted, lowered, sections_in_full, sections_in_short
from dwellcalc.review.calculation import CalculationRow
from dwellcalc.review.document import STILL_OPEN, PutRight, Review
from dwellcalc.review.finding import ERROR, POLICY, QUESTION, REMARK, Figure, Finding
from dwellcalc.review.own_comments import REVIEWER
from dwellcalc.units import percent_of

TO_FILL_IN = "______________________________"
LEAST = 0.005  # [A] of an effect that is printed
WHOLE = 0.5  # [VA] of a difference that is printed
BESIDE = " *"
CALCULATIONS = ("load calc", "calculation", "calc ", "service load calc", "electrical load calc", "electric load calc")
SUM = "= "
TO_SIGN = ("Decision of the department", "Answer by", "Signature")
OF_REVIEWER = "comment of the reviewer"
OTHERS = 2  # of other explanations of the same figures, that are printed
TOGETHER = "Two things together would give the submitted figures; whether they were made so, we cannot tell:"
ANSWER = "Please answer each by its number, with a corrected calculation where a figure changes."
WEIGHTS = {ERROR: "correction", REMARK: "remark", QUESTION: "question"}
INDIRECT = ("whether", "which", "what", "how", "why", "where", "with", "if")  # a question begins so that is told, not sent


def letter(found: Review) -> list[Block]:
    """The letter: what was looked at, each comment, the calculation by the rules, and what ends it."""
    head = found.submittal
    blocks: list[Block] = [Heading(1, _title(str(head["title"]))), _parties(found)]
    by = f"Thank you for the calculation. We recomputed it line by line by the {lowered(str(head['method_title']))}"
    begin = f"{by} ({head['section']}), {head['edition']}"
    if not found.findings:
        told = [
            Paragraph(f"{begin}, and have no comment on its figures. {corrected(found)}"),
            *_of_edition(found),
            *what_would_change(found),
            *readings_told(found),
        ]
        return [*blocks, *told, *_closing(found)]
    weighed = any(each.changes_verdict or each.changes_verdict_of_supply for each in found.findings)
    ordered = "; what changes the outcome comes first." if weighed and len(found.findings) > 1 else "."
    blocks += [
        Paragraph(f"{begin}. {corrected(found)}"),
        Paragraph(f"Our comments follow{ordered} {ANSWER}"),
        *_of_edition(found),
        Heading(2, "Comments"),
    ]
    for number, finding in enumerate(found.findings, 1):
        blocks += _comment(number, finding, found)
    blocks += what_would_change(found)
    blocks += readings_told(found)
    blocks += _one_after_another(found)
    blocks += _calculation(found)
    if found.rounds:
        blocks += [Heading(2, "The comments before"), Listing([f"{each.outcome}: {each.title}" for each in found.rounds])]
    return [*blocks, *_closing(found)]


def _title(name: str) -> str:
    """The title of the letter; a name that says itself that it is a calculation is not told so twice."""
    return f"Comments on {name}" if name.casefold().startswith(CALCULATIONS) else f"Comments on the calculation: {name}"


def _parties(found: Review) -> Block:
    """Who the letter is to, what it is about and who it is from; what the submittal does not name is left to be filled in."""
    told = {"To": "applicant", "Permit": "permit", "Site": "site", "Owner": "owner", "Reviewed by": "reviewer"}
    shown = {name: of for name, of in told.items() if of in found.parties or of not in ("site", "owner")}
    rows = [[name, found.parties.get(of, "") or TO_FILL_IN] for name, of in shown.items()]
    return Table("", ["", ""], [*rows, ["Date", found.date]])


def _of_edition(found: Review) -> list[Block]:
    return [Paragraph(found.edition_remark)] if found.edition_remark else []


def _closing(found: Review) -> list[Block]:
    """What the department fills in by hand, and what the comments are not."""
    return [Table("", ["", ""], [[name, TO_FILL_IN] for name in TO_SIGN]), Paragraph(_end(found))]


def _end(found: Review) -> str:
    return (
        f"These comments are on the figures as submitted, and were written on {found.date}. They are neither an inspection nor a "
        "decision: the adopted code, its local amendments and the authority having jurisdiction govern."
    )


def _comment(number: int, finding: Finding, found: Review) -> list[Block]:
    weight = WEIGHTS[finding.severity] if finding.status != POLICY else f"{WEIGHTS[finding.severity]}, not a code requirement"
    weight = finding.weight or OF_REVIEWER if finding.about == REVIEWER else weight
    cite = f" - {sections_in_short(finding.section)}" if finding.section else ""
    blocks: list[Block] = [Heading(3, f"{number}. {finding.printed_title}{cite} ({weight})")]
    if finding.reworded_from:  # the reviewer's words first, then what is calculated
        blocks.append(Paragraph(finding.text))
    if len(finding.figures) > 1:
        blocks.append(_figures(finding.figures))
    if finding.causes:
        blocks += [Paragraph(TOGETHER), Listing(finding.causes)]
    sentences = [
        *map(_one_figure, finding.figures if len(finding.figures) == 1 else []),
        finding.stays if finding.reworded_from else finding.text if not finding.causes else "",
        _effect(finding, found),
    ]
    if any(each.id == finding.id and each.outcome == STILL_OPEN for each in found.rounds):
        sentences.append("This comment was made before and is still open.")
    if finding.equal:
        others = "; or where ".join(finding.equal[:OTHERS])
        more = f" (and in {counted(len(finding.equal[OTHERS:]), 'other way')})" if finding.equal[OTHERS:] else ""
        sentences.append(f"The same figures would result where {others}{more}.")
    if finding.send:
        asks = "tell us" if finding.send.partition(" ")[0] in INDIRECT else "send"
        sentences.append(f"Please {asks} {finding.send}.")
    sentences.append(sections_in_full(finding.section))
    told = " ".join(each for each in sentences if each)
    return [*blocks, *([Paragraph(told)] if told else [])]


def _one_figure(figure: Figure) -> str:
    """The only figure of a comment, in a sentence."""
    title = "" if figure.label.casefold() == figure.title.casefold() else f" ({lowered(figure.title)})"
    if figure.by_itself:
        right = f"with this alone put right {figure.by_itself}, with all that is told here {figure.computed}"
        return f"{_label_of(figure)}: submitted {figure.submitted}; {right}{title}."
    return f"Submitted {figure.submitted}, computed {figure.computed}{title}."


def _label_of(figure: Figure) -> str:
    return figure.title if figure.label in (figure.line, figure.line.partition(".")[2]) else figure.label


def _figures(figures: list[Figure]) -> Block:
    rows = [[_named(each), each.submitted, each.computed] for each in figures]
    return Table("", ["Figure", "Submitted", "Computed"], rows, ["left", "right", "right"])


def _named(figure: Figure) -> str:
    item = f", {figure.item}" if figure.item and figure.item != figure.label else ""
    if figure.label in (figure.line, figure.line.partition(".")[2]):
        return f"{figure.title}{item}"
    named = f"{figure.label}{item}"
    return named if figure.label.casefold() == figure.title.casefold() else f"{named}: {figure.title}"


def _effect(finding: Finding, found: Review) -> str:
    """What it comes to with the comment put right by itself."""
    if finding.effect_amperes is None:
        return ""
    begin = "On its own this correction" if several(found) else "This correction"
    outcome = _outcome(finding, lowered(str(found.submittal["supply"])), of_conductors(found), alone=several(found))
    return f"{begin} {_changed(finding, {each.percent for each in found.calculation})}{outcome}."


def _changed(finding: Finding, percents: Iterable[float]) -> str:
    """By how much the load changes, and by which share of what the figure does, where a demand factor lessens it."""
    amperes, load, difference = finding.effect_amperes or 0.0, finding.effect_load, finding.difference
    if abs(amperes) < LEAST:
        return "leaves the amperes as they are"
    if load is None or abs(load) < WHOLE:
        return f"{_more(amperes, 'A', 2)} the load"
    of_load = f"{abs(load):,.0f} VA ({_rounded(amperes, 2)} A) {'to' if load > 0 else 'off'} the load"
    does = "adds" if load > 0 else "takes"
    if difference is None or abs(abs(difference) - abs(load)) < WHOLE or (difference > 0) != (load > 0):
        return f"{does} {of_load}"
    share = percent_of(load, difference)
    at = next((f", at {each:g} %," for each in percents if abs(share - each) < LEAST), "")
    return f"{_more(difference, 'VA', 0)} the figure and{at} {of_load}"


def _more(value: float, unit: str, decimals: int) -> str:
    """That some of a unit is added to something, or taken off it."""
    amount = f"{_rounded(value, decimals)} {unit}"
    return f"adds {amount} to" if value > 0 else f"takes {amount} off"


def _rounded(value: float, decimals: int) -> str:
    """The amount of a number in print, a half rounded up."""
    return f"{nextafter(abs(value), inf):,.{decimals}f}"


def _outcome(finding: Finding, supply: str, conductors: str, *, alone: bool) -> str:
    """What becomes of the verdict; where larger supply conductors are asked for, with these where it turns with them alone."""
    if not finding.verdict_after:
        return ""
    told = {(FITS, DOES_NOT_FIT): "no longer suffices", (DOES_NOT_FIT, FITS): "then suffices"}
    by_supply = told.get((finding.supply_before, finding.supply_after))
    if not finding.changes_verdict and by_supply is not None:
        return f"; with the supply conductors corrected{beside(conductors)}, the {supply} {by_supply} by it"
    if not finding.changes_verdict:
        return "; the outcome stays the same with it alone" if alone else "; the outcome stays the same"
    found = told.get((finding.verdict_before, finding.verdict_after))
    if found is None:
        return f", and the outcome changes from {finding.verdict_before} to {finding.verdict_after}"
    return f", and the {supply} {found}"


def _one_after_another(found: Review) -> list[Block]:
    """The comments on figures put right one after another, and what of the submitted total none of them explains."""
    made = found.put_right
    if made is None or (not made.submitted and not several(found)):
        return []
    numbers = {each.id: f"{number}. {each.printed_title}" for number, each in enumerate(found.findings, 1)}
    rows = []
    for number, step in enumerate(made.steps):
        change = step.amperes - made.steps[number - 1].amperes if number else 0.0
        shown = [numbers.get(step.put_right, "The figures as submitted"), f"{step.total:,.0f} VA", f"{step.amperes:,.2f} A"]
        rows.append([*shown, _change(change) if number else "", step.verdict])
    head = ["Corrected, with those before it", "Load", "The supply must carry", "Change", "Verdict"]
    last = "the load with all of these corrected" if found.with_struck is not None else "the load by the rules"
    told = (
        f"The last row is {last}. A correction may change less or more here than on its own, "
        "because of demand factors and because only the larger of two loads counts."
    )
    if found.conductors is not None:
        told += f" The verdicts are with the supply conductors corrected{beside(of_conductors(found))}."
    if found.struck:
        told += " Figures on which we make no comment are taken as submitted."
    elif found.answer.total is not None and abs(found.answer.total - made.steps[-1].total) >= LEAST:
        told = f"By the rules it is {found.answer.total:,.0f} VA; the rest is left unexplained."
    blocks: list[Block] = [Heading(2, "The corrections one after another")]
    blocks += [Table("", head, rows, ["left", "right", "right", "right", "left"]), Paragraph(told)]
    return [*blocks, *([Paragraph(_not_explained(made))] if made.submitted else [])]


def _calculation(found: Review) -> list[Block]:
    """The calculation by the rules beside the figures of the submittal, where a comment is on a figure."""
    if not found.calculation or found.put_right is None:
        return []
    rows = [
        [
            f"{SUM if each.is_sum else ''}{each.label}",
            each.working,
            each.submitted,
            each.computed + (BESIDE if _differs(each) else ""),
        ]
        for each in found.calculation
    ]
    told = f"Rows marked{BESIDE} differ from the submittal." if any(map(_differs, found.calculation)) else ""
    table = Table("", ["Line", "Working", "Submitted", "By the rules"], rows, ["left", "left", "right", "right"])
    return [Heading(2, "The calculation by the rules"), table, *([Paragraph(told)] if told else [])]


def _differs(row: CalculationRow) -> bool:
    """Whether a row has a figure of the submittal that is another."""
    return bool(row.submitted) and not row.agrees


def _change(amperes: float) -> str:
    return f"{'+' if amperes > 0 else '-'}{_rounded(amperes, 2)} A" if abs(amperes) >= LEAST else "none"


def _not_explained(made: PutRight) -> str:
    """The part of the submitted total that no comment explains."""
    return (
        f"The submitted total is {made.submitted}; the submitted figures come to {made.follows}. We cannot explain the "
        f"difference of {abs(made.not_explained):,.0f} VA: figures may be rounded on the way, or slips may cancel each other."
    )
