"""The nodes of a file: texts, keys with values and lists, each with its place; and the forms that they are asked to have."""

from __future__ import annotations

from datetime import date
from typing import Any, Union, cast

from dwellcalc.problems import Place, Problems, Source, message

BLOCK_MARKS = ("|", ">")
SKIPPED = "\"'\\"

WANT_MAPPING = message(
    "want_mapping", "{what} must be keys with values, not {found}", "as `key: value`, with a blank after the colon"
)
WANT_LIST = message("want_list", "{what} must be a list, not {found}")
WANT_TEXT = message("want_text", "{what} must be a single text, not {found}")


class Text(str):
    """A scalar, with the place where it stands."""

    __slots__ = ("column", "line", "source")
    source: Source
    line: int
    column: int

    @property
    def place(self) -> Place:
        """Where it begins."""
        return Place(self.source, self.line, self.column, max(1, len(self)))

    def at(self, start: int, width: int = 1) -> Place:
        """The place of a character, followed in the source; the beginning where the package made the text itself."""
        lines = self.source.lines
        line, column = self.line - 1, self.column - 1
        mark = lines[line][column : column + 1] if line < len(lines) else ""
        if mark in BLOCK_MARKS:
            line, column = line + 1, 0
        found = line, column
        for character in self[: start + 1]:
            if character.isspace():
                continue
            step = _found(character, lines, line, column, mark)
            if step is None:
                return Place(self.source, self.line, self.column, 1)
            found, (line, column) = step, (step[0], step[1] + 1)
        return Place(self.source, found[0] + 1, found[1] + 1, max(1, width))


def _found(wanted: str, lines: list[str], line: int, column: int, mark: str) -> tuple[int, int] | None:
    """Where a character stands: next, after blanks, quotes and backslashes, or in a quoted text after an escape."""
    while line < len(lines):
        there = lines[line][column : column + 1]
        if there == wanted:
            return line, column
        if not there:
            line, column = line + 1, 0
        elif there.isspace() or there in SKIPPED:
            column += 1
        else:
            column = lines[line].find(wanted, column) if mark == '"' else -1
            return (line, column) if column >= 0 else None
    return None


def part_of(text: Text, start: int, part: str) -> Text:
    """A part of a text, from one of its characters on, as a text of its own placed where it stands."""
    place = text.at(start)
    made = Text(part)
    made.source, made.line, made.column = place.source, place.line, place.column
    return made


class Mapping(dict[Text, Any]):
    """Keys with values, in order; every key is a ``Text``."""

    __slots__ = ("place",)
    place: Place

    def key(self, name: str) -> Text:
        """The key as it stands in the file."""
        for key in self:
            if key == name:
                return key
        raise KeyError(name)


class Listing(list[Any]):
    """A list of nodes."""

    __slots__ = ("place",)
    place: Place


Node = Union[Text, Mapping, Listing]


def key(name: str) -> Text:
    """A name as the key of a mapping, for looking it up."""
    return cast(Text, name)


def text_at(value: str, like: Node) -> Text:
    """A text that the package makes itself, placed where another node stands."""
    place = place_of(like)
    made = Text(value)
    made.source, made.line, made.column = place.source, place.line, place.column
    return made


def spaced(name: str) -> str:
    """A name of the rules or the glossary as people write it."""
    return name.replace("_", " ")


def is_day(text: str) -> bool:
    """Whether a text is a date as year, month and day."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def place_of(node: Node) -> Place:
    """Where a node stands."""
    return node.place


def described(node: object) -> str:
    """What a node is, in a reader's words."""
    if isinstance(node, dict):
        return "keys with values"
    return "a list" if isinstance(node, list) else "a single text"


def as_mapping(node: Node, what: str, problems: Problems) -> Mapping:
    """The node as a mapping; another form is a problem and gives an empty one."""
    if isinstance(node, Mapping):
        return node
    problems.add(WANT_MAPPING, place_of(node), what=what, found=described(node))
    empty = Mapping()
    empty.place = place_of(node)
    return empty


def as_list(node: Node, what: str, problems: Problems) -> Listing:
    """The node as a list; another form is a problem and gives an empty one."""
    if isinstance(node, Listing):
        return node
    problems.add(WANT_LIST, place_of(node), what=what, found=described(node))
    empty = Listing()
    empty.place = place_of(node)
    return empty


def as_several(node: Node, what: str, problems: Problems) -> Listing:
    """The node as a list; a text alone is a list of one."""
    if not isinstance(node, Text):
        return as_list(node, what, problems)
    one = Listing([node])
    one.place = node.place
    return one


def as_text(node: Node, what: str, problems: Problems) -> Text:
    """The node as a text; another form is a problem and gives an empty one."""
    if isinstance(node, Text):
        return node
    problems.add(WANT_TEXT, place_of(node), what=what, found=described(node))
    return text_at("", node)
