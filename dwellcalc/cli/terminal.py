"""What a terminal is told beside the text: how wide to print, a little colour, and what is wrong.

Colour never says anything alone: the same text without it says all.
"""

from __future__ import annotations

import os
import shutil
import sys
from typing import TextIO

from dwellcalc.cli.characters import shown

PIPED_WIDTH = 110
NARROWEST = 60
BOLD, RED, YELLOW, PLAIN = "1", "31", "33", "0"


def width_of(stream: TextIO) -> int:
    """How many columns a page may take on a stream."""
    width = shutil.get_terminal_size().columns if stream.isatty() else PIPED_WIDTH
    return max(NARROWEST, width)


def takes_colour(stream: TextIO) -> bool:
    """Whether a stream is a terminal that shows bold and colours, and whether nobody asked it not to."""
    if not stream.isatty() or os.environ.get("NO_COLOR"):
        return False
    kind = os.environ.get("TERM", "")
    if kind == "dumb":
        return False
    return bool(kind or (os.name == "nt" and (os.environ.get("WT_SESSION") or os.environ.get("ANSICON"))))


def painted(text: str, *how: str) -> str:
    """A text of one line in bold or in colours."""
    return f"\x1b[{';'.join(how)}m{text}\x1b[{PLAIN}m" if text else text


def print_error(text: str) -> None:
    """Print what is wrong: of each problem the first line stands out."""
    text = shown(text, sys.stderr)
    if takes_colour(sys.stderr):
        heads = [problem.partition("\n") for problem in text.split("\n\n")]
        text = "\n\n".join(painted(head, RED) + rest + more for head, rest, more in heads)
    try:
        print(text, file=sys.stderr, flush=True)
    except OSError:  # where there is nowhere to say it, the exit code still does
        write_no_more(sys.stderr)


def write_no_more(stream: TextIO) -> None:
    """Have what is still to be written go nowhere, so that the end of the process does not fail on it."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
