"""The calculations of 220.83, 220.84, 220.85 and 550.18: a second reading by hand on random homes, thresholds, sets, conditions.

The reading by hand is ``plain_methods.py``; the examples are worked in plain numbers beside each test. Sections as in the notes on
the code: 220.83 two sources, Table 220.84 one source beyond 15 units, 220.85 one source, 550.18 one source.
"""

from __future__ import annotations

import random
from typing import Any

import pytest
from examples import rules_of
from homes import SYSTEMS, facts_of, house, load, random_house
from plain_methods import Readings, existing_220_83, manufactured_550_18, multifamily_220_84, two_220_85
from plain_standard import standard_220

from dwellcalc.evaluate.coverage import miscounts
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.evaluate.work import state_of

EXISTING, MULTIFAMILY, TWO, MANUFACTURED = "existing_dwelling", "multifamily", "two_dwellings", "manufactured"
THREE_PHASE = "208Y/120 V three-phase 4-wire"
RULES = rules_of("nec/2023")
GLOSSARY = RULES.glossary
NEAR = 1e-9
OPTIONS = {
    "existing": ("in_general_loads", "larger_in_general_loads", "at_full_rating"),
    "replacement": ("not_additional", "additional"),
    "charging": ("in_pool", "apart", "apart_at_125"),
    "room_cooling": ("counted", "left_out"),
    "blower": ("with_selection", "in_general_loads"),
}
ADDRESSES = {
    "existing": "existing_dwelling.heating_and_cooling_that_is_there",
    "replacement": "existing_dwelling.replacement_of_heating_or_cooling",
    "charging": "listed_loads.charging_in_optional",
    "room_cooling": "listed_loads.room_cooling_in_optional",
    "blower": "listed_loads.blower_in_optional",
}


def va(kind: str, amount: float, name: str = "", **said: Any) -> dict[str, Any]:
    """A load of so many volt-amperes."""
    return load(GLOSSARY, kind, name, basis="volt_amperes", volt_amperes=float(amount), **said)


def evaluated(home: dict[str, Any], readings: Readings | None = None, edition: str = "nec/2023") -> Evaluation:
    rules = rules_of(edition)
    choices = {ADDRESSES[name]: getattr(readings, name) for name in ADDRESSES} if readings else None
    return Evaluation(plan_of(rules), facts_of(rules.glossary, home), choices)


def value(found: Evaluation, method: str, name: str, item: int = 0) -> Any:
    return found.line(found.plan.rules.methods[method].lines[name], item)


def may_be_used(home: dict[str, Any], method: str, choices: dict[str, str] | None = None) -> bool:
    found = Evaluation(plan_of(RULES), facts_of(GLOSSARY, home), choices)
    return all(outcome is True for outcome in found.permitted(method))


def some_readings(chance: random.Random) -> Readings:
    return Readings(**{name: chance.choice(options) for name, options in OPTIONS.items()})


# random homes


def dressed(home: dict[str, Any], chance: random.Random) -> dict[str, Any]:
    """The home with some loads planned, some in the place of their own kind, and sometimes a set that never runs together."""
    for each in home["loads"]:
        if chance.random() < 0.3:
            each["status"] = "planned"
            each["like_for_like"] = chance.random() < 0.5
    single = [each for each in home["loads"] if each["quantity"] == 1]
    if len(single) > 2 and chance.random() < 0.5:
        chosen = chance.sample(single, chance.choice((2, 3)))
        if chance.random() < 0.3:  # equal ones
            chosen[1] |= {**RATED, "volt_amperes": 4800.0}
            chosen[0] |= {**RATED, "volt_amperes": 4800.0}
        home["never_together"] = [[each["name"] for each in chosen]]
    return home


RATED = {"basis": "volt_amperes"}


def test_an_existing_dwelling_agrees_with_the_reading_by_hand() -> None:
    chance = random.Random(83)
    added = sets = 0
    for at in range(400):
        home = dressed(random_house(GLOSSARY, chance), chance)
        readings = some_readings(chance) if at % 2 else Readings()
        found = evaluated(home, readings)
        assert value(found, EXISTING, "total") == pytest.approx(existing_220_83(home, readings), rel=NEAR), (home, readings)
        assert miscounts(found, EXISTING, 0) == []
        added += value(found, EXISTING, "is_added")
        sets += "never_together" in home
    assert 50 < added < 350 and sets > 100


def building(chance: random.Random, units: int) -> dict[str, Any]:
    """Several dwelling units, some entries for equal ones, with house loads, on one or three phases."""
    made = random_house(GLOSSARY, chance)
    made |= {"part_of_dwelling": False, "whole_dwelling": False, "house_loads": [], "units": []}
    if chance.random() < 0.4:
        made |= {"system": THREE_PHASE, "voltage": 208.0}
    left = units
    while left:
        each = random_house(GLOSSARY, chance)
        quantity = chance.randint(1, left)
        left -= quantity
        loads = [{**one, "name": f"{one['name']} of {left}"} for one in each["loads"][: chance.randint(1, 6)]]
        if chance.random() < 0.7:
            loads.append(va("range", chance.uniform(2000, 20000), f"range of {left}"))
        kept = ("areas", "small_appliance_circuits", "laundry_circuits")
        made["units"].append(
            {"name": f"unit {left}", "quantity": float(quantity), "loads": loads} | {name: each[name] for name in kept}
        )
        if chance.random() < 0.3 and len(loads) > 1 and all(one["quantity"] == 1 for one in loads[:2]):
            made.setdefault("never_together", []).append([one["name"] for one in loads[:2]])
    if chance.random() < 0.6:
        house_loads = random_house(GLOSSARY, chance)["loads"][: chance.randint(1, 5)]
        made["house_loads"] = [{**one, "name": f"house {one['name']}", "house_load": True} for one in house_loads]
    return made


def test_several_dwelling_units_agree_with_the_reading_by_hand() -> None:
    chance = random.Random(84)
    lacking = by_standard = 0
    for at in range(250):
        home = building(chance, chance.choice((3, 4, 5, 6, 7, 8, 10, 11, 12, 26, 62)))
        readings = some_readings(chance) if at % 2 else Readings()
        found = evaluated(home, readings)
        total = value(found, MULTIFAMILY, "total")
        assert total == pytest.approx(multifamily_220_84(home, readings), rel=NEAR), (home, readings)
        assert miscounts(found, MULTIFAMILY, 0) == []
        lacks = value(found, MULTIFAMILY, "number_without_cooking") > 0
        lacking += lacks
        by_standard += lacks and total == value(found, MULTIFAMILY, "by_standard")
    assert 40 < lacking < 240 and by_standard > 3


def test_two_dwelling_units_agree_with_the_reading_by_hand() -> None:
    chance = random.Random(85)
    taken = 0
    for at in range(200):
        home = building(chance, 2)
        readings = some_readings(chance) if at % 2 else Readings()
        found = evaluated(home, readings)
        assert value(found, TWO, "total") == pytest.approx(two_220_85(home, readings), rel=NEAR), (home, readings)
        assert miscounts(found, TWO, 0) == []
        taken += value(found, TWO, "by_three_units") < value(found, TWO, "by_standard")
    assert 20 < taken < 180


def manufactured_home(chance: random.Random) -> dict[str, Any]:
    """A manufactured home with loads whose lines are said or not, perhaps with a cord."""
    home = dressed(random_house(GLOSSARY, chance), chance)
    home |= {"system": SYSTEMS[0], "voltage": 240.0, "manufactured_home": True, "cord": chance.choice((None, 40.0, 50.0))}
    for each in home["loads"]:
        if each["kind"] == "range":
            each |= {**RATED, "volt_amperes": chance.uniform(3000, 17500)}
        if chance.random() < 0.5:
            one = each["connection"] == "line_to_neutral"
            each |= {"legs_said": True, "on_lines": (chance.choice("AB"),) if one else ("A", "B")}
    if chance.random() < 0.4:
        home["loads"] = [each for each in home["loads"] if each["kind"] not in ("air_conditioner", "heat_pump", "blower")]
        names = {each["name"] for each in home["loads"]}
        home["never_together"] = [each for each in home.get("never_together", []) if names >= set(each)]
    return home


def test_a_manufactured_home_agrees_with_the_reading_by_hand() -> None:
    chance = random.Random(550)
    unlike = allowed = 0
    for _ in range(400):
        home = manufactured_home(chance)
        found = evaluated(home)
        by_hand = manufactured_550_18(home)
        for at, leg in enumerate("AB"):
            assert value(found, MANUFACTURED, "line_total", at) == pytest.approx(by_hand[leg], rel=NEAR), (leg, home)
        assert value(found, MANUFACTURED, "amperes") == pytest.approx(max(by_hand.values()), rel=NEAR)
        assert value(found, MANUFACTURED, "total") == pytest.approx(240 * max(by_hand.values()), rel=NEAR)
        assert miscounts(found, MANUFACTURED, 0) == []
        unlike += abs(by_hand["A"] - by_hand["B"]) > 1
        allowed += state_of(value(found, MANUFACTURED, "cooling_to_come")) == "known"
    assert unlike > 50 and allowed > 10


# thresholds, at each and beside it


@pytest.mark.parametrize(
    ("general", "demand"), [(7999, 7999), (8000, 8000), (8001, 8000.4), (30500, 17000)]
)  # 8000 + 40 % of 22,500 = 17,000
def test_eight_kilovolt_amperes(general: float, demand: float) -> None:
    oven = va("wall_oven", general - 3 * 500 - 4500)
    found = evaluated(house(GLOSSARY, [oven], area=500.0))
    assert value(found, EXISTING, "general") == general
    assert value(found, EXISTING, "general_demand") == pytest.approx(demand)


@pytest.mark.parametrize(("number", "full", "pool"), [(3, 4500 + 5000, 0), (4, 5000, 6000), (5, 5000, 7500)])
def test_three_and_four_heaters_where_heating_is_added(number: int, full: float, pool: float) -> None:
    """220.83(B): fewer than four separately controlled heaters at full rating; four or more are among all other loads."""
    heaters = va("space_heater", 1500, quantity=float(number))
    furnace = va("electric_furnace", 5000, status="planned")
    found = evaluated(house(GLOSSARY, [heaters, furnace]))
    assert value(found, EXISTING, "heating_or_cooling") == full
    assert value(found, EXISTING, "general") == 9000 + pool
    apart = [va("space_heater", 1500, f"heater {at}") for at in range(number)]
    assert value(evaluated(house(GLOSSARY, [*apart, furnace])), EXISTING, "total") == value(found, EXISTING, "total")


def test_compressor_and_strips_are_both_taken_in_full() -> None:
    """220.83 has no 65 %; a compressor that is stopped while the strips run is dropped then."""
    pump, strips = va("heat_pump", 6000, status="planned"), va("supplemental_heat", 10000, status="planned")
    assert value(evaluated(house(GLOSSARY, [pump, strips])), EXISTING, "heating_or_cooling") == 16000
    locked = {**pump, "stops_for_supplemental_heat": True}
    assert value(evaluated(house(GLOSSARY, [locked, strips])), EXISTING, "heating_or_cooling") == 10000
    cooler = va("air_conditioner", 11000)
    assert value(evaluated(house(GLOSSARY, [locked, strips, cooler])), EXISTING, "heating_or_cooling") == 17000  # both cool


@pytest.mark.parametrize(
    ("readings", "total"),
    [
        (Readings(), 8000 + 0.4 * (9000 + 5000 + 9600 - 8000)),
        (Readings(existing="larger_in_general_loads"), 8000 + 0.4 * (9000 + 9600 - 8000)),
        (Readings(existing="at_full_rating"), 8000 + 0.4 * (9000 - 8000) + 9600),
    ],
)
def test_heating_and_cooling_that_is_there(readings: Readings, total: float) -> None:
    loads = [va("air_conditioner", 5000), va("electric_furnace", 9600)]
    found = evaluated(house(GLOSSARY, loads), readings)
    assert value(found, EXISTING, "total") == pytest.approx(total)
    added = [loads[0], {**loads[1], "status": "planned"}]  # (B), whatever the reading
    assert value(evaluated(house(GLOSSARY, added), readings), EXISTING, "total") == pytest.approx(8000 + 0.4 * 1000 + 9600)


def test_one_of_the_same_kind_in_the_place_of_another_is_not_additional() -> None:
    old = va("air_conditioner", 4000, "old", replaced=True)
    new = va("air_conditioner", 5000, "new", status="planned", like_for_like=True)
    home = house(GLOSSARY, [old, new])
    assert value(evaluated(home), EXISTING, "total") == pytest.approx(8000 + 0.4 * (9000 + 5000 - 8000))
    other = Readings(replacement="additional")
    assert value(evaluated(home, other), EXISTING, "total") == pytest.approx(8000 + 0.4 * 1000 + 5000)
    new["like_for_like"] = False
    assert value(evaluated(home), EXISTING, "total") == pytest.approx(8000 + 0.4 * 1000 + 5000)


def flats(number: int, *loads: dict[str, Any], house_loads: tuple[dict[str, Any], ...] = ()) -> dict[str, Any]:
    """Equal dwelling units of 1000 ft2, 3000 + 4500 VA of lighting and circuits each."""
    unit = {
        "name": "flat",
        "quantity": float(number),
        "areas": [{"area_kind": "living", "area": 1000.0}],
        "small_appliance_circuits": 2.0,
        "laundry_circuits": 1.0,
        "loads": list(loads),
    }
    said = {"units": [unit], "house_loads": list(house_loads), "whole_dwelling": False, "part_of_dwelling": False}
    return house(GLOSSARY, [], **said)


# Table 220.84: 3 to 5 45 %, 6 and 7 44 %, 8 to 10 43 %, 11 42 %, 12 and 13 41 %, 61 24 %, 62 and more 23 %.
@pytest.mark.parametrize(
    ("number", "percent"),
    [(3, 45), (5, 45), (6, 44), (7, 44), (8, 43), (10, 43), (11, 42), (12, 41), (13, 41), (14, 40), (61, 24), (62, 23), (90, 23)],
)
def test_the_factor_by_the_number_of_dwelling_units(number: int, percent: float) -> None:
    """7,500 + 12,000 + 6,000 = 25,500 VA each; a house load of 5,000 VA stands outside the factor."""
    lamp = va("other_appliance", 5000, "stair lights", fastened_in_place=False, individual_circuit=True, house_load=True)
    found = evaluated(flats(number, va("range", 12000), va("electric_furnace", 6000), house_loads=(lamp,)))
    assert value(found, MULTIFAMILY, "connected_of_unit") == 25500
    assert value(found, MULTIFAMILY, "total") == pytest.approx(25500 * number * percent / 100 + 5000)


def test_who_may_use_the_calculations_of_several_dwelling_units() -> None:
    heated = (va("range", 12000), va("electric_furnace", 6000))
    used = {number: [may_be_used(flats(number, *heated), each) for each in (TWO, MULTIFAMILY)] for number in (1, 2, 3, 4)}
    assert used == {1: [False, False], 2: [True, False], 3: [False, True], 4: [False, True]}
    blower = va("blower", 600)  # that of a gas furnace is no electric heat
    for number, method in ((2, TWO), (3, MULTIFAMILY)):
        assert not may_be_used(flats(number, va("range", 12000), blower), method)
        assert may_be_used(flats(number, va("range", 12000), blower, va("air_conditioner", 3000)), method)
        assert may_be_used(flats(number, blower, va("air_conditioner", 3000)), method)  # without cooking, by the exception
    any_two = {"two_dwellings.units_that_must_qualify": "any_two"}
    assert may_be_used(flats(2, va("range", 12000), blower), TWO, any_two)


def test_units_without_electric_cooking() -> None:
    """8,000 VA more in each of five: 45 % of 5 x (7,500 + 6,000 + 8,000) = 48,375 VA; the standard calculation of the load as it is:

    37,500 VA of lighting and circuits, 3,000 + 35 % of 34,500 = 15,075, and 30,000 VA of heat: 45,075 VA, which is less.
    """
    home = flats(5, va("electric_furnace", 6000))
    found = evaluated(home)
    assert value(found, MULTIFAMILY, "by_this_calculation") == pytest.approx(48375)
    assert value(found, MULTIFAMILY, "total") == pytest.approx(45075) == pytest.approx(standard_220(home))
    warm = evaluated(flats(5, va("electric_furnace", 20000)))  # 45 % of 177,500 = 79,875; standard 115,075
    assert value(warm, MULTIFAMILY, "total") == pytest.approx(79875)
    gas = flats(5, va("electric_furnace", 6000))["units"][0]
    mixed = flats(5, va("electric_furnace", 6000), va("range", 12000))
    mixed["units"].append({**gas, "name": "flat with gas", "quantity": 1.0})
    by_hand = 0.44 * (5 * 25500 + 21500)  # of six, one takes 8,000 VA
    assert value(evaluated(mixed), MULTIFAMILY, "by_this_calculation") == pytest.approx(by_hand)


def test_two_dwelling_units_take_the_larger_three_times() -> None:
    """25,500 and 19,500 VA: 45 % of 76,500 = 34,425 VA. Standard: 15,000 VA, 3,000 + 35 % of 12,000 = 7,200, 11,000 for the ranges,

    12,000 VA of heat: 30,200 VA. With 12 kW of heat in each: 45 % of 94,500 = 42,525 VA, and 42,200 VA; with 14 kW 45,225 and 46,200.
    """
    for heat, total in ((6000, 30200), (12000, 42200), (14000, 45225)):
        home = flats(1, va("range", 12000), va("electric_furnace", heat))
        other = {**home["units"][0], "name": "other", "loads": [va("range", 6000, "small"), va("electric_furnace", heat, "heat")]}
        home["units"].append(other)
        found = evaluated(home)
        assert value(found, TWO, "three_units") == 3 * (7500 + 12000 + heat)
        standard = value(found, TWO, "by_standard")
        assert value(found, TWO, "total") == pytest.approx(min(standard, 0.45 * 3 * (19500 + heat)))
        if standard == value(found, TWO, "total"):
            assert standard <= total


# 550.18


def mobile(*loads: dict[str, Any], **said: Any) -> dict[str, Any]:
    """A manufactured home of 700 ft2: 6,600 VA, 3,000 + 35 % of 3,600 = 4,260 VA, 17.75 A on each line."""
    return house(GLOSSARY, list(loads), area=700.0, manufactured_home=True, **said)


def lines_of(*loads: dict[str, Any], **said: Any) -> list[float]:
    found = evaluated(mobile(*loads, **said))
    return [value(found, MANUFACTURED, "line_total", at) - 17.75 for at in range(2)]


@pytest.mark.parametrize(
    ("rating", "demand"),
    [
        (7000, 5600), (10000, 8000), (10001, 8000), (12500, 8000), (12501, 8400), (13500, 8400), (13501, 8800), (14500, 8800),
        (14501, 9200), (15500, 9200), (15501, 9600), (16500, 9600), (16501, 10000), (17500, 10000),
    ],
)  # fmt: skip
def test_the_table_of_free_standing_ranges(rating: float, demand: float) -> None:
    assert lines_of(va("range", rating)) == [pytest.approx(demand / 240)] * 2


def test_a_range_beyond_the_table_is_not_calculated() -> None:
    found = evaluated(mobile(va("range", 17501)))
    assert not isinstance(value(found, MANUFACTURED, "amperes"), float)


@pytest.mark.parametrize(("number", "share"), [(1, 1.0), (3, 1.0), (4, 0.75), (5, 0.75)])
def test_more_than_three_appliances(number: int, share: float) -> None:
    heaters = [va("storage_water_heater", 2400, f"heater {at}") for at in range(number)]
    assert lines_of(*heaters) == [pytest.approx(share * 10 * number)] * 2
    assert lines_of(va("storage_water_heater", 2400, quantity=float(number))) == [pytest.approx(share * 10 * number)] * 2


@pytest.mark.parametrize(("cord", "amperes"), [(40.0, 15.0), (50.0, 0.0), (None, 0.0)])
def test_an_allowance_for_cooling_to_come_with_a_cord_of_40_amperes(cord: float | None, amperes: float) -> None:
    assert lines_of(cord=cord) == [amperes] * 2
    assert lines_of(va("air_conditioner", 2400), cord=cord) == [pytest.approx(12.5)] * 2  # 10 A, and 25 % of the motor


def test_each_line_carries_its_own_loads() -> None:
    fan = va("range_hood", 240, legs_said=True, on_lines=("A",))
    dishwasher = va("dishwasher", 1200, legs_said=True, on_lines=("B",))
    assert lines_of(fan, dishwasher) == [pytest.approx(2 + 0.5), pytest.approx(10)]
    blower = va("blower", 600, legs_said=True, on_lines=("A",), season="both")
    furnace = va("electric_furnace", 9600)
    assert lines_of(fan, dishwasher, blower, furnace) == [pytest.approx(2 + 5 + 40 + 1.25), pytest.approx(10 + 40)]


def test_the_motor_of_a_compressor_that_is_stopped_runs_not_with_supplemental_heat() -> None:
    """9,600 VA of strips, 40 A; a pump of 2,400 VA beside them 10 A and 25 % of it."""
    pump, strips = va("heat_pump", 2400), va("supplemental_heat", 9600)
    assert lines_of(pump, strips) == [pytest.approx(40 + 10 + 2.5)] * 2
    assert lines_of({**pump, "stops_for_supplemental_heat": True}, strips) == [pytest.approx(40)] * 2


@pytest.mark.parametrize(
    ("service", "cord", "least"), [(True, None, 100), (True, 50.0, 100), (False, None, 100), (False, 50.0, 0)]
)
def test_the_least_service_and_feeder_of_a_manufactured_home(service: bool, cord: float | None, least: float) -> None:
    """550.32(C) and 550.33(B): 100 A; a power-supply cord is no feeder of that kind."""
    assert value(evaluated(mobile(service=service, cord=cord)), MANUFACTURED, "rating_from") == least


def test_who_may_use_the_calculation_of_a_manufactured_home() -> None:
    assert may_be_used(mobile(), MANUFACTURED)
    assert not may_be_used(mobile() | {"manufactured_home": False}, MANUFACTURED)
    assert not may_be_used(mobile(part_of_dwelling=True), MANUFACTURED)
    assert not may_be_used(mobile(system=SYSTEMS[1], voltage=208.0), MANUFACTURED)
    assert not may_be_used(flats(2) | {"manufactured_home": True}, MANUFACTURED)


# sets of loads that never run together

EVERY = ("standard", "optional_dwelling", EXISTING, MANUFACTURED)


def counted(home: dict[str, Any], method: str) -> float:
    found = evaluated(home)
    assert miscounts(found, method, 0) == []
    total = value(found, method, "total")
    assert isinstance(total, float)
    return total


@pytest.mark.parametrize("method", EVERY)
def test_the_smaller_of_a_set_is_left_out(method: str) -> None:
    spa, sauna, oven = va("hot_tub", 7000), va("sauna", 6000), va("wall_oven", 8000)
    loads = [spa, sauna, oven]
    for sets, there in (
        ([["hot_tub", "sauna"]], [spa, oven]),
        ([["sauna", "hot_tub"]], [spa, oven]),
        ([["sauna", "hot_tub", "wall_oven"]], [oven]),
        ([], loads),
    ):
        home = house(GLOSSARY, loads, manufactured_home=True, never_together=sets)
        assert counted(home, method) == pytest.approx(counted(house(GLOSSARY, there, manufactured_home=True), method))


@pytest.mark.parametrize("method", EVERY)
def test_of_equal_loads_the_first_that_is_named_is_counted(method: str) -> None:
    """An oven and a water heater of 8 kW: the methods take them unlike, so that it shows which is counted."""
    oven, heater = va("wall_oven", 8000), va("storage_water_heater", 8000)
    kept = {"wall_oven": oven, "storage_water_heater": heater}
    for names in (["wall_oven", "storage_water_heater"], ["storage_water_heater", "wall_oven"]):
        for loads in ([oven, heater], [heater, oven]):
            found = evaluated(house(GLOSSARY, loads, never_together=[names], manufactured_home=True))
            there = house(GLOSSARY, [kept[names[0]]], manufactured_home=True)
            assert value(found, method, "total") == pytest.approx(counted(there, method))


def test_a_replaced_load_is_in_no_set_any_more() -> None:
    spa, sauna = va("hot_tub", 7000, replaced=True), va("sauna", 6000)
    home = house(GLOSSARY, [spa, sauna], never_together=[["hot_tub", "sauna"]])
    for method in EVERY:
        assert counted(home, method) == pytest.approx(counted(house(GLOSSARY, [sauna]), method))


def test_a_planned_load_that_is_left_out_adds_nothing() -> None:
    """220.83: what is left out of a set is not added either."""
    furnace, pump = va("electric_furnace", 12000), va("heat_pump", 5000, status="planned")
    home = house(GLOSSARY, [furnace, pump], never_together=[["heat_pump", "electric_furnace"]])
    assert value(evaluated(home), EXISTING, "is_added") is False
    assert counted(home, EXISTING) == pytest.approx(8000 + 0.4 * (9000 + 12000 - 8000))


def test_sets_in_equal_dwelling_units() -> None:
    """In each of four: 7,500 + 12,000 + 6,000 VA, and the larger of charger and spa, 9,600."""
    loads = [va("range", 12000), va("electric_furnace", 6000), va("hot_tub", 7000), va("ev_charging_equipment", 9600)]
    home = flats(4, *loads)
    home["never_together"] = [["hot_tub", "ev_charging_equipment"]]
    assert counted(home, MULTIFAMILY) == pytest.approx(0.45 * 4 * (25500 + 9600))
    assert counted(flats(4, *loads), MULTIFAMILY) == pytest.approx(0.45 * 4 * (25500 + 16600))
