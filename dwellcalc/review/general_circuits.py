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
        least = _least(submittal.rules, evaluation, circuits.method, kind) if is_new else 0.0
        said = _said(submittal, kind)
        told = []
        if number < least:
            told.append(f"A new dwelling has to have {least:,g} or more; by its labels the schedule lists {_counted(number)}.")
        if said is not None and said != number and number:
            told.append(f"The calculation counts {said:,g}, and the schedule lists {number:,g}.")
        if told:
            yield Finding(
                f"circuits: {kind.title}",
                REMARK,
                CODE,
                "schedule",
                f"{kind.title} of the panel schedule",
                " ".join(told),
                submittal.rules.section(kind.cite),
                send="the schedule with them" if number < least else "their number, the same in both",
            )


def _counted(number: float) -> str:
    return f"{number:,g}" if number else "none"


def _least(rules: RuleSet, evaluation: Evaluation, method: str, kind: GeneralCircuit) -> float:
    """The least number of them for all dwelling units; nothing where no section says one, or it is not known."""
    line = rules.methods[method].lines.get(kind.least)
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
