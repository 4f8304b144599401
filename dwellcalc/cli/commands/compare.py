"""The command that compares."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import FORMATS, Commands, folder, format_argument, rules_argument

COMPARED = ("editions", "methods", "interpretations")


def add(commands: Commands) -> None:
    """``compare``."""
    compare = commands.add_parser(
        "compare", help="compare a home under editions, by methods or by readings of the code, or with another home"
    )
    compare.add_argument("home", metavar="HOME", help="the home file (YAML)")
    compare.add_argument("other", metavar="OTHER_HOME", nargs="?", default="", help="another home file, to lay beside it")
    compare.add_argument("--what", choices=COMPARED, default="", help=f"what to compare (default: {COMPARED[0]})")
    compare.add_argument(
        "--editions",
        metavar="EDITION",
        nargs="+",
        default=[],
        help="the editions to go through (default: all offered, oldest first)",
    )
    compare.add_argument(
        "--edition", default="", help="the edition of methods, interpretations or two homes, instead of the home's"
    )
    rules_argument(compare)
    format_argument(compare, FORMATS)
    compare.set_defaults(run=_compare)


def _compare(given: argparse.Namespace) -> int:
    from dwellcalc.cli.compare_actions import compare_home

    return compare_home(
        given.home,
        given.other,
        what=given.what,
        edition=given.edition,
        editions=given.editions,
        rules=folder(given.rules),
        form=given.format,
    )
