"""The part of the document that tells of a record of the metered demand: what it was held to, its maximum, its months."""

from __future__ import annotations

from dataclasses import dataclass, field

from dwellcalc.evaluate.sheet import MethodSheet

USABLE, WITH_REMARKS, NOT_USABLE = "usable", "usable with remarks", "not usable"
NOT_LOOKED_AT = "not looked at"


@dataclass(slots=True)
class Gate:
    """What a record is held to.

    Attributes:
        id, title, cite, status: of the line; ``status`` is code or policy.
        outcome: yes, no, or not known.
        refuses: whether the record may not be used where it is no.
        found: the figures with which it was decided, in print.
        moments: the times that those rest on, by the clock on the wall.
        cure: what would mend it.
        not_looked_at: what it asks about and is not given, where its outcome is yes for that alone.
    """

    id: str
    title: str
    cite: str
    status: str
    outcome: str
    refuses: bool
    found: str
    moments: list[str] = field(default_factory=list)
    cure: str = ""
    not_looked_at: list[str] = field(default_factory=list)

    @property
    def in_a_sentence(self) -> str:
        """What was asked, and what was found."""
        found = self.found.replace("\n", ", ")
        return f"{self.title[:1].lower()}{self.title[1:]} (found: {found})" if found else self.title


@dataclass(slots=True)
class MonthResult:
    """A month of a record: share of it that values fill [%], energy [Wh], highest window [W] and when it begins.

    ``in_file`` is the same moment as the file stamps it, where that differs.
    """

    name: str
    coverage: float
    energy: float
    maximum: float | None
    at: str
    in_file: str = ""


@dataclass(slots=True)
class PeakResult:
    """A window of a record: when it begins, its average power [W]; ``in_file`` as the file stamps it, where that differs."""

    at: str
    power: float
    in_file: str = ""


@dataclass(slots=True)
class GapResult:
    """A span of a record that no value fills: when it begins and ends, by the clock on the wall, and how long it is [h]."""

    begins: str
    ends: str
    hours: float


@dataclass(slots=True)
class CrossCheckResult:
    """The calculated existing load [A] by a method beside the maximum demand [A]: the ratio, what it tells, its sheet."""

    calculated: float
    by: str
    measured: float
    ratio: float
    holds: bool
    told: list[str]
    sheet: MethodSheet


@dataclass(slots=True)
class RecordResult:
    """A record of the metered demand, judged.

    Attributes:
        file: the file of readings as the home file names it.
        serves: the method that it serves where it is usable.
        layout: how it was read.
        read_remarks: what was noticed in reading it.
        verdict: usable, usable with remarks, or not usable.
        gates: what it is held to, the worst first.
        begins, ends: the time that it is of, by the clock on the wall.
        window: the windows of the maximum [min].
        maximum: the maximum demand [A] that the method takes, nothing where it cannot be had.
        tells: what stands beside it, in print: what, how much.
        months: the twelve months.
        highest: the highest windows.
        sheet: the sheet of the method that judges.
        days: the highest window of each day [W], by its date; nothing where values fill none.
        cross_check: the calculated existing load beside it, where the record is usable.
        clock: by which clock times are shown, and how the stamps of the file differ.
        gaps: what no value fills, the longest first.
        if_it_served: of one that may not be used, the load [A] that it would give where that is less than the one that is counted.
        it_would_fit: whether that is not over the capacity.
    """

    file: str
    serves: str
    layout: list[str]
    read_remarks: list[str]
    verdict: str
    gates: list[Gate]
    begins: str
    ends: str
    window: float
    maximum: float | None
    tells: list[list[str]]
    months: list[MonthResult]
    highest: list[PeakResult]
    sheet: MethodSheet
    cross_check: CrossCheckResult | None = None
    days: dict[str, float | None] = field(default_factory=dict)
    clock: str = ""
    gaps: list[GapResult] = field(default_factory=list)
    if_it_served: float | None = None
    it_would_fit: bool | None = None

    @property
    def refusing(self) -> list[Gate]:
        """What keeps it from being used, the worst first."""
        return [gate for gate in self.gates if gate.refuses and gate.outcome != "yes"]

    @property
    def remarked(self) -> list[Gate]:
        """What is to be told of it."""
        return [gate for gate in self.gates if not gate.refuses and gate.outcome != "yes"]

    @property
    def not_looked_at(self) -> list[Gate]:
        """What could not be looked at, for what it asks about is not given."""
        return [gate for gate in self.gates if gate.not_looked_at]
