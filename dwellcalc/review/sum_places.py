"""Which line a figure is for whose label may be of several: by its place among the rows, and by the figures above it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import isclose

from dwellcalc.language.reach import behind
from dwellcalc.language.tree import CheckedLine, ReadLine
from dwellcalc.placed import Text
from dwellcalc.review.claims import Claim, quantity_in
from dwellcalc.review.looked import At, Looked, line_of


class SumPlaces:
    """Places figures among the lines that their labels may be of.

    Args:
        looked: the calculation of the submittal.
    """

    def __init__(self, looked: Looked) -> None:
        self.looked = looked

    def place(self, claim: Claim, above: Sequence[Claim], after: Sequence[Claim]) -> tuple[At | None, bool]:
        """The line and item of a claim, or nothing where none is sure; and whether its figure tells it.

        The figure itself tells it first, as it follows from the rows above or as the calculation has it; else the place,
        for a sum stands under all of its parts and over what is made of it.

        Args:
            claim: the claim, with all places that it may have.
            above: the claims of the rows above it.
            after: those of the rows after it.
        """
        taken = {each.at for each in above}
        free = [each for each in claim.places if each not in taken] or list(claim.places)
        possible = [each for each in free if not self.has_parts(each, after)]
        values = self.looked.values([claim])
        following = self.following(claim, above)
        told = [
            *(each for each in possible if claim.met_by(following.get(each))),
            *(each for each in claim.places if claim.met_by(values.get(each))),
            *(each for each in free if claim.met_by(following.get(each))),
        ]
        if told:
            return told[0], True
        return (possible[0] if len(possible) == 1 else None), False

    def reads(self, claimed: Text, line: CheckedLine) -> bool:
        """Whether a figure is in the unit of a line."""
        return (
            line.kind is None
            or line.kind.form != "quantity"
            or quantity_in(claimed, line.kind, self.looked.rules.glossary) is not None
        )

    def following(self, claim: Claim, above: Sequence[Claim]) -> Mapping[At, object]:
        """The value of each place of a claim as it follows from the claims above it, taken as they stand."""
        evaluation = self.looked.evaluation()
        own = self.looked.asked.sizing.method
        self.looked.take(evaluation, [each for each in above if each.method != own and each.at not in claim.places])
        lines = [(at, line_of(self.looked.rules, at[0])) for at in claim.places]
        return {at: self.looked.value(evaluation, line, at[1]) for at, line in lines if line is not None and line.method != own}

    def is_sum(self, claim: Claim, above: Sequence[Claim]) -> bool:
        """Whether a claim that is of no load alone rests on some of those above it, by any of its places."""
        return not claim.row and any(self.has_parts(each, above) for each in claim.places)

    def has_parts(self, place: At, claims: Sequence[Claim]) -> bool:
        """Whether a line rests on the line of one of some claims."""
        below = self.below(place)
        return any(each.line in below for each in claims)

    def rests_on(self, one: At, other: At) -> bool:
        """Whether a line is another, or rests on it."""
        return one == other or other[0] in self.below(one)

    def related(self, one: At, other: At) -> bool:
        """Whether one of two lines rests on the other."""
        return one[0] in self.below(other) or other[0] in self.below(one)

    def below(self, place: At) -> set[str]:
        """The lines that a line rests on, without itself."""
        line = line_of(self.looked.rules, place[0])
        found = {each.id for each in behind(line) if isinstance(each, CheckedLine)} if line is not None else set()
        return found - {place[0]}

    def before_steps(self, claim: Claim, above: Sequence[Claim]) -> Claim:
        """A claim that stands before the steps of a demand factor, at the line which these are of.

        It is there where its label may mean that, and where the label means what comes of the steps, unless it is that.
        """
        stepped = self.stepped()
        if claim.unsure:
            taken = {each.line for each in above}  # such a figure stands there already
            return _at(claim, next((each for each in claim.places if each[0] in stepped.values() and each[0] not in taken), None))
        before = stepped.get(claim.line)
        if before is None or claim.row or claim.met_by(self.following(claim, above).get(claim.at)):
            return claim
        return replace(claim, line=before, item="")

    def stepped(self) -> dict[str, str]:
        """The lines that come of the steps of a demand factor, each with the line that these are of."""
        lines = self.looked.rules.methods[self.looked.asked.method].lines.values()
        return {each.id: each.of.line.id for each in lines if each.phrases and isinstance(each.of, ReadLine)}

    def after_steps(self, claim: Claim, above: Sequence[Claim], *, behind_steps: bool) -> Claim:
        """A claim of a line that steps are of, at the line which comes of these where its figure is that one's.

        It is there too where it stands behind the steps and the line which they are of has its figure above.

        Args:
            claim: the claim, at the line that its label names.
            above: the claims of the rows above it.
            behind_steps: whether the row before it is a step.
        """
        after = next((line for line, of in self.stepped().items() if of == claim.line), None)
        if claim.unsure or claim.row or after is None or self.is_met(claim, above):
            return claim
        moved = replace(claim, line=after, item="", also=())
        given = any(each.line == claim.line for each in above)
        return moved if self.is_met(moved, above) or (behind_steps and (given or claim.adds_up)) else claim

    def is_met(self, claim: Claim, above: Sequence[Claim]) -> bool:
        """Whether the figure of a claim is that of its line as calculated, or as it follows from the claims above it."""
        return any(claim.met_by(each.get(claim.at)) for each in (self.looked.values([claim]), self.following(claim, above)))

    def without_steps(self, claim: Claim, above: Sequence[Claim]) -> Claim:
        """A claim that rows add up to, of a sheet that shows no steps, at the line before the demand factor where it is that."""
        before = self.before_steps(claim, above)
        return before if before.met_by(self.following(before, above).get(before.at)) else claim

    def at_share(self, claim: Claim, above: Sequence[Claim], amount: float | None, of_amount: float | None = None) -> Claim:
        """A claim that is a share of an amount, at the line that is made of the one with this amount.

        Where none of the lines which it may be for has the amount, it is at the one that takes such a share of another, else at
        the one that rests on all others, where one does.

        Args:
            claim: the claim.
            above: those of the rows above it.
            amount: that of which it is a share.
            of_amount: the share, as one of the whole.
        """
        following = self.following(claim, above)
        of = [each for each in claim.places if self._is_share(claim, following.get(each), amount, of_amount)]
        full = [
            each for each in of if any(one != each and one[0] in self.below(each) for one in of)
        ]  # no share is taken of it here
        if full:
            return _at(claim, min(full, key=lambda each: len(self.below(each))))
        made = [each for each in claim.places if of and each not in of and all(each[0] != one[0] for one in of)]
        made = made if made or amount is not None else of  # no share of it is taken here, so that both have the amount
        made = [each for each in made if any(one[0] in self.below(each) for one in of)]
        if made:
            return _at(claim, min(made, key=lambda each: len(self.below(each))))
        places = claim.places
        if amount is None:
            return claim
        sharing = [each for each in places if of_amount is not None and self._takes_share(each, places, following, of_amount)]
        if len(sharing) == 1:
            return _at(claim, sharing[0])
        return _at(claim, next((each for each in places if all(self.rests_on(each, other) for other in places)), None))

    def _is_share(self, claim: Claim, value: object, amount: float | None, of_amount: float | None) -> bool:
        """Whether a value is the amount, or where none is told a claim is the share of it."""
        if not isinstance(value, float):
            return False
        if amount is not None:
            return value == amount
        return of_amount is not None and isinstance(claim.value, float) and isclose(claim.value, value * of_amount, abs_tol=1)

    def _takes_share(self, place: At, places: Sequence[At], values: Mapping[At, object], of_amount: float) -> bool:
        """Whether a line is a share of another of some lines, which it rests on."""
        mine = values.get(place)
        below = [values.get(each) for each in places if each != place and each[0] in self.below(place)]
        known = [each for each in below if isinstance(each, float) and each]
        return isinstance(mine, float) and any(isclose(mine, each * of_amount) for each in known)

    def is_told(self, claim: Claim, above: Sequence[Claim]) -> bool:
        """Whether the figure of a claim tells which of its lines it is for, or rows add up to it."""
        return claim.adds_up or self.place(claim, above, ())[1]

    def are_made_of_last(self, after: Sequence[Claim], claim: Claim) -> bool:
        """Whether all claims behind one, such as amperes, are made of the line that rests on all others which it may be for."""
        last = [each for each in claim.places if all(self.rests_on(each, other) for other in claim.places)]
        return all(
            each.method == self.looked.asked.sizing.method or (bool(last) and last[0][0] in self.below(each.at)) for each in after
        )

    def at_the_end(self, claim: Claim, above: Sequence[Claim]) -> Claim:
        """A claim behind all others whose label may be of several lines, at the one that rests on all others of them."""
        taken = {each.at for each in above}
        last = [each for each in claim.places if all(self.rests_on(each, other) for other in claim.places)]
        return _at(claim, last[0] if last and last[0] not in taken else None)


def _at(claim: Claim, place: tuple[str, str] | None) -> Claim:
    """A claim at one of the lines that it may be for; as it was where that is none."""
    if place is None:
        return claim
    also = tuple(each for each in claim.places if each != place)
    return replace(claim, line=place[0], item=place[1], also=also, unsure=False)
