"""Every number and table of every edition that loads against a second entry by edition, made apart from the rules.

Where the second entry says ``None`` the source had no figure, and nothing is compared. Values graded memory agree with memory only.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
import second_entry_editions as second
from examples import rules_of

from dwellcalc.language.rule_set import RuleSet, editions_in, installed_folder
from dwellcalc.language.tables import Table

YEARS = [edition.removeprefix("nec/") for edition in editions_in(installed_folder()) if edition.startswith("nec/")]
MATERIALS = {"Cu": "copper", "Al": "aluminum"}


def rules(year: str) -> RuleSet:
    return rules_of(f"nec/{year}")


def parameter(year: str, address: str) -> float:
    document, name = address.split(".")
    rule_set = rules(year)
    return rule_set.glossary.units.quantity(rule_set.documents[document].parameters[name].value)[0]


def table(year: str, address: str) -> Table:
    document, name = address.split(".")
    return rules(year).documents[document].tables[name]


def cell(found: Table, key: float, column: int = 0) -> float:
    """A cell of the row for a number; one that is a formula is worked out with that number."""
    row = found.row_for(key)
    assert row is not None, key
    text = str(row.cells[column].text)
    for name in ("number_of_dryers", "appliances", "range_rating"):
        text = text.replace(name, repr(key))
    return float(eval(text))  # of a formula in a table, numbers and signs alone


def tiers(year: str, method: str, line: str) -> list[tuple[float | None, float]]:
    """The tiers of a line as (up to, percent); nothing where all that is left is meant."""
    found, so_far = [], 0.0
    for phrase in rules(year).methods[method].lines[line].phrases:
        so_far += phrase.step
        found.append((None if phrase.portion == "the rest" else so_far, phrase.amount))
    return found


def test_the_editions_that_load_are_in_the_second_entry() -> None:
    assert len(YEARS) > 3
    assert set(YEARS) <= set(second.EDITIONS)


NUMBERS: dict[str, Callable[[str], Any]] = {
    "dwelling_loads.lighting_load": lambda year: second.LIGHTING_VA_PER_FT2[year],
    "dwelling_loads.small_appliance_load": lambda year: second.SMALL_APPLIANCE_VA[year],
    "dwelling_loads.laundry_load": lambda year: second.LAUNDRY_VA[year],
    "dwelling_loads.small_appliance_minimum": lambda year: second.SMALL_APPLIANCE_MIN_CIRCUITS[year],
    "dwelling_circuits.laundry_minimum": lambda year: second.LAUNDRY_MIN_CIRCUITS[year],
    "appliances.fastened_from": lambda year: second.FASTENED_APPLIANCES[year]["count"],
    "appliances.fastened_share": lambda year: second.FASTENED_APPLIANCES[year]["percent"],
    "appliances.fastened_smallest": lambda year: second.FASTENED_APPLIANCES[year]["min_watts"],
    "appliances.fastened_smallest_horsepower": lambda year: second.FASTENED_APPLIANCES[year]["min_hp"],
    "standard.dryer_minimum": lambda year: second.DRYER_MIN_VA[year],
    "standard.largest_motor_share": lambda year: second.LARGEST_MOTOR_ADDITION_PERCENT[year],
    "standard.charging_minimum": lambda year: second.CHARGING_STANDARD[year]["min_va"],
    "cooking.cooking_table_over": lambda year: 1000 * second.COOKING_LIMITS[year]["over_kw"],
    "cooking.column_b_from": lambda year: 1000 * second.COOKING_LIMITS[year]["A_below_kw"],
    "cooking.column_b_to": lambda year: 1000 * second.COOKING_LIMITS[year]["B_to_kw"],
    "cooking.cooking_full_rating": lambda year: 1000 * second.COOKING_LIMITS[year]["C_to_kw"],
    "cooking.cooking_table_to": lambda year: 1000 * second.COOKING_LIMITS[year]["note_1_and_2_to_kw"],
    "optional_dwelling.smallest_ampacity": lambda year: second.OPTIONAL_82[year]["min_ampacity"],
    "optional_dwelling.many_heaters_from": lambda year: second.OPTIONAL_82[year]["heaters"],
    "optional_dwelling.supplemental_share": lambda year: second.OPTIONAL_82_HVAC_PERCENT[year]["supplemental_heat"],
    "optional_dwelling.few_heaters_share": lambda year: second.OPTIONAL_82_HVAC_PERCENT[year]["heat_fewer_than_four"],
    "optional_dwelling.many_heaters_share": lambda year: second.OPTIONAL_82_HVAC_PERCENT[year]["heat_four_or_more"],
    "existing_dwelling.few_heaters_under": lambda year: second.OPTIONAL_83_HEATERS[year],
    "multifamily.multifamily_from": lambda year: second.OPTIONAL_84[year]["min_units"],
    "multifamily.cooking_taken": lambda year: second.OPTIONAL_84[year]["no_electric_cooking_va"],
    "two_dwellings.two_units": lambda year: second.OPTIONAL_85[year]["units"],
    "two_dwellings.identical_units": lambda year: second.OPTIONAL_85[year]["identical_units"],
    "manufactured.motor_share": lambda year: second.MOBILE_HOME_550_18[year]["largest_motor_percent"],
    "manufactured.cord_of": lambda year: second.MOBILE_HOME_550_18[year]["ac_cord_amperes"],
    "manufactured.cooling_allowance": lambda year: second.MOBILE_HOME_550_18[year]["ac_allowance_amperes_per_leg"],
    "manufactured.appliances_over": lambda year: second.MOBILE_HOME_550_18[year]["appliances_more_than"],
    "manufactured.appliance_share": lambda year: second.MOBILE_HOME_550_18[year]["appliances_percent"],
    "manufactured.smallest_service": lambda year: second.MOBILE_HOME_550_18[year]["min_service_amperes"],
    "metered.metered_share": lambda year: second.MEASURED_87[year]["maximum_percent"],
    "neutral.neutral_share": lambda year: second.NEUTRAL[year]["cooking_percent"],
    "sizing.one_family_minimum": lambda year: second.SERVICE_MIN_AMPERES[year]["one_family"],
    "sizing.other_minimum": lambda year: second.SERVICE_MIN_AMPERES[year]["all_others"],
    "sizing.next_rating_to": lambda year: second.NEXT_RATING_UP_TO_AMPERES[year],
    "conductors.dwelling_share": lambda year: second.DWELLING_CONDUCTOR_RULE[year]["percent"],
    "conductors.dwelling_from": lambda year: second.DWELLING_CONDUCTOR_RULE[year]["from_amperes"],
    "conductors.dwelling_to": lambda year: second.DWELLING_CONDUCTOR_RULE[year]["to_amperes"],
    "conductors.terminals_75_over": lambda year: second.TERMINALS[year]["to_amperes"],
    "conductors.lower_terminals": lambda year: second.TERMINALS[year]["unmarked_c"],
    "conductors.higher_terminals": lambda year: second.TERMINALS[year]["above_c"],
    "grounding.jumper_share": lambda year: second.BONDING_ABOVE[year]["percent_of_area"],
    "grounding.jumper_table_to_copper": lambda year: 1000 * second.BONDING_ABOVE[year]["over_cu_kcmil"],
    "grounding.jumper_table_to_aluminum": lambda year: 1000 * second.BONDING_ABOVE[year]["over_al_kcmil"],
    "interconnection.source_share": lambda year: second.BUS_705_12[year]["source_percent"],
    "interconnection.opposite_share": lambda year: second.BUS_705_12[year]["bus_percent_opposite_ends"],
    "branch_circuits.long_load_share": lambda year: second.BRANCH_CIRCUITS[year]["continuous"],
    "branch_circuits.charging_share": lambda year: second.BRANCH_CIRCUITS[year]["charging_device"],
    "branch_circuits.water_heater_share": lambda year: second.BRANCH_CIRCUITS[year]["storage_water_heater"],
    "branch_circuits.heating_share": lambda year: second.BRANCH_CIRCUITS[year]["fixed_heat"],
    "branch_circuits.subdivided_over": lambda year: second.BRANCH_CIRCUITS[year]["fixed_heat_subdivided_amperes"][0],
    "branch_circuits.compressor_share": lambda year: second.BRANCH_CIRCUITS[year]["ac_conductors"],
    "branch_circuits.compressor_device_share": lambda year: second.BRANCH_CIRCUITS[year]["ac_device"],
    "branch_circuits.compressor_largest_share": lambda year: second.BRANCH_CIRCUITS[year]["ac_device_if_not_starting"],
    "branch_circuits.motor_share": lambda year: second.BRANCH_CIRCUITS[year]["motor_conductors"],
    "branch_circuits.pool_heater_share": lambda year: second.BRANCH_CIRCUITS[year]["pool_heater"],
    "branch_circuits.appliance_device_share": lambda year: second.BRANCH_CIRCUITS[year]["appliance_device"],
    "branch_circuits.appliance_small_to": lambda year: second.BRANCH_CIRCUITS[year]["appliance_over_amperes"],
    "branch_circuits.appliance_small_device": lambda year: second.BRANCH_CIRCUITS[year]["appliance_small_device_amperes"],
    "branch_circuits.range_from": lambda year: 1000 * second.BRANCH_CIRCUITS[year]["range_from_kw"],
    "branch_circuits.range_breaker": lambda year: second.BRANCH_CIRCUITS[year]["range_min_amperes"],
    "branch_circuits.dryer_breaker": lambda year: second.BRANCH_CIRCUITS[year]["dryer_min_amperes"],
}
# Numbers that only some editions have: absent where the second entry has none.
NOT_IN_EVERY_EDITION = {"appliances.fastened_smallest", "appliances.fastened_smallest_horsepower", "standard.charging_minimum"}


@pytest.mark.parametrize("year", YEARS)
@pytest.mark.parametrize("address", NUMBERS)
def test_numbers(year: str, address: str) -> None:
    wanted = NUMBERS[address](year)
    if wanted is None:
        document, name = address.split(".")
        there = name in rules(year).documents[document].parameters
        assert not there or address not in NOT_IN_EVERY_EDITION or year == "2026"
        return
    assert parameter(year, address) == pytest.approx(wanted)


@pytest.mark.parametrize("year", YEARS)
def test_one_lighting_load_serves_every_method(year: str) -> None:
    assert set(second.LIGHTING_VA_PER_FT2_BY_METHOD[year].values()) == {second.LIGHTING_VA_PER_FT2[year]}
    of_manufactured = second.MOBILE_HOME_550_18[year]["lighting_va_per_ft2"]
    assert of_manufactured in (None, parameter(year, "dwelling_loads.lighting_load"))


@pytest.mark.parametrize("year", YEARS)
def test_tiers(year: str) -> None:
    assert tiers(year, "standard", "lighting_demand") == second.LIGHTING_DEMAND_TIERS[year]
    for method, line, typed in (
        ("optional_dwelling", "general_demand", second.OPTIONAL_82[year]),
        ("existing_dwelling", "general_demand", second.OPTIONAL_83[year]),
        ("manufactured", "lighting_demand", second.MOBILE_HOME_550_18[year]),
    ):
        assert tiers(year, method, line) == [(typed["first_va"], typed["first_percent"]), (None, typed["rest_percent"])]
    neutral = second.NEUTRAL[year]
    assert tiers(year, "neutral", "reduced_amperes") == [(neutral["over_amperes"], 100), (None, neutral["over_percent"])]


@pytest.mark.parametrize("year", YEARS)
def test_tables_by_a_number(year: str) -> None:
    dryers, cooking, units = (
        table(year, address) for address in ("standard.dryer_demand", "cooking.cooking_demand", "multifamily.multifamily_demand")
    )
    assert [(number, cell(dryers, number)) for number, _ in second.DRYER_DEMAND_PERCENT[year]] == second.DRYER_DEMAND_PERCENT[
        year
    ]
    for column, typed in enumerate(
        (second.COOKING_COLUMN_A_PERCENT, second.COOKING_COLUMN_B_PERCENT, second.COOKING_COLUMN_C_KW)
    ):
        assert [(number, cell(cooking, number, column)) for number, _ in typed[year]] == typed[year]
    assert [(number, cell(units, number)) for number, _ in second.MULTIFAMILY_DEMAND_PERCENT[year]] == (
        second.MULTIFAMILY_DEMAND_PERCENT[year]
    )
    assert cell(units, second.OPTIONAL_85[year]["identical_units"]) == second.OPTIONAL_85[year]["percent"]


@pytest.mark.parametrize("year", YEARS)
def test_ranges_of_manufactured_homes(year: str) -> None:
    found = table(year, "manufactured.range_demand")
    typed = second.MOBILE_HOME_RANGE_VA[year]
    assert [row.high for row in found.rows] == [last for last, _ in typed]
    share = second.MOBILE_HOME_RANGE_FIRST_ROW_PERCENT[year] / 100
    for low, (last, demand) in zip([1, *(last + 1 for last, _ in typed)], typed, strict=False):
        for rating in (low, last):
            assert cell(found, rating) == pytest.approx(share * rating if demand is None else demand)
    assert found.row_for(typed[-1][0] + 1) is None


@pytest.mark.parametrize("year", YEARS)
def test_what_counts_as_floor_area(year: str) -> None:
    text = str(rules(year).documents["floor_area"].groups["counted_areas"].condition_text)
    listed = set(text.partition("(")[2].partition(")")[0].split(", "))
    for kind, counts in second.FLOOR_AREA_COUNTS[year].items():
        names = {"living", "finished_basement"} if kind == "finished" else {kind}
        assert names <= listed if counts else not names & listed, kind


@pytest.mark.parametrize("year", YEARS)
def test_how_charging_and_microwaves_are_taken(year: str) -> None:
    charging = rules(year).documents["listed_loads"].interpretations["charging_in_optional"].default
    assert {"in_pool": "pool", "apart": "outside"}[str(charging)] == second.CHARGING_OPTIONAL[year]["220.82"]
    microwave = rules(year).documents["appliances"].interpretations["microwave_in_fastened"].default
    assert (str(microwave) == "counted") is second.FASTENED_APPLIANCES[year]["built_in_microwave_counts"]


@pytest.mark.parametrize("year", YEARS)
def test_standard_ratings(year: str) -> None:
    found = [row.high if math.isfinite(row.high) else row.low for row in table(year, "sizing.standard_ratings").rows]
    assert found == second.STANDARD_RATINGS[year]


@pytest.mark.parametrize("year", YEARS)
def test_ampacities(year: str) -> None:
    found = {str(row.label): [str(each.text) for each in row.cells] for row in table(year, "conductors.ampacities").rows}
    typed = {size: ["-" if amperes is None else f"{amperes}" for amperes in row] for size, row in second.AMPACITY[year].items()}
    assert {size: found[size] for size in typed} == typed
    assert year == "2026" or found.keys() == typed.keys()


@pytest.mark.parametrize("year", YEARS)
def test_correction_and_adjustment(year: str) -> None:
    ambient, count = table(year, "conductors.ambient_correction"), table(year, "conductors.conductor_count")
    places = [ambient.column_places[degrees,] for degrees in (60.0, 75.0, 90.0)]
    for low, high, *factors in second.AMBIENT_CORRECTION[year]:
        for degrees in (high if low is None else low, high):
            row = ambient.row_for(float(degrees))
            assert row is not None
            assert [row.cells[at].value for at in places] == factors
    for low, high, percent in second.CONDUCTOR_COUNT_PERCENT[year]:
        for number in (low, low + 10 if high is None else high):
            row = count.row_for(float(number))
            assert row is not None and row.cells[0].value == pytest.approx(percent / 100)


def mils(size: str | None) -> float:
    """The area of a size [cmil] as the rules have it; of nothing, any size."""
    if size is None:
        return math.inf
    rows = {str(row.label): str(row.cells[0].text) for row in table("2023", "equipment_grounding.conductor_areas").rows}
    return float(rows[size]) if size in rows else float(size) * 1000


@pytest.mark.parametrize("year", YEARS)
def test_electrode_conductors_and_jumpers(year: str) -> None:
    for name, entry in (
        ("electrode_conductors", second.GROUNDING_ELECTRODE_CONDUCTOR),
        ("bonding_jumpers", second.GROUNDED_AND_BONDING_CONDUCTOR),
    ):
        for at, material in enumerate(("copper", "aluminum")):
            found = table(year, f"grounding.{name}_for_{material}")
            typed = [(mils(row[at]), row[2], row[3]) for row in entry[year]]
            assert [(row.high, *(str(each.text) for each in row.cells)) for row in found.rows] == typed
    caps = {str(row.label): [str(each.text) for each in row.cells] for row in table(year, "grounding.electrode_caps").rows}
    typed_caps = second.GEC_CAPS[year]
    wanted = {name: ["-" if size is None else size for size in sizes] for name, sizes in typed_caps.items()}
    of_rods = [cells for label, cells in caps.items() if "rod" in label]
    of_concrete = [cells for label, cells in caps.items() if "concrete" in label]
    assert [cells[0] for cells in of_rods] == [wanted["rod_pipe_plate"][0]]
    assert [cells[0] for cells in of_concrete] == [wanted["concrete_encased"][0]]


@pytest.mark.parametrize("year", YEARS)
def test_equipment_grounding_conductors(year: str) -> None:
    found = table(year, "equipment_grounding.equipment_grounding_conductors")
    for last, copper, aluminum in second.EQUIPMENT_GROUNDING_CONDUCTOR[year]:
        row = found.row_for(float(last))
        assert row is not None
        sizes = rules(year).glossary.scales["conductor_size"]
        wanted = [size if size in sizes else "-" for size in (copper, aluminum)]  # 1250 kcmil is not on the scale: refused
        assert [str(each.text) for each in row.cells] == wanted, last


@pytest.mark.parametrize("year", YEARS)
def test_small_conductors(year: str) -> None:
    found = table(year, "conductors.small_conductors")
    for (metal, size), device in second.SMALL_CONDUCTOR_MAX_AMPERES[year].items():
        if metal not in MATERIALS or size in ("18", "16"):  # neither is a conductor of a branch circuit here
            continue
        column = list(MATERIALS).index(metal)
        row, above = found.row_for(float(device)), found.row_for(device + 0.5)
        assert row is not None and above is not None
        assert str(row.cells[column].text) == size
        assert str(above.cells[column].text) != size


@pytest.mark.parametrize("year", YEARS)
def test_dwelling_conductors(year: str) -> None:
    typed = second.DWELLING_CONDUCTOR_SIZES_83_PERCENT[year]
    assert second.DWELLING_CONDUCTOR_TABLE[year] in (None, typed)
    if "dwelling_conductors" in rules(year).documents["conductors"].tables:
        found = table(year, "conductors.dwelling_conductors")
        assert {int(str(row.label)): tuple(str(each.text) for each in row.cells) for row in found.rows} == typed


SECTIONS = {
    "nominal_voltages": "nominal_voltage",
    "rounding": "rounding",
    "floor_area": "floor_area",
    "dwelling_unit_load": "lighting",
    "lighting_demand": "lighting_demand",
    "space_heating": "space_heating",
    "fastened_appliances": "fastened",
    "dryers": "dryers",
    "charging": "charging",
    "noncoincident": "noncoincident",
    "optional_dwelling": "optional_dwelling",
    "optional_existing": "existing_dwelling",
    "optional_multifamily": "multifamily",
    "two_dwelling_units": "two_dwellings",
}


@pytest.mark.parametrize("year", YEARS)
@pytest.mark.parametrize("name", SECTIONS)
def test_sections(year: str, name: str) -> None:
    typed = second.CITATIONS[name][year]
    if not typed:
        return
    sections = str(rules(year).citations[SECTIONS[name]].section).split(", ")
    assert all(any(section.startswith(each) or each.startswith(section) for each in typed) for section in sections)
