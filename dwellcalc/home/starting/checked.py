"""Whether an answer can be taken: what it makes of the file is read as every home file is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dwellcalc.glossary import Glossary
from dwellcalc.home import messages
from dwellcalc.home.reader import home_from_text
from dwellcalc.problems import InputError, Problem

from .answers import Answer, Answers, Slot, Step
from .draft import Draft
from .lines import Line

NOT_YET = (messages.LACKS, messages.EMPTY_LIST)  # what is not answered yet is no mistake


def problems_in(lines: Sequence[Line], glossary: Glossary) -> list[Problem]:
    """What is wrong in a file that is not finished."""
    try:
        home_from_text("\n".join(line.text for line in lines), "the home file", glossary)
    except InputError as error:
        return [each for each in error.problems if each.message not in NOT_YET]
    return []


def with_answer(answers: Answers, step: Step, answer: Answer, glossary: Glossary, width: int) -> tuple[Answers, list[Problem]]:
    """The answers with one more, and what keeps it from being taken.

    Answers to later questions that no longer go with it are given up, so that they are asked anew.
    """
    tried = replace(answers, given={**answers.given, step.slot: answer})
    later = _later(tried, step)
    while True:
        lines = Draft(tried, glossary).made().lines(width)
        found = problems_in(lines, glossary)
        loose = {_owner(each, lines) for each in found} & later & set(tried.given)
        if not loose:
            return tried, found
        tried = replace(tried, given={slot: each for slot, each in tried.given.items() if slot not in loose})


def _later(answers: Answers, step: Step) -> set[Slot | None]:
    slots: list[Slot] = [each.slot for each in answers.asked()]
    return set(slots[slots.index(step.slot) + 1 :]) if step.slot in slots else set()


def _owner(problem: Problem, lines: Sequence[Line]) -> Slot | None:
    return lines[problem.place.line - 1].slot if problem.place and problem.place.line <= len(lines) else None
