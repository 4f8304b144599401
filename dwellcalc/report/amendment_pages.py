"""The local amendments as a list: what `dwellcalc rules amendments` prints, and the rows of a sheet that name them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from dwellcalc.language.amendments import Amendment
from dwellcalc.language.citations import SourceEntry
from dwellcalc.placed import spaced
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table


def amendment_pages(amendments: Sequence[Amendment], sources: Mapping[str, SourceEntry]) -> list[Block]:
    """Every amendment with its days, what fixes them, its status and its source, then what each does not express."""
    head = ["Name", "Jurisdiction", "Amends", "In force", "Decided by the date of", "Status"]
    rows = [
        [each.id, each.jurisdiction, ", ".join(each.amends), _days(each), spaced(each.fixed_by), each.status]
        for each in amendments
    ]
    blocks: list[Block] = [
        Heading(1, "Local amendments"),
        Paragraph(
            "A home file names those that apply to it: `amendments: [NAME, ...]`, by the whole name, by the end of it, or by a "
            "jurisdiction. Where there are several versions, the home's date chooses. None of them is the whole of a local law; "
            "the adopted text and the authority having jurisdiction govern."
        ),
        Table("", head, rows) if rows else Paragraph("None."),
    ]
    for each in amendments:
        named = [sources[name] for name in each.source.split()]
        blocks += [Heading(2, f"{each.title}"), Paragraph(f"Name: {each.id}.")]
        blocks.append(Listing([f"Source: {found.title}, {found.publisher}, {found.year}; seen: {found.seen}" for found in named]))
        if each.not_expressed:
            blocks += [Paragraph("Not expressed:"), Listing(list(each.not_expressed))]
    return blocks


def amendment_in_words(amendment: Amendment) -> str:
    """An amendment in one entry of a list: its title, status and days, and what decides."""
    about = f"{amendment.jurisdiction}; {amendment.status}; in force {_days(amendment)}, decided by the date of"
    return f"{amendment.title} ({about} {spaced(amendment.fixed_by)})"


def amendment_rows(amendments: Sequence[Mapping[str, Any]]) -> list[list[str]]:
    """The rows of a sheet that name the amendments taken into account: title, status, days, what decided, source."""
    if not amendments:
        return [["Local amendments", "none taken into account"]]
    rows = []
    for at, each in enumerate(amendments):
        decided = f", {each['date']}" if each["date"] else ""
        grade = f" ({each['in_force']['confidence']})" if each["in_force"]["confidence"] else ""
        told = f"{each['title']} ({each['jurisdiction']}; {each['status']}). In force: {each['days']}{grade}; decided by the date of "
        told += f"{each['fixed_by']}{decided}. Source: {'; '.join(each['sources'])}."
        rows.append(["Local amendments" if at == 0 else "", told])
    return rows


def amendment_remarks(amendments: Sequence[Mapping[str, Any]]) -> list[Block]:
    """What of the local laws the amendments do not express."""
    blocks: list[Block] = []
    for each in amendments:
        if each["not_expressed"]:
            blocks += [Paragraph(f"Not expressed of {each['title']}:"), Listing(list(each["not_expressed"]))]
    return blocks


def _days(amendment: Amendment) -> str:
    return f"{amendment.days()} ({amendment.dates_confidence})" if amendment.dated else amendment.days()
