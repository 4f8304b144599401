"""The commands that show and check the rules."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import FORMATS, Commands, folder, format_argument, rules_argument
from dwellcalc.cli.commands.help_pages import add_command

WHAT = "check the rules, show an edition as a document, tell two apart, list amendments or mistakes, or write pages to read"
EXAMPLES = (
    "dwellcalc rules show nec/2023",
    "dwellcalc rules diff nec/2020 nec/2023",
    "dwellcalc rules amendments",
)
PRINTED = {0: "printed"}


def add(commands: Commands) -> None:
    """``rules`` with its commands."""
    about = "Shows and checks the rules: every number of the code with its section, its source and how sure it is."
    rules = add_command(commands, "rules", WHAT, about, EXAMPLES, PRINTED)
    kinds = rules.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for each in (_add_show, _add_diff, _add_amendments, _add_mistakes, _add_reading, _add_check):
        each(kinds)


def _add_show(kinds: Commands) -> None:
    show = add_command(
        kinds,
        "show",
        "print an edition in effect, to lay beside the code book",
        "Prints an edition in effect as a document to lay beside the code book, with amendments where they are named.",
        (
            "dwellcalc rules show nec/2023",
            "dwellcalc rules show nec/2023 --amendment denver/vehicle_charging/2025 --format markdown",
        ),
        PRINTED,
    )
    show.add_argument("edition", metavar="EDITION", help="the edition, such as nec/2023")
    show.add_argument(
        "--amendment",
        metavar="NAME",
        action="append",
        default=[],
        help="a local amendment that changes it, or a version of one; may be given several times",
    )
    format_argument(show, FORMATS[:2])
    rules_argument(show)
    show.set_defaults(run=_show)


def _add_diff(kinds: Commands) -> None:
    diff = add_command(
        kinds,
        "diff",
        "print what one edition changes against another, set by set",
        "Prints what one edition changes against another, set by set: what was, what is now, section and evidence.",
        ("dwellcalc rules diff nec/2020 nec/2023", "dwellcalc rules diff nec/2023 nec/2026 --format markdown"),
        PRINTED,
    )
    diff.add_argument("first", metavar="A", help="an edition, such as nec/2020")
    diff.add_argument("second", metavar="B", help="the other one")
    format_argument(diff, FORMATS[:2])
    rules_argument(diff)
    diff.set_defaults(run=_diff)


def _add_amendments(kinds: Commands) -> None:
    amendments = add_command(
        kinds,
        "amendments",
        "list the local amendments",
        "Lists the local amendments with the days that each is in force, its status, its source and what it leaves out.",
        ("dwellcalc rules amendments", "dwellcalc rules amendments --format markdown"),
        PRINTED,
    )
    format_argument(amendments, FORMATS[:2])
    rules_argument(amendments)
    amendments.set_defaults(run=_amendments)


def _add_mistakes(kinds: Commands) -> None:
    mistakes = add_command(
        kinds,
        "mistakes",
        "list the mistakes that a review looks for",
        "Lists the mistakes that a review looks for under an edition: what was done, what is right, and by which section.",
        ("dwellcalc rules mistakes nec/2023", "dwellcalc rules mistakes nec/2014 --format markdown"),
        PRINTED,
    )
    mistakes.add_argument("edition", metavar="EDITION", help="the edition, such as nec/2023")
    format_argument(mistakes, FORMATS[:2])
    rules_argument(mistakes)
    mistakes.set_defaults(run=_mistakes)


def _add_reading(kinds: Commands) -> None:
    reading = add_command(
        kinds,
        "reading",
        "write pages to read: names of the home file, kinds of loads, methods, mistakes, sources",
        "Writes pages in Markdown, made from the rules: what a home file may hold, kinds of loads, methods, mistakes, amendments "
        "and sources.",
        ("dwellcalc rules reading pages", "dwellcalc rules reading pages --rules rules"),
        {0: "written"},
    )
    reading.add_argument("folder", metavar="FOLDER", help="the folder to write to; pages of the same names are replaced")
    rules_argument(reading)
    reading.set_defaults(run=_reading)


def _add_check(kinds: Commands) -> None:
    check = add_command(
        kinds,
        "check",
        "check every edition of a folder of rules, with all proofs",
        "Checks every edition, every amendment and the catalogue of mistakes, with all proofs; it takes some minutes.",
        ("dwellcalc rules check", "dwellcalc rules check rules"),
        {0: "no problem was found", 2: "a problem was found, or the input is wrong"},
    )
    check.add_argument("folder", metavar="RULES", nargs="?", default="", help="the folder; the package's own where none is named")
    check.set_defaults(run=_check)


def _check(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import check_rules

    return check_rules(folder(given.folder))


def _show(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import show_rules

    return show_rules(given.edition, rules=folder(given.rules), amendments=given.amendment, form=given.format)


def _diff(given: argparse.Namespace) -> int:
    from dwellcalc.cli.compare_actions import diff_rules

    return diff_rules(given.first, given.second, rules=folder(given.rules), form=given.format)


def _mistakes(given: argparse.Namespace) -> int:
    from dwellcalc.cli.review_actions import list_mistakes

    return list_mistakes(given.edition, rules=folder(given.rules), form=given.format)


def _reading(given: argparse.Namespace) -> int:
    from dwellcalc.cli.reading_actions import write_reading

    return write_reading(given.folder, rules=folder(given.rules))


def _amendments(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import list_amendments

    return list_amendments(rules=folder(given.rules), form=given.format)
