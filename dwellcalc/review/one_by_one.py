"""Explanations of figures as they are told: a mistake before the reading that comes to the same, two together one by one where one is told."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from dwellcalc.review.search import Explanation, Pair
from dwellcalc.review.suspects import MISTAKE, Suspect


def one_by_one(explanations: Iterable[Explanation], instead: Mapping[str, str]) -> list[Explanation]:
    """The explanations, as they are told.

    Of two things together of which one is told of another figure, the other is a mistake of its own beside it.

    Args:
        explanations: as they were found.
        instead: by the address of a reading the mistake that is told in its place, where it explains the same.
    """
    found = [_preferred(each, instead) for each in explanations]
    told = {each.suspects[0] for each in found if len(each.suspects) == 1}
    return [_beside(each, told) for each in found]


def _preferred(found: Explanation, instead: Mapping[str, str]) -> Explanation:
    """An explanation by the mistake that is told in place of its reading, where it is among those that explain the same."""
    wanted = {instead.get(_address(each), each.id) for each in found.suspects}
    ways = [found.suspects, *found.equal]
    first = next((way for way in ways if {each.id for each in way} == wanted), found.suspects)
    rest = [way for way in ways if way is not first and {instead.get(_address(each), each.id) for each in way} != wanted]
    return replace(found, suspects=first, equal=rest)


def _address(suspect: Suspect) -> str:
    return next((address for address, _ in suspect.choices), "")


def _beside(found: Explanation, told: set[Suspect]) -> Explanation:
    """Of two together the mistake that is not told yet, beside the other; as it was where none or both are."""
    ways = {way: _apart(way, told) for way in (found.suspects, *found.equal) if len(way) > 1}
    apart = next((each for each in ways.values() if each is not None), None)
    if apart is None:
        return found
    one, other = apart
    alike: list[Pair] = [(each[0],) for each in ways.values() if each is not None and each[1] is other and each[0] is not one]
    return replace(found, suspects=(one,), equal=alike, beside=other)


def _apart(way: Pair, told: set[Suspect]) -> tuple[Suspect, Suspect] | None:
    """The one of two that is a mistake and not told yet, and the other, which is."""
    new, known = [each for each in way if each not in told], [each for each in way if each in told]
    return (new[0], known[0]) if len(new) == len(known) == 1 and new[0].kind == MISTAKE else None
