"""The page of every method: what it answers, where it may be used, what it leaves out and leaves open, edition by edition."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from dwellcalc.language.documents import Document, Interpretation, Permitted
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import spaced
from dwellcalc.report.reading.links import by_words, in_words, link
from dwellcalc.report.rule_book import RuleBook, one_line
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table

OPEN = "Open questions"
ABOUT = (
    "What each method is for, in short. The whole text of an edition, with every line, number and source, is printed by "
    '"dwellcalc rules show EDITION". Where editions differ, each text is followed by those that have it.'
)
ON = {"home": "the whole supply", "dwelling_unit": "one dwelling unit; several of them are calculated each by itself"}
Said = dict[str, dict[str, str]]  # a text -> the section of each edition that has it, by the edition's title


def methods_page(editions: Sequence[RuleSet]) -> list[Block]:
    """Every method of some editions, oldest first, then the questions that the code leaves open."""
    books = [RuleBook(rules) for rules in editions]
    names = list(dict.fromkeys(name for book in books for name in book.rules.methods))
    every = [book.rules.title for book in books]
    held = {name: [book for book in books if name in book.rules.methods] for name in names}
    rows = [[link(_title(held[name], name)), _section(held[name], name), _had(held[name], every)] for name in names]
    blocks: list[Block] = [
        Heading(1, "Methods"),
        Paragraph(ABOUT),
        Table("", ["Method", "Section", "Editions"], rows),
        Paragraph(f"{link(OPEN)} of the code stand at the end, each with its readings."),
    ]
    for name in names:
        blocks += _method(held[name], name, every)
    return [*blocks, Heading(2, OPEN), *_questions(books, every)]


def _title(books: Sequence[RuleBook], name: str) -> str:
    return str(books[-1].rules.methods[name].source.title)


def _had(books: Sequence[RuleBook], every: Sequence[str]) -> str:
    titles = [book.rules.title for book in books]
    return "all" if titles == list(every) else in_words(titles, every)


def _section(books: Sequence[RuleBook], name: str) -> str:
    sections = {book.rules.title: book.section(book.rules.methods[name].source.cite) for book in books}
    return by_words(sections, list(sections))


# one method


def _method(books: Sequence[RuleBook], name: str, every: Sequence[str]) -> list[Block]:
    documents = [(book, book.rules.methods[name].source) for book in books]
    source = documents[-1][1]
    titles = [book.rules.title for book in books]
    told = [
        f"Key: {name}",
        f"Section: {_section(books, name)}",
        f"Editions: {_had(books, every)}",
        f"Calculated for: {ON[source.per]}",
    ]
    if source.uses:
        parts = (book.rules.documents[str(each)].title for book in books[-1:] for each in source.uses)
        told.append(f"Rests on: {'; '.join(map(str, parts))}")
    blocks: list[Block] = [Heading(2, str(source.title)), Listing(told)]
    permitted = _gathered(documents, lambda book, found: [(_condition(book, found, each), each.cite) for each in found.permitted])
    if permitted:
        blocks += [Paragraph("It may be used where"), Listing(_listed(permitted, titles))]
    left = _gathered(
        documents, lambda book, found: [(f"{spaced(each.group)}: {one_line(each.because)}", each.cite) for each in found.left_out]
    )
    if left:
        blocks += [Paragraph("It leaves out"), Listing(_listed(left, titles))]
    asked = dict.fromkeys(
        each for book, _ in documents for part in book.rules.methods[name].parts for each in part.interpretations
    )
    if asked:
        blocks += [Paragraph(f"Open questions that it may rest on: {', '.join(link(spaced(each)) for each in asked)}.")]
    changed = _changes(books, name)
    if changed:
        blocks += [Paragraph("What editions changed in it and in what it rests on"), Listing(changed)]
    return blocks


def _gathered(
    documents: Iterable[tuple[RuleBook, Document]], texts: Callable[[RuleBook, Document], list[tuple[str, str]]]
) -> Said:
    found: Said = {}
    for book, document in documents:
        for text, cite in texts(book, document):
            found.setdefault(text, {})[book.rules.title] = book.section(cite)
    return found


def _condition(book: RuleBook, document: Document, asked: Permitted) -> str:
    """What a condition of use asks for, or where it does not hold."""
    return book.filled(asked.asks, document) if asked.asks else f"not where {book.filled(asked.if_not, document)}"


def _listed(said: Said, titles: Sequence[str]) -> list[str]:
    """Texts with their sections, and with the editions where not all have them."""
    told = []
    for text, sections in said.items():
        few = "" if len(sections) == len(titles) else f"{in_words(list(sections), titles)}: "
        told.append(f"{few}{text} [{by_words(sections, list(sections))}]")
    return told


def _changes(books: Sequence[RuleBook], name: str) -> list[str]:
    """The titles of the sets of changes that touched the method or a part of it, by edition."""
    found: dict[str, dict[str, None]] = {}
    for book in books:
        parts = {str(part.name) for part in book.rules.methods[name].parts}
        for change in book.rules.applied:
            if change.address.partition(".")[0] in parts and change.set_title:
                found.setdefault(change.document, {})[change.set_title] = None
    return [f"{document}: {'; '.join(sets)}" for document, sets in found.items()]


# open questions


def _questions(books: Sequence[RuleBook], every: Sequence[str]) -> list[Block]:
    asked: dict[str, list[tuple[RuleBook, Document, Interpretation]]] = {}
    for book in books:
        for document in book.rules.documents.values():
            for name, found in document.interpretations.items():
                asked.setdefault(name, []).append((book, document, found))
    blocks: list[Block] = []
    for name, places in asked.items():
        book, document, found = places[-1]
        sections = {each.rules.title: each.section(interpretation.cite) for each, _, interpretation in places}
        few = "" if len(places) == len(every) else f" Asked under {in_words(list(sections), every)}."
        blocks += [
            Heading(3, spaced(name)),
            Paragraph(f"{book.filled(found.question, document)} [{by_words(sections, list(sections))}]{few}"),
            Table("", ["Reading", "What it says", "Sources", "Default"], _readings(places)),
        ]
    return blocks


def _readings(places: Sequence[tuple[RuleBook, Document, Interpretation]]) -> list[list[str]]:
    options = dict.fromkeys(option for *_, found in places for option in found.options)
    titles = [book.rules.title for book, *_ in places]
    rows = []
    for option in options:
        having = [(book, document, found) for book, document, found in places if option in found.options]
        says = {book.rules.title: book.filled(found.options[option].says, document) for book, document, found in having}
        sources = {book.rules.title: book.sources(found.options[option].source) for book, document, found in having}
        default = [book.rules.title for book, _, found in having if found.default == option]
        taken = "" if not default else "yes" if default == titles else in_words(default, titles)
        rows.append([spaced(option), by_words(says, titles), by_words(sources, list(sources)), taken])
    return rows
