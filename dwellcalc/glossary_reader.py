"""How the glossary is read from ``rules/glossary.yaml``, section by section."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from dwellcalc.glossary import INTERVAL_COLUMNS, Collection, Field, Flag, Glossary, LoadKind, System, ValueKind
from dwellcalc.glossary_fields import GLOSSARY_LACKS, FieldReader
from dwellcalc.placed import Listing, Mapping, Node, Text, as_list, as_mapping, as_text, key, place_of, spaced
from dwellcalc.problems import message, nearest_name

FLAG_FORM = message("flag_form", 'the flag "{flag}" says "{text}"', "write a word, a word with `unless said`, or `ask`")
UNKNOWN_FLAG = message("unknown_flag", '"{flag}" is not a flag of a load', "flags stand under `load_flags:`")
UNKNOWN_OWNER = message("unknown_owner", '"{name}" belongs to nothing that stands before it', "`home`, or a collection above it")
RATING_FORM = message("rating_form", '"{text}" holds no number of a rating', "name fields of the loads, each in braces")
NO_HEADING = message("no_heading", 'the column "{name}" has no heading', "what people write above it")
TAKEN_NAME = message("taken_name", '"{name}" already names {what}', "one name for one thing")

CONNECTED = ("line_conductors", "line_pairs")
NEEDED = ("home", "supply", "dwelling_units", "areas", "loads", *CONNECTED)
_IN_BRACES = re.compile(r"\{([^}]*)\}")


class GlossaryReader(FieldReader):
    """Reads the glossary document; problems are collected."""

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
            "abbreviations": self.read_abbreviations,
            "several_kinds": lambda node: None,
            "other_keys": self.read_other_keys,
            "interval_columns": self.read_interval_columns,
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
            self.read_several_kinds(document.get(key("several_kinds"), Mapping()))
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

    def read_abbreviations(self, node: Node) -> None:
        """Words that people shorten in labels, by each way that they do."""
        for full, short in as_mapping(node, "abbreviations", self.problems).items():
            self.glossary.abbreviations.update((each.casefold(), str(full)) for each in self.texts(short))

    def read_several_kinds(self, node: Node) -> None:
        """Names that may be several kinds of load, with names of these."""
        known = {spaced(name) for kind in self.glossary.load_kinds.values() for name in (kind.name, *kind.also)}
        for name, kinds in as_mapping(node, "several_kinds", self.problems).items():
            for each in as_list(kinds, name, self.problems):
                if isinstance(each, Text) and each not in known:
                    self.refuse_word(each, ValueKind("choice", name="load_kind"))
            self.glossary.several_kinds[str(name)] = self.texts(kinds)

    def read_other_keys(self, node: Node) -> None:
        """Keys that people write in place of those of a home file."""
        for meant, names in as_mapping(node, "other_keys", self.problems).items():
            self.glossary.other_keys[str(meant)] = tuple(spaced(name).casefold() for name in self.texts(names))

    def read_interval_columns(self, node: Node) -> None:
        """The headings of columns of interval data, by what each holds; a heading names one thing."""
        columns = as_mapping(node, "interval_columns", self.problems)
        self.keys(columns, INTERVAL_COLUMNS)
        taken: dict[str, str] = {}
        for name, headings in columns.items():
            texts = self.texts(headings)
            if not texts:
                self.problems.add(NO_HEADING, name.place, name=name)
            for heading in headings if isinstance(headings, Listing) else ():
                first = taken.setdefault(str(heading).casefold(), str(name))
                if first != name:
                    self.problems.add(TAKEN_NAME, place_of(heading), name=heading, what=f'the column "{first}"')
            self.glossary.interval_columns[str(name)] = texts

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
                first = taken.setdefault(spaced(other).casefold(), str(name))
                if first != name:
                    self.problems.add(TAKEN_NAME, other.place, name=other, what=f'the kind "{first}"')
            same = [each for each in also if each.casefold() == spaced(name)]
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
