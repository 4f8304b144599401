"""Answers to the questions, and which questions they lead to, in the order of the walk through the house."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import groupby

from dwellcalc.home.names import plain, says_unknown
from dwellcalc.home.ratings import BETWEEN, TYPICAL

from .questions import (
    AREA,
    GIVEN,
    LOAD,
    NAMES_UNITS,
    NONE,
    NOT_KNOWN,
    SEMICOLON,
    SEVERAL,
    SKIP,
    YES_NO,
    Question,
    Work,
)
from .starter import Starter, Station

AMOUNT = re.compile(r"(\d+(?:\.\d+)?)\s*(\S+)")  # a plain quantity
HOME = -1  # where a question is not of a dwelling unit
ONE_UNIT = "house"
UNKNOWN = "unknown"
Slot = tuple[str, int]


@dataclass(frozen=True)
class Answer:
    """What was answered; ``assumed`` where only Enter was pressed, or where it was said not to be known.

    ``there`` says that somebody said that there is one, though nothing more of it is known.
    ``told`` is the answer that a comment in the file tells of, where the value below it was changed by hand. ``beside`` is what was told along with it and has no key of its own, such as a breaker.
    """

    text: str
    assumed: bool = False
    told: str = ""
    there: bool = False
    beside: str = ""


@dataclass(frozen=True)
class Step:
    """A question that is asked: its station, and the position of the dwelling unit that it is of."""

    station: Station
    question: Question
    unit: int = HOME

    @property
    def slot(self) -> Slot:
        """Where its answer is kept."""
        return (self.question.id, self.unit)


@dataclass(frozen=True)
class NamedUnit:
    """A dwelling unit by name, and how many equal ones it stands for; the only one need not be told apart."""

    name: str
    quantity: str = ""


@dataclass
class Answers:
    """The answers so far.

    Attributes:
        starter: the questions.
        work: the kind of work.
        typical: the kinds of load of which a typical rating is known, with that rating and whose it is, in words.
        given: the answers, by question and dwelling unit.
        found: the questions that are asked, with the answers by which they were found.
    """

    starter: Starter
    work: Work
    typical: Mapping[str, str] = field(default_factory=dict)
    given: dict[Slot, Answer] = field(default_factory=dict)
    found: tuple[dict[Slot, Answer], list[Step]] | None = field(default=None, init=False, compare=False, repr=False)

    @property
    def units(self) -> list[NamedUnit]:
        """The dwelling units."""
        if not self.work.several_units:
            return [NamedUnit(ONE_UNIT)]
        names = next((each.id for each in self.starter.questions.values() if each.form == NAMES_UNITS), "")
        answer = self.given.get((names, HOME))
        return [NamedUnit(text, number) for number, text in parts_of(answer.text)] if answer else []

    def steps(self) -> Iterator[Step]:
        """Every question that may be asked, whatever the answers before it are: one dwelling unit after the other."""
        stations = [
            each
            for each in self.starter.stations
            if (self.work.several_units or not each.only_several) and (not each.works or self.work.word in each.works)
        ]
        for each_unit, group in groupby(stations, key=lambda station: station.each_unit):
            walk = list(group)
            for unit in range(len(self.units)) if each_unit else (HOME,):
                for station in walk:
                    yield from (
                        Step(station, each, unit)
                        for each in station.questions
                        if (self.work.several_units or each.form != NAMES_UNITS)
                        and (not each.works or self.work.word in each.works)
                    )

    def asked(self) -> list[Step]:
        """The questions that are asked, as the answers are; they are looked for once as long as these stay the same."""
        if self.found is None or self.found[0] != self.given:
            self.found = dict(self.given), [step for step in self.steps() if self.holds(step)]
        return list(self.found[1])

    def holds(self, step: Step) -> bool:
        """Whether the conditions of a question are met."""
        return self._holds(step.question, step.unit)

    def _holds(self, question: Question, unit: int) -> bool:
        told = (question.id, unit) in self.given
        if not told and (question.only_along or not self._of_several(question, unit)):
            return False
        if question.when and any(not self.said(name, words, unit) for name, words in question.when.items()):
            return False
        kept = told and bool(question.along)  # what was told along stands, though what it is of is not known
        if question.unless and not kept and any(self.said(name, words, unit) for name, words in question.unless.items()):
            return False
        if question.up_to and not kept and any(not self._is_up_to(name, most, unit) for name, most in question.up_to.items()):
            return False
        if any(self._names(name, load, unit) for name, load in question.unless_named.items()):
            return False
        if question.of_settings and not self._has_settings(question, unit):
            return False
        if question.of_kind and not self._names_kind(question, unit):
            return False
        return question.entry.get("key", "") not in self.starter.labels or self._label_is_open(question, unit)

    def _is_up_to(self, name: str, most: str, unit: int) -> bool:
        """Whether an earlier answer is a quantity of the unit of the largest that it may be, and not over it."""
        answer = self.given.get((name, unit)) or self.given.get((name, HOME))
        match, limit = AMOUNT.match(answer.text if answer else ""), AMOUNT.fullmatch(most)
        return (
            match is not None
            and limit is not None
            and match[2][0].casefold() == limit[2][0].casefold()
            and float(match[1]) <= float(limit[1])
        )

    def _has_settings(self, question: Question, unit: int) -> bool:
        """Whether several settings were said of what a question is of."""
        answer = self.given.get((question.entry["of"], unit))
        return answer is not None and not answer.assumed and (SEMICOLON in answer.text or BETWEEN.search(answer.text) is not None)

    def _names(self, name: str, load: str, unit: int) -> bool:
        answer = self.given.get((name, unit))
        return answer is not None and load in [each for _, each in parts_of(answer.text)]

    def _names_kind(self, question: Question, unit: int) -> bool:
        """Whether among loads of any kind one is of the kind that a question is of."""
        answer = self.given.get((question.entry["of"], unit))
        named = [plain(part.partition(":")[0]) for _, part in parts_of(answer.text)] if answer is not None else []
        return not set(named).isdisjoint(map(plain, question.of_kind))

    def _of_several(self, question: Question, unit: int) -> bool:
        """Whether several choices were taken where a question is asked of one of several only."""
        if not question.if_several or self.work.drawn:
            return True
        answer = self.given.get((question.if_several, unit))
        return answer is not None and self._several(chosen(answer.text), self.starter.questions[question.if_several])

    def _several(self, words: list[str], question: Question) -> bool:
        return len(words) > 1 or not set(words).isdisjoint(question.twice.values())

    def _label_is_open(self, question: Question, unit: int) -> bool:
        """Whether a rating was read that does not give already what the question asks of the same label."""
        name, answer = question.entry["key"], self.given.get((question.entry["of"], unit))
        if answer is None or answer.assumed or plain(answer.text) == NONE or SEMICOLON in answer.text:
            return False
        word = self.starter.labels[name][0]
        return not answer.text.startswith(f"{word} ") and f", {name} " not in answer.text

    def said(self, name: str, words: tuple[str, ...], unit: int) -> bool:
        """Whether an earlier question was answered with one of these words, and is still asked."""
        if not self._holds(self.starter.questions[name], unit):
            return False
        answer = self.given.get((name, unit)) or self.given.get((name, HOME))
        return answer is not None and not words_in(self.starter.questions[name], answer).isdisjoint(words)

    def yes(self, question: Question, unit: int) -> str:
        """What `yes` stands for, by the answers before it, or an empty text."""
        meanings = question.yes_means.items()
        return next(
            (
                word
                for word, asks in meanings
                if all(self.said(name, words, unit) for name, words in asks.items()) and not self._is_none(word, unit)
            ),
            "",
        )

    def _is_none(self, name: str, unit: int) -> bool:
        """Whether of a load by its name it was said that there is none."""
        own = (each.id for each in self.starter.questions.values() if each.form == LOAD and each.entry["name"] == name)
        return any(plain(self.given[slot].text) == NONE for each in own if (slot := (each, unit)) in self.given)

    def offered(self, question: Question, unit: int) -> str:
        """What Enter takes as it is shown, with what `yes` stands for in its place."""
        enter = self.enter(question)
        return (self.yes(question, unit) or NONE) if question.yes_means and plain(enter) in YES_NO else enter

    def enter(self, question: Question) -> str:
        """What Enter takes."""
        return question.of_work(self.work) or (self.unknown(question) if question.kind else "")

    def unknown(self, question: Question) -> str:
        """What is written where it is not known; empty where something must be said."""
        if question.not_known or not question.kind:
            return question.not_known
        return TYPICAL if question.kind in self.typical else UNKNOWN

    def origin(self, question: Question, text: str) -> str:
        """Whose the figure is that an answer takes where a rating is not known; nothing where it takes none."""
        if question.kind and plain(text) == TYPICAL:
            return self.typical.get(question.kind, "")
        if question.by_size and text in self.starter.words.sizes.values():
            return self.starter.words.sizes_say
        if text in question.bounds_of:
            return self.starter.bounds
        if text and text in (question.output_takes, question.plugs_takes):
            return self.starter.bounds
        rated = question.kind or question.form == AREA
        of_bounds = (
            rated and question.not_known and not says_unknown(text) and text == question.not_known and not question.settings
        )
        return self.starter.bounds if of_bounds else ""


def words_in(question: Question, answer: Answer) -> frozenset[str]:
    """The words that conditions see in an answer: those that were chosen, else whether it was known."""
    if question.choices:
        return frozenset(chosen(answer.text))
    if plain(answer.text) == NONE:
        return frozenset((NONE,))
    known = not (says_unknown(answer.text) or plain(answer.text) == SKIP or answer.assumed)
    return frozenset((GIVEN if known else NOT_KNOWN,))


def chosen(text: str) -> list[str]:
    """The words of an answer with several."""
    return [each.strip() for each in text.split(",") if each.strip()]


def parts_of(text: str) -> list[tuple[str, str]]:
    """An answer taken apart at its semicolons: how many equal ones, or an empty text, and the rest."""
    found = []
    for part in (each.strip() for each in text.split(SEMICOLON)):
        match = SEVERAL.fullmatch(part)
        found.append((match[1], match[2]) if match else ("", part))
    return [each for each in found if each[1]]
