"""Supply conductors that a submittal writes in one text, such as "SER 4/0 AL": their size, material and insulation."""

from __future__ import annotations

import re

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.glossary import Glossary
from dwellcalc.home.glossary_names import INSULATION, MATERIAL, SIZE, SUPPLY
from dwellcalc.placed import Mapping, Node, Text, key, text_at

CONDUCTORS, PREFIX = "conductors", "conductor_"
WORDS = re.compile(r"[^\s,;()]+")
SEVERAL = re.compile(r"-(?=\d)")  # between the conductors of a cable, such as 4/0-4/0-2/0, of which the first is taken
MARKS = "#.'\""


def with_conductors(service: Node | None, plan: ReviewPlan, glossary: Glossary) -> Node | None:
    """A service with its conductors as a home file has them, where they are written in one text of known words; else as it was."""
    name = key(CONDUCTORS)
    said = service.get(name) if isinstance(service, Mapping) else None
    if not isinstance(service, Mapping) or not isinstance(said, Text):
        return service
    found = conductors_in(said, plan, glossary)
    if found is None:
        return service
    made = Mapping((each, found if each == name else value) for each, value in service.items())
    made.place = service.place
    return made


def conductors_in(text: Text, plan: ReviewPlan, glossary: Glossary) -> Mapping | None:
    """What a text says of conductors; nothing where it gives no size or holds a word that is not known."""
    known = _known(plan, glossary)
    found: dict[str, str] = {}
    for word in WORDS.findall(text):
        first = SEVERAL.split(word.strip(MARKS))[0].casefold()
        if first in plan.beside_conductors:
            continue
        field, value = known.get(first, ("", ""))
        if not field or found.get(field, value) != value:
            return None
        found[field] = value
    if SIZE not in found:
        return None
    made = Mapping((text_at(name.removeprefix(PREFIX), text), text_at(value, text)) for name, value in found.items())
    made.place = text.place
    return made


def _known(plan: ReviewPlan, glossary: Glossary) -> dict[str, tuple[str, str]]:
    """The field and the value in print that each word means, in small letters."""
    fields = glossary.objects[SUPPLY]
    known: dict[str, tuple[str, str]] = {}
    for name in (MATERIAL, INSULATION):
        for value in glossary.words(fields[name].kind):
            shown = glossary.shown(fields[name].kind, value)
            known[shown.casefold()] = (name, shown)
    for value in glossary.words(fields[SIZE].kind):
        known[str(value)] = (SIZE, glossary.shown(fields[SIZE].kind, value))
    for value, names in plan.conductor_words.items():
        known.update({each.casefold(): (MATERIAL, value) for each in names})
    return known
