"""The parts of a formula that its trace shows, found once: what it reads and gathers, and where each part stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from dwellcalc.language import tree
from dwellcalc.language.formulas import Among, Arithmetic, Call, Chain, Compare, Literal, Name, Not, Tree
from dwellcalc.placed import Text


@dataclass
class FormulaParts:
    """What a formula reads (plain numbers aside) and gathers, its table calls, its calls, names and words in place."""

    reads: list[Any]
    gathers: list[tree.Gather]
    lookups: set[str]
    calls: list[tuple[int, int, str, str]]
    names: list[Name]
    words: list[Among]


def parts_of(text: Text, syntax: Tree, checked: tree.Tree) -> FormulaParts:
    """The parts of a formula."""
    nodes = tree.walk(checked)
    return FormulaParts(
        [read for read in _outer_reads(checked) if not _plain_number(read)],
        [node for node in nodes if isinstance(node, tree.Gather)],
        {node.call for node in nodes if isinstance(node, (tree.Lookup, tree.FirstRow))},
        [(call.start, call.end, call.function, str(text[call.start : call.end])) for call in _calls_in(syntax)],
        _amounts_in(syntax),
        _words_in(syntax),
    )


def _plain_number(read: Any) -> bool:
    return isinstance(read, tree.Constant) and not read.address and read.kind.form == "quantity"


def _outer_reads(checked: tree.Tree) -> list[Any]:
    """Every name that a formula reads, without the columns that it gathers."""
    if isinstance(checked, tree.Gather):
        return []
    if isinstance(checked, tree.READS):
        return [checked]
    return [read for inner in tree.children(checked) for read in _outer_reads(inner)]


def _inside(syntax: Tree) -> tuple[Tree, ...]:
    """The trees directly inside a tree that is no call."""
    if isinstance(syntax, (Arithmetic, Compare)):
        return (syntax.left, syntax.right)
    if isinstance(syntax, Not):
        return (syntax.inner,)
    return syntax.parts if isinstance(syntax, Chain) else ()


def _calls_in(syntax: Tree) -> list[Call]:
    """Every call, an outer one before those in its arguments."""
    if isinstance(syntax, Call):
        return [syntax, *(call for argument in syntax.arguments for call in _calls_in(argument))]
    return [call for part in _inside(syntax) for call in _calls_in(part)]


def _amounts_in(syntax: Tree) -> list[Name]:
    """Every name that a formula reads, but for those that are compared with words."""
    if isinstance(syntax, Name):
        return [syntax]
    if isinstance(syntax, (Literal, Among)):
        return []
    if isinstance(syntax, Call):
        return [name for argument in syntax.arguments for name in _amounts_in(argument)]
    return [name for part in _inside(syntax) for name in _amounts_in(part)]


def _words_in(syntax: Tree) -> list[Among]:
    """Every comparison with words."""
    if isinstance(syntax, Among):
        return [syntax]
    return [found for part in _inside(syntax) for found in _words_in(part)]
