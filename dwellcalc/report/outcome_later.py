"""What comes later and is not counted, in the first sentences: whether it fits then, and by what it would."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, Assessment
from dwellcalc.placed import spaced
from dwellcalc.report.alternatives_told import fitting, one_of
from dwellcalc.report.wording import listed, lowered

NOT_SHOWN, AT_MOST = "not shown to fit", " at the most that its rating may be"
CALLED = "What would let {loads} come later"
FIRST, FEWER = 4, 2  # kinds of alternative that are told at once, and of one of several loads


def later_told(found: Assessment) -> Iterator[str]:
    """What comes later and is not counted; at the largest load alone, so that what does not fit there is not refused."""
    open_inputs = any(each.between is not None for each in found.supplies)
    told = []
    for each in found.decision.later:
        largest = AT_MOST if each.at_largest and each.verdict == FITS else ""
        verdict = NOT_SHOWN if (open_inputs or each.at_largest) and each.verdict != FITS else f"{each.verdict}{largest}"
        needed = [at.minimum_rating for at in each.supplies if at.minimum_rating] if each.verdict == NOTHING else []
        verdict = f"a rating of at least {needed[0]:,.0f} A is needed" if needed else verdict
        told.append(f"with {listed(each.loads)}: {verdict}")
    others = list(dict.fromkeys(_by_readings(found)))
    if told and others and found.decision.later[-1].verdict == FITS:
        told[-1] += f", but by another reading of the code not ({'; '.join(others)})"
    if told:
        yield f"Later, which is not counted in that, {'; '.join(told)}."
    yield from _would_fit_later(found)


def _by_readings(found: Assessment) -> Iterator[str]:
    """The readings of the code by which it does not fit with all that comes later, in words."""
    for supply in found.supplies:
        for each in supply.later.readings if supply.later is not None else ():
            if each.verdict == DOES_NOT_FIT:
                yield " ".join(spaced(text.rpartition(".")[2]) for text in (each.address, each.option))


def _would_fit_later(found: Assessment) -> Iterator[str]:
    """By what it would fit with what comes later, one alternative of each kind."""
    for each in found.decision.later:
        kinds = list(fitting(each.alternatives).items())
        first = FEWER if found.decision.later[1:] else FIRST
        if kinds:
            told = "; ".join(f"{lowered(title)} ({one_of(alike)}{_then(alike[0])})" for title, alike in kinds[:first])
            more = f' More: "{CALLED.format(loads=", ".join(each.loads))}".' if kinds[first:] else ""
            yield f"With {listed(each.loads)} it would fit by one of these: {told}.{more}"


def _then(found: AlternativeResult) -> str:
    """The load then."""
    return "" if found.amperes is None else f", {found.amperes:,.2f} A"
