"""Methods tried for a supply, and which of them is the basis of the answer."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dwellcalc.decide.document import Basis
from dwellcalc.decide.record_plan import RecordPlan
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


def missing_of(values: Iterable[object]) -> tuple[list[str], list[str]]:
    """What is missing where values are unknown, and why tables refuse them."""
    unknown = [value for value in values if isinstance(value, Unknown)]
    inputs = sorted({name for value in unknown for name in value.inputs})
    return inputs, sorted({why for value in unknown for why in value.refusals})
