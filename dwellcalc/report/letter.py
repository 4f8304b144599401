"""The letter of comments to who submitted a calculation, in plain and courteous words."""

from __future__ import annotations

from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table
from dwellcalc.report.wording import lowered, numbered
from dwellcalc.review.document import STILL_OPEN, PutRight, Review
from dwellcalc.review.finding import POLICY, Figure, Finding
from dwellcalc.review.of_later import LATER
from dwellcalc.review.of_readings import TURNS
from dwellcalc.review.suspects import READING

TO_FILL_IN = "______________________________"
LEAST = 0.005  # [A] of an effect that is printed


def letter(found: Review) -> list[Block]:
    """The letter: what was looked at, each comment, and what ends it."""
    head = found.submittal
    blocks: list[Block] = [Heading(1, f"Comments on the calculation: {head['title']}"), _parties(found)]
    if not found.findings:
        told = [Paragraph(_nothing(found)), *_readings(found), *_of_edition(found)]
        return [*blocks, *told, Paragraph(_end(found))]
    begin = (
        f"Thank you for the calculation. It was recomputed line by line by the {lowered(str(head['method_title']))} "
        f"({head['section']}), {head['edition']}. We ask you to look at the following"
    )
    weighed = any(each.effect_amperes for each in found.findings)
    ordered = "; what changes the answer comes first." if weighed and len(found.findings) > 1 else "."
    blocks += [
        Paragraph(f"{begin}{ordered}"),
        Paragraph(_corrected(found)),
        *_readings(found),
        *_of_edition(found),
        Heading(2, "Comments"),
    ]
    for number, finding in enumerate(found.findings, 1):
        blocks += _comment(number, finding, found)
    blocks += _one_after_another(found)
    if found.rounds:
        blocks += [Heading(2, "The comments before"), Listing([f"{each.outcome}: {each.title}" for each in found.rounds])]
    return [*blocks, Paragraph(_end(found))]


def _corrected(found: Review) -> str:
    """What the load comes to, and whether the service suffices, with every figure as it was recomputed."""
    answer = found.answer
    if answer.total is None or answer.amperes is None:
        return "The load cannot be calculated from what was submitted."
    begin = "With the figures put right" if found.put_right is not None else "As recomputed,"
    told = [f"{begin} the calculated load is {answer.total:,.0f} VA, {answer.amperes:,.2f} A."]
    required = answer.amperes_required
    if required is not None and abs(required - answer.amperes) >= LEAST:
        told.append(f"The supply must carry {required:,.2f} A.")
    if answer.rating is not None:
        said = {FITS: "it suffices for this load", DOES_NOT_FIT: "it does not suffice for this load"}
        outcome = said.get(answer.verdict, "whether it suffices is open")
        dropped = answer.verdict == FITS and (required or answer.amperes) > answer.rating
        fraction = "; a fraction of an ampere under one half is dropped" if dropped else ""
        told.append(f"The {lowered(str(found.submittal['supply']))} is of {answer.rating:,g} A: {outcome}{fraction}.")
    if hanging(found):
        told.append(f"This hangs on a reading of the code, {hanging(found)}.")
    if not_counted(found):
        told.append(f"Not counted is what is said to come later or to be of others, {not_counted(found)}.")
    return " ".join(told)


def not_counted(found: Review) -> str:
    """The comments on what is said to come later or to be of others and is not counted, by number, or empty."""
    return numbered("comment", [str(number) for number, each in enumerate(found.findings, 1) if each.about == LATER])


def hanging(found: Review) -> str:
    """The comments on readings of the code that the outcome hangs on, by number, or empty."""
    told = [each.about == TURNS or (each.about == READING and each.changes_verdict) for each in found.findings]
    return numbered("comment", [str(number) for number, each in enumerate(told, 1) if each])


def _parties(found: Review) -> Block:
    """Who the letter is to, what it is about and who it is from; what the submittal does not name is left to be filled in."""
    told = {"To": "applicant", "Permit": "permit", "Reviewed by": "reviewer"}
    rows = [[name, found.parties.get(of, "") or TO_FILL_IN] for name, of in told.items()]
    return Table("", ["", ""], [*rows, ["Date", found.date]])


def _readings(found: Review) -> list[Block]:
    """How the code is read, where the reviewer says it."""
    return [Paragraph(each) for each in found.readings]


def _of_edition(found: Review) -> list[Block]:
    return [Paragraph(found.edition_remark)] if found.edition_remark else []


def _nothing(found: Review) -> str:
    head = found.submittal
    return (
        f"Thank you for the calculation. It was recomputed line by line by the {lowered(str(head['method_title']))} "
        f"({head['section']}), {head['edition']}, and we have no comment on its figures."
    )


def _end(found: Review) -> str:
    return (
        f"These comments are on the figures as they were submitted, on {found.date}. They are no inspection and decide nothing: "
        "the adopted code, its local amendments and the authority having jurisdiction govern."
    )


def _comment(number: int, finding: Finding, found: Review) -> list[Block]:
    weight = finding.severity if finding.status != POLICY else f"{finding.severity}, practice rather than text of the code"
    cite = f" - {finding.section}" if finding.section else ""
    blocks: list[Block] = [Heading(3, f"{number}. {_title(finding)}{cite} ({weight})")]
    if finding.figures:
        blocks.append(_figures(finding.figures))
    sentences = [finding.text, _effect(finding, found)]
    if any(each.id == finding.id and each.outcome == STILL_OPEN for each in found.rounds):
        sentences.append("This comment was made before and is still open.")
    if finding.equal:
        sentences.append("The same figures would result where " + "; or where ".join(finding.equal) + ".")
    if finding.send:
        sentences.append(f"Please send {finding.send}.")
    return [*blocks, Paragraph(" ".join(each for each in sentences if each))]


def _title(finding: Finding) -> str:
    """The submittal's own label where a comment is on figures; else what the comment is about."""
    labels = [each.label for each in finding.figures if each.label not in (each.line, each.line.partition(".")[2])]
    return ", ".join(dict.fromkeys(labels)) or finding.title


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
    """What it comes to with the comment put right, alone and with all the others."""
    if finding.effect_amperes is None:
        return ""
    together = _with_the_others(found)
    put_right = f"With {finding.put_right or 'this put right'}{' alone' if together else ''}"
    if abs(finding.effect_amperes) < LEAST:
        told = f"{put_right} the amperes stay the same"
    else:
        more = "more" if finding.effect_amperes > 0 else "less"
        told = f"{put_right} the load is {abs(finding.effect_amperes):,.2f} A {more}"
    if finding.changes_verdict:
        told += f", and the verdict changes from {finding.verdict_before} to {finding.verdict_after}"
    elif finding.verdict_after:
        told += "; the verdict does not change"
    return f"{told}.{together}"


def _with_the_others(found: Review) -> str:
    """What the supply must carry with all comments on figures put right, where there are several."""
    if found.put_right is None or len(found.put_right.steps) <= len(("as submitted", "put right")):
        return ""
    last = found.put_right.steps[-1]
    return f" With all comments on figures put right it is {last.amperes:,.2f} A, {last.verdict}."


def _one_after_another(found: Review) -> list[Block]:
    """The comments on figures put right one after another, and what of the submitted total none of them explains."""
    made = found.put_right
    if made is None or (not made.submitted and not _with_the_others(found)):
        return []
    numbers = {each.id: f"{number}. {_title(each)}" for number, each in enumerate(found.findings, 1)}
    rows = []
    for number, step in enumerate(made.steps):
        change = step.amperes - made.steps[number - 1].amperes if number else 0.0
        shown = [numbers.get(step.put_right, "The figures as submitted"), f"{step.total:,.0f} VA", f"{step.amperes:,.2f} A"]
        rows.append([*shown, _change(change) if number else "", step.verdict])
    head = ["Put right, with those before it", "Load", "The supply must carry", "Change", "Verdict"]
    told = (
        "The last row is the load by the rules. A comment may change less or more here than alone: "
        "demand factors, and the larger of two loads, stand between."
    )
    if found.answer.total is not None and abs(found.answer.total - made.steps[-1].total) >= LEAST:
        told = f"By the rules it is {found.answer.total:,.0f} VA; the rest is left unexplained."
    blocks: list[Block] = [Heading(2, "The comments on figures put right, one after another")]
    blocks += [Table("", head, rows, ["left", "right", "right", "right", "left"]), Paragraph(told)]
    return [*blocks, *([Paragraph(_not_explained(made))] if made.submitted else [])]


def _change(amperes: float) -> str:
    return f"{amperes:+,.2f} A" if abs(amperes) >= LEAST else "none"


def _not_explained(made: PutRight) -> str:
    """The part of the submitted total that no comment explains."""
    return (
        f"The submitted total is {made.submitted}; the submitted figures come to {made.follows}. The difference of "
        f"{abs(made.not_explained):,.0f} VA is left unexplained: figures rounded on the way, or slips that cancel each other."
    )
