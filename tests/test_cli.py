"""The command, run within the process: exit codes, what is printed where, explanations, methods."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from assessments import DEMO, DEMOS, Tree, demo, demo_assessed, house, load
from commands import Run
from samples import first_of

from dwellcalc.report.line_numbers import numberings
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import as_markdown, as_text
from dwellcalc.review.sheets.recompute import recompute_document


def all_day(rating: str = "200 A", **more: object) -> Tree:
    loads = [load("range", "range", "11 kW"), load("heat pump", "heat pump", "20 A at 240 V"), load("dryer", "dryer", "5 kW")]
    return house(loads, rating=rating, **more)


def path_of(name: str) -> str:
    return str(DEMO / f"{name}.yaml")


# --- exit codes


def open_home() -> Tree:
    tree = all_day()
    tree["dwelling units"][0]["loads"][0]["rating"] = "unknown"
    return tree


def feeders(*ratings: str) -> Tree:
    """A duplex, with a feeder of a rating to each unit; one of no rating stands open, for its supply exists."""
    tree = demo("duplex")
    tree["service"].update(rating="400 A", conductors={"size": "600 kcmil", "material": "copper"})
    for feeder, rating in zip(tree["feeders"], ratings, strict=True):
        feeder["conductors"] = {"size": "1 AWG", "material": "copper"}
        del feeder["rating"]
        if rating:
            feeder["rating"] = rating
    return tree


@pytest.mark.parametrize(
    ("tree", "code", "verdicts"),
    [
        (all_day(), 0, ["Fits"]),
        (all_day("60 A"), 1, ["Does not fit"]),
        (open_home(), 3, ["Open"]),
        (all_day(state="to be installed", rating="200 A", conductors="not seen"), 0, ["Fits"]),
        (feeders("100 A", "100 A"), 0, ["Fits", "Fits", "Fits"]),
        (feeders("100 A", ""), 3, ["Fits", "Fits", "Open"]),
        (feeders("60 A", ""), 1, ["Fits", "Does not fit", "Open"]),
        (feeders("", "60 A"), 1, ["Fits", "Open", "Does not fit"]),
    ],
)
def test_the_exit_code(run: Run, file: Callable[[Tree], str], tree: Tree, code: int, verdicts: list[str]) -> None:
    found, out, err = run("assess", file(tree))
    assert (found, err) == (code, "")
    assert re.findall(r"(?m)^(Fits|Does not fit|Open)(?:, .*by the method|: )", out) == verdicts


def test_nothing_to_compare_is_no_failure(run: Run, file: Callable[[Tree], str]) -> None:
    tree = all_day(state="to be installed", conductors="not seen")
    del tree["service"]["rating"]
    code, out, _ = run("assess", file(tree))
    assert code == 0
    assert "Nothing to compare with: no rating of a supply is given." in out


BAD = [
    (lambda tree: tree["service"].update(ratng="100 A"), "ratng", "rating"),
    (lambda tree: tree["service"].update(part_of_dwelling="yes"), "part_of_dwelling", "hint"),
    (lambda tree: tree["service"].update(system="120/240"), "120/240", "120/240 V single-phase 3-wire"),
    (lambda tree: tree["dwelling units"][0]["loads"][1].update(kind="heat pmup"), "heat pmup", "heat pump"),
    (lambda tree: tree["dwelling units"][0]["loads"][2].update(rating="5 kg"), "kg", "kW"),
    (lambda tree: tree.update(interpretations={"charging in optionl": "apart"}), "charging in optionl", "charging_in_optional"),
    (lambda tree: tree.update(interpretations={"charging in optional": "apart at 12"}), "apart at 12", "apart_at_125"),
    (lambda tree: tree.update(code="nec/2021"), "nec/2021", 'did you mean "nec/2026"?'),
]


@pytest.mark.parametrize(("broken", "wrong", "hint"), BAD)
def test_bad_input_is_told_with_its_place_and_a_hint(
    run: Run, file: Callable[[Tree], str], broken: Callable[[Tree], None], wrong: str, hint: str
) -> None:
    tree = all_day()
    broken(tree)
    path = file(tree)
    code, out, err = run("assess", path)
    assert (code, out) == (2, "")
    place = re.search(rf"(?m)^{re.escape(path)}:(\d+):(\d+): (.*)$", err)
    assert place, err
    assert wrong in place[3]
    assert wrong in Path(path).read_text(encoding="utf-8").split("\n")[int(place[1]) - 1]
    assert hint in err.split(place[3])[1]


def test_bad_input_prints_nothing_in_other_forms_either(run: Run, file: Callable[[Tree], str]) -> None:
    path = file({**all_day(), "code": "nec/2021"})
    for arguments in (("assess", path, "--format", "json"), ("explain", path, "1")):
        code, out, err = run(*arguments)
        assert (code, out) == (2, "")
        assert err.startswith(f"{path}:")


@pytest.mark.parametrize(
    ("arguments", "wrong"),
    [
        (["assess", "nowhere.yaml"], "nowhere.yaml"),
        (["assess", path_of("duplex"), "--method", "standrd"], 'no single method of the assessment is meant by "standrd"'),
        (["assess", path_of("duplex"), "--edition", "nec/2029"], 'no edition "nec/2029"'),
        (["explain", path_of("duplex"), "no such line"], 'no line "no such line"'),
        (["explain", path_of("duplex"), "4000"], 'no line "4000"'),
    ],
)
def test_arguments_that_name_nothing(run: Run, arguments: list[str], wrong: str) -> None:
    code, out, err = run(*arguments)
    assert (code, out) == (2, "")
    assert wrong in err


def test_no_command_prints_the_help(run: Run) -> None:
    code, out, err = run()
    assert (code, err) == (0, "")
    assert "assess" in out
    assert "explain" in out


# --- what is printed


@pytest.mark.parametrize("full", [False, True])
def test_the_sheet_is_printed_as_text_and_markdown(run: Run, full: bool) -> None:
    dated = re.compile(r"Date of the calculation.*|home file as it is written\s+\w+")
    blocks = sheet_pages(demo_assessed("new_all_electric_house"), full=full)
    more = ["--full"] if full else []
    _, text, _ = run("assess", path_of("new_all_electric_house"), *more)
    _, marked, _ = run("assess", path_of("new_all_electric_house"), "--format", "markdown", *more)
    assert squeezed(dated.sub("", text)) == squeezed(dated.sub("", as_text(blocks, 110)))
    assert squeezed(dated.sub("", marked)) == squeezed(dated.sub("", as_markdown(blocks)))
    assert max(map(len, text.split("\n"))) <= 110


def squeezed(text: str) -> str:
    """A text without places of files, which differ, and without empty lines at its ends."""
    return re.sub(r"facts \w+", "facts", text).strip()


QUICK = ("new_all_electric_house", "house_half_read", "three_flats", "house_with_meter_record", "twelve_apartments")


@pytest.mark.slow
@pytest.mark.parametrize("name", first_of(DEMOS, QUICK))
def test_the_document_stands_a_second_calculation(run: Run, name: str) -> None:
    code, out, err = run("assess", path_of(name), "--format", "json")
    document = json.loads(out)
    assert recompute_document(document, tolerance=1e-9) == []
    verdicts = [each["verdict"] for each in document["supplies"]]
    assert verdicts == [each.verdict for each in demo_assessed(name).supplies]
    short = any(each.get("shortcomings") for each in document["supplies"])
    assert (code, err) == (1 if "does not fit" in verdicts or short else 3 if "open" in verdicts else 0, "")
    assert document["format"] == 1


@pytest.mark.slow
def test_the_second_calculation_would_find_a_changed_document(run: Run) -> None:
    document = json.loads(run("assess", path_of("duplex"), "--format", "json")[1])
    lines = [line for sheet in document["supplies"][0]["methods"] for line in sheet["lines"]]
    totals = [each for each in lines if each["id"] == "standard.total" and each["value"] is not None]
    assert len(totals) == 2  # on the sheet of the method, and on that of 220.85, which compares with it
    for line in totals:
        line["value"] += 1
        assert recompute_document(document, tolerance=1e-9) != []
        line["value"] -= 1
    assert recompute_document(document, tolerance=1e-9) == []


@pytest.mark.slow
@pytest.mark.parametrize("method", ["standard", "optional_dwelling"])
def test_the_method_that_is_asked_for(run: Run, file: Callable[[Tree], str], method: str) -> None:
    """Standard: 5,100 lighting, 8,000 range, 5,000 dryer, 125 % of 4,800; optional: pool 25,000, pump 4,800 [VA]."""
    by_hand = {"standard": 5100 + 8000 + 5000 + 1.25 * 4800, "optional_dwelling": 10000 + 0.4 * 15000 + 4800}
    path = file(all_day())
    _, out, _ = run("assess", path, "--method", method)
    assert "(asked for by name)" in out
    assert f"({by_hand[method] / 240:.2f} A unrounded)" in out
    document = json.loads(run("assess", path, "--method", method, "--format", "json")[1])
    assert document["supplies"][0]["basis"]["method"] == method


@pytest.mark.slow
def test_the_edition_that_is_asked_for(run: Run) -> None:
    for edition, spelled in (("nec/2014", "nec 2014"), ("nec/2020", "NEC 2020"), ("nec/2026", "nec/2026")):
        document = json.loads(run("assess", path_of("small_gas_heated_house"), "--edition", spelled, "--format", "json")[1])
        assert document["rule_set"]["id"] == edition


# --- explanations


def test_a_line_is_explained_by_its_number(run: Run) -> None:
    """Every number of the sheet of one home, taken from the printed text."""
    name = "small_gas_heated_house"
    numbered = numberings(demo_assessed(name), full=False)[0].lines
    text = as_text(sheet_pages(demo_assessed(name), full=False), None)
    titles = dict(re.findall(r"(?m)^ *(\d+)  (\S.*?)  ", text))
    assert set(titles) == set(numbered)
    for number in list(numbered)[::9]:
        code, out, _ = run("explain", path_of(name), number)
        assert code == 0
        assert out.split("\n")[0] == titles[number]
        assert numbered[number].id in out.split("\n")[3]


def test_the_lines_of_a_feeder_have_numbers_of_their_own(run: Run) -> None:
    service, feeder = numberings(demo_assessed("farm_house_with_shop"), full=False)
    assert set(service.lines).isdisjoint(feeder.lines)
    assert [int(number) for number in (*service.lines, *feeder.lines)] == list(
        range(1, len(service.lines) + len(feeder.lines) + 1)
    )
    total = next(number for number, line in feeder.lines.items() if line.id == "standard.total")
    code, out, _ = run("explain", path_of("farm_house_with_shop"), total)
    assert code == 0
    assert "Result: 22,320 VA" in out


def test_a_line_is_explained_by_id_and_title(run: Run) -> None:
    path = path_of("small_gas_heated_house")
    numbered = numberings(demo_assessed("small_gas_heated_house"), full=False)[0].lines
    total = next(number for number, line in numbered.items() if line.id == "existing_dwelling.total")
    wanted = run("explain", path, total)[1]
    assert wanted.startswith("Calculated load\n")
    assert "Result: 11,241.6 VA" in wanted  # 8,000 + 40 % of (2,340 + 4,500 + 864 + 720 + 7,680 - 8,000)
    assert run("explain", path, "existing_dwelling.total")[1] == wanted
    assert "Result: 13,824 VA" in run("explain", path, "standard.total")[1]
    assert "optional_dwelling.total, " in run("explain", path, "optional_dwelling.total")[1]
    for name in (
        "largest net load between the neutral and any one line",
        "neutral_amperes_unreduced",
        "neutral amperes unreduced",
    ):
        assert "neutral.neutral_amperes_unreduced, " in run("explain", path, name)[1]
    assert "sizing.capacity, " in run("explain", path, "capacity")[1]


def test_a_line_of_house_loads_is_explained_by_its_number(run: Run) -> None:
    path = path_of("three_flats")
    text = run("assess", path)[1]
    number = re.search(r"(?m)^ *(h\d+)  EV charging equipment  ", text)
    assert number is not None
    out = run("explain", path, number[1])[1]
    assert out.startswith("EV charging equipment\n")
    assert "\nmultifamily.house.charging_load, 220.14(A), NEC 2020\n" in out
    assert "Result: 7,680 VA" in out  # 32 A at 240 V
    assert run("explain", path, "multifamily.house.charging_load")[1] == out


def test_house_loads_are_worked_out_again(run: Run) -> None:
    """A figure changed in their sheet is found, and so is one that the method then does not read as it stands there."""

    def document() -> Any:
        return json.loads(run("assess", path_of("three_flats"), "--format", "json")[1])

    def house_total(found: Any) -> Any:
        (sheet,) = [each for each in found["supplies"][0]["methods"] if each["id"] == "multifamily"]
        (line,) = [each for each in sheet["runs"][0]["lines"] if each["id"] == "multifamily.house.total"]
        return line["outcome"] if "outcome" in line else line

    found = document()
    assert recompute_document(found, tolerance=1e-9) == []
    house_total(found)["value"] += 1
    wrong = {each.line for each in recompute_document(found, tolerance=1e-9)}
    assert wrong == {"multifamily.house.total", "multifamily.house.amperes", "multifamily.house_load_total"}


@pytest.mark.parametrize(
    ("state", "others"),
    [
        ("to be installed", "this one does: Standard calculation."),
        ("existing", "these do: Optional calculation for an existing dwelling unit, Standard calculation."),
    ],
)
def test_a_method_asked_for_that_may_not_be_used_is_told_with_one_that_may(
    run: Run, file: Callable[[Tree], str], state: str, others: str
) -> None:
    tree = demo("small_gas_heated_house")
    tree["service"]["state"] = state
    code, out, _ = run("assess", file(tree), "--method", "optional_dwelling")
    assert code == 3
    told = " ".join(out.split())
    assert f"the method that was asked for gives no result here; {others}" in told
    assert "Optional calculation for one dwelling unit - the supply" in told


def test_an_unknown_line_is_told_with_a_near_one(run: Run) -> None:
    code, out, err = run("explain", path_of("small_gas_heated_house"), "standard.totl")
    assert (code, out) == (2, "")
    assert "standard.total" in err


@pytest.mark.slow
def test_a_sheet_is_written_whole_and_never_over_its_home(run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    text = (DEMO / "small_gas_heated_house.yaml").read_text(encoding="utf-8")
    Path("home.yaml").write_text(text, encoding="utf-8")
    Path("link.yaml").symlink_to("home.yaml")
    expected = (Path(__file__).parent / "bad" / "commands" / "assess_not_the_home.expected").read_text(encoding="utf-8")
    for output in ("home.yaml", "link.yaml"):
        assert run("assess", "home.yaml", "--output", output) == (2, "", expected)
    assert Path("home.yaml").read_text(encoding="utf-8") == text
    code, said, _ = run("assess", "home.yaml", "--format", "html", "-o", "sheet.html")
    assert code == 0
    assert said.startswith(
        "In short, by NEC 2023 and the method named below:\nWith charger set to 32 A: fits.\nAs it is today: fits.\n"
    )
    assert "\nFits, with charger set to 32 A" in said
    assert said.rstrip().endswith("Written: sheet.html")
    assert Path("sheet.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    for form in ("text", "markdown", "json"):
        assert run("assess", "home.yaml", "--format", form, "-o", "sheet.html")[0] == 0
        assert "</html>" not in Path("sheet.html").read_text(encoding="utf-8")
    assert run("assess", "home.yaml", "--output", "not/there.html")[0] == 2
    assert sorted(path.name for path in tmp_path.iterdir()) == ["home.yaml", "link.yaml", "sheet.html"]


@pytest.mark.slow
def test_a_section_names_a_method_and_a_figure_of_the_first_page_its_line(run: Run) -> None:
    path = path_of("vacant_older_house")
    for said in ("220.83", "220.83(B)", "Optional calculation for an existing dwelling unit"):
        assert "asked for by name" in " ".join(run("assess", path, "--method", said)[1].split())
    assert run("assess", path, "--method", "220")[0] == 2
    # by hand: 220.83(A), 22,899 VA; the charger of 40 A less 40 % of its 9,600 VA without what is planned
    for title, result in (
        ("Calculated load", "22,899"),
        ("Without what is planned", "17,259"),
        ("Capacity of the supply", "100 A"),
        ("Margin", "4.59 A"),
    ):
        assert f"Result: {result}" in run("explain", path, title)[1], title


@pytest.mark.slow
def test_a_load_is_explained_by_its_name_and_an_empty_line_never_taken(run: Run) -> None:
    path = path_of("vacant_older_house")
    name = next(each["name"] for each in json.loads(run("assess", path, "--format", "json")[1])["supplies"][0]["loads"])
    code, out, _ = run("explain", path, name.upper())
    assert code == 0
    assert "Rating as written" in out
    assert "existing_dwelling.connected" in out
    for title in ("In amperes", "Capacity of the supply", "Load of the neutral"):
        told = run("explain", path, title)[1]
        assert "Result: " in told
        assert "did not need it" not in told
        assert "What it rests on" in told
