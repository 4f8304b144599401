"""A question as it is shown in the terminal, and what is shown where somebody asks for help."""

from __future__ import annotations

from dataclasses import dataclass

from dwellcalc.cli.taking import Taking
from dwellcalc.cli.terminal_talk import INDENT, Terminal
from dwellcalc.home.starting.answers import Answer, Answers, Step
from dwellcalc.home.starting.questions import ANY_LOADS, ANY_PLANNED, LOAD, PLANNED, SKIP

GOING = "`back` goes to the question before, `list` shows all answers; `stop` stops, and all that was answered is in the file."
RATED = (
    "`, told` after a rating says that somebody said so and nobody has seen it; so do the other words of what ratings are read from. "
    "`2 x` before it says that there are two of them."
)
ENTER_SKIPS, NOT_KNOWN_SKIPS = "Enter leaves it out.", "`don't know` leaves it out."


@dataclass(frozen=True)
class ShownQuestion:
    """Shows questions."""

    terminal: Terminal
    answers: Answers
    taking: Taking

    def station(self, step: Step, of_unit: str) -> None:
        """Show where the walk is; ``of_unit`` tells in which dwelling unit."""
        title = f"{step.station.title}{of_unit}"
        self.terminal.blank()
        print(f"{title}\n{'-' * len(title)}")
        if step.station.before and not self.answers.work.drawn:
            self.terminal.say(step.station.before, INDENT)

    def show(self, step: Step, before: Answer | None) -> None:
        """Show a question."""
        question = step.question
        self.terminal.blank()
        self.terminal.say(question.put(drawn=self.answers.work.drawn))
        how = question.how(typed=True, drawn=self.answers.work.drawn)
        if how:
            self.terminal.say(how, INDENT)
        self.terminal.listed({word: choice.says for word, choice in question.choices.items()})
        if question.several:
            self.terminal.say("Several may be named, with commas between.", INDENT)
        enter = before.text if before else self.answers.offered(question, step.unit)
        if enter:
            told = f"Enter {'keeps' if before else 'takes'}: {self.taking.with_figure(enter, question)}"
            self.terminal.say(ENTER_SKIPS if enter == SKIP else told, INDENT)
        offered = (self.answers.unknown(question) or self.answers.offered(question, step.unit)) if before else ""
        if before and offered not in ("", SKIP, before.text):
            self.terminal.say(f"`don't know` takes: {self.taking.with_figure(offered, question)}", INDENT)

    def help(self, step: Step, before: Answer | None) -> None:
        """Show what is asked again, and what else may be typed."""
        question = step.question
        self.show(step, before)
        if question.means:
            self.terminal.say(question.means, INDENT)
        if question.choices:
            self.terminal.say("One of the words, or its number.", INDENT)
        if question.form in (LOAD, PLANNED, ANY_LOADS, ANY_PLANNED):
            self.terminal.say(RATED, INDENT)
        if question.may_be_none:
            self.terminal.say("`none` where there is none.", INDENT)
        unknown = self.answers.unknown(question) or self.answers.enter(question)
        if question.asks_whether:
            self.terminal.say("`don't know` asks whether there is one.", INDENT)
        elif unknown:
            told = f"`don't know` takes: {self.taking.with_figure(unknown, question)}"
            self.terminal.say(NOT_KNOWN_SKIPS if unknown == SKIP else told, INDENT)
        self.terminal.say(GOING, INDENT)
