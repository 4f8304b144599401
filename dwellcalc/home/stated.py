"""Values that are simply said: into facts with the text and the place that they were read from."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from dwellcalc.facts import Facts, Origin
from dwellcalc.glossary import Field

from .evidence import evidence_of
from .ratings import Rating
from .values import Said

Values = dict[str, Any]
Origins = dict[str, Origin]


def origin_of(said: Said | Rating, evidence: str = "") -> Origin:
    """Where what is said comes from."""
    return Origin(str(said.text), said.text.place, evidence)


def set_said(facts: Facts, owner: str, declared: Field, said: Said | None, evidence: str = "") -> None:
    """Give an object's field what is said, if that is known."""
    if said is not None and said.value is not None:
        facts.set(owner, declared.name, said.value, origin_of(said, evidence))


def said_of(fields: Iterable[str], model: Any) -> tuple[Values, Origins]:
    """The values of an item that are simply said, with their origins."""
    evidence = evidence_of(model)
    values: Values = {}
    origins: Origins = {}
    for name in fields:
        said = getattr(model, name, None)
        if isinstance(said, Said) and said.value is not None:
            values[name], origins[name] = said.value, origin_of(said, evidence.of(name))
    return values, origins
