"""The lines of a sheet as tables: schedules of columns, and the numbered calculation."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dwellcalc.evaluate.sheet import KNOWN, NOT_APPLICABLE, NOT_NEEDED, UNKNOWN, Outcome, SheetLine
from dwellcalc.placed import spaced
from dwellcalc.report.condition_workings import every_one, not_given
from dwellcalc.report.formula_words import numbers_in_words
from dwellcalc.report.line_parts import line_parts, members
from dwellcalc.report.tables import Block, Paragraph, Table, split_evenly
from dwellcalc.report.workings import workings

COLUMNS_BESIDE, ON_A_PAGE = 2, 5  # columns of a schedule beside the item
OF_SUPPLY = "supply: "  # how an input of the supply itself begins
NOT_CHOSEN = "These lines have a value once the supply is chosen"
_SOUGHT = {"first_row_at_least": "at least ", "last_row_at_most": "at most "}


class Numbering:
    """The numbers of the lines that are printed, in order.

    Args:
        lines: the lines that are printed.
        told: other lines by what tells the same, which take its number.
        full: whether working lines and those that were not needed are printed too.
        after: how many lines are printed before.
        mark: what stands before each number.
        sources: the titles of the sources that lines name, by name.
        to_choose: whether what is not given of the supply is still to be chosen.

    Attributes:
        runs: the numbers of the lines of the calculations of a part of the home that these read, by the id of the sheet.
    """

    def __init__(
        self,
        lines: list[SheetLine],
        told: list[tuple[SheetLine, SheetLine]],
        *,
        full: bool,
        after: int = 0,
        mark: str = "",
        sources: dict[str, str] | None = None,
        to_choose: bool = False,
    ) -> None:
        self.to_choose = to_choose
        self.sources = sources or {}
        shown = [line for line in lines if is_shown(line, full=full) and (full or not self.waits(line))]
        self.runs: dict[str, Numbering] = {}
        self.lines = {f"{mark}{at}": line for at, line in enumerate(shown, start=after + 1)}
        self._numbers = {id(line): number for number, line in self.lines.items()}
        self.by_id = {line.id: self._numbers[id(by)] for line, by in told if id(by) in self._numbers}
        self.by_id |= {line.id: number for number, line in reversed(self.lines.items())}
        self.working = {(line.id, made.item): made for line in lines if line.working and not full for made in outcomes_of(line)}

    def read_through(self, runs: dict[str, Numbering]) -> Numbering:
        """The same numbering, which from now on knows the lines that are read through runs."""
        self.runs = runs
        for each in runs.values():
            self.by_id |= each.by_id
        return self

    def has(self, line: SheetLine) -> bool:
        """Whether a line is printed under a number."""
        return id(line) in self._numbers

    def waits(self, line: SheetLine) -> bool:
        """Whether a line has no value yet for what is to be chosen of the supply alone."""
        outcome = line.outcome
        return outcome is not None and outcome.state == UNKNOWN and self.to_choose and of_supply_alone(outcome.missing)

    def number(self, line: SheetLine) -> str:
        """The number of a printed line."""
        return self._numbers[id(line)]


def tells(line: SheetLine, other: SheetLine) -> bool:
    """Whether a printed line tells all that another would: the same title, section and values, as far as they are needed."""
    if (line.title, line.cite, line.each) != (other.title, other.cite, other.each):
        return False
    mine = {outcome.item: outcome for outcome in outcomes_of(line)}
    return all(
        wanted.state == NOT_NEEDED or (wanted.item in mine and mine[wanted.item].printed == wanted.printed)
        for wanted in outcomes_of(other)
    )


def outcomes_of(line: SheetLine) -> list[Outcome]:
    """The values of a line: one, or one of each item."""
    return line.items if line.outcome is None else [line.outcome]


def with_authority(cite: str, line: SheetLine) -> str:
    """A section, with the word policy where its text is silent, and the local amendments that changed the line or what it names."""
    return "; ".join([f"{cite}, {line.status}" if line.status else cite, *line.amended])


def is_shown(line: SheetLine, *, full: bool) -> bool:
    """Whether a line is printed in the numbered calculation."""
    outcome = line.outcome
    if outcome is None:
        return False
    return full or not (line.working or outcome.state in (NOT_NEEDED, NOT_APPLICABLE) or _is_nothing(outcome))


def _is_nothing(outcome: Outcome) -> bool:
    """Zero because nothing is in it: gathered over nothing, or made of zeros alone."""
    return outcome.value == 0 and outcome.value is not False and outcome.state == KNOWN


def schedules(lines: list[SheetLine], numbering: Numbering, *, full: bool, paged: bool = False) -> list[Block]:
    """The column lines as schedules: a table for each group, with a row for each item; no more than a few columns.

    Args:
        lines: the lines of a sheet.
        numbering: the numbers of the printed lines.
        full: whether working lines and what does not apply are printed too.
        paged: whether several columns stand closer together, how each value is found below it, and those of zeros are left out.
    """
    by_group: dict[str, list[SheetLine]] = {}
    for line in lines:
        if paged and _is_empty(line):
            continue
        idle = (NOT_NEEDED,) if full else (NOT_NEEDED, NOT_APPLICABLE)
        needed = any(outcome.state not in idle for outcome in line.items)
        if line.each is not None and needed and (full or not line.working):
            _place(line, by_group.setdefault(line.each, []))
    if paged:
        by_group = _joined(by_group)
    most = ON_A_PAGE if paged else COLUMNS_BESIDE
    return [
        _schedule(_title(group, columns, at, len(parts)), beside, numbering, close=paged and len(columns) > 1)
        for group, columns in by_group.items()
        for parts in [split_evenly(columns, most)]
        for at, beside in enumerate(parts, start=1)
    ]


def _joined(by_group: dict[str, list[SheetLine]]) -> dict[str, list[SheetLine]]:
    """The columns of groups that are of most of the items of a group before them, beside the columns of that one."""
    joined: dict[str, list[SheetLine]] = {}
    for group, columns in by_group.items():
        whole = next((name for name, others in joined.items() if _most_of(columns[0], others[0])), "")
        if whole:
            first = joined[whole][0]
            joined[whole] += [_of_items(line, first) for line in columns]
        else:
            joined[group] = columns
    return joined


def _most_of(line: SheetLine, whole: SheetLine) -> bool:
    """Whether the items of a column are among those of another, and more than half of them."""
    mine, others = ([outcome.item for outcome in each.items] for each in (line, whole))
    return line.collection == whole.collection and set(mine) <= set(others) and 2 * len(mine) > len(others)


def _of_items(line: SheetLine, whole: SheetLine) -> SheetLine:
    """A column with a place for each item of another, without a value where it has none."""
    by_item = {outcome.item: outcome for outcome in line.items}
    items = [by_item.get(each.item) or Outcome(NOT_APPLICABLE, item=each.item, number=each.number) for each in whole.items]
    return replace(line, items=items)


def _title(group: str, columns: list[SheetLine], at: int, of: int) -> str:
    """The title of a schedule, with which part it is where its columns take several."""
    whole = spaced(columns[0].collection).capitalize()
    title = whole if group == columns[0].collection else f"{whole} that are counted in these columns"
    return title if of == 1 else f"{title}, {at} of {of}"


def _is_empty(line: SheetLine) -> bool:
    """Whether a column has nothing but zeros because nothing is in it."""
    return bool(line.items) and all(map(_is_nothing, line.items))


def _place(line: SheetLine, columns: list[SheetLine]) -> None:
    """Put a line among columns; where two methods use a part, each as far as it needs it, its line is one column."""
    for at, column in enumerate(columns):
        if (column.title, column.cite) == (line.title, line.cite) and len(column.items) == len(line.items):
            pairs = zip(column.items, line.items, strict=True)
            columns[at] = replace(column, items=[mine if mine.state != NOT_NEEDED else other for mine, other in pairs])
            return
    columns.append(line)


def _schedule(title: str, columns: list[SheetLine], numbering: Numbering, *, close: bool) -> Block:
    titles = [f"{line.title} ({with_authority(line.cite, line)})" for line in columns]
    rows = []
    for at, first in enumerate(columns[0].items):
        outcomes = [line.items[at] for line in columns]
        if all(outcome.state == NOT_NEEDED for outcome in outcomes):
            continue
        found = [(_value(each, numbering), "" if each.state == NOT_NEEDED else _how(each, numbering)) for each in outcomes]
        cells = [[_close(*pair)] if close else [*pair] for pair in found]
        rows.append([_named(first), *(text for cell in cells for text in cell)])
    head = ["Item", *(text for title in titles for text in ((title,) if close else (title, "How")))]
    aligned = [] if close else ["left", *(["right", "left"] * len(columns))]
    return Table(title, head, rows, aligned, close=close)


def _close(value: str, how: str) -> str:
    """A value, and below it how it is found, where that says more."""
    return value if value == "-" or how in ("", value) else f"{value}\n{how}"


def _named(outcome: Outcome) -> str:
    return f"{outcome.number:g} x {outcome.item}, each" if outcome.number != 1 else str(outcome.item)


def line_blocks(
    title: str, lines: list[SheetLine], numbering: Numbering, *, full: bool, worked: bool = False, paged: bool = False
) -> list[Block]:
    """The numbered lines (number, title, section, how, value), then the names of those in which there is nothing.

    Args:
        title: of the table.
        lines: the lines of a sheet.
        numbering: their numbers.
        full: whether working lines and those that were not needed are printed too.
        worked: whether each has its working as what a page folds away.
        paged: whether columns of zeros are named among what is empty.
    """
    rows, shown = [], []
    for line in lines:
        outcome = line.outcome
        if outcome is None or not numbering.has(line):
            continue
        shown.append(line)
        cite = with_authority(outcome.cite or line.cite, line)
        name = f"{line.title} (working)" if line.working else line.title
        rows.append([numbering.number(line), name, cite, _how(outcome, numbering), _value(outcome, numbering)])
    aligned = ["right", "left", "left", "left", "right"]
    table = Table(
        title,
        ["", "Line", "Section", "How", "Result"],
        rows,
        aligned,
        [workings(line, numbering.sources) for line in shown] if worked else [],
    )
    empty = [
        f"{line.title} ({with_authority(line.cite, line)})"
        for line in lines
        if not full
        and not line.working
        and (_is_nothing(line.outcome) if line.outcome is not None else paged and _is_empty(line))
    ]
    waiting = [
        f"{line.title} ({with_authority(line.cite, line)})"
        for line in lines
        if not full and is_shown(line, full=full) and numbering.waits(line)
    ]
    told = [Paragraph(f"{NOT_CHOSEN}: {'; '.join(waiting)}.")] if waiting else []
    told += [Paragraph(f"Nothing is in these lines, 0 each: {'; '.join(empty)}.")] if empty else []
    return [*([table] if rows else []), *told]


def _value(outcome: Outcome, numbering: Numbering) -> str:
    if outcome.state in (NOT_NEEDED, NOT_APPLICABLE):
        return "-"
    if outcome.state != UNKNOWN:
        return outcome.printed
    return "to be chosen" if numbering.to_choose and of_supply_alone(outcome.missing) else "cannot be calculated"


def of_supply_alone(missing: Sequence[str]) -> bool:
    """Whether all that is missing is of the supply itself."""
    return bool(missing) and all(each.startswith(OF_SUPPLY) for each in missing)


def _how(outcome: Outcome, numbering: Numbering) -> str:
    if outcome.state == NOT_NEEDED:
        return "not needed for the result"
    if outcome.state == NOT_APPLICABLE:
        return "does not apply"
    if outcome.state == UNKNOWN and (outcome.missing or outcome.refusals):
        waits = "waits for" if numbering.to_choose and of_supply_alone(outcome.missing) else "needs"
        needs = [f"{waits} {', '.join(outcome.missing)}"] if outcome.missing else []
        return "; ".join([*needs, *outcome.refusals])
    if outcome.parts:
        return line_parts(outcome, numbering.by_id)
    as_lines = not_given(outcome) or every_one(outcome, numbering.by_id, numbering.lines)
    if as_lines:
        return as_lines
    looked_up = next((each for each in outcome.rows_used if each.call == outcome.formula), None)
    if looked_up is not None:
        return f"{looked_up.section}, row {looked_up.row}, for {_SOUGHT.get(looked_up.function, '')}{looked_up.keys_printed}"
    read = next((each.line for each in outcome.inputs if each.line and each.name == outcome.formula), None)
    if read is not None and read in numbering.by_id:
        return f"line {numbering.by_id[read]}"
    behind = None if read is None else numbering.working.get((read, outcome.item)) or numbering.working.get((read, None))
    if behind is not None:
        return _how(behind, numbering)
    gathered = next((each for each in outcome.members if each.call == outcome.formula), None)
    return members(gathered) if gathered is not None else numbers_in_words(outcome.with_numbers, outcome.formula)
