"""An evaluation of one supply on a box: every input of which only bounds are known lies in it, every other is as it is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from dwellcalc.evaluate.bounds_plan import BoundsPlan
from dwellcalc.evaluate.gathering import Read, Value
from dwellcalc.evaluate.plan import Plan
from dwellcalc.evaluate.possible import NOTHING, TRUTHS, Possible, any_of, both_missing, hull, possible, turned
from dwellcalc.evaluate.traced import Evaluation, Members
from dwellcalc.evaluate.undecided import Box, Undecided
from dwellcalc.facts import Between, Facts, Input, Unknown
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedGroup, CheckedRun, Lookup, ReadField, trees_of, walk

SIZES = "sizes"


def bounds_plan_of(rules: RuleSet) -> BoundsPlan:
    """The plan of a rule set for the walk on bounds, made once and kept with it."""
    found = rules.kept.get(BoundsPlan.__name__)
    if found is None:
        found = rules.kept[BoundsPlan.__name__] = BoundsPlan(rules)
    assert isinstance(found, BoundsPlan)
    return found


def inputs_of(facts: Facts) -> dict[Input, Between]:
    """Every value of which only bounds are known, in the order of the facts."""
    return {
        (collection, position, name): value
        for collection, items in facts.collections.items()
        for name, column in items.fields.items()
        for position, value in enumerate(column)
        if isinstance(value, Between)
    }


def facts_with(facts: Facts, values: Mapping[Input, Any]) -> Facts:
    """The same facts with some values of items replaced; the columns that change are copies."""
    made = replace(facts, collections=dict(facts.collections))
    for collection in {collection for collection, _, _ in values}:
        items = facts.collections[collection]
        made.collections[collection] = replace(items, fields={name: list(column) for name, column in items.fields.items()})
    for (collection, position, name), value in values.items():
        made.collections[collection].fields[name][position] = value
    return made


def sizes_of(rules: RuleSet, inputs: Mapping[Input, Between]) -> list[tuple[float, ...]]:
    """For each input the values that it can only have, where it is the key of a table that refuses all between its rows."""
    found = rules.kept.get(SIZES)
    if found is None:
        found = rules.kept[SIZES] = _sizes(rules)
    assert isinstance(found, dict)
    return [
        tuple(size for size in found.get((collection, name), ()) if between.low <= size <= between.high)
        for (collection, _, name), between in inputs.items()
    ]


def _sizes(rules: RuleSet) -> dict[tuple[str, str], list[float]]:
    """The rows of tables that refuse all between them, by the collection and the field that is their key."""
    known: dict[tuple[str, str], set[float]] = {}
    for method in rules.methods.values():
        for node in (node for line in method.lines.values() for whole in trees_of(line) for node in walk(whole)):
            if isinstance(node, Lookup) and node.table.gaps_refuse and isinstance(node.keys[0], ReadField):
                rows, at = node.table.rows, (node.keys[0].level, node.keys[0].field)
                if all(row.low == row.high for row in rows):
                    known.setdefault(at, set()).update(row.low for row in rows)
    return {at: sorted(sizes) for at, sizes in known.items()}


def boxed(facts: Facts, inputs: Mapping[Input, Between], box: Box) -> Facts:
    """The facts with each input as what it may be in a box: a number where its bounds are one."""
    values = {
        each: low if low == high else Possible(low, high, of=frozenset((at,)))
        for at, (each, (low, high)) in enumerate(zip(inputs, box, strict=True))
    }
    return facts_with(facts, values)


class BoundsEvaluation(Evaluation):
    """An evaluation on bounds; what is undecided on the way is noted in ``undecided``, in the order in which it was met.

    Args: as for ``Evaluation``; ``facts`` are those of a box.
    """

    def __init__(
        self,
        plan: Plan,
        facts: Facts,
        choices: Mapping[str, str] | None = None,
        given: Mapping[str, Value] | None = None,
        keep: dict[str, set[int]] | None = None,
    ) -> None:
        super().__init__(plan, facts, choices, given, keep)
        self.undecided_at: list[Undecided] = []
        self.uncertain: list[frozenset[int]] = [NOTHING] * len(plan.groups)
        self.rests: list[frozenset[int]] = [NOTHING] * len(plan.groups)
        self.doubts: list[dict[int, Unknown]] = [{} for _ in plan.groups]
        self.loose: dict[str, frozenset[int]] = {}

    def note(self, found: Undecided) -> None:
        """Note what is undecided."""
        self.undecided_at.append(found)

    def certain(self, place: int, item: int) -> bool:
        """Whether a member of a group that was decided is one in all of the box."""
        return item not in self.uncertain[place]

    def doubt(self, place: int) -> Unknown | None:
        """What is lacking where it cannot be decided in a part of the box who the members of a group are."""
        missing: Unknown | None = None
        for each in self.doubts[place].values():
            missing = both_missing(missing, each)
        return missing

    def rests_on(self, place: int) -> frozenset[int]:
        """The inputs that the members of a group rest on."""
        return self.rests[place]

    def run(self, run: CheckedRun) -> Evaluation:
        """The evaluation of a run; what it keeps is no more certain there than here."""
        made = run in self.runs
        found = super().run(run)
        if not made and isinstance(found, BoundsEvaluation):
            kept = [(each, group) for each, group in run.keep.items() if group is not None]
            found.loose = {each: self.uncertain[self.plan.place(group)] for each, group in kept}
        return found

    def _decide(self, place: int, group: CheckedGroup) -> Members:
        if not group.bases:
            self.uncertain[place] = self.loose.get(group.collection, NOTHING)
            return self._collection(group)
        bases = [self.plan.places[id(base)] for base in group.bases]
        excepted = [self.plan.places[id(other)] for other in group.excepted]
        condition = self.plan.conditions[place]
        plain = self._plain(bases, excepted, condition)
        if plain is not None:
            return plain
        items: list[int] = []
        undecided: dict[int, Unknown] = {}
        uncertain: set[int] = set()
        for item in self._among(bases):
            members = [self._member(base, item) for base in bases]
            lacking = [Possible(missing=possible(each).missing) for each in members if possible(each).missing is not None]
            member = hull([any_of(members), *lacking])
            conditions = [] if condition is None else [condition(self, item)]
            outs = (turned(self._member(other, item)) for other in excepted)
            found = possible(any_of([member, *conditions, *outs], settles=False))
            if found.missing is not None:
                (self.doubts[place] if found.words else undecided)[item] = found.missing
            if True in found.words:
                items.append(item)
                if False in found.words:
                    uncertain.add(item)
            if found.words and (len(found.words) > 1 or found.missing is not None):
                self.rests[place] |= found.of
        self.uncertain[place] = frozenset(uncertain)
        return Members(items, undecided or None)

    def _among(self, bases: list[int]) -> list[int]:
        """The items that are or may be in some groups."""
        found: set[int] = set()
        for base in bases:
            members = self.decided(base)
            found.update(members.items, members.undecided or (), self.doubts[base])
        return sorted(found)

    def _plain(self, bases: list[int], excepted: list[int], condition: Read | None) -> Members | None:
        """The members where all of it is decided, which is the usual case; else nothing."""
        others = [self.decided(other) for other in (*bases, *excepted)]
        if any(each.undecided for each in others):
            return None
        if any(self.uncertain[other] or self.doubts[other] for other in (*bases, *excepted)):
            return None
        out = {item for each in others[len(bases) :] for item in each.items}
        kept = others[0].items if len(bases) == 1 else sorted({item for each in others[: len(bases)] for item in each.items})
        if condition is not None:
            outcomes = [condition(self, item) for item in kept]
            if not all(outcome is True or outcome is False for outcome in outcomes):
                return None
            kept = [item for item, outcome in zip(kept, outcomes, strict=True) if outcome]
        return Members([item for item in kept if item not in out])

    def _member(self, place: int, item: int) -> Value:
        """Whether an item is a member of a group that was or is now decided."""
        members = self.decided(place)
        missing = (members.undecided or self.doubts[place]).get(item, self.doubts[place].get(item))
        held = item in members.items
        if missing is None and (not held or item not in self.uncertain[place]):
            return held
        certain = missing is not None and item not in self.doubts[place]
        words = frozenset() if certain else frozenset((True,)) if held else frozenset((False,))
        if item in self.uncertain[place]:
            words = TRUTHS
        return Possible(None, None, words, False, missing, self.rests[place])
