"""The page of every kind of load, with a line of a home file for each."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping

from dwellcalc.glossary import Flag, Glossary, LoadKind
from dwellcalc.home.glossary_names import CONNECTION, LOADS, SUPPLY
from dwellcalc.language.defaults import Default
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import spaced
from dwellcalc.report.reading.links import link
from dwellcalc.report.rule_kinds import kind_name
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table

HOWS = {
    "is": "So by kind, and not to be said otherwise",
    "unless said": "Unless said otherwise, and then not verified",
    "ask": "To be said in the home file, else not known",
}
ABOUT = (
    "A load of a home file says its kind by one of these names. The kind settles some facts; others are taken unless the file says "
    "otherwise, and the sheet lists them as not verified; the rest must be said. The line of a home file is an example of the form: "
    "its rating is no recommendation."
)
FILLED = re.compile(r"\{(\w+)\}")
MARKED, VOLTS = "marked_amperes", "volts"
LINE_TO_LINE, LINE_TO_NEUTRAL = 20, 6  # of an example [A]


def kinds_page(rules: RuleSet) -> list[Block]:
    """Every kind of load: other names, what it implies, typical ratings, an example."""
    glossary = rules.glossary
    kinds = list(glossary.load_kinds.values())
    rows = [[link(kind_name(kind)), kind.meaning, ", ".join(kind.also)] for kind in kinds]
    blocks: list[Block] = [
        Heading(1, "Kinds of loads"),
        Paragraph(ABOUT),
        Table("", ["Kind", "What it is", "Other names"], rows),
        Heading(2, "What most kinds say"),
        Paragraph("Of each kind this holds, where nothing else stands in its own section:"),
    ]
    usual = {name: Counter(kind.flags[name] for kind in kinds).most_common(1)[0][0] for name in kinds[0].flags}
    rows = [
        [spaced(name), glossary.collections[LOADS].fields[name].meaning, *_said(glossary, name, each)]
        for name, each in usual.items()
    ]
    blocks.append(Table("", ["Key", "What it is", "Value", "How"], rows))
    for kind in kinds:
        blocks += [Heading(2, kind_name(kind)), Paragraph(f"{kind.meaning[:1].upper()}{kind.meaning[1:]}.")]
        blocks.append(Listing(_told(rules, kind, usual)))
    return blocks


def _said(glossary: Glossary, name: str, flag: Flag) -> list[str]:
    field = glossary.collections[LOADS].fields[name]
    return [glossary.shown(field.kind, flag.word) if flag.word else "", HOWS[flag.how].lower()]


def _told(rules: RuleSet, kind: LoadKind, usual: Mapping[str, Flag]) -> list[str]:
    glossary = rules.glossary
    told = []
    for how, title in HOWS.items():
        said = [(name, flag) for name, flag in kind.flags.items() if flag.how == how and flag != usual[name]]
        if said:
            told.append(f"{title}: {'; '.join(_flag(glossary, name, flag.word) for name, flag in said)}")
    if kind.name in rules.defaults:
        told.append(_typical(rules, rules.defaults[kind.name]))
    return [*told, f"In a home file: {example(rules, kind)}"]


def _flag(glossary: Glossary, name: str, word: str) -> str:
    field = glossary.collections[LOADS].fields[name]
    return f"{spaced(name)} {glossary.shown(field.kind, word)}" if word else f"{spaced(name)} ({field.meaning})"


def _typical(rules: RuleSet, found: Default) -> str:
    sources = "; ".join(rules.sources[each].title for each in found.source.split())
    low, typical, high = (_quantity(rules.glossary, found.field, each) for each in (found.low, found.typical, found.high))
    return f'Typical, where the file says "rating: typical": {typical}, between {low} and {high} ({found.confidence}: {sources})'


def _quantity(glossary: Glossary, field: str, value: float) -> str:
    return f"{value:g} {glossary.printed_kind(glossary.collections[LOADS].fields[field].kind)}"


def example(rules: RuleSet, kind: LoadKind) -> str:
    """A line of a home file that reads without an error, with all that the kind asks for."""
    name = kind_name(kind)
    said = {"name": name, "kind": name, "rating": _rating(rules, kind)}
    fields = rules.glossary.collections[LOADS].fields
    for flag, found in kind.flags.items():
        if found.how == "ask":
            word = found.word or rules.glossary.words(fields[flag].kind)[-1 if fields[flag].kind.form == "yes_no" else 0]
            said[flag] = rules.glossary.shown(fields[flag].kind, word)
    return in_line(said)


def in_line(said: Mapping[str, str]) -> str:
    """An entry of a list in one line, as people write it."""
    return f"{{{', '.join(f'{spaced(key)}: {value}' for key, value in said.items())}}}"


def _rating(rules: RuleSet, kind: LoadKind) -> str:
    """A rating of a form that any load may have: the typical one, else marked amperes at the voltage of its connection."""
    if kind.name in rules.defaults:
        found = rules.defaults[kind.name]
        return _quantity(rules.glossary, found.field, found.typical)
    glossary = rules.glossary
    forms = [form for each in glossary.rating_forms.values() for form in each]
    form = next((form for form in forms if form.startswith(f"{{{MARKED}}}")), forms[0])
    to_neutral = _to_neutral(glossary, kind)
    volts = (min if to_neutral else max)(_voltages(glossary))
    amperes = LINE_TO_NEUTRAL if to_neutral else LINE_TO_LINE
    return FILLED.sub(lambda found: _quantity(glossary, found[1], volts if found[1] == VOLTS else amperes), form)


def _to_neutral(glossary: Glossary, kind: LoadKind) -> bool:
    """Whether a load of a kind is connected between a line and the neutral: the second of the ways to be connected."""
    field = glossary.collections[LOADS].fields.get(CONNECTION)
    return field is not None and CONNECTION in kind.flags and kind.flags[CONNECTION].word == glossary.words(field.kind)[1]


def _voltages(glossary: Glossary) -> list[float]:
    """The nominal voltages of the first supply system."""
    system, declared = next(iter(glossary.systems.values())), glossary.objects[SUPPLY]
    volts = glossary.collections[LOADS].fields[VOLTS].kind
    return [float(value) for name, value in system.fields.items() if name in declared and declared[name].kind == volts]
