"""What lines, groups, runs and formulas rest on: the one walk that follows what they name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Union

from dwellcalc.language import tree
from dwellcalc.language.tree import CheckedGroup, CheckedLine, CheckedRun

Piece = Union[CheckedLine, CheckedGroup, CheckedRun, tree.Tree]


def reached(pieces: Iterable[Piece], *, through: bool = True) -> Iterator[Piece]:
    """Everything that some pieces rest on, themselves among it: each line, group and run once, in the order met.

    Args:
        pieces: lines, groups, runs or formulas of checked methods.
        through: whether a line that is read is followed into what it rests on; else it is left at its name.
    """
    waiting = [*pieces][::-1]
    seen: set[Piece] = set()
    while waiting:
        piece = waiting.pop()
        if isinstance(piece, (CheckedLine, CheckedGroup, CheckedRun)):
            if piece in seen:
                continue
            seen.add(piece)
        yield piece
        waiting += _within(piece, through)[::-1]


def named_by(line: CheckedLine) -> tuple[Piece, ...]:
    """What a line of a checked rule set rests on, no other line followed; walked once, for sheets ask it of every line."""
    if line.named is None:
        line.named = tuple(reached([line], through=False))
    return line.named


def behind(line: CheckedLine) -> tuple[Piece, ...]:
    """Everything that a line of a checked rule set rests on, itself among it; walked once, for reviews ask it again and again."""
    if line.behind is None:
        line.behind = tuple(reached([line]))
    return line.behind


def addresses_in(line: CheckedLine) -> list[str]:
    """The addresses of what a line of a checked rule set names, as `named_by` has them."""
    return [*_addresses(named_by(line))]


def addresses(pieces: Iterable[Piece]) -> Iterator[str]:
    """The addresses of the pieces that some pieces rest on, as `reached` meets them: of parameters, readings and tables too."""
    yield from _addresses(reached(pieces))


def _addresses(pieces: Iterable[Piece]) -> Iterator[str]:
    for piece in pieces:
        address = getattr(piece, "address", "")  # a literal has none
        if address:
            yield address


def _within(piece: Piece, through: bool) -> list[Piece]:
    if isinstance(piece, CheckedLine):
        return [*([piece.each] if piece.each is not None else []), *tree.trees_of(piece)]
    if isinstance(piece, CheckedGroup):
        return [*([piece.condition] if piece.condition is not None else []), *piece.bases, *piece.excepted]
    if isinstance(piece, CheckedRun):
        return [group for group in piece.keep.values() if group is not None]
    if isinstance(piece, tree.ReadLine):
        return [*([piece.run] if piece.run is not None else []), *([piece.line] if through else [])]
    if isinstance(piece, tree.Gather):
        return [piece.group, *tree.children(piece)]
    return [*tree.children(piece)]
