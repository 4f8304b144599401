"""What a supply that is there may carry, and whether it suffices today, where what is assumed of it is otherwise."""

from __future__ import annotations

from collections.abc import Iterator
from math import isclose

from dwellcalc.decide.document import SupplyResult
from dwellcalc.decide.marked_results import OtherwiseMarked
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.verification import facts_with_origin
from dwellcalc.home.glossary_names import SUPPLY
from dwellcalc.home.values import QUANTITY

BY_LABEL = "label"  # the remark that says why it is asked


def otherwise_marked(assessor: SupplyAssessor, found: SupplyResult) -> list[OtherwiseMarked]:
    """Each word that an assumed fact of a supply may be instead, with which its capacity is another."""
    if found.sizing is None or found.sizing.capacity is None or not assessor.is_there:
        return []
    return list(_tried(assessor, found, found.sizing.capacity))


def _tried(assessor: SupplyAssessor, found: SupplyResult, capacity: float) -> Iterator[OtherwiseMarked]:
    facts = assessor.facts
    for owner, position, _, declared, value, origin in facts_with_origin(facts):
        if owner != SUPPLY or position >= 0 or not origin.assumed or declared.kind.form == QUANTITY:
            continue
        words = {word: facts.glossary.value(declared.kind, word) for word in facts.glossary.words(declared.kind)}
        taken = next((facts.glossary.shown(declared.kind, word) for word, each in words.items() if each == value), "")
        for word, other in words.items():
            if other == value:
                continue
            facts.objects[SUPPLY][declared.name] = other
            tried, carried = assessor.answered(assessor.choices)
            suffice = None if tried is None else assessor.sizing(tried, assessor.choices).conductors_suffice
            differs = carried.capacity is not None and not isclose(carried.capacity, capacity)
            before = assessor.before() if differs else None
            facts.objects[SUPPLY][declared.name] = value
            if differs and carried.capacity is not None and carried.amperes is not None:
                yield OtherwiseMarked(
                    declared.meaning,
                    taken,
                    facts.glossary.shown(declared.kind, word),
                    carried.capacity,
                    carried.amperes,
                    carried.verdict,
                    None if before is None else before.amperes,
                    "" if before is None else before.verdict,
                    before is not None and found.before is not None and before.verdict != found.before.verdict,
                    assessor.instructions.remarks.get(BY_LABEL, ""),
                    suffice,
                )
