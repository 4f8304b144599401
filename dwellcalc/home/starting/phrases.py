"""Clauses and phrases of a sentence: where clauses end, what is named among other words, what is left without it."""

from __future__ import annotations

import re
from collections.abc import Mapping

from dwellcalc.home.names import plain

from .label_words import LabelWords
from .questions import Question

CLAUSE_ENDS = re.compile(
    r"\s*(?:,(?!\d)|[;()]|[.!](?=\s|$)|\s-+\s)\s*|,?\s+(?:but|and|with|because|since|so|although|though)\s+", re.IGNORECASE
)
TOKEN = re.compile(r"[^\s,;()]+(?:,\d{3}\b)?(?:[^\s,;()]*)")
WORDS = re.compile(r"[a-z][a-z'/]*")
REPLACED = re.compile(  # by what comes, at a question of what is there today
    r"[\s,;]+(?:(?:it|which|that|they)\s+)?(?:(?:shall|will|to|is|are|going|gets?|should)\s+)*(?:be\s+)?(?:now\s+)?(?:replaced|swapped)\s+(?:now\s+)?(?:by|with|for)\s.*$",
    re.IGNORECASE,
)
INSTEAD = re.compile(
    r"\s+(?:instead of|in place of|in the place of|rather than|to replace|that replaces|replacing)\s.*$", re.IGNORECASE
)
JOINS = re.compile(r",|\b(?:and|but|plus|also)\b|&", re.IGNORECASE)
ONE_AND_OTHER = re.compile(
    r"\b(?:one|the first|an?)\b([^,;]*?)(?:,|,?\s+and)\s+(?:(?:the )?other|one|another|(?:a |the )?second)(?: one)?(?=\s+(?:now|later|in|next|for|some|perhaps|maybe|when|soon|eventually))",
    re.IGNORECASE,
)
IN_BRACKETS = re.compile(r"\([^()]*\)")
AMOUNT = re.compile(r"\d[\d.,]*[\s-]*[A-Za-z]+")  # such as 48 amp, a size of what is named beside it
EDGES = " ,;.-()!?"
BEGINS = re.compile(r"^(?:(?:but|and|with|because|since|so|although|though|plus)\s+)+", re.IGNORECASE)


def passed_words(words: LabelWords) -> set[str]:
    """The words that change nothing."""
    return {*map(plain, (*words.fillers, *words.passed, *words.around, *words.places, *words.affirms, *words.doubts))}


def choices_by_words(question: Question) -> dict[str, str]:
    """The choices of a question by all words that name them, as they are compared."""
    return {plain(each): word for word, choice in question.choices.items() for each in (word, *choice.also)}


def first_and_second(text: str) -> str:
    """A text that tells of one thing and of the other one as of the first and the second."""
    return ONE_AND_OTHER.sub(r"the first\1, the second", text)


def among(text: str, phrases: Mapping[str, str]) -> dict[str, str]:
    """What a text names, with the words by which it does; of phrases that stand in one another the longest."""
    tokens = [(match.start(), match.end()) for match in TOKEN.finditer(text)]
    used: set[int] = set()
    found: dict[str, str] = {}
    for length in range(len(tokens), 0, -1):
        for at in range(len(tokens) - length + 1):
            said = text[tokens[at][0] : tokens[at + length - 1][1]].strip(EDGES)
            name = plain(said) if len(said) > 1 and not said.isdigit() else ""
            word = phrases.get(name) or phrases.get(name.removesuffix("s"))
            if word and used.isdisjoint(range(at, at + length)):
                used |= set(range(at, at + length))
                found.setdefault(word, said)
    return found


def of_their_own(found: Mapping[str, str], phrases: Mapping[str, str]) -> dict[str, str]:
    """What was found without that of which the one word that names it is a word of another's, as the oil burner's is of an oil boiler."""
    names = [(word, name.split()) for name, word in phrases.items() if word in found and len(name.split()) > 1]
    return {word: said for word, said in found.items() if not any(other != word and plain(said) in name for other, name in names)}


def without(text: str, *parts: str) -> str:
    """A text without some parts of it."""
    for part in parts:
        text = text.replace(part, " , ", 1)
    clauses = [BEGINS.sub("", " ".join(each.split()).strip(EDGES)) for each in text.split(" , ")]
    return ", ".join(each for each in clauses if each)
