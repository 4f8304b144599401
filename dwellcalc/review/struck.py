"""Comments of the review that the reviewer strikes, each with a reason: they stand in the document, and not in the letter."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from math import isclose

from dwellcalc.decide.document import FITS
from dwellcalc.placed import Mapping, Node, Text, as_list, as_mapping, as_text, key, place_of
from dwellcalc.problems import Problems, fail, message, nearest_name
from dwellcalc.review.document import Answer, Step, Struck
from dwellcalc.review.finding import OUTCOME_SAID, RATING_SHORT, Finding
from dwellcalc.review.labels import words_of
from dwellcalc.review.of_supply import ID_OF_CONDUCTORS
from dwellcalc.review.put_right import PuttingRight
from dwellcalc.review.schedule_reader import SCHEDULE_KEY

STRUCK_LACKS = message(
    "struck_lacks",
    "what is struck lacks {what}",
    "the title of the comment as the letter prints it, and why it is struck: "
    "`struck: [{{comment: Ratings not given, reason: seen on site}}]`",
)
STRUCK_UNKNOWN = message("struck_unknown", 'no comment is called "{title}"', "the comments are: {known}; or take the entry out")
STRUCK_UNCLEAR = message("struck_unclear", 'several comments begin with "{title}"', "more of the title of one of these: {known}")

KEYS = ("comment", "reason")
FOLLOWS_FROM_OTHERS = "it does not hold with what is struck beside it"


@dataclass(frozen=True)
class ToStrike:
    """What the reviewer strikes: the title of a comment, or its beginning, and why."""

    title: Text
    reason: str


def to_strike(node: Node | None, problems: Problems) -> list[ToStrike]:
    """The entries under the key for what is struck; what is wrong is noted."""
    found = []
    for each in as_list(node, "struck", problems) if node is not None else ():
        entry = each if isinstance(each, Mapping) else None
        told = {} if entry is None else {str(name): value for name, value in _known(entry, problems).items()}
        texts = {name: as_text(value, name, problems) for name, value in told.items()}
        lacking = [name for name in KEYS if not texts.get(name, "").strip()]
        if lacking:
            problems.add(STRUCK_LACKS, place_of(each), what=" and ".join(f"`{name}`" for name in lacking))
        else:
            found.append(ToStrike(texts["comment"], str(texts["reason"]).strip()))
    return found


def _known(entry: Mapping, problems: Problems) -> dict[str, Node]:
    for name in as_mapping(entry, "what is struck", problems):
        if name not in KEYS:
            near = nearest_name(name, KEYS)
            problems.add(SCHEDULE_KEY, name.place, key=name, what="what is struck", known=", ".join(KEYS), nearest=near)
    return {name: entry[key(name)] for name in KEYS if name in entry}


def strike(findings: Sequence[Finding], entries: Iterable[ToStrike]) -> list[Struck]:
    """The comments that are struck.

    Args:
        findings: all comments of the review, without those of the reviewer.
        entries: what the reviewer strikes.

    Raises:
        InputError: an entry means no comment, or begins several.
    """
    found: dict[str, Struck] = {}
    for entry in entries:
        for each in meant(entry.title, findings):
            found[each.id] = Struck(each, entry.reason)
    return list(found.values())


def meant(title: Text, findings: Sequence[Finding]) -> list[Finding]:
    """The comment that a title means: as it is printed, whatever marks stand in it, or one alone that begins so.

    Raises:
        InputError: it means no comment, or begins several.
    """
    wanted = _words(title)
    exact = [each for each in findings if wanted == _words(each.printed_title) or title.strip() == each.id]
    if exact:
        return exact
    begins = [each for each in findings if wanted and _words(each.printed_title)[: len(wanted)] == wanted]
    as_written = [each for each in begins if re.match(rf"{re.escape(title.strip())}(?!\w)", each.printed_title, re.IGNORECASE)]
    begins = as_written if len(as_written) == 1 else begins  # `Row 1` is not Row 18
    known = "; ".join(dict.fromkeys(each.printed_title for each in begins or findings)) or "none"
    if not begins:
        fail(STRUCK_UNKNOWN, title.place, title=title, known=known)
    if len(begins) > 1:
        fail(STRUCK_UNCLEAR, title.place, title=title, known=known)
    return begins


def names(entry: ToStrike, title: str) -> bool:
    """Whether an entry is the title of something, or its beginning."""
    wanted = _words(entry.title)
    return bool(wanted) and _words(title)[: len(wanted)] == wanted


def _words(title: str) -> tuple[str, ...]:
    """The words of a title, the same of one and of several: "A load without a circuit" is "Loads without a circuit"."""
    words = words_of(title)
    return words[1:] if words[:1] == words_of("a") else words


def with_struck(struck: Sequence[Struck], putting: PuttingRight, about: Collection[str], answer: Answer) -> Step | None:
    """The load and the outcome with what is struck taken as submitted; nothing where both are those by the rules.

    Args:
        struck: the comments that are struck.
        putting: puts comments right.
        about: the ids of the comments on figures.
        answer: what is calculated by the rules.
    """
    told = [each.finding.id for each in struck if each.finding.id in about]
    larger = any(each.finding.id == ID_OF_CONDUCTORS for each in struck)
    if not told and not larger:
        return None
    with putting.supply.put_right(putting.submittal.asked.facts) if larger else nullcontext():
        step = putting.as_submitted(told)
    if step is None or answer.amperes_required is None:
        return step
    same = step.verdict == answer.verdict and isclose(step.amperes, answer.amperes_required)
    return None if same else step


def contradicted(findings: Iterable[Finding], taken: Step | None, struck: Collection[str]) -> list[Struck]:
    """The comments on what is said of the outcome that no longer hold with what is struck: they go with it.

    Args:
        findings: all comments of the review.
        taken: the load and the outcome with what is struck as submitted, where that is another than by the rules.
        struck: the ids of the comments that are struck.
    """
    if taken is None:
        return []
    of_outcome = (each for each in findings if each.about in (OUTCOME_SAID, RATING_SHORT) and each.id not in struck)
    return [Struck(each, FOLLOWS_FROM_OTHERS) for each in of_outcome if (each.verdict_before or FITS) == taken.verdict]
