"""Panel schedules: for each panelboard the circuits that are listed in it, those of planned loads that are not, and its spaces.

Of a new panelboard the spaces are numbered; of one that is there nobody said which breaker is in which space.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from dwellcalc.decide.breaker_spaces import BreakerSpaces, in_words
from dwellcalc.decide.changed import LOADS, changed, circuits_gone
from dwellcalc.decide.circuit_results import CircuitResult
from dwellcalc.decide.document import SupplyResult
from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.order import REPLACED
from dwellcalc.decide.panel_results import ListedCircuit, PanelSchedule
from dwellcalc.decide.proposed_schedule import is_proposed, proposed_circuits
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.facts import Facts
from dwellcalc.home.glossary_names import (
    BREAKER,
    CIRCUITS,
    EXISTING_WORK,
    HOME,
    INDIVIDUAL,
    LOAD_REPLACED,
    ON_CIRCUIT,
    PANELS,
)

POLES, TANDEM, UNLISTED, FREED, WORK = "poles", "tandem", "unlisted", "freed", "work"
NUMBER_OF_SPACES = "spaces"


def panel_schedules(
    evaluation: Evaluation,
    instructions: Instructions,
    supplies: Sequence[SupplyResult],
    *,
    new: bool = False,
    gone_later: Collection[str] = (),
) -> list[PanelSchedule]:
    """The schedules of all panelboards of a home.

    Args:
        evaluation: an evaluation of the facts of its service, which hold all panelboards.
        instructions: what the assessment file says.
        supplies: the results of its supplies, with the circuits that were sized.
        new: whether the panelboards are to be installed, so that their spaces can be given out.
        gone_later: the loads that go when what comes later does.
    """
    columns, facts = instructions.panel_schedule, evaluation.facts
    if columns is None or PANELS not in facts.collections:
        return []
    sized = {each.load: each for found in supplies if found.circuits is not None for each in found.circuits.circuits}
    later = [found.later for found in supplies if found.later is not None]
    sized |= {each.load: each for found in later for each in found.circuits}
    poles = {load: each for found in later for load, each in found.poles.items()}
    lines = evaluation.plan.rules.methods[columns.method].columns
    names, schedules = facts.collections[PANELS].names, []
    freed = _freed_later(evaluation, instructions, gone_later)
    for at, name in enumerate(names):
        of_spaces = {}
        for column, title in columns.lists[NUMBER_OF_SPACES].items():
            kind = lines[column].kind
            assert kind is not None
            of_spaces[title] = printed.value(evaluation.line(lines[column], at), kind, facts.glossary)
        stays = {name: each for name, each in sized.items() if name not in gone_later}
        circuits = [*_listed(facts, at, sized), *_planned(evaluation, instructions, at, stays)]
        if len(names) == 1:  # of several nobody said to which one it will go
            circuits += _later(poles, sized, {each.load for each in circuits})
        proposed = is_proposed(evaluation, instructions, at)
        if proposed:
            circuits = proposed_circuits(evaluation, instructions, sized, poles)
        for each in circuits:
            each.later = each.load in poles
        schedule = PanelSchedule(name, _printed(facts, PANELS, NUMBER_OF_SPACES, at), circuits, of_spaces, proposed=proposed)
        unlisted = evaluation.line(lines[columns.roles[UNLISTED]], at)
        if isinstance(unlisted, float) and unlisted:
            schedule.unlisted = f"{unlisted:g}"
        if new and not schedule.unlisted and not _stays_unsaid(facts, circuits):
            _give_out(schedule)
        elif not proposed:
            schedule.left_with_later = _left_with_later(schedule, freed[at])
        schedules.append(schedule)
    return schedules


def _stays_unsaid(facts: Facts, circuits: Sequence[ListedCircuit]) -> bool:
    """Whether of a house that stands no circuit is listed, so that those that stay are not known."""
    work = facts.objects[HOME].get(WORK)
    return isinstance(work, str) and work in EXISTING_WORK and not any(each.listed for each in circuits)


def _freed_later(evaluation: Evaluation, instructions: Instructions, gone: Collection[str]) -> list[float]:
    """How many spaces more of each panelboard become free by the rules where some loads go; none where that is not known."""
    facts, columns = evaluation.facts, instructions.panel_schedule
    assert columns is not None
    line = evaluation.plan.rules.methods[columns.method].columns[columns.roles[FREED]]
    panels = range(len(facts.collections[PANELS].names))
    now = [evaluation.line(line, at) for at in panels]
    with changed(facts, {(name, REPLACED): True for name in gone}), circuits_gone(facts, gone):
        without = Evaluation(evaluation.plan, facts, evaluation.choices)
        then = [without.line(line, at) for at in panels]
    pairs = zip(now, then, strict=True)
    return [other - one if isinstance(one, float) and isinstance(other, float) else 0.0 for one, other in pairs]


def _left_with_later(panel: PanelSchedule, freed: float) -> str:
    """How many spaces are left where what comes later is in too; empty where nothing comes later, or the number is not known.

    Args:
        panel: the panelboard.
        freed: the spaces that become free where what it replaces goes.
    """
    later = [each for each in panel.circuits if each.later]
    left = list(panel.of_spaces.values())[-1]
    known = left.isdigit() and all(each.poles.isdigit() for each in later)
    taken = sum(int(each.poles) * int(each.quantity) for each in later)
    return f"{int(left) + int(freed) - taken}" if later and known else ""


def poles_of(evaluation: Evaluation, instructions: Instructions, position: int) -> str:
    """The poles of the breaker of a planned load, in print."""
    columns = instructions.panel_schedule
    if columns is None:
        return ""
    line = evaluation.plan.rules.methods[columns.method].columns[columns.roles[POLES]]
    members = [] if line.each is None else evaluation.decided(evaluation.plan.place(line.each)).items
    if position not in members or line.kind is None:
        return ""
    return printed.value(evaluation.line(line, position), line.kind, evaluation.plan.rules.glossary)


def spaces_to_find(evaluation: Evaluation, instructions: Instructions) -> list[str]:
    """That free breaker spaces are to be found for the planned circuits, where the home tells of no panelboard."""
    facts = evaluation.facts
    if PANELS in facts.collections and facts.collections[PANELS].names:
        return []
    loads = facts.collections[LOADS]
    each = ((poles_of(evaluation, instructions, at), number) for at, number in enumerate(loads.quantity))
    wanted = sum(int(poles) * number for poles, number in each if poles.isdigit())
    return [f"free breaker spaces: not told, to be found; the planned circuits take {wanted:g}"] if wanted else []


def _give_out(panel: PanelSchedule) -> None:
    """Give a panelboard's circuits their spaces in the order in which they stand, if its number of spaces is known."""
    if not panel.spaces.isdigit():
        return
    spaces = BreakerSpaces(int(panel.spaces))
    for each in panel.circuits:
        if each.poles.isdigit():
            each.places = in_words(spaces.take(int(each.quantity), int(each.poles), tandem=each.tandem))
    panel.free, panel.free_number = in_words(spaces.free), len(spaces.free)


def _listed(facts: Facts, panel: int, sized: dict[str, CircuitResult]) -> Iterator[ListedCircuit]:
    """The circuits that the home lists in a panelboard."""
    circuits = facts.collections[CIRCUITS]
    for at, name in enumerate(circuits.names):
        if circuits.owner[at] == panel:
            poles = _printed(facts, CIRCUITS, POLES, at)
            tandem = circuits.fields[TANDEM][at] is True
            breaker = f"{_printed(facts, CIRCUITS, BREAKER, at)}{', tandem' if tandem else ''}"
            removed = circuits.fields[LOAD_REPLACED][at] is True
            circuit = ListedCircuit(
                name, name, circuits.quantity[at], breaker, poles, listed=True, removed=removed, tandem=tandem
            )
            yield _with_sizes(circuit, sized.get(name))


def _planned(
    evaluation: Evaluation, instructions: Instructions, panel: int, sized: dict[str, CircuitResult]
) -> Iterator[ListedCircuit]:
    """The circuits that are not listed in a panelboard, of planned loads that go to it and of loads that are removed."""
    facts = evaluation.facts
    loads = facts.collections[LOADS]
    for load, number in facts.connected[PANELS][panel]:
        name, removed = loads.names[load], loads.fields["replaced"][load] is True
        found = sized.get(name)
        if removed and loads.fields[ON_CIRCUIT][load] is not True and loads.fields[INDIVIDUAL][load] is not False:
            yield ListedCircuit(name, name, number, "-", "-", listed=False, removed=True)
        elif found is not None:
            poles = poles_of(evaluation, instructions, load) or "-"
            yield _with_sizes(ListedCircuit(name, name, number, "-", poles, listed=False), found)


def _later(poles: Mapping[str, str], sized: dict[str, CircuitResult], there: Collection[str]) -> Iterator[ListedCircuit]:
    """The circuits of loads that come later and are not listed."""
    for name, each in poles.items():
        if name not in there and name in sized:
            yield _with_sizes(ListedCircuit(name, name, 1, "-", each or "-", listed=False), sized[name])


def _with_sizes(circuit: ListedCircuit, found: CircuitResult | None) -> ListedCircuit:
    if found is not None:
        circuit.on_it = found.title
        circuit.device, circuit.limits, circuit.conductors = found.breaker, found.limits(), found.conductors_in_short()
        circuit.put_right = tuple(found.put_right)
    return circuit


def _printed(facts: Facts, collection: str, name: str, at: int) -> str:
    value, declared = facts.collections[collection].fields[name][at], facts.glossary.collections[collection].fields[name]
    return printed.value(value, declared.kind, facts.glossary)
