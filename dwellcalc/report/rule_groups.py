"""The groups of a chapter: each in the text's own words, and every kind of item against the groups."""

from __future__ import annotations

from typing import Any

from dwellcalc.facts import spaced
from dwellcalc.glossary import Collection, Glossary, LoadKind, ValueKind
from dwellcalc.language import tree
from dwellcalc.language.tree import CheckedGroup, CheckedMethod
from dwellcalc.report.rule_book import Chapter, RuleBook, one_line
from dwellcalc.report.rule_membership import Decision, Membership, Open
from dwellcalc.report.tables import Block, Paragraph, Table, split_evenly

MOST_COLUMNS = 6


def group_blocks(book: RuleBook, chapter: Chapter) -> list[Block]:
    """The groups of a chapter as a table of their texts, then the kinds against them."""
    document = chapter.document
    texts = [
        [name, one_line(group.text), book.origin(f"{document.name}.{name}")] for name, group in document.groups.items()
    ]
    blocks: list[Block] = [Table("", ["group", "what is in it", "origin"], texts)]
    groups = [chapter.method.groups[f"{document.name}.{name}"] for name in document.groups]
    for level in dict.fromkeys(group.collection for group in groups):
        blocks += _kind_blocks(book, chapter.method, level, [group for group in groups if group.collection == level])
    return blocks


def kind_name(kind: LoadKind) -> str:
    """A kind of load as people write it: another of its names where that differs only in capitals."""
    plain = spaced(kind.name)
    return next((each for each in kind.also if each.casefold() == plain), plain)


def kind_field(collection: Collection) -> str:
    """The field of a collection that says of what kind an item is, or nothing."""
    return next((name for name, field in collection.fields.items() if field.written == "kind"), "")


def _kind_blocks(book: RuleBook, method: CheckedMethod, level: str, groups: list[CheckedGroup]) -> list[Block]:
    collection = book.glossary.collections[level]
    if not kind_field(collection):
        return []
    assumed = common_groups(book.glossary, method, level)
    decided = _decided(book, collection, groups, assumed)
    blocks: list[Block] = []
    runs = split_evenly([group.name for group in groups], MOST_COLUMNS)
    for number, names in enumerate(runs, start=1):
        columns = [at for at, group in enumerate(groups) if group.name in names]
        rows = [[label, *(row[at].words for at in columns)] for label, row in decided.items()]
        title = f"Which {spaced(level)} are in which group" + (f", {number} of {len(runs)}" if len(runs) > 1 else "")
        blocks.append(Table(title, ["kind", *(spaced(groups[at].name) for at in columns)], rows))
    taken = ", ".join(spaced(each.name) for each in assumed)
    legend = [f"Each item is taken to be in {taken}." if taken else "", *_legend(book, method, decided)]
    return [*blocks, *(Paragraph(each) for each in ["\n".join(each for each in legend if each)] if each)]


def _decided(
    book: RuleBook, collection: Collection, groups: list[CheckedGroup], assumed: list[CheckedGroup]
) -> dict[str, list[Decision]]:
    """For each kind, by its name in print, its place in every group."""
    found = {}
    for label, settled in kinds_of(book.glossary, collection).items():
        row = []
        for group in groups:
            outer = [each for each in assumed if each is not group]
            row.append(Membership(book.rules, collection.name, settled, outer).decision(group))
        found[label] = row
    return found


def kinds_of(glossary: Glossary, collection: Collection) -> dict[str, dict[str, Any]]:
    """Every kind of item, by its name in print, with the fields that the kind settles."""
    name = kind_field(collection)
    words = glossary.words(collection.fields[name].kind)
    if words != tuple(glossary.load_kinds):
        return {spaced(word): {name: word} for word in words}
    return {kind_name(kind): {name: kind.name, **_settled(glossary, collection, kind)} for kind in glossary.load_kinds.values()}


def _settled(glossary: Glossary, collection: Collection, kind: LoadKind) -> dict[str, Any]:
    def value(flag: str, word: str) -> Any:
        return glossary.value(collection.fields[flag].kind, word)

    return {name: value(name, flag.word) for name, flag in kind.flags.items() if flag.how == "is"}


def common_groups(glossary: Glossary, method: CheckedMethod, level: str) -> list[CheckedGroup]:
    """Groups on which all others of a method rest and which are the same for every kind."""
    collection = glossary.collections[level]
    kind_says = {kind_field(collection), *(flag for kind in glossary.load_kinds.values() for flag in kind.flags)}
    groups = [group for group in method.groups.values() if group.collection == level and group.bases]

    def same_for_all(group: CheckedGroup) -> bool:
        read = {node.field for node in tree.walk(group.condition) if isinstance(node, tree.ReadField)}
        return not read & kind_says and not group.excepted

    def carries_all(group: CheckedGroup) -> bool:
        return all(other.built_on(group) or group.built_on(other) for other in groups)

    return [group for group in groups if same_for_all(group) and carries_all(group)]


def _legend(book: RuleBook, method: CheckedMethod, decided: dict[str, list[Decision]]) -> list[str]:
    """What the words stand for that are neither fields of the item nor groups of the table."""
    opens = dict.fromkeys(each for row in decided.values() for cell in row for each in cell.depends_on)
    return [note for note in (_note(book, each) for each in opens) if note]


def _note(book: RuleBook, each: Open) -> str:
    if isinstance(each.node, tree.ReadLine):
        line = each.node.line.source
        return f"{each.text}: line {book.numbers[line]}, {book.title_of(line)}."
    if isinstance(each.node, tree.ReadChoice):
        document, _, name = each.node.address.partition(".")
        found = book.rules.documents[document].interpretations[name]
        return f"{each.text}: a reading to choose, {book.filled(found.question, book.rules.documents[document])}"
    return ""


def flag_blocks(glossary: Glossary) -> list[Block]:
    """What every kind of load is, its other names, and what the kind says of a load."""
    kinds = list(glossary.load_kinds.values())
    blocks: list[Block] = [
        Table("", ["kind", "what it is", "other names"], [[kind_name(k), k.meaning, ", ".join(k.also)] for k in kinds])
    ]
    flags = list(kinds[0].flags) if kinds else []
    for names in split_evenly(flags, MOST_COLUMNS):
        rows = [[kind_name(kind), *(_flag(kind, name) for name in names)] for kind in kinds]
        blocks.append(Table("What the kind says of a load", ["kind", *map(spaced, names)], rows))
    return blocks


def _flag(kind: LoadKind, name: str) -> str:
    flag = kind.flags[name]
    return spaced(f"{flag.word} {flag.how}" if flag.how == "unless said" else flag.word or flag.how)


def kind_of_field(book: RuleBook, kind: ValueKind) -> str:
    """The unit of a field or its words; kinds of load have a chapter of their own."""
    if kind.form == "choice" and book.glossary.words(kind) == tuple(book.glossary.load_kinds):
        return "a kind of load"
    return book.words_of(kind)
