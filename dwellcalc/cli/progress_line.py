"""One line at the terminal that tells what is being done, rewritten at each stage and gone at the end.

It stands on stderr, where that is a terminal, and only where something takes longer than half a second.
"""

from __future__ import annotations

import contextlib
import shutil
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO

from dwellcalc.cli.characters import shown
from dwellcalc.progress import Progress, silent

PATIENCE = 0.5  # that nothing is told for [s]
ENDING = " ..."


@contextmanager
def progress_line() -> Iterator[Progress]:
    """Show the stages that the block tells, and nothing of them when it ends."""
    stream = sys.stderr
    if stream is None or not stream.isatty():
        yield silent
        return
    line = _Line(stream)
    waiting = threading.Timer(PATIENCE, line.begin)
    waiting.daemon = True
    waiting.start()
    try:
        yield line.tell
    finally:
        waiting.cancel()
        line.end()


class _Line:
    """The line; what is told before it begins is shown when it does."""

    def __init__(self, stream: TextIO) -> None:
        self.stream = stream
        self.lock = threading.Lock()
        self.text = ""
        self.width = 0
        self.begun = self.ended = False

    def tell(self, text: str) -> None:
        """The stage that begins."""
        with self.lock:
            self.text = text
            if self.begun:
                self._write()

    def begin(self) -> None:
        """Be seen from now on."""
        with self.lock:
            self.begun = not self.ended
            if self.begun and self.text:
                self._write()

    def end(self) -> None:
        """Be gone, whatever was told."""
        with self.lock:
            self.ended, self.begun, self.text = True, False, ""
            if self.width:
                self._put(" " * self.width + "\r")

    def _write(self) -> None:
        room = shutil.get_terminal_size().columns - len(ENDING) - 1
        line = shown(self.text, self.stream)[: max(room, 0)] + ENDING
        self._put(line.ljust(self.width) + "\r")
        self.width = max(self.width, len(line))

    def _put(self, text: str) -> None:
        with contextlib.suppress(OSError):  # a terminal that went away
            self.stream.write("\r" + text)
            self.stream.flush()
