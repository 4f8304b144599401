"""The page of every name that a home file may hold."""

from __future__ import annotations

from collections.abc import Mapping

from dwellcalc.glossary import Field, Glossary, ValueKind
from dwellcalc.home.glossary_names import CONDUCTOR, FROM_DISCONNECTS, FROM_SYSTEM, LOADS, SUPPLY, UNITS
from dwellcalc.home.models import DATES, FEEDERS, METER, models_for
from dwellcalc.home.schema_texts import MEANINGS
from dwellcalc.language.words import RECORD
from dwellcalc.placed import spaced
from dwellcalc.report.reading.links import link
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table

KINDS_PAGE, METHODS_PAGE = "kinds_of_loads.md", "methods.md"
PLANNED, FEEDS = "planned", "feeds"
HOW = (
    "Keys are written with spaces, hyphens or underscores. What is left out is not known; a value that follows where nothing is "
    "said stands in the last column. Any quantity may be written `unknown`, or between bounds where that is said."
)
AS_IN = {("loads",): (UNITS, LOADS), ("planned",): (UNITS, LOADS), (FEEDERS, "conductors"): ("service", "conductors")}
OWN = {  # what keys mean that are no names of the glossary, where a place gives them a meaning of its own
    "never_together.loads": "the loads that never run together, by name",
    "meter.time_zone": "the time zone of stamps that bear no offset",
    "meter.standard_time": "yes, where the clock of the stamps is never put forward",
    "meter.stamps": "start or end: what of an interval its stamp is",
    "meter.interval": "length of an interval, where the file does not tell it",
    "meter.unit": "the unit of the values, where the file does not tell it",
    "meter.date_order": "which of day, month and year comes first in a date",
    "meter.decimal": "comma or point: what stands before decimals",
    "meter.meter": "which of several meters in the file it is",
    "meter.bills.from": "the first day of the bill, year-month-day",
    "meter.bills.to": "the last day of the bill, year-month-day",
    "meter.bills.energy": "the energy of the bill",
    "meter.changes.date": "the day of the change, year-month-day",
    "meter.changes.what": "what was added, removed or changed",
    "date": "the date of the calculation, year-month-day",
    "meter": "the record of the metered demand",
}


def glossary_page(glossary: Glossary) -> list[Block]:
    """Every key of a home file by the place where it stands, the supply systems, and how ratings are written."""
    keys = models_for(glossary).keys
    blocks: list[Block] = [
        Heading(1, "What a home file may hold"),
        Paragraph(HOW.replace("`", '"')),
        Listing(
            [
                *(link(_title(path)) for path in _places(keys)),
                *map(link, (SYSTEMS, AREAS, RATINGS, NO_LOADS, *((ABBREVIATIONS,) if glossary.abbreviations else ()))),
            ]
        ),
    ]
    for path in _places(keys):
        blocks += [Heading(2, _title(path))]
        there = keys.get(AS_IN[path], ()) if path in AS_IN else ()
        rows = [_row(glossary, path, key, keys) for key in keys[path] if key not in there]
        if there:
            more = ", and these" if rows else ""
            blocks.append(Paragraph(f"The keys of {link(_title(AS_IN[path]))}{more}."))
        blocks += [Table("", ["Key", "Unit or words", "What it is", "Not said"], rows)] if rows else []
    return [*blocks, *_systems(glossary), *_areas(glossary), *_ratings(glossary), *_others(glossary)]


SYSTEMS, AREAS, RATINGS, NO_LOADS = "Supply systems", "Kinds of areas", "How a rating is written", "What is no load of its own"
ABBREVIATIONS = "Words in short"


def _places(keys: Mapping[tuple[str, ...], tuple[str, ...]]) -> list[tuple[str, ...]]:
    """The whole file first, then as a reader meets them: what is below a key follows it."""
    top = [(name,) for name in map(str, keys[()]) if (name,) in keys]
    return [(), *(path for first in top for path in keys if path[:1] == first)]


def _title(path: tuple[str, ...]) -> str:
    return ", ".join(map(spaced, path)).capitalize() if path else "The whole file"


def _row(glossary: Glossary, path: tuple[str, ...], key: str, keys: Mapping[tuple[str, ...], tuple[str, ...]]) -> list[str]:
    name = link(spaced(key), _title((*path, key))) if (*path, key) in keys else spaced(key)
    field, own = _fields(glossary, path).get(key), _own_meaning(path, key)
    if field is None or own or field.comes_from == FROM_DISCONNECTS or key == FROM_SYSTEM:
        return [name, _form(glossary, path, key), own or MEANINGS.get(key, "").replace("`", '"'), ""]
    default = glossary.shown(field.kind, field.unless_said) if field.unless_said else ""
    return [name, unit_or_words(glossary, field.kind), field.meaning, default]


def _own_meaning(path: tuple[str, ...], key: str) -> str:
    if path == (DATES,):
        return f"the day of the {spaced(key)}, year-month-day"
    return OWN.get(".".join((*path, key)), "")


def _form(glossary: Glossary, path: tuple[str, ...], key: str) -> str:
    """How the value of a key is written that is no name of the glossary, where another part of the page says it."""
    if key == FROM_SYSTEM:
        return link("a system", SYSTEMS)
    if key == "kind":
        return f"[a kind of load]({KINDS_PAGE})"
    if key == "rating":
        return link("a rating", RATINGS)
    return ", ".join(map(spaced, glossary.evidence)) if key == "evidence" else ""


def _fields(glossary: Glossary, path: tuple[str, ...]) -> dict[str, Field]:
    """The fields of the glossary that may stand at a place, by the key that people write."""
    if path[-1:] == ("conductors",):
        declared = {
            name.removeprefix(CONDUCTOR): each for name, each in glossary.objects[SUPPLY].items() if name.startswith(CONDUCTOR)
        }
    elif not path:
        declared = glossary.objects["home"]
    elif path == (METER,):
        declared = glossary.objects[RECORD]
    elif path in (("service",), (FEEDERS,)):
        declared = glossary.objects[SUPPLY]
    else:
        of = {PLANNED: LOADS, FEEDS: UNITS}.get(path[-1], path[-1])
        declared = glossary.collections[of].fields if of in glossary.collections else {}
    return {(each.written if each.written and each.written != each.name else name): each for name, each in declared.items()}


def unit_or_words(glossary: Glossary, kind: ValueKind) -> str:
    """The unit of a value, or the words that it may be."""
    if kind.form in ("quantity", "yes_no"):
        return glossary.printed_kind(kind)
    words = glossary.words(kind)
    if words == tuple(glossary.load_kinds):
        return f"[a kind of load]({KINDS_PAGE})"
    shown = [glossary.shown(kind, word) for word in words]
    return f"{shown[0]} to {shown[-1]}" if kind.form == "scale" else ", ".join(shown)


def _systems(glossary: Glossary) -> list[Block]:
    declared = glossary.objects[SUPPLY]
    names = [
        name
        for name in next(iter(glossary.systems.values())).fields
        if name in declared and declared[name].kind.form == "quantity"
    ]
    rows = [
        [
            name,
            *(f"{system.fields[each]:g} {glossary.printed_kind(declared[each].kind)}".replace(" number", "") for each in names),
            ", ".join(system.line_conductors),
        ]
        for name, system in glossary.systems.items()
    ]
    head = ["System", *(declared[each].meaning for each in names), "Line conductors"]
    return [Heading(2, SYSTEMS), Table("", head, rows)]


def _areas(glossary: Glossary) -> list[Block]:
    kinds = next(each.kind for each in glossary.collections["areas"].fields.values() if each.written == "kind")
    told = f"Which of them count as floor area is a rule of each edition (see {link('the methods', page=METHODS_PAGE)})."
    return [Heading(2, AREAS), Paragraph(told), Listing([glossary.shown(kinds, word) for word in glossary.words(kinds)])]


def _ratings(glossary: Glossary) -> list[Block]:
    fields = glossary.collections[LOADS].fields
    rows = []
    for basis, forms in glossary.rating_forms.items():
        shown = []
        for form in forms:
            text = form
            for name, each in fields.items():
                text = text.replace(f"{{{name}}}", f"... {glossary.printed_kind(each.kind)}")
            shown.append(text)
        rows.append([spaced(basis), "\n".join(shown)])
    return [Heading(2, RATINGS), Table("", ["By", "Forms"], rows)]


def _others(glossary: Glossary) -> list[Block]:
    reasons: dict[str, list[str]] = {}
    for name, reason in glossary.no_loads.items():
        reasons.setdefault(reason, []).append(name)
    short: dict[str, list[str]] = {}
    for name, full in glossary.abbreviations.items():
        short.setdefault(full, []).append(name)
    blocks: list[Block] = [Heading(2, NO_LOADS), Listing([f"{', '.join(names)}: {reason}" for reason, names in reasons.items()])]
    if short:
        blocks += [Heading(2, ABBREVIATIONS), Listing([f"{full}: {', '.join(names)}" for full, names in short.items()])]
    return blocks
