"""What an answer names that is asked of with another question, such as a sump pump where a pool pump is asked for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dwellcalc.home.names import plain
from dwellcalc.problems import Problem, Problems, message

from .phrases import CLAUSE_ENDS, EDGES, IN_BRACKETS, INSTEAD, WORDS, among, choices_by_words
from .questions import CHOICES, LOAD, PLANNED, Question
from .sentences import named
from .starter import Starter

OF_ANOTHER = message(
    "start_of_another",
    '"{said}" is of another question, which is: {other}',
    "say here only of {what}, and the other there; with Enter, `none` or `don't know` it goes on",
)


@dataclass(frozen=True)
class Elsewhere:
    """What of an answer is of another question: its words, that question, and the clauses that are of neither."""

    said: str
    other: Question
    rest: str

    def problem(self, question: Question) -> list[Problem]:
        """Why it is not taken here."""
        what = f"{question.what[:1].lower()}{question.what[1:]}"
        problems = Problems()
        problems.add(OF_ANOTHER, None, said=self.said, other=self.other.asked, what=what)
        return problems.found


def elsewhere(typed: str, question: Question, starter: Starter) -> Elsewhere | None:
    """What an answer names that another question asks for, and nothing of its own; nothing where it names no such thing."""
    others = dict(_others(question, starter))
    if not others:
        return None
    own = _own(question)
    clauses = [each for each in CLAUSE_ENDS.split(INSTEAD.sub("", IN_BRACKETS.sub(" ", typed))) if each.strip(EDGES)]
    for clause in clauses:
        named_here = {each: each for each in own}
        found = among(_before_place(clause, starter), {each: each for each in others} | named_here)
        foreign = {name: said for name, said in found.items() if name not in own}
        if foreign and not own.intersection(found):
            name, said = next(iter(foreign.items()))
            of_itself = name in map(plain, question.of_others.get(others[name], ()))  # which says it of the other clauses too
            rest = [each for each in clauses if each != clause and not of_itself]
            return Elsewhere(said, starter.questions[others[name]], ", ".join(rest))
    return None


def _own(question: Question) -> set[str]:
    """The words by which a question names what it asks for, and its choices."""
    names = {plain(each) for each in _names(question)}
    return names | choices_by_words(question).keys() | {plain(each) for each in question.there_also}


def _names(question: Question) -> Iterator[str]:
    """What the load of a question is called."""
    if question.form in (LOAD, PLANNED):
        yield from (question.entry["name"], question.entry["kind"].replace("_", " "), *question.called)
    if question.form in (LOAD, PLANNED) and not question.choices:
        yield question.what


def _others(question: Question, starter: Starter) -> Iterator[tuple[str, str]]:
    """The names of loads of today that other questions ask for, which are none of this one, and these questions."""
    asked = question.form == LOAD or (question.form == CHOICES and not question.of_what_comes)
    own, words = _own(question), named(question)
    led_to = {question.id, *question.when}
    for other in starter.questions.values() if asked else ():
        akin = other.id == question.id or other.form != LOAD or not led_to.isdisjoint(other.when)
        for name in () if akin else map(plain, _names(other)):
            if len(name.split()) > 1 and name not in own and not set(WORDS.findall(name)) <= words:
                yield name, other.id
    for other_id, said in question.of_others.items():
        yield from ((plain(each), other_id) for each in said)


def _before_place(clause: str, starter: Starter) -> str:
    """What of a clause stands before a word of place, behind which other things are named only to tell where something is."""
    found = clause.split()
    ends = next((at for at, each in enumerate(found) if plain(each) in starter.words.places), len(found))
    return " ".join(found[:ends])
