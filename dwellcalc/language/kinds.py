"""Kinds, levels and applicability: syntax trees become checked trees.

Each method is checked with its own copy of every part that it uses. Units, shapes and cycles are refused here, with the
place of both sides.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from dwellcalc.glossary import UNKNOWN_CHOICE, YES_NO, Glossary, ValueKind, quantity_kind
from dwellcalc.language import formulas, tree, words
from dwellcalc.language.documents import Document, Given, Group, Interpretation, Line, Parameter, Run
from dwellcalc.language.names import Meaning, Names, place_in
from dwellcalc.language.phrases import FIRST, FURTHER, REST, Phrase, parse_phrase
from dwellcalc.language.tables import Table
from dwellcalc.language.tree import HOME, CheckedCase, CheckedCondition, CheckedGroup, CheckedLine, CheckedMethod, CheckedRun
from dwellcalc.problems import InputError, Message, Problems, message, nearest_name
from dwellcalc.reading import Text
from dwellcalc.units import NUMBER, PERCENT, UnknownUnit, over, times

UNKNOWN_NAME = message("unknown_name", 'there is no name "{name}" here')
NOT_A_VALUE = message("not_a_value", '"{name}" is {what}; it has no value')
PARAMETER_UNIT = message("parameter_unit", '"{text}" is not a number with a unit of units.txt')
DIFFERENT_KINDS = message("different_kinds", "{left} and {right} are added, compared or chosen between, but are not of one kind")
NOT_QUANTITY = message("not_quantity", "{what} must be an amount, not {kind}")
NOT_CONDITION = message("not_condition", "{what} must be a condition, not {kind}")
PERCENT_DIVIDED = message("percent_divided", "a percent multiplies; it is not divided and nothing is divided by it")
NOT_A_CHOICE = message("not_a_choice", '"{name}" is no choice', "`is` and `in` ask for a word of a choice")
UNKNOWN_WORD = message("unknown_word", '"{word}" is not a word of {choice}', "one of: {known}")
FINER = message(
    "finer",
    '"{name}" has one value for each of {level}; this line has one for {here}',
    "gather it: sum, count, mean, largest, every",
)
OUTSIDE_GROUP = message("outside_group", 'the column "{name}" belongs to the group "{group}", which need not hold the items here')
NOT_GATHERED = message("not_gathered", '"{group}" cannot be gathered by a line that has one value for {here}')
GATHER_FORM = message("gather_form", "{function} takes {wanted}", "arithmetic is a line of its own")
NO_GROUP = message("no_group", 'there is no group "{name}"')
GROUP_COLLECTIONS = message("group_collections", 'the group "{name}" is built on different collections')
ARGUMENTS = message("arguments", "{function} takes {wanted}")
NO_TABLE = message("no_table", 'there is no table "{name}"')
NO_COLUMN = message("no_column", 'the table "{table}" has no column "{column}"')
TABLE_KEY = message("table_key", "the table asks for {wanted} here; this is {kind}")
CYCLE = message("cycle", "the line or group reads itself: {chain}")
ABSENT_CONDITION = message(
    "absent_condition",
    "this condition may be not applicable",
    "a condition must always be yes or no; ask `count(...) > 0` first, in cases",
)
ABSENT_RESULT = message("absent_result", 'the result "{name}" may be not applicable', "say `optional: yes`, or mend the line")
RESULT_LEVEL = message(
    "result_level", 'the result "{name}" has one value for each of {level}', "a result has one value; gather it in a line"
)
RESULT_LINE = message("result_line", 'there is no line "{name}" for a result')
TIER_KINDS = message("tier_kinds", "the portion is {portion}, but the quantity is {quantity}")
TIER_ORDER = message("tier_order", "tiers begin with `the first` and end with `the rest` or `each further`")
NO_METHOD = message("no_method", 'there is no method "{name}" in the edition')
RUN_LEVEL = message("run_level", '"{name}" is read through a run, but has one value for each of {level}')

_Checked = tree.Tree


class _Failed(Exception):
    """A tree that could not be checked; the problem has been noted."""


@dataclass
class _Context:
    """Where a formula stands: its text, document, level, and the groups that an item here is known to be in."""

    text: Text
    document: Document
    level: str
    groups: tuple[CheckedGroup, ...]


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
        level = words.LEVEL_OF_PER.get(document.per, HOME)
        documents = self.names.all_documents(document)
        method = self.methods[str(document.name)] = CheckedMethod(document, level, documents)
        for each in documents:
            for name, line in each.lines.items():
                method.lines[name] = CheckedLine(method.name, line, level, None)

    def check(self) -> dict[str, CheckedMethod]:
        """Check everything; the methods by name."""
        for method in self.methods.values():
            _MethodChecker(self, method).check()
        return self.methods

    def parameter(self, meaning: Meaning, name: str) -> tree.Constant:
        """A parameter as a constant, parsed once.

        Raises:
            _Failed: it is no quantity; the problem has been noted.
        """
        found = self.parameters.get(meaning.address)
        if found is None:
            parameter = meaning.thing
            assert isinstance(parameter, Parameter)
            try:
                value, kind = self.glossary.units.quantity(parameter.value)
            except (ValueError, UnknownUnit):
                self.problems.add(PARAMETER_UNIT, parameter.value.place, text=parameter.value)
                raise _Failed from None
            found = self.parameters[meaning.address] = tree.Constant(name, value, quantity_kind(kind), meaning.address)
        return found if found.name == name else tree.Constant(name, found.value, found.kind, found.address)


class _MethodChecker:
    def __init__(self, whole: Checker, method: CheckedMethod) -> None:
        self.whole = whole
        self.method = method
        self.glossary = whole.glossary
        self.problems = whole.problems
        self.owner_of = {line: each for each in method.parts for line in each.lines}

    # the whole method

    def check(self) -> None:
        self.check_runs()
        for each in self.method.parts:
            for name, group in each.groups.items():
                self.group_named(name, each, group.name)
        for line in self.method.lines.values():
            self.line(line)
        for each in self.method.parts:
            for condition in each.permitted:
                context = _Context(condition.text, each, self.method.level, ())
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

    def check_results(self) -> None:
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
        for each in self.method.parts:
            for name, run in each.runs.items():
                self.run(name, run, each)

    def run(self, name: str, run: Run, document: Document) -> None:
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
        self.method.runs[name] = CheckedRun(name, str(run.method), keep)

    # groups

    def group_named(self, name: str, document: Document, text: Text) -> CheckedGroup | None:
        """A group or collection by its bare name in a document."""
        if name in self.glossary.collections:
            found = self.method.groups.get(name)
            if found is None:
                never_empty = self.glossary.collections[name].at_least > 0
                found = CheckedGroup(name, self.method.name, name, name, never_empty=never_empty)
                self.method.groups[name] = found
            return found
        meaning = self.whole.names.visible[str(document.name)].get(name)
        if meaning is None or not isinstance(meaning.thing, Group):
            near = self.whole.names.nearest(name, document, self.glossary.collections)
            self.problems.add(NO_GROUP, text.place, name=name, nearest=near)
            return None
        found = self.method.groups.get(meaning.address)
        return found if found is not None else self.group(meaning)

    def group(self, meaning: Meaning) -> CheckedGroup | None:
        group = meaning.thing
        assert isinstance(group, Group)
        label = f"{self.method.name}.{group.name}"
        if self.in_cycle(label, group.name):
            return None
        self.whole.running.append(label)
        try:
            bases = tuple(self.group_named(base, meaning.document, base) for base in group.bases)
            excepted = tuple(self.group_named(each, meaning.document, each) for each in group.excepted)
            known = tuple(base for base in bases if base is not None)
            kept = tuple(each for each in excepted if each is not None)
            if not known:
                return None
            if len({each.collection for each in (*known, *kept)}) > 1:
                self.problems.add(GROUP_COLLECTIONS, group.name.place, name=group.name)
                return None
            for each in (*known, *kept):
                self.whole.used.add(each.address)
            made = CheckedGroup(str(group.name), self.method.name, meaning.address, known[0].collection, group, known, None, kept)
            if group.condition is not None and group.condition_text is not None:
                context = _Context(group.condition_text, meaning.document, made.collection, known)
                made.condition = self.condition(group.condition, context, "the condition of a group")
            self.method.groups[meaning.address] = made
            return made
        finally:
            self.whole.running.pop()

    def in_cycle(self, label: str, name: Text) -> bool:
        if label not in self.whole.running:
            return False
        chain = [*self.whole.running[self.whole.running.index(label) :], label]
        self.problems.add(CYCLE, name.place, chain=" -> ".join(chain))
        return True

    # lines

    def line(self, line: CheckedLine) -> bool:
        """Check a line, once; whether its kind is known."""
        if line.position >= 0:
            return line.kind is not None
        if self.in_cycle(line.id, line.source.name):
            return False
        self.whole.running.append(line.id)
        try:
            self.level(line)
            self.way(line)
        except _Failed:
            line.kind = None
        finally:
            self.whole.running.pop()
        line.position = self.whole.line_count
        self.whole.line_count += 1
        return line.kind is not None

    def level(self, line: CheckedLine) -> None:
        each = line.source.each
        if each is None:
            return
        document = self.owner_of[line.name]
        line.each = self.group_named(each, document, each)
        if line.each is None:
            raise _Failed
        self.whole.used.add(line.each.address)
        line.level = line.each.collection

    def way(self, line: CheckedLine) -> None:
        source = line.source
        document = self.owner_of[line.name]
        groups = (line.each,) if line.each is not None else ()

        def context(text: Text | None) -> _Context:
            return _Context(text if text is not None else source.name, document, line.level, groups)

        if source.applies is not None:
            line.applies = self.condition(source.applies, context(source.applies_text), "`applies`")
        if source.way == "value":
            line.value = self.value(source.value, context(source.value_text))
            line.kind = line.value.kind
            line.absent = _absent(line.value)
        elif source.way == "cases":
            self.cases(line, context)
        elif source.way == "of":
            self.tiers(line, context(source.of_text))
        else:
            self.parts(line, context)
        line.absent = line.absent or line.applies is not None

    def value(self, syntax: formulas.Tree | None, context: _Context) -> _Checked:
        if syntax is None:
            raise _Failed
        return self.checked(syntax, context)

    def condition(self, syntax: formulas.Tree | None, context: _Context, what: str) -> _Checked | None:
        """A condition that is always yes or no; problems are noted."""
        if syntax is None:
            return None
        try:
            checked = self.checked(syntax, context)
        except _Failed:
            return None
        place = place_in(context.text, syntax.start, syntax.end)
        if checked.kind != YES_NO:
            self.problems.add(NOT_CONDITION, place, what=what, kind=self.glossary.printed_kind(checked.kind))
            return None
        if _absent(checked):
            self.problems.add(ABSENT_CONDITION, place)
            return None
        return checked

    def cases(self, line: CheckedLine, context: Any) -> None:
        made = []
        for case in line.source.cases:
            when = self.condition(case.when, context(case.when_text), "`when`") if case.when is not None else None
            then = self.value(case.then, context(case.then_text))
            made.append(CheckedCase(case, when, then))
            if case.when is not None and when is None:
                raise _Failed
        if not made:
            raise _Failed
        line.cases = tuple(made)
        for case, checked in zip(line.source.cases[1:], made[1:], strict=True):
            first = line.source.cases[0].then_text.place
            self.same(made[0].then.kind, checked.then.kind, case.then_text, first)
        line.kind = made[0].then.kind
        line.absent = any(_absent(case.then) for case in made)

    def same(self, left: ValueKind, right: ValueKind, text: Text, other: Any) -> None:
        if left != right:
            shown = self.glossary.printed_kind
            self.problems.add(
                DIFFERENT_KINDS, text.place, left=shown(left), right=shown(right), others=[("the other side", other)]
            )
            raise _Failed

    def tiers(self, line: CheckedLine, context: _Context) -> None:
        line.of = self.value(line.source.of, context)
        self.need_quantity(line.of.kind, context.text.place, "`of`")
        try:
            line.phrases = tuple(parse_phrase(text, self.glossary.units) for text in line.source.tiers)
        except InputError as error:
            self.problems.found.extend(error.problems)
            raise _Failed from None
        self.check_phrases(line, line.phrases)
        first = line.phrases[0]
        line.kind = line.of.kind if first.shares else quantity_kind(first.kind)
        for phrase in line.phrases[1:]:
            kind = line.of.kind if phrase.shares else quantity_kind(phrase.kind)
            self.same(line.kind, kind, phrase.text, first.text.place)
        line.absent = _absent(line.of)

    def check_phrases(self, line: CheckedLine, phrases: tuple[Phrase, ...]) -> None:
        assert line.of is not None
        for phrase in phrases:
            if phrase.portion != REST and phrase.step_kind != line.of.kind.unit:
                portion = self.glossary.units.printed(phrase.step_kind)
                quantity = self.glossary.printed_kind(line.of.kind)
                self.problems.add(TIER_KINDS, phrase.text.place, portion=portion, quantity=quantity)
        for phrase in phrases:
            first, last = phrase is phrases[0], phrase is phrases[-1]
            if (phrase.portion == FIRST) != first or (phrase.portion in (REST, FURTHER)) != last:
                self.problems.add(TIER_ORDER, phrase.text.place)
                break

    def parts(self, line: CheckedLine, context: Any) -> None:
        made = []
        for text in line.source.parts:
            name = formulas.Name(str(text), 0, len(text))
            part = self.name(name, context(text))
            if not isinstance(part, tree.ReadLine):
                self.problems.add(NOT_A_VALUE, text.place, name=text, what="no line")
                raise _Failed
            self.need_quantity(part.kind, text.place, f'"{text}"')
            made.append(part)
        for text, part in zip(line.source.parts[1:], made[1:], strict=True):
            self.same(made[0].kind, part.kind, text, line.source.parts[0].place)
        if not made:
            raise _Failed
        line.parts = tuple(made)
        line.kind = made[0].kind
        line.absent = all(part.line.absent for part in made)

    def need_quantity(self, kind: ValueKind, place: Any, what: str) -> None:
        if kind.form != "quantity":
            self.problems.add(NOT_QUANTITY, place, what=what, kind=self.glossary.printed_kind(kind))
            raise _Failed

    # trees

    def checked(self, syntax: formulas.Tree, context: _Context) -> _Checked:
        if isinstance(syntax, formulas.Literal):
            return tree.Constant(f"{syntax.value:g}", float(syntax.value), quantity_kind(NUMBER))
        if isinstance(syntax, formulas.Name):
            return self.name(syntax, context)
        if isinstance(syntax, formulas.Call):
            return self.call(syntax, context)
        if isinstance(syntax, formulas.Arithmetic):
            return self.arithmetic(syntax, context)
        if isinstance(syntax, formulas.Compare):
            return self.comparison(syntax, context)
        if isinstance(syntax, formulas.Among):
            return self.among(syntax, context)
        if isinstance(syntax, formulas.Not):
            return tree.Negation(self.inner_condition(syntax.inner, context))
        return tree.Joined(syntax.word, tuple(self.inner_condition(part, context) for part in syntax.parts))

    def inner_condition(self, syntax: formulas.Tree, context: _Context) -> _Checked:
        checked = self.checked(syntax, context)
        if checked.kind != YES_NO:
            place = place_in(context.text, syntax.start, syntax.end)
            self.problems.add(NOT_CONDITION, place, what="this", kind=self.glossary.printed_kind(checked.kind))
            raise _Failed
        return checked

    def refuse(self, refusal: Message, syntax: formulas.Tree, context: _Context, **given: Any) -> _Failed:
        self.problems.add(refusal, place_in(context.text, syntax.start, syntax.end), **given)
        return _Failed()

    def amount(self, syntax: formulas.Tree, context: _Context, what: str) -> _Checked:
        checked = self.checked(syntax, context)
        if checked.kind.form != "quantity":
            shown = self.glossary.printed_kind(checked.kind)
            raise self.refuse(NOT_QUANTITY, syntax, context, what=what, kind=shown)
        return checked

    def arithmetic(self, syntax: formulas.Arithmetic, context: _Context) -> _Checked:
        left = self.amount(syntax.left, context, "the left side")
        right = self.amount(syntax.right, context, "the right side")
        if syntax.sign in ("+", "-"):
            self.one_kind(left, right, syntax, context)
            return tree.Arithmetic(syntax.sign, left, right, right.kind if _is_zero(left) else left.kind)
        combine = times if syntax.sign == "*" else over
        kind = combine(left.kind.unit, right.kind.unit)
        if kind is None:
            raise self.refuse(PERCENT_DIVIDED, syntax, context)
        percent = ""
        if syntax.sign == "*":
            percent = "right" if right.kind.unit == PERCENT else "left" if left.kind.unit == PERCENT else ""
        return tree.Arithmetic(syntax.sign, left, right, quantity_kind(kind), percent)

    def one_kind(self, left: _Checked, right: _Checked, syntax: Any, context: _Context) -> None:
        if left.kind == right.kind or _is_zero(left) or _is_zero(right):
            return
        shown = self.glossary.printed_kind
        other = place_in(context.text, syntax.left.start, syntax.left.end)
        self.problems.add(
            DIFFERENT_KINDS,
            place_in(context.text, syntax.right.start, syntax.right.end),
            left=shown(left.kind),
            right=shown(right.kind),
            others=[("the other side", other)],
        )
        raise _Failed

    def comparison(self, syntax: formulas.Compare, context: _Context) -> _Checked:
        left, right = self.checked(syntax.left, context), self.checked(syntax.right, context)
        for side, checked in ((syntax.left, left), (syntax.right, right)):
            if checked.kind.form not in ("quantity", "scale"):
                shown = self.glossary.printed_kind(checked.kind)
                raise self.refuse(NOT_QUANTITY, side, context, what="what is compared", kind=shown)
        self.one_kind(left, right, syntax, context)
        return tree.Comparison(syntax.sign, left, right)

    def among(self, syntax: formulas.Among, context: _Context) -> _Checked:
        read = self.name(syntax.name, context)
        if isinstance(read, tree.ReadChoice):
            options = self.options(read)
            known: tuple[str, ...] = tuple(options)
        elif read.kind.form in ("choice", "yes_no", "scale"):
            known = self.glossary.words(read.kind)
        else:
            raise self.refuse(NOT_A_CHOICE, syntax.name, context, name=syntax.name.text)
        values = []
        for word in syntax.words:
            if word.text not in known:
                shown = ", ".join(known)
                near = nearest_name(word.text, known)
                raise self.refuse(UNKNOWN_WORD, word, context, word=word.text, choice=syntax.name.text, known=shown, nearest=near)
            choice = isinstance(read, tree.ReadChoice)
            values.append(word.text if choice else self.glossary.value(read.kind, word.text))
        return tree.OneOf(read, tuple(values), syntax.negated)

    def options(self, read: tree.ReadChoice) -> dict[str, Any]:
        document, name = read.address.split(".")
        return self.whole.names.documents[document].interpretations[name].options

    # names

    def name(self, syntax: formulas.Name, context: _Context) -> _Checked:
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
            raise _Failed  # the run itself was refused
        if head in self.whole.methods:
            return self.of_method(syntax, self.whole.methods[head], rest, context)
        meaning = self.whole.names.documents.get(head)
        if meaning is not None:
            return self.of_document(syntax, meaning, rest, context)
        raise self.unknown(syntax, context, self.whole.names.nearest(head, context.document, self.whole.methods))

    def unknown(self, syntax: formulas.Name, context: _Context, near: str) -> _Failed:
        return self.refuse(UNKNOWN_NAME, syntax, context, name=syntax.text, nearest=near)

    def bare(self, syntax: formulas.Name, context: _Context) -> _Checked:
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

    def fields_of(self, level: str) -> tuple[str, ...]:
        collection = self.glossary.collections.get(level)
        return tuple(collection.fields) if collection is not None else ()

    def here(self, context: _Context) -> str:
        return "the home" if context.level == HOME else f"each of {context.level}"

    def owners(self, level: str) -> tuple[str, ...]:
        """What an item of a level belongs to, in this method."""
        return owners_of(self.glossary, self.method.level, level)

    def meant(self, syntax: formulas.Name, meaning: Meaning, context: _Context) -> _Checked:
        thing = meaning.thing
        if isinstance(thing, Parameter):
            self.whole.used.add(meaning.address)
            return self.whole.parameter(meaning, syntax.text)
        if isinstance(thing, Interpretation):
            self.whole.used.add(meaning.address)
            return tree.ReadChoice(syntax.text, meaning.address, ValueKind("choice", name=meaning.address))
        if isinstance(thing, Given):
            return self.given(syntax, thing)
        if isinstance(thing, Line):
            return self.read_line(syntax, self.method, self.method.lines[str(thing.name)], context)
        what = {Group: "a group", Table: "a table", Run: "a run"}[type(thing)]
        raise self.refuse(NOT_A_VALUE, syntax, context, name=syntax.text, what=what)

    def given(self, syntax: formulas.Name, given: Given) -> _Checked:
        if given.choice is not None:
            if given.choice not in self.glossary.choices:
                near = nearest_name(given.choice, self.glossary.choices)
                self.problems.add(UNKNOWN_CHOICE, given.choice.place, name=given.choice, nearest=near)
                raise _Failed
            kind = YES_NO if given.choice == "yes_no" else ValueKind("choice", name=str(given.choice))
            return tree.ReadGiven(syntax.text, kind)
        try:
            return tree.ReadGiven(syntax.text, quantity_kind(self.glossary.units.unit(given.unit or "").kind))
        except UnknownUnit:
            self.problems.add(PARAMETER_UNIT, (given.unit or given.name).place, text=given.unit)
            raise _Failed from None

    def of_method(self, syntax: formulas.Name, method: CheckedMethod, rest: str, context: _Context) -> _Checked:
        line = method.lines.get(rest)
        if line is not None:
            return self.read_line(syntax, method, line, context)
        return self.of_document(syntax, method.source, rest, context)

    def of_document(self, syntax: formulas.Name, document: Document, rest: str, context: _Context) -> _Checked:
        thing = document.parameters.get(rest) or document.interpretations.get(rest)
        if thing is None:
            near = nearest_name(rest, [*document.parameters, *document.interpretations])
            raise self.unknown(syntax, context, f"{document.name}.{near}" if near else "")
        return self.meant(syntax, Meaning(thing, document), context)

    def through_run(self, syntax: formulas.Name, run: str, rest: str, context: _Context) -> _Checked:
        method = self.whole.methods[self.method.runs[run].method]
        line = method.lines.get(rest)
        if line is None:
            near = nearest_name(rest, method.lines)
            raise self.unknown(syntax, context, f"{run}.{near}" if near else "")
        self.other_line(method, line)
        self.whole.used.add(f"{self.method.source.name}.{run}")
        if line.level != HOME:
            raise self.refuse(RUN_LEVEL, syntax, context, name=syntax.text, level=line.level)
        return tree.ReadLine(syntax.text, line, run)

    def other_line(self, method: CheckedMethod, line: CheckedLine) -> None:
        checker = self if method is self.method else _MethodChecker(self.whole, method)
        if not checker.line(line):
            raise _Failed
        self.whole.used.add(line.id)
        self.whole.used.add(self.address(line))

    def address(self, line: CheckedLine) -> str:
        method = self.whole.methods[line.method]
        return next((f"{each.name}.{line.name}" for each in method.parts if line.name in each.lines), line.id)

    def read_line(
        self, syntax: formulas.Name, method: CheckedMethod, line: CheckedLine, context: _Context, *, gathered: bool = False
    ) -> tree.ReadLine:
        self.other_line(method, line)
        if gathered:
            return tree.ReadLine(syntax.text, line)
        if line.level != context.level and line.level not in (HOME, *self.owners(context.level)):
            raise self.refuse(FINER, syntax, context, name=syntax.text, level=line.level, here=self.here(context))
        if line.each is not None and line.each.bases:
            inside = line.level == context.level and context.groups
            if not inside or not all(group.built_on(line.each) or _same(group, line.each) for group in context.groups):
                raise self.refuse(OUTSIDE_GROUP, syntax, context, name=syntax.text, group=line.each.name)
        return tree.ReadLine(syntax.text, line)

    # functions

    def call(self, syntax: formulas.Call, context: _Context) -> _Checked:
        if syntax.function in words.GATHERING:
            return self.gather(syntax, context)
        if syntax.function in words.CHOOSING:
            return self.picked(syntax, context)
        if syntax.function in words.ROUNDING:
            return self.rounded(syntax, context)
        if syntax.function in words.ASKING:
            return self.asked(syntax, context)
        return self.lookup(syntax, context)

    def gather(self, syntax: formulas.Call, context: _Context) -> _Checked:
        wanted = "one group" if syntax.function == "count" else "one group and one column, as in `group.column`"
        argument = syntax.arguments[0]
        if len(syntax.arguments) != 1 or not isinstance(argument, formulas.Name):
            raise self.refuse(GATHER_FORM, syntax, context, function=syntax.function, wanted=wanted)
        head, _, column_name = argument.text.partition(".")
        if bool(column_name) == (syntax.function == "count"):
            raise self.refuse(GATHER_FORM, argument, context, function=syntax.function, wanted=wanted)
        group = self.gathered_group(head, argument, context)
        call = str(context.text[syntax.start : syntax.end])
        if not column_name:
            return tree.Gather(call, syntax.function, group, None, context.level, quantity_kind(NUMBER))
        column = self.column(group, column_name, argument, context)
        if (syntax.function == "every") != (column.kind == YES_NO):
            wanted = "a column of conditions" if syntax.function == "every" else "a column of amounts"
            raise self.refuse(GATHER_FORM, argument, context, function=syntax.function, wanted=wanted)
        if syntax.function != "every" and column.kind.form != "quantity":
            shown = self.glossary.printed_kind(column.kind)
            raise self.refuse(NOT_QUANTITY, argument, context, what="what is gathered", kind=shown)
        return tree.Gather(call, syntax.function, group, column, context.level, column.kind)

    def gathered_group(self, name: str, syntax: formulas.Name, context: _Context) -> CheckedGroup:
        group = self.group_named(name, context.document, _part(context.text, syntax, name))
        if group is None:
            raise _Failed
        self.whole.used.add(group.address)
        collection = self.glossary.collections[group.collection]
        if context.level not in (*self.owners(group.collection), *collection.of, *collection.on):
            raise self.refuse(NOT_GATHERED, syntax, context, group=name, here=self.here(context))
        return group

    def column(self, group: CheckedGroup, name: str, syntax: formulas.Name, context: _Context) -> tree.ReadField | tree.ReadLine:
        field = self.glossary.collections[group.collection].fields.get(name)
        if field is not None:
            return tree.ReadField(name, group.collection, name, field.kind)
        inner = formulas.Name(name, syntax.end - len(name), syntax.end)
        line, method = self.column_line(name, inner, context)
        read = self.read_line(inner, method, line, context, gathered=True)
        if line.level != group.collection:
            raise self.refuse(GATHER_FORM, inner, context, function="a gathering word", wanted=f"a column of {group.collection}")
        if line.each is not None and not (group.built_on(line.each) or _same(group, line.each)):
            raise self.refuse(OUTSIDE_GROUP, inner, context, name=name, group=line.each.name)
        return read

    def column_line(self, name: str, syntax: formulas.Name, context: _Context) -> tuple[CheckedLine, CheckedMethod]:
        head, _, rest = name.partition(".")
        if rest and head in self.whole.methods and rest in self.whole.methods[head].lines:
            return self.whole.methods[head].lines[rest], self.whole.methods[head]
        meaning = self.whole.names.visible[str(context.document.name)].get(name)
        if meaning is None or not isinstance(meaning.thing, Line):
            raise self.unknown(syntax, context, self.whole.names.nearest(name, context.document))
        return self.method.lines[name], self.method

    def picked(self, syntax: formulas.Call, context: _Context) -> _Checked:
        if len(syntax.arguments) < 2:
            raise self.refuse(ARGUMENTS, syntax, context, function=syntax.function, wanted="two or more amounts")
        made = [self.amount(argument, context, "an argument") for argument in syntax.arguments]
        first = next((at for at, checked in enumerate(made) if not _is_zero(checked)), 0)
        for argument, checked in zip(syntax.arguments, made, strict=True):
            if checked.kind != made[first].kind and not _is_zero(checked):
                shown = self.glossary.printed_kind
                other = place_in(context.text, syntax.arguments[first].start, syntax.arguments[first].end)
                place = place_in(context.text, argument.start, argument.end)
                self.problems.add(
                    DIFFERENT_KINDS,
                    place,
                    left=shown(made[first].kind),
                    right=shown(checked.kind),
                    others=[("the other side", other)],
                )
                raise _Failed
        return tree.Picked(syntax.function, tuple(made), made[first].kind)

    def rounded(self, syntax: formulas.Call, context: _Context) -> _Checked:
        if len(syntax.arguments) != 2 or not isinstance(syntax.arguments[1], formulas.Name):
            raise self.refuse(ARGUMENTS, syntax, context, function=syntax.function, wanted="an amount and a named step")
        amount, step = (self.amount(argument, context, "an argument") for argument in syntax.arguments)
        self.one_kind(amount, step, formulas.Compare("=", syntax.arguments[0], syntax.arguments[1], 0, 0), context)
        return tree.Rounded(syntax.function, amount, step, amount.kind)

    def asked(self, syntax: formulas.Call, context: _Context) -> _Checked:
        if len(syntax.arguments) != 1 or not isinstance(syntax.arguments[0], formulas.Name):
            raise self.refuse(ARGUMENTS, syntax, context, function=syntax.function, wanted="one name")
        return tree.Asked(self.name(syntax.arguments[0], context))

    def lookup(self, syntax: formulas.Call, context: _Context) -> _Checked:
        first = syntax.arguments[0]
        back = syntax.function == words.LOOKUP[1]
        if not isinstance(first, formulas.Name):
            raise self.refuse(ARGUMENTS, syntax, context, function=syntax.function, wanted="a table and its keys")
        table, column = self.table_named(first, context)
        count = len(table.column_keys) + 1
        if len(syntax.arguments) != count + 1:
            wanted = f"a table, {'an amount' if back else table.row_key}" + "".join(f", {each}" for each in table.column_keys)
            raise self.refuse(ARGUMENTS, syntax, context, function=syntax.function, wanted=wanted)
        cell_kind = table.columns.get(column) or table.gives or table.row_kind
        wanted_kinds = [cell_kind if back else table.row_kind, *table.column_keys.values()]
        keys = tuple(self.key(argument, kind, context) for argument, kind in zip(syntax.arguments[1:], wanted_kinds, strict=True))
        call = str(context.text[syntax.start : syntax.end])
        if back:
            return tree.FirstRow(call, table, column, keys[0], keys[1:], table.row_kind)
        return tree.Lookup(call, table, column, keys, cell_kind)

    def table_named(self, syntax: formulas.Name, context: _Context) -> tuple[Table, str]:
        visible = self.whole.names.visible[str(context.document.name)]
        meaning, column = visible.get(syntax.text), ""
        if meaning is None:
            head, _, rest = syntax.text.partition(".")
            meaning, column = visible.get(head), rest
            document = self.whole.names.documents.get(head)
            if meaning is None and document is not None:
                name, _, column = rest.partition(".")
                table = document.tables.get(name)
                meaning = Meaning(table, document) if table is not None else None
        if meaning is None or not isinstance(meaning.thing, Table):
            near = self.whole.names.nearest(syntax.text, context.document)
            raise self.refuse(NO_TABLE, syntax, context, name=syntax.text, nearest=near)
        self.whole.used.add(meaning.address)
        table = meaning.thing
        if bool(column) == (bool(table.column_keys) or not table.columns) or (column and column not in table.columns):
            near = nearest_name(column, table.columns)
            raise self.refuse(NO_COLUMN, syntax, context, table=table.name, column=column, nearest=near)
        if column:
            self.whole.used.add(f"{meaning.address}.{column}")
        return table, column

    def key(self, syntax: formulas.Tree, wanted: ValueKind, context: _Context) -> _Checked:
        if isinstance(syntax, formulas.Name) and wanted.form != "quantity" and syntax.text in self.glossary.words(wanted):
            return tree.Constant(syntax.text, self.glossary.value(wanted, syntax.text), wanted)
        checked = self.checked(syntax, context)
        if checked.kind != wanted:
            shown = self.glossary.printed_kind
            raise self.refuse(TABLE_KEY, syntax, context, wanted=shown(wanted), kind=shown(checked.kind))
        return checked


def owners_of(glossary: Glossary, per: str, level: str) -> tuple[str, ...]:
    """What an item of a level belongs to, nearest first, in a method with one value per ``per``.

    Loads belong to the home or to a dwelling unit: in a method per dwelling unit to the unit, else to the home alone.
    """
    if level == HOME:
        return ()
    collection = glossary.collections[level]
    if len(collection.of) > 1:
        unit = per if per in collection.of else HOME
    elif collection.of[0] == HOME and per != level and level in _connected(glossary):
        unit = per
    else:
        unit = collection.of[0]
    return (unit, *owners_of(glossary, per, unit))


def _connected(glossary: Glossary) -> set[str]:
    return {name for collection in glossary.collections.values() for name in collection.on}


def _part(text: Text, syntax: formulas.Name, name: str) -> Text:
    place = text.at(syntax.start)
    made = Text(name)
    made.source, made.line, made.column = place.source, place.line, place.column
    return made


def _same(group: CheckedGroup, other: CheckedGroup) -> bool:
    """The copies of one group in two methods hold the same items."""
    if group.address == other.address:
        return True
    return bool(group.bases) and all(_same(base, other) for base in group.bases)


def _is_zero(checked: _Checked) -> bool:
    return isinstance(checked, tree.Constant) and not checked.address and checked.value == 0


def _absent(checked: _Checked) -> bool:
    """Whether a tree may be not applicable."""
    if isinstance(checked, tree.ReadLine):
        return checked.line.absent
    if isinstance(checked, tree.Asked):
        return False
    if isinstance(checked, tree.Gather):
        if checked.column is None:
            return False
        column = isinstance(checked.column, tree.ReadLine) and checked.column.line.absent
        return column or (checked.function in ("mean", "largest") and not checked.group.never_empty)
    return any(_absent(inner) for inner in tree.children(checked))
