"""The time zone that a feed tells, by its offset from UTC and its rules of daylight saving."""

from __future__ import annotations

import re
from zoneinfo import ZoneInfo

from dwellcalc.meter.feeds import espi_codes as codes
from dwellcalc.meter.feeds.espi_feed import LOCAL_TIME, Feed, Resource
from dwellcalc.meter.record import Said
from dwellcalc.problems import fail, message

HOUR, MINUTE = 3600, 60  # [s]
MOST_HOURS = 12  # of a fixed offset that the time-zone database has on both sides
OFFSET = re.compile(r"[-+]?[0-9]{1,6}")
RULE = re.compile(r"[A-Fa-f0-9]{8}")
OPEN = "say `time zone` under `meter` to count them in local time"

UNKNOWN_ZONE = message(
    "espi_unknown_zone",
    'there is no time zone "{zone}" in the time-zone database here',
    "such as America/Denver or America/New_York",
)


def zone_of(feed: Feed, said: Said) -> tuple[ZoneInfo, str]:
    """The zone in which days and months are counted, and a remark where the user should know.

    What the user says goes first. An offset with the rules of the United States is a zone of theirs, an offset of whole
    hours without daylight saving a fixed one. Otherwise UTC: nothing is guessed.

    Raises:
        InputError: the zone that the user says is none.
    """
    if said.time_zone:
        return _known(said.time_zone, said), ""
    told = {tuple(sorted(each.fields.items())): each for each in feed.resources[LOCAL_TIME]}
    if not told:
        return _known("UTC", said), f"the file does not say its time zone: days and months are counted in UTC; {OPEN}"
    if len(told) > 1:
        return _known("UTC", said), f"the file tells several time zones: days and months are counted in UTC; {OPEN}"
    return _told(next(iter(told.values())), said)


def _told(local: Resource, said: Said) -> tuple[ZoneInfo, str]:
    text = local.fields.get("tzOffset", "")
    offset = int(text) if OFFSET.fullmatch(text) else None
    if offset is None:
        return _known("UTC", said), f"the file does not say its time zone: days and months are counted in UTC; {OPEN}"
    rules = (_rule(local, "dstStartRule"), _rule(local, "dstEndRule"))
    without = local.fields.get("dstOffset", "0").strip("0") == "" or codes.NO_RULE in rules
    shown = shown_offset(offset)
    if without:
        hours, rest = divmod(offset, HOUR)
        if rest == 0 and abs(hours) <= MOST_HOURS:
            # The names in the database count westward.
            return _known(f"Etc/GMT{-hours:+d}" if hours else "UTC", said), f"time zone told by the file: {shown} all year"
        return _known("UTC", said), f"the file tells a time zone of {shown}: days and months are counted in UTC; {OPEN}"
    if rules == codes.UNITED_STATES_RULES and offset in codes.UNITED_STATES_ZONES:
        zone = codes.UNITED_STATES_ZONES[offset]
        return _known(zone, said), f"time zone told by the file: {shown} with the daylight saving of {zone}"
    saving = " to ".join(rule_in_words(rule) for rule in rules if rule is not None) or "rules that it does not tell"
    return (
        _known("UTC", said),
        f"the file tells a time zone of {shown} with daylight saving, {saving}: days and months are counted in UTC; {OPEN}",
    )


def _rule(local: Resource, path: str) -> int | None:
    text = local.fields.get(path, "")
    return int(text, 16) if RULE.fullmatch(text) else None


def rule_in_words(rule: int) -> str:
    """A rule of 32 bits: month 4, operator 3, day of the month 5, day of the week 3, hour 5, seconds 12."""
    if rule == codes.NO_RULE:
        return "never"
    month, operator, day, weekday, hour = rule >> 28, rule >> 25 & 7, rule >> 20 & 31, rule >> 17 & 7, rule >> 12 & 31
    when = f"{codes.MONTHS[month]} {day}" if month < len(codes.MONTHS) else f"month {month}, day {day}"
    if operator == 1:
        when = f"{codes.WEEKDAYS[weekday]} on or after {when}"
    elif operator > 1:
        when = f"{codes.ORDINALS[operator]} {codes.WEEKDAYS[weekday]} of {when.split()[0]}"
    return f"{when} at {hour:02d}:{(rule & 0xFFF) // MINUTE:02d}"


def shown_offset(offset: int) -> str:
    """An offset from UTC [s], such as ``UTC-05:00``."""
    hours, seconds = divmod(abs(offset), HOUR)
    return f"UTC{'-' if offset < 0 else '+'}{hours:02d}:{seconds // MINUTE:02d}"


def _known(zone: str, said: Said) -> ZoneInfo:
    try:
        return ZoneInfo(zone)
    except (KeyError, ValueError, OSError):
        fail(UNKNOWN_ZONE, said.places.get("time_zone"), zone=zone)
