"""Which ratings a submittal shows: all, or those of the loads that its evidence, its notes and its labels name."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.placed import Text, text_at
from dwellcalc.review.denied import Denied
from dwellcalc.review.labels import BETWEEN, SHORTER, Match
from dwellcalc.review.phrases import Phrases
from dwellcalc.review.rows import Row
from dwellcalc.review.schedule_reader import ScheduleReader

WORD = re.compile(r"[^\W\d_]")
BRACKETS = re.compile(r"\([^()]*\)")
PARTS = re.compile(r"[():\n]|(?<!\b\w\w)(?<!\b\w\w\w)\.(?=\s+[A-Z]|\s*$)")  # a short word with a point is one in short


class ShownRatings:
    """Tells which ratings are shown.

    Args:
        plan: the words by which a text says that nameplates or data sheets are shown.
        reader: tells which loads a label means.
    """

    def __init__(self, plan: ReviewPlan, reader: ScheduleReader) -> None:
        self.phrases, self.denied = Phrases(plan.shown), Denied(plan)
        self.all_of_them = Phrases(plan.all_shown)
        self.reader = reader

    def of(self, evidence: Text | None, notes: Iterable[Text], rows: Mapping[str, Row]) -> set[str] | None:
        """The loads whose ratings are shown; nothing in place of a set where all are.

        Args:
            evidence: what the submittal shows nameplates by; where a piece of it names no load that is all of them.
            notes: its notes.
            rows: the rows of loads, by the name of the load.
        """
        named = set() if evidence is None else self.named(evidence)
        if evidence is not None and not (named and all(map(self.matches, self._pieces(evidence)))):
            return None
        for note in filter(self.says, notes):
            found = self.named(note)
            if not found and self.all_of_them.are_in(note):
                return None
            named |= found
        return named | {
            name
            for name, row in rows.items()
            for text in (row.label, row.note, row.printed)
            if text is not None and self.says(text)
        }

    def _pieces(self, text: Text) -> list[Text]:
        """The pieces of a text between commas and the like, each with the list that stands in brackets behind it."""
        return [text_at(each.strip(), text) for each in BETWEEN.split(BRACKETS.sub(_without_marks, text)) if WORD.search(each)]

    def says(self, text: str) -> bool:
        """Whether a text says that ratings are shown, and does not deny it."""
        return any(not self.denied.at(text, *place) for place in self.phrases.places_in(text))

    def named(self, text: Text) -> set[str]:
        """The loads that a text names, by the names of their kinds; where it names one so, others in short too."""
        found = self.matches(text)
        sure = {load for loads, match in found if match.how != SHORTER for load in loads}
        return {load for loads, _ in found for load in loads} if sure else set()

    def matches(self, text: Text) -> list[tuple[tuple[str, ...], Match]]:
        """What the parts of a text name: a kind of load, with the loads of that kind which are calculated."""
        parts = [part for clause in PARTS.split(text) for part in BETWEEN.split(clause) if part.strip()]
        found = (self.reader.loads_of(text_at(part.strip(), text)) for part in parts)
        return [(loads, match) for loads, match in found if match is not None]


def _without_marks(found: re.Match[str]) -> str:
    """What stands in brackets, with ends of clauses in place of its commas and the like."""
    return BETWEEN.sub("\n", found[0])
