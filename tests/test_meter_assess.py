"""A home with a record of its meter, from the file to the answer: it is used, or the calculation is, with the right reason."""

from __future__ import annotations

import copy
import gzip
import json
import math
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta, timezone
from functools import cache
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import yaml
from assessments import DEMO, Tree, demo, load, supply
from commands import Run
from examples import rules_of
from meter_years import Year, download, table, year

from dwellcalc.compare.beside import with_editions
from dwellcalc.decide.assess import assess
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, OPEN, Assessment, SupplyResult
from dwellcalc.decide.record_document import NOT_USABLE, USABLE, WITH_REMARKS, RecordResult
from dwellcalc.evaluate.sheet import as_json
from dwellcalc.home import home_from_text
from dwellcalc.report.record_pages import meter_pages, record_in_short
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import as_text
from dwellcalc.review.sheets.recompute import recompute_document

NAME = "house_with_meter_record"
DENVER = ZoneInfo("America/Denver")
DAY = 96


@cache
def good() -> Year:
    return year()


def changed(energy: Callable[[list[float]], None] | None = None) -> Year:
    made = replace(good(), energy=list(good().energy), starts=list(good().starts))
    if energy is not None:
        energy(made.energy)
    return made


def assessed(folder: Path, lines: list[str], *, tree: Tree | None = None, method: str = "", **meter: Any) -> Assessment:
    """The demonstration home with another record; keys of ``meter:`` changed, taken out where nothing stands."""
    (folder / "record.csv").write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")
    made = tree or demo(NAME)
    made["meter"] = {"file": "record.csv", **{key: each for key, each in made["meter"].items() if key != "file"}}
    for key, value in meter.items():
        made["meter"].pop(key.replace("_", " "), None)
        if value is not None:
            made["meter"][key.replace("_", " ")] = value
    text = yaml.safe_dump(made, sort_keys=False, allow_unicode=True)
    home = replace(home_from_text(text, "alder.yaml", rules_of("nec/2023").glossary), folder=folder)
    return assess(home, rules_of("nec/2023"), date="2026-10-20", method=method)


def only(found: Assessment) -> tuple[SupplyResult, RecordResult]:
    supply = found.supplies[0]
    assert supply.record is not None
    return supply, supply.record


def without(first: int, last: int) -> Year:
    record = good()
    kept = [at for at in range(len(record.starts)) if not first <= at < last]
    return replace(record, starts=[record.starts[at] for at in kept], energy=[record.energy[at] for at in kept])


def at(day: str) -> int:
    """The position of the first interval of a day."""
    moment = int(datetime.fromisoformat(day).replace(tzinfo=DENVER).timestamp())
    return good().starts.index(moment)


# --- the demonstration


def test_the_record_of_the_demonstration_is_what_its_generator_makes() -> None:
    kept = gzip.decompress((DEMO / f"{NAME}.csv.gz").read_bytes()).decode()
    assert kept.splitlines() == list(download(year()))


def test_a_good_year_is_used(run: Run) -> None:
    """5,244 W / 0.98 x 1.08 / 240 V = 24.08 A; x 125 % = 30.10 A; the charger's 48 A beside it: 78.10 A of 100 A."""
    code, out, _ = run("assess", str(DEMO / f"{NAME}.yaml"), "--format", "json")
    document = json.loads(out)
    supply = document["supplies"][0]
    amperes = 5244 / 0.98 * 1.08 / 240
    assert (code, supply["verdict"], supply["basis"]["method"]) == (0, FITS, "metered")
    assert "fell_back_from" not in supply["basis"]
    assert supply["record"]["verdict"] == USABLE
    assert supply["record"]["maximum"] == pytest.approx(amperes)
    assert supply["sizing"]["amperes"] == pytest.approx(amperes * 1.25 + 48)
    assert supply["before"]["amperes"] == pytest.approx(amperes * 1.25)
    (setting,) = [each for each in document["decision"]["settings"] if each["load"] == "charger"]
    assert setting["counted"] == 48
    assert supply["record"]["cross_check"]["ratio"] == pytest.approx(87.83 / amperes, abs=0.001)
    assert recompute_document(document, tolerance=1e-9) == []


def test_heat_that_never_runs_with_the_pump_is_not_added_to_it(run: Run) -> None:
    """As above with 16 A of charging, a pump of 20 A and strips of 5,520 W, 23 A: both are added, or one (220.60, 220.87)."""
    tree = demo(NAME)
    tree["planned"] = [
        load("charger", "charger", "setting 16 A"),
        load("pump", "heat pump", "20 A at 240 V"),
        load("strips", "strip heat", "5520 W"),
    ]
    existing = 5244 / 0.98 * 1.08 / 240 * 1.25
    for stops, added in (("no", 16 + 20 + 23), ("yes", 16 + 23)):
        tree["planned"][1]["stops for supplemental heat"] = stops
        sizing = supply(tree, "metered").sizing
        assert sizing is not None
        assert sizing.amperes == pytest.approx(existing + added)


def test_the_sheet_tells_the_record(run: Run) -> None:
    out = run("assess", str(DEMO / f"{NAME}.yaml"))[1]
    assert "a record of the metered demand that may be used is taken before a calculation" in " ".join(out.split())
    assert "24.08 A is taken; the highest 15 min stood at 5.244 kW, 2026-01-30 19:15" in " ".join(out.split())
    assert "It shows what was drawn, not what the service has to spare." in out
    assert "87.83 A by the optional calculation for an existing dwelling unit, 3.65 times" in " ".join(out.split())
    assert out.count("2026-01-30 19:15  5.244 kW") == 1


def test_the_same_home_without_a_record_says_that_it_was_not_there(run: Run, file: Callable[[Tree], str]) -> None:
    tree = demo(NAME)
    del tree["meter"]
    out = " ".join(run("assess", file(tree))[1].split())
    assert "with charger set to 24 A" in out
    assert "Tried before it: existing load from the metered maximum demand; there is no record of the metered demand." in out


# --- defects, each with the reason that the home then falls back for


def lump(energy: list[float]) -> None:
    there = at("2026-05-11")
    energy[there : there + 12] = [0.0] * 12
    energy[there + 12] = 5.0


def frozen(energy: list[float]) -> None:
    for day in range(8):
        there = at("2026-05-11") + day * DAY
        energy[there : there + DAY] = [0.437] * DAY


def empty_winter(energy: list[float]) -> None:
    for there in range(at("2025-12-01"), at("2025-12-31")):
        energy[there] = 0.02


def doubled_hour(energy: list[float]) -> None:
    there = good().starts.index(int(datetime(2025, 11, 2, 1, 30, tzinfo=DENVER).timestamp()))
    energy[there] = 1.7


def sold(energy: list[float]) -> None:
    energy[at("2026-06-01") + 50] = -0.2


def impossible(energy: list[float]) -> None:
    for there in (at("2026-01-07"), at("2026-01-09"), at("2026-01-11")):
        energy[there + 74] = 7.6


DEFECTS: dict[str, tuple[Callable[[], list[str]], dict[str, Any], str]] = {
    "a day short": (lambda: list(download(without(0, DAY))), {}, "long_enough"),
    "too old": (lambda: list(download(year("2024-08-01", "2025-08-01"))), {"bills": []}, "recent_enough"),
    "three days missing": (lambda: list(download(without(at("2026-05-11"), at("2026-05-14")))), {}, "no_long_gap"),
    "hours missing in January": (lambda: list(download(without(at("2026-01-11"), at("2026-01-11") + 12))), {}, "season_covered"),
    "weeks missing": (lambda: list(download(without(at("2026-05-01"), at("2026-05-09")))), {}, "covered"),
    "a month thin": (lambda: list(download(without(at("2026-05-01"), at("2026-05-05")))), {}, "months_covered"),
    "a lump after an outage": (lambda: list(download(changed(lump))), {}, "no_lump"),
    "a meter that hangs": (lambda: list(download(changed(frozen))), {}, "not_frozen"),
    "an empty winter": (lambda: list(download(changed(empty_winter))), {"bills": []}, "used_as_usual"),
    "two hours in one": (lambda: list(download(changed(doubled_hour))), {}, "no_repeated_hour"),
    "energy sold": (lambda: list(download(changed(sold))), {}, "no_generation"),
    "generation": (lambda: list(download(good())), {"generation": "yes"}, "no_generation"),
    "a load added since": (
        lambda: list(download(good())),
        {"changes": [{"date": "2026-02-01", "what": "load added"}]},
        "unchanged",
    ),
    "another meter than the bills'": (
        lambda: list(download(good())),
        {"bills": [{"from": "2026-01-01", "to": "2026-01-31", "energy": "1702 kWh"}]},
        "bills_agree",
    ),
    "more than the main carries": (lambda: list(download(changed(impossible))), {"bills": []}, "possible"),
    "a line of two": (lambda: list(download(good())), {"line": "another line"}, "of_whole_supply"),
    "estimates": (
        lambda: [line.replace("actual", "estimated") if f",{19}:" in line else line for line in download(good())],
        {},
        "few_estimates",
    ),
    "the maximum estimated": (
        lambda: [
            line.replace("actual", "estimated") if line.startswith("2026-01-30,19:15") else line for line in download(good())
        ],
        {},
        "no_estimate_near",
    ),
    "rounded to whole kilowatt-hours": (
        lambda: [
            ",".join([*line.split(",")[:3], str(round(float(line.split(",")[3]))), "actual"]) if line.startswith("20") else line
            for line in download(changed(lambda energy: energy.__setitem__(slice(None), [each * 4 for each in energy])))
        ],
        {"bills": []},
        "fine_enough",
    ),
}


QUICK = ("a day short", "a lump after an outage", "energy sold", "a load added since")


@pytest.mark.parametrize("name", [name if name in QUICK else pytest.param(name, marks=pytest.mark.slow) for name in DEFECTS])
def test_a_defective_record_is_not_used_and_says_why(name: str, tmp_path: Path) -> None:
    lines, meter, gate = DEFECTS[name]
    supply, record = only(assessed(tmp_path, lines(), **meter))
    assert record.verdict == NOT_USABLE
    assert f"metered_record.{gate}" in [each.id for each in record.refusing]
    assert supply.basis is not None
    assert supply.basis.method == "existing_dwelling"
    (fallen,) = supply.basis.fell_back_from
    told = next(each for each in record.refusing if each.id == f"metered_record.{gate}")
    assert fallen["method"] == "metered"
    assert told.in_a_sentence in fallen["because"]
    assert told.cure


@pytest.mark.slow
def test_reasons_stand_worst_first_with_their_days(tmp_path: Path) -> None:
    found = assessed(tmp_path, list(download(without(at("2026-05-01"), at("2026-05-09")))), generation="yes")
    record = only(found)[1]
    assert [each.id.partition(".")[2] for each in record.refusing] == [
        "no_generation",
        "covered",
        "months_covered",
        "no_long_gap",
    ]
    (gap,) = record.refusing[-1].moments
    assert gap == "2026-05-01 00:00 to 2026-05-09 00:00"
    assert record.refusing[-1].found == "192 h"
    assert "(found: 192 h)" in record.refusing[-1].in_a_sentence


@pytest.mark.slow
def test_what_a_record_would_give_if_it_served_is_told(tmp_path: Path) -> None:
    """Of a record that may not be used, and whose load is less than the one that is counted."""
    supply, record = only(assessed(tmp_path, list(download(without(at("2026-05-01"), at("2026-05-09"))))))
    by_record = next(each for each in supply.results if each.id == "metered")
    assert supply.sizing is not None
    assert supply.sizing.amperes is not None
    assert record.if_it_served == by_record.amperes < supply.sizing.amperes
    assert record.it_would_fit is True
    assert any("not over the capacity" in text for _, text in record_in_short(record))
    assert only(assessed(tmp_path, list(download(good()))))[1].if_it_served is None


@pytest.mark.slow
def test_a_vacant_home_falls_back(tmp_path: Path) -> None:
    supply, record = only(assessed(tmp_path, list(download(good())), tree={**demo(NAME), "occupied": "no"}))
    assert [each.id for each in record.refusing] == ["metered_record.lived_in"]
    assert supply.basis is not None
    assert supply.basis.method == "existing_dwelling"


@pytest.mark.slow
def test_a_new_supply_has_no_record_to_go_by(tmp_path: Path) -> None:
    tree = demo(NAME)
    tree["service"]["state"] = "to be installed"
    supply, _ = only(assessed(tmp_path, list(download(good())), tree=tree))
    assert supply.basis is not None
    (fallen,) = supply.basis.fell_back_from
    assert supply.basis.method == "optional_dwelling"
    assert fallen["because"] == "the supply does not exist yet, so that nothing was metered"


@pytest.mark.slow
@pytest.mark.parametrize(
    ("rating", "size", "material", "serves"),
    [
        ("100 A", "4 AWG", "copper", True),  # 85 A, over 83 % of 100 A (310.12)
        ("100 A", "6 AWG", "copper", False),  # 65 A, which 70 A may protect
        ("125 A", "2 AWG", "aluminum", False),  # 90 A; 83 % of 125 A is 103.75 A
        ("90 A", "4 AWG", "copper", True),  # the next standard rating over 85 A (240.4(B)); 310.12 begins at 100 A
        ("100 A", "2 AWG", "aluminum", True),  # 90 A, over 83 A
    ],
)
def test_a_record_does_not_serve_a_supply_that_its_main_does_not_protect(
    rating: str, size: str, material: str, serves: bool, tmp_path: Path
) -> None:
    """220.87(3); by hand, with the ampacities of Table 310.16 at 75 C."""
    tree = demo(NAME)
    tree["service"] |= {"rating": rating, "conductors": {"size": size, "material": material}}
    supply, _ = only(assessed(tmp_path, download(good()), tree=tree))
    assert supply.basis is not None
    assert (supply.basis.method == "metered") is serves
    told = [each.if_not for sheet in supply.methods if sheet.id == "metered" for each in sheet.conditions if each.outcome == "no"]
    assert bool(told) is not serves


def test_conductors_that_nobody_saw_do_not_keep_a_record_from_serving(tmp_path: Path) -> None:
    tree = demo(NAME)
    tree["service"]["conductors"] = "not seen"
    supply, _ = only(assessed(tmp_path, download(good()), tree=tree))
    assert supply.basis is not None
    assert supply.basis.method == "metered"


@pytest.mark.slow
def test_a_record_serves_only_where_nothing_is_open_of_it(tmp_path: Path) -> None:
    """Where it is not known whether the supply exists, the record would be the least; a calculation is taken all the same."""
    tree = demo(NAME)
    tree["service"]["state"] = "unknown"
    supply, record = only(assessed(tmp_path, list(download(good())), tree=tree))
    may = {each.id: each.may_be_used for each in supply.results}
    assert (may["metered"], record.verdict) == ("on condition", USABLE)
    assert supply.basis is not None
    assert supply.basis.method != "metered"
    assert supply.basis.fell_back_from[0]["because"] == "it is not known whether the supply exists"
    assert {each.status for each in supply.loads} >= {"existing"}


@pytest.mark.slow
@pytest.mark.parametrize("times", [1, 3])
def test_bounds_of_a_planned_load_go_by_the_record(times: int, tmp_path: Path) -> None:
    """A heater of 4 to 6 kW beside a charger of 16 A: 30.10 A of the record, 16 A, and 16.67 to 25 A; no calculation is taken.

    Nor is one where the record tells more than it: of three times the energy 90.30 A are of the record, 123 to 131 A in all.
    """
    tree = demo(NAME)
    tree["planned"] = [
        {"name": "charger", "kind": "EV charging equipment", "rating": "setting 16 A"},
        {"name": "heater", "kind": "space heater", "rating": "4 kW to 6 kW"},
    ]
    lines = list(download(changed(lambda energy: energy.__setitem__(slice(None), [times * each for each in energy]))))
    supply = only(assessed(tmp_path, lines, tree=tree, bills=[]))[0]
    assert supply.between is not None
    measured = times * 5244 / 0.98 * 1.08 / 240 * 1.25 + 16
    assert supply.between.amperes.low == pytest.approx(measured + 4000 / 240)
    assert supply.between.amperes.high == pytest.approx(measured + 6000 / 240)
    calculated = [each.amperes for each in supply.results if each.id == "existing_dwelling"]
    assert [each is not None and each < supply.between.amperes.high for each in calculated] == [times == 3]


@pytest.mark.slow
@pytest.mark.parametrize("generation", ["no", "yes"])
def test_another_record_is_no_alternative_to_one_that_is_there(generation: str, tmp_path: Path) -> None:
    """80 A of charging do not fit 100 A by the record, nor by calculation; which maximum would do need not be wondered."""
    tree = demo(NAME)
    tree["planned"] = [{"name": "charger", "kind": "EV charging equipment", "rating": "setting 80 A"}]
    found = assessed(tmp_path, list(download(good())), tree=tree, generation=generation)
    supply, _ = only(found)
    assert supply.basis is not None
    assert (supply.basis.method == "metered", supply.verdict) == (generation == "no", DOES_NOT_FIT)
    offered = [each.title for each in found.decision.alternatives]
    assert "A larger supply" in offered
    assert "The metered maximum demand" not in offered


def test_what_is_not_said_is_told_and_the_record_used(tmp_path: Path) -> None:
    silent = dict.fromkeys(("generation", "line", "power_factor", "imbalance", "bills", "changes"))
    supply, record = only(assessed(tmp_path, list(download(good())), **silent))
    assert record.verdict == WITH_REMARKS
    assert supply.basis is not None
    assert supply.basis.method == "metered"
    assert [each.id.partition(".")[2] for each in record.remarked] == [
        *("generation_said", "changes_told", "bills_given", "power_factor_said", "imbalance_said"),
    ]
    assert record.maximum == pytest.approx(5244 / 240)


@pytest.mark.slow
def test_what_is_replaced_subtracts_nothing(tmp_path: Path) -> None:
    """A heat pump of 20 A in the place of the heaters: 20 A more, and not a watt less."""
    tree = demo(NAME)
    pump = {"name": "heat pump", "kind": "heat pump", "rating": "20 A at 240 V", "replaces": "heaters"}
    tree["planned"] = [*tree["planned"], pump]
    found = only(assessed(tmp_path, list(download(good())), tree=tree))[0]
    assert found.basis is not None
    assert found.basis.method == "metered"
    assert found.sizing is not None
    counted = next(each for each in found.methods if each.id == "metered").results["amperes"].value
    assert counted == pytest.approx(5244 / 0.98 * 1.08 / 240 * 1.25 + 20 + 48)


@pytest.mark.slow
def test_the_record_of_a_feeder_answers_the_feeder_alone(tmp_path: Path) -> None:
    tree = demo(NAME)
    tree["feeders"] = [{"name": "house feeder", "feeds": "house", "rating": "100 A", "state": "existing"}]
    found = assessed(tmp_path, list(download(good())), tree=tree, on="house feeder")
    service, feeder = found.supplies
    assert feeder.record is not None
    assert service.record is None
    assert service.basis is not None
    assert feeder.basis is not None
    assert (service.basis.method, feeder.basis.method) == ("existing_dwelling", "metered")


# --- longer intervals


def hourly(factor: float = 1.0) -> list[str]:
    record = good()
    energy = [round(factor * sum(record.energy[at : at + 4]), 3) for at in range(0, len(record.energy), 4)]
    return list(table(Year(record.zone, record.starts[::4], energy, 3600)))


def test_hourly_data_serves_where_the_load_fits_at_its_bound(tmp_path: Path) -> None:
    """The highest hour four times over: all of it in a quarter of the hour. With 16 A beside it that fits 200 A."""
    tree = demo(NAME)
    tree["service"] |= {"rating": "200 A", "bus": "200 A", "conductors": {"size": "2/0 AWG", "material": "copper"}}
    supply, record = only(assessed(tmp_path, hourly(), tree=tree, imbalance=None, power_factor=None, line=None))
    highest = record.highest[0].power
    assert record.window == 60
    assert record.maximum == pytest.approx(4 * highest / 240)
    assert record.verdict == WITH_REMARKS
    assert supply.basis is not None
    assert supply.basis.method == "metered"
    assert supply.sizing is not None
    assert supply.sizing.amperes == pytest.approx(1.25 * 4 * highest / 240 + 48)
    told = dict(record.tells)
    assert told["With the factor that an authority might accept for longer intervals"] == f"{1.5 * highest:,.1f} W"


def test_hourly_data_tells_nothing_where_the_load_does_not_fit_at_its_bound(tmp_path: Path) -> None:
    supply, record = only(assessed(tmp_path, hourly()))
    assert [each.id for each in record.refusing] == ["metered_record.intervals_serve"]
    assert supply.basis is not None
    assert supply.basis.method == "existing_dwelling"


# --- the calculated load beside it


@pytest.mark.slow
def test_a_maximum_above_the_calculated_load_leaves_the_calculation_open(tmp_path: Path) -> None:
    """A record of 100 A and more beside a calculated 88 A: used where it may be, and no calculated load stands."""
    lines = list(download(changed(lambda energy: energy.__setitem__(slice(None), [4.2 * each for each in energy]))))
    tree = demo(NAME)
    tree["service"] |= {"rating": "200 A", "bus": "200 A", "conductors": {"size": "2/0 AWG", "material": "copper"}}
    supply, record = only(assessed(tmp_path, lines, tree=copy.deepcopy(tree), bills=[]))
    assert record.cross_check is not None
    assert not record.cross_check.holds
    assert record.cross_check.ratio < 1
    assert supply.basis is not None
    assert (supply.basis.method, supply.verdict) == ("metered", FITS)
    new = supply.new_supply
    assert new is not None
    assert (new.by, new.amperes) == (supply.basis.title, supply.sizing.amperes if supply.sizing is not None else None)
    by_name = only(assessed(tmp_path, lines, tree=copy.deepcopy(tree), method="optional_dwelling", bills=[]))[0]
    assert by_name.verdict == OPEN
    assert any("above the calculated existing load" in text for text in by_name.shortcomings)


def test_an_unusable_record_is_not_held_against_the_calculation(tmp_path: Path) -> None:
    assert only(assessed(tmp_path, list(download(good())), generation="yes"))[1].cross_check is None


# --- the command


@pytest.mark.slow
def test_the_command_judges_a_file(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "year.csv"
    path.write_text("".join(f"{line}\n" for line in table(good())), encoding="utf-8")
    code, out, _ = run("meter", str(path))
    assert code == 0
    assert "The record is usable with remarks." in out
    assert "No home was given" in out
    code, out, _ = run("meter", str(path), "--home", str(DEMO / f"{NAME}.yaml"), "--format", "json")
    record = json.loads(out)["record"]
    assert (code, record["verdict"], len(record["months"]), len(record["highest"])) == (0, USABLE, 12, 10)
    path.write_text("".join(f"{line}\n" for line in table(without(0, DAY))), encoding="utf-8")
    code, out, _ = run("meter", str(path), "--home", str(DEMO / f"{NAME}.yaml"))
    assert code == 1
    assert "The record is not usable." in out


def judged(run: Run, path: Path, lines: list[str], *options: str) -> str:
    """What the command prints of a file of these lines."""
    path.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")
    return run("meter", str(path), *options)[1]


def test_readings_in_another_order_are_told(run: Run, tmp_path: Path) -> None:
    head, *rows = table(year("2026-01-01", "2026-01-03"))
    remark = "- the readings stood in another order than that of time\n"
    assert remark in judged(run, tmp_path / "days.csv", [head, *rows[DAY:], *rows[:DAY]])
    assert remark not in judged(run, tmp_path / "days.csv", [head, *rows])


def test_of_what_was_delivered_and_the_net_of_it_the_former_is_taken(run: Run, tmp_path: Path) -> None:
    """The net is 1 kWh less in each interval: what was given back of the dwelling's own is load that it does not tell."""
    _, *rows = table(Year(DENVER, good().starts[:DAY], [2.0] * DAY))
    lines = ["Interval start,Interval end,Net (kWh),Delivered (kWh)", *(row.replace(",2.000", ",1.000,2.000") for row in rows)]
    out = judged(run, tmp_path / "day.csv", lines)
    assert "- the channel without a name, delivered\n" in out
    assert re.search(r"(?m)^Highest demand that is taken +8,000 W$", out)


def test_what_was_found_of_a_reason_is_told_through_the_lines_that_it_names(run: Run, tmp_path: Path) -> None:
    """Two days of 30 kWh in a quarter of an hour: 120 kW / 0.98 x 1.08 / 240 V = 551.02 A by a main of 100 A."""
    lines = list(table(Year(DENVER, good().starts[: 2 * DAY], [30.0] * 2 * DAY)))
    out = judged(run, tmp_path / "days.csv", lines, "--home", str(DEMO / f"{NAME}.yaml"), "--format", "json")
    found = {gate["id"]: gate["found"].split("\n") for gate in json.loads(out)["record"]["gates"]}
    assert "time from the first reading to the last: 2 days" in found["metered_record.long_enough"]
    assert "rating of the main overcurrent device: 100 A" in found["metered_record.possible"]
    assert "Maximum demand in amperes: 551.02 A" in found["metered_record.possible"]


MOUNTAIN_STANDARD = timezone(timedelta(hours=-7))
HIGHEST_IN_FILE = datetime(2026, 7, 22, 18, 30, tzinfo=MOUNTAIN_STANDARD)


def in_standard_time() -> list[str]:
    """A year whose stamps keep standard time, with its highest interval in July; no column tells of quality."""
    record = changed()
    record.energy[record.starts.index(int(HIGHEST_IN_FILE.timestamp()))] = 1.6
    stamps = (datetime.fromtimestamp(start, MOUNTAIN_STANDARD) for start in record.starts)
    return ["Start,kWh", *(f"{stamp:%Y-%m-%d %H:%M},{energy}" for stamp, energy in zip(stamps, record.energy, strict=True))]


@cache
def on_standard_time(folder: Path) -> Assessment:
    """The demonstration home with that record, without bills."""
    return assessed(folder, in_standard_time(), **{"standard time": "yes", "stamps": "start", "bills": None})


def test_a_record_in_standard_time_tells_by_which_clock_its_times_are(tmp_path_factory: pytest.TempPathFactory) -> None:
    found = on_standard_time(tmp_path_factory.getbasetemp())
    record = only(found)[1]
    assert (record.highest[0].at, record.highest[0].in_file) == ("2026-07-22 19:30", f"{HIGHEST_IN_FILE:%Y-%m-%d %H:%M}")
    assert {month.name for month in record.months if month.in_file} == {"2025-10", *(f"2026-0{at}" for at in range(3, 10))}
    assert "The file keeps standard time all year" in record.clock
    assert "from 2025-10-01 until 2025-11-02 and from 2026-03-08 until 2026-10-01" in record.clock
    sheet = as_text(sheet_pages(found, full=False), None)
    assert "2026-07-22 19:30  2026-07-22 18:30             6.400 kW" in sheet
    assert "stood at 6.400 kW, 2026-07-22 19:30 (2026-07-22 18:30 in the file)" in " ".join(sheet.split())
    assert record.clock in " ".join(sheet.split())


def test_a_record_by_the_clock_on_the_wall_has_one_time_for_each_moment(run: Run) -> None:
    out = run("assess", str(DEMO / f"{NAME}.yaml"))[1]
    assert "Times are by the clock on the wall in America/Denver, as those of the file are." in out
    assert "in the file)" not in out


def test_what_cannot_be_looked_at_is_not_printed_as_met(tmp_path_factory: pytest.TempPathFactory) -> None:
    """No bills, no sums, nothing before the year, no column of quality: none of these is a pass."""
    found = on_standard_time(tmp_path_factory.getbasetemp())
    record = only(found)[1]
    unlooked = ("few_estimates", "no_estimate_near", "bills_agree", "nothing_higher_before", "no_estimates", "all_validated")
    assert [gate.id.partition(".")[2] for gate in record.not_looked_at] == list(unlooked)
    lines = {line.id: line for line in record.sheet.lines}
    printed = {gate.outcome: {lines[gate.id].outcome.printed} for gate in record.not_looked_at}  # type: ignore[union-attr]
    assert printed == {"yes": {"not looked at"}}
    assert next(gate for gate in record.gates if gate.id == "metered_record.fine_enough").not_looked_at == []
    sheet = " ".join(as_text(sheet_pages(found, full=False), None).split())
    assert "Not looked at, for what it asks about is not given" in sheet
    alone = as_text(meter_pages(record, "NEC 2023", [], alone=False), None)
    met = " ".join(alone.partition("Held to and met:")[2].split())
    assert "Bills, and sums in the file" not in met
    assert "The meter measured something" in met
    assert recompute_document(as_json(found), tolerance=1e-9) == []


def test_many_conditions_stand_as_the_lines_that_they_are(tmp_path_factory: pytest.TempPathFactory) -> None:
    found = on_standard_time(tmp_path_factory.getbasetemp())
    text = " ".join(as_text(sheet_pages(found, full=False), None).split())
    assert "yes and yes and yes" not in text
    assert re.search(r"may stand for .{,60}lines [\d, ]+: not looked at; lines \d+ to \d+, [\d, to]+: yes", text)
    assert "not known(" not in text.partition("Code values not verified")[0].partition("The record of the metered demand (")[2]


def test_the_calculation_that_a_record_is_held_against_is_printed_line_by_line(tmp_path_factory: pytest.TempPathFactory) -> None:
    """It may be used where the record is not accepted, and the ratio of the two is checked by its lines."""
    found = on_standard_time(tmp_path_factory.getbasetemp())
    supply, record = only(found)
    assert record.cross_check is not None
    sheet = as_text(sheet_pages(found, full=False), 200)
    by_itself = sheet.partition(f"\n{record.cross_check.by} (")[2]
    assert " ".join(by_itself.split()).partition("held against. It does not make the verdict")[2]
    (carried,) = (each for each in supply.results if each.title == record.cross_check.by)
    assert f"{carried.total:,.0f} VA" in by_itself
    others = [
        each.title for each in supply.results if each.title not in (record.cross_check.by, supply.basis and supply.basis.title)
    ]
    assert others
    assert not [each for each in others if f"\n{each} (" in sheet]


def test_a_file_that_is_not_there_is_told(run: Run) -> None:
    code, _, err = run("meter", "nowhere.csv")
    assert code == 2
    assert "nowhere.csv" in err


@pytest.mark.slow
def test_the_maximum_stands_where_the_method_reads_it(tmp_path: Path) -> None:
    supply, record = only(assessed(tmp_path, list(download(good()))))
    text = as_text(sheet_pages(assessed(tmp_path, list(download(good()))), full=False), None)
    assert record.maximum is not None
    assert f"{record.maximum:,.2f} A" in text
    assert supply.verdict != DOES_NOT_FIT
    assert not math.isnan(record.maximum)


# --- records of others, where they are at hand

SAMPLES = Path(__file__).parents[1].parent / "shared" / "reference" / "samples"
HOW = {"time zone": "Europe/Paris", "standard time": "yes", "unit": "kWh", "stamps": "start", "generation": "no"}
TOLD: dict[str, tuple[str, float, list[str]]] = {  # verdict, highest window [kW], what keeps it from being used
    # a house of which nobody was at home in most of August; a run of equal readings in October
    "uci_household_2008_15min_kwh.csv": (WITH_REMARKS, 8.383, []),
    # a class average and no house: 3,397 h of its maximum in a year, where houses have 280 to 2,100
    "energyos_v0.7_Desert_Single_Family_2011.xml": (NOT_USABLE, 3.650, ["plausible_hours"]),
    "energyos_15minLP_15Days.xml": (NOT_USABLE, 6.648, ["long_enough"]),
    "gba_test_usage_data.xml": (NOT_USABLE, 6.640, ["long_enough"]),
}


@pytest.mark.parametrize("name", TOLD)
def test_records_of_others(name: str) -> None:
    """Each judged a month after its end, as a record of the demonstration home."""
    if not (SAMPLES / name).is_file():
        pytest.skip("the record is not at hand beside the checkout")
    tree = demo(NAME)
    tree["meter"] = {
        "file": str(SAMPLES / name),
        "changes": [],
        **(HOW if name.endswith("csv") else {"time zone": "America/Denver"}),
    }
    ends = {"uci": "2009-01-30", "energyos_v": "2012-01-30"}
    tree["date"] = next((day for begin, day in ends.items() if name.startswith(begin)), "2012-04-15")
    tree["service"] |= {"rating": "200 A", "bus": "200 A", "conductors": {"size": "2/0 AWG", "material": "copper"}}
    home = home_from_text(yaml.safe_dump(tree, sort_keys=False), "alder.yaml", rules_of("nec/2023").glossary)
    record = only(assess(home, rules_of("nec/2023"), date="2026-10-20"))[1]
    verdict, highest, reasons = TOLD[name]
    assert record.verdict == verdict
    assert record.highest[0].power / 1000 == pytest.approx(highest, abs=0.0005)
    assert [each.id.partition(".")[2] for each in record.refusing if each.id.partition(".")[2] in reasons] == reasons
    assert bool(record.refusing) == bool(reasons)
    if name.startswith("uci"):
        assert {"metered_record.no_run", "metered_record.every_month_used"} <= {each.id for each in record.remarked}
        assert record.highest[0].at == "2008-11-30 20:15"


def with_more_planned() -> Tree:
    made = demo(NAME)
    unit = made["dwelling units"][0]
    unit["loads"] = [each for each in unit["loads"] if each["kind"] in ("range", "dryer")]
    made["planned"].append(
        {"name": "new range", "kind": "range", "rating": "10 kW", "replaces": "range", "evidence": "nameplate"}
    )
    return made


@pytest.mark.slow
def test_other_methods_by_which_more_fits_are_told_with_their_settings(tmp_path: Path) -> None:
    found = assessed(tmp_path, table(good()), tree=with_more_planned(), method="")
    supply, _ = only(found)
    assert supply.basis is not None
    assert supply.basis.method == "metered"
    (load,) = found.decision.settings
    others = {each.method: each for each in found.decision.other_methods}
    # by hand, 220.83: 1,400 x 3 + 4,500 + 10,000 + 5,000 + 11,520 = 35,220 VA; 8,000 + 40 % of the rest, over 240 V
    assert load.counted < 48
    assert others["existing_dwelling"].settings == {"charger": 48}
    assert others["existing_dwelling"].supply.amperes == pytest.approx((8000 + 0.4 * 27220) / 240)
    assert all(each.settings["charger"] > load.counted for each in others.values())
    told = " ".join(as_text(sheet_pages(found, full=False), 100).split())
    assert "(220.83), which may be used as well: fits, with charger set to 48 A (78.70 A); if the temperature" in told
    assert "by another reading of 220.83 it does not; `--method 220.83` gives the sheet by it." in told
    asked = assessed(tmp_path, table(good()), tree=with_more_planned(), method="220.83")
    (first,) = asked.decision.other_methods
    assert (first.method, first.comes_first, first.supply.verdict) == ("metered", True, DOES_NOT_FIT)
    told = " ".join(as_text(sheet_pages(asked, full=False), 100).split())
    assert "which comes before every calculation where a record is usable: does not fit, with the same settings" in told
    assert asked.decision.settings[0].counted == 48


@pytest.mark.slow
def test_what_comes_later_fits_by_another_method_too(tmp_path: Path) -> None:
    """The same charger, later: by 220.83 the 78.70 A of the work now with it, as above, which by the record are too much."""
    tree = with_more_planned()
    charger = next(each for each in tree["planned"] if "settings" in each)
    charger["later"] = "yes"
    found = assessed(tmp_path, table(good()), tree=tree, method="")
    (later,) = found.decision.later
    assert later.set_to["charger"] < 48
    first, *_ = later.other_methods
    assert (first.method, first.settings) == ("existing_dwelling", {"charger": 48})
    assert first.supply.amperes == pytest.approx((8000 + 0.4 * 27220) / 240)
    told = " ".join(as_text(sheet_pages(found, full=False), 100).split())
    fits = "(220.83), which may be used as well: with charger set to 48 A: fits (78.70 A)"
    assert f"{fits}; if the temperature marking of the service equipment, which nobody has seen, is 60 C, it does not" in told
    assert "by another reading of 220.83 it does not." in told


@pytest.mark.slow
@pytest.mark.parametrize("later", ["no", "yes"])
def test_a_feeder_that_carries_all_has_the_record_of_its_service(tmp_path: Path, later: str) -> None:
    """The whole load flows through both, so one record is of both, and nothing of the answer is another with the feeder."""

    def found(feeders: list[Tree]) -> Assessment:
        tree = with_more_planned() | {"feeders": feeders}
        next(each for each in tree["planned"] if "settings" in each)["later"] = later
        return assessed(tmp_path, table(good()), tree=tree, method="")

    one, two = found([]), found([{"name": "house feeder", "feeds": "house", "state": "existing"}])
    service, feeder = two.supplies
    assert feeder.carries_all
    assert [each.basis.method for each in two.supplies if each.basis is not None] == ["metered", "metered"]
    assert service.sizing is not None
    assert feeder.sizing is not None
    assert one.supplies[0].sizing is not None
    assert feeder.sizing.amperes == service.sizing.amperes == one.supplies[0].sizing.amperes

    def told(each: Assessment) -> list[object]:
        decision = each.decision
        others = [*decision.other_methods, *(other for at in decision.later for other in at.other_methods)]
        counted = [(at.load, at.counted) for at in (*decision.settings, *(at for of in decision.later for at in of.of_settings))]
        return [counted, [(other.method, other.settings, other.supply.verdict) for other in others]]

    assert told(two) == told(one)
    assert told(one)[1]

    def by_methods(feeders: list[Tree]) -> list[tuple[str, str]]:
        tree = with_more_planned() | {"feeders": feeders}
        tree["service"]["rating"] = "90 A"
        found = assessed(tmp_path, table(good()), tree=tree, method="").decision.alternatives
        return [(each.what, each.verdict) for each in found if each.title == "Another method that may be used"]

    whole = {"name": "house feeder", "feeds": "house", "state": "existing"}
    assert by_methods([whole]) == by_methods([]) == [(each, "fits") for each, _ in by_methods([])] != []


@pytest.mark.slow
def test_a_method_of_the_home_file_holds_for_every_edition(tmp_path: Path) -> None:
    tree = with_more_planned()
    tree["method"] = {"section": "220.83", "reason": "the winter was mild"}
    tree["remarks"] = ["The main stays."]
    (tmp_path / "record.csv").write_text("".join(f"{line}\n" for line in table(good())), encoding="utf-8")
    tree["meter"]["file"] = "record.csv"
    text, rules = yaml.safe_dump(tree, sort_keys=False), rules_of("nec/2023")
    home = replace(home_from_text(text, "alder.yaml", rules.glossary), folder=tmp_path)
    found = with_editions(assess(home, rules, date="2026-10-20"), home, rules, None)
    supply, _ = only(found)
    assert supply.basis is not None
    assert supply.sizing is not None
    assert (supply.basis.method, supply.basis.because) == ("existing_dwelling", "as the home file asks: the winter was mild")
    own = next(each for each in supply.editions if each.own)
    assert (own.amperes, own.verdict, own.method) == (supply.sizing.amperes, supply.verdict, supply.basis.title)
    assert {each.method for each in supply.editions} == {supply.basis.title}, "also where the section has another number"
    assert found.remarks == ["The main stays."]
    told = " ".join(as_text(sheet_pages(found, full=False), 100).split())
    assert "Remarks of who made this sheet" in told
    assert "no figure in them was checked" in told
    asked = assess(home, rules, date="2026-10-20", method="220.82")
    assert asked.supplies[0].basis is not None
    assert asked.supplies[0].basis.because == "asked for by name", "the command line wins"


def test_spans_of_a_record_that_follow_one_another_are_one(tmp_path: Path) -> None:
    def estimated(place: int) -> str:
        return "E" if 400 <= place < 412 else "A"

    lines = table(good())
    head, *rows = lines
    marked = [f"{row},{estimated(place)}" for place, row in enumerate(rows)]
    found = assessed(tmp_path, [f"{head},Quality", *marked], tree=None, flags={"E": "estimated", "A": "measured"})
    _, record = only(found)
    gate = next(each for each in record.gates if each.id.endswith(".few_estimates"))
    assert len(gate.moments) == 1
