"""Arguments of the command, and the exit code.

Exit code 0: fits, agrees, or nothing to compare; 1: does not; 2: the input is wrong; 3: cannot be decided. Modules that
are slow to import are imported where they are needed, so that ``--help`` imports none of them.
"""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Callable, Sequence

from dwellcalc.cli.commands import assess, compare, meter, review, rules
from dwellcalc.cli.commands.help_pages import Page, epilog, help_argument

WRONG_INPUT = 2
EXAMPLES = (
    "dwellcalc assess worked_examples/demo/new_all_electric_house.yaml",
    "dwellcalc compare worked_examples/demo/duplex.yaml --what methods",
    "dwellcalc review worked_examples/submittals/service_change.yaml",
)
CODES = {0: "fits, agrees, or nothing to compare", 1: "does not fit, or does not agree", 3: "cannot be decided"}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; the exit code."""
    pages = parser()
    given = pages.parse_args(arguments)
    run: Callable[[argparse.Namespace], int] | None = getattr(given, "run", None)
    if run is None:
        pages.print_help()
        return 0
    return _guarded(run, given)


def _guarded(run: Callable[[argparse.Namespace], int], given: argparse.Namespace) -> int:
    import gc

    from dwellcalc.problems import InputError

    gc.disable()  # the command is short-lived, and collecting is a good part of its time
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a name that the terminal cannot show must not end the command
    try:
        code = run(given)
        sys.stdout.flush()
    except InputError as error:
        print(error, file=sys.stderr)
        return WRONG_INPUT
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as error:
        print(f"the output cannot be written: {error.strerror}", file=sys.stderr)
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return WRONG_INPUT
    except KeyboardInterrupt:
        print("interrupted", file=sys.stderr)
        return WRONG_INPUT
    return code


def parser() -> argparse.ArgumentParser:
    """The parser of the command with those of all commands."""
    made = argparse.ArgumentParser(
        prog="dwellcalc",
        description="Calculates whether a dwelling's electrical service carries its loads, line by line, from declarative rules.",
        formatter_class=Page,
        epilog=epilog(EXAMPLES, CODES),
        add_help=False,
    )
    help_argument(made)
    commands = made.add_subparsers(title="commands", metavar="COMMAND")
    for each in (assess, compare, meter, review, rules):
        each.add(commands)
    return made
