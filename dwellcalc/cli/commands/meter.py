"""The command that judges a record of the metered demand."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import FORMATS, Commands, folder, format_argument, rules_argument


def add(commands: Commands) -> None:
    """``meter``."""
    meter = commands.add_parser("meter", help="judge a file of interval data: may it stand for the existing load, and why not")
    meter.add_argument("file", metavar="FILE", help="the file of readings: a table or ESPI XML, also in gz or zip")
    meter.add_argument("--home", metavar="HOME", default="", help="the home file, whose `meter:` says how to read it")
    meter.add_argument("--edition", default="", help="the edition, instead of the home's")
    rules_argument(meter)
    format_argument(meter, FORMATS)
    meter.set_defaults(run=_meter)


def _meter(given: argparse.Namespace) -> int:
    from dwellcalc.cli.meter_actions import judge_meter

    return judge_meter(given.file, given.home, given.edition, rules=folder(given.rules), form=given.format)
