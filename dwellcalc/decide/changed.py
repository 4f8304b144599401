"""The facts of a home with some of its loads changed for a while."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from dwellcalc.facts import Facts

LOADS = "loads"

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
