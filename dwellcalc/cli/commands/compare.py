"""The command that compares."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import FORMATS, Commands, edition_argument, folder, format_argument, rules_argument
from dwellcalc.cli.commands.help_pages import add_command

COMPARED = ("editions", "methods", "interpretations")
EXAMPLES = (
    "dwellcalc compare worked_examples/demo/new_all_electric_house.yaml --editions nec/2023 nec/2026",
    "dwellcalc compare worked_examples/demo/duplex.yaml --what methods",
    "dwellcalc compare worked_examples/demo/small_gas_heated_house.yaml worked_examples/demo/vacant_older_house.yaml",
)


def add(commands: Commands) -> None:
    """``compare``."""
    compare = add_command(
        commands,
        "compare",
        "compare a home under editions, by methods or by readings of the code, or with another home",
        "Compares a home under editions, by methods or by readings of the code, or with another home, and says what makes each "
        "ampere of difference.",
        EXAMPLES,
        {0: "compared"},
    )
    compare.add_argument("home", metavar="HOME", help="the home file (YAML)")
    compare.add_argument("other", metavar="OTHER_HOME", nargs="?", default="", help="another home file, to lay beside it")
    compare.add_argument(
        "--what",
        metavar="WHAT",
        choices=COMPARED,
        default="",
        help=f"what to compare: {', '.join(COMPARED)} (default: the first)",
    )
    compare.add_argument(
        "--editions",
        metavar="EDITION",
        nargs="+",
        default=[],
        help="the editions to go through (default: all offered, oldest first)",
    )
    edition_argument(compare, "the home names (of methods, interpretations, two homes)")
    format_argument(compare, FORMATS)
    rules_argument(compare)
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
