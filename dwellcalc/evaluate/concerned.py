"""Which proofs an amendment calls for again: those of lines, groups and loads that what it touches can reach.

An edition that was proved stays so where nothing that a condition reads was changed; all else is proved anew.
"""

from __future__ import annotations

from collections.abc import Callable

from dwellcalc.evaluate.amended import changes_of
from dwellcalc.language import tree
from dwellcalc.language.reach import Piece, addresses, reached
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedCondition, CheckedGroup, CheckedLine, CheckedMethod


def touched(rules: RuleSet) -> set[str]:
    """The pieces that a rule set's amendments touch, as ``document.name``."""
    return set(changes_of(rules))


def concerned(rules: RuleSet) -> Callable[[CheckedGroup | CheckedLine | CheckedCondition], bool]:
    """Tells of a group, line or condition of use whether it rests on anything that an amendment touches."""
    pieces = touched(rules)

    def asks(piece: CheckedGroup | CheckedLine | CheckedCondition) -> bool:
        return not pieces.isdisjoint(addresses([piece.require if isinstance(piece, CheckedCondition) else piece]))

    return asks


def may_miscount(rules: RuleSet, method: CheckedMethod) -> bool:
    """Whether an amendment may have changed which loads a method's first result counts, and how often.

    It has not where it touches only parameters and lines, and among these none that a group, or a condition of a line that
    carries loads, rests on, and no line that carries loads.
    """
    pieces = touched(rules)
    roots: list[Piece] = [next(iter(method.results.values())), *(group for _, group in method.left_out)]
    found = [*reached([*roots, method.counts] if method.counts is not None else roots)]
    documents = {*method.parts, *(each.document for each in found if isinstance(each, CheckedLine))}
    amounts = {f"{each.name}.{name}" for each in documents for name in (*each.lines, *each.parameters)}
    if any(piece not in amounts and piece.partition(".")[0] in {each.name for each in documents} for piece in pieces):
        return True
    deciding: list[Piece] = [each for each in found if isinstance(each, CheckedGroup)]
    for line in found:
        if isinstance(line, CheckedLine) and _carries(line):
            if line.address in pieces:
                return True
            deciding += [case.when for case in line.cases if case.when is not None]
            deciding += [line.applies] if line.applies is not None else []
    return not pieces.isdisjoint(addresses(deciding))


def _carries(line: CheckedLine) -> bool:
    """Whether a line may carry loads: it gathers a column, or combines other lines."""
    nodes = [node for whole in tree.trees_of(line) for node in tree.walk(whole)]
    return bool(line.parts) or any(isinstance(node, tree.Gather) and node.column is not None for node in nodes)
