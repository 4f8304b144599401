"""The way from one rule set to another: sets of changes taken off and put on, one at a time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import cast

from dwellcalc.decide.instructions import Instructions, read_instructions
from dwellcalc.language.applied import ChangeSet
from dwellcalc.language.changed_pieces import sections_of
from dwellcalc.language.rule_set import RuleSet, with_sets
from dwellcalc.problems import InputError, fail, message

NOT_ONE_CHAIN = message(
    "compare_not_one_chain",
    'the rule sets "{first}" and "{second}" do not rest on the same first edition',
    "only editions of one code can be compared set by set",
)
AND = "; and: "


@dataclass
class Step:
    """One step: the sets that it takes off or puts on, and the rule set after it; several where they stand only together."""

    sets: list[ChangeSet]
    removed: bool
    rules: RuleSet
    instructions: Instructions

    @property
    def document(self) -> str:
        """The editions or amendments that the sets are of."""
        return AND.join(dict.fromkeys(each.document for each in self.sets))

    @property
    def title(self) -> str:
        """The titles of the sets."""
        return AND.join(each.title or each.document for each in self.sets)

    def cites(self, rules: tuple[RuleSet, ...]) -> list[str]:
        """The sections that the sets rest on, as the first of the rule sets that knows them has them."""
        return list(dict.fromkeys(section for each in self.sets for section in sections_of(each, rules)))


def shared(first: RuleSet, second: RuleSet) -> int:
    """How many sets of changes two rule sets have in common from the first edition on.

    Raises:
        InputError: they do not rest on the same first edition.
    """
    if first.chain[0] != second.chain[0] or first.folder != second.folder:
        fail(NOT_ONE_CHAIN, first=first.id, second=second.id)
    number = 0
    for mine, other in zip(first.sets, second.sets, strict=False):
        if mine != other:
            break
        number += 1
    return number


def steps(first: RuleSet, second: RuleSet) -> list[Step]:
    """The steps from one rule set to another.

    Raises:
        InputError: they do not rest on the same first edition.
    """
    found: list[Step] = []
    waiting: list[ChangeSet] = []
    moves = list(_moves(first, second))
    for changes, removed, whole, number in moves[:-1]:
        waiting.append(changes)
        made = _standing(whole, number)
        if made is not None:
            found.append(Step(waiting, removed, *made))
            waiting = []
    for changes, removed, _, _ in moves[-1:]:
        found.append(Step([*waiting, changes], removed, second, read_instructions(second)))
    return found


def _moves(first: RuleSet, second: RuleSet) -> Iterator[tuple[ChangeSet, bool, RuleSet, int]]:
    """Each set, whether it is taken off, and after it: the rule set, and how many of its sets are left."""
    common = shared(first, second)
    for number in reversed(range(common, len(first.sets))):
        yield first.sets[number], True, first, number
    for number in range(common, len(second.sets)):
        yield second.sets[number], False, second, number + 1


def _standing(rules: RuleSet, number: int) -> tuple[RuleSet, Instructions] | None:
    """The rule set with that many sets, and what is done with it, made once; nothing where it does not stand so."""
    name = f"{Step.__name__} {number}"
    if name not in rules.kept:
        try:
            found = with_sets(rules, number)
            rules.kept[name] = found, read_instructions(found)
        except InputError:
            rules.kept[name] = None
    return cast("tuple[RuleSet, Instructions] | None", rules.kept[name])
