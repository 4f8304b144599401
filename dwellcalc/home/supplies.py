"""The supplies of a home: its service, and each feeder with what it feeds; the panels that are on them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any

from dwellcalc.facts import Facts, Unknown
from dwellcalc.placed import spaced

from .carrying import carrying_feeder, protect_by_service
from .connecting import connect_to_panels, say_breakers, say_legs
from .context import HOUSE
from .filling import Filled, comes_later, number_of
from .glossary_names import (
    AREAS,
    CIRCUITS,
    IS_SERVICE,
    LOAD_PLANNED,
    LOAD_REPLACED,
    LOADS,
    OF_SOURCE,
    PANELS,
    PART_OF_DWELLING,
    SOURCES,
    SUPPLY,
    UNITS,
    WHOLE_DWELLING,
)
from .names import plain
from .sources import add_sources, disconnects_in_place_of_a_main, sources_behind_a_feeder
from .stated import origin_of, said_of
from .supply_filling import Form, fill_supply, lines_of
from .suspected import suspected_of
from .values import QUANTITY, Said

SERVICE, UNIT, PART = "service", "unit", "part"
FEEDER, DISCONNECT = "feeder", "service disconnect"

Kept = dict[str, list[int]]


@dataclass
class Supply:
    """The service or a feeder, with what is calculated for it.

    Attributes:
        id: `service`, or the feeder's name in small letters with underscores.
        title: what it is called.
        kind: `service`, `unit` for a feeder to a dwelling unit, `part` for one to a part of the home.
        facts: its facts, with what it feeds alone.
        planned: the positions of the planned loads in its facts.
        replaced: (planned load, load that it takes the place of), by name, where it feeds one of them.
        settings: for each load that can be set, by position in its facts, its settings as they are listed.
        gone: (planned load, what it takes the place of and is no electrical load), by name, where it feeds the load.
        suspected: conductors that nobody has seen, as (size, material), of which one is thought to be there.
        carries_all: whether it is a feeder that carries the whole load of its service.
        protected_by_service: whether it is such a one without a device of its own, which the main of the service protects.
        main_alone: whether it is a service whose main protects such a feeder, so that its panel is that of the feeder.
    """

    id: str
    title: str
    kind: str
    facts: Facts
    planned: list[int]
    replaced: list[tuple[str, str]]
    settings: dict[int, list[float]]
    gone: list[tuple[str, str]] = field(default_factory=list)
    suspected: list[tuple[Any, Any]] = field(default_factory=list)
    carries_all: bool = False
    protected_by_service: bool = False
    main_alone: bool = False


def supplies_of(model: Any, filled: Filled) -> list[Supply]:
    """The supplies of a home: the service first, then the feeders in the order of the file.

    Args:
        model: the home's model.
        filled: what was filled from it, all but the panels, which are added here.
    """
    carrying = carrying_feeder(model, filled.facts)
    panels, sources = _add_panels(model, filled.facts, carrying), add_sources(model, filled.facts)
    connect_to_panels(model, filled, panels)
    say_breakers(filled.facts)
    of_loads = (filled.planned, filled.replaced, filled.settings, filled.gone)
    suspected = suspected_of(model.service.conductors, filled.facts.glossary)
    service = Supply(SERVICE, SERVICE.capitalize(), SERVICE, filled.facts, *of_loads, suspected)
    found = [service]
    for feeder in model.feeders:
        name = plain(feeder.name)
        found.append(_feeder(feeder, model, filled, panels.get(name, []), sources.get(name, [])))
    if carrying is not None:
        found[1].carries_all = True
        service.main_alone = found[1].protected_by_service = protect_by_service(found[1].facts, service.facts)
    disconnects_in_place_of_a_main(found)
    sources_behind_a_feeder(sources, filled.facts)
    return found


def _add_panels(model: Any, facts: Facts, carrying: Any) -> dict[str, list[int]]:
    """Add panels with their circuits; for each feeder, by plain name, the positions of those on it.

    Where a feeder carries the whole load of the service, a panel of which nothing says where it is stands on that.
    """
    on: dict[str, list[int]] = {}
    loads = facts.collections[LOADS]
    replaced = {name for name, gone in zip(loads.names, loads.fields["replaced"], strict=True) if gone}
    planned = {str(load.name) for load in model.planned if not comes_later(load)}
    for panel in getattr(model, PANELS, ()):
        fields = facts.glossary.collections[PANELS].fields
        values, origins = said_of(fields, panel)
        for name, each in fields.items():
            if each.unless_said and not getattr(panel, name, None):
                values[name] = float(each.unless_said)
        position = facts.add(PANELS, str(panel.name), values, origins=origins)
        for number, circuit in enumerate(panel.circuits, 1):
            _add_circuit(circuit, number, position, facts, replaced, planned)
        feeder = panel.on.value if panel.on else carrying and carrying.name
        if feeder:
            on.setdefault(plain(feeder), []).append(position)
    return on


def _add_circuit(circuit: Any, number: int, panel: int, facts: Facts, replaced: set[str], planned: set[str]) -> None:
    fields = facts.glossary.collections[CIRCUITS].fields
    usual = {name: facts.glossary.value(each.kind, each.unless_said) for name, each in fields.items() if each.unless_said}
    unknown = [name for name in usual if getattr(circuit, name, None) and not getattr(circuit, name).not_seen]
    values, origins = said_of(fields, circuit)
    values = {name: value for name, value in usual.items() if name not in unknown} | values
    of = circuit.load or circuit.source
    name = of.value if of else circuit.for_ or f"circuit {number}"
    if circuit.source is not None:
        values[OF_SOURCE] = True
    if LOAD_REPLACED in fields and str(name) in replaced and circuit.load:
        values[LOAD_REPLACED] = True
    if LOAD_PLANNED in fields and circuit.load and str(name) in planned:
        values[LOAD_PLANNED] = True
    facts.add(CIRCUITS, str(name), values, owner=panel, quantity=number_of(circuit), origins=origins)


def _feeder(feeder: Any, model: Any, filled: Filled, panels: Iterable[int], sources: list[int]) -> Supply:
    """A feeder, with the facts of what it feeds."""
    kept, kind = _kept(feeder.feeds, filled), UNIT if isinstance(feeder.feeds, Said) else PART
    kept[PANELS], kept[SOURCES] = list(panels), sources
    kept[CIRCUITS] = _where(filled.facts, CIRCUITS, lambda position, owner: owner in kept[PANELS])
    facts = _facts(feeder, model, filled, {name: kept[name] for name in kept if name in filled.facts.collections})
    if kind == PART and kept[UNITS]:
        _say_circuits(feeder.feeds, facts)
    moved = {old: new for new, old in enumerate(kept[LOADS])}
    names = set(facts.collections[LOADS].names)
    return Supply(
        plain(feeder.name).replace(" ", "_"),
        _title(str(feeder.name), facts),
        kind,
        facts,
        [moved[position] for position in filled.planned if position in moved],
        [pair for pair in filled.replaced if not names.isdisjoint(pair)],
        {moved[position]: settings for position, settings in filled.settings.items() if position in moved},
        [pair for pair in filled.gone if pair[0] in names],
        suspected_of(feeder.conductors, facts.glossary),
    )


def _title(name: str, facts: Facts) -> str:
    """What a feeder is called on sheets, with what it is where its name does not say that."""
    what = DISCONNECT if facts.objects[SUPPLY].get(IS_SERVICE) is True else FEEDER
    return f"{name[:1].upper()}{name[1:]}" if what.split()[-1] in plain(name).split() else f"{what.capitalize()} {name}"


def _facts(feeder: Any, model: Any, filled: Filled, kept: Kept) -> Facts:
    system: Said = feeder.system or model.service.system
    facts = filled.facts.part(kept, lines_of(system.value), apart=(SUPPLY,), once=(UNITS,))
    unit = isinstance(feeder.feeds, Said)
    follows = {IS_SERVICE: False, WHOLE_DWELLING: unit, PART_OF_DWELLING: not unit}
    fill_supply(Form(feeder, system, getattr(model, "work", None), feeder.name, follows), facts)
    say_legs(facts, [filled.names[position] for position in kept[LOADS]])
    return facts


def _kept(feeds: Any, filled: Filled) -> Kept:
    """What a feeder feeds: a dwelling unit with all that is in it, or a part."""
    facts = filled.facts
    if isinstance(feeds, Said):
        unit = feeds.value
        return {
            UNITS: [unit],
            AREAS: _where(facts, AREAS, lambda position, owner: owner == unit),
            LOADS: _where(facts, LOADS, lambda position, owner: owner == unit),
        }
    named = {load.value for load in feeds.loads}
    areas = sorted(filled.areas[plain(area.value)] for area in feeds.areas)
    loads = [position for position, name in enumerate(facts.collections[LOADS].names) if name in named]
    return {UNITS: _unit_of(feeds, areas, loads, facts), AREAS: areas, LOADS: loads}


def _where(facts: Facts, collection: str, wanted: Callable[[int, int], bool]) -> list[int]:
    """The positions of the items that are wanted, by position and owner."""
    items = facts.collections.get(collection)
    return [position for position, owner in enumerate(items.owner) if wanted(position, owner)] if items else []


def _unit_of(feeds: Any, areas: list[int], loads: list[int], facts: Facts) -> list[int]:
    """The dwelling unit that a part is of, where it holds areas or circuits of it."""
    if not areas and not feeds.has_circuits:
        return []
    owners = [facts.collections[AREAS].owner[area] for area in areas]
    owners += [facts.collections[LOADS].owner[load] for load in loads]
    return sorted({owner for owner in owners if owner != HOUSE})


def _say_circuits(feeds: Any, facts: Facts) -> None:
    """The circuits of a part of a dwelling unit: those that it is said to have, and no others."""
    units = facts.collections[UNITS]
    for name, declared in facts.glossary.collections[UNITS].fields.items():
        if declared.kind.form != QUANTITY:
            continue
        said: Said | None = getattr(feeds, name)
        facts.origins.pop((UNITS, 0, name), None)
        if said is None:
            units.fields[name][0] = float(0)
        elif said.value is None:
            units.fields[name][0] = Unknown([f"{units.names[0]}: {spaced(name)}"])
        else:
            units.fields[name][0] = said.value
            facts.origins[UNITS, 0, name] = origin_of(said)
