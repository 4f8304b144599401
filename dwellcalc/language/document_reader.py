"""How a method or a part is read: its form, section by section."""

from __future__ import annotations

import re

from dwellcalc.language import words
from dwellcalc.language.document_form import ID
from dwellcalc.language.documents import (
    Document,
    Given,
    Group,
    Interpretation,
    LeftOut,
    Option,
    Parameter,
    Permitted,
    Result,
    Run,
)
from dwellcalc.language.formulas import parsed
from dwellcalc.language.line_reader import LineReader
from dwellcalc.language.table_reader import read_table
from dwellcalc.language.tables import Table
from dwellcalc.placed import Mapping, Node, Text, as_mapping, as_text, key, place_of
from dwellcalc.problems import message

GROUP_FORM = message("group_form", '"{text}" is not a group', "bases, then `where` a condition, then `except` groups")
NOT_A_DOCUMENT = message(
    "not_a_document", "this file begins with none of the words of a document", "the first key is one of: {known}"
)
NO_DEFAULT = message("no_default", '"{word}" is not one of the options', "one of: {known}")

_GROUP = re.compile(r"(?P<bases>.+?)(?:\s+where\s+(?P<where>.+?))?(?:\s+except\s+(?P<excepted>.+?))?\Z", re.DOTALL)


class DocumentReader(LineReader):
    """Reads the form of one method or part; problems are collected."""

    def read(self, node: Mapping) -> Document | None:
        """The document, or nothing where it is neither a method nor a part."""
        kind = next(iter(node), None)
        if kind not in ("method", "part"):
            self.problems.add(NOT_A_DOCUMENT, place_of(node), known="method, part")
            return None
        method = kind == "method"
        self.keys(node, words.METHOD_KEYS if method else words.PART_KEYS, f"a {kind}")
        name = as_text(node[kind], kind, self.problems)
        self.check_id(name)
        document = Document(str(kind), name, node, self.text(node, "title", kind))
        if method:
            document.cite = self.text(node, "cite", kind)
            document.per = str(self.word(self.text(node, "per", kind), words.PER))
            document.results = self.results(self.need(node, "result", kind))
            document.columns = self.texts(node.get(key("columns")))
            document.counts = self.optional(node, "counts")
        document.uses = self.texts(node.get(key("uses")))
        self.sections(document, node)
        return document

    def sections(self, document: Document, node: Mapping) -> None:
        """Read every section."""
        document.parameters = self.entries(node, "parameters", self.parameter)
        document.interpretations = self.entries(node, "interpretations", self.interpretation)
        document.groups = self.entries(node, "groups", self.group)
        document.tables = self.entries(node, "tables", self.table)
        document.lines = self.entries(node, "lines", self.line)
        document.runs = self.entries(node, "runs", self.run)
        document.given = self.entries(node, "given", self.given)
        for entry in self.listed(node, "permitted"):
            self.keys(entry, words.PERMITTED_KEYS, "a condition of use")
            text = self.text(entry, "require", "a condition of use")
            cite, if_not = (self.text(entry, name, "a condition of use") for name in ("cite", "if_not"))
            asks = self.optional(entry, "asks")
            document.permitted.append(Permitted(parsed(text, self.problems), text, cite, if_not, asks))
        for entry in self.listed(node, "left_out"):
            self.keys(entry, words.LEFT_OUT_KEYS, "an entry of left_out")
            document.left_out.append(LeftOut(*(self.text(entry, name, "an entry of left_out") for name in words.LEFT_OUT_KEYS)))

    def parameter(self, name: Text, entry: Node) -> Parameter:
        """A parameter."""
        node = as_mapping(entry, f'the parameter "{name}"', self.problems)
        self.keys(node, words.PARAMETER_KEYS, "a parameter")
        status = self.optional(node, "status")
        if status is not None:
            self.word(status, words.STATUSES)
        value, cite = self.text(node, "value", "parameter"), self.text(node, "cite", "parameter")
        return Parameter(name, value, cite, str(status or words.STATUSES[0]), self.evidence(node, "parameter", needed=True))

    def interpretation(self, name: Text, entry: Node) -> Interpretation:
        """An interpretation with its options."""
        node = as_mapping(entry, f'the interpretation "{name}"', self.problems)
        self.keys(node, words.INTERPRETATION_KEYS, "an interpretation")
        options: dict[str, Option] = {}
        for option, said in as_mapping(self.need(node, "options", "interpretation"), "options", self.problems).items():
            self.check_id(option)
            parts = as_mapping(said, f'the option "{option}"', self.problems)
            self.keys(parts, words.OPTION_KEYS, "an option")
            options[str(option)] = Option(option, self.text(parts, "says", "option"), self.optional(parts, "source"))
        default = self.word(self.text(node, "default", "interpretation"), options, NO_DEFAULT)
        question, cite = self.text(node, "question", "interpretation"), self.text(node, "cite", "interpretation")
        return Interpretation(name, question, cite, options, default)

    def group(self, name: Text, entry: Node) -> Group | None:
        """A group: what it is based on, its condition, and what is excepted."""
        text = as_text(entry, f'the group "{name}"', self.problems)
        match = _GROUP.match(text)
        bases = self.names_within(text, match, "bases") if match else None
        excepted = self.names_within(text, match, "excepted") if match else None
        if match is None or bases is None or excepted is None:
            self.problems.add(GROUP_FORM, text.place, text=text)
            return None
        condition = self.within(text, match.start("where"), match["where"]) if match["where"] else None
        tree = parsed(condition, self.problems) if condition is not None else None
        return Group(name, text, bases, tree, condition, excepted)

    def names_within(self, text: Text, match: re.Match[str], part: str) -> tuple[Text, ...] | None:
        """The names in a part of a group's text."""
        if match[part] is None:
            return ()
        found = []
        start = match.start(part)
        for piece in match[part].split(","):
            name = piece.strip()
            if not ID.match(name):
                return None
            found.append(self.within(text, start + piece.index(name), name))
            start += len(piece) + 1
        return tuple(found)

    def within(self, text: Text, start: int, part: str) -> Text:
        """A part of a text with its place."""
        place = text.at(start)
        made = Text(part)
        made.source, made.line, made.column = place.source, place.line, place.column
        return made

    def table(self, name: Text, entry: Node) -> Table | None:
        """A table; its rows are read when kinds are known."""
        node = as_mapping(entry, f'the table "{name}"', self.problems)
        self.keys(node, words.TABLE_KEYS, "a table")
        title, cite = self.text(node, "title", "table"), self.text(node, "cite", "table")
        evidence = self.evidence(node, "table", needed=True)
        return read_table(name, node, title, cite, evidence.source, evidence.confidence, self.problems)

    def run(self, name: Text, entry: Node) -> Run:
        """A run of another method."""
        node = as_mapping(entry, f'the run "{name}"', self.problems)
        self.keys(node, words.RUN_KEYS, "a run")
        keep = as_mapping(self.need(node, "keep", "run"), "keep", self.problems)
        kept = {collection: as_text(group, collection, self.problems) for collection, group in keep.items()}
        return Run(name, self.text(node, "title", "run"), self.text(node, "method", "run"), kept)

    def given(self, name: Text, entry: Node) -> Given:
        """A value that the assessment hands over."""
        node = as_mapping(entry, f'the given "{name}"', self.problems)
        self.keys(node, words.GIVEN_KEYS, "a given value")
        self.need(node, "is", "given value")
        return Given(name, self.optional(node, "unit"), self.optional(node, "choice"))

    def results(self, node: Node) -> list[Result]:
        """The results of a method."""
        found = []
        for name, entry in as_mapping(node, "result", self.problems).items():
            if isinstance(entry, Mapping):
                self.keys(entry, ("line", "optional"), "a result")
                found.append(Result(name, self.text(entry, "line", "result"), entry.get(key("optional")) == "yes"))
            else:
                found.append(Result(name, as_text(entry, name, self.problems), False))
        return found
