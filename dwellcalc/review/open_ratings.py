"""Loads that a submittal says are there and of which it shows no rating: what it asks for, and what implies a further load."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from dwellcalc.decide.review_plan import Implied, ReviewPlan
from dwellcalc.home.names import says_unknown
from dwellcalc.home.ratings import TYPICAL
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Mapping, Text, spaced, text_at
from dwellcalc.review.described_home import Describer
from dwellcalc.review.labels import KIND, kind_in, words_of
from dwellcalc.review.phrases import Phrases
from dwellcalc.review.row_status import EXISTING, REMOVED, RowStatus
from dwellcalc.review.rows import Row
from dwellcalc.review.submittal import Matched

UNRATED = "unknown"  # how a home file writes a rating that is not known


@dataclass(frozen=True)
class OpenLoad:
    """A load without a rating and a figure.

    Attributes:
        row: a row that describes it, its nameplate what is typical of its kind, where that is known.
        kind: its kind of load.
        said: what the submittal says, where that is no row of its own.
        implied: what implies it, or nothing.
    """

    row: Row
    kind: str
    said: str = ""
    implied: Implied | None = None

    @property
    def name(self) -> str:
        """What it is called."""
        return str(self.row.label)


class OpenRatings:
    """Sets the rows of such loads apart, and finds what notes and the scope imply.

    Args:
        rules: the rule set.
        plan: how submittals are reviewed.
        describer: what tells of what a row is.
        status: what tells whether its load is there.
    """

    def __init__(self, rules: RuleSet, plan: ReviewPlan, describer: Describer, status: RowStatus) -> None:
        self.rules = rules
        self.describer = describer
        self.status = status
        self.implied = [(each, Phrases(each.words), Phrases(each.unless)) for each in plan.implied]

    def apart(self, rows: Iterable[Row], texts: Iterable[Text]) -> tuple[list[Row], list[OpenLoad]]:
        """The rows that are calculated, and the loads of which no rating is shown.

        Args:
            rows: all rows, filled, with their status.
            texts: the notes and the scope of the submittal.
        """
        kept: list[Row] = []
        found: list[OpenLoad] = []
        rows, texts = list(rows), list(texts)
        gone = self._gone(rows, texts)
        for row in rows:
            unrated = row.nameplate is not None and says_unknown(row.nameplate)
            if unrated and not self.describer.counts_nothing(row):
                kept.append(replace(row, nameplate=None))  # its figure stands for the rating
                continue
            one = self._of_row(row, unrated=unrated)
            if one is None:
                kept.append(row)
            else:
                found.append(one)
        for text in texts:
            implied = self._implied(text)
            if implied is not None and implied.kind not in gone and not self._has(implied.kind, kept, found):
                found.append(self._open(Row(text_at(implied.title, text)), implied.kind, str(text), implied))
        return kept, self._named_apart(kept, [self._with_facts(each, kept) for each in found])

    def _with_facts(self, load: OpenLoad, rows: Iterable[Row]) -> OpenLoad:
        """A load with what is said of it where none that it may run with does, such as a furnace's blower beside ductless cooling."""
        implied, labels = load.implied, self.describer.labels
        if implied is None or not implied.apart_says or load.row.facts is not None:
            return load
        beside = [row.label for row in rows if kind_in(row.match or row.label, labels) in implied.apart_from]
        if not beside or not all(map(Phrases(implied.apart_by).are_in, beside)):
            return load
        label = load.row.label
        facts = Mapping((text_at(name, label), text_at(value, label)) for name, value in implied.apart_says.items())
        facts.place = label.place
        return replace(load, row=replace(load.row, facts=facts))

    def _named_apart(self, rows: Iterable[Row], loads: Iterable[OpenLoad]) -> list[OpenLoad]:
        """The loads, each by a name that no row and no other of them has."""
        taken = {row.label.casefold() for row in rows}
        found = []
        for each in loads:
            name, number = each.name, 1
            while name.casefold() in taken:
                number += 1
                name = f"{each.name} {number}"
            taken.add(name.casefold())
            found.append(replace(each, row=replace(each.row, label=text_at(name, each.row.label))))
        return found

    def matched(self, found: Iterable[OpenLoad]) -> list[Matched]:
        """What such loads were taken for, for the table of labels."""
        kinds = self.rules.glossary.load_kinds
        told = "not calculated: its rating is not shown"
        return [Matched(each.name, KIND, each.kind, kinds[each.kind].meaning, "", told) for each in found]

    def _of_row(self, row: Row, *, unrated: bool) -> OpenLoad | None:
        """The load of a row without a rating and a figure, where it is said to be there or is asked about as `unknown`."""
        if (row.nameplate is not None and not unrated) or not self.describer.counts_nothing(row) or self._goes(row):
            return None
        implied = self._implied(row.label) if row.match is None else None
        match = self.describer.match(row)
        kind = match.name if match is not None and match.what == KIND else kind_in(row.label, self.describer.labels)
        if implied is not None and kind in ("", implied.kind):
            return self._open(row, implied.kind, "", implied)
        if not kind or row.claimed is not None or match is None or match.what != KIND:
            return None
        named = next((each for each, _, _ in self.implied if each.kind == kind), None)
        is_asked = named is not None
        if named is not None and row.match is None and not self._tells(named, kind, row):
            named = None  # a blower that is not said to be of a furnace
        there = (row.status or "").casefold() == EXISTING or self.status.first(row.label) == EXISTING
        return self._open(row, kind, "", named) if unrated or there or is_asked else None

    @staticmethod
    def _tells(implied: Implied, kind: str, row: Row) -> bool:
        """Whether a label has a word of what implies a load beside those of the load itself, such as furnace."""
        return bool((set(words_of(implied.title)) - set(words_of(spaced(kind)))) & set(words_of(row.label)))

    def _open(self, row: Row, kind: str, said: str, implied: Implied | None) -> OpenLoad:
        written = TYPICAL if kind in self.rules.defaults else UNRATED
        label = row.label
        described = replace(row, nameplate=text_at(written, label), claimed=None, match=text_at(spaced(kind), label))
        return OpenLoad(described, kind, said, implied)

    def _implied(self, text: str) -> Implied | None:
        """What a text implies, unless it says of it that it goes."""
        if self.status.first(text) == REMOVED or self.describer.said_later.says(text):
            return None
        return next((each for each, words, unless in self.implied if words.are_in(text) and not unless.are_in(text)), None)

    def _gone(self, rows: Iterable[Row], texts: Iterable[Text]) -> set[str]:
        """The kinds of load that go with what is said to be removed, such as the blower of a furnace."""
        labels = self.describer.labels
        removed = [row.label for row in rows if (row.status or "").casefold() == REMOVED]
        removed += [text for text in texts if self.status.first(text) == REMOVED]
        kinds = {each.kind for label in removed for each in labels.may_be(label)}
        return kinds | {each.kind for each, words, _ in self.implied for label in removed if words.are_in(label)}

    def _goes(self, row: Row) -> bool:
        """Whether a row is said to be removed, to come later or to be of others."""
        return (row.status or "").casefold() == REMOVED or self.describer.said_later.of_row(row, counted=False) is not None

    def _has(self, kind: str, rows: Iterable[Row], found: Iterable[OpenLoad]) -> bool:
        """Whether a load of a kind stands in the table, or among those without a rating."""
        labels = self.describer.labels
        return any(each.kind == kind for each in found) or any(kind_in(row.match or row.label, labels) == kind for row in rows)
