"""What stands first on a sheet because users missed it there: every setting, the edition, what of the supply was not seen."""

from __future__ import annotations

from dataclasses import replace

import pytest
from assessments import assessed, demo, house, load

from dwellcalc.decide.document import EditionAnswer
from dwellcalc.report.answer import minimum_title, verdict_sentence
from dwellcalc.report.printed_sheets import printed_sheets
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.sheet_parts import sizing_remark
from dwellcalc.report.tables import Paragraph, as_text
from dwellcalc.report.turning import edition_blocks, turning_blocks

SMALL = "small_gas_heated_house"


def texts(blocks: object) -> str:
    return "\n".join(block.text for block in blocks if isinstance(block, Paragraph))  # type: ignore[attr-defined]


def test_the_verdict_names_the_setting_even_if_it_is_the_largest_and_how_many_there_are() -> None:
    found = assessed(demo(SMALL))
    assert verdict_sentence(found, found.supplies[0]).startswith("Fits, with charger set to 32 A, by the method")
    tree = demo(SMALL)
    tree["planned"][0] |= {"quantity": 2, "settings": ["6 A", "8 A"]}
    tree["service"]["rating"] = "100 A"
    tree["service"]["conductors"] = "not seen"
    twice = assessed(tree)
    assert "with charger set to 8 A (each of 2)" in verdict_sentence(twice, twice.supplies[0])


def test_the_verdict_hangs_on_the_edition_where_they_differ() -> None:
    found = assessed(demo(SMALL))
    supply = found.supplies[0]
    supply.editions = [
        EditionAnswer("NEC 2023", "m", 50.0, "fits", True),
        EditionAnswer("NEC 2026", "m", 70.0, "does not fit", False),
    ]
    found.home["confirmed_by"] = ""
    told = texts(edition_blocks(found, supply))
    assert "fits by NEC 2023; does not fit by NEC 2026." in told
    assert "Nobody has confirmed yet" in told
    found.home["confirmed_by"] = "the county"
    assert "Nobody" not in texts(edition_blocks(found, supply))
    supply.editions = [replace(each, verdict="fits") for each in supply.editions]
    assert not edition_blocks(found, supply)


def test_a_bus_that_nobody_read_is_told_first_and_is_to_be_found_in_the_field() -> None:
    tree = house([load("range", "range", "9 kW")], rating="100 A")
    tree["service"].pop("bus", None)
    for work, there in (("existing", True), ("new", False)):
        tree["work"] = work
        found = assessed(tree)
        assert ("rating of the panelboard bus" in texts(turning_blocks(found.supplies[0]))) is there
        assert any(each.startswith("panelboard bus: not given") for each in found.field_page) is there
    tree["work"] = "existing"
    tree["service"]["bus"] = "100 A"
    read = assessed(tree)
    assert "panelboard bus" not in texts(turning_blocks(read.supplies[0]))
    assert "panelboard bus: 100 A" in read.field_page


def test_the_sheet_of_sizing_says_that_another_method_sizes_a_new_supply() -> None:
    for name, told in (("vacant_older_house", True), ("new_all_electric_house", False)):
        supply = assessed(demo(name)).supplies[0]
        remarks = [sizing_remark(supply, each) for each in printed_sheets(supply, full=False)]
        assert sum(map(bool, remarks)) == told, name


def test_an_input_that_makes_no_difference_stands_at_its_largest() -> None:
    """The range is always the smaller of a set, so that no bound hangs on it."""
    tree = demo("house_with_meter_record")
    tree.pop("meter")
    tree["dwelling units"][0]["loads"][0]["rating"] = "8 kW to 14 kW"
    heaters = next(each for each in tree["dwelling units"][0]["loads"] if each["name"] == "heaters")
    heaters.pop("quantity")
    heaters["rating"] = "20 kW"
    tree["never together"] = [{"loads": ["range", "heaters"], "by": "an interlock"}]
    supply = assessed(tree).supplies[0]
    assert supply.between is not None
    assert supply.between.amperes.low == supply.between.amperes.high
    assert supply.between.sheet_at == {"range": "14,000 W"}


def test_one_edition_alone_is_told_while_nobody_has_confirmed_it() -> None:
    found = assessed(demo(SMALL))
    found.home["confirmed_by"] = ""
    assert texts(edition_blocks(found, found.supplies[0])).startswith("NEC 2023 alone was calculated, and nobody has confirmed")
    found.home["confirmed_by"] = "the county"
    assert not edition_blocks(found, found.supplies[0])


def test_a_new_service_of_a_home_that_is_there_leaves_its_loads_existing_and_their_circuits_alone() -> None:
    planned = [{"name": "charger", "kind": "EV charging equipment", "rating": "setting 32 A"}]
    for work, standing, sized in (("existing", "existing", ["charger"]), ("new", "new", ["oven", "charger"])):
        tree = house([load("oven", "wall oven", "5 kW")], planned=planned, rating="200 A", state="to be installed")
        supply = assessed({**tree, "work": work}).supplies[0]
        assert [each.status for each in supply.loads] == [standing, "planned"]
        assert supply.circuits is not None
        assert [each.load for each in supply.circuits.circuits] == sized
        assert minimum_title(supply) == "Minimum rating of the service"
    there = assessed({**house([load("oven", "wall oven", "5 kW")], rating="200 A"), "work": "existing"}).supplies[0]
    assert minimum_title(there) == "Minimum rating of the service, if it were new"


def test_a_small_margin_is_told_before_all_remarks() -> None:
    """220.82: 10,000 VA and 40 % of the rest; 100 A holds 24,000 VA, of which a twentieth is 1,200 VA."""
    rest = (24_000 - 10_000) / 0.4 + 10_000
    for left, small in ((1_300, False), (1_100, True)):
        loads = [
            load("heater", "water heater", "4.5 kW"),
            load("kiln", "wall oven", f"{rest - left / 0.4 - 4_500 - 4_500 - 3_000:.0f} W"),
        ]
        tree = house(loads, area="1000 ft2", rating="100 A", conductors={"size": "4 AWG", "material": "copper"})
        supply = assessed({**tree, "work": "new"}).supplies[0]
        assert supply.sizing is not None and supply.sizing.margin == pytest.approx(left / 240, abs=0.01)
        assert supply.sizing.margin_is_small is small
        assert supply.remarks[0].startswith("The margin is small") is small


def test_the_fewest_circuits_for_lighting_and_receptacles_stand_on_the_sheet_of_a_new_home_alone() -> None:
    """210.11: 3 VA per square foot of 1,600 over 120 V is 40 A, 2 circuits of 20 A; two, one and one beside; no garage."""
    tree = house([load("oven", "wall oven", "5 kW")], area="1600 ft2", rating="200 A", state="to be installed")
    for work, fewest in (("new", ["6"]), ("existing", [])):
        supply = assessed({**tree, "work": work}).supplies[0]
        told = [answer.printed for each in supply.beside for answer in each.answers if answer.title.startswith("Fewest circuits")]
        assert told == fewest


def test_a_method_that_sizes_no_new_supply_gives_no_rating_of_one() -> None:
    """220.83 only tells whether an existing supply suffices."""
    planned = [{"name": "charger", "kind": "EV charging equipment", "settings": ["16 A", "48 A"]}]
    tree = house([load("oven", "wall oven", "5 kW"), load("heater", "water heater", "4.5 kW")], planned=planned, rating="60 A")
    for occupied, rated in (("yes", False), ("no", True)):
        found = assessed({**tree, "occupied": occupied}, "existing_dwelling" if not rated else "optional_dwelling")
        rows = [at for row in found.decision.settings[0].settings for at in row.supplies]
        assert rows and all((at.minimum_rating is not None) is rated for at in rows)


@pytest.mark.parametrize(("circuits", "told"), [("0", True), ("1", True), ("2", False), ("3", False)])
def test_fewer_small_appliance_circuits_than_are_counted_are_told(circuits: str, told: bool) -> None:
    tree = demo(SMALL)
    tree["dwelling units"][0]["small appliance circuits"] = circuits
    sheet = " ".join(as_text(sheet_pages(assessed(tree), full=False), None).split())
    assert ("Fewer are said in the home file; the least number that the section asks for is counted." in sheet) == told
    assert f"1,500 VA/circuit * {max(int(circuits), 2)} circuit" in sheet
