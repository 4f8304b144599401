"""Submittals as contractors type them, in words of the trade and in short: what is planted is told, and nothing that is not so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from test_review_transcribed import Changes, reviewed, titles

from dwellcalc.report.letter import letter
from dwellcalc.report.tables import as_text
from dwellcalc.review.document import Review
from dwellcalc.review.finding import QUESTION, REMARK


def looked(name: str, changes: Changes = ()) -> Review:
    return reviewed(name, changes, seconds=20.0)


def printed(found: Review) -> str:
    return " ".join(as_text(letter(found), None).split())


@pytest.mark.parametrize(
    ("name", "load", "planted", "beside"),
    [
        # 45,376 VA: 10,000 + 14,150.4; with 4,704 + 744 + 65 % of 7,500 VA: 34,473.4 VA
        ("optional_in_short", 34473.4, ["Aux 7.5 kW @ 40%", "RNG 12.2 kW"], [REMARK]),
        # 37,576 VA: 8,000 + 11,830.4; with 4,416 + 768 VA: 25,014.4 VA
        (
            "narrative",
            25014.4,
            [
                "Heating or cooling that is added is left among the loads of which a share is taken",
                "10 kVA are taken in full, not 8 kVA",
                "The supply of 100 A for the corrected load",
            ],
            [REMARK, QUESTION],
        ),
        # 6,528 + 6,860 + 5,500 + 8,800 + 9,240 + 11,520 + 1,600 VA; the microwave oven by a reading
        (
            "numbered_worksheet",
            50048.0,
            [
                "Row 15. Baseboard heat 6 @ 1.5 kW = 9,000 @ 65%",
                "The supply of 200 A for the corrected load",
                "Row 13. Appliances 13,960 @ 75%, 19. TOTAL",
            ],
            [],
        ),
        # 50,756 VA: 10,000 + 16,302.4; with 5,880 + 65 % of 9,600 VA
        (
            "kestrel_court",
            38422.4,
            [
                "What is over the first tier is taken at the share of the lighting load demand factors",
                "Row 2  Small appl. circuits, 1 @ 1500",
            ],
            [QUESTION, QUESTION],
        ),
        # 35,034 VA: 8,000 + 10,813.6; with 3,840 + 540 VA
        (
            "hot_tub_and_cooling",
            23193.6,
            [
                "Heating or cooling that is added is left among the loads of which a share is taken",
                "No load stands for the laundry circuit",
            ],
            [QUESTION, QUESTION],
        ),
        # 125 % of 40 A, and 48 A
        ("metered_maximum", 23520.0, ["The metered maximum is taken as it is", "Breaker of EVSE"], [QUESTION]),
        # 43,083 VA: three appliances in full; the area of both parts of the house is one
        ("addition_standard", 43083.0, ["Row 3 appliances x 75%"], [REMARK]),
        # 45,252 VA: 10,000 + 14,100.8; with 65 % of 15 kW: 33,850.8 VA
        (
            "lettered_sheet",
            33850.8,
            ["What is over the first tier is taken at the share of the lighting load demand factors", "Breaker of FURNACE"],
            [QUESTION],
        ),
    ],
)
def test_what_is_planted_is_told_first_and_little_beside_it(
    name: str, load: float, planted: list[str], beside: list[str]
) -> None:
    found = looked(name)
    assert found.answer.total == pytest.approx(load)
    assert not found.left_aside
    assert titles(found)[: len(planted)] == planted
    assert [each.severity for each in found.findings[len(planted) :]] == beside


def test_of_two_mistakes_the_one_that_is_told_is_not_doubted_with_the_other() -> None:
    first, tier, *_ = looked("narrative").findings
    assert [each.label for each in first.figures] == ["These total"]
    assert [each.label for each in tier.figures] == ["Calculated load"]
    assert not tier.causes
    assert "as is told of another figure" in tier.text
    assert not first.equal  # by the order of two permits the same would result: that is no way out


def test_a_right_sheet_in_short_is_read_without_doubt() -> None:
    """43,460 VA: 8,000 + 14,184; with 5,808 + 1,008 + 10,000 VA 39,000 VA, 162.5 A."""
    found = looked("heat_pump_in_short")
    assert all(each.outcome == "agrees" for each in found.claims)
    assert (found.answer.total, found.verdict) == (pytest.approx(39000.0), "does not fit")
    assert not found.left_aside
    assert not [each for each in found.findings if each.severity == "error"]
    assert not [each for each in titles(found) if "blower" in each or "removed" in each.casefold()]
    assert "24 breaker spaces are taken before the work, 3 are freed by what is removed and 6 are taken" in found.checked[1]
    told = printed(found)
    assert "Aux 10 kW (supplemental electric heat of a heat pump)" in told
    assert "No nameplate rating is given" not in told  # what is there already is not asked for
    assert "2023" not in told
    assert {each.breaker: each.least for each in found.breakers if each.label == "HP"} == {"35 A": "25 A"}


@pytest.mark.parametrize(
    "label",
    [
        "Heat pump 24.2 MCA @ 240",
        "Heat pump MCA 24.2 @ 240",
        "Heat pump 24.2A/240",
        "HP MCA/MOCP 24.2/35",
        "HP 24.2 MCA 35 MOCP",
        "HP #2 MCA 24.2",
        "Heat Pump 24.2 MCA 240/1",
        "Heat pump, minimum circuit ampacity of 24.2 amps",
        "Heat pump (24.2)",
        "Heat pump",
    ],
)
def test_a_heat_pump_is_a_load_however_its_current_is_written(label: str) -> None:
    found = looked("heat_pump_in_short", (("HP 24.2 MCA @ 240", label),))
    assert found.answer.total == pytest.approx(39000.0)
    assert not [each for each in found.findings if each.severity == "error"]


@pytest.mark.slow
def test_with_a_row_that_is_not_known_nothing_is_said_for_certain() -> None:
    changes: Changes = (
        ("Aux 10 kW", "Zorb 10 kW"),
        ('"220.83"', '"220.83(B)"'),
        ("HP 24.2", "Zeeb 24.2"),
        ("AHU 4.2", "Zib 4.2"),
    )
    found = looked("heat_pump_in_short", changes)
    assert len(found.left_aside) > 1
    assert {each.severity for each in found.findings} <= {QUESTION}
    assert not [each for each in found.findings if each.causes]  # no pair of mistakes for what was left aside
    (part,) = [each for each in found.findings if each.about == "method"]
    assert "Left aside is" in part.text
    assert "Here none is added" not in printed(found)


def test_a_rating_that_is_the_size_of_its_breaker_is_asked_about_and_the_breaker_not_corrected() -> None:
    found = looked("hot_tub_by_breaker")
    assert titles(found) == ["A rating that may be that of a breaker", "No water heater is named"]
    assert "its circuit needs 70 A or more" in found.findings[0].text
    shown = looked("hot_tub_by_breaker", (("panel_schedule:", "evidence: {nameplates: photographs}\npanel_schedule:"),))
    assert titles(shown) == ["Breaker of Hot tub", "No water heater is named"]
    gas = looked("hot_tub_by_breaker", (("panel_schedule:", "notes: Gas WH.\npanel_schedule:"),))
    assert "No water heater is named" not in titles(gas)


@pytest.mark.slow
def test_rows_that_repeat_what_stands_above_are_no_loads() -> None:
    found = looked("panel_upgrade")
    assert not found.left_aside
    lines = {each.label: each.line for each in found.claims}
    assert lines["/240 V"] == "existing_dwelling.amperes"
    assert "A/C at 100%" not in lines
    assert titles(found)[0] == "Laundry circuit"
    assert not [each for each in titles(found) if "WH" in each or "REF" in each or "laundry branch" in each]


@pytest.mark.slow
def test_a_maximum_demand_is_that_of_its_key_or_of_its_row() -> None:
    for changes, load in (
        ((), 23520.0),
        ((("9.6 kW", "40 A"),), 23520.0),
        ((("(15 min), 9.6 kW", "(15 min)"),), 23520.0),
        ((("(15 min), 9.6 kW", "(15 min) x 125%"), ("9,600 VA", "12,000 VA")), 23520.0),
        ((("fits: yes", "fits: yes\ngiven: {maximum demand: 30 A}"),), 20520.0),
    ):
        assert looked("metered_maximum", changes).answer.total == pytest.approx(load)
    for figure in ("11,520", "48", "48 A"):  # without a unit it is the load, or the same in amperes
        plain = looked("metered_maximum", (('claimed: "11,520 VA"', f'claimed: "{figure}"'),))
        assert titles(plain) == titles(looked("metered_maximum"))
    shown = looked("metered_maximum", (("fits: yes", "fits: yes\nevidence: {maximum_demand: utility letter}"),))
    assert "The record of the metered demand is not shown" not in titles(shown)


@pytest.mark.parametrize(
    ("label", "area"),
    [
        ("House 1,840 sf + addition 360 sf = 2,200 sf @ 3", "2,200 ft2"),
        ("House 1,840 sf + addition 360 sf @ 3", "2,200 ft2"),
        ("General lighting 2,200 sf", "2,200 ft2"),
    ],
)
def test_areas_in_one_label_are_added_up(label: str, area: str) -> None:
    found = looked("addition_standard", (("Existing house 1,840 sf + addition 360 sf = 2,200 sf @ 3", label),))
    assert area in next(each.working for each in found.calculation)


@pytest.mark.slow
def test_notes_say_which_spaces_are_used_and_that_all_is_shown() -> None:
    def spaces(note: str) -> Sequence[str]:
        found = looked("narrative", (("The panel has 30 spaces, 22 used.", note), ("spaces: 30\n", "")))
        return [each for each in found.checked if each.startswith("Breaker spaces")]

    for note in ("Panel: 30 space, 24 used.", "24 of 30 spaces used", "30-space panel, 24 circuits in use"):
        (told,) = spaces(note)
        assert "24 breaker spaces are taken" in told
        assert "of 30" in told
    assert not spaces("2 spaces freed")
    part = looked("optional_in_short", (("attached for all equipment", "attached for the range"),))
    assert [each for each in titles(part) if each.startswith("Ratings not given")]


def test_a_sheet_with_headings_and_words_in_its_cells_is_read_as_it_stands() -> None:
    """51,486 VA: 10,000 + 16,594.4; with 5,040 + 6,500 VA 38,134.4 VA, 158.89 A; the range at nameplate, 65 % of the strips."""
    found = looked("optional_with_headings")
    assert (found.answer.total, found.answer.minimum_rating) == (pytest.approx(38134.4), 175.0)
    assert titles(found)[:3] == ["Aux 10 kW @ 40%", "Range", "The supply of 150 A for the corrected load"]
    assert (
        "the rating of 150 A is less. The least rating that suffices is 175 A, with supply conductors" in found.findings[2].text
    )
    remark = next(each for each in found.findings if each.severity == REMARK)
    assert remark.answered_by.startswith("`interpretations: {voltage of amperes: nameplate}`")
    assert "The submittal does not say where these ratings were read: Disp" in printed(found)  # of the range the cell says it
    read_so = looked(
        "optional_with_headings", (("work: new\n", "work: new\ninterpretations: {voltage of amperes: nameplate}\n"),)
    )
    assert not [each for each in read_so.findings if each.severity == REMARK]


def test_a_supply_that_suffices_when_a_comment_is_struck_has_none_on_its_rating() -> None:
    strike = "struck: [{comment: Aux 10 kW, reason: separate heaters}, {comment: Range, reason: seen}]\nwork: new\n"
    found = looked("optional_with_headings", (("work: new\n", strike),))
    assert not [each for each in titles(found) if each.startswith("The supply of")]


def test_the_blower_of_a_gas_furnace_runs_with_no_ductless_cooling() -> None:
    """31,630 VA: 8,000 + 9,452; with 4,320 VA 21,772 VA; 600 VA more of the blower are 240 VA."""
    found = looked("ductless_cooling")
    assert found.answer.total == pytest.approx(21772.0)
    assert sorted(titles(found)[:2]) == ["10 kVA are taken in full, not 8 kVA", "Small appl. 1 ckt x 1500"]
    assert "Every 600 VA of it would add 240 VA (1.00 A) to the load." in printed(found)
    ducted = looked("ductless_cooling", (("(N) Ductless AC", "(N) AC"), ("ductless A/C", "A/C")))
    assert "Every 600 VA of it would add 600 VA (2.50 A) to the load." in printed(ducted)
    assert {each.label: each.breaker for each in found.breakers}["EVSE"] == "40 A"
    assert "they have 85 A" in found.checked[0]


def test_a_first_step_of_another_size_is_told_though_the_total_is_right_by_chance() -> None:
    """600 VA of a blower at 100 % and 1,500 VA at 40 % make up for 2,000 VA at 60 %."""
    row = "  - {label: SUM,"
    found = looked("ductless_cooling", ((row, f"  - {{label: Gas furnace blower, nameplate: 600 VA}}\n{row}"),))
    (step,) = [each for each in found.findings if each.id.startswith("step of ")]
    assert "takes 10,000 VA in its first step; by the section it is 8,000 VA" in step.text
    assert not [each for each in looked("ductless_cooling").findings if each.id.startswith("step of ")]


def test_a_share_of_a_sum_is_at_its_line_though_the_section_takes_none() -> None:
    """5,887.5 + 8,000 + 5,000 + 6,564 + 12,000 + 9,600 + 216 VA; three appliances in full, heating in full."""
    found = looked("three_appliances")
    assert found.answer.total == pytest.approx(47267.5)
    assert [(each.printed_title, each.section) for each in found.findings if each.severity == "error"] == [
        ("Heating Elec. furnace 12 kW @ 65%", "220.51"),
        ("total 6,564 @ 75%", "220.53"),
    ]
    assert not found.left_aside
    assert not [each for each in titles(found) if "is cited" in each]  # T. 220.55 is Table 220.55


def test_a_right_sheet_with_steps_in_one_row_and_words_in_brackets_has_no_error() -> None:
    """55,640 VA: 10,000 + 18,256; with 3,600 + 2,880 VA 34,736 VA, 144.73 A; the dryer is no heat pump."""
    found = looked("right_sheet")
    assert found.answer.total == pytest.approx(34736.0)
    assert not found.left_aside
    assert not [each for each in found.findings if each.severity == "error"]


def test_a_scope_that_means_the_whole_dwelling_is_not_asked_about() -> None:
    """A word that is neither of the dwelling nor of a load is asked about."""
    for scope, asked in ("new house", False), ("new turret", True):
        found = looked("optional_in_short", (("rows:", f"scope: [{scope}]\nrows:"),))
        assert any(f"Scope not identified: {scope}" in each for each in titles(found)) is asked, scope


def test_of_two_mistakes_behind_a_sum_one_that_is_put_right_first_leaves_the_other() -> None:
    """By hand: without the 3,840 + 540 VA in the general loads 8,000 + 10,213.6 + 4,380 VA; the laundry circuit adds 600 VA."""
    steps = looked("hot_tub_and_cooling").put_right
    assert steps is not None
    assert [round(each.total, 1) for each in steps.steps] == [19966.0, 22593.6, 23193.6]


def test_a_share_is_no_number_of_loads_and_a_current_that_a_label_works_out_is_its_rating() -> None:
    strips = next(each for each in looked("kestrel_court").calculation if "Aux strip" in each.label)
    assert strips.working == "65 % \u00d7 9,600 VA"
    cooling = next(each for each in looked("hot_tub_and_cooling").calculation if "MCA 18" in each.label)
    assert cooling.working == "16 A \u00d7 240 V"


@pytest.mark.parametrize("label", ["Heat/AC", "Furnace/AC"])
def test_a_row_that_adds_up_the_loads_above_it_is_no_load(label: str) -> None:
    """By hand, 220.83(B) of 2020: 42,706 VA of other loads, 8,000 + 13,882.4; with 4,200 + 7,500 VA of heating 33,582.4 VA."""
    found = looked("group_of_heating", (("label: Heat/AC", f"label: {label}"),))
    assert found.answer.total == pytest.approx(33582.4)
    assert not found.left_aside
    assert titles(found)[:2] == ["Heat kit 7.5 kW x 65% (new)", "Range 12 kW   per T220.55, Col C"]
    compressor = next(each for each in found.calculation if "RLA 17.5" in each.label)
    assert compressor.working == "17.5 A \u00d7 240 V"


@pytest.mark.slow
def test_a_way_out_that_leaves_no_room_for_what_is_asked_for_is_not_said_to_suffice() -> None:
    """By hand: 139.93 A less 17.5 A of the compressor is 122.43 A of 125 A; a blower of 750 VA takes 3.13 A more."""
    found = looked("group_of_heating")
    assert found.on_top is not None
    assert (found.on_top.kind, found.on_top.volt_amperes) == ("blower", 750)
    apart = next(each for each in found.alternatives if "off while its supplemental heat is on" in each.what)
    assert found.on_top.room(apart) == pytest.approx(125 - 122.43, abs=0.01)
    text = printed(found)
    assert "it suffices then only where the blower that we ask for takes no more than 2.57 A" in text
    assert "with a blower of up to 750 VA too, which comment" in text
    larger = [each for each in found.alternatives if each.title == "A larger supply"]
    assert larger and all(f"of at least {each.capacity:,.0f} A" in each.what for each in larger)
    way = replace(apart, what="Service of at least 150 A", amperes=149.0, capacity=150.0)
    assert found.on_top.room(way) == pytest.approx(1.0)  # less than the blower may take
    assert found.on_top.room(replace(way, amperes=140.0)) is None
    without = looked("group_of_heating", (("fits: yes", "fits: yes\nstruck: [{comment: No air handler, reason: seen}]"),))
    assert without.on_top is None
    assert "and it suffices then. Please" in printed(without)
    fewer = looked(
        "group_of_heating", (("fits: yes", "fits: yes\nstruck: [{comment: A smaller appliance, reason: not wanted}]"),)
    )
    assert "of not over 4,000 W" in text and "of not over 4,000 W" not in printed(fewer)
    assert any("A smaller appliance (not wanted)" in each for each in fewer.checked)
    struck = looked(
        "group_of_heating", (("fits: yes", "fits: yes\nstruck: [{comment: A heat pump kept, reason: there is none}]"),)
    )
    assert "off while its supplemental heat is on" not in printed(struck)


def test_what_a_sheet_says_of_a_setting_a_compressor_and_its_breakers() -> None:
    changes = (
        ("label: EVSE 32 A x 240 (new)", "label: EVSE (set 32 A) 32 A x 240 (new)"),
        ("fits: yes", "fits: 122.3 A < 125 A OK\npanel_schedule: [{label: HP condenser, poles: 2P, note: new}]"),
    )
    found = looked("group_of_heating", changes)
    text = printed(found)
    assert "Charging equipment counted at a setting - 625.42" in text
    assert "beside the compressor of HP condenser RLA 17.5 (new)" in text
    assert "The panel schedule gives no breaker for HP condenser." in text
    assert "No nameplate rating is given" not in text


@pytest.mark.parametrize(
    ("said", "suffices"),
    [
        ("200A svc OK", True),
        ("OK, no upgrade needed", True),
        ("122.3 A does not exceed 125 A, OK", True),
        ("won't suffice", False),
        ("not adequate", False),
        ("the service is insufficient", False),
    ],
)
def test_that_it_fits_in_words(said: str, suffices: bool) -> None:
    (mine,) = [
        each for each in looked("group_of_heating", (("fits: yes", f"fits: {said}"),)).claims if each.label == "Said to fit"
    ]
    assert (mine.submitted, mine.computed) == (said, "no")
    assert (mine.outcome == "agrees") is not suffices


def test_a_water_heater_of_the_schedule_is_that_of_the_table_and_a_garage_is_told() -> None:
    """By hand, 220.82 of 2023 with the garage in the area: 50,927 + 400 + 69 VA; 10,000 + 16,558.4 + 5,712 + 6,500 + 984."""
    found = looked("garage_in_area")
    assert found.answer.total == pytest.approx(39754.4)
    assert found.verdict == "fits"
    assert titles(found)[:2] == ["Row 8. Dryer 5.4 kW", "Row 6. Disp. 3/4 hp 115 V, 13.8 A"]
    assert "the dryer is counted at the least rating of the standard calculation" in found.findings[0].text
    assert not [each for each in titles(found) if "WH" in each]
    assert any("An attached garage counts in the floor area by this edition" in each for each in found.checked)
    earlier = looked("garage_in_area", (("nec/2023", "nec/2020"),))
    assert any("does not count in the floor area" in each for each in earlier.checked)
    assert (
        "Row 8."
        in titles(
            looked(
                "garage_in_area",
                (("fits: yes", "fits: yes\nreword: [{comment: Row 8, text: See page 2., title: Row 8. Dryer}]"),),
            )
        )[0]
    )
