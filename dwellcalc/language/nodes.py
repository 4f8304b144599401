"""The nodes of checked formulas, whose names are resolved and whose kinds are known.

Every evaluation walks these nodes. ``level`` is the collection that a line has one value per item of, or ``home``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Union

from dwellcalc.glossary import YES_NO, ValueKind

if TYPE_CHECKING:
    from dwellcalc.language.tables import Table
    from dwellcalc.language.tree import CheckedGroup, CheckedLine, CheckedRun

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
    """Another line's value; ``run`` is the run through which it is read, if any."""

    name: str
    line: CheckedLine
    run: CheckedRun | None = None

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
    address: str
    table: Table
    column: str
    keys: tuple[Tree, ...]
    kind: ValueKind


@dataclass(slots=True)
class FirstRow:
    """A table read back: the first row whose cell (or key) is at least an amount, or the last where it is at most that."""

    call: str
    address: str
    table: Table
    column: str
    amount: Tree
    keys: tuple[Tree, ...]
    kind: ValueKind
    function: str


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
