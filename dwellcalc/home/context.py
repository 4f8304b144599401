"""What a glossary gives the checks of a home file, and what was met so far while one file is read."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from dwellcalc.glossary import Field, Glossary, LoadKind, System
from dwellcalc.placed import Node, Text, spaced
from dwellcalc.units import Kind

from .glossary_names import AREAS, FROM_KIND, SUPPLY
from .names import Names, plain, shown_kind, words_of
from .ratings import SETTING, Form, forms_of

ONE_UNIT = "dwelling"  # what a dwelling unit without a name is called
HOUSE_NAME = "house"
HOUSE = -1  # the position of the home itself among the dwelling units: house loads are its own


@dataclass(frozen=True)
class Vocabulary:
    """The names of a glossary, ready to be found."""

    glossary: Glossary

    @cached_property
    def kinds(self) -> Names[LoadKind]:
        """The kinds of load by their names and other names."""
        kinds = self.glossary.load_kinds.values()
        own = [(shown_kind(kind), kind) for kind in kinds]
        return Names([*own, *((also, kind) for kind in kinds for also in kind.also)])

    @cached_property
    def kind_names(self) -> str:
        """The kinds by their own names, for a hint."""
        return ", ".join(shown_kind(kind) for kind in self.glossary.load_kinds.values())

    @cached_property
    def area_kinds(self) -> set[str]:
        """The uses of areas, as plain names."""
        fields = self.glossary.collections[AREAS].fields.values() if AREAS in self.glossary.collections else ()
        return {plain(spaced(word)) for each in fields if each.written == FROM_KIND for word in self.glossary.words(each.kind)}

    def no_load(self, text: str) -> str:
        """Why a name is no electrical load, or an empty string."""
        return self.glossary.no_loads.get(" ".join(text.split()).casefold(), "")

    @cached_property
    def evidence(self) -> Names[str]:
        """What a value may have been seen on."""
        return words_of(self.glossary.evidence)

    @cached_property
    def systems(self) -> Names[System]:
        """The supply systems."""
        return Names(self.glossary.systems.items(), closed_up=True)

    @cached_property
    def ratings(self) -> tuple[Form, ...]:
        """The forms of a rating."""
        return forms_of(self.glossary)

    @property
    def setting(self) -> Field:
        """The field that a setting fills."""
        return self.glossary.collections["loads"].fields[SETTING]

    @property
    def rating_unit(self) -> Kind:
        """The unit that a supply is rated in."""
        return self.glossary.objects[SUPPLY]["rating"].kind.unit


@dataclass
class UnitMet:
    """A dwelling unit that was met: where it stands, the name that it was given, how many equal ones it stands for."""

    node: Node
    name: Text | None = None
    quantity: float = 1


@dataclass
class LoadMet:
    """A load that was met: its name, its dwelling unit by position (nothing where that is not known), how many it is."""

    name: Text
    unit: int | None
    planned: bool
    quantity: float = 1


@dataclass
class Context:
    """What was met so far in one home file: later checks read it, whether or not earlier ones failed.

    Attributes:
        vocabulary: the names of the glossary.
        system: the supply system of the service, once it is known.
        entries: how many entries `dwelling_units` has.
        units: the dwelling units.
        unit: the position of the dwelling unit that the loads being read are of; nothing where it is not known.
        loads: the loads, by plain name.
        areas: the areas that were given a name, each with the position of its dwelling unit, by plain name.
        kinds: for each kind of load, the name of the first load of that kind.
        other_kinds: the kinds of area that are there, and the sources, each where it stands first.
        feeders: the feeders' names, by plain name.
        panels: the panels' names, by plain name.
        all_panels: the names of all panels of the file, met or not.
        all_loads: the names of all its loads, met or not.
        sources: the sources' names, by plain name.
        fed_units: the dwelling units that a feeder feeds, by position, and where it says so.
        fed: what feeders feed beside: (load or area, plain name) -> where a feeder says so.
        never_together: the loads that stand in a set of loads that never run together, by plain name.
        carried: for each load that is on the circuit of another one, that one, both by plain name.
    """

    vocabulary: Vocabulary
    all_panels: list[Text] = field(default_factory=list)
    all_loads: list[Text] = field(default_factory=list)
    system: System | None = None
    entries: int = 0
    units: list[UnitMet] = field(default_factory=list)
    unit: int | None = None
    loads: dict[str, LoadMet] = field(default_factory=dict)
    areas: dict[str, list[tuple[Text, int]]] = field(default_factory=dict)
    kinds: dict[str, Text] = field(default_factory=dict)
    other_kinds: dict[str, Text] = field(default_factory=dict)
    feeders: dict[str, Text] = field(default_factory=dict)
    panels: dict[str, Text] = field(default_factory=dict)
    sources: dict[str, Text] = field(default_factory=dict)
    fed_units: dict[int, Text] = field(default_factory=dict)
    fed: dict[tuple[str, str], Text] = field(default_factory=dict)
    never_together: dict[str, Text] = field(default_factory=dict)
    carried: dict[str, str] = field(default_factory=dict)

    @property
    def several(self) -> bool:
        """Whether there is more than one dwelling unit, equal ones counted."""
        return self.entries > 1 or sum(unit.quantity for unit in self.units) > 1

    @property
    def unit_names(self) -> Names[int]:
        """The positions of the dwelling units by their names."""
        return Names((unit.name or ONE_UNIT, position) for position, unit in enumerate(self.units))

    @property
    def place_names(self) -> Names[int]:
        """What a load may be in: a dwelling unit, or the house beside several of them."""
        units = [(unit.name or ONE_UNIT, position) for position, unit in enumerate(self.units)]
        return Names([*units, (HOUSE_NAME, HOUSE)] if self.several else units)

    def load(self, text: str) -> LoadMet | None:
        """The load of that name, there or planned, or nothing."""
        return self.loads.get(plain(text))

    def together(self) -> float | None:
        """How many equal dwelling units the loads being read are of; nothing where that is not known."""
        if self.unit is None:
            return None
        return 1 if self.unit == HOUSE else self.units[self.unit].quantity
