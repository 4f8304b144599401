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
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dwellcalc.cli.actions import Wanted

WRONG_INPUT = 2
FORMATS = ("text", "markdown", "json")
COMPARED = ("editions", "methods", "interpretations")

Commands = Any  # the parsers of commands, which argparse does not name


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
    assess = commands.add_parser("assess", help="assess a home: does its service carry the load, and what is the calculation")
    _home_arguments(assess)
    assess.add_argument("--format", choices=FORMATS, default="text", help="form of the output (default: text)")
    assess.add_argument("--full", action="store_true", help="also print working lines and lines that were not needed")
    assess.set_defaults(run=_assess)
    explain = commands.add_parser("explain", help="explain one line of a home's calculation in depth")
    _home_arguments(explain)
    explain.add_argument(
        "line", metavar="LINE", help="a number or title of the printed sheet, or an id of the JSON, such as METHOD.LINE"
    )
    explain.add_argument("--format", choices=FORMATS[:2], default="text", help="form of the output (default: text)")
    explain.set_defaults(run=_explain)
    _compare_command(commands)
    _meter_command(commands)
    _review_commands(commands)
    what = "check the rules, show an edition as a document, tell two apart, or list local amendments or mistakes"
    rules = commands.add_parser("rules", help=what)
    _rules_commands(rules)
    return parser


def _home_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("home", metavar="HOME", help="the home file (YAML)")
    parser.add_argument(
        "--edition", default="", help="the edition, instead of the one that the home names (see `dwellcalc rules`)"
    )
    parser.add_argument(
        "--amendment",
        metavar="NAME",
        action="append",
        help="a local amendment, instead of those that the home names; may be given several times, `none` for none",
    )
    parser.add_argument("--method", default="", help="the method whose result is compared, instead of the least that may be used")
    parser.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")


def _compare_command(commands: Commands) -> None:
    compare = commands.add_parser(
        "compare", help="compare a home under editions, by methods or by readings of the code, or with another home"
    )
    compare.add_argument("home", metavar="HOME", help="the home file (YAML)")
    compare.add_argument("other", metavar="OTHER_HOME", nargs="?", default="", help="another home file, to lay beside it")
    compare.add_argument("--what", choices=COMPARED, default="", help=f"what to compare (default: {COMPARED[0]})")
    compare.add_argument(
        "--editions",
        metavar="EDITION",
        nargs="+",
        default=[],
        help="the editions to go through (default: all offered, oldest first)",
    )
    compare.add_argument(
        "--edition", default="", help="the edition of methods, interpretations or two homes, instead of the home's"
    )
    compare.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")
    compare.add_argument("--format", choices=FORMATS, default="text", help="form of the output (default: text)")
    compare.set_defaults(run=_compare)


def _meter_command(commands: Commands) -> None:
    meter = commands.add_parser("meter", help="judge a file of interval data: may it stand for the existing load, and why not")
    meter.add_argument("file", metavar="FILE", help="the file of readings: a table or ESPI XML, also in gz or zip")
    meter.add_argument("--home", metavar="HOME", default="", help="the home file, whose `meter:` says how to read it")
    meter.add_argument("--edition", default="", help="the edition, instead of the home's")
    meter.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")
    meter.add_argument("--format", choices=FORMATS, default="text", help="form of the output (default: text)")
    meter.set_defaults(run=_meter)


def _review_commands(commands: Commands) -> None:
    review = commands.add_parser("review", help="review a submitted calculation: recompute it, tie it out, name what went wrong")
    review.add_argument("submittal", metavar="SUBMITTAL", help="the submittal (YAML), whose table may be a CSV beside it")
    review.add_argument(
        "--against", metavar="EARLIER.json", default="", help="the review before, in JSON: what is closed, open, new"
    )
    review.add_argument("--letter", action="store_true", help="print the letter of comments alone")
    review.add_argument("--edition", default="", help="the edition, instead of the one that the submittal names")
    review.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")
    review.add_argument("--format", choices=FORMATS, default="text", help="form of the output (default: text)")
    review.set_defaults(run=_review)
    verify = commands.add_parser(
        "verify", help="hold the JSON of an assessment against itself and the rules: what no longer holds"
    )
    verify.add_argument("sheet", metavar="SHEET.json", help="what `dwellcalc assess HOME --format json` wrote")
    verify.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")
    verify.add_argument("--format", choices=FORMATS[:2], default="text", help="form of the output (default: text)")
    verify.set_defaults(run=_verify)


def _rules_commands(parser: argparse.ArgumentParser) -> None:
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    check = commands.add_parser("check", help="check every edition of a folder of rules, with all proofs")
    check.add_argument("folder", metavar="RULES", nargs="?", default="", help="the folder; the package's own where none is named")
    check.set_defaults(run=_check)
    show = commands.add_parser("show", help="print an edition in effect, to lay beside the code book")
    show.add_argument("edition", metavar="EDITION", help="the edition, such as nec/2023")
    show.add_argument(
        "--amendment",
        metavar="NAME",
        action="append",
        default=[],
        help="a local amendment that changes it, or a version of one; may be given several times",
    )
    show.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")
    show.add_argument("--format", choices=FORMATS[:2], default="text", help="form of the output (default: text)")
    show.set_defaults(run=_show)
    diff = commands.add_parser("diff", help="print what one edition changes against another, set by set")
    diff.add_argument("first", metavar="A", help="an edition, such as nec/2020")
    diff.add_argument("second", metavar="B", help="the other one")
    diff.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")
    diff.add_argument("--format", choices=FORMATS[:2], default="text", help="form of the output (default: text)")
    diff.set_defaults(run=_diff)
    mistakes = commands.add_parser("mistakes", help="list the mistakes that a review looks for")
    mistakes.add_argument("edition", metavar="EDITION", help="the edition, such as nec/2023")
    mistakes.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")
    mistakes.add_argument("--format", choices=FORMATS[:2], default="text", help="form of the output (default: text)")
    mistakes.set_defaults(run=_mistakes)
    amendments = commands.add_parser("amendments", help="list the local amendments")
    amendments.add_argument("--rules", metavar="FOLDER", default="", help="a folder of rules, instead of the package's own")
    amendments.add_argument("--format", choices=FORMATS[:2], default="text", help="form of the output (default: text)")
    amendments.set_defaults(run=_amendments)


def _folder(name: str) -> Path | None:
    return Path(name) if name else None


def _wanted(given: argparse.Namespace) -> Wanted:
    from dwellcalc.cli.actions import Wanted

    return Wanted(given.edition, given.method, _folder(given.rules), given.amendment)


def _meter(given: argparse.Namespace) -> int:
    from dwellcalc.cli.meter_actions import judge_meter

    return judge_meter(given.file, given.home, given.edition, rules=_folder(given.rules), form=given.format)


def _review(given: argparse.Namespace) -> int:
    from dwellcalc.cli.review_actions import review_submittal

    return review_submittal(
        given.submittal,
        against=given.against,
        edition=given.edition,
        rules=_folder(given.rules),
        form=given.format,
        letter_alone=given.letter,
    )


def _verify(given: argparse.Namespace) -> int:
    from dwellcalc.cli.review_actions import verify_sheet

    return verify_sheet(given.sheet, rules=_folder(given.rules), form=given.format)


def _assess(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import assess_home

    return assess_home(given.home, _wanted(given), form=given.format, full=given.full)


def _explain(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import explain_line

    return explain_line(given.home, given.line, _wanted(given), form=given.format)


def _check(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import check_rules

    return check_rules(_folder(given.folder))


def _show(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import show_rules

    return show_rules(given.edition, rules=_folder(given.rules), amendments=given.amendment, form=given.format)


def _diff(given: argparse.Namespace) -> int:
    from dwellcalc.cli.compare_actions import diff_rules

    return diff_rules(given.first, given.second, rules=_folder(given.rules), form=given.format)


def _compare(given: argparse.Namespace) -> int:
    from dwellcalc.cli.compare_actions import compare_home

    return compare_home(
        given.home,
        given.other,
        what=given.what,
        edition=given.edition,
        editions=given.editions,
        rules=_folder(given.rules),
        form=given.format,
    )


def _mistakes(given: argparse.Namespace) -> int:
    from dwellcalc.cli.review_actions import list_mistakes

    return list_mistakes(given.edition, rules=_folder(given.rules), form=given.format)


def _amendments(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import list_amendments

    return list_amendments(rules=_folder(given.rules), form=given.format)
