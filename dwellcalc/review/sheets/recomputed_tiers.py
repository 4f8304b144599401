"""A line by tiers: its quantity portion by portion.

A portion takes what it can of the quantity that the portions before it left; ``each further`` and ``the rest`` take all
of it. ``of`` gives a share of what is taken. ``for`` gives nothing where nothing is taken, else: ``the first`` and
``the rest`` give the whole amount; ``the next`` and ``each further`` give the amount once for each step taken, a part
of a step counting as one with ``or part``, half a step or more counting as one with ``or major fraction``, and a part
not counting where nothing is said.
"""

from __future__ import annotations

from dwellcalc.language.phrases import FIRST, FURTHER, REST
from dwellcalc.review.sheets.disagreements import Findings
from dwellcalc.review.sheets.recomputed_numbers import steps, total
from dwellcalc.review.sheets.recomputed_values import KNOWN, PERCENT_SIGN, UNKNOWN, Record, Value, known
from dwellcalc.units import share


def by_tiers(evaluation: Record, findings: Findings) -> Value:
    """The value of an evaluation by tiers, in the unit of its phrases; notes what disagrees in each phrase.

    Raises:
        LookupError, TypeError, ArithmeticError: it does not print what tiers must.
    """
    remaining = evaluation.get("quantity")
    if remaining is None:
        return Value(UNKNOWN if evaluation["state"] == KNOWN else evaluation["state"])
    unit = evaluation["quantity_unit"]
    values: list[float] = []
    for phrase in evaluation["phrases"]:
        _check_words(phrase, unit, findings)
        open_ended = phrase["portion"] in (FURTHER, REST)
        taken = remaining if open_ended else min(remaining, phrase["step"])
        values.append(_tier_value(phrase, taken))
        findings.check(f'part of the quantity in "{phrase["phrase"]}"', phrase["taken"], taken)
        findings.check(f'value of "{phrase["phrase"]}"', phrase["value"], values[-1])
        remaining -= taken
    units = [unit if phrase["shares"] else phrase["unit"] for phrase in evaluation["phrases"]]
    return known(total(values), PERCENT_SIGN in units)


def _tier_value(phrase: Record, taken: float) -> float:
    amount, step = phrase["amount"], phrase["step"]
    if phrase["shares"]:
        return share(taken, amount)
    if taken <= 0:
        return 0.0
    if phrase["portion"] in (FIRST, REST):
        return float(amount)
    return float(amount * steps(phrase["rounds"], taken, step))


def _check_words(phrase: Record, unit: str, findings: Findings) -> None:
    """Check that the numbers of a tier are those of its words, where both are in the same unit."""
    text, words = phrase["phrase"], ("of" if phrase["shares"] else "for") + " " + phrase["portion"]
    amount, between, size = text.partition(f" {words}")
    if not between or not size.endswith(phrase["rounds"]):
        findings.note(f'words of "{text}"', text, f"{words} {phrase['rounds']}".strip())
    _check_quantity(amount, phrase["unit"], phrase["amount"], findings)
    _check_quantity(size.removesuffix(phrase["rounds"]), unit, phrase["step"], findings)


def _check_quantity(text: str, unit: str, amount: float, findings: Findings) -> None:
    written = text.strip()
    findings.check_written(f'number in "{written}"', amount, written.removesuffix(unit))
