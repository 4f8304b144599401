"""A review in print: the answer, the comments, every figure beside its line, and what labels were taken for."""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.report.letter import letter
from dwellcalc.report.letter_ends import note_to_the_reviewer
from dwellcalc.report.letter_outcome import not_counted, struck_in_print
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table
from dwellcalc.report.wording import counted, lowered, numbered
from dwellcalc.review.document import Review
from dwellcalc.review.finding import ERROR, QUESTION, REMARK, Finding
from dwellcalc.review.of_open import OPEN_RATING
from dwellcalc.review.tie_out import AGREES, FOLLOWS

SEVERITIES = {ERROR: "error", REMARK: "remark", QUESTION: "question"}


def review_pages(found: Review) -> list[Block]:
    """The pages of a review."""
    before = [*note_to_the_reviewer(found), *_left_aside(found), *_struck(found)]
    begin = [*before, Heading(2, "The letter")] if before else []
    blocks = [*_at_the_head(found), *begin, *letter(found)[2:]]
    blocks += _claims(found)
    blocks += _breakers(found)
    blocks += _answers(found)
    blocks += _checked(found)
    blocks += _shown(found)
    blocks += _matched(found)
    return [*blocks, Heading(2, "Cautions"), Listing(list(found.cautions))]


def in_short(found: Review) -> list[Block]:
    """The first lines of a review, with what the reviewer has to decide."""
    return [*_at_the_head(found), *note_to_the_reviewer(found)]


def _at_the_head(found: Review) -> list[Block]:
    return [Heading(1, f"Review: {found.submittal['title']}"), Table("", ["", ""], _first_lines(found))]


def _left_aside(found: Review) -> list[Block]:
    """What the reviewer puts right in the file of the submittal before anything else."""
    if not found.left_aside:
        return []
    told = (
        "These rows were matched with nothing and are in no figure, so that no comment on the load is certain. "
        "Say first what each is, in its row: `match:` with a line, or a kind of load."
    )
    rows = [f"{label}{f' - such as `match: {near}`?' if near else ''}" for label, near in found.left_aside.items()]
    return [Heading(2, "To be put right first: rows left aside"), Paragraph(told), Listing(rows)]


def _first_lines(found: Review) -> list[list[str]]:
    head, answer = found.submittal, found.answer
    rows = [
        ["Method submitted", f"{head['method_title']} ({head['section']}), {head['edition']}"],
        ["Figures", _figures(found)],
        ["Computed", _computed(found)],
        ["Comments", _numbers(found.findings)],
    ]
    if answer.rating is not None:
        by = f"by the {lowered(str(head['method_title']))}, {head['edition']}"
        load = "" if answer.amperes_required is None else f": {_amperes(answer.amperes_required)} on {answer.rating:,g} A"
        hangs = "; it depends on how the code is read, told below" if any(each.turns for each in found.readings) else ""
        rows.insert(-1, ["Verdict", f"{answer.verdict}{load}, {by}{hangs}{_rests_on_struck(found)}"])
    if not_counted(found):
        rows.insert(-1, ["Not counted", f"what is said to come later or to be by others, {not_counted(found)}"])
    numbers = [str(number) for number, each in enumerate(found.findings, 1) if each.about == OPEN_RATING]
    if numbers:
        rows.insert(-1, ["Without", f"a load of which no rating is shown, {numbered('comment', numbers)}"])
    if found.against:
        outcomes = [each.outcome for each in found.rounds]
        told = ", ".join(f"{outcomes.count(each)} {each}" for each in dict.fromkeys(outcomes)) or "no comment in either"
        rows.append([f"Against {found.against}", told])
    if found.struck:
        rows.append(["Struck", f"{counted(len(found.struck), 'comment')}, each with its reason, not in the letter"])
    if found.findings:
        ended = "ended for want of time: another run may find more" if found.out_of_time else "ended before all pairs were tried"
        searched = ended if found.stopped_early else "all that were to be tried"
        rows.append(["Search for mistakes", f"{counted(found.tried, 'combination')} tried, {searched}"])
    return rows


def _rests_on_struck(found: Review) -> str:
    """The outcome with what the reviewer has struck as submitted, where that is another."""
    step = found.with_struck
    if step is None:
        return ""
    hangs = "; the outcome rests on what is struck: with" if step.verdict != found.answer.verdict else "; with"
    return f"{hangs} {struck_in_print(found)} as submitted {step.verdict}, {step.amperes:,.2f} A"


def _struck(found: Review) -> list[Block]:
    """The comments that the reviewer has struck, each with the reason."""
    if not found.struck:
        return []
    rows = [f"{each.finding.printed_title} ({SEVERITIES[each.finding.severity]}): {each.reason}" for each in found.struck]
    return [Heading(2, "Struck by the reviewer, not in the letter"), Listing(rows)]


def _amperes(value: float | None) -> str:
    return "not known" if value is None else f"{value:,.2f} A"


def _computed(found: Review) -> str:
    if found.answer.total is None:
        return "cannot be calculated from what is given"
    return f"{found.answer.total:,.0f} VA, {_amperes(found.answer.amperes)}"


def _figures(found: Review) -> str:
    agree = [each.outcome for each in found.claims].count(AGREES)
    follow = [each.outcome for each in found.claims].count(FOLLOWS)
    rest = len(found.claims) - agree - follow
    told = f"{agree} of {counted(len(found.claims), 'figure')} agree"
    told += f", {follow} {'is' if follow == 1 else 'are'} rightly made of others that differ" if follow else ""
    return f"{told}, {rest} to be looked at" if rest else told


def _numbers(findings: Sequence[Finding]) -> str:
    told = [
        counted([each.severity for each in findings].count(severity), SEVERITIES[severity])
        for severity in SEVERITIES
        if any(each.severity == severity for each in findings)
    ]
    return ", ".join(told) or "none"


def _claims(found: Review) -> list[Block]:
    rows = [
        [
            each.label if not each.item or each.item == each.label else f"{each.label}, {each.item}",
            each.submitted,
            each.computed + (f"\n({each.following} follows)" if each.following else ""),
            each.outcome,
            each.cited,
            each.section,
        ]
        for each in found.claims
    ]
    head = ["Figure", "Submitted", "Computed", "Outcome", "Cited", "Section"]
    return [Heading(2, "Every figure"), Table("", head, rows, ["left", "right", "right"])]


def _breakers(found: Review) -> list[Block]:
    if not found.breakers:
        return []
    rows = [
        [each.label, each.load, each.breaker, each.least, each.largest, _judged(each.verdict, each.why), each.section]
        for each in found.breakers
    ]
    head = ["Circuit", "Load", "Breaker", "Least", "Largest", "Outcome", "Section"]
    table = Table("", head, rows, ["left", "left", "right", "right", "right"])
    return [Heading(2, "Breakers of the schedule"), table, Paragraph("The conductors of these circuits are not looked at.")]


def _shown(found: Review) -> list[Block]:
    """What is shown with the submittal; the letter does not repeat it."""
    if not found.shown:
        return []
    return [Heading(2, "Shown with the submittal"), Listing([f"{of}: {text}" for of, text in found.shown.items()])]


def _answers(found: Review) -> list[Block]:
    """The keys that answer the questions, by the number of the comment; the letter does not tell them."""
    told = [(number, each) for number, each in enumerate(found.findings, 1) if each.answered_by]
    rows = [f"{number}. {each.printed_title}: {each.answered_by}" for number, each in told]
    return [Heading(2, "What answers the questions, in the submittal file"), Listing(rows)] if rows else []


def _checked(found: Review) -> list[Block]:
    """What of the supply was looked at and is in order; the letter does not tell it."""
    return [Heading(2, "Looked at and in order"), Listing([f"{each}." for each in found.checked])] if found.checked else []


def _judged(verdict: str, why: str) -> str:
    return f"{verdict}: {why}" if why else verdict


def _matched(found: Review) -> list[Block]:
    if not found.matched:
        return []
    rows = [[each.label, each.what, each.title, f'"{each.by}", {each.how}' if each.by else each.how] for each in found.matched]
    told = Paragraph("What is not meant so is put right in the row: `match:` with a line, or a kind of load.")
    return [Heading(2, "What the labels were taken for"), Table("", ["Label", "Taken for", "Which is", "By"], rows), told]
