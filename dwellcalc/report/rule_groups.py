"""The groups of a chapter: each in the text's own words, and every kind of item against the groups."""

from __future__ import annotations

from dwellcalc.language import tree
from dwellcalc.language.tree import CheckedGroup, CheckedMethod
from dwellcalc.placed import spaced
from dwellcalc.report.rule_book import Chapter, RuleBook, one_line
from dwellcalc.report.rule_kinds import MOST_COLUMNS, kind_field, kinds_of, said_by_kind
from dwellcalc.report.rule_membership import Decision, Membership, Open, Told, within
from dwellcalc.report.tables import Block, Listing, Paragraph, Table, split_evenly

READING = "In the tables yes and no are so by kind alone; if and unless depend on what is said of the home."


def group_blocks(book: RuleBook, chapter: Chapter) -> list[Block]:
    """The groups of a chapter as a table of their texts, then the kinds against them."""
    document = chapter.document
    texts = [[name, one_line(group.text), book.origin(f"{document.name}.{name}")] for name, group in document.groups.items()]
    blocks: list[Block] = [Table("", ["group", "what is in it", "origin"], texts)]
    groups = [chapter.method.groups[f"{document.name}.{name}"] for name in document.groups]
    for level in dict.fromkeys(group.collection for group in groups):
        if kind_field(book.glossary.collections[level]):
            here = [group for group in groups if group.collection == level]
            blocks += _level_blocks(book, level, here, common_groups(book, chapter.method, level))
    return blocks


def common_groups(book: RuleBook, method: CheckedMethod, level: str) -> list[CheckedGroup]:
    """Groups on which all others of a method rest, but those that they are made of, and which are the same for every kind."""
    by_kind = said_by_kind(book.glossary, book.glossary.collections[level])
    groups = [group for group in method.groups.values() if group.collection == level and group.bases]

    def same_for_all(group: CheckedGroup) -> bool:
        conditions = [each.condition for each in (group, *within(group))]
        read = {node.field for each in conditions for node in tree.walk(each) if isinstance(node, tree.ReadField)}
        return not read & by_kind

    def carries_all(group: CheckedGroup) -> bool:
        made_of = within(group)
        return all(other.built_on(group) or other in made_of for other in groups)

    return [group for group in groups if same_for_all(group) and carries_all(group)]


def _level_blocks(book: RuleBook, level: str, groups: list[CheckedGroup], common: list[CheckedGroup]) -> list[Block]:
    alike = {*common, *(each for whole in common for each in within(whole))}
    said = [_common_sentence(book, group, common) for group in groups if group in alike]
    varying = [group for group in groups if group not in alike]
    if not varying:
        return [Paragraph(" ".join(said))]
    if common:
        said.append(
            f"The {spaced(level)} in the tables are taken to be in the group {' and '.join(spaced(each.name) for each in common)}."
        )
    collection = book.glossary.collections[level]
    met: dict[Told, Decision] = {}
    kinds = {
        label: Membership(book.rules, level, settled, common, met)
        for label, settled in kinds_of(book.glossary, collection).items()
    }
    decided = {label: [kind.decision(group) for group in varying] for label, kind in kinds.items()}
    notes = _notes(book, decided)
    legend: list[Block] = [Paragraph("What words in the tables stand for:"), Listing(notes)] if notes else []
    return [Paragraph(" ".join([*said, READING])), *_kind_tables(level, varying, decided), *legend]


def _common_sentence(book: RuleBook, group: CheckedGroup, common: list[CheckedGroup]) -> str:
    others = [each for each in common if each is not group and group.built_on(each)]
    decided = Membership(book.rules, group.collection, {}, others).decision(group)
    return f"Every kind is in {spaced(group.name)}{f' {decided.words}' if decided.depends_on else ''}."


def _kind_tables(level: str, groups: list[CheckedGroup], decided: dict[str, list[Decision]]) -> list[Table]:
    runs = split_evenly(range(len(groups)), MOST_COLUMNS)
    title = f"Which {spaced(level)} are in which group"
    return [
        Table(
            f"{title}, {number} of {len(runs)}" if len(runs) > 1 else title,
            ["kind", *(spaced(groups[at].name) for at in columns)],
            [[label, *(row[at].words for at in columns)] for label, row in decided.items()],
        )
        for number, columns in enumerate(runs, start=1)
    ]


def _notes(book: RuleBook, decided: dict[str, list[Decision]]) -> list[str]:
    """What the words stand for that are neither fields of the item nor groups."""
    opens = dict.fromkeys(each for row in decided.values() for cell in row for each in cell.depends_on)
    return [note for note in (_note(book, each) for each in opens) if note]


def _note(book: RuleBook, each: Open) -> str:
    if isinstance(each.node, tree.ReadLine):
        line = each.node.line.source
        return f"{each.text}: line {book.numbers[line]}, {book.title_of(line)}"
    if isinstance(each.node, tree.ReadChoice):
        document, _, name = each.node.address.partition(".")
        found = book.rules.documents[document].interpretations[name]
        question = book.filled(found.question, book.rules.documents[document])
        return f"{each.text}: a reading to choose, by default {spaced(found.default)} ({question})"
    return ""
