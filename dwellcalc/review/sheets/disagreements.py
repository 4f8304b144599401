"""What disagrees in a line: a list that its checks add to, and that also takes what cannot be worked out at all."""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from dwellcalc.review.sheets.recomputed_numbers import is_number, read_number
from dwellcalc.review.sheets.recomputed_values import Record, Refused

_BROKEN = (ArithmeticError, AttributeError, LookupError, RecursionError, TypeError, ValueError)


@dataclass(frozen=True)
class Disagreement:
    """Something that a line prints, and what it should be by everything else that the line prints.

    Attributes:
        line: the id of the line.
        item: the item of a column, or empty.
        what: what disagrees, in plain words.
        printed, recomputed: the two sides.
    """

    line: str
    item: str
    what: str
    printed: object
    recomputed: object


def line_id(line: Record) -> str:
    """The id of a line; empty where none is printed."""
    return str(line.get("id", ""))


def evaluations(line: Record) -> list[tuple[str, Record]]:
    """The evaluations of a line: with an empty item the line itself, or each item of a column.

    Raises:
        KeyError: it is a column and prints no items.
    """
    if line.get("each") is None:
        return [("", line)]
    return [(str(entry["item"]), entry) for entry in line["items"]]


@dataclass
class Findings:
    """Collects what disagrees in one line.

    Attributes:
        line: the id of the line.
        tolerance: the largest difference that counts as none, relative or absolute.
        item: the item that is looked at, or empty.
        found: what disagrees, in the order in which it was found.
    """

    line: str
    tolerance: float
    item: str = ""
    found: list[Disagreement] = field(default_factory=list)

    def each_evaluation(self, line: Record) -> Iterator[Record]:
        """The evaluations of the line; what is noted goes to the item of the one that was given last.

        Raises:
            KeyError: it is a column and prints no items.
        """
        for item, evaluation in evaluations(line):
            self.item = item
            yield evaluation

    def note(self, what: str, printed: object, recomputed: object) -> None:
        """Add a disagreement."""
        self.found.append(Disagreement(self.line, self.item, what, printed, recomputed))

    def check(self, what: str, printed: object, recomputed: object) -> None:
        """Add a disagreement where the two sides, both in the same unit, do not agree."""
        if not self.agree(printed, recomputed):
            self.note(what, printed, recomputed)

    def check_written(self, what: str, printed: float, text: str, factor: float = 1) -> None:
        """Check a number against the one that a text holds, in its own unit or by the factor from the text's unit.

        A text that is no number is not compared.
        """
        written = read_number(text)
        if written is not None and not self.agree(printed, written):
            self.check(what, printed, written * factor)

    def agree(self, one: object, other: object) -> bool:
        """Whether two numbers differ by no more than the tolerance, or two other values are the same."""
        if is_number(one) and is_number(other):
            return math.isclose(one, other, rel_tol=self.tolerance, abs_tol=self.tolerance)
        return type(one) is type(other) and one == other

    @contextmanager
    def guarded(self) -> Iterator[None]:
        """Turn what cannot be worked out into a disagreement."""
        try:
            yield
        except Refused as refused:
            self.note(str(refused), None, None)
        except _BROKEN as error:
            self.note(f"what is printed cannot be worked out ({type(error).__name__}: {error})", None, None)
