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
from dwellcalc.problems import Problems
from dwellcalc.reading import Mapping, read_file

ROOT = Path(__file__).resolve().parents[1]
PUBLISHED = ROOT / "worked_examples" / "published"
RESULTS = ("total", "amperes")
STANDARD, NEUTRAL = "standard", "neutral"


@cache
def rules_of(edition: str) -> RuleSet:
    folder = os.environ.get("DWELLCALC_TEST_RULES")  # set where mutants of the rules are tried
    return load_rules(edition, Path(folder) if folder else None)


@dataclass
class Example:
    """One published example, read."""

    name: str
    node: Mapping

    def text(self, key: str) -> str:
        return str(self.node.get(key, ""))  # type: ignore[call-overload]

    @property
    def use(self) -> str:
        return self.text("use")

    @property
    def rules(self) -> RuleSet:
        return rules_of(self.text("edition"))

    def listed(self, key: str) -> list[dict[str, Any]]:
        return list(self.node.get(key, []))  # type: ignore[call-overload]

    def home(self, key: str = "home") -> Home:
        return home_from_node(self.node[key], self.rules.glossary)  # type: ignore[index]


def all_examples() -> list[Example]:
    paths = sorted(path for path in PUBLISHED.glob("*.yaml") if path.stem != "left_out")
    return [Example(path.stem, read_file(path)) for path in paths]


def outcomes_of(example: Example, home: Home) -> dict[tuple[str, str], Outcome]:
    """Every outcome of the example's method, of sizing and, with the standard method, of the neutral, by (line id, item)."""
    rules = example.rules
    problems = Problems()
    choices = chosen(rules, home.interpretations, problems)
    problems.raise_if_any()
    method = example.text("method")
    found: dict[tuple[str, str], Outcome] = {}
    given = {name: rules.glossary.units.quantity(str(value))[0] for name, value in dict(example.node.get("given", {})).items()}  # type: ignore[call-overload]
    if not given:
        evaluation = Evaluation(plan_of(rules), home.facts, choices)
        for name in (NEUTRAL, method) if method == STANDARD else (method,):
            _keep(Tracer(evaluation).method(name), found)
        amperes = evaluation.line(rules.methods[method].results["amperes"])
        results = rules.methods[method].results
        given = {"calculated_amperes": amperes, "continuous_amperes": evaluation.line(results["continuous"])}
    given.setdefault("continuous_amperes", 0.0)
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
    if "rounded_to" not in claim:
        return str(claim["value"]) == str(outcome.value) or _number(example, claim["value"]) == outcome.value
    step = _number(example, claim["rounded_to"])
    value = _number(example, claim["value"])
    return abs(outcome.value - value) <= step / 2 + 1e-9


def _number(example: Example, text: Any) -> float:
    try:
        return example.rules.glossary.units.quantity(str(text))[0]
    except ValueError:
        return float("nan")
