"""Two homes side by side: each supply by each method and line, and what only one of them has."""

from __future__ import annotations

from collections.abc import Iterable

from dwellcalc.compare.attribution import difference, shares
from dwellcalc.compare.document import Difference, FactDifference, MethodDifference, SupplyComparison, Turn
from dwellcalc.compare.looks import Look
from dwellcalc.compare.subjects import Prepared
from dwellcalc.decide.document import FactEntry
from dwellcalc.decide.listing import fact_entries
from dwellcalc.language.rule_set import RuleSet

HERE = "has"


def two_homes(first: Prepared, second: Prepared, rules: RuleSet) -> tuple[list[SupplyComparison], list[str]]:
    """The supplies that both homes have, by id, and the titles of those that only one has."""
    mine = {each.supply.id: at for at, each in enumerate(first.subjects)}
    other = {each.supply.id: at for at, each in enumerate(second.subjects)}
    before, after = (each.looks(rules, under=each.home.title) for each in (first, second))
    found = []
    for name, at in mine.items():
        if name not in other:
            continue
        sides = before[at], after[other[name]]
        supply = first.subjects[at].supply
        made = SupplyComparison(supply.id, supply.title, supply.kind, [each.told() for each in sides])
        made.differences = [_difference(*sides)]
        found.append(made)
    alone = [_alone(first, name) for name in mine if name not in other] + [_alone(second, name) for name in other if name not in mine]
    return found, alone


def _alone(home: Prepared, name: str) -> str:
    supply = next(each.supply for each in home.subjects if each.supply.id == name)
    return f"{supply.title}: only {home.home.title}"


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
        why = [f"{look.under}: {each}" for look, side in ((first, mine), (second, other)) for each in side.why if side.amperes is None]
        methods.append(MethodDifference(name, there.title, difference(mine, other), lines=shares(mine, other), why=why))
    return Difference(first.under, second.under, methods, [])


def unlike(first: Prepared, second: Prepared) -> list[FactDifference]:
    """The facts that the two homes do not share: first the items that only one has, then facts with two values."""
    mine, other = _facts(first), _facts(second)
    found = []
    for of, item in dict.fromkeys([*mine, *other]):
        here, there = mine.get((of, item), {}), other.get((of, item), {})
        if not here or not there:
            found.append(FactDifference(of, item, "", _told(here.values()), _told(there.values())))
            continue
        for name in dict.fromkeys([*here, *there]):
            was, now = here.get(name), there.get(name)
            if (was.value if was else "") != (now.value if now else ""):
                found.append(FactDifference(of, item, name, was.value if was else "", now.value if now else ""))
    return sorted(found, key=lambda each: bool(each.name))


def _facts(home: Prepared) -> dict[tuple[str, str], dict[str, FactEntry]]:
    found: dict[tuple[str, str], dict[str, FactEntry]] = {}
    for each in fact_entries(home.home.facts):
        found.setdefault((each.of, each.item), {})[each.name] = each
    return found


def _told(entries: Iterable[FactEntry]) -> str:
    """What is said of an item, as it is written where it is, each thing once."""
    return "; ".join(dict.fromkeys(each.written or f"{each.name}: {each.value}" for each in entries if not each.assumed))
