"""The models of a home file: their fields are made from a glossary, once for each glossary."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, Any

from pydantic import BaseModel, PlainValidator, ValidationInfo, create_model
from pydantic import Field as Declared

from dwellcalc.glossary import Field, Glossary
from dwellcalc.problems import Message

from . import checks, shapes
from .context import Vocabulary
from .values import Said, field_check, flag_check

FROM_SYSTEM, FROM_KIND, FROM_RATING = "system", "kind", "rating"
CONDUCTOR = "conductor_"
FOLLOWS_FROM_FORM = ("service", "whole_dwelling", "part_of_dwelling")  # of the supply: a home with one unit has one supply

Fields = dict[str, Any]


@dataclass(frozen=True)
class Models:
    """The models of one glossary.

    Attributes:
        vocabulary: the glossary's names.
        home: the model of a whole file.
        keys: for each path of keys, those that may stand there, for hints.
    """

    vocabulary: Vocabulary
    home: type[BaseModel]
    keys: dict[tuple[str, ...], tuple[str, ...]]


class _Same:
    """A glossary as a key: equal only to itself."""

    def __init__(self, glossary: Glossary) -> None:
        self.glossary = glossary

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.glossary is self.glossary

    def __hash__(self) -> int:
        return id(self.glossary)


def models_for(glossary: Glossary) -> Models:
    """The models of a glossary, made when first asked for."""
    return _made(_Same(glossary))


@lru_cache
def _made(key: _Same) -> Models:
    vocabulary = Vocabulary(key.glossary)
    glossary = vocabulary.glossary
    supply, units = glossary.objects["supply"], glossary.collections["dwelling_units"].fields
    entry = _entry_fields(vocabulary)

    conductors = _model("Conductors", shapes.ConductorsShape, _fields(_of_conductors(supply), glossary))
    service_fields = _fields(_of_service(supply), glossary)
    service = _model("Service", shapes.ServiceShape, service_fields, conductors=_conductors(conductors))
    area = _model("Area", shapes.AreaShape, _fields(glossary.collections["areas"].fields, glossary))
    load = _model("Load", shapes.LoadShape, entry, **_refused(shapes.ONLY_PLANNED))
    planned = _model("Planned", shapes.PlannedShape, entry)
    unit = _model("Unit", shapes.UnitShape, _fields(units, glossary), areas=_some(area), loads=_loads(load))
    home = _model(
        "Home",
        shapes.HomeShape,
        _fields(glossary.objects["home"], glossary),
        service=(service, ...),
        dwelling_units=_some(Annotated[unit, shapes.SINGLE_UNIT]),
        planned=_loads(planned),
        **_refused(shapes.LATER),
    )
    nested = {
        (): home,
        ("service",): service,
        ("service", "conductors"): conductors,
        ("dwelling_units",): unit,
        ("dwelling_units", "areas"): area,
        ("dwelling_units", "loads"): load,
        ("planned",): planned,
    }
    return Models(vocabulary, home, {path: _keys(model) for path, model in nested.items()})


def _model(name: str, shape: type[BaseModel], fields: Fields, **more: Any) -> type[BaseModel]:
    made: type[BaseModel] = create_model(name, __base__=shape, **{**fields, **more})
    return made


def _keys(model: type[BaseModel]) -> tuple[str, ...]:
    fields = model.model_fields.items()
    return tuple(str(field.alias or name) for name, field in fields if not field.exclude)


def _refused(keys: Mapping[str, Message]) -> Fields:
    return {key: shapes.refused(message) for key, message in keys.items()}


def _fields(declared: Mapping[str, Field], glossary: Glossary) -> Fields:
    """Fields of the glossary as fields of a model, under the keys that people write; each may be left out."""
    return {name: _field(each, PlainValidator(field_check(each, glossary)), name) for name, each in declared.items()}


def _field(declared: Field, validator: PlainValidator, name: str) -> tuple[Any, Any]:
    written = declared.written if declared.written != declared.name else name
    return (Annotated[Any, validator], Declared(default=None, alias=written, description=declared.meaning))


def _of_service(supply: Mapping[str, Field]) -> dict[str, Field]:
    """What the service says of itself, besides its system and its conductors."""
    apart = ("system", FOLLOWS_FROM_FORM[0])
    return {
        name: each
        for name, each in supply.items()
        if name not in apart and each.comes_from != FROM_SYSTEM and not name.startswith(CONDUCTOR)
    }


def _of_conductors(supply: Mapping[str, Field]) -> dict[str, Field]:
    return {name.removeprefix(CONDUCTOR): each for name, each in supply.items() if name.startswith(CONDUCTOR)}


def _conductors(conductors: type[BaseModel]) -> tuple[Any, Any]:
    return (Annotated[conductors, shapes.OR_UNKNOWN], None)


def _some(item: Any) -> tuple[Any, Any]:
    return (Annotated[list[item], Declared(min_length=1)], ...)


def _loads(item: Any) -> tuple[Any, Any]:
    return (Annotated[list[item], shapes.LISTED], [])


def _entry_fields(vocabulary: Vocabulary) -> Fields:
    """The fields of a load: flags by kind, others as they are; what follows from others is refused."""
    glossary = vocabulary.glossary
    declared = {name: each for name, each in glossary.collections["loads"].fields.items() if name != FROM_KIND}
    flags = {name: _flag(each, glossary) for name, each in declared.items() if each.comes_from == FROM_KIND}
    rated = [name for name, each in declared.items() if each.comes_from == FROM_RATING]
    parts = {name: shapes.unusable(shapes.with_context(checks.part_of_rating)) for name in rated}
    listed = {name: message for name, message in shapes.NOT_BY_HAND.items() if name in declared}
    others = {name: each for name, each in declared.items() if name not in {*flags, *rated, *listed}}
    return {**_fields(others, glossary), **flags, **parts, **_refused(listed)}


def _flag(declared: Field, glossary: Glossary) -> tuple[Any, Any]:
    check = flag_check(declared, glossary)

    def validator(node: Any, info: ValidationInfo) -> Said:
        kind = info.data.get(FROM_KIND)
        return check(node, kind.value if kind else None)

    return _field(declared, PlainValidator(validator), declared.name)
