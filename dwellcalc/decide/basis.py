"""Methods tried for a supply, and which of them is the basis of the answer."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import isclose

from dwellcalc.decide.document import Basis, SupplyResult
from dwellcalc.decide.record_plan import RecordPlan
from dwellcalc.evaluate.printed import number
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.evaluate.work import NO, YES
from dwellcalc.facts import Unknown
from dwellcalc.language.rule_set import RuleSet

ASKED_FOR = "asked for by name"  # why a method is the basis


@dataclass
class Tried:
    """A method evaluated for a supply under some choices: its load [VA], [A], none of a supply, and whether it may be used."""

    name: str
    evaluation: Evaluation
    total: object
    amperes: object
    may: str


@dataclass
class Carried:
    """What a supply must carry [A], nothing where no method may be used and gives a result, the verdict, the method's title.

    ``margin`` [A] is what is left of its capacity; ``minimum_rating`` and ``offered_rating`` [A] those of a new supply.
    """

    amperes: float | None
    verdict: str
    by: str = ""
    margin: float | None = None
    minimum_rating: float | None = None
    offered_rating: float | None = None

    @property
    def capacity(self) -> float | None:
        """The capacity that the amperes are held against [A]."""
        return None if self.amperes is None or self.margin is None else self.amperes + self.margin

    def against(self, usual: float | None) -> str:
        """The verdict, with the capacity where that is another than usual [A]."""
        differs = self.capacity is not None and usual is not None and not isclose(self.capacity, usual)
        return f"{self.verdict} against {number(self.capacity)} A" if differs and self.capacity is not None else self.verdict


def basis_of(tried: Iterable[Tried], wanted: str, rules: RuleSet, record: RecordPlan | None = None) -> tuple[Tried, Basis] | None:
    """The method whose result is compared: the one that was asked for, else that of a record, else the least of those that may.

    Args:
        tried: the methods.
        wanted: the one that was asked for, or an empty string.
        rules: the rule set.
        record: what the assessment file says of a record; the method that it serves is the basis only where nothing is open of it.
    """
    tried = list(tried)
    served = [one for one in tried if record is not None and one.name == record.serves]
    if record is not None and not wanted:
        for one in served:
            if one.may == YES and isinstance(one.amperes, float):
                return one, Basis(one.name, str(rules.methods[one.name].source.title), record.because)
        tried = [one for one in tried if one.name != record.serves]
    usable = [(one.amperes, at, one) for at, one in enumerate(tried) if one.may != NO and isinstance(one.amperes, float)]
    if wanted:
        usable = [each for each in usable if each[-1].name == wanted]
    if not usable:
        return None
    *_, least = min(usable, key=lambda each: each[:2])
    if wanted:
        because = ASKED_FOR
    elif len(usable) == 1:
        because = "the only method calculated here that may be used"
    else:
        because = "the least of the methods calculated here that may be used"
    return least, Basis(least.name, str(rules.methods[least.name].source.title), because)


def lacking(tried: Iterable[Tried]) -> list[Tried]:
    """Those methods that may be used and lack an input, so that their result may be less than that of the others."""
    return [one for one in tried if one.may != NO and isinstance(one.total, Unknown) and one.total.inputs]


def waits(found: SupplyResult, wanted: str) -> bool:
    """Whether a supply has no basis because a method that may be used lacks an input, though another gives a result."""
    return found.basis is None and not wanted and any(each.total is not None and each.may_be_used != NO for each in found.results)


def missing_of(values: Iterable[object]) -> tuple[list[str], list[str]]:
    """What is missing where values are unknown, and why tables refuse them."""
    unknown = [value for value in values if isinstance(value, Unknown)]
    inputs = sorted({name for value in unknown for name in value.inputs})
    return inputs, sorted({why for value in unknown for why in value.refusals})
