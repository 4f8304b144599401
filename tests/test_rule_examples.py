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

from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.evaluate.work import KNOWN, NOT_APPLICABLE, UNKNOWN, state_of
from dwellcalc.glossary import Glossary
from dwellcalc.language.rule_set import RuleSet, load_rules

OPTIONAL, SIZING = "optional_dwelling", "sizing"
EDITIONS = ("nec/2014", "nec/2017", "nec/2020", "nec/2023")
LATEST = EDITIONS[-1]
GLOSSARY: Glossary = rules_of(LATEST).glossary
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


def conductors(size: str, material: str | None) -> dict[str, Any]:
    """Supply conductors, as a house states them."""
    return {"conductor_size": SIZES.index(size), "conductor_material": material}


def evaluated(
    stated: dict[str, Any],
    choices: dict[str, str] | None = None,
    *,
    edition: str = LATEST,
    amperes: float | None = None,
    continuous: float = 0.0,
    units: int = 1,
    rules: RuleSet | None = None,
) -> Evaluation:
    """An evaluation of a house; ``amperes`` is the calculated load that sizing is given, ``continuous`` what is continuous."""
    rules = rules or rules_of(edition)
    facts = facts_of(rules.glossary, stated)
    for more in range(1, units):
        facts.add("dwelling_units", f"unit {more}", {"small_appliance_circuits": 2.0, "laundry_circuits": 1.0})
    given = {"calculated_amperes": amperes, "continuous_amperes": continuous} if amperes is not None else {}
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
    assert evaluated(home(system=system, **conductors("4/0", "copper"))).permitted(OPTIONAL) == [may, True, True]


@pytest.mark.parametrize(("whole", "service"), list(product((True, False), repeat=2)))
def test_use_asks_for_the_entire_load(whole: bool, service: bool) -> None:
    supply = home(whole_dwelling=whole, service=service, **conductors("4/0", "copper"))
    assert evaluated(supply).permitted(OPTIONAL) == [True, whole, True]


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
    assert evaluated(supply).permitted(OPTIONAL)[-1] is counts


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
    return evaluated(home(*chargers), {f"{OPTIONAL}.charging_in_optional": reading})


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
    found = evaluated(home(room), {f"{OPTIONAL}.room_cooling_in_optional": reading})
    left_out = reading == "left_out" and not fastened and not individual
    assert value(found, "cooling") == (0 if left_out else 1440)
    assert value(found, "appliances_connected") == 0


def test_blower_among_the_general_loads() -> None:
    loads = [kind("blower", 600), kind("air_conditioner", 4000), kind("electric_furnace", 10000)]
    found = evaluated(home(*loads), {f"{OPTIONAL}.blower_in_optional": "in_general_loads"})
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


@pytest.mark.parametrize(("reading", "volts"), [("nominal", 240.0), ("nameplate", 230.0)])
def test_voltage_of_a_marked_current(reading: str, volts: float) -> None:
    plain = load(GLOSSARY, "well_pump", basis="amperes", marked_amperes=10.0, volts=230.0)
    by_ampacity = load(GLOSSARY, "heat_pump", basis="minimum_circuit_ampacity", marked_amperes=20.0, volts=230.0)
    parts = {"rated_load_amperes": 15.0, "fan_amperes": 1.5, "volts": 230.0}
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
    assert found["margin"] == 100 - compared


# the smallest service: 230.79(C), 100 A for a one-family dwelling; 230.79(D), 60 A for all others


@pytest.mark.parametrize(("service", "whole", "units", "minimum"), [
    (True, True, 1, second.SERVICE_MINIMUM["one_family"]),
    (True, False, 1, second.SERVICE_MINIMUM["one_family"]),
    (False, True, 1, second.SERVICE_MINIMUM["others"]),
    (True, True, 2, second.SERVICE_MINIMUM["others"]),
])  # fmt: skip
def test_smallest_service(service: bool, whole: bool, units: int, minimum: float) -> None:
    assert sized(40.0, home(service=service, whole_dwelling=whole), units=units)["minimum_rating"] == minimum


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
    (450.0, {}, 450.0, "700", "1000"),  # a rating of 450 A is over 400 A; 460 A, and 445 A of 1000 kcmil is too little
    (150.0, {"service": False}, 124.5, "1", "2/0"),  # a feeder of the whole dwelling: 83 % of 150 A; 130 A, 135 A
    (400.0, {}, 332.0, "400", "600"),  # the rule ends with 400 A, which is in: 335 A, 340 A
    (95.0, {"service": False}, 83.0, "4", "2"),  # the next rating of 100 A is in the rule, the load itself would not be
    (180.6, {"whole_dwelling": False}, 180.6, "3/0", "250"),  # not rounded; 200 A, 205 A
    (230.0, {"whole_dwelling": False}, 230.0, "4/0", "300"),  # the load, not the next rating of 250 A; 230 A, 230 A
    (40.0, {"service": False}, 60.0, "6", "4"),  # not less than the smallest rating, 60 A; 65 A, 65 A
    (40.0, {"system": THREE_PHASE}, 100.0, "3", "1"),  # nor than 100 A for the service of a one-family dwelling
    (150.0, {"service": False, "terminals": "t60"}, 124.5, "1", "2/0"),  # Table 310.12 whatever is said of the terminals
    (105.0, {}, 91.3, "3", "1"),  # the next rating is 110 A, not one that is commonly offered: 83 % of it
])  # fmt: skip
def test_conductors_for_new(amperes: float, said: dict[str, Any], ampacity: float, copper: str, aluminum: str) -> None:
    found = sized(amperes, home(**{"rating": None, "state": "to_be_installed", **said}))
    assert found["ampacity"] == pytest.approx(ampacity, abs=NEAR)
    assert size(found["copper"]) == copper
    if amperes == 450:
        assert found["aluminum"] == UNKNOWN
    else:
        assert size(found["aluminum"]) == aluminum


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
    (200.0, "4/0", "aluminum", {"whole_dwelling": False}, 180.0, False),  # 200 A asked for
    (200.0, "3/0", "copper", {"whole_dwelling": False}, 200.0, True),  # 200 A, just enough
    (200.0, "4/0", "copper", {"whole_dwelling": False, "bus": 225.0}, 230.0, True),  # 230 A, of which the main uses 200 A
    (200.0, "4/0", "aluminum", {"service": False, "bus": 250.0}, 200.0, True),  # a feeder of the whole dwelling
    (100.0, "2", "aluminum", {}, 100.0, True),  # 90 A, 83 A asked for; the rule begins with 100 A
    (60.0, "6", "aluminum", {}, 50.0, False),  # under 100 A no 83 %, which would be 49.8 A
    (60.0, "4", "copper", {}, 85.0, True),  # 85 A, under 100 A no rule that would say 60 A
    (400.0, "400", "copper", {}, 400.0, True),  # 335 A, 332 A asked for
    (600.0, "900", "copper", {}, 520.0, False),  # over 400 A no 83 %, which would be 498 A
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
    found = sized(100.0, home(rating=rating, state="to_be_installed", **supply))
    assert (found["rating_by_conductors"] != NOT_APPLICABLE, found["conductors_suffice"] != NOT_APPLICABLE) == (judged, judged)
    looked_for = rating is not None and of_size is None
    for material_asked, wanted in (("copper", "2/0"), ("aluminum", "4/0")):  # 83 % of 200 A: 175 A and 180 A are the first
        verify = found[f"{material_asked}_to_verify"]
        assert (size(verify) if looked_for else verify) == (wanted if looked_for else NOT_APPLICABLE)


def test_conductors_to_look_for_outside_the_dwelling_rule() -> None:
    # The main of 200 A, not of a whole dwelling, with a bus of 225 A: 200 A are asked for; 3/0 copper, 250 kcmil aluminum.
    found = sized(100.0, home(rating=200.0, bus=225.0, whole_dwelling=False))
    assert (size(found["copper_to_verify"]), size(found["aluminum_to_verify"])) == ("3/0", "250")


# Numbers that are equal for different reasons: a local amendment that changes one of them changes what rests on it, no more.

AMENDMENT = """
amendment: Numbers told apart
amends: nec/2023
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
    return load_rules(LATEST, Path(rules) if rules else None, [path])


def test_shares_of_heating_are_told_apart(tmp_path: Path) -> None:
    loads = [kind("supplemental_heat", 10000), kind("electric_furnace", 5000), kind("space_heater", 1500, quantity=3.0)]
    names = ("supplemental_demand", "central_demand", "separate_demand")
    few = evaluated(home(*loads), rules=amended(tmp_path, "optional_dwelling.few_heaters_share", "65 %", "70 %"))
    assert [value(few, name) for name in names] == [6500, 3500, 3150]  # 65 % of 10000; 70 % of 5000 and of 4500
    strips = evaluated(home(*loads), rules=amended(tmp_path, "optional_dwelling.supplemental_share", "65 %", "70 %"))
    assert [value(strips, name) for name in names] == [7000, 3250, 2925]  # 70 % of 10000; 65 % of 5000 and of 4500


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
    "adjusted_setting": "625.42",
    "small_appliance": "220.52(A)",
    "small_appliance_number": "210.11(C)(1)",
    "laundry": "220.52(B)",
    "dryers": "220.54",
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
    "service_conductors": "230.42",
    "service_rating": "230.79",
    "service_minimum_one_family": "230.79(C)",
    "service_minimum_other": "230.79(D)",
    "panelboard_rating": "408.30",  # memory
    "terminals": "110.14(C)(1)",
    "standard_ratings": "240.6(A)",
}
TABLE_OF_DWELLING_CONDUCTORS = {"nec/2020": "Table 310.12", "nec/2023": "Table 310.12(A)"}


@pytest.mark.parametrize("edition", EDITIONS)
def test_sections(edition: str) -> None:
    rules = rules_of(edition)
    assert {name: rules.section(name) for name in SECTIONS} == SECTIONS
    shown = rules.section("dwelling_conductor_table")
    assert shown == TABLE_OF_DWELLING_CONDUCTORS.get(edition, "dwelling_conductor_table")
