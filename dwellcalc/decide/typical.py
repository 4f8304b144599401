"""Ratings that a home file says are typical: taken from the edition's file of typical ratings, as bounds with a figure between."""

from __future__ import annotations

from dwellcalc.evaluate import printed
from dwellcalc.facts import Between, Facts, Origin
from dwellcalc.home import Home
from dwellcalc.home.ratings import TYPICAL
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.problems import Problems, message

NO_TYPICAL = message(
    "no_typical",
    'no typical rating is known of the kind "{kind}": {name}',
    "write its rating, bounds of it, or `unknown`; known: {known}",
)
LOADS = "loads"


def take_typical(home: Home, rules: RuleSet) -> None:
    """Fill in what is said to be typical, for every supply of a home.

    Raises:
        InputError: the edition has no typical rating of a kind that is asked for.
    """
    problems = Problems()
    for at, supply in enumerate(home.supplies):
        _fill(supply.facts, rules, problems if at == 0 else Problems())
    problems.raise_if_any()


def _fill(facts: Facts, rules: RuleSet, problems: Problems) -> None:
    loads = facts.collections[LOADS]
    for position, name in enumerate(loads.names):
        origin = facts.origins.get((LOADS, position, "basis"))
        if origin is None or origin.written != TYPICAL:
            continue
        kind = str(loads.fields["kind"][position])
        default = rules.defaults.get(kind)
        if default is None:
            known = ", ".join(each.replace("_", " ") for each in rules.defaults)
            problems.add(NO_TYPICAL, origin.place, kind=kind.replace("_", " "), name=name, known=known)
            continue
        between = Between(default.low, default.high, default.typical)
        declared = facts.glossary.collections[LOADS].fields[default.field].kind
        shown = printed.value(default.typical, declared, facts.glossary)
        text = f"{TYPICAL}: {shown} ({printed.value(between, declared, facts.glossary)}), {default.confidence}"
        loads.fields["basis"][position], loads.fields[default.field][position] = default.basis, between
        for each in ("basis", default.field):
            facts.origins[LOADS, position, each] = Origin(text, origin.place, origin.evidence)
