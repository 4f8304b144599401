"""Published calculations: every claim to its published rounding; what is known to be wrong stays different."""

from __future__ import annotations

from collections import Counter

import pytest
from examples import PUBLISHED, Example, agrees, all_examples, outcomes_of

from dwellcalc.reading import read_file

EXAMPLES = all_examples()
BY_EDITION = [one for each in EXAMPLES for one in each.by_edition()]
TRUSTED = [each for each in BY_EDITION if each.use in ("oracle", "supporting", "own")]
TRAPS = [each for each in BY_EDITION if each.use == "trap"]


@pytest.mark.parametrize("example", TRUSTED, ids=lambda example: example.id)
def test_claims(example: Example) -> None:
    found = outcomes_of(example, example.home())
    for claim in example.listed("claims"):
        outcome = found[str(claim["line"]), str(claim.get("item", ""))]
        assert agrees(example, claim, outcome), (claim, outcome.printed)


@pytest.mark.parametrize("example", [each for each in TRUSTED if each.listed("claims_of_difference")], ids=lambda each: each.id)
def test_differences(example: Example) -> None:
    first, second = outcomes_of(example, example.home()), outcomes_of(example, example.home("second_home"))
    for claim in example.listed("claims_of_difference"):
        line = str(claim["line"]), ""
        outcome = second[line]
        outcome.value -= first[line].value
        assert agrees(example, claim, outcome), (claim, outcome.value)


@pytest.mark.parametrize("example", TRAPS, ids=lambda example: example.id)
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


RECORDS = read_file(PUBLISHED / "left_out.yaml")
CONVERTED = [str(each) for each in RECORDS["converted"]]
LEFT_OUT = RECORDS["left_out"]


def _stem(record: str) -> str:
    return record.lower().replace("-", "_").replace(".", "_").replace("/", "_")


def _files_of(record: str) -> list[str]:
    """The files of a record: of its name, or of a longer one where it gives several homes."""
    stem = _stem(record)
    return [each.name for each in EXAMPLES if each.name == stem or each.name.startswith(f"{stem}_")]


def test_every_record_is_converted_or_left_out_with_a_reason() -> None:
    ids = [*CONVERTED, *(str(entry["id"]) for entry in LEFT_OUT)]
    assert len(ids) == len(set(ids))
    assert all(entry["use"] and entry["reason"] for entry in LEFT_OUT)
    assert not [record for record in CONVERTED if not _files_of(record)]
    assert not [entry["id"] for entry in LEFT_OUT if _files_of(str(entry["id"]))]


def test_published_examples_are_run_under_every_edition() -> None:
    """2026 has none of its own yet: what is said of any edition, where no figure of 2026 differs."""
    editions = Counter(each.rules.id for each in TRUSTED + TRAPS)
    assert min(editions[each] for each in ("nec/2014", "nec/2017", "nec/2020", "nec/2023")) >= 25
    assert {each.name for each in TRUSTED if each.rules.id == "nec/2026"} == {"ck_doc_6", "ht_doc_21", "nc_doc_30"}
    assert not [each.id for each in EXAMPLES if each.text("edition") in [*each.listed("also")]]


def test_every_file_is_of_a_record_or_our_own() -> None:
    of_records = {name for record in CONVERTED for name in _files_of(record)}
    assert not [each.name for each in EXAMPLES if each.use != "own" and each.name not in of_records]
