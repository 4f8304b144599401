"""Rules from outside the package, on the command line: good ones are used, those that cannot be proved are refused."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from assessments import Tree
from commands import Run

TINY = Path(__file__).parent / "bad" / "base"
TINY_HOME = {
    "home": "7 Larch Court",
    "service": {"system": "120/240 V", "rating": "100 A"},
    "dwelling units": [
        {
            "name": "house",
            "areas": [{"kind": "living", "area": "1240 ft2"}],
            "loads": [{"name": "heater", "kind": "space heater", "rating": "2 kW"}],
        }
    ],
}


@pytest.fixture
def rules(tmp_path: Path) -> Path:
    """A folder of small rules that may be changed."""
    shutil.copytree(TINY, tmp_path / "rules")
    return tmp_path / "rules"


def spoiled(rules: Path, file: str, old: str, new: str) -> None:
    """Rules with one text replaced that stands in them once."""
    text = (rules / file).read_text(encoding="utf-8")
    assert text.count(old) == 1
    (rules / file).write_text(text.replace(old, new), encoding="utf-8")


def test_good_rules_from_outside_are_used(run: Run, file: Callable[[Tree], str], rules: Path) -> None:
    """Lighting: 3 VA/ft2 of 1,240 ft2, all of 3 kVA and 30 % of the rest by the second edition; a heater of 2 kW."""
    code, out, err = run("assess", file(TINY_HOME), "--rules", str(rules), "--format", "json")
    assert (code, err) == (0, "")
    document = json.loads(out)
    assert document["rule_set"]["id"] == "tiny/second"
    assert document["supplies"][0]["total"] == pytest.approx(3000 + 0.30 * 720 + 2000)
    assert run("explain", file(TINY_HOME), "house.lighting", "--rules", str(rules))[0] == 0
    code, out, _ = run("rules", "check", str(rules))
    assert (code, out.split("\n")[:2]) == (0, ["tiny/first: no problem found", "tiny/second: no problem found"])


@pytest.mark.slow
def test_rules_from_outside_that_cannot_be_proved_are_refused(run: Run, file: Callable[[Tree], str], rules: Path) -> None:
    """They load, and this home has no charger; but a charger would be counted twice."""
    spoiled(rules, "tiny/house.yaml", "installed except ranges, heaters, chargers", "installed except ranges, heaters")
    for arguments in (("assess", file(TINY_HOME)), ("explain", file(TINY_HOME), "house.lighting")):
        code, out, err = run(*arguments, "--rules", str(rules))
        assert (code, out) == (2, "")
        assert re.search(r"tiny/house.yaml:\d+:\d+: .* counts a", err)
        assert "hint: every load counts once" in err
    code, out, err = run("rules", "check", str(rules))
    assert code == 2
    assert re.search(r"tiny/second: [1-9]\d* problems? found", out)
    assert "tiny/house.yaml" in err


def test_a_short_name_of_two_interpretations_is_refused(run: Run, file: Callable[[Tree], str], rules: Path) -> None:
    house_rules = (rules / "tiny" / "house.yaml").read_text(encoding="utf-8")
    block = house_rules[house_rules.index("interpretations:") : house_rules.index("permitted:")]
    cases = "cases: [{when: charging_counted is in_full, then: calculated_amperes}, {otherwise: nearest}]"
    spoiled(rules, "tiny/sizing.yaml", "value: smaller(calculated_amperes, nearest)", cases)
    spoiled(rules, "tiny/sizing.yaml", "groups:\n", block.replace("{charging_share}", "a share") + "groups:\n")
    heater = TINY_HOME["dwelling units"][0]["loads"][0]  # type: ignore[index]
    home = {**TINY_HOME, "dwelling units": [{**TINY_HOME["dwelling units"][0], "loads": [{**heater, "kind": "vehicle charger"}]}]}  # type: ignore[dict-item]
    wanted = {"house.charging_counted": 3216 + 0.8 * 2000, "sizing.charging_counted": 3216 + 2000, "charging_counted": None}
    for name, total in wanted.items():
        code, out, err = run(
            "assess", file({**home, "interpretations": {name: "at_share"}}), "--rules", str(rules), "--format", "json"
        )
        if total is None:
            assert (code, out) == (2, "")
            assert 'no interpretation "charging_counted"' in err
            assert 'did you mean "charging_counted"' not in err
            assert re.search(r'did you mean "(house|sizing)\.charging_counted"|interpretations: ', err)
        else:
            assert json.loads(out)["supplies"][0]["total"] == pytest.approx(total)


def test_an_edition_is_shown_as_a_document(run: Run, rules: Path) -> None:
    code, out, err = run("rules", "show", "tiny/second", "--rules", str(rules), "--format", "markdown")
    assert (code, err) == (0, "")
    assert "Calculated load of a house" in out
    assert run("rules", "show", "tiny/third", "--rules", str(rules))[:2] == (2, "")
