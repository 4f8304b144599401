"""Examples worked by hand: each threshold of the rules at it and beside it, each reading, each part of each sum.

Where an expected value comes from stands beside it: the section with the arithmetic, or the second entry. None is taken
from the program's output. What the mutation run (``mutation/run.py``) shows as unseen gets its example here.
"""

from __future__ import annotations

import os
from itertools import product
from pathlib import Path
from typing import Any

import pytest
import second_entry as second
from examples import rules_of
from homes import facts_of, house, load

from dwellcalc.evaluate.sheet import KNOWN, NOT_APPLICABLE, UNKNOWN
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.evaluate.work import state_of
from dwellcalc.facts import Facts
from dwellcalc.glossary import Glossary
from dwellcalc.language.rule_set import RuleSet, load_rules

OPTIONAL, SIZING, STANDARD, NEUTRAL, PANELS = "optional_dwelling", "sizing", "standard", "neutral", "panelboards"
EDITIONS = ("nec/2014", "nec/2017", "nec/2020", "nec/2023", "nec/2026")
DEFAULT = "nec/2023"  # taken where none is named
GLOSSARY: Glossary = rules_of(DEFAULT).glossary
SIZES = GLOSSARY.scales["conductor_size"]
SINGLE, TWO_LINES, THREE_PHASE = (
    "120/240 V single-phase 3-wire",
    "208Y/120 V single-phase 3-wire",
    "208Y/120 V three-phase 4-wire",
)
VOLTS = {SINGLE: 240.0, TWO_LINES: 208.0, THREE_PHASE: 208.0}
NEAR = 1e-9


def kind(name: str, amount: float, called: str = "", **said: Any) -> dict[str, Any]:
    """A load of a kind with a rating in volt-amperes."""
    return load(GLOSSARY, name, called, basis="volt_amperes", volt_amperes=float(amount), **said)


def home(*loads: dict[str, Any], system: str = SINGLE, **said: Any) -> dict[str, Any]:
    """A house with these loads; its supply as said."""
    return house(GLOSSARY, list(loads), system=system, voltage=VOLTS[system], **said)


def at(legs: str, load: dict[str, Any]) -> dict[str, Any]:
    """A load whose lines are said."""
    return {**load, "legs": legs, "legs_said": True}


def conductors(size: str, material: str | None) -> dict[str, Any]:
    """Supply conductors, as a house states them."""
    return {"conductor_size": SIZES.index(size), "conductor_material": material}


def connect(facts: Facts, position: int, legs: str, quantity: float) -> None:
    """Connect a load to the line conductors that are said, such as ``A B``, and to the pairs among them."""
    for collection, prefix in (("line_conductors", "Line "), ("line_pairs", "Lines ")):
        for at, name in enumerate(facts.collections[collection].names):
            if legs and set(name.removeprefix(prefix).replace("-", " ").split()) <= set(legs.split()):
                facts.connected[collection][at].append((position, quantity))


def evaluated(
    stated: dict[str, Any],
    choices: dict[str, str] | None = None,
    *,
    edition: str = DEFAULT,
    amperes: float | None = None,
    continuous: float = 0.0,
    rating_from: float = 0.0,
    units: int = 1,
    rules: RuleSet | None = None,
) -> Evaluation:
    """An evaluation of a house; ``amperes`` is the calculated load that sizing is given, ``continuous`` what is continuous."""
    rules = rules or rules_of(edition)
    facts = facts_of(rules.glossary, stated)
    for more in range(1, units):
        facts.add("dwelling_units", f"unit {more}", {"small_appliance_circuits": 2.0, "laundry_circuits": 1.0})
    for position, each in enumerate(stated["loads"]):
        connect(facts, position, each.get("legs", ""), each["quantity"])
    given = (
        {"calculated_amperes": amperes, "continuous_amperes": continuous, "rating_from": rating_from}
        if amperes is not None
        else {}
    )
    return Evaluation(plan_of(rules), facts, choices, given)


def value(found: Evaluation, name: str, method: str = OPTIONAL) -> Any:
    return found.line(found.plan.rules.methods[method].lines[name])


def sized(amperes: float, stated: dict[str, Any], choices: dict[str, str] | None = None, **more: Any) -> dict[str, Any]:
    """The results of sizing by name: a value, or the state of what has none."""
    found = evaluated(stated, choices, amperes=amperes, **more)
    results = found.plan.rules.methods[SIZING].results
    values = {name: found.line(line) for name, line in results.items()}
    values |= {name: value(found, name, SIZING) for name in ("rating_of_device", "rating_of_bus", "rating_by_conductors")}
    return {name: each if state_of(each) == KNOWN else state_of(each) for name, each in values.items()}


def size(found: Any) -> str:
    """A conductor size as it is written."""
    return SIZES[int(found)]


# conditions of use: 220.82(A), one 3-wire set at 120/240 V or 208Y/120 V, the entire load of one unit, 100 A or more


@pytest.mark.parametrize(("system", "may"), [(SINGLE, True), (TWO_LINES, True), (THREE_PHASE, False)])
def test_use_asks_for_a_3_wire_supply(system: str, may: bool) -> None:
    assert evaluated(home(system=system, **conductors("4/0", "copper"))).permitted(OPTIONAL) == [may, True, True, True]


@pytest.mark.parametrize(("whole", "service"), list(product((True, False), repeat=2)))
def test_use_asks_for_the_entire_load(whole: bool, service: bool) -> None:
    supply = home(whole_dwelling=whole, service=service, **conductors("4/0", "copper"))
    assert evaluated(supply).permitted(OPTIONAL) == [True, whole, True, True]


# Table 310.16, 75 C: 4 AWG copper 85 A, 6 AWG copper 65 A. The dwelling rule asks for 83 % of 100 A = 83 A; it names
# 120/240 V, and two lines of 208Y/120 V only for feeders. By default what it allows counts as 100 A.
@pytest.mark.parametrize(("system", "service", "of_size", "counts"), [
    (SINGLE, True, "4", True),
    (SINGLE, True, "6", False),
    (TWO_LINES, True, "4", False),
    (TWO_LINES, False, "4", True),
    (TWO_LINES, True, "3", True),  # 100 A by the table itself
])  # fmt: skip
def test_use_asks_for_100_amperes(system: str, service: bool, of_size: str, counts: bool) -> None:
    supply = home(system=system, service=service, rating=100.0, **conductors(of_size, "copper"))
    assert evaluated(supply).permitted(OPTIONAL)[2] is counts


# general loads: 220.82(B)


def test_each_kind_of_water_heater_has_its_line() -> None:
    heaters = [
        kind("storage_water_heater", 4500),
        kind("heat_pump_water_heater", 2500),
        kind("instantaneous_water_heater", 18000),
    ]
    found = evaluated(home(*heaters))
    assert value(found, "water_heaters_connected") == 25000  # 220.82(B)(3)(d): 4500 + 2500 + 18000
    assert value(found, "appliances_connected") == 0


def test_motors_and_appliances_have_their_own_lines() -> None:
    motors = [kind("well_pump", 1000), kind("sump_pump", 700), kind("pool_pump", 1500), kind("other_motor", 400)]
    others = [kind("pool_heater", 11000), kind("shop_equipment", 8000, fastened_in_place=True), kind("dishwasher", 1200)]
    found = evaluated(home(*motors, *others))
    assert value(found, "motors_connected") == 3600  # 220.82(B)(4): 1000 + 700 + 1500 + 400
    assert value(found, "appliances_connected") == 20200  # 220.82(B)(3)(a): 11000 + 8000 + 1200


def test_what_is_left_out_is_listed_and_nothing_else() -> None:
    washer = kind("clothes_washer", 1200, on_laundry_circuit=True)
    gone = kind("clothes_washer", 900, "washer taken away", on_laundry_circuit=True, replaced=True)
    fridge = kind("refrigerator", 700)
    areas = [{"area_kind": "living", "area": 900.0}, {"area_kind": "open_porch", "area": 100.0}]
    sheet = Tracer(evaluated(home(washer, gone, fridge, areas=areas))).method(OPTIONAL)
    listed = {entry.group: entry.items for entry in sheet.left_out}
    assert sorted(listed.values()) == [["area 1"], ["clothes_washer"], ["refrigerator"]]


# charging equipment: the three readings of where it stands; 9600 + 11520 VA


def _chargers(reading: str) -> Evaluation:
    chargers = [kind("ev_charging_equipment", 9600, "first"), kind("ev_charging_equipment", 11520, "second")]
    return evaluated(home(*chargers), {"listed_loads.charging_in_optional": reading})


def test_charging_in_the_pool() -> None:
    found = _chargers("in_pool")
    assert value(found, "charging_general") == 21120
    assert value(found, "charging_connected_apart") == 0
    assert state_of(value(found, "charging_outside")) == NOT_APPLICABLE


@pytest.mark.parametrize(("reading", "outside"), [("apart", 21120.0), ("apart_at_125", 26400.0)])  # 1.25 * 21120 = 26400
def test_charging_apart(reading: str, outside: float) -> None:
    found = _chargers(reading)
    assert value(found, "charging_general") == 0
    assert value(found, "charging_connected_apart") == 21120
    assert value(found, "charging_outside") == pytest.approx(outside, abs=NEAR)


# heating and cooling: 220.82(C)


ROOM_UNITS = list(product((True, False), (True, False), ("counted", "left_out")))


@pytest.mark.parametrize(("fastened", "individual", "reading"), ROOM_UNITS)
def test_room_air_conditioner(fastened: bool, individual: bool, reading: str) -> None:
    # Only a cord-and-plug connected one on no circuit of its own is in question.
    room = kind("air_conditioner", 1440, fastened_in_place=fastened, individual_circuit=individual)
    found = evaluated(home(room), {"listed_loads.room_cooling_in_optional": reading})
    left_out = reading == "left_out" and not fastened and not individual
    assert value(found, "cooling") == (0 if left_out else 1440)
    assert value(found, "appliances_connected") == 0


def test_blower_among_the_general_loads() -> None:
    loads = [kind("blower", 600), kind("air_conditioner", 4000), kind("electric_furnace", 10000)]
    found = evaluated(home(*loads), {"listed_loads.blower_in_optional": "in_general_loads"})
    assert value(found, "appliances_connected") == 600
    assert value(found, "blower_when_cooling") == value(found, "blower_when_heating") == 0
    assert value(found, "heating_or_cooling") == 6500  # the furnace at 65 % of 10000, over the cooling, 4000


def _selections(heaters: int) -> Evaluation:
    """A blower of 600 VA all year and one of 300 VA when heating; separately controlled heaters of 1500 VA each."""
    loads = [
        kind("air_conditioner", 4000),
        kind("heat_pump", 6000),
        kind("supplemental_heat", 10000),
        kind("electric_furnace", 5000),
        kind("space_heater", 1500, quantity=float(heaters)),
        kind("thermal_storage_heater", 7000),
        kind("blower", 600, "blower", season="both"),
        kind("blower", 300, "heating blower", season="heating"),
    ]
    return evaluated(home(*loads), {f"{OPTIONAL}.selection_of_heating_or_cooling": "single_selection"})


def test_each_selection_with_three_heaters() -> None:
    found = _selections(3)
    assert value(found, "select_cooling") == 4600  # (C)(1): 4000 + 600
    assert value(found, "select_heat_pump") == 6900  # (C)(2): 6000 + 600 + 300
    assert value(found, "select_heat_pump_supplemental") == 13400  # (C)(3): 6000 + 65 % of 10000 + 900
    assert value(found, "select_few_heaters") == 7075  # (C)(4): 65 % of 5000 + 65 % of 4500 + 900 = 3250 + 2925 + 900
    assert state_of(value(found, "select_many_heaters")) == NOT_APPLICABLE  # (C)(5) begins with four
    assert value(found, "select_storage") == 7900  # (C)(6): 7000 + 900
    assert value(found, "heating_or_cooling") == 13400  # the largest of them


def test_each_selection_with_four_heaters() -> None:
    found = _selections(4)
    assert value(found, "select_few_heaters") == 4150  # the central furnace alone: 65 % of 5000 + 900
    assert value(found, "select_many_heaters") == 2400  # (C)(5): 40 % of 6000


def test_selection_with_a_lockout() -> None:
    locked = kind("heat_pump", 6000, stops_for_supplemental_heat=True)
    found = evaluated(
        home(locked, kind("supplemental_heat", 10000)), {f"{OPTIONAL}.selection_of_heating_or_cooling": "single_selection"}
    )
    assert value(found, "select_heat_pump_supplemental") == 6500  # (C)(3): the compressor drops out
    assert value(found, "select_heat_pump") == 6000


def test_seasons_with_everything() -> None:
    loads = [
        kind("air_conditioner", 4000),
        kind("heat_pump", 6000),
        kind("supplemental_heat", 10000),
        kind("electric_furnace", 5000),
        kind("space_heater", 1500, quantity=3.0),
        kind("thermal_storage_heater", 7000),
        kind("blower", 600, "blower", season="both"),
        kind("blower", 300, "heating blower", season="heating"),
        kind("blower", 200, "cooling blower", season="cooling"),
    ]
    found = evaluated(home(*loads))
    assert value(found, "cooling_season") == 10800  # 4000 + 6000 + 600 + 200
    assert value(found, "heating_season_supplemental") == 26575  # 6000 + 6500 + 2925 + 3250 + 7000 + 900
    assert value(found, "heating_season_compressor") == 20075  # 6000 + 2925 + 3250 + 7000 + 900


# amperes: a volt-ampere over the voltage between lines, and over the root of three (1.732) on three-phase supplies


@pytest.mark.parametrize(("system", "divisor"), [(SINGLE, 240.0), (TWO_LINES, 208.0), (THREE_PHASE, 208 * 1.732)])
def test_amperes(system: str, divisor: float) -> None:
    found = evaluated(home(kind("range", 12000), system=system))
    # 3 * 1500 + 1500 * 3 + 12000 = 21000; 10000 + 40 % of 11000 = 14400
    assert value(found, "total") == pytest.approx(14400, abs=NEAR)
    assert value(found, "amperes") == pytest.approx(14400 / divisor, abs=NEAR)


def test_continuous_load_is_the_charging_equipment() -> None:
    # 625.42: 9600 + 11520 = 21120 VA, 88 A at 240 V; on three-phase 208 V over the root of three
    chargers = [
        kind("ev_charging_equipment", 9600, "first"),
        kind("ev_charging_equipment", 11520, "second"),
        kind("range", 12000),
    ]
    found = evaluated(home(*chargers))
    assert value(found, "continuous_load") == 21120
    assert found.line(found.plan.rules.methods[OPTIONAL].results["continuous"]) == pytest.approx(88, abs=NEAR)
    assert value(evaluated(home(*chargers), {"listed_loads.charging_in_optional": "apart"}), "continuous_load") == 21120
    three_phase = evaluated(home(*chargers, system=THREE_PHASE))
    assert value(three_phase, "continuous_amperes") == pytest.approx(21120 / (208 * 1.732), abs=NEAR)


# every load counts once: what is to be counted is all that is there, or the checks of coverage look at less


@pytest.mark.parametrize("method", [OPTIONAL, "standard"])
def test_all_that_is_there_is_to_be_counted(method: str) -> None:
    loads = [kind(name, 1000) for name in GLOSSARY.load_kinds]
    found = evaluated(home(*loads, kind("range", 9000, "old range", replaced=True)))
    counts = found.plan.rules.methods[method].counts
    assert counts is not None
    assert found.decided(found.plan.places[id(counts)]).items == list(range(len(loads)))


# nameplates: 220.5(A); the marked voltage only where that reading is chosen


@pytest.mark.parametrize("marked", [220.0, 230.0, 250.0])
@pytest.mark.parametrize("reading", ["nominal", "nameplate"])
def test_voltage_of_a_marked_current(reading: str, marked: float) -> None:
    volts = marked if reading == "nameplate" else 240.0
    plain = load(GLOSSARY, "well_pump", basis="amperes", marked_amperes=10.0, volts=marked)
    by_ampacity = load(GLOSSARY, "heat_pump", basis="minimum_circuit_ampacity", marked_amperes=20.0, volts=marked)
    parts = {"rated_load_amperes": 15.0, "fan_amperes": 1.5, "volts": marked}
    compressor = load(GLOSSARY, "air_conditioner", basis="rated_load_and_fan", **parts)
    found = evaluated(home(plain, by_ampacity, compressor), {"nameplate.voltage_of_amperes": reading})
    assert value(found, "motors_connected") == 10 * volts
    assert value(found, "heat_pump_alone") == 20 * volts  # the marked ampacity is the load; no quarter is added to it
    assert value(found, "cooling") == 16.5 * volts  # 15 + 1.5


@pytest.mark.parametrize("reading", ["nominal", "nameplate"])
def test_voltage_of_a_motor_table_current(reading: str) -> None:
    # The table's current stands for the nominal voltage: 1 hp at 230 V, Table 430.248: 8.0 A, at 240 V 1920 VA.
    motor = load(GLOSSARY, "well_pump", basis="horsepower", horsepower=1.0, volts=230.0)
    assert value(evaluated(home(motor), {"nameplate.voltage_of_amperes": reading}), "motors_connected") == 1920


def _shown(stated: dict[str, Any]) -> dict[str, dict[str, str]]:
    """The state of each item in each column of the sheet."""
    sheet = Tracer(evaluated(stated)).method(OPTIONAL)
    return {line.id.partition(".")[2]: {str(each.item): each.state for each in line.items} for line in sheet.lines if line.items}


def test_marked_ampacity_has_a_line_of_its_own() -> None:
    # Its note says that no further quarter is added; a plain current does not pass through it.
    plain = load(GLOSSARY, "well_pump", basis="amperes", marked_amperes=10.0, volts=230.0)
    by_ampacity = load(GLOSSARY, "heat_pump", basis="minimum_circuit_ampacity", marked_amperes=20.0, volts=230.0)
    shown = _shown(home(plain, by_ampacity))["ampacity_load"]
    assert [name for name, state in shown.items() if state == KNOWN] == ["heat_pump"]


def test_a_load_that_is_taken_away_stands_in_no_column() -> None:
    motor = {"basis": "horsepower", "horsepower": 1.0, "volts": 230.0}
    compressor = {"basis": "rated_load_and_fan", "rated_load_amperes": 15.0, "fan_amperes": 1.5, "volts": 230.0}
    kept = [load(GLOSSARY, "well_pump", "pump", **motor), load(GLOSSARY, "heat_pump", "new", **compressor)]
    gone = [load(GLOSSARY, "well_pump", "old pump", replaced=True, **motor)]
    gone.append(load(GLOSSARY, "heat_pump", "old", replaced=True, **compressor))
    shown = _shown(home(*kept, *gone))
    for name in ("nominal_volts", "motor_table_volts", "motor_amperes", "compressor_and_fan_amperes", "connected"):
        assert list(shown[name]) == ["pump", "new"], name


# floor area: 220.5(C) of 2023; the reading of detached garages asks about nothing else


@pytest.mark.parametrize(("area_kind", "reading", "counted"), [
    ("detached_garage", "included", 400.0),
    ("detached_garage", "excluded", 0.0),
    ("attached_garage", "included", 400.0),
    ("open_porch", "included", 0.0),
    ("unfinished_not_adaptable", "included", 0.0),
])  # fmt: skip
def test_reading_of_detached_garages(area_kind: str, reading: str, counted: float) -> None:
    found = evaluated(home(areas=[{"area_kind": area_kind, "area": 400.0}]), {"floor_area.detached_garage_area": reading})
    assert value(found, "floor_area") == counted


# the ampacity column: 110.14(C)(1), 75 C over 100 A whatever is said of the terminals; 1/0 copper 125 A at 60 C, 150 at 75 C


@pytest.mark.parametrize(("rating", "terminals", "ampacity"), [
    (100.0, "t60", 125.0),
    (101.0, "t60", 150.0),
    (100.0, "t75", 150.0),
    (200.0, "t60", 150.0),
    (200.0, "t75", 150.0),
    (None, "t60", 125.0),
    (None, "t75", 150.0),
])  # fmt: skip
def test_column_of_the_terminals(rating: float | None, terminals: str, ampacity: float) -> None:
    supply = home(rating=rating, bus=90.0, terminals=terminals, **conductors("1/0", "copper"))
    assert value(evaluated(supply), "conductor_ampacity") == ampacity


# the dwelling rule: 310.15(B)(7) of 2014 names 120/240 V only; from 2017 also two lines of 208Y/120 V, for feeders


SUPPLIES = list(product(EDITIONS, (True, False), (SINGLE, TWO_LINES, THREE_PHASE), (True, False)))


@pytest.mark.parametrize(("edition", "whole", "system", "service"), SUPPLIES)
def test_supplies_of_the_dwelling_rule(edition: str, whole: bool, system: str, service: bool) -> None:
    named = {(SINGLE, True), (SINGLE, False)}
    if edition != "nec/2014":
        named.add((TWO_LINES, False))
    found = evaluated(home(system=system, whole_dwelling=whole, service=service), edition=edition)
    assert value(found, "dwelling_supply") is (whole and (system, service) in named)


# rounding: 220.5(B), a fraction under one half is dropped; 100.4 A fits 100 A, and 100.5 A does not


@pytest.mark.parametrize(("amperes", "nearest", "compared", "fits"), [
    (99.6, 100.0, 99.6, True),
    (100.0, 100.0, 100.0, True),
    (100.4, 100.0, 100.0, True),
    (100.5, 101.0, 100.5, False),
    (100.6, 101.0, 100.6, False),
])  # fmt: skip
def test_rounding(amperes: float, nearest: float, compared: float, fits: bool) -> None:
    found = sized(amperes, home(rating=100.0))
    assert (found["amperes_nearest"], found["amperes_compared"], found["fits"]) == (nearest, compared, fits)
    assert found["margin"] == 100 - amperes


# the smallest service: 230.79(C), 100 A for a one-family dwelling; 230.79(D), 60 A for all others


@pytest.mark.parametrize(("service", "whole", "units", "minimum"), [
    (True, True, 1, second.SERVICE_MINIMUM["one_family"]),
    (True, False, 1, second.SERVICE_MINIMUM["one_family"]),
    (False, True, 1, 40.0),  # a feeder has none
    (True, True, 2, second.SERVICE_MINIMUM["others"]),
])  # fmt: skip
def test_smallest_service(service: bool, whole: bool, units: int, minimum: float) -> None:
    assert sized(40.0, home(service=service, whole_dwelling=whole), units=units)["minimum_rating"] == minimum


def test_the_smallest_rating_of_the_method() -> None:
    # 220.82(A) is for supplies of 100 A or more: a feeder of 60 A load takes 100 A, by the dwelling table 4 AWG copper
    found = sized(60.0, home(service=False, rating=None, state="to_be_installed"), rating_from=100.0)
    assert (found["minimum_rating"], size(found["copper"])) == (100, "4")
    assert sized(60.0, home(service=False), rating_from=0.0)["minimum_rating"] == 60


# the next rating: 240.6(A); those commonly offered are 100, 125, 150, 200 and 400 A, a choice of the project


@pytest.mark.parametrize(("amperes", "standard", "offered"), [
    (40.0, 100, 100), (100.4, 100, 100), (100.5, 110, 125), (110.0, 110, 125), (125.0, 125, 125), (126.0, 150, 150),
    (150.0, 150, 150), (151.0, 175, 200), (200.0, 200, 200), (200.5, 225, 400), (400.0, 400, 400), (401.0, 450, UNKNOWN),
])  # fmt: skip
def test_next_rating(amperes: float, standard: float, offered: object) -> None:
    found = sized(amperes, home())
    assert (found["minimum_rating"], found["offered_rating"]) == (standard, offered)


# conductors of a new service or feeder


@pytest.mark.parametrize("edition", ["nec/2020", "nec/2023"])
@pytest.mark.parametrize("rating", sorted(second.DWELLING_CONDUCTORS["copper"]))
def test_conductors_by_the_dwelling_table(rating: int, edition: str) -> None:
    # Table 310.12 goes by the rating; over 100 A what is said of the terminals does not matter. No main is there yet.
    terminals = "t75" if rating == 100 else "t60"
    found = sized(float(rating), home(rating=None, state="to_be_installed", terminals=terminals), edition=edition)
    assert found["ampacity"] == pytest.approx(0.83 * rating, abs=NEAR)
    assert size(found["copper"]) == second.DWELLING_CONDUCTORS["copper"][rating]
    assert size(found["aluminum"]) == second.DWELLING_CONDUCTORS["aluminum"][rating]


@pytest.mark.parametrize("edition", ["nec/2014", "nec/2017"])
def test_conductors_by_83_percent(edition: str) -> None:
    # No table in these editions: 83 % of 200 A is 166 A; at 75 C 2/0 copper carries 175 A, 4/0 aluminum 180 A.
    found = sized(190.0, home(), edition=edition)
    assert found["ampacity"] == pytest.approx(166, abs=NEAR)
    assert (size(found["copper"]), size(found["aluminum"])) == ("2/0", "4/0")


# What the dwelling rule does not serve needs the load itself: Table 310.16, 75 C, the first ampacity not below it.
@pytest.mark.parametrize(("amperes", "said", "ampacity", "copper", "aluminum"), [
    (180.0, {"whole_dwelling": False}, 180.0, "3/0", "4/0"),  # 200 A, 180 A
    (180.0, {"system": THREE_PHASE}, 180.0, "3/0", "4/0"),
    (180.0, {"system": TWO_LINES}, 180.0, "3/0", "4/0"),
    (70.0, {"service": False}, 70.0, "4", "3"),  # a rating of 70 A is under 100 A; 85 A, 75 A
    (450.0, {}, 450.0, "700", "300"),  # over 400 A; 460 A; 445 A of 1000 kcmil is too little: two sets of 230 A each
    (150.0, {"service": False}, 124.5, "1", "2/0"),  # a feeder of the whole dwelling: 83 % of 150 A; 130 A, 135 A
    (400.0, {}, 332.0, "400", "600"),  # the rule ends with 400 A, which is in: 335 A, 340 A
    (95.0, {"service": False}, 83.0, "4", "2"),  # the next rating of 100 A is in the rule, the load itself would not be
    (180.6, {"whole_dwelling": False}, 180.6, "3/0", "250"),  # not rounded; 200 A, 205 A
    (230.0, {"whole_dwelling": False}, 230.0, "4/0", "300"),  # the load, not the next rating of 250 A; 230 A, 230 A
    (40.0, {"service": False}, 40.0, "8", "8"),  # a feeder has no smallest rating; 50 A, 40 A
    (850.0, {"whole_dwelling": False}, 1000.0, "900", "600"),  # over 800 A conductors reach the rating: 2 x 520 A, 3 x 340 A
    (40.0, {"system": THREE_PHASE}, 100.0, "3", "1"),  # nor than 100 A for the service of a one-family dwelling
    (150.0, {"service": False, "terminals": "t60"}, 124.5, "1", "2/0"),  # Table 310.12 whatever is said of the terminals
    (105.0, {}, 91.3, "3", "1"),  # the next rating is 110 A, not one that is commonly offered: 83 % of it
])  # fmt: skip
def test_conductors_for_new(amperes: float, said: dict[str, Any], ampacity: float, copper: str, aluminum: str) -> None:
    found = sized(amperes, home(**{"rating": None, "state": "to_be_installed", **said}))
    assert found["ampacity"] == pytest.approx(ampacity, abs=NEAR)
    assert [found[metal] if found[metal] == UNKNOWN else size(found[metal]) for metal in ("copper", "aluminum")] == [
        copper or UNKNOWN,
        aluminum or UNKNOWN,
    ]


def test_terminals_of_new_conductors() -> None:
    # Table 310.12 is of 75 C. At 100 A and 60 C: 83 % of it, 3 copper of 85 A, 1 aluminum of 85 A; over 100 A 75 C is allowed.
    new = {"rating": None, "state": "to_be_installed", "terminals": "t60"}
    found = sized(95.0, home(**new))
    assert [size(found[metal]) for metal in ("copper", "aluminum")] == ["3", "1"]
    part = sized(110.0, home(**new, whole_dwelling=False))  # 130 A, 120 A at 75 C
    assert [size(part[metal]) for metal in ("copper", "aluminum")] == ["2", "1/0"]
    small = sized(90.0, home(**{**new, "service": False, "whole_dwelling": False}))  # 95 A, 100 A at 60 C
    assert [size(small[metal]) for metal in ("copper", "aluminum")] == ["2", "1/0"]
    existing = sized(100.0, home(rating=200.0, bus=225.0, whole_dwelling=False, terminals="t60"))
    assert (size(existing["copper_to_verify"]), size(existing["aluminum_to_verify"])) == ("3/0", "250")
    hundred = sized(90.0, home(rating=100.0, bus=225.0, whole_dwelling=False, terminals="t60"))  # 110 A, 100 A at 60 C
    assert (size(hundred["copper_to_verify"]), size(hundred["aluminum_to_verify"])) == ("1", "1/0")


# 240.4(D): copper 14 AWG up to 15 A, 12 up to 20 A, 10 up to 30 A; aluminum 12 up to 15 A, 10 up to 25 A. At 75 C 10 AWG
# copper carries 35 A and 10 AWG aluminum 30 A, which 240.4(D) does not let be protected so.
@pytest.mark.parametrize(("amperes", "copper", "aluminum"), [
    (9.0, "14", "12"), (15.0, "14", "12"), (16.0, "12", "10"), (20.0, "12", "10"), (21.0, "10", "10"), (25.0, "10", "10"),
    (26.0, "10", "8"), (30.0, "10", "8"), (31.0, "8", "8"), (35.0, "8", "8"), (36.0, "8", "8"),
])  # fmt: skip
def test_small_conductors_go_by_the_device(amperes: float, copper: str, aluminum: str) -> None:
    part = {"service": False, "whole_dwelling": False, "rating": None, "state": "to_be_installed"}
    assert [size(sized(amperes, home(**part))[metal]) for metal in ("copper", "aluminum")] == [copper, aluminum]


def test_small_conductors_that_are_there() -> None:
    existing = {"service": False, "whole_dwelling": False, "rating": 35.0, **conductors("10", "copper")}
    assert sized(25.0, home(**existing))["conductors_suffice"] is False  # 35 A carry it, and 30 A is the limit
    assert sized(25.0, home(**{**existing, "rating": 30.0}))["conductors_suffice"] is True
    assert sized(25.0, home(**{**existing, **conductors("10", "aluminum"), "rating": 30.0}))["conductors_suffice"] is False
    assert sized(25.0, home(**{**existing, **conductors("10", "aluminum"), "rating": 25.0}))["conductors_suffice"] is True
    assert sized(25.0, home(**{**existing, "rating": 40.0}))["conductors_suffice"] is False
    assert sized(25.0, home(**{**existing, "rating": 40.0, **conductors("8", "copper")}))["conductors_suffice"] is True


@pytest.mark.parametrize(("rating", "bus", "suffices"), [
    (150.0, 100.0, False), (100.0, 100.0, True), (100.0, 125.0, True), (None, 125.0, NOT_APPLICABLE), (100.0, None, NOT_APPLICABLE),
])  # fmt: skip
def test_the_bus_is_not_below_the_main(rating: float | None, bus: float | None, suffices: object) -> None:
    # 408.36, memory
    assert sized(90.0, home(rating=rating, bus=bus, state="to_be_installed"))["bus_suffices"] == suffices


def test_a_motor_marked_200_volts_has_a_column_of_its_own() -> None:
    # Table 430.248, 1 hp: 9.2 A at 200 V, 8.8 A at 208 V
    for volts, amperes in ((200.0, 9.2), (207.0, 9.2), (208.0, 8.8)):
        motor = {"basis": "horsepower", "horsepower": 1.0, "volts": volts}
        found = evaluated(home(load(GLOSSARY, "well_pump", **motor), system=TWO_LINES))
        assert value(found, "other_load", STANDARD) == pytest.approx(amperes * 208)


def test_an_existing_main_changes_nothing_for_a_new_service() -> None:
    # 180 A calculated, the main of 60 A out of reach of the dwelling rule: the new one of 200 A is within it.
    found = sized(180.0, home(rating=60.0))
    assert found["ampacity"] == pytest.approx(166, abs=NEAR)
    assert (size(found["copper"]), size(found["aluminum"])) == ("2/0", "4/0")


# capacity: the weakest of device, bus and conductors


def test_capacity_is_the_weakest_element() -> None:
    # 4/0 copper carries 230 A, and the dwelling rule lets it serve 200 A.
    strong = {"rating": 200.0, **conductors("4/0", "copper")}
    found = sized(100.0, home(bus=225.0, **strong))
    parts = [found[name] for name in ("rating_of_device", "rating_of_bus", "rating_by_conductors", "capacity")]
    assert parts == [200, 225, 200, 200]
    assert sized(100.0, home(bus=125.0, **strong))["capacity"] == 125
    assert sized(100.0, home(bus=125.0, **strong))["margin"] == 25
    assert sized(100.0, home(bus=225.0, rating=200.0, **conductors("1", "copper")))["capacity"] == 130
    assert sized(160.0, home(bus=125.0, **strong))["fits"] is False


# The smallest service and the next rating are for a new service: an existing one fits what it carries.
@pytest.mark.parametrize(("amperes", "supply", "fits"), [
    (50.0, {"rating": 60.0}, True),
    (60.5, {"rating": 60.0}, False),
    (128.0, {"rating": 200.0, **conductors("1", "copper"), "whole_dwelling": False}, True),  # 130 A, next rating 150 A
])  # fmt: skip
def test_what_fits_an_existing_service(amperes: float, supply: dict[str, Any], fits: bool) -> None:
    assert sized(amperes, home(**supply))["fits"] is fits


# 215.2, 215.3: a feeder to a part of a dwelling carries 125 % of continuous load; two chargers of 48 A: 96 * 1.25 = 120 A
def test_continuous_load_on_a_part_of_a_dwelling() -> None:
    part = {"part_of_dwelling": True, "whole_dwelling": False, "service": False}
    found = sized(96.0, home(rating=125.0, **part), continuous=96.0)
    assert [found[name] for name in ("amperes_nearest", "amperes_compared", "minimum_rating", "ampacity")] == [120, 120, 125, 120]
    assert (found["with_continuous"], found["fits"], found["margin"]) == (NOT_APPLICABLE, True, 5)
    assert sized(96.0, home(rating=110.0, **part), continuous=96.0)["fits"] is False
    mixed = sized(100.0, home(rating=125.0, **part), continuous=48.0)
    assert mixed["amperes_compared"] == 112  # 100 + 25 % of 48


def test_continuous_load_of_a_whole_dwelling_is_for_information() -> None:
    found = sized(190.0, home(), continuous=48.0)
    assert (found["amperes_compared"], found["with_continuous"], found["fits"]) == (190, 202, True)  # 190 + 25 % of 48
    passes = [sized(amperes, home(), continuous=48.0)["with_continuous_passes"] for amperes in (190.0, 188.3, 188.5)]
    assert passes == [True, False, True]  # 202; 200.3, of which the fraction is dropped; 200.5
    assert sized(190.0, home())["with_continuous"] == NOT_APPLICABLE


def test_a_main_that_is_not_known() -> None:
    existing = sized(100.0, home(rating=None, bus=125.0))
    assert [existing[name] for name in ("rating_of_device", "rating_of_bus", "capacity", "fits")] == [
        UNKNOWN,
        125,
        UNKNOWN,
        UNKNOWN,
    ]
    planned = sized(100.0, home(rating=None, bus=125.0, state="to_be_installed"))
    assert [planned[name] for name in ("rating_of_device", "capacity", "fits")] == [NOT_APPLICABLE, 125, True]
    nothing = sized(100.0, home(rating=None, state="to_be_installed"))
    assert [nothing[name] for name in ("rating_of_bus", "capacity", "fits", "margin")] == [NOT_APPLICABLE] * 4
    chosen = sized(100.0, home(rating=200.0, state="to_be_installed"))
    assert [chosen[name] for name in ("rating_of_device", "rating_of_bus", "capacity")] == [200, NOT_APPLICABLE, 200]


# What existing conductors allow. The dwelling rule asks for 83 % of the rating; else the ampacity is what they allow.
@pytest.mark.parametrize(("rating", "of_size", "material", "said", "allowed", "suffice"), [
    (200.0, "4/0", "aluminum", {}, 200.0, True),  # 180 A, 166 A asked for
    (200.0, "3/0", "aluminum", {}, 155.0, False),  # 155 A
    (200.0, "4/0", "aluminum", {"whole_dwelling": False}, 180.0, True),  # 200 A follows 180 A, but no more than 180 A is carried
    (225.0, "3/0", "copper", {"whole_dwelling": False}, 200.0, False),  # 200 A is itself a standard rating
    (200.0, "3/0", "aluminum", {"whole_dwelling": False}, 155.0, False),  # 175 A follows 155 A
    (800.0, "1000", "copper", {}, 545.0, False),  # 600 A follows 545 A
    (1000.0, "1000", "copper", {}, 545.0, False),  # over 800 A the ampacity must reach the rating
    (200.0, "3/0", "copper", {"whole_dwelling": False}, 200.0, True),  # 200 A, just enough
    (200.0, "4/0", "copper", {"whole_dwelling": False, "bus": 225.0}, 230.0, True),  # 230 A, of which the main uses 200 A
    (200.0, "4/0", "aluminum", {"service": False, "bus": 250.0}, 200.0, True),  # a feeder of the whole dwelling
    (100.0, "2", "aluminum", {}, 100.0, True),  # 90 A, 83 A asked for; the rule begins with 100 A
    (60.0, "8", "aluminum", {}, 40.0, False),  # under 100 A no 83 %; 40 A is itself a standard rating
    (90.0, "2", "aluminum", {"terminals": "t60"}, 75.0, False),  # 80 A follows 75 A
    (60.0, "4", "copper", {}, 85.0, True),  # 85 A, under 100 A no rule that would say 60 A
    (400.0, "400", "copper", {}, 400.0, True),  # 335 A, 332 A asked for
    (600.0, "700", "copper", {}, 460.0, False),  # over 400 A no 83 %; 500 A follows 460 A
    (600.0, "900", "copper", {}, 520.0, True),  # 600 A follows 520 A
])  # fmt: skip
def test_what_conductors_allow(
    rating: float, of_size: str, material: str, said: dict[str, Any], allowed: float, suffice: bool
) -> None:
    found = sized(150.0, home(rating=rating, **conductors(of_size, material), **said))
    assert (found["rating_by_conductors"], found["conductors_suffice"]) == (allowed, suffice)


# 4/0 aluminum of 180 A under a main of 200 A: by default the rating is the capacity and no second test is made.
@pytest.mark.parametrize(("amperes", "reading", "allowed", "fits"), [
    (190.0, "", 200.0, True),
    (190.0, "rating", 200.0, True),
    (190.0, "ampacity_too", 180.0, False),
    (180.0, "ampacity_too", 200.0, True),
    (180.4, "ampacity_too", 200.0, True),  # the fraction is dropped before anything is compared
    (180.5, "ampacity_too", 180.0, False),
])  # fmt: skip
def test_load_over_the_ampacity(amperes: float, reading: str, allowed: float, fits: bool) -> None:
    choices = {f"{SIZING}.capacity_by_dwelling_rule": reading} if reading else {}
    found = sized(amperes, home(rating=200.0, **conductors("4/0", "aluminum")), choices)
    assert (found["rating_by_conductors"], found["fits"]) == (allowed, fits)


def test_ampacity_under_the_smallest_service() -> None:
    # 2 AWG aluminum carries 90 A, and the dwelling rule lets it serve 100 A: 85 A pass the stricter reading, 91 A do not.
    strict = {f"{SIZING}.capacity_by_dwelling_rule": "ampacity_too"}
    supply = home(rating=100.0, **conductors("2", "aluminum"))
    assert [sized(each, supply, strict)["rating_by_conductors"] for each in (85.0, 90.0, 91.0)] == [100, 100, 90]


def test_a_load_far_over_the_main_changes_nothing_for_its_conductors() -> None:
    # 450 A calculated would take a new service out of reach of the dwelling rule; the main of 200 A stays within it.
    found = sized(450.0, home(rating=200.0, **conductors("4/0", "aluminum")))
    assert (found["rating_by_conductors"], found["fits"]) == (200, False)


@pytest.mark.parametrize(("rating", "of_size", "material", "judged"), [
    (200.0, "4/0", "aluminum", True),
    (None, "4/0", "aluminum", False),
    (200.0, None, "aluminum", False),
    (200.0, "4/0", None, False),
    (None, None, None, False),
])  # fmt: skip
def test_conductors_are_judged_only_where_all_of_it_is_known(
    rating: float | None, of_size: str | None, material: str | None, judged: bool
) -> None:
    supply: dict[str, Any] = conductors(of_size, material) if of_size else {"conductor_material": material}
    found = sized(100.0, home(rating=rating, **supply))
    chosen = sized(100.0, home(rating=rating, state="to_be_installed", **supply))
    assert [chosen[f"{metal}_to_verify"] for metal in ("copper", "aluminum")] == [NOT_APPLICABLE] * 2
    assert (found["rating_by_conductors"] != NOT_APPLICABLE, found["conductors_suffice"] != NOT_APPLICABLE) == (judged, judged)
    for material_asked, wanted in (("copper", "2/0"), ("aluminum", "4/0")):  # 83 % of 200 A: 175 A and 180 A are the first
        looked_for = rating is not None and of_size is None and material in (None, material_asked)
        verify = found[f"{material_asked}_to_verify"]
        assert (size(verify) if looked_for else verify) == (wanted if looked_for else NOT_APPLICABLE)


def test_conductors_to_look_for_outside_the_dwelling_rule() -> None:
    # The main of 200 A, not of a whole dwelling, with a bus of 225 A: 200 A are asked for; 3/0 copper, 250 kcmil aluminum.
    found = sized(100.0, home(rating=200.0, bus=225.0, whole_dwelling=False))
    assert (size(found["copper_to_verify"]), size(found["aluminum_to_verify"])) == ("3/0", "250")


# ---- the standard method ----

# lighting, small-appliance and laundry load: 220.42 (220.45 in 2023), all dwelling units together


def test_lighting_small_appliance_and_laundry() -> None:
    stated = home(area=1500.0, small_appliance_circuits=3.0, laundry_circuits=2.0)
    found = evaluated(stated, units=2)
    parts = [[found.line(found.plan.rules.methods[STANDARD].lines[name], unit) for unit in (0, 1)] for name in (
        "lighting", "small_appliance", "laundry", "lighting_of_unit",
    )]  # fmt: skip
    # 3 * 1500; 3 * 1500; 2 * 1500. The second unit has no area, two small-appliance circuits and one laundry circuit.
    assert parts == [[4500, 0], [4500, 3000], [3000, 1500], [12000, 4500]]
    assert value(found, "lighting_connected", STANDARD) == 16500
    assert value(found, "lighting_demand", STANDARD) == pytest.approx(7725, abs=NEAR)  # 3000 + 35 % of 13500


def test_what_the_standard_method_leaves_out_is_listed_once() -> None:
    washer = kind("clothes_washer", 1200, on_laundry_circuit=True, individual_circuit=False)
    sheet = Tracer(evaluated(home(washer, kind("refrigerator", 700)))).method(STANDARD)
    listed = {entry.group: entry.items for entry in sheet.left_out if entry.items}
    assert sorted(listed.values()) == [["clothes_washer"], ["refrigerator"]]


# appliances fastened in place: 220.53, 75 % of four or more. Beside four water heaters of 1500 VA each stands one of 2000 VA.

POOL = ("pool_pump", "pool_heater", "hot_tub", "well_pump")
COOKING = ("range", "wall_oven", "cooktop")
CONDITIONING = (
    "space_heater", "electric_furnace", "thermal_storage_heater", "supplemental_heat", "heat_pump", "air_conditioner", "blower",
)  # fmt: skip
OTHERS = ("dishwasher", "waste_disposer", "sump_pump", "range_hood", "other_motor", "sauna", "garage_door_opener")
READINGS = ("charging_in_standard", "microwave_in_fastened", "pool_and_well_in_fastened")


def _beside_four(extra: dict[str, Any], edition: str = DEFAULT, **readings: str) -> tuple[float, float, float]:
    """Number and load of the fastened appliances, and the other load, with one more beside four."""
    four = kind("storage_water_heater", 1500, "heaters", quantity=4.0)
    found = evaluated(
        home(four, {**extra, "name": "one more"}),
        {f"appliances.{name}": each for name, each in readings.items()},
        edition=edition,
    )
    return tuple(value(found, name, STANDARD) for name in ("fastened_number", "fastened_load", "other_load"))


JOINS, STAYS = (5, 6000, 0), (4, 4500, 0)  # 75 % of 8000; 75 % of 6000
FULL = (4, 4500, 2000)  # and 2000 VA at full rating


@pytest.mark.parametrize(("name", "outcome"), [
    *((each, STAYS) for each in (*COOKING, "clothes_dryer", *CONDITIONING, "ev_charging_equipment")),
    *((each, FULL) for each in POOL),
    ("built_in_microwave_oven", FULL),  # household cooking equipment is left out from 2020 on
    *((each, JOINS) for each in OTHERS),
])  # fmt: skip
def test_what_is_a_fastened_appliance(name: str, outcome: tuple[float, ...]) -> None:
    assert _beside_four(kind(name, 2000, fastened_in_place=True)) == outcome


@pytest.mark.parametrize(("edition", "name", "readings", "outcome"), [
    *((DEFAULT, each, {"pool_and_well_in_fastened": "fastened"}, JOINS) for each in POOL),
    (DEFAULT, "built_in_microwave_oven", {"microwave_in_fastened": "counted"}, JOINS),
    ("nec/2020", "built_in_microwave_oven", {}, FULL),
    ("nec/2017", "built_in_microwave_oven", {}, JOINS),
    ("nec/2017", "built_in_microwave_oven", {"microwave_in_fastened": "not_counted"}, FULL),
    ("nec/2020", "ev_charging_equipment", {}, STAYS),
    ("nec/2020", "ev_charging_equipment", {"charging_in_standard": "fastened"}, JOINS),
])  # fmt: skip
def test_readings_of_fastened_appliances(edition: str, name: str, readings: dict[str, str], outcome: tuple[float, ...]) -> None:
    assert _beside_four(kind(name, 2000, fastened_in_place=True), edition, **readings) == outcome


def test_appliances_that_are_not_fastened() -> None:
    loose = {"fastened_in_place": False}
    assert _beside_four(kind("dishwasher", 2000, individual_circuit=True, **loose)) == FULL
    assert _beside_four(kind("dishwasher", 2000, individual_circuit=False, **loose)) == STAYS  # covered by the lighting load
    for each in ("pool_pump", "hot_tub", "well_pump"):  # so is theirs on no circuit of its own; on one of its own it is a load
        assert _beside_four(kind(each, 2000, individual_circuit=False, **loose)) == STAYS
        assert _beside_four(kind(each, 2000, individual_circuit=True, **loose)) == FULL
    assert _beside_four(kind("clothes_washer", 2000, on_laundry_circuit=True, fastened_in_place=True)) == STAYS
    assert _beside_four(kind("clothes_dryer", 2000, individual_circuit=False, **loose)) == STAYS
    assert _beside_four(kind("ev_charging_equipment", 2000, individual_circuit=False, **loose)) == STAYS
    assert _beside_four(kind("air_conditioner", 2000, individual_circuit=False, **loose)) == STAYS


# From 2020 on 500 W or 1/4 hp. Table 430.248, 1/6 hp: 2.4 A at 208 V are 499.2 VA, 4.4 A at 120 V are 528 VA.
@pytest.mark.parametrize(("edition", "rating", "joins"), [
    ("nec/2020", {"basis": "volt_amperes", "volt_amperes": 499.0}, False),
    ("nec/2020", {"basis": "volt_amperes", "volt_amperes": 500.0}, True),
    ("nec/2023", {"basis": "watts", "watts": 499.0}, False),
    ("nec/2023", {"basis": "horsepower", "horsepower": 1 / 6, "volts": 208.0}, False),
    ("nec/2023", {"basis": "horsepower", "horsepower": 1 / 6, "volts": 115.0}, True),
    ("nec/2023", {"basis": "horsepower", "horsepower": 1 / 4, "volts": 208.0}, True),
    ("nec/2017", {"basis": "horsepower", "horsepower": 1 / 6, "volts": 208.0}, True),
])  # fmt: skip
def test_smallest_fastened_appliance(edition: str, rating: dict[str, Any], joins: bool) -> None:
    assert _beside_four(load(GLOSSARY, "waste_disposer", **rating), edition)[0] == (5 if joins else 4)


@pytest.mark.parametrize(("number", "factor"), [(1, 100), (3, 100), (4, 75), (5, 75)])
def test_number_of_fastened_appliances(number: int, factor: float) -> None:
    found = evaluated(home(kind("storage_water_heater", 1500, quantity=float(number))))
    assert value(found, "fastened_factor", STANDARD) == factor
    assert value(found, "fastened_load", STANDARD) == number * 1500 * factor / 100


# dryers: 220.54, each not less than 5000 VA


def dryers(number: int, rating: float, called: str = "dryers", **said: Any) -> dict[str, Any]:
    return kind("clothes_dryer", rating, called, quantity=float(number), **said)


@pytest.mark.parametrize(("rating", "counted"), [(4999, 5000), (5000, 5000), (5001, 5001)])
def test_each_dryer(rating: float, counted: float) -> None:
    assert value(evaluated(home(dryers(1, rating))), "dryer_load", STANDARD) == counted


def test_dryers_not_known_and_none() -> None:
    assert value(evaluated(home(load(GLOSSARY, "clothes_dryer"))), "dryer_load", STANDARD) == 5000
    none = evaluated(home())
    assert [state_of(value(none, name, STANDARD)) for name in ("dryer_load", "dryers_connected")] == [NOT_APPLICABLE] * 2
    two = evaluated(home(dryers(1, 4000, "first"), dryers(1, 7000, "second")))
    assert value(two, "dryer_load", STANDARD) == 12000  # 5000 + 7000


# On three-phase 4-wire supplies the table is entered with twice the most dryers between any two lines, and half of that
# demand stands on each line: three halves for the supply.
@pytest.mark.parametrize(("loads", "number", "demand"), [
    ([dryers(10, 5500)], 8, 39600),  # spread 4, 3, 3; 60 % of 8 * 5500 = 26400, times 3/2
    ([dryers(4, 6000)], 4, 36000),  # spread 2, 1, 1; 100 % of 4 * 6000 = 24000, times 3/2
    ([at("A B", dryers(3, 6000, "first")), at("B C", dryers(1, 6000, "second"))], 6, 40500),  # 75 % of 36000, times 3/2
    ([at("A B", dryers(1, 6000, "first")), dryers(3, 6000, "second")], 4, 36000),  # one said and one of three spread
    ([dryers(1, 5000, "first"), dryers(1, 7000, "second")], 2, 18000),  # the mean, 6000: 2 * 6000, times 3/2
])  # fmt: skip
def test_dryers_on_three_phases(loads: list[dict[str, Any]], number: float, demand: float) -> None:
    found = evaluated(home(*loads, system=THREE_PHASE))
    assert value(found, "dryers_number", STANDARD) == number
    assert value(found, "dryer_load", STANDARD) == pytest.approx(demand, abs=NEAR)


def test_dryers_whose_lines_are_said_on_one_phase() -> None:
    found = evaluated(home(at("A B", dryers(5, 6000))))
    assert value(found, "dryers_number", STANDARD) == 5
    assert value(found, "dryer_load", STANDARD) == pytest.approx(25500, abs=NEAR)  # 85 % of 30000


# cooking: Table 220.55 and its notes


def cookers(number: int, rating: float, called: str = "", **said: Any) -> dict[str, Any]:
    return kind("cooktop", rating, called or f"cookers of {rating}", quantity=float(number), **said)


def cooking(found: Evaluation, *names: str) -> list[Any]:
    """Cooking lines: a value, or the state of what has none."""
    values = [value(found, f"cooking_{name}", STANDARD) for name in names]
    return [each if state_of(each) == KNOWN else state_of(each) for each in values]


BY_COLUMN = ("column_a", "column_b", "large_in_column_c", "outside_table")


@pytest.mark.parametrize(("rating", "by_column"), [
    (1750, [NOT_APPLICABLE, NOT_APPLICABLE, NOT_APPLICABLE, 3500]),  # up to 1 3/4 kW outside the table
    (1751, [2626.5, NOT_APPLICABLE, NOT_APPLICABLE, 0]),  # A, two: 75 % of 3502
    (3499, [5248.5, NOT_APPLICABLE, NOT_APPLICABLE, 0]),  # 75 % of 6998
    (3500, [NOT_APPLICABLE, 4550, NOT_APPLICABLE, 0]),  # B, two: 65 % of 7000
    (8750, [NOT_APPLICABLE, 11375, NOT_APPLICABLE, 0]),  # 65 % of 17500
    (8751, [NOT_APPLICABLE, NOT_APPLICABLE, 11000, 0]),  # C, two
    (12499, [NOT_APPLICABLE, NOT_APPLICABLE, 11000, 0]),  # a minor fraction of a kW over 12
    (12500, [NOT_APPLICABLE, NOT_APPLICABLE, 11550, 0]),  # a major fraction: 5 % more
    (27000, [NOT_APPLICABLE, NOT_APPLICABLE, 19250, 0]),  # 15 kW over: 75 % more
    (27001, [NOT_APPLICABLE, NOT_APPLICABLE, NOT_APPLICABLE, 54002]),  # outside the table
])  # fmt: skip
def test_columns_of_the_cooking_table(rating: float, by_column: list[Any]) -> None:
    found = cooking(evaluated(home(cookers(2, rating))), *BY_COLUMN)
    assert found == [pytest.approx(each, abs=NEAR) if isinstance(each, (int, float)) else each for each in by_column]


def test_a_mixture_of_cooking_appliances() -> None:
    found = evaluated(home(cookers(2, 2000), cookers(2, 5000), cookers(1, 14000), cookers(1, 10000), cookers(1, 30000)))
    by_column = [3000, 6500, 11550, 30000]  # 75 % of 4000; 65 % of 10000; C(2) = 11000 and 5 % for (14 + 12) / 2 = 13; outside
    assert cooking(found, *BY_COLUMN) == [pytest.approx(each, abs=NEAR) for each in by_column]
    # All six by column C: the average of five of 12 kW and one of 14 kW is 12.33 kW, no major fraction over 12: C(6) = 21000.
    names = ("counted", "all_in_column_c", "by_size", "nameplates", "in_table", "load")
    assert cooking(found, *names) == [6, 21000, pytest.approx(21050, abs=NEAR), 38000, 21000, 51000]


def test_average_of_ratings_counts_each_at_12_kw_or_more() -> None:
    # Note 2, 8 kW and 16 kW: (12 + 16) / 2 = 14 kW, 2 kW over: C(2) = 11000 and 10 %.
    assert cooking(evaluated(home(cookers(1, 8000), cookers(1, 16000))), "all_in_column_c") == [pytest.approx(12100, abs=NEAR)]


# One of 2 kW and one of 9 kW: by size 80 % of 2000 + C(1) = 8000; all by column C 11000, as much as the nameplates.
@pytest.mark.parametrize(("reading", "by_size", "counted"), [
    ("", 9600, 9600), ("separately", 9600, 9600), ("all_in_column_c", NOT_APPLICABLE, 11000),
])  # fmt: skip
def test_reading_of_small_and_large_cooking(reading: str, by_size: Any, counted: float) -> None:
    choices = {"cooking.small_and_large_cooking": reading} if reading else {}
    found = evaluated(home(cookers(1, 2000), cookers(1, 9000)), choices)
    assert cooking(found, "by_size", "load") == [by_size, counted]


def test_small_cooking_alone_goes_by_note_3_in_any_reading() -> None:
    found = evaluated(home(cookers(1, 2000), cookers(1, 5000)), {"cooking.small_and_large_cooking": "all_in_column_c"})
    assert cooking(found, "by_size", "load") == [5600, 5600]  # 80 % of 2000 + 80 % of 5000


def test_the_table_of_cooking_need_not_be_used() -> None:
    assert cooking(evaluated(home(cookers(1, 9000))), "by_size", "nameplates", "load") == [8000, 9000, 8000]
    small = evaluated(home(cookers(1, 1800), cookers(1, 1700)))
    assert cooking(small, "by_size", "nameplates", "outside_table", "load") == [1440, 1800, 1700, 3140]  # 80 % of 1800


def test_no_cooking() -> None:
    names = ("all_in_column_c", "column_a", "column_b", "by_size", "nameplates", "in_table", "load")
    assert cooking(evaluated(home()), *names) == [NOT_APPLICABLE] * 6 + [0]


# Annex D5(a), in kW: ten ranges, four at the most between two lines: C(8) = 23, and three halves of it for the supply.
@pytest.mark.parametrize(("loads", "counted", "demand"), [
    ([cookers(10, 12000)], 8, 34500),
    ([at("A B", cookers(4, 12000, "1")), at("B C", cookers(3, 12000, "2")), at("C A", cookers(3, 12000, "3"))], 8, 34500),
    ([at("A B", cookers(1, 12000, "1")), cookers(4, 12000, "2")], 6, 31500),  # 1 + 2 spread: C(6) = 21
    ([cookers(10, 14000)], 8, 37950),  # Note 1: 2 kW over 12, 10 % of 23 more: 25.3
    ([cookers(3, 12000), cookers(1, 30000)], 2, 46500),  # C(2) = 11 and three halves; outside the table 30 at nameplate
    ([at("A B", cookers(2, 12000)), at("A B", cookers(1, 30000))], 4, 55500),  # C(4) = 17 and three halves, and 30
    ([cookers(2, 5000)], 2, 16500),  # neither note 3 nor the nameplate: C(2) = 11
])  # fmt: skip
def test_cooking_on_three_phases(loads: list[dict[str, Any]], counted: float, demand: float) -> None:
    found = evaluated(home(*loads, system=THREE_PHASE))
    assert cooking(found, "counted", "by_size", "nameplates") == [counted, NOT_APPLICABLE, NOT_APPLICABLE]
    assert cooking(found, "load") == [pytest.approx(demand, abs=NEAR)]


def states_of(found: Evaluation, *names: str, method: str = STANDARD) -> list[bool]:
    """Whether lines apply, for the first of what they are lines of."""
    lines = found.plan.rules.methods[method].lines
    return [state_of(found.line(lines[name], 0)) != NOT_APPLICABLE for name in names]


PAIR_LINES = ("cooking_on_pair", "cooking_spread_on_pair", "cooking_most_on_pair")
LARGE_LINES = ("large_average", "large_increase", "cooking_large_in_column_c")
COUNTED_LINES = ("cooking_counted", "cooking_average", "cooking_increase")
DRYER_LINES = ("dryers_on_pair", "dryers_spread_on_pair", "dryers_most_on_pair", "dryers_number")


@pytest.mark.parametrize(("loads", "system", "pairs", "large", "counted"), [
    ([cookers(2, 9000)], SINGLE, False, True, True),
    ([cookers(2, 5000)], SINGLE, False, False, True),  # none over column B
    ([cookers(2, 9000)], THREE_PHASE, True, False, True),  # by pairs all go by column C
    ([cookers(1, 9000)], THREE_PHASE, False, True, True),  # one alone
    ([kind("storage_water_heater", 4500)], SINGLE, False, False, False),
])  # fmt: skip
def test_which_lines_of_cooking_there_are(
    loads: list[dict[str, Any]], system: str, pairs: bool, large: bool, counted: bool
) -> None:
    found = evaluated(home(*loads, system=system))
    assert states_of(found, *PAIR_LINES) == [pairs] * 3
    assert states_of(found, *LARGE_LINES) == [large] * 3
    assert states_of(found, *COUNTED_LINES) == [counted] * 3


@pytest.mark.parametrize(("number", "system", "pairs", "counted"), [
    (2, SINGLE, False, True), (2, THREE_PHASE, True, True), (1, THREE_PHASE, False, True), (0, SINGLE, False, False),
])  # fmt: skip
def test_which_lines_of_dryers_there_are(number: int, system: str, pairs: bool, counted: bool) -> None:
    found = evaluated(home(*([dryers(number, 5500)] if number else []), system=system))
    assert states_of(found, *DRYER_LINES) == [pairs, pairs, pairs, counted]


@pytest.mark.parametrize(("rating", "of_size", "next_one"), [
    (200.0, "4/0", 200.0), (200.0, "250", None), (205.0, "250", None), (200.0, None, None), (None, "4/0", None), (35.0, "12", 20.0), (15.0, "12", None),
    (1000.0, "1000", None),
])  # fmt: skip
def test_the_next_standard_rating_is_looked_for_only_where_it_is_needed(
    rating: float | None, of_size: str | None, next_one: float | None
) -> None:
    # aluminum at 75 C, not of a whole dwelling: 4/0 carries 180 A, 250 kcmil 205 A
    supply = conductors(of_size, "aluminum") if of_size else {"conductor_material": "aluminum"}
    found = evaluated(home(rating=rating, whole_dwelling=False, **supply), amperes=100.0)
    looked = value(found, "next_rating", SIZING)
    assert (looked if state_of(looked) == KNOWN else None) == next_one
    assert (state_of(looked) == NOT_APPLICABLE) == (next_one is None)


def test_conductors_at_800_amperes_need_the_load_alone() -> None:
    assert sized(750.0, home(rating=None, state="to_be_installed", whole_dwelling=False))["ampacity"] == 750
    assert sized(801.0, home(rating=None, state="to_be_installed", whole_dwelling=False))["ampacity"] == 1000


def test_one_range_on_three_phases_is_counted_as_it_is() -> None:
    # 220.55 speaks of two or more single-phase ranges: one alone takes C(1) = 8, or 80 % of 5 kW
    assert cooking(evaluated(home(cookers(1, 12000), system=THREE_PHASE)), "counted", "load") == [1, 8000]
    assert cooking(evaluated(home(cookers(1, 5000), system=THREE_PHASE)), "counted", "load") == [1, 4000]


def test_cooking_whose_lines_are_said_on_one_phase() -> None:
    assert cooking(evaluated(home(at("A B", cookers(5, 12000)))), "counted", "load") == [5, 20000]  # C(5)


# heating and cooling: 220.51, 220.60, and 25 % of the largest motor running then, 430.24


def states(found: Evaluation) -> dict[str, list[float]]:
    """For each state its load, the addition for its largest motor, and their sum."""
    made = {}
    for state in ("cooling", "supplemental", "compressor"):
        values = [value(found, f"{state}_{part}", STANDARD) for part in ("load", "motor", "state")]
        made[state] = [each if state_of(each) == KNOWN else 0.0 for each in values]
    return made


def everything(**pump: Any) -> list[dict[str, Any]]:
    return [
        kind("air_conditioner", 7000),
        kind("heat_pump", 6000, **pump),
        kind("supplemental_heat", 10000),
        kind("electric_furnace", 5000),
        kind("space_heater", 1500),
        kind("thermal_storage_heater", 3000),
        kind("blower", 600, "blower", season="both"),
        kind("blower", 300, "heating blower", season="heating"),
        kind("blower", 200, "cooling blower", season="cooling"),
        kind("well_pump", 1000),
    ]


def test_states_of_heating_and_cooling() -> None:
    found = evaluated(home(*everything()))
    assert states(found) == {
        "cooling": [13800, 1750, 15550],  # 7000 + 6000 + 600 + 200; 25 % of 7000
        "supplemental": [26400, 1500, 27900],  # 9500 + 10000 + 6000 + 600 + 300; 25 % of 6000
        "compressor": [16400, 1500, 17900],  # 9500 + 6000 + 600 + 300
    }
    assert value(found, "heating_or_cooling", STANDARD) == 27900


def test_states_with_a_lockout() -> None:
    found = evaluated(home(*everything(stops_for_supplemental_heat=True)))
    assert states(found) == {
        "cooling": [13800, 1750, 15550],
        "supplemental": [20400, 250, 20650],  # without the compressor; the pump of 1000 VA is the largest motor left
        "compressor": [16400, 1500, 17900],
    }


@pytest.mark.parametrize(("season", "motors"), [
    ("both", [500, 500, 500]), ("heating", [250, 500, 500]), ("cooling", [500, 250, 250]),
])  # fmt: skip
def test_a_blower_as_the_largest_motor(season: str, motors: list[float]) -> None:
    # 25 % of 2000 VA while it runs, else of the pump of 1000 VA
    found = evaluated(home(kind("blower", 2000, season=season), kind("well_pump", 1000), kind("supplemental_heat", 500)))
    assert [each[1] for each in states(found).values()] == motors


@pytest.mark.parametrize(("rating", "motor"), [
    ({"basis": "rated_load_and_fan", "rated_load_amperes": 20.0, "fan_amperes": 2.0, "volts": 240.0}, 1200),  # of 20 A, 4800 VA
    ({"basis": "minimum_circuit_ampacity", "marked_amperes": 25.0, "volts": 240.0}, 0),  # it holds the addition already
    ({"basis": "amperes", "marked_amperes": 20.0, "volts": 240.0}, 1200),
    ({"basis": "horsepower", "horsepower": 5.0, "volts": 230.0}, 1680),  # 28 A at 240 V, 6720 VA
])  # fmt: skip
def test_addition_for_the_largest_motor(rating: dict[str, Any], motor: float) -> None:
    found = evaluated(home(load(GLOSSARY, "air_conditioner", **rating)))
    assert states(found)["cooling"][1] == motor


def test_compressor_alone_is_the_motor_in_each_state() -> None:
    rating = {"basis": "rated_load_and_fan", "rated_load_amperes": 20.0, "fan_amperes": 2.0, "volts": 240.0}
    pump = load(GLOSSARY, "heat_pump", **rating)
    alone = [[5280, 1200, 6480], [0, 0, 0], [5280, 1200, 6480]]  # 22 * 240; 25 % of 20 * 240
    assert list(states(evaluated(home(pump))).values()) == alone
    helped = states(evaluated(home(pump, kind("supplemental_heat", 500))))
    assert helped == {"cooling": alone[0], "supplemental": [5780, 1200, 6980], "compressor": alone[0]}


@pytest.mark.parametrize("edition", ["nec/2020", DEFAULT])
def test_a_motor_left_out_with_its_season(edition: str) -> None:
    # 220.60 from 2020: by default heat alone with the pump, 25 % of 1000; literally also the air conditioner, 25 % of 5000.
    stated = home(kind("electric_furnace", 20000), kind("air_conditioner", 5000), kind("well_pump", 1000))
    assert states(evaluated(stated, edition=edition))["compressor"] == [20000, 250, 20250]
    literal = {"standard.motor_left_out": "left_out_too"}
    assert states(evaluated(stated, literal, edition=edition))["compressor"] == [20000, 1250, 21250]
    heating_blower = home(kind("air_conditioner", 5000), kind("blower", 6000, season="heating"))
    assert states(evaluated(heating_blower, edition=edition))["cooling"] == [5000, 1250, 6250]
    assert states(evaluated(heating_blower, literal, edition=edition))["cooling"] == [5000, 1500, 6500]
    locked = everything(stops_for_supplemental_heat=True)
    assert states(evaluated(home(*locked), edition=edition))["supplemental"] == [20400, 250, 20650]
    assert states(evaluated(home(*locked), literal, edition=edition))["supplemental"] == [20400, 1750, 22150]


def test_no_reading_of_motors_left_out_before_2020() -> None:
    assert "motor_left_out" not in rules_of("nec/2017").documents["standard"].interpretations


def test_heating_without_supplemental_heat_has_one_state() -> None:
    found = evaluated(home(kind("electric_furnace", 10000), kind("blower", 800)))
    names = ("supplemental_load", "supplemental_motor", "supplemental_state")
    assert [state_of(value(found, name, STANDARD)) for name in names] == [NOT_APPLICABLE] * 3
    assert states(found)["compressor"] == [10800, 200, 11000]


def test_compressor_current_at_the_marked_voltage() -> None:
    rating = {"basis": "rated_load_and_fan", "rated_load_amperes": 20.0, "fan_amperes": 2.0, "volts": 230.0}
    found = evaluated(home(load(GLOSSARY, "air_conditioner", **rating)), {"nameplate.voltage_of_amperes": "nameplate"})
    assert states(found)["cooling"] == [5060, 1150, 6210]  # 22 * 230; 25 % of 20 * 230


def test_motors_that_are_left_out_add_nothing() -> None:
    washer = kind("clothes_washer", 3000, "washer", on_laundry_circuit=True, motor=True)
    loose = kind("other_motor", 4000, fastened_in_place=False, individual_circuit=False)
    heater = kind("storage_water_heater", 4500)  # no motor
    assert states(evaluated(home(washer, loose, heater, kind("well_pump", 1000))))["cooling"] == [0, 250, 250]


def test_largest_motor_not_added() -> None:
    found = evaluated(home(*everything()), {f"{STANDARD}.largest_motor_taken": "not_added"})
    assert states(found) == {
        "cooling": [13800, 0, 13800],
        "supplemental": [26400, 0, 26400],
        "compressor": [16400, 0, 16400],
    }


# charging: in 2023 220.57, not less than 7200 VA each; before, and in 2026, its rating


@pytest.mark.parametrize(("edition", "rating", "counted"), [
    (DEFAULT, 7199, 14400), (DEFAULT, 7200, 14400), (DEFAULT, 7201, 14402), ("nec/2020", 7199, 14398), ("nec/2014", 2000, 4000),
    ("nec/2026", 7199, 14398), ("nec/2026", 7201, 14402),
])  # fmt: skip
def test_charging(edition: str, rating: float, counted: float) -> None:
    found = evaluated(home(kind("ev_charging_equipment", rating, quantity=2.0)), edition=edition)
    assert value(found, "charging_load", STANDARD) == counted
    assert value(found, "other_load", STANDARD) == value(found, "fastened_load", STANDARD) == 0


def test_charging_as_a_fastened_appliance_before_2023() -> None:
    charger = kind("ev_charging_equipment", 9600)
    found = evaluated(home(charger), {"appliances.charging_in_standard": "fastened"}, edition="nec/2020")
    assert [value(found, name, STANDARD) for name in ("charging_load", "fastened_load", "other_load")] == [0, 9600, 0]
    loose = {**charger, "fastened_in_place": False}
    apart = evaluated(home(loose), {"appliances.charging_in_standard": "fastened"}, edition="nec/2020")
    assert [value(apart, name, STANDARD) for name in ("charging_load", "fastened_load", "other_load")] == [9600, 0, 0]


# the whole


@pytest.mark.parametrize(("system", "divisor"), [(SINGLE, 240.0), (TWO_LINES, 208.0), (THREE_PHASE, 208 * 1.732)])
def test_the_standard_total(system: str, divisor: float) -> None:
    loads = [
        cookers(2, 9000),
        dryers(2, 5500),
        kind("storage_water_heater", 4500),
        kind("well_pump", 1000),
        kind("electric_furnace", 10000),
        kind("ev_charging_equipment", 9600, quantity=2.0),
    ]
    found = evaluated(home(*loads, system=system))
    # Lighting 4500 + 4500 = 9000: 3000 + 35 % of 6000 = 5100. Cooking C(2) = 11000, on three phases, one on a pair, 3/2 of it;
    # dryers 11000, there 3/2 * 2 * 5500 = 16500. Heating 10000 + 25 % of the pump's 1000.
    cooking_load, dryer_load = (16500, 16500) if system == THREE_PHASE else (11000, 11000)
    total = 5100 + 4500 + dryer_load + cooking_load + 10250 + 19200 + 1000
    assert value(found, "total", STANDARD) == pytest.approx(total, abs=NEAR)
    results = {name: found.line(line) for name, line in found.plan.rules.methods[STANDARD].results.items()}
    assert results["total"] == pytest.approx(total, abs=NEAR)
    assert results["amperes"] == pytest.approx(total / divisor, abs=NEAR)
    assert results["continuous"] == pytest.approx(19200 / divisor, abs=NEAR)
    assert value(found, "continuous_load", STANDARD) == 19200


def test_demand_factors_enter_the_standard_total() -> None:
    found = evaluated(home(dryers(5, 6000), kind("storage_water_heater", 3000, quantity=4.0)))
    # 5100 of lighting; 85 % of 30000; 75 % of 12000
    assert value(found, "total", STANDARD) == pytest.approx(5100 + 25500 + 9000, abs=NEAR)


# ---- the neutral: 220.61 ----


def neutral(found: Evaluation, *names: str) -> list[Any]:
    values = [value(found, name, NEUTRAL) for name in names]
    return [each if state_of(each) == KNOWN else state_of(each) for each in values]


# 70 % of cooking and dryers, not on two lines of a wye: 70 % of 11000 and of 11000
@pytest.mark.parametrize(
    ("system", "shares"), [(SINGLE, [7700, 7700]), (TWO_LINES, [11000, 11000]), (THREE_PHASE, [11550, 11550])]
)
def test_cooking_and_dryers_on_the_neutral(system: str, shares: list[float]) -> None:
    found = evaluated(home(cookers(2, 9000), dryers(2, 5500), system=system))  # on three phases 16500 each, see above
    assert neutral(found, "neutral_cooking", "neutral_dryers") == [pytest.approx(each, abs=NEAR) for each in shares]
    assert neutral(evaluated(home(system=system)), "neutral_cooking", "neutral_dryers") == [0, NOT_APPLICABLE]


LN, LLN, LL = "line_to_neutral", "line_to_line_and_neutral", "line_to_line"
AT_120 = {"basis": "amperes", "marked_amperes": 10.0, "volts": 120.0}
AT_240 = {"basis": "amperes", "marked_amperes": 10.0, "volts": 240.0}
COUNTS = ("neutral_both_lines", "neutral_not_placed")


@pytest.mark.parametrize(("made", "counted"), [
    (kind("hot_tub", 8000, connection=LLN), [8000, 0]),
    (kind("hot_tub", 8000, connection=LN), [0, 8000]),
    (kind("hot_tub", 8000, connection=LL), [0, 0]),
    (kind("wall_oven", 8000, connection=LLN), [0, 0]),  # with the cooking, at 70 %
    (kind("wall_oven", 1700, connection=LLN), [0, 0]),  # also what is outside the table
    (kind("clothes_dryer", 8000, connection=LLN), [0, 0]),
    (kind("clothes_washer", 800, connection=LN, on_laundry_circuit=True), [0, 0]),  # covered by the laundry load
    (kind("dishwasher", 800, connection=LN, fastened_in_place=False, individual_circuit=False), [0, 0]),
    (load(GLOSSARY, "dishwasher", connection=LN, **AT_120), [0, 1200]),
    (load(GLOSSARY, "dishwasher", connection=LN, **AT_240), [0, 0]),  # rated between the lines, whatever is said
    (load(GLOSSARY, "hot_tub", connection=LLN, **AT_240), [2400, 0]),
])  # fmt: skip
def test_what_is_on_the_neutral(made: dict[str, Any], counted: list[float]) -> None:
    assert neutral(evaluated(home(made)), *COUNTS) == counted


def test_a_voltage_that_is_none_of_the_supply() -> None:
    # 277 V is no nominal voltage of a dwelling: whether it is on the neutral cannot be told, and is not guessed.
    odd = kind("dishwasher", 800, connection=LN, volts=277.0)
    assert neutral(evaluated(home(odd)), "neutral_not_placed") == [UNKNOWN]


def test_neutral_load_spread_over_the_lines() -> None:
    loads = [cookers(1, 9000), dryers(1, 5500), kind("hot_tub", 8000, connection=LLN), kind("dishwasher", 1200, connection=LN)]
    found = evaluated(home(*loads))
    # 5100 lighting + 5600 + 3850 + 8000 + 1200 = 23750 VA, at 240 V 98.9583 A
    assert neutral(found, "neutral_spread", "neutral_load") == [pytest.approx(23750, abs=NEAR)] * 2
    results = {name: found.line(line) for name, line in found.plan.rules.methods[NEUTRAL].results.items()}
    assert results["spread"] == pytest.approx(23750, abs=NEAR)
    assert [results["unreduced"], results["neutral_amperes"]] == [pytest.approx(23750 / 240, abs=NEAR)] * 2
    three = evaluated(home(loads[2], loads[3], system=THREE_PHASE))
    assert neutral(three, "neutral_spread_amperes") == [pytest.approx(14300 / (208 * 1.732), abs=NEAR)]  # 5100 + 8000 + 1200


def test_largest_motor_on_the_neutral() -> None:
    # 25 % of the larger of 720 and 600 VA, where no motor is said to stand on a line; of one that is, 25 % on that line alone
    pump, fan = kind("sump_pump", 720, connection=LN), kind("other_motor", 600, connection=LN)
    assert neutral(evaluated(home(pump, fan)), "neutral_motor_not_placed", "neutral_spread") == [180, 5100 + 1320 + 180]
    assert neutral(evaluated(home(pump)), "neutral_motor_not_placed") == [180]
    placed = at("B", kind("waste_disposer", 480, connection=LN))
    found = evaluated(home(pump, fan, placed))
    assert neutral(found, "neutral_motor_not_placed", "neutral_spread") == [NOT_APPLICABLE, 5100 + 1320]
    motor = found.plan.rules.methods[NEUTRAL].lines["placed_motor_amperes"]
    assert [found.line(motor, 1), state_of(found.line(motor, 0))] == [1, NOT_APPLICABLE]  # 25 % of 480 over 120 V
    without = evaluated(home(pump, placed), {"standard.largest_motor_taken": "not_added"})
    assert neutral(without, "neutral_motor_not_placed", "neutral_spread") == [NOT_APPLICABLE, 5820]
    assert state_of(without.line(motor, 1)) == NOT_APPLICABLE
    marked = {"basis": "minimum_circuit_ampacity", "marked_amperes": 10.0, "volts": 120.0}
    whole = evaluated(home(load(GLOSSARY, "other_motor", connection=LN, **marked)))
    assert neutral(whole, "neutral_motor_not_placed", "neutral_spread") == [NOT_APPLICABLE, 6300]
    of_line = evaluated(home(at("A", load(GLOSSARY, "other_motor", connection=LN, **marked))))
    assert state_of(of_line.line(motor, 0)) == NOT_APPLICABLE


def test_loads_on_one_line() -> None:
    loads = [
        at("A", kind("dishwasher", 1200, connection=LN)),
        at("A", kind("waste_disposer", 960, connection=LN)),
        at("A", kind("other_motor", 600, connection=LN)),
        at("B", kind("dishwasher", 2400, "second dishwasher", connection=LN)),
        at("A B", kind("hot_tub", 8000, connection=LLN)),
        kind("sump_pump", 720, connection=LN),
    ]
    found = evaluated(home(*loads))
    methods = found.plan.rules.methods[NEUTRAL].lines
    lines = {name: [found.line(methods[name], at) for at in (0, 1)] for name in ("placed_load", "placed_amperes")}
    assert lines == {"placed_load": [2760, 2400], "placed_amperes": [23, 20]}  # 1200 + 960 + 600; over 120 V
    assert found.line(methods["placed_motor_amperes"], 0) == 2  # 25 % of 960 over 120 V
    assert state_of(found.line(methods["placed_motor_amperes"], 1)) == NOT_APPLICABLE
    # Spread: 5100 lighting + 8000 + 720 = 13820 VA, 57.5833 A; line A has 23 + 2 A more, line B 20 A.
    by_line = [found.line(methods["line_to_neutral_amperes"], at) for at in (0, 1)]
    assert by_line == [pytest.approx(13820 / 240 + 25, abs=NEAR), pytest.approx(13820 / 240 + 20, abs=NEAR)]
    unreduced = found.line(found.plan.rules.methods[NEUTRAL].results["unreduced"])
    assert unreduced == pytest.approx(13820 / 240 + 25, abs=NEAR)


# 220.61(B)(2): of what is over 200 A 70 %, not on two lines of a wye. 5100 VA of lighting and one load on line A.
@pytest.mark.parametrize(("system", "amperes"), [
    (SINGLE, 21.25 + 500),  # 5100 / 240
    (TWO_LINES, 5100 / 208 + 500),
    (THREE_PHASE, 5100 / (208 * 1.732) + 500),
])  # fmt: skip
@pytest.mark.parametrize("nonlinear", [0.0, 20000.0])
def test_a_large_neutral(system: str, amperes: float, nonlinear: float) -> None:
    loads = [at("A", kind("dishwasher", 60000 - nonlinear, connection=LN))]  # 500 A at 120 V, part of it nonlinear
    if nonlinear:
        loads.append(at("A", kind("dishwasher", nonlinear, "electronic", connection=LN, nonlinear=True)))
    found = evaluated(home(*loads, system=system))
    not_reduced = nonlinear / (208 * 1.732) if system == THREE_PHASE else 0.0
    reduced = 200 + 0.7 * (amperes - not_reduced - 200) + not_reduced
    assert found.line(found.plan.rules.methods[NEUTRAL].results["unreduced"]) == pytest.approx(amperes, abs=1e-6)
    assert neutral(found, "neutral_amperes") == [pytest.approx(amperes if system == TWO_LINES else reduced, abs=1e-6)]


def test_a_neutral_that_is_nonlinear_all_through() -> None:
    # The nonlinear part is no more than the whole: nothing is left to reduce. Spread alone, 40000 VA and 5100 VA of lighting.
    found = evaluated(home(kind("dishwasher", 400000, connection=LN, nonlinear=True), system=THREE_PHASE))
    whole, part = 405100 / (208 * 1.732), 400000 / (208 * 1.732)
    assert neutral(found, "nonlinear_amperes", "reducible_amperes") == [
        pytest.approx(part, abs=1e-6), pytest.approx(whole - part, abs=1e-6),
    ]  # fmt: skip
    assert neutral(found, "neutral_amperes") == [pytest.approx(whole, abs=1e-6)]  # what is left is under 200 A
    both = evaluated(home(kind("hot_tub", 8000, connection=LLN, nonlinear=True), system=THREE_PHASE))
    assert neutral(both, "nonlinear_amperes") == [pytest.approx(8000 / (208 * 1.732), abs=1e-6)]
    said = at("C", kind("dishwasher", 12000, "on C", connection=LL, nonlinear=True))
    other = evaluated(home(said, system=THREE_PHASE))
    assert neutral(other, "nonlinear_amperes") == [0]  # between lines it is not on the neutral


# ---- panelboards: 408.54, a tandem breaker puts two circuits in one space ----


def panelled(*panels: tuple[float, list[tuple[float, float, bool]]]) -> Evaluation:
    """A house with panelboards: spaces, and circuits with breaker, poles and whether they are tandem."""
    rules = rules_of(DEFAULT)
    facts = facts_of(rules.glossary, home())
    for at_panel, (spaces, circuits) in enumerate(panels):
        facts.add("panels", f"panel {at_panel}", {"spaces": spaces, "spaces_said_taken": 0.0})
        for breaker, poles, tandem in circuits:
            facts.add(
                "circuits",
                "circuit",
                {"breaker": breaker, "poles": poles, "tandem": tandem, "load_replaced": False, "load_planned": False},
                owner=at_panel,
            )
    return Evaluation(plan_of(rules), facts)


def panel(found: Evaluation, name: str, number: int = 0) -> Any:
    return found.line(found.plan.rules.methods[PANELS].lines[name], number)


CIRCUITS = [(50.0, 2.0, False), (30.0, 2.0, False), (20.0, 1.0, False), *[(15.0, 1.0, True)] * 3]


@pytest.mark.parametrize(("spaces", "left", "suffice"), [(8.0, 1, True), (7.0, 0, True), (6.0, -1, False)])
def test_breaker_spaces(spaces: float, left: float, suffice: bool) -> None:
    found = panelled((spaces, CIRCUITS))
    assert panel(found, "spaces_single") == 5  # 2 + 2 + 1
    assert panel(found, "spaces_tandem") == 2  # three tandem breakers, two in one
    assert panel(found, "spaces_taken") == 7
    assert (panel(found, "spaces_left"), panel(found, "spaces_suffice")) == (left, suffice)
    assert panel(found, "breakers_sum") == 145  # 50 + 30 + 20 + 3 * 15
    results = found.plan.rules.methods[PANELS].results
    assert (found.line(results["suffice"]), found.line(results["breakers"])) == (suffice, 145)


@pytest.mark.parametrize(("tandem", "spaces"), [(0, 0), (1, 1), (2, 1), (3, 2), (4, 2), (5, 3)])
def test_tandem_breakers(tandem: int, spaces: float) -> None:
    assert panel(panelled((20.0, [(15.0, 1.0, True)] * tandem)), "spaces_tandem") == spaces


def test_each_panelboard_for_itself() -> None:
    found = panelled((6.0, CIRCUITS), (12.0, [(40.0, 2.0, False)]))
    assert [panel(found, "spaces_left", number) for number in (0, 1)] == [-1, 10]
    results = found.plan.rules.methods[PANELS].results
    assert (found.line(results["suffice"]), found.line(results["breakers"])) == (False, 185)  # one short; 145 + 40


# ---- numbers, typed apart from the rules from the notes on the code ----

NUMBERS = {
    "appliances.fastened_from": 4,  # 220.53, two sources
    "appliances.fastened_share": 75,
    "standard.no_smallest_rating": 0,  # Part III asks for none; memory
    "standard.dryer_minimum": 5000,  # 220.54, two sources
    "standard.largest_motor_share": 25,  # 430.24, two sources
    "cooking.cooking_table_over": 1750,  # Table 220.55, its heading: over 1 3/4 kW, two sources
    "cooking.column_b_from": 3500,  # its columns: A under 3 1/2, B to 8 3/4, C not over 12 kW, two sources
    "cooking.column_b_to": 8750,
    "cooking.cooking_full_rating": 12000,
    "cooking.cooking_table_to": 27000,  # notes 1 and 2, two sources
    "neutral.neutral_share": 70,  # 220.61(B)(1), two sources
    "neutral.unreduced_share": 100,
    "sizing.next_rating_to": 800,  # 240.4(B), two sources
    "sizing.continuous_addition": 25,  # 215.2, 215.3: 125 %, two sources
    "conductors.terminals_75_over": 100,  # 110.14(C)(1), two sources
}
NUMBERS_OF = {  # those that not every edition has, with the editions that have them
    "appliances.fastened_smallest": (500, EDITIONS[2:]),  # 220.53 of 2020: 500 W or 1/4 hp, two sources; 2026 memory
    "appliances.fastened_smallest_horsepower": (0.25, EDITIONS[2:]),
    "standard.charging_minimum": (7200, ["nec/2023"]),  # 220.57, two sources
    "standard.charging_if_unknown": (7200, ["nec/2026"]),  # 120.57, only where the rating is not known: weak source
    "dwelling_circuits.lighting_of_circuits": (3, ["nec/2026"]),  # the number of circuits alone: weak source
    "listed_loads.continuous_share": (125, EDITIONS[:4]),  # a strict reading, which 120.5(E) rules out: two sources
}


@pytest.mark.parametrize("edition", EDITIONS)
def test_numbers(edition: str) -> None:
    rules = rules_of(edition)
    typed = NUMBERS | {name: number for name, (number, editions) in NUMBERS_OF.items() if edition in editions}
    for address, number in typed.items():
        document, _, name = address.partition(".")
        parameter = rules.documents[document].parameters[name]
        assert rules.glossary.units.quantity(parameter.value)[0] == number, address
    for address, (_, editions) in NUMBERS_OF.items():
        document, _, name = address.partition(".")
        assert (name in rules.documents[document].parameters) is (edition in editions)


# Numbers that are equal for different reasons: a local amendment that changes one of them changes what rests on it, no more.

AMENDMENT = """
amendment: Numbers told apart
jurisdiction: Nowhere
amends: nec/2023
in_force: not known
fixed_by: application
status: policy
source: project_policy
sets:
  - title: One number each
    changes:
      - {{change: {address}.value, was: {was}, now: {now}, cite: for the test, source: project_policy, confidence: memory}}
"""


def amended(folder: Path, address: str, was: str, now: str) -> RuleSet:
    """The rules with one number changed."""
    path = folder / "amendment.yaml"
    path.write_text(AMENDMENT.format(address=address, was=was, now=now), encoding="utf-8")
    rules = os.environ.get("DWELLCALC_TEST_RULES")
    return load_rules(DEFAULT, Path(rules) if rules else None, [path])


def test_shares_of_heating_are_told_apart(tmp_path: Path) -> None:
    loads = [kind("supplemental_heat", 10000), kind("electric_furnace", 5000), kind("space_heater", 1500, quantity=3.0)]
    names = ("supplemental_demand", "central_demand", "separate_demand")
    few = evaluated(home(*loads), rules=amended(tmp_path, "optional_dwelling.few_heaters_share", "65 %", "70 %"))
    assert [value(few, name) for name in names] == [6500, 3500, 3150]  # 65 % of 10000; 70 % of 5000 and of 4500
    strips = evaluated(home(*loads), rules=amended(tmp_path, "optional_dwelling.supplemental_share", "65 %", "70 %"))
    assert [value(strips, name) for name in names] == [7000, 3250, 2925]  # 70 % of 10000; 65 % of 5000 and of 4500


def test_circuits_of_1500_volt_amperes_are_told_apart(tmp_path: Path) -> None:
    stated = home(small_appliance_circuits=3.0, laundry_circuits=2.0)
    for changed, amounts in (("small_appliance_load", [6000, 3000]), ("laundry_load", [4500, 4000])):  # 2000 VA/circuit
        rules = amended(tmp_path, f"dwelling_loads.{changed}", "1500 VA/circuit", "2000 VA/circuit")
        for method in (OPTIONAL, STANDARD):
            found = evaluated(stated, rules=rules)
            assert [value(found, name, method) for name in ("small_appliance", "laundry")] == amounts


def test_limits_of_100_amperes_are_told_apart(tmp_path: Path) -> None:
    # 3 AWG copper carries 100 A, 4 AWG 85 A: under a limit of 110 A neither suffices by itself; 83 % of it is 91.3 A.
    use = amended(tmp_path, "optional_dwelling.smallest_ampacity", "100 A", "110 A")
    literal = {f"{OPTIONAL}.hundred_ampere_condition": "by_ampacity"}
    three, four = (home(rating=100.0, **conductors(of_size, "copper")) for of_size in ("3", "4"))
    assert value(evaluated(three, literal, rules=use), "ampacity_suffices") is False
    assert value(evaluated(three, rules=use), "ampacity_suffices") is True
    assert value(evaluated(four, rules=use), "ampacity_suffices") is False
    # The dwelling rule from 90 A: 90 A calculated for a feeder take 83 % of 90 A, and 4 AWG copper serves a main of 90 A.
    rule = amended(tmp_path, "conductors.dwelling_from", "100 A", "90 A")
    feeder = sized(90.0, home(service=False, rating=90.0, **conductors("4", "copper")), rules=rule)
    assert (feeder["ampacity"], feeder["rating_by_conductors"]) == (pytest.approx(74.7, abs=NEAR), 90)
    # The 75 C column from over 150 A on: 1/0 copper under 125 A with terminals of 60 C carries 125 A.
    column = amended(tmp_path, "conductors.terminals_75_over", "100 A", "150 A")
    assert (
        value(evaluated(home(rating=125.0, terminals="t60", **conductors("1/0", "copper")), rules=column), "conductor_ampacity")
        == 125
    )
    # The smallest service of a one-family dwelling, 80 A: a load of 40 A needs no more.
    smallest = amended(tmp_path, "sizing.one_family_minimum", "100 A", "80 A")
    assert sized(40.0, home(), rules=smallest)["minimum_rating"] == 80
    assert sized(80.0, home(rating=None), rules=smallest)["ampacity"] == 80  # the dwelling rule still begins with 100 A
    assert sized(80.0, home(rating=80.0, **conductors("4", "copper")), rules=smallest)["rating_by_conductors"] == 85


# where each rule stands: the sections by subject, typed apart from the rules from the notes on the code; those that the
# second entry has are compared with it too (test_tables). Parts of a section are cited by what they say, as the notes list them.

SECTIONS = {
    "nominal_voltage": "220.5(A)",
    "rounding": "220.5(B)",
    "connected_load": "220.14",  # memory
    "watts_as_volt_amperes": "220.54, 220.55",  # kW counts as kVA for dryers and for cooking
    "small_appliance": "220.52(A)",
    "small_appliance_number": "210.11(C)(1)",
    "laundry": "220.52(B)",
    "dryers": "220.54",
    "standard_method": "220.40",
    "fastened": "220.53",
    "cooking": "Table 220.55",
    "cooking_note_1": "Table 220.55 Note 1",
    "cooking_note_2": "Table 220.55 Note 2",
    "cooking_note_3": "Table 220.55 Note 3",
    "cooking_three_phase": "220.55",
    "largest_motor": "220.50, 430.24",
    "space_heating": "220.51",
    "space_conditioning": "220.50",
    "noncoincident": "220.60",
    "other_loads": "220.14(A)",  # memory
    "continuous_feeder": "215.2, 215.3",
    "neutral": "220.61(A)",
    "neutral_reduction": "220.61(B)(1)",
    "neutral_over": "220.61(B)(2)",
    "neutral_no_reduction": "220.61(C)",
    "panelboard_spaces": "408.54",
    "optional_dwelling": "220.82(A)",
    "optional_general": "220.82(B)",
    "optional_lighting": "220.82(B)(1)",
    "optional_circuits": "220.82(B)(2)",
    "optional_covered": "220.82(B)(1), 220.82(B)(2)",
    "optional_appliances": "220.82(B)(3)(a)",
    "optional_cooking": "220.82(B)(3)(b)",
    "optional_dryers": "220.82(B)(3)(c)",
    "optional_water_heaters": "220.82(B)(3)(d)",
    "optional_motors": "220.82(B)(4)",
    "optional_heating_or_cooling": "220.82(C)",
    "optional_cooling": "220.82(C)(1)",  # the numbers of the six selections: as the notes list them, memory
    "optional_heat_pump": "220.82(C)(2)",
    "optional_heat_pump_supplemental": "220.82(C)(3)",
    "optional_few_heaters": "220.82(C)(4)",
    "optional_many_heaters": "220.82(C)(5)",
    "optional_storage": "220.82(C)(6)",
    "supply_conductors": "230.42, 215.2",
    "supply_rating": "230.79, 215.3",
    "next_standard_rating": "240.4(B)",
    "over_800_amperes": "240.4(C)",
    "service_minimum_one_family": "230.79(C)",
    "service_minimum_other": "230.79(D)",
    "panelboard_rating": "408.30",  # memory
    "terminals": "110.14(C)(1)",
    "standard_ratings": "240.6(A)",
}
TABLE_OF_DWELLING_CONDUCTORS = {"nec/2020": "Table 310.12", "nec/2023": "Table 310.12(A)", "nec/2026": "Table 310.12(A)"}
# Charging: 2014 has the separate circuit in 210.17, overcurrent in 625.40, rating, continuous load and load management in
# 625.41 (memory); from 2017 overcurrent in 625.41, the rest in 625.42, two sources; parts (A) and (B) of it in 2023, two
# sources. Before 2023 no section names its load: memory. Energy management at large: 220.70 with 750.30, two sources; power
# control systems: 120.7 with Part II of Article 130, two sources.
CHARGING = {
    "charging": ["220.14(A)", "220.14(A)", "220.14(A)", "220.57", "120.57"],
    "charging_circuit": ["625.40", "625.41", "625.41", "625.41", "625.41"],
    "continuous_charging": ["625.41", "625.42", "625.42", "625.42", "625.42"],
    "adjusted_setting": ["625.41", "625.42", "625.42", "625.42(B)", "625.42(B)"],
    "energy_management": ["625.41", "625.42", "625.42", "220.70, 625.42(A), 750.30", "120.7, Article 130 Part II"],
}
IN_2026 = {  # what did not merely move with Article 220
    "watts_as_volt_amperes": "120.5(D), 120.54, 120.55",  # 120.5(D): one source
    "optional_charging_item": "120.82(D)",  # a draft and weak sources
    "continuous_not_raised": "120.5(E)",  # two sources
    "instantaneous_water_heaters": "120.56",  # weak source; its figures were not found
}


@pytest.mark.parametrize("edition", EDITIONS)
def test_sections(edition: str) -> None:
    rules = rules_of(edition)
    typed = SECTIONS | {"lighting_demand": "Table 220.45" if edition >= "nec/2023" else "Table 220.42"}
    if edition == "nec/2026":  # Article 220 is Article 120, suffixes kept: two sources for the move, a weak one for the suffixes
        typed = {name: section.replace("220.", "120.") for name, section in typed.items()} | IN_2026
    typed |= {name: sections[EDITIONS.index(edition)] for name, sections in CHARGING.items()}
    assert {name: rules.section(name) for name in typed} == typed
    shown = rules.section("dwelling_conductor_table")
    assert shown == TABLE_OF_DWELLING_CONDUCTORS.get(edition, "dwelling_conductor_table")
