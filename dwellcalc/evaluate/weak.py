"""The code values of weak evidence that a sheet rests on."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.evaluate.sheet import KNOWN
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.evaluate.work import Worker, state_of
from dwellcalc.facts import spaced
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine
from dwellcalc.language.words import WEAK_GRADES
from dwellcalc.reading import Text

Rested = tuple[str, str, Text | None]


def weak_values(lines: list[CheckedLine], evaluation: Evaluation, worker: Worker) -> list[dict[str, str]]:
    """The code values of weak evidence under printed lines: parameters, tables, tiers, section numbers.

    Args:
        lines: the printed lines.
        evaluation: what they were evaluated in.
        worker: what told their work, and so knows the parameters and tables read.
    """
    rules = evaluation.plan.rules
    found: dict[str, dict[str, str]] = {}
    for what, cite, confidence in _rested_on(lines, evaluation, worker):
        if confidence in WEAK_GRADES:
            found.setdefault(what, {"what": what, "cite": rules.section(cite), "confidence": str(confidence)})
    return list(found.values())


def _rested_on(lines: list[CheckedLine], evaluation: Evaluation, worker: Worker) -> Iterator[Rested]:
    rules = evaluation.plan.rules
    for address in worker.parameters:
        document, _, name = address.partition(".")
        parameter = rules.documents[document].parameters[name]
        yield f"{spaced(name)}: {parameter.value}", str(parameter.cite), parameter.evidence.confidence
    for table in worker.tables.values():
        yield str(table.title), str(table.cite), table.confidence
    for line in lines:
        if any(state_of(value) == KNOWN for value in evaluation.cells[line.position]):
            yield evaluation.plan.title(line), str(line.source.cite), line.source.evidence.confidence
            yield from _sections(line, evaluation, rules)


def _sections(line: CheckedLine, evaluation: Evaluation, rules: RuleSet) -> Iterator[Rested]:
    """The section numbers that a line's values rest on: its own, and that of each case that was taken."""
    taken = {case for (position, _), case in evaluation.cases.items() if position == line.position}
    cites = [line.cases[case].source.cite for case in sorted(taken)]
    for cite in [str(line.source.cite), *(str(each) for each in cites if each is not None)]:
        if cite in rules.citations:
            yield f"section number {rules.citations[cite].section}", cite, rules.citations[cite].confidence
