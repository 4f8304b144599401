"""Between which lines of the supply a load is connected: in one way, or with a count for each."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from dwellcalc.glossary import System
from dwellcalc.placed import Mapping, Text, spaced, text_at
from dwellcalc.units import NUMBER

from . import messages
from .context import Context
from .glossary_names import LINE_TO_LINE, LINE_TO_NEUTRAL, NAMEPLATE_VOLTS, POWERS, TO_NEUTRAL, VOLTAGE
from .names import plain, says_unknown
from .quantities import whole
from .ratings import Rating
from .refusal import Refusal, single_text
from .values import Said

Lines = tuple[str, ...]


@dataclass(frozen=True)
class Legs:
    """The lines that all of a load is connected to, or how many of it are connected to which lines."""

    lines: Lines = ()
    counts: dict[Lines, float] = field(default_factory=dict)

    def numbers(self, quantity: float, units: float) -> dict[Lines, float]:
        """How many are connected to which lines, those of all equal dwelling units together.

        Args:
            quantity: the quantity of the load.
            units: how many equal dwelling units it is in.
        """
        if not self.counts:
            return {self.lines: quantity * units}
        times = 1 if sum(self.counts.values()) == quantity * units else units
        return {lines: count * times for lines, count in self.counts.items()}


def legs(node: Any, context: Context, quantity: float | None) -> Said:
    """The lines that a load is connected to, in the order of the system, or counts of such.

    Args:
        node: what is written.
        context: what was met so far.
        quantity: the quantity of the load; nothing where it could not be read.
    """
    if isinstance(node, Mapping):
        return _counted(node, context, quantity)
    text = single_text(node)
    return Said(None if says_unknown(text) else Legs(_lines(text, context.system)), text)


def _lines(text: Text, system: System | None) -> Lines:
    written = plain(text.replace(",", " ")).split()
    lines = system.line_conductors if system else ()
    found = tuple(line for line in lines if line.casefold() in written)
    if system and (len(found) != len(written) or not found):
        raise Refusal(messages.LEGS, text, text=spaced(text), known=", ".join(lines))
    return found


def _counted(node: Mapping, context: Context, quantity: float | None) -> Said:
    counts: dict[Lines, float] = {}
    for key, value in node.items():
        lines = _pair(key, context.system)
        count = whole(single_text(value), NUMBER, context.vocabulary.glossary.units, 0)
        counts[lines] = counts.get(lines, 0) + count
    units = context.together()
    if quantity is not None and units is not None and sum(counts.values()) not in (quantity, quantity * units):
        wanted = f"{quantity:g}" if units == 1 else f"{quantity * units:g}, with all equal dwelling units"
        raise Refusal(messages.LEG_COUNTS, node, sum=f"{sum(counts.values()):g}", quantity=wanted)
    written = ", ".join(f"{spaced(key)}: {value}" for key, value in node.items())
    return Said(Legs(counts=counts), text_at(written, node))


def _pair(key: Text, system: System | None) -> Lines:
    lines = _lines(key, system)
    if len(lines) > 2 and system:
        shown = ", ".join([*system.line_conductors, *system.line_pairs])
        raise Refusal(messages.LEGS, key, text=spaced(key), known=shown)
    return lines


def by_voltage(assumed: str, rating: Rating | None, system: System | None) -> str:
    """How a load is connected by the voltage on its nameplate; an empty string where that does not tell.

    Args:
        assumed: what its kind assumes, or an empty string.
        rating: its rating, if one was read.
        system: the supply system of the service.
    """
    volts = rating.values.get(NAMEPLATE_VOLTS) if rating is not None else None
    names = (VOLTAGE, TO_NEUTRAL)
    if not isinstance(volts, float) or system is None or any(name not in system.fields for name in names):
        return ""
    between, to_neutral = (float(system.fields[name]) for name in names)
    if abs(volts - to_neutral) < abs(volts - between):
        return LINE_TO_NEUTRAL
    return LINE_TO_LINE if assumed in (LINE_TO_LINE, LINE_TO_NEUTRAL) else ""


def agree(said: Said, connection: str, rating: Rating | None) -> Said:
    """Legs that agree with how the load is connected: to the neutral from one line, else between two or more.

    Args:
        said: the legs.
        connection: the connection that is said or follows from the kind of load, or an empty string.
        rating: the rating, which for a load on three lines is a power.
    """
    legs: Legs | None = said.value
    if legs is not None and len(legs.lines) > 2 and rating is not None and rating.basis not in POWERS:
        raise Refusal(messages.LEGS_THREE_PHASE, said.text, text=" ".join(legs.lines), rating=rating.text)
    if legs is None or not connection:
        return said
    one = connection == LINE_TO_NEUTRAL
    wrong = next((lines for lines in legs.counts or [legs.lines] if lines and (len(lines) == 1) != one), None)
    if wrong is not None:
        shown = spaced(connection)
        number, wanted = ("one line", "two lines, such as A B") if not one else ("more than one line", "one line, such as A")
        raise Refusal(messages.LEGS_CONNECTION, said.text, text=" ".join(wrong), number=number, connection=shown, wanted=wanted)
    return said
