"""Which method a submittal names: by its id, its title or the section that it rests on."""

from __future__ import annotations

import re
from collections.abc import Mapping

from dwellcalc.decide.instructions import Instructions
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Text, spaced
from dwellcalc.problems import fail, message, nearest_name
from dwellcalc.review.editions_beside import edition_beside
from dwellcalc.review.labels import spelled_out, words_of
from dwellcalc.review.phrases import Phrases

SUBMITTAL_PART = message("submittal_part", 'the section "{name}" has no such part', "its parts: {known}")
SUBMITTAL_METHOD = message("submittal_method", 'no single method is meant by "{name}"', "one of: {known}")


def method_named(name: Text, rules: RuleSet, instructions: Instructions, *, is_new: bool = False) -> str:
    """The method that a name means.

    Args:
        name: as the submittal names it.
        rules: the rule set.
        instructions: what an assessment does.
        is_new: whether the work is new, so that a method which sizes no new supply is not meant by a word for several.

    Raises:
        InputError: it means none, or several.
    """
    wanted = spaced(str(name)).casefold()
    titles = {each: (str(method.source.title), rules.section(str(method.source.cite))) for each, method in rules.methods.items()}
    for each, (title, _) in titles.items():
        if wanted in (spaced(each), title.casefold()):
            return each
    offered = {each: titles[each] for each in instructions.methods}
    by_section = [each for each, (_, section) in offered.items() if _article(section) and _article(section) in wanted]
    by_words = [each for each, (title, _) in offered.items() if set(words_of(name)) <= set(words_of(title)) and words_of(name)]
    elsewhere = [] if by_section or by_words else _by_section_elsewhere(wanted, rules, instructions)
    by_own = [] if by_section or by_words or elsewhere else _by_own_words(name, offered, rules)
    by_plan = [] if by_section or elsewhere else _by_words_of_plan(name, instructions, is_new=is_new)
    for found in (by_section, by_words, elsewhere, by_own, by_plan):
        if len(found) == 1:
            if found is by_section:
                _refuse_part(name, found[0], rules, instructions)
            return found[0]
    known = "; ".join(f"{spaced(each)} ({section})" for each, (_, section) in offered.items() if not by_plan or each in by_plan)
    near = "" if by_section or by_words or by_plan else nearest_name(wanted, [spaced(each) for each in titles])
    return fail(SUBMITTAL_METHOD, name.place, name=name, known=known, nearest=near)


def part_named(name: str, method: str, rules: RuleSet) -> str:
    """The letter of the part of the section of a method that a name has behind it, the only one; else empty."""
    article = _article(rules.section(str(rules.methods[method].source.cite)))
    found = {each[1].upper() for each in re.finditer(rf"{re.escape(article)}\s*\(\s*([a-z])\s*\)", name, re.IGNORECASE)}
    return found.pop() if article and len(found) == 1 else ""


def _refuse_part(name: Text, method: str, rules: RuleSet, instructions: Instructions) -> None:
    """Refuse a part that a section does not have, where the edition has it in parts."""
    known = instructions.review.lettered.get(method, ()) if instructions.review is not None else ()
    article, part = _article(rules.section(str(rules.methods[method].source.cite))), part_named(name, method, rules)
    in_parts = any(each.section.startswith(f"{article}(") for each in rules.citations.values())
    if known and part and in_parts and part not in known:
        fail(SUBMITTAL_PART, name.place, name=name, known=", ".join(f"{article}({each})" for each in known))


def _by_own_words(name: str, offered: Mapping[str, tuple[str, str]], rules: RuleSet) -> list[str]:
    """The methods whose own word, which stands in the title of no other, a name has, such as that for the standard calculation."""
    said = set(spelled_out(name, rules.glossary.abbreviations))
    titles = {each: set(words_of(title)) for each, (title, _) in offered.items()}
    others = {each: {word for other in titles if other != each for word in titles[other]} for each in titles}
    return [each for each in offered if said & set(words_of(spaced(each))) - others[each]]


def _by_words_of_plan(name: str, instructions: Instructions, *, is_new: bool) -> list[str]:
    """The methods of which a name holds words that are said of them, without their title."""
    said = instructions.review.method_words if instructions.review is not None else {}
    found = [each for each, words in said.items() if Phrases(words).are_in(name)]
    return [each for each in found if not is_new or each in instructions.sizes_new]


def _by_section_elsewhere(wanted: str, rules: RuleSet, instructions: Instructions) -> list[str]:
    """The methods whose section is the one that is meant in another edition."""
    others = [edition_beside(rules, each) for each in instructions.offered if each != rules.id]
    found: dict[str, None] = {}
    for other in others:
        for name in instructions.methods:
            article = _article(other.section(str(other.methods[name].source.cite))) if name in other.methods else ""
            if article and article in wanted:
                found[name] = None
    return list(found)


def _article(section: str) -> str:
    """The part of a section before its brackets."""
    return section.partition("(")[0].partition(",")[0].strip()
