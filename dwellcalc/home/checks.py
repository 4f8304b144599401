"""Checks of values that also need what was met before in the file: names, the supply system, kinds of load.

Each takes a node and returns what it means beside the text itself, or raises a ``Refusal``.
"""

from __future__ import annotations

from datetime import date
from typing import Any

from dwellcalc.glossary import System
from dwellcalc.reading import Listing, Text, described
from dwellcalc.reading import Mapping as KeysWithValues
from dwellcalc.units import NUMBER

from . import messages
from .context import ONE_UNIT, Context
from .names import plain, says_unknown, themselves
from .quantities import positive, whole
from .ratings import BETWEEN, Rating, read_rating, shown_forms
from .refusal import Refusal, single_text
from .values import Said

HOUSE = "house"


def system(node: Any, context: Context) -> Said:
    """A supply system of the glossary."""
    text = single_text(node)
    names = context.vocabulary.systems
    found: System | None = names.find(text)
    if found is None:
        raise Refusal(messages.SYSTEM, text, text=text, nearest=names.nearest(text), known=names.known())
    context.system = found
    return Said(found, text)


def kind_of_load(node: Any, context: Context, name: Text | None) -> Said:
    """The kind of a load; it is noted with the load's name, if that could be taken."""
    said = kind(node, context)
    if name is not None:
        context.kinds.setdefault(said.value.name, name)
    return said


def kind(node: Any, context: Context) -> Said:
    """A kind of load, by its name or another name of it."""
    text = single_text(node)
    names = context.vocabulary.kinds
    found = names.find(text)
    if found is None:
        known = context.vocabulary.kind_names
        why = context.vocabulary.no_load(text)
        if why:
            raise Refusal(messages.NO_LOAD, text, text=text, why=why)
        raise Refusal(messages.KIND, text, text=text, nearest=names.nearest(text), known=known)
    return Said(found, text)


def absent(node: Any, context: Context) -> Said:
    """A kind of load that the home is said not to have."""
    said = kind(node, context)
    present = context.kinds.get(said.value.name)
    if present is not None:
        others = [("it stands here", present.place)]
        raise Refusal(messages.ABSENT, said.text, others=others, text=said.text, name=present)
    return said


def load_name(node: Any, context: Context) -> Text:
    """The name of a load that is there."""
    return _noted(single_text(node), context.existing, context)


def planned_name(node: Any, context: Context) -> Text:
    """The name of a planned load."""
    return _noted(single_text(node), context.planned, context)


def _noted(name: Text, names: dict[str, Text], context: Context) -> Text:
    first = context.existing.get(plain(name)) or context.planned.get(plain(name))
    if first is not None:
        raise Refusal(messages.NAME_TAKEN, name, others=[("first here", first.place)], text=name)
    names[plain(name)] = name
    return name


def unit_name(node: Any, context: Context) -> Text:
    """The name of a dwelling unit."""
    text = single_text(node)
    context.units.append(text)
    return text


def first_unit(node: Any, context: Context) -> None:
    """Any dwelling unit after the first is refused; the first is checked all the same."""
    if context.met_unit:
        raise Refusal(messages.UNITS_LATER, node)
    context.met_unit = True


def rating(node: Any, context: Context) -> Rating | Said:
    """A rating in one of the glossary's forms, or said to be unknown."""
    text = single_text(node)
    if says_unknown(text):
        return Said(None, text)
    vocabulary = context.vocabulary
    return read_rating(text, vocabulary.ratings, vocabulary.glossary.units)


def setting(node: Any, context: Context) -> Said:
    """One setting of equipment that can be set."""
    text = single_text(node)
    vocabulary = context.vocabulary
    return Said(positive(text, vocabulary.setting.kind.unit, vocabulary.glossary.units), text)


def settings_list(node: Any) -> Any:
    """The node, if it is not one text; a free range of settings cannot be read yet."""
    if not isinstance(node, Text):
        return node
    if BETWEEN.search(node):
        raise Refusal(messages.SETTINGS_RANGE_LATER, node)
    raise Refusal(messages.WANT_LIST, node, found=described(node))


def within_rating(settings: list[Said], rated: object, context: Context) -> None:
    """The largest setting may not be above a rating that is given in the same unit."""
    if not isinstance(rated, Rating):
        return
    vocabulary = context.vocabulary
    fields = vocabulary.glossary.collections["loads"].fields
    limits = [value for name, value in rated.values.items() if fields[name].kind == vocabulary.setting.kind]
    largest = max(settings, key=lambda said: float(said.value))
    if limits and largest.value > max(limits):
        raise Refusal(messages.SETTING_ABOVE_RATING, largest.text, setting=largest.text, rating=rated.text)


def quantity_of_items(node: Any, context: Context) -> Said:
    """How many equal items an entry stands for."""
    text = single_text(node)
    return Said(whole(text, NUMBER, context.vocabulary.glossary.units, 1), text)


def only_one_unit(node: Any, context: Context) -> Said:
    """The quantity of a dwelling unit, which is one for now."""
    said = quantity_of_items(node, context)
    if said.value > 1:
        raise Refusal(messages.EQUAL_UNITS_LATER, said.text)
    return said


def evidence(node: Any, context: Context) -> Said:
    """What a value was seen on."""
    text = single_text(node)
    names = context.vocabulary.evidence
    found = names.find(text)
    if found is None:
        raise Refusal(messages.WORD, text, text=text, nearest=names.nearest(text), known=names.known())
    return Said(found, text)


def legs(node: Any, context: Context) -> Said:
    """The line conductors that a load is connected to, in the order of the system."""
    if isinstance(node, KeysWithValues):
        raise Refusal(messages.LEG_COUNTS_LATER, node)
    text = single_text(node)
    written = plain(text.replace(",", " ")).split()
    lines = context.system.line_conductors if context.system else ()
    found = tuple(line for line in lines if line.casefold() in written)
    if context.system and (len(found) != len(written) or not found):
        raise Refusal(messages.LEGS, text, text=text, known=", ".join(lines))
    return Said(found, text)


def replaced_loads(node: Any, context: Context) -> list[Said]:
    """The loads of the dwelling unit that a planned load takes the place of: one, or a list."""
    texts = [single_text(item) for item in (node if isinstance(node, Listing) else [node])]
    names = themselves(context.existing.values())
    found = []
    for text in texts:
        match = names.find(text)
        if match is None:
            nearest, known = names.nearest(text), names.known()
            raise Refusal(messages.REPLACES, text, text=text, nearest=nearest, known=known or "none")
        found.append(Said(match, text))
    return found


def in_unit(node: Any, context: Context) -> Text:
    """The dwelling unit that a planned load is for."""
    text = single_text(node)
    names = themselves(context.units or [ONE_UNIT])
    if names.find(text) is None:
        if plain(text) == HOUSE:
            raise Refusal(messages.HOUSE_LOADS_LATER, text)
        raise Refusal(messages.IN_UNIT, text, text=text, nearest=names.nearest(text), known=names.known())
    return text


def day(node: Any) -> Text:
    """A date as year, month and day."""
    text = single_text(node)
    try:
        right = date.fromisoformat(text).isoformat() == text
    except ValueError:
        right = False
    if not right:
        raise Refusal(messages.DATE, text, text=text)
    return text


def options_chosen(node: Any) -> dict[Text, Text]:
    """Interpretations with the option chosen for each; the rule set checks them later."""
    if not isinstance(node, KeysWithValues):
        raise Refusal(messages.WANT_MAPPING, node, found=described(node))
    return {key: single_text(value) for key, value in node.items()}


def part_of_rating(node: Any, context: Context) -> None:
    """A field that the rating fills, written by itself."""
    vocabulary = context.vocabulary
    forms = shown_forms(vocabulary.ratings, vocabulary.glossary.units)
    raise Refusal(messages.PART_OF_RATING, node, of_key=True, forms=forms)


def listed_here(node: Any) -> Any:
    """The node, if it is not the name of a file with loads."""
    if isinstance(node, Text):
        raise Refusal(messages.TABLE_FILE_LATER, node)
    return node
