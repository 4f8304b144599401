"""What is shown and typed in the terminal while questions are asked."""

from __future__ import annotations

import re
import sys
import textwrap
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from dwellcalc.home.names import Names, plain
from dwellcalc.home.starting.not_knowing import not_known

BACK, STOP = "back", "stop"
ALSO = {
    "no": ("none", "there is none", "nope"),
    "yes": ("yeah", "yep"),
    "input": ("what it draws", "draws", "nameplate", "label", "plate", "rating"),
    "breaker": ("the circuit", "circuit"),
    "what it draws": ("input", "draws", "it draws", "what it takes"),
}
HELP = ("?", "help", "h", "??")
INDENT, PROMPT = "  ", "> "
BOTH = "Enter and `don't know` take: {enter}, {why}"


class Stopped(Exception):
    """The user wants to stop, or there is no more input."""


class Back(Exception):
    """The user wants to go back from a question that followed another."""


@dataclass
class Terminal:
    """What is shown and typed; text is broken at a width.

    Attributes:
        width: where lines end.
        waiting: what is to be shown once it is sure, in the order in which it was said; nothing where all is shown at once.
    """

    width: int
    waiting: list[tuple[str, str, str]] | None = None

    def hold(self) -> None:
        """Keep back what is said from here on, until something is to be typed."""
        self.waiting = []

    def release(self, *, shown: bool = True) -> None:
        """Show what was kept back, or forget it."""
        waiting, self.waiting = self.waiting, None
        for text, indent, then in waiting or () if shown else ():
            self.say(text, indent, then)

    def say(self, text: str, indent: str = "", then: str = "") -> None:
        """Show a text; ``then`` begins each line but the first."""
        if self.waiting is not None:
            self.waiting.append((text, indent, then))
            return
        broken = textwrap.fill(
            text,
            self.width,
            initial_indent=indent,
            subsequent_indent=then or indent,
            break_on_hyphens=False,
            break_long_words=False,
        )
        print(broken or indent.rstrip())

    def blank(self) -> None:
        """An empty line."""
        print()

    def listed(self, choices: Mapping[str, str]) -> None:
        """Words with their numbers, and what each stands for."""
        words = max((len(word) for word in choices), default=0)
        figures = len(str(len(choices)))
        for number, (word, says) in enumerate(choices.items(), 1):
            lead = f"{INDENT}{str(number).rjust(figures)}  {word.ljust(words)}  "
            if says and says != word:
                self.say(says, lead, " " * len(lead))
            else:
                print(lead.rstrip())

    def type(self) -> str:
        """What is typed.

        Raises:
            Stopped: there is no more, or it was interrupted.
        """
        self.release()
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

    def choose(
        self, asked: str, words: Sequence[str], enter: str, unknown: str, why: str = "", also: Mapping[str, str] | None = None
    ) -> tuple[str, bool]:
        """One of a few words, as a question that follows another, and whether it was known; ``why`` Enter takes what it takes.

        ``also`` are further words for some of them.

        Raises:
            Stopped, Back: that is what was typed.
        """
        any_of = f"{', '.join(words[:-1])} or {words[-1]}"
        takes = f"Enter takes: {enter}; `don't know` takes: {unknown}"
        self.say(f"{asked} {any_of}. {BOTH.format(enter=enter, why=why) if why else takes}", INDENT)
        names = Names([*((each, word) for word in words for each in _spellings(word)), *(also or {}).items()])
        while True:
            typed = self.type()
            if plain(typed) == STOP:
                raise Stopped
            if plain(typed) == BACK:
                raise Back
            if not_known(typed) or not_known(typed.partition(",")[0]):
                return unknown, False
            found = (names.find(typed) or _said(typed, names)) if typed else enter
            if found:
                return found, bool(typed)
            self.say(f"{asked} {any_of}; `don't know`, `back` or `stop`.", INDENT)


def _said(typed: str, names: Names[str]) -> str | None:
    """The word that the first clause of a sentence that names one has, such as `its the breaker`; nothing where it names several."""
    for clause in re.split(r"[,;]", plain(typed)):
        words = clause.split()
        runs = (
            " ".join(words[at:to])
            for at in range(len(words))
            for to in range(at + 1, len(words) + 1)
            if to - at > 1 or len(words[at]) > 1
        )
        found = {word for run in runs if (word := names.find(run))}
        if found and len(found) == 1 and not {"not", "no", "isn't"}.intersection(words[:-1]):
            return found.pop()
    return None


def _spellings(word: str) -> list[str]:
    """How a word may be typed: as it stands, without its unit or its blanks, a word of letters by the first of them."""
    also = ALSO.get(word, ())
    return [word, word.split()[0], word.replace(" ", ""), *([word[0]] if word[0].isalpha() else []), *also]
