"""The plan of a rule set: every checked tree as a small function, prepared once, and the places of all values."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dwellcalc.evaluate import printed
from dwellcalc.evaluate.gathering import UNSET, Read, Value
from dwellcalc.evaluate.line_plan import LinePlan
from dwellcalc.evaluate.tree_plan import TreePlan
from dwellcalc.language import tree
from dwellcalc.language.documents import QUOTED, Document
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import HOME, CheckedGroup, CheckedLine, CheckedMethod, ReadLine, trees_of, walk
from dwellcalc.placed import Text

if TYPE_CHECKING:
    from dwellcalc.evaluate.traced import Evaluation


class Plan:
    """Prepared functions for every line, group and condition of use of a rule set.

    Attributes:
        levels: the level of each line, by position.
        runners: each line's function, by position.
        columns: the (collection, field) pairs that are read, by place.
        groups: every group, by place; ``deciders`` decide their members.
    """

    trees: type[TreePlan] = TreePlan  # another walk of the same trees brings its own
    line_plan: type[LinePlan] = LinePlan

    def __init__(self, rules: RuleSet) -> None:
        self.rules = rules
        self.glossary = rules.glossary
        self.lines: list[CheckedLine] = sorted(
            (line for method in rules.methods.values() for line in method.lines.values()), key=lambda line: line.position
        )
        self.levels = [line.level for line in self.lines]
        self.columns: dict[tuple[str, str], int] = {}
        self.places: dict[int, int] = {}
        self.groups: list[CheckedGroup] = []
        self.conditions: list[Read | None] = []
        self.sheets: dict[str, list[CheckedLine]] = {}
        self.texts: dict[int, str] = {}
        self.formula_parts: dict[int, Any] = {}
        self.readers: dict[tuple[int, str], Read] = {}
        self.per = {name: method.level for name, method in rules.methods.items()}
        self.runners = [self.line_plan(self, line).runner() for line in self.lines]
        self.permitted = {
            name: [self.trees(self, method.level, method.level, -1).read(condition.require) for condition in method.permitted]
            for name, method in rules.methods.items()
        }
        for method in rules.methods.values():
            for _, group in method.left_out:
                self.place(group)
            kept = [group for run in method.runs.values() for group in run.keep.values()]
            for found in (method.counts, *kept):
                if found is not None:
                    self.place(found)

    def reader(self, node: tree.Tree, level: str, per: str) -> Read:
        """The function of a tree as it stands at a level, for reading what is kept; made once."""
        key = (id(node), level)
        found = self.readers.get(key)
        if found is None:
            found = self.readers[key] = self.trees(self, level, per, -1).read(node)
        return found

    def peek(self, node: tree.Tree, line: CheckedLine, evaluation: Evaluation, item: int, level: str = "") -> Value:
        """A value that a formula read, or ``UNSET`` where it was never asked for."""
        here, per = level or line.level, self.per[line.method]
        if isinstance(node, tree.ReadLine) and node.run is not None:
            run = evaluation.runs.get(node.run)
            return UNSET if run is None else run.cells[node.line.position][0]
        if isinstance(node, tree.ReadLine):
            at = item
            if node.line.level != here:
                at = 0 if node.line.level == HOME else evaluation.owner(here, node.line.level, item)
            return evaluation.cells[node.line.position][at]
        return self.reader(node, here, per)(evaluation, item)

    def printed_lines(self, method: CheckedMethod) -> list[CheckedLine]:
        """The lines on a method's sheet: those of other methods that its own read, then its own, in order."""
        found = self.sheets.get(method.name)
        if found is None:
            own = list(method.lines.values())
            read = _read_by(own)
            found = self.sheets[method.name] = [line for line in self.lines if line.method != method.name and line in read] + own
        return found

    def title(self, line: CheckedLine) -> str:
        """The title of a line, with the parameters that it quotes."""
        return self.filled(line.source.title, line.document)

    def filled(self, text: Text, document: Document) -> str:
        """A text of a document with the parameters that it quotes."""
        found = self.texts.get(id(text))
        if found is None:
            shown = {}
            for match in QUOTED.finditer(text):
                value, kind = self.glossary.units.quantity(self.parameter(match[1], document))
                shown[match[1]] = printed.quantity(value, kind, self.glossary)
            found = self.texts[id(text)] = printed.filled(str(text), shown)
        return found

    def parameter(self, name: str, document: Document) -> str:
        """The value of a parameter, as written, by the name that a document gives it."""
        if "." in name:
            other, _, name = name.partition(".")
            return str(self.rules.documents[other].parameters[name].value)
        seen = (document, *(self.rules.documents[used] for used in document.uses))
        return next(str(each.parameters[name].value) for each in seen if name in each.parameters)

    def column(self, collection: str, field: str) -> int:
        """The place of a column that is read."""
        return self.columns.setdefault((collection, field), len(self.columns))

    def place(self, group: CheckedGroup) -> int:
        """The place of a group; its condition is prepared when it is first met."""
        found = self.places.get(id(group))
        if found is None:
            for other in (*group.bases, *group.excepted):
                self.place(other)
            found = self.places[id(group)] = len(self.groups)
            self.groups.append(group)
            self.conditions.append(None)
            if group.condition is not None:
                planner = self.trees(self, group.collection, self.per[group.method], -1)
                self.conditions[found] = planner.read(group.condition)
        return found


def _read_by(lines: list[CheckedLine]) -> set[CheckedLine]:
    """Every line that these lines read, directly or through others, runs aside."""
    seen: set[CheckedLine] = set()
    waiting = list(lines)
    while waiting:
        for whole in trees_of(waiting.pop()):
            for node in walk(whole):
                if isinstance(node, ReadLine) and node.run is None and node.line not in seen:
                    seen.add(node.line)
                    waiting.append(node.line)
    return seen
