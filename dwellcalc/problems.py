"""A problem with its place and a hint, the messages that the package can give, and collecting them.

``InputError`` is the only error that a user meets: it carries every problem found, each with file, line and column,
the line shown, what is wrong, where the other side stands, and a hint.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property
from typing import NoReturn

WIDEST_LINE_SHOWN = 160
ALIKE = 0.6
CLOSELY_ALIKE = 0.78


@dataclass(frozen=True)
class Source:
    """A text that was read: its name as the user knows it, and its lines."""

    name: str
    text: str

    def line(self, number: int) -> str:
        """The line with this number, counted from 1, or an empty string."""
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""

    @cached_property
    def lines(self) -> list[str]:
        """Its lines."""
        return self.text.splitlines()


@dataclass(frozen=True)
class Place:
    """Where something stands: source, line and column counted from 1, and how many characters to mark."""

    source: Source
    line: int
    column: int
    width: int = 1

    def __str__(self) -> str:
        return f"{self.source.name}:{self.line}:{self.column}"


@dataclass(frozen=True)
class Message:
    """One message that the package can give; ``key`` names its broken file in tests/bad."""

    key: str
    text: str
    hint: str = ""


_registered: dict[str, Message] = {}


def message(key: str, text: str, hint: str = "") -> Message:
    """Register a message; its key must be new.

    Raises:
        ValueError: if the key is taken.
    """
    if key in _registered:
        raise ValueError(key)
    _registered[key] = Message(key, text, hint)
    return _registered[key]


def registered() -> dict[str, Message]:
    """Every message that has been registered by the modules imported so far."""
    return dict(_registered)


@dataclass(frozen=True)
class Problem:
    """A message with its words filled in, its place, and where the other sides stand."""

    message: Message
    words: dict[str, str]
    place: Place | None = None
    others: tuple[tuple[str, Place], ...] = ()
    nearest: str = ""

    @property
    def text(self) -> str:
        """What is wrong, in plain words."""
        return self.message.text.format_map(self.words)

    @property
    def hint(self) -> str:
        """What to do about it, or an empty string."""
        if self.nearest:
            return f'did you mean "{self.nearest}"?'
        return self.message.hint.format_map(self.words)

    def __str__(self) -> str:
        if self.place is None:
            lines = [self.text]
        else:
            lines = [f"{self.place}: {self.text}", *_shown(self.place)]
        for label, place in self.others:
            lines.append(f"  {label}: {place}")
            lines += _shown(place)
        if self.hint:
            lines.append(f"  hint: {self.hint}")
        return "\n".join(lines)


def _shown(place: Place) -> list[str]:
    line = place.source.line(place.line)
    if not line.strip():
        return []
    start = max(0, place.column - WIDEST_LINE_SHOWN // 2) if len(line) > WIDEST_LINE_SHOWN else 0
    shown = line[start : start + WIDEST_LINE_SHOWN].replace("\t", " ")
    number = f"{place.line:>5} | "
    width = max(1, min(place.width, len(shown) - (place.column - 1 - start)))
    return [f"{number}{shown}", " " * (len(number) - 2) + "| " + " " * (place.column - 1 - start) + "^" * width]


class InputError(Exception):
    """Something that the user gave cannot be used; ``problems`` says what, all at once."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = list(problems)
        super().__init__("\n\n".join(str(problem) for problem in self.problems))


@dataclass
class Problems:
    """Collects problems, so that all of them are told at once."""

    found: list[Problem] = field(default_factory=list)
    seen: set[tuple[str, str]] = field(default_factory=set, repr=False)

    def add(
        self,
        message: Message,
        place: Place | None = None,
        *,
        others: Iterable[tuple[str, Place]] = (),
        nearest: str = "",
        **words: object,
    ) -> None:
        """Note a problem; ``words`` fill the braces of the message."""
        filled = {key: str(value) for key, value in words.items()}
        problem = Problem(message, filled, place, tuple(others), nearest)
        told = (str(place), problem.text)
        if told not in self.seen:
            self.seen.add(told)
            self.found.append(problem)

    def raise_if_any(self) -> None:
        """Raise what was found.

        Raises:
            InputError: if anything was added.
        """
        if self.found:
            raise InputError(self.found)


def fail(message: Message, place: Place | None = None, *, nearest: str = "", **words: object) -> NoReturn:
    """Raise one problem at once.

    Raises:
        InputError: always.
    """
    problems = Problems()
    problems.add(message, place, others=(), nearest=nearest, **words)
    raise InputError(problems.found)


def nearest_name(name: str, names: Iterable[str], *, alike: float = ALIKE) -> str:
    """The name most like the one that was written, or an empty string.

    Args:
        name: what was written.
        names: the names that there are.
        alike: how alike two names must be, from 0 to 1; more where a wrong suggestion would do harm.
    """
    close = difflib.get_close_matches(name, sorted(set(names)), n=1, cutoff=alike)
    return close[0] if close else ""
