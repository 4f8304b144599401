"""What a home is said not to have: kinds of load, kinds of area, sources; each with the evidence for that where it is said."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from dwellcalc.glossary import Glossary
from dwellcalc.placed import Mapping, Text, key, spaced

from . import messages
from .checks import evidence, kind
from .context import Context
from .glossary_names import AREA_KIND, AREAS, FROM_KIND, SOURCES
from .names import words_of
from .refusal import Refusal, single_text
from .values import Said

EVIDENCE = "evidence"
KEYS = (FROM_KIND, EVIDENCE)


@dataclass(frozen=True)
class Absence:
    """What is not there, by its name in the glossary, and on what evidence; an empty text where nothing is said of that."""

    name: str
    evidence: str = ""


def absent(node: Any, context: Context) -> Absence:
    """What the home is said not to have: a name, or `kind` with its `evidence`."""
    if not isinstance(node, Mapping):
        return Absence(_name(single_text(node), context))
    strange = next((each for each in node if each not in KEYS), None)
    if strange is not None:
        raise Refusal(messages.KEY, strange, known=", ".join(KEYS))
    what = node.get(key(FROM_KIND))
    if what is None:
        raise Refusal(messages.LACKS, node, meaning="what is not there")
    word = node.get(key(EVIDENCE))
    return Absence(_name(single_text(what), context), evidence(word, context).value if word is not None else "")


def not_electric(node: Any, context: Context) -> Text:
    """What is there and is no electrical load; it may not be one of the loads of the file beside."""
    text = single_text(node)
    met = context.load(text)
    if met is not None:
        raise Refusal(messages.NOT_ELECTRIC, text, others=[("it stands here", met.name.place)], text=text)
    return text


def _name(text: Text, context: Context) -> str:
    """The name of what is absent; it may not stand in the file beside."""
    found = _area_or_source(text, context)
    said = None if found else kind(text, context)
    name = found or str(said.value.name if said else "")
    present = (context.kinds if said else context.other_kinds).get(name)
    if present is not None:
        raise Refusal(messages.ABSENT, text, others=[("it stands here", present.place)], text=text, name=present)
    return name


def _area_or_source(text: Text, context: Context) -> str:
    glossary = context.vocabulary.glossary
    areas = glossary.words(glossary.collections[AREAS].fields[AREA_KIND].kind)
    return words_of([*areas, *({SOURCES} & set(glossary.collections))]).find(text) or ""


def noting_kind(said: Said, context: Context) -> Said:
    """The kind of an area, which is noted as one that is there."""
    if said.value is not None:
        context.other_kinds.setdefault(str(said.value), said.text)
    return said


def shown(name: str, glossary: Glossary) -> str:
    """What is absent in print."""
    collection = glossary.collections.get(name)
    return collection.meaning if collection is not None else spaced(name)
