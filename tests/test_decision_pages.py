"""What the printed sheet says of settings, combinations, the order of installation and alternatives."""

from __future__ import annotations

import re

import pytest
from assessments import DEMOS, assessed, demo, demo_assessed, house, load, load_named

from dwellcalc.decide.document import Assessment
from dwellcalc.report.carried_on import own_sheets
from dwellcalc.report.compared_sheet import compared
from dwellcalc.report.decision_pages import ONE_SUFFICES, decision_blocks, decision_rows
from dwellcalc.report.page.elements import Fold
from dwellcalc.report.page.sheet_page import appendix
from dwellcalc.report.printed_sheets import printed_sheets
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import Listing, Paragraph, Table, as_text


def tables(found: Assessment) -> dict[str, Table]:
    return {block.title: block for block in decision_blocks(found) if isinstance(block, Table)}


def test_the_first_screen_says_what_a_designer_writes_on_the_permit() -> None:
    """Rating, method, margin, setting, device, conductors, and what one setting more would take."""
    screen = as_text(sheet_pages(demo_assessed("new_all_electric_house"), full=False), 130).split("\n")
    head = " ".join(" ".join(screen[:13]).split())
    assert 'Fits, with charger set to 40 A, by the method "Optional calculation for one dwelling unit", NEC 2023' in head
    rows = dict(re.split(r" {2,}", line, maxsplit=1) for line in screen[13:32] if re.search(r"\S {2,}\S", line))
    assert rows["Capacity of the supply"] == "150 A, by the rating of the main overcurrent device"
    assert rows["Margin"] == "0.47 A"
    assert rows["Setting of charger"] == "40 A; breaker 50 A, 6 AWG copper at 60 C or 8 AWG copper at 75 C"
    assert rows["One setting more"] == "48 A does not fit; it would take service 152.73 A, a rating of 175 A"
    assert rows["Smallest conductors for 150 A"] == "2/0 AWG aluminum"  # the home file chooses the metal


def test_the_least_method_by_which_the_verdict_is_another_is_told_line_by_line() -> None:
    """That of the sauna's house does not fit by the standard calculation; where a larger main carries that too, it is not needed."""
    whole = demo_assessed("existing_house_with_sauna")
    found = whole.supplies[0]
    (other,) = compared(found)
    by = {each.id: each for each in found.results}
    assert found.verdict == "fits"
    assert (by[other.id].may_be_used, by[other.id].verdict) == ("yes", "does not fit")
    assert by[other.id].amperes > found.sizing.capacity
    fold = next(each for each in appendix(whole).blocks if isinstance(each, Fold) and each.summary.startswith(other.title))
    table = next(each for each in fold.blocks if isinstance(each, Table) and each.title == "Calculation")
    assert table.rows[-1][-1] == f"{by[other.id].amperes:,.2f} A"
    assert fold.on_screen
    tree = demo("existing_house_with_sauna")
    tree["service"] |= {"rating": "400 A", "conductors": {"size": "600 kcmil", "material": "copper"}, "bus": "400 A"}
    assert compared(assessed(tree).supplies[0]) == []


@pytest.mark.parametrize("name", ["existing_house_with_sauna", "new_all_electric_house"])
def test_each_method_has_the_verdict_that_an_assessment_by_it_gives(name: str) -> None:
    found = demo_assessed(name).supplies[0].results
    may = [each for each in found if each.may_be_used == "yes"]
    assert len(may) > 1
    for each in may:
        assert assessed(demo(name), method=each.title).supplies[0].verdict == each.verdict


@pytest.mark.slow
def test_of_a_feeder_that_carries_all_no_line_of_the_service_is_printed_again() -> None:
    """Its equipment grounding conductor is its own; its rating and capacity stand with the service."""
    tree = demo("new_all_electric_house")
    tree["feeders"] = [{"name": "feeder to the panel", "feeds": "house", "conductors": "to be chosen"}]
    whole = assessed(tree)
    before = {line.title for each in printed_sheets(whole.supplies[0], full=False) for line in each.lines}
    own = [line.title for each in own_sheets(whole) for line in each.lines]
    assert "Equipment grounding conductor of the feeder, of copper, in each raceway" in own
    assert "Capacity of the supply, the weakest element" in before
    assert "Capacity of the supply, the weakest element" not in own
    folds = [each.summary for each in appendix(whole).blocks if isinstance(each, Fold) and "feeder" in each.summary]
    assert [each.partition(" (")[0] for each in folds] == [
        "Neutral, grounding electrode and equipment grounding conductors, bonding jumpers"
    ]


@pytest.mark.parametrize("name", DEMOS)
def test_every_setting_stands_in_a_table_with_its_figures(name: str) -> None:
    found = demo_assessed(name)
    shown = tables(found)
    for settable in found.decision.settings:
        worst = ", what is not known at its largest" if any(each.between for each in found.supplies) else ""
        table = shown[f"Settings of {settable.load}{worst}"]
        at = {heading: place for place, heading in enumerate(table.head)}
        rows = iter(table.rows)
        for setting in settable.settings:
            for place, supply in enumerate(setting.supplies):
                row = next(rows)
                assert row[0] == (f"{setting.setting:g} A" if place == 0 else "")
                assert row[at["Load"]] == f"{supply.amperes:,.2f} A"
                assert row[at["Margin"]] == f"{supply.margin:,.2f} A"
                assert row[at["Verdict"]].split(";")[0] == supply.verdict
                assert ("Supply" in at) == (len(found.supplies) > 1)
                if place == 0:
                    assert row[at["Verdict"]].endswith("; counted") == setting.counted
                    assert setting.circuit is not None
                    assert row[at["Breaker"]] == setting.circuit.breaker
        assert next(rows, None) is None


@pytest.mark.parametrize("name", DEMOS)
def test_every_alternative_stands_in_the_table(name: str) -> None:
    found = demo_assessed(name)
    table = tables(found).get("What else could be done")
    assert (table is not None) == bool(found.decision.alternatives)
    for each in found.decision.alternatives:
        row = next(row for row in table.rows if row[0] == each.title and row[2] == each.verdict)
        line = next(line for line in row[1].split("\n") if line.startswith(f"{each.what}: "))
        assert f"{each.amperes:,.2f} A" in line
        assert (f"{each.brings:,.2f} A less" in line) if each.brings else " less" not in line
        assert each.needs in row[3]
        assert each.cite in row[3]


@pytest.mark.slow
def test_a_free_range_shows_its_edges() -> None:
    planned = [{"name": "charger", "kind": "charger", "settings": "6 A to 48 A"}]
    service = {"rating": "100 A", "conductors": {"size": "4 AWG", "material": "copper"}}
    found = assessed(house([load("furnace", "electric furnace", "33 kW")], planned=planned, **service))
    counted = found.decision.settings[0].counted
    assert counted == 26  # 220.83(A): (8,000 + 40 % of (9,000 + 33,000 + 240 x A - 8,000)) / 240 is under 100.5 up to 26 A
    (title, table), *_ = tables(found).items()
    assert title == "Settings of charger, every whole ampere; those at the edges are shown"
    shown = [float(row[0].split()[0]) for row in table.rows]
    assert shown == [6, counted - 2, counted - 1, counted, counted + 1, counted + 2, 48]
    assert dict(decision_rows(found))["One setting more"].startswith(f"{counted + 1:g} A does not fit; it would take service ")


def test_a_setting_that_fits_with_none_above_it() -> None:
    planned = [{"name": "charger", "kind": "charger", "settings": ["16 A", "24 A"]}]
    rows = dict(decision_rows(assessed(house([], planned=planned))))
    assert rows["Setting of charger"].startswith("24 A; breaker 30 A")
    assert "One setting more" not in rows


def test_none_fits_and_nothing_to_compare_are_told_apart() -> None:
    planned = [{"name": "charger", "kind": "charger", "settings": ["40 A", "48 A"]}]
    small = {"rating": "60 A", "conductors": {"size": "6 AWG", "material": "copper"}}
    heating = [load("furnace", "electric furnace", "15 kW")]
    assert dict(decision_rows(assessed(house(heating, planned=planned, **small))))["Setting of charger"].startswith(
        "none fits; counted at 48 A"
    )
    tree = house(heating, planned=planned)
    tree["work"] = "new"
    for key in ("rating", "conductors"):
        del tree["service"][key]
    assert dict(decision_rows(assessed(tree)))["Setting of charger"].startswith("counted at the largest, 48 A")


@pytest.mark.slow
def test_the_order_of_installation_is_worded() -> None:
    planned = [load("charger", "charger", "setting 40 A"), load("heat pump", "heat pump", "16 A at 240 V", replaces="furnace")]
    service = {"rating": "100 A", "conductors": {"size": "4 AWG", "material": "copper"}}
    blocks = decision_blocks(assessed(house([load("furnace", "electric furnace", "32 kW")], planned=planned, **service)))
    assert [block.text for block in blocks if isinstance(block, Paragraph)] == [
        "Fits at every step in this order: heat pump, charger."
    ]
    tree = demo(
        "duplex"
    )  # 220.85: with range and charger 193.6 A, with the range 177.2 A, with the charger 188.3 A at either setting
    tree["service"]["rating"] = "190 A"
    load_named(tree, "charger B")["settings"] = ["24 A", "32 A"]
    found = assessed(tree)
    duplex = decision_blocks(found)
    assert [block.text for block in duplex if isinstance(block, Paragraph)] == [
        "220.40: standard calculation; 220.82(A): optional calculation for one dwelling unit.",
        "What limits: Service, by the rating of the main overcurrent device.",
        "Not all that is planned fits together. What does, each line by itself, with the largest settings that then fit:",
        "Where a load that fits is a fraction of an ampere over the capacity, that is under one half and is dropped.",
    ]
    assert [block.items for block in duplex if isinstance(block, Listing)] == [["range B", "charger B set to 32 A"]]
    shown = [block.title for block in duplex if isinstance(block, Table)]
    assert "Installed one after the other, each at its smallest setting" in shown
    assert dict(decision_rows(found))["Setting of charger B"].startswith(
        "none fits with all that is planned, counted at 32 A; without the rest of it 32 A; breaker 40 A"
    )


def test_an_order_that_works_beside_others_that_do_not() -> None:
    planned = [load("heat pump", "heat pump", "16 A at 240 V", replaces="furnace"), load("charger", "charger", "setting 40 A")]
    service = {"rating": "100 A", "conductors": {"size": "4 AWG", "material": "copper"}}
    blocks = decision_blocks(assessed(house([load("furnace", "electric furnace", "32 kW")], planned=planned, **service)))
    assert [block.text for block in blocks if isinstance(block, Paragraph)] == [
        "In this order it fits at every step; in another order it may not."
    ]


@pytest.mark.slow
def test_one_method_is_said_to_suffice_only_where_another_one_does_not_fit() -> None:
    """By the optional calculation the charger fits, by the standard one it does not; of the large house the service suffices by both."""
    told = {
        name: ONE_SUFFICES in [each.text for each in decision_blocks(assessed(demo(name))) if isinstance(each, Paragraph)]
        for name in ("existing_house_with_sauna", "large_house_two_mains")
    }
    assert told == {"existing_house_with_sauna": True, "large_house_two_mains": False}
