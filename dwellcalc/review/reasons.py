"""The reasons that a submittal gives, by its labels and notes, for counting a load at less than its rating."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from dwellcalc.decide.review_plan import Reason, ReviewPlan
from dwellcalc.placed import Text, text_at
from dwellcalc.review.denied import Denied
from dwellcalc.review.labels import Labels, kind_in
from dwellcalc.review.phrases import Phrases, is_about
from dwellcalc.review.rows import Row
from dwellcalc.review.stated_settings import StatedSetting

BRACKETED = re.compile(r"[^,;:.()]+\([^()]*\)")  # a piece of a list with what stands in brackets behind it


@dataclass(frozen=True)
class Said:
    """A reason, the text that gives it, and where the submittal does so, in a clause with the words as written.

    ``before`` is what of a label stands before the words of the reason; ``is_set`` whether a setting is stated, which is the
    rating of the row then; ``found`` the words of the reason as they stand in the text.
    """

    reason: Reason
    text: str
    where: str
    before: str = ""
    is_set: bool = False
    found: str = ""


class SaidReasons:
    """Tells the reasons of rows.

    Args:
        plan: the reasons that there are, and the words that deny one.
        notes: the notes of the submittal.
        labels: the names that kinds of load go by.
    """

    def __init__(self, plan: ReviewPlan, notes: Iterable[Text], labels: Labels) -> None:
        self.reasons = [(each, Phrases(each.words)) for each in plan.reasons]
        self.denied = Denied(plan)
        self.notes = list(notes)
        self.labels = labels

    def of_row(self, row: Row) -> Said | None:
        """The reason that a row gives by its label or its own note, else one that a note of the submittal gives for it."""
        kind = kind_in(row.match or row.label, self.labels)
        about = [each for note in self.notes for each in self._pieces(note) if is_about(each, row.label, kind, self.labels)]
        for text in (row.label, row.note, *about):
            for reason, phrases in self.reasons:
                found = "" if text is None else self._found(reason, phrases, text)
                if found:
                    where = f'its label says "{found}"' if text is row.label else f'the note says "{text}"'
                    is_set = bool(reason.writes) and row.nameplate is not None and row.nameplate.startswith(reason.writes)
                    return Said(reason, str(text), where, text.partition(found)[0] if text is row.label else "", is_set, found)
        return None

    def _pieces(self, note: Text) -> list[Text]:
        """A note; of one that says a reason in brackets behind a load among others, that load with its brackets."""
        pieces = [each for match in BRACKETED.finditer(note) if (each := match[0].strip()) != note.strip(" .")]
        saying = [each for each in pieces if any(self._found(reason, phrases, each) for reason, phrases in self.reasons)]
        return [text_at(each, note) for each in saying] or [note]

    def _found(self, reason: Reason, phrases: Phrases, text: str) -> str:
        """The words by which a text gives a reason, as they stand there; empty where it gives none, or denies it."""
        given = (text[start:end] for start, end in phrases.places_in(text) if not self.denied.at(text, start, end))
        return next(given, "") or StatedSetting(reason).words(text)
