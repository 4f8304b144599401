"""Findings on figures: what stands behind those that are wrong, and those of which nothing is known but that they are."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from functools import partial

from dwellcalc.decide.sections import of_method, that_apply
from dwellcalc.evaluate.gathering import Value
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language.reach import behind
from dwellcalc.language.tree import CheckedLine, ReadField
from dwellcalc.language.words import COMBINING, SEVERITIES
from dwellcalc.review.claims import Claim
from dwellcalc.review.finding import CODE, ERROR, QUESTION, Finding
from dwellcalc.review.judged import Judged, judged
from dwellcalc.review.labels import listed
from dwellcalc.review.looked import Looked, line_of
from dwellcalc.review.of_outcome import OF_FIGURE, on_outcome
from dwellcalc.review.of_supply import OfSupply
from dwellcalc.review.reasons import Said
from dwellcalc.review.row_lines import narrowest_with_load
from dwellcalc.review.search import Explanation, Pair, Search, SearchResult
from dwellcalc.review.slips import slip_told
from dwellcalc.review.suspects import MISTAKE, READING, Suspect, Suspects, choices_of
from dwellcalc.review.tie_out import Printer

SUM = COMBINING[0]
OF_TWO = "whether this is how the figures were made, or their working"


class FigureFindings:
    """Makes findings of what a search found.

    Args:
        suspects: the suspects that were tried, with their rule set.
        search: the search, with what the rule set makes of the claims.
        found: what the search found.
        left_aside: the labels of rows of which nothing is known; with such, no figure is called wrong for itself.
        reasons: why rows count a load at less than its rating, by label.
        apart: what is told of rows that leave out one of two loads which never run together, by label.
        elsewhere: the sections of parts of the method that do not apply.
        supply: what is to be put right of the supply.
    """

    def __init__(
        self,
        suspects: Suspects,
        search: Search,
        found: SearchResult,
        left_aside: Sequence[str] = (),
        reasons: Mapping[str, Said] | None = None,
        apart: Mapping[str, str] | None = None,
        elsewhere: Collection[str] = (),
        supply: OfSupply | None = None,
    ) -> None:
        self.supply = supply or OfSupply()
        self.elsewhere = elsewhere
        self.apart = apart or {}
        self.reasons = reasons or {}
        self.left_aside = listed(left_aside)
        self.suspects = suspects
        self.rules = suspects.rules
        self.asked = search.asked
        self.view, self.search = search.base, search
        self.below = {claim: sorted(below, key=search.order.__getitem__) for claim, below in search.below.items()}
        self.found = found
        self.printer = Printer(self.rules)
        self.every = list(dict.fromkeys(each for explanation in found.explanations for each in explanation.suspects))
        self.about: dict[str, list[Claim]] = {}  # the figures that each finding is about, by its id
        self.behind: dict[str, set[str]] = {}  # the mistakes and readings by which these are explained, by its id

    def findings(self) -> list[Finding]:
        """The findings, in the order of the claims."""
        return [
            *(self.explained(each) for each in self.found.explanations),
            *(self.bare(each) for each in self.found.unexplained),
        ]

    # explained

    def explained(self, explanation: Explanation) -> Finding:
        """The finding of an explanation."""
        suspects = explanation.suspects
        claims, first = explanation.explains, suspects[0]
        effect = partial(self.effect, suspects, self.apart_from(claims))
        made = Finding(
            f"{first.kind} {' and '.join(each.id for each in suspects)} at {_place(claims[0])}",
            min((each.severity for each in suspects), key=SEVERITIES.index),
            CODE if CODE in {each.status for each in suspects} else first.status,
            first.kind,
            self.printer.title(claims[0]),
            self.said(suspects, len(claims), by_chance=explanation.by_chance and not claims[0].load, beside=explanation.beside),
            ", ".join(dict.fromkeys(map(self.cited, suspects))),
            [self.printer.figure(claim, self.view.values[claim.at]) for claim in claims],
            " and ".join(each for one in suspects if (each := one.sent({claim.load for claim in claims}, self.asked.facts))),
        )
        self.about.setdefault(made.id, []).extend(claims)
        if len(suspects) == 1:
            self.behind[made.id] = {each.id for one in (suspects, *explanation.equal) for each in one if len(one) == 1}
        if self.left_aside and any(map(self.rests_on_loads, claims)):
            made.severity = QUESTION
            made.text = f"{made.text} {self.of_aside()}"
        made.put_right = made.figures[0].computed if len(claims) == 1 and claims[0].row else ""
        of_one = claims[0] if len(claims) == 1 else None
        # of a sum, as it follows from the rows as submitted: another row that is wrong has a comment of its own
        by_rows = {} if self.found.is_shared(suspects) else self.view.following
        by_itself = None if of_one is None else by_rows.get(of_one.at, self.view.values[of_one.at])
        self.tell_effect(made, effect, of_one, by_itself)
        if of_one is not None and self.printer.value(of_one, by_itself) != made.figures[0].computed:
            made.figures[0].by_itself = self.printer.value(of_one, by_itself)
        if len(suspects) == 1 and first.kind == MISTAKE and any(map(self.is_sum, claims)):
            made.heading = _capital(first.done)
        told = dict.fromkeys(map(_joined, explanation.equal))
        made.equal = [each for each in told if not each.startswith(_joined(suspects))]  # what only adds to it tells nothing
        if len(suspects) > 1:
            made.causes, made.severity, made.send = self.causes(suspects), QUESTION, OF_TWO
        self.give_reason(made, claims[0], self.view.values[claims[0].at])
        if all(address in self.asked.choices for each in suspects for address, _ in each.choices) and first.kind == READING:
            made.about, made.severity = "mistake", ERROR  # the reviewer has said how it is read
        return made

    def is_sum(self, claim: Claim) -> bool:
        """Whether a figure is made of others, so that its label does not say what went wrong."""
        line = line_of(self.rules, claim.line)
        assert line is not None
        results = self.rules.methods[self.asked.method].results.values()
        return not claim.load and (line.source.way == SUM or claim.adds_up or any(line is each for each in results))

    def said(self, suspects: Pair, figures: int, *, by_chance: bool, beside: Suspect | None = None) -> str:
        """What was done and what is right, in sentences; of a figure that many mistakes come near to, what would give it."""
        results = "would result" if by_chance else "results" if figures == 1 else "result"
        perhaps = "; this may be chance, since several mistakes come near a figure that is printed so" if by_chance else ""
        perhaps += f", and {beside.done}, as is told of another figure" if beside is not None else ""
        done = f"The submitted figure{'' if figures == 1 else 's'} {results} where {_joined(suspects)}{perhaps}."
        right = [
            f"By {self.cited(each)}, {each.right}." if each.kind != READING else f"{_capital(each.right)} ({self.cited(each)})."
            for each in suspects
        ]
        return " ".join([done, *right])

    def causes(self, suspects: Pair) -> list[str]:
        """What was done and what is right, for each suspect by itself."""
        return [f"{_capital(each.done)}. {_capital(each.right)} ({self.cited(each)})." for each in suspects]

    def cited(self, suspect: Suspect) -> str:
        """The sections of a suspect that are of the method."""
        return that_apply(of_method(suspect.section, self.asked.method, self.rules), self.elsewhere)

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
        said = on_outcome(self.rules, self.asked, claim, self.beside(claim), self.printer.section(claim), self.supply)
        if said is not None:
            self.about.setdefault(said.id, []).append(claim)
            return said
        line = line_of(self.rules, claim.line)
        assert line is not None
        submitted, follows = self.printer.submitted(claim), self.printer.value(claim, value)
        added = line.source.way == SUM and not claim.adds_up
        of_load = f"At the rating given this load counts {follows} by the section, not {submitted}."
        text = of_load if claim.load else f"From the ratings given and the other figures we find {follows}, not {submitted}."
        if added:
            text = f"The parts add up to {follows}, not to {submitted}."
        elif claim.adds_up:
            text = f"The rows above do add up to this figure; by the section and the other figures it is {follows}."
        elif claim.value == 0:
            text = "The row counts nothing for this load, and we find no reason by which it may be left out."
        text = slip_told(claim, value, self.search, self.printer, self.cited) or text
        if _exchanged(submitted, follows):
            text += " Two digits may have been exchanged."
        text += self.by_one_figure(claim, value, added_up(line)) if added else ""
        if self.left_aside:
            text += f" {self.of_aside()}"
        made = Finding(
            f"{OF_FIGURE}{_place(claim)}",
            QUESTION if self.left_aside else ERROR,
            CODE,
            "sum" if added else "figure",
            self.printer.title(claim),
            text,
            self.section(claim),
            [self.printer.figure(claim, self.view.values[claim.at])],
            "the calculation with this load, or the reason why it may be left out"
            if claim.leaves_out
            else "the working of this figure",
        )
        self.give_reason(made, claim, value)
        self.about.setdefault(made.id, []).append(claim)
        if self.left_aside:
            return made
        made.put_right = follows
        self.tell_effect(made, partial(self.effect_of_figure, claim, self.beside(claim)), claim, value)
        return made

    # both

    def section(self, claim: Claim) -> str:
        """The section of a figure; of a load among others that of the line that adds them up."""
        if claim.load and claim.item and claim.method == self.asked.method:
            line = narrowest_with_load(self.rules, claim.method, Looked(self.rules, self.asked).evaluation(), claim.load)
            if line is not None:
                return that_apply(self.rules.section(str(line.source.cite)), self.elsewhere)
        return that_apply(self.printer.section(claim), self.elsewhere)

    def effect_of_figure(self, claim: Claim, beside: list[Claim]) -> tuple[Judged, Judged]:
        """The amperes and the verdict with a figure as it stands, and with it put right; the figures beside it stand."""
        return judged(self.rules, self.asked, told=[*beside, claim]), judged(self.rules, self.asked, told=beside)

    def tell_effect(self, made: Finding, effect: Callable[[], tuple[Judged, Judged]], claim: Claim | None, value: Value) -> None:
        """What a finding comes to, in amperes and in volt-amperes, and by how much its one figure is another.

        Where larger supply conductors are asked for, the outcome with these is told too.
        """
        before, after = effect()
        if self.supply.asked is not None:
            with self.supply.put_right(self.asked.facts):
                made.supply_before, made.supply_after = (each.verdict for each in effect())
        made.effect_amperes, made.effect_load = after.more_than(before), after.load_more_than(before)
        made.verdict_before, made.verdict_after = before.verdict, after.verdict
        line = None if claim is None else line_of(self.rules, claim.line)
        total = next(iter(self.rules.methods[self.asked.method].results.values()), None)
        is_load = line is not None and total is not None and line is not total and line.kind == total.kind
        if claim is not None and is_load and isinstance(value, float) and isinstance(claim.value, float):
            made.difference = value - claim.value

    def give_reason(self, made: Finding, claim: Claim, value: Value) -> None:
        """Add the reason that the submittal gives for a load that it counts at less, and ask for what shows it."""
        said = self.reasons.get(claim.label) if claim.load else None
        if said is None or not isinstance(value, float) or not isinstance(claim.value, float) or claim.value >= value:
            return
        made.equal = made.equal if claim.value else []
        begin = made.text if claim.value else f"The row counts nothing for this load; {said.where}."
        gives = f" {said.where[:1].upper()}{said.where[1:]}." if claim.value else ""
        told = said.reason.told_of_setting if said.is_set else said.reason.told
        made.text = f"{begin}{gives} {self.apart.get(claim.label, told)}."
        made.section = ", ".join(dict.fromkeys([made.section, self.rules.section(said.reason.cite)]))
        made.send = said.reason.send

    def of_aside(self) -> str:
        """That rows were left aside, so that a comment on a figure is not certain."""
        return f"The reason may be a row that we could not identify and left aside: {self.left_aside}."

    def rests_on_loads(self, claim: Claim) -> bool:
        """Whether a figure may be another with a load more: it rests on loads and is not of one alone."""
        line = line_of(self.rules, claim.line)
        of_one = claim.row and bool(claim.item)
        return (
            line is not None and not of_one and any(isinstance(each, ReadField) and each.level == LOADS for each in behind(line))
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
