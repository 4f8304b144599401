"""Branch circuits: examples at each threshold by hand, every device and size against its own rule, voltage drop, panels."""

from __future__ import annotations

import copy
from functools import cache
from itertools import pairwise
from typing import Any

import pytest
import second_entry as second
from assessments import Tree, assessed, home_of, house
from examples import rules_of
from homes import SYSTEMS, facts_of, load
from homes import house as plain_house

from dwellcalc.decide.breaker_spaces import BreakerSpaces, in_words
from dwellcalc.decide.circuits import circuit_of, circuit_results
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.evaluate.sheet import as_json
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.facts import NOT_APPLICABLE, Facts, Unknown
from dwellcalc.report.panel_schedules import panel_blocks
from dwellcalc.report.pictures.single_line import single_line_picture
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import Heading, Paragraph, Table
from dwellcalc.review.sheets.recompute import recompute_document

DEFAULT = "nec/2023"
RULES = rules_of(DEFAULT)
GLOSSARY = RULES.glossary
SIZES = list(GLOSSARY.scales["conductor_size"])
COLUMNS = ("copper_at_60", "copper_at_75", "aluminum_at_60", "aluminum_at_75")
WYE = SYSTEMS[1]


def facts_with(*loads: dict[str, Any], **supply: Any) -> Facts:
    return facts_of(GLOSSARY, plain_house(GLOSSARY, list(loads), **supply))


def planned(kind: str, **said: Any) -> dict[str, Any]:
    return load(GLOSSARY, kind, "it", **{"status": "planned", "individual_circuit": True, **said})


def amperes(kind: str, rated: float, **said: Any) -> dict[str, Any]:
    return planned(kind, **{"basis": "amperes", "marked_amperes": rated, "volts": 240.0, **said})


def watts(kind: str, rated: float, **said: Any) -> dict[str, Any]:
    return planned(kind, **{"basis": "watts", "watts": rated, **said})


def compressor(rated: float, fan: float, **said: Any) -> dict[str, Any]:
    return planned(
        "air_conditioner",
        **{"basis": "rated_load_and_fan", "rated_load_amperes": rated, "fan_amperes": fan, "volts": 240.0, **said},
    )


def setting(rated: float, **said: Any) -> dict[str, Any]:
    return planned("ev_charging_equipment", **{"basis": "setting", "setting": rated, **said})


def motor(horsepower: float, volts: float, **said: Any) -> dict[str, Any]:
    return planned("well_pump", **{"basis": "horsepower", "horsepower": horsepower, "volts": volts, **said})


def evaluated(facts: Facts, edition: str = DEFAULT) -> Evaluation:
    return Evaluation(plan_of(rules_of(edition)), facts)


def found(one: dict[str, Any], *names: str, edition: str = DEFAULT, method: str = "branch_circuits", **supply: Any) -> list[Any]:
    """Columns of the circuit of one load; sizes as text, what does not apply as a dash."""
    evaluation = evaluated(facts_with(one, **supply), edition)
    lines = evaluation.plan.rules.methods[method].lines
    return [_plain(evaluation.line(lines[name], 0), lines[name].kind) for name in names]


def _plain(value: Any, kind: Any) -> Any:
    if value is NOT_APPLICABLE:
        return "-"
    if isinstance(value, Unknown):
        return "unknown"
    return SIZES[value] if kind.form == "scale" else value


NUMBERS = ("circuit_minimum", "circuit_breaker", "largest_breaker")


@pytest.mark.parametrize(
    ("one", "minimum", "breaker", "largest"),
    [
        # 625.41: 125 % upward; the next standard rating
        (setting(48.0), 60, 60, "-"),
        (setting(48.1), 60.125, 70, "-"),
        (setting(44.0), 55, 60, "-"),  # 55 A is no standard rating
        (setting(12.0), 15, 15, "-"),
        (setting(12.1), 15.125, 20, "-"),
        (setting(6.0), 7.5, 15, "-"),  # never under 15 A, though 2023 has 10 A
        (setting(48.0, maximum_overcurrent_device=60.0), 60, 60, 60),
        (setting(40.0, maximum_overcurrent_device=60.0), 50, 50, 60),
        (setting(40.0, minimum_circuit_ampacity=60.0), 50, 50, "-"),  # a setting holds before what is marked for the largest
        # 422.13 and 422.11(E): 13.3 A or less up to 20 A, over that 150 % and the next rating up
        (amperes("storage_water_heater", 13.3), 16.625, 20, 20),
        (amperes("storage_water_heater", 13.4), 16.75, 20, 25),
        (amperes("storage_water_heater", 18.75), 23.4375, 25, 30),
        (watts("storage_water_heater", 4500.0), 23.4375, 25, 30),
        (watts("heat_pump_water_heater", 4500.0), 23.4375, 25, "-"),
        (watts("instantaneous_water_heater", 11500.0), 11500 / 240, 50, 80),  # 71.9 A to 80 A
        (watts("wall_oven", 4800.0), 20, 20, 30),
        (watts("cooktop", 6000.0), 25, 25, 40),  # 37.5 A
        (watts("sauna", 6000.0), 25, 25, 40),
        (watts("built_in_microwave_oven", 1800.0), 15, 15, 25),  # 15 A at 120 V, 22.5 A
        (watts("storage_water_heater", 4500.0, maximum_overcurrent_device=28.0), 23.4375, 25, 25),
        # 424.4(B)
        (watts("space_heater", 3840.0), 20, 20, "-"),
        (watts("space_heater", 3841.0), 125 / 100 * 3841 / 240, 25, "-"),
        (watts("space_heater", 4500.0), 23.4375, 25, "-"),  # three heaters of 1500 W are not for 20 A
        (watts("supplemental_heat", 9600.0), 50, 50, "-"),
        (watts("thermal_storage_heater", 4800.0), 25, 25, "-"),
        (watts("pool_heater", 11520.0), 60, 60, "-"),
        # 440.32, 440.22: 175 % and 225 % of the compressor and the fan as it is, to the rating below
        (compressor(24.0, 0.0), 30, 40, 50),
        (compressor(20.0, 2.5), 27.5, 35, 45),
        (compressor(20.0, 0.0), 25, 35, 45),  # 35 A and 45 A exactly
        (compressor(20.0, 4.9), 29.9, 35, 45),  # 39.9 A
        (compressor(20.0, 5.0), 30, 40, 50),
        (compressor(14.1, 1.0, maximum_overcurrent_device=35.0), 18.625, 35, 35),  # 225 % would be 32.7 A: the marking holds
        (compressor(4.0, 0.5), 5.5, 15, 15),  # never asked to be less than 15 A
        (amperes("heat_pump", 16.0), 20, 20, "-"),
        (watts("heat_pump", 3840.0), 20, 20, "-"),
        (watts("air_conditioner", 3840.0), 20, 20, "-"),
        (watts("electric_furnace", 9600.0), 50, 50, "-"),
        (amperes("heat_pump", 16.0, maximum_overcurrent_device=35.0), 20, 35, 35),
        (amperes("heat_pump", 16.0, maximum_overcurrent_device=28.0), 20, 25, 25),
        (amperes("heat_pump", 20.1, basis="minimum_circuit_ampacity"), 20.1, 25, "-"),
        (amperes("heat_pump", 20.1, basis="minimum_circuit_ampacity", maximum_overcurrent_device=35.0), 20.1, 35, 35),
        (compressor(24.0, 0.0, minimum_circuit_ampacity=30.4, maximum_overcurrent_device=45.0), 30.4, 45, 45),
        (compressor(24.0, 0.0, minimum_circuit_ampacity=30.4), 30.4, 35, "-"),
        (amperes("air_conditioner", 12.6, fastened_in_place=False, connection="line_to_neutral"), 15.75, 20, "-"),
        # 430.22, 430.52: 125 % of the table; 250 % and the next rating up
        (motor(0.5, 230.0), 4.9 * 1.25, 15, 15),
        (motor(1.0, 230.0), 10, 15, 20),
        (motor(2.0, 230.0), 15, 15, 30),
        (motor(3.0, 230.0), 21.25, 25, 45),  # 42.5 A
        (planned("waste_disposer", basis="amperes", marked_amperes=9.0, volts=120.0), 11.25, 15, "-"),
        # 210.19(A)(3), Note 4
        (watts("range", 7000.0), 7000 / 240, 30, "-"),
        (watts("range", 8000.0), 8000 / 240, 35, "-"),
        (watts("range", 8749.0), 8000 / 240, 35, "-"),
        (watts("range", 8750.0), 8000 / 240, 40, "-"),
        (watts("range", 12499.0), 8000 / 240, 40, "-"),
        (watts("range", 12500.0), 35, 40, "-"),  # half a kilowatt is a major fraction
        (watts("range", 16500.0), 10000 / 240, 45, "-"),
        (watts("range", 27000.0), 14000 / 240, 60, "-"),
        (watts("range", 27001.0), 27001 / 240, 125, "-"),  # beyond the table: at its nameplate
        # dryers: 5000 VA and 30 A at least, no 125 %
        (watts("clothes_dryer", 4500.0), 5000 / 240, 30, "-"),
        (watts("clothes_dryer", 7200.0), 30, 30, "-"),
        (watts("clothes_dryer", 7201.0), 7201 / 240, 35, "-"),
        # others at their rating; 125 % where they run for three hours
        (watts("dishwasher", 1200.0), 10, 15, "-"),
        (watts("shop_equipment", 4800.0), 20, 20, "-"),
        (watts("shop_equipment", 4800.0, runs_continuously=False), 20, 20, "-"),
        (watts("shop_equipment", 4800.0, runs_continuously=True), 25, 25, "-"),
        (planned("hot_tub", minimum_circuit_ampacity=40.0, maximum_overcurrent_device=50.0), 40, 40, 50),
        (planned("hot_tub"), "unknown", "unknown", "unknown"),
    ],
)
def test_minimum_device_and_largest(one: dict[str, Any], minimum: Any, breaker: Any, largest: Any) -> None:
    found_ones = found(one, *NUMBERS)
    assert found_ones[0] == (minimum if isinstance(minimum, str) else pytest.approx(minimum, abs=1e-9))
    assert found_ones[1:] == [breaker, largest]


@pytest.mark.parametrize(("rated", "breaker"), second.CHARGING_LADDER.items())
def test_the_settings_that_the_trade_names(rated: int, breaker: int) -> None:
    """Common practice, no source."""
    assert found(setting(float(rated)), "circuit_breaker") == [breaker]


def test_the_voltage_is_that_of_the_connection() -> None:
    assert found(watts("storage_water_heater", 4500.0), *NUMBERS, system=WYE, voltage=208.0) == [
        pytest.approx(1.25 * 4500 / 208),
        30,
        35,  # 32.5 A
    ]
    assert found(setting(48.0), *NUMBERS[:2], system=WYE, voltage=208.0) == [60, 60]  # a current is one at any voltage
    assert found(watts("space_heater", 1920.0, connection="line_to_neutral"), *NUMBERS[:2]) == [20, 20]
    assert found(watts("range", 12000.0), *NUMBERS[:2], system=WYE, voltage=208.0) == [pytest.approx(8000 / 208), 40]


@pytest.mark.parametrize(
    ("kind", "rated", "divided"),
    [
        ("electric_furnace", 48.0, False),
        ("electric_furnace", 48.1, True),
        ("pool_heater", 48.1, True),
        ("space_heater", 48.1, True),
        ("supplemental_heat", 48.1, True),
        ("thermal_storage_heater", 48.1, True),
        ("storage_water_heater", 60.0, "-"),
    ],
)
def test_elements_over_48_amperes_are_divided(kind: str, rated: float, divided: Any) -> None:
    evaluation = evaluated(facts_with(amperes(kind, rated)))
    line = evaluation.plan.rules.methods["branch_circuits"].lines["heating_is_subdivided"]
    assert line.each is not None
    inside = evaluation.decided(evaluation.plan.place(line.each)).items == [0]
    assert (evaluation.line(line, 0) if inside else "-") == divided


def test_which_loads_are_sized() -> None:
    there = {"status": "existing"}
    for one, supply, sized in [
        (setting(16.0), {}, 1),
        (setting(16.0, **there), {}, 0),
        (setting(16.0, **there), {"state": "to_be_installed"}, 1),
        (setting(16.0, individual_circuit=False), {}, 0),
        (setting(16.0, replaced=True), {}, 0),
    ]:
        evaluation = evaluated(facts_with(one, **supply))
        assert evaluation.line(evaluation.plan.rules.methods["branch_circuits"].results["circuits"]) == sized


# conductors


@pytest.mark.parametrize(
    ("one", "sizes"),
    [
        (setting(12.0), ["14", "14", "12", "12"]),
        (setting(12.1), ["12", "12", "10", "10"]),  # behind 20 A no 14 AWG, though it carries 20 A at 75 C
        (setting(16.0), ["12", "12", "10", "10"]),
        (setting(20.0), ["10", "10", "10", "10"]),
        (setting(24.0), ["10", "10", "8", "8"]),  # behind 30 A no 10 AWG aluminum
        (setting(24.1), ["8", "8", "8", "8"]),  # behind 35 A no 10 AWG copper, though it carries 35 A at 75 C
        (setting(28.1), ["8", "8", "6", "8"]),
        (setting(32.0), ["8", "8", "6", "8"]),
        (setting(33.0), ["6", "8", "4", "6"]),
        (setting(40.0), ["6", "8", "4", "6"]),
        (setting(44.0), ["6", "6", "4", "4"]),  # 55 A of conductor behind 60 A
        (setting(44.1), ["4", "6", "3", "4"]),  # not for a continuous 44.1 A
        (setting(48.0), ["4", "6", "3", "4"]),
        (setting(80.0), ["1", "3", "1/0", "1"]),
        (setting(80.1), ["-", "2", "-", "1/0"]),  # over 100 A only the higher column
        (compressor(18.0, 0.0), ["10", "12", "10", "10"]),  # 12 AWG behind 30 A is for a compressor
        (compressor(12.0, 0.0), ["14", "14", "12", "12"]),  # 14 AWG behind 20 A
        (amperes("air_conditioner", 12.0, fastened_in_place=False), ["14", "14", "12", "12"]),
        (amperes("air_conditioner", 13.0, fastened_in_place=False), ["12", "12", "10", "10"]),
        (watts("range", 12000.0), ["8", "8", "6", "8"]),  # conductors for the 40 A of the circuit
        (watts("clothes_dryer", 5000.0), ["10", "10", "8", "8"]),
        (watts("storage_water_heater", 4500.0), ["10", "10", "10", "10"]),
    ],
)
def test_smallest_conductors(one: dict[str, Any], sizes: list[str]) -> None:
    assert found(one, *COLUMNS) == sizes


def largest_for(ampacity: float, year: str = "2023") -> float:
    """The largest device behind conductors of an ampacity, written by hand from 240.4(B)."""
    return next(rating for rating in second.STANDARD_RATINGS[year] if rating >= ampacity)


def suffices(size: str, column: str, minimum: float, breaker: float) -> bool:
    """Whether a size may be used for a circuit, written by hand: its ampacity, its protection, the limits of small sizes."""
    material, temperature = column.split("_at_")
    ampacity = second.AMPACITY[material, int(temperature)].get(size)
    small = second.SMALL_CONDUCTOR_DEVICE[material].get(size, breaker)
    return ampacity is not None and ampacity >= minimum and largest_for(ampacity) >= breaker and small >= breaker


@cache
def circuits_of_settings() -> list[tuple[float, dict[str, Any]]]:
    ratings = [float(each) / 2 for each in range(12, 420)]
    loads = [{**setting(rated), "name": f"at {rated}"} for rated in ratings]
    evaluation = evaluated(facts_with(*loads))
    lines = evaluation.plan.rules.methods["branch_circuits"].lines
    names = ("circuit_minimum", "circuit_breaker", *COLUMNS, "grounding_copper", "grounding_aluminum")
    return [
        (rated, {name: _plain(evaluation.line(lines[name], at), lines[name].kind) for name in names})
        for at, rated in enumerate(ratings)
    ]


def test_every_device_is_the_least_that_carries_the_load() -> None:
    ratings = [15, *(each for each in second.STANDARD_RATINGS["2023"] if each > 15)]
    for rated, circuit in circuits_of_settings():
        before = [each for each in ratings if each < circuit["circuit_breaker"]]
        assert circuit["circuit_breaker"] in ratings
        assert rated * 1.25 <= circuit["circuit_breaker"]
        assert not before or before[-1] < rated * 1.25


@pytest.mark.parametrize("column", COLUMNS)
def test_every_size_is_the_least_that_suffices(column: str) -> None:
    for rated, circuit in circuits_of_settings():
        size, minimum, breaker = circuit[column], circuit["circuit_minimum"], circuit["circuit_breaker"]
        if breaker > 100 and column.endswith("60"):
            assert size == "-"
            continue
        assert suffices(size, column, minimum, breaker), (rated, size)
        smaller = SIZES[: SIZES.index(size)]
        assert not any(suffices(each, column, minimum, breaker) for each in smaller), (rated, size)


@pytest.mark.parametrize("material", ["copper", "aluminum"])
def test_every_grounding_conductor_is_the_least_of_the_table(material: str) -> None:
    up_to = second.GROUNDING_UP_TO[material]
    for _, circuit in circuits_of_settings():
        breaker = circuit["circuit_breaker"]
        typed = next(size for size, largest in up_to.items() if largest >= breaker)
        conductors = circuit[f"{material}_at_60"] if breaker <= 100 else circuit[f"{material}_at_75"]
        assert circuit[f"grounding_{material}"] == min(typed, conductors, key=SIZES.index)


@pytest.mark.parametrize(
    ("one", "copper", "aluminum"),
    [
        (setting(12.0), "14", "12"),
        (setting(16.0), "12", "10"),
        (setting(48.0), "10", "8"),
        (setting(48.1), "8", "6"),
        (setting(80.1), "6", "4"),
        (compressor(12.0, 0.0), "14", "12"),  # behind 20 A, and no larger than the 14 AWG and 12 AWG of the circuit
        (compressor(13.5, 0.0), "12", "10"),  # 16.9 A, behind 20 A
        (compressor(24.0, 0.0), "10", "8"),
    ],
)
def test_equipment_grounding_conductors(one: dict[str, Any], copper: str, aluminum: str) -> None:
    assert found(one, "grounding_copper", "grounding_aluminum") == [copper, aluminum]


# voltage drop


@pytest.mark.parametrize(
    ("rated", "feet", "copper", "grounding"),
    [
        (40.0, 100.0, "8", "10"),
        (40.0, 500.0, "1", "3"),  # 71,667 cmil; 10,380 x 83,690 / 16,510 = 52,616.7, and 3 AWG has 52,620
        (32.0, 300.0, "4", "4"),  # 34,400 cmil; 10,380 x 41,740 / 16,510 = 26,242.4, and 6 AWG has 26,240
        (16.0, 1.0, "12", "12"),
    ],
)
def test_conductors_within_the_recommended_drop(rated: float, feet: float, copper: str, grounding: str) -> None:
    names = ("copper_recommended", "copper_grounding_recommended")
    assert found(setting(rated, length=feet), *names, method="voltage_drop") == [copper, grounding]


def test_voltage_drop_by_hand() -> None:
    names = ("recommended_volts", "copper_drop", "aluminum_drop")
    assert found(setting(32.0, length=100.0), *names, method="voltage_drop") == [
        pytest.approx(7.2),
        pytest.approx(12.9 * 2 * 100 * 32 / 16510),
        pytest.approx(21.2 * 2 * 100 * 32 / 16510),
    ]
    heater = watts("space_heater", 1200.0, connection="line_to_neutral", length=140.0)  # 10 A, 14 AWG
    assert found(heater, *names[:2], "copper_recommended", method="voltage_drop") == [
        pytest.approx(3.6),
        pytest.approx(8.787, abs=1e-2),
        "10",
    ]


def test_increase_never_makes_a_conductor_smaller() -> None:
    for feet, following in pairwise(range(10, 700, 23)):
        near, far = (
            found(setting(32.0, length=float(each)), "copper_recommended", "copper_grounding_recommended", method="voltage_drop")
            for each in (feet, following)
        )
        assert SIZES.index(near[0]) <= SIZES.index(far[0])
        assert SIZES.index(near[1]) <= SIZES.index(far[1]) <= SIZES.index(far[0])


# panels, feeders, the document

CHARGER = {"name": "charger", "kind": "EV charging equipment", "settings": ["16 A", "32 A"]}
HOB = {"name": "hob", "kind": "dishwasher", "rating": "1200 W"}
FURNACE = {"name": "furnace", "kind": "electric furnace", "rating": "10 kW"}
MAIN = {
    "name": "main panel",
    "spaces": "8",
    "circuits": [{"load": "furnace", "breaker": "60 A", "poles": "2"}, {"breaker": "15 A", "poles": "1", "quantity": "5"}],
}


def home_with_panels(planned_ones: list[Tree], panels: list[Tree], **more: Any) -> Tree:
    return {**house([FURNACE], planned=planned_ones), "panels": copy.deepcopy(panels), **more}


def spaces(tree: Tree, *names: str) -> dict[str, list[float]]:
    facts = home_of(tree).facts
    evaluation = evaluated(facts)
    lines = evaluation.plan.rules.methods["panelboards"].lines
    panels = enumerate(facts.collections["panels"].names)
    return {panel: [evaluation.line(lines[name], at) for name in names] for at, panel in panels}


SPACES = ("spaces_left", "spaces_freed", "spaces_planned", "spaces_left_after", "spaces_suffice")


def test_planned_circuits_take_spaces_of_the_first_panel() -> None:
    assert spaces(home_with_panels([CHARGER], [MAIN]), *SPACES) == {"main panel": [1, 0, 2, -1, False]}
    assert spaces(home_with_panels([HOB], [MAIN]), *SPACES) == {"main panel": [1, 0, 1, 0, True]}


def test_a_replaced_load_frees_its_circuit() -> None:
    instead = {"name": "heat pump", "kind": "heat pump", "rating": "MCA 20 A at 240 V", "replaces": "furnace"}
    assert spaces(home_with_panels([CHARGER, instead], [MAIN]), *SPACES) == {"main panel": [1, 2, 4, -1, False]}
    assert spaces(home_with_panels([instead], [MAIN]), *SPACES) == {"main panel": [1, 2, 2, 1, True]}


@pytest.mark.parametrize(
    ("panel", "freed", "left"),
    [
        ({"spaces": "4"}, 2, 3),  # those that are free; the 240 V furnace leaves two, the blower on its circuit none
        ({"spaces": "30", "taken": "26"}, 2, 3),
        ({"spaces": "30", "taken": "1"}, 1, 27),  # never more than what is taken and not listed
        ({"spaces": "8", "circuits": MAIN["circuits"]}, 2, 0),  # once, where its circuit is listed
        ({"spaces": "8", "circuits": MAIN["circuits"][1:]}, 0, 0),  # not listed, and nothing else is said to be taken
    ],
)
def test_a_replaced_load_frees_its_spaces_where_its_circuit_is_not_listed(panel: Tree, freed: float, left: float) -> None:
    instead = {"name": "heat pump", "kind": "heat pump", "rating": "MCA 20 A at 240 V", "replaces": ["furnace", "blower"]}
    blower = {"name": "blower", "kind": "blower", "rating": "4 A at 120 V", "on the circuit of": "furnace"}
    alone = {"name": "fan", "kind": "blower", "rating": "4 A at 120 V"}
    tree = {**house([FURNACE, alone], planned=[{**instead, "replaces": "furnace"}, HOB]), "panels": [{"name": "panel", **panel}]}
    assert spaces(tree, "spaces_freed", "spaces_left_after") == {"panel": [freed, left]}
    carried = {**tree, **house([FURNACE, blower], planned=[instead])}
    assert spaces(carried, "spaces_freed_not_listed") == {"panel": [0]}  # what else was on that circuit is not known to go
    both = {**tree, "panels": [{"name": "panel", **panel}, {"name": "other", "spaces": "4"}]}
    assert spaces(both, "spaces_freed_not_listed") == {"panel": [0], "other": [0]}  # nobody knows in which it was


def test_the_panel_schedule_says_which_loads_are_removed() -> None:
    instead = {"name": "heat pump", "kind": "heat pump", "rating": "MCA 20 A at 240 V", "replaces": ["furnace", "fan"]}
    tree = house([FURNACE, {"name": "fan", "kind": "blower", "rating": "4 A at 120 V"}], planned=[instead])
    whole = assessed({**tree, "panels": [{**MAIN, "spaces": "20", "taken": "12"}]})
    blocks = sheet_pages(whole, full=False)
    at = next(number for number, block in enumerate(blocks) if isinstance(block, Heading) and block.text == "Panel schedules")
    table, told = blocks[at + 2], blocks[at + 3]
    assert isinstance(table, Table) and isinstance(told, Paragraph)
    assert {row[0]: row[2] for row in table.rows}["furnace"] == "60 A, removed"
    assert {row[0]: row[2] for row in table.rows}["fan"] == "removed, not listed"
    assert "3 freed by loads that are replaced" in told.text


@pytest.mark.parametrize(("attachment", "told"), [("hardwired", False), ("cord and plug", True), ("", False)])
def test_a_charger_with_a_plug_needs_a_receptacle(attachment: str, told: bool) -> None:
    charger = {**CHARGER, **({"attachment": attachment} if attachment else {})}
    whole = assessed(house([FURNACE], planned=[charger]))
    supply = whole.supplies[0]
    assert supply.circuits is not None
    (circuit,) = supply.circuits.circuits
    assert any("the receptacle must be rated" in each for each in circuit.remarks) == told
    (entry,) = [each for each in supply.loads if each.name == "charger"]
    assert entry.marked == ([f"attachment {attachment}"] if attachment else [])
    assert (f"charger - how it is attached to its circuit: {attachment}" in whole.field_page) == bool(attachment)
    blanks = next(b for b in sheet_pages(whole, full=False) if isinstance(b, Table) and b.title == "To be filled in")
    assert ("charger: make, model" in [row[0] for row in blanks.rows]) == bool(attachment)


@pytest.mark.parametrize(
    ("electrodes", "wanted"),
    [
        ({}, ["4 AWG", "4 AWG", "6 AWG", "yes"]),  # 2/0 AWG copper for 200 A: 250.66
        ({"water pipe electrode": "yes"}, ["4 AWG", "4 AWG", "6 AWG", None]),
        ({"water pipe electrode": "no", "rod electrode": "yes", "concrete encased electrode": "no"}, [None, None, "6 AWG", None]),
    ],
)
def test_electrodes_that_are_not_known_are_told_as_assumed(electrodes: Tree, wanted: list[str | None]) -> None:
    tree = {**house([FURNACE]), "work": "new"}
    supply = assessed({**tree, "service": {**tree["service"], "rating": "200 A", **electrodes}}).supplies[0]
    told = {each.title: each.printed for beside in supply.beside for each in beside.answers}
    names = [
        "Copper grounding electrode conductor",
        "Copper conductor to a concrete-encased electrode",
        "Copper conductor to rods or plates alone",
        "Grounding electrodes: which ones there are is not said, so the conductor to each kind is given",
    ]
    assert [told.get(each) for each in names] == wanted


def test_a_circuit_that_is_listed_takes_no_space_again() -> None:
    listed = {**MAIN, "circuits": [{"load": "charger", "breaker": "40 A", "poles": "2"}]}
    assert spaces(home_with_panels([CHARGER], [listed]), *SPACES) == {"main panel": [6, 0, 0, 6, True]}
    two = {**CHARGER, "quantity": "2"}
    assert spaces(home_with_panels([two], [listed]), *SPACES) == {"main panel": [6, 0, 2, 4, True]}


def test_a_planned_circuit_goes_to_the_panel_that_is_named_or_to_that_of_its_feeder() -> None:
    garage = {"name": "garage panel", "on": "garage", "spaces": "4"}
    feeder = {"name": "garage", "rating": "60 A", "feeds": {"loads": ["charger"]}}
    named = home_with_panels([{**HOB, "panel": "Garage Panel"}], [MAIN, {**garage, "on": "service"}])
    assert spaces(named, "spaces_planned") == {"main panel": [0], "garage panel": [1]}
    fed = home_with_panels([CHARGER, HOB], [garage, MAIN], feeders=[feeder])
    assert spaces(fed, "spaces_planned") == {"garage panel": [2], "main panel": [1]}
    part = home_of(fed).supplies[1].facts
    assert part.collections["panels"].names == ["garage panel"]
    assert part.connected["panels"] == [[(0, 1.0)]]


def test_two_chargers_on_one_feeder() -> None:
    """Published: 96 A, 120 A with the addition, a panel of 125 A."""
    both = [{"name": name, "kind": "EV charging equipment", "rating": "setting 48 A"} for name in ("first", "second")]
    feeder = {"name": "chargers", "state": "to be installed", "feeds": {"loads": ["first", "second"]}}
    result = assessed({**house([], planned=both), "feeders": [feeder]}).supplies[1]
    assert result.total == 96 * 240
    assert result.sizing is not None
    assert (result.sizing.amperes, result.sizing.minimum_rating) == (120, 125)


def test_the_document_tells_the_circuits_of_each_supply_once() -> None:
    feeder = {"name": "garage", "rating": "60 A", "feeds": {"loads": ["charger"]}}
    far = {**CHARGER, "length": "200 ft"}
    result = assessed({**house([FURNACE], planned=[far, HOB]), "feeders": [feeder]})
    service, garage = result.supplies
    assert service.circuits is not None and garage.circuits is not None
    assert [each.load for each in service.circuits.circuits] == ["hob"]
    (charger,) = garage.circuits.circuits
    assert (charger.minimum, charger.breaker, charger.largest, charger.missing) == ("40 A", "40 A", "-", [])
    assert charger.conductors == {
        "Copper, 60 C": "8 AWG",
        "Copper, 75 C": "8 AWG",
        "Aluminum, 60 C": "6 AWG",
        "Aluminum, 75 C": "8 AWG",
    }
    assert charger.grounding == {"Grounding, copper": "10 AWG", "Grounding, aluminum": "8 AWG"}
    assert charger.drops["Drop, copper at 75 C"] == "10 V"
    assert [sheet.id for sheet in garage.circuits.sheets] == ["branch_circuits", "voltage_drop"]
    assert [sheet.id for sheet in service.circuits.sheets] == ["branch_circuits"]


def test_the_sheet_has_a_table_of_circuits_where_one_is_sized() -> None:
    with_one = sheet_pages(assessed(house([FURNACE], planned=[HOB])), full=False)
    at = with_one.index(Heading(2, "Branch circuits"))
    table = next(each for each in with_one[at:] if isinstance(each, Table))
    assert table.rows[0][:4] == ["hob", "10 A", "15 A", "-"]
    without = sheet_pages(assessed(house([FURNACE])), full=False)
    assert Heading(2, "Branch circuits") not in without


def test_what_a_circuit_needs_is_named() -> None:
    tub = {"name": "tub", "kind": "hot tub", "rating": "unknown"}
    circuits = assessed(house([FURNACE], planned=[tub])).supplies[0].circuits
    assert circuits is not None
    assert circuits.circuits[0].missing == ["tub: rating"]


def test_one_circuit_under_changed_facts() -> None:
    instructions = read_instructions(RULES)
    facts = facts_with(setting(48.0), {**setting(16.0), "name": "other", "status": "existing"})
    first = circuit_of(evaluated(facts), instructions, 0)
    facts.collections["loads"].fields["setting"][0] = 32.0
    then = circuit_of(evaluated(facts), instructions, 0)
    assert first is not None and then is not None
    assert (first.breaker, then.breaker) == ("60 A", "40 A")
    assert circuit_of(evaluated(facts), instructions, 1) is None
    assert circuit_results(evaluated(facts), instructions, {"it"}) is None


def test_the_circuits_are_recomputed_from_what_they_print() -> None:
    ones = [setting(33.0, length=120.0), compressor(18.0, 2.0), motor(3.0, 230.0), watts("range", 16000.0)]
    ones += [
        watts("clothes_dryer", 5000.0),
        watts("electric_furnace", 15000.0),
        planned("hot_tub", minimum_circuit_ampacity=40.0),
    ]
    evaluation = evaluated(facts_with(*({**each, "name": f"load {at}"} for at, each in enumerate(ones))))
    sheets = [as_json(Tracer(evaluation).method(name)) for name in ("branch_circuits", "voltage_drop", "dwelling_circuits")]
    assert recompute_document({"supplies": [{"methods": sheets}]}, tolerance=1e-9) == []


def test_what_sizes_a_circuit_is_read_from_the_home_file() -> None:
    tub = {
        "name": "tub",
        "kind": "hot tub",
        "rating": "unknown",
        "minimum circuit ampacity": "40 A",
        "maximum overcurrent device": "50 A",
        "length": "30.48 m",
        "runs continuously": "no",
    }
    facts = home_of(house([FURNACE], planned=[tub])).facts
    names = ("minimum_circuit_ampacity", "maximum_overcurrent_device", "length", "runs_continuously")
    values = [facts.collections["loads"].fields[name][1] for name in names]
    assert values == [40.0, 50.0, pytest.approx(100.0), False]
    assert facts.origins["loads", 1, "length"].written == "30.48 m"
    unsaid = [facts.collections["loads"].fields[name][0] for name in names]
    assert all(isinstance(value, Unknown) for value in unsaid)


# how many circuits a dwelling unit needs: 210.11


def numbers_of(area: float, *names: str, edition: str = DEFAULT, **said: Any) -> list[Any]:
    evaluation = evaluated(facts_of(GLOSSARY, plain_house(GLOSSARY, [], area=area, **said)), edition)
    lines = evaluation.plan.rules.methods["dwelling_circuits"].lines
    return [_plain(evaluation.line(lines[name], 0), lines[name].kind) for name in names]


@pytest.mark.parametrize(
    ("area", "small", "large"),
    [(600.0, 1, 1), (601.0, 2, 1), (800.0, 2, 1), (801.0, 2, 2), (1600.0, 3, 2), (1601.0, 3, 3), (1801.0, 4, 3)],
)
def test_lighting_circuits(area: float, small: float, large: float) -> None:
    """600 square feet for each circuit of 15 A, 800 for each of 20 A: no share of them is held back."""
    assert numbers_of(area, "lighting_circuits_small", "lighting_circuits_large") == [small, large]


@pytest.mark.parametrize(
    ("edition", "kind", "fewest"),
    [
        ("nec/2014", "attached_garage", 5),
        ("nec/2017", "attached_garage", 6),
        ("nec/2020", "detached_garage", 6),
        ("nec/2020", "open_porch", 5),
        ("nec/2026", "detached_garage", 6),
    ],
)
def test_fewest_circuits(edition: str, kind: str, fewest: float) -> None:
    areas = [{"area_kind": "living", "area": 700.0}, {"area_kind": kind, "area": 300.0}]
    assert numbers_of(0.0, "fewest_circuits", edition=edition, areas=areas) == [fewest]
    assert numbers_of(0.0, "fewest_circuits", edition=edition, areas=areas, small_appliance_circuits=3.0) == [fewest + 1]
    assert numbers_of(0.0, "fewest_circuits", edition=edition, areas=areas, small_appliance_circuits=1.0) == [fewest]


@pytest.mark.parametrize(
    ("conductors", "system", "drop"),
    [
        ({"size": "4/0 AWG", "material": "aluminum", "length": "170 ft"}, SYSTEMS[0], 21.2 * 2 * 170 * 200 / 211600),
        ({"size": "4/0 AWG", "material": "copper", "length": "170 ft"}, SYSTEMS[0], 12.9 * 2 * 170 * 200 / 211600),
        ({"size": "4/0 AWG", "material": "aluminum", "length": "170 ft", "sets": "2"}, SYSTEMS[0], 21.2 * 170 * 200 / 211600),
        ({"size": "4/0 AWG", "material": "aluminum"}, SYSTEMS[0], None),
        ({"size": "4/0 AWG", "material": "aluminum", "length": "170 ft"}, "208Y/120 V three-phase 4-wire", None),
    ],
)
def test_voltage_drop_of_the_supply_at_its_rating(conductors: Tree, system: str, drop: float | None) -> None:
    evaluation = evaluated(home_of(house([FURNACE], system=system, conductors=conductors)).facts)
    value = evaluation.line(evaluation.plan.rules.methods["voltage_drop"].results["supply_drop"])
    assert value is NOT_APPLICABLE if drop is None else value == pytest.approx(drop)


WATER_HEATER = {"name": "heater", "kind": "storage water heater", "rating": "4.5 kW"}  # 23.44 A; 25 A, at most 30 A (422.11(E))
FOUND_SMALL, FOUND_LARGE = "too small for the load", "larger than the load allows"


@pytest.mark.parametrize(
    ("breakers", "listed", "right"),
    [
        (["20 A"], "20 A", FOUND_SMALL),
        (["25 A"], "25 A", ""),
        (["30 A"], "30 A", ""),
        (["35 A"], "35 A", FOUND_LARGE),
        (["not seen"], "-", ""),
        (["20 A", "20 A"], "-", ""),  # two circuits share one load
        ([], "-", ""),
    ],
)
def test_breakers_of_a_panel_are_held_to_the_circuits(breakers: list[str], listed: str, right: str) -> None:
    circuits = [{"breaker": each, "poles": "2", "load": "heater"} for each in breakers]
    panel = {"name": "main panel", "spaces": "20", "circuits": circuits}
    whole = assessed({**house([FURNACE], planned=[WATER_HEATER]), "panels": [panel]})
    supply = whole.supplies[0]
    assert supply.circuits is not None
    (found,) = supply.circuits.circuits
    assert found.listed == listed
    assert found.put_right == ([right] if right else [])
    told = (
        f"heater: the breaker listed in the panelboard, {listed}, is {right}; sized here it is 25 A, the largest permitted 30 A."
    )
    assert [each for each in supply.shortcomings if each.startswith("heater")] == ([told] if right else [])
    diagram = single_line_picture(whole)
    assert diagram is not None and diagram.numbers is not None
    drawn = next(row[2] for row in diagram.numbers.rows if row[1].startswith("heater"))
    assert drawn == (f"25 A ({listed} listed)" if right else "25 A" if listed == "-" else listed)


@pytest.mark.parametrize(
    ("one", "sizes"),  # device taken; copper and aluminum at 60 and 75 C; equipment grounding conductors
    [
        (watts("range", 11300.0), [40, "8", "8", "6", "8", "10", "8"]),
        (watts("range", 11300.0, breaker_listed=50.0), [50, "6", "8", "4", "6", "10", "8"]),  # 50 A: 55, 50, 55, 50 A
        (watts("dishwasher", 1400.0, connection="line_to_neutral"), [15, "14", "14", "12", "12", "14", "12"]),
        (
            watts("dishwasher", 1400.0, connection="line_to_neutral", breaker_listed=20.0),
            [20, "12", "12", "10", "10", "12", "10"],
        ),
        (setting(40.0, breaker_listed=60.0), [60, "4", "6", "3", "4", "10", "8"]),
        (setting(48.0, breaker_listed=50.0), [60, "4", "6", "3", "4", "10", "8"]),  # too small: as sized
        # a larger device starts a motor, and its conductors stay but for the limits of small ones, which are kept for motors too
        (motor(1.0, 230.0, breaker_listed=20.0), [20, "12", "12", "10", "10", "12", "10"]),
        (motor(5.0, 230.0), [35, "8", "8", "8", "8", "10", "8"]),  # 35 A; 10 AWG copper not over 30 A
        (motor(5.0, 230.0, breaker_listed=60.0), [60, "8", "8", "8", "8", "10", "8"]),
    ],
)
def test_conductors_are_for_the_breaker_that_a_panel_lists_where_it_suits(one: dict[str, Any], sizes: list[Any]) -> None:
    """240.4: what a device larger than the next standard rating protects must have its ampacity; by hand from Table 310.16."""
    names = ("device_taken", *COLUMNS, "grounding_copper", "grounding_aluminum")
    assert found(one, *names) == sizes


def test_equal_loads_have_the_breaker_that_all_their_circuits_have() -> None:
    two = {**WATER_HEATER, "quantity": "2"}
    for breakers, listed in ((["30 A", "30 A"], "30 A"), (["30 A", "25 A"], "-")):
        circuits = [{"breaker": each, "poles": "2", "load": "heater"} for each in breakers]
        panel = {"name": "main panel", "spaces": "20", "circuits": circuits}
        supply = assessed({**house([FURNACE], planned=[two]), "panels": [panel]}).supplies[0]
        assert supply.circuits is not None
        assert [each.listed for each in supply.circuits.circuits] == [listed]
        told = [line for line in sheet_field_lines({**house([FURNACE], planned=[two]), "panels": [panel]}) if "circuit:" in line]
        assert ("overcurrent device 30 A, as the panelboard lists it" in told[0]) == (listed == "30 A")


def sheet_field_lines(tree: Tree) -> list[str]:
    return assessed(tree).field_page


def test_a_load_on_three_lines_draws_less_on_each() -> None:
    """10,100 VA at 208 V: 28.04 A on three lines, 48.56 A on two; 100 ft of 8 AWG copper (16,510 cmil), 12.9 ohm-cmil/ft."""
    for legs, current, poles, breaker, drop in (
        ("A B C", 10_100 / (208 * 1.732), 3, 40, 1.732 * 100 * 28.036 * 12.9 / 16_510),
        ("A B", 10_100 / 208, 2, 70, 2 * 100 * 48.558 * 12.9 / 26_240),
    ):
        lift = {
            "name": "lift",
            "kind": "elevator",
            "rating": "10.1 kVA",
            "legs": legs,
            "length": "100 ft",
            "connection": "line to line",
        }
        tree = {**house([FURNACE], system="208Y/120 V three-phase 4-wire", rating="225 A"), "planned": [lift]}
        tree["panels"] = [{"name": "main panel", "spaces": "20", "circuits": []}]
        evaluation = evaluated(home_of(tree).supplies[0].facts)
        at = evaluation.facts.collections["loads"].names.index("lift")
        of_circuit, of_drop = (evaluation.plan.rules.methods[name].lines for name in ("branch_circuits", "voltage_drop"))
        assert evaluation.line(of_circuit["circuit_current"], at) == pytest.approx(current)
        assert evaluation.line(of_circuit["circuit_breaker"], at) == breaker
        assert evaluation.line(evaluation.plan.rules.methods["panelboards"].lines["poles_planned"], at) == poles
        assert evaluation.line(of_drop["copper_drop"], at) == pytest.approx(drop, rel=1e-3)


AIR_HANDLER = {"name": "air handler", "kind": "blower", "rating": "5.0 A at 240 V"}
STRIPS = {"name": "strip heat", "kind": "supplemental heat", "rating": "7.5 kW"}
HEAT_PUMP = {"name": "heat pump", "kind": "heat pump", "rating": "RLA 15.9 A + fan 1.1 A at 240 V"}


@pytest.mark.parametrize(
    ("of_air_handler", "of_strips", "minimum", "device", "title"),
    [
        # (31.25 A + 5.0 A) * 125 % (424.4(B)), by hand
        ({"on the circuit of": "strip heat"}, {}, "45.31 A", "50 A", "strip heat with air handler"),
        ({"on the circuit of": "strip heat", "individual circuit": "no"}, {}, "45.31 A", "50 A", "strip heat with air handler"),
        ({"individual circuit": "no"}, {}, "39.06 A", "40 A", "strip heat"),
        ({}, {}, "39.06 A", "40 A", "strip heat"),
        (
            {"on the circuit of": "strip heat"},
            {"minimum circuit ampacity": "46 A"},
            "46 A",
            "50 A",
            "strip heat with air handler",
        ),
    ],
)
def test_a_blower_on_the_circuit_of_strips_is_carried_by_it(
    of_air_handler: Tree, of_strips: Tree, minimum: str, device: str, title: str
) -> None:
    home = house([HEAT_PUMP, {**AIR_HANDLER, **of_air_handler}, {**STRIPS, **of_strips}])
    tree = {**home, "work": "new", "panels": [{"name": "panel", "spaces": "40"}]}
    whole = assessed(tree)
    supply = whole.supplies[0]
    assert supply.circuits is not None
    by_load = {each.load: each for each in supply.circuits.circuits}
    strips = by_load["strip heat"]
    assert (strips.minimum, strips.breaker, strips.title) == (minimum, device, title)
    assert ("air handler" in by_load) == (of_air_handler == {})
    told = [each for each in strips.remarks if "blower" in each]
    assert bool(told) == (of_air_handler == {"individual circuit": "no"})
    assert any("whole circuit" in each for each in strips.remarks) == bool(of_strips)
    diagram = single_line_picture(whole)
    assert diagram is not None and diagram.numbers is not None
    drawn = [row[1] for row in diagram.numbers.rows]
    assert (title in drawn) and ("air handler" in drawn) == (of_air_handler == {})


def test_a_load_on_the_circuit_of_another_changes_no_method() -> None:
    alone = assessed({**house([HEAT_PUMP, AIR_HANDLER, STRIPS]), "work": "new"})
    with_strips = assessed({**house([HEAT_PUMP, {**AIR_HANDLER, "on the circuit of": "strip heat"}, STRIPS]), "work": "new"})
    loads = [[as_json(each.results) for each in found.supplies[0].methods] for found in (alone, with_strips)]
    assert loads[0] == loads[1]


def test_a_circuit_carries_another_load_beside_a_set_that_never_runs_together() -> None:
    loads = [HEAT_PUMP, {**AIR_HANDLER, "on the circuit of": "strip heat"}, STRIPS]
    tree = {**house(loads), "work": "new", "never together": [{"loads": ["heat pump", "strip heat"], "by": "a relay"}]}
    supply = assessed(tree).supplies[0]
    standing = {each.name: each.status for each in supply.loads}
    assert standing["strip heat"] == "new, never together with heat pump"
    assert standing["air handler"] == "new, on the circuit of strip heat"
    assert supply.circuits is not None
    assert next(each for each in supply.circuits.circuits if each.load == "strip heat").minimum == "45.31 A"


def test_the_circuit_of_a_planned_load_with_another_on_it_takes_its_spaces_once() -> None:
    panel = {"name": "panel", "spaces": "20", "circuits": []}
    loads = [{**AIR_HANDLER, "on the circuit of": "strip heat"}, STRIPS]
    supply = assessed({**house([FURNACE], planned=loads), "panels": [panel]}).supplies[0]
    answers = {answer.title: answer.printed for each in supply.beside for answer in each.answers}
    assert answers["Breaker spaces that the planned circuits take"] == "2"


def test_a_panel_schedule_holds_what_is_listed_what_is_planned_and_the_spaces() -> None:
    listed = [
        {"breaker": "60 A", "poles": "2", "load": "strip heat"},
        {"breaker": "15 A", "poles": "1", "quantity": "3", "for": "lighting"},
        {"breaker": "20 A", "poles": "1", "tandem": "yes", "quantity": "2", "for": "receptacles"},
    ]
    home = house([{**AIR_HANDLER, "on the circuit of": "strip heat"}, STRIPS], planned=[WATER_HEATER])
    whole = assessed({**home, "work": "new", "panels": [{"name": "main panel", "spaces": "20", "circuits": listed}]})
    (panel,) = whole.panels
    rows = [(each.on_it, each.quantity, each.breaker, each.poles, each.device) for each in panel.circuits]
    assert rows == [
        ("strip heat with air handler", 1, "60 A", "2", "50 A"),
        ("lighting", 3, "15 A", "1", ""),
        ("receptacles", 2, "20 A, tandem", "1", ""),
        ("heater", 1, "-", "2", "25 A"),
    ]
    assert [each.places for each in panel.circuits] == ["1, 3", "2, 4, 5", "6", "7, 9"]
    assert (panel.free, panel.free_number) == ("8, 10 to 20", 12)
    assert (panel.name, panel.spaces) == ("main panel", "20")
    assert list(panel.of_spaces.values()) == ["6", "0", "2", "12"]  # 2 + 3 + 2 tandems in one; 20 - 6 - 2
    blocks = sheet_pages(whole, full=False)
    at = next(number for number, block in enumerate(blocks) if isinstance(block, Heading) and block.text == "Panel schedules")
    table = blocks[at + 2]
    assert isinstance(table, Table) and table.title == "Main panel"
    assert [row[1] for row in table.rows] == [*(each.on_it for each in panel.circuits), "free, 12 spaces"]
    assert table.rows[-2][3] == "planned, not listed"


def test_spaces_of_a_panel_that_is_there_are_not_given_out() -> None:
    panel = {"name": "panel", "spaces": "8", "circuits": [{"breaker": "50 A", "poles": "2", "load": "strip heat"}]}
    (found,) = assessed({**house([AIR_HANDLER, STRIPS], planned=[WATER_HEATER]), "panels": [panel]}).panels
    assert [each.places for each in found.circuits] == ["", ""] and found.free == ""


@pytest.mark.parametrize(
    ("number", "asked", "places", "free"),
    [
        (6, [(1, 1), (1, 1), (1, 2), (1, 1)], ["1", "2", "3, 5", "4"], "6"),  # odd numbers stand on one side
        (5, [(1, 2), (1, 2)], ["1, 3", "2, 4"], "5"),
        (8, [(2, 2), (3, 1), (1, 2)], ["1 to 4", "5 to 7", ""], "8"),  # the last finds no place
        (6, [(1, 3), (1, 3)], ["1, 3, 5", "2, 4, 6"], ""),
    ],
)
def test_each_breaker_stands_in_spaces_one_below_the_other_on_one_side(
    number: int, asked: list[tuple[int, int]], places: list[str], free: str
) -> None:
    spaces = BreakerSpaces(number)
    assert [in_words(spaces.take(breakers, poles)) for breakers, poles in asked] == places
    assert in_words(spaces.free) == free


def test_two_tandem_breakers_share_a_space() -> None:
    spaces = BreakerSpaces(4)
    assert [spaces.take(1, 1, tandem=True), spaces.take(2, 1, tandem=True), spaces.take(1, 1)] == [[1], [1, 2], [3]]


@pytest.mark.parametrize(("panel", "told"), [({}, True), ({"taken": "12"}, False)])
def test_spaces_of_a_panel_without_circuits_say_what_is_counted(panel: Tree, told: bool) -> None:
    home = house([FURNACE], planned=[WATER_HEATER])
    supply = assessed({**home, "panels": [{"name": "main panel", "spaces": "20", **panel}]}).supplies[0]
    said = [answer.title for each in supply.beside for answer in each.answers]
    assert any(each.startswith("Counted are circuits of planned and of removed loads alone") for each in said) == told


@pytest.mark.parametrize(
    ("evidence", "told"),
    [
        ("drawings", "as on the drawings, not read from a nameplate"),
        ("told", "as told, not read from a nameplate"),
        ("nameplate", ""),
    ],
)
def test_a_marked_ampacity_that_was_not_read_says_so(evidence: str, told: str) -> None:
    strips = {**STRIPS, "minimum circuit ampacity": "45.3 A", "length": "40 ft", "evidence": evidence}
    supply = assessed({**house([strips]), "work": "new"}).supplies[0]
    assert supply.circuits is not None
    (circuit,) = supply.circuits.circuits
    assert circuit.minimum == "45.3 A"
    assert [each for each in circuit.remarks if "ampacity" in each] == (
        [f"its minimum circuit ampacity is {told}"] if told else []
    )
    written = f"minimum circuit ampacity 45.3 A ({told})" if told else "minimum circuit ampacity 45.3 A"
    assert supply.loads[0].marked == [written, "length 40 ft"]


def test_a_dash_under_the_largest_device_is_explained() -> None:
    blocks = sheet_pages(assessed({**house([STRIPS]), "work": "new"}), full=False)
    assert any(isinstance(block, Paragraph) and block.text.startswith("A dash under the largest device") for block in blocks)
    limited = sheet_pages(assessed({**house([WATER_HEATER]), "work": "new"}), full=False)
    assert not any(isinstance(block, Paragraph) and block.text.startswith("A dash under") for block in limited)


@pytest.mark.parametrize(
    ("said", "minimum", "device"),
    [({}, 40.0, 40.0), ({"minimum_circuit_ampacity": 35.0, "maximum_overcurrent_device": 50.0}, 35.0, 35.0)],
)
def test_a_hot_tub_is_sized_as_a_pool_heater_unless_its_nameplate_says_otherwise(
    said: Tree, minimum: float, device: float
) -> None:
    names = ("circuit_minimum", "circuit_breaker", "hot_tub_is_taken")
    assert found(amperes("hot_tub", 32.0, **said), *names) == [minimum, device, not said]


def test_a_tank_is_told_to_be_taken_for_a_small_one() -> None:
    (circuit,) = assessed({**house([WATER_HEATER]), "work": "new"}).supplies[0].circuits.circuits  # type: ignore[union-attr]
    assert any("not over 120 gal" in each and "422.13" in each for each in circuit.remarks)


def test_the_fewest_circuits_are_told_for_both_ratings_of_lighting_circuits() -> None:
    supply = assessed({**house([], area="3120 ft2"), "work": "new"}).supplies[0]
    answers = {answer.title: answer.printed for each in supply.beside for answer in each.answers}
    # 3 VA/ft2 * 3,120 ft2 / 120 V = 78 A: 4 of 20 A or 6 of 15 A, and 2 + 1 + 1 others; no garage is stated
    of_20, of_15 = (
        int(answers[title])
        for title in answers
        if title.startswith(("Fewest lighting, rec", "The same, with those for lighting"))
    )
    assert of_15 - of_20 == 2


def test_where_no_circuits_are_listed_for_a_new_house_a_schedule_is_proposed() -> None:
    home = house([{**AIR_HANDLER, "on the circuit of": "strip heat"}, STRIPS], planned=[WATER_HEATER])
    whole = assessed({**home, "work": "new", "panels": [{"name": "main panel", "spaces": "20"}]})
    (panel,) = whole.panels
    assert panel.proposed
    told = [(each.on_it, each.quantity, each.poles, each.device, each.places) for each in panel.circuits]
    assert told[:2] == [("strip heat with air handler", 1, "2", "50 A", "1, 3"), ("heater", 1, "2", "25 A", "2, 4")]
    assert [each[:4] for each in told[2:]] == [
        ("Small-appliance circuits", 2, "1", "20 A"),
        ("Laundry circuits", 1, "1", "20 A"),
        ("Bathroom circuits", 1, "1", "20 A"),
        ("General lighting and receptacle circuits", 2, "1", "20 A"),  # 1,500 ft2 at 3 VA are 37.5 A at 120 V
    ]
    assert (panel.free, panel.free_number) == ("11 to 20", 10)
    rows = next(each for each in panel_blocks(whole) if isinstance(each, Table)).rows
    assert [row[3] for row in rows[:3]] == ["50 A proposed", "25 A proposed", "20 A proposed"]
    answers = {answer.title: answer.printed for each in whole.supplies[0].beside for answer in each.answers}
    assert int(answers["Fewest lighting, receptacle circuits, 20 A"]) == sum(each[1] for each in told[2:])
    assert answers["Breaker spaces left with them in"] == panel.of_spaces["left"] == str(panel.free_number)
    assert answers["Breaker spaces that the proposed schedule takes, with them"] == str(20 - panel.free_number)
    later = [{"name": "tub", "kind": "hot tub", "rating": "40 A at 240 V", "later": "yes"}]
    small = assessed(
        {**home, "work": "new", "planned": [*home["planned"], *later], "panels": [{"name": "main panel", "spaces": "11"}]}
    )
    (told,) = [
        each.text for each in panel_blocks(small) if isinstance(each, Paragraph) and each.text.startswith("Breaker spaces")
    ]
    assert told == "Breaker spaces: 11; 1 left by this proposal; not all that comes later finds place."
    full = assessed({**home, "work": "new", "panels": [{"name": "main panel", "spaces": "8"}]})
    assert any(text.startswith("The breaker spaces do not suffice") for text in full.supplies[0].shortcomings)
    existing = assessed({**home, "panels": [{"name": "main panel", "spaces": "20"}]})
    assert not any(each.proposed for each in existing.panels)


def test_more_laundry_circuits_than_the_least_are_in_the_proposed_schedule_and_its_spaces() -> None:
    told = {}
    for number in (1, 2):
        tree = {**house([WATER_HEATER]), "work": "new", "panels": [{"name": "panel", "spaces": "30"}]}
        tree["dwelling units"][0]["laundry circuits"] = str(number)
        whole = assessed(tree)
        (panel,) = whole.panels
        answers = {answer.title: answer.printed for each in whole.supplies[0].beside for answer in each.answers}
        fewest = next(text for title, text in answers.items() if title.startswith("Fewest lighting, rec"))
        laundry = next(each.quantity for each in panel.circuits if each.on_it == "Laundry circuits")
        told[number] = (laundry, int(fewest), panel.free_number)
    assert [each[0] for each in told.values()] == [1, 2]
    assert told[2][1] == told[1][1] + 1
    assert told[2][2] == told[1][2] - 1


def test_of_another_building_it_is_told_what_is_not_looked_at() -> None:
    for place, told in (("at another building", True), ("at the house", False), ("", False)):
        charger = {**CHARGER, **({"place": place} if place else {})}
        found = assessed(house([FURNACE], planned=[charger])).supplies[0].circuits
        assert found is not None
        assert any("225.30" in each and "250.32" in each for each in found.circuits[0].remarks) is told, place


def test_spaces_of_a_new_panel_are_numbered_only_where_every_circuit_is_known() -> None:
    """Of 40 spaces 21 are taken by circuits that are not listed; a charger takes 2, one for later 2 more."""
    planned_ones = [CHARGER, {**copy.deepcopy(CHARGER), "name": "later one", "later": "yes"}]
    tree = home_with_panels(planned_ones, [{"name": "panel", "spaces": "40", "taken": "21"}], work="existing")
    tree["service"]["state"] = "to be installed"
    whole = assessed(tree)
    (panel,) = whole.panels
    assert (panel.unlisted, panel.left_with_later, [each.places for each in panel.circuits]) == ("21", "15", ["", ""])
    text = " ".join(block.text for block in panel_blocks(whole) if isinstance(block, Paragraph))
    assert "21 of them by circuits that are not in this schedule" in text and "17 left, 15 with what comes later in" in text


def test_the_device_of_a_unit_with_a_compressor_is_that_of_its_marking() -> None:
    """A compressor must start, so that of a heat pump water heater is not the least that carries the load; a plain tank's is."""
    said = {"rating": "MCA 15 A at 240 V", "maximum overcurrent device": "30 A"}
    kinds = ("heat pump", "air conditioner", "heat pump water heater", "storage water heater")
    planned = [{"name": each, "kind": each, **said} for each in kinds]
    found = assessed(house([{"name": "range", "kind": "range", "rating": "12 kW"}], planned=planned)).supplies[0]
    assert found.circuits is not None
    devices = {each.load: each.breaker for each in found.circuits.circuits}
    assert [devices[each] for each in kinds] == ["30 A", "30 A", "30 A", "15 A"]


@pytest.mark.parametrize(("tandem", "left"), [("no", "8"), ("yes", "7")])
def test_a_breaker_that_goes_with_what_comes_later_makes_room_for_it(tandem: str, left: str) -> None:
    """Of 10 spaces 2 are taken, 1 by a tandem; a heat pump takes 2 later, in the place of the furnace, whose 2 become free; half of a tandem frees none."""
    pump = {
        "name": "later pump",
        "kind": "heat pump",
        "rating": "MCA 20 A at 240 V",
        "later": "yes",
        "replaces": [FURNACE["name"]],
    }
    breaker = {"breaker": "60 A", "poles": "1" if tandem == "yes" else "2", "load": FURNACE["name"], "tandem": tandem}
    found = assessed({**home_with_panels([pump], [{"name": "panel", "spaces": "10", "circuits": [breaker]}], work="existing")})
    (panel,) = found.panels
    assert panel.left_with_later == left


def test_a_circuit_that_is_not_listed_makes_room_for_what_comes_later_too() -> None:
    """Of 10 spaces 8 are taken; a heat pump takes 2 later, and the 2 of the furnace that it replaces become free."""
    pump = {"name": "later pump", "kind": "heat pump", "rating": "MCA 20 A at 240 V", "later": "yes"}
    for replaces, left in ({"replaces": [FURNACE["name"]]}, "2"), ({}, "0"):
        panels = [{"name": "panel", "spaces": "10", "taken": "8"}]
        (panel,) = assessed(home_with_panels([{**pump, **replaces}], panels, work="existing")).panels
        assert (panel.left_with_later, [each.load for each in panel.circuits]) == (left, ["later pump"])


def test_a_device_stands_with_the_least_and_the_largest_that_the_load_allows() -> None:
    """By hand: 15.8 A take 20 A, and the nameplate allows 25 A; 125 % of 47.9 A of a hot tub need 60 A, its nameplate allows 50 A."""
    pump = {"name": "pump", "kind": "heat pump", "rating": "MCA 15.8 A at 240 V", "maximum overcurrent device": "25 A"}
    tub = {"name": "tub", "kind": "hot tub", "rating": "11.5 kW at 240 V"}
    small, enough = ({**tub, "name": f"tub {most}", "maximum overcurrent device": most} for most in ("50 A", "80 A"))
    found = assessed(house([FURNACE], planned=[pump, tub, small, enough], rating="400 A"))
    circuits = {each.load: each for each in found.supplies[0].circuits.circuits}
    assert (circuits["pump"].breaker, circuits["pump"].limits()) == ("25 A", "20 to 25 A")
    assert (circuits["tub 80 A"].breaker, circuits["tub 80 A"].limits()) == ("60 A", "60 to 80 A")
    assert circuits["tub"].limits() == circuits["tub 50 A"].limits() == ""
    told = {name: any("below the minimum ampacity" in text for text in each.remarks) for name, each in circuits.items()}
    assert told == {"pump": False, "tub": False, "tub 50 A": True, "tub 80 A": False}


def test_a_dryer_for_one_line_is_sized_by_its_rating_and_one_between_two_as_before() -> None:
    """1,300 VA are 10.83 A of 120 V, on 15 A; the 5,000 VA and 30 A of the project are of dryers between two lines."""
    made = {}
    for rating in ("1.3 kW at 120 V", "1.3 kW at 240 V", "5.4 kW"):
        dryer = {"name": "dryer", "kind": "clothes dryer", "rating": rating}
        found = assessed({**house([dryer]), "work": "new"}).supplies[0].circuits
        assert found is not None
        (circuit,) = [each for each in found.circuits if each.load == "dryer"]
        made[rating] = circuit.minimum, circuit.breaker
    assert [breaker for _, breaker in made.values()] == ["15 A", "30 A", "30 A"]
    assert [str(minimum) for minimum, _ in made.values()] == ["10.83 A", "20.83 A", "22.5 A"]
