"""How the heads and columns of a table are read, and the values of its keys."""

from __future__ import annotations

import re
from typing import Any

from dwellcalc.glossary import Glossary, ValueKind, quantity_kind
from dwellcalc.language.tables import Table
from dwellcalc.placed import Listing, Text, as_list, as_mapping, as_text, key
from dwellcalc.problems import Problems, message
from dwellcalc.units import Unit, UnknownUnit, number

TABLE_COLUMNS = message(
    "table_columns", "a table has `columns` with units, or `columns_by` with `gives` and `columns`, or keys alone"
)
COLUMN_LABEL = message("column_label", '"{label}" does not give one value for each of {keys}')
HEAD = message("table_head", '"{text}" is neither a unit, a choice nor a scale')

_NUMBER = re.compile(r"-?(?:(?:\d+ )?\d+/\d+|\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|\.\d+)\Z", re.ASCII)


def amount(text: str) -> float:
    """A number as printed.

    Raises:
        ValueError: it is none, or too large.
    """
    if not _NUMBER.match(text):
        raise ValueError(text)
    try:
        return float(number(text))
    except OverflowError as error:
        raise ValueError(text) from error


class ColumnReader:
    """Reads the heads and columns of tables; problems are collected."""

    def __init__(self, glossary: Glossary, problems: Problems) -> None:
        self.glossary = glossary
        self.problems = problems

    def head(self, text: Text) -> tuple[ValueKind, Unit | None] | None:
        """The kind, and for an amount the unit, that a heading stands for."""
        for form, known in (("choice", self.glossary.choices), ("scale", self.glossary.scales)):
            if text in known:
                return ValueKind(form, name=str(text)), None
        try:
            unit = self.glossary.units.unit(text)
        except UnknownUnit:
            self.problems.add(HEAD, text.place, text=text)
            return None
        return quantity_kind(unit.kind), unit

    def columns(self, table: Table) -> bool:
        """Read the columns; whether that went well."""
        node = table.node
        if "columns_by" in node:
            return self.columns_by(table)
        if "columns" not in node:
            if not isinstance(node[key("rows")], Listing):
                self.problems.add(TABLE_COLUMNS, table.name.place)
            return isinstance(node[key("rows")], Listing)
        for name, text in as_mapping(node[key("columns")], "columns", self.problems).items():
            found = self.head(as_text(text, name, self.problems))
            if found is None:
                return False
            table.columns[str(name)] = found[0]
            table.factors.append(float(found[1].factor) if found[1] else 1.0)
        return bool(table.columns)

    def columns_by(self, table: Table) -> bool:
        """Read columns that are keyed by choices; whether that went well."""
        node = table.node
        if "gives" not in node or "columns" not in node:
            self.problems.add(TABLE_COLUMNS, table.name.place)
            return False
        gives = self.head(as_text(node[key("gives")], "gives", self.problems))
        factors: list[float] = []
        for name, text in as_mapping(node[key("columns_by")], "columns_by", self.problems).items():
            found = self.head(as_text(text, name, self.problems))
            if found is None:
                return False
            table.column_keys[str(name)] = found[0]
            factors.append(float(found[1].factor) if found[1] else 1.0)
        if gives is None:
            return False
        table.gives = gives[0]
        for position, node_label in enumerate(as_list(node[key("columns")], "columns", self.problems)):
            label = as_text(node_label, "a column", self.problems)
            values = self.column_values(label, list(table.column_keys.values()), factors)
            if values is None or values in table.column_places:
                self.problems.add(COLUMN_LABEL, label.place, label=label, keys=", ".join(table.column_keys))
                return False
            table.column_places[values] = position
            table.columns[str(label)] = gives[0]
            table.factors.append(float(gives[1].factor) if gives[1] else 1.0)
        return True

    def column_values(self, label: Text, kinds: list[ValueKind], factors: list[float]) -> tuple[Any, ...] | None:
        """The keys that a column's label stands for."""
        parts = label.split() if len(kinds) > 1 else [str(label)]
        if len(parts) != len(kinds):
            return None
        values: list[Any] = []
        for part, kind, factor in zip(parts, kinds, factors, strict=True):
            try:
                values.append(self.key_value(part, kind, factor))
            except ValueError:
                return None
        return tuple(values)

    def key_value(self, text: str, kind: ValueKind, factor: float) -> Any:
        """The value of a key."""
        if kind.form == "quantity":
            return amount(text) * factor
        words = self.glossary.words(kind)
        if text not in words:
            raise ValueError(text)
        return words.index(text) if kind.form == "scale" else text
