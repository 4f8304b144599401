"""Speed of reading tables of interval data, as a ratio measured in one run. Not a test: nothing is asserted.

Run it with ``python tests/benchmark_meter.py``. A year of 1-minute data is written to a file of its own; reading it, every stamp
placed in UTC, stands over a plain loop of csv.reader, datetime.fromisoformat and float over the same file. Each figure is the least
of several runs in turn. The largest memory of a process that only reads the file is told too.
"""

from __future__ import annotations

import csv
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import datetime, timedelta
from functools import partial
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from dwellcalc.language.rule_set import installed_folder, read_glossary
from dwellcalc.meter.record import Readings, Said
from dwellcalc.meter.tables.tabular import read_table

MINUTES = 525_600
SAID = {
    "plain": Said(time_zone="America/Denver", standard_time="yes", stamps="start", unit="kWh"),
    "daylight": Said(time_zone="America/Denver"),
    "flagged": Said(time_zone="America/Denver"),
}


def written(path: Path, form: str) -> None:
    """A year of invented values."""
    begin, gap = datetime(2025, 1, 1), datetime(2025, 3, 9, 2)
    with path.open("w", encoding="utf-8") as stream:
        if form == "daylight":
            stream.write("Interval start,Usage (kWh)\n")
        if form == "flagged":
            stream.write("Interval start,Delivered (kWh),Received (kWh),Estimated?\n")
        for minute in range(MINUTES):
            moment = begin + timedelta(minutes=minute)
            value = minute * 7_919 % 400
            if form != "plain" and gap <= moment < gap + timedelta(hours=1):
                continue
            flag = f",0.{value % 10:04d},{'E' if value == 7 else 'A'}" if form == "flagged" else ""
            stream.write(f"{moment:%Y-%m-%d %H:%M},0.{value:04d}{flag}\n")


def loop(path: Path) -> int:
    """The plain loop that a reader by hand would be."""
    stamps, values = [], []
    with path.open(newline="", encoding="utf-8") as stream:
        rows = csv.reader(stream)
        for row in rows:
            if row[0][:1].isdigit():
                stamps.append(datetime.fromisoformat(row[0]))
                values.append(float(row[1]))
    return len(values)


def read(path: Path, form: str, headings: dict[str, tuple[str, ...]]) -> Readings:
    """The reader of the package."""
    with path.open(newline="", encoding="utf-8") as stream:
        return read_table(stream, path.name, SAID[form], headings)


def least(runs: list[Callable[[], object]], repetitions: int = 5) -> list[float]:
    """The shortest time of each of several runs, made in turn [s]."""
    times: list[list[float]] = [[] for _ in runs]
    for _ in range(repetitions):
        for place, run in enumerate(runs):
            start = time.perf_counter()
            run()
            times[place].append(time.perf_counter() - start)
    return [min(each) for each in times]


def main() -> None:
    """Measure and print."""
    headings = read_glossary(installed_folder()).interval_columns
    with tempfile.TemporaryDirectory() as folder:
        for form in SAID:
            path = Path(folder) / f"{form}.csv"
            written(path, form)
            found = read(path, form, headings)
            plain, whole = least([partial(loop, path), partial(read, path, form, headings)])
            print(
                f"{form}: {len(found.channels[0]):,} readings; loop {plain:.3f} s, reader {whole:.3f} s, ratio {whole / plain:.2f}"
            )
            asked = [sys.executable, __file__, str(path), form]
            print(
                f"  largest memory of a process that reads it: {subprocess.run(asked, capture_output=True, text=True, check=True).stdout}"
            )


if __name__ == "__main__":
    if len(sys.argv) == 3:
        read(Path(sys.argv[1]), sys.argv[2], read_glossary(installed_folder()).interval_columns)
        status = Path("/proc/self/status").read_text(
            encoding="utf-8"
        )  # what getrusage tells includes the process that began this one
        print(next(line.split(":")[1].strip() for line in status.splitlines() if line.startswith("VmHWM")), end="")
    else:
        main()
