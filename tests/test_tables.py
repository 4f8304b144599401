"""Every table and number of the rules against a second entry, typed apart from its source in another layout.

The second entry names the sections and how sure its source is. Values graded memory agree with memory only.
"""

from __future__ import annotations

from typing import Any

import pytest
import second_entry as second
from examples import rules_of

from dwellcalc.home.starting.question_reader import read_starter
from dwellcalc.language.rule_set import RuleSet, read_glossary
from dwellcalc.language.tables import Table

EDITIONS = ("2014", "2017", "2020", "2023", "2026")


def rules(year: str) -> RuleSet:
    return rules_of(f"nec/{year}")


def table(year: str, document: str, name: str) -> Table:
    return rules(year).documents[document].tables[name]


def by_label(found: Table) -> dict[str, list[Any]]:
    return {str(row.label): [str(cell.text) for cell in row.cells] for row in found.rows}


def parameter(year: str, document: str, name: str) -> float:
    rule_set = rules(year)
    return rule_set.glossary.units.quantity(rule_set.documents[document].parameters[name].value)[0]


@pytest.mark.parametrize("year", EDITIONS)
def test_ampacities(year: str) -> None:
    rows = by_label(table(year, "conductors", "ampacities"))
    columns = [(material, degrees) for material in ("copper", "aluminum") for degrees in (60, 75, 90)]
    for at, column in enumerate(columns):
        typed = {size: cells[at] for size, cells in rows.items() if cells[at] != "-"}
        assert typed == {size: f"{amperes}" for size, amperes in second.AMPACITY[column].items()}


@pytest.mark.parametrize("year", EDITIONS)
def test_correction_and_adjustment(year: str) -> None:
    ambient, count = (table(year, "conductors", name) for name in ("ambient_correction", "conductor_count"))
    for at, (degrees, factors) in enumerate(second.AMBIENT_CORRECTION.items()):
        assert ambient.column_places[float(degrees),] == at
        typed = {row.high: row.cells[at].value for row in ambient.rows if row.cells[at].value is not None}
        assert typed == factors
    assert {row.low: row.cells[0].value for row in count.rows} == {
        first: pytest.approx(share / 100) for first, share in second.CONDUCTOR_COUNT.items()
    }


def area(size: str) -> float:
    """The area of a size in circular mils; of a number of kcmil that is no size, that."""
    return second.CIRCULAR_MILS.get(size) or float(size) * 1000


@pytest.mark.parametrize("year", EDITIONS)
@pytest.mark.parametrize(("name", "rows"), [("electrode_conductors", 7), ("bonding_jumpers", 6)])
def test_electrode_conductors_and_bonding_jumpers(year: str, name: str, rows: int) -> None:
    for at, material in enumerate(("copper", "aluminum")):
        found = table(year, "grounding", f"{name}_for_{material}")
        typed = [(float("inf") if not row[at] else area(row[at]), row[2], row[3]) for row in second.ELECTRODE_CONDUCTORS]
        assert [(row.high, *(str(cell.text) for cell in row.cells)) for row in found.rows] == typed[:rows]
    shares = {"jumper_share": 12.5, "jumper_table_to_copper": 1100e3, "jumper_table_to_aluminum": 1750e3}
    assert {each: parameter(year, "grounding", each) for each in shares} == shares
    caps = by_label(table(year, "grounding", "electrode_caps"))
    assert {electrode: cells[0] for electrode, cells in caps.items()} == second.ELECTRODE_CAPS


@pytest.mark.parametrize("year", EDITIONS)
def test_insulation_types(year: str) -> None:
    shown = rules(year).glossary.prints
    rows = {shown["insulation", name]: cells for name, cells in by_label(table(year, "conductors", "insulation_types")).items()}
    typed = {name: [f"{degrees}", f"{degrees}"] for degrees, names in second.INSULATION.items() for name in names}
    in_insulation = "60" if year == "2014" else "75"  # the 60 C column of 2014; later for small sizes alone, from memory
    forms = {"SER": typed["SE"], "SEU": typed["SE"]}  # common practice, no source: names in the trade of SE cables
    assert rows == typed | forms | {"NM-B": ["90", "60"], "SE in thermal insulation": ["75", in_insulation]}


@pytest.mark.parametrize("year", ["2020", "2023", "2026"])
def test_dwelling_conductors(year: str) -> None:
    rows = by_label(table(year, "conductors", "dwelling_conductors"))
    for at, material in enumerate(("copper", "aluminum")):
        assert {int(rating): cells[at] for rating, cells in rows.items()} == second.DWELLING_CONDUCTORS[material]


@pytest.mark.parametrize("year", ["2014", "2017"])
def test_no_dwelling_conductor_table_before_2020(year: str) -> None:
    assert "dwelling_conductors" not in rules(year).documents["conductors"].tables


@pytest.mark.parametrize("year", EDITIONS)
def test_standard_ratings(year: str) -> None:
    typed = [int(str(row.label)) for row in table(year, "sizing", "standard_ratings").rows]
    assert typed == second.STANDARD_RATINGS[year]


@pytest.mark.parametrize("year", EDITIONS)
def test_motor_current(year: str) -> None:
    rows = by_label(table(year, "nameplate", "motor_full_load_current"))
    for at, heading in enumerate((115, 200, 208, 230)):
        typed = {size: float(cells[at]) for size, cells in rows.items()}
        assert typed == second.MOTOR_CURRENT[heading]


@pytest.mark.parametrize(("written", "nominal"), second.NOMINAL_VOLTAGE.items())
def test_nominal_voltage(written: float, nominal: float) -> None:
    found = table("2023", "nameplate", "nominal_voltages")
    row = found.row_for(float(written))
    assert row is not None
    assert row.cells[0].value == nominal


def test_what_the_questions_say_of_nominal_voltages_is_as_in_the_table() -> None:
    told = read_starter(None, read_glossary()).words.nominal
    assert told == {"240 V": ("220 V", "230 V")}
    for nominal, others in told.items():
        for volts in others:
            row = table("2023", "nameplate", "nominal_voltages").row_for(float(volts.split()[0]))
            assert row is not None and f"{row.cells[0].value:g} V" == nominal


@pytest.mark.parametrize("outside", [109, 128, 199, 209, 219, 251, 277])
def test_no_nominal_voltage_outside(outside: float) -> None:
    assert table("2023", "nameplate", "nominal_voltages").row_for(float(outside)) is None


@pytest.mark.parametrize("year", EDITIONS)
def test_minimum_service(year: str) -> None:
    assert parameter(year, "sizing", "one_family_minimum") == second.SERVICE_MINIMUM["one_family"]
    assert parameter(year, "sizing", "other_minimum") == second.SERVICE_MINIMUM["others"]


@pytest.mark.parametrize("year", EDITIONS)
def test_optional_dwelling(year: str) -> None:
    typed = second.OPTIONAL_DWELLING[year]
    own = {
        "supplemental_heat_percent": "supplemental_share",
        "few_heaters_percent": "few_heaters_share",
        "many_heaters_percent": "many_heaters_share",
        "many_heaters_from": "many_heaters_from",
        "smallest_ampacity_a": "smallest_ampacity",
    }
    shared = {
        "lighting_va_per_sqft": "lighting_load",
        "small_appliance_va": "small_appliance_load",
        "laundry_va": "laundry_load",
    }
    found = {name: parameter(year, "optional_dwelling", ours) for name, ours in own.items()}
    found |= {name: parameter(year, "dwelling_loads", ours) for name, ours in shared.items()}
    found["dryer_va_if_unknown"] = parameter(year, "listed_loads", "dryer_if_unknown")
    tiers = rules(year).methods["optional_dwelling"].lines["general_demand"].phrases
    found["dryer_va_if_unknown"] = parameter(year, "listed_loads", "dryer_if_unknown")
    found |= {"first_tier_va": tiers[0].step, "remainder_percent": tiers[1].amount}
    assert found == typed
    assert [(tier.amount, tier.portion) for tier in tiers] == [(100, "the first"), (40, "the rest")]


@pytest.mark.parametrize("year", EDITIONS)
def test_dwelling_share(year: str) -> None:
    typed = second.DWELLING_SHARE
    found = [parameter(year, "conductors", name) for name in ("dwelling_share", "dwelling_from", "dwelling_to")]
    assert found == [typed["percent"], typed["from_a"], typed["to_a"]]
    named = {"120/240 single-phase": "single_phase_3_wire", "two legs of 208Y/120": "two_lines_of_wye"}
    text = str(rules(year).documents["conductors"].lines["dwelling_supply"].value_text)
    assert [word for word in named.values() if word in text] == [named[each] for each in typed["supply_systems"][year]]


@pytest.mark.parametrize("year", EDITIONS)
def test_floor_area(year: str) -> None:
    text = str(rules(year).documents["floor_area"].groups["counted_areas"].condition_text)
    listed = text.partition("(")[2].partition(")")[0].split(", ")
    assert listed == second.FLOOR_AREA_COUNTED[year]


@pytest.mark.parametrize("year", EDITIONS)
def test_citations(year: str) -> None:
    keys = {
        "floor_area": "floor_area",
        "dwelling_lighting": "lighting",
        "optional_dwelling": "optional_dwelling",
        "dwelling_conductors": "dwelling_conductors",
        "ampacity": "ampacities",
        "standard_ratings": "standard_ratings",
        "rounding": "rounding",
        "nominal_voltage": "nominal_voltage",
        "motor_current": "motor_current",
    }
    for name, key in keys.items():
        sections = str(rules(year).citations[key].section).split(", ")
        typed = second.CITATIONS[year][name]
        assert all(any(section.startswith(each) or each.startswith(section) for each in typed) for section in sections), name


@pytest.mark.parametrize("year", EDITIONS)
def test_equipment_grounding_conductors(year: str) -> None:
    rows = by_label(table(year, "equipment_grounding", "equipment_grounding_conductors"))
    for at, material in enumerate(("copper", "aluminum")):
        typed = {size: amperes for size, amperes in second.GROUNDING_UP_TO[material].items()}
        found: dict[str, int] = {}
        for rating, cells in rows.items():
            if cells[at] != "-":
                found[cells[at]] = int(rating)
        assert found == typed


def test_conductor_areas() -> None:
    rows = by_label(table("2023", "equipment_grounding", "conductor_areas"))
    gauges = {size: float(cells[0]) for size, cells in rows.items() if size in second.CIRCULAR_MILS}
    assert gauges == second.CIRCULAR_MILS
    thousands = {size: float(cells[0]) for size, cells in rows.items() if size not in second.CIRCULAR_MILS}
    assert thousands and all(area == 1000 * int(size) for size, area in thousands.items())


def test_small_conductors() -> None:
    found = table("2023", "conductors", "small_conductors")
    for at, material in enumerate(("copper", "aluminum")):
        typed = second.SMALL_CONDUCTOR_DEVICE[material]
        for device in (1, 15, 15.5, 20, 20.5, 25, 25.5, 30, 30.5, 35, 400):
            row = found.row_for(float(device))
            assert row is not None
            assert str(row.cells[at].text) == next((size for size, largest in typed.items() if device <= largest), "8")


@pytest.mark.parametrize(("name", "typed"), second.BRANCH_CIRCUIT.items())
def test_branch_circuit_numbers(name: str, typed: float) -> None:
    assert parameter("2023", "branch_circuits", name) == typed


def test_voltage_drop_numbers() -> None:
    names = ("copper_resistivity", "aluminum_resistivity", "recommended_drop", "both_ways")
    assert [parameter("2023", "voltage_drop", name) for name in names] == [12.9, 21.2, 3, 2]


def test_numbers_of_dwelling_circuits() -> None:
    names = ("small_lighting_breaker", "large_lighting_breaker", "laundry_minimum", "bathroom_minimum", "garage_minimum")
    assert [parameter("2017", "dwelling_circuits", name) for name in names] == [15, 20, 1, 1, 1]
    assert "garage_minimum" not in rules("2014").documents["dwelling_circuits"].parameters


@pytest.mark.parametrize("year", EDITIONS)
def test_charging_figures(year: str) -> None:
    keys = {"not_less_than": "charging_minimum", "if_unknown": "charging_if_unknown"}
    held = rules(year).documents["standard"].parameters
    found = {name: parameter(year, "standard", key) for name, key in keys.items() if key in held}
    assert found == second.CHARGING.get(year, {})


@pytest.mark.parametrize("year", EDITIONS)
def test_lighting_of_circuits(year: str) -> None:
    line = rules(year).documents["dwelling_circuits"].lines["lighting_amperes"]
    name = str(line.value_text).partition(" ")[0]
    document = "dwelling_circuits" if name in rules(year).documents["dwelling_circuits"].parameters else "dwelling_loads"
    assert parameter(year, document, name) == second.LIGHTING_CIRCUITS[year]


def test_grades_of_2026() -> None:
    """No value and no place of 2026 is graded surer, or less sure, than the notes on it; all that is taken over is memory."""
    found = rules("2026")
    typed = {grade: (set(of["values"]), set(of["places"])) for grade, of in second.GRADES_2026.items()}
    for grade, (_, places) in typed.items():
        graded = {str(each.section) for each in found.citations.values() if each.confidence == grade}
        assert {section.replace(", Article 130 Part II", "") for section in graded} == places, grade
    assert {str(each.confidence) for each in found.citations.values()} == {*typed, "memory"}
    values = {name: str(each.evidence.confidence) for document in found.documents.values()
              for name, each in document.parameters.items() if each.status != "policy"}  # fmt: skip
    values["first_tier"] = str(found.documents["optional_dwelling"].lines["general_demand"].evidence.confidence)
    changed = {each.address: each.confidence for each in found.applied if each.document == "NEC 2026"}
    values["charging_apart"] = changed["listed_loads.charging_in_optional.default"]
    values["detached_garage_out"] = changed["floor_area.counted_areas"]
    for grade, (names, _) in typed.items():
        assert {name for name, each in values.items() if each == grade} == names, grade
    tables = [table for document in found.documents.values() for table in document.tables.values()]
    assert {str(table.confidence) for table in tables} == {"memory"}
