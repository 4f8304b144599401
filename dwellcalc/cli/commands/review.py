"""The commands that hold a document against the rules."""

from __future__ import annotations

import argparse

from dwellcalc.cli.commands.common import FORMATS, Commands, edition_argument, folder, format_argument, rules_argument
from dwellcalc.cli.commands.help_pages import add_command

REVIEW_EXAMPLES = (
    "dwellcalc review worked_examples/submittals/service_change.yaml",
    "dwellcalc review worked_examples/submittals/new_house.yaml --format json --output first.json",
    "dwellcalc review worked_examples/submittals/new_house.yaml --against first.json --letter --format html --output letter.html",
)
VERIFY_EXAMPLES = (
    "dwellcalc assess worked_examples/demo/duplex.yaml --format json > sheet.json",
    "dwellcalc verify sheet.json",
)
OUTCOMES = {
    0: "every figure agrees, and nothing is an error",
    1: "a figure differs, or something is an error",
    3: "nothing could be calculated, or the verdict is open",
}


def add(commands: Commands) -> None:
    """``review`` and ``verify``."""
    review = add_command(
        commands,
        "review",
        "review a submitted calculation: recompute it, tie it out, name what went wrong",
        "Reviews somebody else's calculation: computes every figure again, names what went wrong, and writes the comments.",
        REVIEW_EXAMPLES,
        OUTCOMES,
    )
    review.add_argument("submittal", metavar="SUBMITTAL", help="the submittal (YAML), whose table may be a CSV beside it")
    review.add_argument(
        "--against", metavar="EARLIER.json", default="", help="the review before, in JSON: what is closed, open, new"
    )
    edition_argument(review, "the submittal names")
    review.add_argument("--letter", action="store_true", help="print the letter of comments alone")
    format_argument(review, (*FORMATS, "html"))
    review.add_argument(
        "-o", "--output", metavar="FILE", default="", help="write into a file, whole or not at all, instead of printing"
    )
    rules_argument(review)
    review.set_defaults(run=_review)
    verify = add_command(
        commands,
        "verify",
        "hold the JSON of an assessment against itself and the rules: what no longer holds",
        "Works every line of an assessment's JSON out again from what it prints, then assesses the home in it anew.",
        VERIFY_EXAMPLES,
        {0: "all of it holds", 1: "something no longer holds"},
    )
    verify.add_argument("sheet", metavar="SHEET.json", help="what `dwellcalc assess HOME --format json` wrote")
    format_argument(verify, FORMATS[:2])
    rules_argument(verify)
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
        output=given.output,
    )


def _verify(given: argparse.Namespace) -> int:
    from dwellcalc.cli.review_actions import verify_sheet

    return verify_sheet(given.sheet, rules=folder(given.rules), form=given.format)
