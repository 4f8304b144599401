"""Conductors that nobody has seen and of which something is suspected: one size, several, or a range of them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from dwellcalc.glossary import Field, Glossary
from dwellcalc.placed import Text, text_at

from . import messages
from .glossary_names import MATERIAL, SUPPLY
from .names import NOT_SEEN
from .refusal import Refusal, single_text
from .values import Check, Said, word_check

_UNSEEN = re.compile(rf"[\s,;]*(?:\(?{NOT_SEEN.replace(' ', '[ _-]+')}\)?|\?)\s*\Z", re.IGNORECASE)
_OR = re.compile(r"\s*(?:,\s*or|,|\bor\b)\s*", re.IGNORECASE)
_TO = re.compile(r"\s+to\s+", re.IGNORECASE)


@dataclass(frozen=True)
class Several:
    """Values of a scale of which one is there, and nobody has seen which, in rising order."""

    values: tuple[Any, ...]


def sizes_check(declared: Field, glossary: Glossary) -> Check:
    """The check for a size that may be suspected: `2 AWG, not seen`, `2 AWG or 4 AWG`, `4 AWG to 1/0 AWG`."""
    one = word_check(declared.kind, glossary)

    def check(node: Any) -> Said:
        text = single_text(node)
        seen = _UNSEEN.sub("", text)
        listed, ends = _OR.split(seen), _TO.split(seen)
        if not seen or (seen == text and len(listed) == 1 and len(ends) == 1):
            return one(node)
        values = [_value(part, text, one) for part in (ends if len(ends) > 1 else listed)]
        if len(ends) == 2:
            if values[0] > values[1]:
                raise Refusal(messages.BOUNDS_ORDER, text, text=text)
            every = [glossary.value(declared.kind, word) for word in glossary.words(declared.kind)]
            values = [value for value in every if values[0] <= value <= values[1]]
        return Said(Several(tuple(sorted(set(values)))), text)

    return check


def _value(part: str, text: Text, one: Check) -> Any:
    said = one(text_at(part, text))
    if said.value is None:
        raise Refusal(messages.SUSPECTED, text, text=text)
    return said.value


def suspected_of(conductors: Any, glossary: Glossary) -> list[tuple[Any, Any]]:
    """The conductors that are suspected, as (size, material); nothing where none are. Of a material not said, each may be.

    Args:
        conductors: the model of the conductors of a supply, or nothing.
        glossary: the names of it.
    """
    size: Said | None = getattr(conductors, "size", None)
    if size is None or not isinstance(size.value, Several):
        return []
    said: Said | None = getattr(conductors, "material", None)
    kind = glossary.objects[SUPPLY][MATERIAL].kind
    every = [glossary.value(kind, word) for word in glossary.words(kind)]
    materials = every if said is None or said.value is None else [said.value]
    return [(value, material) for material in materials for value in size.value.values]


def is_several(said: Said) -> bool:
    """Whether what is said is suspected alone."""
    return isinstance(said.value, Several)
