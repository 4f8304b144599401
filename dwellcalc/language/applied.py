"""Changes that were applied, and the sets that they stand in."""

from __future__ import annotations

from dataclasses import dataclass, field

from dwellcalc.problems import Place

Pieces = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Applied:
    """A change that was applied: by which document and set, to which piece, from what to what.

    Two are equal wherever they were read. Where several pieces of one are changed at once, each stands by its name too.
    """

    document: str
    set_title: str
    operation: str
    address: str
    was: str
    now: str
    cite: str
    status: str
    source: str
    confidence: str
    place: Place = field(compare=False)
    pieces_before: Pieces = field(default=(), compare=False)
    pieces_after: Pieces = field(default=(), compare=False)

    @property
    def piece(self) -> str:
        """What it changes, by document and name: a line, a parameter, a group, and so on."""
        return ".".join(self.address.split(".")[:2])


@dataclass(frozen=True)
class ChangeSet:
    """A set of changes that was applied: the title of its edition or amendment, its own, and its changes in order."""

    document: str
    title: str
    changes: tuple[Applied, ...]
