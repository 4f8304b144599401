"""What the rows of a submittal add up to by themselves: a figure that is such a sum is no slip of addition."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from dwellcalc.review.claims import Claim


@dataclass
class OwnSums:
    """The figures of the rows so far, in the order of the page; those of sums and of steps are marked.

    Attributes:
        figures: the figure of each row [VA].
        sums: the places of those that are sums of rows.
        steps: the places of those that are steps within a demand factor.
    """

    figures: list[float] = field(default_factory=list)
    sums: list[int] = field(default_factory=list)
    steps: set[int] = field(default_factory=set)

    def add(self, figure: float, *, is_sum: bool = False, is_step: bool = False) -> None:
        """Add the figure of the next row."""
        if is_sum:
            self.sums.append(len(self.figures))
        if is_step:
            self.steps.add(len(self.figures))
        self.figures.append(figure)

    def told(self, claim: Claim, *, is_sum: bool) -> Claim:
        """A claim with whether the rows above come to it, and what they come to where it is the first sum and no steps stand there."""
        adds_up = is_sum and self.give(claim)
        plain = is_sum and not adds_up and not self.sums and not self.steps and len(self.figures) > 1
        return replace(claim, adds_up=adds_up, rows_come_to=sum(self.figures) if plain else None)

    def give(self, claim: Claim) -> bool:
        """Whether the rows above a claim add up to it: all of them, or those since a sum, with it or without."""
        return any(claim.met_by(each) for each in self._sums())

    def _sums(self) -> Iterator[float]:
        """What runs of two rows or more down to the last come to, and all sums together."""
        last = len(self.figures)
        rows = [at for at in range(last) if at not in self.sums]
        runs = [rows, [at for at in rows if at not in self.steps], self.sums]
        for at in self.sums:
            runs += [list(range(at, last)), list(range(at + 1, last))]
            runs += [[each for each in range(start, last) if each not in self.steps] for start in (at, at + 1)]
        yield from (sum(self.figures[at] for at in run) for run in runs if len(run) > 1)
        yield from (self.figures[at] for at in self.sums[-1:] if at == last - 1)
