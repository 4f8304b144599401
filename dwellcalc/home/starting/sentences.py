"""Answers in sentences: that there is one, that there is none, that it is only planned; of which clause a number is.

The words stand in ``starter.yaml``. A sentence is taken only where every word of it is known; a number in it is never passed by.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from dwellcalc.home.names import plain

from .label_words import LabelWords
from .not_knowing import not_known
from .phrases import among, choices_by_words
from .questions import AREA, DETAIL, KEY, LOAD, NONE, PLANNED, Question

WORDS = re.compile(r"[a-z][a-z'/]*")
DIGIT = re.compile(r"\d")
CLAUSE_ENDS = re.compile(r"\s*[,;]\s+")
EITHER = re.compile(r"(?<![\d.,/])(\d{1,3})\s*(?:or|to|-)\s*(\d{1,3})(?![\d.,/])")
ONE_OR_OTHER = re.compile(r"(?<=\d)(\s*[A-Za-z]*)\s+or\s+(?=\d)")
ITS_RATING = re.compile(
    r"\s+(?:of\s+|about\s+)?(?:the|its|what)\s+(?:power|rating|size|watts|wattage|amps|kW|hp|horsepower|numbers?)$", re.IGNORECASE
)
OR = " or "
HYPHEN = re.compile(r"(?<=\d)\s*[-\u2013]\s*(?=\d\d)")  # between two areas
TWO_AMOUNTS = re.compile(r"(\d+)\s*(?:or|to|-)\s*(\d+)(?P<unit>\s*[A-Za-z]+)", re.IGNORECASE)
NOT_KNOWN = "not known"
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


def comes_later(text: str, question: Question, words: LabelWords) -> str:
    """The choice that something comes later, where a time, a condition or the end of something is told, as in two years."""
    later = next((each for each in question.choices if each in words.later), "")
    said = set(_words(text))
    of_choices = choices_by_words(question)
    if not later or question.several or not said.isdisjoint(words.denies) or among(text, of_choices):
        return ""
    in_time = not said.isdisjoint(words.times) and not said.isdisjoint((*words.places, *words.later))
    on_condition = _words(text)[:1] and _words(text)[0] in words.conditions
    return later if in_time or on_condition or not said.isdisjoint(words.ends) else ""


def once_ended(text: str, words: LabelWords) -> str:
    """What is at its end by then, such as the furnace of `when the furnace dies`; any other text as it is."""
    if set(_words(text)).isdisjoint(words.ends):
        return text
    passed = {*words.ends, *words.whens, *map(plain, words.fillers)}
    return " ".join(each for each in text.split() if plain(each) not in passed)


def one_of_two(text: str, question: Question, words: LabelWords) -> str:
    """Of two whole numbers that a count may be the one that the question takes; an empty text where two are not all that is said."""
    match = EITHER.search(text)
    if match is None or not (question.less_words or question.larger_of_two):
        return ""
    if not _all_known(f"{text[: match.start()]} {text[match.end() :]}", question, words):
        return ""
    numbers = sorted(map(int, match.groups()))
    return str(numbers[-1] if question.larger_of_two else numbers[0])


def larger_amount(text: str, question: Question) -> str:
    """Of two amounts of which one or the other is said, such as `15 to 20 feet`, the larger where the question takes that."""
    match = TWO_AMOUNTS.fullmatch(text.strip()) if question.unit and question.larger_of_two else None
    return f"{max(match[1], match[2], key=int)}{match['unit']}" if match else ""


def count_among(text: str, question: Question, words: LabelWords) -> str:
    """The one number of a sentence that tells a count, such as `there are 6 empty`; an empty text where more is said."""
    found = re.findall(r"\d+", text)
    counts = question.form == KEY and not question.unit and question.example.isdigit()
    return found[0] if counts and len(found) == 1 and _all_known(text.replace(found[0], " "), question, words) else ""


def _all_known(text: str, question: Question, words: LabelWords) -> bool:
    """Whether every word beside a count says nothing else."""
    known = {*named(question), *words.later, *words.free}
    denies = not set(_words(text)).isdisjoint(words.denies)
    return not DIGIT.search(text) and not denies and all(each in known for each in _rest(_words(text), words))


def with_bounds(text: str, question: Question) -> str:
    """A rating or an area of which one or the other is said, such as `4 or 5 kW`, as bounds; any other text as it is."""
    if question.form == AREA:
        text = HYPHEN.sub(" to ", text)
    bounded = question.form in (LOAD, AREA, PLANNED) and not (question.settings or question.on_breaker or question.choices)
    return ONE_OR_OTHER.sub(r"\1 to ", text) if bounded and text.count(OR) == 1 else text


def number_clause(text: str, question: Question, words: LabelWords, is_evidence: Callable[[str], bool]) -> tuple[str, str]:
    """The clause of a number, or that it is not known, with what stands beside it, such as a place; else the text as it is and nothing.

    Args:
        text: the answer.
        question: its question.
        words: the words of people.
        is_evidence: whether a clause says what a value was read from, and stays with it.
    """
    if question.choices or question.listed or not question.unit:
        return text, ""
    clauses = [each for each in CLAUSE_ENDS.split(text.strip()) if each]
    numbers = [each for each in clauses if DIGIT.search(each)]
    rest = [each for each in clauses if not DIGIT.search(each)]
    if question.form not in (KEY, DETAIL):  # what stands beside a rating or an area may be a part of it
        parts = set(_words(" ".join(question.there_also)))  # such as `other half` of a basement
        places = [each for each in rest if plain(each).split()[0] in words.places or set(_rest(_words(each), words)) <= parts]
        places = [each for each in places if not is_evidence(each)]
        kept = ", ".join(each for each in clauses if each not in places)
        return (kept, ", ".join(places)) if numbers and places else (text, "")
    unknown = [each for each in rest if not_known(each) or rating_alone(each)]
    if not numbers and len(unknown) == 1 and rest != unknown:
        return NOT_KNOWN, ", ".join(each for each in rest if each not in unknown)
    if len(numbers) != 1 or not rest or any(map(is_evidence, rest)):
        return text, ""
    return numbers[0], ", ".join(rest)


def rating_alone(text: str) -> bool:
    """Whether only the rating or the size is said not to be known, of what is there."""
    match = ITS_RATING.search(text)
    return match is not None and not_known(text[: match.start()])


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
