"""Patterns of what may be written in a home file, for its JSON Schema: words however they are spelled, quantities, ratings.

They hold for ECMA and Python alike. What depends on other parts of a file, or on what a number is, the reader checks.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from dwellcalc.glossary import Field, Glossary, ValueKind
from dwellcalc.placed import spaced
from dwellcalc.units import NUMBER as NO_UNIT
from dwellcalc.units import Kind, UnknownUnit

from .context import Vocabulary
from .names import NOT_SEEN, TO_BE_CHOSEN, UNKNOWN, shown_kind
from .quantities import is_count
from .ratings import TYPICAL
from .values import QUANTITY, temperature_shown

Schema = dict[str, Any]

NUMBER = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d*)?|\.\d+)"
NOT_ZERO = r"(?![0.,]+(?:[^0-9.,/]|$))"
SPREAD = r"\s*(?:to|-|\u2013|\u2026|\.\.+)\s*"
DATE = r"^\d{4}-\d{2}-\d{2}$"
GAUGE = r"\s*(?:[aA][wW][gG]|[kK][cC][mM][iI][lL]|[mM][cC][mM])?"
SQUARE = r"(?:[sS][qQ]\.? ?|[sS]quare )(?:ft|feet|foot|m|meters?)\.?"
BETWEEN_WORDS = "[ _-]+"
CLOSED_UP = "[ _,-]*"
FIELD = re.compile(r"\{(\w+)\}")
SPECIAL = re.compile(r"[.^$*+?()\[\]{}|\\/]")


def letter(character: str) -> str:
    """A pattern of a character in both cases."""
    if character.upper() != character.lower():
        return f"[{character.lower()}{character.upper()}]"
    return SPECIAL.sub(r"\\\g<0>", character)


def spelled(name: str) -> str:
    """A pattern of a name with any spaces, hyphens and underscores, in any case."""
    return BETWEEN_WORDS.join("".join(map(letter, word)) for word in re.split(r"[ _-]+", name))


def whole(patterns: Iterable[str]) -> str:
    """A pattern of a whole text that is one of these."""
    return rf"^\s*(?:{'|'.join(dict.fromkeys(patterns))})\s*$"


def text(pattern: str) -> Schema:
    """A text by a pattern."""
    return {"type": "string", "pattern": pattern}


UNKNOWN_WORDS = (spelled(UNKNOWN), spelled(NOT_SEEN), spelled(TO_BE_CHOSEN))
COUNTED: Schema = {"anyOf": [{"type": "integer", "minimum": 1}, text(whole([r"0*[1-9]\d*"]))]}
ANY_TEXT: Schema = {"type": ["string", "number"], "minLength": 1}


@dataclass(frozen=True)
class Values:
    """The schemas of values of one glossary."""

    glossary: Glossary

    @cached_property
    def vocabulary(self) -> Vocabulary:
        """The glossary's names."""
        return Vocabulary(self.glossary)

    def of_field(self, declared: Field, *, between: bool = False) -> Schema:
        """What a field of the glossary may be, or that it is not known."""
        kind = declared.kind
        if kind.form != QUANTITY:
            return self.words(kind)
        if is_count(kind.unit, self.glossary.units):
            return {
                "anyOf": [
                    {"type": "integer", "minimum": 0},
                    text(whole([rf"\d+\s*(?:{self.units(kind.unit)})?", *UNKNOWN_WORDS])),
                ]
            }
        if kind.unit == NO_UNIT and declared.may_be_zero:
            return {"anyOf": [{"type": "integer", "minimum": 0}, text(whole([r"\d+", *UNKNOWN_WORDS]))]}
        if kind.unit == NO_UNIT:
            return {"anyOf": [{"type": "number", "exclusiveMinimum": 0}, text(whole([NOT_ZERO + NUMBER, *UNKNOWN_WORDS]))]}
        return text(whole([self.quantity(kind.unit, between=between), *UNKNOWN_WORDS]))

    def words(self, kind: ValueKind) -> Schema:
        """The words of a choice or a scale, yes or no."""
        words = self.glossary.words(kind)
        shown = [spaced(temperature_shown(word)) for word in words]
        after = GAUGE if kind.form == "scale" else ""
        patterns = [f"{spelled(each)}{after}" for each in (*shown, *words)]
        if kind.form == "scale":  # one that is suspected, or several
            one = f"(?:{'|'.join(dict.fromkeys(patterns))})"
            patterns.append(rf"{one}(?:\s*,?\s*\b(?:or|to)\s+{one})*(?:[\s,;]*(?:\(?{spelled(NOT_SEEN)}\)?|\?))?")
        found: list[Schema] = [{"enum": [*shown, UNKNOWN]}, text(whole([*patterns, *UNKNOWN_WORDS]))]
        if kind.form == "yes_no":
            found.append({"type": "boolean"})
        numbers = [int(each) for each in words if each.isdigit()]
        if numbers:
            found.append({"enum": numbers})
        return {"anyOf": found}

    def one_of(self, words: Iterable[str]) -> Schema:
        """One of some words."""
        names = [spaced(word) for word in words]
        found: list[Schema] = [{"enum": names}, text(whole(map(spelled, names)))]
        return {"anyOf": [*found, {"type": "boolean"}] if "yes" in names else found}

    def units(self, kind: Kind) -> str:
        """The spellings of units of a kind, and of those that are converted to it."""
        found = []
        for name in sorted(map(str, self.glossary.units.registry._units), key=len, reverse=True):
            try:
                self.glossary.units.converted(f"1 {name}", kind)
            except (ValueError, UnknownUnit):
                continue
            found.append(name)
        printed = self.glossary.units.printed(kind)
        if printed not in found:
            found.append(printed)
        if any(self.glossary.units.unit(name).kind == self.square_feet for name in found):
            found += [SQUARE, "ft²", "m²"]
        return "|".join(dict.fromkeys(each if each == SQUARE else f"{''.join(map(letter, each))}s?" for each in found))

    @cached_property
    def square_feet(self) -> Kind | None:
        """The kind of square feet, where the registry has them."""
        try:
            return self.glossary.units.unit("sq ft").kind
        except UnknownUnit:
            return None

    def quantity(self, kind: Kind, *, between: bool, zero: bool = False) -> str:
        """A pattern of a number with a unit, or of two bounds of which the first may leave out its unit."""
        unit = rf"\s*°?\s*(?:{self.units(kind)})"
        first = "" if zero else NOT_ZERO
        one = f"{first}{NUMBER}{unit}"
        return f"(?:{NUMBER}(?:{unit})?{SPREAD})?{one}" if between else one

    def current(self) -> str:
        """A pattern of a setting."""
        return self.quantity(self.vocabulary.setting.kind.unit, between=False)

    @property
    def settings(self) -> Schema:
        """The settings of equipment: a list, or a range."""
        one = text(whole([self.current()]))
        between = rf"(?:{NUMBER}|{self.current()})\s+to\s+{self.current()}"
        return {"anyOf": [{"type": "array", "items": one, "minItems": 1}, text(whole([between]))]}

    @property
    def rating(self) -> Schema:
        """A rating in one of the forms of the glossary."""
        forms = [self.form(form) for forms in self.glossary.rating_forms.values() for form in forms]
        return text(whole([*forms, *UNKNOWN_WORDS, spelled(TYPICAL)]))

    def form(self, form: str) -> str:
        """A pattern of one form of a rating; of several numbers of one unit, which are added, the later ones may be zero."""
        fields = self.glossary.collections["loads"].fields
        seen: set[Kind] = set()
        words = []
        for word in form.split():
            made = ""
            for part in filter(None, re.split(r"(\{\w+\})", word)):
                named = FIELD.fullmatch(part)
                if not named:
                    made += "".join(map(letter, part))
                    continue
                declared = fields[named[1]]
                zero = declared.may_be_zero or declared.kind.unit in seen
                made += self.quantity(declared.kind.unit, between=True, zero=zero)
                seen.add(declared.kind.unit)
            words.append(made)
        return r"\s*".join(words)

    @property
    def kinds(self) -> Schema:
        """The kinds of load, each with its meaning; other names and spellings too."""
        kinds = self.glossary.load_kinds.values()
        named = [{"const": shown_kind(kind), "description": kind.meaning} for kind in kinds]
        spellings = [spelled(name) for kind in kinds for name in (kind.name, *kind.also)]
        return {"anyOf": [*named, text(whole(spellings))]}

    @property
    def systems(self) -> Schema:
        """The supply systems, however they are spaced."""
        names = list(self.glossary.systems)
        closed = [CLOSED_UP.join(letter(each) for each in name if each not in " _,-") for name in names]
        return {"anyOf": [{"enum": names}, text(whole(closed))]}
