"""Bytes of a text -> its lines, decoded, one after the other."""

from __future__ import annotations

import codecs
import io
from collections.abc import Iterator
from typing import BinaryIO, NoReturn

from dwellcalc.problems import fail, message

CHUNK = 65536  # [bytes]
LONGEST_LINE = 131_072  # [characters]; a day of 1-minute values in one line has about fifteen thousand
FALLBACK = "cp1252"

NUL_IN_TEXT = message(
    "meter_file_nul",
    'the file "{name}" is no text: line {line} holds a NUL',
    "it may have been damaged: download or copy it again",
)
NOT_DECODED = message(
    "meter_file_encoding",
    'the file "{name}" is no text in UTF-8, UTF-16 or Windows-1252: line {line} cannot be decoded',
    "save it as CSV in UTF-8",
)
LINE_TOO_LONG = message(
    "meter_file_long_line",
    'the file "{name}" is no table: line {line} has more than {limit} characters',
    "is it the file that was meant?",
)


def lines_of(stream: BinaryIO, encoding: str, name: str) -> Iterator[str]:
    """The lines, without their ends.

    What is not UTF-8 is taken as Windows-1252 from there on; all before it is plain ASCII then, in all likelihood.

    Args:
        stream: the bytes, after a mark of the encoding.
        encoding: ``utf-8`` (Windows-1252 where it is not), ``utf-16-le`` or ``utf-16-be``.
        name: what the user calls the file.

    Raises:
        InputError: it cannot be decoded, holds a NUL, or a line without an end.
    """
    decoder = _Decoder(encoding, name)
    rest = ""
    while True:
        chunk = stream.read(CHUNK)
        text = rest + decoder.decode(chunk, final=not chunk)
        *lines, rest = text.split("\n")
        for line in lines:
            decoder.line += 1
            _check(line, decoder.line, name)
            yield line
        _check(rest, decoder.line + 1, name)
        if not chunk:
            break
    if rest:
        yield rest


def _check(line: str, number: int, name: str) -> None:
    if len(line) > LONGEST_LINE:
        fail(LINE_TOO_LONG, name=name, line=number, limit=f"{LONGEST_LINE:,}")
    if "\0" in line:
        fail(NUL_IN_TEXT, name=name, line=number)


class _Decoder:
    """Decodes chunk by chunk; line ends of all kinds become one."""

    def __init__(self, encoding: str, name: str) -> None:
        self.name = name
        self.line = 0
        self.may_fall_back = encoding == "utf-8"
        self.decoder = codecs.getincrementaldecoder(encoding)("strict")
        self.ends = io.IncrementalNewlineDecoder(None, translate=True)

    def decode(self, chunk: bytes, final: bool) -> str:
        """The text of a chunk.

        Raises:
            InputError: it cannot be decoded.
        """
        before = self.decoder.getstate()[0]
        try:
            text = self.decoder.decode(chunk, final)
        except UnicodeDecodeError:
            text = self.fall_back(before + chunk, final)
        return self.ends.decode(text, final)

    def fall_back(self, chunk: bytes, final: bool) -> str:
        if not self.may_fall_back:
            self.not_decoded(chunk)
        self.may_fall_back = False
        self.decoder = codecs.getincrementaldecoder(FALLBACK)("strict")
        try:
            return self.decoder.decode(chunk, final)
        except UnicodeDecodeError as error:
            self.not_decoded(chunk[: error.start])

    def not_decoded(self, before: bytes) -> NoReturn:
        fail(NOT_DECODED, name=self.name, line=self.line + 1 + before.count(b"\n"))
