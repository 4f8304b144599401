"""Tables of interval data in every layout, read back to the truth that they were made from."""

from __future__ import annotations

import functools
import math
import time
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tables import AUTUMN, DENVER, LAYOUTS, PHOENIX, SPRING, Expected, Truth, by_days, truth

from dwellcalc.language.rule_set import installed_folder, read_glossary
from dwellcalc.meter.record import EDITED, ESTIMATED, MEASURED, NOT_SAID, RECEIVED, SUSPECT, Channel, Readings, Said
from dwellcalc.meter.tables.tabular import read_table
from dwellcalc.problems import InputError

HEADINGS = read_glossary(installed_folder()).interval_columns
SAMPLE = Path(__file__).resolve().parents[1].parent / "shared/reference/samples/uci_household_2008_15min_kwh.csv"


def read(text: str, **said: Any) -> Readings:
    return read_table(text.splitlines(keepends=True), "meter.csv", Said(**{"time_zone": "America/Denver", **said}), HEADINGS)


def agree(readings: Readings, expected: Expected) -> None:
    found = {channel.direction: channel for channel in readings.channels}
    assert set(found) == set(expected)
    for direction, readings_then in expected.items():
        same(found[direction], readings_then)


def same(channel: Channel, truth: list[Truth]) -> None:
    order = sorted(range(len(channel)), key=lambda place: (channel.starts[place], place))
    assert [channel.starts[place] for place in order] == [each.start for each in truth]
    assert [channel.lengths[place] for place in order] == [each.length for each in truth]
    for place, each in zip(order, truth):
        energy = channel.energy[place]
        assert math.isnan(energy) if each.energy is None else energy == pytest.approx(each.energy * 1000)
        assert each.energy is None or channel.quality[place] == each.quality


@pytest.mark.parametrize("zone", [DENVER, PHOENIX], ids=str)
@pytest.mark.parametrize("first", [SPRING, AUTUMN, datetime(2025, 7, 1)], ids=["spring", "autumn", "summer"])
@pytest.mark.parametrize("layout", LAYOUTS)
def test_every_layout(layout: str, first: datetime, zone: Any) -> None:
    text, said, expected = LAYOUTS[layout](zone, first)
    if layout == "i" and (zone is PHOENIX or first.month == 7):
        said = {**said, "stamps": "end"}
    agree(read(text, time_zone=zone.key, **said), expected)


# Years


@pytest.mark.slow
@pytest.mark.parametrize("layout", ["plain", "a", "g", "i"])
def test_a_year_with_both_changes_of_the_clocks(layout: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tables.truth", functools.partial(truth, days=365))
    text, said, expected = LAYOUTS[layout](DENVER, datetime(2025, 1, 1))
    readings = read(text, **said)
    agree(readings, expected)
    assert len(readings.channels[0]) == 35_040


def test_the_sample_of_a_household() -> None:
    if not SAMPLE.is_file():
        pytest.skip("the sample stands beside the checkout, and is not there")
    with SAMPLE.open(encoding="utf-8", newline="") as stream:
        readings = read_table(stream, SAMPLE.name, Said(time_zone="Europe/Paris", standard_time="yes"), HEADINGS)
    (channel,) = readings.channels
    assert len(channel) == 35_136
    assert set(channel.lengths) == {900}
    place = max(range(len(channel)), key=channel.energy.__getitem__)
    assert channel.energy[place] == pytest.approx(2095.8, abs=0.05)
    assert channel.starts[place] == int(datetime(2008, 11, 30, 19, 15, tzinfo=UTC).timestamp())
    with SAMPLE.open(encoding="utf-8", newline="") as stream, pytest.raises(InputError, match="standard time"):
        read_table(stream, SAMPLE.name, Said(time_zone="Europe/Paris"), HEADINGS)


# Days on which clocks change


def hourly(labels: Sequence[str], day: str, values: Sequence[float] = ()) -> str:
    return "".join(f"{day} {label},{values[place] if values else (place + 1) / 10}\n" for place, label in enumerate(labels))


def starts(readings: Readings) -> list[str]:
    (channel,) = readings.channels
    return [datetime.fromtimestamp(start, UTC).strftime("%H:%M") for start in channel.starts]


def test_ends_told_in_the_time_of_the_end_itself() -> None:
    """In spring 01:00 is followed by 03:00, in autumn 01:00 stands twice, as the ends truly fall."""
    spring = read("Interval end,kWh\n" + hourly(["01:00", "03:00", "04:00", "05:00"], "2025-03-09"))
    assert starts(spring) == ["07:00", "08:00", "09:00", "10:00"]
    autumn = read("Interval end,kWh\n" + hourly(["01:00", "01:00", "02:00", "03:00"], "2025-11-02"))
    assert starts(autumn) == ["06:00", "07:00", "08:00", "09:00"]


def test_ends_told_by_adding_an_interval_to_the_start() -> None:
    spring = read("Interval end,kWh\n" + hourly(["01:00", "02:00", "04:00", "05:00"], "2025-03-09"))
    assert starts(spring) == ["07:00", "08:00", "09:00", "10:00"]
    autumn = read("Interval end,kWh\n" + hourly(["01:00", "02:00", "02:00", "03:00"], "2025-11-02"))
    assert starts(autumn) == ["06:00", "07:00", "08:00", "09:00"]


@pytest.mark.parametrize(
    ("day", "labels", "stamps"),
    [
        ("2025-03-09", ["00:00", "01:00", "03:00", "04:00"], "start"),
        ("2025-03-09", ["01:00", "02:00", "04:00", "05:00"], "end"),
        ("2025-11-02", ["00:00", "01:00", "01:00", "02:00", "03:00"], "start"),
        ("2025-11-02", ["01:00", "02:00", "02:00", "03:00", "04:00"], "end"),
    ],
)
def test_what_a_stamp_tells_by_the_hour_that_lacks_or_repeats(day: str, labels: list[str], stamps: str) -> None:
    readings = read("Date/Time,kWh\n" + hourly(labels, day))
    assert any(f"taken as the {stamps} of its interval" in remark for remark in readings.remarks)
    first = "07:00" if day < "2025-06" else "06:00"
    assert starts(readings)[0] == first
    assert len(set(starts(readings))) == len(labels)


@pytest.mark.parametrize(("day", "hours"), [("2025-03-09", 23), ("2025-11-02", 25)])
def test_hours_that_count_on_through_the_day(day: str, hours: int) -> None:
    before = "".join(f"2025-{day[5:8]}{int(day[8:]) - 1:02d},{hour},0.5\n" for hour in range(1, 25))
    readings = read("date,hour ending,kWh\n" + before + "".join(f"{day},{hour},0.1\n" for hour in range(1, hours + 1)))
    (channel,) = readings.channels
    assert len(channel) == 24 + hours
    assert {later - start for start, later in zip(channel.starts, channel.starts[1:])} == {3600}


def test_the_latest_first() -> None:
    rows = ["03:00", "02:00", "01:00", "01:00", "00:00"]
    readings = read("start,kWh\n" + hourly(rows, "2025-11-02"))
    assert starts(readings) == ["10:00", "09:00", "08:00", "07:00", "06:00"]


def forced(first: str = "0", autumn: bool = True) -> str:
    """Days of 24 rows each, whatever clocks do: a skipped hour of zeros, a repeated one with the sum of two."""
    rows = []
    for day in ("2025-03-08", "2025-03-09", "2025-03-10", *(("2025-11-01", "2025-11-02", "2025-11-03") if autumn else ())):
        for hour in range(24):
            value = first if (day, hour) == ("2025-03-09", 2) else "1.5" if (day, hour) == ("2025-11-02", 1) else "0.7"
            rows.append(f"{day} {hour:02d}:00,{value}\n")
    return "start,kWh\n" + "".join(rows)


def test_days_forced_to_one_length() -> None:
    readings = read(forced(), standard_time="no", interval=3600)
    (channel,) = readings.channels
    assert len(channel) == len(set(channel.starts)) == 23 + 24 * 4 + 25
    halves = [place for place, quality in enumerate(channel.quality) if quality == ESTIMATED]
    assert [channel.energy[place] for place in halves] == [750, 750]
    assert abs(channel.starts[halves[0]] - channel.starts[halves[1]]) == 3600
    assert sum("sum of two hours" in remark for remark in readings.remarks) == 1
    with pytest.raises(InputError, match="standard time all year"):
        read(forced(), interval=3600)


def test_a_repeated_hour_that_stands_once_is_taken_as_the_first() -> None:
    rows = ["00:00", "01:00", "02:00", "03:00"]
    readings = read("start,kWh\n" + hourly(rows, "2025-11-02"))
    assert starts(readings) == ["06:00", "07:00", "09:00", "10:00"]
    assert any("stands once" in remark for remark in readings.remarks)


# Dates


def quarters(dates: Sequence[str]) -> str:
    return "start,kWh\n" + "".join(
        f"{date} {hour:02d}:{part:02d},0.5\n" for date in dates for hour in range(24) for part in (0, 15, 30, 45)
    )


def test_the_order_of_dates_by_which_the_days_follow() -> None:
    by_day = read(quarters([f"{day:02d}/02/2025" for day in range(1, 11)]))
    by_month = read(quarters([f"02/{day:02d}/2025" for day in range(1, 11)]))
    assert list(by_day.channels[0].starts) == list(by_month.channels[0].starts)
    assert any("day first" in remark for remark in by_day.remarks)
    assert any("month first" in remark for remark in by_month.remarks)


def test_the_order_of_dates_by_one_late_day() -> None:
    readings = read(quarters([f"{day:02d}/02/2025" for day in range(8, 15)]))
    assert readings.channels[0].starts[0] == int(datetime(2025, 2, 8, 7, tzinfo=UTC).timestamp())
    assert len(set(readings.channels[0].starts)) == 7 * 96


@pytest.mark.parametrize("dates", [["01/02/2025"], ["01/02/2025", "03/05/2025", "07/09/2025"]])
def test_an_order_of_dates_that_nothing_tells(dates: list[str]) -> None:
    with pytest.raises(InputError, match="date order: month first"):
        read(quarters(dates))
    assert len(read(quarters(dates), date_order="day first").channels[0]) == 96 * len(dates)


def test_midnight_that_ends_a_day_keeps_its_day() -> None:
    rows = [f"{day:02d}/02/2025 {hour:02d}:00,0.{hour * 7 % 24:02d}" for day in range(1, 6) for hour in range(1, 25)]
    (channel,) = read("Date/Time;kWh\n" + "\n".join(rows).replace(",", ";") + "\n").channels
    assert channel.starts[0] == int(datetime(2025, 2, 1, 7, tzinfo=UTC).timestamp())
    assert [later - start for start, later in zip(channel.starts, channel.starts[1:])] == [3600] * 119


@pytest.mark.parametrize(
    "stamp",
    [
        "2025-02-13 14:30", "2025/02/13 14:30:00", "2025-02-13T14:30", "20250213 1430", "202502131430", "13.02.2025 14:30", "13.2.25 14:30",
        "2/13/2025 2:30 PM", "2/13/25 2:30:00 p.m.", "13-Feb-2025 14:30", "Feb 13, 2025 2:30 pm", "13 February 2025 14:30",
        "Thu, 13 Feb 2025 14:30", "2025-02-13 21:30Z", "2025-02-13T14:30:00-07:00", "2025-02-13T14:30:00.000-0700", "2025-02-13 21:30 UTC",
    ],
)  # fmt: skip
def test_ways_to_write_a_stamp(stamp: str) -> None:
    readings = read(f'start,kWh\n"{stamp}",0.5\n', interval=900)
    assert readings.channels[0].starts[0] == int(datetime(2025, 2, 13, 21, 30, tzinfo=UTC).timestamp())


# Values, units, flags


@pytest.mark.parametrize("missing", ["", "-", "N/A", "null", "*", " ", "NaN"])
def test_what_is_missing_is_no_zero(missing: str) -> None:
    (channel,) = read(f"start,kWh\n2025-01-01 00:00,0.5\n2025-01-01 00:15,{missing}\n2025-01-01 00:30,0\n").channels
    assert channel.energy[0] == 500
    assert math.isnan(channel.energy[1])
    assert channel.energy[2] == 0


@pytest.mark.parametrize(
    ("heading", "written", "energy", "step"),
    [
        ("kWh", "0.25", 250, 10), ("Usage (Wh)", "250", 250, 1), ("Demand [kW]", "1.00", 250, 2.5), ("Average power (W)", "1000", 250, 0.25),
        ("USAGE (kWh)", "1", 1000, 1000), ("Energy in kilowatt-hours", "0.250", 250, 1), ("consumption_kwh", "2.5e-1", 250, 1000),
    ],
)  # fmt: skip
def test_units_and_steps(heading: str, written: str, energy: float, step: float) -> None:
    readings = read(
        f"start,{heading}\n2025-01-01 00:00,{written}\n2025-01-01 00:15,{written}\n",
        columns={"energy": heading} if "in" in heading else {},
    )
    assert readings.channels[0].energy[0] == pytest.approx(energy)
    assert readings.channels[0].step == pytest.approx(step)


def test_a_unit_is_never_guessed_from_size() -> None:
    with pytest.raises(InputError, match="unit: kWh"):
        read("start,usage\n2025-01-01 00:00,0.2\n2025-01-01 00:15,0.3\n")
    said = read("start,usage\n2025-01-01 00:00,0.2\n2025-01-01 00:15,0.3\n", unit="kW")
    assert said.channels[0].energy[0] == pytest.approx(50)


@pytest.mark.parametrize(
    ("separator", "written", "energy"),
    [
        (";", ["0,25", "1,5"], 250), (";", ["1.234,5", "0,5"], 1_234_500), (",", ['"1,234.5"', "0.5"], 1_234_500), ("\t", ["1 234,5", "2,5"], 1_234_500),
        ("|", ["1'234.5", "2.25"], 1_234_500), (",", ['"0,25"', '"0,50"'], 250), (",", ["1.234", "2.345"], 1234), (";", ["2", "3"], 2000),
    ],
)  # fmt: skip
def test_marks_in_numbers(separator: str, written: list[str], energy: float) -> None:
    rows = [f"2025-01-01 0{place}:00{separator}{text}\n" for place, text in enumerate(written)]
    readings = read(f"start{separator}kWh\n" + "".join(rows))
    assert readings.channels[0].energy[0] == pytest.approx(energy)


@pytest.mark.parametrize("written", [["1.234", "2.345"], ["1,234", "2,345"], ["0.5", "0,5"]])
def test_marks_that_could_be_either(written: list[str]) -> None:
    text = "start;kWh\n" + "".join(f"2025-01-01 0{place}:00;{each}\n" for place, each in enumerate(written))
    with pytest.raises(InputError, match="decimal: point"):
        read(text)


@pytest.mark.parametrize(
    ("flags", "qualities"),
    [
        (["A", "E", "A"], [MEASURED, ESTIMATED, MEASURED]), (["", "*", ""], [MEASURED, ESTIMATED, MEASURED]),
        (["Actual", "Estimated", ""], [MEASURED, ESTIMATED, SUSPECT]), (["No", "Yes", "No"], [MEASURED, ESTIMATED, MEASURED]),
        (["0", "1", "0"], [MEASURED, ESTIMATED, MEASURED]), (["A", "E", "edited"], [MEASURED, ESTIMATED, EDITED]),
    ],
)  # fmt: skip
def test_flags(flags: list[str], qualities: list[int]) -> None:
    readings = read(
        "start,kWh,Estimated?\n" + "".join(f"2025-01-01 0{place}:00,0.5,{flag}\n" for place, flag in enumerate(flags))
    )
    assert list(readings.channels[0].quality) == qualities


def test_what_a_flag_means_is_asked_for_and_taken_as_said() -> None:
    text = "start,kWh,Quality\n2025-01-01 00:00,0.5,gemessen\n2025-01-01 01:00,0.5,Ersatzwert\n"
    with pytest.raises(InputError, match='what its flags of quality mean .*"Ersatzwert", "gemessen"'):
        read(text)
    readings = read(text, flags={"gemessen": "measured", "ersatzwert": "estimated"})
    assert list(readings.channels[0].quality) == [MEASURED, ESTIMATED]


def test_ends_of_a_file_that_speak_against_the_change_of_clocks_are_asked_about() -> None:
    """The hour that is skipped looks like that of starts, the first and the last stamp like ends."""
    moments = [datetime(2025, 3, 8, tzinfo=UTC) + timedelta(minutes=15 * each) for each in range(1, 3 * 96 + 1)]
    kept = [each for each in moments if not (each.day == 9 and 2 <= each.hour + each.minute / 60 < 3)]
    text = "Stamp,kWh\n" + "".join(f"{each:%Y-%m-%d %H:%M},0.{each.hour:02}{each.minute:02}\n" for each in kept)
    with pytest.raises(InputError, match="whether a stamp is the start or the end"):
        read(text, stamps="")
    assert len(read(text, stamps="end").channels[0]) == len(kept)


# Headings


def test_a_heading_in_utc_needs_no_zone_for_its_stamps() -> None:
    readings = read("Timestamp (UTC),kWh\n2025-01-01 07:00,0.5\n2025-01-01 07:15,0.5\n", stamps="start")
    assert readings.channels[0].starts[0] == int(datetime(2025, 1, 1, 7, tzinfo=UTC).timestamp())
    assert readings.zone.key == "America/Denver"


@pytest.mark.parametrize(
    "heading", ["Usage (therms)", "Usage (gal)", "Usage (kVArh)", "Usage ($)", "Water [m3]", "Usage (off-peak)"]
)
def test_a_heading_of_something_else_is_no_energy(heading: str) -> None:
    with pytest.raises(InputError, match="no line has headings"):
        read(f"start,{heading}\n2025-01-01 00:00,0.5\n2025-01-01 00:15,0.5\n", unit="kWh")


def test_a_time_that_is_a_bare_hour_is_no_minute() -> None:
    rows = "".join(f"2025-01-01,{hour},0.5\n" for hour in range(24))
    assert set(read("Date,Time,kWh\n" + rows).channels[0].lengths) == {3600}
    compact = "".join(f"2025-01-01,{hour * 100 + part},0.5\n" for hour in range(24) for part in (0, 15, 30, 45))
    assert set(read("Date,Time,kWh\n" + compact, stamps="start").channels[0].lengths) == {900}


def test_a_date_that_stands_in_the_first_row_of_a_day_alone_is_refused() -> None:
    with pytest.raises(InputError, match="no date and time of day"):
        read("Date,Start time,kWh\n2025-01-01,00:00,0.5\n,00:15,0.5\n,00:30,0.5\n2025-01-02,00:00,0.5\n")


def test_letters_of_the_time_tell_the_repeated_hour() -> None:
    rows = ["00:00 MDT", "01:00 MST", "01:00 MDT", "02:00 MST"]
    assert starts(read("start,kWh\n" + hourly(rows, "2025-11-02"), interval=3600)) == ["06:00", "08:00", "07:00", "09:00"]
    summer = "start,kWh\n" + hourly(["00:00 MST", "01:00 MST", "02:00 MST"], "2025-07-01")
    with pytest.raises(InputError, match="MST also on 2025-07-01"):
        read(summer)
    assert starts(read(summer, standard_time="yes")) == ["07:00", "08:00", "09:00"]


def test_columns_that_the_home_file_names() -> None:
    text = "Moment,Draw,Solar\n2025-01-01 00:00,0.5,0.1\n2025-01-01 00:15,0.5,0.2\n"
    readings = read(text, columns={"start": "Moment", "energy": "Draw", "received": "solar"}, unit="kWh")
    assert {channel.direction: list(channel.energy) for channel in readings.channels} == {
        NOT_SAID: [500, 500],
        RECEIVED: [100, 200],
    }


def test_two_columns_that_could_be_meant_are_asked_about() -> None:
    with pytest.raises(InputError, match="columns: {energy: Usage"):
        read("start,Usage (kWh),Consumption (kWh)\n2025-01-01 00:00,0.5,0.1\n2025-01-01 00:15,0.5,0.2\n")


def test_no_headings_at_all() -> None:
    text = "2025-01-01 00:00,0.5\n2025-01-01 00:15,0.25\n"
    assert list(read(text, unit="kWh", stamps="start").channels[0].energy) == [500, 250]
    with pytest.raises(InputError, match=r"unit: kWh[\s\S]*stamps: start"):
        read(text)


@pytest.mark.parametrize("size", [1, 3, 5_000])
def test_many_lines_at_once_read_as_one_by_one(size: int) -> None:
    """An unusual line among others has them read one by one, which changes nothing."""
    text, _, expected = LAYOUTS["plain"](DENVER, SPRING)
    quoted = "".join(
        f'"{line[:16]}",{line[17:]}' if place % size == 0 else line for place, line in enumerate(text.splitlines(True)) if place
    )
    agree(read("start,kWh\n" + quoted), expected)
    ragged = "".join(
        line.replace("\n", ",\r\n") if place % size == 0 else line for place, line in enumerate(text.splitlines(True)) if place
    )
    agree(read("start,kWh,\n" + ragged), expected)


@pytest.mark.parametrize("first", [SPRING, AUTUMN])
@pytest.mark.parametrize(("length", "zero"), [(900, 1), (1800, 1), (3600, 0)])
def test_intervals_told_by_their_number_in_the_day(first: datetime, length: int, zero: int) -> None:
    found = truth(DENVER, first, length=length)
    rows = [
        f"{day},{place + zero},{each.energy}\n"
        for day, inside in by_days(found, DENVER).items()
        for place, each in enumerate(inside)
    ]
    same(read("Date,Interval,kWh\n" + "".join(rows)).channels[0], found)


def test_numbers_of_which_none_is_the_last_of_a_day_are_asked_about() -> None:
    rows = "".join(f"2025-01-01,{place},0.5\n" for place in range(1, 41))
    with pytest.raises(InputError, match="interval: 15 min"):
        read("Date,Interval number,kWh\n" + rows)
    assert set(read("Date,Interval number,kWh\n" + rows, interval=900).channels[0].lengths) == {900}


def test_stamps_without_a_step_are_asked_about() -> None:
    rows = "".join(f"2025-01-01 {minute * minute // 60:02d}:{minute * minute % 60:02d},0.{minute}\n" for minute in range(30))
    with pytest.raises(InputError, match="interval: 15 min"):
        read("start,kWh\n" + rows)


# What is no reading


def test_totals_and_notes_are_left_out_and_told() -> None:
    text = "start,kWh\n2025-01-01 00:00,0.5\n2025-01-01 00:15,0.5\n\nTotal,1.0\n2025-01,1.0\nEnd of report\n"
    readings = read(text)
    assert len(readings.channels[0]) == 2
    assert any("2 rows" in remark and "line 5" in remark for remark in readings.remarks)
    assert any("1 rows" in remark and "line 6" in remark for remark in readings.remarks)


def test_sums_with_a_start_and_an_end_are_no_intervals() -> None:
    day = "start,end,kWh\n" + "".join(f"2025-01-01 {hour:02d}:00,2025-01-01 {hour:02d}:59,0.5\n" for hour in range(24))
    readings = read(day + "2025-01-01 00:00,2025-01-01 23:59,12.0\n")
    assert len(readings.channels[0]) == 24
    begin = int(datetime(2025, 1, 1, 7, tzinfo=UTC).timestamp())
    assert readings.summed == [(begin, begin + 86_400, 12_000)]


@pytest.mark.parametrize(("end", "readings", "sums"), [("02:00", 16, 1), ("01:45", 17, 0)])
def test_only_spans_of_whole_hours_are_sums(end: str, readings: int, sums: int) -> None:
    """A row of an hour beside its quarters sums them up; one of 45 min is no sum that anybody states, and stays a reading."""
    quarters = [f"2025-01-01 {at // 4:02d}:{15 * (at % 4):02d}" for at in range(17)]
    text = "start,end,kWh\n" + "".join(f"{one},{other},0.5\n" for one, other in zip(quarters, quarters[1:]))
    found = read(f"{text}2025-01-01 01:00,2025-01-01 {end},1.9\n")
    assert (len(found.channels[0]), len(found.summed)) == (readings, sums)
    assert any("rows are sums of other readings" in remark for remark in found.remarks) == bool(sums)


def test_a_table_of_something_else_that_follows() -> None:
    text = "DATE,START TIME,USAGE (kWh)\n2025-01-01,00:00,0.5\n2025-01-01,00:15,0.5\nDATE,START TIME,USAGE (kWh)\n2025-01-01,00:30,0.5\n"
    readings = read(text + "\nDATE,START TIME,USAGE (kWh),THERMS\n2025-01-01,00:00,7\n2025-01-01,00:15,7\n")
    assert list(readings.channels[0].energy) == [500, 500, 500]
    assert any("2 rows of another table" in remark for remark in readings.remarks)


def test_several_meters_are_asked_for_and_never_added() -> None:
    rows = [
        f"2025-01-01 00:{15 * place:02d},{meter},{place + number}.5\n"
        for place in range(4)
        for number, meter in enumerate(("M1", "M2"))
    ]
    text = "start,meter,kWh\n" + "".join(rows)
    with pytest.raises(InputError, match=r"it has M1, M2[\s\S]*meter: M1"):
        read(text)
    assert list(read(text, meter="M2").channels[0].energy) == [1500, 2500, 3500, 4500]


def test_stamps_far_apart_in_two_ways_are_asked_about() -> None:
    rows = [f"2025-01-01 {hour:02d}:{part:02d},0.5\n" for hour in range(12) for part in (0, 15, 30, 45)]
    rows += [f"2025-01-01 {hour:02d}:00,0.5\n" for hour in range(12, 24)]
    with pytest.raises(InputError, match="interval: 15 min"):
        read("start,kWh\n" + "".join(rows))
    assert set(read("start,kWh\n" + "".join(rows), interval=900).channels[0].lengths) == {900}


# Hostile files


@pytest.mark.parametrize(
    "text",
    [
        "", "\n\n\n", "a\n", "start,kWh", "(" * 90_000 + "\n" + "1" * 90_000, "start,kWh\n" + "1" * 90_000 + ",1\n", "start,kWh\n" + "1-" * 40_000 + ",1\n",
        ",".join(map(str, range(2_900))) + "\n", ("1," * 2_900 + "\n") * 100, "start,kWh\n2025-01-01 00:00," + "9" * 5_000 + "\n", '"' * 99_999,
        "start,kWh\n9999-12-31 23:59,1\n0001-01-01 00:00,1\n", "date," + ",".join(map(str, range(1, 97))) + "\n2025-01-01," + "x," * 96 + "\n",
        "100,a\n200,m,a,a,E1,a,a,kWh,0\n300,20250101,1\n", "100,a\n200\n300\n400,9,1\n", "100,a\n200,m,a,a,E1,a,a,kWh,30\n300,2025,1\n400,x,y\n",
        "start,kWh\n2025-01-01 00:00,{braces}\n", "start,end,kWh\n2025-01-01 00:00,2025-01-01 00:00,1\n",
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_one_clear_error(text: str) -> None:
    begin = time.perf_counter()
    with pytest.raises(InputError):
        read(text)
    assert time.perf_counter() - begin < 20


# Whatever is changed, the readings stay the same


ROWS = st.permutations(range(48))


def plain_rows() -> list[str]:
    text, _, _ = LAYOUTS["plain"](DENVER, datetime(2025, 6, 3))
    return text.splitlines(keepends=True)[1:49]


@given(ROWS)
@settings(max_examples=25, deadline=None)
def test_the_order_of_rows_changes_nothing(order: list[int]) -> None:
    rows = plain_rows()
    whole = read("start,kWh\n" + "".join(rows)).channels[0]
    mixed = read("start,kWh\n" + "".join(rows[place] for place in order)).channels[0]
    assert sorted(zip(whole.starts, whole.energy)) == sorted(zip(mixed.starts, mixed.energy))
    assert mixed.step == whole.step


@given(
    st.sampled_from([SPRING, AUTUMN, datetime(2025, 7, 1)]), st.sampled_from([300, 900, 1800, 3600]), st.sampled_from([DENVER, PHOENIX, ZoneInfo("Australia/Lord_Howe")])
)  # fmt: skip
@settings(max_examples=30, deadline=None)
def test_starts_and_ends_tell_the_same(first: datetime, length: int, zone: ZoneInfo) -> None:
    found = truth(zone, first, days=4, length=length)
    starting = "".join(f"{each.stamp(zone)},{each.energy}\n" for each in found)
    ending = "".join(f"{each.stamp(zone, after=length)},{each.energy}\n" for each in found)
    truly = "".join(f"{each.local(zone, length):%Y-%m-%d %H:%M},{each.energy}\n" for each in found)
    for text, stamps in ((starting, "start"), (ending, "end"), (truly, "end")):
        same(read("Date/Time,kWh\n" + text, stamps=stamps, time_zone=zone.key).channels[0], found)


@given(
    st.lists(st.tuples(st.integers(0, 200), st.text("0123456789.,;:-/ \"'ATMabz*\n\t\xa0", max_size=12)), min_size=1, max_size=6)
)
@settings(max_examples=150, deadline=None)
def test_damage_is_read_or_refused(changes: list[tuple[int, str]]) -> None:
    text = "start,end,kWh,quality\n" + "".join(
        f"2025-01-01 00:{part:02d},2025-01-01 00:{part + 5:02d},0.5,A\n" for part in range(0, 50, 5)
    )
    for place, part in changes:
        text = text[:place] + part + text[place + len(part) :]
    try:
        read(text)
    except InputError as error:
        assert str(error)
