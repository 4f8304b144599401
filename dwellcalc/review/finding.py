"""What a review finds: one comment with its weight, its section, the figures that it is about, and its effect."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import inf

from dwellcalc.language.words import SEVERITIES

ERROR, REMARK, QUESTION = SEVERITIES
CODE, POLICY = "code", "policy"
NOT_MATCHED = "not matched"  # what a finding on a row of which nothing is known is about
RATING_SHORT = "rating"  # of one on a supply that the corrected load passes, though the submitted one does not
WOULD_CHANGE = "What would change this"  # the part of the letter with ways out
EVIDENCE = "evidence: "  # how the id of a question for evidence begins
OUTCOME_SAID = "outcome said"  # of one on what the submittal says of the outcome, against its own figures


@dataclass(slots=True)
class Figure:
    """A figure of the submittal beside the computed one, both in print.

    ``by_itself`` is what it comes to with the comment put right and the other figures as submitted, where that is another.
    """

    label: str
    line: str
    item: str
    title: str
    submitted: str
    computed: str
    by_itself: str = ""


@dataclass(slots=True)
class Finding:
    """One comment.

    Attributes:
        id: the same in every review of the submittal in which it is found.
        severity: error, remark or question.
        status: whether code or policy stands behind it.
        about: what kind of comment it is, such as `mistake` or `evidence`.
        title: in short.
        text: in sentences.
        section: the section that it rests on, or empty.
        figures: the figures that it is about.
        send: what to send, as a clause, or empty.
        put_right: the value, in print, that the one figure has with it corrected, or empty.
        effect_amperes: how much larger the load is [A] with it corrected, where that is known.
        difference: how much larger the one figure is with it corrected, where both are loads [VA].
        effect_load: how much larger the load is then [VA], which a demand factor may lessen.
        verdict_before, verdict_after: the verdict as submitted and with it corrected, where both are known.
        supply_before, supply_after: the same with the supply conductors that are asked for, where such are.
        equal: other explanations of the same figures, each in a sentence.
        causes: where several things together stand behind the figures, each in sentences of its own.
        weight: of a comment of the reviewer, what it is said to be, in print; or empty.
        reworded_from: the words of the review, where the reviewer has put it in others; or empty.
        stays: what of the text is figures, which stay where the reviewer puts the comment in other words; or empty.
        answered_by: of a question, the key of the submittal file that answers it, for the reviewer; or empty.
        heading: what went wrong, where the label of its figure, such as that of a sum, does not say it; or empty.
    """

    id: str
    severity: str
    status: str
    about: str
    title: str
    text: str
    section: str = ""
    figures: list[Figure] = field(default_factory=list)
    send: str = ""
    put_right: str = ""
    effect_amperes: float | None = None
    difference: float | None = None
    effect_load: float | None = None
    verdict_before: str = ""
    verdict_after: str = ""
    supply_before: str = ""
    supply_after: str = ""
    equal: list[str] = field(default_factory=list)
    causes: list[str] = field(default_factory=list)
    heading: str = ""
    weight: str = ""
    reworded_from: str = ""
    answered_by: str = ""
    stays: str = ""

    @property
    def printed_title(self) -> str:
        """The submittal's own label where it is on figures; else what it is about; before a number a word."""
        if self.heading:
            return self.heading
        labels = [each.label for each in self.figures if each.label not in (each.line, each.line.partition(".")[2])]
        alike = len({each.casefold() for each in labels}) < len(set(labels))  # such as TOTAL and Total
        labels = [f"{each.label} ({each.title})" for each in self.figures] if alike else labels
        title = ", ".join(dict.fromkeys(labels)) or self.title
        return f"Row {title}" if title[:1].isdigit() else title

    @property
    def changes_verdict_of_supply(self) -> bool:
        """Whether the verdict is another with it corrected, where the supply conductors are put right as well."""
        return self.supply_before != self.supply_after

    @property
    def changes_verdict(self) -> bool:
        """Whether the verdict is another with it corrected."""
        return self.verdict_before != self.verdict_after


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """Findings as a reviewer reads them: errors, remarks, questions, each by effect, those first that change the verdict.

    With these stand those of an effect as large, which would change it too if they stood alone.

    Before all stands an outcome that the submittal's own figures contradict, and then the rows that were left aside: with such,
    nothing else is certain.
    """
    findings = list(findings)
    turning: dict[str, float] = {}
    for each in findings:
        if (each.changes_verdict or each.changes_verdict_of_supply) and each.effect_amperes:
            least = turning.get(each.verdict_after, inf)
            turning[each.verdict_after] = min(least, abs(each.effect_amperes))

    def weight(finding: Finding) -> tuple[bool, bool, bool, int, float]:
        return (
            finding.about != OUTCOME_SAID,
            finding.about != NOT_MATCHED,
            not (
                finding.changes_verdict
                or finding.changes_verdict_of_supply
                or (finding.effect_amperes or 0) > turning.get(finding.verdict_after, inf)
            ),
            SEVERITIES.index(finding.severity),
            -abs(finding.effect_amperes or 0),
        )

    return sorted(findings, key=weight)
