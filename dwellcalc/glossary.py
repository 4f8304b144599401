"""The glossary of a rule set: choices, scales, objects, collections, supply systems and kinds of load.

It is read from ``rules/glossary.yaml``; rules, home files and documents share its names.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any

from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.reading import Listing, Mapping, Node, Text, as_list, as_mapping, as_text, key, place_of
from dwellcalc.units import NUMBER, Kind, Units, UnknownUnit

GLOSSARY_KEY = message("glossary_key", 'the glossary has no key "{key}" here', "one of: {known}")
GLOSSARY_LACKS = message("glossary_lacks", '{what} lacks "{key}"')
UNKNOWN_CHOICE = message("unknown_choice", 'there is no choice "{name}"', "choices stand under `choices:` in the glossary")
UNKNOWN_SCALE = message("unknown_scale", 'there is no scale "{name}"', "scales stand under `scales:` in the glossary")
UNKNOWN_UNIT = message("unknown_unit", 'there is no unit "{unit}"', "units stand in units.txt")
FIELD_FORM = message("field_form", "a field has one of unit, choice, scale or words")
NOT_A_QUANTITY = message("not_a_quantity", '"{text}" is not a number with a unit of the kind {unit}')
NOT_A_WORD = message("not_a_word", '"{word}" is not one of the words of "{choice}"', "one of: {known}")
FLAG_FORM = message("flag_form", 'the flag "{flag}" says "{text}"', "write a word, a word with `unless said`, or `ask`")
UNKNOWN_FLAG = message("unknown_flag", '"{flag}" is not a flag of a load', "flags stand under `load_flags:`")
UNKNOWN_OWNER = message("unknown_owner", '"{name}" belongs to nothing that stands before it', "`home`, or a collection above it")
RATING_FORM = message("rating_form", '"{text}" holds no number of a rating', "name fields of the loads, each in braces")
TAKEN_NAME = message("taken_name", '"{name}" already names {what}', "one name for one thing")

YES, NO = "yes", "no"
CONNECTED = ("line_conductors", "line_pairs")
NEEDED = ("home", "supply", "dwelling_units", "areas", "loads", *CONNECTED)
_IN_BRACES = re.compile(r"\{([^}]*)\}")


@dataclass(frozen=True)
class ValueKind:
    """What a value is: a quantity of a unit kind, yes or no, a word of a choice, or a value of a scale."""

    form: str
    unit: Kind = NUMBER
    name: str = ""


def quantity_kind(unit: Kind) -> ValueKind:
    """The kind of a quantity."""
    return ValueKind("quantity", unit)


YES_NO = ValueKind("yes_no")


@dataclass(frozen=True)
class Field:
    """A name that a rule may read from an object or an item."""

    name: str
    kind: ValueKind
    meaning: str
    optional: bool = False
    unless_said: str = ""
    comes_from: str = ""
    written: str = ""
    find: str = ""


@dataclass(frozen=True)
class Collection:
    """Items that belong to one another: what it is `of`, what it may be connected to, and its fields."""

    name: str
    meaning: str
    of: tuple[str, ...]
    on: tuple[str, ...]
    at_least: int
    fields: dict[str, Field]


@dataclass(frozen=True)
class Flag:
    """What a kind of load says of a flag: ``how`` is ``is``, ``unless said`` or ``ask``."""

    how: str
    word: str


@dataclass(frozen=True)
class LoadKind:
    """A kind of load: its meaning, other names, and flags."""

    name: str
    meaning: str
    also: tuple[str, ...]
    flags: dict[str, Flag]


@dataclass(frozen=True)
class System:
    """A supply system: the words and quantities that follow from it, its line conductors and pairs."""

    name: str
    fields: dict[str, Any]
    line_conductors: tuple[str, ...]
    line_pairs: tuple[str, ...]


@dataclass
class Glossary:
    """Every name that rules may read, with its kind."""

    units: Units
    choices: dict[str, tuple[str, ...]] = field(default_factory=dict)
    prints: dict[tuple[str, str], str] = field(default_factory=dict)
    scales: dict[str, tuple[str, ...]] = field(default_factory=dict)
    load_units: tuple[Kind, ...] = ()
    objects: dict[str, dict[str, Field]] = field(default_factory=dict)
    object_meanings: dict[str, str] = field(default_factory=dict)
    collections: dict[str, Collection] = field(default_factory=dict)
    systems: dict[str, System] = field(default_factory=dict)
    rating_forms: dict[str, tuple[str, ...]] = field(default_factory=dict)
    evidence: tuple[str, ...] = ()
    load_kinds: dict[str, LoadKind] = field(default_factory=dict)
    no_loads: dict[str, str] = field(default_factory=dict)

    def words(self, kind: ValueKind) -> tuple[str, ...]:
        """The words of a choice or a scale, in order."""
        if kind.form == "yes_no":
            return (NO, YES)
        return self.choices[kind.name] if kind.form == "choice" else self.scales[kind.name]

    def value(self, kind: ValueKind, text: str) -> Any:
        """A value as the rules carry it: a float, a bool, a word, or the place of a value on its scale.

        Raises:
            ValueError: the text is no value of that kind.
            UnknownUnit: its unit is not in the registry.
        """
        if kind.form == "quantity":
            return self.units.converted(text, kind.unit)
        words = self.words(kind)
        if text not in words:
            raise ValueError(text)
        if kind.form == "yes_no":
            return text == YES
        return words.index(text) if kind.form == "scale" else text

    def shown(self, kind: ValueKind, word: str) -> str:
        """A word of a choice or scale in print: as the glossary says, else with spaces."""
        return self.prints.get((kind.name, word)) or (word if kind.form == "scale" else word.replace("_", " "))

    def printed_kind(self, kind: ValueKind) -> str:
        """A kind in a reader's words."""
        if kind.form == "quantity":
            return self.units.printed(kind.unit) or "number"
        return "yes or no" if kind.form == "yes_no" else f"{kind.form} {kind.name}"


class GlossaryReader:
    """Reads the glossary document; problems are collected."""

    def __init__(self, units: Units, problems: Problems) -> None:
        self.problems = problems
        self.glossary = Glossary(units)

    def read(self, document: Mapping) -> Glossary:
        """The glossary of a document; what is wrong stands in the problems that were handed over."""
        readers: dict[str, Callable[[Node], None]] = {
            "glossary": lambda node: None,
            "choices": self.read_choices,
            "scales": self.read_scales,
            "load_units": self.read_load_units,
            "load_flags": lambda node: None,
            "load_kinds": lambda node: None,
            "objects": self.read_objects,
            "collections": self.read_collections,
            "systems": self.read_systems,
            "rating_forms": self.read_rating_forms,
            "evidence": self.read_evidence,
            "no_loads": self.read_no_loads,
        }
        kinds = document.get(key("load_kinds"))
        if isinstance(kinds, Mapping):
            self.glossary.choices["load_kind"] = tuple(kinds)
        self.keys(document, readers)
        for name, node in document.items():
            if name in readers:
                readers[name](node)
        self.check_rating_forms(document)
        if isinstance(kinds, Mapping):
            self.read_load_kinds(kinds, document.get(key("load_flags"), Mapping()))
        if not self.problems.found:
            self.check_needed(document)
        return self.glossary

    def check_needed(self, document: Mapping) -> None:
        """A home file fills these objects and collections, whatever else a glossary holds."""
        for name in NEEDED:
            if name not in self.glossary.objects and name not in self.glossary.collections:
                self.problems.add(GLOSSARY_LACKS, place_of(document), what="the glossary", key=name)
        loads = self.glossary.collections.get("loads")
        for name in CONNECTED if loads is not None else ():
            if loads is not None and name not in loads.on:
                self.problems.add(GLOSSARY_LACKS, place_of(document), what="`on:` of loads", key=name)

    def read_choices(self, node: Node) -> None:
        """The choices with their words."""
        for name, words in as_mapping(node, "choices", self.problems).items():
            self.glossary.choices[str(name)] = self.words_of(name, words)

    def read_scales(self, node: Node) -> None:
        """The scales with their words in order."""
        for name, words in as_mapping(node, "scales", self.problems).items():
            self.glossary.scales[str(name)] = self.words_of(name, words)

    def words_of(self, name: Text, node: Node) -> tuple[str, ...]:
        """The words of a choice or a scale: a list, or each with how it is printed."""
        if not isinstance(node, Mapping):
            return self.texts(node)
        self.glossary.prints.update(((str(name), str(word)), str(shown)) for word, shown in node.items())
        return tuple(str(word) for word in node)

    def read_load_units(self, node: Node) -> None:
        """The units that a load may have."""
        units = (self.unit(as_text(item, "a unit", self.problems)) for item in as_list(node, "load_units", self.problems))
        self.glossary.load_units = tuple(unit for unit in units if unit is not None)

    def read_evidence(self, node: Node) -> None:
        """The words of evidence."""
        self.glossary.evidence = self.texts(node)

    def read_no_loads(self, node: Node) -> None:
        """Names that are no loads, with the reason."""
        for why, names in as_mapping(node, "no_loads", self.problems).items():
            self.glossary.no_loads.update((name.casefold(), str(why)) for name in self.texts(names))

    def read_rating_forms(self, node: Node) -> None:
        """The forms in which a nameplate rating is written."""
        for name, forms in as_mapping(node, "rating_forms", self.problems).items():
            self.glossary.rating_forms[str(name)] = self.texts(forms)

    def check_rating_forms(self, document: Mapping) -> None:
        """Each form holds numbers, and each number fills a quantity of a load."""
        loads = self.glossary.collections.get("loads")
        amounts = {name for name, each in loads.fields.items() if each.kind.form == "quantity"} if loads else set()
        listed = document.get(key("rating_forms"), Mapping())
        for forms in listed.values() if isinstance(listed, Mapping) else ():
            for text in forms if isinstance(forms, Listing) else ():
                found = _IN_BRACES.findall(text) if isinstance(text, Text) else []
                if not found or not amounts.issuperset(found):
                    self.problems.add(RATING_FORM, place_of(text), text=text)

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

    def read_objects(self, node: Node) -> None:
        """The objects with their fields."""
        for name, entry in as_mapping(node, "objects", self.problems).items():
            parts = as_mapping(entry, name, self.problems)
            self.keys(parts, ("is", "fields"))
            self.glossary.object_meanings[str(name)] = str(parts.get(key("is"), ""))
            self.glossary.objects[str(name)] = self.fields(parts.get(key("fields")), name)

    def read_collections(self, node: Node) -> None:
        """The collections with their fields and what they belong to."""
        for name, entry in as_mapping(node, "collections", self.problems).items():
            parts = as_mapping(entry, name, self.problems)
            self.keys(parts, ("of", "on", "at_least", "is", "fields"))
            of = parts.get(key("of"))
            if of is None:
                self.problems.add(GLOSSARY_LACKS, name.place, what=name, key="of")
                continue
            for owner in of if isinstance(of, Listing) else (of,):
                if owner not in ("home", *self.glossary.collections):
                    self.problems.add(UNKNOWN_OWNER, place_of(owner), name=name)
            self.glossary.collections[str(name)] = Collection(
                str(name),
                str(parts.get(key("is"), "")),
                self.texts(of) if isinstance(of, Listing) else (str(of),),
                self.texts(parts[key("on")]) if "on" in parts else (),
                1 if "at_least" in parts else 0,
                self.fields(parts.get(key("fields")), name),
            )

    def keys(self, node: Mapping, known: Iterable[str]) -> None:
        """Refuse keys that are not known."""
        for name in node:
            if name not in known:
                self.problems.add(GLOSSARY_KEY, name.place, key=name, known=", ".join(known), nearest=nearest_name(name, known))

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
        self.keys(parts, ("unit", "choice", "scale", "words", "is", "optional", "unless_said", "from", "written", "find"))
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
        )

    def kind(self, name: Text, parts: Mapping) -> ValueKind | None:
        """What kind of value a field has."""
        forms = [form for form in ("unit", "choice", "scale", "words") if form in parts]
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

    def read_systems(self, node: Node) -> None:
        """The supply systems with the fields that each fills."""
        supply = self.glossary.objects.get("supply", {})
        for name, entry in as_mapping(node, "systems", self.problems).items():
            parts = as_mapping(entry, name, self.problems)
            values: dict[str, Any] = {}
            self.keys(parts, (*supply, "line_conductors", "line_pairs"))
            for each, said in parts.items():
                if each in supply:
                    values[str(each)] = self.value(supply[each].kind, as_text(said, each, self.problems))
            self.glossary.systems[str(name)] = System(
                str(name),
                values,
                self.texts(parts.get(key("line_conductors"), Listing())),
                self.texts(parts.get(key("line_pairs"), Listing())),
            )

    def value(self, kind: ValueKind, text: Text) -> Any:
        """A value as text, or nothing and a problem."""
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

    def read_load_kinds(self, kinds: Mapping, common: Node) -> None:
        """The kinds of load with their flags; what is common to all stands first."""
        loads = self.glossary.collections.get("loads")
        fields = loads.fields if loads else {}
        base = {
            str(name): self.flag(name, word, fields) for name, word in as_mapping(common, "load_flags", self.problems).items()
        }
        taken: dict[str, str] = {}
        for name, entry in kinds.items():
            parts = as_mapping(entry, name, self.problems)
            self.keys(parts, ("is", "also", "flags"))
            flags = dict(base)
            for flag, word in as_mapping(parts.get(key("flags"), Mapping()), "flags", self.problems).items():
                if flag not in base:
                    self.problems.add(UNKNOWN_FLAG, flag.place, flag=flag, nearest=nearest_name(flag, base))
                    continue
                flags[str(flag)] = self.flag(flag, word, fields)
            also = self.texts(parts[key("also")]) if "also" in parts else ()
            for other in (name, *(each for each in parts.get(key("also"), ()) if isinstance(each, Text))):
                first = taken.setdefault(other.replace("_", " ").casefold(), str(name))
                if first != name:
                    self.problems.add(TAKEN_NAME, other.place, name=other, what=f'the kind "{first}"')
            same = [each for each in also if each.casefold() == name.replace("_", " ")]
            self.glossary.prints.update((("load_kind", str(name)), each) for each in same)
            self.glossary.load_kinds[str(name)] = LoadKind(str(name), str(parts.get(key("is"), "")), also, flags)

    def flag(self, name: Text, node: Node, fields: dict[str, Field]) -> Flag:
        """What a kind says of a flag."""
        text = as_text(node, name, self.problems)
        if name not in fields:
            self.problems.add(UNKNOWN_FLAG, name.place, flag=name, nearest=nearest_name(name, fields))
            return Flag("ask", "")
        if text == "ask":
            return Flag("ask", "")
        word = text.removesuffix(" unless said")
        kind = fields[name].kind
        if kind.form == "quantity" or word not in self.glossary.words(kind):
            self.problems.add(FLAG_FORM, text.place, flag=name, text=text)
        return Flag("is" if word == text else "unless said", word)
