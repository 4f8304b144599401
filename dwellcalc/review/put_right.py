"""The load of a submittal as its figures stand, and with the comments on figures put right one after another.

The effect of a comment is told by itself; effects do not add up where a demand factor or the larger of two stands between
them. So the comments are put right in their order too: the last step is the load by the rules.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence, Set
from dataclasses import replace

from dwellcalc.decide.document import FITS, OPEN
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.review.claims import Claim
from dwellcalc.review.document import PutRight, Step
from dwellcalc.review.finding import Finding
from dwellcalc.review.judged import judged_in
from dwellcalc.review.looked import Looked, line_of
from dwellcalc.review.of_figures import FigureFindings
from dwellcalc.review.of_supply import OfSupply
from dwellcalc.review.search import Explanation, Search
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.suspects import Suspect
from dwellcalc.review.tie_out import Printer


class PuttingRight:
    """Puts comments right, one after another.

    A wrong figure that rests on others that are wrong keeps, while they are put right, by how much it is off from what
    follows from them: a total with a slip of addition grows with its parts.

    Args:
        submittal: as it was read.
        search: what the rule set makes of its claims, and which of them rest on which.
        supply: what is to be put right of the supply; the verdicts are with that.
        of_figures: the comments on figures: which figures each is about, and what explains them.
        lacking: whether loads are lacking, so that a load that fits says nothing.
    """

    def __init__(
        self, submittal: Submittal, search: Search, supply: OfSupply, of_figures: FigureFindings, *, lacking: bool
    ) -> None:
        self.submittal = submittal
        self.supply = supply
        self.about, self.search = of_figures.about, search
        self.explained = _also_behind(of_figures.found.explanations)
        self.wrong = {each for each in search.base.wrong if not isinstance(each.value, bool)}  # the verdict of a step is its own
        self.lacking = lacking
        self.line = submittal.rules.methods[submittal.method].results.get(submittal.instructions.total)
        self.sizing = submittal.instructions.sizing.method
        of_load = [each for each in search.claims if each in self.wrong and each.method != self.sizing]
        self.leaves = [each for each in of_load if not search.below[each] & self.wrong]
        self.upper = sorted((each for each in of_load if each not in self.leaves), key=lambda each: len(search.below[each]))
        self.off: dict[Claim, float] = {}  # by how much each of the upper ones is off, in the unit of its line

    def put_right(self, findings: Iterable[Finding]) -> PutRight | None:
        """The steps, or nothing where no figure is wrong or the load is not known.

        Args:
            findings: in the order in which they are put right.
        """
        with self.supply.put_right(self.submittal.asked.facts):
            return self._put_right(findings)

    def _put_right(self, findings: Iterable[Finding]) -> PutRight | None:
        left = set(self.wrong)
        first = self.step("", left)
        if not left or first is None:
            return None
        steps = [first]
        for finding in findings:
            claims = left & set(self.about.get(finding.id, ()))
            if claims:
                left -= claims
                step = self.step(finding.id, left)
                if step is None:
                    return None
                steps.append(step)
        return PutRight(steps, *self.not_explained(first))

    def as_submitted(self, ids: Iterable[str]) -> Step | None:
        """The load with the figures of some comments as they stand and all else as it is computed; nothing where it is not known."""
        return self.step("", self.wrong & {claim for each in ids for claim in self.about.get(each, ())})

    def step(self, put_right: str, told: set[Claim]) -> Step | None:
        """The load with some figures as they stand and all else as it is computed; nothing where it is not known."""
        looked = Looked(self.submittal.rules, self.submittal.asked)
        evaluation = looked.evaluation()
        looked.take(evaluation, [self.as_told(each, told) for each in self.leaves if each in told])
        for claim in self.upper:
            if claim in told:
                self.keep_off(looked, evaluation, self.as_told(claim, told))
        total = None if self.line is None else evaluation.line(self.line)
        found = judged_in(looked, evaluation, [each for each in told if each.method == self.sizing])
        if not isinstance(total, float) or found.amperes is None:
            return None
        return Step(put_right, total, found.amperes, OPEN if self.lacking and found.verdict == FITS else found.verdict)

    def as_told(self, claim: Claim, told: Set[Claim]) -> Claim:
        """A wrong figure as it would stand where of two mistakes behind it that which is told of other figures is put right."""
        own, others = self.explained.get(claim, ((), frozenset()))
        view = self.search.viewed(own) if own and not others & told else None
        value = None if view is None else view.values.get(claim.at)
        return replace(claim, value=value) if isinstance(value, float) else claim

    def keep_off(self, looked: Looked, evaluation: Evaluation, claim: Claim) -> None:
        """Put a figure into an evaluation, off from what follows there by as much as it was at first."""
        line = line_of(looked.rules, claim.line)
        item = None if line is None else looked.item(line, claim.item)
        if line is None or item is None or not looked.holds(evaluation, line, item):
            return
        follows = evaluation.value(line.position, item)
        if isinstance(claim.value, float) and isinstance(follows, float):
            evaluation.cells[line.position][item] = follows + self.off.setdefault(claim, claim.value - follows)
        else:
            evaluation.cells[line.position][item] = claim.value

    def not_explained(self, first: Step) -> tuple[str, str, float]:
        """The submitted total and what follows for it from the figures, both in print, and the difference [VA]; or nothing."""
        for claim in self.submittal.claims:
            if self.line is not None and claim.line == self.line.id and isinstance(claim.value, float):
                if claim.met_by(first.total):
                    break
                printer = Printer(self.submittal.rules)
                return printer.submitted(claim), printer.value(claim, first.total), claim.value - first.total
        return "", "", 0.0


def _also_behind(explanations: Sequence[Explanation]) -> dict[Claim, tuple[tuple[Suspect, ...], frozenset[Claim]]]:
    """Of figures with two mistakes behind them: the mistake that they are told of, and the figures that tell of the other."""
    found: dict[Claim, tuple[tuple[Suspect, ...], frozenset[Claim]]] = {}
    for each in explanations:
        others = [claim for one in explanations if each.beside in one.suspects for claim in one.explains]
        found |= dict.fromkeys(each.explains if each.beside is not None else (), (each.suspects, frozenset(others)))
    return found
