"""Local amendments: what each of the package's changes, hand-worked; which version a date chooses; files of one's own.

The sources of the amendments' values are named in each file and in rules/sources.yaml. The house of these tests, by the optional
calculation of 2023: general loads 3 VA x 1,500 ft2 + 3 x 1,500 VA + range 11,000 VA + dryer 5,000 VA = 25,000 VA; 10,000 VA +
40 % of 15,000 VA = 16,000 VA; heat pump 20 A x 240 V = 4,800 VA; together 20,800 VA, 86.67 A.
By the standard calculation: 3,000 VA + 35 % of 6,000 VA = 5,100 VA; range 8,000 VA; dryer 5,000 VA; heat pump 4,800 VA and 25 % of
it; together 24,100 VA, 100.42 A.
"""

from __future__ import annotations

import copy
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from assessments import Tree, assessed, demo_assessed, home_of, house, load, written
from commands import Run
from examples import rules_of
from test_decision import random_tree

from dwellcalc.decide.amendments import amended, amended_for
from dwellcalc.decide.assess import assess
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN, Assessment, SupplyResult
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.evaluate.check import check_amended, check_folder
from dwellcalc.evaluate.concerned import may_miscount
from dwellcalc.language.amendments import amendments_in
from dwellcalc.language.reach import addresses
from dwellcalc.language.rule_set import every_amendment, installed_folder, load_rules
from dwellcalc.problems import InputError
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import as_markdown, as_text
from dwellcalc.review.sheets.recompute import recompute_document

ALONE, STANDARD_ALONE = 20_800 / 240, 24_100 / 240
TEMPLATE = installed_folder() / "amendments" / "template.yaml"
CARPORT = {"name": "carport", "kind": "carport", "area": "400 ft2"}  # no floor area by any edition


def home(*amendments: str, planned: list[Tree] | None = None, place: bool = True, date: str = "2026-02-01", **more: Any) -> Tree:
    """The house under amendments, new, with a carport where a place for vehicles is wanted."""
    loads = [load("range", "range", "11 kW"), load("heat pump", "heat pump", "20 A at 240 V"), load("dryer", "dryer", "5 kW")]
    service = {key: more.pop(key) for key in ("rating", "bus", "state") if key in more}
    tree = house(loads, planned=planned, **service)
    tree |= {"work": "new", "amendments": list(amendments), "dates": {"application": date, "issuance": date}, **more}
    tree["dwelling units"][0]["areas"] += [CARPORT] if place else []
    return tree


def charger(rating: str) -> list[Tree]:
    return [load("charger", "EV charging equipment", rating)]


def amperes(found: SupplyResult, method: str) -> float:
    value = next(each.amperes for each in found.results if each.id == method)
    assert value is not None
    return value


def both(tree: Tree) -> tuple[float, float]:
    """The load by the optional and by the standard calculation [A]."""
    found = assessed(tree).supplies[0]
    return amperes(found, "optional_dwelling"), amperes(found, "standard")


def said(tree: Tree, title: str) -> str:
    """What the first lines say under a title."""
    found = assessed(tree).supplies[0]
    return next((each.printed for beside in found.beside for each in beside.answers if each.title == title), "")


def refusal(act: Callable[[], object]) -> InputError:
    with pytest.raises(InputError) as caught:
        act()
    return caught.value


# --- what each amendment changes


def test_the_house_alone() -> None:
    assert both(home()) == pytest.approx((ALONE, STANDARD_ALONE))


@pytest.mark.slow
def test_denver_a_circuit_where_there_is_a_garage() -> None:
    """40 A x 240 V = 9,600 VA among the general loads, 40 % of it: 3,840 VA; in full in the standard calculation."""
    assert both(home("denver")) == pytest.approx(((20_800 + 3_840) / 240, (24_100 + 9_600) / 240))
    assert both(home("denver", place=False)) == pytest.approx((ALONE, STANDARD_ALONE))
    assert both(home("denver", work="existing")) == pytest.approx((ALONE, STANDARD_ALONE))
    assert said(home("denver"), "Breaker spaces to be kept free by local law") == "2"
    assert said(home("denver", planned=charger("setting 24 A")), "Breaker spaces to be kept free by local law") == ""


@pytest.mark.slow
@pytest.mark.parametrize("setting", [6, 16, 30, 32, 39, 40])
def test_what_is_required_and_what_is_planned_count_once(setting: int) -> None:
    """The required circuit is what is missing to 40 A; in the standard calculation equipment counts 7,200 VA at least."""
    assert both(home("denver", planned=charger(f"setting {setting} A"))) == pytest.approx(both(home("denver")))


def test_equipment_above_what_is_required_counts_alone() -> None:
    """48 A x 240 V = 11,520 VA: 40 % of it 4,608 VA; nothing is missing to 40 A."""
    tree = home("denver", planned=charger("48 A at 240 V"))
    assert both(tree) == pytest.approx(((20_800 + 4_608) / 240, (24_100 + 11_520) / 240))
    assert both(tree) == pytest.approx(both(home(planned=charger("48 A at 240 V"))))


def test_each_dwelling_unit_has_a_circuit_of_its_own() -> None:
    """Two units with a carport each; the charger of one of them, 96 A, is nothing to the other's circuit."""
    tree = home("denver")
    unit = tree["dwelling units"][0]
    other = {**copy.deepcopy(unit), "name": "second", "loads": [load("big charger", "EV charging equipment", "96 A at 240 V")]}
    plain = {**tree, "amendments": [], "dwelling units": [unit, other]}
    with_them = {**plain, "amendments": ["denver"]}
    more = amperes(assessed(with_them).supplies[0], "standard") - amperes(assessed(plain).supplies[0], "standard")
    assert more == pytest.approx(9_600 / 240)


@pytest.mark.parametrize(("reading", "counted"), [("at rating", 9_600), ("continuous only", 7_680), ("not counted", 0)])
def test_a_circuit_without_equipment_is_read_in_three_ways(reading: str, counted: int) -> None:
    tree = home("denver", interpretations={"charging_circuit_counted": reading})
    assert both(tree) == pytest.approx(((20_800 + 0.4 * counted) / 240, (24_100 + counted) / 240))


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "counted"),
    [("fl/south", 11_520), ("ca/northern", 1.25 * 11_520), ("los angeles", 1.25 * 11_520)],
)
def test_readings_of_authorities_count_equipment_outside_the_general_loads(name: str, counted: float) -> None:
    """48 A x 240 V = 11,520 VA in full, or 125 % of it; the standard calculation is as it was."""
    tree = home(name, planned=charger("48 A at 240 V"))
    assert both(tree) == pytest.approx(((20_800 + counted) / 240, (24_100 + 11_520) / 240))


@pytest.mark.slow
def test_a_required_circuit_follows_the_reading() -> None:
    """9,600 VA at 125 % outside the general loads: 12,000 VA."""
    assert both(home("denver", "ca/northern"))[0] == pytest.approx((20_800 + 12_000) / 240)
    tree = home("denver", "ca/northern", planned=charger("setting 16 A"))
    assert both(tree)[0] == pytest.approx((20_800 + 12_000) / 240)


@pytest.mark.slow
@pytest.mark.parametrize(("bus", "verdict"), [("224 A", False), ("225 A", True), ("400 A", True)])
def test_california_the_smallest_bus_of_a_house(bus: str, verdict: bool) -> None:
    found = assessed(home("us/ca/one_family", bus=bus)).supplies[0]
    assert any("below the smallest one that local law asks for" in text for text in found.shortcomings) is not verdict
    assert found.without_amendments is not None
    assert (bool(found.without_amendments.asked), found.without_amendments.turns) == (not verdict, [])
    assert found.verdict == FITS


def test_california_a_bus_that_nobody_has_seen() -> None:
    assert said(home("us/ca/one_family"), "The bus suffices for local law") == ""
    assert said(home("us/ca/one_family"), "Smallest bus that local law asks for") == "225 A"
    assert said(home("us/ca/one_family", work="existing", bus="100 A"), "Smallest bus that local law asks for") == ""


@pytest.mark.parametrize(("spaces", "suffice"), [(7, "no"), (8, "yes")])
def test_california_spaces_are_kept_free(spaces: int, suffice: str) -> None:
    """Range, dryer and heat pump take 6; a water heater to come, 2 more."""
    circuits = [{"breaker": "40 A", "poles": "2", "load": name} for name in ("range", "dryer", "heat pump")]
    tree = home("us/ca/one_family", bus="225 A", panels=[{"name": "panel", "spaces": str(spaces), "circuits": circuits}])
    assert said(tree, "Breaker spaces to be kept free by local law") == "2"
    assert said(tree, "The breaker spaces suffice for local law") == suffice
    tree["dwelling units"][0]["loads"].append(load("tank", "water heater", "4.5 kW"))
    assert said(tree, "Breaker spaces to be kept free by local law") == ""


def apartments(*amendments: str, units: int = 4, **more: Any) -> Tree:
    """Apartments served by gas: 3 VA x 800 ft2 + 2 x 1,500 VA = 5,400 VA each."""
    unit = {
        "name": "apartments",
        "quantity": str(units),
        "areas": [{"name": "rooms", "kind": "living", "area": "800 ft2"}],
        "small appliance circuits": "2",
        "laundry circuits": "0",
        "loads": [],
    }
    service = {"system": "120/240 V single-phase 3-wire", "rating": "800 A"}
    tree: Tree = {"home": "4 Tern Court", "work": "new", "code": "nec/2023", "service": service, "dwelling units": [unit]}
    dates = {"application": "2026-02-01", "issuance": "2026-02-01"}
    return {**tree, "amendments": list(amendments), "dates": dates, **more}


def of_apartments(units: int) -> float:
    """The lighting and circuits of apartments after the demand factor [VA], to 120 kVA."""
    return 3_000 + 0.35 * (units * 5_400 - 3_000)


def required(tree: Tree) -> float:
    sizing = assessed(tree).supplies[0].sizing
    assert sizing is not None
    assert sizing.amperes is not None
    return sizing.amperes


@pytest.mark.slow
def test_california_apartments_carry_each_appliance_to_come_in_full() -> None:
    """(30 A + 50 A + 30 A) x 4 units = 440 A beside 9,510 VA / 240 V = 39.625 A."""
    assert required(apartments()) == pytest.approx(of_apartments(4) / 240)
    assert required(apartments("us/ca/multifamily")) == pytest.approx(440 + 39.625)
    tree = apartments("us/ca/multifamily")
    tree["dwelling units"][0]["loads"] = [load("stove", "range", "11 kW")]
    assert required(tree) - required({**tree, "amendments": []}) == pytest.approx(240)  # 60 A each are left
    assert required(apartments("us/ca/multifamily", work="existing")) == pytest.approx(of_apartments(4) / 240)


@pytest.mark.slow
def test_menlo_park_when_a_panel_is_replaced() -> None:
    """30 A for a water heater; 2 spaces for it, 2 for charging, 2 for solar: range and dryer are there."""
    replaced = home("menlo park", work="existing", state="to be installed")
    assert required(replaced) == pytest.approx(ALONE + 30)
    assert said(replaced, "Breaker spaces to be kept free by local law") == "6"
    # the panel that stays, by the calculation for existing dwellings: 25,000 VA and the heat pump's 4,800 in one sum
    assert required(home("menlo park", work="existing")) == pytest.approx((8_000 + 0.4 * (29_800 - 8_000)) / 240)
    assert required(home("menlo park", state="to be installed")) == pytest.approx(ALONE)  # a new house is another rule's


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "units", "parking", "circuits"),
    [
        ("us/co", 8, 10, 2),  # 20 %
        ("us/co", 8, 11, 3),
        ("us/co", 2, 10, 0),
        ("us/or", 5, 10, 2),
        ("us/or", 4, 10, 0),  # from 5 dwelling units on
        ("us/wa", 6, 6, 2),  # 20 % of 6 is 1.2
        ("us/wa", 6, 1, 1),
        ("us/il/vehicle_charging_large", 6, 7, 7),
        ("us/il/vehicle_charging_large", 4, 7, 0),
    ],
)
def test_a_share_of_parking_spaces_rounded_up(name: str, units: int, parking: int, circuits: int) -> None:
    """Circuits of 40 A x 240 V = 9,600 VA in full."""
    tree = apartments(name, units=units, **{"parking spaces": str(parking)})
    assert required(tree) == pytest.approx((of_apartments(units) + circuits * 9_600) / 240)


def test_chargers_of_the_house_take_the_place_of_required_ones() -> None:
    """4 circuits, 38,400 VA, less two chargers of 32 A, 15,360 VA."""
    chargers = [load("chargers", "EV charging equipment", "32 A at 240 V", quantity="2")]
    tree = apartments("us/co", units=8, loads=chargers, **{"parking spaces": "20"})
    assert required(tree) == pytest.approx((of_apartments(8) + 38_400) / 240)


def test_parking_that_nobody_stated_leaves_it_open() -> None:
    found = assessed(apartments("us/co", units=8)).supplies[0]
    assert found.verdict == OPEN
    assert any("parking spaces" in text for text in found.unknowns)
    assert assessed(apartments(units=8)).supplies[0].verdict == FITS


@pytest.mark.slow
def test_a_feeder_to_a_part_has_no_circuit_but_with_its_garage() -> None:
    """A feeder of the range alone has nothing more; with the carport among what it feeds, 9,600 VA."""
    feeds: dict[str, Any] = {"loads": ["range"]}
    feeder = {"name": "kitchen", "rating": "100 A", "feeds": feeds}
    tree = home("us/il/vehicle_charging_small", feeders=[feeder])
    alone = amperes(assessed(tree).supplies[1], "standard")
    assert alone == pytest.approx(amperes(assessed({**tree, "amendments": []}).supplies[1], "standard"))
    feeds["areas"] = ["carport"]
    assert amperes(assessed(tree).supplies[1], "standard") == pytest.approx(alone + 9_600 / 240)


def test_illinois_small_buildings_without_a_garage_too() -> None:
    assert both(home("us/il/vehicle_charging_small", place=False))[0] == pytest.approx((20_800 + 3_840) / 240)


def test_what_is_not_said_of_the_work_is_asked_for() -> None:
    tree = home("denver")
    del tree["work"]
    found = assessed(tree).supplies[0]
    assert found.verdict == OPEN
    assert any("work" in text for text in found.unknowns)
    assert both({**home(), "work": "existing"}) == pytest.approx((ALONE, STANDARD_ALONE))


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(40, 46))
def test_what_is_required_never_lowers_what_a_supply_must_carry(seed: int) -> None:
    """Random homes, at the same settings; each line recomputes from what it prints."""
    tree = random_tree(seed) | {
        "work": "new",
        "amendments": ["us/il/vehicle_charging_small"],
        "dates": {"issuance": "2026-02-01"},
    }
    found = assessed(tree)
    for each in found.supplies:
        without = each.without_amendments
        assert each.sizing is not None
        assert each.sizing.amperes is not None
        assert without is not None
        assert without.amperes is not None
        assert each.sizing.amperes >= without.amperes - 1e-9
    assert recompute_document(json.loads(json.dumps(found.json())), tolerance=1e-9) == []


def test_every_method_counts_what_is_required() -> None:
    """A method that forgets the hook would be the least, and wrong."""
    for edition in ("nec/2020", "nec/2023"):
        rules = rules_of(edition)
        names = {*read_instructions(rules).methods, "metered"}
        for name in names:
            reached = {*addresses([rules.methods[name].results["amperes"]])}
            assert "local_provisions.charging_circuit" in reached, name


@pytest.mark.slow
def test_every_amendment_is_tried_here_and_has_its_source() -> None:
    found, sources = every_amendment()
    assert len(found) >= 6
    for each in found:
        assert set(each.source.split()) <= set(sources)
        assert each.not_expressed, f"{each.id} does not say what it leaves out"
        for edition in each.amends:
            assert load_rules(edition, None, [each.path]).digest != rules_of(edition).digest


def test_a_metered_maximum_is_compared_with_what_is_required() -> None:
    """80 A, 85.7 A by the calculation for existing dwellings: by the record, (80 - 40) / 1.25 = 32 A may be its maximum."""
    tree = home("denver", rating="80 A", work="new", state="existing", occupied="yes")
    found = assessed(tree)
    assert found.supplies[0].verdict == DOES_NOT_FIT
    alternative = next(each for each in found.decision.alternatives if "record" in each.what)
    assert "32 A" in alternative.what


# --- dates, versions, names


def version(*names: str, **dates: str) -> list[str]:
    rules = rules_of("nec/2023")
    return [each.id.rpartition("/")[2] for each in amended(rules, names, dates).amendments]


@pytest.mark.parametrize(
    ("day", "expected"),
    [("2023-05-01", "2022"), ("2025-12-31", "2022"), ("2026-01-01", "2025"), ("2031-07-01", "2025")],
)
def test_the_date_chooses_the_version(day: str, expected: str) -> None:
    assert version("denver", application=day) == [expected]


@pytest.mark.slow
def test_the_versions_differ() -> None:
    """Parking without a cover: asked by the text before 2026, not by the one after it."""
    by_date = {day: home("denver", place=False, date=day, **{"parking spaces": "1"}) for day in ("2024-09-01", "2026-03-01")}
    assert both(by_date["2024-09-01"])[0] == pytest.approx((20_800 + 3_840) / 240)
    assert both(by_date["2026-03-01"])[0] == pytest.approx(ALONE)


@pytest.mark.slow
@pytest.mark.parametrize(
    "name", ["denver", "Denver", "co/denver", "us/co/denver", "denver/vehicle_charging", "us/co/denver/vehicle_charging"]
)
def test_a_name_may_be_short(name: str) -> None:
    assert version(name, application="2026-02-01") == ["2025"]
    assert version("us/co/denver/vehicle_charging/2022", application="2024-02-01") == ["2022"]


def test_a_date_before_all_versions_is_told_with_what_is_in_force_when() -> None:
    error = str(refusal(lambda: version("denver", application="2020-01-01")))
    assert "is not in force on 2020-01-01" in error
    assert "2022 from 2023-05-01 until 2025-12-31" in error


def test_the_date_that_decides_is_asked_for_where_the_name_stands(run: Run, tmp_path: Path) -> None:
    tree = home("us/il/vehicle_charging_small")
    tree["dates"] = {"application": "2026-02-01"}
    path = written(tmp_path / "home.yaml", tree)
    code, out, err = run("assess", path)
    assert (code, out) == (2, "")
    line = next(at for at, text in enumerate(Path(path).read_text().split("\n"), 1) if "vehicle_charging_small" in text)
    assert err.startswith(f"{path}:{line}:")
    assert "decided by the date of issuance, which is missing" in err
    assert "write `dates: {issuance: year-month-day}`" in err


def test_no_date_is_asked_where_none_is_known() -> None:
    tree = home("los angeles")
    del tree["dates"]
    assert assessed(tree).rule_set["amendments"][0]["date"] == ""


def test_an_amendment_for_another_edition() -> None:
    error = str(refusal(lambda: amended(rules_of("nec/2020"), ["us/ca/one_family"], {"application": "2026-02-01"})))
    assert "it exists for nec/2023" in error


# --- the command


@pytest.mark.slow
def test_the_command_replaces_the_amendments_of_the_home(run: Run, tmp_path: Path) -> None:
    path = written(tmp_path / "home.yaml", home("denver"))
    ways = {
        (): 20_800 + 3_840,
        ("--amendment", "none"): 20_800,
        ("--amendment", "us/co/denver", "--amendment", "ca/northern"): 20_800 + 1.25 * 9_600,
    }
    for arguments, volt_amperes in ways.items():
        _, out, err = run("assess", path, "--format", "json", *arguments)
        assert not err
        assert json.loads(out)["supplies"][0]["sizing"]["amperes"] == pytest.approx(volt_amperes / 240)
    assert run("assess", path, "--amendment", "nowhere")[0] == 2


@pytest.mark.slow
def test_explain_names_the_amendment(run: Run, tmp_path: Path) -> None:
    path = written(tmp_path / "home.yaml", home("denver"))
    code, out, _ = run("explain", path, "optional_dwelling.charging_wanted")
    assert code == 0
    assert "Changed by an amendment: Denver Residential Energy Code, vehicle charging" in out
    assert "Changed by an amendment" not in run("explain", path, "optional_dwelling.lighting")[1]


def test_the_list_of_amendments(run: Run) -> None:
    code, out, err = run("rules", "amendments", "--format", "markdown")
    assert (code, err) == (0, "")
    for name in amendments_in(installed_folder()):
        assert name in out
    assert "from 2023-05-01 until 2025-12-31 (memory)" in out
    assert "template" not in out


@pytest.mark.slow
def test_an_edition_is_shown_as_amended(run: Run) -> None:
    code, out, _ = run("rules", "show", "nec/2023", "--amendment", "us/co/denver/vehicle_charging/2025", "--format", "markdown")
    assert code == 0
    assert "Denver Residential Energy Code 2025" in out
    assert run("rules", "show", "nec/2023", "--amendment", "denver")[0] == 2  # which of the versions?


# --- the sheet and the document


def sheet(found: Assessment) -> str:
    return as_text(sheet_pages(found, full=False), 150)


def test_the_sheet_says_what_was_taken_into_account() -> None:
    text = sheet(assessed(home("denver")))
    head = text[text.index("The home and the rules") :]
    for words in ("(Denver, Colorado; law)", "In force: from 2026-01-01 (memory)", "date of application, 2026-02-01", "Source: "):
        assert words in " ".join(head.split())
    table = as_markdown(sheet_pages(assessed(home("denver")), full=False))
    rows = [row for row in table.split("\n") if "EV charging circuit that local law asks for, 40 A" in row]
    assert "| local law; Denver Residential Energy Code, vehicle charging " in rows[0]
    assert "Without the local amendments" in text
    assert "none taken into account" not in text


def test_a_sheet_without_amendments_says_nothing_of_them() -> None:
    text = sheet(assessed(home()))
    assert "none taken into account" in text
    for words in ("local law", "Without the local amendments", "charging circuit"):
        assert words not in text.replace("its local amendments", "")


def test_a_verdict_that_turns_on_an_amendment() -> None:
    """90 A: 86.67 A fit, 102.67 A do not."""
    found = assessed(home("denver", rating="100 A", state="to be installed"))
    assert found.supplies[0].verdict == DOES_NOT_FIT
    without = found.supplies[0].without_amendments
    assert without is not None
    assert (without.amperes, without.verdict, without.turns) == (pytest.approx(ALONE), FITS, ["verdict"])
    assert "The verdict turns on the local amendments: without them 86.67 A, fits." in sheet(found)
    other = assessed(home("denver")).supplies[0].without_amendments
    assert other is not None
    assert not other.turns


def test_the_document_recomputes_and_names_the_amendments() -> None:
    document = json.loads(json.dumps(assessed(home("denver", "ca/northern", planned=charger("setting 16 A"))).json()))
    assert recompute_document(document, tolerance=0) == []
    names = [each["name"] for each in document["rule_set"]["amendments"]]
    assert names == ["us/co/denver/vehicle_charging/2025", "us/ca/northern/charging_reading/undated"]
    assert "text" not in document["rule_set"]["amendments"][0]


def test_the_demonstration_home() -> None:
    """3 VA x 2,420 ft2 + 4,500 + dishwasher 1,200 + disposer 9.8 A x 120 V + range 9,000 + dryer 5,600 = 28,736 VA, and the
    circuit of 9,600 VA: 10,000 + 40 % of 28,336 = 21,334.4 VA; air conditioner 5,760 and blower 720: 27,814.4 VA."""
    found = demo_assessed("denver_house_with_garage")
    supply = found.supplies[0]
    assert found.rule_set["amendments"][0]["name"] == "us/co/denver/vehicle_charging/2022"
    assert amperes(supply, "optional_dwelling") == pytest.approx(27_814.4 / 240)
    assert supply.verdict == DOES_NOT_FIT
    assert supply.without_amendments is not None
    assert supply.without_amendments.amperes == pytest.approx((27_814.4 - 3_840) / 240)
    assert (supply.without_amendments.verdict, supply.without_amendments.turns) == (FITS, ["verdict"])


# --- files of one's own


def own(folder: Path, text: str = "", name: str = "our_city.yaml") -> str:
    (folder / name).write_text(text or TEMPLATE.read_text(encoding="utf-8"), encoding="utf-8")
    return f"./{name}"


def of_file(folder: Path, tree: Tree) -> Assessment:
    found = home_of(tree)
    return assess(found, amended_for(found, rules_of("nec/2023"), beside=folder), date="2026-05-01")


@pytest.mark.slow
def test_the_template_is_in_force_nowhere_and_loads_when_copied(tmp_path: Path) -> None:
    assert TEMPLATE.is_file()
    assert "template" not in "".join(amendments_in(installed_folder()))
    found = of_file(tmp_path, home(own(tmp_path), bus="125 A"))
    assert amperes(found.supplies[0], "optional_dwelling") == pytest.approx((20_800 + 3_840) / 240)
    assert any("below the smallest one" in text for text in found.supplies[0].shortcomings)
    entry = found.json()["rule_set"]["amendments"][0]
    assert entry["text"] == TEMPLATE.read_text(encoding="utf-8")
    assert entry["sources"] == ["Ordinance 14, section 3, Our City, 2025"]
    for edition in ("nec/2020", "nec/2023"):
        assert check_amended(edition, None, [TEMPLATE], proved=True) == []


@pytest.mark.slow
def test_a_city_is_added_without_python(tmp_path: Path, run: Run) -> None:
    """A rule that no amendment of the package has: 50 % of the rest of the general loads, and a line of the city's own."""
    rules = tmp_path / "rules"
    shutil.copytree(installed_folder(), rules)
    text = TEMPLATE.read_text(encoding="utf-8")
    text = (
        text[: text.index("sets:\n")]
        + """sets:
  - title: Half of the rest, and 1000 VA for the fire pump fund
    changes:
      - {change: optional_dwelling.general_demand.tiers, was: 40 % of the rest, now: 50 % of the rest, cite: s. 1, status: law}
      - add: citations.city_pump
        now: {section: "Ordinance 14, s. 2", confidence: text seen}
      - add: optional_dwelling.pump_fund
        now: {value: 1000 VA, cite: city_pump, source: our_ordinance, confidence: text seen}
      - add: optional_dwelling.pump
        before: total
        now:
          title: The city's pump, {pump_fund}
          cite: city_pump
          value: pump_fund
      - {add: optional_dwelling.total.sum_of, now: pump, cite: "Ordinance 14, s. 2", status: law}
"""
    )
    place = rules / "amendments" / "us" / "xx" / "our_city" / "loads" / "2025.yaml"
    place.parent.mkdir(parents=True)
    place.write_text(
        text.replace("{pump_fund}\n", '{pump_fund}"\n').replace("title: The city", 'title: "The city'), encoding="utf-8"
    )
    tree = home("our city")
    found = home_of(tree)
    made = amended_for(found, load_rules("nec/2023", rules), folder=rules)
    assert check_amended("nec/2023", rules, [place], proved=True) == []
    result = assess(found, made, date="2026-05-01")
    # 10,000 + 50 % of 15,000 + 4,800 + 1,000 = 23,300 VA
    assert amperes(result.supplies[0], "optional_dwelling") == pytest.approx(23_300 / 240)
    lines = {line.id: line for sheet in result.supplies[0].methods for line in sheet.lines}
    assert lines["optional_dwelling.general_demand"].amended == ["s. 1"]
    assert lines["optional_dwelling.total"].amended == ["Ordinance 14, s. 2"]
    assert not lines["standard.total"].amended
    assert "us/xx/our_city/loads/2025" in run("rules", "amendments", "--rules", str(rules))[1]


def changed_template(was: str, now: str) -> str:
    text = TEMPLATE.read_text(encoding="utf-8")
    assert text.count(was) == 1
    return text.replace(was, now)


def test_a_base_that_has_drifted_says_what_it_holds(tmp_path: Path) -> None:
    name = own(tmp_path, changed_template("        was: 0 A\n", "        was: 32 A\n"))
    error = refusal(lambda: of_file(tmp_path, home(name)))
    assert [problem.message.key for problem in error.problems] == ["drifted"]
    assert f"{tmp_path}/our_city.yaml:" in str(error)
    assert "was: 32 A" in str(error)
    assert "the base holds: 0 A" in str(error)


def test_two_amendments_of_one_piece_are_told_with_both_places(tmp_path: Path) -> None:
    name = own(tmp_path, changed_template("        now: 40 A\n", "        now: 50 A\n"))
    error = str(refusal(lambda: of_file(tmp_path, home("denver", name))))
    assert f"{tmp_path}/our_city.yaml:" in error
    assert 'changed before by "Denver Residential Energy Code 2025' in error
    assert "rules/amendments/us/co/denver/vehicle_charging/2025.yaml:" in error
    assert "the base holds: 40 A" in error


@pytest.mark.slow
def test_two_amendments_may_agree() -> None:
    """Denver asks it where there is a garage, the other of every unit; both ask 40 A, which counts once."""
    assert both(home("denver", "us/il/vehicle_charging_small", place=False))[0] == pytest.approx((20_800 + 3_840) / 240)
    document = assessed(home("us/ca", bus="225 A"))  # of a house and of apartments: both keep two spaces for a water heater
    assert [each["name"] for each in document.rule_set["amendments"]] == ["us/ca/multifamily/2025", "us/ca/one_family/2025"]
    assert required(apartments("us/ca")) == pytest.approx(440 + 39.625)


@pytest.mark.slow
def test_a_file_of_ones_own_is_proved(tmp_path: Path) -> None:
    """A group that can hold nothing: the package's own proofs would find it, and so does an assessment."""
    text = changed_template(
        "# What else is often changed",
        "  - title: Nothing\n    changes:\n      - {change: load_control.can_be_set.where, was: kind is ev_charging_equipment, now: kind is range and kind is clothes_dryer}\n# What else",
    )
    error = refusal(lambda: of_file(tmp_path, home(own(tmp_path, text))))
    assert "group_empty" in [problem.message.key for problem in error.problems]


def test_loads_that_a_file_of_ones_own_drops_are_found(tmp_path: Path) -> None:
    text = changed_template(
        "# What else is often changed",
        "  - title: Dropped\n    changes:\n      - {remove: optional_dwelling.general.sum_of, was: dryers_connected}\n# What else",
    )
    error = refusal(lambda: of_file(tmp_path, home(own(tmp_path, text))))
    assert {problem.message.key for problem in error.problems} & {"counted_wrong", "unused"}


# --- proofs


def test_coverage_is_proved_again_only_where_it_may_differ() -> None:
    """Denver changes amounts and a place; a reading changes which group a charger is in."""
    denver = amended(rules_of("nec/2023"), ["denver"], {"application": "2026-02-01"})
    assert not any(may_miscount(denver, denver.methods[name]) for name in ("standard", "optional_dwelling"))
    reading = amended(rules_of("nec/2023"), ["los angeles"], {})
    assert may_miscount(reading, reading.methods["optional_dwelling"])
    assert not may_miscount(reading, reading.methods["standard"])


@pytest.mark.long  # CI runs `rules check`, which proves them all
@pytest.mark.parametrize("name", sorted(amendments_in(installed_folder())))
def test_each_amendment_is_proved(name: str) -> None:
    path = amendments_in(installed_folder())[name]
    for edition in (
        yaml.safe_load(path.read_text(encoding="utf-8"))["amends"]
        if "[" in path.read_text().split("in_force")[0]
        else ["nec/2023"]
    ):
        assert check_amended(edition, None, [path], proved=True) == []


@pytest.mark.long
def test_a_folder_is_checked_with_its_amendments() -> None:
    found = check_folder(None)
    assert "us/co/denver/vehicle_charging/2025, nec/2023" in found
    assert not any(found.values())
