"""Speed as ratios, each measured in one run. Not a test: nothing is asserted.

Run it with ``python tests/benchmark.py``. Each figure is the least of several repetitions.

- evaluation: the optional and the standard method, each and together, from ready facts to the traced result, over a plain function written by hand that makes
  the same decisions from plain dicts; also with the whole sheet made.
- loading: reading, changing, linking and checking an edition, over composing the same files with libyaml.
- assess: the command from a cold start, over starting Python and importing pydantic, pint, yaml and tabulate.
"""

from __future__ import annotations

import os
import random
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import yaml

sys.path.insert(0, str(Path(__file__).resolve().parent))

from homes import facts_of, random_house
from plain import optional_220_82
from plain_standard import standard_220

from dwellcalc.evaluate.plan import Plan
from dwellcalc.evaluate.sheet import MethodSheet, as_json
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.facts import Facts
from dwellcalc.language.rule_set import load_rules

ROOT = Path(__file__).resolve().parents[1]
EDITION, OPTIONAL, STANDARD = "nec/2023", "optional_dwelling", "standard"
BY_HAND = {OPTIONAL: optional_220_82, STANDARD: lambda home: standard_220(home, "three-phase" in home["system"])}
DEMO = ROOT / "worked_examples" / "demo" / "new_all_electric_house.yaml"
LIBRARIES = "import pydantic, pint, yaml, tabulate"


def least(run: Callable[[], object], repetitions: int = 9) -> float:
    """The shortest of several runs, in seconds."""
    times = []
    for _ in range(repetitions):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return min(times)


def evaluation() -> None:
    """Evaluations over the functions by hand, on 100 random houses."""
    rules = load_rules(EDITION)
    plan = plan_of(rules)
    chance = random.Random(1)
    homes = [random_house(rules.glossary, chance) for _ in range(100)]
    homes = [home for home in homes if all(each["volts"] != 200 for each in home["loads"] if "volts" in each)]
    facts = [facts_of(rules.glossary, home) for home in homes]
    for methods in ((OPTIONAL,), (STANDARD,), (OPTIONAL, STANDARD)):
        timed(methods, homes, facts, plan)


def timed(methods: tuple[str, ...], homes: list[dict[str, Any]], facts: list[Facts], plan: Plan) -> None:
    """Some methods over the functions by hand of the same, then with their sheets, then with these as JSON."""
    results = [plan.rules.methods[name].results["total"] for name in methods]

    def evaluated() -> None:
        for each in facts:
            made = Evaluation(plan, each)
            for result in results:
                made.line(result)

    def sheets(each: Facts) -> list[MethodSheet]:
        tracer = Tracer(Evaluation(plan, each))
        return [tracer.method(name) for name in methods]

    def by_hand() -> None:
        for home in homes:
            for name in methods:
                BY_HAND[name](home)

    hand, ours = least(by_hand), least(evaluated)
    sheet = least(lambda: [sheets(each) for each in facts], 5)
    plain = least(lambda: [as_json(made) for each in facts for made in sheets(each)], 5)
    count = len(homes)
    print(" and ".join(methods))
    print(f"  by hand          {hand / count * 1e6:8.1f} us a home")
    print(f"  evaluation       {ours / count * 1e6:8.1f} us a home, {ours / hand:6.1f} times (wanted: not over 30)")
    print(f"  with the sheets  {sheet / count * 1e6:8.1f} us a home, {sheet / hand:6.1f} times")
    print(f"  with their JSON  {plain / count * 1e6:8.1f} us a home, {plain / hand:6.1f} times")


def loading() -> None:
    """Loading an edition over composing the files that it reads."""
    rules = ROOT / "rules"
    names = ["glossary.yaml", "sources.yaml", "nec/assessment.yaml"]
    names += [f"nec/{name}.yaml" for name in load_rules(EDITION).documents]
    names += [f"nec/editions/{year}.yaml" for year in ("2014", "2017", "2020", "2023")]
    texts = [(rules / name).read_text(encoding="utf-8") for name in names]

    def composed() -> None:
        for text in texts:
            yaml.compose(text, Loader=yaml.CSafeLoader)

    yardstick, ours = least(composed), least(lambda: load_rules(EDITION))
    print(f"composing          {yardstick * 1e3:8.1f} ms, {len(texts)} files")
    print(f"loading            {ours * 1e3:8.1f} ms, {ours / yardstick:6.1f} times (wanted: not over 4)")


def cold() -> None:
    """The command from a cold start over starting Python with the four libraries."""

    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}

    def started(*arguments: str) -> Callable[[], object]:
        command = [sys.executable, *arguments]
        return lambda: subprocess.run(command, cwd=ROOT, check=False, capture_output=True, env=kept)

    yardstick = least(started("-c", LIBRARIES), 7)
    assess = least(started("-m", "dwellcalc", "assess", str(DEMO)), 7)
    helped = least(started("-m", "dwellcalc", "--help"), 7)
    print(f"four libraries     {yardstick * 1e3:8.1f} ms")
    print(f"assess, cold       {assess * 1e3:8.1f} ms, {assess / yardstick:6.2f} times (wanted: not over 1.5)")
    print(f"--help, cold       {helped * 1e3:8.1f} ms")


if __name__ == "__main__":
    evaluation()
    loading()
    cold()
