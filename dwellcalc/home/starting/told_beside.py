"""What is told beside an answer and has no key of its own: the breaker of a charger, the receptacle that it is plugged into."""

from __future__ import annotations

import re
from dataclasses import dataclass

from dwellcalc.home.names import plain

from .answers import Answer, Answers, Step, chosen
from .label_words import LabelWords
from .phrases import CLAUSE_ENDS, ONE_AND_OTHER, WORDS, among, choices_by_words, first_and_second, passed_words
from .questions import ANY_PLANNED, DETAIL, LOAD, NONE, OTHERWISE, PLANNED, SKIP, YES_NO, Question
from .said import TOLD
from .sentences import comes_later, named, once_ended
from .several import each_of_several
from .starter import Starter

FROM_BREAKER = "taken from breaker"  # a key of a load, and what is kept beside an answer
ONE_OF_THESE = re.compile(r"(?:\d+\s*A?\s*(?:,|or|/)\s*)+\d+\s*A?(?=[^\n]*told)")
BESIDES = ", "
LARGEST = "{setting} told as its largest setting"  # where the lower ones are assumed
ALL_OF_THEM = re.compile(r"\b(?:both|all|everything)\b", re.IGNORECASE)
ON_CIRCUIT = "{current} circuit told"
CLAUSES = re.compile(r"\s*[,;]\s*|\s+(?:on|and|with)\s+(?:an?\s+)?", re.IGNORECASE)
CURRENT = re.compile(r"(?<![\w.-])(\d+(?:\.\d+)?)[\s-]*(?:amp(?:ere)?s?|a)?(?![\w.-])", re.IGNORECASE)
VOLTAGE = re.compile(r"\s*(?:@|\bat\b)?\s*\b\d[\d/]*\s*V(?:olts?)?\b", re.IGNORECASE)
COMMAS = re.compile(r"\s*[,;]\s+")
OF_CIRCUIT = frozenset(("breaker", "plug", "outlet", "receptacle", "circuit", "fuse"))
PASSED = OF_CIRCUIT | frozenset(
    ("a", "an", "amp", "amps", "ampere", "on", "it", "has", "is", "its", "the", "one", "double", "told")
)
OF_BREAKER = re.compile(r"\b(?:breaker|fuse)s?\b", re.IGNORECASE)


@dataclass(frozen=True)
class Drawn:
    """What equipment draws at most and its breaker, in A as they are written; ``clear`` where what it draws was told too."""

    draws: str
    breaker: str
    clear: bool

    @property
    def told(self) -> str:
        """How it is read, as it is said."""
        return f"Read as {self.draws} at most, on a breaker of {self.breaker}."

    @property
    def kept(self) -> str:
        """What of it is kept beside the answer: the breaker that was told, or that from which the rating is taken."""
        return f"{self.breaker} breaker told" if self.clear else f"{FROM_BREAKER} {self.breaker}"


def ratings_in(beside: str) -> tuple[str, ...]:
    """The several ratings of which one was told, of what is kept beside an answer, such as `200 or 225 A told`."""
    found = ONE_OF_THESE.match(beside)
    return tuple(f"{number} A" for number in re.findall(r"\d+", found[0])) if found is not None else ()


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


def kept_words(text: str, question: Question, words: LabelWords) -> list[str]:
    """What of an answer is kept in its words, such as the type of a receptacle, or `when the furnace dies` of what is replaced."""
    ended = [each for each in COMMAS.split(text) if question.goes_too and once_ended(each, words) != each]
    in_time = [text.strip()] if comes_later(text, question, words) else []
    of_none = NONE in question.choices and among(text, choices_by_words(question)).keys() == {NONE}
    of_later = of_none and {plain(each) for each in WORDS.findall(text)} & {*map(plain, words.later)}
    in_time += [text.strip()] if of_later else []  # `solar later` where there is none yet
    in_time += [text.strip()] if each_of_several(text, question, words) != text else []
    return [*(each for each in question.keeps if _pattern(each).search(text)), *ended, *in_time]


def without(text: str, question: Question) -> str:
    """An answer without what is kept in its words."""
    for each in question.keeps:
        text = _pattern(each).sub(" ", text)
    return text


def details_beside(answers: Answers, step: Step, told: str, typed: str, known: set[str]) -> list[tuple[Step, str]]:
    """What was told beside an answer of the further keys of a load, by the questions for them; not what is ``known`` already.

    Args:
        answers: the answers so far.
        step: the question.
        told: what stands beside its answer.
        typed: all that was typed, which of several choices may tell something of each.
        known: the questions of which something was told already.
    """
    found = details_told(told, step.question, answers.starter) | details_of_choices(typed, step.question, answers.starter)
    of_work = {each.question.id: each for each in answers.steps() if each.unit == step.unit}
    return [(of_work[name], word) for name, word in found.items() if name not in known and name in of_work]


def ratings_beside(answers: Answers, step: Step, answer: Answer, text: str) -> list[tuple[Step, str]]:
    """The questions for the ratings of the loads that a choice leads to, each with what a text may say of it.

    Of one load that is all of the text, of several the one clause that names each.
    """
    others = _led_to(answers, step, answer) if re.search(r"\d", text) else []
    if len(others) < 2:
        return [(other, text) for other in others]
    passed = passed_words(answers.starter.words)
    said = [each for each in CLAUSE_ENDS.split(text) if re.search(r"\d", each)]
    found = [(other, [each for each in said if (named(other.question) - passed) & _words(each)]) for other in others]
    return [(other, clauses[0]) for other, clauses in found if len(clauses) == 1]


def _words(text: str) -> set[str]:
    return set(WORDS.findall(plain(text)))


def _led_to(answers: Answers, step: Step, answer: Answer) -> list[Step]:
    """The questions for the ratings of the loads that a choice alone leads to."""
    words = chosen(answer.text)
    return [
        each
        for each in answers.steps()
        if each.unit == step.unit
        and each.question.form in (LOAD, PLANNED)
        and each.question.when.get(step.question.id) == tuple(words)
        and each.question.enter.get(OTHERWISE) != NONE
        and not (each.question.absent or each.question.settings or each.question.on_breaker)
    ]


def load_of(answers: Answers, step: Step, other: Step) -> str:
    """The load of which something was told at a question that is not of it alone; an empty text where it is."""
    of = answers.starter.questions.get(other.question.entry.get("of", ""))
    if of is None or of.id == step.question.id:
        return ""
    return of.entry.get("name") or f"{of.what[:1].lower()}{of.what[1:]}"


def details_told(text: str, question: Question, starter: Starter) -> dict[str, str]:
    """Choices of the further keys of a load that were named along with it, by question."""
    found = {}
    for other in starter.questions.values():
        if other.form == DETAIL and other.entry["of"] == question.id and other.choices:
            named = among(text, _names_of(other))
            later = "" if named else comes_later(text, other, starter.words)
            if len(named) == 1 or later:
                found[other.id] = later or next(iter(named))
    return found


def details_of_choices(text: str, question: Question, starter: Starter) -> dict[str, str]:
    """What an answer that names several choices tells of each beside it, by question.

    What stands behind the last of those that `and` joins is told of them all: `charger now, water heater and heat pump later`.
    """
    found: dict[str, str] = {}
    of: list[Question] = []
    every: list[Question] = []
    ahead = ""  # what was told before anything was named
    choices = choices_by_words(question)
    second = ONE_AND_OTHER.search(text) is not None
    for clause in COMMAS.split(first_and_second(text)) if question.several and question.of_what_comes else ():
        behind, last = "", of[:0]
        parts = CLAUSE_ENDS.split(clause)
        for part in reversed(parts):
            named = among(part, choices)
            if not named and part != parts[0]:  # it is told of what stands before it here
                behind = part
                continue
            if second and len(named) == 1:
                named = {question.twice.get(word, word): said for word, said in named.items()}
            if len(named) > 1:
                return {}
            asked = [each for each in starter.questions.values() if each.form in (PLANNED, ANY_PLANNED)]
            if named:
                of = [each for each in asked if not named.keys().isdisjoint(each.when.get(question.id, ()))]
                every += [each for each in of if each not in every]
            elif ALL_OF_THEM.search(part):
                of, part = every, ALL_OF_THEM.sub("", part)
            before, _, after = part.partition(next(iter(named.values()), "")) if named else (part, "", part)
            meant = _one_of(part, of, starter.words)
            told = _told_of(f"{before} {after}" if named else part, meant, starter)
            behind = after if told else behind
            found |= told or _told_of(behind, meant, starter) or (_told_of(ahead, meant, starter) if named else {})
            ahead = "" if of else f"{ahead} {part}"
            last = last or (of if named else [])
        of = last or of  # what follows is of the last that was named
    return found


def _told_of(text: str, of: list[Question], starter: Starter) -> dict[str, str]:
    """Choices of the further keys of some planned loads."""
    return {name: word for each in of for name, word in details_told(text, each, starter).items()}


def _one_of(text: str, of: list[Question], words: LabelWords) -> list[Question]:
    """Of the two loads of one choice the one that a text names, such as `the second`; else both."""
    said = [at for at, each in enumerate(words.ordinals) if each in plain(text).split()]
    return [of[said[0]]] if len(said) == 1 and len(of) > 1 else of


def _names_of(question: Question) -> dict[str, str]:
    """The words that name choices by themselves, beside another answer too; not those that only answer the question."""
    every = choices_by_words(question)
    return {each: word for each, word in every.items() if word != SKIP and each not in (*YES_NO, TOLD, "y", "n")}


def _pattern(word: str) -> re.Pattern[str]:
    """A type with or without the standard's name before it."""
    before, _, rest = word.rpartition(" ")
    return re.compile(rf"(?:\b{re.escape(before)}[\s-]*)?(?<![\d-]){re.escape(rest)}[rp]?(?![\d-])", re.IGNORECASE)
