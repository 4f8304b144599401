"""Findings on figures: what stands behind those that are wrong, and those of which nothing is known but that they are."""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.evaluate.gathering import Value
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language.reach import reached
from dwellcalc.language.tree import CheckedLine, ReadField
from dwellcalc.language.words import COMBINING, SEVERITIES
from dwellcalc.review.claims import Claim
from dwellcalc.review.finding import CODE, ERROR, QUESTION, Finding
from dwellcalc.review.judged import Judged, judged
from dwellcalc.review.labels import listed
from dwellcalc.review.looked import line_of
from dwellcalc.review.search import Explanation, Pair, Search, SearchResult
from dwellcalc.review.suspects import READING, Suspect, Suspects, choices_of
from dwellcalc.review.tie_out import Printer

SUM = COMBINING[0]


class FigureFindings:
    """Makes findings of what a search found.

    Args:
        suspects: the suspects that were tried, with their rule set.
        search: the search, with what the rule set makes of the claims.
        found: what the search found.
        left_aside: the labels of rows of which nothing is known; with such, no figure is called wrong for itself.
    """

    def __init__(self, suspects: Suspects, search: Search, found: SearchResult, left_aside: Sequence[str] = ()) -> None:
        self.left_aside = listed(left_aside)
        self.suspects = suspects
        self.rules = suspects.rules
        self.asked = search.asked
        self.view = search.base
        self.below = {claim: sorted(below, key=search.order.__getitem__) for claim, below in search.below.items()}
        self.found = found
        self.printer = Printer(self.rules)
        every = [each for explanation in found.explanations for each in explanation.suspects]
        self.every = list(dict.fromkeys(every))
        self.about: dict[str, list[Claim]] = {}  # the figures that each finding is about, by its id

    def findings(self) -> list[Finding]:
        """The findings, in the order of the claims."""
        return [
            *(self.explained(each) for each in self.found.explanations),
            *(self.bare(each) for each in self.found.unexplained),
        ]

    def readings_told(self) -> set[str]:
        """The addresses of the readings that stand behind figures, of which the comments tell the outcome."""
        return {address for each in self.every for address, _ in each.choices}

    # explained

    def explained(self, explanation: Explanation) -> Finding:
        """The finding of an explanation."""
        suspects = explanation.suspects
        claims, first = explanation.explains, suspects[0]
        before, after = self.effect(suspects, self.apart_from(claims))
        made = Finding(
            f"{first.kind} {' and '.join(each.id for each in suspects)} at {_place(claims[0])}",
            min((each.severity for each in suspects), key=SEVERITIES.index),
            CODE if CODE in {each.status for each in suspects} else first.status,
            first.kind,
            self.printer.title(claims[0]),
            self.said(suspects, len(claims)),
            ", ".join(dict.fromkeys(each.section for each in suspects)),
            [self.printer.figure(claim, self.view.values[claim.at]) for claim in claims],
            " and ".join(each.send for each in suspects if each.send),
        )
        self.about.setdefault(made.id, []).extend(claims)
        if self.left_aside and any(map(self.rests_on_loads, claims)):
            made.severity = QUESTION
            made.text = f"{made.text} {self.of_aside()}"
        made.put_right = made.figures[0].computed if len(claims) == 1 and claims[0].row else ""
        made.effect_amperes = after.more_than(before)
        made.verdict_before, made.verdict_after = before.verdict, after.verdict
        made.equal = [_joined(each) for each in explanation.equal]
        if all(address in self.asked.choices for each in suspects for address, _ in each.choices) and first.kind == READING:
            made.about, made.severity = "mistake", ERROR  # the reviewer has said how it is read
        return made

    def said(self, suspects: Pair, figures: int) -> str:
        """What was done and what is right, in sentences."""
        this = "This figure results" if figures == 1 else "These figures result"
        done = f"{this} where {_joined(suspects)}."
        right = [
            f"By {each.section}, {each.right}." if each.kind != READING else f"{_capital(each.right)} ({each.section})."
            for each in suspects
        ]
        return " ".join([done, *right])

    def apart_from(self, claims: Sequence[Claim]) -> list[Claim]:
        """The figures that nothing explains and that rest on none of some others: they stay as they were submitted."""
        found = [each for each in self.found.unexplained if each.method != self.asked.sizing.method]
        return [each for each in found if not set(claims) & set(self.below[each])]

    def effect(self, suspects: Pair, told: Sequence[Claim]) -> tuple[Judged, Judged]:
        """The amperes and the verdict with all that was found in it, and with these put right; some figures as they stand."""
        rest = [each for each in self.every if each not in suspects]
        before, after = self.with_suspects(self.every, told), self.with_suspects(rest, told)
        if before is None or after is None:  # not all can stand together: each by itself
            alone, right = self.with_suspects(suspects, told), judged(self.rules, self.asked, told=told)
            return alone if alone is not None else right, right
        return before, after

    def with_suspects(self, suspects: Sequence[Suspect], told: Sequence[Claim]) -> Judged | None:
        """The amperes and the verdict with some suspects taken for true, and some figures as they stand."""
        rules = self.suspects.rules_with(suspects)
        return None if rules is None else judged(rules, self.asked, choices_of(suspects), told)

    # not explained

    def bare(self, claim: Claim) -> Finding:
        """The finding of a figure that nothing explains."""
        value = self.view.following.get(claim.at, self.view.values[claim.at])
        line = line_of(self.rules, claim.line)
        assert line is not None
        submitted, follows = self.printer.submitted(claim), self.printer.value(claim, value)
        added = line.source.way == SUM and not claim.adds_up
        text = f"From what is given and from the other figures {follows} follows, not {submitted}."
        if added:
            text = f"The parts add up to {follows}, not to {submitted}."
        elif claim.adds_up:
            text = f"It is what the rows above it add up to; by the section and the other figures {follows} follows."
        elif claim.value == 0:
            text = f"It is left out: it is counted as nothing, and nothing says why. {follows} follows from what is given."
        if _exchanged(submitted, follows):
            text += " Two digits may have been exchanged."
        text += self.by_one_figure(claim, value, added_up(line)) if added else ""
        if self.left_aside:
            text += f" {self.of_aside()}"
        made = Finding(
            f"figure at {_place(claim)}",
            QUESTION if self.left_aside else ERROR,
            CODE,
            "sum" if added else "figure",
            self.printer.title(claim),
            text,
            self.printer.section(claim),
            [self.printer.figure(claim, self.view.values[claim.at])],
            "why it is left out, or the calculation with it" if claim.leaves_out else "how this figure was reached",
        )
        self.about.setdefault(made.id, []).append(claim)
        if self.left_aside:
            return made
        made.put_right = follows
        beside = self.beside(claim)
        before, after = (judged(self.rules, self.asked, told=each) for each in ([*beside, claim], beside))
        made.effect_amperes = after.more_than(before)
        made.verdict_before, made.verdict_after = before.verdict, after.verdict
        return made

    def of_aside(self) -> str:
        """That rows were left aside, so that a comment on a figure is not certain."""
        return f"Rows of which nothing is known were left aside, which may be why: {self.left_aside}."

    def rests_on_loads(self, claim: Claim) -> bool:
        """Whether a figure may be another with a load more: it rests on loads and is not of one alone."""
        line = line_of(self.rules, claim.line)
        of_one = claim.row and bool(claim.item)
        return (
            line is not None
            and not of_one
            and any(isinstance(each, ReadField) and each.level == LOADS for each in reached([line]))
        )

    def beside(self, claim: Claim) -> list[Claim]:
        """The other figures of the load as they stand, but for those that rest on a figure."""
        others = [each for each in self.below if each.at != claim.at and claim not in self.below[each]]
        return [each for each in others if each.method != self.asked.sizing.method]

    def by_one_figure(self, claim: Claim, value: Value, parts: set[str]) -> str:
        """Which of the parts of a sum makes the difference, if one does: it may have been left out or counted twice."""
        if not isinstance(value, float) or not isinstance(claim.value, float):
            return ""
        missing = value - claim.value
        for other in self.below[claim]:
            if (
                other.line in parts
                and isinstance(other.value, float)
                and other.value
                and abs(abs(missing) - other.value) < claim.step + other.step
            ):
                done = "left out" if missing > 0 else "counted twice"
                return f" The difference is the figure of {other.label}, which may have been {done}."
        return ""


def added_up(line: CheckedLine) -> set[str]:
    """The lines that a sum adds up, those of sums within it too."""
    found: set[str] = set()
    for part in line.parts if line.source.way == SUM else ():
        found |= {part.line.id} | added_up(part.line)
    return found


def _joined(suspects: Pair) -> str:
    return ", and ".join(each.done for each in suspects)


def _place(claim: Claim) -> str:
    return f"{claim.line} of {claim.item}" if claim.item else claim.line


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def _exchanged(one: str, other: str) -> bool:
    """Whether two figures have the same digits in another order, in two places."""
    digits = [[each for each in text if each.isdigit()] for text in (one, other)]
    if len(digits[0]) != len(digits[1]) or sorted(digits[0]) != sorted(digits[1]):
        return False
    return [a != b for a, b in zip(*digits, strict=True)].count(True) == 2
