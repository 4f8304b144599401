"""The pages to read that are generated from the rules: current, whole, linked, and true."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from commands import Run
from examples import ROOT, rules_of

from dwellcalc.cli import reading_actions
from dwellcalc.cli.reading_actions import pages_of
from dwellcalc.glossary import LoadKind
from dwellcalc.home import home_from_text
from dwellcalc.home.models import models_for
from dwellcalc.language.overlays import first_that_holds
from dwellcalc.language.rule_set import editions_in, every_amendment, installed_folder
from dwellcalc.placed import spaced
from dwellcalc.report.reading.kinds_page import example
from dwellcalc.report.reading.links import anchor, by_words, in_words
from dwellcalc.review.suspects import Suspects

COMMITTED = ROOT / "rules" / "reading"
MENDS = "dwellcalc rules reading rules/reading"
EDITIONS = editions_in(installed_folder())
NEWEST = EDITIONS[-1]
KINDS = list(rules_of(NEWEST).glossary.load_kinds.values())


@cache
def pages() -> dict[str, str]:
    return pages_of()


def rows_of(page: str, heading: str = "") -> list[list[str]]:
    """The cells of the tables of a page, or of what stands under one of its headings."""
    text = pages()[page]
    if heading:
        text = re.split(r"(?m)^#+ ", text.partition(f"\n## {heading}\n")[2])[0]
    lines = [line for line in text.splitlines() if line.startswith("|") and not re.match(r"\|[:\-|]+$", line)]
    return [[cell.strip() for cell in re.split(r"(?<!\\)\|", line)[1:-1]] for line in lines]


def plain(text: str) -> str:
    """A text without links."""
    return re.sub(r"\[([^]]*)\]\([^)]*\)", r"\1", text)


# --- current


@pytest.mark.slow
def test_the_committed_pages_are_current() -> None:
    found = {path.name: path.read_text(encoding="utf-8") for path in COMMITTED.iterdir()}
    stale = [name for name in {*pages(), *found} if pages().get(name) != found.get(name)]
    assert not stale, f"the rules changed since these were written: {', '.join(sorted(stale))}; mend them with: {MENDS}"


@pytest.mark.slow
def test_the_command_writes_them(run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading_actions, "pages_of", lambda rules, progress: pages())
    code, out, err = run("rules", "reading", str(tmp_path / "new" / "pages"))
    assert (code, err) == (0, "")
    assert out == f"{len(pages())} pages are written to {tmp_path / 'new' / 'pages'}\n"
    written = {path.name: path.read_bytes() for path in (tmp_path / "new" / "pages").iterdir()}
    assert written == {name: text.encode() for name, text in pages().items()}


def test_other_rules_have_pages_too(run: Run, tmp_path: Path) -> None:
    code, _, err = run("rules", "reading", str(tmp_path / "pages"), "--rules", str(ROOT / "tests" / "bad" / "base"))
    assert (code, err) == (0, "")
    assert (tmp_path / "pages" / "methods.md").read_text(encoding="utf-8") != pages()["methods.md"]
    assert set(pages()) == {path.name for path in (tmp_path / "pages").iterdir()}


# --- whole


def test_every_page_stands_in_the_index() -> None:
    linked = re.findall(r"\]\(([a-z_]+\.md)\)", pages()["README.md"])
    assert sorted(linked) == sorted(set(pages()) - {"README.md"})


@pytest.mark.parametrize("name", ["README.md", "glossary.md", "kinds_of_loads.md", "methods.md", "mistakes.md"])
def test_every_link_leads_somewhere(name: str) -> None:
    headings = {
        page: {anchor(line.lstrip("# ")) for line in text.splitlines() if line.startswith("#")} for page, text in pages().items()
    }
    links = re.findall(r"\]\(([^)\s]*)\)", pages()[name])
    assert links
    for each in links:
        page, _, place = each.partition("#")
        assert (page or name) in pages(), each
        assert not place or place in headings[page or name], each


@pytest.mark.parametrize("name", ["glossary.md", "kinds_of_loads.md", "methods.md", "mistakes.md", "amendments.md", "sources.md"])
def test_no_heading_of_a_page_stands_twice(name: str) -> None:
    anchors = [anchor(line.lstrip("# ")) for line in pages()[name].splitlines() if line.startswith("## ")]
    assert len(anchors) == len(set(anchors))


def test_tables_are_not_too_wide_to_read() -> None:
    for text in pages().values():
        assert all(row.count("|") <= 8 for row in text.splitlines() if row.startswith("|"))


# --- names


def test_every_key_of_a_home_file_is_explained() -> None:
    """As it is written, with spaces; those of a place that another has too stand there."""
    keys = models_for(rules_of(NEWEST).glossary).keys
    rows = rows_of("glossary.md")
    explained = {plain(row[0]): row[2] for row in rows if len(row) == 4}
    for path, names in keys.items():
        for name in names:
            assert explained.get(spaced(name)), f"{'.'.join((*path, name))} has no meaning"


def test_the_systems_and_areas_are_those_of_the_glossary() -> None:
    glossary = rules_of(NEWEST).glossary
    assert [row[0] for row in rows_of("glossary.md", "Supply systems")[1:]] == list(glossary.systems)
    text = pages()["glossary.md"].partition("## Kinds of areas")[2].partition("\n## ")[0]
    assert re.findall(r"(?m)^- (.*)$", text) == [spaced(word) for word in glossary.choices["area_kind"]]


# --- kinds of load


def home_with(line: str) -> str:
    return (
        "home: 9 Alder Court\nservice: {system: 120/240 V single-phase 3-wire, rating: 200 A}\n"
        f"dwelling units:\n  - areas: [{{kind: living, area: 1500 ft2}}]\n    loads:\n      - {line}\n"
    )


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_the_line_of_a_kind_can_be_read(kind: LoadKind) -> None:
    """It stands on the page, and all that the kind asks for is known once it was read."""
    rules = rules_of(NEWEST)
    line = example(rules, kind)
    assert f"- In a home file: {line}\n" in pages()["kinds_of_loads.md"]
    home = home_from_text(home_with(line), "home.yaml", rules.glossary)
    loads = home.facts.collections["loads"]
    assert loads.fields["kind"] == [kind.name]
    for name, flag in kind.flags.items():
        if flag.how == "ask":
            assert type(loads.fields[name][0]).__name__ != "Unknown"


def test_what_a_kind_says_is_told() -> None:
    """Of one kind, from the glossary by hand; typical figures from the file of them."""
    text = pages()["kinds_of_loads.md"].partition("\n## clothes dryer\n")[2].partition("\n## ")[0]
    assert "- Unless said otherwise, and then not verified: fastened in place no; connection line to line and neutral" in text
    assert '- Typical, where the file says "rating: typical": 5400 VA, between 4500 VA and 5600 VA (weak source: ' in text
    names = {plain(row[0]): row[2] for row in rows_of("kinds_of_loads.md")[1:] if len(row) == 3}
    assert names["clothes dryer"] == "dryer, electric dryer, washer-dryer"
    assert set(names) == {
        re.sub(r"(?m)^## ", "", line) for line in re.findall(r"(?m)^## (?!What most).*$", pages()["kinds_of_loads.md"])
    }


# --- methods, mistakes, amendments, sources


def test_every_method_and_open_question_has_its_section() -> None:
    text = pages()["methods.md"]
    for edition in EDITIONS:
        rules = rules_of(edition)
        for method in rules.methods.values():
            assert f"\n- Key: {method.name}\n" in text
        for document in rules.documents.values():
            for name, asked in document.interpretations.items():
                section = text.partition(f"\n### {spaced(name)}\n")[2].partition("\n### ")[0]
                assert all(f"| {spaced(option)} " in section for option in asked.options)


def test_what_a_method_says_by_edition() -> None:
    """Of one method, from its file and the editions by hand."""
    text = pages()["methods.md"].partition("\n## Optional calculation for one dwelling unit\n")[2].partition("\n## ")[0]
    assert "- Section: 220.82(A) (NEC 2014 to 2023); 120.82(A) (NEC 2026)\n" in text
    assert "- the supply conductors count as 100 A or more [" in text
    assert "- NEC 2026: " in text
    assert "Optional calculation: the first 8000 VA at 100 %" in text
    question = pages()["methods.md"].partition("\n### charging in optional\n")[2].partition("\n### ")[0]
    defaults = {plain(row[0]): row[3] for row in map(cells, question.splitlines()) if len(row) == 4}
    assert defaults["in pool"] == "NEC 2014 to 2023"
    assert defaults["apart"] == "NEC 2026"


def cells(line: str) -> list[str]:
    return [cell.strip() for cell in line.strip("|").split("|")] if line.startswith("| ") else []


def test_a_mistake_is_listed_with_the_editions_that_hold_it() -> None:
    """All of the catalogue; of those of some editions alone a few by hand."""
    rows = [row for row in rows_of("mistakes.md") if len(row) == 6 and row[0] != "What was done"]
    catalogue = [path.read_text(encoding="utf-8") for path in (ROOT / "rules" / "mistakes").glob("*.yaml")]
    assert len(rows) == sum(len(re.findall(r"(?m)^    done: ", text)) for text in catalogue)
    listed = {row[0]: row[5] for row in rows}
    added = "the share is taken of the existing loads alone, and what is added is counted in full beside them"
    assert listed[added] == "NEC 2014 to 2023"  # the group of what is added is none of the newest
    assert all(where == "all" or where.startswith("NEC ") for where in listed.values())


@pytest.mark.long
@pytest.mark.parametrize("edition", EDITIONS)
def test_what_is_listed_is_what_a_review_offers(edition: str) -> None:
    """The list links few of the mistakes; a review links each, with all methods."""
    rules = rules_of(edition)
    suspects = Suspects(rules, rules.methods)
    for entry, suspect in suspects.listed():
        ways = [way for way in entry.ways if suspects.overlays.touches(way)]
        linked = first_that_holds(suspects.overlays, ways)
        assert (suspect is None) == (linked is None), entry.id
        assert suspect is None or linked is None or suspect.changes is linked[0]


def test_every_amendment_and_source_is_there() -> None:
    amendments, sources = every_amendment()
    assert all(each.title in pages()["amendments.md"] for each in amendments)
    rows = rows_of("sources.md", "The sources")[1:]
    assert [row[0] for row in rows] == [spaced(name) for name in sources]
    assert all(all(row) for row in rows)


def test_values_are_counted_by_grade() -> None:
    """Counted another way: every value of the edition that is neither added nor left out."""
    rows = rows_of("sources.md", "Values by grade")
    for edition, column in zip(EDITIONS, range(1, len(EDITIONS) + 1), strict=True):
        documents = rules_of(edition).documents.values()
        lines = sum(1 for each in documents for line in each.lines.values() if line.evidence.confidence)
        whole = sum(len(each.parameters) + len(each.tables) for each in documents) + lines
        assert [int(row[column]) for row in rows if row[0] == "together"] == [whole]
        assert sum(int(row[column]) for row in rows[1:-1]) == whole


# --- words


def test_editions_in_words() -> None:
    every = ["NEC 2014", "NEC 2017", "NEC 2020", "NEC 2023"]
    assert in_words(every[:1], every) == "NEC 2014"
    assert in_words(every[:2], every) == "NEC 2014, 2017"
    assert in_words(every[1:], every) == "NEC 2017 to 2023"
    assert in_words(["NEC 2014", "NEC 2020", "NEC 2023"], every) == "NEC 2014, 2020, 2023"
    assert in_words(["NEC 2014", "Other code 2020"], every) == "NEC 2014, Other code 2020"
    assert by_words(dict.fromkeys(every, "same"), every) == "same"
    assert by_words({"NEC 2014": "old", "NEC 2017": "new", "NEC 2020": "new"}, every) == "old (NEC 2014); new (NEC 2017, 2020)"
    assert by_words({"NEC 2014": "alone"}, every) == "alone (NEC 2014)"


def test_no_word_that_a_calculation_must_not_say() -> None:
    for text in pages().values():
        assert re.findall(r"(?i)\b(safe|safely|approved)\b", text) == []
