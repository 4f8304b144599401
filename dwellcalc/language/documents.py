"""Documents of the rule language as plain objects: methods and parts with their lines, groups and parameters.

Only the form is read here. Names are resolved in ``names``, kinds are inferred in ``kinds``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import TypeVar

from dwellcalc.language import words
from dwellcalc.language.formulas import Tree, parsed
from dwellcalc.language.tables import Table, read_table
from dwellcalc.problems import Message, Place, Problems, message, nearest_name
from dwellcalc.reading import Mapping, Node, Text, as_list, as_mapping, as_text, key, place_of, text_at

UNKNOWN_KEY = message("unknown_key", 'there is no key "{key}" in {what}', "one of: {known}")
LACKS_KEY = message("lacks_key", '{what} lacks "{key}"')
ONE_WAY = message("one_way", 'the line "{name}" must have exactly one way to its value; it has {found}', "one of: {known}")
BAD_ID = message("bad_id", '"{name}" cannot be a name', "small letters, digits and underscores, beginning with a letter")
BAD_GRADE = message("bad_grade", '"{grade}" is no grade of confidence', "one of: {known}")
BAD_WORD = message("bad_word", '"{word}" cannot stand here', "one of: {known}")
TITLE_NUMBER = message(
    "title_number",
    'the title holds the number "{number}"',
    "quote a parameter in braces, so that an amendment cannot make the title lie",
)
TIERS_NEED_OF = message("tiers_need_of", '"of" and "tiers" stand together')
TOO_FEW = message("too_few", '"{key}" needs at least one entry')
OTHERWISE_LAST = message("otherwise_last", '"otherwise" stands once, as the last case')
CASE_FORM = message("case_form", 'a case has "when" and "then", or "otherwise"')
GROUP_FORM = message("group_form", '"{text}" is not a group', "bases, then `where` a condition, then `except` groups")
NOT_A_DOCUMENT = message(
    "not_a_document", "this file begins with none of the words of a document", "the first key is one of: {known}"
)
NO_DEFAULT = message("no_default", '"{word}" is not one of the options', "one of: {known}")

_ID = re.compile(r"[a-z][a-z0-9_]*\Z")
_TITLE_NUMBER = re.compile(r"\{[^}]*\}|(\d[\d./]*)")
QUOTED = re.compile(r"\{([^}]*)\}")
_GROUP = re.compile(r"(?P<bases>.+?)(?:\s+where\s+(?P<where>.+?))?(?:\s+except\s+(?P<excepted>.+?))?\Z", re.DOTALL)

Made = TypeVar("Made")


@dataclass(slots=True, eq=False)
class Evidence:
    """Where a number comes from: source keys and the grade of confidence."""

    source: Text | None = None
    confidence: Text | None = None


@dataclass(slots=True, eq=False)
class Case:
    """One case of a line."""

    when: Tree | None
    when_text: Text | None
    then: Tree | None
    then_text: Text
    cite: Text | None


@dataclass(slots=True, eq=False)
class Line:
    """A line as written."""

    name: Text
    node: Mapping
    title: Text
    cite: Text
    way: str
    each: Text | None = None
    applies: Tree | None = None
    applies_text: Text | None = None
    working: bool = False
    note: Text | None = None
    known_as: tuple[Text, ...] = ()
    evidence: Evidence = field(default_factory=Evidence)
    value: Tree | None = None
    value_text: Text | None = None
    cases: tuple[Case, ...] = ()
    of: Tree | None = None
    of_text: Text | None = None
    tiers: tuple[Text, ...] = ()
    parts: tuple[Text, ...] = ()


@dataclass(slots=True, eq=False)
class Parameter:
    """A number of the code, with unit, citation and evidence."""

    name: Text
    value: Text
    cite: Text
    status: str
    evidence: Evidence


@dataclass(slots=True, eq=False)
class Option:
    """One answer to a question that the text leaves open."""

    name: Text
    says: Text
    source: Text | None


@dataclass(slots=True, eq=False)
class Interpretation:
    """A question that the text leaves open."""

    name: Text
    question: Text
    cite: Text
    options: dict[str, Option]
    default: Text


@dataclass(slots=True, eq=False)
class Group:
    """A group as written: bases, condition, exceptions."""

    name: Text
    text: Text
    bases: tuple[Text, ...]
    condition: Tree | None
    condition_text: Text | None
    excepted: tuple[Text, ...]


@dataclass(slots=True, eq=False)
class Permitted:
    """A condition of use."""

    require: Tree | None
    text: Text
    cite: Text
    if_not: Text
    asks: Text | None = None


@dataclass(slots=True, eq=False)
class LeftOut:
    """A group that the method leaves out, and why."""

    group: Text
    cite: Text
    because: Text


@dataclass(slots=True, eq=False)
class Run:
    """Another method on a part of the home."""

    name: Text
    method: Text
    keep: dict[Text, Text]


@dataclass(slots=True, eq=False)
class Given:
    """A value that the assessment hands over."""

    name: Text
    unit: Text | None
    choice: Text | None


@dataclass(slots=True, eq=False)
class Result:
    """A result: the line that gives it, and whether it may be not applicable."""

    name: Text
    line: Text
    optional: bool


@dataclass(slots=True, eq=False)
class Document:
    """A method or a part."""

    kind: str
    name: Text
    node: Mapping
    title: Text
    cite: Text | None = None
    per: str = ""
    counts: Text | None = None
    uses: tuple[Text, ...] = ()
    parameters: dict[str, Parameter] = field(default_factory=dict)
    interpretations: dict[str, Interpretation] = field(default_factory=dict)
    groups: dict[str, Group] = field(default_factory=dict)
    tables: dict[str, Table] = field(default_factory=dict)
    lines: dict[str, Line] = field(default_factory=dict)
    runs: dict[str, Run] = field(default_factory=dict)
    given: dict[str, Given] = field(default_factory=dict)
    permitted: list[Permitted] = field(default_factory=list)
    left_out: list[LeftOut] = field(default_factory=list)
    results: list[Result] = field(default_factory=list)


class DocumentReader:
    """Reads the form of one method or part; problems are collected."""

    def __init__(self, problems: Problems) -> None:
        self.problems = problems

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

    # the form of nodes

    def keys(self, node: Mapping, known: Iterable[str], what: str) -> None:
        """Refuse keys that are not known."""
        for name in node:
            if name not in known:
                self.problems.add(
                    UNKNOWN_KEY, name.place, key=name, what=what, known=", ".join(known), nearest=nearest_name(name, known)
                )

    def need(self, node: Mapping, name: str, what: str) -> Node:
        """What stands under a key that must be there."""
        found: Node | None = node.get(key(name))
        if found is None:
            self.problems.add(LACKS_KEY, place_of(node), what=f"a {what}" if " " not in what else what, key=name)
            return text_at("", node)
        return found

    def text(self, node: Mapping, name: str, what: str) -> Text:
        """A text that must be there."""
        return as_text(self.need(node, name, what), name, self.problems)

    def optional(self, node: Mapping, name: str) -> Text | None:
        """A text that may be left out."""
        found = node.get(key(name))
        return None if found is None else as_text(found, name, self.problems)

    def texts(self, node: Node | None) -> tuple[Text, ...]:
        """A list of texts; nothing is an empty list."""
        if node is None:
            return ()
        return tuple(as_text(item, "an entry", self.problems) for item in as_list(node, "this", self.problems))

    def listed(self, node: Mapping, name: str) -> list[Mapping]:
        """A list of mappings; nothing is an empty list."""
        found = node.get(key(name))
        if found is None:
            return []
        return [as_mapping(item, "an entry", self.problems) for item in as_list(found, name, self.problems)]

    def entries(self, node: Mapping, section: str, read: Callable[[Text, Node], Made | None]) -> dict[str, Made]:
        """The entries of a section by name."""
        found = node.get(key(section))
        if found is None:
            return {}
        made: dict[str, Made] = {}
        for name, entry in as_mapping(found, section, self.problems).items():
            self.check_id(name)
            one = read(name, entry)
            if one is not None:
                made[str(name)] = one
        return made

    def check_id(self, name: Text) -> None:
        """Refuse what is no name."""
        if not _ID.match(name) or name in words.RESERVED:
            self.problems.add(BAD_ID, name.place, name=name)

    def word(self, text: Text, known: Iterable[str], refusal: Message = BAD_WORD) -> Text:
        """A word that must be one of those known."""
        if text not in known:
            shown = ", ".join(known)
            self.problems.add(refusal, text.place, word=text, grade=text, known=shown, nearest=nearest_name(text, known))
        return text

    def evidence(self, node: Mapping, what: str, *, needed: bool) -> Evidence:
        """Source and grade of confidence."""
        if needed or "source" in node or "confidence" in node:
            grade = self.word(self.text(node, "confidence", what), words.GRADES, BAD_GRADE)
            return Evidence(self.text(node, "source", what), grade)
        return Evidence()

    # sections

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
            if not _ID.match(name):
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
        return Run(name, self.text(node, "method", "run"), kept)

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

    # lines

    def line(self, name: Text, entry: Node) -> Line | None:
        """A line, or nothing and a problem."""
        node = as_mapping(entry, f'the line "{name}"', self.problems)
        self.keys(node, words.LINE_KEYS, "a line")
        ways = [way for way in words.WAYS if way in node]
        if len(ways) != 1:
            found = ", ".join(ways) or "none"
            self.problems.add(ONE_WAY, name.place, name=name, found=found, known=", ".join(words.WAYS))
            return None
        title = self.text(node, "title", "line")
        self.check_title(title)
        line = Line(name, node, title, self.text(node, "cite", "line"), ways[0])
        line.each, line.note = self.optional(node, "each"), self.optional(node, "note")
        working = self.optional(node, "working")
        line.working = working is not None and self.word(working, ("yes", "no")) == "yes"
        line.known_as = self.texts(node.get(key("known_as")))
        line.evidence = self.evidence(node, "line", needed="tiers" in node)
        line.applies_text = self.optional(node, "applies")
        if line.applies_text is not None:
            line.applies = parsed(line.applies_text, self.problems)
        self.way(line, node[key(ways[0])])
        return line

    def check_title(self, title: Text) -> None:
        """Refuse a number in a title that is no parameter."""
        for match in _TITLE_NUMBER.finditer(title):
            if match[1]:
                self.problems.add(TITLE_NUMBER, title.at(match.start(1), len(match[1])), number=match[1])

    def way(self, line: Line, node: Node) -> None:
        """Read the line's way to its value."""
        if ("tiers" in line.node) != (line.way == "of"):
            self.problems.add(TIERS_NEED_OF, line.name.place)
        elif line.way == "value":
            line.value_text = as_text(node, "value", self.problems)
            line.value = parsed(line.value_text, self.problems)
        elif line.way == "of":
            line.of_text = as_text(node, "of", self.problems)
            line.of = parsed(line.of_text, self.problems)
            line.tiers = self.some(line.node[key("tiers")], "tiers", line.name.place)
        elif line.way == "cases":
            line.cases = self.cases(node)
        else:
            line.parts = self.some(node, line.way, line.name.place)

    def some(self, node: Node, name: str, place: Place) -> tuple[Text, ...]:
        """A list with at least one text."""
        if node == []:
            self.problems.add(TOO_FEW, place, key=name)
        return self.texts(node)

    def cases(self, node: Node) -> tuple[Case, ...]:
        """The cases of a line, in order."""
        entries = as_list(node, "cases", self.problems)
        cases = []
        for position, entry in enumerate(entries):
            parts = as_mapping(entry, "a case", self.problems)
            self.keys(parts, words.CASE_KEYS, "a case")
            when, then, otherwise = (self.optional(parts, name) for name in ("when", "then", "otherwise"))
            if otherwise is not None and position != len(entries) - 1:
                self.problems.add(OTHERWISE_LAST, otherwise.place)
            amount = otherwise if otherwise is not None else then
            if amount is None or (when is None) != (otherwise is not None) or (then is None) != (otherwise is not None):
                self.problems.add(CASE_FORM, place_of(entry))
                continue
            condition = parsed(when, self.problems) if when is not None else None
            cases.append(Case(condition, when, parsed(amount, self.problems), amount, self.optional(parts, "cite")))
        if node == []:
            self.problems.add(TOO_FEW, place_of(node), key="cases")
        return tuple(cases)
