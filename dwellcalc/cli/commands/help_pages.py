"""The help of every command: what it does, examples that run from a checkout, and what its exit code says."""

from __future__ import annotations

import argparse
import shutil
import textwrap
from collections.abc import Mapping, Sequence

from dwellcalc.cli.commands.common import Commands

NARROWEST, WIDEST = 60, 110
WRONG = {2: "the input is wrong"}


class Page(argparse.HelpFormatter):
    """Help as wide as the terminal, but no wider than text is easy to read; the lines of an epilog stay as they are."""

    def __init__(self, prog: str) -> None:
        wide = shutil.get_terminal_size().columns
        super().__init__(prog, max_help_position=26, width=min(max(wide, NARROWEST), WIDEST))

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        return "\n".join(_within(line, width) for line in text.split("\n"))


def add_command(
    commands: Commands, name: str, short: str, about: str, examples: Sequence[str], codes: Mapping[int, str]
) -> argparse.ArgumentParser:
    """The parser of a command with the page that ``--help`` prints.

    Args:
        commands: where it is added.
        name: the command.
        short: what it does, for the list of commands.
        about: what it does, in a sentence.
        examples: command lines that run from a checkout.
        codes: what each exit code says, beside that of wrong input.
    """
    parser = commands.add_parser(
        name, help=short, description=about, formatter_class=Page, epilog=epilog(examples, codes), add_help=False
    )
    assert isinstance(parser, argparse.ArgumentParser)
    help_argument(parser)
    return parser


def help_argument(parser: argparse.ArgumentParser) -> None:
    """``--help``."""
    parser.add_argument("-h", "--help", action="help", help="show this page")


def epilog(examples: Sequence[str], codes: Mapping[int, str]) -> str:
    """What stands at the end of a page of help: the examples, and the exit codes."""
    codes = {**WRONG, **codes}
    said = [f"  {code}  {codes[code]}" for code in sorted(codes)]
    return "\n".join(["examples:", *(f"  {example}" for example in examples), "", "exit code:", *said])


def _within(line: str, width: int) -> str:
    """A line of an epilog; one that is too long goes on below, an example by the shell's own mark."""
    indent = " " * (len(line) - len(line.lstrip()))
    mark = " \\" if line.startswith("  dwellcalc") else ""
    rows = textwrap.wrap(
        line,
        width - len(mark),
        subsequent_indent=indent + "  " if mark else indent + "   " * bool(indent),
        break_long_words=False,
        break_on_hyphens=False,
    )
    return (mark + "\n").join(rows)
