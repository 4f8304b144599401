"""Broken rule files and home files, made by the hundred: nothing but an ``InputError`` reaches a user, and soon.

The default run is short and always the same; ``-m "slow and not long"`` tries many more.
"""

from __future__ import annotations

import gc
import resource
import shutil
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from dwellcalc.evaluate import traced
from dwellcalc.evaluate.check import check_edition
from dwellcalc.evaluate.plan import Plan
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.glossary import Glossary
from dwellcalc.home import home_from_text
from dwellcalc.language.formulas import parse
from dwellcalc.language.phrases import parse_phrase
from dwellcalc.language.rule_set import load_rules, read_glossary
from dwellcalc.placed import Text
from dwellcalc.problems import InputError, Source
from dwellcalc.reading import read_text
from dwellcalc.units import Units, UnknownUnit

TOP = Path(__file__).parents[1]
SMALL, REAL = TOP / "tests" / "bad" / "base", TOP / "rules"
SECONDS = 30  # of the processor, for one try that takes half a second: only what grows without bounds takes as long
MEGABYTES = 400  # more than a whole run may take

SMALL_HOME = """
home: small
service: {system: 120/240 V, rating: 100 A, conductors: {size: medium, material: copper}}
dwelling_units:
  - name: house
    laundry_circuits: 1
    areas: [{name: hall, kind: living, area: 1500 ft2}]
    loads:
      - {name: range, kind: range, rating: 8000 VA, legs: A B}
      - {name: heater, kind: space heater, rating: 2 kW, legs: A B}
      - {name: heaters, kind: space heater, rating: 10 A at 240 V, quantity: 2}
      - {name: cold, kind: freezer, rating: 600 VA, individual circuit: yes, connection: line to neutral, legs: A}
planned:
  - {name: car, kind: charger, settings: [16 A, 32 A]}
"""
REAL_HOME = """
home: 7 Larch Court, two-storey house
work: existing
date: 2024-05-01
service:
  system: 120/240 V single-phase 3-wire
  rating: 100 A
  bus: 125 A
  conductors: {size: 4 AWG, material: copper, insulation: XHHW-2}
dwelling_units:
  - name: house
    areas:
      - {name: ground floor, kind: living, area: 1240 ft2}
      - {name: garage, kind: attached garage, area: 40 m2}
    small_appliance_circuits: 2
    laundry_circuits: 1
    loads:
      - {name: range, kind: range, rating: 11.5 kW, evidence: nameplate}
      - {name: heat pump, kind: heat pump, rating: RLA 16.7 A + fan 1.2 A at 240 V}
      - {name: strip heat, kind: supplemental heat, rating: 9.6 kW, legs: A B}
      - {name: pump, kind: well pump, rating: 1 1/2 hp at 240 V, individual circuit: no}
      - {name: heaters, kind: baseboard, rating: 1 kW, quantity: 4}
      - {name: fridge, kind: refrigerator, rating: unknown}
none_of: [pool pump, hot tub]
planned:
  - {name: charger, kind: EV charging equipment, settings: [16 A, 24 A, 48 A]}
  - {name: hob, kind: cooktop, rating: 7 kW, replaces: range, in: house}
"""

SPECIALS = [
    *(
        "&a ",
        "*a",
        "!!str ",
        "!x ",
        "? ",
        "| ",
        "|\n",
        "> ",
        "- ",
        "{",
        "}",
        "[",
        "]",
        ": ",
        "#",
        "'",
        '"',
        "\t",
        "---\n",
        "...\n",
    ),
    *(
        "%YAML 1.1\n",
        "@",
        "`",
        "~",
        "null",
        "<<: ",
        "=",
        "{}",
        "[]",
        '""',
        "''",
        "yes",
        "no",
        "none",
        "a, b",
        "x: y",
        "\n",
        "  \n",
    ),
    *(
        "\u2028",
        "\x85",
        "\u00e9",
        "\U0001f600",
        "\0",
        "\x07",
        "\ufeff",
        "9" * 400,
        "1e999",
        "-1",
        "0 VA",
        "1/0",
        "1 0/0",
        ".",
        "..",
    ),
    *(
        "(",
        ")))",
        "(" * 50,
        "{" * 50,
        "[" * 50,
        "- " * 50,
        " + " * 50,
        "not " * 50,
        " of ",
        " where ",
        " except ",
        " to ",
        "0",
        "1",
    ),
]
CHARACTERS = "abzAZ019 _-.,:;()[]{}<>=+*/%'\"#&!?|@~\\"
WRAPPED = ["[{}]", "{{a: {}}}", "[[{}]]", "'{}'", '"{}"', "- {}", "{{{}}}", "[{}, {}]"]


@dataclass(frozen=True)
class Mutation:
    """One change to a text: what, at which line, with which other line, character and piece."""

    what: str
    at: int
    other: int
    place: int
    piece: str

    def on(self, lines: list[str], spare: list[str]) -> None:
        """Change the lines; ``spare`` are lines of all files."""
        at, other = self.at % len(lines), self.other % len(lines)
        line = lines[at]
        place = self.place % (len(line) + 1)
        head, colon, tail = line.partition(": ")
        made = {
            "insert": line[:place] + self.piece + line[place:],
            "character": line[:place] + CHARACTERS[self.other % len(CHARACTERS)] + line[place + 1 :],
            "indent": " " * (1 + self.place % 4) + line,
            "outdent": line[1 + self.place % 2 :],
            "wrap": head + colon + WRAPPED[self.other % len(WRAPPED)].format(tail, tail) if colon else line,
            "value": head + colon + spare[self.other % len(spare)].partition(": ")[2] if colon else line,
            "line": spare[self.other % len(spare)],
            "cut": line[:place],
        }
        if self.what == "delete":
            del lines[at]
        elif self.what == "repeat":
            lines.insert(other, line)
        elif self.what == "swap":
            lines[at], lines[other] = lines[other], lines[at]
        else:
            lines[at] = made[self.what]


KINDS = ("insert", "character", "indent", "outdent", "wrap", "value", "line", "cut", "delete", "repeat", "swap")
POSITIONS = st.integers(min_value=0, max_value=9_999)
MUTATIONS = st.lists(
    st.builds(Mutation, st.sampled_from(KINDS), POSITIONS, POSITIONS, POSITIONS, st.sampled_from(SPECIALS)),
    min_size=1,
    max_size=3,
)


def mutated(text: str, mutations: list[Mutation], spare: list[str]) -> str:
    lines = text.split("\n")
    for mutation in mutations:
        mutation.on(lines, spare)
        lines = lines or [""]
    return "\n".join(lines)


def tries(count: int) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """The same tries each time, with no database, no deadline and no shrinking, which would take longer than the tries."""
    checks = [HealthCheck.too_slow, HealthCheck.function_scoped_fixture, HealthCheck.data_too_large]
    return settings(
        max_examples=count,
        derandomize=True,
        database=None,
        deadline=None,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=checks,
    )


def survives(act: Callable[[], object]) -> bool:
    """Whether it went through; a refusal must be printable, all else must be quick and small."""
    gc.disable()  # its pauses are not those of the try
    began = time.process_time()
    try:
        act()
        return True
    except InputError as error:
        assert error.problems
        assert str(error)
        return False
    finally:
        taken = time.process_time() - began
        gc.enable()
        assert taken < SECONDS


@pytest.fixture(autouse=True)
def _bounded_memory() -> object:
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    yield
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < MEGABYTES * 1024


class Rules:
    """A copy of a folder of rules whose files are broken one at a time."""

    def __init__(self, source: Path, copy: Path, edition: str, home: str) -> None:
        shutil.copytree(source, copy)
        self.folder, self.edition, self.home = copy, edition, home
        self.texts = {
            path: path.read_text(encoding="utf-8") for path in sorted(copy.rglob("*")) if path.suffix in (".yaml", ".txt")
        }
        self.spare = [line for text in self.texts.values() for line in text.split("\n")]

    def broken(self, which: int, mutations: list[Mutation], *, prove: bool) -> None:
        """Break a file, load, prove and evaluate what is left, and mend the file."""
        path = list(self.texts)[which % len(self.texts)]
        try:
            path.write_bytes(mutated(self.texts[path], mutations, self.spare).encode())
            if survives(self.use) and prove:
                survives(lambda: check_edition(self.edition, self.folder))
        finally:
            path.write_text(self.texts[path], encoding="utf-8")
            getattr(traced, "_plans", {}).clear()  # see test_a_rule_set_that_is_not_used_any_more_is_forgotten

    def use(self) -> None:
        rules = load_rules(self.edition, self.folder, [path for path in self.texts if path.name == "county.yaml"])
        home = home_from_text(self.home, "home.yaml", rules.glossary)
        tracer = Tracer(Evaluation(Plan(rules), home.facts))
        for name in rules.methods:
            tracer.method(name)


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Rules:
    return Rules(SMALL, tmp_path_factory.mktemp("small") / "rules", "tiny/second", SMALL_HOME)


@pytest.fixture(scope="module")
def real(tmp_path_factory: pytest.TempPathFactory) -> Rules:
    return Rules(REAL, tmp_path_factory.mktemp("real") / "rules", "nec/2023", REAL_HOME)


@pytest.fixture(scope="module")
def glossary() -> Glossary:
    return read_glossary(REAL)


def test_what_is_not_broken_goes_through(small: Rules, real: Rules) -> None:
    small.use()
    real.use()


@pytest.mark.long
@tries(80)
@given(which=POSITIONS, mutations=MUTATIONS)
def test_small_rules(small: Rules, which: int, mutations: list[Mutation]) -> None:
    small.broken(which, mutations, prove=True)


@pytest.mark.long
@tries(25)
@given(which=POSITIONS, mutations=MUTATIONS)
def test_real_rules(real: Rules, which: int, mutations: list[Mutation]) -> None:
    real.broken(which, mutations, prove=False)


@pytest.mark.long
@tries(30)
@given(mutations=MUTATIONS)
def test_homes(glossary: Glossary, mutations: list[Mutation]) -> None:
    text = mutated(REAL_HOME, mutations, REAL_HOME.split("\n"))
    survives(lambda: home_from_text(text, "home.yaml", glossary))


@pytest.mark.long
@tries(500)
@given(which=POSITIONS, mutations=MUTATIONS)
def test_many_small_rules(small: Rules, which: int, mutations: list[Mutation]) -> None:
    small.broken(which, mutations, prove=True)


@pytest.mark.long
@tries(60)
@given(which=POSITIONS, mutations=MUTATIONS)
def test_many_real_rules(real: Rules, which: int, mutations: list[Mutation]) -> None:
    real.broken(which, mutations, prove=False)


@pytest.mark.long
@tries(2500)
@given(mutations=MUTATIONS)
def test_many_homes(glossary: Glossary, mutations: list[Mutation]) -> None:
    text = mutated(REAL_HOME, mutations, REAL_HOME.split("\n"))
    survives(lambda: home_from_text(text, "home.yaml", glossary))


# Any text at all

PIECES = [
    "a",
    "b.c",
    "sum",
    "table",
    "0",
    "1",
    "2.5",
    "(",
    ")",
    ",",
    "+",
    "-",
    "*",
    "/",
    "<",
    ">=",
    "=",
    "and",
    "or",
    "not",
    "is",
    "in",
    " ",
    ".",
    "é",
]


def placed(text: str) -> Text:
    made = Text(text)
    made.source, made.line, made.column = Source("x.yaml", text), 1, 1
    return made


@pytest.mark.slow
@tries(150)
@given(pieces=st.lists(st.sampled_from(PIECES), max_size=40), numbers=st.booleans())
def test_formulas(pieces: list[str], numbers: bool) -> None:
    survives(lambda: parse(placed(" ".join(pieces)), numbers=numbers))


@pytest.mark.slow
@tries(200)
@given(text=st.text(max_size=200))
def test_any_text_as_yaml_and_as_a_formula(text: str) -> None:
    survives(lambda: read_text(text, "x.yaml"))
    survives(lambda: parse(placed(text)))


@pytest.fixture(scope="module")
def units() -> Units:
    return Units(REAL / "units.txt")


WORDS = [
    "100",
    "%",
    "3000",
    "VA",
    "ft2",
    "of",
    "for",
    "the first",
    "the next",
    "the rest",
    "each further",
    "or part",
    "1/2",
    "1,000",
    "-",
    "0",
    "VA/ft2",
    "",
]


@tries(200)
@given(words=st.lists(st.sampled_from(WORDS), max_size=8), text=st.text(alphabet="0123456789 ,./-%VAkft^*()", max_size=30))
def test_phrases_and_quantities(units: Units, words: list[str], text: str) -> None:
    survives(lambda: parse_phrase(placed(" ".join(words)), units))
    for written in (text, " ".join(words)):
        try:
            amount, _ = units.quantity(written)
        except (ValueError, UnknownUnit):
            continue
        assert amount == amount and abs(amount) < float("inf")


@pytest.mark.parametrize(
    "text",
    [
        "[" * 100_000,
        "{a: " * 10_000,
        "- " * 10_000,
        "\n".join(" " * depth + "a:" for depth in range(500)),
        "\n".join("a: 1" for _ in range(5_000)),
        "\n".join(f"a{at}:" for at in range(5_000)),
        "\n".join(f"a{at}: &b{at} 1" for at in range(5_000)),
        "a: " + "x " * 500_000,
        'a: "' + "\n\n x" * 50_000 + '"',
        "a: '" + "''" * 200_000 + "'",
    ],
    ids=range(10),
)
def test_large_texts(text: str) -> None:
    survives(lambda: read_text(text, "x.yaml"))


@pytest.mark.parametrize(
    "formula",
    [
        "(" * 50_000,
        "not " * 50_000,
        " + ".join("a" * 20_000),
        " and ".join("a" * 20_000),
        "larger(" + ", ".join("a" * 20_000) + ")",
        "a in (" + ", ".join("a" * 20_000) + ")",
        "a " * 20_000 + "+",
        " " * 200_000 + "+",
        "a" * 200_000 + "(",
    ],
    ids=range(9),
)
def test_long_formulas(formula: str) -> None:
    survives(lambda: parse(placed(formula)))
