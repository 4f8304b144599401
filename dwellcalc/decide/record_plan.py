"""What an assessment file says of a record of the metered demand: the method that judges it, and what it serves."""

from __future__ import annotations

from dataclasses import dataclass

from dwellcalc.decide.assessment_reader import AssessmentReader
from dwellcalc.language.reach import named_by
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine, ReadLine
from dwellcalc.language.words import (
    CROSS_CHECK,
    CROSS_CHECK_GIVEN,
    CROSS_CHECK_KEYS,
    MEASURED_BY,
    RECORD_MAPPINGS,
    RECORD_TEXTS,
)
from dwellcalc.placed import Mapping, Node, as_mapping
from dwellcalc.problems import Problems


@dataclass(frozen=True)
class CrossCheckPlan:
    """How a calculated load is held against a metered maximum.

    Attributes:
        method: the method that does it.
        ratio: its result that is the one over the other.
        given: what the method is given: ``calculated`` and ``measured`` -> the names that it has for them.
        must_hold: its result without which no calculated load stands.
        told: results -> what is told where one holds.
        if_not: results -> what is told where one does not.
    """

    method: str
    ratio: str
    given: dict[str, str]
    must_hold: str
    told: dict[str, str]
    if_not: dict[str, str]


@dataclass(frozen=True)
class RecordPlan:
    """What is done with a record.

    Attributes:
        method: the method that judges it.
        usable: its result that says whether the record may be used; the lines that this one reads are what it is held to.
        without_remarks: the same of what is only told.
        maximum: its result that is the maximum demand [A].
        measured_by: what figures are taken by -> its result that says how much.
        tells: results that stand beside the maximum -> as what.
        serves: the method that a usable record serves, before all others.
        because: why that one is taken.
        none: what is said where there is no record.
        not_usable: what is said of one that may not be used.
        cross_check: how a calculated load is held against it.
    """

    method: str
    usable: str
    without_remarks: str
    maximum: str
    measured_by: dict[str, str]
    tells: dict[str, str]
    serves: str
    because: str
    none: str
    not_usable: str
    cross_check: CrossCheckPlan

    def gates(self, rules: RuleSet, result: str) -> list[CheckedLine]:
        """The lines that one of its results reads, in the order of its text."""
        line = rules.methods[self.method].results[result]
        return list(dict.fromkeys(node.line for node in named_by(line) if isinstance(node, ReadLine)))


def read_record_plan(node: Node, rules: RuleSet, problems: Problems) -> RecordPlan:
    """The plan as an assessment file has it.

    Args:
        node: the part of the file.
        rules: the rule set, whose methods and results it names.
        problems: where what is wrong is noted.
    """
    return _Reader(rules, problems).plan(as_mapping(node, "record", problems))


class _Reader(AssessmentReader):
    def plan(self, node: Mapping) -> RecordPlan:
        self.keys(node, (*RECORD_TEXTS, *RECORD_MAPPINGS, CROSS_CHECK), "record")
        texts = {name: self.text(node, name, "record") for name in RECORD_TEXTS}
        method = texts["method"]
        self.method(texts["serves"])
        for name in ("usable", "without_remarks", "maximum"):
            self.result(method, texts[name])
        measured = as_mapping(self.need(node, "measured_by", "record"), "measured_by", self.problems)
        self.keys(measured, MEASURED_BY, "measured_by")
        measured_by = {name: self.text(measured, name, "measured_by") for name in MEASURED_BY}
        for result in measured_by.values():
            self.result(method, result)
        return RecordPlan(
            **{name: str(text) for name, text in texts.items()},
            measured_by={name: str(result) for name, result in measured_by.items()},
            tells=self.of_results(method, self.need(node, "tells", "record"), "tells"),
            cross_check=self.cross_check(as_mapping(self.need(node, CROSS_CHECK, "record"), CROSS_CHECK, self.problems)),
        )

    def cross_check(self, node: Mapping) -> CrossCheckPlan:
        self.keys(node, CROSS_CHECK_KEYS, CROSS_CHECK)
        method, ratio, must = (self.text(node, each, CROSS_CHECK) for each in ("method", "ratio", "must_hold"))
        for result in (ratio, must):
            self.result(method, result)
        given = as_mapping(self.need(node, "given", CROSS_CHECK), "given", self.problems)
        self.keys(given, CROSS_CHECK_GIVEN, "given")
        names = {each: self.text(given, each, "given") for each in CROSS_CHECK_GIVEN}
        for name in names.values():
            self.given(method, name)
        told, if_not = (self.of_results(method, self.need(node, each, CROSS_CHECK), each) for each in ("told", "if_not"))
        return CrossCheckPlan(str(method), str(ratio), {each: str(name) for each, name in names.items()}, str(must), told, if_not)
