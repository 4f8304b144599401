"""How well the review names mistakes: published wrong calculations, planted mistakes, and correct submittals.

``-m slow`` tries a part of it, every twelfth mistake on one random home and 20 correct submittals; ``-m long`` all: each mistake
on 20 homes, 500 correct submittals. The figures are printed.
"""

from __future__ import annotations

from collections import Counter

import pytest
from examples import PUBLISHED
from planted import MOST_HOMES, Case, catalogue, home_at, instructions_of, planted, usable
from test_mistakes import NOT_EXPLAINED, TIES, Tie

from dwellcalc.decide.shortcomings import shortcomings
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.review.finding import ERROR
from dwellcalc.review.review import review
from dwellcalc.review.search import Explanation, Search
from dwellcalc.review.submittal_reader import read_submittal
from dwellcalc.review.suspects import suspects_of

DAY = "2026-05-04"
EDITIONS = ("nec/2023", "nec/2026", "nec/2020")  # the first in which an entry changes a figure of a random home
PARTS = 4
WANTED_SHARE = 0.95
MOST_TIED = 2
FIGURES = ("mistake", "reading", "figure", "sum")  # what a finding that claims another figure is about
PATIENT = 120.0
TRIED = 100000
PAIRS = 400
PAGES_AT_ONCE = 5.0  # seconds that a review may search


def named(explanations: list[Explanation], name: str) -> bool:
    """Whether a mistake is named first for some claims, or tied with at most two others."""
    for each in explanations:
        first = [suspect.id for suspect in each.suspects] == [name]
        tied = any([suspect.id for suspect in pair] == [name] for pair in each.equal) and len(each.equal) <= MOST_TIED
        if first or tied:
            return True
    return False


# Published wrong calculations


@pytest.mark.slow
@pytest.mark.parametrize("tie", TIES, ids=lambda tie: tie.example)
def test_the_mistake_of_a_published_calculation_is_named(tie: Tie) -> None:
    submittal = read_submittal(PUBLISHED / f"{tie.example}.yaml", date=DAY)
    methods = {submittal.method, submittal.instructions.sizing.method, *(claim.method for claim in submittal.claims)}
    suspects = suspects_of(submittal.rules, methods)
    asked = submittal.asked
    found = Search(
        submittal.rules, asked, submittal.claims, suspects, seconds=PATIENT, pairs_at_most=PAIRS, tried_at_most=TRIED
    ).run()
    said = [{suspect.id for suspect in pair} for each in found.explanations for pair in (each.suspects, *each.equal)]
    assert all(any(name in pair for pair in said) for name in tie.mistakes), said


@pytest.mark.slow
@pytest.mark.parametrize("name", NOT_EXPLAINED)
def test_a_published_calculation_without_an_entry_is_wrong_all_the_same(name: str) -> None:
    """Why no entry gives their figures stands beside each in ``NOT_EXPLAINED``."""
    submittal = read_submittal(PUBLISHED / f"{name}.yaml", date=DAY)
    found = review(submittal, date=DAY, seconds=PAGES_AT_ONCE)
    assert any(each.severity == ERROR and each.about in FIGURES for each in found.findings)


# Planted mistakes


def tried(name: str, homes: int, most: int) -> Counter[str]:
    """How many submittals with one mistake were made, and in how many it was named."""
    counted: Counter[str] = Counter()
    for edition in EDITIONS:
        for case, made, suspects, suspect in planted(edition, catalogue()[name], homes, most):
            found = Search(
                case.rules, case.asked, made.claims, suspects, seconds=PATIENT, pairs_at_most=PAIRS, tried_at_most=TRIED
            ).run()
            counted["made"] += 1
            counted["named"] += named(found.explanations, suspect.id)
        if counted:
            return counted
    return counted


def check(part: int, homes: int, every: int = 1, most: int = MOST_HOMES) -> None:
    names = list(catalogue())[part::PARTS][::every]
    by_name = {name: tried(name, homes, most) for name in names}
    made, right = (sum(each[word] for each in by_name.values()) for word in ("made", "named"))
    missed = {name: f"{each['named']} of {each['made']}" for name, each in by_name.items() if each["named"] < each["made"]}
    without = [name for name, each in by_name.items() if not each["made"]]
    print(f"\npart {part + 1} of {PARTS}: {len(names)} mistakes on {homes} homes: {right} of {made} named; missed: {missed}")
    print(f"of no random home: {without}")
    assert right >= WANTED_SHARE * made


@pytest.mark.slow
@pytest.mark.parametrize("part", range(PARTS))
def test_a_planted_mistake_is_named(part: int) -> None:
    check(part, homes=1, every=24, most=12)


@pytest.mark.long
@pytest.mark.parametrize("part", range(PARTS))
def test_a_planted_mistake_is_named_on_twenty_homes(part: int) -> None:
    check(part, homes=20)


# Correct submittals


def correct(part: int, homes: int) -> None:
    """Correct submittals have no error, and no remark that claims another figure."""
    counted: Counter[str] = Counter()
    at = part
    while counted["submittals"] < homes:
        edition = ("nec/2014", "nec/2017", "nec/2020", "nec/2023", "nec/2026")[at % 5]
        home, instructions = home_at(edition, at), instructions_of(edition)
        supply = home.supplies[at % len(home.supplies)]
        case = Case(edition, home, supply, "", ())
        at += PARTS
        methods = usable(case.rules, instructions, supply)
        if not methods:
            continue
        assessed = SupplyAssessor(case.rules, instructions, supply, {}, methods[0]).assess()
        if shortcomings(instructions, assessed):
            counted["left aside, for the supply itself falls short"] += 1
            continue
        case = Case(edition, home, supply, methods[0], (methods[0], instructions.sizing.method))
        found = review(case.submittal(case.rules), date=DAY, seconds=PATIENT)
        counted["submittals"] += 1
        counted["claims"] += len(found.claims)
        wrong = [each for each in found.findings if each.severity == ERROR or each.about in FIGURES]
        assert not wrong, (edition, at - PARTS, wrong)
    print(f"\npart {part + 1} of {PARTS}: {dict(counted)}, no error and no other figure claimed")


@pytest.mark.slow
@pytest.mark.parametrize("part", range(PARTS))
def test_a_correct_submittal_is_left_alone(part: int) -> None:
    correct(part, homes=3)


@pytest.mark.long
@pytest.mark.parametrize("part", range(PARTS))
def test_five_hundred_correct_submittals_are_left_alone(part: int) -> None:
    correct(part, homes=125)
