"""How submittals are reviewed, as an assessment file says."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class ReviewPlan:
    """How submittals are reviewed.

    Attributes:
        method: the method of which each result is something that has to be shown.
        taken: the numbers of circuits of a dwelling unit that are taken where a submittal says nothing, by field.
        steps: words with which the label of a step within a demand factor begins, which is not compared by itself.
        beside_steps: words that may stand beside an amount and the share that a step takes of it.
        not_now: words by which a submittal says that a load comes later, or is of others, and is not counted.
        pairs_at_most: how many pairs of mistakes are tried.
        rounded_at_most: the largest step to which a whole sheet may be rounded.
    """

    method: str
    taken: dict[str, str]
    steps: tuple[str, ...]
    beside_steps: tuple[str, ...]
    not_now: tuple[str, ...]
    pairs_at_most: int
    rounded_at_most: float
