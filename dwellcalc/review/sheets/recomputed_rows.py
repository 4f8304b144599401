"""The rows of tables that a line used: what a row prints is checked in itself and against the lookup's arguments.

The ``keys`` of a row are the values of the arguments after the table; for a row that was found by its amount with or
without that, which ``needed`` prints. In a cell, ``key_name`` stands for the first key. ``factor`` takes a number of the
table to the unit of ``value``; where it is not printed it is 1.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from dwellcalc.language.words import LOOKUP
from dwellcalc.review.sheets.disagreements import Findings
from dwellcalc.review.sheets.recomputed_formulas import formula_value
from dwellcalc.review.sheets.recomputed_numbers import read_number
from dwellcalc.review.sheets.recomputed_values import KNOWN, PERCENT_SIGN, Record, Refused, Value


@dataclass(frozen=True)
class Rows:
    """Gives the value of a lookup from the row that is printed for it, and notes what disagrees in the row.

    Attributes:
        findings: what disagrees in the line that the lookup stands in.
    """

    findings: Findings

    def value(self, function: str, row: Record, arguments: Sequence[Value]) -> Value:
        """The value that a lookup found, in the unit that the row prints.

        Args:
            function: the lookup.
            row: the row that was used.
            arguments: the known arguments after the table.

        Raises:
            Refused: a cell cannot be worked out.
            KeyError: the row does not print what it must.
        """
        self.findings.check(f"function of {row['call']}", row["function"], function)
        find = self._found_forward if function == LOOKUP[0] else self._found_back
        return Value(KNOWN, find(row, arguments), row["unit"] == PERCENT_SIGN, row.get("position"))

    def _found_forward(self, row: Record, arguments: Sequence[Value]) -> Any:
        """What stands in the cell: a word, or a number in the unit of the row's value."""
        self._check_keys(row, arguments)
        cell = row["cell"]
        if not isinstance(row["value"], str):
            cell = self._cell_amount(row) * row.get("factor", 1)
        self.findings.check(f"row {row['row']} of {row['call']}", row["value"], cell)
        return cell

    def _cell_amount(self, row: Record) -> float:
        """The number in a cell, or that of its formula of the row's key, in the unit of the table."""
        written = read_number(row["cell"])
        if written is not None:
            return written
        key = {"inputs": [{"name": row["key_name"], "value": row["keys"][0]}]}
        amount = formula_value(row["cell"], key, self.value, in_cell=True)
        if amount.state != KNOWN:
            raise Refused(f'"{amount.value}" has no meaning in a cell')
        return amount.number()

    def _found_back(self, row: Record, arguments: Sequence[Value]) -> Any:
        """The label of the first row that has what is needed: a word, or a number in the unit of the row's value."""
        call, needed, amount = row["call"], row["needed"], row["cell_amount"]
        with_amount = len(row["keys"]) == len(arguments)
        self._check_keys(row, arguments if with_amount else arguments[1:])
        self.findings.check(f"amount needed in {call}", needed, arguments[0].value)
        self._check_nearest(row, amount, needed)
        factor = row.get("factor", 1)
        self.findings.check_written(f"amount in row {row['row']} of {call}", amount, row["cell"], factor)
        if isinstance(row["value"], str):
            self.findings.check(f"row of {call}", row["value"], row["row"])
        else:
            self.findings.check_written(f"row of {call}", row["value"], row["row"], factor)
        return row["value"]

    def _check_nearest(self, row: Record, amount: Any, needed: Any) -> None:
        """Note where the row that was found is not on the side of the amount that is asked for, or not the nearest there."""
        call, before = row["call"], row.get("before")
        if row["function"] == LOOKUP[1]:
            if not amount >= needed:
                self.findings.note(f"row {row['row']} of {call} has less than is needed", amount, needed)
            if before is not None and not before < needed:
                self.findings.note(f"the row before {row['row']} of {call} suffices", before, needed)
            return
        if not amount <= needed:
            self.findings.note(f"row {row['row']} of {call} has more than is allowed", amount, needed)
        if before is not None and not before > needed:
            self.findings.note(f"the row after {row['row']} of {call} is allowed too", before, needed)

    def _check_keys(self, row: Record, arguments: Sequence[Value]) -> None:
        """Note where the keys of a row are not the arguments."""
        keys = row["keys"]
        if len(keys) != len(arguments):
            self.findings.note(f"keys of {row['call']}", keys, [argument.value for argument in arguments])
        for key, argument in zip(keys, arguments, strict=False):
            self.findings.check(f"key of {row['call']}", key, argument.value)
