"""What a load is made of: the connected load of a supply by groups of loads, before any demand factor.

The groups are the parts of a sum of the rules, which the assessment names.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from dwellcalc.decide.assessment_reader import AssessmentReader
from dwellcalc.evaluate.sheet import KNOWN, MethodSheet, SheetLine
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.language.words import CONNECTED, CONNECTED_KEYS
from dwellcalc.placed import Mapping


@dataclass(frozen=True)
class ConnectedPlan:
    """The method of the connected load, and its results for the sum [VA] and the same in amperes."""

    method: str
    total: str
    amperes: str


@dataclass(slots=True)
class ConnectedGroup:
    """A group of the connected load, with its share of the whole.

    Attributes:
        id, title, cite: of its line.
        va: the group [VA].
        amperes: its share of the whole [A].
        loads: each load in it [VA], all of its quantity together; none for what follows from floor area and circuits.
    """

    id: str
    title: str
    cite: str
    va: float
    amperes: float
    loads: dict[str, float] = field(default_factory=dict)


@dataclass(slots=True)
class ConnectedLoad:
    """The connected load of a supply [VA] and [A], its groups in the order of the rules, and the sheet."""

    va: float
    amperes: float
    groups: list[ConnectedGroup]
    sheet: MethodSheet


def read_connected(node: Mapping, reader: AssessmentReader) -> ConnectedPlan:
    """The method of the connected load as an assessment file names it."""
    reader.keys(node, CONNECTED_KEYS, CONNECTED)
    method, total, amperes = (reader.text(node, name, CONNECTED) for name in CONNECTED_KEYS)
    for name in (total, amperes):
        reader.result(method, name)
    return ConnectedPlan(str(method), str(total), str(amperes))


def connected_load(plan: ConnectedPlan, evaluation: Evaluation) -> ConnectedLoad | None:
    """The connected load of a supply; nothing where a rating in it is not known, or nothing is connected."""
    sheet = Tracer(evaluation).method(plan.method)
    total, amperes = sheet.results[plan.total], sheet.results[plan.amperes]
    if total.state != KNOWN or amperes.state != KNOWN or not total.value:
        return None
    lines = {line.id: line for line in sheet.lines}
    groups = [_group(lines[part.id], part.value * amperes.value / total.value) for part in total.parts if part.value]
    return ConnectedLoad(total.value, amperes.value, groups, sheet)


def _group(line: SheetLine, amperes: float) -> ConnectedGroup:
    outcome = line.outcome
    assert outcome is not None
    members = [member for gathered in outcome.members for member in gathered.items if member.value]
    loads = {member.item: member.value * member.weight for member in members}
    return ConnectedGroup(line.id, line.title, outcome.cite or line.cite, outcome.value, amperes, loads)
