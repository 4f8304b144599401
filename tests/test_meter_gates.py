"""What a record is held to: every line of the rules at its limit and one step beside it, as the rules themselves have the limits."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from assessments import home_of as read
from assessments import house, load
from examples import rules_of

from dwellcalc.decide.instructions import read_instructions
from dwellcalc.decide.record_plan import RecordPlan
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.facts import Facts, Unknown
from dwellcalc.language.nodes import Comparison, Constant, ReadObject, walk
from dwellcalc.language.tree import CheckedLine, trees_of

RULES = rules_of("nec/2023")
FOUND = read_instructions(RULES).record
assert FOUND is not None
PLAN: RecordPlan = FOUND
GATES = {line.name: (line, result) for result in (PLAN.usable, PLAN.without_remarks) for line in PLAN.gates(RULES, result)}
GOOD = {
    "span": 365.0,
    "year_length": 365.0,
    "age": 20.0,
    "interval": 15.0,
    "coverage": 100.0,
    "least_month": 100.0,
    "longest_gap": 0.0,
    "season_gap": 0.0,
    "not_validated": 0.0,
    "estimated": 0.0,
    "highest_estimated": 0.0,
    "maximum": 6000.0,
    "earlier_maximum": None,
    "sliding_maximum": 6000.0,
    "sliding_bound": 9000.0,
    "over_third": 1.05,
    "from_outage": 5000.0,
    "in_repeated_hour": False,
    "equivalent_hours": 1200.0,
    "step": 0.1,
    "longest_run": 1.0,
    "frozen": 0.0,
    "vacant_months": 0.0,
    "vacant_in_season": False,
    "midday_lows": 0.0,
    "exported": False,
    "direction_not_said": False,
    "one_line_only": False,
    "both_directions": False,
    "one_load_only": False,
    "generation_told": False,
    "sums_difference": 0.5,
    "bills_difference": 0.5,
    "changed_within": False,
    "generation": False,
    "line": "whole_supply",
    "power_factor": 0.97,
    "imbalance": 10.0,
    "occupied": True,
    "recording": True,
}


def facts(**said: Any) -> Facts:
    """A house with 200 A and a good record, but for what is said; nothing where it is said to be None."""
    made = read(house([load("range", "range", "9 kW")])).facts
    values = {name: Unknown([name]) if value is None else value for name, value in {**GOOD, **said}.items()}
    return replace(made, objects={**made.objects, "record": {**made.objects["record"], **values}})


def outcome(gate: str, **said: Any) -> Any:
    evaluation = Evaluation(plan_of(RULES), facts(**said), {})
    return evaluation.line(RULES.methods[PLAN.method].lines[gate])


def result(name: str, **said: Any) -> Any:
    evaluation = Evaluation(plan_of(RULES), facts(**said), {})
    return evaluation.line(RULES.methods[PLAN.method].results[name])


def comparisons(line: CheckedLine) -> Iterator[tuple[str, str, float]]:
    """A figure of the record against a plain limit: its name, the sign as it stands, the limit."""
    turned = {"<=": ">=", ">=": "<=", "<": ">", ">": "<"}
    for node in (node for tree in trees_of(line) for node in walk(tree)):
        if not isinstance(node, Comparison):
            continue
        left, right, sign = node.left, node.right, node.sign
        if isinstance(right, ReadObject) and isinstance(left, Constant):
            left, right, sign = right, left, turned[sign]
        if isinstance(left, ReadObject) and left.owner == "record" and isinstance(right, Constant):
            yield left.field, sign, float(right.value)


LIMITS = [(name, *each) for name, (line, _) in GATES.items() for each in comparisons(line)]
# What must be so besides, for one comparison of a line to decide alone.
ALONE: dict[tuple[str, str], dict[str, Any]] = {
    ("no_middays", "midday_lows"): {"generation": None},
    ("short_intervals_in_study", "interval"): {"span": 40.0},
    ("short_intervals_in_study", "longest_gap"): {"span": 40.0},
    ("intervals_serve", "interval"): {"maximum": 1e6},
    ("no_lump", "from_outage"): {"over_third": 3.0},
    ("no_lump", "over_third"): {"from_outage": 0.5},
    ("plausible_hours", "equivalent_hours"): {"bills_difference": None},
    ("plausible_hours", "bills_difference"): {"equivalent_hours": 10.0},
}


def test_a_good_record_is_usable_without_remarks() -> None:
    assert (result(PLAN.usable), result(PLAN.without_remarks)) == (True, True)
    assert {name: outcome(name) for name in GATES} == dict.fromkeys(GATES, True)


@pytest.mark.parametrize(("gate", "figure", "sign", "limit"), LIMITS)
def test_each_limit_and_one_step_beside_it(gate: str, figure: str, sign: str, limit: float) -> None:
    """At the limit it holds where the sign lets it; the next float towards the wrong side is refused, the other is not."""
    besides = ALONE.get((gate, figure), {})
    if (gate, figure) == ("intervals_serve", "interval") and limit == 60.0:
        besides = {"maximum": 100.0}  # of 60 min only what fits at the bound
    upwards = sign in ("<=", "<")
    beyond, within = (
        math.nextafter(limit, math.inf if upwards else -math.inf),
        math.nextafter(limit, -math.inf if upwards else math.inf),
    )
    held = sign in ("<=", ">=")
    assert outcome(gate, **{**besides, figure: limit}) is held
    assert outcome(gate, **{**besides, figure: beyond}) is False
    clamped = limit == 0 and within < 0  # nothing is below nothing
    assert outcome(gate, **{**besides, figure: 0.0 if clamped else within}) is (held if clamped else True)


def test_every_gate_is_held_to_a_limit_or_a_word() -> None:
    """Each can be made to fail: by a figure beyond its limit, or by one of these words."""
    words: dict[str, dict[str, Any]] = {
        "no_generation": {"exported": True},
        "one_direction": {"both_directions": True},
        "of_whole_supply": {"line": "another_line"},
        "long_enough": {"span": 364.0, "recording": None},
        "line_of_study": {"span": 40.0, "line": None},
        "occupied_in_study": {"span": 40.0, "occupied": None},
        "unchanged": {"changed_within": True},
        "no_repeated_hour": {"in_repeated_hour": True},
        "no_estimate_near": {"highest_estimated": 0.9 * 6000 + 1},
        "nothing_higher_before": {"earlier_maximum": 6001.0},
        "possible": {"maximum": 1.2 * 200 * 240 + 1, "imbalance": None, "power_factor": None},
        "generation_said": {"generation": None},
        "days_of_the_place": {"midday_lows": None},
        "direction_said": {"direction_not_said": True, "generation": None},
        "changes_told": {"changed_within": None},
        "bills_given": {"bills_difference": None},
        "power_factor_said": {"power_factor": None},
        "imbalance_said": {"imbalance": None},
        "used_as_usual": {"vacant_in_season": True},
    }
    limited = {gate for gate, *_ in LIMITS}
    at_home = {"lived_in", "running_is_said"}  # by facts of the home and its loads, tested by themselves
    assert set(GATES) == limited | set(words) | at_home
    for gate, said in words.items():
        assert outcome(gate, **said) is False, gate
        assert result(GATES[gate][1], **said) is False, gate


def test_a_vacant_dwelling_falls_back() -> None:
    tree = {**house([load("range", "range", "9 kW")]), "occupied": "no"}
    made = read(tree).facts
    given = replace(made, objects={**made.objects, "record": {**made.objects["record"], **GOOD}})
    evaluation = Evaluation(plan_of(RULES), given, {})
    assert evaluation.line(RULES.methods[PLAN.method].lines["lived_in"]) is False
    assert evaluation.line(RULES.methods[PLAN.method].results[PLAN.usable]) is False


@pytest.mark.parametrize("said", [{"exported": True}, {"generation": True}])
def test_generation_bars_a_record_in_every_edition(said: dict[str, Any]) -> None:
    for edition in ("nec/2014", "nec/2017", "nec/2020", "nec/2023", "nec/2026"):
        rules = rules_of(edition)
        evaluation = Evaluation(plan_of(rules), facts(**said), {})
        assert evaluation.line(rules.methods[PLAN.method].results[PLAN.usable]) is False


# --- the demand


def test_the_maximum_in_amperes() -> None:
    """6,000 W at 0.97 and 10 % more on one line: 6,000 / 0.97 x 1.1 / 240 V = 28.35 A."""
    assert result(PLAN.maximum) == pytest.approx(6000 / 0.97 * 1.1 / 240)
    assert result(PLAN.maximum, power_factor=None, imbalance=None) == pytest.approx(25.0)


@pytest.mark.parametrize(("minutes", "factor"), [(15.0, 1), (30.0, 2), (60.0, 4), (5.0, 1)])
def test_longer_intervals_count_at_the_most_that_they_can_hide(minutes: float, factor: float) -> None:
    """All that flowed in the interval may have flowed in a quarter of an hour of it."""
    found = result(PLAN.maximum, interval=minutes, power_factor=None, imbalance=None)
    assert found == pytest.approx(25.0 * factor)


def test_a_recording_adds_the_larger_of_heating_and_cooling_that_did_not_run() -> None:
    """3 kW of cooling and 4.5 kW of heating, of which the heating did not run, and the pump: 4,500 + 1,200 VA more.

    The recorder was on the highest-loaded line: 6,000 W at 120 V, taken to be so on the other one too.
    """
    loads = [
        load("cooling", "air conditioner", "3 kVA", recorded="yes"),
        load("heaters", "space heater", "4.5 kW", recorded="no"),
        load("pump", "pool pump", "1.2 kVA", recorded="no"),
    ]
    made = read(house(loads)).facts
    plain = {**GOOD, "span": 40.0, "power_factor": 1.0, "imbalance": 0.0, "line": "highest_loaded_line"}
    given = replace(made, objects={**made.objects, "record": {**made.objects["record"], **plain}})
    evaluation = Evaluation(plan_of(RULES), given, {})
    results = RULES.methods[PLAN.method].results
    assert evaluation.line(results[PLAN.maximum]) == pytest.approx((2 * 6000 + 4500 + 1200) / 240)
    assert evaluation.line(results[PLAN.usable]) is True


def test_a_recording_asks_of_each_heating_and_cooling_load_whether_it_ran() -> None:
    made = read(house([load("heaters", "space heater", "4.5 kW")])).facts
    given = replace(made, objects={**made.objects, "record": {**made.objects["record"], **GOOD, "span": 40.0}})
    evaluation = Evaluation(plan_of(RULES), given, {})
    found = evaluation.line(RULES.methods[PLAN.method].results[PLAN.maximum])
    assert isinstance(found, Unknown)
    assert found.inputs == {"heaters: recorded"}
    lines = RULES.methods[PLAN.method].lines
    assert (evaluation.line(lines["running_is_said"]), evaluation.line(lines["possible"])) == (False, True)


def test_a_recording_of_one_line_of_three() -> None:
    """6,000 W at 120 V are 50 A, whatever else is said of an imbalance."""
    tree = house([load("range", "range", "9 kW")], system="208Y/120 V three-phase 4-wire")
    made = read(tree).facts
    plain = {**GOOD, "span": 40.0, "power_factor": 1.0, "imbalance": 10.0, "line": "highest_loaded_line"}
    given = replace(made, objects={**made.objects, "record": {**made.objects["record"], **plain}})
    found = Evaluation(plan_of(RULES), given, {}).line(RULES.methods[PLAN.method].results[PLAN.maximum])
    assert found == pytest.approx(6000 / 120, rel=1e-3)  # 208 V is not 120 times the root of three to the last digit
