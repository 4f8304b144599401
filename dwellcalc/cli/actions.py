"""What the commands do: read, call the package, print."""

from __future__ import annotations

import datetime
import os
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from dwellcalc.cli.printing import print_blocks, print_json, print_page
from dwellcalc.cli.progress_line import progress_line
from dwellcalc.compare.beside import with_editions
from dwellcalc.decide.amendments import NONE, amended
from dwellcalc.decide.assess import assess
from dwellcalc.decide.document import DOES_NOT_FIT, OPEN, Assessment, SupplyResult, sheets_beside
from dwellcalc.decide.edition import rules_for
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.evaluate.sheet import MethodSheet, SheetLine
from dwellcalc.home import Asked, whole_home
from dwellcalc.language.rule_set import every_amendment, load_rules, read_glossary
from dwellcalc.placed import Text, key
from dwellcalc.problems import InputError, fail, message, nearest_name
from dwellcalc.progress import Progress, silent
from dwellcalc.reading import read_file
from dwellcalc.report.answer import in_short
from dwellcalc.report.explanation import explanation
from dwellcalc.report.first_page import line_of_first_page
from dwellcalc.report.line_numbers import numberings
from dwellcalc.report.load_explanation import load_explanation, load_named
from dwellcalc.report.page.page import sheet_page
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import Paragraph

NO_LINE = message(
    "explain_no_line",
    'the sheet has no line "{name}"',
    "a number or a title of the printed sheet, or an id of the JSON such as METHOD.LINE",
)


NOT_THE_HOME = message(
    "assess_not_the_home", 'the sheet is not written over the home file "{name}"', "give `--output` the name of another file"
)


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


def assessment(name: str, wanted: Wanted, *, editions: bool = False, progress: Progress = silent) -> Assessment:
    """The assessment of a home file; with what it would be under every edition, if that is asked for."""
    progress("reading the rules and the home")
    node = read_file(name)
    code = node.get(key("code"))
    rules = rules_for(code if isinstance(code, Text) else None, wanted.edition, wanted.rules)
    home = whole_home(node, rules.glossary, Path(name).parent)
    names: Sequence[str] = home.amendments if wanted.amendments is None else _named(wanted.amendments)
    beside = Path(name).parent if wanted.amendments is None else Path()
    rules = amended(rules, names, home.dates, beside=beside, folder=wanted.rules)
    today = datetime.date.today().isoformat()
    home = replace(home, amendments=names)
    found = assess(home, rules, date=today, method=wanted.method, progress=progress)
    if wanted.method:
        home = replace(home, method=Asked(wanted.method))
    if not editions:
        return found
    progress("calculating the home under every edition")
    return with_editions(found, home, rules, wanted.rules)


def _named(amendments: Sequence[str]) -> list[str]:
    """The amendments that the command names, none where it says so."""
    return [name for name in amendments if name != NONE]


def assess_home(name: str, wanted: Wanted, *, form: str, full: bool, editions: bool, output: str) -> int:
    """``dwellcalc assess``: the sheet of a home; the exit code."""
    if output and Path(output).exists() and Path(name).exists() and Path(output).samefile(name):
        fail(NOT_THE_HOME, name=name)
    with progress_line() as progress:
        found = assessment(name, wanted, editions=editions or form in ("json", "html"), progress=progress)
    if form == "json":
        print_json(found.json(), output)
    elif form == "html":
        print_page(sheet_page(found), output)
    else:
        print_blocks(sheet_pages(found, full=full), form, output)
    if output:
        print_blocks([*in_short(found), Paragraph(f"Written: {output}")], "text")
    short = [DOES_NOT_FIT for supply in found.supplies if supply.shortcomings]
    return exit_code([*(supply.verdict for supply in found.supplies), *short])


def exit_code(verdicts: list[str]) -> int:
    """0 where every supply fits or has nothing to compare, 1 where one or something else does not, 3 where one is open."""
    if DOES_NOT_FIT in verdicts:
        return 1
    return 3 if OPEN in verdicts else 0


def explain_line(name: str, line: str, wanted: Wanted, *, form: str) -> int:
    """``dwellcalc explain``: one line in depth; the exit code is 0."""
    with progress_line() as progress:
        found = assessment(name, wanted, progress=progress)
        edition = str(found.rule_set["id"])
        rules = rules_for(None, edition, wanted.rules)
    told = _line_numbered(found, line) or line_of_first_page(found, line, rules, read_instructions(rules))
    load = None if told is not None else load_named(found, line)
    blocks = explanation(found, told or _line_named(found, line)) if load is None else load_explanation(found, load)
    print_blocks(blocks, form)
    return 0


def _line_numbered(found: Assessment, name: str) -> SheetLine | None:
    """The line that has a number on the printed sheet."""
    for numbering in numberings(found, full=False):
        for numbers in (numbering, *numbering.runs.values()):
            if name in numbers.lines:
                return numbers.lines[name]
    return None


def _line_named(found: Assessment, name: str) -> SheetLine:
    """The line that an id, its last part or a title stands for; where several methods have one, that of the basis."""
    sheets = [sheet for supply in found.supplies for sheet in (*_basis_first(supply), *sheets_beside(supply))]
    lines = [*(each for sheet in sheets for each in sheet.lines)]
    lines += [each for sheet in sheets for run in sheet.runs for each in run.lines]
    wanted = name.replace(" ", "_")
    for each in lines:
        if wanted in (each.id, each.id.rpartition(".")[2]) or name.casefold() == each.title.casefold():
            return each
    short = [each.id.rpartition(".")[2] for each in lines]
    titles = [each.title for each in lines]
    loads = [load.name for supply in found.supplies for load in supply.loads]
    near = nearest_name(name, [*titles, *loads]) or nearest_name(wanted, [*(each.id for each in lines), *short])
    return fail(NO_LINE, name=name, nearest=near)


def _basis_first(supply: SupplyResult) -> list[MethodSheet]:
    """The sheets of a supply's methods, that of the basis before the others."""
    basis = supply.basis.method if supply.basis is not None else ""
    return sorted(supply.methods, key=lambda sheet: sheet.id != basis)


def check_rules(folder: Path | None) -> int:
    """``dwellcalc rules check``: every problem of every edition, with all proofs; 0 where there is none."""
    from dwellcalc.evaluate.check import check_folder
    from dwellcalc.home.starting.question_reader import check_starter
    from dwellcalc.review.catalogue import check_catalogue

    with progress_line() as progress:
        found = check_folder(folder, progress, os.cpu_count() or 1)
        found["mistakes"] = check_catalogue(folder, progress)
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

    with progress_line() as progress:
        progress(f"reading the rules of {edition}")
        pages = rule_pages(amended(load_rules(edition, rules), _named(amendments), None, folder=rules))
    print_blocks(pages, form)
    return 0


def list_amendments(*, rules: Path | None, form: str) -> int:
    """``dwellcalc rules amendments``: every amendment of a folder of rules; the exit code is 0."""
    from dwellcalc.report.amendment_pages import amendment_pages

    print_blocks(amendment_pages(*every_amendment(rules)), form)
    return 0
