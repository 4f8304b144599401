"""The checked tree of a method: its lines, groups, runs and conditions; the nodes of its formulas are in ``nodes``."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from dwellcalc.language.nodes import (
    HOME,
    READS,
    Arithmetic,
    Asked,
    Comparison,
    Constant,
    FirstRow,
    Gather,
    Joined,
    Lookup,
    Negation,
    OneOf,
    Picked,
    ReadChoice,
    ReadField,
    ReadGiven,
    ReadLine,
    ReadObject,
    Rounded,
    Tree,
    children,
    walk,
)

if TYPE_CHECKING:
    from dwellcalc.glossary import ValueKind
    from dwellcalc.language import documents
    from dwellcalc.language.phrases import Phrase

__all__ = [
    "HOME",
    "READS",
    "Arithmetic",
    "Asked",
    "CheckedCase",
    "CheckedCondition",
    "CheckedGroup",
    "CheckedLine",
    "CheckedMethod",
    "CheckedRun",
    "Comparison",
    "Constant",
    "FirstRow",
    "Gather",
    "Joined",
    "Lookup",
    "Negation",
    "OneOf",
    "Picked",
    "ReadChoice",
    "ReadField",
    "ReadGiven",
    "ReadLine",
    "ReadObject",
    "Rounded",
    "Tree",
    "children",
    "trees_of",
    "walk",
]


@dataclass(slots=True)
class CheckedCase:
    """A case: its condition (none for `otherwise`) and its amount."""

    source: documents.Case
    when: Tree | None
    then: Tree


@dataclass(slots=True, eq=False)
class CheckedGroup:
    """A group in one method: what it is built on, its condition, what it leaves out.

    ``bases`` is empty for a collection itself.
    """

    name: str
    method: str
    address: str
    collection: str
    source: documents.Group | None = None
    bases: tuple[CheckedGroup, ...] = ()
    condition: Tree | None = None
    excepted: tuple[CheckedGroup, ...] = ()
    never_empty: bool = False

    def built_on(self, other: CheckedGroup) -> bool:
        """Whether every item of this group is provably in the other."""
        return self is other or (bool(self.bases) and all(base.built_on(other) for base in self.bases))


class _OfMethod:
    """What stands in a method's own text or in that of a part that it uses, known by name, on a sheet, and by address."""

    __slots__ = ()
    method: str
    document: documents.Document
    source: Any

    @property
    def name(self) -> str:
        """Its id within the method."""
        return str(self.source.name)

    @property
    def id(self) -> str:
        """Its id on a sheet."""
        return f"{self.method}.{self.source.name}"

    @property
    def address(self) -> str:
        """Its address: its document and its id there."""
        return f"{self.document.name}.{self.source.name}"


@dataclass(slots=True, eq=False)
class CheckedLine(_OfMethod):
    """A line in one method, with its way checked.

    Attributes:
        document: the document that it stands in.
        level: the collection that it has one value per item of, or ``home``.
        each: the group of a column line.
        absent: whether it may be not applicable.
        position: its place among all lines of the rule set.
        named: what it names, not followed; nothing before somebody asks `reach.named_by`.
        behind: all that it rests on; nothing before somebody asks `reach.behind`.
    """

    method: str
    document: documents.Document
    source: documents.Line
    level: str
    each: CheckedGroup | None
    position: int = -1
    kind: ValueKind | None = None
    absent: bool = False
    applies: Tree | None = None
    value: Tree | None = None
    cases: tuple[CheckedCase, ...] = ()
    of: Tree | None = None
    phrases: tuple[Phrase, ...] = ()
    parts: tuple[ReadLine, ...] = ()
    named: tuple[Any, ...] | None = None
    behind: tuple[Any, ...] | None = None


@dataclass(slots=True, eq=False)
class CheckedRun(_OfMethod):
    """Another method on a part of the home.

    Attributes:
        method: the method that it stands in.
        document: the document that it stands in.
        evaluated: the method that is evaluated.
        keep: which items of each collection are kept; nothing: none of them.
    """

    method: str
    document: documents.Document
    source: documents.Run
    evaluated: str
    keep: dict[str, CheckedGroup | None]


@dataclass(slots=True)
class CheckedCondition:
    """A condition of use."""

    source: documents.Permitted
    require: Tree


@dataclass(slots=True, eq=False)
class CheckedMethod:
    """A method as an edition has it, with every line, group and condition checked."""

    source: documents.Document
    level: str
    parts: tuple[documents.Document, ...]
    lines: dict[str, CheckedLine] = field(default_factory=dict)
    groups: dict[str, CheckedGroup] = field(default_factory=dict)
    runs: dict[str, CheckedRun] = field(default_factory=dict)
    permitted: list[CheckedCondition] = field(default_factory=list)
    left_out: list[tuple[documents.LeftOut, CheckedGroup]] = field(default_factory=list)
    results: dict[str, CheckedLine] = field(default_factory=dict)
    columns: dict[str, CheckedLine] = field(default_factory=dict)
    counts: CheckedGroup | None = None

    @property
    def name(self) -> str:
        """The method's name."""
        return str(self.source.name)


def trees_of(line: CheckedLine) -> list[Tree]:
    """Every tree of a line: its condition, its amounts, its cases, its parts."""
    found: list[Tree | None] = [line.applies, line.value, line.of, *line.parts]
    for case in line.cases:
        found += [case.when, case.then]
    return [tree for tree in found if tree is not None]
