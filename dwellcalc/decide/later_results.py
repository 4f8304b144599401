"""What the document tells of loads that come later and are not in this permit: their circuits, and what they ask for."""

from __future__ import annotations

from dataclasses import dataclass, field

from dwellcalc.decide.circuit_results import CircuitResult
from dwellcalc.evaluate.sheet import MethodSheet


@dataclass(slots=True)
class LaterAnswer:
    """A result beside the load that is another with the loads counted: its title, and in print what it is now and then."""

    title: str
    now: str
    then: str


@dataclass(slots=True)
class LaterReading:
    """A reading of the code by which the verdict with the loads counted is another: what must be carried [A], and that verdict."""

    address: str
    option: str
    amperes: float | None
    verdict: str


@dataclass(slots=True)
class LaterSizes:
    """What loads of a supply that come later ask for; nothing of it is in the figures of the permit.

    Attributes:
        loads: the loads by name.
        circuits: their branch circuits, sized as the others are.
        poles: the poles of their breakers, in print.
        not_verified: what nobody has stated or seen of the loads.
        answers: what is another with all of them counted.
        minimum_rating: that of a new supply with all of them [A], by the least of the methods that may size one, or by a record that
            makes more; minimum_by is its title.
        conductors: its smallest conductors, by material.
        readings: the readings of the code by which the verdict is another then.
        sheets: that of the load with all of them counted, then those of their circuits.
    """

    loads: list[str]
    circuits: list[CircuitResult]
    poles: dict[str, str]
    not_verified: list[str] = field(default_factory=list)
    answers: list[LaterAnswer] = field(default_factory=list)
    minimum_rating: float | None = None
    conductors: dict[str, str] = field(default_factory=dict)
    readings: list[LaterReading] = field(default_factory=list)
    sheets: list[MethodSheet] = field(default_factory=list)
    minimum_by: str = ""
