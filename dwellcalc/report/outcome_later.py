"""What comes later and is not counted, in the first sentences: whether it fits then, and by what it would."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.decide.decision import AlternativeResult, Decision, LaterResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, OPEN, Assessment
from dwellcalc.placed import spaced
from dwellcalc.report.alternatives_told import fitting, one_of
from dwellcalc.report.outcome_alone import does_not_fit_if
from dwellcalc.report.turns_told import up_to_which_it_fits
from dwellcalc.report.wording import counted, listed, lowered, set_to_words

NOT_SHOWN, AT_MOST = "not shown to fit", " at the most that its rating may be"
MORE_SPACES = "Another panelboard (a subpanel), or tandem breakers where it is listed for them, adds some."
BY_WHATEVER = {OPEN: "open, it hangs on {ratings}", DOES_NOT_FIT: "does not fit, whatever {ratings} may be"}
CALLED = "What would let {loads} come later"
FIRST, FEWER = 4, 2  # kinds of alternative that are told at once, and of one of several loads
LESS = 2  # combinations of settings that are told at once


def later_told(found: Assessment) -> Iterator[str]:
    """What comes later and is not counted, at which settings it fits; at the largest load alone, so that what does not fit there is not refused."""
    open_inputs = any(each.between is not None for each in found.supplies)
    told = []
    for each in found.decision.later:
        largest = AT_MOST if each.at_largest and each.verdict == FITS else ""
        verdict = NOT_SHOWN if (open_inputs or each.at_largest) and each.verdict != FITS else f"{each.verdict}{largest}"
        ratings = "their ratings" if each.loads[1:] else "its rating"
        of_ratings = BY_WHATEVER.get(each.whatever, verdict).format(ratings=ratings)
        verdict = of_ratings if each.at_largest else each.whatever if each.whatever in BY_WHATEVER else verdict
        needed = [at.minimum_rating for at in each.supplies if at.minimum_rating] if each.verdict == NOTHING else []
        verdict = f"a rating of at least {needed[0]:,.0f} A is needed" if needed else verdict
        told.append(
            f"with {later_named(each)}: {verdict}{_with_more(each)}{_at_no_setting(each, found.decision)}{_with_less(each)}"
        )
    others = list(dict.fromkeys(_by_readings(found)))
    if told and others and found.decision.later[-1].verdict == FITS:
        told[-1] += f"; by another reading of {listed(others, 'or')} it does not"
    if told:
        yield f"Later, which is not counted in that, {'; '.join(told)}."
        yield from _gone(found.decision.later[-1])
        yield from _without_room(found)
    for each in found.decision.later:
        yield from (f"Later: {lowered(told)}" for told in _up_to(each))
        yield from _by_others(each)
    yield from _would_fit_later(found)


def _up_to(later: LaterResult) -> Iterator[str]:
    """The readings of what comes later up to which it fits then."""
    at = later.set_to
    set_to = (
        f" with {listed([set_to_words(load, at) for load in at])}"
        if at
        else ", whatever else is not known, as the code is read here"
    )
    yield from up_to_which_it_fits([each.readings for each in later.turns], set_to)


def _by_others(later: LaterResult) -> Iterator[str]:
    """The other method that may be used as well and by which it fits then with the most."""
    for each in later.other_methods[:1]:
        named = listed([set_to_words(load, each.settings) for load in later.loads])
        carried = f" ({each.supply.amperes:,.2f} A)" if each.supply.amperes is not None else ""
        fits = "; ".join([f"fits{carried}", *does_not_fit_if(each.rests_on)])
        yield f"Later, by the {lowered(each.title)} ({each.section}), which may be used as well: with {named}: {fits}."


def _gone(every: LaterResult) -> Iterator[str]:
    """What is not counted then, for it is replaced."""
    for new, old in every.gone.items():
        yield f"Not counted then is what {new} takes the place of: {listed(old)}."


def _without_room(found: Assessment) -> Iterator[str]:
    """The panels that have too few breaker spaces for all that comes later, whatever the load is."""
    for panel in found.panels:
        if panel.left_with_later.startswith("-"):
            missing = counted(int(panel.left_with_later.removeprefix("-")), "breaker space")
            yield f"What comes later finds no room in {panel.name}: {missing} missing then. {MORE_SPACES}"
        elif panel.left_with_later == "0":
            yield f"With what comes later no breaker space is left in {panel.name}."


def _by_readings(found: Assessment) -> Iterator[str]:
    """The sections of which another reading makes it not fit with all that comes later."""
    for supply in found.supplies:
        cites = {each.address: each.cite.partition(",")[0] for each in supply.interpretations}
        for each in supply.later.readings if supply.later is not None else ():
            if each.verdict == DOES_NOT_FIT:
                yield cites.get(each.address) or spaced(each.address.rpartition(".")[2])


def later_named(found: LaterResult) -> str:
    """The loads that come later, each with the setting at which they fit; where none does, or nothing is compared, without."""
    settings = found.set_to if found.verdict == FITS else {}
    return listed([set_to_words(each, settings) for each in found.loads])


def _with_more(found: LaterResult) -> str:
    """What the next setting of each load gives, where all fits with those that are counted."""
    told = []
    for load in found.of_settings if found.verdict == FITS else []:
        above = next((each for each in load.settings if each.setting > load.counted and each.verdict != FITS), None)
        of = f"with {load.load} " if found.loads[1:] else ""
        told += [] if above is None else [f", {of}set to {above.setting:g} A: {above.verdict}"]
    return "".join(told)


def _at_no_setting(found: LaterResult, decision: Decision) -> str:
    """That no setting lets it fit with those that are counted of what is planned."""
    none = [each.load for each in found.of_settings] if found.verdict == DOES_NOT_FIT else []
    replaced = {old for each in found.gone.values() for old in each}
    at = {each.load: each.counted for each in decision.settings if each.load not in replaced}
    beside = f" with {listed([set_to_words(each, at) for each in at])}" if at else ""
    return f", whatever {listed(none, 'or')} is set to{beside}" if none else ""


def _with_less(found: LaterResult) -> str:
    """The settings of what is planned and of what comes later with which all of it fits."""
    told = []
    for each in found.combinations[:LESS]:
        carried = next((f" ({at.amperes:,.2f} A)" for at in each.supplies if at.amperes is not None), "")
        told.append(f"{listed([set_to_words(load, each.settings) for load in each.settings])}{carried}")
    return f", but fits with {', or with '.join(told)}" if told else ""


def _would_fit_later(found: Assessment) -> Iterator[str]:
    """By what it would fit with what comes later, one alternative of each kind."""
    for each in found.decision.later:
        kinds = list(fitting(each.alternatives).items())
        first = FEWER if found.decision.later[1:] else FIRST
        if kinds:
            told = "; ".join(f"{lowered(title)} ({one_of(alike)}{_then(alike[0])})" for title, alike in kinds[:first])
            more = f' More: "{CALLED.format(loads=", ".join(each.loads))}".' if kinds[first:] else ""
            most = f"{AT_MOST}," if each.turns else ""
            yield f"With {listed(each.loads)}{most} it would fit, as the code is read here, by one of these: {told}.{more}"


def _then(found: AlternativeResult) -> str:
    """The load then."""
    return "" if found.amperes is None else f", {found.amperes:,.2f} A"
