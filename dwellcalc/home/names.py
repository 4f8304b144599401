"""Finding what a name in a home file means, however it is spaced; the nearest is offered."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from typing import Generic, TypeVar

from dwellcalc.glossary import LoadKind
from dwellcalc.placed import spaced
from dwellcalc.problems import CLOSELY_ALIKE as ALIKE
from dwellcalc.problems import nearest_name

Meant = TypeVar("Meant")

TURNS_ROUND = ("un", "not", "non")  # a name that begins so means the contrary; it is never offered for the other
IN_SHORT = re.compile(
    r"(?P<single>(?:1|one)(?:ph(?:ase)?|ø))|(?P<three>(?:3|three)(?:ph(?:ase)?|ø))|(?P<wire>(?<=\d)w(?!ire|ye))"
)
PHASE = "phase"  # of a supply system up to which its name may be told, where it is the only one so begun
IN_FULL = {"single": "singlephase", "three": "threephase", "wire": "wire"}
UNKNOWN, NOT_SEEN = "unknown", "not seen"
TO_BE_CHOSEN = "to be chosen"  # of what is yet to be installed


@cache  # the words of an answer are held against each word of the lists, over and over
def plain(text: str) -> str:
    """A name without case, hyphens, underscores: ``EV-Charging_equipment`` is ``ev charging equipment``."""
    return " ".join(spaced(text.casefold()).replace("-", " ").split())


def closed(text: str) -> str:
    """A name without any spacing or commas: for supply systems, which are written in many ways, such as 1-ph or 3W."""
    shape = plain(text.replace(",", " ")).replace(" ", "")
    return IN_SHORT.sub(lambda found: next(word for name, word in IN_FULL.items() if found[name]), shape)


def says_unknown(text: str) -> bool:
    """Whether the text says that the value is not known."""
    return plain(text) in (UNKNOWN, NOT_SEEN, TO_BE_CHOSEN)


def shown_kind(kind: LoadKind) -> str:
    """A kind of load as people write it: with the capitals of an equal other name, if it has one."""
    name = spaced(kind.name)
    return next((also for also in kind.also if plain(also) == name), name)


class Names(Generic[Meant]):
    """Names with what each means, found however they are written.

    Args:
        meant: name -> what it means; the name is offered as it stands here.
        closed_up: spacing does not matter either.
    """

    def __init__(self, meant: Iterable[tuple[str, Meant]], closed_up: bool = False) -> None:
        self._shape = closed if closed_up else plain
        self._meant: dict[str, tuple[str, Meant]] = {}
        for name, what in meant:
            self._meant.setdefault(self._shape(name), (name, what))

    def find(self, text: str) -> Meant | None:
        """What a name means, or nothing."""
        shape = self._shape(text)
        found = self._meant.get(shape)
        begun = [
            each for name, each in self._meant.items() if self._shape is closed and PHASE in shape and name.startswith(shape)
        ]
        return found[1] if found is not None else begun[0][1] if len(begun) == 1 else None

    def nearest(self, text: str) -> str:
        """The name most like the one that was written, as people write it, or an empty string."""
        close = nearest_name(self._shape(text), self._meant, alike=ALIKE)
        turned = close.startswith(TURNS_ROUND) != self._shape(text).startswith(TURNS_ROUND)
        return self._meant[close][0] if close and not turned else ""

    def known(self) -> str:
        """All names, for a hint."""
        return ", ".join(name for name, _ in self._meant.values())


def words_of(words: Iterable[str]) -> Names[str]:
    """The words of a choice or a scale, shown with spaces."""
    return Names((spaced(word), word) for word in words)


def themselves(names: Iterable[str]) -> Names[str]:
    """Names that stand for themselves, such as those of loads."""
    return Names((name, name) for name in names)
