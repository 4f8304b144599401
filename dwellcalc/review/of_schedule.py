"""Findings on the panel schedule against the calculation, both ways, and on the scope of the work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dwellcalc.home.glossary_names import LOADS, ON_CIRCUIT
from dwellcalc.review.breakers import TOO_LARGE, TOO_SMALL, Breaker
from dwellcalc.review.finding import CODE, ERROR, POLICY, QUESTION, Finding
from dwellcalc.review.labels import in_print, listed, words_of
from dwellcalc.review.of_later import LATER, SEND
from dwellcalc.review.of_plausible import rated_as_breakers
from dwellcalc.review.row_status import PLANNED
from dwellcalc.review.submittal import Scheduled, Submittal

LACKING = "not calculated"  # what a finding on a load that is not among those calculated is about


def on_schedule(submittal: Submittal, breakers: Iterable[Breaker]) -> Iterator[Finding]:
    """Findings on the schedule and on the scope of a submittal.

    Args:
        submittal: as it was read.
        breakers: the circuits of its schedule, held to their loads.
    """
    kinds_later = {each.kind for each in submittal.later if each.kind and not each.counted}
    kinds_open = {each.kind for each in submittal.open_loads}
    for circuit in submittal.schedule:
        if circuit.removed:
            continue
        if circuit.kind in kinds_later or (circuit.kind in kinds_open and not circuit.loads):
            continue  # the comment on the row tells it
        if circuit.kind and not circuit.loads and circuit.later:
            yield _later(f"schedule: {circuit.label}", "the panel schedule", circuit)
        elif circuit.kind and not circuit.loads:
            yield _not_calculated(f"schedule: {circuit.label}", "the panel schedule", str(circuit.label), submittal)
        elif circuit.may_be:
            yield _of_several_kinds(f"schedule: {circuit.label}", "the panel schedule", circuit, submittal)
    doubtful = rated_as_breakers(submittal)  # there the rating itself is asked for
    wrong = (each for each in breakers if each.verdict in (TOO_SMALL, TOO_LARGE) and each.load not in doubtful)
    yield from map(_wrong_breaker, wrong)
    for each in submittal.scope:
        if each.aside or each.removed or each.general is not None or (each.kind in kinds_open and not each.loads):
            continue
        if each.kind and not each.loads and each.later:
            yield _later(f"scope: {each.label}", "the scope of the work", each)
        elif each.kind and not each.loads:
            yield _not_calculated(f"scope: {each.label}", "the scope of the work", str(each.label), submittal)
        elif each.may_be:
            yield _of_several_kinds(f"scope: {each.label}", "the scope of the work", each, submittal)
        elif not each.kind and not each.loads and not _is_of_all(each.label, submittal):
            text = "We could not tell which load this is, and so could not look for it in the calculation."
            title = f"Scope not identified: {each.label}"
            yield Finding(f"scope not matched: {each.label}", QUESTION, POLICY, "scope", title, text, send="what it is")
    yield from _without_breaker(submittal)
    yield from _without_circuit(submittal)
    yield from _not_known(submittal)


def _is_of_all(label: str, submittal: Submittal) -> bool:
    """Whether an entry of the scope means the dwelling as a whole, such as new house."""
    plan = submittal.instructions.review
    words = (
        {word for each in (*plan.heading, *plan.planned, *plan.unmeaning) for word in words_of(each)}
        if plan is not None
        else set()
    )
    return set(words_of(label)) <= words


def _without_breaker(submittal: Submittal) -> Iterator[Finding]:
    """A question for the new circuits of a schedule that give no breaker."""
    names = submittal.supply.facts.collections[LOADS].names
    planned = {names[position] for position in submittal.supply.planned}
    told = [
        str(each.label)
        for each in submittal.schedule
        if each.breaker is None and each.loads and set(each.loads) <= planned and not (each.removed or each.aside)
    ]
    if told:
        text = f"The panel schedule gives no breaker for {listed(told)}."
        send = (
            "the breakers of these circuits, with their conductors"
            if told[1:]
            else "its breaker, with the conductors of the circuit"
        )
        yield Finding("no breaker given", QUESTION, POLICY, "schedule", f"Breakers not given: {listed(told)}", text, send=send)


def _not_known(submittal: Submittal) -> Iterator[Finding]:
    """A question for the circuits whose labels say nothing that is known: they may be for loads that are not calculated."""
    told = [
        each.label
        for each in submittal.schedule
        if not (each.kind or each.loads or each.may_be or each.aside or each.removed or each.general is not None)
    ]
    several = len(told) > 1
    if told:
        yield Finding(
            "schedule not matched",
            QUESTION,
            POLICY,
            "schedule",
            f"{'Circuits' if several else 'Circuit'} not identified: {listed(told)}",
            f"We could not tell what {'these circuits serve' if several else 'this circuit serves'}, and so could not look for "
            f"{'their loads' if several else 'its load'} in the calculation.",
            send="the load that each of them serves" if several else "the load that it serves",
        )


def _without_circuit(submittal: Submittal) -> Iterator[Finding]:
    """A question for the loads that no circuit of the schedule is for; of a schedule of new circuits alone for the planned ones."""
    scheduled = {name for circuit in submittal.schedule for name in circuit.loads}
    names = submittal.supply.facts.collections[LOADS].names
    planned = [names[position] for position in submittal.supply.planned]
    of_new_work = bool(planned or any(each.row.status == PLANNED for each in submittal.open_loads)) and scheduled <= set(planned)
    on_another = submittal.supply.facts.collections[LOADS].fields[ON_CIRCUIT]
    scheduled |= {name for name, is_on in zip(names, on_another, strict=True) if is_on is True}
    missing = [name for name in (planned if of_new_work else names) if name not in scheduled]
    several = len(missing) > 1
    if submittal.schedule and missing:
        yield Finding(
            "schedule lacks loads",
            QUESTION,
            POLICY,
            "schedule",
            "Loads without a circuit in the panel schedule" if several else "A load without a circuit in the panel schedule",
            f"The calculation counts {'these' if several else 'this'}, and no circuit of the schedule is labelled for "
            f"{'them' if several else 'it'}: {listed(map(submittal.in_full, missing))}.",
            send="the circuits that feed them" if several else "the circuit that feeds it",
        )


def _not_calculated(name: str, where: str, label: str, submittal: Submittal) -> Finding:
    method = submittal.rules.methods[submittal.method].source
    aside = listed(row.label for row in submittal.unmatched)
    return Finding(
        name,
        QUESTION if aside else ERROR,
        CODE,
        LACKING,
        f"{label}: in {where}, not in the calculation",
        f"This may be a row that we could not identify and left aside: {aside}."
        if aside
        else "The calculation does not count this load, so every figure that it belongs to is too small.",
        submittal.rules.section(str(method.cite)),
        send="the calculation with this load, and its nameplate",
    )


def _later(name: str, where: str, found: Scheduled) -> Finding:
    """A question for a load that is not calculated, and of which the submittal says that it comes later or is of others."""
    text = f"It stands in {where}, is said to come later or to be by others, and is not counted here."
    return Finding(name, QUESTION, POLICY, LATER, f"Not counted: {found.label}", text, send=SEND)


def _of_several_kinds(name: str, where: str, found: Scheduled, submittal: Submittal) -> Finding:
    """A question for a label that leaves the kind of load open: one of these may be in the calculation, or none is."""
    loads = submittal.supply.facts.collections[LOADS]
    kinds = {each.kind for each in found.may_be}
    calculated = [each for each, kind in zip(loads.names, loads.fields["kind"], strict=True) if kind in kinds]
    told = f"It stands in {where}, and may be: {in_print(found.may_be, submittal.rules)}."
    what = f"Of these the calculation has: {', '.join(calculated)}." if calculated else "None of these is in the calculation."
    about = "schedule" if calculated else LACKING
    title = f"{found.label} may be one of several loads"
    return Finding(name, QUESTION, POLICY, about, title, f"{told} {what}", send="which of these it is")


def _wrong_breaker(found: Breaker) -> Finding:
    text = f"The schedule lists {found.breaker}; the load allows {found.largest} at most."
    if found.verdict == TOO_SMALL:
        text = (
            f"The schedule lists {found.breaker}; the circuit of this load needs {found.least} or more, "
            f"since its minimum ampacity is {f'{found.working} = ' if found.working else ''}{found.minimum}."
        )
    return Finding(
        f"breaker: {found.label}",
        ERROR,
        CODE,
        "schedule",
        f"Breaker of {found.label}",
        text,
        found.section,
        send="the corrected panel schedule",
        stays=text,
    )
