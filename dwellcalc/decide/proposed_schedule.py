"""A proposal for the schedule of a new panelboard of which no circuits are listed: the circuits that are sized, then those for lighting
and receptacles, as few as there have to be.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from dwellcalc.decide.changed import LOADS
from dwellcalc.decide.circuit_results import CircuitResult
from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.panel_results import ListedCircuit
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.home.glossary_names import UNITS

OWN_POLES, PROPOSED = "own_poles", "proposed"


def is_proposed(evaluation: Evaluation, instructions: Instructions, panel: int) -> bool:
    """Whether the rules have a schedule of a panelboard proposed, by whose spaces they then count."""
    columns = instructions.panel_schedule
    assert columns is not None
    return evaluation.line(evaluation.plan.rules.methods[columns.method].columns[columns.roles[PROPOSED]], panel) is True


def proposed_circuits(
    evaluation: Evaluation, instructions: Instructions, sized: Mapping[str, CircuitResult], later: Mapping[str, str]
) -> list[ListedCircuit]:
    """The circuits of a proposed schedule.

    Args:
        evaluation: an evaluation of the facts of the service.
        instructions: what the assessment file says.
        sized: the circuits that were sized, by load, those of loads that come later among them.
        later: the poles of the circuits of loads that come later, by load.
    """
    loads = evaluation.facts.collections[LOADS]
    quantity = dict(zip(loads.names, loads.quantity, strict=True))
    positions = {name: at for at, name in enumerate(loads.names)}
    found = []
    for name, circuit in sized.items():
        poles = later.get(name) or _poles(evaluation, instructions, positions[name])
        made = ListedCircuit(name, circuit.title, quantity[name], "-", poles or "-", listed=False)
        made.device, made.limits, made.conductors = circuit.breaker, circuit.limits(), circuit.conductors_in_short()
        found.append(made)
    return [*found, *_general(evaluation, instructions)]


def _poles(evaluation: Evaluation, instructions: Instructions, position: int) -> str:
    """The poles of the circuit of a load, in print, or an empty text."""
    columns = instructions.panel_schedule
    assert columns is not None
    line = evaluation.plan.rules.methods[columns.method].columns[columns.roles[OWN_POLES]]
    members: Sequence[int] = [] if line.each is None else evaluation.decided(evaluation.plan.place(line.each)).items
    if position not in members or line.kind is None:
        return ""
    return printed.value(evaluation.line(line, position), line.kind, evaluation.plan.rules.glossary)


def _general(evaluation: Evaluation, instructions: Instructions) -> Iterator[ListedCircuit]:
    """The fewest circuits for lighting and receptacles, by what they are for."""
    plan = None if instructions.review is None else instructions.review.circuits
    lines = {} if plan is None else evaluation.plan.rules.methods[plan.method].lines
    units = evaluation.facts.collections[UNITS]
    for kind in plan.kinds if plan is not None else ():
        line = lines.get(kind.least)
        if line is None or line.each is None or not kind.device:
            continue
        values = [(evaluation.line(line, at), many) for at, many in enumerate(units.quantity)]
        number = sum(each * many for each, many in values if isinstance(each, float))
        if number:
            yield ListedCircuit(kind.title, kind.title, number, "-", str(1), listed=False, device=kind.device)
