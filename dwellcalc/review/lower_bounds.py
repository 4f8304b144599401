"""Effects of comments where a load of which no rating is shown counts beside: all that is told of the load is the least of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from dwellcalc.decide.document import FITS, OPEN
from dwellcalc.review.document import Answer
from dwellcalc.review.finding import Finding
from dwellcalc.review.submittal import Submittal


def is_least(submittal: Submittal, answer: Answer) -> bool:
    """Whether the load is the least of what it may be, and what it may be does not fit whatever it is within what is typical."""
    return bool(submittal.open_loads) and answer.verdict != FITS


def judged_by_the_least(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Comments whose effect says of no load that it fits: with what is not shown it may not.

    One that changes no verdict then tells none; one with which the known loads alone would fit tells that it is open.
    """
    for each in findings:
        if each.effect_amperes is None or FITS not in (each.verdict_after, each.supply_after):
            yield each
            continue
        before, after = _least(each.verdict_before, each.verdict_after)
        supply_before, supply_after = _least(each.supply_before, each.supply_after)
        yield replace(each, verdict_before=before, verdict_after=after, supply_before=supply_before, supply_after=supply_after)


def _least(before: str, after: str) -> tuple[str, str]:
    """Two verdicts, of which one that fits is open; nothing of two that are the same then."""
    if after != FITS:
        return before, after
    return ("", "") if before in (FITS, OPEN) else (before, OPEN)
