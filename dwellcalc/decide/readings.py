"""Readings of the code that a result rests on, and what it would be under each option."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dwellcalc.decide.basis import Carried, Tried
from dwellcalc.decide.choices import chosen_by, interpretations
from dwellcalc.decide.document import NOTHING, InterpretationResult, OptionResult, verdict
from dwellcalc.decide.sections import of_method
from dwellcalc.decide.sizing_result import SizingResult

if TYPE_CHECKING:
    from dwellcalc.decide.supply import SupplyAssessor


def interpretations_of(assessor: SupplyAssessor, tried: Tried, sizing: SizingResult) -> list[InterpretationResult]:
    """Every interpretation that the result of a method and its sizing rest on, with the result under each option.

    One flips the verdict; where there is nothing to compare, the rating that a new supply needs.
    """
    read = tried.evaluation.read_choices | sizing.read_choices
    found = []
    for address, interpretation in interpretations(assessor.rules).items():
        if address not in read:
            continue
        taken = tried.evaluation.choices[address]
        document = assessor.rules.documents[address.partition(".")[0]]
        options = [
            _option(assessor, tried, (address, name), assessor.plan.filled(option.says, document), name == taken, sizing)
            for name, option in interpretation.options.items()
        ]
        verdicts = {option.verdict for option in options}
        flips = len({option.minimum_rating for option in options} if verdicts == {NOTHING} else verdicts) > 1
        by = chosen_by(assessor.rules, assessor.choices, address)
        cite = of_method(assessor.rules.section(str(interpretation.cite)), tried.name, assessor.rules)
        question = assessor.plan.filled(interpretation.question, document)
        found.append(InterpretationResult(address, question, cite, by, flips, options))
    return found


def _option(
    assessor: SupplyAssessor, tried: Tried, option: tuple[str, str], says: str, taken: bool, sizing: SizingResult
) -> OptionResult:
    """The result under one option of an interpretation, given by address and name."""
    address, name = option
    other: Tried | None = tried
    title = str(assessor.rules.methods[tried.name].source.title)
    answer = verdict(sizing.fits, sizing.fits_state)
    carried = Carried(sizing.amperes, answer, title, sizing.margin, sizing.minimum_rating)
    if not taken:
        other, carried = assessor.answered({**assessor.choices, address: name})
    total = other.total if other is not None and isinstance(other.total, float) else None
    needed = ""
    if sizing.to_verify and other is not None and isinstance(other.amperes, float):
        choices = {**assessor.choices, address: name}
        needed = (sizing if taken else assessor.sizing(other, choices)).seen_to_suffice()
    found = (carried.by, total, carried.amperes, carried.verdict, carried.minimum_rating, carried.capacity)
    return OptionResult(name, says, taken, *found, needed)
