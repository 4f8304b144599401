"""What the document tells of branch circuits."""

from __future__ import annotations

from dataclasses import dataclass

from dwellcalc.evaluate.sheet import MethodSheet

OUT_OF_ORDER = ("", "-", "unknown")  # what a column has where it has no value


@dataclass(slots=True)
class CircuitResult:
    """The branch circuit of a load, each value in print; conductors and drops by their headings.

    Attributes:
        minimum: the minimum ampacity.
        breaker: the overcurrent device.
        largest: the largest device that is permitted; a dash where no section says one.
        listed: the breaker that the panels of the home list for it; a dash where they list none.
        in_short: those of the conductors that stand in the first lines.
        drops: voltage drops, where the length is known; with conductors and grounding conductors within the recommended one.
        remarks: what is to be known of the circuit.
        put_right: what is to be put right of the breaker that is listed.
        missing: what the circuit needs and is not known, and what the tables do not hold.
    """

    load: str
    minimum: str
    breaker: str
    largest: str
    listed: str
    in_short: dict[str, str]
    conductors: dict[str, str]
    grounding: dict[str, str]
    drops: dict[str, str]
    drop_conductors: dict[str, str]
    drop_grounding: dict[str, str]
    remarks: list[str]
    put_right: list[str]
    missing: list[str]

    def listed_breaker(self, what: str) -> str:
        """In a sentence what is to be put right of the breaker that is listed, with the figures."""
        most = "" if self.largest in OUT_OF_ORDER else f", the largest permitted {self.largest}"
        return f"the breaker listed in the panelboard, {self.listed}, is {what}; sized here it is {self.breaker}{most}"


@dataclass(slots=True)
class CircuitsResult:
    """The branch circuits of a supply, with the sheets that they rest on."""

    circuits: list[CircuitResult]
    sheets: list[MethodSheet]
