"""Rows that are sums by their figures, whatever their labels: the load behind the steps of a demand factor, and a group of loads."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from dwellcalc.decide.instructions import Instructions
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import text_at
from dwellcalc.review.described_home import Describer
from dwellcalc.review.labels import KIND
from dwellcalc.review.rows import Row

JOINED = re.compile(r"[/&+]|\band\b", re.IGNORECASE)


def with_result(rows: Sequence[Row], describer: Describer, result: str) -> list[Row]:
    """The rows, the one behind all loads at the load of the method where nothing is known of its label and the steps come to it.

    Args:
        rows: those of the submittal, in the order of the page.
        describer: what tells of what a row is.
        result: a name of the line of the load.
    """
    found = list(rows)
    steps = [at for at, row in enumerate(found) if row.match is None and describer.is_step(row)]
    for at in range(steps[0] + 1, len(found)) if steps else ():
        figure = describer.load_of(found[at])
        behind = [describer.load_of(row) or 0.0 for row in found[steps[0] : at]]
        comes_to = figure is not None and _is_sum(figure, behind)
        is_last = not any(describer.is_of_load(row) for row in found[at + 1 :])
        if result and comes_to and is_last and _is_unknown(found[at], describer):
            found[at] = replace(found[at], match=text_at(result, found[at].label))
            break
    return found


def with_groups(rows: Sequence[Row], describer: Describer) -> list[Row]:
    """The rows, those marked that add up the loads right above them, such as Furnace/AC below a heat pump and its strips.

    That is a row without a rating whose label may be several kinds of load, and names two of them or one that stands among these.
    """
    found = list(rows)
    for at, row in enumerate(found):
        figure = describer.load_of(row)
        kinds = {each.kind for each in describer.labels.may_be(row.label)}
        if not kinds or not figure or row.match is not None or row.nameplate is not None or describer.match(row) is not None:
            continue
        added, named = list[float](), set[str]()
        for above in reversed(found[:at]):
            match, load = describer.match(above), describer.load_of(above)
            if match is None or match.what != KIND or load is None:
                break
            added.append(load)
            named.add(match.name)
            if added[1:] and _is_sum(figure, added) and (named & kinds or JOINED.search(row.label)):
                found[at] = replace(row, repeats=True)
                break
    return found


def _is_sum(figure: float, added: Sequence[float]) -> bool:
    """Whether a figure is the sum of others, each of which may be rounded by one half [VA]."""
    return abs(sum(added) - figure) <= max(1.0, len(added) / 2)


def _is_unknown(row: Row, describer: Describer) -> bool:
    is_free = row.match is None and row.nameplate is None and not describer.is_step(row)
    return is_free and describer.match(row) is None and not describer.labels.may_be(row.label)


def result_of(rules: RuleSet, method: str, instructions: Instructions) -> str:
    """What the load of a method is called, empty where it has none; where no method is named that of the last that may be used."""
    result = rules.methods[method or instructions.methods[-1]].results.get(instructions.total)
    return "" if result is None else str(result.source.title)  # a method that is no load calculation has no total
