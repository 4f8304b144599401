"""What an assessment says of inputs that are known only between bounds, or not at all. Part of the document."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field


@dataclass(slots=True)
class Bounds:
    """Bounds of an amount [A or VA], both in; ``attained`` says that neither could be narrower."""

    low: float | None
    high: float | None
    attained: bool


@dataclass(slots=True)
class AtEnd:
    """What the supply must carry [A] with one input at an end of its bounds and all others anywhere between theirs."""

    amperes: Bounds
    verdict: str


@dataclass(slots=True)
class ConductorsAt:
    """Supply conductors that may be there, in print, with the capacity [A], the margin [A] and the verdict under them.

    ``settings`` [A], by load, are the largest that fit then: empty where none do, nothing where that was not tried. ``for_main``
    says whether they suffice for the main overcurrent device, where that is known.
    """

    conductors: str
    capacity: float | None
    margin: float | None
    verdict: str
    settings: dict[str, float] | None
    for_main: bool | None = None


@dataclass(slots=True)
class OpenInput:
    """An input between bounds.

    Attributes:
        item: the load or area.
        what: what of it, in print.
        written: as the home file has it.
        low, high, typical: in print; no typical figure where none is known.
        at_low, at_high: what the supply must carry with it there.
        moves: by how much the largest load of the supply falls or rises from one end to the other [A].
        settles: whether there is an end at which the verdict no longer is open.
        fits_up_to: the largest value, in print and by the step of the assessment file, up to which it fits whatever the
            others are; empty where there is none, or where it fits at all of them.
    """

    item: str
    what: str
    written: str
    low: str
    high: str
    typical: str
    at_low: AtEnd
    at_high: AtEnd
    moves: float
    settles: bool
    fits_up_to: str


@dataclass(slots=True)
class Together:
    """Inputs that settle the verdict where all of them are at their low ends, or at their high ends, whatever the others are."""

    items: list[str]
    high: bool
    at_end: AtEnd


@dataclass(slots=True)
class Flip:
    """An interpretation under which the verdict is another one."""

    address: str
    question: str
    cite: str
    option: str
    amperes: Bounds
    verdict: str


@dataclass(slots=True)
class Typical:
    """What the supply must carry [A], and the verdict, with inputs at their typical figures.

    ``others`` are those that have none; they lie anywhere between their bounds.
    """

    amperes: Bounds
    verdict: str
    others: list[str]


@dataclass(slots=True)
class OpenResult:
    """What a supply must carry where inputs are known only between bounds.

    Attributes:
        va, amperes: bounds of the load [VA] and of what must be carried [A].
        verdict: fits where it fits for all that the inputs may be, does not fit where for none, else open.
        decided: whether the limit of pieces left nothing open that could have been decided.
        minimum_rating: bounds of the smallest standard rating that would do [A].
        typical: the same with typical figures, where some input has one.
        sheet_at: the values that the sheet is calculated with, in print, by item: those at which the load is largest.
        inputs: the inputs, those that settle the verdict or move most first.
        read_first: the nameplate to read first.
        together: the fewest inputs that settle an open verdict, at their low ends and at their high ends.
        flips: the interpretations under which the verdict is another one.
        refusals: why it cannot be calculated for a part of what the inputs may be.
    """

    va: Bounds
    amperes: Bounds
    verdict: str
    decided: bool
    minimum_rating: Bounds
    typical: Typical | None
    sheet_at: dict[str, str]
    inputs: list[OpenInput]
    read_first: str
    together: list[Together]
    flips: list[Flip]
    refusals: list[str] = field(default_factory=list)


@dataclass(slots=True)
class UpTo:
    """The one rating that is not known, and up to what it fits, all else as it is.

    Attributes:
        item: the load.
        fits_up_to: the largest rating, in print; empty where it fits at none.
        tried_to: the largest that was tried, in print.
        step: the step by which it is told, in print.
    """

    item: str
    fits_up_to: str
    tried_to: str
    step: str


def in_words(names: Sequence[str]) -> str:
    """Alternatives as a sentence has them: `one, another or a third`."""
    return " or ".join([*([", ".join(names[:-1])] if names[:-1] else []), *names[-1:]])
