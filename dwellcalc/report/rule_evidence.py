"""What an edition rests on: sets of changes, sections, values of weak evidence, sources."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.language.applied import Applied
from dwellcalc.language.words import ASSESSMENT, WEAK_GRADES
from dwellcalc.placed import spaced
from dwellcalc.report.rule_book import RuleBook, set_of
from dwellcalc.report.tables import Block, Paragraph, Table


def change_blocks(book: RuleBook) -> list[Block]:
    """Every set of changes that was applied, in order."""
    sets: dict[str, list[Applied]] = {}
    for change in book.rules.applied:
        sets.setdefault(set_of(change), []).append(change)
    if not sets:
        return [Paragraph("None: the first edition stands as it is.")]
    head = ["piece", "was", "now", "authority", "confidence and sources"]
    return [Table(title, head, [_change_row(book, each) for each in changes]) for title, changes in sets.items()]


def _change_row(book: RuleBook, change: Applied) -> list[str]:
    graded = "\n".join(each for each in (change.confidence, book.sources(change.source)) if each)
    status = f" ({change.status})" if change.status else ""
    was = change.was or "nothing"
    now = _added_whole(book, change) or change.now or "nothing"
    return [piece_in_words(book, change.address), was, now, book.section(change.cite) + status, graded]


def _added_whole(book: RuleBook, change: Applied) -> str:
    """Where a whole table or reading was added, the place where it is printed."""
    what, title = _thing(book, change.address)
    whole = change.operation == "add" and change.address.count(".") == 1 and title
    return f'a new {what}, "{title}", printed in its chapter' if whole else ""


def _thing(book: RuleBook, address: str) -> tuple[str, str]:
    """What an address names in the edition in effect, and its title."""
    owner, _, rest = address.partition(".")
    document, name = book.rules.documents.get(owner), rest.partition(".")[0]
    if document is None:
        return "", ""
    if name in document.lines:
        return f"line {book.numbers[document.lines[name]]}", book.filled(document.lines[name].title, document)
    if name in document.tables:
        return "table", str(document.tables[name].title)
    if name in document.interpretations:
        return "question of interpretation", book.filled(document.interpretations[name].question, document)
    sections = {
        "parameter": [*document.parameters],
        "group": [*document.groups],
        "run": [*document.runs],
        "given value": [*document.given],
    }
    return next((what for what, names in sections.items() if name in names), ""), ""


def piece_in_words(book: RuleBook, address: str) -> str:
    """An address as a reader finds the piece: what it is, its name, and what of it."""
    owner, _, rest = address.partition(".")
    name, _, inner = rest.partition(".")
    document = book.rules.documents.get(owner)
    if owner == ASSESSMENT:
        return f"assessment: {spaced(rest.replace('.', ', '))}"
    if document is None:
        return f"section number: {spaced(name)}" if name else f"list of {owner}"
    what, _ = _thing(book, address)
    said = f"{what} {name}" if what else f"{document.title}: {spaced(name)}"
    return f"{said}, {spaced(inner)}" if inner else said


def citation_table(book: RuleBook) -> Table:
    """Every section that the edition names, by what it is cited for."""
    rows = [
        [spaced(name), str(found.section), str(found.confidence), book.origin(f"citations.{name}")]
        for name, found in book.rules.citations.items()
    ]
    return Table("", ["cited for", "section", "confidence", "origin"], rows)


def weak_table(book: RuleBook) -> Table:
    """Every value, table and section number whose evidence is weak."""
    rows = [list(row) for row in dict.fromkeys(_weak_rows(book))]
    return Table("", ["what", "value", "section", "confidence", "sources"], rows)


Row = tuple[str, str, str, str, str]


def _weak_rows(book: RuleBook) -> Iterator[Row]:
    for chapter in book.chapters:
        document = chapter.document
        pieces = [(spaced(each.name), str(each.value), each.cite, each.evidence) for each in document.parameters.values()]
        pieces += [
            (book.filled(each.title, document), "; ".join(each.tiers), each.cite, each.evidence)
            for each in document.lines.values()
        ]
        for what, value, cite, evidence in pieces:
            if evidence.confidence in WEAK_GRADES:
                yield what, value, book.section(cite), str(evidence.confidence), book.sources(evidence.source)
        for table in document.tables.values():
            if table.confidence in WEAK_GRADES:
                yield f"table: {table.title}", "", book.section(table.cite), str(table.confidence), book.sources(table.source)
    yield from _weak_changes(book)
    for name, found in book.rules.citations.items():
        if found.confidence in WEAK_GRADES:
            yield f"section number: {spaced(name)}", "", str(found.section), str(found.confidence), ""


def _weak_changes(book: RuleBook) -> Iterator[Row]:
    """Changes of weak evidence to pieces that carry no evidence of their own."""
    for change in book.rules.applied:
        what, title = _thing(book, change.address)
        graded = what in ("parameter", "table") or change.address.startswith("citations.")
        if change.confidence in WEAK_GRADES and not graded:
            name = piece_in_words(book, change.address)
            yield (
                f"change: {name}",
                title or change.now,
                book.section(change.cite),
                change.confidence,
                book.sources(change.source),
            )


def source_table(book: RuleBook) -> Table:
    """The sources that the edition names: what each is, and what was seen of it."""
    used = sources_used(book)
    rows = [[found.title, found.publisher, found.year, found.seen] for name, found in book.rules.sources.items() if name in used]
    return Table("", ["source", "publisher", "year", "what was seen"], rows)


def sources_used(book: RuleBook) -> set[str]:
    """The keys of all sources that the edition or a change names."""
    named: list[str | None] = [change.source for change in book.rules.applied]
    for document in book.rules.documents.values():
        named += [each.evidence.source for each in document.parameters.values()]
        named += [each.evidence.source for each in document.lines.values()]
        named += [table.source for table in document.tables.values()]
        named += [option.source for each in document.interpretations.values() for option in each.options.values()]
    return {key for keys in named for key in str(keys or "").split()}
