"""From the errors of the models to problems in a reader's words, each with place and path in the file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from dwellcalc.placed import Listing, Text, described, place_of, spaced
from dwellcalc.placed import Mapping as KeysWithValues
from dwellcalc.problems import Message, Place, Problem, Problems, nearest_name

from . import messages
from .refusal import Refusal

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
    """

    root: KeysWithValues
    keys: Mapping[tuple[str, ...], tuple[str, ...]]
    problems: Problems

    def translate(self, error: ValidationError) -> None:
        """Note every problem."""
        for each in error.errors(include_url=False, include_input=False):
            location = each["loc"]
            refusal = each.get("ctx", {}).get("error")
            if isinstance(refusal, Refusal):
                self.refusal(refusal, location)
            elif each["type"] == "missing":
                self.problems.add(messages.LACKS, self.owner(location).place, path=self.path(location))
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
            path=self.path(location),
            **refusal.words,
        )

    def unknown_key(self, location: Location) -> None:
        """A key that may not stand where it stands."""
        *above, key = location
        known = [spaced(each) for each in self.keys[tuple(step for step in above if isinstance(step, str))]]
        nearest, shown = nearest_name(spaced(str(key)), known), ", ".join(known)
        path, place = self.path(location), self.of_key(location)
        self.problems.add(messages.KEY, place, nearest=nearest, path=path, known=shown)

    def wrong_form(self, kind: str, location: Location) -> None:
        """A text, a list or keys with values where another of them is asked for."""
        node = self.node(location)
        self.problems.add(WRONG_FORM[kind], place_of(node), path=self.path(location), found=described(node))

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
