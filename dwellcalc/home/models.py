"""The models of a home file: their fields are made from a glossary, once for each glossary."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, Any

from pydantic import BaseModel, PlainValidator, ValidationInfo, create_model
from pydantic import Field as Declared

from dwellcalc.glossary import Field, Glossary, quantity_kind
from dwellcalc.language.words import FIXED_BY
from dwellcalc.problems import Message
from dwellcalc.units import NUMBER

from . import checks, meter_checks, shapes
from .asked import METHOD_SAID, MethodShape
from .context import Vocabulary
from .evidence import evidence_check
from .glossary_names import (
    AREA_KIND,
    BREAKER_LISTED,
    CIRCUITS,
    CONDUCTOR,
    FROM_DISCONNECTS,
    FROM_KIND,
    FROM_RATING,
    FROM_SOURCE,
    FROM_SYSTEM,
    IS_SERVICE,
    LEGS_SAID,
    LOADS,
    NEVER_TOGETHER,
    PANELS,
    PART_OF_DWELLING,
    SOURCES,
    SUPPLY,
    THREE_PHASE,
    UNITS,
    WHOLE_DWELLING,
)
from .meter_shapes import BillShape, ChangeShape, MeterShape
from .meters import stated_fields
from .suspected import sizes_check
from .values import QUANTITY, Said, field_check, flag_check

SERVICE_DISCONNECT = "service_disconnect"  # how a feeder says that it is a service beside others
FEEDERS, DATES, METER, METHOD = "feeders", "dates", "meter", "method"
EVIDENCE = "evidence"

Fields = dict[str, Any]
Nested = dict[tuple[str, ...], type[BaseModel]]


@dataclass(frozen=True)
class Models:
    """The models of one glossary.

    Attributes:
        vocabulary: the glossary's names.
        home: the model of a whole file.
        nested: for each path of keys, the model of what stands there.
        keys: for each path of keys, those that may stand there, for hints.
    """

    vocabulary: Vocabulary
    home: type[BaseModel]
    nested: dict[tuple[str, ...], type[BaseModel]]
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
    nested = {**_supply_models(vocabulary.glossary), **_load_models(vocabulary), **_panel_models(vocabulary.glossary)}
    nested[DATES,] = _model("Dates", shapes.DatesShape, dict.fromkeys(FIXED_BY, shapes.DAY))
    nested[METHOD,] = MethodShape
    if NEVER_TOGETHER in vocabulary.glossary.collections[LOADS].fields:
        nested[NEVER_TOGETHER,] = shapes.NeverTogetherShape
    if stated_fields(vocabulary.glossary):
        nested[METER,] = _model("Meter", MeterShape, _of_record(vocabulary.glossary))
        nested[METER, "bills"], nested[METER, "changes"] = BillShape, ChangeShape
    several = {name: _listed(nested[(name,)]) for name in (FEEDERS, SOURCES, PANELS, NEVER_TOGETHER) if (name,) in nested}
    home = _model(
        "Home",
        shapes.HomeShape,
        _fields(vocabulary.glossary.objects["home"], vocabulary.glossary),
        service=(nested[("service",)], ...),
        dwelling_units=(Annotated[_some(Annotated[nested[(UNITS,)], shapes.UNIT]), shapes.UNITS], ...),
        loads=(Annotated[_loads(nested[("loads",)]), shapes.OF_HOUSE], []),
        planned=(_loads(nested[("planned",)]), []),
        **several,
        dates=(nested[(DATES,)] | None, None),
        method=(METHOD_SAID, None),
        **_meter(nested),
    )
    nested[()] = home
    return Models(vocabulary, home, nested, {path: _keys(model) for path, model in nested.items()})


def _of_record(glossary: Glossary) -> Fields:
    """What a home file says of its record; a number of it is a fraction."""
    declared = stated_fields(glossary)
    numbers = {name: each for name, each in declared.items() if each.kind == quantity_kind(NUMBER)}
    fractions = {name: _field(each, PlainValidator(meter_checks.fraction), name) for name, each in numbers.items()}
    return _fields(declared, glossary) | fractions


def _meter(nested: Nested) -> Fields:
    """The record of its meter that a home may name, where the rules know of one."""
    return {METER: (nested[METER,] | None, None)} if (METER,) in nested else _refused(shapes.NO_METER)


def _supply_models(glossary: Glossary) -> Nested:
    """The service and feeders, with their conductors and what a feeder feeds."""
    supply = glossary.objects[SUPPLY]
    conductors = _model("Conductors", shapes.ConductorsShape, _with_evidence(_conductor_fields(_of_conductors(supply), glossary)))
    service_fields = _fields(_of_supply(supply, (IS_SERVICE, PART_OF_DWELLING)), glossary)
    service = _model(
        "Service", shapes.ServiceShape, _with_evidence(service_fields, FROM_SYSTEM), conductors=_conductors(conductors)
    )
    quantities = {name: each for name, each in glossary.collections[UNITS].fields.items() if each.kind.form == QUANTITY}
    part = _model("Part", shapes.PartShape, _fields(quantities, glossary))
    of_form = (IS_SERVICE, WHOLE_DWELLING, PART_OF_DWELLING)
    feeder = _model(
        "Feeder",
        shapes.FeederShape,
        _with_evidence(_fields(_of_supply(supply, of_form), glossary), FROM_SYSTEM) | _disconnect(supply, glossary),
        feeds=(Annotated[part, shapes.FEEDS], ...),
        conductors=_conductors(conductors),
    )
    return {
        ("service",): service,
        ("service", "conductors"): conductors,
        (FEEDERS,): feeder,
        (FEEDERS, "conductors"): conductors,
        (FEEDERS, "feeds"): part,
    }


def _load_models(vocabulary: Vocabulary) -> Nested:
    """The dwelling units with their areas and loads, and the lists of loads beside them."""
    glossary = vocabulary.glossary
    entry = _with_evidence(_entry_fields(vocabulary), FROM_RATING)
    of_area = glossary.collections["areas"].fields
    noted = {AREA_KIND: _field(of_area[AREA_KIND], shapes.noting(field_check(of_area[AREA_KIND], glossary)), AREA_KIND)}
    area = _model("Area", shapes.AreaShape, _fields(of_area, glossary, between=True) | noted)
    refused = _refused(shapes.ONLY_PLANNED)
    load = _model("Load", shapes.LoadShape, entry, **refused, legs=shapes.LEGS)  # legs last: how it is connected is read before
    planned = _model("Planned", shapes.PlannedShape, entry, legs=shapes.LEGS)
    fields = _with_evidence(_fields(glossary.collections[UNITS].fields, glossary))
    unit = _model("Unit", shapes.UnitShape, fields, areas=(_some(area), ...), loads=(_loads(load), []))
    return {(UNITS,): unit, (UNITS, "areas"): area, (UNITS, "loads"): load, ("loads",): load, ("planned",): planned}


def _panel_models(glossary: Glossary) -> Nested:
    """The panels and their circuits, and the sources, where the glossary has such."""
    if not {PANELS, CIRCUITS} <= set(glossary.collections):
        return {}
    written = {name: each for name, each in glossary.collections[CIRCUITS].fields.items() if each.comes_from != FROM_SOURCE}
    circuit = _model("Circuit", shapes.CircuitShape, _counted(written, glossary))
    fields = _counted(glossary.collections[PANELS].fields, glossary)
    panel = _model("Panel", shapes.PanelShape, fields, circuits=_listed(circuit))
    found = {(PANELS,): panel, (PANELS, "circuits"): circuit}
    if SOURCES in glossary.collections:
        found[SOURCES,] = _model("Source", shapes.SourceShape, _fields(glossary.collections[SOURCES].fields, glossary))
    return found


def _model(name: str, shape: type[BaseModel], fields: Fields, **more: Any) -> type[BaseModel]:
    made: type[BaseModel] = create_model(name, __base__=shape, **{**fields, **more})
    return made


def _keys(model: type[BaseModel]) -> tuple[str, ...]:
    fields = model.model_fields.items()
    return tuple(str(field.alias or name) for name, field in fields if not field.exclude)


def _refused(keys: Mapping[str, Message]) -> Fields:
    return {key: shapes.refused(message) for key, message in keys.items()}


def _fields(declared: Mapping[str, Field], glossary: Glossary, *, between: bool = False) -> Fields:
    """Fields of the glossary as fields of a model, under the keys that people write; each may be left out."""
    checks_of = {name: PlainValidator(field_check(each, glossary, between=between)) for name, each in declared.items()}
    return {name: _field(each, checks_of[name], name) for name, each in declared.items()}


def _field(declared: Field, validator: PlainValidator, name: str) -> tuple[Any, Any]:
    written = declared.written if declared.written != declared.name else name
    return (Annotated[Any, validator], Declared(default=None, alias=written, description=declared.meaning))


def _of_supply(supply: Mapping[str, Field], follows: tuple[str, ...]) -> dict[str, Field]:
    """What a service or feeder says of itself, besides its system, its conductors and what follows from the file."""
    return {
        name: each
        for name, each in supply.items()
        if name not in (FROM_SYSTEM, *follows)
        and each.comes_from not in (FROM_SYSTEM, FROM_DISCONNECTS)
        and not name.startswith(CONDUCTOR)
    }


def _with_evidence(fields: Fields, *more: str) -> Fields:
    """Fields with the evidence that they rest on, which is said by their keys."""
    check = shapes.with_context(evidence_check((*fields, *more)))
    return {**fields, EVIDENCE: (Annotated[Any, check], None)}


def _disconnect(supply: Mapping[str, Field], glossary: Glossary) -> Fields:
    """How a feeder says that it is a service beside others, where the glossary knows of that."""
    if IS_SERVICE not in supply:
        return {}
    check = PlainValidator(field_check(supply[IS_SERVICE], glossary))
    return {IS_SERVICE: (Annotated[Any, check], Declared(default=None, alias=SERVICE_DISCONNECT))}


def _of_conductors(supply: Mapping[str, Field]) -> dict[str, Field]:
    return {name.removeprefix(CONDUCTOR): each for name, each in supply.items() if name.startswith(CONDUCTOR)}


def _conductor_fields(declared: Mapping[str, Field], glossary: Glossary) -> Fields:
    """What conductors say of themselves; their size may be suspected alone."""
    sizes = {name: each for name, each in declared.items() if each.kind.form == "scale"}
    checks_of = {name: PlainValidator(sizes_check(each, glossary)) for name, each in sizes.items()}
    return _counted(declared, glossary) | {name: _field(each, checks_of[name], name) for name, each in sizes.items()}


def _conductors(conductors: type[BaseModel]) -> tuple[Any, Any]:
    return (Annotated[conductors, shapes.OR_UNKNOWN], None)


def _some(item: Any) -> Any:
    return Annotated[list[item], Declared(min_length=1)]


def _loads(item: Any) -> Any:
    return Annotated[list[item], shapes.LISTED]


def _listed(item: Any) -> tuple[Any, Any]:
    return (list[item], [])


def _counted(declared: Mapping[str, Field], glossary: Glossary) -> Fields:
    """Fields of which those without a unit are whole numbers."""
    made = _fields(declared, glossary)
    numbers = {name: each for name, each in declared.items() if each.kind == quantity_kind(NUMBER)}
    checks_of = {name: shapes.COUNTED_OR_NONE if each.may_be_zero else shapes.COUNTED for name, each in numbers.items()}
    return made | {name: _field(each, checks_of[name], name) for name, each in numbers.items()}


def _entry_fields(vocabulary: Vocabulary) -> Fields:
    """The fields of a load: flags by kind, others as they are; what follows from others is refused."""
    glossary = vocabulary.glossary
    apart = (FROM_KIND, LEGS_SAID, THREE_PHASE, BREAKER_LISTED)
    declared = {name: each for name, each in glossary.collections["loads"].fields.items() if name not in apart}
    flags = {name: _flag(each, glossary) for name, each in declared.items() if each.comes_from == FROM_KIND}
    rated = [name for name, each in declared.items() if each.comes_from == FROM_RATING]
    keys = {each.alias for each in shapes.EntryShape.model_fields.values()}  # such as the setting that is wanted
    parts = {name: shapes.unusable(shapes.with_context(checks.part_of_rating)) for name in rated if name not in keys}
    listed = {name: message for name, message in shapes.NOT_BY_HAND.items() if name in declared}
    others = {name: each for name, each in declared.items() if name not in {*flags, *rated, *listed}}
    return {**_fields(others, glossary), **flags, **parts, **_refused(listed)}


def _flag(declared: Field, glossary: Glossary) -> tuple[Any, Any]:
    check = flag_check(declared, glossary)

    def validator(node: Any, info: ValidationInfo) -> Said:
        kind = info.data.get(FROM_KIND)
        return check(node, kind.value if kind else None)

    return _field(declared, PlainValidator(validator), declared.name)
