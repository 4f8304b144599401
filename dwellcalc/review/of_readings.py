"""How the code is read where its text leaves something open and the outcome of a submittal rests on it.

Such a reading is no matter of who submits: it is told to the reviewer with the outcome by the others, and the letter says only how
the code is read.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field, replace

from dwellcalc.decide.choices import interpretations
from dwellcalc.decide.document import NOTHING, OPEN
from dwellcalc.decide.sections import of_method
from dwellcalc.evaluate.traced import plan_of
from dwellcalc.placed import spaced
from dwellcalc.review.judged import Judged, judged
from dwellcalc.review.submittal import Submittal

MAY_NOT = "the method may not be used"


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading of the code.

    Attributes:
        address: of the interpretation.
        name: of the interpretation, as `interpretations:` of a submittal has it.
        question: what the text leaves open.
        says: how it is read here.
        option: the word for that, as `interpretations:` has it.
        section: the section.
        outcome: what the figures come to with it, in print; empty where the reviewer has chosen it.
        otherwise: by each other reading with which the outcome is another, that outcome.
        in_comment: whether a correction tells how it is, so that the letter does not say it again.
    """

    address: str
    name: str
    question: str
    says: str
    option: str
    section: str
    outcome: str = ""
    otherwise: dict[str, str] = field(default_factory=dict)
    in_comment: bool = False

    @property
    def turns(self) -> bool:
        """Whether the outcome is another by another reading."""
        return bool(self.otherwise)


def readings_of(submittal: Submittal, decided: Collection[str] = ()) -> list[Reading]:
    """The readings that the reviewer has chosen and the outcome rests on, and then those by which it would be another.

    Args:
        submittal: as it was read.
        decided: the addresses of those of which a correction tells already how it is.
    """
    rules, asked = submittal.rules, submittal.asked
    known, taken = interpretations(rules), judged(rules, asked)
    found = [_read(submittal, address, taken) for address in submittal.choices if address in taken.read]
    if taken.verdict != OPEN:
        plan = submittal.instructions.review
        passed = {*submittal.choices, *(plan.of_several_permits if plan is not None else ())}
        others = (address for address in known if address in taken.read and address not in passed)
        found += [each for address in others if (each := _read(submittal, address, taken, others=True)).turns]
    return [replace(each, in_comment=each.address in decided) for each in found]


def _read(submittal: Submittal, address: str, taken: Judged, *, others: bool = False) -> Reading:
    """A reading as it is taken; with the outcome by the others, where these are asked for."""
    rules, asked = submittal.rules, submittal.asked
    plan, entry, mine = plan_of(rules), interpretations(rules)[address], taken.read[address]
    part, _, name = address.partition(".")
    document = rules.documents[part]
    turned: dict[str, str] = {}
    for option, each in entry.options.items() if others else ():
        found = taken if option == mine else judged(rules, asked, {address: str(option)})
        if found.verdict != OPEN and _outcome(found) != _outcome(taken):
            turned[plan.filled(each.says, document)] = _told(found)
    return Reading(
        address,
        spaced(name),
        plan.filled(entry.question, document),
        plan.filled(entry.options[mine].says, document),
        spaced(mine),
        of_method(rules.section(str(entry.cite)), submittal.method, rules),
        _told(taken) if others else "",
        turned,
    )


def _outcome(found: Judged) -> tuple[str, float | None, bool]:
    """What must be the same under two readings; where there is nothing to compare, the rating of a new supply."""
    return found.verdict, found.minimum_rating if found.verdict == NOTHING else None, found.permitted


def _told(found: Judged) -> str:
    """An outcome in print."""
    if not found.permitted:
        return MAY_NOT
    load = "" if found.amperes is None else f"{found.amperes:,.2f} A"
    if found.verdict != NOTHING:
        return ", ".join(each for each in (load, found.verdict) if each)
    rating = "" if found.minimum_rating is None else f"a rating of {found.minimum_rating:,.0f} A"
    return ", ".join(each for each in (load, rating) if each)
