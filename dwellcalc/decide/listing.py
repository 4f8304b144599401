"""What a sheet lists beside the calculation: the facts used, the loads, and what must be found in the field."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from dwellcalc.decide.circuit_results import OUT_OF_ORDER, CircuitResult
from dwellcalc.decide.document import FactEntry, LoadEntry, SupplyResult
from dwellcalc.decide.openness import in_words
from dwellcalc.decide.verification import NOT_READ, facts_with_origin, not_given
from dwellcalc.evaluate import printed
from dwellcalc.facts import Facts, Unknown
from dwellcalc.home import Home, Supply
from dwellcalc.home.evidence import ASSUMED
from dwellcalc.home.glossary_names import (
    CONDUCTOR,
    EXISTING_WORK,
    HOME,
    LATER,
    LOADS,
    MARKED,
    ON_CIRCUIT,
    SUPPLY,
    TAKEN_FROM_BREAKER,
)
from dwellcalc.language.amendments import Amendment
from dwellcalc.language.rule_set import RuleSet, installed_folder
from dwellcalc.placed import spaced

NOT_COUNTED = "later, not counted"
NO_LOAD = " (no electrical load, so that none is taken off)"
SETTING, RATING = "setting", "rating"
FROM_BREAKER = "taken from the breaker of {breaker}, to be read on its label"
QUANTITY = "quantity"  # the form of a kind of value


def rule_set_entry(rules: RuleSet, home: Home) -> dict[str, object]:
    """The rules as the document has them, with the amendments taken into account."""
    amendments = [_amendment_entry(each, rules, home) for each in rules.amendments]
    rests_on = list(rules.chain)
    found = {"id": rules.id, "title": rules.title, "digest": rules.digest, "rests_on": rests_on, "amendments": amendments}
    titles = {name: each.title for name, each in rules.sources.items()}
    return {**found, "carried_over": dict(rules.carried_over), "sources": titles}


def _amendment_entry(amendment: Amendment, rules: RuleSet, home: Home) -> dict[str, object]:
    """An amendment with the home's date that decided it, and its whole text where it is none of the package's."""
    sources = [rules.sources[name] for name in amendment.source.split()]
    found: dict[str, object] = {
        "name": amendment.id,
        "title": amendment.title,
        "jurisdiction": amendment.jurisdiction,
        "status": amendment.status,
        "in_force": {"from": amendment.begins, "until": amendment.ends, "confidence": amendment.dates_confidence},
        "days": amendment.days(),
        "fixed_by": spaced(amendment.fixed_by),
        "date": str(home.dates.get(amendment.fixed_by, "")),
        "sources": [f"{each.title}, {each.publisher}, {each.year}" for each in sources],
        "not_expressed": list(amendment.not_expressed),
    }
    outside = amendment.outside or rules.folder != installed_folder()
    return {**found, "text": amendment.text} if outside else found


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
        for owner, _, item, declared, value, origin in facts_with_origin(facts)
    ]


def stated_of(supply: Supply) -> dict[str, str]:
    """What the home file says of a supply itself, in print, by name; what is only assumed is left out."""
    facts = supply.facts
    return {
        spaced(declared.name): printed.value(value, declared.kind, facts.glossary)
        for owner, _, _, declared, value, origin in facts_with_origin(facts)
        if owner == SUPPLY and value is not None and not origin.assumed and not isinstance(value, Unknown)
    }


def rating_of(supply: Supply) -> float | None:
    """The rating of a supply's main overcurrent device [A], nothing where it is not given."""
    rating = supply.facts.objects[SUPPLY]["rating"]
    return rating if isinstance(rating, float) else None


def load_entries(supply: Supply) -> list[LoadEntry]:
    """Every load of a supply as the home file has it: kind, quantity, rating as written, evidence, what replaces what."""
    facts = supply.facts
    loads = facts.collections["loads"]
    units = facts.collections["dwelling_units"].names
    kind = facts.glossary.collections["loads"].fields["kind"].kind
    ratings = {
        position: origin
        for owner, position, _, declared, _, origin in facts_with_origin(facts)
        if owner == LOADS and declared.comes_from == "rating"
    }
    standing, marked = _standing_of_all(facts), _marked(facts)
    found = []
    for position, name in enumerate(loads.names):
        origin = ratings.get(position)
        replaced_by = [new for new, old in supply.replaced if old == name]
        owner = loads.owner[position]
        found.append(
            LoadEntry(
                name,
                printed.value(loads.fields["kind"][position], kind, facts.glossary),
                loads.quantity[position],
                _standing("planned" if position in supply.planned else standing, replaced_by, facts, position),
                origin.written if origin is not None else "",
                spaced(origin.evidence) if origin is not None else "",
                [old for new, old in supply.replaced if new == name]
                + [f"{old}{NO_LOAD}" for new, old in supply.gone if new == name],
                supply.settings.get(position, []),
                units[owner] if owner >= 0 else "house",
                marked.get(position, []),
                _fixed_setting(supply, position),
            )
        )
    return found


def _fixed_setting(supply: Supply, position: int) -> float | None:
    """The setting that a load is fixed at [A], where it cannot be set to another one."""
    found = supply.facts.collections[LOADS].fields[SETTING][position]
    return found if isinstance(found, float) and position not in supply.settings else None


def _marked(facts: Facts) -> dict[int, list[str]]:
    """For each load what the home file says beside its rating in figures, such as its circuit's length, or of what is to be found, in print."""
    found: dict[int, list[str]] = {}
    for owner, position, _, declared, value, origin in facts_with_origin(facts):
        beside = declared.optional and not declared.comes_from and (declared.kind.form == QUANTITY or bool(declared.find))
        if owner == LOADS and beside and not origin.assumed and not (value is None or isinstance(value, Unknown)):
            shown = f"{spaced(declared.name)} {printed.value(value, declared.kind, facts.glossary)}"
            if declared.name == TAKEN_FROM_BREAKER:
                shown = FROM_BREAKER.format(breaker=printed.value(value, declared.kind, facts.glossary))
            read = f" ({NOT_READ[origin.evidence]})" if declared.name in MARKED and origin.evidence in NOT_READ else ""
            found.setdefault(position, []).append(f"{shown}{read}")
    return found


def _standing_of_all(facts: Facts) -> str:
    """What the loads are that are not planned: of an existing home they exist, also where its supply is yet to be installed."""
    state, work = facts.objects[SUPPLY]["state"], facts.objects[HOME]["work"]
    if not isinstance(work, Unknown) and work in EXISTING_WORK:
        return "existing"
    return "existing or new" if isinstance(state, Unknown) else "existing" if state == "existing" else "new"


def _comes_later(facts: Facts, position: int) -> bool:
    """Whether a load comes later, so that it is not counted."""
    column = facts.collections[LOADS].fields.get(LATER)
    return column is not None and column[position] is True


def _standing(status: str, replaced_by: list[str], facts: Facts, position: int) -> str:
    """Planned or there, replaced, and with what it never runs together."""
    if _comes_later(facts, position):
        return NOT_COUNTED
    if replaced_by:
        return f"replaced by {replaced_by[0]}"
    loads = facts.collections[LOADS]
    carried = loads.fields.get(ON_CIRCUIT, [False] * len(loads))
    met = facts.connected.get(LOADS, [[]] * len(loads))
    never = [loads.names[other] for other, _ in met[position] if not carried[other]]
    carriers = [loads.names[at] for at, others in enumerate(met) if carried[position] and position in dict(others)]
    words = [f"never together with {', '.join(never)}"] if never else []
    words += [f"on the circuit of {each}" for each in carriers]
    return ", ".join([status, *words])


def conductors_to_find(supply: SupplyResult, several: bool) -> list[str]:
    """The conductors of a supply that is there and whose conductors nobody has seen."""
    whose = f"{supply.title} - " if several else ""
    if supply.suspected:
        suspected = in_words([each.conductors for each in supply.conductors])
        return [f"{whose}supply conductors: not seen, to be read; suspected to be {suspected}"]
    if supply.sizing is None or not supply.sizing.to_verify:
        return []
    return [
        f"{whose}supply conductors: not seen, to be read; {supply.sizing.seen_to_suffice()} or larger for the main overcurrent device"
    ]


def circuits_to_find(supplies: Sequence[SupplyResult]) -> list[str]:
    """The branch circuits that were sized, as inspector and installer must find them."""
    found = []
    for supply in supplies:
        found += conductors_to_find(supply, len(supplies) > 1)
        for circuit in supply.circuits.circuits if supply.circuits is not None else ():
            more = "".join(f"; {remark}" for remark in (*map(circuit.listed_breaker, circuit.put_right), *circuit.remarks))
            least = f"conductors not smaller than {circuit.conductors_in_short()}"
            found.append(f"{circuit.title} - circuit: {_device(circuit)}, {least}{more}")
    return found


def _device(circuit: CircuitResult) -> str:
    """The device of a circuit: the one that a panel lists where it suits, for which the conductors are, else the one sized."""
    if circuit.listed in (circuit.breaker, *OUT_OF_ORDER) or circuit.put_right:
        at_most = "at most " if circuit.serves else ""
        smaller = "".join(f", or {device} where it is rated up to {rating}" for device, rating in circuit.serves.items())
        return f"overcurrent device {at_most}{circuit.breaker}{smaller}"
    return f"overcurrent device {circuit.listed}, as the panelboard lists it"


def inputs_to_read(supplies: Iterable[SupplyResult]) -> list[str]:
    """What inspector and installer must read since only bounds of it are known, that which moves most first, each once."""
    found = [each for supply in supplies if supply.between is not None for each in supply.between.inputs]
    return list(dict.fromkeys(f"{each.item} - {each.what}: to be read, taken as {each.low} to {each.high}" for each in found))


def field_page(supplies: Sequence[Supply], to_be_read: Sequence[str]) -> list[str]:
    """What inspector and installer must find, from the facts whose field says so.

    Args:
        supplies: the service, which has all loads, then the feeders, of which only what they are themselves is told again.
        to_be_read: what of a supply that is there has to be read.
    """
    found: list[str] = []
    for at, supply in enumerate(supplies):
        conductors: list[str] = []
        for owner, position, item, declared, value, origin in facts_with_origin(supply.facts):
            if owner == LOADS and _comes_later(supply.facts, position):
                continue
            if not declared.find or value is None or isinstance(value, Unknown) or value is False or (at and position >= 0):
                continue
            if owner == SUPPLY and declared.name == RATING and supply.protected_by_service:
                continue  # it has no device of its own
            whose = item if position >= 0 else supply.title if len(supplies) > 1 else ""
            if declared.name == SETTING and origin.evidence == ASSUMED:
                found.append(f"{item} - what it can be set to: assumed, to be read in its manual or on its label")
            shown = "" if value is True else f": {printed.value(value, declared.kind, supply.facts.glossary)}"
            if owner == SUPPLY and declared.name.startswith(CONDUCTOR):
                conductors.append(f"{declared.find}{shown}")
                continue
            found.append(f"{whose} - {declared.find}{shown}" if whose else f"{declared.find}{shown}")
        found += [f"{old}: taken out, {new} in its place" for new, old in supply.gone] if not at else []
        whose = f"{supply.title} - " if len(supplies) > 1 else ""
        found += [f"{whose}{'; '.join(conductors)}"] if conductors else []
        found += [f"{whose}{each.find}: not given, to be read" for each in not_given(supply, to_be_read)]
    return found
