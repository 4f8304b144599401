"""Several loads of one kind in one answer: a number of equal ones, or ratings told apart by a tag or a floor, such as `AH-1 8 kW, AH-2 5 kW`."""

from __future__ import annotations

import re

from dwellcalc.home.names import plain

from .label_words import LabelWords
from .questions import LOAD, PLANNED, SEMICOLON, Question

CLAUSES = re.compile(r"\s*(?:,(?!\d{3}\b)|;|\band\b)\s*", re.IGNORECASE)
LABELS = re.compile(r"\s*(?:;|,(?=\s*[A-Z]{1,4}-\s?\d{1,2}\b))\s*")  # and before a further tag
RATING = re.compile(
    r"(?<![\w.,/-])(?P<rating>(?:MCA\s+)?\d[\d.,]*(?:/\d+)?\s*(?:k?W|k?VA|A|hp|amps?|watts?))\b(?:\s*(?:at|@)?\s*(?P<volts>\d{3})\s*V\b)?",
    re.IGNORECASE,
)
TAG = re.compile(r"\b[A-Z]{1,4}[-\s]?\d{1,2}\b")
TAGGED = re.compile(r"(?:[A-Z]{1,4}-\s?\d{1,2}|[A-Z]{2,4}\d{1,2})\b[\s:,-]*")


COUNT_FIRST = re.compile(  # two, each 4.5 kW; 2 of them, 4.5 kW each; two 4.5 kW
    r"(?P<number>[a-z]+|\d)(?P<of_them>\s+(?:of (?:them|these)|units|equal ones))?[\s,:-]+(?P<each>each\b[\s,:]*(?:of|at|is|are)?\s*)?(?P<rest>(?:MCA\s*)?\d.*)",
    re.IGNORECASE,
)
COUNT_LAST = re.compile(  # 4.5 kW each, two of them; 4.5 kW, two of them
    r"(?P<rest>(?:MCA\s*)?\d.*?)(?P<each>\s+each)?[\s,]+(?P<number>[a-z]+|\d)(?P<of_them>\s+(?:of (?:them|these)|units|equal ones))?\.?",
    re.IGNORECASE,
)
EACH = re.compile(r"[\s,]+each\b", re.IGNORECASE)


def counted(text: str, question: Question, words: LabelWords) -> str:
    """A rating of several equal loads as `2 x 4.5 kW`; any other text as it is. A number in digits must have `each` or the like beside it."""
    if question.form not in (LOAD, PLANNED) or question.settings:
        return text
    for pattern in (COUNT_FIRST, COUNT_LAST):
        match = pattern.fullmatch(text.strip())
        said = plain(match["number"]) if match is not None else ""
        number = words.numbers.index(said) + 1 if said in words.numbers else int(said) if said.isdigit() else 0
        if match is None or number < 2 or RATING.search(match["rest"]) is None:
            continue
        rest = EACH.sub("", match["rest"])
        in_words = not said.isdigit() and pattern is COUNT_FIRST
        if in_words or match["each"] or match["of_them"] or rest != match["rest"]:
            return f"{number} x {rest}"
    return text


def each_of_several(text: str, question: Question, words: LabelWords) -> str:
    """The ratings, each behind a semicolon; any other text as it is.

    Each clause must have one rating and a tag or a floor, for a label has several figures of one load too. A voltage that the last
    one alone has is that of all.
    """
    clauses = [each for each in CLAUSES.split(text.strip()) if each]
    if question.form not in (LOAD, PLANNED) or question.settings or len(clauses) < 2:
        return text
    labels = [each for each in LABELS.split(text.strip()) if each]
    if len(labels) > 1 and all(map(TAGGED.match, labels)):  # whole labels, each behind its tag
        return f"{SEMICOLON} ".join(TAGGED.sub("", each) for each in labels)
    found: list[tuple[str, str]] = []
    for clause in clauses:
        match = RATING.search(clause)
        if match is None or not _tells_which(f"{clause[: match.start()]} {clause[match.end() :]}", words):
            return text
        found.append((match["rating"], match["volts"] or ""))
    *others, last = (volts for _, volts in found)
    of_all = last if not any(others) else ""
    return f"{SEMICOLON} ".join(f"{rating} at {at} V" if (at := volts or of_all) else rating for rating, volts in found)


def _tells_which(rest: str, words: LabelWords) -> bool:
    """Whether what stands beside a rating is a tag, or a floor of the house, and nothing more."""
    tags = TAG.findall(rest)
    said = re.findall(r"[^\s,.:()]+", plain(TAG.sub(" ", rest)))
    floors = {*map(plain, words.floors)}
    passed = {*floors, *map(plain, (*words.which_floor, *words.fillers, *words.passed, *words.places))}
    return bool(tags or not floors.isdisjoint(said)) and passed.issuperset(said)
