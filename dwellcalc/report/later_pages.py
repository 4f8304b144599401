"""What loads that come later ask for, apart from all that is of this permit: their circuits, and what is another with them."""

from __future__ import annotations

from dwellcalc.decide.document import Assessment, SupplyResult
from dwellcalc.decide.later_results import LaterReading, LaterSizes
from dwellcalc.placed import spaced
from dwellcalc.report.circuits import circuits_table, notes
from dwellcalc.report.pictures.supply_words import is_there, of_material
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph
from dwellcalc.report.wording import lowered

BESIDES = "Other sizes with what comes later"
TITLE = "For later, not in this permit"
APART = (
    "Sized as the circuits above are, and counted in nothing else of this sheet. A load that can be set is taken at the "
    "largest setting with which all that comes later fits, or at its largest where none does. "
    "Before they are installed the home is to be assessed with them counted."
)
NOT_OF_THIS = "it is not asked of what is there, which the verdict judges"
LEAST, IF_NEW = "Minimum rating with what comes later", ", of a new supply"
BY_READINGS = "With what comes later, by other readings of the code"
NONE_OTHER = "none"
AS_ABOVE = "the neutral, its conductor and the other figures beside the load stay as they are"


def later_rows(found: Assessment) -> list[list[str]]:
    """What is another with all loads counted that come later, of each supply in a row."""
    several = len(found.supplies) > 1
    rows = []
    for supply in found.supplies:
        if supply.later is not None and all(at.amperes is not None for each in found.decision.later for at in each.supplies):
            of = f", {lowered(supply.title)}" if several else ""
            asked = _asked(supply, supply.later)
            (first, told), *rest = asked
            rows.append([f"{first}{of}", f'{told}. Their circuits: "{TITLE}"'])
            rows += [[f"{what}{of}", each] for what, each in rest]
    return rows


def _asked(supply: SupplyResult, later: LaterSizes) -> list[tuple[str, str]]:
    """The figures that are another, what a rating must be then, and the readings of the code by which the verdict is another."""
    there = is_there(supply)
    others = [f"{lowered(each.title)} {each.then}" for each in later.answers] or [AS_ABOVE if not there else NONE_OTHER]
    told = [(BESIDES, "; ".join(others))]
    if later.minimum_rating is not None:
        conductors = of_material(supply, later.conductors)
        by = f" by the {lowered(later.minimum_by)}" if there and later.minimum_by else ""
        rating = f"{later.minimum_rating:,.0f} A{by}" + (f", for which {conductors}" if conductors else "")
        told.append((f"{LEAST}{IF_NEW if there else ''}", f"{rating}; {NOT_OF_THIS}" if there else rating))
    if later.readings:
        told.append((BY_READINGS, "; ".join(map(_reading, later.readings))))
    return told


def _reading(each: LaterReading) -> str:
    amperes = "" if each.amperes is None else f" {each.amperes:,.2f} A,"
    name, option = (spaced(text.rpartition(".")[2]) for text in (each.address, each.option))
    return f"{name}, {option}:{amperes} {each.verdict}"


def later_blocks(supply: SupplyResult) -> list[Block]:
    """The circuits of the loads of a supply that come later; nothing where none is sized."""
    if supply.later is None or not supply.later.circuits:
        return []
    circuits = supply.later.circuits
    blocks: list[Block] = [Heading(3, TITLE), Paragraph(APART), circuits_table(circuits)]
    told, missing = notes(circuits)
    told += supply.later.not_verified
    blocks += [Listing(told)] if told else []
    return blocks + ([Paragraph("Cannot be sized until these are known:"), Listing(missing)] if missing else [])
