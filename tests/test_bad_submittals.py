"""One broken submittal, review or sheet for every message about such, with the full text that a user reads."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from test_bad import BAD, agree, cases, refused

from dwellcalc.cli.review_actions import review_submittal
from dwellcalc.review.review import review
from dwellcalc.review.rounds import earlier_findings
from dwellcalc.review.sheets.verify import assessed_again, read_document, verify
from dwellcalc.review.submittal_reader import read_submittal

FOLDER = "submittals"
DAY = "2026-05-04"
READ: dict[str, Callable[[str], object]] = {
    "against_no_review": earlier_findings,
    "review_not_over": lambda name: review_submittal(
        name, against="", edition="", rules=None, form="text", letter_alone=True, output=name
    ),
    "verify_not_ours": lambda name: verify(name, tolerance=0.0),
    "verify_no_home": lambda name: assessed_again(read_document(name), Path(), None),
    "struck_unknown": lambda name: review(read_submittal(name, date=DAY), date=DAY, seconds=0.0),
    "struck_unclear": lambda name: review(read_submittal(name, date=DAY), date=DAY, seconds=0.0),
    "submittal_no_review": lambda name: read_submittal(name, date=DAY, rules=BAD / "base"),
}


@pytest.mark.parametrize("name", cases(FOLDER))
def test_broken_submittals(name: str, monkeypatch: pytest.MonkeyPatch, rewrite_expected: bool) -> None:
    monkeypatch.chdir(BAD / FOLDER)
    read = READ.get(name, lambda file: read_submittal(file, date=DAY))
    agree(FOLDER, name, refused(lambda: read(f"{name}.yaml")), rewrite_expected)


def test_every_case_has_its_text() -> None:
    assert all((BAD / FOLDER / f"{name}.expected").is_file() for name in cases(FOLDER))
