"""Which proofs an amendment calls for again: those of lines, groups and loads that what it touches can reach.

An edition that was proved stays so where nothing that a condition reads was changed; all else is proved anew.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from dwellcalc.evaluate.amended import changes_of
from dwellcalc.language import tree
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedCondition, CheckedGroup, CheckedLine, CheckedMethod


def touched(rules: RuleSet) -> set[str]:
    """The pieces that a rule set's amendments touch, as ``document.name``."""
    return set(changes_of(rules))


class Reach:
    """What pieces of a method read, directly or through other lines."""

    def __init__(self, rules: RuleSet) -> None:
        self.rules = rules
        self.of_lines: dict[int, set[str]] = {}
        self.of_groups: dict[int, set[str]] = {}

    def line(self, line: CheckedLine) -> set[str]:
        """Everything that a line rests on, itself among it."""
        if id(line) not in self.of_lines:
            self.of_lines[id(line)] = found = {self.address(line)}
            found |= self.trees(tree.trees_of(line))
            if line.each is not None:
                found |= self.group(line.each)
        return self.of_lines[id(line)]

    def group(self, group: CheckedGroup) -> set[str]:
        """Everything that a group rests on, itself among it."""
        if id(group) not in self.of_groups:
            self.of_groups[id(group)] = found = {group.address}
            found |= self.trees([group.condition] if group.condition is not None else [])
            for other in (*group.bases, *group.excepted):
                found |= self.group(other)
        return self.of_groups[id(group)]

    def trees(self, trees: Iterable[tree.Tree]) -> set[str]:
        """Everything that formulas rest on."""
        found: set[str] = set()
        for whole in trees:
            for node in tree.walk(whole):
                if isinstance(node, (tree.Constant, tree.ReadChoice)) and node.address:
                    found.add(node.address)
                elif isinstance(node, tree.ReadLine):
                    found |= self.line(node.line)
                elif isinstance(node, tree.Gather):
                    found |= self.group(node.group)
                    found |= self.line(node.column.line) if isinstance(node.column, tree.ReadLine) else set()
        return found

    def address(self, line: CheckedLine) -> str:
        """The address of a line's text."""
        method = self.rules.methods[line.method]
        return next((f"{each.name}.{line.name}" for each in method.parts if each.lines.get(line.name) is line.source), line.id)


def concerned(rules: RuleSet) -> Callable[[CheckedGroup | CheckedLine | CheckedCondition], bool]:
    """Tells of a group, line or condition of use whether it rests on anything that an amendment touches."""
    reach, pieces = Reach(rules), touched(rules)

    def asks(piece: CheckedGroup | CheckedLine | CheckedCondition) -> bool:
        if isinstance(piece, CheckedLine):
            return not pieces.isdisjoint(reach.line(piece))
        rests_on = reach.group(piece) if isinstance(piece, CheckedGroup) else reach.trees([piece.require])
        return not pieces.isdisjoint(rests_on)

    return asks


def may_miscount(rules: RuleSet, method: CheckedMethod) -> bool:
    """Whether an amendment may have changed which loads a method counts, and how often.

    It has not where it touches only parameters, readings' defaults and lines that no group, and no condition of a line that
    carries loads, rests on.
    """
    reach, pieces = Reach(rules), touched(rules)
    own = {f"{part.name}.{name}" for part in method.parts for name in (*part.lines, *part.parameters)}
    other = {piece for piece in pieces if piece.split(".")[0] in {part.name for part in method.parts}} - own
    if other or not pieces.isdisjoint(set().union(*(reach.group(group) for group in method.groups.values()))):
        return True
    for line in method.lines.values():
        if not _carries(line):
            continue
        conditions = [case.when for case in line.cases if case.when is not None]
        conditions += [line.applies] if line.applies is not None else []
        if reach.address(line) in pieces or not pieces.isdisjoint(reach.trees(conditions)):
            return True
    return False


def _carries(line: CheckedLine) -> bool:
    """Whether a line may carry loads: it gathers a column, or combines other lines."""
    nodes = [node for whole in tree.trees_of(line) for node in tree.walk(whole)]
    return bool(line.parts) or any(isinstance(node, tree.Gather) and node.column is not None for node in nodes)
