"""From a path to readable content: a plain file, what a gzip file holds, or the data files in a zip file.

What something is shows in its bytes, not in its name. Nothing is read into memory beyond a chunk.
"""

from __future__ import annotations

import stat
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO, BinaryIO, cast

from dwellcalc.meter.files.contents import (
    ARCHIVE,
    EMPTY,
    GZIP,
    OFFICE,
    OTHER,
    TABLE,
    XML,
    ZIP,
    content_of,
    encoding_of,
    is_numbered,
    is_style,
)
from dwellcalc.meter.files.packed import (
    BUFFER,
    PACKING,
    Allowance,
    buffered,
    opened_zip,
    unpacked_gzip,
    unpacked_member,
    unpacking,
)
from dwellcalc.meter.files.text_lines import lines_of
from dwellcalc.problems import fail, message
from dwellcalc.reading import EMPTY_FILE, NOT_READABLE

OFFICE_FOLDERS = ("xl/", "word/", "ppt/", "META-INF/manifest.xml")  # what marks a zip file as an office document
LONGEST_SHOWN = 120  # [characters] of the name of a member
SYSTEM_FOLDER = "__MACOSX"

OFFICE_DOCUMENT = message(
    "meter_file_office",
    'the file "{name}" is an office document',
    "open it as a spreadsheet, save the sheet as CSV, and name that file",
)
NESTED = message("meter_file_nested", 'the file "{name}" holds another packed file', "unpack it, and name the file with the data")
NO_DATA = message(
    "meter_file_no_data", 'the file "{name}" holds no file with interval data', "interval data is an ESPI feed or a CSV table"
)
MIXED = message(
    "meter_file_mixed",
    'the file "{name}" holds both feeds (XML) and tables: {first}, {second}',
    "unpack it, and name the one that is meant",
)
NOT_DATA = message(
    "meter_file_not_data", 'the file "{name}" is {what}, not interval data', "download interval data as an ESPI feed or as CSV"
)


@dataclass(frozen=True, slots=True)
class Part:
    """A data file to be read: the file itself, or one that it holds. It must be read before the next one is asked for.

    Attributes:
        name: what the user calls it.
        is_xml: whether it is XML; a table otherwise.
        stream: its bytes, unpacked, from the first one on.
        encoding: of a table; what is not UTF-8 falls back to Windows-1252.
        mark: how many bytes mark the encoding.
    """

    name: str
    is_xml: bool
    stream: BinaryIO
    encoding: str = "utf-8"
    mark: int = 0

    def lines(self) -> Iterator[str]:
        """The lines of a table, without their ends.

        Raises:
            InputError: it is no text.
        """
        self.stream.read(self.mark)
        return lines_of(self.stream, self.encoding, self.name)


@contextmanager
def opened(path: Path, name: str = "") -> Iterator[Iterator[Part]]:
    """The data files that a path leads to, as a context.

    Args:
        path: a plain file, or a gzip or zip file.
        name: what the user calls it; the path where empty.

    Raises:
        InputError: it cannot be read, or there is no interval data in it; also while its parts are read.
    """
    shown = name or str(path)
    with unpacking(shown):
        if not _is_file(path, shown):
            fail(NOT_READABLE, name=shown, why="it is a folder" if path.is_dir() else "it is no file")
        raw = path.open("rb", buffering=0)
    with raw:
        with unpacking(shown):
            look = raw.read(BUFFER) or b""
            raw.seek(0)
        if look.startswith(ZIP):
            with opened_zip(str(path), shown) as archive:
                yield _members(archive, shown, path.stat().st_size)
        elif look.startswith(GZIP):
            yield iter((_part(unpacked_gzip(cast(BinaryIO, raw), shown), shown, packed=True),))
        else:
            yield iter((_part(buffered(cast(IO[bytes], raw), Allowance(shown)), shown, packed=False),))


def _is_file(path: Path, shown: str) -> bool:
    try:
        return stat.S_ISREG(path.stat().st_mode)
    except ValueError:
        fail(NOT_READABLE, name=shown, why="the path is not a path")


def _part(stream: IO[bytes], name: str, *, packed: bool) -> Part:
    """A stream that is the only data file there is.

    Raises:
        InputError: it is no interval data.
    """
    look = _look(stream)
    content, what = content_of(look)
    if content == EMPTY:
        fail(EMPTY_FILE, name=name)
    if content == ARCHIVE:
        fail(NESTED if packed else PACKING, name=name)
    if content == OFFICE:
        fail(OFFICE_DOCUMENT, name=name)
    if content == OTHER:
        fail(NOT_DATA, name=name, what=what)
    return _made(stream, name, content, look)


def _made(stream: IO[bytes], name: str, content: str, look: bytes) -> Part:
    encoding, mark = encoding_of(look)
    return Part(name, content == XML, cast(BinaryIO, stream), encoding, mark)


def _look(stream: IO[bytes]) -> bytes:
    return bytes(stream.peek(BUFFER)[:BUFFER])  # type: ignore[attr-defined]


def _members(archive: zipfile.ZipFile, name: str, size: int) -> Iterator[Part]:
    chosen, content = _chosen(archive, name)
    allowance = Allowance(name, packed=lambda: size)
    for member in chosen:
        shown = name if len(chosen) == 1 else f"{name} > {_shown(member)}"
        with unpacked_member(archive, member, allowance) as stream:
            yield _made(stream, shown, content, _look(stream))


def _chosen(archive: zipfile.ZipFile, name: str) -> tuple[list[zipfile.ZipInfo], str]:
    """The members that are data, all of one form.

    Raises:
        InputError: there is none, or there are several forms.
    """
    members = [member for member in archive.infolist() if not _passed_over(member)]
    if any(member.filename.startswith(OFFICE_FOLDERS) for member in members):
        fail(OFFICE_DOCUMENT, name=name)
    feeds: list[zipfile.ZipInfo] = []
    tables: list[zipfile.ZipInfo] = []
    notes: list[zipfile.ZipInfo] = []
    for member in members:
        with unpacked_member(archive, member, Allowance(name)) as stream:
            look = _look(stream)
        content, _ = content_of(look)
        if content == ARCHIVE:
            fail(NESTED, name=name)
        if content == XML and not is_style(look):
            feeds.append(member)
        elif content == TABLE:
            (tables if is_numbered(look) else notes).append(member)
    if feeds and tables:
        fail(MIXED, name=name, first=_shown(feeds[0]), second=_shown(tables[0]))
    if not feeds and not tables and len(notes) != 1:
        fail(NO_DATA, name=name)
    return (feeds, XML) if feeds else (tables or notes, TABLE)


def _passed_over(member: zipfile.ZipInfo) -> bool:
    """Folders, and what the system of a computer leaves behind."""
    parts = member.filename.split("/")
    return member.is_dir() or parts[0] == SYSTEM_FOLDER or parts[-1].startswith(".")


def _shown(member: zipfile.ZipInfo) -> str:
    """The name of a member, which may hold anything, as it can be shown."""
    return "".join(letter if letter.isprintable() else "?" for letter in member.filename)[:LONGEST_SHOWN]
