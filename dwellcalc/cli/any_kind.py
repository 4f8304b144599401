"""Loads of any kind in an answer: the rating asked for where only the kind was said; what is no load of its own, or was told, left out."""

from __future__ import annotations

import re
from dataclasses import dataclass

from dwellcalc.cli.terminal_talk import BACK, INDENT, STOP, Back, Stopped, Terminal
from dwellcalc.glossary import YES, Glossary
from dwellcalc.home.models import models_for
from dwellcalc.home.names import NOT_SEEN, plain
from dwellcalc.home.ratings import TYPICAL
from dwellcalc.home.starting.answers import UNKNOWN, Answer, Answers, Step, parts_of
from dwellcalc.home.starting.loads import KIND_AND_RATING, names_told
from dwellcalc.home.starting.not_knowing import not_known
from dwellcalc.home.starting.questions import ANY_LOADS, ANY_PLANNED, LOAD, NONE, SEMICOLON
from dwellcalc.home.starting.replaced import REPLACES, in_file, without_replaced
from dwellcalc.home.starting.taken import ABSENT, THERE

IS_NO_LOAD = "Left out: {name}, which is no load of its own here, for {why}."
IS_TOLD = "Left out: {name}, which was told before; with its rating behind a colon it counts as a further one."
IS_MEANT = "Is it a {name}{means}?"
NAME_THEN_NUMBER = re.compile(r"([A-Za-z][A-Za-z -]*?)[\s,]+(\d.*)")
BARE_VOLTS = re.compile(r"((?:k?W|k?VA|A|hp))[\s,]+(\d+\s*V)\b", re.IGNORECASE)  # 500 W 120 V, 500 W, 120 V
NO = "no"
SEPARATE = re.compile(r"\s*,\s*|\s+and\s+")


@dataclass(frozen=True)
class AnyKind:
    """Reads loads of any kind from what was typed."""

    terminal: Terminal
    answers: Answers
    glossary: Glossary

    def read(self, step: Step, typed: str) -> str:
        """The answer with a rating for each load; of another question what was typed.

        Raises:
            Stopped, Back: that is what was typed.
        """
        if step.question.form not in (ANY_LOADS, ANY_PLANNED) or not typed or not_known(typed) or plain(typed) == NONE:
            return typed
        first, _, more = typed.partition(",")
        if plain(first) in (NONE, *ABSENT) and more and not any(map(str.isdigit, more)):  # `none, it is plugged in`
            return NONE
        parts = [f"{number} x {each}" if number else each for number, each in parts_of(typed)]
        if not any(map(str.isdigit, typed)):
            parts = [each for part in parts for each in SEPARATE.split(part) if each]
        read = [each for part in parts if (each := self.part(step, part))]
        return f"{SEMICOLON} ".join(read) if read or not parts else NONE

    def part(self, step: Step, text: str) -> str:
        """One load, nothing where it is left out."""
        vocabulary = models_for(self.glossary).vocabulary
        text, gone = without_replaced(text)
        match = KIND_AND_RATING.fullmatch(text) or NAME_THEN_NUMBER.fullmatch(text)
        name, rating = (match[1], match[2]) if match else (text, "")
        kind = vocabulary.kinds.find(name)
        if kind is None and not vocabulary.no_load(name):
            name = self.bare(name)
            kind = vocabulary.kinds.find(name)
        near = self.near(name) if kind is None and not vocabulary.no_load(name) else ""
        if near:
            name, kind = near, vocabulary.kinds.find(near)
        why = "" if kind is not None else vocabulary.no_load(name)
        if why:
            self.terminal.say(IS_NO_LOAD.format(name=name, why=why), INDENT)
            return ""
        if kind is None:
            return text
        if not rating and step.question.form == ANY_LOADS and self.is_told(step, kind.name):
            self.terminal.say(IS_TOLD.format(name=name), INDENT)
            return ""
        found = BARE_VOLTS.sub(r"\1 at \2", rating) or self.rating(step, name, kind.name)
        if plain(found) in (NONE, *ABSENT):
            return ""
        gone = gone or (self.replaced(step, name) if step.question.replaces_asks else "")
        return f"{name}: {found}{REPLACES}{in_file(gone, names_told(self.answers))}" if gone else f"{name}: {found}"

    def bare(self, name: str) -> str:
        """A name without the words before it that change nothing, such as `our second`; as it is where no kind is called so."""
        words = self.answers.starter.words
        passed = set(map(plain, (*words.fillers, *words.ordinals)))
        found = name.split()
        ends = next((at for at, each in enumerate(found) if at and plain(each) in words.places), len(found))
        found = found[:ends]
        while len(found) > 1 and plain(found[0]) in passed:
            del found[0]
        return " ".join(found) if models_for(self.glossary).vocabulary.kinds.find(" ".join(found)) is not None else name

    def near(self, name: str) -> str:
        """The one kind of load whose name has all words of another, where it is said that this is meant; else an empty text.

        Raises:
            Stopped, Back: that is what was typed.
        """
        words = set(plain(name).split())
        kinds = models_for(self.glossary).vocabulary.kinds
        also = [each for kind in self.glossary.load_kinds.values() for each in kind.also if words < set(plain(each).split())]
        if len({found.name for each in also if (found := kinds.find(each))}) != 1 or not words - {""}:
            return ""
        kind = kinds.find(also[0])
        means = f", {kind.meaning.partition(';')[0]}" if kind is not None else ""
        said, _ = self.terminal.choose(IS_MEANT.format(name=also[0], means=means), (YES, NO), NO, NO)
        return also[0] if said == YES else ""

    def replaced(self, step: Step, name: str) -> str:
        """What a planned load takes the place of; an empty text where nothing is taken out.

        Raises:
            Stopped, Back: that is what was typed.
        """
        known = names_told(self.answers)
        such = next((each for each in known if set(plain(each).split()) & set(plain(name).split())), "") or known[-1:]
        such = such if isinstance(such, str) else "".join(such)
        if not such:
            return ""
        self.terminal.say(step.question.replaces_asks.format(load=name, such=such), INDENT)
        typed = self.typed()
        said = without_replaced(typed)[1] or typed
        nothing = not said or not_known(said) or plain(said) in (NONE, NO, *ABSENT)
        return "" if nothing else such if plain(said) in THERE else said

    def is_told(self, step: Step, kind: str) -> bool:
        """Whether a load of a kind was answered with a question of its own."""
        asked = [each for each in self.answers.asked() if each.question.form == LOAD and each.question.kind == kind]
        return any(
            plain(self.answers.given.get(each.slot, Answer(NONE)).text) != NONE for each in asked if each.unit == step.unit
        )

    def rating(self, step: Step, name: str, kind: str) -> str:
        """The rating that is asked for; where nobody knows it what is typical, if a figure is known.

        Raises:
            Stopped, Back: that is what was typed.
        """
        self.terminal.say(step.question.rating_asks.format(load=name), INDENT)
        typed = self.typed()
        if typed and not not_known(typed):
            return typed
        if kind in self.answers.typical:
            return TYPICAL
        bounds = self.answers.starter.words.of_kinds.get(kind, "")
        return f"{bounds}, {NOT_SEEN}" if bounds else UNKNOWN

    def typed(self) -> str:
        """What is typed.

        Raises:
            Stopped, Back: that is what was typed.
        """
        typed = self.terminal.type()
        if plain(typed) == STOP:
            raise Stopped
        if plain(typed) == BACK:
            raise Back
        return typed
