"""What the outcome is, in plain sentences before all figures: as it is, with what is planned, what would change it, what to ask.

Nothing is computed here: every verdict comes from the document.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from dwellcalc.decide.choices import BY_HOME
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, OPEN, Assessment, SupplyResult
from dwellcalc.home.starting.told_beside import LARGEST
from dwellcalc.report.candidates import ratings_told
from dwellcalc.report.outcome_alone import alone_told, does_not_fit_if, installed_named
from dwellcalc.report.outcome_later import later_told
from dwellcalc.report.tables import OUTCOME, Block, Paragraph
from dwellcalc.report.turns_told import up_to_which_it_fits
from dwellcalc.report.wording import counted, listed, lowered, set_to_words

HANGS = "hangs on"
OPEN_MEANS = "Open: it hangs on what is not known yet, so that it may fit or not; what would settle it stands below."
CLAUSES = re.compile(r"[;,]\s")
CLAUSE_END = re.compile(r";|\.\s")
WORST = (DOES_NOT_FIT, OPEN, NOTHING, FITS)  # where one supply has nothing to compare with, the home has not
ASSUMED = "assumed"
PLANNED = "planned"  # how the status of such a load begins, in print
SET_ASIDE = "The sheet of the rest is had by saying `later: yes` of what is not known, in the home file."
OCCUPIED, YES = "occupied", "yes"


def outcome_blocks(found: Assessment) -> list[Block]:
    """The outcome of a home in plain sentences; nothing where a supply has no result, or the verdict alone says as much."""
    if not has_results(found) and not found.decision.installed:
        return []
    lines = _with_open_told(list(_lines(found)))
    if not lines[1:] and len(found.supplies) == 1 and verdict_of_all(found) in (FITS, DOES_NOT_FIT):
        return []
    methods = f" and the {'methods' if found.supplies[1:] else 'method'} named below" if has_results(found) else ""
    lead = f"In short, by {found.rule_set['title']}{methods}:"
    return [Paragraph("\n".join([lead, *lines]), OUTCOME)]


def _with_open_told(lines: list[str]) -> list[str]:
    """The lines, with what open means behind the first that says it without what it hangs on."""
    at = next((at for at, each in enumerate(lines) if f": {OPEN}" in each and HANGS not in each), None)
    told = any(f"{OPEN}{way}" in each for each in lines for way in (". It hangs", ", for it hangs"))
    return lines if at is None or told else [*lines[: at + 1], OPEN_MEANS, *lines[at + 1 :]]


def has_results(found: Assessment) -> bool:
    """Whether every supply has a basis and is sized."""
    return all(each.basis is not None and each.sizing is not None for each in found.supplies)


def _lines(found: Assessment) -> Iterator[str]:
    yield f"{_with_all(found)}: {_verdict(found)}{_with_more(found)}."
    as_it_is = next((each for each in found.decision.installed if not each.loads), None)
    if as_it_is is not None and as_it_is.verdict != NOTHING:
        when = "As it is today" if found.home.get(OCCUPIED) == YES else "Without anything that is planned"
        hangs = ", for it hangs on what is not known yet" if as_it_is.verdict == OPEN else ""
        yield f"{when}: {as_it_is.verdict}{hangs}."
    yield from ratings_told(found.supplies[0]) if found.supplies and verdict_of_all(found) == NOTHING else ()
    is_open = verdict_of_all(found) == OPEN  # then what does not rest on the doubt is told next
    yield from _only_some(found) if is_open else ()
    yield from _turns(found)
    yield from _rests_on(found)
    yield from _by_readings(found)
    yield from _by_others(found)
    yield from () if is_open else _only_some(found)
    if not has_results(found):
        yield SET_ASIDE
    yield from later_told(found)
    assumed = assumed_settings(found)
    if assumed:
        yield from settings_assumed(found, assumed)
    yield from _if_conductors(found)


def _by_readings(found: Assessment) -> Iterator[str]:
    """The sections of which another reading gives another verdict, where the home file chooses none."""
    verdict = verdict_of_all(found)
    every = [each for supply in found.supplies for each in supply.interpretations if each.flips and each.chosen_by != BY_HOME]
    if every and verdict in (FITS, DOES_NOT_FIT):
        cites = once(each.cite.partition(",")[0] for each in every)
        then = "does not fit" if verdict == FITS else "fits"
        yield f"By another reading of {listed(cites, 'or')} the load that is counted {then}; the building department decides.{_by_any(found)}"


def _by_any(found: Assessment) -> str:
    """The largest setting of the one load that can be set that fits by any one reading that gives another verdict."""
    settable = [each.load for each in found.decision.settings]
    if len(settable) != 1 or verdict_of_all(found) != FITS:
        return ""
    (load,) = settable
    options = [option for supply in found.supplies for each in supply.interpretations for option in each.options]
    fitting = [option.settings for option in options if option.settings is not None]
    if not all(fitting):
        return f" By the strictest of them it fits with no setting of {load}."
    least = min((each[load] for each in fitting if load in each), default=None)
    return "" if least is None else f" By any one of them it fits with {load} set to {least:g} A or less."


def verdict_of_all(found: Assessment) -> str:
    """The verdict of all supplies together."""
    verdicts = {each.verdict for each in found.supplies}
    return next((each for each in WORST if each in verdicts), NOTHING)


# with all that is planned


def planned_of(found: Assessment) -> list[str]:
    """The loads that are planned, by name."""
    loads = (load.name for each in found.supplies for load in each.loads if load.status.startswith(PLANNED))
    return list(dict.fromkeys(loads))


def _with_all(found: Assessment) -> str:
    """What all that is planned is called: its loads, with their settings where it fits with these."""
    planned = planned_of(found)
    if not planned:
        return "With all its loads" if not found.decision.installed else "With all that is planned"
    settings = {each.load: each for each in found.decision.settings} if verdict_of_all(found) in (FITS, NOTHING) else {}
    fixed = {load.name: load.set_to for supply in found.supplies for load in supply.loads if load.set_to is not None}
    at = fixed | {name: each.counted for name, each in settings.items()}
    named = [f"{name} set to {at[name]:g} A" if name in at else name for name in planned]
    return f"With {listed(named)}{' together' if planned[1:] else ''}"


def _with_more(found: Assessment) -> str:
    """What the next setting of each load gives, where all fits with those that are counted."""
    told = []
    for load in found.decision.settings if verdict_of_all(found) == FITS else []:
        above = next((each for each in load.settings if each.setting > load.counted and each.verdict != FITS), None)
        if above is not None:
            told.append(f"; with {load.load} set to {above.setting:g} A: {above.verdict}")
    return "".join(told)


def _turns(found: Assessment) -> Iterator[str]:
    """The readings of what is not known yet at which the outcome turns, to both sides."""
    counted = {each.load: each.counted for each in found.decision.settings}
    for of in list({tuple(each.settings.items()): each.settings for each in found.decision.turns}.values()):
        at = of or counted
        set_to = (
            f" with {listed([set_to_words(load, at) for load in at])}"
            if at
            else ", whatever else is not known, as the code is read here"
        )
        turns = [each for each in found.decision.turns if each.settings == of]
        fitting = [each.readings for each in turns if each.verdict == FITS]
        yield from up_to_which_it_fits(fitting, f"{set_to}{' too' if of else ''}")
        over = [each.readings for each in turns if each.verdict != FITS and not each.beyond]
        if over:
            named = ", or with ".join(f"{load} of {value} or more" for one in over for load, value in one.items())
            yield f"With {named}: does not fit{set_to}."
        for load, value in [one for each in turns if each.beyond for one in each.readings.items()]:
            yield f"Where the label of {load} says more than {value}, it may no longer fit{set_to}."


def _rests_on(found: Assessment) -> Iterator[str]:
    """What nobody has seen and by which the verdict would be another."""
    for supply in found.supplies:
        for each in supply.facts_not_verified:
            verdicts = once(flip.partition(": ")[2] for flip in each.flips)
            if verdicts and supply.verdict == FITS:
                of = f" of {listed(each.items)}" if each.items else ""
                yield f"It rests on what nobody has seen{of}: {each.short or each.text}; if that is otherwise: {' or '.join(verdicts)}."


def _by_others(found: Assessment) -> Iterator[str]:
    """Other methods that may be used as well and by which it fits, where by the record it does not, or with less."""
    for each in found.decision.other_methods:
        carried = f" ({each.supply.amperes:,.2f} A)" if each.supply.amperes is not None else ""
        if each.comes_first:
            first = "which comes before every calculation where a record is usable"
            same = ", with the same settings" if each.settings else ""
            yield f"By the {lowered(each.title)} ({each.section}), {first}: {each.supply.verdict}{same}{carried}."
            continue
        settings = listed([set_to_words(load, each.settings) for load in each.settings])
        told = f"fits, with {settings}{carried}" if settings else f"fits{carried}"
        how = f"`--method {each.asked_as}` gives the sheet by it"
        told = "; ".join([told, *does_not_fit_if(each.rests_on), how])
        yield f"By the {lowered(each.title)} ({each.section}), which may be used as well: {told}."


def _verdict(found: Assessment) -> str:
    """The verdict with all of it, where it is so, and why it is open."""
    verdict = verdict_of_all(found)
    alike = [each.title for each in found.supplies if each.verdict == verdict]
    where = f" ({', '.join(map(lowered, alike))})" if verdict != FITS and len(alike) < len(found.supplies) else ""
    if verdict == OPEN:
        return f"open{where}. It hangs on {'; '.join(dict.fromkeys(each for supply in found.supplies for each in _why_open(supply)))}"
    if verdict == NOTHING:
        new = [each.new_supply for each in found.supplies if each.new_supply is not None]
        least = [f", but a rating of at least {each.minimum_rating:,.0f} A is needed" for each in new if each.minimum_rating]
        return f"there is no rating to compare with{where}{''.join(least[:1])}"
    condition = ", on a condition that is not proved yet" if any(each.conditions for each in found.supplies) else ""
    but = but_not_all(found.supplies)
    return f"{verdict}{where}{condition}{but if verdict == FITS else ''}{_at_no_setting(found, verdict)}"


def but_not_all(supplies: Sequence[SupplyResult]) -> str:
    """What is not as it must be whatever the load is, in a clause; an empty text where nothing is."""
    short = once(lowered(CLAUSE_END.split(text)[0].rstrip(".")) for each in supplies for text in each.shortcomings)
    more = f", and {counted(len(short[2:]), 'more thing')} to be put right" if short[2:] else ""
    return f", but {' and '.join(short[:2])}{more}" if short else ""


def _at_no_setting(found: Assessment, verdict: str) -> str:
    none = [each.load for each in found.decision.settings if each.largest_that_fits is None]
    return f", whatever {listed(none, 'or')} is set to" if none and verdict == DOES_NOT_FIT else ""


def _why_open(supply: SupplyResult) -> Iterator[str]:
    """What a supply waits for."""
    if supply.verdict != OPEN:
        return
    if supply.holds_from is not None:
        least = supply.holds_from.high
        yield "the rating of the supply, which is not known" + ("" if least is None else f" (the load holds from {least:,.0f} A)")
    elif supply.sizing is None and supply.unknowns:
        yield f"what is not known: {', '.join(supply.unknowns)}"
    elif supply.sizing is not None and supply.sizing.missing:
        yield "what is missing and listed below"
    if supply.suspected and len({each.verdict for each in supply.conductors}) > 1:
        yield "the supply conductors, which nobody has seen"
    deciding = deciding_inputs(supply)
    if supply.between is not None and deciding:
        known = "which is known only between bounds" if len(deciding) == 1 else "which are known only between bounds"
        upto = next((each for each in supply.between.inputs if each.fits_up_to), None)
        more = (
            ""
            if upto is None
            else f" (up to {upto.fits_up_to} of {upto.item} it fits, whatever else is not known, as the code is read here)"
        )
        yield f"{listed(deciding)}, {known}{more}"


def deciding_inputs(supply: SupplyResult) -> list[str]:
    """The inputs between bounds that settle an open verdict, or the one to read first, by name."""
    found = supply.between
    if found is None or supply.verdict != OPEN or supply.holds_from is not None:
        return []
    names = {name for each in found.together for name in each.items} | {each.item for each in found.inputs if each.settles}
    return [each.item for each in found.inputs if each.item in names] or [each for each in [found.read_first] if each]


# with some of it


def _only_some(found: Assessment) -> Iterator[str]:
    """What is planned by itself, and what of it fits together."""
    alone = [each for each in found.decision.installed if each.by_itself]
    more = [each for each in found.decision.installed if each.loads and not each.by_itself]
    yield from alone_told(alone, [text for supply in found.supplies for text in supply.shortcomings])
    fitting = [installed_named(each) for each in more if each.verdict == FITS]
    if fitting:
        yield f"What fits together: {'; or '.join(fitting)}."


def _if_conductors(found: Assessment) -> Iterator[str]:
    """The conductors that a supply must have, where nobody has seen them."""
    told = []
    for supply in found.supplies:
        if supply.sizing is not None and supply.sizing.to_verify and not supply.suspected and FITS in _verdicts(found, supply):
            of = f" of {lowered(supply.title)}" if found.supplies[1:] else ""
            told.append(f"the supply conductors{of}, which nobody has seen, are {supply.sizing.seen_to_suffice()} or larger")
    if told:
        yield f"What fits does so only if {'; and '.join(told)}."


def _verdicts(found: Assessment, supply: SupplyResult) -> set[str]:
    return {supply.verdict, *(each.verdict for each in found.decision.installed)}


def assumed_settings(found: Assessment) -> list[str]:
    """The loads that can be set to what is only assumed."""
    return once(load.name for supply in found.supplies for load in supply.loads if load.settings and load.evidence == ASSUMED)


def largest_told(found: Assessment, load: str) -> str:
    """The largest setting of a load that was told, where only the lower ones are assumed; else an empty text."""
    told = LARGEST.format(setting="")
    every = [each.removeprefix(f"{load} - ") for each in found.remarks if each.startswith(f"{load} - ")]
    parts = [part for each in every for part in CLAUSES.split(each) if part.endswith(told)]
    sizes = [part.removesuffix(told) for part in parts]
    return next((each for each in sizes if any(map(str.isdigit, each))), "")


def settings_assumed(found: Assessment, loads: Sequence[str]) -> Iterator[str]:
    """What of the settings of loads is assumed."""
    for load in loads:
        largest = largest_told(found, load)
        if largest:
            yield f"{largest} was told as the largest setting of {load}; the lower ones are assumed, for nobody has said or read them."
    rest = [load for load in loads if not largest_told(found, load)]
    if rest:
        yield f"What {listed(rest)} can be set to is assumed, for nobody has said or read it."


def once(names: Iterable[str]) -> list[str]:
    """Names, each once, in their order."""
    return list(dict.fromkeys(names))
