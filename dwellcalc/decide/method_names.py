"""Which method of an assessment a name means: its own name, its title, or the section that it alone rests on."""

from __future__ import annotations

from collections.abc import Mapping

from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.home import Asked, Home, Supply
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Text, spaced
from dwellcalc.problems import fail, message, nearest_name

NO_METHOD = message(
    "assess_no_method", 'no single method of the assessment is meant by "{name}"', "methods, by name or by section: {known}"
)
AS_HOME_SAYS = "as the home file asks"  # why a method is the basis


def method_meant(name: str, rules: RuleSet, instructions: Instructions) -> str:
    """The method that a name means, an empty string for none asked for.

    Raises:
        InputError: it means none, or several.
    """
    found = _meant(name, rules, instructions)
    if not name or found:
        return found
    known = ", ".join(f"{each} ({section})" for each, section in _sections(rules, instructions).items())
    place = name.place if isinstance(name, Text) else None
    return fail(NO_METHOD, place, name=name, known=known, nearest=nearest_name(name, instructions.methods))


def name_to_ask(method: str, rules: RuleSet, instructions: Instructions) -> tuple[str, str]:
    """The section of a method, and what it is asked for by: the article of that where it alone means the method, else its name."""
    section = rules.section(str(rules.methods[method].source.cite))
    return section, _article(section) if _meant(_article(section), rules, instructions) == method else method


def method_under(home: Home, rules: RuleSet, instructions: Instructions) -> str:
    """The method that a home asks for under a rule set; an empty string where it asks for none, or the rules have no such one."""
    return _meant(home.method.name, rules, instructions) if home.method is not None else ""


def why_asked(asked: Asked) -> str:
    """Why a method that a home file asks for is taken, in words."""
    return f"{AS_HOME_SAYS}: {asked.reason}" if asked.reason else AS_HOME_SAYS


def assessor_under(
    home: Home, supply: Supply, rules: RuleSet, instructions: Instructions, choices: Mapping[str, str]
) -> SupplyAssessor:
    """The assessor of a supply under a rule set by the method that the home asks for, by the usual one where that may not be used there."""
    method = method_under(home, rules, instructions)
    if method:
        made = SupplyAssessor(rules, instructions, supply, choices, method)
        if made.answered(choices)[0] is not None:
            return made
    return SupplyAssessor(rules, instructions, supply, choices)


def _meant(name: str, rules: RuleSet, instructions: Instructions) -> str:
    if not name or name in instructions.methods:
        return str(name)
    sections = _sections(rules, instructions)
    wanted = spaced(name).strip().casefold()
    for each in instructions.methods:
        if wanted in (spaced(each), str(rules.methods[each].source.title).casefold()):
            return each
    found = [each for each, section in sections.items() if wanted == section.casefold()]
    found = found or [each for each, section in sections.items() if _article(wanted) == _article(section.casefold())]
    return found[0] if len(found) == 1 else ""


def _sections(rules: RuleSet, instructions: Instructions) -> dict[str, str]:
    return {each: rules.section(str(rules.methods[each].source.cite)) for each in instructions.methods}


def _article(section: str) -> str:
    """The part of a section before its brackets."""
    return section.partition("(")[0].strip()
