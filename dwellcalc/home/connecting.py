"""Loads on the lines of a supply, and the circuits of planned and of replaced loads in panels."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from dwellcalc.facts import Facts, Origin
from dwellcalc.placed import Text

from .context import HOUSE
from .glossary_names import BREAKER, BREAKER_LISTED, CIRCUITS, LEGS_SAID, LINES, LOADS, PAIRS, PANELS, THREE_PHASE, UNITS
from .legs import Lines
from .names import plain
from .values import Said


def connect(load: int, numbers: Mapping[Lines, float], facts: Facts) -> None:
    """Connect a load to line conductors, and to the pairs that lie wholly among its lines.

    Args:
        load: its position.
        numbers: how many of it are connected to which lines.
        facts: the facts that hold both.
    """
    if THREE_PHASE in facts.collections[LOADS].fields and any(len(lines) > 2 for lines in numbers):
        facts.collections[LOADS].fields[THREE_PHASE][load] = True
    for collection in (LINES, PAIRS):
        for position, shown in enumerate(facts.collections[collection].names):
            wanted = set(shown.split()[-1].split("-"))
            number = sum(each for lines, each in numbers.items() if wanted <= set(lines))
            if number:
                facts.connected[collection][position].append((load, float(number)))


def say_legs(facts: Facts, names: Sequence[Text]) -> None:
    """Note which loads are connected to no line; on a system of more than two lines how they are is assumed.

    Args:
        facts: the facts, in which all loads are connected that can be.
        names: the names of the loads as they are written, by position.
    """
    column = facts.collections[LOADS].fields.get(LEGS_SAID)
    if column is None:
        return
    connected = {load for items in facts.connected[LINES] for load, _ in items}
    more_than_two = len(facts.collections[LINES]) > 2
    for position, name in enumerate(names):
        column[position] = position in connected
        if column[position]:
            continue
        facts.origins.pop((LOADS, position, LEGS_SAID), None)
        if more_than_two:
            facts.origins[LOADS, position, LEGS_SAID] = Origin("", name.place, assumed=True)


def connect_to_panels(model: Any, filled: Any, on_feeders: Mapping[str, Sequence[int]]) -> None:
    """Connect each planned load, and each whose place one takes, to the panel of its circuit, as many as no circuit of the panels is for.

    Where none is named, that is the first panel of the feeder that feeds the load, else the first that is on no feeder. What goes is
    connected only where there is one such panel, for else nobody knows in which its breaker is; so is what goes later.

    Args:
        model: the home's model.
        filled: what was filled from it, the panels among it.
        on_feeders: the positions of the panels of each feeder, by its plain name.
    """
    facts: Facts = filled.facts
    if PANELS not in facts.connected:
        return
    panels, loads = facts.collections[PANELS].names, facts.collections[LOADS]
    of_service = [at for at in range(len(panels)) if not any(at in each for each in on_feeders.values())]

    def usual(position: int) -> list[int]:
        feeder = next((each for each in model.feeders if _feeds(each.feeds, loads.owner[position], loads.names[position])), None)
        return of_service if feeder is None else list(on_feeders.get(plain(feeder.name), ()))

    counted = [load for load in model.planned if str(load.name) not in filled.later]
    for load, position in zip(counted, filled.planned, strict=True):
        named = [at for at, name in enumerate(panels) if load.panel and plain(name) == load.panel.value]
        for panel in (named or usual(position))[:1]:
            _connect_not_listed(position, panel, facts)
    goes_later = {old for replaced in filled.later.values() for old in replaced}
    for position, gone in enumerate(loads.fields["replaced"]):
        if (gone or loads.names[position] in goes_later) and len(usual(position)) == 1:
            _connect_not_listed(position, usual(position)[0], facts)


def _connect_not_listed(position: int, panel: int, facts: Facts) -> None:
    """Connect to a panel as many of a load as no circuit of any panel is for."""
    circuits, load = facts.collections[CIRCUITS], facts.collections[LOADS].names[position]
    there = sum(each for name, each in zip(circuits.names, circuits.quantity, strict=True) if name == load)
    number = _number(facts, position) - there
    if number > 0:
        facts.connected[PANELS][panel].append((position, number))


def say_breakers(facts: Facts) -> None:
    """Note for each load the breaker that the panels list for its circuit [A].

    Nothing is noted where a load has several circuits, for each then carries a part of it, or equal loads have breakers that differ.
    """
    loads = facts.collections[LOADS]
    column, circuits = loads.fields.get(BREAKER_LISTED), facts.collections.get(CIRCUITS)
    if column is None or circuits is None:
        return
    for position, load in enumerate(loads.names):
        of_load = [at for at, name in enumerate(circuits.names) if name == load]
        breakers = [circuits.fields[BREAKER][at] for at in of_load]
        number = sum(circuits.quantity[at] for at in of_load)
        known = {each for each in breakers if isinstance(each, float)}
        if (
            not breakers
            or number > _number(facts, position)
            or len(known) != 1
            or not all(isinstance(each, float) for each in breakers)
        ):
            continue
        column[position] = known.pop()
        facts.origins[LOADS, position, BREAKER_LISTED] = facts.origins[CIRCUITS, of_load[0], BREAKER]


def _number(facts: Facts, position: int) -> float:
    """How many of a load there are, in all dwelling units together."""
    loads = facts.collections[LOADS]
    owner = loads.owner[position]
    return loads.quantity[position] * (1 if owner == HOUSE else facts.collections[UNITS].quantity[owner])


def _feeds(feeds: Any, unit: int, load: str) -> bool:
    """Whether a feeder feeds a load, by the position of its dwelling unit or by its name."""
    if isinstance(feeds, Said):
        return bool(feeds.value == unit)
    return any(str(each.value) == load for each in feeds.loads)
