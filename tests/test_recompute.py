"""The second evaluation of lines: it agrees with lines worked by hand and finds what was changed in them."""

from __future__ import annotations

import ast
import json
from graphlib import TopologicalSorter
from pathlib import Path
from typing import Any

import pytest

from dwellcalc.review.sheets import recompute
from dwellcalc.review.sheets.recompute import Disagreement, recompute_document, recompute_line

TOLERANCE = 1e-9
Line = dict[str, Any]


def given(name: str, value: Any = None, unit: str = "", state: str = "known", **more: Any) -> Line:
    return {"name": name, "state": state, "value": value, "unit": unit, **more}


def known(way: str, value: Any, unit: str, **fields: Any) -> Line:
    blank = {
        "id": "m.line",
        "way": way,
        "each": None,
        "applies": None,
        "state": "known",
        "value": value,
        "unit": unit,
    }
    return {**blank, "inputs": [], "members": [], "rows_used": [], **fields}


def formula(text: str, value: Any, *inputs: Line, unit: str = "VA", **fields: Any) -> Line:
    return known("value", value, unit, formula=text, inputs=list(inputs), **fields)


def without_value(state: str, line: Line) -> Line:
    return {**line, "state": state, "value": None}


def condition(text: str | None, outcome: bool | None, *inputs: Line, **fields: Any) -> Line:
    blank: Line = {"when": text, "outcome": outcome, "inputs": list(inputs), "members": [], "rows_used": []}
    return {**blank, **fields}


def gathering(call: str, *items: tuple[Any, float]) -> list[Line]:
    """Members, each a value (or the name of a state) with its weight."""
    shown = [
        {"item": f"item {i}", "state": value, "value": None, "weight": weight}
        if isinstance(value, str)
        else {"item": f"item {i}", "state": "known", "value": value, "weight": weight}
        for i, (value, weight) in enumerate(items)
    ]
    return [{"call": call, "items": shown}]


def phrase(text: str, amount: float, unit: str, step: float, taken: float, value: float) -> Line:
    word = "of" if unit == "%" else "for"
    portion = next(part for part in ("the first", "the next", "each further", "the rest") if part in text)
    rounds = next((end for end in ("or part", "or major fraction") if text.endswith(end)), "")
    return {
        "phrase": text,
        "amount": amount,
        "unit": unit,
        "shares": word == "of",
        "portion": portion,
        "step": step,
        "rounds": rounds,
        "taken": taken,
        "value": value,
    }


def part(name: str, value: float | None, taken: bool, state: str = "known") -> Line:
    return {"id": f"m.{name}", "value": value, "unit": "VA", "state": state, "taken": taken, "why": ""}


def disagreements(line: Line) -> list[Disagreement]:
    """Through JSON, as a reader of the document has it."""
    return recompute_line(json.loads(json.dumps(line)), tolerance=TOLERANCE)


def whats(line: Line) -> list[str]:
    return [found.what for found in disagreements(line)]


def changed(line: Line, *path: Any, to: Any) -> Line:
    """The line with one place in it changed."""
    copied: Any = json.loads(json.dumps(line))
    inner = copied
    for key in path[:-1]:
        inner = inner[key]
    assert inner[path[-1]] != to
    inner[path[-1]] = to
    return copied  # type: ignore[no-any-return]


# Formulas

AMPERES = formula("a / (v * p)", 100.0, given("a", 24000.0, "VA"), given("v", 240.0, "V"), given("p", 1.0), unit="A")
LIGHTING = formula("load_per_area * area", 4500.0, given("load_per_area", 3.0, "VA/ft2"), given("area", 1500.0, "ft2"))
CELL = "47 - 1 * (number_of_dryers - 11)"
DRYERS = formula(
    "table(dryer_demand.factor, number)",
    46.0,
    given("number", 12.0),
    unit="%",
    rows_used=[
        {
            "call": "table(dryer_demand.factor, number)",
            "function": "table",
            "keys": [12.0],
            "row": "12 to 23",
            "cell": CELL,
            "key_name": "number_of_dryers",
            "value": 46.0,
            "unit": "%",
        }
    ],
)
NEXT_RATING = formula(
    "first_row_at_least(ratings, needed)",
    125.0,
    given("needed", 117.3, "A"),
    unit="A",
    rows_used=[
        {
            "call": "first_row_at_least(ratings, needed)",
            "function": "first_row_at_least",
            "keys": [],
            "row": "125",
            "cell": "125",
            "key_name": "rating",
            "value": 125.0,
            "unit": "A",
            "needed": 117.3,
            "cell_amount": 125.0,
            "before": 110.0,
        }
    ],
)
RATING_BELOW = formula(
    "last_row_at_most(ratings, allowed)",
    110.0,
    given("allowed", 117.3, "A"),
    unit="A",
    rows_used=[
        {
            "call": "last_row_at_most(ratings, allowed)",
            "function": "last_row_at_most",
            "keys": [],
            "row": "110",
            "cell": "110",
            "key_name": "rating",
            "value": 110.0,
            "unit": "A",
            "needed": 117.3,
            "cell_amount": 110.0,
            "before": 125.0,
        }
    ],
)
CONDUCTOR = formula(
    "first_row_at_least(ampacities, share * rating, copper, terminals)",
    "2/0",
    given("share", 83.0, "%"),
    given("rating", 200.0, "A"),
    given("terminals", "t75", "choice temperature_rating"),
    unit="scale conductor_size",
    rows_used=[
        {
            "call": "first_row_at_least(ampacities, share * rating, copper, terminals)",
            "function": "first_row_at_least",
            "keys": ["copper", "t75"],
            "row": "2/0",
            "cell": "175",
            "key_name": "size",
            "value": "2/0",
            "unit": "scale conductor_size",
            "needed": 166.0,
            "cell_amount": 175.0,
            "before": 150.0,
        }
    ],
)
AMPACITY = formula(
    "table(ampacities, size, copper)",
    175.0,
    given("size", "2/0", "scale conductor_size", position=9),
    unit="A",
    rows_used=[
        {
            "call": "table(ampacities, size, copper)",
            "function": "table",
            "keys": ["2/0", "copper"],
            "row": "2/0",
            "cell": "175",
            "key_name": "size",
            "value": 175.0,
            "unit": "A",
        }
    ],
)


@pytest.mark.parametrize(
    "line",
    [
        AMPERES,
        LIGHTING,
        DRYERS,
        NEXT_RATING,
        RATING_BELOW,
        CONDUCTOR,
        AMPACITY,
        formula("a - b - c", 2.0, given("a", 9.0), given("b", 4.0), given("c", 3.0)),
        formula("a / b / c", 3.0, given("a", 24.0), given("b", 4.0), given("c", 2.0)),
        formula("a + b * (c + 1)", 17.0, given("a", 5.0), given("b", 4.0), given("c", 2.0)),
        formula("a * share", 650.0, given("a", 1000.0, "VA"), given("share", 65.0, "%")),
        formula("share * a", 650.0, given("a", 1000.0, "VA"), given("share", 65.0, "%")),
        formula("share * other", 26.0, given("share", 65.0, "%"), given("other", 40.0, "%"), unit="%"),
        formula(
            "share * other * a",
            260.0,
            given("share", 65.0, "%"),
            given("other", 40.0, "%"),
            given("a", 1000.0),
        ),
        formula("share + other", 105.0, given("share", 65.0, "%"), given("other", 40.0, "%"), unit="%"),
        formula("share - 0", 65.0, given("share", 65.0, "%"), unit="%"),
        formula("larger(a, b, 0)", 7.0, given("a", 5.0), given("b", 7.0)),
        formula("smaller(a, b)", 5.0, given("a", 5.0), given("b", 7.0)),
        formula("larger(share, 0)", 0.0, given("share", -5.0, "%"), unit="%"),
        formula("round_up(a, step)", 15.0, given("a", 10.5), given("step", 5.0)),
        formula("round_up(a, step)", 10.0, given("a", 10.0), given("step", 5.0)),
        formula("round_half_up(a, step)", 88.0, given("a", 87.5, "A"), given("step", 1.0, "A"), unit="A"),
        formula("round_half_up(a, step)", 87.0, given("a", 87.49, "A"), given("step", 1.0, "A"), unit="A"),
        formula("round_half_up(a, step)", -87.0, given("a", -87.5, "A"), given("step", 1.0, "A"), unit="A"),
        formula("a >= b", True, given("a", 5.0), given("b", 5.0), unit="yes or no"),
        formula("a < b", False, given("a", 5.0), given("b", 5.0), unit="yes or no"),
        formula("a = 1", True, given("a", 1.0), unit="yes or no"),
        formula(
            "size > other",
            True,
            given("size", "2/0", position=9),
            given("other", "2", position=6),
            unit="yes or no",
        ),
        formula(
            "larger(size, other)",
            "2/0",
            given("size", "2/0", position=9),
            given("other", "2", position=6),
            unit="scale s",
        ),
        formula("kind is range", True, given("kind", "range"), unit="yes or no"),
        formula("kind is not range", False, given("kind", "range"), unit="yes or no"),
        formula(
            "kind in (oven, range) and not flag",
            True,
            given("kind", "range"),
            given("flag", False),
            unit="yes or no",
        ),
        formula(
            "kind not in (oven, dryer) or flag",
            True,
            given("kind", "range"),
            given("flag", False),
            unit="yes or no",
        ),
        formula(
            "flag is yes and other is not yes",
            True,
            given("flag", True),
            given("other", False),
            unit="yes or no",
        ),
        formula("not known(a)", True, given("a", state="not applicable"), unit="yes or no"),
        formula("known(a) and known(b)", False, given("a", 1.0), given("b", state="unknown"), unit="yes or no"),
    ],
)
def test_formulas_agree(line: Line) -> None:
    assert disagreements(line) == []


@pytest.mark.parametrize(
    ("call", "value", "members"),
    [
        ("sum(g.c)", 5500.0, [(1500.0, 1), (2000.0, 2), ("not applicable", 4)]),
        ("sum(g.c)", 0.0, []),
        ("sum(g.c)", "not applicable", [("not applicable", 1)]),
        ("sum(g.c)", "unknown", [(1.0, 1), ("unknown", 1)]),
        ("count(g)", 4.0, [(None, 1), (None, 3)]),
        ("count(g)", 0.0, []),
        ("mean(g.c)", 1750.0, [(1000.0, 1), (2000.0, 3), ("not applicable", 9)]),
        ("mean(g.c)", "not applicable", []),
        ("mean(g.c)", "not applicable", [(1000.0, 0)]),
        ("largest(g.c)", 2000.0, [(1000.0, 1), (2000.0, 3), ("not applicable", 9)]),
        ("largest(g.c)", "not applicable", []),
        ("every(g.c)", True, [(True, 1), (True, 2)]),
        ("every(g.c)", True, []),
        ("every(g.c)", False, [(True, 1), (False, 2), ("unknown", 1)]),
        ("every(g.c)", "unknown", [(True, 1), ("unknown", 1)]),
        ("every(g.c)", "not applicable", [("not applicable", 1)]),
    ],
)
def test_gathering(call: str, value: Any, members: list[tuple[Any, float]]) -> None:
    line = formula(call, value, members=gathering(call, *members))
    if isinstance(value, str):
        line = without_value(value, line)
    assert disagreements(line) == []
    assert disagreements({**line, "state": "known", "value": 77.0})


def test_the_largest_of_a_scale_goes_by_position() -> None:
    items = [
        {"item": "one", "state": "known", "value": "2", "position": 6, "weight": 1},
        {"item": "two", "state": "known", "value": "1/0", "position": 8, "weight": 1},
    ]
    line = formula("largest(g.size)", "1/0", unit="scale s", members=[{"call": "largest( g.size )", "items": items}])
    assert disagreements(line) == []
    del items[0]["position"]
    assert whats(line) == ['the place of "2" on its scale is not printed']


def test_members_in_percent() -> None:
    members = [{"call": "largest(g.share)", "unit": "%", "items": gathering("", (40.0, 1), (65.0, 1))[0]["items"]}]
    line = formula("largest(g.share) * a", 650.0, given("a", 1000.0, "VA"), members=members)
    assert disagreements(line) == []


@pytest.mark.parametrize(
    ("state", "text", "operands"),
    [
        ("not applicable", "a + b", [given("a", 1.0), given("b", state="not applicable")]),
        ("unknown", "a + b", [given("a", 1.0), given("b", state="unknown")]),
        ("not applicable", "larger(a, b)", [given("a", state="unknown"), given("b", state="not applicable")]),
        ("unknown", "flag and a > b", [given("flag", True), given("a", state="unknown"), given("b", 1.0)]),
        ("unknown", "not (a > b)", [given("a", state="unknown"), given("b", 1.0)]),
        ("unknown", "kind is range", [given("kind", state="unknown")]),
        ("unknown", "table(t.c, a)", [given("a", state="unknown")]),
        ("unknown", "table(t.c, a)", [given("a", 1e9)]),
    ],
)
def test_states_of_a_formula(state: str, text: str, operands: list[Line]) -> None:
    line = without_value(state, formula(text, None, *operands))
    assert disagreements(line) == []
    other = "unknown" if state == "not applicable" else "not applicable"
    assert disagreements({**line, "state": other}) == [Disagreement("m.line", "", "state", other, state)]
    assert whats({**line, "state": "known", "value": 2.0}) == ["state"]
    assert whats({**line, "value": 2.0}) == [f"value of a line that is {state}"]


def test_one_known_answer_settles_a_condition() -> None:
    inputs = [given("flag", False), given("a", state="unknown")]
    assert disagreements(formula("flag and a > 0", False, *inputs, unit="yes or no")) == []
    inputs = [given("flag", True), given("a", state="unknown")]
    assert disagreements(formula("flag or a > 0", True, *inputs, unit="yes or no")) == []


def test_a_line_that_was_not_needed_is_not_worked_out() -> None:
    line = without_value("not needed", {"id": "m.line", "way": "value", "each": None})
    assert disagreements(line) == []
    assert whats({**line, "value": 1.0}) == ["value of a line that is not needed"]


@pytest.mark.parametrize(
    ("line", "path", "to", "what"),
    [
        (LIGHTING, ("value",), 4501.0, "value"),
        (LIGHTING, ("formula",), "load_per_area + area", "value"),
        (LIGHTING, ("inputs", 0, "value"), 2.0, "value"),
        (LIGHTING, ("inputs", 0, "unit"), "%", "value"),
        (LIGHTING, ("inputs", 0, "name"), "load_for_area", 'operand "load_per_area"'),
        (LIGHTING, ("inputs", 0, "state"), "unknown", "state"),
        (LIGHTING, ("inputs", 0, "value"), True, '"True" is not a number'),
        (LIGHTING, ("value",), True, "value"),
        (LIGHTING, ("value",), None, "value"),
        (LIGHTING, ("value",), "4500", "value"),
        (LIGHTING, ("value",), float("nan"), "value"),
        (LIGHTING, ("unit",), "%", "unit is a percent"),
        (DRYERS, ("unit",), "VA", "unit is a percent"),
        (DRYERS, ("value",), 47.0, "value"),
        (DRYERS, ("inputs", 0, "value"), 13.0, "key of table(dryer_demand.factor, number)"),
        (DRYERS, ("rows_used", 0, "keys"), [13.0], "key of table(dryer_demand.factor, number)"),
        (DRYERS, ("rows_used", 0, "keys"), [12.0, 1.0], "keys of table(dryer_demand.factor, number)"),
        (DRYERS, ("rows_used", 0, "value"), 45.0, "row 12 to 23 of table(dryer_demand.factor, number)"),
        (DRYERS, ("rows_used", 0, "cell"), "47", "row 12 to 23 of table(dryer_demand.factor, number)"),
        (DRYERS, ("rows_used", 0, "factor"), 1000.0, "row 12 to 23 of table(dryer_demand.factor, number)"),
        (
            DRYERS,
            ("rows_used", 0, "function"),
            "first_row_at_least",
            "function of table(dryer_demand.factor, number)",
        ),
        (DRYERS, ("rows_used", 0, "call"), "table(dryer_demand.factor, count)", "state"),
        (DRYERS, ("rows_used", 0, "key_name"), "number", '"number_of_dryers" has no meaning in a cell'),
        (AMPACITY, ("rows_used", 0, "keys", 1), "aluminum", "key of table(ampacities, size, copper)"),
        (AMPACITY, ("rows_used", 0, "cell"), "170", "row 2/0 of table(ampacities, size, copper)"),
        (NEXT_RATING, ("value",), 150.0, "value"),
        (NEXT_RATING, ("rows_used", 0, "row"), "150", "row of first_row_at_least(ratings, needed)"),
        (
            NEXT_RATING,
            ("rows_used", 0, "cell"),
            "150",
            "amount in row 125 of first_row_at_least(ratings, needed)",
        ),
        (
            NEXT_RATING,
            ("rows_used", 0, "needed"),
            118.0,
            "amount needed in first_row_at_least(ratings, needed)",
        ),
        (NEXT_RATING, ("inputs", 0, "value"), 118.0, "amount needed in first_row_at_least(ratings, needed)"),
        (RATING_BELOW, ("value",), 125.0, "value"),
        (
            RATING_BELOW,
            ("rows_used", 0, "cell_amount"),
            125.0,
            "row 110 of last_row_at_most(ratings, allowed) has more than is allowed",
        ),
        (
            RATING_BELOW,
            ("rows_used", 0, "before"),
            117.0,
            "the row after 110 of last_row_at_most(ratings, allowed) is allowed too",
        ),
        (
            RATING_BELOW,
            ("rows_used", 0, "function"),
            "first_row_at_least",
            "function of last_row_at_most(ratings, allowed)",
        ),
        (CONDUCTOR, ("value",), "3/0", "value"),
        (CONDUCTOR, ("rows_used", 0, "row"), "3/0", f"row of {CONDUCTOR['formula']}"),
        (
            CONDUCTOR,
            ("rows_used", 0, "cell_amount"),
            165.0,
            f"row 2/0 of {CONDUCTOR['formula']} has less than is needed",
        ),
        (
            CONDUCTOR,
            ("rows_used", 0, "before"),
            166.0,
            f"the row before 2/0 of {CONDUCTOR['formula']} suffices",
        ),
        (CONDUCTOR, ("rows_used", 0, "keys"), ["copper"], f"keys of {CONDUCTOR['formula']}"),
    ],
)
def test_a_changed_formula_line_is_found(line: Line, path: tuple[Any, ...], to: Any, what: str) -> None:
    if path[-1] == "factor":
        line = changed({**line, "rows_used": [{**line["rows_used"][0], "factor": 1.0}]}, *path, to=to)
    else:
        line = changed(line, *path, to=to)
    assert what in whats(line)


def test_first_row_may_print_the_amount_among_its_keys() -> None:
    line = changed(NEXT_RATING, "rows_used", 0, "keys", to=[117.3])
    assert disagreements(line) == []
    assert disagreements(changed(line, "rows_used", 0, "keys", to=[117.4]))
    assert disagreements(changed(NEXT_RATING, "rows_used", 0, "before", to=None)) == []


def test_a_row_found_back_may_hold_just_what_is_needed() -> None:
    line = changed(NEXT_RATING, "inputs", 0, "value", to=125.0)
    assert disagreements(changed(line, "rows_used", 0, "needed", to=125.0)) == []


def test_a_row_label_that_is_no_number_is_not_compared() -> None:
    assert disagreements(changed(NEXT_RATING, "rows_used", 0, "row", to="125 A")) == []


def test_a_table_in_another_unit_has_a_factor() -> None:
    row = {**DRYERS["rows_used"][0], "unit": "VA", "value": 46000.0, "factor": 1000.0}
    line = {**DRYERS, "unit": "VA", "value": 46000.0, "rows_used": [row]}
    assert disagreements(line) == []
    assert disagreements({**line, "rows_used": [{**row, "factor": 1.0}]})
    back = {**NEXT_RATING["rows_used"][0], "row": "0.125", "cell": "0.125", "factor": 1000.0}
    assert disagreements({**NEXT_RATING, "rows_used": [back]}) == []


@pytest.mark.parametrize(
    ("cell", "value"),
    [("1 1/2", 1.5), ("1,500", 1500.0), ("-1/2", -0.5), ("(15 - n) / 2", 1.5), ("2 * n", 24.0)],
)
def test_cells_are_numbers_or_formulas_of_the_key(cell: str, value: float) -> None:
    row = {**DRYERS["rows_used"][0], "key_name": "n", "cell": cell, "value": value}
    assert disagreements({**DRYERS, "value": value, "rows_used": [row]}) == []


@pytest.mark.parametrize(
    "cell",
    ["n.real", "len(n)", "n ** n", "'a'", "sum(n)", "-", "(" * 900, "1 / (n - 12)", "n > 1", "other + 1"],
)
def test_nothing_else_runs_in_a_cell(cell: str) -> None:
    row = {**DRYERS["rows_used"][0], "key_name": "n", "cell": cell}
    assert len(disagreements({**DRYERS, "rows_used": [row]})) == 1


def test_a_word_in_a_cell_is_compared_as_a_word() -> None:
    row = {**AMPACITY["rows_used"][0], "cell": "t75", "value": "t75", "unit": "choice c"}
    line = {**AMPACITY, "value": "t75", "unit": "choice c", "rows_used": [row]}
    assert disagreements(line) == []
    assert whats(changed(line, "rows_used", 0, "cell", to="t60")) == [
        "row 2/0 of table(ampacities, size, copper)",
        "value",
    ]


@pytest.mark.parametrize(
    "line",
    [
        formula("a +", 1.0, given("a", 1.0)),
        formula("a * 3", 3.0, given("a", 1.0)),
        formula("a / 0", 3.0, given("a", 1.0)),
        formula("sum(g.c)", 3.0),
        formula("a + b", 3.0, given("a", "word"), given("b", 1.0)),
        formula("a and b", True, given("a", 1.0), given("b", True), unit="yes or no"),
        formula("a is word", True, given("a", 1.0), unit="yes or no"),
        formula("a > b", True, given("a", "word", position=1), given("b", 0.0), unit="yes or no"),
        formula("a > b", True, given("a", 1.0), given("b", None), unit="yes or no"),
        formula("a", 1.0, given("a", 1.0, state="guessed")),
        formula("+".join(["a"] * 9999), 9999.0, given("a", 1.0)),
        {**formula("a", 1.0, given("a", 1.0)), "way": "guess"},
        {**formula("a", 1.0, given("a", 1.0)), "inputs": None},
        {"id": "m.line"},
    ],
)
def test_what_cannot_be_worked_out_is_a_disagreement(line: Line) -> None:
    assert len(disagreements(line)) == 1


def test_tolerance() -> None:
    line = changed(LIGHTING, "value", to=4500.001)
    assert recompute_line(line, tolerance=1e-6) == []
    assert recompute_line(line, tolerance=1e-8) == [Disagreement("m.line", "", "value", 4500.001, 4500.0)]


# Applies, and columns


def test_applies() -> None:
    line = formula("a", 5.0, given("a", 5.0), applies=condition("flag", True, given("flag", True)))
    assert disagreements(line) == []
    assert whats(changed(line, "applies", "outcome", to=False)) == ['outcome of "flag"']
    assert whats(changed(line, "applies", "inputs", 0, "value", to=False)) == ['outcome of "flag"', "state"]

    line = without_value("not applicable", {**line, "applies": condition("flag", False, given("flag", False)), "inputs": []})
    assert disagreements(line) == []
    assert whats({**line, "state": "unknown"}) == ["state"]

    line = without_value("unknown", {**line, "applies": condition("flag", None, given("flag", state="unknown"))})
    assert disagreements(line) == []


def test_the_items_of_a_column_are_worked_out_one_by_one() -> None:
    items = []
    for name, amount in (("dryer", 4500.0), ("second dryer", 5600.0)):
        item = formula(
            "larger(connected, least)",
            max(amount, 5000.0),
            given("connected", amount),
            given("least", 5000.0),
        )
        items.append({"item": name, **item})
    line = {"id": "m.counted", "way": "value", "each": "dryers", "items": items}
    assert disagreements(line) == []
    found = disagreements(changed(line, "items", 0, "value", to=4500.0))
    assert found == [Disagreement("m.counted", "dryer", "value", 4500.0, 5000.0)]
    del line["items"]
    assert len(disagreements(line)) == 1


# Cases


def heaters(number: float) -> Line:
    few, operands = number < 4, (given("number", number), given("limit", 4.0))
    share = "few" if few else "many"
    return known(
        "cases",
        6500.0 if few else 4000.0,
        "VA",
        conditions=[
            condition("number < limit", few, *operands),
            condition("number >= limit", not few, *operands),
        ],
        case=0 if few else 1,
        formula=f"{share} * connected",
        inputs=[given(share, 65.0 if few else 40.0, "%"), given("connected", 10000.0, "VA")],
    )


def dryer(rating: float | None) -> Line:
    operand = given("a", state="unknown") if rating is None else given("a", rating, "VA")
    return known(
        "cases",
        5000.0 if rating is None else rating,
        "VA",
        conditions=[condition("known(a)", rating is not None, operand), condition(None, rating is None)],
        case=1 if rating is None else 0,
        formula="least" if rating is None else "a",
        inputs=[given("least", 5000.0, "VA") if rating is None else operand],
    )


@pytest.mark.parametrize("line", [heaters(3.0), heaters(4.0), dryer(4500.0), dryer(None)])
def test_cases_agree(line: Line) -> None:
    assert disagreements(line) == []


@pytest.mark.parametrize(
    ("line", "path", "to", "expected"),
    [
        (heaters(3.0), ("case",), 1, ["case"]),
        (heaters(3.0), ("value",), 4000.0, ["value"]),
        (heaters(3.0), ("conditions", 0, "outcome"), False, ['outcome of "number < limit"']),
        (heaters(3.0), ("conditions", 1, "outcome"), None, ['outcome of "number >= limit"']),
        (
            heaters(3.0),
            ("conditions", 1, "inputs", 0, "value"),
            4.0,
            ['outcome of "number >= limit"', "2 cases hold, not one"],
        ),
        (heaters(3.0), ("conditions", 1, "inputs"), [], ['operand "number"']),
        (
            heaters(4.0),
            ("conditions", 1, "inputs", 0, "value"),
            3.0,
            ['outcome of "number >= limit"', "0 cases hold, not one"],
        ),
        (dryer(None), ("conditions", 1, "outcome"), False, ["outcome of otherwise"]),
        (dryer(4500.0), ("conditions", 1, "outcome"), True, ["outcome of otherwise"]),
        (dryer(None), ("case",), 0, ["case"]),
    ],
)
def test_changed_cases_are_found(line: Line, path: tuple[Any, ...], to: Any, expected: list[str]) -> None:
    assert whats(changed(line, *path, to=to)) == expected


def test_an_unknown_condition_makes_the_line_unknown() -> None:
    unknown = condition("number < limit", None, given("number", state="unknown"), given("limit", 4.0))
    line = without_value("unknown", {**heaters(3.0), "conditions": [unknown], "case": None})
    assert disagreements(line) == []
    assert whats({**line, "state": "known", "value": 6500.0}) == ["state"]


# Tiers


def tiers(quantity: float, unit: str, value: float, result_unit: str, *phrases: Line) -> Line:
    return known("tiers", value, result_unit, of="q", quantity=quantity, quantity_unit=unit, phrases=list(phrases))


def lighting(quantity: float, *takes: float) -> Line:
    shares = [100.0, 35.0, 25.0]
    texts = ["100 % of the first 3000 VA", "35 % of the next 117000 VA", "25 % of the rest"]
    steps = [3000.0, 117000.0, 0.0]
    values = [taken * percent / 100 for taken, percent in zip(takes, shares, strict=True)]
    phrases = [phrase(t, p, "%", s, x, v) for t, p, s, x, v in zip(texts, shares, steps, takes, values, strict=True)]
    return tiers(quantity, "VA", sum(values), "VA", *phrases)


def basic(area: float, further: float, value: float) -> Line:
    return tiers(
        area,
        "m2",
        5000.0 * (area > 0) + value,
        "W",
        phrase("5000 W for the first 90 m2", 5000.0, "W", 90.0, area - further, 5000.0 * (area > 0)),
        phrase("1000 W for each further 90 m2 or part", 1000.0, "W", 90.0, further, value),
    )


def major(rating: float, over: float, value: float) -> Line:
    """A percent for an amount: one part in twenty for each kW, or major fraction, over twelve."""
    return tiers(
        rating,
        "W",
        100.0 + value,
        "%",
        phrase("100 % for the first 12 kW", 100.0, "W", 12000.0, rating - over, 100.0) | {"unit": "%"},
        phrase("5 % for each further 1 kW or major fraction", 5.0, "W", 1000.0, over, value) | {"unit": "%"},
    )


def next_portion(text: str, quantity: float, taken: float, value: float) -> Line:
    first = phrase("0 W for the first 10 m2", 0.0, "W", 10.0, min(quantity, 10.0), 0.0)
    return tiers(quantity, "m2", value, "W", first, phrase(text, 500.0, "W", 20.0, taken, value))


@pytest.mark.parametrize(
    "line",
    [
        lighting(2500.0, 2500.0, 0.0, 0.0),
        lighting(3000.0, 3000.0, 0.0, 0.0),
        lighting(9000.0, 3000.0, 6000.0, 0.0),
        lighting(130000.0, 3000.0, 117000.0, 10000.0),
        lighting(0.0, 0.0, 0.0, 0.0),
        basic(0.0, 0.0, 0.0),
        basic(40.0, 0.0, 0.0),
        basic(90.0, 0.0, 0.0),
        basic(91.0, 1.0, 1000.0),
        basic(180.0, 90.0, 1000.0),
        basic(181.0, 91.0, 2000.0),
        major(12000.0, 0.0, 0.0),
        major(12499.0, 499.0, 0.0),
        major(12500.0, 500.0, 5.0),
        major(13600.0, 1600.0, 10.0),
        next_portion("500 W for the next 20 m2 or part", 11.0, 1.0, 500.0),
        next_portion("500 W for the next 20 m2 or part", 40.0, 20.0, 500.0),
        next_portion("500 W for the next 20 m2", 29.0, 19.0, 0.0),
        next_portion("500 W for the next 20 m2", 30.0, 20.0, 500.0),
        next_portion("500 W for the rest", 30.0, 20.0, 500.0),
        next_portion("500 W for the rest", 10.0, 0.0, 0.0),
    ],
)
def test_tiers_agree(line: Line) -> None:
    assert disagreements(line) == []


def test_tiers_of_a_percent_are_a_percent() -> None:
    line = tiers(130.0, "%", 100.0, "%", phrase("100 % of the first 100 %", 100.0, "%", 100.0, 100.0, 100.0))
    assert disagreements(line) == []
    assert whats({**line, "unit": "VA"}) == ["unit is a percent"]


@pytest.mark.parametrize("state", ["not applicable", "unknown"])
def test_tiers_of_no_quantity(state: str) -> None:
    line = without_value(state, {**lighting(0.0, 0.0, 0.0, 0.0), "quantity": None})
    assert disagreements(line) == []
    without = {name: each for name, each in line.items() if name not in ("quantity", "quantity_unit", "phrases")}
    assert disagreements(without) == []  # as a document is written, without what is empty
    assert whats({**line, "state": "known", "value": 1.0}) == ["state"]


@pytest.mark.parametrize(
    ("path", "to", "what"),
    [
        (("value",), 5101.0, "value"),
        (("quantity",), 9001.0, 'part of the quantity in "35 % of the next 117000 VA"'),
        (("phrases", 1, "taken"), 5000.0, 'part of the quantity in "35 % of the next 117000 VA"'),
        (("phrases", 1, "value"), 2000.0, 'value of "35 % of the next 117000 VA"'),
        (("phrases", 1, "amount"), 40.0, 'number in "35 %"'),
        (("phrases", 1, "phrase"), "40 % of the next 117000 VA", 'number in "40 %"'),
        (("phrases", 1, "phrase"), "35 % of the next 118000 VA", 'number in "118000 VA"'),
        (("phrases", 1, "phrase"), "35 % of the first 117000 VA", 'words of "35 % of the first 117000 VA"'),
        (("phrases", 0, "step"), 2000.0, 'number in "3000 VA"'),
        (("phrases", 1, "portion"), "the rest", 'words of "35 % of the next 117000 VA"'),
        (("phrases", 1, "shares"), False, 'value of "35 % of the next 117000 VA"'),
        (("phrases", 1, "rounds"), "or part", 'words of "35 % of the next 117000 VA"'),
    ],
)
def test_changed_tiers_are_found(path: tuple[Any, ...], to: Any, what: str) -> None:
    assert what in whats(changed(lighting(9000.0, 3000.0, 6000.0, 0.0), *path, to=to))


# Combining


def combined(way: str, value: float, *parts: Line) -> Line:
    return known(way, value, "VA", parts=list(parts))


LEFT_OUT = part("c", None, False, "not applicable")
SUM = combined("sum_of", 5.0, part("a", 2.0, True), part("b", 3.0, True), LEFT_OUT)
LARGEST = combined("largest_of", 3.0, part("a", 2.0, False), part("b", 3.0, True), LEFT_OUT)
LEAST = combined("least_of", 2.0, part("a", 2.0, True), part("b", 3.0, False), LEFT_OUT)


@pytest.mark.parametrize("line", [SUM, LARGEST, LEAST, combined("largest_of", 2.0, part("a", 2.0, True), part("b", 2.0, False))])
def test_combining_agrees(line: Line) -> None:
    assert disagreements(line) == []


@pytest.mark.parametrize("way", ["sum_of", "largest_of", "least_of"])
def test_combining_without_parts_that_apply(way: str) -> None:
    line = without_value("not applicable", combined(way, 0.0, LEFT_OUT, LEFT_OUT))
    assert disagreements(line) == []
    assert whats({**line, "state": "known", "value": 0.0}) == ["state"]
    assert whats(changed(line, "parts", 0, "taken", to=True)) == ["taken, m.c"]


@pytest.mark.parametrize(
    ("line", "path", "to", "what"),
    [
        (SUM, ("value",), 6.0, "value"),
        (SUM, ("way",), "largest_of", "taken, m.a"),
        (SUM, ("parts", 1, "value"), 4.0, "value"),
        (SUM, ("parts", 1, "taken"), False, "taken, m.b"),
        (SUM, ("parts", 1, "state"), "unknown", "state"),
        (SUM, ("parts", 2, "taken"), True, "taken, m.c"),
        (SUM, ("unit",), "%", "unit is a percent"),
        (LARGEST, ("value",), 2.0, "value"),
        (LARGEST, ("way",), "least_of", "value"),
        (LARGEST, ("parts", 0, "taken"), True, "taken, m.a"),
        (LARGEST, ("parts", 1, "taken"), False, "part taken"),
        (LEAST, ("value",), 3.0, "value"),
        (LEAST, ("parts", 0, "value"), 2.5, "value"),
    ],
)
def test_changed_parts_are_found(line: Line, path: tuple[Any, ...], to: Any, what: str) -> None:
    assert what in whats(changed(line, *path, to=to))


@pytest.mark.parametrize(("function", "values", "state", "value"), [
    ("sum", [1.0, 2.0], "unknown", None), ("count", [1.0], "unknown", None), ("largest", [], "unknown", None),
    ("every", [True], "unknown", None), ("every", [True, False], "known", False),
])  # fmt: skip
def test_a_gathering_with_undecided_members(function: str, values: list[Any], state: str, value: Any) -> None:
    call = "count(group)" if function == "count" else f"{function}(group.column)"
    members = gathering(call, *((each, 1) for each in values))
    members[0]["undecided"] = ["one more"]
    line = {**formula(call, value), "members": members, "state": state}
    assert disagreements(line) == []
    del members[0]["undecided"]
    assert whats(line) != [] or state == "known"


# A document


def column(name: str, text: str, items: dict[str, Any], *, operand: str) -> Line:
    entries = [
        {"item": item, **formula(text, value, given(operand, value, "VA"))}
        if value is not None
        else {"item": item, **without_value("not needed", formula(text, None))}
        for item, value in items.items()
    ]
    return {"id": f"m.{name}", "way": "value", "each": "loads", "items": entries}


def sheet() -> list[Line]:
    general = formula("sum(general.connected)", 9000.0, id="m.general")
    general["members"] = gathering("sum(general.connected)", (1000.0, 1), (4000.0, 2))
    demand = {**lighting(9000.0, 3000.0, 6000.0, 0.0), "id": "m.demand", "of": "general"}
    total = known("sum_of", 5100.0, "VA", id="m.total", parts=[part("demand", 5100.0, True)])
    amperes = formula("total / supply.voltage", 21.25, given("total", 5100.0, "VA"), given("supply.voltage", 240.0, "V"))
    other = formula("other.total * run.total", 6.0, given("other.total", 2.0), given("run.total", 3.0))
    return [
        column("connected", "rating", {"item 0": 1000.0, "item 1": 4000.0, "item 2": None}, operand="rating"),
        column("counted", "connected", {"item 0": 1000.0, "item 1": 4000.0}, operand="connected"),
        general,
        demand,
        total,
        {**amperes, "id": "m.amperes", "unit": "A"},
        {**formula("a", 2.0, given("a", 2.0)), "id": "other.total"},
        {**formula("a", 3.0, given("a", 3.0)), "id": "m.run.total"},
        {**formula("total", 3.0, given("total", 3.0, "VA")), "id": "m.run.again"},
        {
            **other,
            "id": "m.other",
            "inputs": [given("other.total", 2.0, "VA"), given("run.total", 3.0, "VA")],
        },
        formula("a", 1.0, given("a", 1.0), applies=condition("total > 0", True, given("total", 5100.0, "VA"))),
    ]


def document(lines: list[Line]) -> Line:
    return {"supplies": [{"id": "service", "methods": [{"id": "m", "lines": lines}]}]}


def test_a_document_agrees() -> None:
    assert recompute_document(document(sheet()), tolerance=TOLERANCE) == []
    assert recompute_document({"supplies": [{"methods": [{"id": "refused"}]}]}, tolerance=TOLERANCE) == []


def consistent_elsewhere(lines: list[Line]) -> None:
    """The line itself must fit together, so that only the comparison of lines can find the change."""
    assert all(not disagreements(line) for line in lines)


def set_sum(lines: list[Line]) -> None:
    lines[2]["members"][0]["items"][0]["value"], lines[2]["value"] = 2000.0, 10000.0
    lines[3] = {**lighting(10000.0, 3000.0, 7000.0, 0.0), "id": "m.demand", "of": "general"}
    lines[4]["parts"][0]["value"] = lines[4]["value"] = lines[3]["value"]
    lines[5]["inputs"][0]["value"], lines[5]["value"] = lines[3]["value"], lines[3]["value"] / 240
    lines[10]["applies"]["inputs"][0]["value"] = lines[3]["value"]


def set_quantity(lines: list[Line]) -> None:
    lines[3] = {**lighting(3000.0, 3000.0, 0.0, 0.0), "id": "m.demand", "of": "general"}
    lines[4]["parts"][0]["value"] = lines[4]["value"] = 3000.0
    lines[5]["inputs"][0]["value"], lines[5]["value"] = 3000.0, 12.5
    lines[10]["applies"]["inputs"][0]["value"] = 3000.0


def set_part(lines: list[Line]) -> None:
    lines[4]["parts"][0]["value"] = lines[4]["value"] = 4800.0
    lines[5]["inputs"][0]["value"], lines[5]["value"] = 4800.0, 20.0
    lines[10]["applies"]["inputs"][0]["value"] = 4800.0


def set_input(lines: list[Line]) -> None:
    lines[5]["inputs"][0]["value"], lines[5]["value"] = 4800.0, 20.0


def set_unit(lines: list[Line]) -> None:
    lines[5]["inputs"][0]["unit"] = "W"


def set_condition(lines: list[Line]) -> None:
    lines[10]["applies"]["inputs"][0]["value"] = 4800.0


def set_item(lines: list[Line]) -> None:
    lines[1]["items"][0]["inputs"][0]["value"] = lines[1]["items"][0]["value"] = 1200.0


def set_absent_item(lines: list[Line]) -> None:
    lines[2]["members"][0]["items"][0]["item"] = "a load of another house"


def set_not_needed_item(lines: list[Line]) -> None:
    lines[2]["members"][0]["items"][0]["item"] = "item 2"


def set_other_method(lines: list[Line]) -> None:
    lines[9]["inputs"][0]["value"], lines[9]["value"] = 4.0, 12.0


def set_run(lines: list[Line]) -> None:
    lines[8]["inputs"][0]["value"] = lines[8]["value"] = 5100.0


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        (set_sum, ("m.general", "", 'operand "sum(general.connected), item 0"', "2000.0", "1000.0 VA")),
        (set_quantity, ("m.demand", "", 'operand "general"', "3000.0 VA", "9000.0 VA")),
        (set_part, ("m.total", "", 'operand "m.demand"', "4800.0 VA", "5100.0 VA")),
        (set_input, ("m.amperes", "", 'operand "total"', "4800.0 VA", "5100.0 VA")),
        (set_unit, ("m.amperes", "", 'operand "total"', "5100.0 W", "5100.0 VA")),
        (set_condition, ("m.line", "", 'operand "total"', "4800.0 VA", "5100.0 VA")),
        (set_item, ("m.counted", "item 0", 'operand "connected"', "1200.0 VA", "1000.0 VA")),
        (
            set_absent_item,
            (
                "m.general",
                "",
                'operand "sum(general.connected), a load of another house"',
                "1000.0",
                "not printed",
            ),
        ),
        (
            set_not_needed_item,
            ("m.general", "", 'operand "sum(general.connected), item 2"', "1000.0", "not needed"),
        ),
        (set_other_method, ("m.other", "", 'operand "other.total"', "4.0 VA", "2.0 VA")),
        (set_run, ("m.run.again", "", 'operand "total"', "5100.0 VA", "3.0 VA")),
    ],
)
def test_an_operand_that_is_not_what_its_line_prints_is_found(change: Any, expected: tuple[str, ...]) -> None:
    lines = sheet()
    change(lines)
    consistent_elsewhere(lines)
    found = recompute_document(document(lines), tolerance=TOLERANCE)
    assert found == [Disagreement(*expected)]


def test_an_operand_from_a_column_of_another_collection_is_one_of_its_values() -> None:
    lines = sheet()
    lines[5]["inputs"].append(given("connected", 4000.0, "VA"))
    assert recompute_document(document(lines), tolerance=TOLERANCE) == []
    lines[5]["inputs"][-1]["value"] = 4001.0
    found = recompute_document(document(lines), tolerance=TOLERANCE)
    assert [one.recomputed for one in found] == [["1000.0 VA", "4000.0 VA", "not needed"]]


@pytest.mark.parametrize("state", ["not applicable", "unknown"])
def test_an_operand_without_value_has_the_state_of_its_line(state: str) -> None:
    source = {**without_value(state, formula("a", None, given("a", state=state))), "id": "m.a_line"}
    reader = without_value(state, formula("a_line", None, given("a_line", state=state)))
    assert recompute_document(document([source, reader]), tolerance=TOLERANCE) == []
    reader = formula("a_line", 1.0, given("a_line", 1.0))
    found = recompute_document(document([source, reader]), tolerance=TOLERANCE)
    assert found == [Disagreement("m.line", "", 'operand "a_line"', "1.0", state)]


# The modules keep their distance

HERE = "dwellcalc.review"


def imports_of(tree: ast.Module) -> set[str]:
    modules = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    modules |= {name.name for node in ast.walk(tree) if isinstance(node, ast.Import) for name in node.names}
    return {module for module in modules if module and module.startswith("dwellcalc")}


def recomputing_modules() -> dict[str, ast.Module]:
    """The module with the public functions and, in turn, those of the same folder that it imports."""
    folder = Path(recompute.__file__).parent
    trees: dict[str, ast.Module] = {}
    waiting = {recompute.__name__}
    while waiting:
        name = waiting.pop()
        trees[name] = ast.parse((folder / f"{name.rpartition('.')[2]}.py").read_text(encoding="utf-8"))
        waiting |= {each for each in imports_of(trees[name]) if each.startswith(HERE) and each not in trees}
    return trees


def test_nothing_of_the_evaluator_is_imported_and_no_number_stands() -> None:
    trees = recomputing_modules().values()
    assert {module for tree in trees for module in imports_of(tree) if not module.startswith(HERE)} == {
        "dwellcalc.language.formulas",
        "dwellcalc.language.phrases",
        "dwellcalc.language.words",
        "dwellcalc.placed",
        "dwellcalc.problems",
        "dwellcalc.units",
    }
    numbers = {
        node.value
        for tree in trees
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and type(node.value) in (int, float)
    }
    assert numbers <= {0, 1, 2}


def test_the_modules_import_in_one_direction() -> None:
    inner = {name: {each for each in imports_of(tree) if each.startswith(HERE)} for name, tree in recomputing_modules().items()}
    list(TopologicalSorter(inner).static_order())  # raises CycleError where they import each other
