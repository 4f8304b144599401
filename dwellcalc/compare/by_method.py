"""The methods of an assessment side by side: the difference of each to the basis, by the parts of the two totals."""

from __future__ import annotations

from fractions import Fraction

from dwellcalc.compare.attribution import Amounts, completed, difference, scaled
from dwellcalc.compare.document import Difference, LineShare, MethodDifference, SupplyComparison
from dwellcalc.compare.looks import Look, MethodLook
from dwellcalc.compare.reasons import ABSENT
from dwellcalc.compare.subjects import Prepared
from dwellcalc.evaluate.sheet import KNOWN, Part
from dwellcalc.language.rule_set import RuleSet


def by_method(subject: Prepared, rules: RuleSet) -> list[SupplyComparison]:
    """Every supply of a home by all methods that are tried for it."""
    found = []
    for each, look in zip(subject.subjects, subject.looks(rules), strict=True):
        supply = each.supply
        made = SupplyComparison(supply.id, supply.title, supply.kind, [look.told()])
        made.differences = _differences(look)
        found.append(made)
    return found


def _differences(look: Look) -> list[Difference]:
    """From the basis to each other method."""
    if not look.basis:
        return []
    basis = look.methods[look.basis]
    return [
        Difference(basis.title, other.title, [_to_basis(basis, other)])
        for name, other in look.methods.items()
        if name != look.basis
    ]


def _to_basis(basis: MethodLook, other: MethodLook) -> MethodDifference:
    whole = difference(basis, other)
    made = MethodDifference(other.name, other.title, whole, why=[] if other.amperes is not None else other.why)
    if not whole:
        return made
    mine, theirs = _parts(basis), _parts(other)
    found = {line: amount for line, amount in _subtracted(_amounts(theirs, other), _amounts(mine, basis)).items() if amount}
    found = completed(found, whole, other.total_line, basis, other)
    told = [_share(line, amount, basis, other, mine.get(line), theirs.get(line)) for line, amount in found.items()]
    made.lines = sorted(told, key=lambda each: -abs(each.amperes))
    return made


def _parts(look: MethodLook) -> dict[str, Part]:
    """The parts of a total, by the address of their line, so that two methods share what stands in a common part.

    A total that is no sum, as one that is made of the amperes of a line, is its own part.
    """
    outcome = look.outcome(look.total_line)
    parts = [each for each in outcome.parts if each.state == KNOWN and each.taken] if outcome is not None else []
    if outcome is not None and outcome.state == KNOWN and not outcome.parts:
        title = look.lines[look.total_line].title
        parts = [Part(look.total_line, title, outcome.value, outcome.unit, outcome.state, True, "", printed=outcome.printed)]
    return {look.lines[each.id].address if each.id in look.lines else each.id: each for each in parts}


def _amounts(parts: dict[str, Part], look: MethodLook) -> Amounts:
    return {line: Fraction(each.value) * scaled(look) for line, each in parts.items()}


def _subtracted(one: Amounts, other: Amounts) -> Amounts:
    lines = dict.fromkeys([*one, *other])
    return {line: one.get(line, Fraction(0)) - other.get(line, Fraction(0)) for line in lines}


def _share(
    line: str, amount: Fraction, basis: MethodLook, other: MethodLook, mine: Part | None, theirs: Part | None
) -> LineShare:
    look, part = (other, theirs) if theirs is not None else (basis, mine)
    name = part.id if part is not None else line
    found = look.lines.get(name)
    title = part.title if part is not None else found.title if found is not None else ""
    cite = found.cite if found is not None else ""
    return LineShare(name, title, cite, amount, _printed(mine), _printed(theirs))


def _printed(part: Part | None) -> str:
    return ABSENT if part is None else part.printed
