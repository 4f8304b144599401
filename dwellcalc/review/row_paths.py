"""What is wrong in a home that rows describe, told by the rows, which is what the user wrote."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from dwellcalc.home.errors import STEP
from dwellcalc.placed import spaced
from dwellcalc.problems import InputError, Problem

PATH, ROWS, RATING = "path", "rows", "rating"


def by_rows(error: InputError, unit: str, lists: tuple[str, ...], cells: Mapping[str, str]) -> InputError:
    """The same problems with the paths of a home file in the words of a submittal.

    Args:
        error: what reading the home found.
        unit: what the dwelling unit that holds the rows is called.
        lists: the keys that lead to the loads of a home file: those of units, of loads, and of planned loads.
        cells: the column that the rating of each load was taken from, by its name.
    """
    units, loads, planned = lists
    begins = (f"{units}{STEP}{unit}{STEP}{loads}{STEP}", f"{planned}{STEP}")
    both = tuple(text for begin in begins for text in (begin, spaced(begin)))
    return InputError([_told(each, both, cells) for each in error.problems])


def _told(problem: Problem, begins: tuple[str, ...], cells: Mapping[str, str]) -> Problem:
    path = problem.words.get(PATH, "")
    begin = next((each for each in begins if path.startswith(each)), "")
    name, _, field = path.removeprefix(begin).rpartition(STEP)
    if not begin or not name:
        return problem
    column = cells.get(name, field) if field == RATING else field
    return replace(problem, words={**problem.words, PATH: STEP.join((ROWS, name, column))})
