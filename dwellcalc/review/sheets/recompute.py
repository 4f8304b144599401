"""A second evaluation of a written document: every line again, from nothing but what the line itself prints.

A line prints its formula, its unrounded operands by name, the members that it gathered, the table rows that
it used, and the outcomes of its conditions. Here the formula is parsed again and worked out on those operands
by code that shares nothing with the evaluator but the parser and the percent rule. A reader does the same
with pencil and paper.

How the document is read is said where it is done: values and their states in `recomputed_values`, operands and
members in `recomputed_formulas`, rows of tables in `recomputed_rows`, portions in `recomputed_tiers`, cases and
combining in `recomputed_lines`, what a line reads of another in `cross_check`. Each module imports only from those to
its right: recompute; cross_check, recomputed_lines; recomputed_tiers, recomputed_rows; recomputed_formulas,
disagreements; recomputed_values; recomputed_numbers.
"""

from __future__ import annotations

from dwellcalc.review.sheets.cross_check import Sheet
from dwellcalc.review.sheets.disagreements import Disagreement, Findings, line_id
from dwellcalc.review.sheets.recomputed_lines import check_evaluation
from dwellcalc.review.sheets.recomputed_values import Record

__all__ = ["Disagreement", "recompute_document", "recompute_line"]


def recompute_document(document: Record, *, tolerance: float) -> list[Disagreement]:
    """What disagrees in a document: in each line itself, and between a line and the lines that it reads.

    Args:
        document: the JSON of an assessment.
        tolerance: the largest difference that counts as none, relative or absolute.

    Raises:
        KeyError: it is no document with supplies and their methods.
    """
    found: list[Disagreement] = []
    for supply in document["supplies"]:
        sheets = _sheets(supply)
        of_runs = [line for each in sheets for run in each.get("runs", ()) for line in run["lines"]]
        for method in sheets:
            lines = method.get("lines", ())
            sheet = Sheet.of([*of_runs, *lines])
            for line in lines:
                found += recompute_line(line, tolerance=tolerance)
                found += sheet.disagreements(line, tolerance=tolerance)
    return found


def _sheets(supply: Record) -> list[Record]:
    """Every sheet of a supply: of its methods, of sizing, those beside, and those of the calculations that they run."""
    single = [each for each in (supply.get("sizing"), supply.get("connected"), *supply.get("beside", ())) if each]
    record = supply.get("record") or {}
    single += [each for each in (record, record.get("cross_check")) if each]
    circuits = supply.get("circuits")
    later = (supply.get("later") or {}).get("sheets", ())
    found = [*supply["methods"], *later, *(each["sheet"] for each in single), *(circuits["sheets"] if circuits else ())]
    return [*found, *(run for sheet in found for run in sheet.get("runs", ()))]


def recompute_line(line: Record, *, tolerance: float) -> list[Disagreement]:
    """What disagrees within one line; nothing where all that it prints fits together.

    Args:
        line: a line of a sheet, as JSON.
        tolerance: the largest difference that counts as none, relative or absolute.
    """
    findings = Findings(line_id(line), tolerance)
    with findings.guarded():
        for evaluation in findings.each_evaluation(line):
            with findings.guarded():
                check_evaluation(line["way"], evaluation, findings)
    return findings.found
