"""The lines of a chapter as a table: number, title and name, how each is worked out, unit, section and origin."""

from __future__ import annotations

from collections.abc import Callable

from dwellcalc.language import tree
from dwellcalc.language.documents import Line
from dwellcalc.language.tree import CheckedLine
from dwellcalc.placed import spaced
from dwellcalc.report.rule_book import Chapter, RuleBook, one_line, present
from dwellcalc.report.tables import Table

HEAD = ["line", "title and name", "how it is worked out", "unit", "section and origin"]


def line_table(book: RuleBook, chapter: Chapter) -> Table:
    """The lines of a chapter in printed order."""
    rows = [_row(book, chapter, chapter.method.lines[name]) for name in chapter.document.lines]
    return Table("", HEAD, rows, ["right"])


def _row(book: RuleBook, chapter: Chapter, line: CheckedLine) -> list[str]:
    source = line.source
    name = f"{source.name}{' (working line)' * source.working}{' (policy)' * source.is_policy}"
    return [
        str(book.numbers[source]),
        f"{book.filled(source.title, chapter.document)}\n{name}",
        "\n".join(how(book, line)),
        book.unit(line.kind),
        f"{book.section(source.cite)}\n{book.origin(f'{chapter.document.name}.{source.name}')}",
    ]


def how(book: RuleBook, line: CheckedLine) -> list[str]:
    """The way to a line's value, one statement to a line of text."""
    source = line.source
    ways: dict[str, Callable[[RuleBook, CheckedLine], list[str]]] = {"cases": _cases, "of": _tiers, "value": _value}
    return present(
        [
            f"for each of: {spaced(source.each)}" if source.each else "",
            f"only where {one_line(source.applies_text)}" if source.applies_text else "",
            *ways.get(source.way, _parts)(book, line),
            _names_read(book, line),
            f"Note: {one_line(source.note)}" if source.note else "",
            f"Source: {book.evidence(source.evidence)}" if source.evidence.confidence else "",
        ]
    )


def _value(book: RuleBook, line: CheckedLine) -> list[str]:
    return [one_line(line.source.value_text or "")]


def _parts(book: RuleBook, line: CheckedLine) -> list[str]:
    numbers = ", ".join(str(book.numbers[part.line.source]) for part in line.parts)
    return [f"{spaced(line.source.way)} lines {numbers}"]


def _tiers(book: RuleBook, line: CheckedLine) -> list[str]:
    return [f"of {one_line(line.source.of_text or '')}:", *map(one_line, line.source.tiers)]


def _cases(book: RuleBook, line: CheckedLine) -> list[str]:
    return [_case(book, line.source, at) for at in range(len(line.source.cases))]


def _case(book: RuleBook, source: Line, at: int) -> str:
    case = source.cases[at]
    when = f"when {one_line(case.when_text)}" if case.when_text else "otherwise"
    cite = f" [{book.section(case.cite)}]" if case.cite else ""
    return f"{when}: {one_line(case.then_text)}{cite}"


def _names_read(book: RuleBook, line: CheckedLine) -> str:
    """What the names of a formula stand for: values of parameters, numbers of lines, tables."""
    if line.parts:
        return ""
    found = dict.fromkeys(_reference(book, node) for node in book.trees(line))
    told = "; ".join(present(list(found)))
    return f"where {told}" if told else ""


def _reference(book: RuleBook, node: tree.Tree) -> str:
    if isinstance(node, tree.Constant) and node.address:
        document, _, name = node.address.partition(".")
        return f"{node.name} = {book.rules.documents[document].parameters[name].value}"
    if isinstance(node, tree.ReadLine):
        return f"{node.name} = line {book.numbers[node.line.source]}"
    if isinstance(node, (tree.Lookup, tree.FirstRow)):
        return f"{node.table.name} = the table of {book.section(node.table.cite)}"
    return ""
