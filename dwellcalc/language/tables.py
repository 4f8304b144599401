"""Tables of the code, and how they are read forward: the row for a key, and the value of a cell."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from dwellcalc.glossary import ValueKind, quantity_kind
from dwellcalc.language import formulas
from dwellcalc.placed import Mapping, Text
from dwellcalc.units import NUMBER

NO_VALUE = "-"


@dataclass(slots=True)
class Cell:
    """A cell: its text, and its value or its formula; a refused cell has neither."""

    text: Text
    value: Any = None
    formula: formulas.Tree | None = None


@dataclass(slots=True)
class Row:
    """A row: label, bounds (the lower end is in unless ``above``), and cells."""

    label: Text
    low: float
    above: bool
    high: float
    cells: tuple[Cell, ...] = ()


@dataclass(slots=True, eq=False)
class Table:
    """A table as written, and after linking its rows with bounds and values.

    Attributes:
        row_key, row_kind: name and kind of the key of the rows.
        columns: column name -> kind of its cells; empty where the keys alone are the table.
        column_keys: names and kinds of the keys that pick a column, with `columns_by`.
        column_places: the keys' values -> column position.
    """

    name: Text
    node: Mapping
    title: Text
    cite: Text
    source: Text | None
    confidence: Text | None
    next_row_up: bool
    gaps_refuse: bool
    outside_refuse: bool
    row_key: str = ""
    row_kind: ValueKind = field(default_factory=lambda: quantity_kind(NUMBER))
    columns: dict[str, ValueKind] = field(default_factory=dict)
    factors: list[float] = field(default_factory=list)
    column_keys: dict[str, ValueKind] = field(default_factory=dict)
    column_places: dict[tuple[Any, ...], int] = field(default_factory=dict)
    gives: ValueKind | None = None
    rows: list[Row] = field(default_factory=list)

    def row_for(self, value: float) -> Row | None:
        """The row that holds a key's value, or nothing."""
        if self.next_row_up:
            return next((row for row in self.rows if row.low >= value), None)
        for row in self.rows:
            if value <= row.high and (value > row.low if row.above else value >= row.low):
                return row
        return None

    def cell_value(self, cell: Cell, value: float, column: int) -> Any:
        """A cell's value for a key: its number, its word, or its formula of the key."""
        if cell.formula is None:
            return cell.value
        return _computed(cell.formula, value) * self.factors[column]


def _computed(tree: formulas.Tree, value: float) -> float:
    if isinstance(tree, formulas.Literal):
        return tree.value
    if isinstance(tree, formulas.Name):
        return value
    assert isinstance(tree, formulas.Arithmetic)
    left, right = _computed(tree.left, value), _computed(tree.right, value)
    if tree.sign == "+":
        return left + right
    if tree.sign == "-":
        return left - right
    return left * right if tree.sign == "*" else left / right
