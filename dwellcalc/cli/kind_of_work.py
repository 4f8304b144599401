"""The kind of work: named, chosen by its word or number, or told in words such as `I want a charger`."""

from __future__ import annotations

import re
from collections.abc import Iterable

from dwellcalc.cli.terminal_talk import INDENT, STOP, Back, Stopped, Terminal
from dwellcalc.glossary import YES
from dwellcalc.home.names import Names, plain
from dwellcalc.home.starting.questions import Work
from dwellcalc.home.starting.starter import Starter

ASKED = "What kind of work is it?"
READ_AS = 'Read as "{word}": {title}. Is that so?'
WHICH = "Type one of the words, or its number, such as `{word}` for {title}."
NO = "no"


def choose_work(starter: Starter, terminal: Terminal) -> Work:
    """The kind of work that is asked for in a terminal.

    Raises:
        Stopped: that was typed, or there is no more.
    """
    terminal.say(ASKED)
    terminal.listed({work.word: work.title for work in starter.works.values()})
    names = Names([*starter.works.items(), *((str(at), work) for at, work in enumerate(starter.works.values(), 1))])
    while True:
        typed = terminal.type()
        if plain(typed) == STOP:
            raise Stopped
        found = names.find(typed)
        if found is not None:
            return found
        told = told_work(typed, starter)
        if told is not None and _is_so(told, terminal):
            return told
        usual = next((each for each in starter.works.values() if each.otherwise), next(iter(starter.works.values())))
        terminal.say(WHICH.format(word=usual.word, title=usual.title), INDENT)


def told_work(text: str, starter: Starter) -> Work | None:
    """The kind of work that a sentence tells of; nothing where it tells of none, or of two."""
    works = starter.works.values()
    found = [each for each in works if _names(each.also, text)] or [each for each in works if _names(each.otherwise, text)]
    return found[0] if len(found) == 1 else None


def _names(words: Iterable[str], text: str) -> bool:
    return any(re.search(rf"\b{re.escape(plain(each))}s?\b", plain(text)) for each in words)


def _is_so(work: Work, terminal: Terminal) -> bool:
    try:
        return terminal.choose(READ_AS.format(word=work.word, title=work.title), (YES, NO), YES, NO)[0] == YES
    except Back:
        return False
