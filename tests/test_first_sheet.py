"""What stands first on a sheet because users missed it there: every setting, the edition, what of the supply was not seen."""

from __future__ import annotations

from dataclasses import replace

import pytest
from assessments import assessed, demo, house, load

from dwellcalc.decide.document import EditionAnswer
from dwellcalc.report.answer import verdict_sentence
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


@pytest.mark.parametrize(("circuits", "told"), [("0", True), ("1", True), ("2", False), ("3", False)])
def test_fewer_small_appliance_circuits_than_are_counted_are_told(circuits: str, told: bool) -> None:
    tree = demo(SMALL)
    tree["dwelling units"][0]["small appliance circuits"] = circuits
    sheet = " ".join(as_text(sheet_pages(assessed(tree), full=False), None).split())
    assert ("Fewer are said in the home file; the least number that the section asks for is counted." in sheet) == told
    assert f"1,500 VA/circuit * {max(int(circuits), 2)} circuit" in sheet
