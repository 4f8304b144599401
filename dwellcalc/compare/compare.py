"""The comparisons that can be asked for, each as a document."""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.compare.by_edition import by_edition
from dwellcalc.compare.by_method import by_method
from dwellcalc.compare.by_reading import by_reading
from dwellcalc.compare.document import EDITIONS, HOMES, INTERPRETATIONS, METHODS, Comparison
from dwellcalc.compare.subjects import Prepared, other_settings, prepared
from dwellcalc.compare.two_homes import two_homes, unlike
from dwellcalc.decide.assess import version
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.home import Home
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.progress import Progress, silent


def compare_editions(
    home: Home, several: Sequence[RuleSet], base: RuleSet, *, date: str, progress: Progress = silent
) -> Comparison:
    """A home under several rule sets in the order given.

    Args:
        home: the home.
        several: the rule sets.
        base: the one by which the home's settings are chosen and its bounds taken; the same on all sides.
        date: the date of the calculation, year-month-day.
        progress: is told which set of changes is calculated.

    Raises:
        InputError: two rule sets do not rest on the same first edition, or the home cannot be calculated by these rules.
    """
    made = prepared(home, base, several, date)
    found = _comparison(EDITIONS, [made], several, base, date)
    found.held += [each for rules in several for each in other_settings(made.home, made.settings, rules)]
    found.supplies = by_edition(made, several, progress)
    return found


def compare_methods(home: Home, rules: RuleSet, *, date: str) -> Comparison:
    """A home by the methods of an assessment, side by side."""
    made = prepared(home, rules, [rules], date)
    found = _comparison(METHODS, [made], [rules], rules, date)
    found.supplies = by_method(made, rules)
    return found


def compare_interpretations(home: Home, rules: RuleSet, *, date: str, progress: Progress = silent) -> Comparison:
    """A home under each option of the interpretations that its result rests on."""
    made = prepared(home, rules, [rules], date)
    found = _comparison(INTERPRETATIONS, [made], [rules], rules, date)
    found.supplies = by_reading(made, rules, progress)
    return found


def compare_homes(first: Home, second: Home, rules: RuleSet, *, date: str) -> Comparison:
    """Two homes side by side under one rule set."""
    made = [prepared(each, rules, [rules], date) for each in (first, second)]
    if first.title == second.title:
        made[0].name, made[1].name = f"{first.title} (first)", f"{second.title} (second)"
    found = _comparison(HOMES, made, [rules], rules, date)
    found.held = [f"{each.name}: {text}" for each in made for text in each.held]
    found.supplies, found.left_over = two_homes(made[0], made[1], rules)
    found.only = unlike(made[0], made[1])
    return found


def _comparison(what: str, homes: Sequence[Prepared], several: Sequence[RuleSet], base: RuleSet, date: str) -> Comparison:
    return Comparison(
        version(),
        homes[0].home.date or date,
        what,
        [{"title": each.name, "digest": each.digest} for each in homes],
        [{"id": each.id, "title": each.title, "digest": each.digest} for each in several],
        list(dict.fromkeys(text for each in homes for text in each.held)),
        [],
        list(read_instructions(base).cautions),
    )
