"""A scale from zero: where a value stands in a drawing, and the round values that are told beside it."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, log10

STEPS = (1, 2, 2.5, 5, 10)  # what is counted in, times a power of ten
TEN = 10
FEW = 5  # how many steps a scale has at the most


@dataclass(frozen=True)
class Scale:
    """A scale from zero to a round value.

    Attributes:
        begin, end: where zero and the last value stand.
        step: from one value that is told to the next.
        count: how many of them there are after zero.
    """

    begin: float
    end: float
    step: float
    count: int

    def at(self, value: float) -> float:
        """Where a value stands."""
        return self.begin + (self.end - self.begin) * value / (self.step * self.count)

    def ticks(self) -> list[tuple[float, str]]:
        """The round values, zero first: each as it stands and in print."""
        values = [self.step * each for each in range(self.count + 1)]
        return [(self.at(value), f"{value:,g}") for value in values]


def scale_to(largest: float, begin: float, end: float) -> Scale:
    """The scale on which the largest value just has room."""
    largest = largest if largest > 0 else float(1)
    power = TEN ** floor(log10(largest / FEW))
    step = next(each * power for each in STEPS if each * power * FEW >= largest)
    return Scale(begin, end, step, max(1, ceil(largest / step - 1 / TEN**TEN)))
