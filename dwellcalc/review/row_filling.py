"""Rows with what their labels and notes say and their cells do not."""

from __future__ import annotations

from dataclasses import replace

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.evaluate import printed
from dwellcalc.home.glossary_names import AREAS, CONNECTION, FROM_SYSTEM, LINE_TO_LINE, LOADS, SUPPLY, VOLTAGE
from dwellcalc.home.names import Names
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Mapping, Node, Text, key, text_at
from dwellcalc.review.areas import AREA_FIELD
from dwellcalc.review.behind import counts_behind, holds_loads
from dwellcalc.review.claims import quantity_in
from dwellcalc.review.described_home import Describer
from dwellcalc.review.label_figures import LabelFigures
from dwellcalc.review.labels import KIND, LINE, Match, words_of
from dwellcalc.review.looked import line_of
from dwellcalc.review.rows import Row
from dwellcalc.review.stated_settings import StatedSetting


class RowFilling:
    """Fills the blank cells of rows: the rating of a load and how many there are, an area, a number of circuits, a setting.

    Args:
        rules: the rule set.
        plan: how submittals are reviewed.
        describer: what tells of what a row is.
        service: what the submittal says of the service, whose voltage is that of a load between lines.
    """

    def __init__(self, rules: RuleSet, plan: ReviewPlan, describer: Describer, service: Node | None = None) -> None:
        self.glossary = rules.glossary
        self.rules = rules
        self.plan = plan
        self.describer = describer
        self.figures = LabelFigures(rules, plan.counted)
        self.area = self.glossary.collections[AREAS].fields[AREA_FIELD].kind.unit
        self.volts = self._volts(service)

    def filled(self, row: Row) -> Row:
        """A row with what its label and its note say."""
        row = self._with_setting(row)
        if row.nameplate is not None or (row.match is None and self.describer.is_step(row)):
            return row
        match = self.describer.match(row)
        rating = self._rating(row, match) if self._is_load(row, match) else None
        if rating is not None:
            return replace(row, nameplate=rating, quantity=self._quantity(row, rating))
        line = None if match is None or match.what != LINE else line_of(self.rules, match.name)
        counts = [] if line is None else counts_behind(line, self.glossary)
        if len(counts) == 1:
            return replace(row, nameplate=row.quantity if row.quantity is not None else self.figures.number(row.label))
        if match is not None and (line is None or holds_loads(line)):
            return row
        area = self.figures.area(row.label, self.area)
        if area is None or (match is None and (row.match is not None or self.describer.labels.may_be(row.label))):
            return row
        return replace(row, nameplate=area, match=row.match if match is not None else text_at(self.plan.of_area, row.label))

    def _volts(self, service: Node | None) -> str:
        """The voltage of the supply system that a submittal names, as it is written; empty where it names none."""
        said = service.get(key(FROM_SYSTEM)) if isinstance(service, Mapping) else None
        system = Names(self.glossary.systems.items(), closed_up=True).find(said) if isinstance(said, Text) else None
        if system is None:
            return ""
        volts = self.glossary.objects[SUPPLY][VOLTAGE]
        return printed.value(system.fields[VOLTAGE], volts.kind, self.glossary)

    def _rating(self, row: Row, match: Match | None) -> Text | None:
        """The rating in a label: the current of a device that is marked there is none."""
        markings = self.describer.markings
        plain = text_at(markings.without(row.label), row.label)
        return (
            self.figures.rating(plain)
            or self.figures.marked(markings.written(row.label), row.label, self.volts)
            or self._between_lines(replace(row, label=plain), match)
        )

    def _between_lines(self, row: Row, match: Match | None) -> Text | None:
        """The rating of a load between lines whose label gives a current and no voltage, such as that of a charger."""
        kind = match.name if match is not None and match.what == KIND else ""
        found = self.describer.labels.find(row.label, KIND) if not kind else None
        kind = kind or (found.name if found is not None and found.what == KIND else "")
        flag = self.glossary.load_kinds[kind].flags.get(CONNECTION) if kind else None
        current = self.figures.current(row.label) if self.volts and flag is not None and flag.word == LINE_TO_LINE else ""
        return text_at(f"{current} {self.figures.unit} at {self.volts}", row.label) if current else None

    def _is_load(self, row: Row, match: Match | None) -> bool:
        """Whether a row is of a load: by its match, or by a kind whose name says as much as that of the line of loads does."""
        if match is None or match.what == KIND:
            return match is not None
        line = line_of(self.rules, match.name)
        found = self.describer.labels.find(row.label, KIND) if row.match is None else None
        return (
            line is not None
            and holds_loads(line)
            and found is not None
            and found.what == KIND
            and len(words_of(found.by)) >= len(words_of(match.by))
        )

    def _quantity(self, row: Row, rating: Text) -> Text | None:
        """How many loads a row with its rating in the label is for, unless its figure is that of one of this rating."""
        number = row.quantity if row.quantity is not None else self.figures.number(row.label)
        kind = self.glossary.collections[LOADS].fields["volt_amperes"].kind
        claimed = None if row.of_load is None else quantity_in(row.of_load, kind, self.glossary)
        of_one = row.quantity is None and claimed is not None and claimed == quantity_in(rating, kind, self.glossary)
        return None if of_one else number

    def _with_setting(self, row: Row) -> Row:
        """A load that is held to a setting which its label or its note states, rated so."""
        said = self.describer.said_reasons.of_row(row)
        amperes = "" if said is None else StatedSetting(said.reason).amperes(said.text)
        if said is None or not amperes:
            return row
        return replace(row, nameplate=text_at(f"{said.reason.writes} {amperes} {self.figures.unit}", row.label))
