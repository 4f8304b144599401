"""The interview in the terminal: one question at a time, each answer checked at once and written to the file."""

from __future__ import annotations

import sys
import textwrap
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from dwellcalc.glossary import Glossary
from dwellcalc.home.names import plain
from dwellcalc.home.starting.answers import HOME, Answer, Answers, Step
from dwellcalc.home.starting.checked import with_answer
from dwellcalc.home.starting.questions import NONE
from dwellcalc.home.starting.taken import taken
from dwellcalc.problems import InputError, Problem

BACK, STOP = "back", "stop"
FIRST = "This is the first question."
WELCOME = (
    "One question at a time. Enter takes what is shown as such; `don't know` and `none` may be typed where they make sense; "
    "`back` goes to the question before, `stop` stops. All that was answered is in the file at once."
)
INDENT, PROMPT = "  ", "> "
PATH_ENDS = ": "


class Stopped(Exception):
    """The user wants to stop, or there is no more input."""


@dataclass
class Terminal:
    """What is shown and typed; text is broken at a width."""

    width: int

    def say(self, text: str, indent: str = "", then: str = "") -> None:
        """Show a text; ``then`` begins each line but the first."""
        print(textwrap.fill(text, self.width, initial_indent=indent, subsequent_indent=then or indent, break_on_hyphens=False))

    def blank(self) -> None:
        """An empty line."""
        print()

    def type(self) -> str:
        """What is typed.

        Raises:
            Stopped: there is no more, or it was interrupted.
        """
        try:
            if sys.stdin.isatty():
                return input(PROMPT).strip()
            print(PROMPT, end="", flush=True)
            line = sys.stdin.readline()
        except (KeyboardInterrupt, EOFError):
            line = ""
        if not line:
            print()
            raise Stopped
        print(line.strip())
        return line.strip()


@dataclass
class Interview:
    """Asks the questions.

    Attributes:
        save: writes the answers to the file.
        also: further checks of what is to be taken, such as whether a typical rating is known.
    """

    answers: Answers
    glossary: Glossary
    terminal: Terminal
    width: int
    save: Callable[[Answers], None]
    also: Callable[[Step, Answer], Sequence[Problem]]

    def run(self) -> None:
        """Ask from the first question on that has no answer.

        Raises:
            Stopped: before the last question was answered.
        """
        self.terminal.say(WELCOME)
        asked = self.answers.asked()
        at = next((at for at, step in enumerate(asked) if step.slot not in self.answers.given), len(asked))
        shown: tuple[str, int] | None = None
        while at < len(asked):
            step = asked[at]
            if (step.station.id, step.unit) != shown:
                self.station(step)
                shown = (step.station.id, step.unit)
            if self.ask(step):
                at += 1
            elif at:
                at -= 1
            else:
                self.terminal.say(FIRST, INDENT)
            asked = self.answers.asked()

    def station(self, step: Step) -> None:
        """Show where the walk is."""
        units = self.answers.units
        of = f", {units[step.unit].name}" if step.unit != HOME and self.answers.work.several_units else ""
        title = f"{step.station.title}{of}"
        self.terminal.blank()
        print(f"{title}\n{'-' * len(title)}")

    def ask(self, step: Step) -> bool:
        """Ask one question until its answer can be taken; whether to go on rather than back."""
        before = self.answers.given.get(step.slot)
        self.show(step, before)
        while True:
            typed = self.terminal.type()
            if plain(typed) == BACK:
                return False
            if plain(typed) == STOP:
                raise Stopped
            if not typed and before is not None:
                return True
            problems = self.take(step, typed)
            if not problems:
                return True
            for problem in problems:
                self.terminal.say(told(problem), INDENT)

    def show(self, step: Step, before: Answer | None) -> None:
        """Show a question."""
        question = step.question
        self.terminal.blank()
        self.terminal.say(question.asked)
        if question.how(typed=True):
            self.terminal.say(question.how(typed=True), INDENT)
        words = max((len(word) for word in question.choices), default=0)
        for number, (word, choice) in enumerate(question.choices.items(), 1):
            lead = f"{INDENT}{number}  {word.ljust(words)}  "
            if choice.says and choice.says != word:
                self.terminal.say(choice.says, lead, " " * len(lead))
            else:
                print(lead.rstrip())
        if question.several:
            self.terminal.say("Several may be named, with commas between.", INDENT)
        enter = before.text if before else self.answers.enter(question)
        if enter:
            self.terminal.say(f"Enter {'keeps' if before else 'takes'}: {enter}", INDENT)

    def take(self, step: Step, typed: str) -> list[Problem]:
        """Take what was typed and write it to the file, or say why it cannot be taken."""
        try:
            answer = taken(typed, step.question, self.answers)
        except InputError as error:
            return error.problems
        tried, problems = with_answer(self.answers, step, answer, self.glossary, self.width)
        problems += self.also(step, answer)
        if problems:
            return problems
        if not typed and plain(answer.text) != NONE:
            self.terminal.say(f"Taken: {answer.text}", INDENT)
        self.answers = tried
        self.save(tried)
        return []


def told(problem: Problem) -> str:
    """A problem of an answer, without the path in the file, which the question tells already."""
    text = problem.text
    path = problem.words.get("path", "")
    if path and text.startswith(path + PATH_ENDS):
        text = text.removeprefix(path + PATH_ENDS)
    text = f"{text[:1].upper()}{text[1:]}"
    return f"{text}. {problem.hint[:1].upper()}{problem.hint[1:]}" if problem.hint else text
