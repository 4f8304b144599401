"""The command that judges a record of the metered demand."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import FORMATS, Commands, edition_argument, folder, format_argument, rules_argument
from dwellcalc.cli.commands.help_pages import add_command

RECORD = "worked_examples/demo/house_with_meter_record"
EXAMPLES = (
    f"dwellcalc meter {RECORD}.csv.gz --home {RECORD}.yaml",
    f"dwellcalc meter {RECORD}.csv.gz --home {RECORD}.yaml --format markdown",
)


def add(commands: Commands) -> None:
    """``meter``."""
    meter = add_command(
        commands,
        "meter",
        "judge a file of interval data: may it stand for the existing load, and why not",
        "Judges a file of interval data: may its maximum demand stand for the existing load, why not, and what would mend it.",
        EXAMPLES,
        {0: "the record is usable", 1: "the record is not usable"},
    )
    meter.add_argument("file", metavar="FILE", help="the file of readings: a table or ESPI XML, also in gz or zip")
    meter.add_argument("--home", metavar="HOME", default="", help="the home file, whose `meter:` says how to read it")
    edition_argument(meter, "the home names")
    format_argument(meter, FORMATS)
    rules_argument(meter)
    meter.set_defaults(run=_meter)


def _meter(given: argparse.Namespace) -> int:
    from dwellcalc.cli.meter_actions import judge_meter

    return judge_meter(given.file, given.home, given.edition, rules=folder(given.rules), form=given.format)
