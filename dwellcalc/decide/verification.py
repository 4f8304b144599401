"""Facts that nobody stated or saw, and what the result would be if they were otherwise."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any

from dwellcalc.decide.basis import Carried
from dwellcalc.decide.document import NotVerified, SupplyResult
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate import printed
from dwellcalc.facts import Facts, Origin, Unknown
from dwellcalc.glossary import Field
from dwellcalc.home.absences import shown
from dwellcalc.home.evidence import ASSUMED, NOT_SEEN, TOLD
from dwellcalc.home.glossary_names import AREAS, CONNECTION, FROM_KIND, LATER, LEGS_SAID, LOADS, STATE, SUPPLY, TO_BE_INSTALLED
from dwellcalc.home.quantities import is_count
from dwellcalc.home.ratings import SETTING
from dwellcalc.home.supplies import Supply
from dwellcalc.home.values import BY_KIND, QUANTITY
from dwellcalc.placed import spaced

NO_EVIDENCE = "stated without evidence"
CONDUCTORS = "supply conductors"
WEAK = {  # what a value rests on that nobody has seen or measured, in print
    ASSUMED: "assumed, for nobody has said or seen it",
    TOLD: "told, neither seen nor measured",
    NOT_SEEN: "not seen",
}
NOT_READ = {  # what a figure of a nameplate rests on that was not read from it, in print
    "drawings": "as on the drawings, not read from a nameplate",
    TOLD: "as told, not read from a nameplate",
    ASSUMED: "assumed, not read from a nameplate",
    NOT_SEEN: "not seen on a nameplate",
}
NOT_THERE = {  # the same of what is not there
    ASSUMED: "assumed not to be there, for nobody has said so",
    TOLD: "told not to be there, and not looked for",
    NOT_SEEN: "said not to be there, and not looked for",
}


@dataclass
class _Group:
    """Items that share an assumption, and what the result would be if it were otherwise."""

    items: list[str] = field(default_factory=list)
    moves: dict[str, Carried] = field(default_factory=dict)
    short: str = ""

    def listed(self, text: str, verdict: str, usual: str, capacity: float | None) -> NotVerified:
        """The entry for the sheet; what changes the verdict is named, with the capacity [A] where that is another."""
        otherwise = {word: tried.amperes for word, tried in self.moves.items()}
        flips = [f"{word}: {tried.against(capacity)}" for word, tried in self.moves.items() if tried.verdict != verdict]
        by = {word: tried.by for word, tried in self.moves.items() if tried.by not in ("", usual)}
        return NotVerified(self.items, text, otherwise, by, flips, short=self.short)


def facts_with_origin(facts: Facts) -> list[tuple[str, int, str, Field, Any, Origin]]:
    """Every fact with an origin: whose, position (-1: an object), the item's name, its field, value, origin."""
    found = []
    for (owner, position, name), origin in facts.origins.items():
        if position < 0:
            declared = facts.glossary.objects[owner].get(name)
            item, value = "", facts.objects[owner].get(name)
        else:
            declared = facts.glossary.collections[owner].fields.get(name)
            items = facts.collections[owner]
            item = items.names[position]
            value = items.fields[name][position] if declared is not None else None
        if declared is not None:
            found.append((owner, position, item, declared, value, origin))
    return found


def not_verified(
    assessor: SupplyAssessor, supply: SupplyResult, absent: Mapping[str, str] = MappingProxyType({})
) -> list[NotVerified]:
    """The facts not verified, those that move the result first, each with the result if it were otherwise.

    Args:
        assessor: the supply's assessor, whose facts are changed one at a time and put back.
        supply: what it found.
        absent: what the home is said not to have, each with the evidence for that.
    """
    sizing = supply.sizing
    amperes = sizing.amperes if sizing is not None else None
    usual = supply.basis.title if supply.basis is not None else ""
    capacity = sizing.capacity if sizing is not None else None
    found = [*_unseen(assessor.facts), *_weak(assessor.facts), *_not_there(absent, assessor.facts)]
    found += _assumed(assessor, amperes, (supply.verdict, capacity), usual)
    found += [
        NotVerified(
            [], f"{each.meaning}, which is not given, so that the load is not held against it", not_compared=True, short=each.find
        )
        for each in not_given(assessor.supply, assessor.instructions.to_be_read)
    ]
    found += [NotVerified([], f"condition of use not shown: {text}") for text in supply.conditions]
    if sizing is not None and sizing.to_verify:
        what = f"{sizing.seen_to_suffice()} has the ampacity that the main overcurrent device needs; whether a smaller one serves is to be checked"
        found.append(NotVerified([], f"{CONDUCTORS} not seen: {what}", not_compared=True, short=CONDUCTORS))
    counted = [each for each in (_of_counted(one, assessor.facts) for one in found) if each is not None]
    return sorted(counted, key=lambda each: (not each.flips, -_moves(each, amperes)))


def _of_counted(found: NotVerified, facts: Facts) -> NotVerified | None:
    """The same without the loads that come later and are not counted; nothing where it is of these alone."""
    loads = facts.collections[LOADS]
    later = {name for name, each in zip(loads.names, loads.fields.get(LATER, ()), strict=False) if each is True}
    items = [each for each in found.items if each not in later]
    return None if found.items and not items else replace(found, items=items)


def not_verified_of(assessor: SupplyAssessor, names: Collection[str]) -> list[NotVerified]:
    """Of some loads, the ratings that nobody has read, and the connections that nobody has stated."""
    found = list(_unseen(assessor.facts))
    for _, _, item, declared, value, origin in facts_with_origin(assessor.facts):
        if declared.name == CONNECTION and origin.assumed:
            text = f"{ASSUMED} - {declared.meaning}: {printed.value(value, declared.kind, assessor.facts.glossary)}"
            found.append(NotVerified([item], text))
    of_them = [replace(each, items=[item for item in each.items if item in names]) for each in found]
    return [each for each in of_them if each.items]


def not_given(supply: Supply, to_be_read: Sequence[str]) -> list[Field]:
    """What of the panel of a supply that is there has to be read and was not."""
    said, fields = supply.facts.objects[SUPPLY], supply.facts.glossary.objects[SUPPLY]
    there = isinstance(said[STATE], Unknown) or said[STATE] != TO_BE_INSTALLED
    return [fields[name] for name in to_be_read if there and not supply.main_alone and isinstance(said[name], Unknown)]


def _moves(found: NotVerified, amperes: float | None) -> float:
    if amperes is None:
        return 0.0
    return max((abs(value - amperes) for value in found.otherwise.values() if value is not None), default=0.0)


def _assumed(assessor: SupplyAssessor, amperes: float | None, now: tuple[str, float | None], usual: str) -> list[NotVerified]:
    facts, (verdict, capacity) = assessor.facts, now
    read = set(assessor.plan.columns)
    groups: dict[tuple[str, str], _Group] = {}
    for owner, position, item, declared, value, origin in facts_with_origin(facts):
        weak = _weakness(facts, position, declared, origin)
        if not (origin.assumed or weak) or (position >= 0 and (owner, declared.name) not in read):
            continue
        how = spaced(weak or ASSUMED)
        text = f"{how} - {declared.meaning or spaced(declared.name)}: {printed.value(value, declared.kind, facts.glossary)}"
        otherwise = _otherwise(assessor, owner, position, declared, value) if amperes is not None else {}
        moves = {word: tried for word, tried in otherwise.items() if tried.amperes != amperes or tried.verdict != verdict}
        if not moves and not _means_something(declared, facts):
            continue
        alone = item or owner if moves or position < 0 else ""
        group = groups.setdefault((text, alone), _Group())
        group.items.append(item or owner)
        group.short = declared.meaning or spaced(declared.name)
        group.moves.update(moves)
    return [group.listed(text, verdict, usual, capacity) for (text, _), group in groups.items()]


def _means_something(declared: Field, facts: Facts) -> bool:
    """Whether there is a load of the kind without which a fact means nothing."""
    return not declared.with_kind or declared.with_kind in facts.collections[LOADS].fields[FROM_KIND]


def _weakness(facts: Facts, position: int, declared: Field, origin: Origin) -> str:
    """On what weak evidence a fact of a load rests that is stated and that an inspector must find; an empty text of all else."""
    if not declared.find or declared.comes_from != FROM_KIND or origin.assumed:
        return ""
    flag = facts.glossary.load_kinds[facts.collections[LOADS].fields[FROM_KIND][position]].flags.get(declared.name)
    if flag is None or flag.how == BY_KIND:
        return ""
    return (origin.evidence or NO_EVIDENCE) if origin.evidence in (*WEAK, "") else ""


def _otherwise(assessor: SupplyAssessor, owner: str, position: int, declared: Field, value: Any) -> dict[str, Carried]:
    """What must be carried, and the verdict, under each other word of an assumed fact, if a home may be so with all else as it is."""
    if declared.kind.form == "quantity" or declared.name == LEGS_SAID:
        return {}
    facts = assessor.facts
    if declared.name == CONNECTION and facts.collections[owner].fields[LEGS_SAID][position]:
        return {}  # the lines that are said show how it is connected
    column = facts.objects[owner] if position < 0 else facts.collections[owner].fields[declared.name]
    place: Any = declared.name if position < 0 else position
    found: dict[str, Carried] = {}
    for word in facts.glossary.words(declared.kind):
        other = facts.glossary.value(declared.kind, word)
        if other == value:
            continue
        column[place] = other
        found[facts.glossary.shown(declared.kind, word)] = assessor.answered(assessor.choices)[1]
    column[place] = value
    return found


def _unseen(facts: Facts) -> list[NotVerified]:
    unseen: dict[str, None] = {}
    silent: dict[str, None] = {}
    unknown: dict[str, None] = {}
    told: dict[str, None] = {}
    assumed: dict[str, None] = {}
    settings: dict[str, None] = {}
    for _, _, item, declared, value, origin in facts_with_origin(facts):
        if declared.comes_from == "rating" and isinstance(value, Unknown):
            (assumed if origin.evidence == ASSUMED else unknown)[item] = None
        elif declared.comes_from == "rating" and origin.evidence in (NOT_SEEN, TOLD):
            (told if origin.evidence == TOLD else unseen)[item] = None
        elif declared.name == SETTING and origin.evidence == ASSUMED:
            settings[item] = None
        elif declared.comes_from == "rating" and origin.evidence == ASSUMED:
            assumed[item] = None
        elif declared.comes_from == "rating" and not origin.evidence:
            silent[item] = None
    listed = {
        "that it is there is assumed, and its rating, for nobody has said so": {
            name: None for name in assumed if name not in settings
        },
        "what it can be set to is assumed, for nobody has said or seen it": settings,
        "rating not known": unknown,
        "nameplate not seen": unseen,
        "rating told, not seen": told,
        "no evidence stated for the rating": silent,
    }
    return [NotVerified(list(items), text) for text, items in listed.items() if items]


def _weak(facts: Facts) -> list[NotVerified]:
    """Plain facts - of the supply, areas, circuits - of which the home file says that nobody has seen or measured them."""
    found: dict[tuple[str, str], list[str]] = {}
    for owner, _, item, declared, value, origin in facts_with_origin(facts):
        if owner != LOADS and origin.evidence in WEAK and not isinstance(value, Unknown):
            counted = declared.kind.form == QUANTITY and is_count(declared.kind.unit, facts.glossary.units)
            said = f"{value:g}" if counted else printed.value(value, declared.kind, facts.glossary)
            said = origin.written if owner == AREAS else said  # with its bounds, where it has such
            text = f"{declared.meaning}: {said}, {WEAK[origin.evidence]}"
            short = (declared.find or declared.meaning) if owner == SUPPLY else ""
            found.setdefault((text, short), []).append(item or owner)
    return [NotVerified([] if of else items, text, not_compared=bool(of), short=of) for (text, of), items in found.items()]


def _not_there(absent: Mapping[str, str], facts: Facts) -> list[NotVerified]:
    """What is only assumed, or told, not to be there."""
    found: dict[str, list[str]] = {}
    for name, evidence in absent.items():
        if evidence in NOT_THERE:
            found.setdefault(NOT_THERE[evidence], []).append(shown(name, facts.glossary))
    return [NotVerified(items, text) for text, items in found.items()]
