"""What the values of a reading type mean, or why no load can be told from them."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from dwellcalc.meter.feeds import espi_codes as codes
from dwellcalc.meter.feeds.espi_feed import LONGEST_LENGTH, LONGEST_SHOWN, Resource
from dwellcalc.meter.record import MEASURED, NOT_SAID, SUSPECT
from dwellcalc.problems import Message, fail, message

FIELD = re.compile(r"-?[0-9]{1,10}")

STRANGE_FIELD = message(
    "espi_strange_field",
    'the file "{name}": "{found}" is no {what} that the standard has',
    "ask for the file anew where it comes from",
)
NO_LOAD = message(
    "espi_no_load",
    'the file "{name}" holds no electrical energy or power in intervals: {why}',
    "ask for interval data of electricity delivered, in Wh or W",
)
MULTIPLIER = message(
    "espi_multiplier",
    'the file "{name}": {why}',
    "ask for the file anew: every value would be off by a power of ten",
)
ACCUMULATION = message(
    "espi_accumulation", 'the file "{name}": {why}', "ask for interval data, which says what flowed in each interval"
)


class NotALoad(Exception):
    """Why no load can be told from a reading type; in words that follow what it is about."""

    def __init__(self, why: str, message: Message = NO_LOAD) -> None:
        super().__init__(why)
        self.why, self.message = why, message


@dataclass(slots=True)
class Meaning:
    """How a value becomes energy, and what else is said of the readings.

    Attributes:
        unit: ``WATT_HOURS`` or ``WATTS``.
        power: the power of ten by which values are multiplied.
        direction: as in a channel.
        one_line: whether of one line conductor only.
        length: of an interval, as declared [s]; 0 where it is not.
        quality: of readings that say nothing of their own, a place in ``QUALITIES``.
        remarks: what a reader must know.
    """

    unit: int
    power: int
    direction: str
    one_line: bool
    length: int
    quality: int
    remarks: list[str] = field(default_factory=list)


def number(resource: Resource, path: str, what: str, name: str) -> int | None:
    """A whole number of a resource, or nothing where it is not there.

    Raises:
        InputError: it is not a whole number.
    """
    text = resource.fields.get(path, "")
    if not text:
        return None
    if not FIELD.fullmatch(text):
        fail(STRANGE_FIELD, name=name, found=" ".join(text.split())[:LONGEST_SHOWN], what=what)
    return int(text)


def meaning_of(reading_type: Resource, name: str) -> Meaning:
    """What the values of a reading type mean.

    Args:
        reading_type: as the feed has it.
        name: what the user calls the file.

    Raises:
        InputError: a field is not a number.
        NotALoad: no load can be told from the values.
    """
    fields = _Fields(reading_type, name)
    remarks: list[str] = []
    unit = _unit(fields)
    direction = direction_of(reading_type, name)
    power = _power(fields, remarks)
    _accumulation(fields, remarks)
    _other_reasons(fields, unit)
    phase = fields.get("phase", 0)
    _further_remarks(fields, phase, remarks)
    length = fields.get("intervalLength", 0)
    if not 0 <= length <= LONGEST_LENGTH:
        fail(STRANGE_FIELD, name=name, found=length, what="interval length")
    default = fields.get("defaultQuality", 0)
    return Meaning(
        unit=unit,
        power=power,
        direction=direction,
        one_line=phase in codes.ONE_LINE_PHASES,
        length=length,
        quality=codes.READING_QUALITIES.get(default, SUSPECT) if default else MEASURED,
        remarks=remarks,
    )


def direction_of(reading_type: Resource, name: str) -> str:
    """Which way the energy flows.

    Raises:
        InputError: the field is not a number.
        NotALoad: in a way of reactive power.
    """
    flow = number(reading_type, "flowDirection", "flow direction", name)
    if flow is None:
        return NOT_SAID
    if flow not in codes.FLOWS:
        raise NotALoad(f"their flow direction has the code {flow}")
    return codes.FLOWS[flow]


@dataclass(frozen=True, slots=True)
class _Fields:
    reading_type: Resource
    name: str

    def get(self, path: str, otherwise: int) -> int:
        found = number(self.reading_type, path, f"{path} of a reading type", self.name)
        return otherwise if found is None else found

    def said(self, path: str) -> bool:
        return bool(self.reading_type.fields.get(path))


def _unit(fields: _Fields) -> int:
    unit = fields.get("uom", -1)
    if not fields.said("uom"):
        raise NotALoad("their unit is not said")
    if unit not in codes.KINDS_OF_UNIT:
        raise NotALoad(f"their unit is {codes.UNITS.get(unit, f'that with the code {unit}')}")
    return unit


def _power(fields: _Fields, remarks: list[str]) -> int:
    power = fields.get("powerOfTenMultiplier", 0)
    if power not in codes.MULTIPLIERS:
        raise NotALoad(
            f"their values are to be multiplied by ten to the power {power}, which the standard does not have", MULTIPLIER
        )
    if not fields.said("powerOfTenMultiplier"):
        remarks.append("the file does not say by which power of ten its values are multiplied; they are taken as they stand")
    return power


def _accumulation(fields: _Fields, remarks: list[str]) -> None:
    behaviour = fields.get("accumulationBehaviour", 0)
    if behaviour == 0:
        remarks.append("the file does not say that its values are what flowed in each interval; they are taken so")
    elif behaviour != codes.BY_INTERVAL:
        found = codes.ACCUMULATIONS.get(behaviour, f"of an unknown kind, {behaviour}")
        raise NotALoad(f"their values are not what flowed in each interval, but {found}", ACCUMULATION)


def _other_reasons(fields: _Fields, unit: int) -> None:
    kind, qualifier, commodity = fields.get("kind", 0), fields.get("dataQualifier", 0), fields.get("commodity", 0)
    if commodity not in codes.ELECTRICAL_COMMODITIES:
        raise NotALoad("they are not of electricity")
    if kind not in codes.KINDS_OF_UNIT[unit]:
        raise NotALoad(f"their kind has the code {kind}, which does not go with {codes.UNITS[unit]}")
    if qualifier not in codes.PLAIN_QUALIFIERS:
        raise NotALoad(f"they are {codes.QUALIFIERS.get(qualifier, f'of the qualifier {qualifier}')}")


def _further_remarks(fields: _Fields, phase: int, remarks: list[str]) -> None:
    if fields.get("commodity", 0) == codes.PRIMARY:
        remarks.append("metered through instrument transformers: look whether their ratio is in the values already")
    if fields.get("measuringPeriod", 0) in codes.SLIDING_PERIODS:
        remarks.append("the values are of sliding intervals")
    if phase in codes.ONE_LINE_PHASES:
        remarks.append("of one line conductor only, which is not the whole service")
    elif phase == codes.LINE_TO_LINE_ONLY:
        remarks.append("of what is connected between the lines only, which is not the whole service")
