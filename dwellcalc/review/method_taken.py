"""The method by which a submittal that names none is compared."""

from __future__ import annotations

from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.home import Supply
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Mapping, Text, key
from dwellcalc.problems import fail, message
from dwellcalc.review.claims import Claim, quantity_in

SUBMITTAL_LACKS = message("submittal_lacks", 'the submittal lacks "{key}"', "{hint}")


def method_taken(node: Mapping, rules: RuleSet, instructions: Instructions, supply: Supply, choices: dict[str, str]) -> str:
    """The method: one that gives the total or the amperes of the submittal, else the basis of an assessment.

    Raises:
        InputError: no method may be used.
    """
    for name in instructions.methods:
        if _gives_a_figure(node, rules, name, instructions, supply, choices):
            return name
    tried, _ = SupplyAssessor(rules, instructions, supply, choices).answered(choices)
    if tried is None:
        hint = "which method of the code was used, such as `method: standard`"
        fail(SUBMITTAL_LACKS, node.place, key="method", hint=hint)
    return tried.name


def _gives_a_figure(
    node: Mapping, rules: RuleSet, name: str, instructions: Instructions, supply: Supply, choices: dict[str, str]
) -> bool:
    """Whether a method gives the total or the amperes of the submittal."""
    evaluation = Evaluation(plan_of(rules), supply.facts, choices)
    results = rules.methods[name].results
    for figure, result in (("total", instructions.total), ("amperes", instructions.amperes)):
        text, line = node.get(key(figure)), results[result]
        if isinstance(text, Text) and line.kind is not None and evaluation.sizes[line.level]:
            claimed = quantity_in(text, line.kind, rules.glossary)
            if claimed is not None and Claim("", line.id, "", "", claimed, 1.0).met_by(evaluation.line(line)):
                return True
    return False
