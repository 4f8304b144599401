"""A review, or its letter alone, as a page of HTML: one file, without scripts and without requests."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree.ElementTree import Element, tostring

from dwellcalc.report.page.elements import SHORT, element, elements
from dwellcalc.report.page.page import POLICY
from dwellcalc.report.page.style import style
from dwellcalc.report.pictures.style import STYLE
from dwellcalc.report.tables import Block, Heading, Table
from dwellcalc.review.document import Review

OF_SHEET = 40  # rows of a table that one sheet of paper holds with what is signed


def review_page(found: Review, blocks: Sequence[Block]) -> str:
    """The page of a review: the whole text of an HTML file.

    Args:
        found: the review.
        blocks: its pages, or those of its letter; the first is the title.
    """
    title, *rest = blocks
    assert isinstance(title, Heading)
    starts = [number for number, each in enumerate(rest) if isinstance(each, Heading) and each.level <= 2]
    ends = [*starts, len(rest)]
    body = element(
        "body",
        element("header", element("h1", title.text), *elements(rest[: ends[0]])),
        element("main", *(_section(rest[start:end]) for start, end in zip(starts, ends[1:], strict=True))),
        element("footer", element("p", f"Made by dwellcalc {found.engine_version} on {found.date}.")),
    )
    foot = (
        f"{found.submittal['title']}, {found.rule_set['title']}, {found.date}. A calculation, not an inspection or an approval."
    )
    head = element(
        "head",
        element("meta", attributes={"charset": "utf-8"}),
        element("meta", attributes={"http-equiv": "Content-Security-Policy", "content": POLICY}),
        element("meta", attributes={"name": "viewport", "content": "width=device-width, initial-scale=1"}),
        element("title", title.text),
        element("style", style(foot, STYLE)),
    )
    whole = element("html", head, body, attributes={"lang": "en"})
    return f"<!DOCTYPE html>\n{tostring(whole, encoding='unicode', method='html')}\n"


def _section(blocks: Sequence[Block]) -> Element:
    """A part of the page: its heading, and what stands under it; a short table with its words stays on one sheet of paper."""
    tables = [each for each in blocks if isinstance(each, Table)]
    to_sign = len(tables) > 1 and not any(tables[-1].head)  # what is signed stands on one sheet with the figures that it is on
    longest = OF_SHEET if to_sign else SHORT
    parts = any(isinstance(each, Heading) or (isinstance(each, Table) and len(each.rows) > longest) for each in blocks[1:])
    return element("section", *elements(blocks), attributes={} if parts else {"class": "together"})
