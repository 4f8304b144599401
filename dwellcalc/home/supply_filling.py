"""The supply of a service or a feeder: what is said, what its system says, and what is usual."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from dwellcalc.facts import Facts, Origin
from dwellcalc.glossary import Field, System
from dwellcalc.placed import Text

from .evidence import evidence_of
from .glossary_names import (
    CONDUCTOR,
    DISCONNECTS,
    FROM_DISCONNECTS,
    FROM_SYSTEM,
    LINES,
    NUMBER_OF_DISCONNECTS,
    PAIRS,
    STATE,
    SUPPLY,
    TO_BE_INSTALLED,
)
from .stated import origin_of, set_said
from .suspected import is_several
from .values import Said

NEW_WORK = "new"


@dataclass(frozen=True)
class Form:
    """A service or a feeder as the file has it.

    Attributes:
        model: its model.
        system: its supply system.
        work: what kind of work the home is in, if that is said.
        like: where it stands.
        follows: what follows from the form of the file where nothing is said: field -> yes or no.
    """

    model: Any
    system: Said
    work: Said | None
    like: Text
    follows: dict[str, bool]


def fill_supply(form: Form, facts: Facts) -> None:
    """Fill the supply of facts in which it is unknown."""
    for name, declared in facts.glossary.objects[SUPPLY].items():
        if declared.comes_from == FROM_DISCONNECTS:
            continue
        said = _of_supply(form.model, name)
        if said is None or said.not_seen or is_several(said):
            _assume(form, facts, declared)
        elif name != FROM_SYSTEM:
            set_said(facts, SUPPLY, declared, said, _evidence(form.model, name))
    for name, value in form.system.value.fields.items():
        facts.set(SUPPLY, name, value, origin_of(form.system, _evidence(form.model, name) if name == FROM_SYSTEM else ""))
    _disconnects(form.model.disconnects, facts)


def _of_supply(model: Any, name: str) -> Said | None:
    """What the service or feeder, or its conductors, say of a field of the supply."""
    if name.startswith(CONDUCTOR):
        return getattr(model.conductors, name.removeprefix(CONDUCTOR), None)
    return getattr(model, name, None)


def _evidence(model: Any, name: str) -> str:
    """On what evidence a field of the supply rests, by what the service or feeder, or its conductors, say."""
    if name.startswith(CONDUCTOR):
        return evidence_of(model.conductors).of(name.removeprefix(CONDUCTOR))
    return evidence_of(model).of(name)


def _disconnects(said: list[Said], facts: Facts) -> None:
    """The disconnects that take the place of a main: how many, and their ratings added."""
    if said and DISCONNECTS in facts.objects[SUPPLY]:
        origin = Origin(", ".join(each.text for each in said), said[0].text.place)
        facts.set(SUPPLY, DISCONNECTS, sum(each.value for each in said), origin)
        facts.set(SUPPLY, NUMBER_OF_DISCONNECTS, float(len(said)), origin)


def _assume(form: Form, facts: Facts, declared: Field) -> None:
    """What follows from the form of the file, or holds unless said otherwise."""
    if declared.name in form.follows:
        facts.set(SUPPLY, declared.name, form.follows[declared.name], Origin("", form.like.place))
        return
    if declared.name == STATE and form.work is not None:  # whoever says what the work is says what is there
        word = TO_BE_INSTALLED if form.work.value == NEW_WORK else declared.unless_said
        facts.set(SUPPLY, declared.name, facts.glossary.value(declared.kind, word), origin_of(form.work))
    elif declared.unless_said:
        origin = Origin("", form.like.place, assumed=True)
        facts.set(SUPPLY, declared.name, facts.glossary.value(declared.kind, declared.unless_said), origin)


def lines_of(system: System) -> dict[str, list[str]]:
    """The items that loads are connected to, by collection, as they are shown."""
    pairs = [f"Lines {'-'.join(pair.split())}" for pair in system.line_pairs]
    return {LINES: [f"Line {line}" for line in system.line_conductors], PAIRS: pairs}


def add_lines(system: System, facts: Facts) -> None:
    """Add the line conductors of a system, and their pairs."""
    for collection, names in lines_of(system).items():
        for name in names:
            facts.add(collection, name, {})
