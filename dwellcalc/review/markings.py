"""Markings of equipment that stand in labels, of the table or of the panel schedule, such as the minimum circuit ampacity."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from dwellcalc.placed import Mapping as Node
from dwellcalc.placed import Text, spaced, text_at
from dwellcalc.review.labels import KIND, Labels
from dwellcalc.review.rows import Row

UNIT = "A"
NUMBER = r"(?P<number>\d+(?:\.\d+)?)"
AMPERES = r"(?:\s*A(?:mps?|mperes?)?\b)"
NOT_AT = r"(?!\s*(?:at\b|@|V\b|volt)|[\d.])"
BEHIND = rf"\b(?P<phrase>{{phrases}})\b[\s:=]*(?:(?:of|is)\s+)?{NUMBER}{AMPERES}?{NOT_AT}"  # MCA 24.2
BEFORE = rf"(?<![\w.,/#]){NUMBER}{AMPERES}?\s*(?P<phrase>{{phrases}})\b"  # 24.2 MCA
BOTH = (  # MCA/MOCP 24.2/35
    r"\b(?P<one>{phrases})\s*/\s*(?P<other>{phrases})[\s:=]*(?P<of_one>\d+(?:\.\d+)?)\s*A?\s*/\s*(?P<of_other>\d+(?:\.\d+)?)(?:\s*A\b)?"
)


@dataclass(frozen=True)
class Marking:
    """A marking in a label: its field, how it is named there, its number, and where it stands."""

    name: str
    phrase: str
    number: str
    place: tuple[int, int]


class Markings:
    """Reads the markings in labels.

    Args:
        written: of fields of a load, how each is written beside its number.
        labels: the names that kinds of load go by.
        volts: voltages that are written without their unit.
    """

    def __init__(self, written: Mapping[str, tuple[str, ...]], labels: Labels, volts: Iterable[str] = ()) -> None:
        self.volts = set(volts)
        self.fields = {phrase.casefold(): name for name, phrases in written.items() for phrase in phrases}
        self.short = {name: phrases[0] for name, phrases in written.items() if phrases}
        phrases = "|".join(re.escape(each) for each in sorted(self.fields, key=len, reverse=True)) or "(?!)"
        self.behind, self.before, self.both = (
            re.compile(form.format(phrases=phrases), re.IGNORECASE) for form in (BEHIND, BEFORE, BOTH)
        )
        self.labels = labels

    def found(self, label: str) -> list[Marking]:
        """The markings in a label: two beside one another, else each before its number, or behind it where more are read so."""
        both = self.both.search(label)
        if both is not None:
            pairs = ((both["one"], both["of_one"]), (both["other"], both["of_other"]))
            return [Marking(self.fields[phrase.casefold()], phrase, number, both.span()) for phrase, number in pairs]
        one, other = (
            [Marking(self.fields[each["phrase"].casefold()], each["phrase"], each["number"], each.span()) for each in found]
            for found in (self.behind.finditer(label), self.before.finditer(label))
        )
        one = [each for each in one if not (other and each.number in self.volts)]  # of 24.2 MCA 240 the 240 is no current
        return other if len(other) > len(one) else one

    def of_label(self, label: Text) -> Node:
        """The fields that a label says, as a home file has them."""
        found = {each.name: each for each in reversed(self.found(label))}
        return Node(
            {
                text_at(spaced(name), label): text_at(f"{found[name].number} {UNIT}", label)
                for name in self.fields.values()
                if name in found
            }
        )

    def written(self, label: str) -> list[str]:
        """The markings in a label, each by the first of its names, with its current."""
        return [f"{self.short[each.name]} {each.number} {UNIT}" for each in self.found(label)]

    def without(self, label: str) -> str:
        """A label without its markings."""
        for start, end in sorted({each.place for each in self.found(label)}, reverse=True):
            label = f"{label[:start]}{label[end:]}"
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
