"""What stands in the letter beside its comments: how the code is read, and what would change the outcome."""

from __future__ import annotations

from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph
from dwellcalc.report.wording import lowered, numbered
from dwellcalc.review.document import Review
from dwellcalc.review.finding import WOULD_CHANGE
from dwellcalc.review.of_readings import Reading
from dwellcalc.review.of_supply import ID_OF_CONDUCTORS

HOW_READ = "How the code is read"
TO_THE_REVIEWER = "To the reviewer, not in the letter: how the code is read decides the outcome"


def readings_told(found: Review) -> list[Block]:
    """Under which readings the figures of the letter stand; it asks nothing of who submits."""
    readings = [each for each in found.readings if not each.in_comment]
    if not readings:
        return []
    rows = [f'{each.section}: "{each.question}" It is read so here: {each.says}.' for each in readings]
    blocks: list[Block] = [Heading(2, HOW_READ), Paragraph("The figures of this letter stand under this:"), Listing(rows)]
    if any(each.turns for each in readings):
        blocks.append(Paragraph("The text leaves this open, and the outcome rests on it: this letter holds as it is read here."))
    return blocks


def note_to_the_reviewer(found: Review) -> list[Block]:
    """What the outcome is by each reading, where the reviewer has chosen none."""
    turning = [each for each in found.readings if each.turns]
    if not turning:
        return []
    how = ", ".join(f"{each.name}: {each.option}" for each in turning)
    says = (
        "A correction tells how it is read" if all(each.in_comment for each in turning) else "The letter says only how it is read"
    )
    told = f"{says}. Where it is read as here, `interpretations: {{{how}}}` in the submittal file says so."
    return [Heading(2, TO_THE_REVIEWER), Listing([_by_each(each) for each in turning]), Paragraph(told)]


def of_conductors(found: Review) -> str:
    """The comment that asks for larger supply conductors, by its number; empty where there is none."""
    numbers = [str(number) for number, each in enumerate(found.findings, 1) if each.id == ID_OF_CONDUCTORS]
    return numbered("comment", numbers)


def _with_conductors(found: Review) -> list[Block]:
    """That all of this is with the supply conductors that are asked for, and what they bring by themselves."""
    asked = found.conductors
    if asked is None or found.answer.verdict != DOES_NOT_FIT:
        return []
    comment = of_conductors(found)
    capacity = "" if asked.capacity is None else f", with which the supply may carry {asked.capacity:,g} A"
    told = f"The supply conductors are taken here as corrected{f' ({comment})' if comment else ''}: {' or '.join(asked.sizes)}{capacity}."
    if asked.verdict == FITS:
        return [Paragraph(f"{told} The load by the rules fits then, and no other change is needed.")]
    return [Paragraph(f"{told} They do not suffice by themselves.")] if found.alternatives else []


def what_would_change(found: Review) -> list[Block]:
    """The alternatives that were calculated: those that suffice by themselves, and those that do not."""
    if found.verdict == FITS:  # with what is struck as submitted
        return []
    tight = [] if found.on_top is None else [(each, found.on_top.room(each)) for each in found.alternatives]
    hanging = [each for each, room in tight if room is not None and room > 0]
    without_room = [each for each, room in tight if room is not None and room <= 0]
    enough = [each for each in found.alternatives if each.verdict == FITS and each not in (*hanging, *without_room)]
    short = [each for each in found.alternatives if each.verdict != FITS] + without_room
    blocks: list[Block] = _with_conductors(found)
    if enough:
        titles = dict.fromkeys((each.title, each.cite) for each in enough)
        rows = [_of_title(title, cite, [each for each in enough if each.title == title], found) for title, cite in titles]
        each_of = "Each of these lines" if len(enough) > 1 else "This"
        by_itself = "by itself" if found.conductors is None else "with these conductors"
        dropped = any((each.amperes or 0) > (found.answer.rating or 0) for each in enough if not each.larger)
        fraction = " A fraction of an ampere under one half is dropped." if dropped and found.answer.rating else ""
        blocks += [
            Paragraph(f"{each_of} would suffice {by_itself}, as calculated here{_also_with(found)}.{fraction}"),
            Listing(rows),
        ]
    blocks += [Paragraph(_with_little_room(hanging, found))] if hanging else []
    if short:
        alike = {round(each.amperes or 0, 2): each for each in reversed(short)}  # of those of one load the first
        told = "; ".join(f"{each.what}{_amperes(each)}" for each in short if each in alike.values())
        blocks.append(Paragraph(f"Not enough by itself: {told}."))
    return [Heading(2, WOULD_CHANGE), *blocks] if blocks else []


def _also_with(found: Review) -> str:
    """That what is asked for elsewhere has room too."""
    asked = found.on_top
    return (
        ""
        if asked is None
        else f", with a {asked.kind} of up to {asked.volt_amperes:,.0f} VA too, which {_asking(found)} asks for"
    )


def _asking(found: Review) -> str:
    """The comments that ask for a load, by their numbers."""
    asked = found.on_top.findings if found.on_top is not None else ()
    return numbered("comment", [str(number) for number, each in enumerate(found.findings, 1) if each.id in asked])


def _with_little_room(hanging: list[AlternativeResult], found: Review) -> str:
    """Ways out that suffice only where what is asked for takes no more than what is left."""
    asked = found.on_top
    assert asked is not None
    told = "; ".join(f"{each.what}{_amperes(each)}, which leaves {asked.room(each) or 0:,.2f} A" for each in hanging)
    return f"Enough only where the {asked.kind} that {_asking(found)} asks for takes no more than what is left: {told}."


def _of_title(title: str, cite: str, alike: list[AlternativeResult], found: Review) -> str:
    """The alternatives of one title, with the load then."""
    section = f" ({cite})" if cite else ""
    told = "; ".join(f"{each.what}{_amperes(each, _by(each, found))}" for each in alike)
    larger = dict.fromkeys(what for each in alike for what in each.larger)
    more = f"; {' and '.join(larger)} must be larger too" if larger else ""
    return f"{title}{section}: {told}{more}."


def _amperes(one: AlternativeResult, by: str = "") -> str:
    return f" ({one.amperes:,.2f} A then{by})" if one.amperes is not None else ""


def _by(one: AlternativeResult, found: Review) -> str:
    """By which method that is, where it is another one that is not named yet."""
    return f", by the {lowered(one.by)}" if one.by not in (found.submittal["method_title"], one.what) else ""


def _by_each(reading: Reading) -> str:
    """A reading with the outcome by it and by the others."""
    others = " ".join(f"Otherwise ({says}): {outcome}." for says, outcome in reading.otherwise.items())
    return f"{reading.section}: {reading.question} As read here ({reading.says}): {reading.outcome}. {others}"
