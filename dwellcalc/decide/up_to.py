"""Up to what value of an input it fits, where it is known only between bounds or not at all."""

from __future__ import annotations

from dwellcalc.decide.changed import LOADS
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, OPEN, SupplyResult
from dwellcalc.decide.openness import UpTo
from dwellcalc.decide.ranged import FITTING, RangedSupply
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.bounds import facts_with
from dwellcalc.evaluate.pieces import Enclosure
from dwellcalc.evaluate.undecided import Box, narrowed
from dwellcalc.facts import Between, Facts, Unknown

BASIS = "basis"


def verdict_of(found: Enclosure) -> str:
    """The verdict for all that the inputs may be."""
    words = found.words | found.perhaps
    if found.missing is not None or len(words) + found.absent > 1:
        return OPEN
    if not words:
        return NOTHING
    return FITS if True in words else DOES_NOT_FIT


def largest_that_fits(ranged: RangedSupply, at: int, step: float) -> float | None:
    """The largest value of an input up to which it fits at every value, whatever the others are; down to a step.

    Nothing where it does not fit at its smallest. A value is taken only where all from the smallest up to it are shown to fit.
    """
    low, high = ranged.whole[at]
    sizes = ranged.sizes[at]
    if sizes:
        fitting = []
        for size in sizes:
            if not always_fits(ranged, narrowed(ranged.whole, at, size, size)):
                break
            fitting.append(size)
        return fitting[-1] if fitting else None
    if not always_fits(ranged, narrowed(ranged.whole, at, low, low)):
        return None
    known, beyond = low, high
    if always_fits(ranged, narrowed(ranged.whole, at, known, beyond)):
        return high
    while beyond - known > step:
        middle = known + (beyond - known) / 2
        if always_fits(ranged, narrowed(ranged.whole, at, known, middle)):
            known = middle
        else:
            beyond = middle
    down = known // step * step
    return max(down, low)


def always_fits(ranged: RangedSupply, box: Box) -> bool:
    """Whether it is shown to fit for all of a box."""
    return verdict_of(ranged.pieces(box).decided(FITTING)) == FITS


def up_to(assessor: SupplyAssessor, facts: Facts, found: SupplyResult) -> UpTo | None:
    """Where one rating alone is missing: up to what it would fit, all else as it is."""
    trial = assessor.instructions.unknown_ratings
    loads = facts.collections[LOADS]
    missing = [at for at, basis in enumerate(loads.fields[BASIS]) if isinstance(basis, Unknown)]
    if not trial.field or len(missing) != 1 or found.verdict != OPEN or found.sizing is not None:
        return None
    (at,) = missing
    basis = loads.fields[BASIS][at]
    if set(found.unknowns) != set(basis.inputs):
        return None
    kind = facts.glossary.collections[LOADS].fields[trial.field].kind
    step = trial.steps[kind.unit]
    changes = {(LOADS, at, BASIS): trial.basis, (LOADS, at, trial.field): Between(step, trial.up_to)}
    ranged = RangedSupply(assessor, facts_with(facts, changes), assessor.choices)
    place = _place(ranged, at)
    least = verdict_of(ranged.pieces(narrowed(ranged.whole, place, step, step)).decided(FITTING))
    if least == NOTHING or (least == OPEN and len(ranged.inputs) == 1):
        return None  # it is open for another reason
    most = largest_that_fits(ranged, place, step)
    shown = "" if most is None else printed.value(most, kind, facts.glossary)
    return UpTo(
        loads.names[at], shown, printed.value(trial.up_to, kind, facts.glossary), printed.value(step, kind, facts.glossary)
    )


def _place(ranged: RangedSupply, load: int) -> int:
    return next(place for place, (collection, position, _) in enumerate(ranged.inputs) if (collection, position) == (LOADS, load))
