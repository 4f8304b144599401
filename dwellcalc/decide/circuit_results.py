"""What the document tells of branch circuits."""

from __future__ import annotations

from dataclasses import dataclass, field

from dwellcalc.evaluate.sheet import MethodSheet

OUT_OF_ORDER = ("", "-", "unknown")  # what a column has where it has no value


@dataclass(slots=True)
class CircuitResult:
    """The branch circuit of a load, each value in print; conductors and drops by their headings.

    Attributes:
        others: what else is on the circuit.
        minimum: the minimum ampacity.
        breaker: the overcurrent device.
        largest: the largest device that is permitted; a dash where no section says one.
        listed: the breaker that the panels of the home list for it; a dash where they list none.
        in_short: those of the conductors that stand in the first lines.
        drops: voltage drops, where the length is known; with conductors and grounding conductors within the recommended one.
        remarks: what is to be known of the circuit.
        put_right: what is to be put right of the breaker that is listed.
        missing: what the circuit needs and is not known, and what the tables do not hold.
        least: the least device that carries the load.
        serves: smaller devices, each with the rating up to which it serves, where that is known only between bounds.
    """

    load: str
    others: list[str]
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
    least: str = ""
    serves: dict[str, str] = field(default_factory=dict)

    @property
    def title(self) -> str:
        """All that is on the circuit, by name."""
        return " with ".join([self.load, *([" and ".join(self.others)] if self.others else [])])

    def limits(self) -> str:
        """The least and the largest device that the load allows, where a largest is known and they differ."""
        if self.least in OUT_OF_ORDER or self.largest in (*OUT_OF_ORDER, self.least):
            return ""
        return f"{self.least.partition(' ')[0]} to {self.largest}"

    def conductors_in_short(self) -> str:
        """Those of the first lines in a sentence, a size that stands under several headings once."""
        by_size: dict[str, list[str]] = {}
        for heading, size in self.in_short.items():
            by_size.setdefault(size, []).append(f"{heading[:1].lower()}{heading[1:]}")
        return " or ".join(f"{size} {_together(headings)}" for size, headings in by_size.items())

    def listed_breaker(self, what: str) -> str:
        """In a sentence what is to be put right of the breaker that is listed, with the figures."""
        most = "" if self.largest in OUT_OF_ORDER else f", the largest permitted {self.largest}"
        return f"the breaker listed in the panelboard, {self.listed}, is {what}; sized here it is {self.breaker}{most}"


def _together(headings: list[str]) -> str:
    """Headings in a sentence, the words with which all of them begin once."""
    words = [heading.split() for heading in headings]
    alike = next((at for at, each in enumerate(zip(*words, strict=False)) if len(set(each)) > 1), 0)
    return " ".join([*words[0][:alike], " or ".join(" ".join(each[alike:]) for each in words)])


@dataclass(slots=True)
class CircuitsResult:
    """The branch circuits of a supply, with the sheets that they rest on."""

    circuits: list[CircuitResult]
    sheets: list[MethodSheet]
