"""Answers in the words of people: a number among words, `yes` or `no idea` in a sentence, a size in tons, what is said beside it."""

from __future__ import annotations

import re

from dwellcalc.home.names import plain

from .answers import Answer, Answers
from .everyday import size_clause
from .label_words import LabelWords
from .not_knowing import not_known
from .phrases import among, choices_by_words
from .questions import AREA, KEY, LOAD, NONE, PLANNED, SKIP, Question
from .said import DOUBT
from .sentences import (
    EITHER,
    affirmed,
    comes_later,
    count_among,
    larger_amount,
    once_ended,
    one_of_two,
    rating_alone,
    with_bounds,
)
from .sentences import named as named_by
from .several import counted, each_of_several
from .taken import ABSENT, THERE, taken

CLAUSES = re.compile(r"\s*[,;]\s*|\s+(?:with|plus|and)\s+")
COMMAS = re.compile(r"\s*[,;]\s*|\s+and\s+")
SEVERAL = re.compile(r"\s*(?:[,;&]|\band\b|\bplus\b)\s*", re.IGNORECASE)
FILE_NAME = re.compile(r"[^\s,;]+\.\w{2,5}")
DIGIT = re.compile(r"\d")
SAID_SO = re.compile(r"\s+(?:has |have )?(?:told|confirmed|says|said)(?:\s+(?:me|us|so|it|me so|us so))?$", re.IGNORECASE)
SAID_BY = re.compile(r"^(?:as )?(?:told|confirmed|said)(?: (?:me|us|so|it|to me|to us))? by\s+(?=\S)", re.IGNORECASE)
SPEAKER = re.compile(r"(?P<who>[A-Z\u00c0-\u017e].*?)\s+(?:said|says|told (?:me|us)|confirmed|tells me)\b.*\d")
NUMBERS = re.compile(r"(?<![\d.])\d{1,3}(?![\d.])")
HALF = re.compile(r"(\d+)[ -]1/2")
SIZE = re.compile(r"(?<![\d./])(\d+(?:\.\d+)?)[\s-]*([a-z]+?)s?(?![\w])", re.IGNORECASE)
ONE_OF = re.compile(r"\d+\s*[A-Za-z]*(?:\s*(?:,|/|\bor\b)\s*(?:or\s+)?\d+\s*[A-Za-z]*)+", re.IGNORECASE)
AS_TOLD = "{text} told"
WORD = re.compile(r"[\s,]+|(?<=\d)-(?=[a-zA-Z])")


def spoken(text: str, question: Question, words: LabelWords) -> str:
    """A sentence as the answer that it gives; any other text as it is."""
    if question.form == LOAD and any(_names(each, text) for each in question.none_within):  # `it stands on the counter`
        return NONE
    text = each_of_several(counted(in_digits(text, question, words), question, words), question, words)
    text = _who(text) if question.along_rest else text
    if question.none_told and len(files := [each for each in COMMAS.split(text) if FILE_NAME.fullmatch(each)]) == 1:
        return files[0]  # `usage.csv, 15-minute data`
    if question.goes_too and plain(CLAUSES.split(text)[0]) in (NONE, *ABSENT):  # `none, it is an addition`
        return NONE
    if question.goes_too:
        named = [_bare(each, words) for each in CLAUSES.split(text) if each]
        named = [each for each in (once_ended(each, words) for each in named) if each]
        return "; ".join(question.stands_for.get(plain(each), each) for each in named)
    core = _core(text, words).split()
    instead = " ".join(core) in map(plain, question.none_also)  # `finished`, where the part that is not is asked for
    if question.there_also and core and not instead and set(core) <= set(plain(" ".join(question.there_also)).split()):
        return THERE[0]
    if question.yes_means:
        return _bare(text, words)
    if count := larger_amount(text, question) or one_of_two(text, question, words) or count_among(text, question, words):
        return count
    text = with_bounds(text, question)
    if question.less_words and (left := _left_of(text, question.less_words)):
        return left
    if question.choices or question.form not in (AREA, KEY, LOAD, PLANNED):
        return comes_later(text, question, words) or text
    if DIGIT.search(text):
        text = _without_its_name(text, question, words)
        return number_among(text, words) if question.unit or question.less_words else text
    if affirmed(text, question, words):
        return THERE[0]
    clauses = [each for each in CLAUSES.split(text) if each]
    if any(plain(each) in map(plain, question.none_also) for each in clauses):
        return NONE
    if question.may_be_none and len(clauses) > 1 and plain(clauses[0]) in ABSENT:  # `no, just insulation`
        return NONE
    if question.form != KEY and any(rating_alone(each) for each in clauses):  # `under the sink, don't know the power`
        return THERE[0]
    there = [each for each in clauses if plain(each) in THERE or affirmed(each, question, words)]
    if there and all(each in there or not_known(each) for each in clauses):  # `yes there is one, no label to see`
        return THERE[0]
    said = [each for each in clauses if plain(each) in THERE or not_known(each)]
    return said[0] if len(said) == 1 else text


def in_digits(text: str, question: Question, words: LabelWords) -> str:
    """A count in words as the number, such as `one washer`."""
    first, _, rest = plain(text).partition(" ")
    counted = question.form == KEY and not question.unit and question.example.isdigit() and first in words.numbers
    either = rest.split() if counted else []
    if len(either) == 2 and either[0] in ("or", "to") and either[1] in words.numbers:  # `two or three`
        return " ".join(f"{words.numbers.index(each) + 1}" if each in words.numbers else each for each in (first, *either))
    known = counted and not DIGIT.search(rest) and not rest.startswith("of")
    number = f"{words.numbers.index(first) + 1}" if known else ""
    return number if number and (not rest or count_among(f"{number} {rest}", question, words)) else text


def _core(text: str, words: LabelWords) -> str:
    """A text in lower case without the words that change nothing."""
    passed = {plain(each) for each in (*words.fillers, *words.around)} - {"one"}
    return " ".join(each for each in plain(text).replace(",", " ").split() if each not in passed)


def _without_its_name(text: str, question: Question, words: LabelWords) -> str:
    """A rating or an area without words behind its unit that only name what is asked for, such as `by outside dimensions`."""
    if question.form not in (AREA, LOAD):
        return text
    first, comma, rest = text.partition(", ")
    known = named_by(question) | {*map(plain, (*words.fillers, *words.around)), *plain(" ".join(question.there_also)).split()}
    said = first.split()
    numbers = [at for at, each in enumerate(said) if DIGIT.match(each)]
    ends = numbers[-1] + 2 if numbers else len(said)
    behind = [plain(each) for each in said[ends:]]
    units = {"at", "volts", "watts", "amps", "a", "v"}
    passed = bool(behind) and known.issuperset(behind) and units.isdisjoint(behind)
    return f"{' '.join(said[:ends])}{comma}{rest}" if passed else text


def _left_of(text: str, words: tuple[str, ...]) -> str:
    """Of two numbers, of which one is named by one of some words, what is left of the larger; else an empty text."""
    numbers = sorted(map(int, NUMBERS.findall(text)))
    named = any(_names(each, text) for each in words)
    return str(numbers[1] - numbers[0]) if named and len(numbers) == 2 else ""


def _bare(text: str, words: LabelWords) -> str:
    """A name without the words before it that change nothing, such as `the old`."""
    found, fillers = text.split(), set(map(plain, words.fillers))
    while len(found) > 1 and plain(found[0]) in fillers:
        del found[0]
    return " ".join(found)


def number_among(text: str, words: LabelWords) -> str:
    """The one number of a text, with its unit, where all the other words change nothing; else the text as it is."""
    around = set(map(plain, words.around))
    found = [each for each in WORD.split(text) if each]
    units = {
        at for at, before in enumerate(found[:-1], 1) if DIGIT.match(before)
    }  # what follows a number, such as A, is its unit
    rest = [each for at, each in enumerate(found) if plain(each) not in around or (at in units and each.isupper())]
    numbers = [each for each in rest if DIGIT.match(each)]
    alone = ", " not in text and len(numbers) == 1 and rest[0] == numbers[0] and len(rest) <= 2 and "/" not in rest[0]
    return " ".join(rest) if alone else text


def sized(text: str, question: Question, words: LabelWords) -> Answer | None:
    """What is taken where only the size was told by which people call it, such as tons, or for two cars; nothing where none was."""
    either = DOUBT.sub("", text).strip(" ?")
    if question.either_takes and ONE_OF.fullmatch(either):
        return Answer(question.either_takes, assumed=True, beside=AS_TOLD.format(text=either))
    for bounds, said in question.bounds_of.items():
        core = sorted(_core(text.replace("-", " "), words).split())
        if core in [sorted(plain(each).split()) for each in said]:
            return Answer(bounds, assumed=True, there=True)
    if not question.by_size:
        return None
    parts = [each for each in SEVERAL.split(text) if each]
    each_of = [sized(each, question, words) for each in parts] if len(parts) > 1 else []
    if each_of and all(each_of) and all(map(DIGIT.search, parts)):  # two units, each with its size
        return Answer("; ".join(each.text for each in each_of if each), assumed=True, there=True, beside=text)
    text, beside = size_clause(text, words)
    rest = WORD.split(HALF.sub(r"\1.5", text.strip()))
    around = set(map(plain, (*words.around, question.entry["kind"].replace("_", " "))))
    told = " ".join(each for each in rest if plain(each) not in around).replace(question.entry["kind"].replace("_", " "), "")
    match = SIZE.fullmatch(told.strip())
    if match is None:
        return None
    for size, bounds in words.sizes.items():
        number, unit = size.split()
        if float(match[1]) == float(number) and plain(match[2]) == plain(unit):
            return Answer(bounds, assumed=True, there=True, beside=beside)
    return None


def told_along(text: str, others: list[Question], words: LabelWords) -> tuple[str, dict[str, str]]:
    """An answer without what it tells of other questions, and that by their names."""
    kept: list[str] = []
    found: dict[str, str] = {}
    for clause in CLAUSES.split(text):
        for other in others:
            named = max((each for each in other.along_words if _names(each, clause)), key=len, default="")
            told = re.sub(rf"\b{re.escape(named)}\b", " ", clause, flags=re.IGNORECASE).strip()
            told = " ".join(each for each in told.split() if other.form != AREA or plain(each) not in named_by(other))
            amount = number_among(_before_place(told, words) if other.form == KEY else told, words)
            if named and DIGIT.match(amount):
                found[other.id] = amount
                break
        else:
            kept.append(clause)
    return (", ".join(kept), found) if found and kept else (text, {})


def _before_place(text: str, words: LabelWords) -> str:
    """What of a text stands before a word of place that follows a number, such as `45 ft` of `45 ft to the panel`."""
    found = text.split()
    first = next((at for at, each in enumerate(found) if DIGIT.search(each)), len(found))
    ends = next((at for at, each in enumerate(found) if at > first and plain(each) in words.places), len(found))
    return " ".join(found[:ends])


def along_rest(text: str, other: Question, answers: Answers) -> str:
    """What follows the first comma, as the answer to another question that takes it; empty where it tells a doubt, or none."""
    head, _, rest = text.partition(",")
    speaker = SPEAKER.match(head.strip())  # `Mr. Rourke at the counter said 2017 code here, amended a little`
    rest = rest.strip().rstrip(".")
    rest = (f"{speaker['who']} ({rest})" if rest else speaker["who"]) if speaker is not None else _who(rest)
    if (
        not other.along_rest
        or not DIGIT.search(head)
        or not rest
        or not_known(rest)
        or not_known(text.partition(",")[0])
        or DOUBT.search(f" {rest}")
    ):
        return ""
    if taken(rest, other, answers).text in (NONE, SKIP):
        return ""
    return other.along_rest.format(rest=rest)


def _who(text: str) -> str:
    """Who said it, without the words that he said it, such as `a clerk` of `confirmed by a clerk` or of `a clerk told me`."""
    return SAID_BY.sub("", SAID_SO.sub("", text))


def _names(word: str, text: str) -> bool:
    return bool(re.search(rf"\b{re.escape(word)}\b", text, re.IGNORECASE))


def counts_told(text: str, question: Question, other: Question) -> tuple[str, str] | None:
    """All of a count and what of it is taken, where two numbers are told and one of them is named; nothing otherwise."""
    numbers = sorted(map(int, NUMBERS.findall(text)))
    if len(numbers) == 1 and _names("all", text) and any(_names(each, text) for each in question.less_words):
        return str(numbers[0]), str(numbers[0])  # `20 slots, all full`
    if numbers[2:] == [sum(numbers[:2])]:  # `30 places, 25 taken, 5 empty`
        of_taken = [each for each in COMMAS.split(text) if any(_names(word, each) for word in question.less_words)]
        found = NUMBERS.findall(" ".join(of_taken))
        return (str(numbers[2]), found[0]) if len(found) == 1 else None
    if len(numbers) != 2 or EITHER.fullmatch(text):
        return None
    taken, left = (any(_names(each, text) for each in words) for words in (question.less_words, other.along_words))
    if taken and left:  # `6 free, 24 taken`
        of_taken = [each for each in COMMAS.split(text) if any(_names(word, each) for word in question.less_words)]
        found = NUMBERS.findall(of_taken[0]) if len(of_taken) == 1 else []
        of_left = [each for each in COMMAS.split(text) if any(_names(word, each) for word in other.along_words)]
        if len(found) == 1 and not NUMBERS.findall(" ".join(of_left)):  # `32 places, 26 with breakers, the others blank`
            return str(numbers[1]), str(numbers[0])
        return (str(sum(numbers)), found[0]) if len(found) == 1 else None
    if taken:
        return str(numbers[1]), str(numbers[0])
    return (str(numbers[1]), str(numbers[1] - numbers[0])) if left else None


def words_told(text: str, others: list[Question]) -> tuple[str, dict[str, str]]:
    """An answer without the words of choices of other questions that stand in it, and these choices by question."""
    found: dict[str, str] = {}
    for other in others:
        unnamed = bool(other.along_words) and not any(_names(each, text) for each in other.along_words)
        told = among(text, choices_by_words(other)).keys() - {SKIP}  # `to be chosen, aluminum`
        if unnamed or len(told) > 1:  # `copper or aluminum` is neither
            continue
        named = [
            (name, word) for word, choice in other.choices.items() for name in (word, *choice.also) if word in told or not told
        ]
        for name, word in sorted(named, key=lambda each: len(each[0]), reverse=True):
            match = re.search(rf"[\s,(]*(?<![\w-]){re.escape(name)}(?![\w-])\)?\.?", text, re.IGNORECASE)
            rest = f"{text[: match.start()]} {text[match.end() :]}".strip(" ,") if match else ""
            for naming in other.along_words:
                rest = re.sub(rf"[\s,]*\b{re.escape(naming)}\b", "", rest, flags=re.IGNORECASE)
            if rest:
                text, found[other.id] = rest, word
                break
    return text, found
