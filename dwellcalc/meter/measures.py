"""What is measured in a record: plain figures, by glossary name. They say nothing of what is enough."""

from __future__ import annotations

from datetime import date, datetime

from dwellcalc.meter.bill_sums import bill_sums
from dwellcalc.meter.coverage import energy_between, note_coverage
from dwellcalc.meter.figures import Figures, Stated, Terms
from dwellcalc.meter.peaks import note_peaks
from dwellcalc.meter.profile import SECONDS_OF_DAY, Profile, before
from dwellcalc.meter.record import DELIVERED, RECEIVED, TOTAL, Channel, Readings
from dwellcalc.meter.shapes import note_shapes
from dwellcalc.meter.windows import fixed_windows
from dwellcalc.units import percent_of

TEN = 10


def figures_of(readings: Readings, profile: Profile, channel: Channel, stated: Stated, terms: Terms, today: date) -> Figures:
    """The figures of the last year of a record.

    Args:
        readings: the whole file, for what else flows and what the file sums itself.
        profile: the last year of the channel that serves.
        channel: that channel.
        stated: what the user says.
        terms: what the rules measure by.
        today: the date of the assessment.
    """
    found = Figures()
    window = round(terms.window * 60)
    windows = fixed_windows(profile, window)
    _spans(found, profile, today)
    _direction(found, readings, channel, profile)
    note_coverage(found, profile, windows, tells_quality=readings.tells_quality)
    note_peaks(found, profile, windows, window)
    _earlier(found, channel, profile, window)
    note_shapes(found, profile, windows, terms)
    _sums(found, profile, readings, stated)
    _changes(found, profile, stated)
    found.highest = [(windows.starts[place], windows.power[place]) for place in windows.highest(TEN)]
    found.window = windows.length
    return found


def _earlier(found: Figures, channel: Channel, profile: Profile, window: int) -> None:
    """The highest window of what stands before the last year."""
    earlier = before(channel, profile)
    if earlier is None:
        return
    windows = fixed_windows(earlier, window)
    for place in windows.highest(1):
        at = windows.starts[place]
        found.note("earlier_maximum", windows.power[place], (at, at + windows.length))


def _spans(found: Figures, profile: Profile, today: date) -> None:
    whole = (profile.begin, profile.end)
    found.note("span", (profile.end - profile.begin) / SECONDS_OF_DAY, whole)
    found.note("year_length", profile.year / SECONDS_OF_DAY)
    last = profile.local(profile.end).date()
    found.note("age", float((today - last).days), (profile.end, profile.end))
    found.note("interval", profile.interval / 60)


def _direction(found: Figures, readings: Readings, channel: Channel, profile: Profile) -> None:
    exports = [
        (start, start + length)
        for each in readings.channels
        if each.direction == RECEIVED
        for start, length, energy in zip(each.starts, each.lengths, each.energy, strict=True)
        if energy > 0
    ]
    exports += [
        (start, start + length)
        for start, length, energy in zip(profile.starts, profile.lengths, profile.energy, strict=True)
        if energy < 0
    ]
    found.note("exported", bool(exports), *exports)
    found.note("direction_not_said", channel.direction != DELIVERED)
    found.note("both_directions", channel.direction == TOTAL)
    found.note("one_line_only", channel.one_line)
    found.note("one_load_only", channel.one_load)
    found.note("generation_told", any(each.generation for each in readings.channels))


def _sums(found: Figures, profile: Profile, readings: Readings, stated: Stated) -> None:
    """How far bills, and sums of the file itself, are from the sums of the intervals; the worst of each that can be compared."""
    bills = [(each.apart, *each.span) for each in bill_sums(stated.bills, profile) if not each.is_copy]
    sums = [
        (percent_of(abs(own - energy), energy), begin, end)
        for begin, end, energy in readings.summed
        for own in [energy_between(profile, begin, end)]
        if own is not None and energy > 0
    ]
    for name, compared in (("bills_difference", bills), ("sums_difference", sums)):
        if compared:
            worst, begin, end = max(compared)
            found.note(name, worst, (begin, end))


def _changes(found: Figures, profile: Profile, stated: Stated) -> None:
    if stated.changes is None:
        return
    within = [
        moment
        for change in stated.changes
        if change.adds
        for moment in (int(datetime(change.day.year, change.day.month, change.day.day, tzinfo=profile.zone).timestamp()),)
        if profile.begin < moment
    ]
    found.note("changed_within", bool(within), *((moment, moment) for moment in within))
