"""The JSON Schema of the home file, made from the models and the glossary, so that an editor completes and explains keys."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from dwellcalc.glossary import Field, Glossary
from dwellcalc.placed import spaced

from . import meter_checks
from .glossary_names import (
    AREA_KIND,
    AREAS,
    CIRCUITS,
    CONDUCTOR,
    FROM_DISCONNECTS,
    FROM_SYSTEM,
    HOME,
    LOADS,
    PANELS,
    SOURCES,
    SUPPLY,
    UNITS,
)
from .meters import stated_fields
from .models import EVIDENCE, FEEDERS, METER, METHOD, SERVICE_DISCONNECT, models_for
from .names import NOT_SEEN, TO_BE_CHOSEN, UNKNOWN
from .schema_texts import MEANINGS
from .schema_values import ANY_TEXT, COUNTED, DATE, UNKNOWN_WORDS, Schema, Values, text, whole

DRAFT = "http://json-schema.org/draft-07/schema#"
DEFINED = "#/definitions/"
TITLE = "A home file"
DATES, PLANNED = "dates", "planned"
EVIDENCE_BY_KEY = (("service",), (FEEDERS,), ("conductors",), (UNITS,), (LOADS,), (PLANNED,))
Path = tuple[str, ...]


def schema_of(glossary: Glossary) -> Schema:
    """The JSON Schema of home files with the names of a glossary."""
    maker = _Maker(glossary)
    root = maker.mapping(())
    return {"$schema": DRAFT, "title": TITLE, **root, "definitions": maker.definitions}


class _Maker:
    """Makes the schema; what is long and stands in several places is defined once."""

    def __init__(self, glossary: Glossary) -> None:
        self.glossary = glossary
        self.values = Values(glossary)
        self.models = models_for(glossary)
        values = self.values
        self.definitions: Schema = {"kind": values.kinds, "rating": values.rating, "settings": values.settings}
        self.own: dict[str, Schema] = self._own()

    def _own(self) -> dict[str, Schema]:
        """The keys that are no names of the glossary; any other one is a text."""
        values, names = self.values, {"type": "array", "items": ANY_TEXT}
        day = text(DATE)
        return {
            "kind": {"$ref": f"{DEFINED}kind"},
            "rating": {"$ref": f"{DEFINED}rating"},
            "settings": {"$ref": f"{DEFINED}settings"},
            "setting": text(whole([values.current()])),
            "none_of": {"type": "array", "items": self._absent()},
            "quantity": COUNTED,
            "priority": COUNTED,
            "evidence": values.one_of(self.glossary.evidence),
            "system": values.systems,
            "disconnects": {"type": "array", "items": text(whole([values.current()]))},
            "ratings_considered": {"type": "array", "items": text(whole([values.current()]))},
            "amendments": names,
            "not_electric": names,
            "remarks": {**names, "minItems": 1},
            "loads": names,
            "areas": names,
            "replaces": {"anyOf": [ANY_TEXT, names]},
            "legs": {"anyOf": [ANY_TEXT, {"type": "object"}]},
            "interpretations": {"type": "object", "additionalProperties": ANY_TEXT},
            "columns": {"type": "object"},
            "flags": {"type": "object"},
            "date": day,
            "from": day,
            "to": day,
            "what": values.one_of(meter_checks.CHANGES),
            "standard_time": values.one_of(meter_checks.YES_OR_NO),
            "stamps": values.one_of(meter_checks.STAMPS),
            "decimal": values.one_of(meter_checks.DECIMALS),
            "date_order": values.one_of(meter_checks.DATE_ORDERS),
        }

    def _absent(self) -> Schema:
        """What is not there: by name, or with the evidence for that."""
        fields = self.glossary.collections[AREAS].fields
        areas = self.glossary.words(fields[AREA_KIND].kind) if AREA_KIND in fields else ()
        name = {"anyOf": [{"$ref": f"{DEFINED}kind"}, self.values.one_of([*areas, SOURCES])]}
        evidence = self.values.one_of(self.glossary.evidence)
        entry = {
            "type": "object",
            "properties": {"kind": name, EVIDENCE: evidence},
            "required": ["kind"],
            "additionalProperties": False,
        }
        return {"anyOf": [name, entry]}

    def _evidence(self, keys: Iterable[str]) -> Schema:
        """One word for all that stands beside it, or words by these keys."""
        word = self.values.one_of(self.glossary.evidence)
        by_key = {
            each: {**word, "description": f"what it was seen on: {spaced(key)}"} for key in keys for each in (key, spaced(key))
        }
        return {"anyOf": [word, {"type": "object", "properties": by_key, "additionalProperties": False}]}

    def mapping(self, path: Path) -> Schema:
        """What may stand at a path of keys."""
        model = self._model(path)
        properties: Schema = {}
        patterns: Schema = {}
        required = []
        for name, field in model.model_fields.items():
            if field.exclude:
                continue
            key = str(field.alias or name)
            properties[spaced(key)] = self.key(path, key, field)
            if "_" in key:
                patterns[f"^{key.replace('_', '[ _-]+')}$"] = properties[spaced(key)]
            if field.is_required():
                required.append(key)
        made: Schema = {"type": "object", "properties": properties, "additionalProperties": False}
        if patterns:
            made["patternProperties"] = patterns
        plain = [key for key in required if "_" not in key]
        if plain:
            made["required"] = plain
        spellings = [[spaced(key), key, key.replace("_", "-")] for key in required if "_" in key]
        if spellings:
            made["allOf"] = [{"anyOf": [{"required": [each]} for each in each_key]} for each_key in spellings]
        return made

    def _model(self, path: Path) -> Any:
        return self.models.nested[path]

    def key(self, path: Path, key: str, field: FieldInfo) -> Schema:
        """What may stand under a key, with what it means."""
        meaning = field.description or MEANINGS.get(key, "")
        made = self.below(path, key, field)
        if "$ref" in made:  # beside a reference nothing else is read
            made = {"allOf": [made]}
        return {**made, "description": meaning} if meaning else made

    def below(self, path: Path, key: str, field: FieldInfo) -> Schema:
        """What may stand under a key."""
        inner = (*path, key)
        if inner in self.models.keys:
            found = self.mapping(inner)
            if _has(field.annotation, list):
                least = {"minItems": 1} if field.is_required() else {}
                return {"type": "array", "items": found, **least}
            return {"anyOf": [found, *self.instead(key)]} if self.instead(key) else found
        if key == EVIDENCE and path[-1:] in EVIDENCE_BY_KEY:
            return self._evidence(each for each in self.models.keys[path] if each != EVIDENCE)
        declared = self.declared(path, key)
        if declared is not None:
            return self.values.of_field(declared, between=path[-1:] == (AREAS,))
        if path[-1:] == (DATES,):
            return text(DATE)
        return self.own.get(key, ANY_TEXT)

    def instead(self, key: str) -> list[Schema]:
        """What may stand in place of keys with values."""
        if key == "conductors":
            return [{"enum": [NOT_SEEN, TO_BE_CHOSEN, UNKNOWN]}, text(whole(UNKNOWN_WORDS))]
        return [ANY_TEXT] if key in ("feeds", METHOD) else []

    def declared(self, path: Path, key: str) -> Field | None:
        """The field of the glossary that a key fills, or nothing."""
        if key == SERVICE_DISCONNECT:
            return self.glossary.objects[SUPPLY].get("service")
        if key in self.own and (path[-1:] in ((LOADS,), (PLANNED,)) or key in (FROM_SYSTEM, FROM_DISCONNECTS)):
            return None
        fields = self._fields(path)
        return next((each for name, each in fields.items() if key in (name, each.written)), None)

    def _fields(self, path: Path) -> dict[str, Field]:
        collections = self.glossary.collections
        if not path:
            return self.glossary.objects[HOME]
        by_last: dict[str, Callable[[], dict[str, Field]]] = {
            "service": lambda: self.glossary.objects[SUPPLY],
            FEEDERS: lambda: self.glossary.objects[SUPPLY],
            "feeds": lambda: collections[UNITS].fields,
            PLANNED: lambda: collections[LOADS].fields,
            METER: lambda: stated_fields(self.glossary),
            "conductors": self._of_conductors,
            **{
                name: collections[name].fields.copy
                for name in (UNITS, AREAS, LOADS, SOURCES, PANELS, CIRCUITS)
                if name in collections
            },
        }
        found = by_last.get(path[-1])
        return found() if found else {}

    def _of_conductors(self) -> dict[str, Field]:
        supply = self.glossary.objects[SUPPLY].items()
        return {name.removeprefix(CONDUCTOR): each for name, each in supply if name.startswith(CONDUCTOR)}


def _has(annotation: Any, wanted: type) -> bool:
    """Whether an annotation is of a type, or holds it beside others."""
    origin = get_origin(annotation)
    if annotation is wanted or origin is wanted:
        return True
    if origin in (Annotated, Union, UnionType):
        return any(_has(each, wanted) for each in get_args(annotation)[: 1 if origin is Annotated else None])
    return False
