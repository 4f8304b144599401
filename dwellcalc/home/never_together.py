"""Loads that a home declares never to run together: each is connected to the others of its set."""

from __future__ import annotations

from typing import Any

from dwellcalc.facts import Facts, Origin

from . import messages
from .context import Context, LoadMet
from .glossary_names import LOADS, NEVER_TOGETHER, TURN
from .names import plain, themselves
from .refusal import Refusal, single_text
from .values import Said


def never_with(node: Any, context: Context) -> Said:
    """A load of a set of loads that never run together, by its name; it stands in one set alone."""
    text = single_text(node)
    found = context.load(text)
    if found is None:
        names = themselves(load.name for load in context.loads.values())
        raise Refusal(messages.REPLACES, text, text=text, nearest=names.nearest(text), known=names.known() or "none")
    first = context.never_together.get(plain(text))
    if first is not None:
        raise Refusal(messages.NEVER_TWICE, text, others=[("first here", first.place)], text=text)
    if plain(text) in context.carried:
        raise Refusal(messages.NEVER_CARRIED, text, text=text)
    context.never_together[plain(text)] = text
    if found.quantity > 1:
        raise Refusal(messages.NEVER_EQUAL, text, text=text)
    return Said(found.name, text)


def checked_set(loads: list[Said], node: Any, context: Context) -> list[Said]:
    """A set of loads that never run together: at least two, and none of them in each of several equal dwelling units."""
    if len(loads) < 2:
        raise Refusal(messages.NEVER_TWO, node)
    met = [context.load(said.text) for said in loads]
    owners = {load.unit for load in met if load is not None}
    if len(owners) > 1:
        for said, load in zip(loads, met, strict=True):
            if load is not None and _of_several(load, context):
                raise Refusal(messages.NEVER_UNITS, said.text, text=said.text)
    return loads


def _of_several(load: LoadMet, context: Context) -> bool:
    return load.unit is not None and load.unit >= 0 and context.units[load.unit].quantity > 1


def connect_never_together(model: Any, facts: Facts) -> None:
    """Connect the loads of each set to one another; the one that is named first has the highest turn.

    Args:
        model: the home's model.
        facts: the facts that hold its loads.
    """
    loads = facts.collections[LOADS]
    for each in getattr(model, NEVER_TOGETHER, ()):
        positions = [loads.names.index(str(said.value)) for said in each.loads]
        names = [loads.names[position] for position in positions]
        for place, (position, said) in enumerate(zip(positions, each.loads, strict=True)):
            others = ", ".join(name for name in names if name != loads.names[position])
            written = f"never together with {others}" + (f": {each.by}" if each.by else "")
            loads.fields[NEVER_TOGETHER][position] = True
            loads.fields[TURN][position] = float(len(positions) - place)
            facts.origins[LOADS, position, NEVER_TOGETHER] = Origin(written, said.text.place)
            facts.connected[LOADS][position] += [(other, float(1)) for other in positions if other != position]
