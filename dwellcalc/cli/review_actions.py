"""What the commands do that hold a document against the rules: a submittal, or one of our own."""

from __future__ import annotations

import datetime
from pathlib import Path

from dwellcalc.cli.printing import print_blocks, print_json, print_page
from dwellcalc.cli.progress_line import progress_line
from dwellcalc.decide.document import OPEN
from dwellcalc.language.rule_set import load_rules
from dwellcalc.problems import fail, message
from dwellcalc.report.letter import letter
from dwellcalc.report.mistake_pages import mistake_pages
from dwellcalc.report.page.review_page import review_page
from dwellcalc.report.review_pages import in_short, review_pages
from dwellcalc.report.tables import Paragraph
from dwellcalc.report.verify_pages import verify_pages
from dwellcalc.review.document import Review
from dwellcalc.review.finding import ERROR
from dwellcalc.review.review import review
from dwellcalc.review.rounds import earlier_findings, rounds
from dwellcalc.review.sheets.verify import verify
from dwellcalc.review.submittal_reader import read_submittal
from dwellcalc.review.suspects import suspects_of
from dwellcalc.review.tie_out import CANNOT, DIFFERS

REVIEW_NOT_OVER = message(
    "review_not_over", 'the review is not written over the file "{name}"', "give `--output` the name of another file"
)

TOLERANCE = 1e-9  # of numbers that count as the same
SECONDS = 60.0  # that mistakes are searched for at most; how many are tried is a number of the rules, the same on every machine


def review_submittal(
    name: str, *, against: str, edition: str, rules: Path | None, form: str, letter_alone: bool, output: str = ""
) -> int:
    """``dwellcalc review``: the review of a submittal; the exit code."""
    if output:
        for kept in (name, against):
            if kept and Path(output).exists() and Path(kept).exists() and Path(output).samefile(kept):
                fail(REVIEW_NOT_OVER, name=kept)
    earlier = earlier_findings(against) if against else None
    today = datetime.date.today().isoformat()
    with progress_line() as progress:
        progress("reading the rules and the submittal")
        submittal = read_submittal(name, date=today, edition=edition, rules=rules)
        found = review(submittal, date=today, seconds=SECONDS, progress=progress)
    if earlier is not None:
        found.against, found.rounds = earlier[0], rounds(found.findings, earlier[1], found.struck)
    if form == "json":
        print_json(found.json(), output)
    else:
        pages = letter(found) if letter_alone else review_pages(found)
        if form == "html":
            print_page(review_page(found, pages), output)
        else:
            print_blocks(pages, form, output)
    if output:
        print_blocks([*in_short(found), Paragraph(f"Written: {output}")], "text")
    return exit_code(found)


def verify_sheet(name: str, *, rules: Path | None, form: str) -> int:
    """``dwellcalc verify``: what of an assessment's JSON no longer holds; 0 where all does, else 1."""
    with progress_line() as progress:
        progress("working every line out again")
        found = verify(name, tolerance=TOLERANCE, rules=rules)
    print_blocks(verify_pages(found), form)
    return 0 if found.holds else 1


def list_mistakes(edition: str, *, rules: Path | None, form: str) -> int:
    """``dwellcalc rules mistakes``: the catalogue as an edition has it; the exit code is 0."""
    found = load_rules(edition, rules)
    print_blocks(mistake_pages(found, suspects_of(found, found.methods).listed()), form)
    return 0


def exit_code(found: Review) -> int:
    """0 where all agrees, 1 where a figure differs or something is an error, 3 where nothing could be calculated."""
    if any(each.severity == ERROR for each in found.findings) or any(each.outcome == DIFFERS for each in found.claims):
        return 1
    undecided = all(each.outcome == CANNOT for each in found.claims) or found.verdict == OPEN
    return 3 if found.claims and undecided else 0
