"""The commands that show and check the rules."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import FORMATS, Commands, folder, format_argument, rules_argument


def add(commands: Commands) -> None:
    """``rules`` with its commands."""
    what = "check the rules, show an edition as a document, tell two apart, or list local amendments or mistakes"
    rules = commands.add_parser("rules", help=what)
    kinds = rules.add_subparsers(title="commands", metavar="COMMAND", required=True)
    check = kinds.add_parser("check", help="check every edition of a folder of rules, with all proofs")
    check.add_argument("folder", metavar="RULES", nargs="?", default="", help="the folder; the package's own where none is named")
    check.set_defaults(run=_check)
    show = kinds.add_parser("show", help="print an edition in effect, to lay beside the code book")
    show.add_argument("edition", metavar="EDITION", help="the edition, such as nec/2023")
    show.add_argument(
        "--amendment",
        metavar="NAME",
        action="append",
        default=[],
        help="a local amendment that changes it, or a version of one; may be given several times",
    )
    rules_argument(show)
    format_argument(show, FORMATS[:2])
    show.set_defaults(run=_show)
    diff = kinds.add_parser("diff", help="print what one edition changes against another, set by set")
    diff.add_argument("first", metavar="A", help="an edition, such as nec/2020")
    diff.add_argument("second", metavar="B", help="the other one")
    rules_argument(diff)
    format_argument(diff, FORMATS[:2])
    diff.set_defaults(run=_diff)
    mistakes = kinds.add_parser("mistakes", help="list the mistakes that a review looks for")
    mistakes.add_argument("edition", metavar="EDITION", help="the edition, such as nec/2023")
    rules_argument(mistakes)
    format_argument(mistakes, FORMATS[:2])
    mistakes.set_defaults(run=_mistakes)
    amendments = kinds.add_parser("amendments", help="list the local amendments")
    rules_argument(amendments)
    format_argument(amendments, FORMATS[:2])
    amendments.set_defaults(run=_amendments)


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


def _amendments(given: argparse.Namespace) -> int:
    from dwellcalc.cli.actions import list_amendments

    return list_amendments(rules=folder(given.rules), form=given.format)
