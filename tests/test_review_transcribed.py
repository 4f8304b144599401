"""Submittals as people write them, transcribed word for word: the right ones, and the same with two mistakes in each."""

from __future__ import annotations

from pathlib import Path

import pytest
from examples import rules_of

from dwellcalc.reading import read_text
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


@pytest.fixture(autouse=True)
def _rules_loaded_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("dwellcalc.decide.edition.load_rules", lambda edition, _folder=None, _amendments=(): rules_of(edition))


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
