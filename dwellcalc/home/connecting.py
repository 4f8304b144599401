"""Loads on the lines of a supply."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dwellcalc.facts import Facts, Origin
from dwellcalc.reading import Text

from .glossary_names import LEGS_SAID, LINES, LOADS, PAIRS
from .legs import Lines


def connect(load: int, numbers: Mapping[Lines, float], facts: Facts) -> None:
    """Connect a load to line conductors, and to the pairs that lie wholly among its lines.

    Args:
        load: its position.
        numbers: how many of it are connected to which lines.
        facts: the facts that hold both.
    """
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
