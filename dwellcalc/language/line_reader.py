"""How a line of a document is read: its title, its conditions and its way to its value."""

from __future__ import annotations

import re

from dwellcalc.language import words
from dwellcalc.language.document_form import FormReader
from dwellcalc.language.documents import Case, Line
from dwellcalc.language.formulas import parsed
from dwellcalc.placed import Node, Text, as_list, as_mapping, as_text, key, place_of
from dwellcalc.problems import Place, message

ONE_WAY = message("one_way", 'the line "{name}" must have exactly one way to its value; it has {found}', "one of: {known}")
TITLE_NUMBER = message(
    "title_number",
    'the title holds the number "{number}"',
    "quote a parameter in braces, so that an amendment cannot make the title lie",
)
TIERS_NEED_OF = message("tiers_need_of", '"of" and "tiers" stand together')
TOO_FEW = message("too_few", '"{key}" needs at least one entry')
OTHERWISE_LAST = message("otherwise_last", '"otherwise" stands once, as the last case')
CASE_FORM = message("case_form", 'a case has "when" and "then", or "otherwise"')

_TITLE_NUMBER = re.compile(r"\{[^}]*\}|(\d[\d./]*)")


class LineReader(FormReader):
    """Reads the form of lines; problems are collected."""

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
        status = self.optional(node, "status")
        line.is_policy = status is not None and self.word(status, words.STATUSES) == words.POLICY
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
