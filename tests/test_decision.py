"""Settings, combinations, the order of installation and alternatives, each against home files that say it outright.

The assessment changes its facts for a while; here every combination, order and alternative is written into the home
file, and everything is read and calculated anew.
"""

from __future__ import annotations

import copy
import random
import re
from collections.abc import Iterator
from itertools import combinations, permutations, product
from typing import Any

import pytest
from assessments import DEMOS, Tree, alone, answer, assessed, demo, demo_assessed, every_load, house, load, load_named, supply

from dwellcalc.decide import trials
from dwellcalc.decide.basis import Carried
from dwellcalc.decide.decision import AlternativeResult
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, OPEN, Assessment
from dwellcalc.report.figures import figures
from dwellcalc.report.outcome import outcome_blocks
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import Heading, Paragraph
from dwellcalc.report.wording import lowered

EXISTING = [
    ("range", "range", ("8 kW", "12 kW", "14.4 kW")),
    ("water heater", "water heater", ("4.5 kW", "5.5 kW")),
    ("dryer", "dryer", ("4.8 kW", "5.6 kW")),
    ("furnace", "electric furnace", ("9.6 kW", "19.2 kW")),
    ("conditioner", "air conditioner", ("18 A at 240 V", "RLA 21 A + fan 1.5 A at 240 V")),
    ("dishwasher", "dishwasher", ("1.2 kW",)),
    ("disposer", "disposer", ("1/2 hp at 115 V",)),
    ("pump", "well pump", ("1 hp at 230 V",)),
]
PLANNED = [
    ("hot tub", "hot tub", ("7.2 kW", "50 A at 240 V")),
    ("oven", "wall oven", ("5 kW",)),
    ("heat pump", "heat pump", ("20 A at 240 V", "MCA 28 A at 240 V")),
    ("tankless", "tankless water heater", ("18 kW",)),
]
LISTS = (["16 A", "24 A", "32 A"], ["24 A", "40 A", "48 A"], "6 A to 14 A", ["48 A"])
CONDUCTORS = {"100 A": "4", "125 A": "2", "150 A": "1", "200 A": "2/0"}


def random_tree(seed: int) -> Tree:
    """A house with one service, sometimes with a feeder to a garage, and one to three planned loads."""
    chance = random.Random(seed)
    loads = [load(name, kind, chance.choice(ratings)) for name, kind, ratings in EXISTING if chance.random() < 0.6]
    planned: list[Tree] = []
    for number in range(chance.choice((1, 1, 2))):
        charger: Tree = {"name": f"charger {number + 1}", "kind": "charger", "settings": copy.copy(chance.choice(LISTS))}
        planned.append(charger | ({"priority": str(chance.randint(1, 3))} if chance.random() < 0.5 else {}))
    for name, kind, ratings in PLANNED:
        if chance.random() < 0.3:
            planned.append(load(name, kind, chance.choice(ratings)))
            if name == "heat pump" and "furnace" in [each["name"] for each in loads]:
                planned[-1]["replaces"] = "furnace"
    rating = chance.choice(list(CONDUCTORS))
    service = {"rating": rating, "conductors": {"size": f"{CONDUCTORS[rating]} AWG", "material": "copper"}}
    tree = house(loads, area=f"{chance.randrange(900, 3000, 50)} ft2", planned=planned, **service)
    if chance.random() < 0.3:
        feeder = {"name": "garage", "rating": "60 A", "feeds": {"loads": ["charger 1"]}}
        tree["feeders"] = [{**feeder, "conductors": {"size": "6 AWG", "material": "copper"}}]
    return tree


def answers(tree: Tree) -> list[tuple[float | None, str]]:
    """What each supply must carry, and its verdict, of a home file in which no load lists several settings."""
    found = []
    for at in range(1 + len(tree.get("feeders", []))):
        one = alone(tree, at=at)
        found.append((None if one.sizing is None else one.sizing.amperes, one.verdict))
    return found


def together(verdicts: list[str]) -> str:
    return next((each for each in (DOES_NOT_FIT, OPEN, FITS) if each in verdicts), NOTHING)


def settings_in(entry: Tree) -> list[float]:
    said = entry["settings"]
    if isinstance(said, str):
        low, high = (int(end.split()[0]) for end in said.split(" to "))
        return [float(each) for each in range(low, high + 1)]
    return sorted(float(each.split()[0]) for each in said)


def settable(tree: Tree) -> list[Tree]:
    """The loads that list settings, by priority, then in the order of the file."""
    found = [each for each in every_load(tree) if "settings" in each]
    return sorted(found, key=lambda each: int(each.get("priority", "99")))


def with_settings(tree: Tree, settings: dict[str, float]) -> Tree:
    made = copy.deepcopy(tree)
    for name, setting in settings.items():
        load_named(made, name)["settings"] = [f"{setting:g} A"]
    return made


def as_counted(tree: Tree, found: Assessment) -> Tree:
    return with_settings(tree, {each.load: each.counted for each in found.decision.settings})


def carrying(tree: Tree, names: list[str]) -> list[int]:
    """The positions of the supplies that carry one of some loads: the service, and the feeders that name one."""
    feeders = enumerate(tree.get("feeders", []), 1)
    return [0, *(at for at, feeder in feeders if set(names) & set(feeder["feeds"]["loads"]))]


# --- settings


def check_settings(tree: Tree, found: Assessment) -> bool:
    """Every combination tried outright: those that fit, the one that is counted, the largest of each; whether one fits."""
    loads = settable(tree)
    names = [each["name"] for each in loads]
    fitting, told = [], {}
    for values in product(*(settings_in(each) for each in loads)):
        result = answers(with_settings(tree, dict(zip(names, values, strict=True))))
        told[values] = result
        if together([result[at][1] for at in carrying(tree, names)]) == FITS:
            fitting.append(values)
    counted = max(fitting, default=tuple(settings_in(each)[-1] for each in loads))
    assert {each.load: each.counted for each in found.decision.settings} == dict(zip(names, counted, strict=True))
    best = [one for one in fitting if not any(one != other and all(a <= b for a, b in zip(one, other)) for other in fitting)]
    if len(loads) > 1:
        assert [tuple(each.settings[name] for name in names) for each in found.decision.combinations] == sorted(best)[::-1]
        assert [each.taken for each in found.decision.combinations] == [one == counted for one in sorted(best)[::-1]]
    for at, each in enumerate(found.decision.settings):
        rows = {(*counted[:at], row.setting, *counted[at + 1 :]): row for row in each.settings}
        assert [row.setting for row in each.settings] == settings_in(loads[at])
        for values, row in rows.items():
            wanted = [told[values][place] for place in carrying(tree, [each.load])]
            assert [(supply.amperes, supply.verdict) for supply in row.supplies] == wanted
            assert row.verdict == together([verdict for _, verdict in wanted])
            assert len(row.limited_by) == [verdict for _, verdict in wanted].count(DOES_NOT_FIT)
        fit = [row.setting for row in each.settings if row.verdict == FITS]
        assert each.largest_that_fits == max(fit, default=None)
        alone = with_only(with_settings(tree, dict(zip(names, counted, strict=True))), (each.load,))
        fit_alone = (
            [
                setting
                for setting in settings_in(loads[at])
                if together([verdict for _, verdict in answers(with_settings(alone, {each.load: setting}))]) == FITS
            ]
            if not fit and len(tree["planned"]) > 1
            else []
        )
        assert each.largest_alone == max(fit_alone, default=None)
    assert [(each.sizing.amperes, each.verdict) for each in found.supplies if each.sizing] == told[counted]
    return bool(fitting) and len(fitting) < len(told)


@pytest.mark.slow
def test_settings_are_those_of_every_combination_tried() -> None:
    decided = [check_settings(tree, assessed(tree)) for tree in map(random_tree, range(8))]
    assert any(decided) and not all(decided)


@pytest.mark.parametrize(("first", "second"), [("1", "2"), ("2", "1")])
def test_priorities_decide_between_two_chargers(first: str, second: str) -> None:
    """220.83(A): 9,000 VA of lighting and circuits, a furnace of 27 kW and the chargers, all in one pool; 100 A.

    (8,000 + 40 % of (9,000 + 27,000 + 240 x A - 8,000)) / 240 = 80 + 0.4 x A, under 100.5 for A = 51.2: one of them large.
    """
    chargers = [
        {"name": "a", "kind": "charger", "settings": ["10 A", "30 A"], "priority": first},
        {"name": "b", "kind": "charger", "settings": ["12 A", "32 A"], "priority": second},
    ]
    service = {"rating": "100 A", "conductors": {"size": "4 AWG", "material": "copper"}}
    found = assessed(house([load("furnace", "electric furnace", "27 kW")], planned=chargers, **service)).decision
    counted = {"a": 30.0, "b": 12.0} if first == "1" else {"a": 10.0, "b": 32.0}
    assert {each.load: each.counted for each in found.settings} == counted
    assert [each.settings for each in found.combinations if each.taken] == [counted]
    assert sorted(each.settings["a"] for each in found.combinations) == [10.0, 30.0]


# --- the order of installation


def with_only(tree: Tree, installed: tuple[str, ...]) -> Tree:
    """A home file in which of what is planned only some is there."""
    made = copy.deepcopy(tree)
    made["planned"] = [each for each in made["planned"] if each["name"] in installed]
    if not made["planned"]:
        del made["planned"]
    return feeding_what_is_there(made)


def feeding_what_is_there(tree: Tree) -> Tree:
    """The tree without feeders that feed nothing any more."""
    names = {each["name"] for each in every_load(tree)}
    for feeder in tree.get("feeders", []):
        feeder["feeds"]["loads"] = [name for name in feeder["feeds"]["loads"] if name in names]
    tree["feeders"] = [feeder for feeder in tree.get("feeders", []) if feeder["feeds"]["loads"]]
    return tree


def fits_with(tree: Tree, installed: tuple[str, ...]) -> bool:
    return together([verdict for _, verdict in answers(with_only(tree, installed))]) == FITS


def largest_with(tree: Tree, chosen: list[str], found: Assessment) -> dict[str, float]:
    """The largest settings that fit where only some of what is planned is written, the first load's first."""
    loads = [each for each in found.decision.settings if each.load in chosen]
    for made in sorted(product(*([row.setting for row in each.settings] for each in loads)), reverse=True):
        settings = dict(zip([each.load for each in loads], made, strict=True))
        only = with_only(with_settings(tree, settings), tuple(chosen))
        if together([verdict for _, verdict in answers(only)]) == FITS:
            return settings
    return {}


def check_order(tree: Tree, found: Assessment) -> str:
    """Every set of planned loads tried outright; what was found, in a word."""
    tree = as_counted(tree, found)
    smallest = bool(found.decision.settings) and all(each.largest_that_fits is None for each in found.decision.settings)
    if smallest:  # no setting fits with all that is planned: the order is told with the smallest ones
        tree = with_settings(tree, {each.load: each.settings[0].setting for each in found.decision.settings})
    names = [each["name"] for each in sorted(tree["planned"], key=lambda each: int(each.get("priority", "99")))]
    sets = [chosen for count in range(1, len(names) + 1) for chosen in combinations(names, count)]
    fits = {frozenset(chosen): fits_with(tree, chosen) for chosen in sets}
    order = found.decision.order
    if order is None:
        assert len(set(fits.values())) < 2 or len(names) < 2
        return "none"
    assert len(set(fits.values())) == 2
    assert order.at_smallest == smallest
    assert [step.load for step in order.steps] == names
    for count, step in enumerate(order.steps, 1):
        wanted = answers(with_only(tree, tuple(names[:count])))
        assert [(each.amperes, each.verdict) for each in step.supplies][: len(wanted)] == wanted
        assert step.verdict == together([verdict for _, verdict in wanted])
    works = [each for each in permutations(names) if all(fits[frozenset(each[:count])] for count in range(1, len(each) + 1))]
    if fits[frozenset(names)]:
        assert order.together == []
        if tuple(names) in works:
            assert order.works == []
            return "any"
        assert order.works == (list(works[0]) if works else [])
        return "another" if works else "no order"
    largest = [chosen for chosen, fit in fits.items() if fit and not any(chosen < other and fits[other] for other in fits)]
    assert {frozenset(each) for each in order.together} == set(largest)
    assert [*order.settings] == [largest_with(tree, chosen, found) for chosen in order.together]
    assert order.works == []
    return "not all"


@pytest.mark.long
def test_the_order_of_installation_is_that_of_every_set_tried() -> None:
    assert {check_order(tree, assessed(tree)) for tree in map(random_tree, range(40, 44))} >= {"none", "not all"}


def test_a_load_that_only_fits_after_another_is_gone() -> None:
    """The heat pump takes the place of a large furnace; only then there is room for the charger.

    220.83(A): 8,000 + 40 % of (9,000 + 32,000 + 9,600 - 8,000) = 25,040 VA = 104.3 A; (B), the furnace gone: 8,000 + 40 % of
    (9,000 + 9,600 - 8,000) + 3,840 = 16,080 VA = 67 A.
    """
    planned = [load("charger", "charger", "setting 40 A"), load("heat pump", "heat pump", "16 A at 240 V", replaces="furnace")]
    service = {"rating": "100 A", "conductors": {"size": "4 AWG", "material": "copper"}}
    tree = house([load("furnace", "electric furnace", "32 kW")], planned=planned, **service)
    found = assessed(tree)
    assert check_order(tree, found) == "another"
    order = found.decision.order
    assert order is not None
    assert order.works == ["heat pump", "charger"]
    assert [step.verdict for step in order.steps] == [DOES_NOT_FIT, FITS]


# --- alternatives


RATED = {"set to": "setting {} A", "held to": "control setting {} A"}
PIECE = re.compile(r"(.+?) (set to|held to|of not over) ([\d,.]+) (A|W|VA)(?: by the system)?(?: and |\Z)")


ONE = re.compile(r"without (.+)|(.+) (set to|held to|of not over) ([\d,.]+) (A|W|VA)(?: by the system)?")
STEPS = {"W": 100, "VA": 100, "A": 1}


def two_of(what: str) -> list[re.Match[str]]:
    """The two changes of a pair; none where one of them cannot be written into a home file."""
    words = what.split(" and ")
    for at in range(1, len(words)):
        halves = [ONE.fullmatch(" and ".join(half)) for half in (words[:at], words[at:])]
        if all(halves):
            return [each for each in halves if each]
    return []


def with_one(tree: Tree, change: re.Match[str], steps: int) -> Tree:
    """A change carried out in a home file, by some steps less than it says."""
    without, name, word, amount, unit = change.groups()
    if without:
        return without_load(tree, without)
    made = copy.deepcopy(tree)
    entry, much = load_named(made, name), float(amount.replace(",", "")) + steps * STEPS[unit]
    entry.pop("settings", None)
    at = str(entry.get("rating", "")).partition(" at ")[2]
    entry["rating"] = RATED[word].format(f"{much:g}") if word in RATED else f"{much:g} {unit}" + (f" at {at}" if at else "")
    return made


CURRENTS = re.compile(r"(.*) with a rated-load and a full-load current of not over ([\d.]+) A together")


def trees_of(tree: Tree, found: AlternativeResult) -> Iterator[tuple[Tree, Tree | None]]:
    """The home file in which an alternative is carried out, and that in which it is carried out by a step less."""
    if found.title.startswith("Two together"):
        if changes := two_of(found.what):
            first, second = changes
            more = None if first[3] in (None, "set to") else with_one(with_one(tree, first, 1), second, 0)
            yield with_one(with_one(tree, first, 0), second, 0), more
        return
    if currents := CURRENTS.fullmatch(found.what):
        made, more = copy.deepcopy(tree), copy.deepcopy(tree)
        for each, amperes in ((made, float(currents[2])), (more, float(currents[2]) + 0.5)):
            for name in currents[1].split(" and "):
                load_named(each, name)["rating"] = f"{amperes:g} A at 240 V"
        yield made, more
        return
    if found.what.startswith("without "):
        yield without_load(tree, found.what.removeprefix("without ")), None
    pieces = [] if found.title.startswith("The metered") else PIECE.findall(found.what)
    changed = {name: piece[1:] for piece in pieces for name in piece[0].split(" and ")}
    if pieces:
        made, more = copy.deepcopy(tree), copy.deepcopy(tree)
        for each, steps in ((made, 0), (more, 1)):
            for name, (word, amount, unit) in changed.items():
                entry, much = load_named(each, name), float(amount.replace(",", "")) + steps * STEPS[unit]
                listed = isinstance(entry.pop("settings", None), list)
                at = str(entry.get("rating", "")).partition(" at ")[2]
                entry["rating"] = (
                    RATED[word].format(f"{much:g}") if word in RATED else f"{much:g} {unit}" + (f" at {at}" if at else "")
                )
        yield made, None if listed or len(changed) > 1 else more


def without_load(tree: Tree, name: str) -> Tree:
    planned = tuple(each["name"] for each in tree.get("planned", []) if each["name"] != name)
    made = with_only(tree, planned) if any(each["name"] == name for each in tree.get("planned", [])) else copy.deepcopy(tree)
    for unit in made["dwelling units"]:
        unit["loads"] = [each for each in unit["loads"] if each["name"] != name]
    for each in made.get("planned", []):
        if each.get("replaces") == name:
            del each["replaces"]
    return feeding_what_is_there(made)


def check_alternatives(tree: Tree, found: Assessment) -> set[str]:
    """Each alternative written into the home file: it fits where it says so, with its amperes, and a step less does not."""
    whole = together([each.verdict for each in found.supplies])
    assert bool(found.decision.alternatives) <= (whole == DOES_NOT_FIT)
    tree = as_counted(tree, found)
    seen = set()
    failing = [at for at, each in enumerate(found.supplies) if each.verdict == DOES_NOT_FIT]
    for each in found.decision.alternatives:
        assert each.supply == found.supplies[failing[0]].title or each.title == "A larger supply"
        for made, more in trees_of(tree, each):
            now = answers(made)
            assert (together([verdict for _, verdict in now]) == FITS) == (each.verdict == FITS), each
            assert each.amperes == pytest.approx(now[failing[0]][0]), each
            before = found.supplies[failing[0]].sizing
            assert before is not None and before.amperes is not None and each.brings is not None
            assert each.brings == pytest.approx(before.amperes - now[failing[0]][0])  # type: ignore[operator]
            if more is not None and each.verdict == FITS:
                assert together([verdict for _, verdict in answers(more)]) != FITS, each
            seen.add(each.title)
    return seen


@pytest.mark.slow
def test_alternatives_are_as_if_the_home_file_said_them() -> None:
    seen: set[str] = set()
    for tree in map(random_tree, range(100, 118)):
        seen |= check_alternatives(tree, assessed(tree))
    assert seen >= {"Energy management or a power control system", "A smaller appliance", "A load left out"}


CROWDED = [load("charger", "charger", "48 A at 240 V"), load("sauna", "sauna", "8 kW"), load("tub", "hot tub", "32 A at 240 V")]
KITCHEN = [load("range", "range", "12 kW"), load("heater", "water heater", "4.5 kW"), load("dryer", "dryer", "5.6 kW")]
COOLING = load("conditioner", "air conditioner", "24 A at 240 V")


def crowded(**service: Any) -> Tree:
    """A house of 100 A in which all that is planned is too much for any one change."""
    said = {"rating": "100 A", "conductors": {"size": "4 AWG", "material": "copper"}, **service}
    tree = house([*KITCHEN, COOLING], area="1900 ft2", planned=copy.deepcopy(CROWDED), **said)
    tree["planned"][0] = {"name": "charger", "kind": "charger", "settings": ["16 A", "32 A", "48 A"]}
    return {**tree, "code": "nec/2017"}


@pytest.mark.slow
def test_where_no_single_change_suffices_two_together_are_looked_for() -> None:
    tree = crowded()
    found = assessed(tree)
    seen = {title for title in check_alternatives(tree, found) if title.startswith("Two together")}
    assert seen == {"Two together: energy management or a power control system, and a load left out"}
    told = [each for each in found.decision.alternatives if each.title in seen]
    assert {two_of(each.what)[1][1] for each in told} == {"sauna", "tub"}  # one pair for each two loads
    assert all(each.verdict == FITS for each in told)
    fitting = [each for each in found.decision.alternatives if each.verdict == FITS]
    assert fitting[-len(told) :] == told and all(each.left_out for each in told)  # what is planned is given up last
    singles = [each for each in found.decision.alternatives if each.title not in (*seen, "A larger supply")]
    assert singles and all(each.verdict == DOES_NOT_FIT for each in singles)


@pytest.mark.slow
def test_the_currents_behind_a_circuit_ampacity_are_a_way_out() -> None:
    """The ampacity is 125 % of the compressor's current and the fan's, so less than 80 % of it is none of these two together."""
    kitchen = [load("range", "range", "12 kW"), load("heater", "water heater", "4.5 kW")]
    title = "The currents of compressor and fan in place of the minimum circuit ampacity"
    seen = {}
    for area in ("2300 ft2", "5500 ft2"):
        tree = house([*kitchen, load("conditioner", "air conditioner", "MCA 40 A at 240 V")], area=area, rating="110 A")
        tree |= {"code": "nec/2017", "work": "new"}
        tree["service"] |= {"state": "to be installed", "conductors": {"size": "3 AWG", "material": "copper"}}
        found = assessed(tree)
        check_alternatives(tree, found)
        (one,) = (each for each in found.decision.alternatives if each.title == title)
        said = CURRENTS.fullmatch(one.what)
        assert said is not None
        seen[area] = one.verdict, float(said[2])
    assert seen["2300 ft2"][0] == FITS and 32 < seen["2300 ft2"][1] < 40
    assert seen["5500 ft2"] == (DOES_NOT_FIT, 32)  # no less than 40 A / 1.25


@pytest.mark.slow
def test_no_pair_is_told_where_one_change_suffices() -> None:
    tree = with_only(crowded(), ("charger", "sauna"))
    found = assessed(tree).decision.alternatives
    assert any(each.verdict == FITS and each.title == "A load left out" for each in found)
    assert not any(each.title.startswith("Two together") for each in found)


@pytest.mark.slow
def test_larger_conductors_and_a_change_of_a_load_are_a_pair() -> None:
    tree = crowded(conductors={"size": "6 AWG", "material": "copper"})
    tree["planned"] = tree["planned"][1:]
    pairs = [each for each in assessed(tree).decision.alternatives if each.title.startswith("Two together: larger supply cond")]
    assert pairs
    for each in pairs:
        size, change = re.fullmatch(r"Service with conductors of (.+) AWG (?:copper|aluminum) and (.+)", each.what).groups()  # type: ignore[union-attr]
        made = with_one(tree, ONE.fullmatch(change), 0)  # type: ignore[arg-type]
        assert answers(made)[0][1] == DOES_NOT_FIT
        made["service"]["conductors"] = {"size": f"{size} AWG", "material": "copper" if "copper" in each.what else "aluminum"}
        assert answers(made) == [(pytest.approx(each.amperes), FITS)]


def check_larger_settings(tree: Tree, found: Assessment) -> set[str]:
    """What would let a load be set to more, written into the home file with that setting: it fits, and without it does not."""
    seen = set()
    for load_of in found.decision.settings:
        above = [each.setting for each in load_of.settings if each.setting > load_of.counted]
        wanted = above[-1:] if load_of.free else [*dict.fromkeys((*above[:1], *above[-1:]))]
        none = load_of.largest_that_fits is None
        if none:  # what would let it be set at all, with the others at their smallest too
            wanted = [each.setting for each in load_of.settings[:1] if each.setting < load_of.counted]
        assert [each.setting for each in load_of.larger] == wanted
        for larger in load_of.larger:
            counted = {each.load: each.settings[0].setting if none else each.counted for each in found.decision.settings}
            more = with_settings(tree, {**counted, load_of.load: larger.setting})
            failing = [at for at, (_, verdict) in enumerate(answers(more)) if verdict == DOES_NOT_FIT]
            assert failing
            for each in larger.alternatives:
                assert f"{load_of.load} set to" not in each.what
                for made, _ in trees_of(more, each):
                    now = answers(made)
                    assert together([verdict for _, verdict in now]) == each.verdict == FITS, each
                    assert each.amperes == pytest.approx(now[failing[0]][0]), each
                seen.add(each.title)
    return seen


@pytest.mark.slow
def test_what_lets_a_load_be_set_to_more_is_as_if_the_home_file_said_it() -> None:
    seen: set[str] = set()
    for tree in map(random_tree, (3, 4, 6)):
        seen |= check_larger_settings(tree, assessed(tree))
    assert seen >= {"A smaller appliance", "A load left out", "A larger supply"}


@pytest.mark.long
@pytest.mark.parametrize("share", range(10))
def test_settings_order_and_alternatives_are_those_of_every_value_tried(share: int) -> None:
    """50 homes each, 500 in all: every combination, every set of planned loads, every alternative calculated anew."""
    seen: set[str] = set()
    for tree in map(random_tree, range(50 * share, 50 * share + 50)):
        found = assessed(tree)
        check_settings(tree, found)
        seen |= check_alternatives(tree, found) | check_larger_settings(tree, found) | {check_order(tree, found)}
    assert {"A lower fixed setting", "A load left out"} <= seen


@pytest.mark.parametrize("name", DEMOS)
def test_alternatives_stand_only_where_a_supply_does_not_fit(name: str) -> None:
    found = demo_assessed(name)
    sheets = [each.sizing.fits for each in found.supplies if each.sizing is not None]  # of the largest load
    assert bool(found.decision.alternatives) == (False in sheets)
    assert [each.verdict == FITS for each in found.decision.alternatives] == sorted(
        (each.verdict == FITS for each in found.decision.alternatives), reverse=True
    )
    assert demo(name)["home"]


def small_house(**more: Any) -> Tree:
    """A house of 60 A with a range of 12 kW and a planned charger of 40 A.

    220.83(A): 8,000 + 40 % of (9,000 + 12,000 + 9,600 - 8,000) = 17,040 VA = 71 A. Standard: 5,100 + 8,000 + 9,600 = 94.6 A.
    """
    service = {"rating": "60 A", "conductors": {"size": "6 AWG", "material": "copper"}}
    return house([load("range", "range", "12 kW")], planned=[load("charger", "charger", "40 A at 240 V", **more)], **service)


def test_the_metered_maximum_with_which_it_fits() -> None:
    """220.87: 125 % of the maximum and the new 40 A; 60.49 A still count as 60: 16 A x 1.25 + 40 = 60."""
    found = next(each for each in assessed(small_house()).decision.alternatives if each.title.startswith("The metered"))
    assert "not over 16 A" in found.what
    assert (found.amperes, found.verdict, found.brings) == (1.25 * 16 + 40, FITS, None)


def test_a_record_of_one_main_is_not_offered_where_another_does_not_fit_either() -> None:
    found = demo_assessed("large_house_two_mains")
    assert [each.verdict for each in found.supplies].count(DOES_NOT_FIT) == 2
    assert not any(each.title.startswith("The metered") for each in found.decision.alternatives)


def test_a_larger_supply_is_sized_by_the_least_of_the_methods_that_may_size_one() -> None:
    found = [each for each in assessed(small_house()).decision.alternatives if each.title == "A larger supply"]
    assert [each.what for each in found] == ["Service of at least 100 A"]


def test_a_new_service_may_use_a_method_that_the_old_conductors_bar() -> None:
    """6 AWG copper is 65 A, so 220.82 may not be used for the service of 60 A; a new one is of 100 A or more, and it may.

    220.82: 10,000 + 40 % of (4,500 + 4,500 + 9,600 - 10,000) + 65 % of 20,000 = 26,440 VA = 110.17 A, 110 A after 220.5(B).
    220.83 may be used as it is, for the old service alone: 8,000 + 40 % of (9,000 + 20,000 + 9,600 - 8,000) = 20,240 VA = 84.33 A.
    The standard method: 3,000 + 35 % of 6,000 + 9,600 + 20,000 = 34,700 VA = 144.58 A.
    """
    tree = small_house()
    tree["dwelling units"][0]["loads"] = [load("furnace", "electric furnace", "20 kW")]
    found = assessed(tree)
    service = found.supplies[0]
    assert service.basis is not None and service.new_supply is not None
    assert (service.basis.method, answer(service)) == ("existing_dwelling", (pytest.approx(20240 / 240), DOES_NOT_FIT))
    new = service.new_supply
    assert (new.amperes, new.minimum_rating, new.offered_rating) == (pytest.approx(26440 / 240), 110, 125)
    assert new.conductors == {"copper": "3 AWG", "aluminum": "1 AWG"}  # 83 % of 110 A = 91.3 A, 75 C
    larger = [each for each in found.decision.alternatives if each.title == "A larger supply"]
    assert [(each.what, each.by) for each in larger] == [("Service of at least 110 A", new.by)]
    assert service.sizing is not None and service.sizing.minimum_rating == 100  # of the load by 220.83; 100 A for one family
    assert supply(tree, "standard").sizing.minimum_rating == 150  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("bus", "meter", "size", "larger"),
    [
        ("125 A", "200 A", "4", []),  # 83 % of 100 A = 83 A; 4 AWG copper has 70 A at 60 C, 85 A at 75 C
        ("60 A", "200 A", "4", ["the panelboard, by its bus"]),
        ("125 A", "60 A", "4", ["the meter equipment, with the utility"]),
        ("125 A", "100 A", "6", ["the supply conductors"]),  # 65 A
        ("99 A", "99 A", "6", ["the supply conductors", "the panelboard, by its bus", "the meter equipment, with the utility"]),
    ],
)
def test_what_else_must_be_larger_with_a_larger_service(bus: str, meter: str, size: str, larger: list[str]) -> None:
    """The house of 60 A needs 100 A, the least for one family."""
    tree = small_house()
    tree["service"] |= {"bus": bus, "meter": meter, "conductors": {"size": f"{size} AWG", "material": "copper"}}
    found = [each for each in assessed(tree, "standard").decision.alternatives if each.title == "A larger supply"]
    assert [each.what for each in found] == ["Service of at least 100 A"]
    assert [each.larger for each in found] == [larger]


def test_the_circuit_of_a_setting_is_that_of_the_supply_that_feeds_the_load() -> None:
    """The charger is there, and so is the service; its feeder is new, and sizes the circuit: 125 % of 40 A."""
    tree = house([{"name": "charger", "kind": "charger", "settings": ["16 A", "40 A"]}], state="existing")
    feeder = {"name": "garage", "rating": "60 A", "state": "to be installed", "feeds": {"loads": ["charger"]}}
    tree["feeders"] = [{**feeder, "conductors": {"size": "6 AWG", "material": "copper"}}]
    rows = assessed(tree).decision.settings[0].settings
    assert [None if each.circuit is None else each.circuit.breaker for each in rows] == ["20 A", "50 A"]
    del tree["feeders"]
    assert [each.circuit for each in assessed(tree).decision.settings[0].settings] == [None, None]


@pytest.mark.parametrize(
    ("verdicts", "of_all"),
    [
        ([FITS, OPEN, DOES_NOT_FIT], DOES_NOT_FIT),
        ([OPEN, DOES_NOT_FIT], DOES_NOT_FIT),
        ([FITS, OPEN], OPEN),
        ([NOTHING, FITS], FITS),
        ([NOTHING, NOTHING], NOTHING),
    ],
)
def test_supplies_together_fit_only_where_each_fits(verdicts: list[str], of_all: str) -> None:
    assert trials.together(Carried(None, verdict) for verdict in verdicts) == of_all


@pytest.mark.slow
def test_what_suffices_for_one_supply_is_found_beside_another_that_is_open() -> None:
    """Two houses on one service; of a load of the other nobody knows the rating, so the service is open whatever is done here.

    The feeder by 220.83(A): (8,000 + 40 % of (9,000 + 30,000 + 240 x A - 8,000)) / 240 is under 100.5 up to 38 A.
    """
    first = house([load("furnace", "electric furnace", "15 kW")])["dwelling units"][0]
    second = {**house([{"name": "range", "kind": "range"}])["dwelling units"][0], "name": "other house"}
    tree = house([], rating="400 A", conductors={"size": "600 kcmil", "material": "copper"})
    tree["dwelling units"] = [first, second]
    tree["planned"] = [{**load("charger", "charger", "48 A at 240 V"), "in": "house"}]
    feeder = {"name": "feeder", "feeds": "house", "rating": "100 A", "conductors": {"size": "4 AWG", "material": "copper"}}
    tree["feeders"] = [feeder]
    assert [each.verdict for each in assessed(tree).supplies] == [OPEN, FITS]
    load_named(tree, "furnace")["rating"] = "30 kW"
    found = assessed(tree)
    assert [each.verdict for each in found.supplies] == [OPEN, DOES_NOT_FIT]
    held = [each for each in found.decision.alternatives if each.title.startswith("A lower fixed")]
    assert [(each.verdict, each.supply) for each in held] == [(OPEN, "Feeder")]
    assert held[0].what == "charger set to 38 A"
    setting = float(held[0].what.removeprefix("charger set to ").removesuffix(" A"))
    for amperes, verdict in ((setting, FITS), (setting + 1, DOES_NOT_FIT)):
        tree["planned"][0]["rating"] = f"setting {amperes:g} A"
        assert assessed(tree).supplies[1].verdict == verdict


CHARGER = load("charger", "EV charging equipment", "32 A at 240 V")
TUB = load("hot tub", "hot tub", "40 A at 240 V", later="yes")
SECOND = {"name": "second charger", "kind": "EV charging equipment", "settings": ["24 A", "48 A"], "later": "yes"}


def test_parts_of_a_heat_pump_come_later_as_one_and_without_what_they_replace() -> None:
    there = load("air conditioner", "air conditioner", "MCA 18 A at 240 V")
    pump = load("heat pump", "heat pump", "MCA 25 A at 240 V", later="yes")
    strips = load("strips", "supplemental heat", "9.6 kW", later="yes")
    found = assessed(house([there], planned=[CHARGER, {**pump, "replaces": "air conditioner"}, strips, TUB]))
    unit, gone = ["heat pump", "strips"], {"heat pump": ["air conditioner"]}
    told = [(each.loads, each.gone) for each in found.decision.later]
    assert told == [(unit, gone), (["hot tub"], {}), ([*unit, "hot tub"], gone)]
    whole = assessed(house([], planned=[CHARGER, {**pump, "later": "no"}, {**strips, "later": "no"}]))
    assert whole.supplies[0].sizing is not None
    assert found.decision.later[0].supplies[0].amperes == pytest.approx(whole.supplies[0].sizing.amperes)
    (said,) = [block.text for block in outcome_blocks(found) if isinstance(block, Paragraph)]
    assert "Not counted then is what heat pump takes the place of: air conditioner." in said


def test_what_comes_later_is_not_counted_and_told_apart() -> None:
    later = assessed(house([], planned=[CHARGER, TUB, SECOND]))
    without = assessed(house([], planned=[CHARGER]))
    assert later.supplies[0].total == without.supplies[0].total
    (said,) = [block.text for block in outcome_blocks(later) if isinstance(block, Paragraph)]
    verdicts = [each.verdict for each in later.decision.later]
    tub, second = "hot tub: {}", "second charger set to 48 A: {}"
    told = f"\nLater, which is not counted in that, with {tub}; with {second}; with hot tub and {second}."
    assert said.endswith(told.format(*verdicts))
    assert later.supplies[0].sizing.amperes == without.supplies[0].sizing.amperes  # type: ignore[union-attr]
    assert [each.load for each in later.decision.settings] == []
    told = [(each.loads, each.supplies[0].amperes, each.verdict) for each in later.decision.later]
    counted = [{**each, "later": "no"} | ({"settings": ["48 A"]} if "settings" in each else {}) for each in (TUB, SECOND)]
    expected = []
    for chosen in ([counted[0]], [counted[1]], counted):
        whole = assessed(house([], planned=[CHARGER, *chosen]))
        assert whole.supplies[0].sizing is not None
        expected.append(([each["name"] for each in chosen], whole.supplies[0].sizing.amperes, whole.supplies[0].verdict))
    assert told == [(names, pytest.approx(amperes), verdict) for names, amperes, verdict in expected]
    assert later.field_page == without.field_page
    assert {each.name: each.status for each in later.supplies[0].loads}["hot tub"] == "later, not counted"
    assert not any({"hot tub", "second charger"} & set(each.items) for each in later.supplies[0].facts_not_verified)


def test_what_comes_later_is_sized_as_if_it_were_of_this_work() -> None:
    service = {"rating": "200 A", "conductors": {"size": "2/0 AWG", "material": "copper"}}
    later = assessed({**house([COOLING], planned=[CHARGER, TUB, SECOND], **service), "work": "new"})
    tub, second = {**TUB, "later": "no"}, {**SECOND, "later": "no", "settings": ["48 A"]}
    counted = assessed({**house([COOLING], planned=[CHARGER, tub, second], **service), "work": "new"})
    apart, whole = later.supplies[0].later, counted.supplies[0].circuits
    assert apart is not None and whole is not None and later.supplies[0].circuits is not None
    assert apart.loads == ["hot tub", "second charger"]
    assert apart.circuits == [each for each in whole.circuits if each.load in apart.loads]
    assert not {"hot tub", "second charger"} & {each.load for each in later.supplies[0].circuits.circuits}
    then = {answer.title: answer.printed for each in counted.supplies[0].beside for answer in each.answers}
    assert {each.title: each.then for each in apart.answers}.items() <= then.items()
    assert "Load of the neutral" in {each.title for each in apart.answers}  # a hot tub has a neutral where nobody says otherwise
    assert apart.minimum_rating == counted.supplies[0].new_supply.minimum_rating  # type: ignore[union-attr]
    told = dict(figures(later, later.supplies[0], later.supplies[0].sizing).rows)  # type: ignore[arg-type]
    assert f"load of the neutral {then['Load of the neutral']}" in told["Other sizes with what comes later"]
    assert any("For later" in block.text for block in sheet_pages(later, full=False) if isinstance(block, Heading))


@pytest.mark.slow
def test_readings_by_which_what_comes_later_does_not_fit_are_named() -> None:
    tree = house([load("range", "range", "12 kW")], planned=[CHARGER, TUB, SECOND], rating="125 A")
    apart = assessed({**tree, "work": "new", "code": "nec/2020"}).supplies[0].later
    assert apart is not None
    for each in apart.readings:
        name = each.address.rpartition(".")[2].replace("_", " ")
        home = {**tree, "work": "new", "code": "nec/2020", "interpretations": {name: each.option.replace("_", " ")}}
        assert assessed(home).decision.later[-1].verdict == each.verdict == DOES_NOT_FIT
    assert [each.option for each in apart.readings] == ["apart", "apart_at_125"]


def _existing(tub: dict[str, Any]) -> dict[str, Any]:
    """An existing house whose planned charger fits, and whose tub does not fit beside it."""
    charger = {"name": "charger", "kind": "EV charging equipment", "settings": ["16 A", "48 A"]}
    loads = [load("oven", "wall oven", "12 kW"), load("dryer", "clothes dryer", "5 kW")]
    return house(loads, planned=[charger, tub], rating="100 A")


def test_what_would_let_fit_what_comes_later_is_told_and_is_so() -> None:
    """A setting that is named is assessed anew with the load counted."""
    tub = load("tub", "hot tub", "48 A at 240 V", later="yes")
    found = assessed(_existing(tub))
    (later,) = found.decision.later
    assert (found.supplies[0].verdict, later.verdict) == (FITS, DOES_NOT_FIT)
    lower = next(each for each in later.alternatives if each.what == "charger set to 16 A")
    tree = _existing({**tub, "later": "no"})
    tree["planned"][0]["settings"] = ["16 A"]
    assert answer(assessed(tree).supplies[0]) == (lower.amperes, FITS)
    (said,) = [block.text for block in outcome_blocks(found) if isinstance(block, Paragraph)]
    assert (
        f"it would fit, as the code is read here, by one of these: {lowered(lower.title)} (charger set to 16 A, {lower.amperes:,.2f} A)"
        in said
    )


def test_lower_settings_of_what_is_planned_with_which_what_comes_later_fits_are_told_and_are_so() -> None:
    """Each combination that is told is assessed anew with both planned, and so is each that is not."""
    second = {"name": "second charger", "kind": "EV charging equipment", "settings": ["48 A", "64 A"]}
    found = assessed(_existing({**second, "later": "yes"}))
    (later,) = found.decision.later
    assert (found.decision.settings[0].counted, later.verdict) == (48, DOES_NOT_FIT)
    fitting = {}
    for first, other in product(("16 A", "48 A"), ("48 A", "64 A")):
        tree = _existing({**second, "settings": [other]})
        tree["planned"][0]["settings"] = [first]
        amperes, verdict = answer(alone(tree))
        if verdict == FITS:
            fitting[first, other] = amperes
    told = {tuple(f"{at:g} A" for at in each.settings.values()): each.supplies[0].amperes for each in later.combinations}
    assert told == {("16 A", "64 A"): pytest.approx(fitting["16 A", "64 A"])}
    assert fitting.keys() == {("16 A", "48 A"), ("16 A", "64 A")}, "those that are not told are less in all"
    (said,) = [block.text for block in outcome_blocks(found) if isinstance(block, Paragraph)]
    none = "does not fit, whatever second charger is set to with charger set to 48 A"
    assert f"{none}, but fits with charger set to 16 A and second charger set to 64 A (" in said


UNIT = [load("pump", "heat pump", "MCA 25 A at 240 V"), load("strips", "supplemental heat", "7 kW")]
UNIT += [load("handler", "blower", "4 A at 240 V") | {"on the circuit of": "strips"}]
HEATED = [load("range", "range", "10 kW"), load("dryer", "clothes dryer", "5.4 kW")]
CAR: Tree = {"name": "charger", "kind": "EV charging equipment", "settings": ["16 A", "24 A", "40 A"]}


def _heated(*planned: Tree) -> Tree:
    service = {"rating": "100 A", "conductors": {"size": "4 AWG", "material": "copper"}}
    return house(HEATED, area="1500 ft2", planned=copy.deepcopy(list(planned)), **service)


def test_every_setting_of_what_comes_later_is_tried_as_if_it_were_of_this_work() -> None:
    unit = [{**UNIT[0], "stops for supplemental heat": "yes"}, UNIT[1], UNIT[2]]
    found = assessed(_heated(*unit, {**CAR, "later": "yes"}))
    (later,) = found.decision.later
    rows = {each.setting: (each.supplies[0].amperes, each.verdict) for each in later.of_settings[0].settings}
    for setting, carried in rows.items():
        assert answer(alone(_heated(*unit, {**CAR, "settings": [f"{setting:g} A"]}))) == (pytest.approx(carried[0]), carried[1])
    assert {verdict for _, verdict in rows.values()} == {FITS, DOES_NOT_FIT}
    (said,) = [block.text for block in outcome_blocks(found) if isinstance(block, Paragraph)]
    largest = max(setting for setting, (_, verdict) in rows.items() if verdict == FITS)
    above = min(setting for setting in rows if setting > largest)
    assert f"with charger set to {largest:g} A: fits, set to {above:g} A: does not fit" in said
    circuit = found.supplies[0].later.circuits[0]  # type: ignore[union-attr]
    assert circuit.breaker == later.of_settings[0].settings[list(rows).index(largest)].circuit.breaker  # type: ignore[union-attr]


@pytest.mark.slow
def test_the_parts_of_a_heat_pump_are_left_out_together_and_last() -> None:
    found = assessed(_heated(CAR, *UNIT))
    fitting = [each for each in found.decision.alternatives if each.verdict == FITS]
    assert fitting[0].what == "charger set to 16 A and pump off while its supplemental heat is on"
    assert [each.what for each in fitting if each.left_out] == ["without pump, strips and handler"] == [fitting[-1].what]
    single = [each.loads for each in found.decision.installed if each.by_itself]
    assert single == [["charger"], ["pump", "strips", "handler"]]
    two = [load("pump 2", "heat pump", "MCA 25 A at 240 V"), *UNIT]  # of two heat pumps nobody says whose the strips are
    single = [each.loads for each in assessed(_heated(CAR, *two)).decision.installed if each.by_itself]
    assert single == [["charger"], ["pump 2"], ["pump"], ["strips", "handler"]]


def test_doubt_about_what_comes_later_stays_with_it() -> None:
    tub = load("tub", "hot tub", "12 A to 48 A at 240 V", later="yes")
    found, without = assessed(_existing(tub)), assessed(_existing({**tub, "rating": "48 A at 240 V"}))
    assert found.supplies[0].between is None
    assert answer(found.supplies[0]) == answer(without.supplies[0])
    assert found.decision.later[0].at_largest
    assert not without.decision.later[0].at_largest
    (said,) = [block.text for block in outcome_blocks(found) if isinstance(block, Paragraph)]
    assert "Later, which is not counted in that, with tub: open, it hangs on its rating." in said


@pytest.mark.slow
def test_up_to_which_ratings_what_comes_later_fits() -> None:
    """Each bound is tried as a rating that is known: it fits there and not a whole ampere above, wherever between two of them the last is."""

    def later(rating: str, area: int = 1500) -> tuple[str, str]:
        tree = _existing(load("tub", "hot tub", rating, later="yes"))
        tree["dwelling units"][0]["areas"][0]["area"] = f"{area} ft2"
        found = assessed(tree)
        return found.decision.later[0].verdict, outcome_blocks(found)[0].text  # type: ignore[union-attr]

    for area in (1500, 1560, 1640, 1700):
        said = later("12 A to 48 A at 240 V", area)[1]
        most = re.search(
            r"Later: with tub of not over (\d+) A: fits, whatever else is not known, as the code is read here\.", said
        )
        assert most is not None
        assert later(f"{most[1]} A at 240 V", area)[0] == FITS
        assert later(f"{int(most[1]) + 1} A at 240 V", area)[0] == DOES_NOT_FIT
    assert "with tub: does not fit, whatever its rating may be." in later("60 A to 70 A at 240 V")[1]


def test_what_does_not_rest_on_a_missing_rating_is_told() -> None:
    found = assessed(_existing(load("tub", "hot tub", "unknown")))
    assert found.supplies[0].sizing is None
    (said,) = [block.text for block in outcome_blocks(found) if isinstance(block, Paragraph)]
    assert "together: open. It hangs on what is not known: tub: rating." in said
    assert "Each by itself: charger set to 48 A: fits (" in said
    assert "; tub: open." in said


def test_of_a_service_that_is_there_no_sizes_of_a_new_one_are_told_with_what_comes_later() -> None:
    tree = _existing(load("tub", "hot tub", "48 A at 240 V", later="yes"))
    tree["service"]["conductors"] = {"size": "1 AWG", "material": "aluminum"}
    found = assessed(tree)
    assert found.supplies[0].later is not None
    told = [each.title for each in found.supplies[0].later.answers]
    assert not [each for each in told if "electrode" in each or each.startswith("Neutral and")]


def test_what_comes_later_leaves_what_it_replaces() -> None:
    oven = load("oven", "wall oven", "8 kW")
    bigger = {**load("bigger oven", "wall oven", "12 kW", later="yes"), "replaces": "oven"}
    whole = assessed(house([oven], planned=[bigger]))
    assert whole.supplies[0].total == assessed(house([oven])).supplies[0].total
    alone = assessed(house([load("oven", "wall oven", "12 kW")]))
    assert whole.decision.later[0].supplies[0].amperes == pytest.approx(alone.supplies[0].sizing.amperes)  # type: ignore[union-attr]


def test_a_method_asked_for_that_passes_the_main_names_itself_beside_its_sizes() -> None:
    loads = [load("range", "range", "12 kW"), load("dryer", "dryer", "5.6 kW"), load("furnace", "electric furnace", "19.2 kW")]
    whole = assessed({**house(loads, area="3000 ft2", rating="150 A"), "work": "new"}, method="standard")
    found = whole.supplies[0]
    assert found.sizing is not None and found.new_supply is not None
    asked, least = found.sizing.minimum_rating, found.new_supply.minimum_rating
    assert asked is not None and least is not None and least <= 150 < asked
    rows = dict(figures(whole, found, found.sizing).rows)
    assert not any(each.startswith("Smallest conductors for the main") for each in rows)
    assert rows["Minimum rating by the standard calculation"] == f"{asked:g} A"
    assert f"Smallest conductors for {asked:g} A by the standard calculation" in rows
    assert rows[f"Smallest conductors for {least:g} A"].endswith("by the optional calculation for one dwelling unit")


@pytest.mark.parametrize(("kind", "named"), [("attached garage", False), ("detached garage", True)])
def test_a_line_names_the_readings_that_this_home_asks_for(kind: str, named: bool) -> None:
    home = house([])
    home["dwelling units"][0]["areas"].append({"name": "garage", "kind": kind, "area": "480 ft2"})
    lines = [line for sheet in assessed(home).supplies[0].methods for line in sheet.lines]
    readings = {each for line in lines for each in line.interpretation}
    assert ("floor_area.detached_garage_area" in readings) == named


def wanting(setting: str, rating: str) -> Assessment:
    """A house with a charger of which one of three settings is wanted."""
    charger = {"name": "charger", "kind": "charger", "settings": ["16 A", "32 A", "48 A"], "setting": setting}
    return assessed(house([load("furnace", "electric furnace", "18 kW")], planned=[charger], rating=rating))


def test_the_wanted_setting_is_counted_where_it_fits() -> None:
    found = wanting("32 A", "100 A")
    (one,) = found.decision.settings
    assert (one.counted, one.wanted, one.largest_that_fits) == (32, 32, 48)
    assert [each.setting for each in one.settings] == [16, 32, 48]
    assert one.larger == []  # 48 A fits as it is
    (row,) = [row for row in figures(found, found.supplies[0], found.supplies[0].sizing).rows if row[0].startswith("Setting")]  # type: ignore[arg-type]
    assert row[1].startswith("32 A as wanted (48 A would fit too)")


def test_where_the_wanted_setting_does_not_fit_the_largest_below_it_is_counted() -> None:
    found = wanting("48 A", "80 A")
    (one,) = found.decision.settings
    fitting = [each.setting for each in one.settings if each.verdict == FITS]
    assert fitting
    assert 48 not in fitting
    assert one.counted == max(fitting)
    assert one.against_wanted() == " (48 A is wanted and does not fit)"
    next(each for each in one.settings if each.setting == one.wanted).verdict = OPEN
    assert one.against_wanted() == " (48 A is wanted and is open)", "what may fit is not refused"


def test_a_fixed_setting_of_a_planned_load_is_told_in_short() -> None:
    found = assessed(house([], planned=[load("charger", "charger", "setting 40 A")]))
    first, *more = [block.text for block in outcome_blocks(found) if isinstance(block, Paragraph)]
    assert any("With charger set to 40 A: fits" in text for text in (first, *more))
