"""Shapes of the load that no dwelling has, or none that is lived in: frozen readings, low days, lowest load at midday."""

from __future__ import annotations

from bisect import bisect_left
from itertools import pairwise
from statistics import median

from dwellcalc.meter.coverage import season_of
from dwellcalc.meter.figures import Figures, Terms
from dwellcalc.meter.profile import Profile, day_starts
from dwellcalc.meter.windows import Windows
from dwellcalc.units import percent_of, share

MIDDAY, NIGHT = (10, 16), (0, 5)  # hours of the clock in which generation and sleep show
HALF = 2


def note_shapes(found: Figures, profile: Profile, windows: Windows, terms: Terms) -> None:
    """Note frozen readings, vacant months and middays below the night."""
    _note_frozen(found, profile, terms)
    days = _days(profile)
    _note_vacant(found, profile, days, terms)
    if profile.is_local:
        _note_midday(found, profile, windows)


def _note_frozen(found: Figures, profile: Profile, terms: Terms) -> None:
    """Runs of equal readings, each large against the smallest step: load that changes does not repeat itself to the last digit."""
    least = terms.run_steps * profile.step
    longest, frozen, run = 0, 0, 0
    at = began = profile.begin
    before: float | None = None
    longest_at = (profile.begin, profile.begin)
    for start, length, energy in zip(profile.starts, profile.lengths, profile.energy, strict=True):
        same = energy == before and start == at and energy > 0 and energy >= least
        if not same:
            frozen += run if run >= terms.run else 0
            run, began = 1, start
        else:
            run += 1
        if run > longest and energy > 0 and energy >= least:
            longest, longest_at = run, (began, start + length)
        before, at = energy, start + length
    frozen += run if run >= terms.run else 0
    found.note("longest_run", float(longest), longest_at)
    found.note("frozen", percent_of(frozen, max(len(profile), 1)), longest_at)


def _days(profile: Profile) -> list[tuple[int, float]]:
    """Each day that values fill by more than half: when it begins [s], and what flowed [Wh], as of a whole day."""
    edges = day_starts(profile)
    found = []
    for begin, end in pairwise(edges):
        places = [
            at for at in range(bisect_left(profile.starts, begin), bisect_left(profile.starts, end)) if profile.is_covered(at)
        ]
        filled = sum(profile.lengths[at] for at in places)
        if filled * HALF > end - begin:
            found.append((begin, sum(profile.energy[at] for at in places) * (end - begin) / filled))
    return found


def _note_vacant(found: Figures, profile: Profile, days: list[tuple[int, float]], terms: Terms) -> None:
    usual = median(energy for _, energy in days) if days else 0.0
    low: dict[int, list[int]] = {}
    every: dict[int, list[int]] = {}
    for begin, energy in days:
        number = profile.local(begin).month
        every.setdefault(number, []).append(begin)
        if energy < share(usual, terms.low_day):
            low.setdefault(number, []).append(begin)
    vacant = [number for number, those in low.items() if len(those) > share(len(every[number]), terms.vacant_month)]
    moments = [(low[number][0], low[number][-1]) for number in vacant]
    found.note("vacant_months", float(len(vacant)), *moments)
    beside = set(vacant) & season_of(found.months)
    found.note("vacant_in_season", bool(beside), *((low[number][0], low[number][-1]) for number in beside))


def _note_midday(found: Figures, profile: Profile, windows: Windows) -> None:
    """The share of days whose lowest window at midday is below half of the lowest at night."""
    lowest: dict[tuple[int, int, int], list[float]] = {}
    for start, power in zip(windows.starts, windows.power, strict=True):
        local = profile.local(start)
        for place, (first, last) in enumerate((MIDDAY, NIGHT)):
            if first <= local.hour < last:
                both = lowest.setdefault((local.year, local.month, local.day), [float("inf")] * HALF)
                both[place] = min(both[place], power)
    below = [day for day, (midday, night) in lowest.items() if midday * HALF < night != float("inf")]
    found.note("midday_lows", percent_of(len(below), max(len(lowest), 1)))
