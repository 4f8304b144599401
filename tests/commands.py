"""The command within the process, for tests: what it returns and prints."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from assessments import Tree, written

from dwellcalc.cli import main

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    """Runs the command: the exit code, what it wrote to stdout, and to stderr."""
    monkeypatch.setattr("gc.disable", lambda: None)

    def command(*arguments: str) -> tuple[int, str, str]:
        code = main(arguments)
        said = capsys.readouterr()
        return code, said.out, said.err

    return command


@pytest.fixture
def file(tmp_path: Path) -> Callable[[Tree], str]:
    """Writes a home file; its path."""
    return lambda tree: written(tmp_path / "alder.yaml", tree)
