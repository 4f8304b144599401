"""What holds of every home: more is never less, and the same said otherwise is the same; on random home files.

The quick part takes a sample of each property; ``-m "slow and not long"`` takes many more homes.
"""

from __future__ import annotations

import contextlib
import json
import random
from collections import Counter
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

import pytest
from examples import rules_of
from falls import TOLERANCE, Falls, fell
from random_homes import (
    COPY,
    WAYS_TO_GROW,
    Node,
    grown,
    has_counted_legs,
    loads_of,
    random_choices,
    random_home,
    respelled,
    shuffled,
    unfolded,
    written,
)
from samples import first_of

from dwellcalc.decide.assess import assess
from dwellcalc.evaluate.coverage import miscounts
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.evaluate.work import state_of
from dwellcalc.home import Home, Supply, home_from_text
from dwellcalc.language.rule_set import RuleSet, editions_in, installed_folder
from dwellcalc.language.tree import (
    HOME,
    CheckedGroup,
    CheckedLine,
    Constant,
    FirstRow,
    Gather,
    Lookup,
    ReadChoice,
    ReadLine,
    trees_of,
    walk,
)
from dwellcalc.review.sheets.recompute import recompute_document

OFFERED = tuple(str(edition) for edition in rules_of("nec/2023").assessment["offered"])  # type: ignore[index]
LOADS = ("standard", "optional_dwelling", "existing_dwelling", "two_dwellings", "multifamily", "manufactured")
TOTAL = "total"
GIVEN = {"calculated_amperes": "amperes", "continuous_amperes": "continuous", "rating_from": "rating_from"}
MOST_EXCUSED = 0.30
Values = dict[tuple[str, ...], Any]


def read(home: Node, rules: RuleSet) -> Home:
    return home_from_text(written(home), "home.yaml", rules.glossary)


def trials(seed: int, count: int, **more: Any) -> Iterator[tuple[random.Random, RuleSet, Node, dict[str, str]]]:
    """Random homes, each with the chance that made it, an edition in turn, and readings of the code."""
    for at in range(count):
        chance = random.Random(seed * 1_000_000 + at)
        rules = rules_of(OFFERED[at % len(OFFERED)])
        home = random_home(rules.glossary, chance, **more)
        yield chance, rules, home, random_choices(rules, chance) if at % 3 else {}


def items_of(method: str, rules: RuleSet, supply: Supply) -> range:
    level = rules.methods[method].level
    return range(1 if level == HOME else len(supply.facts.collections[level]))


def plain(value: Any) -> Any:
    state = state_of(value)
    return value if state == "known" else state


def values_of(home: Home, rules: RuleSet, choices: dict[str, str]) -> Values:
    """Every result of every method, for each supply and dwelling unit by name, and sizing for the standard method."""
    found: Values = {}
    for supply in home.supplies:
        evaluation = Evaluation(plan_of(rules), supply.facts, choices)
        for name, method in rules.methods.items():
            if name == "sizing":
                continue
            for item in items_of(name, rules, supply):
                unit = "" if method.level == HOME else supply.facts.collections[method.level].names[item]
                for result, line in method.results.items():
                    found[supply.id, name, unit, result] = plain(evaluation.line(line, item))
        results = rules.methods["standard"].results
        sizing = Evaluation(plan_of(rules), supply.facts, choices, {to: evaluation.line(results[of]) for to, of in GIVEN.items()})
        for result, line in rules.methods["sizing"].results.items():
            found[supply.id, "sizing", "", result] = plain(sizing.line(line))
    return found


def close(found: Any, expected: Any) -> bool:
    if isinstance(expected, float) and isinstance(found, float):
        return abs(found - expected) <= TOLERANCE * max(1.0, abs(expected))
    return bool(found == expected)


def same(found: Values, expected: Values) -> int:
    """How many numbers were compared, all of them equal."""
    assert found.keys() == expected.keys()
    assert {key: (each, expected[key]) for key, each in found.items() if not close(each, expected[key])} == {}
    return sum(isinstance(value, float) for value in expected.values())


# More is never less


def totals(home: Home, rules: RuleSet, choices: dict[str, str]) -> Iterator[tuple[tuple[str, str, int], float, Evaluation]]:
    """The known totals, by supply, method and dwelling unit."""
    for supply in home.supplies:
        evaluation = Evaluation(plan_of(rules), supply.facts, choices)
        for method in LOADS:
            for item in items_of(method, rules, supply):
                total = evaluation.line(rules.methods[method].results[TOTAL], item)
                if isinstance(total, float):
                    yield (supply.id, method, item), total, evaluation


def reasons(before: Evaluation, after: Evaluation, method: str, item: int) -> set[str]:
    """Why the total of a method fell."""
    sheets = [Tracer(evaluation).method(method, item) for evaluation in (before, after)]
    return Falls(*sheets).reasons(before.plan.rules.methods[method].results[TOTAL].id)


OF_STANDARD = ("standard", "two_dwellings", "multifamily")  # whose total is, or is compared with, that of the standard method


class Comparisons:
    """Totals of homes compared with those of the same homes with more in them."""

    def __init__(self) -> None:
        self.compared = self.rose = 0
        self.ways: Counter[str] = Counter()
        self.reasons: Counter[str] = Counter()
        self.fallen = 0
        self.faults: list[Any] = []

    def add(self, way: str, home: Node, more: Node, rules: RuleSet, choices: dict[str, str]) -> None:
        before = {key: (total, evaluation) for key, total, evaluation in totals(read(home, rules), rules, choices)}
        for key, total, evaluation in totals(read(more, rules), rules, choices):
            if key not in before:
                continue
            old, was = before[key]
            self.compared += 1
            self.ways[way] += 1
            self.rose += fell(total, old)
            if fell(old, total):
                self.fell(way, key, reasons(was, evaluation, *key[1:]), (rules.id, old, total, choices, written(more)))

    def fell(self, way: str, key: tuple[str, str, int], why: set[str], told: Any) -> None:
        self.fallen += 1
        self.reasons.update(why)
        if not why - {"average"} and not (why and key[1] in OF_STANDARD):
            self.faults.append((way, key, *told))  # an average alone is the fault of the standard method that is shown below


def compare_grown(seed: int, count: int) -> Comparisons:
    found = Comparisons()
    for chance, rules, home, choices in trials(seed, count, hiding=0.05):
        way, more = grown(home, rules.glossary, chance)
        found.add(way, home, more, rules, choices)
    return found


def more_is_never_less(seed: int, count: int) -> Comparisons:
    """Totals that fell have a reason, and are few among all that were compared."""
    found = compare_grown(seed, count)
    assert found.faults == []
    assert found.fallen <= MOST_EXCUSED * found.compared
    assert found.compared > count and found.rose > count / 2
    assert len(found.ways) == len(WAYS_TO_GROW)
    return found


def test_more_is_never_less() -> None:
    more_is_never_less(1, 250)


@pytest.mark.long
def test_more_is_never_less_on_many_homes() -> None:
    assert more_is_never_less(2, 1200).fallen > 1  # the reasons are tried too


@pytest.mark.slow
def test_less_has_no_reason() -> None:
    """Where a home with less in it is called the one with more, only changes in kind could hide that it fell."""
    found = Comparisons()
    for chance, rules, home, choices in trials(3, 100, hiding=0.0):
        way, more = grown(home, rules.glossary, chance)
        if way in ("area", "circuits"):
            found.add(way, more, home, rules, choices)
    assert found.fallen > 20
    assert len(found.faults) == found.fallen


THREE_PHASE_HOUSE = """
home: two dwelling units on three phases
service: {system: 208Y/120 V three-phase 4-wire}
dwelling units:
  - {name: unit, quantity: 2, areas: [{kind: living, area: 1000 ft2}], small appliance circuits: 2, laundry circuits: 1}
loads:
"""


@pytest.mark.parametrize(("kind", "large", "small"), [("dryer", "12 kW", "5 kW"), ("range", "20 kW", "12 kW")])
def test_one_more_on_another_pair_of_three_phases_is_not_less(kind: str, large: str, small: str) -> None:
    rules = rules_of("nec/2023")
    one = THREE_PHASE_HOUSE + f"  - {{name: first, kind: {kind}, rating: {large}, legs: A B}}\n"
    two = one + f"  - {{name: second, kind: {kind}, rating: {small}, legs: B C}}\n"
    homes = [home_from_text(text, "home.yaml", rules.glossary) for text in (one, two)]
    before, after = (dict((key, total) for key, total, _ in totals(home, rules, {})) for home in homes)
    assert after["service", "standard", 0] >= before["service", "standard", 0]


# The same said otherwise


def compared(seed: int, count: int, otherwise: Callable[[Node, RuleSet, random.Random], Node]) -> int:
    """How many numbers were compared between homes and the same homes said otherwise."""
    numbers = 0
    for chance, rules, home, choices in trials(seed, count):
        expected = values_of(read(home, rules), rules, choices)
        numbers += same(values_of(read(otherwise(home, rules, chance), rules), rules, choices), expected)
    return numbers


def in_another_order(home: Node, rules: RuleSet, chance: random.Random) -> Node:
    return shuffled(home, chance)


def in_other_words(home: Node, rules: RuleSet, chance: random.Random) -> Node:
    return respelled(home, rules.glossary, chance)


@pytest.mark.slow
def test_order_does_not_matter() -> None:
    assert compared(4, 80, in_another_order) > 80 * 10


@pytest.mark.slow
def test_units_forms_and_spellings_do_not_matter() -> None:
    assert compared(5, 80, in_other_words) > 80 * 10


@pytest.mark.slow
def test_order_does_not_matter_on_many_homes() -> None:
    compared(6, 100, in_another_order)


@pytest.mark.slow
def test_units_forms_and_spellings_do_not_matter_on_many_homes() -> None:
    compared(7, 100, in_other_words)


def test_more_is_not_the_same() -> None:
    different = 0
    for chance, rules, home, choices in trials(8, 20, hiding=0.0):
        more = read(grown(home, rules.glossary, chance)[1], rules)
        values, expected = values_of(more, rules, choices), values_of(read(home, rules), rules, choices)
        with contextlib.suppress(AssertionError):
            different += 1
            same(values, expected)
            different -= 1
    assert different > 10


def service_alone(home: Node) -> bool:
    """Whether the file tells more of the legs with an entry for each, so that only the service knows as much without.

    The legs of one of several equal dwelling units are not told by counts, nor which of several loads are on the lines
    of a feeder that has fewer of them.
    """
    fewer_lines = any("system" in feeder for feeder in home.get("feeders", ()))
    if fewer_lines and any(has_counted_legs(load) for load in loads_of(home)):
        return True
    several = {unit["name"]: unit for unit in home["dwelling units"] if unit["quantity"] > 1}
    planned = [load for load in home.get("planned", ()) if load["in"] in several]
    return any(has_counted_legs(each) for each in (*several.values(), *planned))


def folded_and_unfolded(seed: int, count: int) -> int:
    """How many numbers were compared between entries with a quantity and an entry for each."""
    numbers = 0
    for _, rules, home, choices in trials(seed, count):
        only = service_alone(home)
        expected = values_of(read(home, rules), rules, choices)
        found = values_of(read(unfolded(home), rules), rules, choices)
        of_units = {(supply, method, COPY.sub("", unit), result) for supply, method, unit, result in found}
        assert of_units == expected.keys()
        for (supply, method, unit, result), value in found.items():
            if method in ("panelboards", "interconnection"):
                continue  # a circuit that a panel lists stands for one entry, not for each of its equal ones
            if method == "existing_dwelling" and any("replaces" in load for load in home.get("planned", ())):
                continue  # of equal planned loads the first alone is told to replace what all of them do
            if supply == "service" or not only:
                wanted = expected[supply, method, COPY.sub("", unit), result]
                assert close(value, wanted), (supply, method, unit, result, value, wanted, written(home))
                numbers += isinstance(value, float)
    return numbers


@pytest.mark.slow
def test_quantity_is_as_many_entries() -> None:
    assert folded_and_unfolded(9, 60) > 60 * 10


@pytest.mark.slow
def test_quantity_is_as_many_entries_in_many_homes() -> None:
    folded_and_unfolded(10, 100)


@pytest.mark.slow
@pytest.mark.parametrize("edition", first_of(OFFERED, OFFERED[-2:]))
def test_forty_equal_dwelling_units(edition: str) -> None:
    rules = rules_of(edition)
    tried = 0
    for *_, home, _choices in trials(11, 30):
        unit = home["dwelling units"][0]
        if has_counted_legs(unit) or service_alone(home) or "planned" in home:
            continue
        forty = {**home, "dwelling units": [{**unit, "quantity": 40}]}
        for key in ("feeders", "sources", "panels", "loads", "none of"):
            forty.pop(key, None)
        forty["service"].pop("whole dwelling", None)
        expected = values_of(read(forty, rules), rules, {})
        found = values_of(read(unfolded(forty), rules), rules, {})
        assert len(read(unfolded(forty), rules).facts.collections["dwelling_units"]) == 40
        assert all(close(value, expected[(*key[:2], COPY.sub("", key[2]), key[3])]) for key, value in found.items())
        tried += 1
    assert tried > 5


# Editions


class Touched:
    """What the sets of changes of one edition touch of it, followed through all that a line reads."""

    def __init__(self, rules: RuleSet) -> None:
        self.rules = rules
        self.kept: dict[CheckedLine, bool] = {}

    def address(self, address: str) -> bool:
        return any(change.document == self.rules.title for change in self.rules.changes_to(address))

    def line(self, line: CheckedLine) -> bool:
        if line not in self.kept:
            self.kept[line] = False
            below = any(map(self.tree, trees_of(line)))
            self.kept[line] = self.address(line.address) or self.group(line.each) or below
        return self.kept[line]

    def group(self, group: CheckedGroup | None) -> bool:
        if group is None or group.source is None:
            return False
        others = (*group.bases, *group.excepted)
        within = group.condition is not None and self.tree(group.condition)
        return self.address(group.address) or within or any(map(self.group, others))

    def tree(self, tree: Any) -> bool:
        return any(map(self.node, walk(tree)))

    def node(self, node: Any) -> bool:
        if isinstance(node, ReadLine):
            return self.line(node.line)
        if isinstance(node, Gather):
            return self.group(node.group)
        if isinstance(node, (ReadChoice, Constant)):
            return bool(node.address) and self.address(node.address)
        return isinstance(node, (Lookup, FirstRow)) and self.address(node.address)


@cache
def base_of(edition: str) -> str:
    """The edition that another rests on, or an empty string."""
    rules = rules_of(edition)
    base = rules.chain[-2] if len(rules.chain) > 1 else ""
    return next((each for each in EDITIONS if rules_of(each).title == base), "")


EDITIONS = editions_in(installed_folder())
BASED = [edition for edition in EDITIONS if base_of(edition)]


def line_values(evaluation: Evaluation, line: CheckedLine) -> list[Any]:
    """The values of a line: one, or those of the items that it has values for."""
    facts = evaluation.facts.collections
    if line.each is not None:
        items = evaluation.decided(evaluation.plan.place(line.each)).items
    else:
        items = list(range(1 if line.level == HOME else len(facts[line.level])))
    return [plain(evaluation.line(line, item)) for item in items]


def lines_in_both(edition: str) -> tuple[list[tuple[CheckedLine, CheckedLine]], list[tuple[CheckedLine, CheckedLine]]]:
    """The lines of an edition and of its base: those that the changes do not touch, and those that they do."""
    rules, base = rules_of(edition), rules_of(base_of(edition))
    touched = Touched(rules)
    pairs = [
        (method.lines[name], base.methods[method.name].lines[name])
        for method in rules.methods.values()
        for name in method.lines
        if name in base.methods[method.name].lines
    ]
    return [pair for pair in pairs if not touched.line(pair[0])], [pair for pair in pairs if touched.line(pair[0])]


def edition_equals_its_base(edition: str, seed: int, count: int) -> None:
    rules, base = rules_of(edition), rules_of(base_of(edition))
    same_in_both, touched = lines_in_both(edition)
    assert len(same_in_both) > len(touched) > 0
    different: set[str] = set()
    for at in range(count):
        chance = random.Random(seed * 1_000_000 + at)
        home = read(random_home(rules.glossary, chance), base)
        given = {
            "calculated_amperes": chance.uniform(10, 500),
            "continuous_amperes": chance.uniform(0, 80),
            "rating_from": 100.0 * chance.randrange(2),
        }
        for supply in home.supplies:
            new, old = (Evaluation(plan_of(each), supply.facts, {}, given) for each in (rules, base))
            for line, other in same_in_both:
                assert line_values(new, line) == line_values(old, other), (line.id, at)
            different |= {line.id for line, other in touched if line_values(new, line) != line_values(old, other)}
    assert different  # the homes are such that the changes show


@pytest.mark.slow
@pytest.mark.parametrize("edition", first_of(BASED, BASED[-1:]))
def test_an_edition_equals_its_base_where_nothing_is_touched(edition: str) -> None:
    edition_equals_its_base(edition, 12, 40)


@pytest.mark.slow
@pytest.mark.parametrize("edition", BASED)
def test_an_edition_equals_its_base_on_many_homes(edition: str) -> None:
    edition_equals_its_base(edition, 13, 50)


# Every load counts once


def every_load_counts_once(seed: int, count: int) -> int:
    """How many results were judged, none of which counts a load never or twice."""
    judged = 0
    for _, rules, home, choices in trials(seed, count):
        for supply in read(home, rules).supplies:
            evaluation = Evaluation(plan_of(rules), supply.facts, choices)
            for name, method in rules.methods.items():
                for item in items_of(name, rules, supply) if method.counts is not None else ():
                    result = next(iter(method.results.values()))
                    judged += isinstance(evaluation.line(result, item), float)
                    assert miscounts(evaluation, name, item) == [], written(home)
    return judged


def test_every_load_counts_once() -> None:
    assert every_load_counts_once(14, 60) > 100


@pytest.mark.long
def test_every_load_counts_once_in_many_homes() -> None:
    assert every_load_counts_once(15, 500) > 1000


# The document


def documents_agree_when_recomputed(seed: int, count: int) -> None:
    """Every home is assessed, whatever is in it, and the document that is written holds together."""
    for _, rules, home, choices in trials(seed, count):
        told = {**home, "interpretations": choices} if choices else home
        found = assess(read(told, rules), rules, date="2026-01-01")
        document = json.loads(json.dumps(found.json()))
        assert len(document["supplies"]) == 1 + len(home.get("feeders", ()))
        assert recompute_document(document, tolerance=TOLERANCE) == [], written(told)


UNDECIDED = """
home: house with what is not known
service: {system: 120/240 V single-phase 3-wire}
dwelling units:
  - areas: [{kind: living, area: 1000 ft2}]
    small appliance circuits: unknown
    laundry circuits: 1
    loads: [{name: motor, kind: other motor, rating: unknown}, {name: fridge, kind: refrigerator, rating: 700 W}]
"""


def test_a_document_agrees_where_it_is_undecided_what_a_load_is() -> None:
    rules = rules_of("nec/2023")
    document = json.loads(
        json.dumps(assess(home_from_text(UNDECIDED, "home.yaml", rules.glossary), rules, date="2026-01-01").json())
    )
    lines = {line["id"]: line for method in document["supplies"][0]["methods"] for line in method["lines"]}
    assert lines["standard.fastened_connected"]["members"][0]["undecided"] == ["motor"]
    assert recompute_document(document, tolerance=TOLERANCE) == []


def test_nothing_is_evaluated_where_it_is_not_known_whether_a_line_applies() -> None:
    rules = rules_of("nec/2023")
    text = UNDECIDED.replace("name: motor, kind: other motor", "name: range, kind: range")
    document = json.loads(json.dumps(assess(home_from_text(text, "home.yaml", rules.glossary), rules, date="2026-01-01").json()))
    lines = {line["id"]: line for method in document["supplies"][0]["methods"] for line in method["lines"]}
    assert "parts" not in lines["standard.cooking_by_size"]
    assert recompute_document(document, tolerance=TOLERANCE) == []


@pytest.mark.slow
def test_documents_agree_when_recomputed() -> None:
    documents_agree_when_recomputed(16, 8)


@pytest.mark.long
def test_many_documents_agree_when_recomputed() -> None:
    documents_agree_when_recomputed(17, 15)
