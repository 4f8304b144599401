"""Up to what rating a smaller overcurrent device serves the circuit of a load whose rating is known only between bounds.

Every device comes from the rules for circuits, as for any other rating; nothing is inferred from percentages here.
"""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.decide.changed import LOADS, changed
from dwellcalc.decide.circuit_results import CircuitResult
from dwellcalc.decide.document import SupplyResult
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.facts import Between, Facts
from dwellcalc.home.glossary_names import FROM_RATING

FEW = 2  # devices that are told below the one that was sized


def tell_smaller_devices(assessor: SupplyAssessor, facts: Facts, found: SupplyResult) -> None:
    """Tell of each circuit that was sized for the largest rating which smaller devices serve up to what rating.

    Args:
        assessor: the supply, with what is known between bounds at its largest.
        facts: its facts with the bounds.
        found: its result, which is filled.
    """
    for circuit in found.circuits.circuits if found.circuits is not None else ():
        if not (circuit.others or circuit.missing):
            circuit.serves = dict(_served(assessor, facts, circuit))


def _served(assessor: SupplyAssessor, facts: Facts, circuit: CircuitResult) -> Iterator[tuple[str, str]]:
    declared, loads = facts.glossary.collections[LOADS].fields, facts.collections[LOADS]
    at, columns = loads.names.index(circuit.load), assessor.instructions.branch_circuits
    rated = [name for name, field in declared.items() if field.comes_from == FROM_RATING]
    between = {name: value for name in rated if isinstance(value := loads.fields[name][at], Between)}
    if len(between) != 1 or columns is None:
        return
    ((name, bounds),) = between.items()
    kind = declared[name].kind
    step = assessor.instructions.unknown_ratings.steps.get(kind.unit)
    if not step:
        return
    line = assessor.plan.rules.methods[columns.method].columns[columns.roles["breaker"]]
    assert line.kind is not None
    shown = line.kind

    def device(rating: float) -> tuple[float, str]:
        with changed(assessor.facts, {(circuit.load, name): rating}):
            value = Evaluation(assessor.plan, assessor.facts, assessor.choices).line(line, at)
        return (value, printed.value(value, shown, facts.glossary)) if isinstance(value, float) else (float(0), "")

    high, most = bounds.high, device(bounds.high)
    for _ in range(FEW):
        least = device(bounds.low)
        if not least[1] or not most[1] or least[0] >= most[0]:
            return
        low = bounds.low
        while high - low > step:
            middle = low + (high - low) / 2
            low, high = (middle, high) if device(middle)[0] < most[0] else (low, middle)
        down = max(low // step * step, bounds.low)
        next_up = down + step  # what lies between two steps may still be served
        down = next_up if next_up < bounds.high and device(next_up)[0] < most[0] else down
        most, high = device(down), down
        yield most[1], printed.value(down, kind, facts.glossary)
