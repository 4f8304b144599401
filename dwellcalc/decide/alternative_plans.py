"""The alternatives that an assessment file names: what is tried where a home does not fit, read and checked."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from dwellcalc.decide.changed import LOADS
from dwellcalc.glossary import Field
from dwellcalc.home.glossary_names import MATERIAL, SUPPLY
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedGroup, CheckedLine
from dwellcalc.language.words import ALTERNATIVE_KEYS, ALTERNATIVE_NEEDED, ALTERNATIVE_OF_WAY, ALTERNATIVE_STATE, ALTERNATIVE_WAYS
from dwellcalc.placed import Mapping, Node, Text, as_list, as_mapping, as_text, key, place_of, text_at
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.units import PERCENT, Kind, UnknownUnit

ALTERNATIVE_FORM = message(
    "alternative_form", "an alternative has a title and exactly one way: {ways}", "with {keys}, as the way needs them"
)
ALTERNATIVE_NAME = message("alternative_name", 'there is no {what} "{name}" in the edition')
ALTERNATIVE_VALUE = message("alternative_value", '"{text}" is no value of "{name}"')


@dataclass(frozen=True)
class AlternativePlan:
    """One alternative.

    Attributes:
        title: what kind of alternative it is.
        what: a sentence with the load and the value in braces.
        needs: the evidence that it needs.
        cite: the sections that it rests on, or an empty string.
        way: `lower`, `set`, `state`, `remove`, `methods`, `given`, `conductors` or `larger`.
        loads: the group of the loads that are tried.
        steps: for `lower`, the fields that are lowered with their steps, in the unit of each; for `set`, with their values.
        set_to: what else of a load is so then: field -> value; for `state`, that alone.
        start: the line that gives the value from which a field is lowered; else the field itself.
        down_to: the lowest value that is tried.
        at_least: where it says no lowest value, the share of the present one below which none is tried [%]; for `given`, of the
            capacity.
        methods: for `methods` and `larger`, the methods; for `given`, the method that is given something.
        given: the name of what is given, in whole units.
        materials: for `conductors`, results of sizing that are sizes -> of which material.
        also: for `larger`, results of sizing that say whether what is there serves the larger rating, with what it is.
    """

    title: str
    what: str
    needs: str
    cite: str
    way: str
    loads: CheckedGroup | None = None
    steps: dict[str, float] = field(default_factory=dict)
    set_to: dict[str, Any] = field(default_factory=dict)
    start: CheckedLine | None = None
    down_to: float | None = None
    at_least: float = 0.0
    methods: tuple[str, ...] = ()
    given: str = ""
    materials: dict[str, Any] = field(default_factory=dict)
    also: dict[str, str] = field(default_factory=dict)

    @property
    def keeps_apart(self) -> bool:
        """Whether nothing but a state of a load is another: that it never runs with others."""
        return self.way == ALTERNATIVE_STATE


def read_alternatives(node: Node, rules: RuleSet, sizing: str, problems: Problems) -> tuple[AlternativePlan, ...]:
    """The alternatives of an assessment file, in its order.

    Args:
        node: the list as it stands in the file.
        rules: the rule set, whose lines, groups and results they name.
        sizing: the method that sizes a supply.
        problems: where what is wrong is noted.
    """
    reader = _Reader(rules, sizing, problems)
    entries = as_list(node, "alternatives", problems)
    return tuple(reader.plan(as_mapping(entry, "an alternative", problems)) for entry in entries)


def read_groups(names: Iterable[Text], rules: RuleSet, problems: Problems) -> tuple[CheckedGroup, ...]:
    """The groups of a rule set that an assessment file names; a name that is none is noted as a problem."""
    reader = _Reader(rules, "", problems)
    found = [reader.group(name) for name in names]
    return tuple(each for each in found if each is not None)


class _Reader:
    def __init__(self, rules: RuleSet, sizing: str, problems: Problems) -> None:
        self.rules = rules
        self.sizing = sizing
        self.problems = problems
        self.fields = rules.glossary.collections[LOADS].fields

    def plan(self, node: Mapping) -> AlternativePlan:
        ways = [way for way in ALTERNATIVE_WAYS if way in node]
        needed = (*ALTERNATIVE_NEEDED, *(name for way in ways for name in ALTERNATIVE_OF_WAY.get(way, ())))
        lacking = [name for name in needed if name not in node]
        unknown = [name for name in node if name not in ALTERNATIVE_KEYS]
        if len(ways) != 1 or lacking or unknown:
            near = nearest_name(unknown[0], ALTERNATIVE_KEYS) if unknown else ""
            place = unknown[0].place if unknown else place_of(node)
            ways_shown, keys = ", ".join(ALTERNATIVE_WAYS), ", ".join(ALTERNATIVE_KEYS)
            self.problems.add(ALTERNATIVE_FORM, place, ways=ways_shown, keys=keys, nearest=near)
            return AlternativePlan("", "", "", "", "")
        way = ways[0]
        texts = {name: str(self.text(node, name)) for name in ALTERNATIVE_NEEDED}
        self.fills(self.text(node, "what"))
        cite = self.text(node, "cite") if "cite" in node else None
        steps = self.steps(node[key(way)]) if way in ("lower", "set") else {}
        return AlternativePlan(
            **texts,
            cite=self.section(cite) if cite is not None else "",
            way=way,
            loads=self.group(self.text(node, LOADS)) if LOADS in node else None,
            steps=steps,
            set_to=self.values(node, "as") | self.values(node, "state"),
            start=self.line(self.text(node, "from")) if "from" in node else None,
            down_to=self.down_to(node, steps),
            at_least=self.percent(self.text(node, "at_least")) if "at_least" in node else 0.0,
            methods=self.methods(node, way),
            given=str(self.text(node, way)) if way == "given" else "",
            materials=self.materials(node) if way == "conductors" else {},
            also=self.also(node),
        )

    def text(self, node: Mapping, name: str) -> Text:
        found: Node | None = node.get(key(name))
        return as_text(found if found is not None else text_at("", node), name, self.problems)

    def fills(self, what: Text) -> None:
        """Refuse a sentence that asks for more than the load and the value."""
        try:
            what.format(load="", value="")
        except (KeyError, IndexError, ValueError, AttributeError):
            self.problems.add(ALTERNATIVE_VALUE, what.place, text=what, name="what")

    def section(self, cite: Text) -> str:
        if cite not in self.rules.citations:
            self.unknown("citation", cite, self.rules.citations)
        return self.rules.section(cite)

    def steps(self, node: Node) -> dict[str, float]:
        found = {}
        for name, text in as_mapping(node, "lower", self.problems).items():
            declared = self.field(name)
            if declared is not None:
                found[str(name)] = self.amount(as_text(text, name, self.problems), declared)
        return found

    def field(self, name: Text) -> Field | None:
        declared = self.fields.get(name)
        if declared is None:
            self.unknown("field of a load", name, self.fields)
        return declared

    def amount(self, text: Text, declared: Field) -> float:
        value, kind = self.quantity(text)
        if kind != declared.kind.unit:
            self.problems.add(ALTERNATIVE_VALUE, text.place, text=text, name=declared.name)
        return value

    def values(self, node: Mapping, of: str) -> dict[str, Any]:
        """What of a load is so then, by field."""
        found: dict[str, Any] = {}
        glossary = self.rules.glossary
        for name, word in as_mapping(node.get(key(of), Mapping()), of, self.problems).items():
            declared, text = self.field(name), as_text(word, name, self.problems)
            if declared is None:
                continue
            words = glossary.words(declared.kind)
            if text not in words:
                self.problems.add(ALTERNATIVE_VALUE, text.place, text=text, name=name, nearest=nearest_name(text, words))
                continue
            found[str(name)] = glossary.value(declared.kind, str(text))
        return found

    def down_to(self, node: Mapping, steps: dict[str, float]) -> float | None:
        if "down_to" not in node or not steps:
            return None
        return self.amount(self.text(node, "down_to"), self.fields[next(iter(steps))])

    def percent(self, text: Text) -> float:
        value, kind = self.quantity(text)
        if kind != PERCENT:
            self.problems.add(ALTERNATIVE_VALUE, text.place, text=text, name="at_least")
        return value

    def quantity(self, text: Text) -> tuple[float, Kind | None]:
        try:
            return self.rules.glossary.units.quantity(text)
        except (ValueError, UnknownUnit):
            return 0.0, None

    def methods(self, node: Mapping, way: str) -> tuple[str, ...]:
        if way == "given":
            named = [self.text(node, "method")]
        elif way in ("methods", "larger"):
            named = [as_text(each, way, self.problems) for each in as_list(node[key(way)], way, self.problems)]
        else:
            named = []
        for name in named:
            if name not in self.rules.methods:
                self.unknown("method", name, self.rules.methods)
        if way == "given" and named[0] in self.rules.methods:
            given, name = self.rules.methods[named[0]].source.given, self.text(node, way)
            if name not in given:
                self.unknown("given value", name, given)
        return tuple(str(name) for name in named if name in self.rules.methods)

    def materials(self, node: Mapping) -> dict[str, Any]:
        found: dict[str, Any] = {}
        glossary = self.rules.glossary
        declared = glossary.objects[SUPPLY][MATERIAL]
        for name, node_of in as_mapping(node[key("conductors")], "conductors", self.problems).items():
            word, words = as_text(node_of, name, self.problems), glossary.words(declared.kind)
            if word not in words:
                self.problems.add(ALTERNATIVE_VALUE, word.place, text=word, name=declared.name, nearest=nearest_name(word, words))
            elif self.sizes(name):
                found[str(name)] = glossary.value(declared.kind, str(word))
        return found

    def sizes(self, name: Text) -> bool:
        """Whether a result of sizing is of that name; else a problem."""
        results = self.rules.methods[self.sizing].results
        if name not in results:
            self.unknown("result of sizing", name, results)
        return name in results

    def also(self, node: Mapping) -> dict[str, str]:
        found = {}
        for name, text in as_mapping(node.get(key("also"), Mapping()), "also", self.problems).items():
            self.sizes(name)
            found[str(name)] = str(as_text(text, name, self.problems))
        return found

    def group(self, name: Text) -> CheckedGroup | None:
        method = self.rules.methods.get(name.partition(".")[0])
        found = method.groups.get(name) if method is not None else None
        if found is None:
            known = (each for checked in self.rules.methods.values() for each in checked.groups)
            self.unknown("group", name, known)
        return found

    def line(self, name: Text) -> CheckedLine | None:
        method, _, line = name.partition(".")
        found = self.rules.methods[method].columns.get(line) if method in self.rules.methods else None
        if found is None:
            known = (f"{each}.{one}" for each, checked in self.rules.methods.items() for one in checked.columns)
            self.unknown("column", name, known)
        return found

    def unknown(self, what: str, name: Text, known: Any) -> None:
        self.problems.add(ALTERNATIVE_NAME, name.place, what=what, name=name, nearest=nearest_name(name, known))
