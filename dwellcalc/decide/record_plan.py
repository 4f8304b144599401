"""What an assessment file says of a record of the metered demand: the method that judges it, and what it serves."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dwellcalc.language.reach import reached
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine, CheckedMethod, ReadLine
from dwellcalc.language.words import (
    CROSS_CHECK,
    CROSS_CHECK_GIVEN,
    CROSS_CHECK_KEYS,
    MEASURED_BY,
    RECORD_MAPPINGS,
    RECORD_TEXTS,
)
from dwellcalc.placed import Mapping, Node, Text, as_mapping, as_text, key, place_of, text_at
from dwellcalc.problems import Problems, message, nearest_name

RECORD_KEY = message("record_key", 'there is no key "{key}" in {what}', "one of: {known}")
RECORD_LACKS = message("record_lacks", '{what} lacks "{key}"')
RECORD_METHOD = message("record_method", 'there is no method "{name}" in the edition')
RECORD_RESULT = message("record_result", 'the method "{method}" has no result "{name}"')
RECORD_GIVEN = message("record_given", 'the method "{method}" is given nothing named "{name}"')


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
        return list(dict.fromkeys(node.line for node in reached([line], through=False) if isinstance(node, ReadLine)))


def read_record_plan(node: Node, rules: RuleSet, problems: Problems) -> RecordPlan:
    """The plan as an assessment file has it.

    Args:
        node: the part of the file.
        rules: the rule set, whose methods and results it names.
        problems: where what is wrong is noted.
    """
    return _Reader(rules, problems).plan(as_mapping(node, "record", problems))


class _Reader:
    def __init__(self, rules: RuleSet, problems: Problems) -> None:
        self.rules = rules
        self.problems = problems

    def plan(self, node: Mapping) -> RecordPlan:
        self.keys(node, (*RECORD_TEXTS, *RECORD_MAPPINGS, CROSS_CHECK), "record")
        texts = {name: self.text(node, name, "record") for name in RECORD_TEXTS}
        method = self.method(texts["method"])
        self.method(texts["serves"])
        for name in ("usable", "without_remarks", "maximum"):
            self.result(method, texts[name])
        measured = self.mapping(node, "measured_by")
        self.keys(measured, MEASURED_BY, "measured_by")
        for name in MEASURED_BY:
            self.result(method, self.text(measured, name, "measured_by"))
        tells = self.mapping(node, "tells")
        for result in tells:
            self.result(method, result)
        return RecordPlan(
            **{name: str(text) for name, text in texts.items()},
            measured_by=self.texts(measured),
            tells=self.texts(tells),
            cross_check=self.cross_check(self.mapping(node, CROSS_CHECK)),
        )

    def cross_check(self, node: Mapping) -> CrossCheckPlan:
        self.keys(node, CROSS_CHECK_KEYS, CROSS_CHECK)
        name, ratio, must = (self.text(node, each, CROSS_CHECK) for each in ("method", "ratio", "must_hold"))
        method = self.method(name)
        given = self.mapping(node, "given")
        self.keys(given, CROSS_CHECK_GIVEN, "given")
        for each in CROSS_CHECK_GIVEN:
            text = self.text(given, each, "given")
            if method is not None and text not in method.source.given:
                near = nearest_name(text, method.source.given)
                self.problems.add(RECORD_GIVEN, text.place, method=method.source.name, name=text, nearest=near)
        told, if_not = self.mapping(node, "told"), self.mapping(node, "if_not")
        for result in (ratio, must, *told, *if_not):
            self.result(method, result)
        return CrossCheckPlan(str(name), str(ratio), self.texts(given), str(must), self.texts(told), self.texts(if_not))

    def keys(self, node: Mapping, known: Iterable[str], what: str) -> None:
        for name in node:
            if name not in known:
                near = nearest_name(name, known)
                self.problems.add(RECORD_KEY, name.place, what=what, key=name, known=", ".join(known), nearest=near)

    def text(self, node: Mapping, name: str, what: str) -> Text:
        if name not in node:
            self.problems.add(RECORD_LACKS, place_of(node), what=what, key=name)
            return text_at("", node)
        return as_text(node[key(name)], name, self.problems)

    def mapping(self, node: Mapping, name: str) -> Mapping:
        if name not in node:
            self.problems.add(RECORD_LACKS, place_of(node), what="record", key=name)
            return Mapping()
        return as_mapping(node[key(name)], name, self.problems)

    def texts(self, node: Mapping) -> dict[str, str]:
        return {str(name): str(as_text(text, name, self.problems)) for name, text in node.items()}

    def method(self, name: Text) -> CheckedMethod | None:
        found = self.rules.methods.get(str(name))
        if found is None:
            self.problems.add(RECORD_METHOD, name.place, name=name, nearest=nearest_name(name, self.rules.methods))
        return found

    def result(self, method: CheckedMethod | None, name: Text) -> None:
        if method is not None and name not in method.results:
            near = nearest_name(name, method.results)
            self.problems.add(RECORD_RESULT, name.place, method=method.source.name, name=name, nearest=near)
