"""What a sheet lists beside the calculation: the facts used, those not verified, and what must be found in the field."""

from __future__ import annotations

from typing import Any

from dwellcalc.decide.document import FactEntry, Planned
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.plan import Plan
from dwellcalc.facts import Facts, Origin, Unknown, spaced
from dwellcalc.glossary import Field
from dwellcalc.home import Home

NOT_SEEN = "not_seen"


def _fields(facts: Facts) -> list[tuple[str, int, str, Field, Any, Origin]]:
    """Every fact with an origin: whose, position, the item's name, its field, value, origin."""
    found = []
    for (owner, position, name), origin in facts.origins.items():
        if position < 0:
            declared = facts.glossary.objects[owner].get(name)
            item = ""
            value = facts.objects[owner].get(name)
        else:
            declared = facts.glossary.collections[owner].fields.get(name)
            item = facts.collections[owner].names[position]
            value = facts.collections[owner].fields.get(name, [None])[position] if declared is not None else None
        if declared is not None:
            found.append((owner, position, item, declared, value, origin))
    return found


def fact_entries(facts: Facts) -> list[FactEntry]:
    """Every fact with its value in print, its place and its evidence."""
    return [
        FactEntry(
            owner,
            item,
            spaced(declared.name),
            printed.value(value, declared.kind, facts.glossary),
            origin.written,
            str(origin.place or ""),
            spaced(origin.evidence),
            origin.assumed,
        )
        for owner, _, item, declared, value, origin in _fields(facts)
    ]


def not_verified(plan: Plan, facts: Facts, conductors: dict[str, str]) -> list[str]:
    """The facts of the house that nobody stated or saw, in plain words; only those that the rules read."""
    read = set(plan.columns)
    assumed: dict[tuple[str, str], list[str]] = {}
    unseen: dict[str, None] = {}
    silent: dict[str, None] = {}
    for owner, position, item, declared, value, origin in _fields(facts):
        if origin.assumed and (position < 0 or (owner, declared.name) in read):
            shown = f"{declared.meaning or spaced(declared.name)}: {printed.value(value, declared.kind, facts.glossary)}"
            assumed.setdefault((owner if position < 0 else "", shown), []).append(item)
        if declared.comes_from == "rating":
            if origin.evidence == NOT_SEEN:
                unseen[item] = None
            elif not origin.evidence:
                silent[item] = None
    found = []
    for (owner, shown), items in assumed.items():
        whose = owner or ", ".join(items)
        found.append(f"{whose}: assumed - {shown}")
    if unseen:
        found.append(f"nameplate not seen: {', '.join(unseen)}")
    if silent:
        found.append(f"no evidence stated for the rating of: {', '.join(silent)}")
    if conductors:
        shown = " or ".join(f"{size} {spaced(name).partition(' ')[0]}" for name, size in conductors.items())
        found.append(f"supply conductors not seen: at least {shown} would serve the main overcurrent device")
    return found


def planned_loads(home: Home) -> list[Planned]:
    """The planned loads with their settings and what they take the place of."""
    loads = home.facts.collections["loads"]
    return [
        Planned(
            loads.names[position],
            spaced(str(loads.fields["kind"][position])),
            [old for new, old in home.replaced if new == loads.names[position]],
            home.settings.get(position, []),
        )
        for position in home.planned
    ]


def field_page(facts: Facts) -> list[str]:
    """What inspector and installer must find, from the facts whose field says so."""
    found = []
    for owner, position, item, declared, value, _ in _fields(facts):
        if not declared.find or value is None or isinstance(value, Unknown) or value is False:
            continue
        whose = item or owner
        shown = "" if value is True else f": {printed.value(value, declared.kind, facts.glossary)}"
        found.append(f"{whose} - {declared.find}{shown}" if position >= 0 else f"{declared.find}{shown}")
    return found
