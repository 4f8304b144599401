"""The parts of a file that is being written, each with the question that it is from, and their lines."""

from __future__ import annotations

import json
import re
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from .answers import Slot

PLAIN = re.compile(r"[A-Za-z0-9.(/](?:[A-Za-z0-9 .()/'+*%°²;_-]|:(?=\S))*(?<! )", re.ASCII)
OPEN_MARK = re.compile(r"<[A-Za-z0-9 .()/'+;_-]+>")
OFF, STEP = "# ", "  "
EVIDENCE = "evidence"
DASH = "- "


@dataclass(frozen=True)
class Line:
    """A line of the file, and the question that it is from."""

    text: str
    slot: Slot | None = None


class AsWritten(str):
    """A value that stands in the file as it is, such as keys with their texts."""


@dataclass(frozen=True)
class Entry:
    """A key with its text, or with a list of texts in brackets; ``off`` where it stands in the file as a comment only."""

    key: str
    value: str | tuple[str, ...]
    slot: Slot | None = None
    notes: tuple[str, ...] = ()
    off: bool = False


@dataclass(frozen=True)
class Item:
    """An item of a list: its keys, in one line where all are from one question."""

    entries: tuple[Entry, ...]
    notes: tuple[str, ...] = ()
    off: bool = False

    @property
    def name(self) -> str:
        """What it is called."""
        return str(self.entries[0].value)


@dataclass
class Part:
    """A part of the file under a key: entries, items and parts in their order."""

    key: str
    notes: tuple[str, ...] = ()
    holds: list[Entry | Item | Part] = field(default_factory=list)

    @property
    def off(self) -> bool:
        """Whether all of it stands in the file as comments only."""
        return all(each.off for each in self.holds)


def quoted(text: str) -> str:
    """A text as it stands in the file, inside braces or not."""
    if PLAIN.fullmatch(text) or OPEN_MARK.fullmatch(text):
        return text
    return json.dumps(text, ensure_ascii=not text.isprintable())


def explained(explains: object, name: str) -> tuple[str, ...]:
    """What stands above a part of the file."""
    assert isinstance(explains, dict)
    return (explains[name],) if explains.get(name) else ()


def comment(notes: Sequence[str], indent: str, width: int, slot: Slot | None = None) -> Iterator[Line]:
    """Notes as comments, broken at a width."""
    for note in notes:
        for text in textwrap.wrap(note, width - len(indent), break_long_words=False, break_on_hyphens=False):
            yield Line(f"{indent}{OFF}{text}", slot)


def lines_of(part: Part, indent: str, width: int) -> Iterator[Line]:
    """The lines of a part."""
    mark = OFF if part.off else ""
    yield from comment(part.notes, indent, width)
    yield Line(f"{indent}{mark}{part.key}:")
    yield from lines_in(part.holds, indent + STEP, width, mark)


def lines_in(holds: Sequence[Entry | Item | Part], indent: str, width: int, mark: str = "") -> Iterator[Line]:
    """The lines of what a part holds."""
    for each in holds:
        if isinstance(each, Part):
            yield from lines_of(each, indent, width)
        elif isinstance(each, Entry):
            yield from comment(each.notes, indent, width, each.slot)
            yield Line(f"{indent}{OFF if each.off else ''}{entry_line(each)}", each.slot)
        else:
            yield from _item(each, indent, width)


def entry_line(entry: Entry) -> str:
    """A key with its text, as it stands in the file."""
    return f"{quoted(entry.key)}: {_value(entry.value)}"


def _value(value: str | tuple[str, ...]) -> str:
    if isinstance(value, AsWritten):
        return value
    return quoted(value) if isinstance(value, str) else f"[{', '.join(map(quoted, value))}]"


def _item(item: Item, indent: str, width: int) -> Iterator[Line]:
    slots = {entry.slot for entry in item.entries}
    first = item.entries[0].slot
    mark = OFF if item.off else ""
    yield from comment(item.notes, indent, width, first)
    if len(slots) == 1 and not any(entry.off or entry.notes for entry in item.entries):
        yield Line(f"{indent}{mark}{DASH}{{{', '.join(map(entry_line, item.entries))}}}", first)
        return
    for at, entry in enumerate(item.entries):
        yield from comment(entry.notes, indent + STEP, width, entry.slot)
        off = OFF if entry.off or item.off else ""
        yield Line(f"{indent}{off}{STEP if at else DASH}{entry_line(entry)}", entry.slot)
