"""How tables are read: row labels as printed, and cells with values or short formulas."""

from __future__ import annotations

import re

from dwellcalc.glossary import ValueKind
from dwellcalc.language import formulas
from dwellcalc.language.table_columns import ColumnReader, amount
from dwellcalc.language.tables import NO_VALUE, Cell, Row, Table
from dwellcalc.placed import Listing, Mapping, Node, Text, as_mapping, as_text, key, place_of
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.units import NUMBER

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
READ_WORD = message("read_word", '"{text}" cannot stand here', "only `{known}`")

NEXT_ROW_UP = "next row up"
REFUSE = "refuse"
_LABEL = re.compile(
    r"not over (?P<not_over>.+)|over (?P<over>.+?) to (?P<over_to>.+)|over (?P<over_open>.+)"
    r"|(?P<more>.+) and more|(?P<low>.+?) to (?P<high>.+)|(?P<exact>.+)"
)
_NUMERAL = re.compile(r"-?[\d.,]+(?: \d+)?(?:/\d+)?\Z")


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


class TableLinker(ColumnReader):
    """Gives tables their kinds, bounds and values; problems are collected."""

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
        """The ends of a row: low, whether low itself is out, high; or nothing and a problem."""

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
                return Cell(text, amount(text) * table.factors[column])
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
