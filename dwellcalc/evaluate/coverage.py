"""Every load counts once: which loads a method's result holds, and how often.

Coverage flows through values in the glossary's load units. A sum or a mean over loads gives its members; a table whose
cells are such values gives what its key counts; the rest follows the tree.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from dwellcalc.evaluate.sheet import KNOWN
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.evaluate.work import state_of
from dwellcalc.language import tree
from dwellcalc.language.tree import CheckedLine, CheckedMethod


@dataclass(frozen=True)
class Miscount:
    """A load that a method's result holds never, or more than once."""

    load: str
    times: int


class _Coverage:
    def __init__(self, evaluation: Evaluation, method: CheckedMethod, collection: str) -> None:
        self.evaluation = evaluation
        self.method = method
        self.collection = collection
        self.units = evaluation.plan.glossary.load_units
        self.kept: dict[tuple[int, int], Counter[int]] = {}

    def line(self, line: CheckedLine, item: int, *, numbers: bool = False) -> Counter[int]:
        """What a line's value for an item holds; ``numbers`` lets plain counts through, for the key of a table."""
        value = self.evaluation.cells[line.position][item]
        if state_of(value) != KNOWN or line.kind is None:
            return Counter()
        if not numbers and (line.kind.form != "quantity" or line.kind.unit not in self.units):
            return Counter()
        place = (line.position, item)
        if place not in self.kept or numbers:
            found = self.way(line, item, numbers)
            if numbers:
                return found
            self.kept[place] = found
        return self.kept[place]

    def way(self, line: CheckedLine, item: int, numbers: bool) -> Counter[int]:
        if line.value is not None:
            return self.covered(line.value, line, item, numbers)
        if line.cases:
            taken = self.evaluation.cases.get((line.position, item))
            return Counter() if taken is None else self.covered(line.cases[taken].then, line, item, numbers)
        if line.of is not None:
            return self.covered(line.of, line, item, numbers)
        parts = [self.covered(part, line, item, numbers) for part in line.parts]
        return _added(parts) if line.source.way == "sum_of" else _union(parts)

    def covered(self, node: tree.Tree, line: CheckedLine, item: int, numbers: bool) -> Counter[int]:
        if isinstance(node, tree.ReadLine):
            return self.read(node, line, item, numbers)
        if isinstance(node, tree.Gather):
            return self.gather(node, line, item, numbers)
        if isinstance(node, tree.Arithmetic):
            if node.sign == "-":
                return self.covered(node.left, line, item, numbers)
            sides = [self.covered(node.left, line, item, numbers), self.covered(node.right, line, item, numbers)]
            return _added(sides) if node.sign == "+" else _union(sides)
        if isinstance(node, (tree.Picked, tree.Rounded)):
            return _union([self.covered(inner, line, item, numbers) for inner in tree.children(node)])
        if isinstance(node, tree.Lookup) and node.kind.form == "quantity" and node.kind.unit in self.units:
            return _union([self.covered(key, line, item, True) for key in node.keys])
        return Counter()

    def read(self, node: tree.ReadLine, line: CheckedLine, item: int, numbers: bool) -> Counter[int]:
        if node.run is not None:
            inner = _Coverage(self.evaluation.run(node.run), self.method, self.collection)
            return inner.line(node.line, 0, numbers=numbers)
        at = item
        if node.line.level != line.level:
            at = self.evaluation.owner(line.level, node.line.level, item)
        return self.line(node.line, at, numbers=numbers)

    def gather(self, node: tree.Gather, line: CheckedLine, item: int, numbers: bool) -> Counter[int]:
        place = self.evaluation.plan.place(node.group)
        members = [member for member, _ in self.evaluation.gathered(place, line.level, item)[0]]
        if node.group.collection == self.collection:
            return self.members(node, line, members, numbers)
        if not isinstance(node.column, tree.ReadLine):
            return Counter()
        column = node.column.line
        parts = [self.line(column, member, numbers=numbers) for member in members]
        return _added(parts) if node.function in ("sum", "mean") else _union(parts)

    def members(self, node: tree.Gather, line: CheckedLine, members: list[int], numbers: bool) -> Counter[int]:
        if node.function == "count":
            return Counter(members) if numbers else Counter()
        if node.function not in ("sum", "mean") or node.column is None or node.kind.unit not in self.units:
            return Counter()
        peek = self.evaluation.plan.peek
        values = {each: peek(node.column, line, self.evaluation, each, node.group.collection) for each in members}
        return Counter(each for each, value in values.items() if state_of(value) == KNOWN)


def _added(parts: list[Counter[int]]) -> Counter[int]:
    whole: Counter[int] = Counter()
    for part in parts:
        whole.update(part)
    return whole


def _union(parts: list[Counter[int]]) -> Counter[int]:
    whole: Counter[int] = Counter()
    for part in parts:
        whole |= part
    return whole


def loads_in(evaluation: Evaluation, name: str, line: CheckedLine, item: int = 0) -> Counter[int]:
    """The positions of the loads that a line's value holds, and how often; nothing where the method counts none."""
    method = evaluation.plan.rules.methods[name]
    if method.counts is None:
        return Counter()
    return _Coverage(evaluation, method, method.counts.collection).line(line, item)


def miscounts(evaluation: Evaluation, name: str, item: int = 0) -> list[Miscount]:
    """Loads that the method's first result does not hold exactly once, those left out with a reason aside.

    The result must have been evaluated. A result that is unknown holds nothing that could be judged.
    """
    method = evaluation.plan.rules.methods[name]
    if method.counts is None:
        return []
    result = next(iter(method.results.values()))
    if state_of(evaluation.value(result.position, item)) != KNOWN:
        return []
    collection = method.counts.collection
    places = evaluation.plan.places
    counted = evaluation.decided(places[id(method.counts)]).items
    left: set[int] = set()
    for _, group in method.left_out:
        if group.collection == collection:
            left.update(evaluation.decided(places[id(group)]).items)
    found = _Coverage(evaluation, method, collection).line(result, item)
    items = evaluation.facts.collections[collection]
    return [
        Miscount(items.names[each], found[each])
        for each in counted
        if found[each] != (0 if each in left else 1) and (method.level == tree.HOME or items.owner[each] == item)
    ]
