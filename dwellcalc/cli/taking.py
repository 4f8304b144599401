"""What is said of an answer that is taken, or that cannot be."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from dwellcalc.cli.overview import LEFT_OUT
from dwellcalc.cli.terminal_talk import INDENT, Terminal
from dwellcalc.glossary import Glossary
from dwellcalc.home import messages
from dwellcalc.home.names import plain
from dwellcalc.home.starting.answers import Answer, Answers
from dwellcalc.home.starting.loads import Loads
from dwellcalc.home.starting.not_knowing import not_known
from dwellcalc.home.starting.questions import NONE, SKIP, Question
from dwellcalc.home.starting.sentences import larger_amount, one_of_two, only_planned
from dwellcalc.home.starting.short_words import says_none
from dwellcalc.home.starting.taken import ABSENT, THERE, choices_in
from dwellcalc.problems import Problem

PATH_ENDS = ": "
WRITTEN = "It is written here as {forms}; `don't know` where it cannot be read or nobody knows"
OF_FORM = (
    *(
        messages.RATING,
        messages.RATING_NO_UNIT,
        messages.NOT_A_QUANTITY,
        messages.WRONG_UNIT,
        messages.NOT_WHOLE,
        messages.LACKS_UNIT,
    ),
    messages.WORD,
)
KEPT = "Kept as a remark: {rest}."
LATER = " What is planned is asked at the end."


@dataclass(frozen=True)
class Taking:
    """Says what of an answer was taken."""

    terminal: Terminal
    answers: Answers
    glossary: Glossary

    def with_figure(self, text: str, question: Question) -> str:
        """An answer with whose figure it is, where it takes one."""
        origin = self.answers.origin(question, text)
        return f"{text}, {origin}" if origin else question.shown(text)

    def remarks(self, question: Question, text: str, rest: str, kept: Sequence[str]) -> list[str]:
        """What of an answer is kept as it was told, beside what is ``kept`` already; ``rest`` is what stands beside it."""
        return [each for each in (*self.passed_by(question, text), rest) if each and each not in "\n".join(kept)]

    def passed_by(self, question: Question, text: str) -> list[str]:
        """What of an answer with choices is none of them, and is kept as it was told."""
        starter = self.answers.starter
        named = question.choices and text and not (not_known(text) or plain(text) in (NONE, *ABSENT, *THERE))
        if not named or question.stands_for.get(plain(text)) or says_none(text, question, starter.words):
            return []
        left = choices_in(text, question, starter)[1]
        left = left if len(left) < 2 else [text]  # pieces of a sentence say something else than all of it
        later = not question.of_what_comes and any(
            each in re.findall(r"\w+", plain(part)) for part in left for each in starter.words.later
        )
        if later:
            self.terminal.say(LATER.strip(), INDENT)
        return left

    def confirm(self, question: Question, typed: str, answer: Answer, beside: Sequence[str]) -> None:
        """Say what was taken, where that is not what was typed, and what follows from it."""
        self.taken(question, typed, answer, beside)
        if question.either_told and answer.beside and answer.text == question.either_takes:
            self.terminal.say(question.either_told, INDENT)
        choice = question.choices.get(answer.text)
        if choice is not None and choice.told:
            self.terminal.say(choice.told, INDENT)

    def taken(self, question: Question, typed: str, answer: Answer, beside: Sequence[str]) -> None:
        """Say what was taken, where that is not what was typed."""
        words = self.answers.starter.words
        if answer.text == NONE and not self.answers.work.drawn and only_planned(typed, question, words):
            self.terminal.say(LATER.strip(), INDENT)
        if question.larger_of_two and (one_of_two(typed, question, words) or larger_amount(typed, question)):
            self.terminal.say(question.larger_of_two, INDENT)
        if answer.text == NONE and question.none_told:
            self.terminal.say(question.none_told, INDENT)
        of_settings = question.settings and not answer.assumed and answer.text != NONE
        if answer.text == typed and not of_settings:
            return
        if answer.text == SKIP:
            self.terminal.say(f"Taken: {LEFT_OUT}", INDENT)
            return
        until = f", {question.meanwhile}" if question.meanwhile and answer.assumed else ""
        until += f"; {question.if_assumed}" if question.if_assumed and answer.assumed else ""
        as_what = [Loads(self.answers, self.glossary).settings_told(answer.text)] if of_settings else []
        self.terminal.say(f"Taken: {', '.join([self.with_figure(answer.text, question), *as_what, *beside])}{until}", INDENT)


def named(question: Question, word: str, load: str = "") -> str:
    """What was typed along with an answer: a choice in words, an amount with what it is of; with the load that it is of, if any."""
    left_out = question.choices[word].says if word == SKIP and word in question.choices else ""
    text = left_out or question.shown(word) if question.choices else f"{question.what}: {word}"
    return f"{load} {text}" if load else text


def told(problem: Problem, forms: str = "") -> str:
    """A problem of an answer, without the path in the file, which the question tells already; ``forms`` are those that its answer has."""
    text = problem.text
    path = problem.words.get("path", "")
    if path and text.startswith(path + PATH_ENDS):
        text = text.removeprefix(path + PATH_ENDS)
    text = f"{text[:1].upper()}{text[1:]}"
    hint = WRITTEN.format(forms=forms) if forms and problem.message in OF_FORM else problem.hint
    return f"{text}. {hint[:1].upper()}{hint[1:]}" if hint else text
