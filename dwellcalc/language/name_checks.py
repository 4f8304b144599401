"""Names in formulas: what each reads, and whether it may be read where it stands."""

from __future__ import annotations

from typing import Any

from dwellcalc.glossary import YES_NO, ValueKind, quantity_kind
from dwellcalc.glossary_fields import UNKNOWN_CHOICE
from dwellcalc.language import formulas, tree
from dwellcalc.language.documents import Document, Given, Group, Interpretation, Line, Parameter, Run
from dwellcalc.language.group_checks import GroupCheck
from dwellcalc.language.kind_checks import (
    NOT_A_VALUE,
    OUTSIDE_GROUP,
    PARAMETER_UNIT,
    Checked,
    CheckFailed,
    FormulaContext,
    same_group,
)
from dwellcalc.language.names import Meaning
from dwellcalc.language.tables import Table
from dwellcalc.language.tree import HOME, CheckedLine, CheckedMethod
from dwellcalc.problems import message, nearest_name
from dwellcalc.units import UnknownUnit

FINER = message(
    "finer",
    '"{name}" has one value for each of {level}; this line has one for {here}',
    "gather it: sum, count, mean, largest, every",
)
RUN_LEVEL = message("run_level", '"{name}" is read through a run, but has one value for each of {level}')


class NameCheck(GroupCheck):
    """Resolves names."""

    def name(self, syntax: formulas.Name, context: FormulaContext) -> Checked:
        """What a name reads, dotted or not."""
        head, _, rest = syntax.text.partition(".")
        if not rest:
            return self.bare(syntax, context)
        if head in self.glossary.objects:
            field = self.glossary.objects[head].get(rest)
            if field is None:
                near = nearest_name(rest, self.glossary.objects[head])
                raise self.unknown(syntax, context, f"{head}.{near}" if near else "")
            return tree.ReadObject(syntax.text, head, rest, field.kind)
        if head in self.method.runs:
            return self.through_run(syntax, head, rest, context)
        if any(head in each.runs for each in self.method.parts):
            raise CheckFailed  # the run itself was refused
        if head in self.whole.methods:
            return self.of_method(syntax, self.whole.methods[head], rest, context)
        meaning = self.whole.names.documents.get(head)
        if meaning is not None:
            return self.of_document(syntax, meaning, rest, context)
        raise self.unknown(syntax, context, self.whole.names.nearest(head, context.document, self.whole.methods))

    def bare(self, syntax: formulas.Name, context: FormulaContext) -> Checked:
        """A name without a dot: a thing of the document and its parts, or a field of the item or of what it belongs to."""
        meaning = self.whole.names.visible[str(context.document.name)].get(syntax.text)
        if meaning is not None:
            return self.meant(syntax, meaning, context)
        for level in (context.level, *self.owners(context.level)):
            collection = self.glossary.collections.get(level)
            if collection is not None and syntax.text in collection.fields:
                return tree.ReadField(syntax.text, level, syntax.text, collection.fields[syntax.text].kind)
        for name, collection in self.glossary.collections.items():
            if syntax.text in collection.fields:
                raise self.refuse(FINER, syntax, context, name=syntax.text, level=name, here=self.here(context))
        fields = {each for level in (context.level, *self.owners(context.level)) for each in self.fields_of(level)}
        raise self.unknown(syntax, context, self.whole.names.nearest(syntax.text, context.document, fields))

    def meant(self, syntax: formulas.Name, meaning: Meaning, context: FormulaContext) -> Checked:
        """A thing that a name means, as a tree."""
        thing = meaning.thing
        if isinstance(thing, Parameter):
            self.whole.used.add(meaning.address)
            return self.whole.parameter(meaning, syntax.text)
        if isinstance(thing, Interpretation):
            self.whole.used.add(meaning.address)
            return tree.ReadChoice(syntax.text, meaning.address, ValueKind("choice", name=meaning.address))
        if isinstance(thing, Given):
            self.whole.used.add(meaning.address)
            return self.given(syntax, thing)
        if isinstance(thing, Line):
            return self.read_line(syntax, self.method, self.method.lines[str(thing.name)], context)
        what = {Group: "a group", Table: "a table", Run: "a run"}[type(thing)]
        raise self.refuse(NOT_A_VALUE, syntax, context, name=syntax.text, what=what)

    def given(self, syntax: formulas.Name, given: Given) -> Checked:
        """A value that the assessment hands over."""
        if given.choice is not None:
            if given.choice not in self.glossary.choices:
                near = nearest_name(given.choice, self.glossary.choices)
                self.problems.add(UNKNOWN_CHOICE, given.choice.place, name=given.choice, nearest=near)
                raise CheckFailed
            kind = YES_NO if given.choice == "yes_no" else ValueKind("choice", name=str(given.choice))
            return tree.ReadGiven(syntax.text, kind)
        try:
            return tree.ReadGiven(syntax.text, quantity_kind(self.glossary.units.unit(given.unit or "").kind))
        except UnknownUnit:
            self.problems.add(PARAMETER_UNIT, (given.unit or given.name).place, text=given.unit)
            raise CheckFailed from None

    def of_method(self, syntax: formulas.Name, method: CheckedMethod, rest: str, context: FormulaContext) -> Checked:
        """Another method's line, parameter or interpretation."""
        line = method.lines.get(rest)
        if line is not None:
            return self.read_line(syntax, method, line, context)
        return self.of_document(syntax, method.source, rest, context)

    def of_document(self, syntax: formulas.Name, document: Document, rest: str, context: FormulaContext) -> Checked:
        """Another document's parameter or interpretation."""
        thing = document.parameters.get(rest) or document.interpretations.get(rest)
        if thing is None:
            near = nearest_name(rest, [*document.parameters, *document.interpretations])
            raise self.unknown(syntax, context, f"{document.name}.{near}" if near else "")
        return self.meant(syntax, Meaning(thing, document), context)

    def through_run(self, syntax: formulas.Name, run: str, rest: str, context: FormulaContext) -> Checked:
        """A line of the method that a run evaluates."""
        made = self.method.runs[run]
        method = self.whole.methods[made.evaluated]
        line = method.lines.get(rest)
        if line is None:
            near = nearest_name(rest, method.lines)
            raise self.unknown(syntax, context, f"{run}.{near}" if near else "")
        self.other_line(method, line)
        self.whole.used.add(made.address)
        if line.level != HOME:
            raise self.refuse(RUN_LEVEL, syntax, context, name=syntax.text, level=line.level)
        return tree.ReadLine(syntax.text, line, made)

    def other_line(self, method: CheckedMethod, line: CheckedLine) -> None:
        """See that a line is checked, and note that it is used."""
        checker = self if method is self.method else self.whole.method_check(method)
        if not checker.line(line):
            raise CheckFailed
        self.whole.used.add(line.address)

    def read_line(
        self, syntax: formulas.Name, method: CheckedMethod, line: CheckedLine, context: FormulaContext, *, gathered: bool = False
    ) -> tree.ReadLine:
        """A line, if it may be read here: of the same or a coarser level, and in its own group."""
        self.other_line(method, line)
        if gathered:
            return tree.ReadLine(syntax.text, line)
        if line.level != context.level and line.level not in (HOME, *self.owners(context.level)):
            raise self.refuse(FINER, syntax, context, name=syntax.text, level=line.level, here=self.here(context))
        if line.each is not None and line.each.bases:
            inside = line.level == context.level and context.groups
            if not inside or not all(group.built_on(line.each) or same_group(group, line.each) for group in context.groups):
                raise self.refuse(OUTSIDE_GROUP, syntax, context, name=syntax.text, group=line.each.name)
        return tree.ReadLine(syntax.text, line)

    def options(self, read: tree.ReadChoice) -> dict[str, Any]:
        """The options of an interpretation."""
        document, name = read.address.split(".")
        return self.whole.names.documents[document].interpretations[name].options
