"""What is told beside an answer and has no key of its own: the breaker of a charger, the receptacle that it is plugged into."""

from __future__ import annotations

import re
from dataclasses import dataclass

from dwellcalc.home.names import plain

from .questions import DETAIL, Question
from .starter import Starter

FROM_BREAKER = "taken from breaker"  # a key of a load, and what is kept beside an answer
BESIDES = ", "
LARGEST = "{setting} told as its largest setting"  # where the lower ones are assumed
ON_CIRCUIT = "{current} circuit told"
CLAUSES = re.compile(r"\s*[,;]\s*|\s+(?:on|and|with)\s+(?:an?\s+)?", re.IGNORECASE)
CURRENT = re.compile(r"(?<![\w.-])(\d+(?:\.\d+)?)[\s-]*(?:amp(?:ere)?s?|a)?(?![\w.-])", re.IGNORECASE)
VOLTAGE = re.compile(r"\s*(?:@|\bat\b)?\s*\b\d[\d/]*\s*V(?:olts?)?\b", re.IGNORECASE)
OF_CIRCUIT = frozenset(("breaker", "plug", "outlet", "receptacle", "circuit", "fuse"))
PASSED = OF_CIRCUIT | frozenset(("a", "an", "amp", "amps", "ampere", "on", "it", "has", "is", "its", "the", "one", "double"))
OF_BREAKER = re.compile(r"\b(?:breaker|fuse)s?\b", re.IGNORECASE)


@dataclass(frozen=True)
class Drawn:
    """What equipment draws at most and its breaker, in A as they are written; ``clear`` where what it draws was told too."""

    draws: str
    breaker: str
    clear: bool

    @property
    def kept(self) -> str:
        """What of it is kept beside the answer: the breaker that was told, or that from which the rating is taken."""
        return f"{self.breaker} breaker told" if self.clear else f"{FROM_BREAKER} {self.breaker}"


def drawn(text: str, question: Question) -> Drawn | None:
    """What is drawn on which breaker, where both are told or the breaker is named; nothing where that is not clear."""
    volts = VOLTAGE.findall(text)
    rest = plain(VOLTAGE.sub(" ", without(text, question)))
    at = f" {volts[0].strip()}" if len(volts) == 1 and not question.settings else ""
    clauses = [each for each in CLAUSES.split(rest) if each]
    of_breaker = [CURRENT.findall(each) for each in clauses if OF_BREAKER.search(each)]
    others = [CURRENT.findall(each) for each in clauses if not OF_BREAKER.search(each)]
    if not question.on_breaker or len(of_breaker) != 1 or len(of_breaker[0]) != 1 or "?" in text or " or " in rest:
        return None
    breaker, amounts = of_breaker[0][0], [amount for each in others for amount in each]
    known = {CURRENT.findall(each)[0]: CURRENT.findall(most)[0] for each, most in question.on_breaker.items()}
    if len(amounts) == 1 and float(amounts[0]) <= float(known.get(breaker, breaker)):
        return Drawn(f"{amounts[0]} A{at}", f"{breaker} A", clear=True)
    if not amounts and breaker in known:
        return Drawn(f"{known[breaker]} A{at}", f"{breaker} A", clear=False)
    return None


def breaker_alone(text: str, question: Question) -> str:
    """The breaker, where only that or the plug of a circuit was told, such as `30 amp plug`; else an empty text."""
    known = {CURRENT.findall(each)[0]: each for each in question.breakers}
    found = CURRENT.findall(text)
    words = [plain(each) for each in re.findall(r"[a-z]+", plain(text))]
    told = set(words) <= PASSED and not set(words).isdisjoint(OF_CIRCUIT)
    return known.get(found[0], "") if told and len(found) == 1 and len(re.findall(r"\d+", text)) == 1 else ""


def breaker_of(beside: str) -> str:
    """The breaker from which a rating was taken, of what is kept beside an answer; else an empty text."""
    found = (each.removeprefix(f"{FROM_BREAKER} ") for each in beside.split(BESIDES) if each.startswith(f"{FROM_BREAKER} "))
    return next(found, "")


def kept_words(text: str, question: Question) -> list[str]:
    """What of an answer is kept in its words, such as the type of a receptacle."""
    return [each for each in question.keeps if _pattern(each).search(text)]


def without(text: str, question: Question) -> str:
    """An answer without what is kept in its words."""
    for each in question.keeps:
        text = _pattern(each).sub(" ", text)
    return text


def details_told(text: str, question: Question, starter: Starter) -> dict[str, str]:
    """Choices of the further keys of a load that were named along with it, by question."""
    found = {}
    for other in starter.questions.values():
        if other.form != DETAIL or other.entry["of"] != question.id or not other.choices:
            continue
        named = {
            word
            for word, choice in other.choices.items()
            if any(re.search(rf"(?<![\w-]){re.escape(each)}(?![\w-])", text, re.IGNORECASE) for each in (word, *choice.also))
        }
        if len(named) == 1:
            found[other.id] = named.pop()
    return found


def _pattern(word: str) -> re.Pattern[str]:
    """A type with or without the standard's name before it."""
    before, _, rest = word.rpartition(" ")
    return re.compile(rf"(?:\b{re.escape(before)}[\s-]*)?(?<![\d-]){re.escape(rest)}[rp]?(?![\d-])", re.IGNORECASE)
