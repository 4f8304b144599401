"""What is to be put right whatever the load is: of the supply itself, and of what is calculated beside it."""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.decide.document import BesideResult, SupplyResult
from dwellcalc.decide.instructions import Instructions

CONDUCTORS_SHORT = "conductors_short"
MISSING = "{what} ({number} missing){rest}"


def shortcomings(instructions: Instructions, found: SupplyResult, suffice: Sequence[str] = ()) -> list[str]:
    """What falls short of a supply as it was sized, and of what is calculated beside it, each in the words of the rules.

    Args:
        instructions: what the assessment file says.
        found: the result.
        suffice: conductors that would suffice for the main, in print, where they are known.
    """
    sizing = found.sizing
    holds = (
        {}
        if sizing is None
        else {
            CONDUCTORS_SHORT: sizing.conductors_suffice,
            "bus_short": sizing.bus_suffices,
            "many_disconnects": sizing.few_disconnects,
        }
    )
    short = [instructions.remarks[name] for name, each in holds.items() if each is False and name in instructions.remarks]
    if suffice and holds.get(CONDUCTORS_SHORT) is False and CONDUCTORS_SHORT in instructions.remarks:
        short[0] += f" {' or '.join(suffice)} would suffice."
    circuits = found.circuits.circuits if found.circuits is not None else []
    of_circuits = [f"{each.load}: {each.listed_breaker(text)}." for each in circuits for text in each.put_right]
    return [*short, *short_beside(instructions, found).values(), *of_circuits]


def short_beside(instructions: Instructions, found: SupplyResult) -> dict[tuple[str, str], str]:
    """What is calculated beside and falls short, by method and result."""
    if_not = {each.method: each.if_not for each in instructions.beside}
    return {
        (beside.method, answer.result): _counted(if_not[beside.method][answer.result], beside)
        for beside in found.beside
        for answer in beside.answers
        if answer.value is False and answer.result in if_not[beside.method]
    }


def _counted(text: str, beside: BesideResult) -> str:
    """What falls short, with how many of what is counted are missing behind its first clause, where that is below nothing."""
    short = [f"{-each.value:g}" for each in beside.answers if isinstance(each.value, int | float) and each.value < 0]
    what, semicolon, rest = text.partition(";")
    return MISSING.format(what=what, number=" and ".join(short), rest=semicolon + rest) if short else text
