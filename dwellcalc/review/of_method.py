"""Findings on the method and its text: its conditions of use, what it leaves out, and the sections that are cited."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence

from dwellcalc.evaluate.sheet import MethodSheet, UseCondition
from dwellcalc.evaluate.trace import ON_CONDITION, Tracer
from dwellcalc.evaluate.work import NO
from dwellcalc.review.claims import Claim
from dwellcalc.review.editions_beside import edition_beside
from dwellcalc.review.finding import CODE, ERROR, POLICY, QUESTION, REMARK, Finding
from dwellcalc.review.labels import listed
from dwellcalc.review.looked import Asked, Looked, line_of
from dwellcalc.review.row_lines import lines_with_load
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.tie_out import Printer

PREFIX = re.compile(r"\b(?:NEC|Section|Sec|Article|Art|Table|Tbl|T)\b\.?|\u00a7|\s", re.IGNORECASE)
PARTS = re.compile(r"[,;]| and | & ")


def on_method(submittal: Submittal, asked: Asked) -> Iterator[Finding]:
    """Findings on the method: its conditions of use, and what it leaves out although the submittal lists it."""
    sheet = Tracer(Looked(submittal.rules, asked).evaluation()).method(submittal.method)
    if not submittal.method_named:
        yield Finding(
            "method not named",
            QUESTION,
            POLICY,
            "method",
            "The method is not named",
            f"We compared the figures with: {sheet.title}. If another method was used, they cannot agree.",
            sheet.cite,
            send="which method of the code was used",
        )
    if not submittal.edition_named:
        yield Finding(
            "edition not named",
            QUESTION,
            POLICY,
            "method",
            "The edition is not named",
            f"We compared the figures with {submittal.rules.title}.",
            send="which edition of the code, with which amendments, the calculation is made by",
        )
    for condition in sheet.conditions:
        if condition.outcome == NO:
            yield _may_not(condition, sheet)
        elif condition.outcome == ON_CONDITION:
            yield _on_condition(condition, sheet)
    yield from _left_out(submittal, sheet)


def _may_not(condition: UseCondition, sheet: MethodSheet) -> Finding:
    return Finding(
        f"method {sheet.id} may not be used: {condition.if_not}",
        ERROR,
        CODE,
        "method",
        f"{sheet.title} may not be used here",
        f"{condition.if_not[:1].upper()}{condition.if_not[1:]}. Its figures are compared all the same.",
        condition.cite,
        send="the calculation by a method that may be used",
    )


def _on_condition(condition: UseCondition, sheet: MethodSheet) -> Finding:
    return Finding(
        f"method {sheet.id} on condition: {condition.asks}",
        QUESTION,
        CODE,
        "method",
        f"{sheet.title}: a condition of use is open",
        f"The method may be used on condition that {condition.asks}.",
        condition.cite,
        send=f"evidence that {condition.asks}",
    )


def _left_out(submittal: Submittal, sheet: MethodSheet) -> Iterator[Finding]:
    """Rows of loads that the method leaves out, with the reason."""
    for entry in sheet.left_out:
        rows = [name for name, row in submittal.load_rows.items() if row.claimed is not None and _listed(name, entry.items)]
        if rows:
            yield Finding(
                f"left out by {sheet.id}: {', '.join(rows)}",
                REMARK,
                CODE,
                "left out",
                f"Not counted by this method: {listed(rows)}",
                f"The method leaves it out: {entry.because}.",
                entry.cite,
                send="how it is connected, if that is not so",
            )


def _listed(name: str, items: list[str]) -> bool:
    """Whether a load is listed, with or without its number behind it."""
    return any(each == name or each.rpartition(" (")[0] == name for each in items)


# sections


def on_citations(
    submittal: Submittal, asked: Asked, claims: Sequence[Claim], told: Collection[tuple[str, str]] = ()
) -> Iterator[Finding]:
    """Findings on sections that are cited for other lines than they are of, or are of other editions, those as one.

    Args:
        submittal: as it was read.
        asked: what is calculated.
        claims: the figures whose sections are looked at.
        told: the places of figures of which a comment tells the section already.
    """
    rules, printer = submittal.rules, Printer(submittal.rules)
    of_editions: dict[str, list[Claim]] = {}
    for claim in claims:
        cited = sections_in(claim.section)
        if not cited or _belongs(cited, _own_sections(claim, submittal, asked)):
            continue
        other = _editions_of(cited, claim, submittal)
        if other:
            of_editions.setdefault(other, []).append(claim)
            continue
        if claim.at in told:
            continue
        ours = printer.section(claim)
        yield Finding(
            f"section {claim.section} cited for {claim.line}{f' of {claim.item}' if claim.item else ''}",
            REMARK,
            CODE,
            "section",
            f"{claim.label}: {claim.section} is cited",
            f"In {rules.title} this line rests on {ours}.",
            ours,
            send="which rule is meant",
        )
    for other, found in of_editions.items():
        yield _of_editions(other, found, printer)


def _of_editions(other: str, claims: list[Claim], printer: Printer) -> Finding:
    """The finding on sections of other editions."""
    told = "; ".join(f"{claim.label}: {claim.section} is {printer.section(claim)} here" for claim in claims)
    return Finding(
        f"sections of {other}",
        ERROR,
        CODE,
        "section",
        f"Sections of {other} are cited",
        f"The calculation is by {printer.rules.title}. {told}.",
        send="the calculation with the sections of the edition that it is made by",
    )


def _own_sections(claim: Claim, submittal: Submittal, asked: Asked) -> set[str]:
    """The sections of the line that a claim is for, and of those that its load is in."""
    rules = submittal.rules
    line = line_of(rules, claim.line)
    assert line is not None
    lines = [line]
    if claim.row and claim.label in submittal.load_rows:
        evaluation = Looked(rules, asked).evaluation()
        lines += lines_with_load(rules, submittal.method, evaluation, claim.label)
    cites = {str(each.source.cite) for each in lines}
    cites |= {str(case.cite) for each in lines for case in each.source.cases if case.cite is not None}
    return {section for cite in cites for section in sections_in(rules.section(cite))}


def _editions_of(cited: set[str], claim: Claim, submittal: Submittal) -> str:
    """The titles of the other editions, first to last, of which the cited section is that of the same line, or empty."""
    line = line_of(submittal.rules, claim.line)
    assert line is not None
    others = [edition_beside(submittal.rules, each) for each in submittal.instructions.offered if each != submittal.rules.id]
    titles = [rules.title for rules in others if _belongs(cited, sections_in(rules.section(str(line.source.cite))))]
    return " to ".join(dict.fromkeys([titles[0], titles[-1]])) if titles else ""


def sections_in(text: str) -> set[str]:
    """The sections that a text cites, without spaces and without the word for it."""
    return {PREFIX.sub("", part).casefold() for part in PARTS.split(text) if PREFIX.sub("", part)}


def _belongs(cited: set[str], known: set[str]) -> bool:
    """Whether one of the cited sections is one of those known, or a part of one, or holds one."""
    return any(_part_of(a, b) or _part_of(b, a) for a in cited for b in known)


def _part_of(section: str, whole: str) -> bool:
    """Whether a section is another one or stands in it."""
    return section == whole or (section.startswith(whole) and not section[len(whole)].isalnum())
