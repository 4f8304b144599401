"""What the rows of a submittal say of its home, before it is a home."""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from dwellcalc.placed import Mapping, Text
from dwellcalc.review.labels import KIND, LINE, Labels, Match
from dwellcalc.review.later import Later
from dwellcalc.review.rows import Row


class ToldBeside(NamedTuple):
    """What stands beside the rows: the notes of the submittal, and what is to be installed, which may say a setting too."""

    notes: Sequence[Text] = ()
    scope: Sequence[Text] = ()


NOTHING_BESIDE = ToldBeside()


@dataclass
class Described:
    """What the rows say of the home: areas, counts of circuits, loads; and what each row was matched with.

    Rows that are no loads, such as one of a range that burns gas, stand in ``no_loads`` with the reason, those that are said to
    come later in ``later``; of a load whose label names several kinds these stand in ``beside``; markings of loads that labels say in ``marked``.
    """

    areas: list[tuple[Text, Text, str, bool]] = field(default_factory=list)
    counts: dict[str, Text] = field(default_factory=dict)
    loads: dict[str, Row] = field(default_factory=dict)
    kinds: dict[str, str] = field(default_factory=dict)
    not_shown: list[str] = field(default_factory=list)
    matches: list[tuple[Row, Match]] = field(default_factory=list)
    unmatched: list[Row] = field(default_factory=list)
    steps: list[Row] = field(default_factory=list)
    blank: list[Row] = field(default_factory=list)
    no_loads: list[tuple[Row, str]] = field(default_factory=list)
    later: list[Later] = field(default_factory=list)
    beside: dict[str, tuple[str, ...]] = field(default_factory=dict)
    marked: dict[str, Mapping] = field(default_factory=dict)

    def match_by_home(self, labels: Labels, kinds: Container[str]) -> None:
        """Match the rows that leave several kinds of load open, of which a home that is given has only one."""
        for row in list(self.unmatched):
            found = labels.told_by(row.label, kinds) if row.match is None else None
            if found is not None:
                self.unmatched.remove(row)
                self.matches.append((row, found))

    def match_lines_again(self, labels: Labels) -> None:
        """Match the rows of lines with those of another method; the loads stay what they are."""
        matches, self.matches = self.matches, []
        for row, match in matches:
            found = match if match.what == KIND else labels.find(row.match if row.match is not None else row.label, LINE)
            if found is None or found.what != match.what:
                self.unmatched.append(row)
            else:
                self.matches.append((row, found))
