"""Typical ratings by kind of load, which a home file may ask for: a file that an edition names, read strictly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from dwellcalc.glossary import Glossary
from dwellcalc.language.document_form import BAD_GRADE
from dwellcalc.language.uses import NO_SOURCE
from dwellcalc.language.words import DEFAULT_KEYS, DEFAULTS_KEYS, GRADES
from dwellcalc.placed import Mapping, Text, as_mapping, as_text, key
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.units import Kind, UnknownUnit

DEFAULTS_KEY = message("defaults_key", 'there is no key "{key}" in {what}', "one of: {known}")
DEFAULTS_LACKS = message("defaults_lacks", '{what} lacks "{key}"')
DEFAULTS_KIND = message("defaults_kind", 'there is no kind of load "{name}" in the glossary')
DEFAULTS_UNIT = message("defaults_unit", '"{text}" is no rating by one quantity', "such as ... {units}, the same for all three")
DEFAULTS_ORDER = message("defaults_order", 'low, typical and high of "{name}" do not rise')

FIGURES = ("low", "typical", "high")


@dataclass(frozen=True)
class Default:
    """What is typical of a kind of load: the form of the rating with its one field, three figures of that, and what they rest on."""

    kind: str
    basis: str
    field: str
    low: float
    typical: float
    high: float
    source: str
    confidence: str


def read_defaults(node: Mapping, glossary: Glossary, sources: dict[str, Any], problems: Problems) -> dict[str, Default]:
    """The typical ratings of a file by kind of load; what is wrong is noted."""
    for name in node:
        if name not in DEFAULTS_KEYS:
            near = nearest_name(name, DEFAULTS_KEYS)
            problems.add(DEFAULTS_KEY, name.place, key=name, what="this file", known=", ".join(DEFAULTS_KEYS), nearest=near)
    found = {}
    reader = _Reader(glossary, sources, problems)
    for name, entry in as_mapping(node.get(key("kinds"), Mapping()), "kinds", problems).items():
        made = reader.read(name, as_mapping(entry, name, problems))
        if made is not None:
            found[str(name)] = made
    return found


def single_forms(glossary: Glossary) -> dict[Kind, tuple[str, str]]:
    """The ratings that are one quantity: for each unit the basis and the field that it fills."""
    found: dict[Kind, tuple[str, str]] = {}
    for basis, texts in glossary.rating_forms.items():
        for name, declared in glossary.collections["loads"].fields.items():
            if f"{{{name}}}" in texts:
                found.setdefault(declared.kind.unit, (basis, name))
    return found


class _Reader:
    def __init__(self, glossary: Glossary, sources: dict[str, Any], problems: Problems) -> None:
        self.glossary, self.sources, self.problems = glossary, sources, problems
        self.forms = single_forms(glossary)

    def read(self, name: Text, entry: Mapping) -> Default | None:
        before = len(self.problems.found)
        if name not in self.glossary.load_kinds:
            near = nearest_name(name, self.glossary.load_kinds)
            self.problems.add(DEFAULTS_KIND, name.place, name=name, nearest=near)
        for each in entry:
            if each not in DEFAULT_KEYS:
                near, known = nearest_name(each, DEFAULT_KEYS), ", ".join(DEFAULT_KEYS)
                self.problems.add(DEFAULTS_KEY, each.place, key=each, what=name, known=known, nearest=near)
        for lacking in (wanted for wanted in DEFAULT_KEYS if wanted not in entry):
            self.problems.add(DEFAULTS_LACKS, name.place, what=name, key=lacking)
        if len(self.problems.found) > before:
            return None
        texts = {each: as_text(entry[key(each)], each, self.problems) for each in DEFAULT_KEYS}
        self.evidence(texts["source"], texts["confidence"])
        figures = [found for each in FIGURES if (found := self.figure(texts[each])) is not None]
        units = {unit for _, unit in figures}
        if len(figures) == len(FIGURES) and len(units) > 1:
            self.refuse(texts[FIGURES[-1]])
        if len(self.problems.found) > before:
            return None
        (low, unit), (typical, _), (high, _) = figures
        if not 0 < low <= typical <= high or low == high:
            self.problems.add(DEFAULTS_ORDER, name.place, name=name)
            return None
        basis, field = self.forms[unit]
        return Default(str(name), basis, field, low, typical, high, str(texts["source"]), str(texts["confidence"]))

    def refuse(self, text: Text) -> None:
        units = ", ".join(self.glossary.units.printed(unit) for unit in self.forms)
        self.problems.add(DEFAULTS_UNIT, text.place, text=text, units=units)

    def figure(self, text: Text) -> tuple[float, Kind] | None:
        try:
            value, unit = self.glossary.units.quantity(text)
        except (ValueError, UnknownUnit):
            unit = ()
        if unit in self.forms:
            return value, unit
        self.refuse(text)
        return None

    def evidence(self, source: Text, grade: Text) -> None:
        for name in source.split():
            if name not in self.sources:
                self.problems.add(NO_SOURCE, source.place, name=name, nearest=nearest_name(name, self.sources))
        if grade not in GRADES:
            self.problems.add(BAD_GRADE, grade.place, grade=grade, known=", ".join(GRADES), nearest=nearest_name(grade, GRADES))
