"""The values of a table: numbers and what stands where one is missing, units, flags of quality, directions of flow."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass

from dwellcalc.meter.record import (
    DELIVERED,
    EDITED,
    ESTIMATED,
    MEASURED,
    NET,
    NOT_VALIDATED,
    QUALITIES,
    RECEIVED,
    SUSPECT,
    TOTAL,
)
from dwellcalc.meter.tables.dialect import COMMA
from dwellcalc.meter.tables.table_lines import clean, short

SECONDS_OF_HOUR = 3_600
KILO, MEGA = 1_000, 1_000_000
MISSING = frozenset({"", "-", "--", "n/a", "na", "#n/a", "null", "none", "nan", "*", "missing", "no data", "?"})
LONGEST_HEADING = 200
BLANK_FLAG = 250  # a flag that is empty: what it means depends on what else stands in its column

_BETWEEN_POINT = re.compile(r"[-+]?\d{1,3}(?:[, '’]\d{3})+(?:\.\d*)?\Z")
_BETWEEN_COMMA = re.compile(r"[-+]?\d{1,3}(?:[. '’]\d{3})+(?:,\d*)?\Z")
_PLAIN = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?\Z")
_MARKS_POINT, _MARKS_COMMA = re.compile(r"[, '’]"), re.compile(r"[. '’]")
_WORDS = re.compile(r"[\W_]+")


@dataclass(frozen=True)
class Unit:
    """A unit of values: its name, whether it is of power, and how many Wh or W one of it is."""

    name: str
    power: bool
    factor: float

    def energy(self, length: int) -> float:
        """How much energy one of it is in an interval [Wh], with the interval's length [s]."""
        return self.factor * length / SECONDS_OF_HOUR if self.power else self.factor


UNITS = {
    "kwh": Unit("kWh", False, KILO),
    "wh": Unit("Wh", False, 1),
    "mwh": Unit("MWh", False, MEGA),
    "kw": Unit("kW", True, KILO),
    "w": Unit("W", True, 1),
}
_LONG_UNITS = (
    (re.compile(r"\bkilo ?watt ?hours?\b"), "kwh"),
    (re.compile(r"\bwatt ?hours?\b"), "wh"),
    (re.compile(r"\bkilo ?watts?\b"), "kw"),
    (re.compile(r"\bwatts?\b"), "w"),
)
_MONEY = re.compile(r"[$€£¥]")
_BRACKETS = re.compile(r"[(\[]([^)\]]*)[)\]]")


def words_of(text: str) -> str:
    """A heading as headings are compared: small letters, one blank between words."""
    return _WORDS.sub(" ", text[:LONGEST_HEADING].casefold()).strip()


def take_apart(heading: str) -> tuple[str, Unit | None]:
    """The words of a heading and the unit that it names, in brackets or among the words.

    Brackets that name no unit of electricity stay, so that ``Usage (therms)`` is no usage.
    """
    text = _MONEY.sub(" money ", clean(heading[:LONGEST_HEADING]))
    for inner in _BRACKETS.findall(text):
        unit = _unit_among(words_of(inner))[1]
        if unit is not None:
            return words_of(_BRACKETS.sub(" ", text)), unit
    return _unit_among(words_of(text))


def _unit_among(words: str) -> tuple[str, Unit | None]:
    for pattern, name in _LONG_UNITS:
        words = pattern.sub(name, words)
    parts = words.split()
    found = [part for part in parts if part in UNITS]
    if len(set(found)) != 1:
        return words, None
    return " ".join(part for part in parts if part not in UNITS), UNITS[found[0]]


def without_brackets(heading: str) -> str:
    """The words of a heading outside of brackets."""
    return words_of(_BRACKETS.sub(" ", clean(heading[:LONGEST_HEADING])))


def unit_of(text: str) -> Unit | None:
    """The unit that a word names, or nothing."""
    return _unit_among(words_of(text))[1]


class Numbers:
    """Reads numbers under one decimal mark, and notes the finest step in which they are written."""

    def __init__(self, decimal: str) -> None:
        self.comma = decimal in (COMMA, "")

    def value(self, text: str) -> float:
        """The number that a text without blanks around it is; not a number where it says that a value is missing.

        Raises:
            ValueError: it is neither.
        """
        if text.casefold() in MISSING:
            return math.nan
        value = float(self.plain(text))
        if not math.isfinite(value):
            raise ValueError(text)
        return value

    def plain(self, text: str) -> str:
        """A number with a point before its decimals and nothing between its thousands.

        Raises:
            ValueError: it is no number.
        """
        if (_BETWEEN_COMMA if self.comma else _BETWEEN_POINT).match(text):
            text = (_MARKS_COMMA if self.comma else _MARKS_POINT).sub("", text)
        if self.comma:
            if "." in text:
                raise ValueError(text)
            text = text.replace(",", ".")
        if not _PLAIN.match(text):
            raise ValueError(text)
        return text

    def decimals(self, text: str) -> int:
        """How many decimals a number is written with; none where it is missing or has an exponent."""
        mark = "," if self.comma else "."
        tail = text.rpartition(mark)[2] if mark in text else ""
        return len(tail) if tail.isdigit() else 0


class AnyNumbers(Numbers):
    """Takes whatever stands there for a number, where it must be asked how numbers are written: the rest is looked at all the same."""

    def value(self, text: str) -> float:
        """Not a number."""
        return math.nan


_FLAGS = {
    **dict.fromkeys(("a", "actual", "act", "measured", "valid", "validated", "good", "ok", "verified", "real", "v0"), MEASURED),
    **dict.fromkeys(("no", "n", "0", "false", "f"), MEASURED),
    **dict.fromkeys(("raw", "unverified", "not validated", "unvalidated", "preliminary", "provisional"), NOT_VALIDATED),
    **dict.fromkeys(("edited", "manual", "replaced", "adjusted", "manually edited"), EDITED),
    **dict.fromkeys(("e", "est", "estimated", "estimate", "yes", "y", "1", "true", "t", "*", "x", "s", "substituted"), ESTIMATED),
    **dict.fromkeys(("interpolated", "calculated", "projected", "forecast"), ESTIMATED),
    **dict.fromkeys(("suspect", "failed", "invalid", "bad", "questionable", "missing", "unknown", "other"), SUSPECT),
}


class Flags(dict[str, int]):
    """The quality that each flag of a column means; blank ones are told at the end, from all that were seen."""

    def __init__(self, said: Mapping[str, str] | None = None) -> None:
        super().__init__()
        self.said = {words_of(word): QUALITIES.index(quality) for word, quality in (said or {}).items()}
        self.unknown_words: set[str] = set()

    def __missing__(self, text: str) -> int:
        word = clean(text).casefold()
        found = BLANK_FLAG if not word else self.said.get(words_of(word), _FLAGS.get(word, _FLAGS.get(words_of(word))))
        if found is None:
            if len(self.unknown_words) < KILO:
                self.unknown_words.add(short(text))
            found = SUSPECT
        if len(self) < KILO:
            self[text] = found
        return found

    @property
    def blank(self) -> int:
        """What an empty flag means: as in all other rows where a column marks estimates alone; unclear where it says ``actual`` too."""
        says_actual = any(found == MEASURED for found in self.values())
        return SUSPECT if says_actual else MEASURED


_DIRECTIONS = {
    **dict.fromkeys(("con", "consumption", "consumed", "delivered", "del", "import", "imported", "forward", "used"), DELIVERED),
    **dict.fromkeys(("usage", "from grid", "purchased", "d", "delivery"), DELIVERED),
    **dict.fromkeys(("gen", "generation", "surplus generation", "surplusgeneration", "received", "rec", "r"), RECEIVED),
    **dict.fromkeys(("export", "exported", "reverse", "returned", "to grid", "sold", "surplus"), RECEIVED),
    "net": NET,
    "sum": TOTAL,
}


def direction_of(text: str) -> str:
    """Which way flows what a word names; empty where it names none."""
    return _DIRECTIONS.get(words_of(text), "")
