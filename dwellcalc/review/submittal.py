"""A submittal: somebody else's calculation, typed once; the home and the claims both come from it."""

from __future__ import annotations

import re
from collections.abc import Mapping as Named
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.review_plan import GeneralCircuit
from dwellcalc.home import Home, Supply
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Text
from dwellcalc.review.claims import Claim
from dwellcalc.review.finding import Finding
from dwellcalc.review.later import Later
from dwellcalc.review.looked import Asked
from dwellcalc.review.reasons import Said
from dwellcalc.review.rows import Row
from dwellcalc.review.several_kinds import KindName

if TYPE_CHECKING:
    from dwellcalc.review.open_ratings import OpenLoad
    from dwellcalc.review.ranges import Ranges
    from dwellcalc.review.reworded import ToReword
    from dwellcalc.review.struck import ToStrike


RATED = re.compile(
    r"\d\s*(?:MCA|RLA|FLA|A|amps?|k?W|watts?|k?VA|hp)(?!\w|/[A-Za-z])", re.IGNORECASE
)  # of a label that has a rating


@dataclass(frozen=True)
class Matched:
    """What a label of the submittal was taken for, by which known name, and how."""

    label: str
    what: str
    name: str
    title: str
    by: str
    how: str


@dataclass(frozen=True)
class Unsure:
    """A figure whose label may be of several lines: its label, the claim, and what follows for each from the rows above."""

    label: Text
    claim: Claim
    following: Named[tuple[str, str], object]


@dataclass(frozen=True)
class Scheduled:
    """A circuit of the submitted panel schedule, or something of its scope of work.

    Attributes:
        label: what the submittal calls it.
        breaker: the breaker [A] if it is printed.
        loads: the loads that are calculated and that it is for.
        kind: the kind of load, or empty where none is known by the label.
        may_be: the kinds that the label leaves open, of which several are calculated or none is.
        aside: whether it is the label of a row that was left aside.
        later: whether its label says that it comes later, or is of others.
        of_one_kind: whether several loads are of one kind, of which it may be any.
        general: the kind of circuit that is no load of its own, or nothing.
        quantity: how many such circuits there are.
        poles: the poles of one of their breakers, where they are printed.
        device: the words on the kind of device that stand behind its size, such as GFCI; or empty.
        removed: whether it is said to be removed.
    """

    label: Text
    breaker: float | None
    loads: tuple[str, ...]
    kind: str
    of_one_kind: bool = False
    may_be: tuple[KindName, ...] = ()
    aside: bool = False
    later: bool = False
    general: GeneralCircuit | None = None
    quantity: float = 1.0
    poles: float | None = None
    removed: bool = False
    device: str = ""

    @property
    def is_empty(self) -> bool:
        """Whether it is no circuit, such as a spare space."""
        return self.general is not None and not self.general.cite


@dataclass
class Submittal:
    """A submittal as read.

    Attributes:
        title: what it is called.
        rules: the rule set of its edition.
        instructions: what the assessment of that edition does.
        method: the method that its load is calculated by.
        method_named: whether it names that method.
        comments: those that the reviewer writes.
        to_strike: what the reviewer strikes of the comments of the review.
        to_reword: what of them the reviewer puts in other words.
        method_said: how it names it, or empty.
        edition_named: whether it names its edition.
        home: the home that it describes.
        supply: the supply that it is about.
        claims: its figures.
        given: what sizing is given, by name, where the figures begin there.
        matched: what its labels were taken for.
        unmatched: the rows of which nothing is known.
        load_rows: the rows of loads by the name of the load.
        not_shown: the loads whose rating is the figure itself, for no nameplate is given.
        taken: what was taken where the submittal says nothing.
        evidence: what it shows, by what it is for.
        shown: the loads whose ratings it shows; nothing in place of them where it shows all.
        schedule: its panel schedule.
        scope: what is to be installed.
        unsure: the figures whose label may be of several lines, of which none is sure.
        steps: the rows that are steps within a demand factor.
        before_steps: the row before the first of these, which may be the sum that they are of, or nothing.
        own_sums: the labels of figures that are sums of the rows above them and of no line.
        open_kinds: of the rows of which nothing is known, what those may be of which the label leaves it open, by label.
        no_loads: of those rows, why the label is of no electrical load, by label.
        later: the rows that are said to come later or to be by others.
        later_notes: the notes that say so, with the kind of load that each names, or empty.
        with_later: the supply with those of them that have no figure but a nameplate, or nothing without such.
        counting_nothing: the labels of loads that are claimed to be nothing, and are, beside a larger one.
        counts_said: the fields of a dwelling unit that it gives, such as the number of a kind of circuits.
        blank: the rows of loads that have neither a rating nor a figure.
        nearest: of the rows of which nothing is known, the known name most like the label, or empty.
        reasons: why rows count a load at less than its rating, where they say it, by label.
        ranges: what of its ratings is not shown or known only between bounds, or nothing.
        notes: those of the sheet.
        freed: the breaker spaces that removed loads leave free, where it says them by a key.
        freed_by_notes: those of which its notes say it.
        stated: what the method is given, by name, such as a maximum demand.
        full_names: of labels that are abbreviations, what they are in full.
        spaces_by_notes: the spaces of the panel and those that are taken, where notes say how many, by the name of the field.
        texts_of_freed: what says so, by the key or in notes.
        parties: who it is from and who reviews it, by key, where it says so.
    """

    title: str
    rules: RuleSet
    instructions: Instructions
    method: str
    method_named: bool
    edition_named: bool
    home: Home
    supply: Supply
    claims: list[Claim]
    given: Named[str, float]
    choices: dict[str, str]
    matched: list[Matched] = field(default_factory=list)
    unmatched: list[Row] = field(default_factory=list)
    load_rows: dict[str, Row] = field(default_factory=dict)
    not_shown: list[str] = field(default_factory=list)
    taken: list[str] = field(default_factory=list)
    evidence: dict[str, str] = field(default_factory=dict)
    shown: set[str] | None = field(default_factory=set)
    schedule: list[Scheduled] = field(default_factory=list)
    scope: list[Scheduled] = field(default_factory=list)
    unsure: list[Unsure] = field(default_factory=list)
    steps: list[Row] = field(default_factory=list)
    before_steps: Row | None = None
    own_sums: list[Text] = field(default_factory=list)
    counting_nothing: list[Text] = field(default_factory=list)
    open_kinds: dict[str, str] = field(default_factory=dict)
    no_loads: dict[str, str] = field(default_factory=dict)
    later: list[Later] = field(default_factory=list)
    later_notes: dict[str, str] = field(default_factory=dict)
    with_later: Supply | None = None
    counts_said: frozenset[str] = frozenset()
    blank: list[Row] = field(default_factory=list)
    parties: dict[str, str] = field(default_factory=dict)
    reasons: dict[str, Said] = field(default_factory=dict)
    nearest: dict[str, str] = field(default_factory=dict)
    method_said: str = ""
    comments: list[Finding] = field(default_factory=list)
    to_strike: list[ToStrike] = field(default_factory=list)
    to_reword: list[ToReword] = field(default_factory=list)
    ranges: Ranges | None = None
    notes: list[str] = field(default_factory=list)
    freed: float | None = None
    freed_by_notes: float = 0.0
    stated: dict[str, float] = field(default_factory=dict)
    full_names: dict[str, str] = field(default_factory=dict)
    spaces_by_notes: dict[str, float] = field(default_factory=dict)
    texts_of_freed: list[str] = field(default_factory=list)

    @property
    def left_aside(self) -> list[Row]:
        """The rows of which nothing is known and that may be loads."""
        return [row for row in self.unmatched if row.nameplate is not None or RATED.search(row.label)]

    def in_full(self, label: str) -> str:
        """A label with its name in full, where it is an abbreviation."""
        return f"{label} ({self.full_names[label]})" if label in self.full_names else label

    @property
    def open_loads(self) -> list[OpenLoad]:
        """The loads of which no rating is shown, and that are not calculated."""
        return [] if self.ranges is None else self.ranges.loads

    @property
    def asked(self) -> Asked:
        """What is calculated for it."""
        return Asked(self.supply.facts, self.method, self.instructions.sizing, self.choices, self.given, self.stated)
