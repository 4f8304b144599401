"""Tables of the code: row labels as printed, cells with values or short formulas, and how they are read."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

from dwellcalc.glossary import Glossary, ValueKind, quantity_kind
from dwellcalc.language import formulas
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.reading import Listing, Mapping, Node, Text, as_list, as_mapping, as_text, key, place_of
from dwellcalc.units import NUMBER, Unit, UnknownUnit, number

ROW_LABEL = message(
    "row_label",
    '"{label}" is no row label',
    "such as `5`, `1 to 4`, `not over 10000`, `over 10000 to 12500`, `over 17500`, `43 and more`",
)
ROW_VALUE = message("row_value", '"{text}" is no value of the row key, which is {kind}')
ROW_LENGTH = message("row_length", "the number of cells in this row is {found}, that of the columns {wanted}")
ROW_ORDER = message("row_order", "the row does not stand after the one before it", "rows ascend and do not overlap")
ROW_GAP = message("row_gap", "there is a gap between this row and the one before it", "close it, or say `gaps: refuse`")
TABLE_END = message(
    "table_end", "the table has no stated {end}", "begin with `not over`, end with `over` or `and more`, or say `outside: refuse`"
)
TABLE_EMPTY = message("table_empty", "the table has no rows")
CELL = message(
    "cell",
    '"{text}" is no value of this column ({kind})',
    "a number in the unit of the head, `-` for none, a word, or a formula of the row key",
)
CELL_NAME = message("cell_name", 'a cell may read only the row key "{key}"')
CELL_DIVIDED = message("cell_divided", "a cell may be divided only by a number other than 0")
ONE_ROW_KEY = message("one_row_key", "`rows_by` names one key with its unit or choice")
TABLE_COLUMNS = message(
    "table_columns", "a table has `columns` with units, or `columns_by` with `gives` and `columns`, or keys alone"
)
COLUMN_LABEL = message("column_label", '"{label}" does not give one value for each of {keys}')
HEAD = message("table_head", '"{text}" is neither a unit, a choice nor a scale')
READ_WORD = message("read_word", '"{text}" cannot stand here', "only `{known}`")

NEXT_ROW_UP = "next row up"
REFUSE = "refuse"
NO_VALUE = "-"
_LABEL = re.compile(
    r"not over (?P<not_over>.+)|over (?P<over>.+?) to (?P<over_to>.+)|over (?P<over_open>.+)"
    r"|(?P<more>.+) and more|(?P<low>.+?) to (?P<high>.+)|(?P<exact>.+)"
)
_NUMERAL = re.compile(r"-?[\d.,]+(?: \d+)?(?:/\d+)?\Z")
_NUMBER = re.compile(r"-?(?:(?:\d+ )?\d+/\d+|\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|\.\d+)\Z", re.ASCII)


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


def _amount(text: str) -> float:
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


def read_table(
    name: Text, node: Mapping, title: Text, cite: Text, source: Text | None, confidence: Text | None, problems: Problems
) -> Table:
    """The table as written; its rows are linked later, when the glossary's kinds are known."""

    def says(part: str, wanted: str) -> bool:
        found = node.get(key(part))
        if found is None:
            return False
        text = as_text(found, part, problems)
        if text != wanted:
            problems.add(READ_WORD, text.place, text=text, known=wanted)
        return True

    flags = says("read", NEXT_ROW_UP), says("gaps", REFUSE), says("outside", REFUSE)
    return Table(name, node, title, cite, source, confidence, *flags)


class TableLinker:
    """Gives tables their kinds, bounds and values; problems are collected."""

    def __init__(self, glossary: Glossary, problems: Problems) -> None:
        self.glossary = glossary
        self.problems = problems

    def link(self, table: Table) -> None:
        """Read the head and the rows of a table, and check that the rows ascend, meet and end as stated."""
        heads = as_mapping(table.node.get(key("rows_by"), Mapping()), "rows_by", self.problems)
        rows = table.node.get(key("rows"))
        if len(heads) != 1 or rows is None:
            self.problems.add(ONE_ROW_KEY if len(heads) != 1 else TABLE_EMPTY, table.name.place)
            return
        table.row_key, head = next((str(name), text) for name, text in heads.items())
        found = self.head(as_text(head, "rows_by", self.problems))
        if found is None:
            return
        table.row_kind, unit = found
        factor = float(unit.factor) if unit else 1.0
        if self.columns(table):
            self.rows(table, rows, factor)
            if len(table.rows) == len(rows):  # a row that was refused leaves a gap of its own
                self.check_rows(table)

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
            return _amount(text) * factor
        words = self.glossary.words(kind)
        if text not in words:
            raise ValueError(text)
        return words.index(text) if kind.form == "scale" else text

    def rows(self, table: Table, rows: Node, factor: float) -> None:
        """Read the rows."""
        if isinstance(rows, Listing):
            for entry in rows:
                text = as_text(entry, "a row", self.problems)
                if text is entry:
                    self.row(table, text, (), factor)
            return
        for label, cells in as_mapping(rows, "rows", self.problems).items():
            listed = tuple(cells) if isinstance(cells, Listing) else (cells,)
            if len(listed) != len(table.columns):
                self.problems.add(ROW_LENGTH, place_of(cells), found=len(listed), wanted=len(table.columns))
                continue
            self.row(table, label, listed, factor)

    def row(self, table: Table, label: Text, cells: tuple[Node, ...], factor: float) -> None:
        """Read one row."""
        match = _LABEL.fullmatch(label)
        bounds = self.bounds(table, label, match, factor) if match else None
        if match is None:
            self.problems.add(ROW_LABEL, label.place, label=label)
        if bounds is None:
            return
        kinds = list(table.columns.values())
        made = [self.cell(table, as_text(cell, "a cell", self.problems), kinds[at], at) for at, cell in enumerate(cells)]
        table.rows.append(Row(label, *bounds, tuple(made)))

    def bounds(self, table: Table, label: Text, match: re.Match[str], factor: float) -> tuple[float, bool, float] | None:
        """The ends of a row: low, whether the high end is in, high."""

        def value(part: str) -> float:
            return self.row_value(table, label, match[part], factor)

        try:
            if match["not_over"]:
                return float("-inf"), False, value("not_over")
            if match["over"]:
                return value("over"), True, value("over_to")
            if match["over_open"]:
                return value("over_open"), True, float("inf")
            if match["more"]:
                return value("more"), False, float("inf")
            if match["low"]:
                return value("low"), False, value("high")
            exact = value("exact")
            return exact, False, exact
        except ValueError:
            return None

    def row_value(self, table: Table, label: Text, part: str, factor: float) -> float:
        """The value in a row's label."""
        kind = table.row_kind
        try:
            found = self.key_value(part, kind, factor)
        except ValueError:
            known = self.glossary.words(kind) if kind.form != "quantity" else ()
            self.problems.add(
                ROW_VALUE,
                label.place,
                text=part,
                kind=self.glossary.printed_kind(kind),
                nearest=nearest_name(part, known),
            )
            raise
        if kind.form == "choice":
            return float(self.glossary.words(kind).index(found))
        return float(found)

    def cell(self, table: Table, text: Text, kind: ValueKind, column: int) -> Cell:
        """A cell: an amount, a word, or a formula of the row's key."""
        if text == NO_VALUE:
            return Cell(text)
        if kind.form != "quantity":
            words = self.glossary.words(kind)
            if text not in words:
                self.refuse_cell(text, kind)
                return Cell(text)
            return Cell(text, words.index(text) if kind.form == "scale" else str(text))
        if _NUMERAL.match(text):
            try:
                return Cell(text, _amount(text) * table.factors[column])
            except ValueError:
                self.refuse_cell(text, kind)
                return Cell(text)
        tree = formulas.parsed(text, self.problems, numbers=True)
        if tree is not None and not self.allowed(tree, table, text):
            tree = None
        return Cell(text, None, tree)

    def allowed(self, tree: formulas.Tree, table: Table, text: Text) -> bool:
        """Whether a cell's formula is one that a cell may have."""
        if isinstance(tree, formulas.Arithmetic):
            if tree.sign == "/" and not (isinstance(tree.right, formulas.Literal) and tree.right.value):
                self.problems.add(CELL_DIVIDED, text.at(tree.right.start, tree.right.end - tree.right.start))
                return False
            return self.allowed(tree.left, table, text) and self.allowed(tree.right, table, text)
        if isinstance(tree, formulas.Literal) or (isinstance(tree, formulas.Name) and tree.text == table.row_key):
            return True
        self.problems.add(CELL_NAME, text.at(tree.start, tree.end - tree.start), key=table.row_key)
        return False

    def refuse_cell(self, text: Text, kind: ValueKind) -> None:
        """Note that a cell is not of its column's kind."""
        self.problems.add(CELL, text.place, text=text, kind=self.glossary.printed_kind(kind))

    def check_rows(self, table: Table) -> None:
        """Rows ascend and meet; a gap or an open end must be stated."""
        if not table.rows:
            self.problems.add(TABLE_EMPTY, table.name.place)
            return
        stepped = table.row_kind.form != "quantity" or table.row_kind.unit == NUMBER
        for before, row in zip(table.rows, table.rows[1:], strict=False):
            if row.low < before.high or (row.low == before.high and not row.above):
                self.problems.add(ROW_ORDER, row.label.place, others=[("the one before", before.label.place)])
            elif not (table.gaps_refuse or table.next_row_up or not table.columns):
                meets = row.low == (before.high + 1 if stepped and not row.above else before.high)
                if not meets:
                    self.problems.add(ROW_GAP, row.label.place, others=[("the one before", before.label.place)])
        if not table.outside_refuse:
            self.check_ends(table)

    def check_ends(self, table: Table) -> None:
        """Check that the rows begin and end where the key does."""
        first, last = table.rows[0], table.rows[-1]
        top = float("inf")
        lowest = float("-inf")
        if table.row_kind.form != "quantity":
            lowest, top = 0.0, float(len(self.glossary.words(table.row_kind)) - 1)
        elif table.row_kind.unit == NUMBER:
            lowest = 1.0
        if first.low > lowest and not table.next_row_up:
            self.problems.add(TABLE_END, first.label.place, end="beginning")
        if last.high < top:
            self.problems.add(TABLE_END, last.label.place, end="end")
