"""The commands that show the calculation of a home."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import FORMATS, Commands, format_argument, home_arguments, wanted


def add(commands: Commands) -> None:
    """``assess`` and ``explain``."""
    assess = commands.add_parser("assess", help="assess a home: does its service carry the load, and what is the calculation")
    home_arguments(assess)
    format_argument(assess, (*FORMATS, "html"))
    assess.add_argument(
        "-o", "--output", metavar="FILE", default="", help="write into a file, whole or not at all, instead of printing"
    )
    assess.add_argument("--full", action="store_true", help="also print working lines and lines that were not needed")
    assess.set_defaults(run=_assess)
    explain = commands.add_parser("explain", help="explain one line of a home's calculation in depth")
    home_arguments(explain)
    explain.add_argument(
        "line", metavar="LINE", help="a number or title of the printed sheet, or an id of the JSON, such as METHOD.LINE"
    )
    format_argument(explain, FORMATS[:2])
    explain.set_defaults(run=_explain)


def _assess(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import assess_home

    return assess_home(given.home, wanted(given), form=given.format, full=given.full, output=given.output)


def _explain(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import explain_line

    return explain_line(given.home, given.line, wanted(given), form=given.format)
