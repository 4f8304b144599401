"""The panel schedule of a submittal: which loads its labels mean, and its breakers beside the least and largest of each.

Least devices by hand: a range of 8750 VA or more takes 40 A (Note 4); 13.2 kW by column C with 5 %, 8400 VA, is 35 A; a dryer 30 A;
a water heater 125 % of 18.75 A, 25 A, and not over 150 %, 30 A; charging 125 % of 48 A, 60 A.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from commands import Run
from test_review_rows import GENERAL, PIKE

from dwellcalc.report.letter import letter
from dwellcalc.report.review_pages import review_pages
from dwellcalc.report.tables import as_text
from dwellcalc.review.breakers import CARRIES, SUITS, Breaker
from dwellcalc.review.document import Review
from dwellcalc.review.finding import QUESTION
from dwellcalc.review.of_later import LATER
from dwellcalc.review.review import review
from dwellcalc.review.submittal_reader import read_submittal

DAY = "2026-05-04"
Tree = dict[str, Any]
Look = Callable[..., Review]


@pytest.fixture
def look(tmp_path: Path) -> Look:
    def made(*circuits: Tree, **more: Any) -> Review:
        path = tmp_path / "submittal.yaml"
        tree = {**PIKE, "work": "new", "panel_schedule": list(circuits), **more}
        path.write_text(yaml.safe_dump(tree, sort_keys=False), encoding="utf-8")
        return review(read_submittal(path, date=DAY), date=DAY, seconds=0.0)

    return made


def only(found: Review) -> Breaker:
    (one,) = found.breakers
    return one


@pytest.mark.parametrize(
    ("label", "breaker", "verdict", "least", "section"),
    [
        ("Range", "30 A", "too small", "40 A", "210.19(A)(3)"),
        ("Range", "35 A", "too small", "40 A", "210.19(A)(3)"),
        ("Range", "40 A", CARRIES, "40 A", "210.19(A)(3)"),
        ("Dryer", "25 A", "too small", "30 A", "220.14(B), 220.54"),
        ("WH", "20 A", "too small", "25 A", "422.13"),
        ("WH", "30 A", SUITS, "25 A", "422.13"),
        ("WH", "35 A", "too large", "25 A", "422.11(E)"),
        ("EV charger", "50 A", "too small", "60 A", "625.41"),
        ("Disposal", "20 A", CARRIES, "15 A", "430.22"),
    ],
)
def test_a_breaker_is_held_to_the_device_of_its_load(
    look: Look, label: str, breaker: str, verdict: str, least: str, section: str
) -> None:
    found = look({"label": label, "breaker": breaker})
    one = only(found)
    assert (one.verdict, one.least) == (verdict, least)
    assert one.section.startswith(section)
    comments = [each for each in found.findings if each.id == f"breaker: {label}"]
    assert [each.section for each in comments] == ([] if verdict in (SUITS, CARRIES) else [one.section])
    assert all((f"{least} or more" in each.text) == (verdict == "too small") for each in comments)


@pytest.mark.parametrize(
    ("circuit", "why"),
    [
        ({"label": "Heat pump", "breaker": "40 A"}, "its minimum circuit ampacity is not given"),
        ({"label": "Hot tub", "breaker": "50 A"}, "its load is not in the calculation"),
        ({"label": "Tank thing", "breaker": "15 A"}, "no kind of load is known by this name"),
        ({"label": "Range"}, "no breaker is given"),
    ],
)
def test_what_is_not_judged_says_why(look: Look, circuit: Tree, why: str) -> None:
    found = look(circuit)
    assert (only(found).verdict, only(found).why) == ("not judged", why)
    assert not [each for each in found.findings if each.id.startswith("breaker")]
    assert f"not judged: {why}" in " ".join(as_text(review_pages(found), 240).split())


@pytest.mark.parametrize(
    ("circuit", "verdict", "least"),
    [
        ({"label": "Strip heat/air handler", "breaker": "15 A"}, "too small", "60 A"),
        ({"label": "HVAC inside", "breaker": "60 A", "loads": ["strip heat", "air handler"]}, CARRIES, "60 A"),
    ],
)
def test_heat_with_its_air_handler_is_held_to_the_rule_for_both(look: Look, circuit: Tree, verdict: str, least: str) -> None:
    """125 % of 41.67 A and of 4.5 A: 57.7 A."""
    made = only(look(circuit))
    assert (made.verdict, made.least, made.section) == (verdict, least, "424.4(B)")


def test_loads_that_need_not_run_at_once_are_told_together_and_not_judged(look: Look) -> None:
    """1300 VA are 10.83 A; 125 % of the 7.5 A of the disposer beside them are 20.21 A, more than the breaker, for all at once."""
    made = only(look({"label": "DW + disposer", "breaker": "20 A", "loads": ["dishwasher", "disposal"]}))
    assert (made.verdict, made.least) == ("not judged", "-")
    assert made.why == "it serves several loads, which ask for 20.21 A together, and whether they run at once is not known here"
    small = only(look({"label": "DW + disposer", "breaker": "10 A", "loads": ["dishwasher", "disposal"]}))
    assert (small.verdict, small.least) == ("too small", "15 A")  # for the dishwasher by itself


# Labels that leave the load open, and loads that come later

FURNACE = {"label": "Gas furnace", "nameplate": "6 A at 120 V"}
BASEBOARD = {"label": "Baseboard", "nameplate": "2 kW"}


@pytest.mark.parametrize(
    ("rows", "label", "load"),
    [
        ([FURNACE], "Furnace", "Gas furnace"),
        ([BASEBOARD, FURNACE], "Furnace", "Gas furnace"),
        ([BASEBOARD, {"label": "Central electric heat", "nameplate": "8 kW"}], "Furnace", "Central electric heat"),
        ([FURNACE, {"label": "Central electric heat", "nameplate": "8 kW"}], "Furnace, gas", "Gas furnace"),
    ],
)
def test_a_furnace_of_the_schedule_is_the_one_that_is_calculated(look: Look, rows: list[Tree], label: str, load: str) -> None:
    assert only(look({"label": label, "breaker": "15 A"}, rows=[*GENERAL, *rows])).load == load


@pytest.mark.parametrize(
    ("rows", "about", "told"),
    [
        ([BASEBOARD], "not calculated", "None of these is in the calculation."),
        (
            [FURNACE, {"label": "Central electric heat", "nameplate": "8 kW"}],
            "schedule",
            "Of these the calculation has: Gas furnace, Central electric heat.",
        ),
    ],
)
def test_a_furnace_that_may_be_either_is_asked_about(look: Look, rows: list[Tree], about: str, told: str) -> None:
    found = look({"label": "Furnace", "breaker": "15 A"}, rows=[*GENERAL, *rows], scope=["Furnace"])
    for name in ("schedule: Furnace", "scope: Furnace"):
        (one,) = [each for each in found.findings if each.id == name]
        assert (one.severity, one.about) == (QUESTION, about)
        assert "electric furnace (central electric furnace or boiler); gas furnace (blower" in one.text
        assert one.text.endswith(told)
    assert "it may be of several kinds: electric furnace" in only(found).why
    assert (found.answer.verdict == "open") is (about == "not calculated")


def test_a_circuit_of_a_row_that_was_left_aside_is_of_no_other_load(look: Look) -> None:
    rows = [*GENERAL, FURNACE, {"label": "Furnace", "nameplate": "6 A at 120 V", "claimed": "720 VA"}]
    found = look({"label": "FURNACE", "breaker": "15 A"}, rows=rows, scope=["Furnace"])
    assert (only(found).load, only(found).why) == ("-", "its row was left aside")
    assert not [
        each for each in found.findings if each.id in ("schedule: FURNACE", "scope: Furnace", "scope not matched: Furnace")
    ]


def test_a_circuit_for_later_is_asked_about_and_no_error(look: Look) -> None:
    found = look({"label": "Hot tub, future", "breaker": "50 A"}, scope=["Sauna (by others)"])
    for name in ("schedule: Hot tub, future", "scope: Sauna (by others)"):
        (one,) = [each for each in found.findings if each.id == name]
        assert (one.severity, one.about) == (QUESTION, LATER)
    assert found.answer.verdict == "fits"


def test_a_circuit_of_a_row_for_later_is_told_with_the_row(look: Look) -> None:
    rows = [*PIKE["rows"], {"label": "Spa", "nameplate": "9.6 kW", "note": "by others"}]
    found = look({"label": "Hot tub", "breaker": "50 A"}, rows=rows)
    assert not [each for each in found.findings if each.id.startswith("schedule: ")]
    (one,) = [each for each in found.findings if each.about == LATER]
    assert "A circuit of the panel schedule is for it: Hot tub." in one.text


def test_without_a_largest_device_a_breaker_is_said_to_carry_the_load_alone(look: Look) -> None:
    found = look({"label": "Range", "breaker": "50 A"})
    assert (only(found).largest, only(found).verdict) == ("-", "carries the load; no largest device is known here")
    known = look({"label": "WH", "breaker": "30 A"})
    assert (only(known).largest, only(known).verdict) == ("30 A", "suits the load")


def test_an_existing_circuit_is_not_judged(look: Look) -> None:
    found = look({"label": "WH", "breaker": "20 A"}, service={**PIKE["service"], "state": "existing"})
    assert only(found).why == "its circuit is there already"


def test_a_heat_pump_with_its_ampacity_is_judged(look: Look) -> None:
    rows = [{**row, "nameplate": "MCA 24 A at 240 V"} if row["label"] == "Heat pump" else row for row in PIKE["rows"]]
    assert only(look({"label": "Heat pump", "breaker": "20 A"}, rows=rows)).verdict == "too small"


@pytest.mark.parametrize(
    ("label", "loads"),
    [
        ("Kitchen range", ("Induction range",)),
        ("Range, kitchen", ("Induction range",)),
        ("STOVE", ("Induction range",)),
        ("Range hood", ()),
        ("Kitchen range hood", ()),
        ("Strip heat + air handler", ("Supplemental heat", "Air handler")),
        ("Oven/range", ("Induction range",)),
    ],
)
def test_labels_of_the_schedule_mean_loads_of_the_table(look: Look, label: str, loads: tuple[str, ...]) -> None:
    found = look({"label": label, "breaker": "50 A"})
    assert only(found).load == (", ".join(loads) or "-")
    lacking = next(each.text for each in found.findings if each.id == "schedule lacks loads")
    assert not [name for name in loads if name in lacking]
    assert any(each.id == f"schedule: {label}" for each in found.findings) is (not loads)
    (match,) = [each for each in found.matched if each.label == label]
    assert match.title == (", ".join(loads) or "a load that is not calculated")


@pytest.mark.parametrize("row", ["(N) Ductless AC, 18 A MCA x 240", "Heat pump for AC, 18 A MCA x 240"])
def test_a_circuit_is_of_the_only_row_with_its_words_though_that_is_of_another_kind(look: Look, row: str) -> None:
    found = look({"label": "AC", "breaker": "25 A"}, rows=[*GENERAL, {"label": row, "claimed": "4320 VA"}])
    (match,) = [each for each in found.matched if each.label == "AC"]
    assert match.title == row
    assert not [each for each in found.findings if each.id == "schedule: AC"]


def test_the_letter_says_what_the_load_comes_to_and_whether_the_service_suffices(look: Look) -> None:
    told = " ".join(as_text(letter(look()), None).split())
    assert "the calculated load is 38,488 VA, 160.37 A. The service is rated 200 A and suffices for this load. This" in told
    assert "This stands under the reading of the code told below the comments." in told  # charging at 125 % apart: 203.17 A
    assert "1. Induction range - 220.82(B)(3)(b) (correction)" in told
    assert "On its own this correction adds 5,200 VA to the figure and, at 40 %, 2,080 VA (8.67 A) to the load" in told
    small = look(service={**PIKE["service"], "rating": "150 A"})
    assert "rated 150 A and does not suffice for this load" in " ".join(as_text(letter(small), None).split())


def test_a_review_is_written_into_a_file(run: Run, tmp_path: Path) -> None:
    path, sheet = tmp_path / "submittal.yaml", tmp_path / "letter.md"
    path.write_text(yaml.safe_dump(PIKE, sort_keys=False), encoding="utf-8")
    code, out, _ = run("review", str(path), "--letter", "--format", "markdown", "-o", str(sheet))
    assert code == 1
    assert f"Written: {sheet}" in out
    assert sheet.read_text(encoding="utf-8").startswith("# Comments on the calculation")
    before = path.read_text(encoding="utf-8")
    code, _, error = run("review", str(path), "-o", str(path))
    assert code == 2
    assert "is not written over" in error
    assert path.read_text(encoding="utf-8") == before


# Circuits that are no loads of their own


def remarks(found: Review) -> dict[str, str]:
    return {each.title: each.text for each in found.findings if each.id.startswith("circuits: ")}


def test_circuits_of_the_lighting_are_no_loads_that_are_lacking(look: Look) -> None:
    labels = (
        "Small appliance 1",
        "Small-appliance circuits",
        "Laundry",
        "Lighting 6",
        "Bath GFCI",
        "Garage",
        "Receptacles",
        "Spare",
    )
    found = look(*({"label": each, "breaker": "20 A"} for each in labels))
    assert [each.verdict.partition(";")[0] for each in found.breakers] == [*["no load of its own"] * 7, "no circuit"]
    assert not [each for each in found.findings if each.about == "not calculated" or each.id == "schedule not matched"]
    assert found.answer.verdict == "fits"
    assert remarks(found) == {
        "General lighting and receptacle circuits of the panel schedule": "A new dwelling needs 3 or more; "
        "by its labels the schedule lists 2."  # 6450 VA at 120 V are 53.75 A, three circuits of 20 A
    }


@pytest.mark.parametrize("label", ["Garage door opener", "Bath heater", "Pool light", "Laundry heater", "Range receptacle"])
def test_a_label_with_other_words_is_no_such_circuit(look: Look, label: str) -> None:
    assert "no load of its own" not in only(look({"label": label, "breaker": "20 A"})).verdict


def test_a_heater_of_a_room_is_not_the_water_heater(look: Look) -> None:
    found = look({"label": "Bath heater", "breaker": "20 A"})
    assert (only(found).load, only(found).why) == ("-", "its load is not in the calculation")


def test_a_new_dwelling_has_its_small_appliance_laundry_and_bathroom_circuits(look: Look) -> None:
    found = look({"label": "SABC", "breaker": "20 A"}, {"label": "Lights", "breaker": "15 A", "quantity": "6"})
    told = remarks(found)
    assert told["Small-appliance circuits of the panel schedule"] == (
        "A new dwelling needs 2 or more; by its labels the schedule lists 1. The calculation counts 2, and the schedule lists 1."
    )
    assert {each.section for each in found.findings if each.id.startswith("circuits: ")} == {
        "210.11(C)(1)",
        "210.11(C)(2)",
        "210.11(C)(3)",
    }
    assert [name.partition(" ")[0] for name in told] == ["Small-appliance", "Laundry", "Bathroom"]
    assert "schedule lists none" in told["Laundry circuits of the panel schedule"]
    there = look({"label": "SABC", "breaker": "20 A"}, {"label": "Lights", "breaker": "15 A"}, work="existing")
    assert list(remarks(there)) == ["Small-appliance circuits of the panel schedule"]  # what it says of itself alone
    assert remarks(look({"label": "Range", "breaker": "50 A"})) == {}  # a schedule of a part of the circuits


@pytest.mark.parametrize(
    "circuit",
    [
        {"label": "Lights", "breaker": "15 A", "quantity": "6"},
        {"label": "Lights", "breaker": "15 A 1P x 6"},
        {"label": "Lights x 6", "breaker": "15A/1P"},
    ],
)
def test_a_row_of_the_schedule_may_be_several_circuits(look: Look, circuit: Tree) -> None:
    one = only(look(circuit))
    assert (one.label.endswith("6 circuits"), one.breaker) == (True, "15 A")


def test_a_marking_in_a_label_is_that_of_the_load(look: Look) -> None:
    found = look({"label": "Heat pump (MCA 28.1, MOCP 45)", "breaker": "50 A"})
    one = only(found)
    assert (one.least, one.largest, one.verdict) == ("30 A", "45 A", "too large")
    comment = next(each for each in found.findings if each.id.startswith("breaker: "))
    assert comment.text.startswith("The schedule lists 50 A; the load allows 45 A at most.")
    assert ["minimum circuit ampacity 28.1 A" in each.title for each in found.matched if each.what == "marking"] == [True]


def test_a_breaker_comment_quotes_both_figures_and_an_unknown_circuit_is_asked_about(look: Look) -> None:
    found = look({"label": "WH", "breaker": "20 A"}, {"label": "Tank thing", "breaker": "15 A"})
    texts = {each.id: each for each in found.findings}
    assert texts["breaker: WH"].text.startswith("The schedule lists 20 A; the circuit of this load needs 25 A or more")
    assert texts["schedule not matched"].title.endswith("Tank thing")


def test_a_rating_with_its_poles_behind_a_slash_is_the_rating(look: Look) -> None:
    assert only(look({"label": "Range", "breaker": "50/2"})).breaker == "50 A"
    assert only(look({"label": "Range", "breaker": "50A/2P"})).breaker == "50 A"


def test_lighting_circuits_are_held_to_their_load_by_their_breakers(look: Look) -> None:
    """2150 ft2 at 3 VA are 53.75 A: three circuits of 20 A carry them, three of 15 A do not."""
    title = "General lighting and receptacle circuits of the panel schedule"
    short = remarks(look({"label": "Lights", "breaker": "15 A", "quantity": "3"}))
    assert short[title] == "At full rating this load is 53.75 A, and the 3 circuits that the schedule lists for it come to 45 A."
    assert title not in remarks(look({"label": "Lights", "breaker": "20 A", "quantity": "3"}))
    assert title not in remarks(look({"label": "Lights", "breaker": "15 A", "quantity": "4"}))


# Rows of several loads, and breaker spaces

TWO_IN_ONE = {"rows": [*GENERAL[:6], {"label": "Dishwasher / disposal", "claimed": "2200 VA"}, GENERAL[8], *PIKE["rows"][9:]]}


def test_a_row_of_two_kinds_is_the_load_of_both_circuits(look: Look) -> None:
    found = look({"label": "DW", "breaker": "20 A"}, {"label": "Disp", "breaker": "15 A"}, **TWO_IN_ONE)
    assert [each.load for each in found.breakers] == ["Dishwasher / disposal"] * 2
    assert {each.why for each in found.breakers} == {"the schedule has several circuits for its row"}
    assert not [each for each in found.findings if each.id.startswith(("schedule: ", "breaker"))]


@pytest.mark.parametrize(
    ("spaces", "severity"),
    [("24", None), ("6", "remark"), ("5", "error")],
)
@pytest.mark.parametrize("of_panel", [False, True])
def test_the_poles_of_the_schedule_are_held_to_the_spaces(
    look: Look, spaces: str, severity: str | None, *, of_panel: bool
) -> None:
    """A range, a dryer, two circuits of one pole: 2 + 2 + 2 spaces; a spare is none."""
    panel = {"panels": [{"name": "panel", "spaces": spaces}]} if of_panel else {"spaces": spaces}
    circuits = (
        {"label": "Range", "breaker": "40 A", "poles": "2"},
        {"label": "Dryer", "breaker": "30/2"},
        {"label": "SABC", "breaker": "20 A 1P", "quantity": "2"},
        {"label": "Spare", "breaker": "20 A"},
    )
    told = [each for each in look(*circuits, **panel).findings if each.id == "spaces"]
    assert [each.severity for each in told] == ([] if severity is None else [severity])
    assert all("take 6 breaker spaces; the panel has" in each.text for each in told)


def test_without_the_poles_of_a_circuit_spaces_are_not_counted(look: Look) -> None:
    found = look({"label": "Range", "breaker": "40 A"}, spaces="1")
    assert not [each for each in found.findings if each.id == "spaces"]
