"""The shape of a home file: which keys stand where, what is checked for each, in which order.

The checks themselves know nothing of pydantic; here each is handed what was met so far in the file.
"""

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

from dwellcalc.problems import Message
from dwellcalc.reading import Text

from . import checks, messages
from .context import Context
from .names import says_unknown
from .ratings import Rating
from .refusal import Refusal, single_text
from .values import Said

Value = TypeVar("Value")

LATER = {
    "feeders": messages.FEEDERS_LATER,
    "panels": messages.PANELS_LATER,
    "meter": messages.METER_LATER,
    "amendments": messages.AMENDMENTS_LATER,
    "dates": messages.DATES_LATER,
    "loads": messages.HOUSE_LOADS_LATER,
}
NOT_BY_HAND = {"status": messages.BY_LIST, "replaced": messages.BY_LIST}
ONLY_PLANNED = {"replaces": messages.ONLY_PLANNED, "in": messages.ONLY_PLANNED}


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


def _settings(node: Any, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> list[Said]:
    said: list[Said] = handler(checks.settings_list(node))
    checks.within_rating(said, info.data.get("rating"), met(info))
    return said


def _listed(node: Any, handler: ValidatorFunctionWrapHandler) -> Any:
    return handler(checks.listed_here(node))


def _or_unknown(node: Any, handler: ValidatorFunctionWrapHandler) -> Any:
    return None if isinstance(node, Text) and says_unknown(node) else handler(node)


def _single_unit(node: Any, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> Any:
    checks.first_unit(node, met(info))
    return handler(node)


SingleText = Annotated[Text, PlainValidator(single_text)]
Absent = Annotated[Any, with_context(checks.absent)]
OneSetting = Annotated[Any, with_context(checks.setting)]
Settings = Annotated[list[OneSetting], Declared(min_length=1), WrapValidator(_settings)]
LISTED = WrapValidator(_listed)
OR_UNKNOWN = WrapValidator(_or_unknown)
SINGLE_UNIT = WrapValidator(_single_unit)


class Shape(BaseModel):
    """Keys with values, no others."""

    model_config = ConfigDict(extra="forbid", arbitrary_types_allowed=True, defer_build=True)


class ConductorsShape(Shape):
    """The supply conductors; size and material come from the glossary."""

    insulation: SingleText | None = None


class ServiceShape(Shape):
    """The service; its ratings, state and marking come from the glossary."""

    system: Annotated[Said, with_context(checks.system)]
    conductors: Any = None


class AreaShape(Shape):
    """An area of floor; its use and size come from the glossary."""

    name: SingleText | None = None


class EntryShape(Shape):
    """What every load says; its flags come from the glossary."""

    name: Any
    kind: Annotated[Said, PlainValidator(_kind)]
    rating: Annotated[Rating | Said | None, with_context(checks.rating)] = None
    settings: Settings | None = None
    quantity: Annotated[Said | None, with_context(checks.quantity_of_items)] = None
    evidence: Annotated[Said | None, with_context(checks.evidence)] = None
    legs: Annotated[Said | None, with_context(checks.legs)] = None


class LoadShape(EntryShape):
    """A load that is there."""

    name: Annotated[Text, with_context(checks.load_name)]


class PlannedShape(EntryShape):
    """A load that is planned."""

    name: Annotated[Text, with_context(checks.planned_name)]
    replaces: Annotated[list[Said], with_context(checks.replaced_loads)] = []
    in_: Annotated[Text | None, with_context(checks.in_unit)] = Declared(default=None, alias="in")


class UnitShape(Shape):
    """A dwelling unit; its circuits come from the glossary."""

    name: Annotated[Text | None, with_context(checks.unit_name)] = None
    quantity: Annotated[Said | None, with_context(checks.only_one_unit)] = None
    areas: Any
    loads: Any = []


class HomeShape(Shape):
    """The whole file, in the order in which it is checked; more of the home comes from the glossary."""

    home: SingleText
    code: SingleText | None = None
    interpretations: Annotated[dict[Text, Text] | None, PlainValidator(checks.options_chosen)] = None
    date: Annotated[Text | None, PlainValidator(checks.day)] = None
    confirmed_by: SingleText | None = None
    service: Any
    dwelling_units: Any
    planned: Any = []
    none_of: list[Absent] = []
