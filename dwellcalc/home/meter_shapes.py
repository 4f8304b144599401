"""The shape of what a home file says of the record of its meter."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Field as Declared
from pydantic import PlainValidator, ValidatorFunctionWrapHandler, WrapValidator

from dwellcalc.placed import Text

from . import checks, meter_checks, supply_checks
from .shapes import Shape, SingleText, with_context
from .values import Said


def _ordered(node: Any, handler: ValidatorFunctionWrapHandler) -> Any:
    bill = handler(node)
    meter_checks.in_order(bill.from_, bill.to)
    return bill


class BillShape(Shape):
    """A bill of the utility."""

    from_: Annotated[Text, PlainValidator(checks.day)] = Declared(alias="from")
    to: Annotated[Text, PlainValidator(checks.day)]
    energy: Annotated[Said, with_context(meter_checks.energy)]


class ChangeShape(Shape):
    """What changed in the dwelling, and when."""

    date: Annotated[Text, PlainValidator(checks.day)]
    what: Annotated[Text, PlainValidator(meter_checks.one_of(tuple(meter_checks.CHANGES)))]


class MeterShape(Shape):
    """A record of the metered demand; what is said of the dwelling in that time comes from the glossary."""

    file: SingleText
    on: Annotated[Said | None, with_context(supply_checks.panel_on)] = None
    time_zone: SingleText | None = None
    standard_time: Annotated[Text | None, PlainValidator(meter_checks.one_of(meter_checks.YES_OR_NO))] = None
    stamps: Annotated[Text | None, PlainValidator(meter_checks.one_of(meter_checks.STAMPS))] = None
    interval: Annotated[Said | None, with_context(meter_checks.interval)] = None
    unit: Annotated[Text | None, PlainValidator(meter_checks.one_of(meter_checks.VALUE_UNITS))] = None
    date_order: Annotated[Text | None, PlainValidator(meter_checks.one_of(meter_checks.DATE_ORDERS))] = None
    decimal: Annotated[Text | None, PlainValidator(meter_checks.one_of(meter_checks.DECIMALS))] = None
    meter: SingleText | None = None
    columns: Annotated[dict[str, Text] | None, PlainValidator(meter_checks.columns)] = None
    flags: Annotated[dict[str, Text] | None, PlainValidator(meter_checks.flags)] = None
    bills: list[Annotated[BillShape, WrapValidator(_ordered)]] = []
    changes: list[ChangeShape] | None = None
