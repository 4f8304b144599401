"""From the checked models of a home file to facts: every value with the text that it was read from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from dwellcalc.facts import Facts, Origin
from dwellcalc.glossary import Field, LoadKind, System
from dwellcalc.placed import Text

from .carried import connect_carried
from .connecting import connect, say_legs
from .context import HOUSE, ONE_UNIT
from .evidence import evidence_of
from .glossary_names import (
    AREA_STATUS,
    AREAS,
    CARRIES,
    CONNECTION,
    FROM_KIND,
    FROM_RATING,
    HOME,
    HOUSE_LOAD,
    IS_SERVICE,
    LATER,
    LEGS_SAID,
    LIKE_FOR_LIKE,
    LOADS,
    NEVER_TOGETHER,
    ON_CIRCUIT,
    PART_OF_DWELLING,
    THREE_PHASE,
    TURN,
    UNITS,
    WHOLE_DWELLING,
)
from .legs import by_voltage
from .names import plain
from .never_together import connect_never_together
from .ratings import SETTING, TYPICAL, Rating
from .stated import Origins, Values, origin_of, said_of, set_said
from .supply_filling import Form, add_lines, fill_supply
from .values import BY_KIND, QUANTITY, UNLESS_SAID, Said

EXISTING, PLANNED = "existing", "planned"


@dataclass
class Filled:
    """Facts, and what of the home is not a fact by itself.

    Attributes:
        facts: the facts of the service.
        system: its supply system.
        names: the names of the loads as they are written, by position.
        areas: the positions of the areas that were given a name, by plain name.
        planned: the positions of the planned loads.
        replaced: (planned load, load that it takes the place of), by name.
        settings: for each load that can be set, by position, its settings.
        wanted: the setting of those that is wanted, by position.
        free: the positions of the loads of which every whole ampere of a range is a setting.
        priorities: for each planned load that has one, by position, which goes first.
        later: the loads that come later and are not counted, each with those that it takes the place of then, by name.
        later_settings: for each of them that can be set, by position, its settings.
    """

    facts: Facts
    system: System | None = None
    names: list[Text] = field(default_factory=list)
    areas: dict[str, int] = field(default_factory=dict)
    planned: list[int] = field(default_factory=list)
    replaced: list[tuple[str, str]] = field(default_factory=list)
    gone: list[tuple[str, str]] = field(default_factory=list)
    settings: dict[int, list[float]] = field(default_factory=dict)
    wanted: dict[int, float] = field(default_factory=dict)
    free: list[int] = field(default_factory=list)
    priorities: dict[int, float] = field(default_factory=dict)
    later: dict[str, list[str]] = field(default_factory=dict)
    later_settings: dict[int, list[float]] = field(default_factory=dict)


def fill(model: Any, facts: Facts) -> Filled:
    """Fill empty facts from the model of a home, all but its panels."""
    filled = Filled(facts, model.service.system.value)
    for name, declared in facts.glossary.objects[HOME].items():
        if declared.unless_said:
            facts.set(HOME, name, facts.glossary.value(declared.kind, declared.unless_said))
        set_said(facts, HOME, declared, getattr(model, name))
    _fill_service(model, facts)
    for unit in model.dwelling_units:
        position = _add_unit(unit, facts)
        for area in unit.areas:
            _add_area(area, filled, position)
        for load in unit.loads:
            _add_load(load, filled, position, EXISTING)
    for load in model.loads:
        _add_load(load, filled, HOUSE, EXISTING)
    for load in model.planned:
        position = _add_load(load, filled, load.in_, PLANNED)
        if comes_later(load):
            filled.later[str(load.name)] = [str(each.value) for each in load.replaces if each.value is not None]
            continue
        filled.planned.append(position)
        if load.priority:
            filled.priorities[position] = load.priority.value
        _replace(load, filled)
    connect_never_together(model, facts)
    connect_carried(model, facts)
    say_legs(facts, filled.names)
    return filled


def _fill_service(model: Any, facts: Facts) -> None:
    """The supply of the service; with one dwelling unit it carries all of it."""
    one = sum(number_of(unit) for unit in model.dwelling_units) == 1
    follows = {IS_SERVICE: True, WHOLE_DWELLING: one, PART_OF_DWELLING: False}
    system: Said = model.service.system
    fill_supply(Form(model.service, system, getattr(model, "work", None), system.text, follows), facts)
    add_lines(system.value, facts)


def comes_later(load: Any) -> bool:
    """Whether a planned load is said to come later, so that it is not counted."""
    said = getattr(load, LATER, None)
    return isinstance(said, Said) and said.value is True


def number_of(item: Any) -> float:
    """How many equal ones an entry of the file stands for."""
    return float(item.quantity.value if item.quantity else 1)


def _add_unit(unit: Any, facts: Facts) -> int:
    values, origins = said_of(facts.glossary.collections[UNITS].fields, unit)
    return facts.add(UNITS, str(unit.name or ONE_UNIT), values, quantity=number_of(unit), origins=origins)


def _add_area(area: Any, filled: Filled, unit: int) -> None:
    facts = filled.facts
    fields = facts.glossary.collections[AREAS].fields
    values, origins = said_of(fields, area)
    values.setdefault(AREA_STATUS, EXISTING)
    evidence = str(area.evidence.value) if area.evidence else ""
    origins = {
        name: replace(each, evidence=evidence) if fields[name].kind.form == QUANTITY else each for name, each in origins.items()
    }
    name = area.name or f"area {len(facts.collections[AREAS]) + 1}"
    position = facts.add(AREAS, str(name), values, owner=unit, origins=origins)
    if area.name:
        filled.areas.setdefault(plain(area.name), position)


def _add_load(load: Any, filled: Filled, unit: int, status: str) -> int:
    facts = filled.facts
    evidence = evidence_of(load).of(FROM_RATING)
    values, origins = _flags(load, facts)
    rated, rated_origins = _rated(load, evidence)
    values.update(rated)
    origins.update(rated_origins)
    _connect_by_voltage(load, filled.system, values, origins, evidence)
    values |= {FROM_KIND: load.kind.value.name, "status": status, "replaced": False, LIKE_FOR_LIKE: False}
    values |= {HOUSE_LOAD: unit == HOUSE, NEVER_TOGETHER: False, TURN: float(0), THREE_PHASE: False}
    values |= {ON_CIRCUIT: False, CARRIES: False}
    values.setdefault(LATER, False)
    origins[FROM_KIND] = origin_of(load.kind)
    quantity = number_of(load)
    if load.legs and load.legs.value:
        origins[LEGS_SAID] = origin_of(load.legs, evidence)
    position = facts.add(LOADS, str(load.name), values, owner=unit, quantity=quantity, origins=origins)
    filled.names.append(load.name)
    if load.settings:
        of = filled.later_settings if comes_later(load) else filled.settings
        of[position] = [said.value for said in load.settings.said]
        filled.free += [position] * load.settings.free
        if load.wanted and not comes_later(load):
            filled.wanted[position] = load.wanted.value
    if load.legs and load.legs.value:
        together = 1 if unit == HOUSE else facts.collections[UNITS].quantity[unit]
        connect(position, load.legs.value.numbers(quantity, together), facts)
    return position


def _flags(load: Any, facts: Facts) -> tuple[Values, Origins]:
    """What the home says of a load, and what its kind says where the home is silent."""
    fields = facts.glossary.collections[LOADS].fields
    kind: LoadKind = load.kind.value
    values: Values = {}
    origins: Origins = {}
    for name, declared in fields.items():
        said, flag = getattr(load, name, None), kind.flags.get(name)
        silent = said is None or (isinstance(said, Said) and said.not_seen)
        if declared.comes_from == FROM_KIND and flag and (silent or flag.how == BY_KIND):
            if flag.how in (BY_KIND, UNLESS_SAID):
                values[name] = facts.glossary.value(declared.kind, flag.word)
                origins[name] = Origin(str(load.kind.text), load.kind.text.place, assumed=flag.how == UNLESS_SAID)
        elif name != FROM_KIND and isinstance(said, Said) and said.value is not None:
            evidence = evidence_of(load)
            word = evidence.of_fact(name) if declared.find and declared.comes_from == FROM_KIND else evidence.of(name)
            values[name], origins[name] = said.value, origin_of(said, word)
    _shown_by_others(fields, values, origins)
    return values, origins


def _shown_by_others(fields: Mapping[str, Field], values: Values, origins: Origins) -> None:
    """What another fact of a load shows is not assumed, such as that what is wired in is permanently connected."""
    for name, declared in fields.items():
        for other, word in declared.yes_where:
            if name in origins and origins[name].assumed and values.get(other) == word and other in origins:
                values[name], origins[name] = True, origins[other]


def _connect_by_voltage(load: Any, system: System | None, values: Values, origins: Origins, evidence: str) -> None:
    """What the voltage on the nameplate says of the connection goes before what the kind only assumes."""
    flag, said = load.kind.value.flags.get(CONNECTION), getattr(load, CONNECTION, None)
    by_kind = flag is None or flag.how == BY_KIND
    if by_kind or load.legs or not isinstance(load.rating, Rating) or (said is not None and not said.not_seen):
        return
    word = by_voltage(str(flag.word) if flag.how == UNLESS_SAID else "", load.rating, system)
    if word:
        values[CONNECTION], origins[CONNECTION] = word, origin_of(load.rating, evidence)


def _rated(load: Any, evidence: str) -> tuple[Values, Origins]:
    """What the rating fills, or the largest of the settings, which hold before the rating."""
    values: Values = {}
    origins: Origins = {}
    if isinstance(load.rating, Rating):
        values = {"basis": load.rating.basis, **load.rating.values}
        origins = dict.fromkeys(values, origin_of(load.rating, evidence))
    else:
        said = load.rating.text if load.rating is not None else load.name
        origins = {"basis": Origin(TYPICAL if plain(said) == TYPICAL else "unknown", said.place, evidence)}
    if load.settings:
        said = load.settings.said
        set_to = {"basis": SETTING, SETTING: max(each.value for each in said)}
        written = ", ".join(dict.fromkeys(each.text for each in said))
        values |= set_to
        origins |= dict.fromkeys(set_to, Origin(written, said[0].text.place, evidence))
    return values, origins


def _replace(load: Any, filled: Filled) -> None:
    loads = filled.facts.collections[LOADS]
    for replaced in load.replaces:
        if replaced.value is None:
            filled.gone.append((str(load.name), str(replaced.text)))
            continue
        position = loads.names.index(replaced.value)
        loads.fields["replaced"][position] = True
        _note_like(load, position, loads.fields)
        filled.facts.origins[LOADS, position, "replaced"] = origin_of(replaced)
        filled.replaced.append((str(load.name), loads.names[position]))


def _note_like(load: Any, replaced: int, fields: dict[str, list[Any]]) -> None:
    """Note that the load last added takes the place of one of its own kind."""
    if LIKE_FOR_LIKE in fields and fields[FROM_KIND][replaced] == load.kind.value.name:
        fields[LIKE_FOR_LIKE][-1] = True
