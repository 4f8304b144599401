"""The printed edition: everything of it appears, the kinds against the groups are right, and both renderings are sound."""

from __future__ import annotations

import ast
import itertools
import re
import shutil
from pathlib import Path
from typing import Any

import pytest

import dwellcalc
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.facts import Facts, spaced
from dwellcalc.language import tree
from dwellcalc.language.rule_set import RuleSet, editions_in, installed_folder, load_rules
from dwellcalc.report.rule_book import RuleBook, one_line
from dwellcalc.report.rule_groups import common_groups
from dwellcalc.report.rule_kinds import kind_name, kinds_of
from dwellcalc.report.rule_membership import Membership, Open, _decision, ways
from dwellcalc.report.rule_pages import rule_pages
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table, as_markdown, as_text, split_evenly, wrapped

EVERY = editions_in(installed_folder())
EDITIONS = [pytest.param(each, marks=() if each == EVERY[-1] else pytest.mark.slow) for each in EVERY]
WIDTHS = (80, 100, 160)
_loaded: dict[str, tuple[RuleSet, list[Block]]] = {}


def pages(edition: str) -> tuple[RuleSet, list[Block]]:
    if edition not in _loaded:
        rules = load_rules(edition)
        _loaded[edition] = rules, rule_pages(rules)
    return _loaded[edition]


def chapter_of(blocks: list[Block], title: str) -> list[Block]:
    """The blocks of a chapter, by the end of its heading."""
    start = next(at for at, block in enumerate(blocks) if isinstance(block, Heading) and block.text.endswith(f": {title}"))
    ends = (at for at in range(start + 1, len(blocks)) if isinstance(blocks[at], Heading) and blocks[at].level <= 2)
    return blocks[start : next(ends, len(blocks))]


def section_of(blocks: list[Block], title: str) -> list[Block]:
    start = next(at for at, block in enumerate(blocks) if isinstance(block, Heading) and block.text == title)
    ends = (at for at in range(start + 1, len(blocks)) if isinstance(blocks[at], Heading))
    return blocks[start + 1 : next(ends, len(blocks))]


def tables_of(blocks: list[Block]) -> list[Table]:
    return [block for block in blocks if isinstance(block, Table)]


def cells(blocks: list[Block]) -> list[str]:
    return [cell for table in tables_of(blocks) for row in table.rows for cell in row]


def group_cells(blocks: list[Block], chapter: str, group: str) -> dict[str, str]:
    """A column of the tables of kinds against groups: kind -> cell."""
    for table in tables_of(chapter_of(blocks, chapter)):
        if table.title.startswith("Which") and spaced(group) in table.head:
            return {row[0]: row[table.head.index(spaced(group))] for row in table.rows}
    raise AssertionError(group)


def filled(rules: RuleSet, document: Any, text: Any) -> str:
    return RuleBook(rules).filled(text, document)


# everything appears


@pytest.mark.slow
@pytest.mark.parametrize("edition", EDITIONS)
def test_every_parameter_appears_with_value_section_and_sources(edition):
    rules, blocks = pages(edition)
    for document in rules.documents.values():
        for name, parameter in document.parameters.items():
            rows = [row for table in tables_of(chapter_of(blocks, document.title)) for row in table.rows]
            row = next(row for row in rows if row[:2] == [spaced(name), parameter.value])
            assert rules.section(parameter.cite) in row[2]
            assert row[3] == parameter.status
            assert all(rules.sources[key].title in row[4] for key in parameter.evidence.source.split())
            assert row[5] == parameter.evidence.confidence


@pytest.mark.slow
@pytest.mark.parametrize("edition", EDITIONS)
def test_every_line_appears_once_with_its_title_name_and_section(edition):
    rules, blocks = pages(edition)
    seen = []
    for document in rules.documents.values():
        rows = [row for table in tables_of(chapter_of(blocks, document.title)) if table.head[0] == "line" for row in table.rows]
        assert len(rows) == len(document.lines)
        for (name, line), row in zip(document.lines.items(), rows, strict=True):
            assert row[1].startswith(f"{filled(rules, document, line.title)}\n{name}")
            assert ("(working line)" in row[1]) == line.working
            assert ("(policy)" in row[1]) == line.is_policy
            assert row[4].startswith(f"{rules.section(line.cite)}\n")
            assert "{" not in row[1]
            seen.append(int(row[0]))
    assert sorted(seen) == list(range(1, len(seen) + 1))


@pytest.mark.slow
@pytest.mark.parametrize("edition", EDITIONS)
def test_every_way_appears(edition):
    rules, blocks = pages(edition)
    for document in rules.documents.values():
        found = "\n".join(cells(chapter_of(blocks, document.title)))
        for line in document.lines.values():
            texts = [line.value_text, line.of_text, line.applies_text, line.note, *line.tiers]
            texts += [text for case in line.cases for text in (case.when_text, case.then_text)]
            assert all(one_line(text) in found for text in texts if text is not None)


@pytest.mark.parametrize("edition", EDITIONS)
def test_numbers_of_lines_lead_to_the_lines_that_are_meant(edition):
    rules, blocks = pages(edition)
    rows = [row for table in tables_of(blocks) if table.head[0] == "line" for row in table.rows]
    name_of = {row[0]: row[1].split("\n")[1].split(" ")[0] for row in rows}
    for document in rules.documents.values():
        for row in (
            row for table in tables_of(chapter_of(blocks, document.title)) if table.head[0] == "line" for row in table.rows
        ):
            line = document.lines[name_of[row[0]]]
            if line.parts:
                numbers = re.search(r" of lines ([\d, ]+)", row[2])[1].split(", ")
                assert [name_of[number] for number in numbers] == [part.rpartition(".")[2] for part in line.parts]
            for name, number in re.findall(r"(\S+) = line (\d+)", row[2]):
                assert name_of[number] == name.rpartition(".")[2]


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_cell_of_every_table_appears_in_its_place(edition):
    rules, blocks = pages(edition)
    for document in rules.documents.values():
        for table in document.tables.values():
            chapter = section_of(chapter_of(blocks, document.title), table.title)
            if not table.columns:
                assert any(
                    ", ".join(row.label for row in table.rows) in block.text for block in chapter if isinstance(block, Paragraph)
                )
                continue
            (printed,) = tables_of(chapter)
            assert printed.rows == [[row.label, *(cell.text for cell in row.cells)] for row in table.rows]
            assert len(printed.head) == 1 + len(table.columns)


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_group_appears_with_its_text(edition):
    rules, blocks = pages(edition)
    for document in rules.documents.values():
        rows = [row for table in tables_of(chapter_of(blocks, document.title)) if table.head[0] == "group" for row in table.rows]
        for name, group in document.groups.items():
            assert [name, one_line(group.text)] in [row[:2] for row in rows]


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_kind_of_load_has_a_row_in_every_table_of_kinds(edition):
    rules, blocks = pages(edition)
    names = [kind_name(kind) for kind in rules.glossary.load_kinds.values()]
    found = [table for table in tables_of(blocks) if table.title.startswith("Which loads")]
    assert found
    assert all([row[0] for row in table.rows] == names for table in found)
    assert all(len(table.head) <= 6 for table in found)


@pytest.mark.parametrize("edition", EDITIONS)
def test_conditions_interpretations_results_and_what_is_left_out_appear(edition):
    rules, blocks = pages(edition)
    for document in rules.documents.values():
        chapter = chapter_of(blocks, document.title)
        text = one_line(as_text(chapter, None))
        for condition in document.permitted:
            assert f"{filled(rules, document, condition.if_not)} [{rules.section(condition.cite)}]" in text
            assert one_line(condition.text) in text
        for asked in document.interpretations.values():
            assert filled(rules, document, asked.question) in text
            assert f"{spaced(asked.default)} (default)" in cells(chapter)
            assert all(filled(rules, document, option.says) in cells(chapter) for option in asked.options.values())
        for left in document.left_out:
            assert [spaced(left.group), rules.section(left.cite), one_line(left.because)] in [
                row for table in tables_of(chapter) for row in table.rows
            ]
        for result in document.results:
            assert spaced(result.name) in cells(section_of(chapter, "Results"))


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_change_citation_and_source_appears(edition):
    rules, blocks = pages(edition)
    changes = tables_of(section_of(blocks, "Changes in effect, in order"))
    assert sum(len(table.rows) for table in changes) == len(rules.applied)
    titles = [table.title for table in changes]
    assert titles == list(dict.fromkeys(f"{each.document}: {each.set_title}" for each in rules.applied))
    (sections,) = tables_of(section_of(blocks, "Sections"))
    assert [row[1:3] for row in sections.rows] == [[each.section, each.confidence] for each in rules.citations.values()]
    (sources,) = tables_of(section_of(blocks, "Sources"))
    used = {
        key
        for document in rules.documents.values()
        for each in document.parameters.values()
        for key in each.evidence.source.split()
    }
    for key in used:
        entry = rules.sources[key]
        assert [entry.title, entry.publisher, entry.year, entry.seen] in sources.rows


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_weak_value_is_in_the_list_of_weak_values(edition):
    rules, blocks = pages(edition)
    (weak,) = tables_of(section_of(blocks, "Values and section numbers with weak evidence"))
    for document in rules.documents.values():
        for name, parameter in document.parameters.items():
            section = rules.section(str(parameter.cite))
            listed = [spaced(name), str(parameter.value), section] in [row[:3] for row in weak.rows]
            assert listed == (parameter.evidence.confidence in ("one source", "weak source", "memory"))
        for table in document.tables.values():
            listed = f"table: {table.title}" in [row[0] for row in weak.rows]
            assert listed == (table.confidence in ("one source", "weak source", "memory"))


@pytest.mark.slow
def test_the_head_says_what_the_edition_rests_on():
    rules, blocks = pages("nec/2023")
    assert isinstance(blocks[0], Heading)
    assert blocks[0].text == "NEC 2023: the rules in effect"
    assert Listing(list(rules.chain)) in blocks
    assert rules.chain[0] == "NEC 2014"


# origins


def line_row(blocks: list[Block], name: str) -> list[str]:
    found = [row for table in tables_of(blocks) if table.head[0] == "line" for row in table.rows]
    return next(row for row in found if row[1].split("\n")[1].split(" ")[0] == name)


@pytest.mark.slow
def test_a_line_tells_the_set_of_changes_that_last_touched_it():
    _, blocks = pages("nec/2023")
    assert line_row(blocks, "copper_by_dwelling_rule")[4].split("\n")[1] == "NEC 2020: Dwelling conductors: the table is back"
    assert line_row(blocks, "general_demand")[4].split("\n")[1] == "NEC 2014"
    _, first = pages("nec/2014")
    assert line_row(first, "copper_by_dwelling_rule")[4].split("\n")[1] == "NEC 2014"


AMENDMENT = """\
amendment: Example County ordinance
jurisdiction: Example County
amends: nec/2023
in_force: {from: 2025-07-01, confidence: memory}
fixed_by: application
status: law
source: ordinance
sources:
  ordinance: {title: Ordinance 14, publisher: Example County, year: 2025, seen: nothing; it is invented}
sets:
  - title: General loads
    changes:
      - change: optional_dwelling.general_demand.tiers
        was: 40 % of the rest
        now: 50 % of the rest
        cite: Ordinance 14, s. 4
        status: law
        source: optional_lesson
        confidence: weak source
"""


@pytest.mark.slow
def test_an_amendment_is_printed_with_its_authority(tmp_path):
    path = tmp_path / "county.yaml"
    path.write_text(AMENDMENT, encoding="utf-8")
    rules = load_rules("nec/2023", amendments=[path])
    blocks = rule_pages(rules)
    row = line_row(blocks, "general_demand")
    assert "50 % of the rest" in row[2]
    assert row[4].split("\n")[1] == "Example County ordinance: General loads"
    told = "(Example County; law; in force from 2025-07-01 (memory), decided by the date of application)"
    assert Listing([*pages("nec/2023")[0].chain, f"Example County ordinance {told}"]) in blocks
    last = tables_of(section_of(blocks, "Changes in effect, in order"))[-1]
    assert last.rows[0][1:4] == ["40 % of the rest", "50 % of the rest", "Ordinance 14, s. 4 (law)"]


@pytest.mark.slow
def test_a_chapter_that_a_later_edition_brings_in_originates_there(tmp_path):
    folder = tmp_path / "rules"
    shutil.copytree(installed_folder(), folder)
    first, later = (folder / "nec" / "editions" / f"{year}.yaml" for year in ("2014", "2017"))
    text = first.read_text(encoding="utf-8")
    assert text.count(", voltage_drop") == 1
    first.write_text(text.replace(", voltage_drop", ""), encoding="utf-8")
    added = "sets:\n  - title: A new chapter\n    changes:\n      - {add: methods, now: voltage_drop}\n"
    later.write_text(later.read_text(encoding="utf-8").replace("sets:\n", added, 1), encoding="utf-8")
    blocks = rule_pages(load_rules("nec/2017", folder))
    assert line_row(blocks, "copper_drop")[4].split("\n")[1] == "NEC 2017: A new chapter"
    assert line_row(blocks, "conductor_ampacity")[4].split("\n")[1] == "NEC 2014"
    assert line_row(blocks, "total")[4].split("\n")[1] == "NEC 2014"


# kinds against groups

OPTIONAL = "Which loads are which in the optional calculations"


@pytest.mark.slow
def test_hand_picked_facts_of_the_optional_method():
    rules, blocks = pages("nec/2023")

    def cell(group: str, kind: str) -> str:
        return group_cells(blocks, OPTIONAL, group)[kind]

    assert cell("cooking appliances", "range") == "yes"
    assert cell("cooking appliances", "clothes dryer") == "no"
    settled = rules.glossary.load_kinds["clothes_dryer"].flags["on_laundry_circuit"].how == "is"
    assert cell("dryers", "clothes dryer") == ("yes" if settled else "if not on laundry circuit")
    assert cell("on laundry circuits", "clothes washer") == "if on laundry circuit"
    assert cell("cord connected", "freezer") == "if not individual circuit"
    assert cell("appliances", "freezer") == "if individual circuit"
    assert cell("cord connected", "trash compactor") == "if not fastened in place and not individual circuit"
    assert cell("cord connected", "dishwasher") == "no"
    assert cell("appliances", "dishwasher") == "yes"
    assert cell("motors", "well pump") == "yes"
    assert cell("charging in pool", "EV charging equipment") == "if charging in optional is in pool"
    assert cell("charging apart", "EV charging equipment") == "if charging in optional is not in pool"
    assert cell("separate heaters", "space heater") == "if separately controlled"
    assert cell("central heaters", "electric furnace") == "if not separately controlled"
    assert cell("heat pumps with supplemental", "heat pump") == "if not stops for supplemental heat"
    assert cell("space conditioning", "blower") == "if in blowers when cooling or in blowers when heating"
    assert cell("remaining", "blower") == "if not in space conditioning"
    assert cell("blowers when cooling", "blower") == (
        "if season is not heating and cooling by blower is yes and blower in optional is with selection"
    )


@pytest.mark.slow
def test_areas_are_set_against_their_groups_too():
    _, blocks = pages("nec/2023")
    found = group_cells(blocks, "Floor area that counts", "counted_areas")
    assert found["attached garage"] == "yes"
    assert found["open porch"] == "no"
    assert found["detached garage"] == "if detached garage area is included"
    _, before = pages("nec/2020")
    assert group_cells(before, "Floor area that counts", "counted_areas")["attached garage"] == "no"


RATED = {"basis": "volt_amperes", "volt_amperes": 5000.0}
NOT_SAID = {"replaced": False, "legs_said": False, "never_together": False, "like_for_like": False, "house_load": False}
NOT_SAID["recorded"] = False

NO_OTHERS = {"later": False, "on_circuit_of_another": False, "carries_others": False}


def loads_of_every_kind(rules: RuleSet) -> tuple[Facts, list[str], list[dict[str, Any]]]:
    """A home with a load of every kind, for each value of every flag that the kind leaves free."""
    glossary = rules.glossary
    facts = Facts.empty(glossary)
    facts.add("dwelling_units", "house", {})
    facts.set("supply", "state", "existing")
    facts.set("supply", "voltage", 240.0)
    facts.set("home", "work", "new")
    fields = glossary.collections["loads"].fields
    kinds, values = [], []
    for kind in glossary.load_kinds.values():
        free = [[flag.word] if flag.how == "is" else glossary.words(fields[name].kind) for name, flag in kind.flags.items()]
        for chosen in itertools.product(*free):
            flags = {name: glossary.value(fields[name].kind, word) for name, word in zip(kind.flags, chosen, strict=True)}
            said = {"kind": kind.name, "status": "existing", **NO_OTHERS, **NOT_SAID, **RATED, **flags}
            facts.add("loads", f"load {len(kinds)}", said, owner=0)
            kinds.append(kind_name(kind))
            values.append(flags)
    return facts, kinds, values


def decisions(rules: RuleSet, method: tree.CheckedMethod, group: tree.CheckedGroup) -> dict[str, Any]:
    common = common_groups(RuleBook(rules), method, group.collection)
    outer = [each for each in common if each is not group]
    collection = rules.glossary.collections[group.collection]
    settled = kinds_of(rules.glossary, collection).items()
    return {label: Membership(rules, group.collection, fields, outer).decision(group) for label, fields in settled}


@pytest.mark.slow
@pytest.mark.parametrize("edition", [pytest.param(each, marks=() if each == EVERY[-1] else pytest.mark.long) for each in EVERY])
def test_the_cells_agree_with_an_evaluation_of_loads_of_every_kind(edition):
    """The words are read back and compared with the members that the evaluation finds."""
    rules, _ = pages(edition)
    plan = plan_of(rules)
    facts, kinds, flags = loads_of_every_kind(rules)
    groups = [
        (method, group) for method in rules.methods.values() for group in method.groups.values() if group.collection == "loads"
    ]
    places = [plan.place(group) for _, group in groups]
    evaluation = Evaluation(plan, facts)
    compared = 0
    for (method, group), place in zip(groups, places, strict=True):
        members = evaluation.decided(place)
        assert not members.undecided
        for at, kind in enumerate(kinds):
            decision = decisions_of(rules, method, group)[kind]
            values = {each: value_of(evaluation, each.node, at, flags[at]) for each in decision.depends_on}
            assert read_back(decision.words, values) == (at in members.items), (group.name, kind, decision.words)
            compared += len(values)
    assert compared > len(kinds)


def value_of(evaluation: Evaluation, node: Any, at: int, flags: dict[str, Any]) -> Any:
    if isinstance(node, tree.CheckedGroup):
        return at in evaluation.decided(evaluation.plan.place(node)).items
    if isinstance(node, tree.ReadLine):
        return evaluation.line(node.line)
    if isinstance(node, tree.ReadChoice):
        return evaluation.choices[node.address]
    if not isinstance(node, tree.ReadField):
        return evaluation.plan.reader(node, "loads", "home")(evaluation, at)
    return flags[node.field] if node.field in flags else evaluation.facts.collections[node.level].fields[node.field][at]


_decided: dict[int, dict[str, Any]] = {}


def decisions_of(rules: RuleSet, method: tree.CheckedMethod, group: tree.CheckedGroup) -> dict[str, Any]:
    if id(group) not in _decided:
        _decided[id(group)] = decisions(rules, method, group)
    return _decided[id(group)]


def read_back(words: str, values: dict[Open, Any]) -> bool:
    """What a cell says of a load, read as a person reads it."""
    if words in ("yes", "no"):
        return words == "yes"
    start, _, rest = words.partition(" ")
    for each, value in sorted(values.items(), key=lambda item: -len(item[0].text)):
        rest = settled(rest, each, value)
    return bool(eval(rest.replace(", or ", " or "))) == (start == "if")


def settled(text: str, each: Open, value: Any) -> str:
    """A sentence with what it says of one thing replaced by whether that is so."""
    if each.words:
        word = spaced(each.words[each.values.index(value)])
        words = "|".join(sorted(map(spaced, each.words), key=len, reverse=True))
        said = rf"{re.escape(each.text)} is (not )?((?:{words})(?: or (?:{words})\b(?! is))*)"
        return re.sub(said, lambda found: str((word in found[2].split(" or ")) != bool(found[1])), text)
    if isinstance(each.node, tree.ReadLine):
        return text.replace(f"{each.text} is yes", str(value)).replace(f"{each.text} is no", str(not value))
    return re.sub(rf"(?<!\w){re.escape(each.text)}(?!\w)", str(value), text)


def said(decide: Any) -> str:
    return _decision(ways(decide)).words


def test_words_are_short_and_exact():
    a, b, c = Open("a"), Open("b"), Open("c")
    season = Open("season", ("summer", "winter", "both"), ("summer", "winter", "both"))

    def truth(formula: Any, *opens: Open) -> Any:
        return lambda known: (
            next((each for each in opens if each not in known), None) or formula(*(known[each] for each in opens))
        )

    assert said(truth(lambda x, y: True, a, b)) == "yes"
    assert said(truth(lambda x, y: y, a, b)) == "if b"
    assert said(truth(lambda x, y: not (x and y), a, b)) == "if not a or not b"
    assert said(truth(lambda x, y, z: x and (y or z), a, b, c)) == "if a and (b or c)"
    assert said(truth(lambda x, y, z: not (x and y and z), a, b, c)) == "if not a or not b or not c"
    assert said(truth(lambda x: x in ("summer", "both"), season)) == "if season is not winter"
    assert said(truth(lambda x: x == "both", season)) == "if season is both"
    assert said(truth(lambda x, y: x != "both" or y, season, a)) == "if season is not both or a"


@pytest.mark.parametrize("count", [2, 3])
def test_words_hold_for_every_function_of_a_few_flags(count):
    """Every truth table of two and of three flags, read back."""
    opens = [Open(name) for name in ("first flag", "second flag", "third flag")[:count]]
    rows = list(itertools.product((True, False), repeat=count))
    for answers in itertools.product((True, False), repeat=len(rows)):
        table = dict(zip(rows, answers, strict=True))

        def decide(known: Any, table: Any = table) -> Any:
            missing = next((each for each in opens if each not in known), None)
            return missing if missing is not None else table[tuple(known[each] for each in opens)]

        words = said(decide)
        assert all(read_back(words, dict(zip(opens, row, strict=True))) == answer for row, answer in table.items())


# renderings


@pytest.mark.slow
@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("width", WIDTHS)
def test_text_fits_the_width(edition, width):
    _, blocks = pages(edition)
    assert [line for line in as_text(blocks, width).splitlines() if len(line) > width] == []


@pytest.mark.parametrize("edition", EDITIONS)
def test_the_words_of_the_text_are_whole(edition):
    """Every word of the document stands whole in the text, but for names wider than their column."""
    _, blocks = pages(edition)
    words = set(as_text(blocks, 100).split())
    whole = {word for block in blocks for text in texts_of(block) for word in text.split()}
    broken = whole - words
    assert [word for word in broken if re.fullmatch(r"[\w-]+|[\d.,]+", word) and "_" not in word] == []


def texts_of(block: Block) -> list[str]:
    if isinstance(block, Table):
        return [block.title, *block.head, *(cell for row in block.rows for cell in row)]
    return block.items if isinstance(block, Listing) else [block.text]


@pytest.mark.parametrize("edition", EDITIONS)
def test_markdown_tables_are_well_formed(edition):
    _, blocks = pages(edition)
    text = as_markdown(blocks)
    runs = re.findall(r"(?m)(?:^\|.*\n)+", text)
    tables = tables_of(blocks)
    assert len(runs) == len(tables)
    for run, table in zip(runs, tables, strict=True):
        lines = run.splitlines()
        assert len(lines) == len(table.rows) + 2
        assert all(len(re.findall(r"(?<!\\)\|", line)) == len(table.head) + 1 for line in lines)
        assert re.fullmatch(r"\|(:?-+:?\|)+", lines[1])


def test_markdown_escapes_what_would_be_read_as_markup():
    blocks: list[Block] = [
        Heading(2, "a | b"),
        Paragraph("- no list\n* nor here"),
        Listing(["x <b>", "two\nlines"]),
        Table("t", ["h|1"], [["a | b\nc * d"]]),
    ]
    assert as_markdown(blocks) == (
        "## a \\| b\n\n\\- no list<br>\n\\* nor here\n\n- x \\<b>\n- two<br>\n  lines\n\n"
        "**t**\n\n| h\\|1             |\n|:-----------------|\n| a \\| b<br>c \\* d |\n"
    )


def test_text_of_each_block():
    blocks: list[Block] = [
        Heading(1, "Title"),
        Heading(2, "Part"),
        Paragraph("one two three four"),
        Listing(["one two three"]),
        Table("T", ["name", "VA"], [["a", "1"], ["b", "22"]], ["left", "right"]),
    ]
    assert as_text(blocks, 10) == (
        "Title\n=====\n\nPart\n----\n\none two\nthree four\n\n- one two\n  three\n\nT\nname  VA\n----  --\na      1\nb     22\n"
    )


def test_a_table_without_rows_and_one_without_heads_can_be_printed():
    assert as_text([Table("", ["a", "b"], [])], 40) == "a  b\n-  -\n"
    assert as_text([Table("", ["", ""], [["x", "y"]])], 40) == "x  y\n"
    assert as_markdown([Table("", ["a", "b"], [])]).splitlines()[0].count("|") == 3


def test_numbers_and_short_columns_stay_whole():
    table = Table("", ["what", "value"], [["long words " * 12, "5,000 VA"]], ["left", "right"])
    assert "5,000 VA" in as_text([table], 40)


def test_wrapping_breaks_names_only_where_they_are_too_wide():
    assert wrapped("sum(heat_pumps.connected)", 20) == ["sum(heat_pumps.", "connected)"]
    assert wrapped("sum(heat_pumps.connected)", 10) == ["sum(heat_", "pumps.", "connected)"]
    assert wrapped("one two", None) == ["one two"]
    assert wrapped("a\n\nb", 5) == ["a", "", "b"]
    assert wrapped("unbreakable", 4) == ["unbr", "eaka", "ble"]


def test_splitting_evenly():
    assert [len(run) for run in split_evenly(range(22), 6)] == [6, 6, 6, 4]
    assert [len(run) for run in split_evenly(range(8), 6)] == [4, 4]
    assert split_evenly([], 6) == []


# words


@pytest.mark.parametrize("edition", EDITIONS)
def test_no_word_that_a_calculation_must_not_say(edition):
    _, blocks = pages(edition)
    assert re.findall(r"(?i)\b(safe|safely|approved)\b", as_text(blocks, None)) == []


@pytest.mark.slow
def test_the_modules_name_nothing_of_the_rules_and_hold_no_quantity():
    names = set()
    for edition in EVERY:
        rules, _ = pages(edition)
        names |= {*rules.glossary.load_kinds, *rules.documents, *rules.citations}
        for document in rules.documents.values():
            names |= {*document.lines, *document.parameters, *document.groups, *document.tables, *document.interpretations}
    folder = Path(dwellcalc.__file__).parent / "report"
    for path in [*folder.glob("rule_*.py"), folder / "tables.py"]:
        module = ast.parse(path.read_text(encoding="utf-8"))
        strings = [node.value for node in ast.walk(module) if isinstance(node, ast.Constant) and isinstance(node.value, str)]
        docstrings = {
            ast.get_docstring(node, clean=False) for node in ast.walk(module) if hasattr(node, "body") and has_docstring(node)
        }
        free = [text for text in strings if text not in docstrings]
        assert [text for text in free if text in names] == []
        assert [text for text in free if re.search(r"\d+ ?(VA|W|A|V|hp|ft2|%)\b|\d{3}\.\d", text)] == []


def has_docstring(node: ast.AST) -> bool:
    return isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef))
