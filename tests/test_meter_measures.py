"""What is measured in a record: against years of which all is known, against another library, and by hand."""

from __future__ import annotations

import math
import random
import re
from array import array
from dataclasses import replace
from datetime import date, datetime
from functools import cache
from typing import Any
from zoneinfo import ZoneInfo

import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from meter_years import Year, year

from dwellcalc.meter.bill_sums import bill_remarks
from dwellcalc.meter.cleaned import cleaned
from dwellcalc.meter.figures import Bill, Change, Figures, Stated, Terms
from dwellcalc.meter.measures import figures_of
from dwellcalc.meter.profile import Profile, profile_of, year_earlier
from dwellcalc.meter.record import DELIVERED, ESTIMATED, RECEIVED, Channel, Readings
from dwellcalc.meter.windows import fixed_windows, sliding_bound, sliding_maximum

TERMS = Terms(window=15.0, run=4.0, run_steps=50.0, low_day=35.0, vacant_month=50.0, bills_apart=1.0, closer_by_other_days=4.0)
TODAY = date(2026, 10, 15)
DENVER = ZoneInfo("America/Denver")


@cache
def whole_year() -> Year:
    return year()


def channel_of(record: Year) -> Channel:
    made = Channel(direction=DELIVERED, step=1.0)
    made.starts = array("q", record.starts)
    made.lengths = array("l", [record.length] * len(record.starts))
    made.energy = array("d", [1000 * each for each in record.energy])
    made.quality = bytearray(len(record.starts))
    return made


def measured(
    channel: Channel, stated: Stated | None = None, *, zone: ZoneInfo = DENVER, others: tuple[Channel, ...] = ()
) -> Figures:
    made, _ = cleaned(channel)
    readings = Readings("year", [], zone, [channel, *others])
    return figures_of(readings, profile_of(made, zone), made, stated or Stated(changes=()), TERMS, TODAY)


def series(record: Year) -> Any:
    """The same record as another library holds it [kW]."""
    index = pd.to_datetime(record.starts, unit="s", utc=True).tz_convert(str(record.zone))
    return pd.Series([each * 3600 / record.length for each in record.energy], index=index)


# --- against another library


@pytest.mark.slow
@pytest.mark.parametrize("length", [300, 900, 1800])
@pytest.mark.parametrize("zone", ["America/Denver", "America/Phoenix", "Europe/Berlin"])
def test_maximum_and_months_as_another_library_has_them(length: int, zone: str) -> None:
    """pandas: the mean of each quarter of an hour, the highest of all and of each month, the energy of each month."""
    record = year(zone=zone, length=length)
    found = measured(channel_of(record), zone=record.zone)
    plain = series(record)
    windows = plain.resample("15min").mean() if length < 900 else plain
    assert found.values["maximum"] == pytest.approx(windows.max() * 1000)
    assert found.highest[0][0] == int(windows.idxmax().timestamp())
    ten = windows.sort_values(ascending=False).iloc[:10]
    assert [power for _, power in found.highest] == pytest.approx([1000 * each for each in ten])
    by_month = windows.groupby([windows.index.year, windows.index.month]).max()
    energy = plain.groupby([plain.index.year, plain.index.month]).sum() * length / 3600
    assert [month.name for month in found.months] == [f"{each[0]}-{each[1]:02}" for each in by_month.index]
    assert [month.maximum for month in found.months] == pytest.approx([1000 * each for each in by_month])
    assert [month.energy for month in found.months] == pytest.approx([1000 * each for each in energy])


@pytest.mark.parametrize("length", [60, 300, 900])
def test_sliding_windows_as_another_library_has_them(length: int) -> None:
    """pandas: the rolling mean of as many intervals as a quarter of an hour has, and of one more for the bound."""
    record = year("2026-01-01", "2026-02-01", length=length)
    profile = profile_of(channel_of(record), DENVER)
    plain, count = series(record), 900 // length
    assert sliding_maximum(profile, 900) == pytest.approx(plain.rolling(count).mean().max() * 1000)
    assert sliding_bound(profile, 900) == pytest.approx(plain.rolling(count + 1).sum().max() * 1000 * length / 900)


# --- truths of windows


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(0, 900), min_size=40, max_size=120), st.integers(1, 14))
def test_no_window_exceeds_the_bound_whenever_it_begins(energies: list[int], minutes: int) -> None:
    """Minute data is the truth; what is recorded are sums of it over longer intervals."""
    wide = [sum(energies[at : at + minutes]) for at in range(0, len(energies) - minutes + 1, minutes)]
    channel = Channel(direction=DELIVERED, step=1.0)
    for at, energy in enumerate(wide):
        channel.add(at * minutes * 60, minutes * 60, float(energy))
    if len(wide) * minutes <= 15:
        return
    profile = profile_of(channel, ZoneInfo("UTC"))
    told = energies[: len(wide) * minutes]
    highest = max(sum(told[at : at + 15]) for at in range(len(told) - 14)) * 4
    assert highest <= sliding_bound(profile, 900) + 1e-9
    windows = fixed_windows(profile, 900)
    assert all(power <= highest + 1e-9 for power in windows.power)


@pytest.mark.parametrize("hours", [1, 2])
def test_longer_intervals_hide_at_most_their_whole_energy(hours: int) -> None:
    """All of an hour's 6 kWh in a quarter of it is 24 kW: four times its average; over two neighbours, their sum."""
    channel = Channel(direction=DELIVERED, step=1.0)
    for at, energy in enumerate((2000.0, 6000.0, 5000.0, 1000.0)):
        channel.add(at * 3600 * hours, 3600 * hours, energy)
    profile = profile_of(channel, ZoneInfo("UTC"))
    assert sliding_bound(profile, 900) == pytest.approx((6000 + 5000) * 4)
    assert fixed_windows(profile, 900).power == array("d", [each / hours for each in (2000.0, 6000.0, 5000.0, 1000.0)])
    assert math.isnan(sliding_maximum(profile, 900))


def test_a_window_with_a_gap_is_none() -> None:
    channel = Channel(direction=DELIVERED)
    for at in (0, 300, 900, 1200, 1500):
        channel.add(at, 300, 100.0)
    assert list(fixed_windows(profile_of(channel, ZoneInfo("UTC")), 900).starts) == [900]


def five_minutes(*energies: float | None) -> Profile:
    """Intervals of 5 min next to one another; where nothing stands, the row is missing."""
    channel = Channel(direction=DELIVERED, step=1.0)
    for at, energy in enumerate(energies):
        if energy is not None:
            channel.add(at * 300, 300, energy)
    return profile_of(channel, ZoneInfo("UTC"))


def test_intervals_on_both_sides_of_a_gap_are_not_next_to_one_another() -> None:
    """The three highest, 900, 900 and 100 Wh, have 10 min between them; those that touch hold 1,100 Wh: 4,400 W of 15 min."""
    profile = five_minutes(100, 900, None, None, 900, 100, 100)
    assert sliding_maximum(profile, 900) == pytest.approx(1100 * 4)
    assert sliding_bound(profile, 900) == pytest.approx(1100 * 4)


@pytest.mark.parametrize("energies", [(100, 900, None, 100, 100, 100, 100), (100, 100, 100, 100, None, 900, 100)])
def test_the_bound_counts_what_stands_beside_a_gap(energies: tuple[float | None, ...]) -> None:
    """A window may begin or end in the gap: two intervals alone beside one, 1,000 Wh, are more than any four together."""
    assert sliding_bound(five_minutes(*energies), 900) == pytest.approx(1000 * 4)


# --- order, splitting, stamping


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 2**32), st.integers(1, 6))
def test_order_repetition_and_chunks_leave_the_figures(seed: int, chunks: int) -> None:
    record = year("2026-01-01", "2026-01-20")
    plain = channel_of(record)
    chance = random.Random(seed)
    order = list(range(len(plain)))
    pieces = [order[at::chunks] for at in range(chunks)]
    chance.shuffle(pieces)
    mixed = Channel(direction=DELIVERED, step=1.0)
    for at in (at for piece in pieces for at in piece):
        for _ in range(1 + (chance.random() < 0.02)):
            mixed.add(plain.starts[at], plain.lengths[at], plain.energy[at], plain.quality[at])
    first, second = measured(plain), measured(mixed)
    assert (first.values, first.highest) == (second.values, second.highest)
    assert first.months == second.months


# --- the year


def test_a_year_and_a_day_less() -> None:
    record = whole_year()
    found = measured(channel_of(record)).values
    assert (found["span"], found["year_length"], found["coverage"], found["least_month"]) == (365.0, 365.0, 100.0, 100.0)
    assert found["age"] == 14.0  # 1 to 15 October
    assert found["interval"] == 15.0
    shorter = replace(record, starts=record.starts[:-96], energy=record.energy[:-96])
    assert measured(channel_of(shorter)).values["span"] == 364.0


def test_only_the_last_year_counts() -> None:
    """Of two years the last: a higher maximum before it is not seen."""
    record = year("2024-10-01", "2026-10-01")
    record.energy[1000] = 9.0
    found = measured(channel_of(record))
    assert (found.values["span"], found.values["maximum"]) == (365.0, pytest.approx(max(record.energy[-365 * 96 :]) * 4000))
    assert found.values["earlier_maximum"] == pytest.approx(36_000.0)
    assert found.moments["earlier_maximum"] == [(record.starts[1000], record.starts[1001])]
    assert len(found.months) == 12
    assert "earlier_maximum" not in measured(channel_of(whole_year())).values


@pytest.mark.parametrize(
    ("end", "begin"), [("2024-03-01", "2023-03-01"), ("2024-02-29", "2023-02-28"), ("2025-02-28", "2024-02-28")]
)
def test_a_year_by_the_clock_on_the_wall(end: str, begin: str) -> None:
    moment = int(datetime.fromisoformat(end).replace(tzinfo=DENVER).timestamp())
    assert datetime.fromtimestamp(year_earlier(moment, DENVER), DENVER).date() == date.fromisoformat(begin)


def test_a_leap_year_has_366_days() -> None:
    record = year("2023-07-01", "2024-07-01", length=3600)
    found = measured(channel_of(record)).values
    assert (found["span"], found["year_length"]) == (366.0, 366.0)


# --- gaps and estimates


def without(record: Year, first: int, last: int) -> Channel:
    kept = [at for at in range(len(record.starts)) if not first <= at < last]
    return channel_of(replace(record, starts=[record.starts[at] for at in kept], energy=[record.energy[at] for at in kept]))


def test_a_gap_is_measured_with_its_moments() -> None:
    record = whole_year()
    found = measured(without(record, 5000, 5000 + 40))
    assert found.values["longest_gap"] == 10.0
    assert found.moments["longest_gap"] == [(record.starts[5000], record.starts[5040])]
    assert found.gaps == [(record.starts[5000], record.starts[5040], 10.0)]
    assert found.values["coverage"] == pytest.approx(100 * (1 - 40 / len(record.starts)))
    missing = channel_of(record)
    for at in range(5000, 5040):
        missing.energy[at] = math.nan
    assert measured(missing).values == found.values


def test_what_overlaps_an_earlier_interval_is_not_taken() -> None:
    """A reading from the middle of an interval to the middle of the next one: neither it nor that next one counts."""
    record = whole_year()
    plain, channel = measured(channel_of(record)), channel_of(record)
    channel.add(record.starts[5000] + 450, 900, 9000.0)
    found = measured(channel)
    assert found.values["maximum"] == plain.values["maximum"]
    assert found.values["longest_gap"] == 0.25
    assert found.moments["longest_gap"] == [(record.starts[5001], record.starts[5002])]
    assert sum(month.energy for month in found.months) == pytest.approx(1000 * (sum(record.energy) - record.energy[5001]))


def test_a_gap_in_the_season_of_the_maximum() -> None:
    """The maximum is in January; July is far from it, December beside it."""
    record = whole_year()
    starts = [datetime.fromtimestamp(each, DENVER) for each in record.starts]
    july, december = (next(at for at, each in enumerate(starts) if each.month == month) for month in (7, 12))
    assert measured(without(record, july + 500, july + 520)).values["season_gap"] == 0.0
    assert measured(without(record, december + 500, december + 520)).values["season_gap"] == 5.0


def test_row_count_is_not_coverage() -> None:
    """Forty rows that stand twice make up in number for forty that are missing, and not in coverage."""
    record = whole_year()
    channel = without(record, 5000, 5040)
    for at in range(40):
        channel.add(channel.starts[at], channel.lengths[at], channel.energy[at])
    assert len(channel) == len(record.starts)
    assert measured(channel).values["longest_gap"] == 10.0


def test_estimates_count_as_missing_and_are_told() -> None:
    channel = channel_of(whole_year())
    top = max(range(len(channel)), key=lambda at: channel.energy[at])
    channel.quality[top] = ESTIMATED
    found = measured(channel)
    assert found.values["highest_estimated"] == pytest.approx(channel.energy[top] * 4)
    assert found.values["maximum"] < found.values["highest_estimated"]
    assert found.values["estimated"] == pytest.approx(100 / len(channel))


# --- what speaks against a maximum


def test_a_lump_after_an_outage() -> None:
    """Two hours of nothing, then all of it in one interval."""
    channel = channel_of(whole_year())
    for at in range(9000, 9008):
        channel.energy[at] = 0.0
    channel.energy[9008] = 9000.0
    found = measured(channel).values
    assert (found["from_outage"], found["maximum"]) == (0.0, 36_000.0)
    assert found["over_third"] > 1.5
    assert measured(channel_of(whole_year())).values["from_outage"] > 24


def test_a_maximum_in_the_hour_in_which_clocks_are_put_back() -> None:
    channel = channel_of(whole_year())
    repeated = int(datetime(2025, 11, 2, 1, 30, fold=1, tzinfo=DENVER).timestamp())
    at = channel.starts.index(repeated)
    channel.energy[at] = 9000.0
    assert measured(channel).values["in_repeated_hour"] is True
    assert measured(channel_of(whole_year())).values["in_repeated_hour"] is False


def test_frozen_readings() -> None:
    channel = channel_of(whole_year())
    for at in range(2000, 2012):
        channel.energy[at] = 437.0
    found = measured(channel)
    assert found.values["longest_run"] == 12.0
    assert found.moments["longest_run"] == [(channel.starts[2000], channel.starts[2012])]
    assert found.values["frozen"] == pytest.approx(100 * 12 / len(channel))


def test_small_readings_may_repeat() -> None:
    """Where a reading is a few of its smallest steps, equal ones are to be expected."""
    channel = channel_of(whole_year())
    for at in range(2000, 2012):
        channel.energy[at] = 20.0
    assert measured(channel).values["longest_run"] < 4


@pytest.mark.parametrize("length", [300, 900, 3600])
def test_the_smallest_step_is_told_as_power(length: int) -> None:
    """A step of 100 Wh is 1,200 W in 5 min, 400 W in 15 min and 100 W in an hour; the maximum beside it is of 8 kW."""
    record = year("2026-01-01", "2026-01-20", length=length)
    channel = channel_of(record)
    channel.step = 100.0
    for at in range(48, 51):  # a quarter of an hour or more
        channel.energy[at] = 8000.0 * length / 3600
    assert measured(channel).values["step"] == pytest.approx(100 * (100 * 3600 / length) / 8000)


def test_an_empty_month() -> None:
    record = whole_year()
    channel = channel_of(record)
    for at, start in enumerate(record.starts):
        if datetime.fromtimestamp(start, DENVER).month == 8:
            channel.energy[at] = 5.0
    found = measured(channel).values
    assert (found["vacant_months"], found["vacant_in_season"]) == (1.0, False)


def test_a_day_with_few_values_is_no_low_day() -> None:
    """Of twenty days of August only the small hours are there, with next to nothing in them: it tells nothing of those days."""
    record = whole_year()
    channel = channel_of(record)
    for at, start in enumerate(record.starts):
        local = datetime.fromtimestamp(start, DENVER)
        if local.month == 8 and local.day <= 20:
            channel.energy[at] = 5.0 if local.hour < 5 else math.nan
    assert measured(channel).values["vacant_months"] == 0.0


def test_middays_below_the_night_look_like_generation() -> None:
    record = whole_year()
    channel = channel_of(record)
    for at, start in enumerate(record.starts):
        if 10 <= datetime.fromtimestamp(start, DENVER).hour < 15:
            channel.energy[at] = 2.0
    assert measured(channel).values["midday_lows"] == pytest.approx(100, abs=1)


def test_energy_to_the_utility() -> None:
    plain = channel_of(whole_year())
    sent = Channel(direction=RECEIVED)
    sent.add(plain.starts[50], 900, 12.0)
    found = measured(plain, others=(sent,))
    assert found.values["exported"] is True
    assert found.moments["exported"] == [(plain.starts[50], plain.starts[50] + 900)]
    negative = channel_of(whole_year())
    negative.energy[70] = -3.0
    assert measured(negative).values["exported"] is True
    assert measured(plain).values["exported"] is False


def test_what_a_file_tells_of_a_channel_is_told_of_the_record() -> None:
    """Generation behind the meter, by whichever channel tells it; a vehicle charger alone, by the channel that is taken."""
    plain = channel_of(year("2026-01-01", "2026-01-20"))
    generating, charging = replace(plain, generation=True), replace(plain, one_load=True)
    sent = Channel(direction=RECEIVED, generation=True)
    told = [measured(plain), measured(generating), measured(plain, others=(sent,)), measured(charging)]
    assert [each.values["generation_told"] for each in told] == [False, True, True, False]
    assert [each.values["one_load_only"] for each in told] == [False, False, False, True]


@pytest.mark.parametrize(
    ("direction", "said", "both"), [("delivered", True, False), ("net", False, False), ("total", False, True)]
)
def test_which_way_the_energy_flows(direction: str, said: bool, both: bool) -> None:
    channel = channel_of(year("2026-01-01", "2026-01-20"))
    channel.direction = direction
    found = measured(channel).values
    assert (found["direction_not_said"], found["both_directions"]) == (not said, both)


# --- bills and changes


def test_bills_are_compared_with_the_sum_of_their_days() -> None:
    record = whole_year()
    plain = series(record)
    january = plain[(plain.index.year == 2026) & (plain.index.month == 1)].sum() / 4
    bill = Bill(date(2026, 1, 1), date(2026, 1, 31), january * 1.03)
    found = measured(channel_of(record), Stated([bill], ())).values
    assert found["bills_difference"] == pytest.approx(100 * 0.03 / 1.03)
    before = Bill(date(2024, 1, 1), date(2024, 1, 31), 500.0)
    other = measured(channel_of(record), Stated([before], ())).values
    assert "bills_difference" not in other


def test_a_bill_that_agrees_by_other_days_says_so() -> None:
    """The bill counts January; the first of February was typed as its last day, as a bill to midnight may have it."""
    record = whole_year()
    plain = series(record)
    january = plain[(plain.index.year == 2026) & (plain.index.month == 1)].sum() / 4
    profile = profile_of(channel_of(record), record.zone)
    typed = Bill(date(2026, 1, 1), date(2026, 2, 1), float(round(january)))
    (told,) = bill_remarks([typed], profile, TERMS)
    assert told.startswith("the bill of 2026-01-01 to 2026-02-01 is ")
    assert re.search(r"0\.[01] % off where its last day is 2026-01-31", told)
    (alike,) = bill_remarks([replace(typed, last=date(2026, 1, 31))], profile, TERMS)
    assert "is the sum of its intervals, rounded" in alike
    assert bill_remarks([replace(typed, energy=2 * january)], profile, TERMS) == [], "no other days explain it"


def test_a_bill_that_was_taken_from_the_record_is_no_comparison() -> None:
    record = whole_year()
    plain = series(record)
    january = plain[(plain.index.year == 2026) & (plain.index.month == 1)].sum() / 4
    copied = Bill(date(2026, 1, 1), date(2026, 1, 31), float(january))
    assert not copied.energy.is_integer()
    assert "bills_difference" not in measured(channel_of(record), Stated([copied], ())).values
    (told,) = bill_remarks([copied], profile_of(channel_of(record), record.zone), TERMS)
    assert "is the sum of its intervals to the last digit" in told
    rounded = replace(copied, energy=float(round(january)))
    assert measured(channel_of(record), Stated([rounded], ())).values["bills_difference"] < 0.1


def test_a_bill_over_a_gap_is_not_compared() -> None:
    """A day of January is missing: what flowed in it nobody knows; the bill of July is compared all the same."""
    record = whole_year()
    january = next(at for at in range(len(record.starts)) if record.local(at).month == 1)
    channel = without(record, january + 960, january + 1056)
    wanting = Bill(date(2026, 1, 1), date(2026, 1, 31), 500.0)
    assert "bills_difference" not in measured(channel, Stated([wanting], ())).values
    july = sum(energy for at, energy in enumerate(record.energy) if record.local(at).month == 7)
    whole = Bill(date(2026, 7, 1), date(2026, 7, 31), july * 1.01)
    found = measured(channel, Stated([wanting, whole], ())).values
    assert found["bills_difference"] == pytest.approx(100 * 0.01 / 1.01)


@pytest.mark.parametrize(
    ("day", "adds", "within"), [((2026, 3, 1), True, True), ((2026, 3, 1), False, False), ((2025, 9, 1), True, False)]
)
def test_a_load_that_was_added_within_the_record(day: tuple[int, int, int], adds: bool, within: bool) -> None:
    found = measured(channel_of(whole_year()), Stated((), [Change(date(*day), "load added", adds)])).values
    assert found["changed_within"] is within
    assert "changed_within" not in measured(channel_of(whole_year()), Stated()).values, "nobody has said it"


# --- by hand


def test_from_energy_in_an_interval_to_amperes_and_a_charger() -> None:
    """1.65 kWh in 15 min is 6.6 kW; at 240 V 27.5 A; times 125 % 34.375 A; a 48 A charger beside it: 82.375 A of 200 A."""
    channel = channel_of(whole_year())
    channel.energy[3000] = 1650.0
    maximum = float(measured(channel).values["maximum"])
    assert maximum == pytest.approx(6600.0)
    amperes = maximum / 240
    assert amperes == pytest.approx(27.5)
    assert amperes * 1.25 + 48 == pytest.approx(82.375)


def test_a_profile_keeps_what_it_is_made_of() -> None:
    channel = channel_of(whole_year())
    profile: Profile = profile_of(channel, DENVER)
    assert len(profile) == len(channel)
    assert profile.power(0) == pytest.approx(channel.energy[0] * 4)
