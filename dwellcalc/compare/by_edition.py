"""The same home under one edition after the other, every difference attributed to the set of changes that makes it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from dwellcalc.compare.attribution import difference, shares
from dwellcalc.compare.document import Difference, MethodDifference, SetShare, SupplyComparison, Turn
from dwellcalc.compare.looks import Look, MethodLook
from dwellcalc.compare.steps import AND, Step, steps
from dwellcalc.compare.subjects import Prepared
from dwellcalc.evaluate.work import NO
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.progress import Progress, silent

VERDICT, BASIS, USE, RESULT = "verdict", "basis", "use", "result"
CALCULATED, NOT_CALCULATED, NOT_THERE = "calculated", "cannot be calculated", "not a method of these rules"


@dataclass
class Leg:
    """The way from one rule set to the next: its steps, and at each, the first side included, every supply."""

    first: RuleSet
    second: RuleSet
    steps: list[Step]
    looks: list[list[Look]]


def by_edition(subject: Prepared, several: Sequence[RuleSet], progress: Progress = silent) -> list[SupplyComparison]:
    """Every supply of a home under several rule sets in the order given; ``progress`` is told each set of changes.

    Raises:
        InputError: two rule sets do not rest on the same first edition.
    """
    ends = [subject.looks(rules) for rules in several]
    legs = [_leg(subject, *pair, progress) for pair in zip(several, ends, several[1:], ends[1:])]
    found = []
    for at, each in enumerate(subject.subjects):
        supply = each.supply
        sides = [looks[at].told() for looks in ends]
        made = SupplyComparison(supply.id, supply.title, supply.kind, sides)
        made.differences = [_difference(leg, at) for leg in legs]
        found.append(made)
    return found


def _leg(subject: Prepared, first: RuleSet, before: list[Look], second: RuleSet, after: list[Look], progress: Progress) -> Leg:
    progress(f"{first.title} to {second.title}, linking the sets of changes")
    way = steps(first, second)
    looks = []
    for number, step in enumerate(way[:-1], start=1):
        progress(f"{first.title} to {second.title}, set of changes {number} of {len(way)}")
        looks.append(subject.looks(step.rules, step.instructions, second.title))
    return Leg(first, second, way, [before, *looks, *([after] if way else [])])


def _difference(leg: Leg, supply: int) -> Difference:
    looks = [each[supply] for each in leg.looks]
    names = dict.fromkeys(name for look in (looks[0], looks[-1], *looks) for name in look.methods)
    return Difference(
        leg.first.title,
        leg.second.title,
        [_by_sets(leg, looks, name) for name in names],
        [turn for at, step in enumerate(leg.steps) for turn in _turns(leg, step, looks[at], looks[at + 1])],
    )


# amperes


def _by_sets(leg: Leg, looks: list[Look], name: str) -> MethodDifference:
    """The difference of a method by the sets of changes; those between which it cannot be calculated stand together."""
    every = [look.methods.get(name) for look in looks]
    title = next(each.title for each in reversed(every) if each is not None)
    first, second = every[0], every[-1]
    whole = None if first is None or second is None else difference(first, second)
    made = MethodDifference(name, title, whole)
    if whole is None:
        made.why = _why([(leg.first, first), (leg.second, second)])
        return made
    known = [(at, each) for at, each in enumerate(every) if each is not None and each.amperes is not None]
    for (before, old), (after, new) in pairwise(known):
        between = leg.steps[before:after]
        amount = difference(old, new)
        if amount:
            made.sets.append(_set_share(leg, between, amount, old, new))
        else:
            made.unchanged += sum(len(step.sets) for step in between)
    made.sets.sort(key=lambda each: -abs(each.amperes))
    return made


def _set_share(leg: Leg, between: list[Step], amount: Fraction, old: MethodLook, new: MethodLook) -> SetShare:
    document = AND.join(dict.fromkeys(step.document for step in between))
    title = AND.join(step.title for step in between)
    cites = list(dict.fromkeys(cite for step in between for cite in _cites(leg, step)))
    assert new.amperes is not None
    return SetShare(document, title, cites, between[-1].removed, amount, new.amperes, shares(old, new))


def _cites(leg: Leg, step: Step) -> list[str]:
    """The sections that the sets of a step rest on, as the side has them where they are in effect."""
    return step.cites((leg.first, leg.second) if step.removed else (leg.second, leg.first))


def _why(sides: list[tuple[RuleSet, MethodLook | None]]) -> list[str]:
    """Why a method cannot be calculated, on which side where the sides differ."""
    told = {rules.title: _why_not(look) for rules, look in sides}
    if len({tuple(each) for each in told.values()}) == 1:
        return next(iter(told.values()))
    return [f"{title}: {'; '.join(why)}" for title, why in told.items() if why]


def _why_not(look: MethodLook | None) -> list[str]:
    if look is None:
        return [NOT_THERE]
    return (look.why or [NOT_CALCULATED]) if look.amperes is None else []


# words


def _turns(leg: Leg, step: Step, before: Look, after: Look) -> list[Turn]:
    """What changes its word at a step."""
    found = []
    cites = _cites(leg, step)

    def add(what: str, method: str, was: str, now: str, because: Sequence[str] = ()) -> None:
        if was != now:
            found.append(Turn(what, method, was, now, step.document, step.title, cites, step.removed, list(because)))

    add(VERDICT, "", before.verdict, after.verdict)
    add(BASIS, "", before.title(), after.title())
    for name in dict.fromkeys([*after.methods, *before.methods]):
        was, now = before.methods.get(name), after.methods.get(name)
        method = next(each.title for each in (now, was) if each is not None)
        why = now.why if now is not None and now.may == NO else was.why if was is not None else []
        add(USE, method, was.may if was else NOT_THERE, now.may if now else NOT_THERE, why)
        add(RESULT, method, _calculated(was), _calculated(now), now.why if now is not None else [])
    return found


def _calculated(look: MethodLook | None) -> str:
    return CALCULATED if look is not None and look.amperes is not None else NOT_CALCULATED
