"""What a supply would have to carry without the local amendments, and whether its answer turns on them."""

from __future__ import annotations

from dwellcalc.decide.document import NOTHING, RATING, VERDICT, SupplyResult, WithoutAmendments
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.decide.shortcomings import short_beside
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate.traced import Evaluation


def without_amendments(assessor: SupplyAssessor, found: SupplyResult) -> WithoutAmendments | None:
    """The answer by the rules without amendments, for the same facts and settings; nothing where there are none."""
    rules = assessor.rules.unamended
    if rules is None:
        return None
    other = SupplyAssessor(rules, read_instructions(rules), assessor.supply, assessor.choices, assessor.wanted)
    tried, carried = other.answered(other.choices)
    evaluation = Evaluation(other.plan, other.facts, other.choices) if tried is None else other.sized(tried, other.choices)
    asked = _asked_by_them(assessor, found, evaluation)
    mine = found.new_supply.minimum_rating if found.new_supply is not None and found.verdict == NOTHING else None
    rating = carried.minimum_rating if mine is not None else None
    turns = [VERDICT] if carried.verdict != found.verdict else [RATING] if rating != mine else []
    return WithoutAmendments(carried.amperes, carried.verdict, carried.by, carried.minimum_rating, turns, asked)


def _asked_by_them(assessor: SupplyAssessor, found: SupplyResult, evaluation: Evaluation) -> list[str]:
    """What falls short with the amendments alone."""
    methods = evaluation.plan.rules.methods
    short = short_beside(assessor.instructions, found)
    return [what for (method, result), what in short.items() if evaluation.line(methods[method].results[result]) is not False]
