"""The checked tree: formulas whose names are resolved and whose kinds are known.

Every evaluation walks these nodes. ``level`` is the collection that a line has one value per item of, or ``home``.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Union

from dwellcalc.glossary import YES_NO, ValueKind

if TYPE_CHECKING:
    from dwellcalc.language import documents
    from dwellcalc.language.phrases import Phrase
    from dwellcalc.language.tables import Table

HOME = "home"


@dataclass(slots=True)
class Constant:
    """A literal, a parameter, or a word; ``name`` is how the formula writes it."""

    name: str
    value: Any
    kind: ValueKind
    address: str = ""


@dataclass(slots=True)
class ReadChoice:
    """An interpretation, by its full address."""

    name: str
    address: str
    kind: ValueKind


@dataclass(slots=True)
class ReadGiven:
    """A value that the assessment hands over."""

    name: str
    kind: ValueKind


@dataclass(slots=True)
class ReadObject:
    """A field of an object such as the supply."""

    name: str
    owner: str
    field: str
    kind: ValueKind


@dataclass(slots=True)
class ReadField:
    """A field of an item, or of what the item belongs to; ``level`` is the collection that has the field."""

    name: str
    level: str
    field: str
    kind: ValueKind


@dataclass(slots=True)
class ReadLine:
    """Another line's value; ``run`` names the run through which it is read, if any."""

    name: str
    line: CheckedLine
    run: str = ""

    @property
    def kind(self) -> ValueKind:
        """The line's kind."""
        assert self.line.kind is not None
        return self.line.kind


@dataclass(slots=True)
class Gather:
    """A gathering word over a group, of one column (none for `count`)."""

    call: str
    function: str
    group: CheckedGroup
    column: ReadField | ReadLine | None
    level: str
    kind: ValueKind


@dataclass(slots=True)
class Arithmetic:
    """Two amounts; ``percent`` says which side of a product is a percent: left, right, or neither (empty)."""

    sign: str
    left: Tree
    right: Tree
    kind: ValueKind
    percent: str = ""


@dataclass(slots=True)
class Comparison:
    """Two amounts compared."""

    sign: str
    left: Tree
    right: Tree
    kind: ValueKind = YES_NO


@dataclass(slots=True)
class OneOf:
    """A choice that is, or is not, one of some values."""

    read: Tree
    values: tuple[Any, ...]
    negated: bool
    kind: ValueKind = YES_NO


@dataclass(slots=True)
class Negation:
    """A condition turned round."""

    inner: Tree
    kind: ValueKind = YES_NO


@dataclass(slots=True)
class Joined:
    """Conditions joined by `and` or `or`."""

    word: str
    parts: tuple[Tree, ...]
    kind: ValueKind = YES_NO


@dataclass(slots=True)
class Asked:
    """Whether a value is known."""

    read: Tree
    kind: ValueKind = YES_NO


@dataclass(slots=True)
class Picked:
    """The larger or the smaller of two or more amounts."""

    function: str
    arguments: tuple[Tree, ...]
    kind: ValueKind


@dataclass(slots=True)
class Rounded:
    """An amount rounded to a step."""

    function: str
    amount: Tree
    step: Tree
    kind: ValueKind


@dataclass(slots=True)
class Lookup:
    """A table read forward: the row key, then the keys that pick a column."""

    call: str
    table: Table
    column: str
    keys: tuple[Tree, ...]
    kind: ValueKind


@dataclass(slots=True)
class FirstRow:
    """A table read back: the first row whose cell (or key) is at least an amount."""

    call: str
    table: Table
    column: str
    amount: Tree
    keys: tuple[Tree, ...]
    kind: ValueKind


Tree = Union[
    Constant,
    ReadChoice,
    ReadGiven,
    ReadObject,
    ReadField,
    ReadLine,
    Gather,
    Arithmetic,
    Comparison,
    OneOf,
    Negation,
    Joined,
    Asked,
    Picked,
    Rounded,
    Lookup,
    FirstRow,
]
READS = (Constant, ReadChoice, ReadGiven, ReadObject, ReadField, ReadLine)


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


@dataclass(slots=True, eq=False)
class CheckedLine:
    """A line in one method, with its way checked.

    Attributes:
        level: the collection that it has one value per item of, or ``home``.
        each: the group of a column line.
        absent: whether it may be not applicable.
        position: its place among all lines of the rule set.
    """

    method: str
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

    @property
    def name(self) -> str:
        """Its id within the method."""
        return str(self.source.name)

    @property
    def id(self) -> str:
        """Its id on a sheet."""
        return f"{self.method}.{self.source.name}"


@dataclass(slots=True, eq=False)
class CheckedRun:
    """Another method on a part of the home: which items of each collection are kept (nothing: none of them)."""

    name: str
    method: str
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
    counts: CheckedGroup | None = None

    @property
    def name(self) -> str:
        """The method's name."""
        return str(self.source.name)


def children(tree: Tree) -> tuple[Tree, ...]:
    """The trees directly inside a tree; a gathered column counts as inside."""
    if isinstance(tree, (Arithmetic, Comparison)):
        return (tree.left, tree.right)
    if isinstance(tree, (Negation,)):
        return (tree.inner,)
    if isinstance(tree, Joined):
        return tree.parts
    if isinstance(tree, (OneOf, Asked)):
        return (tree.read,)
    if isinstance(tree, Picked):
        return tree.arguments
    if isinstance(tree, Rounded):
        return (tree.amount, tree.step)
    if isinstance(tree, Lookup):
        return tree.keys
    if isinstance(tree, FirstRow):
        return (tree.amount, *tree.keys)
    if isinstance(tree, Gather) and tree.column is not None:
        return (tree.column,)
    return ()


def walk(tree: Tree | None) -> list[Tree]:
    """A tree and everything inside it, outermost first."""
    if tree is None:
        return []
    found: list[Tree] = [tree]
    for inner in children(tree):
        found.extend(walk(inner))
    return found


def trees_of(line: CheckedLine) -> list[Tree]:
    """Every tree of a line: its condition, its amounts, its cases, its parts."""
    found: list[Tree | None] = [line.applies, line.value, line.of, *line.parts]
    for case in line.cases:
        found += [case.when, case.then]
    return [tree for tree in found if tree is not None]
