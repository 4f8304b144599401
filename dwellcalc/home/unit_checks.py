"""Checks of names and of what belongs to which dwelling unit, by what was met before in the file."""

from __future__ import annotations

from typing import Any

from dwellcalc.placed import Listing, Text

from . import messages
from .checks import quantity_of_items
from .context import HOUSE_NAME, Context, LoadMet, UnitMet
from .names import plain, themselves
from .refusal import Refusal, single_text
from .values import Said

UNIT = "dwelling unit"


def unit_name(node: Any, context: Context) -> Text | None:
    """The name of a dwelling unit; where it is the only one, it need not have one."""
    unit = context.units[-1]
    if node is None:
        if context.entries > 1:
            raise Refusal(messages.LACKS, unit.node, meaning="of several dwelling units each has a name")
        return None
    text = single_text(node)
    earlier = {plain(other.name): other.name for other in context.units[:-1] if other.name}
    unit.name = text
    return new_name(text, earlier, UNIT)


def new_name(text: Text, taken: dict[str, Text], what: str) -> Text:
    """A name that nothing else of its sort has; it is noted."""
    first = taken.get(plain(text))
    if first is not None:
        raise Refusal(messages.SAME_NAME, text, others=[("first here", first.place)], what=what, text=text)
    taken[plain(text)] = text
    return text


def begin_unit(node: Any, context: Context) -> None:
    """What follows is of a new dwelling unit."""
    context.unit = len(context.units)
    context.units.append(UnitMet(node))


def quantity_of_units(node: Any, context: Context) -> Said:
    """How many equal dwelling units an entry stands for; several where that cannot be read."""
    unit = context.units[-1]
    unit.quantity = 2
    said = quantity_of_items(node, context)
    unit.quantity = said.value
    return said


def area_name(node: Any, context: Context) -> Text:
    """The name of an area of the dwelling unit."""
    text = single_text(node)
    context.areas.setdefault(plain(text), []).append((text, len(context.units) - 1))
    return text


def load_name(node: Any, context: Context) -> Text:
    """The name of a load that is there."""
    return _noted(single_text(node), context, planned=False)


def planned_name(node: Any, context: Context) -> Text:
    """The name of a planned load; what it is in follows."""
    context.unit = None
    return _noted(single_text(node), context, planned=True)


def _noted(name: Text, context: Context, planned: bool) -> Text:
    first = context.load(name)
    if first is not None:
        raise Refusal(messages.NAME_TAKEN, name, others=[("first here", first.name.place)], text=name)
    context.loads[plain(name)] = LoadMet(name, context.unit, planned)
    return name


def house_loads(loads: list[Any], node: Any, context: Context) -> None:
    """Loads of the home itself stand beside several dwelling units only."""
    if loads and context.units and not context.several:
        raise Refusal(messages.HOUSE_LOADS, node, of_key=True)


def replaced_loads(node: Any, context: Context) -> list[Said]:
    """The loads of the home that a planned load takes the place of: one, or a list."""
    return [_replaced(single_text(item), context) for item in (node if isinstance(node, Listing) else [node])]


def _replaced(text: Text, context: Context) -> Said:
    found = context.load(text)
    if found is None and context.vocabulary.no_load(text):
        return Said(None, text)  # it burns gas, say: it goes, and no load of the file with it
    if found is None or found.planned:
        names = themselves(load.name for load in context.loads.values() if not load.planned)
        nearest, known = names.nearest(text), names.known() or "none"
        raise Refusal(messages.REPLACES, text, text=text, nearest=nearest, known=known)
    return Said(found.name, text)


def in_unit(node: Any, context: Context, name: Text | None) -> int | None:
    """The position of the dwelling unit that a planned load is for; the home itself for a house load."""
    context.unit = None
    context.unit = _of_one(context, name) if node is None else _named(single_text(node), context)
    noted = context.load(name) if name is not None else None
    if noted is not None:
        noted.unit = context.unit
    return context.unit


def _of_one(context: Context, name: Text | None) -> int | None:
    if not context.several:
        return 0
    if name is None:
        return None
    raise Refusal(messages.IN_LACKS, name, known=context.place_names.known())


def _named(text: Text, context: Context) -> int:
    names = context.place_names
    found = names.find(text)
    if found is not None:
        return found
    if plain(text) == HOUSE_NAME and context.units:
        raise Refusal(messages.HOUSE_LOADS, text)
    raise Refusal(messages.IN_UNIT, text, text=text, nearest=names.nearest(text), known=names.known())
