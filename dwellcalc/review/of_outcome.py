"""A comment on what a submittal says of the outcome, where its own figures come to another one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN
from dwellcalc.evaluate.printed import number
from dwellcalc.home.glossary_names import SUPPLY
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.review.claims import Claim
from dwellcalc.review.document import Answer, Step
from dwellcalc.review.finding import CODE, ERROR, OUTCOME_SAID, RATING_SHORT, WOULD_CHANGE, Finding
from dwellcalc.review.judged import judged
from dwellcalc.review.looked import Asked, Looked
from dwellcalc.review.of_supply import OfSupply, conductors_for
from dwellcalc.review.submittal import Submittal

OF_FIGURE = "figure at "  # how the id of a comment on a figure begins
ROLE, CAPACITY, RATING = "fits", "capacity", "rating"
FOR_A_SUPPLY = "the calculation with a load or a supply that suffices"
FOR_A_LARGER_ONE = "a supply that suffices, with conductors for its rating, or a load that this one carries"
BY_A_WAY = f'; ways to that stand under "{WOULD_CHANGE}"'
FOR_THE_WORDS = "the calculation with the outcome that its figures come to"


def on_outcome(
    rules: RuleSet, asked: Asked, claim: Claim, beside: Iterable[Claim], section: str, supply: OfSupply
) -> Finding | None:
    """The comment; nothing where a claim says nothing of the outcome, or its figures come to none.

    Args:
        rules: the rule set.
        asked: what is calculated.
        claim: the claim, which the figures contradict.
        beside: the other figures as they were submitted.
        section: of the claim.
        supply: what is to be put right of the supply.
    """
    if claim.line != outcome_line(rules, asked):
        return None
    beside = list(beside)
    own = judged(rules, asked, told=beside)
    fits = own.verdict == FITS
    if own.amperes is None or own.verdict not in (FITS, DOES_NOT_FIT) or fits is claim.value:
        return None
    with supply.put_right(asked.facts):
        then = judged(rules, asked, told=beside)
    by_conductors = (
        " With supply conductors that suffice for the main these figures would fit." if not fits and then.verdict == FITS else ""
    )
    limit = _limit(rules, asked)
    than = f"not more than {limit}" if fits else f"more than {limit}"
    said = "Said to fit" if claim.value else "Said not to fit"
    return Finding(
        f"{OF_FIGURE}{claim.line}",
        ERROR,
        CODE,
        OUTCOME_SAID,
        f"{said}; its own figures come to {number(own.amperes)} A, {than}",
        f"This is before any correction of these figures.{by_conductors}",
        section,
        send=FOR_THE_WORDS if fits else FOR_A_SUPPLY,
        put_right="yes" if fits else "no",
        verdict_before=DOES_NOT_FIT if fits else FITS,
        verdict_after=own.verdict,
    )


def on_rating(
    rules: RuleSet,
    asked: Asked,
    answer: Answer,
    as_submitted: Step | None,
    *,
    submittal: Submittal,
    is_least: bool = False,
    has_ways: bool = False,
) -> Iterator[Finding]:
    """A comment on a supply that suffices for the figures as submitted, and not for the corrected ones.

    Args:
        rules: the rule set.
        asked: what is calculated.
        answer: what it comes to by the rules.
        as_submitted: the load and the verdict with all figures as they stand, where they are known.
        submittal: as it was read.
        has_ways: whether the letter tells ways by which the supply would suffice.
        is_least: whether the load is the least of what it may be, so that the figures as submitted may fit, no more.
    """
    turns = (
        as_submitted is not None and as_submitted.verdict in (FITS, OPEN if is_least else FITS) and answer.verdict == DOES_NOT_FIT
    )
    if not turns or answer.rating is None or answer.amperes_required is None:
        return
    carried = f"{'at least ' if is_least else ''}{answer.amperes_required:,.2f}"
    sizes = conductors_for(submittal, answer.minimum_rating)
    wires = f", with supply conductors of at least {sizes}" if sizes else ""
    least = f" The least rating that suffices is {number(answer.minimum_rating)} A{wires}." if answer.minimum_rating else ""
    line = rules.methods[asked.sizing.method].results[asked.sizing.results[ROLE]]
    yield Finding(
        "rating does not suffice",
        ERROR,
        CODE,
        RATING_SHORT,
        f"The supply of {number(answer.rating)} A for the corrected load",
        f"With the figures corrected the supply must carry {carried} A; {_limit(rules, asked)} is less.{least}",
        rules.section(str(line.source.cite)),
        send=f"{FOR_A_LARGER_ONE}{BY_A_WAY if has_ways else ''}",
    )


def outcome_line(rules: RuleSet, asked: Asked) -> str:
    """The line that says whether the supply suffices, by its id."""
    return rules.methods[asked.sizing.method].results[asked.sizing.results[ROLE]].id


def _limit(rules: RuleSet, asked: Asked) -> str:
    """What the load is held against, in print."""
    looked = Looked(rules, asked)
    results = rules.methods[asked.sizing.method].results
    capacity = looked.sized(looked.evaluation()).line(results[asked.sizing.results[CAPACITY]])
    rating = asked.facts.objects[SUPPLY][RATING]
    if isinstance(rating, float) and rating == capacity:
        return f"the rating of {number(rating)} A"
    return f"the {number(capacity)} A that the supply may carry" if isinstance(capacity, float) else "the supply may carry"
