"""Shares as labels write them: 40 %, 40 percent, or behind a sign of multiplication 0.40."""

from __future__ import annotations

import re

from dwellcalc.units import share

PERCENT = r"\d+(?:\.\d+)?\s*(?:%|percent\b)"
PART = r"0?\.\d+(?![\d.%])(?!\s*[A-Za-z])"  # no rating, such as that of @ 0.9 kW
SHARE = re.compile(rf"{PERCENT}|(?<=[x\u00d7*@])\s*{PART}", re.IGNORECASE)
NUMBER = re.compile(r"\d*\.?\d+")


def part_of_one(said: str) -> float:
    """A share as it is written, as a part of one."""
    match = NUMBER.search(said)
    number = float(match[0]) if match is not None else 0.0
    return number if said.strip()[-1:].isdigit() else share(1.0, number)


def parts_in(text: str) -> list[float]:
    """The shares that a text says, each as a part of one."""
    return [part_of_one(each) for each in SHARE.findall(text)]
