"""An assessment as a page of HTML: one file, without scripts and without requests."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree.ElementTree import Element, tostring

from dwellcalc.decide.document import DOES_NOT_FIT, FITS, Assessment
from dwellcalc.report.asked import FIELD
from dwellcalc.report.carried_on import told_once
from dwellcalc.report.page.elements import Child, element, elements
from dwellcalc.report.page.preliminary import to_clear
from dwellcalc.report.page.sheet_page import APPENDIX, NEW_SHEET, Section, appendix, sheet_sections
from dwellcalc.report.page.style import style
from dwellcalc.report.pictures.style import STYLE
from dwellcalc.report.sheet_parts import confirmed_title, fill_in_table

POLICY = "default-src 'none'; style-src 'unsafe-inline'"  # a browser asks for nothing on behalf of such a page
NO_APPROVAL = "A calculation, not an inspection or an approval."
SIGNED = "To be filled in"
FOUND_OUT = f'What has to be found or asked, and by whom, stands under "{FIELD}".'


def sheet_page(found: Assessment) -> str:
    """The page of an assessment: the whole text of an HTML file."""
    title = str(found.home["title"])
    sections = _with_appendix(sheet_sections(found), appendix(found))
    body = element(
        "body",
        _header(found, sections),
        element(
            "main",
            _section(sections[0], 1),
            _contents([*(each.title for each in sections), SIGNED]),
            *_further(found, sections),
        ),
    )
    foot = f"{title}, {found.rule_set['title']}, {found.date}. {NO_APPROVAL}"
    head = element(
        "head",
        element("meta", attributes={"charset": "utf-8"}),
        element("meta", attributes={"http-equiv": "Content-Security-Policy", "content": POLICY}),
        element("meta", attributes={"name": "viewport", "content": "width=device-width, initial-scale=1"}),
        element("title", f"{title}: calculated load of the service"),
        element("style", style(foot, STYLE)),
    )
    whole = element("html", head, body, attributes={"lang": "en"})
    return f"<!DOCTYPE html>\n{tostring(whole, encoding='unicode', method='html')}\n"


def _further(found: Assessment, sections: Sequence[Section]) -> list[Element]:
    """The parts behind the first; the digests behind the cautions, so that they take no sheet by themselves."""
    parts = [_section(each, number) for number, each in enumerate(sections[1:], 2)]
    last = (at for at, each in enumerate(sections[1:]) if each.title == APPENDIX or NEW_SHEET in each.paper)
    at = next(last, len(parts))
    return [*parts[:at], _footer(found), *parts[at:], _to_fill_in(found, len(sections) + 1)]


def _with_appendix(sections: Sequence[Section], added: Section) -> list[Section]:
    """The parts with the appendix before what stands on sheets of its own, to be taken to the site and to be signed."""
    at = next((at for at, each in enumerate(sections) if NEW_SHEET in each.paper), len(sections))
    return [*sections[:at], *([added] if added.blocks else []), *sections[at:]]


def _header(found: Assessment, sections: Sequence[Section]) -> Element:
    confirmed = str(found.home["confirmed_by"] or "nobody yet")
    settled = all(each.verdict in (FITS, DOES_NOT_FIT) for each in found.supplies)
    return element(
        "header",
        element("h1", str(found.home["title"])),
        element("p", f"Calculated load of the electrical service by {found.rule_set['title']}, {found.date}. {NO_APPROVAL}"),
        element("p", f"{confirmed_title(found)}: {confirmed}"),
        *_open(sections, to_clear(told_once(found)), confirmed=bool(found.home["confirmed_by"]), settled=settled),
    )


def _open(sections: Sequence[Section], clear: str, *, confirmed: bool, settled: bool) -> list[Element]:
    """What is open, where it stands, and what clears it; nothing where nothing is.

    A sheet is preliminary while nobody has confirmed the edition or an answer is open, and not for facts that are to be seen on site.
    """
    begins = "To be confirmed" if confirmed and settled else "Preliminary. Still open"
    links: list[Child] = [] if confirmed else ["the edition, which nobody has confirmed"]
    for number, each in enumerate(sections, 1):
        if each.opens:
            links.append(element("a", each.opens, attributes={"href": f"#part-{number}"}))
    apart = [child for link in links for child in ("; ", link)][1:]
    found = [element("p", f"{begins}, each told below: ", *apart, ". ", *_cleared(clear))] if links else []
    return [*found, *_checks(sections)]


def _cleared(clear: str) -> list[Child]:
    """What clears it: on a screen by which keys, on paper where it stands what has to be found and by whom."""
    if not clear:
        return []
    return [
        element("span", clear, attributes={"class": "on-screen"}),
        element("span", FOUND_OUT, attributes={"class": "on-paper"}),
    ]


def _checks(sections: Sequence[Section]) -> list[Element]:
    """What is to be held against the code book, which no one who fills in a home file can settle."""
    links = [
        element("a", each.checks, attributes={"href": f"#part-{number}"})
        for number, each in enumerate(sections, 1)
        if each.checks
    ]
    return [element("p", "To be held against the adopted code: ", link, ".") for link in links]


def _contents(titles: list[str]) -> Element:
    links = [element("a", title, attributes={"href": f"#part-{number}"}) for number, title in enumerate(titles, 1)]
    return element(
        "nav", element("ul", *(element("li", link) for link in links)), attributes={"aria-label": "Parts of this sheet"}
    )


def _section(section: Section, number: int) -> Element:
    attributes = {"id": f"part-{number}", "aria-labelledby": f"title-{number}"}
    if section.paper:
        attributes["class"] = section.paper
    title = element("h2", section.title, attributes={"id": f"title-{number}"})
    return element("section", title, *elements(section.blocks), attributes=attributes)


def _to_fill_in(found: Assessment, number: int) -> Element:
    table = fill_in_table(found)
    rows = [
        element(
            "tr", element("th", name, attributes={"scope": "row"}), element("td", text.strip("_"), attributes={"class": "line"})
        )
        for name, text in table.rows
    ]
    title = element("h2", SIGNED, attributes={"id": f"title-{number}"})
    lines = element("table", element("tbody", *rows), attributes={"class": "pairs blank"})
    attributes = {"id": f"part-{number}", "aria-labelledby": f"title-{number}", "class": "to-fill-in"}
    return element("section", title, lines, attributes=attributes)


def _footer(found: Assessment) -> Element:
    return element(
        "footer",
        element("p", f"Made by dwellcalc {found.engine_version} on {found.date}."),
        element("p", f"Digest of the rules: {found.rule_set['digest']}"),
        element("p", f"Digest of the facts of the home, what is calculated with: {found.facts_digest}"),
        element("p", f"Digest of the home file as it is written, evidence and remarks too: {found.home_digest}"),
        element("p", "Whoever assesses the same home file by the same rules gets the same digests and the same figures."),
    )
