"""The letter of comments to who submitted a calculation, in plain and courteous words."""

from __future__ import annotations

from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table
from dwellcalc.report.wording import lowered, numbered
from dwellcalc.review.document import STILL_OPEN, Review
from dwellcalc.review.finding import POLICY, Figure, Finding
from dwellcalc.review.of_readings import TURNS

LEAST = 0.005  # [A] of an effect that is printed


def letter(found: Review) -> list[Block]:
    """The letter: what was looked at, each comment, and what ends it."""
    head = found.submittal
    blocks: list[Block] = [Heading(1, f"Comments on the calculation: {head['title']}")]
    if not found.findings:
        return [*blocks, Paragraph(_nothing(found)), *_of_edition(found), Paragraph(_end(found))]
    begin = (
        f"Thank you for the calculation. It was recomputed line by line by the {lowered(str(head['method_title']))} "
        f"({head['section']}), {head['edition']}. We ask you to look at the following"
    )
    weighed = any(each.effect_amperes for each in found.findings)
    ordered = "; what changes the answer comes first." if weighed and len(found.findings) > 1 else "."
    blocks += [Paragraph(f"{begin}{ordered}"), Paragraph(_corrected(found)), *_of_edition(found), Heading(2, "Comments")]
    for number, finding in enumerate(found.findings, 1):
        blocks += _comment(number, finding, found)
    if found.rounds:
        blocks += [Heading(2, "The comments before"), Listing([f"{each.outcome}: {each.title}" for each in found.rounds])]
    return [*blocks, Paragraph(_end(found))]


def _corrected(found: Review) -> str:
    """What the load comes to, and whether the service suffices, with every figure as it was recomputed."""
    answer = found.answer
    if answer.total is None or answer.amperes is None:
        return "The load cannot be calculated from what was submitted."
    told = f"With the figures put right the calculated load is {answer.total:,.0f} VA, {answer.amperes:,.2f} A"
    if answer.rating is None:
        return f"{told}."
    required = answer.amperes_required
    more = (
        f" The supply must carry {required:,.2f} A." if required is not None and abs(required - answer.amperes) >= LEAST else ""
    )
    said = {FITS: "it suffices for this load", DOES_NOT_FIT: "it does not suffice for this load"}
    outcome = said.get(answer.verdict, "whether it suffices is open")
    hangs = hanging(found)
    outcome += f"; this hangs on a reading of the code, {hangs}" if hangs else ""
    return f"{told}.{more} The {lowered(str(found.submittal['supply']))} is of {answer.rating:,g} A: {outcome}."


def hanging(found: Review) -> str:
    """The comments on readings of the code that the outcome hangs on, by number, or empty."""
    numbers = [str(number) for number, each in enumerate(found.findings, 1) if each.about == TURNS]
    return numbered("comment", numbers)


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
    sentences = [finding.text, _effect(finding)]
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


def _effect(finding: Finding) -> str:
    """What it comes to with the comment put right."""
    if finding.effect_amperes is None:
        return ""
    put_right = f"With {finding.put_right or 'this put right'}"
    if abs(finding.effect_amperes) < LEAST:
        told = f"{put_right} the amperes stay the same"
    else:
        more = "more" if finding.effect_amperes > 0 else "less"
        told = f"{put_right} the load is {abs(finding.effect_amperes):,.2f} A {more}"
    if finding.changes_verdict:
        return f"{told}, and the verdict changes from {finding.verdict_before} to {finding.verdict_after}."
    return f"{told}; the verdict does not change." if finding.verdict_after else f"{told}."
