"""All pages to read, by the name of their file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dwellcalc.language.amendments import Amendment
from dwellcalc.language.citations import SourceEntry
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.report.amendment_pages import amendment_pages
from dwellcalc.report.reading.evidence_pages import mistakes_page, sources_page
from dwellcalc.report.reading.glossary_page import KINDS_PAGE, METHODS_PAGE, glossary_page
from dwellcalc.report.reading.kinds_page import kinds_page
from dwellcalc.report.reading.links import link
from dwellcalc.report.reading.methods_page import methods_page
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, as_markdown

INDEX = "README.md"
COMMAND = "dwellcalc rules reading"
ABOUT = {
    "glossary.md": "every name that a home file may hold, with its unit or words; supply systems; how ratings are written",
    KINDS_PAGE: "every kind of load: its other names, what it implies, typical ratings, a line of a home file",
    METHODS_PAGE: "every method: where it may be used, what it leaves out, what the code leaves open, edition by edition",
    "mistakes.md": "what a review of a submitted calculation looks for",
    "amendments.md": "local amendments: their days, status, source, and what each leaves out",
    "sources.md": "the sources, what was seen of each, and how sure the values are",
}


def reading_pages(
    editions: Sequence[RuleSet], amendments: Sequence[Amendment], sources: Mapping[str, SourceEntry]
) -> dict[str, str]:
    """Every page as Markdown, by the name of its file.

    Args:
        editions: the editions, oldest first; what does not differ between them is that of the newest.
        amendments: the local amendments.
        sources: all sources that they may name.
    """
    newest = editions[-1]
    made: list[list[Block]] = [
        glossary_page(newest.glossary),
        kinds_page(newest),
        methods_page(editions),
        mistakes_page(editions),
        amendment_pages(amendments, sources),
        sources_page(editions, sources),
    ]
    pages = dict(zip(ABOUT, made, strict=True))
    return {INDEX: as_markdown(_index(pages, editions)), **{name: as_markdown(page) for name, page in pages.items()}}


def _index(pages: Mapping[str, list[Block]], editions: Sequence[RuleSet]) -> list[Block]:
    titles = {name: next(block.text for block in page if isinstance(block, Heading)) for name, page in pages.items()}
    told = (
        f'Written by "{COMMAND}" from the files of the rules, and not by hand: {", ".join(each.title for each in editions)}. '
        "These pages restate the rules in the project's own words; the adopted code, its local amendments and the authority having "
        "jurisdiction govern."
    )
    return [
        Heading(1, "The rules, to read"),
        Paragraph(told),
        Listing([f"{link(titles[name], page=name)}: {ABOUT[name]}" for name in pages]),
    ]
