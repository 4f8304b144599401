"""Answers in sentences: that there is one, that there is none, that it is only planned; of which clause a number is.

The words stand in ``starter.yaml``. A sentence is taken only where every word of it is known; a number in it is never passed by.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from dwellcalc.home.names import plain

from .label_words import LabelWords
from .questions import AREA, DETAIL, KEY, LOAD, NONE, PLANNED, Question

WORDS = re.compile(r"[a-z][a-z'/]*")
DIGIT = re.compile(r"\d")
CLAUSE_ENDS = re.compile(r"\s*[,;]\s+")
EITHER = re.compile(r"(?<![\d.,/])(\d{1,3})\s*(?:or|to|-)\s*(\d{1,3})(?![\d.,/])")
ONE_OR_OTHER = re.compile(r"(?<=\d)(\s*[A-Za-z]*)\s+or\s+(?=\d)")
OR = " or "
SOMETHING = frozenset(("one", "any", "have", "has", "got", "there", "there's"))  # of which a denial says that it is not there


def denied(text: str, question: Question, words: LabelWords) -> bool:
    """Whether a sentence says that there is none, such as `we don't have a basement`."""
    said = _words(text)
    if DIGIT.search(text) or set(said).isdisjoint(words.denies):
        return False
    rest = _rest(said, words)
    return all(each in named(question) for each in rest) if rest else not SOMETHING.isdisjoint(said)


def affirmed(text: str, question: Question, words: LabelWords) -> bool:
    """Whether a sentence says that there is one and no more, such as `yes, there is one` or `disposal under the sink`."""
    if question.choices or question.form not in (LOAD, AREA) or not (question.form == LOAD or question.asks_whether):
        return False
    said = _words(text)
    before = said[: next((at for at, each in enumerate(said) if each in words.places), len(said))]
    if DIGIT.search(text) or "?" in text or not set(said).isdisjoint((*words.denies, *words.later)):
        return False
    rest = _rest(before, words)
    return all(each in named(question) for each in rest) and bool(rest or not set(before).isdisjoint(words.affirms))


def only_planned(text: str, question: Question, words: LabelWords) -> bool:
    """Whether it is said that there is none yet, and one is planned."""
    said = _words(text)
    if DIGIT.search(text) or set(said).isdisjoint(words.later) or not (question.form == LOAD or NONE in question.choices):
        return False
    kept = [each for each in _rest(said, words) if each not in words.later]
    return "replacing" not in said and all(each in named(question) for each in kept)


def one_of_two(text: str, question: Question, words: LabelWords) -> str:
    """Of two whole numbers that a count may be the one that the question takes; an empty text where two are not all that is said."""
    match = EITHER.search(text)
    if match is None or not (question.less_words or question.larger_of_two):
        return ""
    beside = _words(f"{text[: match.start()]} {text[match.end() :]}")
    known = {*named(question), *words.later, "left", "free", "open", "empty"}
    if any(each not in known for each in _rest(beside, words)) or DIGIT.search(text[match.end() :]):
        return ""
    numbers = sorted(map(int, match.groups()))
    return str(numbers[-1] if question.larger_of_two else numbers[0])


def with_bounds(text: str, question: Question) -> str:
    """A rating or an area of which one or the other is said, such as `4 or 5 kW`, as bounds; any other text as it is."""
    bounded = question.form in (LOAD, AREA, PLANNED) and not (question.settings or question.on_breaker or question.choices)
    return ONE_OR_OTHER.sub(r"\1 to ", text) if bounded and text.count(OR) == 1 else text


def number_clause(text: str, question: Question, is_evidence: Callable[[str], bool]) -> tuple[str, str]:
    """The clause of a number with what stands beside it, such as a place; where more is not clear, the text as it is and nothing.

    Args:
        text: the answer.
        question: its question.
        is_evidence: whether a clause says what a value was read from, and stays with it.
    """
    if question.form not in (KEY, DETAIL) or not question.unit or question.choices or question.listed:
        return text, ""
    clauses = [each for each in CLAUSE_ENDS.split(text.strip()) if each]
    numbers = [each for each in clauses if DIGIT.search(each)]
    rest = [each for each in clauses if not DIGIT.search(each)]
    if len(numbers) != 1 or not rest or any(map(is_evidence, rest)):
        return text, ""
    return numbers[0], ", ".join(rest)


def named(question: Question) -> set[str]:
    """The words by which a question names what it asks for, in the singular and the plural."""
    entry = question.entry
    said = (question.what, entry.get("name", ""), entry.get("kind", "").replace("_", " "), *question.called)
    found = set(WORDS.findall(" ".join(said).casefold().replace("-", " ")))
    return found | {f"{each}s" for each in found}


def _words(text: str) -> list[str]:
    return WORDS.findall(plain(text.replace("\u2019", "'")).replace("-", " "))


def _rest(said: Iterable[str], words: LabelWords) -> list[str]:
    passed = {plain(each) for each in (*words.fillers, *words.around, *words.passed, *words.denies, *words.affirms)}
    return [each for each in said if each not in passed]
