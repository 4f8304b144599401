"""Of the sections that a mistake or a reading rests on, those that a comment cites."""

from __future__ import annotations

from dwellcalc.language.rule_set import RuleSet

BETWEEN = ", "


def of_method(sections: str, method: str, rules: RuleSet) -> str:
    """Of several sections those of a method's own section; all of them where none is.

    Args:
        sections: the sections, with commas between them.
        method: the method.
        rules: the rule set.
    """
    own = rules.section(str(rules.methods[method].source.cite)).partition("(")[0] if method in rules.methods else ""
    found = [each for each in sections.split(BETWEEN) if each.partition("(")[0] == own]
    return BETWEEN.join(found) or sections
