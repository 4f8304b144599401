"""Energy that a feed itself states for spans of time, in its usage summaries: a check of the readings."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.meter.feeds import espi_codes as codes
from dwellcalc.meter.feeds.espi_feed import (
    CURRENT_PERIOD,
    LARGEST,
    LAST_PERIOD,
    SUMMARY,
    WHOLE_NUMBER,
    Resource,
)
from dwellcalc.meter.feeds.espi_links import Links
from dwellcalc.meter.record import Said
from dwellcalc.problems import InputError

Sum = tuple[int, int, float]


def sums_of(links: Links, points: dict[int, str], said: Said) -> tuple[list[Sum], list[str]]:
    """Sums of energy as begin, end, energy [s, s, Wh], and remarks on what is left out.

    Args:
        links: of the feed.
        points: the names of the usage points whose readings are kept, by identity.
        said: what the user says; where there are several usage points, the meter that is meant.
    """
    sums: list[Sum] = []
    remarks: list[str] = []
    for summary in links.feed.resources[SUMMARY]:
        if _is_of(links, summary, points, said):
            sums += _sums(summary)
        else:
            remarks.append("sums of a usage summary are passed over, since it is not of the one meter that is meant")
    return list(dict.fromkeys(sums)), remarks


def _is_of(links: Links, summary: Resource, points: dict[int, str], said: Said) -> bool:
    if not links.points.resources:
        return True
    try:
        point = links.usage_point_of(summary)
    except InputError:
        return False
    if point is None or id(point) not in points:
        return False
    return len(points) == 1 or points[id(point)] == said.meter


def _sums(summary: Resource) -> Iterator[Sum]:
    begin, duration = _number(summary, "billingPeriod/start"), _number(summary, "billingPeriod/duration")
    if begin is None or duration is None:
        return
    end = begin + duration
    now = _number(summary, f"{CURRENT_PERIOD}/timeStamp") or _number(summary, "statusTimeStamp") or end
    # What is still running follows the billing period where it was read after its end, and is part of it otherwise.
    running = (end, now) if now > end else (begin, now)
    current = _energy(summary, CURRENT_PERIOD)
    if current is not None and running[0] < running[1]:
        yield (*running, current)
    last = _energy(summary, LAST_PERIOD)
    if last is not None and begin < end and (current is None or now > end):
        yield begin, end, last


def _energy(summary: Resource, path: str) -> float | None:
    value, unit = _number(summary, f"{path}/value"), _number(summary, f"{path}/uom")
    power = _number(summary, f"{path}/powerOfTenMultiplier") or 0
    if value is None or abs(value) > LARGEST or unit != codes.WATT_HOURS or power not in codes.MULTIPLIERS:
        return None
    return float(value * 10**power) if power >= 0 else value / 10**-power


def _number(summary: Resource, path: str) -> int | None:
    text = summary.fields.get(path, "")
    return int(text) if WHOLE_NUMBER.fullmatch(text) else None
