"""What a gzip or zip file unpacks to, as streams that never give more than they may.

Every way in which unpacking fails becomes one message, and so does what unpacks to far more than its own size.
"""

from __future__ import annotations

import errno
import gzip
import io
import lzma
import struct
import zipfile
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import IO, TYPE_CHECKING, BinaryIO, cast

from dwellcalc.problems import fail, message
from dwellcalc.reading import MEGABYTE, NOT_READABLE, TOO_LARGE

if TYPE_CHECKING:
    from _typeshed import WriteableBuffer

BUFFER = 65536  # [bytes]
LARGEST_DATA = 512  # [MB] of one file and all that is unpacked of it
MOST_TO_ONE = 300  # a table of equal rows packs to a fiftieth, a feed of zeros to a hundredth; the most possible is 1,032
RATIO_FROM = 8  # [MB] unpacked, below which the ratio does not matter
MOST_MEMBERS = 2_000
LARGEST_DIRECTORY = 1_048_576  # [bytes] of a zip file's list of members, which is read at once
ENCRYPTED_FLAG = 1

DAMAGED = message(
    "meter_file_damaged", 'the file "{name}" is damaged or cut off: it does not unpack', "download or copy it again"
)
ENCRYPTED = message("meter_file_encrypted", 'the file "{name}" is protected by a password', "unpack it, and name the file in it")
RATIO = message(
    "meter_file_ratio",
    'the file "{name}" unpacks to more than {ratio} times its own size, which no interval data does',
    "unpack it, and look",
)
CROWDED = message("meter_file_crowded", 'the file "{name}" holds more than {limit} files', "unpack it, and name one of them")
PACKING = message(
    "meter_file_packing",
    'the file "{name}" is packed in a way that is not read here',
    "unpack it; or pack it as a plain zip or gzip file",
)


@dataclass(slots=True)
class Allowance:
    """What one file may still give, all its members together.

    Attributes:
        name: what the user calls the file.
        left: [bytes].
        given: [bytes].
        packed: how many bytes of the file have been used up; nothing where it is not packed.
    """

    name: str
    left: int = LARGEST_DATA * MEGABYTE
    given: int = 0
    packed: Callable[[], int] | None = None

    def take(self, count: int) -> None:
        """Give so many bytes more.

        Raises:
            InputError: that is more than is allowed.
        """
        self.left -= count
        self.given += count
        if self.left < 0:
            fail(TOO_LARGE, name=self.name, limit=LARGEST_DATA)
        if self.packed and self.given > RATIO_FROM * MEGABYTE and self.given > MOST_TO_ONE * max(self.packed(), 1):
            fail(RATIO, name=self.name, ratio=MOST_TO_ONE)


class Bounded(io.RawIOBase):
    """A stream that gives bytes of another one, as long as it may; ``buffered`` makes it useful."""

    def __init__(self, source: IO[bytes], allowance: Allowance) -> None:
        super().__init__()
        self.source, self.allowance = source, allowance

    def readable(self) -> bool:
        """It is."""
        return True

    def readinto(self, target: WriteableBuffer, /) -> int:
        """Fill the target as far as the source goes.

        Raises:
            InputError: it does not unpack, or gives more than it may.
        """
        view = memoryview(target)
        filled = 0
        while filled < len(view):
            with unpacking(self.allowance.name):
                chunk = self.source.read(len(view) - filled)
            if not chunk:
                break
            self.allowance.take(len(chunk))
            view[filled : filled + len(chunk)] = chunk
            filled += len(chunk)
        return filled


class unpacking:  # noqa: N801
    """Turns what goes wrong in unpacking into one message."""

    def __init__(self, name: str) -> None:
        self.name = name

    def __enter__(self) -> None:
        """Nothing yet."""

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: object) -> None:
        """Say what went wrong.

        Raises:
            InputError: it is damaged, protected, or cannot be read.
        """
        if isinstance(error, (zipfile.BadZipFile, gzip.BadGzipFile, zlib.error, lzma.LZMAError, EOFError, struct.error)):
            fail(DAMAGED, name=self.name)
        if isinstance(error, NotImplementedError):  # the library's word for a way of packing that it does not know
            fail(PACKING, name=self.name)
        if isinstance(error, (ValueError, OverflowError)):
            fail(DAMAGED, name=self.name)
        if isinstance(error, OSError) and error.errno == errno.EINVAL:  # a member that would begin before the file does
            fail(DAMAGED, name=self.name)
        if isinstance(error, OSError):
            fail(NOT_READABLE, name=self.name, why=error.strerror or "it cannot be read")


def buffered(source: IO[bytes], allowance: Allowance) -> io.BufferedReader:
    """A stream with a first look at what comes (``peek``)."""
    return io.BufferedReader(Bounded(source, allowance), BUFFER)


def unpacked_gzip(raw: BinaryIO, name: str) -> io.BufferedReader:
    """What a gzip file holds, all its members one after the other."""
    return buffered(cast(IO[bytes], gzip.GzipFile(fileobj=raw, mode="rb")), Allowance(name, packed=raw.tell))


class _Guarded(io.FileIO):
    """A file of which a zip file's list of members cannot be larger than it should."""

    def read(self, size: int | None = -1, /) -> bytes:
        """Read; a size is what a list of members claims to have.

        Raises:
            BadZipFile: it claims more than it may.
        """
        if size is not None and size > LARGEST_DIRECTORY:
            raise zipfile.BadZipFile
        return super().read(LARGEST_DIRECTORY if size is None or size < 0 else size) or b""


@contextmanager
def opened_zip(path: str, name: str) -> Iterator[zipfile.ZipFile]:
    """A zip file, of which only the list of members is read; a context.

    Raises:
        InputError: it is damaged, or holds too many members.
    """
    with _Guarded(path) as raw:
        with unpacking(name):
            archive = zipfile.ZipFile(raw)
        with archive:
            if len(archive.infolist()) > MOST_MEMBERS:
                fail(CROWDED, name=name, limit=f"{MOST_MEMBERS:,}")
            yield archive


def unpacked_member(archive: zipfile.ZipFile, member: zipfile.ZipInfo, allowance: Allowance) -> io.BufferedReader:
    """What a member of a zip file holds.

    Raises:
        InputError: it is protected, or packed in a way that cannot be unpacked within bounds.
    """
    if member.flag_bits & ENCRYPTED_FLAG:
        fail(ENCRYPTED, name=allowance.name)
    if member.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        fail(PACKING, name=allowance.name)
    with unpacking(allowance.name):
        return buffered(archive.open(member), allowance)
