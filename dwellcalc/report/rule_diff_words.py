"""Changes of rules in words: what a piece is by its title, and what was and is now as a reader finds it in the code book."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from dwellcalc.language import tree
from dwellcalc.language.applied import Applied, Pieces
from dwellcalc.language.changed_pieces import OF_CITATIONS, of_assessment, piece_of, quoted
from dwellcalc.language.documents import QUOTED, Document, Group, Interpretation, Line, Parameter
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tables import Table as RuleTable
from dwellcalc.language.tree import CheckedLine
from dwellcalc.placed import spaced
from dwellcalc.report.rule_book import RuleBook, one_line
from dwellcalc.report.rule_lines import how
from dwellcalc.report.rule_tables import row_blocks
from dwellcalc.report.tables import Block, Paragraph

NOTHING = "nothing"
OF_ANSWERS = {  # what of an assessment is changed
    "remarks": "a remark of the answer",
    "checklist": "what a new or replaced service also brings",
    "cautions": "a caution of the sheet",
    "not_calculated": "what is not calculated here",
}
IN_WORDS = {  # what of a piece is changed
    "value": "how it is worked out",
    "cases": "its cases",
    "sum_of": "what is added",
    "largest_of": "what it is the largest of",
    "least_of": "what it is the least of",
    "of": "what its tiers are of",
    "tiers": "its tiers",
    "applies": "where it applies",
    "each": "what it is for",
    "except": "what is left out of it",
    "where": "its condition",
    "bases": "what it is made of",
    "default": "the reading that is taken where none is chosen",
    "options": "its options",
    "rows": "row",
    "title": "its title",
    "cite": "its section",
    "permitted": "a condition of use",
    "left_out": "what is left out",
    "uses": "the parts that it rests on",
    "result": "its results",
    "columns": "its columns",
    "counts": "what it counts",
}


def of_citations(address: str) -> bool:
    """Whether an address is that of a section number."""
    return address.startswith(OF_CITATIONS)


@dataclass
class Side:
    """The words of a set of changes: pieces are looked up in the book that has them.

    Attributes:
        first: the book of what was.
        second: the book of what is now.
        is_taken: whether the set is one that is taken back.
    """

    first: RuleBook
    second: RuleBook
    is_taken: bool

    @property
    def holder(self) -> RuleBook:
        """The book in which the set is in effect."""
        return self.first if self.is_taken else self.second

    def book(self, address: str, *, now: bool) -> RuleBook:
        """The book of a side, or the other one where that side has no such piece."""
        books = (self.second, self.first) if now else (self.first, self.second)
        return next((each for each in books if piece_of(each.rules, address) is not None), books[0])

    # what is changed

    def what(self, change: Applied) -> str:
        """What a change is of: its kind, title and name, and what of it."""
        owner, _, rest = change.address.partition(".")
        inner = rest.partition(".")[2]
        book = self.book(change.address, now=not self.is_taken)
        piece = piece_of(book.rules, change.address)
        document = book.rules.documents.get(owner)
        if of_assessment(change):
            first, _, of = rest.partition(".")
            said = OF_ANSWERS.get(first, f"the assessment, {spaced(first)}")
            return f"{said}\n({spaced(of)})" if of else said
        if document is None:
            return f"the list of {spaced(owner)}"
        if piece is None:
            return f"{_title(document)}: {_inner(rest)}"
        said = f"{_kind(piece)} {_named(book, piece, document)}"
        told = f"{said}\n{_inner(inner)}" if inner else said
        return f"{told}\n(in: {document.title})"

    # what was and is now

    def text(self, change: Applied, *, now: bool) -> str:
        """What was, or is now."""
        text = change.now if now else change.was
        if not text:
            return NOTHING
        book = self.book(change.address, now=now)
        piece = piece_of(book.rules, change.address)
        owner, _, rest = change.address.partition(".")
        document = book.rules.documents.get(owner)
        if of_assessment(change):
            return one_line(QUOTED.sub(lambda match: quoted(match[1], self.rules(now=now)), text))
        if document is None:
            method = book.rules.methods.get(text)
            return str(method.source.title) if method is not None else text
        if change.operation in ("add", "remove") and "." not in rest and piece is not None:
            return _whole(book, piece, document, text)
        pieces = change.pieces_after if now else change.pieces_before
        if pieces:
            return self._pieces(book, piece, document, pieces)
        if rest.rpartition(".")[2] == "cite":
            return quoted(text, self.rules(now=now))
        return self._piece(book, piece, document, text, rest)

    def rules(self, *, now: bool) -> tuple[RuleSet, RuleSet]:
        """The rule sets, that of a side first."""
        return (self.second.rules, self.first.rules) if now else (self.first.rules, self.second.rules)

    def _pieces(self, book: RuleBook, piece: Any, document: Document, pieces: Pieces) -> str:
        """Several pieces of one, each on lines of its own; what its names stand for once, after the last."""
        ways = {
            "title": lambda text: f'"{_filled(book, text, document)}"',
            "says": lambda text: _filled(book, text, document),
            "cite": lambda text: f"section: {book.section(text)}",
            "source": lambda text: f"source: {book.sources(text)}",
            "confidence": lambda text: f"evidence: {text}",
        }
        names = [name for name, _ in pieces]
        told = [
            (name, text) for name, text in pieces if name != "source" or "says" not in names
        ]  # the evidence of a row tells it
        said = [ways[name](text) if name in ways else _spaced_lines(text) for name, text in told]
        formulas = " ".join(text for name, text in pieces if name not in ways)
        return "\n".join([*said, *self._stand_for(book, piece, document, formulas)])

    def _stand_for(self, book: RuleBook, piece: Any, document: Document, text: str) -> list[str]:
        """What the names in the formulas of a line stand for."""
        line = _checked(book, document, piece)
        return _legend([] if line is None else [(name, meaning) for name, meaning in _names(book, line) if name in text])

    def _piece(self, book: RuleBook, piece: Any, document: Document, text: str, rest: str) -> str:
        """A piece of a piece: the name of a line or a group with what that is; a formula with what its names stand for."""
        inner = rest.rpartition(".")[2]
        if text in document.lines and inner != "default":
            return f'"{book.filled(document.lines[text].title, document)}"'
        if text in document.groups and isinstance(piece, Group):
            return f"{spaced(text)}: {_plain(document.groups[text].text)}"
        if isinstance(piece, Interpretation) and text in piece.options:
            return f"{spaced(text)}: {book.filled(piece.options[text].says, document)}"
        if isinstance(piece, RuleTable) and len(piece.columns) > 1 and text.count(",") == len(piece.columns) - 1:
            cells = zip(piece.columns, text.split(","), strict=True)
            return "\n".join(f"{spaced(column)}: {_plain(cell)}" for column, cell in cells)
        return "\n".join([_plain(text), *self._stand_for(book, piece, document, text)])

    def whole_tables(self, change: Applied) -> list[Block]:
        """The rows of a table that is added or taken away whole."""
        rest = change.address.partition(".")[2]
        book = self.book(change.address, now=change.operation == "add")
        piece = piece_of(book.rules, change.address)
        if change.operation == "change" or "." in rest or not isinstance(piece, RuleTable):
            return []
        verb = "New" if change.operation == "add" else "No longer there"
        return [Paragraph(f"{verb}: {piece.title} ({book.section(piece.cite)})"), *row_blocks(piece)]


def _kind(piece: Any) -> str:
    kinds = {Line: "line", Parameter: "amount", RuleTable: "table", Interpretation: "question of interpretation", Group: "group"}
    return next((word for kind, word in kinds.items() if isinstance(piece, kind)), "piece")


def _named(book: RuleBook, piece: Any, document: Document) -> str:
    """A piece by its title or question, or by its name where it has neither."""
    if isinstance(piece, Interpretation):
        return f'"{book.filled(piece.question, document)}"'
    if isinstance(piece, (Line, RuleTable)):
        return f'"{book.filled(piece.title, document)}"'
    return spaced(str(piece.name))


def _title(document: Document) -> str:
    return f"{'method' if document.kind == 'method' else 'part'} {document.title}"


def _inner(inner: str) -> str:
    """What of a piece is changed, in words; the key of a row or an option stays."""
    first, _, rest = inner.partition(".")
    said = IN_WORDS.get(first, spaced(first))
    return f"{said} {spaced(rest)}" if rest else said


def _whole(book: RuleBook, piece: Any, document: Document, text: str) -> str:
    """A piece that is added or taken away whole."""
    line = _checked(book, document, piece)
    if line is not None:
        said = (_plain(each) for each in how(book, line) if not each.startswith("where "))
        return "\n".join([*said, *_legend(_names(book, line))])
    if isinstance(piece, Parameter):
        return book.printed_value(piece)
    if isinstance(piece, Interpretation):
        options = [f"{spaced(name)}: {book.filled(each.says, document)}" for name, each in piece.options.items()]
        return "\n".join([*options, f"taken where none is chosen: {spaced(piece.default)}"])
    return "a table, its rows below" if isinstance(piece, RuleTable) else _plain(text)


def _filled(book: RuleBook, text: str, document: Document) -> str:
    """A text with the amounts that it quotes; an amount that this edition has not, by its name."""
    values = {}
    for match in QUOTED.finditer(text):
        try:
            values[match[1]] = book.printed_value(book.parameter(match[1], document))
        except StopIteration:
            values[match[1]] = spaced(match[1])
    return one_line(QUOTED.sub(lambda match: values[match[1]], text))


def _spaced_lines(text: str) -> str:
    return "\n".join(map(_plain, text.splitlines()))


def _plain(text: str) -> str:
    """A text of the rules on one line, its names as people write them."""
    return spaced(one_line(text))


def _legend(names: list[tuple[str, str]]) -> list[str]:
    """What names stand for, as far as that says more than the name."""
    return [f"{spaced(name)}: {meaning}" for name, meaning in names if spaced(name).casefold() != meaning.casefold()]


def _checked(book: RuleBook, document: Document, piece: Any) -> CheckedLine | None:
    """The checked line of a line, of the method that it is first printed with."""
    if not isinstance(piece, Line):
        return None
    chapter = next((each for each in book.chapters if each.document is document), None)
    return None if chapter is None else chapter.method.lines.get(str(piece.name))


def _names(book: RuleBook, line: CheckedLine) -> list[tuple[str, str]]:
    """What the names of a line's formulas stand for: amounts, titles of lines, tables; parts of a sum say it themselves."""
    found: dict[str, str] = {}
    for node in book.trees(line):
        if isinstance(node, tree.Constant) and node.address:
            owner, _, name = node.address.partition(".")
            found[node.name] = book.printed_value(book.rules.documents[owner].parameters[name])
        elif isinstance(node, tree.ReadLine):
            found[node.name] = book.title_of(node.line.source)
        elif isinstance(node, (tree.Lookup, tree.FirstRow)):
            found[str(node.table.name)] = f"{node.table.title} ({book.section(node.table.cite)})"
    return list(found.items())
