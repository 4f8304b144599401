"""Results of a sheet as plain values."""

from __future__ import annotations

from collections.abc import Mapping

from dwellcalc.evaluate.sheet import KNOWN, MethodSheet, Outcome


def truth(sheet: MethodSheet, name: str) -> bool | None:
    """Whether a result is yes; nothing where it is not known or there is none of that name."""
    outcome = sheet.results.get(name)
    return outcome.value if outcome is not None and outcome.state == KNOWN else None


def number_in(outcome: Outcome) -> float | None:
    """A number, in the unit of its line; nothing where it is not known."""
    return outcome.value if outcome.state == KNOWN and isinstance(outcome.value, float) else None


def in_sets(conductors: dict[str, str], lists: Mapping[str, tuple[str, ...]], sheet: MethodSheet) -> dict[str, str]:
    """The conductors with the number of their parallel sets, where there are several."""
    named = dict(zip(lists["conductors"], lists.get("sets", ()), strict=False))
    sets = {name: number_in(sheet.results[named[name]]) if name in named else None for name in conductors}
    return {name: f"{sets[name]:g} sets of {size}" if (sets[name] or 1) > 1 else size for name, size in conductors.items()}
