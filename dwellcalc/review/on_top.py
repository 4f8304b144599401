"""What a comment asks for and no figure has yet: a way out that leaves less room than that is not said to suffice."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.document import FITS
from dwellcalc.placed import spaced
from dwellcalc.review.finding import EVIDENCE, Finding
from dwellcalc.review.stated import volts_of
from dwellcalc.review.submittal import Submittal


@dataclass(frozen=True, slots=True)
class OnTop:
    """A load that is asked for: what it is, the ids of the comments that ask for it, how much it may be [VA] and [A], and the capacity [A]."""

    kind: str
    findings: tuple[str, ...]
    volt_amperes: float
    amperes: float
    capacity: float

    def room(self, one: AlternativeResult) -> float | None:
        """What an alternative leaves for it [A], where that is less than it may be, and nothing or less where a fraction is dropped.

        Nothing is given of one that suffices with it too.
        """
        if one.verdict != FITS or one.amperes is None or one.larger:
            return None
        left = (self.capacity if one.capacity is None else one.capacity) - one.amperes
        return left if left < self.amperes else None


def on_top(submittal: Submittal, findings: Iterable[Finding], capacity: float | None) -> OnTop | None:
    """The load that comments ask for, at the most that is typical of its kind; nothing where none is asked for, or no figure is known.

    Args:
        submittal: as it was read.
        findings: the comments that stand.
        capacity: of the supply [A].
    """
    plan, volts = submittal.instructions.review, volts_of(submittal.asked.facts)
    asked = {} if plan is None else {f"{EVIDENCE}{name}": kind for name, kind in plan.comes_on_top.items()}
    found = [each.id for each in findings if each.id in asked]
    kind = asked[found[0]] if found else ""
    most = submittal.rules.defaults.get(kind)
    if most is None or capacity is None or not volts:
        return None
    return OnTop(spaced(kind), tuple(found), most.high, most.high / volts, capacity)
