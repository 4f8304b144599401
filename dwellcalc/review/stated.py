"""What a submittal states that its method is given, such as the maximum demand that was metered: by its key, or by the row for it."""

from __future__ import annotations

import re

from dwellcalc.facts import Facts
from dwellcalc.home.glossary_names import LOADS, SUPPLY, VOLTAGE
from dwellcalc.language.reach import behind
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine, ReadGiven
from dwellcalc.placed import Text, spaced, text_at
from dwellcalc.review.claims import in_amperes, quantity_in
from dwellcalc.review.described import Described
from dwellcalc.review.labels import LINE
from dwellcalc.review.percents import parts_in
from dwellcalc.review.rows import Row

AMOUNT = re.compile(r"(?<![\w.,/])\d[\d,]*(?:\.\d+)?\s*(?:k?W|k?VA|A|amps?|amperes)\b", re.IGNORECASE)
PHASES = "phase_factor"


def stated_in(given: dict[str, float], described: Described, rules: RuleSet, method: str, facts: Facts) -> dict[str, float]:
    """What the method is given, by name; what is taken for it is no longer among what sizing is given.

    Args:
        given: what the submittal gives by a key.
        described: what its rows say.
        rules: the rule set.
        method: its method.
        facts: those of the supply.
    """
    found: dict[str, float] = {}
    for name in rules.methods[method].source.given if method in rules.methods else ():
        by_key = next((each for each in given if each in (name, spaced(name))), None)
        line = line_given(rules, method, name)
        rows = [row for row, match in described.matches if match.what == LINE and line in (match.name, *match.also)]
        amounts = (amount for row in rows if (amount := _amount(row, rules, facts)) is not None)
        value = given.pop(by_key) if by_key is not None else next(amounts, None)
        if value is not None:
            found[name] = value
    return found


def line_given(rules: RuleSet, method: str, name: str) -> str:
    """The line of a method that takes what it is given under a name: the first that reads it."""
    lines = rules.methods[method].lines.values()
    return next((line.id for line in lines if _reads(line, name)), "")


def _reads(line: CheckedLine, name: str) -> bool:
    return any(isinstance(each, ReadGiven) and each.name == name for each in behind(line))


def volts_of(facts: Facts) -> float:
    """What amperes of a supply are multiplied by, or zero where it is not known."""
    volts, phases = (facts.objects[SUPPLY].get(each) for each in (VOLTAGE, PHASES))
    return volts * phases if isinstance(volts, float) and isinstance(phases, float) else 0.0


def _amount(row: Row, rules: RuleSet, facts: Facts) -> float | None:
    """The amount that a row states [A]: its nameplate, the first in its label, else its figure, without the share that it is of it."""
    texts = [row.nameplate, *(text_at(each[0], row.label) for each in AMOUNT.finditer(row.label))]
    amounts = (amount for each in texts if each is not None and (amount := _in_amperes(each, rules, facts)) is not None)
    amount = next(amounts, None)
    if amount is not None or row.claimed is None:
        return amount
    amount, shares = _in_amperes(row.claimed, rules, facts), parts_in(row.label)
    return amount / shares[0] if amount is not None and len(shares) == 1 else amount


def _in_amperes(text: Text, rules: RuleSet, facts: Facts) -> float | None:
    """A current, or a load at the voltage of the supply [A]."""
    glossary = rules.glossary
    by_load = in_amperes(text, glossary, volts_of(facts))
    kind = glossary.collections[LOADS].fields["marked_amperes"].kind
    return by_load if by_load is not None else quantity_in(text, kind, glossary)
