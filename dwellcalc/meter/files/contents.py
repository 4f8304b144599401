"""What some bytes are, by a first look at them: never by the name of a file."""

from __future__ import annotations

import re

XML, TABLE, EMPTY, ARCHIVE, OFFICE, OTHER = "XML", "table", "empty", "archive", "office", "other"

# The first bytes of what may lie about instead of interval data.
ARCHIVES = (
    *(b"\x1f\x8b", b"PK\x03\x04", b"PK\x05\x06", b"PK\x07\x08", b"7z\xbc\xaf\x27\x1c", b"Rar!"),
    *(b"\xfd7zXZ\x00", b"BZh", b"\x28\xb5\x2f\xfd", b"\x04\x22\x4d\x18"),
)
GZIP, ZIP = (b"\x1f\x8b",), (b"PK\x03\x04", b"PK\x05\x06", b"PK\x07\x08")
OLD_OFFICE = b"\xd0\xcf\x11\xe0"
TAPE_MARK, TAPE_PLACE = b"ustar", 257
DOCUMENTS = ((b"%PDF", "a PDF document"), (b"\x89PNG", "a picture"), (b"\xff\xd8\xff", "a picture"), (b"GIF8", "a picture"))
WEB_PAGES = ("<html", "<!doctype html")
ROOT = re.compile(r"<(?:[\w.-]+:)?([\w.-]+)")
STYLE_ROOTS = ("stylesheet", "transform", "schema")  # what lies beside a feed to show or to check it

MARKS = ((b"\xef\xbb\xbf", "utf-8"), (b"\xff\xfe", "utf-16-le"), (b"\xfe\xff", "utf-16-be"))
CONTROLS = bytes(code for code in range(32) if code not in b"\t\n\v\f\r\x1a\x1b")
MOST_CONTROLS = 0.01  # of all bytes; a text has none, but one may have gone astray
ALTERNATE, HARDLY = 0.8, 0.1  # of every second byte of a text in two bytes a character
LEAST_NUMBERED_LINES = 2
NUMBER_FIELD = re.compile(r"""\s*["']?-?[\d.,]*\d["']?\s*""")
FIELDS = re.compile(r"[,;\t|]")


def encoding_of(look: bytes) -> tuple[str, int]:
    """The encoding by its mark or by NULs that alternate, and how long the mark is [bytes]; UTF-8 otherwise."""
    for mark, encoding in MARKS:
        if look.startswith(mark):
            return encoding, len(mark)
    evens, odds = look[0::2], look[1::2]
    if len(odds) > 1:
        of_evens, of_odds = evens.count(0) / len(evens), odds.count(0) / len(odds)
        if of_odds >= ALTERNATE and of_evens <= HARDLY:
            return "utf-16-le", 0
        if of_evens >= ALTERNATE and of_odds <= HARDLY:
            return "utf-16-be", 0
    return "utf-8", 0


def content_of(look: bytes) -> tuple[str, str]:
    """What the bytes are, and of ``OTHER`` in words what."""
    if not look:
        return EMPTY, ""
    if look.startswith(ARCHIVES) or look[TAPE_PLACE:].startswith(TAPE_MARK):
        return ARCHIVE, ""
    if look.startswith(OLD_OFFICE):
        return OFFICE, ""
    for mark, what in DOCUMENTS:
        if look.startswith(mark):
            return OTHER, what
    encoding, length = encoding_of(look)
    text = look[length:].decode(encoding, "replace")
    if text.lstrip().startswith("<"):
        return (OTHER, "a web page") if from_first_element(text)[:20].lower().startswith(WEB_PAGES) else (XML, "")
    if encoding == "utf-8" and sum(look.count(code) for code in CONTROLS) > MOST_CONTROLS * len(look):
        return OTHER, "neither XML nor text"
    return TABLE, ""


def from_first_element(text: str) -> str:
    """XML without the comments and instructions that stand before its first element."""
    place = 0
    while True:
        while place < len(text) and text[place].isspace():
            place += 1
        for begin, end in (("<!--", "-->"), ("<?", "?>")):
            if text.startswith(begin, place):
                found = text.find(end, place)
                place = found + len(end) if found >= 0 else len(text)
                break
        else:
            return text[place:]


def is_style(look: bytes) -> bool:
    """Whether XML is a style sheet or a schema."""
    encoding, length = encoding_of(look)
    found = ROOT.match(from_first_element(look[length:].decode(encoding, "replace")))
    return found is not None and found[1] in STYLE_ROOTS


def is_numbered(look: bytes) -> bool:
    """Whether a text has lines of several fields with a number among them, as a table has and a note to read first has not."""
    encoding, length = encoding_of(look)
    found = 0
    for line in look[length:].decode(encoding, "replace").splitlines():
        fields = FIELDS.split(line)
        if len(fields) > 1 and any(NUMBER_FIELD.fullmatch(each) for each in fields):
            found += 1
            if found >= LEAST_NUMBERED_LINES:
                return True
    return False
