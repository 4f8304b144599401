"""Checks of feeders and panels: what they are called, what a feeder feeds, which load a circuit has."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from dwellcalc.glossary import System
from dwellcalc.placed import Text
from dwellcalc.problems import Message
from dwellcalc.units import NUMBER

from . import messages
from .context import HOUSE, Context
from .names import Names, plain, says_unknown, themselves
from .quantities import positive, whole
from .refusal import Refusal, single_text
from .unit_checks import new_name
from .values import Said

SERVICE = "service"
LOAD, AREA = "load", "area"


def supply_system(node: Any, context: Context) -> Said:
    """A supply system of the glossary."""
    text = single_text(node)
    names = context.vocabulary.systems
    found: System | None = names.find(text)
    if found is None:
        raise Refusal(messages.SYSTEM, text, text=text, nearest=names.nearest(text), known=names.known())
    return Said(found, text)


def service_system(node: Any, context: Context) -> Said:
    """The supply system of the service."""
    said = supply_system(node, context)
    context.system = said.value
    return said


def feeder_name(node: Any, context: Context) -> Text:
    """The name of a feeder."""
    text = single_text(node)
    if plain(text) == SERVICE:
        raise Refusal(messages.SAME_NAME, text, what="supply", text=text)
    return new_name(text, context.feeders, "supply")


def panel_name(node: Any, context: Context) -> Text:
    """The name of a panel."""
    return new_name(single_text(node), context.panels, "panel")


def source_name(node: Any, context: Context) -> Text:
    """The name of a source."""
    return new_name(single_text(node), context.sources, "source")


def disconnect(node: Any, context: Context) -> Said:
    """The rating of one of the disconnects that take the place of a main."""
    text = single_text(node)
    return Said(positive(text, context.vocabulary.rating_unit, context.vocabulary.glossary.units), text)


def panel_on(node: Any, context: Context) -> Said:
    """The supply that a panel or a source is on: the name of a feeder, or nothing for the service."""
    text = single_text(node)
    known: list[tuple[str, Text | None]] = [(SERVICE, None), *((name, name) for name in context.feeders.values())]
    names = Names(known)
    if names.find(text) is None and plain(text) != SERVICE:
        raise Refusal(messages.PANEL_ON, text, text=text, nearest=names.nearest(text), known=names.known())
    return Said(names.find(text), text)


def planned_panel(node: Any, context: Context) -> Said:
    """The panel that the circuit of a planned load goes to, by plain name."""
    text = single_text(node)
    names = themselves(context.all_panels)
    found = names.find(text)
    if found is None:
        raise Refusal(messages.PLANNED_PANEL, text, text=text, nearest=names.nearest(text), known=names.known() or "none")
    return Said(plain(found), text)


def circuit_load(node: Any, context: Context) -> Said:
    """The load of a circuit, by its own name."""
    text = single_text(node)
    return Said(_load(text, messages.CIRCUIT_LOAD, context), text)


def circuit_source(node: Any, named: bool, context: Context) -> Said:
    """The source of a circuit, by its own name."""
    text = single_text(node)
    names = themselves(context.sources.values())
    if named:
        raise Refusal(messages.LOAD_OR_FOR, text, of_key=True)
    if names.find(text) is None:
        raise Refusal(messages.CIRCUIT_SOURCE, text, text=text, nearest=names.nearest(text), known=names.known() or "none")
    return Said(names.find(text), text)


def circuit_for(node: Any, named: bool) -> Text:
    """What a circuit is for that has no load or source of the file."""
    text = single_text(node)
    if named:
        raise Refusal(messages.LOAD_OR_FOR, text, of_key=True)
    return text


def counted(node: Any, context: Context) -> Said:
    """A number of poles or the like, which is whole."""
    return _whole(node, context, 1)


def counted_or_none(node: Any, context: Context) -> Said:
    """A number of what there may be none of, such as free breaker spaces; it is whole."""
    return _whole(node, context, 0)


def _whole(node: Any, context: Context, least: int) -> Said:
    text = single_text(node)
    return Said(None if says_unknown(text) else whole(text, NUMBER, context.vocabulary.glossary.units, least), text)


def fed_unit(text: Text, context: Context) -> Said:
    """The position of the dwelling unit that a feeder feeds whole."""
    names = context.unit_names
    found = names.find(single_text(text))
    if found is None:
        raise Refusal(messages.FED_UNIT, text, text=text, nearest=names.nearest(text), known=names.known())
    _refuse_again(text, [context.fed_units.get(found), *_fed_parts(found, context)])
    context.fed_units[found] = text
    return Said(found, text)


def _fed_parts(unit: int, context: Context) -> Iterable[Text]:
    """Where feeders say that they feed something of a dwelling unit."""
    for (sort, name), text in context.fed.items():
        units = [context.loads[name].unit] if sort == LOAD else [owner for _, owner in context.areas[name]]
        if unit in units:
            yield text


def fed_load(node: Any, context: Context) -> Said:
    """A load that a feeder feeds, by its own name."""
    text = single_text(node)
    name = _load(text, messages.FED_LOAD, context)
    _feed((LOAD, plain(name)), text, context.loads[plain(name)].unit, context)
    return Said(name, text)


def fed_area(node: Any, context: Context) -> Said:
    """An area that a feeder feeds, by its own name."""
    text = single_text(node)
    found = context.areas.get(plain(text), [])
    if not found:
        names = themselves(first for (first, _), *_ in context.areas.values())
        nearest, known = names.nearest(text), names.known() or "none"
        raise Refusal(messages.FED_AREA, text, text=text, nearest=nearest, known=known)
    if len(found) > 1:
        raise Refusal(messages.FED_AREAS, text, others=[("it stands here", each.place) for each, _ in found], text=text)
    ((name, unit),) = found
    _feed((AREA, plain(name)), text, unit, context)
    return Said(name, text)


def _feed(what: tuple[str, str], text: Text, unit: int | None, context: Context) -> None:
    whole_unit = None if unit is None else context.fed_units.get(unit)
    _refuse_again(text, [context.fed.get(what), whole_unit])
    context.fed[what] = text


def _refuse_again(text: Text, earlier: Iterable[Text | None]) -> None:
    first = next((each for each in earlier if each is not None), None)
    if first is not None:
        raise Refusal(messages.FED_TWICE, text, others=[("first here", first.place)], text=text)


def fed_part(loads: list[Said], areas: list[Said], circuits: bool, node: Any, context: Context) -> None:
    """A part holds something; with areas or circuits it is of one dwelling unit."""
    if not loads and not areas:
        raise Refusal(messages.FED_NOTHING, node)
    units = {context.loads[plain(load.value)].unit for load in loads} - {HOUSE}
    units |= {unit for area in areas for _, unit in context.areas[plain(area.value)]}
    if (areas or circuits) and len(units) != 1 and None not in units:
        raise Refusal(messages.FED_UNITS, node)


def _load(text: Text, message: Message, context: Context) -> Text:
    found = context.load(text)
    if found is None:
        names = themselves(load.name for load in context.loads.values())
        raise Refusal(message, text, text=text, nearest=names.nearest(text), known=names.known() or "none")
    return found.name
