"""What a submittal says of loads that come later or are of others, by its labels and its notes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dwellcalc.placed import Text
from dwellcalc.review.labels import Labels, kind_in
from dwellcalc.review.phrases import Phrases, is_about
from dwellcalc.review.rows import Row


@dataclass(frozen=True)
class Later:
    """A row that is said to come later or to be by others.

    Attributes:
        row: the row.
        kind: its kind of load, or empty where none is known.
        said: what the submittal says of it, as written.
        counted: whether it has a figure all the same, so that it is counted.
        removed: whether it is said to be removed instead.
    """

    row: Row
    kind: str
    said: str
    counted: bool = False
    removed: bool = False


class SaidLater:
    """Tells what is said to come later.

    Args:
        phrases: the words by which it is said.
        notes: the notes of the submittal.
        labels: the names that kinds of load go by.
    """

    def __init__(self, phrases: Iterable[str], notes: Iterable[Text], labels: Labels) -> None:
        self.phrases = Phrases(phrases)
        self.labels = labels
        self.notes = [each for each in notes if self.says(each)]

    def says(self, text: str) -> bool:
        """Whether a text says that something comes later or is of others."""
        return self.phrases.are_in(text)

    def of_row(self, row: Row, *, counted: bool) -> Later | None:
        """What is said of a row by its label or its own note, or by a note of the submittal where it claims no figure."""
        kind = kind_in(row.match or row.label, self.labels)
        own = [each for each in (row.label, row.note) if each is not None and self.says(each)]
        notes = [] if counted else [each for each in self.notes if is_about(each, row.label, kind, self.labels)]
        said = next(iter([*own, *notes]), None)
        return None if said is None else Later(row, kind, str(said), counted)
