"""Ratings that a home file says are typical: taken from the edition's file of typical ratings, as bounds with a figure between."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from dwellcalc.decide.changed import LOADS
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.bounds import facts_with
from dwellcalc.facts import Between, Facts, Input, Origin
from dwellcalc.home import Home
from dwellcalc.home.ratings import TYPICAL
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import spaced
from dwellcalc.problems import Problems, message

NO_TYPICAL = message(
    "no_typical",
    'no typical rating is known of the kind "{kind}": {name}',
    "write its rating, bounds of it, or `unknown`; known: {known}",
)
BASIS = "basis"


def with_typical(home: Home, rules: RuleSet) -> Home:
    """The home with what is said to be typical filled in, for every supply; itself where nothing is.

    Raises:
        InputError: the edition has no typical rating of a kind that is asked for.
    """
    problems = Problems()
    filled = [_filled(supply.facts, rules, problems if at == 0 else Problems()) for at, supply in enumerate(home.supplies)]
    problems.raise_if_any()
    if all(facts is supply.facts for facts, supply in zip(filled, home.supplies, strict=True)):
        return home
    supplies = [replace(supply, facts=facts) for supply, facts in zip(home.supplies, filled, strict=True)]
    return replace(home, facts=filled[0], supplies=supplies)


def _filled(facts: Facts, rules: RuleSet, problems: Problems) -> Facts:
    loads = facts.collections[LOADS]
    values: dict[Input, Any] = {}
    origins = dict(facts.origins)
    for position, name in enumerate(loads.names):
        origin = facts.origins.get((LOADS, position, BASIS))
        if origin is None or origin.written != TYPICAL:
            continue
        kind = str(loads.fields["kind"][position])
        default = rules.defaults.get(kind)
        if default is None:
            known = ", ".join(spaced(each) for each in rules.defaults)
            problems.add(NO_TYPICAL, origin.place, kind=spaced(kind), name=name, known=known)
            continue
        between = Between(default.low, default.high, default.typical)
        declared = facts.glossary.collections[LOADS].fields[default.field].kind
        shown = printed.value(default.typical, declared, facts.glossary)
        text = f"{TYPICAL}: {shown} ({printed.value(between, declared, facts.glossary)}), {default.confidence}"
        for each, value in ((BASIS, default.basis), (default.field, between)):
            values[LOADS, position, each] = value
            origins[LOADS, position, each] = Origin(text, origin.place, origin.evidence)
    return replace(facts_with(facts, values), origins=origins) if values else facts
