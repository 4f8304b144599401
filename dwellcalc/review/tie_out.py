"""Each claim beside the line that it is for: the same, following from figures that are not, different, or open."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field

from dwellcalc.decide.sections import that_apply
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.gathering import Value
from dwellcalc.evaluate.traced import plan_of
from dwellcalc.facts import NotApplicable, Unknown
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.review.claims import Claim
from dwellcalc.review.finding import Figure
from dwellcalc.review.looked import line_of
from dwellcalc.review.search import View

AGREES, FOLLOWS, DIFFERS, CANNOT = "agrees", "follows from other figures", "differs", "cannot be calculated"
TAKEN = "differs, and is taken as submitted"  # where the reviewer has struck the comment on it


@dataclass(slots=True)
class TiedClaim:
    """A claim in print beside the computed value.

    Attributes:
        label, line, item, title, section: as of the claim and its line.
        cited: the section that the submittal cites, or empty.
        submitted: as printed.
        computed: the value of the line.
        following: the value that follows from the other figures of the submittal, where that is another.
        outcome: what came of it.
        how: how the label was matched.
        missing: what is not known, where it cannot be calculated.
    """

    label: str
    line: str
    item: str
    title: str
    section: str
    cited: str
    submitted: str
    computed: str
    following: str
    outcome: str
    how: str
    missing: list[str] = field(default_factory=list)


class Printer:
    """Prints values of lines of a rule set."""

    def __init__(self, rules: RuleSet) -> None:
        self.rules = rules

    def value(self, claim: Claim, value: Value | None) -> str:
        """A value of the line that a claim is for."""
        line = line_of(self.rules, claim.line)
        assert line is not None
        assert line.kind is not None
        if value is None or isinstance(value, Unknown):
            return "unknown"
        if isinstance(value, NotApplicable):
            return "does not apply"
        return printed.value(value, line.kind, self.rules.glossary)

    def submitted(self, claim: Claim) -> str:
        """What a claim says, written as the computed value is unless it is in another unit or has more decimals."""
        shown = self.value(claim, claim.value)
        bare = "".join(claim.text.split()).replace(",", "")
        same = (shown.replace(",", "").replace(" ", ""), shown.partition(" ")[0].replace(",", ""))
        return shown if bare in same else claim.text

    def title(self, claim: Claim) -> str:
        """The title of the line that a claim is for."""
        line = line_of(self.rules, claim.line)
        assert line is not None
        return plan_of(self.rules).title(line)

    def section(self, claim: Claim) -> str:
        """The section of that line."""
        line = line_of(self.rules, claim.line)
        assert line is not None
        return self.rules.section(str(line.source.cite))

    def figure(self, claim: Claim, value: Value | None) -> Figure:
        """A claim beside a value."""
        return Figure(claim.label, claim.line, claim.item, self.title(claim), self.submitted(claim), self.value(claim, value))


def is_open(claim: Claim, view: View) -> bool:
    """Whether the line of a claim cannot be calculated from what is given."""
    return isinstance(view.values[claim.at], Unknown)


def tied(
    claims: Sequence[Claim], view: View, wrong: Iterable[Claim], rules: RuleSet, elsewhere: Collection[str] = ()
) -> list[TiedClaim]:
    """Every claim beside its line.

    Args:
        claims: the claims in their order.
        view: what the rule set makes of them.
        wrong: those in which something went wrong.
        rules: the rule set.
        elsewhere: the sections of parts of the method that do not apply.
    """
    printer, differing = Printer(rules), set(wrong)
    found = []
    for claim in claims:
        value = view.values[claim.place_in(view.values)]
        following = printer.value(claim, view.following.get(claim.at, value))
        computed, outcome = printer.value(claim, value), _outcome(claim, view, differing)
        entry = TiedClaim(
            claim.label,
            claim.line,
            claim.item,
            printer.title(claim),
            that_apply(printer.section(claim), elsewhere),
            claim.section,
            printer.submitted(claim),
            computed,
            "" if following == computed or outcome == AGREES else following,
            outcome,
            claim.how,
        )
        if isinstance(value, Unknown):
            entry.missing = sorted(value.inputs | value.refusals)
        found.append(entry)
    return found


def _outcome(claim: Claim, view: View, differing: set[Claim]) -> str:
    if claim in view.met:
        return AGREES
    if is_open(claim, view):
        return CANNOT
    return DIFFERS if claim in differing else FOLLOWS
