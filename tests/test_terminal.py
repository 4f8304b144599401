"""What a user meets at a terminal: pages of help, characters, widths, colour, progress, pipes."""

from __future__ import annotations

import argparse
import os
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from examples import ROOT

from dwellcalc.cli.command import parser

COMMAND = [sys.executable, "-m", "dwellcalc"]
WIDTHS = (60, 80, 110, 200)
SLOW = "dwellcalc rules check"  # proves every edition, which takes minutes


def environment(**more: str) -> dict[str, str]:
    """The variables of a process of its own, without what would change what it prints."""
    kept = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLUMNS", "TERM", "PYTHONIOENCODING")}
    return {**kept, "PYTHONPATH": str(ROOT), **more}


# --- pages of help


def parsers(of: argparse.ArgumentParser) -> Iterator[argparse.ArgumentParser]:
    """A parser and those of its commands."""
    yield of
    for action in of._actions:
        if isinstance(action, argparse._SubParsersAction):
            for each in action.choices.values():
                yield from parsers(each)


PAGES = {each.prog: each for each in parsers(parser())}


def examples_of(page: str) -> list[str]:
    """The command lines that a page of help shows."""
    shown = page.partition("\nexamples:\n")[2].partition("\n\n")[0].replace("\\\n", " ")
    return [" ".join(line.split()) for line in shown.splitlines()]


@pytest.mark.parametrize("name", PAGES)
def test_a_page_of_help_is_whole(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A sentence, examples and exit codes; every option is explained; a command's examples are its own."""
    monkeypatch.setenv("COLUMNS", "110")
    page = PAGES[name].format_help()
    assert re.search(r"\n\n[A-Z][^\n]*(\n[^\n]+)?\.\n\n", page), "a sentence says what the command does"
    examples = examples_of(page)
    assert 2 <= len(examples) <= 3
    assert any(example.startswith(name) for example in examples)
    assert all(example.startswith("dwellcalc ") for example in examples)
    codes = re.findall(r"(?m)^  (\d)  \S", page.partition("\nexit code:\n")[2])
    assert codes == sorted(codes)
    assert {"0", "2"} <= set(codes) <= {"0", "1", "2", "3"}
    for action in PAGES[name]._actions:
        assert action.help or isinstance(action, argparse._SubParsersAction), action.dest


@pytest.mark.parametrize("name", PAGES)
def test_options_stand_in_the_same_order_on_every_page(name: str) -> None:
    """What is asked first, then the form of what is printed, then other rules."""
    order = ["--help", "--edition", "--amendment", "--method", "--full", "--letter", "--format", "--rules"]
    named = [option for action in PAGES[name]._actions for option in action.option_strings if option in order]
    assert named == sorted(named, key=order.index)


@pytest.mark.parametrize("name", PAGES)
def test_an_example_is_the_same_at_every_width(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    shown = []
    for width in WIDTHS:
        monkeypatch.setenv("COLUMNS", str(width))
        page = PAGES[name].format_help()
        assert max(map(len, page.splitlines())) <= min(width, 110)
        shown.append(examples_of(page))
    assert all(each == shown[0] for each in shown)


def own_examples() -> dict[str, list[str]]:
    """The examples of each page in the order in which they stand, without those of a page above that stand on another too."""
    shown = {name: examples_of(page.format_help()) for name, page in PAGES.items()}
    below = {name: {each for other in shown if other.startswith(f"{name} ") for each in shown[other]} for name in shown}
    return {name: [each for each in examples if each not in below[name]] for name, examples in shown.items()}


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A folder that looks like a checkout, into which examples may write."""
    for name in ("worked_examples", "rules"):
        (tmp_path / name).symlink_to(ROOT / name)
    return tmp_path


def run_example(example: str, folder: Path) -> None:
    line = example.replace("dwellcalc", f"{shlex.quote(sys.executable)} -m dwellcalc", 1)
    done = subprocess.run(line, shell=True, cwd=folder, env=environment(), capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1, 3), f"{example}: {done.returncode}\n{done.stderr}"
    assert done.stderr == ""
    assert done.stdout or " > " in example


@pytest.mark.parametrize("name", PAGES)
def test_the_examples_of_a_page_run(name: str, checkout: Path) -> None:
    for example in own_examples()[name]:
        if not example.startswith(SLOW):
            run_example(example, checkout)


@pytest.mark.slow
@pytest.mark.parametrize("example", [each for shown in own_examples().values() for each in shown if each.startswith(SLOW)])
def test_the_slow_examples_run(example: str, checkout: Path) -> None:
    run_example(example, checkout)
