"""The glossary of a rule set: choices, scales, objects, collections, supply systems and kinds of load.

Rules, home files and documents share its names; ``glossary_reader`` reads it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from dwellcalc.placed import spaced
from dwellcalc.units import NUMBER, Kind, Units

YES, NO = "yes", "no"

# What a column of interval data may hold: when, how much, and of what.
INTERVAL_COLUMNS = (
    *("date", "start", "end", "end_date", "stamp", "time", "hour", "hour_ending", "interval_number", "period"),
    *("energy", "power", "delivered", "received", "net"),
    *("quality", "meter", "register", "direction", "revision", "utc_offset", "unit"),
)


@dataclass(frozen=True)
class ValueKind:
    """What a value is: a quantity of a unit kind, yes or no, a word of a choice, or a value of a scale."""

    form: str
    unit: Kind = NUMBER
    name: str = ""


def quantity_kind(unit: Kind) -> ValueKind:
    """The kind of a quantity."""
    return ValueKind("quantity", unit)


YES_NO = ValueKind("yes_no")


@dataclass(frozen=True)
class Field:
    """A name that a rule may read from an object or an item.

    ``yes_where`` are fields beside it with the word of each that shows that it is so; ``with_kind`` is the kind of load without
    which it means nothing.
    """

    name: str
    kind: ValueKind
    meaning: str
    optional: bool = False
    unless_said: str = ""
    comes_from: str = ""
    written: str = ""
    find: str = ""
    may_be_zero: bool = False
    yes_where: tuple[tuple[str, str], ...] = ()
    with_kind: str = ""


@dataclass(frozen=True)
class Collection:
    """Items that belong to one another: what it is `of`, what it may be connected to, and its fields."""

    name: str
    meaning: str
    of: tuple[str, ...]
    on: tuple[str, ...]
    at_least: int
    fields: dict[str, Field]


@dataclass(frozen=True)
class Flag:
    """What a kind of load says of a flag: ``how`` is ``is``, ``unless said`` or ``ask``."""

    how: str
    word: str


@dataclass(frozen=True)
class LoadKind:
    """A kind of load: its meaning, other names, and flags."""

    name: str
    meaning: str
    also: tuple[str, ...]
    flags: dict[str, Flag]


@dataclass(frozen=True)
class System:
    """A supply system: the words and quantities that follow from it, its line conductors and pairs."""

    name: str
    fields: dict[str, Any]
    line_conductors: tuple[str, ...]
    line_pairs: tuple[str, ...]


@dataclass
class Glossary:
    """Every name that rules may read, with its kind."""

    units: Units
    choices: dict[str, tuple[str, ...]] = field(default_factory=dict)
    prints: dict[tuple[str, str], str] = field(default_factory=dict)
    scales: dict[str, tuple[str, ...]] = field(default_factory=dict)
    load_units: tuple[Kind, ...] = ()
    objects: dict[str, dict[str, Field]] = field(default_factory=dict)
    object_meanings: dict[str, str] = field(default_factory=dict)
    collections: dict[str, Collection] = field(default_factory=dict)
    systems: dict[str, System] = field(default_factory=dict)
    rating_forms: dict[str, tuple[str, ...]] = field(default_factory=dict)
    evidence: tuple[str, ...] = ()
    load_kinds: dict[str, LoadKind] = field(default_factory=dict)
    no_loads: dict[str, str] = field(default_factory=dict)
    abbreviations: dict[str, str] = field(default_factory=dict)
    several_kinds: dict[str, tuple[str, ...]] = field(default_factory=dict)
    other_keys: dict[str, tuple[str, ...]] = field(default_factory=dict)
    interval_columns: dict[str, tuple[str, ...]] = field(default_factory=dict)

    def words(self, kind: ValueKind) -> tuple[str, ...]:
        """The words of a choice or a scale, in order."""
        if kind.form == "yes_no":
            return (NO, YES)
        return self.choices[kind.name] if kind.form == "choice" else self.scales[kind.name]

    def value(self, kind: ValueKind, text: str) -> Any:
        """A value as the rules carry it: a float, a bool, a word, or the place of a value on its scale.

        Raises:
            ValueError: the text is no value of that kind.
            UnknownUnit: its unit is not in the registry.
        """
        if kind.form == "quantity":
            return self.units.converted(text, kind.unit)
        words = self.words(kind)
        if text not in words:
            raise ValueError(text)
        if kind.form == "yes_no":
            return text == YES
        return words.index(text) if kind.form == "scale" else text

    def shown(self, kind: ValueKind, word: str) -> str:
        """A word of a choice or scale in print: as the glossary says, else with spaces."""
        return self.prints.get((kind.name, word)) or (word if kind.form == "scale" else spaced(word))

    def printed_kind(self, kind: ValueKind) -> str:
        """A kind in a reader's words."""
        if kind.form == "quantity":
            return self.units.printed(kind.unit) or "number"
        return "yes or no" if kind.form == "yes_no" else f"{kind.form} {kind.name}"
