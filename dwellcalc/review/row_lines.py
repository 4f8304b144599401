"""The lines of a method that stand for one load alone, from the last that holds nothing else down to its own column."""

from __future__ import annotations

from dwellcalc.evaluate.coverage import loads_in
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language import tree
from dwellcalc.language.reach import behind
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine
from dwellcalc.language.words import COMBINING


def lines_of_load(rules: RuleSet, method: str, evaluation: Evaluation, name: str) -> list[tuple[CheckedLine, str]]:
    """The lines of a method that stand for a load, each with its item: lines of it alone, then its columns that are added up.

    Args:
        rules: the rule set.
        method: the method's name.
        evaluation: an evaluation of the supply.
        name: the load.
    """
    checked = rules.methods[method]
    place = evaluation.facts.collections[LOADS].names.index(name)
    result = next(iter(checked.results.values()))
    evaluation.line(result)
    read = [each for each in behind(result) if isinstance(each, (CheckedLine, tree.Gather))]
    columns: dict[CheckedLine, None] = {}
    for node in read:
        if isinstance(node, tree.Gather) and node.function == "sum" and isinstance(node.column, tree.ReadLine):
            line = node.column.line
            if line.level == LOADS and place in evaluation.decided(evaluation.plan.place(node.group)).items:
                columns[line] = None
    alone = [each for each, loads in _holding(rules, method, evaluation) if loads == {place}]
    results = list(checked.results.values())
    alone = [each for each in alone if each not in results] or alone  # what the method comes to is of more than a load
    alone.sort(key=lambda each: each.source.way in COMBINING)
    return [*((each, "") for each in alone), *((each, name) for each in columns)]


def lines_with_load(rules: RuleSet, method: str, evaluation: Evaluation, name: str) -> list[CheckedLine]:
    """The lines of a method whose value holds a load, alone or with others, and its own columns."""
    place = evaluation.facts.collections[LOADS].names.index(name)
    own = [line for line, _ in lines_of_load(rules, method, evaluation, name)]
    return [*own, *(line for line, loads in _holding(rules, method, evaluation) if place in loads)]


def narrowest_with_load(rules: RuleSet, method: str, evaluation: Evaluation, name: str) -> CheckedLine | None:
    """The line of a method whose value holds a load with the fewest others, or nothing where none does."""
    place = evaluation.facts.collections[LOADS].names.index(name)
    held = [(len(loads), line) for line, loads in _holding(rules, method, evaluation) if place in loads]
    return min(held, key=lambda each: each[0])[1] if held else None


def _holding(rules: RuleSet, method: str, evaluation: Evaluation) -> list[tuple[CheckedLine, set[int]]]:
    """The lines of a method that its result rests on and that have one value, each with the loads that this holds."""
    checked = rules.methods[method]
    result = next(iter(checked.results.values()))
    evaluation.line(result)
    lines = [each for each in behind(result) if isinstance(each, CheckedLine) and each.method == method]
    return [(each, set(loads_in(evaluation, method, each))) for each in lines if each.level in (tree.HOME, checked.level)]
