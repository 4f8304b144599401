"""One supply of which some inputs are known only between bounds: what it must carry, and whether it fits, on a piece of them.

The basis is the least of the methods that may be used, so it may differ from value to value. On a piece each method that may
be the least is sized, its load held to no more than the largest that the least can be; what they give is joined.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import product
from math import prod
from typing import Any

from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate.bounds import BoundsEvaluation, bounds_plan_of, boxed, inputs_of, sizes_of
from dwellcalc.evaluate.gathering import Value
from dwellcalc.evaluate.pieces import LIMIT, Pieces
from dwellcalc.evaluate.possible import NOTHING, Possible, hull, possible, settled
from dwellcalc.evaluate.undecided import Box, Undecided
from dwellcalc.facts import Between, Facts, Input, Unknown
from dwellcalc.language.tree import Arithmetic, ReadLine

REQUIRED, FITTING, TOTAL, SMALLEST = "amperes_required", "fits", "va", "minimum_rating"


@dataclass
class Sight:
    """What is seen of a supply in a box: its values, and the evaluations that they were made by."""

    ranged: RangedSupply
    values: dict[str, Value] = field(default_factory=dict)
    made: dict[str, BoundsEvaluation] = field(default_factory=dict)
    sized: list[BoundsEvaluation] = field(default_factory=list)

    def undecided(self) -> list[Undecided]:
        """What is undecided in the methods that may be the basis, then in sizing; of the latter only what it rests on counts."""
        found = [each for evaluation in self.made.values() for each in evaluation.undecided_at]
        return found + [each for evaluation in self.sized for each in evaluation.undecided_at if len(each.of) != 1]

    def outcome(self, found: Undecided, box: Box) -> Any:
        """What an undecided place gives in another box."""
        value = found.read(self.ranged.evaluation(box), found.item)
        return None if value.__class__ is Possible else value if not isinstance(value, Unknown) else Unknown.__name__


@dataclass
class Usable:
    """A method that may be used in a box: what its evaluation gives, and whether it may be used in all of the box."""

    name: str
    evaluation: BoundsEvaluation
    amperes: Value
    total: Value
    certain: bool


class RangedSupply:
    """A supply with inputs between bounds.

    Args:
        assessor: the assessor of the supply; its methods, instructions and wanted method hold.
        facts: the facts with those inputs.
        choices: the interpretations chosen, by address.
    """

    def __init__(self, assessor: SupplyAssessor, facts: Facts, choices: Mapping[str, str]) -> None:
        self.assessor = assessor
        self.facts = facts
        self.choices = dict(choices)
        self.plan = bounds_plan_of(assessor.rules)
        self.inputs: dict[Input, Between] = inputs_of(facts)
        self.sizes = sizes_of(assessor.rules, self.inputs)

    @property
    def whole(self) -> Box:
        """The box of all that the inputs may be."""
        return tuple((each.low, each.high) for each in self.inputs.values())

    def pieces(self, box: Box | None = None) -> Pieces:
        """The pieces of a box, or of the whole one; of an input that has sizes only, such as a motor, one for each size."""
        box = self.whole if box is None else box
        sizes = [
            [(size, size) for size in each if low <= size <= high] or [(low, high)]
            for each, (low, high) in zip(self.sizes, box, strict=True)
        ]
        number = prod(len(each) for each in sizes)
        return Pieces([box] if number > LIMIT else list(product(*sizes)), self.see)

    def evaluation(self, box: Box, given: Mapping[str, Value] | None = None) -> BoundsEvaluation:
        """An evaluation on a box."""
        return BoundsEvaluation(self.plan, boxed(self.facts, self.inputs, box), self.choices, given)

    def see(self, box: Box) -> Sight:
        """What is seen of a box."""
        sight = Sight(self)
        facts = boxed(self.facts, self.inputs, box)
        wanted = [name for name in self.assessor.methods() if self.assessor.wanted in ("", name)]
        usable = [one for name in wanted if (one := self.usable(name, facts)) is not None]
        usable = self.first_of(usable)
        ceiling = min((possible(one.amperes).high for one in usable if _certain(one)), default=None)
        given = [one for one in usable if possible(one.amperes).low is not None]
        least = [one for one in given if ceiling is None or possible(one.amperes).low <= ceiling]
        found: dict[str, list[Value]] = {name: [] for name in (REQUIRED, FITTING, TOTAL, SMALLEST)}
        for one in least:
            sight.made[one.name] = one.evaluation
            found[TOTAL].append(self.total(one, given))
            sized = self.sized(one, facts, ceiling)
            sight.sized.append(sized)
            results = self.assessor.rules.methods[self.assessor.instructions.sizing.method].results
            for name in (REQUIRED, FITTING, SMALLEST):
                found[name].append(sized.line(results[self.assessor.instructions.sizing.results[name]]))
        lacking = [] if ceiling is not None else [_lacking(one) for one in usable] or [Unknown()]
        sight.values = {name: hull([*values, *lacking]) for name, values in found.items()}
        return sight

    def first_of(self, usable: list[Usable]) -> list[Usable]:
        """The method that a record serves alone, where it may be used in all of the box; else the others."""
        record = self.assessor.instructions.record
        if record is None or self.assessor.wanted:
            return usable
        served = [one for one in usable if one.name == record.serves]
        return [one for one in served if _certain(one)] or [one for one in usable if one not in served]

    def usable(self, name: str, facts: Facts) -> Usable | None:
        """A method, if it may be used somewhere in the box."""
        evaluation = BoundsEvaluation(self.plan, facts, self.choices)
        outcomes = evaluation.permitted(name)
        if any(outcome is False for outcome in outcomes):
            return None
        certain = not any(False in possible(outcome).words for outcome in outcomes)
        results, instructions = self.assessor.rules.methods[name].results, self.assessor.instructions
        total, amperes = evaluation.line(results[instructions.total]), evaluation.line(results[instructions.amperes])
        return Usable(name, evaluation, amperes, total, certain)

    def total(self, one: Usable, others: list[Usable]) -> Value:
        """The load of a method where that is the basis: where amperes are loads divided by one number, no more than the least.

        Of quotients rounded to the nearest float the order is that of the loads but for the last bits, which are added.
        """
        divisor = self.divisor(one)
        alike = [possible(other.total).high for other in others if _certain(other) and divisor == self.divisor(other) is not None]
        slack = 1 + 2 * sys.float_info.epsilon * 2
        return _held(one.total, min(alike) * slack) if alike and possible(one.total).low is not None else one.total

    def divisor(self, one: Usable) -> float | None:
        """The number that a method divides its load by, if its amperes are such a quotient and the number is known."""
        results, instructions = self.assessor.rules.methods[one.name].results, self.assessor.instructions
        amperes, total = results[instructions.amperes], results[instructions.total]
        node = amperes.value
        if (
            not isinstance(node, Arithmetic)
            or node.sign != "/"
            or not isinstance(node.left, ReadLine)
            or node.left.line is not total
        ):
            return None
        found = self.plan.reader(node.right, amperes.level, self.plan.per[one.name])(one.evaluation, 0)
        return found if isinstance(found, float) and found > 0 else None

    def sized(self, one: Usable, facts: Facts, ceiling: float | None) -> BoundsEvaluation:
        """The supply sized for a method where that is the basis: its load is then no more than what the least can be."""
        results, plan = self.assessor.rules.methods[one.name].results, self.assessor.instructions.sizing
        given = {name: one.evaluation.line(results[result]) for name, result in plan.given.items()}
        for name, result in plan.given.items():
            if result == self.assessor.instructions.amperes and ceiling is not None:
                given[name] = _held(one.amperes, ceiling)
        return BoundsEvaluation(self.plan, facts, self.choices, given)


def _certain(one: Usable) -> bool:
    """Whether a method may be used and gives a load in all of the box."""
    return one.certain and possible(one.amperes).low is not None and possible(one.amperes).certain()


def _lacking(one: Usable) -> Unknown:
    """Why a method gives no load somewhere in the box."""
    missing = possible(one.amperes).missing
    return Unknown() if missing is None else missing


def _held(value: Value, ceiling: float) -> Value:
    """A value where it is no more than the ceiling; there it is a number."""
    found = possible(value)
    if found.low is None:
        return value
    return settled(Possible(found.low, max(found.low, min(found.high, ceiling)), NOTHING, of=found.of))
