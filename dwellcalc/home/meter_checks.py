"""Checks of what a home file says of its meter record: how the file is to be read, bills, what changed in the dwelling."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

from dwellcalc.placed import Mapping, Text, described, spaced

from . import messages
from .context import Context
from .names import Names, words_of
from .quantities import positive
from .refusal import Refusal, single_text
from .values import Said

# How a file of readings may have to be told to be read, and what each may be.
YES_OR_NO = ("yes", "no")
STAMPS = ("start", "end")
VALUE_UNITS = ("Wh", "kWh", "W", "kW")
DATE_ORDERS = ("day first", "month first")
DECIMALS = ("point", "comma")
FLAG_MEANINGS = ("measured", "edited", "estimated", "suspect")
# What may change in a dwelling, and whether the record before it shows less than there is now.
CHANGES = {"load added": True, "meter changed": True, "occupants changed": True, "load removed": False}


def one_of(words: Sequence[str]) -> Callable[[Any], Text]:
    """The check for one of a few words, as it stands in that list."""
    names: Names[str] = Names((word, word) for word in words) if any(" " in word for word in words) else words_of(words)

    def check(node: Any) -> Text:
        text = single_text(node)
        found = names.find(text)
        if found is None:
            raise Refusal(messages.WORD, text, text=text, nearest=names.nearest(text), known=names.known())
        made = Text(found)
        made.source, made.line, made.column = text.source, text.line, text.column
        return made

    return check


def interval(node: Any, context: Context) -> Said:
    """How long an interval of the readings is."""
    text, glossary = single_text(node), context.vocabulary.glossary
    return Said(positive(text, glossary.objects["record"]["interval"].kind.unit, glossary.units), text)


def energy(node: Any, context: Context) -> Said:
    """The energy of a bill."""
    text, units = single_text(node), context.vocabulary.glossary.units
    return Said(positive(text, units.unit("kWh").kind, units), text)


def fraction(node: Any) -> Said:
    """A number above zero and not above one."""
    text = single_text(node)
    try:
        value = float(text)
    except ValueError:
        value = float(0)
    if not 0 < value <= 1:
        raise Refusal(messages.FRACTION, text, text=text)
    return Said(value, text)


def columns(node: Any) -> dict[str, Text]:
    """The headings of columns by what they hold."""
    if not isinstance(node, Mapping):
        raise Refusal(messages.WANT_MAPPING, node, found=described(node))
    return {str(key): single_text(value) for key, value in node.items()}


def flags(node: Any) -> dict[str, Text]:
    """What flags of quality mean, by the word in the file."""
    if not isinstance(node, Mapping):
        raise Refusal(messages.WANT_MAPPING, node, found=described(node))
    meaning = one_of(FLAG_MEANINGS)
    return {spaced(key): meaning(value) for key, value in node.items()}


def in_order(first: Text, last: Text) -> None:
    """The last day of a bill may not stand before its first.

    Raises:
        Refusal: it does.
    """
    if date.fromisoformat(last) < date.fromisoformat(first):
        raise Refusal(messages.BILL_TURNED, last, first=first, last=last)
