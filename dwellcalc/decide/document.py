"""The document that an assessment returns; with the sheet's types it is the JSON that the package writes."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from dwellcalc.decide.candidate_results import CandidateRatings
from dwellcalc.decide.circuit_results import CircuitsResult
from dwellcalc.decide.connected import ConnectedLoad
from dwellcalc.decide.decision import Decision
from dwellcalc.decide.edition_answers import EditionAnswer
from dwellcalc.decide.later_results import LaterSizes
from dwellcalc.decide.marked_results import OtherwiseMarked
from dwellcalc.decide.openness import Bounds, ConductorsAt, OpenResult, UpTo
from dwellcalc.decide.panel_results import PanelSchedule
from dwellcalc.decide.parts import PartOfLoad
from dwellcalc.decide.record_document import RecordResult
from dwellcalc.decide.sizing_result import SizingResult
from dwellcalc.evaluate.sheet import UNKNOWN, Json, MethodSheet, as_json
from dwellcalc.home.glossary_names import STATE, TO_BE_INSTALLED
from dwellcalc.language.words import VERDICTS
from dwellcalc.placed import spaced

FORMAT = 1
FITS, DOES_NOT_FIT, OPEN, NOTHING = VERDICTS
VERDICT, RATING = "verdict", "rating of a new supply"  # what of an answer may turn on the local amendments


@dataclass(slots=True)
class FactEntry:
    """A fact as it was used: whose, which, its value in print, as written, where, and on what evidence."""

    of: str
    item: str
    name: str
    value: str
    written: str = ""
    place: str = ""
    evidence: str = ""
    assumed: bool = False


@dataclass(slots=True)
class Basis:
    """The method whose result is compared, and why."""

    method: str
    title: str
    because: str
    fell_back_from: list[dict[str, str]] = field(default_factory=list)


@dataclass(slots=True)
class MethodResult:
    """A method's result for a supply: load [VA] and [A], whether it may be used, whether it is the basis, and the verdict by it."""

    id: str
    title: str
    total: float | None
    amperes: float | None
    may_be_used: str
    basis: bool
    verdict: str


@dataclass(slots=True)
class BeforeResult:
    """What the supply must carry [A], the verdict and the method, without what is planned and with what it would replace.

    ``results`` are those of the methods that may be used then, ``methods`` their sheets.
    """

    amperes: float
    verdict: str
    by: str
    results: list[MethodResult]
    methods: list[MethodSheet]


@dataclass(slots=True)
class OptionResult:
    """What the result would be under one option of an interpretation, ``by`` the method that then is the basis.

    ``conductors`` are the smallest that the supply must have, where those that are there were not seen, ``settings`` [A] the
    largest that fit then, by load: empty where none do, nothing where that was not tried.
    """

    option: str
    says: str
    taken: bool
    by: str
    total: float | None
    amperes: float | None
    verdict: str
    minimum_rating: float | None
    capacity: float | None = None
    conductors: str = ""
    settings: dict[str, float] | None = None


@dataclass(slots=True)
class InterpretationResult:
    """An interpretation that mattered: the question, its options, and whether one flips the verdict."""

    address: str
    question: str
    cite: str
    chosen_by: str
    flips: bool
    options: list[OptionResult]


@dataclass(slots=True)
class LoadEntry:
    """A load as the home file has it; ``marked`` are further figures that it states, in print, ``set_to`` its one setting [A]."""

    name: str
    kind: str
    quantity: float
    status: str
    rating: str
    evidence: str
    replaces: list[str] = field(default_factory=list)
    settings: list[float] = field(default_factory=list)
    unit: str = ""
    marked: list[str] = field(default_factory=list)
    set_to: float | None = None


@dataclass(slots=True)
class NotVerified:
    """A fact of the house that nobody stated or saw.

    Attributes:
        items: those that share it; none where it is of the supply.
        text: the fact.
        otherwise: for each other word, what the supply would have to carry [A].
        by: the title of the method, for the words with which another one than the basis would be taken.
        flips: the words that change the verdict, with the verdict.
        not_compared: whether it is of the supply itself, which is to be looked at before the answer holds.
        short: what is to be looked at, in a few words.
    """

    items: list[str]
    text: str
    otherwise: dict[str, float | None] = field(default_factory=dict)
    by: dict[str, str] = field(default_factory=dict)
    flips: list[str] = field(default_factory=list)
    not_compared: bool = False
    short: str = ""


@dataclass(slots=True)
class BesideAnswer:
    """A result of a method beside the basis: its name, what it is called, its value and the value in print.

    ``drawn`` says which conductor of a single-line diagram it is, if it is one.
    """

    result: str
    title: str
    value: Json
    printed: str
    drawn: str = ""


@dataclass(slots=True)
class BesideResult:
    """A method calculated beside the basis, such as the neutral or the panelboards, with its sheet.

    ``answers`` are the results that the first lines show, as far as they are known; with ``of_new`` only where conductors are
    to be chosen. ``ahead_of_main`` is told in a single-line diagram of what is drawn there.
    """

    method: str
    answers: list[BesideAnswer]
    sheet: MethodSheet
    of_new: bool = False
    ahead_of_main: list[str] = field(default_factory=list)


@dataclass(slots=True)
class NewSupplyResult:
    """A new supply by the least of the methods that may size one: its load [A], ratings [A] and smallest conductors.

    ``verdict`` is that of the load against its smallest rating.
    """

    amperes: float
    by: str
    verdict: str
    minimum_rating: float | None
    offered_rating: float | None
    conductors: dict[str, str]


@dataclass(slots=True)
class WithoutAmendments:
    """What a supply would have to carry [A] without the local amendments, with the same settings.

    Attributes:
        amperes, verdict, by, minimum_rating: as of a method; the rating [A] is that of a new supply.
        turns: what of the answer is another without them, the verdict or the rating of a new supply; nothing where neither is.
        asked: what falls short with them alone.
    """

    amperes: float | None
    verdict: str
    by: str
    minimum_rating: float | None
    turns: list[str]
    asked: list[str]


@dataclass(slots=True)
class SupplyResult:
    """One supply: its methods, the basis, sizing and the verdict.

    ``rating`` is that of its main device, where it is given [A], ``parts`` are what it must carry, taken apart [A], ``connected``
    is what it is made of before demand factors, ``stated`` is what the home file says of the supply itself, in print.
    ``conductors`` are those that may be there where nobody has seen them, ``suspected`` says that the home file names them.
    """

    id: str
    title: str
    kind: str
    system: str
    loads: list[LoadEntry]
    methods: list[MethodSheet]
    results: list[MethodResult]
    basis: Basis | None
    total: float | None
    sizing: SizingResult | None
    verdict: str
    conditions: list[str]
    before: BeforeResult | None
    interpretations: list[InterpretationResult]
    unknowns: list[str]
    refusals: list[str]
    circuits: CircuitsResult | None = None
    new_supply: NewSupplyResult | None = None
    shortcomings: list[str] = field(default_factory=list)
    beside: list[BesideResult] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    facts_not_verified: list[NotVerified] = field(default_factory=list)
    between: OpenResult | None = None
    up_to: UpTo | None = None
    holds_from: Bounds | None = None
    without_amendments: WithoutAmendments | None = None
    record: RecordResult | None = None
    editions: list[EditionAnswer] = field(default_factory=list)
    rating: float | None = None
    parts: list[PartOfLoad] = field(default_factory=list)
    connected: ConnectedLoad | None = None
    stated: dict[str, str] = field(default_factory=dict)
    conductors: list[ConductorsAt] = field(default_factory=list)
    suspected: bool = False
    later: LaterSizes | None = None
    candidates: CandidateRatings | None = None
    carries_all: bool = False  # a feeder with the whole load of its service, and whether the main of that protects it
    protected_by_service: bool = False
    otherwise: list[OtherwiseMarked] = field(default_factory=list)

    @property
    def to_be_installed(self) -> bool:
        """Whether it is yet to be installed, so that what of it is not said is to be chosen rather than to be read."""
        return spaced(self.stated.get(STATE, "")) == spaced(TO_BE_INSTALLED)


@dataclass(slots=True)
class Assessment:
    """Everything that an assessment found."""

    engine_version: str
    date: str
    home: dict[str, Json]
    rule_set: dict[str, Json]
    facts: list[FactEntry]
    facts_digest: str
    supplies: list[SupplyResult]
    decision: Decision
    absent: list[str]
    not_electric: list[str]  # what burns gas or the like, in the words of the home file
    nothing_listed: list[str]  # what a dwelling usually has and the home file says nothing of
    code_values_not_verified: list[dict[str, str]]
    field_page: list[str]
    cautions: list[str]
    checklist: list[str]
    basis_note: str
    not_calculated: list[str]
    home_digest: str = ""  # of the text of the home file, evidence and remarks too; of the facts where there is no text
    home_file: str = ""  # the text of the home file, so that the whole can be calculated again
    panels: list[PanelSchedule] = field(default_factory=list)
    remarks: list[str] = field(
        default_factory=list
    )  # of who made the sheet, as the home file has them; no figure of them is checked
    format: int = FORMAT

    def json(self) -> Json:
        """The document as plain data."""
        made: dict[str, Any] = as_json(self)
        return {"format": self.format, **made}


def verdict(fits: bool | None, state: str) -> str:
    """Fits, does not fit, open, or nothing to compare; ``state`` says why there is no outcome."""
    if fits is not None:
        return FITS if fits else DOES_NOT_FIT
    return OPEN if state == UNKNOWN else NOTHING


def sheets_beside(supply: SupplyResult) -> list[MethodSheet]:
    """The sheets of a supply beside those of its methods, in the order of print: that of sizing first."""
    found = [supply.sizing.sheet] if supply.sizing is not None else []
    found += [each.sheet for each in supply.beside]
    if supply.record is not None:
        found.append(supply.record.sheet)
        found += [supply.record.cross_check.sheet] if supply.record.cross_check is not None else []
    return found + ([] if supply.circuits is None else supply.circuits.sheets)
