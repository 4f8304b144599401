"""Which column of a table holds what, by its headings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from dwellcalc.meter.record import DELIVERED, NET, NOT_SAID, RECEIVED, Said
from dwellcalc.meter.tables.needs import COLUMNS, ask
from dwellcalc.meter.tables.stamps import kind_of
from dwellcalc.meter.tables.table_lines import Told, cell, clean, line_place, short
from dwellcalc.meter.tables.values import MISSING, Unit, take_apart, without_brackets, words_of
from dwellcalc.problems import fail, message, nearest_name

TABLE_HEADINGS = message(
    "meter_table_headings",
    "no line has headings for a time and for energy or power: {found}",
    "write `columns:` under `meter:` in the home file, each heading after what it holds: {roles}",
)
TABLE_COLUMN = message("meter_table_column", 'no heading of {name} is "{heading}"', "its headings: {found}")

TIMES = ("start", "end", "stamp", "period", "hour_ending", "hour", "time", "interval_number")
LONGER = ("start", "end", "stamp", "period")  # headings of these may go on after the words that are known
DIRECTIONS = {"delivered": DELIVERED, "received": RECEIVED, "net": NET, "energy": NOT_SAID, "power": NOT_SAID}
KEYS = ("quality", "meter", "register", "direction", "revision", "utc_offset", "unit")
ROWS_LOOKED_AT = 60
MOST_NAMED = 12
MOST_LOOKED_AT = 40_000


@dataclass(frozen=True)
class ValueColumn:
    """A column of values: where it stands, its heading, what flows, and its unit where the heading names one."""

    column: int
    heading: str
    direction: str
    unit: Unit | None


@dataclass
class Headings:
    """The line of headings: its cells, what each column holds, and the units in them.

    Attributes:
        row: which row of the head it is; -1 where the file has none.
        cells: the headings as written.
        roles: the columns of each role.
        units: the unit that a heading names, by column.
    """

    row: int = -1
    cells: list[str] = field(default_factory=list)
    roles: dict[str, list[int]] = field(default_factory=dict)
    units: dict[int, Unit] = field(default_factory=dict)

    def first(self, *roles: str) -> int | None:
        """The first column of the first of these roles that there is."""
        return next((self.roles[role][0] for role in roles if self.roles.get(role)), None)

    def heading(self, column: int) -> str:
        """What stands above a column."""
        return clean(self.cells[column]) if column < len(self.cells) else f"column {column + 1}"

    @property
    def known(self) -> bool:
        """Whether it tells both a time and a value."""
        has_time = any(role in self.roles for role in (*TIMES, "date"))
        return has_time and any(role in self.roles for role in DIRECTIONS)


class Roles:
    """What a heading says that its column holds."""

    def __init__(self, headings: Mapping[str, Sequence[str]]) -> None:
        self.names = tuple(headings)
        self.by_words = {words_of(text): role for role, texts in headings.items() for text in texts}
        self.longer = sorted((words for words, role in self.by_words.items() if role in LONGER and " " in words), key=len)

    def of(self, row: Iterable[str], number: int) -> Headings:
        """A row taken as headings."""
        found = Headings(number, list(row))
        for column, text in enumerate(found.cells):
            words, unit = take_apart(text)
            role = self.by_words.get(words) or self._longer(words) or self._beside(text)
            if unit is not None:
                found.units[column] = unit
                if not words:
                    role = "power" if unit.power else "energy"
            if role:
                found.roles.setdefault(role, []).append(column)
        return found

    def _beside(self, text: str) -> str:
        """What the words outside of brackets name, if it is no value: a time may be `(local)`, an energy must not be of anything else."""
        role = self.by_words.get(without_brackets(text), "")
        return "" if role in DIRECTIONS else role

    def _longer(self, words: str) -> str:
        begins = [each for each in self.longer if words.startswith(f"{each} ")]
        return self.by_words[begins[-1]] if begins else ""


def as_said(found: Headings, said: Said, told: Told, number: int) -> Headings:
    """The columns that the user names take the place of those found by headings."""
    for role, heading in said.columns.items():
        wanted = words_of(heading)
        columns = [at for at, text in enumerate(found.cells) if clean(text) == clean(heading)]
        columns = columns or [at for at, text in enumerate(found.cells) if words_of(text) == wanted]
        if not columns:
            place = said.places.get("columns") or line_place(told.name, number, "")
            known = [clean(text) for text in found.cells if clean(text)]
            nearest = nearest_name(heading, known)
            shown = ", ".join(map(short, known[:MOST_NAMED]))
            told.problems.add(TABLE_COLUMN, place, name=told.name, heading=short(heading), found=shown, nearest=nearest)
            continue
        for others in found.roles.values():
            others[:] = [at for at in others if at != columns[0]]
        found.roles[role] = columns[:1]
    found.roles = {role: columns for role, columns in found.roles.items() if columns}
    return found


def candidates(rows: list[list[str]]) -> Iterator[tuple[int, list[str]]]:
    """The rows that may be headings: they have letters, and are not after very many cells."""
    looked = 0
    for number, row in enumerate(rows):
        looked += len(row)
        if looked > MOST_LOOKED_AT:
            return
        if any(text and (text[0].isalpha() or text[-1].isalpha()) for text in map(str.strip, row)):
            yield number, row


def headings_of(rows: list[list[str]], roles: Roles, said: Said, told: Told) -> Headings:
    """The headings among the first rows; of a file without any, what its columns must hold.

    Raises:
        InputError: no row tells what the columns hold.
    """
    wanted = {words_of(text) for text in said.columns.values()}
    for number, row in candidates(rows):
        found = roles.of(row, number)
        if wanted and wanted & {words_of(text) for text in row}:
            found = as_said(found, said, told, number + 1)
        if found.known:
            return found
    if wanted:
        widest = max(rows, key=len, default=[])
        as_said(Headings(0, list(widest)), said, told, rows.index(widest) + 1 if rows else 1)
        told.problems.raise_if_any()
    bare = without_headings(rows)
    if bare is None:
        widest = max(rows, key=len, default=[])
        shown = ", ".join(f'"{short(text)}"' for text in widest[:MOST_NAMED])
        at = line_place(told.name, rows.index(widest) + 1, ",".join(widest)) if rows else None
        fail(TABLE_HEADINGS, at, found=shown, roles=", ".join(roles.names))
    return bare


def without_headings(rows: list[list[str]]) -> Headings | None:
    """The columns of a file whose first line is a reading, if a stamp and one number are all that it holds."""
    first = rows[0] if rows else []
    stamps = [at for at, text in enumerate(first) if kind_of(clean(text)) in ("stamp", "period")]
    values = [at for at in range(len(first)) if at not in stamps and is_value(cell(first, at))]
    if len(stamps) != 1 or len(values) != 1:
        return None
    return Headings(-1, [], {"stamp": stamps, "energy": values})


def is_value(text: str) -> bool:
    """Whether a cell looks like a number, or like one that is missing."""
    return text.casefold() in MISSING or (text[-1:].isdigit() and not any(letter.isalpha() for letter in text))


def kinds_of(rows: list[list[str]], column: int) -> str:
    """What most cells of a column look like."""
    looked = (kind_of(cell(row, column)) for row in rows[:ROWS_LOOKED_AT])
    counted = Counter(kind for kind in looked if kind)
    return counted.most_common(1)[0][0] if counted else ""


def value_columns(found: Headings, told: Told) -> list[ValueColumn]:
    """The columns of values that are taken: energy where there is energy, average power else."""
    columns: list[ValueColumn] = []
    for role, direction in DIRECTIONS.items():
        columns += [ValueColumn(at, found.heading(at), direction, found.units.get(at)) for at in found.roles.get(role, ())]
    powers = set(found.roles.get("power", ()))
    of_energy = [each for each in columns if (not each.unit.power if each.unit else each.column not in powers)]
    taken = of_energy or columns
    for direction in dict.fromkeys(DIRECTIONS.values()):
        same = [each for each in taken if each.direction == direction]
        if len(same) > 1:
            names = ", ".join(f'"{short(each.heading)}"' for each in same)
            ask(told, COLUMNS, f"each of {names} could be meant", f"{{energy: {short(same[0].heading)}}}")
    return taken
