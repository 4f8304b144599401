"""One comment on a load and on the same in amperes, of a method whose load is made of amperes."""

from __future__ import annotations

from collections.abc import Sequence
from math import isclose

from dwellcalc.review.claims import Claim
from dwellcalc.review.finding import Finding
from dwellcalc.review.looked import Looked, line_of
from dwellcalc.review.of_figures import FigureFindings
from dwellcalc.review.stated import volts_of


def as_one(findings: Sequence[Finding], of_figures: FigureFindings, looked: Looked) -> list[Finding]:
    """The comments on figures, that on a current with the one on the load that it comes to at the voltage of the supply.

    Args:
        findings: those of the figures.
        of_figures: what made them, with the figures that each is about.
        looked: the calculation of the submittal.
    """
    bare = [each for each in findings if each.id not in of_figures.behind]  # what a mistake explains is told by that
    alone = {each.id: told[0] for each in bare if len(told := of_figures.about.get(each.id, [])) == 1}
    found = list(findings)
    for finding in bare:
        current = alone.get(finding.id)
        if current is None or not _is_current(current, looked):
            continue
        load = next((each for each in found if each.id in alone and _is_load_of(alone[each.id], current, looked)), None)
        if load is not None:
            found.remove(finding)
            _join(load, finding)
            of_figures.about[load.id] += of_figures.about.pop(finding.id)
    return found


def _is_current(claim: Claim, looked: Looked) -> bool:
    line = line_of(looked.rules, claim.line)
    return line is not None and line.method == looked.asked.method and looked.is_current(line)


def _is_load_of(claim: Claim, current: Claim, looked: Looked) -> bool:
    """Whether a figure is a load, and what a current comes to as it is printed."""
    if _is_current(claim, looked) or not isinstance(claim.value, float) or not isinstance(current.value, float):
        return False
    volts = volts_of(looked.asked.facts)
    return bool(volts) and isclose(claim.value, current.value * volts, abs_tol=max(1.0, current.step * volts))


def _join(load: Finding, current: Finding) -> None:
    """The comment on the load with the figure and the effect of that on the current."""
    load.figures += current.figures
    load.effect_amperes, load.effect_load, load.difference = current.effect_amperes, current.effect_load, None
    load.verdict_before, load.verdict_after = current.verdict_before, current.verdict_after
    load.supply_before, load.supply_after = current.supply_before, current.supply_after
