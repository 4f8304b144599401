"""The amperes and the verdict that a rule set gives for a submittal, with some of its figures taken as they stand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from dwellcalc.decide.document import OPEN, verdict
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.evaluate.work import state_of
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.review.claims import Claim
from dwellcalc.review.looked import Asked, Looked

AMPERES, FITS, NEW = "amperes_required", "fits", "minimum_rating"


@dataclass(frozen=True)
class Judged:
    """What the supply must carry [A], nothing where it is not known, and the verdict.

    Attributes:
        amperes, verdict: as above.
        minimum_rating: the smallest rating of a new supply [A], where it is known.
        permitted: whether no condition of use of the method forbids it.
        load: the load of the method [VA], where it is known.
        read: the addresses of the interpretations that all this rests on, each with the option that was taken.
    """

    amperes: float | None
    verdict: str
    minimum_rating: float | None = None
    permitted: bool = True
    load: float | None = None
    read: Mapping[str, str] = field(default_factory=dict)

    def more_than(self, other: Judged) -> float | None:
        """By how much it is more than another [A]."""
        return None if self.amperes is None or other.amperes is None else self.amperes - other.amperes

    def load_more_than(self, other: Judged) -> float | None:
        """By how much its load is more than that of another [VA]."""
        return None if self.load is None or other.load is None else self.load - other.load


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
    told = list(told)
    looked.take(evaluation, [claim for claim in told if claim.method != asked.sizing.method])
    return judged_in(looked, evaluation, [claim for claim in told if claim.method == asked.sizing.method])


def judged_in(looked: Looked, evaluation: Evaluation, told: Iterable[Claim] = ()) -> Judged:
    """The amperes and the verdict by an evaluation of the method, with some figures of sizing taken as they stand."""
    rules, asked = looked.rules, looked.asked
    sizing = looked.sized(evaluation)
    looked.take(sizing, told)
    results = rules.methods[asked.sizing.method].results
    amperes, fits, rating = (sizing.line(results[asked.sizing.results[role]]) for role in (AMPERES, FITS, NEW))
    found = verdict(fits if isinstance(fits, bool) else None, state_of(fits))
    permitted = asked.method not in rules.methods or not any(each is False for each in evaluation.permitted(asked.method))
    read = {each: evaluation.choices[each] for each in evaluation.read_choices | sizing.read_choices}
    result = next(iter(rules.methods[asked.method].results.values())) if asked.method in rules.methods else None
    load = None if result is None or asked.given else _number(evaluation.line(result))
    return Judged(_number(amperes), found, _number(rating), permitted, load, read)


def _number(value: object) -> float | None:
    return value if isinstance(value, float) else None
