"""Words of a text that say of a phrase beside them that there is no such thing, as in "no lockout" or "lockout: none"."""

from __future__ import annotations

import re
from collections.abc import Iterable

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.review.phrases import WORD

CLAUSE_ENDS = re.compile(r"[;,()\n]|\.(?=\s*$|\s+\D)")  # but not the full stop of "no. 4"
BEFORE_ENDS = re.compile(r"[;,:()\n]|\.(?=\s)")
BETWEEN = 2  # words that may stand between a denial and what it denies, as in "no heat pump lockout"


class Denied:
    """Tells whether a phrase is denied where it stands.

    Args:
        plan: the words that deny, before and behind.
    """

    def __init__(self, plan: ReviewPlan) -> None:
        self.before, self.at_once, self.behind = map(_in_words, (plan.denied_before, plan.denied_at_once, plan.denied_behind))

    def at(self, text: str, start: int, end: int) -> bool:
        """Whether a text denies what stands in it from a start to an end: within the clause, before it or behind it."""
        before = _words(BEFORE_ENDS.split(text[:start])[-1])
        behind = _words(CLAUSE_ENDS.split(text[end:], maxsplit=1)[0])
        at_once = any(_ends(before, each) for each in (*self.before, *self.at_once))
        apart = any(_ends(before[: len(before) - between], each) for between in range(1, BETWEEN + 1) for each in self.before)
        return at_once or apart or any(_ends(behind, each) or _begins(behind, each) for each in self.behind)


def _in_words(phrases: Iterable[str]) -> list[tuple[str, ...]]:
    return [_words(each) for each in phrases]


def _words(text: str) -> tuple[str, ...]:
    return tuple(each.casefold() for each in WORD.findall(text))


def _ends(words: tuple[str, ...], phrase: tuple[str, ...]) -> bool:
    return len(words) >= len(phrase) and words[len(words) - len(phrase) :] == phrase


def _begins(words: tuple[str, ...], phrase: tuple[str, ...]) -> bool:
    """Whether words begin with a phrase, but for one before a number, as in "lockout no. 4"."""
    return words[: len(phrase)] == phrase and not any(each.isdigit() for each in words[len(phrase) : len(phrase) + 1])
