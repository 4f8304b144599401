"""Kinds of value and quantities, from the trade's own unit registry (rules/units.txt).

A *kind* is a small tuple of (unit, power) pairs over the base units of the registry; ``()`` is a plain number and
``(("percent", 1),)`` a percent. Inference needs only kinds; pint, which is slow to import, is used when a unit is met
for the first time. The 100 of the percent rule stands here once.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from dwellcalc.problems import fail, message

if TYPE_CHECKING:
    import pint

Kind = tuple[tuple[str, int], ...]

NUMBER: Kind = ()
PERCENT: Kind = (("percent", 1),)
WHOLE = 100

NOT_UNITS = message(
    "not_units", 'the file "{name}" does not define units: {why}', "a unit stands in each line, as in `watt = volt_ampere = W`"
)

_QUANTITY = re.compile(
    r"\s*(?P<number>-?(?:\d+ \d{1,2}/\d{1,2}|\d{1,2}/\d{1,2}|\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d*)?|\.\d+))\s*(?P<unit>[^\d\s.,/-].*?)?\s*\Z"
)

_SQUARE_FEET = re.compile(r"(?:sq\.? ?|square )(?:ft|feet|foot)\.?", re.IGNORECASE)
_SQUARE_METERS = re.compile(r"(?:sq\.? ?|square )(?:m|meters?)\.?", re.IGNORECASE)
_CLASS = re.compile(r" \(<class [^>]*>\)")  # which pint names, and a user does not know
_UNIT = re.compile(r"(?:%|[A-Za-z_]\w*)(?: ?[/*] ?[A-Za-z_]\w*)*\Z")


def share(amount: float, percent: float) -> float:
    """``percent`` of ``amount``: the percent is kept as printed and applied as ``amount * percent / 100``."""
    return amount * percent / WHOLE


def percent_of(part: float, whole: float) -> float:
    """What percent a part is of a whole."""
    return part * WHOLE / whole


def times(left: Kind, right: Kind) -> Kind | None:
    """The kind of a product; a percent takes the kind of what it is a share of.

    Returns nothing only for a percent of a percent's reciprocal, which has no meaning.
    """
    if PERCENT in (left, right):
        return left if right == PERCENT else right
    return _combined(left, right, 1)


def over(left: Kind, right: Kind) -> Kind | None:
    """The kind of a quotient, or nothing where a percent stands under it or over it."""
    if PERCENT in (left, right):
        return None
    return _combined(left, right, -1)


def _combined(left: Kind, right: Kind, sign: int) -> Kind:
    powers = dict(left)
    for unit, power in right:
        powers[unit] = powers.get(unit, 0) + sign * power
    return tuple(sorted((unit, power) for unit, power in powers.items() if power))


@dataclass(frozen=True)
class Unit:
    """A unit as written: its kind, and the factor to the base units of that kind."""

    text: str
    kind: Kind
    factor: Fraction


class TooLarge(ValueError, OverflowError):
    """A number beyond what a float can hold."""


class UnknownUnit(Exception):
    """A unit that the registry does not hold."""


class Units:
    """The registry of a rule set.

    Args:
        path: the registry's text file, read by pint.
        name: what messages call it; the path where empty.
    """

    def __init__(self, path: Path, name: str = "") -> None:
        self.path = path
        self.name = name or str(path)
        self._units: dict[str, Unit] = {}
        self._prints: dict[Kind, str] = {}

    @cached_property
    def registry(self) -> pint.UnitRegistry[float]:
        """The pint registry, made when first needed.

        Raises:
            InputError: the file does not define units.
        """
        import pint

        registry: pint.UnitRegistry[float] = pint.UnitRegistry(None, cache_folder=None, autoconvert_to_preferred=False)
        try:
            registry.load_definitions(self.path.read_text(encoding="utf-8").splitlines())
        except Exception as error:  # whatever pint raises at what is no definition
            fail(NOT_UNITS, name=self.name, why=_CLASS.sub("", str(error).partition("\n")[0]))
        return registry

    def unit(self, text: str) -> Unit:
        """The unit with this text, such as ``VA/ft2``; ``%`` is percent, ``number`` and nothing are plain numbers.

        Raises:
            UnknownUnit: the registry does not hold it.
        """
        found = self._units.get(text)
        if found is None:
            found = self._units[text] = self._parsed(text)
        return found

    def _parsed(self, text: str) -> Unit:
        if text in ("", "number"):
            return Unit("", NUMBER, Fraction(1))
        text = _SQUARE_METERS.sub("m2", _SQUARE_FEET.sub("ft2", text.replace("²", "2")))
        if not _UNIT.match(text):  # pint would raise to any power that is written
            raise UnknownUnit(text)
        quantity = self.registry.Quantity
        try:
            one = quantity(1, "percent" if text == "%" else text).to_root_units()
        except Exception as error:
            raise UnknownUnit(text) from error
        powers = [(str(name), int(str(power))) for name, power in one.unit_items()]
        return Unit(text, tuple(sorted(powers)), Fraction(str(one.magnitude)))

    def quantity(self, text: str) -> tuple[float, Kind]:
        """A number with its unit, in the base units of its kind: ``"11.5 kW"`` is 11500.0 W, ``"1 1/2 hp"`` is 1.5 hp.

        Raises:
            ValueError: the text is not a number with a unit.
            UnknownUnit: the registry does not hold the unit.
        """
        match = _QUANTITY.match(text)
        if match is None:
            raise ValueError(text)
        unit = self.unit((match["unit"] or "").strip())
        try:
            return float(number(match["number"]) * unit.factor), unit.kind
        except OverflowError as error:
            raise TooLarge(text) from error

    def converted(self, text: str, kind: Kind) -> float:
        """A quantity for a field of this kind, converted where a home file may write another unit (m2 for ft2).

        Raises:
            ValueError: the text is not a number with a unit of that kind, or of one that is converted to it.
            UnknownUnit: the registry does not hold the unit.
        """
        value, found = self.quantity(text)
        if found == kind:
            return value
        name = " * ".join(f"{unit} ** {power}" for unit, power in found)
        wanted = " * ".join(f"{unit} ** {power}" for unit, power in kind)
        try:
            with self.registry.context("home_file"):
                return float(self.registry.Quantity(value, name).to(wanted).magnitude)
        except Exception as error:
            raise ValueError(text) from error

    def other_case(self, text: str) -> str:
        """The unit that differs from a text in capitals or a plural alone; an empty string where none does, or several."""
        wanted = (text.casefold(), text.casefold().removesuffix("s"))
        alike = sorted(name for name in map(str, self.registry._units) if name.casefold() in wanted)
        same = {(self.unit(name).kind, self.unit(name).factor) for name in alike}
        return alike[0] if len(same) == 1 else ""

    def names_of(self, kinds: Iterable[Kind]) -> list[str]:
        """The units of kinds, and those that are converted to them, as they are printed."""
        found = []
        for name in sorted({*self.symbols.values()} - {"%"}):
            for kind in kinds:
                try:
                    self.converted(f"1 {name}", kind)
                except (ValueError, UnknownUnit):
                    continue
                found.append(name)
        return list(dict.fromkeys(found))

    @cached_property
    def symbols(self) -> dict[str, str]:
        """The symbol of each base unit, for print."""
        shown = {"percent": "%"}
        for name in self.registry._units:
            shown.setdefault(name, self.registry.get_symbol(name))
        return shown

    def printed(self, kind: Kind) -> str:
        """A kind as units are written: ``VA``, ``VA/ft2``, ``%``; nothing for a plain number."""
        found = self._prints.get(kind)
        if found is None:
            found = self._prints[kind] = self._printed(kind)
        return found

    def _printed(self, kind: Kind) -> str:
        if kind == PERCENT:
            return "%"
        if not kind:
            return ""
        powers = dict(kind)
        above: list[str] = []
        if powers.get("volt") == 1 and powers.get("ampere") == 1:
            above.append("VA")
            del powers["volt"], powers["ampere"]
        above += [self._power(unit, power) for unit, power in powers.items() if power > 0]
        below = [self._power(unit, -power) for unit, power in powers.items() if power < 0]
        return ("*".join(above) or "1") + "".join(f"/{unit}" for unit in below)

    def _power(self, unit: str, power: int) -> str:
        symbol = self.symbols.get(unit, unit)
        return symbol if power == 1 else f"{symbol}^{power}"


def number(text: str) -> Fraction:
    """A number as printed, exactly: ``12``, ``1,500``, ``4.5``, ``1/4``, ``1 1/2``.

    What stands over a stroke must be less than what stands under it: ``4500/4500`` on a label are two figures, no fraction.

    Raises:
        ValueError: it is not a number.
    """
    try:
        if "/" not in text:
            return Fraction(text.replace(",", ""))
        whole, _, part = text.strip().rpartition(" ")
        fraction = Fraction(part)
        if fraction >= 1:
            raise ValueError(text)
        return Fraction(whole or 0) + fraction
    except ZeroDivisionError as error:
        raise ValueError(text) from error
