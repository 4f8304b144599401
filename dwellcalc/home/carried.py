"""Loads that are fed from the branch circuit of another load, such as the blower on the circuit of electric heat."""

from __future__ import annotations

from typing import Any

from dwellcalc.facts import Facts, Origin
from dwellcalc.placed import Text

from . import messages
from .context import Context
from .glossary_names import CARRIES, INDIVIDUAL, LOADS, ON_CIRCUIT
from .names import plain, themselves
from .refusal import Refusal, single_text
from .stated import origin_of
from .values import Said


def on_circuit_of(node: Any, context: Context, name: Text | None) -> Said:
    """The load on whose circuit another one is, by its own name; it may stand later in the file.

    A circuit is named by one load, so that load is on no other's circuit.
    """
    text = single_text(node)
    names = themselves(context.all_loads)
    found = names.find(text)
    if found is None:
        raise Refusal(messages.REPLACES, text, text=text, nearest=names.nearest(text), known=names.known() or "none")
    if name is not None:
        context.carried[plain(name)] = plain(found)
    if plain(found) in context.carried or (name is not None and plain(name) in context.carried.values()):
        raise Refusal(messages.CIRCUIT_OF_CARRIED, text, text=text)
    return Said(found, text)


def connect_carried(model: Any, facts: Facts) -> None:
    """Connect each load that is on the circuit of another one to that one; it is on no individual circuit then.

    Args:
        model: the home's model.
        facts: the facts that hold its loads.
    """
    loads = facts.collections[LOADS]
    if ON_CIRCUIT not in loads.fields:
        return
    entries = [*(load for unit in model.dwelling_units for load in unit.loads), *model.loads, *model.planned]
    for position, load in enumerate(entries):
        if load.on_the_circuit_of is None:
            continue
        carrier = loads.names.index(str(load.on_the_circuit_of.value))
        origin = origin_of(load.on_the_circuit_of)
        loads.fields[ON_CIRCUIT][position] = loads.fields[CARRIES][carrier] = True
        facts.connected[LOADS][carrier].append((position, loads.quantity[position] / loads.quantity[carrier]))
        facts.origins[LOADS, position, ON_CIRCUIT] = facts.origins[LOADS, carrier, CARRIES] = origin
        if facts.origins.get((LOADS, position, INDIVIDUAL), origin).assumed:
            loads.fields[INDIVIDUAL][position] = False
            facts.origins[LOADS, position, INDIVIDUAL] = Origin(str(load.on_the_circuit_of.text), origin.place)
