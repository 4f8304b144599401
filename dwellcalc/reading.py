"""Strict YAML: every scalar is text with its place; duplicate keys, anchors, tags and empty values are refused.

Used for rules, homes and submittals alike. The events of libyaml are walked with a stack of our own, so that deep
nesting can neither exhaust the interpreter's stack nor crash it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

from dwellcalc.placed import WANT_MAPPING, Listing, Mapping, Node, Text, described, place_of
from dwellcalc.problems import CLOSELY_ALIKE, InputError, Place, Problems, Source, fail, message, nearest_name
from dwellcalc.yaml_mistakes import Said, mistake

NUMBER_BEFORE = re.compile(r"(\d+),\Z")
THOUSAND = re.compile(r"\d{3}(?!\d)")

DEEPEST = 40
LARGEST_MEGABYTES = 8
MEGABYTE = 1_000_000

NOT_READABLE = message("file_not_readable", 'the file "{name}" cannot be read: {why}', "check the path and its rights")
NOT_TEXT = message(
    "file_not_text",
    'the file "{name}" is not text in UTF-8',
    "it must be plain text (UTF-8), not a PDF or a document of a word processor",
)
TOO_LARGE = message("file_too_large", 'the file "{name}" is larger than {limit} MB', "is it the file that was meant?")
EMPTY_FILE = message("file_empty", 'the file "{name}" holds nothing')
SEVERAL_DOCUMENTS = message(
    "several_documents", "one file holds one document", 'what follows "---" goes into a file of its own; else take that line out'
)
ANCHOR = message(
    "anchor", "anchors and aliases (& and *) are not used here", "write the text out; quote it if it begins with & or *"
)
TAG = message("tag", "tags (!) are not used here", "quote the text if it begins with !")
DUPLICATE_KEY = message("duplicate_key", 'the key "{key}" stands twice', "each key once; take one of them out")
KEY_NOT_TEXT = message("key_not_text", "a key must be plain text")
EMPTY_VALUE = message(
    "empty_value",
    'the key "{key}" has no value',
    "write the value after the colon; inside braces a comma ends a text, so quote a text that holds one",
)
COMMA_IN_NUMBER = message(
    "comma_in_number",
    'inside braces the comma in "{text}" ends the text',
    'write "{instead}", with a point before decimals, or quote it',
)
EMPTY_ENTRY = message("empty_entry", "an entry of this list has no value", "take the comma or the dash out, or write the value")
TOO_DEEP = message("too_deep", "this is nested too deeply to be meant")


def read_file(path: Path | str, name: str = "") -> Mapping:
    """Read a file whose outermost form is a mapping.

    Args:
        path: the file.
        name: what the user calls it; the path where empty.

    Raises:
        InputError: the file cannot be read, is not UTF-8, is too large, or breaks the strict form.
    """
    return read_text(load_text(path, name), name or str(path))


def load_text(path: Path | str, name: str = "") -> str:
    """The text of a file.

    Raises:
        InputError: the file cannot be read, is not UTF-8 text, or is too large.
    """
    shown = name or str(path)
    try:
        if Path(path).is_dir():
            fail(NOT_READABLE, name=shown, why="it is a folder")
        with Path(path).open("rb") as stream:
            raw = stream.read(LARGEST_MEGABYTES * MEGABYTE + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "the path is not a path"
        fail(NOT_READABLE, name=shown, why=why, nearest=_beside(path) if isinstance(error, FileNotFoundError) else "")
    if len(raw) > LARGEST_MEGABYTES * MEGABYTE:
        fail(TOO_LARGE, name=shown, limit=LARGEST_MEGABYTES)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = "\0"
    if "\0" in text:
        fail(NOT_TEXT, name=shown)
    return text


def _beside(path: Path | str) -> str:
    """The file beside one that is not there whose name is most like it, or an empty string."""
    try:
        names = [each.name for each in Path(path).parent.iterdir() if each.is_file()]
    except OSError:
        return ""
    near = nearest_name(Path(path).name, names, alike=CLOSELY_ALIKE)
    return str(Path(path).parent / near) if near else ""


def read_text(text: str, name: str) -> Mapping:
    """Read a text whose outermost form is a mapping; ``name`` stands in messages.

    Raises:
        InputError: with every breach of the strict form.
    """
    source = Source(name, text)
    problems = Problems()
    try:
        root = _Builder(source, problems).build()
    except yaml.YAMLError as error:
        found, place, words = mistake(_said(error), source)
        problems.add(found, place, others=(), nearest="", **words)
        raise InputError(problems.found) from None
    except InputError as error:
        raise InputError([*problems.found, *error.problems]) from None
    problems.raise_if_any()
    if root is None:
        fail(EMPTY_FILE, name=name)
    if not isinstance(root, Mapping):
        fail(WANT_MAPPING, place_of(root), what="the file", found=described(root))
    return root


def _said(error: yaml.YAMLError) -> Said:
    """What the parser says of a text that it cannot read."""
    problem = getattr(error, "problem", None) or getattr(error, "reason", None) or "an unexpected character"
    at, begun = _mark(getattr(error, "problem_mark", None)), _mark(getattr(error, "context_mark", None))
    return Said(str(problem), str(getattr(error, "context", None) or ""), at or (0, 0), begun)


def _mark(mark: Any) -> tuple[int, int] | None:
    return None if mark is None else (mark.line, mark.column)


class _Builder:
    """Builds nodes from libyaml's events with a stack of its own."""

    def __init__(self, source: Source, problems: Problems) -> None:
        self.source = source
        self.problems = problems

    def place(self, mark: Any) -> Place:
        return Place(self.source, mark.line + 1, mark.column + 1)

    def events(self) -> Iterator[Any]:
        loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
        return iter(yaml.parse(self.source.text, Loader=loader))

    def build(self) -> Node | None:
        """Walk the events; the document's node, or nothing for an empty file."""
        source = self.source
        stack: list[Mapping | Listing] = []
        pending: Text | None = None
        root: Node | None = None
        documents = 0
        for event in self.events():
            kind = type(event)
            if kind is yaml.ScalarEvent:
                mark = event.start_mark
                node: Any = Text(event.value)
                node.source, node.line, node.column = source, mark.line + 1, mark.column + 1
                if event.anchor or event.tag:
                    self.refuse_marks(event)
                if stack and type(stack[-1]) is Mapping:
                    if pending is None:
                        pending = node
                        if node in stack[-1]:
                            self.duplicate(stack[-1], node)
                        continue
                    if not node and not event.style:
                        self.empty_value(pending)
                    stack[-1][pending] = node
                    pending = None
                elif stack:
                    if not node and not event.style:
                        self.problems.add(EMPTY_ENTRY, node.place)
                    stack[-1].append(node)  # type: ignore[union-attr]
                elif node:
                    root = node
            elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
                if event.anchor or event.tag:
                    self.refuse_marks(event)
                node = Mapping() if kind is yaml.MappingStartEvent else Listing()
                node.place = self.place(event.start_mark)
                if stack and type(stack[-1]) is Mapping:
                    if pending is None:
                        fail(KEY_NOT_TEXT, node.place)
                    stack[-1][pending] = node
                elif stack:
                    stack[-1].append(node)  # type: ignore[union-attr]
                else:
                    root = node
                stack.append(node)
                pending = None
                if len(stack) > DEEPEST:
                    fail(TOO_DEEP, node.place)
            elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
                stack.pop()
                pending = None
            elif kind is yaml.AliasEvent:
                fail(ANCHOR, self.place(event.start_mark))
            elif kind is yaml.DocumentStartEvent:
                documents += 1
                if documents > 1:
                    fail(SEVERAL_DOCUMENTS, self.place(event.start_mark))
        return root

    def duplicate(self, mapping: Mapping, key: Text) -> None:
        self.problems.add(DUPLICATE_KEY, key.place, key=key, others=[("first here", mapping.key(key).place)])

    def empty_value(self, key: Text) -> None:
        before = self.source.line(key.line)[: key.column - 1].rstrip(" ")
        number = NUMBER_BEFORE.search(before)
        if number is None or not key[:1].isdigit():
            self.problems.add(EMPTY_VALUE, key.place, key=key)
            return
        text = f"{number[1]},{key}"
        instead = text.replace(",", "" if THOUSAND.match(key) else ".")
        self.problems.add(COMMA_IN_NUMBER, key.place, text=text, instead=instead)

    def refuse_marks(self, event: Any) -> None:
        if event.anchor:
            self.problems.add(ANCHOR, self.place(event.start_mark))
        if event.tag:
            self.problems.add(TAG, self.place(event.start_mark))
