"""What the lines of claims rest on: other claims, and the pieces of the rules."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from dwellcalc.language.reach import addresses, behind
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine
from dwellcalc.review.claims import Claim
from dwellcalc.review.looked import Asked, line_of


def addresses_below(rules: RuleSet, asked: Asked, claims: Iterable[Claim]) -> set[str]:
    """The addresses of all that the lines of some claims rest on; what sizing gives rests on what it is given too."""
    claims = list(claims)
    lines = [line for claim in claims if (line := line_of(rules, claim.line)) is not None]
    if any(claim.method == asked.sizing.method for claim in claims):
        lines += rules.methods[asked.method].results.values()
    return set(addresses(lines))


def claims_below(rules: RuleSet, asked: Asked, claims: Sequence[Claim]) -> dict[Claim, frozenset[Claim]]:
    """For each claim, the others that its line rests on; what sizing gives rests on those of the load."""
    of_load = [claim for claim in claims if claim.method != asked.sizing.method]
    found = {}
    for claim in claims:
        line = line_of(rules, claim.line)
        below = {each.id for each in behind(line) if isinstance(each, CheckedLine)} if line is not None else set()
        others = {each for each in claims if each.line in below and each.at != claim.at}
        found[claim] = frozenset(others | {*(of_load if claim.method == asked.sizing.method else ())})
    return found
