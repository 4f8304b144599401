"""XML as events, from a stream, within bounds: no declarations of types or entities, and no more memory than a chunk.

Nothing of the document is kept here. What a hostile file could make grow has a bound: depth, elements, distinct names,
and the length of a text, a tag or a comment.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import BinaryIO
from xml.parsers import expat

from dwellcalc.problems import fail, message

CHUNK = 65536  # [bytes]
DEEPEST = 32  # elements inside each other; a feed has about ten
MOST_ELEMENTS = 16_000_000  # two channels of a year of 1-minute readings have about nine million
MOST_NAMES = 10_000  # distinct names of elements, attributes and namespaces; a feed has about a hundred
LONGEST_TEXT = 65536  # [characters] of one element
LONGEST_MARK = 1_048_576  # [bytes] of a tag or a comment, which the parser keeps whole

NOT_XML = message(
    "espi_not_xml",
    'the file "{name}" is not whole XML: {why}, in line {line}',
    "it may have been cut off or changed: download it again",
)
DECLARATIONS = message(
    "espi_declarations",
    'the file "{name}" declares a document type or entities, which interval data never does',
    "download it again from where it comes from",
)
BEYOND_BOUNDS = message(
    "espi_beyond_bounds", 'the file "{name}" is no interval data as the standard has it: {what}', "is it the file that was meant?"
)

Start = Callable[[str, Mapping[str, str]], None]
End = Callable[[str, str], None]


def walk(stream: BinaryIO, name: str, start: Start, end: End) -> None:
    """Call ``start(name, attributes)`` and ``end(name, text)`` for each element; names are ``namespace name``.

    The text is what stands between the last tag and the end tag, so it is whole for an element that holds no other.

    Args:
        stream: the document's bytes.
        name: what the user calls it.
        start: called where an element begins.
        end: called where it ends.

    Raises:
        InputError: it is not XML, declares types or entities, or is beyond the bounds; or what the two calls raise.
    """
    _Walk(name, start, end).feed(stream)


class _Walk:
    def __init__(self, name: str, start: Start, end: End) -> None:
        self.name = name
        self.text: list[str] = []
        self.depth = self.elements = 0
        self.parser = expat.ParserCreate(namespace_separator=" ")
        self.parser.buffer_text = True
        self.parser.StartElementHandler = self.started(start)
        self.parser.EndElementHandler = self.ended(end)
        self.parser.CharacterDataHandler = self.text.append
        self.parser.StartNamespaceDeclHandler = lambda prefix, uri: None  # so that prefixes are among the interned names
        self.parser.StartDoctypeDeclHandler = self.declared
        self.parser.EntityDeclHandler = self.declared
        self.parser.ExternalEntityRefHandler = self.declared

    def declared(self, *_: object) -> int:
        fail(DECLARATIONS, name=self.name)

    def started(self, start: Start) -> Start:
        text = self.text

        def handler(element: str, attributes: Mapping[str, str]) -> None:
            text.clear()
            self.depth += 1
            self.elements += 1
            if self.depth > DEEPEST:
                fail(BEYOND_BOUNDS, name=self.name, what=f"more than {DEEPEST} elements inside each other")
            start(element, attributes)

        return handler

    def ended(self, end: End) -> Callable[[str], None]:
        text = self.text

        def handler(element: str) -> None:
            self.depth -= 1
            end(element, "".join(text))
            text.clear()

        return handler

    def feed(self, stream: BinaryIO) -> None:
        """Parse chunk by chunk.

        Raises:
            InputError: as ``walk`` says.
        """
        given = 0
        chunk = stream.read(CHUNK).lstrip()  # a blank line before the declaration does no harm
        try:
            while chunk:
                self.parser.Parse(chunk, False)
                given += len(chunk)
                self.within_bounds(given)
                chunk = stream.read(CHUNK)
            self.parser.Parse(b"", True)
        except expat.ExpatError as error:
            fail(NOT_XML, name=self.name, why=expat.ErrorString(error.code), line=error.lineno)
        except (LookupError, ValueError):  # an encoding that it declares and that is none
            if self.elements:
                raise
            fail(NOT_XML, name=self.name, why="its encoding is not known", line=1)

    def within_bounds(self, given: int) -> None:
        """Refuse what grows beyond the bounds; looked at once a chunk, for it costs time.

        Raises:
            InputError: it does.
        """
        what = ""
        if self.elements > MOST_ELEMENTS:
            what = f"more than {MOST_ELEMENTS:,} elements"
        elif len(self.parser.intern) > MOST_NAMES:
            what = f"more than {MOST_NAMES:,} different names"
        elif sum(map(len, self.text)) > LONGEST_TEXT:
            what = f"a text of more than {LONGEST_TEXT:,} characters"
        elif given - self.parser.CurrentByteIndex > LONGEST_MARK:
            what = "a tag or a comment that does not end"
        if what:
            fail(BEYOND_BOUNDS, name=self.name, what=what)
