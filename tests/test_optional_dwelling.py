"""The optional calculation for a dwelling unit: thresholds, a second reading by hand, properties, and the trace."""

from __future__ import annotations

import random
from collections import Counter
from typing import Any

import pytest
from examples import rules_of
from homes import facts_of, house, load, random_house
from plain import optional_220_82

from dwellcalc.decide.choices import interpretations
from dwellcalc.evaluate.coverage import miscounts
from dwellcalc.evaluate.sheet import as_json
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.review.sheets.recompute import recompute_document

METHOD, SIZING = "optional_dwelling", "sizing"
RULES = rules_of("nec/2023")
EDITIONS = ("nec/2014", "nec/2017", "nec/2020", "nec/2023", "nec/2026")
GLOSSARY = RULES.glossary
TOLERANCE = 1e-9


def watts(amount: float) -> dict[str, Any]:
    return {"basis": "watts", "watts": float(amount)}


def evaluation(home: dict[str, Any], choices: dict[str, str] | None = None, edition: str = "nec/2023") -> Evaluation:
    rules = rules_of(edition)
    return Evaluation(plan_of(rules), facts_of(rules.glossary, home), choices)


def line(found: Evaluation, name: str) -> Any:
    return found.line(found.plan.rules.methods[METHOD].lines[name])


def total(home: dict[str, Any], choices: dict[str, str] | None = None) -> Any:
    return line(evaluation(home, choices), "total")


# the thresholds of the text, at each and beside it


@pytest.mark.parametrize(("general", "demand"), [(9999.0, 9999.0), (10000.0, 10000.0), (10001.0, 10000.4), (25000.0, 16000.0)])
def test_tiers(general: float, demand: float) -> None:
    oven = load(GLOSSARY, "wall_oven", **watts(general - 4500 - 3 * 500))
    found = evaluation(house(GLOSSARY, [oven], area=500.0))
    assert line(found, "general") == general
    assert line(found, "general_demand") == pytest.approx(demand, abs=TOLERANCE)


@pytest.mark.parametrize(("number", "share"), [(1, 0.65), (3, 0.65), (4, 0.4), (5, 0.4)])
def test_number_of_heaters(number: int, share: float) -> None:
    heaters = load(GLOSSARY, "space_heater", quantity=float(number), **watts(1500))
    as_one = evaluation(house(GLOSSARY, [heaters]))
    apart = evaluation(house(GLOSSARY, [load(GLOSSARY, "space_heater", f"heater {at}", **watts(1500)) for at in range(number)]))
    assert (
        line(as_one, "separate_demand") == line(apart, "separate_demand") == pytest.approx(share * number * 1500, abs=TOLERANCE)
    )


@pytest.mark.parametrize(("circuits", "counted"), [(1.0, 2.0), (2.0, 2.0), (3.0, 3.0)])
def test_small_appliance_circuits(circuits: float, counted: float) -> None:
    found = evaluation(house(GLOSSARY, [], small_appliance_circuits=circuits))
    assert line(found, "small_appliance") == counted * 1500


@pytest.mark.parametrize(("size", "material", "ampere_reading", "suffices"), [
    ("4", "copper", "by_rating", True),       # 85 A, and 83 A are asked for
    ("6", "copper", "by_rating", False),      # 65 A
    ("2", "aluminum", "by_rating", True),     # 90 A
    ("4", "aluminum", "by_rating", False),    # 65 A
    ("4", "copper", "by_ampacity", False),
    ("3", "copper", "by_ampacity", True),     # 100 A
    ("2", "aluminum", "by_ampacity", False),
    ("1", "aluminum", "by_ampacity", True),   # 100 A
])  # fmt: skip
def test_hundred_ampere_condition(size: str, material: str, ampere_reading: str, suffices: bool) -> None:
    at = GLOSSARY.scales["conductor_size"].index(size)
    home = house(GLOSSARY, [], conductor_size=at, conductor_material=material)
    found = evaluation(home, {f"{METHOD}.hundred_ampere_condition": ampere_reading})
    assert line(found, "ampacity_suffices") is suffices


def test_unknown_dryer_counts_as_stated() -> None:
    dryer = load(GLOSSARY, "clothes_dryer")
    assert line(evaluation(house(GLOSSARY, [dryer])), "dryers_connected") == 5000
    assert line(evaluation(house(GLOSSARY, [{**dryer, **watts(4400)}])), "dryers_connected") == 4400


def test_an_unknown_gas_dryer_is_no_electric_one() -> None:
    """220.54's least load is of electric dryers; of a gas dryer off the laundry circuit only its motor counts."""
    dryer = load(GLOSSARY, "gas_dryer", on_laundry_circuit=False)
    assert line(evaluation(house(GLOSSARY, [dryer])), "dryers_connected") == 1440  # 12 A at 120 V
    assert line(evaluation(house(GLOSSARY, [{**dryer, **watts(600)}])), "dryers_connected") == 600
    assert line(evaluation(house(GLOSSARY, [{**dryer, "on_laundry_circuit": True}])), "dryers_connected") == 0


def test_lockout_drops_the_compressor_only_with_the_strips() -> None:
    pump = load(GLOSSARY, "heat_pump", **watts(6000))
    strips = load(GLOSSARY, "supplemental_heat", **watts(10000))
    together = total(house(GLOSSARY, [pump, strips]))
    locked = total(house(GLOSSARY, [{**pump, "stops_for_supplemental_heat": True}, strips]))
    small = total(house(GLOSSARY, [{**pump, "stops_for_supplemental_heat": True}, {**strips, **watts(5000)}]))
    base = total(house(GLOSSARY, []))
    assert together - base == pytest.approx(6000 + 6500)
    assert locked - base == pytest.approx(6500)
    assert small - base == pytest.approx(6000)  # the compressor alone is more than 65 % of the strips


@pytest.mark.parametrize(("option", "increase"), [("in_pool", 0.4 * 11520), ("apart", 11520.0), ("apart_at_125", 1.25 * 11520)])
def test_readings_of_charging(option: str, increase: float) -> None:
    loads = [load(GLOSSARY, "range", **watts(12000))]
    charger = load(
        GLOSSARY, "ev_charging_equipment", basis="setting", setting=48.0, fastened_in_place=False, individual_circuit=False
    )
    choices = {"listed_loads.charging_in_optional": option}
    before, after = total(house(GLOSSARY, loads), choices), total(house(GLOSSARY, [*loads, charger]), choices)
    assert after - before == pytest.approx(increase)


def test_blower_of_a_gas_furnace_is_a_general_load() -> None:
    blower = load(GLOSSARY, "blower", basis="amperes", marked_amperes=5.0, volts=115.0)
    assert line(evaluation(house(GLOSSARY, [blower])), "appliances_connected") == 600
    with_cooling = evaluation(house(GLOSSARY, [blower, load(GLOSSARY, "air_conditioner", **watts(4000))]))
    assert line(with_cooling, "appliances_connected") == 0
    assert line(with_cooling, "heating_or_cooling") == 4600


@pytest.mark.parametrize(("kind", "counted"), [
    ("living", (True, True, True, True, True)),
    ("finished_basement", (True, True, True, True, True)),
    ("unfinished_adaptable", (True, True, True, True, True)),
    ("unfinished_not_adaptable", (False, False, False, False, False)),
    ("attached_garage", (False, False, False, True, True)),
    ("detached_garage", (False, False, False, False, False)),
    ("open_porch", (False, False, False, False, False)),
])  # fmt: skip
def test_floor_area_by_edition(kind: str, counted: tuple[bool, ...]) -> None:
    home = house(GLOSSARY, [], areas=[{"area_kind": kind, "area": 400.0}])
    for edition, counts in zip(EDITIONS, counted, strict=True):
        assert line(evaluation(home, edition=edition), "floor_area") == (400.0 if counts else 0.0)


# a second reading, on random homes


@pytest.mark.parametrize("seed", range(8))
def test_agrees_with_the_reading_by_hand(seed: int) -> None:
    chance = random.Random(seed)
    for _ in range(60):
        home = random_house(GLOSSARY, chance)
        if any(each["basis"] == "horsepower" and each["volts"] == 200 for each in home["loads"]):
            continue
        assert total(home) == pytest.approx(optional_220_82(home), rel=1e-12)


# properties


def _shuffled(home: dict[str, Any], chance: random.Random) -> dict[str, Any]:
    loads = list(home["loads"])
    chance.shuffle(loads)
    return {**home, "loads": loads}


def _apart(home: dict[str, Any]) -> dict[str, Any]:
    loads = [
        {**each, "name": f"{each['name']} {at}", "quantity": 1.0} for each in home["loads"] for at in range(int(each["quantity"]))
    ]
    return {**home, "loads": loads}


@pytest.mark.parametrize("seed", range(4))
def test_order_and_quantity_do_not_matter(seed: int) -> None:
    chance = random.Random(1000 + seed)
    for _ in range(25):
        home = random_house(GLOSSARY, chance)
        expected = total(home)
        assert total(_shuffled(home, chance)) == pytest.approx(expected, rel=1e-9)
        assert total(_apart(home)) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("seed", range(4))
def test_one_more_load_never_lowers_the_total_unless_blowers_leave_or_the_fourth_heater_comes(seed: int) -> None:
    chance = random.Random(2000 + seed)
    excused = 0
    for _ in range(60):
        home = random_house(GLOSSARY, chance)
        more = random_house(GLOSSARY, chance)["loads"][0]
        larger = {**home, "loads": [*home["loads"], {**more, "name": "one more"}]}
        before, after = evaluation(home), evaluation(larger)
        blowers_leave = line(after, "appliances_connected") < line(before, "appliances_connected")
        if blowers_leave or (line(before, "separate_number") < 4) != (line(after, "separate_number") < 4):
            excused += 1  # the first electric heating takes the blowers out of the general loads, to its own season
            continue
        amount = optional_220_82({**home, "areas": [], "loads": [{**more, "kind": "range"}]}) * 3
        assert line(before, "total") - TOLERANCE <= line(after, "total") <= line(before, "total") + max(amount, 1e5)
    assert excused < 20


@pytest.mark.parametrize("seed", range(4))
def test_every_load_counts_once(seed: int) -> None:
    chance = random.Random(3000 + seed)
    options = interpretations(RULES)
    for _ in range(60):
        choices = {address: chance.choice(list(each.options)) for address, each in options.items()}
        found = evaluation(random_house(GLOSSARY, chance), choices)
        assert miscounts(found, METHOD) == []


# the trace


def _document(home: dict[str, Any], choices: dict[str, str]) -> dict[str, Any]:
    found = evaluation(home, choices)
    sheet = Tracer(found).method(METHOD)
    given = {
        "calculated_amperes": line(found, "amperes"),
        "continuous_amperes": line(found, "continuous_amperes"),
        "rating_from": line(found, "rating_from"),
    }
    sizing = Tracer(Evaluation(found.plan, found.facts, choices, given)).method(SIZING)
    return {"supplies": [{"methods": [as_json(sheet)], "sizing": {"sheet": as_json(sizing)}}]}


def _conditions(document: dict[str, Any]) -> list[tuple[str, Any]]:
    found = []
    supply = document["supplies"][0]
    for sheet in (*supply["methods"], supply["sizing"]["sheet"]):
        for each in sheet["lines"]:
            for outcome in each.get("items", [each]):
                for at, condition in enumerate(outcome.get("conditions", [])):
                    found.append((f"{each['id']} case {at}", condition["outcome"]))
                if "applies" in outcome:
                    found.append((f"{each['id']} applies", outcome["applies"]["outcome"]))
    return found


# One-family services of up to 600 A, with loads far below 800 A, on conductors of one set: the other side never comes. What
# conductors that were not seen must have is read only by lines that apply where they were not.
NEVER_BOTH = {
    "sizing.ampacity_to_verify applies",
    "sizing.ampacity_for_new case 1",
    "sizing.next_rating applies",
    "sizing.smallest_protected applies",
} | {f"sizing.smallest_service case {at}" for at in range(2)}
LOCAL = RULES.documents["local_provisions"].lines  # what no edition asks; tests/test_amendments.py has both sides


@pytest.mark.long
def test_recomputation_agrees_on_random_homes() -> None:
    chance = random.Random(4000)
    options = interpretations(RULES)
    seen: Counter[tuple[str, bool]] = Counter()
    for at in range(300):
        home = random_house(GLOSSARY, chance)
        if at % 10 == 0:
            home["loads"].append(load(GLOSSARY, "clothes_dryer", "dryer not known"))
        if at % 10 == 5:
            home["loads"].append({**load(GLOSSARY, "gas_dryer", "gas dryer not known"), "on_laundry_circuit": False})
        if at % 9 == 0:
            home["rating"] = None
        choices = {address: chance.choice(list(each.options)) for address, each in options.items()}
        document = _document(home, choices)
        assert recompute_document(document, tolerance=TOLERANCE) == []
        seen.update((name, outcome) for name, outcome in _conditions(document) if outcome is not None)
    names = {name for name, _ in seen if name not in NEVER_BOTH and name.split(".")[1].split(" ")[0] not in LOCAL}
    thin = [(name, side, seen[name, side]) for name in sorted(names) for side in (True, False) if seen[name, side] < 5]
    assert thin == []
