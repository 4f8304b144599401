"""The readings up to which it fits, in sentences."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from dwellcalc.report.wording import listed


def up_to_which_it_fits(readings: Sequence[Mapping[str, str]], then: str = "") -> Iterator[str]:
    """That it fits where none of some loads is over its reading.

    Args:
        readings: readings by load, of which each by itself lets it fit.
        then: what is said of it further, such as with which setting.
    """
    fitting = [_not_over(each) for each in readings]
    if fitting[1:]:
        yield f"It fits{then} with any one of these, one alone suffices: {'; '.join(fitting)}."
    yield from (f"With {named}: fits{then}." for named in fitting if not fitting[1:])


def _not_over(readings: Mapping[str, str]) -> str:
    """Loads with the readings up to which it fits with them."""
    named = listed([f"{load} of not over {value}" for load, value in readings.items()])
    return f"{named}{' together' if list(readings)[1:] else ''}"
