"""Branch circuits: for each load whose circuit is sized, what the columns of the rules give, in print."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from dwellcalc.decide.changed import LOADS
from dwellcalc.decide.circuit_results import CircuitResult, CircuitsResult
from dwellcalc.decide.instructions import Columns, Instructions
from dwellcalc.decide.verification import NOT_READ
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.facts import Unknown
from dwellcalc.home.glossary_names import MARKED_AMPACITY, ON_CIRCUIT
from dwellcalc.language.tree import CheckedLine


def circuit_results(evaluation: Evaluation, instructions: Instructions, elsewhere: Collection[str] = ()) -> CircuitsResult | None:
    """The circuits of a supply, with the sheets that they rest on; nothing where there is none.

    Args:
        evaluation: an evaluation of the supply's facts.
        instructions: what the assessment file says.
        elsewhere: the loads whose circuits are another supply's.
    """
    names = evaluation.facts.collections[LOADS].names
    positions = [at for at in _sized(evaluation, instructions.branch_circuits) if names[at] not in elsewhere]
    if not positions:
        return None
    found = [each for each in (circuit_of(evaluation, instructions, at) for at in positions) if each is not None]
    methods = [columns.method for columns in (instructions.branch_circuits, instructions.voltage_drop) if columns is not None]
    drops = any(each.drops for each in found)
    return CircuitsResult(found, [Tracer(evaluation).method(name) for name in (methods if drops else methods[:1])])


def circuit_of(evaluation: Evaluation, instructions: Instructions, position: int) -> CircuitResult | None:
    """The circuit of the load at a position under the facts of an evaluation; nothing where its circuit is not sized."""
    columns = instructions.branch_circuits
    if columns is None or position not in _sized(evaluation, columns):
        return None
    lines = evaluation.plan.rules.methods[columns.method].columns
    values = {role: evaluation.line(lines[name], position) for role, name in columns.roles.items()}
    shown = {role: _printed(evaluation, lines[name], position) for role, name in columns.roles.items()}
    missing = [value for value in values.values() if isinstance(value, Unknown)]
    drop = _drop(evaluation, instructions.voltage_drop, position)
    return CircuitResult(
        evaluation.facts.collections[LOADS].names[position],
        _others(evaluation, position),
        shown["minimum"],
        shown["breaker"],
        shown["largest"],
        shown["listed"],
        _listed(evaluation, columns, "in_short", position),
        _listed(evaluation, columns, "conductors", position),
        _listed(evaluation, columns, "grounding", position),
        drop.get("drops", {}),
        drop.get("conductors", {}),
        drop.get("grounding", {}),
        [*_told(evaluation, columns, "remarks", position), *_not_read(evaluation, position)],
        _told(evaluation, columns, "put_right", position),
        sorted({each for value in missing for each in (*value.inputs, *value.refusals)}),
        shown["least"],
    )


def _not_read(evaluation: Evaluation, position: int) -> list[str]:
    """That the minimum circuit ampacity of a load was not read from its nameplate, and by what it stands."""
    origin = evaluation.facts.origins.get((LOADS, position, MARKED_AMPACITY))
    known = origin is not None and origin.evidence in NOT_READ
    return [f"its minimum circuit ampacity is {NOT_READ[origin.evidence]}"] if origin is not None and known else []


def _others(evaluation: Evaluation, position: int) -> list[str]:
    """What else is on the circuit of a load."""
    loads = evaluation.facts.collections[LOADS]
    carried = loads.fields.get(ON_CIRCUIT)
    met = evaluation.facts.connected.get(LOADS, ())
    return [loads.names[other] for other, _ in met[position] if carried[other]] if carried and met else []


def _told(evaluation: Evaluation, columns: Columns, role: str, position: int) -> list[str]:
    """The texts of those columns of a role that are yes for a load."""
    lines = evaluation.plan.rules.methods[columns.method].columns
    found = []
    for name, text in columns.lists[role].items():
        group = lines[name].each
        members = [] if group is None else evaluation.decided(evaluation.plan.place(group)).items
        if position in members and evaluation.line(lines[name], position) is True:
            found.append(text)
    return found


def _sized(evaluation: Evaluation, columns: Columns | None) -> list[int]:
    """The positions of the loads that the columns have a value for."""
    if columns is None:
        return []
    group = evaluation.plan.rules.methods[columns.method].columns[columns.first].each
    return [] if group is None else evaluation.decided(evaluation.plan.place(group)).items


def _drop(evaluation: Evaluation, columns: Columns | None, position: int) -> Mapping[str, dict[str, str]]:
    """What is told of the voltage drop, by role; nothing where the length of the circuit is not known."""
    if columns is None or position not in _sized(evaluation, columns):
        return {}
    return {role: _listed(evaluation, columns, role, position) for role in columns.lists}


def _listed(evaluation: Evaluation, columns: Columns, role: str, position: int) -> dict[str, str]:
    """The values of the columns of a role, by their headings."""
    lines = evaluation.plan.rules.methods[columns.method].columns
    return {heading: _printed(evaluation, lines[name], position) for name, heading in columns.lists[role].items()}


def _printed(evaluation: Evaluation, line: CheckedLine, position: int) -> str:
    assert line.kind is not None
    return printed.value(evaluation.line(line, position), line.kind, evaluation.plan.rules.glossary)
