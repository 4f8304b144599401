"""What an assessment says of ratings that were not read: the verdict for all that they may be, and what decides it.

The house: 1500 ft2, a water heater of 4500 W, an air conditioner of x watts; a supply of 100 A at 240 V that is to be installed,
so that 220.83 may not be used. By the optional calculation it carries 10,000 + 40 % of 3500 + x, by the standard one 3000 + 35 % of 6000 + 4500 + x and a quarter of x: less up to 7200 W.
A fraction under half an ampere is dropped, so it fits below 100.5 A, which is x = 12,720 W.
"""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

import pytest
from assessments import DEMO, Tree, assessed, home_of, house, load, supply
from commands import Run
from examples import rules_of
from random_homes import random_home, written
from ranged_homes import with_bounds
from samples import first_of

from dwellcalc.decide.assess import assess
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, OPEN, SupplyResult
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.decide.openness import OpenResult
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.facts import Between
from dwellcalc.home import home_from_text
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import Table, as_text
from dwellcalc.report.unknowns import conductor_blocks
from dwellcalc.review.sheets.recompute import recompute_document

VOLTS = 240
SMALL = {"rating": "100 A", "state": "to be installed", "conductors": {"size": "4 AWG", "material": "copper"}}

OFFERED = ("nec/2014", "nec/2017", "nec/2020", "nec/2023", "nec/2026")


def cooled(cooling: str, *more: Tree, **service: Any) -> Tree:
    loads = [load("water heater", "water heater", "4500 W"), load("cooling", "air conditioner", cooling), *more]
    return house(loads, **{**SMALL, **service})


def optional(x: float) -> float:
    return 10000 + 0.4 * 3500 + x


def standard(x: float) -> float:
    return 3000 + 0.35 * 6000 + 4500 + 1.25 * x


def between(found: SupplyResult) -> OpenResult:
    assert found.between is not None
    return found.between


def text_of(tree: Tree, method: str = "") -> str:
    return " ".join(as_text(sheet_pages(assessed(tree, method), full=False), 200).split())


def test_the_least_method_differs_from_value_to_value() -> None:
    found = between(supply(cooled("5 kW to 20 kW")))
    assert standard(5000) < optional(5000) and optional(20000) < standard(20000)
    assert (found.va.low, found.va.high) == (pytest.approx(standard(5000)), pytest.approx(optional(20000)))
    assert (found.amperes.low, found.amperes.high) == (
        pytest.approx(standard(5000) / VOLTS),
        pytest.approx(optional(20000) / VOLTS),
    )
    assert found.amperes.attained and found.va.attained and found.decided


@pytest.mark.parametrize(
    ("rating", "verdict"),
    [("5 kW to 12.719 kW", FITS), ("5 kW to 12.72 kW", OPEN), ("12.719 kW to 13 kW", OPEN), ("12.72 kW to 13 kW", DOES_NOT_FIT)],
)
def test_the_verdict_is_for_all_that_may_be(rating: str, verdict: str) -> None:
    found = supply(cooled(rating))
    assert (found.verdict, between(found).verdict) == (verdict, verdict)


def test_the_one_that_decides_is_told_with_its_largest_value_that_fits() -> None:
    found = between(supply(cooled("5 kW to 20 kW")))
    (one,) = found.inputs
    assert (one.item, one.what, one.low, one.high) == ("cooling", "rating", "5,000 W", "20,000 W")
    assert (one.settles, one.at_low.verdict, one.at_high.verdict) == (True, FITS, DOES_NOT_FIT)
    assert one.fits_up_to == "12,710 W"  # by steps of 10 W
    assert one.moves == pytest.approx((optional(20000) - standard(5000)) / VOLTS)
    assert found.read_first == "cooling"


def test_each_is_told_with_the_others_anywhere_between_their_bounds() -> None:
    """A heater of 4 to 5 kW more in the pool: 40 % of it."""
    heater = load("second heater", "water heater", "4 kW to 5 kW")
    found = between(supply(cooled("8 kW to 13 kW", heater)))
    by_item = {each.item: each for each in found.inputs}
    assert [each.item for each in found.inputs] == ["cooling", "second heater"]
    low, high = by_item["cooling"].at_low, by_item["second heater"].at_high
    assert (low.amperes.low, low.amperes.high) == (
        pytest.approx((optional(8000) + 0.4 * 4000) / VOLTS),
        pytest.approx((optional(8000) + 0.4 * 5000) / VOLTS),
    )
    assert (high.amperes.low, high.amperes.high) == (
        pytest.approx((optional(8000) + 0.4 * 5000) / VOLTS),
        pytest.approx((optional(13000) + 0.4 * 5000) / VOLTS),
    )
    assert by_item["second heater"].moves == pytest.approx(0.4 * 1000 / VOLTS)
    assert by_item["cooling"].fits_up_to == "10,710 W"  # 12,720 less 40 % of 5000, below


@pytest.mark.slow
def test_what_settles_it_only_together_is_told_together() -> None:
    """8 kW of cooling leave 4720 VA, which is 11,800 W of three more heaters of 2 to 6 kW: two of them settle it."""
    heaters = [load(name, "water heater", "2 kW to 6 kW") for name in ("first", "second", "third")]
    tree = cooled("8 kW", *heaters)
    found = between(supply(tree))
    assert found.verdict == OPEN and not any(each.settles for each in found.inputs)
    told = [(each.items, each.high, each.at_end.verdict) for each in found.together]
    assert told == [(["first", "second"], False, FITS), (["first", "second"], True, DOES_NOT_FIT)]
    assert "first and second at their low ends: " in text_of(tree)


@pytest.mark.slow
def test_the_sheet_is_calculated_with_the_values_of_the_largest_load() -> None:
    found = supply(cooled("5 kW to 20 kW"))
    assert found.sizing is not None and found.sizing.amperes == between(found).amperes.high
    assert between(found).sheet_at == {"cooling": "20,000 W"}
    text = text_of(cooled("5 kW to 20 kW"))
    assert "One input is known only between bounds. The supply must carry 66.04 A to 130.83 A (15,850 VA to 31,400 VA)" in text
    assert "calculated with the values at which the load is largest: cooling 20,000 W." in text
    assert text.index("One input is known") < text.index("Calculated load")


def test_a_home_without_bounds_says_nothing_of_them() -> None:
    found = supply(cooled("8 kW"))
    assert (found.between, found.up_to, found.holds_from) == (None, None, None)
    assert "known only between bounds" not in text_of(cooled("8 kW"))


def test_an_area_may_lie_between_bounds() -> None:
    """300 ft2 more are 40 % of 900 VA by the optional calculation."""
    tree = cooled("9 kW")
    tree["dwelling units"][0]["areas"][0]["area"] = "1500 ft2 to 1800 ft2"
    found = between(supply(tree))
    assert (found.va.low, found.va.high) == (pytest.approx(optional(9000)), pytest.approx(optional(9000) + 0.4 * 900))
    assert (found.inputs[0].item, found.inputs[0].what, found.inputs[0].high) == ("rooms", "area", "1,800 ft2")


# What is not known at all


def test_up_to_what_the_one_rating_that_is_missing_fits() -> None:
    found = supply(cooled("unknown"))
    assert (found.verdict, found.between) == (OPEN, None)
    assert found.up_to is not None
    assert (found.up_to.item, found.up_to.fits_up_to, found.up_to.step) == ("cooling", "12,710 VA", "10 VA")
    assert "It fits at any rating up to 12,710 VA (told by 10 VA), all else as it is." in text_of(cooled("unknown"))


def test_up_to_what_it_fits_whatever_another_is_between_its_bounds() -> None:
    found = supply(cooled("unknown", load("second heater", "water heater", "4 kW to 5 kW")))
    assert found.up_to is not None and found.up_to.fits_up_to == "10,710 VA"


def test_bounds_beside_a_rating_that_is_missing_are_worth_nothing_yet() -> None:
    text = text_of(cooled("unknown", load("second heater", "water heater", "4 kW to 5 kW")))
    assert "One input is known only between bounds; what that is worth cannot be said until all that is missing is known." in text
    assert "It fits at any rating up to 10,710 VA" in text


def test_of_several_ratings_that_are_missing_nothing_is_told() -> None:
    assert supply(cooled("unknown", load("range", "range", "unknown"))).up_to is None


def test_what_fits_at_no_rating_is_told() -> None:
    more = load("furnace", "electric furnace", "40 kW")
    found = supply(cooled("unknown", more))
    assert found.up_to is not None and found.up_to.fits_up_to == ""


def test_the_rating_of_the_service_from_which_the_load_holds() -> None:
    """14 kW: 105.83 A by 220.82, so 110 A; 5 to 20 kW: 100 A, the smallest of a house, to 150 A for 130.83 A."""
    unknown, method = {"rating": "unknown", "state": "existing"}, "optional_dwelling"
    one = supply(cooled("14 kW", **unknown), method)
    assert one.holds_from is not None and (one.verdict, one.holds_from.low, one.holds_from.high) == (OPEN, 110, 110)
    assert "The load holds from 110 A." in text_of(cooled("14 kW", **unknown), method)
    two = supply(cooled("5 kW to 20 kW", **unknown), method)
    assert two.holds_from is not None and (two.verdict, two.holds_from.low, two.holds_from.high) == (OPEN, 100, 150)


def test_a_new_service_without_a_rating_has_nothing_to_compare() -> None:
    tree = cooled("5 kW to 20 kW", rating="unknown", state="to be installed", conductors="not seen")
    found = supply(tree)
    assert (found.verdict, found.holds_from) == (NOTHING, None)
    assert (between(found).minimum_rating.low, between(found).minimum_rating.high) == (100, 150)


# Typical ratings


def test_the_typical_ratings_typed_a_second_time() -> None:
    """From the survey of nameplates: low, typical, high [VA]."""
    survey = """
        built_in_microwave_oven 750 1500 1700; blower 350 600 750; clothes_dryer 4500 5400 5600; dishwasher 700 1200 2400
        garage_door_opener 500 875 1176; range 8800 12000 16500; storage_water_heater 3500 4500 5500
        wall_oven 4000 5000 8000; waste_disposer 450 900 1176"""
    typed = {
        kind: tuple(map(float, figures))
        for kind, *figures in (row.split() for row in survey.replace("\n", ";").split(";") if row.strip())
    }
    for edition in OFFERED:
        defaults = rules_of(edition).defaults
        assert {kind: (each.low, each.typical, each.high) for kind, each in defaults.items()} == typed
        assert {each.basis for each in defaults.values()} == {"volt_amperes"}


@pytest.mark.slow
def test_what_is_typical_lies_between_bounds_with_a_figure() -> None:
    """A range of 12,000 VA between 8,800 and 16,500: 40 % of it in the pool."""
    found = between(supply(cooled("9 kW", load("range", "range", "typical"))))
    assert (found.va.low, found.va.high) == (pytest.approx(optional(9000) + 3520), pytest.approx(optional(9000) + 6600))
    assert found.typical is not None and found.typical.others == []
    assert found.typical.amperes.low == found.typical.amperes.high == pytest.approx((optional(9000) + 4800) / VOLTS)
    assert "typical: 12,000 VA (8,800 VA to 16,500 VA), one source" in text_of(cooled("9 kW", load("range", "range", "typical")))


def test_typical_figures_stand_beside_bounds_of_the_others() -> None:
    found = between(supply(cooled("9 kW to 10 kW", load("range", "range", "typical"))))
    assert found.typical is not None and found.typical.others == ["cooling"]
    assert (found.typical.amperes.low, found.typical.amperes.high) == (
        pytest.approx((optional(9000) + 4800) / VOLTS),
        pytest.approx((optional(10000) + 4800) / VOLTS),
    )


# Interpretations in the same list


def test_an_interpretation_that_flips_the_verdict_stands_with_what_decides() -> None:
    """A charger of 7680 VA: 40 % in the pool, all of it apart: 4608 VA more."""
    tree = cooled("5 kW to 9 kW", load("charger", "EVSE", "setting 32 A"))
    found = between(supply(tree))
    assert found.verdict == FITS
    flips = {(each.address.partition(".")[2], each.option): each for each in found.flips}
    apart = flips["charging_in_optional", "apart"]
    assert apart.verdict == OPEN
    assert apart.amperes.high == pytest.approx((optional(9000) + 7680) / VOLTS)
    text = text_of(tree)
    assert "What decides the verdict: - the reading of" in text
    assert "The verdict turns on an interpretation" not in text


# Random home files


@pytest.mark.slow
@pytest.mark.parametrize("seed", first_of(range(8), (0, 1, 2)))
def test_a_random_home_file_with_bounds_is_read_and_assessed(seed: int) -> None:
    """The sheet is that of the largest load, it can be computed again, and the facts hold the bounds as written."""
    chance = random.Random(seed)
    rules = rules_of(chance.choice(OFFERED))
    node = random_home(rules.glossary, chance, hiding=0.0)
    spreads = with_bounds(node, chance)
    home = home_from_text(written(node), "random.yaml", rules.glossary)
    loads = home.facts.collections["loads"]
    for name, spread in spreads.items():
        columns = [column[loads.names.index(name)] for column in loads.fields.values()]
        (value,) = [each for each in columns if isinstance(each, Between)]
        assert (value.low, value.high) == (pytest.approx(spread.low.amount), pytest.approx(spread.high.amount))
    digest = home.facts.digest()
    found = assess(home, rules, date="2026-01-01")
    assert home.facts.digest() == digest
    assert recompute_document(json.loads(json.dumps(found.json())), tolerance=1e-9) == []
    for supply_found, of in zip(found.supplies, home.supplies, strict=True):
        names = {*spreads} & {*of.facts.collections["loads"].names}
        assert {each.item for each in supply_found.between.inputs} == names if supply_found.between else not names
        if supply_found.between is not None and supply_found.sizing is not None:
            assert supply_found.sizing.amperes == pytest.approx(supply_found.between.amperes.high)
    as_text(sheet_pages(found, full=True), 100)


# The whole command


@pytest.mark.slow
def test_an_open_demo_exits_with_3(run: Run, tmp_path: Path) -> None:
    code, out, _ = run("assess", str(DEMO / "house_half_read.yaml"))
    assert code == 0 and "The supply must carry 93.83 A to 116.02 A" in out
    text = (DEMO / "house_half_read.yaml").read_text(encoding="utf-8").replace("rating: 125 A", "rating: 100 A", 1)
    (tmp_path / "home.yaml").write_text(text, encoding="utf-8")
    code, out, _ = run("assess", str(tmp_path / "home.yaml"))
    assert code == 3
    assert "To be confirmed on site first: the nameplates of range and air conditioner" in " ".join(out.split())
    assert "range and air conditioner at their low ends: " in " ".join(out.split())


def test_settings_are_chosen_with_the_largest_load() -> None:
    """With 8 kW and 48 A it is 24,008 VA, 100.03 A, of which the fraction is dropped."""
    tree = cooled("6 kW to 8 kW")
    tree["planned"] = [{"name": "charger", "kind": "EVSE", "settings": ["16 A", "48 A"]}]
    found = assessed(tree)
    at_largest = (optional(8000) + 0.4 * 48 * VOLTS) / VOLTS
    assert found.supplies[0].between is not None
    assert found.supplies[0].between.amperes.high == pytest.approx(at_largest)
    assert found.decision.settings[0].counted == 48


# --- supply conductors that nobody has seen
#
# A house on a main of 125 A: 1500 ft2, 2 small-appliance circuits, 1 laundry circuit, a range of 9.5 kW, a water heater of 4.5 kW
# and an air conditioner of 30 A, with a charger of 16 or 32 A planned. 220.83(B) is not asked for: nothing for heating or cooling
# is added, so all is in the general loads: 9,000 + 9,500 + 4,500 + 7,200 + the charger.


def on_125(**service: Any) -> Tree:
    loads = [load("range", "range", "9.5 kW"), load("tank", "water heater", "4.5 kW")]
    loads += [load("cooling", "air conditioner", "30 A at 240 V")]
    charger = {"name": "charger", "kind": "EV charging equipment", "settings": ["16 A", "32 A"]}
    return house(loads, planned=[charger], **{"rating": "125 A", "bus": "125 A", "state": "existing", **service})


def carried(charger: float) -> float:
    return (8000 + 0.4 * (9000 + 9500 + 4500 + 7200 + charger * VOLTS - 8000)) / VOLTS


@pytest.mark.slow
def test_each_of_the_conductors_that_are_suspected_is_told() -> None:
    assert carried(16) < carried(32) < 100  # 76.73 and 83.13 A
    found = supply(on_125(conductors={"size": "4 AWG or 2 AWG, not seen", "material": "aluminum"}))
    told = [(each.conductors, each.capacity, each.verdict, each.settings) for each in found.conductors]
    # Table 310.16 at 75 C: 65 A and 90 A; 83 % of 125 A are 103.75 A, so that 310.12 serves neither
    assert told == [("4 AWG aluminum", 65, DOES_NOT_FIT, {}), ("2 AWG aluminum", 90, FITS, {"charger": 32})]
    assert found.verdict == OPEN and found.suspected
    assert any("Where the supply conductors are 4 AWG aluminum" in each for each in found.shortcomings)
    assert supply(on_125(conductors={"size": "2 AWG to 1/0 AWG", "material": "aluminum"})).verdict == FITS
    assert supply(on_125(conductors={"size": "6 or 4 AWG", "material": "aluminum"})).verdict == DOES_NOT_FIT
    both = supply(on_125(conductors={"size": "4 AWG, not seen"})).conductors
    assert [each.conductors for each in both] == ["4 AWG aluminum", "4 AWG copper"]


def test_of_a_material_alone_the_size_that_is_needed_and_the_one_below() -> None:
    found = supply(on_125(conductors={"size": "not seen", "material": "aluminum"}))
    assert [each.conductors for each in found.conductors] == ["1 AWG aluminum", "1/0 AWG aluminum"]
    assert found.sizing is not None and found.sizing.seen_to_suffice() == "1/0 AWG aluminum"
    (asked,) = [each for each in found.interpretations if each.address.endswith("capacity_by_dwelling_rule")]
    assert {each.conductors for each in asked.options} == {"1/0 AWG aluminum"}  # 83.13 A are below 103.75 A


def test_conductors_alone_are_replaced() -> None:
    tree = on_125(conductors={"size": "4 AWG", "material": "aluminum"})
    found = {each.what: each for each in assessed(tree).decision.alternatives if "conductors of" in each.what}
    # 103.75 A: 2 AWG copper 115 A, 1/0 AWG aluminum 120 A, by 310.12
    assert {each.partition(",")[0] for each in found} == {
        "Service with conductors of 2 AWG copper",
        "Service with conductors of 1/0 AWG aluminum",
    }
    assert all(each.verdict == FITS and each.amperes == pytest.approx(carried(32)) for each in found.values())
    sizing = supply(tree).sizing
    assert sizing is not None and "103.75 A" in sizing.because[0] and "65 A" in sizing.because[0]


def test_a_planned_area_is_not_there_before() -> None:
    tree = on_125()
    tree["dwelling units"][0]["areas"].append({"name": "addition", "kind": "living", "area": "500 ft2", "status": "planned"})
    found = supply(tree)
    assert found.sizing is not None and found.sizing.amperes == pytest.approx(carried(32) + 0.4 * 1500 / VOLTS)
    assert found.before is not None and found.before.amperes == pytest.approx(carried(0))
    circuits = [answer for each in found.beside for answer in each.answers if answer.result == "circuits_of_planned"]
    assert [each.printed for each in circuits] == ["1"]  # 1500 VA / 120 V are 12.5 A
    del tree["planned"]
    assert (before := supply(tree).before) is not None and before.amperes == pytest.approx(carried(0))


def test_a_panel_says_how_many_of_its_spaces_are_taken() -> None:
    tree = on_125()
    circuits = [{"breaker": "50 A", "poles": "2", "load": "range"}, {"breaker": "40 A", "poles": "2", "load": "charger"}]
    for taken, left in (("22", "6"), ("29", "-1"), ("0", "26")):
        tree["panels"] = [{"name": "panel", "spaces": "30", "taken": taken, "circuits": circuits}]
        answers = {answer.result: answer.printed for each in supply(tree).beside for answer in each.answers}
        assert (answers["new"], answers["left"], answers["suffice"]) == ("2", left, "no" if taken == "29" else "yes")


def test_a_planned_area_is_added_to_a_metered_maximum() -> None:
    tree = on_125()
    rules = rules_of("nec/2023")

    def metered(tree: Tree) -> float:
        assessor = SupplyAssessor(rules, read_instructions(rules), home_of(tree).supplies[0], {})
        amperes = assessor.tried("metered", assessor.choices, {"maximum_demand": 40.0}).amperes
        assert isinstance(amperes, float)
        return amperes

    assert metered(tree) == pytest.approx(1.25 * 40 + 32)
    tree["dwelling units"][0]["areas"].append({"name": "addition", "kind": "living", "area": "500 ft2", "status": "planned"})
    assert metered(tree) == pytest.approx(1.25 * 40 + 32 + 3 * 500 / VOLTS)


def test_the_settings_that_fit_stand_beside_each_reading() -> None:
    charger = {"name": "charger", "kind": "EV charging equipment", "settings": ["16 A", "32 A", "40 A"]}
    tree = house(
        [load("tank", "water heater", "4.5 kW")], planned=[charger], rating="60 A", conductors="not seen", state="existing"
    )
    (asked,) = [each for each in supply(tree).interpretations if each.address.endswith("charging_in_optional")]
    # 13,500 VA: 8,000 + 40 % of 5,500 and of the charger, or the charger in full, against 60 A with a fraction under half dropped
    rest = (8000 + 0.4 * 5500) / VOLTS
    assert rest + 0.4 * 40 < 60 and rest + 16 < 60 < rest + 32
    assert {each.option: each.settings for each in asked.options} == {
        "in_pool": {"charger": 40},
        "apart": {"charger": 16},
        "apart_at_125": {},
    }


def test_sizes_in_short_are_said_once_and_compressors_name_their_section() -> None:
    planned = [
        load("pump", "heat pump", "MCA 14 A at 240 V", minimum_circuit_ampacity="14 A", maximum_overcurrent_device="20 A"),
        load("stove", "range", "12 kW"),
    ]
    circuits = supply(house([], planned=planned)).circuits
    assert circuits is not None
    pump, stove = circuits.circuits
    assert pump.conductors_in_short() == "14 AWG copper at 60 C or 75 C"
    assert any("240.4(G)" in each and "440.22(A)" in each for each in pump.remarks)
    assert any("110.3(B)" in each for each in stove.remarks)


@pytest.mark.slow
def test_a_smaller_setting_that_may_fit_leaves_the_verdict_open() -> None:
    """220.82, 100 A: 10,000 VA + 40 % of what is over it of lighting, circuits, 4,500 VA of water heater and the charger; cooling.

    With 60 A of cooling at the least: 47.5 A + 19.2 A of the charger at 48 A + 60 A = 126.7 A, and at 12 A 112.3 A: neither fits.
    With 45 A at the least: 111.7 A and 97.3 A: with 12 A it may fit.
    """
    charger = {"name": "charger", "kind": "charger", "settings": ["12 A", "48 A"]}
    for cooling, counted, verdict in (("60 A to 75 A at 240 V", 48, DOES_NOT_FIT), ("45 A to 75 A at 240 V", 12, OPEN)):
        tree = cooled(cooling) | {"planned": [charger]}
        found = assessed(tree)
        assert [each.counted for each in found.decision.settings] == [counted]
        assert (found.supplies[0].verdict, between(found.supplies[0]).verdict) == (verdict, verdict)
        least = (optional(0) + 0.4 * (0 + 240 * counted)) / VOLTS + float(cooling.split()[0])
        assert between(found.supplies[0]).amperes.low == pytest.approx(least)
        said = (
            "Nothing is to be installed by it" if verdict == DOES_NOT_FIT else "Nothing is to be installed before that is settled"
        )
        assert said in text_of(tree)
        assert any(each.startswith("cooling - ") and ": to be read, taken as " in each for each in found.field_page)


def test_conductors_that_carry_the_load_and_are_too_small_for_the_main_are_told_so() -> None:
    """310.12: 83 % of 150 A is 124.5 A; 1/0 AWG aluminum carries 120 A, 2/0 AWG suffices for the main."""
    tree = house([load("range", "range", "12 kW")], rating="150 A", conductors="not seen")
    (found,) = assessed({**tree, "work": "existing"}).supplies
    of = {each.conductors: (each.verdict, each.for_main) for each in found.conductors}
    assert of["1/0 AWG aluminum"] == ("fits", False)
    assert of["2/0 AWG aluminum"] == ("fits", True)
    rows = {row[0]: row[3] for block in conductor_blocks(found) if isinstance(block, Table) for row in block.rows}
    assert rows["1/0 AWG aluminum"] == "fits; too small for the main"
    assert rows["2/0 AWG aluminum"] == "fits"
