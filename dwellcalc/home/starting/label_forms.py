"""Ratings as labels have them - amperes with watts, two elements, compressor with fan - written in the forms of a home file."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from dwellcalc.glossary import Glossary
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.home.models import models_for
from dwellcalc.home.names import plain
from dwellcalc.home.quantities import quantity
from dwellcalc.units import Kind, UnknownUnit

from .label_words import LabelWords, TwoCurrents
from .said import amount_of, rest_of

AMOUNT = re.compile(r"(?<![\w.])(?P<number>\d[\d,]*(?:\.\d+)?)\s*(?P<unit>[A-Za-z]+)?(?![\w.])")
MARKS = re.compile(r"[\s,;:/+@()\"\u201c\u201d'~-]+")
TWO_FIGURES = re.compile(r"(?<![\w./])\d[\d,.]{2,}\s*/\s*\d[\d,.]{2,}")  # no fraction, such as 1/2, has so many digits
OF_MOTOR = re.compile(r"(?<![\w./])\d+(?:\.\d+|\s*/\s*\d+|\s+\d+/\d+)?\s*(?:hp|horsepower)\b", re.IGNORECASE)
CLAUSES = re.compile(r"\s*[,;]\s+|\s+and\s+")
VOLTS = "volts"
TAKEN = "Read as {taken}; {other} beside it is not taken."
ONE_ELEMENT = "Read as {taken}, of one element, for only one heats at a time."


@dataclass(frozen=True)
class OfLabel:
    """A rating as a home file has it, and what is said of how it was read."""

    text: str
    told: str = ""


@dataclass(frozen=True)
class LabelForms:
    """Reads what labels have."""

    words: LabelWords
    glossary: Glossary
    two_elements: str = ""  # what is said where two powers are taken as the larger, of a load that may be so

    def read(self, text: str) -> OfLabel | None:
        """The rating that a text gives in one of the forms of labels, or nothing."""
        return (
            self._two_currents(text)
            or self._of_all(text)
            or self._elements(text)
            or self._motor(text)
            or self._with_power(text)
            or self._current(text)
        )

    def _two_currents(self, text: str) -> OfLabel | None:
        for pair in self.words.two_currents:
            found = self._pair(text, pair)
            if found is not None:
                return found
        return None

    def _pair(self, text: str, pair: TwoCurrents) -> OfLabel | None:
        unit = self.glossary.units.printed(models_for(self.glossary).vocabulary.rating_unit)
        for number_first in (False, True):
            first, second = (amount_of(text, words, number_first=number_first) for words in (pair.first, pair.second))
            if first is None or second is None:
                continue
            rest = rest_of(text, first, second)
            voltage = self._voltage(rest, (*pair.first, *pair.second))  # fan 1.2 FLA
            if voltage is None:
                continue
            made = pair.writes.format(first=f"{first['amount']} {unit}", second=f"{second['amount']} {unit}")
            return OfLabel(f"{made} at {voltage}" if voltage else made)
        return None

    def _voltage(self, rest: str, passed: Sequence[str]) -> str | None:
        """What is left of a label but for its voltage: that voltage, an empty text without one, nothing where more is left."""
        amounts = self._amounts(rest)
        volts = [written for written, kind in amounts if kind == self._volts]
        if len(volts) != len(amounts) or len(volts) > 1 or self._left(rest, passed):
            return None
        return volts[0] if volts else ""

    def _of_all(self, text: str) -> OfLabel | None:
        """Of what elements take and what all of it takes the latter, such as `4.5 kW elements, 19.2 A at 240 V in all`."""
        clauses = [each for each in CLAUSES.split(text) if each]
        whole = [each for each in clauses if _named(each, self.words.of_all)]
        if len(clauses) != 2 or len(whole) != 1:
            return None
        (other,) = (each for each in clauses if each not in whole)
        bare = _without(whole[0], self.words.of_all)
        powers, volts = self._powers(bare), [written for written, kind in self._amounts(bare) if kind == self._volts]
        found = self._current(bare) or (OfLabel(self._at(powers[0], volts)) if len(powers) == 1 else None)
        beside = self._amounts(other)
        if found is None or not beside or self._left(other, self.words.elements) or self._left(bare, ()):
            return None
        return OfLabel(found.text, TAKEN.format(taken=found.text, other=beside[0][0]))

    def _elements(self, text: str) -> OfLabel | None:
        says = next((word for word in self.words.one_of_two if plain(word) in plain(text)), "")
        powers = self._powers(text)
        if not says and not (self.two_elements and len(powers) == 2):
            return None
        rest = plain(text).replace(plain(says), " ") if says else text
        volts = [written for written, kind in self._amounts(text) if kind == self._volts]
        if not powers or len(volts) > 1 or self._left(rest, self.words.elements):
            return None
        largest = max(powers, key=lambda each: quantity(each, self.glossary.units)[0])
        made = self._at(largest, volts)
        return OfLabel(made, (ONE_ELEMENT if says else self.two_elements).format(taken=made))

    def _with_power(self, text: str) -> OfLabel | None:
        """One power with the current that stands beside it; the power is the rating."""
        amounts, powers = self._amounts(text), self._powers(text)
        others = [written for written, kind in amounts if kind == models_for(self.glossary).vocabulary.rating_unit]
        volts = [written for written, kind in amounts if kind == self._volts]
        if len(powers) != 1 or len(others) > 1 or self._left(text, self.words.elements):
            return None
        made = self._at(powers[0], volts)
        return OfLabel(made, TAKEN.format(taken=made, other=others[0]) if others else "")

    def _motor(self, text: str) -> OfLabel | None:
        """The current of a motor at its voltage, where its power stands beside it; without a current that power."""
        power = OF_MOTOR.search(text)
        rest = text.replace(power[0], " ") if power is not None else ""
        found = self._current(rest) if rest else None
        volts = [written for written, kind in self._amounts(rest) if kind == self._volts] if rest and not found else []
        if power is not None and len(volts) == 1 and len(self._amounts(rest)) == 1 and not self._left(rest, ()):
            return OfLabel(self._at(power[0].strip(), volts))  # `1.5 hp variable speed, 230 V`
        return OfLabel(found.text, TAKEN.format(taken=found.text, other=power[0].strip())) if found and power else None

    def _current(self, text: str) -> OfLabel | None:
        """One current and one voltage, in whatever order."""
        amounts, current = self._amounts(text), models_for(self.glossary).vocabulary.rating_unit
        currents = [written for written, kind in amounts if kind == current]
        volts = [written for written, kind in amounts if kind == self._volts]
        if len(currents) != 1 or len(volts) != 1 or len(amounts) != 2 or self._left(text, ()):
            return None
        return OfLabel(self._at(currents[0], volts))

    def _at(self, power: str, volts: Sequence[str]) -> str:
        return f"{power} at {volts[0]}" if len(volts) == 1 else power

    @property
    def _volts(self) -> Kind:
        return self.glossary.collections[LOADS].fields[VOLTS].kind.unit

    def _powers(self, text: str) -> list[str]:
        """The amounts of what is a rating without more; one without a unit has that of the next."""
        alone = {form.first for form in models_for(self.glossary).vocabulary.ratings if len(form.kinds) == 1 and form.is_field}
        return [written for written, kind in self._amounts(text) if kind in alone]

    def _amounts(self, text: str) -> list[tuple[str, Kind]]:
        """The numbers with units in a text, each with the kind of its unit."""
        found: list[tuple[str, Kind]] = []
        unit = ""
        for match in reversed(list(AMOUNT.finditer(text))):
            own = match["unit"] or ""
            kind = self._kind(own)
            if own and kind is None:
                unit = ""
                continue
            unit = own or (unit if "/" in text[match.end() : match.end() + 2] else "")
            kind = self._kind(unit) if unit else None
            if kind is not None:
                found.append((f"{match['number']} {unit}", kind))
        return found[::-1]

    def _kind(self, unit: str) -> Kind | None:
        """The kind of a unit, or nothing where it is none."""
        if not unit:
            return None
        try:
            return quantity(f"1 {unit}", self.glossary.units)[1]
        except (UnknownUnit, ValueError):
            return None

    def _left(self, text: str, names: Sequence[str]) -> bool:
        """Whether words are left that are neither amounts nor such as may stand beside a rating."""
        known = {plain(each) for each in (*self.words.beside, *names)}
        rest = AMOUNT.sub(lambda match: "" if not match["unit"] or self._kind(match["unit"]) else f" {match['unit']} ", text)
        return any(each and plain(each) not in known for each in MARKS.split(rest))


def _named(text: str, words: Sequence[str]) -> bool:
    return any(re.search(rf"(?<!\w){re.escape(each)}(?!\w)", text, re.IGNORECASE) for each in words)


def _without(text: str, words: Sequence[str]) -> str:
    for each in sorted(words, key=len, reverse=True):
        text = re.sub(rf"(?<!\w){re.escape(each)}(?!\w)", " ", text, flags=re.IGNORECASE)
    return " ".join(text.split())
