"""The calculation as the rules have it, row by row beside the figures of a submittal, so that it can be followed by hand."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from dwellcalc.evaluate import printed
from dwellcalc.evaluate.sheet import KNOWN, Gathered, Member, Outcome, SheetLine
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.glossary import ValueKind
from dwellcalc.language.words import COMBINING
from dwellcalc.review.claims import Claim, quantity_in
from dwellcalc.review.looked import Looked, line_of
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.tie_out import Printer

COLUMN = re.compile(r"\.(?P<name>\w+)\)$")
FACTOR = re.compile(r"\d \w+/\w")  # of units alone, such as that of watts to volt-amperes
FEW = 2  # parts of a sum that are printed with their figures
SMALLER = "not counted, the smaller"
LARGEST = COMBINING[1]
AS_SUBMITTED = "as submitted, no rating is given"
ALL_ABOVE = "its parts above, added up"
OPERATION = re.compile(r"\S [*/] \S")
CALL = re.compile(r"\b[a-z_]+\((?P<number>[\d,.]+)\)")  # of one number alone
CHOICE = re.compile(r"\b(?P<of>[a-z]+)\((?P<numbers>\d[\d,.]*(?:, \d[\d,.]*)+)\)")  # of several numbers, such as the largest
ONCE = re.compile(r"\(([^()]*) \* 1\)")  # times one, which the factor of single-phase systems is
PER = re.compile(r"(?P<each>[\d,.]+ \S+?)/(?P<what>[a-z]{3,}) \* (?P<number>[\d,]+) (?P=what)$")  # of things that are counted
DIGITS = re.compile(r"(?<![\d.,])\d{4,}(?![\d.,])")


@dataclass(slots=True)
class CalculationRow:
    """A row of the calculation, in print.

    Attributes:
        label: what the submittal calls it, or the title of the line.
        working: how it is found, or empty.
        submitted: the figure of the submittal, or empty where it has none.
        computed: the figure by the rules.
        agrees: whether the two are the same, as they are printed.
        percent: the share that a demand factor takes, of a step; of other rows nothing.
        is_sum: whether it is made of rows above it.
        left_out: of a load that does not count beside a larger one, what it and those with it come to; or empty.
        full_tier: of the first step of a demand factor, where more is over it, the line that has the factor; else empty.
    """

    label: str
    working: str
    submitted: str
    computed: str
    is_sum: bool = False
    agrees: bool = False
    percent: float = 0.0
    left_out: str = ""
    full_tier: str = ""


def calculation(submittal: Submittal) -> list[CalculationRow]:
    """The rows from the loads to the amperes; none where the load cannot be calculated."""
    if submittal.given:
        return []
    method = Tracer(Looked(submittal.rules, submittal.asked).evaluation()).method(submittal.method)
    made = _Calculation(submittal, {line.id: line for line in method.lines})
    results = submittal.rules.methods[submittal.method].results
    total, amperes = (results.get(each) for each in (submittal.instructions.total, submittal.instructions.amperes))
    if total is None or amperes is None:
        return []
    rows = made.of_line(total.id, always=True)
    line = made.lines.get(amperes.id)
    if not rows or line is None or line.outcome is None or line.outcome.state != KNOWN:
        return []
    if len(rows) == 1 and line.outcome.parts:  # of a method that adds up amperes, the load comes of these
        return [*made.of_line(amperes.id, always=True), *rows]
    return [*rows, made.row(line, line.outcome, is_sum=True)]


class _Calculation:
    def __init__(self, submittal: Submittal, lines: dict[str, SheetLine]) -> None:
        self.submittal = submittal
        self.lines = lines
        self.printer = Printer(submittal.rules)
        self.loads = {claim.load: claim for claim in submittal.claims if claim.load}
        self.claims = {claim.line: claim for claim in submittal.claims}

    def of_line(self, name: str, item: str | None = None, *, always: bool = False) -> list[CalculationRow]:
        """The rows that a line is made of, and its own where these are several, it is claimed, or it is to be shown always.

        A sum of one sum is one row with it, and loads that are added up within a sum stand in that sum alone.
        """
        line = self.lines.get(name)
        outcome = None if line is None else self.outcome(line, item)
        if line is None or outcome is None or outcome.state != KNOWN or not outcome.value:
            return []
        rows = self.below(outcome, line, item)
        claim = self.claims.get(name)
        claimed = claim is not None and not (rows and rows[-1].submitted and claim.load)
        if rows and rows[-1].is_sum and rows[-1].computed == outcome.printed and not rows[-1].submitted:
            rows.pop()
            claimed = True
        counted = [each for each in rows if not each.left_out]
        if claim is not None and len(counted) == 1 and counted[0].computed == outcome.printed and not counted[0].submitted:
            counted[0].submitted, counted[0].agrees = self.printer.submitted(claim), claim.met_by(outcome.value)
            return rows
        several = len(counted) > 1 and not outcome.members
        if rows and not several and not always and not claimed:
            return rows
        return [*rows, self.of_larger(self.row(line, outcome, is_sum=bool(rows)), rows)]

    def outcome(self, line: SheetLine, item: str | None) -> Outcome | None:
        """The outcome of a line, of a column that of an item."""
        return line.outcome if line.outcome is not None else next((each for each in line.items if each.item == item), None)

    def below(self, outcome: Outcome, line: SheetLine, item: str | None) -> list[CalculationRow]:
        """The rows that an outcome is made of."""
        lines = {each.name: each.line for each in outcome.inputs if each.line}
        if outcome.parts:
            parts = (self.of_line(part.id, item) for part in outcome.parts if part.taken and part.state == KNOWN)
            rows = [row for of_part in parts for row in of_part]
            return [*self.left_out(outcome, line, item, rows), *rows]
        if outcome.phrases:
            of = self.of_line(lines[outcome.of], item, always=True) if outcome.of in lines else []
            self.beside_steps(of[-1:], outcome.quantity, line)
            return [*of, *self.tiers(outcome, line)]
        if outcome.formula in lines:
            return self.of_line(lines[outcome.formula], item)
        gathered = next((each for each in outcome.members if each.call == outcome.formula), None)
        return [] if gathered is None else self.members(gathered, line)

    def left_out(
        self, outcome: Outcome, line: SheetLine, item: str | None, counted: list[CalculationRow]
    ) -> list[CalculationRow]:
        """The loads of the submittal that stand in a smaller one of several parts, of which the largest is taken alone."""
        checked = line_of(self.submittal.rules, line.id)
        if checked is None or checked.source.way != LARGEST:
            return []
        found: dict[str, CalculationRow] = {}
        smaller = [each for each in outcome.parts if not each.taken and each.state == KNOWN and each.value]
        for part in smaller:
            for row in self.of_line(part.id, item):
                if row.submitted and not row.is_sum and row.label not in {each.label for each in counted}:
                    row.left_out = part.printed
                    row.working = f"{row.working}; {SMALLER}" if row.working else SMALLER
                    found.setdefault(row.label, row)
        return list(found.values())

    def of_larger(self, row: CalculationRow, above: list[CalculationRow]) -> CalculationRow:
        """The row of a line, with the figures of which it is the larger where one of those above does not count."""
        smaller = list(dict.fromkeys(each.left_out for each in above if each.left_out))
        if smaller and row.is_sum and not row.working:
            row.working = f"the {'larger' if len(smaller) == 1 else 'largest'} of {', '.join(smaller)} and {row.computed}"
        return row

    def members(self, gathered: Gathered, line: SheetLine) -> list[CalculationRow]:
        """The rows of what is added up: of loads one each, of a single dwelling unit those that its figure is made of."""
        found = [each for each in gathered.items if each.value]
        column = self.column(gathered, line)
        if len(found) == 1 and found[0].weight == 1 and column is not None:
            of_one = self.outcome(column, found[0].item)
            if of_one is not None and of_one.parts:
                return self.of_line(column.id, found[0].item)
        return [self.of_load(each, line, column) for each in found]

    def column(self, gathered: Gathered, line: SheetLine) -> SheetLine | None:
        """The column that is added up."""
        match = COLUMN.search(gathered.call)
        return None if match is None else self.lines.get(f"{line.id.partition('.')[0]}.{match['name']}")

    def beside_steps(self, rows: list[CalculationRow], quantity: float | None, line: SheetLine) -> None:
        """Put the submittal's own sum, which stands before its steps, beside the row that the steps are of."""
        before = self.submittal.before_steps
        if before is None or before.claimed is None or before.label not in self.submittal.own_sums or quantity is None:
            return
        kind = self.kind(line)
        value = quantity_in(before.claimed, kind, self.submittal.rules.glossary)
        for row in rows:
            if value is not None and not row.submitted:
                row.submitted, row.agrees = self.value(value, kind), abs(value - quantity) < 1

    def tiers(self, outcome: Outcome, line: SheetLine) -> Iterator[CalculationRow]:
        """The steps of a demand factor; the steps of the submittal stand beside them where there are as many."""
        taken = [each for each in outcome.phrases if each.taken]
        kind = self.kind(line)
        steps = [row.claimed for row in self.submittal.steps if row.claimed is not None and not row.repeats]
        values = [quantity_in(each, kind, self.submittal.rules.glossary) for each in steps]
        beside = values if len(values) == len(taken) else [None] * len(taken)
        for tier, value in zip(taken, beside, strict=True):
            working = f"{tier.amount:g} {tier.unit} \u00d7 {self.value(tier.taken, kind)}"
            submitted = "" if value is None else self.value(value, kind)
            label = DIGITS.sub(lambda match: f"{int(match[0]):,}", tier.phrase)
            agrees = value is not None and abs(value - tier.value) < 1
            yield CalculationRow(
                label,
                working,
                submitted,
                self.value(tier.value, kind),
                agrees=agrees,
                percent=tier.amount if tier.shares else 0.0,
                full_tier=line.id if tier is taken[0] and tier is not taken[-1] else "",
            )

    def of_load(self, member: Member, line: SheetLine, column: SheetLine | None) -> CalculationRow:
        """The row of a load, or of another item that is added up."""
        claim = self.loads.get(member.item)
        several = f" \u00d7 {member.weight:,g}" if member.weight != 1 else ""
        value = member.value * member.weight
        working = "" if column is None else self.working_of(column, member.item)
        working = working or self.as_rated(member.item)
        return self.beside(
            claim,
            CalculationRow(f"{self.submittal.in_full(member.item)}{several}", working, "", self.value(value, self.kind(line))),
            value,
        )

    def as_rated(self, load: str) -> str:
        """The rating of a load that counts as it is rated, or that its figure is taken for one; empty of what is no row."""
        row = self.submittal.load_rows.get(load)
        if row is None:
            return ""
        return f"rated {row.nameplate}" if row.nameplate is not None else AS_SUBMITTED

    def working_of(self, column: SheetLine, item: str) -> str:
        """How one of the loads that a column holds is found, such as amperes times volts; empty where it is as rated."""
        outcome = self.outcome(column, item)
        if outcome is None:
            return ""
        lines = {each.name: each.line for each in outcome.inputs if each.line}
        further = self.lines.get(lines.get(outcome.formula, ""))
        if further is not None:
            return self.working_of(further, item)
        numbers = outcome.with_numbers
        return _in_print(numbers) if OPERATION.search(numbers) and not FACTOR.search(numbers) else ""

    def row(self, line: SheetLine, outcome: Outcome, *, is_sum: bool) -> CalculationRow:
        """The row of a line itself."""
        claim = self.claims.get(line.id)
        working = ""
        if not (outcome.parts or outcome.phrases or is_sum) or (is_sum and OPERATION.search(outcome.with_numbers)):
            working = f"{_in_print(outcome.with_numbers)}{self.of_loads(outcome)}"
        label = f"{self.submittal.in_full(claim.label)}: {line.title}" if claim is not None and claim.load else line.title
        working = working if OPERATION.search(outcome.with_numbers) else ""
        return self.beside(
            claim, CalculationRow(label, working or self.added(outcome, line), "", outcome.printed, is_sum), outcome.value
        )

    def added(self, outcome: Outcome, line: SheetLine) -> str:
        """What a sum adds up, with signs between; of many parts, that they stand above."""
        parts = self.parts_of(outcome, line)
        if len(parts) <= 1:
            return ""
        return " + ".join(self.value(each, self.kind(line)) for each in parts) if len(parts) <= FEW + 1 else ALL_ABOVE

    def parts_of(self, outcome: Outcome, line: SheetLine) -> list[float]:
        """The parts that are added up to a line: of a demand factor its steps, of the largest of several those of that one."""
        if outcome.phrases:
            return [each.value for each in outcome.phrases if each.taken and each.value]
        checked = line_of(self.submittal.rules, line.id)
        parts = [each for each in outcome.parts if each.taken and each.state == KNOWN and isinstance(each.value, float)]
        if checked is not None and checked.source.way == COMBINING[0]:
            return [float(each.value) for each in parts if each.value]
        lines = {each.name: each.line for each in outcome.inputs if each.line}
        same = next((each.id for each in parts if each.value == outcome.value), lines.get(outcome.formula, ""))
        further = self.lines.get(same)
        return [] if further is None or further.outcome is None else self.parts_of(further.outcome, further)

    def of_loads(self, outcome: Outcome) -> str:
        """The loads of the only sum that a working names, where they are several."""
        read = [line for each in outcome.inputs if (line := self.lines.get(each.line)) is not None and line.outcome is not None]
        sums = [(line, each) for line in read if line.outcome is not None for each in line.outcome.members]
        if len(sums) != 1 or len(sums[0][1].items) <= 1:
            return ""
        kind = self.kind(sums[0][0])
        told = (f"{each.item} {self.value(each.value * each.weight, kind)}" for each in sums[0][1].items if each.value)
        return f" ({', '.join(told)})"

    def beside(self, claim: Claim | None, row: CalculationRow, value: object) -> CalculationRow:
        """A row with the figure of a claim."""
        if claim is not None:
            row.submitted, row.agrees = self.printer.submitted(claim), claim.met_by(value)
        return row

    def kind(self, line: SheetLine) -> ValueKind:
        """The kind of the value of a line."""
        checked = line_of(self.submittal.rules, line.id)
        assert checked is not None
        assert checked.kind is not None
        return checked.kind

    def value(self, value: float, kind: ValueKind) -> str:
        """A value in print."""
        return printed.value(value, kind, self.submittal.rules.glossary)


def _in_print(working: str) -> str:
    """A formula with numbers, with the signs of print."""
    working = CHOICE.sub(lambda found: f"the {found['of']} of {found['numbers']}", working)
    return (
        PER.sub(r"\g<each> * \g<number>", CALL.sub(r"\g<number>", ONCE.sub(r"\1", working)))
        .replace(" * ", " \u00d7 ")
        .replace(" / ", " \u00f7 ")
    )
