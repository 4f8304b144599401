"""What the document tells of panelboards."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(slots=True)
class ListedCircuit:
    """A circuit of a panelboard, each value in print.

    Attributes:
        load: its load, or what it is for.
        on_it: its load or loads by name, or what it is for.
        quantity: how many equal ones there are.
        breaker: the breaker that is listed; a dash where the circuit is not listed.
        poles: the poles of that breaker.
        listed: whether the home lists it; else it is that of a planned load, or of one that goes.
        device: the overcurrent device that was sized, where its circuit is.
        limits: the least and the largest device that the load allows, where a largest is known.
        conductors: the smallest conductors in a sentence, where its circuit is sized.
        put_right: what is to be put right of the breaker.
        removed: whether its load is removed, since a planned one takes its place.
        places: the numbers of its breaker spaces, where they are given out.
        tandem: whether it is one of two breakers in a space.
        later: whether its load comes later and is not counted.
    """

    load: str
    on_it: str
    quantity: float
    breaker: str
    poles: str
    listed: bool
    device: str = ""
    limits: str = ""
    conductors: str = ""
    put_right: tuple[str, ...] = ()
    removed: bool = False
    places: str = ""
    tandem: bool = False
    later: bool = False


@dataclass(slots=True)
class PanelSchedule:
    """A panelboard: its name, its number of spaces, its circuits, and what is told of its spaces, by what it is.

    ``proposed`` says that no circuits are listed, and those are a proposal. ``free`` are the numbers of the spaces that nothing is in, and ``free_number`` how many, where numbers are given out.
    ``unlisted`` says how many of the spaces are taken by circuits that are not listed, ``left_with_later`` how many are left where
    the circuits of what comes later are in too; empty where nothing is to be said.
    """

    name: str
    spaces: str
    circuits: list[ListedCircuit]
    of_spaces: dict[str, str]
    free: str = ""
    free_number: int = 0
    proposed: bool = False
    unlisted: str = ""
    left_with_later: str = ""
