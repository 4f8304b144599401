"""The command within the process, for tests: what it returns and prints."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path

import pytest
from assessments import Tree, written

from dwellcalc.cli import main
from dwellcalc.language.rule_set import RuleSet, load_rules

Run = Callable[..., tuple[int, str, str]]
LOADERS = (
    "dwellcalc.decide.edition.load_rules",
    "dwellcalc.cli.actions.load_rules",
    "dwellcalc.cli.compare_actions.load_rules",
)


@cache
def _own(edition: str) -> RuleSet:
    return load_rules(edition)


def _loaded(edition: str, folder: Path | None = None, amendments: Sequence[Path] = ()) -> RuleSet:
    """The package's own rules, which do not change, are loaded once."""
    return _own(edition) if folder is None and not amendments else load_rules(edition, folder, amendments)


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    """Runs the command: the exit code, what it wrote to stdout, and to stderr."""
    monkeypatch.setattr("gc.disable", lambda: None)
    for loader in LOADERS:
        monkeypatch.setattr(loader, _loaded)

    def command(*arguments: str) -> tuple[int, str, str]:
        code = main(arguments)
        said = capsys.readouterr()
        return code, said.out, said.err

    return command


@pytest.fixture
def file(tmp_path: Path) -> Callable[[Tree], str]:
    """Writes a home file; its path."""
    return lambda tree: written(tmp_path / "alder.yaml", tree)
