"""An assessment's JSON held against itself and against the rules: what of it no longer holds.

First every line is worked out again from nothing but what it prints. Then the home file that the document holds is assessed
again by the rules that are there now, and every value is compared.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from math import isclose
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory
from typing import Any

from dwellcalc.compare.beside import with_editions
from dwellcalc.decide.amendments import amended
from dwellcalc.decide.assess import assess
from dwellcalc.decide.basis import ASKED_FOR
from dwellcalc.decide.document import FORMAT
from dwellcalc.home import Asked, whole_home
from dwellcalc.language.rule_set import load_rules
from dwellcalc.problems import InputError, fail, message
from dwellcalc.reading import load_text, read_text
from dwellcalc.review.sheets.disagreements import Disagreement
from dwellcalc.review.sheets.recompute import recompute_document

VERIFY_NOT_OURS = message(
    "verify_not_ours",
    'the file "{name}" is no assessment in JSON: {why}',
    "as `dwellcalc assess HOME --format json` writes it",
)

VERIFY_NO_HOME = message("verify_no_home", "the document does not hold its home file, so that it cannot be calculated again")

FACTS = "facts_digest"
NOT_HELD = ("engine_version", "home_file", "date", "place", "digest")  # what may be another without a figure being another
NAMES = ("id", "name", "method", "address", "load", "item", "result", "title", "what")  # by which entries of lists go

Entry = dict[str, Any]


@dataclass(frozen=True)
class Difference:
    """A value of the document that is another when calculated again: where it stands, what is there, and what is calculated."""

    where: str
    there: str
    calculated: str


@dataclass
class Verified:
    """What came of it.

    Attributes:
        title, edition, date: of the document.
        lines: how many lines were worked out again.
        disagreements: what does not fit together in the document itself.
        rules_changed: whether the texts of the rules are others than those that it was made with.
        differences: what is another when calculated again.
        not_again: why it could not be calculated again, or empty.
    """

    title: str
    edition: str
    date: str
    lines: int
    disagreements: list[Disagreement]
    rules_changed: bool = False
    differences: list[Difference] = field(default_factory=list)
    not_again: str = ""

    @property
    def facts_changed(self) -> bool:
        """Whether the home file in the document gives other facts than those that it was made with."""
        return any(each.where == FACTS for each in self.differences)

    @property
    def holds(self) -> bool:
        """Whether all of it was found to hold."""
        return not self.disagreements and not self.differences and not self.not_again


def verify(path: Path | str, *, tolerance: float, rules: Path | None = None) -> Verified:
    """Hold an assessment's JSON against itself and against the rules.

    Args:
        path: the JSON file; a record of the meter that its home names is looked for beside it.
        tolerance: the largest difference of a number that counts as none, relative or absolute.
        rules: a folder of rules, or the package's own.

    Raises:
        InputError: the file is no assessment.
    """
    document = read_document(path)
    found = Verified(
        str(document["home"]["title"]),
        str(document["rule_set"]["title"]),
        str(document["date"]),
        sum(_number_of_lines(supply) for supply in document["supplies"]),
        _recomputed(document, path, tolerance),
    )
    try:
        again, digest = assessed_again(document, Path(path).parent, rules)
    except InputError as error:
        found.not_again = " ".join(problem.text for problem in error.problems)
        return found
    found.rules_changed = digest != document["rule_set"].get("digest")
    found.differences = list(_differences(document, again, "", tolerance))
    return found


def read_document(path: Path | str) -> Entry:
    """An assessment's JSON.

    Raises:
        InputError: it is none.
    """
    try:
        found: Any = json.loads(load_text(path))
    except (ValueError, RecursionError):
        fail(VERIFY_NOT_OURS, name=path, why="it is not JSON")
    lacking = [name for name in ("home", "rule_set", "supplies", "date") if not isinstance(found, dict) or not found.get(name)]
    if lacking:
        fail(VERIFY_NOT_OURS, name=path, why=f"it lacks {', '.join(lacking)}")
    if found.get("format") != FORMAT:
        fail(VERIFY_NOT_OURS, name=path, why=f"its format is {found.get('format')}, not {FORMAT}")
    if not found["home"].get("title") or not {"id", "title"} <= set(found["rule_set"]):
        fail(VERIFY_NOT_OURS, name=path, why="it does not say which home and which edition it is of")
    return dict(found)


def _recomputed(document: Entry, path: Path | str, tolerance: float) -> list[Disagreement]:
    try:
        return recompute_document(document, tolerance=tolerance)
    except (KeyError, TypeError, AttributeError):
        fail(VERIFY_NOT_OURS, name=path, why="its supplies do not hold what an assessment holds")


def _number_of_lines(supply: Entry) -> int:
    sheets = [*supply.get("methods", ()), *(each.get("sheet", each) for each in supply.get("beside", ()))]
    return sum(len(sheet.get("lines", ())) for sheet in sheets)


# again


def assessed_again(document: Entry, beside: Path, rules: Path | None) -> tuple[Entry, str]:
    """The document that the home file in it gives now, and the digest of the rules.

    Args:
        document: the JSON.
        beside: the folder in which files that the home names are looked for.
        rules: a folder of rules, or the package's own.

    Raises:
        InputError: it holds no home file, or that is refused now.
    """
    text = document.get("home_file")
    if not text:
        fail(VERIFY_NO_HOME)
    entry = document["rule_set"]
    edition = load_rules(str(entry["id"]), rules)
    with TemporaryDirectory() as folder:
        names = [_amendment(each, Path(folder)) for each in entry.get("amendments", ())]
        made = amended(edition, names, None, beside=Path(folder), folder=rules)
        home = whole_home(read_text(str(text), "the home file in the document"), made.glossary, beside)
        home.amendments = names
        asked = _asked(document)
        found = assess(home, made, date=str(document["date"]), method=asked)
        if asked:
            home.method = Asked(asked)
        if any(supply.get("editions") for supply in document["supplies"]):
            with_editions(found, home, made, rules)
    again: Any = json.loads(json.dumps(found.json()))
    return dict(again), made.digest


def _amendment(entry: Entry, folder: Path) -> str:
    """The name of an amendment in its version; one from outside is written into a folder from the text in the document."""
    if "text" not in entry:
        return str(entry["name"])
    name = PurePosixPath(str(entry["name"])).name
    file = folder / (name if name.endswith(".yaml") else f"{name}.yaml")
    file.write_text(str(entry["text"]), encoding="utf-8")
    return f"./{file.name}"


def _asked(document: Entry) -> str:
    """The method that was asked for by name, or empty."""
    bases = [supply.get("basis") or {} for supply in document["supplies"]]
    return next((str(each["method"]) for each in bases if each.get("because") == ASKED_FOR), "")


def _differences(there: Any, now: Any, where: str, tolerance: float) -> Iterator[Difference]:
    """Where two documents differ."""
    if isinstance(there, dict) and isinstance(now, dict):
        for name in dict.fromkeys([*there, *now]):
            if name not in NOT_HELD:
                yield from _differences(there.get(name), now.get(name), f"{where}.{name}" if where else str(name), tolerance)
    elif isinstance(there, list) and isinstance(now, list):
        yield from _in_lists(there, now, where, tolerance)
    elif not _same(there, now, tolerance):
        yield Difference(where, _shown(there), _shown(now))


def _in_lists(there: list[Any], now: list[Any], where: str, tolerance: float) -> Iterator[Difference]:
    for position in range(max(len(there), len(now))):
        one, other = (each[position] if position < len(each) else None for each in (there, now))
        name = _name(one) or _name(other) or str(position + 1)
        yield from _differences(one, other, f"{where}[{name}]", tolerance)


def _name(entry: Any) -> str:
    if not isinstance(entry, dict):
        return ""
    return next((str(entry[name]) for name in NAMES if isinstance(entry.get(name), str)), "")


def _same(one: Any, other: Any, tolerance: float) -> bool:
    numbers = [isinstance(each, (int, float)) and not isinstance(each, bool) for each in (one, other)]
    if all(numbers):
        return isclose(one, other, rel_tol=tolerance, abs_tol=tolerance)
    return type(one) is type(other) and bool(one == other)


def _shown(value: Any) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, (dict, list)):
        return _name(value) or "an entry"
    return str(value)
