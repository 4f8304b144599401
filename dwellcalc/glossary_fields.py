"""How the fields of a glossary are read: their kinds, their units and the values that they may take."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from dwellcalc.glossary import YES, YES_NO, Field, Glossary, ValueKind, quantity_kind
from dwellcalc.placed import Mapping, Node, Text, as_list, as_mapping, as_text, key, place_of
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.units import Kind, Units, UnknownUnit

GLOSSARY_KEY = message("glossary_key", 'the glossary has no key "{key}" here', "one of: {known}")
GLOSSARY_LACKS = message("glossary_lacks", '{what} lacks "{key}"')
UNKNOWN_CHOICE = message("unknown_choice", 'there is no choice "{name}"', "choices stand under `choices:` in the glossary")
UNKNOWN_SCALE = message("unknown_scale", 'there is no scale "{name}"', "scales stand under `scales:` in the glossary")
UNKNOWN_UNIT = message("unknown_unit", 'there is no unit "{unit}"', "units stand in units.txt")
FIELD_FORM = message("field_form", "a field has one of unit, choice, scale or words")
NOT_A_QUANTITY = message("not_a_quantity", '"{text}" is not a number with a unit of the kind {unit}')
NOT_A_WORD = message("not_a_word", '"{word}" is not one of the words of "{choice}"', "one of: {known}")

FORMS = ("unit", "choice", "scale", "words")
FIELD_KEYS = (*FORMS, "is", "optional", "unless_said", "from", "written", "find", "may_be_zero", "yes_where", "with_kind")
LOAD_KIND = ValueKind("choice", name="load_kind")


class FieldReader:
    """Reads fields into a glossary; problems are collected."""

    def __init__(self, units: Units, problems: Problems) -> None:
        self.problems = problems
        self.glossary = Glossary(units)

    def keys(self, node: Mapping, known: Iterable[str]) -> None:
        """Refuse keys that are not known."""
        for name in node:
            if name not in known:
                self.problems.add(GLOSSARY_KEY, name.place, key=name, known=", ".join(known), nearest=nearest_name(name, known))

    def texts(self, node: Node) -> tuple[str, ...]:
        """A list of texts."""
        return tuple(str(as_text(item, "an entry", self.problems)) for item in as_list(node, "this", self.problems))

    def unit(self, text: Text) -> Kind | None:
        """A unit, or nothing and a problem."""
        try:
            return self.glossary.units.unit(text).kind
        except UnknownUnit:
            self.problems.add(UNKNOWN_UNIT, text.place, unit=text)
            return None

    def fields(self, node: Node | None, owner: Text) -> dict[str, Field]:
        """The fields of an object or a collection."""
        if node is None:
            self.problems.add(GLOSSARY_LACKS, owner.place, what=owner, key="fields")
            return {}
        found: dict[str, Field] = {}
        for name, entry in as_mapping(node, "fields", self.problems).items():
            made = self.field(name, as_mapping(entry, name, self.problems))
            if made is not None:
                found[str(name)] = made
        return found

    def field(self, name: Text, parts: Mapping) -> Field | None:
        """A field, or nothing and a problem."""
        self.keys(parts, FIELD_KEYS)
        kind = self.kind(name, parts)
        if kind is None:
            return None
        unless_said = parts.get(key("unless_said"))
        if unless_said is not None:
            self.value(kind, as_text(unless_said, "unless_said", self.problems))
        return Field(
            str(name),
            kind,
            str(parts.get(key("is"), "")),
            parts.get(key("optional")) == YES,
            str(unless_said or ""),
            str(parts.get(key("from"), "")),
            str(parts.get(key("written"), name)),
            str(parts.get(key("find"), "")),
            parts.get(key("may_be_zero")) == YES,
            self.yes_where(parts),
            self.with_kind(parts),
        )

    def yes_where(self, parts: Mapping) -> tuple[tuple[str, str], ...]:
        """Fields beside a field with the word of each that shows that it is so."""
        found = as_mapping(parts.get(key("yes_where"), Mapping()), "yes_where", self.problems)
        self.keys(found, self.glossary.choices)
        for name, word in found.items():
            words = self.glossary.choices.get(str(name))
            if words is not None and as_text(word, name, self.problems) not in words:
                self.refuse_word(as_text(word, name, self.problems), ValueKind("choice", name=str(name)))
        return tuple((str(name), str(word)) for name, word in found.items())

    def with_kind(self, parts: Mapping) -> str:
        """The kind of load without which a field means nothing, or an empty text."""
        found = parts.get(key("with_kind"))
        if found is not None and as_text(found, "with_kind", self.problems) not in self.glossary.words(LOAD_KIND):
            self.refuse_word(as_text(found, "with_kind", self.problems), LOAD_KIND)
        return str(found or "")

    def kind(self, name: Text, parts: Mapping) -> ValueKind | None:
        """What kind of value a field has."""
        forms = [form for form in FORMS if form in parts]
        if len(forms) != 1:
            self.problems.add(FIELD_FORM, name.place)
            return None
        node = parts[key(forms[0])]
        if forms[0] == "words":
            self.glossary.choices[str(name)] = self.texts(node)
            return ValueKind("choice", name=str(name))
        text = as_text(node, forms[0], self.problems)
        if forms[0] == "unit":
            unit = self.unit(text)
            return None if unit is None else quantity_kind(unit)
        known = self.glossary.choices if forms[0] == "choice" else self.glossary.scales
        if text not in known:
            lacking = UNKNOWN_CHOICE if forms[0] == "choice" else UNKNOWN_SCALE
            self.problems.add(lacking, text.place, name=text, nearest=nearest_name(text, known))
            return None
        return YES_NO if text == "yes_no" else ValueKind(forms[0], name=str(text))

    def value(self, kind: ValueKind, text: Text) -> Any:
        """A value as the rules carry it, or nothing and a problem."""
        try:
            return self.glossary.value(kind, text)
        except UnknownUnit as error:
            self.problems.add(UNKNOWN_UNIT, text.place, unit=error)
        except ValueError:
            if kind.form == "quantity":
                unit = self.glossary.printed_kind(kind)
                self.problems.add(NOT_A_QUANTITY, text.place, text=text, unit=unit)
            else:
                self.refuse_word(text, kind)
        return None

    def refuse_word(self, word: Text, kind: ValueKind) -> None:
        """Note that a word is none of a choice or scale."""
        words = self.glossary.words(kind)
        self.problems.add(
            NOT_A_WORD,
            place_of(word),
            word=word,
            choice=kind.name or "yes_no",
            known=", ".join(words),
            nearest=nearest_name(word, words),
        )
