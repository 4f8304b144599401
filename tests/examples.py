"""Published examples: a home, claims with the published rounding, the source, and what the example is used for."""

from __future__ import annotations

import os
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from dwellcalc.decide.choices import chosen
from dwellcalc.evaluate.sheet import KNOWN, Outcome
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.home import Home, home_from_node
from dwellcalc.language.rule_set import RuleSet, load_rules
from dwellcalc.placed import Mapping
from dwellcalc.problems import Problems
from dwellcalc.reading import read_file
from dwellcalc.units import UnknownUnit

ROOT = Path(__file__).resolve().parents[1]
PUBLISHED = ROOT / "worked_examples" / "published"
GIVEN_TO_SIZING = {"calculated_amperes": "amperes", "continuous_amperes": "continuous", "rating_from": "rating_from"}


@cache
def rules_of(edition: str) -> RuleSet:
    folder = os.environ.get("DWELLCALC_TEST_RULES")  # set where mutants of the rules are tried
    return load_rules(edition, Path(folder) if folder else None)


@dataclass
class Example:
    """One published example, read."""

    name: str
    node: Mapping
    under: str = ""  # one of the other editions that the source is about, in the place of the first

    def text(self, key: str) -> str:
        return str(self.node.get(key, ""))  # type: ignore[call-overload]

    @property
    def use(self) -> str:
        return self.text("use")

    @property
    def rules(self) -> RuleSet:
        return rules_of(self.under or self.text("edition"))

    @property
    def id(self) -> str:
        return f"{self.name}, {self.under}" if self.under else self.name

    def by_edition(self) -> list[Example]:
        """Itself, and the same under each further edition that its source is about."""
        return [self, *(Example(self.name, self.node, str(each)) for each in self.listed("also"))]

    @property
    def methods(self) -> list[str]:
        """The method of the example, then those of its other claims; sizing is not among them."""
        claimed = [str(claim["line"]).partition(".")[0] for claim in self.listed("claims")]
        return [method for method in dict.fromkeys([self.text("method"), *claimed]) if method != "sizing"]

    def listed(self, key: str) -> list[Any]:
        return list(self.node.get(key, []))  # type: ignore[call-overload]

    def home(self, key: str = "home") -> Home:
        return home_from_node(self.node[key], self.rules.glossary)  # type: ignore[index]


def all_examples() -> list[Example]:
    paths = sorted(path for path in PUBLISHED.glob("*.yaml") if path.stem != "left_out")
    return [Example(path.stem, read_file(path)) for path in paths]


def outcomes_of(example: Example, home: Home) -> dict[tuple[str, str], Outcome]:
    """Every outcome of the methods that the example asks for, and of sizing where there are amperes, by (line id, item)."""
    rules = example.rules
    problems = Problems()
    choices = chosen(rules, home.interpretations, problems)
    problems.raise_if_any()
    found: dict[tuple[str, str], Outcome] = {}
    given = {name: rules.glossary.units.quantity(str(value))[0] for name, value in dict(example.node.get("given", {})).items()}  # type: ignore[call-overload]
    if not given:
        evaluation = Evaluation(plan_of(rules), home.facts, choices)
        for method in example.methods:
            _keep(Tracer(evaluation).method(method), found)
        results = rules.methods[example.methods[0]].results
        if "amperes" in results:
            given = {name: evaluation.line(results[line]) for name, line in GIVEN_TO_SIZING.items()}
    if given:
        given = {name: 0.0 for name in GIVEN_TO_SIZING} | given
        _keep(Tracer(Evaluation(plan_of(rules), home.facts, choices, given)).method("sizing"), found)
    return found


def _keep(sheet: Any, found: dict[tuple[str, str], Outcome]) -> None:
    for line in sheet.lines:
        if line.outcome is not None:
            found[line.id, ""] = line.outcome
        for outcome in line.items:
            found[line.id, str(outcome.item)] = outcome


def agrees(example: Example, claim: dict[str, Any], outcome: Outcome) -> bool:
    """Whether an outcome meets a claim to its published rounding."""
    if outcome.state != KNOWN:
        return False
    if "rounded_to" not in claim or isinstance(outcome.value, str):
        return str(claim["value"]) in (str(outcome.value), outcome.printed) or _number(example, claim["value"]) == outcome.value
    step = _number(example, claim["rounded_to"])
    value = _number(example, claim["value"])
    return abs(outcome.value - value) <= step / 2 + 1e-9


def _number(example: Example, text: Any) -> float:
    try:
        return example.rules.glossary.units.quantity(str(text))[0]
    except (ValueError, UnknownUnit):
        return float("nan")
