"""The tables of the code as printed, and in plain words what happens outside their rows and between them."""

from __future__ import annotations

from dwellcalc.language import tables
from dwellcalc.placed import as_list, as_mapping, key, spaced
from dwellcalc.problems import Problems
from dwellcalc.report.rule_book import Chapter, RuleBook, one_line
from dwellcalc.report.tables import Block, Heading, Paragraph, Table

HEADING_LEVEL = 4


def table_blocks(book: RuleBook, chapter: Chapter) -> list[Block]:
    """The tables of a chapter."""
    blocks: list[Block] = []
    for name, table in chapter.document.tables.items():
        blocks += [Heading(HEADING_LEVEL, str(table.title)), Paragraph(_about(book, f"{chapter.document.name}.{name}", table))]
        blocks += row_blocks(table)
    return blocks


def _about(book: RuleBook, address: str, table: tables.Table) -> str:
    said = [
        f"Section {book.section(table.cite)}. Named {table.name} in formulas. Origin: {book.origin(address)}.",
        f"Sources: {book.sources(table.source)} ({table.confidence}).",
        " ".join(_reading(table)),
    ]
    return "\n".join(said)


def _reading(table: tables.Table) -> list[str]:
    """How the rows are read, in plain words."""
    named = table.row_kind.form != "quantity"
    outside = "cannot be calculated" if table.outside_refuse else "there is nothing, the first and the last row are open"
    said = [f"{'Not in the table' if named else 'Outside the rows'}: {outside}."]
    if table.next_row_up:
        said.append("Between two rows: the next row up.")
    elif table.gaps_refuse:
        said.append("Between two rows: cannot be calculated.")
    elif table.columns and not named:
        said.append("Between two rows: there is nothing, they meet.")
    if any(cell.text == tables.NO_VALUE for row in table.rows for cell in row.cells):
        said.append(f'A cell with "{tables.NO_VALUE}": no value, cannot be calculated.')
    return said


def _key(table: tables.Table) -> str:
    return spaced(table.row_key)


def row_blocks(table: tables.Table) -> list[Block]:
    """The rows of a table as printed, or its keys where they alone are the table."""
    first = f"{_key(table)} ({_unit(table, 'rows_by', table.row_key)})"
    if not table.columns:
        return [Paragraph(f"{first}: {', '.join(row.label for row in table.rows)}")]
    head = [first, *_column_heads(table)]
    rows = [[str(row.label), *(one_line(cell.text) for cell in row.cells)] for row in table.rows]
    return [Table("", head, rows, ["left", *["right"] * (len(head) - 1)])]


def _column_heads(table: tables.Table) -> list[str]:
    if not table.column_keys:
        return [f"{spaced(name)} ({_unit(table, 'columns', name)})" for name in table.columns]
    gives = spaced(str(table.node[key("gives")]))
    labels = as_list(table.node[key("columns")], "columns", Problems())
    kinds = list(table.column_keys.values())
    unit = _unit(table, "columns_by", next(iter(table.column_keys))) if [kind.form for kind in kinds] == ["quantity"] else ""
    return [f"{spaced(label)} {unit}".strip() + f" ({gives})" for label in labels]


def _unit(table: tables.Table, section: str, name: str) -> str:
    found = as_mapping(table.node[key(section)], section, Problems())
    return spaced(str(found[key(name)]))
