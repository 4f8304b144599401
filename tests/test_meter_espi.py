"""Feeds of interval data: made ones with known truth for every rule of the reader, published samples, hostile ones."""

from __future__ import annotations

import io
import math
import random
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from feeds import JANUARY, Feed, plain_feed
from hypothesis import given, settings
from hypothesis import strategies as st

from dwellcalc.meter.feeds import espi_feed, safe_xml
from dwellcalc.meter.feeds.espi import read_espi
from dwellcalc.meter.feeds.espi_zone import rule_in_words, shown_offset
from dwellcalc.meter.record import (
    DELIVERED,
    EDITED,
    ESTIMATED,
    MEASURED,
    NET,
    NOT_SAID,
    NOT_VALIDATED,
    POSSIBLY_ESTIMATED,
    RECEIVED,
    SUSPECT,
    TOTAL,
    Readings,
    Said,
)
from dwellcalc.problems import InputError

SAMPLES = Path(__file__).parents[1].parent / "shared" / "reference" / "samples"
MEGABYTE = 1_000_000


def read(feed: Feed | bytes, said: Said | None = None) -> Readings:
    raw = feed if isinstance(feed, bytes) else feed.raw()
    return read_espi(io.BytesIO(raw), "feed.xml", said or Said())


def refused(feed: Feed | bytes) -> tuple[str, str]:
    """The key and the text of the one message."""
    with pytest.raises(InputError) as caught:
        read(feed)
    assert len(caught.value.problems) == 1
    return caught.value.problems[0].message.key, str(caught.value)


# What is read


@pytest.mark.parametrize("prefix", ["", "espi", "ns1"])
@pytest.mark.parametrize("linked", [True, False])
def test_one_meter_with_any_prefix_with_and_without_links(prefix: str, linked: bool) -> None:
    feed = Feed(prefix, linked).point(title="Front meter").block([100, 250, 0, 400]).meter_reading().reading_type()
    readings = read(feed)
    (channel,) = readings.channels
    assert (channel.meter, channel.direction, channel.one_line, channel.declared_length) == ("Front meter", DELIVERED, False, 900)
    assert list(channel.starts) == [JANUARY + 900 * place for place in range(4)]
    assert list(channel.lengths) == [900] * 4
    assert list(channel.energy) == [100.0, 250.0, 0.0, 400.0]
    assert list(channel.quality) == [MEASURED] * 4
    assert channel.step == 50.0
    assert readings.name == "feed.xml"


def test_other_prefixes_of_the_atom_elements() -> None:
    text = plain_feed().text()
    for name in ("feed", "entry", "link", "title", "content"):
        text = text.replace(f"<{name}", f"<a:{name}").replace(f"</{name}", f"</a:{name}")
    assert list(read(text.replace("xmlns=", "xmlns:a=", 1).encode()).channels[0].energy) == [100, 200, 300, 400]


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16"])
def test_encodings(encoding: str) -> None:
    text = plain_feed().text().replace("Front meter", "Zähler").replace('encoding="UTF-8"', "")
    assert read(text.encode(encoding)).channels[0].meter == "Zähler"


def test_comments_instructions_and_foreign_elements_are_passed_over() -> None:
    text = plain_feed().text()
    text = text.replace("<feed", '<?xml-stylesheet type="text/xsl" href="a.xslt"?><!-- long -->\n<feed', 1)
    text = text.replace("<start>", "<!-- noon --><start>").replace("<value>", "<x:value xmlns:x='urn:x'>7</x:value><value>")
    person = "<entry><content><c:Customer xmlns:c='http://naesb.org/espi/customer'><c:name>Nobody At All</c:name></c:Customer>"
    text = text.replace("</feed>", f"{person}</content></entry></feed>")
    readings = read(b"\n " + text.encode())
    assert list(readings.channels[0].energy) == [100, 200, 300, 400]
    assert "Nobody" not in repr(readings)


def test_a_reading_type_may_be_named_by_its_collection() -> None:
    text = plain_feed().text().replace('rel="related" href="RT/1"', 'rel="related" href="RT"')
    assert len(read(text.encode()).channels[0]) == 4


def test_pages_may_repeat_resources() -> None:
    feed = plain_feed([1, 2])
    feed.entries += feed.entries[:3]
    feed.block([3], start=JANUARY + 1800, number=2)
    assert list(read(feed).channels[0].energy) == [1, 2, 3]


def several_meters(titles: tuple[str, str] = ("Front", "Back"), linked: bool = True) -> Feed:
    feed = Feed(linked=linked)
    for number, title in enumerate(titles, start=1):
        feed.point(number, title=title).meter_reading(1, number, type_number=number).reading_type(number)
    for number in (2, 1):
        feed.block([number * 10, number * 20], point=number)
    return feed


def test_several_usage_points_are_several_channels() -> None:
    channels = {channel.meter: list(channel.energy) for channel in read(several_meters()).channels}
    assert channels == {"Front": [10, 20], "Back": [20, 40]}


def test_usage_points_with_one_title_are_named_by_their_links() -> None:
    assert {channel.meter for channel in read(several_meters(("Home", "Home"))).channels} == {"UP/1", "UP/2"}


def test_without_links_several_are_ambiguous() -> None:
    key, text = refused(several_meters(linked=False))
    assert key == "espi_ambiguous"
    assert "there are 2 of them" in text


def test_two_reading_types_without_links_are_ambiguous() -> None:
    feed = Feed(linked=False).reading_type(1).reading_type(2, flowDirection=19).block([1])
    assert refused(feed)[0] == "espi_ambiguous"


def test_two_meter_readings_of_one_direction_get_names_of_their_own() -> None:
    feed = Feed().point(title="Home").meter_reading(1, title="Quarters").meter_reading(2, title="Hours")
    feed.reading_type(1).reading_type(2, intervalLength=3600).block([1]).block([4], length=3600, meter_reading=2)
    assert [channel.meter for channel in read(feed).channels] == ["Home, Quarters", "Home, Hours"]


@pytest.mark.parametrize(
    ("power", "factor"),
    [(-12, 1e-12), (-6, 1e-6), (-3, 1e-3), (-2, 0.01), (-1, 0.1), (0, 1.0), (1, 10.0), (2, 100.0), (3, 1000.0), (12, 1e12)],
)
def test_multipliers(power: int, factor: float) -> None:
    (channel,) = read(plain_feed([1, 3, 1660], powerOfTenMultiplier=power)).channels
    assert list(channel.energy) == pytest.approx([factor, 3 * factor, 1660 * factor], rel=1e-15)
    assert channel.step == pytest.approx(factor)


def test_an_absent_multiplier_is_told() -> None:
    readings = read(plain_feed(powerOfTenMultiplier=None))
    assert list(readings.channels[0].energy) == [100, 200, 300, 400]
    assert any("power of ten" in remark for remark in readings.remarks)


@pytest.mark.parametrize("power", [-4, 4, 5, 24])
def test_a_strange_multiplier_is_refused(power: int) -> None:
    assert refused(plain_feed(powerOfTenMultiplier=power))[0] == "espi_multiplier"


@pytest.mark.parametrize("kind", [37, 8, 0, None])
def test_average_power_becomes_energy(kind: int | None) -> None:
    (channel,) = read(plain_feed([4000, 8000], uom=38, kind=kind)).channels
    assert list(channel.energy) == [1000.0, 2000.0]
    assert channel.step == 1000.0


@pytest.mark.parametrize(
    ("flow", "direction"), [(1, DELIVERED), (19, RECEIVED), (4, NET), (20, TOTAL), (0, NOT_SAID), (None, NOT_SAID)]
)
def test_directions(flow: int | None, direction: str) -> None:
    assert read(plain_feed(flowDirection=flow)).channels[0].direction == direction


def test_both_directions_of_one_meter() -> None:
    feed = Feed().point(title="Home").meter_reading(1).meter_reading(2).reading_type(1).reading_type(2, flowDirection=19)
    feed.block([5, 0]).block([0, 7], meter_reading=2)
    assert [(c.meter, c.direction, list(c.energy)) for c in read(feed).channels] == [
        ("Home", DELIVERED, [5, 0]),
        ("Home", RECEIVED, [0, 7]),
    ]


def test_negative_values_stay() -> None:
    assert list(read(plain_feed([-5, " 12 ", 7], flowDirection=4)).channels[0].energy) == [-5, 12, 7]


@pytest.mark.parametrize("phase", [769, 784, 0, None, 225])
def test_phases_of_a_whole_service(phase: int | None) -> None:
    assert not read(plain_feed(phase=phase)).channels[0].one_line


@pytest.mark.parametrize("phase", [528, 512, 272, 256])
def test_phases_of_one_line(phase: int) -> None:
    readings = read(plain_feed(phase=phase))
    assert readings.channels[0].one_line
    assert any("one line conductor" in remark for remark in readings.remarks)


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"phase": 768}, "between the lines only"),
        ({"commodity": 2}, "instrument transformers"),
        ({"measuringPeriod": 71}, "sliding"),
        ({"accumulationBehaviour": 0}, "what flowed in each interval"),
        ({"accumulationBehaviour": None}, "what flowed in each interval"),
    ],
)
def test_what_of_a_reading_type_is_told(values: dict[str, Any], told: str) -> None:
    readings = read(plain_feed(**values))
    assert len(readings.channels) == 1
    assert sum(told in remark for remark in readings.remarks) == 1


@pytest.mark.parametrize("behaviour", [1, 2, 3, 6, 9, 12, 13, 14, 99])
@pytest.mark.parametrize("unit", [{"uom": 72, "kind": 12}, {"uom": 38, "kind": 37}])
def test_registers_and_spot_values_are_refused(behaviour: int, unit: dict[str, int]) -> None:
    assert refused(plain_feed(accumulationBehaviour=behaviour, **unit))[0] == "espi_accumulation"


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"uom": 73}, "varh"),
        ({"uom": 71}, "VAh"),
        ({"uom": 29}, "volts"),
        ({"uom": 169}, "therms"),
        ({"uom": 999}, "999"),
        ({"uom": None}, "unit is not said"),
        ({"kind": 37}, "kind has the code 37"),
        ({"uom": 38, "kind": 12}, "kind has the code 12"),
        ({"dataQualifier": 8}, "maximum values"),
        ({"dataQualifier": 9}, "minimum values"),
        ({"commodity": 7}, "not of electricity"),
        ({"flowDirection": 5}, "flow direction has the code 5"),
    ],
)
def test_what_is_no_load(values: dict[str, Any], told: str) -> None:
    key, text = refused(plain_feed(**values))
    assert key == "espi_no_load"
    assert told in text


def test_what_is_no_load_is_left_out_beside_a_load() -> None:
    feed = Feed().point(title="Home")
    for number, values in enumerate(({}, {"uom": 73}, {"accumulationBehaviour": 3}), start=1):
        feed.meter_reading(number, title=f"series {number}").reading_type(number, **values).block([number], meter_reading=number)
    readings = read(feed)
    assert [list(channel.energy) for channel in readings.channels] == [[1]]
    assert sum("left out" in remark for remark in readings.remarks) == 2


def test_a_register_of_what_returns_is_not_passed_over() -> None:
    feed = Feed().point().meter_reading(1).meter_reading(2).reading_type(1)
    feed.reading_type(2, flowDirection=19, accumulationBehaviour=3).block([1]).block([2], meter_reading=2)
    assert refused(feed)[0] == "espi_accumulation"


def test_gas_is_left_out() -> None:
    feed = Feed().point(1, title="Home").point(2, title="Stove", **{"ServiceCategory/kind": " 1 "})
    feed.meter_reading(1, 1, 1).meter_reading(1, 2, 2).reading_type(1).reading_type(2).block([1]).block([9], point=2)
    readings = read(feed)
    assert [channel.meter for channel in readings.channels] == ["Home"]
    assert any('"Stove"' in remark and "gas" in remark for remark in readings.remarks)


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"roleFlags": "0010"}, "generation"),
        ({"roleFlags": "0008"}, "vehicle"),
        ({"roleFlags": "0004"}, "sums up"),
        ({"roleFlags": "xyz"}, "hexadecimal"),
        ({"status": 0}, "it is off"),
        ({"connectionState": "logicallyDisconnected"}, "disconnected"),
        ({"checkBilling": "true"}, "suspected"),
        ({"amiBillingReady": "nonAmi"}, "not read by intervals"),
    ],
)
def test_what_of_a_usage_point_is_told(values: dict[str, Any], told: str) -> None:
    readings = read(Feed().point(**values).meter_reading().reading_type().block([1]))
    assert sum(told in remark for remark in readings.remarks) == 1


QUALITY_CLASSES = [
    *[(code, MEASURED) for code in (0, 18, 19)],
    *[(17, POSSIBLY_ESTIMATED), (14, NOT_VALIDATED), (7, EDITED)],
    *[(code, ESTIMATED) for code in (8, 9, 11, 12, 15)],
    *[(code, SUSPECT) for code in (10, 13, 16)],
]


@pytest.mark.parametrize(("code", "quality"), QUALITY_CLASSES)
def test_qualities(code: int, quality: int) -> None:
    feed = Feed().reading_type().block([1, 2], qualities={1: [code]})
    assert list(read(feed).channels[0].quality) == [MEASURED, quality]
    default = Feed().reading_type(defaultQuality=code).block([1, 2], qualities={1: [0]})
    assert list(read(default).channels[0].quality) == [quality, MEASURED]


def test_the_worst_of_several_qualities_and_strange_ones() -> None:
    feed = Feed().reading_type().block([1, 2, 3], qualities={0: [0, 8, 14], 1: [77], 2: [14, 17]})
    readings = read(feed)
    assert list(readings.channels[0].quality) == [ESTIMATED, SUSPECT, POSSIBLY_ESTIMATED]
    assert any('"77"' in remark for remark in readings.remarks)


# Times


def test_readings_without_a_time_follow_from_their_block() -> None:
    feed = Feed().reading_type().block([1, 2, 3], timed=False).block([4], start=JANUARY + 9000, timed=False, number=2)
    channel = read(feed).channels[0]
    assert list(channel.starts) == [JANUARY, JANUARY + 900, JANUARY + 1800, JANUARY + 9000]
    assert list(channel.lengths) == [900] * 4


def test_readings_without_a_time_count_among_those_with_one() -> None:
    untimed = "<IntervalReading><value>8</value></IntervalReading>"
    assert list(read(Feed().reading_type().block([1, 2], more=untimed)).channels[0].starts)[-1] == JANUARY + 1800


def test_a_reading_without_a_duration_takes_the_declared_one() -> None:
    text = plain_feed([1, 2]).text().replace("<timePeriod><duration>900</duration>", "<timePeriod>")
    assert list(read(text.encode()).channels[0].lengths) == [900, 900]


def test_nothing_says_how_long_or_when() -> None:
    assert refused(Feed().reading_type(intervalLength=None).block([1], timed=False))[0] == "espi_no_length"
    assert refused(Feed().reading_type().block([1], timed=False, interval=False))[0] == "espi_untimed"


def test_the_own_duration_goes_before_the_declared_one() -> None:
    feed = Feed().reading_type().block([1]).block([4, 5], start=JANUARY + 900, length=3600, number=2)
    readings = read(feed)
    assert list(readings.channels[0].lengths) == [900, 3600, 3600]
    assert readings.channels[0].declared_length == 900
    assert any(
        remark.startswith("2 readings of another length") and "2023-01-01 00:15:00" in remark for remark in readings.remarks
    )


def test_no_duration_at_all_and_one_of_days() -> None:
    feed = Feed().reading_type(intervalLength=None).block([1]).block([2], start=JANUARY + 900, length=0, number=2)
    readings = read(feed.block([3], start=JANUARY + 1800, length=172800, number=3))
    assert list(readings.channels[0].energy) == [1, 3]
    assert any("1 reading without duration left out, the first at 2023-01-01 00:15:00 UTC" in each for each in readings.remarks)
    assert any("1 reading longer than a day" in each for each in readings.remarks)


@pytest.mark.parametrize(
    ("start", "told"),
    [(915148800, "before the year 2000"), (4102444800, "in the future"), (JANUARY * 1000, "milliseconds"), (0, "2000")],
)
def test_moments_that_cannot_be(start: int, told: str) -> None:
    key, text = refused(Feed().reading_type().block([1], start=start))
    assert key == "espi_out_of_time"
    assert told in text


@pytest.mark.parametrize("value", ["1.5", "1e3", "NaN", "", "--1", "1_000", "1,000", "١٢", "9" * 16, "999999999999999", "+4"])
def test_values_that_are_no_whole_numbers(value: str) -> None:
    assert refused(plain_feed([1, value]))[0] == "espi_not_a_number"


def test_a_reading_without_a_value_has_no_energy() -> None:
    energy = read(plain_feed([1, None, 3])).channels[0].energy
    assert energy[0] == 1
    assert math.isnan(energy[1])
    assert energy[2] == 3


# Zones


@pytest.mark.parametrize(
    ("local", "zone"),
    [
        ({}, "America/New_York"),
        ({"offset": -28800}, "America/Los_Angeles"),
        ({"offset": -25200, "start": "FFFFFFFF", "end": "FFFFFFFF"}, "Etc/GMT+7"),
        ({"offset": 36000, "saving": 0}, "Etc/GMT-10"),
        ({"offset": 0, "saving": 0}, "UTC"),
        ({"offset": -12600}, "UTC"),
        ({"offset": -18000, "start": "360E1000"}, "UTC"),
        ({"offset": "noon"}, "UTC"),
        ({"offset": 999999, "saving": 0}, "UTC"),
    ],
)
def test_zones_that_a_feed_tells(local: dict[str, Any], zone: str) -> None:
    readings = read(plain_feed().local_time(**local))
    assert readings.zone.key == zone
    assert any("time zone" in remark for remark in readings.remarks)


def test_without_a_zone_months_are_counted_in_utc() -> None:
    readings = read(plain_feed())
    assert readings.zone.key == "UTC"
    assert any("counted in UTC" in remark and "`time zone`" in remark for remark in readings.remarks)


def test_the_zone_that_the_user_says_goes_first() -> None:
    readings = read(plain_feed().local_time(), Said(time_zone="America/Denver"))
    assert readings.zone.key == "America/Denver"
    assert not any("zone" in remark for remark in readings.remarks)


@pytest.mark.parametrize("zone", ["Nowhere/At_All", "../etc/passwd", "/etc/localtime", "a\0b", "America"])
def test_a_zone_that_is_none(zone: str) -> None:
    with pytest.raises(InputError, match="no time zone"):
        read(plain_feed(), Said(time_zone=zone))


def test_rules_of_daylight_saving_in_words() -> None:
    assert rule_in_words(0x360E2000) == "second Sunday of March at 02:00"
    assert rule_in_words(0xB40E2000) == "first Sunday of November at 02:00"
    assert rule_in_words(0x3E0E1000) == "last Sunday of March at 01:00"
    assert rule_in_words(0x40F00000) == "April 15 at 00:00"
    assert rule_in_words(0x428E2000) == "Sunday on or after April 8 at 02:00"
    assert shown_offset(-12600) == "UTC-03:30"


@given(st.integers(0, 0xFFFFFFFF))
def test_any_rule_has_words(rule: int) -> None:
    assert rule_in_words(rule)


def test_what_the_user_says_and_the_feed_tells_itself() -> None:
    readings = read(plain_feed(), Said(unit="kWh", interval=900))
    assert sum("is not used" in remark for remark in readings.remarks) == 2


# Sums


def test_sums_of_the_last_and_the_running_period() -> None:
    values = {"billingPeriod__start": JANUARY, "billingPeriod__duration": 3600, "statusTimeStamp": JANUARY + 7200}
    last = {
        f"overallConsumptionLastPeriod__{key}": value for key, value in {"powerOfTenMultiplier": 3, "uom": 72, "value": 2}.items()
    }
    now = {f"currentBillingPeriodOverAllConsumption__{key}": value for key, value in {"uom": 72, "value": 70}.items()}
    feed = plain_feed().summary(**values, **last, **now)
    assert sorted(read(feed).summed) == [(JANUARY, JANUARY + 3600, 2000.0), (JANUARY + 3600, JANUARY + 7200, 70.0)]
    old = plain_feed().summary(name="ElectricPowerUsageSummary", **values, **last)
    assert read(old).summed == [(JANUARY, JANUARY + 3600, 2000.0)]


def test_a_running_sum_within_its_period() -> None:
    now = {f"currentBillingPeriodOverAllConsumption__{key}": value for key, value in {"uom": 72, "value": 70}.items()}
    values = {"billingPeriod__start": JANUARY, "billingPeriod__duration": 9000, "statusTimeStamp": JANUARY + 1800}
    assert read(plain_feed().summary(**values, **now)).summed == [(JANUARY, JANUARY + 1800, 70.0)]


@pytest.mark.parametrize("wrong", [{"uom": 73}, {"uom": 72, "value": "x"}, {"uom": 72, "powerOfTenMultiplier": 999999}])
def test_sums_that_tell_nothing(wrong: dict[str, Any]) -> None:
    values = {f"overallConsumptionLastPeriod__{key}": value for key, value in {"value": 5, **wrong}.items()}
    assert read(plain_feed().summary(billingPeriod__start=JANUARY, billingPeriod__duration=900, **values)).summed == []


def test_sums_of_several_meters_are_of_the_one_that_is_meant() -> None:
    values = {"billingPeriod__start": JANUARY, "billingPeriod__duration": 900}
    feed = several_meters()
    for point in (1, 2):
        feed.summary(point, **values, overallConsumptionLastPeriod__uom=72, overallConsumptionLastPeriod__value=point)
    assert read(feed).summed == []
    assert read(feed, Said(meter="Back")).summed == [(JANUARY, JANUARY + 900, 2.0)]


# Samples


@pytest.mark.parametrize(
    ("name", "count", "energy", "kilowatts", "zone"),
    [
        ("gba_test_usage_data.xml", 1340, 1660, 6.64, "America/New_York"),
        ("energyos_15minLP_15Days.xml", 1340, 1662, 6.648, "America/New_York"),
        ("energyos_v0.7_Desert_Single_Family_2011.xml", 8759, 3650, 3.65, "America/Los_Angeles"),
    ],
)
def test_samples(name: str, count: int, energy: int, kilowatts: float, zone: str) -> None:
    path = SAMPLES / name
    if not path.is_file():
        pytest.skip(f"the sample {name} is not here")
    with path.open("rb") as stream:
        readings = read_espi(stream, name, Said())
    (channel,) = readings.channels
    assert (len(channel), max(channel.energy), readings.zone.key) == (count, energy, zone)
    most = max(energy / length for energy, length in zip(channel.energy, channel.lengths))
    assert most * 3.6 == pytest.approx(kilowatts)
    if name.startswith("gba"):
        assert {quality: list(channel.quality).count(quality) for quality in (EDITED, ESTIMATED, MEASURED)} == {
            3: 1,
            4: 1,
            0: 1338,
        }
    if count == 8759:  # of 8,760, one without duration
        assert sorted(set(channel.lengths)) == [3600, 7200]
        assert any("1 reading without duration left out, the first at 2011-11-06" in remark for remark in readings.remarks)
    else:
        for begin, end, stated in readings.summed:
            assert stated == sum(each for start, each in zip(channel.starts, channel.energy) if begin <= start < end)
        assert len(readings.summed) == 2


# Hostile and damaged feeds


def either(raw: bytes, act: Callable[[bytes], object] = read) -> bool:
    """Readings, or one error with its messages; whether they are readings."""
    try:
        act(raw)
    except InputError as error:
        assert error.problems
        assert str(error)
        return False
    return True


def test_a_feed_that_breaks_off() -> None:
    raw = plain_feed(range(200)).raw()
    for part in range(20):
        assert refused(raw[: len(raw) * part // 20])[0] == "espi_not_xml"


def test_a_feed_with_bytes_changed() -> None:
    raw = plain_feed(range(40)).local_time().summary(billingPeriod__start=JANUARY).raw()
    chance = random.Random(1)
    for _ in range(400):
        changed = bytearray(raw)
        for _ in range(chance.randint(1, 4)):
            changed[chance.randrange(len(changed))] = chance.choice([chance.randrange(256), *b'0123456789-<>/"'])
        either(bytes(changed))


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=300))
def test_random_bytes(raw: bytes) -> None:
    assert not either(raw)


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(st.sampled_from(sorted(espi_feed.WANTED["ReadingType"])), st.text("0123456789-aF .", max_size=12)))
def test_random_fields(values: dict[str, str]) -> None:
    either(plain_feed(**values).raw())


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(-(10**16), 10**16)), st.integers(-(10**16), 10**16), st.integers(-5, 10**11), st.booleans())
def test_random_readings(values: list[int], start: int, length: int, timed: bool) -> None:
    either(Feed().reading_type().block(values, start, length, timed=timed).raw())


class Endless(io.RawIOBase):
    """A stream that begins with one text and then repeats another, a number in it counting up."""

    def __init__(self, head: bytes, body: Callable[[int], bytes], most: int) -> None:
        self.rest, self.body, self.most, self.count = head, body, most, 0
        self.given = 0

    def read(self, size: int = -1) -> bytes:
        while len(self.rest) < size and self.given < self.most:
            self.rest += self.body(self.count)
            self.count += 1
        result, self.rest = self.rest[:size], self.rest[size:]
        self.given += len(result)
        return result


ATOM = b'<feed xmlns="http://www.w3.org/2005/Atom" xmlns:e="http://naesb.org/espi">'
LONG = b"x" * 65536
HOSTILE: dict[str, tuple[bytes, Callable[[int], bytes]]] = {
    "a comment": (b"<!--", lambda count: LONG),
    "an attribute": (b"<feed a='", lambda count: LONG),
    "an instruction": (b"<?a ", lambda count: LONG),
    "a text": (ATOM, lambda count: LONG),
    "character data": (ATOM + b"<![CDATA[", lambda count: LONG),
    "names": (ATOM, lambda count: b"".join(b"<n%d/>" % (count * 1000 + place) for place in range(1000))),
    "prefixes": (ATOM, lambda count: b"".join(b"<n xmlns:n%d='u'/>" % (count * 1000 + place) for place in range(1000))),
    "depth": (ATOM, lambda count: b"<a>" * 1000),
    "resources": (ATOM, lambda count: b"<entry><e:UsagePoint/></entry>" * 1000),
    "resources of an entry": (ATOM + b"<entry>", lambda count: b"<e:UsagePoint/>" * 1000),
    "links": (ATOM + b"<entry>", lambda count: b"<link rel='self' href='" + LONG + b"'/>"),
}


@pytest.mark.parametrize("what", HOSTILE)
def test_what_grows_without_end(what: str) -> None:
    stream = Endless(*HOSTILE[what], most=64 * MEGABYTE)
    tracemalloc.start()
    with pytest.raises(InputError, match="no interval data as the standard has it"):
        read_espi(stream, "feed.xml", Said())  # type: ignore[arg-type]
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 8 * MEGABYTE


@pytest.mark.parametrize(
    ("limit", "module"), [("MOST_ELEMENTS", safe_xml), ("MOST_READINGS", espi_feed), ("MOST_BLOCKS", espi_feed)]
)
def test_limits_that_are_too_high_to_reach_here(limit: str, module: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, limit, 1)
    assert refused(plain_feed().block([1], number=2))[0] == "espi_beyond_bounds"


BOMB = "".join(f'<!ENTITY a{place} "{f"&a{place - 1};" * 10}">' for place in range(1, 10))


@pytest.mark.parametrize(
    "head",
    [
        "<!DOCTYPE feed>",
        f'<!DOCTYPE feed [<!ENTITY a0 "ha">{BOMB}]>',
        f'<!DOCTYPE feed [<!ENTITY a "{"x" * 50000}">]>',
        '<!DOCTYPE feed [<!ENTITY a SYSTEM "file:///etc/passwd">]>',
        '<!DOCTYPE feed SYSTEM "http://example.invalid/a.dtd">',
        '<!DOCTYPE feed [<!ENTITY % a SYSTEM "http://example.invalid/a.dtd">%a;]>',
    ],
)
def test_declarations_are_refused(head: str) -> None:
    text = plain_feed().text().replace("<feed", f"{head}<feed", 1)
    assert refused(text.encode())[0] == "espi_declarations"


def test_a_large_feed_takes_little_memory() -> None:
    raw = plain_feed(range(1, 20001)).raw()
    tracemalloc.start()
    readings = read(raw)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert len(readings.channels[0]) == 20000
    assert peak < len(raw)
