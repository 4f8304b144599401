"""Rows whose label is the name of a line and of a kind of load: of the only load of this kind, or of what such loads add up to."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import accumulate

from dwellcalc.language.rule_set import RuleSet
from dwellcalc.review.behind import holds_loads
from dwellcalc.review.described import Described
from dwellcalc.review.labels import KIND, LINE, Labels, Match, words_of
from dwellcalc.review.looked import line_of
from dwellcalc.review.percents import SHARE
from dwellcalc.review.rows import Row


def loads_named_as_lines(
    found: Described, labels: Labels, rules: RuleSet, load_of: Callable[[Row], float | None]
) -> Iterator[tuple[int, Match]]:
    """The places of the rows that were matched with a line and are a load, since no other row is one of their kind; with the kind.

    One that says a share, or is what rows right above it add up to, is no load.
    """
    kinds = set(found.kinds.values())
    for at, (row, match) in enumerate(found.matches):
        line = line_of(rules, match.name) if match.what == LINE else None
        if line is None or not holds_loads(line) or row.match is not None or row.nameplate is not None or row.claimed is None:
            continue
        named = labels.find(row.label, KIND)
        if named is None or named.what != KIND or words_of(named.by) != words_of(match.by) or named.name in kinds:
            continue
        if not SHARE.search(row.label) and not _is_sum(load_of(row), [load_of(each) for each, _ in found.matches[:at]]):
            kinds.add(named.name)
            yield at, named


def _is_sum(figure: float | None, above: Sequence[float | None]) -> bool:
    """Whether a figure is what some figures right above it add up to."""
    return figure is not None and figure in list(accumulate(each or 0.0 for each in reversed(above)))[1:]
