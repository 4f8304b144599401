"""Why a line of a home with more in it is less than before: what changed in kind, found by comparing both traces.

A line that fell has a reason where it took another case or table row, no longer applies, lost a member to a threshold,
averages other members, or where every line below it that fell has one in turn. Else it fell without reason.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from dwellcalc.evaluate.sheet import KNOWN, MethodSheet, Outcome

TOLERANCE = 1e-9
COLUMN = re.compile(r"\w+\((?:\w+\.)??(?:(\w+)\.)?(\w+)\)")  # of a group: a column of this method, or of the one named
Key = tuple[str, str]


def fell(before: Any, after: Any) -> bool:
    """Whether a number became less, by more than rounding."""
    numbers = isinstance(before, float) and isinstance(after, float)
    return numbers and after < before - TOLERANCE * max(1.0, abs(before))


def outcomes_by_line(sheet: MethodSheet) -> dict[Key, Outcome]:
    """Every outcome of a sheet by the line's id and the item's name, which is empty for a line without items."""
    found = {}
    for line in sheet.lines:
        for outcome in [line.outcome] if line.outcome is not None else line.items:
            found[line.id, (outcome.item or "") if line.items else ""] = outcome
    return found


class Falls:
    """The falls from one sheet of a method to another."""

    def __init__(self, before: MethodSheet, after: MethodSheet) -> None:
        self.before, self.after = outcomes_by_line(before), outcomes_by_line(after)

    def reasons(self, line: str, item: str = "") -> set[str]:
        """What changed in kind where a line fell; nothing where some of the fall has no reason."""
        key = (line, item)
        if key not in self.before or key not in self.after:
            return set()
        old, new = self.before[key], self.after[key]
        below = [self.reasons(*each) for each in self.fallen(line, item, old, new)]
        if not all(below):
            return set()
        return set(self.own(old, new)).union(*below)

    def of_column(self, line: str, column: re.Match[str]) -> str:
        """The id of the line that a column is: ``group.column``, or ``group.method.column``."""
        own = f"{line.partition('.')[0]}.{column[2]}"
        named = f"{column[1]}.{column[2]}"
        return named if any(each == named for each, _ in self.before) else own

    def own(self, old: Outcome, new: Outcome) -> Iterator[str]:
        """What changed in kind in the line itself."""
        if old.case != new.case:
            yield "case"
        if old.applies is not None and new.applies is not None and old.applies.outcome and not new.applies.outcome:
            yield "applies no more"
        rows = {used.call: (used.row, used.keys) for used in new.rows_used}
        if any(rows.get(used.call) != (used.row, used.keys) for used in old.rows_used):
            yield "table row"
        now = {gathered.call: {each.item: each.weight for each in gathered.items} for gathered in new.members}
        for gathered in old.members:
            then = {each.item: each.weight for each in gathered.items}
            if not set(then) <= set(now.get(gathered.call, {})):
                yield "threshold of a group"
            elif gathered.call.startswith("mean(") and then != now[gathered.call]:
                yield "average"
        states = {part.id: part.state for part in old.parts}
        if any(part.state == KNOWN != states[part.id] and part.taken and part.why.endswith("least") for part in new.parts):
            yield "alternative"

    def fallen(self, line: str, item: str, old: Outcome, new: Outcome) -> Iterator[Key]:
        """The lines that the line reads and that fell; what is no line is named too, and has no outcomes."""
        inputs = {each.name: each.value for each in new.inputs}
        for each in old.inputs:
            if fell(each.value, inputs.get(each.name)):
                yield each.line, item if (each.line, item) in self.before else ""
        members = {(gathered.call, each.item): each.value for gathered in new.members for each in gathered.items}
        for gathered in old.members:
            column = COLUMN.fullmatch(gathered.call)
            for member in gathered.items:
                if column and fell(member.value, members.get((gathered.call, member.item))):
                    yield self.of_column(line, column), member.item
        parts = {part.id: part for part in new.parts}
        for part in old.parts:
            there = parts[part.id]
            if fell(part.value, there.value) or (part.state == KNOWN != there.state):
                yield part.id, item if (part.id, item) in self.before else ""
