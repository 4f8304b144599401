"""What the supplies of an assessment would have to carry under the other editions: one answer for each, without what makes the difference."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from dwellcalc.compare.attribution import shares
from dwellcalc.compare.document import Reason
from dwellcalc.compare.looks import Look, Subject, look
from dwellcalc.compare.subjects import choices_in, fitting_under, prepared
from dwellcalc.decide.choices import interpretations
from dwellcalc.decide.document import Assessment
from dwellcalc.decide.edition import rules_for
from dwellcalc.decide.edition_answers import EditionAnswer
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.decide.method_names import assessor_under
from dwellcalc.decide.suspected import verdict_of_suspected
from dwellcalc.home import Home
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import spaced


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
        home: the home that it is of, with the method that the assessment was asked for.
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
    mine = next(of for each, of in looks if each is own)
    suited = [fitting_under(made.home, each) for each in several]
    for at, supply in enumerate(found.supplies):
        supply.editions = [_answer(each, of[at], mine[at], each is own) for each, of in looks]
        for answer, fitting, (each, of) in zip(supply.editions, suited, looks, strict=True):
            answer.settings = fitting[at]
            subject, instructions, choices = made.subjects[at].supply, read_instructions(each), choices_in(made.home, each)
            assessor = assessor_under(made.home, subject, each, instructions, choices)
            answer.verdict = verdict_of_suspected(assessor, answer.verdict)
            tell_readings(answer, made.home, made.subjects[at], each, of[at])
    return found


def tell_readings(answer: EditionAnswer, home: Home, subject: Subject, rules: RuleSet, found: Look) -> None:
    """Tell which readings the home chose that are not the edition's own, and what the edition's own give, where that is another figure."""
    known, choices = interpretations(rules), choices_in(home, rules)
    read = found.read_by_sizing | {name for each in found.methods.values() for name in each.read_choices}
    other = {address: option for address, option in choices.items() if option != known[address].default and address in read}
    if answer.own or not other:
        return
    kept = {address: option for address, option in choices.items() if address not in other}
    by_own = look(subject, assessor_under(home, subject.supply, rules, read_instructions(rules), kept))
    if (by_own.required, by_own.verdict) != (found.required, found.verdict):
        answer.readings = [f"{spaced(name.rpartition('.')[2])}: {spaced(option)}" for name, option in other.items()]
        amperes = "" if by_own.required is None else f"{by_own.required:,.2f} A, "
        answer.by_own_readings = f"{amperes}{by_own.verdict}"


def _answer(rules: RuleSet, look: Look, mine: Look, own: bool) -> EditionAnswer:
    because = [] if own else list(_because(mine, look))
    return EditionAnswer(rules.title, look.title(), look.required, look.verdict, own, because)


def _because(mine: Look, other: Look) -> Iterator[str]:
    """What makes the difference: another method, and the lines of the usual one that differ, with what differs under each."""
    if other.basis != mine.basis and other.basis:
        yield f"another method is taken there, {other.title()}"
    name = mine.basis if mine.basis in other.methods else other.basis
    if not name or name not in mine.methods or name not in other.methods:
        return
    for share in shares(mine.methods[name], other.methods[name]):
        reasons = [f"{each.what}: {each.was}, there {each.now}" for each in _leaves(share.because)]
        yield f"{share.title} {float(share.amperes):+,.2f} A" + (f" ({'; '.join(reasons)})" if reasons else "")


def _leaves(reasons: Sequence[Reason]) -> Iterator[Reason]:
    """The reasons under which nothing stands that is deeper."""
    for at, each in enumerate(reasons):
        if at + 1 == len(reasons) or reasons[at + 1].depth <= each.depth:
            yield each
