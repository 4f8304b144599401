"""Links between the pages, and words for a set of editions."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence


def anchor(heading: str) -> str:
    """The name that readers of Markdown give a heading."""
    return re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")


def link(text: str, heading: str = "", page: str = "") -> str:
    """A link to a page, or to a heading of one or of the same page."""
    return f"[{text}]({page}{f'#{anchor(heading or text)}' if heading or not page else ''})"


def by_words(said: Mapping[str, str], every: Sequence[str]) -> str:
    """What editions say, each text once: alone where all say the same, else with those that say it.

    Args:
        said: the text of each edition that has one, by its title.
        every: the titles of all editions that could have one, oldest first.
    """
    texts = list(dict.fromkeys(said.values()))
    editions = {text: [title for title in every if said.get(title) == text] for text in texts}
    if len(texts) == 1 and len(editions[texts[0]]) == len(every):
        return texts[0]
    return "; ".join(f"{text} ({in_words(editions[text], every)})" for text in texts)


def in_words(titles: Sequence[str], every: Sequence[str]) -> str:
    """Editions in print, such as ``NEC 2014, 2017`` or ``NEC 2014 to 2020``: what all titles begin with stands once."""
    heads = {title.rpartition(" ")[0] for title in titles}
    if len(titles) < 2 or len(heads) > 1:
        return ", ".join(titles)
    years = [title.rpartition(" ")[2] for title in titles]
    first = list(every).index(titles[0]) if titles[0] in every else 0
    in_a_row = len(titles) > 2 and list(titles) == list(every[first : first + len(titles)])
    return f"{heads.pop()} {f'{years[0]} to {years[-1]}' if in_a_row else ', '.join(years)}"
