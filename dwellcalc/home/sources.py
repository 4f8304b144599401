"""The sources of a home, and the disconnects of a service that has no main: what the supplies say of one another."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Protocol

from dwellcalc.facts import Facts, Origin, Unknown
from dwellcalc.placed import spaced

from .glossary_names import DISCONNECTS, IS_SERVICE, MAIN, NUMBER_OF_DISCONNECTS, OPPOSITE_END, SOURCES, SUPPLY
from .names import plain
from .stated import said_of


class WithFacts(Protocol):
    """A supply, as far as its facts go."""

    facts: Facts


def add_sources(model: Any, facts: Facts) -> dict[str, list[int]]:
    """Add the sources; for each feeder, by plain name, the positions of those on it."""
    on: dict[str, list[int]] = {}
    for source in getattr(model, SOURCES, ()):
        values, origins = said_of(facts.glossary.collections[SOURCES].fields, source)
        position = facts.add(SOURCES, str(source.name), values, origins=origins)
        if source.on and source.on.value:
            on.setdefault(plain(source.on.value), []).append(position)
    return on


def sources_behind_a_feeder(on: Mapping[str, Iterable[int]], facts: Facts) -> None:
    """A source on a feeder feeds the bus of the service too, through the feeder's breaker, of which nothing is said."""
    for position in sorted(each for positions in on.values() for each in positions):
        sources = facts.collections[SOURCES]
        label = f"{sources.names[position]}: {spaced(OPPOSITE_END)}, of the breaker of its feeder"
        sources.fields[OPPOSITE_END][position] = Unknown([label])
        facts.origins.pop((SOURCES, position, OPPOSITE_END), None)


def disconnects_in_place_of_a_main(supplies: Sequence[WithFacts]) -> None:
    """A service without a main, of which no disconnects are listed, has those that the file describes as supplies."""
    service = supplies[0].facts.objects[SUPPLY]
    if service.get(MAIN) is not False or not isinstance(service[DISCONNECTS], Unknown):
        return
    mains = [each.facts for each in supplies[1:] if each.facts.objects[SUPPLY][IS_SERVICE] is True]
    ratings = [facts.objects[SUPPLY]["rating"] for facts in mains]
    if ratings and not any(isinstance(rating, Unknown) for rating in ratings):
        first = next((facts.origins.get((SUPPLY, -1, "rating")) for facts in mains), None)
        origin = Origin("", first.place if first is not None else None)
        supplies[0].facts.set(SUPPLY, DISCONNECTS, sum(ratings), origin)
        supplies[0].facts.set(SUPPLY, NUMBER_OF_DISCONNECTS, float(len(ratings)), origin)
