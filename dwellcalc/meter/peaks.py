"""The maximum of a record: by fixed windows, by any window, what it stands beside, and what it rests on."""

from __future__ import annotations

from datetime import timedelta
from math import isnan

from dwellcalc.meter.figures import Figures
from dwellcalc.meter.profile import Profile, utc
from dwellcalc.meter.windows import Windows, sliding_bound, sliding_maximum
from dwellcalc.units import percent_of

HOUR, SHORT_RUN = 3600, 2
HOURS_OF_YEAR = 8760


def note_peaks(found: Figures, profile: Profile, windows: Windows, window: int) -> None:
    """Note the maximum by windows of a length [s], its proven bound, and what may speak against it."""
    highest = windows.highest(3)
    if not highest:
        return
    at = (windows.starts[highest[0]], windows.starts[highest[0]] + windows.length)
    found.note("maximum", windows.power[highest[0]], at)
    found.note("sliding_maximum", sliding_maximum(profile, window))
    found.note("sliding_bound", sliding_bound(profile, window))
    third = windows.power[highest[-1]]
    if third > 0:
        spans = [(windows.starts[place], windows.starts[place] + windows.length) for place in highest]
        found.note("over_third", windows.power[highest[0]] / third, *spans)
    found.note("from_outage", _hours_from_outage(profile, at), at)
    if profile.is_local:
        found.note("in_repeated_hour", _is_in_repeated_hour(profile, at), at)
    _note_hours(found, profile, windows.power[highest[0]])


def _note_hours(found: Figures, profile: Profile, maximum: float) -> None:
    covered = [at for at in range(len(profile)) if profile.is_covered(at)]
    hours = sum(profile.lengths[at] for at in covered) / HOUR
    energy = sum(profile.energy[at] for at in covered)
    if maximum > 0 and hours > 0:
        found.note("equivalent_hours", energy / hours * HOURS_OF_YEAR / maximum)
    if maximum > 0:
        found.note("step", percent_of(profile.step * 3600 / profile.interval, maximum))


def _hours_from_outage(profile: Profile, at: tuple[int, int]) -> float:
    """How long before or after the maximum the nearest run of zero or missing intervals ends or begins [h]."""
    nearest = float(profile.end - profile.begin)
    for begin, end in _outages(profile):
        nearest = min(nearest, float(max(0, at[0] - end, begin - at[1])))
    return nearest / HOUR


def _outages(profile: Profile) -> list[tuple[int, int]]:
    """The spans in which nothing flowed, or no value is there, over at least two intervals."""
    found = []
    began, before = profile.begin, profile.begin
    for start, length, energy in zip(profile.starts, profile.lengths, profile.energy, strict=True):
        if energy != 0 and not isnan(energy):
            if start - began >= SHORT_RUN * profile.interval:
                found.append((began, start))
            began = start + length
        before = start + length
    if profile.end - began >= SHORT_RUN * profile.interval:
        found.append((began, before))
    return found


def _is_in_repeated_hour(profile: Profile, at: tuple[int, int]) -> bool:
    """Whether the maximum lies within an hour of the moment at which clocks are put back."""
    step = timedelta(hours=1)
    before, after = ((utc(at[0]) + each * step).astimezone(profile.zone).utcoffset() for each in (-1, 1))
    return before is not None and after is not None and before > after
