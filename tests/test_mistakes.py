"""The catalogue of mistakes: what it offers in each edition, and the published wrong figures that its entries give."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

import pytest
from examples import PUBLISHED, Example, agrees, outcomes_of, rules_of
from planted import catalogue

from dwellcalc.language.mistakes import Mistake
from dwellcalc.language.overlays import Overlays, address_of, first_that_holds
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.reading import read_file

EDITIONS = ["nec/2014", "nec/2023", "nec/2026"]  # no entry is of the two between alone
QUOTED = re.compile(r"\{(\w+)\.(\w+)\}")
SIZING = "sizing"  # holds tables that the methods of circuits read


MISTAKES = catalogue()


@cache
def _overlays(edition: str, methods: tuple[str, ...]) -> Overlays:
    return Overlays(rules_of(edition), methods)


def _methods_with(rules: RuleSet, mistake: Mistake) -> tuple[str, ...]:
    """For each document that the mistake changes the first method that holds it."""
    holders = {str(part.name): name for name, each in reversed(rules.methods.items()) for part in each.parts}
    touched = {address_of(change).partition(".")[0] for way in mistake.ways for change in way}
    return tuple(sorted({SIZING, *(holders[name] for name in touched)}))


def _offered_in(mistake: Mistake) -> list[str]:
    """The editions that hold what the mistake changes, and link with it."""
    return [
        edition
        for edition in EDITIONS
        if first_that_holds(_overlays(edition, _methods_with(rules_of(edition), mistake)), mistake.ways) is not None
    ]


@pytest.mark.slow
@pytest.mark.parametrize("name", MISTAKES)
def test_each_is_offered_somewhere_and_says_what_is_right_there(name: str) -> None:
    mistake = MISTAKES[name]
    editions = _offered_in(mistake)
    print(name, *editions)
    assert editions
    for edition in editions:
        rules = rules_of(edition)
        assert mistake.cite in rules.citations
        quoted = QUOTED.findall(f"{mistake.done} {mistake.right} {mistake.send}")
        assert all(parameter in rules.documents[document].parameters for document, parameter in quoted), edition


def test_words_are_clauses() -> None:
    for each in MISTAKES.values():
        for text in (str(each.done), str(each.right), each.send):
            assert not text.endswith("."), each.id
            assert not text[:1].isupper() or text[:2].isupper(), each.id


@dataclass(frozen=True)
class Tie:
    """A published wrong calculation, the mistakes that are in it, and the lines that they do not explain."""

    example: str
    mistakes: tuple[str, ...]
    others: tuple[str, ...] = ()


# the lines that a slip of addition in the general loads moves
SLIP = tuple(f"optional_dwelling.{line}" for line in ("general", "general_demand", "total", "amperes"))

TIES = [
    Tie("br_range_12_5", ("cooking_excess_added_in_full",)),
    Tie("ck_3ph_12", ("cooking_on_any_phase_doubled", "cooking_left_at_two_phases")),
    Tie("ck_3ph_32", ("cooking_left_at_two_phases",)),
    Tie("dr_art_table", ("dryers_by_wrong_copy",)),
    Tie("dr_bank_5", ("five_dryers_by_wrong_copy",)),
    Tie("ev_33_6awg", ("circuit_conductor_by_lower_column",)),
    Tie("ev_doc_10", ("charging_demand_factor_invented",)),
    Tie("ex_cec_2400", ("smaller_of_heating_and_cooling_among_other_loads",)),
    Tie("ex_news_151", ("existing_charging_outside_other_loads", "existing_heating_and_cooling_at_full_rating")),
    Tie("mf_doc_8", ("two_demand_factors_in_a_row",)),
    Tie("nc_2000_bad", ("fraction_of_a_circuit_dropped",)),
    Tie("opt_doc_2400", ("central_heat_in_full",)),
    Tie("opt_doc_2600", ("few_heaters_in_full",), SLIP),
    Tie("opt_doc_3800", ("supplemental_heat_in_full",), SLIP),
    Tie("qz_ac_heat", ("few_heaters_in_full",)),
    Tie("std_doc_2600_size", ("rating_passed_over",)),
    Tie("std_home_1700", ("oven_as_fastened",)),
    Tie("std_home_1700_strip", ("oven_as_fastened",)),
    Tie("std_mh_118", ("whole_load_raised_by_quarter",)),
    Tie("std_mh_360", ("circuits_outside_lighting_tiers",)),
    Tie("vd_120_solid", ("voltage_drop_at_20_degrees",)),
    Tie("vd_gauth_28a", ("voltage_drop_one_way",), ("voltage_drop.copper_drop",)),
]

# What no rule leads to, so that no entry can give it.
NOT_EXPLAINED = {
    "ck_bank_15": "the answer is not that of its own working",
    "ck_bank_40": "the figure is of another table and another unit",
    "nc_1800_bad": "the answer is not that of its own working",
    "opt_val_bad": "four choices without a working",
    "two_mh_bad": "the total is not that of the loads listed",
}


class Erring(Example):
    """An example under rules that err."""

    mistakes: tuple[str, ...] = ()

    @property
    def rules(self) -> RuleSet:
        rules = rules_of(self.under or self.text("edition"))
        overlays = _overlays(rules.id, (*self.methods, SIZING))
        held = [first_that_holds(overlays, MISTAKES[name].ways) for name in self.mistakes]
        return overlays.with_changes(*(each[0] for each in held if each is not None))


@pytest.mark.slow
@pytest.mark.parametrize("tie", TIES, ids=lambda tie: tie.example)
def test_published_mistakes_give_the_printed_figures(tie: Tie) -> None:
    first = Example(tie.example, read_file(PUBLISHED / f"{tie.example}.yaml"))
    for each in first.by_edition():
        erring = Erring(each.name, each.node, each.under)
        erring.mistakes = tie.mistakes
        found = outcomes_of(erring, each.home())
        for claim in each.listed("claims"):
            place = str(claim["line"]), str(claim.get("item", ""))
            assert agrees(each, claim, found[place]) is (place[0] not in tie.others), (each.id, claim, found[place].printed)


def test_every_published_mistake_is_tied_or_has_a_reason() -> None:
    traps = {path.stem for path in PUBLISHED.glob("*.yaml") if "\nuse: trap\n" in path.read_text(encoding="utf-8")}
    assert sorted([*(tie.example for tie in TIES), *NOT_EXPLAINED]) == sorted(traps)
