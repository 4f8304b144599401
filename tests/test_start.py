"""Beginning a home file: files to be filled in, and the interview, with answers from a pipe and from a terminal."""

from __future__ import annotations

import fcntl
import io
import os
import pty
import re
import select
import signal
import subprocess
import sys
import termios
import time
from collections.abc import Callable, Iterable
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from test_bad import BAD, agree, cases, refused

from dwellcalc.cli import interview as interview_module
from dwellcalc.cli.interview import Interview
from dwellcalc.cli.kind_of_work import told_work
from dwellcalc.cli.start_actions import Begun, ask, write_empty
from dwellcalc.cli.start_actions import _Also as also_of
from dwellcalc.cli.terminal_talk import Terminal
from dwellcalc.decide.edition import rules_for
from dwellcalc.glossary import Glossary
from dwellcalc.home import home_from_text, read_home
from dwellcalc.home.starting.along import told_with
from dwellcalc.home.starting.answers import HOME, Answer, Answers, Step
from dwellcalc.home.starting.completed import Completed, Completion
from dwellcalc.home.starting.elsewhere import elsewhere
from dwellcalc.home.starting.lines import quoted
from dwellcalc.home.starting.plausible import Plausible
from dwellcalc.home.starting.question_reader import read_starter
from dwellcalc.home.starting.questions import FORMS, Question, Work
from dwellcalc.home.starting.said import said_of
from dwellcalc.home.starting.sentences import number_clause
from dwellcalc.home.starting.spoken import sized, spoken
from dwellcalc.home.starting.starter import Starter
from dwellcalc.home.starting.taken import choices_in, taken
from dwellcalc.home.starting.told_beside import drawn
from dwellcalc.language.rule_set import read_glossary
from dwellcalc.problems import InputError
from dwellcalc.reading import read_text

METERED = ("existing", "addition", "manufactured", "units")
WORKS = ("new", "existing", "addition", "vacant", "manufactured", "units", "new-units")
MARK = re.compile(r'"?<such as ([^<>]*)>"?')
ASSESSABLE = (0, 1, 3)
UNFINISHED = 3
Ask = Callable[..., tuple[int, str]]


@cache
def own_glossary() -> Glossary:
    return read_glossary()


@pytest.fixture(autouse=True)
def read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """The package's own glossary does not change, so it is read once."""
    monkeypatch.setattr("dwellcalc.cli.start_actions.read_glossary", lambda folder: own_glossary())


@pytest.fixture(scope="module")
def glossary() -> Glossary:
    return own_glossary()


@pytest.fixture(scope="module")
def starter(glossary: Glossary) -> Starter:
    return read_starter(None, glossary)


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return Path("home.yaml")


@pytest.fixture
def answer(run: Any, monkeypatch: pytest.MonkeyPatch) -> Ask:
    """Runs the interview with answers from a pipe: the exit code, and what it showed."""

    def command(path: Path, answers: Iterable[str], *options: str) -> tuple[int, str]:
        monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{each}\n" for each in answers)))
        code, out, err = run("start", str(path), "--ask", *options)
        return code, " ".join((out + err).split())

    return command


ENTERS = [""] * 120


def with_area(position: int = 11) -> list[str]:
    """Only Enter, but for the floor area."""
    return [*[""] * position, "1800 ft2", *ENTERS]


def read(path: Path) -> Any:
    return yaml.safe_load(path.read_text(encoding="utf-8"))


# Files to be filled in


@pytest.mark.parametrize("work", WORKS)
def test_a_file_reads_once_its_marks_are_replaced(work: str, run: Any, home: Path, glossary: Glossary) -> None:
    code, out, _ = run("start", str(home), "--work", work)
    assert code == 0
    assert "dwellcalc assess home.yaml" in out
    text = home.read_text(encoding="utf-8")
    marks = MARK.findall(text)
    with pytest.raises(InputError) as caught:
        home_from_text(text, "home.yaml", glossary)
    live = [line for line in text.splitlines() if MARK.search(line) and not line.lstrip().startswith("#")]
    assert {problem.message.key for problem in caught.value.problems} == {"home_to_be_filled"}
    assert len(caught.value.problems) == len(live) > 5
    assert len(marks) > len(live)
    home_from_text(MARK.sub(r"\1", text), "home.yaml", glossary)
    if work in ("new", "addition", "units"):
        home.write_text(MARK.sub(r"\1", text), encoding="utf-8")
        assert run("assess", str(home))[0] in ASSESSABLE


@pytest.mark.parametrize("work", WORKS)
def test_what_is_offered_as_a_comment_reads_too(work: str, run: Any, home: Path, glossary: Glossary) -> None:
    """Each load, area or source whose # is taken away, all of them at once."""
    run("start", str(home), "--work", work)
    text = MARK.sub(r"\1", home.read_text(encoding="utf-8"))
    keys = "file|time zone|standard time|line|generation|power factor|imbalance|confirmed by"
    parts = rf"sources:|panels:|feeders:|loads:|planned:|meter:|changes:|bills:|- \{{|- (name|date|from): |  [a-z ]+: |({keys}): "
    text = re.sub(rf"^( *)# ({parts})", r"\1\2", text, flags=re.MULTILINE)
    found = home_from_text(text, "home.yaml", glossary)
    assert len(found.facts.collections["loads"].names) > 25
    assert len(found.planned) > 6
    assert found.facts.collections["sources"].names == ["solar inverter"]
    assert found.confirmed_by == "R. Adeyemi, city plans examiner"
    if work in METERED:
        assert found.meter is not None
        assert (found.meter.file, found.meter.read_by["time_zone"]) == ("interval_data.csv", "America/New_York")
        assert [(bill.first, bill.last, bill.energy) for bill in found.meter.bills] == [("2026-01-01", "2026-01-31", 855.0)]
        assert [change.what for change in found.meter.changes or ()] == ["load added"]
    else:
        assert found.meter is None, "nothing was metered, or nobody lived there"
    devices = found.facts.collections["loads"].fields["maximum_overcurrent_device"]
    assert {30.0, 35.0} <= {each for each in devices if isinstance(each, float)}, "of the air conditioner, of heat pumps"


@pytest.mark.parametrize("work", WORKS)
def test_every_key_has_a_comment_above_it_or_stands_with_one_that_has(work: str, run: Any, home: Path) -> None:
    """Of several dwelling units the first explains for all; `name` and `work` with `occupied` are explained by what they stand in."""
    run("start", str(home), "--work", work)
    lines = home.read_text(encoding="utf-8").splitlines()
    second = next((at for at, line in enumerate(lines) if line.strip() == "- name: unit B"), len(lines))
    planned = next((at for at, line in enumerate(lines) if line.startswith("planned:")), len(lines))
    bare = [
        line
        for at, line in enumerate(lines)
        if line.strip()
        and not line.lstrip().startswith("#")
        and not lines[at - 1].lstrip().startswith("#")
        and not second <= at < planned
    ]
    allowed = ("  - name:", "    kind:", "    settings:", "    quantity:", "occupied:", "manufactured home:")
    allowed += tuple(f"        {key}:" for key in ("kind", "rating", "evidence"))
    assert [line for line in bare if not line.startswith(allowed)] == []


def test_a_file_that_is_there_is_never_overwritten(run: Any, home: Path, answer: Ask) -> None:
    home.write_text("home: mine\n", encoding="utf-8")
    for options in ((), ("--work", "new"), ("--ask", "--work", "new")):
        code, _, err = run("start", str(home), *options)
        assert code == 2
        assert "hint:" in err
    assert home.read_text(encoding="utf-8") == "home: mine\n"
    assert list(home.parent.iterdir()) == [home]


def test_without_a_kind_of_work_the_choices_are_listed(run: Any, home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    code, _, err = run("start", str(home))
    assert code == 2
    assert all(f"\n    {work}" in err for work in WORKS)
    assert not home.exists()


def test_the_schema_is_named_where_one_stands_beside_the_file(run: Any, home: Path) -> None:
    run("start", str(home), "--work", "new")
    assert "yaml-language-server" not in home.read_text(encoding="utf-8")
    Path("home.schema.json").write_text("{}", encoding="utf-8")
    run("start", "second.yaml", "--work", "new")
    assert Path("second.yaml").read_text(encoding="utf-8").startswith("# yaml-language-server: $schema=home.schema.json\n")
    run("start", "third.yaml", "--work", "new", "--schema", "../schemas/home.json")
    assert Path("third.yaml").read_text(encoding="utf-8").startswith("# yaml-language-server: $schema=../schemas/home.json\n")


# The interview


@pytest.mark.slow
@pytest.mark.parametrize("work", WORKS)
def test_who_presses_enter_alone_gets_a_file_that_can_be_assessed(work: str, answer: Ask, run: Any, home: Path) -> None:
    code, shown = answer(home, ENTERS, "--work", work)
    assert code == 0
    assert "dwellcalc assess home.yaml dwellcalc assess home.yaml --format html --output home.html" in shown
    assert ("`meter:`" in shown) == (work not in ("new", "new-units")), "of a new house nothing was metered"
    if work in ("vacant", "manufactured", "new-units"):  # the others are assessed with a floor area, below and above
        assert run("assess", str(home))[0] in ASSESSABLE
    text = home.read_text(encoding="utf-8")
    assert "answered:" not in text
    assert " ".join(text.replace("#", " ").split()).count("Assumed; nobody has said or seen it.") > 8
    absent = read(home)["none of"]
    assert {each["evidence"] for each in absent} == {"assumed"}, "what nobody has said is not stated as absent"
    told = {
        "sources",
        "attached garage",
        *(["hot tub"] if "new" not in work else []),
    }  # of a new house it is asked as what is planned
    assert told <= {each["kind"] for each in absent}


@pytest.mark.slow
def test_with_the_area_and_the_main_alone_there_is_a_verdict_for_all_that_may_be(answer: Ask, run: Any, home: Path) -> None:
    answers = with_area(12)
    answers[3] = "200 A"
    assert answer(home, answers, "--work", "existing")[0] == 0
    code, out, _ = run("assess", str(home))
    assert code in (0, 1, 3)
    assert "The supply must carry" in out
    assert "It cannot be calculated" not in out


HOUSE = [
    *("14 Larch Road", "NEC 2020", "R. Adeyemi, city plans examiner"),
    *("1", "125 A", "in the panel", "2 AWG", "copper", "none", "125 A", "125 A", "none", "4", "nameplate"),
    *("1850 sq ft", "none", "none", "440 ft2"),
    *("2", "gas", "1.2 kW", "1/2 hp at 115 V", "none"),
    *("1", "gas", "gas"),
    *("furnace", "central", "MCA 18 A at 240 V", "30", "6 A at 120 V"),
    "none",
    *("none", "none"),
    *("sump pump, freezer", "1/3 hp at 120 V", "4 A at 120 V", "range hood: 250 VA; wall heater: 2 x 1.5 kW"),
]


def test_an_electrician_with_an_existing_house(answer: Ask, run: Any, home: Path) -> None:
    answers = [
        *HOUSE[:-1],
        "range hood: 250 VA; wall heater: 1.5 kW",
        "heat pump, charger",
        "16 A; 32 A",
        "next year",
        "hard wired",
        "45 ft",
        "detached garage",
        "MCA 20 A at 240 V",
        "30",
    ]
    code, shown = answer(home, [*answers, "air conditioner", "none", "the old blower stays", ""], "--work", "existing")
    assert code == 0, shown
    found = read(home)
    assert found["code"] == "nec/2020"
    assert found["service"]["conductors"] == {"size": "2 AWG", "material": "copper"}
    (unit,) = found["dwelling units"]
    assert [area["kind"] for area in unit["areas"]] == ["living", "attached garage"]
    kinds = {load["name"]: load["kind"] for load in unit["loads"]}
    assert kinds == {
        "dishwasher": "dishwasher",
        "disposer": "waste disposer",
        "gas dryer": "gas dryer",
        "blower": "blower",
        "air conditioner": "air conditioner",
        "sump pump": "sump pump",
        "freezer": "freezer",
        "range hood": "range hood",
        "wall heater": "wall heater",
    }
    assert found["planned"][0] == {
        "name": "new charger",
        "kind": "EV charging equipment",
        "settings": ["16 A", "32 A"],
        "later": True,
        "attachment": "hardwired",
        "length": "45 ft",
        "place": "at another building",
    }
    assert found["planned"][1]["later"] is False
    assert found["panels"] == [{"name": "panel", "spaces": 4}]
    assert found["planned"][1]["replaces"] == "air conditioner"
    assert "hot tub" in found["none of"]
    assert "heat pump" not in found["none of"], "one is planned"
    assert "space heater" not in found["none of"], "one was named later"
    assert run("assess", str(home))[0] in ASSESSABLE


def test_a_designer_with_a_new_house(answer: Ask, run: Any, home: Path) -> None:
    answers = [
        *("18 Quarry Rise", "", "", "200 A", "outside", "4/0 AWG", "", "40", "no", "225 A", "45 ft", "", "40 spaces", ""),
        *("plastic", "rebar", "don't know"),
        *("1240 ft2; 1180 ft2", "none", "none", "440 ft2", "none"),
        *("2", "separate", "4.8 kW", "7.2 kW", "1.2 kW", "none", "none"),
        *("1", "electric", "5.4 kW", "2", "4.5 kW"),
        *("heat pump", "RLA 16.7 A + fan 1.2 A at 240 V", "22", "", "9.6 kW", "no, told", "3.2 A at 240 V", "yes"),
        *("none", "none", "none"),
        *("charger", "16 A to 48 A", "40", "later", "", ""),
    ]
    code, shown = answer(home, answers, "--work", "new")
    assert code == 0, shown
    found = read(home)
    assert found["service"]["water pipe electrode"] is False
    assert found["service"]["concrete encased electrode"] is True
    assert "rod electrode" not in found["service"]
    assert (found["work"], found["occupied"]) == ("new", False)
    assert [area["name"] for area in found["dwelling units"][0]["areas"]] == ["rooms", "rooms 2", "garage"]
    loads = {load["name"]: load for load in found["dwelling units"][0]["loads"]}
    assert loads["heat pump"]["stops for supplemental heat"] is True
    assert loads["heat pump"]["evidence"] == {"rating": "drawings", "stops for supplemental heat": "told"}
    assert loads["blower"]["on the circuit of"] == "strip heat"
    (charger,) = found["planned"]
    assert (charger["settings"], charger["setting"], charger["later"]) == ("16 A to 48 A", "40 A", True)
    assert charger["evidence"] == "drawings"
    feeder = {"name": "feeder to the panel", "feeds": "house", "bus": "225 A", "conductors": {"length": "45 ft"}}
    assert found["feeders"] == [feeder]
    assert "bus" not in found["service"]
    assert found["service"]["main stands"] == "outside"
    assert found["panels"] == [{"name": "panel", "spaces": 40}]
    assert run("assess", str(home))[0] in (0, 1)


def test_where_the_main_stands_and_conductors_that_are_to_be_chosen(answer: Ask, home: Path) -> None:
    code, shown = answer(home, ["A", "2020", "", "", "to be chosen", "indoors", "to be sized", "stop"], "--work", "new")
    found = read(home)["service"]
    assert (code, found["rating"], found["conductors"], found["main stands"]) == (3, "unknown", "to be chosen", "inside")
    assert "one is to be added ahead of it; the sheet says so" in " ".join(shown.split())
    assert "feeders" not in read(home)


def test_what_is_planned_in_a_new_house_is_taken_as_designers_write_it(answer: Ask, home: Path) -> None:
    """Settings with commas and the wanted one in one line; `no` says nothing where it is asked whether now or later."""
    before = [
        "A",
        "2020, on the permit form",
        "",
        "200 A",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "1500 ft2",
        "",
        "",
        "",
        "",
        "2",
        "gas",
        "none",
        "none",
    ]
    before += ["none", "1", "gas", "gas", "furnace", "none", "6 A at 120 V", "none", "none", "none"]
    planned = ["charger, hot tub later", "48 A unit, settings 16, 24, 32, 40, 48 A, 40 A wanted", "no", "permit", "", ""]
    code, shown = answer(
        home, [*before, *planned, "50 A at 240 V", "breaker", "later", "three wires", "hardwired", "", ""], "--work", "new"
    )
    assert code == 0, shown
    found = read(home)
    assert (found["code"], found["confirmed by"]) == ("nec/2020", "on the permit form, for the edition only")
    charger, tub = found["planned"]
    assert charger["settings"] == ["16 A", "24 A", "32 A", "40 A", "48 A"]
    assert (charger["setting"], charger["later"], charger["evidence"]) == ("40 A", False, "drawings")
    assert '"no" is none of the choices' in " ".join(shown.split())
    assert (tub["rating"], tub["evidence"], tub["connection"], tub["later"]) == (
        "40 A at 240 V",
        "not seen",
        "line to line",
        True,
    )


def test_a_designer_tells_much_in_one_answer(answer: Ask, home: Path) -> None:
    """Nothing of it is lost: ratings to choose from, a material, a length, areas, a rating beside a choice, two chargers."""
    place = ["A", "2023, on the permit form", "", "150 or 200 A"]
    place += ["outside, feeder 45 ft to the panel in the garage", "to be chosen, aluminum", "200 A", "", ""]
    areas = ["1980 ft2 by outside dimensions, drawing A-2, attached garage 520 ft2, covered porch 160 ft2 open", "", "", "", ""]
    kitchen = ["2", "induction range 11.8 kW, data sheet", "none", "none", "1.0 kW drawer, built in", "cooking power"]
    heat = ["heat pump", "4.5 kW elements, 19.2 A at 240 V in all"]
    heat += ["heat pump", "ducted 3 ton, MCA 21.8 A, MOCP 35 A, 208/230 V", "none", "6 A at 120 V"]
    chargers = [
        "two chargers, hardwired; one now, one in two years, other",
        "16, 32, 48 A, 48 A wanted",
        "permit",
        "hardwired",
        "",
    ]
    chargers += [
        "32 A",
        "no",
        "later",
        "plug",
        "30 ft",
        "car charger: 20 A at 240 V; sauna: 6 kW",
        "",
        "",
        "hardwired",
        "later",
        "",
    ]
    typed = [*place, "none", "42", "manual", "", "yes", "yes", *areas, *kitchen, "2", "gas", *heat]
    code, shown = answer(home, [*typed, "none", "none", "none", *chargers], "--work", "new")
    assert code == 0, shown
    assert "Which of them it is counts as not known." in " ".join(shown.split())
    found = read(home)
    chosen = {"size": "to be chosen", "material": "aluminum"}
    assert (found["service"]["rating"], found["service"]["conductors"]) == ("unknown", chosen)
    assert found["feeders"][0]["conductors"] == {"length": "45 ft"}
    (unit,) = found["dwelling units"]
    assert [(each["area"], each["evidence"]) for each in unit["areas"]] == [
        ("1980 ft2", "drawings"),
        ("520 ft2", "drawings"),
        ("160 ft2", "drawings"),
    ]
    assert unit["areas"][2]["kind"] == "open porch"
    loads = {load["name"]: load for load in unit["loads"]}
    assert (loads["range"]["rating"], loads["range"]["evidence"]) == ("11.8 kW", "manual")
    assert loads["heat pump water heater"]["rating"] == "19.2 A at 240 V"
    assert (loads["heat pump"]["rating"], loads["heat pump"]["maximum overcurrent device"]) == ("MCA 21.8 A at 230 V", "35 A")
    planned = [(each["name"], each["later"], each.get("attachment")) for each in found["planned"]]
    assert planned == [
        ("new charger", False, "hardwired"),
        ("second charger", True, "cord and plug"),
        ("car charger", True, "hardwired"),
        ("sauna", True, None),
    ]


@pytest.mark.parametrize("told", ["2020, I think", "2020, not sure", "2020, the city's web page"])
def test_a_doubt_about_the_edition_confirms_nothing(told: str, answer: Ask, home: Path) -> None:
    answer(home, ["A", told, "stop"], "--work", "new")
    assert "confirmed by" not in read(home)


@pytest.mark.slow
def test_several_dwelling_units_one_after_the_other(answer: Ask, run: Any, home: Path, glossary: Glossary) -> None:
    unit = ["900 ft2", "", "", "", "", "range", "11 kW", "none", "none", "none", "1", "none", "none", "heaters", "3 x 1.5 kW"]
    unit += ["none", "none", "none", "none", "none", "none"]
    answers = ["9 Weir Street", "", "3 x flat; attic flat", "", "400 A", "", "", "", "", "", "", "", *unit, *unit]
    answers += ["elevator: 10 kVA", "16 A; 32 A", "none", "charger", "32 A at 240 V", ""]
    code, shown = answer(home, [*answers, "", "", ""], "--work", "units")
    assert code == 0, shown
    found = read(home)
    assert [(each["name"], each.get("quantity")) for each in found["dwelling units"]] == [("flat", 3), ("attic flat", None)]
    assert found["loads"] == [{"name": "elevator", "kind": "elevator", "rating": "10 kVA", "evidence": "told"}]
    assert [each["in"] for each in found["planned"]] == ["house", "attic flat"]
    assert shown.index("Kitchen, flat") < shown.index("Vehicle charging, flat") < shown.index("Kitchen, attic flat")
    facts = home_from_text(home.read_text(encoding="utf-8"), "home.yaml", glossary).facts
    assert "heaters flat" in facts.collections["loads"].names
    assert run("assess", str(home))[0] in ASSESSABLE


def test_an_answer_that_cannot_be_read_is_told_and_asked_again(answer: Ask, home: Path) -> None:
    answers = ["Elm", "nec/1999", "nec/2023", "", "", "two hundred", "200", *[""] * 7, "papers", "2", "stop"]
    code, shown = answer(home, answers, "--work", "existing")
    assert code == UNFINISHED
    assert 'There is no edition "nec/1999"' in shown
    assert '"papers" is none of the choices. Type one of the words, or its number: nameplate, drawings, manual, told' in shown
    assert '"two hundred" is not a number with a unit' in shown
    assert "Taken: 200 A" in shown
    assert read(home)["service"]["rating"] == "200 A"


def test_do_not_know_is_written_as_the_key_can_take_it(answer: Ask, home: Path) -> None:
    answers = [
        "Elm",
        "don't know",
        "no idea",
        "",
        "",
        "don't know",
        "not sure",
        "don't know",
        "don't know",
        "I do not know.",
        "",
        "",
        "1800 ft2",
        *[""] * 3,
        "range",
        "don't know",
        *ENTERS,
    ]
    assert answer(home, answers, "--work", "existing")[0] == 0
    found = read(home)
    assert found["service"]["rating"] == "unknown"
    assert found["service"]["conductors"] == "not seen"
    loads = {load["name"]: load for load in found["dwelling units"][0]["loads"]}
    assert loads["range"] == {"name": "range", "kind": "range", "rating": "typical", "evidence": "assumed"}, (
        "not even that there is one was said"
    )
    assert found["service"]["evidence"] == {"system": "assumed"}
    assert " to " in loads["air conditioner"]["rating"]


def test_typical_is_not_taken_where_no_figure_is_known(answer: Ask, home: Path) -> None:
    code, shown = answer(home, [*HOUSE[: HOUSE.index("central") + 1], "typical", "stop"], "--work", "existing")
    assert code == UNFINISHED
    assert 'No typical rating is known of the kind "air conditioner"' in shown


@pytest.mark.slow
def test_no_main_asks_for_what_takes_its_place(answer: Ask, run: Any, home: Path) -> None:
    answers = ["Elm", "", "", "none", "", "60 A; 40 A", *with_area(7)]
    code, shown = answer(home, answers, "--work", "existing")
    assert code == 0
    assert "This must be said." in shown
    service = read(home)["service"]
    assert service["main overcurrent device"] is False
    assert service["disconnects"] == ["60 A", "40 A"]
    assert "rating" not in service
    assert run("assess", str(home))[0] in ASSESSABLE


def test_back_goes_to_the_question_before_and_keeps_what_is_not_changed(answer: Ask, home: Path) -> None:
    code, shown = answer(home, ["back", "Elm", "nec/2020", "back", "back", "Oak", "", "", "manual", "stop"], "--work", "existing")
    assert code == UNFINISHED
    assert "This is the first question." in shown
    assert "Enter keeps: nec/2020" in shown
    found = read(home)
    assert (found["home"], found["code"]) == ("Oak", "nec/2020")


def test_a_changed_answer_gives_up_what_no_longer_goes_with_it(answer: Ask, home: Path) -> None:
    """Another heating is asked for anew; a planned load does not replace one that is gone."""
    plan = ["heat pump", "MCA 20 A at 240 V", "", "air conditioner"]
    answer(home, [*HOUSE[:-1], "none", *plan, "stop"], "--work", "existing")
    assert read(home)["planned"][0]["replaces"] == "air conditioner"
    back = len(HOUSE) + len(plan) - HOUSE.index("central")
    answer(home, [*["back"] * back, "none", "stop"])
    found = read(home)
    assert "air conditioner" not in {load["name"] for load in found["dwelling units"][0]["loads"]}
    assert "replaces" not in found["planned"][0]


@pytest.mark.slow
@pytest.mark.parametrize("stop_after", [1, 5, 12, 20, 27])
def test_what_was_stopped_goes_on_where_it_was(stop_after: int, answer: Ask, home: Path) -> None:
    answers = [*HOUSE[:-1], "none", "charger", "16 A; 32 A", "14-50", "45 ft", "house"]
    answer(home, answers, "--work", "existing")
    whole = home.read_text(encoding="utf-8")
    home.unlink()
    assert answer(home, answers[:stop_after], "--work", "existing")[0] == UNFINISHED
    code, shown = answer(home, answers[stop_after:])
    assert code == 0, shown
    assert home.read_text(encoding="utf-8") == whole


def test_all_that_was_answered_is_in_the_file_after_every_answer(
    answer: Ask, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    held: list[int] = []
    typed = interview_module.Terminal.type

    def looking(terminal: interview_module.Terminal) -> str:
        held.append(home.read_text(encoding="utf-8").count("# answered: ") if home.exists() else 0)
        return typed(terminal)

    monkeypatch.setattr(interview_module.Terminal, "type", looking)
    answer(home, HOUSE[:11], "--work", "existing")
    assert held == list(range(12))
    assert [path.name for path in Path().iterdir()] == ["home.yaml"]


def test_a_value_that_was_changed_by_hand_is_taken_over(answer: Ask, home: Path) -> None:
    answer(home, [*with_area(), "stop"], "--work", "existing")
    text = home.read_text(encoding="utf-8")
    changed = text.replace("rating: typical, evidence: assumed}", "rating: 9 kW, evidence: assumed}", 1)
    changed = changed.replace("  rating: unknown\n", "  rating: 150 A\n")
    home.write_text(changed.replace("\n", "\r\n"), encoding="utf-8", newline="")
    code, shown = answer(home, [])
    assert code == 0, shown
    assert "What was changed by hand is taken over." in shown
    found = read(home)
    assert found["service"]["rating"] == "150 A"
    assert found["dwelling units"][0]["loads"][0] == {"name": "range", "kind": "range", "rating": "9 kW", "evidence": "assumed"}
    assert "# answered: main_breaker = 150 A" in home.read_text(encoding="utf-8")


@pytest.mark.slow
@pytest.mark.parametrize(
    "change",
    [
        lambda text: text.replace("occupied: yes", "occupied: yes\ndate: 2026-05-04"),
        lambda text: text.replace("# What feeds the house", "# Mr. Ito will send a photograph.\n# What feeds the house"),
        lambda text: text.replace(
            "      - {name: dishwasher", "      - {name: fan, kind: range hood, rating: 90 VA}\n      - {name: dishwasher"
        ),
        lambda text: text.replace("{name: dishwasher,", "{name: the old dishwasher,"),
        lambda text: text.replace("work: existing", "work: addition"),
        lambda text: f"{text}# Mr. Ito will send a photograph.\n",
        lambda text: f"{text}date: 2026-05-04\n",
        lambda text: text.replace("# answered: living_area", "# answered: lving_area"),
    ],
)
def test_a_file_that_was_changed_otherwise_stays_as_it_is(change: Callable[[str], str], answer: Ask, home: Path) -> None:
    answer(home, with_area(12), "--work", "existing")
    before = home.read_text(encoding="utf-8")
    text = change(before)
    assert text != before
    home.write_text(text, encoding="utf-8")
    code, shown = answer(home, ENTERS)
    assert code == 2
    assert "was changed by hand, and to go on would lose that; the file stays as it is" in shown
    assert home.read_text(encoding="utf-8") == text


def test_a_mistake_made_by_hand_is_told(answer: Ask, home: Path) -> None:
    answer(home, with_area(), "--work", "existing")
    text = home.read_text(encoding="utf-8").replace("  rating: unknown\n", "  rating: 150\n")
    home.write_text(text, encoding="utf-8")
    code, shown = answer(home, ENTERS)
    assert code == 2
    assert 'service > rating: "150" lacks its unit' in shown
    assert home.read_text(encoding="utf-8") == text


def test_a_finished_interview_has_nothing_more_to_ask(answer: Ask, home: Path) -> None:
    answer(home, with_area(), "--work", "existing")
    before = home.read_text(encoding="utf-8")
    code, shown = answer(home, [])
    assert code == 0
    assert "That is all." in shown
    assert home.read_text(encoding="utf-8") == before


@pytest.mark.parametrize(
    "title", ["#1: \"Elm\" & 'Oak'", "- a, b: {c} [d]", "été 100 % \u2028 \x07", "yes", "<Elm>x", "1_000: 2"]
)
def test_whatever_is_typed_is_read_back(title: str, answer: Ask, home: Path, glossary: Glossary) -> None:
    assert answer(home, [title, "nec/2020"], "--work", "existing")[0] == UNFINISHED
    text = home.read_text(encoding="utf-8")
    assert str(read_text(text, "home.yaml")["home"]) == " ".join(title.split())  # type: ignore[index]
    assert read_text(f"it: {quoted(title)}\nlist: [{quoted(title)}]", "x")["it"] == title  # type: ignore[index]
    code, shown = answer(home, [*[""] * 10, "stop"])
    assert code == UNFINISHED, shown
    assert "What will you read most ratings from?" in shown


# What people type


@pytest.mark.parametrize(
    ("question", "text", "taken_as"),
    [
        ("main_breaker", "150", "150 A"),
        ("disconnects", "60; 40", "60 A; 40 A"),
        ("charger_run", "45", "45 ft"),
        ("range", "12", "12 kW"),
        ("heaters", "5 x 1.25; 2 kW", "5 x 1.25 kW; 2 kW"),
        ("heat_pump", "MCA 22.6, MAX FUSE 35", "MCA 22.6 A at 240 V, maximum overcurrent device 35 A"),
        ("heat_pump", "MCA: 22.6A  MOCP: 35A  208/230V", "MCA 22.6 A at 230 V, maximum overcurrent device 35 A"),
        ("heat_pump", "max breaker 35, MCA 22.6 A at 240 V", "MCA 22.6 A at 240 V, maximum overcurrent device 35 A"),
        ("heat_pump", "MCA 22.6", "MCA 22.6 A at 240 V"),
        ("heat_pump", "MCA 22.6 A", "MCA 22.6 A at 240 V"),
        ("heat_pump", "MCA 22.6 A at 208/230 V", "MCA 22.6 A at 230 V"),
        ("heat_pump", "MCA 15 A to 30 A at 240 V", "MCA 15 A to 30 A at 240 V"),
        ("heat_pump", "MCA 15 to 30 A", "MCA 15 to 30 A at 240 V"),
        ("planned_heat_pump", "MCA 22 A", "MCA 22 A at 240 V"),
        ("air_conditioner", "MCA 18", "MCA 18 A at 240 V"),
        (
            "heat_pump",
            "RLA 16.7 A + fan 1.2 A at 240 V, MCA 22.6, MOP 35",
            "RLA 16.7 A + fan 1.2 A at 240 V, minimum circuit ampacity 22.6 A, maximum overcurrent device 35 A",
        ),
        ("disposer", "3/4 hp", "3/4 hp at 120 V"),
        ("disposer", "3/4 hp, told", "3/4 hp at 120 V, told"),
        ("disposer", "I think 3/4 hp", "3/4 hp at 120 V, told"),
        ("disposer", "1/2 hp at 115 V ?", "1/2 hp at 115 V, told"),
        ("disposer", "1/2 hp at 115 V, photograph", "1/2 hp at 115 V, photograph"),
        ("dishwasher", "10 A", "10 A at 120 V"),
        ("range", "50 A", "50 A at 240 V"),  # of which it is asked then whether it is the breaker
        ("range", "50", "50 kW"),
        ("dryer", "24 A 240 V 5,300 W", "5,300 W at 240 V"),
        ("dryer", "5.3 kW 120/240 V 24 A, told", "5.3 kW, told"),
        ("range", "240 V 60 Hz 8.8 kW", "8.8 kW at 240 V"),
        ("water_heater", "upper 3,800 W lower 3,800 W non-simultaneous", "3,800 W"),
        ("water_heater", "upper 3,800 W lower 4,500 W non-simultaneous", "4,500 W"),
        ("water_heater", "3800/3800 W, 240 V, non-simultaneous", "3800 W at 240 V"),
        ("water_heater", "upper 3,800 W lower 4,500 W", "4,500 W"),
        ("water_heater", "upper 3,800 W, lower 3,800 W", "3,800 W"),
        ("water_heater", "4500/4500 W", "4500 W"),
        ("water_heater", "4.5 kW (label)", "4.5 kW, nameplate"),
        ("water_heater", "4.5 kW, from the label", "4.5 kW, nameplate"),
        ("water_heater", "50 gal 4.5 kW (label)", "4.5 kW, nameplate"),
        ("dryer", "5400 watts, 240 volts", "5400 W at 240 V"),
        ("main_breaker", "200 A (label)", "200 A, nameplate"),
        ("charger_run", "about 30 feet?", "30 feet"),
        ("water_heater", "4500/3380 W", "4500 W"),
        ("planned_water_heater", "5500/5500 W at 240 V, told", "5500 W at 240 V, told"),
        ("water_heater", "4.5/4.5 kW", "4.5 kW"),
        ("water_heater", "4500/4500 W 240/208 V", "4500 W at 240 V"),
        ("heaters", "upper 3,800 W lower 3,800 W", "upper 3,800 W lower 3,800 W"),
        ("heaters", "upper 3,800 W, lower 3,800 W", "upper 3,800 W, lower 3,800 W"),
        ("water_heater", "gas 3,800 W non-simultaneous", "gas 3,800 W non-simultaneous"),
        ("air_conditioner", "RLA 14.1, fan 1.1 A, 240 V", "RLA 14.1 A + fan 1.1 A at 240 V"),
        ("air_conditioner", "comp RLA 14.1 fan FLA 1.1 at 240 V, told", "RLA 14.1 A + fan 1.1 A at 240 V, told"),
        ("air_conditioner", "14.1 A RLA 1.1 A FLA 240 V", "RLA 14.1 A + fan 1.1 A at 240 V"),
        (
            "air_conditioner",
            "RLA 14.1 FLA 1.1 240 V MCA 18.9 MOP 30",
            "RLA 14.1 A + fan 1.1 A at 240 V, minimum circuit ampacity 18.9 A, maximum overcurrent device 30 A",
        ),
        ("air_conditioner", "RLA 16.7, FLA 1.2, 208/230 V", "RLA 16.7 A + fan 1.2 A at 230 V"),
        ("air_conditioner", "RLA 14.1, FLA 1.1, 208-230V", "RLA 14.1 A + fan 1.1 A at 230 V"),
        ("hot_tub", "240 V 32 A", "32 A at 240 V"),
        ("hot_tub", "240V, 32A, told", "32 A at 240 V, told"),
        ("hot_tub", "32 A or 40 A at 240 V", "32 A or 40 A at 240 V"),
        ("planned_heat_pump_water_heater", "4.5 kW with its element", "4.5 kW"),
        ("planned_heat_pump_water_heater", "4.5 kW without its element", "4.5 kW without its element"),
        ("main_breaker", "200 A?", "200 A, told"),
        ("main_breaker", "I think 200", "200 A, told"),
        ("small_appliance_circuits", "2?", "2, told"),
        ("living_area", "about 1,900 ft2", "1,900 ft2, told"),
        ("living_area", "1,900 ft2", "1,900 ft2, told"),
        ("living_area", "1,900 ft2, measured", "1,900 ft2, measured"),
        ("living_area", "1,900 ft2, plans", "1,900 ft2, drawings"),
        ("planned_hot_tub", "50 A 240 V, brochure", "50 A 240 V, manual"),
        ("planned_charger", "48 A, every whole ampere", "6 A to 48 A"),
        ("planned_charger", "every whole ampere up to 40", "6 A to 40 A"),
        ("planned_charger", "8 A to 48 A, every ampere", "8 A to 48 A"),
        ("planned_charger", "16; 48", "16 A; 48 A"),
    ],
)
def test_an_answer_is_completed_with_what_the_question_says(question: str, text: str, taken_as: str) -> None:
    found = completed(text, question)
    assert (found.text, found.voltages, found.units) == (taken_as, (), ())
    assert completed(taken_as, question).text == taken_as, "what was taken is taken again as it is"


def test_what_of_a_label_was_read_is_told() -> None:
    assert completed("24 A 240 V 5,300 W", "dryer").told == ("Read as 5,300 W at 240 V; 24 A beside it is not taken.",)
    assert completed("3800 W/3800 W non-simultaneous", "water_heater").told == (
        "Read as 3800 W, of one element, for only one heats at a time.",
    )
    assert completed("4500/4500 W", "water_heater").told == (
        "Read as 4500 W, one element at a time, as is usual of a tank. Where both heat together, type their sum.",
    )
    assert completed("8.8 kW at 240 V", "range").told == ()
    assert "Taken as told; `, measured`" in completed("about 1,900 ft2", "living_area").told[0]
    assert completed("1,900 ft2, measured", "living_area").told == ()
    assert completed("RLA 9, FLA 1, 208/230 V", "air_conditioner").told == (
        "The label is for two voltages; 230 V, the one for this supply, is taken.",
        "What a label gives for 230 V counts at the nominal 240 V, whether it names 230 V alone or beside another.",
    )
    alone = "What a label gives for 230 V counts at the nominal 240 V, whether it names 230 V alone or beside another."
    assert completed("3/4 hp 230 V", "well_pump").told == (alone,)
    assert completed("MCA 21, MOCP 35, 230 V", "heat_pump").told == (alone,)
    assert completed("4500 W at 230 V", "water_heater").told == ()  # watts count as they are
    assert completed("MCA 21 A at 240 V", "heat_pump").told == ()


MUCH_CHARGING = (
    "that is much for charging a vehicle at a house, where most equipment takes from 16 A to 48 A at 240 V, or 3.8 kW to 11.5 kW"
)


@pytest.mark.parametrize(
    ("question", "text", "doubt"),
    [
        (
            "air_conditioner",
            "1/2 hp 115 V",
            "a central air conditioner is nearly always for 208 to 240 V; a label for 120 V is mostly that of a blower, or of a unit in "
            "a window",
        ),
        ("air_conditioner", "MCA 18 A 230 V", ""),
        ("room_air_conditioners", "8.5 A at 115 V", ""),
        ("strips", "5 A at 120 V", "heating strips are for 208 to 240 V; the blower may be for 120 V"),
        ("blower", "1/2 hp 115 V", ""),
        ("range", "8.8 kW at 240 V", ""),
        ("range", "26 kW at 240 V", "that is much for a range, and the number on a breaker is no rating"),
        ("range", "110 A at 240 V", "that is much for a range, and the number on a breaker is no rating"),
        ("dryer", "5,300 W at 240 V, told", ""),
        ("water_heater", "1 W", "that is little for a tank with elements"),
        ("water_heater", "0.9 kW at 240 V", "that is little for a tank with elements"),
        ("planned_water_heater", "4.5 kW", ""),
        ("air_conditioner", "RLA 14.1 A + fan 1.1 A at 240 V", ""),
        ("air_conditioner", "RLA 60 A + fan 5 A at 240 V", "that is much for one outdoor unit"),
        ("sump_pump", "1/3 hp at 120 V", ""),
        ("sump_pump", "3 hp at 240 V", "that is much for such a pump"),
        ("bus", "125 A", ""),
        ("bus", "1640 A", "that is much for the panel of a house"),
        ("main_breaker", "20 A", "that is little for a main breaker"),
        ("living_area", "1640 ft2", ""),
        ("living_area", "125 ft2", "that is little for all floors"),
        ("charger", "6 A at 120 V", "that is little for charging a vehicle"),
        ("charger", "32 A at 240 V", ""),
        ("charger", "16 kW, told", MUCH_CHARGING),
        ("charger", "unknown", ""),
        ("planned_charger", "16 A; 240 A", "that is much for charging a vehicle at a house"),
        ("planned_charger", "6 A to 48 A", ""),
    ],
)
def test_what_is_not_plausible_is_asked_again(question: str, text: str, doubt: str) -> None:
    assert plausible(question).doubt(text) == doubt


def test_a_current_that_a_breaker_has_is_asked_about() -> None:
    assert plausible("charger").breaker("50 A 240 V, manual") == "50 A"
    assert plausible("charger").breaker("42 A at 240 V") == ""
    assert plausible("range").breaker("50 A at 240 V") == "50 A"
    assert plausible("dryer").breaker("30 kW") == ""
    assert plausible("charger").on_breaker("50 A") == "12 A to 50 A at 240 V"
    assert plausible("dryer").on_breaker("30 A") == "unknown", "without a typical rating"


@pytest.mark.slow
def test_the_bounds_of_questions_are_values(starter: Starter) -> None:
    """A bound that cannot be read would never be asked about."""
    for question in starter.questions.values():
        for each in (*question.plausible, *question.least):
            assert plausible(question.id).size(each) is not None, f"{question.id}: {each}"
        assert bool(question.plausible) == bool(question.much), question.id
        assert bool(question.least) == bool(question.little), question.id


def test_the_voltage_is_that_of_the_supply() -> None:
    assert completed("MCA 22.6", "heat_pump", system="two lines of a wye").text == "MCA 22.6 A at 208 V"
    assert completed("3/4 hp", "disposer", system="three-phase").text == "3/4 hp at 120 V"


@pytest.mark.parametrize(
    ("question", "text", "usual"),
    [("sump_pump", "1/3 hp", "120 V"), ("well_pump", "1 hp", "240 V"), ("blower", "6", "120 V"), ("hot_tub", "40 A", "240 V")],
)
def test_a_voltage_that_may_be_either_is_asked(question: str, text: str, usual: str) -> None:
    found = completed(text, question)
    assert sorted(found.voltages) == ["120 V", "240 V"]
    assert found.voltages[0] == usual


UP_TO_KITCHEN = ["Elm", "", "", "200", "", "", "", "", "", "", "", "", "1800 ft2", "", "", "", ""]
UP_TO_CLIMATE = [*UP_TO_KITCHEN, "electric", "typical", "", "no", "", "", "gas", "gas"]


def loads_of(path: Path) -> dict[str, Any]:
    return {load["name"]: load for load in read(path)["dwelling units"][0]["loads"]}


@pytest.mark.parametrize(
    ("question", "text", "units", "unit", "taken_as"),
    [
        ("living_area", "1850", ["ft2", "m2"], "ft2", "1850 ft2, told"),
        ("living_area", "1240; 100 m2", ["ft2", "m2"], "ft2", "1240 ft2, told; 100 m2, told"),
        ("disposer", "1/2, told", ["hp", "A"], "hp", "1/2 hp at 120 V, told"),
        ("dishwasher", "10", ["kW", "A"], "A", "10 A at 120 V"),
    ],
)
def test_a_unit_that_may_be_either_is_asked(question: str, text: str, units: list[str], unit: str, taken_as: str) -> None:
    assert completed(text, question) == Completed(text, units=units)
    starter = read_starter(None, own_glossary())
    answers = Answers(starter, starter.works["existing"])
    assert Completion(starter.questions[question], answers, own_glossary()).of(text, unit=unit).text == taken_as


def test_a_unit_and_a_voltage_are_asked_one_after_the_other(answer: Ask, home: Path) -> None:
    """Of a pump that may be on either voltage; the same question again after `back`."""
    more = [*[""] * 3, "well pump", "1/2", "a", "back", "1/2", "hp", "240V", "stop"]
    shown = answer(home, [*UP_TO_CLIMATE, "none", "none", *more], "--work", "existing")[1]
    assert shown.count("In which unit? hp or A.") == 2
    assert "Taken: 1/2 hp at 240 V" in shown
    assert loads_of(home)["well pump"]["rating"] == "1/2 hp at 240 V"


def test_a_number_of_a_breaker_is_not_taken_for_a_rating_at_once(answer: Ask, home: Path) -> None:
    shown = answer(home, [*UP_TO_KITCHEN, "range", "50", "12", "stop"], "--work", "existing")[1]
    assert "That is much for a range, and the number on a breaker is no rating; type it again to keep it." in shown
    assert loads_of(home)["range"]["rating"] == "12 kW"


def test_the_label_of_a_heat_pump_gives_its_keys(answer: Ask, home: Path, glossary: Glossary) -> None:
    code, shown = answer(home, [*UP_TO_CLIMATE, "heat pump", "MCA 22.6, MAX FUSE 35, told", "stop"], "--work", "existing")
    assert code == UNFINISHED
    assert "Taken: MCA 22.6 A at 240 V, maximum overcurrent device 35 A, told" in shown
    found = loads_of(home)["heat pump"]
    assert found["rating"] == "MCA 22.6 A at 240 V"
    assert (found["maximum overcurrent device"], found["evidence"]) == ("35 A", "told")
    facts = home_from_text(home.read_text(encoding="utf-8"), "home.yaml", glossary).facts.collections["loads"]
    at = facts.names.index("heat pump")
    assert facts.fields["maximum_overcurrent_device"][at] == 35
    assert facts.fields["marked_amperes"][at] == 22.6
    home.write_text(home.read_text(encoding="utf-8").replace("rating: MCA 22.6 A", "rating: MCA 24 A"), encoding="utf-8")
    assert "What was changed by hand is taken over." in answer(home, ["stop"])[1]
    assert loads_of(home)["heat pump"]["rating"] == "MCA 24 A at 240 V"
    assert loads_of(home)["heat pump"]["evidence"] == "told"


def test_help_is_shown_and_answers_nothing(answer: Ask, home: Path) -> None:
    code, shown = answer(home, [*UP_TO_KITCHEN, "?", "gas", "HELP", "help", "stop"], "--work", "existing")
    assert code == UNFINISHED
    assert "One of the words, or its number." in shown
    assert shown.count("`don't know` asks whether there is one.") == 2
    assert "`back` goes to the question before" in shown
    assert read(home)["dwelling units"][0].get("loads", []) == []


@pytest.mark.parametrize(
    "said",
    [
        "idk",
        "not sure",
        "I don't know",
        "i do not know.",
        "dont know",
        "no idea",
        "Unknown",
        "I\u2019m not sure",
        "don\u2019t know",
        "not chosen yet",
        "undecided",
    ],
)
def test_the_usual_ways_of_not_knowing(said: str, starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    assert taken(said, starter.questions["bus"], answers) == Answer("unknown", True)
    assert taken(said, starter.questions["cooking"], answers) == Answer("range", True)


@pytest.mark.parametrize(
    ("question", "said", "taken_as"),
    [
        ("heating", "gas furnace with a fan", "furnace"),
        ("heating", "we have a gas furnace", "furnace"),
        ("heating", "furnace with a fan, mini-split", "furnace, heat pump"),
        ("cooking", "gas now", "gas"),
        ("cooking", "induction range", "range"),
        ("planned", "induction range, heat pump water heater, car charger", "range, heat pump water heater, charger"),
        ("microwave", "plug in", "none"),
        ("cooling", "central air", "central"),
    ],
)
def test_what_is_not_ambiguous_is_taken(question: str, said: str, taken_as: str, starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    assert taken(said, starter.questions[question], answers) == Answer(taken_as)


@pytest.mark.parametrize(
    ("question", "said"),
    [
        ("heating", "coal stove with a fan"),
        ("heating", "furnace boiler"),
        ("cooking", "gas or electric"),
        ("water_heating", "solar"),
    ],
)
def test_what_may_be_several_choices_or_none_is_asked_back(question: str, said: str, starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    with pytest.raises(InputError) as caught:
        taken(said, starter.questions[question], answers)
    assert [each.message.key for each in caught.value.problems] == ["start_no_choice"]


def test_an_area_of_which_only_is_known_that_it_is_there_has_bounds(answer: Ask, home: Path) -> None:
    """Not known and there: bounds of the project. Not known whether: none, as assumed."""
    code, shown = answer(home, [*with_area(12)[:13], "idk", "yes", "idk", "idk", "stop"], "--work", "existing")
    assert code == UNFINISHED
    assert "bounds of this project, of no source" in shown
    areas = read(home)["dwelling units"][0]["areas"]
    assert areas[1] == {
        "name": "finished basement",
        "kind": "finished basement",
        "area": "200 ft2 to 1500 ft2",
        "evidence": "not seen",
    }
    assert {"kind": "unfinished adaptable", "evidence": "assumed"} in read(home)["none of"]


@pytest.mark.parametrize("said", ["half finished", "half-finished", "partially finished", "half of it is finished"])
def test_a_basement_that_is_finished_in_part_is_two_areas_and_the_question_says_so(said: str, answer: Ask, home: Path) -> None:
    _, shown = answer(home, [*with_area(12)[:13], said, "no", "the rest", "stop"], "--work", "existing")
    assert "Is the finished part in the 1800 ft2 already that were said?" in shown
    assert "finished in part only that part, such as 450 ft2; the rest of it is asked next" in " ".join(shown.split())
    areas = read(home)["dwelling units"][0]["areas"]
    assert [(each["kind"], each["area"]) for each in areas[1:]] == [
        ("finished basement", "100 ft2 to 900 ft2" if "half" in said else "200 ft2 to 1500 ft2"),
        ("unfinished adaptable", "200 ft2 to 1500 ft2"),
    ], "half of it is no more than half of all that is lived in"


@pytest.mark.parametrize("said", [["two-car garage"], ["yes"], ["behind the house", "don't know", ""]])
def test_a_garage_that_somebody_told_of_has_bounds(said: list[str], answer: Ask, home: Path) -> None:
    bounds = "400 ft2 to 600 ft2" if "two" in said[0] else "200 ft2 to 900 ft2"
    answer(home, [*with_area(12)[:13], "none", "none", *said, "stop"], "--work", "existing")
    garage = read(home)["dwelling units"][0]["areas"][1]
    assert garage == {"name": "garage", "kind": "attached garage", "area": bounds, "evidence": "not seen"}


def test_yes_says_that_there_is_one_and_no_more(starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"], {"dishwasher": "typical"})
    assert taken("yes", starter.questions["dishwasher"], answers) == Answer("typical", assumed=True, there=True)
    assert taken("there is one", starter.questions["pool_pump"], answers).text == "1/2 hp to 3 hp at 240 V"
    with pytest.raises(InputError) as caught:
        taken("yes", starter.questions["living_area"], answers)
    assert [each.message.key for each in caught.value.problems] == ["start_must_say"]


@pytest.mark.parametrize("said", ["furnace?", "maybe furnace", "I think gas furnace"])
def test_a_choice_that_is_not_sure_counts_as_assumed(said: str, starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    assert taken(said, starter.questions["heating"], answers) == Answer("furnace", True)


def test_yes_stands_for_what_was_said_of_today(starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    answers.given = {("cooking", 0): Answer("gas"), ("planned", 0): Answer("range, water heater")}
    assert taken("yes", starter.questions["range_replaces"], answers, 0) == Answer("gas range")
    answers.given["cooking", 0] = Answer("range")
    assert taken("yes", starter.questions["range_replaces"], answers, 0) == Answer("range")
    answers.given["cooking", 0] = Answer("none")
    with pytest.raises(InputError):
        taken("yes", starter.questions["range_replaces"], answers, 0)


def test_an_owner_who_knows_little(answer: Ask, run: Any, home: Path) -> None:
    """What was told or assumed stands in the file as such, and on the sheet among the facts not verified."""
    answers = [
        "31 Mill Yard",
        "don't know",
        "",
        "about 200",
        "no idea",
        "dunno",
        "",
        "don't know",
        "",
        "no",
        "",
        "don't know",
        "about 2,300 ft2",
    ]
    answers += ["", "", "", "don't know", "gas now, induction planned", "about 1.2 kW", "none", "plug in", ""]
    answers += [
        "gas",
        "gas",
        "gas furnace with a fan",
        "central",
        "RLA 16.7, FLA 1.2, 208/230 V",
        "",
        "",
        "don't know",
        "16 kW?",
        "none",
    ]
    answers += [
        "none",
        "240 V 32 A",
        "",
        "",
        "induction range, heat pump water heater, car charger",
        "not chosen yet",
        "",
        "",
        "",
        "",
    ]
    answers += ["4.5 kW with its element", "", "yes", "11.9 kW 240 V, told", "", "yes", ""]
    code, shown = answer(home, answers, "--work", "existing")
    assert code == 0
    assert "How is cooking done today, before the change?" in shown
    assert "From here on, what is there today" in shown
    assert "What is planned is asked at the end. Taken: gas Kept as a remark: induction planned." in shown
    found = read(home)
    (unit,) = found["dwelling units"]
    assert unit["areas"] == [{"name": "rooms", "kind": "living", "area": "2,300 ft2", "evidence": "told"}]
    assert unit["evidence"] == {"small appliance circuits": "assumed", "laundry circuits": "assumed"}
    assert found["service"]["evidence"] == {"system": "assumed", "rating": "told"}
    assert [(each["name"], each.get("replaces"), each.get("evidence")) for each in found["planned"]] == [
        ("new charger", None, "assumed"),
        ("new heat pump water heater", "gas water heater", "told"),
        ("new range", "gas range", "told"),
    ]
    code, sheet, _ = run("assess", str(home))
    assert code == 0
    sheet = " ".join(sheet.split())
    for text in (
        "rooms: outside dimensions: 2,300 ft2, told, neither seen nor measured",
        "rating of the main overcurrent device: 200 A, told, neither seen nor measured",
        "supply system: 120/240 V single-phase 3-wire, assumed, for nobody has said or seen it",
        "house: 20 A small-appliance branch circuits: 2, assumed, for nobody has said or seen it",
        "finished basement, unfinished adaptable, attached garage",
        "assumed not to be there, for nobody has said so",
        "new charger: what it can be set to is assumed, for nobody has said or seen it",
        "To be confirmed on site first: what new charger can be set to, which is assumed; main overcurrent device; ",
        "gas range: taken out, new range in its place",
    ):
        assert text in sheet, text


@pytest.mark.parametrize("said", ["no", "None", "nothing", "there is none"])
def test_the_usual_ways_of_saying_none(said: str, starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    for name in ("disposer", "cooling", "planned", "garage"):
        assert taken(said, starter.questions[name], answers) == Answer("none")


def test_words_that_mean_a_choice(starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    assert taken("electric", starter.questions["cooking"], answers).text == "range"
    assert taken("Electric", starter.questions["water_heating"], answers).text == "tank"


def test_what_may_not_be_there_is_asked_first(answer: Ask, home: Path) -> None:
    """Nobody knows: not there, and listed as assumed; it is there: between bounds; it is not: stated."""
    there = ["don't know", "hm", "don't know", "don't know", "yes", "no idea", "no"]
    code, shown = answer(home, [*UP_TO_CLIMATE, "none", "none", *there, "stop"], "--work", "existing")
    assert code == UNFINISHED
    assert (shown.count("Is there one? yes or no."), shown.count("Is there one? yes or no;")) == (3, 1)
    loads = loads_of(home)
    assert "charger" not in loads
    assert loads["pool pump"]["evidence"] == "not seen", "that there is one was said"
    assert "# there: pool_pump" in home.read_text(encoding="utf-8")
    assert loads["pool pump"]["rating"] == "1/2 hp to 3 hp at 240 V"
    assert "pool heater" in read(home)["none of"]
    assert {"kind": "EV charging equipment", "evidence": "assumed"} in read(home)["none of"]


def test_a_voltage_that_nobody_knows_is_noted(answer: Ask, home: Path) -> None:
    more = [*[""] * 3, "sump pump, well pump", "1/3 hp", "back", "1/3 hp, told", "don't know", "1 hp", "120", "stop"]
    code, shown = answer(home, [*UP_TO_CLIMATE, "none", "none", *more], "--work", "existing")
    assert code == UNFINISHED
    found = loads_of(home)
    assert found["well pump"]["rating"] == "1/3 hp at 240 V"
    assert found["well pump"]["evidence"] == "told"
    assert found["sump pump"] == {"name": "sump pump", "kind": "sump pump", "rating": "1 hp at 120 V", "evidence": "told"}
    assert home.read_text(encoding="utf-8").count("The voltage is assumed; the rest was said.") == 1


def test_a_blower_that_is_more_than_a_fan_is_asked_again(answer: Ask, home: Path) -> None:
    blower = [*UP_TO_CLIMATE, "furnace", "none", "9.6 kW", "9.6 kW", "back", "6 A at 120 V", "stop"]
    code, shown = answer(home, blower[:-3], "--work", "existing")
    assert code == UNFINISHED
    assert shown.count("That is much for a fan") == 1
    assert loads_of(home)["blower"]["rating"] == "9.6 kW"
    assert "That is much" not in answer(home, ["back", "6 A at 120 V", "stop"])[1]


@pytest.mark.parametrize(
    ("typed", "lower", "planned"),
    [
        ("48", "", {"settings": ["16 A", "24 A", "32 A", "40 A", "48 A"]}),
        ("28 A", "yes", {"settings": ["16 A", "24 A", "28 A"]}),
        ("48 A", "n", {"rating": "setting 48 A"}),
        ("12 A", "not sure", {"settings": ["12 A"]}),
    ],
)
def test_a_charger_with_one_setting(typed: str, lower: str, planned: dict[str, Any], answer: Ask, home: Path) -> None:
    answer(home, [*UP_TO_CLIMATE, *["none"] * 7, "charger", typed, lower, ""], "--work", "existing")
    made = {"name": "new charger", "kind": "EV charging equipment", **planned}
    common = len(planned.get("settings", ())) > 1  # those below the largest are common ones, which nobody has said
    assert read(home)["planned"] == [{**made, "evidence": "assumed" if common else "told"}]
    told = [f"new charger - {planned['settings'][-1]} told as its largest setting"] if common else None
    assert read(home).get("remarks") == told


@pytest.mark.parametrize(
    ("typed", "what", "largest"),
    [
        ("a 50 amp one", "", "40 A"),
        ("50 amp circuit", "breaker", "40 A"),
        ("60-amp", "not sure", "48 A"),
        ("50 A", "what it draws", "50 A"),
        ("50 A at 240 V", "breaker", "40 A at 240 V"),
        ("40", "what it draws", "40 A"),
    ],
)
def test_a_size_of_breaker_is_not_taken_for_what_a_charger_draws(
    typed: str, what: str, largest: str, answer: Ask, home: Path
) -> None:
    shown = answer(home, [*UP_TO_CLIMATE, *["none"] * 7, "charger", typed, what, "no", ""], "--work", "existing")[1]
    assert "is a common size of breaker. Is that the breaker (then the charger draws" in shown
    assert read(home)["planned"][0]["rating"].removeprefix("setting ") == largest


@pytest.mark.parametrize(
    ("typed", "bounds"),
    [
        ("2.5 ton", "MCA 12 A to 26 A at 240 V"),
        ("a 2 1/2-ton unit", "MCA 12 A to 26 A at 240 V"),
        ("3 tons", "MCA 15 A to 30 A at 240 V"),
        ("3 ton heat pump", "MCA 15 A to 30 A at 240 V"),
        ("7 ton", None),
        ("MCA 22 A", None),
    ],
)
def test_a_size_in_tons_has_bounds(typed: str, bounds: str | None, starter: Starter) -> None:
    found = sized(typed, starter.questions["planned_heat_pump"], starter.words)
    assert (found and found.text) == bounds
    assert sized(typed, starter.questions["range"], starter.words) is None


def test_what_a_quote_says_of_a_heat_pump_with_its_backup(answer: Ask, home: Path) -> None:
    heat_pump = ["heat pump", "2.5 ton, 15 kW backup", "none", "", ""]
    code, shown = answer(home, [*UP_TO_CLIMATE, *["none"] * 7, *heat_pump], "--work", "existing")
    assert code == 0, shown
    assert "Taken: MCA 12 A to 26 A at 240 V, bounds of this project by its tons, of no source" in shown
    assert "Electric heating strips with the heat pump that is planned: 15 kW" in shown
    assert "Enter keeps: 15 kW" in shown
    planned = read(home)["planned"]
    assert [each["rating"] for each in planned] == ["MCA 12 A to 26 A at 240 V", "15 kW"]
    assert planned[0]["evidence"] == "not seen"


@pytest.mark.parametrize(
    ("question", "said", "meant"),
    [
        ("main_breaker", "the big one says 125", "125"),
        ("main_breaker", "it says 200 A", "200 A"),
        ("main_breaker", "200 A, told", "200 A, told"),
        ("main_breaker", "125 or 150", "125 or 150"),
        ("disposer", "under the sink, yes", "yes"),
        ("sump_pump", "plugged into the wall, no idea", "no idea"),
        ("microwave", "it is plugged in, on the counter", "none"),
        ("heat_pump_replaces", "the old AC, my gas boiler", "air conditioner; gas boiler"),
        ("planned_charger", "16 A; 24 A", "16 A; 24 A"),
        ("planned_charger", "6 A to 48 A", "6 A to 48 A"),
        ("free_spaces", "30 spaces, 26 taken", "4"),
        ("free_spaces", "26 of 30 used", "4"),
        ("free_spaces", "30, 30 taken", "0"),
        ("free_spaces", "4", "4"),
        ("free_spaces", "3 or 4", "3"),
        ("unfinished_basement", "no, just insulation", "none"),
        ("range", "no, gas", "none"),
        ("garage", "it's an attached garage", "yes"),
        ("garage", "no garage", "no garage"),
        ("garage", "440 ft2", "440 ft2"),
        ("unfinished_basement", "full, unfinished basement", "yes"),
        ("finished_basement", "we have a basement", "yes"),
    ],
)
def test_an_answer_in_a_sentence(question: str, said: str, meant: str, starter: Starter) -> None:
    assert spoken(said, starter.questions[question], starter.words) == meant


def test_an_owner_speaks_in_his_own_words(answer: Ask, home: Path) -> None:
    begins = [
        "Elm",
        "the new one, maybe 2023?",
        "",
        "150",
        "",
        "",
        "no, just the web page",
        "",
        "",
        "no solar",
        "3 or 4",
        "",
        "electric",
    ]
    code, shown = answer(home, [*begins, "1900 ft2", "no idea", "none", "stop"], "--work", "existing")
    assert code == UNFINISHED
    assert "Taken: nec/2023, until the building department says which one is adopted" in shown
    assert shown.index('"electric" is not a number') < shown.index("Taken as told;")  # said once there is an area
    assert "Is there one? yes or no;" not in shown
    assert read(home)["panels"] == [{"name": "panel", "spaces": 3}]


def test_the_size_of_conductors_with_their_material(answer: Ask, home: Path) -> None:
    code, shown = answer(home, ["Elm", "2020", "", "", "200", "", "4 AWG copper", "stop"], "--work", "existing")
    assert code == UNFINISHED
    assert "Taken: 4 AWG, copper" in shown
    assert "Taken: nec/2020" in shown
    assert read(home)["service"]["conductors"] == {"size": "4 AWG", "material": "copper"}
    home.unlink()
    answer(home, ["Elm", "2020", "", "", "200", "", "#4 cu", "stop"], "--work", "existing")
    assert read(home)["service"]["conductors"] == {"size": 4, "material": "copper"}
    assert shown.count("Material of the service conductors?") == 0


@pytest.mark.parametrize(
    "typed", ["aluminum 1/0 AWG, seen in the panel", "1/0 AWG aluminum, printed on the cable", "1/0 AWG, aluminum, seen"]
)
def test_the_size_of_conductors_with_material_and_where_it_was_read(typed: str, answer: Ask, home: Path) -> None:
    answer(home, ["Elm", "2020", "", "", "200", "", typed, "stop"], "--work", "existing")
    assert read(home)["service"]["conductors"] == {"size": "1/0 AWG", "material": "aluminum", "evidence": {"size": "nameplate"}}


@pytest.mark.parametrize(
    "edition", ["2020 NEC", "NEC 2020", "2020", "nec/2020", "the town hall says 2020 I think", "2020, not sure"]
)
def test_an_edition_however_it_is_written(edition: str, answer: Ask, home: Path) -> None:
    answer(home, ["Elm", edition, "stop"], "--work", "existing")
    assert read(home)["code"] == "nec/2020"


def test_an_edition_that_nobody_knows_is_taken_meanwhile(answer: Ask, home: Path) -> None:
    until = "Taken: nec/2023, until the building department says which one is adopted"
    assert until in answer(home, ["Elm", "don't know", "stop"], "--work", "existing")[1]
    assert until in " ".join(home.read_text(encoding="utf-8").replace("#", " ").split())


def test_what_is_typical_is_told(answer: Ask, home: Path) -> None:
    shown = answer(home, [*UP_TO_KITCHEN, "range", "stop"], "--work", "existing")[1]
    assert "Enter takes: typical, 12,000 VA, between 8,800 VA and 16,500 VA, by: Installation manual" in shown


def test_whose_the_bounds_are_is_told_where_they_are_taken(answer: Ask, home: Path, starter: Starter) -> None:
    """At the question, as it is taken, and in the file; a typical rating with its source."""
    shown = answer(home, [*UP_TO_CLIMATE, "heat pump", "?", "don't know", "stop"], "--work", "existing")[1]
    told = f"MCA 8 A to 50 A at 240 V, {starter.bounds}"
    assert "of this project, of no source" in starter.bounds
    assert shown.count(told) == 4, "the question, help with the question again, what is taken"
    assert "Maximum fuse or breaker" not in shown, "nobody read the label"
    text = " ".join(home.read_text(encoding="utf-8").replace("#", " ").split())
    assert f"Assumed; nobody has said or seen it. Taken: {starter.bounds}." in text
    assert (
        re.search(r"Assumed; nobody has said or seen it\. Taken: 5,400 VA, between 4,500 VA and 5,600 VA, by: \w", text) is None
    )
    home.unlink()
    answer(home, [*UP_TO_KITCHEN, "electric", "", "stop"], "--work", "existing")
    text = " ".join(home.read_text(encoding="utf-8").replace("#", " ").split())
    assert "Taken: 12,000 VA, between 8,800 VA and 16,500 VA, by: Installation manual" in text


def test_every_bound_that_is_taken_has_an_origin(starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"], {"range": "a figure with its source"})
    for question in starter.questions.values():
        if question.form in ("load", "planned") and " to " in question.not_known:
            assert answers.origin(question, question.not_known) == starter.bounds
        assert not (question.settings and question.enter.get("otherwise", "none") != "none" and not question.meanwhile), (
            question.id
        )
    assert answers.origin(starter.questions["range"], "typical") == "a figure with its source"
    assert answers.origin(starter.questions["heat_pump"], "MCA 20 A at 240 V") == ""


RECORD = [
    *("yes", "year.csv", "year.csv", "mountain", "yes", "whole supply", "no", "2026-03-14", "load removed"),
    *("2026-01-01", "2026-01-31", "855", "0.97", "8"),
]


def test_a_file_of_the_meter_is_asked_for_with_the_service(answer: Ask, home: Path, glossary: Glossary) -> None:
    code, shown = answer(home, [*UP_TO_KITCHEN[:6], *RECORD, "stop"], "--work", "existing")
    assert code == UNFINISHED, shown
    assert "This must be said. Such as interval_data.csv." in shown, "that there is one says no name"
    assert shown.index("Service -") < shown.index("Meter -") < shown.index("What is the rating of the panel itself")
    assert read(home)["meter"] == {
        "file": "year.csv",
        "time zone": "America/Denver",
        "standard time": True,
        "line": "whole supply",
        "generation": False,
        "changes": [{"date": date(2026, 3, 14), "what": "load removed"}],
        "bills": [{"from": date(2026, 1, 1), "to": date(2026, 1, 31), "energy": "855 kWh"}],
        "power factor": 0.97,
        "imbalance": "8 %",
    }
    code, shown = answer(home, [*[""] * 3, "1800 ft2", *ENTERS])
    assert code == 0, shown
    assert "dwellcalc meter year.csv --home home.yaml" in shown
    found = home_from_text(home.read_text(encoding="utf-8"), "home.yaml", glossary)
    assert found.meter is not None


@pytest.mark.slow
def test_what_is_not_known_of_a_record_is_left_out(answer: Ask, home: Path) -> None:
    """That nothing changed is stated; without a file nothing more is asked of it."""
    answers = [*UP_TO_KITCHEN[:6], "year.csv", "year.csv", "", "don't know", "", "", "none", "none", "", "", "stop"]
    assert answer(home, answers, "--work", "addition")[0] == UNFINISHED
    assert read(home)["meter"] == {"file": "year.csv", "changes": []}
    home.unlink()
    shown = answer(home, [*UP_TO_KITCHEN[:6], "no", "stop"], "--work", "addition")[1]
    assert "What is the rating of the panel itself" in shown
    assert "meter" not in read(home)
    home.unlink()
    assert "interval data" not in answer(home, ENTERS, "--work", "new")[1]


@pytest.mark.parametrize("none", ["none", "0", "no"])
def test_a_full_panel_has_no_free_space(none: str, answer: Ask, home: Path, glossary: Glossary) -> None:
    answer(home, [*UP_TO_KITCHEN[:10], none, "", "1800 ft2", "0", "stop"], "--work", "existing")
    assert read(home)["panels"] == [{"name": "panel", "spaces": 0}]
    assert [area["name"] for area in read(home)["dwelling units"][0]["areas"]] == ["rooms"], "none of a finished basement"
    made = home_from_text(home.read_text(encoding="utf-8"), "home.yaml", glossary)
    assert made.facts.collections["panels"].fields["spaces"] == [0.0]


def test_the_label_is_asked_for_what_the_rating_does_not_give(answer: Ask, home: Path) -> None:
    rated = [*UP_TO_CLIMATE, "heat pump", "RLA 16.7 A + fan 1.2 A at 240 V", "22.6", "35", "stop"]
    answer(home, rated, "--work", "existing")
    found = loads_of(home)["heat pump"]
    assert (found["minimum circuit ampacity"], found["maximum overcurrent device"]) == ("22.6 A", "35 A")
    home.unlink()
    shown = answer(home, [*UP_TO_CLIMATE, "heat pump", "MCA 22.6", "35", "stop"], "--work", "existing")[1]
    assert "Minimum circuit ampacity that the label" not in shown
    assert loads_of(home)["heat pump"]["maximum overcurrent device"] == "35 A"


def test_a_charger_that_is_not_chosen_has_the_common_settings(answer: Ask, home: Path) -> None:
    """`don't know` takes them as Enter does, and they are still offered where something else was answered."""
    code, shown = answer(home, with_area(), "--work", "existing")
    number = re.search(r"(\d+) Charger that is planned", shown)
    assert code == 0 and number
    shown = answer(home, [number[1], "don't know", number[1], "32 A", "no", number[1], "", ""])[1]
    assert "Taken: 16 A; 24 A; 32 A; 40 A; 48 A, common settings, of no source, until the equipment is chosen" in shown
    assert "Taken: setting 32 A, its rating, which cannot be set" in shown
    assert "Enter keeps: setting 32 A `don't know` takes: 16 A; 24 A; 32 A; 40 A; 48 A" in shown
    shown = answer(home, [number[1], "40 A", "what it draws", "every whole ampere", ""])[1]
    assert "Taken: 6 A to 40 A, with every whole ampere between them as a setting" in shown
    assert read(home)["planned"][0]["settings"] == "6 A to 40 A"


def test_the_breaker_of_a_hot_tub_is_no_rating(answer: Ask, home: Path) -> None:
    answer(home, with_area(), "--work", "existing")
    shown = answer(home, [])[1]
    number = re.search(r"(\d+) What is planned:", shown)
    assert number
    answers = [
        number[1],
        "hot tub",
        "50 A 240 V, brochure",
        "",
        "hardwired",
        "back yard, 60 ft or so",
        "",
    ]
    code, shown = answer(home, answers)
    assert code == 0, shown
    assert (
        "(then the hot tub draws 40 A at most), or what it draws? breaker or what it draws. Enter and `don't know` take: breaker,"
        in shown
    )
    made = {"name": "new hot tub", "kind": "hot tub", "rating": "40 A 240 V", "taken from breaker": "50 A"}
    beside = {"attachment": "hardwired", "length": "60 ft"}
    assert read(home)["planned"] == [{**made, "evidence": "not seen", **beside}]
    assert read(home)["remarks"] == ["new hot tub - taken from breaker 50 A; back yard"]
    number = re.search(r"(\d+) Hot tub that is planned:", shown)
    assert number
    assert answer(home, [number[1], "50 amp", "240 V", "what it draws", ""])[0] == 0
    planned = read(home)["planned"][0]
    assert (planned["rating"], planned.get("taken from breaker")) == ("50 A at 240 V", None)


@pytest.mark.parametrize(
    "typed",
    ["32 A at 240 V, told, on a 40 A breaker, later", "32 A at 240 V, 40 A breaker, perhaps next year", "32 A at 240 V, someday"],
)
def test_what_comes_later_is_told_with_its_rating(typed: str, answer: Ask, home: Path) -> None:
    answer(home, with_area(), "--work", "existing")
    number = re.search(r"(\d+) What is planned:", answer(home, [])[1])
    assert number
    answers = [number[1], "charger, hot tub perhaps next year", "", typed, "", "", ""]
    code, shown = answer(home, answers)
    assert code == 0, shown
    charger, tub = read(home)["planned"]
    assert (tub["rating"], tub["later"]) == ("32 A at 240 V", True)
    assert charger["later"] is False
    assert "Is the hot tub in this permit" not in shown, "it was told"


@pytest.mark.parametrize(
    ("typed", "panel"),
    [
        ("30 spaces, 24 taken", {"spaces": 30, "taken": 24}),
        ("24 of 30 are used", {"spaces": 30, "taken": 24}),
        ("30 spaces, 6 free", {"spaces": 30, "taken": 24}),
        ("6 free, 24 taken", {"spaces": 30, "taken": 24}),
        ("6", {"spaces": 6}),
        ("3 or 4", {"spaces": 3}),
    ],
)
def test_the_spaces_that_are_taken_are_kept(typed: str, panel: dict[str, int], answer: Ask, home: Path) -> None:
    answer(home, [*UP_TO_KITCHEN[:10], typed, "stop"], "--work", "existing")
    assert read(home)["panels"] == [{"name": "panel", **panel}]
    assert answer(home, ["", "1800 ft2", *ENTERS])[0] == 0


WHO = "Who of the building department confirmed that edition and its local amendments, if anyone?"


@pytest.mark.parametrize(
    "typed", ["2020, I think", "the 2020 code, I think", "we are on the 2020 code, I think", "2020 maybe", "2020?"]
)
def test_an_edition_that_somebody_is_not_sure_of_is_not_confirmed(typed: str, answer: Ask, home: Path) -> None:
    shown = answer(home, ["Elm", typed, "stop"], "--work", "existing")[1]
    assert "Taken: nec/2020, until the building department says which one is adopted" in shown
    assert WHO not in shown
    assert "# assumed: edition = nec/2020" in home.read_text(encoding="utf-8")


def test_a_file_of_the_meter_that_is_not_there_is_asked_about(answer: Ask, home: Path) -> None:
    begins = UP_TO_KITCHEN[:6]
    shown = answer(home, [*begins, "the big bill", "only the web page, no download", "stop"], "--work", "existing")[1]
    assert 'There is no file "the big bill" beside the home file yet.' in shown
    assert "Ask for 12 months of interval data of your meter" in shown and "ESPI" in shown
    assert "# answered: meter_file = none" in home.read_text(encoding="utf-8")
    home.unlink()
    Path("year.csv").write_text("x", encoding="utf-8")
    assert "There is no file" not in answer(home, [*begins, "year.csv", "stop"], "--work", "existing")[1]


@pytest.mark.parametrize("said", ["both", "central, room", "central and a window unit"])
def test_rooms_may_be_cooled_in_two_ways(said: str, answer: Ask, home: Path) -> None:
    cooling = ["gas furnace", said, "MCA 18", "", "10 A at 120 V", "stop"]
    shown = answer(home, [*UP_TO_CLIMATE, *cooling], "--work", "existing")[1]
    assert "Taken: furnace" in shown
    assert [name for name in loads_of(home) if "air" in name] == ["air conditioner", "room air conditioner"]


def test_a_rating_of_a_dryer_says_that_it_is_electric(answer: Ask, home: Path) -> None:
    shown = answer(home, [*UP_TO_CLIMATE[:-2], "240 V 24 A 5600 W", "stop"], "--work", "existing")[1]
    assert "Taken: electric, Electric clothes dryer: 5600 W at 240 V" in shown
    assert shown.index("Taken: electric, ") < shown.index("How is water heated")
    assert "Electric clothes dryer: what is its rating?" not in shown
    assert loads_of(home)["dryer"]["rating"] == "5600 W at 240 V"


def test_a_number_is_that_of_a_choice_and_never_a_rating(starter: Starter) -> None:
    """A choice may be typed by its number where a rating may be typed too."""
    answers = Answers(starter, starter.works["existing"])
    for station in starter.stations:
        for question in station.questions:
            for at, word in enumerate(question.choices, 1):
                step = Step(station, question, 0)
                assert told_with(step, str(at), answers, own_glossary()) == (str(at), []), question.id
                assert taken(str(at), question, answers).text == word
    small = {"dryer": "1 kW", "range": "2 kW", "tankless": "3 A at 240 V", "disposer": "1 A at 120 V", "planned_dryer": "1 kW"}
    assert all("that is little for" in plausible(name).doubt(text) for name, text in small.items())


@pytest.mark.parametrize(
    ("question", "said", "meant"),
    [
        ("finished_basement", "no basement", "none"),
        ("finished_basement", "crawl space, 1978", "none"),
        ("unfinished_basement", "just an attic with insulation, low", "none"),
        ("pool_pump", "no pool", "none"),
        ("charger", "not yet", "none"),
        ("hot_tub", "nope", "none"),
        ("drying", "no dryer", "none"),
        ("cooking", "gas stove (want to change to induction)", "gas"),
        ("drying", "yes electric", "electric"),
        ("drying", "electric dryer in the hall, 30 amp plug", "electric"),
        ("water_heating", "gas, 40 gallons", "gas"),
        ("heating", "gas furnace and air conditioner outside", "furnace"),
        ("more", "garage door, and fridge", "garage door"),
        ("system", "normal i guess", "house"),
        ("ratings_from", "some labels, some guess", "told"),
        ("garage", "2 car", "400 ft2 to 600 ft2"),
        ("garage", "one-car", "200 ft2 to 350 ft2"),
        ("garage", "three car garage", "600 ft2 to 900 ft2"),
        ("disposer", "under the sink, don't know the power", "unknown"),
        ("laundry_circuits", "one washer", "1"),
        ("range_replaces", "the gas stove", "gas range"),
    ],
)
def test_a_little_more_than_the_word(question: str, said: str, meant: str, starter: Starter) -> None:
    asked, answers = starter.questions[question], Answers(starter, starter.works["existing"])
    text = spoken(said, asked, starter.words)
    assert (sized(text, asked, starter.words) or taken(text, asked, answers)).text == meant


@pytest.mark.parametrize(
    ("typed", "largest", "beside"),
    [
        ("40 amp plug, 50 amp breaker", "40 A", "50 A breaker told"),
        ("what it draws, the breaker is 50", "40 A", "taken from breaker 50 A"),
        ("32 A on a 50 A breaker", "32 A", "50 A breaker told"),
        ("50 amp breaker", "40 A", "taken from breaker 50 A"),
    ],
)
def test_what_a_charger_draws_and_its_breaker_are_told_together(
    typed: str, largest: str, beside: str, answer: Ask, home: Path
) -> None:
    ends = ["charger", typed, "no", "plug, nema 14-50", "", ""]
    code, shown = answer(home, [*UP_TO_CLIMATE, *["none"] * 7, *ends], "--work", "existing")
    assert code == 0, shown
    assert f"Read as {largest} at most, on a breaker of 50 A." in shown
    assert "is a common size of breaker" not in shown
    (planned,) = read(home)["planned"]
    assert (planned["name"], read(home)["remarks"]) == ("new charger", [f"new charger - {beside}; NEMA 14-50"])
    assert planned["rating"] == f"setting {largest}"
    assert (planned["attachment"], planned["evidence"]) == ("cord and plug", "told" if "told" in beside else "not seen")
    before = home.read_text(encoding="utf-8")
    assert f"Beside it: {beside}." in " ".join(before.replace("#", " ").split())
    answer(home, [""])
    assert home.read_text(encoding="utf-8") == before, "it is kept where the questions go on"


@pytest.mark.parametrize("typed", ["48 amps, breaker 50", "50 A", "40 A or 50 A breaker", "16 A; 24 A"])
def test_what_is_not_clear_of_a_breaker_is_not_taken(typed: str, starter: Starter) -> None:
    """48 A is more than a breaker of 50 A carries for long."""
    assert drawn(typed, starter.questions["planned_charger"]) is None


@pytest.mark.parametrize(
    "typed", [["induction 240 V, 40 A, from the shop page", ""], ["240 V, 40 A", "its the breaker"], ["40 amp plug"]]
)
def test_the_circuit_of_a_range_is_kept_and_no_bound(typed: list[str], answer: Ask, home: Path) -> None:
    ends = ["range", *typed, "the gas stove", ""]
    code, shown = answer(home, [*UP_TO_CLIMATE, *["none"] * 7, *ends], "--work", "existing")
    assert code == 0, shown
    assert "A breaker of 40 A is kept as told; it is no bound of the rating" in shown
    (planned,) = read(home)["planned"]
    assert (planned["name"], planned["rating"]) == ("new range", "typical")
    assert read(home)["remarks"] == ["new range - 40 A circuit told"], "it is printed on the sheet"
    assert planned["replaces"] == "gas range"
    assert "Beside it: 40 A circuit told." in " ".join(home.read_text(encoding="utf-8").replace("#", " ").split())


@pytest.mark.parametrize("said", ["up to 11 kW", "11 kW or so", "about 11 kW"])
def test_a_rating_that_is_not_sure_is_told(said: str) -> None:
    assert completed(said, "planned_range").text == "11 kW, told"


@pytest.mark.parametrize(
    ("question", "said"), [("dishwasher", "no label"), ("finished_basement", "crawl space, 300 ft2 finished")]
)
def test_a_negation_of_something_else_is_no_none(question: str, said: str, starter: Starter) -> None:
    asked = starter.questions[question]
    assert taken(spoken(said, asked, starter.words), asked, Answers(starter, starter.works["existing"])).text != "none"


def test_what_is_planned_may_not_be_passed_by(starter: Starter) -> None:
    with pytest.raises(InputError):
        taken("charger, elevator", starter.questions["planned"], Answers(starter, starter.works["existing"]))


@pytest.mark.parametrize("asks", ["?", "what is a bus?", "Where do I see that", "how"])
def test_a_question_of_the_user_is_explained_and_nothing_taken(asks: str, answer: Ask, home: Path) -> None:
    shown = answer(home, ["Elm", "", "", "", "", "", "", asks, "stop"], "--work", "existing")[1]
    assert shown.count("What is the rating of the panel itself, of its bus?") == 2
    assert "The bus is the metal bars in the panel" in shown
    assert "Taken as told" not in shown
    assert "bus" not in read(home)["service"]


def test_what_was_said_of_today_is_offered_for_what_takes_its_place(starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    replaces = starter.questions["range_replaces"]
    assert answers.offered(replaces, 0) == "none"
    assert taken("", replaces, answers, 0).text == "none"
    answers.given = {("cooking", 0): Answer("gas"), ("planned", 0): Answer("range")}
    assert answers.offered(replaces, 0) == "gas range"
    assert taken("", replaces, answers, 0) == Answer("gas range", assumed=True)


@pytest.mark.parametrize(("which", "rating"), [("", "1.3 kW to 2 kW"), ("input", "1000 W")])
def test_the_cooking_power_of_a_microwave_is_not_its_input(which: str, rating: str, answer: Ask, home: Path) -> None:
    shown = answer(home, [*UP_TO_KITCHEN, "gas", "none", "none", "1000 watts", which, "stop"], "--work", "existing")[1]
    assert "1000 W is a common cooking power. Is it that, or the input on the label? cooking power or input." in shown
    assert loads_of(home)["microwave"]["rating"] == rating
    home.unlink()
    assert (
        "cooking power."
        not in answer(home, [*UP_TO_KITCHEN, "gas", "none", "none", "1.6 kW", "stop"], "--work", "existing")[1].partition(
            "1.6 kW Laundry"
        )[2]
    )


HEAT_PUMP_COMES = [*UP_TO_CLIMATE, "furnace", "central", "MCA 18", "", "6 A at 120 V", *["none"] * 5, "heat pump", "2.5 ton"]


@pytest.mark.parametrize(
    ("goes", "fan", "of_pump", "of_fan"),
    [
        (
            "the gas furnace and the old air conditioner",
            ["don't know", "don't know"],
            ["gas furnace", "air conditioner"],
            "blower",
        ),
        ("the gas furnace and the old air conditioner", ["4 A at 240 V", ""], ["gas furnace", "air conditioner"], "blower"),
        ("the gas furnace and the old air conditioner", ["4 A at 240 V", "stays"], ["gas furnace", "air conditioner"], None),
        ("the gas furnace and the old air conditioner", ["the old one stays"], ["gas furnace", "air conditioner"], None),
        ("gas furnace; air conditioner; blower", ["4 A at 240 V"], ["gas furnace", "air conditioner", "blower"], None),
    ],
)
def test_the_old_blower_goes_with_a_new_air_handler(
    goes: str, fan: list[str], of_pump: list[str], of_fan: str | None, answer: Ask, home: Path, glossary: Glossary
) -> None:
    """Both fans are not counted where one takes the place of the other, which is asked where a new one is told of."""
    shown = answer(home, [*HEAT_PUMP_COMES, goes, "none", *fan, "stop"], "--work", "existing")[1]
    assert ("Does the old blower go?" in shown) == (len(fan) > 1)
    pump, *fans = read(home)["planned"]
    assert pump["replaces"] == of_pump
    assert [each.get("replaces") for each in fans] == ([of_fan] if fan[0] != "the old one stays" else [])
    home_from_text(home.read_text(encoding="utf-8"), "home.yaml", glossary)


@pytest.mark.slow
def test_a_heat_pump_with_a_new_air_handler(answer: Ask, run: Any, home: Path) -> None:
    begins = [*UP_TO_CLIMATE, "furnace", "central", "MCA 18", "", "6 A at 120 V", *["none"] * 5, "heat pump", "MCA 22, MOP 35"]
    new = ["yes", "15 kW", "no, told", "4 A at 240 V", "yes", "yes", ""]
    code, shown = answer(home, [*begins, *new], "--work", "existing")
    assert code == 0, shown
    assert "Do the planned strips and the compressor ever run together, defrost included?" in shown
    assert "planned strips and the compressor ever run together: no, as somebody said" in shown
    assert "Is there a new air handler, and what is the rating of its fan?" in shown
    pump, strips, fan = read(home)["planned"]
    assert (pump["replaces"], fan["replaces"]) == (["gas furnace", "air conditioner"], "blower")
    assert pump["evidence"] == {"rating": "told", "stops for supplemental heat": "told"}
    assert (strips["rating"], fan["rating"], fan["on the circuit of"]) == ("15 kW", "4 A at 240 V", "new strip heat")
    code, out, err = run("assess", str(home))
    assert "told - prevented by a lockout from running together with supplemental heat: yes" in out, out + err


def test_who_confirmed_is_not_asked_of_an_edition_that_nobody_knows(answer: Ask, home: Path) -> None:
    assert WHO not in answer(home, ["Elm", "don't know", "stop"], "--work", "existing")[1]
    home.unlink()
    assert WHO in answer(home, ["Elm", "2020", "stop"], "--work", "existing")[1]


def test_a_time_zone_may_be_typed_as_it_is_written(answer: Ask, home: Path) -> None:
    begins = ["Elm", "", "", "200", "", "", "interval_data.csv", "interval_data.csv"]
    answer(home, [*begins, "America/Chicago", "stop"], "--work", "existing")
    assert read(home)["meter"]["time zone"] == "America/Chicago"


def test_the_end_does_not_offer_data_that_was_given(answer: Ask, home: Path) -> None:
    answers = ["Elm", "", "", "200", "", "", "interval_data.csv", "interval_data.csv", *[""] * 13, "1800 ft2"]
    shown = answer(home, [*answers, *ENTERS], "--work", "existing")[1]
    assert "dwellcalc meter interval_data.csv --home home.yaml" in shown
    assert "can be added under `meter:`" not in shown


def test_oil_heat_has_a_burner(answer: Ask, home: Path) -> None:
    answer(home, [*UP_TO_CLIMATE, "oil furnace", "none", "6 A at 120 V", "2.5 A at 120 V", "stop"], "--work", "existing")
    assert loads_of(home)["oil burner"]["kind"] == "other motor"
    assert loads_of(home)["oil burner"]["rating"] == "2.5 A at 120 V"
    assert read(home)["not electric"] == ["water heating by gas or oil", "oil furnace"]


def test_what_is_chosen_is_said_of_each_of_several(answer: Ask, home: Path) -> None:
    """Each fan is on the circuit of its own strips, and each heat pump runs together with them."""
    answers = [
        *("18 Quarry Rise", "", "", "200 A", "outside", "4/0 AWG", "", "40", "no", "225 A", "45 ft", "", "40 spaces", ""),
        *("plastic", "rebar", "don't know"),
        *("1240 ft2; 1180 ft2", "none", "none", "440 ft2", "none"),
        *("2", "separate", "4.8 kW", "7.2 kW", "1.2 kW", "none", "none"),
        *("1", "electric", "5.4 kW", "2", "4.5 kW"),
        *("heat pump", "MCA 19.6, MAX FUSE 30, 240 V; MCA 15.8, MAX FUSE 25, 240 V"),
        *("7.5 kW; 5 kW", "together", "3.5 A at 240 V; 2.8 A at 240 V", "yes", "stop"),
    ]
    answer(home, answers, "--work", "new")
    loads = loads_of(home)
    assert [loads[each]["on the circuit of"] for each in ("blower", "blower 2")] == ["strip heat", "strip heat 2"]
    assert [loads[each]["stops for supplemental heat"] for each in ("heat pump", "heat pump 2")] == [False, False]


def test_what_burns_gas_stands_in_the_file_once_it_was_said(answer: Ask, home: Path) -> None:
    answer(home, [*UP_TO_KITCHEN, "gas", "stop"], "--work", "existing")
    assert read(home)["not electric"] == ["gas cooking"]
    answer(home, ["back", "range", "stop"])
    assert "not electric" not in read(home)


def test_a_hint_has_the_forms_of_that_load(answer: Ask, home: Path) -> None:
    shown = answer(home, [*UP_TO_KITCHEN, "range", "big one", "stop"], "--work", "existing")[1]
    assert '"big one" is not a rating. It is written here as "11.5 kW", in W or kVA, or with' in shown
    assert "control setting" not in shown


@pytest.mark.slow
def test_a_finished_interview_can_be_corrected(answer: Ask, home: Path) -> None:
    answer(home, with_area(), "--work", "existing")
    code, shown = answer(home, ["99", "4", "150", "list", ""])
    assert code == 0
    assert "4 Rating of the main breaker, of a new service the one that is thought of: unknown (assumed)" in shown
    assert "of a new service the one that is thought of: 150 A Type" in shown, "only what was changed is shown"
    assert read(home)["service"]["rating"] == "150 A"
    number = re.search(r"(\d+) How the rooms are heated", shown)
    assert number
    code, shown = answer(home, [number[1], "heat pump", "MCA 20", "", "none", "", "1", "back", ""])
    assert code == 0, shown
    assert loads_of(home)["heat pump"]["rating"] == "MCA 20 A at 240 V"
    assert "air conditioner" not in loads_of(home)
    before = home.read_text(encoding="utf-8")
    assert answer(home, ["4", "stop"])[0] == 0, "all is answered, so nothing is left to go on with"
    heating = [number[1], "boiler", "stop"]
    assert answer(home, heating)[0] == UNFINISHED, "the circulator is asked for"
    assert home.read_text(encoding="utf-8") != before


def test_nothing_of_a_new_house_is_read_from_handles(run: Any, home: Path, answer: Ask) -> None:
    run("start", str(home), "--work", "new")
    text = home.read_text(encoding="utf-8")
    assert not re.search(r"\bhandles?\b|silver|door of|nameplate (behind|on|inside)", " ".join(text.replace("#", " ").split()))
    assert "Read: one-line diagram." in text
    assert "one-line diagram" in answer(Path("new.yaml"), ["Elm", "", "", "", "", "stop"], "--work", "new")[1]


def test_what_is_to_be_filled_in_is_told_in_the_order_of_the_file(run: Any, home: Path) -> None:
    run("start", str(home), "--work", "existing")
    text = home.read_text(encoding="utf-8")
    live = "\n".join(line for line in text.splitlines() if not line.lstrip().startswith("#"))
    assert "rating: <such as RLA" in text
    assert not re.search(r"rating: MCA|rating: \d", live), "bounds that are overlooked would stay"
    err = run("assess", str(home))[2]
    lines = [int(number) for number in re.findall(r"home\.yaml:(\d+):\d+: ", err)]
    assert len(lines) > 5
    assert lines == sorted(lines)


@pytest.mark.parametrize("width", [60, 80])
def test_no_word_is_broken_at_the_end_of_a_line(width: int, capsys: pytest.CaptureFixture[str], starter: Starter) -> None:
    Terminal(width).listed({work.word: work.title for work in starter.works.values()})
    shown = capsys.readouterr().out
    assert max(map(len, shown.splitlines())) <= width
    words = {word for work in starter.works.values() for word in f"{work.word} {work.title}".split()}
    assert {word for word in shown.split() if not word.isdigit()} == words


# In a terminal


def own_terminal() -> None:
    """Make the terminal that of the process, so that an interrupt typed there reaches it."""
    signal.signal(signal.SIGINT, signal.default_int_handler)  # ignored where the tests were started in the background
    os.setsid()
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)


class InTerminal:
    """The command in a pseudo-terminal."""

    def __init__(self, *arguments: str) -> None:
        self.ours, theirs = pty.openpty()
        self.process = subprocess.Popen(
            [sys.executable, "-m", "dwellcalc", *arguments],
            stdin=theirs,
            stdout=theirs,
            stderr=theirs,
            env={**os.environ, "TERM": "dumb"},
            preexec_fn=own_terminal,
        )
        os.close(theirs)
        self.shown = ""

    def until(self, text: str) -> str:
        """What is shown up to a text."""
        start, end = len(self.shown), time.monotonic() + 15
        while text not in self.shown[start:]:
            assert time.monotonic() < end, self.shown
            if select.select([self.ours], [], [], 0.2)[0]:
                try:
                    self.shown += os.read(self.ours, 65536).decode("utf-8", "replace")
                except OSError:
                    break
        return self.shown[start:]

    def type(self, text: str) -> None:
        """Type a line."""
        os.write(self.ours, f"{text}\n".encode())

    def interrupt(self) -> None:
        """Press the key that interrupts, once the prompt waits: just before, its reading of a line would not notice."""
        time.sleep(1)
        os.write(self.ours, b"\x03")

    def end(self) -> int:
        """The exit code, once it has ended."""
        return self.process.wait(timeout=15)

    def __enter__(self) -> InTerminal:
        return self

    def __exit__(self, *why: object) -> None:
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        os.close(self.ours)


@pytest.mark.slow
def test_in_a_terminal_with_an_interrupt(home: Path) -> None:
    with InTerminal("start", str(home), "--ask") as terminal:
        assert "What kind of work is it?" in terminal.until("> ")
        terminal.type("2")
        assert "What is the home called on the sheet?" in terminal.until("> ")
        terminal.type("7 Tide Lane")
        assert "Which edition" in terminal.until("> ")
        terminal.type("")
        assert "Taken: nec/2023" in terminal.until("> ")
        terminal.interrupt()
        assert "Stopped. What was answered is in home.yaml" in terminal.until("--ask")
        assert terminal.end() == UNFINISHED
    assert read(home)["home"] == "7 Tide Lane"
    with InTerminal("start", str(home), "--ask") as again:
        assert "What kind of supply does the utility bring?" in again.until("> ")
        again.type("house")
        assert "What is the rating of the main breaker?" in again.until("> ")
        os.write(again.ours, b"\x04")
        again.until("--ask")
        assert again.end() == UNFINISHED
    assert "# answered: system = house" in home.read_text(encoding="utf-8")


def test_in_a_terminal_the_kind_of_work_is_asked_for_a_file_to_be_filled_in(home: Path) -> None:
    with InTerminal("start", str(home)) as terminal:
        terminal.until("> ")
        terminal.type("a boat")
        assert "Type one of the words, or its number, such as `existing` for" in terminal.until("> ")
        terminal.type("vacant")
        terminal.until("Written: home.yaml")
        assert terminal.end() == 0
    assert "occupied: no" in home.read_text(encoding="utf-8")


# The questions


def test_every_example_can_be_answered(starter: Starter, glossary: Glossary, tmp_path: Path) -> None:
    """What is shown as an example is an answer that reads."""
    answers = Answers(starter, starter.works["units"])
    for question in starter.questions.values():
        if question.example:
            assert taken(question.example, question, answers).text == question.example
        assert question.form in (*FORMS, "choices")
        assert question.what[:1].isupper() or question.what[:1].isdigit()
        assert question.example or question.choices, question.id


def test_every_load_has_a_figure_or_bounds_where_it_is_not_known(starter: Starter) -> None:
    """So that who knows little is told what each is worth; a planned one is chosen, and heaters differ too much."""
    typical = {
        "storage_water_heater",
        "clothes_dryer",
        "range",
        "wall_oven",
        "dishwasher",
        "waste_disposer",
        "garage_door_opener",
    }
    typical |= {"built_in_microwave_oven", "blower"}
    lacking = [
        each.id for each in starter.questions.values() if each.form == "load" and not each.not_known and each.kind not in typical
    ]
    assert lacking == ["heaters", "shop"]


def test_the_questions_are_checked_with_the_rules(run: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("dwellcalc.evaluate.check.check_folder", lambda *_: {})
    monkeypatch.setattr("dwellcalc.review.catalogue.check_catalogue", lambda *_: [])
    code, out, _ = run("rules", "check")
    assert code == 0
    assert "first questions: no problem found" in out


# Messages


def question_of(starter: Starter, **said: Any) -> Question:
    return next(each for each in starter.questions.values() if all(getattr(each, name) == value for name, value in said.items()))


def typed(text: str, name: str) -> Callable[[], object]:
    starter = read_starter(None, own_glossary())
    return lambda: taken(text, starter.questions[name], Answers(starter, starter.works["existing"]))


def completed(text: str, name: str, work: str = "existing", **given: str) -> Completed:
    """What an answer is taken as."""
    starter = read_starter(None, own_glossary())
    answers = Answers(starter, starter.works[work], given={(each, HOME): Answer(said) for each, said in given.items()})
    return Completion(starter.questions[name], answers, own_glossary()).of(text)


def of_another(text: str, name: str) -> None:
    starter = read_starter(None, own_glossary())
    found = elsewhere(text, starter.questions[name], starter)
    assert found is not None
    raise InputError(found.problem(starter.questions[name]))


def plausible(name: str) -> Plausible:
    starter = read_starter(None, own_glossary())
    return Plausible(starter.questions[name], Answers(starter, starter.works["existing"]), own_glossary())


def begun(work: str = "existing", file: str = "home.yaml", rules: Path | None = None) -> Begun:
    return Begun(file, work, "", rules)


def changed_meanwhile(monkeypatch: pytest.MonkeyPatch) -> None:
    class Busy(io.StringIO):
        def readline(self, *size: Any) -> str:
            if Path("home.yaml").exists():
                Path("home.yaml").write_text("home: somebody else\n", encoding="utf-8")
            return "\n"

    monkeypatch.setattr("sys.stdin", Busy())
    ask(begun())


def begun_work() -> Work:
    return read_starter(None, own_glossary()).works["existing"]


def no_record(monkeypatch: pytest.MonkeyPatch) -> None:
    rules = rules_for(None, "", None)
    step = next(
        each for each in Answers(read_starter(None, own_glossary()), begun_work()).steps() if each.question.id == "meter_file"
    )
    raise InputError(also_of(rules, None, Path("."), frozenset()).problems(step, Answer("the web page")))


def there(text: str) -> None:
    Path("home.yaml").write_text(text, encoding="utf-8")


def changed_by_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("Elm\n"))
    ask(begun())
    there(Path("home.yaml").read_text(encoding="utf-8") + "date: 2026-05-04\n")
    ask(begun())


MESSAGES: dict[str, Callable[[pytest.MonkeyPatch], object]] = {
    "start_is_there": lambda patch: (there("home: mine\n"), write_empty(begun())),
    "start_not_written": lambda patch: write_empty(begun(file="nowhere/home.yaml")),
    "start_no_work": lambda patch: (patch.setattr("sys.stdin", io.StringIO("")), write_empty(begun(""))),
    "start_unknown_work": lambda patch: write_empty(begun("remodel")),
    "start_not_begun": lambda patch: (there("home: mine\n"), ask(begun())),
    "start_changed": changed_by_hand,
    "start_meanwhile": changed_meanwhile,
    "start_of_another": lambda patch: of_another("1/2 hp sump pump", "pool_pump"),
    "start_planned_later": lambda patch: typed("induction planned", "cooking")(),
    "start_no_choice": lambda patch: typed("wood", "cooking")(),
    "start_one_choice": lambda patch: typed("electric, gas", "drying")(),
    "start_must_say": lambda patch: typed("", "disconnects")(),
    "start_not_none": lambda patch: typed("none", "living_area")(),
    "start_no_bounds": lambda patch: completed("150 A to 200 A", "bus"),
    "start_no_evidence": lambda patch: completed("50 A 240 V, pamphlet", "planned_hot_tub"),
    "start_no_record": no_record,
    "start_no_rating": lambda patch: typed("trash compactor", "anything_else")(),
    "no_starter": lambda patch: read_starter(BAD / "base", read_glossary(BAD / "base")),
}


def test_every_message_about_starting_is_tried() -> None:
    assert cases("starts") == sorted(MESSAGES)


@pytest.mark.parametrize("name", MESSAGES)
def test_each_message(name: str, home: Path, monkeypatch: pytest.MonkeyPatch, rewrite_expected: bool) -> None:
    if name == "no_starter":
        monkeypatch.chdir(BAD.parents[1])
        monkeypatch.setattr("test_start.BAD", Path("tests/bad"))
    agree("starts", name, refused(lambda: MESSAGES[name](monkeypatch)), rewrite_expected)


def test_the_home_that_an_interview_writes_is_read_like_any_other(answer: Ask, home: Path, glossary: Glossary) -> None:
    answer(home, with_area(), "--work", "manufactured")
    assert read_home(home, glossary).title == "a home without an address"


@pytest.mark.parametrize("typed", ["nobody, it's on their web page", "nobody", "the town's web page", "not asked"])
def test_who_confirmed_the_edition_is_left_out_where_nobody_did(typed: str, starter: Starter) -> None:
    question = starter.questions["confirmed_by"]
    assert spoken(typed, question, starter.words) == "none"
    assert spoken("R. Adeyemi, city plans examiner", question, starter.words) == "R. Adeyemi, city plans examiner"


def test_a_number_with_a_comma_for_thousands_is_no_choice(starter: Starter) -> None:
    with pytest.raises(InputError):
        choices_in("2,640 ft2 by outside dimensions", starter.questions["water_pipe"], starter)


@pytest.mark.parametrize(
    ("question", "said", "meant"),
    [
        ("finished_basement", "we have no basement", "none"),
        ("finished_basement", "there isn't one", "none"),
        ("unfinished_basement", "no attic", "none"),
        ("pool_pump", "we don't have a pool", "none"),
        ("disposer", "we have no disposal", "none"),
        ("hot_tub", "not yet, planned", "none"),
        ("charger", "planning to get one", "none"),
        ("more", "not yet, planned", "none"),
        ("garage", "carport", "none"),
        ("microwave", "it's on the counter", "none"),
        ("more", "garage door opener", "garage door"),
        ("free_spaces", "think 3 or 4", "3"),
        ("free_spaces", "maybe 3 or 4 left", "3"),
        ("free_spaces", "there are 6 empty", "6"),
        ("small_appliance_circuits", "2 or 3", "3"),
        ("range", "8 or 9 kW", "8 kW to 9 kW"),
    ],
)
def test_an_everyday_answer(question: str, said: str, meant: str, starter: Starter) -> None:
    asked, answers = starter.questions[question], Answers(starter, starter.works["existing"])
    found = taken(spoken(said, asked, starter.words), asked, answers).text
    assert Completion(asked, answers, own_glossary()).of(found).text.replace("8 to", "8 kW to") == meant


@pytest.mark.parametrize(
    ("question", "said"),
    [
        ("disposer", "yes, there is one"),
        ("disposer", "disposal under the sink"),
        ("microwave", "we have a microwave over the range"),
        ("blower", "yes there is"),
        ("garage", "yes, we have one"),
    ],
)
def test_a_sentence_that_there_is_one(question: str, said: str, starter: Starter) -> None:
    asked, answers = starter.questions[question], Answers(starter, starter.works["existing"])
    found = taken(spoken(said, asked, starter.words), asked, answers)
    assert (found.assumed, found.there) == (True, True)


@pytest.mark.parametrize("said", ["no cover on it", "dishwasher planned for 2 years", "blah", "a gas one", "replacing it"])
def test_a_sentence_of_which_a_word_is_not_known_is_not_taken(said: str, starter: Starter) -> None:
    asked, answers = starter.questions["dishwasher"], Answers(starter, starter.works["existing"])
    found = taken(spoken(said, asked, starter.words), asked, answers)
    assert found == Answer(said), "it is refused as no rating"


@pytest.mark.parametrize(
    ("said", "taken_as"),
    [
        ("12.1 kW, label in the drawer", "12.1 kW, nameplate"),
        ("12.1 kW on the label", "12.1 kW, nameplate"),
        ("label in the drawer says 12.1 kW", "12.1 kW, nameplate"),
        ("the shop says 48 amp", "48 amp, told"),
        ("2,100 sq ft from the tax record", "2,100 sq ft, told"),
        ("MCA 22.4, MAX FUSE 35", "MCA 22.4, MAX FUSE 35"),
    ],
)
def test_what_a_rating_was_read_from_in_a_sentence(said: str, taken_as: str, starter: Starter) -> None:
    assert said_of(said, starter, own_glossary()).text == taken_as


def test_what_stands_beside_a_length_is_kept(starter: Starter) -> None:
    length, main = (starter.questions[each] for each in ("charger_run", "main_breaker"))
    assert number_clause("garage wall, 20 ft or so", length, starter.words, lambda _: False) == ("20 ft or so", "garage wall")
    assert number_clause("200 A, told", main, starter.words, lambda each: each == "told") == ("200 A, told", "")
    assert number_clause(
        "aluminum, don't know the size", starter.questions["conductor_size"], starter.words, lambda _: False
    ) == (
        "not known",
        "aluminum",
    )
    attic = starter.questions["unfinished_basement"]
    assert number_clause("other half, 400 sq ft", attic, starter.words, lambda _: False) == ("400 sq ft", "other half")
    heater = starter.questions["water_heater"]
    assert number_clause("4500 watts, on the tank", heater, starter.words, lambda _: False) == ("4500 watts", "on the tank")
    assert number_clause("150 A, 200 A", main, starter.words, lambda _: False) == ("150 A, 200 A", "")


@pytest.mark.parametrize(
    ("said", "word"),
    [
        ("I want a charger", "existing"),
        ("a duplex, and I want a charger", "units"),
        ("we are building a house with a hot tub", "new"),
        ("an addition to a mobile home", None),
        ("a boat", None),
    ],
)
def test_the_kind_of_work_in_words(said: str, word: str | None, starter: Starter) -> None:
    found = told_work(said, starter)
    assert (found.word if found else None) == word


def test_loads_of_any_kind_without_a_rating(answer: Ask, home: Path) -> None:
    """The rating is asked for; what is no load of its own, or was told with a question of its own, is left out and told so."""
    ends = ["garage door", "5 A at 120 V", "range hood, TV, garage door opener, fridge", "250 W", "120 W", "none", ""]
    code, shown = answer(home, [*UP_TO_CLIMATE, *["none"] * 5, *ends], "--work", "existing")
    assert code == 0, shown
    assert "What is the rating of the range hood?" in shown
    assert "Left out: TV, which is no load of its own here, for it is plugged into a general receptacle" in shown
    assert "Left out: garage door opener, which was told before" in shown
    names = [each["name"] for each in read(home)["dwelling units"][0]["loads"]]
    assert names[-3:] == ["garage door opener", "range hood", "fridge"]
    assert loads_of(home)["fridge"]["individual circuit"], "that is what was asked for"


def test_what_is_planned_is_told_to_be_asked_at_the_end(answer: Ask, home: Path) -> None:
    shown = answer(home, [*UP_TO_CLIMATE, "none", "none", "not yet, planned", "stop"], "--work", "existing")[1]
    assert "> not yet, planned What is planned is asked at the end. Taken: none" in shown


@pytest.mark.parametrize(
    "said", ["range hood: 250 W 120 V", "range hood: 250 W, 120 V", "range hood 250 W, 120 V, from the label"]
)
def test_the_volts_behind_the_rating_of_a_load_of_any_kind(said: str, answer: Ask, home: Path) -> None:
    shown = answer(home, [*UP_TO_CLIMATE, *["none"] * 6, said, "none", ""], "--work", "existing")[1]
    assert loads_of(home)["range hood"]["rating"] == "250 W at 120 V", shown


BEFORE_PLANS = [*UP_TO_KITCHEN, "electric", "typical", "", "no", "", "", "gas", "gas", *["none"] * 7]


@pytest.mark.parametrize(
    ("typed", "kind", "rating"),
    [
        (["heat pump dryer", "plugs into a normal outlet, 900 W", ""], "dryer on laundry circuit", "900 W at 120 V"),
        (["plug-in dryer", "0.9", ""], "dryer on laundry circuit", "0.9 kW"),
        (["plug-in dryer", "1.5 kW at 240 V", ""], "clothes dryer", "1.5 kW at 240 V"),
        (["dryer", "900 W at 120 V", "yes"], "dryer on laundry circuit", "900 W at 120 V"),
        (["dryer", "it plugs into a regular wall outlet", ""], "dryer on laundry circuit", "300 W to 1,800 W at 120 V"),
        (["dryer", "5.4 kW", ""], "clothes dryer", "5.4 kW"),
        (["other", "heat pump dryer", "yes", "900 W", "the gas dryer"], "plug-in heat pump dryer", "900 W"),
        (["other", "plug-in heat pump dryer: 900 W, replaces gas dryer"], "plug-in heat pump dryer", "900 W"),
        (["other", "dryer instead of our gas dryer: 900 W at 120 V"], "dryer on laundry circuit", "900 W at 120 V"),
    ],
)
def test_a_dryer_for_an_ordinary_outlet(typed: list[str], kind: str, rating: str, answer: Ask, home: Path) -> None:
    """The kind goes by the voltage, and the gas dryer in whose place it comes does not stay."""
    code, shown = answer(home, [*BEFORE_PLANS, *typed, ""], "--work", "existing")
    assert code == 0, shown
    (planned,) = read(home)["planned"]
    assert (planned["kind"], planned["rating"], planned["replaces"]) == (kind, rating, "gas dryer")


def test_the_plug_of_a_dryer_for_240_v_is_no_ordinary_outlet(answer: Ask, home: Path) -> None:
    shown = answer(home, [*BEFORE_PLANS, "dryer", "plugs into the dryer outlet", "stop"], "--work", "existing")[1]
    assert '"plugs into the dryer outlet" is not a rating' in shown


def test_a_dryer_that_is_there_and_plugs_in(answer: Ask, home: Path) -> None:
    ends = [*["none"] * 7, "none"]
    code, shown = answer(
        home, [*UP_TO_KITCHEN, "electric", "typical", "", "no", "", "", "plug-in dryer", "gas", *ends, ""], "--work", "existing"
    )
    assert code == 0, shown
    assert loads_of(home)["plug-in dryer"]["kind"] == "dryer on laundry circuit"


def test_a_basement_that_is_in_the_area_is_not_counted_twice(answer: Ask, home: Path) -> None:
    answer(home, [*with_area()[:11], "", "700 ft2", "finished basement", "yes", "stop"], "--work", "existing")
    assert [each["name"] for each in read(home)["dwelling units"][0]["areas"]] == ["rooms"]
    answer(Path("other.yaml"), [*with_area()[:11], "", "700 ft2", "finished basement", "no", "stop"], "--work", "existing")
    assert read(Path("other.yaml"))["dwelling units"][0]["areas"][1]["area"] == "200 ft2 to 700 ft2"


def interviewed(question: str, said: str, starter: Starter, **given: str) -> Answer:
    """What an interview takes of one answer."""
    answers = Answers(starter, starter.works["existing"])
    slots = {each.question.id: each.slot for each in answers.steps()}
    answers.given = {slots[name]: Answer(word) for name, word in given.items()}
    step = next(each for each in answers.steps() if each.question.id == question)
    talk = Interview(answers, own_glossary(), Terminal(100), 100, lambda _: None, lambda *_: [], lambda _, text: text)
    assert talk.take(step, said) is None
    return talk.answers.given[step.slot]


@pytest.mark.parametrize(
    ("question", "said", "text", "assumed", "beside"),
    [
        ("free_spaces", "all full", "none", False, ""),
        ("free_spaces", "looks full", "none", False, ""),
        ("free_spaces", "20 slots, all full I think", "20", False, ""),
        ("living_area", "about 1,450 sq ft on three floors", "1,450 sq ft, told", False, "on three floors"),
        ("garage", "no garage, just a parking pad", "none", False, ""),
        ("solar", "not that I know of", "none", True, ""),
        ("solar", "none, solar ready only", "none", False, ""),
        ("solar", "solar ready only, nothing now", "none", False, ""),
        ("disposer", "I don't think so", "none", True, ""),
        ("more", "not that I know of", "none", True, ""),
        ("ratings_from", "I'm going from memory", "told", False, ""),
        ("meter_file", "we have the smart meter but I don't know how to get a file", "none", True, ""),
        ("meter_file", "not yet", "none", True, ""),
        ("main_breaker", "I think 100", "100 A, told", False, ""),
        ("main_breaker", "100 I guess", "100 A, told", False, ""),
        ("bus", "125, I guess", "125 A, told", False, ""),
        ("bus", "I believe it is 125 A", "125 A, told", False, ""),
    ],
)
def test_more_everyday_answers(question: str, said: str, text: str, assumed: bool, beside: str, starter: Starter) -> None:
    """A doubt is told as such at every question; what stands beside an answer is kept."""
    found = interviewed(question, said, starter)
    assert (found.text, found.assumed, found.beside) == (text, assumed, beside)


@pytest.mark.parametrize("said", ["label is faded, about 2 tons", "about 2 tons", "maybe 2 ton I think"])
def test_a_size_in_a_sentence(said: str, starter: Starter) -> None:
    found = interviewed("air_conditioner", said, starter, cooling="central")
    assert (found.text, found.assumed, found.there) == ("MCA 10 A to 22 A at 240 V", True, True)
    assert "2 ton" in found.beside


@pytest.mark.parametrize("said", ["NEMA 14-50 or wired in", "plug or hardwired"])
def test_a_choice_that_is_not_made_yet_is_kept(said: str, starter: Starter) -> None:
    found = interviewed("charger_attached", said, starter, planned="charger")
    assert (found.text, found.beside) == ("skip", f"{said}, undecided")


def test_how_a_charger_may_be_attached_is_told_with_its_setting(answer: Ask, home: Path) -> None:
    ends = ["charger", "32 amp, NEMA 14-50 plug or wired in", "yes", "NEMA 14-50 or wired in", "", ""]
    code, shown = answer(home, [*BEFORE_PLANS, *ends], "--work", "existing")
    assert code == 0, shown
    (told,) = read(home)["remarks"]
    assert "32 A told as its largest setting" in told and "NEMA 14-50 plug or wired in, undecided" in told
    assert "attachment" not in read(home)["planned"][0]


def test_the_answers_so_far_can_be_seen_at_any_question(answer: Ask, home: Path) -> None:
    shown = answer(home, ["Elm", "list", "2020", "stop"], "--work", "existing")[1]
    assert "These are the answers: 1 What the home is called on the sheet: Elm" in shown
    assert shown.count("Which edition of the electrical code is adopted there?") == 2


@pytest.mark.parametrize("said", ["no label on it", "no label that I can find", "can't read the nameplate"])
def test_a_label_that_is_not_there_says_that_the_rating_is_not_known(said: str, starter: Starter) -> None:
    found = interviewed("range", said, starter, cooking="range")
    assert (found.text, found.assumed) == ("unknown", True)


def test_whatever_is_shown_of_a_choice_is_taken(starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    for question in starter.questions.values():
        for word, choice in question.choices.items():
            for text in (word, choice.says, question.shown(word)):
                assert not text or taken(text, question, answers, 0).text == word, (question.id, text)


def test_a_hedge_belongs_to_the_clause_that_it_stands_in(starter: Starter) -> None:
    answers, question = Answers(starter, starter.works["existing"]), starter.questions["planned"]
    found = taken("heat pump, charger maybe next year", question, answers, 0)
    assert (found.text, found.assumed) == ("heat pump, charger", False)
    assert taken("charger, maybe", question, answers, 0) == Answer("charger", assumed=True)
    assert taken("charger later", question, answers, 0).text == "charger"
    assert taken("none that I know of", starter.questions["change_date"], answers).text == "none"


def test_planned_at_the_end_is_not_said_at_the_end(answer: Ask, home: Path) -> None:
    before = [*HOUSE[:-1], "none"]
    code, shown = answer(home, [*before, "heat pump, charger maybe next year", "list"], "--work", "existing")
    asked = shown[shown.index("What is planned here?") :]
    told = (code, "asked at the end" in asked, "What is planned: heat pump, charger" in asked)
    assert told == (UNFINISHED, False, True), told  # the list of all answers, while questions are open


def test_the_marking_of_terminals_is_asked_up_to_100_a(starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    step = next(each for each in answers.steps() if each.question.id == "terminals")
    size = next(each for each in answers.steps() if each.question.id == "conductor_size")
    main = next(each for each in answers.steps() if each.question.id == "main_breaker")
    for rating, conductors, asked in (
        ("100 A", "4 AWG", True),
        ("100 amp, told", "4 AWG", True),
        ("200 A", "4 AWG", False),
        ("60 A", "not seen", False),
    ):
        answers.given |= {main.slot: Answer(rating), size.slot: Answer(conductors, assumed=conductors == "not seen")}
        assert answers.holds(step) is asked
    answers.given |= {main.slot: Answer("200 A"), step.slot: Answer("75 C")}
    assert answers.holds(step), "what was told beside the conductors stands"
    assert taken("60/75C", step.question, answers).text == "75 C"
    assert taken("not marked", step.question, answers).text == "nothing"


def test_what_is_asked_is_looked_for_anew_once_an_answer_is_another(starter: Starter) -> None:
    answers = Answers(starter, starter.works["existing"])
    cooking = next(each for each in answers.steps() if each.question.id == "cooking")
    before = {each.question.id for each in answers.asked()}
    answers.given[cooking.slot] = Answer("separate")
    after = {each.question.id for each in answers.asked()}
    assert {"wall_oven", "cooktop"} <= after - before
    answers.given[cooking.slot] = Answer("gas")
    assert {each.question.id for each in answers.asked()}.isdisjoint({"wall_oven", "cooktop"})


@pytest.mark.parametrize(
    ("question", "said", "text", "assumed", "beside"),
    [
        ("living_area", "about 1,800 sq ft, one floor", "1,800 sq ft, told", False, "one floor"),
        ("living_area", "1,850 sq ft, A-1", "1,850 sq ft, told", False, "A-1"),
        ("living_area", "1500 sq ft, 3 bedrooms", "1500 sq ft, told", False, "3 bedrooms"),
        ("living_area", "1800-2000", "1800 ft2 to 2000 ft2, told", False, ""),
        ("bus", "200 amp panel, brand new in 2015", "200 amp", False, "brand new in 2015"),
        ("bus", "I can't see any, there's a metal cover", "unknown", True, "there's a metal cover"),
        ("bus", "main 150 A, bus 200 A on the label", "200 A", False, "main 150 A"),
        ("bus", "same as the main", "150 A, told", False, ""),
        ("main_breaker", "the big switch says 200", "200 A", False, "the big switch says 200"),
        ("main_breaker", "it's a fuse box, 60 I think", "60 A, told", False, "it's a fuse box"),
        ("main_breaker", "200, told by the previous owner", "200 A, told", False, ""),
        ("main_breaker", "I don't see one", "unknown", True, ""),
        ("system", "no idea, a normal house", "house", True, ""),
        ("more", "none of those", "none", False, ""),
        ("solar", "I think so", "solar", True, ""),
        ("dishwasher", "I think so", "unknown", True, ""),
        ("dishwasher", "yes, about 10 years old", "unknown", True, "about 10 years old"),
        ("small_appliance_circuits", "I'd guess 2", "2, told", False, ""),
        ("finished_basement", "unfinished basement", "none", False, ""),
        ("cooking", "gas stove but electric oven", "gas, separate", False, "gas stove but electric oven"),
        ("heating", "oil, hot water radiators", "oil boiler", False, ""),
        ("heating", "gas furnace, no heat pump", "furnace", False, "no heat pump"),
        ("cooling", "two window units in summer", "room", False, "two window units in summer"),
        ("hot_tub", "not yet, that's what we want", "none", False, ""),
        ("planned", "charger in the attached garage, hardwired", "charger", False, "charger in the attached garage, hardwired"),
    ],
)
def test_the_part_of_a_sentence_that_can_be_read_is_taken_and_the_rest_kept(
    question: str, said: str, text: str, assumed: bool, beside: str, starter: Starter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("\n"))  # for the unit of two areas
    known = [] if question == "main_breaker" else [("main_breaker", "150 A")]
    found = interviewed(question, said, starter, **dict(known))
    assert (found.text, found.assumed, found.beside) == (text, assumed, beside)


@pytest.mark.parametrize(
    ("question", "said"),
    [
        ("small_appliance_circuits", "one-car garage attached"),
        ("living_area", "roughly 1400 square feet, my wife says 1500"),
        ("living_area", "1800 sq ft without the basement"),
        ("main_breaker", "not 200, it's 100"),
        ("main_breaker", "two breakers, 100 and 60"),
        ("planned_heat_pump", "30 A breaker or so, 2 of them"),
        ("planned", "charger and an elevator"),
        ("cooking", "gas or electric"),
        ("cooking", "not gas"),
        ("heating", "furnace boiler"),
        ("free_spaces", "not full"),
        ("range", "big one"),
    ],
)
def test_where_something_of_weight_would_be_passed_by_nothing_is_taken(
    question: str, said: str, starter: Starter, capsys: pytest.CaptureFixture[str]
) -> None:
    """A second figure, a denial, another choice; and nothing is said to be taken then."""
    answers = Answers(starter, starter.works["existing"])
    slots = {each.question.id: each.slot for each in answers.steps()}
    answers.given = {slots[name]: Answer(word) for name, word in {"cooking": "range", "planned": "heat pump"}.items()}
    step = next(each for each in answers.steps() if each.question.id == question)
    talk = Interview(answers, own_glossary(), Terminal(100), 100, lambda _: None, lambda *_: [], lambda _, text: text)
    assert talk.take(step, said)
    assert "Taken" not in capsys.readouterr().out


def test_what_was_told_of_what_is_planned_is_offered_where_it_is_asked(answer: Ask, home: Path) -> None:
    said = "charger in the attached garage now, water heater and heat pump later"
    plans = [said, "up to 40 amps, plug or wired", "what it draws", "yes", "", "", "30 ft from the panel", "", "2.5 tons"]
    shown = answer(home, [*BEFORE_PLANS, *plans, "", "", "", "4.5 kW", "", "", ""], "--work", "existing")[1]
    asked = shown[shown.index("Which settings does the charger") :]
    assert "Enter keeps: now, with the rest, in this permit" in asked and "Enter keeps: house" in asked
    assert asked.count("Enter keeps: later, not in this permit") == 2
    planned = {each["name"]: each for each in read(home)["planned"]}
    assert planned["new charger"]["settings"] == ["16 A", "24 A", "32 A", "40 A"]
    assert (planned["new charger"]["place"], planned["new charger"]["length"]) == ("at the house", "30 ft")
    assert [planned[f"new {each}"]["later"] for each in ("charger", "heat pump", "water heater")] == [False, True, True]
    assert planned["new water heater"]["replaces"] == "gas water heater"


def test_what_was_told_beside_answers_is_printed_as_remarks(answer: Ask, home: Path) -> None:
    answer(home, [*with_area()[:11], "", "about 1,800 sq ft, one floor", "stop"], "--work", "existing")
    assert read(home)["remarks"] == ["told beside the answers of what is there: rooms - one floor"]
    shown = answer(Path("other.yaml"), [*with_area()[:11], "", "1,800 sq ft, one floor", "stop"], "--work", "existing")[1]
    assert "Taken: 1,800 sq ft, told Kept as a remark: one floor." in shown


def test_a_semicolon_in_a_remark_does_not_part_it(answer: Ask, home: Path) -> None:
    """Remarks on what is there are parted by semicolons, and one of them would stand as two."""
    answer(home, [*with_area()[:11], "", "about 1,800 sq ft, one floor; it slopes", "stop"], "--work", "existing")
    assert read(home)["remarks"] == ["told beside the answers of what is there: rooms - one floor, it slopes"]


def test_a_new_house_without_a_laundry_circuit_is_asked_about(answer: Ask, home: Path) -> None:
    begins = [*[""] * 13, "1500 ft2", "", "", "", "", "1", "2", "gas", "none", "none", "none", "none", "none", "stop"]
    shown = answer(home, begins, "--work", "new")[1]
    assert "needs two or more of them (210.11(C)(1)); type it again to keep it." in shown
    assert "needs one or more for the laundry (210.11(C)(2))" in shown
    assert read(home)["dwelling units"][0]["laundry circuits"] == 0, "typed again it is kept"


def test_ratings_to_be_chosen_between_are_no_question(answer: Ask, home: Path) -> None:
    shown = answer(home, ["A", "", "", "125, 150 or 200 A?", "stop"], "--work", "new")[1]
    assert "Which of them it is counts as not known." in shown and "Taken as told" not in shown
    assert read(home)["service"]["rating"] == "unknown"
    assert read(home)["service"]["ratings considered"] == ["125 A", "150 A", "200 A"]  # which the table of ratings has too


def test_a_second_number_of_circuits_is_no_remark(answer: Ask, home: Path) -> None:
    shown = answer(home, [*UP_TO_KITCHEN[:-1], "two, plus one for the pantry", "stop"], "--work", "existing")[1]
    assert '"two, plus one for the pantry"' in shown and "Kept as a remark" not in shown
    assert "small appliance circuits" not in read(home)["dwelling units"][0]


@pytest.mark.parametrize(
    ("typed", "who"), [("the clerk, but she was not sure", None), ("R. Adeyemi, plans examiner", "R. Adeyemi, plans examiner")]
)
def test_who_is_not_sure_has_confirmed_nothing(answer: Ask, home: Path, typed: str, who: str | None) -> None:
    answer(home, ["A", "2020", typed, "stop"], "--work", "existing")
    assert read(home).get("confirmed by") == who


def test_the_label_of_a_motor_with_its_power_and_its_current(answer: Ask, home: Path) -> None:
    told = [*UP_TO_KITCHEN, "gas", "none", "1/2 HP 115 V 6.5 A", "stop"]
    shown = answer(home, told, "--work", "existing")[1]
    assert "Read as 6.5 A at 115 V; 1/2 HP beside it is not taken." in shown
    assert loads_of(home)["disposer"]["rating"].startswith("6.5 A at 115 V")


def test_the_rating_of_the_meter_is_asked_of_a_house_that_stands(answer: Ask, home: Path) -> None:
    answer(home, [*UP_TO_KITCHEN[:8], "200 A", "stop"], "--work", "existing")
    assert read(home)["service"]["meter"] == "200 A"


def test_without_a_pool_its_heater_is_not_asked(answer: Ask, home: Path) -> None:
    shown = answer(home, [*UP_TO_CLIMATE, "none", "none", "none", "no pool", "stop"], "--work", "existing")[1]
    assert "pool heat pump" not in shown
    assert {"pool pump", "pool heater"} <= {each if isinstance(each, str) else each["kind"] for each in read(home)["none of"]}


def test_yes_does_not_stand_for_what_is_not_there(answer: Ask, home: Path) -> None:
    """Of a dryer of which there is only the receptacle."""
    before = [*UP_TO_KITCHEN, "gas", "none", "none", "none", "", "electric", "no dryer there", "gas", *["none"] * 7]
    code, shown = answer(home, [*before, "dryer", "5.4 kW", "", ""], "--work", "existing")
    assert code == 0, shown
    assert "replaces" not in read(home)["planned"][0]
