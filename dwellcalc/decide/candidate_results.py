"""What the document tells of the ratings that a new service may be given."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(slots=True)
class CandidateLoad:
    """A load that ratings are held to: what must be carried [A] by the largest it may be, and by which reading of the code.

    Attributes:
        later: whether what comes later is counted.
        amperes: what must be carried [A].
        reading: the option of an interpretation by which it is the highest, in print; empty for the readings that are taken.
        address: the interpretation.
        minimum_rating: the least standard rating that it asks for [A].
    """

    later: bool
    amperes: float
    reading: str = ""
    address: str = ""
    minimum_rating: float | None = None


@dataclass(slots=True)
class CandidateRating:
    """A rating of a new service [A]: the verdict for each of the loads, and the largest settings [A] with which this permit fits, by load.

    ``settings`` is empty where it fits with none, and nothing where none can be set or not all could be tried.

    ``chosen`` says that the home file has it; then its bus and conductors are those that the file has, else such as suit. ``usual``
    says that it is commonly offered, or named in the home file; one that is not is the least that this permit asks for.
    ``conductors`` are the smallest of a new service of that rating, by material, with these settings; none where it does not fit;
    ``by_readings`` those by other readings of the code that ask for others, by the interpretation.
    """

    rating: float
    verdicts: list[str]
    settings: dict[str, float] | None
    chosen: bool = False
    usual: bool = True
    conductors: dict[str, str] = field(default_factory=dict)
    by_readings: dict[str, dict[str, str]] = field(default_factory=dict)


@dataclass(slots=True)
class CandidateRatings:
    """The loads, the ratings that are held to them, and the settings [A] with which the loads are, by load."""

    loads: list[CandidateLoad] = field(default_factory=list)
    ratings: list[CandidateRating] = field(default_factory=list)
    counted: dict[str, float] = field(default_factory=dict)
