"""What the document tells of a supply of which an assumed fact is otherwise."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(slots=True)
class OtherwiseMarked:
    """What it is if an assumed fact of a supply is otherwise.

    Attributes:
        meaning: what the fact is.
        taken, word: what was taken, and what it may be instead, in print.
        capacity: the capacity then [A].
        amperes, verdict: what it must carry then [A], and whether that fits.
        today: the same without what is planned, where that is told [A].
        verdict_today: whether that fits.
        turns_today: whether that is otherwise than with what was taken.
        remark: why it is asked.
        conductors_suffice: whether the supply conductors suffice for the main then, where that is known.
    """

    meaning: str
    taken: str
    word: str
    capacity: float
    amperes: float
    verdict: str
    today: float | None
    verdict_today: str
    turns_today: bool
    remark: str
    conductors_suffice: bool | None = None
