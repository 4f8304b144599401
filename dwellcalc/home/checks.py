"""Checks of values that also need what was met before in the file: names, the supply system, kinds of load.

Each takes a node and returns what it means beside the text itself, or raises a ``Refusal``.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from dwellcalc.facts import Between
from dwellcalc.placed import Mapping as KeysWithValues
from dwellcalc.placed import Text, described, is_day, text_at
from dwellcalc.units import NUMBER

from . import messages
from .context import Context
from .glossary_names import LOADS, NAMEPLATE_VOLTS
from .names import plain, says_unknown
from .quantities import positive, whole
from .ratings import TYPICAL, Rating, read_rating, shown_forms
from .refusal import Refusal, single_text
from .two_voltages import of_supply
from .values import Said, Settings

NO_NAMES = ("yes", "y", "no", "n", "ok", "okay", "true", "false")


def somebody(node: Any) -> Text:
    """The name of somebody: it has letters, and is no word by which a question is answered."""
    text = single_text(node)
    if not any(map(str.isalpha, text)) or plain(text).rstrip(".!") in NO_NAMES:
        raise Refusal(messages.NO_NAME, text, text=text)
    return text


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
        several = context.vocabulary.glossary.several_kinds.get(plain(text), ())
        if several:
            meanings = ((name, names.find(name)) for name in several)
            kinds = "; ".join(f"{name} ({meant.meaning})" for name, meant in meanings if meant is not None)
            raise Refusal(messages.WHICH_KIND, text, text=text, kinds=kinds)
        if plain(text) in context.vocabulary.area_kinds:
            raise Refusal(messages.KIND_OF_AREA, text, text=text)
        raise Refusal(messages.KIND, text, text=text, nearest=names.nearest(text), known=known)
    return Said(found, text)


def rating(node: Any, context: Context) -> Rating | Said:
    """A rating in one of the glossary's forms, or said to be unknown, or to be what is typical of the kind."""
    text = single_text(node)
    if says_unknown(text) or plain(text) == TYPICAL:
        return Said(None, text)
    vocabulary = context.vocabulary
    units = vocabulary.glossary.units
    volts = vocabulary.glossary.collections[LOADS].fields[NAMEPLATE_VOLTS].kind.unit
    one, of_two = of_supply(text, context.system, units.printed(volts))
    if of_two is None:
        return read_rating(text, vocabulary.ratings, units)
    return replace(read_rating(text_at(one, text), vocabulary.ratings, units), text=text)


def setting(node: Any, context: Context) -> Said:
    """One setting of equipment that can be set."""
    text = single_text(node)
    vocabulary = context.vocabulary
    return Said(positive(text, vocabulary.setting.kind.unit, vocabulary.glossary.units), text)


def wanted_setting(node: Any, settings: Settings | None, checked: bool, context: Context) -> Said:
    """The setting that is wanted, one of those that are listed; ``checked`` says whether these were good."""
    said = setting(node, context)
    if not checked:
        return said
    if settings is None:
        raise Refusal(messages.SETTING_ALONE, said.text, setting=said.text)
    if said.value not in [each.value for each in settings.said]:
        known = ", ".join(dict.fromkeys(str(each.text) for each in settings.said))
        raise Refusal(messages.SETTING_NOT_LISTED, said.text, setting=said.text, known=known)
    return said


def free_range(node: Text, context: Context) -> Settings:
    """Every whole ampere of a range as a setting, and its upper end."""
    vocabulary = context.vocabulary
    kind, units = vocabulary.setting.kind.unit, vocabulary.glossary.units
    ends = [end.strip() for end in node.split(" to ")]
    if len(ends) != 2 or not all(ends):
        raise Refusal(messages.WANT_SETTINGS, node, found=described(node))
    if ends[0][-1].isdigit():
        ends[0] += f" {units.printed(kind)}"
    first, last = (positive(text_at(end, node), kind, units) for end in ends)
    if first >= last:
        raise Refusal(messages.RANGE_TURNED, node, text=node)
    values = [first + step for step in range(int(last - first) + 1)]
    return Settings([Said(value, node) for value in dict.fromkeys([*values, last])], free=True)


def priority(node: Any, context: Context) -> Said:
    """Which of several planned loads goes first: a whole number, the smaller first."""
    text = single_text(node)
    return Said(whole(text, NUMBER, context.vocabulary.glossary.units, 1), text)


def within_rating(settings: list[Said], rated: object, context: Context) -> None:
    """The largest setting may not be above a rating that is given in the same unit."""
    if not isinstance(rated, Rating):
        return
    vocabulary = context.vocabulary
    fields = vocabulary.glossary.collections["loads"].fields
    found = [value for name, value in rated.values.items() if fields[name].kind == vocabulary.setting.kind]
    limits = [value.high if isinstance(value, Between) else value for value in found]
    largest = max(settings, key=lambda said: float(said.value))
    if limits and largest.value > max(limits):
        raise Refusal(messages.SETTING_ABOVE_RATING, largest.text, setting=largest.text, rating=rated.text)


def quantity_of_items(node: Any, context: Context) -> Said:
    """How many equal items an entry stands for."""
    text = single_text(node)
    return Said(whole(text, NUMBER, context.vocabulary.glossary.units, 1), text)


def evidence(node: Any, context: Context) -> Said:
    """What a value was seen on."""
    text = single_text(node)
    names = context.vocabulary.evidence
    found = names.find(text)
    if found is None:
        raise Refusal(messages.WORD, text, text=text, nearest=names.nearest(text), known=names.known())
    return Said(found, text)


def day(node: Any) -> Text:
    """A date as year, month and day."""
    text = single_text(node)
    if not is_day(text):
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
