"""By which clock the times of a record are told, and how the stamps of its file differ from that."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import groupby, pairwise

from dwellcalc.meter.profile import Profile, day_starts
from dwellcalc.meter.record import STANDARD, UNIVERSAL
from dwellcalc.meter.tables.zones import Offsets

MINUTE, HOUR = 60, 3600
AN_HOUR = "an hour"
SHOWN = "%Y-%m-%d %H:%M"


@dataclass(frozen=True)
class Clocks:
    """The clock by which times are shown, beside that of the stamps.

    Attributes:
        profile: the record, in whose time zone times are shown.
        stamps: by which clock the file stamps: by standard time all year, in UTC, or by the clock on the wall.
    """

    profile: Profile
    stamps: str

    def shown(self, moment: int) -> str:
        """A moment by the clock on the wall."""
        return self.profile.local(moment).strftime(SHOWN)

    def in_file(self, moment: int) -> str:
        """A moment as the file stamps it, where it keeps standard time while the clock on the wall does not; else nothing."""
        ahead = self._ahead(moment)
        return (self.profile.local(moment) - timedelta(seconds=ahead)).strftime(SHOWN) if ahead else ""

    def _ahead(self, moment: int) -> int:
        """How far the clock on the wall is ahead of the stamps of a file that keeps standard time [s]; else 0."""
        if self.stamps != STANDARD:
            return 0
        local = self.profile.local(moment)
        offset = local.utcoffset() or timedelta()
        day = (local.date() - datetime.fromtimestamp(0, UTC).date()).days
        return int(offset.total_seconds()) - Offsets(self.profile.zone, standard=True)[day]

    @property
    def told(self) -> str:
        """By which clock times are shown, and how the stamps of the file differ, in sentences."""
        place = self.profile.zone.key
        if not self.profile.is_local:
            return "Times are in UTC, for no time zone is said."
        if self.stamps == UNIVERSAL:
            return (
                f"Times are by the clock on the wall in {place}; the stamps of the file are in UTC or bear their offset from it."
            )
        if self.stamps == STANDARD:
            return f"Times are by the clock on the wall in {place}. {self._standard()}"
        return f"Times are by the clock on the wall in {place}, as those of the file are."

    def _standard(self) -> str:
        """How the stamps of a file that keeps standard time all year differ from the clock on the wall."""
        days = day_starts(self.profile)
        edges = [(ahead, next(of_span)) for ahead, of_span in groupby(days[:-1], key=lambda day: self._ahead(day + 12 * HOUR))]
        spans = [(ahead, begin, end) for (ahead, begin), (_, end) in pairwise([*edges, (0, days[-1])]) if ahead]
        if not spans:
            return "The file keeps standard time all year, as the clock on the wall does there in the time of the record."
        local = self.profile.local
        when = " and ".join(f"from {local(begin).date()} until {local(end).date()}" for _, begin, end in spans)
        ahead = spans[0][0]
        earlier = AN_HOUR if ahead == HOUR else f"{ahead // MINUTE} minutes"
        return (
            f"The file keeps standard time all year, as the home file says of it: {when}, while clocks are put forward, its stamps "
            f"are {earlier} earlier than the times here."
        )
