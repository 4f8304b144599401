"""A part of a sentence that may be its answer."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Part:
    """A part of a sentence that may be its answer, the rest of it, and what of all that is kept as it was told.

    ``inside`` where it stands within a clause, and not for one; ``by_name`` where it alone names what is asked for, ``of_all`` where it
    alone is said to be the total.
    """

    text: str
    rest: str
    kept: str
    inside: bool = False
    by_name: bool = False
    of_all: bool = False
