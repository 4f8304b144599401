"""The readings of appliances that are not known at which the verdict turns: up to which it fits, alone or together, and over which not.

Every bound is proven for all that the other inputs may be. A rating that was taken from a breaker counts as not known here: what its
label says is not more than that, and may be less.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import inf

from dwellcalc.decide.changed import LOADS, Changes, changed
from dwellcalc.decide.decision import Decision, SettingsResult, Turn
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN, SupplyResult
from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.ranged import FITTING, REQUIRED, RangedSupply
from dwellcalc.decide.settings import changes_of
from dwellcalc.decide.trials import all_together, together
from dwellcalc.decide.up_to import verdict_of
from dwellcalc.decide.whatever import Verdict, Whatever
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.bounds import facts_with
from dwellcalc.evaluate.pieces import Pieces
from dwellcalc.evaluate.undecided import narrowed
from dwellcalc.facts import Between, Facts
from dwellcalc.home.glossary_names import FROM_RATING, TAKEN_FROM_BREAKER
from dwellcalc.units import Kind, share

LOWER = "lower"  # the way of an alternative that lowers a field
Levels = Mapping[str, tuple[float, float]]  # the bounds that inputs are narrowed to, by the name of their load


@dataclass(frozen=True)
class Appliance:
    """A load of which one rating is known only between bounds, with the step by which it is told and its value in print."""

    name: str
    low: float
    high: float
    step: float
    shown: Callable[[float], str]


def turning_points(whatever: Whatever, decision: Decision, supplies: Sequence[SupplyResult]) -> list[Turn]:
    """The readings at which the verdict turns, for the counted settings where it is open or fits, and for a larger one that does not fit.

    Args:
        whatever: the home and its assessors, with the settings that are counted.
        decision: its settings.
        supplies: the results of its supplies.
    """
    verdict = all_together([Verdict(each.id, each.verdict) for each in supplies])
    moves = {each.item: each.moves for supply in supplies if supply.between is not None for each in supply.between.inputs}
    first = _Turner(whatever, {}, moves)
    if not first.appliances or any(each.suspected for each in supplies):
        return []
    found = list(first.turns(verdict))
    for load in decision.settings if verdict == FITS else ():
        found += next((turns for each in _larger(load) if (turns := _of_setting(whatever, load.load, each, moves))), [])
    return found


def turning_later(
    whatever: Whatever, of: Collection[str], settings: Mapping[str, float], changes: Changes
) -> tuple[str, list[Turn]]:
    """The verdict with loads that come later, whatever the inputs are, and the readings of these loads up to which it fits.

    Args:
        whatever: the home and its assessors, with the settings that are counted.
        of: the loads that come later.
        settings: those of these loads that it is told of [A].
        changes: the facts with which these loads are counted.
    """
    turner = _Turner(whatever, settings, {}, of, changes)
    verdict = turner.verdict({})
    return verdict, list(turner.favourable()) if verdict == OPEN else []


def _larger(load: SettingsResult) -> list[float]:
    """The settings that are not shown to fit, the largest first; of a range of every whole ampere that alone."""
    above = [each.setting for each in load.settings if each.setting > load.counted and each.verdict != FITS]
    return sorted({above[0], above[-1]}, reverse=True)[: 1 if load.free else 2] if above else []


def _of_setting(whatever: Whatever, load: str, setting: float, moves: Mapping[str, float]) -> list[Turn]:
    turner = _Turner(whatever, {load: setting}, moves)
    fitting = list(turner.favourable())
    return [*fitting, *turner.unfavourable()] if fitting else []


class _Turner:
    """Looks for readings that settle the verdict with some settings.

    ``moves`` is how much each input moves the load [A]; where ``of`` names loads, the readings of these alone are looked for, and
    ``changes`` are the facts with which they are counted.
    """

    def __init__(
        self,
        whatever: Whatever,
        settings: Mapping[str, float],
        moves: Mapping[str, float],
        of: Collection[str] = (),
        changes: Changes | None = None,
    ) -> None:
        self.whatever, self.settings = whatever, dict(settings)
        self.changes = {**changes_of(self.settings), **(changes or {})}
        self.supplies = [
            RangedSupply(assessor, _with_taken(supply.facts), assessor.choices)
            for supply, assessor in zip(whatever.home.supplies, whatever.assessors, strict=True)
        ]
        known = {each.name: each for each in _appliances(self.supplies) if not of or each.name in of}
        worth = {each: -value for each, value in (moves or self.worth(known.values())).items()}
        # what was taken from a breaker stands before all else
        self.appliances = sorted(known.values(), key=lambda each: worth.get(each.name, -inf))
        self.seen: dict[tuple[tuple[str, tuple[float, float]], ...], str] = {}

    def verdict(self, levels: Levels) -> str:
        """The verdict of all supplies together, whatever the inputs are that are not narrowed."""
        key = tuple(sorted(levels.items()))
        if key not in self.seen:
            self.seen[key] = together([Verdict("", each) for each in self._verdicts(levels)])
        return self.seen[key]

    def _verdicts(self, levels: Levels) -> Iterator[str]:
        return (verdict_of(each.decided(FITTING)) for each in self.pieces(levels))

    def pieces(self, levels: Levels) -> Iterator[Pieces]:
        """Each supply with some inputs narrowed."""
        for ranged in self.supplies:
            with changed(ranged.facts, self.changes):
                box = ranged.whole
                for at, (collection, position, _) in enumerate(ranged.inputs):
                    name = ranged.facts.collections[collection].names[position]
                    if collection == LOADS and name in levels:
                        box = narrowed(box, at, *levels[name])
                yield ranged.pieces(box)

    def worth(self, appliances: Iterable[Appliance]) -> dict[str, float]:
        """How much each appliance moves the largest load [A]."""
        ends = {each.name: [self.most({each.name: (end, end)}) for end in (each.low, each.high)] for each in appliances}
        return {name: high - low for name, (low, high) in ends.items()}

    def most(self, levels: Levels) -> float:
        """The largest load of all supplies together with some inputs narrowed [A]."""
        return sum(each.enclosed(REQUIRED).high or float(0) for each in self.pieces(levels))

    def turns(self, verdict: str) -> Iterator[Turn]:
        """Those of the settings that are counted."""
        if verdict == OPEN:
            yield from self.favourable()
            yield from self.unfavourable()
        elif verdict == FITS:
            yield from self.beyond()

    def favourable(self) -> Iterator[Turn]:
        """The appliances that by themselves let it fit up to a reading; where none does, the fewest that do together."""
        alone = [(each, level) for each in self.appliances if (level := self.up_to(each)) is not None]
        for each, level in alone:
            yield self.turn({each: level}, FITS)
        for number in range(2, len(self.appliances) + 1) if not alone else ():
            several = self.appliances[:number]
            if self.verdict(_up_to_share(several, 0)) == FITS:
                yield self.turn({each: high for each, (_, high) in zip(several, self.share(several).values(), strict=True)}, FITS)
                return

    def share(self, several: Sequence[Appliance]) -> Levels:
        """The levels of several appliances up to which it fits, each the same share of the way between its bounds."""
        low, high = float(0), float(1)
        while any((high - low) * (each.high - each.low) > each.step for each in several):
            middle = low + (high - low) / 2
            low, high = (middle, high) if self.verdict(_up_to_share(several, middle)) == FITS else (low, middle)
        return _up_to_share(several, low)

    def unfavourable(self) -> Iterator[Turn]:
        """The appliances from a reading of which on it does not fit, whatever the others are."""
        for each in self.appliances:
            if self.verdict({each.name: (each.high, each.high)}) == DOES_NOT_FIT:
                _, level = self.search(each.low, each.high, each.step, lambda at, of=each: not self.never(of, at))  # type: ignore[misc]
                yield self.turn({each: level}, DOES_NOT_FIT)

    def beyond(self) -> Iterator[Turn]:
        """The appliance that first lets it no longer fit for certain where it reads more than the bound taken, as far as the rules say."""
        found: list[tuple[float, Appliance, float]] = []
        for each in self.appliances:
            most = each.high + share(each.high, self.supplies[0].assessor.instructions.unknown_ratings.beyond)
            if self.verdict({each.name: (each.high, most)}) != FITS:
                level, _ = self.search(each.high, most, each.step, lambda at, of=each: self.always(of, at))  # type: ignore[misc]
                found.append((level / each.high, each, level))
        for _, each, level in sorted(found, key=lambda one: one[0])[:1]:
            yield self.turn({each: level}, DOES_NOT_FIT, beyond=True)

    def always(self, of: Appliance, level: float) -> bool:
        """Whether it fits for all that an appliance may be, from its high bound up to a level."""
        return self.verdict({of.name: (of.high, level)}) == FITS

    def never(self, of: Appliance, level: float) -> bool:
        """Whether it does not fit from a level of an appliance on, whatever the others are."""
        return self.verdict({of.name: (level, of.high)}) == DOES_NOT_FIT

    def up_to(self, of: Appliance) -> float | None:
        """The largest reading up to which it fits, down to a step; nothing where it does not at the lowest."""
        if self.verdict({of.name: (of.low, of.low)}) != FITS:
            return None
        level = self.search(of.low, of.high, of.step, lambda at: self.verdict({of.name: (of.low, at)}) == FITS)[0]
        whole = (level // of.step + 1) * of.step  # the bounds between which it was looked for need not be whole steps
        return whole if whole <= of.high and self.verdict({of.name: (of.low, whole)}) == FITS else level

    def search(self, low: float, high: float, step: float, holds: Callable[[float], bool]) -> tuple[float, float]:
        """The last value at which a condition holds, that holds at ``low`` and not at ``high``, and the first at which it does not; by a step."""
        while high - low > step:
            middle = low + (high - low) / 2
            low, high = (middle, high) if holds(middle) else (low, middle)
        return low, high

    def turn(self, levels: Mapping[Appliance, float], verdict: str, *, beyond: bool = False) -> Turn:
        """The result, each reading in print: of what fits told downwards, of what does not upwards."""
        shown = {}
        for each, level in levels.items():
            down = max(level // each.step * each.step, min(level, each.low))
            up = min(-(-level // each.step) * each.step, each.high)
            shown[each.name] = each.shown(down if verdict == FITS or beyond else up)
        return Turn(self.settings, shown, verdict, beyond)


def _up_to_share(several: Sequence[Appliance], share: float) -> Levels:
    return {each.name: (each.low, each.low + share * (each.high - each.low)) for each in several}


def _with_taken(facts: Facts) -> Facts:
    """The facts in which a rating that was taken from a breaker is known only between half of that and that."""
    loads, declared = facts.collections[LOADS], facts.glossary.collections[LOADS].fields
    taken = loads.fields.get(TAKEN_FROM_BREAKER, [])
    current = declared[TAKEN_FROM_BREAKER].kind.unit if taken else ()
    between = {
        (LOADS, position, name): Between(value / 2, value)
        for position, breaker in enumerate(taken)
        if isinstance(breaker, float)
        for name, field in declared.items()
        if field.comes_from == FROM_RATING and field.kind.unit == current
        if isinstance(value := loads.fields[name][position], float)
    }
    return facts_with(facts, between) if between else facts


def _step(instructions: Instructions, name: str, unit: Kind) -> float:
    """By what a field is told: no finer than an alternative lowers it, so that both tell the same figure; nothing where none is said."""
    lowered = [plan.steps[name] for plan in instructions.alternatives if plan.way == LOWER and name in plan.steps]
    step = instructions.unknown_ratings.steps.get(unit)
    return max([step, *lowered]) if step else float(0)


def _appliances(supplies: Sequence[RangedSupply]) -> Iterator[Appliance]:
    """The loads of which one rating is between bounds, each once; not motors that come in sizes, nor ratings of two numbers."""
    done: set[str] = set()
    for ranged in supplies:
        places = [(collection, position) for collection, position, _ in ranged.inputs]
        for at, ((collection, position, name), between) in enumerate(ranged.inputs.items()):
            field = ranged.facts.glossary.collections[collection].fields[name]
            load = ranged.facts.collections[collection].names[position]
            alone = collection == LOADS and places.count((collection, position)) == 1 and not ranged.sizes[at]
            step = _step(ranged.assessor.instructions, name, field.kind.unit)
            if alone and step and load not in done and field.comes_from == FROM_RATING:
                done.add(load)
                kind, glossary = field.kind, ranged.facts.glossary
                yield Appliance(
                    load,
                    between.low,
                    between.high,
                    step,
                    lambda value, kind=kind, glossary=glossary: printed.value(value, kind, glossary),  # type: ignore[misc]
                )
