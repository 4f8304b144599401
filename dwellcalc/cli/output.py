"""Where the output of a command goes: to the screen, or whole into a file."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from dwellcalc.problems import fail, message

NOT_WRITTEN = message("output_not_written", 'the file "{name}" cannot be written: {why}', "name a file in a folder that is there")


def write_whole(name: str, text: str) -> None:
    """Write a file whole or not at all: it is written beside and then given its name.

    Args:
        name: the file; one that is there is replaced.
        text: what it is to hold.

    Raises:
        InputError: it cannot be written.
    """
    path = Path(name)
    try:
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as error:
        fail(NOT_WRITTEN, name=name, why=error.strerror)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
        os.chmod(beside, _mode(path))
        os.replace(beside, path)
    except OSError as error:
        Path(beside).unlink(missing_ok=True)
        fail(NOT_WRITTEN, name=name, why=error.strerror)


def _mode(path: Path) -> int:
    """The permissions of the file that is replaced, else those that a new file has."""
    if path.exists():
        return path.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
