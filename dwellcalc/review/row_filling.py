"""Rows with what their labels and notes say and their cells do not."""

from __future__ import annotations

import re
from dataclasses import replace
from math import isclose

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.evaluate import printed
from dwellcalc.home.glossary_names import (
    AREAS,
    CONNECTION,
    FROM_SYSTEM,
    LINE_TO_LINE,
    LINE_TO_NEUTRAL,
    LOADS,
    SUPPLY,
    TO_NEUTRAL,
    VOLTAGE,
)
from dwellcalc.home.names import Names
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine
from dwellcalc.placed import Mapping, Node, Text, key, text_at
from dwellcalc.review.areas import AREA_FIELD
from dwellcalc.review.behind import counts_behind, holds_loads
from dwellcalc.review.claims import quantity_in
from dwellcalc.review.described_home import Describer
from dwellcalc.review.label_figures import DIGIT, LabelFigures, without_device
from dwellcalc.review.labels import KIND, LINE, SHORTER, Match, words_of
from dwellcalc.review.looked import line_of
from dwellcalc.review.percents import SHARE
from dwellcalc.review.reasons import Said
from dwellcalc.review.rows import Row
from dwellcalc.review.stated_settings import StatedSetting
from dwellcalc.review.submittal import Matched

PER = re.compile(r"[A-Za-z]\s*(?:/|\bper\b)\s*[A-Za-z]")  # such as 3 VA/SF
AREA_TIMES = re.compile(r"\s*(?P<number>[\d,]+(?:\.\d+)?)\s*[x×*@]\s*(?P<each>\d+(?:\.\d+)?)\s*(?:VA)?\s*", re.IGNORECASE)
NUMBERS = re.compile(r"\d[\d.]*")


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
        self.figures = LabelFigures(rules, plan.counted, plan.label_volts)
        self.area = self.glossary.collections[AREAS].fields[AREA_FIELD].kind.unit
        self.volts, self.to_neutral = (self._volts(service, each) for each in (VOLTAGE, TO_NEUTRAL))
        self.taken: dict[str, str] = {}  # ratings with a voltage that is not given, by label

    def filled(self, row: Row) -> Row:
        """A row with what its label and its note say."""
        row = self._of_area(self._plain(self._with_setting(row)))
        if row.nameplate is not None or (row.match is None and self.describer.is_step(row)):
            return row
        match = self.describer.match(row)
        rating = self._rating(row, match) if self._is_load(row, match) else None
        if rating is not None:
            rating = self.figures.worked_out(row.label, self._claimed(row)) or rating
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

    def matched(self) -> list[Matched]:
        """The ratings that were taken with a voltage which is not given, for the table of labels."""
        return [Matched(label, "rating", "", told, "", "in a label") for label, told in self.taken.items()]

    def _volts(self, service: Node | None, between: str) -> str:
        """A voltage of the supply system that a submittal names, as it is written; empty where it names none."""
        said = service.get(key(FROM_SYSTEM)) if isinstance(service, Mapping) else None
        system = Names(self.glossary.systems.items(), closed_up=True).find(said) if isinstance(said, Text) else None
        if system is None:
            return ""
        volts = self.glossary.objects[SUPPLY][between]
        return printed.value(system.fields[between], volts.kind, self.glossary)

    def _plain(self, row: Row) -> Row:
        """A row whose nameplate cell is written as labels are, in a form of a home file; as it was where it is in one."""
        said = row.nameplate
        if said is None or self.figures.is_rating(said):
            return row
        whole = text_at(f"{row.label} {said}", said)
        if self.describer.labels.no_load(whole) and self.describer.counts_nothing(row):
            says_it = bool(self.describer.labels.no_load(row.label))
            return replace(row, nameplate=None, label=row.label if says_it else text_at(whole, row.label))
        row = self._working_alone(row)
        if row.nameplate is None:
            return row
        match = self.describer.match(row)
        if match is not None and match.what == LINE and PER.search(said) and self.figures.area(row.label, self.area) is not None:
            return replace(row, nameplate=None, printed=said)  # what counts for each unit of the area, which the label has
        line = line_of(self.rules, match.name) if match is not None and match.what == LINE else None
        area = None if line is None or holds_loads(line) else self.figures.area(said, self.area) or self._area_alone(row, line)
        if area is not None:
            return replace(row, nameplate=area, printed=said)  # with what counts for each unit of it, as in 2,640 sf x 3 VA
        if not DIGIT.search(said) or not self._is_load(row, match):
            return row
        rating = self._rating(replace(row, label=said), match)
        if str(said) in self.taken:
            self.taken[str(row.label)] = self.taken.pop(str(said))
        return row if rating is None else replace(row, nameplate=rating, printed=said)

    def _of_area(self, row: Row) -> Row:
        """A row with a floor area as its nameplate, at the line of that where nothing is known of its label."""
        if row.nameplate is None or row.match is not None or self.describer.areas.value(row.nameplate) is None:
            return row
        is_free = self.describer.match(row) is None and not self.describer.labels.may_be(row.label)
        return replace(row, match=text_at(self.plan.of_area, row.label)) if is_free and self.plan.of_area else row

    def _working_alone(self, row: Row) -> Row:
        """A row of a line that is no load, without what stands in its cell of nameplates, where that is a working: 864 x 25%."""
        plain = replace(row, nameplate=None, printed=row.nameplate)
        match = self.describer.labels.choices(row.label, LINE, KIND)[:1]
        is_line = bool(match) and match[0].what == LINE and match[0].how != SHORTER
        is_working = row.nameplate is not None and SHARE.search(row.nameplate) is not None
        return plain if is_working and is_line else row

    def _area_alone(self, row: Row, line: CheckedLine) -> Text | None:
        """An area without its unit, as in 1750 x 3, where the product is the figure of a line that counts no circuits."""
        said, figure = AREA_TIMES.fullmatch(row.nameplate or ""), self._claimed(row)
        if said is None or figure is None or row.nameplate is None or counts_behind(line, self.glossary):
            return None
        number = said["number"].replace(",", "")
        is_product = isclose(float(number) * float(said["each"]), figure, abs_tol=1)
        return text_at(f"{number} {self.glossary.units.printed(self.area)}", row.nameplate) if is_product else None

    def _rating(self, row: Row, match: Match | None) -> Text | None:
        """The rating in a label: the current of a device that is marked there is none."""
        markings = self.describer.markings
        row = replace(row, label=self.figures.with_volts(without_device(row.label)))
        plain = text_at(markings.without(row.label), row.label)
        return (
            self.figures.rating(plain)
            or self.figures.marked(markings.written(row.label), row.label, self.volts)
            or self._without_voltage(replace(row, label=plain), match)
        )

    def _without_voltage(self, row: Row, match: Match | None) -> Text | None:
        """The rating of a load whose label gives a current or the power of a motor and no voltage, at that of its connection.

        Of a charger that is the voltage between lines; a disposal is mostly connected to one line and the neutral.
        """
        kind = match.name if match is not None and match.what == KIND else ""
        found = self.describer.labels.find(row.label, KIND) if not kind else None
        kind = kind or (found.name if found is not None and found.what == KIND else "")
        flag = self.glossary.load_kinds[kind].flags.get(CONNECTION) if kind else None
        volts = {LINE_TO_LINE: self.volts, LINE_TO_NEUTRAL: self.to_neutral}.get(str(flag.word), "") if flag is not None else ""
        several = self.figures.of_several(row.label, volts) if volts else None
        if several is not None:
            return several
        current = self.figures.current(row.label) if volts else ""
        if current:
            return self._at_voltage(current, volts, row)
        rating = self.figures.of_motor(row.label, volts) if volts else None
        if rating is not None:
            self.taken[str(row.label)] = f"{rating}: the voltage is that of its kind, since none is given"
        return rating

    def _at_voltage(self, current: str, volts: str, row: Row) -> Text:
        """A current at the voltage of its kind; where that is to the neutral and the figure is by the one between lines, at that."""
        made, between = (text_at(f"{current} {self.figures.unit} at {each}", row.label) for each in (volts, self.volts or volts))
        claimed, units = self._claimed(row), self.glossary.units
        if claimed is None or volts != self.to_neutral:
            return made
        by_lines = units.quantity(f"{current} {self.figures.unit}")[0] * units.quantity(self.volts)[0] if self.volts else 0
        if not isclose(claimed, by_lines, abs_tol=1):
            return made
        self.taken[str(row.label)] = f"{between}: the voltage by which its figure is calculated, since none is given"
        return between

    def _claimed(self, row: Row) -> float | None:
        """The figure of a row [VA], or nothing where it has none."""
        kind = self.glossary.collections[LOADS].fields["volt_amperes"].kind
        return None if row.of_load is None else quantity_in(row.of_load, kind, self.glossary)

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
        if row.quantity is not None:
            return row.quantity
        number = self.figures.number(row.label)
        if number in NUMBERS.findall(rating)[:1] and NUMBERS.findall(row.label).count(str(number)) == 1:
            return None  # of `10 kW @ 65%` the 10 is that of the rating
        kind = self.glossary.collections[LOADS].fields["volt_amperes"].kind
        claimed = self._claimed(row)
        return None if claimed is not None and claimed == quantity_in(rating, kind, self.glossary) else number

    def _of_nameplate(self, row: Row) -> Said | None:
        """The reason that stands in the cell of nameplates beside a rating, such as 48 A, set to 32 A."""
        said = row.nameplate
        alone = said is None or self.figures.is_rating(said)
        return None if said is None or alone else self.describer.said_reasons.of_row(replace(row, label=said, note=None))

    def _with_setting(self, row: Row) -> Row:
        """A load that is held to a setting which its label or its note states, rated so."""
        said = self.describer.said_reasons.of_row(row) or self._of_nameplate(row)
        amperes = "" if said is None else StatedSetting(said.reason).amperes(said.text)
        if said is None or not amperes:
            return row
        return replace(row, nameplate=text_at(f"{said.reason.writes} {amperes} {self.figures.unit}", row.label))
