"""The document that a comparison returns; with its types it is the JSON that the package writes.

Differences are exact fractions of amperes of the supply; in JSON they are floats.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from dwellcalc.evaluate.sheet import Json, as_json

FORMAT = 1
EDITIONS, METHODS, INTERPRETATIONS, HOMES = "editions", "methods", "interpretations", "homes"


@dataclass(slots=True)
class Reason:
    """Something under a line that differs: what it is, its section, and both values in print; ``depth`` counts from 0."""

    what: str
    cite: str
    was: str
    now: str
    depth: int


@dataclass(slots=True)
class LineShare:
    """The part of a difference that belongs to a line [A], with both values in print and what under it differs."""

    line: str
    title: str
    cite: str
    amperes: Fraction
    was: str
    now: str
    because: list[Reason] = field(default_factory=list)


@dataclass(slots=True)
class SetShare:
    """The part of a difference that belongs to a set of changes [A], by line.

    Attributes:
        document: the edition or amendment that the set is of.
        title: its title; those of several where they could be calculated only together.
        cites: the sections that it rests on.
        removed: whether it is the loss of the set that makes the difference.
        amperes: how much more the second side is by it.
        after: what the method gives after it [A].
        lines: the same by line.
    """

    document: str
    title: str
    cites: list[str]
    removed: bool
    amperes: Fraction
    after: float
    lines: list[LineShare]


@dataclass(slots=True)
class Turn:
    """What changes its word: the verdict, the basis, whether a method may be used or can be calculated, and the set that makes it."""

    what: str
    method: str
    was: str
    now: str
    document: str
    title: str
    cites: list[str]
    removed: bool
    because: list[str]


@dataclass(slots=True)
class MethodAt:
    """What a method gives for a supply: load [VA] and [A], whether it may be used, whether it is the basis.

    ``why`` says why it may not be used or cannot be calculated.
    """

    method: str
    title: str
    total: float | None
    amperes: float | None
    may_be_used: str
    basis: bool
    why: list[str]


@dataclass(slots=True)
class SupplyAt:
    """A supply under one rule set: the verdict, the basis, and what must be carried by it [A]; each method."""

    under: str
    verdict: str
    basis: str
    amperes_required: float | None
    methods: list[MethodAt]


@dataclass(slots=True)
class MethodDifference:
    """How much more a method gives on the second side [A], none where it cannot be told, and what makes it.

    Attributes:
        sets: by set of changes, largest first, where that is what was compared.
        unchanged: how many sets change nothing.
        lines: by line, where sets were not compared.
        why: why it cannot be told.
    """

    method: str
    title: str
    amperes: Fraction | None
    sets: list[SetShare] = field(default_factory=list)
    unchanged: int = 0
    lines: list[LineShare] = field(default_factory=list)
    why: list[str] = field(default_factory=list)


@dataclass(slots=True)
class Difference:
    """From one side to another: the difference by each method, and what changes its word on the way."""

    first: str
    second: str
    methods: list[MethodDifference]
    turns: list[Turn] = field(default_factory=list)


@dataclass(slots=True)
class OptionAt:
    """A method under one option of an interpretation: its load [A], how much more than under the option taken, by line."""

    option: str
    says: str
    taken: bool
    amperes: float | None
    difference: Fraction | None
    lines: list[LineShare]
    why: list[str]


@dataclass(slots=True)
class ReadingByMethod:
    """The options of an interpretation by one method."""

    method: str
    title: str
    options: list[OptionAt]


@dataclass(slots=True)
class Reading:
    """An interpretation that a supply's result rests on; ``answers`` are basis, amperes and verdict of the supply by option."""

    address: str
    question: str
    cite: str
    chosen_by: str
    methods: list[ReadingByMethod]
    answers: list[dict[str, Json]]


@dataclass(slots=True)
class SupplyComparison:
    """All that is compared of one supply.

    Attributes:
        kind: `service`, or what kind of feeder it is.
        at: the supply under each rule set, or of each home.
        differences: from each side to the next; of methods, from the basis to each other one.
        readings: the interpretations under which something differs.
        same: the questions of those under which nothing does.
    """

    id: str
    title: str
    kind: str
    at: list[SupplyAt] = field(default_factory=list)
    differences: list[Difference] = field(default_factory=list)
    readings: list[Reading] = field(default_factory=list)
    same: list[str] = field(default_factory=list)


@dataclass(slots=True)
class FactDifference:
    """A fact that two homes do not share; a side is empty where it does not have it."""

    of: str
    item: str
    name: str
    first: str
    second: str


@dataclass(slots=True)
class Comparison:
    """Everything that was compared.

    Attributes:
        what: editions, methods, interpretations or homes.
        homes: the title of each home, with the digest of its facts.
        rule_sets: id, title and digest of each rule set.
        held: what was taken to be the same on all sides, in words.
        supplies: by supply.
        only: what one home alone has, and what differs between them.
        left_over: supplies that only one of the homes has.
    """

    engine_version: str
    date: str
    what: str
    homes: list[dict[str, str]]
    rule_sets: list[dict[str, str]]
    held: list[str]
    supplies: list[SupplyComparison]
    cautions: list[str]
    only: list[FactDifference] = field(default_factory=list)
    left_over: list[str] = field(default_factory=list)
    format: int = FORMAT

    def json(self) -> str:
        """The document as JSON text."""
        made: dict[str, Any] = {"format": self.format}
        made.update(as_json(self))
        return json.dumps(made, indent=1, ensure_ascii=False, default=float)
