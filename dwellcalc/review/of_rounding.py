"""A remark on amperes that are over the rating as printed, and within it only because a fraction is dropped."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.decide.document import FITS
from dwellcalc.review.finding import CODE, REMARK, Finding
from dwellcalc.review.judged import judged
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.tie_out import Printer

NEAREST = "amperes_nearest"
FRACTION = "dropped fraction"


def on_rounding(submittal: Submittal) -> Iterator[Finding]:
    """The remark, for the submitted amperes."""
    rating, sizing = submittal.supply.facts.objects["supply"]["rating"], submittal.instructions.sizing
    line = submittal.rules.methods[submittal.method].results.get(submittal.instructions.amperes)
    claim = next((each for each in submittal.claims if line is not None and each.line == line.id), None)
    if claim is None or not isinstance(rating, float) or not isinstance(claim.value, float) or claim.value <= rating:
        return
    if submittal.given or judged(submittal.rules, submittal.asked, told=[claim]).verdict != FITS:
        return
    nearest = submittal.rules.methods[sizing.method].results[sizing.results[NEAREST]]
    over = Printer(submittal.rules).submitted(claim)
    text = (
        f"The submitted {over} is more than the rating, {rating:,g} A; it is within it only because a fraction of an ampere under "
        "one half is dropped. Nothing is left for a further load, nor for a figure that is too small."
    )
    section = submittal.rules.section(str(nearest.source.cite))
    yield Finding(FRACTION, REMARK, CODE, FRACTION, f"{claim.label}: within the rating by rounding only", text, section)
