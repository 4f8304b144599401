"""The voltages of the supply that answers are completed with, and what the voltage on a label counts as."""

from __future__ import annotations

from dataclasses import dataclass

from dwellcalc.glossary import Glossary, System
from dwellcalc.home.glossary_names import CONNECTION, LINE_TO_NEUTRAL, LOADS, NAMEPLATE_VOLTS, POWERS, TO_NEUTRAL, VOLTAGE
from dwellcalc.home.models import models_for
from dwellcalc.home.ratings import Rating
from dwellcalc.home.two_voltages import of_supply
from dwellcalc.home.values import BY_KIND
from dwellcalc.placed import Text
from dwellcalc.problems import Source

from .answers import HOME, Answers
from .questions import Question

BY_SUPPLY = "The label is for two voltages; {voltage}, the one for this supply, is taken."
COUNTS_AS = (
    "What a label gives for {voltage} counts at the nominal {nominal}, whether it names {voltage} alone or beside another."
)
SYSTEM_PATH = ("service", "system")


@dataclass(frozen=True)
class Voltages:
    """The voltages that an answer to one question may have."""

    question: Question
    answers: Answers
    glossary: Glossary

    def one(self, text: str) -> tuple[str, str]:
        """A label for two voltages between lines, such as 208/230 V, with the one for the supply alone, and that voltage.

        A label for a voltage to the neutral and one between lines stays as it is: on which of them a motor runs is not known.
        """
        one, volts = of_supply(text, self.system(), self.unit)
        return one, "" if volts is None else self.printed(volts)

    @property
    def unit(self) -> str:
        """The unit of voltages in print."""
        return self.glossary.units.printed(self.glossary.collections[LOADS].fields[NAMEPLATE_VOLTS].kind.unit)

    def told(self, rating: Rating | None, of_two: str = "") -> list[str]:
        """What is said of the voltage of a rating that was read.

        Args:
            rating: the rating, if it is one.
            of_two: the voltage that was taken of a label with two.
        """
        volts = rating.values.get(NAMEPLATE_VOLTS) if rating is not None else None
        shown = self.printed(volts) if isinstance(volts, float) else ""
        found = [BY_SUPPLY.format(voltage=of_two)] if of_two and shown == of_two else []
        if rating is not None and rating.basis not in POWERS:
            nominal = self.answers.starter.words.nominal.items()
            found += [COUNTS_AS.format(voltage=shown, nominal=each) for each, others in nominal if shown in others]
        return found

    def printed(self, volts: float) -> str:
        """A voltage in print."""
        return f"{volts:g} {self.unit}"

    def system(self) -> System:
        """The supply system that was answered, else the first that is offered."""
        for question in self.answers.starter.questions.values():
            if question.path == SYSTEM_PATH:
                given = self.answers.given.get((question.id, HOME))
                choice = question.choices.get(given.text) if given else next(iter(question.choices.values()))
                found = models_for(self.glossary).vocabulary.systems.find(choice.writes) if choice else None
                if found is not None:
                    return found
        return next(iter(self.glossary.systems.values()))

    def of_system(self, name: str) -> str:
        """A voltage of the supply in print."""
        return self.printed(float(self.system().fields[name]))

    def offered(self) -> list[str]:
        """The voltages of the supply in print, the usual one of the kind first."""
        shown = [self.of_system(name) for name in (VOLTAGE, TO_NEUTRAL)]
        usual = next((each for each in shown if self.question.example.endswith(f" {each}")), "")
        to_neutral = usual == shown[-1] or (not usual and self.connection()[0] == LINE_TO_NEUTRAL)
        return shown[::-1] if to_neutral else shown

    def connection(self) -> tuple[str, bool]:
        """How the kind of load is connected, and whether that cannot be otherwise."""
        said = self.question.entry.get(CONNECTION)
        if said:
            return said.replace(" ", "_"), True
        kind = self.glossary.load_kinds.get(self.question.kind)
        flag = kind.flags.get(CONNECTION) if kind else None
        return (flag.word, flag.how == BY_KIND) if flag else ("", False)

    def own(self, label: bool) -> str:
        """The voltage that the kind of load has; of what bears a label of its ampacity, the usual one. Else nothing."""
        connection, fast = self.connection()
        if not fast and (not label or connection == LINE_TO_NEUTRAL):
            return ""
        return self.of_system(TO_NEUTRAL if connection == LINE_TO_NEUTRAL else VOLTAGE)


def placed(text: str) -> Text:
    """A text that was typed, as a node."""
    made = Text(text)
    made.source, made.line, made.column = Source("", text), 1, 1
    return made
