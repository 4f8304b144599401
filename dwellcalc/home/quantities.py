"""Numbers with units as a home file writes them, and what is wrong with one in plain words."""

from __future__ import annotations

import re
from collections.abc import Iterable

from dwellcalc.facts import Between
from dwellcalc.placed import Text, text_at
from dwellcalc.problems import nearest_name
from dwellcalc.units import Kind, Units, UnknownUnit

from . import messages
from .refusal import Refusal

_ARITHMETIC = re.compile(r"[*^()]")
_NUMBER = re.compile(r"[-\d., /]+")
_HYPHENED = re.compile(r"(?<![\d/.])(\d+)-(\d+/\d+)")
_DECIMAL_COMMA = re.compile(r"(\d),(\d\d?)(?!\d)")
_COUNT = "_count]"
SPREAD = r"(?:\bto\b|[-\u2013\u2014\u2026]|\.\.+)"  # what stands between two bounds
_BOUNDS = re.compile(rf"(.+?)\s*{SPREAD}\s*(\S.*)", re.IGNORECASE)


def spelled(text: str) -> str:
    """The text as the units module reads it: ``7-1/2 hp`` is ``7 1/2 hp``, ``38 °C`` is ``38 C``."""
    return _HYPHENED.sub(r"\1 \2", " ".join(text.replace("°", " ").split()))


def in_registry(text: str, units: Units) -> str:
    """The text with its unit as the registry spells it, whatever the capitals: ``11.5 Kw`` is ``11.5 KW``."""
    text = spelled(text)
    try:
        units.quantity(text)
    except UnknownUnit as error:
        unit = str(error)
        other = units.other_case(unit) if text.endswith(unit) else ""
        return f"{text.removesuffix(unit)}{other}" if other else text
    except (ValueError, ZeroDivisionError):
        pass
    return text


def quantity(text: str, units: Units) -> tuple[float, Kind]:
    """A number with its unit, and the kind of the unit.

    Raises:
        ValueError: the text is no number with a unit.
        UnknownUnit: the registry does not hold the unit.
        OverflowError: the number is larger than any that can be calculated with.
    """
    if _ARITHMETIC.search(text):
        raise ValueError(text)
    try:
        return units.quantity(in_registry(text, units))
    except ZeroDivisionError:
        raise ValueError(text) from None


def ranged(text: Text, written: str, units: Units) -> tuple[float | Between, Kind]:
    """A number with its unit, or two bounds of one, of which the first may leave out the unit.

    Args:
        text: the text that is marked where the bounds do not rise.
        written: the part of it that is read.

    Raises:
        Refusal: the bounds do not rise.
        ValueError, UnknownUnit, OverflowError: as for ``quantity``.
    """
    match = _BOUNDS.fullmatch(spelled(written))
    if match is None:
        return quantity(written, units)
    high, kind = quantity(match[2], units)
    low, found = quantity(match[1], units)
    if not found and kind:
        low, found = quantity(f"{match[1]} {match[2].lstrip('-0123456789.,/ ')}", units)
    if found != kind:
        raise ValueError(written)
    if low >= high:
        raise Refusal(messages.BOUNDS_ORDER, text, text=written)
    return Between(low, high), kind


def positive_or_between(text: Text, kind: Kind, units: Units) -> float | Between:
    """A quantity above zero, or two bounds of one.

    Raises:
        Refusal: with what is wrong.
    """
    match = _BOUNDS.fullmatch(spelled(text))
    if match is None:
        return positive(text, kind, units)
    low, high = text_at(match[1], text), text_at(match[2], text)
    if _NUMBER.fullmatch(low):
        low = text_at(f"{low} {high.lstrip('-0123456789.,/ ')}", text)
    bounds = Between(positive(low, kind, units), positive(high, kind, units))
    if bounds.low >= bounds.high:
        raise Refusal(messages.BOUNDS_ORDER, text, text=text)
    return bounds


def of_kind(text: Text, kind: Kind, units: Units) -> float:
    """A quantity of the kind that is asked for, converted where another unit may be written.

    Raises:
        Refusal: with what is wrong.
    """
    try:
        value, found = quantity(text, units)
        return value if found == kind else units.converted(in_registry(text, units), kind)
    except UnknownUnit as error:
        raise unknown_unit(text, str(error), units, [kind]) from None
    except OverflowError:
        raise Refusal(messages.TOO_LARGE, text) from None
    except ValueError:
        raise _not_of_kind(text, units.printed(kind), units) from None


def positive(text: Text, kind: Kind, units: Units) -> float:
    """A quantity above zero.

    Raises:
        Refusal: with what is wrong.
    """
    value = of_kind(text, kind, units)
    if value <= 0:
        raise Refusal(messages.NOT_ABOVE_ZERO, text, text=text)
    return value


def whole(text: Text, kind: Kind, units: Units, least: int) -> float:
    """A whole number, plain or with the unit of what is counted.

    Raises:
        Refusal: it is not whole, or less than the least.
    """
    try:
        value, found = quantity(text, units)
    except OverflowError:
        raise Refusal(messages.TOO_LARGE, text) from None
    except (ValueError, UnknownUnit):
        raise Refusal(messages.NOT_WHOLE, text, text=text) from None
    if found not in ((), kind) or not value.is_integer():
        raise Refusal(messages.NOT_WHOLE, text, text=text)
    if value < least:
        raise Refusal(messages.TOO_FEW, text, text=text, least=least)
    return value


def is_count(kind: Kind, units: Units) -> bool:
    """Whether a unit counts things: its dimension in the registry is named so, as in ``[circuit_count]``."""
    if len(kind) != 1:
        return False
    (unit, power), *_ = kind
    dimensions = units.registry.get_dimensionality(unit)
    return power == 1 and all(str(name).endswith(_COUNT) for name in dimensions) and bool(dimensions)


def unknown_unit(text: Text, unit: str, units: Units, kinds: Iterable[Kind]) -> Refusal:
    """The refusal of a unit that the registry does not hold, where units of some kinds may stand."""
    known = units.names_of(kinds)
    return Refusal(messages.UNIT, text, unit=unit, nearest=nearest_name(unit, known), known=", ".join(known))


def decimal_comma(text: Text) -> Refusal | None:
    """The refusal of a comma before decimals, or nothing."""
    if not _DECIMAL_COMMA.search(text):
        return None
    return Refusal(messages.DECIMAL_COMMA, text, text=text, instead=_DECIMAL_COMMA.sub(r"\1.\2", text))


def _not_of_kind(text: Text, unit: str, units: Units) -> Refusal:
    comma = decimal_comma(text)
    if comma is not None:
        return comma
    if _NUMBER.fullmatch(text):
        return Refusal(messages.LACKS_UNIT, text, text=text, unit=unit)
    try:
        quantity(text, units)
    except ValueError:
        return Refusal(messages.NOT_A_QUANTITY, text, text=text, unit=unit)
    return Refusal(messages.WRONG_UNIT, text, text=text, unit=unit)
