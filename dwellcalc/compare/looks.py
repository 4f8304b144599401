"""One supply under one rule set: the sheet of every method, the basis, the verdict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from dwellcalc.compare.document import MethodAt, SupplyAt
from dwellcalc.decide.basis import Tried
from dwellcalc.decide.document import OPEN
from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.ranged import FITTING, RangedSupply
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.up_to import verdict_of
from dwellcalc.evaluate.sheet import MethodSheet, Outcome, SheetLine
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.work import NO
from dwellcalc.facts import Facts, Unknown
from dwellcalc.home import Supply
from dwellcalc.language.rule_set import RuleSet

OF_SEVERAL = "it is for one dwelling unit, and the supply has several"


@dataclass
class MethodLook:
    """A method evaluated for a supply.

    Attributes:
        may: whether it may be used: yes, no, or on condition.
        total: its load [VA], none where it cannot be calculated or says nothing of the supply.
        amperes: the same [A].
        sheet: its sheet.
        total_line: the id of the line of its load in volt-amperes.
        amperes_line: the id of the line of its load in amperes.
        why: why it may not be used, or cannot be calculated.
        read_choices: the readings of the code that it rests on.
    """

    name: str
    title: str
    may: str
    total: float | None
    amperes: float | None
    sheet: MethodSheet
    total_line: str
    amperes_line: str
    why: list[str]
    read_choices: set[str]

    def __post_init__(self) -> None:
        sheets = (self.sheet, *self.sheet.runs)
        self.lines: dict[str, SheetLine] = {line.id: line for sheet in sheets for line in sheet.lines}

    def outcome(self, line: str, item: str | None = None) -> Outcome | None:
        """What a line gave, or gave for an item; none where the sheet has no such line or item."""
        found = self.lines.get(line)
        if found is None:
            return None
        if item is None or found.each is None:
            return found.outcome
        return next((each for each in found.items if each.item == item), None)


@dataclass
class Look:
    """A supply under a rule set: its methods by name, the name of the basis, the verdict, and what must be carried [A].

    ``read_by_sizing`` are the readings of the code that the sizing of the supply rests on.
    """

    under: str
    methods: dict[str, MethodLook]
    basis: str
    verdict: str
    required: float | None
    read_by_sizing: set[str] = field(default_factory=set)

    def title(self) -> str:
        """The title of the basis, or an empty string."""
        return self.methods[self.basis].title if self.basis else ""

    def told(self) -> SupplyAt:
        """The same as the document has it."""
        methods = [
            MethodAt(each.name, each.title, each.total, each.amperes, each.may, each.name == self.basis, each.why)
            for each in self.methods.values()
        ]
        return SupplyAt(self.under, self.verdict, self.title(), self.required, methods)


@dataclass(frozen=True)
class Subject:
    """A supply to look at.

    Attributes:
        supply: the supply; what is known only between bounds stands at one value.
        facts: its facts with what is known only between bounds.
    """

    supply: Supply
    facts: Facts


def look(subject: Subject, assessor: SupplyAssessor, under: str = "") -> Look:
    """Look at a supply under a rule set, with the assessor that it has there."""
    rules, instructions, choices = assessor.rules, assessor.instructions, assessor.choices
    tried = [assessor.tried(name, choices) for name in assessor.methods()]
    methods = {one.name: _method(one, rules, instructions) for one in tried}
    basis = assessor.decided(tried, choices)
    if basis is None:
        return Look(under, methods, "", OPEN, None)
    carried = assessor.carried(basis[0], choices)
    read = _read_by_sizing(assessor, basis[0], choices)
    verdict = carried.verdict
    ranged = RangedSupply(assessor, subject.facts, choices)
    if ranged.inputs:
        verdict = verdict_of(ranged.pieces().decided(FITTING))
    return Look(under, methods, basis[0].name, verdict, carried.amperes, read)


def _read_by_sizing(assessor: SupplyAssessor, chosen: Tried, choices: Mapping[str, str]) -> set[str]:
    """The readings of the code that the sizing of the supply rests on."""
    evaluation = assessor.sized(chosen, choices)
    for line in assessor.rules.methods[assessor.instructions.sizing.method].results.values():
        evaluation.line(line)
    return set(evaluation.read_choices)


def _method(tried: Tried, rules: RuleSet, instructions: Instructions) -> MethodLook:
    method = rules.methods[tried.name]
    sheet = Tracer(tried.evaluation).method(tried.name, results=tried.total is not None)
    why = [each.if_not for each in sheet.conditions if each.outcome == NO]
    if tried.total is None:
        why.append(OF_SEVERAL)
    for value in (tried.total, tried.amperes):
        if isinstance(value, Unknown):
            why += [*sorted(value.refusals), *(f"not known: {name}" for name in sorted(value.inputs))]
    return MethodLook(
        tried.name,
        str(method.source.title),
        tried.may,
        tried.total if isinstance(tried.total, float) else None,
        tried.amperes if isinstance(tried.amperes, float) else None,
        sheet,
        method.results[instructions.total].id,
        method.results[instructions.amperes].id,
        list(dict.fromkeys(why)),
        set(tried.evaluation.read_choices),
    )
