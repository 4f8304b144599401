"""An edition in effect as a document to lay beside the code book: what `dwellcalc rules show` prints."""

from __future__ import annotations

from operator import itemgetter

from dwellcalc.glossary import Field
from dwellcalc.language import tree
from dwellcalc.language.documents import Document, Interpretation, Line
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.words import GRADES
from dwellcalc.placed import as_mapping, key, spaced
from dwellcalc.problems import Problems
from dwellcalc.report.amendment_pages import amendment_in_words
from dwellcalc.report.rule_book import Chapter, RuleBook, one_line
from dwellcalc.report.rule_evidence import change_blocks, citation_table, source_table, weak_table
from dwellcalc.report.rule_groups import group_blocks
from dwellcalc.report.rule_kinds import kind_blocks, words_of_field
from dwellcalc.report.rule_lines import line_table
from dwellcalc.report.rule_tables import table_blocks
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table

GRADE_MEANINGS = (
    "the code's own text was seen",
    "at least two sources that quote or use it were seen, and agree",
    "one such source was seen",
    "only a remark was seen, in a trade forum or the like",
    "nothing was seen; it is recalled",
)
STATUS_MEANING = "Status: code, where the text states the value; policy, where the text is silent and a choice was made; a line so marked is one."
HOW_TO_READ = (
    "Lines are numbered through the whole document; a line that says `sum of lines` or `line` with a number means these numbers. "
    "Working lines stand only in the full sheet.",
    "sum(group.column) adds the column over every item of the group, each as often as its quantity says; count(group) counts the "
    "items; mean and largest take the mean and the largest; every asks whether all are yes. Over nothing, a sum or a count is zero.",
    "larger(a, b) and smaller(a, b) take one of two amounts; round_up and round_half_up round to the step that is named.",
    "table(table.column, key) is the cell in the row that holds the key; first_row_at_least(table, amount) is the first row that "
    "is not below the amount, such as the next standard rating; last_row_at_most(table, amount) is the last that is not over it.",
    "known(name) asks whether the home's description states it. `is`, `is not` and `in (...)` compare with words.",
    "A line whose `only where` does not hold does not apply: it is passed over by sum of, largest of and least of.",
    "A percent multiplies what it stands beside.",
    "`where` behind a formula tells what its names stand for: values of parameters, numbers of lines, tables.",
    "Origin is the edition or the set of changes that last touched a piece.",
)


def rule_pages(rules: RuleSet) -> list[Block]:
    """The pages of an edition with its amendments."""
    book = RuleBook(rules)
    blocks = _head(book)
    for chapter in book.chapters:
        blocks += _chapter(book, chapter)
    endings: dict[str, list[Block]] = {
        "What is read from the description of a home": [_names_table(book)],
        "Kinds of load": kind_blocks(rules.glossary),
        "Changes in effect, in order": change_blocks(book),
        "Sections": [citation_table(book)],
        "Values and section numbers with weak evidence": [weak_table(book)],
        "Sources": [source_table(book)],
    }
    for title, ending in endings.items():
        blocks += [Heading(2, title), *ending]
    return blocks


# head


def _head(book: RuleBook) -> list[Block]:
    rules = book.rules
    grades = [f"{grade}: {meaning}." for grade, meaning in zip(GRADES, GRADE_MEANINGS, strict=True)]
    return [
        Heading(1, f"{rules.title}: the rules in effect"),
        Paragraph(
            f"Rule set {rules.id}, digest {rules.digest}. These pages restate, in the project's own words, the rules that the calculations use. They are "
            "not the code: the adopted code, its local amendments and the authority having jurisdiction govern."
        ),
        Paragraph("It rests on these editions and amendments, in this order:"),
        Listing([*list(rules.chain)[: len(rules.chain) - len(rules.amendments)], *map(amendment_in_words, rules.amendments)]),
        *(
            Paragraph(f"{title} grades all that it takes over, and that none of its changes states anew: {grade}.")
            for title, grade in rules.carried_over.items()
        ),
        Paragraph("How sure a value or a section number is:"),
        Listing(grades),
        Paragraph(STATUS_MEANING),
        Heading(2, "How lines are read"),
        Listing(list(HOW_TO_READ)),
        Heading(2, "Chapters"),
        Table("", ["chapter", "section", "lines"], [_content(book, chapter) for chapter in book.chapters]),
    ]


def _content(book: RuleBook, chapter: Chapter) -> list[str]:
    numbers = [str(book.numbers[line]) for line in chapter.document.lines.values()]
    return [_title(chapter), book.section(chapter.document.cite), " to ".join(dict.fromkeys((*numbers[:1], *numbers[-1:])))]


def _title(chapter: Chapter) -> str:
    return f"{'Method' if chapter.is_method else 'Part'}: {chapter.document.title}"


# chapters


def _chapter(book: RuleBook, chapter: Chapter) -> list[Block]:
    document = chapter.document
    sections: dict[str, list[Block]] = {
        "Conditions of use": _permitted(book, document),
        "Given": _given(book, document),
        "Parameters": _parameters(book, document),
        "Questions of interpretation": [_interpretation(book, document, each) for each in document.interpretations.values()],
        "Groups": group_blocks(book, chapter) if document.groups else [],
        "Other methods on a part of the home": _runs(book, document),
        "Lines": [line_table(book, chapter)] if document.lines else [],
        "Results": _results(book, document),
        "Left out": _left_out(book, document),
        "Tables": table_blocks(book, chapter),
    }
    blocks: list[Block] = [Heading(2, _title(chapter)), Paragraph(_about(book, chapter))]
    for title, section in sections.items():
        blocks += [Heading(3, title), *section] if section else []
    return blocks


def _about(book: RuleBook, chapter: Chapter) -> str:
    document = chapter.document
    said = []
    if chapter.is_method:
        said.append(f"Section {book.section(document.cite)}. Calculated per {spaced(document.per)}.")
    if document.counts:
        said.append(f"Each load of the group {document.counts} is counted once, or left out for the reason that is given.")
    if document.uses:
        said.append(f"It rests on: {'; '.join(str(book.rules.documents[str(each)].title) for each in document.uses)}.")
    if not chapter.is_method:
        users = [method.source.title for method in book.rules.methods.values() if document in method.parts]
        said.append(f"Used by: {'; '.join(users)}.")
    return " ".join(said)


def _permitted(book: RuleBook, document: Document) -> list[Block]:
    said = [
        f"The method may not be used where {book.filled(each.if_not, document)} [{book.section(each.cite)}]."
        f"\nIt asks: {one_line(each.text)}"
        for each in document.permitted
    ]
    return [Listing(said)] if said else []


def _given(book: RuleBook, document: Document) -> list[Block]:
    if not document.given:
        return []
    node = as_mapping(document.node[key("given")], "given", Problems())
    rows = [
        [name, str(as_mapping(node[key(name)], name, Problems())[key("is")]), spaced(str(each.unit or each.choice or ""))]
        for name, each in document.given.items()
    ]
    return [Table("", ["name", "what it is", "unit"], rows)]


def _parameters(book: RuleBook, document: Document) -> list[Block]:
    rows = [
        [
            spaced(name),
            str(each.value),
            f"{book.section(each.cite)}\n{book.origin(f'{document.name}.{name}')}",
            each.status,
            book.sources(each.evidence.source),
            str(each.evidence.confidence),
        ]
        for name, each in document.parameters.items()
    ]
    head = ["parameter", "value", "section and origin", "status", "sources", "confidence"]
    return [Table("", head, rows, ["left", "right"])] if rows else []


def _interpretation(book: RuleBook, document: Document, asked: Interpretation) -> Block:
    rows = [
        [
            spaced(name) + (" (default)" if name == asked.default else ""),
            book.filled(option.says, document),
            book.sources(option.source),
        ]
        for name, option in asked.options.items()
    ]
    origin = book.origin(f"{document.name}.{asked.name}")
    title = f"{book.filled(asked.question, document)} [{book.section(asked.cite)}; {spaced(asked.name)}; {origin}]"
    return Table(title, ["reading", "what the sources say", "sources"], rows)


def _runs(book: RuleBook, document: Document) -> list[Block]:
    said = []
    for name, run in document.runs.items():
        kept = "; ".join(f"{spaced(collection)}: {spaced(group)}" for collection, group in run.keep.items())
        said.append(f"{name}: {book.rules.documents[str(run.method)].title}, of {kept}")
    return [Listing(said)] if said else []


def _results(book: RuleBook, document: Document) -> list[Block]:
    rows = [
        [spaced(each.name), str(book.numbers[line]), book.filled(line.title, document) + (" (where it applies)" * each.optional)]
        for each in document.results
        for line in [_line_of(book, document, str(each.line))]
    ]
    rows += [
        [spaced(name), str(book.numbers[line]), book.filled(line.title, document)]
        for name in document.columns
        for line in [_line_of(book, document, str(name))]
    ]
    return [Table("", ["result", "line", "title"], rows, ["left", "right"])] if rows else []


def _line_of(book: RuleBook, document: Document, name: str) -> Line:
    """A line of a document, or of a part that its method takes in."""
    return document.lines[name] if name in document.lines else book.rules.methods[document.name].lines[name].source


def _left_out(book: RuleBook, document: Document) -> list[Block]:
    rows = [[spaced(each.group), book.section(each.cite), one_line(each.because)] for each in document.left_out]
    return [Table("", ["group", "section", "reason"], rows)] if rows else []


# names


def _names_table(book: RuleBook) -> Table:
    """Every name that the rules read from the description of a home, with its meaning."""
    found: dict[tuple[str, str], Field] = {}
    for node in _nodes(book):
        if isinstance(node, tree.ReadObject):
            found[spaced(node.owner), node.name] = book.glossary.objects[node.owner][node.field]
        elif isinstance(node, tree.ReadField):
            found[spaced(node.level), node.name] = book.glossary.collections[node.level].fields[node.field]
    rows = [
        [*place, field.meaning, words_of_field(book, field.kind)] for place, field in sorted(found.items(), key=itemgetter(0))
    ]
    return Table("", ["of", "name", "what it is", "unit or words"], rows)


def _nodes(book: RuleBook) -> list[tree.Tree]:
    nodes: list[tree.Tree] = []
    for method in book.rules.methods.values():
        nodes += [node for line in method.lines.values() for node in book.trees(line)]
        nodes += [node for group in method.groups.values() for node in tree.walk(group.condition)]
        nodes += [node for each in method.permitted for node in tree.walk(each.require)]
    return nodes
