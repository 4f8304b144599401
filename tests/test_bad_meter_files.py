"""One broken case for every message of files of interval data, with the full text that a user reads.

A case bears the key of its message; beside ``bad/meter_files/KEY.expected`` stands the file itself, if it is text, and
otherwise it is made here. Run pytest with ``--rewrite-expected`` to write the texts anew, and read the difference.
"""

from __future__ import annotations

import gzip
import io
import zipfile
from collections.abc import Callable
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from feeds import plain_feed

from dwellcalc.meter.files.containers import opened
from dwellcalc.meter.files.packed import MOST_MEMBERS
from dwellcalc.meter.files.text_lines import LONGEST_LINE
from dwellcalc.meter.read import read_record
from dwellcalc.meter.record import Channel, Readings, Said
from dwellcalc.meter.serving import serving
from dwellcalc.problems import InputError

CASES = Path(__file__).parent / "bad" / "meter_files"
TABLE = b"start,kWh\n2023-01-01 00:00,0.25\n2023-01-01 00:15,0.5\n"


def zipped(**members: bytes) -> bytes:
    """A zip file; ``__`` in a name is a slash."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members.items():
            archive.writestr(name.replace("__", "/"), content)
    return packed.getvalue()


def protected() -> bytes:
    """A zip file of which each mention of its member says that it needs a password."""
    raw = bytearray(zipped(table=TABLE))
    for mark, place in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        raw[raw.index(mark) + place] |= 1
    return bytes(raw)


MADE: dict[str, Callable[[], bytes]] = {
    "meter_file_damaged": lambda: gzip.compress(TABLE * 100)[:-20],
    "meter_file_encrypted": protected,
    "meter_file_ratio": lambda: gzip.compress(b"\n" * 20_000_000, 9),
    "meter_file_crowded": lambda: zipped(**{f"day_{day}": TABLE for day in range(MOST_MEMBERS + 1)}),
    "meter_file_packing": lambda: b"7z\xbc\xaf\x27\x1c\x00\x04" + bytes(40),
    "meter_file_office": lambda: zipped(xl__workbook=b"<workbook/>"),
    "meter_file_nested": lambda: gzip.compress(zipped(table=TABLE)),
    "meter_file_no_data": lambda: zipped(guide=b"%PDF-1.4", photo=b"\x89PNG\r\n"),
    "meter_file_mixed": lambda: zipped(feed=plain_feed().raw(), table=TABLE),
    "meter_file_not_data": lambda: b"%PDF-1.4 a bill",
    "meter_file_nul": lambda: TABLE * 3000 + b"2023-01-01 00:30,\x00\n",
    "meter_file_encoding": lambda: TABLE + b"2023-01-01 00:30,\x81\x8d\n",
    "meter_file_long_line": lambda: TABLE + b"1," * LONGEST_LINE,
}
SAID = {"espi_unknown_zone": Said(time_zone="America/Denvr")}
CHANNELS: dict[str, tuple[Said, list[Channel]]] = {  # of files that can be read, of which no channel serves
    "meter_several": (Said(), [Channel(meter="A-1", direction="delivered"), Channel(meter="B-2", direction="delivered")]),
    "meter_absent": (Said(meter="A-2"), [Channel(meter="A-1", direction="delivered")]),
    "meter_no_load": (Said(), [Channel(meter="A-1", direction="received")]),
}


def names() -> list[str]:
    return sorted({path.stem for path in CASES.iterdir()})


def read_all(path: Path, said: Said) -> None:
    """Feeds are read; of tables only the lines, so that this rests on no reader of them."""
    with opened(path) as parts:
        tables = [part for part in parts if not part.is_xml and [line for line in part.lines()]]
    if not tables:
        read_record(path, said, {})


@pytest.mark.parametrize("name", CHANNELS)
def test_files_of_which_no_channel_serves(name: str, rewrite_expected: bool) -> None:
    said, channels = CHANNELS[name]
    for channel in channels:
        channel.add(0, 900, 250.0)
    with pytest.raises(InputError) as caught:
        serving(Readings("year.csv", [], ZoneInfo("UTC"), channels), said)
    agree(name, caught.value, rewrite_expected)


@pytest.mark.parametrize("name", [name for name in names() if name not in CHANNELS])
def test_broken_meter_files(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, rewrite_expected: bool) -> None:
    path = Path(f"{name}.xml")
    if name in MADE:
        monkeypatch.chdir(tmp_path)
        path = Path(name)
        path.write_bytes(MADE[name]())
    else:
        monkeypatch.chdir(CASES)
    with pytest.raises(InputError) as caught:
        read_all(path, SAID.get(name, Said()))
    agree(name, caught.value, rewrite_expected)


def agree(name: str, error: InputError, rewrite: bool) -> None:
    """The message is given, no other is, and the text is the expected one."""
    assert {problem.message.key for problem in error.problems} == {name}
    expected = CASES / f"{name}.expected"
    if rewrite:
        expected.write_text(f"{error}\n", encoding="utf-8")
    assert f"{error}\n" == expected.read_text(encoding="utf-8")


def test_every_case_is_whole() -> None:
    assert {path.suffix for path in CASES.iterdir()} <= {".xml", ".expected"}
    for name in names():
        assert (CASES / f"{name}.expected").is_file(), f"{name} has no expected text"
        assert (name in {*MADE, *CHANNELS}) != (CASES / f"{name}.xml").is_file(), f"{name} has no case, or two"
