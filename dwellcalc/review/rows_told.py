"""What is told of the rows of a submittal in the table of labels, beside what each was matched with."""

from __future__ import annotations

from dataclasses import replace

from dwellcalc.evaluate.traced import plan_of
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.review.described import Described
from dwellcalc.review.labels import LINE, WRITTEN, Match
from dwellcalc.review.submittal import Matched, Submittal

COUNTS_NOTHING = "counts nothing beside a larger one, as claimed"
NO_FIGURE, BY_ITSELF = "a row without a figure", "not compared by itself"


def rows_told(made: Submittal, described: Described) -> list[Matched]:
    """The matches of a submittal with what else is told of its rows: steps, sums, loads that count nothing, and markings."""
    told = [
        replace(each, how=f"{each.how}; {COUNTS_NOTHING}") if each.label in made.counting_nothing else each
        for each in made.matched
    ]
    told += [_row(row.label, "step", f"a step within a demand factor, {BY_ITSELF}") for row in described.steps]
    told += [_row(row.label, "nothing", NO_FIGURE) for row in described.blank]
    told += [_row(row.label, "nothing", f"no electrical load: {why}") for row, why in described.no_loads]
    told += [_row(label, "sum", f"a sum of the rows above it, {BY_ITSELF}") for label in made.own_sums]
    for name, marked in described.marked.items():
        said = ", ".join(f"{field} {value}" for field, value in marked.items())
        told.append(Matched(name, "marking", "", said, "", "in a label"))
    return told


def not_counted(made: Submittal) -> list[Matched]:
    """The rows that are said to be removed, or to come later or to be by others, and are not counted."""
    later = "said to come later, or to be by others: not counted"
    return [
        Matched(str(each.row.label), "nothing", "", "removed: not counted" if each.removed else later, "", WRITTEN)
        for each in made.later
        if not each.counted
    ]


def matched(rules: RuleSet, label: str, match: Match) -> Matched:
    """What a label was matched with, told by its title."""
    if match.what == LINE:
        method, _, line = match.name.partition(".")
        title = plan_of(rules).title(rules.methods[method].lines[line])
    else:
        title = rules.glossary.load_kinds[match.name].meaning
    return Matched(str(label), match.what, match.name, title, match.by, match.how)


def _row(label: str, what: str, title: str) -> Matched:
    return Matched(str(label), what, "", title, "", WRITTEN)
