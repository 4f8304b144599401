"""The supplies of a home: several dwelling units, house loads, legs with counts, feeders with what they feed, panels."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.facts import Facts, Origin, Unknown
from dwellcalc.glossary import Glossary
from dwellcalc.home import Home, Supply, home_from_text, read_home
from dwellcalc.language.rule_set import load_rules, read_glossary

DEMO = Path(__file__).parents[1] / "worked_examples" / "demo"


@pytest.fixture(scope="module")
def glossary() -> Glossary:
    return read_glossary(None)


def read(glossary: Glossary, text: str) -> Home:
    return home_from_text(text, "alder.yaml", glossary)


def items(facts: Facts, collection: str) -> list[tuple[str, float, int]]:
    """Name, quantity and owner of each item."""
    found = facts.collections[collection]
    return list(zip(found.names, found.quantity, found.owner, strict=True))


def field(facts: Facts, collection: str, name: str, each: str) -> Any:
    found = facts.collections[collection]
    return found.fields[each][found.names.index(name)]


def on_lines(facts: Facts, collection: str) -> dict[str, list[tuple[str, float]]]:
    """What is connected to what, by name."""
    loads = facts.collections["loads"].names
    lines = facts.collections[collection].names
    return {
        line.partition(" ")[2]: [(loads[load], count) for load, count in each]
        for line, each in zip(lines, facts.connected[collection], strict=True)
    }


def form(supply: Supply) -> tuple[object, object, object]:
    """Whether it is a service, carries a whole dwelling, is a part of one."""
    fields = supply.facts.objects["supply"]
    return fields["service"], fields["whole_dwelling"], fields["part_of_dwelling"]


def whole(supply: Supply) -> None:
    """What holds of the facts of any supply."""
    facts = supply.facts
    for name, found in facts.collections.items():
        declared = facts.glossary.collections[name]
        above = [len(facts.collections[each]) for each in declared.of if each in facts.collections]
        assert all(-1 <= owner < (above[0] if above else 0) for owner in found.owner)
        assert len(found.quantity) == len(found.owner) == len(found)
        assert all(len(column) == len(found) for column in found.fields.values())
    for (owner, position, _), _origin in facts.origins.items():
        assert owner in facts.objects if position < 0 else position < len(facts.collections[owner])
    for name, lines in facts.connected.items():
        assert len(lines) == len(facts.collections[name])
        assert all(load < len(facts.collections["loads"]) for line in lines for load, _ in line)
    assert all(position < len(facts.collections["loads"]) for position in [*supply.planned, *supply.settings])


# --- sources, and a service whose disconnects are supplies of their own

WITHOUT_MAIN = """\
home: 12 Alder Row
service: {system: 120/240 V single-phase 3-wire, main overcurrent device: no}
dwelling units:
  - areas: [{name: rooms, kind: living, area: 2100 ft2}]
    small appliance circuits: 2
    laundry circuits: 1
    loads: [{name: range, kind: range, rating: 11 kW}, {name: shop heater, kind: space heater, rating: 3 kW}]
feeders:
  - {name: main 1, service disconnect: yes, rating: 150 A, feeds: {areas: [rooms], loads: [range]}}
  - {name: main 2, service disconnect: yes, rating: 60 A, feeds: {loads: [shop heater]}}
sources:
  - {name: roof, output current: 24 A, breaker: 30 A, opposite end: yes, on: main 1}
  - {name: battery, output current: 20 A, opposite end: no}
panels:
  - {name: panel, on: main 1, spaces: 20, circuits: [{breaker: 30 A, poles: 2, source: Roof}, {breaker: 50 A, poles: 2, load: range}]}
"""


def test_a_service_without_a_main_has_the_disconnects_that_are_supplies(glossary: Glossary) -> None:
    service, first, second = read(glossary, WITHOUT_MAIN).supplies
    fields = service.facts.objects["supply"]
    assert (fields["disconnects"], fields["number_of_disconnects"]) == (210.0, 2.0)
    assert all(isinstance(each.facts.objects["supply"]["disconnects"], Unknown) for each in (first, second))
    for said, unknown in (("main overcurrent device: no", "rating: 200 A"), ("rating: 60 A, ", "")):
        facts = read(glossary, WITHOUT_MAIN.replace(said, unknown)).facts
        assert isinstance(facts.objects["supply"]["disconnects"], Unknown)


def test_sources_are_on_the_bus_that_they_feed_and_on_that_of_the_service(glossary: Glossary) -> None:
    supplies = read(glossary, WITHOUT_MAIN).supplies
    assert [[name for name, _, _ in items(each.facts, "sources")] for each in supplies] == [["roof", "battery"], ["roof"], []]
    service, first, _ = (each.facts for each in supplies)
    assert field(first, "sources", "roof", "opposite_end") is True
    assert isinstance(field(service, "sources", "roof", "opposite_end"), Unknown)  # the breaker of the feeder is another one
    assert field(service, "sources", "battery", "opposite_end") is False
    assert isinstance(field(service, "sources", "battery", "source_breaker"), Unknown)
    assert [field(service, "circuits", name, "of_source") for name in ("roof", "range")] == [True, False]
    for each in supplies:
        whole(each)


# --- a duplex

DUPLEX = """\
home: 3 and 5 Alder Row, duplex
service: {system: 120/240 V single-phase 3-wire, rating: 200 A, terminals: 60 C}
dwelling units:
  - name: unit A
    areas: [{name: rooms, kind: living, area: 1100 ft2}, {kind: open porch, area: 60 ft2}]
    small appliance circuits: 2
    laundry circuits: 1
    loads:
      - {name: range A, kind: range, rating: 11 kW, evidence: nameplate}
      - {name: fridge A, kind: refrigerator, rating: 6 A at 120 V, legs: A, individual circuit: yes}
  - name: unit B
    areas: [{name: rooms, kind: living, area: 1200 ft2}]
    small appliance circuits: 3
    laundry circuits: 1
    loads:
      - {name: fridge B, kind: refrigerator, rating: 6 A at 120 V, legs: b, evidence: told}
      - {name: furnace B, kind: electric furnace, rating: 10 kW}
feeders:
  - {name: Feeder-B, feeds: Unit B, rating: 100 A, conductors: {size: 4 AWG, material: copper, insulation: THHN}}
  - {name: feeder to A, feeds: unit A, state: to be installed, conductors: not seen}
planned:
  - {name: heat pump, kind: heat pump, rating: 20 A at 240 V, in: unit B, replaces: furnace b}
  - {name: charger A, kind: EVSE, settings: [16 A, 32 A], in: unit A}
"""


@pytest.fixture(scope="module")
def duplex(glossary: Glossary) -> Home:
    return read(glossary, DUPLEX)


def test_a_duplex_has_three_supplies(duplex: Home) -> None:
    told = [(supply.id, supply.title, supply.kind) for supply in duplex.supplies]
    assert told == [
        ("service", "Service", "service"),
        ("feeder_b", "Feeder-B", "unit"),
        ("feeder_to_a", "Feeder to A", "unit"),
    ]
    assert [form(supply) for supply in duplex.supplies] == [
        (True, False, False),
        (False, True, False),
        (False, True, False),
    ]
    for supply in duplex.supplies:
        whole(supply)


def test_the_home_itself_bears_what_is_of_the_service(duplex: Home) -> None:
    service = duplex.supplies[0]
    assert service.facts is duplex.facts
    assert (service.planned, service.replaced) == (duplex.planned, duplex.replaced)
    assert service.settings is duplex.settings


def test_the_service_of_a_duplex_carries_all(duplex: Home) -> None:
    facts = duplex.facts
    assert items(facts, "dwelling_units") == [("unit A", 1.0, -1), ("unit B", 1.0, -1)]
    assert items(facts, "areas") == [("rooms", 1.0, 0), ("area 2", 1.0, 0), ("rooms", 1.0, 1)]
    assert [(name, owner) for name, _, owner in items(facts, "loads")] == [
        ("range A", 0),
        ("fridge A", 0),
        ("fridge B", 1),
        ("furnace B", 1),
        ("heat pump", 1),
        ("charger A", 0),
    ]
    assert (duplex.planned, duplex.settings) == ([4, 5], {5: [16.0, 32.0]})


def test_a_feeder_carries_its_unit_alone(duplex: Home) -> None:
    supply = duplex.supplies[1]
    facts = supply.facts
    assert items(facts, "dwelling_units") == [("unit B", 1.0, -1)]
    assert items(facts, "areas") == [("rooms", 1.0, 0)]
    assert field(facts, "areas", "rooms", "area") == 1200.0
    assert items(facts, "loads") == [("fridge B", 1.0, 0), ("furnace B", 1.0, 0), ("heat pump", 1.0, 0)]
    assert field(facts, "loads", "furnace B", "replaced") is True
    assert (supply.planned, supply.replaced, supply.settings) == ([2], [("heat pump", "furnace B")], {})
    other = duplex.supplies[2]
    assert (other.planned, other.replaced, other.settings) == ([2], [], {2: [16.0, 32.0]})


def test_a_feeder_has_its_own_supply(duplex: Home, glossary: Glossary) -> None:
    supply, origins = duplex.supplies[1].facts.objects["supply"], duplex.supplies[1].facts.origins
    assert (supply["rating"], supply["state"], supply["terminals"]) == (100.0, "existing", "t75")
    assert isinstance(supply["bus"], Unknown)
    assert glossary.scales["conductor_size"][supply["conductor_size"]] == "4"
    assert origins["supply", -1, "conductor_insulation"].written == "THHN"
    assert (origins["supply", -1, "state"].assumed, origins["supply", -1, "terminals"].assumed) == (True, True)
    assert str(origins["supply", -1, "terminals"].place) == "alder.yaml:19:12"
    assert (origins["supply", -1, "system"].written, str(origins["supply", -1, "system"].place)) == (
        "120/240 V single-phase 3-wire",
        "alder.yaml:2:19",
    )
    for name in ("service", "whole_dwelling", "part_of_dwelling"):
        assert not origins["supply", -1, name].assumed
    other = duplex.supplies[2].facts
    assert other.objects["supply"]["state"] == "to_be_installed"
    assert isinstance(other.objects["supply"]["conductor_size"], Unknown)


def test_origins_go_with_the_items(duplex: Home) -> None:
    facts = duplex.supplies[1].facts
    told = {
        (owner, facts.collections[owner].names[position], name): origin
        for (owner, position, name), origin in facts.origins.items()
        if position >= 0
    }
    assert told["loads", "fridge B", "volts"] == Origin("6 A at 120 V", told["loads", "fridge B", "volts"].place, "told")
    assert str(told["loads", "fridge B", "volts"].place) == "alder.yaml:16:54"
    assert told["loads", "furnace B", "replaced"].written == "furnace b"
    assert told["dwelling_units", "unit B", "small_appliance_circuits"].written == "3"
    assert not any(name.endswith(" A") for _, name, _ in told)


def test_legs_go_with_the_loads(duplex: Home) -> None:
    service, of_b, of_a = (supply.facts for supply in duplex.supplies)
    assert on_lines(service, "line_conductors") == {"A": [("fridge A", 1.0)], "B": [("fridge B", 1.0)]}
    assert on_lines(of_b, "line_conductors") == {"A": [], "B": [("fridge B", 1.0)]}
    assert on_lines(of_a, "line_conductors") == {"A": [("fridge A", 1.0)], "B": []}
    assert (field(of_b, "loads", "fridge B", "legs_said"), field(of_b, "loads", "furnace B", "legs_said")) == (True, False)
    assert of_b.origins["loads", 0, "legs_said"].written == "b"
    assert ("loads", 1, "legs_said") not in of_b.origins


def test_facts_of_a_feeder_are_its_own(duplex: Home) -> None:
    service, feeder = duplex.facts, duplex.supplies[1].facts
    before = service.digest()
    feeder.objects["home"]["occupied"] = True
    feeder.collections["loads"].fields["setting"][0] = 1.0
    feeder.connected["line_conductors"][0].append((0, 1.0))
    assert service.digest() == before


def test_a_feeder_is_calculated_as_its_unit_alone_would_be(glossary: Glossary) -> None:
    rules = load_rules("nec/2023")
    home = read_home(DEMO / "duplex.yaml", rules.glossary)
    alone = (DEMO / "duplex.yaml").read_text(encoding="utf-8").split("  - name: unit B\n")[0]
    expected = home_from_text(alone, "alone.yaml", rules.glossary).facts
    for method in ("standard", "optional_dwelling"):
        totals = []
        for facts in (expected, home.supplies[1].facts):
            evaluation = Evaluation(plan_of(rules), facts)
            totals.append(evaluation.line(rules.methods[method].results["total"]))
        assert totals[0] == totals[1]
        assert isinstance(totals[0], float)


# --- a house with an accessory dwelling

ACCESSORY = """\
home: 8 Sorrel Way, house with a cottage
work: addition
service: {system: 120/240 V single-phase 3-wire, rating: 200 A}
dwelling units:
  - name: house
    areas: [{name: house, kind: living, area: 1700 ft2}]
    loads: [{name: range, kind: range, rating: 12 kW}]
  - name: cottage
    areas: [{name: studio, kind: living, area: 480 ft2}]
    small appliance circuits: 2
loads:
  - {name: gate, kind: other motor, rating: 5 A at 120 V}
planned:
  - {name: hob, kind: range, rating: 7 kW, in: Cottage}
  - {name: charger, kind: EVSE, rating: 32 A at 240 V, in: HOUSE}
feeders:
  - {name: cottage, feeds: cottage, rating: 100 A, state: to be installed}
panels:
  - {name: cottage panel, on: Cottage, spaces: 20, circuits: [{breaker: 40 A, poles: 2, load: HOB}, {breaker: 20 A, poles: 1}]}
  - {name: main panel, on: service, spaces: 30}
"""


def test_a_house_with_an_accessory_dwelling(glossary: Glossary) -> None:
    home = read(glossary, ACCESSORY)
    service, cottage = home.supplies
    for supply in home.supplies:
        whole(supply)
    assert items(service.facts, "loads") == [
        ("range", 1.0, 0),
        ("gate", 1.0, -1),
        ("hob", 1.0, 1),
        ("charger", 1.0, 0),
    ]
    assert (form(service), form(cottage)) == ((True, False, False), (False, True, False))
    assert items(cottage.facts, "loads") == [("hob", 1.0, 0)]
    assert cottage.planned == [0]
    assert field(cottage.facts, "dwelling_units", "cottage", "laundry_circuits").inputs == {"cottage: laundry circuits"}
    assert cottage.facts.objects["home"]["work"] == "addition"
    assert cottage.facts.origins["home", -1, "work"].written == "addition"


def test_the_panels_of_a_feeder_are_also_those_of_the_service(glossary: Glossary) -> None:
    service, cottage = read(glossary, ACCESSORY).supplies
    assert items(service.facts, "panels") == [("cottage panel", 1.0, -1), ("main panel", 1.0, -1)]
    assert items(service.facts, "circuits") == [("hob", 1.0, 0), ("circuit 2", 1.0, 0)]
    assert items(cottage.facts, "panels") == [("cottage panel", 1.0, -1)]
    assert items(cottage.facts, "circuits") == [("hob", 1.0, 0), ("circuit 2", 1.0, 0)]
    assert field(cottage.facts, "panels", "cottage panel", "spaces") == 20.0
    assert cottage.facts.origins["circuits", 1, "breaker"].written == "20 A"


def test_a_planned_load_of_the_house_among_several_units(glossary: Glossary) -> None:
    text = ACCESSORY.replace("name: house\n", "name: main house\n")
    facts = read(glossary, text).facts
    assert items(facts, "loads")[3] == ("charger", 1.0, -1)


def test_what_a_planned_load_replaces_may_be_in_another_unit(glossary: Glossary) -> None:
    home = read(glossary, ACCESSORY.replace("in: Cottage", "in: Cottage, replaces: range"))
    service, cottage = home.supplies
    assert service.replaced == cottage.replaced == [("hob", "range")]
    assert field(service.facts, "loads", "range", "replaced") is True


def test_a_feeder_to_the_only_dwelling_unit(glossary: Glossary) -> None:
    text = "home: flat\nservice: {system: 120/240 V single-phase 3-wire}\n"
    text += "dwelling_units: [{areas: [{kind: living, area: 600 ft2}]}]\nfeeders: [{name: F, feeds: dwelling}]\n"
    service, feeder = read(glossary, text).supplies
    assert (form(service), form(feeder)) == ((True, True, False), (False, True, False))
    assert items(feeder.facts, "areas") == [("area 1", 1.0, 0)]


def test_the_file_may_say_that_the_service_carries_not_all_of_the_dwelling(glossary: Glossary) -> None:
    text = "home: flat\nservice: {system: 120/240 V single-phase 3-wire, whole dwelling: no}\n"
    text += "dwelling_units: [{areas: [{kind: living, area: 600 ft2}]}]\n"
    (service,) = read(glossary, text).supplies
    assert form(service) == (True, False, False)
    assert service.facts.origins["supply", -1, "whole_dwelling"].written == "no"


def test_facts_of_a_form_are_not_among_those_assumed(duplex: Home) -> None:
    for supply in duplex.supplies:
        assumed = {name for owner, name, _ in supply.facts.assumed() if owner == "supply"}
        assert assumed <= {"state", "terminals"}


# --- twelve apartments

APARTMENTS = """\
home: 90 Kiln Street, twelve apartments
work: new
service: {system: 208Y/120 V three-phase 4-wire, rating: 600 A}
dwelling units:
  - name: small
    quantity: 8
    areas: [{name: small rooms, kind: living, area: 700 ft2}]
    small appliance circuits: 2
    laundry circuits: 0
    loads:
      - {name: range, kind: range, rating: 10 kW, legs: {A B: 3, B C: 3, C A: 2}}
      - {name: heaters, kind: other appliance, quantity: 2, rating: 1 kW, legs: {B A: 1, C: 1}}
      - {name: dishwasher, kind: dishwasher, rating: 1.2 kW, legs: B}
  - name: large
    quantity: 4
    areas: [{name: large rooms, kind: living, area: 1000 ft2}]
    small appliance circuits: 2
    laundry circuits: 1
    loads:
      - {name: large range, kind: range, rating: 12 kW, legs: A B}
      - {name: dryer, kind: dryer, rating: 5 kW}
loads:
  - {name: common dryers, kind: dryer, quantity: 3, rating: 5.5 kW, legs: {A B: 1, B C: 1, C A: 1}, evidence: manual}
  - {name: lift, kind: elevator, rating: 10.1 kVA, legs: A B C}
planned:
  - {name: chargers, kind: EVSE, quantity: 4, rating: setting 32 A, in: house, legs: {A B: 2, C A: 2}}
feeders:
  - {name: to small, feeds: small, system: 208Y/120 V single-phase 3-wire, rating: 100 A}
  - {name: to large, feeds: large, rating: 100 A}
panels:
  - name: house panel
    spaces: 24
    circuits:
      - {breaker: 30 A, poles: 2, quantity: 3, load: Common Dryers}
      - {breaker: 50 A, poles: 3, load: lift}
      - {breaker: 20 A, poles: 1, quantity: 6, for: light in the common parts}
      - {breaker: 20 A, poles: unknown, tandem: yes}
      - {tandem: unknown}
"""


@pytest.fixture(scope="module")
def apartments(glossary: Glossary) -> Home:
    home = read(glossary, APARTMENTS)
    for supply in home.supplies:
        whole(supply)
    return home


def test_equal_units_and_house_loads(apartments: Home) -> None:
    facts = apartments.facts
    assert items(facts, "dwelling_units") == [("small", 8.0, -1), ("large", 4.0, -1)]
    assert items(facts, "loads") == [
        ("range", 1.0, 0),
        ("heaters", 2.0, 0),
        ("dishwasher", 1.0, 0),
        ("large range", 1.0, 1),
        ("dryer", 1.0, 1),
        ("common dryers", 3.0, -1),
        ("lift", 1.0, -1),
        ("chargers", 4.0, -1),
    ]
    assert form(apartments.supplies[0]) == (True, False, False)


def test_leg_counts_of_equal_units(apartments: Home) -> None:
    assert on_lines(apartments.facts, "line_pairs") == {
        "A-B": [("range", 3.0), ("heaters", 8.0), ("large range", 4.0), ("common dryers", 1.0), ("lift", 1.0), ("chargers", 2.0)],
        "B-C": [("range", 3.0), ("common dryers", 1.0), ("lift", 1.0)],
        "C-A": [("range", 2.0), ("common dryers", 1.0), ("lift", 1.0), ("chargers", 2.0)],
    }
    assert on_lines(apartments.facts, "line_conductors") == {
        "A": [
            ("range", 5.0),
            ("heaters", 8.0),
            ("large range", 4.0),
            ("common dryers", 2.0),
            ("lift", 1.0),
            ("chargers", 4.0),
        ],
        "B": [
            ("range", 6.0),
            ("heaters", 8.0),
            ("dishwasher", 8.0),
            ("large range", 4.0),
            ("common dryers", 2.0),
            ("lift", 1.0),
            ("chargers", 2.0),
        ],
        "C": [("range", 5.0), ("heaters", 8.0), ("common dryers", 2.0), ("lift", 1.0), ("chargers", 2.0)],
    }


def test_on_three_lines_legs_that_are_not_said_are_assumed(apartments: Home) -> None:
    facts = apartments.facts
    assert facts.collections["loads"].fields["legs_said"] == [True, True, True, True, False, True, True, True]
    assert ("dryer", "legs_said", False) in facts.assumed()
    origin = facts.origins["loads", 5, "legs_said"]
    assert (origin.written, origin.evidence, origin.assumed) == ("A B: 1, B C: 1, C A: 1", "manual", False)
    assert str(origin.place) == "alder.yaml:23:75"


def test_one_feeder_serves_one_of_equal_units(apartments: Home) -> None:
    small, large = (supply.facts for supply in apartments.supplies[1:])
    assert items(small, "dwelling_units") == [("small", 1.0, -1)]
    assert items(small, "loads") == [("range", 1.0, 0), ("heaters", 2.0, 0), ("dishwasher", 1.0, 0)]
    assert items(large, "dwelling_units") == [("large", 1.0, -1)]
    assert [small.objects["supply"][name] for name in ("system", "voltage", "phase_factor")] == ["two_lines_of_wye", 208.0, 1.0]
    assert small.origins["supply", -1, "voltage"].written == "208Y/120 V single-phase 3-wire"
    assert small.objects["supply"]["state"] == "to_be_installed"
    assert form(apartments.supplies[1]) == (False, True, False)


def test_legs_where_the_lines_are_there_and_the_count_of_one_unit_is_known(apartments: Home) -> None:
    small, large = (supply.facts for supply in apartments.supplies[1:])
    assert on_lines(small, "line_pairs") == {"A-B": []}
    assert on_lines(small, "line_conductors") == {"A": [], "B": [("dishwasher", 1.0)]}
    assert small.collections["loads"].fields["legs_said"] == [False, False, True]
    assert ("loads", 0, "legs_said") not in small.origins
    assert on_lines(large, "line_pairs") == {"A-B": [("large range", 1.0)], "B-C": [], "C-A": []}
    assert large.collections["loads"].fields["legs_said"] == [True, False]
    assert large.origins["loads", 1, "legs_said"].assumed


def test_the_house_panel(apartments: Home) -> None:
    facts = apartments.facts
    assert items(facts, "panels") == [("house panel", 1.0, -1)]
    assert items(facts, "circuits") == [
        ("common dryers", 3.0, 0),
        ("lift", 1.0, 0),
        ("light in the common parts", 6.0, 0),
        ("circuit 4", 1.0, 0),
        ("circuit 5", 1.0, 0),
    ]
    fields = facts.collections["circuits"].fields
    assert fields["breaker"][:4] == [30.0, 50.0, 20.0, 20.0]
    assert fields["poles"][:3] == [2.0, 3.0, 1.0]
    assert fields["tandem"][:4] == [False, False, False, True]
    assert fields["poles"][3].inputs == {"circuit 4: poles"}
    assert (fields["breaker"][4].inputs, fields["tandem"][4].inputs) == ({"circuit 5: breaker"}, {"circuit 5: tandem"})
    assert facts.origins["panels", 0, "spaces"].written == "24"
    assert str(facts.origins["circuits", 1, "breaker"].place) == "alder.yaml:35:19"
    assert not any(len(supply.facts.collections["panels"]) for supply in apartments.supplies[1:])


def test_several_units_are_weighed_in_the_calculation(apartments: Home) -> None:
    rules = load_rules("nec/2023")
    standard = rules.methods["standard"]
    evaluation = Evaluation(plan_of(rules), read(rules.glossary, APARTMENTS).facts)
    lines = {name: evaluation.line(line) for name, line in standard.lines.items() if not line.each}
    assert lines["dryers_most_on_pair"] == 1 + 2  # one said, and four not said spread over three pairs
    assert lines["lighting_connected"] == 8 * (700 * 3 + 3000) + 4 * (1000 * 3 + 3000 + 1500)


@pytest.mark.parametrize("legs", ["{A B: 4}", "A B", "{A B: 1}"])
def test_ways_to_say_that_the_load_of_four_equal_units_is_on_one_pair(glossary: Glossary, legs: str) -> None:
    text = APARTMENTS.replace("rating: 12 kW, legs: A B", f"rating: 12 kW, legs: {legs}")
    home = read(glossary, text)
    assert ("large range", 4.0) in on_lines(home.facts, "line_pairs")["A-B"]
    assert on_lines(home.supplies[2].facts, "line_pairs")["A-B"] == [("large range", 1.0)]


@pytest.mark.parametrize("legs", ["unknown", "not seen"])
def test_legs_that_are_not_known_are_as_not_said(glossary: Glossary, legs: str) -> None:
    home = read(glossary, APARTMENTS.replace("rating: 12 kW, legs: A B", f"rating: 12 kW, legs: {legs}"))
    assert field(home.facts, "loads", "large range", "legs_said") is False
    assert home.facts.origins["loads", 3, "legs_said"].assumed


# --- a large house with two mains

TWO_MAINS = """\
home: 1 Upper Cairn, house with two mains
service: {system: 120/240 V single-phase 3-wire, rating: 400 A}
dwelling units:
  - name: house
    areas:
      - {name: ground floor, kind: living, area: 2400 ft2}
      - {name: upper floor, kind: living, area: 2000 ft2}
      - {name: garage, kind: attached garage, area: 700 ft2}
    small appliance circuits: 3
    laundry circuits: 1
    loads:
      - {name: range, kind: range, rating: 14 kW}
      - {name: dryer, kind: dryer, rating: 5.6 kW, legs: A B}
      - {name: spa, kind: spa, rating: 40 A at 240 V}
      - {name: old heater, kind: water heater, rating: 4.5 kW}
feeders:
  - name: main 1
    service disconnect: yes
    rating: 200 A
    feeds: {areas: [Garage, ground floor], loads: [range, new heater], small appliance circuits: 3}
  - name: Main 2
    service_disconnect: yes
    rating: 200 A
    bus: 225 A
    feeds: {areas: [upper floor], loads: [old heater, spa, dryer, charger], laundry circuits: 1 circuit}
planned:
  - {name: charger, kind: EVSE, settings: [24 A, 48 A]}
  - {name: new heater, kind: heat pump water heater, rating: 4.5 kW, replaces: old heater}
panels:
  - {name: panel 1, on: main 1, spaces: 42, circuits: [{breaker: 50 A, poles: 2, load: range}]}
  - {name: panel 2, on: main 2, spaces: 30, circuits: [{breaker: 30 A, poles: 2, load: dryer}, {breaker: 50 A, poles: 2, load: spa}]}
"""


@pytest.fixture(scope="module")
def mains(glossary: Glossary) -> Home:
    home = read(glossary, TWO_MAINS)
    for supply in home.supplies:
        whole(supply)
    return home


def test_each_main_carries_its_part(mains: Home) -> None:
    service, first, second = mains.supplies
    assert [(supply.id, supply.kind, *form(supply)) for supply in mains.supplies] == [
        ("service", "service", True, True, False),
        ("main_1", "part", True, False, True),
        ("main_2", "part", True, False, True),
    ]
    assert first.facts.origins["supply", -1, "service"].written == "yes"
    assert items(first.facts, "areas") == [("ground floor", 1.0, 0), ("garage", 1.0, 0)]
    assert items(first.facts, "loads") == [("range", 1.0, 0), ("new heater", 1.0, 0)]
    assert items(second.facts, "areas") == [("upper floor", 1.0, 0)]
    assert items(second.facts, "loads") == [
        ("dryer", 1.0, 0),
        ("spa", 1.0, 0),
        ("old heater", 1.0, 0),
        ("charger", 1.0, 0),
    ]
    assert len(service.facts.collections["loads"]) == 6


def test_a_part_has_the_circuits_that_are_said_of_it(mains: Home) -> None:
    first, second = (supply.facts for supply in mains.supplies[1:])
    assert items(first, "dwelling_units") == items(second, "dwelling_units") == [("house", 1.0, -1)]
    assert first.collections["dwelling_units"].fields == {"small_appliance_circuits": [3.0], "laundry_circuits": [0.0]}
    assert second.collections["dwelling_units"].fields == {"small_appliance_circuits": [0.0], "laundry_circuits": [1.0]}
    assert str(first.origins["dwelling_units", 0, "small_appliance_circuits"].place) == "alder.yaml:20:98"
    assert ("dwelling_units", 0, "laundry_circuits") not in first.origins
    assert second.origins["dwelling_units", 0, "laundry_circuits"].written == "1 circuit"
    assert mains.facts.collections["dwelling_units"].fields["small_appliance_circuits"] == [3.0]


def test_planned_loads_settings_and_replacements_of_a_part(mains: Home) -> None:
    _, first, second = mains.supplies
    assert (first.planned, first.settings) == ([1], {})
    assert (second.planned, second.settings) == ([3], {3: [24.0, 48.0]})
    assert first.replaced == second.replaced == [("new heater", "old heater")]
    assert field(second.facts, "loads", "old heater", "replaced") is True


def test_each_main_has_its_panel(mains: Home) -> None:
    service, first, second = (supply.facts for supply in mains.supplies)
    assert items(service, "circuits") == [("range", 1.0, 0), ("dryer", 1.0, 1), ("spa", 1.0, 1)]
    assert (items(first, "panels"), items(first, "circuits")) == ([("panel 1", 1.0, -1)], [("range", 1.0, 0)])
    assert (items(second, "panels"), items(second, "circuits")) == (
        [("panel 2", 1.0, -1)],
        [("dryer", 1.0, 0), ("spa", 1.0, 0)],
    )
    assert second.origins["circuits", 1, "breaker"].written == "50 A"
    assert on_lines(second, "line_pairs") == {"A-B": [("dryer", 1.0)]}


def test_circuits_alone_keep_the_unit_of_the_loads(glossary: Glossary) -> None:
    text = TWO_MAINS.replace("areas: [upper floor], ", "")
    facts = read(glossary, text).supplies[2].facts
    assert (items(facts, "dwelling_units"), items(facts, "areas")) == ([("house", 1.0, -1)], [])
    assert {owner for _, _, owner in items(facts, "loads")} == {0}


def test_circuits_of_a_part_may_be_unknown(glossary: Glossary) -> None:
    facts = read(glossary, TWO_MAINS.replace("1 circuit}", "unknown}")).supplies[2].facts
    assert field(facts, "dwelling_units", "house", "laundry_circuits").inputs == {"house: laundry circuits"}


def test_whether_a_feeder_is_a_service_may_be_unknown(glossary: Glossary) -> None:
    home = read(glossary, TWO_MAINS.replace("service_disconnect: yes", "service_disconnect: unknown"))
    assert isinstance(home.supplies[2].facts.objects["supply"]["service"], Unknown)


# --- a shop

SHOP = """\
home: Low Meadow, house and shop
service: {system: 120/240 V single-phase 3-wire, rating: 200 A}
dwelling units:
  - name: house
    areas: [{name: house, kind: living, area: 1500 ft2}]
    small appliance circuits: 2
    laundry circuits: 1
    loads:
      - {name: welder, kind: welder, rating: 40 A at 230 V}
      - {name: range, kind: range, rating: 12 kW}
      - {name: lathes, kind: other motor, quantity: 2, rating: 3 hp at 230 V, connection: line to line}
feeders:
  - {name: shop, feeds: {loads: [Lathes, welder, shop charger]}, rating: 100 A, terminals: 75 C}
planned:
  - {name: shop charger, kind: EVSE, rating: 32 A at 240 V}
panels:
  - {name: shop panel, on: shop, circuits: [{breaker: 40 A, poles: 2, quantity: 2, load: lathes}, {for: lamps}]}
"""


def test_a_shop_with_named_loads(glossary: Glossary) -> None:
    _, shop = read(glossary, SHOP).supplies
    whole(shop)
    facts = shop.facts
    assert (shop.id, shop.kind, form(shop)) == ("shop", "part", (False, False, True))
    assert (items(facts, "dwelling_units"), items(facts, "areas")) == ([], [])
    assert items(facts, "loads") == [("welder", 1.0, -1), ("lathes", 2.0, -1), ("shop charger", 1.0, -1)]
    assert shop.planned == [2]
    assert items(facts, "circuits") == [("lathes", 2.0, 0), ("lamps", 1.0, 0)]
    assert facts.origins["supply", -1, "terminals"].written == "75 C"
    assert facts.origins["loads", 1, "horsepower"].written == "3 hp at 230 V"


def test_a_load_of_equal_units_on_a_feeder_of_its_own_is_that_of_one(glossary: Glossary) -> None:
    text = APARTMENTS.replace("feeds: large,", "feeds: {loads: [large range, lift]},")
    part = read(glossary, text).supplies[2].facts
    assert items(part, "loads") == [("large range", 1.0, -1), ("lift", 1.0, -1)]
    assert on_lines(part, "line_pairs") == {
        "A-B": [("large range", 1.0), ("lift", 1.0)],
        "B-C": [("lift", 1.0)],
        "C-A": [("lift", 1.0)],
    }


def test_a_part_of_a_unit_with_a_house_load(glossary: Glossary) -> None:
    text = APARTMENTS.replace("feeds: large,", "feeds: {areas: [large rooms], loads: [dryer, lift]},")
    part = read(glossary, text).supplies[2].facts
    assert items(part, "dwelling_units") == [("large", 1.0, -1)]
    assert items(part, "loads") == [("dryer", 1.0, 0), ("lift", 1.0, -1)]


# --- the demonstrations, and speed


@pytest.mark.parametrize("path", sorted(DEMO.glob("*.yaml")), ids=lambda path: path.stem)
def test_every_demonstration_can_be_read(path: Path, glossary: Glossary) -> None:
    home = read_home(path, glossary)
    for supply in home.supplies:
        whole(supply)
    assert len({supply.id for supply in home.supplies}) == len(home.supplies)


METER_MAIN = """
home: Quarry Lane
code: nec/2023
work: new
service:
  system: 120/240 V single-phase 3-wire
  rating: 200 A
  conductors: {size: 4/0 AWG, material: aluminum}
dwelling units:
  - name: house
    areas: [{kind: living, area: 2380 ft2}]
    loads: [{name: range, kind: range, rating: 12 kW}]
panels:
  - name: house panel
    spaces: 40
feeders:
  - name: feeder to the panel
    feeds: house
    bus: 200 A
"""


def test_a_feeder_with_the_whole_load_is_protected_by_the_main_of_its_service(glossary: Glossary) -> None:
    for more in ("", "    main overcurrent device: no\n"):
        service, feeder = read(glossary, METER_MAIN + more).supplies
        assert (feeder.carries_all, feeder.protected_by_service) == (True, True)
        assert (service.carries_all, service.protected_by_service) == (False, False)
        assert feeder.facts.objects["supply"]["rating"] == 200
        assert isinstance(feeder.facts.objects["supply"]["main_overcurrent_device"], Unknown)
        assert items(feeder.facts, "panels") == [("house panel", 1.0, -1)]


def test_a_feeder_with_a_device_or_without_all_loads_is_not_protected_so(glossary: Glossary) -> None:
    own = read(glossary, METER_MAIN + "    rating: 150 A\n").supplies[1]
    assert (own.carries_all, own.protected_by_service) == (True, False)
    assert own.facts.objects["supply"]["rating"] == 150
    part = read(
        glossary, METER_MAIN.replace("  - name: house\n    areas", "  - name: house\n    quantity: 2\n    areas")
    ).supplies[1]
    assert (part.carries_all, part.protected_by_service) == (False, False)
    assert isinstance(part.facts.objects["supply"]["rating"], Unknown)
    no_rating = read(glossary, METER_MAIN.replace("  rating: 200 A\n", "")).supplies[1]
    assert (no_rating.carries_all, no_rating.protected_by_service) == (True, False)
