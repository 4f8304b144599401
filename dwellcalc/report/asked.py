"""What is asked and read before anything is ordered: of the electrician, of the building department, at the house.

Nothing is computed here: every word comes from the document.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dwellcalc.decide.choices import BY_HOME
from dwellcalc.decide.circuit_results import CircuitResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN, Assessment, SupplyResult
from dwellcalc.home.starting.told_beside import ON_CIRCUIT
from dwellcalc.report.alternatives_told import fitting, one_of
from dwellcalc.report.outcome import (
    OCCUPIED,
    YES,
    assumed_settings,
    deciding_inputs,
    has_results,
    largest_told,
    once,
    planned_of,
    verdict_of_all,
)
from dwellcalc.report.tables import Block, Listing
from dwellcalc.report.wording import listed, lowered, set_to_words

FIELD = "To be found in the field by inspector and installer"
CIRCUITS = "Branch circuits"
ALTERNATIVES = "What else could be done"
TAKEN_FROM = "taken from the breaker"  # how what a load says beside its rating begins, in print
RATING = "rating"
INTERVAL_DATA = (
    '"Please give me 12 months of interval data of my meter, of each quarter of an hour or each hour, as a table (CSV) or in the open '
    'standard form (ESPI)." Many meters keep it, and the account at the utility may have it for download. With it the maximum that was '
    "metered may stand for the existing load."
)
WHICH_EDITION = "Which edition of the electrical code, with which local amendments, applies to a permit for this house today?"


def asked_blocks(found: Assessment) -> list[Block]:
    """What would change the outcome, and what is to be asked and read first; nothing where a supply has no result."""
    if not has_results(found):
        return []
    parts = (_would_fit(found), _of_electrician(found), _of_department(found), _of_utility(found), _to_read(found))
    asked = [each for each in parts if each]
    return [Listing(asked)] if asked else []


def _would_fit(found: Assessment) -> str:
    """One alternative of each kind that suffices."""
    kinds = fitting(found.decision.alternatives)
    verdict = verdict_of_all(found)
    if not kinds or verdict not in (DOES_NOT_FIT, OPEN):
        return ""
    told = "; ".join(f"{lowered(title)} ({one_of(alike)})" for title, alike in kinds.items())
    when = "Even at the largest load it would fit" if verdict == OPEN else "It would fit"
    return f'{when} by one of these: {told}. More: "{ALTERNATIVES}".'


# what to ask and to read


def circuit_told(found: Assessment, load: str) -> str:
    """The breaker that was told of a load beside its rating, or an empty text."""
    end = ON_CIRCUIT.format(current="")
    every = [each.removeprefix(f"{load} - ") for each in found.remarks if each.startswith(f"{load} - ")]
    return next((part.removesuffix(end) for each in every for part in each.split("; ") if part.endswith(end)), "")


def _of_electrician(found: Assessment) -> str:
    """The circuits of what is planned, where all of it fits in a house that somebody lives in; its conductors stand with the circuits."""
    if verdict_of_all(found) != FITS or found.home.get(OCCUPIED) != YES:
        return ""
    planned, settings = set(planned_of(found)), {each.load: each.counted for each in found.decision.settings}
    every = [each for supply in found.supplies if supply.circuits is not None for each in supply.circuits.circuits]
    circuits = [each for each in every if not planned.isdisjoint([each.load, *each.others])]
    known = [f"{each.breaker} for {_with_settings(each, settings)}" for each in circuits if not each.serves]
    by_label = [_by_label(each, circuit_told(found, each.load)) for each in circuits if each.serves]
    if not circuits:
        return ""
    many = "circuits, each by its breaker" if circuits[1:] else "a circuit by its breaker"
    told = [f"For the electrician: {many}: {listed(known) or 'by the labels, none of which is known'}."]
    told += (
        [
            f"Sizes that rest on an assumed rating are none to order by before the label is read: {'. '.join(each[:1].upper() + each[1:] for each in by_label)}."
        ]
        if by_label
        else []
    )
    short = once(lowered(text.rstrip(".")) for supply in found.supplies for text in supply.shortcomings)
    told += [f"What is done about this: {'; '.join(short)}."] if short else []
    return f'{" ".join(told)} Conductors: "{CIRCUITS}".'


def _by_label(circuit: CircuitResult, told: str) -> str:
    """The device of a circuit whose size goes by a rating that is assumed, and what a smaller one serves, first the one that was told."""
    (first, least), *_ = circuit.serves.items()
    only = f"for {circuit.title} at most {circuit.breaker}, and that only if it is rated more than {least}"
    if told in circuit.serves and told != first:
        return f"{only}; the {told} that was told serves up to {circuit.serves[told]}"
    return f"{only}; up to that {f'the {told} that was told serves' if told == first else f'{first} serves'}"


def _with_settings(circuit: CircuitResult, settings: Mapping[str, float]) -> str:
    """All that is on a circuit, with the settings that are counted."""
    return " with ".join([set_to_words(circuit.load, settings), *([listed(circuit.others)] if circuit.others else [])])


def _of_department(found: Assessment) -> str:
    """What the building department is asked, where the verdict hangs on it."""
    asked = []
    others = {each.verdict for supply in found.supplies for each in supply.editions}
    if not found.home["confirmed_by"]:
        not_all = " Not all editions give this result." if len(others) > 1 else ""
        asked.append(f'"{WHICH_EDITION}"{not_all}')
    turning = {
        each.cite.partition(",")[0]: each.question
        for supply in found.supplies
        for each in supply.interpretations
        if each.flips and each.chosen_by != BY_HOME
    }
    if turning:
        read = " ".join(f"In a load calculation by {cite}: {lowered(question)}" for cite, question in turning.items())
        asked.append(f'"{read}" The result turns on the answer.')
    return f"To ask the building department, in these words: {' '.join(asked)}" if asked else ""


def _of_utility(found: Assessment) -> str:
    """What the utility is asked for, where a record of the metered demand is tried first in a house that somebody lives in, and there is none."""
    if found.home.get(OCCUPIED) != YES or any(supply.record is not None for supply in found.supplies):
        return ""
    by_record = any(each.comes_first for each in found.decision.other_methods)
    tried = [each["title"] for supply in found.supplies if supply.basis is not None for each in supply.basis.fell_back_from]
    return f"To ask the utility, for it may settle much: {INTERVAL_DATA}" if tried and not by_record else ""


def _to_read(found: Assessment) -> str:
    """What is to be read or looked at before anything is ordered, and where all of it is listed."""
    ratings = [each for supply in found.supplies for each in _deciding(supply, rating=True)]
    others = [each for supply in found.supplies for each in _deciding(supply, rating=False)]
    ratings += [] if ratings or others else [each for supply in found.supplies for each in _worth_most(found, supply)]
    wanted = [f"the nameplate{'s' if ratings[1:] else ''} of {listed(once(ratings))}"] if ratings else []
    wanted += [f"the area of {each}" for each in once(others)]
    wanted += [each for supply in found.supplies if supply.sizing is not None for each in supply.sizing.missing]
    wanted += [f"the label or data sheet of {each}, whose rating is taken from its breaker" for each in _of_breaker(found)]
    wanted += [_settings_of(each, largest_told(found, each)) for each in assumed_settings(found)]
    wanted += _unseen(found)
    if not wanted:
        return ""
    new = all(supply.to_be_installed for supply in found.supplies)
    at = "" if new else " at the house"
    where = f' What else is to be found{at}: "{FIELD}".' if found.field_page else ""
    first = "To be decided or confirmed first" if new else "To be confirmed on site first"
    return f"{first}: {'; '.join(once(wanted))}.{where}"


def _settings_of(load: str, largest: str) -> str:
    """What a load can be set to, as it is to be read; of what was told as the largest the lower ones."""
    return (
        f"the settings of {load} below {largest}, which are assumed"
        if largest
        else f"what {load} can be set to, which is assumed"
    )


def _of_breaker(found: Assessment) -> list[str]:
    """The loads of this work whose rating was taken from their breaker, so that it is to be read."""
    later = {name for each in found.decision.later for name in each.loads}
    loads = [load for supply in found.supplies for load in supply.loads if load.name not in later]
    return once(load.name for load in loads if any(each.startswith(TAKEN_FROM) for each in load.marked))


def _unseen(found: Assessment) -> list[str]:
    """What of the supplies nobody has read, and the facts that nobody has seen and on which a verdict turns."""
    of: dict[str, list[str]] = {}
    for supply in found.supplies:
        loads = {load.name for load in supply.loads}
        for each in supply.facts_not_verified:
            named = [item for item in each.items if item in loads]
            today = any(marked.meaning == each.short and marked.turns_today for marked in supply.otherwise)
            if each.short and (each.not_compared or each.flips or today):
                of.setdefault(each.short, []).extend(named or [lowered(supply.title)] * len(found.supplies[1:]))
    return [f"{short}{_whose(once(names), found)}" for short, names in of.items()]


def _whose(names: Sequence[str], found: Assessment) -> str:
    """Of which loads or supplies it is, where there are several."""
    if set(names) == {lowered(each.title) for each in found.supplies}:
        return " of each supply"
    return f" ({', '.join(names)})" if names else ""


def _deciding(supply: SupplyResult, *, rating: bool) -> list[str]:
    names = deciding_inputs(supply)
    inputs = supply.between.inputs if supply.between is not None else []
    return [each.item for each in inputs if each.item in names and (each.what == RATING) == rating]


def _worth_most(found: Assessment, supply: SupplyResult) -> list[str]:
    """The load whose rating moves the result most, where a larger setting hangs on what is not known."""
    larger = any(row.verdict == OPEN for each in found.decision.settings for row in each.settings if row.setting > each.counted)
    inputs = supply.between.inputs if supply.between is not None and larger else []
    return [each.item for each in inputs[:1] if each.what == RATING]
