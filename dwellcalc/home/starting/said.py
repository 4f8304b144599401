"""What stands beside a rating in an answer: on whose word it is, whether its voltage is assumed, what else the label gives."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from dwellcalc.glossary import Glossary
from dwellcalc.home.names import plain, words_of

from .starter import Starter

TOLD = "told"
VOLTAGE_ASSUMED = "voltage assumed"
GUESS = re.compile(
    r"(?:(?:i )?(?:think|guess|believe),?|about|maybe|perhaps|around|up to|at most|max(?:imum)?(?=\s+\d+(?:\.\d+)?\s*kw))\s+(?=\S)",
    re.IGNORECASE,
)
DOUBT = re.compile(
    r"\s*,?\s*(?:\?+|\b(?:(?:i )?think|i (?:guess|believe|suppose)|maybe|probably|perhaps|or so|or thereabouts|at most|(?<!A )max)\.?$)",
    re.IGNORECASE,
)
IN_BRACKETS = re.compile(r"\s*\((?P<word>[A-Za-z][A-Za-z -]*)\)$")
FROM = re.compile(
    r"^(?:it is |it's |that is |that's |is )?(?:from|on|by|per|as on|see|according to)\s+(?:the\s+|its\s+)?|^(?:the|its)\s+",
    re.IGNORECASE,
)  # `from the label`
BEFORE = re.compile(
    r"(?P<word>[A-Za-z][A-Za-z -]*?)(?:\s*[:,]\s*|\s+(?:says|said|reads|shows|is)\s+)(?=(?:MCA|RLA)?\s*\d)", re.IGNORECASE
)
COMMA = re.compile(r",(?!\d{3}(?!\d))")  # not that of thousands
REFERENCE = re.compile(r"\s+(?:(?:sheet|page|no\.?|number|rev\.?)\s+)?[A-Z]{0,3}[-.]?\d[\w.-]*$", re.IGNORECASE)  # `drawing A-2`
LAST_NUMBER = re.compile(r"\d")
VOLTAGE = re.compile(r"(?:at\b|@)?\s*\d[\d/ -]*\s*(?:V|VAC|volts?)?", re.IGNORECASE)
AMOUNT = r"[:=]?\s*(?P<amount>\d[\d.]*)\s*(?:A|amps?|amperes?)?(?![\w.])(?!\s*(?:A|amps?|amperes?)?\s*(?:to\b|[-\u2013]))(?!\s*V)"


@dataclass(frozen=True)
class SaidRating:
    """A rating with what was said beside it.

    Attributes:
        rating: the rating alone.
        evidence: on whose word or what it was read from; empty where nothing of its own was said.
        voltage_assumed: whether nobody has said or seen the voltage.
        keys: further keys of the load with their values.
    """

    rating: str
    evidence: str = ""
    voltage_assumed: bool = False
    keys: dict[str, str] = field(default_factory=dict)

    @property
    def text(self) -> str:
        """All of it as an answer, which ``said_of`` reads back."""
        beside = [f"{name} {value}" for name, value in self.keys.items()]
        beside += [VOLTAGE_ASSUMED] if self.voltage_assumed else []
        return ", ".join([self.rating, *beside, *([self.evidence] if self.evidence else [])])


def said_of(text: str, starter: Starter, glossary: Glossary) -> SaidRating:
    """A rating as it was typed, taken apart."""
    text = evidence_behind(text, starter, glossary)
    found, assumed = "", False
    keys: dict[str, str] = {}
    guessed = GUESS.match(text)
    if guessed:
        text, found = text[guessed.end() :], TOLD
    while True:
        doubt = DOUBT.search(text)
        rest, comma, last = _last(text)
        word = evidence_word(last, starter, glossary)
        of_label = next((name for name in starter.labels if plain(last).startswith(f"{name} ")), "")
        if doubt and doubt.end() == len(text):
            text, found = text[: doubt.start()], TOLD
        elif comma and plain(last) == VOLTAGE_ASSUMED:
            text, assumed = rest, True
        elif comma and word:
            text, found = rest, word.replace("_", " ")
        elif comma and of_label:
            text, keys = rest, {of_label: plain(last).removeprefix(of_label).strip().upper(), **keys}
        else:
            return SaidRating(text.strip(), found, assumed, keys)


def _last(text: str) -> tuple[str, str, str]:
    """A text up to its last comma or what stands in brackets at its end, that comma, and the rest without `from the`."""
    bracket = IN_BRACKETS.search(text)
    if bracket is not None:
        text = f"{text[: bracket.start()]}, {bracket['word']}"
    rest, comma, last = text.rpartition(",")
    return rest, comma, FROM.sub("", last.strip())


def evidence_word(text: str, starter: Starter, glossary: Glossary) -> str:
    """The word of what a rating is read from that a text is, a place behind it passed by: `label in the drawer`; else an empty text."""
    said, known = FROM.sub("", text.strip()), words_of(glossary.evidence)
    places = "|".join(map(re.escape, starter.words.places))
    cut = re.split(rf"\s+(?:{places}|of|by|says|said)\b", said, maxsplit=1, flags=re.IGNORECASE)[0] if places else said
    cut = cut if not LAST_NUMBER.search(said[len(cut) :]) else ""  # `wife says 1500` is no word for it
    of_sheet = REFERENCE.sub("", said)
    return next((word for each in (said, cut, of_sheet) if each and (word := known.find(each) or said_for(each, starter))), "")


def evidence_behind(text: str, starter: Starter, glossary: Glossary) -> str:
    """A rating with what it was read from behind a comma, where that stands before it or behind it without one; else the text as it is."""
    before = BEFORE.match(text)
    if before is not None and (word := evidence_word(before["word"], starter, glossary)):
        return f"{text[before.end() :]}, {word.replace('_', ' ')}"
    if COMMA.search(text) or "(" in text:
        return text
    last = max((match.end() for match in LAST_NUMBER.finditer(text)), default=0)
    for blank in re.finditer(r"\s+", text):
        of_type = text[: blank.start()].rpartition(" ")[2] in [
            each for each in starter.words.around if each.isupper()
        ]  # `SE cable`
        if last and blank.start() >= last and not of_type and (word := evidence_word(text[blank.end() :], starter, glossary)):
            return f"{text[: blank.start()]}, {word.replace('_', ' ')}"
    return text


def said_for(text: str, starter: Starter) -> str:
    """The word of what a rating is read from that people mean by another, or an empty text."""
    return next((word for word, others in starter.words.evidence.items() if plain(text) in map(plain, others)), "")


def of_label(said: SaidRating, starter: Starter, unit: str) -> SaidRating:
    """What the label of a unit gives beside its rating, taken into keys of its own; where it gives no other rating, the first of them.

    Args:
        unit: the unit of currents in print.
    """
    rest, found = said.rating, {}
    for name, words in starter.labels.items():
        match = _pattern(words).search(rest)
        if match is not None:
            found[name] = f"{match['amount']} {unit}"
            rest = f"{rest[: match.start()]} {rest[match.end() :]}"
    if not found:
        return said
    rest = " ".join(rest.split()).strip(" ,;/")
    first = next(iter(starter.labels))
    if not rest or VOLTAGE.fullmatch(rest):
        if first not in found:
            return said
        rest = f"{starter.labels[first][0]} {found.pop(first)} {rest}".strip()
    return SaidRating(rest, said.evidence, said.voltage_assumed, {**said.keys, **found})


def amount_of(text: str, words: Iterable[str], *, number_first: bool) -> re.Match[str] | None:
    """The amount with one of some words before it, or after it; nothing where there is none."""
    return (_before(words) if number_first else _pattern(words)).search(text)


def rest_of(text: str, *found: re.Match[str]) -> str:
    """What of a text stands in none of what was found."""
    for match in sorted(found, key=lambda each: each.start(), reverse=True):
        text = f"{text[: match.start()]} {text[match.end() :]}"
    return " ".join(text.split())


def _before(words: Iterable[str]) -> re.Pattern[str]:
    any_word = "|".join(re.escape(word).replace(r"\ ", r"[ .]*") for word in sorted(words, key=len, reverse=True))
    return re.compile(rf"(?<![\w.])(?P<amount>\d[\d.]*)\s*(?:A|amps?|amperes?)?\s*(?:{any_word})(?!\w)", re.IGNORECASE)


def _pattern(words: Iterable[str]) -> re.Pattern[str]:
    any_word = "|".join(re.escape(word).replace(r"\ ", r"[ .]*") for word in sorted(words, key=len, reverse=True))
    return re.compile(rf"(?<!\w)(?:{any_word})[. ]*{AMOUNT}", re.IGNORECASE)
