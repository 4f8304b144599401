"""Findings on what is shown and said: evidence for what the calculation rests on, the panel schedule, the scope of the work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from dwellcalc.decide.listing import load_entries
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.sheet import KNOWN, SheetLine
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.facts import Facts
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.review.finding import CODE, ERROR, POLICY, QUESTION, Finding
from dwellcalc.review.looked import Asked, Looked
from dwellcalc.review.submittal import Scheduled, Submittal
from dwellcalc.review.tie_out import Printer

NAMEPLATES = "nameplates"
LACKING = "not calculated"  # what a finding on a load that is not among those calculated is about


def on_evidence(submittal: Submittal, asked: Asked) -> Iterator[Finding]:
    """Questions for what the calculation rests on and the submittal does not show."""
    plan = submittal.instructions.review
    assert plan is not None
    sheet = Tracer(Looked(submittal.rules, asked).evaluation()).method(plan.method)
    for line in sheet.lines:
        outcome = line.outcome
        if line.id.partition(".")[0] != plan.method or outcome is None or outcome.state != KNOWN or not outcome.value:
            continue
        name = line.id.rpartition(".")[2]
        if name not in submittal.evidence:
            yield _shown(line, name)
    yield from _nameplates(submittal)
    for each in submittal.taken:
        yield Finding(
            f"taken: {each}",
            QUESTION,
            POLICY,
            "not said",
            f"Not said: {each.partition(':')[0]}",
            f"The submittal does not say it; taken is {each.partition(': ')[2]}.",
            send="the number that is on the plan",
        )


def _shown(line: SheetLine, name: str) -> Finding:
    assert line.outcome is not None
    loads = [member.item for gathered in line.outcome.members for member in gathered.items]
    return Finding(
        f"evidence: {name}",
        QUESTION,
        POLICY,
        "evidence",
        line.title,
        f"The calculation rests on it, and nothing in the submittal shows it: {', '.join(dict.fromkeys(loads))}.",
        line.cite,
        send=line.note,
    )


def _nameplates(submittal: Submittal) -> Iterator[Finding]:
    """A question for ratings of which it is not said on what they were seen, and one for those that are not given."""
    if NAMEPLATES in submittal.evidence:
        return
    rows = submittal.load_rows
    unseen = [
        each.name
        for each in load_entries(submittal.supply)
        if not each.evidence and not (each.name in rows and rows[each.name].evidence) and each.name not in submittal.not_shown
    ]
    if submittal.not_shown:
        names = ", ".join(submittal.not_shown)
        text = f"No nameplate is given for: {names}. The claimed figure was taken for the rating."
        yield Finding("evidence: ratings", QUESTION, POLICY, "evidence", "Ratings not given", text, send="their nameplates")
    if unseen:
        text = f"It is not said on what these ratings were seen: {', '.join(unseen)}."
        yield Finding(
            f"evidence: {NAMEPLATES}",
            QUESTION,
            POLICY,
            "evidence",
            "Nameplates not shown",
            text,
            send="photographs or data sheets of their nameplates",
        )


def on_unmatched(submittal: Submittal) -> Iterator[Finding]:
    """Questions for rows of which nothing is known."""
    for row in submittal.unmatched:
        claimed = f", {row.claimed}," if row.claimed is not None else ""
        yield Finding(
            f"not matched: {row.label}",
            QUESTION,
            POLICY,
            "not matched",
            f"Not matched: {row.label}",
            f"No line of the method and no kind of load is known by this name{claimed} so that it was left aside.",
            send="what it stands for",
        )


def on_unsure(submittal: Submittal) -> Iterator[Finding]:
    """Questions for figures whose label may be of several lines, of which none is sure."""
    printer = Printer(submittal.rules)
    for each in submittal.unsure:
        lines = [replace(each.claim, line=line, item=item) for line, item in each.following]
        told = " or ".join(
            f"{printer.title(claim)} (from the rows above it {printer.value(claim, value)} would follow)"
            for claim, value in zip(lines, each.following.values(), strict=True)
        )
        yield Finding(
            f"not sure: {each.label}",
            QUESTION,
            POLICY,
            "not matched",
            f"Not sure what is meant: {each.label}, {each.claim.text}",
            f"It may be {told}. It is none of these, so that it was not compared.",
            send="what it is the sum of",
        )


def on_schedule(submittal: Submittal, asked: Asked) -> Iterator[Finding]:
    """Findings on the panel schedule against the calculation, both ways, and on the scope of the work."""
    facts = submittal.supply.facts
    kinds = _kinds(facts)
    evaluation = Looked(submittal.rules, asked).evaluation()
    for circuit in submittal.schedule:
        if circuit.kind and circuit.kind not in kinds:
            yield _not_calculated(f"schedule: {circuit.label}", "the panel schedule", str(circuit.label), submittal)
        elif circuit.kind and circuit.breaker is not None and kinds.count(circuit.kind) == 1:
            yield from _breaker(circuit, evaluation, kinds.index(circuit.kind), submittal)
    for label, kind in submittal.scope:
        if kind and kind not in kinds:
            yield _not_calculated(f"scope: {label}", "the scope of the work", str(label), submittal)
        elif not kind:
            text = "No kind of load is known by this name, so that it could not be looked for in the calculation."
            yield Finding(
                f"scope not matched: {label}", QUESTION, POLICY, "scope", f"Scope not matched: {label}", text, send="what it is"
            )
    if submittal.schedule:
        scheduled = {each.kind for each in submittal.schedule}
        missing = [name for name, kind in zip(facts.collections[LOADS].names, kinds, strict=True) if kind not in scheduled]
        if missing:
            yield Finding(
                "schedule lacks loads",
                QUESTION,
                POLICY,
                "schedule",
                "In the calculation and not in the panel schedule",
                f"No circuit of the schedule is for: {', '.join(missing)}.",
                send="their circuits",
            )


def _kinds(facts: Facts) -> list[str]:
    return [str(each) for each in facts.collections[LOADS].fields["kind"]]


def _not_calculated(name: str, where: str, label: str, submittal: Submittal) -> Finding:
    method = submittal.rules.methods[submittal.method].source
    return Finding(
        name,
        ERROR,
        CODE,
        LACKING,
        f"{label} stands in {where} and not in the calculation",
        "The load is not among those calculated, so that every figure that it belongs to is too small.",
        submittal.rules.section(str(method.cite)),
        send="the calculation with it, and its nameplate",
    )


def _breaker(circuit: Scheduled, evaluation: Evaluation, position: int, submittal: Submittal) -> Iterator[Finding]:
    """Whether the breaker of a circuit is within what its load asks."""
    columns = submittal.instructions.branch_circuits
    assert circuit.breaker is not None
    if columns is None:
        return
    lines = submittal.rules.methods[columns.method].columns
    line = lines[columns.roles["breaker"]]
    assert line.each is not None
    assert line.kind is not None
    if position not in evaluation.decided(evaluation.plan.place(line.each)).items:
        return
    least, most = (evaluation.line(lines[columns.roles[role]], position) for role in ("minimum", "largest"))
    kind, glossary = line.kind, submittal.rules.glossary
    submitted = printed.value(circuit.breaker, kind, glossary)
    cite = submittal.rules.section(str(line.source.cite))
    if isinstance(least, float) and circuit.breaker < least:
        told = printed.value(least, kind, glossary)
        yield _wrong_breaker(circuit, f"It is of {submitted}; the circuit of this load has to be of {told} or more.", cite)
    elif isinstance(most, float) and circuit.breaker > most:
        told = printed.value(most, kind, glossary)
        yield _wrong_breaker(circuit, f"It is of {submitted}; the load allows one of {told} at most.", cite)


def _wrong_breaker(circuit: Scheduled, text: str, cite: str) -> Finding:
    return Finding(
        f"breaker: {circuit.label}",
        ERROR,
        CODE,
        "schedule",
        f"Breaker of {circuit.label}",
        text,
        cite,
        send="the schedule put right",
    )
