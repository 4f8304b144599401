"""A record of the metered demand, judged by the rules: every reason with its figures, and the calculated load beside it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from dwellcalc.decide.document import OPEN, MethodResult, SupplyResult
from dwellcalc.decide.gates import gate_of
from dwellcalc.decide.record_document import (
    NOT_USABLE,
    USABLE,
    WITH_REMARKS,
    CrossCheckResult,
    GapResult,
    Gate,
    MonthResult,
    PeakResult,
    RecordResult,
)
from dwellcalc.decide.record_plan import RecordPlan
from dwellcalc.decide.recorded import Recorded
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate.sheet import KNOWN
from dwellcalc.evaluate.trace import ON_CONDITION, Tracer
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.evaluate.work import NO, YES
from dwellcalc.language.tree import CheckedLine, Tree
from dwellcalc.meter.clocks import Clocks


def judged(assessor: SupplyAssessor, recorded: Recorded, plan: RecordPlan) -> RecordResult:
    """The record of a supply, held to what the rules ask of one.

    Args:
        assessor: the supply's assessor, the record's figures among its facts.
        recorded: the record.
        plan: what the assessment file says.
    """
    evaluation = Evaluation(assessor.plan, assessor.facts, assessor.choices)
    held = {result: plan.gates(assessor.rules, result) for result in (plan.usable, plan.without_remarks)}
    for line in (line for lines in held.values() for line in lines):
        evaluation.line(line)  # all reasons are told, whatever one alone decides
    tracer = Tracer(evaluation)
    sheet = tracer.method(plan.method)
    by_id = {line.id: line for line in sheet.lines}
    gates = [
        gate_of(line, by_id[line.id], assessor.facts, recorded, partial(_holds, tracer, line), refuses=result == plan.usable)
        for result, lines in held.items()
        for line in lines
    ]
    maximum = sheet.results[plan.maximum]
    figures, profile, clocks = recorded.figures, recorded.profile, recorded.clocks
    return RecordResult(
        recorded.readings.name,
        plan.serves,
        [*recorded.readings.layout, *recorded.taken],
        recorded.remarks,
        _verdict(gates),
        gates,
        clocks.shown(profile.begin),
        clocks.shown(profile.end),
        figures.window_minutes,
        maximum.value if maximum.state == KNOWN else None,
        [[what, sheet.results[name].printed] for name, what in plan.tells.items() if sheet.results[name].state == KNOWN],
        [
            MonthResult(each.name, each.coverage, each.energy, each.highest, *_when(clocks, each.at if each.highest else None))
            for each in figures.months
        ],
        [PeakResult(clocks.shown(at), power, clocks.in_file(at)) for at, power in figures.highest],
        sheet,
        days=figures.days,
        clock=clocks.told,
        gaps=[GapResult(clocks.shown(begin), clocks.shown(end), hours) for begin, end, hours in figures.gaps],
    )


def _when(clocks: Clocks, moment: int | None) -> tuple[str, str]:
    """A moment by the clock on the wall, and as the file stamps it where that differs; of none, nothing."""
    return ("", "") if moment is None else (clocks.shown(moment), clocks.in_file(moment))


def _holds(tracer: Tracer, line: CheckedLine, part: Tree) -> bool:
    """Whether a part of a line's condition is met."""
    return tracer.truth(part, line, 0) is True


def _verdict(gates: Iterable[Gate]) -> str:
    outcomes = {(gate.refuses, gate.outcome) for gate in gates}
    if any(refuses and outcome != YES for refuses, outcome in outcomes):
        return NOT_USABLE
    return WITH_REMARKS if any(outcome != YES for _, outcome in outcomes) else USABLE


# what it does to the answer


def tell_record(assessor: SupplyAssessor, found: SupplyResult, recorded: Recorded | None) -> None:
    """Put the record of a supply into its result, with what was fallen back from and the cross-check."""
    plan = assessor.instructions.record
    if plan is None:
        return
    if recorded is not None and recorded.supply == found.id:
        found.record = judged(assessor, recorded, plan)
        _cross_check(assessor, found, found.record, plan)
        _if_it_served(found, found.record, plan)
    served = found.basis is None or assessor.wanted or found.basis.method == plan.serves
    if found.basis is not None and not served and (assessor.is_there or found.record is not None):
        title = str(assessor.rules.methods[plan.serves].source.title)
        found.basis.fell_back_from.append({"method": plan.serves, "title": title, "because": _because(found, plan)})


def _if_it_served(found: SupplyResult, record: RecordResult, plan: RecordPlan) -> None:
    """Note the load by a record that may not be used, had it served, where that is less than the load that is counted."""
    served = next((each.amperes for each in found.results if each.id == plan.serves), None)
    counted = found.sizing.amperes if found.sizing is not None else None
    if record.verdict == NOT_USABLE and served is not None and counted is not None and served < counted:
        capacity = found.sizing.capacity if found.sizing is not None else None
        record.if_it_served = served
        record.it_would_fit = None if capacity is None else served <= capacity


def _because(found: SupplyResult, plan: RecordPlan) -> str:
    """Why a supply's record was not taken."""
    if found.record is None:
        return plan.none
    sheet = next((each for each in found.methods if each.id == plan.serves), None)
    barred = [each.if_not for each in sheet.conditions if each.outcome == NO] if sheet is not None else []
    reasons = [gate.in_a_sentence for gate in found.record.refusing]
    opened = (
        [f"it is not known whether {each.asks}" for each in sheet.conditions if each.outcome == ON_CONDITION] if sheet else []
    )
    said = "; ".join(barred or ([] if reasons else opened)) or plan.not_usable
    return f"{said}. What it is held to, with what was found: {'; '.join(reasons)}" if reasons else said


def _cross_check(assessor: SupplyAssessor, found: SupplyResult, record: RecordResult, plan: RecordPlan) -> None:
    """Hold the least calculated existing load against the maximum of a usable record."""
    results = found.results if found.before is None else found.before.results
    calculated = [each for each in results if each.id != plan.serves and each.may_be_used != NO and each.amperes is not None]
    if record.verdict == NOT_USABLE or record.maximum is None or not calculated:
        return
    least = min(calculated, key=_amperes)
    check = plan.cross_check
    given = {check.given["calculated"]: _amperes(least), check.given["measured"]: record.maximum}
    sheet = Tracer(Evaluation(assessor.plan, assessor.facts, assessor.choices, given)).method(check.method)
    holds = {name: outcome.value for name, outcome in sheet.results.items()}
    told = [text for name, text in check.told.items() if holds[name] is True]
    told += [text for name, text in check.if_not.items() if holds[name] is False]
    must = holds[check.must_hold] is True
    record.cross_check = CrossCheckResult(
        _amperes(least), least.title, record.maximum, float(holds[check.ratio]), must, told, sheet
    )
    if not must and found.basis is not None and found.basis.method != plan.serves:
        found.verdict = OPEN
        found.shortcomings.append(check.if_not[check.must_hold])


def _amperes(result: MethodResult) -> float:
    assert result.amperes is not None
    return result.amperes
