"""The command that writes the JSON Schema of the home file."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import Commands, folder, rules_argument
from dwellcalc.cli.commands.help_pages import add_command

EXAMPLES = ("dwellcalc schema --output home.schema.json", "dwellcalc schema")


def add(commands: Commands) -> None:
    """``schema``."""
    schema = add_command(
        commands,
        "schema",
        "write the JSON Schema of the home file, by which an editor completes and explains",
        "Writes the JSON Schema of the home file, by which an editor completes what is typed and explains it.",
        EXAMPLES,
        {0: "it is written"},
    )
    schema.add_argument("--output", metavar="FILE", default="", help="the file to be written, instead of the screen")
    rules_argument(schema)
    schema.set_defaults(run=_schema)


def _schema(given: argparse.Namespace) -> int:
    from dwellcalc.cli.start_actions import write_schema

    return write_schema(given.output, folder(given.rules))
