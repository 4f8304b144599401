"""What the commands do: read, call the package, print."""

from __future__ import annotations

import datetime
import json
import shutil
import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from dwellcalc.decide.amendments import NONE, amended
from dwellcalc.decide.assess import assess
from dwellcalc.decide.document import DOES_NOT_FIT, OPEN, Assessment, sheets_beside
from dwellcalc.decide.edition import rules_for
from dwellcalc.evaluate.sheet import SheetLine
from dwellcalc.home import whole_home
from dwellcalc.language.rule_set import every_amendment, load_rules, read_glossary
from dwellcalc.placed import Text, key
from dwellcalc.problems import InputError, fail, message, nearest_name
from dwellcalc.reading import read_file
from dwellcalc.report.explanation import explanation
from dwellcalc.report.sheet_pages import numberings, sheet_pages
from dwellcalc.report.tables import Block, as_markdown, as_text

NO_LINE = message(
    "explain_no_line",
    'the sheet has no line "{name}"',
    "a number or a title of the printed sheet, or an id of the JSON such as METHOD.LINE",
)

PIPED_WIDTH = 110
NARROWEST = 60


def print_blocks(blocks: Sequence[Block], form: str) -> None:
    """Print pages; text as wide as the terminal."""
    if form == "markdown":
        print(as_markdown(blocks))
        return
    width = shutil.get_terminal_size().columns if sys.stdout.isatty() else PIPED_WIDTH
    print(as_text(blocks, max(NARROWEST, width)))


@dataclass(frozen=True)
class Wanted:
    """What the command asks of a home's calculation, instead of what the home says itself.

    Attributes:
        edition: the edition, or empty.
        method: the method of the basis, or empty.
        rules: a folder of rules, or the package's own.
        amendments: those to be taken into account, `none` for none; nothing where the home's own are.
    """

    edition: str = ""
    method: str = ""
    rules: Path | None = None
    amendments: Sequence[str] | None = None


def _assessment(name: str, wanted: Wanted) -> Assessment:
    node = read_file(name)
    code = node.get(key("code"))
    rules = rules_for(code if isinstance(code, Text) else None, wanted.edition, wanted.rules)
    home = whole_home(node, rules.glossary, Path(name).parent)
    names: Sequence[str] = home.amendments if wanted.amendments is None else _named(wanted.amendments)
    beside = Path(name).parent if wanted.amendments is None else Path()
    rules = amended(rules, names, home.dates, beside=beside, folder=wanted.rules)
    today = datetime.date.today().isoformat()
    return assess(replace(home, amendments=names), rules, date=today, method=wanted.method)


def _named(amendments: Sequence[str]) -> list[str]:
    """The amendments that the command names, none where it says so."""
    return [name for name in amendments if name != NONE]


def assess_home(name: str, wanted: Wanted, *, form: str, full: bool) -> int:
    """``dwellcalc assess``: the sheet of a home; the exit code."""
    found = _assessment(name, wanted)
    if form == "json":
        print(json.dumps(found.json(), indent=1, ensure_ascii=False))
    else:
        print_blocks(sheet_pages(found, full=full), form)
    short = [DOES_NOT_FIT for supply in found.supplies if supply.shortcomings]
    return exit_code([*(supply.verdict for supply in found.supplies), *short])


def exit_code(verdicts: list[str]) -> int:
    """0 where every supply fits or has nothing to compare, 1 where one or something else does not, 3 where one is open."""
    if DOES_NOT_FIT in verdicts:
        return 1
    return 3 if OPEN in verdicts else 0


def explain_line(name: str, line: str, wanted: Wanted, *, form: str) -> int:
    """``dwellcalc explain``: one line in depth; the exit code is 0."""
    found = _assessment(name, wanted)
    print_blocks(explanation(found, _line_named(found, line)), form)
    return 0


def _line_named(found: Assessment, name: str) -> SheetLine:
    """The line that a number of the printed sheet, an id, its last part or a title stands for."""
    for numbering in numberings(found, full=False):
        for numbers in (numbering, *numbering.runs.values()):
            if name in numbers.lines:
                return numbers.lines[name]
    sheets = [sheet for supply in found.supplies for sheet in (*supply.methods, *sheets_beside(supply))]
    lines = [*(each for sheet in sheets for each in sheet.lines)]
    lines += [each for sheet in sheets for run in sheet.runs for each in run.lines]
    wanted = name.replace(" ", "_")
    for each in lines:
        if wanted in (each.id, each.id.rpartition(".")[2]) or name.casefold() == each.title.casefold():
            return each
    short = [each.id.rpartition(".")[2] for each in lines]
    titles = [each.title for each in lines]
    near = nearest_name(name, titles) or nearest_name(wanted, [*(each.id for each in lines), *short])
    return fail(NO_LINE, name=name, nearest=near)


def check_rules(folder: Path | None) -> int:
    """``dwellcalc rules check``: every problem of every edition, with all proofs; 0 where there is none."""
    from dwellcalc.evaluate.check import check_folder
    from dwellcalc.home.starting.question_reader import check_starter
    from dwellcalc.review.catalogue import check_catalogue

    found = check_folder(folder)
    found["mistakes"] = check_catalogue(folder)
    found["first questions"] = check_starter(folder, read_glossary(folder))
    for edition, problems in found.items():
        print(f"{edition}: {len(problems) or 'no'} problem{'s' if len(problems) > 1 else ''} found")
    every = {str(problem): problem for problems in found.values() for problem in problems}
    if every:
        raise InputError(every.values())
    return 0


def show_rules(edition: str, *, rules: Path | None, amendments: Sequence[str], form: str) -> int:
    """``dwellcalc rules show``: an edition in effect, as amendments change it, as a document; the exit code is 0."""
    from dwellcalc.report.rule_pages import rule_pages

    print_blocks(rule_pages(amended(load_rules(edition, rules), _named(amendments), None, folder=rules)), form)
    return 0


def list_amendments(*, rules: Path | None, form: str) -> int:
    """``dwellcalc rules amendments``: every amendment of a folder of rules; the exit code is 0."""
    from dwellcalc.report.amendment_pages import amendment_pages

    print_blocks(amendment_pages(*every_amendment(rules)), form)
    return 0
