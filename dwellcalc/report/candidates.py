"""The ratings that a new service may be given, as a table: each held to this permit, to what comes later, and to other readings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from dwellcalc.decide.candidate_results import CandidateLoad, CandidateRating, CandidateRatings
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, SupplyResult
from dwellcalc.evaluate.printed import number
from dwellcalc.placed import spaced
from dwellcalc.report.pictures.supply_words import of_material
from dwellcalc.report.tables import Block, Paragraph, Table
from dwellcalc.report.unknowns import at_largest
from dwellcalc.report.wording import listed

TITLE = "Ratings of the new service"
SUITS = "Settings with which this permit fits"
SIZES = "Smallest conductors"
COUNTED = "The loads are those with {settings}."
OTHERS = "Ratings that are commonly offered, about those that these loads ask for"
NOT_USUAL = "{rating} A is the next standard rating and less commonly offered."
NEXT_STANDARD = "{rating} A, the next standard rating, suffices too, and is less commonly offered."
NO_SETTING = "does not fit at any"
NOT_SHOWN = "not shown to fit"
CHOSEN = ", with the bus and the conductors that the home file has; the others with such as suit them"
SIZES_BY = 'By another answer to "{question}" ({cite}) the smallest conductors are {sizes}.'
READ_BY = "The highest reading answers one question of the code otherwise - {readings}."


def to_choose_blocks(supply: SupplyResult) -> list[Block]:
    """The ratings, where one is still to be chosen."""
    return [] if is_decided(supply) else candidate_blocks(supply)


def decided_blocks(supply: SupplyResult) -> list[Block]:
    """The ratings beside that which is decided."""
    return candidate_blocks(supply) if is_decided(supply) else []


def candidate_blocks(supply: SupplyResult) -> list[Block]:
    """The table and what it rests on; nothing where no ratings were tried."""
    found = supply.candidates
    if found is None or not found.ratings:
        return []
    settings = any(each.settings for each in found.ratings)
    sized = any(each.conductors for each in found.ratings)
    head = ["Rating", *(_head(each) for each in found.loads), *([SUITS] if settings else []), *([SIZES] if sized else [])]
    rows = [
        [
            *_row(each, found, settings=settings, bounded=supply.between is not None),
            *([of_material(supply, each.conductors)] if sized else []),
        ]
        for each in found.ratings
    ]
    aligned = ["right", *("left" for _ in head[1:])]
    cites = {each.address: f" ({each.cite})" for each in supply.interpretations}
    readings = dict.fromkeys(f"{_reading(each)}{cites.get(each.address, '')}" for each in found.loads if each.reading)
    counted = _set_to(found.counted)
    told = [COUNTED.format(settings=counted)] * bool(counted) + [f"{OTHERS}{_chosen(found)}."]
    least = [number(each.rating) for each in found.ratings if not each.usual]
    told += [NOT_USUAL.format(rating=each) for each in least]
    told += [READ_BY.format(readings="; ".join(readings))] if readings else []
    told += _sizes_by_readings(supply, found)
    return [Table(f"{TITLE}{at_largest(supply)}", head, rows, aligned), Paragraph(" ".join(told))]


def _sizes_by_readings(supply: SupplyResult, found: CandidateRatings) -> Iterator[str]:
    """Where by another reading of the code a rating asks for other conductors, which they are."""
    for each in supply.interpretations:
        sizes = [
            f"for {number(one.rating)} A {of_material(supply, one.by_readings[each.address])}"
            for one in found.ratings
            if each.address in one.by_readings
        ]
        if sizes:
            yield SIZES_BY.format(cite=each.cite, question=each.question, sizes=listed(sizes))


def is_decided(supply: SupplyResult) -> bool:
    """Whether the home file has a rating with which this permit fits, so that the others are an aside."""
    found = supply.candidates
    return found is not None and any(each.chosen and each.verdicts[0] == FITS for each in found.ratings)


def ratings_told(supply: SupplyResult) -> Iterator[str]:
    """The usual ratings with which this permit fits, and up to which settings, in a sentence."""
    found = supply.candidates.ratings if supply.candidates is not None else []
    least = next((each for each in found if not each.usual), None)
    found = [each for each in found if each.usual]
    enough = next((each for each in found if each.verdicts[0] == FITS), None)
    if enough is not None:
        less = [
            f"{number(each.rating)} A only with {_set_to(each.settings)}"
            for each in found
            if each.verdicts[0] != FITS and each.settings
        ]
        suffices = least is not None and least.verdicts[0] == FITS
        standard = f" {NEXT_STANDARD.format(rating=number(least.rating))}" if least is not None and suffices else ""
        yield f"Of the usual ratings it fits with {'; with '.join([f'{number(enough.rating)} A', *less[::-1]])}.{standard}{_by_any(supply, enough)}"


def _by_any(supply: SupplyResult, enough: CandidateRating) -> str:
    """The first of the usual ratings with which this permit fits by the highest reading too, where that is another."""
    found = supply.candidates
    held = [at for at, each in enumerate(found.loads) if not each.later] if found is not None else []
    first = next((each for each in found.ratings if all(each.verdicts[at] == FITS for at in held)), None) if found else None
    if first is None:
        return " By the highest reading of the code with none of those that were tried."
    asked = max((load.minimum_rating or 0 for load in found.loads if not load.later), default=0.0) if found else 0.0
    at_least = f", {number(asked)} A at the least" if 0 < asked < first.rating else ""
    return "" if first is enough else f" By the highest reading of the code it takes {number(first.rating)} A{at_least}."


def _set_to(settings: Mapping[str, float]) -> str:
    return listed([f"{load} set to {value:g} A" for load, value in settings.items()])


def _head(load: CandidateLoad) -> str:
    if load.reading:
        return f"By the highest reading{' then' if load.later else ''}"
    return "With what comes later" if load.later else "This permit"


def _reading(load: CandidateLoad) -> str:
    return f"{spaced(load.address.rpartition('.')[2])}: {spaced(load.reading)}"


def _row(each: CandidateRating, found: CandidateRatings, *, settings: bool, bounded: bool) -> list[str]:
    """A rating with each load and its verdict; ``bounded`` where loads are at the largest that bounds allow, of this permit with them."""
    first, *others = each.verdicts
    told = [first, *(NOT_SHOWN if bounded and verdict == DOES_NOT_FIT else verdict for verdict in others)]
    cells = [f"{load.amperes:,.2f} A, {verdict}" for load, verdict in zip(found.loads, told, strict=True)]
    fitting = ", ".join(f"{load} {value:g} A" for load, value in (each.settings or {}).items())
    suits = fitting or ("" if each.settings is None else NO_SETTING)
    return [f"{number(each.rating)} A", *cells, *([suits] if settings else [])]


def _chosen(found: CandidateRatings) -> str:
    return "; " + f"{number(next(each.rating for each in found.ratings if each.chosen))} A{CHOSEN}" if _has_chosen(found) else ""


def _has_chosen(found: CandidateRatings) -> bool:
    return any(each.chosen for each in found.ratings)
