"""How long intervals are: from their ends where rows tell them, else from the step between stamps."""

from __future__ import annotations

from array import array
from typing import TYPE_CHECKING

from dwellcalc.meter.tables.needs import INTERVAL, ask
from dwellcalc.meter.tables.series import Series
from dwellcalc.meter.tables.stamps import DAY, HOUR, MINUTE
from dwellcalc.meter.tables.steps import Steps, commonest

if TYPE_CHECKING:
    from dwellcalc.meter.tables.settle import Settling

LONGEST = 34_560_000  # 400 days


def spelled(length: int) -> str:
    """A length in words."""
    for size, name in ((DAY, "d"), (HOUR, "h"), (MINUTE, "min")):
        if length % size == 0 and length >= size:
            return f"{length // size} {name}"
    return f"{length} s"


def step_between(series: Series, settling: Settling) -> int:
    """The usual length of an interval [s], by ends or by steps; 0 where neither tells it, which is asked for."""
    told = settling.told
    steps = Steps(series.labels)
    step = steps.usual
    if series.ends:
        return _by_ends(series, step, settling)
    if not step:
        ask(told, INTERVAL)
    elif steps.mixed:
        ask(told, INTERVAL, f"most stamps are {spelled(step)} apart, and many are not")
        return 0
    else:
        settling.remarks.append(f"intervals were taken to be {spelled(step)} long, the commonest step between stamps")
    return step


def _by_ends(series: Series, step: int, settling: Settling) -> int:
    """The usual length by starts and ends, of which the ends may be the last minute or second that is still within."""
    spans = commonest(end - start for start, end in zip(series.labels, series.ends))
    for within in (0, MINUTE, 1):
        if spans + within == step and step > 0:
            return step
    for within in (0, MINUTE, 1):
        whole = spans + within
        if spans > 0 and whole < LONGEST and (whole % (5 * MINUTE) == 0 or whole == MINUTE):
            return whole
    if 0 < spans < LONGEST:
        return spans
    ask(settling.told, INTERVAL)
    return 0


def from_ends(series: Series, length: int, settling: Settling) -> array[int]:
    """The length of each interval [s], when the usual one is known."""
    if settling.said.interval and not settling.fixed:
        return array("l", [length]) * len(series.labels)
    spans = array("l", [end - start for start, end in zip(series.labels, series.ends)])
    within = length - commonest(spans)
    if within:
        settling.words.append("an end is the last minute or second within its interval")
    return array("l", [span + within for span in spans])
