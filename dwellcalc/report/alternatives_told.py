"""Alternatives that suffice, by kind, in a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.document import FITS
from dwellcalc.report.wording import listed, lowered


def fitting(found: Iterable[AlternativeResult]) -> dict[str, list[AlternativeResult]]:
    """The alternatives that suffice, by kind."""
    kinds: dict[str, list[AlternativeResult]] = {}
    for each in found:
        if each.verdict == FITS:
            kinds.setdefault(each.title, []).append(each)
    return kinds


def one_of(alike: Sequence[AlternativeResult]) -> str:
    """The first alternative of a kind; of one that asks something of several supplies, all that it asks."""
    supplies = {each.supply for each in alike}
    return listed([lowered(each.what) for each in (alike if len(supplies) > 1 else alike[:1])])
