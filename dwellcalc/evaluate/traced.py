"""One home at a time: values by demand, item by item, with all that the trace needs kept on the way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from dwellcalc.evaluate.gathering import UNSET, Value
from dwellcalc.evaluate.plan import Plan
from dwellcalc.facts import Facts, Unknown
from dwellcalc.language import tree
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tables import Row
from dwellcalc.language.tree import HOME, CheckedGroup, CheckedLine, CheckedRun


def plan_of(rules: RuleSet) -> Plan:
    """The plan of a rule set, made once and kept with it."""
    found = rules.kept.get(Plan.__name__)
    if found is None:
        found = rules.kept[Plan.__name__] = Plan(rules)
    assert isinstance(found, Plan)
    return found


@dataclass(slots=True)
class UsedRow:
    """A table row that a value rests on."""

    node: tree.Lookup | tree.FirstRow
    row: Row
    column: int
    keys: list[Value]


@dataclass(slots=True)
class Members:
    """The items of a group in file order, and those whose membership could not be decided."""

    items: list[int]
    undecided: dict[int, Unknown] | None = None


class Cells(dict[int, list[Value]]):
    """The values of lines by position, one for each item of a line's level; those of a line are made when first asked for."""

    __slots__ = ("levels", "sizes")

    def __init__(self, levels: Sequence[str], sizes: Mapping[str, int]) -> None:
        super().__init__()
        self.levels = levels
        self.sizes = sizes

    def __missing__(self, position: int) -> list[Value]:
        found = self[position] = [UNSET] * self.sizes[self.levels[position]]
        return found


class Evaluation:
    """An evaluation of one supply's facts; values are computed when they are first asked for, and kept.

    Args:
        plan: the plan of the rule set.
        facts: the facts of the home and the supply.
        choices: interpretations by address; those not named take their default.
        given: what the assessment hands over, by name.
        keep: for a run, which items of each collection are kept.

    Attributes:
        cells: the values, by line position and item.
        of: the run that this evaluates, if any; ``within`` is the id of its sheet.
        cases: which case was taken, by (line position, item).
        rows: the table rows used, by (line position, item).
        read_choices: the addresses of the interpretations that were read.
    """

    def __init__(
        self,
        plan: Plan,
        facts: Facts,
        choices: Mapping[str, str] | None = None,
        given: Mapping[str, Value] | None = None,
        keep: dict[str, set[int]] | None = None,
    ) -> None:
        self.plan = plan
        self.facts = facts
        self.objects = facts.objects
        self.columns = [facts.collections[level].fields[field] for level, field in plan.columns]
        self.choices = _defaults(plan.rules) | dict(facts.chosen) | dict(choices or {})
        self.given = dict(given or {})
        self.keep = keep or {}
        self.of: CheckedRun | None = None
        self.within = ""
        sizes = {name: len(items) for name, items in facts.collections.items()}
        sizes[HOME] = 1
        self.sizes = sizes
        self.cells = Cells(plan.levels, sizes)
        self.cases: dict[tuple[int, int], int] = {}
        self.rows: dict[tuple[int, int], list[UsedRow]] = {}
        self.members: list[Members | None] = [None] * len(plan.groups)
        self.gatherings: dict[tuple[int, str, int], tuple[list[tuple[int, float]], Unknown | None]] = {}
        self.runs: dict[CheckedRun, Evaluation] = {}
        self.read_choices: set[str] = set()

    # values

    def value(self, position: int, item: int) -> Value:
        """The value of a line for an item, computed now if it was not yet."""
        value = self.cells[position][item]
        return self.plan.runners[position](self, item) if value is UNSET else value

    def line(self, line: CheckedLine, item: int = 0) -> Value:
        """The value of a checked line."""
        return self.value(line.position, item)

    def given_value(self, name: str) -> Value:
        """What the assessment handed over under a name."""
        return self.given[name] if name in self.given else Unknown([name])

    def permitted(self, method: str, item: int = 0) -> list[Value]:
        """The outcome of each condition of use: true, false or unknown."""
        return [condition(self, item) if condition is not None else True for condition in self.plan.permitted[method]]

    # places

    def owner(self, level: str, wanted: str, item: int) -> int:
        """The position of what an item belongs to, at another level."""
        if wanted == HOME:
            return 0
        owner = self.facts.collections[level].owner[item]
        return max(owner, 0)

    def decided(self, place: int) -> Members:
        """The members of a group, decided once."""
        found = self.members[place]
        if found is None:
            found = self.members[place] = self._decide(place, self.plan.groups[place])
        return found

    def _decide(self, place: int, group: CheckedGroup) -> Members:
        if not group.bases:
            return self._collection(group)
        places = self.plan.places
        bases = [self.decided(places[id(base)]) for base in group.bases]
        undecided: dict[int, Unknown] = {}
        for base in bases:
            undecided.update(base.undecided or {})
        items = bases[0].items if len(bases) == 1 else sorted({item for base in bases for item in base.items})
        condition = self.plan.conditions[place]
        if condition is not None:
            items, undecided = self._filtered(condition, items, undecided)
        for other in group.excepted:
            excepted = self.decided(places[id(other)])
            if excepted.undecided:
                undecided.update({item: why for item, why in excepted.undecided.items() if item in items})
            if excepted.items or excepted.undecided:
                out = {*excepted.items, *(excepted.undecided or ())}
                undecided = {item: why for item, why in undecided.items() if item not in excepted.items}
                items = [item for item in items if item not in out]
        return Members(items, undecided or None)

    def _filtered(self, condition: Any, items: list[int], undecided: dict[int, Unknown]) -> tuple[list[int], dict[int, Unknown]]:
        kept = []
        left: dict[int, Unknown] = {}
        for item in items:
            outcome = condition(self, item)
            if outcome is True:
                kept.append(item)
            elif outcome is not False:
                left[item] = outcome
        for item, why in undecided.items():
            outcome = condition(self, item)
            if outcome is not False:
                left[item] = why if outcome is True else why.joined(outcome)
        return kept, left

    def _collection(self, group: CheckedGroup) -> Members:
        items = range(self.sizes[group.collection])
        if group.collection in self.keep:
            kept = self.keep[group.collection]
            return Members([item for item in items if item in kept])
        declared = self.plan.glossary.collections[group.collection]
        if len(declared.of) > 1 and self.plan.per[group.method] != HOME:
            owners = self.facts.collections[group.collection].owner
            return Members([item for item in items if owners[item] >= 0])
        return Members(list(items))

    def gathered(self, place: int, level: str, item: int) -> tuple[list[tuple[int, float]], Unknown | None]:
        """The members of a group that belong or are connected to an item, each with its weight."""
        key = (place, level, item)
        found = self.gatherings.get(key)
        if found is None:
            found = self.gatherings[key] = self._gathered(place, level, item)
        return found

    def _gathered(self, place: int, level: str, item: int) -> tuple[list[tuple[int, float]], Unknown | None]:
        members, undecided = self.decided(place), _joined(self.undecided(place, level, item))
        collection = self.plan.groups[place].collection
        if level in self.plan.glossary.collections[collection].on:
            inside = set(members.items)
            return [(load, count) for load, count in self.facts.connected[level][item] if load in inside], undecided
        items = self.facts.collections[collection]
        if level == HOME:
            return [(each, self._weight(collection, each)) for each in members.items], undecided
        return [(each, items.quantity[each]) for each in members.items if items.owner[each] == item], undecided

    def undecided(self, place: int, level: str, item: int) -> dict[int, Unknown]:
        """The items of which it is undecided whether they are members, as far as they belong to an item."""
        undecided, collection = self.decided(place).undecided or {}, self.plan.groups[place].collection
        if level == HOME or level in self.plan.glossary.collections[collection].on:
            return undecided
        owner = self.facts.collections[collection].owner
        return {each: why for each, why in undecided.items() if owner[each] == item}

    def _weight(self, collection: str, item: int) -> float:
        """An item's quantity, times that of the unit that it belongs to."""
        items = self.facts.collections[collection]
        weight = items.quantity[item]
        owners = [each for each in self.plan.glossary.collections[collection].of if each != HOME]
        if owners and items.owner[item] >= 0:
            return weight * self._weight(owners[0], items.owner[item])
        return weight

    def run(self, run: CheckedRun) -> Evaluation:
        """The evaluation of a run: another method on the part of the home that it keeps."""
        found = self.runs.get(run)
        if found is None:
            keep = {
                collection: set() if group is None else set(self.decided(self.plan.place(group)).items)
                for collection, group in run.keep.items()
            }
            found = self.runs[run] = type(self)(self.plan, self.facts, self.choices, self.given, keep)
            found.of, found.within = run, self.printed_id(run)
            found.read_choices = self.read_choices  # what the run rests on, this rests on
        return found

    # the trace

    def printed_id(self, piece: CheckedLine | CheckedRun) -> str:
        """The id of a line, or of the sheet of a run, on the sheets of this evaluation: no two of a supply are the same."""
        if self.of is None:
            return piece.id
        return f"{self.within}.{piece.name if piece.method == self.of.evaluated else piece.id}"

    def used_row(
        self, position: int, item: int, node: tree.Lookup | tree.FirstRow, row: Row, column: int, keys: list[Value]
    ) -> None:
        """Keep the table row that a value rests on."""
        self.rows.setdefault((position, item), []).append(UsedRow(node, row, column, keys))

    def refused(self, node: tree.Lookup | tree.FirstRow, keys: list[Value]) -> Unknown:
        """The table has no row for the keys: what is asked cannot be calculated."""
        glossary = self.plan.glossary
        kinds = [node.table.row_kind, *node.table.column_keys.values()]
        if isinstance(node, tree.FirstRow):
            kinds[0] = node.amount.kind
        shown = []
        for key, kind in zip(keys, kinds, strict=False):
            if kind.form == "quantity":
                shown.append(f"{key:g} {glossary.units.printed(kind.unit)}".strip())
            else:
                word = str(glossary.words(kind)[key]) if kind.form == "scale" else str(key)
                shown.append(glossary.shown(kind, word))
        section = self.plan.rules.section(node.table.cite)
        return Unknown(refusals=[f"{section} ({node.table.title}) has no value for {', '.join(shown)}"])


def _joined(undecided: dict[int, Unknown]) -> Unknown | None:
    missing: Unknown | None = None
    for why in undecided.values():
        missing = why if missing is None else missing.joined(why)
    return missing


def _defaults(rules: RuleSet) -> dict[str, str]:
    return {
        f"{document.name}.{name}": str(interpretation.default)
        for document in rules.documents.values()
        for name, interpretation in document.interpretations.items()
    }
