"""Rows that are parts of one line, such as the lighting of the house and of its addition: their figures count together."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from dwellcalc.review.claims import Claim
from dwellcalc.review.rows import Row


def together(of_rows: Sequence[tuple[Row, Claim | None]], areas: Collection[int]) -> list[tuple[Row, Claim | None]]:
    """The rows with their claims; of several rows with floor areas at one line the first has the claim of all.

    Args:
        of_rows: each row with its claim, or nothing.
        areas: which rows have a floor area, by their identity.
    """
    found = list(of_rows)
    for place in dict.fromkeys(claim.at for row, claim in of_rows if claim is not None and id(row) in areas):
        alike = [at for at, (row, claim) in enumerate(of_rows) if claim is not None and claim.at == place and id(row) in areas]
        claims = [claim for at in alike if (claim := of_rows[at][1]) is not None and isinstance(claim.value, float)]
        if len(claims) > 1 and len(claims) == len(alike):
            value = sum(each.value for each in claims if isinstance(each.value, float))
            label = ", ".join(each.label for each in claims)
            made = replace(claims[0], label=label, value=value, step=sum(each.step for each in claims), text=f"{value:g}")
            found[alike[0]] = (found[alike[0]][0], made)
            for at in alike[1:]:
                found[at] = (found[at][0], None)
    return found
