"""What the supplies of an assessment would have to carry under the other editions: one answer for each, without what makes the difference."""

from __future__ import annotations

from pathlib import Path

from dwellcalc.compare.looks import Look
from dwellcalc.compare.subjects import prepared
from dwellcalc.decide.document import Assessment, EditionAnswer
from dwellcalc.decide.edition import rules_for
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.home import Home
from dwellcalc.language.rule_set import RuleSet


def offered_editions(rules: RuleSet, folder: Path | None) -> list[RuleSet]:
    """The editions that are offered, oldest first, without local amendments.

    Args:
        rules: a rule set of one of them.
        folder: the folder of rules, or nothing for the package's own.
    """
    own = rules.unamended or rules
    found = [own if each == own.id else rules_for(None, each, folder) for each in read_instructions(own).offered]
    return sorted(found, key=lambda each: len(each.chain))


def with_editions(found: Assessment, home: Home, rules: RuleSet, folder: Path | None) -> Assessment:
    """An assessment with the answer of every edition that is offered beside, if there is more than one.

    Args:
        found: the assessment, which is filled in.
        home: the home that it is of.
        rules: the rule set that it was made with.
        folder: the folder of rules, or nothing for the package's own.

    Raises:
        InputError: an edition does not load.
    """
    several = offered_editions(rules, folder)
    if len(several) < 2:
        return found
    own = rules.unamended or rules
    made = prepared(home, own, several, found.date)
    looks = [(each, made.looks(each)) for each in several]
    for at, supply in enumerate(found.supplies):
        supply.editions = [_answer(each, of[at], each is own) for each, of in looks]
    return found


def _answer(rules: RuleSet, look: Look, own: bool) -> EditionAnswer:
    return EditionAnswer(rules.title, look.title(), look.required, look.verdict, own)
