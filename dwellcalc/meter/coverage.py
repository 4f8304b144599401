"""How much of the time values fill: of the whole, of each month and day, between them the gaps; and what flowed in a span of time."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from itertools import pairwise
from math import isnan

from dwellcalc.meter.figures import Figures, Month
from dwellcalc.meter.profile import Profile, day_starts, gaps
from dwellcalc.meter.record import EDITED, NOT_VALIDATED
from dwellcalc.meter.windows import Windows
from dwellcalc.units import percent_of

HOUR = 3600
MONTHS = 12


def note_coverage(found: Figures, profile: Profile, windows: Windows, *, tells_quality: bool) -> None:
    """Note coverage, gaps, the months, and estimates where the file says which readings are some."""
    found.months = months_of(profile, windows)
    found.days = days_of(profile, windows)
    whole = profile.end - profile.begin
    found.note("coverage", percent_of(sum(month.covered for month in found.months), whole))
    least = min(found.months, key=lambda month: month.covered / month.expected)
    found.note("least_month", percent_of(least.covered, least.expected), *_spans_of(least, profile))
    missing = gaps(profile)
    found.gaps = [(*gap, (gap[1] - gap[0]) / HOUR) for gap in sorted(missing, key=lambda gap: gap[0] - gap[1])]
    longest = max(missing, key=lambda gap: gap[1] - gap[0], default=(0, 0))
    found.note("longest_gap", (longest[1] - longest[0]) / HOUR, *([longest] if missing else []))
    in_season = [gap for gap in missing if _touches(gap, season_of(found.months), profile)]
    longest = max(in_season, key=lambda gap: gap[1] - gap[0], default=(0, 0))
    found.note("season_gap", (longest[1] - longest[0]) / HOUR, *([longest] if in_season else []))
    if tells_quality or any(
        quality and not isnan(energy) for quality, energy in zip(profile.quality, profile.energy, strict=True)
    ):
        _note_quality(found, profile)


def _note_quality(found: Figures, profile: Profile) -> None:
    whole = sum(profile.lengths)
    estimated = [at for at, quality in enumerate(profile.quality) if quality > EDITED and not isnan(profile.energy[at])]
    raw = sum(
        length for length, quality in zip(profile.lengths, profile.quality, strict=True) if NOT_VALIDATED <= quality <= EDITED
    )
    found.note("not_validated", percent_of(raw, whole))
    share = percent_of(sum(profile.lengths[at] for at in estimated), whole)
    found.note("estimated", share, *(_interval(profile, at) for at in estimated))
    highest = max(estimated, key=profile.power, default=None)
    power = profile.power(highest) if highest is not None else 0.0
    found.note("highest_estimated", power, *([_interval(profile, highest)] if highest is not None else []))


def _interval(profile: Profile, position: int) -> tuple[int, int]:
    return profile.starts[position], profile.starts[position] + profile.lengths[position]


def season_of(months: list[Month]) -> set[int]:
    """The month of the maximum and those beside it, by their numbers: the season that the maximum belongs to."""
    known = [month for month in months if not isnan(month.maximum)]
    if not known:
        return set()
    peak = max(known, key=lambda month: month.maximum).number
    return {(peak + each - 1) % MONTHS + 1 for each in (-1, 0, 1)}


def _touches(gap: tuple[int, int], numbers: set[int], profile: Profile) -> bool:
    return profile.local(gap[0]).month in numbers or profile.local(gap[1] - 1).month in numbers


def _spans_of(month: Month, profile: Profile) -> list[tuple[int, int]]:
    """The days of a month within the profile."""
    days = [(day, after) for day, after in pairwise(day_starts(profile)) if profile.local(day).month == month.number]
    return [(max(profile.begin, days[0][0]), min(profile.end, days[-1][1]))] if days else []


def months_of(profile: Profile, windows: Windows) -> list[Month]:
    """The calendar months of a profile, in the order in which they begin in it."""
    edges = [max(profile.begin, day_starts(profile)[0])]
    edges += [day for day in day_starts(profile)[1:] if profile.local(day).day == 1 and day < profile.end]
    found: dict[int, Month] = {}
    for begin, end in zip(edges, [*edges[1:], profile.end], strict=True):
        local = profile.local(begin)
        name = f"{local.year}-{local.month:02}"
        month = found.setdefault(local.month, Month(local.month, name))
        if month.name != name:
            month.name = f"{month.name}, {name}"
        _add(month, profile, windows, (begin, end))
    return list(found.values())


def days_of(profile: Profile, windows: Windows) -> dict[str, float | None]:
    """The highest window of each day [W] by its date, by the clock on the wall; nothing where no window begins in it."""
    found: dict[str, float | None] = {}
    for begin, end in pairwise(day_starts(profile)):
        power = windows.power[bisect_left(windows.starts, begin) : bisect_left(windows.starts, end)]
        found[profile.local(begin).date().isoformat()] = max(power, default=None)
    return found


def _add(month: Month, profile: Profile, windows: Windows, span: tuple[int, int]) -> None:
    begin, end = span
    month.expected += end - begin
    for at in range(bisect_left(profile.starts, begin), bisect_left(profile.starts, end)):
        if profile.is_covered(at):
            month.covered += min(profile.lengths[at], end - profile.starts[at])
            month.energy += profile.energy[at]
    places = range(bisect_left(windows.starts, begin), bisect_left(windows.starts, end))
    best = max(places, key=lambda place: (windows.power[place], -place), default=None)
    if best is not None and (isnan(month.maximum) or windows.power[best] > month.maximum):
        month.maximum, month.at = windows.power[best], windows.starts[best]


def energy_between(profile: Profile, begin: int, end: int) -> float | None:
    """What flowed between two moments [Wh]; nothing where values do not fill that span wholly."""
    first, last = bisect_left(profile.starts, begin), bisect_right(profile.starts, end - 1)
    places = range(first, last)
    filled = sum(profile.lengths[at] for at in places if not isnan(profile.energy[at]))
    if begin < profile.begin or end > profile.end or filled != end - begin:
        return None
    return sum(profile.energy[at] for at in places)
