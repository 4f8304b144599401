"""From a path to content: plain, gzip and zip files, encodings, hostile files; records of several parts; cleaning."""

from __future__ import annotations

import gzip
import io
import os
import random
import time
import tracemalloc
import zipfile
import zlib
from pathlib import Path

import pytest
from examples import rules_of
from feeds import JANUARY, Feed, plain_feed
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dwellcalc.meter.cleaned import Cleaned, cleaned
from dwellcalc.meter.files import packed
from dwellcalc.meter.files.containers import opened
from dwellcalc.meter.read import read_record
from dwellcalc.meter.record import DELIVERED, ESTIMATED, MEASURED, SUSPECT, Channel, Readings, Said
from dwellcalc.problems import InputError

HEADINGS = rules_of("nec/2023").glossary.interval_columns

TEXT = "start,kWh\n2023-01-01 00:00,0.25\n2023-01-01 00:15,0.5\n"
LINES = TEXT.splitlines()
MEGABYTE = 1_000_000


def zipped(members: dict[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    raw = io.BytesIO()
    with zipfile.ZipFile(raw, "w", method) as archive:
        for name, content in members.items():
            archive.writestr(name, content)
    return raw.getvalue()


def contents(raw: bytes, folder: Path, name: str = "record.any") -> list[tuple[str, list[str] | bytes]]:
    """Each part: its name, and its lines or, of XML, its bytes."""
    path = folder / name
    path.write_bytes(raw)
    with opened(path, "record") as parts:
        return [(part.name, part.stream.read() if part.is_xml else list(part.lines())) for part in parts]


def refused(raw: bytes, folder: Path) -> str:
    with pytest.raises(InputError) as caught:
        contents(raw, folder)
    assert len(caught.value.problems) == 1
    assert str(caught.value)
    return caught.value.problems[0].message.key


# Forms


@pytest.mark.parametrize("name", ["record.csv", "record.xml", "record.zip", "record"])
def test_content_decides_and_not_the_name(name: str, tmp_path: Path) -> None:
    assert contents(TEXT.encode(), tmp_path, name) == [("record", LINES)]
    assert contents(b"\n <feed/>", tmp_path, name) == [("record", b"\n <feed/>")]
    assert contents(gzip.compress(TEXT.encode()), tmp_path, name) == [("record", LINES)]
    assert contents(zipped({"a.xml": TEXT.encode()}), tmp_path, name) == [("record", LINES)]


def test_several_members_of_gzip_follow_each_other(tmp_path: Path) -> None:
    raw = gzip.compress(TEXT[:30].encode()) + gzip.compress(TEXT[30:].encode()) + bytes(100)
    assert contents(raw, tmp_path) == [("record", LINES)]


@pytest.mark.parametrize("method", [zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED])
def test_what_lies_beside_the_data_is_passed_over(method: int, tmp_path: Path) -> None:
    beside = {
        "folder/": b"",
        "__MACOSX/._data.csv": b"\0\5\26\7 1,2\n3,4\n5,6\n",
        ".DS_Store": b"\0\0\0\1",
        "bill.pdf": b"%PDF-1.4 1,2\n",
        "README.txt": b"This is your data, as you asked.\nRead it with care, all of it.\n",
        "show.xslt": b'<?xml version="1.0"?><!-- a style --><xsl:stylesheet xmlns:xsl="urn:x"/>',
        "empty.csv": b"",
    }
    assert contents(zipped({**beside, "folder/data.txt": TEXT.encode()}, method), tmp_path) == [("record", LINES)]
    assert contents(zipped({**beside, "folder/data": b"<feed/>"}, method), tmp_path) == [("record", b"<feed/>")]


def test_a_lone_text_is_data_whatever_it_looks_like(tmp_path: Path) -> None:
    assert contents(zipped({"a": b"one line"}), tmp_path) == [("record", ["one line"])]


def test_several_data_members_are_several_parts(tmp_path: Path) -> None:
    found = contents(zipped({"one.csv": TEXT.encode(), "two\x1b.csv": TEXT.encode()}), tmp_path)
    assert found == [("record > one.csv", LINES), ("record > two?.csv", LINES)]
    assert len(contents(zipped({"one": b"<a/>", "two": b"<b/>"}), tmp_path)) == 2


# Texts


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_encodings_and_line_ends(encoding: str, end: str, tmp_path: Path) -> None:
    text = "Zähler,Energie\x85\x0b\n2023-01-01 00:00,1\n\n2023-01-01 00:15,2".replace(
        "\x85", "" if encoding == "cp1252" else "\x85"
    )
    lines = text.split("\n")
    assert contents(text.replace("\n", end).encode(encoding), tmp_path) == [("record", lines)]


def test_a_mark_of_the_other_end(tmp_path: Path) -> None:
    assert contents(b"\xfe\xff" + TEXT.encode("utf-16-be"), tmp_path) == [("record", LINES)]


def test_one_letter_of_another_encoding_far_down(tmp_path: Path) -> None:
    raw = TEXT.encode() * 5000 + "été\n".encode("cp1252") + b"1,2\n"
    (_, lines) = contents(raw, tmp_path)[0]
    assert list(lines[-2:]) == ["été", "1,2"]
    assert len(lines) == 15002


@pytest.mark.parametrize("size", [65535, 65536, 65537])
def test_letters_and_line_ends_across_chunks(size: int, tmp_path: Path) -> None:
    text = "x" * (size - 1) + "é\r\n" + "y\n"
    assert contents(text.encode(), tmp_path) == [("record", ["x" * (size - 1) + "é", "y"])]
    text = "x" * (size // 2 - 1) + "é\r\n" + "y\n"
    assert contents(text.encode("utf-16"), tmp_path) == [("record", ["x" * (size // 2 - 1) + "é", "y"])]


@pytest.mark.parametrize(
    ("raw", "key"),
    [
        (b"", "file_empty"),
        (b"\x1f\x8b", "meter_file_damaged"),
        (gzip.compress(b"", mtime=0), "file_empty"),
        (TEXT.encode() * 5 + b"1,\0\n", "meter_file_nul"),
        (b"a,b\n1,\x81\n", "meter_file_encoding"),
        (b"\xff\xfe\x00\xd8a\x00", "meter_file_encoding"),
        (bytes(range(256)) * 4, "meter_file_not_data"),
        (b"\x89PNG\r\n\x1a\n", "meter_file_not_data"),
        (b"<!DOCTYPE html><html></html>", "meter_file_not_data"),
        (b"<!-- saved --><HTML lang='en'>", "meter_file_not_data"),
        (b"Rar!\x1a\x07", "meter_file_packing"),
        (b"BZh91AY", "meter_file_packing"),
        (bytes(257) + b"ustar", "meter_file_packing"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1", "meter_file_office"),
        (zipped({}), "meter_file_no_data"),
        (zipped({"[Content_Types].xml": b"<Types/>", "xl/sheet1.xml": b"<a/>"}), "meter_file_office"),
        (zipped({"content.xml": b"<a/>", "META-INF/manifest.xml": b"<a/>"}), "meter_file_office"),
        (zipped({"a.zip": zipped({"b": b"c"})}), "meter_file_nested"),
        (zipped({"a.gz": gzip.compress(b"c", mtime=0)}), "meter_file_nested"),
        (gzip.compress(gzip.compress(b"c", mtime=0), mtime=0), "meter_file_nested"),
        (zipped({"a": TEXT.encode()}, zipfile.ZIP_BZIP2), "meter_file_packing"),
        (zipped({"a": TEXT.encode()}, zipfile.ZIP_LZMA), "meter_file_packing"),
        (gzip.compress(TEXT.encode(), mtime=0) + b"rubbish", "meter_file_damaged"),
    ],
)
def test_what_is_refused(raw: bytes, key: str, tmp_path: Path) -> None:
    assert refused(raw, tmp_path) == key


def test_what_is_no_file(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path, tmp_path / "none", tmp_path / "pipe", Path("/dev/zero"), Path("a\0b"), tmp_path / ("x" * 5000)):
        with pytest.raises(InputError, match="cannot be read"), opened(path):
            pass


# Damaged and hostile files


def noise(count: int) -> bytes:
    chance = random.Random(3)
    return b"start,kWh\n" + b"".join(b"2023-01-01 00:00,%d\n" % chance.randrange(10**9) for _ in range(count))


@pytest.mark.parametrize("form", ["gzip", "zip"])
def test_packed_files_that_break_off(form: str, tmp_path: Path) -> None:
    raw = gzip.compress(noise(50_000)) if form == "gzip" else zipped({"a.csv": noise(50_000)})
    assert len(raw) > 3 * 65536  # so that the damage shows only after the first look
    for part in range(20):
        assert refused(raw[: len(raw) * part // 20], tmp_path) == ("meter_file_damaged" if part else "file_empty")


def test_packed_files_with_bytes_changed(tmp_path: Path) -> None:
    chance = random.Random(2)
    for raw in (zipped({"a.csv": TEXT.encode(), "b.txt": b"note"}), gzip.compress(TEXT.encode())):
        for _ in range(300):
            changed = bytearray(raw)
            for _ in range(chance.randint(1, 3)):
                changed[chance.randrange(len(changed))] = chance.randrange(256)
            try:
                contents(bytes(changed), tmp_path)
            except InputError as error:
                assert len(error.problems) == 1
                assert error.problems[0].message.key != "file_not_readable"


@settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(head=st.sampled_from([b"", b"\x1f\x8b\x08", b"PK\x03\x04", b"\xff\xfe", b"<", b"PK\x05\x06"]), raw=st.binary(max_size=400))
def test_random_bytes(head: bytes, raw: bytes, tmp_path: Path) -> None:
    try:
        contents(head + raw, tmp_path)
    except InputError as error:
        assert len(error.problems) == 1


def peak_of(raw: bytes, folder: Path) -> tuple[str, int]:
    """The key of the message, and the memory taken on the way [bytes]; the lines are not kept."""
    path = folder / "record"
    path.write_bytes(raw)
    tracemalloc.start()
    try:
        with opened(path) as parts:
            for part in parts:
                for _ in part.lines():
                    pass
    except InputError as error:
        return error.problems[0].message.key, tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    return "", 0


def repeated(piece: bytes, megabytes: int) -> bytes:
    """A gzip file of one piece again and again, made without holding what it unpacks to."""
    packer = zlib.compressobj(9, zlib.DEFLATED, 31)
    block = piece * (MEGABYTE // len(piece))
    return b"".join(packer.compress(block) for _ in range(megabytes)) + packer.flush()


LINE = b"1,2," * 1000 + b"\n"


def test_a_gzip_bomb(tmp_path: Path) -> None:
    key, peak = peak_of(repeated(LINE, 30), tmp_path)
    assert key == "meter_file_ratio"
    assert peak < 4 * MEGABYTE


def test_a_zip_bomb(tmp_path: Path) -> None:
    for members in ({"a": LINE * 5000}, {str(place): LINE * 500 for place in range(8)}):
        key, peak = peak_of(zipped(members), tmp_path)
        assert key == "meter_file_ratio"
        assert peak < 4 * MEGABYTE


def test_more_than_may_be_unpacked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(packed.Allowance.__init__, "__defaults__", (2 * MEGABYTE, 0, None))
    raw = noise(100_000)
    for each in (raw, gzip.compress(raw, 1), zipped({"a": raw[: len(raw) // 2], "b": raw[: len(raw) // 2]})):
        assert peak_of(each, tmp_path)[0] == "file_too_large"


def test_a_line_without_an_end(tmp_path: Path) -> None:
    key, peak = peak_of(b"1,2\n" + b"x" * 20 * MEGABYTE, tmp_path)
    assert key == "meter_file_long_line"
    assert peak < 4 * MEGABYTE


def test_a_list_of_members_that_claims_to_be_long(tmp_path: Path) -> None:
    raw = bytearray(zipped({"a": TEXT.encode()}))
    raw[-10:-6] = (2_000_000).to_bytes(4, "little")
    assert refused(bytes(4 * MEGABYTE) + bytes(raw), tmp_path) in ("meter_file_damaged", "meter_file_not_data")
    assert refused(b"PK\x03\x04" + bytes(4 * MEGABYTE) + bytes(raw), tmp_path) == "meter_file_damaged"


# Records


def table(first: int, *energies: int) -> bytes:
    """A table of quarters of an hour from a clock hour on [Wh]."""
    rows = [
        f"2025-01-01T{first:02}:{15 * at:02}Z,2025-01-01T{first:02}:{15 * at + 14:02}:59Z,{energy}"
        for at, energy in enumerate(energies)
    ]
    return "\n".join(["Interval start,Interval end,Energy (Wh)", *rows, ""]).encode()


def record(raw: bytes, folder: Path, said: Said | None = None) -> Readings:
    path = folder / "record.zip"
    path.write_bytes(raw)
    return read_record(path, said or Said(interval=900), HEADINGS, "the record")


def test_records_of_tables(tmp_path: Path) -> None:
    assert list(record(table(6, 1, 2), tmp_path).channels[0].energy) == [1, 2]
    readings = record(zipped({"a": table(6, 1, 2), "b": table(7, 3, 4)}), tmp_path)
    (channel,) = readings.channels
    assert list(channel.energy) == [1, 2, 3, 4]
    assert readings.name == "the record"
    assert "read from 2 files in one" in readings.remarks
    assert readings.layout.count("values in Wh") == 1


@pytest.mark.parametrize("pack", [lambda raw: raw, gzip.compress, lambda raw: zipped({"a": raw})])
def test_records_of_feeds(pack: object, tmp_path: Path) -> None:
    readings = record(pack(plain_feed().raw()), tmp_path)  # type: ignore[operator]
    assert [list(channel.energy) for channel in readings.channels] == [[100, 200, 300, 400]]


def month(values: list[int], start: int, title: str = "Front", flow: int = 1, step: int = 0, length: int = 900) -> bytes:
    feed = (
        Feed()
        .point(title=title)
        .meter_reading()
        .reading_type(flowDirection=flow, powerOfTenMultiplier=step, intervalLength=length)
    )
    return feed.block(values, start, length).raw()


def test_parts_of_one_record_are_joined(tmp_path: Path) -> None:
    members = {
        "1.xml": month([1, 2], JANUARY),
        "2.xml": month([2, 3], JANUARY + 900, step=1),
        "3.xml": month([7], JANUARY, flow=19),
        "4.xml": month([8], JANUARY, title="Back"),
    }
    readings = record(zipped(members), tmp_path)
    assert [(c.meter, c.direction, list(c.energy)) for c in readings.channels] == [
        ("Front", DELIVERED, [1, 2, 20, 30]),
        ("Front", "received", [7]),
        ("Back", DELIVERED, [8]),
    ]
    assert readings.channels[0].step == 1.0
    assert readings.channels[0].declared_length == 900
    assert readings.remarks[0] == "read from 4 files in one"
    assert len(readings.remarks) == len(set(readings.remarks))


def test_parts_with_intervals_of_different_lengths(tmp_path: Path) -> None:
    readings = record(zipped({"1": month([1], JANUARY), "2": month([1], JANUARY + 900, length=3600)}), tmp_path)
    assert readings.channels[0].declared_length == 0
    assert any("different lengths" in remark for remark in readings.remarks)


def test_a_part_without_electricity_is_left_out(tmp_path: Path) -> None:
    gas = Feed().point(title="Stove", **{"ServiceCategory/kind": 1}).meter_reading().reading_type(uom=169).block([1]).raw()
    readings = record(zipped({"gas": gas, "power": month([1], JANUARY)}), tmp_path)
    assert len(readings.channels) == 1
    assert any("gas" in remark for remark in readings.remarks)
    with pytest.raises(InputError, match="no electrical energy"):
        record(zipped({"gas": gas}), tmp_path)


# Cleaning


def channel(*rows: tuple[int, int, float, int]) -> Channel:
    made = Channel("Front", DELIVERED, True, declared_length=900, step=2.0)
    for row in rows:
        made.add(*row)
    return made


def rows(of: Channel) -> list[tuple[int, int, str, int]]:
    return list(zip(of.starts, of.lengths, map(str, of.energy), of.quality))


def test_clean_readings_are_not_copied() -> None:
    for each in (channel(), channel((0, 900, 1, 0)), channel((0, 900, 1, 0), (900, 900, 1, 0), (3600, 900, 1, 0))):
        result, found = cleaned(each)
        assert result is each
        assert found == Cleaned()


def test_order_repeats_conflicts_and_overlaps() -> None:
    nothing = float("nan")
    made = channel(
        (1800, 900, 5, MEASURED),
        (0, 900, 1, MEASURED),
        (900, 900, 2, MEASURED),
        (900, 900, 3, MEASURED),
        (1800, 900, 5, ESTIMATED),
        (2700, 900, nothing, MEASURED),
        (2700, 900, 7, MEASURED),
        (3600, 3600, 8, MEASURED),
        (4500, 900, 9, MEASURED),
        (9000, 900, nothing, MEASURED),
        (9000, 900, nothing, MEASURED),
        (9900, 3600, 1, MEASURED),
        (9900, 900, 1, MEASURED),
    )
    before = rows(made)
    result, found = cleaned(made)
    assert rows(result) == [
        (0, 900, "1.0", MEASURED),
        (900, 900, "nan", SUSPECT),
        (1800, 900, "5.0", ESTIMATED),
        (2700, 900, "7.0", MEASURED),
        (3600, 3600, "8.0", MEASURED),
        (4500, 900, "9.0", MEASURED),
        (9000, 900, "nan", MEASURED),
        (9900, 900, "nan", SUSPECT),
    ]
    assert found == Cleaned(3, 1800, 2, 900, 1, 4500, disordered=True)
    assert (result.meter, result.direction, result.one_line, result.declared_length, result.step) == (
        "Front",
        DELIVERED,
        True,
        900,
        2.0,
    )
    assert rows(made) == before
    assert cleaned(result)[1] == Cleaned(overlaps=1, first_overlap=4500)


@given(
    st.lists(st.tuples(st.integers(0, 12), st.sampled_from([1, 2]), st.sampled_from([1.0, 2.0]), st.integers(0, 5)), max_size=30)
)
def test_any_readings_become_clean(made: list[tuple[int, int, float, int]]) -> None:
    result, found = cleaned(channel(*made))
    assert list(result.starts) == sorted({row[0] for row in made})
    of_each = {start: {row[1:3] for row in made if row[0] == start} for start in result.starts}
    assert found.conflicts == sum(len(each) > 1 for each in of_each.values())
    assert list(result.energy).count(1.0) + list(result.energy).count(2.0) == len(result) - found.conflicts
    in_conflict = {start for start, each in of_each.items() if len(each) > 1}
    assert found.repeats == sum(row[0] not in in_conflict for row in made) - (len(result) - found.conflicts)


def test_a_year_of_minutes_is_quick() -> None:
    made = Channel()
    made.starts.extend(range(0, 525_600 * 60, 60))
    made.lengths.extend([60] * 525_600)
    made.energy.extend([10.0] * 525_600)
    made.quality.extend(bytes(525_600))
    begun = time.perf_counter()
    result, _ = cleaned(made)
    assert result is made
    assert time.perf_counter() - begun < 0.7
