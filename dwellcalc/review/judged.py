"""The amperes and the verdict that a rule set gives for a submittal, with some of its figures taken as they stand."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dwellcalc.decide.document import OPEN, verdict
from dwellcalc.evaluate.work import state_of
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.review.claims import Claim
from dwellcalc.review.looked import Asked, Looked

AMPERES, FITS = "amperes_required", "fits"


@dataclass(frozen=True)
class Judged:
    """What the supply must carry [A], nothing where it is not known, and the verdict."""

    amperes: float | None
    verdict: str

    def more_than(self, other: Judged) -> float | None:
        """By how much it is more than another [A]."""
        return None if self.amperes is None or other.amperes is None else self.amperes - other.amperes


def judged(rules: RuleSet, asked: Asked, choices: dict[str, str] | None = None, told: Iterable[Claim] = ()) -> Judged:
    """The amperes and the verdict.

    Args:
        rules: the rule set.
        asked: what is calculated.
        choices: other readings, by address.
        told: figures that are taken as they stand.
    """
    looked = Looked(rules, asked, choices)
    if asked.sizing.method not in rules.methods:
        return Judged(None, OPEN)
    evaluation = looked.evaluation()
    looked.take(evaluation, [claim for claim in told if claim.method != asked.sizing.method])
    sizing = looked.sized(evaluation)
    looked.take(sizing, [claim for claim in told if claim.method == asked.sizing.method])
    results = rules.methods[asked.sizing.method].results
    amperes, fits = (sizing.line(results[asked.sizing.results[role]]) for role in (AMPERES, FITS))
    found = verdict(fits if isinstance(fits, bool) else None, state_of(fits))
    return Judged(amperes if isinstance(amperes, float) else None, found)
