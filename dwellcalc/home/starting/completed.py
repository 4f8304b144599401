"""An answer completed with what its question says already: the unit, the voltage of the supply, the form of a label."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from dwellcalc.glossary import Glossary
from dwellcalc.home.models import models_for
from dwellcalc.home.names import plain, says_unknown
from dwellcalc.home.ratings import BETWEEN, TYPICAL, Rating, read_rating
from dwellcalc.home.refusal import Refusal
from dwellcalc.home.two_voltages import TWO_VOLTAGES
from dwellcalc.placed import spaced
from dwellcalc.problems import fail, message

from .answers import Answers, parts_of
from .label_forms import TWO_FIGURES, LabelForms
from .loads import evidence_of
from .questions import AREA, DETAIL, KEY, LOAD, NONE, PLANNED, SEMICOLON, SKIP, Question
from .said import DOUBT, GUESS, TOLD, of_label, said_of
from .voltages import Voltages, placed

NO_BOUNDS = message(
    "start_no_bounds", '"{text}" is between bounds, and this has none', "write the number that can be read, or `don't know`"
)
NO_EVIDENCE = message(
    "start_no_evidence",
    '"{text}" is no word for what a rating was read from',
    "after the comma stands one of: {known}; or leave it out",
)
AREA_TOLD = "Taken as told; `, measured` or `, drawings` after it says otherwise, and two bounds with `to` between them how far it may be off."
FACT_TOLD = "Taken as told; the sheet lists it as not verified."
EVERY = re.compile(r"[\s,]*\b(?:in )?every (?:whole )?amp(?:ere)?s?\b[\s,]*", re.IGNORECASE)
AMOUNT = re.compile(r"\d+(?:\.\d+)?")
LISTED = re.compile(
    r"\d+(?:\.\d+)?\s*(?:A|amps?)?(?:\s*(?:,|/|\band\b|\bor\b)+\s*\d+(?:\.\d+)?\s*(?:A\b|amps?\b)?)+(?!\s*V)", re.IGNORECASE
)
NAMED_SETTING = re.compile(
    r"\bsettings?\b|\b\d+\s*(?:A|amps?)\s+(?:unit|charger|model)\b", re.IGNORECASE
)  # beside which they stand
UP_TO = re.compile(r"^(?:(?:from|up|to|in)\b[\s,]*)+|[\s,]+(?:down|and lower)$", re.IGNORECASE)
NUMBER = re.compile(r"\d[\d.,/ ]*")
BARE = re.compile(r"\d[\d.,/ ]*(?: to \d[\d.,/ ]*)?")  # a number, or bounds, without a unit
UNITS = re.compile(r"(?:^|\bor )(\w+)")  # of `hp or A at its voltage` hp and A
ONE_UNIT = re.compile(r"(?P<unit>\w+|%)(?: at its voltage)?")
IN_WORDS = tuple(
    (re.compile(rf"(?<=\d)[\s-]*{word}s?\b\.?", re.IGNORECASE), symbol)
    for word, symbol in (("amp(?:ere)?", "A"), ("volt", "V"), ("watt", "W"), ("kilowatt", "kW"), ("horse(?:power)?", "hp"))
)
SIZE_MARK = re.compile(r"(?:#|no\.|number)\s*(?=\d)", re.IGNORECASE)  # before the size of a conductor
VOLTS = "volts"
DRAWINGS = "drawings"


@dataclass(frozen=True)
class Completed:
    """An answer as it is taken, and the voltages or units to choose from where it lacks one, of which the first is the usual.

    ``told`` is what is said of how it was read.
    """

    text: str
    voltages: Sequence[str] = ()
    units: Sequence[str] = ()
    told: Sequence[str] = ()


@dataclass(frozen=True)
class Completion:
    """Completes the answers to one question."""

    question: Question
    answers: Answers
    glossary: Glossary

    def of(self, text: str, voltage: str = "", *, assumed: bool = False, unit: str = "") -> Completed:
        """The answer completed.

        Args:
            text: what was typed.
            voltage: what was answered when its voltage was asked, if it was; ``assumed`` where nobody knew.
            unit: what was answered when its unit was asked, if it was.

        Raises:
            InputError: it has bounds where there are none.
        """
        question = self.question
        if question.choices or plain(text) in (NONE, SKIP):
            return Completed(text)
        if question.form == KEY:
            self.refuse_bounds(text)
        if question.is_plain_fact and not question.unit:
            return self.fact(text)
        rated = question.form in (LOAD, PLANNED)
        if not rated and not (question.unit and question.form in (KEY, DETAIL, AREA)):
            return Completed(text)
        units = UNITS.findall(question.unit) if question.form != KEY else []
        if len(units) > 1 and any(BARE.fullmatch(self.said(part)) for _, part in parts_of(text)):
            if not unit:
                return Completed(text, units=units)
            text = self.in_unit(text, unit)
        made: list[str] = []
        told: list[str] = []
        voltages: Sequence[str] = ()
        if question.form == DETAIL:
            text = without_guess(text)
        text = self.every_setting(self.listed_settings(text))
        for number, part in parts_of(text):
            found = self.rating(part, voltage, assumed) if rated else self.fact(part)
            made.append(f"{number} x {found.text}" if number else found.text)
            voltages = voltages or found.voltages
            told += found.told
        return Completed(f"{SEMICOLON} ".join(made), voltages, told=tuple(told))

    def fact(self, text: str) -> Completed:
        """A size or a plain fact with its unit, and on whose word it is; an area is told where nothing else is said."""
        question = self.question
        if not question.says_evidence:
            return Completed(self.with_unit(text))
        said = said_of(text, self.answers.starter, self.glossary)
        self.refuse_word(said.rating)
        made = replace(said, rating=self.with_unit(said.rating))
        if question.form != AREA or says_unknown(said.rating):
            return Completed(made.text, told=(FACT_TOLD,) if said.evidence == TOLD and NUMBER.search(said.rating) else ())
        drawn = evidence_of(self.answers) == DRAWINGS
        silent = not said.evidence and not drawn
        evidence = said.evidence or (DRAWINGS if drawn else TOLD)
        told = bool(NUMBER.search(said.rating)) and (silent or (said.evidence == TOLD and not text.endswith(TOLD)))
        return Completed(replace(made, evidence=evidence).text, told=(AREA_TOLD,) if told and self.is_first_area else ())

    @property
    def is_first_area(self) -> bool:
        """Whether no other area was answered yet."""
        questions, own = self.answers.starter.questions, self.question.id
        return not any(questions[name].form == AREA for name, _ in self.answers.given if name != own)

    def refuse_word(self, text: str) -> None:
        """Refuse a word after the last comma of a size that is none for what it was read from."""
        rest, comma, last = text.rpartition(",")
        word = last.strip()
        if self.question.form == AREA and comma and rest.strip() and word.replace(" ", "").replace("-", "").isalpha():
            fail(NO_EVIDENCE, text=word, known=", ".join(spaced(each) for each in self.glossary.evidence))

    def listed_settings(self, text: str) -> str:
        """Settings that were told with commas between them, each with its unit; any other text as it is."""
        found = LISTED.search(text) if self.question.settings and SEMICOLON not in text else None
        rest = NAMED_SETTING.sub(" ", f"{text[: found.start()]} {text[found.end() :]}") if found else text
        around = set(map(plain, self.answers.starter.words.around))
        if found is None or not all(plain(each) in around for each in re.findall(r"[^\s,:()]+", rest)):
            return text
        return f"{SEMICOLON} ".join(f"{each} {self.current}" for each in AMOUNT.findall(found[0]))

    def every_setting(self, text: str) -> str:
        """Two bounds, where it was said that every whole ampere up to one can be set."""
        if not (self.question.settings and EVERY.search(text)):
            return text
        rest = UP_TO.sub("", EVERY.sub(" ", text).strip()).strip()
        if not rest or SEMICOLON in rest or not any(letter.isdigit() for letter in rest):
            return text
        return rest if BETWEEN.search(rest) else f"{self.question.lowest} to {self.with_unit(rest)}"

    def said(self, text: str) -> str:
        """A rating without what was said beside it."""
        return said_of(text, self.answers.starter, self.glossary).rating

    def in_unit(self, text: str, unit: str) -> str:
        """The answer, each number alone of it with a unit."""
        made = []
        for number, part in parts_of(text):
            rating = self.said(part)
            with_unit = f"{rating} {unit}".replace(" to ", f" {unit} to ")
            found = part.replace(rating, with_unit, 1) if BARE.fullmatch(rating) else part
            made.append(f"{number} x {found}" if number else found)
        return f"{SEMICOLON} ".join(made)

    def refuse_bounds(self, text: str) -> None:
        """Refuse bounds of what has one number."""
        if self.question.unit and not self.question.listed and BETWEEN.search(text):
            fail(NO_BOUNDS, text=text)

    def with_unit(self, text: str) -> str:
        """A number alone with the one unit that the question names; the size of a conductor without the mark before it."""
        if self.question.form == KEY:
            text = SIZE_MARK.sub("", text)
        unit = ONE_UNIT.fullmatch(self.question.unit)
        return f"{text} {unit['unit']}" if unit and NUMBER.fullmatch(text) else text

    def rating(self, text: str, voltage: str, assumed: bool) -> Completed:
        """A rating completed, and the voltages to choose from where it lacks one."""
        said = said_of(text, self.answers.starter, self.glossary)
        if says_unknown(said.rating) or plain(said.rating) == TYPICAL:
            return Completed(said.rating)
        said = replace(said, rating=self.with_unit(self.without_size(in_symbols(said.rating))))
        if self.reads(said.rating) and not TWO_FIGURES.search(said.rating):
            return Completed(said.text, told=self.volts.told(self.read(said.rating)))
        self.refuse_evidence(said.rating)
        said = of_label(said, self.answers.starter, self.current)
        one, of_two = self.volts.one(said.rating)
        words = self.answers.starter.words
        every = replace(words, beside=(*words.beside, *words.beside_loads))
        forms = LabelForms(every, self.glossary, self.question.two_elements)
        plain_rating = self.reads(said.rating) and not TWO_FIGURES.search(said.rating)
        of_forms = None if plain_rating else forms.read(one)
        told = [of_forms.told] if of_forms and of_forms.told else []
        if of_forms:
            said = replace(said, rating=of_forms.text)
        bare = TWO_VOLTAGES.sub("", said.rating).rstrip(" @,").removesuffix(" at").rstrip(" ,")
        if not (self.reads(said.rating) or self.question.settings or not self.lacks_voltage(bare)):
            known = voltage or of_two or self.volts.own(self.on_label(bare))
            if not known:
                return Completed(said.text, self.volts.offered(), told=told)
            said = replace(said, rating=self.at(bare, known), voltage_assumed=assumed)
        told += self.volts.told(self.read(said.rating), of_two)
        return Completed(said.text, told=told)

    def without_size(self, text: str) -> str:
        """What a label gives without the size by which people call the equipment, such as `3 ton`, beside it."""
        units = "|".join(sorted({re.escape(size.split()[1]) for size in self.answers.starter.words.sizes}))
        size = re.compile(rf"(?<![\w.])\d+(?:\.\d+|[ -]1/2)?[\s-]*(?:{units})s?\b[\s,;]*", re.IGNORECASE) if units else None
        rest = size.sub(" ", text) if size is not None and self.question.by_size else text
        if rest == text or not NUMBER.search(rest):
            return text
        kind = self.question.entry.get("kind", "").replace("_", " ")
        passed = set(map(plain, (*self.answers.starter.words.beside, *kind.split())))
        kept = rest.split()
        while kept and plain(kept[0].strip(",;")) in passed:
            del kept[0]
        return " ".join(kept)

    def refuse_evidence(self, text: str) -> None:
        """Refuse a word after the last comma that is none for what a rating is read from."""
        rest, comma, last = text.rpartition(",")
        if comma and last.replace("-", " ").replace(" ", "").isalpha() and self.reads(rest) and not self.is_unit(last):
            fail(NO_EVIDENCE, text=last.strip(), known=", ".join(spaced(each) for each in self.glossary.evidence))

    def is_unit(self, text: str) -> bool:
        """Whether a word is one of labels."""
        return plain(text) in map(
            plain,
            (
                *self.answers.starter.words.beside,
                *self.answers.starter.words.beside_loads,
                *self.answers.starter.words.one_of_two,
            ),
        )

    @property
    def current(self) -> str:
        """The unit of currents in print."""
        return self.glossary.units.printed(models_for(self.glossary).vocabulary.rating_unit)

    def reads(self, text: str) -> bool:
        """Whether a text is a rating."""
        return self.read(text) is not None

    def read(self, text: str) -> Rating | None:
        """The rating that a text is, or nothing."""
        try:
            return read_rating(placed(text), models_for(self.glossary).vocabulary.ratings, self.glossary.units)
        except Refusal:
            return None

    @property
    def volts(self) -> Voltages:
        """The voltages that the answer may have."""
        return Voltages(self.question, self.answers, self.glossary)

    def at(self, text: str, voltage: str) -> str:
        """A rating with its voltage."""
        return f"{text} at {voltage}"

    def lacks_voltage(self, text: str) -> bool:
        """Whether a text is a rating as soon as a voltage follows; a current only where the question asks for one, or asks of the breaker."""
        if not self.reads(self.at(text, self.volts.offered()[0])):
            return False
        last = text.split()[-1].lstrip("-0123456789.,/")
        units = map(plain, (*re.split(r"\W+", self.question.unit), *(symbol for _, symbol in IN_WORDS[-1:])))
        breakers = (plain(each) for each in self.question.breakers)
        return plain(last) in units or self.on_label(text) or plain(text) in breakers

    def on_label(self, text: str) -> bool:
        """Whether a rating is written as the labels of units have it."""
        words = next(iter(self.answers.starter.labels.values()), ())
        return any(plain(text).startswith(f"{plain(word)} ") for word in words)


def without_guess(text: str) -> str:
    """An amount without what tells that it is not sure, of which no evidence can be said."""
    return DOUBT.sub("", GUESS.sub("", text, count=1)).strip()


def in_symbols(text: str) -> str:
    """A rating with the symbols of the units that people write in words."""
    for pattern, symbol in IN_WORDS:
        text = pattern.sub(f" {symbol}", text)
    return text
