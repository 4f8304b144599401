"""Writing a file whole: beside the place where it is to stand, then moved there, so that nothing is half-written."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from dwellcalc.problems import fail, message

IS_THERE = message("start_is_there", '"{name}" is there already, and nothing is written over it', "{instead}")
NOT_WRITTEN = message("start_not_written", '"{name}" cannot be written: {why}', "check the path and its rights")


def write_whole(name: str, text: str, *, new: bool, instead: str = "name another file") -> None:
    """Write a file.

    Args:
        name: the file, as the user knows it.
        text: all of it.
        new: whether it must not be there yet.
        instead: what to do where it is.

    Raises:
        InputError: it is there already, or cannot be written.
    """
    path = Path(name)
    try:
        handle, beside = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    except (OSError, ValueError) as error:
        fail(NOT_WRITTEN, name=name, why=getattr(error, "strerror", None) or "the path is not a path")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        _move(Path(beside), path, new=new)
    except FileExistsError:
        fail(IS_THERE, name=name, instead=instead)
    except OSError as error:
        fail(NOT_WRITTEN, name=name, why=error.strerror)
    finally:
        Path(beside).unlink(missing_ok=True)


def _move(beside: Path, path: Path, *, new: bool) -> None:
    """Move a file to its place with the rights that a new file there gets, or that the one there has."""
    rights = path.stat().st_mode if path.exists() else _usual_rights()
    if new and os.path.lexists(path):
        raise FileExistsError
    beside.chmod(rights)
    if new:
        try:
            os.link(beside, path)  # fails where something came to be there meanwhile
            return
        except FileExistsError:
            raise
        except OSError:  # a file system without links
            pass
    beside.replace(path)


def _usual_rights() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
