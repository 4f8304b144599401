"""From the errors of the models to problems in a reader's words, each with place and path in the file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from pydantic import ValidationError

from dwellcalc.placed import Listing, Text, described, place_of, spaced
from dwellcalc.placed import Mapping as KeysWithValues
from dwellcalc.problems import Message, Place, Problem, Problems, nearest_name

from . import messages
from .refusal import Refusal
from .schema_texts import MEANINGS

STEP = " > "
AFTER_KEYWORD = "_"  # what a model's field bears after a key that it cannot be called by; seen where the key is not there
Location = tuple[int | str, ...]

WRONG_FORM: dict[str, Message] = {
    "model_type": messages.WANT_MAPPING,
    "model_attributes_type": messages.WANT_MAPPING,
    "list_type": messages.WANT_LIST,
    "too_short": messages.EMPTY_LIST,
}


@dataclass
class Translation:
    """Turns a validation error into problems.

    Attributes:
        root: the nodes that were validated.
        keys: for each path of keys, those that may stand there.
        problems: where they are noted.
        other_keys: what people write in place of keys, by these.
        words: of keys that must be there and take a word: which.
    """

    root: KeysWithValues
    keys: Mapping[tuple[str, ...], tuple[str, ...]]
    problems: Problems
    other_keys: Mapping[str, Sequence[str]] = field(default_factory=dict)
    words: Mapping[str, Sequence[str]] = field(default_factory=dict)

    def translate(self, error: ValidationError) -> None:
        """Note every problem."""
        for each in error.errors(include_url=False, include_input=False):
            location = each["loc"]
            refusal = each.get("ctx", {}).get("error")
            if isinstance(refusal, Refusal):
                self.refusal(refusal, location)
            elif each["type"] == "missing":
                self.lacks(location)
            elif each["type"] == "extra_forbidden":
                self.unknown_key(location)
            else:
                self.wrong_form(each["type"], location)

    def refusal(self, refusal: Refusal, location: Location) -> None:
        """What one of our own checks says."""
        self.problems.add(
            refusal.message,
            self.of_key(location) if refusal.of_key else refusal.place,
            others=refusal.others,
            nearest=refusal.nearest,
            **{"known": "", "instead": "", **refusal.words, "path": self.path(location)},
        )

    def lacks(self, location: Location) -> None:
        """A key that must be there, with what it means."""
        key = str(location[-1]).removesuffix(AFTER_KEYWORD)
        below = self.keys.get((*_keys_of(location[:-1]), key), ())
        meaning = MEANINGS.get(key, "")
        if self.words.get(key):
            meaning = f"one of: {', '.join(self.words[key])}"
        elif meaning and below:
            meaning = f"{meaning}; its keys are {', '.join(map(spaced, below))}"
        self.problems.add(messages.LACKS, self.owner(location).place, path=self.path(location), meaning=meaning)

    def unknown_key(self, location: Location) -> None:
        """A key that may not stand where it stands."""
        *above, last = location
        key, path, place = spaced(str(last)), self.path(location), self.of_key(location)
        known = [spaced(each) for each in self.keys[_keys_of(above)]]
        nearest = self.meant(key.casefold(), known) or nearest_name(key, known)
        places = [] if nearest else self.places(str(last))
        if places:
            self.problems.add(messages.KEY_ELSEWHERE, place, path=path, places=" or ".join(places))
        else:
            self.problems.add(messages.KEY, place, nearest=nearest, path=path, known=", ".join(known))

    def meant(self, key: str, known: Sequence[str]) -> str:
        """The key of this place that people mean by another name, or an empty string."""
        return next((meant for meant, names in self.other_keys.items() if meant in known and key in names), "")

    def places(self, key: str) -> list[str]:
        """Where a key may stand."""
        paths = [path for path, keys in self.keys.items() if key in keys]
        paths = [path for path in paths if (*path, key) in self.keys] or paths
        return list(dict.fromkeys(f"`{spaced(path[-1])}`" if path else "the first column" for path in paths))

    def wrong_form(self, kind: str, location: Location) -> None:
        """A text, a list or keys with values where another of them is asked for."""
        node = self.node(location)
        keys = self.keys.get(_keys_of(location), ())
        known = f"its keys stand below it, two blanks further in, or in braces: {', '.join(map(spaced, keys))}" if keys else ""
        instead = f"write it in brackets: [{node}]" if isinstance(node, Text) else "begin each entry with a dash and a blank"
        words = {"path": self.path(location), "found": described(node), "known": known, "instead": instead}
        self.problems.add(WRONG_FORM[kind], place_of(node), others=(), nearest="", **words)

    def node(self, location: Iterable[int | str]) -> Any:
        """The node at a location."""
        node: Any = self.root
        for step in location:
            node = node[step]
        return node

    def owner(self, location: Location) -> Any:
        """The node that holds a location."""
        return self.node(location[:-1])

    def of_key(self, location: Location) -> Place:
        """Where the key of a location stands."""
        return place_of(self.owner(location).key(str(location[-1])))

    def path(self, location: Location) -> str:
        """The path in the file: keys, and the names of the items of lists."""
        node: Any = self.root
        steps = []
        for step in location:
            if isinstance(node, Listing) and isinstance(step, int):
                node = node[step]
                steps.append(item_name(node, step))
                continue
            node = node.get(Text(step)) if isinstance(node, KeysWithValues) else None
            steps.append(str(step) if node is not None else str(step).removesuffix(AFTER_KEYWORD))
        return STEP.join(steps)


def _keys_of(location: Iterable[int | str]) -> tuple[str, ...]:
    """The keys of a location, without positions in lists."""
    return tuple(step for step in location if isinstance(step, str))


def item_name(node: object, position: int) -> str:
    """What an item of a list is called: its name, itself, or which entry it is."""
    if isinstance(node, Text) and node:
        return str(node)
    name = node.get(Text("name")) if isinstance(node, KeysWithValues) else None
    return str(name) if isinstance(name, Text) and name else f"entry {position + 1}"


def in_order(problems: Problems) -> list[Problem]:
    """The problems, in the order of their places in the file."""
    return sorted(problems.found, key=_order)


def _order(problem: Problem) -> tuple[int, int]:
    return (problem.place.line, problem.place.column) if problem.place else (0, 0)
