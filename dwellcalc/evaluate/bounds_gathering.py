"""Gathering words and combinations over values of which only bounds are known; the order of additions is that of ``gathering``.

A member is certain or not; one that is not certain, or whose value may be not applicable, may add nothing.
"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from dwellcalc.evaluate.gathering import Read, Value
from dwellcalc.evaluate.possible import Possible, both_missing, possible, settled
from dwellcalc.facts import Unknown

if TYPE_CHECKING:
    from dwellcalc.evaluate.bounds import BoundsEvaluation

Weighed = tuple[float, Possible, bool]  # the weight of a member, its value, whether it certainly is one


def count(evaluation: BoundsEvaluation, place: int, level: str, item: int) -> Value:
    """The number of members, each as often as its quantity."""
    found, missing = evaluation.gathered(place, level, item)
    if missing is not None:
        return missing
    low = high = 0.0
    for member, weight in found:
        low += weight if evaluation.certain(place, member) else 0.0
        high += weight
    return settled(Possible(low, high, missing=evaluation.doubt(place), of=evaluation.rests_on(place)))


def _weighed(
    evaluation: BoundsEvaluation, place: int, level: str, item: int, column: Read
) -> tuple[list[Weighed], Unknown | None]:
    """The members with their values; what makes the whole unknown where it certainly is."""
    found, missing = evaluation.gathered(place, level, item)
    weighed = [(weight, possible(column(evaluation, member)), evaluation.certain(place, member)) for member, weight in found]
    return weighed, missing


def sum_column(evaluation: BoundsEvaluation, place: int, level: str, item: int, column: Read) -> Value:
    """The sum of a column over the members, each as often as its quantity."""
    weighed, missing = _weighed(evaluation, place, level, item, column)
    if missing is not None:
        return missing
    return _summed(weighed, Possible(missing=evaluation.doubt(place), of=evaluation.rests_on(place)), over_nothing=True)


def _summed(weighed: list[Weighed], made: Possible, over_nothing: bool) -> Value:
    low = high = 0.0
    numbers = nothing = True  # whether it may be a number; whether no member may give one
    for weight, value, certain in weighed:
        made.of |= value.of
        made.missing = both_missing(made.missing, value.missing)
        if value.low is None:
            if certain and not value.absent:
                numbers = nothing = False
            continue
        sure = certain and not value.absent
        nothing = nothing and not sure
        low += weight * value.low if sure else min(0.0, weight * value.low)
        high += weight * value.high if sure else max(0.0, weight * value.high)
    empty = over_nothing and not any(certain for *_, certain in weighed)  # a sum over no member is zero
    some = any(value.low is not None for _, value, _ in weighed)
    if numbers and (some or empty):
        made.low, made.high = low, high
    made.absent = nothing and any(value.absent for _, value, _ in weighed) or (nothing and not weighed and not over_nothing)
    return settled(made)


def mean(evaluation: BoundsEvaluation, place: int, level: str, item: int, column: Read) -> Value:
    """The mean of a column over the members, each as often as its quantity."""
    weighed, missing = _weighed(evaluation, place, level, item, column)
    if missing is not None:
        return missing
    doubt, of = evaluation.doubt(place), evaluation.rests_on(place)
    if all(certain and value.certain() and value.low is not None for _, value, certain in weighed) and weighed:
        low = high = number = 0.0
        for weight, value, _ in weighed:
            low += weight * value.low
            high += weight * value.high
            number += weight
            of |= value.of
        return settled(Possible(low / number, high / number, missing=doubt, of=of))
    made = possible(
        _extreme([value for _, value, _ in weighed], [certain for *_, certain in weighed], Possible(missing=doubt, of=of))
    )
    if made.low is not None:  # any of them may be missing, so the mean is only between the least and the largest
        slack = (len(weighed) + 1) * 2 * sys.float_info.epsilon
        least = min(value.low for _, value, _ in weighed if value.low is not None)
        made.low, made.high = least - slack * abs(least), made.high + slack * abs(made.high)
    return settled(made)


def largest(evaluation: BoundsEvaluation, place: int, level: str, item: int, column: Read) -> Value:
    """The largest value of a column; not applicable over nothing."""
    weighed, missing = _weighed(evaluation, place, level, item, column)
    if missing is not None:
        return missing
    made = Possible(missing=evaluation.doubt(place), of=evaluation.rests_on(place))
    return _extreme([value for _, value, _ in weighed], [certain for *_, certain in weighed], made)


def every(evaluation: BoundsEvaluation, place: int, level: str, item: int, column: Read) -> Value:
    """Whether a condition holds for every member."""
    weighed, missing = _weighed(evaluation, place, level, item, column)
    made = Possible(missing=both_missing(missing, evaluation.doubt(place)), of=evaluation.rests_on(place))
    holds = missing is None
    for _, value, certain in weighed:
        made.of |= value.of
        made.missing = both_missing(made.missing, value.missing)
        if False in value.words:
            made.words |= frozenset((False,))
            if certain and value.words == frozenset((False,)) and value.certain():
                return False
        if certain and not (True in value.words or value.absent):
            holds = False
    if holds:
        made.words |= frozenset((True,))
    return settled(made)


def sum_of(values: list[Possible]) -> Value:
    """The sum of parts, added in order; those not applicable are passed over."""
    return _summed([(1.0, value, True) for value in values], Possible(), over_nothing=False)


def largest_of(values: list[Possible]) -> Value:
    """The largest of parts; those not applicable are passed over."""
    return _extreme(values, [True] * len(values), Possible())


def least_of(values: list[Possible]) -> Value:
    """The least of parts; those not applicable are passed over."""
    return _extreme(values, [True] * len(values), Possible(), largest=False)


def _extreme(values: list[Possible], certain: list[bool], made: Possible, *, largest: bool = True) -> Value:
    """The largest or the least of values; those that are certain to be there hold its one bound."""
    numbers = made.absent = True
    there: list[Possible] = []
    sure: list[Possible] = []
    for value, is_member in zip(values, certain, strict=True):
        made.of |= value.of
        made.missing = both_missing(made.missing, value.missing)
        made.absent = made.absent and not (is_member and not value.absent)
        if value.low is not None:
            there.append(value)
            sure += [value] if is_member and not value.absent else []
        elif is_member and not value.absent:
            numbers = False
    if numbers and there:
        lows, highs = [each.low for each in there], [each.high for each in there]
        if largest:
            made.low, made.high = max((each.low for each in sure), default=min(lows)), max(highs)
        else:
            made.low, made.high = min(lows), min((each.high for each in sure), default=max(highs))
    return settled(made)
