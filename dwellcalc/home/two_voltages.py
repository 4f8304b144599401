"""Labels for two voltages between lines, such as 208/230 V, of which the one of the supply is taken."""

from __future__ import annotations

import re

from dwellcalc.glossary import System

from .glossary_names import TO_NEUTRAL, VOLTAGE

TWO_VOLTAGES = re.compile(r"\d\d+ ?V? ?(?:[/-]|to) ?\d\d+ ?(?:V|volts?)\b", re.IGNORECASE)
NUMBERS = re.compile(r"\d+")


def of_supply(text: str, system: System | None, unit: str) -> tuple[str, float | None]:
    """A rating with the voltage of its label that is the supply's alone, and that voltage [V].

    A label for a voltage to the neutral and one between lines stays as it is: on which of them a motor runs is not known.

    Args:
        text: the rating.
        system: the supply system, if it is known.
        unit: the unit of voltages in print.
    """
    found = TWO_VOLTAGES.search(text)
    names = (VOLTAGE, TO_NEUTRAL)
    if found is None or system is None or any(name not in system.fields for name in names):
        return text, None
    between, to_neutral = (float(system.fields[name]) for name in names)
    volts = [float(each) for each in NUMBERS.findall(found[0])]
    if any(abs(each - between) > abs(each - to_neutral) for each in volts):
        return text, None
    one = min(volts, key=lambda each: abs(each - between))
    return f"{text[: found.start()]}{one:g} {unit}{text[found.end() :]}", one
