"""Dates and times of day as tables write them. Every text is understood once; a year of rows has few different ones.

Dates are told as the seconds from 1970-01-01 to their midnight, times of day as seconds after midnight. Where day and month can
each be first, the month is taken first until the whole file has been seen; ``swapped`` puts it right.
"""

from __future__ import annotations

import re
from datetime import date

DAY, HOUR, MINUTE = 86_400, 3_600, 60
EPOCH = date(1970, 1, 1).toordinal()
MOST_KEPT = 100_000
LONGEST_STAMP = 80
MONTHS_OF_YEAR = 12
# Tags of a reading: its hour of a repeated one; hours counted on through the day, and past the 24th; the midnight that ends its day.
FIRST, SECOND, ELAPSED, LATE, NEXT = 1, 2, 3, 4, 5
DAY_FIRST, MONTH_FIRST = "day first", "month first"
YEARS = range(1970, 2100)

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_DAYS_OF_WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_WEEKDAY = rf"(?:(?:{'|'.join(_DAYS_OF_WEEK)})[a-z]*\.?,? +)?"
_YEAR_FIRST = re.compile(r"(?P<year>\d{4})(?P<mark>[-/.]?)(?P<month>\d{1,2})(?P=mark)(?P<day>\d{1,2})\Z")
_PAIR = re.compile(r"(?P<one>\d{1,2})(?P<mark>[-/.])(?P<two>\d{1,2})(?P=mark)(?P<year>\d{4}|\d\d)\Z")
_DAY_NAMED = re.compile(r"(?P<day>\d{1,2})[-/. ]?(?P<month>[a-z]{3,9})\.?,?[-/. ]?(?P<year>\d{4}|\d\d)\Z")
_MONTH_NAMED = re.compile(r"(?P<month>[a-z]{3,9})\.?[- ](?P<day>\d{1,2}),?[- ](?P<year>\d{4})\Z")
_SPLIT = re.compile(
    rf"{_WEEKDAY}(?P<date>\d{{4}}[-/.]\d{{1,2}}[-/.]\d{{1,2}}|\d{{1,2}}[-/.]\d{{1,2}}[-/.](?:\d{{4}}|\d\d)(?!\d)|\d{{8}}"
    r"|\d{1,2}[-/. ]?[a-z]{3,9}\.?,?[-/. ]?(?:\d{4}|\d\d(?!\d))|[a-z]{3,9}\.?[- ]\d{1,2},?[- ]\d{4})(?P<clock>.*)\Z",
    re.IGNORECASE | re.DOTALL,
)
_CLOCK = re.compile(
    r"[t, ]*(?P<hour>\d{1,2})(?P<tag>[ab])?:(?P<minute>\d\d)(?::(?P<second>\d\d)(?:[.,]\d{1,9})?)?(?P<later>[ab])?"
    r" ?(?P<half>[ap])?\.?(?(half)m?\.?) ?(?P<offset>z|utc|gmt|[-+]\d\d(?::?\d\d)?)?(?P<zone>[a-z]{1,2}[sd]t)?\Z"
)
_HOURS = re.compile(r"(?:he|hour|hr|h)?[ _]?(?P<hour>\d{1,2})(?P<tag>[ab])?(?: ?(?P<half>[ap])\.?m\.?)?\Z")
_COMPACT = re.compile(r"[t ]*(?P<digits>\d{1,4}|\d{6})\Z")
_OFFSET = re.compile(r"(?:utc|gmt)?(?P<sign>[-+])?(?P<hour>\d{1,2})(?::?(?P<minute>\d\d))?\Z")
_PERIOD = re.compile(
    r"(?P<start>.*\d.*?)(?: +(?:to|until|-|–|—) +| ?[–—] ?|(?<=[\dZz])/(?=\d{4}-)|(?<=\d) ?- ?(?=\d{1,2}:\d\d\b))(?P<end>.*:\d\d.*)\Z",
    re.DOTALL,
)
_TAGS = {
    "a": FIRST,
    "b": SECOND,
    "d": FIRST,
    "s": SECOND,
}  # of a repeated hour the first is in daylight time, the second in standard time


def _midnight(year: str, month: str | int, day: str | int) -> int:
    number = int(year) + (0 if len(year) > 2 else 2_000)
    if number not in YEARS:
        raise ValueError(year)
    return (date(number, int(month), int(day)).toordinal() - EPOCH) * DAY


def swapped(label: int, known: dict[int, int]) -> int:
    """A stamp whose day and month change places where both could be either; ``known`` keeps the days that were asked for."""
    number, rest = divmod(label, DAY)
    found = known.get(number)
    if found is None:
        day = date.fromordinal(number + EPOCH)
        if day.day <= MONTHS_OF_YEAR:
            day = date(day.year, day.day, day.month)
        found = known[number] = (day.toordinal() - EPOCH) * DAY
    return found + rest


class Days(dict[str, int]):
    """The midnight of each text of a date [s since 1970-01-01, local].

    Attributes:
        day_first: a date whose first number can be no month; empty where none was met.
        month_first: a date whose second number can be no month.
        either: how many different dates could be read both ways.
        short_years, before_short: years written in two digits, and what stands first in their dates.
    """

    def __init__(self) -> None:
        super().__init__()
        self.day_first = self.month_first = ""
        self.either = 0
        self.short_years: set[str] = set()
        self.before_short: set[str] = set()

    def __missing__(self, text: str) -> int:
        found = self.read(text.strip().lower())
        if len(self) < MOST_KEPT:
            self[text] = found
        return found

    def read(self, text: str) -> int:
        """The midnight of a date.

        Raises:
            ValueError: it is no date.
        """
        match = _YEAR_FIRST.match(text)
        if match is not None and (match["mark"] or len(match[0]) == len("20250101")):
            return _midnight(match["year"], match["month"], match["day"])
        match = _PAIR.match(text)
        if match is not None:
            if len(match["year"]) == len("25"):
                self.short_years.add(match["year"])
                self.before_short.add(match["one"])
            return self._pair(text, match["one"], match["two"], match["year"])
        match = _DAY_NAMED.match(text) or _MONTH_NAMED.match(text)
        if match is None or match["month"][:3] not in _MONTHS:
            raise ValueError(text)
        return _midnight(match["year"], _MONTHS.index(match["month"][:3]) + 1, match["day"])

    @property
    def year_first(self) -> bool:
        """Whether what was taken as years of two digits rather are days: many of them after one and the same number."""
        return len(self.short_years) > len(self.before_short) + 2

    def _pair(self, text: str, one: str, two: str, year: str) -> int:
        if int(one) > MONTHS_OF_YEAR:
            found = _midnight(year, two, one)
            self.day_first = self.day_first or text
            return found
        found = _midnight(year, one, two)
        if int(two) > MONTHS_OF_YEAR:
            self.month_first = self.month_first or text
        elif int(one) != int(two):
            self.either += 1
        return found


class Clocks(dict[str, int]):
    """The seconds after midnight of each text of a time of day; of one with an offset, in UTC.

    Attributes:
        bare_hours: whether a number alone counts hours, and not hours and minutes.
        tags: which hour of a repeated one a text names.
        zones: letters of daylight and standard time that texts bear (mdt, mst).
        ends_day: whether a text was met that only the end of an interval bears (24:00).
        midnight: whether a bare hour 0 was met.
        with_offset, without_offset: a text of either form; empty where none was met.
    """

    def __init__(self, *, bare_hours: bool = False) -> None:
        super().__init__()
        self.bare_hours = bare_hours
        self.tags: dict[str, int] = {}
        self.zones: set[str] = set()
        self.ends_day = self.midnight = False
        self.with_offset = self.without_offset = ""

    def __missing__(self, text: str) -> int:
        found = self.read(text, text.strip().lower())
        if len(self) < MOST_KEPT:
            self[text] = found
        return found

    def read(self, key: str, text: str) -> int:
        """The seconds of a time of day; ``key`` is how it is asked for.

        Raises:
            ValueError: it is no time of day.
        """
        if not text:
            self.without_offset = self.without_offset or "00:00"
            return 0
        match = _CLOCK.match(text) or (_HOURS.match(text) if self.bare_hours or text[-1] in "m." else None)
        if match is None:
            return self._compact(text)
        parts = match.groupdict()
        hour = self._hour(int(parts["hour"]), parts["half"])
        seconds = hour * HOUR + _below(parts.get("minute"), MINUTE) * MINUTE + _below(parts.get("second"), MINUTE)
        if seconds > (DAY + HOUR if self.bare_hours else DAY):
            raise ValueError(text)
        tag = parts.get("tag") or parts.get("later") or (parts.get("zone") or "")[-2:-1]
        self.zones |= {parts["zone"]} if parts.get("zone") else set()
        if tag:
            self.tags[key] = _TAGS[tag]
        elif seconds >= DAY:
            self.tags[key] = LATE if seconds > DAY else NEXT
        self.ends_day = self.ends_day or seconds >= DAY
        self.midnight = self.midnight or seconds == 0
        return seconds - self._offset(parts.get("offset"), text)

    def _hour(self, hour: int, half: str | None) -> int:
        if half is None:
            return hour
        if not 1 <= hour <= MONTHS_OF_YEAR:
            raise ValueError(hour)
        return hour % MONTHS_OF_YEAR + (MONTHS_OF_YEAR if half == "p" else 0)

    def _offset(self, text: str | None, whole: str) -> int:
        if text is None:
            self.without_offset = self.without_offset or whole
            return 0
        self.with_offset = self.with_offset or whole
        return 0 if text[0].isalpha() else offset_of(text)

    def _compact(self, text: str) -> int:
        match = _COMPACT.match(text)
        if match is None:
            raise ValueError(text)
        digits = match["digits"].zfill(4)
        return self.read(text, ":".join(digits[at : at + 2] for at in range(0, len(digits), 2)))


class Numbered(Clocks):
    """Intervals by their number in the day, which counts on where clocks change: when each begins [s after midnight].

    Args:
        length: of an interval [s].
        first: the number of the first of a day.
    """

    def __init__(self, length: int, first: int) -> None:
        super().__init__(bare_hours=True)
        self.length, self.first = length, first

    def read(self, key: str, text: str) -> int:
        """When the interval with a number begins [s after midnight].

        Raises:
            ValueError: it is no number, or one that no day has.
        """
        seconds = (int(text) - self.first) * self.length
        if not text.isdecimal() or not 0 <= seconds < DAY + HOUR:
            raise ValueError(text)
        if seconds >= DAY:
            self.tags[key] = LATE
        return seconds


def _below(text: str | None, limit: int) -> int:
    number = int(text or 0)
    if number >= limit:
        raise ValueError(text)
    return number


def offset_of(text: str) -> int:
    """How much later than UTC a clock with this offset shows [s].

    Raises:
        ValueError: it is no offset.
    """
    match = _OFFSET.match(text.strip().lower())
    if match is None:
        raise ValueError(text)
    seconds = int(match["hour"]) * HOUR + _below(match["minute"], MINUTE) * MINUTE
    if seconds > DAY:
        raise ValueError(text)
    return -seconds if match["sign"] == "-" else seconds


def begins_like_date(text: str) -> bool:
    """Whether a text begins as a date would: with a number, a month or a day of the week."""
    return text[:1].isdigit() or text[:3].lower() in (*_MONTHS, *_DAYS_OF_WEEK)


def divided(text: str) -> tuple[str, str]:
    """A stamp as its date and its time of day; the second is empty where a date stands alone.

    Raises:
        ValueError: it does not begin with a date.
    """
    match = _SPLIT.match(text) if len(text) <= LONGEST_STAMP else None
    if match is None:
        raise ValueError(text)
    return match["date"], match["clock"]


def two_ends(text: str) -> tuple[str, str]:
    """The start and the end that one text names.

    Raises:
        ValueError: it does not name two.
    """
    match = _PERIOD.match(text) if len(text) <= LONGEST_STAMP else None
    if match is None:
        raise ValueError(text)
    return match["start"].strip(), match["end"].strip()


def kind_of(text: str) -> str:
    """What a cell looks like: ``stamp``, ``date``, ``clock``, ``period``, or nothing of these."""
    if len(text) > LONGEST_STAMP:
        return ""
    try:
        day, clock = divided(text)
        Days()[day]
        if not clock.strip():
            return "date"
        Clocks()[clock]
        return "stamp"
    except ValueError:
        pass
    try:
        start, _ = two_ends(text)
        return "period" if kind_of(start) in ("stamp", "clock") else ""
    except ValueError:
        pass
    try:
        Clocks(bare_hours=True)[text]
        return "clock"
    except ValueError:
        return "clock" if _COMPACT.match(text.lower()) else ""
