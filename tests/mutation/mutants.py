"""Mutants of the rules: each is one plausible slip, made by replacing exact spans of one file's text.

The parsed documents say what stands where; comments, quotes and folding of the file stay as they are. A mutant's id is
``file:address:operator:before->after``; the address is the one that changes of editions use, so that ids stay when
lines above are moved.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from dwellcalc.glossary import YES_NO, Glossary, ValueKind, quantity_kind
from dwellcalc.language import formulas, words
from dwellcalc.language.document_reader import DocumentReader
from dwellcalc.language.documents import Document, Group, Interpretation, Line, Parameter
from dwellcalc.language.names import Meaning, Names
from dwellcalc.language.rule_set import RuleSet, editions_in, load_rules
from dwellcalc.language.tables import NO_VALUE, Table
from dwellcalc.language.tree import HOME
from dwellcalc.placed import Listing, Mapping, Text, key, text_at
from dwellcalc.problems import Place, Problems
from dwellcalc.reading import read_file

NUMBER = re.compile(r"(?<![A-Za-z0-9_.])(?:\d+ \d+/\d+|\d+/\d+|\d[\d.,]*)")
COMPARISONS = {">=": ">", ">": ">=", "<=": "<", "<": "<=", "=": ">="}
SIGNS = {"+": "-", "-": "+", "*": "/", "/": "*"}
JOINING = {"and": "or", "or": "and"}
GATHERING = {"sum": ("mean", "largest"), "mean": ("sum", "largest"), "largest": ("sum", "mean")}
PAIRED = {
    "larger": "smaller",
    "smaller": "larger",
    "round_half_up": "round_up",
    "round_up": "round_half_up",
    "table": "first_row_at_least",
    "first_row_at_least": "last_row_at_most",
    "last_row_at_most": "first_row_at_least",
}
NEEDS_NO_PLACE = ("", 0)


@dataclass(frozen=True)
class Edit:
    """A span of a file's text, and what takes its place."""

    start: int
    end: int
    new: str


@dataclass(frozen=True)
class Mutant:
    """One slip in one file."""

    file: str
    line: int
    address: str
    operator: str
    before: str
    after: str
    edits: tuple[Edit, ...]
    again: int = 1

    @property
    def id(self) -> str:
        """Stable as long as the piece that it changes is."""
        more = f" #{self.again}" if self.again > 1 else ""
        return f"{self.file}:{self.address}:{self.operator}:{self.before}->{self.after}{more}"

    @property
    def document(self) -> str:
        """The method or part that it is about."""
        return self.address.partition(".")[0]

    def applied(self, text: str) -> str:
        """The file's text with the slip."""
        for edit in sorted(self.edits, key=lambda each: each.start, reverse=True):
            text = text[: edit.start] + edit.new + text[edit.end :]
        return text


def bumped(number: str) -> str:
    """A number with its last digit one more, or eight for nine."""
    at = max(place for place, character in enumerate(number) if character.isdigit())
    return number[:at] + ("8" if number[at] == "9" else str(int(number[at]) + 1)) + number[at + 1 :]


def following(name: str, names: Iterable[str], taken: Sequence[str] = ()) -> tuple[str, ...]:
    """The other names that are not taken, nearest first: the one after it, the one before it, the next but one ..."""
    listed = list(names)
    if name not in listed:
        return ()
    at = listed.index(name)
    after = [each for each in listed[at + 1 :] + listed[:at] if each not in taken]
    return tuple(dict.fromkeys(each for pair in zip(after, after[::-1], strict=True) for each in pair))


class File:
    """A file's text, and where its nodes stand in it."""

    def __init__(self, path: Path, name: str) -> None:
        self.name = name
        self.node = read_file(path)
        self.text = self.node.place.source.text
        self.lines = self.text.splitlines(keepends=True)
        self.starts = [0]
        for line in self.lines:
            self.starts.append(self.starts[-1] + len(line))

    def offset(self, place: Place) -> int:
        return self.starts[place.line - 1] + place.column - 1

    def span(self, text: Text, start: int = 0, end: int | None = None) -> tuple[int, int]:
        """Where a part of a text stands in the file."""
        last = len(text) if end is None else end
        found = self.offset(text.at(start)), self.offset(text.at(last - 1)) + 1
        standing = " ".join(self.text[found[0] : found[1]].split())
        assert standing == " ".join(text[start:last].split()), (self.name, text.line, standing, text[start:last])
        return found

    def scalar(self, text: Text) -> tuple[int, int]:
        """Where a whole scalar stands, its quotes with it."""
        start, end = self.span(text)
        quoted = self.text[self.offset(text.place)] in "\"'"
        return (start - 1, end + 1) if quoted else (start, end)

    def block(self, line: int, column: int) -> tuple[int, int]:
        """The lines of a piece in block style that begins in this column: up to the next line not indented further."""
        last = line
        while last < len(self.lines):
            row = self.lines[last]
            if row.strip() and len(row) - len(row.lstrip()) < column:
                break
            last += 1
        while not self.lines[last - 1].strip():
            last -= 1
        return self.starts[line - 1], self.starts[last]

    def entry_of_list(self, listing: Listing, at: int) -> Edit:
        """An entry of a list in block style, taken out."""
        line = listing[at].place.line
        row = self.lines[line - 1]
        start, end = self.block(line, len(row) - len(row.lstrip()) + 1)
        if len(listing) > 1:
            return Edit(start, end, "")
        return Edit(self.offset(listing.place), end, "[]\n")

    def entry_of_mapping(self, name: Text) -> Edit:
        """A key in block style with its value, taken out."""
        return Edit(*self.block(name.line, name.column), "")


@dataclass
class Scope:
    """What a formula's names can mean where it stands."""

    rules: RuleSet
    document: str
    level: str
    own: str = ""
    names: dict[str, Meaning] = field(default_factory=dict)

    @property
    def glossary(self) -> Glossary:
        return self.rules.glossary

    def levels(self) -> list[str]:
        found = [self.level]
        while found[-1] in self.glossary.collections:
            found.append(self.glossary.collections[found[-1]].of[-1])
        return found

    def kind_of(self, name: str) -> ValueKind | None:
        """The kind of a name's value, or nothing where it has none."""
        head, _, rest = name.partition(".")
        if rest and head in self.glossary.objects and rest in self.glossary.objects[head]:
            return self.glossary.objects[head][rest].kind
        meaning = self.names.get(name)
        if meaning is not None:
            return self.kind(meaning)
        for level in self.levels():
            collection = self.glossary.collections.get(level)
            if collection is not None and name in collection.fields:
                return collection.fields[name].kind
        return None

    def kind(self, meaning: Meaning) -> ValueKind | None:
        thing = meaning.thing
        if isinstance(thing, Parameter):
            return quantity_kind(self.glossary.units.quantity(thing.value)[1])
        if isinstance(thing, Line):
            return next((line.kind for line in self.checked(thing)), None)
        unit = getattr(thing, "unit", None)
        return quantity_kind(self.glossary.units.unit(unit).kind) if unit else None

    def checked(self, line: Line) -> Iterator[Any]:
        for method in self.rules.methods.values():
            yield from (each for each in method.lines.values() if each.source is line)

    def sort(self, meaning: Meaning) -> tuple[Any, ...]:
        """What must be the same for two names to be easily taken for each other."""
        thing = meaning.thing
        level = next((line.level for line in self.checked(thing)), "") if isinstance(thing, Line) else ""
        if isinstance(thing, Group):
            level = self.collection(str(thing.name))
        return type(thing).__name__, self.kind(meaning), level

    def collection(self, group: str) -> str:
        """The collection that a group holds items of."""
        while group not in self.glossary.collections:
            held = (document.groups[group] for document in self.rules.documents.values() if group in document.groups)
            thing = self.names[group].thing if group in self.names else next(held)  # a part may rest on what its user has
            assert isinstance(thing, Group)
            group = str(thing.bases[0])
        return group

    def groups(self, like: str) -> list[str]:
        """Collections and groups of the same collection, in the order of the documents."""
        wanted = self.collection(like)
        found = [name for name, each in self.names.items() if isinstance(each.thing, Group)]
        return [wanted, *(name for name in found if self.collection(name) == wanted)]

    def other(self, name: str) -> tuple[str, ...]:
        """Other visible names of the same sort, or at least of the same kind, nearest first."""
        head, _, rest = name.partition(".")
        if rest and head in self.glossary.objects:
            fields = self.glossary.objects[head]
            alike = [each for each, one in fields.items() if one.kind == fields[rest].kind]
            return tuple(f"{head}.{each}" for each in following(rest, alike)) or self.of_same_kind(name)
        meaning = self.names.get(name)
        if meaning is not None:
            sort = self.sort(meaning)
            alike = [each for each, one in self.names.items() if self.sort(one) == sort]
            return following(name, alike, [self.own]) or self.of_same_kind(name)
        for level in self.levels():
            collection = self.glossary.collections.get(level)
            if collection is not None and name in collection.fields:
                kind = collection.fields[name].kind
                alike = [each for each, one in collection.fields.items() if one.kind == kind]
                return following(name, alike) or self.of_same_kind(name)
        return ()

    def of_same_kind(self, name: str) -> tuple[str, ...]:
        kind = self.kind_of(name)
        levels = ("", *self.levels())
        return tuple(
            each
            for each, meaning in self.names.items()
            if each not in (name, self.own)
            and kind is not None
            and self.kind(meaning) == kind
            and self.sort(meaning)[2] in levels
        )

    def options(self, name: str) -> tuple[str, ...]:
        """The words that a name can be."""
        meaning = self.names.get(name)
        if meaning is not None and isinstance(meaning.thing, Interpretation):
            return tuple(meaning.thing.options)
        kind = self.kind_of(name)
        return self.glossary.words(kind) if kind is not None and kind.form != "quantity" else ()

    def table(self, name: str) -> tuple[Table, str] | None:
        head, _, column = name.partition(".")
        meaning = self.names.get(head)
        if meaning is None and head in self.rules.documents:  # a table of another document
            inner, _, column = column.partition(".")
            found = self.rules.documents[head].tables.get(inner)
            return None if found is None else (found, column)
        return (meaning.thing, column) if meaning is not None and isinstance(meaning.thing, Table) else None


class Maker:
    """Makes the mutants of one file; ``others`` is how many other names are tried in the place of each."""

    def __init__(self, file: File, rules: RuleSet, others: int) -> None:
        self.file = file
        self.others = others
        self.rules = rules
        self.names = Names(rules.documents, rules.glossary, Problems())
        self.made: list[Mutant] = []
        self.place = NEEDS_NO_PLACE
        self.reader = DocumentReader(Problems())

    def at(self, address: str, line: int) -> None:
        """What follows is about this piece."""
        self.place = (address, line)

    def add(self, operator: str, before: str, after: str, *edits: Edit) -> None:
        address, line = self.place
        made = Mutant(self.file.name, line, address, operator, before, after, edits)
        if any(each.edits == edits for each in self.made):
            return
        again = 1 + sum(each.id.partition(" #")[0] == made.id for each in self.made)
        self.made.append(Mutant(self.file.name, line, address, operator, before, after, edits, again))

    def swap(self, operator: str, text: Text, after: str | tuple[str, ...], start: int = 0, end: int | None = None) -> None:
        """A part of a text with another in its place; of several others, as many as are asked for."""
        for each in (after,) if isinstance(after, str) else after[: self.others]:
            self.add(operator, text[start:end], each, Edit(*self.file.span(text, start, end), each))

    def scope(self, document: str, level: str, own: str = "") -> Scope:
        return Scope(self.rules, document, level, own, self.names.visible[document])

    # documents

    def document(self, document: Document) -> None:
        """Every mutant of a method or part."""
        name = str(document.name)
        level = words.LEVEL_OF_PER.get(document.per, HOME) if document.kind == "method" else "dwelling_units"
        for each in document.parameters.values():
            self.at(f"{name}.{each.name}", each.value.line)
            self.first_number(each.value)
        for each in document.interpretations.values():
            self.interpretation(name, each)
        for each in document.groups.values():
            self.group(name, each)
        for each in document.lines.values():
            self.line(name, each, level)
        for each in document.tables.values():
            self.table(f"{name}.{each.name}", each)
        scope = self.scope(name, level)
        for at, each in enumerate(document.permitted):
            self.at(f"{name}.permitted.{at + 1}", each.text.line)
            self.formula(each.text, each.require, scope, condition=True)
            self.add("condition of use dropped", each.text, "", self.file.entry_of_list(document.node[key("permitted")], at))
        for at, each in enumerate(document.left_out):
            self.at(f"{name}.left_out.{each.group}", each.group.line)
            self.swap("group", each.group, following(each.group, scope.groups(each.group)))
            self.add("left out dropped", each.group, "", self.file.entry_of_list(document.node[key("left_out")], at))
        if document.counts is not None:
            self.at(f"{name}.counts", document.counts.line)
            self.swap("group", document.counts, following(document.counts, scope.groups(document.counts)))
        for each in document.results:
            self.at(f"{name}.result.{each.name}", each.line.line)
            self.swap("name", each.line, scope.other(str(each.line)))

    def first_number(self, text: Text) -> None:
        found = NUMBER.search(text)
        assert found is not None
        self.swap("number", text, bumped(found[0]), *found.span())

    def numbers(self, operator: str, text: Text) -> None:
        for found in NUMBER.finditer(text):
            self.swap(operator, text, bumped(found[0]), *found.span())

    def interpretation(self, document: str, each: Interpretation) -> None:
        self.at(f"{document}.{each.name}", each.default.line)
        self.swap("default", each.default, following(each.default, each.options))

    # groups

    def group(self, document: str, group: Group) -> None:
        self.at(f"{document}.{group.name}", group.text.line)
        scope = self.scope(document, HOME)
        scope.level = scope.collection(str(group.name))
        groups = [each for each in scope.groups(str(group.name)) if each != group.name]
        for at, base in enumerate(group.bases):
            self.swap("base", base, following(base, groups))
            if len(group.bases) > 1:
                self.add("base dropped", base, "", self.without(group.bases, at))
        if group.condition_text is not None:
            self.formula(group.condition_text, group.condition, scope, condition=True)
            start, end = self.file.span(group.condition_text)
            begin = self.file.text.rindex("where", 0, start)
            self.add("where dropped", group.condition_text, "", Edit(len(self.file.text[:begin].rstrip()), end, ""))
        for at, excepted in enumerate(group.excepted):
            self.swap("exception", excepted, following(excepted, groups))
            edit = self.without(group.excepted, at)
            if len(group.excepted) == 1:
                begin = self.file.text.rindex("except", 0, edit.start)
                edit = Edit(len(self.file.text[:begin].rstrip()), edit.end, "")
            self.add("exception dropped", excepted, "", edit)

    def without(self, texts: Sequence[Text], at: int) -> Edit:
        """One of several texts with commas between, taken out."""
        start, end = self.file.scalar(texts[at])
        if at + 1 < len(texts):
            return Edit(start, self.file.scalar(texts[at + 1])[0], "")
        return Edit(self.file.scalar(texts[at - 1])[1] if at else start, end, "")

    # lines

    def line(self, document: str, line: Line, level: str) -> None:
        address = f"{document}.{line.name}"
        scope = self.scope(document, level, str(line.name))
        if line.each is not None:
            self.at(f"{address}.each", line.each.line)
            scope.level = scope.collection(str(line.each))
            self.swap("group", line.each, following(line.each, scope.groups(str(line.each))))
            self.add("each dropped", line.each, "", self.file.entry_of_mapping(line.node.key("each")))
        if line.applies_text is not None:
            self.at(f"{address}.applies", line.applies_text.line)
            self.formula(line.applies_text, line.applies, scope, condition=True)
            self.add("applies dropped", line.applies_text, "", self.file.entry_of_mapping(line.node.key("applies")))
        self.at(f"{address}.{line.way}", line.node.key(line.way).line)
        condition = next((checked.kind == YES_NO for checked in scope.checked(scope.names[str(line.name)].thing)), False)
        for text, tree in ((line.value_text, line.value), (line.of_text, line.of)):
            if text is not None:
                self.formula(text, tree, scope, condition=condition)
        if line.parts:
            self.combined(line, scope)
        for text in line.tiers:
            self.at(f"{address}.tiers", text.line)
            self.numbers("number", text)
        self.cases(address, line, scope, condition)

    def combined(self, line: Line, scope: Scope) -> None:
        word = line.node.key(line.way)
        for other in words.COMBINING:
            if other != word:
                self.swap("combining word", word, other)
        listing = line.node[word]
        flow = self.file.text[self.file.offset(listing.place)] == "["
        for at, part in enumerate(line.parts):
            self.swap("part", part, scope.other(str(part)))
            if len(line.parts) > 1:
                self.add("part dropped", part, "", self.without(line.parts, at) if flow else self.file.entry_of_list(listing, at))

    def cases(self, address: str, line: Line, scope: Scope, condition: bool) -> None:
        for at, case in enumerate(line.cases):
            self.at(f"{address}.cases.{at + 1}", (case.when_text or case.then_text).line)
            if case.when_text is not None:
                self.formula(case.when_text, case.when, scope, condition=True)
            self.formula(case.then_text, case.then, scope, condition=condition)
        for at, (case, following_case) in enumerate(zip(line.cases, line.cases[1:], strict=False)):
            self.at(f"{address}.cases.{at + 1}", case.then_text.line)
            first, second = case.then_text, following_case.then_text
            ours, theirs = self.file.scalar(first), self.file.scalar(second)
            edits = Edit(*ours, self.file.text[slice(*theirs)]), Edit(*theirs, self.file.text[slice(*ours)])
            self.add("cases exchanged", first, second, *edits)

    # tables

    def table(self, address: str, table: Table) -> None:
        self.at(address, table.name.line)
        for end in ("gaps", "outside"):
            if end in table.node:
                self.add(f"{end} dropped", table.node[key(end)], "", self.file.entry_of_mapping(table.node.key(end)))
        self.columns(table)
        document, _, name = address.partition(".")
        kinds = list(self.rules.documents[document].tables[name].columns.values())
        rows = table.node[key("rows")]
        for at, label in enumerate(rows):
            self.at(f"{address}.rows.{label}", label.line)
            self.numbers("row label", label)
            if isinstance(rows, Listing):
                self.add("row dropped", label, "", self.without(rows, at))
                continue
            self.add("row dropped", label, "", self.file.entry_of_mapping(label))
            cells = rows[label]
            for cell, kind in zip(cells if isinstance(cells, Listing) else [cells], kinds, strict=True):
                self.cell(cell, kind)

    def columns(self, table: Table) -> None:
        columns = table.node.get(key("columns"))
        heads = list(columns) if columns is not None else []
        for first, second in zip(heads, heads[1:], strict=False):
            edits = Edit(*self.file.span(first), str(second)), Edit(*self.file.span(second), str(first))
            self.add("columns exchanged", first, second, *edits)

    def cell(self, cell: Text, kind: ValueKind) -> None:
        if cell == NO_VALUE:
            self.swap("cell", cell, "1")
        elif kind.form != "quantity":
            self.swap("cell", cell, following(cell, self.rules.glossary.words(kind)))
        else:
            self.numbers("cell", cell)
            tree = formulas.parsed(cell, Problems(), numbers=True)
            for node in _arithmetic(tree):
                self.sign(cell, node)

    # formulas

    def formula(self, text: Text, tree: formulas.Tree | None, scope: Scope, *, condition: bool) -> None:
        """Every mutant of a formula."""
        if isinstance(tree, formulas.Literal):
            self.swap("number", text, bumped(text[tree.start : tree.end]), tree.start, tree.end)
        elif isinstance(tree, formulas.Name):
            self.swap("name", text, scope.other(tree.text), tree.start, tree.end)
            if condition:
                self.turned(text, tree)
        elif isinstance(tree, formulas.Call):
            self.call(text, tree, scope)
            if condition:
                self.turned(text, tree)
        elif isinstance(tree, (formulas.Arithmetic, formulas.Compare)):
            self.sign(text, tree)
            self.formula(text, tree.left, scope, condition=False)
            self.formula(text, tree.right, scope, condition=False)
        elif isinstance(tree, formulas.Among):
            self.among(text, tree, scope)
        elif isinstance(tree, formulas.Not):
            self.add("not dropped", text[tree.start : tree.end], text[tree.start + 4 : tree.end], self.cut(text, tree.start, 4))
            self.formula(text, tree.inner, scope, condition=False)
        elif isinstance(tree, formulas.Chain):
            self.chain(text, tree, scope)

    def cut(self, text: Text, start: int, width: int) -> Edit:
        begin = self.file.span(text, start, start + 1)[0]
        return Edit(begin, self.file.span(text, start + width, start + width + 1)[0], "")

    def turned(self, text: Text, tree: formulas.Tree) -> None:
        start = self.file.span(text, tree.start, tree.end)[0]
        self.add("turned", text[tree.start : tree.end], f"not {text[tree.start : tree.end]}", Edit(start, start, "not "))

    def sign(self, text: Text, tree: formulas.Arithmetic | formulas.Compare) -> None:
        at = text.index(tree.sign, tree.left.end, tree.right.start)
        comparing = isinstance(tree, formulas.Compare)
        after = COMPARISONS[tree.sign] if comparing else SIGNS[tree.sign]
        edit = Edit(*self.file.span(text, at, at + len(tree.sign)), after)
        whole = text[tree.start : tree.end]
        shown = whole[: at - tree.start] + after + whole[at - tree.start + len(tree.sign) :]
        self.add("comparison" if comparing else "sign", whole, shown, edit)

    def call(self, text: Text, tree: formulas.Call, scope: Scope) -> None:
        others = GATHERING.get(tree.function) or ((PAIRED[tree.function],) if tree.function in PAIRED else ())
        for other in others:
            self.swap("function", text, other, tree.start, tree.start + len(tree.function))
        first, rest = tree.arguments[0], tree.arguments[1:]
        if tree.function in words.GATHERING and isinstance(first, formulas.Name):
            self.gathered(text, first, scope)
        elif tree.function in words.LOOKUP and isinstance(first, formulas.Name):
            found = scope.table(first.text)
            assert found is not None
            self.table_read(text, first, *found, scope)
            kinds = [None, *found[0].column_keys.values()]
            for argument, kind in zip(rest, kinds, strict=True):
                self.argument(text, argument, kind, scope)
        else:
            for argument in tree.arguments:
                self.formula(text, argument, scope, condition=False)

    def gathered(self, text: Text, name: formulas.Name, scope: Scope) -> None:
        group, _, column = name.text.partition(".")
        self.swap("group", text, following(group, scope.groups(group)), name.start, name.start + len(group))
        if column:
            inner = self.scope(scope.document, scope.collection(group), scope.own)
            self.swap("column", text, inner.other(column), name.start + len(group) + 1, name.end)

    def table_read(self, text: Text, name: formulas.Name, table: Table, column: str, scope: Scope) -> None:
        tables = [each for each, meaning in scope.names.items() if isinstance(meaning.thing, Table)]
        head = str(table.name)
        if name.text.startswith(head):
            self.swap("table", text, following(head, tables), name.start, name.start + len(head))
        if column:
            self.swap("column", text, following(column, table.columns), name.end - len(column), name.end)

    def argument(self, text: Text, tree: formulas.Tree, kind: ValueKind | None, scope: Scope) -> None:
        """A key of a table: a word of its choice, or a formula."""
        known = scope.glossary.words(kind) if kind is not None and kind.form != "quantity" else ()
        if isinstance(tree, formulas.Name) and tree.text in known:
            self.swap("word", text, following(tree.text, known), tree.start, tree.end)
        else:
            self.formula(text, tree, scope, condition=False)

    def among(self, text: Text, tree: formulas.Among, scope: Scope) -> None:
        self.swap("name", text, scope.other(tree.name.text), tree.name.start, tree.name.end)
        joint = text[tree.name.end : tree.words[0].start].split()[:2]
        word = "in" if "in" in joint else "is"
        at = text.index(word, tree.name.end)
        before, after = (f"{word} not", word) if word == "is" else ("not in", "in")
        if tree.negated:
            at = text.index(before, tree.name.end)
            self.swap("is and is not", text, after, at, at + len(before))
        else:
            self.swap("is and is not", text, before if word == "is" else "not in", at, at + len(word))
        options = scope.options(tree.name.text)
        listed = [each.text for each in tree.words]
        for position, each in enumerate(tree.words):
            self.swap("word", text, following(each.text, options, listed), each.start, each.end)
            if len(listed) > 1:
                self.word_dropped(text, tree, position)

    def word_dropped(self, text: Text, tree: formulas.Among, position: int) -> None:
        word = tree.words[position]
        start, end = word.start, word.end
        if position + 1 < len(tree.words):
            end = tree.words[position + 1].start
            edit = Edit(self.file.span(text, start, start + 1)[0], self.file.span(text, end, end + 1)[0], "")
        else:
            start = tree.words[position - 1].end
            edit = Edit(self.file.span(text, start - 1, start)[1], self.file.span(text, end - 1, end)[1], "")
        self.add("word dropped", word.text, "", edit)

    def chain(self, text: Text, tree: formulas.Chain, scope: Scope) -> None:
        joints = []
        for before, after in zip(tree.parts, tree.parts[1:], strict=False):
            found = re.compile(rf"\b{tree.word}\b").search(text, before.end, after.start)
            assert found is not None
            joints.append(found.span())
        other = JOINING[tree.word]
        edits = [Edit(*self.file.span(text, *joint), other) for joint in joints]
        self.add("and and or", tree.word, other, *edits)
        for at, part in enumerate(tree.parts):
            begin = joints[at - 1][0] if at else tree.start
            end = joints[at][0] if at < len(joints) else tree.end
            if not at:
                edit = self.cut(text, tree.start, joints[0][1] + 1 - tree.start)
            else:
                start = self.file.span(text, begin, begin + 1)[0]
                edit = Edit(len(self.file.text[:start].rstrip()), self.file.span(text, begin, end - (end < tree.end))[1], "")
            self.add("test dropped", text[part.start : part.end], "", edit)
            self.formula(text, part, scope, condition=True)

    # editions

    def edition(self, node: Mapping) -> None:
        """Every mutant of an edition's citations and changes."""
        for name, entry in node.get(key("citations"), {}).items():
            self.at(f"citations.{name}", name.line)
            self.section(entry[key("section")])
        for old, new in node.get(key("renumbered"), {}).items():
            self.at(f"renumbered.{old}", new.line)
            self.section(new)
        sets = node.get(key("sets"), [])
        for one in sets:
            changes = one[key("changes")]
            for at, change in enumerate(changes):
                operation = next(name for name in ("change", "add", "remove") if name in change)
                address = change[key(operation)]
                self.at(str(address), address.line)
                shown = "" if not isinstance(change.get(key("was")), Text) else f" {change[key('was')]}"
                self.add("change dropped", f"{operation}{shown}", "", self.file.entry_of_list(changes, at))
                if "now" in change:
                    self.now(address, change[key("now")])

    def section(self, text: Text) -> None:
        """A section with its last number one more."""
        numbers = list(re.finditer(r"\d+", text))
        if not numbers:
            return  # local law, which has no number
        found = numbers[-1]
        self.swap("section", text, bumped(found[0]), *found.span())

    def now(self, address: Text, now: Any) -> None:
        document, _, rest = address.partition(".")
        name, _, piece = rest.partition(".")
        if document == "citations" and piece == "confidence":
            self.swap("grade", now, following(now, words.GRADES))
        elif document == "citations":
            self.section(now if isinstance(now, Text) else now[key("section")])
        elif document == words.ASSESSMENT or piece == "cite":
            return  # words for people, and another key of the same list, which its section tells
        elif isinstance(now, Mapping) and piece:
            return  # the words of a reading
        elif isinstance(now, Mapping) and not _whole(now):
            self.pieces(document, text_at(name, now), now)
        elif isinstance(now, Mapping):
            self.added(document, text_at(name, now), now)
        elif piece == "value" and name in self.rules.documents[document].lines:
            line = self.rules.documents[document].lines[name]
            scope = self.scope(document, self.level(document), name)
            checked = next(scope.checked(line))
            scope.level = checked.level
            self.formula(now, line.value, scope, condition=checked.kind == YES_NO)
        elif name in self.rules.documents[document].groups and not piece:
            made = self.reader.group(text_at(name, now), now)
            assert made is not None
            self.group(document, made)
        elif isinstance(now, Listing):
            for text in now:
                self.numbers("number", text)
        else:
            self.numbers("number", now)

    def pieces(self, document: str, name: Text, now: Mapping) -> None:
        """Several pieces of a thing that is there, changed at once: its grade, or the formulas of a line."""
        if "confidence" in now:
            self.swap("grade", now[key("confidence")], following(now[key("confidence")], words.GRADES))
        line = self.rules.documents[document].lines.get(str(name))
        if line is None or not {"value", "cases"} & set(now):
            return
        made = self.reader.line(name, Mapping({text_at("title", name): line.title, text_at("cite", name): line.cite, **now}))
        assert made is not None
        self.line(document, made, self.level(document))

    def level(self, document: str) -> str:
        per = self.rules.documents[document].per
        return words.LEVEL_OF_PER.get(per, "dwelling_units")

    def added(self, document: str, name: Text, now: Mapping) -> None:
        """A whole piece of an edition."""
        if "rows" in now:
            made = self.reader.table(name, now)
            self.table(f"{document}.{name}", made)
        elif "question" in now:
            self.interpretation(document, self.reader.interpretation(name, now))
        elif "title" in now:
            line = self.reader.line(name, now)
            assert line is not None
            self.line(document, line, self.level(document))
        elif "value" in now:
            self.first_number(now[key("value")])
        elif "group" in now:
            group = now[key("group")]
            self.swap("group", group, following(group, self.scope(document, HOME).groups(group)))


def _whole(now: Mapping) -> bool:
    """Whether it is a whole piece of a document."""
    told = {*words.WAYS, "rows", "question", "is", "group"} & set(now)
    return bool(told) and ("cite" in now or "group" in now)


def _arithmetic(tree: formulas.Tree | None) -> Iterator[formulas.Arithmetic]:
    if isinstance(tree, formulas.Arithmetic):
        yield tree
        yield from _arithmetic(tree.left)
        yield from _arithmetic(tree.right)


def mutants_of(folder: Path, others: int = 1) -> list[Mutant]:
    """Every mutant of the methods, parts and editions of a folder of rules.

    Args:
        folder: the folder of rules.
        others: how many other names are tried in the place of each.
    """
    editions = editions_in(folder)
    made: list[Mutant] = []
    held: set[str] = set()
    for edition in editions:
        rules = load_rules(edition, folder)
        code, year = edition.split("/")
        for name in rules.documents:
            if name not in held:
                held.add(name)
                made += _of_document(File(folder / code / f"{name}.yaml", f"{code}/{name}.yaml"), rules, others)
        file = File(folder / code / "editions" / f"{year}.yaml", f"{code}/editions/{year}.yaml")
        maker = Maker(file, rules, others)
        maker.edition(file.node)
        made += maker.made
    return made


def _of_document(file: File, rules: RuleSet, others: int) -> list[Mutant]:
    maker = Maker(file, rules, others)
    problems = Problems()
    document = DocumentReader(problems).read(file.node)
    problems.raise_if_any()
    assert document is not None
    maker.document(document)
    return maker.made
