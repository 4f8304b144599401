"""What a dwelling usually has, such as water heating, and of what of it the home file says nothing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dwellcalc.decide.assessment_reader import AssessmentReader
from dwellcalc.home.glossary_names import FROM_KIND, LOADS
from dwellcalc.home.reader import Home
from dwellcalc.language.words import USUAL, USUAL_KEYS
from dwellcalc.placed import Mapping, as_mapping


@dataclass(frozen=True)
class Usual:
    """What a dwelling usually has: what it is called, the kinds of load that it may be, words of what does it without electricity."""

    title: str
    kinds: frozenset[str]
    words: tuple[str, ...]


def read_usual(node: Mapping, reader: AssessmentReader) -> tuple[Usual, ...]:
    """What a dwelling usually has, as an assessment file names it."""
    return tuple(_usual(str(title), as_mapping(entry, USUAL, reader.problems), reader) for title, entry in node.items())


def _usual(title: str, node: Mapping, reader: AssessmentReader) -> Usual:
    reader.keys(node, USUAL_KEYS, USUAL)
    kinds, words = (reader.texts(reader.need(node, name, USUAL)) for name in USUAL_KEYS)
    reader.kinds(kinds)
    return Usual(title, frozenset(map(str, kinds)), tuple(map(str, words)))


def nothing_listed(home: Home, usual: Iterable[Usual]) -> list[str]:
    """What of the usual is neither among the loads, nor said to be absent, nor said to be not electric."""
    kinds = {str(kind) for kind in home.facts.collections[LOADS].fields[FROM_KIND]}
    written = (each.written.casefold() for (of, _, name), each in home.facts.origins.items() if (of, name) == (LOADS, FROM_KIND))
    burning = (each for each in written if each in home.facts.glossary.no_loads)  # a blower written as the furnace that it is of
    other = ", ".join([*home.not_electric, *burning]).casefold()
    return [
        each.title
        for each in usual
        if not each.kinds & kinds and not each.kinds <= set(home.absent) and not any(word in other for word in each.words)
    ]
