"""What a line is made of, in words: the lines that are added or compared, the items of a group."""

from __future__ import annotations

from dwellcalc.evaluate.printed import number
from dwellcalc.evaluate.sheet import Gathered, Outcome, Part


def line_parts(outcome: Outcome, numbers: dict[str, str]) -> str:
    """The parts of a value, those with a number by their line.

    Args:
        outcome: the value.
        numbers: the numbers of the printed lines, by id.
    """
    added = [part for part in outcome.parts if part.why == "added"]
    if added:
        return _added([part for part in added if part.value], numbers)
    compared = []
    for part in outcome.parts:
        if part.state == "known" and (part.taken or part.value):
            name = f"line {numbers[part.id]}" if part.id in numbers else part.title
            compared.append(f"{name} {part.printed}{', taken' if part.taken else ''}")
    return "; ".join(compared)


def _added(parts: list[Part], numbers: dict[str, str]) -> str:
    if parts and all(part.id in numbers for part in parts):
        return f"line {' + '.join(numbers[part.id] for part in parts)}"
    shown = [f"line {numbers[part.id]}" if part.id in numbers else f"{part.title} {number(part.value)}" for part in parts]
    return " + ".join(shown) or "none"


def members(found: Gathered) -> str:
    """The items of a group with what each gives."""
    if not found.items:
        return "none"
    shown = []
    for member in found.items:
        times = "" if member.weight == 1 else f"{member.weight:g} x "
        shown.append(f"{times}{member.item}" if member.value is None else f"{member.item} {times}{number(member.value)}")
    return (" + " if found.call.startswith(("sum", "count")) else ", ").join(shown)
