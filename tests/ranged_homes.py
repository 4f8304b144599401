"""Random homes of which some inputs are known only between bounds, and points of what these may be, thresholds among them."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

from homes import HORSEPOWER
from random_homes import Node, Quantity, Rating, loads_of, random_choices, random_home, written

from dwellcalc.decide.basis import Carried
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.decide.ranged import RangedSupply
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate.bounds import facts_with
from dwellcalc.evaluate.undecided import Box
from dwellcalc.facts import Between, Facts, Input
from dwellcalc.home import home_from_text
from dwellcalc.language.rule_set import RuleSet

# Volt-amperes at which the code's rules for dwellings change: fastened appliances from 500, ranges from 1750, 3500 and 8750
# on, each half of a kVA over 12 kVA, 27 kVA; dryers 5000, charging equipment 7200; ranges of manufactured homes 10000, and each
# half of a kVA over 12 kVA too. Written from the sections.
THRESHOLDS = (
    500.0,
    1750.0,
    3500.0,
    5000.0,
    7200.0,
    8750.0,
    10000.0,
    12000.0,
    27000.0,
    *(12500.0 + 1000 * step for step in range(15)),
)
MANY = 100_000
VOLTS = (1.0, 120.0, 208.0, 240.0)
RATED = ("volt_amperes", "watts", "marked_amperes", "rated_load_amperes", "fan_amperes", "horsepower", "setting")


def ranged_supplies(rules: RuleSet, chance: random.Random, most: int = 3) -> Iterator[tuple[SupplyAssessor, RangedSupply]]:
    """The supplies of a random home, with one to so many inputs between bounds each, as far as they have such."""
    home = home_from_text(written(random_home(rules.glossary, chance, hiding=0.0)), "random.yaml", rules.glossary)
    for supply in home.supplies:
        facts = ranged(supply.facts, chance, chance.randint(1, most))
        choices = random_choices(rules, chance)
        assessor = SupplyAssessor(rules, read_instructions(rules), supply, choices)
        found = RangedSupply(assessor, facts, choices)
        if found.inputs:
            yield assessor, found


def ranged(facts: Facts, chance: random.Random, number: int) -> Facts:
    """The facts with some inputs between bounds around what they are; motors between sizes of the motor table."""
    known: list[tuple[Input, float]] = []
    for collection, names in (("loads", RATED), ("areas", ("area",))):
        for name in names:
            for position, value in enumerate(facts.collections[collection].fields[name]):
                if isinstance(value, float) and value > 0:
                    known.append(((collection, position, name), value))
    made: dict[Input, Between] = {}
    for each, value in chance.sample(known, min(number, len(known))):
        low, high = value * chance.uniform(0.2, 1), value * chance.uniform(1.05, 3)
        if each[-1] == "horsepower":
            low, high = min(HORSEPOWER, key=lambda size: abs(size - low)), min(HORSEPOWER, key=lambda size: abs(size - high))
        if chance.random() < 0.3 and each[-1] in ("volt_amperes", "watts"):  # an end at a threshold
            low = max((edge for edge in THRESHOLDS if edge < high), default=low)
        if low < high:
            made[each] = Between(low, high)
    return facts_with(facts, made)


def points(ranged: RangedSupply, chance: random.Random, number: int) -> Iterator[Box]:
    """Points of the whole box: every corner of every piece that thresholds make, the floats beside them, and random ones."""
    edges = [edges_of(each, between) for each, between in ranged.inputs.items()]
    for corner in product(*((each[0], each[-1]) for each in edges)):
        yield tuple((value, value) for value in corner)
    yield from (tuple((value, value) for value in point) for point in some_of(edges, chance, max(number, 400)))
    for _ in range(number):
        yield tuple((value, value) for value in (of_input(each, between, chance) for each, between in ranged.inputs.items()))


def some_of(edges: list[list[float]], chance: random.Random, number: int) -> list[tuple[float, ...]]:
    """All combinations of edges, or so many of them where there are more; never a list of all where they are very many."""
    if math.prod(map(len, edges)) > MANY:
        return [tuple(map(chance.choice, edges)) for _ in range(number)]
    every = list(product(*edges))
    return chance.sample(every, min(len(every), number))


def edges_of(each: Input, between: Between) -> list[float]:
    """The ends of an input, and the floats at and beside each threshold inside."""
    if each[-1] == "horsepower":
        return [size for size in HORSEPOWER if between.low <= size <= between.high]
    found = {between.low, between.high}
    for edge in (edge / volts for edge in THRESHOLDS for volts in VOLTS):
        if between.low < edge < between.high:
            found |= {math.nextafter(edge, 0), edge, math.nextafter(edge, math.inf)}
    return sorted(value for value in found if between.low <= value <= between.high)


def of_input(each: Input, between: Between, chance: random.Random) -> float:
    """A value of an input."""
    if each[-1] == "horsepower":
        return chance.choice(edges_of(each, between))
    return min(max(chance.uniform(between.low, between.high), between.low), between.high)


def at(ranged: RangedSupply, point: Box) -> Facts:
    """The facts at a point."""
    return facts_with(ranged.facts, {each: low for each, (low, _) in zip(ranged.inputs, point, strict=True)})


class Oracle:
    """The evaluation of one home at points of a supply's inputs; the facts are copied once and changed in place."""

    def __init__(self, assessor: SupplyAssessor, ranged: RangedSupply) -> None:
        self.ranged = ranged
        self.facts = at(ranged, tuple((each.low, each.low) for each in ranged.inputs.values()))
        supply = replace(assessor.supply, facts=self.facts)
        self.assessor = SupplyAssessor(assessor.rules, assessor.instructions, supply, ranged.choices)

    def __call__(self, point: Box) -> tuple[float | None, Carried]:
        """The load [VA] of the basis, and what the supply must carry."""
        for (collection, position, name), (value, _) in zip(self.ranged.inputs, point, strict=True):
            self.facts.collections[collection].fields[name][position] = value
        tried, carried = self.assessor.answered(self.ranged.choices)
        total = tried.total if tried is not None and isinstance(tried.total, float) else None
        return total, carried


@dataclass(frozen=True)
class Spread:
    """Two bounds of a quantity as a person writes them."""

    low: Quantity
    high: Quantity
    short: bool

    def __str__(self) -> str:
        low = str(self.low)
        return f"{low.rpartition(' ')[0] if self.short else low} to {self.high}"


def with_bounds(home: Node, chance: random.Random, share: float = 0.4) -> dict[str, Spread]:
    """Give ratings of a random home bounds in place of their first number; what was given, by the name of the load."""
    found: dict[str, Spread] = {}
    for load in loads_of(home):
        rating = load.get("rating")
        if not isinstance(rating, Rating) or "settings" in load or chance.random() > share:
            continue
        name, quantity = next(iter(rating.values.items()))
        larger = [size for size in HORSEPOWER if size > quantity.amount]
        if name == "horsepower" and not larger:
            continue
        high = chance.choice(larger) if name == "horsepower" else round(quantity.amount * chance.uniform(1.1, 2), 2)
        found[load["name"]] = Spread(quantity, replace(quantity, amount=high), chance.random() < 0.5)
        load["rating"] = replace(rating, values={**rating.values, name: found[load["name"]]})
    return found
