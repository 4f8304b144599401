"""Submittals as people write them, transcribed word for word: the right ones, and the same with two mistakes in each."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from dwellcalc.problems import InputError
from dwellcalc.reading import read_text
from dwellcalc.report.letter import letter
from dwellcalc.report.tables import as_text
from dwellcalc.review.document import Review
from dwellcalc.review.finding import QUESTION, Finding
from dwellcalc.review.review import review
from dwellcalc.review.submittal_reader import submittal_of

DAY = "2026-05-04"
HERE = Path(__file__).parent / "transcribed"
FIGURES = ("mistake", "reading", "figure", "sum")
Changes = tuple[tuple[str, str], ...]

PLANTED: dict[str, tuple[Changes, dict[str, str]]] = {
    "existing_house": (  # the air conditioner left out, and the first tier of another section
        (
            ('V", claimed: 4680', 'V", claimed: 0'),
            ("claimed: 43870", "claimed: 39190"),
            ("First 8 kVA @ 100%, claimed: 8000", "First 10 kVA @ 100%, claimed: 10000"),
            ('35,870 @ 40%", claimed: 14348', '29,190 @ 40%", claimed: 11676'),
            ("total: 22348", "total: 21676"),
            ("93.1", "90.3"),
        ),
        {"Central A/C": "4,680 VA", "Total": "22,348 VA"},
    ),
    "new_house_standard": (  # a dryer below the least, and strips left out beside a larger heat pump
        (
            ("Dryer 5.0 kW, claimed: 5000", "Dryer 4.2 kW, claimed: 4200"),
            ("Aux strip heat 5 kW, claimed: 5000", '"Aux strip heat 5 kW, heat pump larger", claimed: 0'),
            ("46031", "40231"),
            ("191.8", "167.6"),
            ("minimum_rating: 200", "minimum_rating: 175"),
        ),
        {"Dryer": "5,000 VA", "Aux strip heat": "5,000 VA"},
    ),
    "new_house_optional": (  # a slip of addition, and cooling at the share of the general loads
        (
            ("53374", "52374"),
            ('43,374 @ 40%", claimed: 17350', '42,374 @ 40%", claimed: 16950'),
            ('#1  15.2 A 240 V", claimed: 3648', '#1  15.2 A 240 V @ 40%", claimed: 1459'),
            ('#2  15.2 A 240 V", claimed: 3648', '#2  15.2 A 240 V @ 40%", claimed: 1459'),
            ("35966", "31188"),
            ("149.9", "130"),
        ),
        {"Subtotal": "53,374 VA", "A/C #1": "3,648 VA", "A/C #2": "3,648 VA"},
    ),
}


@cache
def reviewed(name: str, changes: Changes = (), seconds: float = 0.0) -> Review:
    text = (HERE / f"{name}.yaml").read_text(encoding="utf-8")
    for was, now in changes:
        assert was in text
        text = text.replace(was, now)
    return review(submittal_of(read_text(text, "made.yaml"), HERE, date=DAY), date=DAY, seconds=seconds)


def on_figures(found: Review) -> list[Finding]:
    return [each for each in found.findings if each.about in FIGURES]


@pytest.mark.parametrize("name", PLANTED)
def test_a_right_submittal_gets_no_comment_on_a_figure(name: str) -> None:
    found = reviewed(name)
    assert found.answer.verdict == "fits"
    assert all(each.outcome == "agrees" for each in found.claims)
    assert not found.left_aside
    assert all(each.severity == QUESTION and each.about == "evidence" for each in found.findings)


@pytest.mark.parametrize("name", PLANTED)
def test_two_planted_mistakes_are_found_and_nothing_else_is_said(name: str) -> None:
    changes, wrong = PLANTED[name]
    figures = {each.label: each.computed for finding in on_figures(reviewed(name, changes)) for each in finding.figures}
    assert len(figures) == len(wrong)
    assert all(
        any(label.startswith(begin) and right == value for label, value in figures.items()) for begin, right in wrong.items()
    )


@pytest.mark.slow
@pytest.mark.parametrize(
    ("evidence", "notes", "not_given", "not_shown"),
    [
        ("photographs 3 to 9", [], "", ""),
        ("photographs 3 to 9 and the manual of the wall oven", [], "", ""),
        ("Cut sheets (all equipment)", [], "", ""),
        ("cut sheets attached (oven, cooktop, dryer, WH, EV, A/C #1, A/C #2)", [], "DW, Disposer", "Micro-hood"),
        ("", ["Cut sheets: wall oven, cooktop, dryer, water heater, EVSE, pool pump, A/C #1."], "DW, Disposer", "Micro-hood"),
        ("", ["No cut sheets attached: wall oven."], "DW, Disposer", "Wall oven"),
        ("range 12 kW per cut sheet, disposer 7.2 A", [], "DW", "Wall oven"),
    ],
)
def test_evidence_is_that_of_the_loads_that_it_names(evidence: str, notes: list[str], not_given: str, not_shown: str) -> None:
    changes: Changes = (("DW 1,300 W", "DW"), ("Disposer 7.2 A 120 V", "Disposer"))
    told = f"notes: {notes}\n" + (f'evidence: {{nameplates: "{evidence}"}}\n' if evidence else "")
    found = {
        each.title: each.text for each in reviewed("new_house_optional", (*changes, ("fits: yes", f"fits: yes\n{told}"))).findings
    }
    title = "Ratings not given, or not shown" if not_given and not_shown else "Ratings not given" if not_given else ""
    told = found.pop(title or "Nameplates not shown", "")
    asked, _, shown = told.partition("The submittal does not say where")
    assert bool(asked) is bool(not_given)
    assert all(each in asked for each in not_given.split(", "))
    assert bool(shown) is bool(not_shown)
    assert not_shown in shown
    assert ("Wall oven" in shown) is (not_shown == "Wall oven")
    assert not found


@pytest.mark.slow
def test_a_laundry_that_is_missing_is_not_asked_for_as_well() -> None:
    """1,500 VA less: 600 VA less after 40 %."""
    changes: Changes = (
        ("  - {label: Laundry circuit, claimed: 1500}\n", ""),
        ("53374", "51874"),
        ("43,374 @ 40%", "41,874 @ 40%"),
        ("claimed: 17350", "claimed: 16750"),
        ("35966", "35366"),
        ("149.9", "147.4"),
    )
    found = reviewed("new_house_optional", changes, seconds=20.0)
    (one,) = on_figures(found)
    assert "no load stands for the laundry circuit" in one.text
    assert not [each for each in found.findings if each.title.startswith("Number not stated")]
    assert [each.title for each in reviewed("new_house_optional", changes[:1]).findings if "laundry" in each.title]


@pytest.mark.slow
def test_a_total_printed_coarsely_is_explained_by_no_pair() -> None:
    """Some pair gives nearly every total that is printed to hundreds: 5 of 7 that were wrong at random."""
    text = (HERE / "existing_house.yaml").read_text(encoding="utf-8")
    rows = [line.rpartition(", claimed")[0] + "}" if ", claimed" in line else line for line in text.splitlines()]
    left_out = ("label: Total", "label: First", 'label: "Remaining', "total:", "amperes:", "fits:")
    kept = [line for line in rows if not any(each in line for each in left_out)]
    for wrong in ("18.9 kVA", "27.2 kVA"):
        made = "\n".join([*kept, f"total: {wrong}"])
        found = review(submittal_of(read_text(made, "made.yaml"), HERE, date=DAY), date=DAY, seconds=20.0)
        assert not [each for each in found.findings if each.causes]


# A heat pump with strips calculated by the part of the section for other loads, an addition, a sheet with its words in short


def titles(found: Review) -> list[str]:
    return [each.printed_title for each in found.findings]


@pytest.mark.slow
def test_the_wrong_part_of_a_section_is_one_correction() -> None:
    """49,104 VA in one pool, 24,442 VA; the three loads of the heat pump, 13,520 VA, at 100 %: 8,112 VA more."""
    found = reviewed("heat_pump_added", seconds=20.0)
    one, of_range, *others = found.findings
    assert one.printed_title == "By 220.83(A), which does not apply here"
    assert (one.severity, one.section, one.equal) == ("error", "220.83(B)", [])
    assert [each.label for each in one.figures] == ["TOTAL", "LOAD"]
    assert '"Heat pump MCA 19.6 A, MOCP 30, 240 V", "Aux. heat 8 kW strips", "Air handler fan 3.4 A 240 V"' in one.text
    assert one.effect_load == pytest.approx(8112)
    assert (one.verdict_before, one.verdict_after) == ("fits", "does not fit")
    assert "read another way" not in one.text
    assert of_range.printed_title == "Range 10.8 kW"
    assert [each.about for each in others] == ["rating", "evidence", "evidence", "kept apart"]
    printed = as_text(letter(found), None)
    assert "How the code is read" not in printed
    assert "reading of the code" not in printed
    assert found.readings == []  # one submittal is one permit
    assert found.put_right is not None
    assert found.put_right.steps[-1].total == pytest.approx(33673.6)


def test_without_the_name_of_the_part_the_mistake_is_told_and_no_reading_with_other_figures() -> None:
    found = reviewed("heat_pump_added", (('"220.83(A)"', '"220.83"'),), seconds=20.0)
    one = found.findings[0]
    assert one.about == "mistake"
    assert one.equal == []
    assert one.printed_title.startswith("Heating or cooling that is added is left among the loads")


@pytest.mark.slow
def test_spaces_are_counted_with_what_is_freed() -> None:
    """24 taken, 3 freed, 6 new: 27 of 30; nothing is asked about the removed furnace, whose breaker is freed."""
    told = "24 breaker spaces are taken before the work, 3 are freed by what is removed and 6 are taken by new circuits"
    assert f"Breaker spaces: {told}: 27 of 30" in reviewed("heat_pump_added").checked
    note = '  - "Panel: 30 space, 24 used before work; A/C 30/2 and furnace 15/1 freed."\n'
    key: Changes = ((note, ""), ("scope:", "freed: [A/C 30/2, furnace 15/1]\nscope:"))
    removed = (
        '  - {label: EV, breaker: 50 A, poles: 2}\n  - {label: "A/C 30/2 (removed)"}\n  - {label: Furnace 15/1, note: removed}'
    )
    schedule: Changes = ((note, ""), ("  - {label: EV, breaker: 50 A, poles: 2}", removed))
    for changes in (key, schedule):
        found = reviewed("heat_pump_added", changes)
        assert f"Breaker spaces: {told}: 27 of 30" in found.checked
        assert not [each for each in titles(found) if "removed" in each]
    full = reviewed("heat_pump_added", (("taken: 24", "taken: 28"),))
    (one,) = [each for each in full.findings if each.about == "spaces"]
    assert one.severity == "error"
    assert "3 are freed by what is removed and 6 are taken by new circuits: 31 of 30" in one.text
    asked = reviewed("heat_pump_added", ((note, ""),))
    assert "A load said to be removed" in titles(asked)
    (one,) = [each for each in asked.findings if each.about == "spaces"]
    assert (one.severity, one.send) == (QUESTION, "the breakers that become free, with their poles")


@pytest.mark.slow
def test_circuits_of_several_loads_by_the_words_of_their_rows() -> None:
    found = reviewed("heat_pump_added")
    aux = next(each for each in found.breakers if each.label == "Aux+AH")
    assert aux.load == "Aux. heat 8 kW strips, Air handler fan 3.4 A 240 V"
    fan = 'claimed: 816 VA, status: planned, facts: {on the circuit of: "Aux. heat 8 kW strips"}'
    on_another = reviewed("heat_pump_added", (("claimed: 816 VA, status: planned", fan),))
    assert next(each.minimum for each in on_another.breakers if each.label == "Aux+AH") == aux.minimum
    alone: Changes = (("claimed: 816 VA, status: planned", fan), ("label: Aux+AH", "label: Aux. heat"))
    assert not [each for each in titles(reviewed("heat_pump_added", alone)) if "without a circuit" in each]


def test_cells_are_read_as_labels_and_a_motor_at_the_voltage_of_its_kind() -> None:
    changes: Changes = (
        ('"Heat pump MCA 19.6 A, MOCP 30, 240 V"', 'Heat pump, nameplate: "MCA 19.6 A, MOCP 30, 240 V"'),
        ('"Disposal 1/3 hp"', "Disposal, nameplate: 1/3 hp"),
        ('"Water htr gas"', "Water htr, nameplate: gas"),
        ('"EV charger 40 A"', "EV charger, nameplate: 40 A"),
    )
    whole, cells = (reviewed("heat_pump_added", each) for each in ((), changes))
    assert cells.answer == whole.answer
    told = {each.label: each.title for each in cells.matched if each.what in ("rating", "marking")}
    assert told["Disposal"] == "1/3 hp at 120 V: the voltage is that of its kind, since none is given"
    assert told["Heat pump"] == "minimum circuit ampacity 19.6 A, maximum overcurrent device 30 A"
    assert not {"Ratings not given", "No rating and no figure: Water htr gas"} & set(titles(cells))


@pytest.mark.slow
def test_a_switch_setting_is_asked_about_and_its_section_cited_where_the_edition_has_it() -> None:
    (asked,) = [each for each in reviewed("heat_pump_added").findings if each.id == "evidence: settings"]
    assert asked.section == ""
    assert "The text of this edition does not speak of settings" in asked.text
    assert asked.answered_by == "`evidence: {settings: ...}`"
    later = reviewed("heat_pump_added", (("nec/2017", "nec/2023"),))
    (cited,) = [each for each in later.findings if each.id == "evidence: settings"]
    assert cited.section == "625.42(B)"


def test_a_control_that_would_turn_the_outcome_is_asked_for_unless_it_is_spoken_of() -> None:
    (one,) = [each for each in reviewed("heat_pump_added").findings if each.about == "kept apart"]
    assert "120.71 A, and it suffices then" in one.text
    denied = reviewed("heat_pump_added", (("notes:", 'notes:\n  - "No lockout of heat pump."'),))
    assert not [each for each in denied.findings if each.about == "kept apart"]


def test_the_reviewers_own_words_keep_figures_and_both_texts() -> None:
    own = "reword: [{comment: Range 10.8 kW, text: Count the range at its nameplate}]\nscope:"
    found = reviewed("heat_pump_added", (("scope:", own),), seconds=20.0)
    one = found.findings[1]
    assert (one.text, one.send) == ("Count the range at its nameplate.", "")
    assert "table of cooking appliances" in one.reworded_from
    printed = " ".join(as_text(letter(found), None).split())
    assert "Submitted 8,000 VA, computed 10,800 VA" in printed
    words, _, behind = printed.partition("Count the range at its nameplate. Submitted 8,000 VA, computed 10,800 VA")
    assert "8,000 VA, computed" not in words
    assert "On its own this correction adds 2,800 VA" in behind[:150]


def test_conductors_that_suffice_are_told_to_the_reviewer_alone() -> None:
    found = reviewed("heat_pump_added")
    assert "115 A" in found.checked[0]
    assert "the least for it is 103.75 A" in found.checked[0]
    assert "103.75 A" not in as_text(letter(found), None)


@pytest.mark.slow
def test_headings_of_a_table_say_what_is_new_and_parts_of_the_area_count_together() -> None:
    """Two planted: the range by column C, and the new heat pump among the loads of which a share is taken."""
    found = reviewed("addition", seconds=20.0)
    assert {each.label: each.computed for finding in on_figures(found) for each in finding.figures} == {
        "SUBTOTAL": "26,010 VA",
        "TOTAL DEMAND": "21,480 VA",
        "(E) Range/oven elec 9.6 kW": "9,600 VA",
    }
    assert not found.left_aside
    assert "Gen ltg/recept 1650sf, Gen ltg addition 420sf" in {each.label for each in found.claims}
    bare: Changes = (("(N) Mini-split", "Mini-split"), ("(N) Bath htr", "Bath htr"), ("(E) FAU", "FAU"))
    assert reviewed("addition", bare).answer.total == found.answer.total
    other: Changes = (*bare, ("{label: NEW LOADS}", "{label: Second sheet, heading: yes}"))
    assert reviewed("addition", other).answer.total != found.answer.total


def test_a_sheet_with_its_words_in_short() -> None:
    """Two planted: the range without the increase for 13 kW, and the air conditioner beside the larger heat."""
    found = reviewed("calculation_sheet")
    assert not found.left_aside
    assert [each.label for each in found.claims if each.outcome == "differs"] == [
        "Appl. total 8,820 x 75%",  # by a reading: the microwave oven
        "Elec. range 13 kW",
        "TOTAL",
    ]
    lines = {each.label: each.line for each in found.claims}
    assert lines["TOTAL"] == "standard.total"
    assert {each.label: each.computed for each in found.claims}["A/C 18.6A RLA + 1.2 fan"] == "4,752 VA"


# A furnace at the share of many heaters, with a row that takes the larger of heating and cooling

FURNACE = "furnace_at_many_heaters"
BREAKER = "15,000 VA \N{DIVISION SIGN} 240 V \N{MULTIPLICATION SIGN} 125 % = 78.13 A"


def test_a_page_with_the_larger_used_is_read_as_it_stands() -> None:
    found = reviewed(FURNACE, seconds=20.0)
    assert not found.left_aside
    assert titles(found) == [
        "Electric furnace 15 kW at 40%",
        "Breaker of Furnace",
        "No blower of the electric furnace is calculated",
        "Ratings not given, or not shown",
    ]
    heating, breaker, _, sheets = found.findings
    assert (heating.severity, heating.send) == ("error", "the calculation with the heating at its share")
    assert heating.effect_load == pytest.approx(3750)
    assert BREAKER in breaker.text
    assert "Dishwasher, Microwave (built-in)" in sheets.text
    assert "Garbage disposal 1/2 HP" in sheets.text
    assert "the maximum overcurrent device of A/C 3 ton MCA 19.8" in sheets.send
    lines = {each.label: (each.line, each.outcome) for each in found.claims}
    assert lines["(larger used)"] == ("optional_dwelling.heating_or_cooling", "follows from other figures")
    assert next(each.breaker for each in found.breakers if each.label == "Pool") == "20 A GFCI"
    assert "they have 180 A" in found.checked[0]


def test_the_letter_shows_the_smaller_of_heating_and_cooling_and_no_title_twice() -> None:
    found = reviewed(FURNACE, seconds=20.0)
    printed = as_text(letter(found), None)
    assert printed.startswith("Comments on LOAD CALC - 8 Harrow Gate")
    assert "what changes the outcome comes first" not in printed
    assert "(15.63 A)" in printed
    rows = {each.label: each for each in found.calculation}
    assert rows["A/C 3 ton MCA 19.8"].working.endswith("240 V; not counted, the smaller")
    assert rows["A/C 3 ton MCA 19.8"].computed == "4,752 VA"
    assert rows["Heating or cooling"].working == "the larger of 4,752 VA and 9,750 VA"


@pytest.mark.slow
@pytest.mark.parametrize(
    "label",
    ["Larger used", "larger load used", "use larger", "Heating/cooling, larger used", "Larger of the two, heating or A/C"],
)
def test_the_larger_is_a_line_and_no_load(label: str) -> None:
    found = reviewed(FURNACE, (("(larger used)", label),))
    assert {each.label: each.line for each in found.claims}[label] == "optional_dwelling.heating_or_cooling"
    assert not found.left_aside
    assert "A/C" not in {each.label for finding in on_figures(found) for each in finding.figures}


def test_the_larger_of_loads_that_are_no_heating_adds_nothing() -> None:
    changes: Changes = (
        ("claimed: 11520}\n", 'claimed: 11520}\n  - {label: "larger used", claimed: 11520}\n'),
        ('"Heating / cooling:"', "Heating / cooling"),
    )
    found = reviewed(FURNACE, changes)
    assert not found.left_aside
    assert found.answer == reviewed(FURNACE).answer
    assert not [each for each in titles(found) if each.startswith("No rating and no figure")]
    headed = reviewed(FURNACE, (('"Heating / cooling:"', '"HVAC (largest)"'),))
    assert not [each for each in titles(headed) if each.startswith("No rating and no figure")]
    asked = reviewed(FURNACE, (('"Heating / cooling:"', '"Hot tub:"'),))  # one kind of load is no heading
    assert "No rating and no figure: Hot tub:" in titles(asked)


def test_several_heaters_are_asked_how_they_are_controlled() -> None:
    changes: Changes = (('"Electric furnace 15 kW at 40%", claimed', '"Electric furnace 7.5 kW at 40%", quantity: 2, claimed'),)
    (one,) = [each for each in reviewed(FURNACE, changes, seconds=20.0).findings if each.about == "mistake"]
    assert one.send == "how the heating is controlled"


def test_figures_and_effect_stay_behind_the_reviewers_words_in_every_comment() -> None:
    own = (
        "reword:\n  - {comment: Electric furnace, text: One furnace counts at 65 %}\n"
        "  - {comment: Breaker of Furnace, text: Take a larger breaker}\nwork: new"
    )
    printed = " ".join(as_text(letter(reviewed(FURNACE, (("work: new", own),), seconds=20.0)), None).split())
    assert "One furnace counts at 65 %. Submitted 6,000 VA, computed 9,750 VA" in printed
    assert "Take a larger breaker. The schedule lists 70 A" in printed
    assert BREAKER in printed


@pytest.mark.parametrize("text", ["4/0 AWG AL SER cable", "#4/0 aluminum, SER", "4/0-4/0-2/0 Al SER"])
def test_conductors_in_one_text(text: str) -> None:
    assert reviewed(FURNACE, (("SER 4/0 AL", f'"{text}"'),)).checked == reviewed(FURNACE).checked


def test_a_blower_or_a_small_furnace_asks_for_no_blower() -> None:
    small: Changes = (("15 kW at 40%", "11 kW at 40%"),)  # 45.8 A
    blower: Changes = (('  - {label: "(larger', '  - {label: Furnace blower 4 A 120 V, claimed: 480}\n  - {label: "(larger'),)
    for changes in (small, blower):
        assert not [each for each in titles(reviewed(FURNACE, changes)) if each.startswith("No blower")]


def test_the_larger_beside_a_row_of_the_largest_motor_is_not_called_wrong() -> None:
    """By the standard calculation: 6,129 + 8,000 + 5,000 + 4,500 + 15,000 + 2,400 + 600 = 41,629 VA."""
    text = (HERE / f"{FURNACE}.yaml").read_text(encoding="utf-8").partition("rows:")[0].replace("220.82", "standard calculation")
    rows = [
        ("General lighting 2,480 sq ft x 3 VA", 7440),
        ("Small appliance ckts 2 @ 1500", 3000),
        ("Laundry ckt 1 @ 1500", 1500),
        ("Lighting demand", 6129),
        ("Range 11.6 kW", 8000),
        ("Clothes dryer 5 kW", 5000),
        ("Water heater (electric) 4,500 W", 4500),
        ("A/C 3 ton MCA 19.8", 4752),
        ("Electric furnace 15 kW", 15000),
        ("(larger used)", 15000),
        ("Pool pump 1-1/2 HP 230 V", 2400),
        ("Largest motor 25%", 600),
    ]
    told = "".join(f'  - {{label: "{label}", claimed: {claimed} VA}}\n' for label, claimed in rows)
    for larger, wrong in (("15000 VA", []), ("4752 VA", ["(larger used)"])):
        made = told.replace('used)", claimed: 15000 VA', f'used)", claimed: {larger}')
        node = read_text(f"{text}rows:\n{made}total: 41629 VA\n", "made.yaml")
        found = review(submittal_of(node, HERE, date=DAY), date=DAY, seconds=0.0)
        assert [each.label for each in found.claims if each.outcome == "differs"] == wrong


# Rows that name other rows, shares as fractions, a method and an outcome in words


@pytest.mark.parametrize(
    ("name", "comments", "computed"),
    [
        # 45,786 VA: 10,000 + 14,314.4; with 6,500 VA 30,814.4 VA
        ("worksheet_by_lines", {"Line 4: Range 11.2 kW": "11,200 VA", "Line 10: Sum of lines 1 thru 9": "45,786 VA"}, 30814.4),
        # 6,045 + 6,528 + 1,500 + 5,000 + 8,800 + 12,000 + 1,008 + 252 = 41,133 VA; the total by a reading: the microwave oven
        (
            "rows_by_letters",
            {"O) Range 13.5 kW, T 220.55": "8,800 VA", "N) Dryer 4.8 kW": "5,000 VA", "T) G+M+N+O+P+Q+S": "41,133 VA"},
            41133,
        ),
        # 29,860 VA: 8,000 + 8,744; with 3,960, 7,500 and 768 VA 28,972 VA
        ("heat_pump_in_kva", {"(e) dryer": "5,200 VA", "(n) strip heat 7.5 kW x 65%": "7,500 VA"}, 28972),
        # 59,180 VA: 10,000 + 19,672; with 5,040 and 4,200 VA 38,912 VA
        ("pasted_table", {"Heat pump 2 (MCA 17.5)": "4,200 VA", "Pool pump": "2,880 VA"}, 38912),
    ],
)
def test_rows_that_name_others_are_read(name: str, comments: dict[str, str], computed: float) -> None:
    found = reviewed(name, seconds=20.0)
    assert not found.left_aside
    assert {each.label: each.computed for finding in on_figures(found) for each in finding.figures} == comments
    assert found.answer.total == pytest.approx(computed)
    assert not [each for each in titles(found) if "not identified" in each]


@pytest.mark.parametrize(
    ("was", "now", "line"),
    [
        ("H+I+J+K", "Lines H - K", ""),
        ("G+M+N+O+P+Q+S", "Sum of G, M, N, O, P, Q, S", "standard.total"),
        ("T / 240", "T \N{DIVISION SIGN} 240 V", "standard.amperes"),
        ("A+B+C", "A thru C", ""),
    ],
)
def test_sums_of_rows_in_other_words(was: str, now: str, line: str) -> None:
    found = reviewed("rows_by_letters", ((f") {was}", f") {now}"),), seconds=20.0)
    assert not found.left_aside
    assert found.answer == reviewed("rows_by_letters", seconds=20.0).answer
    places = {each.label.partition(") ")[2]: each.line for each in found.claims}
    assert not line or places[now] == line


@pytest.mark.parametrize(
    ("said", "value"), [("yes, 61 % of 200 A", "agrees"), ("Yes (61 %)", "agrees"), ("NO - over 200 A", "differs")]
)
def test_an_outcome_with_what_is_said_of_it(said: str, value: str) -> None:
    found = reviewed("worksheet_by_lines", (('"yes, 61 % of 200 A"', f'"{said}"'),))
    assert [each.outcome for each in found.claims if each.label == "Said to fit"] == [value]


@pytest.mark.parametrize("said", ["Optional method", "optional calc, Art. 220 Part IV", "220.82(B)", "OPTIONAL"])
def test_a_method_in_other_words(said: str) -> None:
    found = reviewed("worksheet_by_lines", (("Optional method", f'"{said}"'),))
    assert found.submittal["method"] == "optional_dwelling"


def test_optional_alone_is_not_one_method_for_a_house_that_stands() -> None:
    with pytest.raises(InputError, match=r"one of: optional dwelling \(220\.82\(A\)\); existing dwelling \(220\.83\)"):
        reviewed("worksheet_by_lines", (("work: new", "work: existing"),))


# Loads without a rating: the load is the least that it may be


def test_beside_loads_without_a_rating_no_correction_is_said_to_fit() -> None:
    """46,420 VA without disposal and blower: 8,000 + 15,368 VA, 97.37 A on 100 A: open, and so with each correction."""
    found = reviewed("ratings_not_shown", seconds=20.0)
    assert found.answer.verdict == "open"
    (one,) = on_figures(found)
    assert (one.effect_load, one.verdict_before, one.verdict_after) == (pytest.approx(1200), "", "")
    printed = " ".join(as_text(letter(found), None).split())
    assert "the calculated load is at least 23,368 VA, 97.37 A" in printed
    assert "the outcome stays the same" not in printed
    assert "and the outcome: fits" not in printed  # with one of them alone, though the other counts as well
    assert "Tell us what the furnace blower draws. Every 600 VA of it would add 240 VA (1.00 A) to the load." in printed


@pytest.mark.slow
def test_a_sum_with_a_slip_above_a_demand_taken_as_it_is() -> None:
    """The rows come to 22,480 VA; by the section 14,000 + 11,280 VA are 25,280 VA, 105.33 A: one comment on load and amperes."""
    found = reviewed("peak_from_utility", seconds=20.0)
    (one,) = on_figures(found)
    assert [(each.label, each.computed) for each in one.figures] == [("Total", "25,280 VA"), ("Amps", "105.33 A")]
    assert "The rows above add up to 22,480 VA, not to 21,480 VA." in one.text
    assert "where the metered maximum is taken as it is. By 220.87, 125 % of the metered maximum" in one.text
    assert (one.effect_load, one.verdict_after) == (pytest.approx(3800), "does not fit")
    assert one.severity == "error"
    rating = next(each for each in found.findings if each.about == "rating")
    assert (
        "The least rating that suffices is 110 A, with supply conductors of at least 3 AWG copper or 1 AWG aluminum."
        in rating.text
    )
    right: Changes = (("21,480", "22,480"), ("89.5", "93.7"))
    (other,) = on_figures(reviewed("peak_from_utility", right, seconds=20.0))
    assert "add up to" not in other.text
