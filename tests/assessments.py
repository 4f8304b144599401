"""Whole assessments of homes that are written as trees, so that a test can change one word and assess again."""

from __future__ import annotations

import copy
import os
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from examples import ROOT, rules_of

from dwellcalc.decide import recorded
from dwellcalc.decide.amendments import amended
from dwellcalc.decide.assess import assess
from dwellcalc.decide.choices import chosen
from dwellcalc.decide.decision import SettingsResult
from dwellcalc.decide.document import Assessment, SupplyResult
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.typical import with_typical
from dwellcalc.decide.unknowns import at_largest
from dwellcalc.home import Home, home_from_text
from dwellcalc.home.meters import Meter
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.meter.figures import Terms
from dwellcalc.problems import Problems

DEMO = ROOT / "worked_examples" / "demo"
DEMOS = sorted(path.stem for path in DEMO.glob("*.yaml"))
SETTLED = [name for name in DEMOS if name != "house_half_read"]  # the others have inputs that are known only between bounds
DATE = "2026-01-01"
Tree = dict[str, Any]

_read: dict[tuple[str, ...], recorded.Recorded] = {}
_reads = recorded._recorded


def _read_once(home: Home, meter: Meter, terms: Terms, today: str) -> recorded.Recorded:
    """A record is read and measured once for all tests that do not change it."""
    path = home.folder / str(meter.file)
    key = (str(path), str(path.stat().st_mtime_ns) if path.is_file() else "", repr(meter), repr(terms), today)
    if key not in _read:
        _read[key] = _reads(home, meter, terms, today)
    return _read[key]


recorded._recorded = _read_once


def tree_of(text: str) -> Tree:
    """A home file as a tree of texts."""
    return dict(yaml.load(text, Loader=yaml.BaseLoader))


@cache
def _demo(name: str) -> Tree:
    tree = tree_of((DEMO / f"{name}.yaml").read_text(encoding="utf-8"))
    if "meter" in tree:  # wherever the tree is written, its record is found
        tree["meter"]["file"] = str(DEMO / tree["meter"]["file"])
    return tree


def demo(name: str) -> Tree:
    """A demonstration home as a tree that may be changed."""
    return copy.deepcopy(_demo(name))


def edition_of(tree: Tree) -> str:
    return str(tree.get("code", "nec/2023"))


def home_of(tree: Tree) -> Home:
    """The home that a tree is the file of."""
    text = yaml.safe_dump(tree, sort_keys=False, allow_unicode=True)
    return home_from_text(text, "alder.yaml", rules_of(edition_of(tree)).glossary)


def rules_for_tree(tree: Tree) -> RuleSet:
    """The rules that a home is assessed by: its edition as the amendments that it names change it."""
    home = home_of(tree)
    return _amended(edition_of(tree), tuple(home.amendments), tuple((of, str(day)) for of, day in home.dates.items()))


@cache
def _amended(edition: str, names: tuple[str, ...], dates: tuple[tuple[str, str], ...]) -> RuleSet:
    folder = os.environ.get("DWELLCALC_TEST_RULES")
    return amended(rules_of(edition), names, dict(dates), beside=DEMO, folder=Path(folder) if folder else None)


def assessed(tree: Tree, method: str = "") -> Assessment:
    """The assessment of the home that a tree is the file of."""
    return assess(home_of(tree), rules_for_tree(tree), date=DATE, method=method)


@cache
def demo_assessed(name: str) -> Assessment:
    """The assessment of a demonstration home, made once; nobody may change it."""
    return assessed(_demo(name))


def supply(tree: Tree, method: str = "", at: int = 0) -> SupplyResult:
    """The result of one supply of a home, the service where nothing is said."""
    return assessed(tree, method).supplies[at]


def alone(tree: Tree, method: str = "", at: int = 0) -> SupplyResult:
    """The result of one supply of a home that is read anew, without what was not verified, which takes long.

    What is known only between bounds is taken as the sheet takes it.
    """
    rules = rules_for_tree(tree)
    instructions = read_instructions(rules)
    home = home_of(tree)
    home, _ = recorded.with_record(home, rules, instructions, home.date or DATE)
    home = with_typical(home, rules)
    problems = Problems()
    choices = chosen(rules, home.interpretations, problems)
    problems.raise_if_any()
    supply = at_largest(SupplyAssessor(rules, instructions, home.supplies[at], choices, method))
    return SupplyAssessor(rules, instructions, supply, choices, method).assess()


def settings_of(found: Assessment, load: str) -> SettingsResult:
    """What an assessment says of the settings of a load."""
    return next(each for each in found.decision.settings if each.load == load)


def answer(found: SupplyResult) -> tuple[float | None, str]:
    """The load in amperes and the verdict."""
    return (None if found.sizing is None else found.sizing.amperes), found.verdict


def every_load(tree: Tree) -> list[Tree]:
    """The loads of a tree, wherever they are written, those planned last."""
    found = [load for unit in tree["dwelling units"] for load in unit.get("loads") or []]
    return [*found, *(tree.get("loads") or []), *(tree.get("planned") or [])]


def load_named(tree: Tree, name: str) -> Tree:
    """The load with a name."""
    return next(load for load in every_load(tree) if load["name"] == name)


def written(path: Path, tree: Tree) -> str:
    """The path of a file in which a tree is written."""
    path.write_text(yaml.safe_dump(tree, sort_keys=False), encoding="utf-8")
    return str(path)


def house(loads: list[Tree], *, area: str = "1500 ft2", planned: list[Tree] | None = None, **service: Any) -> Tree:
    """A house with one service; what is said of the service replaces what stands here."""
    base = {
        "system": "120/240 V single-phase 3-wire",
        "rating": "200 A",
        "conductors": {"size": "4/0 AWG", "material": "aluminum"},
    }
    unit = {
        "name": "house",
        "areas": [{"name": "rooms", "kind": "living", "area": area}],
        "small appliance circuits": "2",
        "laundry circuits": "1",
        "loads": loads,
    }
    made: Tree = {"home": "8 Alder Row", "work": "existing", "service": {**base, **service}, "dwelling units": [unit]}
    return {**made, "planned": planned} if planned else made


def load(name: str, kind: str, rating: str, **said: Any) -> Tree:
    """A load as it is written."""
    return {"name": name, "kind": kind, "rating": rating, **{key.replace("_", " "): value for key, value in said.items()}}
