"""Local time: the offset of each day, the days on which clocks change, and the zone by its name."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cached_property
from pathlib import PurePosixPath
from zoneinfo import ZoneInfo, available_timezones

from dwellcalc.meter.tables.stamps import DAY
from dwellcalc.problems import Place, Problems, message

TABLE_ZONE = message(
    "meter_table_zone", 'there is no time zone "{zone}"{near}', "a name of the time-zone database, such as `America/Denver`"
)

UNIVERSAL = "UTC"
MOST_NAMED = 3
_EPOCH = datetime(1970, 1, 1)


def zone_named(name: str, problems: Problems, place: Place | None) -> ZoneInfo | None:
    """The zone with a name, or nothing and a problem that tells the nearest names."""
    known = available_timezones()
    if name in known:
        return ZoneInfo(name)
    near = nearest_zones(name, known)
    problems.add(TABLE_ZONE, place, zone=name[:80], near=f"; near to it: {', '.join(near)}" if near else "")
    return None


def nearest_zones(name: str, known: set[str]) -> list[str]:
    """The zones whose names, or places, are most like a name."""
    from difflib import get_close_matches

    wanted = name.strip().replace(" ", "_").casefold()[:80]
    by_small = {zone.casefold(): zone for zone in sorted(known)}
    by_place = {PurePosixPath(zone).name.casefold(): zone for zone in sorted(known, reverse=True)}
    found = [by_small[each] for each in get_close_matches(wanted, by_small, n=MOST_NAMED)]
    found += [by_place[each] for each in get_close_matches(PurePosixPath(wanted).name, by_place, n=MOST_NAMED)]
    return list(dict.fromkeys(found))[:MOST_NAMED]


@dataclass(frozen=True)
class Change:
    """A change of the clocks: local times that are skipped or repeated, from ``begin`` to ``end`` [s], and which it is."""

    begin: int
    end: int
    repeated: bool


class Offsets(dict[int, int]):
    """The offset of local time from UTC [s] by the day [days since 1970-01-01]; nothing on days on which it changes.

    Args:
        zone: the time zone.
        standard: whether clocks keep standard time all year.
    """

    def __init__(self, zone: ZoneInfo, *, standard: bool) -> None:
        super().__init__()
        self.zone, self.standard = zone, standard
        self.changes: dict[int, Change] = {}

    def __missing__(self, day: int) -> int:
        if self.standard:
            found = self.standard_of(day)
        else:
            found = self.offset(day * DAY)
            after = self.offset((day + 1) * DAY)
            if found != after:
                self.changes[day] = self._change(day, found, after)
                found = 0
        self[day] = found
        return found

    def offset(self, local: int, fold: int = 0) -> int:
        """The offset at a local time [s since 1970-01-01]; with ``fold`` at its second occurrence."""
        moment = (_EPOCH + timedelta(seconds=local)).replace(tzinfo=self.zone, fold=fold)
        found = moment.utcoffset()
        return int(found.total_seconds()) if found is not None else 0

    def universal(self, local: int, fold: int = 0) -> int:
        """A local time as UTC [s since 1970-01-01]."""
        return local - self.offset(local, fold)

    def standard_of(self, day: int) -> int:
        """The offset of standard time on a day [days since 1970-01-01], whether clocks keep it or not [s]."""
        year = (_EPOCH + timedelta(days=day)).year
        halves = ((datetime(year, month, 1) - _EPOCH).days * DAY for month in (1, 7))
        return min(self.offset(half) for half in halves)

    def _change(self, day: int, before: int, after: int) -> Change:
        """The local times that are skipped or repeated on a day."""
        low, high = day * DAY - before, (day + 1) * DAY - after
        while high - low > 1:
            middle = (low + high) // 2
            moment = datetime.fromtimestamp(middle, UTC).astimezone(self.zone).utcoffset() or timedelta()
            low, high = (middle, high) if moment.total_seconds() == before else (low, middle)
        one, two = high + before, high + after
        return Change(min(one, two), max(one, two), two < one)

    @cached_property
    def ever_changes(self) -> bool:
        """Whether clocks of the zone change at any time of the last decades."""
        days = range((datetime(2000, 1, 1) - _EPOCH).days, (datetime(2036, 1, 1) - _EPOCH).days, 30)
        return len({self.offset(day * DAY) for day in days}) > 1
