"""What one edition changes against another, as pages: every change is there, in words, there and back."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from commands import Run
from examples import rules_of

from dwellcalc.language.applied import Applied, ChangeSet
from dwellcalc.language.rule_set import RuleSet, editions_in, installed_folder, load_rules
from dwellcalc.report.rule_diff import rule_diff_pages
from dwellcalc.report.tables import Block, Heading, Paragraph, Table, as_markdown, as_text

EVERY = editions_in(installed_folder())
PAIRS = list(zip(EVERY, EVERY[1:]))
BASE = Path(__file__).parent / "bad" / "base"
WORDS = re.compile(r"\b[a-z]+_[a-z_]+\b")
CHANGES, NUMBERS, GRADES = "what is changed", "cited for", "section"
REMARK = "a remark of the answer\n(edition)"  # that the text of an edition was not seen rests on no section


def pages(first: str, second: str) -> list[Block]:
    return rule_diff_pages(rules_of(first), rules_of(second))


def sets_of(blocks: list[Block]) -> dict[str, list[Table]]:
    """The tables of each set of changes, by its heading."""
    found: dict[str, list[Table]] = {}
    for block in blocks:
        if isinstance(block, Heading) and block.level == 2:
            found[block.text] = []
        elif isinstance(block, Table):
            found[list(found)[-1]].append(block)
    return found


def rows_of(tables: list[Table], head: str) -> list[list[str]]:
    return [row for table in tables if table.head[0] == head for row in table.rows]


def row_of(tables: list[Table], words: str) -> list[str]:
    (found,) = [row for row in [*rows_of(tables, CHANGES), *rows_of(tables, NUMBERS)] if words in row[0]]
    return found


def own_sets(first: RuleSet, second: RuleSet) -> Iterator[ChangeSet]:
    """The sets of the later of two editions of which one is based on the other."""
    yield from second.sets[len(first.sets) :]


@pytest.mark.parametrize(("first", "second"), PAIRS)
def test_every_set_and_every_change_is_there(first: str, second: str) -> None:
    found = sets_of(pages(first, second))
    expected = list(own_sets(rules_of(first), rules_of(second)))
    assert list(found) == [f"{each.document}: {each.title}" for each in expected]
    for tables, each in zip(found.values(), expected, strict=True):
        cited = [change for change in each.changes if change.address.startswith("citations.")]
        assert len(rows_of(tables, CHANGES)) == len(each.changes) - len(cited)
        numbers = [change for change in cited if not change.address.endswith(".confidence")]
        grades = [change for change in cited if change not in numbers]
        assert [(row[2], row[3]) for row in rows_of(tables, GRADES)] == [(change.was, change.now) for change in grades]
        assert [(row[1], row[2]) for row in rows_of(tables, NUMBERS)] == [number_of(change) for change in numbers]


def number_of(change: Applied) -> tuple[str, str]:
    """The section number before and after; one that is added whole stands first in its text."""
    was, now = (text.removeprefix("section: ").partition(", confidence")[0] for text in (change.was, change.now))
    return was or "nothing", now or "nothing"


@pytest.mark.parametrize(("first", "second"), PAIRS)
def test_the_way_back_says_the_same_with_the_sides_changed(first: str, second: str) -> None:
    there, back = sets_of(pages(first, second)), sets_of(pages(second, first))
    assert list(back) == [f"Without {each}" for each in reversed(there)]
    for one, other in zip(there.values(), reversed(back.values()), strict=True):
        for head in (CHANGES, NUMBERS):
            mine, turned = rows_of(one, head), rows_of(other, head)[::-1]
            assert [(row[0], row[1], row[2]) for row in mine] == [(row[0], row[2], row[1]) for row in turned]


@pytest.mark.parametrize("edition", EVERY)
def test_an_edition_against_itself(edition: str) -> None:
    *_, last = pages(edition, edition)
    assert last == Paragraph("Nothing differs.")


def test_every_change_names_its_section_and_grade() -> None:
    """Each row has a section, but for groups, which have none, and for a remark that names none; values and tables have a grade."""
    for first, second in PAIRS:
        for tables in sets_of(pages(first, second)).values():
            for what, _, _, section, evidence in rows_of(tables, CHANGES):
                assert section or what.startswith(("group ", "the assessment, ")) or what == REMARK
                if what.startswith(("amount", "table")):
                    assert evidence.split("\n")[0] in ("text seen", "two sources", "one source", "weak source", "memory")
            for row in rows_of(tables, NUMBERS):
                assert row[3]


def test_2023_in_words() -> None:
    """220.57 and the floor area of 2023, as the reference has them."""
    found = sets_of(pages("nec/2020", "nec/2023"))
    charging = next(tables for title, tables in found.items() if "7200 VA" in title)
    assert row_of(charging, "amount charging minimum")[1:4] == ["nothing", "7,200 VA", "220.57"]
    what, was, now, section, evidence = row_of(charging, 'line "EV charging equipment"\nhow it is worked out')
    assert what == 'line "EV charging equipment"\nhow it is worked out\n(in: Standard calculation)'
    assert was == "sum(charging apart.connected)\nconnected: Connected load"
    assert now.startswith("sum(charging.charging counted)\ncharging counted: EV charging equipment, each not less than 7,200 VA")
    assert (section, evidence.split("\n")[0]) == ("220.57", "two sources")
    assert row_of(charging, "Is EV charging equipment a fastened")[2] == "nothing"
    ratings = next(tables for title, tables in found.items() if "10 A" in title)
    assert row_of(ratings, "Standard ampere ratings")[1:4] == ["nothing", "10", "240.6(A)"]


def test_a_whole_table_that_is_added_is_printed() -> None:
    """Table 310.12 of 2020: eleven ratings, 100 A to 400 A."""
    tables = next(found for title, found in sets_of(pages("nec/2017", "nec/2020")).items() if "the table is back" in title)
    (printed,) = [table for table in tables if table.head[0].startswith("rating")]
    assert [row[0] for row in printed.rows] == ["100", "110", "125", "150", "175", "200", "225", "250", "300", "350", "400"]
    assert "Table 310.12" in as_text(pages("nec/2017", "nec/2020"), 110)


def test_amendments_and_moved_articles() -> None:
    """The second edition of the base moved article 20 to 30; a county amends it."""
    first, second = (load_rules(f"tiny/{each}", BASE) for each in ("first", "second"))
    county = load_rules("tiny/second", BASE, [BASE / "county.yaml"])
    found = sets_of(rule_diff_pages(first, county))
    assert list(found) == [
        "Second edition: Articles renumbered",
        "Second edition: Lighting: a smaller share of the rest",
        "Second edition: Freezers are counted",
        "County rule: Charging: always in full",
    ]
    (row,) = rows_of(found["County rule: Charging: always in full"], CHANGES)
    assert row == [
        "amount charging share\nhow it is worked out\n(in: Calculated load of a house)",
        "80 %",
        "100 %",
        "county rule 4",
        row[4],
    ]
    assert row[4].startswith("text seen")
    assert [each[:3] for each in rows_of(found["Second edition: Articles renumbered"], NUMBERS)] == [
        ["rating", "20.1", "30.1"],
        ["conductors", "20.2", "30.2"],
    ]
    assert list(sets_of(rule_diff_pages(county, second))) == ["Without County rule: Charging: always in full"]


def test_texts_of_the_assessment_in_words() -> None:
    """What the answer says of settings, and what a new service brings, since 2020: with sections, each change of its own section."""
    rows = [row for tables in sets_of(pages("nec/2017", "nec/2020")).values() for row in rows_of(tables, CHANGES)]
    plugged, setting = sorted(
        (row for row in rows if row[0].startswith("a remark of the answer")), key=lambda row: row[1] != "nothing"
    )
    assert (plugged[1], plugged[3]) == ("nothing", "625.42")
    assert "plugged in is not fixed in place as 625.42 has it" in plugged[2]
    assert "below the marked rating (625.42)" in setting[1]
    assert "labelled as 625.42 asks" in setting[2]
    assert setting[3] == "625.42"
    brought = [row for row in rows if row[0] == "what a new or replaced service also brings"]
    assert [row[3] for row in brought] == ["230.67", "230.85"]
    assert all(row[1] == "nothing" and f"({row[3]})" in row[2] for row in brought)


def test_several_pieces_of_one_in_words() -> None:
    """A line whose title and way change together, and evidence that alone changes: no keys of the files."""
    found = sets_of(pages("nec/2023", "nec/2026"))
    charging = row_of(next(tables for title, tables in found.items() if "its rating, 7200 VA" in title), 'line "EV charging')
    assert charging[1].splitlines()[0] == '"EV charging equipment, each not less than 7,200 VA"'
    assert "connected where known(connected) and basis is control setting" in charging[2]
    assert charging[2].splitlines()[3] == "otherwise charging if unknown"
    laundry = row_of(next(tables for title, tables in found.items() if "1500 VA each" in title), "amount laundry")
    assert (laundry[1].splitlines()[-1], laundry[2].splitlines()[-1]) == ("evidence: memory", "evidence: one source")


@pytest.mark.parametrize(("first", "second"), [(EVERY[0], EVERY[-1]), (EVERY[-1], EVERY[0])])
@pytest.mark.parametrize("form", ["text", "markdown"])
def test_the_command(run: Run, first: str, second: str, form: str) -> None:
    code, out, err = run("rules", "diff", first, second, "--format", form)
    assert (code, err) == (0, "")
    assert out.startswith("# " if form == "markdown" else f"{rules_of(second).title} against {rules_of(first).title}")
    assert not WORDS.findall(out.replace("\\", ""))
    if form == "text":
        assert max(map(len, out.splitlines())) <= 110


@pytest.mark.parametrize("width", [80, 160])
def test_it_fits_a_terminal(width: int) -> None:
    blocks = pages(EVERY[0], EVERY[-1])
    assert max(map(len, as_text(blocks, width).splitlines())) <= width
    assert as_markdown(blocks)


WRONG = [
    (["nec/2020", "nec/2032"], 'there is no edition "nec/2032"'),
    (["nec/202", "nec/2023"], 'did you mean "nec/20'),
    (["nec/2020", "nec/2023", "--rules", "nowhere"], 'there are no rules in "nowhere"'),
]


@pytest.mark.parametrize(("arguments", "said"), WRONG)
def test_wrong_input(run: Run, arguments: list[str], said: str) -> None:
    code, out, err = run("rules", "diff", *arguments)
    assert (code, out) == (2, "")
    assert said in err
