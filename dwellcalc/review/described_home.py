"""The home that the rows of a submittal describe, as the nodes of a home file."""

from __future__ import annotations

from collections.abc import Iterable
from collections.abc import Mapping as Named
from dataclasses import replace

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.glossary import Glossary
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Listing, Mapping, Node, Text, key, spaced, text_at
from dwellcalc.problems import Problems, message
from dwellcalc.review.areas import AREA_FIELD, FloorAreas
from dwellcalc.review.behind import counts_behind, holds_loads
from dwellcalc.review.claims import quantity_in
from dwellcalc.review.described import NOTHING_BESIDE, Described, ToldBeside
from dwellcalc.review.labels import KIND, LINE, Labels, Match, kind_in, kinds_beside, words_of
from dwellcalc.review.later import Later, SaidLater
from dwellcalc.review.line_or_load import loads_named_as_lines
from dwellcalc.review.looked import line_of
from dwellcalc.review.markings import Markings
from dwellcalc.review.reasons import SaidReasons
from dwellcalc.review.row_status import PLANNED, REMOVED
from dwellcalc.review.rows import Row
from dwellcalc.review.steps import Steps
from dwellcalc.units import UnknownUnit

SUBMITTAL_AREA = message(
    "submittal_area",
    "no row and no key of the submittal gives the floor area",
    "`area:` with its unit, or a row for the lighting load with the area as its nameplate",
)

ROW_MATCH = message(
    "row_match",
    'no line of the method and no kind of load is called "{text}"',
    "a line such as `total`, or a kind such as `range`",
)

ROW_LOSES_LOAD = message(
    "row_loses_load",
    'the rating "{rating}" would not be counted: "{line}" is a line, and "{label}" names no kind of load',
    "`match:` with the kind of the load, such as `range`, or a row without a nameplate where the figure is a subtotal",
)

UNITS, AREAS, LOADS = "dwelling_units", "areas", "loads"
UNIT_NAME, UNRATED = "dwelling", "unknown"
LOAD_UNIT = "VA"


class Describer:
    """Reads a home off rows.

    Args:
        rules: the rule set.
        labels: the names that labels may go by.
        plan: how submittals are reviewed: the counts that are taken where nothing is said, the words for steps.
        problems: where what is wrong is noted.
        told: what stands beside the rows.
    """

    def __init__(
        self, rules: RuleSet, labels: Labels, plan: ReviewPlan, problems: Problems, told: ToldBeside = NOTHING_BESIDE
    ) -> None:
        self.rules = rules
        self.glossary: Glossary = rules.glossary
        self.labels = labels
        self.areas = FloorAreas(rules.glossary)
        self.problems = problems
        self.plan = plan
        self.taken = plan.taken
        self.steps = Steps(plan, self.glossary)
        self.markings = Markings(plan.markings, labels, plan.label_volts)
        self.said_later = SaidLater(plan.not_now, told.notes, labels)
        self.said_reasons = SaidReasons(plan, [*told.notes, *told.scope], labels)

    def described(self, rows: Iterable[Row], *, all_of_them: bool = False) -> Described:
        """What some rows say; with ``all_of_them`` those that are said to come later are loads too."""
        found = Described()
        for row in rows:
            later = self._removed(row) or self.said_later.of_row(row, counted=not self.counts_nothing(row))
            if later is not None:
                found.later.append(later)
                if not later.counted and not (all_of_them and not later.removed and later.kind and row.nameplate is not None):
                    continue
            if row.match is None and self.is_step(row):
                found.steps.append(row)
                continue
            why = self.labels.no_load(row.label) if row.match is None and self.counts_nothing(row) else ""
            if why:
                found.no_loads.append((row, why))
                continue
            if row.nameplate is None and row.claimed is None:
                found.blank.append(row)
                continue
            match = self.match(row)
            if match is None and row.match is not None:
                self.problems.add(ROW_MATCH, row.match.place, text=row.match, nearest=self.labels.nearest(row.match))
            if match is None:
                found.unmatched.append(row)
                continue
            if match.what == KIND and row.nameplate is None and self.counts_nothing(row):
                found.blank.append(row)
                continue
            if match.what == KIND:
                self._load(row, match.name, found)
            elif row.nameplate is not None and not self._of_line(row, row.nameplate, match.name, found):
                self._load_at_line(row, row.nameplate, match, found)
                continue
            found.matches.append((row, match))
        for at, named in loads_named_as_lines(found, self.labels, self.rules, self.load_of):
            self._load(found.matches[at][0], named.name, found)
            found.matches[at] = found.matches[at][0], named
        return found

    def _removed(self, row: Row) -> Later | None:
        """What is told of a row of a load that goes; nothing of another."""
        if (row.status or "").casefold() != REMOVED:
            return None
        kind = kind_in(row.match or row.label, self.labels)
        return Later(row, kind, str(row.note or row.label), not self.counts_nothing(row), removed=True)

    def _load_at_line(self, row: Row, rating: Text, match: Match, found: Described) -> None:
        """A row with the rating of a load that is matched with a line: a load by its label, else it would not be counted."""
        kind = self.labels.find(row.label, KIND)
        if kind is not None and kind.what == KIND:
            self._load(row, kind.name, found)
            found.matches += [(row, kind), (row, match)]
        elif row.match is not None:
            self.problems.add(ROW_LOSES_LOAD, row.match.place, rating=rating, line=row.match, label=row.label)
        else:
            found.unmatched.append(row)

    def counts_nothing(self, row: Row) -> bool:
        """Whether a row claims nothing, or a load of zero."""
        return row.claimed is None or self.load_of(row) == 0

    def load_of(self, row: Row) -> float | None:
        """The figure of a row, where it is a load [VA]."""
        kind = self.glossary.collections[LOADS].fields["volt_amperes"].kind
        return None if row.claimed is None else quantity_in(row.claimed, kind, self.glossary)

    def is_of_load(self, row: Row) -> bool:
        """Whether a row is matched with a kind of load."""
        match = self.match(row)
        return match is not None and match.what == KIND

    def is_step(self, row: Row) -> bool:
        """Whether a row is a step within a demand factor."""
        if row.repeats or self.steps.begins(row):
            return True
        return not self.labels.may_be(row.label) and self.steps.is_one(row, self.labels.find(row.label, KIND))

    def match(self, row: Row) -> Match | None:
        """What a row means: what the reviewer says, else what its label does."""
        if row.match is not None:
            match = self.labels.find(row.match, LINE)
            return match if match is None else self._taking(match, row) or match
        rated = row.nameplate is not None and not self._is_count_or_area(row.nameplate)
        order = (KIND, LINE) if rated else (LINE, KIND)
        before = self._before_reason(row)
        found = (self.labels.choices(before, *order) if before else []) or self.labels.choices(row.label, *order)
        return next((taken for each in found if (taken := self._taking(each, row)) is not None), next(iter(found), None))

    def _before_reason(self, row: Row) -> str:
        """What of a label stands before the words of a reason, or empty."""
        said = self.said_reasons.of_row(row)
        return said.before if said is not None and words_of(said.before) else ""

    def _taking(self, match: Match, row: Row) -> Match | None:
        """A match with those of its lines that may have the figure of a row, for a load is no floor area; nothing without such."""
        if match.what != LINE:
            return match
        names = [each for each in (match.name, *match.also) if self._takes(each, row.claimed)]
        if self._counts_another(row):  # a load, though its unit is not told
            names = [each for each in names if not self._is_area(each)]
        return replace(match, name=names[0], also=tuple(names[1:])) if names else None

    def _counts_another(self, row: Row) -> bool:
        """Whether a row has an area, and a figure that is another number than that of it."""
        area = None if row.nameplate is None else self.areas.value(row.nameplate)
        figure = None if row.claimed is None else quantity_in(row.claimed, self.areas.kind, self.glossary)
        return area is not None and figure is not None and figure != area

    def _is_area(self, name: str) -> bool:
        line = line_of(self.rules, name)
        return line is not None and line.kind is not None and line.kind.unit == self.areas.kind.unit

    def _takes(self, name: str, claimed: Text | None) -> bool:
        line = line_of(self.rules, name)
        if line is None or claimed is None or line.kind is None or line.kind.form != "quantity":
            return True
        return quantity_in(claimed, line.kind, self.glossary) is not None

    def _is_count_or_area(self, text: Text) -> bool:
        try:
            kind = self.glossary.units.quantity(text)[1]
        except (ValueError, UnknownUnit):
            return False
        unit = self.glossary.collections[UNITS].fields.values()
        return kind in (self.areas.kind.unit, (), *(each.kind.unit for each in unit)) or self.areas.value(text) is not None

    def _load(self, row: Row, kind: str, found: Described) -> None:
        name, number = str(row.label), 1
        while name.casefold() in {each.casefold() for each in found.loads}:
            number += 1
            name = f"{row.label} {number}"
        found.loads[name] = row
        found.kinds[name] = kind
        before = self._before_reason(row)
        found.beside[name] = kinds_beside(before or row.label, self.labels) if row.match is None else ()
        if row.nameplate is None:
            found.not_shown.append(name)

    def _of_line(self, row: Row, nameplate: Text, name: str, found: Described) -> bool:
        """An area, or a number of circuits of the only field that the line rests on; whether it is of a line at all.

        What a line of such says beside is the load of one circuit or one area.
        """
        if self.areas.value(nameplate) is not None:
            found.areas.append((row.label, nameplate, self.areas.use(row.label), not self.counts_nothing(row)))
            return True
        line = line_of(self.rules, name)
        counts = [] if line is None else counts_behind(line, self.glossary)
        if len(counts) == 1 and self._is_count_or_area(nameplate):
            found.counts[counts[0]] = nameplate
        return self._is_count_or_area(nameplate) or (line is not None and not holds_loads(line))

    # the nodes

    def home(self, described: Described, said: Mapping, title: Text, problems: Problems) -> tuple[Mapping, list[str]]:
        """The nodes of the home file, and what was taken where nothing is said.

        Args:
            described: what the rows say.
            said: what the submittal says in the words of a home file.
            title: what the home is called.
            problems: where what is missing is noted.
        """
        root = _mapping({"home": title}, said)
        unit, taken = self._unit(described, said, title, problems)
        for name, value in said.items():
            if name not in (AREA_FIELD, *self.glossary.collections[UNITS].fields):
                root[name] = value
        planned = [name for name, row in described.loads.items() if (row.status or "").casefold() == PLANNED]
        there = [self._load_node(name, described) for name in described.loads if name not in planned]
        if there:
            unit[text_at(LOADS, title)] = _listing(there, title)
        root[text_at(UNITS, title)] = _listing([unit], title)
        if planned:
            root[text_at(PLANNED, title)] = _listing([self._load_node(name, described) for name in planned], title)
        return root, taken

    def _unit(self, described: Described, said: Mapping, title: Text, problems: Problems) -> tuple[Mapping, list[str]]:
        said_area = said.get(key(AREA_FIELD))
        if said_area is None and not described.areas and self.labels.of_given:  # what was metered was drawn by all of it
            said_area = text_at(UNRATED, title)
        areas = [
            _mapping({"name": label, "kind": text_at(spaced(kind), label), "area": area}, label)
            for label, area, kind, _ in self.areas.together(described.areas, said_area, problems)
        ]
        if not areas:
            problems.add(SUBMITTAL_AREA, title.place)
        unit = _mapping({"name": text_at(UNIT_NAME, title), AREAS: _listing(areas, title)}, title)
        taken = []
        for name, declared in self.glossary.collections[UNITS].fields.items():
            value = said.get(key(name), described.counts.get(name))
            if value is None and name in self.taken:
                value = text_at(self.taken[name], title)
                taken.append(f"{declared.meaning}: {self.taken[name]}")
            if value is not None:
                unit[text_at(name, title)] = _number_alone(value)
        return unit, taken

    def _load_node(self, name: str, described: Described) -> Mapping:
        row = described.loads[name]
        rating = row.nameplate if row.nameplate is not None else row.of_load
        assert rating is not None
        node = _mapping(
            {
                "name": text_at(name, row.label),
                "kind": text_at(spaced(described.kinds[name]), row.label),
                "rating": self._with_unit(rating),
            },
            row.label,
        )
        if row.quantity is not None:
            node[text_at("quantity", row.label)] = row.quantity
        node.update({**described.marked.get(name, {}), **(row.facts or {})})
        return node

    def _with_unit(self, text: Text) -> Text:
        kind = self.glossary.collections[LOADS].fields["volt_amperes"].kind
        try:
            bare = not self.glossary.units.quantity(text)[1] and quantity_in(text, kind, self.glossary) is not None
        except (ValueError, UnknownUnit):
            bare = False
        return text_at(f"{text} {LOAD_UNIT}", text) if bare else text


def _number_alone(value: Node) -> Node:
    """A count without the word for what is counted, as a home file has it."""
    if not isinstance(value, Text):
        return value
    return text_at(value.split()[0], value) if value.split() else value


def _mapping(entries: Named[str, Node], like: Node) -> Mapping:
    made = Mapping({text_at(name, like): each for name, each in entries.items()})
    made.place = like.place
    return made


def _listing(entries: list[Mapping], like: Node) -> Listing:
    made = Listing(entries)
    made.place = like.place
    return made
