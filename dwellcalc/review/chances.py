"""How often figures are met by chance, where many things are tried that might give them."""

from __future__ import annotations

from collections.abc import Sequence


def chance(distances: Sequence[float], wanted: float, step: float) -> float:
    """How many of some pairs come as near to a figure as it is printed, by chance: by how thick they lie about it.

    Args:
        distances: by how much each of them misses the figure, as their single effects add up.
        wanted: by how much the figure is off; so far about it the pairs are counted.
        step: how near a value has to come to be the figure.
    """
    near = sum(each <= abs(wanted) for each in distances)
    return min(1.0, near * step / abs(wanted)) if wanted else 1.0
