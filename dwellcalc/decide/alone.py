"""On what it rests that some of what is planned fits by itself: what nobody has seen, readings of the code, what falls short."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import ExitStack

from dwellcalc.decide.changed import Changes, changed
from dwellcalc.decide.conductors import conductors_that_suffice
from dwellcalc.decide.decision import RestsOn
from dwellcalc.decide.document import FITS, SupplyResult
from dwellcalc.decide.otherwise_marked import otherwise_marked
from dwellcalc.decide.shortcomings import shortcomings
from dwellcalc.decide.supply import SupplyAssessor


def rests_on(assessors: Sequence[SupplyAssessor], changes: Changes) -> RestsOn:
    """That of a verdict under changes, by which all supplies fit.

    Args:
        assessors: those of the supplies.
        changes: the facts with only some of what is planned.
    """
    with ExitStack() as kept:
        for assessor in assessors:
            kept.enter_context(changed(assessor.facts, changes))
        found = [(assessor, assessor.assess()) for assessor in assessors]
        told = RestsOn()
        for assessor, each in found:
            told.unseen += _unseen(assessor, each)
            told.readings += [one.cite for one in each.interpretations if one.flips]
            told.short += shortcomings(assessor.instructions, each, conductors_that_suffice(assessor, each))
    return told


def _unseen(assessor: SupplyAssessor, found: SupplyResult) -> Iterator[str]:
    """What is assumed of a supply and, were it otherwise, would not let it fit: the fact, with what it may be instead."""
    for each in otherwise_marked(assessor, found):
        if each.verdict != FITS:
            yield f"{each.meaning}: {each.word}"
