"""What a sheet says would be otherwise: each is compared with a whole assessment of a home file in which it is so.

Settings, the load without what is planned, readings of the code, and facts that nobody stated: the assessment tries
these by changing its facts for a while; here the home file itself is changed, and everything is read anew.
"""

from __future__ import annotations

from typing import Any

import pytest
from assessments import (
    DEMOS,
    SETTLED,
    Tree,
    alone,
    answer,
    assessed,
    demo,
    demo_assessed,
    edition_of,
    every_load,
    home_of,
    house,
    load,
    load_named,
    rules_for_tree,
    settings_of,
    supply,
)
from examples import rules_of
from samples import first_of

from dwellcalc.decide.assess import assess
from dwellcalc.decide.choices import interpretations
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NotVerified, SupplyResult

ASSUMED = "assumed - "
WITH_SETTINGS = [name for name in DEMOS if any("settings" in each for each in every_load(demo(name)))]
FEW = ["small_gas_heated_house", "three_flats", "farm_house_with_shop"]  # of the demonstration homes, in the quick suite
SPREAD = "the home file says between which lines it is connected"  # not a fact of the house that a file could state


def supplies(name: str) -> list[tuple[int, SupplyResult]]:
    return list(enumerate(demo_assessed(name).supplies))


# --- settings


def with_setting(tree: Tree, name: str, setting: float, *, listed: bool) -> Tree:
    found = load_named(tree, name)
    if listed:
        found["settings"] = [f"{setting:g} A"]
    else:
        del found["settings"]
        found["rating"] = f"setting {setting:g} A"
    return tree


def as_counted(name: str) -> Tree:
    """A demonstration home with the settings fixed that its sheet counts."""
    tree = demo(name)
    for each in demo_assessed(name).decision.settings:
        with_setting(tree, each.load, each.counted, listed=True)
    return tree


@pytest.mark.slow
@pytest.mark.parametrize("name", first_of(WITH_SETTINGS, [name for name in FEW if name in WITH_SETTINGS]))
def test_a_setting_is_as_if_it_were_the_rating(name: str) -> None:
    found = demo_assessed(name)
    ids = [each.id for each in found.supplies]
    for settable in found.decision.settings:
        assert [each.setting for each in settable.settings] == sorted(each.setting for each in settable.settings)
        for each in settable.settings:
            listed = each.setting != 24  # one of them is written as the rating
            tree = with_setting(as_counted(name), settable.load, each.setting, listed=listed)
            for supply_at in each.supplies:
                other_found = alone(tree, at=ids.index(supply_at.supply))
                assert (supply_at.amperes, supply_at.verdict) == answer(other_found), each
            for by in each.methods:
                other_found = alone(tree, by.method, ids.index(by.supply))
                assert (by.amperes, by.verdict) == answer(other_found), each
            assert each.counted == (each.setting == settable.counted)


def test_settings_that_differ_in_the_verdict() -> None:
    """The pool without the charger is 9,000 VA; the charger adds to it in full up to 10 kVA, then 40 %; rating 60 A less."""
    planned = [{"name": "charger", "kind": "charger", "settings": ["40 A", "16 A", "48 A"]}]
    service = {"rating": "100 A", "conductors": {"size": "3 AWG", "material": "copper"}}
    tree = house([load("furnace", "electric furnace", "19.6 kW")], planned=planned, **service)
    whole = assessed(tree, "optional_dwelling")
    found = settings_of(whole, "charger")
    furnace = 0.65 * 19600
    wanted = [(setting, (10000 + 0.4 * (9000 + setting * 240 - 10000) + furnace) / 240) for setting in (16, 40, 48)]
    got = [(each.setting, each.supplies[0].amperes) for each in found.settings]
    assert got == [(setting, pytest.approx(amperes)) for setting, amperes in wanted]
    assert [each.verdict for each in found.settings] == [DOES_NOT_FIT if a >= 100.5 else FITS for _, a in wanted]
    fitting = max(setting for setting, amperes in wanted if amperes < 100.5)
    assert fitting < 48
    assert (found.largest_that_fits, found.counted) == (fitting, fitting)
    assert [each.setting for each in found.settings if each.counted] == [fitting]
    assert whole.supplies[0].verdict == FITS
    assert answer(whole.supplies[0])[0] == pytest.approx(dict(wanted)[fitting])
    short = next(each for each in found.settings if each.setting > fitting)
    assert short.limited_by == {"Service": "Rating of the main overcurrent device"}
    assert short.supplies[0].minimum_rating == 110


def test_the_setting_that_counts_is_put_back() -> None:
    """Listed with the largest first: after the smaller ones were tried, the facts are those of the largest."""
    planned = [{"name": "charger", "kind": "charger", "settings": ["48 A", "16 A"]}]
    tree = house([], planned=planned)
    home, rules = home_of(tree), rules_for_tree(tree)
    before = home.facts.digest()
    first, second = (assess(home, rules, date="2026-01-01") for _ in range(2))
    assert home.facts.digest() == before == first.facts_digest
    assert first.json() == second.json()
    assert answer(first.supplies[0]) == answer(supply(with_setting(tree, "charger", 48, listed=False)))


# --- without what is planned


def without_plan(tree: Tree) -> Tree:
    planned = {load["name"] for load in tree.pop("planned", [])}
    for feeder in tree.get("feeders", []):
        if "loads" in feeder["feeds"]:
            feeder["feeds"]["loads"] = [name for name in feeder["feeds"]["loads"] if name not in planned]
    left = [{**each, "loads": [name for name in each["loads"] if name not in planned]} for each in _never(tree)]
    tree["never together"] = [each for each in left if len(each["loads"]) > 1]
    return tree


def _never(tree: Tree) -> list[Tree]:
    return list(tree.get("never together", []))


@pytest.mark.slow
@pytest.mark.parametrize("name", first_of(DEMOS, DEMOS[::3]))
def test_before_is_the_home_without_what_is_planned(name: str) -> None:
    without = assessed(without_plan(demo(name))).supplies
    for at, found in supplies(name):
        planned = any(each.status == "planned" for each in found.loads)
        assert (found.before is not None) == planned
        if found.before is not None:
            assert (found.before.amperes, found.before.verdict) == (pytest.approx(answer(without[at])[0]), without[at].verdict)


def test_before_has_what_is_replaced() -> None:
    """The furnace counts before, 65 % of 20 kW; the heat pump after, 20 A in full: both verdicts by hand."""
    planned = [load("pump", "heat pump", "20 A at 240 V", replaces="furnace")]
    service = {"rating": "90 A", "conductors": {"size": "1 AWG", "material": "copper"}}
    found = supply(house([load("furnace", "electric furnace", "20 kW")], planned=planned, **service), "optional_dwelling")
    assert found.before is not None
    assert (found.before.amperes, found.before.verdict) == (pytest.approx((9000 + 0.65 * 20000) / 240), DOES_NOT_FIT)
    assert answer(found) == (pytest.approx((9000 + 20 * 240) / 240), FITS)


# --- readings of the code


def chosen_in(tree: Tree, address: str, option: str) -> Tree:
    return {**tree, "interpretations": {**tree.get("interpretations", {}), address: option}}


@pytest.mark.slow
@pytest.mark.parametrize("name", first_of(SETTLED, FEW))
def test_a_reading_is_as_if_the_home_file_chose_it(name: str) -> None:
    for at, found in supplies(name):
        for each in found.interpretations:
            for option in each.options:
                other = alone(chosen_in(as_counted(name), each.address, option.option), at=at)
                assert (option.amperes, option.verdict) == answer(other), (each.address, option.option)
                assert option.total == other.total
                mine = [one for one in other.interpretations if one.address == each.address]
                assert all(one.chosen_by == "the home file" for one in mine)
                assert [one.option for one in (mine or [each])[0].options if one.taken] == (
                    [option.option] if mine else [taken(each)]
                )
            assert each.flips == (len({option.verdict for option in each.options}) > 1)
            assert each.chosen_by == "default"


def taken(found: Any) -> str:
    return next(str(option.option) for option in found.options if option.taken)


@pytest.mark.slow
@pytest.mark.parametrize(
    "name", first_of(["small_gas_heated_house", "new_all_electric_house", "twelve_apartments"], ["small_gas_heated_house"])
)
def test_a_reading_that_is_not_listed_makes_no_difference_by_that_method(name: str) -> None:
    rules = rules_for_tree(demo(name))
    found = demo_assessed(name).supplies[0]
    assert found.basis is not None
    listed = {each.address for each in found.interpretations}
    others = [
        (address, option) for address, each in interpretations(rules).items() for option in each.options if address not in listed
    ]
    assert others
    for address, option in others:
        assert answer(alone(chosen_in(as_counted(name), address, option), found.basis.method)) == answer(found), (address, option)


@pytest.mark.slow
def test_other_readings_go_by_the_method_that_was_asked_for_and_by_what_the_home_chose() -> None:
    tree = {
        **demo("vacant_older_house"),
        "interpretations": {"voltage of amperes": "nameplate", "largest motor taken": "not added"},
    }
    found = supply(tree, "standard")
    assert found.basis is not None
    assert found.basis.method == "standard"
    by_name = {each.address.partition(".")[2]: each for each in found.interpretations}
    for short in ("voltage_of_amperes", "largest_motor_taken"):
        each = by_name[short]
        assert each.chosen_by == "the home file"
        assert len({option.amperes for option in each.options}) == 2
        for option in each.options:
            chosen = {**tree["interpretations"], short.replace("_", " "): option.option}
            other = alone({**tree, "interpretations": chosen}, "standard")
            assert (option.amperes, option.verdict) == answer(other)


@pytest.mark.slow
def test_a_short_name_of_a_reading_is_enough() -> None:
    chosen = supply(chosen_in(as_counted("new_all_electric_house"), "charging in optional", "apart at 125"))
    full = supply(chosen_in(as_counted("new_all_electric_house"), "listed_loads.charging_in_optional", "apart_at_125"))
    assert answer(chosen) == answer(full)
    assert answer(chosen)[0] == pytest.approx(answer(demo_assessed("new_all_electric_house").supplies[0])[0] + 0.85 * 40)


# --- facts that nobody stated


def fields_by_meaning(name: str) -> dict[str, str]:
    """The names of fields as a home file writes them, by their meaning."""
    glossary = rules_of(edition_of(demo(name))).glossary
    owners = [*glossary.objects.values(), *(each.fields for each in glossary.collections.values())]
    return {each.meaning or each.name: each.name.replace("_", " ") for fields in owners for each in fields.values()}


def words_of(name: str, field: str) -> list[str]:
    glossary = rules_of(edition_of(demo(name))).glossary
    declared = {**glossary.objects["supply"], **glossary.collections["loads"].fields}[field.replace(" ", "_")]
    return [glossary.shown(declared.kind, word) for word in glossary.words(declared.kind)]


def stated(name: str, at: int, item: str, field: str, word: str) -> Tree:
    """The home in which a fact of a load, or of a supply, is stated."""
    tree = as_counted(name)
    if item == "supply":
        (tree["service"] if at == 0 else tree["feeders"][at - 1])[field] = word
    else:
        load_named(tree, item)[field] = word
    return tree


def assumed(found: SupplyResult) -> list[tuple[NotVerified, str, str]]:
    """What was assumed: the entry, the meaning of its field, the word."""
    entries = [each for each in found.facts_not_verified if each.text.startswith(ASSUMED)]
    return [(each, *each.text.removeprefix(ASSUMED).rsplit(": ", 1)) for each in entries]


@pytest.mark.parametrize("name", first_of(SETTLED, FEW))
def test_a_fact_that_moves_the_result_is_as_if_it_were_stated(name: str) -> None:
    fields = fields_by_meaning(name)
    for at, found in supplies(name):
        for entry, meaning, _ in assumed(found):
            verdicts = dict(flip.partition(" against ")[0].split(": ") for flip in entry.flips)
            for word, amperes in entry.otherwise.items():
                (item,) = entry.items
                other = alone(stated(name, at, item, fields[meaning], word), at=at)
                assert answer(other) == (amperes, other.verdict), (item, meaning, word)
                assert verdicts.get(word, found.verdict) == other.verdict, (item, meaning, word)
                assert (word in verdicts) == (other.verdict != found.verdict)


@pytest.mark.slow
@pytest.mark.parametrize(
    "name",
    first_of(
        ["small_gas_heated_house", "farm_house_with_shop", "vacant_older_house", "twelve_apartments"],
        ["small_gas_heated_house", "farm_house_with_shop"],
    ),
)
def test_a_fact_that_is_said_to_move_nothing_moves_nothing(name: str) -> None:
    fields, tried = fields_by_meaning(name), 0
    found = demo_assessed(name).supplies[0]
    for entry, meaning, value in assumed(found):
        if meaning == SPREAD:
            continue
        words = [word for word in words_of(name, fields[meaning]) if word != value and word not in entry.otherwise]
        for word in words:
            for item in entry.items[:2]:
                tried += 1
                assert answer(alone(stated(name, 0, item, fields[meaning], word))) == answer(found), (item, meaning, word)
    assert tried > 5


def test_a_fact_that_turns_the_verdict() -> None:
    """4 AWG copper carries 85 A at 75 C, and the dwelling rule allows it for 100 A; at 60 C it carries 70 A, and neither holds."""
    loads = [load("water heater", "water heater", "4.5 kW"), load("range", "range", "11 kW"), load("dryer", "dryer", "5 kW")]
    tree = house(loads, rating="100 A", state="to be installed", conductors={"size": "4 AWG", "material": "copper"})
    found = supply(tree)
    optional = (10000 + 0.4 * (9000 + 4500 + 11000 + 5000 - 10000)) / 240
    standard = (3000 + 0.35 * 6000 + 4500 + 8000 + 5000) / 240  # column C: 8 kW; one fastened appliance
    assert answer(found) == (pytest.approx(optional), FITS)
    (entry,) = [each for each in found.facts_not_verified if "temperature marking" in each.text]
    assert entry.otherwise == {"60 C": pytest.approx(standard)}
    assert entry.flips == ["60 C: does not fit against 70 A"]
    assert found.facts_not_verified[0] is entry  # what turns the verdict stands first
    tree["service"]["terminals"] = "75 C"
    assert not [each for each in supply(tree).facts_not_verified if "temperature marking" in each.text]


@pytest.mark.slow
def test_what_moves_the_result_most_stands_first() -> None:
    for name in DEMOS:
        for _, found in supplies(name):
            amperes = answer(found)[0]
            if amperes is None:
                continue
            moves = [
                (bool(e.flips), max((abs(v - amperes) for v in e.otherwise.values() if v), default=0))
                for e in found.facts_not_verified
            ]
            assert moves == sorted(moves, reverse=True)


# --- nothing is left behind


@pytest.mark.slow
@pytest.mark.parametrize("name", first_of(DEMOS, [*FEW, "house_half_read"]))
def test_an_assessment_leaves_the_facts_as_they_were(name: str) -> None:
    home, rules = home_of(as_counted(name)), rules_for_tree(demo(name))
    before = [supply.facts.digest() for supply in home.supplies]
    first = assess(home, rules, date="2026-01-01").json()
    assert [supply.facts.digest() for supply in home.supplies] == before
    assert assess(home, rules, date="2026-01-01").json() == first
    assert (first["facts_digest"] == before[0]) is (home.meter is None)  # with the figures of a record there is more


@pytest.mark.parametrize(
    ("evidence", "told"),
    [
        ({}, "stated without evidence"),
        ({"evidence": "nameplate"}, "stated without evidence"),  # no nameplate shows it
        ({"evidence": "manual"}, ""),  # which tells it
        ({"evidence": "told"}, "told"),
        ({"evidence": {"rating": "nameplate"}}, "stated without evidence"),
        ({"evidence": {"rating": "nameplate", "stops for supplemental heat": "told"}}, "told"),
        ({"evidence": {"stops for supplemental heat": "manual"}}, ""),
    ],
)
def test_a_lockout_that_is_stated_needs_evidence_of_its_own(evidence: Tree, told: str) -> None:
    pump = {"name": "heat pump", "kind": "heat pump", "rating": "20 A at 240 V", "stops for supplemental heat": "yes", **evidence}
    strips = {"name": "strips", "kind": "supplemental heat", "rating": "10 kW", "evidence": "nameplate"}
    found = supply(house([pump, strips]))
    entries = [each for each in found.facts_not_verified if "lockout" in each.text]
    assert [each.text.partition(" - ")[0] for each in entries] == ([told] if told else [])


def test_evidence_decides_what_is_not_verified() -> None:
    told = {
        "nameplate": None,
        "told": "rating told, not seen",
        "not seen": "nameplate not seen",
        "assumed": "that it is there is assumed, and its rating, for nobody has said so",
        "": "no evidence stated for the rating",
    }
    for evidence, wanted in told.items():
        said = {"evidence": evidence} if evidence else {}
        found = supply(house([load("sauna", "sauna", "6 kW", **said)]))
        texts = [each.text for each in found.facts_not_verified if each.items == ["sauna"] and not each.text.startswith(ASSUMED)]
        assert texts == ([wanted] if wanted else [])
    unknown = supply(house([load("dryer", "dryer", "unknown")]))
    assert "rating not known" in [each.text for each in unknown.facts_not_verified if each.items == ["dryer"]]
    assert unknown.verdict == FITS


def test_plain_facts_that_were_told_or_assumed_are_listed() -> None:
    tree = house([load("sauna", "sauna", "6 kW", evidence="nameplate")])
    (unit,) = tree["dwelling units"]
    unit["areas"][0]["evidence"] = "told"
    unit["evidence"] = {"laundry circuits": "assumed"}
    tree["service"]["evidence"] = {"system": "assumed", "rating": "nameplate"}
    tree["none of"] = ["pool pump", {"kind": "attached garage", "evidence": "assumed"}, {"kind": "sources", "evidence": "told"}]
    found = assess(home_of(tree), rules_for_tree(tree), date="2026-01-01")
    texts = {each.text: each.items for each in found.supplies[0].facts_not_verified}
    area = unit["areas"][0]
    shown = next(
        text
        for text in texts
        if text.startswith("outside dimensions: ") and text.endswith(" ft2, told, neither seen nor measured")
    )
    assert texts[shown] == [area.get("name", "area 1")]
    assert "20 A laundry branch circuits: 1, assumed, for nobody has said or seen it" in texts
    assert any(text.startswith("supply system: ") and text.endswith("assumed, for nobody has said or seen it") for text in texts)
    assert not any("main overcurrent device" in text for text in texts)
    assert texts["assumed not to be there, for nobody has said so"] == ["attached garage"]
    (source,) = texts["told not to be there, and not looked for"]
    assert found.absent == ["pool pump", source]


def test_a_gas_appliance_that_goes_is_told_and_takes_no_load_off() -> None:
    tree = house([load("sauna", "sauna", "6 kW", evidence="nameplate")])
    tree["planned"] = [load("new range", "range", "12 kW", evidence="manual", replaces="gas range")]
    with_gas = assess(home_of(tree), rules_for_tree(tree), date="2026-01-01")
    del tree["planned"][0]["replaces"]
    without = assess(home_of(tree), rules_for_tree(tree), date="2026-01-01")
    (new,) = [each for each in with_gas.supplies[0].loads if each.name == "new range"]
    assert new.replaces == ["gas range (no electrical load, so that none is taken off)"]
    assert "gas range: taken out, new range in its place" in with_gas.field_page
    assert with_gas.supplies[0].sizing.amperes == without.supplies[0].sizing.amperes
