"""What the package's modules may hold and import, read from their syntax trees.

Python knows no electrical code: no number of it, and none of its names. Modules import only what stands above them in
the house.
"""

from __future__ import annotations

import ast
import importlib
import re
import warnings
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from dwellcalc.language import words
from dwellcalc.language.rule_set import every_edition, installed_folder
from dwellcalc.problems import InputError

TOP = Path(__file__).parents[1]
PACKAGE = TOP / "dwellcalc"
HOUSE = (
    *("progress", "problems", "placed", "yaml_mistakes", "reading", "units"),
    *("glossary", "glossary_fields", "glossary_reader"),
    *("language", "facts", "home", "evaluate", "meter", "decide"),
    *("compare", "review", "report", "batch", "cli", "__main__"),
)
KNOW_NO_NUMBER = (
    *("glossary", "glossary_fields", "glossary_reader"),
    *("language", "facts", "home", "evaluate", "decide", "compare", "review"),
)
NUMBERS = (0, 1, 2)
LIMITS = {("language.proofs", 131072), ("evaluate.pieces", 512)}  # limits of time, each with its reason where it stands
PERCENT_RULE = 100
LONGEST = 320
ONLY_USERS = {"yaml": ("reading",), "pint": ("units",), "pydantic": ("home", "cli"), "tabulate": ("report",)}
SECTION = re.compile(r"\b\d{3}\.\d+(?:\([A-Za-z0-9]+\))*|\b(?:Table|Article|Section) \d{3}")


@dataclass(frozen=True)
class Module:
    """A module of the package: its dotted name without the package's own, its path and its tree."""

    name: str
    path: Path
    tree: ast.Module

    @property
    def room(self) -> str:
        """Where it stands in the house."""
        return self.name.partition(".")[0]

    def __str__(self) -> str:
        return str(self.path.relative_to(TOP))


@cache
def modules() -> tuple[Module, ...]:
    found = []
    for path in sorted(PACKAGE.rglob("*.py")):
        name = ".".join(path.relative_to(PACKAGE).with_suffix("").parts).removesuffix("__init__").rstrip(".")
        found.append(Module(name, path, ast.parse(path.read_text(encoding="utf-8"))))
    return tuple(found)


def docstrings(tree: ast.AST) -> set[int]:
    """The ids of the nodes of docstrings; a text that stands alone is one too."""
    return {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)}


def literals(module: Module) -> Iterator[ast.Constant]:
    """Every literal of a module but its docstrings."""
    skipped = docstrings(module.tree)
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Constant) and id(node) not in skipped:
            yield node


def listed(found: Iterable[str]) -> str:
    return "\n  ".join(["", *found])


# Literals


@cache
def names_of_the_rules() -> frozenset[str]:
    """Every kind of load, method, part, line and citation key of every edition."""
    names: set[str] = set()
    for _, rules in every_edition(installed_folder()):
        if isinstance(rules, InputError):
            raise rules
        names |= {*rules.glossary.load_kinds, *rules.methods, *rules.documents, *rules.citations}
        for document in rules.documents.values():
            names |= set(document.lines)
    return frozenset(names)


def texts_in(value: object) -> set[str]:
    """Every text in a constant of the module of words."""
    if isinstance(value, str):
        return {value}
    if isinstance(value, dict):
        return {text for pair in value.items() for each in pair for text in texts_in(each)}
    if isinstance(value, (tuple, list, set, frozenset)):
        return {text for each in value for text in texts_in(each)}
    return set()


@cache
def words_of_the_grammar() -> frozenset[str]:
    constants = (value for name, value in vars(words).items() if name.isupper())
    return frozenset(text for value in constants for text in texts_in(value))


@cache
def quantity() -> re.Pattern[str]:
    """A number with a unit of units.txt."""
    text = (installed_folder() / "units.txt").read_text(encoding="utf-8")
    lines = [line.partition("#")[0] for line in text.partition("@context")[0].splitlines()]
    parts = [part.strip() for line in lines if "=" in line for part in line.split("=")]
    units = {part for part in parts if re.fullmatch(r"[A-Za-z]\w*", part)}
    assert {"VA", "A", "V", "kW", "ft2"} <= units
    shown = "|".join(sorted(units, key=len, reverse=True))
    return re.compile(rf"(?<![\w.])\d[\d.,/]*\s?(?:%|(?:{shown})\b)")


@pytest.mark.slow
def test_no_number_of_the_code_stands_in_python() -> None:
    found = [
        f"{module}:{node.lineno}: {node.value}"
        for module in modules()
        if module.room in KNOW_NO_NUMBER
        for node in literals(module)
        if isinstance(node.value, (int, float, complex)) and node.value not in NUMBERS and (module.name, node.value) not in LIMITS
    ]
    assert not found, f"numbers other than {NUMBERS}:{listed(found)}"


def test_no_number_is_put_together_from_others() -> None:
    """``1 + 2`` would hide a 3 from the test above."""
    found = [
        f"{module}:{node.lineno}"
        for module in modules()
        for node in ast.walk(module.tree)
        if isinstance(node, ast.BinOp) and all(isinstance(side, ast.Constant) for side in (node.left, node.right))
    ]
    assert not found, f"numbers put together:{listed(found)}"


def test_the_percent_rule_stands_once() -> None:
    found = [str(module) for module in modules() for node in literals(module) if node.value == PERCENT_RULE]
    assert found == ["dwellcalc/units.py"]


@pytest.mark.slow
def test_no_name_of_the_rules_stands_in_python() -> None:
    known = names_of_the_rules() - words_of_the_grammar()
    found = [
        f'{module}:{node.lineno}: "{node.value}"'
        for module in modules()
        if module.name != words.__name__.removeprefix("dwellcalc.")
        for node in literals(module)
        if isinstance(node.value, str) and node.value in known
    ]
    assert not found, f"names of the rules that are no words of language/words.py:{listed(found)}"


@pytest.mark.parametrize("what", ["quantity", "section"])
def test_no_quantity_and_no_section_stands_in_python(what: str) -> None:
    pattern = quantity() if what == "quantity" else SECTION
    found = [
        f'{module}:{node.lineno}: "{match[0]}" in "{node.value}"'
        for module in modules()
        for node in literals(module)
        if isinstance(node.value, str) and (match := pattern.search(node.value))
    ]
    assert not found, f"texts that hold a {what}:{listed(found)}"


@pytest.mark.parametrize("text", ["7200 VA", "not less than 1,500 VA.", "125%", "35 % of the rest", "90 m2", "1.5 hp"])
def test_what_reads_as_a_quantity(text: str) -> None:
    assert quantity().search(text)


@pytest.mark.parametrize("text", ["VA", "2 values", "m2", "utf-8", "1 to 4", "A4", "sha256"])
def test_what_does_not_read_as_a_quantity(text: str) -> None:
    assert not quantity().search(text)


@pytest.mark.parametrize("text", ["220.82(B)(3)(a)", "as 310.12 says", "Table 220.55", "Article 220"])
def test_what_reads_as_a_section(text: str) -> None:
    assert SECTION.search(text)


# Imports


def imported(module: Module) -> Iterator[tuple[str, int]]:
    """The dotted names that a module imports, those inside functions too."""
    base = f"dwellcalc.{module.name}" if module.name else "dwellcalc"
    holder = base if module.path.name == "__init__.py" else base.rpartition(".")[0]
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = holder.split(".")[: len(holder.split(".")) - node.level + 1] if node.level else []
            source = ".".join([*above, *([node.module] if node.module else [])])
            for alias in node.names:
                inner = f"{source}.{alias.name}"
                yield (inner if is_module(inner) else source), node.lineno


def is_module(name: str) -> bool:
    """Whether a dotted name is a module or a folder of modules of the package."""
    path = TOP.joinpath(*name.split("."))
    return name.startswith("dwellcalc.") and (path.with_suffix(".py").is_file() or (path / "__init__.py").is_file())


def of_package(name: str) -> str:
    """The module's name without that of the package, or an empty text for what is not of it."""
    return name.removeprefix("dwellcalc.") if name.startswith("dwellcalc.") else ""


def drawn() -> str:
    """Which room imports which, one line for each."""
    edges: dict[str, set[str]] = {}
    for module in modules():
        for name, _ in imported(module):
            room = of_package(name).partition(".")[0]
            if room and room != module.room:
                edges.setdefault(module.room or "__init__", set()).add(room)
    order = {room: place for place, room in enumerate(HOUSE)}
    rooms = sorted(edges, key=lambda room: order.get(room, -1))
    return listed(f"{room} <- {', '.join(sorted(edges[room], key=lambda each: order.get(each, -1)))}" for room in rooms)


def test_every_module_has_its_place_in_the_house() -> None:
    strange = sorted({module.room for module in modules() if module.name} - set(HOUSE))
    assert not strange, f"not in the house: {', '.join(strange)}"


def test_each_module_imports_only_from_those_above_it() -> None:
    order = {room: place for place, room in enumerate(HOUSE)}
    found = []
    for module in modules():
        for name, line in imported(module):
            room = of_package(name).partition(".")[0]
            if module.name and room and room != module.room and order[room] > order[module.room]:
                found.append(f"{module}:{line}: imports {name}")
            if name == "dwellcalc" and module.room not in ("cli", "__main__"):
                found.append(f"{module}:{line}: imports the package's own interface")
    assert not found, f"imports from below:{listed(found)}\nwhat imports what:{drawn()}"


def test_no_module_imports_in_a_circle_within_its_room() -> None:
    """At run time; a name needed for its type alone may be imported either way."""
    direct = {}
    for module in modules():
        types = for_types_alone(module)
        if module.name:
            direct[module.name] = {of_package(name) for name, line in imported(module) if line not in types}
    reached = {name: reachable(name, direct) for name in direct}
    found = sorted(name for name, others in reached.items() if name in others)
    assert not found, f"modules that import each other: {', '.join(found)}"


def for_types_alone(module: Module) -> set[int]:
    """The lines of imports under TYPE_CHECKING."""
    blocks = [
        node
        for node in ast.walk(module.tree)
        if isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"
    ]
    return {inner.lineno for block in blocks for inner in ast.walk(block) if isinstance(inner, (ast.Import, ast.ImportFrom))}


def reachable(name: str, direct: dict[str, set[str]]) -> set[str]:
    """Every module that one imports, directly or not."""
    seen: set[str] = set()
    waiting = list(direct[name])
    while waiting:
        each = waiting.pop()
        if each in direct and each not in seen:
            seen.add(each)
            waiting += direct[each]
    return seen


def test_the_second_evaluation_shares_nothing_with_the_first() -> None:
    direct = {module.name: {of_package(name) for name, _ in imported(module)} for module in modules() if module.name}
    shared = {each for each in reachable("review.sheets.recompute", direct) if each.startswith(("language.kinds", "evaluate"))}
    assert not shared, f"review.sheets.recompute rests on {', '.join(sorted(shared))}"


@pytest.mark.parametrize("library", ONLY_USERS)
def test_each_library_has_one_user(library: str) -> None:
    found = [
        f"{module}:{line}"
        for module in modules()
        for name, line in imported(module)
        if name.partition(".")[0] == library and module.room not in ONLY_USERS[library]
    ]
    assert not found, f"{library} is for {' and '.join(ONLY_USERS[library])} alone:{listed(found)}"


# Length and docstrings


# Modules that wait to be mended; the tests say when one may be taken off the list.
TOO_LONG_STILL: set[str] = set()
WITHOUT_DOCSTRINGS_STILL: set[str] = set()


def agree(found: dict[str, str], waiting: set[str], what: str) -> None:
    """Nothing is wrong but what waits to be mended, which is told as a warning; what was mended waits no longer."""
    new = [f"{name}: {found[name]}" for name in sorted(found.keys() - waiting)]
    mended = sorted(waiting - found.keys())
    assert not new, f"{what}:{listed(new)}"
    assert not mended, f"mended, so take them off the list in this test: {', '.join(mended)}"
    if found:
        told = listed(f"{name}: {why}" for name, why in sorted(found.items()))
        warnings.warn(f"still to be mended, {what}:{told}", stacklevel=2)


def test_no_module_is_too_long() -> None:
    lengths = {str(module): len(module.path.read_text(encoding="utf-8").splitlines()) for module in modules()}
    found = {name: str(length) for name, length in lengths.items() if length > LONGEST}
    agree(found, TOO_LONG_STILL, f"over {LONGEST} lines")


def public(tree: ast.Module | ast.ClassDef) -> Iterator[ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef]:
    """The public functions, classes and methods."""
    for node in tree.body:
        if isinstance(node, (ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)) and not node.name.startswith("_"):
            yield node
            if isinstance(node, ast.ClassDef):
                yield from public(node)


def test_what_is_public_has_a_docstring() -> None:
    lacking = {str(module): [node.name for node in public(module.tree) if not ast.get_docstring(node)] for module in modules()}
    found = {name: ", ".join(names) for name, names in lacking.items() if names}
    agree(found, WITHOUT_DOCSTRINGS_STILL, "public without a docstring")


def test_every_module_can_be_imported_alone() -> None:
    for module in modules():
        if module.name and not module.name.endswith("__main__"):
            assert importlib.import_module(f"dwellcalc.{module.name}").__doc__ or module.path.name == "__init__.py"
