"""The floor areas that the rows of a submittal and its own key give; the same area counts once."""

from __future__ import annotations

import re
from collections.abc import Sequence

from dwellcalc.evaluate import printed
from dwellcalc.glossary import Glossary, ValueKind
from dwellcalc.home.glossary_names import AREAS
from dwellcalc.placed import Text, spaced, text_at
from dwellcalc.problems import Problems, message
from dwellcalc.review.labels import words_of
from dwellcalc.units import UnknownUnit

SUBMITTAL_TWO_AREAS = message(
    "submittal_two_areas",
    "the rows give a floor area of {rows}, and `area` says {own}",
    "leave `area` out where the rows are right; a further area is a row of its own",
)

AMOUNTS = re.compile(r"\d[\d,]*(?:\.\d+)?\s*(?:sq\.?\s*ft\.?|sf\b|ft2|ft\u00b2|m2|m\u00b2)", re.IGNORECASE)
AREA_FIELD, AREA_KIND = "area", "area_kind"
Area = tuple[Text, Text, str, bool]  # what it is called, the area, its use, and whether its row has a figure


class FloorAreas:
    """Reads floor areas.

    Args:
        glossary: the words of the rules.
    """

    def __init__(self, glossary: Glossary) -> None:
        self.glossary = glossary
        fields = glossary.collections[AREAS].fields
        self.kind: ValueKind = fields[AREA_FIELD].kind
        self.uses = glossary.words(fields[AREA_KIND].kind)

    def value(self, text: Text) -> float | None:
        """A text as an area, in the unit of areas; nothing where it is none."""
        try:
            return self.glossary.units.converted(text, self.kind.unit)
        except (ValueError, UnknownUnit):
            return None

    def use(self, label: str) -> str:
        """The use of an area that a label names, or the first."""
        said = words_of(label)
        named = [use for use in self.uses if set(words_of(spaced(use))) <= set(said)]
        return named[0] if named else self.uses[0]

    def together(self, of_rows: Sequence[Area], own: object, problems: Problems) -> list[Area]:
        """The areas of the rows, and that of the key where no row gives it; noted where the two differ.

        Args:
            of_rows: the areas of the rows.
            own: what the key holds, or nothing.
            problems: where what is wrong is noted.
        """
        of_rows = self._once(of_rows)
        if not isinstance(own, Text):
            return of_rows
        alike = [each for each in of_rows if each[-2] == self.uses[0]]
        own = self._added_up(own)
        said = self.value(own)
        if not alike:
            return [*of_rows, (text_at(AREA_FIELD, own), own, self.uses[0], False)]
        found = self._sum(alike)
        if said is None or round(found) != round(said):
            rows = printed.value(found, self.kind, self.glossary)
            problems.add(SUBMITTAL_TWO_AREAS, own.place, rows=rows, own=own)
        return of_rows

    def _added_up(self, text: Text) -> Text:
        """A text of several areas, such as house 2,580 sf + garage 460 sf, as what they add up to; any other as it is."""
        found = [each for part in AMOUNTS.findall(text) if (each := self.value(text_at(part, text))) is not None]
        if self.value(text) is not None or len(found) < 2:
            return text
        return text_at(printed.value(sum(found), self.kind, self.glossary), text)

    def _once(self, of_rows: Sequence[Area]) -> list[Area]:
        """The areas without those that are told again in rows without a figure, beside the rows that count them."""
        counted = [each for each in of_rows if each[-1]]
        again = [each for each in of_rows if not each[-1]]
        return counted if again and round(self._sum(again)) == round(self._sum(counted)) else list(of_rows)

    def _sum(self, areas: Sequence[Area]) -> float:
        return sum(self.value(area) or 0 for _, area, _, _ in areas)
