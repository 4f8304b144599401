"""What differs under a line of two sheets: operands, parts, members, rows of tables and the way itself, down to the inputs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from dwellcalc.compare.document import Reason
from dwellcalc.compare.looks import MethodLook
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.sheet import KNOWN, NOT_APPLICABLE, NOT_NEEDED, Condition, Gathered, Input, Member, Outcome, Part
from dwellcalc.placed import spaced

ABSENT = "-"
COUNTED, NOT_COUNTED = "counted", "not counted"


@dataclass
class Reasons:
    """Finds what differs between two sheets of a method.

    Attributes:
        first, second: the sheets.
        passed: a collection of which nothing is told under an item, or empty: of two homes, how a load comes to its rating.
    """

    first: MethodLook
    second: MethodLook
    passed: str = ""
    seen: set[tuple[str, str | None]] = field(default_factory=set)

    def told(self, line: str) -> list[Reason]:
        """What differs under a line, each thing once; what that rests on stands below it, deeper."""
        found: dict[tuple[str, str, str, str], Reason] = {}
        for each in self.under(line):
            found.setdefault((each.what, each.cite, each.was, each.now), each)
        return list(found.values())

    def under(self, line: str, item: str | None = None, depth: int = 0) -> list[Reason]:
        """What differs under a line, or under it for an item."""
        if (line, item) in self.seen:
            return []
        self.seen.add((line, item))
        mine, other = self.first.outcome(line, item), self.second.outcome(line, item)
        if mine is None or other is None:
            there = mine or other
            return [] if there is None else list(self._members(_one(mine), _one(other), line, item, depth))
        if NOT_NEEDED in (mine.state, other.state):
            return []
        return [
            *self._way(mine, other, self._cite(line), depth),
            *self._inputs(mine, other, item, depth),
            *self._parts(mine, other, item, depth),
            *self._members(mine, other, line, item, depth),
        ]

    # the way

    def _way(self, mine: Outcome, other: Outcome, cite: str, depth: int) -> Iterator[Reason]:
        if mine.phrases and other.phrases:
            was, now = (", ".join(each.phrase for each in side.phrases) for side in (mine, other))
            if was != now:
                yield Reason("tiers", cite, was, now, depth)
        rows = {each.call: each for each in mine.rows_used}
        for row in other.rows_used:
            before = rows.get(row.call)
            if before is not None and (before.row, before.cell) != (row.row, row.cell):
                was, now = (f"{each.cell} in the row {each.row}" for each in (before, row))
                yield Reason(row.table, row.section, was, now, depth)

    # operands and parts

    def _inputs(self, mine: Outcome, other: Outcome, item: str | None, depth: int) -> Iterator[Reason]:
        whole = _both_have_a_way(mine, other)
        before = {each.name: each for each in _operands(mine, whole=whole)}
        after = {each.name: each for each in _operands(other, whole=whole)}
        for name in dict.fromkeys([*after, *before]):
            was, now = before.get(name), after.get(name)
            line = (now or was or Input("", "", None, "")).line
            if _alike(was, now) or (None in (was, now) and not line and not _other_rule(mine, other)):
                continue  # the same, or another case reads what this one does not
            yield Reason(self._title(line) or spaced(name).replace(".", " "), self._cite(line), _shown(was), _shown(now), depth)
            if line:
                yield from self.under(line, item, depth + 1)

    def _parts(self, mine: Outcome, other: Outcome, item: str | None, depth: int) -> Iterator[Reason]:
        before = {each.id: each for each in mine.parts}
        after = {each.id: each for each in other.parts}
        for line in dict.fromkeys([*after, *before]):
            was, now = before.get(line), after.get(line)
            if _part(was) == _part(now):
                continue
            title = (now or was or Part("", "", None, "", "", False, "")).title
            yield Reason(title, self._cite(line), _part(was), _part(now), depth)
            yield from self.under(line, item, depth + 1)

    # members

    def _members(self, mine: Outcome, other: Outcome, line: str, item: str | None, depth: int) -> Iterator[Reason]:
        whole = _both_have_a_way(mine, other)
        before, after = _members_of(mine, whole=whole), _members_of(other, whole=whole)
        for name in dict.fromkeys([*after, *before]):
            was, now = before.get(name), after.get(name)
            if _member(was) == _member(now):
                continue
            yield Reason(name, "", _member(was), _member(now), depth)
            for column in dict.fromkeys([*_columns(other, line), *_columns(mine, line)]):
                if not self._is_passed(column):
                    yield from self.under(column, name, depth + 1)

    def _is_passed(self, line: str) -> bool:
        look = self.second if line in self.second.lines else self.first
        return bool(self.passed) and line in look.lines and look.lines[line].collection == self.passed

    # titles

    def _title(self, line: str) -> str:
        look = self.second if line in self.second.lines else self.first
        return look.lines[line].title if line in look.lines else ""

    def _cite(self, line: str) -> str:
        look = self.second if line in self.second.lines else self.first
        return look.lines[line].cite if line in look.lines else ""


def _alike(was: Input | None, now: Input | None) -> bool:
    return was is not None and now is not None and (was.state, was.value) == (now.state, now.value)


def _other_rule(mine: Outcome, other: Outcome) -> bool:
    """Whether the two sides have another rule for a line, and not only another case of it."""
    cases = ([each.when for each in side.conditions] for side in (mine, other))
    one, two = cases
    return one != two or (not one and (mine.formula, mine.of) != (other.formula, other.of))


def _one(outcome: Outcome | None) -> Outcome:
    return Outcome(KNOWN) if outcome is None else outcome


def _both_have_a_way(mine: Outcome, other: Outcome) -> bool:
    """Whether a line applies on both sides, so that its operands can be laid side by side."""
    return NOT_APPLICABLE not in (mine.state, other.state)


def _conditions(outcome: Outcome, *, whole: bool) -> Iterator[Condition]:
    if outcome.applies is not None:
        yield outcome.applies
    if whole:
        yield from outcome.conditions


def _operands(outcome: Outcome, *, whole: bool) -> Iterator[Input]:
    """What a line read, in its conditions too, or only to see whether it applies."""
    if whole:
        yield from outcome.inputs
    for condition in _conditions(outcome, whole=whole):
        yield from condition.inputs


def _gathered(outcome: Outcome, *, whole: bool = True) -> Iterator[Gathered]:
    if whole:
        yield from outcome.members
    for condition in _conditions(outcome, whole=whole):
        yield from condition.members


def _members_of(outcome: Outcome, *, whole: bool) -> dict[str, Member]:
    """The members of all that a line gathers, by name; those with a value before those that are only counted."""
    found: dict[str, Member] = {}
    for gathered in _gathered(outcome, whole=whole):
        for member in gathered.items:
            if member.item not in found or found[member.item].value is None:
                found[member.item] = member
    return found


def _columns(outcome: Outcome, line: str) -> list[str]:
    """The ids of the columns that a line gathers, were they lines of its method."""
    method = line.rpartition(".")[0]
    calls = [gathered.call.rstrip(")").rpartition(".") for gathered in _gathered(outcome)]
    return [f"{method}.{column}" for _, dot, column in calls if dot]


def _shown(found: Input | None) -> str:
    return ABSENT if found is None else found.printed or str(found.value)


def _part(found: Part | None) -> str:
    return ABSENT if found is None or found.state != KNOWN else found.printed


def _member(found: Member | None) -> str:
    if found is None:
        return NOT_COUNTED
    if not isinstance(found.value, float):
        shown = COUNTED if found.value is None and found.state == KNOWN else str(found.value or found.state)
    else:
        shown = f"{printed.number(found.value)} {found.unit}".strip()
    return shown if found.weight == 1 else f"{printed.number(found.weight)} x {shown}"
