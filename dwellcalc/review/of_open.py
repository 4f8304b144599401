"""Questions on ratings that are not shown, or known only between bounds: what they would come to, and the outcome then."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from dwellcalc.decide.changed import LOADS
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.bounds import facts_with, inputs_of
from dwellcalc.facts import Between, Input
from dwellcalc.review.finding import CODE, QUESTION, Finding
from dwellcalc.review.judged import Judged, judged
from dwellcalc.review.open_ratings import OpenLoad
from dwellcalc.review.phrases import Phrases
from dwellcalc.review.submittal import Submittal

OPEN_RATING = "rating not shown"  # what such a finding is about
BETWEEN = "rating between bounds"
SEND = "its nameplate"
ENDS = ("low", "typical", "high")


def on_open(submittal: Submittal) -> Iterator[Finding]:
    """A question for each load without a rating that is not calculated, and for each rating between bounds."""
    if submittal.ranges is None:
        return
    taken = judged(submittal.rules, submittal.asked)
    for load in submittal.ranges.loads:
        yield _not_shown(submittal, load, taken)
    for item, between in inputs_of(submittal.ranges.known.facts).items():
        if item[0] == LOADS:
            yield _between(submittal, item, between, taken)


def _not_shown(submittal: Submittal, load: OpenLoad, taken: Judged) -> Finding:
    """The question for a load of which no rating is shown."""
    implied = load.implied
    kinds = set(map(str, submittal.supply.facts.collections[LOADS].fields["kind"]))
    of_another = implied is not None and not load.said and kinds & set(implied.or_of)
    if implied is not None and of_another and not Phrases(implied.words).are_in(load.name):
        title, what = (
            f"{load.name}: its rating is not shown",
            "It",
        )
    else:
        title = f"{load.name}: its rating is not shown" if implied is None else implied.told
        what = "It" if implied is None else f"The {implied.title[:1].lower()}{implied.title[1:]}"
    begin = f'The submittal says: "{load.said.rstrip(" .")}". ' if load.said else ""
    found = _at_ends(submittal, load)
    verdict = "" if found is None else _verdicts(found, load, submittal)
    text = f"{begin}{what} counts, and the figures here are without it."
    cite = submittal.rules.section(implied.cite) if implied is not None else ""
    most = taken if found is None else found[-1]
    if found is None:
        whatever = taken.verdict == DOES_NOT_FIT
        text += " Whatever it is, the load does not fit." if whatever else " Until it is shown, it is open whether the load fits."
        text += " What would change the outcome cannot be told before." if whatever else ""
    else:
        text += f" {_effect(submittal, load, found, taken)}{verdict}"
    if found is not None and DOES_NOT_FIT in (taken.verdict, most.verdict):
        text += " What would change the outcome is calculated with it at the largest of these."
    send = SEND if implied is None else implied.send
    after = most.verdict if most.verdict else taken.verdict
    return Finding(
        f"rating not shown: {load.name}",
        QUESTION,
        CODE,
        OPEN_RATING,
        title,
        text,
        cite,
        send=send,
        verdict_before=taken.verdict,
        verdict_after=after,
    )


def _at_ends(submittal: Submittal, load: OpenLoad) -> list[Judged] | None:
    """What is calculated with a load at the least, the typical and the largest of its kind; nothing where that is not known."""
    ranges = submittal.ranges
    assert ranges is not None
    if load.kind not in submittal.rules.defaults:
        return None
    found = []
    for end in ENDS:
        with ranges.with_load(load.name, submittal.supply.facts, end) as facts:
            if facts is None:
                return None
            found.append(judged(submittal.rules, replace(submittal.asked, facts=facts)))
    return found if all(each.amperes is not None and each.load is not None for each in found) else None


def _effect(submittal: Submittal, load: OpenLoad, found: list[Judged], taken: Judged) -> str:
    """What a load at what is typical of its kind adds, and the range of the load of the home."""
    low, typical, high = (_of_kind(submittal, load.kind, end) for end in ENDS)
    least, middle, most = found
    more, amperes = middle.load_more_than(taken), middle.more_than(taken)
    adds = (
        ""
        if more is None or amperes is None
        else f"Every {typical} of it would add {more:,.0f} VA ({amperes:,.2f} A) to the load. "
    )
    return (
        f"{adds}Such loads typically have {low} to {high}, which is not of the code: with that the load is "
        f"{least.amperes:,.2f} A to {most.amperes:,.2f} A"
    )


def _verdicts(found: list[Judged], load: OpenLoad, submittal: Submittal) -> str:
    least, most = found[0], found[-1]
    if NOTHING in (least.verdict, most.verdict):
        return "."
    if least.verdict == most.verdict == FITS and several(submittal):
        return "; the other loads without a rating come on top of that."
    if least.verdict == most.verdict:
        return f", and the outcome: {most.verdict}."
    low, high = _of_kind(submittal, load.kind, ENDS[0]), _of_kind(submittal, load.kind, ENDS[-1])
    return f", and the outcome hangs on it: {least.verdict} at {low}, {most.verdict} at {high}."


def several(submittal: Submittal) -> bool:
    """Whether several loads have no rating, so that what fits with one of them says nothing yet."""
    return len(submittal.open_loads) > 1


def _of_kind(submittal: Submittal, kind: str, end: str) -> str:
    """A typical figure of a kind of load, in print."""
    default = submittal.rules.defaults[kind]
    declared = submittal.rules.glossary.collections[LOADS].fields[default.field].kind
    return printed.value(getattr(default, end), declared, submittal.rules.glossary)


def _between(submittal: Submittal, item: Input, between: Between, taken: Judged) -> Finding:
    """The question for a rating that is known only between bounds."""
    collection, position, field = item
    known = submittal.ranges.known.facts if submittal.ranges is not None else submittal.supply.facts
    name = known.collections[collection].names[position]
    kind = submittal.rules.glossary.collections[collection].fields[field].kind
    low, high = (printed.value(each, kind, submittal.rules.glossary) for each in (between.low, between.high))
    value = submittal.supply.facts.collections[collection].fields[field][position]
    here = printed.value(value, kind, submittal.rules.glossary)
    ends = [
        judged(submittal.rules, replace(submittal.asked, facts=facts_with(submittal.supply.facts, {item: each})))
        for each in (between.low, between.high)
    ]
    source = (
        "as is typical of such loads, which is not of the code, it is taken as"
        if between.typical is not None
        else "It is given as"
    )
    begin = f"No rating is shown; {source}" if between.typical is not None else source
    figure = "the figure that the table has for it" if between.low < value < between.high else "there the load is largest"
    text = f"{begin} {low} to {high}. The figures here are with {here}: {figure}."
    if all(each.amperes is not None for each in ends):
        text += f" From one end to the other the load is {ends[0].amperes:,.2f} A to {ends[1].amperes:,.2f} A"
        least, most = (each.verdict for each in ends)
        text += "." if least == most else f", and the outcome hangs on it: {least} at {low}, {most} at {high}."
    return Finding(
        f"rating between bounds: {name}",
        QUESTION,
        CODE,
        BETWEEN,
        f"{name}: its rating is not known exactly",
        text,
        send=SEND,
        verdict_before=ends[0].verdict,
        verdict_after=ends[1].verdict,
    )
