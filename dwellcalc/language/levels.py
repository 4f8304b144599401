"""Levels: what an item of a collection belongs to, as a method sees it."""

from __future__ import annotations

from dwellcalc.glossary import Glossary
from dwellcalc.language.tree import HOME


def owners_of(glossary: Glossary, per: str, level: str) -> tuple[str, ...]:
    """What an item of a level belongs to, nearest first, in a method with one value per ``per``.

    Loads belong to the home or to a dwelling unit: in a method per dwelling unit to the unit, else to the home alone.
    """
    if level == HOME:
        return ()
    collection = glossary.collections[level]
    if len(collection.of) > 1:
        unit = per if per in collection.of else HOME
    elif collection.of[0] == HOME and per != level and level in connected_to(glossary):
        unit = per
    else:
        unit = collection.of[0]
    return (unit, *owners_of(glossary, per, unit))


def connected_to(glossary: Glossary) -> set[str]:
    """The collections that items of others are connected to."""
    return {name for collection in glossary.collections.values() for name in collection.on}
