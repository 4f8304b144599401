"""What an assessment does: the file that a code's editions name, read and checked against the rule set."""

from __future__ import annotations

from dataclasses import dataclass

from dwellcalc.decide.alternative_plans import AlternativePlan, read_alternatives, read_groups
from dwellcalc.decide.assessment_reader import AssessmentReader
from dwellcalc.decide.because import read_because
from dwellcalc.decide.connected import ConnectedPlan, read_connected
from dwellcalc.decide.rating_trial import RatingTrial, read_rating_trial
from dwellcalc.decide.record_plan import RecordPlan, read_record_plan
from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.decide.review_reader import read_review
from dwellcalc.decide.usual import Usual, read_usual
from dwellcalc.home.glossary_names import SUPPLY
from dwellcalc.language.documents import QUOTED
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedGroup
from dwellcalc.language.words import (
    AHEAD_OF_MAIN,
    ASSESSMENT_KEYS,
    ASSESSMENT_LISTS,
    ASSESSMENT_OPTIONAL,
    ASSESSMENT_TEXTS,
    BECAUSE,
    BESIDE_KEYS,
    CHECKED,
    CIRCUIT_LISTS,
    CIRCUIT_ROLES,
    CONNECTED,
    DRAWN_KEYS,
    DROP_LISTS,
    FILLED_LATER,
    PANEL_LISTS,
    PANEL_ROLES,
    PANEL_SCHEDULE,
    RECORD,
    REMARKS,
    REVIEW,
    SIZING_LISTS,
    SIZING_OPTIONAL,
    SIZING_OPTIONAL_LISTS,
    SIZING_RESULTS,
    TRIAL_KEYS,
    USUAL,
)
from dwellcalc.placed import Listing, Mapping, Node, Text, as_list, as_mapping, as_text, key, text_at
from dwellcalc.problems import Problems, message, nearest_name

ASSESSMENT_COLUMN = message("assessment_column", 'the method "{method}" has no column "{name}"')
ASSESSMENT_WHERE = message("assessment_where", 'there is no collection "{name}" in the glossary')
ASSESSMENT_BASIS = message("assessment_basis", '"{word}" is no way to choose the basis', "only `least`")


@dataclass(frozen=True)
class Sizing:
    """The method that sizes the supply, what it is given, what its results are called, why a capacity is what it is, and what a review tells."""

    method: str
    given: dict[str, str]
    results: dict[str, str]
    lists: dict[str, tuple[str, ...]]
    because: dict[str, str]
    checked: dict[str, str]


@dataclass(frozen=True)
class Beside:
    """A method calculated beside the basis.

    Attributes:
        method: its name.
        where: the collection of which the home must have an item, or an empty string.
        answer: the results that the first lines show -> as what.
        if_not: those of them that must hold -> the remark where one does not.
        of_new: whether the first lines show them only where conductors are to be chosen, not of a supply that is there.
        drawn: those of them that a single-line diagram names -> as which conductor.
        ahead_of_main: results -> what such a diagram draws ahead of the main where the result is yes.
    """

    method: str
    where: str
    answer: dict[str, str]
    if_not: dict[str, str]
    drawn: dict[str, str]
    of_new: bool
    ahead_of_main: dict[str, str]


@dataclass(frozen=True)
class Columns:
    """A method whose columns are told of each item: its name, a column for each role, and lists: column -> heading."""

    method: str
    roles: dict[str, str]
    lists: dict[str, dict[str, str]]

    @property
    def first(self) -> str:
        """The column that stands first."""
        return next(iter([*self.roles.values(), *(name for names in self.lists.values() for name in names)]))


@dataclass(frozen=True)
class Instructions:
    """An assessment file: methods to try, how the basis is chosen, sizing, and the words of every sheet."""

    title: str
    offered: tuple[str, ...]
    default: str
    methods: tuple[str, ...]
    total: str
    amperes: str
    basis_note: str
    sizing: Sizing
    beside: tuple[Beside, ...]
    branch_circuits: Columns | None
    voltage_drop: Columns | None
    panel_schedule: Columns | None
    remarks: dict[str, str]
    cautions: tuple[str, ...]
    checklist: tuple[str, ...]
    not_calculated: tuple[str, ...]
    to_be_read: tuple[str, ...]
    installed_as_one: tuple[CheckedGroup, ...]
    combinations_at_most: float
    combinations_tried_again: float
    pairs_tried: float
    pairs_told: float
    alternatives: tuple[AlternativePlan, ...]
    unknown_ratings: RatingTrial
    sizes_new: tuple[str, ...]
    record: RecordPlan | None
    review: ReviewPlan | None
    connected: ConnectedPlan | None
    usual: tuple[Usual, ...]


def read_instructions(rules: RuleSet) -> Instructions:
    """The instructions that a rule set's assessment file gives, read once; InputError with everything that is wrong in it."""
    found = rules.kept.get(Instructions.__name__)
    if isinstance(found, Instructions):
        return found
    problems = Problems()
    made = _Reader(rules, problems).read(as_mapping(with_sections(rules.assessment, rules), "assessment", problems))
    problems.raise_if_any()
    rules.kept[Instructions.__name__] = made
    return made


def with_sections(node: Node, rules: RuleSet) -> Node:
    """An assessment with each citation key that its texts quote in braces as the section that it is in the edition."""
    if isinstance(node, Text):
        filled = QUOTED.sub(lambda match: rules.section(match[1]), node)
        return node if filled == node else text_at(filled, node)
    if isinstance(node, Mapping):
        made = Mapping({name: each if name in FILLED_LATER else with_sections(each, rules) for name, each in node.items()})
        made.place = node.place
        return made
    listed = Listing(with_sections(each, rules) for each in node)
    listed.place = node.place
    return listed


class _Reader(AssessmentReader):
    def read(self, node: Mapping) -> Instructions:
        self.keys(node, ASSESSMENT_KEYS, "an assessment")
        texts = {name: self.text(node, name) for name in ASSESSMENT_TEXTS}
        lists = {name: self.texts(self.need(node, name, "an assessment")) for name in ASSESSMENT_LISTS}
        lists |= {name: self.texts(node[key(name)]) if name in node else () for name in ASSESSMENT_OPTIONAL}
        if texts["basis"] != "least":
            self.problems.add(ASSESSMENT_BASIS, texts["basis"].place, word=texts["basis"])
        for name in lists["methods"]:
            self.result(name, texts["total"])
            self.result(name, texts["amperes"])
        self.keys(lists["to_be_read"], self.rules.glossary.objects[SUPPLY], SUPPLY)
        remarks = as_mapping(self.need(node, "remarks", "an assessment"), "remarks", self.problems)
        self.keys(remarks, REMARKS, "remarks")
        plain = {name: tuple(str(text) for text in texts) for name, texts in lists.items()}
        return Instructions(
            str(texts["assessment"]),
            plain["offered"],
            str(texts["default"]),
            plain["methods"],
            str(texts["total"]),
            str(texts["amperes"]),
            str(texts["basis_note"]),
            self.sizing(as_mapping(self.need(node, "sizing", "an assessment"), "sizing", self.problems)),
            self.all_beside(node),
            self.columns(node, "branch_circuits", CIRCUIT_ROLES, CIRCUIT_LISTS),
            self.columns(node, "voltage_drop", (), DROP_LISTS),
            self.columns(node, PANEL_SCHEDULE, PANEL_ROLES, PANEL_LISTS),
            {str(name): str(as_text(text, name, self.problems)) for name, text in remarks.items()},
            plain["cautions"],
            plain["checklist"],
            plain["not_calculated"],
            plain["to_be_read"],
            read_groups(lists["installed_as_one"], self.rules, self.problems),
            self.number(node, "combinations_at_most"),
            self.number(node, "combinations_tried_again"),
            self.number(node, "pairs_tried"),
            self.number(node, "pairs_told"),
            self.alternatives(node),
            self.rating_trial(node),
            plain["sizes_new"] or plain["methods"],
            read_record_plan(node[key(RECORD)], self.rules, self.problems) if RECORD in node else None,
            read_review(as_mapping(node[key(REVIEW)], REVIEW, self.problems), self) if REVIEW in node else None,
            read_connected(as_mapping(node[key(CONNECTED)], CONNECTED, self.problems), self) if CONNECTED in node else None,
            read_usual(as_mapping(node[key(USUAL)], USUAL, self.problems), self) if USUAL in node else (),
        )

    def sizing(self, node: Mapping) -> Sizing:
        known = (*SIZING_RESULTS, *SIZING_OPTIONAL, *SIZING_LISTS, *SIZING_OPTIONAL_LISTS)
        self.keys(node, ("method", "given", BECAUSE, CHECKED, *known), "sizing")
        method = self.text(node, "method")
        results = {name: self.text(node, name) for name in SIZING_RESULTS}
        results |= {name: self.text(node, name) for name in SIZING_OPTIONAL if name in node}
        lists = {name: self.texts(self.need(node, name, "sizing")) for name in SIZING_LISTS}
        lists |= {name: self.texts(node[key(name)]) for name in SIZING_OPTIONAL_LISTS if name in node}
        for name in (*results.values(), *(each for names in lists.values() for each in names)):
            self.result(method, name)
        given = as_mapping(self.need(node, "given", "sizing"), "given", self.problems)
        for name in given:
            self.given(method, name)
        return Sizing(
            str(method),
            {str(name): str(as_text(text, name, self.problems)) for name, text in given.items()},
            {name: str(text) for name, text in results.items()},
            {name: tuple(str(text) for text in texts) for name, texts in lists.items()},
            read_because(node, method, self),
            read_because(node, method, self, CHECKED),
        )

    def all_beside(self, node: Mapping) -> tuple[Beside, ...]:
        """The methods that are calculated beside the basis."""
        if "beside" not in node:
            return ()
        entries = as_list(node[key("beside")], "beside", self.problems)
        return tuple(self.beside(as_mapping(entry, "an entry", self.problems)) for entry in entries)

    def beside(self, node: Mapping) -> Beside:
        """A method that is calculated beside the basis."""
        self.keys(node, BESIDE_KEYS, "beside")
        method = self.text(node, "method")
        where = as_text(node[key("where")], "where", self.problems) if "where" in node else ""
        collections = self.rules.glossary.collections
        if isinstance(where, Text) and where not in collections:
            near = nearest_name(where, collections)
            self.problems.add(ASSESSMENT_WHERE, where.place, name=where, nearest=near)
        need = self.need(node, "answer", "beside")
        if_not = node.get(key("if_not"), Mapping())
        answers, remarks = self.of_results(method, need, "answer"), self.of_results(method, if_not, "if_not")
        ahead = read_because(node, method, self, AHEAD_OF_MAIN)
        return Beside(str(method), str(where), answers, remarks, self.drawn(method, node), key("of_new") in node, ahead)

    def drawn(self, method: Text, node: Mapping) -> dict[str, str]:
        """The results that a single-line diagram names, each with the conductor that it is."""
        parts = as_mapping(node.get(key("drawn"), Mapping()), "drawn", self.problems)
        self.keys(parts, DRAWN_KEYS, "drawn")
        found = {str(role): self.text(parts, str(role)) for role in parts}
        for name in found.values():
            self.result(method, name)
        return {str(name): role for role, name in found.items()}

    def columns(self, node: Mapping, name: str, roles: tuple[str, ...], lists: tuple[str, ...]) -> Columns | None:
        """A method of which columns are told, where the file names one."""
        if name not in node:
            return None
        parts = as_mapping(node[key(name)], name, self.problems)
        self.keys(parts, ("method", *roles, *lists), name)
        method = self.text(parts, "method")
        return Columns(
            str(method),
            {role: str(self.column(method, self.text(parts, role))) for role in roles},
            {
                role: {
                    str(self.column(method, column)): str(as_text(heading, role, self.problems))
                    for column, heading in as_mapping(self.need(parts, role, name), role, self.problems).items()
                }
                for role in lists
            },
        )

    def column(self, method: Text, name: Text) -> Text:
        """A name that must be a column of a method."""
        checked = self.method(method)
        if checked is not None and name not in checked.columns:
            near = nearest_name(name, checked.columns)
            self.problems.add(ASSESSMENT_COLUMN, name.place, method=method, name=name, nearest=near)
        return name

    def rating_trial(self, node: Mapping) -> RatingTrial:
        """How unknown ratings are told, where the file says it."""
        parts = as_mapping(node.get(key("unknown_ratings"), Mapping()), "unknown_ratings", self.problems)
        self.keys(parts, TRIAL_KEYS, "unknown_ratings")
        return read_rating_trial(parts, self.rules, self.problems)

    def alternatives(self, node: Mapping) -> tuple[AlternativePlan, ...]:
        """What is tried where it does not fit."""
        found: Node | None = node.get(key("alternatives"))
        sizing = as_mapping(self.need(node, "sizing", "an assessment"), "sizing", self.problems)
        method = self.text(sizing, "method")
        if found is None or method not in self.rules.methods:
            return ()
        return read_alternatives(found, self.rules, method, self.problems)
