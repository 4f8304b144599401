"""Assessments of whole homes: the basis, the verdict, conditions, remarks, loads, legs, and what is left open.

Expected figures are worked in plain numbers beside each test, from the sections, not from the rules.
"""

from __future__ import annotations

import pytest
from assessments import Tree, answer, assessed, demo, house, load, supply
from examples import rules_of

from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, OPEN, SupplyResult
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import as_text

CIRCUITS = 2 * 1500 + 1500  # small-appliance and laundry circuits of every house here [VA]
OF_FEW = "the only method calculated here that may be used"
METHODS = ["optional_dwelling", "existing_dwelling", "two_dwellings", "multifamily", "manufactured", "standard"]
OF_SEVERAL = "the least of the methods calculated here that may be used"


def shared(volt_amperes: float, first: float, share: float) -> float:
    """The first part in full and a share of the rest."""
    return min(volt_amperes, first) + share * max(volt_amperes - first, 0)


def all_electric(**service: object) -> Tree:
    loads = [
        load("range", "range", "11 kW"),
        load("heat pump", "heat pump", "RLA 16 A + fan 1 A at 240 V"),
        load("strips", "strip heat", "9.6 kW"),
        load("water heater", "water heater", "4.5 kW"),
    ]
    return house(loads, **service)


def all_electric_optional() -> float:
    """220.82: the pool, then the pump with 65 % of the strips [A]."""
    pool = 3 * 1500 + CIRCUITS + 11000 + 4500
    return (shared(pool, 10000, 0.4) + 17 * 240 + 0.65 * 9600) / 240


def all_electric_existing() -> float:
    """220.83(A): nothing is added, so that the pump and the strips are among the general loads [A]."""
    pool = 3 * 1500 + CIRCUITS + 11000 + 4500 + 17 * 240 + 9600
    return shared(pool, 8000, 0.4) / 240


def all_electric_standard() -> float:
    """220.40: lighting, the heater as one of fewer than four, the range by column C, all heat, 25 % of the compressor [A]."""
    lighting = shared(3 * 1500 + CIRCUITS, 3000, 0.35)
    return (lighting + 4500 + 8000 + 9600 + 17 * 240 + 0.25 * 16 * 240) / 240


# --- the basis


def test_the_least_of_the_methods_that_may_be_used_is_the_basis() -> None:
    found = supply(all_electric())
    assert found.basis is not None
    assert (found.basis.method, found.basis.because) == ("existing_dwelling", OF_SEVERAL)
    assert amperes_of_methods(found) == {
        "optional_dwelling": (pytest.approx(all_electric_optional()), "yes", False),
        "existing_dwelling": (pytest.approx(all_electric_existing()), "yes", True),
        "standard": (pytest.approx(all_electric_standard()), "yes", False),
    }
    assert answer(found) == (pytest.approx(all_electric_existing()), FITS)
    assert found.total == pytest.approx(all_electric_existing() * 240)


def test_the_calculation_for_an_existing_dwelling_is_not_for_a_new_supply() -> None:
    found = supply(all_electric(state="to be installed"))
    assert found.basis is not None
    assert (found.basis.method, found.basis.because) == ("optional_dwelling", OF_SEVERAL)
    assert amperes_of_methods(found) == {
        "optional_dwelling": (pytest.approx(all_electric_optional()), "yes", True),
        "standard": (pytest.approx(all_electric_standard()), "yes", False),
    }
    assert answer(found) == (pytest.approx(all_electric_optional()), FITS)


def amperes_of_methods(found: SupplyResult) -> dict[str, tuple[float | None, str, bool]]:
    """The load of each method that may be used, whether it may, and whether it is the basis."""
    assert [each.id for each in found.results] == METHODS
    return {each.id: (each.amperes, each.may_be_used, each.basis) for each in found.results if each.may_be_used != "no"}


def test_the_standard_calculation_where_the_optional_may_not_be_used() -> None:
    tree = demo("small_gas_heated_house")
    tree["service"]["state"] = "to be installed"
    found = supply(tree)
    lighting = shared(3 * 780 + CIRCUITS, 3000, 0.35)
    disposer, blower, charger = 7.2 * 120, 6 * 120, 32 * 240
    standard = (lighting + disposer + blower + 0.25 * disposer + charger) / 240
    assert found.basis is not None
    assert (found.basis.method, found.basis.because) == ("standard", OF_FEW)
    assert answer(found) == (pytest.approx(standard), DOES_NOT_FIT)
    optional = next(result for result in found.results if result.id == "optional_dwelling")
    pool = 3 * 780 + CIRCUITS + disposer + blower + charger
    assert optional.amperes == pytest.approx(shared(pool, 10000, 0.4) / 240)
    assert optional.amperes < standard
    assert (optional.may_be_used, optional.basis) == ("no", False)
    as_it_is = supply(demo("small_gas_heated_house"))
    assert as_it_is.basis is not None
    assert (as_it_is.basis.method, answer(as_it_is)) == (
        "existing_dwelling",
        (pytest.approx(shared(pool, 8000, 0.4) / 240), FITS),
    )


def test_the_standard_calculation_where_it_is_the_smaller() -> None:
    """An empty house of 10 m2, 107.64 ft2: less than the 10 kVA of which the optional calculation takes all."""
    found = supply(house([], area="10 m2"))
    all_of_it = 3 * 10 / 0.09290304 + CIRCUITS
    assert found.basis is not None
    assert (found.basis.method, found.basis.because) == ("standard", OF_SEVERAL)
    amperes = {result.id: result.amperes for result in found.results}
    assert amperes["optional_dwelling"] == pytest.approx(all_of_it / 240, rel=1e-4)
    assert amperes["standard"] == pytest.approx(shared(all_of_it, 3000, 0.35) / 240, rel=1e-4)


@pytest.mark.parametrize("method", ["standard", "optional_dwelling"])
def test_a_method_asked_for_by_name_is_the_basis(method: str) -> None:
    found = supply(all_electric(), method)
    wanted = all_electric_standard() if method == "standard" else all_electric_optional()
    assert found.basis is not None
    assert (found.basis.method, found.basis.because) == (method, "asked for by name")
    assert answer(found)[0] == pytest.approx(wanted)
    assert [result.id for result in found.results if result.basis] == [method]


def test_a_method_asked_for_that_may_not_be_used_leaves_no_basis() -> None:
    found = supply(demo("small_gas_heated_house"), "optional_dwelling")
    assert (found.basis, found.sizing, found.before) == (None, None, None)
    assert found.verdict == OPEN


# --- the verdict


@pytest.mark.parametrize(
    ("over", "verdict"),
    [(0, FITS), (0.49, FITS), (0.5, DOES_NOT_FIT), (1, DOES_NOT_FIT)],  # 220.5(B): a fraction under one half is dropped
)
def test_the_verdict_turns_at_the_capacity(over: float, verdict: str) -> None:
    """An optional calculation of exactly 100 A and a little: a charger of 4/10 in the pool makes up the difference."""
    pool = 3 * 1500 + CIRCUITS
    needed = ((100 + over) * 240 - 10000) / 0.4 + 10000 - pool
    found = supply(house([load("charger", "charger", f"{needed:.4f} VA")], rating="100 A"), "optional_dwelling")
    assert answer(found) == (pytest.approx(100 + over, abs=1e-6), verdict)
    assert found.sizing is not None
    assert found.sizing.capacity == 100
    assert found.sizing.margin == pytest.approx(-over, abs=1e-6)
    assert found.sizing.fits is (verdict == FITS)


def test_nothing_to_compare_where_a_new_supply_has_no_rating() -> None:
    tree = all_electric(state="to be installed")
    del tree["service"]["rating"], tree["service"]["conductors"]
    found = supply(tree)
    assert found.verdict == NOTHING
    assert found.sizing is not None
    assert (found.sizing.capacity, found.sizing.margin, found.sizing.fits) == (None, None, None)
    assert found.sizing.minimum_rating == 110  # the next standard rating over 108.83 A
    assert found.sizing.offered_rating == 125


def test_open_where_an_existing_supply_has_no_rating() -> None:
    tree = all_electric()
    del tree["service"]["rating"]
    found = supply(tree)
    assert answer(found) == (pytest.approx(all_electric_existing()), OPEN)
    assert found.sizing is not None
    assert any("rating" in name for name in found.sizing.missing)


def test_an_unknown_rating_leaves_the_answer_open_and_is_named() -> None:
    tree = all_electric()
    tree["dwelling units"][0]["loads"][0]["rating"] = "unknown"
    document = assessed(tree)
    (found,) = document.supplies
    assert (found.verdict, found.basis, found.total) == (OPEN, None, None)
    assert [name for name in found.unknowns if "range" in name] != []
    assert not [name for name in found.unknowns if "water heater" in name or "strips" in name]
    for full in (False, True):
        text = as_text(sheet_pages(document, full=full), None)
        assert "Open: none of the methods calculated here gives a result." in text
        assert all(f"- {name}" in text for name in found.unknowns)


def test_the_weakest_element_is_the_capacity() -> None:
    for service, capacity, weakest in (
        ({"bus": "125 A"}, 125, "Rating of the panelboard bus"),
        ({"conductors": {"size": "1 AWG", "material": "copper"}}, 130, "Rating that the supply conductors allow"),
        ({}, 200, "Rating of the main overcurrent device"),
    ):
        sizing = supply(all_electric(**service)).sizing
        assert sizing is not None
        assert (sizing.capacity, sizing.weakest) == (capacity, weakest)
        assert sizing.margin == pytest.approx(capacity - all_electric_existing())


def test_a_feeder_of_a_part_of_a_dwelling_carries_more_of_its_continuous_load() -> None:
    """The shop of the farm: welder and freezer in full, a motor with 25 % more, the charger with 25 % more of its 32 A."""
    tree = demo("farm_house_with_shop")
    tree["planned"][0]["settings"] = ["32 A"]
    shop = assessed(tree).supplies[1]
    load = (40 * 240 + 28 * 240 + 0.25 * 28 * 240 + 4 * 120 + 32 * 240) / 240
    assert shop.sizing is not None
    assert [each.amperes for each in shop.results if each.basis] == [pytest.approx(load)]
    assert shop.sizing.amperes == pytest.approx(load + 0.25 * 32)
    assert shop.sizing.margin == pytest.approx(100 - load - 0.25 * 32)
    assert shop.verdict == DOES_NOT_FIT


# --- conditions and remarks


def test_a_bus_below_the_main_is_told() -> None:
    tree = all_electric()
    assert not any("bus of the panelboard" in each for each in supply(tree).shortcomings)
    tree["service"]["bus"] = "100 A"
    assert any("bus of the panelboard" in each for each in supply(tree).shortcomings)


def test_the_field_page_tells_each_supply_once_and_each_load_once() -> None:
    page = assessed(demo("farm_house_with_shop")).field_page
    assert [each for each in page if "main overcurrent device" in each] == [
        "Service - main overcurrent device: 200 A",
        "Feeder shop - main overcurrent device: 100 A",
    ]
    of_charger = [each.partition(" - ")[2] for each in page if each.startswith("shop charger - ")]
    assert [each.split()[:2] for each in of_charger] == [["its", "setting;"], ["circuit:", "overcurrent"]]
    assert of_charger[1] == "circuit: overcurrent device 20 A, conductors not smaller than 12 AWG copper at 60 C or 75 C"


def test_a_part_or_three_lines_are_told_to_be_checked_line_by_line() -> None:
    farm, apartments = (demo(name) for name in ("farm_house_with_shop", "twelve_apartments"))
    told = [any("spread evenly over the lines" in each for each in found.remarks) for found in assessed(farm).supplies]
    assert told == [False, True]
    told = [any("spread evenly over the lines" in each for each in found.remarks) for found in assessed(apartments).supplies]
    assert told == [True, False]


def test_a_condition_of_use_that_is_not_known_is_asked_for() -> None:
    """Conductors not seen: whether they count as 100 A is the one condition that cannot be shown."""
    found = supply(all_electric(conductors="not seen"), "optional_dwelling")
    assert found.conditions == ["the supply conductors count as 100 A or more"]
    assert {each: used for each, (_, used, _) in amperes_of_methods(found).items()} == {
        "optional_dwelling": "on condition",
        "existing_dwelling": "yes",
        "standard": "yes",
    }
    asked = [fact.text for fact in found.facts_not_verified if "condition of use not shown" in fact.text]
    assert asked == ["condition of use not shown: the supply conductors count as 100 A or more"]
    assert supply(all_electric(conductors="not seen"), "standard").conditions == []
    assert supply(all_electric(conductors="not seen")).conditions == []  # 220.83 has no such condition, and is the least
    assert supply(all_electric(), "optional_dwelling").conditions == []


def test_remarks_follow_what_was_found() -> None:
    """Minimum and margin always; the setting where one counts; the conductors where 83 % of the rating is over them."""
    charger = load("charger", "charger", "setting 24 A")
    listed = {"name": "charger", "kind": "charger", "settings": ["16 A", "24 A"]}
    short = {"size": "2 AWG", "material": "copper"}  # 115 A, and 83 % of 150 A is 124.5 A
    wide = {"size": "1 AWG", "material": "copper"}  # 130 A
    cases = [
        (all_electric(), {"Minimum", "Margin"}),
        (all_electric(meter="320 A"), {"Minimum", "Margin"}),
        (house([charger]), {"Minimum", "Margin", "A setting"}),
        (house([listed]), {"Minimum", "Margin", "A setting"}),
        (house([], rating="150 A", conductors=short), {"The supply conductors do not", "Minimum", "Margin"}),
        (house([], rating="150 A", conductors=wide), {"Minimum", "Margin"}),
    ]
    starts = {"Minimum", "Margin", "A setting", "The supply conductors do not"}
    for tree, wanted in cases:
        found = supply(tree)
        remarks = [*found.shortcomings, *(each for each in found.remarks if not each.startswith("Conductors are taken at 30 C"))]
        assert (
            len(found.remarks) + len(found.shortcomings) == len(remarks) + 1
        )  # nothing is said of ambient temperature or number together
        assert {start for start in starts if any(each.startswith(start) for each in remarks)} == wanted
        assert len(remarks) == len(wanted)


def test_the_checklist_comes_with_a_service_that_does_not_suffice_or_is_new() -> None:
    assert assessed(all_electric()).checklist == []
    assert assessed(all_electric() | {"work": "new"}).checklist != []
    found = assessed(all_electric(rating="60 A")).checklist
    assert [each.partition(" ")[0] for each in found] == ["Surge", "An", "Disconnects", "Grounding"]
    before = read_instructions(rules_of("nec/2017")).checklist  # 230.67 and 230.85 came with 2020
    assert [each.partition(" ")[0] for each in before] == ["Disconnects", "Grounding"]


# --- loads, legs, the neutral


def test_the_status_of_loads() -> None:
    planned = [load("pump", "heat pump", "20 A at 240 V", replaces="furnace"), load("hob", "cooktop", "7 kW")]
    tree = house([load("furnace", "electric furnace", "10 kW"), load("tub", "hot tub", "40 A at 240 V")], planned=planned)
    told = [(each.name, each.status, each.replaces, each.rating) for each in supply(tree).loads]
    assert told == [
        ("furnace", "replaced by pump", [], "10 kW"),
        ("tub", "existing", [], "40 A at 240 V"),
        ("pump", "planned", ["furnace"], "20 A at 240 V"),
        ("hob", "planned", [], "7 kW"),
    ]
    tree["service"]["state"] = "to be installed"
    assert [each.status for each in supply(tree).loads] == ["replaced by pump", "existing", "planned", "planned"]
    tree["work"] = "new"
    assert [each.status for each in supply(tree).loads] == ["replaced by pump", "new", "planned", "planned"]
    tree["service"]["state"] = "unknown"
    del tree["work"]
    assert [each.status for each in supply(tree).loads] == ["replaced by pump", "existing or new", "planned", "planned"]


def on_legs(**legs: str) -> Tree:
    loads = [
        load("disposer", "waste disposer", "1/2 hp at 115 V"),  # 9.8 A by Table 430.248
        load("dishwasher", "dishwasher", "1.2 kW"),
        load("fridge", "refrigerator", "6 A at 120 V", individual_circuit="yes"),
    ]
    return house([{**each, "legs": legs[each["name"]]} if each["name"] in legs else each for each in loads])


SPREAD = shared(3 * 1500 + CIRCUITS, 3000, 0.35) / 240  # the lighting on both lines [A]
DISPOSER, DISHWASHER, FRIDGE = 9.8 * 120, 1200, 6 * 120


@pytest.mark.parametrize(
    ("legs", "neutral"),
    [
        ({}, SPREAD + (1.25 * DISPOSER + DISHWASHER + FRIDGE) / 240),
        ({"disposer": "A", "dishwasher": "A", "fridge": "B"}, SPREAD + (1.25 * DISPOSER + DISHWASHER) / 120),
        ({"disposer": "B", "dishwasher": "A", "fridge": "A"}, SPREAD + (DISHWASHER + FRIDGE) / 120),
        ({"disposer": "B", "dishwasher": "B", "fridge": "B"}, SPREAD + (1.25 * DISPOSER + DISHWASHER + FRIDGE) / 120),
        ({"dishwasher": "B"}, SPREAD + (1.25 * DISPOSER + FRIDGE) / 240 + DISHWASHER / 120),
    ],
)
def test_the_neutral_is_the_larger_line(legs: dict[str, str], neutral: float) -> None:
    found = supply(on_legs(**legs))
    assert found.beside[0].answers[0].value == pytest.approx(neutral)
    assert answer(found) == answer(supply(on_legs()))  # legs are of the neutral alone


# --- what stands beside the load


def with_source(breaker: int) -> Tree:
    """A bus and main of 200 A with a source not at the opposite end: only the sum of all breakers can serve."""
    tree = house([], planned=[load("charger", "charger", "setting 48 A")], rating="200 A", bus="200 A")
    tree["sources"] = [{"name": "roof", "output current": "32 A", "breaker": "40 A", "opposite end": "no"}]
    circuits = [
        {"breaker": f"{breaker} A", "poles": "2", "for": "all else"},
        {"breaker": "40 A", "poles": "2", "source": "roof"},
    ]
    tree["panels"] = [{"name": "panel", "spaces": "20", "circuits": circuits}]
    return tree


@pytest.mark.parametrize(("breaker", "holds"), [(100, True), (110, False)])
def test_planned_circuits_stand_among_the_breakers_of_the_bus(breaker: int, holds: bool) -> None:
    """100 + 40 + 60 A for the charger of 48 A are the 200 A of the bus; 110 A more than that."""
    found = supply(with_source(breaker))
    told = {each.result: each.value for beside in found.beside for each in beside.answers}
    assert told["holds"] is holds
    assert [("sources" in each) for each in found.shortcomings] == ([] if holds else [True])


def test_a_planned_circuit_that_the_panel_lists_counts_once() -> None:
    tree = with_source(100)
    tree["panels"][0]["circuits"].append({"breaker": "60 A", "poles": "2", "load": "charger"})
    told = {each.result: each.value for beside in supply(tree).beside for each in beside.answers}
    assert told["holds"] is True


@pytest.mark.parametrize(("size", "sets", "allowed"), [("1/0", "2", True), ("1", "3", False), ("4/0", "1", True)])
def test_small_conductors_in_parallel_fall_short(size: str, sets: str, allowed: bool) -> None:
    """310.10(G): 1/0 AWG is the smallest that may be run in parallel; the ampacity alone would do."""
    tree = house([], conductors={"size": f"{size} AWG", "material": "aluminum", "sets": sets})
    found = supply(tree)
    assert found.sizing is not None
    assert found.sizing.conductors_suffice is allowed
    assert bool(found.shortcomings) is not allowed


def grounding_told(tree: Tree) -> dict[str, str]:
    names = ("for_new_supply", "electrode_conductor", "bonding_jumper", "neutral_copper", "neutral_aluminum")
    told = {each.result: each.printed for beside in supply(tree).beside for each in beside.answers}
    return {name: told[name] for name in names if name in told}


def test_grounding_is_told_of_conductors_that_are_known_or_new() -> None:
    """Of 4/0 aluminum 4 AWG copper (250.66); of conductors nobody saw nothing, unless the service is too small or new."""
    seen = grounding_told(house([]))
    assert (seen["electrode_conductor"], "for_new_supply" in seen, "neutral_copper" in seen) == ("4 AWG", False, False)
    assert grounding_told(house([], conductors="not seen")) == {}
    heavy = [load("furnace", "electric furnace", "20 kW"), load("tankless", "tankless water heater", "36 kW")]
    short = grounding_told(house(heavy, rating="100 A", conductors="not seen"))
    assert short["for_new_supply"] == "yes"
    assert {"electrode_conductor", "neutral_copper", "neutral_aluminum"} <= set(short)
    new = house([])
    new["work"] = "new"
    del new["service"]["conductors"]
    assert "for_new_supply" not in grounding_told(new)
    assert "electrode_conductor" in grounding_told(new)


@pytest.mark.parametrize(("rating", "divided"), [("11.52 kW", False), ("11.76 kW", True)])
def test_elements_of_more_than_one_circuit_are_told(rating: str, divided: bool) -> None:
    """424.22(B): 48 A of 240 V are 11,520 VA."""
    whole = assessed(house([], planned=[load("furnace", "electric furnace", rating)]))
    circuits = whole.supplies[0].circuits
    assert circuits is not None
    assert bool(circuits.circuits[0].remarks) is divided
    assert any("divided among circuits" in each for each in whole.field_page) is divided


def test_the_rating_of_a_new_supply_may_turn_on_a_reading() -> None:
    """No rating to compare with: charging apart from the pool asks for more than charging in it."""
    tree = house([load("furnace", "electric furnace", "15 kW")], planned=[load("charger", "charger", "setting 48 A")])
    tree["work"] = "new"
    for key in ("rating", "conductors"):
        del tree["service"][key]
    found = supply(tree)
    assert found.verdict == NOTHING
    flips = [each for each in found.interpretations if each.flips]
    assert [each.address for each in flips] == ["listed_loads.charging_in_optional"]
    ratings = {option.option: option.minimum_rating for option in flips[0].options}
    # 10,000 + 40 % of (9,000 + 11,520 - 10,000) + 9,750 = 23,958 VA = 99.8 A; apart 9,000 + 11,520 + 9,750 = 126.1 A
    assert (ratings["in_pool"], ratings["apart"]) == (100, 150)


@pytest.mark.parametrize(("kind", "total"), [("air conditioner", 10_400), ("heat pump", 13_400)])
def test_a_load_in_the_place_of_one_of_its_own_kind_is_not_added(kind: str, total: float) -> None:
    """1500 ft2: 9,000 VA. Like for like: 8,000 + 40 % of (9,000 + 5,000 - 8,000); else 8,000 + 40 % of 1,000 + 5,000, 220.83(B)."""
    planned = [load("new unit", kind, "5 kVA", replaces="old unit")]
    found = assessed(house([load("old unit", "air conditioner", "4 kVA")], planned=planned)).supplies[0]
    assert next(each.total for each in found.results if each.id == "existing_dwelling") == total


def test_free_breaker_spaces_are_to_be_found_where_no_panelboard_is_told() -> None:
    """A charger between two lines takes two spaces; where a panelboard is told, its own count says it."""
    charger = {"name": "charger", "kind": "EV charging equipment", "rating": "setting 24 A"}
    tree = {**house([], planned=[charger]), "work": "existing"}
    found = assessed(tree).field_page
    assert "free breaker spaces: not told, to be found; the planned circuits take 2" in found
    told = assessed({**tree, "panels": [{"name": "panel", "spaces": "20", "taken": "18"}]}).field_page
    assert not any("free breaker spaces: not told" in each for each in told)
