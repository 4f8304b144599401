"""Tables read with keys of which only bounds are known: every row that may hold the key."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise, product
from typing import TYPE_CHECKING, Any

from dwellcalc.evaluate.gathering import Value
from dwellcalc.evaluate.possible import NOTHING, Possible, arithmetic, both_missing, formula, hull, possible, settled
from dwellcalc.language import formulas, tree
from dwellcalc.language.tables import Cell, Row, Table

if TYPE_CHECKING:
    from dwellcalc.evaluate.bounds import BoundsEvaluation

Note = Callable[[frozenset[int], tuple[float, ...], tuple[float, float]], None]


def looked_up(evaluation: BoundsEvaluation, node: tree.Lookup, values: list[Value], note: Note) -> Value:
    """The cells of every row that may hold the key; where there are several, or none for a part of it, that is noted."""
    parts = [possible(value) for value in values]
    made = _beside(parts)
    if made is None:
        return settled(_lacking(parts))
    table = node.table
    fixed = list(table.columns).index(node.column) if node.column else -1
    columns = [fixed] if fixed >= 0 else _columns(table, parts[1:])
    key = _key(evaluation, table, parts[0])
    rows, whole = _rows(table, key)
    if len(rows) + (not whole) > 1:
        edges = sorted({edge for row in rows for edge in (row.low, row.high) if key[0] <= edge <= key[1]})
        note(parts[0].of if parts[0].low != parts[0].high else made.of, tuple(edges), key)
    found: list[Value] = []
    for row, column in product(rows, columns):
        cell = row.cells[column] if column >= 0 else None
        found.append(None if cell is None else _cell(table, cell, _within(row, key, table), column))
    if not whole or not found or None in found:
        found = [each for each in found if each is not None] + [evaluation.refused(node, [_one(part) for part in parts])]
    return _with(hull(found), made)


def first_rows(evaluation: BoundsEvaluation, node: tree.FirstRow, values: list[Value]) -> Value:
    """The rows found for the bounds of an amount, read up or down: a larger amount never has an earlier row."""
    parts = [possible(value) for value in values]
    made = _beside(parts)
    if made is None:
        return settled(_lacking(parts))
    table, upward = node.table, node.function == "first_row_at_least"
    fixed = list(table.columns).index(node.column) if node.column else -1
    columns = [fixed] if not node.keys else _columns(table, parts[1:])
    found: list[Value] = []
    for column in columns:
        rows = [_first(table, column, amount, upward) for amount in (parts[0].low, parts[0].high)]
        if None in rows:
            found.append(evaluation.refused(node, [_one(part) for part in parts]))
        if rows != [None, None]:
            ends = (rows[0] or table.rows[0], rows[1] or table.rows[-1])
            found.append(hull(int(row.low) if table.row_kind.form == "scale" else row.low for row in ends))
    return _with(hull(found), made)


def _first(table: Table, column: int, amount: float, upward: bool) -> Row | None:
    for row in table.rows if upward else table.rows[::-1]:
        found = row.low if column < 0 else row.cells[column].value
        if found is not None and (found >= amount if upward else found <= amount):
            return row
    return None


def _beside(parts: list[Possible]) -> Possible | None:
    """What the value may be beside a cell; nothing where no key may be there."""
    made = formula([Possible(0, 0, NOTHING, part.absent, part.missing, part.of) if part.words else part for part in parts])
    if not made.words:
        return None
    made.words = NOTHING
    return made


def _lacking(parts: list[Possible]) -> Possible:
    made = formula(parts)
    made.words = NOTHING
    return made


def _with(found: Value, made: Possible) -> Value:
    one = possible(found)
    missing = both_missing(made.missing, one.missing)
    return settled(Possible(one.low, one.high, one.words, made.absent or one.absent, missing, made.of | one.of))


def _one(part: Possible) -> Any:
    return part.low if part.low is not None else next(iter(sorted(part.words)))


def _columns(table: Table, keys: list[Possible]) -> list[int]:
    """The columns that the keys may pick; -1 where there may be none."""
    options = [_options(table, at, part) for at, part in enumerate(keys)]
    return sorted({table.column_places.get(each, -1) for each in product(*options)})


def _options(table: Table, at: int, part: Possible) -> list[Any]:
    if part.low is None:
        return sorted(part.words)
    if part.low == part.high:
        return [part.low]
    inside = {key[at] for key in table.column_places if part.low <= key[at] <= part.high}
    return [*sorted(inside), None]  # and what stands in no column


def _key(evaluation: BoundsEvaluation, table: Table, part: Possible) -> tuple[Any, Any]:
    if table.row_kind.form != "choice":
        return part.low, part.high
    words = evaluation.plan.glossary.words(table.row_kind)
    places = [words.index(word) for word in part.words]
    return min(places), max(places)


def _rows(table: Table, key: tuple[Any, Any]) -> tuple[list[Row], bool]:
    """The rows that may hold a key between two bounds, and whether every value between them surely has one."""
    low, high = key
    if table.next_row_up:
        first, last = table.row_for(low), table.row_for(high)
        rows = [row for row in table.rows if first is not None and row.low >= first.low and (last is None or row.low <= last.low)]
        return rows, last is not None
    rows = [row for row in table.rows if row.high >= low and (row.low < high or (row.low == high and not row.above))]
    rows = [row for row in rows if not (row.above and row.low >= high)]
    if low == high or table.row_kind.form != "quantity":
        return rows, bool(rows)
    meet = all(after.low == before.high for before, after in pairwise(rows))
    ends = bool(rows) and table.row_for(low) is not None and table.row_for(high) is not None
    return rows, meet and ends


def _within(row: Row, key: tuple[Any, Any], table: Table) -> Possible:
    if table.next_row_up:
        return Possible(*key)
    return Possible(max(row.low, key[0]), min(row.high, key[1]))


def _cell(table: Table, cell: Cell, key: Possible, column: int) -> Value:
    """A cell's value for a key between two bounds, or nothing where it has none."""
    if cell.formula is None:
        return cell.value
    return arithmetic("*", _computed(cell.formula, settled(key)), table.factors[column])


def _computed(part: formulas.Tree, key: Value) -> Value:
    if isinstance(part, formulas.Literal):
        return part.value
    if isinstance(part, formulas.Name):
        return key
    assert isinstance(part, formulas.Arithmetic)
    return arithmetic(part.sign, _computed(part.left, key), _computed(part.right, key))
