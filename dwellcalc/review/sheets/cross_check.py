"""Operands against the lines that they name: what a line reads must be what the other line of its sheet prints."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from dwellcalc.review.sheets.disagreements import Disagreement, Findings, evaluations, line_id
from dwellcalc.review.sheets.recomputed_values import KNOWN, NOT_NEEDED, NOT_PRINTED, Record


@dataclass(frozen=True)
class Sheet:
    """The lines of a sheet.

    Attributes:
        lines: each line by its id.
    """

    lines: Mapping[str, Record]

    @classmethod
    def of(cls, lines: Iterable[Record]) -> Sheet:
        """The sheet with these lines; of two with one id the later."""
        return cls({line_id(line): line for line in lines})

    def disagreements(self, line: Record, *, tolerance: float) -> list[Disagreement]:
        """What disagrees between the operands of a line and the lines that they name; units must be the same.

        Args:
            line: a line of the sheet.
            tolerance: the largest difference that counts as none, relative or absolute.
        """
        findings = Findings(line_id(line), tolerance)
        with findings.guarded():
            for evaluation in findings.each_evaluation(line):
                if evaluation["state"] != NOT_NEEDED:
                    self._check(evaluation, findings)
        return findings.found

    def _check(self, evaluation: Record, findings: Findings) -> None:
        for name, operand in _operands(evaluation):
            entries = self._named(name, findings)
            own = _of_item(findings.item, entries)
            _compare(name, operand, own or [entry for _, entry in entries], findings)
        for call, member in _members(evaluation):
            column = call.partition("(")[2].rstrip(") ").partition(".")[2]
            entries = self._named(column, findings)
            if entries and entries[0][0]:
                own = _of_item(member["item"], entries)
                _compare(f"{call}, {member['item']}", member, own or [{"state": NOT_PRINTED}], findings)

    def _named(self, name: str, findings: Findings) -> list[tuple[str, Record]]:
        """The evaluations of the line that a name stands for in this line; none where it is no line."""
        owner = findings.line.rpartition(".")[0]
        line = self.lines.get(f"{owner}.{name}") or self.lines.get(name)
        return evaluations(line) if line else []


def _of_item(wanted: str, entries: Sequence[tuple[str, Record]]) -> list[Record]:
    return [entry for item, entry in entries if item == wanted]


def _compare(name: str, operand: Record, entries: Sequence[Record], findings: Findings) -> None:
    if entries and not any(_carries(operand, entry, findings) for entry in entries):
        shown = [_shown(entry) for entry in entries]
        findings.note(f'operand "{name}"', _shown(operand), shown[0] if len(shown) == 1 else shown)


def _carries(operand: Record, entry: Record, findings: Findings) -> bool:
    if operand.get("state", KNOWN) != entry["state"]:
        return False
    if entry["state"] != KNOWN:
        return True
    return findings.agree(operand["value"], entry["value"]) and operand.get("unit", entry["unit"]) == entry["unit"]


def _shown(entry: Record) -> object:
    state = entry.get("state", KNOWN)
    return f"{entry['value']} {entry.get('unit', '')}".strip() if state == KNOWN else state


def _records(evaluation: Record) -> list[Record]:
    """The evaluation and its conditions: all that print inputs and members."""
    applies = evaluation.get("applies")
    return [evaluation, *([applies] if applies else []), *evaluation.get("conditions", ())]


def _operands(evaluation: Record) -> Iterator[tuple[str, Record]]:
    for record in _records(evaluation):
        for entry in record.get("inputs", ()):
            yield entry["name"], entry
    for part in evaluation.get("parts", ()):
        yield part["id"], part
    if evaluation.get("quantity") is not None:
        yield evaluation["of"], {"value": evaluation["quantity"], "unit": evaluation["quantity_unit"]}


def _members(evaluation: Record) -> Iterator[tuple[str, Record]]:
    for record in _records(evaluation):
        for entry in record.get("members", ()):
            for item in entry["items"]:
                yield entry["call"], item
