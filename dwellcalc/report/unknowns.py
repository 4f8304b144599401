"""What the sheet says of inputs that are known only between bounds, or not at all: before the figures of the answer."""

from __future__ import annotations

from collections.abc import Mapping

from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN, SupplyResult
from dwellcalc.decide.openness import AtEnd, Bounds, Flip, OpenInput, OpenResult, Together, Typical, UpTo, in_words
from dwellcalc.placed import spaced
from dwellcalc.report.tables import Block, Listing, Paragraph, Table
from dwellcalc.report.wording import listed

FOR_ALL = {
    FITS: "It fits whatever these inputs are.",
    DOES_NOT_FIT: "It does not fit whatever these inputs are.",
    OPEN: "It cannot be said whether it fits until more of them are known.",
}

TOO_SMALL = "too small for the main"  # of conductors that carry the load all the same


def at_largest(*supplies: SupplyResult) -> str:
    """What stands behind the title of a table whose figures are those of the largest load."""
    return ", what is not known at its largest" if any(each.between is not None for each in supplies) else ""


OTHER_METHODS = (
    "What is not known stands here at the values with which the load by the method that is taken is the largest; by another method it "
    "may be larger with others, and `--method` tells."
)


def of_other_methods(*supplies: SupplyResult) -> list[Block]:
    """That the figures by other methods are not the largest that they may be, where something is not known."""
    return [Paragraph(OTHER_METHODS)] if any(each.between is not None for each in supplies) else []


def unknown_blocks(supply: SupplyResult) -> list[Block]:
    """What is not known of a supply, what it is worth, and what decides the verdict."""
    blocks: list[Block] = []
    if supply.holds_from is not None:
        blocks.append(
            Paragraph(f"The rating of the supply is not known. The load holds from {_bounds(supply.holds_from, 'A', 0)}.")
        )
    if supply.up_to is not None:
        blocks.append(Paragraph(_up_to(supply.up_to)))
    blocks += _between(supply, supply.between) if supply.between is not None else []
    return blocks + conductor_blocks(supply)


def conductor_blocks(supply: SupplyResult) -> list[Block]:
    """What the supply would be with each of the conductors that may be there, where nobody has seen them."""
    return [_conductors(supply)] if supply.conductors else []


def of_suspected(supply: SupplyResult) -> str:
    """What the verdict says of supply conductors that are suspected and were not seen."""
    if not supply.suspected:
        return ""
    verdicts = {each.verdict for each in supply.conductors}
    if len(verdicts) == 1:
        named = in_words([each.conductors for each in supply.conductors])
        if supply.conductors[1:]:
            return f", whichever the supply conductors are, which nobody has seen, {named}"
        return f", with supply conductors of {named}, which nobody has seen"
    told = []
    for verdict in dict.fromkeys(each.verdict for each in supply.conductors):
        named = in_words([each.conductors for each in supply.conductors if each.verdict == verdict])
        told.append(f"{verdict} with {named}")
    return f", for nobody has seen the supply conductors ({'; '.join(told)})"


def _conductors(supply: SupplyResult) -> Table:
    """What the supply would be with each of the conductors that may be there."""
    settings = any(each.settings is not None for each in supply.conductors)
    rows = []
    for each in supply.conductors:
        capacity, margin = ("-" if value is None else f"{value:,.2f} A" for value in (each.capacity, each.margin))
        verdict = f"{each.verdict}; {TOO_SMALL}" if each.for_main is False and each.verdict == FITS else each.verdict
        rows.append([each.conductors, capacity, margin, verdict, *([settings_in_words(each.settings)] if settings else [])])
    head = ["Conductors", "Capacity", "Margin", "Verdict", *(["Largest settings that fit"] if settings else [])]
    title = "Supply conductors, not seen: what each would mean"
    return Table(title, head, rows, ["left", "right", "right"])


def settings_in_words(settings: Mapping[str, float] | None) -> str:
    """The largest settings that fit, by load."""
    if settings is None:
        return "not tried"
    return ", ".join(f"{load} {setting:g} A" for load, setting in settings.items()) or "none"


def _up_to(found: UpTo) -> str:
    what = f"The rating of {found.item} is all that is missing."
    if not found.fits_up_to:
        return f"{what} It is not shown to fit at any rating, all else as it is."
    if found.fits_up_to == found.tried_to:
        return f"{what} It fits at any rating up to {found.tried_to}, the largest that was tried."
    return f"{what} It fits at any rating up to {found.fits_up_to} (told by {found.step}), all else as it is."


def _between(supply: SupplyResult, found: OpenResult) -> list[Block]:
    capacity = supply.sizing.capacity if supply.sizing is not None else None
    compared = "" if capacity is None else f", against a capacity of {capacity:,.0f} A"
    number = len(found.inputs)
    what = "One input is known only between bounds" if number == 1 else f"{number} inputs are known only between bounds"
    if found.amperes.low is None:
        return [Paragraph(f"{what}; what that is worth cannot be said until all that is missing is known.")]
    amperes, va = _bounds(found.amperes, "A"), _bounds(found.va, "VA", 0)
    text = f"{what}. The supply must carry {amperes} ({va}){compared}. {_for_all(supply)}"
    blocks: list[Block] = [Paragraph(text.rstrip())]
    if not (found.amperes.attained and found.va.attained and found.decided):
        blocks.append(Paragraph("These bounds hold, but may be wider than they need be: the limit of time was reached."))
    if found.typical is not None:
        blocks.append(Paragraph(_typical(found.typical)))
    blocks.append(_inputs(found))
    decides = [_settles(each) for each in found.inputs if each.settles]
    decides += [_together(each) for each in found.together if len(each.items) > 1]
    decides += [_flip(each) for each in found.flips]
    if decides:
        blocks += [Paragraph("What decides the verdict:"), Listing(decides)]
    if found.refusals:
        blocks += [Paragraph("For a part of what they may be it cannot be calculated:"), Listing(found.refusals)]
    at = "; ".join(f"{item} {value}" for item, value in found.sheet_at.items())
    blocks.append(Paragraph(f"All that follows, settings too, is calculated with the values at which the load is largest: {at}."))
    return blocks


def _for_all(supply: SupplyResult) -> str:
    """What the verdict is for all that these inputs may be, and what else it rests on."""
    rests = [*(["on a fact that nobody has verified"] if any(each.flips for each in supply.facts_not_verified) else [])]
    rests += ["on readings of the code"] if supply.between is not None and supply.between.flips else []
    rests += ["on the supply conductors, which nobody has seen"] if supply.sizing is not None and supply.sizing.to_verify else []
    said = FOR_ALL.get(supply.verdict, "")
    if supply.verdict == OPEN or not rests:
        return said
    return f"{said} But it rests {listed(rests)}, as told below."


def _bounds(found: Bounds, unit: str, decimals: int = 2) -> str:
    """Bounds in print: one figure where they are one."""
    if found.low is None or found.high is None:
        return "cannot be calculated"
    low, high = (f"{each:,.{decimals}f} {unit}" for each in (found.low, found.high))
    return low if low == high else f"{low} to {high}"


def _typical(found: Typical) -> str:
    shown = f"{_bounds(found.amperes, 'A')}, {found.verdict}"
    if not found.others:
        return f"With typical figures: {shown}."
    return f"With typical figures where one is known, and {', '.join(found.others)} anywhere between bounds: {shown}."


def _inputs(found: OpenResult) -> Table:
    rows = []
    known = any(each.fits_up_to for each in found.inputs)
    for each in found.inputs:
        ends = [f"{_bounds(end.amperes, 'A')}, {end.verdict}" for end in (each.at_low, each.at_high)]
        upto = [each.fits_up_to or "-"] if known else []
        rows.append([each.item, f"{each.low} to {each.high}", *ends, f"{each.moves:,.2f} A", *upto])
    head = ["Not known", "Between", "Load at its low end", "Load at its high end", "Moves", *(["Fits up to"] if known else [])]
    caption = "What each is worth, the others anywhere between their bounds; it moves the largest load"
    aligned = ["left", "left", "left", "left", "right", "right"]
    return Table(caption, head, rows, aligned[: len(head)])


def _settles(found: OpenInput) -> str:
    ends = [f"at {value} {_bounds(end.amperes, 'A')}, {end.verdict}" for value, end in _ends(found)]
    upto = f"; it fits up to {found.fits_up_to}, whatever the others are" if found.fits_up_to else ""
    return f"{found.item}: {'; '.join(ends)}{upto}"


def _together(found: Together) -> str:
    end = "high" if found.high else "low"
    names = f"{', '.join(found.items[:-1])} and {found.items[-1]}"
    return f"{names} at their {end} ends: {_bounds(found.at_end.amperes, 'A')}, {found.at_end.verdict}"


def _ends(found: OpenInput) -> list[tuple[str, AtEnd]]:
    return [(found.low, found.at_low), (found.high, found.at_high)]


def _flip(found: Flip) -> str:
    option = spaced(found.option)
    return f"the reading of {found.cite}: {found.question} If {option}: {_bounds(found.amperes, 'A')}, {found.verdict}"
