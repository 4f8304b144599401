"""Whether the load of a row is there, planned or removed, where its label, its note or the scope of the work says it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.placed import Text, text_at
from dwellcalc.review.labels import BETWEEN, KIND, Labels, kind_in, words_of
from dwellcalc.review.rows import Row
from dwellcalc.review.submittal import Matched

WITH = re.compile(r"\b(?:with|by)\b", re.IGNORECASE)
EXISTING, PLANNED, REMOVED = "existing", "planned", "removed"
BLANK = " .()[]-–—"  # of a cell that holds nothing else there is no figure


@dataclass
class RowStatus:
    """Tells the status of rows that do not state it.

    Attributes:
        plan: the words by which a label says it.
        labels: the names that kinds of load go by.
        scope: the entries of the scope of the work.
        why: for the label of each row whose status was told by words, that status and what says it.
    """

    plan: ReviewPlan
    labels: Labels
    scope: Sequence[Text]
    why: dict[str, tuple[str, str]] = field(default_factory=dict)
    named: set[Text] = field(default_factory=set)

    def told(self, rows: Iterable[Row], *, is_new: bool) -> list[Row]:
        """The rows with their status; in a new dwelling nothing is planned beside what is there."""
        rows = [self._without_words(row) for row in rows]
        labels = [set(words_of(row.label)) for row in rows]
        self.named = {each for each in self.scope if any(set(words_of(each)) <= words for words in labels)}
        told = [self._told(row, is_new=is_new) if row.status is None or self._goes(row) else row for row in rows]
        return told if is_new else [*self._with_what_comes(told)]

    def _with_what_comes(self, rows: Sequence[Row]) -> Iterator[Row]:
        """The rows, of which those that come with one that is planned are planned too, unless they say that they are there."""
        planned = {self._kind(row): row for row in rows if row.status == PLANNED}
        for row in rows:
            comes = self.plan.comes_with.get(self._kind(row), ()) if row.status is None and not self._said(row) else ()
            named = comes[:1] and (not comes[1:] or any(_pattern(each).search(row.label) for each in comes[1:]))
            if named and comes[0] in planned:
                self._note(row, PLANNED, f'it comes with "{planned[comes[0]].label}", which is planned')
                row = replace(row, status=text_at(PLANNED, row.label))
            yield row

    def _kind(self, row: Row) -> str:
        return kind_in(row.match or row.label, self.labels)

    def _without_words(self, row: Row) -> Row:
        """A row with a blank figure where its cell holds words: a status, or that it does not count, such as (omitted), or a dash."""
        if self._is_phrase(row.claimed):
            return replace(row, claimed=None, note=row.claimed)
        said = "" if row.claimed is None else row.claimed.strip(BLANK).casefold()
        if row.claimed is None or (said and said not in self.plan.left_out):
            return row
        return replace(row, claimed=None, note=row.note if row.note is not None else row.claimed)

    def _goes(self, row: Row) -> bool:
        """Whether a row among what is there, as under such a heading, says that it is removed."""
        said = self._said(row)
        return (row.status or "").casefold() == EXISTING and said is not None and self.first(said) == REMOVED

    def _told(self, row: Row, *, is_new: bool) -> Row:
        said, status = self._said(row), ""
        if said and self.first(said) in (PLANNED, REMOVED):
            status = self.first(said)
            self._note(row, status, f'"{self._words(said, status)}" in {"its label" if said is row.label else "its note"}')
        elif not said and (entry := next((each for each in self.scope if self._is_meant(each, row)), None)) is not None:
            status = PLANNED
            self._note(row, status, f'"{entry}" in the scope of the work')
        if status == PLANNED and is_new:
            del self.why[str(row.label)]
            status = ""
        return replace(row, status=text_at(status, row.label)) if status else row

    def _said(self, row: Row) -> Text | None:
        """The label or the note that says a status; a note only where it holds nothing else, for it may speak of other things."""
        if self._is_phrase(row.note):
            return row.note
        return row.label if self.first(row.label) else None

    def _is_phrase(self, text: Text | None) -> bool:
        """Whether a text is one of the phrases and nothing else, such as "(removed)"."""
        phrases = (*self.plan.planned, *self.plan.there, *self.plan.removed)
        return text is not None and any(text.strip(" .()").casefold() == each.strip("()").casefold() for each in phrases)

    def _places(self, text: str) -> dict[str, tuple[int, str]]:
        """Where in a text each status stands first, with the words as written."""
        found: dict[str, tuple[int, str]] = {}
        for status, phrases in ((PLANNED, self.plan.planned), (EXISTING, self.plan.there), (REMOVED, self.plan.removed)):
            spots = [match for each in phrases if (match := _pattern(each).search(text)) is not None]
            if spots:
                first = min(spots, key=lambda match: (match.start(), -match.end()))
                found[status] = first.start(), first[0]
        return found

    def first(self, text: str) -> str:
        """The status that a text says: what is there may be removed, else what it says first."""
        found = self._places(text)
        if REMOVED in found and PLANNED not in found:
            return REMOVED
        return min(found, key=lambda status: found[status][0], default="")

    def _words(self, text: str, status: str) -> str:
        return self._places(text)[status][1]

    def _is_meant(self, entry: Text, row: Row) -> bool:
        """Whether an entry of the scope means a row: its kind of load, or all of its words, and does not say that it is there."""
        if self.first(entry) in (EXISTING, REMOVED):
            return False
        kind = self._kind(row)
        words = set(words_of(entry))
        found = (self.labels.find(each, KIND) for each in _parts(entry))
        by_kind = entry not in self.named  # no row has its words, such as that of one of two heat pumps
        same = by_kind and any(each is not None and each.what == KIND and each.name == kind for each in found)
        return bool(kind) and bool(words) and (same or words <= set(words_of(row.label)))

    def _note(self, row: Row, status: str, why: str) -> None:
        self.why[str(row.label)] = status, why

    def matched(self) -> list[Matched]:
        """What was told, for the table of labels."""
        titles = {PLANNED: "planned: to be installed", REMOVED: "removed"}
        return [Matched(label, "status", "", titles[status], "", why) for label, (status, why) in self.why.items()]


def _parts(entry: str) -> list[str]:
    """An entry of the scope, and what of it stands between commas and the like; of one that says by what something is replaced none."""
    parts = [each for each in BETWEEN.split(entry) if each.strip()]
    return [entry, *parts] if len(parts) > 1 and not WITH.search(entry) else [entry]


def _pattern(phrase: str) -> re.Pattern[str]:
    """A phrase as whole words; one in brackets as it is written."""
    edge = r"\b" if phrase[:1].isalnum() else ""
    return re.compile(f"{edge}{re.escape(phrase)}{edge}", re.IGNORECASE)
