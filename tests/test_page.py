"""The page of an assessment: its parts in order, its tables and heads, nothing asked for, and how a browser shows and prints it."""

from __future__ import annotations

import json
import re
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from assessments import DEMO
from browser import measured, needs_browser, needs_poppler, over_the_edge, printed, requests_of

from dwellcalc.cli.actions import Wanted, assessment
from dwellcalc.decide.document import Assessment
from dwellcalc.language.words import FUNCTIONS
from dwellcalc.report.page.page import _open, sheet_page
from dwellcalc.report.page.sheet_page import Section

HOMES = sorted(path.stem for path in DEMO.glob("*.yaml"))
FEW = ("new_all_electric_house", "duplex", "house_half_read")
VOID = {"meta", "br"}
NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?")
THOUSAND = 1000
TICK = "tick"  # the numbers of a scale, which are of the picture


@cache
def made(home: str) -> Assessment:
    return assessment(str(DEMO / f"{home}.yaml"), Wanted(), editions=True)


@cache
def page(home: str) -> str:
    return sheet_page(made(home))


class Tree(HTMLParser):
    """A page read without a browser: its open elements, heads, tables, ids and texts."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[tuple[str, dict[str, str]]] = []
        self.heads: list[tuple[int, str]] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.elements: list[tuple[str, dict[str, str], tuple[str, ...]]] = []
        self.texts: list[tuple[str, tuple[str, ...]]] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        known = {name: value or "" for name, value in attrs}
        self.elements.append((tag, known, self.path()))
        if "id" in known:
            self.ids.append(known["id"])
        self.links += [known[name] for name in ("href", "src", "action", "data", "poster", "xlink:href") if name in known]
        if tag not in VOID:
            self.open.append((tag, known))

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1][0] == tag, f"{tag} closes {self.open[-1][0]}"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        if data.strip():
            self.texts.append((data, self.path()))
            if self.open and re.fullmatch(r"h[1-6]", self.open[-1][0]):
                self.heads.append((int(self.open[-1][0][1]), data))

    def path(self) -> tuple[str, ...]:
        return tuple(TICK if known.get("class") == "tick" else tag for tag, known in self.open)


@pytest.mark.parametrize("home", [home if home in FEW else pytest.param(home, marks=pytest.mark.long) for home in HOMES])
def test_a_page(home: str) -> None:
    """Together, for a page takes some seconds to make."""
    tree = Tree(page(home))
    check_that_it_asks_for_nothing(page(home), tree)
    check_that_it_can_be_read_aloud(tree)
    assert not strange_numbers(home)


def check_that_it_asks_for_nothing(text: str, tree: Tree) -> None:
    assert not tree.open
    assert "<script" not in text
    assert "@import" not in text
    assert "url(" not in text
    assert all(link.startswith("#") and link[1:] in tree.ids for link in tree.links)
    assert len(tree.ids) == len(set(tree.ids))


def check_that_it_can_be_read_aloud(tree: Tree) -> None:
    levels = [level for level, _ in tree.heads]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in zip(levels, levels[1:]))
    cells = [known for tag, known, _ in tree.elements if tag == "th"]
    assert cells
    assert all(known.get("scope") in ("row", "col") for known in cells)
    drawings = [known for tag, known, _ in tree.elements if tag == "svg"]
    assert drawings
    assert all(known.get("role") == "img" and len(known.get("aria-label", "")) > 20 for known in drawings)


@pytest.mark.slow
def test_the_parts_stand_in_their_order() -> None:
    heads = [text for level, text in Tree(page("house_with_meter_record")).heads if level == 2]
    wanted = [
        "The answer",
        "The load against the supply",
        "The calculation, line by line",
        "The other methods, and why not",
        "Sizes",
        "Planned loads and settings",
        "The record of the metered demand",
        "Facts of the house not verified",
        "Code values not verified",
        "Cautions",
        "To be found in the field by inspector and installer",
        "To be filled in",
    ]
    assert [each for each in heads if each in wanted] == wanted


ODD = """
home: "<b>No. 3</b> & 'Hof' </style><script>alert(1)</script> \\ Ümlaut 家, a very-long-name-without-any-gap-that-a-page-must-still-hold-on-a-telephone"
code: nec/2023
work: existing
service: {system: 120/240 V single-phase 3-wire, rating: 100 A, conductors: not seen}
dwelling units:
  - name: "unit <1>"
    areas: [{name: "rooms & hall", kind: living, area: 1500 ft2}]
    small appliance circuits: 2
    laundry circuits: 1
    loads:
      - {name: "a-range-with-a-very-long-name-that-has-no-gap-anywhere-in-it-at-all", kind: range, rating: 8 kW to 14 kW}
      - {name: "WH <svg onload=x>", kind: storage water heater, rating: 3 kW to 9 kW, maximum overcurrent device: 30 A}
planned:
  - {name: 'charger "two"', kind: EV charging equipment, settings: 6 A to 48 A}
"""


@cache
def odd_page() -> str:
    with TemporaryDirectory() as folder:
        file = Path(folder) / "home.yaml"
        file.write_text(ODD, encoding="utf-8")
        return sheet_page(assessment(str(file), Wanted(), editions=True))


def test_no_call_of_the_rule_language_stands_on_a_page() -> None:
    calls = re.compile(rf"\b(?:{'|'.join(FUNCTIONS)})\(")
    for home in (*FEW, "house_with_meter_record"):
        shown = [text for text, path in Tree(page(home)).texts if "style" not in path]
        assert not [text for text in shown if calls.search(text)]
        assert any("the larger of" in text or "the smaller of" in text for text in shown)


def test_a_schedule_leaves_out_columns_of_nothing_and_says_so() -> None:
    """Their names stand after the lines; the text of the same home has them as columns."""
    tree = Tree(page("duplex"))
    heads = {known.get("data-head", "") for tag, known, _ in tree.elements if tag == "td"}
    assert not any(head.startswith("Supplemental heat") for head in heads)
    assert any(text.startswith("Nothing is in these lines") and "Supplemental heat" in text for text, _ in tree.texts)


@pytest.mark.slow
def test_names_are_text_and_nothing_else() -> None:
    text = odd_page()
    tree = Tree(text)
    check_that_it_asks_for_nothing(text, tree)
    check_that_it_can_be_read_aloud(tree)
    assert text.count("</style>") == 1
    assert not [tag for tag, known, _ in tree.elements if tag in ("b", "script") or "onload" in known]
    shown = "".join(text for text, _ in tree.texts)
    assert "<b>No. 3</b> & 'Hof' </style><script>alert(1)</script>" in shown
    assert "<svg onload=x>" in shown


# numbers


def told_in(found: object) -> tuple[set[str], set[float]]:
    """The numbers that stand in the texts of a document, and its own."""
    texts: set[str] = set()
    values: set[float] = set()
    if isinstance(found, dict):
        for name, each in found.items():
            for part in (name, each):
                more = told_in(part)
                texts |= more[0]
                values |= more[1]
    elif isinstance(found, list):
        for each in found:
            more = told_in(each)
            texts |= more[0]
            values |= more[1]
    elif isinstance(found, str):
        texts |= {each.replace(",", "") for each in NUMBER.findall(found)}
    elif isinstance(found, (int, float)) and not isinstance(found, bool):
        values.add(float(found))
    return texts, values


def is_told(number: str, texts: set[str], values: set[float]) -> bool:
    plain = number.replace(",", "").rstrip(".")
    decimals = len(plain.partition(".")[2])
    if plain in texts:
        return True
    shown = float(plain)
    return any(
        round(abs(value), decimals) == shown
        or round(abs(value) / THOUSAND, decimals) == shown
        or abs(abs(value) - shown) <= 0.5 * 10**-decimals
        for value in values
    )


def strange_numbers(home: str) -> list[str]:
    """The numbers of a page that its document does not hold; those that name lines apart."""
    document = json.loads(json.dumps(made(home).json()))
    texts, values = told_in({name: each for name, each in document.items() if name != "home_file"})
    found = []
    for text, path in Tree(page(home)).texts:
        if "style" in path or "nav" in path or path[-1] == TICK:
            continue
        said = re.sub(r"\bline h?\d+(?: \+ h?\d+)*", "", text)
        if path[-1] == "td" and re.fullmatch(r"\s*[hw]?\d+\s*", text):
            continue  # the number of a line, in its own column
        found += [f"{number} in {text[:80]}" for number in NUMBER.findall(said) if not is_told(number, texts, values)]
    return found


def test_a_number_that_is_not_in_the_document_is_found() -> None:
    texts, values = told_in({"load": 149.526667, "text": "1,240 ft2"})
    assert is_told("149.53", texts, values)
    assert is_told("1,240", texts, values)
    assert is_told("150", texts, values)
    assert not is_told("149.54", texts, values)
    assert not is_told("1,241", texts, values)


# in a browser


def wrong(homes: tuple[str, ...], folder: Path) -> list[str]:
    found = measured({home: page(home) for home in homes}, (390, 1100), folder)
    assert all(each["texts"] > 100 for state in found.values() for each in state)  # type: ignore[operator]
    return [f"{each['name']}, {state}: {told}" for state, pages in found.items() for each in pages for told in each["told"]]  # type: ignore[attr-defined]


@needs_browser
def test_no_text_is_cut_or_lies_over_another(tmp_path: Path) -> None:
    assert not wrong(FEW, tmp_path)


@needs_browser
@pytest.mark.long
def test_no_text_of_any_demonstration_home_is_cut_or_lies_over_another(tmp_path: Path) -> None:
    assert not wrong(tuple(HOMES), tmp_path)


@pytest.mark.slow
@needs_browser
def test_long_names_are_neither_cut_nor_over_one_another(tmp_path: Path) -> None:
    found = measured({"odd": odd_page()}, (360, 1100), tmp_path)
    assert not [told for state in found.values() for each in state for told in each["told"]]  # type: ignore[attr-defined]


@needs_browser
def test_a_cut_text_is_seen(tmp_path: Path) -> None:
    bad = page(FEW[0]).replace("</main>", '<p style="width:3000px">a line that is far wider than any window</p></main>')
    found = measured({"bad": bad}, (390,), tmp_path)
    assert any("wider" in told for told in found["closed"][0]["told"])  # type: ignore[attr-defined]


@needs_browser
def test_a_browser_asks_for_nothing(tmp_path: Path) -> None:
    file = tmp_path / "page.html"
    file.write_text(page(FEW[0]), encoding="utf-8")
    assert not requests_of(file, tmp_path)


@pytest.mark.slow
@needs_browser
@needs_poppler
@pytest.mark.parametrize("size", ["Letter", "A4"])
def test_no_head_stands_alone_at_the_foot_of_a_sheet_of_paper(size: str, tmp_path: Path) -> None:
    text = page(FEW[0])
    heads = {re.sub(r"\s+", " ", each) for _, each in Tree(text).heads}
    sheets = printed(text, size, tmp_path)
    assert len(sheets) > 5
    for number, sheet in enumerate(sheets, 1):
        lines = [re.sub(r"\s+", " ", line.strip()) for line in sheet.splitlines() if line.strip()]
        foot = next(at for at, line in enumerate(lines) if line.endswith(f"{number} of {len(sheets)}"))
        assert lines[foot - 1] not in heads, f"sheet {number} ends with the head {lines[foot - 1]}"


@needs_browser
@needs_poppler
@pytest.mark.parametrize("size", ["Letter", "A4"])
def test_a_plain_new_house_takes_few_sheets_and_the_field_page_has_its_own(size: str, tmp_path: Path) -> None:
    sheets = printed(page(FEW[0]), size, tmp_path)
    assert len(sheets) <= 12
    assert "Ratings of the new service" not in sheets[0]  # its rating is decided
    assert "Ratings of the new service" in "".join(sheets[1:])
    field = [sheet for sheet in sheets[1:] if "To be found in the field" in sheet]  # the head of the first sheet names it
    assert len(field) == 1
    assert "Cautions" not in field[0]
    assert "Code values not verified" not in field[0]
    assert "To be filled in" in field[0]
    assert "Digest of the rules" in "".join(sheets[1:-1])
    assert field[0] is sheets[-1]
    assert field[0].lstrip().startswith("To be found in the field")
    body = [
        len([line for line in sheet.splitlines() if line.strip()]) for sheet in sheets[:-2]
    ]  # the one before the field page ends where the appendix does
    assert min(body) > 25, f"nearly empty sheets: {body}"


@pytest.mark.slow
@needs_browser
@needs_poppler
@pytest.mark.parametrize("size", ["Letter", "A4"])
def test_no_word_is_shaved_at_the_right_edge_of_paper(size: str, tmp_path: Path) -> None:
    assert not over_the_edge(page(FEW[0]), size, tmp_path)


@pytest.mark.slow
@needs_browser
@needs_poppler
def test_a_word_at_the_very_edge_of_paper_is_found(tmp_path: Path) -> None:
    flush = "body { padding: 0 } th:last-child, td:last-child { padding-right: 0 }"
    bad = page(FEW[0]).replace("</head>", f"<style>@media print {{ {flush.replace(' }', ' !important }')} }}</style></head>")
    assert over_the_edge(bad, "Letter", tmp_path)


def test_the_head_says_what_is_open_and_the_answer_stands_before_the_links() -> None:
    tree = Tree(page("house_half_read"))
    said = [text for text, path in tree.texts if path[:3] == ("html", "body", "header")]
    assert "Preliminary. Still open, each told below: the edition, which nobody has confirmed; " in said
    assert "what is not known" in said
    assert any(
        "What the maker of this sheet has to settle for it to be final: who confirmed the edition; " in text for text in said
    )
    assert "facts of the house not verified" in said
    order = [known.get("id") or tag for tag, known, _ in tree.elements if tag == "nav" or known.get("id", "").startswith("part-")]
    assert order[:3] == ["part-1", "nav", "part-2"]
    assert not _open([], "", confirmed=True, settled=False)
    section = Section("Facts", [], opens="facts of the house not verified")
    begins = ["".join(_open([section], "", confirmed=True, settled=each)[0].itertext()) for each in (True, False)]
    assert [each.partition(",")[0] for each in begins] == ["To be confirmed", "Preliminary. Still open"]
    assert not any("code values not verified" in text for text in said if text.startswith("Preliminary"))
    assert "To be held against the adopted code: " in said
    assert "nobody has confirmed" in "".join(_open([], "", confirmed=False, settled=True)[0].itertext())


def test_paper_leaves_out_how_a_home_file_is_written() -> None:
    roles = [known.get("class") for tag, known, _ in Tree(page(FEW[0])).elements if tag == "p"]
    assert "on-screen" in roles
    assert ".on-screen { display: none; }" in page(FEW[0]).split("@media print {")[-1]


def test_paper_leaves_out_the_lines_of_a_record_and_of_new_conductors_of_a_service_that_is_there() -> None:
    """They stand folded on the screen, and paper names them."""
    text = page("house_with_meter_record")
    aside = re.findall(r'<details class="on-screen"><summary>([^<]*)</summary>', text)
    assert len([each for each in aside if each.startswith("The record of the metered demand")]) == 1
    assert [each for each in aside if each.startswith("Neutral conductor")]
    named = re.search(r"left out on paper: ([^<]*)\.</p>", text)
    assert named is not None
    assert re.sub(r"\s", " ", named[1]).split("; ") == aside
    assert ".side-by-side.on-screen { display: none; }" in text


@pytest.mark.slow
def test_what_is_marked_and_the_titles_of_sources_are_on_the_page() -> None:
    assert "3 kW to 9 kW; maximum overcurrent device 30 A</td>" in odd_page().replace("\N{NO-BREAK SPACE}", " ")
    titles = made(FEW[0]).rule_set["sources"]
    said = [text.partition(": ")[2].rpartition(" (")[0] for text, _ in Tree(page(FEW[0])).texts if text.startswith("Evidence of")]
    assert said
    assert {each for text in said for each in text.split("; ")} <= set(titles.values())


def test_a_number_and_its_unit_stay_together_in_a_head_and_parts_of_a_schedule_are_counted() -> None:
    text = page("new_all_electric_house")
    assert "Copper, 60\N{NO-BREAK SPACE}C</th>" in text
    assert re.search(r"<caption>Loads that are counted in these columns, 1\sof\s\d</caption>", text)


@pytest.mark.slow
@needs_browser
@needs_poppler
def test_folds_are_open_on_paper(tmp_path: Path) -> None:
    text = "".join(printed(page(FEW[0]), "A4", tmp_path))
    assert "lighting load * floor area = 3 VA/ft2 * 2,860 ft2 = 8,580 VA" in re.sub(r"\s+", " ", text)
    assert "Named in the rules" not in text
    assert "Smallest rating that a" in text
