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
    edition_argument(parser, "the home names")
    parser.add_argument(
        "--amendment",
        metavar="NAME",
        action="append",
        help="a local amendment, instead of those that the home names (see `dwellcalc rules amendments`); "
        "may be given several times, `none` for none",
    )
    parser.add_argument(
        "--method",
        metavar="NAME",
        default="",
        help="the method whose result is compared, instead of the least that may be used (a name under `--format json`)",
    )


def edition_argument(parser: argparse.ArgumentParser, instead_of: str) -> None:
    """``--edition``."""
    instead = f"the edition, such as nec/2023, instead of the one that {instead_of}"
    parser.add_argument("--edition", metavar="EDITION", default="", help=instead)


def rules_argument(parser: argparse.ArgumentParser) -> None:
    """``--rules``: other rules than the package's own."""
    parser.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")


def format_argument(parser: argparse.ArgumentParser, forms: tuple[str, ...]) -> None:
    """``--format``."""
    form = f"form of the output: {', '.join(forms)} (default: the first)"
    parser.add_argument("--format", metavar="FORM", choices=forms, default=forms[0], help=form)


def folder(name: str) -> Path | None:
    """The folder of rules that was named; nothing stands for the package's own."""
    return Path(name) if name else None


def wanted(given: argparse.Namespace) -> Wanted:
    """What the command asks of a home's calculation."""
    from dwellcalc.cli.actions import Wanted

    return Wanted(given.edition, given.method, folder(given.rules), given.amendment)
