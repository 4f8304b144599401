"""Pages as a terminal shows them: headings and the verdict in bold, what does not fit and what is open in a colour."""

from __future__ import annotations

import re
from collections.abc import Sequence

from dwellcalc.cli.terminal import BOLD, RED, YELLOW, painted
from dwellcalc.decide.document import DOES_NOT_FIT, OPEN
from dwellcalc.report.answer import FITS_BUT, VERDICT_WORDS
from dwellcalc.report.tables import Block, Heading, Paragraph, Table, as_text

OPENLY = OPEN.capitalize()
VERDICT = re.compile(f"({'|'.join(map(re.escape, (*VERDICT_WORDS.values(), OPENLY, FITS_BUT)))})(?=[,.:;])")
FAILS = re.compile(re.escape(DOES_NOT_FIT), re.IGNORECASE)
OPEN_CELL = re.compile(rf"(?:^|(?<=  )){OPEN}(?=  |[,;]|$)", re.IGNORECASE)


def emphasised(blocks: Sequence[Block], width: int) -> str:
    """Pages as text of a width, with bold and colours that take no room."""
    return "\n\n".join(_emphasised(block, as_text([block], width).removesuffix("\n")) for block in blocks) + "\n"


def _emphasised(block: Block, text: str) -> str:
    lines = text.split("\n")
    if isinstance(block, Heading):
        return "\n".join([*(painted(line, BOLD) for line in lines[:-1]), lines[-1]])
    if isinstance(block, Paragraph) and VERDICT.match(block.text):
        return "\n".join([_verdict(lines[0]), *map(_coloured, lines[1:])])
    if isinstance(block, Table):
        return "\n".join(OPEN_CELL.sub(lambda found: painted(found[0], YELLOW), _coloured(line)) for line in lines)
    return "\n".join(map(_coloured, lines))


def _verdict(line: str) -> str:
    """The line that begins with the verdict."""
    match = VERDICT.match(line)
    assert match is not None
    colour = {VERDICT_WORDS[DOES_NOT_FIT]: [RED], OPENLY: [YELLOW]}.get(match[0], [])
    return painted(match[0], BOLD, *colour) + painted(line[match.end() :], BOLD)


def _coloured(line: str) -> str:
    return FAILS.sub(lambda found: painted(found[0], RED), line)
