"""What a submittal says of loads that come later or are of others, by its labels and its notes."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from dwellcalc.placed import Text
from dwellcalc.review.labels import Labels, kind_in, words_of
from dwellcalc.review.rows import Row

WORD = re.compile(r"\w+")


@dataclass(frozen=True)
class Later:
    """A row that is said to come later or to be of others.

    Attributes:
        row: the row.
        kind: its kind of load, or empty where none is known.
        said: what the submittal says of it, as written.
        counted: whether it has a figure all the same, so that it is counted.
    """

    row: Row
    kind: str
    said: str
    counted: bool = False


class SaidLater:
    """Tells what is said to come later.

    Args:
        phrases: the words by which it is said.
        notes: the notes of the submittal.
        labels: the names that kinds of load go by.
    """

    def __init__(self, phrases: Iterable[str], notes: Iterable[Text], labels: Labels) -> None:
        self.phrases = [tuple(WORD.findall(each.casefold())) for each in phrases]
        self.labels = labels
        self.notes = [each for each in notes if self.says(each)]

    def says(self, text: str) -> bool:
        """Whether a text says that something comes later or is of others."""
        words = tuple(WORD.findall(text.casefold()))
        return any(words[at : at + len(each)] == each for each in self.phrases for at in range(len(words)))

    def of_row(self, row: Row, *, counted: bool) -> Later | None:
        """What is said of a row by its label or its own note, or by a note of the submittal where it claims no figure."""
        kind = kind_in(row.match or row.label, self.labels)
        own = [each for each in (row.label, row.note) if each is not None and self.says(each)]
        notes = [] if counted else [each for each in self.notes if self.is_about(each, row.label, kind)]
        said = next(iter([*own, *notes]), None)
        return None if said is None else Later(row, kind, str(said), counted)

    def is_about(self, note: Text, label: str, kind: str) -> bool:
        """Whether a note is about a row: it has all words of the label, or names its kind of load."""
        named = set(words_of(label))
        return (bool(named) and named <= set(words_of(note))) or (bool(kind) and kind_in(note, self.labels) == kind)
