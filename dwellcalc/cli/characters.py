"""Characters for streams that cannot show all of them: a name loses its marks, and no more.

A codec error handler is asked for what an encoding lacks. It gives letters without their marks, signs by what they are
typed as, and a question mark for the rest. Data in JSON loses nothing: it is escaped there.
"""

from __future__ import annotations

import codecs
import io
import unicodedata
from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any, TextIO, TypeVar

HANDLER = "dwellcalc.typed"
UNKNOWN = "?"
TYPED = {
    **dict.fromkeys("‐‑‒–—―−⁃", "-"),
    **dict.fromkeys("‘’‚‛′‹›ʹʻʼ", "'"),
    **dict.fromkeys("“”„‟″«»", '"'),
    "×": "x",
    "·": ".",
    "•": "-",
    "∙": ".",
    "÷": "/",
    "±": "+/-",
    "≈": "~",
    "≤": "<=",
    "≥": ">=",
    "≠": "<>",
    "⁄": "/",
    "°": "deg",
    "Ω": "ohm",
    "µ": "u",
    "μ": "u",
    "√": "sqrt",
    "φ": "phi",
    "Φ": "phi",
    "Δ": "delta",
    "→": "->",
    "←": "<-",
    "↔": "<->",
    "⇒": "=>",
    "↑": "^",
    "↓": "v",
    "✓": "yes",
    "✗": "no",
    "ß": "ss",
    "ẞ": "SS",
    "æ": "ae",
    "Æ": "AE",
    "œ": "oe",
    "Œ": "OE",
    "ø": "o",
    "Ø": "O",
    "ł": "l",
    "Ł": "L",
    "đ": "d",
    "Đ": "D",
    "ð": "d",
    "Ð": "D",
    "þ": "th",
    "Þ": "Th",
    "ı": "i",
    "ħ": "h",
    "Ħ": "H",
    "§": "sec. ",
    "¶": "par. ",
    "€": "EUR",
    "£": "GBP",
    "¥": "JPY",
    "©": "(c)",
    "®": "(R)",
    "¿": "",
    "¡": "",
}
OVERLAYS = "\u0335\u0336\u0337\u0338"  # strokes that turn a sign into its contrary
Blocks = TypeVar("Blocks")


def typed(character: str) -> str:
    """A character as one would type it in ASCII, or a question mark."""
    if character in TYPED:
        return TYPED[character]
    if unicodedata.category(character) in ("Mn", "Me", "Cf"):
        return ""
    pieces = unicodedata.normalize("NFKD", character)
    if any(stroke in pieces for stroke in OVERLAYS):
        return UNKNOWN
    plain = "".join(TYPED.get(piece, piece) for piece in pieces if not unicodedata.combining(piece))
    return plain if plain.isascii() and plain else UNKNOWN


def replaced(error: UnicodeError) -> tuple[str, int]:
    """What stands for characters that an encoding lacks, as an error handler of codecs gives it."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return "".join(map(typed, error.object[error.start : error.end])), error.end


codecs.register_error(HANDLER, replaced)


def make_writable(stream: TextIO) -> None:
    """Have a stream write what it can of every text, whatever its encoding."""
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors=HANDLER)


def shows_all(stream: TextIO) -> bool:
    """Whether a stream's encoding has every character."""
    name = getattr(stream, "encoding", None) or "utf-8"
    return codecs.lookup(name).name.startswith("utf")


def shown(text: str, stream: TextIO) -> str:
    """A text as a stream shows it; what would steer a terminal, such as an escape in a name, is shown as a question mark."""
    tame = "".join(UNKNOWN if _steers(character) else character for character in text)
    encoding = getattr(stream, "encoding", None) or "utf-8"
    return tame.encode(encoding, HANDLER).decode(encoding)


def _steers(character: str) -> bool:
    return not character.isprintable() and (
        (unicodedata.category(character) == "Cc" and character not in "\n\t")
        or unicodedata.bidirectional(character) in ("LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI")
    )


def for_stream(blocks: Sequence[Blocks], stream: TextIO) -> list[Blocks]:
    """Blocks as a stream shows them, so that columns are as wide as what is printed."""
    return [_changed(block, stream) for block in blocks]


def _changed(value: Any, stream: TextIO) -> Any:
    if isinstance(value, str):
        return shown(value, stream)
    if isinstance(value, list):
        return [_changed(each, stream) for each in value]
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{each.name: _changed(getattr(value, each.name), stream) for each in fields(value)})
    return value
