"""The pages of a comparison: what `dwellcalc compare` prints. Nothing is computed here."""

from __future__ import annotations

from collections.abc import Callable

from dwellcalc.compare.document import (
    EDITIONS,
    HOMES,
    INTERPRETATIONS,
    METHODS,
    Comparison,
    FactDifference,
    OptionAt,
    Reading,
    SupplyComparison,
)
from dwellcalc.placed import spaced
from dwellcalc.report.comparison_tables import (
    NONE,
    lines_table,
    more,
    not_compared,
    set_tables,
    sides_table,
    turn_text,
    usable,
)
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table

ADDS_UP = "Differences are in amperes of the supply, unrounded; the parts add up to the whole."
TITLES = {EDITIONS: "by edition", METHODS: "by method", INTERPRETATIONS: "by reading of the code"}
SAID = {
    EDITIONS: "The same home under {rules}. Each difference belongs to the set of changes that makes it: the sets are applied one "
    "after the other, and the lines that differ before and after one are its own.",
    METHODS: "The home by every method of {rules} that an assessment calculates, each beside the one that is taken.",
    INTERPRETATIONS: "The home under {rules}, each question that the code leaves open answered in every way.",
    HOMES: "Two homes under {rules}.",
}


def comparison_pages(found: Comparison) -> list[Block]:
    """The pages of a comparison."""
    titles = [each["title"] for each in found.homes]
    title = f"{titles[0]}: {TITLES[found.what]}" if found.what in TITLES else " beside ".join(titles)
    rules = [each["title"] for each in found.rule_sets]
    said = SAID[found.what].format(rules=", ".join(rules[:-1]) + (" and " if rules[1:] else "") + rules[-1])
    blocks: list[Block] = [Heading(1, title), Paragraph(f"{said} {ADDS_UP}")]
    blocks += [Listing(found.held)] if found.held else []
    pages: dict[str, Callable[[SupplyComparison], list[Block]]] = {
        EDITIONS: _by_edition,
        METHODS: _by_method,
        INTERPRETATIONS: _by_reading,
        HOMES: _of_homes,
    }
    for supply in found.supplies:
        blocks += [Heading(2, supply.title), *sides_table(supply), *pages[found.what](supply)]
    blocks += _only(found)
    digests = ", ".join(f"{each['title']} {each['digest'][:16]}" for each in found.rule_sets)
    facts = ", ".join(each["digest"][:16] for each in found.homes)
    ending = f"Date of the calculation {found.date}. Rules {digests}; facts {facts}; dwellcalc {found.engine_version}."
    return [*blocks, Heading(2, "Cautions"), Listing(found.cautions), Paragraph(ending)]


def _by_edition(supply: SupplyComparison) -> list[Block]:
    blocks: list[Block] = []
    for each in supply.differences:
        blocks.append(Heading(3, f"{each.first} to {each.second}"))
        if each.turns:
            blocks.append(Listing([turn_text(turn) for turn in each.turns]))
        for method in each.methods:
            if method.method in usable(supply):
                blocks += set_tables(method)
    return blocks


def _by_method(supply: SupplyComparison) -> list[Block]:
    blocks: list[Block] = []
    for each in supply.differences:
        for method in each.methods:
            if method.amperes is None or method.method not in usable(supply):
                continue  # the table above says why
            title = f"{method.title} instead of {each.first}: {more(method.amperes)}"
            blocks.append(lines_table(title, method.lines, "taken", "instead"))
    return blocks


def _of_homes(supply: SupplyComparison) -> list[Block]:
    blocks: list[Block] = []
    for each in supply.differences:
        for method in each.methods:
            if method.method not in usable(supply):
                continue
            if method.amperes is None:
                blocks.append(Paragraph(not_compared(method)))
            elif not method.lines:
                blocks.append(Paragraph(f"{method.title}: no difference."))
            else:
                blocks.append(lines_table(f"{method.title}: {more(method.amperes)}", method.lines, "first", "second"))
    return blocks


# readings


def _by_reading(supply: SupplyComparison) -> list[Block]:
    blocks: list[Block] = []
    for reading in supply.readings:
        blocks += [Heading(3, f"{reading.question} ({reading.cite})"), *_reading(reading, supply)]
    if supply.same:
        blocks += [Paragraph("Questions that make no difference in this home:"), Listing(supply.same)]
    return blocks


def _reading(reading: Reading, supply: SupplyComparison) -> list[Block]:
    shown = usable(supply)
    rows = []
    for method in reading.methods:
        if method.method in shown and any(each.difference != 0 for each in method.options):
            rows += [[method.title if at == 0 else "", *_option(each, reading)] for at, each in enumerate(method.options)]
    answers = [_answer(each, supply.at[0].basis) for each in reading.answers]
    blocks: list[Block] = (
        [Listing([f"{spaced(each.option)}: {each.says}" for each in reading.methods[0].options])] if reading.methods else []
    )
    if rows:
        blocks.append(
            Table(
                "",
                ["Method", "Reading", "Amperes", "Difference", "On the line"],
                rows,
                ["left", "left", "right", "right", "left"],
            )
        )
    return [*blocks, Paragraph(f"The supply: {'; '.join(answers)}.")]


def _option(option: OptionAt, reading: Reading) -> list[str]:
    name = f"{spaced(option.option)}{f' (taken, {reading.chosen_by})' if option.taken else ''}"
    amperes = NONE if option.amperes is None else f"{option.amperes:,.2f} A"
    if option.amperes is None:
        return [name, amperes, "", "; ".join(option.why)]
    difference = "" if option.taken or option.difference is None else more(option.difference)
    return [name, amperes, difference, "\n".join(f"{more(each.amperes)} {each.title} ({each.cite})" for each in option.lines)]


def _answer(found: dict[str, object], usual: str) -> str:
    amperes = found["amperes"]
    carried = "no method gives a result" if amperes is None else f"{amperes:,.2f} A"
    by = f" by the method {found['basis']}" if found["basis"] not in (usual, "") else ""
    return f"{spaced(str(found['option']))} - {carried}{by}, {found['verdict']}"


# two homes


def _only(found: Comparison) -> list[Block]:
    if found.what != HOMES:
        return []
    blocks: list[Block] = []
    alone = [each for each in found.only if not each.name]
    other = [each for each in found.only if each.name]
    if alone or found.left_over:
        blocks.append(Heading(2, "What only one of them has"))
        blocks += [Listing(found.left_over)] if found.left_over else []
        blocks += [Table("", ["", "", "first", "second"], [_fact(each) for each in alone])] if alone else []
    if other:
        blocks.append(Heading(2, "What is otherwise"))
        blocks.append(Table("", ["", "", "first", "second"], [_fact(each) for each in other]))
    return blocks


def _fact(found: FactDifference) -> list[str]:
    what = f"{found.item}: {found.name}" if found.item and found.name else found.item or found.name
    return [spaced(found.of), what, found.first or NONE, found.second or NONE]
