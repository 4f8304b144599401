"""``dwellcalc rules reading``: the pages that are generated from the rules, written to a folder."""

from __future__ import annotations

from pathlib import Path

from dwellcalc.cli.progress_line import progress_line
from dwellcalc.language.rule_files import editions_in, rule_files
from dwellcalc.language.rule_set import every_amendment, load_rules
from dwellcalc.problems import fail, message
from dwellcalc.progress import Progress, silent
from dwellcalc.report.reading.pages import reading_pages

NOT_WRITTEN = message("reading_not_written", '"{name}" cannot be written: {why}', "name a folder that may be written to")
NO_EDITIONS = message("reading_no_editions", 'the folder "{name}" holds no editions', "name a folder of rules with `--rules`")


def pages_of(rules: Path | None = None, progress: Progress = silent) -> dict[str, str]:
    """Every page of a folder of rules, by the name of its file.

    Raises:
        InputError: an edition does not load, or an amendment breaks the form.
    """
    folder = rule_files(rules).folder
    names = editions_in(folder)
    if not names:
        fail(NO_EDITIONS, name=folder)
    editions = []
    for number, name in enumerate(names, start=1):
        progress(f"reading the rules of {name}, edition {number} of {len(names)}")
        editions.append(load_rules(name, rules))
    progress("writing the pages")
    return reading_pages(sorted(editions, key=lambda each: len(each.chain)), *every_amendment(rules))


def write_reading(folder: str, *, rules: Path | None) -> int:
    """Write the pages; the exit code is 0. They are all made before the first is written."""
    with progress_line() as progress:
        pages = pages_of(rules, progress)
    for name, text in pages.items():
        path = Path(folder) / name
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            written = path.with_name(f"{name}.part")  # so that a page is never half written
            written.write_text(text, encoding="utf-8", newline="\n")
            written.replace(path)
        except OSError as error:
            fail(NOT_WRITTEN, name=path, why=error.strerror)
    print(f"{len(pages)} pages are written to {folder}")
    return 0
