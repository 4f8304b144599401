"""What the document tells of the sizing of a supply."""

from __future__ import annotations

from dataclasses import dataclass, field

from dwellcalc.evaluate.sheet import MethodSheet


@dataclass(slots=True)
class SizingResult:
    """What the sizing method gives for a calculated load, in amperes and sizes; nothing where it cannot be had.

    ``amperes`` is what the supply must carry, unrounded: the load, with what the code adds for continuous load, and what a local
    law asks to be provided for at full rating; ``additions`` names these, the parts of its sum after the first.
    ``because`` says why the capacity is what it is, where that does not show by itself.
    """

    amperes: float | None
    amperes_nearest: float | None
    minimum_rating: float | None
    offered_rating: float | None
    capacity: float | None
    weakest: str
    fits: bool | None
    fits_state: str
    margin: float | None
    conductors_suffice: bool | None
    bus_suffices: bool | None
    with_continuous: float | None
    with_continuous_passes: bool | None
    conditions_taken: bool | None
    few_disconnects: bool | None
    margin_is_small: bool | None
    conductors: dict[str, str]
    to_verify: dict[str, str]
    missing: list[str]
    read_choices: set[str]
    sheet: MethodSheet
    additions: list[str] = field(default_factory=list)
    because: list[str] = field(default_factory=list)

    def seen_to_suffice(self) -> str:
        """The conductors with the ampacity that the main overcurrent device needs, where those that are there were not seen."""
        return " or ".join(f"{size} {name.partition('_')[0]}" for name, size in self.to_verify.items())
