"""The lines of a method that stand for one load alone, from the last that holds nothing else down to its own column."""

from __future__ import annotations

from dwellcalc.evaluate.coverage import loads_in
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language import tree
from dwellcalc.language.reach import reached
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
    read = [each for each in reached([result]) if isinstance(each, (CheckedLine, tree.Gather))]
    columns: dict[CheckedLine, None] = {}
    for node in read:
        if isinstance(node, tree.Gather) and node.function == "sum" and isinstance(node.column, tree.ReadLine):
            line = node.column.line
            if line.level == LOADS and place in evaluation.decided(evaluation.plan.place(node.group)).items:
                columns[line] = None
    alone = [
        each
        for each in read
        if isinstance(each, CheckedLine)
        and each.level in (tree.HOME, checked.level)
        and each.method == method
        and set(loads_in(evaluation, method, each)) == {place}
    ]
    alone.sort(key=lambda each: each.source.way in COMBINING)
    return [*((each, "") for each in alone), *((each, name) for each in columns)]
