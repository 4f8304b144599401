"""What would bring a submitted load within what its supply may carry: the alternatives of an assessment, of the same home."""

from __future__ import annotations

import re
from dataclasses import replace

from dwellcalc.decide.alternatives import alternatives
from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.trials import Trials
from dwellcalc.home import Home
from dwellcalc.review.of_supply import OfSupply
from dwellcalc.review.submittal import Submittal


def would_change(submittal: Submittal, supply: OfSupply) -> list[AlternativeResult]:
    """The alternatives, those that suffice first; none where it fits, or where figures begin at sizing.

    Where the supply conductors are asked to be larger, all are with such; none where it fits then. The labels of loads stand in
    quotes. Of a home with several supplies those of the submitted one are told.

    Args:
        submittal: as it was read.
        supply: what is to be put right of the supply.
    """
    if submittal.given or submittal.stated:
        return []
    mine = submittal.supply
    largest = submittal.ranges.largest if submittal.ranges is not None else None
    home = submittal.home if largest is None else largest  # with what is known between bounds where the load is largest
    facts = next((each.facts for each in home.supplies if each.id == mine.id), mine.facts)
    with supply.put_right(facts):
        return _of_home(submittal, home)


def _of_home(submittal: Submittal, home: Home) -> list[AlternativeResult]:
    rules, instructions, mine = submittal.rules, submittal.instructions, submittal.supply
    assessors = [
        SupplyAssessor(rules, instructions, each, submittal.choices, submittal.method if each.id == mine.id else "")
        for each in home.supplies
    ]
    found = alternatives(home, Trials(assessors), planned_alone=True)
    return [replace(each, what=_quoted(each.what, submittal)) for each in found if each.supply == mine.title]


def _quoted(what: str, submittal: Submittal) -> str:
    """What is done, with the labels of the submittal in quotes."""
    longest_first = sorted(submittal.load_rows, key=len, reverse=True)
    labels = "|".join(re.escape(str(each)) for each in longest_first)
    return re.sub(rf"(?<!\w)(?:{labels})(?!\w)", r'"\g<0>"', what) if labels else what
