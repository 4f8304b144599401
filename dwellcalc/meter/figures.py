"""The plain figures of a record, by glossary name, each with the moments that it rests on, and what they are taken by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from math import isnan, nan

from dwellcalc.units import percent_of


@dataclass(frozen=True, slots=True)
class Bill:
    """A bill of the utility: the days that it is for, the first and the last, and the energy [kWh]."""

    first: date
    last: date
    energy: float


@dataclass(frozen=True, slots=True)
class Change:
    """What changed in the dwelling, and when: a load was added or removed, the meter or the occupants changed."""

    day: date
    what: str
    adds: bool


@dataclass(frozen=True, slots=True)
class Stated:
    """What the user says of the dwelling while it was recorded; nothing where it is not said."""

    bills: Sequence[Bill] = ()
    changes: Sequence[Change] | None = None


@dataclass(frozen=True, slots=True)
class Terms:
    """What the figures are taken by, from the rules: amounts in the units of the rules, by name.

    Attributes:
        window: the interval of the demand [min].
        run: how many equal readings in a row are frozen.
        run_steps: how many of the smallest steps a reading has at least, for equal ones to be strange.
        low_day: the share of the median day below which a day is low [%].
        vacant_month: the share of low days above which a month is vacant [%].
        bills_apart: how far bills are from the sums of their days anyway [%].
        closer_by_other_days: how many times closer a bill must be by other days, for these to be told.
    """

    window: float
    run: float
    run_steps: float
    low_day: float
    vacant_month: float
    bills_apart: float
    closer_by_other_days: float


@dataclass(slots=True)
class Month:
    """A calendar month of the profile; where it begins and ends within one, both parts of it.

    Attributes:
        name: its year and number, or both years.
        expected, covered: how much of it belongs to the profile, and how much of that values fill [s].
        energy: what flowed [Wh].
        maximum: the highest window [W]; not a number where there is none.
        at: when that begins [s since 1970-01-01 UTC].
    """

    number: int
    name: str
    expected: int = 0
    covered: int = 0
    energy: float = 0.0
    maximum: float = nan
    at: int = 0

    @property
    def coverage(self) -> float:
        """The share of it that values fill [%]."""
        return percent_of(self.covered, self.expected) if self.expected else 0.0

    @property
    def highest(self) -> float | None:
        """The highest window [W], nothing where there is none."""
        return None if isnan(self.maximum) else self.maximum


@dataclass(slots=True)
class Figures:
    """The figures of a record.

    Attributes:
        values: each figure by glossary name, in the units of the glossary.
        moments: the spans of time that a figure rests on [s since 1970-01-01 UTC], by its name: begin, end.
        months: the twelve months.
        days: the highest window of each day [W], by its date; nothing where there is none.
        highest: the highest windows, the highest first: when it begins [s], average power [W].
        window: how long those are [s].
        gaps: the spans that no value fills, the longest first: begin, end [s], how long [h].
    """

    values: dict[str, float | bool] = field(default_factory=dict)
    moments: dict[str, list[tuple[int, int]]] = field(default_factory=dict)
    months: list[Month] = field(default_factory=list)
    days: dict[str, float | None] = field(default_factory=dict)
    highest: list[tuple[int, float]] = field(default_factory=list)
    window: int = 0
    gaps: list[tuple[int, int, float]] = field(default_factory=list)

    @property
    def window_minutes(self) -> float:
        """How long the windows are [min]."""
        return self.window / 60

    def note(self, name: str, value: float | bool, *moments: tuple[int, int]) -> None:
        """Note a figure; one that is not a number stays unknown."""
        if isinstance(value, float) and isnan(value):
            return
        self.values[name] = value
        if moments:
            self.moments[name] = list(moments)
