"""The shape of a home file: which keys stand where, in which order; the checks know nothing of pydantic and get what was met so far."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, NoReturn, TypeVar, cast

from pydantic import (
    BaseModel,
    ConfigDict,
    PlainValidator,
    ValidationInfo,
    ValidatorFunctionWrapHandler,
    WrapValidator,
)
from pydantic import Field as Declared

from dwellcalc.placed import Listing, Text
from dwellcalc.problems import Message

from . import absences, carried, checks, legs, messages, never_together, supply_checks, unit_checks
from .context import HOUSE, Context
from .glossary_names import CARRIES, CONNECTION, FROM_KIND, HOUSE_LOAD, LATER, LIKE_FOR_LIKE, NEVER_TOGETHER, ON_CIRCUIT, TURN
from .meters import NO_RECORD
from .names import says_unknown
from .ratings import Rating
from .refusal import Refusal, single_text
from .values import BY_KIND, UNLESS_SAID, Said, Settings

Value = TypeVar("Value")

NO_METER = {"meter": NO_RECORD}
NOT_BY_HAND = dict.fromkeys(
    ("status", "replaced", LIKE_FOR_LIKE, HOUSE_LOAD, NEVER_TOGETHER, TURN, ON_CIRCUIT, CARRIES), messages.BY_LIST
)
ONLY_PLANNED = dict.fromkeys(("replaces", "in", "priority", "panel", LATER), messages.ONLY_PLANNED)


def met(info: ValidationInfo) -> Context:
    """What was met so far, as it was handed to the validation."""
    return cast(Context, info.context)


def with_context(check: Callable[[Any, Context], Value]) -> PlainValidator:
    """A check that needs what was met so far."""

    def validator(node: Any, info: ValidationInfo) -> Value:
        return check(node, met(info))

    return PlainValidator(validator)


def refused(message: Message) -> tuple[Any, Any]:
    """The field for a key that is known and cannot be used, with the message that says why."""

    def validator(node: Any) -> NoReturn:
        raise Refusal(message, node, of_key=True)

    return unusable(PlainValidator(validator))


def unusable(validator: PlainValidator) -> tuple[Any, Any]:
    """The field for a key that is always refused; it is not offered among the keys of its place."""
    return (Annotated[Any, validator], Declared(default=None, exclude=True))


def _kind(node: Any, info: ValidationInfo) -> Said:
    return checks.kind_of_load(node, met(info), info.data.get("name"))


def _quantity(node: Any, info: ValidationInfo) -> Said:
    said, name = checks.quantity_of_items(node, met(info)), info.data.get("name")
    if name is not None and (noted := met(info).load(name)) is not None:
        noted.quantity = said.value
    return said


def _on_circuit(node: Any, info: ValidationInfo) -> Said:
    return carried.on_circuit_of(node, met(info), info.data.get("name"))


def _never(node: Any, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> Any:
    return never_together.checked_set(handler(node), node, met(info))


def _settings(node: Any, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> Settings:
    found = checks.free_range(node, met(info)) if isinstance(node, Text) else Settings(handler(node), free=False)
    checks.within_rating(found.said, info.data.get("rating"), met(info))
    return found


def _wanted(node: Any, info: ValidationInfo) -> Said:
    return checks.wanted_setting(node, info.data.get("settings"), "settings" in info.data, met(info))


def _listed(node: Any, handler: ValidatorFunctionWrapHandler) -> Any:
    return handler(checks.listed_here(node))


def _or_unknown(node: Any, handler: ValidatorFunctionWrapHandler) -> Any:
    return None if isinstance(node, Text) and says_unknown(node) else handler(node)


def _units(node: Any, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> Any:
    met(info).entries = len(node) if isinstance(node, Listing) else 0
    return handler(node)


def _unit(node: Any, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> Any:
    unit_checks.begin_unit(node, met(info))
    return handler(node)


def _of_house(node: Any, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> Any:
    met(info).unit = HOUSE
    loads = handler(node)
    unit_checks.house_loads(loads, node, met(info))
    return loads


def _in(node: Any, info: ValidationInfo) -> int | None:
    return unit_checks.in_unit(node, met(info), info.data.get("name"))


def _legs(node: Any, info: ValidationInfo) -> Said:
    said: Said | None = info.data.get("quantity")
    known = "quantity" in info.data
    found = legs.legs(node, met(info), said.value if said else 1 if known else None)
    rating = info.data.get("rating")
    return legs.agree(found, _connection(info), rating if isinstance(rating, Rating) else None)


def _connection(info: ValidationInfo) -> str:
    """How a load is connected: what is said, or what its kind says."""
    said, kind = info.data.get(CONNECTION), info.data.get(FROM_KIND)
    if isinstance(said, Said) and not said.not_seen:
        return "" if said.value is None else str(said.value)
    flag = kind.value.flags.get(CONNECTION) if kind else None
    return str(flag.word) if flag and flag.how in (BY_KIND, UNLESS_SAID) else ""


def _feeds(node: Any, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> Any:
    if isinstance(node, Text):
        return supply_checks.fed_unit(node, met(info))
    part = handler(node)
    supply_checks.fed_part(part.loads, part.areas, part.has_circuits, node, met(info))
    return part


def _for(node: Any, info: ValidationInfo) -> Text:
    return supply_checks.circuit_for(node, info.data.get("load") is not None or info.data.get("source") is not None)


def _circuit_source(node: Any, info: ValidationInfo) -> Said:
    return supply_checks.circuit_source(node, info.data.get("load") is not None, met(info))


def noting(check: Callable[[Any], Said]) -> PlainValidator:
    """The check of the kind of an area, which is noted as there."""
    return with_context(lambda node, context: absences.noting_kind(check(node), context))


SingleText = Annotated[Text, PlainValidator(single_text)]
Absent = Annotated[Any, with_context(absences.absent)]
SETTINGS = Annotated[list[Annotated[Any, with_context(checks.setting)]], Declared(min_length=1), WrapValidator(_settings)]
Disconnects = list[Annotated[Said, with_context(supply_checks.disconnect)]]
LISTED = WrapValidator(_listed)
OR_UNKNOWN = WrapValidator(_or_unknown)
UNITS = WrapValidator(_units)
UNIT = WrapValidator(_unit)
LEGS = (Annotated[Said | None, PlainValidator(_legs)], None)
OF_HOUSE = WrapValidator(_of_house)
FEEDS = WrapValidator(_feeds)
DAY: tuple[Any, Any] = (Annotated[Text | None, PlainValidator(checks.day)], None)
COUNTED = with_context(supply_checks.counted)
COUNTED_OR_NONE = with_context(supply_checks.counted_or_none)


class Shape(BaseModel):
    """Keys with values, no others."""

    model_config = ConfigDict(extra="forbid", arbitrary_types_allowed=True, defer_build=True)


class ConductorsShape(Shape):
    """The supply conductors; all that they are comes from the glossary."""


class ServiceShape(Shape):
    """The service; its ratings, state and marking come from the glossary."""

    system: Annotated[Said, with_context(supply_checks.service_system)]
    conductors: Any = None
    disconnects: Disconnects = []
    ratings_considered: Disconnects = []


class AreaShape(Shape):
    """An area of floor; its use and size come from the glossary."""

    name: Annotated[Text | None, with_context(unit_checks.area_name)] = None
    evidence: Annotated[Said | None, with_context(checks.evidence)] = None


class EntryShape(Shape):
    """What every load says; its flags come from the glossary."""

    name: Any
    kind: Annotated[Said, PlainValidator(_kind)]
    rating: Annotated[Rating | Said | None, with_context(checks.rating)] = None
    settings: SETTINGS | None = None
    wanted: Annotated[Said | None, PlainValidator(_wanted)] = Declared(default=None, alias="setting")
    quantity: Annotated[Said | None, PlainValidator(_quantity)] = None
    evidence: Any = None
    on_the_circuit_of: Annotated[Said | None, PlainValidator(_on_circuit)] = None


class LoadShape(EntryShape):
    """A load that is there."""

    name: Annotated[Text, with_context(unit_checks.load_name)]


class PlannedShape(EntryShape):
    """A load that is planned."""

    name: Annotated[Text, with_context(unit_checks.planned_name)]
    replaces: Annotated[list[Said], with_context(unit_checks.replaced_loads)] = []
    priority: Annotated[Said | None, with_context(checks.priority)] = None
    in_: Annotated[int | None, PlainValidator(_in)] = Declared(default=None, alias="in", validate_default=True)
    panel: Annotated[Said | None, with_context(supply_checks.planned_panel)] = None


class NeverTogetherShape(Shape):
    """Loads that never run together, and what sees to that."""

    loads: Annotated[list[Annotated[Said, with_context(never_together.never_with)]], WrapValidator(_never)]
    by: SingleText | None = None


class UnitShape(Shape):
    """A dwelling unit; its circuits come from the glossary."""

    name: Annotated[Text | None, with_context(unit_checks.unit_name)] = Declared(default=None, validate_default=True)
    quantity: Annotated[Said | None, with_context(unit_checks.quantity_of_units)] = None
    areas: Any
    loads: Any = []


class PartShape(Shape):
    """What a feeder to a part of the home feeds; its circuits come from the glossary."""

    loads: list[Annotated[Said, with_context(supply_checks.fed_load)]] = []
    areas: list[Annotated[Said, with_context(supply_checks.fed_area)]] = []

    @property
    def has_circuits(self) -> bool:
        """Whether it says that it has circuits."""
        return any(isinstance(said, Said) and said.value != 0 for said in vars(self).values())


class FeederShape(Shape):
    """A feeder; its ratings, state and marking come from the glossary."""

    name: Annotated[Text, with_context(supply_checks.feeder_name)]
    feeds: Any
    system: Annotated[Said | None, with_context(supply_checks.supply_system)] = None
    conductors: Any = None
    disconnects: Disconnects = []


class SourceShape(Shape):
    """A source such as a PV inverter or storage; its current and its breaker come from the glossary."""

    name: Annotated[Text, with_context(supply_checks.source_name)]
    on: Annotated[Said | None, with_context(supply_checks.panel_on)] = None


class CircuitShape(Shape):
    """A circuit of a panel; its breaker comes from the glossary."""

    load: Annotated[Said | None, with_context(supply_checks.circuit_load)] = None
    source: Annotated[Said | None, PlainValidator(_circuit_source)] = None
    for_: Annotated[Text | None, PlainValidator(_for)] = Declared(default=None, alias="for")
    quantity: Annotated[Said | None, with_context(checks.quantity_of_items)] = None


class PanelShape(Shape):
    """A panel; its spaces come from the glossary."""

    name: Annotated[Text, with_context(supply_checks.panel_name)]
    on: Annotated[Said | None, with_context(supply_checks.panel_on)] = None
    circuits: Any = []


class DatesShape(Shape):
    """The dates of a project, of which one decides whether an amendment applies; what they are of comes from the grammar."""


class HomeShape(Shape):
    """The whole file, in the order in which it is checked; more of the home comes from the glossary."""

    home: SingleText
    code: SingleText | None = None
    amendments: list[SingleText] = []
    dates: Any = None
    interpretations: Annotated[dict[Text, Text] | None, PlainValidator(checks.options_chosen)] = None
    method: Any = None
    date: Annotated[Text | None, PlainValidator(checks.day)] = None
    confirmed_by: Annotated[Text, PlainValidator(checks.somebody)] | None = None
    service: Any
    dwelling_units: Any
    loads: Any = []
    planned: Any = []
    feeders: Any = []
    none_of: list[Absent] = []
    not_electric: list[Annotated[Text, with_context(absences.not_electric)]] = []
    remarks: list[SingleText] | None = Declared(default=None, min_length=1)
