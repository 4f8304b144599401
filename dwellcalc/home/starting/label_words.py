"""The words of labels and of people, as ``starter.yaml`` has them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class TwoCurrents:
    """The words on labels for two currents of one unit, and the rating that is made of them."""

    first: tuple[str, ...]
    second: tuple[str, ...]
    writes: str


@dataclass(frozen=True)
class LabelWords:
    """The words of labels, and those that may stand beside the word of a choice.

    Attributes:
        fillers: words beside a choice that change nothing.
        later: words that tell that something is planned and not there yet; times: those that tell in how long.
        ends: words that tell that it comes once another thing is at its end; whens: words beside these; conditions: those with which a
            sentence begins that tells on what it waits; ordinals: of one of two.
        around: words around a number that change nothing.
        sizes: sizes of equipment by which people call it, each with bounds of its rating; ``sizes_say`` whose these are.
        keys: further keys of a load, each with the words that stand for it; of the first a rating can be made.
        two_currents: ratings of two currents.
        one_of_two: that only one of several elements heats at a time.
        elements: what names these; of_all: what tells that a figure is of all of it.
        beside: what says nothing of the rating.
        beside_loads: words for what the label is of, which say nothing of it either.
        forms: how a rating is written, by the unit that a question names.
        numbers: the words for numbers, from the first on; fractions: those for parts of a horsepower, each with the number.
        of_kinds: bounds of loads whose rating nobody knows, by kind.
        nominal: nominal voltages, each with those on labels whose currents count at it.
        denies, affirms, passed: words of sentences that deny, affirm, or change nothing.
        places: words with which it begins where something is.
        thinks_so: sentences that say yes and are not sure; doubts: words that tell that.
        alters: words that make a figure beside them mean something else than it says; alters_rating: those that do it of a rating.
        passed_units: units of what no question asks for, such as years; years_after: words before the year of something.
        free: words for breaker spaces that are free.
        floors: words for the floors of a house; which_floor: words beside them that tell which.
        evidence: what people say for the words of what a rating was read from.
    """

    keys: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    two_currents: tuple[TwoCurrents, ...] = ()
    one_of_two: tuple[str, ...] = ()
    elements: tuple[str, ...] = ()
    of_all: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    beside_loads: tuple[str, ...] = ()
    forms: Mapping[str, str] = field(default_factory=dict)
    evidence: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    fillers: tuple[str, ...] = ()
    later: tuple[str, ...] = ()
    times: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()
    whens: tuple[str, ...] = ()
    conditions: tuple[str, ...] = ()
    ordinals: tuple[str, ...] = ()
    around: tuple[str, ...] = ()
    sizes: Mapping[str, str] = field(default_factory=dict)
    sizes_say: str = ""
    numbers: tuple[str, ...] = ()
    fractions: Mapping[str, str] = field(default_factory=dict)
    of_kinds: Mapping[str, str] = field(default_factory=dict)
    nominal: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    denies: tuple[str, ...] = ()
    affirms: tuple[str, ...] = ()
    passed: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    free: tuple[str, ...] = ()
    floors: tuple[str, ...] = ()
    which_floor: tuple[str, ...] = ()
    thinks_so: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()
    alters: tuple[str, ...] = ()
    alters_rating: tuple[str, ...] = ()
    passed_units: tuple[str, ...] = ()
    years_after: tuple[str, ...] = ()
