"""What one comment tells already is not asked by another: the number of circuits of which a comment says that their load is missing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dwellcalc.home.glossary_names import UNITS
from dwellcalc.placed import Mapping, key
from dwellcalc.review.behind import counts_behind
from dwellcalc.review.finding import Finding
from dwellcalc.review.general_circuits import OF_KIND
from dwellcalc.review.looked import line_of
from dwellcalc.review.of_evidence import TAKEN
from dwellcalc.review.search import SearchResult
from dwellcalc.review.submittal import Submittal


def asked_once(findings: Iterable[Finding], found: SearchResult, submittal: Submittal) -> list[Finding]:
    """The comments without the questions for numbers of circuits that another comment is about.

    Args:
        findings: all comments.
        found: what the search for mistakes found.
        submittal: as it was read.
    """
    findings = list(findings)
    told = {*_left_out(found, submittal), *_of_schedule(findings, submittal), *_of_figures(findings, submittal)}
    fields = submittal.rules.glossary.collections[UNITS].fields
    again = tuple(f"{TAKEN}{fields[name].meaning}:" for name in told if name in fields)
    return [each for each in findings if not (again and each.id.startswith(again))]


def _left_out(found: SearchResult, submittal: Submittal) -> Iterator[str]:
    """The numbers of circuits whose load a mistake that was found leaves out."""
    for suspect in (each for explanation in found.explanations for each in explanation.suspects):
        for change in suspect.changes:
            removed = change.get(key("remove")) if isinstance(change, Mapping) else None
            part = change.get(key("was")) if isinstance(change, Mapping) else None
            line = line_of(submittal.rules, f"{str(removed).partition('.')[0]}.{part}") if removed is not None else None
            behind = [] if line is None else counts_behind(line, submittal.rules.glossary)
            yield from behind if len(behind) == 1 else ()


def _of_figures(findings: Iterable[Finding], submittal: Submittal) -> Iterator[str]:
    """The numbers of circuits that a comment on a figure made of one alone is about."""
    for line in (line_of(submittal.rules, figure.line) for each in findings for figure in each.figures):
        behind = [] if line is None else counts_behind(line, submittal.rules.glossary)
        yield from behind if len(behind) == 1 else ()


def _of_schedule(findings: Iterable[Finding], submittal: Submittal) -> Iterator[str]:
    """The numbers of circuits that a comment on the panel schedule is about."""
    plan = submittal.instructions.review
    ids = {each.id for each in findings}
    for kind in plan.circuits.kinds if plan is not None and plan.circuits is not None else ():
        if kind.said and f"{OF_KIND}{kind.title}" in ids:
            yield kind.said
