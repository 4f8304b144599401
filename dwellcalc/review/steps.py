"""Rows of a submittal that are steps within a demand factor, such as the first part of a load at its full value."""

from __future__ import annotations

import re
from collections.abc import Iterable
from math import isclose

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.glossary import Glossary
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.placed import Text, text_at
from dwellcalc.review.claims import quantity_in
from dwellcalc.review.labels import LINE, Match, words_of
from dwellcalc.review.percents import SHARE, parts_in
from dwellcalc.review.rows import Row

AMOUNT = re.compile(r"\d[\d,]*(?:\.\d+)?(?:\s*[A-Za-z]+)?")
NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?")
OF_ROW = re.compile(
    r"^\s*(?:\(?(?:\d{1,2}|[A-Z]{1,2})[.)]|(?:[Ll]ine|[Ll]n|[Rr]ow|[Ii]tem)\.?\s*(?:\d{1,2}|[A-Z])\s*[:.)]|#\s*\d{1,2}\.?)\s+(?=\S)"
)  # the number of a row before its label


class Steps:
    """Tells which rows are steps.

    Args:
        plan: the words with which the label of a step begins, and those that may stand beside an amount and its share.
        glossary: the units of amounts.
    """

    def __init__(self, plan: ReviewPlan, glossary: Glossary) -> None:
        self.begin = _singly(plan.steps)
        self.beside = self.begin | _singly(plan.beside_steps)
        self.glossary = glossary
        self.kind = glossary.collections[LOADS].fields["volt_amperes"].kind

    def begins(self, row: Row) -> bool:
        """Whether a row without a nameplate begins as steps do; then it is one whatever else it is called."""
        words = words_of(OF_ROW.sub("", row.label))
        return set(words[:1]) <= self.begin and bool(words) and row.nameplate is None

    def is_one(self, row: Row, match: Match | None) -> bool:
        """Whether a row that is matched with no load says an amount, or a part, and the share that is taken of it.

        A label of nothing known holds no other words then. One that is matched with a line is that line and no step, unless it
        names a step and its figure is the share of the amount.
        """
        shares = SHARE.findall(row.label)
        if len(shares) != 1 or (match is not None and match.what != LINE):
            return False
        said = SHARE.sub("", OF_ROW.sub("", row.label))
        amount, rest = self._amount(text_at(said, row.label))
        names_a_step = bool(set(words_of(rest)) & self.begin)
        if match is None:
            return set(words_of(rest)) <= self.beside and (names_a_step or amount is not None)
        return names_a_step and self.is_share(row)

    def is_share(self, row: Row) -> bool:
        """Whether the figure of a row is the share that its label says of the amount that it says."""
        shares = parts_in(row.label)
        amount = self.amount(row)
        claimed = None if row.claimed is None else quantity_in(row.claimed, self.kind, self.glossary)
        return amount is not None and claimed is not None and isclose(amount * shares[0], claimed)

    def amount_of_share(self, row: Row) -> float | None:
        """The amount of which the figure of a row is the share that its label says, or nothing."""
        return self.amount(row) if self.is_share(row) else None

    def share(self, row: Row) -> float | None:
        """The one share that a label says, as a part of one, or nothing."""
        shares = parts_in(row.label)
        return shares[0] if len(shares) == 1 else None

    def amount(self, row: Row) -> float | None:
        """The amount of which a label says one share [VA], or nothing."""
        said = text_at(SHARE.sub("", row.label), row.label)
        return self._amount(said)[0] if len(SHARE.findall(row.label)) == 1 else None

    def _amount(self, label: Text) -> tuple[float | None, str]:
        """The first amount of a load in a label, in the unit of loads, and the label without it."""
        label = text_at(OF_ROW.sub("", label), label)
        for pattern in (AMOUNT, NUMBER):
            for match in pattern.finditer(label):
                found = quantity_in(text_at(match[0], label), self.kind, self.glossary)
                if found is not None:
                    return found, f"{label[: match.start()]} {label[match.end() :]}"
        return None, label


def _singly(words: Iterable[str]) -> set[str]:
    return {word for each in words for word in words_of(each)}
