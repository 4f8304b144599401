"""The sheet: what an evaluation returns, line by line. These types are the JSON that the package writes.

A line prints all that is needed to compute it again: its formula, the unrounded operands by name, the members of what
it gathers, and the table rows that it rests on.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields, is_dataclass
from typing import Any

Json = Any

KNOWN, NOT_APPLICABLE, UNKNOWN, NOT_NEEDED = "known", "not applicable", "unknown", "not needed"  # states of an outcome


@dataclass(slots=True)
class Input:
    """An operand as the formula names it; ``position`` is the place of a value on its scale."""

    name: str
    state: str
    value: Json
    unit: str
    printed: str = ""
    line: str = ""
    position: int | None = None


@dataclass(slots=True)
class Member:
    """An item that was gathered: its value (none for a count) and its weight."""

    item: str
    state: str
    weight: float
    value: Json = None
    unit: str = ""


@dataclass(slots=True)
class Gathered:
    """A gathering call with its members; while it is undecided whether an item is one, the whole is unknown."""

    call: str
    items: list[Member] = field(default_factory=list)
    undecided: list[str] = field(default_factory=list)


@dataclass(slots=True)
class RowUsed:
    """A table row that a value rests on."""

    call: str
    function: str
    table: str
    section: str
    keys: list[Json]
    row: str
    cell: str
    key_name: str
    value: Json
    unit: str
    factor: float = 1.0
    needed: float | None = None
    cell_amount: float | None = None
    before: float | None = None
    keys_printed: str = ""


@dataclass(slots=True)
class Worked:
    """A formula that was evaluated, with everything it read."""

    formula: str = ""
    with_numbers: str = ""
    inputs: list[Input] = field(default_factory=list)
    members: list[Gathered] = field(default_factory=list)
    rows_used: list[RowUsed] = field(default_factory=list)


@dataclass(slots=True)
class Condition:
    """A condition and its outcome; ``when`` is nothing for `otherwise`."""

    when: str | None
    outcome: bool | None
    inputs: list[Input] = field(default_factory=list)
    members: list[Gathered] = field(default_factory=list)
    rows_used: list[RowUsed] = field(default_factory=list)


@dataclass(slots=True)
class Tier:
    """A tier with the part of the quantity that falls in it, and what it gives."""

    phrase: str
    amount: float
    unit: str
    shares: bool
    portion: str
    step: float
    rounds: str
    taken: float
    value: float


@dataclass(slots=True)
class Part:
    """A part of a combining line: its value, whether it was taken, and why or why not.

    ``position`` is the place of a value on its scale; ``printed`` is the value in print.
    """

    id: str
    title: str
    value: Json
    unit: str
    state: str
    taken: bool
    why: str
    position: int | None = None
    printed: str = ""


@dataclass(slots=True)
class Outcome:
    """One evaluation of a line: for the line itself, or for one item of a column."""

    state: str
    value: Json = None
    unit: str = ""
    printed: str = ""
    item: str | None = None
    number: float = 1.0
    cite: str = ""
    applies: Condition | None = None
    formula: str = ""
    with_numbers: str = ""
    inputs: list[Input] = field(default_factory=list)
    members: list[Gathered] = field(default_factory=list)
    rows_used: list[RowUsed] = field(default_factory=list)
    conditions: list[Condition] = field(default_factory=list)
    case: int | None = None
    of: str = ""
    quantity: float | None = None
    quantity_unit: str = ""
    phrases: list[Tier] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    missing: list[str] = field(default_factory=list)
    refusals: list[str] = field(default_factory=list)


@dataclass(slots=True)
class SheetLine:
    """A line of a sheet: one outcome, or one for each item of its column.

    ``amended`` is by what authority local amendments changed it, or what it names; ``status`` is policy where the text is
    silent and the project made a choice.
    """

    id: str
    address: str
    title: str
    cite: str
    way: str
    working: bool
    each: str | None
    collection: str
    kind: str
    outcome: Outcome | None = None
    items: list[Outcome] = field(default_factory=list)
    note: str = ""
    interpretation: list[str] = field(default_factory=list)
    origin: list[str] = field(default_factory=list)
    amended: list[str] = field(default_factory=list)
    members: list[str] = field(default_factory=list)
    source: str = ""
    confidence: str = ""
    status: str = ""

    @property
    def holds(self) -> bool:
        """Whether it is a condition that is met, so that a note on what would mend it says nothing."""
        found = self.items if self.outcome is None else [self.outcome]
        return bool(found) and all(each.value is True for each in found)


@dataclass(slots=True)
class LeftOutEntry:
    """A group that the method leaves out: what is in it, the section and the reason."""

    group: str
    items: list[str]
    cite: str
    because: str


@dataclass(slots=True)
class UseCondition:
    """A condition of use: what it asks, its outcome (yes, no, or on condition), and what holds where it is not met."""

    asks: str
    outcome: str
    cite: str
    if_not: str
    missing: list[str] = field(default_factory=list)


@dataclass(slots=True)
class MethodSheet:
    """A method's sheet for one supply."""

    id: str
    title: str
    cite: str
    may_be_used: str
    conditions: list[UseCondition]
    lines: list[SheetLine]
    left_out: list[LeftOutEntry]
    results: dict[str, Outcome]
    code_values_not_verified: list[dict[str, str]] = field(default_factory=list)
    runs: list[MethodSheet] = field(default_factory=list)  # of other methods on a part of the home, which its lines read


def as_json(found: Any) -> Json:
    """Plain data of a result type; empty fields are left out, and a line's single outcome stands in the line itself."""
    if isinstance(found, dict):
        return {name: as_json(each) for name, each in found.items()}
    if isinstance(found, (list, tuple)):
        return [as_json(each) for each in found]
    if isinstance(found, (set, frozenset)):
        return sorted(found)
    if not is_dataclass(found) or isinstance(found, type):
        return found
    made = {each.name: as_json(getattr(found, each.name)) for each in fields(found)}
    if isinstance(found, SheetLine):
        outcome = made.pop("outcome")
        if outcome is not None:
            made = {**{name: each for name, each in outcome.items() if name != "item"}, **_named(made)}
    kept = _kept(found)
    return {name: each for name, each in made.items() if name in kept or each not in (None, "", [], {})}


def _kept(found: Any) -> set[str]:
    """The fields that are printed even where they are empty."""
    kept = {"value", "when", "outcome", "each", "taken", "weight", "amount", "shares", "working", "rounds", "unit"}
    if isinstance(found, Gathered) or (isinstance(found, SheetLine) and found.each is not None):
        kept.add("items")
    return kept


def _named(made: dict[str, Json]) -> dict[str, Json]:
    """The line's own fields; its citation stands behind that of the case that was taken."""
    named = {name: each for name, each in made.items() if name != "members"}
    if made["members"]:
        named["group_members"] = made["members"]
    return named
