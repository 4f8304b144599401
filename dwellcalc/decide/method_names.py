"""Which method of an assessment a name means: its own name, its title, or the section that it alone rests on."""

from __future__ import annotations

from dwellcalc.decide.instructions import Instructions
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import spaced
from dwellcalc.problems import fail, message, nearest_name

NO_METHOD = message(
    "assess_no_method", 'no single method of the assessment is meant by "{name}"', "methods, by name or by section: {known}"
)


def method_meant(name: str, rules: RuleSet, instructions: Instructions) -> str:
    """The method that a name means, an empty string for none asked for.

    Raises:
        InputError: it means none, or several.
    """
    if not name or name in instructions.methods:
        return name
    sections = {each: rules.section(str(rules.methods[each].source.cite)) for each in instructions.methods}
    wanted = spaced(name).strip().casefold()
    for each in instructions.methods:
        if wanted in (spaced(each), str(rules.methods[each].source.title).casefold()):
            return each
    found = [each for each, section in sections.items() if wanted == section.casefold()]
    found = found or [each for each, section in sections.items() if _article(wanted) == _article(section.casefold())]
    if len(found) == 1:
        return found[0]
    known = ", ".join(f"{each} ({section})" for each, section in sections.items())
    return fail(NO_METHOD, name=name, known=known, nearest=nearest_name(name, instructions.methods))


def _article(section: str) -> str:
    """The part of a section before its brackets."""
    return section.partition("(")[0].strip()
