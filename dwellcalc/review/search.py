"""The search for what stands behind wrong figures: one suspect, then two that touch different lines.

Of many pairs some one gives nearly any figure by chance. So a pair counts only where they lie so thin about the figures which it
gives that few submittals would be met so.

A claim that is met by the calculation, or that follows from the other claims, needs no reason. The claims that do neither
are where something went wrong. A suspect explains one of these if the claim is met, or follows, once the rules err as it
says, and no other claim that was right is wrong then.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations
from math import prod

from dwellcalc.evaluate.gathering import Value
from dwellcalc.facts import Unknown
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.progress import Progress, silent
from dwellcalc.review.chances import chance
from dwellcalc.review.claims import Claim
from dwellcalc.review.claims_below import addresses_below, claims_below
from dwellcalc.review.looked import Asked, At, Looked
from dwellcalc.review.suspects import READING, Suspect, Suspects, choices_of

Pair = tuple[Suspect, ...]


@dataclass
class View:
    """The claims beside what a rule set makes of them.

    Attributes:
        values: the value of each claimed line.
        following: the value that follows from the other claims.
        met: the claims that the values meet.
        wrong: those that neither the values nor what follows meets; of a line that cannot be calculated none is.
        by_chance: those that are met although a claim that they rest on is not, and that do not follow from it.
    """

    values: dict[At, Value]
    following: dict[At, Value]
    met: frozenset[Claim]
    wrong: frozenset[Claim]
    by_chance: frozenset[Claim]


@dataclass
class Explanation:
    """What explains some claims: suspects that stand together, and others that explain the same as well.

    ``by_chance`` says that some mistake would often give such a figure by chance, since it is printed coarsely or many come near it;
    ``beside`` is what is told of another figure and is in these as well.
    """

    suspects: Pair
    explains: tuple[Claim, ...]
    equal: list[Pair] = field(default_factory=list)
    by_chance: bool = False
    beside: Suspect | None = None


@dataclass
class SearchResult:
    """What was found: explanations, the claims that none explains, and whether the search ended early, for want of time."""

    explanations: list[Explanation]
    unexplained: list[Claim]
    tried: int
    stopped_early: bool
    out_of_time: bool = False

    def is_shared(self, suspects: Pair) -> bool:
        """Whether one of some suspects is behind another figure too, beside what explains that."""
        return any(each.beside in suspects for each in self.explanations)

    def without_outcome(self, line: str) -> SearchResult:
        """The same without explanations of nothing but what is said of the outcome: a yes or a no is met by many by chance."""
        of_it = [each for each in self.explanations if all(claim.line == line for claim in each.explains)]
        rest = [each for each in self.explanations if each not in of_it]
        claims = [claim for each in of_it for claim in each.explains]
        return replace(self, explanations=rest, unexplained=[*self.unexplained, *claims])


@dataclass(frozen=True)
class _Found:
    """What some suspects explain; ``alone`` where their own values are the figures, with nothing else wrong beside."""

    suspects: Pair
    explains: frozenset[Claim]
    met: int
    alone: bool = True

    @property
    def order(self) -> tuple[int, int, bool, int]:
        """Which goes first: of more claims met, then of fewer suspects, then no reading with other figures, then of fewer changes."""
        return (-self.met, len(self.suspects), self.is_doubtful, sum(len(each.changes) for each in self.suspects))

    @property
    def is_doubtful(self) -> bool:
        """Whether it is a reading by which the figures would be others: it is told only where nothing else explains them."""
        return not self.alone and any(each.kind == READING for each in self.suspects)


class Search:
    """Searches what stands behind the wrong claims of a submittal.

    Args:
        rules: the rule set.
        asked: what is calculated for it.
        claims: its claims.
        suspects: the mistakes and readings that are tried.
        seconds: how long it may take [s], a last resort: what is found within it depends on the machine.
        pairs_at_most: how many pairs are tried.
        tried_at_most: how many suspects and pairs are tried in all; none where it is nothing.
        chance_one_in: a pair counts only where, of so many submittals with such figures, one or fewer would be met by chance.
    """

    def __init__(
        self,
        rules: RuleSet,
        asked: Asked,
        claims: Sequence[Claim],
        suspects: Suspects,
        *,
        seconds: float,
        pairs_at_most: int,
        tried_at_most: int,
        chance_one_in: float = 1.0,
    ) -> None:
        self.rules = rules
        self.asked = asked
        self.claims = list(claims)
        self.suspects = suspects
        self.until = time.monotonic() + seconds
        self.pairs_at_most = pairs_at_most
        self.tried_at_most = tried_at_most
        self.chance_one_in = chance_one_in
        self.out_of_time = False
        self.tried = 0
        self.stopped_early = False
        self.progress: Progress = silent
        self.views: dict[Pair, View | None] = {}
        self.below = claims_below(rules, asked, self.claims)
        self.base = self.view(rules, {})
        self.order = {claim: position for position, claim in enumerate(self.claims)}

    def view(self, rules: RuleSet, choices: dict[str, str]) -> View:
        """The claims under a rule set and other readings."""
        looked = Looked(rules, self.asked, choices)
        values = looked.values(self.claims)
        met = frozenset(claim for claim in self.claims if claim.met_by(values[claim.place_in(values)]))
        following = looked.values_by_the_others(self.claims, values)
        follows = {claim for claim in self.claims if claim.at in following and claim.met_by(following[claim.at])}
        unknown = {claim for claim in self.claims if isinstance(values[claim.at], Unknown)}
        wrong = frozenset(self.claims) - met - follows - unknown
        by_chance = frozenset(claim for claim in met - follows if self.below[claim] - met)
        return View(values, following, met, wrong, by_chance)

    def run(self, progress: Progress = silent) -> SearchResult:
        """Search; ``progress`` is told how much was tried."""
        self.progress = progress
        if not self.base.wrong:
            return SearchResult([], [], 0, stopped_early=False)
        singles = self._of_one(self.singles())
        explanations, left = self._cover(singles, self.base.wrong)
        explanations = [replace(each, by_chance=self._may_be_chance(each)) for each in explanations]
        if left and self.pairs_at_most:
            more, left = self._cover(self._of_two(left), left)
            explanations += more
        unexplained = sorted(left, key=self.order.__getitem__)
        return SearchResult(explanations, unexplained, self.tried, self.stopped_early, self.out_of_time)

    def singles(self) -> Iterator[Suspect]:
        """What may stand behind the wrong claims: mistakes in what their lines rest on, and readings that they rest on."""
        yield from self.suspects.mistakes(addresses_below(self.rules, self.asked, self.base.wrong))
        read = Looked(self.rules, self.asked).choices_read(self.claims)
        yield from self.suspects.readings(read, self.asked.choices)

    def viewed(self, suspects: Pair) -> View | None:
        """The claims with some suspects taken for true; nothing where these cannot stand together or no more are tried."""
        if suspects in self.views:
            return self.views[suspects]
        self.out_of_time = self.out_of_time or time.monotonic() > self.until
        if self.out_of_time or self.tried >= self.tried_at_most:
            self.stopped_early = True
            return None
        rules = self.suspects.rules_with(suspects)
        self.tried += 1
        self.progress(f"looking for what went wrong, {self.tried} tried")
        found = None if rules is None else self.view(rules, choices_of(suspects))
        self.views[suspects] = found
        return found

    def found(self, suspects: Pair) -> _Found | None:
        """What some suspects explain, if they explain anything and make no claim wrong that was not."""
        view = self.viewed(suspects)
        if view is None or not view.wrong < self.base.wrong:
            return None
        explains = self.base.wrong - view.wrong - view.by_chance - self.only_moved(suspects, view)
        return _Found(suspects, explains, len(view.met), explains <= view.met) if explains else None

    def only_moved(self, suspects: Pair, view: View) -> frozenset[Claim]:
        """The loads claimed to be nothing that some suspects make nothing of on one line, and count on another."""
        nothing = [claim for claim in self.base.wrong - view.wrong if claim.leaves_out]
        rules = self.suspects.rules_with(suspects) if nothing else None
        if rules is None:
            return frozenset()
        looked = Looked(rules, self.asked, choices_of(suspects))
        return frozenset(claim for claim in nothing if not looked.same_without(claim.load))

    def _of_one(self, singles: Iterable[Suspect]) -> list[_Found]:
        found = []
        for each in singles:
            one = self.found((each,))
            if one is not None:
                found.append(one)
            if self.stopped_early:
                break
        return found

    def _of_two(self, left: Iterable[Claim]) -> list[_Found]:
        """Pairs that explain some claims and hardly do so by chance, tried by how near their single effects add up to one of them."""
        tried: list[tuple[float, int, Pair]] = []
        chances: dict[Claim, float] = {}
        for claim in left:
            effects = self._effects(claim)
            base = self.base.following.get(claim.at, self.base.values[claim.at])
            if not isinstance(base, float) or not isinstance(claim.value, float):
                continue
            wanted = claim.value - base
            first = len(tried)
            for (one, of_one), (other, of_other) in combinations(effects, 2):
                if one.apart_from(other):
                    tried.append((abs(of_one + of_other - wanted), len(tried), (one, other)))
            if claim.method != self.asked.sizing.method:  # what sizing gives, such as the next rating, many loads give
                chances[claim] = chance([each[0] for each in tried[first:]], wanted, claim.step)
        if not self._is_hardly_chance(chances, chances):
            return []
        tried.sort(key=lambda each: each[:2])
        tried = list({frozenset(each[2]): each for each in reversed(tried)}.values())[::-1]
        if len(tried) > self.pairs_at_most:
            tried = tried[: self.pairs_at_most]
            self.stopped_early = True
        found = (self.found(pair) for *_, pair in tried)
        return [each for each in found if each is not None and self._is_hardly_chance(each.explains, chances)]

    def _may_be_chance(self, found: Explanation) -> bool:
        """Whether some single mistake would often give the figures by chance, those explained and each that is met then as well."""
        view = self.views[found.suspects]
        also = view.met - self.base.met - set(found.explains) if view is not None else ()
        chances = {claim: self._chance_of_value(claim) for claim in also}
        explained = self._is_hardly_chance(found.explains, self._chances_of_one(found.explains))
        return not explained and not any(self._is_hardly_chance([claim], chances) for claim in also)

    def _chance_of_value(self, claim: Claim) -> float:
        """How often some single mistake would give the value of a figure by chance."""
        base = self.base.values[claim.at]
        values = [view.values[claim.at] for of, view in self.views.items() if view is not None and len(of) == 1]
        if not isinstance(base, float) or not isinstance(claim.value, float):
            return 1.0
        off = [abs(each - claim.value) for each in values if isinstance(each, float) and each != base]
        return chance(off, claim.value - base, claim.step)

    def _chances_of_one(self, claims: Iterable[Claim]) -> dict[Claim, float]:
        """How often some single mistake would give each of some figures by chance."""
        found = dict.fromkeys(claims, 0.0)
        for claim in found:
            base = self.base.following.get(claim.at, self.base.values[claim.at])
            if isinstance(base, float) and isinstance(claim.value, float):
                wanted = claim.value - base
                found[claim] = chance([abs(of - wanted) for _, of in self._effects(claim)], wanted, claim.step)
        return found

    def _is_hardly_chance(self, claims: Iterable[Claim], chances: Mapping[Claim, float]) -> bool:
        """Whether some pair would give all of some figures by chance in few submittals; each of them is wrong by itself."""
        together = prod(chances.get(claim, 1.0) for claim in claims)
        return together * self.chance_one_in <= 1

    def _effects(self, claim: Claim) -> list[tuple[Suspect, float]]:
        """The suspects that move the value of a claim, each with by how much."""
        found = []
        base = self.base.following.get(claim.at, self.base.values[claim.at])
        for suspects, view in self.views.items():
            if view is None or len(suspects) > 1 or not isinstance(base, float):
                continue
            value = view.following.get(claim.at, view.values[claim.at])
            if isinstance(value, float) and value != base:
                found.append((suspects[0], value - base))
        return found

    def _cover(self, found: list[_Found], wrong: frozenset[Claim]) -> tuple[list[Explanation], frozenset[Claim]]:
        """Explanations for as many claims as can be, those of most claims first, and the claims that are left."""
        made: list[Explanation] = []
        left = wrong
        while True:
            useful = [each for each in found if each.explains & left]
            if not useful:
                return made, left
            most = max(len(each.explains & left) for each in useful)
            best = sorted((each for each in useful if len(each.explains & left) == most), key=lambda each: each.order)
            first = best[0]
            equal = [
                each.suspects
                for each in best[1:]
                if each.explains & left == first.explains & left
                and (first.is_doubtful or not each.is_doubtful)
                and (each.met, len(each.suspects)) == (first.met, len(first.suspects))
            ]
            explains = tuple(sorted(first.explains & left, key=self.order.__getitem__))
            made.append(Explanation(first.suspects, explains, equal))
            left -= first.explains
