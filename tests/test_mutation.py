"""A sample of the mutation run: nearly every mutant of the optional method's rules is killed or is known to change nothing.

The whole run, ``mutation/run.py``, takes about an hour on two cores and writes ``mutation/result.yaml`` with every survivor.
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
LEAST_KILLED = 0.9


def equivalent() -> tuple[str, ...]:
    """The ids, or beginnings of ids, of mutants that change nothing, each with its reason beside it."""
    kept = yaml.safe_load((HERE / "reasons.yaml").read_text(encoding="utf-8"))
    return tuple(name for group in kept if group["kind"] == "equivalent" for name in group["ids"])


@pytest.mark.slow
def test_a_sample_of_mutants(tmp_path: Path) -> None:
    path = tmp_path / "verdicts.json"
    command = [sys.executable, str(HERE / "run.py"), "--sample", str(SAMPLE), "--seed", str(SEED), "--verdicts", str(path)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    verdicts = json.loads(path.read_text(encoding="utf-8"))
    assert len(verdicts) == SAMPLE
    alive = [each["id"] for each in verdicts if not each["stage"] and not each["id"].startswith(equivalent())]
    assert len(alive) <= (1 - LEAST_KILLED) * SAMPLE, alive
