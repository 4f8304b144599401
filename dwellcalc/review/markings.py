"""Markings of equipment that stand in labels, of the table or of the panel schedule, such as the minimum circuit ampacity."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from dwellcalc.placed import Mapping as Node
from dwellcalc.placed import Text, spaced, text_at
from dwellcalc.review.labels import KIND, Labels
from dwellcalc.review.rows import Row

UNIT = "A"


class Markings:
    """Reads the markings in labels.

    Args:
        written: of fields of a load, how each is written before its number.
        labels: the names that kinds of load go by.
    """

    def __init__(self, written: Mapping[str, tuple[str, ...]], labels: Labels) -> None:
        self.patterns = {
            name: re.compile(
                rf"\b(?P<phrase>{'|'.join(re.escape(each) for each in sorted(phrases, key=len, reverse=True))})\b"
                r"[\s:=]*(?P<number>\d+(?:\.\d+)?)(?:\s*A\b)?(?!\s*(?:at|@)|[\d.])",
                re.IGNORECASE,
            )
            for name, phrases in written.items()
        }
        self.labels = labels

    def of_label(self, label: Text) -> Node:
        """The fields that a label says, as a home file has them."""
        found = ((name, pattern.search(label)) for name, pattern in self.patterns.items())
        return Node(
            {
                text_at(spaced(name), label): text_at(f"{match['number']} {UNIT}", label)
                for name, match in found
                if match is not None
            }
        )

    def written(self, label: str) -> list[str]:
        """The markings in a label, each as it is named there, with its current."""
        found = (pattern.search(label) for pattern in self.patterns.values())
        return [f"{match['phrase']} {match['number']} {UNIT}" for match in found if match is not None]

    def without(self, label: str) -> str:
        """A label without its markings."""
        for pattern in self.patterns.values():
            label = pattern.sub("", label)
        return label

    def of_loads(self, schedule: Iterable[Text], rows: Mapping[str, Row], kinds: Mapping[str, str]) -> dict[str, Node]:
        """What the labels of loads, and of the panel schedule, say of each load; the first that says it holds.

        Args:
            schedule: the labels of the panel schedule, each of which counts where it means only one load.
            rows: the row of each load, by its name.
            kinds: the kind of each load.
        """
        found = {name: self.of_label(text_at(f"{row.label} {row.printed or ''}", row.label)) for name, row in rows.items()}
        for label in schedule:
            marked = self.of_label(label)
            name = self.load(self.without(label), kinds) if marked else ""
            if name:
                found[name] = Node({**marked, **found[name]})
        return {name: marked for name, marked in found.items() if marked}

    def load(self, label: str, kinds: Mapping[str, str]) -> str:
        """The only load that a label may mean, or empty."""
        own = [name for name in kinds if name.casefold() == label.strip(" ,()").casefold()]
        told = self.labels.told_by(label, set(kinds.values())) or self.labels.find(label, KIND)
        alike = [name for name, kind in kinds.items() if told is not None and told.what == KIND and kind == told.name]
        return own[0] if len(own) == 1 else alike[0] if len(alike) == 1 else ""
