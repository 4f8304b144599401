"""One reading in a sentence: the part that its question understands, and the rest, which is kept as it was told.

Nothing of weight is passed by: where the rest has a figure of its own, a word that makes the figure mean something else, a denial, or
another choice, the sentence is not taken apart.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from dwellcalc.glossary import Glossary
from dwellcalc.home.names import plain, says_unknown

from .answers import Answer
from .label_words import LabelWords
from .not_knowing import DO_NOT_KNOW, not_known
from .part import Part
from .phrases import (
    AMOUNT,
    CLAUSE_ENDS,
    EDGES,
    INSTEAD,
    JOINS,
    TOKEN,
    WORDS,
    among,
    choices_by_words,
    of_their_own,
    passed_words,
    without,
)
from .questions import DETAIL, KEY, LOAD, NONE, PLANNED, Question
from .said import TOLD, evidence_word
from .sentences import named
from .starter import Starter

NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?(?:[ -]\d/\d)?|\d/\d")
FILE_NAME = re.compile(r"\S+\.\w{2,5}")
YEARS = re.compile(r"(?:19|20)\d\d")
BREAKS_AT = ",;(."
BREAKS = re.compile(r"[,;()]")
NEARLY = re.compile(r"\b(?:a little|a bit|just|slightly) (?:over|under|more than|less than|above|below)\b", re.IGNORECASE)
PLACED = re.compile(r"\b(?:over|under|per) (?:the|a|an|my|our)\b", re.IGNORECASE)  # a place or a source, and no other figure
OR = re.compile(r"\bor\b", re.IGNORECASE)
OWN_UNIT = re.compile(r"^[\d.,]+-?")  # before the unit of `50-gallon`
THERE = "yes"
MOST_WORDS = 2  # of a unit, such as `square feet`

Read = Callable[[str], Answer | None]


@dataclass(frozen=True)
class Sentence:
    """An answer that could not be taken whole.

    Attributes:
        typed: the answer.
        question: its question.
        starter, glossary: the words of people, and those for what a value was read from.
    """

    typed: str
    question: Question
    starter: Starter
    glossary: Glossary

    @property
    def words(self) -> LabelWords:
        """The words of people."""
        return self.starter.words

    def part(self, read: Read) -> Part | None:
        """The one part that can be read; nothing where several can, or the rest may not be passed by.

        Args:
            read: what a text by itself would be taken as, or nothing.
        """
        figured = self.question.form in (LOAD, PLANNED) and self.has_figure(self.typed)
        of_figures = [[each for each in way if self.has_figure(each.text)] for way in self.ways()] if figured else []
        for way in (*of_figures, *self.ways()):  # a rating that can be read goes before that there is one
            found = [(part, answer) for part in way if (answer := read(part.text)) is not None]
            found = [each for each in found if not not_known(each[0].text)] or found
            if len({answer.text for _, answer in found}) == 1 and self.may_be_kept(*found[0]):
                made = self.with_evidence(self.without_words(*found[0]))
                if read(made.text) is not None:
                    return made
        return None

    def ways(self) -> Iterator[list[Part]]:
        """The ways in which it may be taken apart, the mildest first; of each of them one part alone may be readable."""
        text = INSTEAD.sub("", self.typed.replace("\u2019", "'")).strip(EDGES)
        clauses = [each.strip(EDGES) for each in CLAUSE_ENDS.split(text) if each.strip(EDGES)]
        if self.question.none_told:  # the name of a file
            yield [self.clause(each) for each in clauses if FILE_NAME.fullmatch(each) and each != self.typed.strip()]
        if self.question.none_told or self.question.goes_too:  # names, all of which count
            return
        if (bare := self.bare(self.typed)) != self.typed.strip():
            dropped = [each for each in self.typed.split() if each not in bare.split()]
            yield [Part(bare, " ".join(dropped), "")]
        yield [self.clause(each) for each in clauses if each != self.typed.strip()]
        own = dict.fromkeys(self.question.along_words, NONE)
        named_by = [each for each in clauses if self.has_figure(each) and among(each, own)]
        for clause in named_by if len(named_by) == 1 else ():
            whole = self.clause(clause)
            yield from ([replace(each, rest=whole.rest, kept=whole.kept, by_name=True)] for each in (whole, *self.spans(clause)))
        totals = [each for each in clauses if self.has_figure(each) and among(each, dict.fromkeys(self.words.of_all, NONE))]
        for clause in totals if len(totals) == 1 and self.question.form in (LOAD, PLANNED) else ():
            whole = self.clause(clause)
            yield from (
                [replace(each, rest=whole.rest, kept=whole.kept, by_name=True, of_all=True)]
                for each in self.spans_of_total(clause)
            )
        phrases = self.phrases()
        every = {word: said for clause in clauses for word, said in self.named_in(clause, phrases).items()}
        found = of_their_own(every, phrases)
        if len(found) == 1 or (found and self.question.several and JOINS.search(text) and not OR.search(text)):
            yield [self.inside(", ".join(found.values()), *found.values())]
        if not self.question.choices:
            yield from ([each] for each in self.from_figure())
            yield from ([each] for each in self.spans(self.typed))
            yield from ([each] for each in self.no_figure())

    def bare(self, text: str) -> str:
        """A text without the words that change nothing wherever they stand; what follows a figure is its unit, and stays."""
        tokens = list(TOKEN.finditer(text))
        if not self.has_figure(text) or not self.words_in(text).isdisjoint(self.words.denies):
            return text
        passed = {*map(plain, (*self.words.passed, *self.words.affirms))} - {"to", "and", "one", "half"}
        drop = [
            each
            for at, each in enumerate(tokens)
            if plain(each[0].strip(EDGES)) in passed and not (at and tokens[at - 1][0][-1].isdigit())
        ]
        for each in reversed(drop):
            text = f"{text[: each.start()]}{text[each.end() :]}"
        return re.sub(r"\s+([,;])", r"\1", " ".join(text.split())).strip(EDGES)

    def named_in(self, clause: str, phrases: Mapping[str, str]) -> dict[str, str]:
        """What a clause names; that there is none, where it names what is there instead too, such as `low attic`."""
        found = among(clause, phrases)
        return {NONE: found[NONE]} if NONE in found and not self.question.choices else found

    def phrases(self) -> dict[str, str]:
        """What may be named at the question in words, each with what it stands for."""
        question = self.question
        bounds = [(each, word) for word, said in question.bounds_of.items() for each in said]
        there = [(each, each) for each in question.there_also]
        others = {plain(each): word for each, word in (*there, *((each, NONE) for each in question.none_also), *bounds)}
        return others | choices_by_words(question)

    def clause(self, text: str) -> Part:
        """A clause with the others beside it."""
        rest = without(self.typed, text)
        return Part(text, rest, rest)

    def inside(self, text: str, *said: str) -> Part:
        """A part that stands within a clause, beside which all of the sentence is kept."""
        return Part(text, without(self.typed, *said), self.typed.strip(), inside=True)

    def from_figure(self) -> Iterator[Part]:
        """All that follows from the first figure, or word of a label, on."""
        for token in TOKEN.finditer(self.typed):
            if token[0][0].isdigit() or plain(token[0]) in self.labels:
                text = self.bare(self.typed[token.start() :])
                text = text if token[0][0].isdigit() else text.replace(" and ", ", ")
                if token.start():
                    yield Part(text, self.typed[: token.start()].strip(EDGES), self.typed.strip(), inside=True)
                return

    @property
    def labels(self) -> set[str]:
        """The words of labels before a figure, which say what it is."""
        found = {plain(each) for said in self.words.keys.values() for each in said}
        return found | {plain(each) for two in self.words.two_currents for each in two.first}

    def spans_of_total(self, clause: str) -> Iterator[Part]:
        """What of a clause stands beside the word that it is of all."""
        of_all = "|".join(map(re.escape, sorted(self.words.of_all, key=len, reverse=True)))
        yield self.clause(re.sub(rf"\b(?:{of_all})\b[:\s]*", "", clause, count=1, flags=re.IGNORECASE).strip(EDGES))

    def spans(self, typed: str) -> Iterator[Part]:
        """The one figure with the words behind it that may be its unit, with the most of them first."""
        tokens, counts = list(TOKEN.finditer(typed)), self.counts
        found = [
            at
            for at, each in enumerate(tokens)
            if self.is_figure(tokens, at) or (counts and plain(each[0].strip(EDGES)) in self.words.numbers)
        ]
        for more in range(0 if counts else MOST_WORDS, -1, -1) if len(found) == 1 else ():
            held = tokens[found[0] : found[0] + more + 1]
            broken = any(BREAKS.search(typed[one.end() : two.start()]) for one, two in pairwise(held))
            if len(held) <= more or broken or (not more and not self.may_follow(typed, held[0], tokens[found[0] + 1 :])):
                continue
            of_label = found[0] and plain(tokens[found[0] - 1][0].strip(EDGES)) in self.labels
            text = typed[(tokens[found[0] - 1] if of_label else held[0]).start() : held[-1].end()].strip(EDGES)
            number = str(self.words.numbers.index(plain(text)) + 1) if plain(text) in self.words.numbers else text
            yield replace(self.inside(number, text), rest=without(typed, text))

    def no_figure(self) -> Iterator[Part]:
        """That its rating is not known, where only figures of something else are told of a load, such as `50 gallons`."""
        other = bool(re.search(r"\d", self.typed)) and not self.has_figure(self.typed)
        if other and self.question.form in (LOAD, PLANNED):
            yield Part(THERE if self.question.form == LOAD else DO_NOT_KNOW[0], self.typed, self.typed)

    @property
    def counts(self) -> bool:
        """Whether the question asks for a number of something."""
        return self.question.form == KEY and not self.question.unit and self.question.example.isdigit()

    def has_figure(self, text: str) -> bool:
        """Whether a text has a figure that counts here."""
        tokens = list(TOKEN.finditer(text))
        return any(self.is_figure(tokens, at) for at in range(len(tokens)))

    def is_figure(self, tokens: Sequence[re.Match[str]], at: int) -> bool:
        """Whether a word is a figure, and not the year of something, the mark of a sheet, or how old or large something else is."""
        text = tokens[at][0].strip(EDGES)
        if not text[:1].isdigit():
            return False
        before, behind = (
            [plain(each[0].strip(EDGES)) for each in some] for some in (tokens[max(at - 1, 0) : at], tokens[at + 1 : at + 2])
        )
        other = OWN_UNIT.sub("", text.casefold()) or " ".join(behind)
        of_year = YEARS.fullmatch(text) is not None and not set(before).isdisjoint(self.words.years_after)
        return not of_year and other not in self.words.passed_units

    def may_follow(self, typed: str, number: re.Match[str], behind: Iterable[re.Match[str]]) -> bool:
        """Whether a figure without its unit may stand before what follows: nothing, another clause, or a word that changes nothing."""
        following = next(iter(behind), None)
        if following is None or BREAKS.search(typed[number.start() : following.start()]):
            return True
        return plain(following[0].strip(EDGES)) in self.passed | named(self.question) | set(self.words.free)

    @staticmethod
    def words_in(text: str) -> set[str]:
        """The words of a text."""
        return set(WORDS.findall(plain(text)))

    @property
    def passed(self) -> set[str]:
        """The words that change nothing."""
        return passed_words(self.words)

    def may_be_kept(self, part: Part, answer: Answer) -> bool:
        """Whether the rest may be kept as it was told, beside the answer that a part gives."""
        clauses = [each for each in CLAUSE_ENDS.split(part.rest) if each.strip(EDGES) and not not_known(each.strip(EDGES))]
        rest = " ".join(clauses)
        said = self.words_in(PLACED.sub(" ", NEARLY.sub(" ", rest)))
        denies = not said.isdisjoint(self.words.denies)
        figures = self.has_figure(part.rest)
        if plain(answer.text) == NONE and part.inside:
            return not denies and (bool(self.question.in_it_asks) or not figures)
        if plain(answer.text) == NONE:
            own = named(self.question) - set(self.words.fillers)
            return denies or said.isdisjoint(own) or not said.isdisjoint(self.words.later)
        if denies or (not self.question.of_what_comes and not said.isdisjoint(self.words.later)):
            return False
        if self.question.choices:
            taken = {each.strip() for each in answer.text.split(",")}
            every = {**dict.fromkeys(taken, ""), **among(rest, self.phrases())}
            return set(of_their_own(every, self.phrases())) <= taken and not self.names_more()
        figures = figures and not (part.by_name or says_unknown(answer.text))
        counted = self.counts and not said.isdisjoint(self.words.numbers)  # two, plus one for the pantry
        return not figures and not counted and (part.of_all or self.alters(part.text).isdisjoint(said))

    def names_more(self) -> bool:
        """Whether something may be planned that is none of the choices: a clause that names none of them, and has a word of its own."""
        if not (self.question.several and self.question.of_what_comes):
            return False
        every = self.starter.questions.values()
        asked = [each for each in every if each.form == DETAIL and self.question.id in each.when]
        told = [said for each in asked for word, choice in each.choices.items() for said in (word, *choice.also)]
        known = self.passed | {*self.words.later, *self.words.times, *self.words.numbers} | self.words_in(" ".join(told))
        clauses = [each for each in CLAUSE_ENDS.split(INSTEAD.sub("", self.typed)) if not among(each, self.phrases())]
        return any(self.words_in(each) - known for each in clauses if not AMOUNT.fullmatch(each.strip(EDGES)))

    def alters(self, text: str) -> set[str]:
        """The words that beside a figure make it mean something else; none where it has such a word itself."""
        of_rating = (*self.words.alters_rating, *self.words.numbers[1:]) if self.question.form in (LOAD, PLANNED, DETAIL) else ()
        found = {*self.words.alters, *self.labels, *of_rating} - named(self.question)
        return found if (self.counts or re.search(r"\d", text)) and found.isdisjoint(plain(text).split()) else set()

    def without_words(self, part: Part, answer: Answer) -> Part:
        """The part without what need not be kept: words that change nothing, and that something is planned, which is asked at the end."""
        clauses = [each for each in CLAUSE_ENDS.split(part.rest) if plain(each.strip(EDGES)) not in DO_NOT_KNOW]
        of_none = {*self.words.denies, *self.words.later} if plain(answer.text) == NONE else set()
        rest = self.words_in(" ".join(clauses)) - self.passed - of_none
        return part if rest or re.search(r"\d", part.rest) else replace(part, kept="")

    def with_evidence(self, part: Part) -> Part:
        """The part with what the rest says of where it is from: that it is not sure, that somebody told it, or what it was read from."""
        said = [plain(each.strip(EDGES)) for each in part.rest.split()]
        begins = {*map(plain, (*self.words.places, *self.words.fillers)), *self.words.years_after}
        own = [at for at in range(len(said)) if not at or part.rest.split()[at - 1][-1] in BREAKS_AT or said[at - 1] in begins]
        types = {plain(each) for each in self.words.around if each.isupper()}
        of_type = {word for one, word in pairwise(WORDS.findall(plain(self.typed))) if one in types}  # `SE cable`
        runs = [
            " ".join(said[at:to])
            for at in range(len(said))
            for to in range(at + 1, len(said) + 1)
            if said[at] not in of_type and (to - at > 1 or at in own)
        ]
        doubted = not set(said).isdisjoint(self.words.doubts) or any(
            not_known(each.strip(EDGES)) for each in CLAUSE_ENDS.split(part.rest)
        )
        doubted = doubted or NEARLY.search(part.rest) is not None
        if self.question.choices or self.question.meanwhile:
            of_one = self.question.of_what_comes and self.question.several  # the doubt is of one of several
            return replace(part, text=f"{part.text}?") if doubted and not (self.question.settings or of_one) else part
        if not set(self.words.alters_rating).isdisjoint(plain(part.text).split()):  # it is of a circuit
            return part
        found = {word for run in runs if (word := evidence_word(run, self.starter, self.glossary))} | (
            {TOLD} if doubted else set()
        )
        word = (TOLD if TOLD in found else min(found, default="")).replace("_", " ")
        says = word and self.question.says_evidence and re.search(r"\d", part.text) and not part.text.endswith(f", {word}")
        return replace(part, text=f"{part.text}, {word}") if says else part
