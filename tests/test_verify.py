"""An assessment's JSON held against itself and the rules: all of it holds, or it is said what does not."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from assessments import DEMO
from commands import Run

from dwellcalc.cli.actions import Wanted, assessment
from dwellcalc.language.rule_set import installed_folder
from dwellcalc.review.sheets.verify import Verified, verify

TOLERANCE = 1e-9
SMALL, AMENDED, RECORD = "small_gas_heated_house", "denver_house_with_garage", "house_with_meter_record"
Entry = dict[str, Any]


def path_of(name: str) -> Path:
    return DEMO / f"{name}.yaml"


@pytest.fixture(scope="module")
def document() -> Entry:
    found: Entry = json.loads(json.dumps(assessment(str(path_of(SMALL)), Wanted()).json()))
    return found


@pytest.fixture
def verified(tmp_path: Path) -> Callable[..., Verified]:
    def hold(entry: Entry, **more: Any) -> Verified:
        path = tmp_path / "sheet.json"
        path.write_text(json.dumps(entry), encoding="utf-8")
        return verify(path, tolerance=TOLERANCE, **more)

    return hold


def copy(entry: Entry) -> Entry:
    made: Entry = json.loads(json.dumps(entry))
    return made


def test_a_sheet_as_it_was_written_holds(document: Entry, verified: Callable[..., Verified]) -> None:
    found = verified(document)
    assert found.holds
    assert found.lines > 100
    assert not found.rules_changed


def test_a_figure_that_was_changed_is_found_in_the_line_and_calculated_again(
    document: Entry, verified: Callable[..., Verified]
) -> None:
    entry = copy(document)
    sheet = entry["supplies"][0]["methods"][0]
    line = next(each for each in sheet["lines"] if each["id"].endswith(".total"))
    there = line["value"]
    line["value"] = there - 1000
    found = verified(entry)
    assert line["id"] in {each.line for each in found.disagreements}
    assert any(each.where.endswith(f"lines[{line['id']}].value") and each.calculated == str(there) for each in found.differences)


def test_a_home_that_was_changed_gives_other_figures(document: Entry, verified: Callable[..., Verified]) -> None:
    entry = copy(document)
    entry["home_file"] = entry["home_file"].replace("780 ft2", "880 ft2")
    found = verified(entry)
    assert not found.disagreements  # the lines still fit together
    assert found.facts_changed
    assert any(".total" in each.where for each in found.differences)


@pytest.mark.slow
def test_other_rules_are_told_and_what_they_change(document: Entry, verified: Callable[..., Verified], tmp_path: Path) -> None:
    rules = tmp_path / "rules"
    shutil.copytree(installed_folder(), rules)
    loads = rules / "nec" / "dwelling_loads.yaml"
    loads.write_text(loads.read_text(encoding="utf-8").replace("value: 3 VA/ft2", "value: 4 VA/ft2"), encoding="utf-8")
    found = verified(document, rules=rules)
    assert found.rules_changed
    assert any(".lighting" in each.where for each in found.differences)
    (rules / "nec" / "dwelling_loads.yaml").write_text("part: dwelling_loads\n", encoding="utf-8")
    assert "lacks" in verified(document, rules=rules).not_again


@pytest.mark.slow
def test_amendments_and_the_method_asked_for_are_taken_again(tmp_path: Path) -> None:
    for name, wanted, editions in ((AMENDED, Wanted(), True), (SMALL, Wanted(method="standard"), False)):
        path = tmp_path / f"{name}.json"
        path.write_text(json.dumps(assessment(str(path_of(name)), wanted, editions=editions).json()), encoding="utf-8")
        assert verify(path, tolerance=TOLERANCE).holds, name


@pytest.mark.slow
def test_an_amendment_from_outside_is_taken_from_the_document(tmp_path: Path) -> None:
    home = tmp_path / "home.yaml"
    own = tmp_path / "own.yaml"
    inside = next((installed_folder() / "amendments").glob("us/co/denver/**/*.yaml"))
    own.write_text(inside.read_text(encoding="utf-8"), encoding="utf-8")
    text = path_of(AMENDED).read_text(encoding="utf-8")
    head = next(line for line in text.splitlines() if line.startswith("amendments:"))
    home.write_text(text.replace(head, "amendments: [./own.yaml]"), encoding="utf-8")
    sheet = tmp_path / "sheet.json"
    sheet.write_text(json.dumps(assessment(str(home), Wanted()).json()), encoding="utf-8")
    own.unlink()
    found = verify(sheet, tolerance=TOLERANCE)
    assert not found.not_again
    assert not [each for each in found.differences if "lines" in each.where]


@pytest.mark.slow
def test_a_record_that_is_not_at_hand_is_said(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.json"
    sheet.write_text(json.dumps(assessment(str(path_of(RECORD)), Wanted()).json()), encoding="utf-8")
    assert "cannot be read" in verify(sheet, tolerance=TOLERANCE).not_again
    shutil.copy(path_of(RECORD).with_suffix(".csv.gz"), tmp_path)
    assert verify(sheet, tolerance=TOLERANCE).holds


@pytest.mark.slow
def test_the_command_says_what_no_longer_holds(document: Entry, tmp_path: Path, run: Run) -> None:
    path = tmp_path / "sheet.json"
    path.write_text(json.dumps(document), encoding="utf-8")
    code, out, err = run("verify", str(path))
    assert (code, err) == (0, "")
    assert "holds." in out
    path.write_text(json.dumps(document).replace('"fits"', '"does not fit"'), encoding="utf-8")
    code, out, _ = run("verify", str(path))
    assert code == 1
    assert "does not hold as it stands" in out
    assert "Calculated again" in out
    assert run("verify", str(path_of(SMALL)))[0] == 2
