"""What a terminal adds: its width, and a little colour, which says nothing that the text does not say."""

from __future__ import annotations

import os
import sys
from typing import TextIO

from dwellcalc.cli.characters import shown


def print_error(text: str) -> None:
    """Print what is wrong."""
    try:
        print(shown(text, sys.stderr), file=sys.stderr, flush=True)
    except OSError:  # where there is nowhere to say it, the exit code still does
        write_no_more(sys.stderr)


def write_no_more(stream: TextIO) -> None:
    """Have what is still to be written go nowhere, so that the end of the process does not fail on it."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
