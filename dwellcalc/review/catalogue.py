"""The catalogue of mistakes held against the editions: each entry must stand in one of them, and cite what it holds."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from dwellcalc.language.documents import QUOTED
from dwellcalc.language.mistakes import Mistake, code_of, read_mistakes
from dwellcalc.language.overlays import Overlays, address_of, first_that_holds
from dwellcalc.language.rule_files import rule_files
from dwellcalc.language.rule_set import RuleSet, every_edition
from dwellcalc.language.uses import NO_CITATION, QUOTES_NOTHING
from dwellcalc.placed import Listing
from dwellcalc.problems import InputError, Problem, Problems, message
from dwellcalc.progress import Progress, silent

MISTAKE_NOT_HELD = message(
    "mistake_not_held",
    'no edition holds what the mistake "{name}" changes',
    "of the newest edition: {why}",
)


def check_catalogue(folder: Path | None = None, progress: Progress = silent) -> list[Problem]:
    """What is wrong in the catalogue of a folder of rules: a form that is broken, and entries that stand in no edition.

    Args:
        folder: the folder, or the package's own. Editions that do not load are passed over.
        progress: is told which entry is checked.
    """
    loaded = [rules for _, rules in every_edition(folder) if isinstance(rules, RuleSet)]
    problems = Problems()
    for code in dict.fromkeys(code_of(rules.id) for rules in loaded):
        editions = [rules for rules in loaded if code_of(rules.id) == code]
        files = rule_files(folder)
        entries = read_mistakes(files, code, editions[0].sources).values()
        for number, entry in enumerate(entries, start=1):
            progress(f"checking the mistakes of {code}, {number} of {len(entries)}")
            _check(entry, editions, problems)
        problems.found += files.problems.found
    return problems.found


def offered_in(entry: Mistake, editions: list[RuleSet]) -> list[str]:
    """The ids of the editions that hold what an entry changes."""
    return [rules.id for rules in editions if _held(entry, rules)]


def _held(entry: Mistake, rules: RuleSet) -> bool:
    methods = methods_touched(rules, entry.ways)
    return bool(methods) and first_that_holds(Overlays(rules, methods), entry.ways) is not None


def methods_touched(rules: RuleSet, ways: tuple[Listing, ...]) -> list[str]:
    """Methods that together rest on all documents that a mistake changes: of a part that several use, one of these."""
    touched = {address_of(each).partition(".")[0] for way in ways for each in way}
    parts = {name: {str(part.name) for part in method.parts} for name, method in rules.methods.items()}
    found = [name for name in rules.methods if name in touched]
    for document in sorted(touched):
        if not any(document in parts[name] for name in found):
            found += [name for name in rules.methods if document in parts[name]][:1]
    return found


def _check(entry: Mistake, editions: list[RuleSet], problems: Problems) -> None:
    if not any(str(entry.cite) in rules.citations for rules in editions):
        problems.add(NO_CITATION, entry.cite.place, cite=entry.cite)
    for text in (entry.done, entry.right):
        for match in QUOTED.finditer(text):
            if not any(quotes_parameter(match[1], rules.documents) for rules in editions):
                problems.add(QUOTES_NOTHING, text.at(match.start(1), len(match[1])), name=match[1])
    if not any(_held(entry, rules) for rules in editions):
        problems.add(MISTAKE_NOT_HELD, entry.place, name=entry.id, why=_why(entry, editions[-1]))


def quotes_parameter(name: str, documents: Mapping[str, object]) -> bool:
    """Whether a quoted name is a parameter, by document and name."""
    document, _, parameter = name.partition(".")
    return parameter in getattr(documents.get(document), "parameters", {})


def _why(entry: Mistake, rules: RuleSet) -> str:
    """Why the newest edition does not hold the first of the ways."""
    methods = methods_touched(rules, entry.ways)
    if not methods:
        return "no method rests on what is changed"
    try:
        Overlays(rules, methods).with_changes(entry.ways[0])
    except InputError as error:
        return "; ".join(f"{problem.text} ({problem.hint})" if problem.hint else problem.text for problem in error.problems)
    return ""
