"""Published calculations: every claim to its published rounding; what is known to be wrong stays different."""

from __future__ import annotations

import pytest
from examples import PUBLISHED, Example, agrees, all_examples, outcomes_of

from dwellcalc.reading import read_file

EXAMPLES = all_examples()
TRUSTED = [each for each in EXAMPLES if each.use in ("oracle", "supporting", "own")]
TRAPS = [each for each in EXAMPLES if each.use == "trap"]


@pytest.mark.parametrize("example", TRUSTED, ids=lambda example: example.name)
def test_claims(example: Example) -> None:
    found = outcomes_of(example, example.home())
    for claim in example.listed("claims"):
        outcome = found[str(claim["line"]), str(claim.get("item", ""))]
        assert agrees(example, claim, outcome), (claim, outcome.printed)


@pytest.mark.parametrize("example", [each for each in TRUSTED if each.listed("claims_of_difference")], ids=lambda each: each.name)
def test_differences(example: Example) -> None:
    first, second = outcomes_of(example, example.home()), outcomes_of(example, example.home("second_home"))
    for claim in example.listed("claims_of_difference"):
        line = str(claim["line"]), ""
        outcome = second[line]
        outcome.value -= first[line].value
        assert agrees(example, claim, outcome), (claim, outcome.value)


@pytest.mark.parametrize("example", TRAPS, ids=lambda example: example.name)
def test_traps_differ_where_they_are_wrong(example: Example) -> None:
    found = outcomes_of(example, example.home())
    wrong = {(str(each["line"]), str(each.get("item", ""))): each for each in example.listed("wrong")}
    assert wrong
    for place, each in wrong.items():
        assert agrees(example, {"value": each["ours"], "rounded_to": each.get("rounded_to", "1")}, found[place]) or agrees(
            example, {"value": each["ours"], "rounded_to": _unit_step(str(each["ours"]))}, found[place]
        ), (each, found[place].printed)
    for claim in example.listed("claims"):
        place = str(claim["line"]), str(claim.get("item", ""))
        assert agrees(example, claim, found[place]) is not (place in wrong), (claim, found[place].printed)


def _unit_step(text: str) -> str:
    number, _, unit = text.partition(" ")
    decimals = len(number.partition(".")[2])
    return f"{'1' if not decimals else '0.' + '0' * (decimals - 1) + '1'} {unit}".strip()


def test_every_record_left_out_has_a_reason() -> None:
    entries = read_file(PUBLISHED / "left_out.yaml")
    listed = next(iter(entries.values()))
    assert all(entry["id"] and entry["use"] and entry["reason"] for entry in listed)
    names = {each.name for each in EXAMPLES}
    assert not [entry["id"] for entry in listed if str(entry["id"]).lower().replace("-", "_") in names]
