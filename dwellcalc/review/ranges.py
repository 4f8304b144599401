"""A submitted home of which ratings are known only between bounds, or not at all: where it is calculated, and its ends."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace

from dwellcalc.decide.changed import LOADS, changed
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN
from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.unknowns import at_largest
from dwellcalc.evaluate.bounds import facts_with, inputs_of
from dwellcalc.facts import Facts, Input
from dwellcalc.home import Home, Supply
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Text
from dwellcalc.review.claims import quantity_in
from dwellcalc.review.judged import Judged, judged
from dwellcalc.review.looked import Asked, Looked
from dwellcalc.review.open_ratings import OpenLoad

REPLACED = "replaced"


@dataclass
class Ranges:
    """A home with what is known of it between bounds, and the loads of which no rating is shown.

    Attributes:
        known: the supply with the loads that have a rating, the bounds as they stand.
        loads: the loads without a rating.
        whole: the home with these too, at what is typical of their kinds; nothing where it cannot be read, or there are none.
        supply: its supply.
        largest: the same home, each rating at the value at which the load is largest.
    """

    known: Supply
    loads: list[OpenLoad]
    whole: Home | None = None
    supply: Supply | None = None
    largest: Home | None = None

    @property
    def are_there(self) -> bool:
        """Whether anything is open."""
        return bool(self.loads) or bool(inputs_of(self.known.facts))

    def verdict(self, rules: RuleSet, asked: Asked, taken: str) -> str:
        """The verdict for all that the ratings may be; that of what is calculated where nothing is open.

        Args:
            rules: the rule set.
            asked: what is calculated.
            taken: the verdict of that.
        """
        if not self.are_there:
            return taken
        least = judged(rules, replace(asked, facts=_at_least(self.known.facts)))
        if least.verdict == DOES_NOT_FIT:
            return DOES_NOT_FIT
        most = self.most(rules, asked)
        return OPEN if most is None else most.verdict if most.verdict in (FITS, least.verdict) else OPEN

    def most(self, rules: RuleSet, asked: Asked) -> Judged | None:
        """What is calculated with every rating where the load is largest; nothing where that cannot be told."""
        supply = self._largest_supply()
        return None if supply is None else judged(rules, replace(asked, facts=supply.facts))

    def leave_out_what_counts_nothing(self, asked: Asked, rules: RuleSet) -> None:
        """Leave out the loads without which the load of the method is the same, such as a gas dryer on a laundry circuit."""
        if self.supply is not None:
            looked = Looked(rules, replace(asked, facts=self.supply.facts))
            self.loads = [each for each in self.loads if each.kind in rules.defaults or not looked.same_without(each.name)]

    def _largest_supply(self) -> Supply | None:
        if self.largest is None:
            return None
        return next((each for each in self.largest.supplies if each.id == self.known.id), None)

    @contextmanager
    def with_load(self, name: str, facts: Facts, end: str = "high") -> Iterator[Facts | None]:
        """The facts that are calculated with one of the loads at an end of its bounds, the others left out.

        Args:
            name: the load.
            facts: those that are calculated; for what they hold its value is taken.
            end: the attribute of the bounds that is taken.
        """
        if self.supply is None:
            yield None
            return
        whole = self.supply.facts
        names = whole.collections[LOADS].names
        values: dict[Input, object] = {}
        for (collection, position, field), between in inputs_of(whole).items():
            item = whole.collections[collection].names[position]
            mine = facts.collections[collection].names
            if item in mine:
                values[collection, position, field] = facts.collections[collection].fields[field][mine.index(item)]
            else:
                values[collection, position, field] = getattr(between, end if item == name else "high") or between.high
        others = {(each, REPLACED): True for each in names if each != name and each not in facts.collections[LOADS].names}
        made = facts_with(whole, values)
        with changed(made, others):
            yield made


def at_point(
    home: Home,
    rules: RuleSet,
    instructions: Instructions,
    choices: Mapping[str, str],
    method: str,
    claimed: Mapping[str, Text | None],
) -> Home:
    """A home with each rating between bounds at the figure that is claimed, where this lies in them, else where the load is largest.

    Args:
        home: the home.
        rules: the rule set.
        instructions: what its assessment does.
        choices: the readings that are chosen.
        method: the method, or empty.
        claimed: the figures of the loads, by name.
    """
    supplies = []
    for supply in home.supplies:
        facts = facts_with(supply.facts, dict(_within(supply.facts, claimed, rules)))
        supplies.append(at_largest(SupplyAssessor(rules, instructions, replace(supply, facts=facts), choices, method)))
    return replace(home, facts=supplies[0].facts, supplies=supplies)


def _within(facts: Facts, claimed: Mapping[str, Text | None], rules: RuleSet) -> Iterator[tuple[Input, float]]:
    for (collection, position, field), between in inputs_of(facts).items():
        items = facts.collections[collection]
        figure = claimed.get(items.names[position]) if collection == LOADS else None
        kind = rules.glossary.collections[collection].fields[field].kind
        value = None if figure is None else quantity_in(figure, kind, rules.glossary)
        if value is not None and between.low <= value <= between.high:
            yield (collection, position, field), value


def _at_least(facts: Facts) -> Facts:
    return facts_with(facts, {each: between.low for each, between in inputs_of(facts).items()})
