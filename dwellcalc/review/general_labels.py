"""Labels of circuits of a panel schedule that are no loads of their own, such as those for lighting."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from types import MappingProxyType

from dwellcalc.decide.review_plan import GeneralCircuit, GeneralCircuits
from dwellcalc.review.labels import spelled_out


class GeneralLabels:
    """Tells which labels mean circuits that are no loads of their own.

    Args:
        plan: the kinds of such circuits with their names, or nothing.
        abbreviations: words in short, with what they are short for.
    """

    def __init__(self, plan: GeneralCircuits | None, abbreviations: Mapping[str, str] = MappingProxyType({})) -> None:
        self.words = partial(spelled_out, abbreviations=abbreviations)
        self.kinds = [] if plan is None else [(each, [set(self.words(name)) for name in each.names]) for each in plan.kinds]
        self.known = set() if plan is None else {word for each in plan.beside for word in self.words(each)}
        self.known |= {word for _, names in self.kinds for name in names for word in name}

    def meant(self, label: str) -> GeneralCircuit | None:
        """The kind of which the longest name stands in a label, of equal ones the first; nothing where it holds other words too."""
        words = set(self.words(label))
        if not words or not words <= self.known:
            return None
        found = [(len(name), kind) for kind, names in self.kinds for name in names if name <= words]
        return max(found, key=lambda each: each[0], default=(0, None))[1]
