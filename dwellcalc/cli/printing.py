"""How the output of a command is put on the screen, into a pipe or into a file."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence

from dwellcalc.cli.characters import for_stream, shows_all
from dwellcalc.cli.emphasis import emphasised
from dwellcalc.cli.terminal import PIPED_WIDTH, takes_colour, width_of
from dwellcalc.cli.whole_files import write_whole
from dwellcalc.report.tables import Block, as_markdown, as_text


def print_blocks(blocks: Sequence[Block], form: str, output: str = "") -> None:
    """Print pages, or write them into a file; text as wide as the terminal."""
    if output:
        write_whole(output, as_markdown(blocks) if form == "markdown" else as_text(blocks, PIPED_WIDTH), new=False)
        return
    blocks = for_stream(blocks, sys.stdout)
    if form == "markdown":
        print(as_markdown(blocks))
        return
    pages = emphasised if takes_colour(sys.stdout) else as_text
    print(pages(blocks, width_of(sys.stdout)))


def print_json(document: object, output: str = "") -> None:
    """Print data, or write it into a file; what the stream cannot show is escaped, so that nothing of it is lost."""
    if output:
        write_whole(output, f"{json.dumps(document, indent=1, ensure_ascii=False)}\n", new=False)
    else:
        print(json.dumps(document, indent=1, ensure_ascii=not shows_all(sys.stdout)))


def print_page(page: str, output: str) -> None:
    """Print a page of HTML, or write it into a file; what the stream cannot show is named by its number."""
    if output:
        write_whole(output, page, new=False)
    else:
        print(page.encode("ascii", "xmlcharrefreplace").decode("ascii") if not shows_all(sys.stdout) else page, end="")
