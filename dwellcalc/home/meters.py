"""The record of its meter that a home names: which file, how it is to be read, and what is said of that time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from dwellcalc.facts import Facts, Unknown
from dwellcalc.glossary import Field, Glossary
from dwellcalc.placed import Text
from dwellcalc.problems import message

from .meter_checks import CHANGES
from .stated import set_said
from .supplies import Supply
from .supply_checks import SERVICE
from .values import Said

NO_RECORD = message("home_no_record", "{path}: these rules read no record of a meter", "take this key out")
RECORD, FROM_READINGS = "record", "readings"
HOW_TO_READ = ("time_zone", "standard_time", "stamps", "unit", "date_order", "decimal", "meter")


@dataclass(frozen=True)
class BillSaid:
    """A bill: its first and its last day, and the energy [kWh]."""

    first: Text
    last: Text
    energy: float


@dataclass(frozen=True)
class ChangeSaid:
    """What changed in the dwelling, and when; whether the record before it shows less than there is now."""

    day: Text
    what: Text
    adds: bool


@dataclass(frozen=True)
class Meter:
    """The record that a home names.

    Attributes:
        file: the file of readings, beside the home file where it has no folder.
        on: the id of the supply that it is of.
        read_by: how it is to be read, as far as that is said: a key of ``HOW_TO_READ`` -> a word.
        interval: how long its intervals are [min]; 0 where that is not said.
        flags: what flags of quality mean, by the word in the file.
        columns: headings of columns by what they hold.
        bills: bills to compare with.
        changes: what changed in the dwelling; nothing where that is not said.
    """

    file: Text
    on: str
    read_by: Mapping[str, Text]
    interval: float
    flags: Mapping[str, Text]
    columns: Mapping[str, Text]
    bills: Sequence[BillSaid]
    changes: Sequence[ChangeSaid] | None


def stated_fields(glossary: Glossary) -> dict[str, Field]:
    """What the home file itself says of a record; nothing where the rules know of none."""
    fields = glossary.objects.get(RECORD, {})
    return {name: each for name, each in fields.items() if each.comes_from != FROM_READINGS}


def meter_of(model: Any, supply_ids: Mapping[str, str]) -> Meter | None:
    """The record that a home's model names, if it names one.

    Args:
        model: the home's model.
        supply_ids: the ids of the feeders by their names.
    """
    said = getattr(model, "meter", None)
    if said is None:
        return None
    on: Said | None = said.on
    return Meter(
        said.file,
        supply_ids[on.value] if on is not None and on.value is not None else SERVICE,
        {name: getattr(said, name) for name in HOW_TO_READ if getattr(said, name) is not None},
        said.interval.value if said.interval is not None else float(0),
        said.flags or {},
        said.columns or {},
        [BillSaid(bill.from_, bill.to, bill.energy.value) for bill in said.bills],
        None if said.changes is None else [ChangeSaid(each.date, each.what, CHANGES[each.what]) for each in said.changes],
    )


def measured_by(meter: Meter, supplies: Sequence[Supply]) -> list[Supply]:
    """The supplies whose load a record is of: the one that is named; where that is the service, the feeder that carries all of it too."""
    return [each for each in supplies if each.id == meter.on or (meter.on == SERVICE and each.carries_all)]


def say_record(model: Any, facts: Facts) -> None:
    """Fill what the home file says of its record into the facts of a supply that it is of."""
    for declared in stated_fields(facts.glossary).values():
        set_said(facts, RECORD, declared, getattr(model.meter, declared.name))


def has_record(facts: Facts) -> bool:
    """Whether figures of a record are among the facts."""
    declared, values = facts.glossary.objects.get(RECORD, {}), facts.objects.get(RECORD, {})
    return any(each.comes_from == FROM_READINGS and not isinstance(values[name], Unknown) for name, each in declared.items())
