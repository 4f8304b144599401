"""What the outcome is, in plain sentences before all figures: as it is, with what is planned, what would change it, what to ask.

Nothing is computed here: every verdict comes from the document.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from dwellcalc.decide.choices import BY_HOME
from dwellcalc.decide.decision import InstalledResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, OPEN, Assessment, SupplyResult
from dwellcalc.report.alternatives_told import fitting, one_of
from dwellcalc.report.outcome_later import later_told
from dwellcalc.report.tables import OUTCOME, Block, Listing, Paragraph
from dwellcalc.report.wording import listed, lowered

FIELD = "To be found in the field by inspector and installer"
ALTERNATIVES = "What else could be done"
WORST = (DOES_NOT_FIT, OPEN, FITS)
PLANNED = "planned"  # how the status of such a load begins, in print
RATING = "rating"
SET_ASIDE = "The sheet of the rest is had by saying `later: yes` of what is not known, in the home file."
OCCUPIED, YES = "occupied", "yes"


def outcome_blocks(found: Assessment) -> list[Block]:
    """The outcome of a home in plain sentences; nothing where a supply has no result, or the verdict alone says as much."""
    if not _has_results(found) and not found.decision.installed:
        return []
    lines = list(_lines(found))
    if not lines[1:] and len(found.supplies) == 1 and verdict_of_all(found) in (FITS, DOES_NOT_FIT):
        return []
    methods = f" and the {'methods' if found.supplies[1:] else 'method'} named below" if _has_results(found) else ""
    lead = f"In short, by {found.rule_set['title']}{methods}:"
    return [Paragraph("\n".join([lead, *lines]), OUTCOME)]


def asked_blocks(found: Assessment) -> list[Block]:
    """What would change the outcome, and what is to be asked and read first; nothing where a supply has no result."""
    if not _has_results(found):
        return []
    asked = [each for each in (_would_fit(found), _of_department(found), _to_read(found)) if each]
    return [Listing(asked)] if asked else []


def _has_results(found: Assessment) -> bool:
    return all(each.basis is not None and each.sizing is not None for each in found.supplies)


def _lines(found: Assessment) -> Iterator[str]:
    as_it_is = next((each for each in found.decision.installed if not each.loads), None)
    if as_it_is is not None:
        when = "As it is today" if found.home.get(OCCUPIED) == YES else "Without anything that is planned"
        yield f"{when}: {as_it_is.verdict}."
    yield f"{_with_all(found)}: {_verdict(found)}{_with_more(found)}."
    is_open = verdict_of_all(found) == OPEN  # then what does not rest on the doubt is told next
    yield from _only_some(found) if is_open else ()
    yield from _with_smaller(found)
    yield from _by_others(found)
    yield from () if is_open else _only_some(found)
    if not _has_results(found):
        yield SET_ASIDE
    yield from later_told(found)
    yield from _if_conductors(found)


def verdict_of_all(found: Assessment) -> str:
    """The verdict of all supplies together."""
    verdicts = {each.verdict for each in found.supplies}
    return next((each for each in WORST if each in verdicts), NOTHING)


def _set(name: str, settings: Mapping[str, float]) -> str:
    return f"{name} set to {settings[name]:g} A" if name in settings else name


# with all that is planned


def _planned(found: Assessment) -> list[str]:
    loads = (load.name for each in found.supplies for load in each.loads if load.status.startswith(PLANNED))
    return list(dict.fromkeys(loads))


def _with_all(found: Assessment) -> str:
    """What all that is planned is called: its loads, with their settings where it fits with these."""
    planned = _planned(found)
    if not planned:
        return "With all its loads" if not found.decision.installed else "With all that is planned"
    settings = {each.load: each for each in found.decision.settings} if verdict_of_all(found) == FITS else {}
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


def _with_smaller(found: Assessment) -> Iterator[str]:
    """The largest setting that a load may have where what is known only between bounds turns out to be small."""
    unknown = {each.item for supply in found.supplies if supply.between is not None for each in supply.between.inputs}
    for load in found.decision.settings:
        for larger in reversed(load.larger):
            enough = [each for each in larger.alternatives if each.verdict == FITS and each.of_rating]
            told = next((each.what for each in enough if unknown.issuperset(each.of_rating)), "")
            if told:
                yield f"With {told}: fits with {load.load} set to {larger.setting:g} A too."
                break


def _by_others(found: Assessment) -> Iterator[str]:
    """Other methods that may be used as well and by which it fits, where by the record it does not, or with less."""
    for each in found.decision.other_methods:
        carried = f" ({each.supply.amperes:,.2f} A)" if each.supply.amperes is not None else ""
        if each.comes_first:
            first = "which comes before every calculation where a record is usable"
            same = ", with the same settings" if each.settings else ""
            yield f"By the {lowered(each.title)} ({each.section}), {first}: {each.supply.verdict}{same}{carried}."
            continue
        settings = listed([_set(load, each.settings) for load in each.settings])
        told = f"fits, with {settings}{carried}" if settings else f"fits{carried}"
        how = f"`--method {each.asked_as}` gives the sheet by it"
        yield f"By the {lowered(each.title)} ({each.section}), which may be used as well: {told}; {how}."


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
        return f"there is no rating to compare with{''.join(least[:1])}"
    condition = ", on a condition that is not proved yet" if any(each.conditions for each in found.supplies) else ""
    but = ", but not all else is as it must be" if any(each.shortcomings for each in found.supplies) else ""
    return f"{verdict}{where}{condition}{but if verdict == FITS else ''}{_at_no_setting(found, verdict)}"


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
        more = "" if upto is None else f" (up to {upto.fits_up_to} of {upto.item} it fits, whatever the rest is)"
        yield f"{listed(deciding)}, {known}{more}"


def deciding_inputs(supply: SupplyResult) -> list[str]:
    """The inputs between bounds that settle an open verdict, or the one to read first, by name."""
    found = supply.between
    if found is None or supply.verdict != OPEN or supply.holds_from is not None:
        return []
    names = {name for each in found.together for name in each.items} | {each.item for each in found.inputs if each.settles}
    return [each.item for each in found.inputs if each.item in names] or [each for each in [found.read_first] if each]


# with some of it, and what would change it


def _only_some(found: Assessment) -> Iterator[str]:
    """What is planned by itself, and what of it fits together."""
    alone = [each for each in found.decision.installed if len(each.loads) == 1]
    more = [each for each in found.decision.installed if len(each.loads) > 1]
    if alone:
        yield f"Each by itself: {'; '.join(f'{_installed(each)}: {each.verdict}' for each in alone)}."
    fitting = [_installed(each) for each in more if each.verdict == FITS]
    if fitting:
        yield f"What fits together: {'; or '.join(fitting)}."


def _installed(found: InstalledResult) -> str:
    least = "" if found.verdict == FITS or not found.settings else ", its smallest"
    return f"{listed([_set(name, found.settings) for name in found.loads])}{least}"


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


def _would_fit(found: Assessment) -> str:
    """One alternative of each kind that suffices."""
    kinds = fitting(found.decision.alternatives)
    verdict = verdict_of_all(found)
    if not kinds or verdict not in (DOES_NOT_FIT, OPEN):
        return ""
    told = "; ".join(f"{lowered(title)} ({one_of(alike)})" for title, alike in kinds.items())
    when = "Even at the largest load it would fit" if verdict == OPEN else "It would fit"
    return f'{when} by one of these: {told}. More: "{ALTERNATIVES}".'


# what to ask and to read


def _of_department(found: Assessment) -> str:
    """What the building department is asked, where the verdict hangs on it."""
    asked = []
    others = {each.verdict for supply in found.supplies for each in supply.editions}
    if not found.home["confirmed_by"]:
        asked.append("which edition is adopted" + (", for not all give this verdict" if len(others) > 1 else ""))
    turning = [
        each.cite.partition(",")[0]
        for supply in found.supplies
        for each in supply.interpretations
        if each.flips and each.chosen_by != BY_HOME
    ]
    if turning:
        asked.append(f"how it reads {listed(list(dict.fromkeys(turning)))}, on which the verdict turns")
    return f"To ask the building department: {'; '.join(asked)}." if asked else ""


def _to_read(found: Assessment) -> str:
    """What is to be read or looked at before anything is ordered, and where all of it is listed."""
    ratings = [each for supply in found.supplies for each in _deciding(supply, rating=True)]
    others = [each for supply in found.supplies for each in _deciding(supply, rating=False)]
    ratings += [] if ratings or others else [each for supply in found.supplies for each in _worth_most(found, supply)]
    wanted = [f"the nameplate{'s' if ratings[1:] else ''} of {listed(_once(ratings))}"] if ratings else []
    wanted += [f"the area of {each}" for each in _once(others)]
    wanted += [each for supply in found.supplies if supply.sizing is not None for each in supply.sizing.missing]
    wanted += _unseen(found)
    if not wanted:
        return ""
    where = f' All of it: "{FIELD}".' if found.field_page else ""
    return f"To read or to ask the electrician first: {'; '.join(_once(wanted))}.{where}"


def _unseen(found: Assessment) -> list[str]:
    """What of the supplies nobody has read, and the facts that nobody has seen and on which a verdict turns."""
    of: dict[str, list[str]] = {}
    for supply in found.supplies:
        loads = {load.name for load in supply.loads}
        for each in supply.facts_not_verified:
            named = [item for item in each.items if item in loads]
            if each.short and (each.not_compared or each.flips):
                of.setdefault(each.short, []).extend(named or [lowered(supply.title)] * len(found.supplies[1:]))
    return [f"{short}{_whose(_once(names), found)}" for short, names in of.items()]


def _whose(names: Sequence[str], found: Assessment) -> str:
    """Of which loads or supplies it is, where there are several."""
    if set(names) == {lowered(each.title) for each in found.supplies}:
        return " of each supply"
    return f" ({', '.join(names)})" if names else ""


def _deciding(supply: SupplyResult, *, rating: bool) -> list[str]:
    names = deciding_inputs(supply)
    inputs = supply.between.inputs if supply.between is not None else []
    return [each.item for each in inputs if each.item in names and (each.what == RATING) == rating]


def _worth_most(found: Assessment, supply: SupplyResult) -> list[str]:
    """The load whose rating moves the result most, where a larger setting hangs on what is not known."""
    larger = any(row.verdict == OPEN for each in found.decision.settings for row in each.settings if row.setting > each.counted)
    inputs = supply.between.inputs if supply.between is not None and larger else []
    return [each.item for each in inputs[:1] if each.what == RATING]


def _once(names: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(names))
