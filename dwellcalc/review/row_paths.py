"""What is wrong in a home that rows describe, told by the rows, which is what the user wrote."""

from __future__ import annotations

from dataclasses import replace

from dwellcalc.home.errors import STEP
from dwellcalc.placed import spaced
from dwellcalc.problems import InputError, Problem

PATH, ROWS = "path", "rows"


def by_rows(error: InputError, unit: str, lists: tuple[str, ...]) -> InputError:
    """The same problems with the paths of a home file in the words of a submittal.

    Args:
        error: what reading the home found.
        unit: what the dwelling unit that holds the rows is called.
        lists: the keys that lead to the loads of a home file: those of units, of loads, and of planned loads.
    """
    units, loads, planned = lists
    begins = (f"{units}{STEP}{unit}{STEP}{loads}{STEP}", f"{planned}{STEP}")
    return InputError(
        [_told(each, tuple(text for begin in begins for text in (begin, spaced(begin)))) for each in error.problems]
    )


def _told(problem: Problem, begins: tuple[str, ...]) -> Problem:
    path = problem.words.get(PATH, "")
    begin = next((each for each in begins if path.startswith(each)), "")
    return replace(problem, words={**problem.words, PATH: f"{ROWS}{STEP}{path.removeprefix(begin)}"}) if begin else problem
