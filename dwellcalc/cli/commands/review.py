"""The commands that hold a document against the rules."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import FORMATS, Commands, folder, format_argument, rules_argument


def add(commands: Commands) -> None:
    """``review`` and ``verify``."""
    review = commands.add_parser("review", help="review a submitted calculation: recompute it, tie it out, name what went wrong")
    review.add_argument("submittal", metavar="SUBMITTAL", help="the submittal (YAML), whose table may be a CSV beside it")
    review.add_argument(
        "--against", metavar="EARLIER.json", default="", help="the review before, in JSON: what is closed, open, new"
    )
    review.add_argument("--letter", action="store_true", help="print the letter of comments alone")
    review.add_argument("--edition", default="", help="the edition, instead of the one that the submittal names")
    rules_argument(review)
    format_argument(review, FORMATS)
    review.set_defaults(run=_review)
    verify = commands.add_parser(
        "verify", help="hold the JSON of an assessment against itself and the rules: what no longer holds"
    )
    verify.add_argument("sheet", metavar="SHEET.json", help="what `dwellcalc assess HOME --format json` wrote")
    rules_argument(verify)
    format_argument(verify, FORMATS[:2])
    verify.set_defaults(run=_verify)


def _review(given: argparse.Namespace) -> int:
    from dwellcalc.cli.review_actions import review_submittal

    return review_submittal(
        given.submittal,
        against=given.against,
        edition=given.edition,
        rules=folder(given.rules),
        form=given.format,
        letter_alone=given.letter,
    )


def _verify(given: argparse.Namespace) -> int:
    from dwellcalc.cli.review_actions import verify_sheet

    return verify_sheet(given.sheet, rules=folder(given.rules), form=given.format)
