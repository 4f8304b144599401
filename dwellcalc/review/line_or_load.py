"""Rows whose label is the name of a line and of a kind of load: of the only load of this kind, or of what such loads add up to."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.language.rule_set import RuleSet
from dwellcalc.review.behind import holds_loads
from dwellcalc.review.described import Described
from dwellcalc.review.labels import KIND, LINE, Labels, Match, words_of
from dwellcalc.review.looked import line_of


def loads_named_as_lines(found: Described, labels: Labels, rules: RuleSet) -> Iterator[tuple[int, Match]]:
    """The places of the rows that were matched with a line and are a load, since no other row is one of their kind; with the kind."""
    kinds = set(found.kinds.values())
    for at, (row, match) in enumerate(found.matches):
        line = line_of(rules, match.name) if match.what == LINE else None
        if line is None or not holds_loads(line) or row.match is not None or row.nameplate is not None or row.claimed is None:
            continue
        named = labels.find(row.label, KIND)
        if named is not None and named.what == KIND and words_of(named.by) == words_of(match.by) and named.name not in kinds:
            kinds.add(named.name)
            yield at, named
