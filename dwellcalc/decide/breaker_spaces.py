"""Numbers of breaker spaces of a new panelboard, given out in the order in which its circuits are told.

Odd numbers stand down the left side of a panelboard and even ones down the right, as is common practice of the trade, so that the poles
of a breaker, which stand one below the other, have numbers two apart.
"""

from __future__ import annotations

from collections.abc import Collection

SIDES = 2  # of a panelboard, over which the numbers alternate


class BreakerSpaces:
    """Gives out the spaces of a panelboard.

    Args:
        number: how many there are.
    """

    def __init__(self, number: int) -> None:
        self.free = list(range(1, number + 1))
        self.half: list[int] = []

    def take(self, breakers: int, poles: int, *, tandem: bool = False) -> list[int]:
        """The spaces of equal breakers, the first that serve; nothing where not all of them find place."""
        taken: list[int] = []
        before = (list(self.free), list(self.half))
        for _ in range(breakers):
            place = self._half() if tandem else self._whole(poles)
            if not place:
                self.free, self.half = before
                return []
            taken += place
        return taken

    def _whole(self, poles: int) -> list[int]:
        """The first free spaces that stand one below the other on one side."""
        for first in self.free:
            place = [first + SIDES * each for each in range(poles)]
            if set(place) <= set(self.free):
                self.free = [each for each in self.free if each not in place]
                return place
        return []

    def _half(self) -> list[int]:
        """The other half of the last space that a tandem breaker took, else half of a free one."""
        if self.half:
            place, self.half = self.half, []
            return place
        self.half = self._whole(1)
        return list(self.half)


def in_words(spaces: Collection[int]) -> str:
    """Numbers of spaces, those that follow one another told by the first and the last."""
    runs: list[list[int]] = []
    for each in sorted(set(spaces)):
        if runs and runs[-1][-1] == each - 1:
            runs[-1].append(each)
        else:
            runs.append([each])
    return ", ".join(f"{run[0]}" if len(run) == 1 else f"{run[0]}{' to ' if run[2:] else ', '}{run[-1]}" for run in runs)
