"""From local starts of intervals to UTC, with the hours that are skipped and repeated where clocks change."""

from __future__ import annotations

from array import array
from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from itertools import islice, pairwise

from dwellcalc.meter.record import ESTIMATED
from dwellcalc.meter.tables.needs import STANDARD_TIME, ask
from dwellcalc.meter.tables.stamps import DAY, ELAPSED, LATE, SECOND
from dwellcalc.meter.tables.steps import is_backwards
from dwellcalc.meter.tables.table_lines import Told
from dwellcalc.meter.tables.zones import Change, Offsets
from dwellcalc.problems import Place, message

TABLE_SKIPPED = message(
    "meter_table_skipped",
    "{name} has energy at {moment}, an hour that clocks skip in {zone}",
    "a file that keeps standard time all year says so: `standard time: yes` under `meter:`",
)

_HALF = 0.5


def shown(local: int) -> str:
    """A local time in words."""
    return (datetime(1970, 1, 1) + timedelta(seconds=local)).strftime("%Y-%m-%d %H:%M")


@dataclass
class LocalTimes:
    """Readings with local starts, until they have starts in UTC.

    Attributes:
        starts: the starts [s since 1970-01-01, local].
        lengths: of the intervals [s].
        ended: whether they come from stamps of ends.
        values: may be changed where a file hides a repeated hour in the one before.
        standard: what is said of standard time: ``yes``, ``no`` or nothing.
        bare_hours: whether stamps count the hours of the day.
        dropped: places of readings that stand for no time.
        extra: readings that the file does not hold: the place of the one they were made from, and the start in UTC.
    """

    starts: array[int]
    lengths: array[int]
    ended: bool
    values: array[float]
    quality: bytearray
    tags: bytearray
    revisions: array[int]
    offsets: Offsets
    standard: str
    bare_hours: bool
    told: Told
    standard_place: Place | None = None
    dropped: set[int] = field(default_factory=set)
    extra: list[tuple[int, int]] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    forced: bool = False

    def universal(self) -> array[int]:
        """The starts in UTC [s since 1970-01-01]; what was found on the way stands in the other attributes."""
        offsets, starts = self.offsets, self.starts
        if not starts:
            return array("q")
        first, last = min(starts) // DAY - 1, max(starts) // DAY
        for day in range(first, last + 1):
            offsets[day]  # noqa: B018  asked for once, so that all changes are known
        if len({offsets[day] for day in range(first, last + 1)}) == 1:
            offset = offsets[first]
            return array("q", [start - offset for start in starts])
        ascending = not self.tags and all(map(int.__le__, starts, islice(starts, 1, None)))
        found, places = self._in_parts(first, last) if ascending else self._one_by_one()
        for day in sorted(places, key=lambda day: (offsets.changes[day].repeated, day)):
            change = offsets.changes[day]
            (self._repeated if change.repeated else self._skipped)(found, day, change, places[day])
        return found

    def _in_parts(self, first: int, last: int) -> tuple[array[int], dict[int, Sequence[int]]]:
        """Starts in order: between days on which clocks change the offset is one."""
        found = array("q")
        places: dict[int, Sequence[int]] = {}
        borders = [first, *sorted(border for day in self.offsets.changes for border in (day, day + 1)), last + 1]
        for begin, end in pairwise(borders):
            low, high = (bisect_left(self.starts, day * DAY) for day in (begin, end))
            found.extend(map((-self.offsets[begin]).__add__, self.starts[low:high]))
            if begin in self.offsets.changes and low < high:
                places[begin] = range(low, high)
        return found, places

    def _one_by_one(self) -> tuple[array[int], dict[int, Sequence[int]]]:
        """Starts in any order."""
        days = [start // DAY for start in self.starts]
        found = array("q", [start - self.offsets[day] for start, day in zip(self.starts, days)])
        places: dict[int, list[int]] = {}
        changes = self.offsets.changes
        for place in [place for place, day in enumerate(days) if day in changes]:
            places.setdefault(days[place], []).append(place)
        for place, tag in enumerate(self.tags):
            if tag == LATE and days[place] - 1 in changes:
                places.setdefault(days[place] - 1, []).append(place)
        return found, dict(places)

    def _tag(self, place: int) -> int:
        return self.tags[place] if self.tags else 0

    def _counted(self, found: array[int], day: int, places: Sequence[int]) -> None:
        """Readings that count on through a day."""
        begin, after = self.offsets.universal(day * DAY), self.offsets.universal((day + 1) * DAY)
        for place in places:
            found[place] = begin + self.starts[place] - day * DAY
            if found[place] >= after and self.values[place] != self.values[place]:
                self.dropped.add(place)

    def _skipped(self, found: array[int], day: int, change: Change, places: Sequence[int]) -> None:
        counted = [place for place in places if self._tag(place) in (ELAPSED, LATE)]
        if counted:
            self._counted(found, day, counted)
            return
        for place in places:
            found[place] = self.offsets.universal(self.starts[place])
        inside = [place for place in places if change.begin <= self.starts[place] < change.end]
        empty = [place for place in inside if self.values[place] != self.values[place]]
        self.dropped.update(empty)
        inside = [place for place in inside if place not in empty]
        if not inside:
            return
        last = max(self.starts[place] + self.lengths[place] for place in places)
        if self.bare_hours and last == (day + 1) * DAY - (change.end - change.begin):
            self._counted(found, day, places)
        elif self._ends_after(change, inside, places):
            for place in inside:
                found[place] = self.offsets.universal(change.end) - self.lengths[place]
        else:
            self._in_skipped(day, change, inside)

    def _ends_after(self, change: Change, inside: Sequence[int], places: Sequence[int]) -> bool:
        """Whether ends are told in the time after the change: the one interval that seems skipped ends with the skipped hour."""
        ends = {self.starts[place] + self.lengths[place] for place in places}
        whole = {self.starts[place] + self.lengths[place] for place in inside} == {change.end}
        return self.ended and whole and change.begin not in ends

    def _in_skipped(self, day: int, change: Change, inside: Sequence[int]) -> None:
        zone, moment = self.offsets.zone.key, shown(self.starts[inside[0]])
        energy = [place for place in inside if self.values[place]]
        if not self.standard:
            ask(
                self.told,
                STANDARD_TIME,
                f"it has readings at {moment}, an hour that clocks skip in {zone}",
                "yes` or `no",
                self.standard_place,
            )
        elif energy:
            moment = shown(self.starts[energy[0]])
            self.told.problems.add(TABLE_SKIPPED, self.standard_place, name=self.told.name, moment=moment, zone=zone)
        else:
            self.forced = True
            self.dropped.update(inside)
            self.remarks.append(
                f"{len(inside)} readings of zero on {shown(day * DAY)[:10]} stand for an hour that clocks skip; left out"
            )

    def _repeated(self, found: array[int], day: int, change: Change, places: Sequence[int]) -> None:
        counted = [place for place in places if self._tag(place) in (ELAPSED, LATE)]
        if counted:
            self._counted(found, day, places if self.bare_hours else counted)
            return
        shift = self._shift(change, places)
        seen: Counter[tuple[int, int]] = Counter()
        backwards = is_backwards(self.starts)
        inside: list[int] = []
        for place in places:
            label = self.starts[place] + (self.lengths[place] if shift else 0)
            fold = 0
            if change.begin <= label < change.end:
                inside.append(place)
                turn = (label, self.revisions[place] if self.revisions else 0)
                fold = int(self._tag(place) == SECOND) if self._tag(place) else int((seen[turn] > 0) != backwards)
                seen[turn] += 1
            found[place] = self.offsets.universal(label, fold) - (label - self.starts[place])
        once = bool(inside) and not self.tags and max(seen.values()) == 1
        if once:
            self._once(found, day, change, inside)

    def _shift(self, change: Change, places: Sequence[int]) -> bool:
        """Whether ends are told in the time of the end itself: the end at the begin of the repeated hour stands twice."""
        if not self.ended:
            return False
        ends = Counter(self.starts[place] + self.lengths[place] for place in places)
        return ends[change.begin] > ends[change.end]

    def _once(self, found: array[int], day: int, change: Change, inside: Sequence[int]) -> None:
        """The repeated hour stands once: its readings are of both hours where the file is forced to days of one length."""
        when = shown(day * DAY)[:10]
        if not self.forced:
            for place in inside:
                found[place] = self.offsets.universal(self.starts[place])
            self.remarks.append(f"the hour that clocks repeat on {when} stands once; taken as the first, the second is missing")
            return
        self.remarks.append(
            f"the hour that clocks repeat on {when} holds the sum of two hours; shared equally between them, as estimated"
        )
        for place in inside:
            self.values[place] *= _HALF
            self.quality[place] = ESTIMATED
            found[place] = self.offsets.universal(self.starts[place])
            self.extra.append((place, self.offsets.universal(self.starts[place], 1)))


def stamps_by_change(labels: Sequence[int], length: int, offsets: Offsets) -> str:
    """Whether stamps are starts or ends, by the hour that they lack or repeat on a day on which clocks change; else empty.

    Args:
        labels: the stamps as written [s since 1970-01-01, local].
        length: of an interval [s].
        offsets: of the zone.
    """
    for day in {label // DAY for label in labels}:
        offsets[day]  # noqa: B018
    votes: set[str] = set()
    for day, change in offsets.changes.items():
        near = Counter(label for label in labels if day * DAY <= label <= (day + 1) * DAY)
        begin, end = near[change.begin], near[change.end]
        if change.repeated:
            votes.add({(True, False): "start", (False, True): "end"}.get((begin > 1, end > 1), ""))
        elif near[change.begin - length] and near[change.end + length]:
            votes.add({(False, True): "start", (True, False): "end"}.get((begin > 0, end > 0), ""))
    votes.discard("")
    return votes.pop() if len(votes) == 1 else ""


def stamps_by_edges(labels: Sequence[int], length: int) -> str:
    """What the first and the last stamp look like where a file holds whole days: starts, ends, or neither."""
    first, last = min(labels) % DAY, max(labels) % DAY
    return {(0, DAY - length): "start", (length, 0): "end"}.get((first, last), "")
