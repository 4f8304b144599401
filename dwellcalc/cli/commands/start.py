"""The command that begins a home file."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import Commands, folder, rules_argument
from dwellcalc.cli.commands.help_pages import add_command

EXAMPLES = (
    "dwellcalc start my_house.yaml --work existing",
    "dwellcalc start my_answers.yaml --work vacant --ask",
)


def add(commands: Commands) -> None:
    """``start``."""
    start = add_command(
        commands,
        "start",
        "begin a home file: with comments to be filled in, or by questions with --ask",
        "Begins a home file for a kind of work: one with comments to be filled in, or by questions, one at a time.",
        EXAMPLES,
        {0: "the file is written, or all is asked", 3: "the questions were stopped; what was answered is in the file"},
    )
    start.add_argument(
        "file", metavar="FILE", help="the file to be written, such as home.yaml; one that is there is never overwritten"
    )
    start.add_argument("--work", metavar="KIND", default="", help="the kind of work; a wrong word lists those that there are")
    start.add_argument("--ask", action="store_true", help="ask one question after the other, and go on where it was stopped")
    start.add_argument(
        "--schema",
        metavar="SCHEMA",
        default="",
        help="name this JSON Schema (see `dwellcalc schema`) in the first line of the file",
    )
    rules_argument(start)
    start.set_defaults(run=_start)


def _start(given: argparse.Namespace) -> int:
    from dwellcalc.cli.start_actions import Begun, ask, write_empty

    begun = Begun(given.file, given.work, given.schema, folder(given.rules))
    return ask(begun) if given.ask else write_empty(begun)
