"""Panel schedules: for each panelboard the circuits that are listed in it, those of planned loads that are not, and its spaces."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from dwellcalc.decide.changed import LOADS
from dwellcalc.decide.circuit_results import CircuitResult
from dwellcalc.decide.document import SupplyResult
from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.panel_results import ListedCircuit, PanelSchedule
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.facts import Facts
from dwellcalc.home.glossary_names import BREAKER, CIRCUITS, LOAD_REPLACED, ON_CIRCUIT, PANELS

POLES, TANDEM = "poles", "tandem"
NUMBER_OF_SPACES = "spaces"


def panel_schedules(evaluation: Evaluation, instructions: Instructions, supplies: Sequence[SupplyResult]) -> list[PanelSchedule]:
    """The schedules of all panelboards of a home.

    Args:
        evaluation: an evaluation of the facts of its service, which hold all panelboards.
        instructions: what the assessment file says.
        supplies: the results of its supplies, with the circuits that were sized.
    """
    columns, facts = instructions.panel_schedule, evaluation.facts
    if columns is None or PANELS not in facts.collections:
        return []
    sized = {each.load: each for found in supplies if found.circuits is not None for each in found.circuits.circuits}
    lines = evaluation.plan.rules.methods[columns.method].columns
    schedules = []
    for at, name in enumerate(facts.collections[PANELS].names):
        of_spaces = {}
        for column, title in columns.lists[NUMBER_OF_SPACES].items():
            kind = lines[column].kind
            assert kind is not None
            of_spaces[title] = printed.value(evaluation.line(lines[column], at), kind, facts.glossary)
        circuits = [*_listed(facts, at, sized), *_planned(facts, at, sized)]
        schedules.append(PanelSchedule(name, _printed(facts, PANELS, NUMBER_OF_SPACES, at), circuits, of_spaces))
    return schedules


def _listed(facts: Facts, panel: int, sized: dict[str, CircuitResult]) -> Iterator[ListedCircuit]:
    """The circuits that the home lists in a panelboard."""
    circuits = facts.collections[CIRCUITS]
    for at, name in enumerate(circuits.names):
        if circuits.owner[at] == panel:
            poles = _printed(facts, CIRCUITS, POLES, at)
            tandem = circuits.fields[TANDEM][at] is True
            breaker = f"{_printed(facts, CIRCUITS, BREAKER, at)}{', tandem' if tandem else ''}"
            removed = circuits.fields[LOAD_REPLACED][at] is True
            listed = ListedCircuit(name, circuits.quantity[at], breaker, poles, listed=True, removed=removed)
            yield _with_sizes(listed, sized.get(name))


def _planned(facts: Facts, panel: int, sized: dict[str, CircuitResult]) -> Iterator[ListedCircuit]:
    """The circuits that are not listed in a panelboard, of planned loads that go to it and of loads that are removed."""
    loads = facts.collections[LOADS]
    for load, number in facts.connected[PANELS][panel]:
        name, removed = loads.names[load], loads.fields["replaced"][load] is True
        found = sized.get(name)
        if removed and loads.fields[ON_CIRCUIT][load] is not True:
            yield ListedCircuit(name, number, "-", "-", listed=False, removed=True)
        elif found is not None:
            yield _with_sizes(ListedCircuit(name, number, "-", "-", listed=False), found)


def _with_sizes(circuit: ListedCircuit, found: CircuitResult | None) -> ListedCircuit:
    if found is not None:
        circuit.on_it = found.title
        circuit.least_device, circuit.conductors = found.breaker, found.conductors_in_short()
        circuit.put_right = tuple(found.put_right)
    return circuit


def _printed(facts: Facts, collection: str, name: str, at: int) -> str:
    value, declared = facts.collections[collection].fields[name][at], facts.glossary.collections[collection].fields[name]
    return printed.value(value, declared.kind, facts.glossary)
