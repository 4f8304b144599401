"""What the document tells of other editions."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(slots=True)
class EditionAnswer:
    """What a supply must carry [A] under an edition, its ``own`` or another, without local amendments, with the same settings.

    ``because`` says what makes the difference to its own; ``settings`` [A] are the largest that fit under the edition, by load: empty
    where none do, nothing where that was not tried.
    """

    edition: str
    method: str
    amperes: float | None
    verdict: str
    own: bool
    because: list[str] = field(default_factory=list)
    settings: dict[str, float] | None = None
    readings: list[str] = field(default_factory=list)  # that the home chose, not the edition's own, and what these give, in print
    by_own_readings: str = ""
