"""What a home file is begun with: kinds of work, and stations with their questions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from .label_words import LabelWords
from .questions import AREA, DETAIL, EXAMPLE, KEY, LOAD, PLANNED, Entry, Question, Work


@dataclass(frozen=True)
class Station:
    """A place in the walk through the house: its questions, asked of each dwelling unit or once.

    Attributes:
        of_house: what it asks of belongs to no dwelling unit.
        only_several: it is passed by where there is one dwelling unit.
        works: the kinds of work that it is for; all of them where none is named.
        before: what is said first, where something is there already.
    """

    id: str
    title: str
    each_unit: bool
    of_house: bool
    only_several: bool
    questions: tuple[Question, ...]
    works: tuple[str, ...] = ()
    before: str = ""


@dataclass(frozen=True)
class Starter:
    """What a home file is begun with.

    Attributes:
        explains: what is written above the parts of the file.
        words: the words of labels.
        bounds: whose the bounds are that stand where a rating is not known.
    """

    works: Mapping[str, Work]
    stations: tuple[Station, ...]
    explains: Entry
    words: LabelWords = field(default_factory=LabelWords)
    bounds: str = ""

    @property
    def labels(self) -> Mapping[str, tuple[str, ...]]:
        """Further keys of a load, each with the words for it on labels."""
        return self.words.keys

    def forms(self, question: Question) -> str:
        """How an answer is written, where it cannot be read: a rating in all its forms, anything else as the example of its own question."""
        if question.form not in (LOAD, PLANNED):
            return f'"{question.example}"' if question.example and question.form in (KEY, DETAIL, AREA) else ""
        return question.forms or self.words.forms.get(question.unit, "").replace(EXAMPLE, question.example)

    @cached_property
    def questions(self) -> dict[str, Question]:
        """The questions by name."""
        return {question.id: question for station in self.stations for question in station.questions}
