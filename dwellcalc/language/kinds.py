"""Kinds, levels and applicability: syntax trees become checked trees.

Each method is checked with its own copy of every part that it uses. Units, shapes and cycles are refused here, with the
place of both sides. The checks stand in modules of their own: groups, names, calls, trees, lines.
"""

from __future__ import annotations

from dwellcalc.glossary import Glossary, quantity_kind
from dwellcalc.language import tree, words
from dwellcalc.language.documents import Document, Parameter, Run
from dwellcalc.language.group_checks import GROUP_COLLECTIONS, NO_GROUP
from dwellcalc.language.kind_checks import PARAMETER_UNIT, CheckFailed, FormulaContext
from dwellcalc.language.line_checks import LineCheck
from dwellcalc.language.names import Meaning, Names
from dwellcalc.language.tree import HOME, CheckedCondition, CheckedGroup, CheckedLine, CheckedMethod, CheckedRun
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.units import UnknownUnit

ABSENT_RESULT = message("absent_result", 'the result "{name}" may be not applicable', "say `optional: yes`, or mend the line")
RESULT_LEVEL = message(
    "result_level", 'the result "{name}" has one value for each of {level}', "a result has one value; gather it in a line"
)
COLUMN_RESULT = message(
    "column_result", '"{name}" has one value for the {level}, not one for each item of a group', "such a line is a `result`"
)
RESULT_LINE = message("result_line", 'there is no line "{name}" for a result')
NO_METHOD = message("no_method", 'there is no method "{name}" in the edition')


class Checker:
    """Checks every method of an edition.

    Args:
        names: the visible names of every document.
        methods: the names of the edition's methods.
        problems: where problems are collected.
    """

    def __init__(self, names: Names, methods: list[str], problems: Problems) -> None:
        self.names = names
        self.glossary: Glossary = names.glossary
        self.problems = problems
        self.methods: dict[str, CheckedMethod] = {}
        self.parameters: dict[str, tree.Constant] = {}
        self.used: set[str] = set()
        self.running: list[str] = []
        for name in methods:
            self.open(names.documents[name])
        self.line_count = 0

    def open(self, document: Document) -> None:
        """Begin a method: its lines by name, not checked yet."""
        level = words.LEVEL_OF_PER.get(document.per, HOME)
        documents = self.names.all_documents(document)
        method = self.methods[str(document.name)] = CheckedMethod(document, level, documents)
        for each in documents:
            for name, line in each.lines.items():
                method.lines[name] = CheckedLine(method.name, each, line, level, None)

    def method_check(self, method: CheckedMethod) -> MethodCheck:
        """The checks of a method."""
        return MethodCheck(self, method)

    def check(self) -> dict[str, CheckedMethod]:
        """Check everything; the methods by name."""
        for method in self.methods.values():
            self.method_check(method).check()
        return self.methods

    def parameter(self, meaning: Meaning, name: str) -> tree.Constant:
        """A parameter as a constant, parsed once.

        Raises:
            CheckFailed: it is no quantity; the problem has been noted.
        """
        found = self.parameters.get(meaning.address)
        if found is None:
            parameter = meaning.thing
            assert isinstance(parameter, Parameter)
            try:
                value, kind = self.glossary.units.quantity(parameter.value)
            except (ValueError, UnknownUnit):
                self.problems.add(PARAMETER_UNIT, parameter.value.place, text=parameter.value)
                raise CheckFailed from None
            found = self.parameters[meaning.address] = tree.Constant(name, value, quantity_kind(kind), meaning.address)
        return found if found.name == name else tree.Constant(name, found.value, found.kind, found.address)


class MethodCheck(LineCheck):
    """Checks one method as a whole."""

    def check(self) -> None:
        """Check everything of the method."""
        self.check_runs()
        for each in self.method.parts:
            for name, group in each.groups.items():
                self.group_named(name, each, group.name)
        for line in self.method.lines.values():
            self.line(line)
        for each in self.method.parts:
            for condition in each.permitted:
                context = FormulaContext(condition.text, each, self.method.level, ())
                required = self.condition(condition.require, context, "a condition of use")
                if required is not None:
                    self.method.permitted.append(CheckedCondition(condition, required))
            for entry in each.left_out:
                left = self.group_named(entry.group, each, entry.group)
                if left is not None:
                    self.whole.used.add(left.address)
                    self.method.left_out.append((entry, left))
        counts = self.method.source.counts
        if counts is not None:
            self.method.counts = self.group_named(counts, self.method.source, counts)
        self.check_results()
        self.check_columns()

    def check_columns(self) -> None:
        """Check that the columns that a method gives are lines with a value for each item of a group."""
        for name in self.method.source.columns:
            line = self.method.lines.get(str(name))
            if line is None:
                self.problems.add(RESULT_LINE, name.place, name=name, nearest=nearest_name(name, self.method.lines))
            elif line.each is None or line.level == self.method.level:
                self.problems.add(COLUMN_RESULT, name.place, name=name, level=line.level)
            else:
                self.method.columns[str(name)] = line

    def check_results(self) -> None:
        """Check that results are lines with one value for the method's item."""
        for result in self.method.source.results:
            line = self.method.lines.get(str(result.line))
            if line is None:
                near = nearest_name(result.line, self.method.lines)
                self.problems.add(RESULT_LINE, result.line.place, name=result.line, nearest=near)
                continue
            if line.level not in (HOME, self.method.level):
                self.problems.add(RESULT_LEVEL, result.line.place, name=result.name, level=line.level)
            if line.absent and not result.optional:
                self.problems.add(
                    ABSENT_RESULT, result.line.place, name=result.name, others=[("the line", line.source.name.place)]
                )
            self.method.results[str(result.name)] = line

    def check_runs(self) -> None:
        """Check every run."""
        for each in self.method.parts:
            for name, run in each.runs.items():
                self.run(name, run, each)

    def run(self, name: str, run: Run, document: Document) -> None:
        """Check a run: its method, and the groups that it keeps."""
        if run.method not in self.whole.methods:
            near = nearest_name(run.method, self.whole.methods)
            self.problems.add(NO_METHOD, run.method.place, name=run.method, nearest=near)
            return
        keep: dict[str, CheckedGroup | None] = {}
        for collection, group in run.keep.items():
            kept = None if group == "none" else self.group_named(group, document, group)
            if collection not in self.glossary.collections:
                near = nearest_name(collection, self.glossary.collections)
                self.problems.add(NO_GROUP, collection.place, name=collection, nearest=near)
            elif kept is not None and kept.collection != collection:
                self.problems.add(GROUP_COLLECTIONS, group.place, name=group)
            if kept is not None:
                self.whole.used.add(kept.address)
            keep[str(collection)] = kept
        self.method.runs[name] = CheckedRun(self.method.name, document, run, str(run.method), keep)
