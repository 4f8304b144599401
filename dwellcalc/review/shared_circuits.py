"""A circuit that serves several loads of the calculation: held to the rule for a load with others on its circuit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from dwellcalc.decide.changed import changed
from dwellcalc.facts import Facts
from dwellcalc.home.glossary_names import CARRIES, INDIVIDUAL, LOADS, ON_CIRCUIT


@contextmanager
def on_one_circuit(facts: Facts, carrier: str, others: Sequence[str]) -> Iterator[None]:
    """The facts with some loads on the circuit of another, as a home file says it by `on the circuit of`, and put back after.

    Args:
        facts: those of the supply.
        carrier: the load by which the circuit goes.
        others: the loads that are on it beside.
    """
    loads = facts.collections[LOADS]
    at = loads.names.index(carrier)
    changes: dict[tuple[str, str], object] = {(carrier, CARRIES): True}
    for each in others:
        changes |= {(each, ON_CIRCUIT): True, (each, INDIVIDUAL): False}
    connected = facts.connected[LOADS][at]
    kept = list(connected)
    there = {place for place, _ in kept}  # what the submittal says by `on the circuit of` counts once
    places = (place for place in map(loads.names.index, others) if place not in there)
    connected += [(place, loads.quantity[place] / loads.quantity[at]) for place in places]
    try:
        with changed(facts, changes):
            yield
    finally:
        connected[:] = kept
