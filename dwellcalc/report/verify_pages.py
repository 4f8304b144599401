"""What came of holding a document against itself and the rules, in print."""

from __future__ import annotations

from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table
from dwellcalc.report.wording import counted
from dwellcalc.review.sheets.verify import Verified

MOST = 30  # differences that are printed


def verify_pages(found: Verified) -> list[Block]:
    """The page of what holds and what does not."""
    blocks: list[Block] = [
        Heading(1, f"Held against itself and the rules: {found.title}"),
        Paragraph(_answer(found)),
        Listing(_told(found)),
    ]
    if found.disagreements:
        rows = [
            [each.line + (f" ({each.item})" if each.item else ""), each.what, str(each.printed), str(each.recomputed)]
            for each in found.disagreements[:MOST]
        ]
        blocks += [Heading(2, "In the document itself"), Table("", ["Line", "What", "Printed", "Recomputed"], rows)]
        blocks += _more(len(found.disagreements))
    if found.differences:
        rows = [[each.where, each.there, each.calculated] for each in found.differences[:MOST]]
        blocks += [Heading(2, "Calculated again"), Table("", ["Where", "In the document", "Calculated now"], rows)]
        blocks += _more(len(found.differences))
    return blocks


def _answer(found: Verified) -> str:
    of = f"The assessment of {found.date} under {found.edition}"
    return f"{of} holds." if found.holds else f"{of} does not hold as it stands."


def _told(found: Verified) -> list[str]:
    lines = f"{counted(found.lines, 'line')} worked out again from what the document prints"
    told = [f"{lines}: {counted(len(found.disagreements), 'disagreement') if found.disagreements else 'all agree'}."]
    if found.not_again:
        return [*told, f"Not calculated again: {found.not_again}."]
    rules = "The rules are others than those that it was made with" if found.rules_changed else "By the same rules"
    if found.facts_changed:
        told.append("The facts of the home are others than those that the document was made with.")
    again = counted(len(found.differences), "difference") if found.differences else "no difference"
    return [*told, f"{rules}; calculated again from the home file in it: {again}."]


def _more(number: int) -> list[Block]:
    return [Paragraph(f"and {number - MOST:,} more")] if number > MOST else []
