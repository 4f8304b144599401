"""The standard calculation and the neutral: tables by a second entry, thresholds, properties on random homes, the trace.

The second entry of Tables 220.54 and 220.55 is typed by columns; 220.55 rests on memory with spot values of published
examples (1 to 5, 8, 10, 14, 24 and 30 appliances), 220.54 on two sources up to 23 dryers and one above.
"""

from __future__ import annotations

import random
from collections import Counter
from typing import Any

import pytest
from examples import rules_of
from homes import facts_of, house, load, random_house
from plain_standard import standard_220

from dwellcalc.decide.choices import interpretations
from dwellcalc.evaluate.coverage import miscounts
from dwellcalc.evaluate.sheet import as_json
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.evaluate.work import state_of
from dwellcalc.review.sheets.recompute import recompute_document

STANDARD, NEUTRAL, SIZING = "standard", "neutral", "sizing"
RULES = rules_of("nec/2023")
GLOSSARY = RULES.glossary
EDITIONS = ("nec/2014", "nec/2017", "nec/2020", "nec/2023", "nec/2026")
TOLERANCE = 1e-9

COLUMN_A = "80 75 70 66 62 59 56 53 51 49 47 45 43 41 40 39 38 37 36 35 34 33 32 31 30"  # %, from 26 on 30
COLUMN_B = "80 65 55 50 45 43 40 36 35 34 32 32 32 32 32 28 28 28 28 28 26 26 26 26 26"  # %, then 24 22 20 18 16
COLUMN_C = "8 11 14 17 20 21 22 23 24 25 26 27 28 29 30 31 32 33 34 35 36 37 38 39 40"  # kW, then 15 + n, 25 + 3/4 n
DRYERS = "100 100 100 100 85 75 65 60 55 50 47"  # %, 220.54


def watts(amount: float) -> dict[str, Any]:
    return {"basis": "watts", "watts": float(amount)}


def evaluation(home: dict[str, Any], choices: dict[str, str] | None = None, edition: str = "nec/2023") -> Evaluation:
    rules = rules_of(edition)
    return Evaluation(plan_of(rules), facts_of(rules.glossary, home), choices)


def line(found: Evaluation, name: str, method: str = STANDARD) -> Any:
    return found.line(found.plan.rules.methods[method].lines[name])


def cooking(number: int, each: float) -> float:
    """Cooking load [VA] of equal appliances."""
    kind = "range" if each > 8750 else "cooktop"
    found = line(evaluation(house(GLOSSARY, [load(GLOSSARY, kind, quantity=float(number), **watts(each))])), "cooking_load")
    assert isinstance(found, float)
    return found


def column(text: str, number: int) -> float:
    return float(text.split()[number - 1])


# the tables


@pytest.mark.parametrize("number", [*range(1, 26), 26, 30, 31, 40, 41, 50, 51, 60, 61, 75])
def test_cooking_table(number: int) -> None:
    share_a = column(COLUMN_A, number) if number <= 25 else 30.0
    bands = ((30, 24.0), (40, 22.0), (50, 20.0), (60, 18.0), (10**6, 16.0))
    share_b = column(COLUMN_B, number) if number <= 25 else next(share for last, share in bands if number <= last)
    most = column(COLUMN_C, number) if number <= 25 else 15.0 + number if number <= 40 else 25 + 0.75 * number
    assert cooking(number, 12000) == pytest.approx(min(most, 12.0 * number) * 1000)
    assert cooking(number, 2000) == pytest.approx(min(most, 2.0 * number * share_a / 100) * 1000)
    assert cooking(number, 5000) == pytest.approx(min(most, 5.0 * number * share_b / 100) * 1000)


# Note 1: 5 % for each kW over 12 and a major fraction, one half or more; over 27 kW outside the table.
@pytest.mark.parametrize(("each", "kva"), [
    (12000, 8.0), (12499, 8.0), (12500, 8.4), (13000, 8.4), (20800, 11.6), (27000, 14.0), (27001, 27.001), (1750, 1.75),
])  # fmt: skip
def test_cooking_notes(each: float, kva: float) -> None:
    assert cooking(1, each) == pytest.approx(kva * 1000)


@pytest.mark.parametrize("number", [*range(1, 12), 12, 17, 23, 24, 31, 42, 43, 60])
def test_dryer_table(number: int) -> None:
    share = column(DRYERS, number) if number <= 11 else 47 - (number - 11) if number <= 23 else 35 - 0.5 * (number - 23)
    share = 25.0 if number >= 43 else share
    for rating, counted in ((5500, 5500), (4500, 5000)):  # 220.54: not less than 5,000 VA
        dryers = load(GLOSSARY, "clothes_dryer", quantity=float(number), **watts(rating))
        assert line(evaluation(house(GLOSSARY, [dryers])), "dryer_load") == pytest.approx(number * counted * share / 100)


# 220.42, 220.45: 3 VA/ft2 with the circuits, 2 VA/ft2 in 2026; 3,000 VA at 100 %, up to 120,000 VA at 35 %, the rest at 25 %
@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(("area", "demand"), [
    (500.0, 4050.0), (1500.0, 5100.0), (38500.0, 3000 + 0.35 * 117000), (40000.0, 3000 + 0.35 * 117000 + 0.25 * 4500),
])  # fmt: skip
def test_lighting_tiers(edition: str, area: float, demand: float) -> None:
    area *= 1.5 if edition == "nec/2026" else 1.0
    found = evaluation(house(rules_of(edition).glossary, [], area=area), edition=edition)
    assert line(found, "lighting_demand") == pytest.approx(demand)


# 220.53: 75 % of four or more appliances fastened in place; 500 W or more from 2020 on
@pytest.mark.parametrize(("edition", "smallest", "load_counted"), [
    ("nec/2017", 499.0, 0.75 * (3 * 1500 + 499)), ("nec/2020", 499.0, 3 * 1500.0), ("nec/2020", 500.0, 0.75 * (3 * 1500 + 500)),
    ("nec/2023", 500.0, 0.75 * (3 * 1500 + 500)),
])  # fmt: skip
def test_fastened(edition: str, smallest: float, load_counted: float) -> None:
    glossary = rules_of(edition).glossary
    ratings = (1500, 1500, 1500, smallest)
    loads = [load(glossary, "storage_water_heater", f"heater {at}", **watts(each)) for at, each in enumerate(ratings)]
    assert line(evaluation(house(glossary, loads), edition=edition), "fastened_load") == pytest.approx(load_counted)


# properties


@pytest.mark.parametrize("seed", range(4))
def test_every_load_counts_once(seed: int) -> None:
    chance = random.Random(5000 + seed)
    options = interpretations(RULES)
    for _ in range(60):
        choices = {address: chance.choice(list(each.options)) for address, each in options.items()}
        assert miscounts(evaluation(random_house(GLOSSARY, chance), choices), STANDARD) == []


def test_agrees_with_a_calculation_written_by_hand() -> None:
    chance = random.Random(11)
    systems: Counter[str] = Counter()
    for at in range(300):
        home = random_house(GLOSSARY, chance)
        if at % 3 == 0:
            home |= {"system": "208Y/120 V three-phase 4-wire", "voltage": 208.0}
        by_hand = standard_220(home, three_phase="three-phase" in home["system"])
        assert line(evaluation(home), "total") == pytest.approx(by_hand, rel=TOLERANCE), home
        systems[home["system"]] += 1
    assert len(systems) == 3
    assert min(systems.values()) > 50


def results(home: dict[str, Any]) -> list[float | str]:
    found = evaluation(home)
    values = [line(found, "total"), line(found, "neutral_amperes", NEUTRAL)]
    return [value if isinstance(value, float) else state_of(value) for value in values]


def test_order_and_quantity_change_nothing() -> None:
    chance = random.Random(6000)
    compared = 0
    for _ in range(60):
        home = random_house(GLOSSARY, chance)
        expected = results(home)
        compared += all(isinstance(value, float) for value in expected)
        shuffled = list(home["loads"])
        chance.shuffle(shuffled)
        apart = [
            {**each, "quantity": 1.0, "name": f"{each['name']} {at}"}
            for each in home["loads"]
            for at in range(int(each["quantity"]))
        ]
        for loads in (shuffled, apart):
            for found, wanted in zip(results({**home, "loads": loads}), expected, strict=True):
                assert found == (pytest.approx(wanted, rel=TOLERANCE) if isinstance(wanted, float) else wanted)
    assert compared > 20


# the trace


@pytest.mark.slow
def test_recomputation_agrees_on_random_homes() -> None:
    chance = random.Random(7000)
    options = interpretations(RULES)
    for at in range(100):
        home = random_house(GLOSSARY, chance)
        if at % 10 == 0:
            home["loads"].append(load(GLOSSARY, "clothes_dryer", "dryer not known"))
        found = evaluation(home, {address: chance.choice(list(each.options)) for address, each in options.items()})
        sheets = [as_json(Tracer(found).method(name)) for name in (STANDARD, NEUTRAL)]
        given = {
            "calculated_amperes": line(found, "amperes"),
            "continuous_amperes": line(found, "continuous_amperes"),
            "rating_from": line(found, "rating_from"),
        }
        sizing = as_json(Tracer(Evaluation(found.plan, found.facts, found.choices, given)).method(SIZING))
        document = {"supplies": [{"methods": sheets, "sizing": {"sheet": sizing}}]}
        assert recompute_document(document, tolerance=TOLERANCE) == []
