"""Remarks on the number of the circuits of a panel schedule that are no loads of their own, such as those for lighting."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.decide.review_plan import GeneralCircuit
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.evaluate.work import state_of
from dwellcalc.facts import NotApplicable
from dwellcalc.home.glossary_names import UNITS
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import HOME
from dwellcalc.review.finding import CODE, REMARK, Finding
from dwellcalc.review.looked import Looked
from dwellcalc.review.submittal import Submittal

OF_KIND = "circuits: "  # how the id of a remark begins


def on_general_circuits(submittal: Submittal) -> Iterator[Finding]:
    """Remarks on the number of such circuits: fewer than a new dwelling has to have, or not what the calculation counts.

    A schedule that lists none of any kind is of a part of the circuits alone.
    """
    plan = submittal.instructions.review
    circuits = None if plan is None else plan.circuits
    listed: dict[str, float] = {}
    for each in submittal.schedule:
        if each.general is not None:
            listed[each.general.title] = listed.get(each.general.title, 0) + each.quantity
    if circuits is None or not any(listed.get(kind.title) for kind in circuits.kinds if kind.least):
        return
    evaluation = Looked(submittal.rules, submittal.asked).evaluation()
    fewest = evaluation.line(submittal.rules.methods[circuits.method].results[circuits.new])
    is_new = not isinstance(fewest, NotApplicable)
    for kind in circuits.kinds:
        number = listed.get(kind.title, 0)
        least = _of_units(submittal.rules, evaluation, circuits.method, kind.least) if is_new else 0.0
        amperes = _of_units(submittal.rules, evaluation, circuits.method, kind.amperes) if is_new else 0.0
        rated = _rated(submittal, kind)
        said = _said(submittal, kind)
        told = []
        if number < least:
            told.append(f"A new dwelling needs {least:,g} or more; by its labels the schedule lists {_counted(number)}.")
        elif rated is not None and rated < amperes:
            short = f"the {number:,g} circuits that the schedule lists for it come to {rated:,g} A"
            told.append(f"At full rating this load is {amperes:,.2f} A, and {short}.")
            least = number + 1
        if said is not None and said != number and number:
            told.append(f"The calculation counts {said:,g}, and the schedule lists {number:,g}.")
        if told:
            yield Finding(
                f"{OF_KIND}{kind.title}",
                REMARK,
                CODE,
                "schedule",
                f"{kind.title} of the panel schedule",
                " ".join(told),
                submittal.rules.section(kind.cite),
                send="the corrected panel schedule" if number < least else "the number that applies, the same in both",
            )


def _counted(number: float) -> str:
    return f"{number:,g}" if number else "none"


def _rated(submittal: Submittal, kind: GeneralCircuit) -> float | None:
    """What the breakers of such circuits come to together [A]; nothing where one of them is not printed."""
    circuits = [each for each in submittal.schedule if each.general is not None and each.general.title == kind.title]
    return (
        sum(each.breaker * each.quantity for each in circuits if each.breaker is not None)
        if all(each.breaker is not None for each in circuits)
        else None
    )


def _of_units(rules: RuleSet, evaluation: Evaluation, method: str, name: str) -> float:
    """A column for all dwelling units together; nothing where the edition has no such, or it is not known."""
    line = rules.methods[method].lines.get(name)
    if line is None or line.level == HOME:
        return 0.0
    places = range(len(evaluation.facts.collections[UNITS].names))
    values = (evaluation.line(line, place) for place in places)
    return sum(each for each in values if isinstance(each, float) and state_of(each) == "known")


def _said(submittal: Submittal, kind: GeneralCircuit) -> float | None:
    """How many of them the submittal says that there are, in all dwelling units."""
    if kind.said not in submittal.counts_said:
        return None
    numbers = submittal.supply.facts.collections[UNITS].fields[kind.said]
    return sum(each for each in numbers if isinstance(each, float))
