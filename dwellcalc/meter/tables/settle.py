"""From rows as written to channels: the order of dates, what a stamp tells, lengths of intervals, time zone, units, revisions."""

from __future__ import annotations

import re
from array import array
from dataclasses import dataclass, field
from zoneinfo import ZoneInfo

from dwellcalc.meter.record import Channel, Said
from dwellcalc.meter.tables.date_order import one_order
from dwellcalc.meter.tables.layout import END, START
from dwellcalc.meter.tables.lengths import from_ends, spelled, step_between
from dwellcalc.meter.tables.local_times import LocalTimes, shown, stamps_by_change, stamps_by_edges
from dwellcalc.meter.tables.needs import ASKED, METER, STAMPS, STANDARD_TIME, TIME_ZONE, UNIT, ask
from dwellcalc.meter.tables.series import Raw, Series
from dwellcalc.meter.tables.stamps import DAY
from dwellcalc.meter.tables.sums import refuse_rising, sums_among
from dwellcalc.meter.tables.table_lines import Told, short
from dwellcalc.meter.tables.values import BLANK_FLAG, UNITS, Unit
from dwellcalc.meter.tables.zones import Offsets
from dwellcalc.problems import message, nearest_name

TABLE_METER = message("meter_table_meter", '{name} has no meter or register "{meter}"', "it has: {found}")
TABLE_BACKWARDS = message(
    "meter_table_backwards", "{name} has an interval that ends before it begins, or when it begins: {moment} UTC"
)
TABLE_OFFSETS = message(
    "meter_table_offsets",
    'some stamps bear an offset from UTC ("{one}") and others none ("{two}")',
    "one form of stamps through the whole file",
)

MOST_NAMED = 8
TENTH = 10
DAYLIGHT = "dt"
YES, NO = "yes", "no"
_ROUNDED = re.compile(r"\d(?:[.,]\d+)?e\+\d+\Z", re.IGNORECASE)


@dataclass
class Settling:
    """Settles the series of a file; what cannot be settled is asked for.

    Attributes:
        stamps: what a stamp tells by the headings; empty where they do not.
        fixed: whether the form of the table leaves no doubt about that.
        offsets: of the time zone; nothing where it is not known.
        universal: whether stamps are in UTC already.
    """

    raw: Raw
    said: Said
    told: Told
    stamps: str
    fixed: bool
    offsets: Offsets | None
    universal: bool = False
    words: list[str] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    summed: list[tuple[int, int, float]] = field(default_factory=list)

    def channels(self) -> list[Channel]:
        """The channels, as far as nothing had to be asked for."""
        taken = self._chosen([each for each in self.raw.series.values() if each.labels])
        self.remarks += one_order(self.raw, taken, self.said, self.told)
        self._offsets()
        found = [channel for series in taken if (channel := self._channel(series)) is not None]
        self.remarks = list(dict.fromkeys(self.remarks))
        return found

    def _chosen(self, series: list[Series]) -> list[Series]:
        """The series of the meter that is meant."""
        names = list(dict.fromkeys(name_of(each) for each in series))
        if any(_ROUNDED.match(each.key.meter) for each in series):
            self.remarks.append("numbers of meters were rounded by a spreadsheet; different meters may bear the same number")
        wanted = self.said.meter
        listed = ", ".join(short(name) or "(no name)" for name in names[:MOST_NAMED])
        if not wanted:
            if len(names) > 1:
                ask(self.told, METER, f"it has {listed}", short(next(filter(None, names))))
            return series
        taken = [each for each in series if wanted in (each.key.meter, each.key.register, name_of(each))]
        if not taken:
            nearest = nearest_name(wanted, names)
            place = self.said.places.get("meter")
            self.told.problems.add(TABLE_METER, place, name=self.told.name, meter=short(wanted), found=listed, nearest=nearest)
        elif len({name_of(each) for each in taken}) > 1:
            ask(self.told, METER, f"it has {listed}", name_of(taken[0]))
        return taken

    def _offsets(self) -> None:
        one = self.raw.clocks.with_offset
        two = self.raw.clocks.without_offset or self.raw.hours.without_offset
        if one and two:
            self.told.problems.add(TABLE_OFFSETS, one=short(one), two=short(two))
        self.universal = self.universal or bool(one)
        if not self.universal and self.offsets is None and not self.said.time_zone:
            ask(self.told, TIME_ZONE)

    def _channel(self, series: Series) -> Channel | None:
        unit = self._unit(series)
        length = self._length(series)
        mode = self._mode(series, length)
        if unit is None or not length or not mode or (self.offsets is None and not self.universal):
            return None
        self.words += [f"a stamp is the {mode} of its interval", f"intervals of {spelled(length)}"]
        lengths = from_ends(series, length, self) if series.ends else array("l", [length]) * len(series.labels)
        starts = series.labels
        if mode == END:
            starts = array("q", map((-length).__add__, starts))
        self._letters(starts)
        extra: list[tuple[int, int]] = []
        dropped: set[int] = set()
        if not self.universal and self.offsets is not None:
            local = self._local(series, starts, lengths, self.offsets, ended=mode == END)
            starts, extra, dropped = local.universal(), local.extra, local.dropped
            self.remarks += local.remarks
            if series.ends:
                _usual_lengths(local, lengths, length)
        refuse_rising(series.values, self.told)
        dropped = self._superseded(series, starts, dropped)
        if series.ends:
            dropped = self._sums(series, unit, starts, lengths, length, dropped)
        return self._made(series, unit, starts, lengths, extra, dropped)

    def _sums(
        self, series: Series, unit: Unit, starts: array[int], lengths: array[int], usual: int, dropped: set[int]
    ) -> set[int]:
        """Take what the file sums up itself out of its intervals; what ends before it begins cannot be read."""
        for start, length in zip(starts, lengths):
            if length <= 0:
                self.told.problems.add(TABLE_BACKWARDS, name=self.told.name, moment=shown(start))
                self.told.stop_if_many()
        sums = sums_among(starts, lengths, usual) - dropped
        for place in sorted(sums):
            energy = series.values[place] * unit.energy(lengths[place])
            self.summed.append((starts[place], starts[place] + lengths[place], energy))
        if sums:
            self.remarks.append(f"{len(sums)} rows are sums of other readings; they were not taken as intervals")
        return dropped | sums

    def _letters(self, starts: array[int]) -> None:
        """Letters of standard time on stamps of the summer: either the file keeps it all year, or they mean nothing."""
        zones = self.raw.clocks.zones
        if not zones or self.said.standard_time or self.offsets is None or any(each.endswith(DAYLIGHT) for each in zones):
            return
        days = {start // DAY for start in starts}
        summer = sorted(day for day in days if self.offsets[day] != self.offsets.standard_of(day))
        if summer:
            because = f"they say {min(zones).upper()} also on {shown(summer[0] * DAY)[:10]}"
            ask(self.told, STANDARD_TIME, because, "yes` or `no", self.said.places.get("standard_time"))

    def _local(self, series: Series, starts: array[int], lengths: array[int], offsets: Offsets, *, ended: bool) -> LocalTimes:
        return LocalTimes(
            starts,
            lengths,
            ended,
            series.values,
            series.quality,
            series.tags,
            series.revisions,
            offsets,
            self.said.standard_time,
            bool(self.raw.hours),
            self.told,
            self.said.places.get("standard_time"),
        )

    def _unit(self, series: Series) -> Unit | None:
        said = UNITS.get(self.said.unit.casefold())
        if said is None and series.key.unit is None:
            ask(self.told, UNIT)
        if said is not None and series.key.unit not in (None, said):
            self.remarks.append(f"values were taken as {said.name}, as said; a heading names another unit")
        unit = said or series.key.unit
        if unit is not None:
            self.words.append(f"values in {unit.name}")
        return unit

    def _length(self, series: Series) -> int:
        """The usual length of an interval [s]; 0 where it must be asked for."""
        if self.raw.length:
            return self.raw.length
        if self.said.interval and not self.fixed:
            return self.said.interval
        return step_between(series, self)

    def _mode(self, series: Series, length: int) -> str:
        """Whether stamps are starts or ends."""
        raw, said = self.raw, self.said.stamps
        if self.fixed or series.ends:
            return START
        if said:
            if self.stamps not in ("", said):
                self.remarks.append(f"a stamp was taken as the {said} of its interval, as said; its heading says another")
            return said
        if self.stamps:
            return self.stamps
        if raw.clocks.ends_day or raw.hours.ends_day:
            return END
        if raw.hours.midnight:
            return START
        offsets = None if self.universal else self.offsets
        found = stamps_by_change(series.labels, length, offsets) if offsets is not None else ""
        if found and stamps_by_edges(series.labels, length) in ("", found):
            self.remarks.append(f"a stamp was taken as the {found} of its interval, by the hour that clocks skip or repeat")
            return found
        if not self._told_by_zone(series, length):
            ask(self.told, STAMPS)
        return ""

    def _told_by_zone(self, series: Series, length: int) -> bool:
        """Whether the clock may tell what stamps are as soon as the zone is said, which is asked for: by that of the example."""
        if self.universal or self.offsets is not None or self.said.time_zone:
            return False
        example = Offsets(ZoneInfo(ASKED[TIME_ZONE][1]), standard=False)
        found = stamps_by_change(series.labels, length, example)
        return bool(found) and stamps_by_edges(series.labels, length) in ("", found)

    def _superseded(self, series: Series, starts: array[int], dropped: set[int]) -> set[int]:
        """Leave out the readings of which the file has a later revision."""
        if not series.revisions:
            return dropped
        latest: dict[int, int] = {}
        for place, start in enumerate(starts):
            latest[start] = max(latest.get(start, 0), series.revisions[place])
        old = {place for place, start in enumerate(starts) if series.revisions[place] < latest[start]}
        if old:
            self.remarks.append(f"{len(old)} readings were replaced by later revisions")
        return dropped | old

    def _made(
        self,
        series: Series,
        unit: Unit,
        starts: array[int],
        lengths: array[int],
        extra: list[tuple[int, int]],
        dropped: set[int],
    ) -> Channel:
        key, usual = series.key, lengths[0]
        channel = Channel(
            self.said.meter or name_of(series), key.direction, starts=starts, lengths=lengths, quality=series.quality
        )
        factor = float(unit.energy(usual))
        if not unit.power or lengths.count(usual) == len(lengths):
            channel.energy = array("d", map(factor.__mul__, series.values))
        else:
            channel.energy = array("d", [value * unit.energy(length) for value, length in zip(series.values, lengths)])
        channel.declared_length = self.raw.length
        channel.step = factor / TENTH**series.decimals
        if BLANK_FLAG in channel.quality:
            channel.quality = channel.quality.replace(bytes([BLANK_FLAG]), bytes([self.raw.flags.blank]))
        for place, start in extra:
            channel.add(start, lengths[place], channel.energy[place], channel.quality[place])
        if dropped:
            _without(channel, dropped)
        return channel


def _without(channel: Channel, dropped: set[int]) -> None:
    kept = [place for place in range(len(channel.starts)) if place not in dropped]
    channel.starts = array("q", [channel.starts[place] for place in kept])
    channel.lengths = array("l", [channel.lengths[place] for place in kept])
    channel.energy = array("d", [channel.energy[place] for place in kept])
    channel.quality = bytearray(channel.quality[place] for place in kept)


def _usual_lengths(local: LocalTimes, lengths: array[int], length: int) -> None:
    """Where clocks change between start and end, the difference of the two is not the length."""
    changes = local.offsets.changes
    for place, start in enumerate(local.starts):
        change = changes.get(start // DAY)
        if change is not None and (lengths[place] - length) % DAY in (change.end - change.begin, DAY - change.end + change.begin):
            lengths[place] = length


def name_of(series: Series) -> str:
    """What the file calls the meter and the register of a series."""
    return f"{series.key.meter} {series.key.register}".strip()
