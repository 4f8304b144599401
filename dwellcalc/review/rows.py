"""The table of a submittal: one row for each figure that it prints, from the file itself or from a CSV beside it."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass, replace
from pathlib import Path

from dwellcalc.language.words import ROW_FACTS, ROW_KEYS
from dwellcalc.placed import Mapping, Node, Text, as_list, as_mapping, as_text, place_of
from dwellcalc.problems import Place, Problems, Source, message, nearest_name
from dwellcalc.reading import load_text
from dwellcalc.review.shares import taken_apart

ROW_KEY = message("row_key", 'there is no column "{name}" in a table of a submittal', "one of: {known}")
ROW_LACKS = message("row_lacks", "this row has no label", "what the submittal calls the figure, such as `label: Range`")
ROW_STATUS = message("row_status", '"{text}" is no status of a load', "existing, planned or removed")
ROW_CELLS = message("row_cells", "this row has {found} cells, and the head {wanted}", "quote a cell that holds a comma")
ROW_NO_CSV = message(
    "row_no_csv", 'the table "{name}" holds no rows', "the first line is the head, such as `label,nameplate,claimed,section`"
)

OTHER_KEYS = {
    "claimed_va": "claimed",
    "claim": "claimed",
    "va": "claimed",
    "load": "claimed",
    "load_va": "claimed",
    "description": "label",
    "item": "label",
    "rating": "nameplate",
    "notes": "note",
    "remark": "note",
    "remarks": "note",
    "qty": "quantity",
    "code_section": "section",
    "citation": "section",
    "cite": "section",
}
UNITS_OF_HEADS = {"va": "VA", "claimed_va": "VA", "load_va": "VA"}  # of numbers alone below such heads
DELIMITERS = (",", ";", "\t")
BRACKETS = re.compile(r"[\[(](?P<unit>[^\])]+)[\])]")
STATUSES = ("existing", "planned", "removed")


@dataclass(frozen=True)
class Row:
    """A row as written; what is left out is nothing.

    Attributes:
        label: what the submittal calls it.
        nameplate: the rating, area or number that the figure rests on.
        claimed: the figure that is printed.
        section: the section that is cited.
        quantity: how many there are.
        status: existing, planned or removed.
        evidence: what the nameplate was seen on.
        match: what the reviewer says that the label means: a line, or a kind of load.
        note: what the submittal notes beside it, such as that it is by others.
        share: the share of the figure that goes into the sums.
        share_of: what the figure is a share of, or nothing.
        heading: whether it is a heading, what the rows below it are.
        printed: the nameplate as it is printed, where it is not written as a home file has it.
        facts: of a load, what a home file says of it beside its rating.
        repeats: whether it only says a share of what stands above it.
    """

    label: Text
    nameplate: Text | None = None
    claimed: Text | None = None
    section: Text | None = None
    quantity: Text | None = None
    status: Text | None = None
    evidence: Text | None = None
    match: Text | None = None
    note: Text | None = None
    facts: Mapping | None = None
    share: Text | None = None
    share_of: Text | None = None
    printed: Text | None = None
    heading: Text | None = None
    repeats: bool = False

    @property
    def of_load(self) -> Text | None:
        """The figure of the load itself: what the printed one is a share of, else the printed one."""
        return self.share_of if self.share_of is not None else self.claimed


BLANKS = ("", "-", "\N{EN DASH}", "\N{EM DASH}")  # written where a cell holds nothing


def read_rows(node: Node, folder: Path, problems: Problems) -> list[Row]:
    """The rows of a table: a list of mappings, or the name of a CSV file in a folder; what is wrong is noted."""
    if isinstance(node, Text):
        return _from_csv(node, folder, problems)
    rows = (_row(as_mapping(each, "a row", problems), problems) for each in as_list(node, "rows", problems))
    return [row for row in rows if row is not None]


def _row(node: Mapping, problems: Problems) -> Row | None:
    found: dict[str, Text] = {}
    facts: Mapping | None = None
    for name, value in node.items():
        known = _column(name)
        if known == ROW_FACTS:
            facts = as_mapping(value, name, problems)
        elif known not in ROW_KEYS:
            problems.add(ROW_KEY, name.place, name=name, known=", ".join(ROW_KEYS), nearest=nearest_name(known, ROW_KEYS))
        else:
            found[known] = as_text(value, name, problems)
    return _made(found, place_of(node), problems, facts)


def _made(found: dict[str, Text], place: Place, problems: Problems, facts: Mapping | None = None) -> Row | None:
    if not found.get("label"):
        problems.add(ROW_LACKS, place)
        return None
    row = Row(**{name: text for name, text in found.items() if text.strip() not in BLANKS}, facts=facts)  # type: ignore[arg-type]
    claimed, share_of = taken_apart(row.claimed, row.share, row.note, row.label)
    row = replace(row, claimed=claimed, share_of=share_of)
    if row.status is not None and row.status.casefold() not in STATUSES:
        problems.add(ROW_STATUS, row.status.place, text=row.status, nearest=nearest_name(row.status, STATUSES))
    return row


def _column(name: str) -> str:
    """The column that a key or a head means; a unit in brackets is set apart before."""
    known = _plain(BRACKETS.sub("", name))
    return OTHER_KEYS.get(known, known)


def _plain(name: str) -> str:
    return "_".join(name.casefold().replace("-", " ").replace("_", " ").split())


def _from_csv(name: Text, folder: Path, problems: Problems) -> list[Row]:
    text = load_text(folder / name, str(folder / name))
    source = Source(str(folder / name), text)
    lines_of_text = text.splitlines()
    reader = csv.reader(lines_of_text, delimiter=_delimiter(lines_of_text), skipinitialspace=True)
    lines = [(reader.line_num, cells) for cells in reader if any(cell.strip() for cell in cells)]
    if len(lines) <= 1:
        problems.add(ROW_NO_CSV, name.place, name=name)
        return []
    (_, head), *rest = lines
    units = [match["unit"] if (match := BRACKETS.search(each)) else UNITS_OF_HEADS.get(_plain(each), "") for each in head]
    columns = [_column(each) for each in head]
    for column, written in zip(columns, head, strict=True):
        if column not in ROW_KEYS:
            problems.add(
                ROW_KEY, Place(source, 1, 1), name=written, known=", ".join(ROW_KEYS), nearest=nearest_name(column, ROW_KEYS)
            )
    rows = (_csv_row(line, cells, (columns, units), source, problems) for line, cells in rest)
    return [row for row in rows if row is not None]


def _delimiter(lines: list[str]) -> str:
    """What stands between the cells: of the marks in use the one that gives most known columns."""
    head = next((line for line in lines if line.strip()), "")
    return max(DELIMITERS, key=lambda mark: [_column(each.strip(' "')) in ROW_KEYS for each in head.split(mark)].count(True))


def _csv_row(line: int, cells: list[str], head: tuple[list[str], list[str]], source: Source, problems: Problems) -> Row | None:
    columns, units = head
    place = Place(source, line, 1)
    if len(cells) != len(columns):
        problems.add(ROW_CELLS, place, found=len(cells), wanted=len(columns))
        return None
    found = {}
    for column, unit, cell in zip(columns, units, cells, strict=True):
        if cell.strip() and column in ROW_KEYS:
            found[column] = _text(_with_unit(cell.strip(), unit), place)
    return _made(found, place, problems)


def _with_unit(cell: str, unit: str) -> str:
    """A cell with the unit of its column, where it is a number alone."""
    return f"{cell} {unit}" if unit and cell.replace(",", "").replace(".", "").isdigit() else cell


def _text(value: str, place: Place) -> Text:
    made = Text(value)
    made.source, made.line, made.column = place.source, place.line, place.column
    return made
