"""The record of the metered demand as a part of a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dwellcalc.decide.document import SupplyResult
from dwellcalc.report.page.elements import Beside, PageBlock
from dwellcalc.report.pictures.year import year_picture
from dwellcalc.report.record_pages import OF_DEMAND, record_blocks
from dwellcalc.report.tables import Block, Listing, Paragraph, Table


def record_part(supply: SupplyResult) -> list[PageBlock]:
    """The year of a record as a picture beside its demand, then what it was held to; the table of months has the figures, but for gaps."""
    if supply.record is None:
        return []
    record = supply.record
    drawn, told = year_picture(record), record_blocks(record)[1:]
    demand, highest, months = (
        at for at, block in enumerate(told) if isinstance(block, Table) and block.title.startswith(OF_DEMAND)
    )
    windows = Beside([], [told[months]], left=[told[highest]])
    if drawn is None or not all(record.days.values()):
        return [*([] if drawn is None else [drawn]), *told[:highest], windows, *_in_a_line(told[months + 1 :])]
    said = next(at for at, block in enumerate(told) if isinstance(block, Table))
    beside = Beside([replace(drawn, numbers=None)], [*told[:said], told[demand]] if said != demand else told[: demand + 1])
    return [
        beside,
        *(block for at, block in enumerate(told[:highest]) if at >= said and at != demand),
        windows,
        *_in_a_line(told[months + 1 :]),
    ]


def _in_a_line(told: Sequence[Block]) -> list[Block]:
    """How a file was read, in one paragraph, and what stands below it."""
    said, listed, *rest = told
    assert isinstance(said, Paragraph)
    assert isinstance(listed, Listing)
    return [Paragraph(f"{said.text} {'; '.join(listed.items)}."), *rest]
