"""What plugs into an ordinary outlet, and the kind of load that a voltage tells."""

from __future__ import annotations

import re

from dwellcalc.glossary import Glossary
from dwellcalc.home.glossary_names import LINE_TO_LINE
from dwellcalc.home.legs import by_voltage
from dwellcalc.home.models import models_for
from dwellcalc.home.ratings import read_rating
from dwellcalc.home.refusal import Refusal

from .answers import Answer, Answers
from .questions import Question
from .said import said_of
from .starter import Starter
from .voltages import Voltages, placed

INTO = r"(?:\b(?:it|that|just|which|one|simply)\s+)*(?:\bplug(?:s|ged)?(?:[\s-]+(?:in|into|to))*\s+)?(?:\b(?:an?|the|into|in|on)\s+)*"
OUTLET = r"(?:[\s-]+(?:wall))?\s+(?:outlet|receptacle|socket|plug)s?\b"


def at_outlet(text: str, question: Question, starter: Starter, glossary: Glossary) -> str:
    """A rating of what plugs into an ordinary outlet with the voltage of that; any other text as it is."""
    rest = _without(text, question)
    if rest is None or not re.search(r"\d", rest):
        return text
    rating = said_of(rest, starter, glossary).rating
    return rest.replace(rating, f"{rating} at {question.plugs_at}", 1)


def outlet_alone(text: str, question: Question) -> Answer | None:
    """What is taken where only an ordinary outlet was told; nothing otherwise."""
    rest = _without(text, question)
    alone = rest is not None and not re.search(r"\d", rest)
    return Answer(question.plugs_takes, assumed=True, there=True) if alone else None


def _without(text: str, question: Question) -> str | None:
    """A text without the ordinary outlet that it names; nothing where it names none."""
    if not question.plugs:
        return None
    ordinary = "|".join(map(re.escape, sorted(question.plugs, key=len, reverse=True)))
    match = re.search(rf"{INTO}(?<![\w.])(?:{ordinary}){OUTLET}", text, re.IGNORECASE)
    if match is None:
        return None
    return f"{text[: match.start()].rstrip(' ,;(-')} {text[match.end() :].lstrip(' )')}".strip(" ,;")


def kind_at(question: Question, text: str, answers: Answers, glossary: Glossary) -> str:
    """The kind of load that the voltage of a rating tells, or that of the question."""
    if not question.kind_at:
        return question.kind
    try:
        rating = read_rating(
            placed(said_of(text, answers.starter, glossary).rating), models_for(glossary).vocabulary.ratings, glossary.units
        )
    except Refusal:
        return question.kind
    connection = by_voltage(LINE_TO_LINE, rating, Voltages(question, answers, glossary).system())
    return question.kind_at.get(connection, question.kind)


def kind_told(question: Question, text: str, answers: Answers, glossary: Glossary) -> str:
    """What is said where the voltage tells another kind than the question asks for; else an empty text."""
    kind = kind_at(question, text, answers, glossary)
    said = [question.kind_told.get(connection, "") for connection, each in question.kind_at.items() if each == kind]
    return said[0] if kind != question.kind and said else ""
