"""How wide text is at the most, and text fitted to a width: drawings cannot ask the page that shows them."""

from __future__ import annotations

# widths in ems: over those of the faces that the style names, about those of the widest of the common sans-serif faces
NARROW, SMALL, WIDE, WIDEST = 0.36, 0.59, 0.76, 1.0
_NARROW = frozenset("ijlftrI.,:;'|!()[]/ -")
_WIDE = frozenset("wABCDEGHKNOPQRSTUVXYZLFJ&+=~<>#")
_WIDEST = frozenset("mMW%@\u2014\u2026")
ELLIPSIS = "\u2026"


def width_of(text: str, size: float) -> float:
    """How wide a text of a font size is at the most, in the units of the size."""
    return sum(map(_ems, text)) * size


def _ems(letter: str) -> float:
    if letter in _NARROW:
        return NARROW
    if letter in _WIDEST or not letter.isascii():
        return WIDEST
    return WIDE if letter in _WIDE else SMALL


def fitted(text: str, size: float, width: float, lines: int = 2) -> list[str]:
    """A text in at most so many lines of a width; what has no room is cut off, with three dots."""
    found: list[str] = []
    for word in text.split():
        longer = f"{found[-1]} {word}" if found else word
        if found and width_of(longer, size) <= width:
            found[-1] = longer
        else:
            found.append(word)
    kept = found[:lines]
    if len(found) > lines:
        kept[-1] = f"{kept[-1]} {found[lines]}"
    return [_cut(line, size, width) for line in kept]


def _cut(text: str, size: float, width: float) -> str:
    """A text that is no wider than there is room."""
    if width_of(text, size) <= width:
        return text
    while text and width_of(text + ELLIPSIS, size) > width:
        text = text[:-1]
    return text.rstrip(" ,;:") + ELLIPSIS
