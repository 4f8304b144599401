"""Arguments that several commands take."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dwellcalc.cli.actions import Wanted

FORMATS = ("text", "markdown", "json")
Commands = Any  # the parsers of commands, which argparse does not name


def home_arguments(parser: argparse.ArgumentParser) -> None:
    """What every command on one home takes: the file, and what is asked instead of what it says."""
    parser.add_argument("home", metavar="HOME", help="the home file (YAML)")
    parser.add_argument(
        "--edition", default="", help="the edition, instead of the one that the home names (see `dwellcalc rules`)"
    )
    parser.add_argument(
        "--amendment",
        metavar="NAME",
        action="append",
        help="a local amendment, instead of those that the home names; may be given several times, `none` for none",
    )
    parser.add_argument("--method", default="", help="the method whose result is compared, instead of the least that may be used")
    rules_argument(parser)


def rules_argument(parser: argparse.ArgumentParser) -> None:
    """``--rules``: other rules than the package's own."""
    parser.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")


def format_argument(parser: argparse.ArgumentParser, forms: tuple[str, ...]) -> None:
    """``--format``."""
    parser.add_argument("--format", choices=forms, default=forms[0], help=f"form of the output (default: {forms[0]})")


def folder(name: str) -> Path | None:
    """The folder of rules that was named; nothing stands for the package's own."""
    return Path(name) if name else None


def wanted(given: argparse.Namespace) -> Wanted:
    """What the command asks of a home's calculation."""
    from dwellcalc.cli.actions import Wanted

    return Wanted(given.edition, given.method, folder(given.rules), given.amendment)
