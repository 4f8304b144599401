"""Questions on loads that a submittal says come later or are of others: told as not counted, with what they would come to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from dwellcalc.decide.document import FITS, NOTHING
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.review.finding import POLICY, QUESTION, Finding
from dwellcalc.review.judged import judged
from dwellcalc.review.labels import listed
from dwellcalc.review.later import Later
from dwellcalc.review.of_spaces import said_of_freed
from dwellcalc.review.row_status import REMOVED
from dwellcalc.review.submittal import Submittal

LATER = "not counted"  # what such a finding is about
COUNTED = "said to come later"
SEND = "whether it is part of this work and on this supply; if it is, we need the calculation with it, and its nameplate"


def on_later(submittal: Submittal) -> Iterator[Finding]:
    """A question for each row and each note that says so."""
    with_them = _with_them(submittal)
    yield from _on_removed(submittal)
    for each in submittal.later:
        if each.removed:
            continue
        told = f'The submittal says of it: "{each.said}".'
        if each.counted:
            text, title = f"{told} Its figure is counted all the same.", f"Said to come later: {each.row.label}"
            send = "whether it is part of this work and on this supply"
            yield Finding(f"later: {each.row.label}", QUESTION, POLICY, COUNTED, title, text, send=send)
            continue
        circuits = [str(circuit.label) for circuit in submittal.schedule if circuit.kind == each.kind and not circuit.loads]
        text = f"{told} The submittal does not count it, and it is not counted here."
        text += with_them if _has_nameplate(each) else ""
        text += f" A circuit of the panel schedule is for it: {', '.join(circuits)}." if each.kind and circuits else ""
        yield Finding(f"later: {each.row.label}", QUESTION, POLICY, LATER, f"Not counted: {each.row.label}", text, send=SEND)
    used = {each.said for each in submittal.later if not each.removed}
    for note, kind in submittal.later_notes.items():
        if note in used:
            continue
        loads = submittal.supply.facts.collections[LOADS]
        there = [name for name, each in zip(loads.names, loads.fields["kind"], strict=True) if kind and each == kind]
        text = f'The submittal says: "{note}". '
        if there:
            text += f"Counted of this kind is: {', '.join(there)}. Anything beside it is not counted here."
        else:
            text += "The table has no such row; nothing is counted for it here."
        yield Finding(f"note: {note}", QUESTION, POLICY, LATER, "A note says that something is not counted", text, send=SEND)


def _on_removed(submittal: Submittal) -> Iterator[Finding]:
    """Questions for the loads that are said to be removed: for those without a figure one, for one with a figure its own."""
    freed = said_of_freed(submittal)
    gone = [each.row.label for each in submittal.later if each.removed and not each.counted and not freed.is_said(each.row.label)]
    if gone:
        text = f"By the submittal this is removed, and it is not counted: {listed(gone)}."
        title = "A load said to be removed"
        if len(gone) > 1:
            text, title = f"By the submittal these are removed; they are not counted: {listed(gone)}.", "Loads said to be removed"
        whose = "its circuit is" if len(gone) == 1 else "their circuits are"
        yield Finding("removed", QUESTION, POLICY, REMOVED, title, text, send=f"confirmation that {whose} taken out of use")
    for each in submittal.later:
        if each.removed and each.counted:
            text = "The submittal says that it is removed, and gives a figure for it. The figure is counted."
            title, send = f"Said to be removed: {each.row.label}", "whether it stays"
            yield Finding(f"removed: {each.row.label}", QUESTION, POLICY, REMOVED, title, text, send=send)


def _with_them(submittal: Submittal) -> str:
    """What the supply must carry with all of them that have a nameplate, in a sentence, where they can be calculated."""
    if submittal.with_later is None:
        return ""
    found = judged(submittal.rules, replace(submittal.asked, facts=submittal.with_later.facts))
    if found.amperes is None:
        return ""
    several = len([each for each in submittal.later if _has_nameplate(each) and not each.removed]) > 1
    with_it = "With all such rows that have a nameplate" if several else "With it at its nameplate"
    says_nothing = found.verdict == NOTHING or (found.verdict == FITS and submittal.left_aside)
    verdict = "" if says_nothing else f"; the verdict then: {found.verdict}"
    return f" {with_it} the load is {found.amperes:,.2f} A{verdict}."


def _has_nameplate(found: Later) -> bool:
    """Whether a row that is not counted could be counted at its nameplate."""
    return not found.counted and bool(found.kind) and found.row.nameplate is not None
