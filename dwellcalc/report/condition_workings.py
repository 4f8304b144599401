"""How a condition came to its outcome, as it is printed: what was not given, and many conditions as the lines that they are."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import groupby

from dwellcalc.evaluate.sheet import KNOWN, Outcome, SheetLine

FEW = 3  # conditions that are printed one by one
NAMES = re.compile(r"\w+(?: and \w+)+")
NOT_GIVEN, NOT_KNOWN, YES = "not given", "not known", "yes"


def not_given(outcome: Outcome) -> str:
    """What a condition that was not looked at asks about and is not given; else nothing."""
    return f"{NOT_GIVEN}: {'; '.join(outcome.missing)}" if outcome.state == KNOWN and outcome.missing else ""


def every_one(outcome: Outcome, numbers: Mapping[str, str], lines: Mapping[str, SheetLine]) -> str:
    """Many conditions that must all be met, as the lines that they are: those that are not met by number; else nothing.

    Args:
        outcome: of the line that asks for all of them.
        numbers: of printed lines, by id.
        lines: the printed lines, by number.
    """
    named = outcome.formula.split(" and ")
    by_name = {each.name: each for each in outcome.inputs}
    if not NAMES.fullmatch(outcome.formula) or len(named) <= FEW:
        return ""
    read = [by_name[name].line if name in by_name else "" for name in named]
    if not all(numbers.get(line, "").isdecimal() for line in read):
        return ""
    found: dict[str, list[str]] = {}
    for line in read:
        found.setdefault(_outcome(lines.get(numbers[line])), []).append(numbers[line])
    yes = found.pop(YES, [])
    others = [f"{_lines(those)} {what}" for what, those in found.items()]
    return "; ".join([*others, *([f"{_lines(yes)} {YES}"] if yes else [])])


def _outcome(line: SheetLine | None) -> str:
    if line is None or line.outcome is None:
        return YES
    return line.outcome.printed if line.outcome.state == KNOWN else NOT_KNOWN


def _lines(numbers: Sequence[str]) -> str:
    """Numbers of lines, those that follow each other as from the first to the last."""
    whole = sorted(int(each) for each in numbers)
    runs = [[at for _, at in run] for _, run in groupby(enumerate(whole), key=lambda each: each[1] - each[0])]
    shown = [f"{run[0]} to {run[-1]}" if len(run) > FEW - 1 else ", ".join(map(str, run)) for run in runs]
    return f"line{'s' if len(numbers) > 1 else ''} {', '.join(shown)}:"
