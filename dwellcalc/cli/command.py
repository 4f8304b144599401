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

from dwellcalc.cli.commands import assess, compare, meter, review, rules, schema, start

WRONG_INPUT = 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; the exit code."""
    parser = _parser()
    given = parser.parse_args(arguments)
    run: Callable[[argparse.Namespace], int] | None = getattr(given, "run", None)
    if run is None:
        parser.print_help()
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


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="dwellcalc",
        description="Calculates whether a dwelling's electrical service carries its loads, line by line, from declarative rules.",
        epilog="Exit code: 0 fits, agrees or nothing to compare; 1 does not; 2 the input is wrong; 3 cannot be decided.",
    )
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    for each in (start, assess, compare, meter, review, rules, schema):
        each.add(commands)
    return parser
