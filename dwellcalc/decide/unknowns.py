"""Inputs that are known only between bounds, or not at all: what the supply must carry, the verdict, and what decides it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from dwellcalc.decide.basis import waits
from dwellcalc.decide.changed import LOADS
from dwellcalc.decide.choices import interpretations
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN, SupplyResult
from dwellcalc.decide.openness import AtEnd, Bounds, Flip, OpenInput, OpenResult, Together, Typical
from dwellcalc.decide.ranged import FITTING, REQUIRED, SMALLEST, TOTAL, RangedSupply, Sight
from dwellcalc.decide.sections import of_method
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.up_to import largest_that_fits, up_to, verdict_of
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.bounds import facts_with
from dwellcalc.evaluate.pieces import Enclosure, Pieces
from dwellcalc.evaluate.undecided import Box, narrowed
from dwellcalc.facts import Facts, Input, Unknown
from dwellcalc.home import Supply
from dwellcalc.home.glossary_names import LATER
from dwellcalc.units import WHOLE

SUPPLY, BASIS, RATING = "supply", "basis", "rating"


def at_largest(assessor: SupplyAssessor) -> Supply:
    """The supply with each input that is known between bounds at the value at which the load is largest.

    A supply without such inputs is returned as it is.
    """
    supply = assessor.supply
    ranged = RangedSupply(assessor, supply.facts, assessor.choices)
    if not ranged.inputs:
        return supply
    point = ranged.pieces().enclosed(REQUIRED).highest or tuple((high, high) for _, high in ranged.whole)
    return replace(
        supply, facts=facts_with(supply.facts, {each: low for each, (low, _) in zip(ranged.inputs, point, strict=True)})
    )


def tell_unknowns(assessor: SupplyAssessor, facts: Facts, found: SupplyResult) -> None:
    """Add to a supply's result what its unknown inputs are worth; where they are between bounds the verdict is theirs.

    Args:
        assessor: its assessor, with the facts that the sheet is calculated from.
        facts: the facts with what is known only between bounds.
        found: the result.
    """
    ranged = RangedSupply(assessor, facts, assessor.choices)
    counted = [each for each in ranged.inputs if not _comes_later(each, facts)]
    if counted and not waits(found, assessor.wanted):
        found.between = _Teller(ranged, found).result()
        found.verdict = found.between.verdict
    found.up_to = up_to(assessor, facts, found)
    found.holds_from = _holds_from(facts, found)


def _comes_later(of: Input, facts: Facts) -> bool:
    """Whether an input is of a load that comes later and is not counted."""
    collection, position, _ = of
    later = facts.collections[collection].fields.get(LATER)
    return collection == LOADS and later is not None and later[position] is True


def bounds_of(found: Enclosure) -> Bounds:
    """Bounds as the document has them."""
    return Bounds(found.low, found.high, found.exact)


class _Teller:
    """Tells what is known of one supply with inputs between bounds."""

    def __init__(self, ranged: RangedSupply, found: SupplyResult) -> None:
        self.ranged = ranged
        self.found = found
        self.names = list(ranged.inputs)
        self.glossary = ranged.facts.glossary

    def result(self) -> OpenResult:
        """All of it."""
        pieces = self.ranged.pieces()
        amperes, va, smallest = (pieces.enclosed(name) for name in (REQUIRED, TOTAL, SMALLEST))
        fitting = pieces.decided(FITTING)
        verdict = verdict_of(fitting)
        flips = self.flips(pieces, verdict)
        inputs = sorted(
            (self.input(item, places, verdict) for item, places in self.items().items()),
            key=lambda each: (not each.settles, -each.moves),
        )
        missing = [] if fitting.missing is None else sorted(fitting.missing.refusals)
        first = next((each.item for each in inputs if each.moves or each.settles), "")
        return OpenResult(
            bounds_of(va),
            bounds_of(amperes),
            verdict,
            not fitting.perhaps,
            bounds_of(smallest),
            self.typical(),
            {each: self.printed(places, self.sheet_point()) for each, places in self.items().items()},
            inputs,
            first,
            self.together(inputs, verdict),
            flips,
            missing,
        )

    def items(self) -> dict[str, list[int]]:
        """The places of the inputs in the box, by the name of their load or area; two numbers of a rating go together.

        Those of loads that come later are left out, since nothing that is counted rests on them.
        """
        found: dict[str, list[int]] = {}
        for at, (collection, position, name) in enumerate(self.names):
            if _comes_later((collection, position, name), self.ranged.facts):
                continue
            found.setdefault(self.ranged.facts.collections[collection].names[position], []).append(at)
        return found

    def sheet_point(self) -> Box:
        """The point that the sheet is calculated at."""
        values = (self.value(each) for each in self.names)
        return tuple((value, value) for value in values)

    def value(self, of: Input) -> float:
        """The value of an input that the sheet is calculated with."""
        collection, position, name = of
        return float(self.ranged.assessor.facts.collections[collection].fields[name][position])

    def printed(self, places: Sequence[int], box: Box, end: int = 0) -> str:
        """Inputs in print, at an end of a box."""
        shown = []
        for at in places:
            collection, _, name = self.names[at]
            kind = self.glossary.collections[collection].fields[name].kind
            if self.ranged.sizes[at]:
                unit = self.glossary.units.printed(kind.unit)
                shown.append(f"{_size(box[at][end])} {unit}")
            else:
                shown.append(printed.value(box[at][end], kind, self.glossary))
        return ", ".join(shown)

    def at_end(self, places: Sequence[int], end: int) -> AtEnd:
        """What the supply must carry with some inputs at an end."""
        box = self.ranged.whole
        for at in places:
            box = narrowed(box, at, box[at][end], box[at][end])
        pieces = self.ranged.pieces(box)
        return AtEnd(bounds_of(pieces.enclosed(REQUIRED)), verdict_of(pieces.decided(FITTING)))

    def input(self, item: str, places: list[int], verdict: str) -> OpenInput:
        """What one load or area is worth."""
        at_low, at_high = (self.at_end(places, end) for end in (0, 1))
        collection, position, name = self.names[places[0]]
        field = self.glossary.collections[collection].fields[name]
        origin = self.ranged.facts.origins.get((collection, position, name))
        typical = [self.ranged.inputs[self.names[at]].typical for at in places]
        ends = [each.amperes.high for each in (at_low, at_high) if each.amperes.high is not None]
        return OpenInput(
            item,
            RATING if field.comes_from == RATING else field.name,
            origin.written if origin is not None else "",
            self.printed(places, self.ranged.whole),
            self.printed(places, self.ranged.whole, 1),
            "" if None in typical else ", ".join(printed.value(each, field.kind, self.glossary) for each in typical),
            at_low,
            at_high,
            max(ends) - min(ends) if ends else 0.0,
            verdict == OPEN and {at_low.verdict, at_high.verdict} != {OPEN},
            self.fits_up_to(places, verdict),
        )

    def fits_up_to(self, places: list[int], verdict: str) -> str:
        """The largest value of one input up to which it fits, in print."""
        if verdict != OPEN or len(places) > 1:
            return ""
        (at,) = places
        kind = self.glossary.collections[self.names[at][0]].fields[self.names[at][-1]].kind
        step = self.ranged.assessor.instructions.unknown_ratings.steps.get(kind.unit)
        found = None if step is None and not self.ranged.sizes[at] else largest_that_fits(self.ranged, at, step or 1)
        return "" if found is None else self.printed(places, narrowed(self.ranged.whole, at, found, found))

    def together(self, inputs: Sequence[OpenInput], verdict: str) -> list[Together]:
        """The fewest inputs, in their order, that settle an open verdict where all of them are at one end."""
        if verdict != OPEN:
            return []
        items, found = self.items(), []
        for end, settled in ((0, FITS), (1, DOES_NOT_FIT)):
            for number in range(1, len(inputs) + 1):
                names = [each.item for each in inputs[:number]]
                at_end = self.at_end([at for name in names for at in items[name]], end)
                if at_end.verdict == settled:
                    found.append(Together(names, end == 1, at_end))
                    break
        return found

    def typical(self) -> Typical | None:
        """The load with what is typical."""
        inputs = list(self.ranged.inputs.values())
        known = [at for at, each in enumerate(inputs) if each.typical is not None]
        if not known:
            return None
        box = tuple((each.low, each.high) if each.typical is None else (each.typical, each.typical) for each in inputs)
        pieces = self.ranged.pieces(box)
        others = [item for item, places in self.items().items() if not set(places) <= set(known)]
        return Typical(bounds_of(pieces.enclosed(REQUIRED)), verdict_of(pieces.decided(FITTING)), others)

    def flips(self, pieces: Pieces, verdict: str) -> list[Flip]:
        """The interpretations under which the verdict is another one; what the sheet tells of each gets its verdict."""
        found = []
        rules = self.ranged.assessor.rules
        read = {address for leaf in pieces.leaves for address in _read(leaf.look)}
        for address, interpretation in interpretations(rules).items():
            if address not in read:
                continue
            part = rules.documents[address.partition(".")[0]]
            verdicts: dict[str, str] = {}
            taken = self.ranged.choices.get(address, str(interpretation.default))
            for option in interpretation.options:
                other = RangedSupply(self.ranged.assessor, self.ranged.facts, {**self.ranged.choices, address: str(option)})
                under = other.pieces()
                verdicts[str(option)] = verdict if option == taken else verdict_of(under.decided(FITTING))
                if verdicts[str(option)] != verdict:
                    question = self.ranged.assessor.plan.filled(interpretation.question, part)
                    basis = self.found.basis.method if self.found.basis is not None else ""
                    cite = of_method(rules.section(str(interpretation.cite)), basis, rules)
                    amperes = bounds_of(under.enclosed(REQUIRED))
                    found.append(Flip(address, question, cite, str(option), amperes, verdicts[str(option)]))
            self.retell(address, verdicts)
        return found

    def retell(self, address: str, verdicts: Mapping[str, str]) -> None:
        """Give the options of an interpretation, told for the sheet, the verdicts for all that the inputs may be."""
        for each in self.found.interpretations:
            if each.address == address:
                for option in each.options:
                    option.verdict = verdicts.get(option.option, option.verdict)
                each.flips = len({option.verdict for option in each.options}) > 1


def _size(value: float) -> str:
    """A size as tables of sizes have it: whole, a fraction, or both."""
    whole, rest = divmod(Fraction(value).limit_denominator(WHOLE), 1)
    return f"{whole} {rest}" if whole and rest else str(whole or rest)


def _read(look: object) -> set[str]:
    """The interpretations that were read for a piece."""
    assert isinstance(look, Sight)
    return {address for each in (*look.made.values(), *look.sized) for address in each.read_choices}


def _holds_from(facts: Facts, found: SupplyResult) -> Bounds | None:
    """The rating from which the load holds, where that of the supply is not known and something is to be compared [A]."""
    sizing = found.sizing
    if found.verdict != OPEN or sizing is None or not isinstance(facts.objects[SUPPLY][RATING], Unknown):
        return None
    if found.between is not None:
        return found.between.minimum_rating
    return Bounds(sizing.minimum_rating, sizing.minimum_rating, attained=True)
