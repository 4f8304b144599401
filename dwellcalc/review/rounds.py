"""The second round: findings against those of an earlier review, each closed, still open, or new."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from dwellcalc.problems import fail, message
from dwellcalc.reading import load_text
from dwellcalc.review.document import CLOSED, NEW, STILL_OPEN, WITHDRAWN, Round, Struck
from dwellcalc.review.finding import Finding

NO_REVIEW = message(
    "against_no_review",
    'the file "{name}" is no review in JSON: {why}',
    "the earlier one, as `dwellcalc review ... --format json` writes it",
)


def earlier_findings(path: Path | str) -> tuple[str, list[tuple[str, str]]]:
    """The title of an earlier review, and its findings by id and title.

    Raises:
        InputError: the file is no review.
    """
    try:
        found: Any = json.loads(load_text(path))
    except (ValueError, RecursionError):
        fail(NO_REVIEW, name=path, why="it is not JSON")
    try:
        title = f"{found['submittal']['title']}, {found['date']}"
        return title, [(str(each["id"]), str(each["title"])) for each in found.get("findings", [])]
    except (KeyError, TypeError, AttributeError):
        fail(NO_REVIEW, name=path, why="it lacks what a review holds")


def rounds(findings: Iterable[Finding], earlier: Iterable[tuple[str, str]], struck: Iterable[Struck] = ()) -> list[Round]:
    """What became of the earlier findings, and which are new; those that are struck since are withdrawn."""
    withdrawn = {each.finding.id for each in struck}
    now = {each.id: each for each in findings}
    before = dict(earlier)
    found = [
        Round(name, title, STILL_OPEN if name in now else WITHDRAWN if name in withdrawn else CLOSED)
        for name, title in before.items()
    ]
    return [*found, *(Round(each.id, each.title, NEW) for each in now.values() if each.id not in before)]
