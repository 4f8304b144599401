"""Bills beside the sums of the intervals of their days: how far they are apart, and what explains it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from dwellcalc.meter.coverage import energy_between
from dwellcalc.meter.figures import Bill, Terms
from dwellcalc.meter.profile import Profile
from dwellcalc.units import percent_of

KILO = 1000  # Wh in a kWh
COPY_WITHIN = 0.5  # Wh between a bill and the sum that it was copied from
MOVES = (("first", -1, 0), ("first", 1, 0), ("last", 0, -1), ("last", 0, 1))
OTHER_DAYS = (
    "the bill of {first} to {last} is {apart:.1f} % off the sum of those days, and {closer}; see whether both its first and its last day "
    "count whole, and until which midnight it is"
)
CLOSER_BY = "{apart:.1f} % off where its {which} day is {day}"
COPIED = (
    "the energy of the bill of {first} to {last} is the sum of its intervals to the last digit: it was taken from the record, "
    "and is not counted as a comparison"
)

ROUNDED = (
    "the energy of the bill of {first} to {last} is the sum of its intervals, rounded: it is counted as a comparison, and is one only "
    "if it was read from the bill and not from this record"
)


@dataclass(frozen=True, slots=True)
class BillSum:
    """A bill, the sum of the intervals of its days [Wh], and those days [s since 1970-01-01 UTC]."""

    bill: Bill
    own: float
    span: tuple[int, int]

    @property
    def apart(self) -> float:
        """How far the two are apart [% of the bill]."""
        return percent_of(abs(self.own - 1000 * self.bill.energy), 1000 * self.bill.energy)

    @property
    def is_copy(self) -> bool:
        """Whether the bill has the sum itself, with decimals that no bill is rounded to."""
        return not self.bill.energy.is_integer() and abs(self.own - 1000 * self.bill.energy) < COPY_WITHIN


def bill_sums(bills: Iterable[Bill], profile: Profile) -> list[BillSum]:
    """The bills whose days values fill wholly."""
    made = [_sum(each, profile) for each in bills if each.energy > 0]
    return [each for each in made if each is not None]


def _sum(bill: Bill, profile: Profile) -> BillSum | None:
    begin, end = (
        int(datetime(day.year, day.month, day.day, tzinfo=profile.zone).timestamp()) for day in (bill.first, _moved(bill.last, 1))
    )
    own = energy_between(profile, begin, end)
    return None if own is None else BillSum(bill, own, (begin, end))


def _moved(day: date, by: int) -> date:
    return date.fromordinal(day.toordinal() + by)


def bill_remarks(bills: Iterable[Bill], profile: Profile, terms: Terms) -> list[str]:
    """What is to be said of bills: that one is no comparison, or agrees much better by other days."""
    found = []
    for each in bill_sums(bills, profile):
        days = {"first": each.bill.first.isoformat(), "last": each.bill.last.isoformat()}
        if each.is_copy:
            found.append(COPIED.format(**days))
            continue
        if each.bill.energy == round(each.own / KILO):
            found.append(ROUNDED.format(**days))
        closer = [
            CLOSER_BY.format(apart=apart, which=which, day=day.isoformat())
            for apart, which, day in sorted(_by_other_days(each.bill, profile))
            if each.apart > max(terms.bills_apart, terms.closer_by_other_days * apart)
        ]
        if closer:
            found.append(OTHER_DAYS.format(**days, apart=each.apart, closer=" or ".join(closer)))
    return found


def _by_other_days(bill: Bill, profile: Profile) -> list[tuple[float, str, date]]:
    """How far a bill is off with its first or last day moved by one: how far, which day, and when that then is."""
    found = []
    for which, first_by, last_by in MOVES:
        first, last = _moved(bill.first, first_by), _moved(bill.last, last_by)
        moved = _sum(Bill(first, last, bill.energy), profile) if first <= last else None
        if moved is not None:
            found.append((moved.apart, which, first if first_by else last))
    return found
