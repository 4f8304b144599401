"""What is read alike in every part of an assessment file: its keys and texts, methods, their results and what they are given."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf

from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedMethod
from dwellcalc.placed import Mapping, Node, Text, as_list, as_mapping, as_text, key, place_of, text_at
from dwellcalc.problems import Problems, message, nearest_name

ASSESSMENT_NUMBER = message("assessment_number", '"{text}" is not a whole number')
ASSESSMENT_KEY = message("assessment_key", 'there is no key "{key}" in {what}', "one of: {known}")
ASSESSMENT_LACKS = message("assessment_lacks", '{what} lacks "{key}"')
ASSESSMENT_METHOD = message("assessment_method", 'there is no method "{name}" in the edition')
ASSESSMENT_RESULT = message("assessment_result", 'the method "{method}" has no result "{name}"')
ASSESSMENT_IMPLIED = message("assessment_implied", 'there is no kind of load "{name}"')
ASSESSMENT_GIVEN = message("assessment_given", 'the method "{method}" is given nothing named "{name}"')


class AssessmentReader:
    """Reads a part of an assessment file; problems are collected.

    Args:
        rules: the rule set, whose methods and results the file names.
        problems: where what is wrong is noted.
    """

    def __init__(self, rules: RuleSet, problems: Problems) -> None:
        self.rules = rules
        self.problems = problems

    def keys(self, node: Iterable[Text], known: Iterable[str], what: str) -> None:
        """Refuse keys that are not known."""
        for name in node:
            if name not in known:
                near = nearest_name(name, known)
                self.problems.add(ASSESSMENT_KEY, name.place, key=name, what=what, known=", ".join(known), nearest=near)

    def need(self, node: Mapping, name: str, what: str) -> Node:
        """What stands under a key; an empty text and a problem where nothing does."""
        found: Node | None = node.get(key(name))
        if found is None:
            self.problems.add(ASSESSMENT_LACKS, place_of(node), what=what, key=name)
            return text_at("", node)
        return found

    def text(self, node: Mapping, name: str, what: str = "this") -> Text:
        """A text under a key."""
        return as_text(self.need(node, name, what), name, self.problems)

    def texts(self, node: Node) -> tuple[Text, ...]:
        """A list of texts."""
        return tuple(as_text(item, "an entry", self.problems) for item in as_list(node, "this", self.problems))

    def number(self, node: Mapping, name: str) -> float:
        """A plain number, without limit where the file has none."""
        if name not in node:
            return inf
        text = self.text(node, name)
        if not text.isdigit():
            self.problems.add(ASSESSMENT_NUMBER, text.place, text=text)
            return float(0)
        return float(text)

    def of_results(self, method: Text, node: Node, name: str) -> dict[str, str]:
        """Results of a method, each with a text."""
        found = as_mapping(node, name, self.problems)
        for result in found:
            self.result(method, result)
        return {str(result): str(as_text(text, result, self.problems)) for result, text in found.items()}

    def method(self, name: Text) -> CheckedMethod | None:
        """The method of that name, or nothing and a problem."""
        checked = self.rules.methods.get(str(name))
        if checked is None:
            self.problems.add(ASSESSMENT_METHOD, name.place, name=name, nearest=nearest_name(name, self.rules.methods))
        return checked

    def result(self, method: Text, name: Text) -> None:
        """Refuse what is no result of a method."""
        checked = self.method(method)
        if checked is not None and name not in checked.results:
            near = nearest_name(name, checked.results)
            self.problems.add(ASSESSMENT_RESULT, name.place, method=method, name=name, nearest=near)

    def kinds(self, names: Iterable[Text]) -> None:
        """Refuse what are no kinds of load."""
        known = self.rules.glossary.load_kinds
        for name in names:
            if name not in known:
                self.problems.add(ASSESSMENT_IMPLIED, name.place, name=name, nearest=nearest_name(name, known))

    def given(self, method: Text, name: Text) -> None:
        """Refuse what a method is not given."""
        checked = self.method(method)
        if checked is not None and name not in checked.source.given:
            near = nearest_name(name, checked.source.given)
            self.problems.add(ASSESSMENT_GIVEN, name.place, method=method, name=name, nearest=near)
