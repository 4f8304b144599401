"""From the checked models of a home file to facts: every value with the text that it was read from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from dwellcalc.facts import Facts, Origin
from dwellcalc.glossary import Field, LoadKind

from .context import ONE_UNIT
from .models import CONDUCTOR, FOLLOWS_FROM_FORM, FROM_KIND, FROM_SYSTEM
from .names import plain
from .ratings import SETTING, Rating
from .values import BY_KIND, Said

NEW_WORK, STATE_IN_NEW_WORK = "new", "to_be_installed"
EXISTING, PLANNED = "existing", "planned"
UNLESS_SAID = "unless said"
HOME, SUPPLY, UNITS, AREAS, LOADS = "home", "supply", "dwelling_units", "areas", "loads"
LINES, PAIRS = "line_conductors", "line_pairs"

Values = dict[str, Any]
Origins = dict[str, Origin]


@dataclass
class Filled:
    """Facts, and what of the home is not a fact by itself."""

    facts: Facts
    planned: list[int] = field(default_factory=list)
    replaced: list[tuple[str, str]] = field(default_factory=list)
    settings: dict[int, list[float]] = field(default_factory=dict)


def fill(model: Any, facts: Facts) -> Filled:
    """Fill empty facts from the model of a home."""
    filled = Filled(facts)
    for name, declared in facts.glossary.objects[HOME].items():
        _set_said(facts, HOME, declared, getattr(model, name))
    _fill_supply(model, facts)
    (unit,) = model.dwelling_units
    position = _add_unit(unit, facts)
    for area in unit.areas:
        _add_area(area, facts, position)
    for load in unit.loads:
        _add_load(load, filled, position, EXISTING)
    for load in model.planned:
        filled.planned.append(_add_load(load, filled, position, PLANNED))
        _replace(load, filled)
    return filled


def _origin(said: Said | Rating, evidence: str = "") -> Origin:
    return Origin(str(said.text), said.text.place, evidence)


def _set_said(facts: Facts, owner: str, declared: Field, said: Said | None) -> None:
    if said is not None and said.value is not None:
        facts.set(owner, declared.name, said.value, _origin(said))


def _said(fields: Mapping[str, Field], model: Any) -> tuple[Values, Origins]:
    """The values of an item that are simply said, with their origins."""
    values: Values = {}
    origins: Origins = {}
    for name in fields:
        said = getattr(model, name, None)
        if isinstance(said, Said) and said.value is not None:
            values[name], origins[name] = said.value, _origin(said)
    return values, origins


def _fill_supply(model: Any, facts: Facts) -> None:
    service = model.service
    for name, declared in facts.glossary.objects[SUPPLY].items():
        said = _of_service(service, name)
        if said is None or said.not_seen:
            _assume(facts, declared, model)
        elif name != FROM_SYSTEM:
            _set_said(facts, SUPPLY, declared, said)
    _fill_system(service, facts)


def _of_service(service: Any, name: str) -> Said | None:
    """What the service or its conductors say of a field of the supply."""
    if name.startswith(CONDUCTOR):
        return getattr(service.conductors, name.removeprefix(CONDUCTOR), None)
    return getattr(service, name, None)


def _assume(facts: Facts, declared: Field, model: Any) -> None:
    """What holds unless said otherwise; with one unit and one service, some of it follows from the form."""
    word, like = declared.unless_said, model.service.system.text
    work = getattr(model, "work", None)
    if declared.name == "state" and work is not None and work.value == NEW_WORK:
        word, like = STATE_IN_NEW_WORK, work.text
    if word:
        origin = Origin("", like.place, assumed=declared.name not in FOLLOWS_FROM_FORM)
        facts.set(SUPPLY, declared.name, facts.glossary.value(declared.kind, word), origin)


def _fill_system(service: Any, facts: Facts) -> None:
    system, origin = service.system.value, _origin(service.system)
    for name, value in system.fields.items():
        facts.set(SUPPLY, name, value, origin)
    for line in system.line_conductors:
        facts.add(LINES, f"Line {line}", {})
    for pair in system.line_pairs:
        facts.add(PAIRS, f"Lines {'-'.join(pair.split())}", {})
    insulation = getattr(service.conductors, "insulation", None)
    if insulation is not None:
        facts.origins[SUPPLY, -1, "insulation"] = Origin(str(insulation), insulation.place)


def _add_unit(unit: Any, facts: Facts) -> int:
    values, origins = _said(facts.glossary.collections[UNITS].fields, unit)
    return facts.add(UNITS, str(unit.name or ONE_UNIT), values, origins=origins)


def _add_area(area: Any, facts: Facts, unit: int) -> None:
    values, origins = _said(facts.glossary.collections[AREAS].fields, area)
    name = area.name or f"area {len(facts.collections[AREAS]) + 1}"
    facts.add(AREAS, str(name), values, owner=unit, origins=origins)


def _add_load(load: Any, filled: Filled, unit: int, status: str) -> int:
    facts = filled.facts
    evidence = load.evidence.value if load.evidence else ""
    values, origins = _flags(load, facts, evidence)
    rated, rated_origins = _rated(load, evidence)
    values.update(rated)
    origins.update(rated_origins)
    values |= {FROM_KIND: load.kind.value.name, "status": status, "replaced": False, "legs_said": bool(load.legs)}
    origins[FROM_KIND] = _origin(load.kind)
    quantity = load.quantity.value if load.quantity else float(1)
    position = facts.add(LOADS, str(load.name), values, owner=unit, quantity=quantity, origins=origins)
    if load.settings:
        filled.settings[position] = [said.value for said in load.settings]
    if load.legs:
        _connect(load.legs.value, facts, position, quantity)
    return position


def _flags(load: Any, facts: Facts, evidence: str) -> tuple[Values, Origins]:
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
            values[name], origins[name] = said.value, _origin(said, evidence)
    return values, origins


def _rated(load: Any, evidence: str) -> tuple[Values, Origins]:
    """What the rating fills, or the largest of the settings, which hold before the rating."""
    values: Values = {}
    origins: Origins = {}
    if isinstance(load.rating, Rating):
        values = {"basis": load.rating.basis, **load.rating.values}
        origins = dict.fromkeys(values, _origin(load.rating, evidence))
    else:
        origins = {"basis": Origin("unknown", load.name.place, evidence)}
    if load.settings:
        set_to = {"basis": SETTING, SETTING: max(said.value for said in load.settings)}
        written = ", ".join(said.text for said in load.settings)
        values |= set_to
        origins |= dict.fromkeys(set_to, Origin(written, load.settings[0].text.place, evidence))
    return values, origins


def _connect(legs: tuple[str, ...], facts: Facts, load: int, quantity: float) -> None:
    """Connect a load to line conductors, and to the pairs that lie wholly among them."""
    lines, pairs = facts.collections[LINES].names, facts.collections[PAIRS].names
    wanted = {f"Line {leg}" for leg in legs}
    for position, name in enumerate(lines):
        if name in wanted:
            facts.connected[LINES][position].append((load, quantity))
    for position, name in enumerate(pairs):
        if set(name.removeprefix("Lines ").split("-")) <= set(legs):
            facts.connected[PAIRS][position].append((load, quantity))


def _replace(load: Any, filled: Filled) -> None:
    loads = filled.facts.collections[LOADS]
    positions = {plain(name): position for position, name in enumerate(loads.names)}
    for replaced in load.replaces:
        position = positions[plain(replaced.value)]
        loads.fields["replaced"][position] = True
        filled.facts.origins[LOADS, position, "replaced"] = _origin(replaced)
        filled.replaced.append((str(load.name), loads.names[position]))
