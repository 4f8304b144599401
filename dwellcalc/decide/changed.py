"""The facts of a home with some of its loads changed for a while."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from dwellcalc.facts import Facts
from dwellcalc.home.glossary_names import AREA, AREA_STATUS, AREAS, CIRCUITS, LOAD_REPLACED

LOADS, PLANNED = "loads", "planned"

Change = tuple[str, str]  # a load by its name, and one of its fields
Changes = Mapping[Change, Any]


@contextmanager
def changed(facts: Facts, changes: Changes) -> Iterator[None]:
    """The facts with some of their loads' fields changed, as far as the loads are there, and put back after."""
    loads = facts.collections[LOADS]
    kept: list[tuple[list[Any], int, Any]] = []
    for (name, each), value in changes.items():
        if name in loads.names:
            position, column = loads.names.index(name), loads.fields[each]
            kept.append((column, position, column[position]))
            column[position] = value
    try:
        yield
    finally:
        for column, position, value in reversed(kept):
            column[position] = value


@contextmanager
def circuits_gone(facts: Facts, loads: Collection[str]) -> Iterator[None]:
    """The facts with the listed circuits of some loads as those of loads that go, put back after."""
    circuits = facts.collections[CIRCUITS]
    column = circuits.fields[LOAD_REPLACED]
    kept = list(column)
    for position, name in enumerate(circuits.names):
        if name in loads:
            column[position] = True
    try:
        yield
    finally:
        column[:] = kept


def planned_areas(facts: Facts) -> list[int]:
    """The positions of the areas of floor that are planned."""
    statuses = facts.collections[AREAS].fields.get(AREA_STATUS, ()) if AREAS in facts.collections else ()
    return [at for at, status in enumerate(statuses) if status == PLANNED]


@contextmanager
def without_areas(facts: Facts) -> Iterator[None]:
    """The facts with nothing of the areas that are planned, put back after."""
    planned = planned_areas(facts)
    column = facts.collections[AREAS].fields[AREA] if planned else []
    kept = [column[at] for at in planned]
    for at in planned:
        column[at] = float(0)
    try:
        yield
    finally:
        for at, area in zip(planned, kept, strict=True):
            column[at] = area
