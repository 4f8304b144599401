"""What a submittal claims: a value for a line of the calculation, with the rounding that it is printed with."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import isclose

from dwellcalc.glossary import Glossary, ValueKind
from dwellcalc.language.tree import CheckedLine
from dwellcalc.placed import Text, text_at
from dwellcalc.problems import message
from dwellcalc.review.refused import Refused
from dwellcalc.units import NUMBER as NUMBER_KIND
from dwellcalc.units import UnknownUnit

CLAIM_NOT_READ = message(
    "claim_not_read", '"{text}" is no value for "{line}"', "{wanted}; a number may stand with its unit or without"
)

TRUTHS = {"yes": True, "no": False, "true": True, "false": False}
TRUTH_FIRST = re.compile(r"(?:yes|no|true|false)(?=\s*(?:$|[,.;:(–—-]))", re.IGNORECASE)  # with what is said of it behind a mark
SUFFICES = re.compile(
    r"\b(?P<denied>(?:not|never|cannot|(?:wo|ca|is|does)n'?t)\s+(?:be\s+)?)?"
    r"(?P<word>ok|okay|(?P<ill>in)?(?:adequate|sufficient)|suffices?|complies|comply|passes|fits?)\b(?!\s+to\b)",
    re.IGNORECASE,
)
NUMBER = re.compile(r"-?(?:[\d,]*\d(?:\.(?P<decimals>\d*))?|\.(?P<only>\d+))")
FRACTION = re.compile(r"\d/\d")
AMPERE = "A"


@dataclass(frozen=True)
class Claim:
    """One figure of a submittal.

    Attributes:
        label: what the submittal calls it.
        line: the line of the rule set that it is for, with its method: ``method.line``.
        item: the item of the line's collection, or empty.
        text: the value as printed.
        value: the same as the line has it: a number in the unit of the line, yes or no, a word, or a place on a scale.
        step: the last digit of a number that is printed; two values within it are the same.
        section: the section that the submittal cites, or empty.
        how: how the label was matched with the line.
        row: whether it stands in a row of a load.
        also: other lines, with their items, that such a row may stand for.
        alike: those of them that hold the same of the load, so that the figure is put for all of them.
        adds_up: whether the rows above it add up to it.
        load: of a row of a load, the load as it is calculated, or empty.
        blank: whether its row has no figure beside others that have, so that it is taken for nothing.
        unsure: whether its label may be of several lines, of which none was taken yet.
    """

    label: str
    line: str
    item: str
    text: str
    value: object
    step: float
    section: str = ""
    how: str = ""
    row: bool = False
    place: str = field(default="", compare=False)
    also: tuple[tuple[str, str], ...] = field(default=(), compare=False)
    alike: tuple[tuple[str, str], ...] = field(default=(), compare=False)
    adds_up: bool = False
    unsure: bool = False
    load: str = field(default="", compare=False)
    blank: bool = False
    rows_come_to: float | None = field(default=None, compare=False)

    @property
    def leaves_out(self) -> bool:
        """Whether it is of a load, and nothing."""
        return bool(self.load) and self.value == 0

    @property
    def method(self) -> str:
        """The method of its line."""
        return self.line.partition(".")[0]

    @property
    def at(self) -> tuple[str, str]:
        """Its line and item."""
        return self.line, self.item

    @property
    def places(self) -> tuple[tuple[str, str], ...]:
        """Its line and item, and then those that it may stand for as well."""
        return (self.at, *self.also)

    def place_in(self, values: Mapping[tuple[str, str], object]) -> tuple[str, str]:
        """The first of its places of which the value is the claimed one, else its own."""
        return next((place for place in self.places if self.met_by(values.get(place))), self.at)

    def met_by(self, value: object) -> bool:
        """Whether a value is the claimed one, rounded, cut off or rounded up as it is printed."""
        if isinstance(self.value, float) and not isinstance(value, bool) and isinstance(value, (int, float)):
            coarse = self.step > 1  # what is printed to tens, hundreds or thousands is rounded to the nearest
            off = abs(value - self.value)
            return off <= self.step / 2 if coarse else off < self.step or isclose(value, self.value)
        return type(value) is type(self.value) and value == self.value


def in_amperes(text: Text, glossary: Glossary, volts: float) -> float | None:
    """A load, with its unit, as a current at a voltage [A]; nothing of another text."""
    kind = glossary.collections["loads"].fields["volt_amperes"].kind
    try:
        is_load = glossary.units.quantity(text)[1] not in (NUMBER_KIND, glossary.units.unit(AMPERE).kind)
    except (ValueError, UnknownUnit):
        return None
    load = quantity_in(text, kind, glossary) if is_load else None
    return load / volts if load is not None and volts else None


def read_value(
    text: Text, line: CheckedLine, glossary: Glossary, rounded_to: Text | None = None, volts: float = 0.0
) -> tuple[object, float]:
    """A claimed value as its line has it, and the step that it is printed with.

    A load that is claimed for a line in amperes is the current at the voltage of the supply.

    Args:
        text: as printed; a unit may be left out.
        line: the line that it is for.
        glossary: its units and words.
        rounded_to: the step where the submittal says it.
        volts: what amperes of the supply are multiplied by, or zero.

    Raises:
        Refused: it is no such value.
    """
    kind = line.kind
    assert kind is not None
    if kind.form == "quantity" and kind.unit == glossary.units.unit(AMPERE).kind:
        current = in_amperes(text, glossary, volts)
        if current is not None:
            return current, 1 / volts
    if kind.form == "quantity":
        return _number(text, line, kind, glossary, rounded_to)
    if kind.form in ("choice", "scale"):
        for word in glossary.words(kind):
            if text.casefold() in (word.casefold(), glossary.shown(kind, word).casefold()):
                return glossary.value(kind, word), 0.0
    elif (said := TRUTH_FIRST.match(text)) is not None:
        return TRUTHS[said[0].casefold()], 0.0
    elif len(said_to := {not (each["denied"] or each["ill"]) for each in SUFFICES.finditer(text)}) == 1:
        return said_to.pop(), 0.0  # `200 A service OK`, `does not suffice`
    raise _refused(text, line, glossary)


def _number(text: Text, line: CheckedLine, kind: ValueKind, glossary: Glossary, rounded_to: Text | None) -> tuple[float, float]:
    value = quantity_in(text, kind, glossary)
    if value is None:
        raise _refused(text, line, glossary)
    if rounded_to is not None:
        step = quantity_in(rounded_to, kind, glossary)
        if step is None:
            raise _refused(rounded_to, line, glossary)
        return value, step
    match = NUMBER.search(text)
    if match is None or FRACTION.search(text):
        return value, 0.0
    decimals = len(match["decimals"] or match["only"] or "")
    last = ("." + "1".zfill(decimals)) if decimals else "1"
    step = quantity_in(text_at(f"{text[: match.start()]}{last}{text[match.end() :]}", text), kind, glossary)
    return value, step or 0.0


def quantity_in(text: Text, kind: ValueKind, glossary: Glossary) -> float | None:
    """A quantity in the unit of a kind: without a unit it is of that one, and watts stand for volt-amperes; nothing if it is none."""
    units = glossary.units
    try:
        value, found = units.quantity(text)
    except (ValueError, UnknownUnit):
        return None
    amperes = units.unit(AMPERE).kind
    loads = [each for each in glossary.load_units if each != amperes]  # nameplates and sheets write these for one another
    if found in (kind.unit, NUMBER_KIND) or (found in loads and kind.unit in loads):
        return value
    try:
        return units.converted(text, kind.unit)
    except (ValueError, UnknownUnit):
        return None


def _refused(text: Text, line: CheckedLine, glossary: Glossary) -> Refused:
    kind = line.kind
    assert kind is not None
    if kind.form == "quantity":
        wanted = f"it is in {glossary.units.printed(kind.unit) or 'plain numbers'}"
    elif kind.form in ("choice", "scale"):
        wanted = "one of: " + ", ".join(glossary.shown(kind, word) for word in glossary.words(kind))
    else:
        wanted = "yes or no"
    return Refused(CLAIM_NOT_READ, text, text=text, line=line.source.title, wanted=wanted)


def rounded_throughout(
    claims: Sequence[Claim], kinds: Mapping[tuple[str, str], ValueKind | None], coarsest: float
) -> list[Claim]:
    """The claims with the step that all figures of their kind share, tens or hundreds, as of a sheet that rounds every one.

    Args:
        claims: the claims.
        kinds: the kind of the value of each, by line and item.
        coarsest: the largest step that is taken so.
    """
    found = []
    for claim in claims:
        kind = kinds[claim.at]
        alike = [each.value for each in claims if kinds[each.at] == kind and isinstance(each.value, float) and each.value]
        shared = min(*map(_decimal_step, alike), coarsest) if len(alike) > 2 else 0.0
        found.append(replace(claim, step=shared) if isinstance(claim.value, float) and shared > claim.step else claim)
    return found


def _decimal_step(value: float) -> float:
    """The last decimal place of a whole number that is not zero: 10 of 250; nothing of what is no whole number."""
    if value != int(value):
        return 0.0
    digits = str(int(value))
    return float("1".ljust(len(digits) - len(digits.rstrip("0")) + 1, "0"))
