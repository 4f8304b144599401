"""The document of a review; it is the JSON that the package writes, and what a second round is held against."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.evaluate.sheet import Json, as_json
from dwellcalc.review.breakers import Breaker
from dwellcalc.review.calculation import CalculationRow
from dwellcalc.review.finding import Finding
from dwellcalc.review.of_readings import Reading
from dwellcalc.review.on_top import OnTop
from dwellcalc.review.submittal import Matched
from dwellcalc.review.tie_out import TiedClaim

FORMAT = 1
CLOSED, STILL_OPEN, NEW, WITHDRAWN = "closed", "still open", "new", "withdrawn"


@dataclass(slots=True)
class Answer:
    """What the review calculates: load [VA] and [A], what the supply must carry [A], its smallest rating [A], the verdict."""

    total: float | None
    amperes: float | None
    amperes_required: float | None
    minimum_rating: float | None
    rating: float | None
    verdict: str


@dataclass(slots=True)
class Step:
    """The load [VA], what the supply must carry [A] and the verdict, with a comment put right beside those before it.

    Attributes:
        put_right: the id of the finding; empty for the figures as they were submitted.
    """

    put_right: str
    total: float
    amperes: float
    verdict: str


@dataclass(slots=True)
class PutRight:
    """The comments on figures put right one after another, from the figures as submitted to the load by the rules.

    Attributes:
        steps: as submitted, then one for each comment.
        submitted: the total that was submitted, where it is not what the submitted figures come to; else empty.
        follows: what they come to.
        not_explained: the difference [VA].
    """

    steps: list[Step]
    submitted: str = ""
    follows: str = ""
    not_explained: float = 0.0


@dataclass(slots=True)
class ConductorsAsked:
    """The supply conductors that the letter asks for in place of those that do not suffice for the main.

    Attributes:
        sizes: each of which would suffice, in print.
        capacity: what the supply may carry with them [A], where it is known.
        verdict: of the load by the rules with them.
    """

    sizes: list[str]
    capacity: float | None
    verdict: str


@dataclass(slots=True)
class Struck:
    """A comment that the reviewer has struck, and why."""

    finding: Finding
    reason: str


@dataclass(slots=True)
class Round:
    """A finding of the earlier or of this round, and what became of it."""

    id: str
    title: str
    outcome: str


@dataclass(slots=True)
class Review:
    """Everything that a review found.

    Attributes:
        submittal: title, method, edition and supply.
        answer: what was calculated.
        claims: every figure beside its line.
        matched: what labels were taken for.
        findings: in the order in which they are to be read.
        put_right: the comments on figures put right one after another, where the load is known and a figure is wrong.
        calculation: the calculation by the rules beside the figures of the submittal, row by row.
        breakers: the circuits of the submitted panel schedule.
        tried: how many combinations of mistakes and readings were tried.
        stopped_early: whether the search ended before all were.
        out_of_time: whether it did so for want of time, so that another run may find more.
        edition_remark: what is to be said of the edition as these rules have it, or empty.
        readings: how the code is read, where the reviewer says it and the outcome rests on it, or where it would be another.
        alternatives: what else could be done where it does not fit, those that suffice first.
        on_top: a load that a comment asks for and is in no figure yet.
        conductors: the supply conductors that the letter asks for; alternatives and the verdicts of `put_right` are with them.
        parties: the applicant, the number of the permit and the reviewer, where the submittal names them.
        left_aside: the rows of which nothing is known, each with the known name that is most like its label, or empty.
        struck: the comments that the reviewer has struck, which stand in no letter.
        with_struck: the load and the outcome with these figures as submitted, where that is another than by the rules.
        shown: what is shown with the submittal, by what it is for.
        checked: what of the supply and its panel was looked at and is in order, each in a sentence without its stop.
        against: the title of the earlier review, or empty; ``rounds`` what became of its findings.
    """

    engine_version: str
    date: str
    rule_set: dict[str, Json]
    submittal: dict[str, Json]
    answer: Answer
    claims: list[TiedClaim]
    matched: list[Matched]
    findings: list[Finding]
    tried: int
    stopped_early: bool
    out_of_time: bool
    cautions: list[str]
    put_right: PutRight | None = None
    calculation: list[CalculationRow] = field(default_factory=list)
    breakers: list[Breaker] = field(default_factory=list)
    edition_remark: str = ""
    readings: list[Reading] = field(default_factory=list)
    alternatives: list[AlternativeResult] = field(default_factory=list)
    on_top: OnTop | None = None
    conductors: ConductorsAsked | None = None
    checked: list[str] = field(default_factory=list)
    parties: dict[str, str] = field(default_factory=dict)
    left_aside: dict[str, str] = field(default_factory=dict)
    shown: dict[str, str] = field(default_factory=dict)
    struck: list[Struck] = field(default_factory=list)
    with_struck: Step | None = None
    against: str = ""
    rounds: list[Round] = field(default_factory=list)
    format: int = FORMAT

    @property
    def verdict(self) -> str:
        """The verdict, with what is struck taken as submitted."""
        return self.answer.verdict if self.with_struck is None else self.with_struck.verdict

    def json(self) -> Json:
        """The document as plain data."""
        made: dict[str, Any] = {"format": self.format}
        made.update(as_json(self))
        return made
