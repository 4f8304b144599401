"""The breakers of a submitted panel schedule beside the least and the largest that their loads allow."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf, nextafter

from dwellcalc.decide.instructions import Columns
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.gathering import Value
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.facts import Unknown
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language.tree import CheckedLine, ReadLine
from dwellcalc.language.words import COMBINING
from dwellcalc.review.labels import in_print
from dwellcalc.review.looked import Asked, Looked
from dwellcalc.review.row_status import PLANNED
from dwellcalc.review.shared_circuits import on_one_circuit
from dwellcalc.review.submittal import Scheduled, Submittal
from dwellcalc.review.workings import working

SUITS, TOO_SMALL, TOO_LARGE, NOT_JUDGED = "suits the load", "too small", "too large", "not judged"
CARRIES = "carries the load; no largest device is known here"
SEVERAL = "it serves several loads"
DASH = "-"


@dataclass(slots=True)
class Breaker:
    """A circuit of the schedule, in print.

    Attributes:
        label: what the schedule calls it.
        load: the load that it is for.
        breaker: the submitted breaker.
        least: the smallest device that carries the load.
        largest: the largest that is permitted; a dash where no section says one.
        minimum: the minimum ampacity of the circuit, a half rounded up.
        verdict: what comes of it.
        why: why it is not judged, or empty.
        section: the section that decides the least or, of one that is too large, the largest.
        working: how the minimum ampacity is worked out, of one that is too small; or empty.
    """

    label: str
    load: str
    breaker: str
    least: str = DASH
    largest: str = DASH
    minimum: str = DASH
    verdict: str = NOT_JUDGED
    why: str = ""
    section: str = ""
    working: str = ""


def breakers(submittal: Submittal, asked: Asked) -> list[Breaker]:
    """Every circuit of the schedule of a submittal."""
    columns = submittal.instructions.branch_circuits
    if columns is None:
        return []
    reader = _Breakers(submittal, Looked(submittal.rules, asked).evaluation(), columns)
    return [reader.of(each) for each in submittal.schedule]


class _Breakers:
    def __init__(self, submittal: Submittal, evaluation: Evaluation, columns: Columns) -> None:
        self.submittal = submittal
        self.evaluation = evaluation
        self.columns = columns
        self.rules = submittal.rules
        self.lines = self.rules.methods[columns.method].columns

    def of(self, circuit: Scheduled) -> Breaker:
        """A circuit of the schedule."""
        breaker = self.line("breaker")
        submitted = DASH if circuit.breaker is None else self.printed(breaker, circuit.breaker)
        submitted = f"{submitted} {circuit.device}" if circuit.device else submitted
        label = f"{circuit.label}, {circuit.quantity:,g} circuits" if circuit.quantity > 1 else str(circuit.label)
        made = Breaker(label, ", ".join(circuit.loads) or DASH, submitted)
        if circuit.general is not None:
            made.verdict = circuit.general.told
            made.section = self.rules.section(circuit.general.cite) if circuit.general.cite else ""
            return made
        made.why = self.not_matched(circuit)
        if not made.why and len(circuit.loads) > 1:
            self.judge_several(made, circuit)
        elif not made.why:
            position = self.evaluation.facts.collections[LOADS].names.index(circuit.loads[0])
            made.why = next(self.reasons(position), "")
            if not made.why or self.is_sized(breaker, position):
                self.judge(made, circuit, position)
        return made

    def not_matched(self, circuit: Scheduled) -> str:
        """Why a circuit cannot be held to one load, or empty."""
        if circuit.removed:
            return "it is said to be removed"
        if circuit.aside:
            return "its row was left aside"
        if circuit.may_be:
            return f"it may be of several kinds: {in_print(circuit.may_be, self.rules)}"
        if not circuit.kind and not circuit.loads:
            return "no kind of load is known by this name"
        if not circuit.loads:
            return "its load is not in the calculation"
        if len(circuit.loads) > 1 and circuit.of_one_kind:
            return "several loads of this kind are calculated"
        rows = (self.submittal.load_rows.get(each) for each in circuit.loads)
        if any(row is not None and row.quantity is not None and row.quantity != "1" for row in rows):
            return "its row is for several loads, and the circuit may be for one or for all"
        if any(not set(circuit.loads).isdisjoint(each.loads) for each in self.submittal.schedule if each is not circuit):
            return "the schedule has several circuits for its row"
        if circuit.quantity > 1:
            return "its load is divided among several circuits"
        return "" if circuit.breaker is not None else "no breaker is given"

    def reasons(self, position: int) -> Iterator[str]:
        """Why the device of a load is not judged."""
        if not self.is_sized(self.line("breaker"), position):
            there = self.evaluation.facts.collections[LOADS].fields["status"][position] != PLANNED
            yield "its circuit is there already" if there else "it is on no circuit of its own"
            return
        for name, text in self.columns.lists["not_judged"].items():
            if self.is_sized(self.lines[name], position) and self.evaluation.line(self.lines[name], position) is True:
                yield text
        least = self.value("least", position)
        if isinstance(least, Unknown):
            yield f"not known: {', '.join(sorted(least.inputs | least.refusals))}"

    def judge_several(self, made: Breaker, circuit: Scheduled) -> None:
        """Hold a breaker to all the loads that its circuit serves: the one that asks for most, with the others on its circuit.

        Too small it is called only where a section says how the loads count together; loads that need not run at once may do
        with less.
        """
        facts = self.evaluation.facts
        places = [facts.collections[LOADS].names.index(each) for each in circuit.loads]
        sized = {each: self.value("minimum", each) for each in places if self.is_sized(self.line("minimum"), each)}
        known = {each: value for each, value in sized.items() if isinstance(value, float)}
        if not known or len(known) < len(sized):
            made.why = SEVERAL if sized else next(self.reasons(places[0]), SEVERAL)
            return
        carrier = max(known, key=known.__getitem__)
        name = facts.collections[LOADS].names[carrier]
        with on_one_circuit(facts, name, [each for each in circuit.loads if each != name]):
            together = _Breakers(self.submittal, Looked(self.rules, self.submittal.asked).evaluation(), self.columns)
            made.why = next(together.reasons(carrier), "")
            if made.why:
                made.why = f"{SEVERAL}, of {name}: {made.why}"
                return
            together.judge(made, circuit, carrier)
            has_rule = bool(together.cited(together.line("minimum"), carrier))
        if made.verdict == TOO_SMALL and not has_rule:
            come_to = made.minimum
            made.why = ""
            self.judge(made, circuit, carrier)  # by the one that asks for most, by itself
            if made.verdict != TOO_SMALL:
                made.verdict, made.least, made.minimum, made.section = NOT_JUDGED, DASH, DASH, ""
                made.why = f"{SEVERAL}, which ask for {come_to} together, and whether they run at once is not known here"

    def judge(self, made: Breaker, circuit: Scheduled, position: int) -> None:
        """Hold a breaker to the least and the largest of its load; one that is not judged for a reason is told the largest."""
        least, largest = self.value("least", position), self.value("largest", position)
        if isinstance(largest, float):
            made.largest = self.printed(self.line("largest"), largest)
        if made.why or circuit.breaker is None or not isinstance(least, float):
            return
        made.least = self.printed(self.line("least"), least)
        minimum = self.value("minimum", position)
        made.minimum = self.printed(self.line("minimum"), nextafter(minimum, inf) if isinstance(minimum, float) else minimum)
        suits = SUITS if isinstance(largest, float) else CARRIES
        made.verdict, made.section = suits, self.section("least", position) or self.section("minimum", position)
        if circuit.breaker < least:
            made.verdict, made.working = TOO_SMALL, self.working("minimum", position)
        elif isinstance(largest, float) and circuit.breaker > largest:
            made.verdict, made.section = TOO_LARGE, self.decides(self.line("largest"), position)

    # pieces

    def line(self, role: str) -> CheckedLine:
        """The column of a role."""
        return self.lines[self.columns.roles[role]]

    def value(self, role: str, position: int) -> Value:
        """Its value for a load."""
        return self.evaluation.line(self.line(role), position)

    def working(self, role: str, position: int) -> str:
        """How the value of a column is worked out for a load, or empty."""
        lines = {each.id: each for each in Tracer(self.evaluation).method(self.columns.method).lines}
        return working(lines, self.line(role).id, self.evaluation.facts.collections[LOADS].names[position])

    def is_sized(self, line: CheckedLine, position: int) -> bool:
        """Whether a column has a value for a load."""
        return line.each is not None and position in self.evaluation.decided(self.evaluation.plan.place(line.each)).items

    def printed(self, line: CheckedLine, value: Value) -> str:
        """A value of a column in print."""
        assert line.kind is not None
        return printed.value(value, line.kind, self.rules.glossary)

    def section(self, role: str, position: int) -> str:
        """The section of the case that a column takes for a load; of the minimum that of the line where the case has none."""
        line = self.line(role)
        cite = self.cited(line, position)
        if cite:
            return self.rules.section(cite)
        return self.rules.section(str(line.source.cite)) if role == "minimum" else ""

    def cited(self, line: CheckedLine, position: int) -> str:
        """The citation of the case that a line takes for a load, or of that of the line which it is then; empty without one."""
        taken = self.evaluation.cases.get((line.position, position))
        if taken is None:
            return ""
        case = line.cases[taken]
        if case.source.cite is None and isinstance(case.then, ReadLine):
            return self.cited(case.then.line, position)
        return str(case.source.cite or "")

    def decides(self, line: CheckedLine, position: int) -> str:
        """The section of that one of several lines which gives the value."""
        value = self.evaluation.line(line, position)
        if line.source.way in COMBINING:
            for part in line.parts:
                of_part = self.evaluation.line(part.line, position)
                if isinstance(of_part, float) and of_part == value:
                    return self.decides(part.line, position)
        return self.rules.section(str(line.source.cite))
