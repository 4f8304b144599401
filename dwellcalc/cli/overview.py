"""The answers of an interview, shown with their numbers: all of them, or those that a change gave."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from dwellcalc.cli.terminal_talk import INDENT, STOP, Stopped, Terminal
from dwellcalc.home.names import plain
from dwellcalc.home.starting.answers import Answer, Answers, Slot, Step
from dwellcalc.home.starting.questions import SKIP

ANSWERS = "These are the answers:"
LEFT_OUT = "left out"
CHANGE = "Type a number to change that answer, `list` to see all; Enter to finish."
LIST = "list"


@dataclass(frozen=True)
class Overview:
    """Shows answers; ``of_unit`` tells of which dwelling unit a question is."""

    terminal: Terminal
    answers: Answers
    of_unit: Callable[[Step], str]

    def all(self) -> None:
        """All answers so far."""
        self.terminal.blank()
        self.terminal.say(ANSWERS)
        for number, step in enumerate(self.answers.asked(), 1):
            if step.slot in self.answers.given:
                self.one(number, step)

    def changed(self, before: Mapping[Slot, Answer]) -> None:
        """The answers that are others than before."""
        self.terminal.blank()
        for number, step in enumerate(self.answers.asked(), 1):
            if self.answers.given[step.slot] != before.get(step.slot):
                self.one(number, step)

    def one(self, number: int, step: Step) -> None:
        """An answer with its number."""
        figures = len(str(len(self.answers.asked())))
        answer, lead = self.answers.given[step.slot], f"{INDENT}{str(number).rjust(figures)}  "
        assumed = " (assumed)" if answer.assumed else ""
        text = LEFT_OUT if answer.text == SKIP else f"{step.question.shown(answer.text)}{assumed}"
        self.terminal.say(f"{step.question.what}{self.of_unit(step)}: {text}", lead, " " * len(lead))

    def to_change(self) -> int | None:
        """The position of the answer that is to be changed; nothing where all may stay."""
        count = len(self.answers.asked())
        while True:
            self.terminal.say(CHANGE)
            try:
                typed = self.terminal.type()
            except Stopped:
                return None
            if not typed or plain(typed) == STOP:
                return None
            if plain(typed) == LIST:
                self.all()
            elif typed.isascii() and typed.isdecimal() and 0 < int(typed) <= count:
                return int(typed) - 1
