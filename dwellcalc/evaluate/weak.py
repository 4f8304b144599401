"""The code values of weak evidence that a sheet rests on: parameters, tables, tiers, section numbers, changes of an edition."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dwellcalc.evaluate.sheet import KNOWN
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.evaluate.work import Worker, state_of
from dwellcalc.language.applied import Applied
from dwellcalc.language.reach import addresses_in, named_by
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedGroup, CheckedLine, CheckedRun, ReadChoice
from dwellcalc.language.words import POLICY, WEAK_GRADES
from dwellcalc.placed import Text, spaced

VALUE, SECTION, CHANGE = "value", "section", "change"


@dataclass(frozen=True)
class _Rested:
    """What a sheet rests on: what it is, its citation key, its grade; of a parameter also its address."""

    what: str
    cite: str
    confidence: Text | None
    parameter: str = ""


def weak_values(lines: list[CheckedLine], evaluation: Evaluation, worker: Worker) -> list[dict[str, str]]:
    """The code values of weak evidence under printed lines: parameters, tables, tiers, section numbers, changes.

    Each says what it is of (``value``, ``section`` or ``change``), what it is, its section and its grade; a parameter also the
    title of the first line that reads it, and its status where it is the project's choice and nobody changed it (policy).

    Args:
        lines: the printed lines.
        evaluation: what they were evaluated in.
        worker: what told their work, and so knows the parameters and tables read.
    """
    rules = evaluation.plan.rules
    found: dict[str, dict[str, str]] = {}
    for each in _rested_on(lines, evaluation, worker):
        if each.confidence in WEAK_GRADES and each.what not in found:
            section = rules.section(each.cite)
            of = SECTION if each.what == _section_number(section) else VALUE
            found[each.what] = {"of": of, "what": each.what, "cite": section, "confidence": str(each.confidence)}
            if each.parameter:
                found[each.what] |= _of_parameter(each.parameter, lines, evaluation)
    for change in _weak_changes(lines, evaluation):
        what = f"change of {change.document}: {change.set_title}"
        found.setdefault(what, {"of": CHANGE, "what": what, "cite": rules.section(change.cite), "confidence": change.confidence})
    return list(found.values())


def _of_parameter(address: str, lines: list[CheckedLine], evaluation: Evaluation) -> dict[str, str]:
    """The title of the first line that reads a parameter, and its status where it is the project's own."""
    rules = evaluation.plan.rules
    document, _, name = address.partition(".")
    status = rules.documents[document].parameters[name].status
    own = status == POLICY and all(change.piece != address for change in rules.applied)
    line = next((line for line in lines if address in addresses_in(line)), None)
    return {**({"line": evaluation.plan.title(line)} if line is not None else {}), **({"status": status} if own else {})}


def _weak_changes(lines: list[CheckedLine], evaluation: Evaluation) -> Iterator[Applied]:
    """The changes of weak evidence to lines, groups, runs and readings, which state no evidence of their own."""
    weak = _changes_of_weak_evidence(evaluation.plan.rules)
    if not weak:
        return
    told: set[str] = set()
    for line in lines:
        if any(state_of(value) == KNOWN for value in evaluation.cells[line.position]):
            named = named_by(line)
            told |= {each.address for each in named if isinstance(each, (CheckedLine, CheckedGroup, CheckedRun, ReadChoice))}
    for change in weak:
        if change.piece in told:
            yield change


def _changes_of_weak_evidence(rules: RuleSet) -> list[Applied]:
    """Of each piece the last change, where its evidence is weak."""
    last = {each.address if each.operation == "change" else (each.address, each.now): each for each in rules.applied}
    return [each for each in last.values() if each.confidence in WEAK_GRADES]


def _rested_on(lines: list[CheckedLine], evaluation: Evaluation, worker: Worker) -> Iterator[_Rested]:
    rules = evaluation.plan.rules
    for address in worker.parameters:
        document, _, name = address.partition(".")
        parameter = rules.documents[document].parameters[name]
        what = f"{spaced(name)}: {parameter.value}"
        yield _Rested(what, str(parameter.cite), parameter.evidence.confidence, address)
    for table in worker.tables.values():
        yield _Rested(str(table.title), str(table.cite), table.confidence)
    for line in lines:
        if any(state_of(value) == KNOWN for value in evaluation.cells[line.position]):
            yield _Rested(evaluation.plan.title(line), str(line.source.cite), line.source.evidence.confidence)
            yield from _sections(line, evaluation, rules)


def _section_number(section: str) -> str:
    return f"section number {section}"


def _sections(line: CheckedLine, evaluation: Evaluation, rules: RuleSet) -> Iterator[_Rested]:
    """The section numbers that a line's values rest on: its own, and that of each case that was taken."""
    taken = {case for (position, _), case in evaluation.cases.items() if position == line.position}
    cites = [line.cases[case].source.cite for case in sorted(taken)]
    for cite in [str(line.source.cite), *(str(each) for each in cites if each is not None)]:
        if cite in rules.citations:
            yield _Rested(_section_number(str(rules.citations[cite].section)), cite, rules.citations[cite].confidence)
