"""A sample of the mutation run: nearly every mutant of the rules is killed, and each survivor is known with its reason.

The whole run, ``mutation/run.py``, takes about half an hour on two cores and writes ``mutation/result.yaml``; run it again
after rules or their examples have changed.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

HERE = Path(__file__).resolve().parent / "mutation"
SAMPLE, SEED = 60, 20230401
LEAST_KILLED = 0.85
# Written or rewritten since the last whole run, which therefore says nothing of their survivors.
NOT_RUN_YET = (
    "assessment", "branch_circuits", "circuit_loads", "conductors", "connected_load", "dwelling_circuits", "equipment_grounding", "grounding", "interconnection",
    "load_control", "metered", "nameplate", "panelboards", "sizing", "voltage_drop",
)  # fmt: skip


def survivors() -> set[str]:
    """The ids of the survivors of the last whole run."""
    result = yaml.safe_load((HERE / "result.yaml").read_text(encoding="utf-8"))
    return {name for group in result["survivors"] for name in group["mutants"]}


def test_every_survivor_has_a_reason() -> None:
    kept = yaml.safe_load((HERE / "reasons.yaml").read_text(encoding="utf-8"))
    beginnings = tuple(name for group in kept for name in group["ids"])
    assert [name for name in survivors() if not name.startswith(beginnings)] == []


@pytest.mark.long
def test_a_sample_of_mutants(tmp_path: Path) -> None:
    path = tmp_path / "verdicts.json"
    command = [sys.executable, str(HERE / "run.py"), "--sample", str(SAMPLE), "--seed", str(SEED), "--verdicts", str(path)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    verdicts = json.loads(path.read_text(encoding="utf-8"))
    assert len(verdicts) == SAMPLE
    alive = [each["id"] for each in verdicts if not each["stage"]]
    assert len(verdicts) - len(alive) >= LEAST_KILLED * len(verdicts), alive
    judged = [name for name in alive if not name.split(":")[1].startswith(tuple(f"{each}." for each in NOT_RUN_YET))]
    assert [name for name in judged if name not in survivors()] == []
