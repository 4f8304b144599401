"""Bounds over a box of inputs by pieces of it: the box is split where something is undecided, until the bounds are attained.

What is proven: the pieces cover the box (each split leaves no float out), and on each piece every value lies within what
the evaluation on bounds gives for it; so the hull of the pieces encloses the value at every point of the box. What ends the
splitting: a bound that a point of the box attains cannot be made narrower. Where the limit of pieces ends it, the hull still
encloses and is only wider, which ``Enclosure.exact`` tells.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Any, Protocol

from dwellcalc.evaluate.gathering import Value
from dwellcalc.evaluate.possible import both_missing, possible
from dwellcalc.evaluate.undecided import Box, Undecided, narrowed
from dwellcalc.facts import NotApplicable, Unknown

LIMIT = 512  # pieces: a few seconds for a house; only time asks for it
ROUNDING = 2 * sys.float_info.epsilon * 2 * 2  # what is attained but for the last bits is attained


class Look(Protocol):
    """What is seen of a piece."""

    values: dict[str, Value]

    def undecided(self) -> list[Undecided]:
        """What is not the same in all of the piece, in the order in which it was met."""

    def outcome(self, found: Undecided, box: Box) -> Any:
        """What an undecided place gives in another box."""


@dataclass
class Enclosure:
    """The bounds of a value: the numbers, the words, whether it may be unknown, the points that attain the bounds.

    Attributes:
        low, high: the bounds, nothing where there is no number.
        lowest, highest: the points at which they are attained, nothing where none is known.
        words: the words or truths that it takes at some point.
        perhaps: those that it may take besides, where the limit kept this from being decided.
        exact: whether all of it is attained.
        missing: what is lacking where it is unknown somewhere.
        absent: whether it is not applicable somewhere.
    """

    low: float | None = None
    high: float | None = None
    lowest: Box | None = None
    highest: Box | None = None
    words: frozenset[Hashable] = frozenset()
    perhaps: frozenset[Hashable] = frozenset()
    exact: bool = True
    missing: Unknown | None = None
    absent: bool = False


@dataclass
class Piece:
    """A part of the box, with what is seen of it."""

    box: Box
    look: Look


@dataclass
class Pieces:
    """The pieces of a box, split as far as some question asked for.

    Args:
        wholes: the box, or several that cover all that may be.
        look: what is seen of a box.
        limit: how many pieces there may be.
    """

    wholes: list[Box]
    see: Callable[[Box], Look]
    limit: int = LIMIT
    leaves: list[Piece] = field(default_factory=list)
    points: dict[Box, Look] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.leaves = [Piece(box, self.see(box)) for box in self.wholes]

    def point(self, box: Box) -> Look:
        """What is seen at a point."""
        found = self.points.get(box)
        if found is None:
            found = self.points[box] = self.see(box)
        return found

    def enclosed(self, name: str) -> Enclosure:
        """The bounds of a number."""
        found = Enclosure()
        found.high, found.highest, above = self._bound(name, up=True)
        found.low, found.lowest, below = self._bound(name, up=False)
        found.exact = above and below
        found.missing = self._missing(name)
        return found

    def _missing(self, name: str) -> Unknown | None:
        missing: Unknown | None = None
        for leaf in self.leaves:
            missing = both_missing(missing, possible(leaf.look.values[name]).missing)
        return missing

    def _bound(self, name: str, up: bool) -> tuple[float | None, Box | None, bool]:
        """The upper or the lower bound, the point that comes nearest to it, and whether it is attained there."""
        sign = 1 if up else -1
        while True:
            leaves = [leaf for leaf in self.leaves if possible(leaf.look.values[name]).low is not None]
            if not leaves:
                return None, None, True
            leaf = max(leaves, key=lambda each: sign * _end(each.look.values[name], up))
            bound = _end(leaf.look.values[name], up)
            for corner in corners(leaf.box):
                self.point(corner)
            seen = {box: look.values[name] for box, look in self.points.items() if look.values[name].__class__ is float}
            # of several the one furthest out: what makes no difference here may make one elsewhere on the sheet
            best = max(seen, key=lambda each: (sign * seen[each], *(sign * low for low, _ in each)), default=None)
            if best is not None and sign * seen[best] >= sign * bound - abs(bound) * ROUNDING:
                return bound, best, True
            if len(self.leaves) >= self.limit or not self._split(leaf, name, up):
                return bound, best, False

    def decided(self, name: str) -> Enclosure:
        """The words or truths that a value takes in the box, as far as it takes one alone; of several, those that were met."""
        while True:
            met = {state for look in self.points.values() for state in _states(look.values[name])}
            for leaf in self.leaves:
                states = _states(leaf.look.values[name])
                met |= states if len(states) == 1 else set()
            doubtful = [leaf for leaf in self.leaves if _states(leaf.look.values[name]) - met]
            if not doubtful or len(met) > 1:
                break
            news = [corner for corner in corners(doubtful[0].box) if corner not in self.points]
            for corner in news:
                self.point(corner)
            if not news and (len(self.leaves) >= self.limit or not self._split(doubtful[0])):
                break
        left = {state for leaf in self.leaves for state in _states(leaf.look.values[name])} - met
        return Enclosure(
            words=frozenset(met - {Unknown, NotApplicable}),
            perhaps=frozenset(left - {Unknown, NotApplicable}),
            exact=not left,
            missing=self._missing(name) if Unknown in met | left else None,
            absent=NotApplicable in met | left,
        )

    def _split(self, leaf: Piece, name: str = "", up: bool = True) -> bool:
        """Split a piece in two, for the sake of a bound of a number if one is named; false where it is a point."""
        cut = _cut(leaf, lambda at: self._weight(leaf, at, name, up))
        if cut is None:
            return False
        at, low, high = cut
        first, last = leaf.box[at]
        self.leaves.remove(leaf)
        for bounds in ((first, low), (high, last)):
            box = narrowed(leaf.box, at, *bounds)
            self.leaves.append(Piece(box, self.see(box)))
        return True

    def _weight(self, leaf: Piece, at: int, name: str, up: bool) -> tuple[float, float]:
        """How much of a bound rests on what an input is between its ends; then how wide the input is for what it is."""
        low, high = leaf.box[at]
        width = (high - low) / max(abs(low), abs(high))
        if not name:
            return 0.0, width
        held = [self.see(narrowed(leaf.box, at, end, end)).values[name] for end in (low, high)]
        ends = [_end(value, up) for value in held if possible(value).low is not None]
        sign, bound = (1 if up else -1), _end(leaf.look.values[name], up)
        return min((sign * (bound - end) for end in ends), default=0.0), width


def _states(value: Value) -> set[Hashable]:
    """What a value may be: its words, and whether it may be not applicable or unknown."""
    found = possible(value)
    states: set[Hashable] = {*found.words}
    states |= {NotApplicable} if found.absent else set()
    return states | ({Unknown} if found.missing is not None else set())


def _end(value: Value, up: bool) -> float:
    found = possible(value)
    return float(found.high if up else found.low)


def corners(box: Box) -> list[Box]:
    """The points of a box at which all inputs are at their least, or all at their largest."""
    return [tuple((low, low) for low, _ in box), tuple((high, high) for _, high in box)]


def _cut(leaf: Piece, weight: Callable[[int], tuple[float, float]]) -> tuple[int, float, float] | None:
    """Where a piece is split: an input, the last float of the first part, the first of the second.

    It is split along the input of most weight. What rests on that input alone is split at the very float at which it changes, all else in the middle.
    """
    wide = [at for at, (low, high) in enumerate(leaf.box) if low < high]
    if not wide:
        return None
    at = wide[0] if len(wide) == 1 else max(wide, key=weight)
    low, high = leaf.box[at]
    alone = [found for found in leaf.look.undecided() if found.of == {at}]
    for found in alone:
        if found.edges and found.key == (low, high):
            return at, *_at_edge(found.edges, low, high)
    if alone:
        return at, *_change(leaf, alone[0], at, low, high)
    middle = low + (high - low) / 2
    return (at, middle, math.nextafter(middle, math.inf)) if middle < high else (at, low, high)


def _at_edge(edges: tuple[float, ...], low: float, high: float) -> tuple[float, float]:
    """A split that leaves an edge of a row alone at an end, or at an end of a part; the upper end comes first."""
    inside = [edge for edge in edges if low < edge <= high]
    if inside:
        return math.nextafter(inside[-1], -math.inf), inside[-1]
    return low, math.nextafter(low, math.inf)


def _change(leaf: Piece, found: Undecided, at: int, low: float, high: float) -> tuple[float, float]:
    """The last float of which the outcome is that of the low end, and the next one, if the outcome changes once."""
    first = leaf.look.outcome(found, narrowed(leaf.box, at, low, low))
    inside, outside = low, high
    if leaf.look.outcome(found, narrowed(leaf.box, at, high, high)) == first:
        inside = outside = low + (high - low) / 2  # it changes more than once: any split will do
    while (middle := inside + (outside - inside) / 2) not in (inside, outside):
        if leaf.look.outcome(found, narrowed(leaf.box, at, middle, middle)) == first:
            inside = middle
        else:
            outside = middle
    if inside == high:
        inside = math.nextafter(high, -math.inf)
    return inside, math.nextafter(inside, math.inf)
