"""Comments on the steps of a demand factor as they are printed, where no comment on a figure tells what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dwellcalc.review.calculation import CalculationRow
from dwellcalc.review.finding import CODE, ERROR, QUESTION, Finding
from dwellcalc.review.looked import line_of
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.suspects import Suspect


def on_steps(rows: Iterable[CalculationRow], submittal: Submittal, told: Iterable[Suspect]) -> Iterator[Finding]:
    """A comment on a first step of another size than that of the section, though the total may be right by chance.

    Args:
        rows: the calculation by the rules, the steps of the submittal beside its own.
        submittal: as it was read.
        told: the mistakes and readings that explain figures; of those that change the same line nothing more is said.
    """
    touched = {piece for each in told for piece in each.touches}
    for row in rows:
        line = line_of(submittal.rules, row.full_tier) if row.full_tier else None
        if line is None or not row.submitted or row.agrees or any(piece.startswith(row.full_tier) for piece in touched):
            continue
        yield Finding(
            f"step of {row.full_tier}",
            QUESTION if submittal.left_aside else ERROR,
            CODE,
            "figure",
            f"The first step of the demand factor: {row.submitted}",
            f"The calculation takes {row.submitted} in its first step; by the section it is {row.computed} ({row.label}).",
            submittal.rules.section(str(line.source.cite)),
            send="the calculation with the steps of the section",
        )
