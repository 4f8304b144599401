"""The review of a submittal: what it reads, ties out, finds behind a wrong figure, and writes in its letter.

The submittals are made up. Figures in the comments are worked by hand from the sections that the rules cite.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from commands import Run
from examples import PUBLISHED, rules_of

from dwellcalc.glossary import Glossary
from dwellcalc.placed import Listing, Text
from dwellcalc.problems import InputError, Source
from dwellcalc.report.letter import letter
from dwellcalc.report.review_pages import review_pages
from dwellcalc.report.tables import as_markdown, as_text
from dwellcalc.review.claims import Claim, read_value, rounded_throughout
from dwellcalc.review.document import Review
from dwellcalc.review.finding import ERROR, QUESTION, REMARK, Finding, in_order
from dwellcalc.review.judged import Judged
from dwellcalc.review.labels import KIND, LINE, Labels
from dwellcalc.review.looked import line_of
from dwellcalc.review.of_figures import FigureFindings
from dwellcalc.review.of_readings import readings_of
from dwellcalc.review.refused import Refused
from dwellcalc.review.review import review
from dwellcalc.review.rounds import earlier_findings, rounds
from dwellcalc.review.search import Explanation, Search, SearchResult, _Found
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.submittal_reader import read_submittal
from dwellcalc.review.suspects import Suspect, suspects_of

DAY = "2026-05-04"
SUBMITTALS = Path(__file__).parents[1] / "worked_examples" / "submittals"
SERVICE_CHANGE, NEW_HOUSE = SUBMITTALS / "service_change.yaml", SUBMITTALS / "new_house.yaml"
Tree = dict[str, Any]
Write = Callable[[Tree], Submittal]

# 7200 + 3000 + 1500 + 12000 + 4500 = 28200; 10000 and 40 % of 18200 are 17280; the air conditioner adds 4800: 22080 VA, 92 A
PLAIN: Tree = {
    "submittal": "Plain house, 5 Alder Row",
    "edition": "nec/2023",
    "method": "220.82",
    "service": {
        "system": "120/240 V single-phase 3-wire",
        "rating": "100 A",
        "conductors": {"size": "2 AWG", "material": "copper"},
    },
    "rows": [
        {"label": "General lighting", "nameplate": "2400 ft2", "claimed": "7200 VA"},
        {"label": "Small appliance circuits", "nameplate": "2", "claimed": "3000 VA"},
        {"label": "Laundry", "nameplate": "1", "claimed": "1500 VA"},
        {"label": "Range", "nameplate": "12 kW", "claimed": "12000 VA"},
        {"label": "Water heater", "nameplate": "4500 W", "claimed": "4500 VA"},
        {"label": "AC", "nameplate": "20 A at 240 V", "claimed": "4800 VA"},
    ],
    "total": "22080 VA",
    "amperes": "92 A",
    "evidence": {"nameplates": "photographs"},
}


def changed(tree: Tree, **more: Any) -> Tree:
    return {**tree, **more}


def without_rows(tree: Tree, *labels: str) -> list[Tree]:
    return [row for row in tree["rows"] if row["label"] not in labels]


def with_row(tree: Tree, label: str, **more: Any) -> list[Tree]:
    return [{**row, **more} if row["label"] == label else row for row in tree["rows"]]


@pytest.fixture
def submit(tmp_path: Path) -> Write:
    def write(tree: Tree) -> Submittal:
        path = tmp_path / "submittal.yaml"
        path.write_text(yaml.safe_dump(tree, sort_keys=False), encoding="utf-8")
        return read_submittal(path, date=DAY)

    return write


def reviewed(submittal: Submittal, seconds: float = 30.0) -> Review:
    return review(submittal, date=DAY, seconds=seconds)


def outcomes(found: Review) -> dict[str, str]:
    return {each.label: each.outcome for each in found.claims}


def only(found: Review, about: str) -> Finding:
    (one,) = [each for each in found.findings if each.about == about]
    return one


def written(found: Review) -> str:
    return " ".join(as_text(letter(found), None).split())


# What agrees


def test_a_correct_submittal_has_no_comment(submit: Write) -> None:
    found = reviewed(submit(PLAIN))
    assert set(outcomes(found).values()) == {"agrees"}
    assert found.findings == []
    assert (found.answer.total, found.answer.amperes, found.answer.verdict) == (22080.0, 92.0, "fits")
    assert "and have no comment on its figures" in written(found)


def test_a_csv_says_the_same_as_rows(submit: Write, tmp_path: Path) -> None:
    lines = ["Description,Rating,Load (VA)"] + [
        f"{row['label']},{row['nameplate']},{row['claimed'].split()[0]}" for row in PLAIN["rows"]
    ]
    (tmp_path / "table.csv").write_text("\n".join(lines), encoding="utf-8")
    by_rows, by_csv = reviewed(submit(PLAIN)), reviewed(submit(changed(PLAIN, rows="table.csv")))
    assert [each.computed for each in by_csv.claims] == [each.computed for each in by_rows.claims]
    assert by_csv.findings == []


def test_a_column_of_notes_says_what_comes_later(submit: Write, tmp_path: Path) -> None:
    rows = [f"{row['label']},{row['nameplate']},{row['claimed']}," for row in PLAIN["rows"]]
    lines = ["Label,Nameplate,Claimed,Remarks", *rows, "Sauna,6 kW,,N.I.C."]
    (tmp_path / "table.csv").write_text("\n".join(lines), encoding="utf-8")
    (one,) = reviewed(submit(changed(PLAIN, rows="table.csv"))).findings
    assert one.id == "later: Sauna"
    assert 'The submittal says of it: "N.I.C.".' in one.text


@pytest.mark.parametrize("mark", [";", "\t"])
def test_a_table_may_have_other_marks_between_cells(submit: Write, tmp_path: Path, mark: str) -> None:
    rows = [mark.join(("Label", "Nameplate", "Claimed"))] + [
        mark.join((row["label"], row["nameplate"], row["claimed"])) for row in PLAIN["rows"]
    ]
    (tmp_path / "table.csv").write_text("\n".join(rows), encoding="utf-8")
    assert reviewed(submit(changed(PLAIN, rows="table.csv"))).findings == []


def test_a_house_without_a_laundry_circuit_is_asked_about(submit: Write) -> None:
    rows = with_row(PLAIN, "Laundry", nameplate="0", claimed="0 VA")
    found = reviewed(submit(changed(PLAIN, rows=rows, total="21480 VA", amperes="89.5 A")))
    assert [(each.id, each.severity) for each in found.findings] == [("evidence: no_laundry", QUESTION)]


def test_a_home_may_be_given_whole(submit: Write) -> None:
    unit = {
        "name": "house",
        "areas": [{"name": "rooms", "kind": "living", "area": "2400 ft2"}],
        "small_appliance_circuits": 2,
        "laundry_circuits": 1,
        "loads": [{"name": "range", "kind": "range", "rating": "12 kW"}],
    }
    home = {"home": "Given", "service": PLAIN["service"], "dwelling_units": [unit]}
    tree = {name: PLAIN[name] for name in ("submittal", "edition", "method", "evidence")} | {"home": home}
    # 7200 + 3000 + 1500 + 12000 = 23700; 10000 and 40 % of 13700: 15480 VA
    found = reviewed(
        submit(tree | {"claims": [{"line": "general", "value": "23,700"}, {"label": "Total load", "value": "15.48 kVA"}]})
    )
    assert outcomes(found) == {"general": "agrees", "Total load": "agrees"}


def test_the_smaller_of_heating_and_cooling_may_be_claimed_as_nothing(submit: Write) -> None:
    """The furnace at 65 % is 6500 VA, over the air conditioner's 4800: 17280 + 6500 = 23780 VA."""
    furnace = {"label": "Electric furnace", "nameplate": "10 kW", "claimed": "6500 VA"}
    rows = [*with_row(PLAIN, "AC", claimed="0 VA"), furnace]
    found = reviewed(submit(changed(PLAIN, rows=rows, total="23780 VA", amperes="99.1 A")))
    assert found.findings == []
    assert "counts nothing beside a larger one" in {each.label: each.how for each in found.matched}["AC"]


@pytest.mark.slow
def test_with_a_row_left_aside_no_sum_is_called_wrong_and_nothing_fits(submit: Write) -> None:
    gazebo = {"label": "Gazebo", "nameplate": "1000 W", "claimed": "1000 VA"}
    found = reviewed(submit(changed(PLAIN, rows=[*PLAIN["rows"], gazebo], total="22480 VA", amperes="93.67 A")))
    assert found.answer.verdict == "open"
    assert not [each for each in found.findings if each.severity == ERROR]


def test_a_sheet_in_hundreds_is_rounded_and_not_wrong(submit: Write) -> None:
    disposer = {"label": "Disposal", "nameplate": "7.3 A at 120 V", "claimed": "900 VA"}  # 876 VA
    found = reviewed(submit(changed(PLAIN, rows=[*PLAIN["rows"], disposer], total="22400 VA", amperes="93.5 A")))  # 22430.4 VA
    assert not [each for each in found.findings if each.severity == ERROR]


@pytest.mark.slow
def test_figures_with_a_divisor_in_common_are_not_taken_for_rounded(submit: Write) -> None:
    """4.8 and 22.08 kVA are multiples of 480, and 21.60 is one too; the total is still 480 VA off."""
    rows = [
        {**row, "claimed": "4800 VA"} if row["label"] == "AC" else {**row, "claimed": row["claimed"]} for row in PLAIN["rows"]
    ]
    found = reviewed(
        submit(
            changed(
                PLAIN,
                rows=[rows[-1], *({k: v for k, v in row.items() if k != "claimed"} for row in rows[:-1])],
                total="22560 VA",
                claims=[{"line": "general_demand", "value": "17280 VA"}],
                amperes="94 A",
            )
        )
    )
    assert outcomes(found)["Total"] == "differs"


def test_a_dryer_at_its_least_rating_is_no_rounding(submit: Write) -> None:
    dryer = {"label": "Dryer", "nameplate": "4500 W", "claimed": "5000 VA"}
    rows = [{k: v for k, v in row.items() if k != "claimed"} for row in PLAIN["rows"]]
    claims = [{"line": "cooking_connected", "value": "12000 VA"}, {"line": "small_appliance", "value": "3000 VA"}]
    tree = {name: each for name, each in PLAIN.items() if name not in ("total", "amperes")}
    found = reviewed(submit(changed(tree, rows=[*rows, dryer], claims=claims)))
    assert outcomes(found)["Dryer"] == "differs"


def test_a_figure_in_whole_thousands_is_not_met_by_what_is_far_from_it() -> None:
    claim = Claim("A", "optional_dwelling.general", "", "36 kVA", 36000.0, 1000.0)
    assert claim.met_by(35600.0)
    assert not claim.met_by(35100.0)


# What labels mean


@pytest.mark.parametrize(
    ("label", "first", "what", "name"),
    [
        ("Range", KIND, KIND, "range"),
        ("Electric Range (12 kW)", KIND, KIND, "range"),
        ("Water heaters", KIND, KIND, "storage_water_heater"),
        ("Tankless water heater", KIND, KIND, "instantaneous_water_heater"),
        ("EV charger in garage", KIND, KIND, "ev_charging_equipment"),
        ("General lighting, 2,400 sq ft @ 3 VA", LINE, LINE, "optional_dwelling.lighting"),
        ("Small-Appliance Branch Circuits (2)", LINE, LINE, "optional_dwelling.small_appliance"),
        ("Laundry", LINE, LINE, "optional_dwelling.laundry"),
        ("TOTAL CONNECTED LOAD", LINE, LINE, "optional_dwelling.general"),
        ("Total load", LINE, LINE, "optional_dwelling.total"),
        ("Total amps", LINE, LINE, "optional_dwelling.amperes"),
        ("General loads after demand", LINE, LINE, "optional_dwelling.general_demand"),
    ],
)
def test_labels(label: str, first: str, what: str, name: str) -> None:
    found = Labels(rules_of("nec/2023"), ("optional_dwelling", "sizing")).find(label, first)
    assert found is not None
    assert found.what == what
    assert name in (found.name, *found.also)


def test_a_label_of_nothing_known_is_listed_and_not_dropped(submit: Write) -> None:
    rows = [*PLAIN["rows"], {"label": "Gazebo", "claimed": "300 VA"}]
    found = only(reviewed(submit(changed(PLAIN, rows=rows))), "not matched")
    assert found.severity == QUESTION
    assert "Gazebo" in found.title
    assert "300 VA" in found.text


def test_the_reviewer_puts_a_match_right(submit: Write) -> None:
    gazebo = {"label": "Gazebo", "nameplate": "1000 W", "claimed": "1000 VA", "match": "sauna"}
    found = reviewed(submit(changed(PLAIN, rows=[*PLAIN["rows"], gazebo], total="22480 VA", amperes="93.67 A")))
    assert {each.label: each.name for each in found.matched}["Gazebo"] == "sauna"
    assert set(outcomes(found).values()) == {"agrees"}


# How figures are printed


def test_two_figures_do_not_tell_that_a_sheet_is_rounded() -> None:
    line = line_of(rules_of("nec/2023"), "optional_dwelling.total")
    assert line is not None
    claims = [Claim("A", line.id, str(value), "", value, 1.0) for value in (2200.0, 3100.0, 4700.0)]
    kinds = {claim.at: line.kind for claim in claims}
    assert [each.step for each in rounded_throughout(claims[:2], kinds, 100.0)] == [1.0, 1.0]
    assert [each.step for each in rounded_throughout(claims, kinds, 100.0)] == [100.0] * 3


def text(value: str) -> Text:
    made = Text(value)
    made.source, made.line, made.column = Source("made", value), 1, 1
    return made


@pytest.mark.parametrize(
    ("written_as", "value", "step"),
    [
        ("34790 VA", 34790.0, 1.0),
        ("34,790", 34790.0, 1.0),
        ("34.8 kVA", 34800.0, 100.0),
        ("34.79 kW", 34790.0, 10.0),
        (".5 kVA", 500.0, 100.0),
    ],
)
def test_a_figure_has_the_step_that_it_is_printed_with(written_as: str, value: float, step: float) -> None:
    line = line_of(rules_of("nec/2023"), "standard.total")
    assert line is not None
    found, printed = read_value(text(written_as), line, rules_of("nec/2023").glossary)
    assert found == pytest.approx(value)
    assert printed == pytest.approx(step)


def test_a_value_of_another_kind_is_refused() -> None:
    glossary: Glossary = rules_of("nec/2023").glossary
    line = line_of(rules_of("nec/2023"), "sizing.copper_for_new")
    assert line is not None
    assert read_value(text("4/0 AWG"), line, glossary)[0] == read_value(text("4/0"), line, glossary)[0]
    with pytest.raises(Refused):
        read_value(text("5/0 AWG"), line, glossary)


@pytest.mark.parametrize(
    ("claimed", "step", "value", "met"),
    [
        (144.0, 1.0, 144.9583, True),  # cut off
        (145.0, 1.0, 144.9583, True),  # rounded
        (145.0, 1.0, 144.2, True),  # rounded up
        (146.0, 1.0, 144.9583, False),
        (143.0, 1.0, 144.0, False),
        (144.96, 0.01, 144.9583, True),
    ],
)
def test_rounded_cut_off_or_rounded_up_is_the_same(claimed: float, step: float, value: float, met: bool) -> None:
    assert Claim("A", "standard.amperes", "", "", claimed, step).met_by(value) is met


def test_figures_that_follow_from_rounded_ones_agree(submit: Write) -> None:
    """28.2 kVA is printed as 28; the demand of 28 is 17.2, where that of 28.2 is 17.28."""
    rows = [
        *PLAIN["rows"],
        {"label": "General load after demand", "claimed": "17.2 kVA"},
        {"label": "Total general load", "claimed": "28 kVA"},
    ]
    found = reviewed(submit(changed(PLAIN, rows=rows, total="22.0 kVA", amperes="91.7 A")))
    assert not [each for each in found.findings if each.severity == ERROR]
    assert outcomes(found)["Amperes"] == "follows from other figures"


# What stands behind a wrong figure


def test_the_worked_submittal_names_its_mistakes() -> None:
    found = reviewed(read_submittal(SERVICE_CHANGE, date=DAY))
    heads = [(each.about, each.severity, each.section) for each in found.findings]
    assert heads == [
        ("figure", ERROR, "220.82(C)(3)"),
        ("mistake", ERROR, "220.82(B)(3)(b)"),
        ("rating", ERROR, "230.79, 215.3"),
        ("schedule", ERROR, "625.41"),
        ("mistake", REMARK, "220.82(B)(3)(c)"),
        ("evidence", QUESTION, "625.42(B)"),
        ("evidence", QUESTION, "220.14"),  # the air handler of the heat pump
        ("kept apart", QUESTION, "220.60"),  # a lockout alone would let it fit: 123.50 A
    ]
    strips, cooking, _, breaker, dryer, *_ = found.findings
    assert (strips.verdict_before, strips.verdict_after) == ("fits", "does not fit")
    assert strips.effect_amperes == pytest.approx(0.65 * 9600 / 240)  # 26 A
    assert cooking.effect_amperes == pytest.approx(0.4 * 4000 / 240)
    assert dryer.effect_amperes == pytest.approx(-0.4 * 500 / 240)
    assert "50 A or more" in breaker.text  # 125 % of 40 A
    assert found.answer.amperes == pytest.approx(143.5)
    # 10000 + 0.4 * 33500 + 4800 + 6240 = 34440 VA


@pytest.mark.slow
def test_a_table_beside_the_file_names_its_mistake() -> None:
    found = reviewed(read_submittal(NEW_HOUSE, date=DAY))
    one, of_blower = found.findings
    assert of_blower.title == "No blower of the electric furnace is calculated"
    assert one.section == "220.53"
    assert one.effect_amperes == pytest.approx(0.25 * 6876 / 240)
    assert "75 % may be taken of 4 or more" in one.text


@pytest.mark.slow
@pytest.mark.parametrize(("total", "amperes", "asked"), [("19880 VA", "82.8 A", True), ("19.9 kVA", "83 A", False)])
def test_two_mistakes_behind_a_total_alone_are_asked_about_where_it_is_hardly_chance(
    submit: Write, total: str, amperes: str, asked: bool
) -> None:
    """The range by the table (8000 for 12000, less 1600 after 40 %), and the laundry left out (less 600): 19880 VA.

    Printed to hundreds, many a pair of mistakes comes as near.
    """
    rows = [{name: each for name, each in row.items() if name != "claimed"} for row in PLAIN["rows"]]
    found = reviewed(submit(changed(PLAIN, rows=rows, total=total, amperes=amperes)))
    causes = [(each.severity, len(each.causes)) for each in found.findings if each.about in ("mistake", "figure")]
    assert ((QUESTION, 2) in causes) is asked


def test_another_reading_is_a_remark(submit: Write) -> None:
    """Charging at full rating outside the general loads: 22080 + 7680 = 29760 VA."""
    charger = {"label": "EV charger", "nameplate": "32 A at 240 V", "claimed": "7680 VA"}
    found = reviewed(submit(changed(PLAIN, rows=[*PLAIN["rows"], charger], total="29760 VA", amperes="124 A")))
    (one,) = [each for each in found.findings if each.about in ("reading", "mistake")]
    assert one.severity == REMARK
    assert "outside the general loads" in one.text
    assert one.effect_amperes == pytest.approx(-0.6 * 7680 / 240)


def test_a_rating_is_not_explained_by_a_load_that_was_not_claimed(submit: Write) -> None:
    """111.2 A take 125 A; with charging outside the general loads 140 A would take 150 A, but 111.2 A is what is claimed."""
    charger = {"label": "EV charger", "nameplate": "48 A at 240 V", "claimed": "11520 VA"}
    tree = changed(PLAIN, rows=[*PLAIN["rows"], charger], total="26688 VA", amperes="111.2 A", minimum_rating="150 A")
    found = reviewed(submit(tree))
    assert outcomes(found)["Minimum rating"] == "differs"
    assert not [each for each in found.findings if each.about == "reading"]


@pytest.mark.slow
def test_equal_explanations_are_named(submit: Write) -> None:
    house = PUBLISHED / "std_home_1700.yaml"
    found = reviewed(read_submittal(house, date=DAY))
    one = only(found, "mistake")
    assert "oven" in one.text
    assert len(one.equal) == 2
    assert "The same figures would result where" in written(found)


def test_a_slip_of_addition_is_said_with_what_makes_the_difference(submit: Write) -> None:
    rows = [*PLAIN["rows"], {"label": "Total general load", "claimed": "23700 VA"}]  # without the water heater
    found = reviewed(submit(changed(PLAIN, rows=rows, total="20280 VA", amperes="84.5 A")))
    one = next(each for each in found.findings if each.severity == ERROR)
    assert "water heater" in one.text.casefold()
    assert one.effect_amperes == pytest.approx(0.4 * 4500 / 240)


def test_exchanged_digits_are_guessed(submit: Write) -> None:
    rows = [*PLAIN["rows"], {"label": "Total general load", "claimed": "22800 VA"}]
    (one,) = [
        each
        for each in reviewed(submit(changed(PLAIN, rows=rows, total="19920 VA", amperes="83 A"))).findings
        if each.severity == ERROR
    ]
    assert "Two digits may have been exchanged" in one.text


def test_the_search_says_that_it_stopped_early(submit: Write) -> None:
    found = reviewed(submit(changed(PLAIN, total="19999 VA", amperes="83.3 A")), seconds=0.0)
    assert found.stopped_early
    assert any(each.about in ("figure", "sum") for each in found.findings)


def test_a_mistake_of_the_amperes_is_told_from_one_of_the_load(submit: Write) -> None:
    found = reviewed(submit(changed(PLAIN, amperes="96 A")))  # 22080 by 230 V
    one = only(found, "mistake")
    assert "230" in one.text
    assert outcomes(found)["Total"] == "agrees"


# All comments on figures put right

# AC at 4000 for 4800 and a furnace at 3000 for 6500 (65 % of 10 kW), of which the larger counts; the range at 8000 for 12000:
# 10000 and 40 % of 14200 are 15680, and 4000: 19680 VA, 82 A. Right: 17280 and 6500, 23780 VA, 99.08 A.
THREE_WRONG = changed(
    PLAIN,
    rows=[
        *({**row, "claimed": {"Range": "8000 VA", "AC": "4000 VA"}.get(row["label"], row["claimed"])} for row in PLAIN["rows"]),
        {"label": "Electric furnace", "nameplate": "10 kW", "claimed": "3000 VA"},
    ],
    total="19680 VA",
    amperes="82 A",
)


def test_comments_are_put_right_one_after_another_up_to_the_load_of_the_rules(submit: Write) -> None:
    found = reviewed(submit(THREE_WRONG), seconds=0.0)
    assert found.put_right is not None
    steps = found.put_right.steps
    titles = {each.id: each.figures[0].label for each in found.findings if each.figures}
    assert [titles.get(each.put_right, "") for each in steps] == ["", "Electric furnace", "Range", "AC"]
    assert [each.total for each in steps] == [19680.0, 22180.0, 23780.0, 23780.0]
    assert [each.amperes for each in steps] == pytest.approx([82.0, 22180 / 240, 23780 / 240, 23780 / 240])
    assert (steps[-1].total, steps[-1].verdict) == (found.answer.total, found.answer.verdict)
    assert found.put_right.submitted == ""
    effects = {each.figures[0].label: each.effect_amperes for each in found.findings if each.figures}
    assert effects == pytest.approx({"Electric furnace": 2500 / 240, "Range": 1600 / 240, "AC": 800 / 240})
    told = written(found)
    assert "On its own this correction adds 800 VA (3.33 A) to the load; the outcome stays the same with it alone." in told
    assert "adds 4,000 VA to the figure and, at 40 %, 1,600 VA (6.67 A) to the load" in told  # the range
    assert "3. AC 23,780 VA 99.08 A none fits" in told
    assert "The last row is the load by the rules." in told


@pytest.mark.slow
def test_a_mistake_is_weighed_against_the_sheet_as_submitted(submit: Write) -> None:
    """90 A carry the sheet as submitted, and with the range right; what the furnace adds is another comment."""
    rows = without_rows(THREE_WRONG, "AC")  # 15680 and 3000: 18680 VA, 77.83 A; with the range right 20280 VA, 84.5 A
    service = changed(PLAIN["service"], rating="90 A")
    found = reviewed(submit(changed(THREE_WRONG, rows=rows, service=service, total="18680 VA", amperes="77.8 A")))
    cooking = only(found, "mistake")
    assert (cooking.verdict_before, cooking.verdict_after) == ("fits", "fits")
    assert cooking.effect_amperes == pytest.approx(1600 / 240)
    assert found.answer.verdict == "does not fit"


def test_a_wrong_total_grows_with_the_parts_that_are_put_right(submit: Write) -> None:
    """The range at 8000 for 12000, and a total of 21480 where 20480 follows: 1000 VA too much until it is put right itself."""
    rows = [*with_row(PLAIN, "Range", claimed="8000 VA"), {"label": "Total general load", "claimed": "24200 VA"}]
    found = reviewed(submit(changed(PLAIN, rows=rows, total="21480 VA", amperes="89.5 A")), seconds=0.0)
    assert found.put_right is not None
    totals = [each.total for each in found.put_right.steps]
    assert (totals[0], totals[-1]) == (21480.0, found.answer.total)
    assert sorted(after - before for before, after in zip(totals, totals[1:], strict=False)) == [-1000.0, 1600.0]


def test_the_verdict_of_a_step_is_that_of_its_load(submit: Write) -> None:
    """92 A fit on 100 A, and are claimed not to; the range at 8000 comes to 85.3 A and fits too."""
    rows = with_row(PLAIN, "Range", claimed="8000 VA")
    found = reviewed(submit(changed(PLAIN, rows=rows, total="20480 VA", amperes="85.3 A", fits="no")), seconds=0.0)
    assert found.put_right is not None
    assert [each.verdict for each in found.put_right.steps] == ["fits", "fits"]
    assert found.findings[0].title == "Said not to fit; its own figures come to 85.3 A, not more than the rating of 100 A"


def test_with_loads_lacking_what_does_not_fit_stays_so(submit: Write) -> None:
    gazebo = {"label": "Gazebo", "nameplate": "1000 W", "claimed": "1000 VA"}
    service = changed(PLAIN["service"], rating="90 A")
    rows = [*with_row(PLAIN, "Range", claimed="8000 VA"), gazebo]
    found = reviewed(submit(changed(PLAIN, rows=rows, service=service, total="20880 VA", amperes="87 A")), seconds=0.0)
    assert found.answer.verdict == "does not fit"
    assert found.put_right is not None
    assert found.put_right.steps[-1].verdict == "does not fit"


def test_of_explanations_the_one_that_meets_more_figures_goes_first() -> None:
    one, two = (Suspect(name, "mistake", "", "", "", "", "error", "code", Listing()) for name in ("a", "b"))
    met = [_Found((one,), frozenset(), 2), _Found((two,), frozenset(), 3), _Found((one, two), frozenset(), 3)]
    assert [each.suspects for each in sorted(met, key=lambda each: each.order)] == [(two,), (one, two), (one,)]


def test_what_rests_on_a_figure_does_not_hide_its_effect(submit: Write) -> None:
    """The range is explained, the total is not and rests on it; the water heater is not either, and stays as it is."""
    rows = with_row(PLAIN, "Range", claimed="8000 VA")
    rows = [{**row, "claimed": "4000 VA"} if row["label"] == "Water heater" else row for row in rows]
    submittal = submit(changed(PLAIN, rows=rows, total="21413 VA", amperes="89.2 A"))
    suspects = suspects_of(submittal.rules, {submittal.method, submittal.instructions.sizing.method})
    search = Search(submittal.rules, submittal.asked, submittal.claims, suspects, seconds=0.0, pairs_at_most=0, tried_at_most=0)
    cooking = suspects.mistake(next(each for each in suspects.entries if each.id == "optional_range_by_table"))
    assert cooking is not None
    by_label = {claim.label: claim for claim in search.base.wrong}
    assert set(by_label) == {"Range", "Water heater", "Total"}
    explained = [Explanation((cooking,), (by_label["Range"],))]
    made = FigureFindings(suspects, search, SearchResult(explained, [by_label["Water heater"], by_label["Total"]], 1, False))
    apart = [each.label for each in made.apart_from([by_label["Range"]])]
    assert apart == ["Water heater"]
    assert made.findings()[0].effect_amperes == pytest.approx(1600 / 240)


def test_one_comment_on_figures_needs_no_table(submit: Write) -> None:
    rows = with_row(PLAIN, "Range", claimed="8000 VA")
    found = reviewed(submit(changed(PLAIN, rows=rows, total="20480 VA", amperes="85.3 A")), seconds=0.0)
    assert found.put_right is not None
    assert [each.total for each in found.put_right.steps] == [20480.0, 22080.0]
    assert "one after another" not in written(found)
    assert "alone" not in written(found)


def test_what_of_a_total_no_comment_explains_is_told(submit: Write) -> None:
    """The range at 8000 for 12000, and the total of the right one: the submitted figures come to 20480 VA."""
    found = reviewed(submit(changed(PLAIN, rows=with_row(PLAIN, "Range", claimed="8000 VA"))), seconds=0.0)
    assert found.put_right is not None
    assert (found.put_right.submitted, found.put_right.follows) == ("22,080 VA", "20,480 VA")
    assert found.put_right.not_explained == pytest.approx(1600.0)
    assert "the submitted figures come to 20,480 VA. We cannot explain the difference of 1,600 VA" in written(found)


def test_where_nothing_is_wrong_nothing_is_put_right(submit: Write) -> None:
    assert reviewed(submit(PLAIN), seconds=0.0).put_right is None


def test_with_loads_lacking_no_step_fits(submit: Write) -> None:
    gazebo = {"label": "Gazebo", "nameplate": "1000 W", "claimed": "1000 VA"}
    rows = [*with_row(PLAIN, "Range", claimed="8000 VA"), gazebo]
    found = reviewed(submit(changed(PLAIN, rows=rows, total="20880 VA", amperes="87 A")), seconds=0.0)
    assert found.put_right is not None
    assert {each.verdict for each in found.put_right.steps} == {"open"}


# Readings of the code that the outcome hangs on


def charging(claimed: str = "7680 VA", **more: Any) -> Tree:
    """Charging at 32 A among the general loads, 25152 VA, 104.8 A; apart 29760, 124 A; apart at 125 %, 31680, 132 A."""
    charger = {"label": "EV charger", "nameplate": "32 A at 240 V", "claimed": claimed}
    service = changed(PLAIN["service"], rating="110 A", conductors={"size": "1 AWG", "material": "copper"})
    return changed(PLAIN, service=service, rows=[*PLAIN["rows"], charger], total="25152 VA", amperes="104.8 A", **more)


def test_a_reading_that_the_outcome_hangs_on_is_told_to_the_reviewer_and_is_no_comment(submit: Write) -> None:
    found = reviewed(submit(charging()))
    (one,) = found.readings
    assert (found.findings, one.address, one.outcome) == ([], "listed_loads.charging_in_optional", "104.80 A, fits")
    assert list(one.otherwise.values()) == ["124.00 A, does not fit", "132.00 A, does not fit"]
    pages = " ".join(as_text(review_pages(found), None).split())
    assert "As read here (it is an appliance" in pages
    assert "124.00 A, does not fit" in pages
    assert "`interpretations: {charging in optional: in pool}`" in pages


def test_the_letter_says_how_the_code_is_read_and_asks_nothing_of_it(submit: Write) -> None:
    told = " ".join(written(reviewed(submit(charging()))).split())
    assert "question, " not in told
    assert "this letter holds as it is read here." in told
    assert "It is read so here: it is an appliance" in told
    assert "124.00" not in told
    assert "depends" not in told


def test_a_reading_that_the_reviewer_has_chosen_is_no_question(submit: Write) -> None:
    tree = charging(interpretations={"charging_in_optional": "apart"}) | {"total": "29760 VA", "amperes": "124 A"}
    found = reviewed(submit(tree))
    assert (found.findings, found.answer.verdict) == ([], "does not fit")
    assert [(each.option, each.turns) for each in found.readings] == [("apart", False)]
    told = " ".join(written(found).split())
    assert "It is read so here: some authorities" in told
    assert "The department decides" not in told
    assert "To the reviewer" not in as_text(review_pages(found), None)


@pytest.mark.parametrize(("taken", "other"), [("open", "fits"), ("fits", "open"), ("open", "open")])
def test_an_open_outcome_hangs_on_no_reading(submit: Write, monkeypatch: pytest.MonkeyPatch, taken: str, other: str) -> None:
    read = {"listed_loads.charging_in_optional": "in_pool"}

    def judged(_rules: object, _asked: object, choices: object = None) -> Judged:
        return Judged(100.0, other if choices else taken, read=read)

    monkeypatch.setattr("dwellcalc.review.of_readings.judged", judged)
    assert readings_of(submit(PLAIN)) == []


def test_where_every_reading_gives_the_same_outcome_nothing_hangs_on_it(submit: Write) -> None:
    tree = charging() | {
        "service": changed(PLAIN["service"], rating="150 A", conductors={"size": "1/0 AWG", "material": "copper"})
    }
    found = reviewed(submit(tree))
    assert (found.findings, found.readings) == ([], [])


def test_the_rating_of_a_new_service_hangs_on_a_reading(submit: Write) -> None:
    """104.8 A take 110 A, 124 A take 125 A, 132 A take 150 A."""
    service = {"system": PLAIN["service"]["system"], "state": "to be installed"}
    (one,) = reviewed(submit(charging() | {"service": service})).readings
    assert one.outcome == "104.80 A, a rating of 110 A"
    assert "124.00 A, a rating of 125 A" in one.otherwise.values()


def test_a_method_that_may_be_used_by_one_reading_alone_hangs_on_it(submit: Write) -> None:
    """4 AWG copper is allowed for 100 A of a dwelling, and has an ampacity of 85 A."""
    service = changed(PLAIN["service"], conductors={"size": "4 AWG", "material": "copper"})
    found = reviewed(submit(changed(PLAIN, service=service)))
    told = {each.address.rpartition(".")[2]: each.otherwise for each in found.readings}
    assert set(told) == {"hundred_ampere_condition", "capacity_by_dwelling_rule"}
    assert told["hundred_ampere_condition"] == {"the ampacity of the table itself is compared": "the method may not be used"}


# The method, sections, evidence, schedule, scope


def test_a_method_that_may_not_be_used_is_an_error(submit: Write) -> None:
    found = reviewed(
        submit(changed(PLAIN, service=changed(PLAIN["service"], conductors={"size": "6 AWG", "material": "copper"})))
    )
    assert any(
        each.about == "method" and each.severity == ERROR and "ampacity below 100 A" in each.text for each in found.findings
    )


def test_a_method_that_is_not_named_is_asked_for(submit: Write) -> None:
    tree = {name: each for name, each in PLAIN.items() if name not in ("method", "edition")}
    found = reviewed(submit(tree))
    assert [(each.id, each.severity) for each in found.findings] == [
        ("method not named", QUESTION),
        ("edition not named", QUESTION),
    ]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("cited", "severity"),
    [
        ("220.82(B)(3)", None),
        ("NEC 220.82(B)(3)(b)", None),
        ("220.82", None),
        ("120.82(B)(3)(b)", ERROR),  # of 2026
        ("430.24", REMARK),
    ],
)
def test_sections(submit: Write, cited: str, severity: str | None) -> None:
    found = reviewed(submit(changed(PLAIN, rows=with_row(PLAIN, "Range", section=cited))))
    assert [each.severity for each in found.findings if each.about == "section"] == ([severity] if severity else [])


@pytest.mark.slow
def test_sections_of_another_edition_are_one_comment(submit: Write) -> None:
    rows = [{**row, "section": "220.82(B)"} for row in without_rows(PLAIN, "AC")]
    found = reviewed(submit(changed(PLAIN, edition="nec/2026", rows=[*rows, *PLAIN["rows"][-1:]])))
    one = only(found, "section")
    assert one.title == "Sections of NEC 2014 to NEC 2023 are cited"
    assert one.text.count("220.82(B) is 120.82(B)") == 5
    assert found.submittal["method"] == "optional_dwelling"  # named by its section of 2023
    assert "NEC 2026" in found.edition_remark or "2026" in found.edition_remark
    assert found.edition_remark in written(found)


def test_what_rests_on_evidence_is_asked_for_until_it_is_shown(submit: Write) -> None:
    charger = {"label": "EV charger", "nameplate": "setting 16 A", "claimed": "3840 VA"}
    tree = changed(
        PLAIN, rows=[*PLAIN["rows"], charger], total="23616 VA", amperes="98.4 A", evidence={"nameplates": "photographs"}
    )
    asked = only(reviewed(submit(tree)), "evidence")
    assert (asked.severity, asked.section) == (QUESTION, "625.42(B)")
    assert "EV charger" in asked.text
    shown = reviewed(submit(changed(tree, evidence={"nameplates": "photographs", "settings": "manual, page 12"})))
    assert shown.findings == []
    assert [each.turns for each in shown.readings] == [True]  # 98.4 of 100 A, which charging at full rating would pass


def test_facts_of_a_row_reach_the_home(submit: Write) -> None:
    """A heat pump that is locked out: the strips alone at 65 %, 6240 VA, over the compressor's 4800."""
    rows = [
        *without_rows(PLAIN, "AC"),
        {"label": "Heat pump", "nameplate": "20 A at 240 V", "facts": {"stops for supplemental heat": "yes"}},
        {"label": "Strip heat", "nameplate": "9600 W"},
    ]
    found = reviewed(submit(changed(PLAIN, rows=rows, total="23520 VA", amperes="98 A")))
    assert set(outcomes(found).values()) == {"agrees"}
    assert [each.id for each in found.findings] == ["evidence: lockout", "evidence: air_handler"]


def test_nameplates_are_asked_for(submit: Write) -> None:
    found = reviewed(submit(changed(PLAIN, evidence={})))
    assert "Range, Water heater, AC" in only(found, "evidence").text
    rows = [{**row, "evidence": "photo 1"} for row in PLAIN["rows"]]
    assert reviewed(submit(changed(PLAIN, rows=rows, evidence={}))).findings == []


def test_a_figure_without_a_nameplate_is_taken_for_the_rating(submit: Write) -> None:
    rows = [{name: each for name, each in row.items() if row["label"] != "Range" or name != "nameplate"} for row in PLAIN["rows"]]
    found = reviewed(submit(changed(PLAIN, rows=rows, evidence={})))
    assert set(outcomes(found).values()) == {"agrees"}
    assert any(each.title.startswith("Ratings not given") and "Range" in each.text for each in found.findings)


def test_circuits_that_are_not_said_are_taken_and_told(submit: Write) -> None:
    found = reviewed(submit(changed(PLAIN, rows=without_rows(PLAIN, "Laundry"), total="22080 VA")))
    assert "laundry" in only(found, "not said").title
    assert outcomes(found)["Total"] == "agrees"


def test_the_schedule_and_the_scope_are_held_against_the_loads(submit: Write) -> None:
    schedule = [
        {"label": "Range", "breaker": "40 A"},  # 12 kW by Note 4: 8000 VA, 33.3 A
        {"label": "Water heater", "breaker": "20 A"},  # 18.75 A, 125 % of it 23.4 A
        {"label": "Hot tub", "breaker": "50 A"},
        {"label": "Bedroom lights", "breaker": "15 A"},
    ]
    rows = with_row(PLAIN, "Water heater", status="planned")
    found = reviewed(submit(changed(PLAIN, rows=rows, panel_schedule=schedule, scope=["EV charger", "Skylight"])))
    by_id = {each.id: each for each in found.findings}
    assert {name for name, each in by_id.items() if each.severity == ERROR} == {
        "schedule: Hot tub",
        "breaker: Water heater",
        "scope: EV charger",
    }
    assert (
        "25 A or more, since its minimum ampacity is 4,500 VA \N{DIVISION SIGN} 240 V \N{MULTIPLICATION SIGN} 125 % = 23.44 A"
        in by_id["breaker: Water heater"].text
    )
    assert "AC" in by_id["schedule lacks loads"].text
    assert "scope not matched: Skylight" in by_id


def test_what_the_method_leaves_out_is_told(submit: Write) -> None:
    rows = [
        *PLAIN["rows"],
        {"label": "Fridge", "nameplate": "6 A at 120 V", "claimed": "720 VA", "facts": {"individual circuit": "no"}},
    ]
    assert "Fridge" in only(reviewed(submit(changed(PLAIN, rows=rows))), "left out").title


def test_a_line_that_cannot_be_calculated_is_open_and_asks(submit: Write) -> None:
    load = {"name": "Water heater", "kind": "storage water heater", "rating": "unknown"}
    unit = {
        "name": "house",
        "areas": [{"kind": "living", "area": "2400 ft2"}],
        "small_appliance_circuits": 2,
        "laundry_circuits": 1,
        "loads": [load],
    }
    tree = {name: PLAIN[name] for name in ("submittal", "edition", "method", "total")}
    home = {"home": "Given", "service": PLAIN["service"], "dwelling_units": [unit]}
    found = reviewed(submit(tree | {"home": home, "evidence": PLAIN["evidence"]}))
    assert outcomes(found)["Total"] == "cannot be calculated"
    assert not [each for each in found.findings if each.severity == ERROR]
    assert only(found, "not said").severity == QUESTION


# Order, letter, rounds, the command


def test_what_changes_the_verdict_comes_first() -> None:
    def finding(name: str, severity: str, effect: float, after: str = "fits") -> Finding:
        return Finding(
            name, severity, "code", "figure", name, "", effect_amperes=effect, verdict_before="fits", verdict_after=after
        )

    listed = [finding("a", QUESTION, 1), finding("b", ERROR, 2), finding("c", ERROR, -9), finding("d", REMARK, 1, "does not fit")]
    assert [each.id for each in in_order(listed)] == ["d", "c", "b", "a"]


def test_the_letter_says_section_submitted_computed_and_what_to_send() -> None:
    found = reviewed(read_submittal(SERVICE_CHANGE, date=DAY))
    told = written(found)
    for each in (
        "220.82(B)(3)(b)",
        "8,000 VA",
        "12,000 VA",
        "Please send the calculation with the range at its nameplate rating.",
        "and the service no longer suffices",
    ):
        assert each in told
    assert "| Range" in as_markdown(letter(found))
    for word in ("approved", "refused", "safe", "denied", "rejected"):
        assert word not in told.casefold()


def test_a_second_round_tells_what_became_of_each_comment(submit: Write, tmp_path: Path) -> None:
    first = reviewed(
        submit(changed(PLAIN, rows=with_row(PLAIN, "Range", claimed="8000 VA"), evidence={}, total="20480 VA", amperes="85.3 A"))
    )
    (tmp_path / "first.json").write_text(json.dumps(first.json()), encoding="utf-8")
    rows = with_row(PLAIN, "Range", section="430.24")
    second = reviewed(submit(changed(PLAIN, rows=rows, evidence={})))
    title, earlier = earlier_findings(tmp_path / "first.json")
    assert title == f"Plain house, 5 Alder Row, {DAY}"
    became = {each.id.split()[0]: each.outcome for each in rounds(second.findings, earlier)}
    assert became == {"mistake": "closed", "evidence:": "still open", "section": "new"}


def test_the_command_reviews_and_says_by_its_code(tmp_path: Path, run: Run) -> None:
    code, out, err = run("review", str(SERVICE_CHANGE))
    assert (code, err) == (1, "")
    assert "does not fit: 143.50 A on 125 A" in out
    good = tmp_path / "good.yaml"
    good.write_text(yaml.safe_dump(PLAIN, sort_keys=False), encoding="utf-8")
    assert run("review", str(good))[0] == 0
    code, out, _ = run("review", str(SERVICE_CHANGE), "--letter", "--format", "markdown")
    assert out.startswith("# Comments on the calculation")
    earlier = tmp_path / "earlier.json"
    earlier.write_text(run("review", str(SERVICE_CHANGE), "--format", "json")[1], encoding="utf-8")
    assert "8 still open" in run("review", str(SERVICE_CHANGE), "--against", str(earlier))[1]
    assert run("review", str(tmp_path / "none.yaml"))[0] == 2


def test_the_catalogue_is_listed_by_edition(run: Run) -> None:
    code, out, _ = run("rules", "mistakes", "nec/2014", "--format", "markdown")
    assert code == 0
    assert "the range is counted by the table of cooking appliances" in out
    assert "Not of this edition:" in out
    assert "{" not in out


def test_a_published_example_is_a_submittal() -> None:
    found = reviewed(read_submittal(PUBLISHED / "opt_doc_2400.yaml", date=DAY))
    assert "central" in only(found, "mistake").text
    assert found.answer.amperes == pytest.approx(119.67, abs=0.01)


def test_an_edition_may_be_asked_for_instead(tmp_path: Path) -> None:
    path = tmp_path / "submittal.yaml"
    path.write_text(yaml.safe_dump(PLAIN, sort_keys=False), encoding="utf-8")
    found = reviewed(read_submittal(path, date=DAY, edition="nec/2014"))
    assert found.submittal["edition"] == "NEC 2014"
    with pytest.raises(InputError):
        read_submittal(path, date=DAY, edition="nec/1999")
