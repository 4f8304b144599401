"""The one table model of all reports, with the other blocks of a document, and two renderers: plain text and Markdown.

A document is a list of blocks. A cell may hold several lines. Text is wrapped to a width with its words whole: a word
breaks only where it is wider than its column, and then after a bracket, a dot, a comma, a slash or an underscore, or
anywhere if there is none. A table that is too wide even so goes on below, with its first column again.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeVar, Union

WIDEST_TEXT = 110  # of running text: the eye loses longer lines; tables may be wider
GAP = 2  # what the text layout puts between two columns
UNDERLINES = "=-~."
OUTCOME, VERDICT, ON_SCREEN = (
    "outcome",
    "verdict",
    "on-screen",
)  # roles of a paragraph; one that is on the screen alone is left out on paper
EMPTY = "\0"  # a line of a table that is to stay empty
Item = TypeVar("Item")
_PIECES = re.compile(r"[^(.,/_]*[(.,/_]+|[^(.,/_]+")
_MARKS = re.compile(r"([\\|*<`])")
_BLOCK_MARK = re.compile(r"(?m)^(#|\+|-|>)")


@dataclass
class Heading:
    """A heading; level 1 is the title of the document."""

    level: int
    text: str


@dataclass
class Paragraph:
    """A paragraph; a line break in it is kept. ``role`` says what it is on a page, such as the verdict."""

    text: str
    role: str = ""


@dataclass
class Listing:
    """A list of items, each with a dash."""

    items: list[str]


@dataclass(frozen=True)
class Detail:
    """What a page folds away under a row; ``inner`` is for the screen alone."""

    text: str
    inner: bool = False


@dataclass
class Table:
    """A table: its title, head and rows.

    Attributes:
        aligned: ``left`` or ``right`` for each column, left where it says nothing.
        details: for each row, what a page folds away under its last text; text and Markdown leave it out.
        close: whether further lines of a cell say how its first one is found, and a page sets them small.
    """

    title: str
    head: list[str]
    rows: list[list[str]]
    aligned: list[str] = field(default_factory=list)
    details: list[list[Detail]] = field(default_factory=list)
    close: bool = False

    def alignment(self) -> list[str]:
        """The alignment of every column."""
        return [*self.aligned, *["left"] * (len(self.head) - len(self.aligned))]


Block = Union[Heading, Paragraph, Listing, Table]


def as_text(blocks: Sequence[Block], width: int | None) -> str:
    """A document as plain text, no wider than ``width`` where one is given; running text no wider than it reads well."""
    return "\n\n".join(_text(block, width) for block in blocks) + "\n"


def as_markdown(blocks: Sequence[Block]) -> str:
    """A document as Markdown with pipe tables."""
    return "\n\n".join(_markdown(block) for block in blocks) + "\n"


def wrapped(text: str, width: int | None) -> list[str]:
    """The lines of a text, each no wider than ``width``; its own line breaks are kept."""
    lines = text.split("\n")
    if width is None:
        return lines
    found: list[str] = []
    for line in lines:
        words = " ".join(_broken(word, width) for word in line.split())
        found += textwrap.wrap(words, width, break_long_words=False, break_on_hyphens=False) or [""]
    return found


def split_evenly(items: Sequence[Item], most: int) -> list[list[Item]]:
    """Items in as few runs of no more than ``most`` as will do, about equally long."""
    runs = -(-len(items) // most)
    size = -(-len(items) // runs) if runs else 1
    return [list(items[at : at + size]) for at in range(0, len(items), size)]


# plain text


def _text(block: Block, width: int | None) -> str:
    if isinstance(block, Table):
        return "\n\n".join(_text_table(part, width) for part in _parts(block, width))
    width = None if width is None else min(width, WIDEST_TEXT)
    if isinstance(block, Heading):
        lines = wrapped(block.text, width)
        mark = UNDERLINES[min(block.level, len(UNDERLINES)) - 1]
        return "\n".join([*lines, mark * max(map(len, lines))])
    if isinstance(block, Paragraph):
        return "\n".join(wrapped(block.text, width))
    return "\n".join(line for item in block.items for line in _item(item, width))


def _item(text: str, width: int | None) -> list[str]:
    lines = wrapped(text, None if width is None else width - GAP)
    return [("- " if at == 0 else "  ") + line for at, line in enumerate(lines)]


def _text_table(table: Table, width: int | None) -> str:
    from tabulate import tabulate

    widths = _column_widths(table, width)
    head, *rows = [["\n".join(wrapped(cell, wide)) for cell, wide in zip(row, widths)] for row in (table.head, *table.rows)]
    rule = ["-" * _natural(column) for column in zip(head, *rows)]
    tall = [row for row in rows if any("\n" in cell for cell in row)]
    if len(tall) > len(rows) / 2:
        rows = [each for row in rows for each in (row, [EMPTY] * len(head))][:-1]
    headed = [head, rule, *rows] if any(head) else rows
    made = tabulate(headed, tablefmt="plain", disable_numparse=True, colalign=table.alignment() if headed else None)
    lines = [line.replace(EMPTY, " ").rstrip() for line in made.split("\n")]
    return "\n".join([*(wrapped(table.title, width) if table.title else []), *lines])


def _column_widths(table: Table, width: int | None) -> list[int | None]:
    """A width for each column: numbers whole, then whole words, then what is left to the columns that need it most."""
    columns = list(zip(table.head, *table.rows, strict=True))
    natural = [_natural(column) for column in columns]
    room = 0 if width is None else width - GAP * (len(columns) - 1)
    if width is None or sum(natural) <= room:
        return [None] * len(columns)
    whole, broken = (_narrowest(table, columns, width, whole=whole) for whole in (True, False))
    widths = _narrowed(whole, broken, room)
    _widen_short(widths, [min(pair) for pair in zip(natural, map(_usual, columns))], room)
    _widen_short(widths, natural, room)
    while sum(widths) < room:
        neediest = max(range(len(widths)), key=lambda at: natural[at] / widths[at])
        widths[neediest] += 1
    return list(widths)


def _narrowest(table: Table, columns: Sequence[Sequence[str]], width: int | None, *, whole: bool) -> list[int]:
    """The least width of each column: numbers whole, words whole or broken; none so wide that two do not stand side by side."""
    numbers = [_natural(column[1:]) if side == "right" else 1 for column, side in zip(columns, table.alignment())]
    found = [max(pair) for pair in zip(numbers, (_longest(each, whole=whole) for each in columns))]
    most = max(found) if width is None else (width if len(columns) == 1 else (width - GAP) // 2)
    return [min(each, most) for each in found]


def _parts(table: Table, width: int | None) -> list[Table]:
    """A table, or where it is too wide, tables that stand below each other, each with what tells its rows apart."""
    columns = list(zip(table.head, *table.rows, strict=True))
    if _fits(_narrowest(table, columns, width, whole=False), width):
        return [table]
    found: list[Table] = []
    for keys in (_keys(table), [0]):
        found = _divided(table, keys, _narrowest(table, columns, width, whole=True), width)
        if all(_fits(_narrowest(part, list(zip(part.head, *part.rows)), width, whole=False), width) for part in found):
            return found
    return found


def _fits(widths: Sequence[int], width: int | None) -> bool:
    return width is None or sum(widths) + GAP * (len(widths) - 1) <= width


def _keys(table: Table) -> list[int]:
    """The first column; and where it leaves cells empty, the first that does not and tells the rows below each other apart."""
    named = [row[0] for row in table.rows]
    if all(named):
        return [0]
    named = [next((name for name in reversed(named[: at + 1]) if name), "") for at in range(len(named))]
    for at in range(1, len(table.head)):
        cells = [row[at] for row in table.rows]
        if all(cells) and len({*zip(named, cells)}) == len(cells):
            return [0, at]
    return [0]


def _divided(table: Table, keys: list[int], widths: Sequence[int], width: int | None) -> list[Table]:
    """A table in parts that are no wider than a width if that can be: of the later ones each begins with the key columns."""
    parts: list[list[int]] = [[]]
    for at in range(len(table.head)):
        if at in parts[-1]:
            continue
        taken = [*parts[-1], at]
        if not _fits([widths[each] for each in taken], width) and {*parts[-1]} - {*keys}:
            taken = [*keys, at]
            parts.append(taken)
        parts[-1] = taken
    sides = table.alignment()
    return [
        Table(
            table.title if number == 0 else "",
            [table.head[at] for at in part],
            [[row[at] for at in part] for row in table.rows],
            [sides[at] for at in part],
        )
        for number, part in enumerate(parts)
    ]


def _natural(cells: Sequence[str]) -> int:
    """The width of cells that are not wrapped."""
    return max((len(line) for cell in cells for line in cell.split("\n")), default=0)


def _usual(cells: Sequence[str]) -> int:
    """The width that three of four cells fit in."""
    lengths = sorted(map(len, cells))
    return lengths[len(lengths) * 3 // 4]


def _widen_short(widths: list[int], wanted: list[int], room: int) -> None:
    """Give columns that want no more than their share all that they want, the shortest first."""
    for done, at in enumerate(sorted(range(len(widths)), key=wanted.__getitem__)):
        left = room - sum(widths) + widths[at]
        share = (room - sum(sorted(wanted)[:done])) // (len(widths) - done)
        if wanted[at] <= share:
            widths[at] = max(widths[at], min(wanted[at], left))


def _narrowed(widths: list[int], least: list[int], room: int) -> list[int]:
    """Widths taken from the widest columns, word by word, until they fit or nothing is left to take."""
    while sum(widths) > room and widths != least:
        widest = max((at for at, wide in enumerate(widths) if wide > least[at]), key=lambda at: widths[at])
        widths[widest] -= 1
    return widths


def _longest(cells: Sequence[str], *, whole: bool) -> int:
    words = [word for cell in cells for word in cell.split()]
    pieces = words if whole else [piece for word in words for piece in _PIECES.findall(word)]
    return max(map(len, pieces), default=1)


def _broken(word: str, width: int) -> str:
    """A word that is too wide, in pieces that fit, joined by spaces."""
    if len(word) <= width:
        return word
    lines = [""]
    pieces = (piece[at : at + width] for piece in _PIECES.findall(word) for at in range(0, len(piece), width))
    for piece in pieces:
        if lines[-1] and len(lines[-1]) + len(piece) > width:
            lines.append("")
        lines[-1] += piece
    return " ".join(lines)


# Markdown


def _markdown(block: Block) -> str:
    if isinstance(block, Heading):
        return f"{'#' * block.level} {_escaped(block.text)}"
    if isinstance(block, Paragraph):
        return _BLOCK_MARK.sub(r"\\\1", _escaped(block.text)).replace("\n", "<br>\n")
    if isinstance(block, Listing):
        return "\n".join("- " + _escaped(item).replace("\n", "<br>\n  ") for item in block.items)
    return _markdown_table(block)


def _markdown_table(table: Table) -> str:
    from tabulate import tabulate

    head, *rows = [[_escaped(cell).replace("\n", "<br>") for cell in row] for row in (table.head, *table.rows)]
    made = tabulate(rows, head, "pipe", disable_numparse=True, colalign=table.alignment() if rows else None)
    return f"**{_escaped(table.title)}**\n\n{made}" if table.title else made


def _escaped(text: str) -> str:
    return _MARKS.sub(r"\\\1", text)
