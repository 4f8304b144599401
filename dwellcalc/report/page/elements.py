"""Blocks of a document as HTML elements. Tables come from the same model as in text; each has a caption and heads with a scope."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from xml.etree.ElementTree import Element

from dwellcalc.language.words import VERDICTS
from dwellcalc.report.pictures.picture import Picture
from dwellcalc.report.tables import ON_SCREEN, OUTCOME, Block, Detail, Heading, Listing, Paragraph, Table

DEEPEST = 6  # level of a heading
BESIDE = 4  # columns of a table that stands at the side of its picture
NUMBER_AND_UNIT = re.compile(r"(?<=\d) (?=[^\W\d]{1,5}\b)")  # where a number must not part from its unit
TYPED = "`"
TOLD = re.compile(f"(?<=: )({'|'.join(VERDICTS)})(?![\\w])")  # a verdict behind what it is of
NO_BREAK = "\N{NO-BREAK SPACE}"
SHORT = 7  # rows of a table that is kept on one sheet of paper
TALL = 96  # characters of a cell that makes such a table too tall for that


@dataclass
class Fold:
    """Blocks that a page folds away on the screen under a line of words, and opens on paper, or leaves out there."""

    summary: str
    blocks: Sequence[PageBlock]
    on_screen: bool = False


@dataclass
class Beside:
    """Blocks of which paper has the pictures at the left and the rest at the right; on the screen they stand below each other.

    ``left`` are blocks that stand at the left in the place of pictures; ``on_screen`` ones are left out on paper.
    """

    pictures: Sequence[Picture]
    blocks: Sequence[PageBlock] = ()
    left: Sequence[PageBlock] = ()
    on_screen: bool = False


PageBlock = Block | Picture | Fold | Beside
Child = Element | str


def element(name: str, *children: Child, attributes: dict[str, str] | None = None) -> Element:
    """An element with its children; texts stand where they are given."""
    made = Element(name, attributes or {})
    for child in children:
        if isinstance(child, Element):
            made.append(child)
        elif len(made):
            made[-1].tail = (made[-1].tail or "") + child
        else:
            made.text = (made.text or "") + child
    return made


def lines_of(text: str) -> list[Child]:
    """A text with its line breaks, in which numbers do not part from their units."""
    first, *rest = _kept_together(text).split("\n")
    return [*_coded(first), *(child for line in rest for child in (element("br"), *_coded(line)))]


def _coded(text: str) -> list[Child]:
    """A text in which what stands between grave accents is to be typed so."""
    parts = text.split(TYPED)
    if len(parts) % 2 == 0:
        return [text]
    return [element("code", part) if at % 2 else part for at, part in enumerate(parts) if part]


def _lines_of_outcome(text: str) -> list[Child]:
    """The lines of an outcome, their verdicts marked."""
    found: list[Child] = []
    for child in lines_of(text):
        pieces = TOLD.split(child) if isinstance(child, str) else [child]
        found += [element("strong", str(each)) if at % 2 else each for at, each in enumerate(pieces)]
    return found


def _kept_together(text: str) -> str:
    """A text in which numbers do not part from their units."""
    return NUMBER_AND_UNIT.sub(NO_BREAK, text)


def _first_large(text: str) -> list[Child]:
    """A text of a cell: its first line, and the others small below it."""
    first, *rest = text.split("\n")
    return [first, *(element("small", _kept_together(line)) for line in rest)]


def elements(blocks: Sequence[PageBlock], deeper: int = 0) -> list[Element]:
    """Blocks as elements.

    Args:
        blocks: the blocks.
        deeper: how many levels their headings stand below what they say.
    """
    return [_element(each, deeper) for each in blocks]


def _element(block: PageBlock, deeper: int) -> Element:
    if isinstance(block, Heading):
        return element(f"h{min(block.level + deeper, DEEPEST)}", block.text)
    if isinstance(block, Paragraph):
        lines = _lines_of_outcome(block.text) if block.role == OUTCOME else lines_of(block.text)
        return element("p", *lines, attributes={"class": block.role} if block.role else None)
    if isinstance(block, Listing):
        return element("ul", *(element("li", *lines_of(each)) for each in block.items))
    if isinstance(block, Fold):
        inner = element("div", *elements(block.blocks, deeper), attributes={"class": "folded"})
        known = {"class": ON_SCREEN} if block.on_screen else None
        return element("details", element("summary", block.summary), inner, attributes=known)
    if isinstance(block, Beside):
        rest = [element("div", *elements(block.blocks, deeper))] if block.blocks else []
        left = [element("div", *elements(block.left, deeper))] if block.left else []
        known = {"class": f"side-by-side {ON_SCREEN}" if block.on_screen else "side-by-side"}
        return element("div", *map(_figure, block.pictures), *left, *rest, attributes=known)
    return _figure(block) if isinstance(block, Picture) else _table(block)


def _figure(picture: Picture) -> Element:
    picture.drawing.set("role", "img")
    picture.drawing.set("aria-label", picture.says)
    caption = element("figcaption", element("strong", picture.title))
    if picture.numbers is None:
        return element("figure", caption, picture.drawing)
    numbers = element("details", element("summary", "The numbers of this picture"), _table(replace(picture.numbers, title="")))
    narrow = len(picture.numbers.head) <= BESIDE
    return element("figure", caption, picture.drawing, numbers, attributes={"class": "beside"} if narrow else None)


# tables


def _table(table: Table) -> Element:
    headed = any(table.head)
    columns = " close" if table.close else ""
    length = "short" if _is_short(table) else "long"
    numbered = " numbered" if headed and not table.head[0] else ""
    made = element(
        "table", attributes={"role": "table", "class": f"{'headed' if headed else 'pairs'} {length}{numbered}{columns}"}
    )
    if table.title:
        made.append(element("caption", *lines_of(table.title)))
    sides = table.alignment()
    if headed:
        cells = [_head_cell(text, side) for text, side in zip(table.head, sides, strict=True)]
        heads = element("tr", *cells, attributes={"role": "row"})
        made.append(element("thead", heads, attributes={"role": "rowgroup"}))
    named = _naming(table, sides)
    body = element("tbody", attributes={"role": "rowgroup"})
    for at, row in enumerate(table.rows):
        details = table.details[at] if table.details else []
        body.append(_row(row, table, named, details))
    made.append(body)
    return made


def _is_short(table: Table) -> bool:
    """Whether a table is kept on one sheet of paper: few rows, and none that takes many lines."""
    tall = any(len(cell) > TALL for row in table.rows for cell in row)
    return len(table.rows) <= SHORT and not tall and not any(table.details) and not table.close


def _naming(table: Table, sides: Sequence[str]) -> int:
    """The column that names a row: the first that is not of numbers, else the first."""
    return next((at for at, side in enumerate(sides) if side == "left"), 0)


def _head_cell(text: str, side: str) -> Element:
    if not text:
        return element("td", attributes={"class": side, "role": "cell"})
    return element("th", *lines_of(text), attributes={"scope": "col", "role": "columnheader", "class": side})


def _row(row: Sequence[str], table: Table, named: int, details: Sequence[Detail]) -> Element:
    head, sides = table.head, table.alignment()
    folded = max(at for at, side in enumerate(sides) if side == "left") if details else None
    cells = [
        _cell(text, head[at], sides[at], names=at == named, small=table.close, details=details if at == folded else ())
        for at, text in enumerate(row)
    ]
    return element("tr", *cells, attributes={"role": "row"})


def _cell(text: str, head: str, side: str, *, names: bool, small: bool, details: Sequence[Detail]) -> Element:
    attributes = {"class": side if text.strip() else f"{side} empty", "role": "cell"}
    if head and not names:
        attributes["data-head"] = head
    if names:
        attributes |= {"scope": "row", "role": "rowheader"}
    inner = [_details(text, details)] if details else _first_large(text) if small else lines_of(text)
    return element("th" if names else "td", *inner, attributes=attributes)


def _details(text: str, lines: Sequence[Detail]) -> Element:
    """A text that opens to what it rests on."""
    listed = element("ul", *(_detail(each) for each in lines))
    return element("details", element("summary", *lines_of(text)), listed)


def _detail(found: Detail) -> Element:
    return element("li", *lines_of(found.text), attributes={"class": "inner"} if found.inner else None)
