"""The walk on bounds against the evaluation of one home: on random homes line by line, and at thresholds worked by hand."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from itertools import islice
from typing import Any

import pytest
from assessments import Tree, home_of, house, load
from examples import rules_of
from ranged_homes import Oracle, at, points, ranged_supplies

from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.decide.ranged import FITTING, REQUIRED, TOTAL, RangedSupply
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate.bounds import BoundsEvaluation, boxed
from dwellcalc.evaluate.pieces import Pieces
from dwellcalc.evaluate.possible import possible
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.facts import NotApplicable, Unknown
from dwellcalc.language.rule_set import RuleSet

EDITIONS = ("nec/2014", "nec/2017", "nec/2020", "nec/2023", "nec/2026")
VERDICT = {True: FITS, False: DOES_NOT_FIT}
WIDER = 1.05


def drawn(seed: int, most: int = 3) -> Iterator[tuple[random.Random, SupplyAssessor, RangedSupply]]:
    """The supplies of a random home that have inputs between bounds."""
    chance = random.Random(seed)
    rules = rules_of(chance.choice(EDITIONS))
    for assessor, ranged in ranged_supplies(rules, chance, most):
        yield chance, assessor, ranged


def check_bounds(seed: int, number: int, *, most: int = 3, tight: bool = True, supplies: int | None = None) -> None:
    """The bounds of the load hold at every point, and are hardly wider than what the points span."""
    for chance, assessor, ranged in islice(drawn(seed, most), supplies):
        answered = Oracle(assessor, ranged)
        pieces = ranged.pieces()
        bounds = {name: pieces.enclosed(name) for name in (REQUIRED, TOTAL)}
        fitting = pieces.decided(FITTING)
        met: dict[str, list[float]] = {REQUIRED: [], TOTAL: []}
        for point in points(ranged, chance, number):
            total, carried = answered(point)
            if carried.verdict in VERDICT.values():
                assert carried.verdict in {VERDICT[word] for word in fitting.words | fitting.perhaps}, (seed, point)  # type: ignore[index]
            if carried.amperes is None or total is None:
                assert bounds[REQUIRED].missing is not None, (seed, point)
                continue
            for name, value in ((REQUIRED, carried.amperes), (TOTAL, total)):
                low, high = bounds[name].low, bounds[name].high
                assert low is not None and high is not None and low <= value <= high, (seed, name, point, value)
                met[name].append(value)
        for name, values in met.items():
            low, high = bounds[name].low, bounds[name].high
            if values and tight and low is not None and high is not None:
                span = max(values) - min(values)
                assert high - low <= WIDER * span + 1e-9 * max(values), (seed, name, low, high, span)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(12))
def test_bounds_hold_and_are_tight(seed: int) -> None:
    check_bounds(seed, 60)


@pytest.mark.parametrize("seed", [pytest.param(100, marks=pytest.mark.slow), 101, 102, 103])
def test_bounds_of_many_inputs_hold(seed: int) -> None:
    check_bounds(seed, 60, most=8, tight=False)


@pytest.mark.parametrize(
    "seed", [pytest.param(seed, marks=pytest.mark.slow if seed < 1001 else pytest.mark.long) for seed in range(1000, 1050)]
)
def test_bounds_of_fifty_homes_hold_for_ten_thousand_each(seed: int) -> None:
    check_bounds(seed, 10_000, supplies=1)


def values_of(evaluation: Evaluation, rules: RuleSet) -> dict[tuple[str, int], Any]:
    """Every value of every method that answers a supply, by line and item."""
    found = {}
    for method in rules.methods.values():
        if not evaluation.sizes.get(method.level, 1):
            continue
        for line in method.lines.values():
            place = None if line.each is None else evaluation.plan.places[id(line.each)]
            items = range(evaluation.sizes[line.level]) if place is None else evaluation.decided(place).items
            found.update({(line.id, item): evaluation.line(line, item) for item in items})
    return found


def holds(found: Any, value: Any) -> bool:
    """Whether a value is among those that are possible."""
    one = possible(found)
    if isinstance(value, Unknown):
        return one.missing is not None
    if isinstance(value, NotApplicable):
        return one.absent
    if isinstance(value, (bool, str)):
        return value in one.words
    return one.low is not None and bool(one.low <= value <= one.high)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(200, 206))
def test_every_line_lies_within_its_bounds_on_the_whole_box(seed: int) -> None:
    """Nothing is split here, so that what joins undecided branches and members is tried."""
    for chance, assessor, ranged in drawn(seed, 4):
        rules = assessor.rules
        bounds = values_of(BoundsEvaluation(ranged.plan, boxed(ranged.facts, ranged.inputs, ranged.whole), ranged.choices), rules)
        for point in list(points(ranged, chance, 10))[:40]:
            for place, value in values_of(Evaluation(plan_of(rules), at(ranged, point), ranged.choices), rules).items():
                assert place in bounds and holds(bounds[place], value), (seed, place, bounds.get(place), value, point)


@pytest.mark.parametrize("seed", range(300, 304))
def test_at_a_point_both_walks_agree_bit_for_bit(seed: int) -> None:
    for chance, assessor, ranged in drawn(seed):
        for point in list(points(ranged, chance, 5))[:8]:
            one = values_of(
                BoundsEvaluation(ranged.plan, boxed(ranged.facts, ranged.inputs, point), ranged.choices), assessor.rules
            )
            other = values_of(Evaluation(plan_of(assessor.rules), at(ranged, point), ranged.choices), assessor.rules)
            assert {place: repr(value) for place, value in one.items() if not isinstance(value, Unknown)} == {
                place: repr(value) for place, value in other.items() if not isinstance(value, Unknown)
            }


@pytest.mark.slow
def test_the_limit_of_pieces_leaves_bounds_that_hold() -> None:
    told = []
    for seed in range(400, 430):
        for chance, assessor, ranged in drawn(seed):
            pieces, answered = Pieces([ranged.whole], ranged.see, limit=1), Oracle(assessor, ranged)
            found = pieces.enclosed(REQUIRED)
            assert len(pieces.leaves) == 1
            told.append(found.exact)
            for point in list(points(ranged, chance, 5))[:10]:
                amperes = answered(point)[1].amperes
                if amperes is not None:
                    assert found.low is not None and found.high is not None and found.low <= amperes <= found.high
    assert False in told  # what was not attained is told


# Thresholds, worked by hand: lighting of 1000 ft2 with its circuits is 3000 + 35 % of 4500 VA by the standard calculation

LIGHTING = 3000 + 0.35 * (3 * 1000 + 4500 - 3000)


def standard(loads: list[Tree], code: str = "nec/2020") -> Pieces:
    """The pieces of the standard calculation of a house of 1000 ft2 with some loads."""
    return pieces_of("standard", loads, code=code)


def pieces_of(method: str, loads: list[Tree], *, code: str = "nec/2023", **said: Any) -> Pieces:
    """The pieces of a method for a house of 1000 ft2 with some loads."""
    tree = {**house(loads, area="1000 ft2"), "code": code, **said}
    rules = rules_of(code)
    (supply,) = home_of(tree).supplies
    assessor = SupplyAssessor(rules, read_instructions(rules), supply, {}, method)
    return RangedSupply(assessor, supply.facts, {}).pieces()


def only(value: float) -> tuple[tuple[float, float], ...]:
    return ((value, value),)


def test_a_fourth_appliance_that_lowers_the_total_is_seen() -> None:
    """Under 500 VA it is no fastened appliance from 2020 on; at 500 VA there are four, and 75 % of all."""
    three = [load("heater", "water heater", "4500 W"), load("tankless", "tankless water heater", "3000 W")]
    three.append(load("dishwasher", "dishwasher", "1200 W"))
    fourth = load("fourth", "other appliance", "400 W to 600 W", fastened_in_place="yes", individual_circuit="yes")
    found = standard([*three, {**fourth, "connection": "line to line"}]).enclosed(TOTAL)
    below = math.nextafter(500, 0)
    assert found.highest == only(below) and found.lowest == only(500)
    assert found.high == pytest.approx(LIGHTING + 8700 + 500)
    assert found.low == pytest.approx(LIGHTING + 0.75 * (8700 + 500))
    assert found.exact


def test_the_column_of_the_cooking_table_changes_over_its_edge() -> None:
    """Column B is 80 % up to 8.75 kW, column C 8 kW above."""
    found = standard([load("range", "range", "8 kW to 9 kW")]).enclosed(TOTAL)
    assert (found.low, found.high) == (pytest.approx(LIGHTING + 0.8 * 8000), pytest.approx(LIGHTING + 8000))
    below = standard([load("range", "range", "8 kW to 8.75 kW")]).enclosed(TOTAL)
    assert below.high == pytest.approx(LIGHTING + 0.8 * 8750)


def test_a_step_is_taken_from_half_of_it_on() -> None:
    """Each kW over 12, or major fraction of one, adds 5 %."""
    found = standard([load("range", "range", "12.4 kW to 12.6 kW")]).enclosed(TOTAL)
    assert (found.low, found.high) == (pytest.approx(LIGHTING + 8000), pytest.approx(LIGHTING + 1.05 * 8000))
    short = standard([load("range", "range", "12.1 kW to 12.49 kW")]).enclosed(TOTAL)
    assert short.low == short.high == pytest.approx(LIGHTING + 8000)


def test_a_motor_has_sizes_only() -> None:
    """From 1/3 to 1/2 hp at 115 V: 7.2 and 9.8 A of 120 V, with a quarter more; there is none between."""
    found = standard([load("disposer", "waste disposer", "1/3 hp to 1/2 hp at 115 V", individual_circuit="yes")]).enclosed(TOTAL)
    assert (found.low, found.high) == (
        pytest.approx(LIGHTING + 1.25 * 7.2 * 120),
        pytest.approx(LIGHTING + 1.25 * 9.8 * 120),
    )
    assert found.missing is None and found.exact


def test_a_dryer_counts_no_less_than_its_minimum() -> None:
    found = standard([load("dryer", "dryer", "4.5 kW to 5.6 kW")]).enclosed(TOTAL)
    assert (found.low, found.high) == (pytest.approx(LIGHTING + 5000), pytest.approx(LIGHTING + 5600))


def test_two_inputs_that_meet_at_a_threshold_together() -> None:
    """The larger of two seasons: neither alone decides which."""
    loads = [load("cooling", "air conditioner", "MCA 10 A to 30 A at 240 V"), load("heat", "space heater", "3 kW to 6 kW")]
    found = standard(loads).enclosed(TOTAL)
    assert (found.low, found.high) == (pytest.approx(LIGHTING + 3000), pytest.approx(LIGHTING + 30 * 240))


def test_the_first_eight_kilovolt_amperes_of_an_existing_dwelling() -> None:
    """220.83: 3000 + 4500 VA and the oven; 8 kVA in full, 40 % of the rest."""
    found = pieces_of("existing_dwelling", [load("oven", "wall oven", "400 W to 1.5 kW")]).enclosed(TOTAL)
    assert (found.low, found.high, found.exact) == (pytest.approx(7900), pytest.approx(8000 + 0.4 * 1000), True)


def test_the_larger_of_a_set_that_never_runs_together_is_not_always_the_same() -> None:
    """The tub of 7 kW counts until the sauna is larger; 220.83: 8000 + 40 % of 7500 + the larger - 8000."""
    loads = [load("tub", "hot tub", "7 kW"), load("sauna", "sauna", "6 kW to 9 kW")]
    for names in (["tub", "sauna"], ["sauna", "tub"]):
        found = pieces_of("existing_dwelling", loads, **{"never together": [{"loads": names}]}).enclosed(TOTAL)
        assert (found.low, found.high) == (pytest.approx(8000 + 0.4 * 6500), pytest.approx(8000 + 0.4 * 8500))
        assert found.exact


def test_the_range_of_a_manufactured_home_over_an_edge_of_its_table() -> None:
    """80 % up to 10 kW, 8 kVA above: 9 to 11 kW are 7200 to 8000 VA; on each line with the lighting and circuits."""
    found = pieces_of("manufactured", [load("range", "range", "9 kW to 11 kW")], **{"manufactured home": "yes"}).enclosed(TOTAL)
    assert (found.low, found.high) == (pytest.approx(LIGHTING + 7200), pytest.approx(LIGHTING + 8000))


def test_heat_between_bounds_in_several_dwelling_units() -> None:
    """220.84 takes heating in full: 45 % of three times 3000 + 4500 + 6000 to 9000 VA and the range of 12 kW."""
    tree = house([load("range", "range", "12 kW"), load("heat", "electric furnace", "6 kW to 9 kW")], area="1000 ft2")
    unit = {**tree["dwelling units"][0], "quantity": "3"}
    found = pieces_of("multifamily", [], **{"dwelling units": [unit]}).enclosed(TOTAL)
    assert (found.low, found.high) == (pytest.approx(0.45 * 3 * 25500), pytest.approx(0.45 * 3 * 28500))
