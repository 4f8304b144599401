"""The pictures of an assessment: well formed, nothing cut or on top of something else, every figure in the table beside it."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from html import unescape
from math import isclose
from pathlib import Path
from xml.etree import ElementTree

import pytest
from assessments import DEMOS, Tree, assessed, demo, demo_assessed, house, load

from dwellcalc.decide.document import FITS, Assessment, SupplyResult
from dwellcalc.decide.record_document import RecordResult
from dwellcalc.report.carried_on import told_once
from dwellcalc.report.figures import figures as first_figures
from dwellcalc.report.page.sheet_page import sheet_sections
from dwellcalc.report.pictures.bars import Bar, Limit, Row, bars
from dwellcalc.report.pictures.connected import connected_picture
from dwellcalc.report.pictures.load import load_picture
from dwellcalc.report.pictures.methods import editions_picture, methods_picture
from dwellcalc.report.pictures.picture import Picture
from dwellcalc.report.pictures.scale import scale_to
from dwellcalc.report.pictures.settings import settings_picture
from dwellcalc.report.pictures.single_line import single_line_picture
from dwellcalc.report.pictures.style import STYLE
from dwellcalc.report.pictures.widths import ELLIPSIS, fitted, width_of
from dwellcalc.report.pictures.year import year_picture
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import Heading

LONG = "the {} in the corner of the basement behind the workbench and"
WIDE_NAMES = [(LONG.format(number) + "x" * 60)[:60] for number in range(4)]
TOKEN = re.compile(r"-?\d+(?:,\d{3})*(?:\.\d+)?")
ROOM = 0.5  # what boxes may touch, in units of the drawing
CHROMIUM = shutil.which("chromium")


# homes


def many_circuits() -> Tree:
    loads = [load(f"heater {number}", "space heater", "1.5 kW") for number in range(40)]
    return {**house(loads), "work": "new"}


def wide_names() -> Tree:
    first, *others = WIDE_NAMES
    tree = house([load(first, "range", "12 kW"), load(others[0], "storage water heater", "4.5 kW")])
    charger = {"name": others[1], "kind": "EV charging equipment", "settings": ["16 A", "24 A", "32 A", "40 A", "48 A"]}
    return {**tree, "planned": [charger, load(others[2], "hot tub", "50 A at 240 V")]}


def free_range() -> Tree:
    charger = {"name": "charger", "kind": "EV charging equipment", "settings": "6 A to 48 A"}
    return {
        **house([load("range", "range", "12 kW")], rating="60 A", conductors={"size": "4 AWG", "material": "copper"}),
        "planned": [charger],
    }


def far_too_much() -> Tree:
    loads = [load("boiler", "storage water heater", "130 kW"), load("range", "range", "12 kW")]
    return house(loads, rating="60 A", conductors={"size": "6 AWG", "material": "copper"})


def nothing_in_it() -> Tree:
    return house([], area="400 ft2")


def without_rating() -> Tree:
    tree = house([load("range", "range", "12 kW")])
    del tree["service"]["rating"]
    del tree["service"]["conductors"]
    return {**tree, "work": "new"}


def rating_missing() -> Tree:
    """No method gives a figure."""
    return house([load("range", "range", "unknown")])


MADE = {
    each.__name__: each
    for each in (many_circuits, wide_names, free_range, far_too_much, nothing_in_it, without_rating, rating_missing)
}
HOMES = [*DEMOS, *MADE]


@cache
def found_of(name: str) -> Assessment:
    return assessed(MADE[name]()) if name in MADE else demo_assessed(name)


def of_supply(found: Assessment, supply: SupplyResult) -> Iterator[Picture | None]:
    yield load_picture(supply)
    yield connected_picture(supply)
    yield methods_picture(supply)
    capacity = supply.sizing.capacity if supply.sizing is not None else None
    for each in found.decision.settings:
        yield settings_picture(each, supply.id, capacity)
    rows = [(each.title, each.title, each.amperes, supply.verdict, each.basis) for each in supply.results]
    yield editions_picture(supply.title, rows, capacity)
    if supply.record is not None:
        yield year_picture(supply.record)
        yield year_picture(with_gaps(supply.record))
        yield year_picture(replace(supply.record, days={}))


@cache
def pictures(name: str) -> list[Picture]:
    found = found_of(name)
    made = [each for supply in found.supplies for each in of_supply(found, supply)]
    return [each for each in [*made, single_line_picture(found)] if each is not None]


def with_gaps(record: RecordResult) -> RecordResult:
    """The record without two weeks, and without one day."""
    days = list(record.days)
    gone = {*days[40:54], days[200]}
    return replace(record, days={day: None if day in gone else power for day, power in record.days.items()})


# reading a drawing


@dataclass
class Box:
    text: str
    kind: str
    left: float
    top: float
    right: float
    bottom: float

    def over(self, other: Box) -> bool:
        """Whether it lies on another by more than a hair."""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > ROOM and down > ROOM


def texts(picture: Picture) -> list[Box]:
    found = []
    for element in picture.drawing.iter("text"):
        text, size, x, y = str(element.text), *(float(element.get(name, "")) for name in ("font-size", "x", "y"))
        wide = width_of(text, size)
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[element.get("text-anchor", "")]
        found.append(Box(text, element.get("class", ""), left, y - 0.75 * size, left + wide, y + 0.25 * size))
    return found


def size(picture: Picture) -> tuple[float, float]:
    left, top, width, height = map(float, picture.drawing.get("viewBox", "").split())
    assert (left, top) == (0, 0)
    return width, height


def figures(text: str) -> set[str]:
    whole = text.rpartition(" ")[0] if text.endswith(ELLIPSIS) else text
    return set(TOKEN.findall(whole))


@pytest.mark.parametrize("name", HOMES)
def test_every_picture_is_well_formed_and_stands_alone(name: str) -> None:
    assert pictures(name)
    for picture in pictures(name):
        text = ElementTree.tostring(picture.drawing, encoding="unicode")
        again = ElementTree.fromstring(text)
        assert again.tag.endswith("}svg")
        tags = {element.tag.rpartition("}")[2] for element in again.iter()}
        assert tags <= {"svg", "text", "rect", "polyline", "circle", "path"}
        attributes = {name for element in again.iter() for name in element.attrib}
        assert not attributes & {"id", "style", "fill", "stroke", "href"}
        classes = {element.get("class", "") for element in again.iter() if element.tag.rpartition("}")[2] not in ("text", "svg")}
        assert all(re.search(rf"\.{each}\b", STYLE) for each in classes)
        assert picture.says.endswith(".")
        assert picture.title
        assert "nan" not in text
        assert all(len(row) == len(picture.numbers.head) for row in picture.numbers.rows)


@pytest.mark.parametrize("name", HOMES)
def test_no_text_is_cut_or_on_another(name: str) -> None:
    for picture in pictures(name):
        width, height = size(picture)
        boxes = texts(picture)
        for at, box in enumerate(boxes):
            assert box.left >= 0, (picture.title, box)
            assert box.right <= width, (picture.title, box)
            assert box.top >= 0, (picture.title, box)
            assert box.bottom <= height + ROOM, (picture.title, box)
            assert not [other for other in boxes[:at] if box.over(other)], (picture.title, box)
        assert all(float(each.get("font-size", "")) >= 11 for each in picture.drawing.iter("text"))


@pytest.mark.parametrize("name", HOMES)
def test_every_mark_is_within_the_drawing(name: str) -> None:
    for picture in pictures(name):
        width, height = size(picture)
        for element in picture.drawing.iter("rect"):
            x, y, wide, high = (float(element.get(each, "")) for each in ("x", "y", "width", "height"))
            assert 0 <= x <= x + wide <= width + 0.1
            assert 0 <= y <= y + high <= height + 0.1
        for element in picture.drawing.iter("polyline"):
            points = [tuple(map(float, point.split(","))) for point in element.get("points", "").split()]
            assert all(0 <= x <= width and 0 <= y <= height for x, y in points), (picture.title, points)


@pytest.mark.parametrize("name", HOMES)
def test_every_figure_that_is_drawn_is_in_the_table(name: str) -> None:
    for picture in pictures(name):
        table = picture.numbers
        known = set().union(*(figures(cell) for row in [[table.title], table.head, *table.rows] for cell in row))
        for box in texts(picture):
            if box.kind != "tick":  # the round values of a scale
                assert figures(box.text) <= known, (picture.title, box.text)


@pytest.mark.parametrize("name", HOMES)
def test_the_parts_add_up_to_the_load(name: str) -> None:
    for supply in found_of(name).supplies:
        if supply.sizing is None:
            assert not supply.parts
            continue
        basis = next(each for each in supply.results if each.basis)
        own = [part for part in supply.parts if not part.added]
        assert isclose(sum(part.amperes for part in own), basis.amperes, abs_tol=1e-9)
        assert isclose(sum(part.va for part in own), supply.total, abs_tol=1e-6)
        assert isclose(sum(part.amperes for part in supply.parts), supply.sizing.amperes, abs_tol=1e-9)
        assert all(part.amperes > 0 for part in supply.parts)


@pytest.mark.parametrize("name", HOMES)
def test_the_groups_and_their_loads_add_up_to_what_is_connected(name: str) -> None:
    for supply in found_of(name).supplies:
        if supply.connected is None:
            continue
        found = supply.connected
        assert isclose(sum(group.va for group in found.groups), found.va)
        assert isclose(sum(group.amperes for group in found.groups), found.amperes)
        assert all(isclose(sum(group.loads.values()), group.va) for group in found.groups if group.loads)
        assert sum(not group.loads for group in found.groups) <= 1  # what follows from floor area and circuits


# what is shown


def test_what_the_load_is_made_of_names_the_loads_on_the_scale_of_the_load() -> None:
    supply = demo_assessed("new_all_electric_house").supplies[0]
    picture = connected_picture(supply)
    assert "14,664 VA: heat pump 4,296, air handler 768, strip" in words(picture)
    assert "Connected in all: 61,120 VA, 254.67 A" in words(picture)
    assert ["Cooking\nrange", "220.14", "11,500 VA", "47.92 A"] in picture.numbers.rows
    assert not any(row[0].startswith("refrigerator") for row in picture.numbers.rows)  # on no circuit of its own
    scales = [[box.text for box in texts(each) if box.kind == "tick"] for each in (picture, load_picture(supply))]
    assert scales[0] == scales[1]
    metered = connected_picture(demo_assessed("house_with_meter_record").supplies[0])
    assert "rests on the record" in words(metered)
    assert connected_picture(found_of("rating_missing").supplies[0]) is None


def test_a_group_that_is_not_compared_is_never_crossed() -> None:
    crossed, plain = (
        words(
            Picture("", "", bars([Row("one", bar=Bar(0.0, 200.0, compared=each))], [Limit(100.0, "Capacity")]).finished(), None)
        )
        for each in (True, False)
    )
    assert "Crossed" in crossed
    assert "Crossed" not in plain


def words(picture: Picture | None) -> str:
    assert picture is not None
    return "\n".join(box.text for box in texts(picture))


def test_the_parts_follow_sums_choices_and_tiers() -> None:
    service, feeder = (each.parts for each in demo_assessed("farm_house_with_shop").supplies)
    assert [part.tier for part in service] == ["100 % of the first 8000 VA", "40 % of the rest"]
    assert [part.added for part in feeder] == [False, False, False, False, True]
    assert feeder[-1].va is None
    flats = demo_assessed("three_flats").supplies[0].parts
    assert [part.title for part in flats][:1] == ["Dwelling units after the demand factor"]
    assert len(flats) == 2


def test_a_load_that_does_not_fit_is_crossed_beyond_the_capacity() -> None:
    supply = found_of("far_too_much").supplies[0]
    assert supply.sizing is not None
    assert supply.sizing.amperes > 4 * supply.sizing.capacity
    picture = load_picture(supply)
    assert "Crossed lines: beyond the capacity" in words(picture)
    assert "it does not fit" in picture.says
    assert f"{supply.sizing.margin:,.2f} A" in words(picture)
    fitting = load_picture(demo_assessed("new_all_electric_house").supplies[0])
    assert "Crossed" not in words(fitting)
    assert "it fits" in fitting.says


def test_a_load_that_fits_by_a_fraction_says_so() -> None:
    supply = found_of("free_range").supplies[0]
    assert supply.verdict == "fits"
    assert supply.sizing.margin < 0
    assert "it fits: a fraction is dropped" in words(load_picture(supply))


def test_bounds_and_ratings_beside_the_capacity_are_told() -> None:
    between = load_picture(demo_assessed("house_half_read").supplies[0])
    told = words(between).split("\n")
    assert told.count("Slanting lines: what is not known") == told.count("at the least 93.83 A") == 1
    assert list(between.drawing.iter("polyline"))
    rated = load_picture(demo_assessed("small_gas_heated_house").supplies[0])
    assert "Rating of the main overcurrent device 60.00 A" in words(rated)
    assert "Capacity 55.00 A" in words(rated)


def test_a_load_of_one_part_is_one_bar_and_nothing_is_nothing() -> None:
    one = load_picture(demo_assessed("duplex").supplies[0])
    assert len(list(one.drawing.iter("rect"))) == 1
    nothing = found_of("rating_missing").supplies[0]
    assert load_picture(nothing) is None
    assert methods_picture(nothing) is None
    unrated = load_picture(found_of("without_rating").supplies[0])
    assert "Capacity" not in words(unrated)
    assert "no rating to compare with" in unrated.says


def test_the_method_that_is_taken_and_those_that_may_not_be_used_are_told_in_words() -> None:
    supply = demo_assessed("new_all_electric_house").supplies[0]
    shown = words(methods_picture(supply)).split("\n")
    assert "taken; without what is planned (thin bar) 133.53 A" in shown
    assert sum(line.startswith("\u2013 ") for line in shown) == sum(each.may_be_used == "no" for each in supply.results)


def test_what_sizing_adds_is_told_beside_the_method() -> None:
    supply = demo_assessed("farm_house_with_shop").supplies[1]
    assert "taken; with what sizing adds 97.00 A" in words(methods_picture(supply))
    assert "added in sizing" in words(load_picture(supply))


def test_editions_are_drawn_alike() -> None:
    rows = [
        ("NEC 2023", "Optional calculation", 149.53, "fits", True),
        ("NEC 2026", "Optional calculation", 163.76, "does not fit", False),
        ("NEC 2014", "", None, "open", False),
    ]
    picture = editions_picture("Service", rows, 150.0)
    assert "that of this sheet, fits" in words(picture)
    assert "\u2013 NEC 2014: open" in words(picture)
    assert picture.numbers.rows[1][2:4] == ["163.76 A", "does not fit"]
    assert editions_picture("Service", rows[2:], 150.0) is None


def test_settings_show_the_one_that_is_counted_and_of_a_free_range_the_edges() -> None:
    found = demo_assessed("new_all_electric_house")
    listed = words(settings_picture(found.decision.settings[0], "service", 150.0))
    assert "Set to 40 A, fits, counted" in listed
    assert "Set to 48 A, does not fit" in listed
    free = found_of("free_range").decision.settings[0]
    assert len(free.settings) == 43
    picture = settings_picture(free, "service", 60.0)
    assert 2 <= len(picture.numbers.rows) - 1 < 12
    assert settings_picture(free, "no such supply", None) is None


def test_the_diagram_names_every_circuit_and_what_is_not_given() -> None:
    for name in HOMES:
        found = found_of(name)
        rows = [row[1] for row in single_line_picture(found).numbers.rows]
        for supply in found.supplies:
            for circuit in supply.circuits.circuits if supply.circuits is not None else ():
                assert any(row.startswith(circuit.load) for row in rows)
    shown = words(single_line_picture(found_of("without_rating")))
    assert "Main overcurrent device: to be chosen, at least 100 A" in shown.replace("\n", " ")  # it is to be installed
    assert "Conductors: to be chosen, not smaller than 4" in shown.replace("\n", " ")
    assert "Smallest copper neutral" in shown.replace("\n", " ")
    planned = words(single_line_picture(demo_assessed("house_with_meter_record")))
    assert "charger (planned)" in planned
    assert "and 4 existing loads, circuits not sized here" in planned
    assert len(re.findall(r"heater \d", words(single_line_picture(found_of("many_circuits"))))) == 40


@pytest.mark.parametrize(
    ("edition", "more", "drawn"),
    [
        ("nec/2023", {}, True),
        ("nec/2020", {}, True),
        ("nec/2017", {}, False),  # the edition does not ask for it
        ("nec/2023", {"work": "existing"}, False),
    ],
)
def test_an_emergency_disconnect_is_drawn_where_the_edition_asks_for_one(edition: str, more: Tree, drawn: bool) -> None:
    tree = {**demo("new_all_electric_house"), "code": edition, **more}
    shown = words(single_line_picture(assessed(tree))).replace("\n", " ")
    assert ("Emergency disconnect outside: the main itself where" in shown) == ("(230.85)" in shown) == drawn
    assert ELLIPSIS not in shown
    assert ("at least 6 AWG copper or 4 AWG aluminum" in shown) == drawn  # for 150 A, by the table of equipment grounding
    for place, told in (
        ("inside", "to be added ahead of the main, which stands inside"),
        ("outside", "the main itself, which stands there"),
    ):
        found = assessed({**tree, "service": {**tree["service"], "main stands": place}})
        shown = words(single_line_picture(found)).replace("\n", " ")
        assert (f"Emergency disconnect outside: {told}" in shown) == drawn
        assert ("belong there, not here" in shown) == (drawn and place == "inside")
        rows = dict(first_figures(found, found.supplies[0], found.supplies[0].sizing).rows)
        assert any(told in f"{what}: {text}" for what, text in rows.items() if what == "Emergency disconnect outside") == drawn


def test_three_dwelling_units_have_no_emergency_disconnect() -> None:
    tree = {**demo("three_flats"), "work": "new", "code": "nec/2023"}
    assert "emergency disconnect" not in words(single_line_picture(assessed(tree)))


def test_circuits_for_later_are_drawn_apart() -> None:
    tree = demo("new_all_electric_house")
    tree["none of"] = ["pool pump"]
    tree["planned"].append({"name": "hot tub", "kind": "hot tub", "rating": "32 A at 240 V", "later": "yes"})
    picture = single_line_picture(assessed(tree))
    assert picture is not None and picture.numbers is not None
    assert "hot tub (later, not in this permit)" in words(picture)
    (row,) = [row for row in picture.numbers.rows if row[1].startswith("hot tub")]
    assert row[2:] == ["40 A", "8 AWG copper at 60 C or 75 C", "grounding 10 AWG copper or 8 AWG aluminum"]


def test_feeders_stand_below_the_service() -> None:
    shown = words(single_line_picture(demo_assessed("duplex"))).split("\n")
    titles = [next(at for at, line in enumerate(shown) if line.startswith(f"Feeder {name}")) for name in ("A", "B")]
    assert 0 < titles[0] < titles[1]


def test_the_days_of_a_record_agree_with_its_months_and_gaps_look_like_gaps() -> None:
    record = demo_assessed("house_with_meter_record").supplies[0].record
    assert record is not None
    assert len(record.days) == 365
    for month in record.months:
        assert max(power for day, power in record.days.items() if day.startswith(month.name)) == month.maximum
        assert record.days[month.at[:10]] == month.maximum
    whole, broken = year_picture(record), year_picture(with_gaps(record))
    gaps = [each for each in broken.drawing.iter("rect") if each.get("class") == "gap"]
    assert not [each for each in whole.drawing.iter("rect") if each.get("class") == "gap"]
    assert len(gaps) == 3  # a sample with its words, two weeks, a day
    assert isclose(float(gaps[1].get("width")) / float(gaps[2].get("width")), 14, rel_tol=0.1)
    assert "2 gaps without values" in broken.says
    assert "5.244 kW, 2026-01-30 19:15" in words(whole)
    assert year_picture(replace(record, days={}, months=[])) is None


# primitives


@pytest.mark.parametrize(
    ("largest", "last"), [(0.0, 1.0), (3.2, 4.0), (150.0, 150.0), (149.53, 150.0), (465.9, 500.0), (1200.0, 1250.0)]
)
def test_scales_end_at_round_values(largest: float, last: float) -> None:
    scale = scale_to(largest, 0, 100)
    assert scale.step * scale.count == last
    assert [text for _, text in scale.ticks()][0] == "0"
    assert len(scale.ticks()) <= 6


def test_texts_are_wrapped_and_cut_to_their_room() -> None:
    assert fitted("range", 13, 100) == ["range"]
    lines = fitted("a long name " * 20, 13, 120)
    assert len(lines) == 2
    assert lines[1].endswith(ELLIPSIS)
    assert all(width_of(line, 13) <= 120 for line in lines)
    assert fitted("x" * 200, 13, 120)[0].endswith(ELLIPSIS)


def test_twelve_parts_and_a_bar_far_beyond_have_room() -> None:
    rows = [
        Row(WIDE_NAMES[0], f"{number:,.2f} A", [WIDE_NAMES[1]], Bar(100.0 * number, 100.0 * number + 100)) for number in range(12)
    ]
    drawn = bars(rows, [Limit(100.0, "Capacity"), Limit(400.0, "Rating", "rating")]).finished()
    boxes = [float(each.get("x")) + float(each.get("width")) for each in drawn.iter("rect")]
    assert max(boxes) <= 400


# in a browser

SCRIPT = """
const found = [];
for (const svg of document.querySelectorAll("svg")) {
  const page = svg.getBoundingClientRect();
  const boxes = [...svg.querySelectorAll("text")].map(t => [t.textContent, t.getBoundingClientRect()]);
  for (const [text, b] of boxes)
    if (b.left < page.left - 0.5 || b.right > page.right + 0.5 || b.top < page.top - 1 || b.bottom > page.bottom + 1)
      found.push(["cut", svg.getAttribute("data-of"), text]);
  for (let i = 0; i < boxes.length; i++)
    for (let j = 0; j < i; j++) {
      const [one, a] = boxes[i], [other, b] = boxes[j];
      const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (across > 0.5 && down > 3) found.push(["over", svg.getAttribute("data-of"), one, other]);
    }
}
const told = document.createElement("pre");
told.id = "told";
told.textContent = JSON.stringify([document.querySelectorAll("svg text").length, found]);
document.body.append(told);
"""


PLANTED = """<svg class="picture" data-of="planted" viewBox="0 0 400 40">
<text x="10" y="20" font-size="13">one text</text><text x="30" y="20" font-size="13">another</text>
<text x="380" y="20" font-size="13">a text that is cut</text></svg>"""  # what must be found, so that the test is known to see


def page_of(names: list[str], script: str) -> str:
    shown = []
    for name in names:
        for picture in pictures(name):
            text = ElementTree.tostring(picture.drawing, encoding="unicode")
            shown.append(text.replace("<svg ", f'<svg data-of="{name}" ', 1))
    body = "\n".join([*shown, PLANTED])
    return f"<!doctype html><meta charset=utf-8><style>body {{ width: 400px; margin: 0 }} {STYLE}</style>{body}<script>{script}</script>"


@pytest.mark.skipif(CHROMIUM is None, reason="chromium is not there to draw the pictures")
def test_a_browser_cuts_no_text_and_draws_none_on_another(tmp_path: Path) -> None:
    file = tmp_path / "pictures.html"
    file.write_text(page_of(HOMES, SCRIPT), encoding="utf-8")
    flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"]
    flags += ["--disable-sync", "--no-first-run", f"--user-data-dir={tmp_path / 'profile'}", "--dump-dom", file.as_uri()]
    assert CHROMIUM is not None
    ran = subprocess.run([CHROMIUM, *flags], capture_output=True, text=True, timeout=300, check=True)
    told = re.search(r'<pre id="told">(.*?)</pre>', ran.stdout, re.DOTALL)
    assert told is not None, ran.stderr
    number, found = json.loads(unescape(told[1]))
    assert number == 3 + sum(len(texts(picture)) for name in HOMES for picture in pictures(name))
    assert sorted(each[:2] for each in found) == [["cut", "planted"], ["over", "planted"]]


def test_a_feeder_with_the_whole_load_is_drawn_after_the_main_and_its_load_printed_once() -> None:
    feeder = {"name": "panel feeder", "feeds": "house", "bus": "200 A", "main overcurrent device": "no"}
    tree = house([load("range", "range", "12 kW")], meter="200 A") | {"work": "new", "feeders": [feeder]}
    found = assessed(tree)
    service, feeding = found.supplies
    assert (feeding.carries_all, feeding.protected_by_service, feeding.verdict) == (True, True, FITS)
    assert service.circuits is not None
    assert [each.load for each in service.circuits.circuits] == ["range"]
    assert feeding.circuits is None or not feeding.circuits.circuits
    drawn = single_line_picture(found)
    assert drawn is not None
    texts = [text.strip() for text in drawn.drawing.itertext() if text.strip()]
    order = ["Meter 200 A", "Main overcurrent device 200 A", "Panel feeder", "Bus 200 A", "range"]
    assert [texts.index(each) for each in order] == sorted(texts.index(each) for each in order)
    assert any(each.startswith("Copper main bonding jumper") for each in texts[: texts.index("Panel feeder")])
    assert any(each.startswith("Copper equipment grounding conductor") for each in texts[texts.index("Panel feeder") :])
    titles = [block.text for block in sheet_pages(found, full=False) if isinstance(block, Heading)]
    assert titles.count("The answer") == 1
    assert service.basis is not None
    assert sum(each.startswith(service.basis.title) for each in titles) == 1
    assert len(sheet_sections(told_once(found))) == len(sheet_sections(found))
