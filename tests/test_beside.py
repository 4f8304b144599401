"""What every edition gives beside an assessment: the same as an assessment under that edition gives, with the same settings."""

from __future__ import annotations

from pathlib import Path

import pytest
from assessments import DATE, DEMO, assessed, home_of, house, load
from examples import rules_of

from dwellcalc.cli.actions import Wanted, assessment
from dwellcalc.compare.beside import offered_editions, tell_readings
from dwellcalc.compare.subjects import prepared
from dwellcalc.decide.edition_answers import EditionAnswer
from dwellcalc.language.rule_set import load_rules

WITHOUT_SETTINGS = ("denver_house_with_garage", "house_with_accessory_dwelling")
PLAIN = ["none"]  # no local amendments


def path_of(home: str) -> str:
    return str(DEMO / f"{home}.yaml")


@pytest.mark.slow
@pytest.mark.parametrize("home", [WITHOUT_SETTINGS[0], pytest.param(WITHOUT_SETTINGS[1], marks=pytest.mark.slow)])
def test_each_edition_gives_what_an_assessment_by_it_gives(home: str) -> None:
    found = assessment(path_of(home), Wanted(amendments=PLAIN), editions=True)
    assert not found.decision.settings
    told = [each.edition for each in found.supplies[0].editions]
    assert told == ["NEC 2014", "NEC 2017", "NEC 2020", "NEC 2023", "NEC 2026"]
    for at, title in enumerate(told):
        again = assessment(path_of(home), Wanted(edition=title.lower().replace(" ", "/"), amendments=PLAIN))
        for supply, other in zip(found.supplies, again.supplies, strict=True):
            answer = supply.editions[at]
            assert other.sizing is not None
            assert other.basis is not None
            assert (answer.amperes, answer.verdict, answer.method) == (other.sizing.amperes, other.verdict, other.basis.title)
            assert answer.own == (title == found.rule_set["title"])


@pytest.mark.slow
def test_with_settings_the_own_edition_gives_the_answer() -> None:
    found = assessment(path_of("new_all_electric_house"), Wanted(), editions=True)
    own = [each for each in found.supplies[0].editions if each.own]
    assert len(own) == 1
    assert found.supplies[0].sizing is not None
    assert own[0].amperes == found.supplies[0].sizing.amperes
    assert len({each.amperes for each in found.supplies[0].editions}) > 2


@pytest.mark.slow
def test_local_amendments_are_left_aside() -> None:
    found = assessment(path_of("denver_house_with_garage"), Wanted(), editions=True)
    supply = found.supplies[0]
    own = next(each for each in supply.editions if each.own)
    assert supply.without_amendments is not None
    assert own.amperes == supply.without_amendments.amperes
    assert supply.sizing is not None
    assert own.amperes != supply.sizing.amperes


def test_the_editions_are_those_that_are_offered() -> None:
    base = Path(__file__).parent / "bad" / "base"
    assert [each.id for each in offered_editions(load_rules("tiny/second", base), base)] == ["tiny/second"]


def test_a_reading_that_the_home_chose_is_told_where_an_edition_reads_otherwise() -> None:
    charger = {"name": "charger", "kind": "charger", "rating": "48 A at 240 V"}
    tree = house([load("range", "range", "12 kW")], planned=[charger]) | {
        "work": "new",
        "interpretations": {"charging in optional": "in pool"},
    }
    own, later = rules_of("nec/2023"), rules_of("nec/2026")
    made = prepared(home_of(tree), own, [own, later], DATE)
    carried = made.looks(later)[0]
    answer = EditionAnswer("NEC 2026", "", carried.required, carried.verdict, own=False)
    tell_readings(answer, made.home, made.subjects[0], later, carried)
    assert answer.readings == ["charging in optional: in pool"]
    by_own = assessed({**tree, "interpretations": {}, "code": "nec/2026"}).supplies[0]
    assert by_own.sizing is not None
    assert answer.by_own_readings == f"{by_own.sizing.amperes:,.2f} A, {by_own.verdict}"
    assert by_own.sizing.amperes != carried.required
    same = EditionAnswer("NEC 2023", "", 0.0, "", own=True)
    tell_readings(same, made.home, made.subjects[0], own, made.looks(own)[0])
    assert not same.readings
