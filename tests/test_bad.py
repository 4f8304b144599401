"""One broken case for every message that the package can give, with the full text that a user reads.

A case bears the key of its message. In ``bad/rules`` it is what differs from the small rule set in ``bad/base``:

- ``edition``: which one is loaded, ``tiny/first`` where nothing is said; ``amendments``: files that amend it;
- ``replace``: entries with ``file``, ``old`` (found there exactly once) and ``new``;
- ``write``: whole files; ``remove``: files that are taken away;
- ``home``: a home that is assessed by these rules, with ``method``, ``explain`` or ``compare`` as on the command line;
  ``unproved``: without the proofs that rules from outside the package go through; ``unamended``: without the amendments that
  the home names; ``meter``: a file that is judged; ``reading``: where pages to read are written;
- ``also``: keys of other messages that the same break gives, if any.

In ``bad/texts`` and ``bad/homes`` it is the file itself. Beside each stands ``KEY.expected``; run pytest with
``--rewrite-expected`` to write these anew, and read the difference.
"""

from __future__ import annotations

import importlib
import pkgutil
import shutil
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml

import dwellcalc
from dwellcalc.cli.actions import Wanted, explain_line
from dwellcalc.cli.compare_actions import compare_home
from dwellcalc.cli.meter_actions import judge_meter
from dwellcalc.cli.reading_actions import write_reading
from dwellcalc.decide.amendments import amended_for
from dwellcalc.decide.assess import assess
from dwellcalc.decide.edition import rules_for
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.evaluate.check import check_edition
from dwellcalc.glossary import Glossary
from dwellcalc.home import read_home
from dwellcalc.home.starting.question_reader import check_starter
from dwellcalc.language.rule_set import load_rules, read_glossary
from dwellcalc.problems import InputError, registered
from dwellcalc.reading import LARGEST_MEGABYTES, MEGABYTE, read_file
from dwellcalc.review.catalogue import check_catalogue

BAD = Path(__file__).parent / "bad"
FOLDERS = ("rules", "texts", "homes")
ELSEWHERE = (
    "meter_files",
    "meter_tables",
    "submittals",
    "starts",
    "commands",
)  # tried by test_bad_meter_files.py, ..._meter_tables.py, ..._submittals.py, test_start.py, test_cli.py
CASE_KEYS = {
    *("edition", "amendments", "replace", "write", "remove", "home", "method", "explain", "compare", "unproved"),
    *("unamended", "also", "meter", "reading"),
}
RULES = Path("rules")


def every_message() -> set[str]:
    """The keys of the messages of every module of the package."""
    for module in pkgutil.walk_packages(dwellcalc.__path__, "dwellcalc."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)
    return set(registered())


def cases(folder: str) -> list[str]:
    """The keys of the cases of a folder."""
    return sorted({path.stem for path in (BAD / folder).iterdir()})


def refused(act: Callable[[], object]) -> InputError:
    with pytest.raises(InputError) as caught:
        act()
    return caught.value


def agree(folder: str, name: str, error: InputError, rewrite: bool, also: tuple[str, ...] = ()) -> None:
    """The message is given, no other is, and the text is the expected one."""
    assert {problem.message.key for problem in error.problems} == {name, *also}
    path = BAD / folder / f"{name}.expected"
    if rewrite:
        path.write_text(f"{error}\n", encoding="utf-8")
    assert f"{error}\n" == path.read_text(encoding="utf-8")


def overlaid(case: dict[str, Any], rules: Path) -> None:
    """The base with what the case changes."""
    shutil.copytree(BAD / "base", rules)
    for change in case.get("replace", ()):
        path = rules / change["file"]
        text = path.read_text(encoding="utf-8")
        assert text.count(change["old"]) == 1, f'{change["file"]} must hold "{change["old"]}" once'
        path.write_text(text.replace(change["old"], change["new"]), encoding="utf-8")
    for name, text in case.get("write", {}).items():
        (rules / name).parent.mkdir(parents=True, exist_ok=True)
        (rules / name).write_text(text, encoding="utf-8")
    for name in case.get("remove", ()):
        (rules / name).unlink()


def used(case: dict[str, Any]) -> None:
    """Load, prove and use the rules of a case as the command does."""
    if "home" in case:
        assessed(case)
        return
    if "meter" in case:
        judge_meter(case["meter"], "", "tiny/second", rules=RULES, form="text")
        return
    if "reading" in case:
        write_reading(case["reading"], rules=RULES)
        return
    edition = case.get("edition", "tiny/first")
    rules = load_rules(edition, RULES, [RULES / each for each in case.get("amendments", ())])
    found = check_edition(edition, RULES) + (check_catalogue(RULES) if (RULES / "mistakes").is_dir() else [])
    found += check_starter(RULES, rules.glossary)
    if found:
        raise InputError(found)
    read_instructions(rules)


def assessed(case: dict[str, Any]) -> None:
    """Assess the home of a case."""
    Path("home.yaml").write_text(case["home"], encoding="utf-8")
    home = read_home("home.yaml", read_glossary(RULES))
    if "explain" in case:
        explain_line("home.yaml", case["explain"], Wanted(rules=RULES), form="text")
        return
    if "compare" in case:
        options = {"what": "", "edition": "", "editions": [], **case["compare"]}
        compare_home("home.yaml", options.pop("other", ""), rules=RULES, form="text", **options)
        return
    rules = load_rules(case["edition"], RULES) if case.get("unproved") else rules_for(home.code, "", RULES)
    if not case.get("unamended"):
        rules = amended_for(home, rules, folder=RULES)
    assess(home, rules, date="2024-05-01", method=case.get("method", ""))


@pytest.mark.parametrize("edition", ["tiny/first", "tiny/second"])
def test_the_base_itself_is_sound(edition: str) -> None:
    assert check_edition(edition, BAD / "base") == []
    read_instructions(load_rules(edition, BAD / "base"))


def test_the_base_is_sound_as_amended() -> None:
    load_rules("tiny/second", BAD / "base", [BAD / "base" / "county.yaml"])


@pytest.mark.parametrize("name", cases("rules"))
def test_broken_rules(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, rewrite_expected: bool) -> None:
    case = yaml.safe_load((BAD / "rules" / f"{name}.yaml").read_text(encoding="utf-8")) or {}
    assert set(case) <= CASE_KEYS
    overlaid(case, tmp_path / RULES)
    monkeypatch.chdir(tmp_path)
    error = refused(lambda: used(case))
    agree("rules", name, error, rewrite_expected, tuple(case.get("also", ())))


def too_large(path: Path) -> None:
    with path.open("wb") as stream:
        stream.truncate(LARGEST_MEGABYTES * MEGABYTE + 1)


MADE: dict[str, Callable[[Path], None]] = {  # files that cannot well stand in the repository
    "file_not_readable": lambda path: None,
    "file_too_large": too_large,
    "file_not_text": lambda path: path.write_bytes("title: été\n".encode("latin-1")) and None,
}


@pytest.mark.parametrize("name", cases("texts"))
def test_broken_texts(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, rewrite_expected: bool) -> None:
    path = tmp_path / f"{name}.yaml"
    if name in MADE:
        MADE[name](path)
    else:
        shutil.copy(BAD / "texts" / path.name, path)
    monkeypatch.chdir(tmp_path)
    agree("texts", name, refused(lambda: read_file(path.name)), rewrite_expected)


@pytest.fixture(scope="module")
def glossary() -> Glossary:
    return read_glossary(BAD / "base")


@pytest.mark.parametrize("name", cases("homes"))
def test_broken_homes(name: str, glossary: Glossary, monkeypatch: pytest.MonkeyPatch, rewrite_expected: bool) -> None:
    monkeypatch.chdir(BAD / "homes")
    agree("homes", name, refused(lambda: read_home(f"{name}.yaml", glossary)), rewrite_expected)


def test_every_message_has_one_case() -> None:
    messages = every_message()
    found = Counter(name for folder in (*FOLDERS, *ELSEWHERE) for name in cases(folder))
    lacking = sorted(messages - set(found))
    left_over = sorted(set(found) - messages)
    twice = sorted(name for name, times in found.items() if times > 1)
    assert not lacking, f"messages without a broken case in tests/bad: {', '.join(lacking)}"
    assert not left_over, f"broken cases for messages that are not there: {', '.join(left_over)}"
    assert not twice, f"messages with two broken cases: {', '.join(twice)}"


def test_every_case_is_whole() -> None:
    for folder in FOLDERS:
        suffixes = {path.suffix for path in (BAD / folder).iterdir()}
        assert suffixes <= {".yaml", ".expected"}
        for name in cases(folder):
            assert (BAD / folder / f"{name}.expected").is_file(), f"{folder}/{name} has no expected text"
            assert name in MADE or (BAD / folder / f"{name}.yaml").is_file(), f"{folder}/{name} has no case"
