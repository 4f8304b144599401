"""The load of a submittal as its figures stand, and with the comments on figures put right one after another.

The effect of a comment is told by itself; effects do not add up where a demand factor or the larger of two stands between
them. So the comments are put right in their order too: the last step is the load by the rules.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from dwellcalc.decide.document import FITS, OPEN
from dwellcalc.review.claims import Claim
from dwellcalc.review.document import PutRight, Step
from dwellcalc.review.finding import Finding
from dwellcalc.review.judged import judged
from dwellcalc.review.looked import Looked
from dwellcalc.review.search import View
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.tie_out import Printer


class PuttingRight:
    """Puts comments right, one after another.

    Args:
        submittal: as it was read.
        view: what the rule set makes of its claims.
        lacking: whether loads are lacking, so that a load that fits says nothing.
    """

    def __init__(self, submittal: Submittal, view: View, *, lacking: bool) -> None:
        self.submittal = submittal
        self.view = view
        self.lacking = lacking
        self.line = submittal.rules.methods[submittal.method].results.get(submittal.instructions.total)

    def put_right(self, findings: Iterable[Finding], about: Mapping[str, Sequence[Claim]]) -> PutRight | None:
        """The steps, or nothing where no figure is wrong or the load is not known.

        Args:
            findings: in the order in which they are put right.
            about: the figures that each is about, by its id; those of all together are all that are wrong.
        """
        left = set(self.view.wrong)
        first = self.step("", left)
        if not left or first is None:
            return None
        steps = [first]
        for finding in findings:
            claims = left & set(about.get(finding.id, ()))
            if claims:
                left -= claims
                step = self.step(finding.id, left)
                if step is None:
                    return None
                steps.append(step)
        return PutRight(steps, *self.not_explained(first))

    def step(self, put_right: str, told: set[Claim]) -> Step | None:
        """The load with some figures as they stand and all else as it is computed; nothing where it is not known."""
        rules, asked = self.submittal.rules, self.submittal.asked
        looked = Looked(rules, asked)
        evaluation = looked.evaluation()
        looked.take(evaluation, [each for each in told if each.method != asked.sizing.method])
        total = None if self.line is None else evaluation.line(self.line)
        found = judged(rules, asked, told=told)
        if not isinstance(total, float) or found.amperes is None:
            return None
        return Step(put_right, total, found.amperes, OPEN if self.lacking and found.verdict == FITS else found.verdict)

    def not_explained(self, first: Step) -> tuple[str, str, float]:
        """The submitted total and what follows for it from the figures, both in print, and the difference [VA]; or nothing."""
        for claim in self.submittal.claims:
            if self.line is not None and claim.line == self.line.id and isinstance(claim.value, float):
                if claim.met_by(first.total):
                    break
                printer = Printer(self.submittal.rules)
                return printer.submitted(claim), printer.value(claim, first.total), claim.value - first.total
        return "", "", 0.0
