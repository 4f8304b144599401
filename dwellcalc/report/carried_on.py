"""A feeder that carries the whole load of its service, told beside it: its load is not printed a second time.

Where its verdict is another than that of the service, it is printed as any other feeder is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any

from dwellcalc.decide.document import FITS, NOTHING, Assessment, BesideAnswer, SupplyResult
from dwellcalc.evaluate.sheet import NOT_APPLICABLE, NOT_NEEDED, SheetLine
from dwellcalc.report.lines import outcomes_of
from dwellcalc.report.printed_sheets import PrintedSheet, printed_sheets
from dwellcalc.report.tables import Block, Heading, Paragraph, Table
from dwellcalc.report.wording import lowered

PER_SUPPLY = "supplies"  # what a part of the decision tells of each supply
SAME_LOAD = "{feeder} carries the same load as the service, so its calculation, and whatever is the same of the two, is not printed again."
WHERE = "Its conductors and its grounding stand among the sizes."
TO_CHOOSE = "Condition for its conductors, which are to be chosen: {text}."
SUFFICE = {True: "yes", False: "no"}


def carrying(found: Assessment) -> SupplyResult | None:
    """The feeder that carries the whole load of the service and is told beside it."""
    service, *feeders = found.supplies
    if len(feeders) != 1 or not feeders[0].carries_all:
        return None
    (feeder,) = feeders
    to_choose = feeder.to_be_installed and service.to_be_installed  # what of it is to be chosen is told beside the service
    chosen_later = to_choose and service.verdict == NOTHING and feeder.verdict == FITS  # held to its bus alone
    same = (feeder.verdict == service.verdict or chosen_later) and (to_choose or feeder.conditions == service.conditions)
    return feeder if same and set(feeder.shortcomings) <= set(service.shortcomings) else None


def told_once(found: Assessment) -> Assessment:
    """The assessment with such a feeder left out of what tells of each supply."""
    if carrying(found) is None:
        return found
    return replace(found, supplies=found.supplies[:1], decision=_of_first(found.decision))


def _of_first(part: Any) -> Any:
    """A part of the decision with what it tells of the first supply alone."""
    if isinstance(part, list):
        return [_of_first(each) for each in part]
    if not is_dataclass(part) or isinstance(part, type):
        return part
    made = {each.name: _of_first(getattr(part, each.name)) for each in fields(part)}
    if made.get(PER_SUPPLY):
        made[PER_SUPPLY] = made[PER_SUPPLY][:1]
    return replace(part, **made)


def carried_sentence(found: Assessment) -> list[Block]:
    """That the feeder carries the same load, for the first page."""
    feeder = carrying(found)
    if feeder is None:
        return []
    asked = [each for each in feeder.conditions if each not in found.supplies[0].conditions]
    told = "".join(f" {TO_CHOOSE.format(text=each)}" for each in asked)
    return [Paragraph(f"{SAME_LOAD.format(feeder=feeder.title)} {WHERE}{told}")]


def feeder_blocks(found: Assessment) -> list[Block]:
    """The feeder in a sentence and a table: what protects it, its conductors, and what is another than of the service."""
    feeder = carrying(found)
    if feeder is None:
        return []
    return [Heading(3, feeder.title), Paragraph(SAME_LOAD.format(feeder=feeder.title)), _figures(found.supplies[0], feeder)]


def protection_of(feeder: SupplyResult) -> str:
    """What protects a feeder, in words."""
    rating = feeder.stated.get("rating")
    rated = f", {rating}" if rating else ""
    if not rating and feeder.to_be_installed:
        return "the main overcurrent device of the service, to be chosen"
    return f"the main overcurrent device of the service{rated}" if feeder.protected_by_service else f"a device of its own{rated}"


def _figures(service: SupplyResult, feeder: SupplyResult) -> Table:
    sizing, rows = feeder.sizing, [["Protected by", protection_of(feeder)]]
    stated = {name.removeprefix("conductor "): each for name, each in feeder.stated.items() if name.startswith("conductor ")}
    if stated:
        rows.append(["Its conductors", "; ".join(f"{name} {each}" for name, each in stated.items())])
    if sizing is not None:
        if sizing.capacity is not None:
            rows.append(["Its capacity", f"{sizing.capacity:,.0f} A, by the {lowered(sizing.weakest)}"])
        rows += [["Why that capacity", f"{text}."] for text in sizing.because]
        if sizing.conductors_suffice is not None and feeder.verdict == FITS:
            rows.append(["Its conductors suffice for that device", SUFFICE[sizing.conductors_suffice]])
    rows += [[each.title, each.printed] for each in own_answers(service, feeder)]
    return Table("", ["", ""], rows, ["left", "left"])


def own_answers(service: SupplyResult, feeder: SupplyResult) -> list[BesideAnswer]:
    """What was calculated beside the load of the feeder and stands not so with the service."""
    of_service = {(each.title, each.printed) for beside in service.beside for each in beside.answers}
    every = [each for beside in feeder.beside for each in beside.answers]
    return [each for each in every if each.drawn or (each.title, each.printed) not in of_service]


def own_sheets(found: Assessment) -> list[PrintedSheet]:
    """The sheets of the feeder that hold other results than those of the service: its rating and conductors, its grounding."""
    feeder = carrying(found)
    if feeder is None:
        return []
    before = printed_sheets(found.supplies[0], full=False)
    of_service = {each.sheet.id: each.sheet.results for each in before}
    lines = {(line.title, line.cite): line for each in before for line in each.lines}
    printed = [each for each in printed_sheets(feeder, full=False) if not each.is_method]
    own = [each for each in printed if of_service.get(each.sheet.id) != each.sheet.results]
    return [replace(each, lines=[line for line in each.lines if not _as_before(line, lines)]) for each in own]


def _as_before(line: SheetLine, before: Mapping[tuple[str, str], SheetLine]) -> bool:
    """Whether a line of the service tells all values that one of the feeder has."""
    other = before.get((line.title, line.cite))
    if other is None:
        return False
    told = {each.item: (each.state, each.printed) for each in outcomes_of(other)}
    has_value = [each for each in outcomes_of(line) if each.state not in (NOT_NEEDED, NOT_APPLICABLE)]
    return all(told.get(each.item) == (each.state, each.printed) for each in has_value)
