"""What a planned load of any kind takes the place of, told along with its rating."""

from __future__ import annotations

import re
from collections.abc import Iterable

from dwellcalc.home.names import plain

TAKES = re.compile(
    r"[\s,;(-]*\b(?:which |that |it |and )*(?:replac(?:es|ing)|instead of|in place of|takes the place of)\s+"
    r"(?:(?:the|our|my|an?|old|existing)\s+)*(?P<what>[^:,;()]+)\)?",
    re.IGNORECASE,
)
REPLACES = ", replaces "  # how it stands in an answer that is kept


def without_replaced(text: str) -> tuple[str, str]:
    """A load without what it takes the place of, and that; an empty text where nothing is told."""
    match = TAKES.search(text)
    if match is None:
        return text, ""
    rest, after = text[: match.start()].strip(), text[match.end() :]
    return f"{rest}{after}".strip(), match["what"].strip()


def in_file(said: str, names: Iterable[str]) -> str:
    """The name in the file of what is told to be replaced: of several words one that has all of them; else the words as they are."""
    known = list(names)
    same = [each for each in known if plain(each) == plain(said)]
    words = set(plain(said).split())
    near = [each for each in known if words <= set(plain(each).split())]
    return (same or (near if len(near) == 1 else []) or [said])[0]
