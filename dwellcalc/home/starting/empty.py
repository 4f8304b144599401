"""A home file to be filled in: the usual answers to choices, and marks to be replaced for all else."""

from __future__ import annotations

from dwellcalc.home.names import plain, says_unknown
from dwellcalc.home.ratings import TYPICAL

from .answers import UNKNOWN, Answer, Answers, Step
from .draft import to_fill
from .questions import NAMES_UNITS, NONE, SKIP


def fill_usual(answers: Answers) -> None:
    """Answer each question with what is usual, or with a mark."""
    for step in answers.steps():
        if answers.holds(step):
            answers.given[step.slot] = Answer(_usual(step, answers))


def _usual(step: Step, answers: Answers) -> str:
    question = step.question
    enter = answers.enter(question)
    kept = (
        question.choices
        or question.form == NAMES_UNITS
        or question.settings
        or plain(enter) in (NONE, SKIP)
        or (not question.kind and enter and enter == question.not_known)  # bounds of a load would stay if they were overlooked
    )
    if (kept and plain(enter) not in (UNKNOWN, TYPICAL)) or (not question.kind and not question.example):
        return enter
    return enter if says_unknown(enter) and plain(enter) != UNKNOWN else to_fill(question)
