"""What is wrong in a text that is no YAML, in plain words: what the parser says of it, and where that is mended."""

from __future__ import annotations

import re
from dataclasses import dataclass

from dwellcalc.problems import Message, Place, Source, message

NOT_YAML = message("not_yaml", "this is not readable as YAML: {why}", "look at the indentation, quotes and colons near here")
TAB = message("text_tab", "a tab stands here, and only blanks may indent a line", "put two blanks in place of each tab")
NO_COLON = message("text_no_colon", '"{text}" lacks its colon, or the blank after it', 'write "{instead}"')
COLON = message(
    "text_colon", "the text here holds a colon with a blank after it, as a key does", "put the text in quotes: {instead}"
)
DEEPER = message(
    "text_deeper", "this line begins further in than the one above it, and does not belong to it", "begin it in the same column"
)
NO_BLANK = message("text_no_blank", "after the dash a blank is missing", 'write "- " before what follows')
COLUMN = message(
    "text_column",
    "this does not begin in the column of what it belongs to",
    "keys that belong together, and the dashes of a list, begin in the same column; after a dash comes a blank",
)
NOT_CLOSED = message(
    "text_not_closed", "what opens here is not closed", "write {mark} where it ends; a comma stands between two entries"
)
NO_VALUE = message(
    "text_no_value", "before this a value is missing", "write the value, or `unknown`; what follows # is a comment"
)
FIRST_MARK = message("text_first_mark", "no text can begin with this character", "put the text in quotes")

GLUED = re.compile(r"([^:]+):(\S.*)")
TO_NUMBER = re.compile(r"([^\d:]*[^\d\s:])\s+(\d.*)")
FIRST_WORD = re.compile(r"(\S+)\s+(.*)")
CLOSING = {"{": "}", "[": "]", '"': '"', "'": "'"}


@dataclass(frozen=True)
class Said:
    """What the parser says: the problem, what it was reading, and where each stands (line and column from 0)."""

    problem: str
    context: str
    at: tuple[int, int]
    begun: tuple[int, int] | None


def mistake(said: Said, source: Source) -> tuple[Message, Place, dict[str, str]]:
    """The message for what the parser says, its place, and the words for its braces."""
    place, begun = _place(said.at, source), _place(said.begun or said.at, source)
    opened = source.line(begun.line)[begun.column - 1 : begun.column]
    if "tab" in said.problem or "'\\t'" in said.problem or _tab_before(place):
        return TAB, place, {}
    if "expected ':'" in said.problem:
        text = source.line(begun.line)[begun.column - 1 :].strip()
        return NO_COLON, begun, {"text": text, "instead": _with_colon(text)}
    if "mapping values are not allowed" in said.problem:
        return _colon(place, source)
    if opened in CLOSING and ("expected ','" in said.problem or "end of stream" in said.problem or "document" in said.problem):
        return NOT_CLOSED, begun, {"mark": CLOSING[opened]}
    if "node content" in said.problem:
        return NO_VALUE, place, {}
    if "expected key" in said.problem or "'-' indicator" in said.problem or "<document start>" in said.problem:
        return COLUMN, place, {}
    if "cannot start any token" in said.problem:
        return FIRST_MARK, place, {}
    return NOT_YAML, place, {"why": said.problem}


def _with_colon(text: str) -> str:
    """A line that lacks its colon as it should be: the key ends before the first number, else after the first word."""
    match = GLUED.fullmatch(text) or TO_NUMBER.fullmatch(text) or FIRST_WORD.fullmatch(text)
    return f"{match[1]}: {match[2]}" if match else f"{text}: ..."


def _colon(place: Place, source: Source) -> tuple[Message, Place, dict[str, str]]:
    """A colon where none can be: after a line that begins further in than it should, after a dash, or in a text."""
    line = source.line(place.line)
    before = line[: place.column - 1]
    key, _, text = line.partition(": ")
    if before.lstrip().startswith("-") and not before.lstrip().startswith("- "):
        return NO_BLANK, Place(source, place.line, len(before) - len(before.lstrip()) + 1), {}
    if ": " in before:
        return COLON, place, {"instead": f'{key.strip()}: "{text.strip()}"'}
    return DEEPER, Place(source, place.line, len(line) - len(line.lstrip()) + 1), {}


def _place(at: tuple[int, int], source: Source) -> Place:
    return Place(source, at[0] + 1, at[1] + 1)


def _tab_before(place: Place) -> bool:
    """Whether a tab indents the line."""
    return re.match(r" *\t", place.source.line(place.line)) is not None
