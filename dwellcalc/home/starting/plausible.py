"""Whether a value that was typed is one that is met in dwellings, or may be that of a breaker; the bounds stand beside the questions."""

from __future__ import annotations

from dataclasses import dataclass

from dwellcalc.facts import Between
from dwellcalc.glossary import Glossary
from dwellcalc.home.glossary_names import LINE_TO_NEUTRAL, LOADS
from dwellcalc.home.legs import by_voltage
from dwellcalc.home.models import models_for
from dwellcalc.home.names import plain
from dwellcalc.home.quantities import of_kind, ranged
from dwellcalc.home.ratings import Rating, read_rating
from dwellcalc.home.refusal import Refusal
from dwellcalc.units import Kind, UnknownUnit

from .answers import Answers, parts_of
from .completed import VOLTS
from .questions import LOAD, NONE, PLANNED, Question
from .said import said_of
from .voltages import Voltages, placed

BETWEEN, AT = " to ", " at "
POWER = "power"  # what watts, volt-amperes, and amperes times volts are compared as

Size = tuple[object, float, float]  # of what it is, the low end and the high end


@dataclass(frozen=True)
class Plausible:
    """Looks at the answers to one question."""

    question: Question
    answers: Answers
    glossary: Glossary

    def doubt(self, text: str) -> str:
        """What is said of an answer over or under all that is plausible, or for another voltage; an empty text where nothing is."""
        if self.too_few(text):
            return self.question.drawn_little
        said = [said_of(part, self.answers.starter, self.glossary).rating for _, part in parts_of(text)]
        sizes = [size for each in said if (size := self.size(each))]
        most, least = (self.bounds(each) for each in (self.question.plausible, self.question.least))
        if any(size[0] == bound[0] and size[2] > bound[2] for size in sizes for bound in most):
            return self.question.much
        system = Voltages(self.question, self.answers, self.glossary).system()
        one_line = any(by_voltage("", self.rating(each), system) == LINE_TO_NEUTRAL for each in said)
        if self.question.to_neutral and one_line:
            return self.question.to_neutral
        small = any(size[0] == bound[0] and size[1] < bound[1] for size in sizes for bound in least)
        if small and not (self.question.kind_at and one_line):
            return self.question.little
        return ""

    def too_few(self, text: str) -> bool:
        """Whether a new house has fewer of something than it needs."""
        least = self.question.drawn_least
        number = "0" if plain(text) == NONE else text
        return bool(least) and self.answers.work.drawn and number.isdecimal() and int(number) < int(least)

    def bounds(self, texts: tuple[str, ...]) -> list[Size]:
        """The sizes of bounds."""
        return [size for each in texts if (size := self.size(each))]

    def size(self, text: str) -> Size | None:
        """How large a value is, and as what it may be compared; nothing of what is no value."""
        rating = self.rating(text) if self.question.form in (LOAD, PLANNED) else None
        if rating is not None:
            return self.of_rating(rating)
        try:
            value, kind = ranged(placed(text), text, self.glossary.units)
        except (Refusal, ValueError, UnknownUnit, OverflowError):
            return None
        low, high = ends(value)
        return (kind, low, high)

    def rating(self, text: str) -> Rating | None:
        """A rating, or nothing."""
        try:
            return read_rating(placed(text), models_for(self.glossary).vocabulary.ratings, self.glossary.units)
        except Refusal:
            return None

    def of_rating(self, rating: Rating) -> Size:
        """How large a rating is: as a power, which amperes times volts are too; else by its own kind."""
        fields = self.glossary.collections[LOADS].fields
        kinds = {name: fields[name].kind.unit for name in rating.values}
        current = models_for(self.glossary).vocabulary.rating_unit
        volts = [ends(value) for name, value in rating.values.items() if name == VOLTS]
        first = next(iter(rating.values))
        if kinds[first] != current or not volts:
            low, high = ends(rating.values[first])
            return (POWER if self.is_power(kinds[first]) else kinds[first], low, high)
        currents = [ends(value) for name, value in rating.values.items() if kinds[name] == current]
        return (POWER, sum(low for low, _ in currents) * volts[0][0], sum(high for _, high in currents) * volts[0][1])

    def is_power(self, kind: Kind) -> bool:
        """Whether a kind is one of those that are a rating alone, without words or volts."""
        return any(form.is_field and form.first == kind for form in models_for(self.glossary).vocabulary.ratings)

    def breaker(self, text: str) -> str:
        """The current of an answer that a breaker may have, or an empty text."""
        said = [said_of(part, self.answers.starter, self.glossary).rating for number, part in parts_of(text) if not number]
        rating = self.rating(said[0]) if len(said) == 1 else None
        if rating is None or len(rating.values) != 2 or VOLTS not in rating.values or rating.basis not in self.plain_bases():
            return ""
        current = models_for(self.glossary).vocabulary.rating_unit
        amount = next(value for name, value in rating.values.items() if name != VOLTS)
        return next(
            (each for each in self.question.breakers if of_kind(placed(each), current, self.glossary.units) == amount), ""
        )

    def plain_bases(self) -> set[str]:
        """The bases of ratings that are written with numbers, without words."""
        return {form.basis for form in models_for(self.glossary).vocabulary.ratings if form.text.startswith("{")} - {
            form.basis for form in models_for(self.glossary).vocabulary.ratings if form.text[0].isalpha()
        }

    def on_breaker(self, breaker: str) -> str:
        """What is taken where only the breaker was seen: up to that, from the low end of what is taken where nothing is known."""
        unknown = self.answers.unknown(self.question)
        low, between, rest = unknown.partition(BETWEEN)
        _, at, voltage = rest.partition(AT)
        made = f"{low}{BETWEEN}{breaker}{AT}{voltage}" if between and at else ""
        return made if made and self.rating(made) else unknown


def ends(value: float | Between) -> tuple[float, float]:
    """The low and the high end."""
    return (value.low, value.high) if isinstance(value, Between) else (value, value)
