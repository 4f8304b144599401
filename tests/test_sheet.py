"""The printed sheet of every demonstration home: its figures agree with each other, on the text that is printed.

The text is taken without a width, so that a row is one line, and read as a reader does: by number, title and result.
"""

from __future__ import annotations

import dataclasses
import re
from collections import Counter
from functools import cache
from typing import Any

import pytest
from assessments import DEMOS, assessed, demo, demo_assessed, edition_of
from examples import rules_of

from dwellcalc.decide.document import SupplyResult
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.evaluate.sheet import Outcome, SheetLine
from dwellcalc.report.figures import minimum_title
from dwellcalc.report.lines import Numbering, schedules
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import Table, as_text

WAYS = [(name, full) for name in DEMOS for full in (False, True)]
COLUMNS = re.compile(r" {2,}")
NUMBER = re.compile(r"-?[\d,]*\d(?:\.\d+)?")
ADDED = re.compile(r"line \d+(?: \+ \d+)*")
PIECES = re.compile(r"[^%*(;]* \+ [^%*(;]*")
WHOLE = 0.5  # half of the step that whole numbers are printed to


@dataclasses.dataclass(frozen=True)
class Row:
    """A numbered line as it is printed."""

    number: int
    title: str
    section: str
    how: str
    result: str

    @property
    def value(self) -> float:
        return number(self.result)

    @property
    def step(self) -> float:
        """Half of the last place that is printed."""
        return 0.5 * 10.0 ** -len(self.result.split(" ")[0].partition(".")[2])


def number(text: str) -> float:
    """The number that a text begins with."""
    found = NUMBER.match(text)
    assert found, text
    return float(found[0].replace(",", ""))


@cache
def printed(name: str, full: bool) -> str:
    return as_text(sheet_pages(demo_assessed(name), full=full), None)


WITHOUT = r"^Without what is planned: .*?(?=^Interpretations\n-)"  # the sheets without what is planned: numbers of their own

HOUSE_LOADS = r"^House loads: [^\n]*\n-+\n.*?(?=^[A-Z][^\n]*\n-+\n)"  # and that of the house loads


def parts(name: str, full: bool) -> list[tuple[str, SupplyResult]]:
    """The printed text of each supply, with what was found of it."""
    whole = re.sub(f"(?ms){WITHOUT}|{HOUSE_LOADS}", "", printed(name, full))
    texts = re.split(r"(?m)^The answer.*\n-+\n", whole)[1:]
    return list(zip(texts, demo_assessed(name).supplies, strict=True))


def rows_of(text: str) -> dict[int, Row]:
    """The numbered lines of a supply; a number that is printed twice is refused."""
    found: dict[int, Row] = {}
    for block in re.findall(r"(?ms)^Calculation\n(.*?)(?:\n\n|\Z)", text):
        head, _, *lines = block.split("\n")
        assert COLUMNS.split(head.strip()) == ["Line", "Section", "How", "Result"]
        for line in lines:
            cells = COLUMNS.split(line.strip())
            assert len(cells) == 5, line
            row = Row(int(cells[0]), *cells[1:])
            assert row.number not in found, f"line {row.number} is printed twice"
            found[row.number] = row
    return found


def figures(text: str) -> dict[str, str]:
    """The figures of the answer by what they are called."""
    block = text.split("\n\nMethods\n")[0].split("\n\nLoads\n")[0]
    return dict(pair for line in block.split("\n") if len(pair := tuple(COLUMNS.split(line.strip(), maxsplit=1))) == 2)  # type: ignore[misc]


def only(rows: dict[int, Row], title: str) -> Row:
    (found,) = [row for row in rows.values() if row.title == title]
    return found


# --- the lines


@pytest.mark.parametrize(("name", "full"), WAYS)
def test_lines_are_numbered_through_and_read_only_what_stands_above(name: str, full: bool) -> None:
    before = 0
    for text, _ in parts(name, full):
        rows = rows_of(text)
        assert list(rows) == list(range(before + 1, before + len(rows) + 1))
        before += len(rows)
        assert len(rows) > 20
        for row in rows.values():
            named = [int(each) for each in re.findall(r"line (\d+)", row.how)]
            named += [int(each) for each in row.how[5:].split(" + ")] if ADDED.fullmatch(row.how) else []
            assert all(min(rows) <= each < row.number for each in named), row


@pytest.mark.parametrize(("name", "full"), WAYS)
def test_lines_that_add_lines_give_their_sum(name: str, full: bool) -> None:
    checked = 0
    for text, _ in parts(name, full):
        rows = rows_of(text)
        for row in rows.values():
            if ADDED.fullmatch(row.how) and row.result not in ("yes", "no"):
                added = [rows[int(each)] for each in row.how.removeprefix("line ").split(" + ")]
                allowed = row.step + sum(each.step for each in added)
                assert sum(each.value for each in added) == pytest.approx(row.value, abs=allowed + 1e-6), row
                checked += len(added) > 1
    assert checked >= len(parts(name, full))


def piece(text: str, rows: dict[int, Row]) -> float:
    """The amount of a piece of a sum: a line by its number, or a name with its amount."""
    line = re.fullmatch(r"line (\d+)", text)
    if line:
        return rows[int(line[1])].value
    last = text.rsplit(" ", 1)[-1]
    times = re.search(r"([\d.]+) x [\d,.]+$", text)
    return number(last) * (float(times[1]) if times else 1)


@pytest.mark.parametrize(("name", "full"), WAYS)
def test_what_is_written_with_a_plus_adds_up(name: str, full: bool) -> None:
    """Members of a sum, and sums of lines that are not printed: rounded to whole numbers each."""
    checked = 0
    for text, _ in parts(name, full):
        rows = rows_of(text)
        for row in rows.values():
            pieces = row.how.split(" + ")
            if (
                not PIECES.fullmatch(row.how)
                or ADDED.fullmatch(row.how)
                or not all(re.search(r" [\d,.]+$", each) for each in pieces)
            ):
                continue
            many = [float(times) for times in re.findall(r"([\d.]+) x ", row.how)]
            allowed = WHOLE * (len(pieces) + sum(many)) + row.step
            assert sum(piece(each, rows) for each in pieces) == pytest.approx(row.value, abs=allowed), row
            checked += 1
    assert checked or name in ("small_gas_heated_house", "existing_house_with_sauna", "house_with_meter_record")  # have none


@pytest.mark.parametrize(("name", "full"), WAYS)
def test_what_is_compared_is_what_those_lines_give(name: str, full: bool) -> None:
    checked = 0
    for text, _ in parts(name, full):
        rows = rows_of(text)
        for row in rows.values():
            for named, value, unit, was in re.findall(r"line (\d+) (-?[\d,]+) (\w+)(, taken)?(?:;|$)", row.how):
                assert number(value) == pytest.approx(rows[int(named)].value, abs=WHOLE), row
                assert rows[int(named)].result.endswith(unit)
                if was:
                    assert rows[int(named)].result == row.result, row
                    checked += 1
    assert checked >= len(parts(name, full))


@pytest.mark.parametrize(("name", "full"), WAYS)
def test_no_line_is_printed_twice(name: str, full: bool) -> None:
    for text, found in parts(name, full):
        rows = rows_of(text).values()
        methods = found.methods if full else found.methods[:1]
        told = Counter((row.title, row.section, row.result, row.how) for row in rows)
        # two methods of a full sheet print each its own lines, and so do sizing and what is calculated beside them
        most = len(methods) + (1 + len(found.beside) if full else 0)
        assert {key: times for key, times in told.items() if times > most} == {}
        if not full:
            assert {
                key[:3]: times for key, times in Counter((r.title, r.section, r.result) for r in rows).items() if times > 1
            } == {}


@pytest.mark.parametrize("name", DEMOS)
def test_no_column_is_printed_twice(name: str) -> None:
    """The columns of schedules: item and value under one title and section stand once in each supply."""
    found = demo_assessed(name)
    for each in found.supplies:
        found_alone = [block for block in sheet_pages(_one(found, each), full=False) if isinstance(block, Table)]
        columns = Counter(column for table in found_alone if table.head[:1] == ["Item"] for column in _columns(table))
        assert columns
        assert {column: times for column, times in columns.items() if times > 1} == {}


def _one(found: Any, each: SupplyResult) -> Any:
    methods = [dataclasses.replace(sheet, runs=[]) for sheet in each.methods]  # those are calculations of their own
    return dataclasses.replace(found, supplies=[dataclasses.replace(each, methods=methods)])


def _columns(table: Table) -> list[tuple[str, tuple[tuple[str, str], ...]]]:
    at = range(1, len(table.head), 2)
    return [(table.head[place], tuple((row[0], row[place]) for row in table.rows)) for place in at]


def test_of_two_lines_of_one_name_the_first_gives_the_number() -> None:
    (sheet,) = [each for each in demo_assessed("duplex").supplies[0].methods if each.id == "standard"]
    shown = [line for line in sheet.lines if line.outcome is not None][:3]
    assert Numbering([*shown, *shown], [], full=True).by_id == {line.id: str(at) for at, line in enumerate(shown, start=1)}


def test_a_column_that_two_methods_need_in_part_is_one() -> None:
    """Each needs another item of it; together they print both, and an item that neither needs has no row."""

    def column(name: str, *needed: str) -> SheetLine:
        items = [
            Outcome("known", 1.0, "VA", f"{at} VA", each) if each in needed else Outcome("not needed", item=each)
            for at, each in enumerate("abc")
        ]
        return SheetLine(name, name, "Connected load", "1.1", "value", False, "installed", "loads", "VA", items=items)

    (table,) = schedules([column("one.connected", "a"), column("two.connected", "b")], Numbering([], [], full=False), full=False)
    assert isinstance(table, Table)
    assert [row[:2] for row in table.rows] == [["a", "0 VA"], ["b", "1 VA"]]


def test_a_share_by_tiers_bears_its_unit_once() -> None:
    for text, _ in parts("large_house_two_mains", False):
        assert "% %" not in text
    assert any("100 % + 10 %" in text for text, _ in parts("large_house_two_mains", False))


@pytest.mark.parametrize("name", DEMOS)
def test_the_full_sheet_prints_the_methods_without_what_is_planned(name: str) -> None:
    """Their lines are those of the home file without it, under numbers of their own; what they run on a part is printed too."""
    text, found = printed(name, True), demo_assessed(name)
    planned = [supply.before for supply in found.supplies if supply.before is not None]
    results = [(result.title, result.amperes) for before in planned for result in before.results]
    runs = {run.title for before in planned for sheet in before.methods for run in sheet.runs}
    sheets = re.split(r"(?m)^Without what is planned: (.*?) \(\d.*$", text)
    printed_runs = [heading for heading in sheets[1::2] if heading in runs]
    assert sorted(printed_runs) == sorted(runs)
    of_methods = [(heading, body) for heading, body in zip(sheets[1::2], sheets[2::2], strict=True) if heading not in runs]
    for (title, amperes), (heading, body) in zip(results, of_methods, strict=True):
        shown = re.search(r"(?m)^ *w\d+ +(?:Calculated|Existing and added) load in amperes .*?([\d.,]+) A$", body)
        assert shown is not None
        assert (heading, float(shown[1].replace(",", ""))) == (title, pytest.approx(amperes, abs=0.005))
    assert not re.search(r"(?m)^ *w\d+ ", printed(name, False))


def test_where_the_text_is_silent_a_line_says_so_beside_its_section() -> None:
    """A choice of the project bears the word policy; a line that the text gives does not."""
    rows = rows_of(parts("house_with_meter_record", False)[0][0])
    assert only(rows, "Power factor at the highest demand").section == "220.87, policy"
    assert only(rows, "Highest demand of the record").section == "220.87"


def test_what_would_mend_a_condition_is_not_told_where_it_is_met() -> None:
    """Each figure of the record is held to a limit, with a note on what to do; this one meets all. Notes on results stay."""
    text = printed("house_with_meter_record", True)
    rows = rows_of(parts("house_with_meter_record", True)[0][0])
    assert only(rows, "Measured values fill 98 % of the time or more").result == "yes"
    assert "Ask the utility for the missing intervals." not in text
    assert re.search(
        r"(?m)^- Current of the load: A rating in volt-amperes or watts is divided by the voltage of the circuit", text
    )


# --- the answer


@pytest.mark.parametrize("name", DEMOS)
def test_the_answer_is_what_the_lines_give(name: str) -> None:
    for text, found in parts(name, False):
        rows, told = rows_of(text), figures(text)
        assert found.basis is not None
        load = "Existing and added load" if found.basis.method == "metered" else "Calculated load"
        amperes = only(rows, f"{load} in amperes")
        total = [row for row in rows.values() if row.title == load][-1]  # before it that of a method compared with
        nearest = [row for row in rows.values() if row.title == "The same to the nearest whole ampere"][0]
        assert number(told[load]) == pytest.approx(total.value, abs=WHOLE)
        assert told[load].endswith(" VA")
        carried = only(rows, "Amperes that the supply must carry").value
        more = "With what is added to it"
        assert (more in told) == (carried != amperes.value)
        assert number(told["In amperes"].split(" (")[-1].split(" A")[0] + " A") == pytest.approx(amperes.value, abs=0.005 + 1e-9)
        whole, unrounded = told.get(more, told["In amperes"]).removesuffix(" A unrounded)").split(" (")
        assert whole == nearest.result
        assert float(unrounded.replace(",", "")) == pytest.approx(carried, abs=0.005 + 1e-9)
        label = minimum_title(found)
        minimum = [row for row in rows.values() if row.title.startswith("Next standard rating for this load")][0]
        new = found.new_supply
        assert new is not None
        by = "" if new.by == found.basis.title else f" by the {new.by[0].lower()}{new.by[1:]}"
        assert told[label].split(" (")[0] == f"{new.minimum_rating:g} A{by}"
        assert by or minimum.result == f"{new.minimum_rating:g} A"
        there = found.stated.get("state") == "existing"  # then no conductors are to be chosen
        assert ("Load of the neutral" in told) is not there
        assert there or number(told["Load of the neutral"]) == only(rows, "Neutral load").value
        assert number(told["Capacity of the supply"]) == only(rows, "Capacity of the supply, the weakest element").value
        assert number(told["Margin"]) == pytest.approx(
            only(rows, "Capacity less the amperes that the supply must carry").value, abs=0.005 + 1e-9
        )
        fits = only(rows, "The calculated load is not over the capacity").result
        if found.between is not None:  # the sheet is that of the largest load, the verdict that of all
            assert found.sizing is not None and found.sizing.amperes == found.between.amperes.high
            continue
        words = "The load fits, but " if found.shortcomings else "Fits"
        assert re.search(f"(?m)^{ ({'yes': words, 'no': 'Does not fit'}[fits]) }", text.split("\n\nSupply ")[0])
        assert text.count("But: ") == len(found.shortcomings)
        assert found.verdict == {"yes": "fits", "no": "does not fit"}[fits]


@pytest.mark.parametrize("name", DEMOS)
def test_the_answer_names_all_that_it_turns_on(name: str) -> None:
    for text, found in parts(name, False):
        head = text.split("\n\nLoads\n")[0]
        turns = sum(each.flips for each in found.interpretations)
        assert head.count("The verdict turns on an interpretation") == (turns if found.between is None else 0)
        marked = [each.meaning for each in found.otherwise]  # which stand with their capacity, and today's verdict
        flips = [each for each in found.facts_not_verified if each.flips and each.short not in marked]
        assert head.count("The verdict turns on a fact") == len(flips)
        assert all(f"If it is {each.word}, the capacity is {each.capacity:g} A: " in head for each in found.otherwise)
        chosen = "Condition for what is to be chosen" if found.to_be_installed else "Condition, not proved yet"
        assert head.count(f"{chosen}: ") == len(found.conditions)  # all of these homes' are of the conductors
        assert all(f"{chosen}: {each}." in head for each in found.conditions)
        assert ("Fits, on condition, " in head) == bool(found.conditions)
        told = figures(text).get("Without what is planned")
        before = found.before
        assert told == (None if before is None else f"{before.amperes:,.2f} A{_by(before.by, found)}, {before.verdict}")
        assert all(f"- {remark}" in head for remark in found.remarks)


def _by(title: str, found: SupplyResult) -> str:
    assert found.basis is not None
    return "" if title == found.basis.title else f" by the {title[0].lower()}{title[1:]}"


def test_the_answer_words_a_verdict_that_turns() -> None:
    tree = demo("duplex")
    for feeder in tree["feeders"]:
        feeder["state"] = "to be installed"  # where it exists, 220.83 may be used, whatever the ampacity of its conductors
    text = as_text(sheet_pages(assessed(tree), full=False), None).split("The answer for feeder A\n")[1].split("\n\nLoads\n")[0]
    assert "if otherwise - 60 C: 117.54 A by the standard calculation, does not fit" in text
    assert "If it is 60 C, the capacity is 70 A: " in (head := parts("duplex", False)[1][0].split("\n\nLoads\n")[0])
    assert "75.79 A, does not fit" in head
    text = parts("vacant_older_house", False)[0][0]
    # 220.83(A): 45,248 VA with 9,600 of the charger, 8,000 + 40 % of 37,248 = 22,899 VA; without it 19,059 VA, and 9,600 or 12,000
    assert (
        "Taken: in pool (95.41 A, fits; largest setting that fits: charger 40 A). Otherwise: apart (119.41 A, does not fit; largest "
        "setting that fits: none); apart at 125 (129.41 A, does not fit; largest setting that fits: none)." in text
    )


@pytest.mark.parametrize("name", DEMOS)
def test_interpretations_that_make_no_difference_stand_apart(name: str) -> None:
    for text, found in parts(name, False):
        same = (
            text.split("Those that change neither the load of this permit nor its verdict:\n\n")[-1].split("\n\n")[0].split("\n")
        )
        for each in found.interpretations:
            alike = len({(option.amperes, option.verdict, option.conductors) for option in each.options}) == 1
            assert (f"- {each.question}" in same) == alike
            assert (f"{each.question} ({each.cite})" in text) == (not alike)


# --- methods, cautions, loads


@pytest.mark.parametrize("name", DEMOS)
def test_the_full_sheet_prints_every_method(name: str) -> None:
    for full in (False, True):
        for text, found in parts(name, full):
            assert found.basis is not None
            for sheet in found.methods:
                headed = f"\n{sheet.title} ({sheet.cite})\n---" in text
                check = (
                    found.record.cross_check if found.record is not None and found.basis.method == found.record.serves else None
                )
                assert headed == (full or sheet.id == found.basis.method or (check is not None and sheet.title == check.by))
            assert ("(working)" in text) == full
            assert ("not needed for the result" in text) <= full
            assert all(each.title in text for each in found.results)


@pytest.mark.parametrize("name", DEMOS)
def test_every_caution_of_the_rules_is_printed(name: str) -> None:
    told = read_instructions(rules_of(edition_of(demo(name))))
    text = printed(name, False)
    closing = text.split("\nCautions\n--------\n\n")[1].split("\n\n")[0].split("\n")
    assert closing == [f"- {each}" for each in [*told.cautions, told.basis_note]]
    brought = demo(name)["work"] == "new" or any(found.verdict == "does not fit" for found in demo_assessed(name).supplies)
    assert all((f"- {each}" in text) == brought for each in told.checklist)
    for part, _ in parts(name, False):
        assert ("Not calculated here" in part) == bool(told.not_calculated)


def test_loads_are_printed_as_they_are_written() -> None:
    for name in DEMOS:
        for text, found in parts(name, False):
            for each in found.loads:
                shown = each.name if each.quantity == 1 else f"{each.quantity:g} x {each.name}"
                status = f"{each.status}, replaces {', '.join(each.replaces)}" if each.replaces else each.status
                assert re.search(rf"(?m)^{re.escape(shown)} +{re.escape(each.kind)} +{re.escape(status)}(  |$)", text), each


# --- house loads


def test_house_loads_have_a_sheet_of_their_own() -> None:
    """Their calculation by the standard method is printed under numbers of its own, and ends in what the method adds."""
    (sheet,) = [each for each in demo_assessed("three_flats").supplies[0].methods if each.id == "multifamily"]
    (run,) = sheet.runs
    added = next(line.outcome for line in sheet.lines if line.id == "multifamily.house_load_total")
    assert added is not None
    assert run.results["total"].value == added.value == 600 + 9.8 * 120 * 1.25 + 32 * 240  # 25 % of the pump, the largest motor
    text = printed("three_flats", False)
    assert "House loads: Standard calculation (220.40)" in text
    assert re.search(r"(?m)^ *h\d+ +Calculated load +220\.40 .* 9,750 VA$", text)
    assert not demo_assessed("new_all_electric_house").supplies[0].methods[0].runs


def test_what_weak_values_the_house_loads_rest_on_is_told() -> None:
    """The change of 2020 to fastened appliances is told by one source; no other line of the basis rests on it."""
    found = demo_assessed("twelve_apartments")
    (sheet,) = [each for each in found.supplies[0].methods if each.id == "multifamily"]
    title = "Appliances fastened in place: a smallest size, and household cooking equipment left out"
    told = [each.code_values_not_verified for each in (sheet, *sheet.runs)] + [found.code_values_not_verified]
    assert [any(entry["what"] == f"change of NEC 2020: {title}" for entry in each) for each in told] == [False, True, True]


def test_house_loads_that_two_methods_read_are_printed_once() -> None:
    """Multifamily and standard calculation of house loads stand in one numbering, through all supplies."""
    for full in (False, True):
        text = printed("three_flats", full)
        assert text.count("\nHouse loads: Standard calculation (220.40)\n") == 1
        numbers = [int(each) for each in re.findall(r"(?m)^ *h(\d+)  ", text)]
        assert sorted(set(numbers)) == list(range(1, max(numbers) + 1))


# --- what a formula prints


def worked(name: str, line: str, item: str | None = None) -> list[str]:
    """The formula of a line with its numbers, wherever a demonstration home prints it."""
    found = []
    for supply in demo_assessed(name).supplies:
        circuits = supply.circuits.sheets if supply.circuits is not None else []
        for each in [line for sheet in (*supply.methods, *circuits) for line in sheet.lines]:
            outcomes = [each.outcome, *(getattr(one, "outcome", one) for one in each.items)]
            found += [one.with_numbers for one in outcomes if each.id == line and one is not None and item in (None, one.item)]
    return found


def test_what_was_not_needed_is_said_in_a_formula() -> None:
    """Names and gatherings that one known answer made needless; a table that was not looked up keeps its name."""
    assert "0 > 0 and (together is together or (not needed) = 0)" in worked(
        "denver_house_with_garage", "existing_dwelling.is_added"
    )
    assert "200 A >= 100 A or (by rating is by rating and (not needed) and 200 A >= (not needed)) or (not needed)" in worked(
        "duplex", "optional_dwelling.ampacity_suffices"
    )
    assert "table(multifamily demand.factor, 2)" in worked("duplex", "multifamily.units_factor")


def test_words_in_a_formula_have_spaces() -> None:
    """A choice of several words, and those it is compared with."""
    told = worked("denver_house_with_garage", "branch_circuits.small_limits")
    assert "waste disposer not in (heat pump, air conditioner) or not yes" in told
    assert "air conditioner not in (heat pump, air conditioner) or not yes" in told


@pytest.mark.parametrize("name", DEMOS)
def test_the_methods_that_may_be_used_stand_in_a_table_and_the_others_apart(name: str) -> None:
    for text, found in parts(name, False):
        if "\nMethods\n" not in text:
            assert len(found.results) == 1
            continue
        table = text.split("\nMethods\n", 1)[1].split("\n\n")[0]
        shown = " ".join(table.split())
        for each in found.results:
            named = re.search(rf"(?m)^{re.escape(each.title[:30])}", table) is not None
            assert named == (each.may_be_used != "no"), (each.title, shown)


def test_a_load_of_a_set_is_listed_with_those_that_it_never_runs_with() -> None:
    listed = {each.name: each.status for each in demo_assessed("existing_house_with_sauna").supplies[0].loads}
    assert (listed["sauna"], listed["hot tub"]) == (
        "existing, never together with hot tub",
        "existing, never together with sauna",
    )
