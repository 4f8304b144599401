"""Questions on readings of the code that the outcome of a submittal hangs on, with what it would be by the others."""

from __future__ import annotations

from collections.abc import Container, Iterator

from dwellcalc.decide.choices import interpretations
from dwellcalc.decide.document import NOTHING, OPEN
from dwellcalc.evaluate.traced import plan_of
from dwellcalc.placed import spaced
from dwellcalc.review.finding import CODE, QUESTION, Finding
from dwellcalc.review.judged import Judged, judged
from dwellcalc.review.sections import of_method
from dwellcalc.review.submittal import Submittal

TURNS = "turns on a reading"  # what such a finding is about
MAY_NOT = "the method may not be used"


def on_readings(submittal: Submittal, told: Container[str] = ()) -> Iterator[Finding]:
    """A question for each reading under which the outcome is another; of one that the reviewer has chosen there is none.

    Args:
        submittal: as it was read.
        told: the addresses of readings that a comment on figures tells the outcome of.
    """
    rules, asked = submittal.rules, submittal.asked
    taken = judged(rules, asked)
    if taken.verdict == OPEN:
        return
    plan = plan_of(rules)
    for address, entry in interpretations(rules).items():
        if address not in taken.read or address in told or address in submittal.choices:
            continue
        document = rules.documents[address.partition(".")[0]]
        mine = taken.read[address]
        others = {
            plan.filled(option.says, document): judged(rules, asked, {address: name})
            for name, option in entry.options.items()
            if name != mine
        }
        turned = {says: found for says, found in others.items() if found.verdict != OPEN and _outcome(found) != _outcome(taken)}
        if not turned:
            continue
        without = " The rows left aside are not in these figures." if submittal.left_aside else ""
        shown = " ".join(f"Otherwise ({says}): {_told(found)}." for says, found in turned.items())
        yield Finding(
            f"turns on a reading: {address}",
            QUESTION,
            CODE,
            TURNS,
            f"The outcome depends on how the code is read: {spaced(address.partition('.')[2])}",
            f"{plan.filled(entry.question, document)} The text leaves this open. As read in this review "
            f"({plan.filled(entry.options[mine].says, document)}): {_told(taken)}. {shown} "
            f"Which reading applies is for the authority having jurisdiction to say.{without}",
            of_method(rules.section(str(entry.cite)), submittal.method, rules),
            send="word if the calculation follows another reading",
            verdict_before=_told(taken),
            verdict_after=_told(next(iter(turned.values()))),
        )


def readings_chosen(submittal: Submittal) -> list[str]:
    """What the reviewer reads the code as, of the readings that the outcome rests on, each in a sentence."""
    rules = submittal.rules
    plan, known, read = plan_of(rules), interpretations(rules), judged(rules, submittal.asked).read
    told = []
    for address in (each for each in submittal.choices if each in read):
        entry, document = known[address], rules.documents[address.partition(".")[0]]
        says = plan.filled(entry.options[read[address]].says, document)
        section = of_method(rules.section(str(entry.cite)), submittal.method, rules)
        told.append(f"{plan.filled(entry.question, document)} As read in this review: {says} ({section}).")
    return told


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
