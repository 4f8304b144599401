"""What pictures share in print: amperes, and the capacity of a supply as a line that bars are held against."""

from __future__ import annotations

from dwellcalc.decide.document import SupplyResult
from dwellcalc.report.pictures.bars import Limit
from dwellcalc.report.wording import lowered


def amperes(value: float | None) -> str:
    """Amperes in print, a dash where there are none."""
    return "-" if value is None else f"{value:,.2f} A"


def capacity_limit(supply: SupplyResult) -> Limit | None:
    """The capacity of a supply with what it is by; nothing where there is none."""
    sizing = supply.sizing
    if sizing is None or sizing.capacity is None:
        return None
    by = f"by the {lowered(sizing.weakest)}" if sizing.weakest else ""
    return Limit(sizing.capacity, f"Capacity {amperes(sizing.capacity)}", note=by)
