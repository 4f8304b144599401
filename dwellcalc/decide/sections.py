"""Of the sections that a reading or a mistake rests on, those of a method."""

from __future__ import annotations

from collections.abc import Collection

from dwellcalc.language.rule_set import RuleSet

BETWEEN = ", "


def of_method(sections: str, method: str, rules: RuleSet) -> str:
    """Of several sections those of a method's own section; else those of no other method; else the method's own.

    Args:
        sections: the sections, with commas between them.
        method: the method.
        rules: the rule set.
    """
    if method not in rules.methods:
        return sections
    results = set(rules.methods[method].results)
    loads = {name: each for name, each in rules.methods.items() if set(each.results) >= results}  # which calculate a load too
    cited = {name: rules.section(str(each.source.cite)) for name, each in loads.items()}
    own = _article(cited[method])
    found = [each for each in sections.split(BETWEEN) if _article(each) == own]
    others = {_article(each) for name, each in cited.items() if name != method}
    apart = [each for each in sections.split(BETWEEN) if _article(each) not in others]
    return BETWEEN.join(found or apart) or cited[method]


def is_of_another(sections: str, method: str, rules: RuleSet) -> bool:
    """Whether all of some sections are of methods other than one."""
    if method not in rules.methods:
        return False
    results = set(rules.methods[method].results)
    others = {_article(rules.section(str(each.source.cite))) for each in rules.methods.values() if set(each.results) >= results}
    others -= {_article(rules.section(str(rules.methods[method].source.cite)))}
    return bool(sections) and all(_article(each) in others for each in sections.split(BETWEEN))


def that_apply(sections: str, elsewhere: Collection[str]) -> str:
    """Of several sections those that are not of parts which do not apply; where that leaves none, all of them."""
    return BETWEEN.join(each for each in sections.split(BETWEEN) if each not in elsewhere) or sections


def _article(section: str) -> str:
    """A section without its subdivisions."""
    return section.partition("(")[0]
