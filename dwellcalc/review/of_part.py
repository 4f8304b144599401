"""The part of the section of a method that a submittal names, where another one applies: a correction where its figures are by it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace

from dwellcalc.decide.review_plan import SectionPart
from dwellcalc.evaluate.coverage import loads_in
from dwellcalc.facts import NotApplicable
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.review.finding import CODE, QUESTION, REMARK, Finding
from dwellcalc.review.labels import listed
from dwellcalc.review.looked import Asked, Looked
from dwellcalc.review.method_names import part_named
from dwellcalc.review.submittal import Submittal

OF_LOADS = "[loads]"
PART = "part of the section: "


def parts_that_do_not_apply(submittal: Submittal, asked: Asked) -> set[str]:
    """The sections of the parts of a method that do not apply to what is calculated, such as that for added heating."""
    rules = submittal.rules
    evaluation = Looked(rules, asked).evaluation()
    lines = {rules.section(each.cite): rules.methods[each.method].lines[each.line] for each in _parts(submittal)}
    return {section for section, line in lines.items() if isinstance(evaluation.line(line), NotApplicable)}


def with_part(
    findings: Iterable[Finding], submittal: Submittal, elsewhere: Collection[str], behind: Mapping[str, Collection[str]]
) -> list[Finding]:
    """The findings with what is told of the part that the submittal names where it does not apply.

    Where a finding on figures says that these are by it, the two are one correction; else it is a remark beside the others.

    Args:
        findings: those on figures.
        submittal: as it was read.
        elsewhere: the sections of the parts that do not apply.
        behind: the mistakes and readings that explain the figures of a finding, by its id.
    """
    found = list(findings)
    part = _part_named(submittal, elsewhere)
    if part is None:
        return found
    by_it = [each for each in found if part.mistake and part.mistake in behind.get(each.id, ())]
    if not by_it:
        return [*found, _remark(part, submittal)]
    return [_by_the_part(each, part, submittal) if each is by_it[0] else each for each in found]


def decided(findings: Iterable[Finding], submittal: Submittal, behind: Mapping[str, Collection[str]]) -> set[str]:
    """The addresses of the readings of which a correction tells already how it is."""
    told = {name for each in findings for name in behind.get(each.id, ())}
    return {each.reading for each in _parts(submittal) if each.reading and each.mistake in told}


def _parts(submittal: Submittal) -> Iterator[SectionPart]:
    plan = submittal.instructions.review
    yield from (each for each in (plan.parts if plan is not None else ()) if each.method == submittal.method)


def _part_named(submittal: Submittal, elsewhere: Collection[str]) -> SectionPart | None:
    """The part that is named and does not apply."""
    named = part_named(submittal.method_said, submittal.method, submittal.rules)
    sections = {each: submittal.rules.section(each.cite) for each in _parts(submittal)}
    found = (each for each, section in sections.items() if section.endswith(f"({named})") and section in elsewhere)
    return next(found, None) if named else None


def _others(part: SectionPart, submittal: Submittal) -> list[SectionPart]:
    return [each for each in _parts(submittal) if each is not part]


def _sections(parts: Iterable[SectionPart], submittal: Submittal) -> str:
    return " and ".join(submittal.rules.section(each.cite) for each in parts)


def _remark(part: SectionPart, submittal: Submittal) -> Finding:
    section, others = submittal.rules.section(part.cite), _sections(_others(part, submittal), submittal)
    if submittal.unmatched:  # one of these may be what decides which part it is
        aside = listed(str(row.label) for row in submittal.unmatched)
        text = f"By the rows that we could identify {others} would apply. Left aside is: {aside}."
        send = "which part of the section the calculation is by, and what these rows stand for"
        title = f"The calculation names {section}"
        return Finding(f"{PART}{section}", QUESTION, CODE, "method", title, text, others, send=send)
    return Finding(
        f"{PART}{section}",
        REMARK,
        CODE,
        "method",
        f"The calculation names {section}",
        f"{part.told}, and {others} applies. The figures are compared with that.",
        others,
        send="which part of the section the calculation is by",
    )


def _by_the_part(made: Finding, part: SectionPart, submittal: Submittal) -> Finding:
    """A finding on figures that are by a part which does not apply, as one correction that says so."""
    section, others = submittal.rules.section(part.cite), _sections(_others(part, submittal), submittal)
    doubt = " ".join(each for each in made.text.split(". ")[-1:] if made.severity == QUESTION)
    told = part.wrong.replace(OF_LOADS, listed(_loads(_others(part, submittal), submittal)))
    return replace(
        made,
        heading=f"By {section}, which does not apply here",
        text=" ".join(each for each in (f"The figures are by {section}. {told}.", doubt) if each),
        section=others,
        send=part.send,
        equal=[],
    )


def _loads(parts: Iterable[SectionPart], submittal: Submittal) -> list[str]:
    """The loads that the lines of some parts hold."""
    evaluation = Looked(submittal.rules, submittal.asked).evaluation()
    names = submittal.supply.facts.collections[LOADS].names
    places: dict[int, None] = {}
    for each in parts:
        line = submittal.rules.methods[each.method].lines[each.line]
        evaluation.line(line)
        places |= dict.fromkeys(loads_in(evaluation, each.method, line))
    return [names[each] for each in sorted(places)]
