"""One broken case for every message of tables of interval data, with the full text that a user reads.

A case bears the key of its message. ``file`` is the table; ``then`` is a text that follows it so many ``times``, in which
``{number}`` counts; ``said`` is what the home file says of it; ``also`` names other messages that it gives. Run pytest with
``--rewrite-expected`` to write the texts anew, and read the difference.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from dwellcalc.language.rule_set import installed_folder, read_glossary
from dwellcalc.meter.record import Said
from dwellcalc.meter.tables.tabular import read_table
from dwellcalc.problems import InputError

CASES = Path(__file__).parent / "bad" / "meter_tables"
CASE_KEYS = {"file", "then", "said", "also"}
HEADINGS = read_glossary(installed_folder()).interval_columns


def names() -> list[str]:
    return sorted({path.stem for path in CASES.iterdir()})


def text_of(case: dict[str, Any]) -> str:
    then = case.get("then", {"text": "", "times": 0})
    return case["file"] + "".join(then["text"].replace("{number}", str(number)) for number in range(then["times"]))


@pytest.mark.parametrize("name", names())
def test_broken_tables(name: str, rewrite_expected: bool) -> None:
    case = yaml.load((CASES / f"{name}.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    assert set(case) <= CASE_KEYS
    if "then" in case:
        case["then"]["times"] = int(case["then"]["times"])
    said = case.get("said", {})
    if "interval" in said:
        said["interval"] = int(said["interval"])
    with pytest.raises(InputError) as caught:
        read_table(text_of(case).splitlines(keepends=True), "meter.csv", Said(**said), HEADINGS)
    assert {problem.message.key for problem in caught.value.problems} == {name, *case.get("also", ())}
    expected = CASES / f"{name}.expected"
    if rewrite_expected:
        expected.write_text(f"{caught.value}\n", encoding="utf-8")
    assert f"{caught.value}\n" == expected.read_text(encoding="utf-8")


def test_every_case_is_whole() -> None:
    for name in names():
        assert {path.suffix for path in CASES.glob(f"{name}.*")} == {".yaml", ".expected"}
