"""The mutation run: every mutant of the rules against the checks at load, the proofs, the second entry and the examples.

Run ``python tests/mutation/run.py``; it writes ``result.yaml`` beside it. ``--sample N --seed S`` tries N mutants chosen
with a fixed seed and writes nothing; ``--others N`` tries N other names in the place of each, not one. Why a mutant survives
is kept by hand in ``reasons.yaml``.

Rules, tests and worked examples are copied first, so that a run sees one state of them whatever is edited meanwhile. Each
mutant is tried in a process forked from this one, which has everything imported, on a copy of the rules of its own.
The stages are, cheapest first: ``load`` (loading every edition), ``tables`` (the second entry), ``examples`` (thresholds,
worked and published examples) and ``proofs`` (proofs and coverage, of the methods that hold the mutant's document first).
The first that refuses it has killed it; ``--stages load proofs`` shows what the checks see without any example.
"""

from __future__ import annotations

import argparse
import contextlib
import datetime
import fnmatch
import gc
import json
import math
import os
import random
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
TESTS = HERE.parent
ROOT = TESTS.parent
sys.path[:0] = [str(HERE), str(TESTS), str(ROOT)]
os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"  # the killers need none

import pytest
import yaml
from mutants import Mutant, mutants_of

from dwellcalc.evaluate.check import prove_coverage
from dwellcalc.language.proofs import prove
from dwellcalc.language.rule_set import RuleSet, editions_in, installed_folder, load_rules
from dwellcalc.language.tree import CheckedMethod
from dwellcalc.problems import InputError, Problem, Problems

RULES = "DWELLCALC_TEST_RULES"
RESULT, REASONS = HERE / "result.yaml", HERE / "reasons.yaml"
STAGES = ("load", "tables", "examples", "proofs")
TESTS_OF = {
    "tables": ("test_tables.py", "test_editions_tables.py"),
    "examples": (
        "test_rule_examples.py",
        "test_published.py",
        "test_optional_dwelling.py",
        "test_standard.py",
        "test_methods.py",
        "test_meter_gates.py",
        "test_circuits.py",
        "test_chain.py",
        "test_editions.py",
    ),
}
LONG = "recomputation_agrees_on_random_homes"  # 500 homes, each computed twice: too long to run for every mutant
LONGEST = 300  # seconds for one mutant
PASSED, FAILED, INTERRUPTED = 0, 1, 2


@dataclass
class Verdict:
    """What became of a mutant: the stage that killed it, or none, and what it said."""

    mutant: Mutant
    stage: str = ""
    said: str = ""
    crashed: bool = False


# one mutant, in a process of its own


class _FirstFailure:
    """Notes the first test that fails, or the file that cannot be collected."""

    def __init__(self) -> None:
        self.name = ""

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed and not self.name:
            self.name = report.nodeid

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed and not self.name:
            self.name = report.nodeid


def loads(folder: Path, editions: list[str]) -> str:
    """What loading the editions refuses."""
    for edition in editions:
        try:
            load_rules(edition, folder)
        except InputError as error:
            return _keys(error.problems)
    return ""


def proves(folder: Path, editions: list[str], mutant: Mutant | None) -> str:
    """What proofs and coverage refuse: in every edition for the methods that hold the document, in the newest for the rest."""
    rest: list[tuple[RuleSet, CheckedMethod]] = []
    for edition in editions:
        rules = load_rules(edition, folder)
        for method in rules.methods.values():
            held = mutant is None or mutant.document in {str(part.name) for part in method.parts}
            if held:
                found = proved(rules, method)
                if found:
                    return found
            elif edition == editions[0]:
                rest.append((rules, method))
    return next((found for rules, method in rest if (found := proved(rules, method))), "")


def proved(rules: RuleSet, method: CheckedMethod) -> str:
    """What the proofs and the coverage of one method refuse."""
    problems = Problems()
    prove(replace(rules, methods={method.name: method}), problems)
    prove_coverage(rules, method, problems)
    return _keys(problems.found)


def _keys(problems: list[Problem]) -> str:
    return ", ".join(dict.fromkeys(problem.message.key for problem in problems))


def tested(names: tuple[str, ...], root: Path) -> str:
    """The first test that fails."""
    first = _FirstFailure()
    paths = [str(root / "tests" / name) for name in names if (root / "tests" / name).exists()]
    arguments = [
        "-x",
        "-q",
        "-p",
        "no:cacheprovider",
        "--rootdir",
        str(root),
        "-k",
        f"not {LONG}",
        "-m",
        "not slow and not long",
        *paths,
    ]
    code = int(pytest.main(arguments, plugins=[first]))
    if code in (FAILED, INTERRUPTED):
        return first.name or "collection"
    if code != PASSED:
        raise RuntimeError(f"pytest ended with {code}")
    return ""


def stage_of(test: str) -> str:
    """The stage that a test belongs to."""
    return next((stage for stage, names in TESTS_OF.items() if any(name in test for name in names)), STAGES[2])


def refusals(mutant: Mutant | None, folder: Path, root: Path, wanted: list[str]) -> Iterator[tuple[str, str]]:
    """What the wanted stages say of a mutant, each when it is asked for."""
    editions = editions_in(folder)[::-1]
    if "load" in wanted:
        yield "load", loads(folder, editions)
    names = tuple(name for stage, files in TESTS_OF.items() if stage in wanted for name in files)
    if names:
        failed = tested(names, root)  # in one go: starting pytest takes longer than most of the tests
        yield stage_of(failed), failed
    if "proofs" in wanted:
        yield "proofs", proves(folder, editions, mutant)


def judged(mutant: Mutant | None, root: Path, work: Path, wanted: list[str]) -> dict[str, Any]:
    """Try a mutant, or the rules as they are, on a copy of the rules."""
    folder = work / "rules"
    shutil.copytree(root / "rules", folder)
    if mutant is not None:
        path = folder / mutant.file
        path.write_text(mutant.applied(path.read_text(encoding="utf-8")), encoding="utf-8")
    os.environ[RULES] = str(folder)
    try:
        stage, said = next((found for found in refusals(mutant, folder, root, wanted) if found[1]), ("", ""))
    except Exception:  # a mutant that breaks the program is killed too, in its way; it is told apart in the output
        return {"stage": "load", "said": traceback.format_exc(limit=-3), "crashed": True}
    return {"stage": stage, "said": said, "crashed": False}


def forked(mutant: Mutant | None, root: Path, work: Path, wanted: list[str]) -> int:
    """Start a process that tries a mutant and leaves its verdict in its folder; its number."""
    child = os.fork()
    if child:
        return child
    code = 1
    try:
        gc.disable()
        signal.alarm(LONGEST)
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        verdict = judged(mutant, root, work, wanted)
        (work / "verdict.json").write_text(json.dumps(verdict), encoding="utf-8")
        code = 0
    finally:
        os._exit(code)


def verdict_in(work: Path) -> dict[str, Any]:
    path = work / "verdict.json"
    if path.exists():
        return dict(json.loads(path.read_text(encoding="utf-8")))
    return {"stage": "examples", "said": "ended by the time limit or a signal", "crashed": True}


# all of them


def tried(
    mutants: list[Mutant], root: Path, workers: int, wanted: list[str], told: Callable[[int, Verdict], None]
) -> list[Verdict]:
    """The verdicts, in the order of the mutants."""
    found: dict[int, Verdict] = {}
    running: dict[int, tuple[int, Path]] = {}
    waiting = list(enumerate(mutants))[::-1]
    gc.collect()
    gc.freeze()
    with tempfile.TemporaryDirectory(prefix="mutants") as base:
        while waiting or running:
            while waiting and len(running) < workers:
                at, mutant = waiting.pop()
                work = Path(base) / str(at)
                work.mkdir()
                running[forked(mutant, root, work, wanted)] = at, work
            child, _ = os.wait()
            if child not in running:
                continue
            at, work = running.pop(child)
            found[at] = Verdict(mutants[at], **verdict_in(work))
            shutil.rmtree(work)
            told(len(found), found[at])
    return [found[at] for at in range(len(mutants))]


def copied(root: Path) -> None:
    """A copy of the rules, the tests and the worked examples."""
    shutil.copytree(installed_folder(), root / "rules")
    shutil.copytree(ROOT / "worked_examples", root / "worked_examples")
    (root / "tests").mkdir()
    for path in TESTS.glob("*.py"):
        shutil.copy(path, root / "tests")
    shutil.copy(ROOT / "pyproject.toml", root)


def sound(root: Path) -> str:
    """What refuses the rules as they are; nothing may."""
    with tempfile.TemporaryDirectory(prefix="mutants") as base:
        os.waitpid(forked(None, root, Path(base), list(STAGES)), 0)
        found = verdict_in(Path(base))
    return f"{found['stage']}: {found['said']}" if found["stage"] else ""


# why mutants survive


@dataclass
class Reason:
    """Why some mutants survive: ``equivalent`` (nothing differs) or ``unseen`` (no example shows it)."""

    kind: str
    because: str
    ids: list[str]
    mutants: list[Mutant] = field(default_factory=list)

    def holds(self, mutant: Mutant) -> bool:
        return any(mutant.id.startswith(each) for each in self.ids)


def reasons() -> list[Reason]:
    """The reasons kept by hand, in order; an id or the beginning of ids."""
    if not REASONS.exists():
        return []
    entries = yaml.safe_load(REASONS.read_text(encoding="utf-8")) or []
    return [Reason(each["kind"], " ".join(each["because"].split()), [str(one) for one in each["ids"]]) for each in entries]


def grouped(verdicts: list[Verdict]) -> list[Reason]:
    """The survivors under their reasons; those without one last."""
    kept = reasons()
    without = Reason("unseen", "no reason given yet", [])
    for verdict in verdicts:
        if not verdict.stage:
            next((each for each in kept if each.holds(verdict.mutant)), without).mutants.append(verdict.mutant)
    return [each for each in (*kept, without) if each.mutants]


def stale(verdicts: list[Verdict]) -> list[str]:
    """Ids in the reasons that no survivor bears."""
    survivors = [verdict.mutant.id for verdict in verdicts if not verdict.stage]
    return [one for each in reasons() for one in each.ids if not any(survivor.startswith(one) for survivor in survivors)]


def percent(part: int, whole: int) -> float:
    """To one decimal, never rounded up: what is not all does not read as all."""
    return math.floor(1000 * part / whole) / 10 if whole else 100.0


def summary(verdicts: list[Verdict]) -> dict[str, Any]:
    """What the result file holds."""
    killed = Counter(verdict.stage for verdict in verdicts if verdict.stage)
    groups = grouped(verdicts)
    alike = sum(len(each.mutants) for each in groups if each.kind == "equivalent")
    survived = sum(len(each.mutants) for each in groups)
    operators: dict[str, Counter[str]] = {}
    for verdict in verdicts:
        operators.setdefault(verdict.mutant.operator, Counter())[verdict.stage or "survived"] += 1
    return {
        "date": datetime.date.today().isoformat(),
        "mutants": len(verdicts),
        "killed": {stage: killed[stage] for stage in STAGES},
        "survived": survived,
        "percent_killed": percent(len(verdicts) - survived, len(verdicts)),
        "percent_killed_of_those_not_equivalent": percent(len(verdicts) - survived, len(verdicts) - alike),
        "operators": {
            name: {stage: counts[stage] for stage in (*STAGES, "survived") if counts[stage]}
            for name, counts in sorted(operators.items())
        },
        "survivors": [
            {"kind": each.kind, "because": each.because, "mutants": [mutant.id for mutant in each.mutants]} for each in groups
        ],
    }


def chosen(mutants: list[Mutant], arguments: argparse.Namespace) -> list[Mutant]:
    """All mutants, those that match a pattern, or a sample of them with a fixed seed."""
    if arguments.only:
        mutants = [each for each in mutants if fnmatch.fnmatchcase(each.id, arguments.only)]
    if arguments.sample and arguments.sample < len(mutants):
        places = sorted(random.Random(arguments.seed).sample(range(len(mutants)), arguments.sample))
        mutants = [mutants[place] for place in places]
    return mutants


def parsed() -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        description="Try mutants of the rules against the checks, the second entry and the examples."
    )
    parser.add_argument("--sample", type=int, default=0, help="how many mutants to try; all where nothing is said")
    parser.add_argument("--seed", type=int, default=0, help="seed of the sample")
    parser.add_argument("--others", type=int, default=1, help="how many other names are tried in the place of each")
    parser.add_argument("--only", default="", help="a pattern of ids, such as 'nec/sizing.yaml:*'")
    parser.add_argument("--stages", nargs="+", choices=STAGES, default=list(STAGES), help="the stages to run; all by default")
    parser.add_argument("--workers", type=int, default=2, help="how many mutants are tried at a time")
    parser.add_argument("--list", action="store_true", help="only list the ids")
    parser.add_argument("--verdicts", type=Path, help="write every verdict into this file, as JSON")
    return parser.parse_args()


def run(mutants: list[Mutant], root: Path, workers: int, wanted: list[str]) -> list[Verdict]:
    """The verdicts, with a word on the way about every mutant that breaks a stage instead of being refused by it."""
    began = time.monotonic()

    def told(number: int, verdict: Verdict) -> None:
        if verdict.crashed:
            print(f"broke the program: {verdict.mutant.id}\n{verdict.said}")
        if number % 100 == 0 or number == len(mutants):
            print(f"{number} of {len(mutants)}, {time.monotonic() - began:.0f} s", flush=True)

    return tried(mutants, root, workers, wanted, told)


def main() -> int:
    """Run it; 1 where the rules themselves are refused."""
    arguments = parsed()
    with tempfile.TemporaryDirectory(prefix="mutants") as base:
        root = Path(base)
        copied(root)
        mutants = chosen(mutants_of(root / "rules", arguments.others), arguments)
        if arguments.list:
            print("\n".join(f"{each.file}:{each.line} {each.id}" for each in mutants))
            return 0
        refused = sound(root)
        verdicts = run(mutants, root, arguments.workers, arguments.stages) if not refused else []
        refused = refused or sound(root)
    if refused:
        print(f"the rules as they are do not pass: {refused}")
        return 1
    if arguments.verdicts:
        entries = [{"id": each.mutant.id, "stage": each.stage, "said": each.said} for each in verdicts]
        arguments.verdicts.write_text(json.dumps(entries, indent=1), encoding="utf-8")
    found = summary(verdicts)
    if not arguments.sample and not arguments.only and arguments.others == 1 and arguments.stages == list(STAGES):
        written = yaml.safe_dump(found, sort_keys=False, width=140, allow_unicode=True)
        RESULT.write_text("# Written by run.py; reasons are kept in reasons.yaml.\n" + written, encoding="utf-8")
        for one in stale(verdicts):
            print(f"no survivor bears this id of reasons.yaml: {one}")
    print(yaml.safe_dump({name: value for name, value in found.items() if name != "operators"}, sort_keys=False, width=200))
    return 0


if __name__ == "__main__":
    with contextlib.suppress(KeyboardInterrupt):
        sys.exit(main())
