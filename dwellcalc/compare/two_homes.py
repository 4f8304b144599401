"""Two homes side by side: each supply by each method and line, and what only one of them has."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from dwellcalc.compare.attribution import difference, shares
from dwellcalc.compare.document import Difference, FactDifference, MethodDifference, SupplyComparison
from dwellcalc.compare.looks import Look
from dwellcalc.compare.subjects import Prepared
from dwellcalc.decide.changed import LOADS
from dwellcalc.decide.unknowns import RATING
from dwellcalc.decide.verification import facts_with_origin
from dwellcalc.evaluate import printed
from dwellcalc.facts import Facts
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import spaced

QUANTITY = "quantity"
CHOICE = "choice"


def two_homes(first: Prepared, second: Prepared, rules: RuleSet) -> tuple[list[SupplyComparison], list[str]]:
    """The supplies that both homes have, by id, and the titles of those that only one has."""
    mine = {each.supply.id: at for at, each in enumerate(first.subjects)}
    other = {each.supply.id: at for at, each in enumerate(second.subjects)}
    before, after = (each.looks(rules, under=each.name) for each in (first, second))
    found = []
    for name, at in mine.items():
        if name not in other:
            continue
        sides = before[at], after[other[name]]
        supply = first.subjects[at].supply
        made = SupplyComparison(supply.id, supply.title, supply.kind, [each.told() for each in sides])
        made.differences = [_difference(*sides)]
        found.append(made)
    alone = [_alone(first, name) for name in mine if name not in other] + [
        _alone(second, name) for name in other if name not in mine
    ]
    return found, alone


def _alone(home: Prepared, name: str) -> str:
    supply = next(each.supply for each in home.subjects if each.supply.id == name)
    return f"{supply.title}: only {home.name}"


def _difference(first: Look, second: Look) -> Difference:
    methods = []
    for name in dict.fromkeys([*second.methods, *first.methods]):
        mine, other = first.methods.get(name), second.methods.get(name)
        there = mine or other
        assert there is not None
        if mine is None or other is None:
            lacking = first if mine is None else second
            methods.append(MethodDifference(name, there.title, None, why=[f"{lacking.under}: not tried for this supply"]))
            continue
        sides = ((first, mine), (second, other))
        why = [f"{look.under}: {'; '.join(side.why)}" for look, side in sides if side.amperes is None]
        methods.append(MethodDifference(name, there.title, difference(mine, other), lines=shares(mine, other, LOADS), why=why))
    return Difference(first.under, second.under, methods, [])


def unlike(first: Prepared, second: Prepared) -> list[FactDifference]:
    """What the two homes do not share: first the items that only one has, then what is said otherwise of those of both."""
    mine, other = _said(first.home.facts), _said(second.home.facts)
    found = []
    for of, item in dict.fromkeys([*mine, *other]):
        here, there = mine.get((of, item), {}), other.get((of, item), {})
        if item and (not here or not there):
            found.append(FactDifference(of, item, "", _told(here), _told(there)))
            continue
        for name in dict.fromkeys([*here, *there]):
            was, now = (side[name].text if name in side else "" for side in (here, there))
            if was != now:
                found.append(FactDifference(of, item, name, was, now))
    return sorted(found, key=lambda each: bool(each.name))


@dataclass(frozen=True)
class Saying:
    """What is said of something, in print, and whether that says itself what it is of."""

    text: str
    is_plain: bool


def _said(facts: Facts) -> dict[tuple[str, str], dict[str, Saying]]:
    """What a home file says of each object and item, by name; a rating as it is written."""
    found: dict[tuple[str, str], dict[str, Saying]] = {}
    every = [each for each in facts_with_origin(facts) if not each[-1].assumed]
    written = {
        (owner, position, str(origin.place))
        for owner, position, _, declared, _, origin in every
        if declared.comes_from in ("", RATING)
    }
    for owner, position, item, declared, value, origin in every:
        if declared.comes_from not in ("", RATING) and (owner, position, str(origin.place)) in written:
            continue  # it follows from what is said there, as a flag from the kind of a load
        said = found.setdefault((owner, item), {})
        if position >= 0 and facts.collections[owner].quantity[position] != 1:
            said[QUANTITY] = Saying(printed.number(facts.collections[owner].quantity[position]), is_plain=False)
        if declared.comes_from == RATING:
            said[RATING] = Saying(origin.written, is_plain=True)
        else:
            shown = printed.value(value, declared.kind, facts.glossary)
            said[spaced(declared.name)] = Saying(shown, declared.kind.form == CHOICE)
    return found


def _told(said: Mapping[str, Saying]) -> str:
    """All that is said of an item, its rating last; what does not speak for itself with its name."""
    ordered = sorted(said.items(), key=lambda each: each[0] == RATING)
    return "; ".join(each.text if each.is_plain else f"{name}: {each.text}" for name, each in ordered)
