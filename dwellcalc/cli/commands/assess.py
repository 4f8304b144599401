"""The commands that show the calculation of a home."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import FORMATS, Commands, format_argument, home_arguments, rules_argument, wanted
from dwellcalc.cli.commands.help_pages import add_command

ASSESS_EXAMPLES = (
    "dwellcalc assess worked_examples/demo/new_all_electric_house.yaml",
    "dwellcalc assess worked_examples/demo/duplex.yaml --format html --output duplex.html",
    "dwellcalc assess worked_examples/demo/three_flats.yaml --format json > sheet.json",
)
EXPLAIN_EXAMPLES = (
    "dwellcalc explain worked_examples/demo/duplex.yaml 12",
    "dwellcalc explain worked_examples/demo/three_flats.yaml h1 --format markdown",
)
VERDICTS = {
    0: "every supply fits, or there is nothing to compare its load with",
    1: "a supply does not fit, or something else is to be put right",
    3: "what is known does not decide whether a supply fits",
}


def add(commands: Commands) -> None:
    """``assess`` and ``explain``."""
    assess = add_command(
        commands,
        "assess",
        "assess a home: does its service carry the load, and what is the calculation",
        "Answers whether the service and the feeders of a home carry its loads, then shows the calculation line by line.",
        ASSESS_EXAMPLES,
        VERDICTS,
    )
    home_arguments(assess)
    assess.add_argument(
        "-o", "--output", metavar="FILE", default="", help="write into a file, whole or not at all, instead of printing"
    )
    assess.add_argument("--full", action="store_true", help="also print working lines and lines that were not needed")
    assess.add_argument(
        "--editions",
        action="store_true",
        help="also tell what every edition gives (a page and JSON always do); takes seconds more",
    )
    format_argument(assess, (*FORMATS, "html"))
    rules_argument(assess)
    assess.set_defaults(run=_assess)
    explain = add_command(
        commands,
        "explain",
        "explain one line of a home's calculation in depth",
        "Explains one line of a home's calculation: section, formula, numbers, members, and where each input stands.",
        EXPLAIN_EXAMPLES,
        {0: "the line is explained"},
    )
    home_arguments(explain)
    explain.add_argument(
        "line", metavar="LINE", help="a number or title of the printed sheet, or an id of the JSON, such as METHOD.LINE"
    )
    format_argument(explain, FORMATS[:2])
    rules_argument(explain)
    explain.set_defaults(run=_explain)


def _assess(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import assess_home

    return assess_home(
        given.home, wanted(given), form=given.format, full=given.full, editions=given.editions, output=given.output
    )


def _explain(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import explain_line

    return explain_line(given.home, given.line, wanted(given), form=given.format)
