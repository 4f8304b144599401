"""Phrases by which a submittal says something beside its figures, in its labels and notes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from dwellcalc.review.labels import Labels, kind_in, words_of

WORD = re.compile(r"\w+")


class Phrases:
    """Tells whether a text holds one of some phrases, whatever marks and capitals stand in it."""

    def __init__(self, phrases: Iterable[str]) -> None:
        self.phrases = [tuple(WORD.findall(each.casefold())) for each in phrases]

    def are_in(self, text: str) -> bool:
        """Whether a text holds one of them."""
        return bool(self.found_in(text))

    def found_in(self, text: str) -> str:
        """The longest of them that a text holds, as it stands there; empty where it holds none."""
        return next((text[start:end] for start, end in self.places_in(text)), "")

    def places_in(self, text: str) -> Iterator[tuple[int, int]]:
        """Where they stand in a text, each from its start to its end, the longest first."""
        places = list(WORD.finditer(text))
        words = tuple(each[0].casefold() for each in places)
        for phrase in sorted(self.phrases, key=len, reverse=True):
            for at in range(len(words)):
                if words[at : at + len(phrase)] == phrase:
                    yield places[at].start(), places[at + len(phrase) - 1].end()


def is_about(note: str, label: str, kind: str, labels: Labels) -> bool:
    """Whether a note is about a row: it has all words of the label, or names its kind of load."""
    named = set(words_of(label))
    return (bool(named) and named <= set(words_of(note))) or (bool(kind) and kind_in(note, labels) == kind)
