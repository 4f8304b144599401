"""A question for a control that keeps two loads from running at once, where that alone would let the load fit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.document import FITS
from dwellcalc.review.finding import POLICY, QUESTION, Finding
from dwellcalc.review.on_top import OnTop
from dwellcalc.review.phrases import Phrases
from dwellcalc.review.submittal import Submittal

KEPT_APART = "kept apart"  # what such a question is about


def on_kept_apart(
    submittal: Submittal, alternatives: Iterable[AlternativeResult], asked_for: OnTop | None = None
) -> Iterator[Finding]:
    """The question; none where the submittal says of such a control that there is one, or none.

    Args:
        submittal: as it was read.
        alternatives: what would change the outcome.
        asked_for: a load that another comment asks for and is in no figure yet.
    """
    plan = submittal.instructions.review
    words = Phrases(
        word for reason in (plan.reasons if plan is not None else ()) if reason.told_of_larger for word in reason.words
    )
    rows = (text for row in submittal.load_rows.values() for text in (row.label, row.note) if text is not None)
    if any(map(words.are_in, (*submittal.notes, *rows))):
        return
    titles = {each.title for each in submittal.instructions.alternatives if each.keeps_apart}
    for each in alternatives:
        if each.title not in titles or each.verdict != FITS or each.amperes is None:
            continue
        text = (
            f"The submittal does not say whether a control does this, so both are counted here. With {each.what} the supply must "
            f"carry {each.amperes:,.2f} A, and it suffices then{_only_with(asked_for, each)}."
        )
        yield Finding(
            f"kept apart: {each.what}",
            QUESTION,
            POLICY,
            KEPT_APART,
            each.title,
            text,
            each.cite,
            send=f"whether there is such a control; if there is, we need {each.needs}",
        )


def _only_with(asked_for: OnTop | None, one: AlternativeResult) -> str:
    """The condition where what is asked for elsewhere may take more than what is left."""
    room = None if asked_for is None else asked_for.room(one)
    return (
        ""
        if room is None or asked_for is None
        else f" only where the {asked_for.kind} that we ask for takes no more than {room:,.2f} A"
    )
