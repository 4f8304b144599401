"""Values in print: numbers with thousands and at most two decimals (three without a unit); words with spaces."""

from __future__ import annotations

from typing import Any

from dwellcalc.facts import Between, NotApplicable, Unknown
from dwellcalc.glossary import Glossary, ValueKind
from dwellcalc.units import Kind

DECIMALS = 2  # of a quantity; a number without a unit, such as that of three phases, is a factor and has one more


def number(value: float, decimals: int = DECIMALS) -> str:
    """A number with thousands separated and no more than two decimals, or as many as are asked for."""
    text = f"{value:,.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def value(found: Any, kind: ValueKind, glossary: Glossary) -> str:
    """A value of a kind in print; nothing known is "unknown", not applicable a dash."""
    if isinstance(found, Unknown):
        return "unknown"
    if isinstance(found, NotApplicable) or found is None:
        return "-"
    if isinstance(found, Between):
        return f"{quantity(found.low, kind.unit, glossary)} to {quantity(found.high, kind.unit, glossary)}"
    if kind.form == "quantity":
        return quantity(found, kind.unit, glossary)
    if kind.form == "yes_no":
        return "yes" if found else "no"
    return glossary.shown(kind, word(found, kind, glossary))


def word(found: Any, kind: ValueKind, glossary: Glossary) -> str:
    """A choice's word, or the value at a place of a scale."""
    return glossary.words(kind)[found] if kind.form == "scale" else str(found)


def quantity(amount: float, unit: Kind, glossary: Glossary) -> str:
    """A number with its unit."""
    shown = glossary.units.printed(unit)
    return f"{number(amount)} {shown}" if shown else number(amount, DECIMALS + 1)


def filled(text: str, parameters: dict[str, str]) -> str:
    """A title with its quoted parameters filled in."""
    for name, shown in parameters.items():
        text = text.replace("{" + name + "}", shown)
    return text
