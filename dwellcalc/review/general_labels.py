"""Labels of circuits of a panel schedule that are no loads of their own, such as those for lighting."""

from __future__ import annotations

from dwellcalc.decide.review_plan import GeneralCircuit, GeneralCircuits
from dwellcalc.review.labels import words_of


class GeneralLabels:
    """Tells which labels mean circuits that are no loads of their own.

    Args:
        plan: the kinds of such circuits with their names, or nothing.
    """

    def __init__(self, plan: GeneralCircuits | None) -> None:
        self.kinds = [] if plan is None else [(each, [set(words_of(name)) for name in each.names]) for each in plan.kinds]
        self.known = set() if plan is None else {word for each in plan.beside for word in words_of(each)}
        self.known |= {word for _, names in self.kinds for name in names for word in name}

    def meant(self, label: str) -> GeneralCircuit | None:
        """The kind that a label means; nothing where it holds other words too."""
        words = set(words_of(label))
        if not words or not words <= self.known:
            return None
        return next((kind for kind, names in self.kinds if any(name <= words for name in names)), None)
