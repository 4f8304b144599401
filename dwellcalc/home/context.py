"""What a glossary gives the checks of a home file, and what was met so far while one file is read."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from dwellcalc.glossary import Field, Glossary, LoadKind, System
from dwellcalc.reading import Text

from .names import Names, shown_kind, words_of
from .ratings import SETTING, Form, forms_of

ONE_UNIT = "dwelling"  # what a dwelling unit without a name is called


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


@dataclass
class Context:
    """What was met so far in one home file: later checks read it, whether or not earlier ones failed.

    Attributes:
        vocabulary: the names of the glossary.
        system: the supply system, once it is known.
        met_unit: whether a dwelling unit was met.
        units: the dwelling units by the names that they were given.
        existing: the loads of dwelling units, by name.
        planned: the planned loads, by name.
        kinds: for each kind of load, the name of the first load of that kind.
    """

    vocabulary: Vocabulary
    system: System | None = None
    met_unit: bool = False
    units: list[str] = field(default_factory=list)
    existing: dict[str, Text] = field(default_factory=dict)
    planned: dict[str, Text] = field(default_factory=dict)
    kinds: dict[str, Text] = field(default_factory=dict)
