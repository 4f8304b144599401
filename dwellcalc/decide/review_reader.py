"""How submittals are reviewed, as an assessment file says."""

from __future__ import annotations

from math import inf
from typing import Any

from dwellcalc.decide.assessment_reader import AssessmentReader
from dwellcalc.decide.general_circuits import CIRCUITS, read_general_circuits
from dwellcalc.decide.review_plan import Implied, Reason, ReviewPlan, SectionPart, Selection
from dwellcalc.home.glossary_names import UNITS
from dwellcalc.language.words import (
    IMPLIED_APART,
    IMPLIED_KEYS,
    IMPLIED_TEXTS,
    REASON_APART,
    REASON_BESIDE,
    REASON_KEYS,
    REASON_NAMED,
    REASON_SETTING,
    REASON_TEXTS,
    REVIEW,
    REVIEW_BY_RESULT,
    REVIEW_IN_SMALL_LETTERS,
    REVIEW_KEYS,
    REVIEW_LISTS,
    REVIEW_NUMBERS,
    REVIEW_TEXTS_BY_NAME,
    REVIEW_WHOLE_NUMBERS,
    SECTION_PART_KEYS,
    SECTION_PART_TEXTS,
    SECTION_PART_WRONG,
    SELECTION_KEYS,
    SELECTION_LISTS,
)
from dwellcalc.placed import Listing, Mapping, Node, as_list, as_mapping, as_text, key
from dwellcalc.problems import message, nearest_name

ASSESSMENT_TAKEN = message("assessment_taken", 'a dwelling unit has no field "{name}"')

ASSESSMENT_PART = message("assessment_part", 'the method "{method}" has no line "{name}"')

REASON, IMPLIED, PART = "a reason", "what is implied", "a part of a section"


def read_review(node: Mapping, reader: AssessmentReader) -> ReviewPlan:
    """The part of an assessment file on reviews; what is wrong is noted."""
    reader.keys(node, REVIEW_KEYS, REVIEW)
    method = reader.text(node, "method", REVIEW)
    reader.method(method)
    fields = reader.rules.glossary.collections[UNITS].fields
    taken = as_mapping(reader.need(node, "taken", REVIEW), "taken", reader.problems)
    for name in taken:
        if name not in fields:
            reader.problems.add(ASSESSMENT_TAKEN, name.place, name=name, nearest=nearest_name(name, fields))
    for name in _mapping(node, "lettered", reader):
        reader.method(name)
    comes_with = _mapping(node, "comes_with", reader)
    reader.kinds([*comes_with, *(each for texts in comes_with.values() for each in reader.texts(texts)[:1])])
    panels = reader.text(node, "panels") if "panels" in node else None
    if panels is not None:
        reader.method(panels)
    named: dict[str, Any] = {name: _texts(node, name, reader) for name in REVIEW_LISTS}
    named |= {name: tuple(each.casefold() for each in named[name]) for name in REVIEW_IN_SMALL_LETTERS}
    named |= {name: reader.of_results(method, node.get(key(name), Mapping()), name) for name in REVIEW_BY_RESULT}
    named |= {name: _texts_by_name(node, name, reader) for name in REVIEW_TEXTS_BY_NAME}
    named |= {name: reader.number(node, name) for name in REVIEW_NUMBERS}
    named |= {name: int(named[name]) if named[name] != inf else 0 for name in REVIEW_WHOLE_NUMBERS}  # none where nothing is said
    return ReviewPlan(
        method=str(method),
        taken={str(name): str(as_text(text, name, reader.problems)) for name, text in taken.items()},
        of_area=str(reader.text(node, "of_area")) if "of_area" in node else "",
        panels=str(panels or ""),
        circuits=read_general_circuits(node, reader) if CIRCUITS in node else None,
        reasons=tuple(_reason(each, reader) for each in _entries(node, "reasons", reader)),
        implied=tuple(_implied(each, reader) for each in _entries(node, "implied", reader)),
        parts=tuple(_part(each, reader) for each in _entries(node, "parts", reader)),
        selection=_selection(node[key("selection")], reader) if "selection" in node else None,
        **named,
    )


def _texts(node: Mapping, name: str, reader: AssessmentReader) -> tuple[str, ...]:
    return tuple(map(str, reader.texts(node[key(name)]))) if name in node else ()


def _mapping(node: Mapping, name: str, reader: AssessmentReader) -> Mapping:
    return as_mapping(node.get(key(name), Mapping()), name, reader.problems)


def _texts_by_name(node: Mapping, name: str, reader: AssessmentReader) -> dict[str, tuple[str, ...]]:
    return {str(each): tuple(map(str, reader.texts(texts))) for each, texts in _mapping(node, name, reader).items()}


def _entries(node: Mapping, name: str, reader: AssessmentReader) -> list[Node]:
    return [*as_list(node.get(key(name), Listing()), name, reader.problems)]


def _selection(node: Node, reader: AssessmentReader) -> Selection:
    entry = as_mapping(node, "selection", reader.problems)
    reader.keys(entry, SELECTION_KEYS, "selection")
    words, beside, groups, kinds = ([*reader.texts(reader.need(entry, name, "selection"))] for name in SELECTION_LISTS)
    reader.kinds(kinds)
    line = str(reader.text(entry, "line", "selection"))
    return Selection(tuple(map(str, words)), tuple(map(str, beside)), tuple(map(str, groups)), tuple(map(str, kinds)), line)


def _part(node: Node, reader: AssessmentReader) -> SectionPart:
    entry = as_mapping(node, PART, reader.problems)
    reader.keys(entry, SECTION_PART_KEYS, PART)
    method, cite, line, told = (reader.text(entry, name, PART) for name in SECTION_PART_TEXTS)
    checked = reader.method(method)
    if checked is not None and line not in checked.lines:
        reader.problems.add(ASSESSMENT_PART, line.place, method=method, name=line, nearest=nearest_name(line, checked.lines))
    wrong = (str(reader.text(entry, name)) if name in entry else "" for name in SECTION_PART_WRONG)
    return SectionPart(str(method), str(cite), str(line), str(told), *wrong)


def _implied(node: Node, reader: AssessmentReader) -> Implied:
    entry = as_mapping(node, IMPLIED, reader.problems)
    reader.keys(entry, IMPLIED_KEYS, IMPLIED)
    words = tuple(map(str, reader.texts(reader.need(entry, "words", IMPLIED))))
    unless = tuple(map(str, reader.texts(entry[key("unless")]))) if "unless" in entry else ()
    kind, *texts = (reader.text(entry, name, IMPLIED) for name in IMPLIED_TEXTS)
    reader.kinds([kind])
    title, told, send, cite = map(str, texts)
    apart_from, apart_by = (reader.texts(entry[key(name)]) if name in entry else [] for name in IMPLIED_APART[:2])
    or_of = reader.texts(entry[key("or_of")]) if "or_of" in entry else []
    reader.kinds([*apart_from, *or_of])
    says = as_mapping(entry[key(IMPLIED_APART[2])], IMPLIED, reader.problems) if IMPLIED_APART[2] in entry else {}
    facts = {str(name): str(value) for name, value in says.items()}
    return Implied(
        *(words, unless, str(kind), title, told, send, cite),
        *(tuple(map(str, apart_from)), tuple(map(str, apart_by)), facts, tuple(map(str, or_of))),
    )


def _reason(node: Node, reader: AssessmentReader) -> Reason:
    entry = as_mapping(node, REASON, reader.problems)
    reader.keys(entry, REASON_KEYS, REASON)
    told, send, cite = (str(reader.text(entry, name, REASON)) for name in REASON_TEXTS)
    writes, of_setting = (str(reader.text(entry, name)) if name in entry else "" for name in REASON_SETTING)
    larger, smaller, stated = (str(reader.text(entry, name)) if name in entry else "" for name in REASON_APART)
    before, after = (tuple(map(str, reader.texts(entry[key(name)]))) if name in entry else () for name in REASON_BESIDE)
    return Reason(
        tuple(map(str, reader.texts(reader.need(entry, "words", REASON)))),
        told,
        send,
        cite,
        writes,
        of_setting,
        before,
        after,
        larger,
        smaller,
        stated,
        named_setting=tuple(map(str, reader.texts(entry[key(REASON_NAMED)]))) if REASON_NAMED in entry else (),
    )
