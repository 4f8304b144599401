"""The JSON Schema of the home file: every demonstration validates, broken homes do not, and the meanings show."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from assessments import DEMO, DEMOS
from jsonschema import Draft7Validator
from test_home import WRONG, file_text

from dwellcalc.home import home_from_text
from dwellcalc.home.models import models_for
from dwellcalc.home.schema import schema_of
from dwellcalc.home.schema_texts import MEANINGS
from dwellcalc.language.rule_set import read_glossary
from dwellcalc.placed import Listing, Mapping, Node, spaced
from dwellcalc.reading import read_file, read_text

# What is wrong with other parts of the file, or with what a number or a name means: the reader alone tells that.
BEYOND_FORM = {
    *("home_same_key", "home_date", "home_two_voltages", "home_too_large", "home_setting_above_rating", "home_flag_by_kind"),
    *("home_setting_alone", "home_setting_not_listed"),
    *("home_name_taken", "home_replaces", "home_never_two", "home_never_twice", "home_never_equal", "home_never_units"),
    *("home_never_carried", "home_circuit_of_carried"),
    *("home_in_unit", "home_legs", "home_legs_connection", "home_legs_three_phase", "home_same_name", "home_in_lacks"),
    *("home_house_loads", "home_leg_counts", "home_fed_unit", "home_fed_load", "home_fed_area", "home_fed_areas"),
    *("home_fed_twice", "home_fed_nothing", "home_fed_units", "home_planned_panel", "home_panel_on", "home_circuit_source"),
    *(
        "home_circuit_load",
        "home_load_or_for",
        "home_absent",
        "home_not_electric",
        "home_bounds_order",
        "home_bill_turned",
        "home_range_turned",
    ),
    "home_no_name",
}
WHOLE, DECIMAL = re.compile(r"-?\d+"), re.compile(r"-?\d*\.\d+")


@cache
def schema() -> dict[str, Any]:
    return schema_of(read_glossary())


def plain(node: Node) -> Any:
    """Nodes as an editor's YAML reads them: numbers as numbers, all else as text."""
    if isinstance(node, Mapping):
        return {str(name): plain(value) for name, value in node.items()}
    if isinstance(node, Listing):
        return [plain(item) for item in node]
    if WHOLE.fullmatch(node):
        return int(node)
    return float(node) if DECIMAL.fullmatch(node) else str(node)


def wrong(tree: Any) -> list[str]:
    """Where a tree breaks the schema."""
    return ["/".join(map(str, error.absolute_path)) for error in Draft7Validator(schema()).iter_errors(tree)]


def wrong_in(text: str) -> list[str]:
    return wrong(plain(read_text(text, "home.yaml")))


def test_the_schema_is_one() -> None:
    Draft7Validator.check_schema(schema())


@pytest.mark.parametrize("name", DEMOS)
def test_every_demonstration_validates(name: str) -> None:
    assert wrong(plain(read_file(DEMO / f"{name}.yaml"))) == []


@pytest.mark.parametrize("path", sorted(Path(DEMO.parent / "published").glob("*.yaml")), ids=lambda path: path.stem)
def test_every_home_of_a_published_example_validates(path: Path) -> None:
    home = read_file(path).get("home")  # type: ignore[call-overload]
    if isinstance(home, Mapping):
        assert wrong(plain(home)) == []


@pytest.mark.parametrize("key", sorted(set(WRONG) - BEYOND_FORM))
def test_a_broken_home_does_not_validate(key: str) -> None:
    assert wrong_in(WRONG[key][0])


@pytest.mark.parametrize("key", sorted(BEYOND_FORM))
def test_what_only_the_reader_can_tell_validates(key: str) -> None:
    """So that a schema that grew narrower than the reader is noticed."""
    assert wrong_in(WRONG[key][0]) == []


@pytest.mark.parametrize(
    "load",
    [
        "name: it, kind: EV-Charging_equipment, rating: 32 A at 240 V",
        "name: it, kind: a/c unit, rating: MCA 24 A at 240 V, evidence: not seen",
        "name: it, kind: heat pump, rating: rla 16.7 a + Fan 1.2 A at 240 V",
        "name: it, kind: range, rating: Typical",
        "name: it, kind: range, rating: not-seen",
        "name: it, kind: range, rating: 8 to 14 kW",
        "name: it, kind: other motor, rating: 7-1/2 hp at 230 V, connection: line to line",
        "name: it, kind: other motor, rating: 7 1/2 hp @ 230 V",
        "name: it, kind: charger, rating: setting 24 A",
        "name: it, kind: charger, rating: control setting 0 A",
        "name: it, kind: charger, settings: 6 A to 48 A",
        "name: it, kind: freezer, rating: 4 A at 120 V, individual circuit: yes, quantity: 2",
        "name: it, kind: freezer, rating: 4 A at 120 V, individual_circuit: yes",
        "name: it, kind: freezer, rating: 4 A at 120 V, individual-circuit: unknown",
    ],
)
def test_spellings_that_the_reader_takes(load: str) -> None:
    text = file_text(load)
    home_from_text(text, "home.yaml", read_glossary())
    assert wrong_in(text) == []


@pytest.mark.parametrize(
    "load",
    [
        "name: it, kind: range",
        "name: it, kind: range, rating: 12 kw",
        "name: it, kind: range, rating: 12kW",
    ],
)
def test_what_may_be_left_out_or_closed_up(load: str) -> None:
    assert wrong_in(file_text(load)) == []


def test_keys_are_spaced_and_bear_their_meanings() -> None:
    root = schema()["properties"]
    unit = root["dwelling units"]["items"]["properties"]
    assert unit["small appliance circuits"]["description"] == "20 A small-appliance branch circuits"
    assert root["service"]["properties"]["bus"]["description"] == "rating of the panelboard bus"
    assert root["service"]["properties"]["conductors"]["anyOf"][0]["properties"]["insulation"]["description"]
    kinds = {each["const"]: each["description"] for each in schema()["definitions"]["kind"]["anyOf"] if "const" in each}
    assert kinds["EV charging equipment"] == "EV charging equipment (EVSE)"
    assert len(kinds) == len(read_glossary().load_kinds)


def test_every_key_of_the_models_is_offered_with_a_meaning() -> None:
    """A key that is new in the models needs a meaning in the glossary or in the texts of the schema."""
    lacking = []

    def look(tree: dict[str, Any], path: str) -> None:
        for key, value in tree.get("properties", {}).items():
            at = f"{path} > {key}"
            if not value.get("description") and not path.endswith(("dates", "meter", "bills", "changes")):
                lacking.append(at)
            for each in (value, value.get("items", {}), *value.get("anyOf", ())):
                if "properties" in each:
                    look(each, at)

    look(schema(), "")
    assert lacking == []
    known = {spaced(key) for keys in models_for(read_glossary()).keys.values() for key in keys}
    assert {spaced(key) for key in MEANINGS} <= known


@pytest.mark.slow
def test_the_command_prints_it_or_writes_it(run: Any, tmp_path: Path) -> None:
    code, out, _ = run("schema")
    assert code == 0
    assert json.loads(out) == schema()
    path = tmp_path / "home.schema.json"
    assert run("schema", "--output", str(path))[0] == 0
    assert json.loads(path.read_text(encoding="utf-8")) == schema()
    code, _, err = run("schema", "--output", str(tmp_path / "nowhere" / "home.schema.json"))
    assert code == 2
    assert "cannot be written" in err
