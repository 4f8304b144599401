"""What the stamps of a series tell together: the step between them, their order, which of two orders of dates is even."""

from __future__ import annotations

from array import array
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, islice, pairwise
from operator import sub

from dwellcalc.meter.tables.stamps import DAY, swapped

LONG_RUN = 8  # so many equal steps in a row are no gaps
DAYS_FOR_A_BREAK = 10


class Steps:
    """The steps between different stamps in the order of time.

    Attributes:
        usual: the commonest [s]; 0 where there is none.
        counted: how often each is met.
    """

    def __init__(self, labels: array[int]) -> None:
        self._ordered = labels
        self.counted: Counter[int] = Counter(self._all())
        if self.counted and min(self.counted) <= 0:
            self._ordered = array("q", sorted(set(labels)))
            self.counted = Counter(self._all())
        self.usual = self.counted.most_common(1)[0][0] if self.counted else 0

    def _all(self) -> Iterator[int]:
        return map(sub, islice(self._ordered, 1, None), self._ordered)

    @property
    def mixed(self) -> bool:
        """Whether the usual step is not that of most, or another than the usual one follows itself so often that it must be another length of intervals."""
        if self.usual and 2 * self.counted[self.usual] < sum(self.counted.values()):
            return True
        if all(count < LONG_RUN for each, count in self.counted.items() if each != self.usual):
            return False
        return any(each != self.usual and sum(1 for _ in group) >= LONG_RUN for each, group in groupby(self._all()))


def commonest(values: Iterable[int]) -> int:
    """The value that is met most often; 0 of none."""
    counted = Counter(values).most_common(1)
    return counted[0][0] if counted else 0


def is_backwards(labels: Sequence[int]) -> bool:
    """Whether the latest readings stand first."""
    return len(labels) > 1 and labels[0] > labels[-1]


def runs_of_days(labels: Iterable[int]) -> tuple[int, int]:
    """How many runs of days follow one another without a break, and how many days there are."""
    days = sorted({label // DAY for label in labels})
    return sum(1 for before, day in pairwise(days) if day != before + 1) + 1, len(days)


def even_order(labels: Iterable[int]) -> bool | None:
    """Whether the days are even with the day first (true) or the month first; nothing where both are, or neither."""
    days = {label // DAY * DAY for label in labels}
    known: dict[int, int] = {}
    as_read, count = runs_of_days(days)
    as_swapped, _ = runs_of_days(swapped(day, known) for day in days)
    limit = 1 + count // DAYS_FOR_A_BREAK
    if (as_read <= limit) == (as_swapped <= limit):
        return None
    return as_swapped <= limit
