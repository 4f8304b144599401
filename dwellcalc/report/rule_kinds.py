"""Kinds of item: their names in print, what a kind settles, and the pages that say so."""

from __future__ import annotations

from typing import Any

from dwellcalc.glossary import Collection, Glossary, LoadKind, ValueKind
from dwellcalc.placed import spaced
from dwellcalc.report.rule_book import RuleBook
from dwellcalc.report.tables import Block, Paragraph, Table, split_evenly

MOST_COLUMNS = 5
FLAGS = (
    "What a kind settles is stated alone. `unless said` is taken so unless the description of the home says otherwise, and is then "
    "listed as not verified. `ask` is unknown until the description says it."
)


def kind_name(kind: LoadKind) -> str:
    """A kind of load as people write it: another of its names where that differs only in capitals."""
    plain = spaced(kind.name)
    return next((each for each in kind.also if each.casefold() == plain), plain)


def kind_field(collection: Collection) -> str:
    """The field of a collection that says of what kind an item is, or nothing."""
    return next((name for name, field in collection.fields.items() if field.written == "kind"), "")


def kinds_of(glossary: Glossary, collection: Collection) -> dict[str, dict[str, Any]]:
    """Every kind of item, by its name in print, with the fields that the kind settles."""
    name = kind_field(collection)
    kind = collection.fields[name].kind
    if not _is_load_kind(glossary, kind):
        return {spaced(word): {name: word} for word in glossary.words(kind)}
    return {kind_name(each): {name: each.name, **_settled(glossary, collection, each)} for each in glossary.load_kinds.values()}


def said_by_kind(glossary: Glossary, collection: Collection) -> set[str]:
    """The fields of a collection that a kind may settle."""
    return {kind_field(collection), *(flag for kind in glossary.load_kinds.values() for flag in kind.flags)}


def kind_blocks(glossary: Glossary) -> list[Block]:
    """What every kind of load is, its other names, and what the kind says of a load."""
    kinds = list(glossary.load_kinds.values())
    meanings = [[kind_name(kind), kind.meaning, ", ".join(kind.also)] for kind in kinds]
    blocks: list[Block] = [Table("", ["kind", "what it is", "other names"], meanings), Paragraph(FLAGS)]
    for names in split_evenly(list(kinds[0].flags) if kinds else [], MOST_COLUMNS):
        rows = [[kind_name(kind), *(_flag(kind, name) for name in names)] for kind in kinds]
        blocks.append(Table("What the kind says of a load", ["kind", *map(spaced, names)], rows))
    return blocks


def words_of_field(book: RuleBook, kind: ValueKind) -> str:
    """The unit of a field or its words; kinds of load have a chapter of their own."""
    return "a kind of load" if _is_load_kind(book.glossary, kind) else book.words_of(kind)


def _is_load_kind(glossary: Glossary, kind: ValueKind) -> bool:
    return kind.form == "choice" and glossary.words(kind) == tuple(glossary.load_kinds)


def _settled(glossary: Glossary, collection: Collection, kind: LoadKind) -> dict[str, Any]:
    settled = {name: flag.word for name, flag in kind.flags.items() if flag.how == "is"}
    return {name: glossary.value(collection.fields[name].kind, word) for name, word in settled.items()}


def _flag(kind: LoadKind, name: str) -> str:
    flag = kind.flags[name]
    return spaced(f"{flag.word} {flag.how}" if flag.how == "unless said" else flag.word or flag.how)
