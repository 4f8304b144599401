"""The letter of comments to who submitted a calculation, in plain and courteous words."""

from __future__ import annotations

from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table
from dwellcalc.report.wording import lowered
from dwellcalc.review.document import STILL_OPEN, Review
from dwellcalc.review.finding import POLICY, Figure, Finding

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
    blocks += [Paragraph(f"{begin}{ordered}"), *_of_edition(found), Heading(2, "Comments")]
    for number, finding in enumerate(found.findings, 1):
        blocks += _comment(number, finding, found)
    if found.rounds:
        blocks += [Heading(2, "The comments before"), Listing([f"{each.outcome}: {each.title}" for each in found.rounds])]
    return [*blocks, Paragraph(_end(found))]


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
    blocks: list[Block] = [Heading(3, f"{number}. {finding.title}{cite} ({weight})")]
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
    if abs(finding.effect_amperes) < LEAST:
        told = "Put right, the amperes stay the same"
    else:
        more = "more" if finding.effect_amperes > 0 else "less"
        told = f"Put right, the load is {abs(finding.effect_amperes):,.2f} A {more}"
    if finding.changes_verdict:
        return f"{told}, and the verdict changes: {finding.verdict_before} with it, {finding.verdict_after} without."
    return f"{told}; the verdict does not change." if finding.verdict_after else f"{told}."
