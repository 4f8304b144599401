"""The rule language on small rule sets: what each construct means, and what is refused."""

from __future__ import annotations

import gc
import weakref
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest
import yaml

from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.facts import Facts, NotApplicable, Unknown
from dwellcalc.glossary import Glossary
from dwellcalc.language import formulas
from dwellcalc.language.formulas import parse
from dwellcalc.language.phrases import parse_phrase
from dwellcalc.language.rule_set import RuleSet, load_rules, read_glossary
from dwellcalc.placed import Text
from dwellcalc.problems import InputError, Source
from dwellcalc.reading import read_text
from dwellcalc.units import NUMBER, PERCENT, Units, UnknownUnit, number, over, share, times

BASE = Path(__file__).parent / "bad" / "base"
RULES = Path(__file__).parents[1] / "rules"
SEEN = {"source": "first_book", "confidence": "memory"}
TITLED = {"title": "As it says", "cite": "c"}

# Small rule sets, as texts


def line(value: str = "", **keys: Any) -> dict[str, Any]:
    """A line with a formula, or with the way that the keys give."""
    evidence = SEEN if "tiers" in keys else {}
    return {**TITLED, **({"value": value} if value else {}), **keys, **evidence}


def parameter(value: str) -> dict[str, Any]:
    return {"value": value, "cite": "c", **SEEN}


def table(rows_by: dict[str, str], rows: Any, **keys: Any) -> dict[str, Any]:
    return {**TITLED, "rows_by": rows_by, **keys, "rows": rows, **SEEN}


def question(*options: str) -> dict[str, Any]:
    return {"question": "Which?", "cite": "c", "options": {each: {"says": each} for each in options}, "default": options[0]}


def document(kind: str, name: str, **sections: Any) -> tuple[str, str]:
    """The name and the text of a method or part; texts among parameters and lines are written out."""
    lines = {each: line(what) if isinstance(what, str) else what for each, what in sections.pop("lines", {}).items()}
    numbers = {each: parameter(what) for each, what in sections.pop("parameters", {}).items()}
    made: dict[str, Any] = {kind: name, "title": "Small"}
    if kind == "method":
        single = [each for each, what in lines.items() if "each" not in what]
        made |= {"cite": "c", "per": "home", "result": {each: {"line": each, "optional": "yes"} for each in single}}
    made |= sections
    made |= {section: entries for section, entries in (("parameters", numbers), ("lines", lines)) if entries}
    return name, yaml.safe_dump(made, sort_keys=False, width=500)


def method(name: str = "m", **sections: Any) -> tuple[str, str]:
    return document("method", name, **sections)


class Shelf:
    """A folder for one rule set."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        (folder / "tiny" / "editions").mkdir(parents=True)
        for name in ("glossary.yaml", "units.txt", "sources.yaml"):
            (folder / name).write_bytes((BASE / name).read_bytes())

    def load(self, *documents: tuple[str, str], changes: Any = None, citations: Any = None, more: Any = None) -> RuleSet:
        """The first edition, or the second, which makes the changes."""
        for name, text in documents:
            self.write(f"tiny/{name}.yaml", text)
        methods = [name for name, text in documents if text.startswith("method:")]
        cited = {"c": {"section": "1.1", "confidence": "text seen"}, **(citations or {})}
        self.write("tiny/editions/first.yaml", {"edition": "First", "methods": methods, "citations": cited})
        if changes is None:
            return load_rules("tiny/first", self.folder)
        sets = [{"title": "A set", "changes": changes}]
        self.write("tiny/editions/second.yaml", {"edition": "Second", "based_on": "tiny/first", **(more or {}), "sets": sets})
        return load_rules("tiny/second", self.folder)

    def write(self, name: str, content: Any) -> None:
        text = content if isinstance(content, str) else yaml.safe_dump(content, sort_keys=False, width=500)
        (self.folder / name).write_text(text, encoding="utf-8")

    def refused(self, *documents: tuple[str, str], **more: Any) -> list[str]:
        """The keys of the problems, in order."""
        with pytest.raises(InputError) as caught:
            self.load(*documents, **more)
        return [problem.message.key for problem in caught.value.problems]


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    return Shelf(tmp_path / "rules")


def facts_of(
    glossary: Glossary,
    loads: Iterable[dict[str, Any]] = (),
    units: Iterable[dict[str, Any]] = ({},),
    areas: Iterable[dict[str, Any]] = (),
    **supply: Any,
) -> Facts:
    """Facts; `owner` and `quantity` stand among the values, `on` lists line conductors by position."""
    facts = Facts.empty(glossary)
    for name, value in supply.items():
        facts.set("supply", name, value)
    for conductor in ("A", "B"):
        facts.add("line_conductors", conductor, {})
    facts.add("line_pairs", "A-B", {})
    for collection, items, owner in (("dwelling_units", units, -1), ("areas", areas, 0), ("loads", loads, 0)):
        for at, given in enumerate(items):
            item = {"replaced": False, **given} if collection == "loads" else dict(given)
            owner_here, quantity = item.pop("owner", owner), item.pop("quantity", 1.0)
            on = item.pop("on", ())
            name = item.pop("name", f"{collection} {at + 1}")
            position = facts.add(collection, name, item, owner=owner_here, quantity=quantity)
            for conductor in on:
                facts.connected["line_conductors"][conductor].append((position, quantity))
    return facts


def value(rules: RuleSet, name: str, facts: Facts | None = None, item: int = 0, **more: Any) -> Any:
    """A line's value, by `method.line`."""
    owner, _, short = name.partition(".")
    evaluation = Evaluation(plan_of(rules), facts if facts is not None else facts_of(rules.glossary), **more)
    return evaluation.line(rules.methods[owner].lines[short], item)


def column(rules: RuleSet, name: str, facts: Facts) -> list[Any]:
    """A column's values, item by item."""
    owner, _, short = name.partition(".")
    found = rules.methods[owner].lines[short]
    evaluation = Evaluation(plan_of(rules), facts)
    return [evaluation.line(found, item) for item in range(len(facts.collections[found.level]))]


def same(found: Any, expected: Any) -> bool:
    """Equality that an unknown and a not applicable value stand too."""
    if expected is None:
        return isinstance(found, NotApplicable)
    if isinstance(expected, set):
        return isinstance(found, Unknown) and found.inputs == expected
    return not isinstance(found, (NotApplicable, Unknown)) and found == expected and type(found) is type(expected)


# Formulas


def text(written: str) -> Text:
    made = Text(written)
    made.source, made.line, made.column = Source("small.yaml", written), 1, 1
    return made


def shown(tree: formulas.Tree) -> str:
    """A tree with every parenthesis."""
    if isinstance(tree, formulas.Literal):
        return f"{tree.value:g}"
    if isinstance(tree, formulas.Name):
        return tree.text
    if isinstance(tree, formulas.Call):
        return f"{tree.function}[{', '.join(shown(each) for each in tree.arguments)}]"
    if isinstance(tree, (formulas.Arithmetic, formulas.Compare)):
        return f"({shown(tree.left)} {tree.sign} {shown(tree.right)})"
    if isinstance(tree, formulas.Not):
        return f"(not {shown(tree.inner)})"
    if isinstance(tree, formulas.Among):
        return f"({tree.name.text} {'not ' * tree.negated}in {' '.join(each.text for each in tree.words)})"
    return f"({f' {tree.word} '.join(shown(each) for each in tree.parts)})"


@pytest.mark.parametrize(
    ("formula", "tree"),
    [
        ("a + b * c", "(a + (b * c))"),
        ("a * b + c", "((a * b) + c)"),
        ("a - b - c", "((a - b) - c)"),
        ("a / b / c", "((a / b) / c)"),
        ("a - b + c", "((a - b) + c)"),
        ("a / b * c", "((a / b) * c)"),
        ("(a + b) * c", "((a + b) * c)"),
        ("a+b>=c*d", "((a + b) >= (c * d))"),
        ("a > 0 and b < 1 and c = d", "((a > 0) and (b < 1) and (c = d))"),
        ("a or b or c", "(a or b or c)"),
        ("a and (b or c)", "(a and (b or c))"),
        ("not a and b", "((not a) and b)"),
        ("not a > b", "(not (a > b))"),
        ("not not a", "(not (not a))"),
        ("a is b", "(a in b)"),
        ("a is not b", "(a not in b)"),
        ("a in (b, c)", "(a in b c)"),
        ("a not in (b, c) or d", "((a not in b c) or d)"),
        ("sum(a.b) + larger(c, d, 0)", "(sum[a.b] + larger[c, d, 0])"),
        ("table(t.x, larger(a, 1), copper)", "table[t.x, larger[a, 1], copper]"),
        ("known(a.b) and a.b > 0", "(known[a.b] and (a.b > 0))"),
    ],
)
def test_precedence(formula: str, tree: str) -> None:
    assert shown(parse(text(formula))) == tree


@pytest.mark.parametrize(
    ("formula", "key", "marked"),
    [
        ("a and b or c", "formula_mixed", "or"),
        ("a or b and c", "formula_mixed", "and"),
        ("(a or b) and c or d", "formula_mixed", "or"),
        ("a * 2", "formula_number", "2"),
        ("a * 0.5", "formula_number", "0.5"),
        ("a + 1.0", "formula_number", "1.0"),
        ("100 * a", "formula_number", "100"),
        ("a ** b", "formula_unexpected", "*"),
        ("a == b", "formula_unexpected", "="),
        ("a > b > c", "formula_unexpected", ">"),
        ("-a", "formula_unexpected", "-"),
        ("a b", "formula_unexpected", "b"),
        ("a + in", "formula_unexpected", "in"),
        ("sum + a", "formula_unexpected", "+"),
        ("a in ()", "formula_unexpected", ")"),
        ("larger(a, )", "formula_unexpected", ")"),
        ("a is 0", "formula_unexpected", "0"),
        ("(a + b) is c", "formula_unexpected", "is"),
        ("a.b[0]", "formula_character", "["),
        ("a if b", "formula_unexpected", "if"),
        ("'a'", "formula_character", "'"),
        ("a; b", "formula_character", ";"),
        ("(a", "formula_ends", "a"),
        ("a +", "formula_ends", "+"),
        ("", "formula_ends", ""),
        ("average(a.b)", "formula_function", "average"),
        ("(" * 40 + "a" + ")" * 40, "formula_deep", "("),
        ("not " * 40 + "a", "formula_deep", "n"),
        (" + ".join("a" * 100), "formula_deep", "+"),
    ],
)
def test_what_is_no_formula(formula: str, key: str, marked: str) -> None:
    with pytest.raises(InputError) as caught:
        parse(text(formula))
    (problem,) = caught.value.problems
    place = problem.place
    assert place is not None
    assert problem.message.key == key
    assert formula[place.column - 1 : place.column - 1 + place.width] == marked


def test_any_number_may_stand_in_a_cell() -> None:
    assert shown(parse(text("47 - 1.5 * (n - 11)"), numbers=True)) == "(47 - (1.5 * (n - 11)))"


@pytest.mark.parametrize(
    ("written", "place"),
    [
        ("value: alpha + 3\n", "1:16"),
        ("value: alpha  +   3\n", "1:19"),
        ("value: alpha +\n  beta +\n    3\n", "3:5"),
        ("value: alpha\n       + beta\n       + 3\n", "3:10"),
        ("value: alpha +   \n   beta + 3\n", "2:11"),
        ("value: alpha +\n\n  beta + 3\n", "3:10"),
        ('value: "alpha + 3"\n', "1:17"),
        ("value: 'alpha + 3'\n", "1:17"),
        ('value: "alpha +\n  beta + 3"\n', "2:10"),
        ('value: "alpha + \\\n  beta + 3"\n', "2:10"),
        ("value: |\n  alpha +\n  beta + 3\n", "3:10"),
        ("value: >-\n  alpha +\n  3\n", "3:3"),
        ("{value: alpha + 3, more: x}\n", "1:17"),
    ],
)
def test_the_place_in_a_formula_wherever_it_is_written(written: str, place: str) -> None:
    with pytest.raises(InputError) as caught:
        parse(read_text(written, "small.yaml")["value"])  # type: ignore[index]
    assert f"small.yaml:{place}: the number 3" in str(caught.value)


@pytest.mark.parametrize("written", ["alpha ^ x", '"alpha ^ x"', "\n      alpha\n      ^ x", "|\n      alpha ^\n      x"])
def test_the_place_in_a_group_wherever_it_is_written(shelf: Shelf, written: str) -> None:
    quote = '"' if written.startswith('"') else ""
    condition = written.strip('"')
    group = (
        f"g: {condition.replace('alpha', 'loads where alpha')}"
        if "\n" in written
        else f"g: {quote}loads where {condition}{quote}"
    )
    name, whole = method(lines={"x": "count(g)"})
    with pytest.raises(InputError) as caught:
        shelf.load((name, f"{whole}groups:\n  {group}\n"))
    (problem,) = caught.value.problems
    assert problem.place is not None
    found = problem.place
    assert found.source.line(found.line)[found.column - 1] == "^"


# Units


@pytest.fixture(scope="module")
def units() -> Units:
    return Units(RULES / "units.txt")


VA = (("ampere", 1), ("volt", 1))


@pytest.mark.parametrize(
    ("written", "amount", "kind"),
    [
        ("3000 VA", 3000.0, VA),
        ("11.5 kW", 11500.0, (("watt", 1),)),
        ("9.6 kVA", 9600.0, VA),
        ("1,500 VA", 1500.0, VA),
        ("1 1/2 hp", 1.5, (("horsepower", 1),)),
        ("1/4 hp", 0.25, (("horsepower", 1),)),
        ("240V", 240.0, (("volt", 1),)),
        ("125 %", 125.0, PERCENT),
        ("125%", 125.0, PERCENT),
        ("4", 4.0, NUMBER),
        (".5 A", 0.5, (("ampere", 1),)),
        ("-3 A", -3.0, (("ampere", 1),)),
        ("3 VA/ft2", 3.0, (("ampere", 1), ("square_foot", -1), ("volt", 1))),
        ("1500 VA/circuit", 1500.0, (("ampere", 1), ("circuit", -1), ("volt", 1))),
        ("1 VA/W", 1.0, (("ampere", 1), ("volt", 1), ("watt", -1))),
    ],
)
def test_a_quantity(units: Units, written: str, amount: float, kind: Any) -> None:
    assert units.quantity(written) == (amount, kind)


@pytest.mark.parametrize("written", ["", "VA", "three VA", "1,50 VA", "1 / 2 VA", "3 4 VA", "1/0 A", "9" * 400 + " A"])
def test_no_quantity(units: Units, written: str) -> None:
    with pytest.raises(ValueError):
        units.quantity(written)


@pytest.mark.parametrize("written", ["3 lightyear", "1e3 VA", "3 VA**9999999", "3 VA^2", "3 fathom", "3 V*(A)"])
def test_no_unit(units: Units, written: str) -> None:
    with pytest.raises(UnknownUnit):
        units.quantity(written)


def test_square_meters_are_square_feet_only_in_a_home_file(units: Units) -> None:
    square_foot = units.unit("ft2").kind
    assert units.converted("9.290304 m2", square_foot) == pytest.approx(100.0)
    assert units.converted("100 ft2", square_foot) == 100.0
    assert units.unit("m2").kind != square_foot
    with pytest.raises(ValueError):
        units.converted("100 VA", units.unit("W").kind)


def test_kinds_of_products_and_quotients(units: Units) -> None:
    kind = {name: units.unit(name).kind for name in ("VA", "V", "A", "ft2", "VA/ft2", "%", "number", "W")}
    assert times(kind["V"], kind["A"]) == kind["VA"] == times(kind["VA/ft2"], kind["ft2"])
    assert over(kind["VA"], kind["V"]) == kind["A"]
    assert over(kind["VA"], kind["VA"]) == NUMBER == kind["number"]
    assert times(kind["%"], kind["VA"]) == times(kind["VA"], kind["%"]) == kind["VA"] != kind["W"]
    assert times(kind["%"], kind["%"]) == kind["%"]
    assert over(kind["%"], kind["VA"]) is None
    assert over(kind["VA"], kind["%"]) is None


@pytest.mark.parametrize("name", ["VA", "V", "A", "W", "ft2", "VA/ft2", "%", "hp"])
def test_a_kind_is_printed_as_its_unit_is_written(units: Units, name: str) -> None:
    assert units.printed(units.unit(name).kind) == name


def test_a_percent_is_kept_as_printed() -> None:
    assert share(8000.0, 35.0) == 8000.0 * 35.0 / 100
    assert share(0.1, 70.0) == 0.1 * 70.0 / 100 != 0.1 * 0.7


@pytest.mark.parametrize(("written", "amount"), [("12", 12), ("1,500", 1500), ("4.5", 4.5), ("1/4", 0.25), ("1 1/2", 1.5)])
def test_a_number_as_printed(written: str, amount: float) -> None:
    assert number(written) == amount


@pytest.mark.parametrize(
    ("formula", "expected"),
    [
        ("share_of * amount", 2800.0),
        ("amount * share_of", 2800.0),
        ("share_of * share_of", 12.25),
        ("share_of + share_of", 70.0),
        ("amount - share_of * amount", 5200.0),
        ("amount / volts_here", 8000.0 / 240.0),
        ("0 + amount", 8000.0),
        ("larger(0, amount)", 8000.0),
        ("smaller(amount, 0, amount)", 0.0),
        ("round_up(amount / volts_here, whole)", 34.0),
        ("round_half_up(amount / volts_here, whole)", 33.0),
    ],
)
def test_formulas_on_quantities(shelf: Shelf, formula: str, expected: float) -> None:
    numbers = {"share_of": "35 %", "amount": "8 kVA", "volts_here": "240 V", "whole": "1 A"}
    used = {name: given for name, given in numbers.items() if name in formula}
    rules = shelf.load(method(parameters=used, lines={"x": formula}))
    assert same(value(rules, "m.x"), expected)


@pytest.mark.parametrize(("amount", "up", "half"), [(32.0, 32, 32), (32.4, 33, 32), (32.5, 33, 33), (33.5, 34, 34), (0.0, 0, 0)])
def test_rounding_at_and_beside_a_step(shelf: Shelf, amount: float, up: float, half: float) -> None:
    lines = {"up": "round_up(x, whole)", "half": "round_half_up(x, whole)"}
    rules = shelf.load(method(given={"x": {"unit": "A", "is": "current"}}, parameters={"whole": "1 A"}, lines=lines))
    assert [value(rules, f"m.{name}", given={"x": amount}) for name in lines] == [up, half]


@pytest.mark.parametrize(
    ("formula", "key"),
    [
        ("amount + current", "different_kinds"),
        ("amount > current", "different_kinds"),
        ("larger(amount, current)", "different_kinds"),
        ("amount + 1", "different_kinds"),
        ("amount / share_of", "percent_divided"),
        ("share_of / amount", "percent_divided"),
        ("amount + share_of", "different_kinds"),
        ("amount * supply.system", "not_quantity"),
        ("amount * (amount > 0)", "not_quantity"),
        ("not amount", "not_condition"),
        ("amount > 0 and current", "not_condition"),
        ("amount is copper", "not_a_choice"),
        ("supply.system is copper", "unknown_word"),
        ("supply.system = supply.system", "not_quantity"),
        ("supply.voltages", "unknown_name"),
        ("round_up(amount, 1)", "arguments"),
        ("round_up(amount, current)", "different_kinds"),
        ("known(amount + amount)", "arguments"),
        ("sum(loads)", "gather_form"),
        ("count(loads.volt_amperes)", "gather_form"),
        ("sum(loads.motor)", "gather_form"),
        ("every(loads.volt_amperes)", "gather_form"),
        ("sum(loads.kind)", "not_quantity"),
    ],
)
def test_formulas_of_the_wrong_kind(shelf: Shelf, formula: str, key: str) -> None:
    numbers = {"amount": "8 kVA", "current": "3 A", "share_of": "35 %"}
    assert shelf.refused(method(parameters=numbers, lines={"x": formula})) == [key]


# Phrases and tiers


@pytest.mark.parametrize(
    ("written", "amount", "shares", "portion", "step", "rounds"),
    [
        ("100 % of the first 3000 VA", 100.0, True, "the first", 3000.0, ""),
        ("35 % of the next 117,000 VA", 35.0, True, "the next", 117000.0, ""),
        ("25 % of the rest", 25.0, True, "the rest", 0.0, ""),
        ("5000 W for the first 90 m2", 5000.0, False, "the first", 90.0, ""),
        ("2 kW for the next 1 m2 or part", 2000.0, False, "the next", 1.0, "or part"),
        ("1000 W for each further 90 m2 or part", 1000.0, False, "each further", 90.0, "or part"),
        ("5 % for each further 1 kVA or major fraction", 5.0, False, "each further", 1000.0, "or major fraction"),
        ("10 A for the rest", 10.0, False, "the rest", 0.0, ""),
    ],
)
def test_a_phrase(units: Units, written: str, amount: float, shares: bool, portion: str, step: float, rounds: str) -> None:
    found = parse_phrase(text(written), units)
    assert (found.amount, found.shares, found.portion, found.step, found.rounds) == (amount, shares, portion, step, rounds)


@pytest.mark.parametrize(
    ("written", "key"),
    [
        ("100 % of first 3000 VA", "phrase"),
        ("100 % of the first", "phrase"),
        ("25 % of the rest 3000 VA", "phrase"),
        ("100 % above the first 3000 VA", "phrase"),
        ("1000 W for the first 90 m2 or part", "phrase"),
        ("1000 W for the next 90 m2 or major fraction", "phrase"),
        ("1000 W for each further 0 m2 or part", "phrase"),
        ("1000 W for each further 90 m2", "phrase_further"),
        ("1000 W of the first 90 m2", "phrase_share"),
        ("100 % of the first few VA", "phrase_quantity"),
        ("much of the rest", "phrase_quantity"),
    ],
)
def test_no_phrase(units: Units, written: str, key: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_phrase(text(written), units)
    assert [problem.message.key for problem in caught.value.problems] == [key]


GIVEN_X = {"x": {"unit": "VA", "is": "what is asked"}}
SHARES = ["100 % of the first 3000 VA", "35 % of the next 1000 VA", "25 % of the rest"]
STEPS = ["50 A for the first 3000 VA", "10 A for each further 1000 VA or part"]
FRACTIONS = ["50 A for the first 3000 VA", "10 A for each further 1000 VA or major fraction"]


@pytest.mark.parametrize(
    ("tiers", "quantity", "expected"),
    [
        (SHARES, 0.0, 0.0),
        (SHARES, 2999.0, 2999.0),
        (SHARES, 3000.0, 3000.0),
        (SHARES, 3001.0, 3000.35),
        (SHARES, 4000.0, 3350.0),
        (SHARES, 4004.0, 3351.0),
        (STEPS, 0.0, 0.0),
        (STEPS, 1.0, 50.0),
        (STEPS, 3000.0, 50.0),
        (STEPS, 3000.5, 60.0),
        (STEPS, 4000.0, 60.0),
        (STEPS, 4000.5, 70.0),
        (FRACTIONS, 3000.0, 50.0),
        (FRACTIONS, 3499.0, 50.0),
        (FRACTIONS, 3500.0, 60.0),
        (FRACTIONS, 4499.0, 60.0),
        (FRACTIONS, 4500.0, 70.0),
    ],
)
def test_tiers_at_and_beside_their_edges(shelf: Shelf, tiers: list[str], quantity: float, expected: float) -> None:
    rules = shelf.load(method(given=GIVEN_X, lines={"y": line(of="x", tiers=tiers)}))
    assert value(rules, "m.y", given={"x": quantity}) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("tiers", "keys"),
    [
        (["25 % of the rest"], ["tier_order"]),
        (["100 % of the first 3000 VA"], ["tier_order"]),
        (["100 % of the first 3000 VA", "25 % of the rest", "5 % of the next 3 VA"], ["tier_order"]),
        (["100 % of the first 3000 VA", "35 % of the first 3000 VA", "25 % of the rest"], ["tier_order"]),
        (["100 % of the first 3000 W", "25 % of the rest"], ["tier_kinds"]),
        (["100 % of the first 3000 VA", "25 A for the rest"], ["different_kinds"]),
        ([], ["too_few"]),
    ],
)
def test_tiers_that_do_not_hang_together(shelf: Shelf, tiers: list[str], keys: list[str]) -> None:
    assert shelf.refused(method(given=GIVEN_X, lines={"y": line(of="x", tiers=tiers)})) == keys


# Tables

BY_NUMBER = table(
    {"n": "number"},
    {"1 to 4": "100", "5": "85", "6 to 8": "60 - 2.5 * (n - 5)", "9 and more": "25"},
    columns={"factor": "%"},
)
BY_AMOUNT = table({"n": "VA"}, {"not over 10000": "8", "over 10000 to 12500": "10", "over 12500": "-"}, columns={"c": "kVA"})
NEXT_UP = table({"n": "A"}, {"15": "14", "20": "12", "30": "10"}, columns={"c": "number"}, read="next row up", outside="refuse")
GAPS = table({"n": "V"}, {"110 to 127": "120", "220 to 250": "240"}, columns={"c": "V"}, gaps="refuse", outside="refuse")
SIZES = table(
    {"n": "conductor_size"},
    {"small": ["60", "40"], "medium": ["120", "-"], "large": ["200", "150"]},
    columns_by={"material": "material"},
    gives="A",
    columns=["copper", "aluminum"],
)
CHOSEN = table(
    {"n": "supply_system"},
    {"two_lines": ["1", "small"], "three_lines": ["2", "large"]},
    columns={"k": "number", "s": "conductor_size"},
)


@pytest.mark.parametrize(
    ("made", "unit", "call", "asked", "expected"),
    [
        *(
            (BY_NUMBER, "number", "t.factor", asked, found)
            for asked, found in [(1, 100), (4, 100), (5, 85), (6, 57.5), (8, 52.5)]
        ),
        *((BY_NUMBER, "number", "t.factor", asked, found) for asked, found in [(9, 25), (400, 25), (0, "no"), (4.5, "no")]),
        *(
            (BY_AMOUNT, "VA", "t.c", asked, found)
            for asked, found in [(0, 8000), (10000, 8000), (10000.5, 10000), (12500, 10000)]
        ),
        *((BY_AMOUNT, "VA", "t.c", asked, found) for asked, found in [(12500.5, "no"), (-1, 8000)]),
        *(
            (NEXT_UP, "A", "t.c", asked, found)
            for asked, found in [(0, 14), (15, 14), (15.5, 12), (20, 12), (30, 10), (30.5, "no")]
        ),
        *(
            (GAPS, "V", "t.c", asked, found)
            for asked, found in [(109, "no"), (110, 120), (127, 120), (128, "no"), (250, 240), (251, "no")]
        ),
    ],
)
def test_each_form_of_a_row_at_and_beside_its_edge(
    shelf: Shelf, made: dict[str, Any], unit: str, call: str, asked: float, expected: float | str
) -> None:
    given = {"x": {"unit": unit, "is": "what is asked"}}
    rules = shelf.load(method(given=given, tables={"t": made}, lines={"y": f"table({call}, x)"}))
    found = value(rules, "m.y", given={"x": float(asked)})
    if expected == "no":
        assert isinstance(found, Unknown)
        assert len(found.refusals) == 1
    else:
        assert same(found, float(expected))


@pytest.mark.parametrize(
    ("size", "material", "expected"), [(0, "copper", 60.0), (2, "aluminum", 150.0), (1, "aluminum", "no"), (1, "copper", 120.0)]
)
def test_a_table_by_scale_with_a_column_by_choice(shelf: Shelf, size: int, material: str, expected: Any) -> None:
    rules = shelf.load(method(tables={"t": SIZES}, lines={"y": "table(t, supply.conductor_size, supply.conductor_material)"}))
    found = value(rules, "m.y", facts_of(rules.glossary, conductor_size=size, conductor_material=material))
    assert isinstance(found, Unknown) if expected == "no" else found == expected


def test_a_table_by_choice_gives_numbers_and_values_of_a_scale(shelf: Shelf) -> None:
    lines = {"k": "table(t.k, supply.system)", "s": "table(t.s, supply.system)", "fixed": "table(t.k, three_lines)"}
    rules = shelf.load(method(tables={"t": CHOSEN}, lines=lines))
    facts = facts_of(rules.glossary, system="three_lines")
    assert [value(rules, f"m.{name}", facts) for name in lines] == [2.0, 2, 2.0]


@pytest.mark.parametrize(
    ("needed", "material", "expected"),
    [
        (0.0, "copper", 0),
        (60.0, "copper", 0),
        (60.5, "copper", 1),
        (200.0, "copper", 2),
        (41.0, "aluminum", 2),
        (151.0, "aluminum", "no"),
    ],
)
def test_a_table_read_back(shelf: Shelf, needed: float, material: str, expected: Any) -> None:
    given = {"x": {"unit": "A", "is": "what is asked"}}
    rules = shelf.load(method(given=given, tables={"t": SIZES}, lines={"y": f"first_row_at_least(t, x, {material})"}))
    found = value(rules, "m.y", given={"x": needed})
    assert isinstance(found, Unknown) if expected == "no" else same(found, expected)


@pytest.mark.parametrize(("needed", "expected"), [(0.0, 15.0), (15.0, 15.0), (15.1, 20.0), (20.1, "no")])
def test_a_table_of_keys_alone(shelf: Shelf, needed: float, expected: Any) -> None:
    given = {"x": {"unit": "A", "is": "what is asked"}}
    ratings = table({"rating": "A"}, ["15", "20"], outside="refuse")
    rules = shelf.load(method(given=given, tables={"t": ratings}, lines={"y": "first_row_at_least(t, x)"}))
    found = value(rules, "m.y", given={"x": needed})
    assert isinstance(found, Unknown) if expected == "no" else same(found, expected)


@pytest.mark.parametrize(("allowed", "expected"), [(14.9, "no"), (15.0, 15.0), (19.9, 15.0), (20.0, 20.0), (400.0, 20.0)])
def test_a_table_of_keys_read_down(shelf: Shelf, allowed: float, expected: Any) -> None:
    given = {"x": {"unit": "A", "is": "what is allowed"}}
    ratings = table({"rating": "A"}, ["15", "20"], outside="refuse")
    rules = shelf.load(method(given=given, tables={"t": ratings}, lines={"y": "last_row_at_most(t, x)"}))
    found = value(rules, "m.y", given={"x": allowed})
    assert isinstance(found, Unknown) if expected == "no" else same(found, expected)


@pytest.mark.parametrize(
    ("allowed", "material", "expected"),
    [(59.0, "copper", "no"), (60.0, "copper", 0), (199.0, "copper", 1), (500.0, "copper", 2), (41.0, "aluminum", 0)],
)
def test_a_table_by_scale_read_down(shelf: Shelf, allowed: float, material: str, expected: Any) -> None:
    given = {"x": {"unit": "A", "is": "what is allowed"}}
    rules = shelf.load(method(given=given, tables={"t": SIZES}, lines={"y": f"last_row_at_most(t, x, {material})"}))
    found = value(rules, "m.y", given={"x": allowed})
    assert isinstance(found, Unknown) if expected == "no" else same(found, expected)


def test_a_method_gives_columns(shelf: Shelf) -> None:
    lines = {
        "total": "sum(loads.double)",
        "double": line("volt_amperes + volt_amperes", each="loads"),
        "own": line("volt_amperes", each="loads"),
    }
    assert shelf.refused(method(lines=lines)) == ["unused"]
    rules = shelf.load(method(lines=lines, columns=["own"]))
    facts = facts_of(rules.glossary)
    facts.add("loads", "lamp", {"volt_amperes": 60.0})
    sheet = Tracer(Evaluation(plan_of(rules), facts)).method("m")
    values = {each.id: [outcome.value for outcome in each.items] for each in sheet.lines if each.each}
    assert values == {"m.double": [120.0], "m.own": [60.0]}


def test_a_column_that_is_none(shelf: Shelf) -> None:
    assert shelf.refused(method(lines={"x": "1"}, columns=["x"])) == ["column_result"]
    assert shelf.refused(method(lines={"x": "1"}, columns=["y"])) == ["result_line"]


@pytest.mark.parametrize(
    ("rows", "keys"),
    [
        ({"1 to 4": "1", "6 and more": "2"}, ["row_gap"]),
        ({"1 to 4": "1", "4 and more": "2"}, ["row_order"]),
        ({"5 and more": "1", "1 to 4": "2"}, ["row_order", "table_end", "table_end"]),
        ({"2 to 4": "1", "5 and more": "2"}, ["table_end"]),
        ({"1 to 4": "1", "5": "2"}, ["table_end"]),
        ({"1 and more": "1,2"}, ["cell"]),
        ({"1 and more": "few"}, ["cell_name"]),
        ({"1 and more": "12 / n"}, ["cell_divided"]),
        ({"1 and more": "n > 3"}, ["cell_name"]),
        ({"few": "1", "2 and more": "2"}, ["row_value"]),
        ({"1,00 and more": "1"}, ["row_value"]),
        ({"1e3 and more": "1"}, ["row_value"]),
        ({"1 and more": ["1", "2"]}, ["row_length"]),
        ({}, ["table_empty"]),
    ],
)
def test_rows_that_are_refused(shelf: Shelf, rows: dict[str, Any], keys: list[str]) -> None:
    made = table({"n": "number"}, rows, columns={"c": "number"})
    assert shelf.refused(method(tables={"t": made}, lines={"y": "table(t.c, 1)"})) == keys


def test_rows_by_a_quantity_must_meet(shelf: Shelf) -> None:
    apart = table({"n": "VA"}, {"not over 10": "1", "over 11": "2"}, columns={"c": "number"})
    assert shelf.refused(method(given=GIVEN_X, tables={"t": apart}, lines={"y": "table(t.c, x)"})) == ["row_gap"]


# Cases, combining lines, three-valued conditions


@pytest.mark.parametrize(("x", "expected"), [(2999.0, 1.0), (3000.0, 2.0), (3001.0, 3.0)])
def test_cases_at_and_beside_a_threshold(shelf: Shelf, x: float, expected: float) -> None:
    cases = [{"when": "x < edge", "then": "1"}, {"when": "x = edge", "then": "1 + 1"}, {"otherwise": "1 + 1 + 1"}]
    rules = shelf.load(method(given=GIVEN_X, parameters={"edge": "3000 VA"}, lines={"y": line(cases=cases)}))
    assert same(value(rules, "m.y", given={"x": x}), expected)


@pytest.mark.parametrize(("way", "expected"), [("sum_of", 12.0), ("largest_of", 7.0), ("least_of", 5.0)])
def test_combining_lines(shelf: Shelf, way: str, expected: float) -> None:
    lines = {"a": "five", "b": "seven", "y": line(**{way: ["a", "b"]})}
    rules = shelf.load(method(parameters={"five": "5 A", "seven": "7 A"}, lines=lines))
    assert same(value(rules, "m.y"), expected)


@pytest.mark.parametrize(("way", "expected"), [("largest_of", 2), ("least_of", 0)])
def test_a_value_of_a_scale_is_chosen_by_its_place(shelf: Shelf, way: str, expected: int) -> None:
    sizes = table({"n": "number"}, {"0": "large", "1": "small", "2": "medium"}, columns={"c": "conductor_size"}, outside="refuse")
    lines = {"a": "table(t.c, 1)", "b": "table(t.c, 0)", "d": "table(t.c, 1 + 1)", "y": line(**{way: ["a", "b", "d"]})}
    rules = shelf.load(method(tables={"t": sizes}, lines=lines))
    assert value(rules, "m.y") == expected


def test_values_of_a_scale_are_not_added(shelf: Shelf) -> None:
    sizes = table({"n": "number"}, {"0": "large", "1": "small"}, columns={"c": "conductor_size"}, outside="refuse")
    lines = {"a": "table(t.c, 1)", "b": "table(t.c, 0)", "y": line(sum_of=["a", "b"])}
    assert "not_quantity" in shelf.refused(method(tables={"t": sizes}, lines=lines))


TRUTH = [
    (True, True),
    (True, False),
    (True, None),
    (False, True),
    (False, False),
    (False, None),
    (None, True),
    (None, False),
    (None, None),
]


@pytest.mark.parametrize(("left", "right"), TRUTH)
def test_conditions_are_three_valued(shelf: Shelf, left: bool | None, right: bool | None) -> None:
    lines = {"both": "left and right", "either": "left or right", "neither": "not (left or right)"}
    given = {name: {"choice": "yes_no", "is": name} for name in ("left", "right")}
    rules = shelf.load(method(given=given, lines=lines))
    known = {name: said for name, said in (("left", left), ("right", right)) if said is not None}
    missing = {name for name in ("left", "right") if name not in known}
    both = False if False in known.values() else (missing or True)
    either = True if True in known.values() else (missing or False)
    assert same(value(rules, "m.both", given=known), both)
    assert same(value(rules, "m.either", given=known), either)
    assert same(value(rules, "m.neither", given=known), either if isinstance(either, set) else not either)


def test_all_missing_inputs_are_told_at_once(shelf: Shelf) -> None:
    cases = [{"when": "a > 0", "then": "b"}, {"when": "c > 0", "then": "d"}, {"otherwise": "0 * d"}]
    given = {name: {"unit": "A", "is": name} for name in "abcd"}
    lines = {
        "added": "a + b * 1 - c",
        "total": line(sum_of=["added", "cased"]),
        "cased": line(cases=cases),
        "picked": "larger(a, b, c)",
    }
    rules = shelf.load(method(given=given, lines=lines))
    assert same(value(rules, "m.added"), {"a", "b", "c"})
    assert same(value(rules, "m.total"), {"a", "b", "c"})
    assert same(value(rules, "m.picked", given={"b": 3.0}), {"a", "c"})
    assert same(value(rules, "m.cased", given={"a": 0.0}), {"c"})
    assert same(value(rules, "m.cased", given={"a": 0.0, "c": 1.0, "b": 4.0}), {"d"})


def test_what_is_not_needed_is_not_asked_for(shelf: Shelf) -> None:
    cases = [{"when": "a > 0", "then": "b"}, {"otherwise": "c"}]
    rules = shelf.load(method(given={name: {"unit": "A", "is": name} for name in "abc"}, lines={"y": line(cases=cases)}))
    assert same(value(rules, "m.y", given={"a": 1.0, "b": 2.0}), 2.0)
    assert same(value(rules, "m.y", given={"a": 0.0, "c": 3.0}), 3.0)


def test_a_group_that_cannot_be_decided_is_unknown_unless_its_load_is_out(shelf: Shelf) -> None:
    groups = {"apart": "loads where individual_circuit", "others": "loads except apart"}
    lines = {"number": "count(apart)", "rest": "count(others)", "amount": "sum(apart.volt_amperes)"}
    rules = shelf.load(method(groups=groups, lines=lines))
    known = {"kind": "range", "volt_amperes": 800.0, "individual_circuit": True}
    facts = facts_of(rules.glossary, [known, {"kind": "range", "volt_amperes": 100.0, "name": "new"}])
    for name in lines:
        assert same(value(rules, f"m.{name}", facts), {"new: individual circuit"})
    assert same(value(rules, "m.amount", facts_of(rules.glossary, [known])), 800.0)


def test_known_asks_and_nothing_else_does(shelf: Shelf) -> None:
    cases = [{"when": "known(supply.rating)", "then": "supply.rating"}, {"otherwise": "usual"}]
    rules = shelf.load(
        method(parameters={"usual": "60 A"}, lines={"y": line(cases=cases), "z": "known(y)", "bare": "supply.rating"})
    )
    empty, full = facts_of(rules.glossary), facts_of(rules.glossary, rating=100.0)
    assert same(value(rules, "m.y", empty), 60.0)
    assert same(value(rules, "m.y", full), 100.0)
    assert same(value(rules, "m.z", empty), True)
    assert same(value(rules, "m.bare", empty), {"supply: rating"})


def test_an_interpretation_is_read_like_a_choice(shelf: Shelf) -> None:
    cases = [{"when": "reading is wide", "then": "1"}, {"when": "reading in (narrow, none_at_all)", "then": "0"}]
    asked = question("wide", "narrow", "none_at_all")
    rules = shelf.load(method(interpretations={"reading": asked}, lines={"y": line(cases=cases)}))
    assert same(value(rules, "m.y"), 1.0)
    assert same(value(rules, "m.y", choices={"m.reading": "narrow"}), 0.0)


# Not applicable


def test_gathering_nothing(shelf: Shelf) -> None:
    lines = {f"the_{word}": f"{word}(loads.volt_amperes)" for word in ("sum", "mean", "largest")}
    rules = shelf.load(method(lines={**lines, "number": "count(loads)", "all": "every(loads.motor)"}))
    found = {name: value(rules, f"m.{name}") for name in (*lines, "number", "all")}
    assert same(found["the_sum"], 0.0)
    assert same(found["the_mean"], None)
    assert same(found["the_largest"], None)
    assert same(found["number"], 0.0)
    assert same(found["all"], True)


@pytest.fixture
def with_absent(shelf: Shelf) -> RuleSet:
    lines = {
        "there": "five",
        "absent": line("five", applies="supply.rating > five"),
        "formula": "there + absent",
        "picked": "larger(there, absent)",
        "sum_with": line(sum_of=["there", "absent"]),
        "least_with": line(least_of=["absent", "there"]),
        "sum_without": line(sum_of=["absent", "absent_too"]),
        "absent_too": line("absent"),
        "tiered": line(of="absent", tiers=["50 % of the first 3 A", "25 % of the rest"]),
        "cased": line(cases=[{"when": "there > five", "then": "there"}, {"otherwise": "absent"}]),
    }
    return shelf.load(method(parameters={"five": "5 A"}, lines=lines))


@pytest.mark.parametrize(
    ("name", "absent", "applies"),
    [
        ("absent", None, 5.0),
        ("formula", None, 10.0),
        ("picked", None, 5.0),
        ("sum_with", 5.0, 10.0),
        ("least_with", 5.0, 5.0),
        ("sum_without", None, 10.0),
        ("tiered", None, 2.0),
        ("cased", None, 5.0),
    ],
)
def test_a_line_that_does_not_apply(with_absent: RuleSet, name: str, absent: float | None, applies: float) -> None:
    facts = {rating: facts_of(with_absent.glossary, rating=rating) for rating in (5.0, 6.0)}
    assert same(value(with_absent, f"m.{name}", facts[5.0]), absent)
    assert same(value(with_absent, f"m.{name}", facts[6.0]), applies)
    assert same(value(with_absent, f"m.{name}", facts_of(with_absent.glossary)), {"supply: rating"})


def test_gathering_passes_over_what_does_not_apply(shelf: Shelf) -> None:
    own = line("volt_amperes", each="loads", applies="motor")
    lines = {"own": own, **{f"the_{word}": f"{word}(loads.own)" for word in ("sum", "mean", "largest")}}
    rules = shelf.load(method(lines=lines))
    loads = [{"volt_amperes": 300.0, "motor": True}, {"volt_amperes": 900.0, "motor": False}]
    facts = facts_of(rules.glossary, loads)
    assert [value(rules, f"m.the_{word}", facts) for word in ("sum", "mean", "largest")] == [300.0] * 3
    none = facts_of(rules.glossary, loads[1:])
    assert all(same(value(rules, f"m.the_{word}", none), None) for word in ("sum", "mean", "largest"))


@pytest.mark.parametrize(
    "lines",
    [
        {"a": "largest(loads.volt_amperes)", "y": line(cases=[{"when": "a > 0", "then": "1"}, {"otherwise": "0"}])},
        {"a": "mean(loads.volt_amperes)", "y": line("1", applies="a > 0")},
        {"a": line("supply.rating > 0", applies="known(supply.rating)"), "y": line("1", applies="a")},
    ],
)
def test_a_condition_that_may_be_not_applicable_is_refused(shelf: Shelf, lines: dict[str, Any]) -> None:
    assert shelf.refused(method(lines=lines)) == ["absent_condition"]


def test_a_result_that_may_be_not_applicable_says_so(shelf: Shelf) -> None:
    lines = {
        "y": "largest(loads.volt_amperes)",
        "per_unit": line("laundry_circuits", each="dwelling_units"),
        "z": "largest(dwelling_units.per_unit)",
    }
    assert shelf.refused(method(lines=lines, result={"y": "y", "z": "z"})) == ["absent_result"]
    shelf.load(method(lines=lines, result={"y": {"line": "y", "optional": "yes"}, "z": "z"}))


# Shapes: one value for the home, for each unit, load or line conductor


def test_a_line_gathers_what_belongs_to_its_own_item(shelf: Shelf) -> None:
    lines = {
        "whole": "sum(loads.volt_amperes)",
        "of_unit": line("sum(loads.volt_amperes)", each="dwelling_units"),
        "of_conductor": line("sum(loads.volt_amperes)", each="line_conductors"),
        "units_together": "sum(dwelling_units.of_unit)",
        "largest_conductor": "largest(line_conductors.of_conductor)",
    }
    rules = shelf.load(method(lines=lines))
    loads = [
        {"volt_amperes": 100.0, "owner": 0, "on": (0,)},
        {"volt_amperes": 20.0, "owner": 1, "on": (0, 1)},
        {"volt_amperes": 3.0, "owner": -1, "on": (1,)},
    ]
    facts = facts_of(rules.glossary, loads, units=[{}, {}])
    assert value(rules, "m.whole", facts) == 123.0
    assert column(rules, "m.of_unit", facts) == [100.0, 20.0]
    assert column(rules, "m.of_conductor", facts) == [120.0, 23.0]
    assert value(rules, "m.units_together", facts) == 120.0
    assert value(rules, "m.largest_conductor", facts) == 120.0


def test_a_column_reads_its_fields_its_columns_and_what_it_belongs_to(shelf: Shelf) -> None:
    lines = {
        "base": "five",
        "own": line("larger(volt_amperes, base)", each="big"),
        "again": line("own + base", each="biggest"),
        "total": "sum(biggest.again)",
        "unit_area": line("sum(areas.area) * laundry_circuits", each="dwelling_units"),
        "floor": "sum(dwelling_units.unit_area)",
        "of_area": line("area * laundry_circuits", each="areas"),
        "floor_too": "sum(areas.of_area)",
    }
    groups = {"big": "loads where volt_amperes > five", "biggest": "big where motor"}
    rules = shelf.load(method(parameters={"five": "5 VA"}, groups=groups, lines=lines))
    loads = [{"volt_amperes": 7.0, "motor": True}, {"volt_amperes": 9.0, "motor": False}, {"volt_amperes": 1.0, "motor": True}]
    areas = [{"area": 10.0}, {"area": 4.0, "owner": 1}]
    facts = facts_of(rules.glossary, loads, [{"laundry_circuits": 2.0}, {"laundry_circuits": 3.0}], areas)
    assert value(rules, "m.total", facts) == 12.0
    assert value(rules, "m.floor", facts) == value(rules, "m.floor_too", facts) == 32.0


def test_per_dwelling_unit(shelf: Shelf) -> None:
    lines = {"own": "sum(loads.volt_amperes)", "laundry": "laundry_circuits", "floor": "sum(areas.area)"}
    rules = shelf.load(method(per="dwelling_unit", lines=lines))
    loads = [{"volt_amperes": 10.0, "owner": 0}, {"volt_amperes": 5.0, "owner": 1}, {"volt_amperes": 1.0, "owner": -1}]
    facts = facts_of(rules.glossary, loads, [{"laundry_circuits": 1.0}, {"laundry_circuits": 2.0}], [{"area": 7.0, "owner": 1}])
    found = [[value(rules, f"m.{name}", facts, item) for name in lines] for item in (0, 1)]
    assert found == [[10.0, 1.0, 0.0], [5.0, 2.0, 7.0]]


@pytest.mark.parametrize(
    ("lines", "key"),
    [
        ({"y": "volt_amperes"}, "finer"),
        ({"a": line("volt_amperes", each="loads"), "y": "a"}, "finer"),
        ({"y": line("area", each="dwelling_units"), "z": "sum(dwelling_units.y)"}, "finer"),
        ({"y": line("volt_amperes", each="line_conductors"), "z": "largest(line_conductors.y)"}, "finer"),
        ({"a": line("volt_amperes", each="motors"), "y": "sum(loads.a)"}, "outside_group"),
        ({"a": line("volt_amperes", each="motors"), "b": line("a", each="loads"), "y": "sum(loads.b)"}, "outside_group"),
        (
            {"a": line("volt_amperes", each="motors"), "y": "sum(motors.a)", "b": line("a", each="ranges"), "z": "sum(ranges.b)"},
            "outside_group",
        ),
        ({"y": line("count(areas)", each="line_conductors"), "z": "largest(line_conductors.y)"}, "not_gathered"),
        ({"y": line("count(loads)", each="areas"), "z": "sum(areas.y)"}, "not_gathered"),
        ({"a": "count(motors)", "y": "sum(loads.a)"}, "gather_form"),
        ({"y": "count(engines)"}, "no_group"),
        ({"y": line("1", each="engines"), "z": "sum(engines.y)"}, "no_group"),
    ],
)
def test_shapes_that_are_refused(shelf: Shelf, lines: dict[str, Any], key: str) -> None:
    used = str(lines)
    groups = {
        name: said
        for name, said in {"motors": "loads where motor", "ranges": "loads where kind is range"}.items()
        if name in used
    }
    assert set(shelf.refused(method(groups=groups, lines=lines))) == {key}


def test_a_result_has_one_value(shelf: Shelf) -> None:
    lines = {"a": line("volt_amperes", each="loads"), "y": "sum(loads.a)"}
    assert shelf.refused(method(lines=lines, result={"a": "a", "y": "y"})) == ["result_level"]


def test_a_group_is_built_on_one_collection(shelf: Shelf) -> None:
    assert shelf.refused(method(groups={"mixed": "loads, areas"}, lines={"y": "count(mixed)"})) == ["group_collections"]
    assert shelf.refused(method(groups={"mixed": "loads except areas"}, lines={"y": "count(mixed)"})) == ["group_collections"]


def test_several_bases_hold_each_load_once(shelf: Shelf) -> None:
    groups = {
        "motors": "loads where motor",
        "ranges": "loads where kind is range",
        "both": "ranges, motors where volt_amperes > 0 except small",
        "small": "loads where individual_circuit",
    }
    rules = shelf.load(method(groups=groups, lines={"y": "sum(both.volt_amperes)"}))
    common = {"individual_circuit": False}
    loads = [
        {"kind": "range", "motor": True, "volt_amperes": 1.0, **common},
        {"kind": "range", "motor": False, "volt_amperes": 2.0, **common},
        {"kind": "lamp", "motor": True, "volt_amperes": 4.0, **common},
        {"kind": "lamp", "motor": False, "volt_amperes": 8.0, **common},
        {"kind": "range", "motor": True, "volt_amperes": 16.0, "individual_circuit": True},
        {"kind": "range", "motor": True, "volt_amperes": 0.0, **common},
    ]
    assert value(rules, "m.y", facts_of(rules.glossary, loads)) == 7.0


# Quantities of items


def test_equal_items_are_one_item_or_many(shelf: Shelf) -> None:
    lines = {
        "own": line("larger(volt_amperes, five)", each="loads"),
        "the_sum": "sum(loads.own)",
        "number": "count(loads)",
        "average": "mean(loads.own)",
        "top": "largest(loads.own)",
        "of_units": line("sum(loads.own)", each="dwelling_units"),
        "all_units": "sum(dwelling_units.of_units)",
        "units_number": "count(dwelling_units)",
        "units_average": "mean(dwelling_units.of_units)",
        "of_conductor": line("sum(loads.own)", each="line_conductors"),
        "conductor": "largest(line_conductors.of_conductor)",
        "on_conductor": line("count(loads)", each="line_conductors"),
        "most": "largest(line_conductors.on_conductor)",
    }
    rules = shelf.load(method(parameters={"five": "5 VA"}, lines=lines))
    small, large = {"volt_amperes": 3.0, "on": (0,)}, {"volt_amperes": 11.0, "on": (0,)}
    forty = facts_of(rules.glossary, [{**small, "owner": at} for at in range(40)] + [{**large, "owner": 0}], [{}] * 40)
    loads = [{**small, "owner": 0}, {**small, "owner": 1, "quantity": 39.0}, {**large, "owner": 0}]
    folded = facts_of(rules.glossary, loads, [{}] * 40)
    weighed = facts_of(
        rules.glossary, [{**small, "owner": 1}, {**small, "owner": 0}, {**large, "owner": 0}], [{}, {"quantity": 39.0}]
    )
    expected = {"the_sum": 211.0, "number": 41.0, "top": 11.0, "average": 211.0 / 41.0, "all_units": 211.0, "units_number": 40.0}
    for name, amount in expected.items():
        assert {value(rules, f"m.{name}", facts) for facts in (forty, folded, weighed)} == {amount}, name
    assert value(rules, "m.units_average", forty) == value(rules, "m.units_average", weighed) == 211.0 / 40.0
    assert [value(rules, f"m.{name}", facts) for facts in (forty, folded) for name in ("conductor", "most")] == [211.0, 41.0] * 2


def test_values_are_added_in_file_order(shelf: Shelf) -> None:
    rules = shelf.load(method(lines={"y": "sum(loads.volt_amperes)"}))
    amounts = [0.1, 0.2, 0.3, 1e16, -1e16, 0.7]
    whole = 0.0
    for each in amounts:
        whole += each
    assert value(rules, "m.y", facts_of(rules.glossary, [{"volt_amperes": each} for each in amounts])) == whole != 1.3


# Parts, other methods, runs


def test_each_method_has_its_own_copy_of_a_part(shelf: Shelf) -> None:
    part = document("part", "p", groups={"motors": "loads where motor"}, lines={"all_motors": "sum(motors.volt_amperes)"})
    lines = {"y": "all_motors"}
    rules = shelf.load(
        part, method("whole", uses=["p"], lines=lines), method("unit", uses=["p"], per="dwelling_unit", lines=lines)
    )
    loads = [{"motor": True, "volt_amperes": amount, "owner": owner} for amount, owner in ((10.0, 0), (5.0, 1))]
    facts = facts_of(rules.glossary, loads, [{}, {}])
    assert value(rules, "whole.y", facts) == 15.0
    assert [value(rules, "unit.y", facts, item) for item in (0, 1)] == [10.0, 5.0]


def test_another_method_is_read_by_its_name(shelf: Shelf) -> None:
    ratings = table({"rating": "A"}, ["15", "20"], outside="refuse")
    other = method("other", parameters={"five": "5 A"}, tables={"t": ratings}, lines={"y": "first_row_at_least(t, five)"})
    rules = shelf.load(method(lines={"z": "other.y + other.five", "back": "first_row_at_least(other.t, z)"}), other)
    assert (value(rules, "m.z"), value(rules, "m.back")) == (20.0, 20.0)


def test_bare_names_are_disjoint(shelf: Shelf) -> None:
    part = document("part", "p", lines={"x": "1"})
    assert shelf.refused(part, method(uses=["p"], lines={"x": "0", "y": "x"})) == ["name_twice"]
    assert shelf.refused(method(lines={"motor": "1"})) == ["name_of_field"]
    assert shelf.refused(method(lines={"x": "1"}, groups={"x": "loads"})) == ["name_twice"]


@pytest.mark.parametrize(
    "lines",
    [
        {"a": "b", "b": "a"},
        {"a": "a"},
        {"a": line(sum_of=["b"]), "b": line(cases=[{"when": "a > 0", "then": "1"}, {"otherwise": "0"}])},
        {"a": line("1", applies="b > 0"), "b": "a"},
    ],
)
def test_a_line_that_reads_itself_is_refused(shelf: Shelf, lines: dict[str, Any]) -> None:
    assert set(shelf.refused(method(lines=lines))) == {"cycle"}


def test_a_circle_through_groups_methods_and_runs_is_refused(shelf: Shelf) -> None:
    assert "cycle" in shelf.refused(method(groups={"a": "b", "b": "a"}, lines={"y": "count(a)"}))
    assert "cycle" in shelf.refused(method(groups={"a": "loads where y > 0"}, lines={"y": "count(a)"}))
    assert "cycle" in shelf.refused(method("m", lines={"a": "n.b"}), method("n", lines={"b": "m.a"}))
    run = {"r": {"title": "A part", "method": "m", "keep": {"loads": "none"}}}
    assert "cycle" in shelf.refused(method(runs=run, lines={"y": "r.y"}))


def test_parts_that_use_each_other_are_read_once(shelf: Shelf) -> None:
    one = document("part", "one", uses=["two"], lines={"x": "1"})
    two = document("part", "two", uses=["one"], lines={"y": "x"})
    assert value(shelf.load(one, two, method(uses=["two"], lines={"z": "y"})), "m.z") == 1.0


RUN_LINES = {"total": "sum(loads.volt_amperes)", "units": "count(dwelling_units)"}
INNER = method("inner", lines=RUN_LINES)


def runs_of(*keep: dict[str, str]) -> tuple[str, str]:
    groups = {"house_loads": "loads where motor"}
    lines = {f"y{at}": f"r{at}.total + 0 * house" for at in range(len(keep))} | {"house": "sum(house_loads.volt_amperes)"}
    lines |= {f"n{at}": f"r{at}.units" for at in range(len(keep))}
    runs = {f"r{at}": {"title": "A part", "method": "inner", "keep": each} for at, each in enumerate(keep)}
    return method("outer", groups=groups, runs=runs, lines=lines)


def test_a_run_keeps_a_part_of_the_home(shelf: Shelf) -> None:
    keep = ({"loads": "house_loads"}, {"loads": "none"}, {"dwelling_units": "none"}, {"loads": "loads", "dwelling_units": "none"})
    rules = shelf.load(INNER, runs_of(*keep))
    loads = [{"volt_amperes": 10.0, "motor": True}, {"volt_amperes": 5.0, "motor": False, "quantity": 2.0}]
    facts = facts_of(rules.glossary, loads, [{}, {}])
    assert [value(rules, f"outer.y{at}", facts) for at in range(4)] == [10.0, 0.0, 20.0, 20.0]
    assert [value(rules, f"outer.n{at}", facts) for at in range(4)] == [2.0, 2.0, 0.0, 0.0]
    assert value(rules, "inner.total", facts) == 20.0


def test_a_run_of_loads_that_cannot_be_told_is_unknown(shelf: Shelf) -> None:
    rules = shelf.load(INNER, runs_of({"loads": "house_loads"}))
    facts = facts_of(rules.glossary, [{"volt_amperes": 10.0, "name": "new"}])
    assert isinstance(value(rules, "outer.y0", facts), Unknown)


def test_a_run_keeps_a_group_that_is_read_nowhere_else(shelf: Shelf) -> None:
    runs = {"r": {"title": "A part", "method": "inner", "keep": {"loads": "house_loads"}}}
    outer = method("outer", groups={"house_loads": "loads where motor"}, runs=runs, lines={"y": "r.total"})
    rules = shelf.load(INNER, outer)
    facts = facts_of(rules.glossary, [{"volt_amperes": 10.0, "motor": True}, {"volt_amperes": 5.0, "motor": False}])
    assert value(rules, "outer.y", facts) == 10.0


@pytest.mark.parametrize(
    ("run", "read", "key"),
    [
        ({"title": "A part", "method": "innner", "keep": {"loads": "none"}}, "total", "no_method"),
        ({"title": "A part", "method": "inner", "keep": {"load": "none"}}, "total", "no_group"),
        ({"title": "A part", "method": "inner", "keep": {"loads": "engines"}}, "total", "no_group"),
        ({"title": "A part", "method": "inner", "keep": {"loads": "areas"}}, "total", "group_collections"),
        ({"title": "A part", "method": "inner", "keep": {"loads": "none"}}, "totals", "unknown_name"),
        ({"title": "A part", "method": "inner", "keep": {"loads": "none"}}, "own", "run_level"),
    ],
)
def test_runs_that_are_refused(shelf: Shelf, run: dict[str, Any], read: str, key: str) -> None:
    inner = method("inner", lines={**RUN_LINES, "own": line("volt_amperes", each="loads"), "z": "sum(loads.own)"})
    assert shelf.refused(inner, method("outer", runs={"r": run}, lines={"y": f"r.{read}"})) == [key]


@pytest.mark.long
def test_a_rule_set_that_is_not_used_any_more_is_forgotten(shelf: Shelf) -> None:
    rules = shelf.load(method(lines={"x": "1"}))
    assert value(rules, "m.x") == 1.0
    seen = weakref.ref(rules)
    del rules
    gc.collect()
    assert seen() is None


# Conditions of use


def test_conditions_of_use_are_yes_no_or_unknown(shelf: Shelf) -> None:
    permitted = [{"require": f"supply.rating > {name}", "cite": "c", "if_not": "too small"} for name in ("low", "high")]
    rules = shelf.load(method(parameters={"low": "50 A", "high": "100 A"}, permitted=permitted, lines={"x": "1"}))
    outcomes = Evaluation(plan_of(rules), facts_of(rules.glossary, rating=60.0)).permitted("m")
    assert outcomes == [True, False]
    open_ones = Evaluation(plan_of(rules), facts_of(rules.glossary)).permitted("m")
    assert all(same(each, {"supply: rating"}) for each in open_ones)


# Changes

CHANGED = method(
    parameters={"five": "5 A", "seven": "7 A"},
    interpretations={"reading": question("wide", "narrow")},
    groups={"motors": "loads where motor", "ranges": "loads where kind is range", "some": "motors, ranges where volt_amperes > 0 except lamps",
            "lamps": "loads where kind is lamp"},
    left_out=[{"group": "lamps", "cite": "c", "because": "small"}],
    permitted=[{"require": "supply.rating > five", "cite": "c", "if_not": "too small"}],
    tables={
        "t": table({"n": "number"}, {"1 to 4": "100", "5 and more": "50"}, columns={"factor": "%"}),
        "wide": table({"n": "number"}, {"1": ["1", "2"], "2 and more": ["3", "4"]}, columns={"k": "A", "l": "A"}),
        "ratings": table({"rating": "A"}, ["15", "20"], outside="refuse"),
    },
    lines={
        "a": "five",
        "b": line(cases=[{"when": "reading is wide", "then": "seven"}, {"when": "reading is narrow", "then": "0 * seven"}]),
        "c_of": line(of="a", tiers=["100 % of the first 3 A", "50 % of the rest"]),
        "total": line(sum_of=["a", "b"]),
        "picked": line(largest_of=["a", "b"], note="A note."),
        "looked": "table(t.factor, count(motors) + 1) * a",
        "wide_k": "table(wide.k, 1) + table(wide.l, 1)",
        "back": "first_row_at_least(ratings, a)",
        "number": "count(some)",
        "when_applies": line("a", applies="supply.rating > 0"),
    },
)  # fmt: skip


def change(address: str, was: Any, now: Any, **more: Any) -> dict[str, Any]:
    return {"change": f"m.{address}", "was": was, "now": now, **more}


def add(address: str, now: Any, **more: Any) -> dict[str, Any]:
    return {"add": f"m.{address}", **more, "now": now}


def remove(address: str, was: Any) -> dict[str, Any]:
    return {"remove": f"m.{address}", "was": was}


CASES = [{"when": "reading is wide", "then": "seven"}, {"when": "reading is narrow", "then": "0 * seven"}]


@pytest.mark.parametrize(
    ("changes", "name", "expected"),
    [
        ([change("five.value", "5 A", "6 A")], "a", 6.0),
        ([change("five", "5 A", parameter("8 A"))], "a", 8.0),
        ([change("a.value", "five", "seven")], "a", 7.0),
        ([change("a", {"value": "five"}, {"value": "seven", "note": "Mended."})], "a", 7.0),
        ([change("a", "five", line("seven + seven"))], "a", 14.0),
        ([change("b.cases", CASES[0], {"when": "reading is wide", "then": "five"})], "b", 5.0),
        ([change("reading.default", "wide", "narrow")], "b", 0.0),
        ([change("c_of.tiers", "100 % of the first 3 A", "100 % of the first 1 A")], "c_of", 3.0),
        ([change("c_of.of", "a", "seven")], "c_of", 5.0),
        ([change("total.sum_of", "b", "c_of")], "total", 9.0),
        ([add("total.sum_of", "c_of")], "total", 16.0),
        ([add("total.sum_of", "c_of", before="b")], "total", 16.0),
        ([remove("total.sum_of", "b")], "total", 5.0),
        ([change("t.rows.1 to 4", "100", "40")], "looked", 2.0),
        ([change("wide.rows.1", ["1", "2"], ["10", "20"])], "wide_k", 30.0),
        ([change("wide.rows.1", "2", "9")], "wide_k", 10.0),
        ([change("wide.columns.k", "A", "A"), change("a.value", "five", "seven")], "a", "changes_nothing"),
        ([add("ratings.rows", "10", before="15")], "back", 10.0),
        ([add("ratings.rows", "25")], "back", 15.0),
        ([remove("ratings.rows", "15")], "back", 20.0),
        ([change("when_applies.applies", "supply.rating > 0", "supply.rating > five")], "when_applies", 5.0),
        ([change("picked", {"note": "A note.", "largest_of": ["a", "b"]}, {"least_of": ["a", "b"]})], "picked", 5.0),
        ([change("some.bases", "motors", "lamps")], "number", 1.0),
        ([add("some.bases", "loads")], "number", 2.0),
        ([remove("some.bases", "motors")], "number", 1.0),
        ([change("some.where", "volt_amperes > 0", "motor")], "number", 3.0),
        ([remove("some.where", "volt_amperes > 0")], "number", 3.0),
        ([change("some.except", "lamps", "ranges")], "number", 2.0),
        ([add("some.except", "ranges")], "number", 1.0),
        ([remove("some.except", "lamps")], "number", 3.0),
        ([change("some", "motors, ranges where volt_amperes > 0 except lamps", "lamps, ranges")], "number", 3.0),
        ([add("lamps_too", "lamps", before="lamps"), change("some.except", "lamps", "lamps_too")], "number", 2.0),
        ([add("nine", parameter("9 A"), before="five"), change("a.value", "five", "nine")], "a", 9.0),
        ([add("new_line", line("five + five"), before="a"), add("total.sum_of", "new_line")], "total", 22.0),
        ([add("u", table({"n": "number"}, {"1 and more": "3"}, columns={"k": "A"}), before="t"), change("a.value", "five", "table(u.k, 1)")],
         "a", 3.0),
        ([add("other", question("yes_it_is", "not_at_all"), before="reading"),
          change("b.cases", CASES[0], {"when": "reading is wide and other is yes_it_is", "then": "seven"})], "b", 7.0),
        ([add("handed", {"unit": "A", "is": "given"}), change("a.value", "five", "five + 0 * handed")], "a", {"handed"}),
        ([add("r", {"title": "A part", "method": "m", "keep": {"loads": "none"}}), change("total.sum_of", "b", "r_line"), add("r_line", line("r.a"))], "total", 10.0),
    ],
)  # fmt: skip
def test_changes(shelf: Shelf, changes: list[dict[str, Any]], name: str, expected: Any) -> None:
    if expected == "changes_nothing":
        assert shelf.refused(CHANGED, changes=changes) == [expected]
        return
    rules = shelf.load(CHANGED, changes=changes)
    loads = [
        {"kind": "range", "motor": True, "volt_amperes": 9.0},
        {"kind": "freezer", "motor": True, "volt_amperes": 9.0},
        {"kind": "lamp", "motor": True, "volt_amperes": 9.0},
        {"kind": "range", "motor": True, "volt_amperes": 0.0},
    ]
    loads = loads if name == "number" else []
    found = value(rules, f"m.{name}", facts_of(rules.glossary, loads, rating=100.0))
    assert same(found, expected)
    assert len(rules.applied) == len(changes)
    assert rules.chain == ("First", "Second")


def test_what_is_left_out_and_required_can_be_changed(shelf: Shelf) -> None:
    left = {"group": "lamps", "cite": "c", "because": "small"}
    permitted = {"require": "supply.rating > five", "cite": "c", "if_not": "too small"}
    changes = [
        change("left_out", left, {**left, "because": "very small"}),
        add("left_out", {"group": "ranges", "cite": "c", "because": "large"}),
        change("permitted", permitted, {**permitted, "require": "supply.rating > seven"}),
    ]
    rules = shelf.load(CHANGED, changes=changes)
    assert [(group.name, str(entry.because)) for entry, group in rules.methods["m"].left_out] == [
        ("lamps", "very small"),
        ("ranges", "large"),
    ]
    assert Evaluation(plan_of(rules), facts_of(rules.glossary, rating=6.0)).permitted("m") == [False]


def test_citations_and_methods_can_be_changed(shelf: Shelf) -> None:
    n = method("n", lines={"z": "1"})
    changes = [
        {"change": "citations.c.section", "was": "1.1", "now": "2.2"},
        {"add": "citations.d", "now": {"section": "3.3", "confidence": "memory"}},
        {"change": "m.a.cite", "was": "c", "now": "d"},
        {"add": "methods", "now": "n"},
    ]
    shelf.write("tiny/n.yaml", n[1])
    rules = shelf.load(CHANGED, changes=changes)
    assert (rules.section("c"), rules.section("d"), list(rules.methods)) == ("2.2", "3.3", ["m", "n"])


def test_a_renumbered_article_is_from_memory_unless_stated(shelf: Shelf) -> None:
    citations = {
        "d": {"section": "1.2(A), 11.3", "confidence": "two sources"},
        "e": {"section": "11.1", "confidence": "two sources"},
    }
    lines = {"x": "1", "y": {**line("1"), "cite": "d"}, "z": {**line("1"), "cite": "e"}}
    stated = {"change": "citations.c.confidence", "was": "memory", "now": "one source"}
    rules = shelf.load(method(lines=lines), citations=citations, changes=[stated], more={"renumbered": {"1": "7"}})
    found = {name: (str(each.section), str(each.confidence)) for name, each in rules.citations.items()}
    assert found == {"c": ("7.1", "one source"), "d": ("7.2(A), 11.3", "memory"), "e": ("11.1", "two sources")}


def test_the_evidence_of_a_change_takes_the_place_of_the_old(shelf: Shelf) -> None:
    changes = [change("five.value", "5 A", "6 A", source="second_book", confidence="text seen", cite="rule 4")]
    rules = shelf.load(CHANGED, changes=changes)
    five = rules.documents["m"].parameters["five"].evidence
    assert (five.source, five.confidence) == ("second_book", "text seen")
    (applied,) = rules.changes_to("m.five")
    assert (applied.was, applied.now, applied.cite, applied.set_title) == ("5 A", "6 A", "rule 4", "A set")


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ([change("five.value", "4 A", "6 A")], "drifted"),
        ([change("five", "4 A", parameter("6 A"))], "drifted"),
        ([change("a", {"value": "seven"}, {"value": "five"})], "drifted"),
        ([change("total.sum_of", "c_of", "a")], "drifted"),
        ([change("total.sum_of", ["a"], ["b"])], "drifted"),
        ([change("c_of.tiers", "100 % of the first 4 A", "100 % of the first 1 A")], "drifted"),
        ([change("some.bases", "lamps", "motors")], "drifted"),
        ([change("some.where", "motor", "volt_amperes > 0")], "drifted"),
        ([change("motors.where", "volt_amperes > 0", "motor")], "drifted"),
        ([change("some.except", "ranges", "motors")], "drifted"),
        ([change("some", "motors", "lamps")], "drifted"),
        ([change("t.rows.1 to 4", "90", "40")], "drifted"),
        ([change("wide.rows.1", ["1"], ["10", "20"])], "drifted"),
        ([change("reading.default", "narrow", "wide")], "drifted"),
        ([change("left_out", {"group": "lamps"}, {"group": "ranges"})], "drifted"),
        ([{"change": "citations.c.section", "was": "1.2", "now": "2.2"}], "drifted"),
        ([remove("a", "seven")], "drifted"),
        ([remove("reading", "narrow")], "drifted"),
        ([remove("five", "4 A")], "drifted"),
        ([change("five.value", "5 A", "5 A")], "changes_nothing"),
        ([change("some.where", "volt_amperes > 0", "volt_amperes > 0")], "changes_nothing"),
        ([change("five.value", "5 A", "6 A"), change("five.value", "5 A", "7 A")], "changed_twice"),
        ([change("five.value", "5 A", "6 A"), change("five.value", "6 A", "8 A")], "changed_twice"),
        ([change("c_of.tiers", "50 % of the rest", "60 % of the rest"), change("c_of.tiers", "60 % of the rest", "70 % of the rest")], "changed_twice"),
        ([change("six.value", "5 A", "6 A")], "no_piece"),
        ([change("five.values", "5 A", "6 A")], "no_piece"),
        ([change("t.rows.3", "5 A", "6 A")], "no_piece"),
        ([change("motors.bases.loads", "loads", "some")], "no_piece"),
        ([{"change": "n.five.value", "was": "5 A", "now": "6 A"}], "no_piece"),
        ([add("nothing.rows", "5")], "no_piece"),
        ([add("a.deep.er", "5")], "no_piece"),
        ([add("five", parameter("5 A"))], "added_twice"),
        ([add("total.sum_of", "a")], "added_twice"),
        ([add("total.sum_of", "c_of", before="nothing")], "no_before"),
        ([add("nine", parameter("9 A"), before="a")], "no_before"),
        ([add("nine", {"says": "x"})], "cannot_add"),
        ([add("nine", ["x"])], "cannot_add"),
        ([{"change": "m.five.value", "add": "m.six", "was": "5 A", "now": "6 A"}], "change_form"),
        ([{"was": "5 A", "now": "6 A"}], "change_form"),
        ([{"change": "m.five.value", "now": "6 A"}], "change_lacks"),
        ([{"remove": "m.five.value"}], "change_lacks"),
        ([{"add": "m.six"}], "change_lacks"),
        ([{"change": "m.five.value", "was": "5 A", "now": "6 A", "because": "x"}], "change_key"),
    ],
)  # fmt: skip
def test_changes_that_are_refused(shelf: Shelf, changes: list[dict[str, Any]], key: str) -> None:
    assert shelf.refused(CHANGED, changes=changes) == [key]


@pytest.mark.parametrize("section", [[{"a": "5 A"}], ["a"], "a"])
def test_a_change_of_a_section_that_is_not_a_mapping(shelf: Shelf, section: Any) -> None:
    broken = ("m", yaml.safe_dump({**yaml.safe_load(CHANGED[1]), "parameters": section}, sort_keys=False))
    assert shelf.refused(broken, changes=[change("nine.value", "5 A", "6 A")]) == ["no_piece", "want_mapping"]


def test_two_entries_of_one_list_may_be_changed(shelf: Shelf) -> None:
    tiers = [("100 % of the first 3 A", "100 % of the first 2 A"), ("50 % of the rest", "10 % of the rest")]
    rules = shelf.load(CHANGED, changes=[change("c_of.tiers", was, now) for was, now in tiers])
    assert value(rules, "m.c_of") == pytest.approx(2.3)


def test_a_later_document_sees_the_result_so_far(shelf: Shelf, tmp_path: Path) -> None:
    shelf.load(CHANGED, changes=[change("five.value", "5 A", "6 A")])
    for name, was, now in (("one", "6 A", "8 A"), ("two", "8 A", "9 A")):
        sets = [{"title": "A set", "changes": [change("five.value", was, now)]}]
        law = {
            "jurisdiction": "A town",
            "in_force": "not known",
            "fixed_by": "issuance",
            "status": "policy",
            "source": "first_book",
        }
        content = {"amendment": name, "amends": "tiny/second", **law, "sets": sets}
        (tmp_path / f"{name}.yaml").write_text(yaml.safe_dump(content, sort_keys=False), encoding="utf-8")
    files = [tmp_path / "one.yaml", tmp_path / "two.yaml"]
    rules = load_rules("tiny/second", shelf.folder, files)
    assert value(rules, "m.a") == 9.0
    assert rules.chain == ("First", "Second", "one", "two")
    with pytest.raises(InputError) as caught:
        load_rules("tiny/second", shelf.folder, files[::-1])
    assert [problem.message.key for problem in caught.value.problems] == ["drifted"]


def test_the_digest_tells_rule_sets_apart(shelf: Shelf) -> None:
    first = shelf.load(CHANGED)
    again = shelf.load(CHANGED)
    changed = shelf.load(CHANGED, changes=[change("five.value", "5 A", "6 A")])
    assert first.digest == again.digest != changed.digest
    assert first.methods["m"].lines.keys() == changed.methods["m"].lines.keys()


# What must be used


@pytest.mark.parametrize(
    "sections",
    [
        {"parameters": {"five": "5 A"}},
        {"groups": {"motors": "loads where motor"}},
        {"interpretations": {"reading": question("wide", "narrow")}},
        {"tables": {"t": BY_NUMBER}},
        {"runs": {"r": {"title": "A part", "method": "m", "keep": {"loads": "none"}}}},
    ],
)
def test_what_is_not_used_is_refused(shelf: Shelf, sections: dict[str, Any]) -> None:
    assert shelf.refused(method(lines={"x": "1"}, **sections)) == ["unused"]


def test_lines_lead_to_a_result(shelf: Shelf) -> None:
    lines = {"x": "1", "y": "z", "z": "0"}
    assert shelf.refused(method(lines=lines, result={"x": "x"})) == ["unused"]  # y; then what y alone read
    shelf.load(method(lines=lines, result={"x": "x", "y": "y"}))


def test_a_title_quotes_parameters(shelf: Shelf) -> None:
    quoted = {**line("five"), "title": "Not less than {five}"}
    assert plan_of(shelf.load(method(parameters={"five": "5 A"}, lines={"x": quoted}))).lines
    assert shelf.refused(method(parameters={"five": "5 A"}, lines={"x": {**quoted, "title": "{six}"}})) == ["quotes_nothing"]
    assert shelf.refused(method(lines={"x": {**line("1"), "title": "Not less than 5 A"}})) == ["title_number"]


def test_the_base_glossary_is_read_alone() -> None:
    glossary = read_glossary(BASE)
    assert glossary.collections["loads"].of == ("home", "dwelling_units")
    assert set(glossary.load_kinds) == {"range", "space_heater", "freezer", "vehicle_charger", "lamp"}
