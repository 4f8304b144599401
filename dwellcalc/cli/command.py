"""Arguments of the command, and the exit code.

Exit code 0: fits, agrees, or nothing to compare; 1: does not; 2: the input is wrong; 3: cannot be decided. Modules that
are slow to import are imported where they are needed, so that ``--help`` imports none of them.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence

from dwellcalc.cli.characters import make_writable
from dwellcalc.cli.commands import assess, compare, meter, review, rules, schema, start
from dwellcalc.cli.commands.help_pages import Page, epilog, help_argument
from dwellcalc.cli.terminal import print_error, write_no_more

WRONG_INPUT = 2
EXAMPLES = (
    "dwellcalc assess worked_examples/demo/new_all_electric_house.yaml",
    "dwellcalc compare worked_examples/demo/duplex.yaml --what methods",
    "dwellcalc review worked_examples/submittals/service_change.yaml",
)
CODES = {0: "fits, agrees, or nothing to compare", 1: "does not fit, or does not agree", 3: "cannot be decided"}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; the exit code."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:  # closed by whoever started the command
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115 - open to the end
        make_writable(getattr(sys, name))  # a name that the terminal cannot show must not end the command
    return _guarded(lambda: _run(arguments))


def _run(arguments: Sequence[str] | None) -> int:
    pages = parser()
    given = pages.parse_args(arguments)
    run: Callable[[argparse.Namespace], int] | None = getattr(given, "run", None)
    if run is None:
        pages.print_help()
        return 0
    gc.disable()  # the command is short-lived, and collecting is a good part of its time
    return run(given)


def _guarded(run: Callable[[], int]) -> int:
    from dwellcalc.problems import InputError

    try:
        try:
            code = run()
        finally:  # a page of help ends the command by itself
            sys.stdout.flush()
    except InputError as error:
        print_error(str(error))
        return WRONG_INPUT
    except BrokenPipeError:
        write_no_more(sys.stdout)
        return 0
    except OSError as error:
        print_error(f"the output cannot be written: {error.strerror}")
        write_no_more(sys.stdout)
        return WRONG_INPUT
    except KeyboardInterrupt:
        print_error("interrupted")
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
    for each in (start, assess, compare, meter, review, rules, schema):
        each.add(commands)
    return made
