"""Comparisons: every difference is attributed, the parts add up exactly, and small homes come out as worked by hand."""

from __future__ import annotations

import gc
import json
import math
import random
import re
import shutil
from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from assessments import DEMOS, Tree, demo, demo_assessed, edition_of, home_of, house, load, rules_for_tree, tree_of, written
from commands import Run
from examples import rules_of
from random_homes import random_choices, random_home
from random_homes import written as text_of

from dwellcalc.compare.attribution import difference, shares
from dwellcalc.compare.by_edition import by_edition
from dwellcalc.compare.compare import compare_editions, compare_homes, compare_interpretations, compare_methods
from dwellcalc.compare.document import Comparison, Difference, LineShare, MethodDifference, SetShare
from dwellcalc.compare.looks import MethodLook
from dwellcalc.compare.steps import steps
from dwellcalc.compare.subjects import prepared
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.home import home_from_text
from dwellcalc.language.rule_set import RuleSet, editions_in, installed_folder, load_rules, with_sets
from dwellcalc.problems import InputError
from dwellcalc.report.comparison import comparison_pages
from dwellcalc.report.tables import as_markdown, as_text

DATE = "2026-01-01"
EVERY = editions_in(installed_folder())
OFFERED = [str(each) for each in rules_of(EVERY[-1]).assessment["offered"]]  # type: ignore[index]
BASE = Path(__file__).parent / "bad" / "base"
OPTIONAL, STANDARD = "optional_dwelling", "standard"
QUANTITY = re.compile(r"(-?[\d,]*\.?\d+) VA\Z")
NEAR = 1e-9
QUICK = "small_gas_heated_house"
SLOW = (QUICK,)
PAIR = ("nec/2020", "nec/2023")  # of consecutive editions: the sets between them are loaded once for all quick tests


def graded(names: Iterable[str], quick: Iterable[str] = (QUICK,), slow: Iterable[str] = SLOW) -> list[Any]:
    """Names as parameters: those that run always, those that CI runs too, and the rest by hand, as every set takes its time."""
    marks = {**dict.fromkeys(slow, [pytest.mark.slow]), **dict.fromkeys(quick, [])}
    return [pytest.param(each, marks=marks.get(each, [pytest.mark.long])) for each in names]


@pytest.fixture(autouse=True, scope="module")
def what_is_kept_is_not_looked_through() -> Iterator[None]:
    """Dozens of rule sets are kept until the end; the collector would go through all of them again and again."""
    gc.disable()
    yield
    gc.enable()


def under(tree: Tree, *editions: str) -> Comparison:
    """A home under editions in the order given; settings as the last one has them."""
    several = [rules_of(each) for each in editions]
    return compare_editions(home_of(tree), several, several[-1], date=DATE)


def method_of(found: Difference, name: str) -> MethodDifference:
    return next(each for each in found.methods if each.method == name)


def between(tree: Tree, first: str, second: str, method: str) -> MethodDifference:
    return method_of(under(tree, first, second).supplies[0].differences[0], method)


# --- the parts add up, exactly


def total(parts: Iterable[LineShare | SetShare]) -> Fraction:
    return sum((each.amperes for each in parts), Fraction(0))


def adds_up(found: Comparison) -> int:
    """Check that every difference is the sum of its parts; how many there are that are not zero."""
    checked = 0
    for supply in found.supplies:
        sides = {side.under: {each.method: each.amperes for each in side.methods} for side in supply.at}
        for each in supply.differences:
            for method in each.methods:
                if found.what == "methods":
                    first, second = (sides[supply.at[0].under][name] for name in (basis_of(found, each.first), method.method))
                else:
                    first, second = (sides[name].get(method.method) for name in (each.first, each.second))
                assert (method.amperes is None) == (first is None or second is None)
                if method.amperes is None:
                    assert method.why
                    continue
                assert first is not None
                assert second is not None
                assert method.amperes == Fraction(second) - Fraction(first)
                parts: list[Any] = [method.sets, *(one.lines for one in method.sets)] if method.sets else [method.lines]
                wholes = [method.amperes, *(one.amperes for one in method.sets)]
                assert [total(part) for part in parts] == wholes
                for line in (line for part in parts for line in part if isinstance(line, LineShare)):
                    assert line.amperes
                    assert line.title
                checked += bool(method.amperes)
    return checked


def basis_of(found: Comparison, title: str) -> str:
    return next(each.method for supply in found.supplies for side in supply.at for each in side.methods if each.title == title)


def check_there_and_back(name: str, *editions: str) -> None:
    """A way back changes over what the way there changed, set by set."""
    found = under(demo(name), *editions, *reversed(editions[:-1]))
    adds_up(found)
    for supply in found.supplies:
        number = len(supply.differences)
        for there, back in zip(supply.differences[: number // 2], reversed(supply.differences[number // 2 :]), strict=True):
            for method in there.methods:
                other = method_of(back, method.method)
                assert (method.amperes is None) == (other.amperes is None)
                if method.amperes is not None:
                    assert other.amperes == -method.amperes
                    assert {each.title: each.amperes for each in other.sets} == {
                        each.title: -each.amperes for each in method.sets
                    }


@pytest.mark.slow
@pytest.mark.parametrize("name", graded(DEMOS, slow=[]))
def test_two_editions_add_up_there_and_back(name: str) -> None:
    check_there_and_back(name, *PAIR)


@pytest.mark.long
@pytest.mark.parametrize("name", DEMOS)
def test_editions_add_up_on_demos_there_and_back(name: str) -> None:
    check_there_and_back(name, *OFFERED)


@pytest.mark.long
@pytest.mark.parametrize("name", DEMOS)
def test_editions_add_up_between_any_two_that_load(name: str) -> None:
    home = home_of(demo(name))
    several = [rules_of(each) for each in EVERY]
    for first in several:
        for second in several:
            adds_up(compare_editions(home, [first, second], rules_of(EVERY[-1]), date=DATE))


def random_comparison(seed: int, compare: Callable[..., Comparison], *more: Any) -> Comparison | None:
    """A comparison of a random home; nothing where an assessment refuses it."""
    chance, rules = random.Random(seed), rules_of(EVERY[-1])
    home = home_from_text(text_of(random_home(rules.glossary, chance)), "random.yaml", rules.glossary)
    for supply in home.supplies:
        supply.facts.chosen = random_choices(rules, chance)
    try:
        return compare(home, *more, date=DATE)
    except InputError as error:
        assert {each.message.key for each in error.problems} <= {"settings_too_many"}
        return None


def check_random(seeds: range, least: int, editions: Iterable[str] = EVERY) -> None:
    """Every comparison of random homes adds up, and enough of them have something to attribute."""
    several = [rules_of(each) for each in editions]
    checked = dict.fromkeys(("editions", "methods", "interpretations"), 0)
    for seed in seeds:
        made = [
            random_comparison(seed, compare_editions, several, several[-1]),
            random_comparison(seed, compare_methods, several[-1]),
            random_comparison(seed, compare_interpretations, several[-1]),
        ]
        for found in (each for each in made if each is not None):
            checked[found.what] += adds_up(found) + readings_add_up(found)
            as_text(comparison_pages(found), 100)
            json.loads(found.json())
    assert all(number >= least for number in checked.values()), checked


@pytest.mark.slow
def test_random_homes_add_up() -> None:
    check_random(range(1), 1, PAIR)


@pytest.mark.long
def test_many_random_homes_add_up() -> None:
    check_random(range(1000, 1150), 80)


@pytest.mark.parametrize("name", graded(DEMOS, []))
def test_a_line_has_what_its_values_differ_by(name: str) -> None:
    check_lines(name, *PAIR)


@pytest.mark.long
@pytest.mark.parametrize("name", DEMOS)
def test_a_line_has_what_its_values_differ_by_from_the_first_edition_to_the_last(name: str) -> None:
    check_lines(name, EVERY[0], EVERY[-1])


def check_lines(name: str, *editions: str) -> None:
    """The amperes of a line are its printed values' difference, over the volts that turn the total into amperes."""
    several = [rules_of(each) for each in editions]
    found = compare_editions(home_of(demo(name)), several, several[-1], date=DATE)
    for supply in found.supplies:
        volts = {each.method: each.total / each.amperes for each in supply.at[-1].methods if each.total and each.amperes}
        for method in (each for leg in supply.differences for each in leg.methods):
            for line in (line for one in method.sets for line in one.lines):
                was, now = (number_in(text) for text in (line.was, line.now))
                assert float(line.amperes) == pytest.approx((now - was) / volts[method.method], abs=2e-4)


def number_in(text: str) -> float:
    match = QUANTITY.match(text)
    assert match is not None or text == "-", text
    return 0.0 if match is None else float(match[1].replace(",", ""))


# --- worked by hand

KITCHEN = [
    load("range", "range", "8 kW"),
    load("microwave", "built-in microwave oven", "1500 W"),
    load("dishwasher", "dishwasher", "1200 W"),
    load("disposer", "waste disposer", "1/3 hp at 115 V"),  # 7.2 A in the motor table, at 120 V: 864 VA
    load("hood", "range hood", "200 W"),
    load("water heater", "storage water heater", "4.5 kW"),
    load("charger", "EV charging equipment", "20 A at 240 V"),  # 4,800 VA
]
GARAGE = {"name": "garage", "kind": "attached garage", "area": "400 ft2"}


def with_garage(loads: list[Tree], **service: Any) -> Tree:
    """1,500 ft2 to live in and an attached garage."""
    tree = house(loads, **service)
    tree["dwelling units"][0]["areas"].append(dict(GARAGE))
    return tree


def sets_between(first: str, second: str) -> int:
    """How many sets of changes the second edition has that the first has not."""
    return len(rules_of(second).sets) - len(rules_of(first).sets)


def set_of(found: MethodDifference, words: str) -> SetShare:
    return next(each for each in found.sets if words in each.title)


def by_line(share: SetShare) -> dict[str, float]:
    return {each.line: float(each.amperes) for each in share.lines}


@pytest.mark.slow
def test_small_appliances_leave_the_fastened_ones_in_2020() -> None:
    """220.53 of 2020: not under 500 VA, and no household cooking equipment.

    Before: microwave, dishwasher, disposer, hood, water heater: five, 1500 + 1200 + 864 + 200 + 4500 = 8,264 VA at 75 % are
    6,198 VA. After: dishwasher, disposer, water heater: three, 6,564 VA at 100 %; the microwave and the hood, 1,700 VA, are
    other loads at full rating. So fastened 366 VA more (1.525 A at 240 V), others 1,700 VA more (7.083 A).
    """
    found = between(with_garage(KITCHEN), "nec/2017", "nec/2020", STANDARD)
    assert found.unchanged == sets_between("nec/2017", "nec/2020") - 1
    (share,) = found.sets
    assert "smallest size" in share.title
    assert share.cites == ["220.53"]
    assert float(share.amperes) == pytest.approx(2066 / 240)
    assert by_line(share) == pytest.approx({"standard.other_load": 1700 / 240, "standard.fastened_load": 366 / 240})
    assert [each.line for each in share.lines] == ["standard.other_load", "standard.fastened_load"]  # largest first
    assert (share.lines[1].was, share.lines[1].now) == ("6,198 VA", "6,564 VA")
    told = {(each.what, each.was, each.now) for each in share.lines[1].because}
    assert ("Number of appliances fastened in place", "5", "3") in told
    assert ("hood", "200 VA", "not counted") in told


def test_charging_and_garages_in_2023() -> None:
    """220.57 of 2023: 7,200 VA at least: 2,400 VA more, 10 A. The garage: 400 ft2 at 3 VA are 1,200 VA, of the part over
    3,000 VA 35 %: 420 VA, 1.75 A. By the optional calculation, 40 % of 1,200 VA: 480 VA, 2 A; charging stays at its rating.
    """
    found = under(with_garage(KITCHEN), "nec/2020", "nec/2023").supplies[0].differences[0]
    standard, optional = method_of(found, STANDARD), method_of(found, OPTIONAL)
    assert [float(each.amperes) for each in standard.sets] == pytest.approx([10, 1.75])
    assert by_line(set_of(standard, "7200 VA")) == pytest.approx({"standard.charging_load": 10})
    assert set_of(standard, "7200 VA").cites[0] == "220.53"
    assert by_line(set_of(standard, "garages")) == pytest.approx({"standard.lighting_demand": 1.75})
    assert [float(each.amperes) for each in optional.sets] == pytest.approx([2])
    (line,) = set_of(optional, "garages").lines
    assert (line.line, line.was, line.now) == ("optional_dwelling.general_demand", "18,025.6 VA", "18,505.6 VA")
    told = [(each.depth, each.what, each.cite, each.was, each.now) for each in line.because]
    assert told == [
        (0, "General loads", "220.82(B)", "30,064 VA", "31,264 VA"),
        (1, "General lighting and general-use receptacles", "220.82(B)(1)", "4,500 VA", "5,700 VA"),
        (2, "Floor area of the dwelling unit, by outside dimensions", "220.5(C)", "1,500 ft2", "1,900 ft2"),
        (3, "garage", "", "not counted", "400 ft2"),
    ]


@pytest.mark.slow
def test_a_garage_that_passes_the_first_tier() -> None:
    """4,500 + 3,000 + 1,500 + 500 = 9,500 VA are all in the first 10,000 VA; 1,200 VA more are 500 VA in it and 40 % of 700."""
    found = between(with_garage([load("dishwasher", "dishwasher", "500 W")]), "nec/2020", "nec/2023", OPTIONAL)
    (share,) = found.sets
    assert by_line(share) == pytest.approx({"optional_dwelling.general_demand": (500 + 0.4 * 700) / 240})
    assert (share.lines[0].was, share.lines[0].now) == ("9,500 VA", "10,280 VA")


def test_nothing_differs() -> None:
    tree = house([load("range", "range", "8 kW")])
    found = under(tree, "nec/2020", "nec/2023").supplies[0].differences[0]
    for method in (method_of(found, OPTIONAL), method_of(found, STANDARD)):
        assert (method.amperes, method.sets, method.unchanged) == (0, [], sets_between("nec/2020", "nec/2023"))
    same = under(tree, "nec/2023", "nec/2023").supplies[0].differences[0]
    assert all((each.amperes or 0, each.sets, each.unchanged) == (0, [], 0) for each in same.methods)


# --- what changes its word


def turns(tree: Tree, first: str, second: str) -> dict[tuple[str, str], tuple[str, str, str]]:
    found = under(tree, first, second).supplies[0].differences[0].turns
    return {(each.what, each.method): (each.was, each.now, each.title) for each in found}


def test_the_set_that_turns_the_verdict() -> None:
    """18,025.6 VA are 75.1 A, which 75 A carries (a fraction under one half is dropped); 77.1 A it does not."""
    tree = with_garage(KITCHEN, rating="75 A", conductors={"size": "4 AWG", "material": "copper"})
    tree["work"] = "new"  # else the calculation for an existing dwelling unit is the least
    found = turns(tree, "nec/2020", "nec/2023")
    assert found == {("verdict", ""): ("fits", "does not fit", "Floor area: garages are no longer left out")}


@pytest.mark.slow
def test_the_set_by_which_a_method_may_be_used() -> None:
    """Until 2023 a control setting stands only for charging equipment; 220.70 speaks of any load."""
    tree = house([load("water heater", "storage water heater", "control setting 10 A", volts="240 V")])
    tree["dwelling units"][0]["loads"][0].pop("volts")
    found = turns(tree, "nec/2020", "nec/2023")
    title = "Energy management: any load, not elevators"
    assert found["use", "Standard calculation"] == ("no", "yes", title)
    assert found["basis", ""] == ("", "Standard calculation", title)
    back = turns(tree, "nec/2023", "nec/2020")
    assert back["use", "Standard calculation"] == ("yes", "no", title)
    (because,) = {
        tuple(each.because) for each in under(tree, "nec/2023", "nec/2020").supplies[0].differences[0].turns if each.because
    }
    assert because == ("a control setting is given for a load that this edition does not let energy management control",)


@pytest.mark.slow
def test_what_cannot_be_calculated_is_told() -> None:
    tree = with_garage([load("range", "range", "unknown")])
    found = under(tree, "nec/2020", "nec/2023")
    for name in (OPTIONAL, STANDARD):
        method = method_of(found.supplies[0].differences[0], name)
        assert method.amperes is None
        assert method.why == ["not known: range: rating"]
    assert "no difference can be told, because not known: range: rating" in as_text(comparison_pages(found), None)


# --- the same home on every side


@pytest.mark.slow
def test_settings_are_those_of_one_edition_on_every_side() -> None:
    """By 2023 the garage leaves room for 40 A; the amperes at each edition are those of an assessment with that setting."""
    name = "new_all_electric_house"
    found = under(demo(name), "nec/2020", "nec/2023")
    assert found.held[0] == "charger counts at 40 A, the setting of an assessment by NEC 2023"
    expected = {each.id: each.amperes for each in demo_assessed(name).supplies[0].results}
    assert {each.method: each.amperes for each in found.supplies[0].at[-1].methods} == expected


@pytest.mark.parametrize("name", graded(DEMOS, []))
def test_the_side_of_the_home_s_own_edition_is_its_assessment(name: str) -> None:
    tree = demo(name)
    tree.pop("amendments", None)  # they are left aside where editions are compared
    own = rules_of(edition_of(tree))
    found = compare_editions(home_of(tree), [own], own, date=DATE)
    for mine, other in zip(found.supplies, demo_assessed(name).supplies, strict=True):
        side = next(each for each in mine.at if each.under == own.title)
        assert {each.method: (each.amperes, each.may_be_used) for each in side.methods} == {
            each.id: (each.amperes, each.may_be_used) for each in other.results
        }
        assert (side.verdict, side.basis) == (other.verdict, other.basis.title if other.basis else "")
        assert side.amperes_required == (other.sizing.amperes if other.sizing is not None else None)


def test_a_record_of_the_metered_demand_goes_before_calculation_here_too() -> None:
    """5,244 W / 0.98 x 1.08 / 240 V x 125 % and the charger at 48 A, as an assessment has it; without it 24 A alone would fit."""
    own = rules_of("nec/2023")
    found = compare_editions(home_of(demo("house_with_meter_record")), [own], own, date=DATE)
    (side,) = found.supplies[0].at
    assert (side.verdict, side.basis) == ("fits", "Existing load from the metered maximum demand")
    assert side.amperes_required == pytest.approx(5244 / 0.98 * 1.08 / 240 * 1.25 + 48)
    assert found.held[0] == "charger counts at 48 A, the setting of an assessment by NEC 2023"


@pytest.mark.slow
def test_a_reading_holds_where_an_edition_has_it() -> None:
    """The reading of fastened charging equipment is of 2020 alone: at 75 % of four appliances it differs there."""
    tree = with_garage(KITCHEN)
    tree["interpretations"] = {"charging in standard": "fastened"}
    found = between(tree, "nec/2020", "nec/2023", STANDARD)
    # 2020: dishwasher, disposer, water heater, charger: four, (6,564 + 4,800) at 75 % are 8,523 VA; 2023: three at 100 %
    share = set_of(found, "7200 VA")
    assert by_line(share) == pytest.approx({"standard.charging_load": 30, "standard.fastened_load": (6564 - 8523) / 240})
    tree["interpretations"] = {"charging in standard": "fastend"}
    with pytest.raises(InputError, match="is not an option"):
        under(tree, "nec/2020")
    tree["interpretations"] = {"no such reading": "fastened"}
    with pytest.raises(InputError, match="there is no interpretation"):
        under(tree, "nec/2020", "nec/2023")


# --- sets of changes


@pytest.mark.parametrize("edition", graded(EVERY, [], []))
def test_every_edition_stands_after_each_of_its_sets(edition: str) -> None:
    """With each of its own sets and those before it alone it loads, can be assessed by, and gives a result."""
    rules = rules_of(edition)
    subject = prepared(home_of(demo("vacant_older_house")), rules, [rules], DATE)
    titles = [title for _, title in dict.fromkeys((each.document, each.set_title) for each in rules.applied)]
    assert len(titles) == len(rules.sets)
    own = [number for number, each in enumerate(rules.sets, start=1) if each.document == rules.title]
    for number in own or [0]:
        part = with_sets(rules, number)
        assert [each.title for each in part.sets] == titles[:number]
        assert read_instructions(part).methods
        (look,) = subject.looks(part)
        assert look.required is not None


TINY = """
home: 7 Larch Court
service: {system: 120/240 V, rating: 40 A}
dwelling_units:
  - name: house
    areas: [{kind: living, area: 1500 ft2}]
    loads:
      - {name: heater, kind: space heater, rating: 2 kW}
      - {name: charger, kind: vehicle charger, rating: 20 A at 240 V}
interpretations: {charging_counted: at_share}
"""


def tiny(rules: RuleSet, several: list[RuleSet]) -> list[Difference]:
    home = home_from_text(TINY, "larch.yaml", rules.glossary)
    (supply,) = by_edition(prepared(home, rules, several, DATE), several)
    return supply.differences


def test_amendments_are_steps_too() -> None:
    """The second edition: of 1,500 VA over 3,000 VA 30 % for 35 %, 75 VA less. The county: all of 4,800 VA for 80 %."""
    first, second = (load_rules(f"tiny/{each}", BASE) for each in ("first", "second"))
    county = load_rules("tiny/second", BASE, [BASE / "county.yaml"])
    there, only, back = tiny(first, [first, county, second, first])
    (method,) = there.methods
    assert [(each.document, each.title, float(each.amperes)) for each in method.sets] == [
        ("County rule", "Charging: always in full", pytest.approx(4)),
        ("Second edition", "Lighting: a smaller share of the rest", pytest.approx(-75 / 240)),
    ]
    assert method.sets[0].cites == ["county rule 4"]
    assert method.unchanged == 2  # the articles that moved, and the freezers
    (share,) = only.methods[0].sets
    assert (share.title, share.removed, float(share.amperes)) == ("Charging: always in full", True, pytest.approx(-4))
    (share,) = back.methods[0].sets
    assert (share.title, share.removed, float(share.amperes)) == (
        "Lighting: a smaller share of the rest",
        True,
        pytest.approx(75 / 240),
    )


def changed_base(tmp_path: Path, name: str, old: str, new: str) -> Path:
    folder = tmp_path / "rules"
    if not folder.is_dir():
        shutil.copytree(BASE, folder)
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")
    return folder


def test_sets_that_stand_only_together_are_one_step(tmp_path: Path) -> None:
    """A set that takes a parameter away that a line reads until the next set changes the line."""
    sets = """
  - title: The share is taken away
    changes:
      - remove: house.charging_share
        was: 80 %
      - change: house.charging_counted.question
        was: Is charging equipment counted in full or at {charging_share}?
        now: Is charging equipment counted in full or at a share?
  - title: A half is counted
    changes:
      - add: house.half
        now: {value: 50 %, cite: charging, source: second_book, confidence: one source}
      - change: house.charging.cases
        was:
          - when: charging_counted is in_full
            then: sum(chargers.connected)
          - when: charging_counted is at_share
            then: charging_share * sum(chargers.connected)
        now:
          - when: charging_counted is in_full
            then: sum(chargers.connected)
          - when: charging_counted is at_share
            then: half * sum(chargers.connected)
        cite: charging
        source: second_book
        confidence: one source
"""
    folder = changed_base(
        tmp_path,
        "tiny/editions/second.yaml",
        "  - title: Freezers are counted\n",
        f"{sets.lstrip(chr(10))}  - title: Freezers are counted\n",
    )
    first, second = (load_rules(f"tiny/{each}", folder) for each in ("first", "second"))
    assert [len(each.sets) for each in steps(first, second)] == [1, 1, 2, 1]
    (found,) = tiny(first, [first, second])
    share = set_of(found.methods[0], "The share is taken away")
    assert share.title == "The share is taken away; and: A half is counted"
    assert float(share.amperes) == pytest.approx((0.5 - 0.8) * 4800 / 240)
    assert share.lines[0].line == "house.charging"


def test_a_sum_is_followed_to_lines_that_only_one_side_has(tmp_path: Path) -> None:
    """The freezers of the second edition are a new line of the total: the difference is theirs, and no longer left out."""
    first, second = (load_rules(f"tiny/{each}", BASE) for each in ("first", "second"))
    text = TINY.replace(
        "      - {name: charger", "      - {name: freezer, kind: freezer, rating: 600 VA}\n      - {name: charger"
    )
    home = home_from_text(text, "larch.yaml", first.glossary)
    (supply,) = by_edition(prepared(home, first, [first, second], DATE), [first, second])
    (method,) = supply.differences[0].methods
    share = set_of(method, "Freezers")
    assert [(each.line, each.was, each.now, float(each.amperes)) for each in share.lines] == [
        ("house.freezing", "-", "600 VA", pytest.approx(2.5))
    ]
    assert [(each.what, each.was, each.now) for each in share.lines[0].because] == [("freezer", "not counted", "600 VA")]


# --- a method whose amperes are a sum


def metered(tree: Tree, maximum: float) -> MethodLook:
    """The method of the metered maximum demand, given one [A]."""
    rules = rules_of("nec/2023")
    home = home_of(tree)
    evaluation = Evaluation(plan_of(rules), home.facts, {}, {"maximum_demand": maximum})
    sheet = Tracer(evaluation).method("metered")
    results = rules.methods["metered"].results
    numbers = [sheet.results[name].value for name in ("total", "amperes")]
    ids = [results[name].id for name in ("total", "amperes")]
    return MethodLook("metered", sheet.title, "yes", numbers[0], numbers[1], sheet, ids[0], ids[1], [], set())


def test_amperes_that_are_a_sum_are_followed() -> None:
    """125 % of 20 A more are 25 A; a planned charger of 40 A at 240 V adds 40 A."""
    plain = metered(house([]), 80.0)
    other = metered(house([], planned=[load("charger", "EV charging equipment", "40 A at 240 V")]), 100.0)
    found = shares(plain, other)
    assert {each.line: float(each.amperes) for each in found} == pytest.approx(
        {"metered.added_amperes": 40, "metered.existing_amperes": 25}
    )
    assert total(found) == difference(plain, other)


# --- methods


@pytest.mark.parametrize("name", graded(DEMOS))
def test_methods_add_up(name: str) -> None:
    tree = demo(name)
    found = compare_methods(home_of(tree), rules_for_tree(tree), date=DATE)
    adds_up(found)
    for supply, other in zip(found.supplies, demo_assessed(name).supplies, strict=True):
        assert {each.method: each.amperes for each in supply.at[0].methods} == {each.id: each.amperes for each in other.results}
        assert len(supply.differences) == (len(other.results) - 1 if other.basis is not None else 0)


def test_methods_by_the_parts_of_their_totals() -> None:
    """Standard: lighting 3,000 + 35 % of 6,000 = 5,100 VA, range 80 % of 8,000 (column B, note 3) = 6,400 VA: the least.

    Optional: 10,000 + 40 % of 7,000 = 12,800 VA.
    """
    tree = house([load("range", "range", "8 kW")])
    tree["work"] = "new"
    found = compare_methods(home_of(tree), rules_of("nec/2023"), date=DATE)
    (each,) = [one for one in found.supplies[0].differences if one.methods[0].method == OPTIONAL]
    (method,) = each.methods
    assert (each.first, method.method) == ("Standard calculation", OPTIONAL)
    assert {line.line: float(line.amperes) for line in method.lines} == pytest.approx(
        {
            "optional_dwelling.general_demand": 12800 / 240,
            "standard.cooking_load": -6400 / 240,
            "standard.lighting_demand": -5100 / 240,
        }
    )
    assert [(line.was, line.now) for line in method.lines] == [("-", "12,800 VA"), ("6,400 VA", "-"), ("5,100 VA", "-")]


# --- readings


def readings_add_up(found: Comparison) -> int:
    checked = 0
    for reading in (each for supply in found.supplies for each in supply.readings):
        for method in reading.methods:
            taken = next(each for each in method.options if each.taken)
            for option in method.options:
                if option.amperes is None or taken.amperes is None:
                    assert option.difference is None
                    continue
                assert option.difference == Fraction(option.amperes) - Fraction(taken.amperes)
                assert total(option.lines) == option.difference
                checked += bool(option.difference)
    return checked


def test_readings_by_hand() -> None:
    """A charger of 9,600 VA in a pool of 23,600 VA: apart, 40 A at full rating and 16 A (40 % of it) less in the pool."""
    loads = [load("range", "range", "5 kW"), load("charger", "EV charging equipment", "40 A at 240 V")]
    found = compare_interpretations(home_of(house(loads)), rules_of("nec/2023"), date=DATE)
    assert readings_add_up(found)
    reading = next(each for each in found.supplies[0].readings if each.address == "listed_loads.charging_in_optional")
    options = {each.option: each for method in reading.methods if method.method == OPTIONAL for each in method.options}
    assert options["in_pool"].taken
    lines = {each.line: float(each.amperes) for each in options["apart"].lines}
    assert lines == pytest.approx({"optional_dwelling.charging_outside": 40, "optional_dwelling.general_demand": -16})
    assert float(options["apart_at_125"].difference or 0) == pytest.approx(50 - 16)
    assert {each["option"]: each["verdict"] for each in reading.answers} == dict.fromkeys(options, "fits")


@pytest.mark.parametrize("name", graded(DEMOS, []))
def test_readings_are_those_of_the_assessment(name: str) -> None:
    """The same interpretations, amperes to be carried and methods as an assessment tells, and those of the other methods."""
    tree = demo(name)
    found = compare_interpretations(home_of(tree), rules_for_tree(tree), date=DATE)
    readings_add_up(found)
    for mine, other in zip(found.supplies, demo_assessed(name).supplies, strict=True):
        answers = {each.address: each.answers for each in mine.readings}
        for each in other.interpretations:
            if each.address not in answers:  # it makes no difference, or only the words of the sheet name it
                assert len({(option.amperes, option.by) for option in each.options}) == 1
                continue
            told = {answer["option"]: (answer["amperes"], answer["basis"]) for answer in answers[each.address]}
            assert told == {option.option: (option.amperes, option.by) for option in each.options}


# --- two homes


def test_two_homes_by_line_and_what_only_one_has() -> None:
    """Without the hood's 200 VA and with 1,000 VA more range: 40 % of 800 VA by the optional calculation."""
    tree = with_garage(KITCHEN)
    other = with_garage(
        [{**each, "rating": "9 kW"} if each["name"] == "range" else each for each in KITCHEN if each["name"] != "hood"]
    )
    other["home"] = "9 Alder Row"
    rules = rules_of("nec/2023")
    found = compare_homes(home_of(tree), home_of(other), rules, date=DATE)
    assert adds_up(found)
    optional = method_of(found.supplies[0].differences[0], OPTIONAL)
    assert float(optional.amperes or 0) == pytest.approx(0.4 * 800 / 240)
    told = [(each.what, each.was, each.now) for each in optional.lines[0].because]
    assert ("hood", "200 VA", "not counted") in told
    assert ("range", "8,000 VA", "9,000 VA") in told
    assert [(each.of, each.item, each.first, each.second) for each in found.only if not each.name] == [
        ("loads", "hood", "range hood; 200 W", "")
    ]
    assert [(each.item, each.name, each.first, each.second) for each in found.only if each.name] == [
        ("range", "rating", "8 kW", "9 kW")
    ]


@pytest.mark.parametrize(
    "names",
    [
        pytest.param((QUICK, "vacant_older_house"), id="quick"),
        pytest.param((QUICK, "three_flats"), marks=pytest.mark.slow, id="slow"),
        pytest.param(DEMOS, marks=pytest.mark.long, id="all"),
    ],
)
def test_two_homes_of_other_volts_add_up(names: Sequence[str]) -> None:
    rules = rules_of("nec/2023")
    homes = [home_of(demo(name)) for name in names]
    for first, other in zip(homes, [*homes[1:], homes[0]], strict=True):
        for second in (other, first):
            found = compare_homes(first, second, rules, date=DATE)
            adds_up(found)
            assert len({each["title"] for each in found.homes}) == 2
            as_markdown(comparison_pages(found))


@pytest.mark.long
def test_a_supply_that_only_one_home_has() -> None:
    rules = rules_of("nec/2023")
    found = compare_homes(home_of(demo("duplex")), home_of(demo("vacant_older_house")), rules, date=DATE)
    assert [each.id for each in found.supplies] == ["service"]
    assert len(found.left_over) == len(demo("duplex")["feeders"])
    assert all(each.endswith(f"only {demo('duplex')['home']}") for each in found.left_over)


# --- the command


@cache
def path_of(name: str) -> str:
    return str(Path(__file__).resolve().parents[1] / "worked_examples" / "demo" / f"{name}.yaml")


WORDS = re.compile(r"\b[a-z]+_[a-z_]+\b")


QUICK_WAY = 4  # the methods in Markdown
WAYS = [(what, form) for what in ("editions", "methods", "interpretations") for form in ("text", "markdown", "json")]


@pytest.mark.parametrize(
    ("what", "form"), [pytest.param(*each, marks=[] if at == QUICK_WAY else pytest.mark.slow) for at, each in enumerate(WAYS)]
)
def test_the_command(run: Run, what: str, form: str) -> None:
    named = ["--editions", *PAIR] if what == "editions" else []
    code, out, err = run("compare", path_of(QUICK), "--what", what, "--format", form, *named)
    assert (code, err) == (0, "")
    if form == "json":
        found = json.loads(out)
        assert (found["format"], found["what"]) == (1, what)
        assert found["supplies"][0]["at"]
    else:
        assert "not an inspection or an approval" in " ".join(out.split())
        assert not WORDS.findall(out)
        assert "safe" not in out.lower().split()


@pytest.mark.slow
def test_json_adds_up_too(run: Run, file: Callable[[Tree], str]) -> None:
    _, out, _ = run("compare", file(with_garage(KITCHEN)), "--format", "json", "--editions", *PAIR)
    found = [each for each in json.loads(out)["supplies"][0]["differences"][0]["methods"] if each.get("amperes")]
    assert {OPTIONAL, STANDARD} <= {each["method"] for each in found}
    for method in found:
        assert math.fsum(each["amperes"] for each in method["sets"]) == pytest.approx(method["amperes"], abs=NEAR)
        for each in method["sets"]:
            assert math.fsum(line["amperes"] for line in each["lines"]) == pytest.approx(each["amperes"], abs=NEAR)


@pytest.mark.slow
def test_the_editions_are_those_named_in_their_order(run: Run) -> None:
    _, out, _ = run("compare", path_of(QUICK), "--format", "json", "--editions", *PAIR[::-1])
    assert [each["id"] for each in json.loads(out)["rule_sets"]] == list(PAIR[::-1])


@pytest.mark.long
def test_the_editions_are_all_that_are_offered_oldest_first(run: Run) -> None:
    _, out, _ = run("compare", path_of("vacant_older_house"), "--format", "json")
    assert [each["id"] for each in json.loads(out)["rule_sets"]] == OFFERED


@pytest.mark.parametrize("what", ["methods", pytest.param("interpretations", marks=pytest.mark.slow)])
def test_local_amendments_are_taken_into_account(run: Run, file: Callable[[Tree], str], what: str) -> None:
    """Denver asks for a circuit for charging equipment in a new house, which methods and readings count; the paper says so."""
    tree = {**demo("denver_house_with_garage")}
    amended = at_first(run("compare", file(tree), "--what", what, "--format", "json"))
    tree.pop("amendments")
    plain = at_first(run("compare", file(tree), "--what", what, "--format", "json"))
    assert set(amended) == set(plain)
    known = [(amended[name] or 0, plain[name] or 0) for name in amended if amended[name] is not None]
    assert known
    assert all(more > less for more, less in known)
    assert amended == {each.id: each.amperes for each in demo_assessed("denver_house_with_garage").supplies[0].results}


def at_first(done: tuple[int, str, str]) -> dict[str, float | None]:
    """The amperes of each method on the first side of the first supply of a comparison."""
    code, out, err = done
    assert (code, err) == (0, "")
    return {each["method"]: each.get("amperes") for each in json.loads(out)["supplies"][0]["at"][0]["methods"]}


@pytest.mark.slow
def test_editions_leave_local_amendments_aside_and_say_so(run: Run, file: Callable[[Tree], str]) -> None:
    tree = demo("denver_house_with_garage")
    told = "local amendments are left aside here (denver): `assess` takes them into account"
    code, out, _ = run("compare", file(tree), "--editions", *PAIR, "--format", "json")
    assert (code, told in json.loads(out)["held"]) == (0, True)
    tree.pop("amendments")
    plain = json.loads(run("compare", file(tree), "--editions", *PAIR, "--format", "json")[1])
    assert told not in plain.get("held", [])
    assert plain["supplies"][0]["differences"] == json.loads(out)["supplies"][0]["differences"]


def test_two_homes_by_the_command(run: Run, file: Callable[[Tree], str], tmp_path: Path) -> None:
    other = with_garage(KITCHEN)
    other["code"] = "nec/2020"
    (tmp_path / "other").mkdir()
    code, out, err = run("compare", file(with_garage(KITCHEN[1:])), written(tmp_path / "other" / "home.yaml", other))
    assert (code, err) == (0, "")
    assert "8 Alder Row (second) names NEC 2020; both are calculated under NEC 2023" in " ".join(out.split())
    assert "What only one of them has" in out
    assert not WORDS.findall(out)


@pytest.mark.slow
def test_the_sample_of_the_readme_is_what_is_printed(run: Run) -> None:
    text = (Path(path_of(QUICK)).parents[2] / "README.md").read_text(encoding="utf-8")
    sample = text.partition("## Editions, methods and readings compared")[2].partition("```text\n")[2].partition("```")[0]
    _, out, _ = run("compare", path_of("new_all_electric_house"), "--editions", "nec/2023", "nec/2026")
    lines = sample.strip().splitlines()
    assert len(lines) > 20
    assert "\n".join(lines[:4]) in out
    assert "\n".join(lines[5:]) in out


WRONG = [
    (["--editions", "nec/2023"], "there is nothing to compare: only one edition, NEC 2023"),
    (["--editions", "nec/2020", "nec/2032"], 'there is no edition "nec/2032"'),
    (["--what", "methods", "--editions", "nec/2020", "nec/2023"], "`--editions` does not go with `--what methods`"),
    (["--edition", "nec/2020"], "`--edition` does not go with `--what editions`"),
    ([path_of("duplex"), "--what", "methods"], "`--what` does not go with two homes"),
    ([path_of("duplex"), "--editions", "nec/2020", "nec/2023"], "`--editions` does not go with two homes"),
    (["nowhere.yaml"], "nowhere.yaml"),
]


@pytest.mark.parametrize(("arguments", "said"), WRONG)
def test_wrong_input(run: Run, arguments: list[str], said: str) -> None:
    code, out, err = run("compare", path_of(QUICK), *arguments)
    assert (code, out) == (2, "")
    assert said in err


def test_a_broken_home_is_told(run: Run, file: Callable[[Tree], str]) -> None:
    tree = tree_of("home: 8 Alder Row\nservice: {system: 120/240}\ndwelling units: []\n")
    code, out, err = run("compare", file(tree))
    assert (code, out) == (2, "")
    assert "alder.yaml:" in err
