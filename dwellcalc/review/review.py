"""The review of a submittal: every figure recomputed and tied out, and the mistake behind a wrong one named."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dwellcalc.decide.assess import version
from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.document import FITS, OPEN
from dwellcalc.decide.listing import rule_set_entry
from dwellcalc.evaluate.work import state_of
from dwellcalc.facts import Facts
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import spaced
from dwellcalc.progress import Progress, silent
from dwellcalc.review.answers import with_answers
from dwellcalc.review.asked_once import asked_once
from dwellcalc.review.breakers import breakers
from dwellcalc.review.calculation import calculation
from dwellcalc.review.claims import Claim
from dwellcalc.review.document import Answer, Review, Struck
from dwellcalc.review.finding import CODE, QUESTION, Finding, in_order
from dwellcalc.review.general_circuits import on_general_circuits
from dwellcalc.review.in_amperes import as_one
from dwellcalc.review.judged import judged
from dwellcalc.review.kept_apart import told_apart
from dwellcalc.review.looked import Asked, Looked
from dwellcalc.review.lower_bounds import is_least, judged_by_the_least
from dwellcalc.review.of_evidence import on_blank, on_evidence, on_unmatched, on_unsure, shown_with
from dwellcalc.review.of_figures import FigureFindings
from dwellcalc.review.of_kept_apart import KEPT_APART, on_kept_apart
from dwellcalc.review.of_later import on_later
from dwellcalc.review.of_method import on_citations, on_method
from dwellcalc.review.of_open import on_open
from dwellcalc.review.of_outcome import on_rating, outcome_line
from dwellcalc.review.of_part import decided, parts_that_do_not_apply, with_part
from dwellcalc.review.of_plausible import on_plausible
from dwellcalc.review.of_readings import readings_of
from dwellcalc.review.of_rounding import on_rounding
from dwellcalc.review.of_schedule import LACKING, on_schedule
from dwellcalc.review.of_spaces import on_spaces, spaces_counted
from dwellcalc.review.of_status import on_status
from dwellcalc.review.of_steps import on_steps
from dwellcalc.review.of_supply import ID_OF_CONDUCTORS, of_supply
from dwellcalc.review.on_top import on_top
from dwellcalc.review.one_by_one import one_by_one
from dwellcalc.review.own_comments import with_own
from dwellcalc.review.phrases import Phrases
from dwellcalc.review.put_right import PuttingRight
from dwellcalc.review.reworded import reword
from dwellcalc.review.search import Search
from dwellcalc.review.struck import ToStrike, contradicted, names, strike, with_struck
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.suspects import suspects_of
from dwellcalc.review.tie_out import CANNOT, TAKEN, TiedClaim, tied
from dwellcalc.review.would_change import would_change

YES_OR_NO = "yes_no"  # the form of a kind of value


def review(submittal: Submittal, *, date: str, seconds: float, progress: Progress = silent) -> Review:
    """Review a submittal.

    Args:
        submittal: as it was read.
        date: the date of the review, year-month-day.
        seconds: how long mistakes are searched for at most [s]; the rules say how many are tried.
        progress: is told how many of them were tried.

    Raises:
        InputError: the catalogue of mistakes breaks its form.
    """
    asked = submittal.asked
    plan = submittal.instructions.review
    assert plan is not None
    methods = {submittal.method, submittal.instructions.sizing.method, *(claim.method for claim in submittal.claims)}
    suspects = suspects_of(submittal.rules, methods)
    search = Search(
        submittal.rules,
        asked,
        submittal.claims,
        suspects,
        seconds=seconds,
        pairs_at_most=0 if submittal.unmatched else plan.pairs_at_most,  # what was left aside would be the reason
        tried_at_most=plan.tried_at_most,
        chance_one_in=plan.chance_one_in,
    )
    found = search.run(progress).without_outcome(outcome_line(submittal.rules, asked))
    found.explanations = one_by_one(found.explanations, {each.reading: each.mistake for each in plan.parts if each.reading})
    progress("writing the comments")
    elsewhere = parts_that_do_not_apply(submittal, asked)
    claims = tied(submittal.claims, search.base, search.base.wrong, submittal.rules, elsewhere)
    circuits = breakers(submittal, asked)
    supply = of_supply(submittal)
    on_loads = list(on_schedule(submittal, circuits))
    aside = [str(row.label) for row in submittal.unmatched]
    of_figures = FigureFindings(suspects, search, found, aside, submittal.reasons, told_apart(submittal), elsewhere, supply)
    lacking = bool(submittal.left_aside) or any(each.about == LACKING for each in on_loads)
    alternatives = [] if lacking else would_change(submittal, supply)
    answer = _answer(submittal, asked, lacking=lacking)
    least = is_least(submittal, answer)
    of_all = as_one(of_figures.findings(), of_figures, Looked(submittal.rules, asked))
    of_all = list(judged_by_the_least(of_all)) if least else of_all
    putting = PuttingRight(submittal, search, supply, of_figures, lacking=lacking or least or answer.verdict == OPEN)
    rows = calculation(submittal)
    has_ways = any(each.verdict == FITS for each in alternatives)
    before = putting.as_submitted(of_figures.about)
    evidence = list(on_evidence(submittal, asked))

    def left_of(found: Iterable[Finding]) -> list[Finding]:
        return [each for each in found if not any(names(entry, each.printed_title) for entry in submittal.to_strike)]

    findings = [
        *with_part(of_all, submittal, elsewhere, of_figures.behind),
        *on_rating(
            submittal.rules, asked, answer, None if lacking else before, submittal=submittal, is_least=least, has_ways=has_ways
        ),
        *on_steps(rows, submittal, of_figures.every),
        *on_method(submittal, asked),
        *on_citations(submittal, asked, submittal.claims, _told(of_figures)),
        *_not_calculated(claims, submittal.rules),
        *supply.findings,
        *on_loads,
        *on_general_circuits(submittal),
        *on_plausible(submittal, circuits),
        *on_rounding(submittal),
        *on_spaces(submittal),
        *evidence,
        *on_open(submittal),
        *on_status(submittal),
        *on_blank(submittal),
        *on_later(submittal),
        *on_unmatched(submittal),
        *on_unsure(submittal),
        *on_kept_apart(submittal, alternatives, on_top(submittal, left_of(evidence), answer.rating)),
    ]
    ordered = with_answers(in_order(asked_once(findings, found, submittal)), submittal)
    of_ways = [each for each in submittal.to_strike if any(names(each, one.title) for one in alternatives)]
    ways = [each for each in of_ways if not any(names(each, one.printed_title) for one in ordered)]
    struck = strike(ordered, [each for each in submittal.to_strike if each not in ways])
    without = {each.finding.id for each in struck}
    taken = with_struck(struck, putting, of_figures.about, answer)
    struck += contradicted(ordered, taken, without)
    gone = {each.finding.id for each in struck}
    _mark_taken(claims, [claim for each in gone for claim in of_figures.about.get(each, ())])
    left = reword([each for each in ordered if each.id not in gone], submittal.to_reword, submittal.load_rows)
    ordered = with_own(left, submittal.comments)
    return Review(
        version(),
        date,
        rule_set_entry(submittal.rules, submittal.home),
        _head(submittal),
        answer,
        claims,
        submittal.matched,
        ordered,
        found.tried,
        found.stopped_early,
        found.out_of_time,
        list(submittal.instructions.cautions),
        put_right=putting.put_right(ordered),
        calculation=rows,
        breakers=circuits,
        readings=readings_of(submittal, decided(ordered, submittal, of_figures.behind)),
        alternatives=[each for each in _left(alternatives, struck) if not any(names(one, each.title) for one in ways)],
        on_top=on_top(submittal, ordered, answer.rating),
        conductors=None if ID_OF_CONDUCTORS in without else supply.asked,
        struck=struck,
        with_struck=taken,
        parties=submittal.parties,
        left_aside=submittal.nearest,
        shown=shown_with(submittal),
        checked=[*supply.checked, *_spaces_checked(submittal), *_told_with(submittal), *map(_taken_out, ways)],
        edition_remark=submittal.instructions.remarks.get("edition", ""),
    )


def _left(alternatives: Iterable[AlternativeResult], struck: Iterable[Struck]) -> list[AlternativeResult]:
    """The alternatives without those of which the reviewer struck the question."""
    gone = {each.finding.id for each in struck}
    return [each for each in alternatives if f"{KEPT_APART}: {each.what}" not in gone]


def _spaces_checked(submittal: Submittal) -> Iterator[str]:
    """How the breaker spaces were counted, where they suffice."""
    counted = spaces_counted(submittal)
    if counted is not None and counted.needed < counted.spaces:
        yield f"Breaker spaces: {counted.told}"


def _taken_out(way: ToStrike) -> str:
    """That a way out stands in the letter no more."""
    return f"Taken out of what would change the outcome: {way.title} ({way.reason})"


def _told_with(submittal: Submittal) -> Iterator[str]:
    """What the edition says of something that the submittal names, such as a garage."""
    plan, remarks = submittal.instructions.review, submittal.instructions.remarks
    texts = [*map(str, submittal.notes), *(each.label for each in submittal.matched)]
    for name, words in plan.told_with.items() if plan is not None else ():
        if name in remarks and any(map(Phrases(words).are_in, texts)):
            yield remarks[name].rstrip(".")


def _told(of_figures: FigureFindings) -> set[tuple[str, str]]:
    """The places of the figures that a mistake explains: of these the section is a matter of that comment."""
    return {claim.at for name in of_figures.behind for claim in of_figures.about[name]}


def _mark_taken(claims: Iterable[TiedClaim], taken: Iterable[Claim]) -> None:
    """Mark the figures on which the comment is struck."""
    places = {claim.at for claim in taken}
    for each in claims:
        if (each.line, each.item) in places:
            each.outcome = TAKEN


def _head(submittal: Submittal) -> dict[str, object]:
    method = submittal.rules.methods[submittal.method].source
    return {
        "title": str(submittal.title),
        "method": submittal.method,
        "method_title": str(method.title),
        "section": submittal.rules.section(str(method.cite)),
        "edition": submittal.rules.title,
        "supply": submittal.supply.title,
    }


def _answer(submittal: Submittal, asked: Asked, *, lacking: bool) -> Answer:
    """What is calculated; with loads lacking in it, a load that fits says nothing."""
    looked = Looked(submittal.rules, asked)
    evaluation = looked.evaluation()
    results = submittal.rules.methods[submittal.method].results
    names = (submittal.instructions.total, submittal.instructions.amperes)
    total, amperes = (evaluation.line(results[name]) if name in results else None for name in names)
    sized = looked.sized(evaluation)
    rating = sized.line(submittal.rules.methods[asked.sizing.method].results[asked.sizing.results["minimum_rating"]])
    found = judged(submittal.rules, asked)
    verdict = found.verdict
    if submittal.ranges is not None:
        verdict = submittal.ranges.verdict(submittal.rules, asked, verdict)
        most = submittal.ranges.most(submittal.rules, asked)
        rating = None if most is None else most.minimum_rating
    return Answer(
        _number(total),
        _number(amperes),
        found.amperes,
        _number(rating),
        _rating(submittal.supply.facts),
        OPEN if lacking and verdict == FITS else verdict,
    )


def _rating(facts: Facts) -> float | None:
    return _number(facts.objects["supply"]["rating"])


def _number(value: object) -> float | None:
    return value if isinstance(value, float) and state_of(value) == "known" else None


def _not_calculated(claims: list[TiedClaim], rules: RuleSet) -> Iterator[Finding]:
    """Questions for what the computed value of a figure lacks."""
    lacking: dict[str, list[str]] = {}
    for claim in claims:
        if claim.outcome == CANNOT:
            for each in claim.missing:
                lacking.setdefault(each, []).append(claim.label)
    for each, labels in lacking.items():
        title, send = _what_is_lacking(each, rules)
        text = f"Without it these figures cannot be calculated: {', '.join(dict.fromkeys(labels))}."
        yield Finding(f"lacks: {each}", QUESTION, CODE, "not said", title, text, send=send)


def _what_is_lacking(missing: str, rules: RuleSet) -> tuple[str, str]:
    """What an input is in print, and what to send for it: of a load whether what it is asked for is so."""
    load, _, name = missing.rpartition(": ")
    declared = next((each for each in rules.glossary.collections[LOADS].fields.values() if spaced(each.name) == name), None)
    if not load or declared is None or not declared.meaning:
        return f"Not known: {missing}", "it"
    yes_or_no = declared.kind.form == YES_OR_NO
    title = f"Not said of {load}: {'whether it is ' if yes_or_no else ''}{declared.meaning}"
    return title, f"whether it is {declared.meaning}" if yes_or_no else f"the {declared.meaning} of it"
