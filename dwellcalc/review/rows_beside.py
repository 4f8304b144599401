"""What rows are by the rows that stand beside them: selections, sums of named rows, repeats, and the load behind the steps."""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.review.described_home import Describer
from dwellcalc.review.named_rows import with_named_rows
from dwellcalc.review.repeats import with_repeats
from dwellcalc.review.rows import Row
from dwellcalc.review.selections import with_selections
from dwellcalc.review.sum_of_steps import with_groups, with_result


def by_rows_beside(rows: Sequence[Row], describer: Describer, result: str) -> list[Row]:
    """The rows, each with what it is by the others.

    Args:
        rows: those of the submittal, filled, in the order of the page.
        describer: what tells of what a row is.
        result: a name of the line of the load.
    """
    rows = with_named_rows(with_selections(rows, describer), describer.plan)
    return with_result(with_groups(with_repeats(rows, describer), describer), describer, result)
