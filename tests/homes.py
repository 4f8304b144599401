"""Homes as plain dicts, random ones among them, and the facts made from them."""

from __future__ import annotations

import random
from collections.abc import Iterable
from typing import Any

from dwellcalc.facts import Facts
from dwellcalc.glossary import Glossary

SYSTEMS = ("120/240 V single-phase 3-wire", "208Y/120 V single-phase 3-wire")
FROM_SYSTEM = ("system", "voltage", "line_to_neutral_voltage", "phase_factor")
HORSEPOWER = (1 / 6, 1 / 4, 1 / 3, 1 / 2, 3 / 4, 1.0, 1.5, 2.0, 3.0, 5.0)

SET = ("setting", "control_setting")  # the bases of a rating that is set


def load(glossary: Glossary, kind: str, name: str = "", **said: Any) -> dict[str, Any]:
    """A load of a kind with its flags as the kind has them; what is asked for is `no` or the first word."""
    fields = glossary.collections["loads"].fields
    made: dict[str, Any] = {
        "name": name or kind,
        "kind": kind,
        "quantity": 1.0,
        **{name: glossary.value(field.kind, field.unless_said) for name, field in fields.items() if field.unless_said},
    }
    for flag, says in glossary.load_kinds[kind].flags.items():
        word = says.word or glossary.words(fields[flag].kind)[0]
        made[flag] = glossary.value(fields[flag].kind, word)
    return {**made, **said}


def house(glossary: Glossary, loads: list[dict[str, Any]], *, area: float = 1500.0, **said: Any) -> dict[str, Any]:
    """A one-family house as a plain dict."""
    made = {
        "system": SYSTEMS[0],
        "voltage": 240.0,
        "rating": 200.0,
        "areas": [{"area_kind": "living", "area": area}],
        "small_appliance_circuits": 2.0,
        "laundry_circuits": 1.0,
        "loads": loads,
    }
    return {**made, **said}


def facts_of(glossary: Glossary, home: dict[str, Any]) -> Facts:
    """The facts of a plain house."""
    facts = Facts.empty(glossary)
    for name, value in glossary.systems[home["system"]].fields.items():
        facts.set("supply", name, value)
    supply = {
        "state": "existing",
        "whole_dwelling": True,
        "part_of_dwelling": False,
        "service": True,
        "terminals": "t75",
        "rating": home["rating"],
    }
    supply |= {name: home[name] for name in glossary.objects["supply"] if name in home and name not in FROM_SYSTEM}
    for name, value in supply.items():
        if value is not None:
            facts.set("supply", name, value)
    facts.set("home", "manufactured_home", home.get("manufactured_home", False))
    for line in glossary.systems[home["system"]].line_conductors:
        facts.add("line_conductors", line, {})
    for pair in glossary.systems[home["system"]].line_pairs:
        facts.add("line_pairs", pair, {})
    for source in home.get("sources", ()):
        facts.add("sources", source["name"], source)
    for unit in units_of(home):
        circuits = {name: unit[name] for name in ("small_appliance_circuits", "laundry_circuits")}
        owner = facts.add("dwelling_units", unit.get("name", "house"), circuits, quantity=unit.get("quantity", 1.0))
        for at, each in enumerate(unit["areas"]):
            facts.add("areas", f"area {at}", each, owner=owner)
        add_loads(facts, unit["loads"], owner)
    add_loads(facts, home.get("house_loads", ()), -1)
    declare_never_together(facts, home.get("never_together", ()))
    return facts


def units_of(home: dict[str, Any]) -> list[dict[str, Any]]:
    """The dwelling units of a plain home: those that it lists, or the house itself."""
    return home.get("units") or [home]


def add_loads(facts: Facts, loads: Iterable[dict[str, Any]], owner: int) -> None:
    """Add loads; one that says ``on_lines`` is connected to these lines."""
    fields, lines = facts.collections["loads"].fields, facts.collections["line_conductors"].names
    for each in loads:
        values = {name: value for name, value in each.items() if name in fields}
        at = facts.add("loads", each["name"], values, owner=owner, quantity=each["quantity"])
        for leg in each.get("on_lines", ()):
            facts.connected["line_conductors"][lines.index(leg)].append((at, each["quantity"]))


def declare_never_together(facts: Facts, sets: Iterable[list[str]]) -> None:
    """Connect the loads of each set to one another; the one that is named first has the highest turn."""
    loads = facts.collections["loads"]
    for names in sets:
        positions = [loads.names.index(name) for name in names]
        for place, position in enumerate(positions):
            loads.fields["never_together"][position] = True
            loads.fields["turn"][position] = float(len(names) - place)
            facts.connected["loads"][position] += [(other, 1.0) for other in positions if other != position]


def random_rating(chance: random.Random) -> dict[str, Any]:
    """A rating in a random basis, never zero."""
    basis = chance.choice(
        ("watts", "volt_amperes", "amperes", "minimum_circuit_ampacity", "rated_load_and_fan", "horsepower", *SET)
    )
    volts = chance.choice((115.0, 120.0, 208.0, 230.0, 240.0))
    if basis in ("watts", "volt_amperes"):
        return {"basis": basis, basis: chance.uniform(300, 12000)}
    if basis in ("amperes", "minimum_circuit_ampacity"):
        return {"basis": basis, "marked_amperes": chance.uniform(2, 40), "volts": volts}
    if basis == "rated_load_and_fan":
        return {
            "basis": basis,
            "rated_load_amperes": chance.uniform(5, 30),
            "fan_amperes": chance.uniform(0.5, 3),
            "volts": volts,
        }
    if basis in SET:
        return {"basis": basis, basis: chance.choice((16.0, 24.0, 32.0, 40.0, 48.0))}
    return {"basis": basis, "horsepower": chance.choice(HORSEPOWER), "volts": volts}


def random_house(glossary: Glossary, chance: random.Random) -> dict[str, Any]:
    """A random house: kinds, flags where a kind leaves them free, ratings, areas, circuits, supply."""
    fields = glossary.collections["loads"].fields
    kinds = list(glossary.load_kinds)
    loads = []
    for at in range(chance.randint(3, 22)):
        kind = chance.choice(kinds)
        made = load(glossary, kind, f"load {at}", quantity=float(chance.choice((1, 1, 1, 2, 3, 5))), **random_rating(chance))
        for flag, says in glossary.load_kinds[kind].flags.items():
            if says.how != "is":
                made[flag] = glossary.value(fields[flag].kind, chance.choice(glossary.words(fields[flag].kind)))
        made["replaced"] = chance.random() < 0.05
        loads.append(made)
    area_kinds = glossary.choices["area_kind"]
    areas = [{"area_kind": chance.choice(area_kinds), "area": chance.uniform(80, 1800)} for _ in range(chance.randint(1, 5))]
    system = chance.choice(SYSTEMS)
    voltage = glossary.systems[system].fields["voltage"]
    sizes = glossary.scales["conductor_size"]
    found = house(
        glossary,
        loads,
        system=system,
        voltage=voltage,
        areas=areas,
        rating=chance.choice((60.0, 100.0, 125.0, 150.0, 200.0, 400.0, 600.0)),
        small_appliance_circuits=float(chance.randint(1, 4)),
        laundry_circuits=float(chance.randint(0, 2)),
        whole_dwelling=chance.random() < 0.9,
        part_of_dwelling=chance.random() < 0.2,
        service=chance.random() < 0.9,
        state=chance.choice(("existing", "to_be_installed")),
    )
    if chance.random() < 0.7:
        found["conductor_size"] = chance.randrange(2, len(sizes))
        found["conductor_material"] = chance.choice(("copper", "aluminum"))
        found["terminals"] = chance.choice(("t60", "t75"))
    if chance.random() < 0.6:
        found["bus"] = chance.choice((100.0, 125.0, 200.0, 225.0))
    return found | random_conditions(glossary, chance)


def random_conditions(glossary: Glossary, chance: random.Random) -> dict[str, Any]:
    """What else may be said of a supply, each now and then: its conductors, meter, disconnects and electrodes."""
    found: dict[str, Any] = {
        "conductor_sets": float(chance.randint(1, 3)),
        "conductor_insulation": chance.choice(glossary.choices["insulation"]),
        "conductor_ambient_temperature": chance.choice((8.0, 25.0, 30.0, 31.0, 38.0, 45.0, 55.0)),
        "conductor_number_together": float(chance.choice((2, 3, 4, 6, 7, 12, 24))),
        "meter": chance.choice((100.0, 200.0, 320.0)),
        "center_fed": chance.random() < 0.5,
    }
    found |= {f"{each}_electrode": chance.random() < 0.5 for each in ("rod", "concrete_encased", "water_pipe")}
    found = {name: value for name, value in found.items() if chance.random() < 0.4}
    if chance.random() < 0.2:
        found |= {"main_overcurrent_device": False}
        found |= {"disconnects": chance.choice((100.0, 160.0, 400.0)), "number_of_disconnects": chance.choice((2.0, 6.0, 7.0))}
    if chance.random() < 0.3:
        current = chance.choice((16.0, 24.0, 32.0, 48.0))
        source = {
            "name": "roof",
            "output_current": current,
            "source_breaker": 1.25 * current,
            "opposite_end": chance.random() < 0.7,
        }
        found["sources"] = [source]
    return found
