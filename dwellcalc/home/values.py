"""Checks of values by the glossary alone: quantities, words, flags.

Each takes a node and returns what it means beside the text itself, or raises a ``Refusal``.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from dwellcalc.glossary import Field, Flag, Glossary, LoadKind, ValueKind
from dwellcalc.placed import Text, spaced

from . import messages
from .names import NOT_SEEN, Names, plain, says_unknown, shown_kind
from .quantities import is_count, positive, positive_or_between, whole
from .refusal import Refusal, single_text

BY_KIND, UNLESS_SAID = "is", "unless said"
QUANTITY = "quantity"
_DEGREES = re.compile(r"(\d+)\s*°?\s*c", re.IGNORECASE)
_MARKING = re.compile(r"t(\d+)")
_GAUGE = re.compile(r"\s*(?:awg|kcmil|mcm)\s*\Z", re.IGNORECASE)


@dataclass(frozen=True)
class Said:
    """What the file says: the value, or nothing where it says that it is not known, and the text itself."""

    value: Any
    text: Text

    @property
    def not_seen(self) -> bool:
        """Whether nobody looked, so that what is usual is assumed; ``unknown`` stays unknown."""
        return self.value is None and plain(self.text) == NOT_SEEN


@dataclass(frozen=True)
class Settings:
    """The settings of equipment, as listed; ``free`` where every whole ampere of a range is one."""

    said: list[Said]
    free: bool


Check = Callable[[Any], Said]


def field_check(declared: Field, glossary: Glossary, *, between: bool = False) -> Check:
    """The check for a field of the glossary, made once; ``between`` lets two bounds of a quantity stand."""
    kind, units = declared.kind, glossary.units
    if kind.form != QUANTITY:
        return word_check(kind, glossary)
    if is_count(kind.unit, units):
        return _unless_unknown(lambda text: whole(text, kind.unit, units, 0))
    check = positive_or_between if between else positive
    return _unless_unknown(lambda text: check(text, kind.unit, units))


def word_check(kind: ValueKind, glossary: Glossary) -> Check:
    """The check for a word of a choice, a value of a scale, or yes and no."""
    words = glossary.words(kind)
    shown = [spaced(temperature_shown(word)) for word in words]
    names = Names([*zip(shown, words, strict=True), *((word, word) for word in words)])
    spell = size_spelled if kind.form == "scale" else temperature_spelled

    def value(text: Text) -> Any:
        word = names.find(spell(text))
        if word is None:
            nearest, known = names.nearest(spell(text)), ", ".join(shown)
            raise Refusal(messages.WORD, text, text=text, nearest=nearest, known=known)
        return glossary.value(kind, word)

    return _unless_unknown(value)


def _unless_unknown(value: Callable[[Text], Any]) -> Check:
    def check(node: Any) -> Said:
        text = single_text(node)
        return Said(None if says_unknown(text) else value(text), text)

    return check


def size_spelled(text: str) -> str:
    """A size as it stands on its scale, without the name of the wire gauge."""
    return _GAUGE.sub("", text)


def temperature_spelled(text: str) -> str:
    """A temperature marking in one spelling; any other text stands as it is."""
    match = _DEGREES.fullmatch(text.strip())
    return f"{match[1]} C" if match else text


def temperature_shown(word: str) -> str:
    """A temperature marking as people write it; any other word stands as it is."""
    match = _MARKING.fullmatch(word)
    return f"{match[1]} C" if match else word


def flag_check(declared: Field, glossary: Glossary) -> Callable[[Any, LoadKind | None], Said]:
    """The check for a flag of a load: what is so by kind cannot be said otherwise."""
    words = word_check(declared.kind, glossary)

    def check(node: Any, kind: LoadKind | None) -> Said:
        said = words(node)
        flag = kind.flags.get(declared.name) if kind else None
        if kind and flag and said.value is not None and _otherwise(said, flag, declared, glossary):
            raise Refusal(
                messages.FLAG_BY_KIND,
                said.text,
                text=said.text,
                kind=shown_kind(kind),
                word=spaced(flag.word),
                instead=_of_kinds(said, declared, glossary),
            )
        return said

    return check


def _of_kinds(said: Said, declared: Field, glossary: Glossary) -> str:
    """Of which kinds it may be said, where these are not more than two."""
    flags = [(kind, kind.flags.get(declared.name)) for kind in glossary.load_kinds.values()]
    kinds = [shown_kind(kind) for kind, flag in flags if flag and not _otherwise(said, flag, declared, glossary)]
    return f"; it may be said of: {', '.join(kinds)}" if 0 < len(kinds) <= 2 else ""


def _otherwise(said: Said, flag: Flag, declared: Field, glossary: Glossary) -> bool:
    return flag.how == BY_KIND and bool(said.value != glossary.value(declared.kind, flag.word))
