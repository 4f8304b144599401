"""Findings on what is shown and said: evidence for what the calculation rests on, and figures that were not matched."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from dwellcalc.decide.listing import load_entries
from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.decide.sections import is_of_another
from dwellcalc.evaluate.sheet import KNOWN, SheetLine
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.home.glossary_names import LOADS, UNITS
from dwellcalc.language.reach import behind
from dwellcalc.language.tree import ReadField
from dwellcalc.review.finding import CODE, EVIDENCE, NOT_MATCHED, POLICY, QUESTION, REMARK, Finding
from dwellcalc.review.label_figures import LabelFigures, without_device
from dwellcalc.review.labels import listed
from dwellcalc.review.looked import Asked, Looked
from dwellcalc.review.of_plausible import rated_as_breakers
from dwellcalc.review.phrases import Phrases
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.tie_out import Printer

NAMEPLATES = "nameplates"
TAKEN = "taken: "  # how the id of a question for a number begins that was taken
DIGITS = re.compile(r"(?<![\d.,])\d{4,}(?![\d.,])")  # of a figure without thousands separated


def on_evidence(submittal: Submittal, asked: Asked) -> Iterator[Finding]:
    """Questions for what the calculation rests on and the submittal does not show."""
    plan = submittal.instructions.review
    assert plan is not None
    sheet = Tracer(Looked(submittal.rules, asked).evaluation()).method(plan.method)
    beside: dict[str, list[str]] = {}
    looked = Looked(submittal.rules, asked)
    for line in sheet.lines:
        outcome = line.outcome
        if line.id.partition(".")[0] != plan.method or outcome is None or outcome.state != KNOWN or not outcome.value:
            continue
        name = line.id.rpartition(".")[2]
        if is_of_another(line.cite, submittal.method, submittal.rules) or _is_none_beside(name, submittal):
            continue
        others = Phrases(plan.not_asked.get(name, ()))
        members = (member.item for gathered in outcome.members for member in gathered.items)
        loads = [each for each in dict.fromkeys(members) if not others.are_in(each)]
        if name in plan.with_nameplates:
            beside[plan.with_nameplates[name]] = loads
            continue
        if name in plan.remarks:  # of a load that is in no figure there is nothing to remark
            loads = [each for each in loads if not looked.same_without(each)]
        asked_for = plan.comes_on_top.get(name, "") in {each.kind for each in submittal.open_loads}  # its rating is asked for
        if name not in submittal.evidence and loads and not asked_for:
            yield _shown(line, name, loads, submittal)
    yield from _nameplates(submittal, beside)
    yield from _stated(submittal, plan)
    for each in submittal.taken:
        if not _is_read(each.partition(":")[0], submittal):
            continue
        yield Finding(
            f"{TAKEN}{each}",
            QUESTION,
            POLICY,
            "not said",
            f"Number not stated: {each.partition(':')[0]}",
            f"The submittal does not state how many there are; we took {each.partition(': ')[2]}.",
            send="how many there are",
        )


def _stated(submittal: Submittal, plan: ReviewPlan) -> Iterator[Finding]:
    """A question for what shows an amount that the submittal states and the method is given, such as a maximum demand."""
    method = submittal.rules.methods[submittal.method].source
    for name in submittal.stated:
        if name in plan.stated and name not in submittal.evidence:
            title, send = plan.stated[name][0], plan.stated[name][-1]
            text = "The calculation rests on this amount, and the submittal does not show what it was taken from."
            section = submittal.rules.section(str(method.cite))
            yield Finding(f"{EVIDENCE}{name}", QUESTION, CODE, "evidence", title, text, section, send=send)


def _is_read(meaning: str, submittal: Submittal) -> bool:
    """Whether the load of the method rests on a field of a dwelling unit that is told by what it means."""
    fields = submittal.rules.glossary.collections[UNITS].fields
    names = {name for name, each in fields.items() if each.meaning == meaning}
    result = next(iter(submittal.rules.methods[submittal.method].results.values()))
    return any(isinstance(each, ReadField) and each.level == UNITS and each.field in names for each in behind(result))


def _is_none_beside(name: str, submittal: Submittal) -> bool:
    """Whether all planned heating and cooling is of such a kind that a result is not asked for beside it."""
    plan, loads = submittal.instructions.review, submittal.supply.facts.collections[LOADS]
    if plan is None or plan.selection is None or name not in plan.not_asked_beside:
        return False
    words, kinds = Phrases(plan.not_asked_beside[name]), loads.fields["kind"]
    planned = [loads.names[at] for at in submittal.supply.planned if kinds[at] in plan.selection.kinds]
    return bool(planned) and all(map(words.are_in, planned))


def shown_with(submittal: Submittal) -> dict[str, str]:
    """What the submittal shows and where a rating was read, by the title of what that is for."""
    plan = submittal.instructions.review
    assert plan is not None
    lines = submittal.rules.methods[plan.method].results
    titles = {name: str(line.source.title) for name, line in lines.items()}
    found = {titles.get(name, name.capitalize()): text for name, text in submittal.evidence.items()}
    return found | {name: str(row.evidence) for name, row in submittal.load_rows.items() if row.evidence}


def _shown(line: SheetLine, name: str, loads: list[str], submittal: Submittal) -> Finding:
    plan = submittal.instructions.review
    assert plan is not None
    remark = plan.remarks.get(name, "")
    if remark:
        title = f"{line.title}: {listed(loads)}"
        return Finding(f"{EVIDENCE}{name}", REMARK, POLICY, "evidence", title, f"{remark}.", send=line.note)
    begin = plan.asked.get(name, "The calculation relies on this, and the submittal does not show it")
    told = submittal.instructions.remarks.get(plan.with_remark.get(name, ""), "")  # as the edition has it, with the section
    return Finding(
        f"{EVIDENCE}{name}",
        QUESTION,
        POLICY,
        "evidence",
        line.title,
        " ".join(each for each in (f"{begin}: {listed(map(submittal.in_full, loads))}.", told) if each),
        "" if told else line.cite,
        send=line.note,
    )


def _nameplates(submittal: Submittal, beside: Mapping[str, Sequence[str]]) -> Iterator[Finding]:
    """One question for the ratings that are not given and for those of which it is not said on what they were seen.

    Args:
        submittal: as it was read.
        beside: what is asked for beside them, with the loads of which it is not known.
    """
    shown = submittal.shown
    if shown is None:
        return
    rows, names = submittal.load_rows, submittal.supply.facts.collections[LOADS].names
    planned = {names[position] for position in submittal.supply.planned}  # where it is said what is new, that alone is asked for
    plan = submittal.instructions.review
    figures = LabelFigures(submittal.rules, (), plan.label_volts if plan is not None else ())
    printed = {
        each
        for each in submittal.not_shown
        if each in rows and figures.gives_a_rating(figures.with_volts(without_device(rows[each].label)))
    }
    doubtful = rated_as_breakers(submittal)  # which a question of its own asks for
    without = [
        each
        for each in submittal.not_shown
        if each not in shown and each not in {*printed, *doubtful} and each in (planned or names)
    ]
    unseen = [
        each.name
        for each in load_entries(submittal.supply)
        if each.name in (planned or names)
        and not each.evidence
        and not (each.name in rows and rows[each.name].evidence)
        and each.name not in {*without, *shown, *doubtful}
    ]
    if not without and not unseen:
        return
    ratings = "these ratings were" if len(unseen) > 1 else "this rating was"
    seen = f"The submittal does not say where {ratings} read: {listed(map(submittal.in_full, unseen))}." if unseen else ""
    given = (
        f"No nameplate rating is given for {listed(map(submittal.in_full, without))}. We took the figure in the table for the rating."
        if without
        else ""
    )
    title = "Nameplates of new equipment not shown" if planned else "Nameplates not shown"
    further = (
        f", {what} {listed(some)}"
        for what, loads in (*beside.items(), *_compressors(submittal))
        if (some := [each for each in loads if each in (planned or names)])
    )
    yield Finding(
        f"{EVIDENCE}{'ratings' if without else NAMEPLATES}",
        QUESTION,
        POLICY,
        "evidence",
        title if not without else "Ratings not given, or not shown" if unseen else "Ratings not given",
        " ".join(each for each in (given, seen) if each),
        send=f"{'photographs of the nameplates, or data sheets' if unseen else 'the nameplate ratings'}{''.join(further)}",
    )


def _compressors(submittal: Submittal) -> Iterator[tuple[str, list[str]]]:
    """What is asked for of outdoor units of which only the current of the compressor is given, with these."""
    plan, loads = submittal.instructions.review, submittal.supply.facts.collections[LOADS]
    told = plan.compressor_alone if plan is not None else {}
    if not told:
        return
    words, beside = Phrases(told["words"]), Phrases(told["beside"])
    of_kind = {name for name, kind in zip(loads.names, loads.fields["kind"], strict=True) if kind in told["kinds"]}
    text = {
        name: f"{row.label} {row.printed or row.nameplate or ''}" for name, row in submittal.load_rows.items() if name in of_kind
    }
    yield told["send"][0], [name for name, said in text.items() if words.are_in(said) and not beside.are_in(said)]


def on_unmatched(submittal: Submittal) -> Iterator[Finding]:
    """Questions for rows of which nothing is known."""
    for row in submittal.unmatched:
        figure = "" if row.claimed is None else DIGITS.sub(lambda found: f"{int(found[0]):,}", row.claimed)
        aside = f"{f'Its figure, {figure},' if figure else 'It'} was left aside."
        title, text, send = (
            f"Row not identified: {row.label}",
            "We could not tell which load, or which line of the calculation, this row stands for.",
            "what it stands for",
        )
        if row.label in submittal.no_loads:
            why = submittal.no_loads[row.label]
            text, send = f"By its name this is no electrical load: {why}.", "which part of it is electrical, and its nameplate"
        elif row.label in submittal.open_kinds:
            title = f"{row.label} may be one of several loads"
            text, send = f"The label leaves open which it is: {submittal.open_kinds[row.label]}.", "which of these it is"
        yield Finding(f"not matched: {row.label}", QUESTION, POLICY, NOT_MATCHED, title, f"{text} {aside}", send=send)


def on_blank(submittal: Submittal) -> Iterator[Finding]:
    """Questions for the rows of loads that have neither a rating nor a figure: they are not counted."""
    told = "The table lists this without a rating and without a figure, and it is not counted here"
    plain = [row for row in submittal.blank if str(row.label) not in submittal.reasons]
    if plain:
        yield Finding(
            "rows without figures",
            QUESTION,
            POLICY,
            "not said",
            f"No rating and no figure: {listed(row.label for row in plain)}",
            f"{told}.",
            send="whether this is to be installed; if it is, we need the calculation with it, and its nameplate",
        )
    for row in submittal.blank:
        said = submittal.reasons.get(str(row.label))
        if said is not None:
            yield Finding(
                f"row without figures: {row.label}",
                QUESTION,
                POLICY,
                "not said",
                f"No rating and no figure: {row.label}",
                f"{told}; {said.where}.",
                submittal.rules.section(said.reason.cite),
                send=f"its nameplate, and {said.reason.send}",
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
            "not sure",
            f"Sum not identified: {each.label}, {each.claim.text}",
            f"It may be {told}. It agrees with none of these, so it was not compared.",
            send="what this is the sum of",
        )
